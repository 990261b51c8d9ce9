/* The run under way, in a file of its own until the store has it: a crash or a power cut loses a
 * second. */
#include "base/records.h"

#include "core/marks.h"
#include "io/clock.h"
#include "io/run_recorder.h"
#include "os/file.h"
#include "os/process.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The folder of run files beside the database, made when missing. */
int records_run_folder(const Records *r, char *out, size_t size)
{
    PbError err;
    return store_beside(r->store, "runs", out, size, &err) == PB_OK && os_make_folder(out);
}

/* A name that no file has yet. 0 when the folder takes none. */
static int new_path(Records *r)
{
    char folder[700], now[IO_UTC_SIZE], stamp[IO_UTC_SIZE] = "", left[24] = "";
    io_now_utc(now);
    for (int i = 0, n = 0; now[i] != '\0'; i++) { /* "20260304T093000Z" */
        if (now[i] != '-' && now[i] != ':') {
            stamp[n++] = now[i];
        }
    }
    if (r->run_left_id != 0) {
        snprintf(left, sizeof left, "-%lld", (long long)r->run_left_id);
    }
    r->run_path[0] = '\0';
    int has_folder = records_run_folder(r, folder, sizeof folder);
    for (int k = 0; has_folder && k < 100; k++) {
        snprintf(r->run_path, sizeof r->run_path, "%s/%lld-%s-%d-%ld%s.run", folder,
                 (long long)r->run_learner_id, stamp, k, os_process(), left);
        if (!os_is_there(r->run_path)) {
            break;
        }
    }
    return has_folder;
}

/* What the last run left in memory is not the next one's. */
static void start_anew(Records *r, int64_t learner_id, int64_t left_id)
{
    r->kept[0] = '\0';
    r->run_path[0] = '\0';
    r->run_learner_id = learner_id;
    memcpy(r->run_learner, r->learner, sizeof r->run_learner);
    r->run_left_id = left_id;
    r->is_run_watched = 0;
    r->last_time = (IoLastTime){0};
    free(r->last);
    r->last = NULL;
}

static PbStatus record_in_memory(Run *run, const char *who, int64_t started_s, PbError *err)
{
    PbStatus status = io_recorder_open(NULL, &run->config, who, started_s, &run->recorder, err);
    run->recorder = status == PB_OK ? run->recorder : NULL;
    return status;
}

/* On the disk, else in memory. Returns 0 with a sentence when the disk refuses. */
static int record(Records *r, Run *run, const char *who, int64_t started_s, char *why, size_t size)
{
    PbError err = {0};
    if (new_path(r) && io_recorder_open(r->run_path, &run->config, who, started_s, &run->recorder,
                                        &err) == PB_OK) {
        return 1;
    }
    r->run_path[0] = '\0';
    snprintf(why, size, "%s", err.message[0] ? err.message : strerror(errno));
    if (record_in_memory(run, who, started_s, &err) != PB_OK) {
        r->run_learner_id = 0;
    }
    return 0;
}

void records_run_watch(Records *r, Run *run)
{
    PbError err;
    start_anew(r, 0, 0);
    r->is_run_watched = 1;
    (void)!record_in_memory(run, "", io_now(), &err); /* Debrief then says so */
}

int records_run_begin(Records *r, Run *run, char *why, size_t size)
{
    PbError err = {0};
    if (r->store != NULL && r->learner_id == 0) {
        records_run_watch(r, run);
        return 1;
    }
    start_anew(r, r->store != NULL ? r->learner_id : 0, 0);
    if (r->store == NULL) { /* no place to keep it: in memory, to be saved elsewhere */
        (void)!record_in_memory(run, "", io_now(), &err);
        snprintf(why, size, "%s", r->trouble);
        return 0;
    }
    return record(r, run, r->learner, io_now(), why, size);
}

/* Is what has been recorded so far the same run? Its hashes are made anew on the way. */
static int is_same_run(Run *run, const PbRunFile *file)
{
    PbRunFile now;
    PbError err;
    size_t size;
    const unsigned char *bytes = io_recorder_bytes(run->recorder, &size);
    if (io_run_decode("run", bytes, size, &now, &err) != PB_OK) {
        return 0;
    }
    int is_same = now.last_tick == file->last_tick && now.hash_count == file->hash_count &&
                  now.hash_count >= file->last_tick / PB_RECORD_HASH_TICKS;
    for (int i = 0; is_same && i < now.hash_count; i++) {
        is_same = now.hashes[i].tick == file->hashes[i].tick &&
                  now.hashes[i].hash == file->hashes[i].hash;
    }
    io_run_free(&now);
    return is_same;
}

