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

#include <string.h>

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

/* An edge is where a face does not go straight on up. */
static int is_edge(const PbSim *s, int at, int side)
{
    return is_face(s, at, side) && !is_face(s, at + s->stride, side);
}

/* What the edge gives and its foot takes; a foot gets at most half of its room from a side. */
static void shed(PbSim *s, int edge, int side, double *given, double *da, double *db)
{
    int foot = 0;
    if (excess_m(s, edge, side, &foot) <= 0.0) {
        return;
    }
    while (is_void(s, foot - s->stride)) {
        foot -= s->stride;
    }
    while (s->solid.a[foot] * s->iphi[foot] >= SETTLED_SHARE * s->k.laid_kg_m3 &&
           is_void(s, foot + s->stride) && foot < edge + side) {
        foot += s->stride;
    }
    double room = 0.5 * (s->k.laid_kg_m3 * s->phi[foot] - s->solid.a[foot]) - given[foot];
    double share = is_edge(s, edge, -side) ? 0.5 : 1.0;
    double a = pb_min(share * s->solid.a[edge], room);
    if (a <= 0.0) {
        return;
    }
    double b = a * (s->solid.b[edge] / s->solid.a[edge]);
    given[foot] += a;
    da[edge] -= a;
    db[edge] -= b;
    da[foot] += a;
    db[foot] += b;
}

void pb_slump_step(PbSim *s)
{
    if (s->gravity_along <= 0.0) {
        return;
    }
    /* the fluxes of the last substep are done with */
    double *da = s->solid.fa_x, *db = s->solid.fb_x, *given = s->solid.fa_y;
    size_t size = (size_t)s->cells * sizeof(double);
    memset(da, 0, size);
    memset(db, 0, size);
    for (int side = -1; side <= 1; side += 2) {
        memset(given, 0, size);
        for (int j = 0; j < s->ny; j++) {
            for (int i = 0; i < s->nx; i++) {
                if (is_edge(s, pb_at(s, i, j), side)) {
                    shed(s, pb_at(s, i, j), side, given, da, db);
                }
            }
        }
    }
    for (int at = 0; at < s->cells; at++) {
        s->solid.a[at] += da[at];
        s->solid.b[at] += db[at];
    }
}
