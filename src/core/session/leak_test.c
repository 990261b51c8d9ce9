/*
 * A pressure test through the bay: face held at a pressure above the back, flow measured, once
 * empty and once as packed. Half of the leak sits in each face: in the back where the boards gape,
 * in the room face along studs and plates, where sheets end. Packed, air must creep from one crack
 * to the other through the fill, and each crack is choked by fibre pressed into it: a power-law
 * orifice in series with a plug of fill. docs/physics/packing.md#leak-test
 */
#include "session_private.h"

#include "core/pb_math.h"

#include <math.h>
#include <string.h>

enum { ITERATIONS = 60 };

typedef struct LeakSystem {
    PbBand band;
    double *p, *spare;
    double *face_c, *back_c; /* conductance constants of each cell, m3/(s Pa^n) */
    double *face_q, *back_q; /* flows of the last iteration */
} LeakSystem;

static void lay_out(LeakSystem *w, const PbSim *s, PbArena *arena)
{
    size_t n = (size_t)(s->nx * s->ny), rows = n + (size_t)s->nx + 16u;
    pb_band_of_grid(&w->band, s->nx, s->ny, arena);
    double **arrays[] = {&w->p, &w->spare, &w->face_c, &w->back_c, &w->face_q, &w->back_q};
    for (size_t i = 0; i < sizeof arrays / sizeof arrays[0]; i++) {
        *arrays[i] = pb_arena_take(arena, rows * sizeof(double));
    }
}

static void spread_leaks(LeakSystem *w, const PbSim *s)
{
    double total = 0.0, edge = 0.0;
    for (int pass = 0; pass < 2; pass++) {
        for (int j = 0; j < s->ny; j++) {
            for (int i = 0; i < s->nx; i++) {
                int at = pb_at(s, i, j), k = j * s->nx + i;
                double is_edge = i == 0 || i == s->nx - 1 ? 1.0 : 0.0;
                is_edge += j == 0 || j == s->ny - 1 ? 1.0 : 0.0;
                is_edge *= pb_is_airy(s, at) ? 1.0 : 0.0;
                if (pass == 0) {
                    total += s->leak[at] * s->dx * s->dy;
                    edge += is_edge;
                } else {
                    w->back_c[k] = 0.5 * s->leak[at] * s->dx * s->dy;
                    w->face_c[k] = edge > 0.0 ? 0.5 * total * is_edge / edge : 0.0;
                }
            }
        }
    }
}

/* Conductance of a crack: orifice by its last flow, and the fibre in it. */
static double crack(const PbSim *s, double c, double q_last, double sigma, int is_packed)
{
    if (c <= 0.0) {
        return 0.0;
    }
    const double n = s->ex.leak_exponent;
    double q = pb_max(fabs(q_last), 1e-12);
    double drop = pb_pow(q / c, 1.0 / n); /* over the orifice */
    double resistance = drop / q;
    if (is_packed) {
        double speed75 = s->k.orifice_coefficient * sqrt(2.0 * 75.0 / s->k.air_density_kg_m3);
        double area = c * pb_pow(75.0, n) / speed75;
        resistance += sigma * s->k.crack_fill_depth_m / area;
    }
    return 1.0 / resistance;
}

static double sigma_of(const PbSim *s, int at, int is_packed)
{
    return is_packed ? pb_airflow_sigma(s, s->solid.a[at] * s->iphi[at]) : s->k.sigma_free_pa_s_m2;
}

/* As face_air of pack/airflow.c. */
static double face_air(const PbSim *s, double ratio, const double *area, int at, int next,
                       int is_packed)
{
    double one = sigma_of(s, at, is_packed), two = sigma_of(s, next, is_packed);
    if (s->has_batt && (s->batt[at] > 0.0 || s->batt[next] > 0.0)) {
        double a = s->phi0[at] / one + s->batt[at] / s->k.batt_sigma_pa_s_m2;
        double b = s->phi0[next] / two + s->batt[next] / s->k.batt_sigma_pa_s_m2;
        return a > 0.0 && b > 0.0 ? ratio * (a * b / (a + b)) : 0.0;
    }
    return ratio * area[at] / (one + two);
}

