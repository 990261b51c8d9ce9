/* What os/place.h promises. */
#include "os/place.h"

#include "os/file.h"

#include "habit.h"
#include "wide.h"

#include <stdlib.h>

/* A variable as Windows keeps it, since the C library's copy may be in another alphabet. */
static int told(const wchar_t *variable, char *out, size_t size)
{
    wchar_t text[2048];
    DWORD n = GetEnvironmentVariableW(variable, text, 2048);
    return n > 0 && n < 2048 && win_utf8(text, 1, out, size) && os_is_whole_path(out);
}

int os_place(OsPlace which, char *out, size_t size)
{
    wchar_t text[MAX_PATH + 2];
    switch (which) {
    case OS_DATA:
        return told(L"XDG_DATA_HOME", out, size) || told(L"LOCALAPPDATA", out, size);
    case OS_CONFIG:
        return told(L"XDG_CONFIG_HOME", out, size) || told(L"APPDATA", out, size);
    case OS_HOME:
        return told(L"USERPROFILE", out, size);
    case OS_PASSING:
        break;
    }
    DWORD n = GetTempPathW(MAX_PATH + 2, text);
    if (n > 1 && n < MAX_PATH + 2 && text[n - 1] == L'\\') {
        text[n - 1] = L'\0';
    }
    return n > 1 && n < MAX_PATH + 2 && win_utf8(text, 1, out, size);
}

/* The language of the windows; measures and numbers are those of the person's region. */
const char *os_habit(OsHabit which)
{
    static char name[2][LOCALE_NAME_MAX_LENGTH * 2];
    const char *named = habit_told(which);
    wchar_t wide[LOCALE_NAME_MAX_LENGTH];
    int is_region = which != OS_LANGUAGE;
    if (named != NULL) {
        return named;
    }
    int n = is_region
                ? GetUserDefaultLocaleName(wide, LOCALE_NAME_MAX_LENGTH)
                : LCIDToLocaleName(GetUserDefaultUILanguage(), wide, LOCALE_NAME_MAX_LENGTH, 0);
    return n > 0 && win_utf8(wide, 0, name[is_region], sizeof name[0]) ? name[is_region] : NULL;
}
