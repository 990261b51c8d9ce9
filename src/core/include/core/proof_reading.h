/**
 * @file proof_reading.h
 * @brief What the measurements of the day show, how surely, and what they cannot show.
 *
 * Statistics: first-order propagation of uncertainty with a coverage factor of 2 (JCGM 100:2008,
 * clauses 5.1.2 and 6.2) for bags and leak tests; Student's t for the mean of a few cores (Student,
 * Biometrika 6, 1908). All intervals are 95 %. A verdict is given only where an interval lies on
 * one side of its limit.
 */
#ifndef CORE_PROOF_READING_H
#define CORE_PROOF_READING_H

#include "core/compare.h"
#include "core/house.h"

typedef enum PbProofVerdict {
    PB_PROOF_NOTHING, /**< not measured */
    PB_PROOF_OPEN,    /**< measured, and the interval holds the limit */
    PB_PROOF_REACHED, /**< density: the target; camera: no stripe left; leak: less than before */
    PB_PROOF_MISSED   /**< density: under the target; camera: as cold as an empty bay; leak: more */
} PbProofVerdict;

/** Why a camera says nothing. */
typedef enum PbProofBlind {
    PB_PROOF_SEES,
    PB_PROOF_MILD,    /**< room and outdoors too alike: under PB_PROOF_LEAST_AIR_K */
    PB_PROOF_SAW_NONE /**< it showed no stripe before the work either */
} PbProofBlind;

/** Least difference of the airs for a picture of a wall: 10 K, held for 3 hours, in surveys with a
 * camera (practice of thermographers; ASTM C1060 asks for the same, from memory). */
#define PB_PROOF_LEAST_AIR_K 10.0

typedef struct PbProofReading {
    PbHeatRange bags_kg_m3;  /**< mean density by bags, area and depth; mid 0 = not known */
    PbHeatRange cores_kg_m3; /**< mean where the cores were taken; mid 0 = none */
    double core_sd_kg_m3;    /**< between cores; 0 = fewer than two */
    PbHeatRange kg_m3;       /**< of both; mid 0 = neither, or they contradict each other */
    int contradict;          /**< +1 cores denser than bags, -1 bags denser than cores, by more than
                                both intervals */
    PbProofVerdict density;  /**< kg_m3 against the target of the bay */
    double target_kg_m3;

    int bays;             /**< cavities in the area; 0 = area not known */
    double one_bay_share; /**< of the fill that one missed bay would lack */
    double core_chance;   /**< that the cores would meet the one missed bay */

    PbProofVerdict camera;
    PbProofBlind blind;
    double empty_k; /**< stripe that an empty bay would show beside filled ones in the picture after
                       the work; 0 = no picture */

    PbProofVerdict leak;
    PbHeatRange leak_less_m3_s; /**< drop of the leak test */
} PbProofReading;

/** @brief What was measured shows. Pure. @param[in] house judged, with its proof */
void pb_proof_read(const PbHouse *house, const PbConstants *constants, PbProofReading *reading);

/** The dense pack at one time. */
typedef struct PbProofTime {
    double years;
    PbHeatRange r_m2k_w, top_gap_m;
    PbCompareSaving saving;
} PbProofTime;

/** The prediction of this house before and after it was measured. */
typedef struct PbProofUpdate {
    int draws;
    PbProofTime predicted[2], measured[2]; /**< at the filling and at `years` */
} PbProofUpdate;

/**
 * @brief Work out the dense pack of a house as predicted and as measured. As measured: the packed
 * bay of the prediction brought to the measured mean, everything else the same; the ends of the
 * measured density move its ranges by first-order propagation.
 * @param[in]  setup     house, constants, draws; its times and pictures are not looked at
 * @param[in]  years     second time, above 0
 * @param[in]  parallel  as pb_compare_run_all
 * @param[in]  is_stopped may be NULL; asked between pieces
 * @param[out] update    untouched unless PB_OK
 * @return PB_OK; PB_ERR_RANGE where no density was measured; PB_ERR_STATE when stopped; as
 *         pb_compare_run_all
 */
PB_NODISCARD PbStatus pb_proof_update(const PbCompareSetup *setup, double years,
                                      PbHeatParallel parallel, void *parallel_user,
                                      int (*is_stopped)(void *user), void *user,
                                      PbProofUpdate *update, PbError *err);

#endif
