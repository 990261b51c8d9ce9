/* Grades as runs.c needs them: inside its own transaction. */
#ifndef STORE_RUNS_PRIVATE_H
#define STORE_RUNS_PRIVATE_H

#include "store/runs.h"

/* Judge every value of a grade. */
PB_NODISCARD PbStatus store_grade_check(const Store *s, const StoreGrade *grade, PbError *err);
/* Nonzero when `points` of `most` can have been given: neither infinite nor out of its range. */
int store_is_points(double points, double most);
/* What to say of a run that has another figure: it was not put in so. */
PbStatus store_odd_figure(const Store *s, int64_t run_id, PbError *err);
/* Insert or replace; the caller has a transaction open. */
PB_NODISCARD PbStatus store_grade_insert(Store *s, int64_t run_id, const StoreGrade *grade,
                                         PbError *err);

#endif
