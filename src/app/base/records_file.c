/* Run files into the store: the one just recorded, and those that a crash left behind. */
#include "base/records.h"

#include "core/marks.h"
#include "io/clock.h"
#include "io/doc.h"
#include "io/run_judge.h"
#include "io/run_summary.h"
#include "os/file.h"
#include "os/lock.h"
#include "os/process.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The run is still here: its own session and marks, nothing is played again. */
static PbStatus sum_up_seen(const RecordsFile *file, PbRunSummary *m, PbError *err)
{
    PbRunFile run;
    PB_TRY(io_run_decode(file->name, file->bytes, file->size, &run, err));
    io_run_summary(&run, file->seen, file->ended, m);
    io_run_free(&run);
    m->origin = PB_ORIGIN_HERE;
    return m->exercise_hash != 0 ? PB_OK : pb_fail(err, PB_ERR_MEMORY, "out of memory");
}

PbStatus records_take(Records *r, const RecordsFile *file, PbError *err)
{
    PbRunSummary summary;
    char when[24];
    if (file->seen != NULL) {
        PB_TRY(sum_up_seen(file, &summary, err));
    } else {
        IoJudge how = {.climate = r->climate,
                       .user = r->climate_user,
                       .origin = PB_ORIGIN_HERE,
                       .now = file->ended};
        PB_TRY(io_run_judge(&how, file->name, file->bytes, file->size, &summary, NULL, err));
    }
    if (summary.state == PB_RUN_LEFT) { /* its file has no end that would say when */
        memcpy(summary.when, file->ended, sizeof summary.when);
    }
    io_now_utc(when);
    return store_run_put(r->store, file->learner_id, file->left_id, file->bytes, file->size,
                         &summary, when, &r->kept_id, err);
}

/* Names are LEARNER-TIME-NUMBER-PROCESS.run, or ...-PROCESS-LEFT.run for a run that goes on from
 * the left one of that number in the store. A process that still lives is writing its own. */
static int is_left_behind(const char *name, RecordsFile *file)
{
    long process = 0;
    long long learner = 0, left = 0;
    int number = 0, end = 0;
    if (sscanf(name, "%lld-%*17[0-9TZ]-%d-%ld%n", &learner, &number, &process, &end) != 3 ||
        end == 0 || process <= 0 || process == os_process()) {
        return 0;
    }
    const char *rest = name + end;
    if (strcmp(rest, ".run") != 0) {
        end = 0;
        if (sscanf(rest, "-%lld.run%n", &left, &end) != 1 || end == 0 || rest[end] != '\0' ||
            left <= 0) {
            return 0;
        }
    }
    file->learner_id = learner;
    file->left_id = left;
    return !os_is_alive(process);
}

/* Nothing was done in it, or nothing beyond what the store has of it already. */
static int is_empty(Records *r, const RecordsFile *file)
{
    PbRunFile run;
    StoreRun left;
    PbError err;
    if (io_run_decode(file->name, file->bytes, file->size, &run, &err) != PB_OK) {
        return 0;
    }
    double lasted_s = run.last_tick * PB_TICK_S;
    int is_worked = pb_run_is_worked(&run);
    io_run_free(&run);
    return !is_worked ||
           (file->left_id != 0 && store_run_get(r->store, file->left_id, &left, &err) == PB_OK &&
            left.summary.duration_s >= lasted_s - 0.5 * PB_TICK_S);
}

/* It ended when its file was written last. */
static void last_written(const char *path, char out[24])
{
    OsLook look = os_look(path);
    if (look.kind == OS_NOTHING || !io_utc(look.written_unix_s, out)) {
        io_now_utc(out);
    }
}

static void gather_one(Records *r, const char *path, RecordsFile *file)
{
    char *bytes = NULL;
    PbError err = {0};
    /* somebody, on whatever machine, may be writing it: io/run_recorder.h */
    if (os_is_held(path) ||
        io_read_file(path, IO_RUN_MAX_BYTES, &bytes, &file->size, &err) != PB_OK) {
        return;
    }
    file->bytes = bytes;
    last_written(path, file->ended);
    if (is_empty(r, file)) {
        (void)os_remove(path);
    } else if (records_take(r, file, &err) == PB_OK) {
        (void)os_remove(path);
        fprintf(stderr, "pullback: a run that was cut off is kept now (%s)\n", path);
    } else {
        fprintf(stderr, "pullback: a run that was cut off stays in %s: %s\n", path, err.message);
    }
    free(bytes);
}

void records_gather(Records *r, const char *folder)
{
    OsFolder *names = os_folder_open(folder);
    const char *name;
    while (names != NULL && (name = os_folder_next(names)) != NULL) {
        char path[1000];
        RecordsFile file = {.name = path};
        if (is_left_behind(name, &file) &&
            snprintf(path, sizeof path, "%s/%s", folder, name) < (int)sizeof path) {
            gather_one(r, path, &file);
        }
    }
    os_folder_close(names);
    r->kept_id = 0; /* none of this session */
}
