/*
 * Stops of the mouth, stalls and lifts: what a trainer would write down while watching the hands.
 * A stop begins when the mouth comes to rest (or each 0.3 m of a steady drag) and ends when it has
 * moved on by more than 50 mm. A stall is delivery under half of the best at this stop since fill
 * last began to come, which is where a slug has half shut the line (hose.c): a machine that starts
 * up again, a gate that opens and a plug are none.
 */
#include "sim.h"

#include "core/pb_math.h"

#include <math.h>

static const double MOVED_ON_M = 0.05;
static const double DRAG_STOP_M = 0.30;
static const double STALL_SHARE = 0.5;
static const double PICKED_UP_SHARE = 0.95;
static const double REST_SPEED_M_S = 0.005;
static const double DRAG_SPEED_M_S = 0.12; /* faster is a step, not a drag */

static double mean_density(const PbSim *s, double y_m, double half_m)
{
    double mass = 0.0, room = 0.0;
    for (int j = 0; j < s->ny; j++) {
        if (fabs(s->dy * (j + 0.5) - y_m) <= half_m) {
            for (int i = 0; i < s->nx; i++) {
                int at = pb_at(s, i, j);
                mass += s->solid.a[at];
                room += s->phi[at];
            }
        }
    }
    return room > 0.0 ? mass / room : 0.0;
}

static PbLift *current(PbSim *s)
{
    return s->stop.lift_count > 0 ? &s->lifts[s->stop.lift_count - 1] : (PbLift *)0;
}

static void refresh(PbSim *s, PbLift *lift)
{
    lift->to_s = s->tick * PB_TICK_S;
    lift->mass_kg = s->delivered_kg - s->stop.delivered_start_kg;
    double half = 0.5 * pb_max(fabs(lift->step_m), 0.2);
    lift->density_kg_m3 = mean_density(s, lift->mouth_y_m, half);
}

static void begin(PbSim *s)
{
    const PbTubeState *t = &s->tube_state;
    PbLift *before = current(s);
    PbLift *lift = &s->lifts[s->stop.lift_count++];
    lift->from_s = s->tick * PB_TICK_S;
    lift->mouth_y_m = t->mouth_y_m;
    lift->direction = t->direction;
    lift->hole = s->acts.hole;
    lift->stall_s = -1.0;
    lift->step_m =
        before != (PbLift *)0 && before->direction == t->direction && before->hole == lift->hole
            ? fabs(t->mouth_y_m - before->mouth_y_m)
            : 0.0;
    s->stop.y_m = t->mouth_y_m;
    s->stop.delivered_start_kg = s->delivered_kg;
    s->stop.best_kg_s = 0.0;
    s->stop.best_flow_m3_s = s->hose.flow_m3_s;
    s->stop.stall = PB_STALL_NOT_YET;
    refresh(s, lift);
}

static void watch(PbSim *s, PbLift *lift)
{
    PbStopState *st = &s->stop;
    st->best_flow_m3_s = pb_max(st->best_flow_m3_s, s->hose.flow_m3_s);
    if (!s->hose.is_on || s->hose.feed_kg_s <= 0.0 || s->hose.is_plugged) {
        st->best_kg_s = 0.0; /* nothing is fed: delivery has to come up again before it can fall */
        return;
    }
    st->best_kg_s = pb_max(st->best_kg_s, pb_min(s->hose.delivery_kg_s, s->hose.feed_kg_s));
    double best = pb_min(s->hose.feed_kg_s, st->best_kg_s);
    int is_flowing = best > 0.3 * s->hose.feed_kg_s;
    if (is_flowing && st->stall == PB_STALL_NOT_YET && s->hose.delivery_kg_s < STALL_SHARE * best) {
        st->stall = PB_STALL_STALLED;
        lift->stall_s = s->tick * PB_TICK_S;
        s->stalls++;
        pb_sim_event(s, PB_EVENT_STALL, s->tube_state.mouth_x_m, s->tube_state.mouth_y_m,
                     s->hose.flow_m3_s);
    } else if (st->stall == PB_STALL_STALLED && s->hose.delivery_kg_s > PICKED_UP_SHARE * best &&
               fabs(s->tube_state.mouth_y_m - st->y_m) > 1e-6) {
        st->stall = PB_STALL_PICKED_UP;
        pb_sim_event(s, PB_EVENT_PICK_UP, s->tube_state.mouth_x_m, s->tube_state.mouth_y_m,
                     fabs(s->tube_state.mouth_y_m - st->y_m));
    }
}

void pb_lifts_step(PbSim *s)
{
    const PbTubeState *t = &s->tube_state;
    PbLift *lift = current(s);
    int is_inside = pb_tube_is_inside(s);
    int is_at_work = s->hose.is_on || s->hose.delivery_kg_s > 0.0;
    if (lift == (PbLift *)0) {
        if (is_inside && is_at_work && fabs(t->speed_m_s) < REST_SPEED_M_S) {
            begin(s);
        }
        return;
    }
    double moved = fabs(t->mouth_y_m - s->stop.y_m);
    int is_resting = fabs(t->speed_m_s) < REST_SPEED_M_S;
    int has_left =
        moved > MOVED_ON_M || t->direction != lift->direction || s->acts.hole != lift->hole;
    int is_dragged_on = moved >= DRAG_STOP_M && fabs(t->speed_m_s) < DRAG_SPEED_M_S;
    int has_room =
        s->stop.lift_count < PB_MAX_LIFTS; /* else the last lift takes the rest of the run */
    if (has_left && is_inside && (is_resting || is_dragged_on) && has_room) {
        pb_sim_event(s, PB_EVENT_LIFT_DONE, t->mouth_x_m, s->stop.y_m, lift->mass_kg);
        begin(s);
        lift = current(s);
    }
    if (!has_left || fabs(t->speed_m_s) < 0.1) {
        refresh(s, lift);
    }
    watch(s, lift);
}
