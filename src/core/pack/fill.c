/*
 * The packed solid: overdamped fibre that flows when gas and stress push harder than the faces
 * rub. Conservative finite volumes, explicit substeps, first-order upwind.
 *   stress    p = Cv (rho^3 - rest^3)+ loading, p(past) e^2 unloading
 *   friction  tau = (2/D) (mu k p + adhesion) + mu p / (2 dx) beside wood + mu rho g cos(tilt)
 *   speed     v = M (|G| - tau)+ G / |G|,  G = -grad(p + P) - rho g sin(tilt) e_y
 * What lets a void stand: a face towards loose fill holds up to the unconfined strength of the
 * fibre, and a crumb layer over a hole arches when the hole is narrower than strength / weight
 * (Jenike, Univ. of Utah Eng. Exp. Station Bulletin 123, 1964). docs/physics/packing.md#fill
 *
 * Rows that cannot move are skipped. The rule is exact: a row is evaluated again only if a row
 * that its fluxes depend on changed in the last substep, so skipping changes no bit.
 */
#include "sim.h"

#include "core/material.h"
#include "core/pb_math.h"
#include "core/units.h"

#include <math.h>
#include <string.h>

static const double MOBILITY_SHARE = 0.05; /* of Darcy drag mobility; numerical, insensitive */
static const double MOBILITY_CAP = 3e-5;   /* m3 s/kg; numerical, insensitive */
static const double SPEED_CAP_M_S = 0.6;
static const double FALL_SPEED_M_S = 0.5;
static const double DIFFUSION_LIMIT =
    0.24; /* of h^2 / (rho dp/drho M); 0.25 is where it ceases to be stable */
static const double LONGEST_STEP_S = 0.0058;
static const double SUPPORT_SHARE = 0.9; /* of rest density: fill that carries crumbs above it */

void pb_fill_add(PbSim *s, int at, double kg)
{
    double da = kg / (s->dx * s->dy * s->ex.depth_m);
    s->solid.a[at] += da;
    s->solid.b[at] += da * pb_max(s->solid.a[at] * s->iphi[at], s->k.rest_kg_m3);
    PB_LEDGER_ADD(s, in_bay_kg, kg);
}

/* Resistivity, mobility and strength of cells and faces. @return the stiffest cell, for the substep
 */
static double prepare(PbSim *s)
{
    const PbConstants *k = &s->k;
    PbPrepare c = {.a = s->solid.a,
                   .b = s->solid.b,
                   .iphi = s->iphi,
                   .p = s->solid.p,
                   .table = s->sigma_table,
                   .sigma = s->sigma,
                   .mobility = s->mobility,
                   .hold = s->fibre_hold,
                   .t0_x = s->step.t0_x,
                   .t0_y = s->step.t0_y,
                   .mob_x = s->step.mob_x,
                   .mob_y = s->step.mob_y,
                   .table_scale = 4.0,
                   .table_end = PB_SIGMA_TABLE - 1,
                   .mobility_share = MOBILITY_SHARE,
                   .mobility_cap = MOBILITY_CAP,
                   .stiffness3 = 3.0 * s->cv,
                   .unload_slope = 2.0 / k->unload_strain,
                   .laid_strength_pa = pb_material_unconfined(k) * k->cohesion_pa,
                   .strength_slope = pb_material_unconfined(k) * k->fibre_cohesion_pa /
                                     (k->compaction_ref_kg_m3 * k->compaction_ref_kg_m3),
                   .stick = 2.0 / s->ex.depth_m * k->cohesion_pa,
                   .lean = k->wall_friction * s->gravity_across,
                   .rest_kg_m3 = k->rest_kg_m3,
                   .inv_rest = 1.0 / k->rest_kg_m3,
                   .inv_dx = 1.0 / s->dx,
                   .inv_dy = 1.0 / s->dy,
                   .stride = s->stride,
                   .cells = s->cells};
    if (s->kernels->solid_resistivity(&c)) {
        for (int at = 0; at < s->cells; at++) {
            s->sigma[at] = pb_airflow_sigma(s, s->solid.a[at] * s->iphi[at]);
        }
    }
    return s->kernels->solid_prepare(&c);
}

