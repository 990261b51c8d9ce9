/*
 * A run on its way to the disk. The caller's side seals what happened into chunks twice a second;
 * the writer's side copies whole chunks under the lock and writes them without it, so a slow disk
 * never holds up a step. Only whole chunks are ever handed over; a chunk torn by a crash is cut off
 * by the reader.
 */
#include "io/run_recorder.h"

#include "run_chunks.h"

#include "io/clock.h"

#include "os/file.h"
#include "os/lock.h"

#include <assert.h>
#include <errno.h>
#include <pthread.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { SEAL_TICKS = 12, MAX_PENDING_HASHES = 4 }; /* 0.48 s of a run at its own pace */
static const double SEAL_S = 0.4; /* and so much of the wall clock, when it is slow */
static const double RETRY_S = 0.5;

struct IoRecorder {
    char path[512]; /* empty: memory alone */
    PbRunFile head; /* config, and the end; its arrays stay empty */
    Bytes sealed;   /* under the lock */
    Bytes unsent;   /* the writer's copy */

    PbTickCommand *pending;
    int pending_count, pending_room;
    PbTickHash hashes[MAX_PENDING_HASHES];
    int hash_count;
    uint64_t chain; /* over all commands */
    int sealed_tick, tick;
    int mark_count;
    double sealed_s;
    int is_out_of_memory;

    pthread_t thread;
    pthread_mutex_t lock;
    pthread_cond_t wake, told;
    int has_thread, is_closing;
    int fd;
    int is_torn;    /* the writer's: the file ends in a part of a chunk */
    size_t written; /* of sealed, on the disk; under the lock */
    int attempts;   /* under the lock: grows with every try to write */
    int trouble;    /* errno of the last try, 0 = well; under the lock */
};

/* Write what `unsent` holds behind the first `before` bytes. @return 0 or errno. */
static int send(IoRecorder *r, size_t before)
{
    /* a torn end that could not be cut off must go before anything stands behind it: readers stop
     * there */
    int code = r->is_torn && !os_cut(r->fd, before) ? errno : 0;
    if (code == 0 && (!os_write_all(r->fd, r->unsent.data, r->unsent.used) || !os_sync(r->fd))) {
        code = errno;
    }
    r->is_torn = code != 0 && !os_cut(r->fd, before);
    return code;
}

static void write_new_bytes(IoRecorder *r)
{
    size_t before = r->written, count = r->sealed.used - before;
    r->unsent.used = 0;
    bytes_add(&r->unsent, r->sealed.data + before, count);
    int code = r->unsent.failed ? ENOMEM : 0;
    r->unsent.failed = 0;
    pthread_mutex_unlock(&r->lock);
    if (code == 0) {
        code = send(r, before);
    }
    pthread_mutex_lock(&r->lock);
    r->written = code == 0 ? before + count : before;
    r->trouble = code;
    r->attempts++;
    pthread_cond_broadcast(&r->told);
}

static void *writer(void *argument)
{
    IoRecorder *r = argument;
    pthread_mutex_lock(&r->lock);
    while (!r->is_closing) {
        if (r->written < r->sealed.used && r->trouble == 0) {
            write_new_bytes(r);
            continue;
        }
        struct timespec until = io_clock_after(RETRY_S);
        if (pthread_cond_timedwait(&r->wake, &r->lock, &until) == ETIMEDOUT &&
            r->written < r->sealed.used && !r->is_closing) {
            write_new_bytes(r);
        }
    }
    if (r->written < r->sealed.used) {
        write_new_bytes(r);
    }
    pthread_mutex_unlock(&r->lock);
    return NULL;
}

static PbStatus start_writing(IoRecorder *r, const char *path, PbError *err)
{
    if (path == NULL) {
        return PB_OK;
    }
    if (strlen(path) >= sizeof r->path) {
        return pb_fail(err, PB_ERR_IO, "the name of the run file is too long");
    }
    PB_TRY(run_write_new(path, r->sealed.data, r->sealed.used, err));
    memcpy(r->path, path, strlen(path) + 1);
    os_sync_folder_of(path);
    r->written = r->sealed.used;
    r->fd = os_open_at_end(path);
    /* Held while the file is written, so that no program on another machine or in a container of
     * its own takes it for one that was left behind. Not every file system can. */
    if (r->fd >= 0) {
        os_hold(r->fd);
    }
    if (r->fd < 0 || pthread_create(&r->thread, NULL, writer, r) != 0) {
        (void)os_remove(path);
        if (err != NULL) {
            memset(err, 0, sizeof *err);
            snprintf(err->file, sizeof err->file, "%.255s", path);
        }
        return pb_fail(err, PB_ERR_IO, "cannot go on writing the run file");
    }
    r->has_thread = 1;
    return PB_OK;
}

