/* Inside src/os: habits that the environment names. */
#ifndef HABIT_H
#define HABIT_H

#include "os/place.h"

/* As setlocale would choose it. NULL when no variable says it. */
const char *habit_told(OsHabit which);

#endif
