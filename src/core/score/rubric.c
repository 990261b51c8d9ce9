/* The default rubric and its limits. Numbers and their reasons: core/score.h. */
#include "core/hash.h"
#include "core/score.h"

#include <stdio.h>
#include <string.h>

PbRubric pb_rubric_default(void)
{
    PbRubric r;
    memset(&r, 0, sizeof r);
    snprintf(r.name, sizeof r.name, "default");
    r.rules = PB_SCORE_RULES;
    r.weight[PB_SCORE_ON_TARGET] = 40.0;
    r.weight[PB_SCORE_WEAKEST] = 15.0;
    r.weight[PB_SCORE_YEARS] = 15.0;
    r.weight[PB_SCORE_NO_HARM] = 15.0;
    r.weight[PB_SCORE_MATERIAL] = 5.0;
    r.weight[PB_SCORE_HANDS] = 10.0;
    r.pass_score = -1.0;
    r.panel_free = 0.75;
    r.panel_zero = 0.90;
    r.material_free = 0.05;
    r.material_zero = 0.30;
    r.over_kg_m3 = 80.0;
    r.slice_m = 0.3;
    r.slice_min_kg_m3 = 48.0;
    r.void_max_m2 = 0.01;
    r.step_max_m = 0.38;
    r.after_stall_s = 5.0;
    r.stop_min_kg = 0.02;
    r.plug_points = 3.0;
    r.outside_points = 2.0;
    r.outside_free_kg = 0.05;
    r.check_points = 1.0;
    r.power_points = 5.0;
    r.years = 30.0;
    r.top_gap_zero_m = 0.05;
    r.void_zero_frac = 0.02;
    r.reach_m = 0.45;
    r.air_min_pa = 0.85 * pb_exercise_default().machine.static_pa;
    r.air_share = 0.85;
    r.feed_max_kg_s = 0.075;
    return r;
}

int pb_is_stop(const PbLift *lift, const PbRubric *rubric)
{
    return lift->mass_kg >= rubric->stop_min_kg;
}

static PbStatus refuse(char *field, size_t size, PbError *err, const char *path,
                       const char *message)
{
    snprintf(field, size, "%s", path);
    return pb_fail(err, PB_ERR_RANGE, "%s", message);
}

/* What the marking itself needs: what it divides by above 0, what it takes off not below 0. Files
 * are held to narrower ranges by their reader (io/rubric_file.c). */
static PbStatus check_limits(const PbRubric *r, char *field, size_t size, PbError *err)
{
    const struct {
        const char *path;
        double value, most;
        int is_zero_allowed;
    } limits[] = {
        {"limits/over_kg_m3", r->over_kg_m3, 1000.0, 0},
        {"limits/slice_m", r->slice_m, 100.0, 0},
        {"limits/slice_min_kg_m3", r->slice_min_kg_m3, 1000.0, 1},
        {"limits/void_max_m2", r->void_max_m2, 100.0, 1},
        {"limits/step_max_m", r->step_max_m, 100.0, 0},
        {"limits/years", r->years, PB_SETTLE_MAX_YEARS, 0},
        {"limits/top_gap_zero_m", r->top_gap_zero_m, 100.0, 0},
        {"limits/void_zero_frac", r->void_zero_frac, 100.0, 0},
        {"limits/reach_m", r->reach_m, 100.0, 0},
        {"limits/after_stall_s", r->after_stall_s, 1e6, 0},
        {"limits/stop_min_kg", r->stop_min_kg, 1e6, 1},
        {"limits/plug_points", r->plug_points, 1e6, 1},
        {"limits/outside_points", r->outside_points, 1e6, 1},
        {"limits/outside_free_kg", r->outside_free_kg, 1e6, 1},
        {"limits/check_points", r->check_points, 1e6, 1},
        {"limits/power_points", r->power_points, 1e6, 1},
        {"limits/air_min_pa", r->air_min_pa, 1e6, 1},
        {"limits/air_share", r->air_share, 1.0, 1},
        {"limits/feed_max_kg_s", r->feed_max_kg_s, 1e6, 1},
    };
    for (size_t i = 0; i < sizeof limits / sizeof limits[0]; i++) {
        double v = limits[i].value;
        if (!((v > 0.0 || (limits[i].is_zero_allowed && v == 0.0)) && v <= limits[i].most)) {
            snprintf(field, size, "%s", limits[i].path);
            return pb_fail(err, PB_ERR_RANGE, "%g, expected %s to %g", v,
                           limits[i].is_zero_allowed ? "0" : "above 0", limits[i].most);
        }
    }
    return PB_OK;
}

