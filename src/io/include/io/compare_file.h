/**
 * @file compare_file.h
 * @brief A finished comparison as JSON and CSV: docs/formats/house.md.
 */
#ifndef IO_COMPARE_FILE_H
#define IO_COMPARE_FILE_H

#include "core/compare.h"
#include "io/score_words.h"

#include <jansson.h>
#include <stdio.h>

/** What the two files begin with; the JSON as one compact line. */
#define IO_COMPARE_FORMAT      "pullback comparison 1"
#define IO_COMPARE_JSON_BEGINS "{\"format\":\"" IO_COMPARE_FORMAT "\""
#define IO_COMPARE_CSV_BEGINS  "fill,years"

/**
 * @brief House, figures at every key time with their sentence, every input with range and source.
 * @param[in] folders asset folders, as io_house_to_json
 * @return caller gives it back with json_decref; NULL when memory ran out
 */
json_t *io_compare_to_json(const PbCompare *compare, IoReaderTaste taste,
                           const char *const *folders, int count);
/** @brief One row a fill and key time, SI. @return PB_OK or PB_ERR_IO */
PB_NODISCARD PbStatus io_compare_csv(FILE *out, const PbCompare *compare);

#endif
