/* Folders: os/file.h. */
#include "os/file.h"

#include "wide.h"

#include <errno.h>
#include <stdlib.h>
#include <string.h>

int os_make_folder(const char *path)
{
    wchar_t *wide = win_path(path);
    int is_done = wide != NULL && CreateDirectoryW(wide, NULL);
    if (wide != NULL && !is_done) {
        (void)win_fail();
        /* a drive is there and says that it may not be made */
        DWORD is = GetFileAttributesW(wide);
        is_done = errno == EEXIST ||
                  (is != INVALID_FILE_ATTRIBUTES && (is & FILE_ATTRIBUTE_DIRECTORY) != 0);
    }
    free(wide);
    return is_done;
}

int os_make_new_folder(char *path)
{
    static const char letters[] = "abcdefghijklmnopqrstuvwxyz0123456789";
    size_t n = strlen(path);
    unsigned long long number =
        GetTickCount64() * 1000003u + GetCurrentProcessId() * 7919u; /* to begin with */
    for (int i = 0; n >= 6 && i < 100; i++) {
        unsigned long long left = number + (unsigned long long)i * 104729u;
        for (size_t k = n - 6; k < n; k++) {
            path[k] = letters[left % (sizeof letters - 1)];
            left /= sizeof letters - 1;
        }
        wchar_t *wide = win_path(path);
        int is_made = wide != NULL && (CreateDirectoryW(wide, NULL) || win_fail());
        free(wide);
        if (is_made || errno != EEXIST) {
            return is_made;
        }
    }
    return 0;
}

int os_remove_folder(const char *path)
{
    wchar_t *wide = win_path(path);
    int is_done = wide != NULL && (RemoveDirectoryW(wide) || win_fail());
    free(wide);
    return is_done;
}

struct OsFolder {
    HANDLE search;
    int is_read; /* the name that the search found has been handed out */
    WIN32_FIND_DATAW found;
    char name[4 * MAX_PATH];
    wchar_t *pattern;
};

OsFolder *os_folder_open(const char *path)
{
    OsFolder *f = calloc(1, sizeof *f);
    wchar_t *wide = win_path(path);
    size_t n = wide != NULL ? wcslen(wide) : 0;
    wchar_t *pattern = wide != NULL ? realloc(wide, (n + 3) * sizeof *wide) : NULL;
    if (f == NULL || pattern == NULL) {
        free(pattern != NULL ? pattern : wide);
        free(f);
        return NULL;
    }
    memcpy(pattern + n, n > 0 && pattern[n - 1] == L'\\' ? L"*" : L"\\*",
           (n > 0 && pattern[n - 1] == L'\\' ? 2 : 3) * sizeof *pattern);
    f->pattern = pattern;
    f->search = FindFirstFileW(pattern, &f->found);
    if (f->search == INVALID_HANDLE_VALUE) {
        (void)win_fail();
        free(f->pattern);
        free(f);
        return NULL;
    }
    return f;
}

const char *os_folder_next(OsFolder *folder)
{
    while (folder->search != INVALID_HANDLE_VALUE &&
           (!folder->is_read || FindNextFileW(folder->search, &folder->found))) {
        folder->is_read = 1;
        if (wcscmp(folder->found.cFileName, L".") != 0 &&
            wcscmp(folder->found.cFileName, L"..") != 0 &&
            win_utf8(folder->found.cFileName, 0, folder->name, sizeof folder->name)) {
            return folder->name;
        }
    }
    return NULL;
}

void os_folder_again(OsFolder *folder)
{
    if (folder->search != INVALID_HANDLE_VALUE) {
        FindClose(folder->search);
    }
    folder->is_read = 0;
    folder->search = FindFirstFileW(folder->pattern, &folder->found);
}

void os_folder_close(OsFolder *folder)
{
    if (folder != NULL) {
        if (folder->search != INVALID_HANDLE_VALUE) {
            FindClose(folder->search);
        }
        free(folder->pattern);
        free(folder);
    }
}
