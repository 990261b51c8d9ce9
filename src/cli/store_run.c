/* Summing up a run file: replayed once when it is kept, so that lists need not. */
#include "store_run.h"

#include "replay_run.h"

#include "io/run_summary.h"

PbStatus cli_summarize(const char *verb, const char *path, const char *now, PbRunSummary *summary,
                       PbError *err)
{
    static CliReplay r; /* large, as is the score */
    static PbScore score;
    PbRubric rubric = pb_rubric_default();
    PbStatus status = cli_replay_open(verb, path, &r, err);
    if (status == PB_OK) {
        status = cli_replay_mark(&r, &rubric, &score, err);
    }
    if (status == PB_OK) {
        io_run_summary(&r.run, pb_replay_session(r.replay), &r.watch, &score, &rubric, now,
                       summary);
    }
    cli_replay_close(&r);
    return status;
}
