/**
 * @file settle.h
 * @brief What becomes of packed fill over years: creep, wall friction, damp, hanging packs, voids.
 *
 * Model: the bay face is cut into columns, each column into slices that keep their mass. A slice
 * creeps under the load that wall friction leaves on it; the lateral stress that holds it relaxes;
 * a slice held by the walls hangs, and a void opens below it. Columns share load by shear.
 * Equations, calibration and limits: docs/physics/years.md. Valid: blown cellulose, 19 to about 70
 * kg/m3, one humidity for the whole bay, rigid faces, up to 200 years. It gives ranges, never a
 * promise.
 */
#ifndef CORE_SETTLE_H
#define CORE_SETTLE_H

#include "core/alloc.h"
#include "core/climate.h"
#include "core/constants.h"
#include "core/field.h"
#include "core/kinds.h"

#include <stdint.h>

#define PB_SETTLE_MAX_YEARS 200.0
#define PB_SETTLE_MAX_KG_M3 200.0
/** Top gap that counts as "settled" for a threshold; the calibration used the same. */
#define PB_SETTLE_THRESHOLD_GAP_M 0.005

typedef enum PbVibration { PB_VIBRATION_QUIET, PB_VIBRATION_LIGHT, PB_VIBRATION_HEAVY } PbVibration;
/** The published damp threshold can be read for a 0.1 m or a 0.3 m wall; results differ. */
typedef enum PbDampReading { PB_DAMP_SHALLOW, PB_DAMP_DEEP } PbDampReading;

typedef struct PbSettleConfig {
    PbConstants constants;
    PbClimate climate;
    PbVibration vibration;
    PbFace face;
    PbDampReading damp;
    int vector_path;       /**< 0 best for this machine, 1 baseline, 2 AVX2, 3 AVX-512; same bits */
    double max_step_years; /**< longest step, 1 hour to 1 year; 1/12 unless a test wants less */
    PbAllocator allocator;
} PbSettleConfig;

typedef struct PbSettle PbSettle;

/** The state at one time. Lengths are along the bay. */
typedef struct PbSettleReport {
    double years;
    double rh_frac;       /**< in the fill now */
    double top_gap_m;     /**< below the top plate, mean over the width */
    double top_gap_max_m; /**< of the worst column */
    double void_area_m2;  /**< all empty face area: top gap, under hanging packs, under blocks */
    double inner_void_area_m2; /**< of it, not at the top plate */
    double worst_patch_kg_m3;  /**< emptiest 0.1 m square, as weighed at the humidity of filling */
    double worst_x_m, worst_y_m; /**< its centre */
    double face_gap_m; /**< slopes and level bays: open at the upper face, mean over the fill */
    double mean_kg_m3; /**< over the free volume, as weighed at the humidity of filling */
    double grip_ratio; /**< least over the fill: wall grip of a slice over its weight; >= 1 hangs */
    double mass_error; /**< |mass now - mass at start| / mass at start, from the slices */
    double height_error; /**< worst column: |slices + voids - free height| / height */
    int steps;
} PbSettleReport;

/** The slices, for tests and drawings. Arrays are [rows][nx], bottom row first, borrowed. */
typedef struct PbSettleView {
    int nx, rows;
    const unsigned char *kind;  /**< 0 blocked, 1 empty, 2 fill */
    const unsigned char *stuck; /**< 1: held by the walls */
    const double *dry_kg_m2;    /**< mass over the slice's cross-section; never changes */
    const double *bottom_m;     /**< where the slice stands */
    const double *thick_m;
    const double *lateral_pa;
    const double *stress_pa; /**< vertical, mean of the slice, from the last sweep */
    const double *share;     /**< of the depth that the slice fills, (0, 1] */
} PbSettleView;

/** The bay after years, for heat and drawings: a field and where it is empty. */
typedef struct PbAgedBay {
    double years;
    PbBayField field;   /**< density over the free volume of each cell, void included */
    double *void_frac;  /**< [ny][nx], share of the free cell without fill, 0..1; owned */
    double *face_gap_m; /**< [ny][nx], between fill and upper face, 0 in walls; owned; density does
                             not count it */
} PbAgedBay;

/** @brief Shipped constants, default climate, quiet, gypsum, shallow reading, C library memory. */
PbSettleConfig pb_settle_default(void);

