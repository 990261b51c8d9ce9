/* Inside src/os/win: names as Windows takes them, and its errors as C knows them. */
#ifndef WIN_WIDE_H
#define WIN_WIDE_H

#include <stddef.h>
#include <wchar.h>

/* What this program asks of Windows came with version 10. */
#define WIN32_LEAN_AND_MEAN
#include <windows.h>

/* A path of UTF-8 as a whole path of Windows; one that is longer than 259 letters works too.
 * NULL and errno; else free it. */
wchar_t *win_path(const char *path);
/* UTF-8 of a text of Windows, with '/' between folders when it is a path. 0: it does not fit */
int win_utf8(const wchar_t *text, int is_path, char *out, size_t size);
/* Windows' last error becomes errno. Always returns 0. */
int win_fail(void);
/* CreateFile with everything shared but what is left out, never handed on to programs that are
 * started. INVALID_HANDLE_VALUE and errno: EISDIR for a folder */
HANDLE win_open(const char *path, DWORD access, DWORD share, DWORD how);
/* The descriptor that owns the handle. -1 and errno: the handle is closed */
int win_descriptor(HANDLE handle, int flags);

enum { WIN_SHARE_ALL = FILE_SHARE_READ | FILE_SHARE_WRITE | FILE_SHARE_DELETE };

#endif
