/*
 * What keeps two programs on one store from losing each other's work.
 *
 * A lock of fcntl(F_SETLK) belongs to the process and the file, not to the descriptor: when the
 * process closes any descriptor of the file, all its locks on it are gone, those of SQLite too.
 * Another program that closes the store then believes itself the last one and removes the log under
 * the feet of this one; what is written from then on goes into a file without a name. So:
 *
 * - a process has one store open, and a second opening is refused before it touches the file;
 * - the descriptor that the file was judged through stays open until SQLite has closed its own;
 * - on that descriptor stands a second shared lock, which belongs to the descriptor (os/lock.h).
 *   Somebody who names the store as a wall file or as a run to import makes a reader open and close
 *   it; this lock stays, and it alone keeps the log from being removed.
 */
#include "store_private.h"

#include "os/file.h"
#include "os/lock.h"

#include <errno.h>
#include <stdatomic.h>
#include <stdio.h>
#include <string.h>

static atomic_flag is_taken = ATOMIC_FLAG_INIT;

PbStatus store_hold_take(Store *s, PbError *err)
{
    if (atomic_flag_test_and_set(&is_taken)) {
        return store_fail(s, err, PB_ERR_STATE,
                          "this program has a store open already, and it has one at a time");
    }
    s->is_holder = 1;
    return PB_OK;
}

PbStatus store_hold_look(Store *s, PbError *err)
{
    char head[16];
    s->fd = os_open_or_make(s->path);
    if (s->fd < 0) {
        return store_fail(s, err, PB_ERR_IO, "cannot open for writing: %s", strerror(errno));
    }
    int got = os_look_open(s->fd).kind == OS_FILE ? os_read(s->fd, head, sizeof head) : -1;
    if (got < 0) {
        return store_fail(s, err, PB_ERR_IO, "is no ordinary file");
    }
    if (got != 0 && (got < 16 || memcmp(head, "SQLite format 3", 16) != 0)) {
        return store_fail(s, err, PB_ERR_FORMAT, "is no database; it was left as it is");
    }
    return PB_OK;
}

void store_hold_close_to_others(const Store *s)
{
    static const char *const ends[] = {"", "-wal", "-shm"};
    char path[sizeof s->path + 8];
    for (int i = 0; i < 3; i++) {
        snprintf(path, sizeof path, "%s%s", s->path, ends[i]);
        os_close_to_others(path);
    }
}

/* The bytes that every reader of the file has a shared lock on: SQLite's file format, lock bytes.
 */
static const int64_t readers_from = 0x40000000 + 2, readers_bytes = 510;

void store_hold_lock(Store *s)
{
    /* a file system without such locks refuses: then SQLite's own lock has to do */
    s->is_locked = os_lock_shared(s->fd, readers_from, readers_bytes);
}

void store_hold_unlock(Store *s)
{
    if (s->is_locked) { /* SQLite's own takes its place, in case a reader dropped it */
        os_unlock_shared(s->fd, readers_from, readers_bytes);
        s->is_locked = 0;
    }
}

void store_hold_give(Store *s)
{
    if (s->fd >= 0) {
        os_close(s->fd);
        s->fd = -1;
    }
    if (s->is_holder) {
        s->is_holder = 0;
        atomic_flag_clear(&is_taken);
    }
}
