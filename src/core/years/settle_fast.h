/*
 * exp and log for the creep loop, without branches so that the compiler can run several slices at
 * once. Same method as base/pb_math.c (two-part ln 2, series long enough for double precision), for
 * arguments that the loop guarantees: |x| < 700, z normal and positive. The same IEEE operations
 * in every lane give the same bits in every build.
 */
#ifndef YEARS_SETTLE_FAST_H
#define YEARS_SETTLE_FAST_H

#include <stdint.h>
#include <string.h>

static inline double fast_from_bits(uint64_t bits)
{
    double x;
    memcpy(&x, &bits, sizeof x);
    return x;
}

static inline uint64_t fast_to_bits(double x)
{
    uint64_t bits;
    memcpy(&bits, &x, sizeof bits);
    return bits;
}

static inline double fast_exp(double x)
{
    x = x < -690.0 ? -690.0 : x;
    x = x > 690.0 ? 690.0 : x;
    /* Adding 1.5 * 2^52 rounds to a whole number that then stands in the low bits. */
    double shifted = x * 1.4426950408889634074 + 0x1.8p52;
    double k = shifted - 0x1.8p52;
    double r = (x - k * 0x1.62e42fee00000p-1) - k * 0x1.a39ef35793c76p-33;
    double p = 1.0 / 6227020800.0;
    p = p * r + 1.0 / 479001600.0;
    p = p * r + 1.0 / 39916800.0;
    p = p * r + 1.0 / 3628800.0;
    p = p * r + 1.0 / 362880.0;
    p = p * r + 1.0 / 40320.0;
    p = p * r + 1.0 / 5040.0;
    p = p * r + 1.0 / 720.0;
    p = p * r + 1.0 / 120.0;
    p = p * r + 1.0 / 24.0;
    p = p * r + 1.0 / 6.0;
    p = p * r + 0.5;
    p = p * r + 1.0;
    p = p * r + 1.0;
    return p * fast_from_bits((fast_to_bits(shifted) + 1023u) << 52);
}

static inline double fast_log(double z)
{
    /* Offset so that the mantissa comes out in [sqrt(1/2), sqrt 2). */
    uint64_t bits = fast_to_bits(z) + (0x3FF0000000000000ULL - 0x3FE6A09E667F3BCDULL);
    uint64_t e = bits >> 52;
    double m = fast_from_bits((bits & 0x000FFFFFFFFFFFFFULL) + 0x3FE6A09E667F3BCDULL);
    double k = fast_from_bits(e | 0x4330000000000000ULL) - (0x1.0p52 + 1023.0);
    double f = (m - 1.0) / (m + 1.0);
    double s = f * f;
    double p = 1.0 / 21.0;
    p = p * s + 1.0 / 19.0;
    p = p * s + 1.0 / 17.0;
    p = p * s + 1.0 / 15.0;
    p = p * s + 1.0 / 13.0;
    p = p * s + 1.0 / 11.0;
    p = p * s + 1.0 / 9.0;
    p = p * s + 1.0 / 7.0;
    p = p * s + 1.0 / 5.0;
    p = p * s + 1.0 / 3.0;
    double tail = 2.0 * f * (p * s);
    return k * 0x1.62e42fee00000p-1 + (2.0 * f + (tail + k * 0x1.a39ef35793c76p-33));
}

#endif
