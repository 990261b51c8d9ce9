/*
 * Shear between neighbouring columns of one row, solved exactly.
 *
 * The loads after exchange are the ones of least sum of squares that limited shear can reach, which
 * is the taut string problem: draw the running sum of load over depth share, widen each inner point
 * by the shear limit there, and pull a string through; its slopes are the loads. One pass, no
 * iteration to tune. Method: Davies and Kovac, Annals of Statistics 29(1), 2001 (taut string),
 * written here as a funnel that keeps the steepest and flattest line still possible.
 */
#include "years/settle_private.h"

static void note(SettleBends bends, int from, int to, signed char side)
{
    for (int i = from; i < to; i++) {
        bends.from[i] = (unsigned char)from;
        bends.to[i] = (unsigned char)to;
        bends.side[i + 1] = 0;
    }
    bends.side[to] = side;
}

void settle_exchange(int n, const double *x, const double *limits, double *q, double *sum_x,
                     double *sum_q, SettleBends bends)
{
    sum_x[0] = 0.0;
    sum_q[0] = 0.0;
    for (int i = 0; i < n; i++) {
        sum_x[i + 1] = sum_x[i] + x[i];
        sum_q[i + 1] = sum_q[i] + x[i] * q[i];
    }
    int from = 0;
    double from_q = 0.0;
    while (from < n) {
        double low = -1e300, high = 1e300, low_q = 0.0, high_q = 0.0;
        int low_at = from, high_at = from, bend = n;
        signed char side = 0;
        double slope = 0.0, bend_q = sum_q[n];
        for (int j = from + 1; j <= n; j++) {
            double radius = j < n ? limits[j - 1] : 0.0;
            double dx = sum_x[j] - sum_x[from];
            double bottom = (sum_q[j] - radius - from_q) / dx;
            double top = (sum_q[j] + radius - from_q) / dx;
            if (top < low) { /* must turn down where the floor was steepest */
                bend = low_at;
                bend_q = low_q;
                slope = low;
                side = -1;
                break;
            }
            if (bottom > high) { /* must turn up where the ceiling was flattest */
                bend = high_at;
                bend_q = high_q;
                slope = high;
                side = 1;
                break;
            }
            if (bottom >= low) {
                low = bottom;
                low_at = j;
                low_q = sum_q[j] - radius;
            }
            if (top <= high) {
                high = top;
                high_at = j;
                high_q = sum_q[j] + radius;
            }
            slope = low; /* at the end the radius is 0 and low = high = the way there */
        }
        for (int i = from; i < bend; i++) {
            q[i] = slope;
        }
        if (bends.side != NULL) {
            note(bends, from, bend, side);
        }
        from = bend;
        from_q = bend_q;
    }
}
