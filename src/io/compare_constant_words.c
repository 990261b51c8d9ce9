/* Constants of a comparison for readers who do not read source: a name in both languages and the
 * unit that a trade page would use, in SI and in US units. */
#include "compare_assumed_private.h"

#include "io/wall_words.h"

#include <string.h>

typedef struct Name {
    const char *key;
    const char *text;
} Name;

static const Name names[] = {
    {"sigma45_pa_s_m2", N_("Cellulose: resistance to air")},
    {"sigma_exponent", N_("Cellulose: how fast that resistance grows with density")},
    {"lateral_ratio", N_("Cellulose: push sideways for each push down")},
    {"wall_friction", N_("Cellulose: friction on drywall")},
    {"internal_friction", N_("Cellulose: friction within the fill")},
    {"moisture_at_rh50",
     /* xgettext:no-c-format */ N_("Cellulose: water held at 50% humidity, by weight")},
    {"sorption_exponent", N_("Cellulose: how fast that water grows with humidity")},
    {"k_base_w_mk", N_("Cellulose: heat conduction, base")},
    {"k_slope_w_m2_kgk", N_("Cellulose: conduction added by density")},
    {"k_radiation_w_kg_m4k", N_("Cellulose: conduction added by radiation in loose fill")},
    {"void_kg_m3", N_("Counted as empty below")},
    {"air_viscosity_pa_s", N_("Air: viscosity")},
    {"settle_rate_pa", N_("Settling: load that the fill carries for 30 years")},
    {"settle_exponent", N_("Settling: how fast that load grows with density")},
    {"settle_damp", N_("Settling: how much damp air softens the fill")},
    {"settle_ref_kg_m3", N_("Settling: dry density that it is measured from")},
    {"settle_creep_power", N_("Settling: how fast it goes with load")},
    {"settle_relaxation", N_("Settling: how fast the grip of the faces eases")},
    {"settle_lateral_start", N_("Settling: grip of the faces at filling")},
    {"settle_lateral_max_pa", N_("Settling: most pressure on the faces after filling")},
    {"settle_time_years", N_("Settling: time that the load is given for")},
    {"settle_moisture_years", N_("Settling: time added by a change of moisture")},
    {"settle_laid_dry_kg_m3", N_("Settling: dry density of fill that was not packed")},
    {"settle_hardening_exponent", N_("Settling: how fast fill hardens as it creeps")},
    {"settle_fabric_exponent", N_("Settling: strength of loosely laid fill")},
    {"settle_material", N_("Settling: this product beside the measured one")},
    {"settle_loosest_kg_m3", N_("Settling: loosest that fill lies")},
    {"face_lath_factor", N_("Friction on rough lath beside drywall")},
    {"foam_wet_kg_m3", N_("Foam: density as injected, with its water")},
    {"foam_dry_kg_m3", N_("Foam: density when dry")},
    {"foam_constant_rate_share", N_("Foam: share of water below which drying slows")},
    {"foam_good_set", N_("Foam: shrinkage on setting")},
    {"foam_good_dry", N_("Foam: shrinkage on drying")},
    {"foam_good_age", N_("Foam: shrinkage in 30 years")},
    {"foam_typical_set", N_("Foam: shrinkage on setting")},
    {"foam_typical_dry", N_("Foam: shrinkage on drying")},
    {"foam_typical_age", N_("Foam: shrinkage in 30 years")},
    {"foam_poor_set", N_("Foam: shrinkage on setting")},
    {"foam_poor_dry", N_("Foam: shrinkage on drying")},
    {"foam_poor_age", N_("Foam: shrinkage in 30 years")},
    {"foam_set_days", N_("Foam: time to set")},
    {"foam_age_days", N_("Foam: when ageing begins")},
    {"foam_crack_onset", N_("Foam: shrinkage at which cracks begin")},
    {"foam_crack_scale", N_("Foam: shrinkage over which cracks multiply")},
    {"foam_crack_spacing", N_("Foam: closest cracks, in bay depths")},
    {"permeance_painted_board", N_("Painted drywall: lets water vapor through")},
    {"permeance_wood_board", N_("Wood sheathing boards: let water vapor through")},
    {"permeance_plaster", N_("Plaster on lath: lets water vapor through")},
    {"heat_air_density_kg_m3", N_("Air: density")},
    {"heat_air_capacity_j_kgk", N_("Air: heat that it carries")},
    {"heat_air_viscosity_m2_s", N_("Air: kinematic viscosity")},
    {"heat_air_k_w_mk", N_("Air: heat conduction")},
    {"room_film_m2k_w", N_("Film of air at the room side")},
    {"outdoor_film_m2k_w", N_("Film of air outdoors")},
    {"gypsum_thickness_m", N_("Drywall: thickness")},
    {"gypsum_k_w_mk", N_("Drywall: heat conduction")},
    {"sheathing_thickness_m", N_("Sheathing: thickness")},
    {"sheathing_k_w_mk", N_("Sheathing: heat conduction")},
    {"stud_width_m", N_("Stud: width")},
    {"wood_k_w_mk", N_("Wood: heat conduction")},
    {"foam_k_w_mk", N_("Foam: heat conduction")},
    {"foam_water_k_w_mk", N_("Wet foam: heat conduction of its water")},
    {"foam_permeability_m2", N_("Foam: lets air through between its gaps")},
    {"gap_radiation_w_m2k", N_("Radiation across an empty space")},
    {"void_convection_w_m2k", N_("Air turning over in an empty space")},
    {"loose_fill_ra_limit", N_("Limit below which air in the fill stays still")},
    {"slot_strip_m", N_("Width beside a stud that a slot cools")},
    {"perfect_fill_kg_m3", N_("Dense pack that all is held against")},
    {"degree_day_base_c", N_("Base of the degree days")},
    {"house_gains_w", N_("Heat of people, appliances and sun through windows")},
    {"house_sun_k", N_("Sun on walls and roof, as warmer outdoor air")},
    {"house_wall_share", N_("Share of the house's heat that the walls lose now")},
    {"house_realized_share", N_("Part of a computed saving that is measured")},
    {"framing_scale", N_("True framing over the one typed")},
    {"wall_area_scale", N_("True wall area over the one typed")},
    {"old_fill_kg_m3", N_("Old loose fill: density")},
    {"ach50_unknown", N_("Air changes an hour at 50 Pa, age not known")},
    {"ach50_before_1940", N_("Air changes an hour at 50 Pa, before 1940")},
    {"ach50_1940", N_("Air changes an hour at 50 Pa, 1940 to 1969")},
    {"ach50_1970", N_("Air changes an hour at 50 Pa, 1970 to 1989")},
    {"ach50_1990", N_("Air changes an hour at 50 Pa, from 1990")},
    {"house_ceiling_m", N_("Height of a story")},
    {"blower_door_scale", N_("True leakage over the one read")},
    {"leak_power", N_("Power of the pressure that leaks follow")},
    {"wind_m_s", N_("Wind in winter")},
    {"wind_shelter", N_("Shelter from the wind, 1 = open")},
    {"air_heat_j_m3k", N_("Heat that air takes along")},
    {"leak_wall_share", N_("Share of the house's leaks that is in its walls")},
    {"leak_bay_share", N_("Share of that through bays that can be packed")},
    {"leak_along_share", N_("Share of that from plate to plate")},
    {"leak_foam_open", N_("Leaks open again behind shrunk foam")},
    {"crack_fill_depth_m", N_("Depth of the fiber pressed into a crack")},
    {"house_air_share", N_("Share of a house's heat that goes with air")},
    {"vapor_gypsum", N_("Vapor through: drywall")},
    {"vapor_plaster_wood_lath", N_("Vapor through: plaster on wood lath")},
    {"vapor_plaster_metal_lath", N_("Vapor through: plaster on metal lath")},
    {"vapor_plaster_gypsum_lath", N_("Vapor through: plaster on gypsum lath")},
    {"vapor_paneling", N_("Vapor through: wood paneling")},
    {"vapor_boards", N_("Vapor through: boards")},
    {"vapor_plywood", N_("Vapor through: plywood")},
    {"vapor_osb", N_("Vapor through: OSB")},
    {"vapor_fiberboard", N_("Vapor through: fiberboard")},
    {"vapor_felt", N_("Vapor through: felt")},
    {"vapor_wood_lap", N_("Vapor through: lapped wood siding")},
    {"vapor_wood_shingle", N_("Vapor through: wood shingles")},
    {"vapor_shingle_backer", N_("Vapor through: wood shingles on a backer")},
    {"vapor_hardboard", N_("Vapor through: hardboard siding")},
    {"vapor_stucco", N_("Vapor through: stucco")},
    {"vapor_asbestos_cement", N_("Vapor through: asbestos-cement shingles")},
    {"vapor_composition", N_("Vapor through: asphalt siding")},
    {"vapor_fiber_cement", N_("Vapor through: fiber-cement siding")},
    {"vapor_hollow", N_("Vapor through: vinyl or metal siding")},
    {"vapor_hollow_backed", N_("Vapor through: vinyl or metal siding on a backer")},
    {"vapor_brick", N_("Vapor through: brick with an air space")},
    {"vapor_panel_siding", N_("Vapor through: plywood panel siding")},
    {"vapor_coat_unknown", N_("Vapor through: paint not known")},
    {"vapor_coat_latex", N_("Vapor through: latex paint")},
    {"vapor_coat_oil", N_("Vapor through: many coats of old oil paint")},
    {"vapor_coat_tight", N_("Vapor through: a vapor-tight face")},
    {"vapor_mu_cellulose", N_("Cellulose: holds vapor back, times still air")},
    {"vapor_mu_foam", N_("Foam: holds vapor back, times still air")},
    {"fuel_therm_kwh", N_("Heat in a therm")},
    {"fuel_ccf_kwh", N_("Heat in 100 ft³ of gas")},
    {"fuel_gas_m3_kwh", N_("Heat in a m³ of gas")},
    {"fuel_oil_gallon_kwh", N_("Heat in a gallon of oil")},
    {"fuel_oil_l_kwh", N_("Heat in a liter of oil")},
    {"fuel_propane_gallon_kwh", N_("Heat in a gallon of propane")},
    {"fuel_propane_l_kwh", N_("Heat in a liter of propane")},
    {"fuel_electricity_kwh", N_("Heat in a kWh")},
    {"fuel_cord_kwh", N_("Heat in a cord of firewood")},
};

