/*
 * Blower, hose and tube as one line, and the material in it.
 * Pressures: P = P0 s^2 (1 - (Q / (s Qmax))^b), wheel speed s, by the fan laws (P ~ s^2, Q ~ s).
 * Losses: Darcy-Weisbach with solids loading, docs/physics/packing.md#hose. Capacity: Rizk's
 * saltation correlation inverted for the mass flow.
 *
 * The stall: what the fill at the mouth does not take comes to rest in the line, first as a dune
 * that narrows it and stops what comes after, then as a slug through which air only seeps. So the
 * flow falls, so less is carried: within one to three seconds the line is still and the machine
 * labours. With the mouth pulled free the slug is blown out; left alone it grows until it is a
 * plug. docs/physics/packing.md#stall
 */
#include "sim.h"

#include "core/pb_math.h"
#include "core/units.h"

#include <math.h>

static const double PLUG_RESISTANCE = 4e7; /* Pa s/m3: no air to speak of gets through a plug */
static const double LEAST_SLUG_KG = 1e-6;  /* less is nothing */
static const double BLOW_OUT_S = 0.3; /* time constant of a slug that goes out of a free mouth */

double pb_hose_blower_pa(const PbSim *s, double flow_m3_s)
{
    const PbMachine *m = &s->ex.machine;
    double spin = s->hose.spin;
    if (spin <= 1e-4) {
        return 0.0;
    }
    double x = flow_m3_s / (spin * m->open_flow_m3_s);
    double curve = m->curve_exponent == 1.0 ? x : pb_pow(x, m->curve_exponent);
    return m->static_pa * spin * spin * (1.0 - curve);
}

static double hose_area_m2(const PbSim *s)
{
    return 0.25 * PB_PI * s->ex.machine.hose_bore_m * s->ex.machine.hose_bore_m;
}

/* Material that closes the section: a slug some bores long. Less is a dune with a gap over it. */
static double closing_kg(const PbSim *s)
{
    return s->k.slug_kg_m3 * hose_area_m2(s) * s->ex.machine.hose_bore_m * s->k.dune_bores;
}

/* What slug_kg at rest costs. Two ways side by side: through it by Darcy with the resistivity of
 * fill, Q_s = dP / R; over it, while there is a gap, Q_o = sqrt(dP / B), the head that the gap's
 * speed takes and does not give back. */
static double slug_pa(const PbSim *s, double flow_m3_s, double slug_kg)
{
    if (slug_kg <= 0.0) {
        return 0.0;
    }
    double area = hose_area_m2(s), rho = s->k.slug_kg_m3, full = closing_kg(s);
    double r = pb_airflow_sigma(s, rho) * pb_max(slug_kg, full) / (rho * area * area);
    double shut = slug_kg / full;
    if (shut >= 1.0) {
        return r * flow_m3_s;
    }
    /* dP / (R / shut) + sqrt(dP / B) = Q, solved for sqrt(dP) so that nothing cancels */
    double gap = 1.0 - shut;
    double over = 2.0 * area * area * gap * gap / (s->k.air_density_kg_m3 * shut * (1.0 + gap));
    double root = 2.0 * flow_m3_s / (sqrt(over) + sqrt(over + 4.0 * flow_m3_s * shut / r));
    return root * root;
}

static double loss_pa(const PbSim *s, double flow_m3_s, double delivery_kg_s, double slug_kg)
{
    const PbMachine *m = &s->ex.machine;
    const PbConstants *k = &s->k;
    if (flow_m3_s <= 0.0) {
        return 0.0;
    }
    double hose_area = hose_area_m2(s);
    double tube_area = 0.25 * PB_PI * m->tube_bore_m * m->tube_bore_m;
    double vh = flow_m3_s / hose_area, vt = flow_m3_s / tube_area;
    double head_h = 0.5 * k->air_density_kg_m3 * vh * vh;
    double head_t = 0.5 * k->air_density_kg_m3 * vt * vt;
    double loading = delivery_kg_s / (k->air_density_kg_m3 * flow_m3_s);
    loading = pb_min(loading, k->solids_loading_max);
    double solids = 1.0 + k->solids_loss * loading;
    double loss = k->hose_friction * (m->hose_length_m / m->hose_bore_m) * solids * head_h +
                  (k->tube_friction * (m->tube_length_m / m->tube_bore_m) * solids + k->mouth_loss +
                   k->tuft_acceleration_loss * loading) *
                      head_t +
                  slug_pa(s, flow_m3_s, slug_kg);
    if (s->hose.is_plugged) {
        loss += PLUG_RESISTANCE * flow_m3_s;
    }
    return loss;
}

