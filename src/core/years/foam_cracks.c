/*
 * Where shrinking foam opens. Each fragment shrinks about its own centre, so an opening between two
 * fragments is half of what both lose, and the openings along an axis sum to shrinkage times span.
 * Crack k always falls at the same place, whatever the count: the set only grows.
 */
#include "years/foam_private.h"

#include "core/pb_math.h"
#include "core/rng.h"

#include <math.h>

/* Place of crack k = 1, 2, ... as a share of the span: halves, then quarters, then eighths (the
 * bit-reversed count), each moved by chance within a quarter of its own spacing. */
static double crack_place(uint64_t seed, int axis, int k)
{
    double place = 0.0, spacing = 1.0;
    for (int bits = k; bits > 0; bits >>= 1) {
        spacing *= 0.5;
        place += (bits & 1) * spacing;
    }
    PbRng rng = pb_rng_make(seed, (uint64_t)axis * 4096u + (uint64_t)k);
    return place + (pb_rng_uniform(&rng) - 0.5) * 0.5 * spacing;
}

static int crack_count(const PbFoamCase *f, double span_m, double shrink_frac)
{
    const PbConstants *c = &f->constants;
    double over = 100.0 * shrink_frac - c->foam_crack_onset;
    if (!(over > 0.0)) {
        return 0;
    }
    double most = span_m / (c->foam_crack_spacing * f->depth_m);
    int n = (int)floor(most * (1.0 - pb_exp(-over / c->foam_crack_scale)));
    return n > PB_FOAM_MAX_CRACKS ? PB_FOAM_MAX_CRACKS : n;
}

int foam_open_axis(const PbFoamCase *f, int axis, double shrink_frac, PbFoamCrack *cracks,
                   double end_gap_m[2])
{
    double span = axis == FOAM_AXIS_HEIGHT ? f->height_m : f->width_m;
    int n = crack_count(f, span, shrink_frac);
    for (int k = 0; k < n; k++) {
        double at = span * crack_place(f->seed, axis, k + 1);
        int i = k;
        while (i > 0 && cracks[i - 1].at_m > at) {
            cracks[i] = cracks[i - 1];
            i--;
        }
        cracks[i].at_m = at;
    }
    for (int i = 0; i < n; i++) {
        double below = i > 0 ? cracks[i - 1].at_m : 0.0;
        double above = i + 1 < n ? cracks[i + 1].at_m : span;
        cracks[i].open_m = 0.5 * shrink_frac * (above - below);
    }
    end_gap_m[0] = 0.5 * shrink_frac * (n > 0 ? cracks[0].at_m : span);
    end_gap_m[1] = 0.5 * shrink_frac * (n > 0 ? span - cracks[n - 1].at_m : span);
    return n;
}

int foam_lets_go_inside(const PbFoamCase *f)
{
    PbRng rng = pb_rng_make(f->seed, (uint64_t)FOAM_AXIS_DEPTH * 4096u);
    return (int)(pb_rng_next(&rng) >> 63);
}
