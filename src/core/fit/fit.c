/*
 * The posterior of the carriers by an ensemble of walkers that stretch towards each other (Goodman
 * and Weare, Commun. Appl. Math. Comput. Sci. 5, 2010): no step length to tune, and correlations do
 * not slow it. Next: quadratic.c, box.c.
 */
#include "fit/fit_private.h"

#include "core/alloc.h"
#include "core/pb_math.h"
#include "core/rng.h"
#include "core/spread.h"

#include <assert.h>
#include <math.h>
#include <string.h>

enum { WALKERS = 64, SETTLE = 600, STEPS = 1200 }; /* sweeps over all walkers */
static const double STRETCH = 2.0;                 /* as in the paper */
static const double CHANCE_Z = 3.0902;             /* one in a thousand */

/* Share of chi-square of one box, by the terms of a point. */
static double misfit(const PbFitSetup *s, int i, const double t[PB_FIT_TERMS])
{
    const PbFitBox *b = &s->boxes[i];
    double off = pb_log(pb_fit_weighed(b)) - pb_fit_log(&s->density[i], t);
    double r = s->density[i].residual, sum = off * off / (s->scatter * s->scatter + r * r);
    if (b->gauge_pa > 0.0) {
        off = pb_log(b->gauge_pa) - pb_fit_log(&s->gauge[i], t);
        r = s->gauge[i].residual;
        sum += off * off / (PB_FIT_GAUGE_REL * PB_FIT_GAUGE_REL + r * r);
    }
    return sum;
}

static double chi2_of(const PbFitSetup *s, const PbFitScale *scale, const PbFitPoint *p)
{
    double t[PB_FIT_TERMS], sum = 0.0;
    pb_fit_terms(scale, p, t);
    for (int i = 0; i < s->count; i++) {
        sum += misfit(s, i, t);
    }
    return sum;
}

int pb_fit_contradicts(const PbFitSetup *s, int *first, int *second)
{
    for (int i = 0; i < s->count; i++) {
        for (int k = 0; k < i; k++) {
            const PbFitBox pair[2] = {s->boxes[k], s->boxes[i]};
            double off = pb_log(pb_fit_weighed(&pair[1]) / pb_fit_weighed(&pair[0]));
            if (pb_fit_different(pair, 2) == 1 && fabs(off) > 3.3 * s->scatter * sqrt(2.0)) {
                *first = k;
                *second = i;
                return 1;
            }
        }
    }
    return 0;
}

typedef struct Walk {
    PbFitScale scale;
    PbFitPoint at[WALKERS];
    double chi2[WALKERS];
    PbFitPoint sample[PB_FIT_SAMPLES];
    double sorted[PB_FIT_SAMPLES];
    PbFitPoint best;
    double least;
    int taken, tried;
} Walk;

static int is_inside(const PbFitPoint *p)
{
    for (int k = 0; k < PB_CARRIERS; k++) {
        if (!(fabs(p->z[k]) <= 1.0)) {
            return 0;
        }
    }
    return 1;
}

static void step(Walk *w, const PbFitSetup *s, int i, PbRng *rng)
{
    int half = WALKERS / 2;
    int other = (i < half ? half : 0) + (int)(pb_rng_uniform(rng) * half);
    double root = 1.0 + (STRETCH - 1.0) * pb_rng_uniform(rng);
    double g = root * root / STRETCH; /* density 1/sqrt(g) between 1/2 and 2 */
    PbFitPoint to;
    for (int k = 0; k < PB_CARRIERS; k++) {
        to.z[k] = w->at[other].z[k] + g * (w->at[i].z[k] - w->at[other].z[k]);
    }
    double chance = pb_rng_uniform(rng);
    w->tried++;
    if (!is_inside(&to)) {
        return;
    }
    double chi2 = chi2_of(s, &w->scale, &to);
    if (pb_log(pb_max(chance, 1e-300)) <
        (PB_CARRIERS - 1) * pb_log(g) + 0.5 * (w->chi2[i] - chi2)) {
        w->at[i] = to;
        w->chi2[i] = chi2;
        w->taken++;
        if (chi2 < w->least) {
            w->least = chi2;
            w->best = to;
        }
    }
}

static void walk(Walk *w, const PbFitSetup *s)
{
    PbRng rng = pb_rng_make(s->seed, 77u);
    w->scale = pb_fit_scale();
    w->least = 1e300;
    for (int i = 0; i < WALKERS; i++) {
        w->at[i] = pb_fit_drawn(s->seed, i);
        w->chi2[i] = chi2_of(s, &w->scale, &w->at[i]);
    }
    for (int n = 0; n < SETTLE + STEPS; n++) {
        for (int i = 0; i < WALKERS; i++) {
            step(w, s, i, &rng);
        }
        if (n >= SETTLE) { /* the samples evenly out of the sweeps */
            int from = (int)((long)(n - SETTLE) * PB_FIT_SAMPLES / STEPS);
            int to = (int)((long)(n - SETTLE + 1) * PB_FIT_SAMPLES / STEPS);
            for (int m = from; m < to; m++) {
                w->sample[m] = w->at[(m * 29) % WALKERS];
            }
        }
    }
}

/* 5, 50 and 95 % of w->sorted, in place. */
static PbFitBand band_of(Walk *w)
{
    pb_spread_sort(w->sorted, PB_FIT_SAMPLES);
    return (PbFitBand){w->sorted[PB_FIT_SAMPLES / 20], w->sorted[PB_FIT_SAMPLES / 2],
                       w->sorted[PB_FIT_SAMPLES - 1 - PB_FIT_SAMPLES / 20]};
}

