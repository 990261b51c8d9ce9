/**
 * @file aged_heat.h
 * @brief Where years and heat meet: the heat solver over an aged bay.
 *
 * One home for how an aged bay is handed to heat_bay.h, so that tables, draws and pictures of the
 * same bay give the same R. The gap at the top is counted by the share of its last row, not by
 * whole rows, from void_frac where that is given. Wide voids carry their heat by the fitted film
 * (heat_bay.h), gaps by their own flow. The gap that settling opens at the upper face of a slope
 * (face_gap_m) is not handed on. Limits: those of both headers.
 */
#ifndef CORE_AGED_HEAT_H
#define CORE_AGED_HEAT_H

#include "core/heat_bay.h"
#include "core/spread.h"

/** Air on both sides, deg C, how many strips across the width, and the wall around the bay. */
typedef struct PbAgedHeat {
    double room_c, outdoor_c;
    int strips;
    PbWall wall; /**< all zero = the simple wall */
} PbAgedHeat;

/** @brief 20 C against 0 C, 4 strips, the simple wall: a grid fit for many draws. */
PbAgedHeat pb_aged_heat_default(void);
/**
 * @brief The heat setup of an aged bay: no picture, no parallel loop; change what is wanted.
 * @param[in] aged borrowed until the setup is no longer used
 */
PbHeatBaySetup pb_aged_heat_setup(const PbAgedHeat *heat, const PbAgedBay *aged);
/**
 * @brief pb_heat_bay_solve, tried again on four other grids, in a fixed order, where a wide loop
 * finds no steady answer on the first.
 * @return as pb_heat_bay_solve
 */
PB_NODISCARD PbStatus pb_aged_heat_solve(const PbHeatBaySetup *setup, const PbConstants *constants,
                                         const PbAllocator *memory, PbHeatBay **bay, PbError *err);
/**
 * @brief Effective R of an aged bay, stud included: the `of_bay` of a PbEffectiveR.
 * @param[in]  heat      a PbAgedHeat, borrowed for the call; NULL = the default
 * @param[in]  constants of heat, borrowed for the call; NULL = the shipped ones
 * @param[out] r_m2k_w   untouched unless PB_OK
 * @return as pb_aged_heat_solve. Allocates from the C library; several threads at once.
 */
PB_NODISCARD PbStatus pb_aged_r(void *heat, const PbConstants *constants, const PbAgedBay *bay,
                                double *r_m2k_w);
/**
 * @brief The columns [first, first + count) of an aged bay as a bay of their own, for one section.
 * @param[out] part caller destroys it
 * @return PB_OK, PB_ERR_RANGE, PB_ERR_MEMORY
 */
PB_NODISCARD PbStatus pb_aged_columns(const PbBayField *field, int first, int count,
                                      PbBayField *part);
/**
 * @brief The same with void_frac, for a heat setup; without face_gap_m.
 * @param[in]  aged with its void_frac
 * @param[out] part caller frees with pb_aged_destroy; untouched unless PB_OK
 * @return PB_OK; PB_ERR_RANGE, also when there is no void_frac; PB_ERR_MEMORY
 */
PB_NODISCARD PbStatus pb_aged_part(const PbAgedBay *aged, int first, int count, PbAgedBay *part);

#endif
