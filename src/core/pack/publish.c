/* From the padded state to the view: what screens, sounds and files may see. */
#include "sim.h"

#include "core/pb_math.h"

#include <math.h>

static void publish_fields(PbSim *s)
{
    for (int j = 0; j < s->ny; j++) {
        for (int i = 0; i < s->nx; i++) {
            int at = pb_at(s, i, j), k = j * s->nx + i;
            double rho = s->solid.a[at] * s->iphi[at];
            s->out_density[k] = rho;
            s->out_past[k] =
                s->solid.a[at] > 1e-12 ? pb_max(s->solid.b[at] / s->solid.a[at], rho) : 0.0;
            s->out_gas[k] = s->gas_pa[at];
            s->out_phi[k] = s->phi[at];
            s->out_bow[k] = s->bow_m[at];
            s->out_load[k] = s->load_pa[at];
            s->out_leak[k] = s->leak_kg_s[at];
        }
    }
    for (int n = 0; n < s->tufts.count; n++) {
        PbTuft t = {(float)s->tufts.x[n], (float)s->tufts.y[n], (float)s->tufts.u[n],
                    (float)s->tufts.v[n]};
        s->tufts.shown[n] = t;
    }
}

static void publish_signals(PbSim *s)
{
    PbSignals *g = &s->view.signals;
    const PbHoseState *h = &s->hose;
    const PbMachine *m = &s->ex.machine;
    double share = h->spin > 0.0 ? h->flow_m3_s / (h->spin * m->open_flow_m3_s) : 0.0;
    double lively = s->hose.feed_kg_s > 0.0 ? h->delivery_kg_s / s->hose.feed_kg_s : 0.0;
    g->time_s = s->tick * PB_TICK_S;
    g->blower_pa = h->outlet_pa;
    g->flow_m3_s = h->flow_m3_s;
    g->blower_setting = h->setting;
    /* an unloaded wheel runs faster: less air through it is less work */
    g->blower_speed = h->spin * (1.0 + 0.3 * (1.0 - pb_limit(share, 0.0, 1.0)));
    g->feed_set_kg_s = h->feed_kg_s;
    g->hose_load_kg = h->load_kg;
    g->hose_pulse = h->is_plugged ? 0.0 : pb_limit(lively, 0.0, 1.0) * pb_min(1.0, h->spin * 2.0);
    g->rattle = pb_limit(PB_RATTLE_FULL * h->delivery_kg_s / m->feed_max_kg_s, 0.0, 1.0);
    g->tube_in_m = s->tube_state.in_m;
    g->direction = s->tube_state.direction;
    g->push_back_n = s->tube_state.force_share * s->k.hand_force_n;
    g->leak_hiss = pb_limit(s->leak_flow_m3_s / m->open_flow_m3_s, 0.0, 1.0);
    double over = s->panel.peak_pa / s->panel.peak_strength_pa;
    g->creak = pb_limit((over - s->k.creak_share) / (1.0 - s->k.creak_share), 0.0, 1.0);
    g->bags_used = s->ledger.fed_kg / s->ex.bag_kg;
    g->machine_on = h->is_on;
    g->plugged = h->is_plugged;
    g->clear_left_s = h->clear_left_s;
    g->spill_kg_s = s->hole.kg_s;
    g->spilling = s->hole.is_spilling;
    pb_act_publish(s, &g->acts);
    g->dust_at_hole = pb_limit(s->dust_hole_kg_s / 1e-4, 0.0, 1.0);
}

void pb_sim_publish(PbSim *s)
{
    publish_fields(s);
    publish_signals(s);
    PbView *v = &s->view;
    v->exercise = &s->ex;
    v->phase = s->phase;
    v->tick = s->tick;
    v->time_s = s->tick * PB_TICK_S;
    s->ledger.in_hose_kg = s->hose.load_kg;
    s->ledger.airborne_kg = s->tufts.owed_kg;
    for (int n = 0; n < s->tufts.count; n++) {
        s->ledger.airborne_kg += s->tufts.kg[n];
    }
    v->ledger = s->ledger;
    v->nx = s->nx;
    v->ny = s->ny;
    v->dx_m = s->dx;
    v->dy_m = s->dy;
    v->density_kg_m3 = s->out_density;
    v->density_past_kg_m3 = s->out_past;
    v->gas_pa = s->out_gas;
    v->free_frac = s->out_phi;
    v->bow_m = s->out_bow;
    v->load_pa = s->out_load;
    v->leak_kg_s = s->out_leak;
    v->tufts = s->tufts.shown;
    v->tuft_count = s->tufts.count;
    v->mouth_x_m = s->tube_state.mouth_x_m;
    v->mouth_y_m = s->tube_state.mouth_y_m;
    v->mouth_pa = s->hose.mouth_pa;
    v->delivery_kg_s = s->hose.delivery_kg_s;
    v->best_flow_m3_s = s->stop.best_flow_m3_s;
    v->tube_speed_m_s = s->tube_state.speed_m_s;
    v->panel_peak_pa = s->panel.peak_pa;
    v->panel_peak_x_m = s->panel.peak_x_m;
    v->panel_peak_y_m = s->panel.peak_y_m;
    v->panel_strength_pa = s->panel.peak_strength_pa;
    v->panel_expected_pa = s->panel.expected_pa;
    v->panel_heaviest_pa = s->panel.heaviest_pa;
    v->panel_heaviest_y_m = s->panel.heaviest_y_m;
    v->panel_worst_over_strength = s->panel.worst_over;
    v->bow_max_m = 0.0;
    for (int k = 0; k < s->nx * s->ny; k++) {
        v->bow_max_m = pb_max(v->bow_max_m, s->out_bow[k]);
    }
    for (int o = 0; o < PB_MAX_OPENINGS; o++) {
        v->opening_lost_kg[o] = s->opening_lost_kg[o];
    }
    v->lifts = s->lifts;
    v->lift_count = s->stop.lift_count;
}
