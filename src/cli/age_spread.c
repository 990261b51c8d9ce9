/*
 * Many draws on the cores of this machine, or one shard of them. Draws are claimed in order and
 * stored by index, so that the result is the same for any number of threads. Ctrl-C stops between
 * draws and prints nothing. Joining shards again is verb_merge.c.
 */
#include "age.h"
#include "verbs.h"

#include <pthread.h>
#include <signal.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

static volatile sig_atomic_t interrupted;

static void on_interrupt(int signal_number)
{
    (void)signal_number;
    interrupted = 1;
}

/* Shared by the workers; everything below the lock is guarded by it. */
typedef struct Crew {
    const AgeSpread *spread;
    double *samples; /* [mine][times][metrics] */
    int first, stride, mine;
    int show_progress;
    pthread_mutex_t lock;
    int next, done;
    int failed_at; /* position of the first failed draw, or mine */
    PbStatus status;
    PbError err;
} Crew;

static int claim(Crew *crew)
{
    pthread_mutex_lock(&crew->lock);
    int position = interrupted || crew->status != PB_OK ? crew->mine : crew->next;
    if (position < crew->mine) {
        crew->next++;
    }
    pthread_mutex_unlock(&crew->lock);
    return position;
}

static void finish_draw(Crew *crew, int position, PbStatus status, const PbError *err)
{
    pthread_mutex_lock(&crew->lock);
    crew->done++;
    if (status != PB_OK && position < crew->failed_at) {
        crew->failed_at = position;
        crew->status = status;
        crew->err = *err;
    }
    if (crew->show_progress) {
        fprintf(stderr, "\rdraw %d of %d", crew->done, crew->mine);
        fflush(stderr);
    }
    pthread_mutex_unlock(&crew->lock);
}

static void *work(void *user)
{
    Crew *crew = user;
    size_t size = (size_t)crew->spread->times * (size_t)crew->spread->metrics;
    for (int p = claim(crew); p < crew->mine; p = claim(crew)) {
        PbError err = {0};
        PbStatus status = crew->spread->draw(crew->spread->user, crew->first + p * crew->stride,
                                             crew->samples + (size_t)p * size, &err);
        err.status = status;
        finish_draw(crew, p, status, &err);
    }
    return NULL;
}

static int thread_count(int asked, int draws)
{
    long cores = sysconf(_SC_NPROCESSORS_ONLN);
    int n = asked > 0 ? asked : (cores > 0 && cores < 256 ? (int)cores : 1);
    return n < draws ? n : draws;
}

/* Run all draws of the crew. CLI exit code. */
static int run_crew(Crew *crew, int threads)
{
    pthread_t ids[256];
    int started = 0;
    struct sigaction act, before;
    memset(&act, 0, sizeof act);
    act.sa_handler = on_interrupt;
    sigemptyset(&act.sa_mask);
    interrupted = 0;
    sigaction(SIGINT, &act, &before);
    while (started + 1 < threads && pthread_create(&ids[started], NULL, work, crew) == 0) {
        started++;
    }
    work(crew); /* this thread is one of them */
    for (int i = 0; i < started; i++) {
        pthread_join(ids[i], NULL);
    }
    sigaction(SIGINT, &before, NULL);
    if (crew->show_progress) {
        fprintf(stderr, "\n");
    }
    if (interrupted) {
        fprintf(stderr, "pullback-cli age: stopped after %d of %d draws; nothing was written\n",
                crew->done, crew->mine);
        return CLI_NO;
    }
    return crew->status == PB_OK ? CLI_DONE : cli_report(&crew->err);
}

static json_t *names_json(const AgeSpread *spread)
{
    json_t *names = json_array();
    for (int m = 0; m < spread->metrics; m++) {
        json_array_append_new(names, json_string(spread->names[m]));
    }
    return names;
}

json_t *age_bands(const double *samples, int draws, int times, const json_t *names, uint64_t seed)
{
    int metrics = (int)json_array_size(names);
    json_t *bands = json_object();
    double *column = malloc((size_t)draws * sizeof *column);
    json_object_set_new(bands, "draws", json_integer(draws));
    json_object_set_new(bands, "seed", json_integer((json_int_t)seed));
    for (int m = 0; m < metrics && column != NULL; m++) {
        PbBand band[AGE_MAX_TIMES];
        for (int t = 0; t < times; t++) {
            for (int d = 0; d < draws; d++) {
                column[d] =
                    samples[((size_t)d * (size_t)times + (size_t)t) * (size_t)metrics + (size_t)m];
            }
            band[t] = pb_spread_band(column, (size_t)draws);
        }
        json_t *at = json_object();
        json_object_set_new(at, "p10", age_array(&band[0].p10, times, 3));
        json_object_set_new(at, "median", age_array(&band[0].median, times, 3));
        json_object_set_new(at, "p90", age_array(&band[0].p90, times, 3));
        json_object_set_new(bands, json_string_value(json_array_get(names, (size_t)m)), at);
    }
    free(column);
    return bands;
}

/* A shard keeps every sample with 17 digits, so that joining loses nothing. */
static int print_shard(const AgeOptions *o, const Crew *crew, json_t *result)
{
    const AgeSpread *s = crew->spread;
    size_t size = (size_t)s->times * (size_t)s->metrics;
    json_t *draws = json_array();
    for (int p = 0; p < crew->mine; p++) {
        json_array_append_new(
            draws, json_pack("{s:i,s:o}", "draw", crew->first + p * crew->stride, "values",
                             age_array(crew->samples + (size_t)p * size, (int)size, 1)));
    }
    json_t *doc = json_pack("{s:s,s:i,s:i,s:i,s:i,s:i,s:I,s:o,s:o,s:o}", "what", "pullback shard",
                            "version", 1, "shard", o->shard, "of", o->shards, "draws", s->draws,
                            "times", s->times, "seed", (json_int_t)o->seed, "metrics",
                            names_json(s), "result", result, "samples", draws);
    int bad = json_dumpf(doc, stdout, JSON_COMPACT | JSON_REAL_PRECISION(17)) != 0;
    bad |= printf("\n") < 0 || fflush(stdout) != 0;
    json_decref(doc);
    return bad ? CLI_IO : CLI_DONE;
}

int age_spread_print(const AgeOptions *o, const AgeSpread *spread, json_t *result)
{
    int shards = o->shards > 0 ? o->shards : 1;
    Crew crew = {.spread = spread,
                 .stride = shards,
                 .first = o->shards > 0 ? o->shard - 1 : 0,
                 .show_progress = o->progress || isatty(STDERR_FILENO)};
    crew.mine = spread->draws > crew.first ? (spread->draws - crew.first + shards - 1) / shards : 0;
    crew.failed_at = crew.mine;
    crew.samples = calloc((size_t)crew.mine * (size_t)spread->times * (size_t)spread->metrics + 1,
                          sizeof *crew.samples);
    int code = CLI_INTERNAL;
    if (crew.samples != NULL && pthread_mutex_init(&crew.lock, NULL) == 0) {
        code = run_crew(&crew, thread_count(o->threads, crew.mine));
        pthread_mutex_destroy(&crew.lock);
    }
    if (code != CLI_DONE) {
        json_decref(result);
    } else if (o->shards > 0) {
        code = print_shard(o, &crew, result);
    } else {
        json_t *names = names_json(spread);
        json_object_set_new(
            result, "bands",
            age_bands(crew.samples, spread->draws, spread->times, names, (uint64_t)o->seed));
        json_decref(names);
        code = age_print(result, o->json);
    }
    free(crew.samples);
    return code;
}
