/* Private to app: how much of the wall is seen, and what goes with it. */
#ifndef APP_SIGHT_H
#define APP_SIGHT_H

#include "gauge.h"

typedef enum SightLevel { SIGHT_OPEN, SIGHT_TAPED, SIGHT_CLOSED, SIGHT_LEVELS } SightLevel;

/* Marks in a run's record (PB_COMMAND_MARK): the check list before work and power at a plug.
 * Numbers are never reused: they stand in kept runs. */
enum {
    MARK_CHECKLIST = 1000, /* + one bit for each point ticked, in the card's order; 1000..1063 */
    MARK_PLUG_POWER_OFF = 1100, /* plug cleared with the machine off */
    MARK_PLUG_POWER_ON = 1101   /* plug cleared without switching off: a skipped safety step */
};
enum { SAFETY_POINTS = 6 };

#endif
