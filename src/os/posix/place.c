/* What os/place.h promises. */
#include "os/place.h"

#include "habit.h"

#include <stdio.h>
#include <stdlib.h>

/* A folder named outright, or one below the person's own. */
static int below(const char *named, const char *tail, char *out, size_t size)
{
    const char *named_so = named != NULL ? getenv(named) : NULL, *home = getenv("HOME");
    int n = -1;
    if (named_so != NULL && named_so[0] == '/') {
        n = snprintf(out, size, "%s", named_so);
    } else if (home != NULL && home[0] != '\0') {
        n = snprintf(out, size, "%s%s", home, tail);
    }
    return n > 0 && (size_t)n < size;
}

int os_place(OsPlace which, char *out, size_t size)
{
    const char *passing = getenv("TMPDIR");
    switch (which) {
    case OS_DATA:
        return below("XDG_DATA_HOME", "/.local/share", out, size);
    case OS_CONFIG:
        return below("XDG_CONFIG_HOME", "/.config", out, size);
    case OS_HOME:
        return below(NULL, "", out, size);
    case OS_PASSING:
        break;
    }
    int is_told = passing != NULL && passing[0] == '/';
    return snprintf(out, size, "%s", is_told ? passing : "/tmp") < (int)size;
}

const char *os_habit(OsHabit which)
{
    return habit_told(which);
}
