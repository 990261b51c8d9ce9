/* What os/lock.h promises. Locks of Windows belong to the open file and end with its process. */
#include "os/lock.h"

#include "os/file.h"

#include "wide.h"

#include <errno.h>
#include <io.h>

/* Held against other writers by not sharing it for writing, from the moment it is opened. */
int os_open_part(const char *path)
{
    DWORD share = FILE_SHARE_READ | FILE_SHARE_DELETE;
    int fd = win_descriptor(win_open(path, GENERIC_WRITE, share, OPEN_ALWAYS), 0);
    if (fd >= 0 && !os_cut(fd, 0)) {
        int code = errno;
        _close(fd);
        errno = code;
        return -1;
    }
    return fd;
}

/* One byte far behind the end of any file: locked bytes cannot be read by others, and this one need
 * not be. */
static OVERLAPPED mark(void)
{
    OVERLAPPED at = {0};
    at.Offset = 0;
    at.OffsetHigh = 0x7fff0000;
    return at;
}

void os_hold(int fd)
{
    OVERLAPPED at = mark();
    HANDLE h = (HANDLE)_get_osfhandle(fd);
    (void)LockFileEx(h, LOCKFILE_EXCLUSIVE_LOCK | LOCKFILE_FAIL_IMMEDIATELY, 0, 1, 0, &at);
}

int os_is_held(const char *path)
{
    OVERLAPPED at = mark();
    HANDLE h = win_open(path, GENERIC_READ, WIN_SHARE_ALL, OPEN_EXISTING);
    if (h == INVALID_HANDLE_VALUE) {
        return 0;
    }
    int is_free = LockFileEx(h, LOCKFILE_FAIL_IMMEDIATELY, 0, 1, 0, &at) != 0;
    int is_held = !is_free && GetLastError() == ERROR_LOCK_VIOLATION;
    CloseHandle(h); /* and what it locked */
    return is_held;
}

/* No descriptor that is closed takes the locks of another with it here: what these two guard
 * against does not happen. */
int os_lock_shared(int fd, int64_t from, int64_t bytes)
{
    (void)fd, (void)from, (void)bytes;
    return 0;
}

void os_unlock_shared(int fd, int64_t from, int64_t bytes)
{
    (void)fd, (void)from, (void)bytes;
}
