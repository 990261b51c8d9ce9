/* The ranges as a box from -1 to 1, and a quadratic over it that stands in for runs: core/fit.h. */
#include "fit/fit_private.h"

#include "core/hash.h"
#include "core/pb_math.h"
#include "core/rng.h"

#include <math.h>
#include <string.h>

enum { POINT_SEED = 2024 };

PbFitScale pb_fit_scale(void)
{
    PbFitScale s;
    for (int k = 0; k < PB_CARRIERS; k++) {
        s.info[k] = pb_carrier_info(k);
        s.log_low[k] = pb_log(s.info[k]->low);
        s.log_span[k] = pb_log(s.info[k]->high) - s.log_low[k];
    }
    return s;
}

/* Low at -1, shipped at 0, high at 1, straight between, as core/spread.h. */
double pb_fit_value(const PbFitScale *scale, int k, double z)
{
    const PbConstantInfo *info = scale->info[k];
    return z < 0.0 ? info->value + (info->value - info->low) * z
                   : info->value + (info->high - info->value) * z;
}

PbConstants pb_fit_constants(const PbFitPoint *point)
{
    PbFitScale scale = pb_fit_scale();
    PbConstants shipped = pb_constants_default(), c = shipped;
    for (int k = 0; k < PB_CARRIERS; k++) {
        *pb_constant_at(&c, scale.info[k]) = pb_fit_value(&scale, k, point->z[k]);
    }
    pb_product_follow(&c, &shipped);
    return c;
}

PbFitPoint pb_fit_drawn(uint64_t seed, int index)
{
    PbFitPoint p;
    PbRng rng = pb_rng_make(seed, (uint64_t)index + 1u);
    for (int k = 0; k < PB_CARRIERS; k++) {
        p.z[k] = 2.0 * pb_rng_uniform(&rng) - 1.0;
    }
    return p;
}

/* Row `index` of a shuffled ladder a carrier: every carrier meets every part of its range once. */
PbFitPoint pb_fit_point(int index)
{
    PbFitPoint p;
    for (int k = 0; k < PB_CARRIERS; k++) {
        int order[PB_FIT_POINTS];
        PbRng rng = pb_rng_make(POINT_SEED, (uint64_t)k + 1u);
        for (int i = 0; i < PB_FIT_POINTS; i++) {
            order[i] = i;
        }
        for (int i = PB_FIT_POINTS - 1; i > 0; i--) {
            int other = (int)(pb_rng_uniform(&rng) * (i + 1)), was = order[i];
            order[i] = order[other];
            order[other] = was;
        }
        p.z[k] = (2.0 * order[index] + 1.0) / PB_FIT_POINTS - 1.0;
    }
    return p;
}

/* Terms of the quadratic, in logarithms of the carriers over half of their span: laws of the fill
 * are powers, and there a range that is lopsided in itself is nearly even. */
void pb_fit_terms(const PbFitScale *scale, const PbFitPoint *point, double t[PB_FIT_TERMS])
{
    double x[PB_CARRIERS];
    int n = 0;
    for (int k = 0; k < PB_CARRIERS; k++) {
        double v = pb_log(pb_fit_value(scale, k, point->z[k]));
        x[k] = 2.0 * (v - scale->log_low[k]) / scale->log_span[k] - 1.0;
    }
    t[n++] = 1.0;
    for (int k = 0; k < PB_CARRIERS; k++) {
        t[n++] = x[k];
        for (int m = 0; m <= k; m++) {
            t[n++] = x[k] * x[m];
        }
    }
}

double pb_fit_log(const PbFitQuadratic *q, const double t[PB_FIT_TERMS])
{
    double sum = 0.0;
    for (int i = 0; i < PB_FIT_TERMS; i++) {
        sum += q->c[i] * t[i];
    }
    return sum;
}

/* Normal equations by Cholesky, in place. The ridge is far below any residual: it keeps a term that
 * the points cannot tell from others at rest. */
static int solve(double a[PB_FIT_TERMS][PB_FIT_TERMS], double b[PB_FIT_TERMS])
{
    for (int i = 0; i < PB_FIT_TERMS; i++) {
        a[i][i] += 1e-6 * PB_FIT_POINTS;
        for (int j = 0; j <= i; j++) {
            double sum = a[i][j];
            for (int k = 0; k < j; k++) {
                sum -= a[i][k] * a[j][k];
            }
            if (i == j && !(sum > 0.0)) {
                return 0;
            }
            a[i][j] = i == j ? sqrt(sum) : sum / a[j][j];
        }
    }
    for (int i = 0; i < PB_FIT_TERMS; i++) {
        for (int k = 0; k < i; k++) {
            b[i] -= a[i][k] * b[k];
        }
        b[i] /= a[i][i];
    }
    for (int i = PB_FIT_TERMS - 1; i >= 0; i--) {
        for (int k = i + 1; k < PB_FIT_TERMS; k++) {
            b[i] -= a[k][i] * b[k];
        }
        b[i] /= a[i][i];
    }
    return 1;
}

PbStatus pb_fit_quadratic(const double values[PB_FIT_POINTS], PbFitQuadratic *q)
{
    double t[PB_FIT_POINTS][PB_FIT_TERMS], a[PB_FIT_TERMS][PB_FIT_TERMS], b[PB_FIT_TERMS];
    PbFitScale scale = pb_fit_scale();
    double sum = 0.0;
    memset(a, 0, sizeof a);
    memset(b, 0, sizeof b);
    for (int p = 0; p < PB_FIT_POINTS; p++) {
        PbFitPoint point = pb_fit_point(p);
        if (!(values[p] > 0.0)) {
            return PB_ERR_RANGE;
        }
        pb_fit_terms(&scale, &point, t[p]);
        for (int i = 0; i < PB_FIT_TERMS; i++) {
            b[i] += t[p][i] * pb_log(values[p]);
            for (int j = 0; j <= i; j++) {
                a[i][j] += t[p][i] * t[p][j];
            }
        }
    }
    if (!solve(a, b)) {
        return PB_ERR_RANGE;
    }
    for (int p = 0; p < PB_FIT_POINTS; p++) {
        double off = -pb_log(values[p]);
        for (int i = 0; i < PB_FIT_TERMS; i++) {
            off += b[i] * t[p][i];
        }
        sum += off * off;
    }
    memcpy(q->c, b, sizeof q->c);
    /* between the points it misses more than at them, and like boxes miss alike, which a sum of
     * squares counts as if each were news: made boxes (pullback-lab fit-check) hold it to that */
    q->residual = sqrt(sum / (PB_FIT_POINTS - PB_FIT_TERMS)) * 2.0 *
                  sqrt(1.0 + (double)PB_FIT_TERMS / PB_FIT_POINTS);
    return PB_OK;
}

double pb_fit_at(const PbFitQuadratic *q, const PbFitPoint *point)
{
    PbFitScale scale = pb_fit_scale();
    double t[PB_FIT_TERMS];
    pb_fit_terms(&scale, point, t);
    return pb_exp(pb_fit_log(q, t));
}
