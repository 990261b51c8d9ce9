/* The rubric of core/score.h as code: no harm, material, hands, and the sum. Places are in
 * score_places.c, their causes in score_cause.c. Reads what a run left behind, changes nothing. The
 * words for the faults belong to whoever shows them. */
#include "core/score.h"

#include "core/course.h"

#include "score_private.h"

#include <math.h>
#include <string.h>

static const double LEAST = 1e-9; /* points: less is rounding */

static double clamp01(double v)
{
    return v < 0.0 ? 0.0 : v > 1.0 ? 1.0 : v;
}

void pb_loss_add(PbScore *score, const PbLoss *loss)
{
    if (loss->points < LEAST) {
        return;
    }
    if (score->loss_count < PB_SCORE_MAX_LOSSES) {
        score->losses[score->loss_count++] = *loss;
        return;
    }
    for (int i = score->loss_count - 1; i >= 0; i--) {
        if (score->losses[i].part == loss->part) {
            score->losses[i].points += loss->points;
            return;
        }
    }
    score->losses[score->loss_count - 1].points += loss->points;
}

/* A loss at one height, the mouth's or the panel's. */
static PbLoss at_place(PbScorePartKind part, PbScoreFault cause, double value, double points,
                       double x_m, double y_m, double time_s, int lift)
{
    return (PbLoss){.part = part,
                    .cause = cause,
                    .points = points,
                    .value = value,
                    .density_kg_m3 = -1.0,
                    .x_m = x_m,
                    .y_m = y_m,
                    .y0_m = y_m,
                    .y1_m = y_m,
                    .time_s = time_s,
                    .lift = lift};
}

static void no_harm(const PbScoreInput *in, PbScore *score)
{
    PbScorePart *part = &score->parts[PB_SCORE_NO_HARM];
    const PbScoreWatch *w = in->watch;
    double load = in->result->peak_panel_over_strength;
    part->points = part->max * clamp01((in->rubric->panel_zero - load) /
                                       (in->rubric->panel_zero - in->rubric->panel_free));
    if (in->result->blow_out) {
        part->points = 0.0;
    }
    PbScoreFault cause = in->result->blow_out ? PB_FAULT_BLOW_OUT : PB_FAULT_PANEL_LOAD;
    PbLoss loss = at_place(PB_SCORE_NO_HARM, cause, load, part->max - part->points, w->peak_x_m,
                           w->peak_y_m, w->peak_time_s, pb_nearest_lift(in, w->peak_y_m));
    pb_loss_add(score, &loss);
    pb_lose_safety(in, score);
}

/* The densest or the softest stop, for too much and too little. */
static int extreme_lift(const PbScoreInput *in, int densest)
{
    int best = -1;
    for (int i = 0; i < in->lift_count; i++) {
        const PbLift *l = &in->lifts[i];
        if (!pb_is_stop(l, in->rubric)) {
            continue;
        }
        if (best < 0 || (densest ? l->density_kg_m3 > in->lifts[best].density_kg_m3
                                 : l->density_kg_m3 < in->lifts[best].density_kg_m3)) {
            best = i;
        }
    }
    return best;
}

static void material(const PbScoreInput *in, PbScore *score)
{
    PbScorePart *part = &score->parts[PB_SCORE_MATERIAL];
    const PbExercise *e = in->exercise;
    double wanted = in->result->fillable_volume_m3 * e->target_kg_m3;
    double ratio = wanted > 0.0 ? in->result->mass_fed_kg / wanted : 0.0;
    /* a gentle slope for too little, since the soft places cost elsewhere too; a steep one for too
     * much, which costs nowhere else until the face complains */
    double off = ratio < 1.0
                     ? (1.0 - ratio) / in->rubric->material_span
                     : (ratio - 1.0 - in->rubric->material_free) / in->rubric->material_over;
    part->points = part->max * clamp01(1.0 - off);
    double lost = part->max - part->points;
    double away = in->result->mass_lost_kg;
    if (ratio > 1.0 && away > 0.5 * (in->result->mass_fed_kg - wanted)) {
        PbLoss loss = at_place(PB_SCORE_MATERIAL, PB_FAULT_LOST_FILL, away, lost, e->hole_x_m,
                               e->hole_y_m, in->result->duration_s, -1);
        pb_loss_add(score, &loss);
        return;
    }
    int lift = extreme_lift(in, ratio > 1.0);
    double y = lift >= 0 ? in->lifts[lift].mouth_y_m : e->hole_y_m;
    PbLoss loss = at_place(PB_SCORE_MATERIAL, ratio < 1.0 ? PB_FAULT_TOO_LITTLE : PB_FAULT_TOO_MUCH,
                           ratio, lost, 0.5 * e->width_m, y, pb_lift_left_s(in, lift), lift);
    pb_loss_add(score, &loss);
}

