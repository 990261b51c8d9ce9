/*
 * Blower, hose and tube as one line, and the material in it.
 * Pressures: P = P0 s^2 (1 - (Q / (s Qmax))^b), wheel speed s, by the fan laws (P ~ s^2, Q ~ s).
 * Losses: Darcy-Weisbach with solids loading, docs/physics/packing.md#hose. Capacity: Rizk's
 * saltation correlation inverted for the mass flow.
 */
#include "sim.h"

#include "core/pb_math.h"
#include "core/units.h"

static const double PLUG_RESISTANCE = 4e7; /* Pa s/m3: no air to speak of gets through a plug */

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

double pb_hose_loss_pa(const PbSim *s, double flow_m3_s)
{
    const PbMachine *m = &s->ex.machine;
    const PbConstants *k = &s->k;
    if (flow_m3_s <= 0.0) {
        return 0.0;
    }
    double hose_area = 0.25 * PB_PI * m->hose_bore_m * m->hose_bore_m;
    double tube_area = 0.25 * PB_PI * m->tube_bore_m * m->tube_bore_m;
    double vh = flow_m3_s / hose_area, vt = flow_m3_s / tube_area;
    double head_h = 0.5 * k->air_density_kg_m3 * vh * vh;
    double head_t = 0.5 * k->air_density_kg_m3 * vt * vt;
    double loading = s->hose.delivery_kg_s / (k->air_density_kg_m3 * flow_m3_s);
    loading = pb_min(loading, k->solids_loading_max);
    double solids = 1.0 + k->solids_loss * loading;
    double dune = pb_min(s->hose.load_kg / k->plug_kg, 0.9);
    double open = 1.0 - dune;
    double dune_loss = 2.0 * (1.0 / (open * open) - 1.0);
    double loss = k->hose_friction * (m->hose_length_m / m->hose_bore_m) * solids * head_h +
                  dune_loss * head_h +
                  (k->tube_friction * (m->tube_length_m / m->tube_bore_m) * solids + k->mouth_loss +
                   k->tuft_acceleration_loss * loading) *
                      head_t;
    if (s->hose.is_plugged) {
        loss += PLUG_RESISTANCE * flow_m3_s;
    }
    return loss;
}

double pb_hose_capacity_kg_s(const PbSim *s, double flow_m3_s)
{
    const PbMachine *m = &s->ex.machine;
    const PbConstants *k = &s->k;
    double area = 0.25 * PB_PI * m->hose_bore_m * m->hose_bore_m;
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

double pb_hose_solve_flow(const PbSim *s, double resistance, double standing_pa)
{
    double lo = 0.0, hi = s->hose.spin * s->ex.machine.open_flow_m3_s;
    /* blower - losses - bay falls as flow rises, so halving always finds the one crossing */
    for (int i = 0; i < 44; i++) {
        double q = 0.5 * (lo + hi);
        double left =
            pb_hose_blower_pa(s, q) - pb_hose_loss_pa(s, q) - q * resistance - standing_pa;
        if (left > 0.0) {
            lo = q;
        } else {
            hi = q;
        }
    }
    return 0.5 * (lo + hi);
}

static void spin_wheel(PbSim *s)
{
    double want = s->hose.is_on ? s->hose.setting : 0.0;
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
        pb_sim_event(s, PB_EVENT_PLUG_CLEARED, s->ex.hole_x_m, s->ex.hole_y_m, h->load_kg);
        h->load_kg = 0.0;
        h->is_plugged = 0;
        h->clear_left_s = 0.0;
    }
}

void pb_hose_step(PbSim *s)
{
    PbHoseState *h = &s->hose;
    const PbMachine *m = &s->ex.machine;
    spin_wheel(s);
    clear_plug(s);
    double v = h->flow_m3_s / (0.25 * PB_PI * m->hose_bore_m * m->hose_bore_m);
    h->limit_kg_s = pb_hose_capacity_kg_s(s, h->flow_m3_s);
    double carried = h->load_kg * s->k.conveying_slip * v / m->hose_length_m;
    double out = pb_min(carried, h->limit_kg_s);
    if (h->is_plugged) {
        out = 0.0;
    }
    out = pb_min(out, h->load_kg / PB_TICK_S);
    /* plug_kg is all that the line holds: the airlock turns against a full one and feeds nothing */
    double feed = h->is_on && !h->is_plugged ? h->feed_kg_s : 0.0;
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
