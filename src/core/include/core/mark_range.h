/**
 * @file mark_range.h
 * @brief How sure a mark is: a recorded run worked again over draws of the constants of material
 * and machine that nobody knows well.
 *
 * Each draw moves the PB_RANGE_CONSTANTS constants that carry density within the low and high of
 * their rows in assets/constants.json, half of the draws below the shipped value and half above
 * (core/spread.h); one that was set by hand for the run stays. Where a material was fitted to
 * weighed boxes, its own draws are taken instead (core/product.h). The strength of the face is not
 * among them: harm is marked against the strength expected of it.
 *
 * Other constants move the stall by seconds, and acts kept by the clock would then come before it
 * or long after it, which no crew does. So the hands of a draw go by the same rule as the recorded
 * ones: at a stop that they left after its stall, what they did after the stall comes as long after
 * the stall of that draw; they wait for it at most as long again as they did, and 10 s. All else
 * keeps its time. A hose that clogs in a draw is cleared with the machine off, as taught, and the
 * stop goes on.
 *
 * A draw depends on (run, seed, index) alone: they may run in any order, on any thread.
 */
#ifndef CORE_MARK_RANGE_H
#define CORE_MARK_RANGE_H

#include "core/machine.h"
#include "core/product.h"
#include "core/run_record.h"
#include "core/score.h"
#include "core/spread.h"

#define PB_RANGE_CONSTANTS PB_CARRIERS
/** Draws that programs take: twice forty halves of a second of processor time for a plain bay. */
#define PB_RANGE_DRAWS PB_PRODUCT_DRAWS

/** What is worked again. All borrowed for the calls. */
typedef struct PbRangeSetup {
    const PbRunFile *run; /**< that came to its end */
    const PbLift *lifts;  /**< its stops, as its own replay has them */
    int lift_count;
    const PbRubric *rubric;
    const PbClimate *climate; /**< NULL: the years part is left out, as pb_score_session */
    uint64_t seed;            /**< of the draws */
    /** NULL: that of the run. Another machine: its gate at the start too; the hands open the gate
     * as far as they did. */
    const PbRig *rig;
    /** NULL: that of the run. After a fit its draws are taken, correlations and all, in place of
     * the ranges of the table. */
    const PbProduct *product;
} PbRangeSetup;

/** What one draw gives. */
typedef struct PbRangeDraw {
    double mean_kg_m3;
    double weakest_kg_m3; /**< mean of the softest slice of the rubric's height */
    double total;         /**< of 100 */
    int is_pass;
} PbRangeDraw;

/** Of many. */
typedef struct PbMarkRange {
    int draws, passes;
    PbBand mean_kg_m3, weakest_kg_m3, total;
} PbMarkRange;

/** @brief Name of a constant that draws move. @param[in] i 0 .. PB_RANGE_CONSTANTS - 1 */
const char *pb_range_constant(int i);
/** @brief The constants of draw `index`. */
PbConstants pb_range_constants(const PbConstants *base, uint64_t seed, int index);
/** @brief The same from a material: draws of its fit, where there was one. @param[in] product NULL:
 * none is named @param[in] base its constants, or those of the run */
PbConstants pb_range_drawn(const PbProduct *product, const PbConstants *base, uint64_t seed,
                           int index);
/** @brief What a marked run comes to as a draw. */
PbRangeDraw pb_range_of(const PbScore *score);
/**
 * @brief Work one draw.
 * @param[out] draw untouched unless PB_OK
 * @return PB_OK; as pb_watched_start, pb_watched_step, pb_watched_mark
 */
PB_NODISCARD PbStatus pb_range_draw(const PbRangeSetup *setup, int index, PbRangeDraw *draw,
                                    PbError *err);
/** @brief Bands over draws. @param[in] count 1 to PB_RANGE_DRAWS */
PbMarkRange pb_range_sum(const PbRangeDraw *draws, int count);

#endif
