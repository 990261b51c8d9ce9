/*
 * What a crew does to the bay besides packing it: the rag round the tube, seals, the static test,
 * another hole, plugs, and leaving it for a reason. Each act books the minutes that it takes on a
 * job; the run itself plays the test only, and that in short. Minutes: no published figure for any
 * single act was found, so all of them are assumptions, the middle of what a crew would say.
 */
#include "sim.h"

#include "core/pb_math.h"

#include <math.h>

static const double SEAL_MIN = 5.0;
static const double TEST_MIN = 15.0; /* with its share of setting up */
static const double PLUG_MIN = 0.6;  /* and move */
static const double LEAVE_MIN = 2.0; /* to write down why */
static const double TEST_S = 15.0;   /* that the run plays: the wheel comes up, the gauge is read */
static const double SEEN_M = 0.02;   /* a gap so close to a cover is seen with it */

static int is_number(double value, int last)
{
    return value >= 1.0 && value <= (double)last && value == floor(value);
}

int pb_act_is_sane(const PbSim *s, const PbCommand *c)
{
    switch (c->kind) {
    case PB_COMMAND_RING:
        return c->value >= 0.0 && c->value <= 1.0;
    case PB_COMMAND_SEAL:
        return is_number(c->value, s->ex.opening_count);
    case PB_COMMAND_STATIC_TEST:
        return isfinite(c->value);
    case PB_COMMAND_LEAVE:
        return is_number(c->value, PB_LEAVE_REASONS - 1);
    case PB_COMMAND_HOLE:
    case PB_COMMAND_PLUG:
        return is_number(c->value, s->ex.hole_count);
    default:
        return 0;
    }
}

static void refuse(PbSim *s, PbRefusal why)
{
    pb_sim_event(s, PB_EVENT_ACT_REFUSED, pb_hole(s)->x_m, pb_hole(s)->y_m, why);
}

/* Behind a cover that is seen from the room, or fill has run out of it. */
static int is_found(const PbSim *s, int o)
{
    const PbOpening *op = &s->ex.openings[o];
    for (int i = 0; i < s->ex.obstacle_count; i++) {
        const PbObstacle *ob = &s->ex.obstacles[i];
        if (pb_obstacle_traits(ob->kind)->has_cover && op->x0_m < ob->x1_m + SEEN_M &&
            op->x1_m > ob->x0_m - SEEN_M && op->y0_m < ob->y1_m + SEEN_M &&
            op->y1_m > ob->y0_m - SEEN_M) {
            return 1;
        }
    }
    return (s->is_runaway_said >> o) & 1;
}

static void seal(PbSim *s, int o)
{
    const PbOpening *op = &s->ex.openings[o];
    if (s->acts.is_sealed[o]) {
        refuse(s, PB_REFUSED_SEALED);
    } else if (!is_found(s, o)) {
        refuse(s, PB_REFUSED_NOT_FOUND);
    } else {
        s->acts.is_sealed[o] = 1;
        s->acts.minutes += SEAL_MIN;
        pb_sim_event(s, PB_EVENT_SEALED, 0.5 * (op->x0_m + op->x1_m), 0.5 * (op->y0_m + op->y1_m),
                     o + 1);
    }
}

static void begin_test(PbSim *s)
{
    if (pb_tube_is_inside(s)) {
        refuse(s, PB_REFUSED_TUBE_IN);
    } else if (s->acts.test_left_s > 0.0) {
        refuse(s, PB_REFUSED_TESTING);
    } else if (s->hose.is_on) {
        refuse(s, PB_REFUSED_MACHINE_ON);
    } else if (s->hose.is_plugged || s->hose.clear_left_s > 0.0) {
        refuse(s, PB_REFUSED_CLOGGED);
    } else {
        s->acts.test_left_s = TEST_S;
        s->acts.minutes += TEST_MIN;
        s->hose.is_on = 1;
    }
}

