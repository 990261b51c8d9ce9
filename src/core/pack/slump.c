/*
 * Faces of fill that cannot stand. Where fill stands beside a void higher than its cohesion, its
 * friction and the rubbing on the faces of the bay allow (material.h), the upper edge breaks off
 * and comes to lie at the foot of the void: so piles rest at an angle and a shaft fills from its
 * sides. A face is followed down from its edge, over benches and under overhangs, because a shaft
 * that winds is no steadier than a straight one; how far it leans back over its whole rise is its
 * slope. An edge falls one cell a tick, 0.6 m/s, about the pace of a tuft.
 * All that falls in a tick is judged by the state before it, so that left and right are alike.
 * docs/physics/packing.md#shear
 */
#include "sim.h"

#include "core/material.h"
#include "core/pb_math.h"

#include <stdint.h>

static const double FILLED_SHARE = 0.6; /* of the laid density, as for landing */
static const double SETTLED_SHARE =
    0.5; /* of the laid density: crumbs that bear on what is under */

static int is_filled(const PbSim *s, int at)
{
    return s->solid.a[at] * s->iphi[at] >= FILLED_SHARE * s->k.laid_kg_m3 && s->phi0[at] > 0.0;
}

static int is_void(const PbSim *s, int at)
{
    return s->phi0[at] > 0.0 && !is_filled(s, at);
}

static int is_face(const PbSim *s, int at, int side)
{
    return is_filled(s, at) && is_void(s, at + side);
}

/* Width of the fill round a cell from void to void; 0 when it leans on wood. */
static double pillar_width_m(const PbSim *s, int at)
{
    int left = at, right = at;
    while (is_filled(s, left)) {
        left--;
    }
    while (is_filled(s, right)) {
        right++;
    }
    return s->phi0[left] > 0.0 && s->phi0[right] > 0.0 ? (right - left - 1) * s->dx : 0.0;
}

/* The cell of the same face one row down, 0 where the face ends; steps counts how many cells
 * further out into the void it stands. */
static int face_below(const PbSim *s, int at, int side, int *steps)
{
    int below = at - s->stride;
    if (!is_filled(s, below)) { /* undercut */
        below -= side;
        *steps -= 1;
        return is_face(s, below, side) ? below : 0;
    }
    while (is_filled(s, below + side)) {
        below += side;
        *steps += 1;
    }
    return is_void(s, below + side) ? below : 0; /* or the bench reaches wood */
}

/* By how much the face below an edge stands too high, m, 0 if it stands; foot: the cell of the void
 * beside its lowest cell. */
static double excess_m(const PbSim *s, int edge, int side, int *foot)
{
    double cohesion = 0.0, weight = 0.0, density = 0.0, width = 1e9, worst = 0.0;
    int steps = 0, count = 0;
    for (int at = edge; at > 0; at = face_below(s, at, side, &steps)) {
        double rho = s->solid.a[at] * s->iphi[at];
        double past = pb_max(s->solid.b[at] / s->solid.a[at], rho);
        count++;
        cohesion += pb_material_cohesion(&s->k, rho, past);
        density += rho;
        weight += pb_fill_weight_n_m3(s, at);
        double here = pillar_width_m(s, at);
        width = pb_min(width, here > 0.0 ? here : 1e9);
        double rise = count * s->dy;
        double stands =
            pb_material_face_height(&s->k, cohesion / count, weight / count, rise, steps * s->dx);
        if (width < 1e9 && steps <= 0) {
            stands =
                pb_min(stands, pb_material_pillar_height(&s->k, cohesion / count, weight / count,
                                                         density / count, width));
        }
        if (rise - stands > worst) {
            worst = rise - stands;
            *foot = at + side;
        }
    }
    return worst;
}

/* What an edge gives to its foot. */
typedef struct Shed {
    int edge, foot, side;
    double a, b;
} Shed;

enum { MOST_SHEDS = 512 };

