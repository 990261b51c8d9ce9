/* Outputs by part file and rename, so that a run that fails leaves no half of a table behind. What
 * they may replace is judged in output_rule.c. */
#include "output_rule.h"

#include <assert.h>
#include <errno.h>
#include <fcntl.h>
#include <signal.h>
#include <stdatomic.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

/* A name that nobody else gives a file, because what is left there is written over. */
#define PART_ENDING ".pullback-part"

/* Part files for a signal to remove: its handler may read nothing that takes a lock. */
enum { PARTS = 16, FREE = 0, CLAIMED = 1, LISTED = 2 };
static char listed[PARTS][sizeof(((IoOutput *)0)->part)];
static atomic_int listed_state[PARTS];

static void list_part(IoOutput *out)
{
    out->slot = -1;
    for (int i = 0; i < PARTS && out->slot < 0; i++) {
        int was = FREE;
        if (atomic_compare_exchange_strong(&listed_state[i], &was, CLAIMED)) {
            memcpy(listed[i], out->part, sizeof out->part);
            atomic_store(&listed_state[i], LISTED);
            out->slot = i;
        }
    }
}

static void unlist_part(IoOutput *out)
{
    if (out->slot >= 0) {
        atomic_store(&listed_state[out->slot], FREE);
        out->slot = -1;
    }
}

static void remove_parts(int signal_number)
{
    for (int i = 0; i < PARTS; i++) {
        if (atomic_load(&listed_state[i]) == LISTED) {
            unlink(listed[i]);
        }
    }
    raise(signal_number); /* as it would have ended: the handler is gone by now */
}

void io_output_clean_on_signals(void)
{
    static const int signals[] = {SIGHUP, SIGINT, SIGTERM};
    for (size_t i = 0; i < sizeof signals / sizeof signals[0]; i++) {
        struct sigaction now, act = {.sa_handler = remove_parts, .sa_flags = (int)SA_RESETHAND};
        sigemptyset(&act.sa_mask);
        if (sigaction(signals[i], NULL, &now) == 0 && now.sa_handler == SIG_DFL) {
            sigaction(signals[i], &act, NULL);
        }
    }
}

static PbStatus trouble(const IoOutput *out, PbError *err, const char *what)
{
    if (err != NULL) {
        snprintf(err->file, sizeof err->file, "%.255s", out->path);
        err->line = 0;
        err->column = 0;
    }
    return pb_fail(err, PB_ERR_IO, "%s: %s", what, strerror(errno));
}

static int is_direct(const IoOutput *out)
{
    return strcmp(out->path, out->part) == 0;
}

PbStatus io_make_folders(const char *path, PbError *err)
{
    assert(path != NULL);
    char part[1024];
    if (snprintf(part, sizeof part, "%s", path) >= (int)sizeof part) {
        return pb_fail(err, PB_ERR_IO, "the path is too long: %.80s...", path);
    }
    for (char *at = strchr(part + (part[0] == '/'), '/'); at != NULL; at = strchr(at + 1, '/')) {
        *at = '\0';
        if (mkdir(part, 0700) != 0 && errno != EEXIST) {
            return pb_fail(err, PB_ERR_IO, "cannot make the folder %.200s: %s", part,
                           strerror(errno));
        }
        *at = '/';
    }
    return PB_OK;
}

/* The part file, empty and locked, so that a file which nobody locks is one that a killed process
 * left. Negative with errno; EBUSY when another output is being written there. Where a file system
 * knows no locks only a new file will do. */
