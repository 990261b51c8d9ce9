/* What wide.h promises. */
#include "wide.h"

#include <errno.h>
#include <fcntl.h>
#include <io.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

/* From here on Windows wants its own mark before a path, or refuses it (MAX_PATH, less a short name
 * in a folder). */
enum { LONG_FROM = 240 };

static wchar_t *widen(const char *text)
{
    int n = MultiByteToWideChar(CP_UTF8, MB_ERR_INVALID_CHARS, text, -1, NULL, 0);
    wchar_t *wide = n > 0 ? malloc((size_t)n * sizeof *wide) : NULL;
    if (wide != NULL) {
        MultiByteToWideChar(CP_UTF8, MB_ERR_INVALID_CHARS, text, -1, wide, n);
    } else {
        errno = n > 0 ? ENOMEM : ENOENT; /* no file has a name that is no UTF-8 */
    }
    return wide;
}

wchar_t *win_path(const char *path)
{
    static const wchar_t mark[] = L"\\\\?\\", net[] = L"\\\\?\\UNC";
    wchar_t *wide = widen(path);
    if (wide == NULL) {
        return NULL;
    }
    enum { HEAD = sizeof net / sizeof net[0] - 1, MARK = sizeof mark / sizeof mark[0] - 1 };
    DWORD n = GetFullPathNameW(wide, 0, NULL, NULL);
    wchar_t *whole = malloc((HEAD + (size_t)n + 1) * sizeof *whole), *at = NULL;
    if (n == 0 || whole == NULL) {
        errno = n == 0 ? ENOENT : ENOMEM;
        free(whole);
        free(wide);
        return NULL;
    }
    DWORD got = GetFullPathNameW(wide, n, whole + HEAD, NULL);
    at = whole + HEAD;
    free(wide);
    if (got >= LONG_FROM && at[0] == L'\\' && at[1] == L'\\' && at[2] != L'?' && at[2] != L'.') {
        at -= HEAD - 1; /* its second backslash stays: \\?\UNC\server */
        memcpy(at, net, HEAD * sizeof *net);
    } else if (got >= LONG_FROM && at[0] != L'\\') {
        at -= MARK;
        memcpy(at, mark, MARK * sizeof *mark);
    }
    memmove(whole, at, (wcslen(at) + 1) * sizeof *at);
    return whole;
}

int win_utf8(const wchar_t *text, int is_path, char *out, size_t size)
{
    int n = WideCharToMultiByte(CP_UTF8, 0, text, -1, out, size < INT32_MAX ? (int)size : INT32_MAX,
                                NULL, NULL);
    for (int i = 0; is_path && i < n; i++) {
        out[i] = out[i] == '\\' ? '/' : out[i];
    }
    return n > 0;
}

int win_fail(void)
{
    static const struct {
        DWORD code;
        int number;
    } table[] = {
        {ERROR_FILE_NOT_FOUND, ENOENT},
        {ERROR_PATH_NOT_FOUND, ENOENT},
        {ERROR_INVALID_NAME, ENOENT},
        {ERROR_BAD_PATHNAME, ENOENT},
        {ERROR_BAD_NETPATH, ENOENT},
        {ERROR_INVALID_DRIVE, ENOENT},
        {ERROR_FILE_EXISTS, EEXIST},
        {ERROR_ALREADY_EXISTS, EEXIST},
        {ERROR_SHARING_VIOLATION, EBUSY},
        {ERROR_LOCK_VIOLATION, EBUSY},
        {ERROR_DISK_FULL, ENOSPC},
        {ERROR_HANDLE_DISK_FULL, ENOSPC},
        {ERROR_NOT_ENOUGH_MEMORY, ENOMEM},
        {ERROR_OUTOFMEMORY, ENOMEM},
        {ERROR_DIRECTORY, ENOTDIR},
        {ERROR_DIR_NOT_EMPTY, ENOTEMPTY},
        {ERROR_WRITE_PROTECT, EROFS},
        {ERROR_TOO_MANY_OPEN_FILES, EMFILE},
        {ERROR_NOT_SUPPORTED, ENOSYS},
        {ERROR_INVALID_FUNCTION, ENOSYS},
        {ERROR_FILENAME_EXCED_RANGE, ENAMETOOLONG},
    };
    DWORD code = GetLastError();
    errno = code == ERROR_ACCESS_DENIED ? EACCES : EIO;
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        errno = table[i].code == code ? table[i].number : errno;
    }
    return 0;
}

HANDLE win_open(const char *path, DWORD access, DWORD share, DWORD how)
{
    wchar_t *wide = win_path(path);
    if (wide == NULL) {
        return INVALID_HANDLE_VALUE;
    }
    HANDLE h = CreateFileW(wide, access, share, NULL, how, FILE_ATTRIBUTE_NORMAL, NULL);
    if (h == INVALID_HANDLE_VALUE) {
        (void)win_fail();
        DWORD is = errno == EACCES ? GetFileAttributesW(wide) : 0;
        if (is != INVALID_FILE_ATTRIBUTES && (is & FILE_ATTRIBUTE_DIRECTORY) != 0) {
            errno = EISDIR;
        }
    }
    free(wide);
    return h;
}

int win_descriptor(HANDLE handle, int flags)
{
    if (handle == INVALID_HANDLE_VALUE) {
        return -1;
    }
    int fd = _open_osfhandle((intptr_t)handle, flags | _O_BINARY | _O_NOINHERIT);
    if (fd < 0) {
        CloseHandle(handle);
    }
    return fd;
}
