/* A whole run without a window: the loop that run, bench and later verbs share. */
#ifndef CLI_RUN_SESSION_H
#define CLI_RUN_SESSION_H

#include "core/hands.h"
#include "core/session.h"
#include "io/result_file.h"

#include <stdio.h>

/* Stalls of a run; a run has at most a few dozen, more are counted but not listed. */
enum { CLI_MAX_STALLS = 512 };

typedef struct CliRun {
    PbSession *session; /* over when cli_run returns PB_OK; caller destroys it */
    IoStall stalls[CLI_MAX_STALLS];
    int stall_count;
    double wall_s; /* of the stepping alone */
} CliRun;

/* Seconds of a clock that never goes back. */
double cli_clock_s(void);

/*
 * Create the session and step it to its end with these hands.
 * signals: a row each tick is written there; may be NULL.
 * profile: filled when given, at the cost of reading the clock in every stage.
 */
PB_NODISCARD PbStatus cli_run(const PbSessionConfig *config, const PbHands *hands, FILE *signals,
                              PbProfile *profile, CliRun *run, PbError *err);

#endif
