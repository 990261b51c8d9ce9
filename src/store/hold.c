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
 * - on that descriptor stands a second shared lock, F_OFD_SETLK, which belongs to the descriptor.
 *   Somebody who names the store as a wall file or as a run to import makes a reader open and close
 *   it; this lock stays, and it alone keeps the log from being removed.
 */
#include "store_private.h"

#include <errno.h>
#include <fcntl.h>
#include <stdatomic.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

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
    struct stat st;
    s->fd = open(s->path, O_RDWR | O_CREAT | O_CLOEXEC, 0600);
    if (s->fd < 0) {
        return store_fail(s, err, PB_ERR_IO, "cannot open for writing: %s", strerror(errno));
    }
    ssize_t got =
        fstat(s->fd, &st) == 0 && S_ISREG(st.st_mode) ? read(s->fd, head, sizeof head) : -1;
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
    struct stat st;
    for (int i = 0; i < 3; i++) {
        snprintf(path, sizeof path, "%s%s", s->path, ends[i]);
        if (stat(path, &st) == 0 && S_ISREG(st.st_mode) && (st.st_mode & 07u) != 0) {
            (void)chmod(path, st.st_mode & 0770u); /* somebody else's file stays as it is */
        }
    }
}

#ifdef F_OFD_SETLK
/* The bytes that every reader of the file has a shared lock on: SQLite's file format, lock bytes.
 */
static int lock_readers(const Store *s, int command, short type)
{
    struct flock readers = {
        .l_type = type, .l_whence = SEEK_SET, .l_start = 0x40000000 + 2, .l_len = 510};
    return fcntl(s->fd, command, &readers) == 0;
}

void store_hold_lock(Store *s)
{
    /* a file system without such locks refuses: then SQLite's own lock has to do */
    s->is_locked = lock_readers(s, F_OFD_SETLK, F_RDLCK);
}

void store_hold_unlock(Store *s)
{
    if (s->is_locked) {
        /* SQLite's own once more, in case a reader dropped it: no moment without either */
        (void)lock_readers(s, F_SETLK, F_RDLCK);
        (void)lock_readers(s, F_OFD_SETLK, F_UNLCK);
        s->is_locked = 0;
    }
}
#else
void store_hold_lock(Store *s)
{
    (void)s;
}

void store_hold_unlock(Store *s)
{
    (void)s;
}
#endif

void store_hold_give(Store *s)
{
    if (s->fd >= 0) {
        close(s->fd);
        s->fd = -1;
    }
    if (s->is_holder) {
        s->is_holder = 0;
        atomic_flag_clear(&is_taken);
    }
}
