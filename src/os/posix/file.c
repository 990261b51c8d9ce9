/* What os/file.h promises. */
#include "os/file.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static OsLook look(int failed, const struct stat *st)
{
    OsLook l = {OS_NOTHING, 0, 0, 0, 0};
    if (!failed) {
        l.kind = S_ISREG(st->st_mode) ? OS_FILE : S_ISDIR(st->st_mode) ? OS_FOLDER : OS_OTHER;
        l.bytes = (uint64_t)st->st_size;
        l.written_unix_s = (int64_t)st->st_mtime;
        l.volume = (uint64_t)st->st_dev;
        l.id = (uint64_t)st->st_ino;
    }
    return l;
}

OsLook os_look(const char *path)
{
    struct stat st;
    return look(stat(path, &st), &st);
}

OsLook os_look_open(int fd)
{
    struct stat st;
    return look(fstat(fd, &st), &st);
}

OsLook os_look_stream(FILE *stream)
{
    return os_look_open(fileno(stream));
}

int os_is_one(const OsLook *a, const OsLook *b)
{
    return a->volume == b->volume && a->id == b->id;
}

int os_is_there(const char *path)
{
    return access(path, F_OK) == 0;
}

int os_is_readable(const char *path)
{
    return access(path, R_OK) == 0;
}

int os_is_whole_path(const char *path)
{
    return path[0] == '/';
}

int os_path_for_others(const char *path, char *out, size_t size)
{
    return snprintf(out, size, "%s", path) < (int)size;
}

int os_open_new(const char *path, OsReaders readers)
{
    return open(path, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC,
                readers == OS_READ_BY_OWNER ? 0600 : 0666);
}

int os_open_or_make(const char *path)
{
    return open(path, O_RDWR | O_CREAT | O_CLOEXEC, 0600);
}

int os_open_at_end(const char *path)
{
    return open(path, O_WRONLY | O_APPEND | O_CLOEXEC);
}

FILE *os_open_stream(const char *path, OsAim aim)
{
    static const char *const modes[] = {"rbe", "wbe", "wbxe"};
    return fopen(path, modes[aim]);
}

int os_read(int fd, void *bytes, size_t most)
{
    return (int)read(fd, bytes, most);
}

int os_read_first(const char *path, void *bytes, size_t most)
{
    int fd = open(path, O_RDONLY | O_CLOEXEC);
    if (fd < 0) {
        return -1;
    }
    int n = os_read(fd, bytes, most), code = errno;
    close(fd);
    errno = code;
    return n;
}

int os_write_all(int fd, const void *bytes, size_t size)
{
    const unsigned char *at = bytes;
    while (size > 0) {
        ssize_t n = write(fd, at, size);
        if (n > 0) {
            at += n;
            size -= (size_t)n;
        } else if (n == 0 || errno != EINTR) {
            errno = n == 0 ? ENOSPC : errno;
            return 0;
        }
    }
    return 1;
}

int os_sync(int fd)
{
    return fsync(fd) == 0 || errno == EINVAL || errno == ENOSYS || errno == ENOTSUP;
}

int os_sync_stream(FILE *stream)
{
    return os_sync(fileno(stream));
}

void os_sync_folder_of(const char *path)
{
    char folder[1024];
    const char *slash = strrchr(path, '/');
    size_t length = slash == NULL ? 0 : slash == path ? 1 : (size_t)(slash - path);
    if (length >= sizeof folder) {
        return;
    }
    memcpy(folder, path, length);
    folder[length] = '\0';
    int fd = open(length > 0 ? folder : ".", O_RDONLY | O_CLOEXEC);
    if (fd >= 0) {
        (void)fsync(fd);
        close(fd);
    }
}

int64_t os_end_of(int fd)
{
    return (int64_t)lseek(fd, 0, SEEK_END);
}

int os_cut(int fd, uint64_t bytes)
{
    return ftruncate(fd, (off_t)bytes) == 0;
}

int os_close(int fd)
{
    return close(fd) == 0;
}

FILE *os_stream(int fd)
{
    return fdopen(fd, "wb");
}

void os_keep_private(FILE *stream)
{
    (void)fchmod(fileno(stream), 0600);
}

void os_close_to_others(const char *path)
{
    struct stat st;
    if (stat(path, &st) == 0 && S_ISREG(st.st_mode) && (st.st_mode & 07u) != 0) {
        (void)chmod(path, st.st_mode & 0770u); /* somebody else's file stays as it is */
    }
}

int os_replace(const char *from, const char *to)
{
    return rename(from, to) == 0;
}

int os_remove(const char *path)
{
    return unlink(path) == 0 || errno == ENOENT;
}
