/* Every input that a comparison hangs on, with its range and where it comes from. */
#include "compare/compare_private.h"

#include "core/material.h"

#include <assert.h>
#include <string.h>

typedef struct Rows {
    PbAssumed *row;
    int count, max;
} Rows;

static void add(Rows *r, PbAssumed a)
{
    if (r->count < r->max) {
        r->row[r->count++] = a;
    }
}

static void number(Rows *r, PbAssumedFrom from, const char *key, double value, const char *unit,
                   const char *source)
{
    add(r, (PbAssumed){from, key, NULL, value, value, value, unit, source, "", 0});
}

static void range(Rows *r, const char *key, const PbHeatRange *v, const char *unit,
                  const char *source)
{
    add(r, (PbAssumed){PB_ASSUMED_HOUSE, key, NULL, v->mid, v->low, v->high, unit, source, "", 0});
}

static void text(Rows *r, PbAssumedFrom from, const char *key, const char *value,
                 const char *source)
{
    add(r, (PbAssumed){from, key, value, 0.0, 0.0, 0.0, "", source, "", 0});
}

/* is_drawn: its mean moves, by COMPARE_DAMP_RH. */
static void season(Rows *r, const char *key, const PbSeason *s, const char *unit, int is_drawn)
{
    add(r, (PbAssumed){PB_ASSUMED_CLIMATE, key, NULL, s->mean, s->mean - s->swing,
                       s->mean + s->swing, unit, "climate file: made, not measured", "", is_drawn});
}

static void house_rows(Rows *r, const PbHouse *h)
{
    int is_demo = strcmp(h->customer, PB_HOUSE_DEMO) == 0;
    const char *typed = is_demo ? "a sample, no real house" : "entered for this house";
    number(r, PB_ASSUMED_HOUSE, "wall_area_m2", h->wall_area_m2, "m2", typed);
    text(r, PB_ASSUMED_HOUSE, "wall", h->wall.is_layered ? "layers" : "simple", typed);
    if (h->cavity.now != PB_CAVITY_EMPTY) {
        number(r, PB_ASSUMED_HOUSE,
               h->cavity.now == PB_CAVITY_LOOSE ? "cavity/old-loose" : "cavity/partly",
               h->cavity.share, "-", typed);
    }
    number(r, PB_ASSUMED_HOUSE, "framing_share", h->framing_share, "-", typed);
    range(r, "degree_days_k_d", &h->degree_days_k_d, "K d", typed);
    text(r, PB_ASSUMED_HOUSE, "fuel", h->fuel, typed);
    if (h->bill.fuel > 0) {
        range(r, "bill/price", &h->bill.price, "money/unit", typed);
        number(r, PB_ASSUMED_HOUSE, "bill/last_year", h->bill.last_year, "unit", typed);
        range(r, "bill/not_heating", &h->bill.not_heating, "-", typed);
    } else {
        range(r, "price_per_kwh", &h->price_per_kwh, "money/kWh", typed);
    }
    if (h->cooling.price_kwh.mid > 0.0) {
        number(r, PB_ASSUMED_HOUSE, "cooling/room_c", h->cooling.set_c, "deg C", typed);
        range(r, "cooling/price_per_kwh", &h->cooling.price_kwh, "money/kWh", typed);
        range(r, "cooling/efficiency", &h->cooling.efficiency, "-", typed);
    }
    if (h->wall.is_layered) {
        static const char *const coats[PB_COATS] = {"coat-unknown", "coat-none", "coat-latex",
                                                    "coat-oil", "coat-tight"};
        text(r, PB_ASSUMED_HOUSE, "damp/inside", coats[h->damp.inside], typed);
        text(r, PB_ASSUMED_HOUSE, "damp/outside", coats[h->damp.outside], typed);
    }
    if (h->air.door_m3_h > 0.0) {
        number(r, PB_ASSUMED_HOUSE, "air/blower_door_m3_h", h->air.door_m3_h, "m3/h", typed);
    } else if (pb_house_has_air(h)) {
        number(r, PB_ASSUMED_HOUSE, "air/floor_area_m2", h->air.floor_area_m2, "m2", typed);
    }
    if (h->job.price > 0.0) {
        number(r, PB_ASSUMED_HOUSE, "job/price", h->job.price, "money", typed);
        number(r, PB_ASSUMED_HOUSE, "job/rebate", h->job.rebate, "money", typed);
        number(r, PB_ASSUMED_HOUSE, "job/life_years", h->job.life_years, "years", typed);
    }
    range(r, "efficiency", &h->efficiency, "-", typed);
    number(r, PB_ASSUMED_HOUSE, "room_c", h->room_c, "deg C", typed);
    number(r, PB_ASSUMED_HOUSE, "outdoor_c", h->outdoor_c, "deg C", typed);
    text(r, PB_ASSUMED_HOUSE, "bay", h->bay.title, "exercise file");
    number(r, PB_ASSUMED_HOUSE, "bay/width_m", h->bay.width_m, "m", "exercise file");
    number(r, PB_ASSUMED_HOUSE, "bay/height_m", h->bay.height_m, "m", "exercise file");
    number(r, PB_ASSUMED_HOUSE, "bay/depth_m", h->bay.depth_m, "m", "exercise file");
    for (int i = 0; i < h->bay.obstacle_count; i++) {
        if (pb_obstacle_traits(h->bay.obstacles[i].kind)->is_batt) {
            number(r, PB_ASSUMED_CASE, "batt_k_w_mk", PB_BATT_K_W_MK, "W/(m K)", "handbook");
            break;
        }
    }
    text(r, PB_ASSUMED_CLIMATE, "climate", h->climate.title, "climate file: made, not measured");
    season(r, "climate/bay_rh", &h->climate.bay_rh, "-", 1);
    season(r, "climate/indoor_c", &h->climate.indoor_c, "deg C", 0);
    season(r, "climate/indoor_rh", &h->climate.indoor_rh, "-", 0);
    season(r, "climate/outdoor_c", &h->climate.outdoor_c, "deg C", 0);
    season(r, "climate/outdoor_rh", &h->climate.outdoor_rh, "-", 0);
    number(r, PB_ASSUMED_CLIMATE, "climate/foam_ageing", h->climate.foam_ageing, "-",
           "climate file: made, not measured");
}

