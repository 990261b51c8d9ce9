/* What os/file.h promises. Who may read a file is what its folder says: a person's own folders are
 * theirs alone on Windows. */
#include "os/file.h"

#include "wide.h"

#include <errno.h>
#include <fcntl.h>
#include <io.h>
#include <stdlib.h>

static OsLook look(HANDLE h)
{
    static const uint64_t from_1601_s = 11644473600u; /* to 1970; Windows counts tenths of µs */
    OsLook l = {OS_NOTHING, 0, 0, 0, 0};
    BY_HANDLE_FILE_INFORMATION is;
    if (h == INVALID_HANDLE_VALUE) {
        return l;
    }
    if (GetFileType(h) != FILE_TYPE_DISK || !GetFileInformationByHandle(h, &is)) {
        l.kind = OS_OTHER;
        return l;
    }
    uint64_t written =
        (uint64_t)is.ftLastWriteTime.dwHighDateTime << 32 | is.ftLastWriteTime.dwLowDateTime;
    l.kind = is.dwFileAttributes & FILE_ATTRIBUTE_DIRECTORY ? OS_FOLDER : OS_FILE;
    l.bytes = (uint64_t)is.nFileSizeHigh << 32 | is.nFileSizeLow;
    l.written_unix_s = (int64_t)(written / 10000000u) - (int64_t)from_1601_s;
    l.volume = is.dwVolumeSerialNumber;
    l.id = (uint64_t)is.nFileIndexHigh << 32 | is.nFileIndexLow;
    return l;
}

OsLook os_look(const char *path)
{
    OsLook l = {OS_NOTHING, 0, 0, 0, 0};
    wchar_t *wide = win_path(path);
    if (wide == NULL) {
        return l;
    }
    HANDLE h = CreateFileW(wide, FILE_READ_ATTRIBUTES, WIN_SHARE_ALL, NULL, OPEN_EXISTING,
                           FILE_FLAG_BACKUP_SEMANTICS, NULL);
    free(wide);
    if (h == INVALID_HANDLE_VALUE) {
        (void)win_fail();
        return l;
    }
    l = look(h);
    CloseHandle(h);
    return l;
}

OsLook os_look_open(int fd)
{
    return look((HANDLE)_get_osfhandle(fd));
}

OsLook os_look_stream(FILE *stream)
{
    return os_look_open(_fileno(stream));
}

int os_is_one(const OsLook *a, const OsLook *b)
{
    return a->volume == b->volume && a->id == b->id;
}

int os_is_there(const char *path)
{
    return os_look(path).kind != OS_NOTHING;
}

int os_is_readable(const char *path)
{
    if (os_look(path).kind == OS_FOLDER) {
        return 1;
    }
    HANDLE h = win_open(path, GENERIC_READ, WIN_SHARE_ALL, OPEN_EXISTING);
    if (h != INVALID_HANDLE_VALUE) {
        CloseHandle(h);
    }
    return h != INVALID_HANDLE_VALUE;
}

int os_is_whole_path(const char *path)
{
    int is_letter = (path[0] >= 'A' && path[0] <= 'Z') || (path[0] >= 'a' && path[0] <= 'z');
    return path[0] == '/' || path[0] == '\\' || (is_letter && path[1] == ':');
}

int os_path_for_others(const char *path, char *out, size_t size)
{
    wchar_t *wide = win_path(path);
    int fits = wide != NULL && win_utf8(wide, 0, out, size);
    free(wide);
    return fits;
}

int os_open_new(const char *path, OsReaders readers)
{
    (void)readers;
    return win_descriptor(win_open(path, GENERIC_WRITE, WIN_SHARE_ALL, CREATE_NEW), 0);
}

int os_open_or_make(const char *path)
{
    return win_descriptor(win_open(path, GENERIC_READ | GENERIC_WRITE, WIN_SHARE_ALL, OPEN_ALWAYS),
                          _O_RDWR);
}

int os_open_at_end(const char *path)
{
    return win_descriptor(win_open(path, GENERIC_WRITE, WIN_SHARE_ALL, OPEN_EXISTING), _O_APPEND);
}

FILE *os_open_stream(const char *path, OsAim aim)
{
    static const DWORD how[] = {OPEN_EXISTING, CREATE_ALWAYS, CREATE_NEW};
    DWORD access = aim == OS_TO_READ ? GENERIC_READ : GENERIC_WRITE;
    int fd = win_descriptor(win_open(path, access, WIN_SHARE_ALL, how[aim]),
                            aim == OS_TO_READ ? _O_RDONLY : 0);
    FILE *stream = fd >= 0 ? _fdopen(fd, aim == OS_TO_READ ? "rb" : "wb") : NULL;
    if (fd >= 0 && stream == NULL) {
        int code = errno;
        _close(fd);
        errno = code;
    }
    return stream;
}

