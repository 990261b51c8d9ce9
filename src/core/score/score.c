/* The rubric of core/score.h as code: no harm, material, hands, and the sum. Places are in
 * score_places.c, their causes in score_cause.c. Reads what a run left behind, changes nothing. The
 * words for the faults belong to whoever shows them. */
#include "core/score.h"

#include "score_private.h"

#include <assert.h>
#include <math.h>
#include <string.h>

static const double LEAST = 1e-9;                /* points: less is rounding */
static const double LONG_BY_M = 0.1;             /* so far over the longest good step: a bad stop */
static const double FOOT_M = 0.3, MOVES_S = 4.0; /* of the tube, a foot: common practice */
static const double MISSED_BY_M = 0.15; /* so far out of reach: an end that was not worked */

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

void pb_lose_held(PbScore *score, PbScorePartKind part, const PbScoreInput *in)
{
    const PbExercise *e = in->exercise;
    PbScorePart *p = &score->parts[part];
    p->points = p->max * score->wall_share;
    PbLoss loss = at_place(part, PB_FAULT_HELD, score->wall_share, p->max - p->points,
                           0.5 * e->width_m, 0.5 * e->height_m, in->result->duration_s, -1);
    loss.y0_m = 0.0;
    loss.y1_m = e->height_m;
    pb_loss_add(score, &loss);
}

static void no_harm(const PbScoreInput *in, PbScore *score)
{
    PbScorePart *part = &score->parts[PB_SCORE_NO_HARM];
    const PbScoreWatch *w = in->watch;
    double kept = pb_clamp01((in->rubric->panel_zero - w->peak_load) /
                             (in->rubric->panel_zero - in->rubric->panel_free));
    pb_lose_held(score, PB_SCORE_NO_HARM, in);
    if (in->result->blow_out) {
        return; /* all of it goes at the end */
    }
    PbLoss loss =
        at_place(PB_SCORE_NO_HARM, PB_FAULT_PANEL_LOAD, w->peak_load, part->points * (1.0 - kept),
                 w->peak_x_m, w->peak_y_m, w->peak_time_s, pb_nearest_lift(in, w->peak_y_m));
    part->points *= kept;
    pb_loss_add(score, &loss);
    pb_lose_safety(in, score);
}

static int densest_stop(const PbScoreInput *in)
{
    int best = -1;
    for (int i = 0; i < in->lift_count; i++) {
        const PbLift *l = &in->lifts[i];
        if (pb_is_stop(l, in->rubric) &&
            (best < 0 || l->density_kg_m3 > in->lifts[best].density_kg_m3)) {
            best = i;
        }
    }
    return best;
}

/* Fill in patches beyond all use. Fill that a wall needs is never in it, whatever its target. */
static double over_dense_kg(const PbScoreInput *in)
{
    double limit = fmax(in->rubric->over_kg_m3, 1.2 * in->exercise->target_kg_m3);
    double over = 0.0, area = 0.0;
    for (int i = 0; i < in->patch_count; i++) {
        const PbPatch *p = &in->patches[i];
        over += p->free_area_m2 * fmax(p->density_kg_m3 - limit, 0.0);
        area += p->free_area_m2;
    }
    return area > 0.0 ? over * in->result->fillable_volume_m3 / area : 0.0;
}

static void material(const PbScoreInput *in, PbScore *score)
{
    PbScorePart *part = &score->parts[PB_SCORE_MATERIAL];
    const PbExercise *e = in->exercise;
    double wanted = in->result->fillable_volume_m3 * e->target_kg_m3;
    double away = in->result->mass_lost_kg, over = over_dense_kg(in);
    double wasted = wanted > 0.0 ? (away + over) / wanted : 0.0;
    /* never all of it: whoever throws away twice as much has lost more */
    double over_free = fmax(0.0, wasted - in->rubric->material_free);
    double kept = 1.0 / (1.0 + over_free / (in->rubric->material_half - in->rubric->material_free));
    pb_lose_held(score, PB_SCORE_MATERIAL, in);
    double lost = part->points * (1.0 - kept);
    part->points *= kept;
    int lift = densest_stop(in);
    double y = lift >= 0 ? in->lifts[lift].mouth_y_m : e->holes[0].y_m;
    PbLoss loss = away >= over
                      ? at_place(PB_SCORE_MATERIAL, PB_FAULT_LOST_FILL, away, lost, e->holes[0].x_m,
                                 e->holes[0].y_m, in->result->duration_s, -1)
                      : at_place(PB_SCORE_MATERIAL, PB_FAULT_OVER_DENSE, over, lost,
                                 0.5 * e->width_m, y, pb_lift_left_s(in, lift), lift);
    pb_loss_add(score, &loss);
}

