/* Laws of the fill against density; the constants and their sources are in assets/constants.json.
 */
#include "core/material.h"

#include "core/pb_math.h"

#include <math.h>

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

double pb_material_cohesion(const PbConstants *constants, double density_kg_m3, double past_kg_m3)
{
    const PbConstants *k = constants;
    double ref2 = k->compaction_ref_kg_m3 * k->compaction_ref_kg_m3;
    double pressed = pb_max(past_kg_m3 * past_kg_m3 - k->rest_kg_m3 * k->rest_kg_m3, 0.0) / ref2;
    double whole = pb_min(density_kg_m3 / k->rest_kg_m3, 1.0);
    return (k->cohesion_pa + k->fibre_cohesion_pa * pressed) * (whole * whole);
}

double pb_material_unconfined(const PbConstants *constants)
{
    const double mu = constants->internal_friction;
    return 2.0 * (sqrt(1.0 + mu * mu) + mu);
}

static const double ANY_HEIGHT_M = 1e9;

double pb_material_face_height(const PbConstants *constants, double cohesion_pa, double weight_n_m3,
                               double rise_m, double retreat_m)
{
    const double mu = constants->internal_friction;
    const double back = pb_max(retreat_m, 0.0);
    if (weight_n_m3 <= 0.0 || rise_m <= mu * back) {
        return ANY_HEIGHT_M;
    }
    double length = sqrt(rise_m * rise_m + back * back), cos_phi = 1.0 / sqrt(1.0 + mu * mu);
    double sin_b = rise_m / length, cos_b = back / length;
    double off = 1.0 - cos_phi * (cos_b + mu * sin_b); /* 1 - cos(b - phi) */
    return pb_min(4.0 * cohesion_pa * sin_b * cos_phi / (weight_n_m3 * pb_max(off, 1e-9)),
                  ANY_HEIGHT_M);
}

double pb_material_pillar_height(const PbConstants *constants, double cohesion_pa,
                                 double weight_n_m3, double density_kg_m3, double width_m)
{
    const PbConstants *k = constants;
    if (weight_n_m3 <= 0.0) {
        return ANY_HEIGHT_M;
    }
    double ref = k->compaction_ref_kg_m3, rest = k->rest_kg_m3;
    double cv = k->compaction_ref_pa / (ref * ref * ref - rest * rest * rest);
    double e_pa = 3.0 * cv * density_kg_m3 * density_kg_m3 * density_kg_m3;
    double crushes = pb_material_unconfined(k) * cohesion_pa / weight_n_m3;
    return pb_min(crushes,
                  pb_pow(7.84 * e_pa * width_m * width_m / (12.0 * weight_n_m3), 1.0 / 3.0));
}
