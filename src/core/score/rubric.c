/* The limits of a rubric in one table, its check and its hash. Numbers and their reasons:
 * core/score.h. */
#include "score_private.h"

#include "core/hash.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

#define LIMIT(field, low, high, unit, standard)                                                    \
    {                                                                                              \
#field, unit, low, high, standard, offsetof(PbRubric, field)                               \
    }

/* Append only, and count no more among the first: see pb_rubric_hash. */
enum { FIRST_LIMITS = 23 };
static const PbRubricLimit limits[] = {
    LIMIT(panel_free, 0.0, 0.99, "of strength", 0.75),
    LIMIT(panel_zero, 0.01, 1.0, "of strength", 0.90),
    LIMIT(material_free, 0.0, 2.0, "of 1", 0.05),
    LIMIT(material_half, 0.01, 10.0, "of 1", 0.175),
    LIMIT(over_kg_m3, 65.0, 1000.0, "kg/m3", 80.0),
    LIMIT(slice_m, 0.1, 1.0, "m", 0.3),
    LIMIT(slice_min_kg_m3, 0.0, 200.0, "kg/m3", 48.0),
    LIMIT(void_max_m2, 0.0, 10.0, "m2", 0.01),
    LIMIT(step_max_m, 0.05, 6.0, "m", 0.38),
    LIMIT(after_stall_s, 0.1, 600.0, "s", 5.0),
    LIMIT(stop_min_kg, 0.001, 1.0, "kg", 0.02),
    LIMIT(plug_points, 0.0, 1000.0, "points", 3.0),
    LIMIT(outside_points, 0.0, 1000.0, "points", 2.0),
    LIMIT(outside_free_kg, 0.0, 10.0, "kg", 0.05),
    LIMIT(check_points, 0.0, 1000.0, "points", 1.0),
    LIMIT(power_points, 0.0, 1000.0, "points", 5.0),
    LIMIT(years, 1.0, PB_SETTLE_MAX_YEARS, "years", 30.0),
    LIMIT(top_gap_zero_m, 0.001, 1.0, "m", 0.05),
    LIMIT(void_zero_frac, 0.0001, 1.0, "of the face", 0.02),
    LIMIT(reach_m, 0.1, 3.0, "m", 0.45),
    LIMIT(air_min_pa, 0.0, 40000.0, "Pa", 0.85 * 19900.0), /* of 80 in w.c. */
    LIMIT(air_share, 0.0, 1.0, "of 1", 0.85),
    LIMIT(feed_max_kg_s, 0.001, 0.2, "kg/s", 0.075),
    LIMIT(slow_points, 0.0, 1000.0, "points", 0.0), /* the wall comes first: time is shown */
};
enum { LIMITS = sizeof limits / sizeof limits[0] };

const PbRubricLimit *pb_rubric_limits(size_t *count)
{
    *count = LIMITS;
    return limits;
}

static double limit_of(const PbRubric *r, const PbRubricLimit *limit)
{
    return *(const double *)(const void *)((const char *)r + limit->offset);
}

PbRubric pb_rubric_default(void)
{
    PbRubric r;
    memset(&r, 0, sizeof r);
    snprintf(r.name, sizeof r.name, "default");
    r.rules = PB_SCORE_RULES;
    r.pass_score = -1.0;
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        r.weight[i] = pb_score_part((PbScorePartKind)i)->weight;
    }
    for (int i = 0; i < LIMITS; i++) {
        *(double *)(void *)((char *)&r + limits[i].offset) = limits[i].standard;
    }
    return r;
}

int pb_is_stop(const PbLift *lift, const PbRubric *rubric)
{
    assert(lift != NULL);
    return lift->mass_kg >= rubric->stop_min_kg;
}

static PbStatus refuse(char *field, size_t size, PbError *err, const char *path,
                       const char *message)
{
    snprintf(field, size, "%s", path);
    return pb_fail(err, PB_ERR_RANGE, "%s", message);
}

static PbStatus check_limits(const PbRubric *r, char *field, size_t size, PbError *err)
{
    for (int i = 0; i < LIMITS; i++) {
        const PbRubricLimit *l = &limits[i];
        double v = limit_of(r, l);
        if (!(v >= l->low && v <= l->high)) { /* NaN too */
            snprintf(field, size, "limits/%s", l->key);
            return pb_fail(err, PB_ERR_RANGE, "%g, expected %g to %g %s", v, l->low, l->high,
                           l->unit);
        }
    }
    return PB_OK;
}

/* The order of walls: points for how it was done may never outweigh the wall, and fill that a wall
 * needs may never count as wasted. */
static PbStatus check_order(const PbRubric *r, char *field, size_t size, PbError *err)
{
    double wall = 0.0, sum = 0.0;
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        wall += pb_score_part((PbScorePartKind)i)->is_wall ? r->weight[i] : 0.0;
        sum += r->weight[i];
    }
    if (wall < 0.5 * sum) {
        return refuse(
            field, size, err, "weights",
            "on_target, weakest and years have less than half of all points: a worse wall "
            "could get the better mark");
    }
    if (r->over_kg_m3 < r->slice_min_kg_m3) {
        return refuse(field, size, err, "limits/over_kg_m3",
                      "expected slice_min_kg_m3 or more: fill that a wall needs would count as "
                      "wasted");
    }
    return PB_OK;
}

PbStatus pb_rubric_check(const PbRubric *r, char *field, size_t size, PbError *err)
{
    assert(r != NULL && field != NULL && size > 0);
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
    PB_TRY(check_limits(r, field, size, err));
    if (!(r->panel_zero > r->panel_free)) {
        return refuse(field, size, err, "limits/panel_zero", "expected above panel_free, to 1");
    }
    if (!(r->material_half > r->material_free)) {
        return refuse(field, size, err, "limits/material_half",
                      "expected above material_free, to 10");
    }
    return check_order(r, field, size, err);
}

uint64_t pb_rubric_later(uint64_t h, const char *key, double value, double silent)
{
    return value == silent ? h : pb_hash_doubles(pb_hash_bytes(h, key, strlen(key)), &value, 1);
}

uint64_t pb_rubric_hash(const PbRubric *r)
{
    assert(r != NULL);
    const double head[] = {PB_SCORE_RULES, r->pass_score};
    uint64_t h = pb_hash_doubles(PB_HASH_START, r->weight, PB_RUBRIC_FIRST_PARTS);
    h = pb_hash_doubles(h, head, 2);
    for (int i = 0; i < FIRST_LIMITS; i++) {
        double value = limit_of(r, &limits[i]);
        h = pb_hash_doubles(h, &value, 1);
    }
    for (int i = PB_RUBRIC_FIRST_PARTS; i < PB_SCORE_PARTS; i++) {
        h = pb_rubric_later(h, pb_score_part((PbScorePartKind)i)->key, r->weight[i], 0.0);
    }
    for (int i = FIRST_LIMITS; i < LIMITS; i++) {
        h = pb_rubric_later(h, limits[i].key, limit_of(r, &limits[i]), limits[i].standard);
    }
    return h;
}