static int carries(const PbSim *s, int at)
{
    return s->phi0[at] <= 0.0 || s->solid.a[at] * s->iphi[at] >= SUPPORT_SHARE * s->k.rest_kg_m3;
}

double pb_fill_weight_n_m3(const PbSim *s, int at)
{
    const PbConstants *k = &s->k;
    double rho = s->solid.a[at] * s->iphi[at];
    double rubs = k->wall_friction * k->lateral_ratio * s->solid.p[at] +
                  k->cohesion_pa * pb_min(rho / k->rest_kg_m3, 1.0);
    return rho * s->gravity_along - 2.0 * rubs / s->ex.depth_m;
}

/* Mark faces through which an unheld crumb drops: nothing under it, neither gas nor rubbing on the
 * boards holds it, too wide to arch. */
static void prepare_falls(PbSim *s)
{
    const int st = s->stride;
    memset(s->step.fall, 0, (size_t)s->cells * sizeof(float));
    if (s->gravity_along <= 0.0) {
        return;
    }
    float share = (float)pb_min(s->gravity_along / PB_GRAVITY_M_S2, 1.0);
    for (int j = 0; j + 1 < s->ny; j++) {
        int i = 0;
        while (i < s->nx) {
            int first = i;
            double weakest = 1e9, heaviest = 0.0;
            /* a run of cells with room under them */
            while (i < s->nx && !carries(s, pb_at(s, i, j))) {
                int up = pb_at(s, i, j + 1);
                double rho = s->phi0[up] > 0.0 ? s->solid.a[up] * s->iphi[up] : 0.0;
                double past = s->solid.b[up] / pb_max(s->solid.a[up], 1e-30);
                weakest =
                    pb_min(weakest, pb_material_cohesion(&s->k, rho, past) / pb_max(rho, 1e-9));
                heaviest = pb_max(heaviest, rho);
                i++;
            }
            if (i == first) {
                i++;
                continue;
            }
            double span = (i - first) * s->dx;
            double bridge = pb_material_unconfined(&s->k) * weakest / s->gravity_along;
            if (heaviest <= 0.0 || span < bridge) {
                continue;
            }
            for (int c = first; c < i; c++) {
                int at = pb_at(s, c, j), up = at + st;
                double lift = (s->gas_pa[at] - s->gas_pa[up]) / s->dy;
                if (s->phi0[at] > 0.0 && s->solid.a[up] > 0.0 &&
                    lift < pb_fill_weight_n_m3(s, up)) {
                    s->step.fall[at] = share;
                }
            }
        }
    }
}

/* Call f on runs of marked rows. */
typedef void (*RowFn)(const PbSolidStep *a, const PbSolidParams *q, int from, int to);

static void on_runs(PbSim *s, const unsigned char *marks, RowFn f)
{
    int j = 0;
    while (j < s->ny) {
        if (!marks[j]) {
            j++;
            continue;
        }
        int first = j;
        while (j < s->ny && marks[j]) {
            j++;
        }
        f(&s->step, &s->solid_params, (first + 1) * s->stride, (j + 1) * s->stride);
    }
}

static void inject(PbSim *s, int count, double dt_s)
{
    for (int n = 0; n < count; n++) {
        int at = s->fed_cells[n];
        double da = s->rate_a[at] * dt_s;
        s->solid.a[at] += da;
        s->solid.b[at] += da * pb_max((double)s->step.rm[at], s->k.rest_kg_m3);
        s->row_next[at / s->stride - 1] = 1;
    }
}

/* Rows of the longest bay (6 m) in the finest cells (0.15 m / 48) are 1920. */
enum { MAX_ROWS = 4096 };

