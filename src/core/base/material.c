/* Laws of the fill against density; the constants and their sources are in assets/constants.json.
 */
#include "core/material.h"

#include "core/pb_math.h"

/* Density at which sigma45 is given. */
static const double resistivity_ref_kg_m3 = 45.0;

double pb_material_resistivity(const PbConstants *constants, double density_kg_m3)
{
    return constants->sigma45_pa_s_m2 *
           pb_pow(density_kg_m3 / resistivity_ref_kg_m3, constants->sigma_exponent);
}

double pb_material_permeability(const PbConstants *constants, double density_kg_m3)
{
    return constants->air_viscosity_pa_s / pb_material_resistivity(constants, density_kg_m3);
}

double pb_material_batt_permeability(const PbConstants *constants)
{
    return constants->air_viscosity_pa_s / constants->batt_sigma_pa_s_m2;
}

double pb_material_conductivity(const PbConstants *constants, double density_kg_m3)
{
    return constants->k_base_w_mk + constants->k_slope_w_m2_kgk * density_kg_m3 +
           constants->k_radiation_w_kg_m4k / density_kg_m3;
}