/* The order of walls: points for how it was done may never outweigh the wall, and fill that a wall
 * needs may never count as wasted. */
static PbStatus check_order(const PbRubric *r, char *field, size_t size, PbError *err)
{
    double wall = r->weight[PB_SCORE_ON_TARGET] + r->weight[PB_SCORE_WEAKEST];
    double sum = 0.0;
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        sum += r->weight[i];
    }
    if (wall < 0.5 * sum) {
        return refuse(field, size, err, "weights",
                      "on_target and weakest have less than half of all points: a worse wall could "
                      "get the better mark");
    }
    if (r->over_kg_m3 < 1.2 * r->slice_min_kg_m3 || r->over_kg_m3 < 65.0) {
        return refuse(
            field, size, err, "limits/over_kg_m3",
            "expected 65 or more, and 1.2 times slice_min_kg_m3 or more: fill that a wall "
            "needs would count as wasted");
    }
    return PB_OK;
}

PbStatus pb_rubric_check(const PbRubric *r, char *field, size_t size, PbError *err)
{
    double sum = 0.0;
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        if (!(r->weight[i] >= 0.0 && r->weight[i] <= 1000.0)) {
            return refuse(field, size, err, "weights", "a weight: expected 0 to 1000");
        }
        sum += r->weight[i];
    }
    if (!(sum > 0.0)) {
        return refuse(field, size, err, "weights", "all weights are 0: expected one above it");
    }
    if (!(r->pass_score <= 100.0)) {
        return refuse(field, size, err, "pass_score", "expected at most 100");
    }
    if (!(r->panel_free >= 0.0 && r->panel_free < 1.0)) {
        return refuse(field, size, err, "limits/panel_free", "expected 0 to below 1");
    }
    if (!(r->panel_zero > r->panel_free && r->panel_zero <= 1.0)) {
        return refuse(field, size, err, "limits/panel_zero", "expected above panel_free, to 1");
    }
    if (!(r->material_free >= 0.0 && r->material_free <= 2.0)) {
        return refuse(field, size, err, "limits/material_free", "expected 0 to 2");
    }
    if (!(r->material_zero > r->material_free && r->material_zero <= 10.0)) {
        return refuse(field, size, err, "limits/material_zero",
                      "expected above material_free, to 10");
    }
    PB_TRY(check_limits(r, field, size, err));
    return check_order(r, field, size, err);
}

uint64_t pb_rubric_hash(const PbRubric *r)
{
    const double numbers[] = {
        PB_SCORE_RULES,     r->pass_score,    r->panel_free,     r->panel_zero,
        r->material_free,   r->material_zero, r->over_kg_m3,     r->slice_m,
        r->slice_min_kg_m3, r->void_max_m2,   r->step_max_m,     r->after_stall_s,
        r->stop_min_kg,     r->plug_points,   r->outside_points, r->outside_free_kg,
        r->check_points,    r->power_points,  r->years,          r->top_gap_zero_m,
        r->void_zero_frac,  r->reach_m,       r->air_min_pa,     r->air_share,
        r->feed_max_kg_s};
    uint64_t h = pb_hash_doubles(PB_HASH_START, r->weight, PB_SCORE_PARTS);
    return pb_hash_doubles(h, numbers, sizeof numbers / sizeof numbers[0]);
}
