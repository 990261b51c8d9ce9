/* The worker of a drill: finds the trial, then packs the same run once more up to where somebody
 * begins to listen, some hundred times faster than life. */
#include "drill/job.h"

#include <stdlib.h>

static const double FINDING = 0.6; /* share of the work */

static int told(void *user, double share)
{
    DrillJob *job = user;
    SDL_AtomicSet(&job->permille, (int)(1000.0 * FINDING * share));
    return SDL_AtomicGet(&job->is_cancelled);
}

static PbStatus lead_up(DrillJob *job)
{
    PB_TRY(run_start(&job->run, &job->trial.config, &job->err));
    int start = job->trial.start_tick;
    while (job->run.view->tick < start) {
        if (SDL_AtomicGet(&job->is_cancelled)) {
            return PB_ERR_STATE;
        }
        int tick = job->run.view->tick;
        job->run.queued = pb_drill_commands(&job->trial, tick, job->run.queue);
        run_tick(&job->run);
        if (job->run.status != PB_OK) {
            return job->run.status;
        }
        SDL_AtomicSet(&job->permille, (int)(1000.0 * (FINDING + (1.0 - FINDING) * tick / start)));
    }
    return PB_OK;
}

static int work(void *user)
{
    DrillJob *job = user;
    SDL_SetThreadPriority(SDL_THREAD_PRIORITY_LOW);
    job->status =
        pb_drill_make(job->seed, job->number, &job->base, told, job, &job->trial, &job->err);
    if (job->status == PB_OK) {
        job->status = lead_up(job);
    }
    SDL_AtomicSet(&job->is_over, 1);
    return 0;
}

DrillJob *drill_job_start(const PbSessionConfig *base, uint64_t seed, int number)
{
    DrillJob *job = calloc(1, sizeof *job);
    if (job == NULL) {
        return NULL;
    }
    job->base = *base;
    job->seed = seed;
    job->number = number;
    job->thread = SDL_CreateThread(work, "drill", job);
    if (job->thread == NULL) {
        free(job);
        return NULL;
    }
    return job;
}

void drill_job_end(DrillJob *job)
{
    if (job == NULL) {
        return;
    }
    SDL_AtomicSet(&job->is_cancelled, 1);
    SDL_WaitThread(job->thread, NULL);
    run_free(&job->run);
    free(job);
}

int drill_job_is_over(DrillJob *job)
{
    return SDL_AtomicGet(&job->is_over);
}

double drill_job_share(DrillJob *job)
{
    return SDL_AtomicGet(&job->permille) / 1000.0;
}