static PbScoreFault judge_stop(const PbScoreInput *in, int i, double *value)
{
    const PbLift *l = &in->lifts[i];
    double left = pb_lift_left_s(in, i);
    if (l->step_m > in->rubric->step_max_m) {
        *value = l->step_m;
        return PB_FAULT_LONG_STEP;
    }
    if (l->stall_s < 0.0) {
        *value = left - l->from_s;
        return PB_FAULT_LEFT_EARLY;
    }
    if (left - l->stall_s > in->rubric->after_stall_s) {
        *value = left - l->stall_s;
        return PB_FAULT_STAYED_LONG;
    }
    return PB_FAULT_NONE;
}

/* Take points off hands, as far as there are any. */
static void off_hands(PbScore *score, PbLoss loss)
{
    PbScorePart *part = &score->parts[PB_SCORE_HANDS];
    loss.points = fmin(loss.points, part->points);
    part->points -= loss.points;
    pb_loss_add(score, &loss);
}

static void lose_events(const PbScoreInput *in, PbScore *score)
{
    const PbExercise *e = in->exercise;
    int is_outside_said = 0;
    for (int i = 0; i < in->watch->event_count; i++) {
        const PbEvent *event = &in->watch->events[i];
        double time = event->tick * PB_TICK_S;
        if (event->kind == PB_EVENT_PLUG) {
            off_hands(score,
                      at_place(PB_SCORE_HANDS, PB_FAULT_PLUG, event->value, in->rubric->plug_points,
                               event->x_m, event->y_m, time, pb_nearest_lift(in, event->y_m)));
        }
        if (event->kind == PB_EVENT_FEED_OUTSIDE && !is_outside_said &&
            in->result->ledger.lost_outside_kg > in->rubric->outside_free_kg) {
            is_outside_said = 1;
            off_hands(score,
                      at_place(PB_SCORE_HANDS, PB_FAULT_FED_OUTSIDE,
                               in->result->ledger.lost_outside_kg, in->rubric->outside_points,
                               e->hole_x_m, e->hole_y_m, time, -1));
        }
    }
}

/* Does this stop the tube, or fill, between two heights? Wood across the whole depth does wherever
 * it stands; less does where it leaves the tube no room on its way (tube.c). */
static int is_in_the_way(const PbExercise *e, const PbObstacle *o, double lo_m, double hi_m)
{
    double half = 0.5 * e->machine.tube_outer_m;
    if (fmin(o->y0_m, o->y1_m) >= hi_m || fmax(o->y0_m, o->y1_m) <= lo_m) {
        return 0;
    }
    int is_across = fmin(o->x0_m, o->x1_m) - 0.5 * o->size_m < e->hole_x_m + half &&
                    fmax(o->x0_m, o->x1_m) + 0.5 * o->size_m > e->hole_x_m - half;
    return o->depth_frac >= 1.0 ||
           (is_across && (1.0 - o->depth_frac) * e->depth_m < e->machine.tube_outer_m);
}

/* Is an end of the bay out of reach of every stop, though the tube could have gone there? */
static int is_end_missed(const PbScoreInput *in, double end_m)
{
    const PbExercise *e = in->exercise;
    int lift = pb_nearest_lift(in, end_m);
    double lo = fmin(e->hole_y_m, end_m), hi = fmax(e->hole_y_m, end_m);
    if (in->result->plugs > 0 || in->result->blow_out) {
        return 0; /* what ended the run is counted by itself */
    }
    for (int i = 0; i < e->obstacle_count; i++) {
        if (is_in_the_way(e, &e->obstacles[i], lo, hi)) {
            return 0;
        }
    }
    return lift >= 0 && fabs(in->lifts[lift].mouth_y_m - end_m) > in->rubric->reach_m;
}

static void lose_ends(const PbScoreInput *in, PbScore *score, double each)
{
    const PbExercise *e = in->exercise;
    const double ends[2] = {0.0, e->height_m};
    for (int i = 0; i < 2; i++) {
        if (is_end_missed(in, ends[i])) {
            int lift = pb_nearest_lift(in, ends[i]);
            double away = fabs(in->lifts[lift].mouth_y_m - ends[i]);
            PbLoss loss = at_place(PB_SCORE_HANDS, PB_FAULT_MISSED, away, each, 0.5 * e->width_m,
                                   ends[i], pb_lift_left_s(in, lift), lift);
            loss.y0_m = fmin(ends[i], in->lifts[lift].mouth_y_m);
            loss.y1_m = fmax(ends[i], in->lifts[lift].mouth_y_m);
            off_hands(score, loss);
        }
    }
}

