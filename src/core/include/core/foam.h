/**
 * @file foam.h
 * @brief Water-based foam injected into a closed bay: drying, shrinkage, the gaps and cracks it
 * leaves.
 *
 * Model: water leaves at a constant rate through both faces, then ever slower; the foam shrinks on
 * setting, with drying, and with age; what it loses in length shows at studs, plates and one face
 * and in cracks, whose openings along an axis add up to shrinkage times span exactly. Equations and
 * sources: docs/physics/years.md. Classes are ranges, not products, and no promise. Old foams of
 * this family may release formaldehyde and are restricted in places: local codes decide.
 */
#ifndef CORE_FOAM_H
#define CORE_FOAM_H

#include "core/climate.h"
#include "core/constants.h"
#include "core/kinds.h"

#include <stdint.h>

#define PB_FOAM_MAX_CRACKS 64

typedef enum PbFoamClass { PB_FOAM_GOOD, PB_FOAM_TYPICAL, PB_FOAM_POOR } PbFoamClass;

typedef struct PbFoamCase {
    PbConstants constants;
    PbClimate climate; /**< its yearly means drive drying; foam_ageing drives ageing */
    PbFoamClass foam_class;
    PbFoamSkin inner, outer;
    double width_m, height_m, depth_m;
    uint64_t seed; /**< where cracks fall */
} PbFoamCase;

typedef struct PbFoamCrack {
    double at_m; /**< along the axis, before shrinkage */
    double open_m;
} PbFoamCrack;

typedef struct PbFoamState {
    double days;
    double water_frac;     /**< of the water injected that is still there, 0..1 */
    double shrink_frac;    /**< linear */
    double stud_gap_m[2];  /**< left, right */
    double plate_gap_m[2]; /**< bottom, top */
    double face_gap_m;     /**< at the face that the foam lets go of */
    int face_gap_is_inner; /**< 1: at the room side, 0: at the outside */
    double open_area_frac; /**< of the bay face that no foam covers */
    PbFoamCrack
        across[PB_FOAM_MAX_CRACKS]; /**< horizontal cracks, at_m from the bottom, ascending */
    int across_count;
    PbFoamCrack along[PB_FOAM_MAX_CRACKS]; /**< upright cracks, at_m from the left, ascending */
    int along_count;
} PbFoamState;

/** @brief Typical foam, painted board inside, wood boards outside, a plain 2x4 bay, seed 7. */
PbFoamCase pb_foam_default(void);
/** @brief Judge sizes, class, skins, climate, and the constants that drying needs to hang together:
 * wet heavier than dry, share of the constant rate within 0..1. err may be NULL. */
PB_NODISCARD PbStatus pb_foam_check(const PbFoamCase *foam, PbError *err);
/** @brief The state this many days after injection. @param[in] days 0 .. 73050; case must be
 * checked */
void pb_foam_at(const PbFoamCase *foam, double days, PbFoamState *state);
/** @brief Water left, kg per m2 of face. */
double pb_foam_water_kg_m2(const PbFoamCase *foam, double days);
/** @brief Drying rate while wet, kg/(m2 s), both faces together. */
double pb_foam_flux_kg_m2_s(const PbFoamCase *foam);
/** @brief Linear shrinkage, 0..1; never falls with time. */
double pb_foam_shrinkage(const PbFoamCase *foam, double days);
/** @brief Days until this share of the water is gone. @param[in] dry_frac (0, 1) */
double pb_foam_days_to_dry(const PbFoamCase *foam, double dry_frac);

#endif
