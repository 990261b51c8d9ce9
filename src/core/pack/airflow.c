/*
 * Gas in the bay: quasi-steady Darcy flow in the plane, leaks through the faces, openings, the ring
 * round the tube, and the little that compresses.
 *   div(D phi / sigma grad P) = C |P|^(n-1) P - Q w + D phi / (P_atm dt) (P - P_old)
 * Power-law leaks are lagged (coefficient from the last pressure, |P| >= 2 Pa), so P is linear in
 * the hose flow: P = Q * unit + memory, and hose and bay meet in one scalar equation. One band
 * solve with two right-hand sides every second to fourth tick. docs/physics/packing.md#gas
 */
#include "sim.h"

#include "core/material.h"
#include "core/pb_math.h"

#include <math.h>
#include <string.h>

static const double ATMOSPHERE_PA = 101325.0;
static const double LEAK_FLOOR_PA = 2.0;
static const double LEAK_TABLE_TOP_PA = 30000.0;
enum { FLYING_PERIOD = 2, STILL_PERIOD = 4 }; /* ticks */
static const double COVERED_PA_S_M3 = 1e12;   /* a hand over the hose end: no air gets by */
static const double KERNEL_REACH = 2.2;       /* mouth kernel is cut at this many radii */

double pb_airflow_sigma(const PbSim *s, double rho)
{
    double x = rho * 4.0;
    if (!(x < (double)(PB_SIGMA_TABLE - 1))) {
        return s->k.sigma_free_pa_s_m2 + pb_material_resistivity(&s->k, rho);
    }
    int i = (int)x;
    double f = x - (double)i;
    return s->sigma_table[i] + f * (s->sigma_table[i + 1] - s->sigma_table[i]);
}

static void init_leak_table(PbSim *s)
{
    if (s->leak_table[PB_LEAK_TABLE] != 0.0) {
        return;
    }
    double step = sqrt(LEAK_TABLE_TOP_PA) / PB_LEAK_TABLE;
    for (int i = 0; i <= PB_LEAK_TABLE; i++) {
        double p = pb_max(step * i * step * i, LEAK_FLOOR_PA);
        s->leak_table[i] = pb_pow(p, s->ex.leak_exponent - 1.0);
    }
}

/* Orifice as a conductance lagged by one tick: q = Cd A sqrt(2 P / rho). */
static double orifice(const PbSim *s, double area_m2, double p_pa)
{
    double p = pb_max(fabs(p_pa), LEAK_FLOOR_PA);
    return s->k.orifice_coefficient * area_m2 * sqrt(2.0 / (s->k.air_density_kg_m3 * p));
}

static void mouth_kernel(PbSim *s)
{
    memset(s->mouth_w, 0, (size_t)s->cells * sizeof(double));
    s->rho_mouth = 0.0;
    s->past_mouth = 0.0;
    s->source_norm = 0.0;
    if (!pb_tube_is_inside(s)) {
        return;
    }
    double r = s->k.mouth_radius_m, sum = 0.0, rho = 0.0, past = 0.0;
    double mx = s->tube_state.mouth_x_m, my = s->tube_state.mouth_y_m;
    int j0 = (int)floor((my - KERNEL_REACH * r) / s->dy),
        j1 = (int)floor((my + KERNEL_REACH * r) / s->dy);
    int i0 = (int)floor((mx - KERNEL_REACH * r) / s->dx),
        i1 = (int)floor((mx + KERNEL_REACH * r) / s->dx);
    for (int pass = 0; pass < 2; pass++) {
        for (int j = j0 < 0 ? 0 : j0; j <= j1 && j < s->ny; j++) {
            for (int i = i0 < 0 ? 0 : i0; i <= i1 && i < s->nx; i++) {
                int at = pb_at(s, i, j);
                double ex = s->dx * (i + 0.5) - mx, ey = s->dy * (j + 0.5) - my;
                double d2 = (ex * ex + ey * ey) / (r * r);
                if (d2 > KERNEL_REACH * KERNEL_REACH || s->phi0[at] <= 0.0) {
                    continue;
                }
                if (pass == 0) {
                    s->mouth_w[at] = pb_exp(-d2) * s->phi[at];
                    sum += s->mouth_w[at];
                } else {
                    s->mouth_w[at] /= sum;
                    double here = s->solid.a[at] * s->iphi[at];
                    rho += s->mouth_w[at] * here;
                    past += s->mouth_w[at] * (s->solid.a[at] > 1e-12
                                                  ? pb_max(s->solid.b[at] / s->solid.a[at], here)
                                                  : 0.0);
                }
            }
        }
        if (sum <= 0.0) {
            return;
        }
    }
    s->source_norm = 1.0;
    s->rho_mouth = rho;
    s->past_mouth = past;
}