static void give_back(IoRecorder *r)
{
    if (r->fd >= 0) {
        os_close(r->fd);
    }
    pthread_cond_destroy(&r->wake);
    pthread_cond_destroy(&r->told);
    pthread_mutex_destroy(&r->lock);
    free(r->sealed.data);
    free(r->unsent.data);
    free(r->pending);
    free(r);
}

PbStatus io_recorder_open(const char *path, const PbSessionConfig *config, const char *who,
                          int64_t started_unix_s, IoRecorder **recorder, PbError *err)
{
    assert(config != NULL && who != NULL && recorder != NULL);
    IoRecorder *r = calloc(1, sizeof *r);
    if (r == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    r->fd = -1;
    pthread_condattr_t by; /* a clock that is set back an hour must not put a retry off by one */
    pthread_mutex_init(&r->lock, NULL);
    pthread_condattr_init(&by);
    (void)pthread_condattr_setclock(&by, CLOCK_MONOTONIC); /* as io_clock_after */
    pthread_cond_init(&r->wake, &by);
    pthread_condattr_destroy(&by);
    pthread_cond_init(&r->told, NULL);
    PbRunFile *h = &r->head;
    h->form = PB_RECORD_SEALED;
    h->physics_version = PB_PHYSICS_VERSION;
    h->exercise = config->exercise;
    h->constants = config->constants;
    h->constants_hash = pb_constants_hash(&config->constants);
    h->seed = config->seed;
    h->cells_across = config->cells_across;
    h->started_unix_s = started_unix_s;
    if (run_text_is_clean(who, strlen(who), sizeof h->who - 1)) {
        snprintf(h->who, sizeof h->who, "%s", who);
    }
    r->sealed_s = io_clock_s();
    PbStatus status = run_put_head(&r->sealed, h, err);
    if (status == PB_OK) {
        status = start_writing(r, path, err);
    }
    if (status != PB_OK) {
        give_back(r);
        return status;
    }
    *recorder = r;
    return PB_OK;
}

static void seal(IoRecorder *r)
{
    if (r->tick == r->sealed_tick || r->is_out_of_memory) {
        return;
    }
    TickSpan span = {r->sealed_tick,   r->tick,   r->pending,
                     r->pending_count, r->hashes, r->hash_count};
    pthread_mutex_lock(&r->lock);
    size_t before = r->sealed.used;
    run_put_ticks(&r->sealed, &span);
    if (r->sealed.failed) {
        r->sealed.used = before; /* what was sealed stays whole */
        r->is_out_of_memory = 1;
    }
    pthread_cond_signal(&r->wake);
    pthread_mutex_unlock(&r->lock);
    r->sealed_tick = r->tick;
    r->sealed_s = io_clock_s();
    r->pending_count = 0;
    r->hash_count = 0;
}

static void note_command(IoRecorder *r, int tick, const PbCommand *command)
{
    if (r->pending_count == r->pending_room) {
        int room = 2 * r->pending_room + 64;
        PbTickCommand *grown = realloc(r->pending, (size_t)room * sizeof *grown);
        if (grown == NULL) {
            r->is_out_of_memory = 1;
            return;
        }
        r->pending = grown;
        r->pending_room = room;
    }
    r->pending[r->pending_count++] = (PbTickCommand){tick, *command};
}

void io_recorder_step(IoRecorder *r, const PbSession *session, const PbCommand *commands, int count)
{
    assert(r != NULL && session != NULL);
    assert(count == 0 || commands != NULL);
    int tick = pb_session_view(session)->tick;
    if (r->is_out_of_memory || r->head.is_ended) {
        return;
    }
    for (int i = 0; i < count; i++) {
        note_command(r, tick - 1, &commands[i]);
        r->chain = pb_record_chain(r->chain, tick - 1, &commands[i]);
    }
    r->tick = tick;
    /* the last state too: what was commanded after the hash before it is then covered */
    if (tick % PB_RECORD_HASH_TICKS == 0 || pb_session_is_over(session)) {
        uint64_t hash = pb_record_seal(r->chain, pb_session_hash(session));
        r->hashes[r->hash_count++] = (PbTickHash){tick, hash};
    }
    if (r->tick - r->sealed_tick >= SEAL_TICKS || io_clock_s() - r->sealed_s > SEAL_S) {
        seal(r);
    }
}

static PbStatus say(const IoRecorder *r, int code, PbError *err)
{
    if (r->is_out_of_memory) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory: the recording stops here");
    }
    if (code == 0) {
        return PB_OK;
    }
    if (err != NULL) {
        memset(err, 0, sizeof *err);
        snprintf(err->file, sizeof err->file, "%.255s", r->path);
    }
    return pb_fail(err, PB_ERR_IO, "cannot write: %s; the run is kept in memory", strerror(code));
}

