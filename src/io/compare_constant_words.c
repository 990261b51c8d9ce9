/* Constants of a comparison for readers who do not read source: a name in both languages and the
 * unit that a trade page would use, in SI and in US units. */
#include "compare_assumed_private.h"

#include <string.h>

typedef struct Name {
    const char *key;
    const char *text[2]; /* by IoLanguage */
} Name;

static const Name names[] = {
    {"sigma45_pa_s_m2", {"Cellulose: resistance to air", "Celulosa: resistencia al aire"}},
    {"sigma_exponent",
     {"Cellulose: how fast that resistance grows with density",
      "Celulosa: qué tan rápido crece esa resistencia con la densidad"}},
    {"lateral_ratio",
     {"Cellulose: push sideways for each push down",
      "Celulosa: empuje de lado por cada empuje hacia abajo"}},
    {"wall_friction",
     {"Cellulose: friction on drywall", "Celulosa: fricción con el tablero de yeso"}},
    {"internal_friction",
     {"Cellulose: friction within the fill", "Celulosa: fricción dentro del relleno"}},
    {"moisture_at_rh50",
     {"Cellulose: water held at 50% humidity, by weight",
      "Celulosa: agua que guarda con 50 % de humedad, en peso"}},
    {"sorption_exponent",
     {"Cellulose: how fast that water grows with humidity",
      "Celulosa: qué tan rápido crece esa agua con la humedad"}},
    {"k_base_w_mk", {"Cellulose: heat conduction, base", "Celulosa: conducción de calor, base"}},
    {"k_slope_w_m2_kgk",
     {"Cellulose: conduction added by density", "Celulosa: conducción que agrega la densidad"}},
    {"k_radiation_w_kg_m4k",
     {"Cellulose: conduction added by radiation in loose fill",
      "Celulosa: conducción que agrega la radiación en relleno suelto"}},
    {"void_kg_m3", {"Counted as empty below", "Cuenta como vacío debajo de"}},
    {"air_viscosity_pa_s", {"Air: viscosity", "Aire: viscosidad"}},
    {"settle_rate_pa",
     {"Settling: load that the fill carries for 30 years",
      "Asentamiento: carga que el relleno aguanta 30 años"}},
    {"settle_exponent",
     {"Settling: how fast that load grows with density",
      "Asentamiento: qué tan rápido crece esa carga con la densidad"}},
    {"settle_damp",
     {"Settling: how much damp air softens the fill",
      "Asentamiento: cuánto ablanda al relleno el aire húmedo"}},
    {"settle_ref_kg_m3",
     {"Settling: dry density that it is measured from",
      "Asentamiento: densidad seca de la que se parte"}},
    {"settle_creep_power",
     {"Settling: how fast it goes with load", "Asentamiento: qué tan rápido va con la carga"}},
    {"settle_relaxation",
     {"Settling: how fast the grip of the faces eases",
      "Asentamiento: qué tan rápido cede el agarre de las caras"}},
    {"settle_lateral_start",
     {"Settling: grip of the faces at filling", "Asentamiento: agarre de las caras al llenar"}},
    {"settle_lateral_max_pa",
     {"Settling: most pressure on the faces after filling",
      "Asentamiento: mayor presión en las caras después de llenar"}},
    {"settle_time_years",
     {"Settling: time that the load is given for",
      "Asentamiento: tiempo para el que vale la carga"}},
    {"settle_moisture_years",
     {"Settling: time added by a change of moisture",
      "Asentamiento: tiempo que agrega un cambio de humedad"}},
    {"settle_laid_dry_kg_m3",
     {"Settling: dry density of fill that was not packed",
      "Asentamiento: densidad seca de relleno sin empacar"}},
    {"settle_hardening_exponent",
     {"Settling: how fast fill hardens as it creeps",
      "Asentamiento: qué tan rápido endurece el relleno al asentarse"}},
    {"settle_fabric_exponent",
     {"Settling: strength of loosely laid fill", "Asentamiento: resistencia del relleno suelto"}},
    {"settle_material",
     {"Settling: this product beside the measured one",
      "Asentamiento: este producto frente al medido"}},
    {"settle_loosest_kg_m3",
     {"Settling: loosest that fill lies", "Asentamiento: lo más suelto que queda el relleno"}},
    {"face_lath_factor",
     {"Friction on rough lath beside drywall", "Fricción en listones frente al tablero"}},
    {"foam_wet_kg_m3",
     {"Foam: density as injected, with its water", "Espuma: densidad al inyectarla, con su agua"}},
    {"foam_dry_kg_m3", {"Foam: density when dry", "Espuma: densidad seca"}},
    {"foam_constant_rate_share",
     {"Foam: share of water below which drying slows",
      "Espuma: parte de agua bajo la cual se seca más despacio"}},
    {"foam_good_set", {"Foam: shrinkage on setting", "Espuma: encogimiento al fraguar"}},
    {"foam_good_dry", {"Foam: shrinkage on drying", "Espuma: encogimiento al secarse"}},
    {"foam_good_age", {"Foam: shrinkage in 30 years", "Espuma: encogimiento en 30 años"}},
    {"foam_typical_set", {"Foam: shrinkage on setting", "Espuma: encogimiento al fraguar"}},
    {"foam_typical_dry", {"Foam: shrinkage on drying", "Espuma: encogimiento al secarse"}},
    {"foam_typical_age", {"Foam: shrinkage in 30 years", "Espuma: encogimiento en 30 años"}},
    {"foam_poor_set", {"Foam: shrinkage on setting", "Espuma: encogimiento al fraguar"}},
    {"foam_poor_dry", {"Foam: shrinkage on drying", "Espuma: encogimiento al secarse"}},
    {"foam_poor_age", {"Foam: shrinkage in 30 years", "Espuma: encogimiento en 30 años"}},
    {"foam_set_days", {"Foam: time to set", "Espuma: tiempo de fraguado"}},
    {"foam_age_days", {"Foam: when ageing begins", "Espuma: cuándo empieza a envejecer"}},
    {"foam_crack_onset",
     {"Foam: shrinkage at which cracks begin", "Espuma: encogimiento en que empieza a agrietarse"}},
    {"foam_crack_scale",
     {"Foam: shrinkage over which cracks multiply",
      "Espuma: encogimiento en que se multiplican las grietas"}},
    {"foam_crack_spacing",
     {"Foam: closest cracks, in bay depths",
      "Espuma: grietas más juntas, en fondos de la cavidad"}},
    {"permeance_painted_board",
     {"Painted drywall: lets water vapor through", "Tablero pintado: deja pasar vapor de agua"}},
    {"permeance_wood_board",
     {"Wood sheathing boards: let water vapor through",
      "Tablas de madera: dejan pasar vapor de agua"}},
    {"permeance_plaster",
     {"Plaster on lath: lets water vapor through",
      "Yeso sobre listones: deja pasar vapor de agua"}},
    {"heat_air_density_kg_m3", {"Air: density", "Aire: densidad"}},
    {"heat_air_capacity_j_kgk", {"Air: heat that it carries", "Aire: calor que lleva"}},
    {"heat_air_viscosity_m2_s", {"Air: kinematic viscosity", "Aire: viscosidad cinemática"}},
    {"heat_air_k_w_mk", {"Air: heat conduction", "Aire: conducción de calor"}},
    {"room_film_m2k_w", {"Film of air at the room side", "Película de aire del lado interior"}},
    {"outdoor_film_m2k_w", {"Film of air outdoors", "Película de aire exterior"}},
    {"gypsum_thickness_m", {"Drywall: thickness", "Tablero de yeso: espesor"}},
    {"gypsum_k_w_mk", {"Drywall: heat conduction", "Tablero de yeso: conducción de calor"}},
    {"sheathing_thickness_m", {"Sheathing: thickness", "Forro exterior: espesor"}},
    {"sheathing_k_w_mk", {"Sheathing: heat conduction", "Forro exterior: conducción de calor"}},
    {"stud_width_m", {"Stud: width", "Poste: ancho"}},
    {"wood_k_w_mk", {"Wood: heat conduction", "Madera: conducción de calor"}},
    {"foam_k_w_mk", {"Foam: heat conduction", "Espuma: conducción de calor"}},
    {"foam_permeability_m2",
     {"Foam: lets air through between its gaps", "Espuma: deja pasar aire entre sus rendijas"}},
    {"gap_radiation_w_m2k",
     {"Radiation across an empty space", "Radiación a través de un espacio vacío"}},
    {"void_convection_w_m2k",
     {"Air turning over in an empty space", "Aire que da vueltas en un espacio vacío"}},
    {"loose_fill_ra_limit",
     {"Limit below which air in the fill stays still",
      "Límite bajo el cual el aire del relleno no se mueve"}},
    {"slot_strip_m",
     {"Width beside a stud that a slot cools", "Ancho junto al poste que enfría una rendija"}},
    {"perfect_fill_kg_m3",
     {"Dense pack that all is held against", "Empacado denso con el que se compara lo demás"}},
};

