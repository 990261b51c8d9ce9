/* Private to app: the years of one bay, worked out on a thread of its own. No drawing here.
 * What a counter says is ready stays as it is; the window reads it without waiting. */
#ifndef APP_YEARS_JOB_H
#define APP_YEARS_JOB_H

#include "core/aged_heat.h"
#include "core/compare.h"

#include <SDL.h>

enum {
    YEARS_KEYS = 28,  /* times with picture and heat; few enough for one call of pullback-cli age */
    YEARS_BANDS = 11, /* times of the band */
    YEARS_FIRST_DRAWS = 8,
    YEARS_DRAWS = 40,
    YEARS_MAP_NX = 48,
    YEARS_MAP_NY = 160
};

typedef struct YearsInput {
    PbBayField field; /* borrowed for the start, copied */
    PbConstants constants;
    PbClimate climate;
    PbWall wall;
    double room_c, outdoor_c;
    uint64_t seed;
} YearsInput;

/* The fill at one key time. */
typedef struct YearsFrame {
    float *density; /* [ny][nx] */
    PbSettleReport report;
} YearsFrame;

/* The depth section where the top gap is widest, with its air. */
typedef struct YearsSection {
    int nx, ny, has_loop, is_own_flow;
    double psi_max_m2_s;
    float *z_m, *y_m; /* nx + 1, ny + 1 lines */
    float *psi_m2_s;  /* [ny + 1][nx + 1] */
    uint8_t *is_open; /* [ny][nx] open air */
} YearsSection;

/* The heat at one key time. */
typedef struct YearsKey {
    double r_m2k_w;     /* of the whole wall, with the framing of a usual house: compare.h */
    double bay_r_m2k_w; /* of this bay and its stud */
    double heat_w, low_c, high_c; /* room-side surface */
    float *map_c;                 /* [YEARS_MAP_NY][YEARS_MAP_NX] */
    YearsSection section;
} YearsKey;

/* One draw at one time of the band. */
typedef struct YearsSample {
    double top_gap_m, r_m2k_w;
} YearsSample;

typedef struct YearsJob {
    YearsInput in; /* its own copy of the field */
    YearsFrame frames[YEARS_KEYS];
    YearsKey keys[YEARS_KEYS];
    YearsSample draws[YEARS_DRAWS][YEARS_BANDS];
    int section_first, section_count; /* columns of the field; ready with the frames */
    SDL_atomic_t frames_ready, keys_ready, draws_ready, is_cancelled, is_over, status;
    SDL_Thread *thread;
    PbError err; /* valid once is_over */
} YearsJob;

extern const double years_key_times[YEARS_KEYS];
extern const int years_band_keys[YEARS_BANDS]; /* key of each time of the band */

/* NULL when there is no memory or no thread. */
YearsJob *years_job_start(const YearsInput *in);
/* Ask it to stop; it does so after the piece in hand. */
void years_job_cancel(YearsJob *job);
int years_job_is_over(YearsJob *job);
/* Share of the whole, 0..1. */
double years_job_progress(YearsJob *job);
/* Waits for the thread: call when it is over, or at the end of the program. NULL allowed. */
void years_job_free(YearsJob *job);
/* Heat through the bay and its share of the studs, W. */
double years_heat_w(const YearsJob *job, double r_m2k_w);

#endif
