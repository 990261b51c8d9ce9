/**
 * @file score.h
 * @brief Marks for a finished run: points a part, and where and when the points went.
 *
 * A pure function of what the run left behind: the same run always gets the same marks. Parts:
 *
 *   on target   40  40 x share of patches, by fillable area, at or above the target density
 *   weakest     15  15 x min(1, 5th-percentile patch density / target)
 *   no harm     15  15 up to 0.75 of the panel's strength, falling evenly to 0 at 1.00; 0 when the
 *                   panel gave way, and the whole score is then held to PB_SCORE_BLOWN_CAP
 *   material     5   used = all that was fed, wanted = fillable volume x target: 5 from 1.00
 * to 1.10 of wanted (a bay that is nowhere under target holds a little more than target), falling
 * evenly to 0 at 0.80 and at 1.30 hands       10  10 x share of good stops, minus 3 a plug, minus 2
 * when more than 0.05 kg went outside the bay, not below 0. A stop is good when the step to it is
 * at most 0.38 m (one foot and a quarter), the flow stalled before the tube moved on, and the mouth
 * stayed at most 10 s after the stall. Stops where less than 0.02 kg arrived are passing through,
 * not stops.
 *
 * The total is the sum over the parts' maximum, times 100. Weights, limits and rates are this
 * program's own rubric: practice a trainer would recognise, no published source.
 */
#ifndef CORE_SCORE_H
#define CORE_SCORE_H

#include "core/session.h"

#define PB_SCORE_PARTS     5
#define PB_SCORE_BLOWN_CAP 40.0

typedef enum PbScorePartKind {
    PB_SCORE_ON_TARGET,
    PB_SCORE_WEAKEST,
    PB_SCORE_NO_HARM,
    PB_SCORE_MATERIAL,
    PB_SCORE_HANDS
} PbScorePartKind;

/** What cost most in a part. */
typedef enum PbScoreFault {
    PB_FAULT_NONE,
    PB_FAULT_SOFT_PATCHES, /**< value: patches under target */
    PB_FAULT_WEAK_PLACE,   /**< value: 5th-percentile density, kg/m3 */
    PB_FAULT_PANEL_LOAD,   /**< value: peak load over strength */
    PB_FAULT_BLOW_OUT,     /**< value: peak load over strength */
    PB_FAULT_TOO_LITTLE,   /**< value: used over wanted */
    PB_FAULT_TOO_MUCH,     /**< value: used over wanted */
    PB_FAULT_LONG_STEP,    /**< value: step, m */
    PB_FAULT_LEFT_EARLY,   /**< value: seconds at the stop */
    PB_FAULT_STAYED_LONG,  /**< value: seconds after the stall */
    PB_FAULT_PLUG,         /**< value: how many */
    PB_FAULT_FED_OUTSIDE,  /**< value: kg */
    PB_FAULT_NOTHING_DONE  /**< no stop at all */
} PbScoreFault;

typedef struct PbScorePart {
    PbScorePartKind kind;
    double points, max;
    PbScoreFault fault;
    double value;  /**< of the fault */
    int count;     /**< of such faults */
    double y_m;    /**< place of the fault along the bay; negative = no one place */
    double time_s; /**< of the fault; negative = no one time */
} PbScorePart;

typedef struct PbScore {
    PbScorePart parts[PB_SCORE_PARTS];
    double total; /**< of 100 */
    int is_pass;  /**< total at or above the exercise's pass mark, and the panel held */
} PbScore;

/** What is marked. All borrowed for the call. */
typedef struct PbScoreInput {
    const PbExercise *exercise;
    const PbResult *result;
    const PbPatch *patches;
    int patch_count;
    const PbLift *lifts;
    int lift_count;
    double peak_y_m, peak_time_s; /**< of the panel load; negative when not known */
} PbScoreInput;

/**
 * @brief Mark a run.
 * @param[out] score untouched unless PB_OK
 * @return PB_OK; PB_ERR_RANGE when a figure of the result is not finite or the target is not above
 * 0 Deterministic, allocates nothing.
 */
PB_NODISCARD PbStatus pb_score(const PbScoreInput *in, PbScore *score);

#endif
