/**
 * @file job_marks.h
 * @brief Marks of a job: gates, then points; every lost point with bay, place, minute and cause.
 *
 * A job passes when no gate is shut and it has PB_JOB_PASS points of 100. Parts, with their
 * weights:
 *
 *   found    25  share of the wall's fillable area that holds fill
 *   target   30  by area, what each bay is worth by its own mark (core/score.h, wall share). Pieces
 *                too small for the packing model are left out: nothing is known of them
 *   left     10  bays to leave that were left for the right reason; nothing of nothing without any
 *   holes    10  minus 2 for each hole in lumber, box or pipe, minus 1 for each that served nothing
 *   bags      5  half for an estimate within 15 % of area x depth x target over bag mass (16 CFR
 *                460.12), half for bags used within 15 % of one's own estimate; nothing at 30 %
 *   clean     5  protected before the first hole 2; all holes plugged 1, patched 1, room cleaned 1
 *   proved   10  camera after 4, a core 2, a finger 1, written down 3. A count of bags proves
 *                nothing about a missed bay and earns nothing here
 *   minutes   5  full to 1.25 of a crew's usual, nothing at 2.5: a band, since published minutes
 * are lacking (core/job.h)
 *
 * The last five count as far as the wall was filled, or, where all of it is to be left, left:
 * doing nothing earns nothing. The weights are this program's own: no published rubric was found.
 */
#ifndef CORE_JOB_MARKS_H
#define CORE_JOB_MARKS_H

#include "core/job.h"

#define PB_JOB_PASS      70.0
#define PB_JOB_BAYS      256
#define PB_JOB_LOSSES    256
#define PB_JOB_MISSED_M2 0.1 /**< largest part that may stay empty; 1 % of a 10 m2 wall */

/** Any one fails the job. Append-only, as all lists here: numbers stand in kept jobs. */
typedef enum PbJobGateKind {
    PB_JOB_GATE_LEAVE,  /**< no bay was filled that had to be left */
    PB_JOB_GATE_WIRE,   /**< no wire was drilled */
    PB_JOB_GATE_FACE,   /**< the face is whole */
    PB_JOB_GATE_SAFETY, /**< house checked before the first hole, machine tested before the fill */
    PB_JOB_GATE_MISSED, /**< no fillable part over PB_JOB_MISSED_M2 is empty */
    PB_JOB_GATES
} PbJobGateKind;

typedef enum PbJobPartKind {
    PB_JOB_PART_FOUND,
    PB_JOB_PART_TARGET,
    PB_JOB_PART_LEFT,
    PB_JOB_PART_HOLES,
    PB_JOB_PART_BAGS,
    PB_JOB_PART_CLEAN,
    PB_JOB_PART_PROVED,
    PB_JOB_PART_MINUTES,
    PB_JOB_PARTS
} PbJobPartKind;