static void play_again(Run *run, const PbRunFile *file)
{
    int next = 0;
    for (int tick = 0; tick < file->last_tick && !run->watched.has_score; tick++) {
        run->queued = 0;
        for (; next < file->command_count && file->commands[next].tick == tick; next++) {
            if (run->queued < (int)(sizeof run->queue / sizeof run->queue[0])) {
                run->queue[run->queued++] = file->commands[next].command;
            }
        }
        run_tick(run);
    }
    run->event_count = 0; /* they were told when they happened */
}

static void drop_recording(Records *r, Run *run)
{
    io_recorder_close(run->recorder);
    run->recorder = NULL;
    if (r->run_path[0] != '\0') {
        (void)os_remove(r->run_path);
    }
    start_anew(r, 0, 0);
}

int records_run_go_on(Records *r, Run *run, int64_t left_id, const PbRunFile *file, char *why,
                      size_t size)
{
    start_anew(r, r->learner_id, left_id);
    if (!record(r, run, file->who, file->started_unix_s, why, size)) {
        drop_recording(r, run);
        return 0;
    }
    play_again(run, file);
    if (run->watched.has_score || !is_same_run(run, file)) {
        snprintf(why, size, "the run does not replay to where it was left");
        drop_recording(r, run);
        return 0;
    }
    run->taken_up_tick = file->last_tick;
    run_command(run, PB_COMMAND_MARK, PB_MARK_GONE_ON);
    return 1;
}

/* Somebody looked in and left, or took a run up and put it down: nothing is kept of that. */
static int is_worth_keeping(const Run *run)
{
    return run->watched.has_score || (run->is_worked && run->view->tick > run->taken_up_tick);
}

/* Debrief shows the run that was just worked, kept or not. */
static void remember(Records *r, const unsigned char *bytes, size_t size)
{
    r->last = malloc(size);
    r->last_size = r->last != NULL ? size : 0;
    if (r->last != NULL) {
        memcpy(r->last, bytes, size);
    }
}

/* Into the store, or held for later. Returns 0 with a sentence when the store has it not. */
static int keep(Records *r, Run *run, char *why, size_t size)
{
    PbError err = {0};
    RecordsFile file = {.name = "run",
                        .learner_id = r->run_learner_id,
                        .left_id = r->run_left_id,
                        .seen = &run->watched};
    file.bytes = io_recorder_bytes(run->recorder, &file.size);
    io_now_utc(file.ended);
    r->kept_id = 0;
    if (r->is_run_watched) {
        remember(r, file.bytes, file.size);
        return 1;
    }
    if (r->store == NULL) {
        (void)pb_fail(&err, PB_ERR_IO, "%s", r->trouble);
    } else if (records_take(r, &file, &err) == PB_OK) {
        r->runs_kept++;
        r->last_time = records_last_time(r->store, r->kept_id);
        return 1;
    }
    remember(r, file.bytes, file.size);
    if (records_hold(r, file.bytes, file.size)) {
        snprintf(why, size, "%s", err.message);
    } else {
        snprintf(why, size, "%.199s%s%.390s", err.message, r->run_path[0] ? "; " : "", r->run_path);
    }
    return 0;
}

int records_run_end(Records *r, Run *run, char *why, size_t size)
{
    PbError ignored = {0};
    if (run->recorder == NULL) {
        return 1;
    }
    int is_wanted = is_worth_keeping(run);
    if (run->watched.has_score) {
        /* A refusing disk is no matter yet: the bytes are here and go into the store. */
        io_recorder_ended(run->recorder, io_now());
        (void)!io_recorder_finish(run->recorder, run->watched.session, &run->watched.score,
                                  &run->watched.rubric, &ignored);
    }
    int is_kept = !is_wanted || keep(r, run, why, size);
    io_recorder_close(run->recorder);
    run->recorder = NULL;
    if (is_kept && r->run_path[0] != '\0') {
        (void)os_remove(
            r->run_path); /* the store holds it now, and deleting a person must take all */
    }
    r->run_path[0] = '\0';
    snprintf(r->kept, sizeof r->kept, "%s",
             is_kept && is_wanted && !r->is_run_watched ? r->run_learner : "");
    return is_kept;
}
