/* Recorded hands in a bay with other constants: by their stalls, not by the clock. */
#ifndef CORE_RANGE_HANDS_H
#define CORE_RANGE_HANDS_H

#include "core/run_record.h"

enum { PB_RANGE_COMMANDS = 64 }; /* of one tick */

/* Where the hands are. Borrows the record and its stops. Plain value. */
typedef struct PbRangeHands {
    const PbRunFile *run;
    const PbLift *lifts;
    int lift_count;
    int at, command; /* tick of the recording, and its next command */
    int lift;        /* the next recorded stop that was left after its stall */
    int used;        /* index of the draw's stop whose stall was taken last; -1 = none */
    int waited;      /* ticks for a stall that has not come */
    int is_clearing; /* a clogged hose: the recording waits */
    int was_on;      /* the machine, before that */
} PbRangeHands;

PbRangeHands pb_range_hands(const PbRunFile *run, const PbLift *lifts, int lift_count);
/* Commands of the next tick. Returns how many; negative = the recording is over. */
int pb_range_hands_next(PbRangeHands *h, const PbView *view, PbCommand commands[PB_RANGE_COMMANDS]);

#endif
