/*
 * Airborne material: tufts blown from a mouth that is not buried, carried by the jet and the
 * seeping air, bouncing off wood, sticking to fill, falling. Mass leaves here only into cells,
 * openings or the ledger. docs/physics/packing.md#tufts
 */
#include "sim.h"

#include "core/pb_math.h"
#include "core/units.h"

#include <math.h>
#include <string.h>

static const double JET_STOP_KG_M2 = 0.35; /* areal density that kills a jet; assumption */
static const double BOUNCE_WOOD = 0.2;
static const double BOUNCE_FILL = 0.25;
static const double STICK_SPEED_M_S = 3.0;
static const double BURIED_SHARE = 0.6;   /* of the laid density */
static const double WORK_IN_SHARE = 0.02; /* chance a step of pressing into a full cell */
static const double LAID_LIMIT = 1.1;     /* of the laid density: no more lands in a cell */

static double cell_rho(const PbSim *s, int at)
{
    return s->solid.a[at] * s->iphi[at];
}

/* How far the jet comes until wood stops it or it has passed fill enough. */
static double jet_length(const PbSim *s, const PbFlight *f)
{
    double passed = 0.0, length = 0.0, y = f->mouth_y_m;
    while (passed < JET_STOP_KG_M2) {
        y += s->dy * s->tube_state.direction;
        int at = pb_flight_cell(f, f->mouth_x_m, y);
        if (at < 0) {
            break;
        }
        passed += cell_rho(s, at) * s->dy;
        length += s->dy;
    }
    return length;
}

/* All but the length of the jet, which what lands at the mouth changes. */
static PbFlight make_flight(const PbSim *s)
{
    double mouth = s->tube_state.mouth_x_m, all = s->ex.width_m, bore = s->ex.machine.tube_bore_m;
    double left = mouth, right = all - mouth, near = pb_min(left, right);
    int is_close = near < 0.5 * pb_max(left, right);
    return (PbFlight){.phi0 = s->phi0,
                      .gas = s->gas_pa,
                      .sigma = s->sigma,
                      .open_x = s->solid.open_x,
                      .open_y = s->solid.open_y,
                      .a = s->solid.a,
                      .iphi = s->iphi,
                      .opening_at = s->opening_at,
                      .nx = s->nx,
                      .ny = s->ny,
                      .stride = s->stride,
                      .width_m = all,
                      .height_m = s->ex.height_m,
                      .inv_dx = s->inv_dx,
                      .inv_dy = s->inv_dy,
                      .reach_m = 0.9 * pb_min(s->dx, s->dy),
                      .fall_m_s = s->k.tuft_fall_m_s * s->gravity_along / PB_GRAVITY_M_S2,
                      .tuft_fall_m_s = s->k.tuft_fall_m_s,
                      .tau_s = s->k.tuft_fall_m_s / PB_GRAVITY_M_S2,
                      .buried_kg_m3 = BURIED_SHARE * s->k.laid_kg_m3,
                      .is_tilted = s->gravity_across > 0.0,
                      .mouth_x_m = mouth,
                      .mouth_y_m = s->tube_state.mouth_y_m,
                      .bore_m = bore,
                      .jet_speed_m_s = s->hose.flow_m3_s / (0.25 * PB_PI * bore * bore),
                      .jet_way = s->tube_state.direction,
                      .near_m = is_close ? near : HUGE_VAL,
                      .is_right = right < left};
}

/* Gas at a place in this cell, the jet in it. gust as in pb_flight_jet. */
static void gas_at(const PbFlight *f, double x, double y, int at, const double *gust, double *u,
                   double *v)
{
    const int st = f->stride;
    double per = 1.0 / (f->sigma[at] * 2.0);
    *u = pb_flight_drop(f->gas[at], f->gas[at - 1], f->gas[at + 1], f->open_x[at - 1],
                        f->open_x[at]) *
         per * f->inv_dx;
    *v = pb_flight_drop(f->gas[at], f->gas[at - st], f->gas[at + st], f->open_y[at - st],
                        f->open_y[at]) *
         per * f->inv_dy;
    double along = pb_flight_along(f, y);
    if (along >= 0.0 && along < f->jet_length_m) {
        double width = pb_flight_jet_width(f, along), off = pb_flight_jet_off(f, x, width);
        double core = off < JET_FAR ? pb_exp(-off) : 0.0;
        pb_flight_jet(f, x, along, width, core, gust[0], gust[1], u, v);
    }
}

