/**
 * @file run_judge.h
 * @brief What a recorded run is worth: played again from its commands, held against its own hashes,
 * and marked anew. What a file says of itself is never taken for it.
 */
#ifndef IO_RUN_JUDGE_H
#define IO_RUN_JUDGE_H

#include "core/run_summary.h"
#include "core/watched.h"
#include "io/run_file.h"

/** A run that is being played again. Zero it, or begin with io_play_open. It may not be moved. */
typedef struct IoPlay {
    PbRunFile run;
    PbWatched watched;
} IoPlay;

/** @brief Read a run from bytes and stand at tick 0. name: shown as the file in complaints. Errors
 * as io_run_decode and pb_replay_create; give it back with io_play_close in any case. */
PB_NODISCARD PbStatus io_play_open(const char *name, const unsigned char *bytes, size_t size,
                                   IoPlay *play, PbError *err);
/** @brief Step to this tick, or to the end, watching. Errors as pb_replay_step, said in words. */
PB_NODISCARD PbStatus io_play_to(IoPlay *play, int tick, PbError *err);
/** @brief Play to the end and mark what came of it, by the rubric and in the climate of `watched`.
 */
PB_NODISCARD PbStatus io_play_mark(IoPlay *play, PbError *err);
/** @brief After a whole replay: the first tick where it and the recording part, be it in a hash, in
 * a hash that is missing, or in the end. Negative = nowhere. */
int io_play_parted(const IoPlay *play);
void io_play_close(IoPlay *play);

/** How to judge. Borrowed for the call. */
typedef struct IoJudge {
    /** finds the climate of an exercise; PB_ERR_NO_RESULT = there is none, and the years part is
     * left out. May be NULL: none. */
    PbStatus (*climate)(void *user, const PbExercise *exercise, PbClimate *climate, PbError *err);
    void *user;
    const PbRubric *rubric; /**< NULL: the default */
    PbRunOrigin origin;
    const char *now; /**< UTC, "2026-03-04T09:30:00Z": time of a run that does not say its own, and
                        the latest that a run may have ended */
} IoJudge;

/**
 * @brief Sum up a run file by playing it again.
 *
 * A finished run gets the marks that the replay gives; what the file claims stands beside them. One
 * that breaks off is PB_RUN_LEFT and has none. A run of another physics version, with other
 * constants, or in the older file format cannot be held against its hashes: PB_RUN_UNVERIFIED.
 * @param[out] parted_tick where the replay parts from the recording, with PB_ERR_FORMAT; else
 *                         negative. May be NULL
 * @return as io_run_decode; PB_ERR_FORMAT when the run does not replay
 */
PB_NODISCARD PbStatus io_run_judge(const IoJudge *how, const char *name, const unsigned char *bytes,
                                   size_t size, PbRunSummary *summary, int *parted_tick,
                                   PbError *err);

#endif
