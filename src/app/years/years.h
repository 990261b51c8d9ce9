/* Private to app: what the Years later room holds between frames. Read scr_years.c first. */
#ifndef APP_YEARS_H
#define APP_YEARS_H

#include "base/app.h"
#include "base/rail.h"
#include "io/climate_words.h"
#include "years/job.h"

enum { YEARS_MAX_DYING = 16, YEARS_STREAKS = 70 };

enum {
    ID_YEARS_PLAY = 400,
    ID_YEARS_RAIL, /* the next number: rail.h */
    ID_YEARS_OUT,
    ID_YEARS_IN,
    ID_YEARS_HUMIDITY,
    ID_YEARS_STOP,
    ID_YEARS_BACK,
    ID_YEARS_TABS,
    ID_YEARS_SIDE
};

/* A band over the years as the draws that are done give it. */
typedef struct YearsBand {
    int draws;
    PbBand gap[YEARS_BANDS], r[YEARS_BANDS], heat[YEARS_BANDS];
} YearsBand;

typedef struct YearsStreak {
    float z_m, y_m, age_s;
} YearsStreak;

/* What a picture is made of; as long as all of it stays, the picture does. */
typedef struct YearsMoment {
    const YearsJob *job;
    int frames, keys, draws; /* of it that are ready */
    double years, room_c, outdoor_c;
} YearsMoment;

/* What a layout leaves behind, as AppLaid. */
typedef struct YearsLaid {
    double spot_c; /* under the pointer; NaN when it is elsewhere */
} YearsLaid;

typedef struct Years {
    YearsLaid *laid;
    PbBayField field; /* the bay as filled */
    YearsJob *job;    /* at work or done */
    YearsJob *shown;  /* drawn now: job, or the one before until job has caught up */
    YearsJob *dying[YEARS_MAX_DYING];
    YearRail rail; /* now */
    int is_stopped, tab, is_busy_tab;
    double room_c, outdoor_c;
    int climate, climate_count; /* the chosen one, of those that were found */
    PbClimate climates[IO_CLIMATES];
    double restart_at_s;              /* program time; 0 = no restart is due */
    double opened_s, first_picture_s; /* clock of the machine, for the dump */
    YearsMoment moment;               /* of what follows, down to the band */
    uint64_t picture;                 /* its number */
    float *density, *heat_c;
    uint8_t *marks;
    double gap_m, r_m2k_w, bay_r_m2k_w, heat_w, mean_kg_m3, low_c, high_c;
    int has_heat, heat_key;
    YearsBand band;
    const YearsJob *band_of;
    YearsStreak streaks[YEARS_STREAKS];
    uint32_t seed;
    int has_streaks; /* they go round already */
    AppScreen back;
} Years;

/* years_state.c: how much wider than when it was worked out the air's difference is now; 1 once the
 * answer for a moved weather is there. Heat and surface temperatures stretch by it. */
double years_stretch(const Years *y);
/* The picture of the moment out of the job's, when it is another moment. */
void years_blend(App *app, Years *y);
/* Temperature of the picture at u, v in 0..1 (v up), as the screen draws it. */
double years_spot(const Years *y, double u, double v);
/* at `years` on the band; 0 when no draws are done */
int years_band_at(const Years *y, const PbBand *band, double years, PbBand *out);
/* years_face.c, years_section.c, years_camera.c, years_charts.c, years_weather.c */
void years_face_draw(const App *app, const Years *y, GfxRect inner, double px_m);
void years_section_draw(const App *app, const Years *y, GfxRect inner, double px_m, double wider);
void years_streaks_step(Years *y, double dt_s);
void years_camera_draw(const App *app, const Years *y, GfxRect r);
void years_charts_draw(const App *app, const Years *y, GfxRect r);
/* top band from x on */
void years_band_draw(const App *app, float x, const char *title, const char *detail);
void years_weather_draw(const App *app, const Years *y, GfxRect r);
void years_weather_tab_draw(const App *app, const Years *y, GfxRect r);
void years_weather_answer(App *app, Years *y);
/* for format of temperatures and R */
const char *years_fmt_c(const App *app, double c, int decimals);
const char *years_fmt_r(const App *app, double r_m2k_w);
const char *years_fmt_w(const App *app, double w);
/* "<1" for what rounds to nothing */
const char *years_fmt_gap(const App *app, double m, int with_unit);
/* "2 to 5 mm"; one figure when both ends read the same. Unit may be "". */
void years_fmt_range(const char *low, const char *high, const char *unit, char *out, size_t size);
/* Nonzero while what is drawn is still of another humidity than the one that is chosen. */
int years_is_of_before(const Years *y);

#endif
