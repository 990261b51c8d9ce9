/* Private to app: gauges that stand for what a crew hears and feels. They are given what a crew can
 * sense and what the screen remembers, nothing else: neither this header nor gauge_plates.c knows
 * the run, so the compiler keeps the fill out of them. */
#ifndef APP_GAUGE_H
#define APP_GAUGE_H

#include "base/heard.h"
#include "base/spill.h"
#include "base/words.h"

#include "audio/audio.h"
#include "core/view.h"
#include "io/taste.h"
#include "ui/ui.h"

/* What is on the machine's plate and was seen before the work began. */
typedef struct SightPlan {
    double width_m, height_m, hole_x_m, hole_y_m;
    double static_pa, open_flow_m3_s, feed_max_kg_s;
    double tube_length_m, tube_outer_m, hole_bore_m, fastener_m;
    PbHole holes[PB_MAX_HOLES]; /* all that were cut; the tube is in the one above */
    int hole_count;
    int has_cover; /* an outlet cover on the face */
    double cover_x_m, cover_y_m;
} SightPlan;

enum { GAUGE_TRACE = 100 }; /* values that are remembered, one each 0.2 s */

/* What a person at the hole remembers: made from signals alone. */
typedef struct SightMemory {
    double rest_m, last_m, moved_s, here_since_s;
    double last_pull_m; /* + out; 0 = none yet */
    double stop_min_pa, stop_max_pa;
    double plug_since_s; /* negative = not plugged */
    double seen_s;
    int is_moving, is_started;
    float rattle[GAUGE_TRACE]; /* heard of late, the newest last */
    int heard;                 /* number of the newest since the start of the run */
} SightMemory;

typedef struct Gauge {
    Ui *ui;
    const PbSignals *signals;
    SightPlan plan;
    double needle_pa, now_s, tube_in_m; /* lagged, program time, between two ticks */
    double stop_min_pa, stop_max_pa;
    double wax_pressure_pa, wax_pitch, wax_pulse; /* negative = no mark */
    IoReaderTaste reader;
    int is_still, is_captioned;
} Gauge;

/* A figure with its unit into `out`. */
const char *gauge_figure(const Gauge *g, char *out, size_t size, int decimals, double value,
                         const char *unit);
const char *gauge_length(const Gauge *g, char *out, size_t size, double m);
GfxRect gauge_plate(Ui *ui, GfxRect r, const char *title, const char *value, double value_size);
void gauge_fan(const Gauge *g, GfxRect r, int has_focus);
void gauge_sound(const Gauge *g, GfxRect r, int has_focus);
void gauge_shake(const Gauge *g, GfxRect r, int has_focus);
/* Height of tooth k of the sound comb, 0..1, by the blower's pitch and loudness. */
enum { GAUGE_TEETH = 28 };
double gauge_tooth(const Gauge *g, int k, double *pitch, double *loud);
/* The last seconds of flow and rattle, a value each 0.2 s, the newest last. */
typedef struct GaugeTrace {
    float flow_m3_s[GAUGE_TRACE];
    const float *rattle;   /* [GAUGE_TRACE], borrowed */
    double best_flow_m3_s; /* at this stop */
    const char *flow;      /* figure of now; NULL = a crew has no flow meter: no bars */
    int newest;            /* number of the newest value since the start of the run */
} GaugeTrace;
/* Flow as bars, the rattle as specks over them, the pitch as a standing comb. */
void gauge_flow_rattle(const Gauge *g, const GaugeTrace *trace, GfxRect r, int has_focus);
/* Tooth of the sound comb at the blower's pitch. */
double gauge_pitch(const PbSignals *s, double static_pa);
/* What the ear would say, for gauge titles and the captions line; plain sentence into `out`. */
const char *gauge_caption(const Gauge *g, char *out, size_t size);
/* One word for what is heard of the fill, else of the machine. */
const char *gauge_rattle_word(const Gauge *g);
/* The sound's own values from what a crew senses. */
AudioParams gauge_audio(const PbSignals *s, const SightPlan *plan, double volume);

/* closed.c: the face of the wall with nothing of what is behind it. Without a memory nothing is
 * written over it. */
void closed_wall_draw(const Gauge *g, const SightMemory *m, GfxRect r, double *px_per_m,
                      GfxRect *hole);
float closed_card_draw(const Gauge *g, const SightMemory *m, float x, float y);
float closed_card_width(const Gauge *g, const SightMemory *m);
/* Wraps in r.w. Returns its height. */
float closed_caption_draw(const Gauge *g, GfxRect r);
void closed_memory_step(SightMemory *m, const PbSignals *s);

#endif
