/* What os/lock.h promises. */
#include "os/lock.h"

#include <errno.h>
#include <fcntl.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

/* Is it still the file of that name, an ordinary one, and under no other name? */
static int is_still_it(int fd, const char *path)
{
    struct stat held, named;
    return fstat(fd, &held) == 0 && lstat(path, &named) == 0 && held.st_dev == named.st_dev &&
           held.st_ino == named.st_ino && S_ISREG(held.st_mode) && held.st_nlink == 1;
}

int os_open_part(const char *path)
{
    for (int tries = 0; tries < 100; tries++) {
        int fd = open(path, O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666), is_new = fd >= 0;
        if (fd < 0 && errno != EEXIST) {
            return -1;
        }
        if (!is_new) {
            fd = open(path, O_WRONLY | O_NOFOLLOW | O_NONBLOCK | O_CLOEXEC);
        }
        if (fd < 0) {
            if (errno == ENOENT) {
                continue; /* it was put in its place since */
            }
            return -1;
        }
        int is_locked = flock(fd, LOCK_EX | LOCK_NB) == 0;
        int is_busy = !is_locked && (errno == EWOULDBLOCK || !is_new);
        if (!is_busy && is_still_it(fd, path) && ftruncate(fd, 0) == 0) {
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

void os_hold(int fd)
{
    struct flock whole = {.l_type = F_WRLCK, .l_whence = SEEK_SET};
    (void)fcntl(fd, F_SETLK, &whole);
}

int os_is_held(const char *path)
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

#ifdef F_OFD_SETLK
static int lock_stretch(int fd, int command, short type, int64_t from, int64_t bytes)
{
    struct flock stretch = {
        .l_type = type, .l_whence = SEEK_SET, .l_start = (off_t)from, .l_len = (off_t)bytes};
    return fcntl(fd, command, &stretch) == 0;
}

int os_lock_shared(int fd, int64_t from, int64_t bytes)
{
    return lock_stretch(fd, F_OFD_SETLK, F_RDLCK, from, bytes);
}

void os_unlock_shared(int fd, int64_t from, int64_t bytes)
{
    (void)lock_stretch(fd, F_SETLK, F_RDLCK, from, bytes);
    (void)lock_stretch(fd, F_OFD_SETLK, F_UNLCK, from, bytes);
}
#else
int os_lock_shared(int fd, int64_t from, int64_t bytes)
{
    (void)fd, (void)from, (void)bytes;
    return 0;
}

void os_unlock_shared(int fd, int64_t from, int64_t bytes)
{
    (void)fd, (void)from, (void)bytes;
}
#endif
