/**
 * @file age_result.h
 * @brief What the age verb found: for people a table, for programs one line of JSON.
 * Formats: docs/formats/age.md.
 */
#ifndef IO_AGE_RESULT_H
#define IO_AGE_RESULT_H

#include "core/status.h"

#include <stdint.h>
#include <stdio.h>

#define IO_AGE_MAX_TIMES 32

/** A result under construction: keys in the order in which they are put. */
typedef struct IoAgeResult IoAgeResult;

/** @brief New result. @return NULL when out of memory; caller frees with io_age_free. */
IoAgeResult *io_age_new(const char *what);
/** @brief NULL allowed. */
void io_age_free(IoAgeResult *result);
void io_age_text(IoAgeResult *result, const char *key, const char *text);
/** @brief NaN and infinity become null. */
void io_age_number(IoAgeResult *result, const char *key, double value);
void io_age_integer(IoAgeResult *result, const char *key, long long value);
/** @brief A list of `count` numbers, one every `stride`. Times themselves go under "years". */
void io_age_series(IoAgeResult *result, const char *key, const double *values, int count,
                   int stride);
/** @brief A list of `rows` objects with `columns` numbers of these names. */
void io_age_items(IoAgeResult *result, const char *key, const char *const *names, int columns,
                  const double *values, int rows);

/** Samples of a spread: [draws][times][metrics]. All pointers borrowed for the call. */
typedef struct IoAgeSamples {
    const double *values;
    int draws, times, metrics;
    const char *const *names; /**< of the metrics */
    uint64_t seed;
} IoAgeSamples;

/** @brief Add the bands of a whole spread. @return PB_OK or PB_ERR_MEMORY */
PB_NODISCARD PbStatus io_age_bands(IoAgeResult *result, const IoAgeSamples *samples);
/** @brief Print. @return PB_OK, PB_ERR_IO, or PB_ERR_MEMORY (what was printed is not whole) */
PB_NODISCARD PbStatus io_age_print(FILE *out, const IoAgeResult *result, int as_json);

#endif
