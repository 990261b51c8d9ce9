/* A whole run without a window: the loop that run, bench and later verbs share. */
#ifndef CLI_RUN_SESSION_H
#define CLI_RUN_SESSION_H

#include "core/hands.h"
#include "core/watched.h"
#include "io/run_recorder.h"

#include <stdio.h>

typedef struct CliRun {
    PbWatched watched; /* over when cli_run returns PB_OK; caller ends it */
    double wall_s;     /* of the stepping alone */
    double tuft_ticks; /* tufts in the air, summed over the ticks */
} CliRun;

/* What a run may be asked besides its result. Zero it for nothing. */
typedef struct CliRunExtras {
    FILE *signals;           /* a row each tick */
    PbProfile *profile;      /* filled, at the cost of reading the clock in every stage */
    double (*clock_s)(void); /* for the profile; NULL: io_clock_s */
    IoRecorder *recorder;    /* told of every step */
    double pace;             /* times real time, 0 = as fast as it goes */
} CliRunExtras;

/* Create the session and step it to its end with these hands. */
PB_NODISCARD PbStatus cli_run(const PbSessionConfig *config, const PbHands *hands,
                              const CliRunExtras *extras, CliRun *run, PbError *err);
/* The climate that an exercise names, from the asset folders. */
PB_NODISCARD PbStatus cli_climate_of(const PbExercise *exercise, PbClimate *climate, PbError *err);
/** @brief The same, as a judge of runs asks (io/run_judge.h). `user` is not used. */
PB_NODISCARD PbStatus cli_find_climate(void *user, const PbExercise *exercise, PbClimate *climate,
                                       PbError *err);

#endif