static double solve_once(LeakSystem *w, const PbSim *s, double face_pa, int is_packed)
{
    const int lead = w->band.lead;
    memset(w->band.a, 0, (size_t)(w->band.n + w->band.half) * (size_t)lead * sizeof(double));
    for (int j = 0; j < s->ny; j++) {
        for (int i = 0; i < s->nx; i++) {
            int at = pb_at(s, i, j), k = j * s->nx + i;
            double *row = w->band.a + (size_t)k * (size_t)lead;
            w->spare[k] = 0.0;
            w->p[k] = 0.0;
            if (!pb_is_airy(s, at)) {
                row[0] += 1.0;
                continue;
            }
            double sig = sigma_of(s, at, is_packed);
            double ratio_x = 2.0 * s->ex.depth_m * s->dy / s->dx;
            double ratio_y = 2.0 * s->ex.depth_m * s->dx / s->dy;
            double rx = face_air(s, ratio_x, s->solid.area_x, at, at + 1, is_packed);
            double ry = face_air(s, ratio_y, s->solid.area_y, at, at + s->stride, is_packed);
            double gf = crack(s, w->face_c[k], w->face_q[k], sig, is_packed);
            double gb = crack(s, w->back_c[k], w->back_q[k], sig, is_packed);
            row[0] += rx + ry + gf + gb + 1e-15;
            row[1] -= rx;
            row[s->nx] -= ry;
            if (i + 1 < s->nx) {
                row[lead] += rx;
            }
            if (j + 1 < s->ny) {
                row[(size_t)s->nx * (size_t)lead] += ry;
            }
            w->p[k] = gf * face_pa;
            /* keep the conductances for the flows below */
            w->face_q[k] = gf;
            w->back_q[k] = gb;
        }
    }
    memset(w->p + w->band.n, 0, ((size_t)w->band.half + 8) * sizeof(double));
    memset(w->spare + w->band.n, 0, ((size_t)w->band.half + 8) * sizeof(double));
    s->kernels->band_solve2(&w->band, w->p, w->spare);
    double flow = 0.0;
    for (int k = 0; k < w->band.n; k++) {
        w->face_q[k] *= face_pa - w->p[k];
        w->back_q[k] *= w->p[k];
        flow += w->back_q[k];
    }
    return flow;
}

static double measure(LeakSystem *w, const PbSim *s, double face_pa, int is_packed)
{
    for (int k = 0; k < w->band.n; k++) {
        w->face_q[k] = w->face_c[k] * pb_pow(0.5 * face_pa, s->ex.leak_exponent);
        w->back_q[k] = w->back_c[k] * pb_pow(0.5 * face_pa, s->ex.leak_exponent);
    }
    double flow = 0.0, last = 0.0;
    for (int n = 0; n < ITERATIONS; n++) {
        flow = solve_once(w, s, face_pa, is_packed);
        if (n > 2 && fabs(flow - last) < 1e-9 * flow) {
            break;
        }
        last = flow;
    }
    return flow / (s->ex.width_m * s->ex.height_m);
}

PbStatus pb_session_leak_test(const PbSession *session, double outside_pa, double *before_m3_s_m2,
                              double *after_m3_s_m2)
{
    const PbSim *s = pb_session_sim(session);
    if (!(outside_pa > 0.0) || !(outside_pa <= 1000.0)) {
        return PB_ERR_RANGE;
    }
    LeakSystem w;
    memset(&w, 0, sizeof w);
    PbArena arena = {NULL, 0, 0};
    lay_out(&w, s, &arena);
    PbAllocator a = pb_session_allocator(session);
    unsigned char *block = a.alloc(a.user, arena.used);
    if (block == NULL) {
        return PB_ERR_MEMORY;
    }
    PbArena real = {block, 0, arena.used};
    lay_out(&w, s, &real);
    spread_leaks(&w, s);
    double before = measure(&w, s, outside_pa, 0);
    double after = measure(&w, s, outside_pa, 1);
    a.free(a.user, block);
    *before_m3_s_m2 = before;
    *after_m3_s_m2 = after;
    return PB_OK;
}
