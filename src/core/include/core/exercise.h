/**
 * @file exercise.h
 * @brief One bay to pack: geometry, leaks, finish, machine, material state, target.
 *
 * Coordinates: x across the bay, y along its long axis, origin at the bottom left inside corner,
 * seen from the room. In a wall y points up; `tilt_deg` lowers the whole axis for slopes (a rafter
 * bay) and level ceilings. All SI. Plain value type: copy freely, no ownership.
 */
#ifndef CORE_EXERCISE_H
#define CORE_EXERCISE_H

#include "core/kinds.h"
#include "core/leave.h"
#include "core/status.h"
#include "core/wall.h"

#define PB_MAX_OBSTACLES 24
#define PB_MAX_OPENINGS  12
#define PB_MAX_CAUTIONS  6
#define PB_MAX_HOLES     8

typedef struct PbObstacle {
    PbObstacleKind kind;
    double x0_m, y0_m, x1_m, y1_m;
    double size_m;     /**< thickness of a cable, pipe or brace in the plane of the bay; 0 for
                          rectangles */
    double depth_frac; /**< share of the bay's depth it takes, (0, 1]; 1 = fill cannot pass */
} PbObstacle;

/** A hole out of the bay through which air, and if it is wide enough fill, gets away. */
typedef struct PbOpening {
    double x0_m, y0_m, x1_m, y1_m; /**< where it is in the plane of the bay */
    double area_m2;                /**< free area of the hole */
    double width_m; /**< smallest width: fill passes above the constants' tuft size */
    char place[48]; /**< word shown to people, e.g. "outlet box" */
} PbOpening;

/** A fill hole in the face. */
typedef struct PbHole {
    double x_m, y_m; /**< its centre */
    double bore_m;
    double open_frac; /**< share of the ring round the tube that the rag leaves open at first */
} PbHole;

typedef struct PbMachine {
    double static_pa;      /**< outlet shut, feed off */
    double open_flow_m3_s; /**< no back pressure */
    double curve_exponent; /**< P = static (1 - (Q/open)^exponent) */
    double hose_length_m, hose_bore_m;
    double tube_length_m, tube_bore_m, tube_outer_m;
    double feed_max_kg_s; /**< feed gate fully open */
} PbMachine;

typedef struct PbExercise {
    char id[48];
    char title[96];
    char teaches[240];
    char cautions[PB_MAX_CAUTIONS][160];
    int caution_count;
    char must_not_fill[160]; /**< why this bay is to be left alone; "" = it may be filled */
    PbLeaveReason
        leave_reason;   /**< the right one; none = an older file, where doing nothing will do */
    double leave_kg;    /**< in such a bay: what may be blown in before it must have been noticed;
                           0 = nothing (0.02 kg) */
    double lost_max_kg; /**< most that may go out through openings of a bay that passes; 0 = nothing
                           said */
    double level, order; /**< place in the course, whole numbers; level 0 = not part of it */
    char waits_for[96];  /**< act of its lesson that has no command yet; until then it counts for no
                            level; "" = none */

    double width_m, height_m, depth_m; /**< inside of the bay */
    double tilt_deg;                   /**< long axis against level: 90 wall, 0 ceiling */

    double leak75_m3_s_m2; /**< both faces together, per m2 of bay face, at 75 Pa */
    double leak_exponent;  /**< [0.5, 1] */
    double board_pitch_m;  /**< back boards: leaks sit in gaps at this pitch; 0 = spread evenly */
    double end_leak_share; /**< share of the leak that sits along the plates, [0, 1) */

    PbFinish finish;
    PbWall wall; /**< layers around the bay, for heat alone; all zero = the simple wall */
    double fastener_spacing_m; /**< along each stud */
    double strength_pa; /**< mean resistance to failure of a 0.4 m patch; 0 = from the finish */

    PbHole holes[PB_MAX_HOLES]; /**< the tube starts at the first; the others are plugged */
    int hole_count;             /**< at least 1 */

    PbMachine machine;
    char material[200];  /**< file of the material whose constants a run takes; "" = the shipped
                            ones. Not written into files: a recorded run holds its constants */
    double feed_kg_s;    /**< feed gate setting that the exercise starts with */
    double damp_frac;    /**< water above the normal moisture of the material, kg/kg; 0 = normal */
    double bag_kg;       /**< mass of material in one bag */
    double target_kg_m3; /**< density to reach, as weighed */
    double pass_score;   /**< of 100 */
    char climate[32];    /**< name of a climate file, for the years part of the score */
    double time_limit_s; /**< the run is finished at this time */

    PbObstacle obstacles[PB_MAX_OBSTACLES];
    int obstacle_count;
    PbOpening openings[PB_MAX_OPENINGS];
    int opening_count;
} PbExercise;

/** @brief A hole as it is cut and stuffed by common practice; where it is is 0, 0. */
PbHole pb_hole_default(void);
/** @brief A plain 2x4 bay behind 1/2 in board with an 80 in w.c. machine and a low hole. */
PbExercise pb_exercise_default(void);

/**
 * @brief Judge an exercise: every number in range, everything inside the bay, nothing overlapping.
 * @param[in]  e     borrowed for the call
 * @param[out] field caller's array of `size` chars: path of the offending value as in the file
 *                   ("obstacles/2/x1_m"), so that a reader can point at its line
 * @param[out] err   message says what was expected; may be NULL
 * @return PB_OK or PB_ERR_RANGE. Deterministic, allocates nothing.
 */
PB_NODISCARD PbStatus pb_exercise_check(const PbExercise *e, char *field, size_t size,
                                        PbError *err);

#endif
