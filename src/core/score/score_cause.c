/*
 * From soft places to what the hands did there. A patch is laid to the first of these that fits,
 * the evidence that explains most first: the face fell out there; wood, or a tube that is too
 * short, keeps the mouth from it; the machine or its setting was too weak; the gate too rich; the
 * hose plugged at the nearest stop; the stop was left before the flow fell; no stop came to that
 * end; the tube passed it in one long step. What fits none of them is soft without a cause that the
 * record shows. Last, safety steps that were left out: those the record says by marks.
 */
#include "core/marks.h"

#include "score_private.h"

#include <math.h>

static const double FALLEN_M = 0.25; /* half of a strength patch and a little */
static const double REST_S = 2.0;    /* a mouth that moves on sooner was passing through */
/* The first stop stands 0.13 to 0.30 m from the plate: contractors' articles and cellulose makers'
 * pages, 5 in to 1 ft. From further away the last foot under the plate stays soft. */
static const double END_STOP_M = 0.35;
/* Water makes tufts heavy and sticky; with half the feed the same air packs them (common practice,
 * no source). From 0.05 kg/kg on it is felt in the bag. */
static const double DAMP_FRAC = 0.05, DAMP_FEED = 0.6;

int pb_nearest_lift(const PbScoreInput *in, double y_m)
{
    int best = -1;
    double best_m = 1e9;
    for (int i = 0; i < in->lift_count; i++) {
        double d = fabs(in->lifts[i].mouth_y_m - y_m);
        if (pb_is_stop(&in->lifts[i], in->rubric) && d < best_m) {
            best_m = d;
            best = i;
        }
    }
    return best;
}

double pb_lift_left_s(const PbScoreInput *in, int lift)
{
    if (lift < 0) {
        return in->result->duration_s;
    }
    double seen = lift < PB_SCORE_MAX_LIFTS ? in->watch->lifts[lift].left_s : 0.0;
    return seen > 0.0 ? seen : in->lifts[lift].to_s;
}

/* The first of its kind from a moment on. */
static const PbEvent *find_event(const PbScoreInput *in, PbEventKind kind, double from_s)
{
    for (int i = 0; i < in->watch->event_count; i++) {
        const PbEvent *e = &in->watch->events[i];
        if (e->kind == kind && e->tick * PB_TICK_S >= from_s) {
            return e;
        }
    }
    return NULL;
}

static void lay_to_plug(const PbEvent *plug, PbLoss *loss)
{
    loss->cause = PB_FAULT_PLUG;
    loss->value = plug->value;
    loss->time_s = plug->tick * PB_TICK_S;
}

/* Did the mouth rest here? Little may have arrived, which is no fault of the step. */
static int is_rest(const PbLift *l)
{
    return l->to_s - l->from_s >= REST_S;
}

/* The nearest place where the mouth rested, whatever arrived there; negative = none. */
static int nearest_rest(const PbScoreInput *in, double y_m)
{
    int best = -1;
    for (int i = 0; i < in->lift_count; i++) {
        double d = fabs(in->lifts[i].mouth_y_m - y_m);
        if ((is_rest(&in->lifts[i]) || pb_is_stop(&in->lifts[i], in->rubric)) &&
            (best < 0 || d < fabs(in->lifts[best].mouth_y_m - y_m))) {
            best = i;
        }
    }
    return best;
}

/* Rests next above and next below a height; the later of them came by a step over it. */
static int long_step(const PbScoreInput *in, double y_m, PbLoss *loss)
{
    int above = -1, below = -1;
    for (int i = 0; i < in->lift_count; i++) {
        double at = in->lifts[i].mouth_y_m;
        if (!is_rest(&in->lifts[i]) && !pb_is_stop(&in->lifts[i], in->rubric)) {
            continue;
        }
        if (at >= y_m && (above < 0 || at < in->lifts[above].mouth_y_m)) {
            above = i;
        }
        if (at < y_m && (below < 0 || at > in->lifts[below].mouth_y_m)) {
            below = i;
        }
    }
    if (above < 0 || below < 0) {
        return 0;
    }
    double step = in->lifts[above].mouth_y_m - in->lifts[below].mouth_y_m;
    if (step <= in->rubric->step_max_m) {
        return 0;
    }
    int later = above > below ? above : below;
    loss->cause = PB_FAULT_LONG_STEP;
    loss->value = step;
    loss->lift = later;
    loss->time_s = pb_lift_left_s(in, later - 1); /* when the tube was pulled */
    return 1;
}

/* Does this stop the tube, or fill, on its way from a hole between two heights? Wood across the
 * whole depth does wherever it stands; less does where it leaves the tube no room (tube.c). */
