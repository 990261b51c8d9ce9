/*
 * Material that leaves the bay: through openings wide enough for tufts, through the hole when the
 * tube is out, and as dust through cracks. Speed of outflow is Darcy-like, from gas and lateral
 * stress against the strength of the free face; loose fill over a bottom opening simply falls.
 */
#include "sim.h"

#include "core/pb_math.h"
#include "core/units.h"

#include <math.h>

static const double OUTFLOW_CAP_M_S = 0.6;
static const double OUTFLOW_MOBILITY = 3e-5; /* m3 s/kg, as the cap of the fill's mobility */
static const double FALL_OUT_M_S = 0.5;
static const double RUNAWAY_KG = 0.25;
static const double BLOW_BACK_KG = 0.01;
static const double DUST_SHARE_MAX = 0.05; /* of what is delivered */
/* Fill that comes out of the hole is told from 2 g/s on, a tenth of what a slow gate feeds and ten
 * times the dust round a tube, until a quarter of that; smoothed, so that one gust is no news. */
static const double SPILL_FROM_KG_S = 0.002;
static const double SPILL_UNTIL_KG_S = 0.0005;
static const double SPILL_SMOOTH_S = 0.4;

/* Take up to the asked mass, at most half of what the cell has. Returns what was taken. */
static double take(PbSim *s, int at, double kg)
{
    double cell_m3 = s->dx * s->dy * s->ex.depth_m;
    double have = s->solid.a[at] * cell_m3;
    double out = pb_min(kg, 0.5 * have);
    if (!(out > 0.0)) {
        return 0.0;
    }
    double keep = 1.0 - out / have;
    s->solid.a[at] *= keep;
    s->solid.b[at] *= keep;
    PB_LEDGER_ADD(s, in_bay_kg, -(out));
    return out;
}

static double outflow_speed(const PbSim *s, int at)
{
    double push = s->gas_pa[at] + s->k.lateral_ratio * s->solid.p[at] - s->fibre_hold[at];
    double v = OUTFLOW_MOBILITY * pb_max(push, 0.0) / (0.5 * s->ex.depth_m);
    return pb_min(v, OUTFLOW_CAP_M_S);
}

static void one_opening(PbSim *s, int o, int cells)
{
    const PbOpening *op = &s->ex.openings[o];
    int is_low = op->y0_m <= s->dy && s->gravity_along > 0.0;
    double lost = 0.0;
    for (int at = 0; at < s->cells; at++) {
        if (s->opening_at[at] != o + 1) {
            continue;
        }
        double rho = s->solid.a[at] * s->iphi[at];
        double v = outflow_speed(s, at);
        if (is_low && s->solid.p[at] < s->fibre_hold[at] + 1.0) {
            v = pb_max(v, FALL_OUT_M_S * s->gravity_along / PB_GRAVITY_M_S2);
        }
        lost += take(s, at, rho * v * op->area_m2 / cells * PB_TICK_S);
    }
    s->opening_lost_kg[o] += lost;
    PB_LEDGER_ADD(s, lost_openings_kg, lost);
    if (s->opening_lost_kg[o] > RUNAWAY_KG && !(s->is_runaway_said & (1 << o))) {
        s->is_runaway_said |= 1 << o;
        pb_sim_event(s, PB_EVENT_RUNAWAY, 0.5 * (op->x0_m + op->x1_m), 0.5 * (op->y0_m + op->y1_m),
                     s->opening_lost_kg[o]);
    }
}

/* What an open hole lets out into the room. @return kg */
static double out_of_hole(PbSim *s, const PbHole *hole)
{
    double r = 0.5 * hole->bore_m, lost = 0.0;
    int cells = 0;
    for (int j = 0; j < s->ny; j++) {
        double ey = s->dy * (j + 0.5) - hole->y_m;
        for (int i = 0; i < s->nx && fabs(ey) < r + s->dy; i++) {
            double ex = s->dx * (i + 0.5) - hole->x_m;
            int at = pb_at(s, i, j);
            if (ex * ex + ey * ey < r * r && s->phi0[at] > 0.0) {
                double rho = s->solid.a[at] * s->iphi[at];
                lost += take(s, at, rho * outflow_speed(s, at) * s->dx * s->dy * PB_TICK_S);
                cells++;
            }
        }
    }
    if (cells == 0) { /* a hole between the middles of coarse cells */
        int at = pb_hole_cell(s, hole);
        double rho = s->solid.a[at] * s->iphi[at];
        lost = take(s, at, rho * outflow_speed(s, at) * PB_PI * r * r * PB_TICK_S);
    }
    PB_LEDGER_ADD(s, lost_hole_kg, lost);
    return lost;
}

