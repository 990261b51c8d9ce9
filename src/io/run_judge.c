/* Recorded runs played again and judged: see io/run_judge.h. The one place where a run file becomes
 * a grade that counts: import, check, runs that a crash left behind. */
#include "io/run_judge.h"

#include "io/run_summary.h"

#include <assert.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

PbStatus io_play_open(const char *name, const unsigned char *bytes, size_t size, IoPlay *play,
                      PbError *err)
{
    assert(name != NULL && play != NULL);
    assert(bytes != NULL || size == 0);
    memset(play, 0, sizeof *play);
    PB_TRY(io_run_decode(name, bytes, size, &play->run, err));
    PbStatus status = pb_watched_replay(&play->watched, &play->run, pb_allocator_default(), err);
    if (status != PB_OK) {
        io_play_close(play);
    }
    return status;
}

void io_play_close(IoPlay *play)
{
    assert(play != NULL);
    pb_watched_end(&play->watched);
    io_run_free(&play->run);
}

PbStatus io_play_to(IoPlay *play, int tick, PbError *err)
{
    assert(play != NULL);
    PbStatus status = pb_watched_seek(&play->watched, tick);
    return status == PB_OK
               ? PB_OK
               : pb_fail(err, status, "the replay stopped at %.2f s: %s",
                         pb_replay_tick(play->watched.replay) * PB_TICK_S, pb_status_name(status));
}

PbStatus io_play_mark(IoPlay *play, PbError *err)
{
    assert(play != NULL);
    PB_TRY(io_play_to(play, play->run.last_tick, err));
    PbStatus status = pb_watched_mark(&play->watched);
    return status == PB_OK ? PB_OK : pb_fail(err, status, "this run cannot be marked");
}

/* A recording without hashes would fit anything: one stands every PB_RECORD_HASH_TICKS. */
static int missing_hash(const PbRunFile *run)
{
    int wanted = PB_RECORD_HASH_TICKS;
    for (int i = 0; i < run->hash_count; i++) {
        wanted += run->hashes[i].tick == wanted ? PB_RECORD_HASH_TICKS : 0;
    }
    return wanted <= run->last_tick ? wanted : -1;
}

int io_play_parted(const IoPlay *play)
{
    assert(play != NULL);
    const PbRunFile *run = &play->run;
    const PbSession *session = play->watched.session;
    PbReplayCheck check = pb_replay_check(play->watched.replay);
    int tick = pb_replay_tick(play->watched.replay), missing = missing_hash(run);
    if (check.is_resimulated || check.parted_tick >= 0) {
        return check.is_resimulated ? -1 : check.parted_tick;
    }
    if (missing >= 0 || tick < run->last_tick) { /* or it goes on where the run is over */
        return missing >= 0 ? missing : tick;
    }
    int is_as_ended = !run->is_ended ||
                      (pb_session_is_over(session) && pb_session_hash(session) == run->end_hash &&
                       pb_session_view(session)->phase == run->phase);
    return is_as_ended ? -1 : tick;
}

/* A run that this program cannot play as it was: what the file says of it, and no marks. */
static void sum_up_older(const IoJudge *how, const IoPlay *play, PbRunSummary *m)
{
    io_run_summary(&play->run, NULL, how->now, m);
    m->state = play->run.is_ended ? PB_RUN_UNVERIFIED : PB_RUN_LEFT;
}

static PbStatus find_climate(const IoJudge *how, IoPlay *play, PbError *err)
{
    PbWatched *w = &play->watched;
    if (how->climate == NULL) {
        return PB_OK;
    }
    PbStatus status = how->climate(how->user, &play->run.exercise, &w->climate, err);
    w->has_climate = status == PB_OK;
    return status == PB_ERR_NO_RESULT ? PB_OK : status;
}

static PbStatus judge(const IoJudge *how, IoPlay *play, PbRunSummary *m, int *parted, PbError *err)
{
    if (play->run.form != PB_RECORD_SEALED || !pb_record_is_same_physics(&play->run)) {
        sum_up_older(how, play, m);
        return PB_OK;
    }
    PB_TRY(io_play_to(play, play->run.last_tick, err));
    *parted = io_play_parted(play);
    if (*parted >= 0) {
        return pb_fail(err, PB_ERR_FORMAT,
                       "the run parts from its recording at tick %d (%.2f s): it does not replay",
                       *parted, *parted * PB_TICK_S);
    }
    if (how->rubric != NULL) {
        play->watched.rubric = *how->rubric;
    }
    if (pb_session_is_over(play->watched.session)) {
        PB_TRY(find_climate(how, play, err));
        PB_TRY(io_play_mark(play, err));
    }
    io_run_summary(&play->run, &play->watched, how->now, m);
    return PB_OK;
}

static void name_file(PbError *err, const char *name)
{
    if (err != NULL) {
        memset(err, 0, sizeof *err);
        snprintf(err->file, sizeof err->file, "%.255s", name);
    }
}

PbStatus io_run_judge(const IoJudge *how, const char *name, const unsigned char *bytes, size_t size,
                      PbRunSummary *summary, int *parted_tick, PbError *err)
{
    assert(how != NULL && name != NULL && summary != NULL);
    assert(bytes != NULL || size == 0);
    IoPlay *play = calloc(1, sizeof *play); /* too large for a stack */
    PbRunSummary m = {0};
    int parted = -1;
    if (play == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    PbStatus status = io_play_open(name, bytes, size, play, err);
    if (status == PB_OK) {
        name_file(err, name); /* reading has left the place of its last line there */
        status = judge(how, play, &m, &parted, err);
        io_play_close(play);
    }
    if (status == PB_OK && m.exercise_hash == 0) {
        status = pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    free(play);
    if (status == PB_OK) {
        m.origin = how->origin;
        *summary = m;
    }
    if (parted_tick != NULL) {
        *parted_tick = parted;
    }
    return status;
}