int os_read(int fd, void *bytes, size_t most)
{
    return _read(fd, bytes, most < INT32_MAX ? (unsigned)most : INT32_MAX);
}

int os_read_first(const char *path, void *bytes, size_t most)
{
    int fd = win_descriptor(win_open(path, GENERIC_READ, WIN_SHARE_ALL, OPEN_EXISTING), _O_RDONLY);
    if (fd < 0) {
        return -1;
    }
    int n = os_read(fd, bytes, most), code = errno;
    _close(fd);
    errno = code;
    return n;
}

int os_write_all(int fd, const void *bytes, size_t size)
{
    const unsigned char *at = bytes;
    while (size > 0) {
        int n = _write(fd, at, size < INT32_MAX ? (unsigned)size : INT32_MAX);
        if (n <= 0) {
            errno = n == 0 ? ENOSPC : errno;
            return 0;
        }
        at += n;
        size -= (size_t)n;
    }
    return 1;
}

int os_sync(int fd)
{
    return _commit(fd) == 0;
}

int os_sync_stream(FILE *stream)
{
    return os_sync(_fileno(stream));
}

/* NTFS keeps names in a journal of its own, in the order in which they were given. */
void os_sync_folder_of(const char *path)
{
    (void)path;
}

int64_t os_end_of(int fd)
{
    return _lseeki64(fd, 0, SEEK_END);
}

int os_cut(int fd, uint64_t bytes)
{
    int code = bytes < INT64_MAX ? _chsize_s(fd, (int64_t)bytes) : EINVAL;
    errno = code != 0 ? code : errno;
    return code == 0;
}

int os_close(int fd)
{
    return _close(fd) == 0;
}

FILE *os_stream(int fd)
{
    return _fdopen(fd, "wb");
}

void os_keep_private(FILE *stream)
{
    (void)stream;
}

void os_close_to_others(const char *path)
{
    (void)path;
}

/* The way of Windows 10 (1607), which lets whoever has the old file open keep it, as POSIX does.
 * File systems that do not know it refuse. */
static int replace_under_readers(const wchar_t *from, const wchar_t *to)
{
    enum { REPLACE = 1, AS_POSIX = 2 };
    static const FILE_INFO_BY_HANDLE_CLASS by_flags =
        (FILE_INFO_BY_HANDLE_CLASS)22; /* FileRenameInfoEx */
    size_t letters = wcslen(to), size = sizeof(FILE_RENAME_INFO) + letters * sizeof *to;
    HANDLE h = CreateFileW(from, DELETE | SYNCHRONIZE, WIN_SHARE_ALL, NULL, OPEN_EXISTING, 0, NULL);
    FILE_RENAME_INFO *name = h != INVALID_HANDLE_VALUE ? calloc(1, size) : NULL;
    int is_done = 0;
    if (name != NULL) {
        *(DWORD *)name = REPLACE | AS_POSIX; /* the first member, a union in newer headers */
        name->FileNameLength = (DWORD)(letters * sizeof *to);
        for (size_t i = 0; i < letters; i++) {
            name->FileName[i] = to[i];
        }
        is_done = SetFileInformationByHandle(h, by_flags, name, (DWORD)size) != 0;
    }
    free(name);
    if (h != INVALID_HANDLE_VALUE) {
        CloseHandle(h);
    }
    return is_done;
}

/* A search for viruses has a new file open for a moment: then it is asked again, for a second. */
int os_replace(const char *from, const char *to)
{
    enum { TRIES = 20, PAUSE_MS = 50 };
    wchar_t *old = win_path(from), *new = old != NULL ? win_path(to) : NULL;
    int is_done = 0;
    for (int i = 0; new != NULL &&i < TRIES && !is_done; i++) {
        is_done = replace_under_readers(old, new) ||
                  MoveFileExW(old, new, MOVEFILE_REPLACE_EXISTING | MOVEFILE_WRITE_THROUGH);
        if (!is_done) {
            (void)win_fail();
            if (errno != EACCES && errno != EBUSY) {
                break;
            }
            Sleep(PAUSE_MS);
        }
    }
    free(old);
    free(new);
    return is_done;
}

int os_remove(const char *path)
{
    wchar_t *wide = win_path(path);
    int is_done = wide != NULL && (DeleteFileW(wide) || (win_fail(), errno == ENOENT));
    free(wide);
    return is_done;
}