static double hole_area(const PbSim *s)
{
    double full = 0.25 * PB_PI * pb_hole(s)->bore_m * pb_hole(s)->bore_m;
    if (!pb_tube_is_inside(s)) {
        /* the tube is out: the hole is open until it is plugged at the end of the run */
        return s->phase == PB_PHASE_WORKING ? full : 0.0;
    }
    double tube = 0.25 * PB_PI * s->ex.machine.tube_outer_m * s->ex.machine.tube_outer_m;
    return pb_max(full - tube, 0.0) * pb_act_ring_open_frac(s);
}

/* Conductivity of a cell for air along the bay, fill and batt side by side, m2/(Pa s). */
static double airy(const PbSim *s, int at)
{
    return s->phi[at] / s->sigma[at] + s->batt[at] / s->k.batt_sigma_pa_s_m2;
}

/* Conductance of a face beside a batt: ratio is twice the section over the distance of the middles.
 * The two half cells stand in series, each with its fill and its batt side by side. */
static void batt_face(const PbSim *s, double ratio, int at, int next, double *conductance)
{
    if (s->batt[at] <= 0.0 && s->batt[next] <= 0.0) {
        return;
    }
    double one = airy(s, at), two = airy(s, next);
    int is_open = pb_is_airy(s, at) && pb_is_airy(s, next);
    *conductance = is_open ? ratio * (one * two / (one + two)) : 0.0;
}

/* Time that the air has had since the pressures in store were solved for. */
static double since_solved_s(const PbSim *s)
{
    return pb_max(s->tick * PB_TICK_S - s->solved_s, PB_TICK_S);
}

static void assemble(PbSim *s)
{
    const double depth = s->ex.depth_m, cell = s->dx * s->dy;
    PbGasArrays g = {.area_x = s->solid.area_x,
                     .area_y = s->solid.area_y,
                     .sigma = s->sigma,
                     .phi = s->phi,
                     .phi0 = s->phi0,
                     .batt = s->batt,
                     .gas = s->gas_pa,
                     .leak = s->leak,
                     .leak_table = s->leak_table,
                     .mouth_w = s->mouth_w,
                     .right = s->air_x,
                     .up = s->air_y,
                     .leak_now = s->leak_now,
                     .memory = s->memory_pa,
                     .unit = s->unit_pa,
                     .ratio_x = 2.0 * depth * s->dy / s->dx,
                     .ratio_y = 2.0 * depth * s->dx / s->dy,
                     .storage = depth * cell / (ATMOSPHERE_PA * since_solved_s(s)),
                     .cell_m2 = cell,
                     .leak_scale = PB_LEAK_TABLE / sqrt(LEAK_TABLE_TOP_PA),
                     .leak_rows = PB_LEAK_TABLE,
                     .nx = s->nx,
                     .ny = s->ny,
                     .stride = s->stride};
    s->kernels->gas_faces(&g);
    for (int at = s->stride; s->has_batt && at < s->cells - s->stride; at++) {
        batt_face(s, g.ratio_x, at, at + 1, &s->air_x[at]);
        batt_face(s, g.ratio_y, at, at + s->stride, &s->air_y[at]);
    }
    s->kernels->gas_assemble(&s->band, &g);
}

/* Let the cell of a hole out into the room; returns the conductance. */
static double open_hole(PbSim *s, const PbHole *hole, double area_m2)
{
    int at = pb_hole_cell(s, hole);
    int i = at % s->stride - 1, j = at / s->stride - 1;
    double conductance = s->phi0[at] > 0.0 ? orifice(s, area_m2, s->gas_pa[at]) : 0.0;
    s->band.a[(size_t)(j * s->nx + i) * (size_t)s->band.lead] += conductance;
    return conductance;
}

