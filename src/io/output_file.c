/* Outputs by part file and rename, so that a run that fails leaves no half of a table behind. What
 * they may replace is judged in output_rule.c. */
#include "output_rule.h"

#include "os/file.h"
#include "os/lock.h"
#include "os/signal.h"

#include <assert.h>
#include <errno.h>
#include <stdatomic.h>
#include <stdlib.h>
#include <string.h>

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
            (void)os_remove(listed[i]);
        }
    }
    os_end_as(signal_number);
}

void io_output_clean_on_signals(void)
{
    os_on_ending(remove_parts);
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
        if (!os_make_folder(part)) {
            return pb_fail(err, PB_ERR_IO, "cannot make the folder %.200s: %s", part,
                           strerror(errno));
        }
        *at = '/';
    }
    return PB_OK;
}

PbStatus io_output_open(const char *path, const char *begins, IoOutput *out, PbError *err)
{
    assert(path != NULL && out != NULL);
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
    OsKind kind = os_look(path).kind;
    if (kind != OS_NOTHING && kind != OS_FILE) {
        /* a pipe or a device must not be replaced by a file */
        memcpy(out->part, path, length + 1);
        out->file = os_open_stream(path, OS_TO_WRITE);
    } else {
        snprintf(out->part, sizeof out->part, "%s" PART_ENDING, path);
        int fd = os_open_part(out->part);
        out->file = fd >= 0 ? os_stream(fd) : NULL;
        if (fd >= 0 && out->file == NULL) {
            (void)os_remove(out->part);
            os_close(fd);
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

PbStatus io_output_commit(IoOutput *out, PbError *err)
{
    assert(out != NULL && out->file != NULL);
    if (out->file == NULL) {
        return PB_OK;
    }
    PB_TRY(io_output_flush(out, err));
    /* On the disk before its name points to it: after a power cut the old file or the new one is
     * there, not an empty one. Renamed while it is open and so still locked: nobody takes it for
     * one that was left. */
    if (!is_direct(out) &&
        ((!out->is_quick && !os_sync_stream(out->file)) || !os_replace(out->part, out->path))) {
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
        (void)os_remove(out->part);
        unlist_part(out);
    }
    fclose(out->file);
    out->file = NULL;
    out->part[0] = '\0';
}