static int is_in_the_way(const PbExercise *e, const PbHole *hole, const PbObstacle *o, double y_m)
{
    double lo_m = fmin(hole->y_m, y_m), hi_m = fmax(hole->y_m, y_m);
    double half = 0.5 * e->machine.tube_outer_m;
    if (fmin(o->y0_m, o->y1_m) >= hi_m || fmax(o->y0_m, o->y1_m) <= lo_m) {
        return 0;
    }
    int is_across = fmin(o->x0_m, o->x1_m) - 0.5 * o->size_m < hole->x_m + half &&
                    fmax(o->x0_m, o->x1_m) + 0.5 * o->size_m > hole->x_m - half;
    return o->depth_frac >= 1.0 ||
           (is_across && (1.0 - o->depth_frac) * e->depth_m < e->machine.tube_outer_m);
}

static const PbObstacle *wood_from(const PbExercise *e, const PbHole *hole, double y_m)
{
    for (int i = 0; i < e->obstacle_count; i++) {
        if (is_in_the_way(e, hole, &e->obstacles[i], y_m)) {
            return &e->obstacles[i];
        }
    }
    return NULL;
}

const PbObstacle *pb_wood_before(const PbScoreInput *in, double y_m)
{
    const PbExercise *e = in->exercise;
    const PbObstacle *wood = wood_from(e, &e->holes[0], y_m);
    for (int i = 0; i < in->lift_count && wood != NULL; i++) {
        int hole = in->lifts[i].hole;
        if (hole != 0 && pb_is_stop(&in->lifts[i], in->rubric)) {
            wood = wood_from(e, &e->holes[hole], y_m);
        }
    }
    return wood;
}

static void nothing_near(const PbScoreInput *in, PbLoss *loss)
{
    const PbEvent *plug = find_event(in, PB_EVENT_PLUG, 0.0);
    loss->cause = PB_FAULT_NOTHING_DONE;
    loss->value = 0.0;
    loss->time_s = in->result->duration_s;
    if (plug != NULL) {
        lay_to_plug(plug, loss);
    }
}

static int is_last_stop(const PbScoreInput *in, int lift)
{
    for (int i = lift + 1; i < in->lift_count; i++) {
        if (pb_is_stop(&in->lifts[i], in->rubric)) {
            return 0;
        }
    }
    return 1;
}

/* What was set while the mouth rested here. */
static PbLiftWatch watch_of(const PbScoreInput *in, int lift)
{
    const PbLiftWatch none = {0};
    return lift >= 0 && lift < PB_SCORE_MAX_LIFTS ? in->watch->lifts[lift] : none;
}

/* Air that does not pack while the mouth rested here: by the machine, or by its knob. */
static int weak_air(const PbScoreInput *in, int lift, PbLoss *loss)
{
    PbLiftWatch w = watch_of(in, lift);
    double own_pa = in->exercise->machine.static_pa;
    int is_turned_down = w.static_pa < in->rubric->air_share * own_pa;
    if (w.static_pa <= 0.0 || (!is_turned_down && own_pa >= in->rubric->air_min_pa)) {
        return 0;
    }
    loss->cause = is_turned_down ? PB_FAULT_WEAK_AIR : PB_FAULT_WEAK_MACHINE;
    loss->value = w.static_pa;
    loss->lift = lift;
    loss->time_s = pb_lift_left_s(in, lift);
    return 1;
}

/* As weak_air, of a place: a rest near it where next to nothing arrived for want of air counts. */
static int weak_air_at(const PbScoreInput *in, double y_m, PbLoss *loss)
{
    int at = nearest_rest(in, y_m);
    return fabs(in->lifts[at].mouth_y_m - y_m) <= in->rubric->reach_m && weak_air(in, at, loss);
}

static int is_rich(const PbScoreInput *in, const PbLiftWatch *w)
{
    double most = in->rubric->feed_max_kg_s;
    return w->feed_kg_s > (in->exercise->damp_frac >= DAMP_FRAC ? DAMP_FEED * most : most);
}

/* Is this between an end of the bay and a nearest stop that stood too far from that end? */
static int is_end_missed(const PbScoreInput *in, const PbLift *l, double y_m)
{
    double top = in->exercise->height_m;
    return (y_m > l->mouth_y_m && top - l->mouth_y_m > END_STOP_M && top - y_m < END_STOP_M) ||
           (y_m < l->mouth_y_m && l->mouth_y_m > END_STOP_M && y_m < END_STOP_M);
}

/* Way along the bay to the nearest hole that was worked from. */
static double from_hole_m(const PbScoreInput *in, double y_m)
{
    double way_m = fabs(y_m - in->exercise->holes[0].y_m);
    for (int i = 0; i < in->lift_count; i++) {
        way_m = fmin(way_m, fabs(y_m - in->exercise->holes[in->lifts[i].hole].y_m));
    }
    return way_m;
}