PbStatus io_recorder_mark(IoRecorder *r, const char *text, PbError *err)
{
    assert(r != NULL && text != NULL);
    PbRunMark mark = {.tick = r->tick};
    size_t length = strlen(text);
    if (length == 0 || !run_text_is_clean(text, length, sizeof mark.text - 1)) {
        return pb_fail(err, PB_ERR_RANGE, "a mark: expected 1 to 255 bytes of plain text");
    }
    if (r->mark_count >= RUN_MAX_MARKS) { /* readers cut a run off at one more */
        return pb_fail(err, PB_ERR_RANGE, "a run holds at most %d marks", RUN_MAX_MARKS);
    }
    memcpy(mark.text, text, length + 1);
    seal(r);
    pthread_mutex_lock(&r->lock);
    size_t before = r->sealed.used;
    run_put_mark(&r->sealed, &mark);
    if (r->sealed.failed) {
        r->sealed.used = before;
        r->is_out_of_memory = 1;
    }
    pthread_cond_signal(&r->wake);
    pthread_mutex_unlock(&r->lock);
    r->mark_count += !r->is_out_of_memory;
    return say(r, 0, err);
}

int io_recorder_trouble(IoRecorder *r)
{
    assert(r != NULL);
    pthread_mutex_lock(&r->lock);
    int code = r->trouble;
    pthread_mutex_unlock(&r->lock);
    return code;
}

PbStatus io_recorder_status(IoRecorder *r, PbError *err)
{
    return say(r, io_recorder_trouble(r), err);
}

const unsigned char *io_recorder_bytes(IoRecorder *r, size_t *size)
{
    assert(r != NULL && size != NULL);
    seal(r);
    *size = r->sealed.used; /* only this side changes it */
    return r->sealed.data;
}

PbStatus io_recorder_save_as(IoRecorder *r, const char *path, PbError *err)
{
    assert(r != NULL && path != NULL);
    size_t size;
    const unsigned char *bytes = io_recorder_bytes(r, &size);
    return run_write_new(path, bytes, size, err);
}

/* Everything to the disk, or one failed try. */
static int flush(IoRecorder *r)
{
    int code = 0;
    pthread_mutex_lock(&r->lock);
    if (r->has_thread) {
        r->trouble = 0; /* worth another try */
        int tries = r->attempts;
        pthread_cond_signal(&r->wake);
        while (r->written < r->sealed.used && !(r->trouble != 0 && r->attempts > tries)) {
            pthread_cond_wait(&r->told, &r->lock);
        }
        code = r->written < r->sealed.used ? r->trouble : 0;
    }
    pthread_mutex_unlock(&r->lock);
    return code;
}

void io_recorder_ended(IoRecorder *r, int64_t unix_s)
{
    assert(r != NULL);
    r->head.ended_unix_s = unix_s;
}

PbStatus io_recorder_finish(IoRecorder *r, const PbSession *session, const PbScore *score,
                            const PbRubric *rubric, PbError *err)
{
    assert(r != NULL && session != NULL);
    PbRunFile *h = &r->head;
    if (!pb_session_is_over(session) || h->is_ended) {
        return pb_fail(err, PB_ERR_STATE, "the run is not over, or was finished before");
    }
    seal(r);
    pb_session_result(session, &h->result);
    h->last_tick = r->tick;
    h->phase = h->result.phase;
    h->end_hash = h->result.state_hash;
    h->is_ended = 1;
    if (score != NULL && rubric != NULL) {
        io_run_set_grade(h, score, rubric);
    }
    pthread_mutex_lock(&r->lock);
    size_t before = r->sealed.used;
    if (!r->is_out_of_memory) { /* else ticks are missing, and an end would not follow on */
        run_put_end(&r->sealed, h);
        if (h->grade.is_given) {
            run_put_grade(&r->sealed, &h->grade);
        }
    }
    if (r->sealed.failed) {
        r->sealed.used = before;
        r->is_out_of_memory = 1;
    }
    pthread_mutex_unlock(&r->lock);
    return say(r, flush(r), err);
}

void io_recorder_close(IoRecorder *r)
{
    if (r == NULL) {
        return;
    }
    seal(r);
    if (r->has_thread) {
        pthread_mutex_lock(&r->lock);
        r->is_closing = 1;
        pthread_cond_signal(&r->wake);
        pthread_mutex_unlock(&r->lock);
        pthread_join(r->thread, NULL);
    }
    give_back(r);
}
