/**
 * @file spread.h
 * @brief Ageing as a range: seeded draws over the constants that nobody knows well.
 *
 * Each draw moves every uncertain constant of settling, of foam and of the heat that goes through a
 * fill within the low and high of its row in assets/constants.json; half of the draws fall below
 * the shipped value, half above; so do layers, films and the house around the bay. The simple
 * wall's board and panel and the air are held: well known beside these. The creep
 * stress was calibrated for one wall friction, lateral ratio and creep power, so it follows those
 * three in a draw: otherwise the band would deny the published thresholds (docs/physics/years.md).
 * A draw depends on (seed, index) alone, so that draws can run in any order, thread or machine.
 */
#ifndef CORE_SPREAD_H
#define CORE_SPREAD_H

#include "core/settle.h"

/** Maps an aged bay to its thermal resistance. Called from several threads at once. */
typedef struct PbEffectiveR {
    /** NULL: not known, samples then carry NaN. @param[in] constants those of the draw
     * @param[out] r_m2k_w whole bay, m2 K/W */
    PbStatus (*of_bay)(void *user, const PbConstants *constants, const PbAgedBay *bay,
                       double *r_m2k_w);
    void *user;
} PbEffectiveR;

/** What one draw gives at one time. */
typedef struct PbAgeSample {
    double top_gap_m;
    double void_area_m2;
    double worst_patch_kg_m3;
    double effective_r_m2k_w; /**< NaN when there is no solver */
} PbAgeSample;
#define PB_AGE_METRICS 4 /* doubles in a sample, in this order */

typedef struct PbBand {
    double p10, median, p90;
} PbBand;

/**
 * @brief Constants of draw `index`.
 * @param[in] hold_damp nonzero keeps settle_damp: the reading was chosen, not drawn
 */
PbConstants pb_spread_constants(const PbConstants *base, uint64_t seed, int index, int hold_damp);
/**
 * @brief A number as draw `index` has it: below and above `mid` with the same chance, evenly. A
 * stream per name: a new number cannot shift the draws of the others.
 */
double pb_spread_number(double low, double mid, double high, const char *name, uint64_t seed,
                        int index);
/** @brief Nonzero when draws move this constant. */
int pb_spread_moves(const PbConstantInfo *info);

/**
 * @brief Age one bay and sample it.
 * @param[in]  config    constants are used as they are: pass those of a draw
 * @param[in]  years     ascending, `count` of them, 1..64
 * @param[in]  effective may be NULL
 * @param[out] samples   caller's array of `count`; untouched unless PB_OK
 * @return PB_OK; PB_ERR_RANGE; PB_ERR_MEMORY; PB_ERR_DIVERGED; what `effective` gave
 */
PB_NODISCARD PbStatus pb_spread_age(const PbBayField *bay, const PbSettleConfig *config,
                                    const double *years, int count, const PbEffectiveR *effective,
                                    PbAgeSample *samples, PbError *err);

/** @brief Put in ascending order, without asking for memory. No NaN. */
void pb_spread_sort(double *values, size_t count);
/**
 * @brief 10, 50 and 90 % points, linear between neighbours in order.
 * @param[in,out] values reordered ascending; count >= 1; no NaN
 */
PbBand pb_spread_band(double *values, size_t count);

#endif
