/* Range tables of hands files; the bay's are in bay/format_rows.c. */
#include "core/hands.h"

#define REQUIRED 1, 0
#define OPTIONAL 0, 0
#define OR_ZERO  0, 1

static const PbNumberRow hands_rows[] = {
    {"", "step_m", "m", 0.02, 6, OPTIONAL, offsetof(PbHands, step_m)},
    {"", "wait_s", "s", 0, 600, OPTIONAL, offsetof(PbHands, wait_s)},
    {"", "stall_frac", "-", 0.05, 0.99, OPTIONAL, offsetof(PbHands, stall_frac)},
    {"", "speed_m_s", "m/s", 0.001, 1, OPTIONAL, offsetof(PbHands, speed_m_s)},
    {"", "feed_kg_s", "kg/s", 0.001, 0.2, OR_ZERO, offsetof(PbHands, feed_kg_s)},
    {"", "blower", "-", 0, 1, OPTIONAL, offsetof(PbHands, blower)},
    {"", "air_only_s", "s", 0, 120, OPTIONAL, offsetof(PbHands, air_only_s)},
    {"", "max_stop_s", "s", 1, 600, OR_ZERO, offsetof(PbHands, max_stop_s)},
};

static const PbNumberRow pass_rows[] = {
    {"", "first_m", "m", 0, 6, REQUIRED, offsetof(PbPass, first_m)},
    {"", "last_m", "m", 0, 6, REQUIRED, offsetof(PbPass, last_m)},
};

const char *const pb_pull_words[] = {"stall", "clock", "continuous", "none"};

const PbNumberRow *pb_hands_rows(size_t *count)
{
    *count = sizeof hands_rows / sizeof hands_rows[0];
    return hands_rows;
}

const PbNumberRow *pb_pass_rows(size_t *count)
{
    *count = sizeof pass_rows / sizeof pass_rows[0];
    return pass_rows;
}
