/* A listener who knows what a stall sounds like and nothing of the run: level of the rattle band,
 * pitch of the machine, knocks between its partials, tick by tick. */
#ifndef SUPPORT_EAR_H
#define SUPPORT_EAR_H

#include "rattle_band.h"

#include <string.h>

enum {
    EAR_PER_S = 25,
    EAR_TICK = AUDIO_RATE_HZ / EAR_PER_S,
    EAR_THIN = 24, /* to 2 kHz */
    EAR_THINNED = EAR_TICK / EAR_THIN,
    EAR_WINDOW = 5,
    EAR_TICKS = EAR_PER_S * 150
};

typedef struct Ear {
    RattleBand band;
    double thin[EAR_WINDOW * EAR_THINNED];
    double rattle_db[EAR_TICKS], pitch_hz[EAR_TICKS], knock[EAR_TICKS];
} Ear;

/* Power of this pitch in n samples of 2 kHz; Goertzel. */
static inline double ear_power(const double *x, int n, double hz)
{
    double w = 2.0 * 3.14159265358979323846 * hz * EAR_THIN / AUDIO_RATE_HZ;
    double turn = 2.0 * cos(w), s1 = 0.0, s2 = 0.0;
    for (int i = 0; i < n; i++) {
        double s0 = x[i] + turn * s1 - s2;
        s2 = s1;
        s1 = s0;
    }
    return s1 * s1 + s2 * s2 - turn * s1 * s2;
}

/* The loudest of the pitches that the ear tells apart, 2 Hz each from first_hz on. */
static inline double ear_loudest_hz(const double *x, int n, double first_hz, int pitches)
{
    double best = 0.0, at = 0.0;
    for (int k = 0; k < pitches; k++) {
        double hz = first_hz + 2.0 * k, power = ear_power(x, n, hz);
        if (power > best) {
            best = power;
            at = hz;
        }
    }
    return at;
}

/* Tick t of what comes out of the loudspeaker, with `noise` of the room already in it. The pitch of
 * a machine whose current sags is followed down to `first_hz`. */
static inline void ear_listen(Ear *e, int t, const double *x, double first_hz, int pitches)
{
    double sum = 0.0;
    const int n = EAR_WINDOW * EAR_THINNED, last = (EAR_WINDOW - 1) * EAR_THINNED;
    memmove(e->thin, e->thin + EAR_THINNED, (size_t)last * sizeof *e->thin);
    for (int i = 0; i < EAR_TICK; i++) {
        double y = rattle_band(&e->band, x[i]);
        sum += y * y;
        int at = last + i / EAR_THIN;
        e->thin[at] = i % EAR_THIN == 0 ? x[i] / EAR_THIN : e->thin[at] + x[i] / EAR_THIN;
    }
    e->rattle_db[t] = power_db(sum / EAR_TICK);
    e->pitch_hz[t] = ear_loudest_hz(e->thin, n, first_hz, pitches);
    double loud = 0.0;
    for (double hz = 310.0; hz < 440.0; hz += 20.0) {
        loud = fmax(loud, ear_power(e->thin + n - 2 * EAR_THINNED, 2 * EAR_THINNED, hz));
    }
    e->knock[t] = power_db(loud);
}

static inline double ear_mean(const double *v, int from, int to)
{
    double sum = 0.0;
    for (int i = from; i < to; i++) {
        sum += v[i];
    }
    return sum / (to - from);
}

#endif
