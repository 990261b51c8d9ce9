/**
 * @file rubric_file.h
 * @brief Rubrics from JSON and back; docs/formats/rubric.md.
 */
#ifndef IO_RUBRIC_FILE_H
#define IO_RUBRIC_FILE_H

#include "core/score.h"
#include "io/doc.h"

#define IO_RUBRIC_FORMAT   "pullback rubric 2"
#define IO_RUBRIC_FORMAT_1 "pullback rubric 1" /**< of PB_SCORE_RULES 1; still read */

/** @brief Read and judge a rubric; what it leaves out is as in the default one.
 * @param[out] rubric untouched unless PB_OK */
PB_NODISCARD PbStatus io_rubric_load(const char *path, PbRubric *rubric, PbError *err);
/** @brief As io_rubric_load, from text. @param[in] name shown as the file in complaints. */
PB_NODISCARD PbStatus io_rubric_parse(const char *name, const char *text, size_t size,
                                      PbRubric *rubric, PbError *err);
/** @brief @return caller gives it back with json_decref; NULL when memory ran out. */
json_t *io_rubric_to_json(const PbRubric *rubric);

#endif
