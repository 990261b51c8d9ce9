/**
 * @file run_summary.h
 * @brief From a recorded run and its replay to the few lines that lists of runs show.
 */
#ifndef IO_RUN_SUMMARY_H
#define IO_RUN_SUMMARY_H

#include "core/run_record.h"
#include "core/run_summary.h"
#include "core/watched.h"

/**
 * @brief Fill a summary.
 * @param[in] run     borrowed for the call
 * @param[in] watched the run itself or its replay, as far as the recording goes; NULL when it
 *                    cannot be played: steps and dwells are not known then. Without marks the run
 *                    is PB_RUN_LEFT. What the file says of a grade of its own is noted as its claim
 * @param[in] now     time for a run that does not say when it was made, and the latest that any
 *                    run may have ended
 */
void io_run_summary(const PbRunFile *run, const PbWatched *watched, const char *now,
                    PbRunSummary *m);

/**
 * @brief When a run ended, UTC, "2026-03-04T09:30:00Z": as it says, else start and program time,
 * which knows of no pause.
 * @return 0, and "" in `out`, when the run does not say or says a time that no calendar has
 */
int io_run_ended(const PbRunFile *run, char out[24]);

/**
 * @brief A stored time for a person: "2026-03-04T09:30:00Z" to "2026-03-04 10:30" of this machine's
 * time zone.
 * @return 0, and "" in `out`, when `utc` is no such time
 */
int io_local_time(const char *utc, char out[24]);

/** @brief Points of every part, with their words. @return how many: PB_SCORE_PARTS. */
int io_part_points(const PbScore *score, PbPartPoints parts[PB_SUMMARY_PARTS]);

/** @brief Steps and dwells of a run into a summary: mean and standard deviation, negative when
 * there are none. What is no stop by this rubric does not count. */
void io_summary_hands(const PbLift *lifts, int count, const PbScoreWatch *watch,
                      const PbRubric *rubric, PbRunSummary *m);

#endif