static void go_to_hole(PbSim *s, int hole)
{
    PbActState *a = &s->acts;
    if (hole == a->hole) {
        return;
    }
    if (pb_tube_is_inside(s)) {
        refuse(s, PB_REFUSED_TUBE_IN);
        return;
    }
    a->is_open[a->hole] = 1;
    a->is_open[hole] = 0;
    a->hole = hole;
    s->tube_state.mouth_x_m = pb_hole(s)->x_m;
    s->tube_state.mouth_y_m = pb_hole(s)->y_m;
    pb_sim_event(s, PB_EVENT_AT_HOLE, pb_hole(s)->x_m, pb_hole(s)->y_m, hole + 1);
}

static void plug(PbSim *s, int hole)
{
    if (hole == s->acts.hole) {
        refuse(s, PB_REFUSED_IN_USE);
    } else if (s->acts.is_open[hole]) {
        s->acts.is_open[hole] = 0;
        s->acts.minutes += PLUG_MIN;
        pb_sim_event(s, PB_EVENT_HOLE_PLUGGED, s->ex.holes[hole].x_m, s->ex.holes[hole].y_m,
                     hole + 1);
    }
}

void pb_act_apply(PbSim *s, const PbCommand *c)
{
    PbActState *a = &s->acts;
    switch (c->kind) {
    case PB_COMMAND_RING:
        a->is_ring_set[a->hole] = 1;
        a->ring_open_frac[a->hole] = c->value;
        break;
    case PB_COMMAND_SEAL:
        seal(s, (int)c->value - 1);
        break;
    case PB_COMMAND_STATIC_TEST:
        begin_test(s);
        break;
    case PB_COMMAND_LEAVE:
        a->left = (int)c->value;
        a->minutes += LEAVE_MIN;
        pb_sim_event(s, PB_EVENT_LEFT, pb_hole(s)->x_m, pb_hole(s)->y_m, c->value);
        pb_sim_finish(s);
        break;
    case PB_COMMAND_HOLE:
        go_to_hole(s, (int)c->value - 1);
        break;
    case PB_COMMAND_PLUG:
        plug(s, (int)c->value - 1);
        break;
    default:
        break;
    }
}

void pb_act_step(PbSim *s)
{
    PbActState *a = &s->acts;
    if (a->test_left_s <= 0.0) {
        return;
    }
    if (pb_tube_is_inside(s)) { /* the hose end is no longer covered: nothing was read */
        a->test_left_s = 0.0;
        s->hose.is_on = 0;
        return;
    }
    a->test_left_s -= PB_TICK_S;
    if (a->test_left_s <= 0.0) {
        a->test_left_s = 0.0;
        a->tested_pa = s->hose.outlet_pa;
        s->hose.is_on = 0;
        pb_sim_event(s, PB_EVENT_TESTED, pb_hole(s)->x_m, pb_hole(s)->y_m, a->tested_pa);
    }
}

double pb_act_ring_open_frac(const PbSim *s)
{
    int h = s->acts.hole;
    return s->acts.is_ring_set[h] ? s->acts.ring_open_frac[h] : s->ex.holes[h].open_frac;
}

int pb_act_is_hole_open(const PbSim *s, int hole)
{
    return s->acts.is_open[hole] && s->phase == PB_PHASE_WORKING;
}

void pb_act_publish(const PbSim *s, PbActs *acts)
{
    const PbActState *a = &s->acts;
    acts->hole = a->hole;
    acts->ring_open_frac = pb_act_ring_open_frac(s);
    for (int h = 0; h < PB_MAX_HOLES; h++) {
        acts->is_hole_open[h] = a->is_open[h];
    }
    for (int o = 0; o < PB_MAX_OPENINGS; o++) {
        acts->is_found[o] = o < s->ex.opening_count && is_found(s, o);
        acts->is_sealed[o] = a->is_sealed[o];
    }
    acts->test_left_s = a->test_left_s;
    acts->tested_pa = a->tested_pa;
    acts->left = (PbLeaveReason)a->left;
    acts->minutes = a->minutes;
}
