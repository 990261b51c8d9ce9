/**
 * @file score.h
 * @brief Marks for a finished run: points a part, and where, when and why each point went.
 *
 * A pure function of what the run left behind and of a rubric: the same run always gets the same
 * marks. First gates, then points.
 *
 * A bay passes only when every gate of PbGateKind is open. A broken or overloaded face and a safety
 * check left out fail the bay; a wall that is soft somewhere is to be done again.
 *
 * The points put walls into an order, the wall first. A patch of density rho counts
 * q(rho) = min(1, rho / target) of a full one: a kilogram counts alike wherever it is missing, and
 * a wall that is light all over is worth more than one with an empty place. The wall share s is the
 * mean of q over the fillable area. Parts, with the weights of the default rubric:
 *
 *   on target   40  three quarters s; a quarter falls evenly from full at a mean at target to 0 at
 *                   nine tenths of it: bags are counted, and so many were sold
 *   weakest     15  q cubed of the softest 0.3 m of height, which complaints are about
 *   years       15  s, less half for the top gap and half for the inner voids that settling is
 *                   predicted to leave after 30 years in the exercise's climate (core/settle.h);
 *                   each half falls evenly to 0 at its limit
 *   no harm     15  s, full up to a load of 0.75 of the strength that such a face is expected to
 *                   have, falling evenly to 0 at 0.90 (the strength of a sheet is known to some
 *                   40 % either way: the range of gypsum_12_7_pa). What a sheet happens to have is
 *                   luck and not in the mark. Minus 1 for each point of the check list left out
 *                   before work and minus 5 each time somebody insisted on clearing a plug under
 *                   power (core/marks.h), not below 0
 *   material     5  s, full up to 0.05 of the wanted mass wasted, half at 0.175, less and less
 *                   beyond, never 0: who throws away twice as much has lost more. Wasted: what did
 * not stay in the bay, and what lies in patches above over_kg_m3 hands       10  s, times the share
 * of good stops, minus 3 of 10 of what is left for each plug, minus 2 when more than 0.05 kg went
 * outside the bay, not below 0. A step over 0.38 m (one foot and a quarter) and a stop left before
 * the flow fell count as far as they left the wall soft there, a long stay after the stall as far
 * as it went beyond 5 s. Stops where less than stop_min_kg arrived are passing through, not stops.
 * An end of the bay that no stop came near, though nothing stood in the way, counts as a bad stop.
 *
 * Technique is worth as much as the wall that it left: an empty bay has 0 of everything, and so has
 * one with a broken face. Each rule is a slope, so that one tick or 10 mm move the total by less
 * than a point. The total is the sum over the parts' maximum, times 100. Weights, limits and rates
 * are this program's own rubric: practice a trainer would recognise, no published source, but for
 * the least blower pressure, which is 85 % of the 19.9 kPa (80 in w.c.) at the hose outlet that the
 * Standard Work Specifications 4.1101.5 (US DOE, NREL) ask for, and the least density of a slice,
 * 48 kg/m3 (3.0 lb/ft3), under which settling is reported for dense pack (see core/settle.h).
 */
#ifndef CORE_SCORE_H
#define CORE_SCORE_H

#include "core/session.h"
#include "core/settle.h"

/** Grows by one whenever the same run and rubric may get other marks. 1: points alone decided, all
 * or nothing at the target; 2: gates, then points; 3: the softest foot counts by the cube of its
 * worth, a bay may be left for a reason; 4: no slice needs more than the bay's target; 5: what
 * is missing counts alike everywhere, the mean counts, clogs and waste go on counting. Older grades
 * say by which rules they were made. */
#define PB_SCORE_RULES 5

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
    PB_SCORE_HANDS, /**< append only: numbers stand in files */
    PB_SCORE_PARTS  /**< number of parts */
} PbScorePartKind;

/** Everything that others may ask of a part; how it is marked stands in the same row (score.c). */
typedef struct PbScorePartTraits {
    const char *key;    /**< in files: lower case and _ */
    double weight;      /**< in the default rubric */
    int is_wall;        /**< tells what wall was left, not how: these have half of all points */
    int counts_patches; /**< PbScorePart.count is of soft patches, not of losses */
} PbScorePartTraits;

/** @brief The row of a part. @param[in] kind 0 .. PB_SCORE_PARTS - 1 */
const PbScorePartTraits *pb_score_part(PbScorePartKind kind);

