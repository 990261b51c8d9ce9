/* Between a run file on the disk and the store. */
#ifndef CLI_STORE_RUN_H
#define CLI_STORE_RUN_H

#include "core/run_summary.h"
#include "core/status.h"

/* Replay a run file and sum it up. verb: for its messages. */
PB_NODISCARD PbStatus cli_summarize(const char *verb, const char *path, const char *now,
                                    PbRunSummary *summary, PbError *err);

#endif
