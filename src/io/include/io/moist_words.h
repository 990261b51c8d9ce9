/**
 * @file moist_words.h
 * @brief Moisture screening and what to look at before a fill, in English and Spanish.
 */
#ifndef IO_MOIST_WORDS_H
#define IO_MOIST_WORDS_H

#include "core/house_moist.h"
#include "io/score_words.h"

/** @brief "dries", "stays" ... for JSON and CSV. Static storage. */
const char *io_moist_key(PbMoistVerdict verdict);
/** @brief A few words for a table: "dries out each year". Static storage. */
const char *io_moist_verdict(PbMoistVerdict verdict, int language);
/** @brief Paint for a choice: "latex paint". Static storage. */
const char *io_coat_name(PbCoat coat, int language);
/** @brief "not looked at", "no", "yes". Static storage. */
const char *io_seen_name(PbSeen seen, int language);
/** @brief One or two plain sentences on a fill; of a wall whose layers are not known only the empty
 * bay says so. */
void io_moist_sentence(PbCompareFill fill, const PbHouseMoist *moist, IoReaderTaste taste,
                       char *out, size_t size);
/** @brief Fixed keys for JSON: "leaks". */
const char *io_damp_key(PbDampWarning warning);
/** @brief The warning as a sentence. Static storage. */
const char *io_damp_warning(PbDampWarning warning, int language);
/** @brief What the screening leaves out. Static storage. */
const char *io_moist_note(int language);

#endif
