/**
 * @file score.h
 * @brief Marks for a finished run: points a part, and where, when and why each point went.
 *
 * A pure function of what the run left behind and of a rubric: the same run always gets the same
 * marks. Parts, with the weights of the default rubric:
 *
 *   on target   40  share of the fillable area whose patch is at or above the target density
 *   weakest     15  min(1, 5th-percentile patch density / target)
 *   years       15  half for the top gap, half for the inner voids that settling is predicted to
 *                   leave after 30 years in the exercise's climate (core/settle.h); each half falls
 *                   evenly to 0 at its limit
 *   no harm     15  full up to 0.75 of the panel's strength, falling evenly to 0 at 0.90 (the
 *                   strength of a sheet is known to some 40 % either way: the range of
 *                   gypsum_12_7_pa); 0 when the panel gave way, and the whole score is then held to
 *                   40; minus 1 for each point of the check list left out before work and minus 5
 *                   each time somebody insisted on clearing a plug under power (core/marks.h), not
 * below 0 material     5  used = all that was fed, wanted = fillable volume x target: full
 * from 1.00 to 1.18 of wanted (a bay packed in good one-foot steps that is nowhere under target
 * holds 1.16 to 1.17), falling evenly to 0 at 0.80 and at 1.30 hands       10  share of good stops,
 * minus 3 a plug, minus 2 when more than 0.05 kg went outside the bay, not below 0. A stop is good
 * when the step to it is at most 0.38 m (one foot and a quarter), the flow stalled before the tube
 * moved on, and the mouth stayed at most 10 s after the stall. Stops where less than stop_min_kg
 * arrived are passing through, not stops. An end of the bay that no stop came near, though nothing
 * stood in the way, counts as a bad stop.
 *
 * The total is the sum over the parts' maximum, times 100. Weights, limits and rates are this
 * program's own rubric: practice a trainer would recognise, no published source, but for the
 * least blower pressure, which is 85 % of the 19.9 kPa (80 in w.c.) at the hose outlet that the
 * Standard Work Specifications 4.1101.5 (US DOE, NREL) ask for.
 */
#ifndef CORE_SCORE_H
#define CORE_SCORE_H

#include "core/session.h"
#include "core/settle.h"

#define PB_SCORE_PARTS       6
#define PB_SCORE_MAX_LOSSES  160
#define PB_SCORE_MAX_EVENTS  512
#define PB_SCORE_MAX_PATCHES 1024
#define PB_SCORE_MAX_LIFTS   512

typedef enum PbScorePartKind {
    PB_SCORE_ON_TARGET,
    PB_SCORE_WEAKEST,
    PB_SCORE_YEARS,
    PB_SCORE_NO_HARM,
    PB_SCORE_MATERIAL,
    PB_SCORE_HANDS
} PbScorePartKind;

/** Why points went. Append only: numbers stand in files. `value` is what PbLoss.value holds. */
typedef enum PbScoreFault {
    PB_FAULT_NONE,
    PB_FAULT_SOFT_PATCHES, /**< no single cause found; value: lowest density, kg/m3 */
    PB_FAULT_WEAK_PLACE,   /**< value: 5th-percentile density, kg/m3 */
    PB_FAULT_PANEL_LOAD,   /**< value: peak load over strength */
    PB_FAULT_BLOW_OUT,     /**< value: peak load over strength */
    PB_FAULT_TOO_LITTLE,   /**< value: used over wanted */
    PB_FAULT_TOO_MUCH,     /**< value: used over wanted */
    PB_FAULT_LONG_STEP,    /**< value: step, m */
    PB_FAULT_LEFT_EARLY,   /**< value: seconds at the stop */
    PB_FAULT_STAYED_LONG,  /**< value: seconds after the stall */
    PB_FAULT_PLUG,         /**< value: kg in the hose */
    PB_FAULT_FED_OUTSIDE,  /**< value: kg */
    PB_FAULT_NOTHING_DONE, /**< no stop at all */
    PB_FAULT_MISSED,       /**< out of reach of every stop; value: m from the nearest mouth */
    PB_FAULT_WEAK_AIR,     /**< value: static pressure that the blower was set to, Pa */
    PB_FAULT_RICH_FEED,    /**< value: feed gate, kg/s */
    PB_FAULT_TOP_GAP,      /**< value: predicted top gap, m */
    PB_FAULT_LATE_VOID,    /**< value: predicted inner void, m2 of face */
    PB_FAULT_LOST_FILL,    /**< fed but not in the bay; value: kg */
    PB_FAULT_CAPPED,       /**< the whole score is held after a blow-out; value: the limit */
    PB_FAULT_CHECKS,       /**< points of the check list left out; value: how many */
    PB_FAULT_POWER_ON,     /**< insisted on clearing a plug under power; value: 1 */
    PB_FAULT_LIMIT         /**< number of causes */
} PbScoreFault;