/* How bad a stop was, 0 to 1. A step or a stop that was too short for the wall counts as far as the
 * wall is soft there: where pressure carries further, longer steps are right. */
static double judge_stop(const PbScoreInput *in, int i, PbScoreFault *fault, double *value)
{
    const PbRubric *r = in->rubric;
    const PbLift *l = &in->lifts[i];
    double left = pb_lift_left_s(in, i), from = l->mouth_y_m + l->direction * l->step_m;
    double half = 0.5 * r->slice_m;
    double step = pb_clamp01((l->step_m - r->step_max_m) / LONG_BY_M) *
                  pb_softness(in, fmin(l->mouth_y_m, from), fmax(l->mouth_y_m, from));
    double early =
        l->stall_s < 0.0 ? pb_softness(in, l->mouth_y_m - half, l->mouth_y_m + half) : 0.0;
    double late = l->stall_s < 0.0
                      ? 0.0
                      : pb_clamp01((left - l->stall_s - r->after_stall_s) / r->after_stall_s);
    *fault = PB_FAULT_LONG_STEP;
    *value = l->step_m;
    if (early >= step && early >= late) {
        *fault = PB_FAULT_LEFT_EARLY;
        *value = left - l->from_s;
    } else if (late > step) {
        *fault = PB_FAULT_STAYED_LONG;
        *value = left - l->stall_s;
    }
    return fmax(step, fmax(early, late));
}

/* 0 to 1: a stop where little arrived counts little, so that a gram more changes little. */
static double weight_of(const PbScoreInput *in, int i)
{
    double least = in->rubric->stop_min_kg;
    return pb_clamp01((in->lifts[i].mass_kg - least) / (4.0 * least));
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
            /* of what is left, so that the ninth clog is still worse than the eighth */
            const PbScorePart *hands = &score->parts[PB_SCORE_HANDS];
            double share = hands->max > 0.0 ? in->rubric->plug_points / hands->max : 0.0;
            off_hands(score,
                      at_place(PB_SCORE_HANDS, PB_FAULT_PLUG, event->value, hands->points * share,
                               event->x_m, event->y_m, time, pb_nearest_lift(in, event->y_m)));
        }
        if (event->kind == PB_EVENT_FEED_OUTSIDE && !is_outside_said &&
            in->result->ledger.lost_outside_kg > in->rubric->outside_free_kg) {
            is_outside_said = 1;
            off_hands(score,
                      at_place(PB_SCORE_HANDS, PB_FAULT_FED_OUTSIDE,
                               in->result->ledger.lost_outside_kg, in->rubric->outside_points,
                               e->holes[0].x_m, e->holes[0].y_m, time, -1));
        }
    }
}

/* How far an end of the bay was out of reach of every stop, 0 to 1, though the tube could have gone
 * there. */
static double end_missed(const PbScoreInput *in, double end_m)
{
    double reached = 0.0;
    if (in->result->plugs > 0 || in->result->blow_out || pb_nearest_lift(in, end_m) < 0 ||
        pb_wood_before(in, end_m) != NULL) {
        return 0.0; /* what ended the run is counted by itself */
    }
    for (int i = 0; i < in->lift_count; i++) {
        double away = fabs(in->lifts[i].mouth_y_m - end_m) - in->rubric->reach_m;
        reached = fmax(reached, weight_of(in, i) * (1.0 - pb_clamp01(away / MISSED_BY_M)));
    }
    return 1.0 - reached;
}

