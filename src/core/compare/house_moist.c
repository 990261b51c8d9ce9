/* Moisture in the wall of a house. What is screened, and what is asked: the header. */
#include "core/house_moist.h"

#include "compare/compare_private.h"

#include "core/material.h"
#include "core/pb_math.h"

#include <assert.h>
#include <math.h>
#include <string.h>

static const double airspace_m2k_w = 0.18, airspace_sd_m = 0.01; /* ISO 6946, table 8; ISO 13788 */
static const double wet_rh = 0.75, humid_room_rh = 0.40, mold_rh = 0.80;

static void add(PbMoistWall *w, double r_m2k_w, double sd_m)
{
    assert(w->count < PB_MOIST_LAYERS);
    w->layer[w->count++] = (PbMoistLayer){r_m2k_w, sd_m};
}

static double permeance(const PbConstants *k, const char *name)
{
    return pb_constant_value(k, pb_constant_find(name));
}

static void add_coat(PbMoistWall *w, const PbConstants *k, PbCoat coat, int is_inside)
{
    /* Paint outside leaves the laps open unless many coats have closed them. */
    const double inside[PB_COATS] = {k->vapor_coat_unknown, 0.0, k->vapor_coat_latex,
                                     k->vapor_coat_oil, k->vapor_coat_tight};
    const double outside[PB_COATS] = {0.0, 0.0, 0.0, k->vapor_coat_oil, k->vapor_coat_tight};
    double p = is_inside ? inside[coat] : outside[coat];
    if (p > 0.0) {
        add(w, 0.0, pb_moist_sd_m(p));
    }
}

static int has_batt(const PbHouse *h)
{
    for (int i = 0; i < h->bay.obstacle_count; i++) {
        if (pb_obstacle_traits(h->bay.obstacles[i].kind)->is_batt) {
            return 1;
        }
    }
    return 0;
}

static void add_cavity(PbMoistWall *w, const PbHouse *h, const PbConstants *k, PbCompareFill fill)
{
    double depth = h->bay.depth_m;
    double density = fill == PB_COMPARE_DENSE   ? k->perfect_fill_kg_m3
                     : fill == PB_COMPARE_LOOSE ? 0.5 * k->perfect_fill_kg_m3
                                                : k->old_fill_kg_m3;
    if (fill == PB_COMPARE_FOAM) {
        add(w, depth / k->foam_k_w_mk, depth * k->vapor_mu_foam);
    } else if (fill == PB_COMPARE_EMPTY && has_batt(h)) {
        add(w, depth / PB_BATT_K_W_MK, depth);
    } else if (fill == PB_COMPARE_EMPTY && h->cavity.now != PB_CAVITY_LOOSE) {
        add(w, airspace_m2k_w, airspace_sd_m);
    } else {
        add(w, depth / pb_material_conductivity(k, density), depth * k->vapor_mu_cellulose);
    }
}

void pb_house_moist_wall(const PbHouse *h, const PbConstants *constants, PbCompareFill fill,
                         PbMoistWall *w)
{
    assert(h->wall.is_layered);
    memset(w, 0, sizeof *w);
    w->room_film_m2k_w = constants->room_film_m2k_w;
    w->out_film_m2k_w = constants->outdoor_film_m2k_w;
    add_coat(w, constants, h->damp.inside, 1);
    for (int p = 0; p < PB_WALL_PLACES; p++) {
        const PbWallLayer *row = pb_wall_layer((PbWallPlace)p, h->wall.layer[p]);
        if (row->constant != NULL) {
            add(w, pb_wall_layer_r(&h->wall, (PbWallPlace)p, constants),
                pb_moist_sd_m(permeance(constants, row->vapor)));
        }
        if (p == PB_WALL_INSIDE) {
            add_cavity(w, h, constants, fill);
        }
    }
    add_coat(w, constants, h->damp.outside, 0);
}

static double month_of(const PbSeason *s, int m)
{
    return s->mean - s->swing * pb_cos(2.0 * PB_PI * (m + 0.5) / PB_MOIST_MONTHS);
}

void pb_house_moist_months(const PbHouse *h, const PbConstants *constants,
                           PbMoistMonth months[PB_MOIST_MONTHS])
{
    const PbClimate *c = &h->climate;
    double days = pb_max(h->degree_days_k_d.mid, 1.0);
    PbSeason outdoor = pb_season_of_degree_days(&c->outdoor_c, constants->degree_day_base_c, days);
    int is_cooled = h->cooling.price_kwh.mid > 0.0;
    for (int m = 0; m < PB_MOIST_MONTHS; m++) {
        PbMoistMonth *at = &months[m];
        at->outdoor_c = month_of(&outdoor, m);
        at->outdoor_pa = month_of(&c->outdoor_rh, m) * pb_saturation_pa(at->outdoor_c);
        at->room_c = h->room_c;
        at->room_pa = month_of(&c->indoor_rh, m) * pb_saturation_pa(h->room_c);
        if (at->outdoor_c > h->room_c && is_cooled) {
            at->room_c = pb_max(pb_min(at->outdoor_c, h->cooling.set_c), h->room_c);
            at->room_pa = month_of(&c->indoor_rh, m) * pb_saturation_pa(at->room_c);
        } else if (at->outdoor_c > h->room_c) { /* open windows: the room is as the air outdoors */
            at->room_c = at->outdoor_c;
            at->room_pa = at->outdoor_pa;
        }
    }
}

