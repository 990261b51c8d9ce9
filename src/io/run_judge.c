/* Recorded runs played again and judged: see io/run_judge.h. The one place where a run file becomes
 * a grade that counts: import, check, runs that a crash left behind. */
#include "io/run_judge.h"

#include "io/run_summary.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

PbStatus io_play_open(const char *name, const unsigned char *bytes, size_t size, IoPlay *play,
                      PbError *err)
{
    memset(play, 0, sizeof *play);
    PB_TRY(io_run_decode(name, bytes, size, &play->run, err));
    PbStatus status = pb_replay_create(&play->run, pb_allocator_default(), &play->replay, err);
    if (status != PB_OK) {
        io_play_close(play);
    }
    return status;
}

void io_play_close(IoPlay *play)
{
    pb_replay_destroy(play->replay);
    io_run_free(&play->run);
    play->replay = NULL;
}

PbStatus io_play_to(IoPlay *play, int tick, PbError *err)
{
    while (pb_replay_tick(play->replay) < tick && !pb_replay_is_at_end(play->replay)) {
        PbStatus status = pb_replay_step(play->replay);
        if (status != PB_OK) {
            return pb_fail(err, status, "the replay stopped at %.2f s: %s",
                           pb_replay_tick(play->replay) * PB_TICK_S, pb_status_name(status));
        }
        pb_score_watch(&play->watch, pb_replay_session(play->replay));
    }
    return PB_OK;
}

PbStatus io_play_mark(IoPlay *play, const PbClimate *climate, const PbRubric *rubric,
                      PbScore *score, PbError *err)
{
    PB_TRY(io_play_to(play, play->run.last_tick, err));
    PbStatus status =
        pb_score_session(pb_replay_session(play->replay), &play->watch, climate, rubric, score);
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
    const PbRunFile *run = &play->run;
    const PbSession *session = pb_replay_session(play->replay);
    PbReplayCheck check = pb_replay_check(play->replay);
    int tick = pb_replay_tick(play->replay), missing = missing_hash(run);
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
    io_run_summary(&play->run, NULL, NULL, NULL, NULL, how->now, m);
    m->state = play->run.is_ended ? PB_RUN_UNVERIFIED : PB_RUN_LEFT;
}

static PbStatus find_climate(const IoJudge *how, const PbExercise *exercise, PbClimate *climate,
                             int *is_found, PbError *err)
{
    *is_found = 0;
    if (how->climate == NULL) {
        return PB_OK;
    }
    PbStatus status = how->climate(how->user, exercise, climate, err);
    *is_found = status == PB_OK;
    return status == PB_ERR_NO_RESULT ? PB_OK : status;
}

static PbStatus judge(const IoJudge *how, IoPlay *play, PbScore *score, PbRunSummary *m,
                      int *parted, PbError *err)
{
    PbRubric standard = pb_rubric_default();
    const PbRubric *rubric = how->rubric != NULL ? how->rubric : &standard;
    PbClimate climate;
    int has_climate;
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
    const PbSession *session = pb_replay_session(play->replay);
    if (!pb_session_is_over(session)) {
        io_run_summary(&play->run, session, &play->watch, NULL, rubric, how->now, m);
        return PB_OK;
    }
    PB_TRY(find_climate(how, &play->run.exercise, &climate, &has_climate, err));
    PB_TRY(io_play_mark(play, has_climate ? &climate : NULL, rubric, score, err));
    io_run_summary(&play->run, session, &play->watch, score, rubric, how->now, m);
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
    struct {
        IoPlay play;
        PbScore score;
    } *room = calloc(1, sizeof *room); /* too large for a stack */
    PbRunSummary m = {0};
    int parted = -1;
    if (room == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    PbStatus status = io_play_open(name, bytes, size, &room->play, err);
    if (status == PB_OK) {
        name_file(err, name); /* reading has left the place of its last line there */
        status = judge(how, &room->play, &room->score, &m, &parted, err);
        io_play_close(&room->play);
    }
    if (status == PB_OK && m.exercise_hash == 0) {
        status = pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    free(room);
    if (status == PB_OK) {
        m.origin = how->origin;
        *summary = m;
    }
    if (parted_tick != NULL) {
        *parted_tick = parted;
    }
    return status;
}
