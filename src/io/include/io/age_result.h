/**
 * @file age_result.h
 * @brief What the age verb found: for people a table, for programs JSON, and shards of a spread.
 * Formats: docs/formats/age.md.
 */
#ifndef IO_AGE_RESULT_H
#define IO_AGE_RESULT_H

#include "core/status.h"

#include <stdint.h>
#include <stdio.h>

#define IO_AGE_MAX_TIMES 32
#define IO_AGE_MAX_DRAWS 100000

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
/**
 * @brief Print shard I of N: samples hold draws I-1, I-1+N, ... of `all_draws`.
 * Numbers carry 17 digits, so that joining loses nothing. @return as io_age_print
 */
PB_NODISCARD PbStatus io_age_shard_print(FILE *out, const IoAgeResult *result,
                                         const IoAgeSamples *samples, int shard, int of,
                                         int all_draws);
/**
 * @brief Join the shards in these files, given in any order.
 * @param[out] result with its bands, as the whole would have it; caller frees with io_age_free
 * @return PB_OK; PB_ERR_IO; PB_ERR_FORMAT or PB_ERR_RANGE for a missing, doubled, cut or foreign
 *         shard; PB_ERR_MEMORY
 */
PB_NODISCARD PbStatus io_age_merge(const char *const *paths, int count, IoAgeResult **result,
                                   PbError *err);

#endif
