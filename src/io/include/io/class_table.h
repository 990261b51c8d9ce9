/**
 * @file class_table.h
 * @brief A class at a glance: who has worked which exercise how often, first, last and best, and
 * where most points were lost; and whose turn it is.
 */
#ifndef IO_CLASS_TABLE_H
#define IO_CLASS_TABLE_H

#include "io/record_file.h"

/** A person in an exercise. Strings are borrowed from the records. */
typedef struct IoClassRow {
    int64_t learner_id;
    const char *learner, *exercise_id, *exercise_title;
    int is_own_exercise; /**< a file of somebody's own, whatever its id says: another exercise */
    int runs, passed;
    double first, last, best; /**< marks of 100 */
    const char *last_ended;
    const char *dearest; /**< key of the part that lost most in the mean; "" = nothing was lost */
    double dearest_lost; /**< points, mean of the runs */
} IoClassRow;

/**
 * @brief Rows by person, then exercise. Runs that do not count (pb_summary_counts) are left out.
 * @param[in,out] records put in order: those that count first, by person, exercise and time
 * @param[out]    rows    caller's, room for `count`
 * @return how many rows there are
 */
int io_class_rows(PbRecord *records, int count, IoClassRow *rows);
/** @brief The rows as RFC 4180 CSV with one header line. */
void io_class_csv(FILE *out, const IoClassRow *rows, int count);

/**
 * @brief Whose turn it is: who has not worked for longest, those who never have before all others
 * and in the order of the list; nobody twice in a row unless alone.
 * @param[in] last when each last worked, UTC text as in PbRunSummary; "" = never
 * @param[in] now  who is at the machine, -1 = nobody
 * @return index, -1 = the list is empty
 */
int io_class_next(const char *const *last, int count, int now);

#endif