static void launch(PbSim *s, const PbFlight *f, double kg)
{
    PbTufts *t = &s->tufts;
    t->owed_kg += kg;
    double bore = s->ex.machine.tube_bore_m;
    double speed = s->k.conveying_slip * s->hose.flow_m3_s / (0.25 * PB_PI * bore * bore);
    while (t->owed_kg >= s->k.tuft_kg && t->count < t->room) {
        int n = t->count++;
        double r = pb_rng_uniform(&s->rng_scatter);
        t->x[n] = s->tube_state.mouth_x_m + bore * (pb_rng_uniform(&s->rng_scatter) - 0.5);
        t->y[n] = s->tube_state.mouth_y_m;
        t->u[n] = 0.1 * speed * (pb_rng_uniform(&s->rng_scatter) - 0.5);
        t->v[n] = s->tube_state.direction * speed * (0.3 + 0.3 * r);
        t->kg[n] = s->k.tuft_kg;
        t->owed_kg -= s->k.tuft_kg;
    }
    if (t->owed_kg > 20.0 * s->k.tuft_kg) {
        /* the air holds no more tufts than we track: the rest lands round the mouth at once */
        int at = pb_flight_cell(f, f->mouth_x_m, f->mouth_y_m);
        if (at >= 0) {
            pb_fill_add(s, at, t->owed_kg);
            t->owed_kg = 0.0;
        }
    }
}

/* Lay a tuft in the last free cell, or spill to the emptiest neighbour once it is full. Nothing is
 * pressed by landing at once: where no cell has room the tuft mostly stays in the air, and works
 * its way in within a second or two. Returns 1 when laid. */
static int lay(PbSim *s, int at, double kg)
{
    double best = cell_rho(s, at);
    int to = at;
    if (best >= s->k.laid_kg_m3) {
        const int near[4] = {at - 1, at + 1, at - s->stride, at + s->stride};
        for (int i = 0; i < 4; i++) {
            if (s->phi0[near[i]] > 0.0 && cell_rho(s, near[i]) < best) {
                best = cell_rho(s, near[i]);
                to = near[i];
            }
        }
    }
    if (best > LAID_LIMIT * s->k.laid_kg_m3 && pb_rng_uniform(&s->rng_scatter) > WORK_IN_SHARE) {
        return 0;
    }
    pb_fill_add(s, to, kg);
    return 1;
}

static int leaves_by_opening(PbSim *s, int at, double kg)
{
    int o = s->opening_at[at] - 1;
    if (o < 0 || s->acts.is_sealed[o] || s->ex.openings[o].width_m < s->k.loss_width_m) {
        return 0;
    }
    const PbOpening *op = &s->ex.openings[o];
    double size = pb_max((op->x1_m - op->x0_m) * (op->y1_m - op->y0_m), s->dx * s->dy);
    if (pb_rng_uniform(&s->rng_scatter) > pb_min(op->area_m2 / size, 1.0)) {
        return 0;
    }
    s->opening_lost_kg[o] += kg;
    PB_LEDGER_ADD(s, lost_openings_kg, kg);
    return 1;
}

/* One tuft for what is left of a tick. gust as in gas_at. Returns 1 when it is gone from the air.
 */
static int move(PbSim *s, const PbFlight *f, int n, const double *gust, double left)
{
    PbTufts *t = &s->tufts;
    const double settle = s->k.tuft_fall_m_s * s->gravity_across / PB_GRAVITY_M_S2 / s->ex.depth_m;
    while (left > 0.0) {
        int at = pb_flight_cell(f, t->x[n], t->y[n]);
        if (at < 0) {
            at = pb_flight_cell(f, f->mouth_x_m, f->mouth_y_m);
            if (at < 0) {
                PB_LEDGER_ADD(s, lost_hole_kg, t->kg[n]);
            } else {
                pb_fill_add(s, at,
                            t->kg[n]); /* a cell that closed round a tuft: rare, keep the mass */
            }
            return 1;
        }
        double gu, gv;
        gas_at(f, t->x[n], t->y[n], at, gust, &gu, &gv);
        double ru = gu - t->u[n], rv = gv - f->fall_m_s - t->v[n];
        double rel = sqrt(ru * ru + rv * rv);
        double dt = pb_flight_step_s(f, t->u[n], t->v[n], rel, left);
        double share = 1.0 - pb_exp(pb_flight_drag(f, dt, rel));
        t->u[n] += share * ru;
        t->v[n] += share * rv;
        double nx = t->x[n] + t->u[n] * dt, ny = t->y[n] + t->v[n] * dt;
        left -= dt;
        int to = pb_flight_cell(f, nx, ny);
        double speed = sqrt(t->u[n] * t->u[n] + t->v[n] * t->v[n]);
        if (to < 0) {
            if (leaves_by_opening(s, at, t->kg[n])) {
                return 1;
            }
            double stick = 1.0 / (1.0 + (speed / STICK_SPEED_M_S) * (speed / STICK_SPEED_M_S));
            int is_floor =
                ny < t->y[n] && s->gravity_along > 0.0 && pb_flight_cell(f, t->x[n], ny) < 0;
            if (is_floor && pb_rng_uniform(&s->rng_scatter) < stick && lay(s, at, t->kg[n])) {
                return 1;
            }
            if (pb_flight_cell(f, nx, t->y[n]) < 0) {
                t->u[n] *= -BOUNCE_WOOD;
            }
            if (pb_flight_cell(f, t->x[n], ny) < 0) {
                t->v[n] *= -BOUNCE_WOOD;
            }
            continue;
        }
        if (cell_rho(s, to) > f->buried_kg_m3) {
            double stick = 1.0 / (1.0 + (speed / STICK_SPEED_M_S) * (speed / STICK_SPEED_M_S));
            if (pb_rng_uniform(&s->rng_scatter) < stick && lay(s, at, t->kg[n])) {
                return 1;
            }
            t->u[n] *= -BOUNCE_FILL;
            t->v[n] *= -BOUNCE_FILL;
            continue;
        }
        t->x[n] = nx;
        t->y[n] = ny;
        if (leaves_by_opening(s, to, t->kg[n])) {
            return 1;
        }
        /* in a slope or ceiling bay tufts come to rest on the lower face */
        if (settle > 0.0 && speed < STICK_SPEED_M_S &&
            pb_rng_uniform(&s->rng_scatter) < settle * dt && lay(s, to, t->kg[n])) {
            return 1;
        }
    }
    return 0;
}

