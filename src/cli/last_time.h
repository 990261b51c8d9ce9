/* What changed since the same person's last run of an exercise. */
#ifndef CLI_LAST_TIME_H
#define CLI_LAST_TIME_H

#include "io/last_time.h"
#include "store/runs.h"

/* In sentences for this reader; "" when there was no earlier run. bytes: the file of the run. */
PB_NODISCARD PbStatus cli_last_time(Store *store, int64_t id, const PbExercise *exercise,
                                    IoReaderTaste taste, char out[IO_LAST_TIME_BYTES],
                                    PbError *err);

#endif
