/*
 * One tick, top to bottom. Each line of pb_sim_step is a stage with its own file; nothing is
 * hidden elsewhere. Commands in, events and a view out.
 *
 * What each stage writes, and what it reads of the others. A star: as the tick before left it.
 *
 *   apply     what the hands set in hose and tube_state
 *   tube      tube_state, tube (its share of the cells)      hose.mouth_pa*, solid.p*
 *   grid      phi, iphi                                      tube, bow_m*
 *   hose      spin, load, slug, delivery, plugs              hose.flow_m3_s*, past_mouth*
 *   airflow   mouth_w, rho_mouth, past_mouth, air_x, air_y,  phi, delivery, slug, sigma*; solves
 *             leak_now, gas_pa, hole_flow; through           every second or fourth tick, else
 *             pb_hose_solve_flow the flow and the pressures  unit_pa and memory_pa stand
 *             of hose
 *   tufts     tufts, rate_a and fed_cells (what lands),      gas_pa, mouth_w, rho_mouth, delivery,
 *             delivered_kg                                   sigma*, dust_leak_kg_s*,
 * dust_hole_kg_s* fill      solid, sigma, mobility, fibre_hold; empties    rate_a, gas_pa, iphi
 *             fed_cells
 *   slump     solid                                          phi, iphi
 *   openings  solid (what runs out), hole, leak_kg_s, dust_* gas_pa, hole_flow, fibre_hold
 *   panel     load_pa, bow_m, panel; when the face breaks    gas_pa, solid.p
 *             also solid, phase and hose.is_on
 *   lifts     stop, lifts, stalls                            delivery, flow, delivered_kg, solid.a
 *
 * The ledger is written by whoever moves material: hose, tufts, fill, openings, panel.
 */
#include "sim.h"

#include "core/marks.h"
#include "core/pb_math.h"
#include "core/units.h"

#include <math.h>
#include <string.h>

static const double BLED_SPIN = 0.1;
static const double BLEED_S = 3.0; /* after the wheel has stopped and the tube is out */

void pb_sim_event(PbSim *s, PbEventKind kind, double x_m, double y_m, double value)
{
    if (s->event_count < PB_MAX_EVENTS) {
        PbEvent e = {kind, s->tick, x_m, y_m, value};
        s->events[s->event_count++] = e;
    }
}

static int is_sane(const PbSim *s, const PbCommand *c)
{
    double lo = 0.0, hi = 1.0;
    switch (c->kind) {
    case PB_COMMAND_TUBE_TARGET:
        lo = -1.0;
        hi = 20.0;
        break;
    case PB_COMMAND_TUBE_RATE:
        lo = -5.0;
        hi = 5.0;
        break;
    case PB_COMMAND_TURN:
        return c->value == 1.0 || c->value == -1.0;
    case PB_COMMAND_BLOWER:
        break;
    case PB_COMMAND_FEED:
        hi = s->ex.machine.feed_max_kg_s;
        break;
    case PB_COMMAND_MACHINE:
        return c->value == 0.0 || c->value == 1.0;
    case PB_COMMAND_CLEAR_PLUG:
    case PB_COMMAND_FINISH:
        return isfinite(c->value);
    case PB_COMMAND_MARK:
        lo = -1e9;
        hi = 1e9;
        break;
    default:
        return pb_act_is_sane(s, c);
    }
    return c->value >= lo && c->value <= hi;
}

/* Nobody starts a machine whose hose is open in somebody's hands. */
static void switch_machine(PbSim *s, int on)
{
    if (on && s->hose.clear_left_s > 0.0) {
        pb_sim_event(s, PB_EVENT_LOCKED_OUT, pb_hole(s)->x_m, pb_hole(s)->y_m,
                     s->hose.clear_left_s);
        return;
    }
    if (s->acts.test_left_s > 0.0 && on) {
        pb_sim_event(s, PB_EVENT_ACT_REFUSED, pb_hole(s)->x_m, pb_hole(s)->y_m, PB_REFUSED_TESTING);
        return;
    }
    s->acts.test_left_s = 0.0; /* off in the middle of a test: it read nothing */
    s->hose.is_on = on;
}

static void clear_plug(PbSim *s)
{
    if (s->hose.is_on || !s->hose.is_plugged) {
        pb_sim_event(s, PB_EVENT_CLEAR_REFUSED, pb_hole(s)->x_m, pb_hole(s)->y_m, s->hose.is_on);
    } else if (s->hose.clear_left_s <= 0.0) {
        s->hose.clear_left_s = s->k.clear_plug_s;
    }
}

void pb_sim_finish(PbSim *s)
{
    s->phase = PB_PHASE_BLEEDING;
    s->hose.is_on = 0;
    s->acts.test_left_s = 0.0;
    s->tube_state.follows_target = 0;
    s->tube_state.rate_m_s = 0.0;
}