static void deliver_buried(PbSim *s, double kg_s)
{
    /* tufts take the easy way: less into what is already dense */
    double sum = 0.0, cell_m3 = s->dx * s->dy * s->ex.depth_m;
    for (int at = 0; at < s->cells; at++) {
        if (s->mouth_w[at] > 0.0) {
            double r = cell_rho(s, at) + 5.0;
            s->rate_a[at] = s->mouth_w[at] / (r * r);
            sum += s->rate_a[at];
        }
    }
    for (int at = 0; at < s->cells; at++) {
        if (s->mouth_w[at] > 0.0) {
            s->rate_a[at] *= kg_s / (sum * cell_m3);
        }
    }
}

static void keep(PbTufts *t, int kept, double x, double y, double u, double v, double kg)
{
    t->x[kept] = x;
    t->y[kept] = y;
    t->u[kept] = u;
    t->v[kept] = v;
    t->kg[kept] = kg;
}

/*
 * All tufts for a tick, in their order. They fly side by side on the guess that none of them meets
 * anything; up to the first one that does, and draws for it, the guess was right to the last bit.
 * That one moves alone, and those after it fly anew.
 */
static void move_all(PbSim *s, const PbFlight *f)
{
    PbTufts *t = &s->tufts;
    int kept = 0, n = 0;
    while (n < t->count) {
        double x[PB_FLIGHT] = {0}, y[PB_FLIGHT] = {0}, u[PB_FLIGHT] = {0}, v[PB_FLIGHT] = {0},
               left[PB_FLIGHT], gust[2][PB_FLIGHT] = {{0}};
        PbRng after[PB_FLIGHT] = {{{0}}}, rng = s->rng_scatter;
        int count = t->count - n < PB_FLIGHT ? t->count - n : PB_FLIGHT, is_right = 1;
        for (int i = 0; i < count; i++) {
            x[i] = t->x[n + i];
            y[i] = t->y[n + i];
            u[i] = t->u[n + i];
            v[i] = t->v[n + i];
            gust[0][i] = 2.0 * pb_rng_uniform(&rng) - 1.0;
            gust[1][i] = 2.0 * pb_rng_uniform(&rng) - 1.0;
            after[i] = rng;
        }
        unsigned met = s->kernels->tufts_fly(f, x, y, u, v, left, gust[0], gust[1], count);
        for (int i = 0; i < count && is_right; i++, n++) {
            s->rng_scatter = after[i];
            keep(t, kept, x[i], y[i], u[i], v[i], t->kg[n]);
            if ((met >> i & 1u) == 0u) {
                kept++;
            } else if (move(s, f, kept, (const double[2]){gust[0][i], gust[1][i]}, left[i])) {
                is_right = 0;
            } else {
                kept++;
                is_right = memcmp(&s->rng_scatter, &after[i], sizeof after[i]) == 0;
            }
        }
    }
    t->count = kept;
}

void pb_tufts_step(PbSim *s)
{
    for (int at = 0; at < s->cells; at++) {
        s->rate_a[at] = 0.0;
    }
    PbFlight f = make_flight(s);
    double kg = s->hose.delivery_kg_s * PB_TICK_S;
    s->delivered_kg += kg;
    double dust = (s->dust_leak_kg_s + s->dust_hole_kg_s) * PB_TICK_S;
    if (pb_tube_is_inside(s) && dust < kg) {
        PB_LEDGER_ADD(s, lost_leaks_kg, s->dust_leak_kg_s * PB_TICK_S);
        PB_LEDGER_ADD(s, lost_hole_kg, s->dust_hole_kg_s * PB_TICK_S);
        kg -= dust;
    }
    if (!pb_tube_is_inside(s)) {
        PB_LEDGER_ADD(s, lost_outside_kg, kg);
    } else if (s->rho_mouth > BURIED_SHARE * s->k.laid_kg_m3) {
        deliver_buried(s, (kg + s->tufts.owed_kg) / PB_TICK_S);
        s->tufts.owed_kg = 0.0;
    } else {
        launch(s, &f, kg);
    }
    f.jet_length_m = jet_length(s, &f);
    move_all(s, &f);
}
