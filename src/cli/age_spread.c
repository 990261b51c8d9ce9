/*
 * Many draws on the cores of this machine. Draws are claimed in order and stored by index, so that
 * the result is the same for any number of threads. Ctrl-C stops between draws and prints nothing.
 */
#include "age.h"

#include "cli/front.h"

#include "os/process.h"
#include "os/signal.h"

#include <pthread.h>
#include <stdlib.h>
#include <string.h>

static volatile sig_atomic_t interrupted;

static void on_interrupt(int signal_number)
{
    (void)signal_number;
    interrupted = 1;
}

/* Shared by the workers; everything below the lock is guarded by it. */
typedef struct Crew {
    const AgeSpread *spread;
    double *samples; /* [draws][times][metrics] */
    int show_progress;
    pthread_mutex_t lock;
    int next, done;
    int failed_at; /* the first failed draw, or draws */
    PbStatus status;
    PbError err;
} Crew;

static int claim(Crew *crew)
{
    pthread_mutex_lock(&crew->lock);
    int draw = interrupted || crew->status != PB_OK ? crew->spread->draws : crew->next;
    if (draw < crew->spread->draws) {
        crew->next++;
    }
    pthread_mutex_unlock(&crew->lock);
    return draw;
}

static void finish_draw(Crew *crew, int draw, PbStatus status, const PbError *err)
{
    pthread_mutex_lock(&crew->lock);
    crew->done++;
    if (status != PB_OK && draw < crew->failed_at) {
        crew->failed_at = draw;
        crew->status = status;
        crew->err = *err;
    }
    if (crew->show_progress) {
        fprintf(stderr, "\rdraw %d of %d", crew->done, crew->spread->draws);
        fflush(stderr);
    }
    pthread_mutex_unlock(&crew->lock);
}

static void *work(void *user)
{
    Crew *crew = user;
    size_t size = (size_t)crew->spread->times * (size_t)crew->spread->metrics;
    for (int d = claim(crew); d < crew->spread->draws; d = claim(crew)) {
        PbError err = {0};
        PbStatus status =
            crew->spread->draw(crew->spread->user, d, crew->samples + (size_t)d * size, &err);
        err.status = status;
        finish_draw(crew, d, status, &err);
    }
    return NULL;
}

static int thread_count(int asked, int draws)
{
    int cores = os_cores(), n = asked > 0 ? asked : (cores < 256 ? cores : 1);
    return n < draws ? n : draws;
}

/* Run all draws of the crew. CLI exit code. */
static int run_crew(Crew *crew, int threads)
{
    pthread_t ids[256];
    int started = 0;
    interrupted = 0;
    os_interrupt_begin(on_interrupt);
    while (started + 1 < threads && pthread_create(&ids[started], NULL, work, crew) == 0) {
        started++;
    }
    work(crew); /* this thread is one of them */
    for (int i = 0; i < started; i++) {
        pthread_join(ids[i], NULL);
    }
    os_interrupt_end(interrupted);
    if (crew->show_progress) {
        fprintf(stderr, "\n");
    }
    if (interrupted) {
        fprintf(stderr, "pullback-cli age: stopped after %d of %d draws; nothing was written\n",
                crew->done, crew->spread->draws);
        return CLI_NO;
    }
    return crew->status == PB_OK ? CLI_DONE : cli_report(&crew->err);
}

int age_spread_print(const AgeOptions *o, const AgeSpread *spread, IoAgeResult *result)
{
    Crew crew = {.spread = spread,
                 .failed_at = spread->draws,
                 .show_progress = o->progress || os_errors_are_seen()};
    size_t size = (size_t)spread->draws * (size_t)spread->times * (size_t)spread->metrics;
    crew.samples = calloc(size, sizeof *crew.samples);
    if (crew.samples == NULL) {
        return cli_printed(PB_ERR_MEMORY);
    }
    int code = CLI_INTERNAL;
    if (pthread_mutex_init(&crew.lock, NULL) == 0) {
        code = run_crew(&crew, thread_count(o->threads, spread->draws));
        pthread_mutex_destroy(&crew.lock);
    }
    if (code == CLI_DONE) {
        IoAgeSamples samples = {crew.samples,    spread->draws, spread->times,
                                spread->metrics, spread->names, (uint64_t)o->seed};
        PbStatus status = io_age_bands(result, &samples);
        code = cli_printed(status == PB_OK ? io_age_print(stdout, result, o->json) : status);
    }
    free(crew.samples);
    return code;
}