/** Why points went. Append only: numbers stand in files. `value` is what PbLoss.value holds. */
typedef enum PbScoreFault {
    PB_FAULT_NONE,
    PB_FAULT_SOFT_PATCHES, /**< no single cause found; value: lowest density, kg/m3 */
    PB_FAULT_WEAK_PLACE,   /**< value: mean of the softest slice, kg/m3 */
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
    PB_FAULT_CAPPED,       /**< of rules 1: the whole score was held after a blow-out */
    PB_FAULT_CHECKS,       /**< points of the check list left out; value: how many */
    PB_FAULT_POWER_ON,     /**< insisted on clearing a plug under power; value: 1 */
    PB_FAULT_HELD,         /**< technique counts as far as the wall is good; value: wall share */
    PB_FAULT_WEAK_MACHINE, /**< its best is too little to pack; value: static pressure, Pa */
    PB_FAULT_BEHIND_WOOD,  /**< wood keeps the tube from it; value: height of the wood, m */
    PB_FAULT_OVER_DENSE,   /**< packed beyond use; value: kg above over_kg_m3 */
    PB_FAULT_SOFT_SLICE,   /**< gate; value: mean of the softest 0.3 m, kg/m3 */
    PB_FAULT_LOW_MEAN,     /**< gate; value: mean, kg/m3 */
    PB_FAULT_VOID,         /**< gate; value: area as good as empty, m2 */
    PB_FAULT_LOW_MARK,     /**< gate; value: the mark that was asked for */
    PB_FAULT_SHORT_TUBE,   /**< no tube of this machine gets there; value: its length, m */
    PB_FAULT_OPENINGS,     /**< gate; value: kg out through openings of the bay */
    PB_FAULT_SLOW,         /**< took long; value: time over a crew's usual */
    PB_FAULT_LIMIT         /**< number of causes */
} PbScoreFault;

/** What a bay must show to pass. */
typedef enum PbGateKind {
    PB_GATE_FACE,   /**< the face is whole */
    PB_GATE_LOAD,   /**< and was loaded under panel_zero of the strength expected of it */
    PB_GATE_CHECKS, /**< no safety check was left out */
    PB_GATE_MEAN,   /**< mean density at target */
    PB_GATE_SLICE,  /**< every slice_m of its height at slice_min_kg_m3, or at a target under 48
                     * kg/m3 */
    PB_GATE_VOID,   /**< no more than void_max_m2 as good as empty */
    PB_GATE_LOST,   /**< no more out through openings than the exercise allows, where it says */
    PB_GATE_MARK,   /**< points, rounded down to a whole number, at the pass mark */
    PB_GATES
} PbGateKind;

/** One gate. Places and times are given where the gate is shut. */
typedef struct PbGate {
    int is_shut;
    PbScoreFault fault;  /**< what shut it; value is what PbScoreFault says */
    double value, limit; /**< in one unit; mean, slice and mark: shut below the limit, void,
                            lost and load: above */
    double y0_m, y1_m;   /**< height band */
    double time_s;       /**< when it was done */
} PbGate;

typedef enum PbVerdict {
    PB_VERDICT_PASS,
    PB_VERDICT_REDO, /**< the wall is soft somewhere, or a weak sheet broke: to be done again */
    PB_VERDICT_FAIL  /**< harm done or risked: face, safety checks */
} PbVerdict;

/** What a trainer may set; docs/formats/rubric.md. */
typedef struct PbRubric {
    char name[64];
    int rules; /**< PB_SCORE_RULES for which it was made; its numbers are used by today's */
    double weight[PB_SCORE_PARTS];
    double pass_score; /**< negative: the exercise's own */

    double panel_free;      /**< load over expected strength up to which nothing is lost */
    double panel_zero;      /**< load over expected strength at which nothing is left */
    double material_free;   /**< wasted / wanted up to which nothing is lost */
    double material_half;   /**< wasted / wanted at which half is left */
    double over_kg_m3;      /**< fill denser than this is wasted */
    double slice_m;         /**< height of a slice */
    double slice_min_kg_m3; /**< least mean density of every slice */
    double void_max_m2;     /**< most of the face that may be as good as empty */
    double step_max_m;      /**< longest good step */
    double after_stall_s;   /**< longest good stay after a stall; twice as long is a bad stop */
    double stop_min_kg;     /**< less than this is passing through */
    double plug_points;     /**< off hands for the first; each further takes as large a share */
    double outside_points;  /**< off hands, once */
    double outside_free_kg; /**< blown outside without loss */
    double check_points;    /**< off no harm, each point of the check list left out */
    double power_points;    /**< off no harm, each insisting on clearing a plug under power */
    double years;           /**< horizon of the years part */
    double top_gap_zero_m;  /**< top gap at which its half is gone */
    double void_zero_frac;  /**< of the face: inner void at which its half is gone */
    double reach_m;         /**< a patch further from every stop was missed */
    double air_min_pa;      /**< static pressure that a machine fit for packing reaches */
    double air_share;       /**< of this machine's own: softness at a lower setting is laid to it */
    double feed_max_kg_s;   /**< feed above which softness is laid to it */
    double slow_points; /**< off hands for twice a crew's usual time and more, evenly from it on */
} PbRubric;

