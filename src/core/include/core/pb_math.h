/**
 * @file pb_math.h
 * @brief The only door to exp, log, pow, sin and cos in the core.
 *
 * They are our own (base/pb_math.c) because C libraries differ in the last bit between versions and
 * machines, and a run must give the same bits everywhere. Built from + - * / only; errors stand
 * beside each (tests/unit/test_pb_math.c compares with libm). sqrt, fabs, floor, ceil, fmin, fmax
 * are exact by IEEE 754 and may be used from <math.h> directly.
 */
#ifndef CORE_PB_MATH_H
#define CORE_PB_MATH_H

/** @brief e^x; 0 below -745, infinity above 709.78. Relative error 4e-15 where the result is
 * normal.
 */
double pb_exp(double x);
/** @brief Natural logarithm of x > 0; -infinity at 0, NaN below. Relative error 4e-15. */
double pb_log(double x);
/** @brief x^y for x >= 0; 0^y = 0 for y > 0, 1 for y = 0. Relative error 4e-15 (1 + |y ln x|). */
double pb_pow(double x, double y);
/** @brief Sine, |x| up to 1e6 and finite. Absolute error 1e-14. */
double pb_sin(double x);
/** @brief Cosine, |x| up to 1e6 and finite. Absolute error 1e-14. */
double pb_cos(double x);

/** @brief The larger of two; b when a is NaN. A plain select, so that loops vectorise. */
static inline double pb_max(double a, double b)
{
    return a > b ? a : b;
}
/** @brief The smaller of two; b when a is NaN. */
static inline double pb_min(double a, double b)
{
    return a < b ? a : b;
}
/** @brief How much of a0..a1 lies in b0..b1; 0 where they are apart. */
static inline double pb_overlap(double a0, double a1, double b0, double b1)
{
    double lo = pb_max(a0, b0), hi = pb_min(a1, b1);
    return hi > lo ? hi - lo : 0.0;
}
/** @brief lo when v < lo, hi when v > hi, else v. For physics limits, never for user input. */
static inline double pb_limit(double v, double lo, double hi)
{
    return v < lo ? lo : (v > hi ? hi : v);
}

#define PB_PI 3.14159265358979323846

#endif
