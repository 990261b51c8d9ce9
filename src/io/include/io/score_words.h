/**
 * @file score_words.h
 * @brief Scores in words: names of parts, one sentence a lost point, in English and Spanish, in SI
 * or US units. Tables of this file's own, so that programs without a catalogue have them too.
 */
#ifndef IO_SCORE_WORDS_H
#define IO_SCORE_WORDS_H

#include "io/taste.h"

#include "core/run_summary.h"
#include "core/score.h"

#include <jansson.h>

/**
 * @brief A mark as it is shown: a whole number, rounded down, so that 69.96 never reads as a 70
 * that did not pass.
 */
int io_mark_shown(double total);
/**
 * @brief Points of parts as whole numbers that add up to their sum rounded down: who adds them gets
 * the mark.
 * @param[in] points `count` of them, at most PB_SUMMARY_PARTS; @param[out] shown as many
 */
void io_points_shown(const double *points, int count, int *shown);
/** @brief The same for all parts of a score. @param[out] shown PB_SCORE_PARTS of them */
void io_parts_shown(const PbScore *score, int *shown);
/**
 * @brief Losses as whole numbers: those of a part and its points as shown add up to its maximum.
 * One that is shown as 0 is not spoken of.
 * @param[out] shown score->loss_count of them
 */
void io_losses_shown(const PbScore *score, int *shown);
/**
 * @brief "36 of 40 points", what the parts add up to, where that is not the mark out of 100 itself.
 * @param[out] out cut at size; "" where the parts add up to the mark, or have no say
 */
void io_sum_words(const PbScore *score, IoReaderTaste taste, char *out, size_t size);
/** @brief "passed", "redo", "failed"; static storage. */
const char *io_verdict_word(PbVerdict verdict, int language);
/** @brief What shut this gate, where and when. @param[out] out cut at size */
void io_gate_sentence(const PbGate *gate, IoReaderTaste taste, char *out, size_t size);
/** @brief Name of a part, static storage. */
const char *io_part_name(PbScorePartKind part, int language);
/** @brief What it means that this part kept its points, for the debrief. Static storage. */
const char *io_part_praise(PbScorePartKind part, int language);
/** @brief Fixed key of a part or cause for JSON and CSV ("on_target", "long_step"). */
const char *io_part_key(PbScorePartKind part);
const char *io_fault_key(PbScoreFault fault);
/** @brief Word for an event of a run, static storage; "" for those not worth a line. */
const char *io_event_words(PbEventKind kind, int language);

/**
 * @brief One sentence on a loss: what was done, when, where, and what it left.
 * @param[out] out cut at size; figures as the reader writes them
 */
void io_loss_sentence(const PbLoss *loss, IoReaderTaste taste, char *out, size_t size);
/**
 * @brief What cost a part its points, in a few words: "43% less than the bay should take".
 * @param[in] target_kg_m3 of the exercise; @param[out] out cut at size
 */
void io_fault_words(const PbScorePart *part, double target_kg_m3, IoReaderTaste taste, char *out,
                    size_t size);
/** @brief "1:42" of seconds. */
void io_clock_words(double time_s, char *out, size_t size);

/**
 * @brief A score as JSON (docs/formats/rubric.md): parts, losses with sentences, lifts, events.
 * @param[in] lifts, lift_count as the view has them; @param[in] watch for the events
 * @return caller gives it back with json_decref; NULL when memory ran out
 */
json_t *io_score_to_json(const PbScore *score, const PbRubric *rubric, const PbLift *lifts,
                         int lift_count, const PbScoreWatch *watch, IoReaderTaste taste);

#endif