static void hands(const PbScoreInput *in, PbScore *score)
{
    const PbExercise *e = in->exercise;
    int stops = 0;
    for (int i = 0; i < in->lift_count; i++) {
        stops += pb_is_stop(&in->lifts[i], in->rubric);
    }
    if (stops == 0) {
        off_hands(score, at_place(PB_SCORE_HANDS, PB_FAULT_NOTHING_DONE, 0.0,
                                  score->parts[PB_SCORE_HANDS].max, e->hole_x_m, e->hole_y_m,
                                  in->result->duration_s, -1));
        return;
    }
    /* an end that was never worked is a stop that was never made */
    int missed = is_end_missed(in, 0.0) + is_end_missed(in, e->height_m);
    double each = score->parts[PB_SCORE_HANDS].max / (stops + missed);
    lose_events(in, score);
    lose_ends(in, score, each);
    for (int i = 0; i < in->lift_count; i++) {
        const PbLift *l = &in->lifts[i];
        double value = 0.0;
        if (!pb_is_stop(l, in->rubric)) {
            continue;
        }
        PbScoreFault fault = judge_stop(in, i, &value);
        if (fault == PB_FAULT_NONE) {
            continue;
        }
        double when = pb_lift_left_s(in, fault == PB_FAULT_LONG_STEP && i > 0 ? i - 1 : i);
        PbLoss loss =
            at_place(PB_SCORE_HANDS, fault, value, each, e->hole_x_m, l->mouth_y_m, when, i);
        if (fault == PB_FAULT_LONG_STEP) {
            double from = l->mouth_y_m + l->direction * l->step_m; /* pulled towards the hole */
            loss.y0_m = fmin(l->mouth_y_m, from);
            loss.y1_m = fmax(l->mouth_y_m, from);
        }
        off_hands(score, loss);
    }
}

/* Dearest first within each part; equal ones keep the order in which they were found. */
static void sort_losses(PbScore *s)
{
    for (int i = 1; i < s->loss_count; i++) {
        PbLoss l = s->losses[i];
        int at = i;
        for (; at > 0 && (s->losses[at - 1].part > l.part || (s->losses[at - 1].part == l.part &&
                                                              s->losses[at - 1].points < l.points));
             at--) {
            s->losses[at] = s->losses[at - 1];
        }
        s->losses[at] = l;
    }
    for (int i = s->loss_count - 1; i >= 0; i--) {
        PbScorePart *part = &s->parts[s->losses[i].part];
        part->fault = s->losses[i].cause;
        part->value = s->losses[i].value;
        part->y_m = s->losses[i].y_m;
        part->time_s = s->losses[i].time_s;
        part->count += part->kind != PB_SCORE_ON_TARGET;
    }
}

static void sum_up(const PbScoreInput *in, PbScore *s)
{
    double points = 0.0, max = 0.0;
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        points += s->parts[i].points;
        max += s->parts[i].max;
    }
    s->total = max > 0.0 ? 100.0 * points / max : 0.0;
    sort_losses(s);
    if (in->result->blow_out && s->total > in->rubric->blown_cap) {
        PbLoss loss = at_place(PB_SCORE_NO_HARM, PB_FAULT_CAPPED, in->rubric->blown_cap,
                               s->total - in->rubric->blown_cap, in->watch->peak_x_m,
                               in->watch->peak_y_m, in->watch->peak_time_s, -1);
        s->total = in->rubric->blown_cap;
        pb_loss_add(s, &loss);
    }
    s->pass_score =
        in->rubric->pass_score >= 0.0 ? in->rubric->pass_score : in->exercise->pass_score;
    s->is_pass = !in->result->blow_out && s->total >= s->pass_score;
}

PbStatus pb_score(const PbScoreInput *in, PbScore *score)
{
    const PbResult *r = in->result;
    if (!(in->exercise->target_kg_m3 > 0.0) || !isfinite(in->exercise->target_kg_m3) ||
        !isfinite(r->share_at_target) || !isfinite(r->p5_patch_kg_m3) ||
        !isfinite(r->peak_panel_over_strength) || !isfinite(r->mass_fed_kg) ||
        !isfinite(r->fillable_volume_m3)) {
        return PB_ERR_RANGE;
    }
    PbScore s;
    memset(&s, 0, sizeof s);
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        double max = in->rubric->weight[i];
        s.parts[i] = (PbScorePart){(PbScorePartKind)i, max, max, PB_FAULT_NONE, 0.0, 0, -1.0, -1.0};
    }
    pb_lose_on_target(in, &s);
    pb_lose_weakest(in, &s);
    pb_lose_years(in, &s);
    no_harm(in, &s);
    material(in, &s);
    hands(in, &s);
    sum_up(in, &s);
    PbLeaveVerdict leave = pb_leave_judge(in);
    pb_leave_apply(&leave, &s);
    *score = s;
    return PB_OK;
}
