/* Recorded runs run again for verbs: see replay_run.h. */
#include "replay_run.h"

#include "cli/run_session.h"
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

PbStatus cli_replay_mark(IoPlay *r, const PbRubric *rubric, PbError *err)
{
    PB_TRY(cli_climate_of(&r->run.exercise, &r->watched.climate, err));
    r->watched.has_climate = 1;
    r->watched.rubric = *rubric;
    return io_play_mark(r, err);
}

/* The run is played again, because a run file holds hands, not fields. Another physics version or
 * other constants give what this program makes of those hands. */
static PbStatus bay_at_end(IoPlay *r, PbBayField *bay, PbError *err)
{
    PB_TRY(io_play_to(r, r->run.last_tick, err));
    PbReplayCheck check = pb_replay_check(r->watched.replay);
    if (!check.is_resimulated && check.parted_tick >= 0) {
        return pb_fail(err, PB_ERR_FORMAT,
                       "the run parted from its recording at tick %d: its bay is not taken",
                       check.parted_tick);
    }
    return pb_session_field(r->watched.session, bay);
}

PbStatus cli_run_bay(const char *path, PbExercise *exercise, PbBayField *bay, PbError *err)
{
    IoPlay *r = calloc(1, sizeof *r); /* too large for a stack */
    if (r == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    PbStatus status = io_run_read(path, &r->run, err);
    if (status == PB_OK) {
        status = pb_watched_replay(&r->watched, &r->run, pb_allocator_default(), err);
    }
    if (status == PB_OK) {
        status = bay_at_end(r, bay, err);
    }
    if (status == PB_OK && exercise != NULL) {
        *exercise = r->run.exercise;
    }
    io_play_close(r);
    free(r);
    return status;
}
