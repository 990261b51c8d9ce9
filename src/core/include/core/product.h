/**
 * @file product.h
 * @brief One product of blown cellulose: its bag, its label, its moisture, and those constants of
 * the model in which it differs from the shipped values, with what is known of them after a fit.
 */
#ifndef CORE_PRODUCT_H
#define CORE_PRODUCT_H

#include "core/constants.h"

/** Constants that carry density: those that move the mean of a plain bay by more than 2 kg/m3. */
#define PB_CARRIERS 8
/** Draws that stand for what a fit left open; as many as a range takes. */
#define PB_PRODUCT_DRAWS 40

/** Plain value. */
typedef struct PbProduct {
    char id[48];
    char title[96];
    double bag_kg;
    double damp_frac; /**< water above the normal moisture, kg/kg */
    /** What the label says one bag fills, net cavity: 0 = not given, else all three. */
    double label_area_m2, label_depth_m, label_kg_m3;
    PbConstants constants; /**< shipped values, but for those that the product has of its own */
    int own_count;         /**< how many it has */
    int draw_count;        /**< 0, or PB_PRODUCT_DRAWS: there was a fit */
    double draw[PB_PRODUCT_DRAWS][PB_CARRIERS]; /**< the carriers in a draw, in their order */
} PbProduct;

/** @brief The shipped values in a 25 lb bag. */
PbProduct pb_product_default(void);
/** @brief Name of a constant that carries density. @param[in] i 0 .. PB_CARRIERS - 1 */
const char *pb_carrier(int i);
/** @brief Its row. */
const PbConstantInfo *pb_carrier_info(int i);
/** @brief Nonzero when material files may set this constant: it belongs to the fill. */
int pb_product_has(const PbConstantInfo *info);
/** @brief A base with the carriers of a draw in it. */
PbConstants pb_product_drawn(const PbProduct *product, const PbConstants *base, int draw);
/**
 * @brief The creep stress goes with what holds a wall up: it was calibrated for one plateau of
 * Janssen. To be called on constants whose friction or lateral ratio came from those of `base`.
 */
void pb_product_follow(PbConstants *constants, const PbConstants *base);

#endif
