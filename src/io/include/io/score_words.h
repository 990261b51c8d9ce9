/**
 * @file score_words.h
 * @brief Scores in words: names of parts, one sentence a lost point, in English and Spanish, in SI
 * or US units. Tables of this file's own, so that programs without a catalogue have them too.
 */
#ifndef IO_SCORE_WORDS_H
#define IO_SCORE_WORDS_H

#include "core/score.h"

#include <jansson.h>

typedef enum IoLanguage { IO_ENGLISH, IO_SPANISH } IoLanguage;

/** Whom the words are for. */
typedef struct IoReaderTaste {
    IoLanguage language;
    int is_us; /**< feet, pounds, lb/ft3, inches of water */
} IoReaderTaste;

/** @brief "en", "es" and longer names that begin so. @return 0 when there is no such language. */
int io_language_from(const char *name, IoLanguage *language);
/** @brief Put the decimal mark of the language into a number that printf wrote: programs keep the C
 * locale for numbers. Changes the first '.' of `number`, so nothing may stand before it. */
void io_decimal_mark(char *number, IoLanguage language);
/**
 * @brief A figure with its unit, in the language's decimal mark; what rounds to nothing has no
 * sign.
 * @param[in] unit "" = none
 */
void io_figure(double value, int decimals, const char *unit, IoLanguage language, char *out,
               size_t size);
/** @brief Name of a part, static storage. */
const char *io_part_name(PbScorePartKind part, IoLanguage language);
/** @brief Fixed key of a part or cause for JSON and CSV ("on_target", "long_step"). */
const char *io_part_key(PbScorePartKind part);
const char *io_fault_key(PbScoreFault fault);
/** @brief Word for an event of a run, static storage; "" for those not worth a line. */
const char *io_event_words(PbEventKind kind, IoLanguage language);

/**
 * @brief One sentence on a loss: what was done, when, where, and what it left.
 * @param[out] out cut at size; decimal comma in Spanish
 */
void io_loss_sentence(const PbLoss *loss, IoReaderTaste taste, char *out, size_t size);
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
