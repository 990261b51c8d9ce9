/* xoshiro256** seeded through splitmix64; see the header for the source. */
#include "core/rng.h"

#include "core/pb_math.h"

#include <math.h>

static uint64_t splitmix(uint64_t *x)
{
    uint64_t z = (*x += 0x9E3779B97F4A7C15ULL);
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9ULL;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBULL;
    return z ^ (z >> 31);
}

static uint64_t rotl(uint64_t x, int k)
{
    return (x << k) | (x >> (64 - k));
}

PbRng pb_rng_make(uint64_t seed, uint64_t stream)
{
    PbRng rng;
    uint64_t x = seed;
    uint64_t y = splitmix(&x) ^ (stream * 0xD1342543DE82EF95ULL);
    for (int i = 0; i < 4; i++) {
        rng.s[i] = splitmix(&y);
    }
    return rng;
}

uint64_t pb_rng_next(PbRng *rng)
{
    uint64_t *s = rng->s;
    uint64_t result = rotl(s[1] * 5u, 7) * 9u;
    uint64_t t = s[1] << 17;
    s[2] ^= s[0];
    s[3] ^= s[1];
    s[1] ^= s[2];
    s[0] ^= s[3];
    s[2] ^= t;
    s[3] = rotl(s[3], 45);
    return result;
}

double pb_rng_uniform(PbRng *rng)
{
    return (double)(pb_rng_next(rng) >> 11) * 0x1.0p-53;
}

double pb_rng_normal(PbRng *rng)
{
    double u, v, r2;
    do {
        u = 2.0 * pb_rng_uniform(rng) - 1.0;
        v = 2.0 * pb_rng_uniform(rng) - 1.0;
        r2 = u * u + v * v;
    } while (r2 >= 1.0 || r2 == 0.0);
    return u * sqrt(-2.0 * pb_log(r2) / r2);
}
