/* Private to app: one trial of a drill, made on a thread of its own and brought to where listening
 * begins. No drawing here. */
#ifndef APP_DRILL_JOB_H
#define APP_DRILL_JOB_H

#include "base/run.h"

#include "core/drill.h"

#include <SDL.h>

typedef struct DrillJob {
    SDL_Thread *thread;
    SDL_atomic_t is_over, is_cancelled, permille;
    PbSessionConfig base;
    uint64_t seed;
    int number;
    PbStatus status; /* these once is_over */
    PbError err;
    PbDrillTrial trial;
    Run run; /* at trial.start_tick */
} DrillJob;

/* NULL without memory. */
DrillJob *drill_job_start(const PbSessionConfig *base, uint64_t seed, int number);
/* Waits for the thread, which stops within a few milliseconds when it was at work. NULL allowed. */
void drill_job_end(DrillJob *job);
int drill_job_is_over(DrillJob *job);
double drill_job_share(DrillJob *job); /* 0..1 */

#endif
