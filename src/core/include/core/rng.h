/**
 * @file rng.h
 * @brief Seeded generator: one stream per purpose, so a new draw in one cannot shift another.
 * Algorithm: xoshiro256** seeded by splitmix64 (Blackman and Vigna, ACM TOMS 47(4), 2021).
 */
#ifndef CORE_RNG_H
#define CORE_RNG_H

#include <stdint.h>

typedef struct PbRng {
    uint64_t s[4];
} PbRng;

/** @brief Start a stream. Different (seed, stream) pairs give unrelated sequences. */
PbRng pb_rng_make(uint64_t seed, uint64_t stream);
/** @brief Next 64 random bits. */
uint64_t pb_rng_next(PbRng *rng);
/** @brief Uniform in [0, 1), 53 bits. */
double pb_rng_uniform(PbRng *rng);
/** @brief Standard normal by the polar method; uses a varying number of draws. */
double pb_rng_normal(PbRng *rng);

#endif