static void case_rows(Rows *r, const PbCompare *c)
{
    const PbHouse *h = &c->setup.house;
    static const char *const foam[] = {"good", "typical", "poor"};
    static const char *const loose[] = {"fair", "careless"};
    static const char *const dense[] = {"well-done", "hasty", "own"};
    static const char *const skin[] = {"painted-board", "wood-board", "tight", "plaster",
                                       "tight-sheathing"};
    PbFoamCase f = compare_foam_case(c);
    text(r, PB_ASSUMED_CASE, "foam", foam[h->foam], "ranges of published shrinkage, not products");
    text(r, PB_ASSUMED_CASE, "foam/inner", skin[f.inner], "from the finish of the bay");
    text(r, PB_ASSUMED_CASE, "foam/outer", skin[f.outer], "assumption");
    text(r, PB_ASSUMED_CASE, "dense", dense[h->dense],
         h->dense == PB_DENSE_OWN     ? "a recorded run"
         : h->dense == PB_DENSE_HASTY ? "two-foot steps by the clock; our choice, no source"
                                      : "one-foot steps after each stall; common practice");
    text(r, PB_ASSUMED_CASE, "loose", loose[h->loose],
         h->loose == PB_LOOSE_CARELESS
             ? "no tube, one low hole, the gate wide open; our choice, no source"
             : "no tube, two holes, filled to the top; common practice");
    number(r, PB_ASSUMED_CASE, "seed", (double)h->seed, "-",
           "six packing runs by six crews; our choice");
}

/* Of a house whose air is known: by a blower door, or by age and size. */
static int is_air_used(const char *name, const PbHouse *h)
{
    static const char *const by_age[PB_BUILT_KINDS] = {"ach50_unknown", "ach50_before_1940",
                                                       "ach50_1940", "ach50_1970", "ach50_1990"};
    int is_measured = h->air.door_m3_h > 0.0;
    if (!pb_house_has_air(h)) {
        return 0;
    }
    if (strncmp(name, "ach50_", 6) == 0) {
        return !is_measured && strcmp(name, by_age[h->air.built]) == 0;
    }
    if (strcmp(name, "house_ceiling_m") == 0 || strcmp(name, "blower_door_scale") == 0) {
        return is_measured == (name[0] == 'b');
    }
    return strcmp(name, "house_air_share") != 0 || !(h->bill.fuel > 0 && h->bill.last_year > 0.0);
}