double pb_hose_loss_pa(const PbSim *s, double flow_m3_s)
{
    return loss_pa(s, flow_m3_s, s->hose.delivery_kg_s, s->hose.slug_kg);
}

double pb_hose_capacity_kg_s(const PbSim *s, double flow_m3_s)
{
    const PbMachine *m = &s->ex.machine;
    const PbConstants *k = &s->k;
    double area = hose_area_m2(s);
    double v = flow_m3_s / area;
    if (v <= 0.0) {
        return 0.0;
    }
    /* damp tufts clump: they count as larger ones */
    double d = k->tuft_size_m * (1.0 + k->damp_plug_factor * s->ex.damp_frac);
    double chi = k->saltation_slope * d + 2.5;
    double delta = k->saltation_delta_slope * d + 1.96;
    double log_w = (chi + 1.0) * pb_log(v) - delta * 2.302585092994046 -
                   0.5 * chi * pb_log(PB_GRAVITY_M_S2 * m->hose_bore_m);
    return k->air_density_kg_m3 * area * pb_exp(log_w);
}

static double solve_flow(const PbSim *s, double delivery_kg_s, double slug_kg, double resistance,
                         double standing_pa)
{
    double lo = 0.0, hi = s->hose.spin * s->ex.machine.open_flow_m3_s;
    /* blower - losses - bay falls as flow rises, so halving always finds the one crossing */
    for (int i = 0; i < 44; i++) {
        double q = 0.5 * (lo + hi);
        double left = pb_hose_blower_pa(s, q) - loss_pa(s, q, delivery_kg_s, slug_kg) -
                      q * resistance - standing_pa;
        if (left > 0.0) {
            lo = q;
        } else {
            hi = q;
        }
    }
    return 0.5 * (lo + hi);
}

void pb_hose_solve_flow(PbSim *s, double resistance, double standing_pa)
{
    PbHoseState *h = &s->hose;
    double flow = solve_flow(s, h->delivery_kg_s, h->slug_kg, resistance, standing_pa);
    h->free_flow_m3_s =
        h->slug_kg > 0.0 ? solve_flow(s, h->feed_kg_s, 0.0, resistance, standing_pa) : flow;
    /* a mouth pushed into fill chokes at once; air in the hose is slow only to speed up */
    h->flow_m3_s += (flow < h->flow_m3_s ? 1.0 : 0.5) * (flow - h->flow_m3_s);
    if (h->spin <= 0.0) {
        h->flow_m3_s = 0.0;
    }
    h->mouth_pa = h->flow_m3_s * resistance + standing_pa;
    h->outlet_pa = pb_max(pb_hose_blower_pa(s, h->flow_m3_s), 0.0);
}

static void spin_wheel(PbSim *s)
{
    double set = s->acts.test_left_s > 0.0 ? 1.0 : s->hose.setting; /* a test is at full air */
    double want = s->hose.is_on ? set : 0.0;
    /* starting is quick, running down is slow: a motor pulls harder than bearings brake */
    double tau = want > s->hose.spin ? 0.4 : s->k.blower_run_down_s;
    s->hose.spin += (want - s->hose.spin) * (1.0 - pb_exp(-PB_TICK_S / tau));
    if (s->hose.spin < 1e-3 && want <= 0.0) {
        s->hose.spin = 0.0;
    }
}

static void clear_plug(PbSim *s)
{
    PbHoseState *h = &s->hose;
    if (h->clear_left_s <= 0.0) {
        return;
    }
    h->clear_left_s -= PB_TICK_S;
    if (h->clear_left_s <= 0.0) {
        PB_LEDGER_ADD(s, cleared_kg, h->load_kg);
        pb_sim_event(s, PB_EVENT_PLUG_CLEARED, pb_hole(s)->x_m, pb_hole(s)->y_m, h->load_kg);
        h->load_kg = 0.0;
        h->slug_kg = 0.0;
        h->is_plugged = 0;
        h->clear_left_s = 0.0;
    }
}