/** What a trainer may set; docs/formats/rubric.md. */
typedef struct PbRubric {
    char name[64];
    double weight[PB_SCORE_PARTS];
    double pass_score; /**< negative: the exercise's own */

    double panel_free;      /**< load over strength up to which nothing is lost */
    double panel_zero;      /**< load over strength at which nothing is left */
    double blown_cap;       /**< most that a run with a blow-out can get */
    double material_span;   /**< 1 - used / wanted at which nothing is left */
    double material_free;   /**< used / wanted - 1 up to which nothing is lost */
    double material_over;   /**< beyond that: share at which nothing is left */
    double step_max_m;      /**< longest good step */
    double after_stall_s;   /**< longest good stay after a stall */
    double stop_min_kg;     /**< less than this is passing through */
    double plug_points;     /**< off hands, each */
    double outside_points;  /**< off hands, once */
    double outside_free_kg; /**< blown outside without loss */
    double check_points;    /**< off no harm, each point of the check list left out */
    double power_points;    /**< off no harm, each insisting on clearing a plug under power */
    double years;           /**< horizon of the years part */
    double top_gap_zero_m;  /**< top gap at which its half is gone */
    double void_zero_frac;  /**< of the face: inner void at which its half is gone */
    double reach_m;         /**< a patch further from every stop was missed */
    double air_min_pa;      /**< static pressure under which softness is laid to weak air */
    double feed_max_kg_s;   /**< feed above which softness is laid to it */
} PbRubric;

typedef struct PbScorePart {
    PbScorePartKind kind;
    double points, max;
    PbScoreFault fault; /**< of the dearest loss of this part */
    double value;       /**< of that loss */
    int count;          /**< losses of this part; soft patches for on target */
    double y_m;         /**< place of the dearest loss along the bay; negative = no one place */
    double time_s;      /**< of it; negative = no one time */
} PbScorePart;

/** Points that went at one place and time for one cause. */
typedef struct PbLoss {
    PbScorePartKind part;
    PbScoreFault cause;
    double points;        /**< of the part's own maximum */
    double value;         /**< see PbScoreFault */
    double density_kg_m3; /**< mean of the patches it is about; negative = not about patches */
    double x_m, y_m;      /**< where; always given */
    double y0_m, y1_m;    /**< height band that it covers, y0 <= y <= y1 */
    double time_s;        /**< when it was done; always given */
    int lift;             /**< index of the stop to blame, negative = none */
} PbLoss;

typedef struct PbScore {
    PbScorePart parts[PB_SCORE_PARTS];
    double total; /**< of 100 */
    double pass_score;
    int is_pass; /**< total at or above the pass mark, and the panel held */
    /** Losses, part by part, dearest first in each part. Points of a part + its losses = its
     * maximum; CAPPED stands under no harm and counts in the total only. */
    PbLoss losses[PB_SCORE_MAX_LOSSES];
    int loss_count;
    int has_years;
    double top_gap_m, inner_void_m2, void_area_m2; /**< predicted at the rubric's horizon */
} PbScore;

/** What the blower and the gate were set to during one stop. */
typedef struct PbLiftWatch {
    double static_pa; /**< highest static pressure that the blower was set to */
    double feed_kg_s; /**< widest gate with the machine on */
    int plugs;        /**< that happened during it */
    double left_s;    /**< last moment with the mouth within 50 mm; 0 = not seen */
} PbLiftWatch;

/** What has to be seen while a run goes on. Zero it, then show it every step. Plain value. */
typedef struct PbScoreWatch {
    PbEvent events[PB_SCORE_MAX_EVENTS];
    int event_count; /**< of later ones only those that cost points are kept, in place of others */
    double peak_load, peak_x_m, peak_y_m, peak_time_s;
    PbLiftWatch lifts[PB_SCORE_MAX_LIFTS];
} PbScoreWatch;

/** What is marked. All borrowed for the call. */
typedef struct PbScoreInput {
    const PbExercise *exercise;
    const PbResult *result;
    const PbPatch *patches;
    int patch_count;
    const PbLift *lifts;
    int lift_count;
    const PbScoreWatch *watch;
    const PbSettleReport *years; /**< NULL: the years part is left out (0 of 0) */
    const PbRubric *rubric;
} PbScoreInput;

/** @brief The default rubric, as on top of this page. */
PbRubric pb_rubric_default(void);
/** @brief Is it a stop by this rubric, rather than the mouth passing through? */
int pb_is_stop(const PbLift *lift, const PbRubric *rubric);
/** @brief Judge a rubric; as pb_exercise_check. */
PB_NODISCARD PbStatus pb_rubric_check(const PbRubric *rubric, char *field, size_t size,
                                      PbError *err);
/** @brief Hash over all numbers of a rubric, not its name. */
uint64_t pb_rubric_hash(const PbRubric *rubric);

/** @brief Look at a session after a step. Allocates nothing. */
void pb_score_watch(PbScoreWatch *watch, const PbSession *session);

/**
 * @brief Mark a run.
 * @param[out] score untouched unless PB_OK
 * @return PB_OK; PB_ERR_RANGE when a figure of the result is not finite or the target is not above
 *         0. Deterministic, allocates nothing.
 */
PB_NODISCARD PbStatus pb_score(const PbScoreInput *in, PbScore *score);

/**
 * @brief Mark a session as it stands: measures it, ages it, marks it.
 * @param[in] watch   shown every step of this session
 * @param[in] climate of the exercise; NULL leaves the years part out
 * @param[in] rubric  NULL: the default
 * @return PB_OK; as pb_score, pb_settle_create, pb_settle_advance
 */
PB_NODISCARD PbStatus pb_score_session(const PbSession *session, const PbScoreWatch *watch,
                                       const PbClimate *climate, const PbRubric *rubric,
                                       PbScore *score);

#endif
