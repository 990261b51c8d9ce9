/**
 * @file format_rows.h
 * @brief The numbers of exercise files: name, unit, range, and where each one lives. Those of hands
 * files are in core/hands.h.
 *
 * One table serves the check in the core, the reader, the writer and the documentation test, so
 * that a range cannot differ between them. To add a number: a field in the struct, a row here.
 */
#ifndef CORE_FORMAT_ROWS_H
#define CORE_FORMAT_ROWS_H

#include "core/exercise.h"

#include <stddef.h>

/** Where a number stands in the file and in the struct. All strings have static storage. */
typedef struct PbNumberRow {
    const char *section; /**< object that holds it, "" = the top of the file */
    const char *key;
    const char *unit;
    double low, high;    /**< both allowed */
    int is_required;     /**< otherwise the default of pb_*_default() holds */
    int is_zero_allowed; /**< 0 is allowed besides low..high and has the meaning of "not given" */
    size_t offset;       /**< of the double in its struct */
} PbNumberRow;

/** @brief Numbers of PbExercise outside its lists. */
const PbNumberRow *pb_exercise_rows(size_t *count);
/** @brief Numbers of one PbHole in the list of further ones. */
const PbNumberRow *pb_hole_rows(size_t *count);
/** @brief Numbers of one PbObstacle. */
const PbNumberRow *pb_obstacle_rows(size_t *count);
/** @brief Numbers of one PbOpening. */
const PbNumberRow *pb_opening_rows(size_t *count);

/** @brief Nonzero when the value is allowed; NaN never is. */
int pb_row_allows(const PbNumberRow *row, double value);
/**
 * @brief Check every row of a struct.
 * @param[in]  prefix path of the struct in the file, "" or "obstacles/2"
 * @param[out] field  caller's array of `size` chars: path of the first value refused
 * @return PB_OK or PB_ERR_RANGE. Deterministic, allocates nothing.
 */
PB_NODISCARD PbStatus pb_rows_check(const PbNumberRow *rows, size_t count, const void *values,
                                    const char *prefix, char *field, size_t size, PbError *err);

#endif