/* Of a wall whose layers are known: its rows, its coats, the fills. */
static int is_vapor_used(const char *name, const PbHouse *h)
{
    static const char *const coats[PB_COATS] = {"vapor_coat_unknown", "", "vapor_coat_latex",
                                                "vapor_coat_oil", "vapor_coat_tight"};
    const PbHouseDamp *d = &h->damp;
    int is_outer = d->outside == PB_COAT_OIL || d->outside == PB_COAT_TIGHT;
    return h->wall.is_layered &&
           (strncmp(name, "vapor_mu_", 9) == 0 || strcmp(name, coats[d->inside]) == 0 ||
            (is_outer && strcmp(name, coats[d->outside]) == 0) || pb_wall_uses(&h->wall, name));
}

/* Groups and single rows that heat, settling and foam of a comparison use. */
static int is_used(const PbConstantInfo *info, const PbHouse *h)
{
    static const char *const classes[] = {"foam_good", "foam_typical", "foam_poor"};
    static const char *const shared[] = {
        "k_base_w_mk",      "k_slope_w_m2_kgk",  "k_radiation_w_kg_m4k", "sigma45_pa_s_m2",
        "sigma_exponent",   "lateral_ratio",     "wall_friction",        "internal_friction",
        "moisture_at_rh50", "sorption_exponent", "air_viscosity_pa_s",   "void_kg_m3"};
    static const char *const unused[] = {
        "degree_days_k_d",   "fuel_price_per_kwh",       "heating_efficiency",
        "camera_emissivity", "camera_noise_k",           "warm_up_solid_h",
        "warm_up_void_h",    "shrink_end_gap_m",         "gap_spread_frac",
        "end_crack_m",       "settle_damp_deep",         "face_film_factor",
        "permeance_tight",   "permeance_tight_sheathing"};
    int is_simple =
        strncmp(info->name, "gypsum_", 7) == 0 || strncmp(info->name, "sheathing_", 10) == 0;
    if ((is_simple || strcmp(info->group, "layer") == 0) && !pb_wall_uses(&h->wall, info->name)) {
        return 0;
    }
    for (size_t i = 0; i < sizeof unused / sizeof unused[0]; i++) {
        if (strcmp(info->name, unused[i]) == 0) {
            return 0;
        }
    }
    for (int k = 0; k < 3; k++) {
        if (k != (int)h->foam && strncmp(info->name, classes[k], strlen(classes[k])) == 0) {
            return 0;
        }
    }
    if (strncmp(info->name, "vibration_", 10) == 0) {
        return 0; /* quiet */
    }
    for (size_t i = 0; i < sizeof shared / sizeof shared[0]; i++) {
        if (strcmp(info->name, shared[i]) == 0) {
            return 1;
        }
    }
    if (strcmp(info->group, "fuel") == 0) {
        return h->bill.fuel > 0 && strcmp(info->name, pb_fuel(h->bill.fuel - 1)->constant) == 0;
    }
    if (strcmp(info->group, "vapor") == 0) {
        return is_vapor_used(info->name, h);
    }
    if (strcmp(info->group, "leakage") == 0 || strcmp(info->name, "crack_fill_depth_m") == 0) {
        return is_air_used(info->name, h);
    }
    if (strcmp(info->name, "old_fill_kg_m3") == 0) {
        return h->cavity.now == PB_CAVITY_LOOSE;
    }
    if (strcmp(info->name, "house_wall_share") == 0) {
        return !(h->bill.fuel > 0 && h->bill.last_year > 0.0);
    }
    return strcmp(info->group, "settling") == 0 || strcmp(info->group, "house") == 0 ||
           strcmp(info->group, "foam") == 0 || strcmp(info->group, "heat") == 0 ||
           strcmp(info->group, "layer") == 0;
}

int pb_compare_assumed(const PbCompare *c, PbAssumed *rows, int max)
{
    assert(c != NULL && rows != NULL && max > 0);
    Rows r = {rows, 0, max};
    size_t count;
    const PbConstantInfo *table = pb_constants_table(&count);
    house_rows(&r, &c->setup.house);
    case_rows(&r, c);
    for (size_t i = 0; i < count; i++) {
        const PbConstantInfo *info = &table[i];
        if (!is_used(info, &c->setup.house)) {
            continue;
        }
        double value = pb_constant_value(&c->setup.constants, info);
        int is_product = strcmp(info->name, "settle_material") == 0; /* by the comparison */
        int is_drawn = (pb_spread_moves(info) || is_product) && value == info->value;
        double low = is_product ? COMPARE_LEAST_MATERIAL * value : info->low;
        add(&r, (PbAssumed){PB_ASSUMED_CONSTANT, info->name, NULL, value, is_drawn ? low : value,
                            is_drawn ? info->high : value, info->unit, info->source,
                            info->confidence, is_drawn});
    }
    return r.count;
}
