/**
 * @file boxes_file.h
 * @brief Boxes that were packed and weighed, as a table: docs/formats/fit.md.
 */
#ifndef IO_BOXES_FILE_H
#define IO_BOXES_FILE_H

#include "core/fit.h"

/** The boxes, and where each stands in its file. */
typedef struct IoBoxes {
    PbFitBox box[PB_FIT_BOXES];
    int line[PB_FIT_BOXES], mass_column[PB_FIT_BOXES];
    int count;
    char file[256];
} IoBoxes;

/**
 * @brief Read and judge a table of boxes; "-" is standard input.
 * @param[out] boxes untouched unless PB_OK
 * @return PB_OK; PB_ERR_IO; PB_ERR_FORMAT, PB_ERR_RANGE with file, line and column; PB_ERR_MEMORY
 */
PB_NODISCARD PbStatus io_boxes_load(const char *path, IoBoxes *boxes, PbError *err);
/** @brief As io_boxes_load, from text. @param[in] text `size` bytes, a NUL behind them */
PB_NODISCARD PbStatus io_boxes_parse(const char *name, const char *text, size_t size,
                                     IoBoxes *boxes, PbError *err);
/** @brief Complain at the weight of a box. @return PB_ERR_RANGE */
PbStatus io_boxes_complain(const IoBoxes *boxes, int index, PbError *err, const char *format, ...)
    PB_PRINTF(4, 5);

#endif
