/* Summing up a run file: replayed once when it is kept, so that lists need not. */
#include "store_run.h"

#include "replay_run.h"
#include "run_session.h"

#include "io/run_summary.h"

static PbStatus mark(CliReplay *r, const PbRubric *rubric, PbScore *score, PbError *err)
{
    PbClimate climate;
    PB_TRY(cli_climate_of(&r->run.exercise, &climate, err));
    PB_TRY(cli_replay_to(r, r->run.last_tick, err));
    PbStatus status =
        pb_score_session(pb_replay_session(r->replay), &r->watch, &climate, rubric, score);
    return status == PB_OK ? PB_OK : pb_fail(err, status, "this run cannot be marked");
}

PbStatus cli_summarize(const char *verb, const char *path, const char *now, PbRunSummary *summary,
                       PbError *err)
{
    static CliReplay r; /* large, as is the score */
    static PbScore score;
    PbRubric rubric = pb_rubric_default();
    PbStatus status = cli_replay_open(verb, path, &r, err);
    if (status == PB_OK) {
        status = mark(&r, &rubric, &score, err);
    }
    if (status == PB_OK) {
        io_run_summary(&r.run, pb_replay_session(r.replay), &r.watch, &score, &rubric, now,
                       summary);
    }
    cli_replay_close(&r);
    return status;
}
