/* Range tables of hands files; the bay's are in bay/format_rows.c. */
#include "core/hands.h"

#include "bay/rows.h"

static const PbNumberRow hands_rows[] = {
    {"", "step_m", "m", 0.02, 6, OPTIONAL, AT(PbHands, step_m)},
    {"", "wait_s", "s", 0, 600, OPTIONAL, AT(PbHands, wait_s)},
    {"", "stall_frac", "-", 0.05, 0.99, OPTIONAL, AT(PbHands, stall_frac)},
    {"", "speed_m_s", "m/s", 0.001, 1, OPTIONAL, AT(PbHands, speed_m_s)},
    {"", "feed_kg_s", "kg/s", 0.001, 0.2, OR_ZERO, AT(PbHands, feed_kg_s)},
    {"", "blower", "-", 0, 1, OPTIONAL, AT(PbHands, blower)},
    {"", "air_only_s", "s", 0, 120, OPTIONAL, AT(PbHands, air_only_s)},
    {"", "max_stop_s", "s", 1, 600, OR_ZERO, AT(PbHands, max_stop_s)},
};

static const PbNumberRow pass_rows[] = {
    {"", "first_m", "m", 0, 6, REQUIRED, AT(PbPass, first_m)},
    {"", "last_m", "m", 0, 6, REQUIRED, AT(PbPass, last_m)},
    {"", "hole", "-", 1, PB_MAX_HOLES, OR_ZERO, AT(PbPass, hole)},
};

const char *const pb_pull_words[] = {"stall", "clock", "continuous", "none"};

ROWS_OF(hands_rows)
ROWS_OF(pass_rows)