/* The edge of a face that is too high; a foot gets at most half of its room from a side. */
static int shed(const PbSim *s, int edge, int side, const Shed *sheds, int count, Shed *out)
{
    int foot = 0;
    if (excess_m(s, edge, side, &foot) <= 0.0) {
        return 0;
    }
    while (is_void(s, foot - s->stride)) {
        foot -= s->stride;
    }
    while (s->solid.a[foot] * s->iphi[foot] >= SETTLED_SHARE * s->k.laid_kg_m3 &&
           is_void(s, foot + s->stride) && foot < edge + side) {
        foot += s->stride;
    }
    double room = 0.5 * (s->k.laid_kg_m3 * s->phi[foot] - s->solid.a[foot]);
    for (int n = 0; n < count; n++) {
        room -= sheds[n].foot == foot && sheds[n].side == side ? sheds[n].a : 0.0;
    }
    double share = is_face(s, edge, -side) ? 0.5 : 1.0;
    double a = pb_min(share * s->solid.a[edge], room);
    *out = (Shed){edge, foot, side, a, a * (s->solid.b[edge] / s->solid.a[edge])};
    return a > 0.0;
}

/* Rows of cells as bits, from the left. */
static uint64_t filled_bits(const PbSim *s, int j)
{
    const double limit = FILLED_SHARE * s->k.laid_kg_m3;
    const double *a = s->solid.a + pb_at(s, 0, j), *iphi = s->iphi + pb_at(s, 0, j);
    uint64_t bits = 0;
    for (int i = 0; i < s->nx; i++) {
        bits |= (uint64_t)(a[i] * iphi[i] >= limit) << i;
    }
    return bits;
}

static uint64_t open_bits(const PbSim *s, int j)
{
    uint64_t bits = 0;
    for (int i = 0; i < s->nx; i++) {
        bits |= (uint64_t)(s->phi0[pb_at(s, i, j)] > 0.0) << i;
    }
    return bits;
}

/* What a cell gains or loses, once for all sheds, at the first that touches it. Each
 * side is summed by itself, so that the mirror image of a bay rounds alike. */
static void settle(PbSim *s, const Shed *sheds, int count, int first, int at)
{
    double a[2] = {0.0, 0.0}, b[2] = {0.0, 0.0};
    for (int n = 0; n < count; n++) {
        double sign = sheds[n].foot == at ? 1.0 : (sheds[n].edge == at ? -1.0 : 0.0);
        if (sign != 0.0 && n < first) {
            return;
        }
        a[sheds[n].side > 0] += sign * sheds[n].a;
        b[sheds[n].side > 0] += sign * sheds[n].b;
    }
    s->solid.a[at] += a[0] + a[1];
    s->solid.b[at] += b[0] + b[1];
}

void pb_slump_step(PbSim *s)
{
    if (s->gravity_along <= 0.0) {
        return;
    }
    Shed sheds[MOST_SHEDS];
    int count = 0;
    uint64_t above[2] = {0, 0}; /* faces of the row above, to the left and to the right */
    for (int j = s->ny - 1; j >= 0; j--) {
        uint64_t filled = filled_bits(s, j), empty = open_bits(s, j) & ~filled;
        filled &= open_bits(s, j);
        const uint64_t faces[2] = {filled & (empty << 1), filled & (empty >> 1)};
        for (int d = 0; d < 2; d++) {
            /* an edge is where a face does not go straight on up */
            uint64_t edges = faces[d] & ~above[d];
            above[d] = faces[d];
            for (int n = 0; edges != 0 && n < s->nx && count < MOST_SHEDS; n++) {
                int i = d == 0 ? s->nx - 1 - n : n; /* from the fill towards the void */
                if (edges >> i & 1u) {
                    count += shed(s, pb_at(s, i, j), 2 * d - 1, sheds, count, &sheds[count]);
                }
            }
        }
    }
    for (int n = 0; n < count; n++) {
        settle(s, sheds, count, n, sheds[n].edge);
        settle(s, sheds, count, n, sheds[n].foot);
    }
}