/* Out of everybody's reach from the holes: wood on the way, or a tube that is too short. */
static int out_of_reach(const PbScoreInput *in, double y_m, PbLoss *loss)
{
    const PbExercise *e = in->exercise;
    const PbObstacle *wood = pb_wood_before(in, y_m);
    if (wood != NULL) {
        loss->cause = PB_FAULT_BEHIND_WOOD;
        loss->value = 0.5 * (wood->y0_m + wood->y1_m);
    } else if (from_hole_m(in, y_m) > e->machine.tube_length_m + in->rubric->reach_m) {
        loss->cause = PB_FAULT_SHORT_TUBE;
        loss->value = e->machine.tube_length_m;
    } else {
        return 0;
    }
    return 1;
}

static void by_nearest_stop(const PbScoreInput *in, int lift, double y_m, PbLoss *loss)
{
    const PbLift *l = &in->lifts[lift];
    const PbLiftWatch w = watch_of(in, lift);
    /* not one before this stop: that was cleared, and the work went on */
    const PbEvent *plug = find_event(in, PB_EVENT_PLUG, l->from_s);
    double away_m = fabs(l->mouth_y_m - y_m), density = loss->value;
    int is_near = away_m <= in->rubric->reach_m;
    loss->lift = lift;
    loss->time_s = pb_lift_left_s(in, lift);
    if ((!is_near && out_of_reach(in, y_m, loss)) || weak_air_at(in, y_m, loss)) {
        return;
    }
    if (!is_near && plug != NULL && is_last_stop(in, lift)) { /* the run ended there */
        if (!weak_air(in, lift, loss)) {
            lay_to_plug(plug, loss);
        }
    } else if (is_near && is_rich(in, &w)) {
        loss->cause = PB_FAULT_RICH_FEED;
        loss->value = w.feed_kg_s;
    } else if (w.plugs > 0 && plug != NULL) {
        lay_to_plug(plug, loss);
    } else if (is_near && l->stall_s < 0.0) {
        loss->cause = PB_FAULT_LEFT_EARLY;
        loss->value = loss->time_s - l->from_s;
    } else if (!long_step(in, y_m, loss)) {
        int is_missed = !is_near || is_end_missed(in, l, y_m);
        loss->cause = is_missed ? PB_FAULT_MISSED : PB_FAULT_SOFT_PATCHES;
        loss->value = is_missed ? away_m : density;
    }
}

PbLoss pb_soft_cause(const PbScoreInput *in, const PbPatch *p)
{
    double y = 0.5 * (p->y0_m + p->y1_m);
    PbLoss loss = {.cause = PB_FAULT_SOFT_PATCHES,
                   .value = p->density_kg_m3,
                   .density_kg_m3 = p->density_kg_m3,
                   .x_m = 0.5 * (p->x0_m + p->x1_m),
                   .y_m = y,
                   .y0_m = p->y0_m,
                   .y1_m = p->y1_m,
                   .time_s = in->result->duration_s,
                   .lift = -1};
    const PbEvent *out = find_event(in, PB_EVENT_BLOW_OUT, 0.0);
    int near = pb_nearest_lift(in, y);
    if (out != NULL && fabs(y - out->y_m) < FALLEN_M) {
        loss.cause = PB_FAULT_BLOW_OUT;
        loss.value = in->watch->peak_load;
        loss.time_s = out->tick * PB_TICK_S;
        loss.lift = near;
    } else if (near < 0) {
        nothing_near(in, &loss);
    } else {
        by_nearest_stop(in, near, y, &loss);
    }
    return loss;
}

void pb_lose_safety(const PbScoreInput *in, PbScore *score)
{
    PbScorePart *part = &score->parts[PB_SCORE_NO_HARM];
    int is_listed = 0; /* the list before work is gone through once in a run */
    for (int i = 0; i < in->watch->event_count; i++) {
        const PbEvent *e = &in->watch->events[i];
        int skipped = pb_mark_checks_skipped(e->value);
        if (e->kind != PB_EVENT_SAFETY || (skipped > 0 && is_listed)) {
            continue;
        }
        is_listed |= skipped > 0;
        double points = skipped > 0 ? skipped * in->rubric->check_points : in->rubric->power_points;
        PbLoss loss = {.part = PB_SCORE_NO_HARM,
                       .cause = skipped > 0 ? PB_FAULT_CHECKS : PB_FAULT_POWER_ON,
                       .points = fmin(points, part->points),
                       .value = skipped > 0 ? skipped : 1.0,
                       .density_kg_m3 = -1.0,
                       .x_m = e->x_m,
                       .y_m = e->y_m,
                       .y0_m = e->y_m,
                       .y1_m = e->y_m,
                       .time_s = e->tick * PB_TICK_S,
                       .lift = -1};
        part->points -= loss.points;
        pb_loss_add(score, &loss);
    }
}