/** A limit of a rubric: its key, what it may be, what it is when nothing is said. */
typedef struct PbRubricLimit {
    const char *key, *unit;
    double low, high; /**< both allowed */
    double standard;
    size_t offset; /**< of the double in PbRubric */
} PbRubricLimit;

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

/** Judgement of a bay with `must_not_fill`. It is passed by leaving it, with next to nothing blown
 * in and for the right reason; that needs a static test where nothing else shows the reason. Doing
 * nothing, or a wrong reason, earns nothing; only in an exercise that names no reason, as older
 * ones do, doing nothing is enough. */
typedef struct PbLeaveVerdict {
    int applies;   /**< 0: an ordinary bay, or one that was mended by sealing it: the rest means
                    * nothing
                    */
    int is_empty;  /**< ended with no more than allowed blown in, at no more than three stops: who
                      works on through the bay has not noticed */
    int is_right;  /**< the reason, and how it was found */
    int is_tested; /**< a static test was made */
    int was_left;  /**< empty and right */
    PbLeaveReason reason, wanted; /**< given; of the exercise */
    int stops;                    /**< where material arrived */
    double blown_kg;              /**< fed in this run */
    double allowed_kg;            /**< of the exercise, 0.02 when it says nothing */
    double total; /**< score of the run instead of the rubric's: 100 when it was left, 0 when it is
                     empty without the right reason, otherwise at most 40, falling to 0 at 3 x
                     allowed */
} PbLeaveVerdict;

typedef struct PbScore {
    PbScorePart parts[PB_SCORE_PARTS];
    double total; /**< of 100 */
    double pass_score;
    double wall_share;    /**< s above */
    double height_m;      /**< of the bay */
    int is_more_air_safe; /**< at full blower the load of this run would have stayed without loss */
    PbGate gates[PB_GATES];
    PbVerdict verdict;
    int is_pass; /**< the verdict is PB_VERDICT_PASS */
    /** Losses, part by part, dearest first in each part. Points of a part + its losses = its
     * maximum. */
    PbLoss losses[PB_SCORE_MAX_LOSSES];
    int loss_count;
    int has_years;
    double top_gap_m, inner_void_m2, void_area_m2; /**< predicted at the rubric's horizon */
    PbLeaveVerdict leave;
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
    int event_count;  /**< of later ones only those that cost points are kept, in place of others */
    double peak_load; /**< over the strength expected of such a face */
    double peak_x_m, peak_y_m, peak_time_s;
    int is_weak_sheet; /**< it broke under a load that such a face is expected to bear */
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
/** @brief All limits of a rubric. */
const PbRubricLimit *pb_rubric_limits(size_t *count);
/** Parts that every rubric file knows. One that came later weighs nothing in a file that does not
 * name it. */
#define PB_RUBRIC_FIRST_PARTS 6
/**
 * @brief Hash over all numbers of a rubric, not its name. A part that came later and weighs
 * nothing, and a later limit at its standard, leave it as it was: grades from before stay of their
 * rubric.
 */
uint64_t pb_rubric_hash(const PbRubric *rubric);

/**
 * @brief What a crew usually takes for this bay, in seconds: its target mass through the gate as
 * the exercise sets it, and 4 s of moving the tube for each foot of height. Common practice: one to
 * three minutes for a 2x4 bay of 8 ft, nothing published.
 */
double pb_usual_s(const PbExercise *exercise);

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

/** @brief Was a bay that must not be filled left alone? Deterministic, allocates nothing. */
PbLeaveVerdict pb_leave_judge(const PbScoreInput *in);
/** @brief Put the verdict into a score: total, pass. Leaves the score of an ordinary bay alone. */
void pb_leave_apply(const PbLeaveVerdict *verdict, PbScore *score);

#endif
