/* The rubric of core/score.h as code. Reads what a run left behind, changes nothing. The words for
 * the faults belong to whoever shows them. */
#include "core/score.h"

#include <math.h>

static double clamp01(double v)
{
    return v < 0.0 ? 0.0 : v > 1.0 ? 1.0 : v;
}

static PbScorePart part(PbScorePartKind kind, double max)
{
    return (PbScorePart){kind, max, max, PB_FAULT_NONE, 0.0, 0, -1.0, -1.0};
}

static void blame(PbScorePart *p, PbScoreFault fault, double value, int count, double y_m,
                  double time_s)
{
    p->fault = fault;
    p->value = value;
    p->count = count;
    p->y_m = y_m;
    p->time_s = time_s;
}

/* When the mouth last worked within a step of this height: the lift to blame. */
static double time_at_height(const PbScoreInput *in, double y_m)
{
    double best = 1e9, when = -1.0;
    for (int i = 0; i < in->lift_count; i++) {
        double d = fabs(in->lifts[i].mouth_y_m - y_m);
        if (in->lifts[i].mass_kg > 0.0 && d < best) {
            best = d;
            when = in->lifts[i].to_s;
        }
    }
    return when;
}

static const PbPatch *softest(const PbScoreInput *in)
{
    const PbPatch *worst = NULL;
    for (int i = 0; i < in->patch_count; i++) {
        const PbPatch *p = &in->patches[i];
        if (p->free_area_m2 > 0.0 && (worst == NULL || p->density_kg_m3 < worst->density_kg_m3)) {
            worst = p;
        }
    }
    return worst;
}

static PbScorePart on_target(const PbScoreInput *in)
{
    PbScorePart s = part(PB_SCORE_ON_TARGET, 40.0);
    const PbPatch *worst = softest(in);
    int soft = 0;
    for (int i = 0; i < in->patch_count; i++) {
        soft += in->patches[i].free_area_m2 > 0.0 &&
                in->patches[i].density_kg_m3 < in->exercise->target_kg_m3;
    }
    s.points = s.max * clamp01(in->result->share_at_target);
    if (soft > 0 && worst != NULL) {
        double y = 0.5 * (worst->y0_m + worst->y1_m);
        blame(&s, PB_FAULT_SOFT_PATCHES, (double)soft, soft, y, time_at_height(in, y));
    }
    return s;
}

static PbScorePart weakest(const PbScoreInput *in)
{
    PbScorePart s = part(PB_SCORE_WEAKEST, 15.0);
    double share = in->result->p5_patch_kg_m3 / in->exercise->target_kg_m3;
    const PbPatch *worst = softest(in);
    s.points = s.max * clamp01(share);
    if (share < 1.0 && worst != NULL) {
        double y = 0.5 * (worst->y0_m + worst->y1_m);
        blame(&s, PB_FAULT_WEAK_PLACE, in->result->p5_patch_kg_m3, 1, y, time_at_height(in, y));
    }
    return s;
}

static PbScorePart no_harm(const PbScoreInput *in)
{
    PbScorePart s = part(PB_SCORE_NO_HARM, 15.0);
    double load = in->result->peak_panel_over_strength;
    s.points = s.max * clamp01((1.0 - load) / 0.25);
    if (in->result->blow_out) {
        s.points = 0.0;
        blame(&s, PB_FAULT_BLOW_OUT, load, 1, in->peak_y_m, in->peak_time_s);
    } else if (load > 0.75) {
        blame(&s, PB_FAULT_PANEL_LOAD, load, 1, in->peak_y_m, in->peak_time_s);
    }
    return s;
}

static PbScorePart material(const PbScoreInput *in)
{
    PbScorePart s = part(PB_SCORE_MATERIAL, 5.0);
    double wanted = in->result->fillable_volume_m3 * in->exercise->target_kg_m3;
    double ratio = wanted > 0.0 ? in->result->mass_fed_kg / wanted : 0.0;
    double off = ratio < 1.0 ? 1.0 - ratio : ratio > 1.1 ? ratio - 1.1 : 0.0;
    s.points = s.max * clamp01(1.0 - off / 0.20);
    if (off > 0.005) {
        blame(&s, ratio < 1.0 ? PB_FAULT_TOO_LITTLE : PB_FAULT_TOO_MUCH, ratio, 1, -1.0, -1.0);
    }
    return s;
}

static PbScoreFault judge_stop(const PbLift *l, double *value)
{
    if (l->step_m > 0.38) {
        *value = l->step_m;
        return PB_FAULT_LONG_STEP;
    }
    if (l->stall_s < 0.0) {
        *value = l->to_s - l->from_s;
        return PB_FAULT_LEFT_EARLY;
    }
    if (l->to_s - l->stall_s > 10.0) {
        *value = l->to_s - l->stall_s;
        return PB_FAULT_STAYED_LONG;
    }
    return PB_FAULT_NONE;
}

/* The dearest cause is named: outside and plugs before stops. */
static PbScorePart hands(const PbScoreInput *in)
{
    PbScorePart s = part(PB_SCORE_HANDS, 10.0);
    int stops = 0, good = 0, faults = 0;
    for (int i = 0; i < in->lift_count; i++) {
        const PbLift *l = &in->lifts[i];
        double value = 0.0;
        if (l->mass_kg < 0.02) {
            continue;
        }
        stops++;
        PbScoreFault fault = judge_stop(l, &value);
        good += fault == PB_FAULT_NONE;
        if (fault != PB_FAULT_NONE) {
            faults++;
            if (s.fault == PB_FAULT_NONE) {
                blame(&s, fault, value, 1, l->mouth_y_m, l->to_s);
            }
        }
    }
    s.count = faults;
    if (stops == 0) {
        s.points = 0.0;
        blame(&s, PB_FAULT_NOTHING_DONE, 0.0, 1, -1.0, -1.0);
        return s;
    }
    s.points = s.max * (double)good / (double)stops;
    if (in->result->ledger.lost_outside_kg > 0.05) {
        s.points -= 2.0;
        blame(&s, PB_FAULT_FED_OUTSIDE, in->result->ledger.lost_outside_kg, 1, -1.0, -1.0);
    }
    if (in->result->plugs > 0) {
        s.points -= 3.0 * (double)in->result->plugs;
        blame(&s, PB_FAULT_PLUG, (double)in->result->plugs, in->result->plugs, -1.0, -1.0);
    }
    s.points = s.points < 0.0 ? 0.0 : s.points;
    return s;
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
    PbScore s = {.parts = {on_target(in), weakest(in), no_harm(in), material(in), hands(in)}};
    double points = 0.0, max = 0.0;
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        points += s.parts[i].points;
        max += s.parts[i].max;
    }
    s.total = 100.0 * points / max;
    if (r->blow_out && s.total > PB_SCORE_BLOWN_CAP) {
        s.total = PB_SCORE_BLOWN_CAP;
    }
    s.is_pass = !r->blow_out && s.total >= in->exercise->pass_score;
    *score = s;
    return PB_OK;
}
