/* The worker of Side by side: the pieces of a comparison in their best order, on the cores that the
 * window leaves free. Cancelling takes effect between pieces. */
#include "side/job.h"

#include "io/parallel.h"

#include <stdlib.h>
#include <string.h>

static int is_stopped(void *user)
{
    SideJob *job = user;
    return SDL_AtomicGet(&job->is_cancelled);
}

static void done(void *user, int n)
{
    SideJob *job = user;
    double share = job->cost_all > 0.0 ? pb_compare_piece(job->compare, n).cost / job->cost_all : 0;
    SDL_AtomicAdd(&job->millionths, (int)(share * 1e6 + 0.5));
    SDL_AtomicAdd(&job->pieces, 1);
}

static int work(void *user)
{
    SideJob *job = user;
    IoParallel crew = io_parallel_default();
    /* All cores: threads of low priority, which those it starts inherit, give way to the window. */
    SDL_SetThreadPriority(SDL_THREAD_PRIORITY_LOW);
    PbStatus status = pb_compare_run_all(job->compare, crew.threads > 1 ? io_parallel_for : NULL,
                                         &crew, is_stopped, done, job, &job->err);
    SDL_AtomicSet(&job->status, (int)status);
    SDL_AtomicSet(&job->is_over, 1);
    SDL_AtomicAdd(&job->pieces, 1);
    return 0;
}

SideJob *side_job_start(const PbCompareSetup *setup, double years, const SideJob *const *before,
                        int count, PbError *err)
{
    SideJob *job = calloc(1, sizeof *job);
    PbStatus status = job != NULL ? pb_compare_create(setup, &job->compare, err) : PB_ERR_MEMORY;
    for (int i = 0; i < count && status == PB_OK; i++) {
        status = before[i] != NULL ? pb_compare_take_over(job->compare, before[i]->compare) : PB_OK;
    }
    if (status == PB_OK) {
        pb_compare_look(job->compare, years);
        job->year_count = setup->year_count;
        memcpy(job->years, setup->years, sizeof job->years);
        job->frame_count = pb_compare_frame_count(job->compare);
        for (int i = 0; i < job->frame_count; i++) {
            job->frame_years[i] = pb_compare_frame_years(job->compare, i);
        }
        for (int n = 0; n < pb_compare_piece_count(job->compare); n++) {
            int is_left = !pb_compare_is_done(job->compare, n);
            job->cost_all += is_left ? pb_compare_piece(job->compare, n).cost : 0.0;
        }
        job->thread = SDL_CreateThread(work, "side", job);
        status = job->thread != NULL ? PB_OK : PB_ERR_MEMORY;
    }
    if (status == PB_ERR_MEMORY) {
        SDL_strlcpy(err->message, "there is not enough memory", sizeof err->message);
    }
    if (status != PB_OK && job != NULL) {
        pb_compare_destroy(job->compare);
        free(job);
        job = NULL;
    }
    return job;
}

void side_job_cancel(SideJob *job)
{
    SDL_AtomicSet(&job->is_cancelled, 1);
    pb_compare_stop(job->compare);
}

int side_job_is_over(SideJob *job)
{
    return SDL_AtomicGet(&job->is_over);
}

double side_job_progress(SideJob *job)
{
    double share = SDL_AtomicGet(&job->millionths) * 1e-6;
    return share < 1.0 ? share : 1.0;
}

int side_job_has_frames(const SideJob *job, PbCompareFill fill)
{
    int last = job->frame_count - 1;
    return fill == PB_COMPARE_EMPTY  ? 1
           : fill == PB_COMPARE_FOAM ? pb_compare_foam(job->compare, last) != NULL
                                     : pb_compare_density(job->compare, fill, last).values != NULL;
}

int side_job_draws(const SideJob *job, double years)
{
    PbCompareFigures f;
    int least = PB_COMPARE_MAX_DRAWS;
    for (int k = 0; k < PB_COMPARE_FILLS; k++) {
        pb_compare_figures_at(job->compare, (PbCompareFill)k, years, &f);
        least = f.draws < least ? f.draws : least;
    }
    return least;
}

void side_job_free(SideJob *job)
{
    if (job == NULL) {
        return;
    }
    side_job_cancel(job);
    SDL_WaitThread(job->thread, NULL);
    pb_compare_destroy(job->compare);
    free(job);
}
