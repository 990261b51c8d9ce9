/**
 * @file watched.h
 * @brief One run watched from its first tick on: stepped by somebody's hands or replayed from a
 * record, and what charts, marks, reports and lists of runs need to have seen of it.
 *
 * By hands: pb_watched_start, then pb_watched_step with commands. Recorded: pb_watched_replay, then
 * pb_watched_seek; every tick is watched once, however often the replay goes back to it. Both come
 * to the same samples, events, result and marks.
 */
#ifndef CORE_WATCHED_H
#define CORE_WATCHED_H

#include "core/replay.h"
#include "core/score.h"

/** Ticks from one sample to the next: five a second. Sample i is that of tick i * PB_SAMPLE_TICKS.
 */
#define PB_SAMPLE_TICKS 5

/** One moment of the charts. */
typedef struct PbSample {
    float time_s, mouth_y_m, blower_pa, flow_m3_s;
    float feed_kg_s; /**< gate while the machine is on, else 0 */
} PbSample;

/** Zero it before its first start. Everybody may read it; rubric and climate are the caller's to
 * set, all else changes by the functions below. Some 100 kB, too much for a small stack. */
typedef struct PbWatched {
    const PbSession *session; /**< as it stands; NULL before the start */
    PbSession *stepped;       /**< the same, of a run by hands; NULL of a replay */
    PbReplay *replay;         /**< NULL of a run by hands */
    PbAllocator allocator;
    int seen_tick; /**< the furthest so far */

    PbScoreWatch watch;
    PbSample *samples;
    int sample_count, sample_room;
    double top_pa, top_flow_m3_s, top_feed_kg_s; /**< largest in any sample */

    int is_ended; /**< nothing is left to be watched; only then: */
    PbResult result;
    PbLift lifts[PB_SCORE_MAX_LIFTS];
    int lift_count;

    PbRubric rubric; /**< to mark by; the default from the start on */
    PbClimate climate;
    int has_climate; /**< without one the years part is left out */
    PbScore score;
    int has_score;
} PbWatched;

/**
 * @brief Start a run by hands. The config is copied.
 * @param[out] watched zeroed before, and zero again unless PB_OK; end it with pb_watched_end
 * @return PB_OK; as pb_session_create
 */
PB_NODISCARD PbStatus pb_watched_start(PbWatched *watched, const PbSessionConfig *config,
                                       PbError *err);
/**
 * @brief Start a replay at tick 0.
 * @param[in] run borrowed until pb_watched_end
 * @return as pb_watched_start
 */
PB_NODISCARD PbStatus pb_watched_replay(PbWatched *watched, const PbRunFile *run,
                                        PbAllocator allocator, PbError *err);
/** @brief Give everything back and zero it. Safe on a zeroed one. */
void pb_watched_end(PbWatched *watched);

/**
 * @brief One tick on.
 * @param[in] commands as pb_session_step; a replay takes its own: NULL and 0
 * @return as pb_session_step, pb_replay_step; PB_ERR_MEMORY: no room for a sample, nothing changed
 */
PB_NODISCARD PbStatus pb_watched_step(PbWatched *watched, const PbCommand *commands, int count);
/**
 * @brief Take a replay to this tick, forward or back; what was not seen yet is watched on the way.
 * Past the end means the end, below 0 the start.
 * @return as pb_watched_step, pb_replay_seek
 */
PB_NODISCARD PbStatus pb_watched_seek(PbWatched *watched, int tick);
/** @brief Let the run end where it has been seen to: result and stops are those of this moment. */
void pb_watched_stop(PbWatched *watched);
/**
 * @brief Mark the run as it stands, by its rubric and in its climate. A replay is taken to its end
 * first, and left there.
 * @return PB_OK, and has_score is set; else it is not: as pb_watched_seek, pb_score_session
 */
PB_NODISCARD PbStatus pb_watched_mark(PbWatched *watched);
/** @brief The sample nearest to this moment. Borrowed until the next step. */
const PbSample *pb_watched_sample(const PbWatched *watched, double time_s);

#endif
