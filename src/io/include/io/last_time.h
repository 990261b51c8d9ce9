/**
 * @file last_time.h
 * @brief A run held against what the same person did before in the same exercise: the change of the
 * mark, the mean, the weakest place and the time, and how it stands to their best.
 *
 * Whoever has a store finds the runs (store_run_earlier) and fills the figures in; nothing is
 * played again. Without an earlier run there is nothing to say.
 */
#ifndef IO_LAST_TIME_H
#define IO_LAST_TIME_H

#include "core/exercise.h"
#include "core/run_summary.h"
#include "io/taste.h"

#define IO_LAST_TIME_BYTES 400

/** Figures of one finished run, as lists and pages show them. */
typedef struct IoTry {
    int mark;            /**< whole points of 100 */
    int weakest;         /**< whole points of the weakest place; negative = no such part */
    double weakest_most; /**< that they are out of */
    double mean_kg_m3;   /**< negative = not known */
    double duration_s;
    int physics_version;
} IoTry;

/** What is to be compared. Zero = nothing was done before. */
typedef struct IoLastTime {
    int count;       /**< earlier runs of this exercise */
    IoTry now, last; /**< last: meaningful when count > 0 */
    int is_like;     /**< the last one was packed and marked alike: figures can be compared */
    int like_count;  /**< earlier runs of which that is so */
    IoTry best;      /**< the best of those; meaningful when like_count > 0 */
} IoLastTime;

/**
 * @brief The figures of a run from its summary, and its mean from its file.
 * @param[in] bytes the run file, borrowed for the call; NULL, or one that cannot be read or has no
 *                  end: the mean is not known
 */
IoTry io_try_of(const PbRunSummary *summary, const void *bytes, size_t size);
/**
 * @brief Write it as sentences.
 * @param[in]  exercise of the runs: of a bay that must not be filled the mark is all there is
 * @param[out] out "" when there was no earlier run; cut at size
 */
void io_last_time_words(const IoLastTime *t, const PbExercise *exercise, IoReaderTaste taste,
                        char *out, size_t size);
/** @brief The word before them: "Last time". Static storage. */
const char *io_last_time_head(int language);

#endif
