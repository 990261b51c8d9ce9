/* bench store: a school's worth of runs, in a database of its own that is removed afterwards. */
#include "bench.h"
#include "run_session.h"
#include "store_options.h"

#include "store/runs.h"

#include <stdlib.h>
#include <string.h>
#include <unistd.h>

enum { RUNS = 10000, LEARNERS = 100, EXERCISES = 10, FILE_BYTES = 16000, ALONE = 100, TIMES = 7 };

static PbRunSummary summary_of(int i)
{
    static const char *const keys[] = {"on_target", "weakest",  "years",
                                       "no_harm",   "material", "hands"};
    static const double most[] = {40, 15, 15, 15, 5, 10};
    PbRunSummary m;
    memset(&m, 0, sizeof m);
    snprintf(m.exercise_id, sizeof m.exercise_id, "exercise-%d", i % EXERCISES);
    snprintf(m.exercise_title, sizeof m.exercise_title, "Exercise %d", i % EXERCISES);
    snprintf(m.when, sizeof m.when, "2026-%02d-%02dT%02d:%02d:00Z", 1 + i / 28 % 12, 1 + i % 28,
             i / 336 % 24, i / 8064 % 60);
    snprintf(m.rubric, sizeof m.rubric, "default");
    m.seed = (uint64_t)i;
    m.physics_version = 1;
    m.duration_s = 180.0;
    m.part_count = 6;
    for (int k = 0; k < 6; k++) {
        snprintf(m.parts[k].key, sizeof m.parts[k].key, "%s", keys[k]);
        m.parts[k].max = most[k];
        m.parts[k].points = most[k] * (double)(i % 101) / 100.0;
        m.total += m.parts[k].points;
    }
    m.total = m.total > 100.0 ? 100.0 : m.total;
    m.is_pass = m.total >= 70.0;
    m.step_mean_m = 0.3;
    m.step_spread_m = m.dwell_mean_s = m.dwell_spread_s = 0.1;
    return m;
}

static PbStatus add_runs(Store *store, int from, int to, PbError *err)
{
    static unsigned char bytes[FILE_BYTES];
    for (int i = from; i < to; i++) {
        PbRunSummary m = summary_of(i);
        int64_t id;
        for (int k = 0; k < FILE_BYTES; k++) {
            bytes[k] = (unsigned char)((i * 2654435761u + (unsigned)k * 40503u) >> 7);
        }
        memcpy(bytes, &i, sizeof i);
        PB_TRY(store_run_add(store, 1 + i % LEARNERS, bytes, sizeof bytes, &m,
                             "2026-12-31T00:00:00Z", &id, err));
    }
    return PB_OK;
}

static PbStatus fill(Store *store, FILE *out, PbError *err)
{
    for (int i = 0; i < LEARNERS; i++) {
        char name[32];
        int64_t id;
        snprintf(name, sizeof name, "Learner %d", i);
        PB_TRY(store_learner_add(store, name, "2026-01-01T00:00:00Z", &id, err));
    }
    double from = cli_clock_s();
    PB_TRY(add_runs(store, 0, ALONE, err));
    fprintf(out, "  one run kept, on the disk    %8.2f ms\n", 1e3 * (cli_clock_s() - from) / ALONE);
    from = cli_clock_s();
    PB_TRY(store_batch_begin(store, err));
    PB_TRY(add_runs(store, ALONE, RUNS, err));
    PB_TRY(store_batch_end(store, 1, err));
    fprintf(out, "  one of a batch               %8.2f ms\n",
            1e3 * (cli_clock_s() - from) / (RUNS - ALONE));
    return PB_OK;
}

/* Best of several: the machine may be doing other things. Opening the database is part of it. */
static PbStatus time_list(const char *path, const StoreFilter *filter, const char *what, FILE *out,
                          PbError *err)
{
    double best = 1e9;
    int count = 0;
    for (int i = 0; i < TIMES; i++) {
        Store *store;
        StoreRun *list = NULL;
        double from = cli_clock_s();
        PB_TRY(store_open(path, &store, err));
        PbStatus status = store_run_list(store, filter, &list, &count, err);
        double took = cli_clock_s() - from;
        free(list);
        store_close(store);
        PB_TRY(status);
        best = took < best ? took : best;
    }
    fprintf(out, "  open and list %-14s %8.2f ms, %d runs\n", what, 1e3 * best, count);
    return PB_OK;
}

static PbStatus measure(const char *path, FILE *out, PbError *err)
{
    Store *store;
    const StoreFilter all = {0}, parts = {.with_parts = 1}, learner = {.learner_id = 7},
                      page = {.with_parts = 1, .limit = 100};
    PB_TRY(store_open(path, &store, err));
    PbStatus status = fill(store, out, err);
    store_close(store);
    PB_TRY(status);
    PB_TRY(time_list(path, &all, "all", out, err));
    PB_TRY(time_list(path, &parts, "all with parts", out, err));
    PB_TRY(time_list(path, &page, "first page", out, err));
    PB_TRY(time_list(path, &learner, "one learner", out, err));
    PB_TRY(store_open(path, &store, err));
    double from = cli_clock_s();
    status = store_check(store, err);
    fprintf(out, "  every byte checked           %8.0f ms\n", 1e3 * (cli_clock_s() - from));
    store_close(store);
    return status;
}

int bench_store(FILE *out)
{
    const char *base = getenv("TMPDIR");
    char folder[300], path[340], beside[360];
    PbError err = {0};
    snprintf(folder, sizeof folder, "%.250s/pullback-bench-XXXXXX", base != NULL ? base : "/tmp");
    if (mkdtemp(folder) == NULL) {
        fprintf(out, "  cannot make a folder in %s\n", folder);
        return 1;
    }
    snprintf(path, sizeof path, "%s/bench.db", folder);
    PbStatus status = measure(path, out, &err);
    if (status != PB_OK) {
        fprintf(out, "  %s: %s\n", err.file, err.message);
    }
    static const char *const ends[] = {"", "-wal", "-shm"};
    for (int i = 0; i < 3; i++) {
        snprintf(beside, sizeof beside, "%s%s", path, ends[i]);
        unlink(beside);
    }
    rmdir(folder);
    return status != PB_OK;
}