static int open_part(const char *part)
{
    for (int tries = 0; tries < 100; tries++) {
        int fd = open(part, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666), is_new = fd >= 0;
        if (fd < 0 && errno != EEXIST) {
            return -1;
        }
        if (!is_new) {
            fd = open(part, O_WRONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);
        }
        if (fd < 0) {
            if (errno == ENOENT) {
                continue; /* it was put in its place since */
            }
            return -1;
        }
        struct stat held, named;
        int is_locked = flock(fd, LOCK_EX | LOCK_NB) == 0;
        int is_busy = !is_locked && (errno == EWOULDBLOCK || !is_new);
        if (!is_busy && fstat(fd, &held) == 0 && lstat(part, &named) == 0 &&
            held.st_dev == named.st_dev && held.st_ino == named.st_ino && S_ISREG(held.st_mode) &&
            held.st_nlink == 1 && ftruncate(fd, 0) == 0) {
            return fd;
        }
        close(fd);
        if (is_busy) {
            break;
        }
    }
    errno = EBUSY;
    return -1;
}

PbStatus io_output_open(const char *path, const char *begins, IoOutput *out, PbError *err)
{
    assert(path != NULL && out != NULL);
    struct stat st;
    memset(out, 0, sizeof *out);
    out->slot = -1;
    size_t length = strlen(path);
    if (length >= sizeof out->path) {
        memcpy(out->path, path, sizeof out->path - 1); /* cut, for the message */
        errno = ENAMETOOLONG;
        return trouble(out, err, "cannot write");
    }
    PB_TRY(output_rule(path, begins, err));
    memcpy(out->path, path, length + 1);
    if (stat(path, &st) == 0 && !S_ISREG(st.st_mode)) {
        /* a pipe or a device must not be replaced by a file */
        memcpy(out->part, path, length + 1);
        out->file = fopen(path, "wbe");
    } else {
        snprintf(out->part, sizeof out->part, "%s" PART_ENDING, path);
        int fd = open_part(out->part);
        out->file = fd >= 0 ? fdopen(fd, "wb") : NULL;
        if (fd >= 0 && out->file == NULL) {
            unlink(out->part);
            close(fd);
        }
    }
    if (out->file == NULL) {
        int is_in_the_way = errno == EBUSY;
        PbStatus status = trouble(out, err, "cannot write");
        if (is_in_the_way) {
            (void)pb_fail(err, status,
                          "cannot write: %.255s is in the way, which another program "
                          "is writing",
                          out->part);
        }
        out->part[0] = '\0';
        return status;
    }
    if (!is_direct(out)) {
        list_part(out);
    }
    return PB_OK;
}

PbStatus io_output_flush(IoOutput *out, PbError *err)
{
    assert(out != NULL && out->file != NULL);
    if (out->file != NULL && (fflush(out->file) != 0 || ferror(out->file))) {
        PbStatus status = trouble(out, err, "cannot write");
        io_output_abandon(out);
        return status;
    }
    return PB_OK;
}

/* On the disk before its name points to it: after a power cut the old file or the new one is there,
 * not an empty one. Some file systems have no such call, and need none. */
static int is_on_disk(const IoOutput *out)
{
    return fsync(fileno(out->file)) == 0 || errno == EINVAL || errno == ENOSYS || errno == ENOTSUP;
}

PbStatus io_output_commit(IoOutput *out, PbError *err)
{
    assert(out != NULL && out->file != NULL);
    if (out->file == NULL) {
        return PB_OK;
    }
    PB_TRY(io_output_flush(out, err));
    /* renamed while it is open and so still locked: nobody takes it for one that was left */
    if (!is_direct(out) &&
        ((!out->is_quick && !is_on_disk(out)) || rename(out->part, out->path) != 0)) {
        PbStatus status = trouble(out, err, "cannot put in place");
        io_output_abandon(out);
        return status;
    }
    unlist_part(out);
    out->part[0] = '\0';
    FILE *f = out->file;
    out->file = NULL;
    return fclose(f) == 0 ? PB_OK : trouble(out, err, "cannot write");
}

void io_output_abandon(IoOutput *out)
{
    assert(out != NULL);
    if (out->file == NULL) {
        return;
    }
    if (!is_direct(out)) {
        unlink(out->part);
        unlist_part(out);
    }
    fclose(out->file);
    out->file = NULL;
    out->part[0] = '\0';
}
