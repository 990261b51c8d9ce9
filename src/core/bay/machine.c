/* A blower's curve through its points; core/machine.h. For one exponent the curve is a straight
 * line in Q^b, so only the exponent is searched. */
#include "core/machine.h"

#include "bay/rows.h"
#include "core/pb_math.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static const double FARTHEST = 0.06; /* of the static pressure: a gauge read in haste, own choice */
enum { EXPONENTS = 251 };            /* 0.5 to 3 in steps of 0.01 */

static const PbNumberRow rig_rows[] = {
    {"hose", "length_m", "m", 1, 60, REQUIRED, AT(PbRig, machine.hose_length_m)},
    {"hose", "bore_m", "m", 0.03, 0.11, REQUIRED, AT(PbRig, machine.hose_bore_m)},
    {"tube", "length_m", "m", 0.4, 7, REQUIRED, AT(PbRig, machine.tube_length_m)},
    {"tube", "bore_m", "m", 0.018, 0.08, REQUIRED, AT(PbRig, machine.tube_bore_m)},
    {"tube", "outer_m", "m", 0.02, 0.09, REQUIRED, AT(PbRig, machine.tube_outer_m)},
};

ROWS_OF(rig_rows)

PbRig pb_rig_default(void)
{
    PbExercise e = pb_exercise_default();
    PbRig rig;
    memset(&rig, 0, sizeof rig);
    snprintf(rig.id, sizeof rig.id, "plain");
    snprintf(rig.title, sizeof rig.title, "A plain machine");
    rig.machine = e.machine;
    rig.feed_kg_s = e.feed_kg_s;
    return rig;
}

void pb_curve_less_leak(PbCurvePoint *points, int count, double leak_m3_s, double at_pa)
{
    assert(points != NULL && at_pa > 0.0);
    for (int i = 0; i < count; i++) {
        points[i].flow_m3_s -= leak_m3_s * sqrt(points[i].pa / at_pa);
    }
}

double pb_curve_pa(const PbMachine *m, double flow_m3_s)
{
    return m->static_pa *
           (1.0 - pb_pow(pb_max(flow_m3_s, 0.0) / m->open_flow_m3_s, m->curve_exponent));
}

/* The line of least squares for this exponent; its sum of squares, or a huge number where the curve
 * would not fall. */
static double try_exponent(const PbCurvePoint *points, int count, double b, PbMachine *m)
{
    double x[PB_CURVE_POINTS], mean_x = 0.0, mean_p = 0.0, xx = 0.0, xp = 0.0, sum = 0.0;
    for (int i = 0; i < count; i++) {
        x[i] = points[i].flow_m3_s > 0.0 ? pb_pow(points[i].flow_m3_s, b) : 0.0;
        mean_x += x[i] / count;
        mean_p += points[i].pa / count;
    }
    for (int i = 0; i < count; i++) {
        xx += (x[i] - mean_x) * (x[i] - mean_x);
        xp += (x[i] - mean_x) * (points[i].pa - mean_p);
    }
    if (!(xx > 0.0) || !(xp < 0.0)) {
        return 1e300;
    }
    double slope = -xp / xx;
    m->static_pa = mean_p + slope * mean_x;
    m->open_flow_m3_s = pb_pow(m->static_pa / slope, 1.0 / b);
    m->curve_exponent = b;
    for (int i = 0; i < count; i++) {
        double off = m->static_pa - slope * x[i] - points[i].pa;
        sum += off * off;
    }
    return sum;
}

static PbStatus judge_points(const PbCurvePoint *points, int count, int *worst, PbError *err)
{
    double least = 1e300, most = 0.0;
    for (int i = 0; i < count; i++) {
        *worst = i;
        if (!(points[i].flow_m3_s >= 0.0)) {
            return pb_fail(err, PB_ERR_RANGE,
                           "more air leaks through the airlock here than the "
                           "blower gives");
        }
        for (int k = 0; k < i; k++) {
            double dq = points[i].flow_m3_s - points[k].flow_m3_s;
            double dp = points[i].pa - points[k].pa;
            if (dq * dp >= 0.0) {
                return pb_fail(err, PB_ERR_RANGE,
                               "pressure does not fall with flow from point %d to this one, "
                               "expected less pressure where more air flows",
                               k + 1);
            }
        }
        least = pb_min(least, points[i].flow_m3_s);
        most = pb_max(most, points[i].flow_m3_s);
    }
    *worst = -1;
    return least <= 0.4 * most ? PB_OK
                               : pb_fail(err, PB_ERR_RANGE,
                                         "the points lie too close together: expected one with the "
                                         "outlet nearly shut, at most 0.4 of the greatest flow");
}

static PbStatus judge_curve(const PbCurvePoint *points, int count, const PbMachine *m, int *worst,
                            PbError *err)
{
    for (int i = 0; i < count; i++) {
        double says = pb_curve_pa(m, points[i].flow_m3_s);
        if (fabs(says - points[i].pa) > FARTHEST * m->static_pa) {
            *worst = i;
            return pb_fail(err, PB_ERR_RANGE,
                           "the points are on no blower's curve: %.0f Pa here, where the others "
                           "give %.0f",
                           points[i].pa, says);
        }
    }
    if (!(m->static_pa >= 1000.0 && m->static_pa <= 40000.0)) {
        return pb_fail(err, PB_ERR_RANGE,
                       "the points give a static pressure of %.0f Pa, expected 1000 to 40000 Pa",
                       m->static_pa);
    }
    if (!(m->open_flow_m3_s >= 0.01 && m->open_flow_m3_s <= 0.12)) {
        return pb_fail(err, PB_ERR_RANGE,
                       "the points give %.3f m3/s without back pressure, expected 0.01 to 0.12 "
                       "m3/s",
                       m->open_flow_m3_s);
    }
    return PB_OK;
}

PbStatus pb_curve_fit(const PbCurvePoint *points, int count, PbMachine *machine, int *worst,
                      PbError *err)
{
    assert(points != NULL && machine != NULL && worst != NULL);
    assert(count >= 3 && count <= PB_CURVE_POINTS);
    PbMachine best = *machine, m = *machine;
    double least = 1e299;
    PB_TRY(judge_points(points, count, worst, err));
    for (int i = 0; i < EXPONENTS; i++) {
        double sum = try_exponent(points, count, 0.5 + 0.01 * i, &m);
        if (sum < least) {
            least = sum;
            best = m;
        }
    }
    PB_TRY(judge_curve(points, count, &best, worst, err));
    *machine = best;
    return PB_OK;
}