static void sum_constants(Walk *w, PbFit *fit)
{
    for (int k = 0; k < PB_CARRIERS; k++) {
        double sum = 0.0;
        for (int m = 0; m < PB_FIT_SAMPLES; m++) {
            w->sorted[m] = pb_fit_value(&w->scale, k, w->sample[m].z[k]);
            sum += w->sample[m].z[k];
        }
        fit->mean.z[k] = sum / PB_FIT_SAMPLES;
        fit->constant[k] = band_of(w);
        for (int m = 0; m < PB_FIT_SAMPLES; m++) {
            w->sorted[m] = w->sample[m].z[k];
        }
        PbFitBand z = band_of(w);
        fit->kept[k] = (z.high - z.low) / 1.8; /* 90 % of the range itself */
    }
}

static void sum_correlations(const Walk *w, PbFit *fit)
{
    double cov[PB_CARRIERS][PB_CARRIERS] = {{0.0}};
    for (int m = 0; m < PB_FIT_SAMPLES; m++) {
        for (int i = 0; i < PB_CARRIERS; i++) {
            for (int k = 0; k < PB_CARRIERS; k++) {
                cov[i][k] +=
                    (w->sample[m].z[i] - fit->mean.z[i]) * (w->sample[m].z[k] - fit->mean.z[k]);
            }
        }
    }
    for (int i = 0; i < PB_CARRIERS; i++) {
        for (int k = 0; k < PB_CARRIERS; k++) {
            fit->corr[i][k] = cov[i][k] / sqrt(cov[i][i] * cov[k][k]);
        }
    }
}

static void sum_boxes(Walk *w, const PbFitSetup *s, PbFit *fit)
{
    fit->readings = s->count;
    for (int i = 0; i < s->count; i++) {
        fit->readings += s->boxes[i].gauge_pa > 0.0;
        for (int m = 0; m < PB_FIT_SAMPLES; m++) {
            double t[PB_FIT_TERMS];
            pb_fit_terms(&w->scale, &w->sample[m], t);
            w->sorted[m] = pb_exp(pb_fit_log(&s->density[i], t));
        }
        fit->box[i] = band_of(w);
    }
    for (int d = 0; d < PB_PRODUCT_DRAWS; d++) {
        fit->draw[d] = w->sample[(2 * d + 1) * PB_FIT_SAMPLES / (2 * PB_PRODUCT_DRAWS)];
    }
}

/* Chi-square that one in a thousand exceeds (Wilson and Hilferty, PNAS 17, 1931). Freedom is not
 * lessened by the eight constants: their ranges hold them, and doubt goes for the boxes. */
static double limit_of(int readings)
{
    double n = readings, part = 2.0 / (9.0 * n), root = 1.0 - part + CHANCE_Z * sqrt(part);
    return n * root * root * root;
}

PbStatus pb_fit_sample(const PbFitSetup *s, PbFit *fit, int *worst)
{
    assert(s != NULL && fit != NULL && worst != NULL);
    assert(s->count >= 1 && s->count <= PB_FIT_BOXES && s->scatter > 0.0);
    PbAllocator a = pb_allocator_default();
    Walk *w = a.alloc(a.user, sizeof *w);
    if (w == NULL) {
        return PB_ERR_MEMORY;
    }
    memset(w, 0, sizeof *w);
    walk(w, s);
    memset(fit, 0, sizeof *fit);
    sum_constants(w, fit);
    sum_correlations(w, fit);
    sum_boxes(w, s, fit);
    fit->chi2 = w->least;
    fit->acceptance = (double)w->taken / w->tried;
    double t[PB_FIT_TERMS];
    pb_fit_terms(&w->scale, &w->best, t);
    *worst = 0;
    for (int i = 1; i < s->count; i++) {
        *worst = misfit(s, i, t) > misfit(s, *worst, t) ? i : *worst;
    }
    a.free(a.user, w);
    return fit->chi2 > limit_of(fit->readings) ? PB_ERR_NO_RESULT : PB_OK;
}

PbProduct pb_fit_product(const PbFit *fit, const PbProduct *base)
{
    PbProduct p = *base;
    PbConstants mean = pb_fit_constants(&fit->mean);
    p.constants = mean;
    p.own_count = PB_CARRIERS;
    p.draw_count = PB_PRODUCT_DRAWS;
    for (int d = 0; d < PB_PRODUCT_DRAWS; d++) {
        PbConstants c = pb_fit_constants(&fit->draw[d]);
        for (int k = 0; k < PB_CARRIERS; k++) {
            p.draw[d][k] = pb_constant_value(&c, pb_carrier_info(k));
        }
    }
    return p;
}

double pb_fit_teaches(const double *asked, const double *box, int count, double scatter)
{
    double ma = 0.0, mb = 0.0, aa = 0.0, bb = 0.0, ab = 0.0;
    for (int i = 0; i < count; i++) {
        ma += pb_log(asked[i]) / count;
        mb += pb_log(box[i]) / count;
    }
    for (int i = 0; i < count; i++) {
        double a = pb_log(asked[i]) - ma, b = pb_log(box[i]) - mb;
        aa += a * a / count;
        bb += b * b / count;
        ab += a * b / count;
    }
    double told = aa > 0.0 ? ab * ab / (aa * (bb + scatter * scatter)) : 0.0;
    return sqrt(pb_max(1.0 - told, 0.0));
}
