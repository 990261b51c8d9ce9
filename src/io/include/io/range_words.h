/**
 * @file range_words.h
 * @brief How sure a mark is, in words and for programs: core/mark_range.h.
 */
#ifndef IO_RANGE_WORDS_H
#define IO_RANGE_WORDS_H

#include "io/taste.h"

#include "core/mark_range.h"

#include <jansson.h>

#define IO_RANGE_LINES 5
#define IO_RANGE_BYTES 300

/**
 * @brief Mean, weakest place, mark, whether it passes, and what was drawn: a sentence each.
 * Ranges hold eight of ten draws; densities and marks are whole or as elsewhere.
 * @param[out] out each cut at IO_RANGE_BYTES
 */
void io_range_sentences(const PbMarkRange *range, IoReaderTaste taste,
                        char out[IO_RANGE_LINES][IO_RANGE_BYTES]);
/** @brief The word before them: "How sure". Static storage. */
const char *io_range_head(int language);
/** @brief The same for programs (docs/formats/rubric.md). @return caller gives it back; NULL when
 * memory ran out */
json_t *io_range_to_json(const PbMarkRange *range, uint64_t seed, IoReaderTaste taste);

#endif