static void blow_back(PbSim *s)
{
    const PbHole *at = pb_hole(s);
    double lost = 0.0;
    int is_open = 0;
    for (int h = 0; h < s->ex.hole_count; h++) {
        int is_bare = h == s->acts.hole && !pb_tube_is_inside(s);
        if (s->phase == PB_PHASE_WORKING && (is_bare || pb_act_is_hole_open(s, h))) {
            double out = out_of_hole(s, &s->ex.holes[h]);
            at = out > 0.0 ? &s->ex.holes[h] : at;
            lost += out;
            is_open = 1;
        }
    }
    if (!is_open) {
        s->is_blow_back_said = 0;
        return;
    }
    s->hole.blown_back_kg += lost;
    if (s->hole.blown_back_kg > BLOW_BACK_KG && !s->is_blow_back_said) {
        s->is_blow_back_said = 1;
        pb_sim_event(s, PB_EVENT_BLOW_BACK, at->x_m, at->y_m, s->hole.blown_back_kg);
        s->hole.blown_back_kg = 0.0;
    }
}

/* Follow an account of the ledger as a rate. @return nonzero while it counts as flowing */
static int follow(double total_kg, double *seen_kg, double *kg_s, int was_flowing)
{
    double now = (total_kg - *seen_kg) / PB_TICK_S;
    *seen_kg = total_kg;
    *kg_s += (now - *kg_s) * (PB_TICK_S / SPILL_SMOOTH_S);
    return *kg_s > (was_flowing ? SPILL_UNTIL_KG_S : SPILL_FROM_KG_S);
}

static void watch_hole(PbSim *s)
{
    PbHoleState *h = &s->hole;
    const PbLedger *l = &s->ledger;
    int was_fed_outside = h->is_fed_outside;
    h->is_spilling =
        follow(l->lost_hole_kg + l->lost_outside_kg, &h->seen_kg, &h->kg_s, h->is_spilling);
    h->is_fed_outside = follow(l->lost_outside_kg, &h->seen_fed_kg, &h->fed_kg_s, was_fed_outside);
    if (h->is_fed_outside && !was_fed_outside) {
        pb_sim_event(s, PB_EVENT_FEED_OUTSIDE, pb_hole(s)->x_m, pb_hole(s)->y_m, h->fed_kg_s);
    }
}

/* Dust rides on leaking air while material is being delivered; it is held back from the next
 * tick's delivery, so the ledger stays exact. */
static void dust(PbSim *s)
{
    int is_flowing = s->hose.delivery_kg_s > 0.0 && pb_tube_is_inside(s);
    double total = 0.0;
    for (int at = 0; at < s->cells; at++) {
        double p = s->gas_pa[at];
        double kg_s = 0.0;
        if (is_flowing && p > 0.0 && s->leak[at] > 0.0) {
            kg_s = s->k.leak_dust_kg_m3 * s->leak[at] * sqrt(p) * s->dust_scale * s->dx * s->dy;
        }
        s->leak_kg_s[at] = kg_s;
        total += kg_s;
    }
    double ring = is_flowing ? pb_max(s->hole_flow_m3_s, 0.0) * s->k.leak_dust_kg_m3 : 0.0;
    double cap = DUST_SHARE_MAX * s->hose.delivery_kg_s;
    double scale = total + ring > cap && total + ring > 0.0 ? cap / (total + ring) : 1.0;
    s->dust_leak_kg_s = total * scale;
    s->dust_hole_kg_s = ring * scale;
}

void pb_openings_step(PbSim *s)
{
    int cells[PB_MAX_OPENINGS] = {0};
    for (int at = 0; s->ex.opening_count > 0 && at < s->cells; at++) {
        if (s->opening_at[at] > 0) {
            cells[s->opening_at[at] - 1]++;
        }
    }
    for (int o = 0; o < s->ex.opening_count; o++) {
        if (cells[o] > 0 && !s->acts.is_sealed[o] &&
            s->ex.openings[o].width_m >= s->k.loss_width_m) {
            one_opening(s, o, cells[o]);
        }
    }
    blow_back(s);
    watch_hole(s);
    dust(s);
}
