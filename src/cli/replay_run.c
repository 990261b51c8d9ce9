/* Recorded runs run again for verbs: see replay_run.h. */
#include "replay_run.h"

#include "run_session.h"

#include "io/doc.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void say_torn(const char *verb, const char *path, const PbRunFile *run)
{
    if (run->cut_bytes > 0) {
        fprintf(stderr,
                "pullback-cli %s: %s: %zu bytes at the end cannot be used (%s); the run is kept up "
                "to %.2f s\n",
                verb, path, run->cut_bytes, run->cut_reason, run->last_tick * PB_TICK_S);
    }
}

PbStatus cli_replay_open(const char *verb, const char *path, IoPlay *r, PbError *err)
{
    char *bytes;
    size_t size;
    memset(r, 0, sizeof *r);
    PB_TRY(io_read_file(path, IO_RUN_MAX_BYTES, &bytes, &size, err));
    PbStatus status = cli_replay_decode(verb, path, (const unsigned char *)bytes, size, r, err);
    free(bytes);
    return status;
}

PbStatus cli_replay_decode(const char *verb, const char *name, const unsigned char *bytes,
                           size_t size, IoPlay *r, PbError *err)
{
    PB_TRY(io_play_open(name, bytes, size, r, err));
    say_torn(verb, name, &r->run);
    return PB_OK;
}

PbStatus cli_replay_mark(IoPlay *r, const PbRubric *rubric, PbScore *score, PbError *err)
{
    PbClimate climate;
    PB_TRY(cli_climate_of(&r->run.exercise, &climate, err));
    return io_play_mark(r, &climate, rubric, score, err);
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
