/* Private to app: how much of the wall is seen, and what goes with it. */
#ifndef APP_SIGHT_H
#define APP_SIGHT_H

#include "core/marks.h"

typedef enum SightLevel { SIGHT_OPEN, SIGHT_TAPED, SIGHT_CLOSED, SIGHT_LEVELS } SightLevel;

/* Of the check list before work. */
enum { SAFETY_POINTS = PB_CHECK_POINTS };

#endif
