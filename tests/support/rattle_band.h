/* The band of the rattle as an ear takes it: two resonators in series, middle 2.9 kHz. */
#ifndef SUPPORT_RATTLE_BAND_H
#define SUPPORT_RATTLE_BAND_H

#include "audio/audio.h"

#include <math.h>

typedef struct RattleBand {
    double x1[2], x2[2], y1[2], y2[2];
} RattleBand;

/* One sample on; start from zeros. */
static inline double rattle_band(RattleBand *b, double x)
{
    const double w = 2.0 * 3.14159265358979323846 * 2900.0 / AUDIO_RATE_HZ;
    const double alpha = sin(w) / (2.0 * 1.6), a0 = 1.0 + alpha, a1 = 2.0 * cos(w);
    for (int k = 0; k < 2; k++) {
        double y = (alpha * (x - b->x2[k]) + a1 * b->y1[k] - (1.0 - alpha) * b->y2[k]) / a0;
        b->x2[k] = b->x1[k];
        b->x1[k] = x;
        b->y2[k] = b->y1[k];
        b->y1[k] = y;
        x = y;
    }
    return x;
}

static inline double power_db(double power)
{
    return 10.0 * log10(power + 1e-12);
}

#endif