static void lose_ends(const PbScoreInput *in, PbScore *score, double each)
{
    const PbExercise *e = in->exercise;
    const double ends[2] = {0.0, e->height_m};
    for (int i = 0; i < 2; i++) {
        double missed = end_missed(in, ends[i]);
        if (missed <= 0.0) {
            continue;
        }
        int lift = pb_nearest_lift(in, ends[i]);
        double mouth_m = in->lifts[lift].mouth_y_m;
        PbLoss loss =
            at_place(PB_SCORE_HANDS, PB_FAULT_MISSED, fabs(mouth_m - ends[i]), each * missed,
                     0.5 * e->width_m, ends[i], pb_lift_left_s(in, lift), lift);
        loss.y0_m = fmin(ends[i], mouth_m);
        loss.y1_m = fmax(ends[i], mouth_m);
        off_hands(score, loss);
    }
}

static void lose_stop(const PbScoreInput *in, PbScore *score, int i, double each)
{
    const PbLift *l = &in->lifts[i];
    PbScoreFault fault;
    double value, bad = judge_stop(in, i, &fault, &value);
    if (bad <= 0.0) {
        return;
    }
    double when = pb_lift_left_s(in, fault == PB_FAULT_LONG_STEP && i > 0 ? i - 1 : i);
    PbLoss loss = at_place(PB_SCORE_HANDS, fault, value, each * weight_of(in, i) * bad,
                           in->exercise->holes[l->hole].x_m, l->mouth_y_m, when, i);
    if (fault == PB_FAULT_LONG_STEP) {
        double from = l->mouth_y_m + l->direction * l->step_m; /* pulled towards the hole */
        loss.y0_m = fmin(l->mouth_y_m, from);
        loss.y1_m = fmax(l->mouth_y_m, from);
    }
    off_hands(score, loss);
}

double pb_usual_s(const PbExercise *e)
{
    double kg = e->width_m * e->height_m * e->depth_m * e->target_kg_m3;
    double feed_kg_s = e->feed_kg_s > 0.0 ? e->feed_kg_s : e->machine.feed_max_kg_s;
    return kg / feed_kg_s + MOVES_S * e->height_m / FOOT_M;
}

static void lose_time(const PbScoreInput *in, PbScore *score)
{
    double times = in->result->duration_s / pb_usual_s(in->exercise);
    off_hands(score, at_place(PB_SCORE_HANDS, PB_FAULT_SLOW, times,
                              in->rubric->slow_points * pb_clamp01(times - 1.0),
                              0.5 * in->exercise->width_m, 0.5 * in->exercise->height_m,
                              in->result->duration_s, -1));
}

static void hands(const PbScoreInput *in, PbScore *score)
{
    const PbExercise *e = in->exercise;
    double stops = 0.0;
    for (int i = 0; i < in->lift_count; i++) {
        stops += weight_of(in, i);
    }
    pb_lose_held(score, PB_SCORE_HANDS, in);
    if (stops <= 0.0) {
        off_hands(score, at_place(PB_SCORE_HANDS, PB_FAULT_NOTHING_DONE, 0.0,
                                  score->parts[PB_SCORE_HANDS].max, e->holes[0].x_m,
                                  e->holes[0].y_m, in->result->duration_s, -1));
        return;
    }
    /* an end that was never worked is a stop that was never made */
    double missed = end_missed(in, 0.0) + end_missed(in, e->height_m);
    double each = score->parts[PB_SCORE_HANDS].points / (stops + missed);
    lose_ends(in, score, each);
    for (int i = 0; i < in->lift_count; i++) {
        if (pb_is_stop(&in->lifts[i], in->rubric)) {
            lose_stop(in, score, i, each);
        }
    }
    lose_time(in, score);
    lose_events(in, score);
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
        if (s->losses[i].cause == PB_FAULT_HELD && part->fault != PB_FAULT_NONE) {
            continue; /* what the part lost by itself says more */
        }
        part->fault = s->losses[i].cause;
        part->value = s->losses[i].value;
        int is_held = s->losses[i].cause == PB_FAULT_HELD; /* all of the wall, at no one time */
        part->y_m = is_held ? -1.0 : s->losses[i].y_m;
        part->time_s = is_held ? -1.0 : s->losses[i].time_s;
        part->count += !pb_score_part(part->kind)->counts_patches;
    }
}

