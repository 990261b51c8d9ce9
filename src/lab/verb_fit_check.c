/*
 * fit-check: does a fit find what it was made of? Six boxes are packed at points of the constants'
 * ranges once; then boxes with known constants are packed, weighed with scatter and fitted, again
 * and again, and it is counted how often each constant lies in its own 90 % interval.
 */
#include "verbs.h"

#include "core/fit.h"
#include "core/rng.h"
#include "io/parallel.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

enum { BOXES = 6, MOST = 200, TRUTH_SEED = 4711 };

static const PbFitBox made[BOXES] = {
    {0.368, 1.2, 0.089, 0, 19900, 0.065, 0.3, 1, 0, 0.01},
    {0.368, 1.2, 0.089, 0, 19900, 0.03, 0.6, 1, 0, 0.01},
    {0.368, 1.2, 0.089, 0, 10000, 0.03, 0.3, 1, 0, 0.01},
    {0.368, 1.2, 0.14, 0, 19900, 0.065, 0.3, 1, 0, 0.01},
    {0.57, 1.2, 0.089, 0, 15000, 0.065, 0.3, 5, 0, 0.01},
    {0.368, 2.35, 0.089, 0, 19900, 0.065, 0.6, 1, 0, 0.01},
};

typedef struct Work {
    int truths;
    PbFitAnswer at_point[BOXES][PB_FIT_POINTS], at_truth[MOST][BOXES];
    PbStatus status;
} Work;

static void pack_one(void *context, int index)
{
    Work *w = context;
    int box = index % BOXES, n = index / BOXES;
    PbMachine machine = pb_rig_default().machine;
    PbFitPoint point =
        n < PB_FIT_POINTS ? pb_fit_point(n) : pb_fit_drawn(TRUTH_SEED, n - PB_FIT_POINTS);
    PbConstants c = pb_fit_constants(&point);
    PbFitAnswer *answer =
        n < PB_FIT_POINTS ? &w->at_point[box][n] : &w->at_truth[n - PB_FIT_POINTS][box];
    PbError err;
    PbStatus status = pb_fit_run_box(&made[box], &machine, &c, answer, &err);
    if (status != PB_OK) {
        w->status = status;
    }
}

typedef struct Quadratics {
    PbFitQuadratic density[BOXES], gauge[BOXES];
    int has_gauge[BOXES];
} Quadratics;

typedef struct Counted {
    int in[PB_CARRIERS], mean_in, refused;
    double kept[PB_CARRIERS];
} Counted;

static PbStatus fit_one(const Work *w, const Quadratics *q, int n, Counted *c)
{
    enum { SCATTER_STREAM = 99 };
    static const double SCATTER = 0.03;
    PbFitBox boxes[BOXES];
    PbFit fit;
    int worst;
    PbFitPoint truth = pb_fit_drawn(TRUTH_SEED, n);
    PbRng rng = pb_rng_make(TRUTH_SEED + SCATTER_STREAM, (uint64_t)n);
    for (int i = 0; i < BOXES; i++) {
        const PbFitAnswer *a = &w->at_truth[n][i];
        boxes[i] = made[i];
        boxes[i].mass_kg = a->kg_m3 * made[i].width_m * made[i].height_m * made[i].depth_m *
                           (1.0 + SCATTER * pb_rng_normal(&rng));
        double gauge_pa = a->gauge_pa * (1.0 + PB_FIT_GAUGE_REL * pb_rng_normal(&rng));
        boxes[i].gauge_pa = q->has_gauge[i] ? gauge_pa : 0.0;
    }
    PbFitSetup setup = {boxes, q->density, q->gauge, BOXES, SCATTER, 1};
    PbStatus status = pb_fit_sample(&setup, &fit, &worst);
    if (status == PB_ERR_MEMORY) {
        return status;
    }
    c->refused += status == PB_ERR_NO_RESULT;
    PbConstants known = pb_fit_constants(&truth);
    for (int k = 0; k < PB_CARRIERS; k++) {
        double v = pb_constant_value(&known, pb_carrier_info(k));
        c->in[k] += v >= fit.constant[k].low && v <= fit.constant[k].high;
        c->kept[k] += fit.kept[k];
    }
    double plain = w->at_truth[n][0].kg_m3;
    c->mean_in += plain >= fit.box[0].low && plain <= fit.box[0].high;
    return PB_OK;
}

static PbStatus quadratics(const Work *w, Quadratics *q)
{
    for (int i = 0; i < BOXES; i++) {
        double d[PB_FIT_POINTS], g[PB_FIT_POINTS];
        for (int p = 0; p < PB_FIT_POINTS; p++) {
            d[p] = w->at_point[i][p].kg_m3;
            g[p] = w->at_point[i][p].gauge_pa;
        }
        PB_TRY(pb_fit_quadratic(d, &q->density[i]));
        q->has_gauge[i] = pb_fit_quadratic(g, &q->gauge[i]) == PB_OK;
        printf("box %d: a quadratic misses density by %.1f %%", i + 1,
               100.0 * q->density[i].residual);
        if (q->has_gauge[i]) {
            printf(", the gauge by %.1f %%\n", 100.0 * q->gauge[i].residual);
        } else { /* as cli_fit */
            printf("; it does not always stall, so its gauge is not read\n");
        }
    }
    return PB_OK;
}

typedef struct Options {
    int sets;
} Options;

const CliOption fit_check_options[] = {
    {"--sets", "N", "made sets of boxes, default 50", cli_take_whole, .at = offsetof(Options, sets),
     .low = 1, .high = MOST},
    {.name = NULL},
};

static PbStatus check(Work *w, Counted *c)
{
    Quadratics q;
    IoParallel crew = io_parallel_default();
    io_parallel_for(&crew, BOXES * (PB_FIT_POINTS + w->truths), pack_one, w);
    PB_TRY(w->status);
    PB_TRY(quadratics(w, &q));
    for (int n = 0; n < w->truths; n++) {
        PB_TRY(fit_one(w, &q, n, c));
    }
    return PB_OK;
}

int verb_fit_check(const CliVerb *verb, int argc, char **argv)
{
    Options o = {.sets = 50};
    CliParsed parsed;
    Counted c = {.refused = 0};
    int code = cli_parse(verb, argc, argv, &o, 0, &parsed);
    if (code != CLI_DONE) {
        return code;
    }
    Work *w = calloc(1, sizeof *w);
    PbStatus status = w != NULL ? PB_OK : PB_ERR_MEMORY;
    if (w != NULL) {
        w->truths = o.sets;
        status = check(w, &c);
    }
    free(w);
    if (status != PB_OK) {
        return cli_printed(status);
    }
    int least = o.sets, sum = 0;
    for (int k = 0; k < PB_CARRIERS; k++) {
        printf("%-18s in its interval %d of %d; interval %.0f %% of the range's\n", pb_carrier(k),
               c.in[k], o.sets, 100.0 * c.kept[k] / o.sets);
        least = c.in[k] < least ? c.in[k] : least;
        sum += c.in[k];
    }
    printf("density of box 1   in its interval %d of %d\n", c.mean_in, o.sets);
    printf("refused as contradicting itself %d of %d\n", c.refused, o.sets);
    printf("all constants %.1f %%, the least %d of %d\n", 100.0 * sum / (PB_CARRIERS * o.sets),
           least, o.sets);
    return CLI_DONE;
}
