/**
 * @file job_heat.h
 * @brief Heat and camera picture of a job's whole wall: before it, as it stands, and done well.
 *
 * Every square of the wall is wood, window, door or chimney, or cavity: empty, with an old batt, or
 * packed to the density of its patch. R of the whole wall is the mean of both limits of ISO 6946
 * over these parts, by area (core/wall.h); the picture is the inside face solved as a fin over
 * them, as that of a single bay (core/heat_bay.h). Heat does not go from bay to bay but along the
 * inside face, an empty cavity is one airspace (ISO 6946:2017, Annex D), and pipes, boxes and wires
 * are left out. Steady. docs/physics/heat.md.
 */
#ifndef CORE_JOB_HEAT_H
#define CORE_JOB_HEAT_H

#include "core/job.h"

/** Side of a square of the picture. */
#define PB_JOB_HEAT_CELL_M 0.025
/** Room and outdoors of the picture on paper and in text: a cold day. */
#define PB_JOB_HEAT_ROOM_C 20.0
#define PB_JOB_HEAT_COLD_C 0.0

/** Append-only: words stand in files. */
typedef enum PbJobHeatCase {
    PB_JOB_HEAT_BEFORE, /**< no fill but the old batts */
    PB_JOB_HEAT_NOW,    /**< every fill that is run, as it is packed */
    PB_JOB_HEAT_WELL, /**< every bay that a hole goes into and that is not to be left, at target */
    PB_JOB_HEAT_CASES
} PbJobHeatCase;

typedef struct PbJobHeat {
    double wall_m2;       /**< without windows, doors and chimney breast */
    double framing_share; /**< of it that is wood */
    double filled_m2;     /**< cavity that holds fill */
    double r_m2k_w, u_w_m2k;
    double heat_w; /**< through the wall at these temperatures */
    double room_c, outdoor_c;
    double coldest_c, warmest_c; /**< of the room's side */
    int nx, ny;
    double *map_c; /**< [ny][nx] of the room's side, row 0 at the floor; where there is no wall:
                      room_c */
} PbJobHeat;

/** @brief Word in files: "before", "now", "well". */
const char *pb_job_heat_word(PbJobHeatCase which);
/**
 * @brief Work out one case.
 * @param[in]  room_c, outdoor_c at least 1 K apart
 * @param[out] heat caller gives it back with pb_job_heat_free
 * @return PB_OK; PB_ERR_RANGE; PB_ERR_MEMORY. Deterministic.
 */
PB_NODISCARD PbStatus pb_job_heat(const PbJob *job, PbJobHeatCase which, double room_c,
                                  double outdoor_c, PbJobHeat *heat, PbError *err);
/** @brief All three. @param[out] heat array of PB_JOB_HEAT_CASES; given back by
 * pb_job_heat_free_all */
PB_NODISCARD PbStatus pb_job_heat_all(const PbJob *job, double room_c, double outdoor_c,
                                      PbJobHeat *heat, PbError *err);
/** @brief Give the picture back. All zero is allowed. */
void pb_job_heat_free(const PbJob *job, PbJobHeat *heat);
/** @brief The same of all three. */
void pb_job_heat_free_all(const PbJob *job, PbJobHeat *heat);

#endif