static void assemble_openings(PbSim *s, double *hole_conductance)
{
    int count[PB_MAX_OPENINGS] = {0};
    for (int at = 0; at < s->cells; at++) {
        if (s->opening_at[at] > 0) {
            count[s->opening_at[at] - 1]++;
        }
    }
    for (int j = 0; j < s->ny; j++) {
        for (int i = 0; i < s->nx; i++) {
            int at = pb_at(s, i, j), o = s->opening_at[at] - 1;
            if (o >= 0 && !s->acts.is_sealed[o]) {
                s->band.a[(size_t)(j * s->nx + i) * (size_t)s->band.lead] +=
                    orifice(s, s->ex.openings[o].area_m2 / (double)count[o], s->gas_pa[at]);
            }
        }
    }
    *hole_conductance = open_hole(s, pb_hole(s), hole_area(s));
    for (int h = 0; h < s->ex.hole_count; h++) {
        const PbHole *hole = &s->ex.holes[h];
        if (pb_act_is_hole_open(s, h)) {
            (void)open_hole(s, hole, 0.25 * PB_PI * hole->bore_m * hole->bore_m);
        }
    }
}

static void set_pressures(PbSim *s, double flow)
{
    double leak_flow = 0.0;
    for (int j = 0; j < s->ny; j++) {
        for (int i = 0; i < s->nx; i++) {
            int at = pb_at(s, i, j), k = j * s->nx + i;
            double p = flow * s->unit_pa[k] + s->memory_pa[k];
            leak_flow += s->leak_now[at] * p;
            s->gas_pa[at] = p;
        }
    }
    s->leak_flow_m3_s = leak_flow;
}

void pb_airflow_solve(PbSim *s, double *hole_conductance)
{
    init_leak_table(s);
    assemble(s);
    assemble_openings(s, hole_conductance);
    memset(s->unit_pa + s->band.n, 0, (size_t)(s->band.half + 8) * sizeof(double));
    memset(s->memory_pa + s->band.n, 0, (size_t)(s->band.half + 8) * sizeof(double));
    s->kernels->band_solve2(&s->band, s->unit_pa, s->memory_pa);
}

/* Kernel means of the two answers: what a unit of flow costs at the mouth, and what stands there.
 */
static void mouth_means(const PbSim *s, double *resistance, double *standing)
{
    *resistance = 0.0;
    *standing = 0.0;
    if (s->source_norm <= 0.0) {
        return;
    }
    const double reach = KERNEL_REACH * s->k.mouth_radius_m, y = s->tube_state.mouth_y_m;
    const int j0 = (int)floor((y - reach) / s->dy), j1 = (int)floor((y + reach) / s->dy);
    for (int j = j0 < 0 ? 0 : j0; j <= j1 && j < s->ny; j++) {
        for (int i = 0; i < s->nx; i++) {
            double w = s->mouth_w[pb_at(s, i, j)];
            *resistance += w * s->unit_pa[j * s->nx + i];
            *standing += w * s->memory_pa[j * s->nx + i];
        }
    }
    /* convergence into a mouth much smaller than the depth, which a plane cannot show */
    *resistance +=
        s->k.entry_shape * pb_airflow_sigma(s, s->rho_mouth) / (2.0 * s->ex.machine.tube_bore_m);
}

/* The bay is solved anew when the mouth has moved and every second tick, every fourth while nothing
 * flies: fill moves little in 0.16 s. Density round the mouth, flow and pressures follow each tick.
 */
static int must_solve(const PbSim *s)
{
    int period = s->tufts.count > 0 ? FLYING_PERIOD : STILL_PERIOD;
    return s->tick % period == 0 || s->phase != PB_PHASE_WORKING || !pb_tube_is_inside(s) ||
           s->tube_state.mouth_y_m != s->solved_mouth_y_m;
}

void pb_airflow_step(PbSim *s)
{
    double resistance, standing;
    mouth_kernel(s);
    if (must_solve(s)) {
        pb_airflow_solve(s, &s->hole_conductance);
        s->solved_s = s->tick * PB_TICK_S;
        s->solved_mouth_y_m = pb_tube_is_inside(s) ? s->tube_state.mouth_y_m : -1.0;
        if (s->profile != NULL) {
            s->profile->gas_solves++;
        }
    }
    mouth_means(s, &resistance, &standing);
    if (s->acts.test_left_s > 0.0) {
        resistance = COVERED_PA_S_M3;
    }
    pb_hose_solve_flow(s, resistance, standing);
    set_pressures(s, s->source_norm > 0.0 ? s->hose.flow_m3_s : 0.0);
    s->hole_flow_m3_s = s->hole_conductance * s->gas_pa[pb_hole_cell(s, pb_hole(s))];
}
