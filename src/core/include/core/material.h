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

#endif
