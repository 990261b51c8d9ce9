/* bench store: a school's worth of runs, in a database of its own that is removed afterwards. */
#include "bench.h"
#include "bench_floor.h"

#include "io/clock.h"
#include "os/file.h"
#include "os/place.h"
#include "store/runs.h"

#include <stdlib.h>
#include <string.h>

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
            bytes[k] = (unsigned char)(((unsigned)i * 2654435761u + (unsigned)k * 40503u) >> 7);
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
    double from = io_clock_s();
    PB_TRY(add_runs(store, 0, ALONE, err));
    fprintf(out, "  one run kept, on the disk    %8.2f ms\n", 1e3 * (io_clock_s() - from) / ALONE);
    from = io_clock_s();
    PB_TRY(store_batch_begin(store, err));
    PB_TRY(add_runs(store, ALONE, RUNS, err));
    PB_TRY(store_batch_end(store, 1, err));
    fprintf(out, "  one of a batch               %8.2f ms\n",
            1e3 * (io_clock_s() - from) / (RUNS - ALONE));
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
        double from = io_clock_s();
        PB_TRY(store_open(path, &store, err));
        PbStatus status = store_run_list(store, filter, &list, &count, err);
        double took = io_clock_s() - from;
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
    double from = io_clock_s();
    status = store_check(store, err);
    fprintf(out, "  every byte checked           %8.0f ms\n", 1e3 * (io_clock_s() - from));
    store_close(store);
    return status;
}

/* A folder of its own under TMPDIR; nonzero when it cannot be made. */
static int make_folder(char *folder, size_t room, char *path, size_t path_room)
{
    char base[250];
    if (!os_place(OS_PASSING, base, sizeof base)) {
        return 1;
    }
    snprintf(folder, room, "%s/pullback-bench-XXXXXX", base);
    if (!os_make_new_folder(folder)) {
        return 1;
    }
    snprintf(path, path_room, "%.300s/bench.db", folder);
    return 0;
}

static void remove_folder(const char *folder, const char *path)
{
    static const char *const ends[] = {"", "-wal", "-shm"};
    char beside[360];
    for (int i = 0; i < 3; i++) {
        snprintf(beside, sizeof beside, "%s%s", path, ends[i]);
        (void)os_remove(beside);
    }
    (void)os_remove_folder(folder);
}

int bench_store(FILE *out)
{
    char folder[300], path[340];
    PbError err = {0};
    if (make_folder(folder, sizeof folder, path, sizeof path)) {
        fprintf(out, "  cannot make a folder in %s\n", folder);
        return 1;
    }
    PbStatus status = measure(path, out, &err);
    if (status != PB_OK) {
        fprintf(out, "  %s: %s\n", err.file, err.message);
    }
    remove_folder(folder, path);
    return status != PB_OK;
}

static PbStatus list_ns(const char *path, int rows, double *ns, PbError *err)
{
    const StoreFilter all = {0};
    Store *store;
    int64_t id;
    PB_TRY(store_open(path, &store, err));
    PbStatus status = store_batch_begin(store, err);
    for (int i = 0; i < LEARNERS && status == PB_OK; i++) {
        char name[32];
        snprintf(name, sizeof name, "Learner %d", i);
        status = store_learner_add(store, name, "2026-01-01T00:00:00Z", &id, err);
    }
    status = status == PB_OK ? add_runs(store, 0, rows, err) : status;
    status = status == PB_OK ? store_batch_end(store, 1, err) : status;
    for (int i = 0; i < TIMES && status == PB_OK; i++) {
        StoreRun *list = NULL;
        int count = 0;
        double from = bench_cpu_s();
        status = store_run_list(store, &all, &list, &count, err);
        double each = 1e9 * (bench_cpu_s() - from) / (count > 0 ? count : 1);
        free(list);
        *ns = *ns < 0.0 || each < *ns ? each : *ns;
    }
    store_close(store);
    return status;
}

double bench_store_row_ns(int rows, size_t *row_bytes)
{
    char folder[300], path[340];
    PbError err = {0};
    double ns = -1.0;
    *row_bytes = sizeof(StoreRun);
    if (make_folder(folder, sizeof folder, path, sizeof path)) {
        return -1.0;
    }
    PbStatus status = list_ns(path, rows, &ns, &err);
    remove_folder(folder, path);
    return status == PB_OK ? ns : -1.0;
}