/* Index of the layer of the cavity, behind coat and inside face. */
static int cavity_layer(const PbHouse *h)
{
    return h->damp.inside == PB_COAT_NONE ? 1 : 2;
}

static PbMoistPlace place_of(const PbHouse *h, const PbMoistYear *y)
{
    int cavity = cavity_layer(h);
    return y->layer < cavity ? PB_MOIST_AT_FRONT : PB_MOIST_AT_BACK;
}

void pb_house_moist(const PbHouse *h, const PbConstants *constants, PbCompareFill fill, int draws,
                    PbHouseMoist *moist)
{
    assert(h != NULL && constants != NULL && moist != NULL);
    assert(draws >= 0 && draws <= PB_COMPARE_MAX_DRAWS);
    PbMoistWall wall;
    PbMoistMonth months[PB_MOIST_MONTHS];
    PbMoistYear wettest;
    double most[PB_COMPARE_MAX_DRAWS];
    memset(moist, 0, sizeof *moist);
    if (!h->wall.is_layered) {
        return;
    }
    pb_house_moist_months(h, constants, months);
    pb_house_moist_wall(h, constants, fill, &wall);
    pb_moist_year(&wall, months, &moist->mid);
    wettest = moist->mid;
    moist->draws = draws;
    moist->has_mold_risk = moist->mid.face_rh > mold_rh;
    for (int d = 0; d < draws; d++) {
        PbMoistYear y;
        PbConstants k = pb_spread_constants(constants, h->seed, d, 0);
        pb_house_moist_wall(h, &k, fill, &wall);
        pb_moist_year(&wall, months, &y);
        moist->wet += y.is_wet;
        moist->stays += y.left_g_m2 > 0.0;
        most[d] = y.most_g_m2;
        wettest = y.most_g_m2 > wettest.most_g_m2 ? y : wettest;
    }
    const PbMoistYear *told = moist->mid.is_wet ? &moist->mid : &wettest;
    double at = moist->mid.most_g_m2;
    moist->most_g_m2 = (PbHeatRange){at, at, at};
    if (draws > 0) {
        PbBand b = pb_spread_band(most, (size_t)draws);
        moist->most_g_m2 = (PbHeatRange){pb_min(at, b.p10), at, pb_max(at, b.p90)};
    }
    moist->place = place_of(h, told);
    moist->most_month = told->most_month;
    int tenth = draws / 10;
    moist->verdict = 2 * moist->stays > draws || (draws == 0 && moist->mid.left_g_m2 > 0.0)
                         ? PB_MOIST_STAYS
                     : moist->stays > tenth || moist->mid.left_g_m2 > 0.0 ? PB_MOIST_MAY_STAY
                     : moist->wet > tenth || moist->mid.is_wet            ? PB_MOIST_DRIES
                                                                          : PB_MOIST_DRY;
}

static int is_at(const PbWall *w, PbWallPlace place, const char *id)
{
    return w->is_layered && strcmp(pb_wall_layer(place, w->layer[place])->id, id) == 0;
}

/* Brick without a known drain, or stucco on bare boards: nothing keeps driven rain from the fill.
 */
static int drinks(const PbWall *w)
{
    int is_bare = is_at(w, PB_WALL_PAPER, "none");
    return is_bare && is_at(w, PB_WALL_OVER, "none") &&
           (is_at(w, PB_WALL_CLADDING, "brick") || is_at(w, PB_WALL_CLADDING, "stucco"));
}

void pb_house_damp(const PbHouse *h, const PbConstants *constants, const PbHouseMoist *now,
                   const PbHouseMoist *dense, int holds[PB_WARNINGS])
{
    assert(h != NULL && constants != NULL && now != NULL && dense != NULL && holds != NULL);
    const PbHouseDamp *d = &h->damp;
    PbMoistMonth months[PB_MOIST_MONTHS];
    int humid_room = 0, drives_in = 0;
    pb_house_moist_months(h, constants, months);
    for (int m = 0; m < PB_MOIST_MONTHS; m++) {
        const PbMoistMonth *at = &months[m];
        humid_room |=
            at->outdoor_c < 0.0 && at->room_pa > humid_room_rh * pb_saturation_pa(at->room_c);
        drives_in |=
            at->outdoor_pa > pb_saturation_pa(at->room_c) * mold_rh && at->outdoor_c > at->room_c;
    }
    int is_wet = h->climate.outdoor_rh.mean > wet_rh;
    holds[PB_WARN_LEAKS] = d->leaks == PB_SEEN_YES;
    holds[PB_WARN_WATER] = d->water == PB_SEEN_YES;
    holds[PB_WARN_BATH] = d->bath == PB_SEEN_YES;
    holds[PB_WARN_STAYS] = dense->verdict >= PB_MOIST_MAY_STAY;
    holds[PB_WARN_DRINKS] = drinks(&h->wall);
    holds[PB_WARN_NO_OVERHANG] = d->no_overhang == PB_SEEN_YES && (is_wet || drinks(&h->wall));
    holds[PB_WARN_WET_CLIMATE] = is_wet;
    holds[PB_WARN_TIGHT_FRONT] = d->inside == PB_COAT_TIGHT && drives_in;
    holds[PB_WARN_HUMID_ROOMS] = humid_room;
    holds[PB_WARN_MOLD] = now->has_mold_risk;
    holds[PB_WARN_NOT_LOOKED] =
        d->leaks == PB_SEEN_UNKNOWN || d->water == PB_SEEN_UNKNOWN || d->bath == PB_SEEN_UNKNOWN;
}
