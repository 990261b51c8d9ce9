/* What the environment says of a person's habits, which every system may be told by. */
#include "habit.h"

#include <stdlib.h>

const char *habit_told(OsHabit which)
{
    static const char *const names[][4] = {
        [OS_LANGUAGE] = {"LANGUAGE", "LC_ALL", "LC_MESSAGES", "LANG"},
        [OS_MEASUREMENT] = {"LC_ALL", "LC_MEASUREMENT", "LANG"},
        [OS_NUMBERS] = {"LC_ALL", "LC_NUMERIC", "LANG"},
    };
    for (int i = 0; i < 4 && names[which][i] != NULL; i++) {
        const char *value = getenv(names[which][i]);
        if (value != NULL && value[0] != '\0') {
            return value;
        }
    }
    return NULL;
}