const char *assumed_constant_name(const char *key, int language)
{
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        if (strcmp(names[i].key, key) == 0) {
            return words_in(language, names[i].text);
        }
    }
    const char *layer = io_layer_of_constant(key, language);
    return layer != NULL ? layer : key;
}

static const AssumedUnit units[] = {
    {"Pa s/m2", 1e-3, NC_("unit", "kPa s/m²"), 0.0019403, NC_("unit", "psf s/ft²")},
    {"kg/kg", 100.0, "%", 100.0, "%"},
    {"W/(m K)", 1.0, NC_("unit", "W/(m K)"), 6.93347, NC_("unit", "Btu in./(h ft² °F)")},
    {"W m2/(kg K)", 1e3, NC_("unit", "mW/(m K) per kg/m³"), 111.063,
     NC_("unit", "Btu in./(h ft² °F) per lb/ft³")},
    {"W kg/(m4 K)", 1e3, NC_("unit", "mW/(m K) × kg/m³"), 0.432842,
     NC_("unit", "Btu in./(h ft² °F) × lb/ft³")},
    {"kg/m3", 1.0, NC_("unit", "kg/m³"), 0.0624280, NC_("unit", "lb/ft³")},
    {"kg/m3 dry", 1.0, NC_("unit", "kg/m³"), 0.0624280, NC_("unit", "lb/ft³")},
    {"Pa s", 1e6, NC_("unit", "µPa s"), 1e3, NC_("unit", "cP")},
    {"Pa", 1.0, NC_("unit", "Pa"), 0.0208854, NC_("unit", "psf")},
    {"per unit RH", 1.0, "", 1.0, ""},
    {"years per kg/kg", 0.01, NC_("unit", "years per 1%"), 0.01, NC_("unit", "years per 1%")},
    {"% linear", 1.0, "%", 1.0, "%"},
    {"depths", 1.0, "", 1.0, ""},
    {"kg/(m2 s Pa)", 1e12, NC_("unit", "ng/(m² s Pa)"), 1.74783e10, NC_("unit", "perm")},
    {"1/h", 1.0, NC_("unit", "an hour"), 1.0, NC_("unit", "an hour")},
    {"m/s", 1.0, NC_("unit", "m/s"), 2.23694, NC_("unit", "mph")},
    {"J/(m3 K)", 1.0, NC_("unit", "J/(m³ K)"), 1.49107e-5, NC_("unit", "Btu/(ft³ °F)")},
    {"J/(kg K)", 1.0, NC_("unit", "J/(kg K)"), 2.38846e-4, NC_("unit", "Btu/(lb °F)")},
    {"m2/s", 1e6, NC_("unit", "mm²/s"), 1550.00, NC_("unit", "in.²/s")},
    {"m2 K/W", 1.0, NC_("unit", "m²K/W"), 5.67826, NC_("unit", "h ft² °F/Btu")},
    {"W/(m2 K)", 1.0, NC_("unit", "W/(m²K)"), 0.176110, NC_("unit", "Btu/(h ft² °F)")},
    {"m", 1e3, NC_("unit", "mm"), 39.3701, NC_("unit", "in.")},
    {"W", 1.0, NC_("unit", "W"), 3.41214, NC_("unit", "Btu/h")},
    {"K", 1.0, NC_("unit", "K"), 1.8, NC_("unit", "°F")},
    {"m2", 1e12, NC_("unit", "µm²"), 1.01325e12, NC_("unit", "darcy")},
    {"years", 1.0, NC_("unit", "years"), 1.0, NC_("unit", "years")},
    {"days", 1.0, NC_("unit", "days"), 1.0, NC_("unit", "days")},
};

const AssumedUnit *assumed_constant_unit(const char *unit)
{
    for (size_t i = 0; i < sizeof units / sizeof units[0]; i++) {
        if (strcmp(units[i].unit, unit) == 0) {
            return &units[i];
        }
    }
    return NULL;
}
