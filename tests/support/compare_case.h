/* A comparison for tests: years 0, 1 and 30, a bay that is soon packed, all that can be read. */
#ifndef COMPARE_CASE_H
#define COMPARE_CASE_H

#include "core/compare.h"

#include "io/parallel.h"
#include "suite.h"

enum { YEAR_0, YEAR_1, YEAR_30, TIMES };

static inline PbCompareSetup setup_of(PbFoamClass foam, PbDenseCase dense, int draws)
{
    PbCompareSetup s = pb_compare_default();
    s.house.foam = foam;
    s.house.dense = dense;
    s.years[1] = 1.0;
    s.years[2] = 30.0;
    s.year_count = TIMES;
    s.frames_between = 0;
    s.draws = draws;
    return s;
}

static inline PbCompare *make(const PbCompareSetup *s)
{
    PbCompare *c;
    PbError err = {0};
    ck_assert_msg(pb_compare_create(s, &c, &err) == PB_OK, "%s", err.message);
    return c;
}

static inline PbCompare *whole(const PbCompareSetup *s)
{
    PbCompare *c = make(s);
    PbError err = {0};
    IoParallel crew = io_parallel_default();
    ck_assert_msg(pb_compare_run_all(c, io_parallel_for, &crew, NULL, NULL, NULL, &err) == PB_OK,
                  "%s", err.message);
    return c;
}

static inline PbCompareFigures at(const PbCompare *c, PbCompareFill fill, int t)
{
    PbCompareFigures f;
    pb_compare_figures(c, fill, t, &f);
    return f;
}

/* A low bay, soon packed, for what does not depend on what is packed. */
static inline PbExercise low_bay(void)
{
    PbExercise e = pb_exercise_default();
    e.height_m = 0.6;
    e.holes[0].y_m = 0.3;
    return e;
}

#endif
