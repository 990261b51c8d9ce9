/* Tables of the verb learners, as CSV on standard output. */
#ifndef CLI_LEARNERS_TABLE_H
#define CLI_LEARNERS_TABLE_H

#include "store/store.h"

/* A row for each person and exercise: finished runs, first, last and best score, passes, the part
 * of the grade that cost most in the mean. Runs by scripted hands are left out. */
PB_NODISCARD PbStatus learners_table(Store *store, PbError *err);
/* A row for each sitting of the drills. */
PB_NODISCARD PbStatus learners_drills(Store *store, PbError *err);

#endif