static void substep(PbSim *s, int fed_count)
{
    const int ny = s->ny;
    const size_t rows = ny > 0 ? (size_t)ny : 0;
    unsigned char marks[MAX_ROWS + 1];
    unsigned char *live = s->row_live;
    on_runs(s, live, s->kernels->solid_stress);
    for (int j = 0; j < ny; j++) {
        marks[j] = (unsigned char)(live[j] | (j + 1 < ny ? live[j + 1] : 0));
    }
    on_runs(s, marks, s->kernels->solid_force);
    for (int j = 0; j < ny; j++) {
        marks[j] =
            (unsigned char)(live[j] | (j + 1 < ny ? live[j + 1] : 0) | (j > 0 ? live[j - 1] : 0));
    }
    on_runs(s, marks, s->kernels->solid_flux);
    int updated = s->kernels->solid_update(&s->step, &s->solid_params, ny, marks, s->row_next);
    if (s->profile != NULL) {
        s->profile->cell_substeps += (uint64_t)updated * (uint64_t)s->nx;
    }
    inject(s, fed_count, s->solid_params.dt_s);
    if (s->is_whole) {
        memset(s->row_live, 1, rows);
    } else {
        memcpy(s->row_live, s->row_next, rows);
    }
}

static void set_params(PbSim *s)
{
    PbSolidParams *q = &s->solid_params;
    q->stride = s->stride;
    q->inv_dx = 1.0 / s->dx;
    q->inv_dy = 1.0 / s->dy;
    q->stiffness = s->cv;
    q->rest3 = s->k.rest_kg_m3 * s->k.rest_kg_m3 * s->k.rest_kg_m3;
    q->unload = s->k.unload_strain;
    q->inv_unload = 1.0 / s->k.unload_strain;
    q->weight = s->gravity_along;
    q->speed_cap_m_s = SPEED_CAP_M_S;
    q->fall_speed_m_s = FALL_SPEED_M_S;
    q->loose_kg_m3 = SUPPORT_SHARE * s->k.rest_kg_m3;
}

void pb_fill_step(PbSim *s)
{
    set_params(s);
    memset(s->row_live, 1, (size_t)s->ny);
    const int n = s->cells;
    s->kernels->narrow(s->step.iphi, s->iphi, n);
    s->kernels->narrow(s->step.gas, s->gas_pa, n);
    s->kernels->narrow(s->step.area_x, s->solid.area_x, n);
    s->kernels->narrow(s->step.area_y, s->solid.area_y, n);
    on_runs(s, s->row_live, s->kernels->solid_stress);
    s->kernels->widen(s->solid.p, s->step.p, n);
    double stiffest = prepare(s);
    prepare_falls(s);
    int fed_count = 0;
    double cell_m3 = s->dx * s->dy * s->ex.depth_m;
    for (int at = 0; at < s->cells; at++) {
        if (s->rate_a[at] > 0.0) {
            s->fed_cells[fed_count++] = at;
            PB_LEDGER_ADD(s, in_bay_kg, s->rate_a[at] * cell_m3 * PB_TICK_S);
        }
    }
    double h = pb_min(s->dx, s->dy);
    double dt = pb_min(LONGEST_STEP_S, 0.15 * h / SPEED_CAP_M_S);
    if (stiffest > 0.0) {
        dt = pb_min(dt, DIFFUSION_LIMIT * h * h / stiffest);
    }
    int count = (int)ceil(PB_TICK_S / dt);
    s->solid_params.dt_s = PB_TICK_S / count;
    for (int step = 0; step < count; step++) {
        substep(s, fed_count);
    }
    s->kernels->widen(s->solid.p, s->step.p, n);
    if (s->profile != NULL) {
        s->profile->solid_substeps += (uint64_t)count;
    }
}

void pb_fill_step_whole(PbSim *s)
{
    s->is_whole = 1;
    pb_fill_step(s);
    s->is_whole = 0;
}
