/* Outputs by part file and rename, so that a run that fails leaves no half of a table behind. */
#include "io/output_file.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

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

PbStatus io_output_open(const char *path, IoOutput *out, PbError *err)
{
    struct stat st;
    memset(out, 0, sizeof *out);
    size_t length = strlen(path);
    if (length >= sizeof out->path) {
        memcpy(out->path, path, sizeof out->path - 1); /* cut, for the message */
        errno = ENAMETOOLONG;
        return trouble(out, err, "cannot write");
    }
    memcpy(out->path, path, length + 1);
    if (stat(path, &st) == 0 && !S_ISREG(st.st_mode)) {
        /* a pipe or a device must not be replaced by a file */
        memcpy(out->part, path, length + 1);
        out->file = fopen(path, "wb");
    } else {
        snprintf(out->part, sizeof out->part, "%s.%ld.part", path, (long)getpid());
        int fd = open(out->part, O_WRONLY | O_CREAT | O_EXCL, 0666);
        out->file = fd >= 0 ? fdopen(fd, "wb") : NULL;
        if (fd >= 0 && out->file == NULL) {
            close(fd);
            unlink(out->part);
        }
    }
    if (out->file == NULL) {
        int is_in_the_way = errno == EEXIST;
        PbStatus status = trouble(out, err, "cannot write");
        if (is_in_the_way) { /* of another output of this run, or of a run that was killed */
            (void)pb_fail(err, status, "cannot write: %.255s is in the way", out->part);
        }
        out->part[0] = '\0';
        return status;
    }
    return PB_OK;
}

PbStatus io_output_release(IoOutput *out, PbError *err)
{
    if (out->file == NULL) {
        return PB_OK;
    }
    FILE *f = out->file;
    out->file = NULL;
    int failed = fflush(f) != 0 || ferror(f);
    if (fclose(f) != 0 || failed) {
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
    int fd = open(out->part, O_RDONLY | O_CLOEXEC);
    if (fd < 0) {
        return 0;
    }
    int is_done = fsync(fd) == 0 || errno == EINVAL || errno == ENOSYS || errno == ENOTSUP;
    int why = errno;
    close(fd);
    errno = why;
    return is_done;
}

PbStatus io_output_commit(IoOutput *out, PbError *err)
{
    PB_TRY(io_output_release(out, err));
    if (!is_direct(out) &&
        ((!out->is_quick && !is_on_disk(out)) || rename(out->part, out->path) != 0)) {
        PbStatus status = trouble(out, err, "cannot put in place");
        io_output_abandon(out);
        return status;
    }
    out->part[0] = '\0';
    return PB_OK;
}

void io_output_abandon(IoOutput *out)
{
    if (out->file != NULL) {
        fclose(out->file);
        out->file = NULL;
    }
    if (out->part[0] != '\0' && !is_direct(out)) {
        unlink(out->part);
    }
    out->part[0] = '\0';
}
