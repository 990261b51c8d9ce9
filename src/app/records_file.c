/* Run files into the store: the one just recorded, and those that a crash left behind. */
#include "records.h"

#include "core/replay.h"
#include "io/doc.h"
#include "io/run_file.h"
#include "io/run_summary.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

/* A run that a crash cut off has no session any more: its recording is run again for what only a
 * session knows, the steps and the dwells. */
static PbStatus run_again(const PbRunFile *run, PbReplay **replay, PbScoreWatch *watch,
                          PbError *err)
{
    PB_TRY(pb_replay_create(run, pb_allocator_default(), replay, err));
    while (pb_replay_tick(*replay) < run->last_tick && !pb_replay_is_at_end(*replay)) {
        PbStatus status = pb_replay_step(*replay);
        if (status != PB_OK) {
            return pb_fail(err, status, "the recording stops at %.2f s",
                           pb_replay_tick(*replay) * PB_TICK_S);
        }
        pb_score_watch(watch, pb_replay_session(*replay));
    }
    return PB_OK;
}

static PbStatus summary_of(const PbRunFile *run, const Run *seen, PbRunSummary *summary,
                           PbError *err)
{
    PbReplay *replay = NULL;
    PbScoreWatch *watch = NULL;
    PbStatus status = PB_OK;
    char now[24];
    records_now(now);
    if (seen == NULL) {
        watch = calloc(1, sizeof *watch);
        status = watch == NULL ? pb_fail(err, PB_ERR_MEMORY, "out of memory")
                               : run_again(run, &replay, watch, err);
    }
    if (status == PB_OK) {
        io_run_summary(run, seen != NULL ? seen->session : pb_replay_session(replay),
                       seen != NULL ? &seen->watch : watch, NULL, NULL, now, summary);
    }
    pb_replay_destroy(replay);
    free(watch);
    return status;
}

PbStatus records_take(Records *r, int64_t learner_id, const char *name, const void *bytes,
                      size_t size, const Run *seen, PbError *err)
{
    PbRunFile run;
    PbRunSummary summary;
    char when[24];
    int64_t id = 0;
    PB_TRY(io_run_decode(name, bytes, size, &run, err));
    PbStatus status = summary_of(&run, seen, &summary, err);
    io_run_free(&run);
    PB_TRY(status);
    records_now(when);
    return store_run_add(r->store, learner_id, bytes, size, &summary, when, &id, err);
}

/* Somebody, on whatever machine, is writing it (io/run_recorder.h). */
static int is_locked(const char *path)
{
    struct flock whole = {.l_type = F_RDLCK, .l_whence = SEEK_SET};
    int fd = open(path, O_RDONLY | O_CLOEXEC);
    if (fd < 0) {
        return 0;
    }
    int is_held = fcntl(fd, F_GETLK, &whole) == 0 && whole.l_type != F_UNLCK;
    close(fd);
    return is_held;
}

/* Names are LEARNER-TIME-NUMBER-PROCESS.run; a process that still lives is writing its own. */
static int is_left_behind(const char *name, long long *learner)
{
    long process = 0;
    int number = 0, end = 0;
    if (sscanf(name, "%lld-%*17[0-9TZ]-%d-%ld.run%n", learner, &number, &process, &end) != 3 ||
        end == 0 || name[end] != '\0' || process <= 0 || process == (long)getpid()) {
        return 0;
    }
    return kill((pid_t)process, 0) != 0 && errno == ESRCH;
}

void records_gather(Records *r, const char *folder)
{
    DIR *dir = opendir(folder);
    struct dirent *entry;
    while (dir != NULL && (entry = readdir(dir)) != NULL) {
        char path[1000], *text = NULL;
        size_t size = 0;
        long long learner = 0;
        PbError err = {0};
        if (!is_left_behind(entry->d_name, &learner) ||
            snprintf(path, sizeof path, "%s/%s", folder, entry->d_name) >= (int)sizeof path ||
            is_locked(path) || io_read_file(path, IO_RUN_MAX_BYTES, &text, &size, &err) != PB_OK) {
            continue;
        }
        if (records_take(r, learner, path, text, size, NULL, &err) == PB_OK) {
            unlink(path);
            fprintf(stderr, "pullback: a run that was cut off is kept now (%s)\n", entry->d_name);
        } else {
            fprintf(stderr, "pullback: a run that was cut off stays in %s: %s\n", path,
                    err.message);
        }
        free(text);
    }
    if (dir != NULL) {
        closedir(dir);
    }
}
