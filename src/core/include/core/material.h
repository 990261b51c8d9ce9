/**
 * @file material.h
 * @brief What blown cellulose does to air and heat, as functions of its density: one material for
 * packing, years and heat.
 *
 * sigma(rho) = sigma45 (rho/45)^n, K = mu/sigma, k(rho) = k_base + k_slope rho + k_radiation/rho.
 * Valid: 15..90 kg/m3. Sources and confidence: the rows of the constants in assets/constants.json.
 */
#ifndef CORE_MATERIAL_H
#define CORE_MATERIAL_H

#include "core/constants.h"

/** @brief Airflow resistivity, Pa s/m2, at density_kg_m3 > 0. Pure. */
double pb_material_resistivity(const PbConstants *constants, double density_kg_m3);
/** @brief Permeability to air, m2, at density_kg_m3 > 0: viscosity over resistivity. Pure. */
double pb_material_permeability(const PbConstants *constants, double density_kg_m3);
/** @brief Conductivity without air movement, W/(m K), at density_kg_m3 > 0. Pure. */
double pb_material_conductivity(const PbConstants *constants, double density_kg_m3);

/**
 * Conductivity of an old light batt of glass or mineral wool, W/(m K). Glass-fiber batts have 0.046
 * to 0.048 at 7.5 to 8.2 kg/m3, 0.040 to 0.043 at 9.8 to 12 (batt_sigma_pa_s_m2 is for 10 to 16),
 * 0.037 to 0.039 at 13 to 14 (ASHRAE Handbook, Fundamentals, SI, 2021, chapter 26, table 1). By
 * their labels 3 1/2 in. of R-11 have 0.046 and of R-13 0.039; this lies between.
 */
#define PB_BATT_K_W_MK 0.042
/** @brief Permeability of such a batt to air along the bay, m2. */
double pb_material_batt_permeability(const PbConstants *constants);

/*
 * Shear: what a face of fill that nothing props up holds. Angle of friction phi from
 * internal_friction; weight_n_m3 is that of the fill less what the faces of the bay carry of it.
 */

/** @brief Cohesion, Pa, of fill at density_kg_m3 that was once pressed to past_kg_m3: what laid
 * fibre sticks with and what pressing added, both with density squared (contacts per volume); fill
 * under rest density has gaps in it. Pure. */
double pb_material_cohesion(const PbConstants *constants, double density_kg_m3, double past_kg_m3);
/** @brief Unconfined strength over cohesion, 2 (sqrt(1 + mu^2) + mu): Mohr-Coulomb. Pure. */
double pb_material_unconfined(const PbConstants *constants);
/**
 * @brief Height, m, that a face may have which rises rise_m and leans back retreat_m, by plane
 * failure: H = 4 c sin(b) cos(phi) / (w (1 - cos(b - phi))), for an upright one 4 c tan(45 + phi/2)
 * / w (Culmann 1866; Taylor, Fundamentals of Soil Mechanics, 1948). A slope no steeper than phi,
 * and fill without weight, stand at any height: 1e9. Pure.
 */
double pb_material_face_height(const PbConstants *constants, double cohesion_pa, double weight_n_m3,
                               double rise_m, double retreat_m);
/**
 * @brief Height, m, that an upright wall of fill width_m thick may have which is free on both
 * sides: unconfined strength, or buckling under its own weight, (7.84 E B^2 / (12 w))^(1/3)
 * (Greenhill 1881) with E = rho dp/drho of the compaction law. Pure.
 */
double pb_material_pillar_height(const PbConstants *constants, double cohesion_pa,
                                 double weight_n_m3, double density_kg_m3, double width_m);

#endif
