/* Private to app: one run of the simulation and the pictures kept of it. No SDL here.
 * The session steps in whole ticks; what is drawn lies between the last two of them. */
#ifndef APP_RUN_H
#define APP_RUN_H

#include "core/job_hands.h"
#include "core/watched.h"
#include "io/run_recorder.h"

#include "gfxtypes/draw.h"

enum { RUN_MAX_PATCHES = 4096, RUN_MAX_LIFTS = 256, RUN_FLOW_BARS = 60, RUN_MAX_STEPS = 5 };

typedef struct Run {
    PbSessionConfig config;
    PbWatched watched;  /* its session, samples, result and marks */
    const PbView *view; /* borrowed from the session */
    PbCommand queue[64];
    int queued;
    double accumulator_s;
    double alpha;     /* 0..1 from the tick before to the newest */
    double dropped_s; /* time given up because the machine was too slow */

    float *before, *now, *blend; /* density [ny][nx] */
    float mouth_before_m, mouth_now_m, tube_before_m, tube_now_m;
    uint8_t *marks;
    int mark_nx, mark_ny;
    PbPatch patches[RUN_MAX_PATCHES];
    int patch_count;

    double stop_pressure_pa; /* at the start of this stop */
    double stop_max_pa, stop_min_pa;
    int stop_seen;
    IoRecorder *recorder; /* NULL = not recorded; opened and ended by records.c */
    int is_worked;        /* a person has done something in it */
    int is_crew;          /* `crew` works it; a person's hands are shut */
    PbJobWorker crew;
    int is_part;         /* no whole fill is asked for: the guide's, or a bay to leave empty */
    int taken_up_tick;   /* of a run that goes on: where it had been left; 0 = a new one */
    double blocked_s;    /* when the tube last met something */
    double blow_out_y_m; /* where the face gave way, when it did */

    PbEvent events[64]; /* new ones, for the screen to take */
    int event_count;
    PbStatus status;  /* of the last step, or of the marks at its end */
    uint64_t version; /* grows when the pictures change */
} Run;

/* Start (or start again) with this config, copied; it may be the run's own. When it is refused, or
 * memory runs out, the run that was there goes on. `run` is zero before its first start. */
PB_NODISCARD PbStatus run_start(Run *run, const PbSessionConfig *config, PbError *err);
/* Is this height to be judged (hatched)? While the run goes on, what is inside the reach of a stop
 * that is over; then everything, but for a bay that was not to be filled whole (`is_part`): of it
 * only what a stop reached. */
int run_is_judged(const PbView *v, const PbRubric *rubric, int is_part, double y_m);
/* Give everything back; nothing of a run that was never started. */
void run_free(Run *run);
/* Ask for something at the next tick; a newer request of the same kind replaces an older one. */
void run_command(Run *run, PbCommandKind kind, double value);
/* Let simulated time pass; at most `max_steps` ticks a call, the rest is dropped and counted. */
void run_advance(Run *run, double dt_s, int max_steps);
/* Exactly one tick, with what is queued. */
void run_tick(Run *run);
/* Blend the last two ticks for drawing; returns what the renderer needs. */
GfxFieldData run_field(Run *run);
double run_mouth_y(const Run *run);
double run_tube_in(const Run *run);
/* The hole that the tube is in, or in front of. */
const PbHole *run_hole(const Run *run);
/* Furthest that the tube can go with the mouth turned as it is. */
double run_tube_max(const Run *run);

#endif
