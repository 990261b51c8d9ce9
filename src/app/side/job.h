/* Private to app: the comparison of a house, worked out on a thread of its own. No drawing here.
 * What is finished may be read at any time (core/compare.h); the window never waits for work. */
#ifndef APP_SIDE_JOB_H
#define APP_SIDE_JOB_H

#include "core/compare.h"

#include <SDL.h>

typedef struct SideJob {
    PbCompare *compare;
    int year_count, frame_count;
    double years[PB_COMPARE_MAX_TIMES];
    double frame_years[PB_COMPARE_MAX_FRAMES];
    SDL_Thread *thread;
    double cost_all;
    SDL_atomic_t pieces; /* finished: grows whenever there is something new to show */
    SDL_atomic_t millionths, is_cancelled, is_over, status;
    PbError err; /* valid once is_over */
} SideJob;

/* Begin with the figures of `years`, and with what `count` jobs before it (some may be NULL, some
 * at work) have worked out. NULL with a sentence in err when the house is refused or there is no
 * memory. */
SideJob *side_job_start(const PbCompareSetup *setup, double years, const SideJob *const *before,
                        int count, PbError *err);
/* Ask it to stop; it does so within the pieces in hand. */
void side_job_cancel(SideJob *job);
int side_job_is_over(SideJob *job);
/* Share of the whole, 0..1. */
double side_job_progress(SideJob *job);
/* Are the pictures of this fill there? */
int side_job_has_frames(const SideJob *job, PbCompareFill fill);
/* Draws that are finished for all fills at this time. */
int side_job_draws(const SideJob *job, double years);
/* Waits for the thread: call when it is over, or at the end of the program. NULL allowed. */
void side_job_free(SideJob *job);

#endif
