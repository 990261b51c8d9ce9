/**
 * @file fit.h
 * @brief What weighed boxes say of the eight constants that carry density (core/product.h).
 *
 * Each box is packed by scripted hands at many points of the constants' ranges; a quadratic in
 * their logarithms stands in for the runs from then on, and what it misses is added to the error.
 * The posterior under the ranges as they are drawn everywhere (core/spread.h: half below the
 * shipped value, half above) is sampled by an ensemble of walkers. docs/physics/fit.md
 *
 * Runs are the caller's to spread over threads: pb_fit_run_box. All else is a function of the
 * answers and takes no time to speak of.
 */
#ifndef CORE_FIT_H
#define CORE_FIT_H

#include "core/hands.h"
#include "core/machine.h"
#include "core/product.h"

#include <stdint.h>

#define PB_FIT_BOXES     24
#define PB_FIT_LEAST     3  /**< boxes that differ, for eight constants */
#define PB_FIT_POINTS    96 /**< of the ranges at which a box is packed */
#define PB_FIT_TERMS     45 /**< of a quadratic in eight numbers */
#define PB_FIT_SAMPLES   4096
#define PB_FIT_GAUGE_REL 0.10 /**< scatter of a gauge that swings; common practice, no source */

/** A box or bay that was packed and weighed. */
typedef struct PbFitBox {
    double width_m, height_m, depth_m;
    double mass_kg; /**< of fill in it */
    double static_pa, feed_kg_s, step_m, wait_s;
    double gauge_pa;       /**< at the blower when the flow had died; 0 = not read */
    double leak75_m3_s_m2; /**< as in an exercise: of both faces, per face area */
} PbFitBox;

/** What one run of a box gives. */
typedef struct PbFitAnswer {
    double kg_m3;
    double gauge_pa; /**< mean over its stalls; 0 = it never stalled */
} PbFitAnswer;

/** One point of the ranges: -1 low, 0 shipped, 1 high of each carrier. */
typedef struct PbFitPoint {
    double z[PB_CARRIERS];
} PbFitPoint;

/** Quadratic of a logarithm over the ranges, and what it misses (standard deviation). */
typedef struct PbFitQuadratic {
    double c[PB_FIT_TERMS];
    double residual;
} PbFitQuadratic;

typedef struct PbFitBand {
    double low, mid, high; /**< 5, 50, 95 % */
} PbFitBand;

/** What came of it. */
typedef struct PbFit {
    PbFitPoint mean;                       /**< of the posterior */
    PbFitBand constant[PB_CARRIERS];       /**< in their own units */
    double kept[PB_CARRIERS];              /**< width of the 90 % interval over that of the range */
    double corr[PB_CARRIERS][PB_CARRIERS]; /**< of z */
    PbFitBand box[PB_FIT_BOXES];           /**< density predicted, kg/m3 */
    double chi2;                           /**< least that any sample has, over all that was read */
    int readings;                          /**< densities and gauges */
    double acceptance;                     /**< of the walkers' steps */
    PbFitPoint draw[PB_PRODUCT_DRAWS];     /**< evenly out of the samples */
} PbFit;

/** @brief Numbers of one box: names, units, ranges. */
const PbNumberRow *pb_fit_box_rows(size_t *count);
/** @brief One-foot steps into a plain bay, at 80 in w.c. */
PbFitBox pb_fit_box_default(void);
/** @brief Density as weighed. */
double pb_fit_weighed(const PbFitBox *box);
/** @brief The constants at a point. */
PbConstants pb_fit_constants(const PbFitPoint *point);
/** @brief Point `index` of PB_FIT_POINTS: a Latin hypercube, the same every time. */
PbFitPoint pb_fit_point(int index);
/** @brief A point as draw `index` of a stream has it, each carrier evenly in z. */
PbFitPoint pb_fit_drawn(uint64_t seed, int index);
/**
 * @brief The bay and the hands of a box: rigid faces, the hole at most 0.45 m up, as in the plain
 * exercise; up from 0.2 m under the top, then down.
 */
void pb_fit_box_job(const PbFitBox *box, const PbMachine *machine, PbExercise *exercise,
                    PbHands *hands);
/** @brief Pack it. @return as pb_session_create, pb_session_step; any thread */
PB_NODISCARD PbStatus pb_fit_run_box(const PbFitBox *box, const PbMachine *machine,
                                     const PbConstants *constants, PbFitAnswer *answer,
                                     PbError *err);
/** @brief The quadratic through answers at pb_fit_point(0 .. PB_FIT_POINTS - 1).
 * @param[in] values above 0; their logarithm is fitted. @return PB_OK; PB_ERR_RANGE for one that is
 * not */
PB_NODISCARD PbStatus pb_fit_quadratic(const double values[PB_FIT_POINTS], PbFitQuadratic *q);
/** @brief Its value at a point (no logarithm any more). */
double pb_fit_at(const PbFitQuadratic *q, const PbFitPoint *point);

/** What is sampled. All borrowed. */
typedef struct PbFitSetup {
    const PbFitBox *boxes;
    const PbFitQuadratic *density, *gauge; /**< one a box; of gauge only where it was read */
    int count;                             /**< 1 to PB_FIT_BOXES */
    double scatter; /**< relative standard deviation of a weighed density, weighing and hands */
    uint64_t seed;
} PbFitSetup;

/**
 * @brief Two weighings of one box farther apart than 3.3 standard deviations of their difference.
 * @param[out] first, second indices
 * @return nonzero when there are
 */
int pb_fit_contradicts(const PbFitSetup *setup, int *first, int *second);
/** @brief Boxes that differ in anything but their weight. */
int pb_fit_different(const PbFitBox *boxes, int count);
/**
 * @brief Sample the posterior.
 * @param[out] worst box that fits worst at the best sample
 * @return PB_OK; PB_ERR_NO_RESULT: nothing in the ranges gives all of the weights, one chance in a
 *         thousand (chi-square); PB_ERR_MEMORY. `fit` is whole in the first two cases.
 */
PB_NODISCARD PbStatus pb_fit_sample(const PbFitSetup *setup, PbFit *fit, int *worst);
/** @brief The product of a fit: the mean as its constants, and its draws. Words and bag are those
 * of `base`. */
PbProduct pb_fit_product(const PbFit *fit, const PbProduct *base);

/** A box that could be weighed next. */
typedef struct PbFitNext {
    PbFitBox box;
    const char *what; /**< N_() of the words; static storage */
} PbFitNext;
/** @brief Boxes to ask about. @param[out] count of them. Static storage. */
const PbFitNext *pb_fit_next(int *count);
/**
 * @brief Standard deviation of what is asked that stays after a box, over what it is now: by the
 * correlation of the two over draws.
 * @param[in] asked, box densities in the same draws
 */
double pb_fit_teaches(const double *asked, const double *box, int count, double scatter);

#endif
