/*
 * Elementary functions from + - * / alone, so that every machine gives the same bits.
 * Method: classical argument reduction with a two-part ln 2 (Cody and Waite, Software Manual for
 * the Elementary Functions, 1980) and Taylor or atanh series long enough for double precision.
 */
#include "core/pb_math.h"

#include <math.h>
#include <stdint.h>
#include <string.h>

/* ln 2 split so that k * LN2_HI is exact for |k| < 2^11. */
static const double LN2_HI = 0x1.62e42fee00000p-1;
static const double LN2_LO = 0x1.a39ef35793c76p-33;
static const double INVERSE_FACTORIAL[15] = {
    1.0 / 1.0,       1.0 / 1.0,        1.0 / 2.0,         1.0 / 6.0,          1.0 / 24.0,
    1.0 / 120.0,     1.0 / 720.0,      1.0 / 5040.0,      1.0 / 40320.0,      1.0 / 362880.0,
    1.0 / 3628800.0, 1.0 / 39916800.0, 1.0 / 479001600.0, 1.0 / 6227020800.0, 1.0 / 87178291200.0};
static const double LOG2_E = 1.4426950408889634074;

static double scale_by_power_of_two(double x, int k)
{
    /* Two steps keep the factors normal when the result is subnormal or near overflow. */
    int half = k / 2;
    uint64_t a_bits = (uint64_t)(half + 1023) << 52;
    uint64_t b_bits = (uint64_t)(k - half + 1023) << 52;
    double a, b;
    memcpy(&a, &a_bits, sizeof a);
    memcpy(&b, &b_bits, sizeof b);
    return x * a * b;
}

double pb_exp(double x)
{
    if (!(x > -745.2)) {
        return x != x ? x : 0.0;
    }
    if (x > 709.782712893384) {
        return HUGE_VAL;
    }
    double kd = floor(x * LOG2_E + 0.5);
    double r = (x - kd * LN2_HI) - kd * LN2_LO;
    /* |r| <= 0.3466: terms to r^14 / 14! leave 1e-18. */
    double sum = INVERSE_FACTORIAL[14];
    for (int n = 13; n >= 0; n--) {
        sum = INVERSE_FACTORIAL[n] + sum * r;
    }
    return scale_by_power_of_two(sum, (int)kd);
}

double pb_log(double x)
{
    if (!(x > 0.0)) {
        return x == 0.0 ? -HUGE_VAL : (double)NAN;
    }
    if (x > 1.7976931348623157e308) {
        return x;
    }
    int e = 0;
    if (x < 0x1.0p-1022) {
        x *= 0x1.0p54;
        e = -54;
    }
    uint64_t bits;
    memcpy(&bits, &x, sizeof bits);
    e += (int)(bits >> 52) - 1023;
    bits = (bits & 0x000FFFFFFFFFFFFFULL) | 0x3FF0000000000000ULL;
    double m;
    memcpy(&m, &bits, sizeof m);
    if (m > 1.4142135623730951) {
        m *= 0.5;
        e += 1;
    }
    /* log m = 2 atanh f, f = (m-1)/(m+1), |f| <= 0.1716: terms to f^23 leave 1e-19. */
    double f = (m - 1.0) / (m + 1.0);
    double f2 = f * f;
    double s = 0.0;
    for (int n = 23; n >= 3; n -= 2) {
        s = (s + 1.0 / (double)n) * f2;
    }
    double tail = 2.0 * f * s;
    return (double)e * LN2_HI + (2.0 * f + (tail + (double)e * LN2_LO));
}

double pb_pow(double x, double y)
{
    if (y == 0.0) {
        return 1.0;
    }
    if (x == 0.0) {
        return y > 0.0 ? 0.0 : HUGE_VAL;
    }
    return pb_exp(y * pb_log(x));
}

/* Reduce to |r| <= pi/4 and a quadrant; pi/2 in three parts (Cody and Waite). */
static double reduce(double x, int *quadrant)
{
    double k = floor(x * 0.63661977236758134308 + 0.5);
    double r =
        ((x - k * 0x1.921fb54400000p+0) - k * 0x1.0b4611a600000p-34) - k * 0x1.3198a2e037073p-69;
    double k4 = k - 4.0 * floor(k * 0.25);
    *quadrant = (int)k4;
    return r;
}

static double sin_series(double r)
{
    double r2 = r * r;
    double sum = 1.0;
    for (int n = 18; n >= 2; n -= 2) {
        sum = 1.0 - sum * r2 / (double)(n * (n + 1));
    }
    return r * sum;
}

static double cos_series(double r)
{
    double r2 = r * r;
    double sum = 1.0;
    for (int n = 17; n >= 1; n -= 2) {
        sum = 1.0 - sum * r2 / (double)(n * (n + 1));
    }
    return sum;
}

static double by_quadrant(double x, int shift)
{
    int q;
    double r = reduce(x, &q);
    switch ((q + shift) & 3) {
    case 0:
        return sin_series(r);
    case 1:
        return cos_series(r);
    case 2:
        return -sin_series(r);
    default:
        return -cos_series(r);
    }
}

double pb_sin(double x)
{
    return by_quadrant(x, 0);
}

double pb_cos(double x)
{
    return by_quadrant(x, 1);
}
