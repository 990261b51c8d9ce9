/**
 * @file hands_file.h
 * @brief Hands files: docs/formats/hands.md.
 */
#ifndef IO_HANDS_FILE_H
#define IO_HANDS_FILE_H

#include "core/exercise.h"
#include "core/hands.h"
#include "io/doc.h"

#define IO_HANDS_FORMAT "pullback hands 1"

/**
 * @brief Read and judge a hands file; "-" is standard input.
 * @param[out] hands untouched unless PB_OK
 * @return PB_OK; PB_ERR_IO; PB_ERR_FORMAT, PB_ERR_RANGE with file, line and column; PB_ERR_MEMORY
 */
PB_NODISCARD PbStatus io_hands_load(const char *path, PbHands *hands, PbError *err);
/** @brief As io_hands_load, for a known exercise: feeds that its gate cannot give are refused. */
PB_NODISCARD PbStatus io_hands_load_for(const char *path, const PbExercise *exercise,
                                        PbHands *hands, PbError *err);
/** @brief As io_hands_load, from text. @param[in] name shown as the file in complaints. */
PB_NODISCARD PbStatus io_hands_parse(const char *name, const char *text, size_t size,
                                     PbHands *hands, PbError *err);

#endif