/** Why points went or a gate is shut; what `value` of a loss holds. */
typedef enum PbJobFault {
    PB_JOB_FAULT_NONE,
    PB_JOB_FAULT_FILLED,        /**< had to be left; kg blown in */
    PB_JOB_FAULT_WIRE,          /**< - */
    PB_JOB_FAULT_FACE,          /**< load over strength */
    PB_JOB_FAULT_NO_CHECK,      /**< - */
    PB_JOB_FAULT_NO_TEST,       /**< - */
    PB_JOB_FAULT_MISSED,        /**< never filled; m2 */
    PB_JOB_FAULT_EMPTY,         /**< part of a filled bay; m2 */
    PB_JOB_FAULT_SOFT,          /**< mean of the bay, kg/m3; `cause` says why */
    PB_JOB_FAULT_NOT_LEFT,      /**< no reason given; m2 */
    PB_JOB_FAULT_WRONG_REASON,  /**< reason given, PbLeaveReason */
    PB_JOB_FAULT_LEFT_FILLABLE, /**< m2 */
    PB_JOB_FAULT_ON_LUMBER,     /**< hole; PbFeel that it met */
    PB_JOB_FAULT_NEEDLESS,      /**< hole that served no fill */
    PB_JOB_FAULT_NO_ESTIMATE,   /**< - */
    PB_JOB_FAULT_ESTIMATE_OFF,  /**< estimate over what the wall takes */
    PB_JOB_FAULT_BAGS_OFF,      /**< used over estimated */
    PB_JOB_FAULT_NO_PROTECT,    /**< - */
    PB_JOB_FAULT_NOT_PLUGGED,   /**< holes */
    PB_JOB_FAULT_NOT_PATCHED,   /**< holes */
    PB_JOB_FAULT_NOT_CLEANED,   /**< - */
    PB_JOB_FAULT_NO_CAMERA,     /**< - */
    PB_JOB_FAULT_NO_CORE,       /**< - */
    PB_JOB_FAULT_NO_FINGER,     /**< - */
    PB_JOB_FAULT_NOT_WRITTEN,   /**< - */
    PB_JOB_FAULT_SLOW,          /**< minutes */
    PB_JOB_FAULT_HELD,          /**< counts as far as the wall was done; share */
    PB_JOB_FAULTS
} PbJobFault;

/** One lost point, or a shut gate (points 0). */
typedef struct PbJobLoss {
    int part; /**< PbJobPartKind, or -1 - PbJobGateKind */
    PbJobFault fault;
    PbScoreFault cause; /**< of a soft bay */
    double points, value;
    int bay;         /**< from 0; -1 = none */
    double x_m, y_m; /**< on the wall; the middle of it where no one place is to blame */
    double minute;
} PbJobLoss;

typedef enum PbJobBayKind {
    PB_JOB_BAY_FILLED,
    PB_JOB_BAY_SMALL,   /**< filled; too small for a figure of its density */
    PB_JOB_BAY_LEFT,    /**< was to be left, and was, for the right reason */
    PB_JOB_BAY_UNSAID,  /**< was to be left, and was, without the right reason */
    PB_JOB_BAY_WRONGLY, /**< filled though it was to be left */
    PB_JOB_BAY_PASSED,  /**< left for a reason that does not hold */
    PB_JOB_BAY_MISSED,  /**< nobody filled it or said why */
    PB_JOB_BAY_NARROW,  /**< narrower than the hole: not counted */
    PB_JOB_BAY_KINDS
} PbJobBayKind;

/** What became of a bay. */
typedef struct PbJobBay {
    PbJobBayKind kind;
    double area_m2, filled_m2;
    double mean_kg_m3; /**< negative = not known, or no fill */
    double share;      /**< wall share of its mark */
    double kg;         /**< in it */
    PbLeaveReason left;
    int holes;
} PbJobBay;

typedef struct PbJobMarks {
    int is_shut[PB_JOB_GATES];
    double points[PB_JOB_PARTS], max[PB_JOB_PARTS];
    double total; /**< of 100 */
    int is_pass;
    PbJobBay bays[PB_JOB_BAYS];
    int bay_count;
    double fillable_m2, filled_m2, missed_m2;
    double estimate_bags; /**< given; negative = none */
    double wanted_bags;   /**< by area, depth, target and bag */
    double used_bags;     /**< without what stands in the hose at the end of a fill */
    double minutes, usual_minutes;
    PbJobLoss losses[PB_JOB_LOSSES]; /**< shut gates first, then part by part, dearest first */
    int loss_count;
} PbJobMarks;

/** @brief Word of a part, a gate, a fault, a kind of bay in files. */
const char *pb_job_part_word(PbJobPartKind at);
const char *pb_job_gate_word(PbJobGateKind at);
const char *pb_job_fault_word(PbJobFault at);
const char *pb_job_bay_word(PbJobBayKind at);
/** @brief Mark a job all of whose fills are run. Deterministic, allocates nothing. */
void pb_job_mark(const PbJob *job, PbJobMarks *marks);

#endif
