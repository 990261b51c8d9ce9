/* Recorded runs run again for verbs: see replay_run.h. */
#include "replay_run.h"

#include "run_session.h"

#include <stdio.h>
#include <string.h>

static PbStatus begin(const char *verb, const char *path, CliReplay *r, PbError *err)
{
    if (r->run.cut_bytes > 0) {
        fprintf(stderr,
                "pullback-cli %s: %s: %zu bytes at the end cannot be used (%s); the run is kept up "
                "to %.2f s\n",
                verb, path, r->run.cut_bytes, r->run.cut_reason, r->run.last_tick * PB_TICK_S);
    }
    PbStatus status = pb_replay_create(&r->run, pb_allocator_default(), &r->replay, err);
    if (status != PB_OK) {
        cli_replay_close(r);
    }
    return status;
}

PbStatus cli_replay_open(const char *verb, const char *path, CliReplay *r, PbError *err)
{
    memset(r, 0, sizeof *r);
    PB_TRY(io_run_read(path, &r->run, err));
    return begin(verb, path, r, err);
}

PbStatus cli_replay_decode(const char *verb, const char *name, const unsigned char *bytes,
                           size_t size, CliReplay *r, PbError *err)
{
    memset(r, 0, sizeof *r);
    PB_TRY(io_run_decode(name, bytes, size, &r->run, err));
    return begin(verb, name, r, err);
}

PbStatus cli_replay_mark(CliReplay *r, const PbRubric *rubric, PbScore *score, PbError *err)
{
    PbClimate climate;
    PB_TRY(cli_climate_of(&r->run.exercise, &climate, err));
    PB_TRY(cli_replay_to(r, r->run.last_tick, err));
    PbStatus status =
        pb_score_session(pb_replay_session(r->replay), &r->watch, &climate, rubric, score);
    return status == PB_OK ? PB_OK : pb_fail(err, status, "this run cannot be marked");
}

PbStatus cli_replay_to(CliReplay *r, int tick, PbError *err)
{
    while (pb_replay_tick(r->replay) < tick && !pb_replay_is_at_end(r->replay)) {
        PbStatus status = pb_replay_step(r->replay);
        if (status != PB_OK) {
            return pb_fail(err, status, "the replay stopped at %.2f s: %s",
                           pb_replay_tick(r->replay) * PB_TICK_S, pb_status_name(status));
        }
        pb_score_watch(&r->watch, pb_replay_session(r->replay));
    }
    return PB_OK;
}

/* The run is played again, because a run file holds hands, not fields. Another physics version or
 * other constants give what this program makes of those hands. */
static PbStatus bay_at_end(const PbRunFile *run, PbBayField *bay, PbError *err)
{
    PbReplay *replay = NULL;
    PB_TRY(pb_replay_create(run, pb_allocator_default(), &replay, err));
    PbStatus status = pb_replay_seek(replay, run->last_tick);
    PbReplayCheck check = pb_replay_check(replay);
    if (status != PB_OK) {
        (void)pb_fail(err, status, "the run cannot be played again to its end");
    } else if (!check.is_resimulated && check.parted_tick >= 0) {
        status = pb_fail(err, PB_ERR_FORMAT,
                         "the run parted from its recording at tick %d: its bay is not taken",
                         check.parted_tick);
    } else {
        status = pb_session_field(pb_replay_session(replay), bay);
    }
    pb_replay_destroy(replay);
    return status;
}

PbStatus cli_run_bay(const char *path, PbExercise *exercise, PbBayField *bay, PbError *err)
{
    PbRunFile run;
    PB_TRY(io_run_read(path, &run, err));
    PbStatus status = bay_at_end(&run, bay, err);
    if (status == PB_OK && exercise != NULL) {
        *exercise = run.exercise;
    }
    io_run_free(&run);
    return status;
}

void cli_replay_close(CliReplay *r)
{
    pb_replay_destroy(r->replay);
    io_run_free(&r->run);
    r->replay = NULL;
}
