/**
 * @file debrief_words.h
 * @brief The sentences after a run: the best thing, the worst thing, what changed since the last
 * time, the next thing to try.
 *
 * What they say is chosen by pb_debrief (core/course.h); here it gets words, English or Spanish.
 */
#ifndef IO_DEBRIEF_WORDS_H
#define IO_DEBRIEF_WORDS_H

#include "core/exercise.h"
#include "io/last_time.h"
#include "io/score_words.h"

#define IO_DEBRIEF_SENTENCES 3
#define IO_DEBRIEF_BYTES     400

/**
 * @brief Write the three sentences of a score.
 * @param[in]  exercise of the run: a bay that must not be filled is judged by how it was left,
 * alone; NULL = one that may
 * @param[out] out best, worst, next; each whole and ended with a full stop, UTF-8
 */
void io_debrief_sentences(const PbScore *score, const PbExercise *exercise, IoReaderTaste taste,
                          char out[IO_DEBRIEF_SENTENCES][IO_DEBRIEF_BYTES]);
/** @brief Head of a sentence: "Best", "Worst", "Next". @param[in] which 0 to 2 */
const char *io_debrief_head(int which, int language);

/** The sentences with what changed since the last time, which is not always there to be told. */
#define IO_SHORT_LINES (IO_DEBRIEF_SENTENCES + 1)
/**
 * @brief A run in short: best, worst, last time where there was one, next.
 * @param[in]  last_time  NULL: not known
 * @param[out] head, out of each line; as many as are returned
 * @return how many lines: 3 or 4
 */
int io_short_lines(const PbScore *score, const PbExercise *exercise, const IoLastTime *last_time,
                   IoReaderTaste taste, const char *head[IO_SHORT_LINES],
                   char out[IO_SHORT_LINES][IO_DEBRIEF_BYTES]);

#endif