/* A broken face is worth nothing, however well the rest was done. */
static void lose_all(const PbScoreInput *in, PbScore *s)
{
    const PbScoreWatch *w = in->watch;
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        PbLoss loss =
            at_place((PbScorePartKind)i, PB_FAULT_BLOW_OUT, w->peak_load, s->parts[i].points,
                     w->peak_x_m, w->peak_y_m, w->peak_time_s, pb_nearest_lift(in, w->peak_y_m));
        s->parts[i].points = 0.0;
        pb_loss_add(s, &loss);
    }
}

static void sum_up(const PbScoreInput *in, PbScore *s)
{
    double points = 0.0, max = 0.0;
    if (in->result->blow_out) {
        lose_all(in, s);
    }
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        points += s->parts[i].points;
        max += s->parts[i].max;
    }
    s->total = max > 0.0 ? 100.0 * points / max : 0.0;
    s->pass_score =
        in->rubric->pass_score >= 0.0 ? in->rubric->pass_score : in->exercise->pass_score;
    sort_losses(s);
    pb_gate(in, s);
}

/* Load goes with the pressure that the blower was set to: what would it have been at full blower?
 */
static int is_more_air_safe(const PbScoreInput *in)
{
    double set_pa = 0.0, own_pa = in->exercise->machine.static_pa;
    for (int i = 0; i < in->lift_count && i < PB_SCORE_MAX_LIFTS; i++) {
        set_pa = fmax(set_pa, in->watch->lifts[i].static_pa);
    }
    return set_pa > 0.0 && !in->result->blow_out &&
           in->watch->peak_load * own_pa / set_pa < in->rubric->panel_free;
}

/* In the order in which they are marked: the first finds the wall share that others build on. */
static const struct {
    PbScorePartTraits traits;
    void (*lose)(const PbScoreInput *in, PbScore *score);
} parts[] = {
    {{"on_target", 40.0, 1, 1}, pb_lose_on_target},
    {{"weakest", 15.0, 1, 0}, pb_lose_weakest},
    {{"years", 15.0, 1, 0}, pb_lose_years},
    {{"no_harm", 15.0, 0, 0}, no_harm},
    {{"material", 5.0, 0, 0}, material},
    {{"hands", 10.0, 0, 0}, hands},
};
_Static_assert(sizeof parts / sizeof parts[0] == PB_SCORE_PARTS, "every part has its row");

const PbScorePartTraits *pb_score_part(PbScorePartKind kind)
{
    return &parts[kind].traits;
}

PbStatus pb_score(const PbScoreInput *in, PbScore *score)
{
    assert(in != NULL && score != NULL);
    const PbResult *r = in->result;
    if (!(in->exercise->target_kg_m3 > 0.0) || !isfinite(in->exercise->target_kg_m3) ||
        !isfinite(r->mean_kg_m3) || !isfinite(r->void_area_m2) || !isfinite(r->mass_lost_kg) ||
        !isfinite(r->fillable_volume_m3) || !isfinite(in->watch->peak_load)) {
        return PB_ERR_RANGE;
    }
    PbScore s;
    memset(&s, 0, sizeof s);
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        double max = in->rubric->weight[i];
        s.parts[i] = (PbScorePart){(PbScorePartKind)i, max, max, PB_FAULT_NONE, 0.0, 0, -1.0, -1.0};
    }
    s.height_m = in->exercise->height_m;
    s.is_more_air_safe = is_more_air_safe(in);
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        parts[i].lose(in, &s);
    }
    sum_up(in, &s);
    PbLeaveVerdict leave = pb_leave_judge(in);
    pb_leave_apply(&leave, &s);
    *score = s;
    return PB_OK;
}
