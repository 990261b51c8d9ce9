/* Whole runs for tests: an exercise, hands, a seed, and the result. */
#ifndef SUPPORT_RUN_CASES_H
#define SUPPORT_RUN_CASES_H

#include "suite.h"

#include "core/units.h"
#include "lab/verify_pack.h"

#include <math.h>
#include <string.h>

#define LB_FT3(x) ((x)*PB_KG_M3_PER_LB_FT3)

typedef struct RunCase {
    PbExercise exercise;
    PbHands hands;
    uint64_t seed;
} RunCase;

/* Low hole, leaky enough for comfort (1e-2 m3/(s m2) at 75 Pa): the default bay and hands. */
static inline RunCase run_case_low(void)
{
    RunCase c = {pb_exercise_default(), pb_hands_default(), 1};
    c.hands.wait_s = 1.0;
    return c;
}

/* High hole, tighter wall: tube down once, worked back up. */
static inline RunCase run_case_high(void)
{
    RunCase c = run_case_low();
    c.exercise.holes[0].y_m = 2.1;
    c.exercise.leak75_m3_s_m2 = 5e-3;
    c.hands.pass_count = 1;
    c.hands.passes[0].direction = -1;
    c.hands.passes[0].first_m = 0.3;
    c.hands.passes[0].last_m = 2.05;
    return c;
}

static inline PbResult run_it(const RunCase *c)
{
    PbResult r;
    ck_assert_int_eq(verify_run(&c->exercise, &c->hands, c->seed, &r, NULL), PB_OK);
    return r;
}

#endif