static void apply(PbSim *s, const PbCommand *c)
{
    PbTubeState *t = &s->tube_state;
    switch (c->kind) {
    case PB_COMMAND_TUBE_TARGET:
        t->follows_target = 1;
        t->target_m = c->value;
        break;
    case PB_COMMAND_TUBE_RATE:
        t->follows_target = 0;
        t->rate_m_s = c->value;
        break;
    case PB_COMMAND_TURN:
        if (pb_tube_turn(s, (int)c->value) && t->follows_target) {
            t->target_m = t->in_m;
        }
        break;
    case PB_COMMAND_BLOWER:
        s->hose.setting = c->value;
        break;
    case PB_COMMAND_FEED:
        s->hose.feed_kg_s = c->value;
        break;
    case PB_COMMAND_MACHINE:
        switch_machine(s, c->value > 0.5);
        break;
    case PB_COMMAND_CLEAR_PLUG:
        clear_plug(s);
        break;
    case PB_COMMAND_FINISH:
        pb_sim_finish(s);
        break;
    case PB_COMMAND_MARK: /* nothing of the bay hangs on it */
        if (pb_mark_checks_skipped(c->value) > 0 || pb_mark_is_power_on(c->value)) {
            pb_sim_event(s, PB_EVENT_SAFETY, pb_hole(s)->x_m, pb_hole(s)->y_m, c->value);
        }
        break;
    default:
        pb_act_apply(s, c);
        break;
    }
}

static void end_when_bled(PbSim *s)
{
    if (s->phase == PB_PHASE_WORKING && s->tick * PB_TICK_S >= s->ex.time_limit_s) {
        pb_sim_finish(s);
    }
    if (s->phase != PB_PHASE_BLEEDING) {
        return;
    }
    if (s->hose.spin < BLED_SPIN) {
        /* only now: a tube pulled out under pressure lets the bay blow back */
        s->tube_state.follows_target = 1;
        s->tube_state.target_m = -0.05;
    }
    int is_quiet = s->hose.spin < 0.02 && !pb_tube_is_inside(s) && s->tufts.count == 0;
    s->bleed_s = is_quiet ? s->bleed_s + PB_TICK_S : 0.0;
    if (s->bleed_s >= BLEED_S) {
        s->phase = PB_PHASE_DONE;
        s->hose.spin = 0.0;
        pb_sim_event(s, PB_EVENT_FINISHED, pb_hole(s)->x_m, pb_hole(s)->y_m, s->tick * PB_TICK_S);
    }
}

double pb_sim_mass_kg(const PbSim *s)
{
    double sum = 0.0;
    for (int at = 0; at < s->cells; at++) {
        sum += s->solid.a[at];
    }
    return sum * s->dx * s->dy * s->ex.depth_m;
}

/* Material is summed once a second and when the run is over; then lost numbers are looked for at
 * once, since no tick comes after it that would. */
static PbStatus check_balance(const PbSim *s)
{
    int is_over = s->phase == PB_PHASE_DONE || s->phase == PB_PHASE_BLOWN_OUT;
    if (is_over && !pb_balance_is_finite(s)) {
        return PB_ERR_DIVERGED;
    }
    return (is_over || s->tick % 25 == 0) && !pb_balance_closes(s) ? PB_ERR_DIVERGED : PB_OK;
}

static double lap(PbSim *s, double since, double *total)
{
    if (s->clock_s == NULL) {
        return 0.0;
    }
    double now = s->clock_s();
    *total += now - since;
    return now;
}

PbStatus pb_sim_step(PbSim *s, const PbCommand *commands, int count)
{
    if (s->phase == PB_PHASE_DONE || s->phase == PB_PHASE_BLOWN_OUT) {
        return PB_ERR_STATE;
    }
    for (int i = 0; i < count; i++) {
        if (!is_sane(s, &commands[i])) {
            return PB_ERR_RANGE;
        }
    }
    if (!pb_balance_is_finite(s)) {
        return PB_ERR_DIVERGED;
    }
    PbProfile none = {0};
    PbProfile *prof = s->profile != NULL ? s->profile : &none;
    double t = s->clock_s != NULL ? s->clock_s() : 0.0;
    s->event_count = 0;
    if (s->phase == PB_PHASE_WORKING) {
        for (int i = 0; i < count; i++) {
            apply(s, &commands[i]);
        }
    }
    pb_act_step(s);
    pb_tube_step(s);
    pb_grid_refresh_free(s);
    pb_hose_step(s);
    t = lap(s, t, &prof->other_s);
    pb_airflow_step(s);
    t = lap(s, t, &prof->gas_s);
    pb_tufts_step(s);
    t = lap(s, t, &prof->tufts_s);
    pb_fill_step(s);
    pb_slump_step(s);
    t = lap(s, t, &prof->solid_s);
    pb_openings_step(s);
    pb_panel_step(s);
    s->tick++;
    if (s->profile != NULL) {
        s->profile->ticks++;
    }
    pb_lifts_step(s);
    end_when_bled(s);
    PB_TRY(check_balance(s));
    pb_sim_publish(s);
    (void)lap(s, t, &prof->other_s);
    return PB_OK;
}
