/**
 * @file replay.h
 * @brief A recorded run run again: step, seek, compare with the hashes of the recording.
 *
 * Key states (copies of the session's one block of memory) are kept on the way, so that any moment
 * already passed is reached again by at most one interval of stepping. At most 64 of them: when
 * they are full every other one is dropped and the interval doubles.
 */
#ifndef CORE_REPLAY_H
#define CORE_REPLAY_H

#include "core/run_record.h"

typedef struct PbReplay PbReplay;

/** What the comparison said so far. */
typedef struct PbReplayCheck {
    int is_resimulated; /**< another physics version or other constants: hashes are not compared */
    int compared;       /**< hashes of the recording met so far */
    int parted_tick;    /**< first tick whose hash differs; negative = none */
    uint64_t recorded_hash, replayed_hash; /**< of that tick */
} PbReplayCheck;

/**
 * @brief Start a replay at tick 0.
 * @param[in] run borrowed until pb_replay_destroy
 * @param[out] replay untouched unless PB_OK; caller destroys it
 * @return PB_OK; as pb_session_create
 */
PB_NODISCARD PbStatus pb_replay_create(const PbRunFile *run, PbAllocator allocator,
                                       PbReplay **replay, PbError *err);
/** @brief Give everything back. NULL allowed. */
void pb_replay_destroy(PbReplay *replay);

/**
 * @brief One tick on.
 * @return PB_OK; PB_ERR_STATE at the end of the recording or of the run (nothing changed);
 *         PB_ERR_RANGE when the session refuses a recorded command; PB_ERR_DIVERGED
 * Takes memory for a key state at most once an interval; without it seeking back is slower.
 */
PB_NODISCARD PbStatus pb_replay_step(PbReplay *replay);
/**
 * @brief Go to this tick, forward or back; past the end means the end, below 0 the start.
 * @return as pb_replay_step; PB_ERR_MEMORY when no state to go back to could be kept (the replay
 *         stays where it is)
 */
PB_NODISCARD PbStatus pb_replay_seek(PbReplay *replay, int tick);

/** @brief The session as it stands. Borrowed until the replay is destroyed; do not step it. */
const PbSession *pb_replay_session(const PbReplay *replay);
/** @brief Tick where the replay stands. */
int pb_replay_tick(const PbReplay *replay);
/** @brief Nonzero when there is nothing left to step. */
int pb_replay_is_at_end(const PbReplay *replay);
/** @brief The comparison so far. */
PbReplayCheck pb_replay_check(const PbReplay *replay);
/** @brief Key states held now, and the bytes that they take. */
int pb_replay_key_states(const PbReplay *replay, size_t *bytes);

#endif
