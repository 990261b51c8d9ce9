/**
 * @file field.h
 * @brief What packing hands to years and heat: the bay as it was left.
 */
#ifndef CORE_FIELD_H
#define CORE_FIELD_H

#include "core/alloc.h"
#include "core/status.h"

/** Arrays are [ny][nx], row-major, x across, y along the bay, cell-centred; owned by the field. */
typedef struct PbBayField {
    int nx, ny;
    double width_m, height_m, depth_m, tilt_deg;
    double *density_kg_m3;      /**< as weighed at the moisture of filling; 0 = empty */
    double *density_past_kg_m3; /**< largest density that the material has seen */
    double *lateral_pa;         /**< lateral fill stress on the faces after the pressure has bled */
    double *free_frac;          /**< share of the depth free for fill: 0 blocked .. 1 */
    double
        *batt_frac; /**< share of the depth that an old batt takes, 0 .. 1 - free_frac: air passes
                       it and it insulates. The rest, 1 - free_frac - batt_frac, is wood. */
    double fill_rh_frac; /**< humidity of the air at filling, 0..1 */
} PbBayField;

/** @brief All arrays zeroed but free_frac = 1 (nothing stands in it). @return PB_OK, PB_ERR_RANGE,
 * PB_ERR_MEMORY. */
PB_NODISCARD PbStatus pb_bay_field_create(int nx, int ny, double width_m, double height_m,
                                          double depth_m, PbBayField *field);
/** @brief Free the arrays; zero the struct. Safe on a zeroed field. */
void pb_bay_field_destroy(PbBayField *field);
/** @brief Same density everywhere, past density equal to it, no lateral stress. */
void pb_bay_field_fill(PbBayField *field, double density_kg_m3);

#endif