const char *assumed_constant_name(const char *key, IoLanguage language)
{
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        if (strcmp(names[i].key, key) == 0) {
            return names[i].text[language];
        }
    }
    return key;
}

static const AssumedUnit units[] = {
    {"Pa s/m2", 1e-3, "kPa s/m²", 0.0019403, "psf s/ft²"},
    {"kg/kg", 100.0, "%", 100.0, "%"},
    {"W/(m K)", 1.0, "W/(m K)", 6.93347, "Btu in./(h ft² °F)"},
    {"W m2/(kg K)", 1e3, "mW/(m K) per kg/m³", 111.063, "Btu in./(h ft² °F) per lb/ft³"},
    {"W kg/(m4 K)", 1e3, "mW/(m K) × kg/m³", 0.432842, "Btu in./(h ft² °F) × lb/ft³"},
    {"kg/m3", 1.0, "kg/m³", 0.0624280, "lb/ft³"},
    {"kg/m3 dry", 1.0, "kg/m³", 0.0624280, "lb/ft³"},
    {"Pa s", 1e6, "µPa s", 1e3, "cP"},
    {"Pa", 1.0, "Pa", 0.0208854, "psf"},
    {"per unit RH", 1.0, "", 1.0, ""},
    {"years per kg/kg", 0.01, "years per 1%", 0.01, "years per 1%"},
    {"% linear", 1.0, "%", 1.0, "%"},
    {"depths", 1.0, "", 1.0, ""},
    {"kg/(m2 s Pa)", 1e12, "ng/(m² s Pa)", 1.74783e10, "perm"},
    {"J/(kg K)", 1.0, "J/(kg K)", 2.38846e-4, "Btu/(lb °F)"},
    {"m2/s", 1e6, "mm²/s", 1550.00, "in.²/s"},
    {"m2 K/W", 1.0, "m²K/W", 5.67826, "h ft² °F/Btu"},
    {"W/(m2 K)", 1.0, "W/(m²K)", 0.176110, "Btu/(h ft² °F)"},
    {"m", 1e3, "mm", 39.3701, "in."},
    {"m2", 1e12, "µm²", 1.01325e12, "darcy"},
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