/* Share of what arrives that the fill round the mouth takes: all while the momentum of the jet, air
 * and material together, pushes harder than that fill resists being pressed by the compaction law;
 * less above, none above 1 + mouth_closing. A shut mouth opens again at 1 / mouth_reopen.
 * @param[in] press 1, or mouth_reopen to ask whether a shut mouth would open */
static double taken_share(const PbSim *s, double flow_m3_s, double carried_kg_s, double press)
{
    const PbConstants *k = &s->k;
    double rho = s->past_mouth, rest = k->rest_kg_m3;
    if (rho <= rest) {
        return 1.0;
    }
    double resists_pa = press * s->cv * (rho * rho * rho - rest * rest * rest);
    double tube_m2 = 0.25 * PB_PI * s->ex.machine.tube_bore_m * s->ex.machine.tube_bore_m;
    double speed = flow_m3_s / tube_m2;
    double momentum_n =
        (k->air_density_kg_m3 * flow_m3_s + k->conveying_slip * carried_kg_s) * speed;
    double push_pa = k->mouth_thrust * momentum_n / tube_m2;
    if (push_pa <= 0.0) {
        return 0.0;
    }
    return pb_limit(1.0 + (1.0 - resists_pa / push_pa) / k->mouth_closing, 0.0, 1.0);
}

/* The air of the line without the slug would move its material, and the mouth would take it. */
static int is_slug_going(const PbSim *s, double carried_kg_s, double picked_up_kg_s)
{
    const PbHoseState *h = &s->hose;
    double flow = h->free_flow_m3_s / s->k.pickup_ratio;
    double would_carry = pb_min(h->feed_kg_s, picked_up_kg_s);
    return picked_up_kg_s > carried_kg_s &&
           taken_share(s, flow, would_carry, s->k.mouth_reopen) >= 1.0;
}

/* What leaves the mouth, kg/s. What the air cannot carry stays in a clear line, thin on the floor
 * of the hose. With a dune in the line it creeps up to it and joins, as does what the mouth does
 * not take and what lands on the dune: of what comes past, the share of the section that is shut.
 */
static double convey(PbSim *s)
{
    PbHoseState *h = &s->hose;
    double v = h->flow_m3_s / hose_area_m2(s);
    double arrives =
        (h->load_kg - h->slug_kg) * s->k.conveying_slip * v / s->ex.machine.hose_length_m;
    double carried = pb_min(arrives, pb_hose_capacity_kg_s(s, h->flow_m3_s));
    double picked_up = pb_hose_capacity_kg_s(s, h->free_flow_m3_s / s->k.pickup_ratio);
    if (h->slug_kg > 0.0 && is_slug_going(s, carried, picked_up)) {
        double blown = pb_min(picked_up - carried, h->slug_kg / BLOW_OUT_S);
        h->slug_kg -= blown * PB_TICK_S;
        h->slug_kg = h->slug_kg < LEAST_SLUG_KG ? 0.0 : h->slug_kg;
        return carried + blown;
    }
    double gap = pb_max(1.0 - h->slug_kg / closing_kg(s), 0.0);
    double out = carried * gap * taken_share(s, h->flow_m3_s, carried, 1.0);
    if (h->slug_kg > 0.0) {
        h->slug_kg += (arrives - out) * PB_TICK_S;
    } else if (out < carried) {
        h->slug_kg = (carried - out) * PB_TICK_S;
    }
    return out;
}

void pb_hose_step(PbSim *s)
{
    PbHoseState *h = &s->hose;
    spin_wheel(s);
    clear_plug(s);
    double out = h->is_plugged ? 0.0 : convey(s);
    out = pb_min(out, h->load_kg / PB_TICK_S);
    /* plug_kg is all that the line holds: the airlock turns against a full one and feeds nothing */
    double feed = h->is_on && !h->is_plugged && s->acts.test_left_s <= 0.0 ? h->feed_kg_s : 0.0;
    h->load_kg += (feed - out) * PB_TICK_S;
    h->delivery_kg_s = out;
    PB_LEDGER_ADD(s, fed_kg, feed * PB_TICK_S);
    if (!h->is_plugged && h->load_kg > s->k.plug_kg) {
        h->is_plugged = 1;
        s->plugs++;
        pb_sim_event(s, PB_EVENT_PLUG, s->tube_state.mouth_x_m, s->tube_state.mouth_y_m,
                     h->load_kg);
    }
}