/**
 * @brief Judge a bay before ageing it: sizes, densities 0..200 kg/m3, humidity 0..1, tilt 0..90.
 * @param[out] err  message names the cell; may be NULL
 */
PB_NODISCARD PbStatus pb_settle_check(const PbBayField *bay, PbError *err);

/**
 * @brief Take over a bay. The field and config are copied; one block is allocated.
 * Where every lateral_pa is 0 the start stress comes from the law, else from the field (Pa).
 * Rows thicker than half the depth or 0.05 m are split. Cells below settle_loosest_kg_m3 count as
 * partly filled from their bottom.
 * @param[out] settle caller destroys it; untouched unless PB_OK
 * @return PB_OK, PB_ERR_RANGE (err says what), PB_ERR_MEMORY
 * Deterministic: same bits on every machine and vector path. One thread per object.
 */
PB_NODISCARD PbStatus pb_settle_create(const PbBayField *bay, const PbSettleConfig *config,
                                       PbSettle **settle, PbError *err);
/** @brief Give the memory back. NULL allowed. */
void pb_settle_destroy(PbSettle *settle);
/**
 * @brief Go on to this time since filling. Allocates nothing.
 * @param[in] years not before the present time, at most PB_SETTLE_MAX_YEARS
 * @return PB_OK; PB_ERR_RANGE (nothing changed); PB_ERR_DIVERGED
 */
PB_NODISCARD PbStatus pb_settle_advance(PbSettle *settle, double years);
/** @brief One friction sweep at the present state, no time passing: the stresses of a still fill.
 */
void pb_settle_stress(PbSettle *settle);
/** @brief Measure the state. Allocates nothing. */
void pb_settle_report(const PbSettle *settle, PbSettleReport *report);
/** @brief The slices now. Borrowed until the next call that changes the object. */
PbSettleView pb_settle_view(const PbSettle *settle);
/** @brief Hash of the whole state. */
uint64_t pb_settle_hash(const PbSettle *settle);

/**
 * @brief Lay the slices over a grid of `ny` rows (0 = the rows of the bay taken over).
 * Overlap-weighted; mass is kept to 1e-12. Caller destroys the result.
 * @return PB_OK, PB_ERR_RANGE, PB_ERR_MEMORY
 */
PB_NODISCARD PbStatus pb_settle_aged(const PbSettle *settle, int ny, PbAgedBay *aged);
/** @brief Free the arrays; zero the struct. Safe on a zeroed one. */
void pb_aged_destroy(PbAgedBay *aged);
/** @brief Mass of fill in a field as its densities say, kg. */
double pb_field_mass_kg(const PbBayField *field);

/**
 * @brief Smallest uniform density whose top gap at `years` is at most 5 mm in this bay.
 * @param[in]  bay       size, tilt, blocks and filling humidity are used, densities are not
 * @param[out] kg_m3     as weighed at filling, to 0.01 kg/m3
 * @return PB_OK; PB_ERR_NO_RESULT when even 120 kg/m3 settles more or 30 does not; as
 * pb_settle_create
 */
PB_NODISCARD PbStatus pb_settle_threshold(const PbBayField *bay, const PbSettleConfig *config,
                                          double years, double *kg_m3, PbError *err);

/** @brief Water per dry mass at this humidity, kg/kg (limited to 2..95 %). */
double pb_settle_moisture(const PbConstants *constants, double rh_frac);
/**
 * @brief Stress at which fill creeps at the 30-year rate, Pa; equation (2) of the physics page.
 * @param[in] dry_kg_m3 now
 * @param[in] laid_dry_kg_m3 as filled, before it crept
 */
double pb_settle_creep_stress_pa(const PbConstants *constants, double dry_kg_m3,
                                 double laid_dry_kg_m3, double rh_frac);
/** @brief Dry density after `years` under one stress, equation (3). */
double pb_settle_creep(const PbConstants *constants, double dry_kg_m3, double laid_dry_kg_m3,
                       double stress_pa, double rh_frac, double years);
/** @brief Lateral stress after `years` at one density, Pa, equation (4). */
double pb_settle_relax_pa(const PbConstants *constants, double lateral_pa, double dry_kg_m3,
                          double laid_dry_kg_m3, double rh_frac, double years);
/** @brief Strength of the fabric that this lay-down leaves, 0..1, equation (8). */
double pb_settle_fabric(const PbConstants *constants, double laid_dry_kg_m3);

#endif
