/*
 * Heat of each fill at a key time, and the draws. One setup for both: the draws use fewer strips.
 * The wall of the house has its own share of framing; the bay gives the cavity and the stud.
 */
#include "compare/compare_private.h"

#include "core/material.h"
#include "core/pb_math.h"
#include "core/units.h"

#include <math.h>

static double stud_r(double depth_m, const PbConstants *c)
{
    return depth_m / c->wood_k_w_mk;
}

/* Of a draw, not more than half: as much as may be typed. */
static double framing(const PbHouse *h, const PbConstants *c)
{
    return pb_min(h->framing_share * c->framing_scale, 0.5);
}

/* Films, studs and framing of the wall; the cavity is left open. */
static PbWallPaths wall_of(const PbHouse *h, const PbConstants *c)
{
    PbWallSkin skin = pb_wall_skin(&h->wall, c);
    PbWallPaths w = {pb_wall_skin_r(&skin), stud_r(h->bay.depth_m, c), framing(h, c), 0.0, 0.0};
    return w;
}

/* The conductance of the cavity layer stands in the bay's own lower limit, beside its stud. */
static CompareCavity cavity_of(const PbHeatBayResult *bay, const PbHouse *house,
                               const PbConstants *c)
{
    PbWallPaths wall = wall_of(house, c);
    double share = c->stud_width_m / (c->stud_width_m + house->bay.width_m);
    double layers = 1.0 / (bay->r_lower_m2k_w - wall.skin_m2k_w);
    CompareCavity cavity = {bay->u_cavity_w_m2k,
                            (layers - share / wall.stud_m2k_w) / (1.0 - share)};
    return cavity;
}

double compare_wall_r(const PbWallPaths *wall, CompareCavity cavity)
{
    PbWallPaths paths = *wall;
    paths.cavity_u_w_m2k = cavity.u_w_m2k;
    paths.layer_w_m2k = cavity.layer_w_m2k;
    return pb_wall_r(&paths);
}

double pb_compare_wall_r(const PbHeatBayResult *bay, const PbHouse *house, const PbConstants *c)
{
    PbWallPaths wall = wall_of(house, c);
    return compare_wall_r(&wall, cavity_of(bay, house, c));
}

/* Dense packed full. */
PbWallPaths compare_perfect_paths(const PbHouse *h, const PbConstants *c)
{
    PbWallSkin skin = pb_wall_skin(&h->wall, c);
    double fill = h->bay.depth_m / pb_material_conductivity(c, c->perfect_fill_kg_m3);
    return pb_wall_paths(&skin, stud_r(h->bay.depth_m, c), framing(h, c), fill);
}

void compare_make_walls(PbCompare *c)
{
    const PbHouse *h = &c->setup.house;
    PbWallPaths full = compare_perfect_paths(h, &c->setup.constants);
    c->mid_wall = wall_of(h, &c->setup.constants);
    c->mid_perfect_r = pb_wall_r(&full);
    for (int d = 0; d < c->setup.draws; d++) {
        PbConstants k = pb_spread_constants(&c->setup.constants, h->seed, d, 0);
        full = compare_perfect_paths(h, &k);
        c->walls[d] = wall_of(h, &k);
        c->perfect_r[d] = pb_wall_r(&full);
    }
}

static const double water_kg_m3 = 1000.0;

/* Foam with its gaps and with the water that is still in it. */
static void foam_setup(const PbCompare *c, const PbConstants *constants, const PbFoamState *state,
                       PbHeatBaySetup *s)
{
    const PbExercise *b = &c->setup.house.bay;
    s->gap_count = pb_foam_heat_gaps(state, b->width_m, b->height_m, b->depth_m, s->gaps);
    double water = (constants->foam_wet_kg_m3 - constants->foam_dry_kg_m3) * state->water_frac;
    double wet_k = constants->foam_water_k_w_mk * water / water_kg_m3;
    s->fill = (PbHeatFill){1, constants->foam_k_w_mk + wet_k, constants->foam_permeability_m2};
    /* Every crack needs lines of its own, and a section gives lines to a quarter of its cells. */
    int ny = 8 * (s->gap_count + 2);
    s->ny = ny > s->ny ? ny : s->ny;
}

/* The same bay for a draw: fewer strips, fewer cells. */
static void make_coarse(PbHeatBaySetup *s, int strips)
{
    s->strips = strips;
    s->nx = COMPARE_DRAW_NX;
    s->ny = COMPARE_DRAW_NY;
    s->map_nx = s->map_ny = 0;
}

static PbHeatBaySetup weather(const PbCompare *c, const PbBayField *field, int strips)
{
    PbHeatBaySetup s = pb_heat_bay_default(field);
    s.wall = c->setup.house.wall;
    s.room_c = c->setup.house.room_c;
    s.outdoor_c = c->setup.house.outdoor_c;
    s.strips = strips;
    s.map_nx = s.map_ny = 0;
    return s;
}

static PbHeatBaySetup aged_setup(const PbCompare *c, const PbAgedBay *aged, int strips)
{
    const PbHouse *h = &c->setup.house;
    PbAgedHeat air = {h->room_c, h->outdoor_c, strips, h->wall};
    return pb_aged_heat_setup(&air, aged);
}

/* Area of the picture that is cold though no stud is near: see cold_m2 in the header. */
static double cold_area(const PbCompare *c, const PbHeatBayResult *r)
{
    const PbHouse *h = &c->setup.house;
    const PbConstants *k = &c->setup.constants;
    double air = h->room_c - h->outdoor_c;
    double limit =
        h->room_c - air * (compare_perfect_paths(h, k).cavity_u_w_m2k * k->room_film_m2k_w + 0.05);
    double dx = (r->map_x1_m - r->map_x0_m) / r->map_nx, dy = h->bay.height_m / r->map_ny;
    double edge = k->stud_width_m; /* a board over a stud is cold that far to its sides */
    int cold = 0;
    for (int j = 0; j < r->map_ny; j++) {
        for (int i = 0; i < r->map_nx; i++) {
            double x = r->map_x0_m + (i + 0.5) * dx;
            cold += x > edge && x < h->bay.width_m - edge && r->map_c[j * r->map_nx + i] < limit;
        }
    }
    return cold * dx * dy;
}

static int has_loop(const PbHeatBay *bay)
{
    int found = 0;
    for (int i = 0; i < pb_heat_bay_result(bay)->strip_count; i++) {
        found |= pb_heat_bay_strip(bay, i)->has_loop;
    }
    return found;
}

static void keep_heat(const PbCompare *c, const PbHeatBay *bay, const PbFoamState *foam,
                      CompareHeat *out)
{
    const PbHeatBayResult *r = pb_heat_bay_result(bay);
    out->cavity = cavity_of(r, &c->setup.house, &c->setup.constants);
    out->surface_min_c = r->surface_min_c;
    out->surface_max_c = r->surface_max_c;
    out->map_x0_m = r->map_x0_m;
    out->map_x1_m = r->map_x1_m;
    out->cold_m2 = cold_area(c, r);
    out->leak_left = compare_leak_left(r, &c->setup.constants, foam, c->setup.house.bay.width_m);
    out->has_loop = has_loop(bay);
    for (int i = 0; i < r->map_nx * r->map_ny; i++) {
        out->map_c[i] = (float)r->map_c[i];
    }
}

/* The cavity and what is left of its leaks, for a setup under a draw's constants. */
static PbStatus drawn(const PbCompare *c, const PbHeatBaySetup *s, const PbConstants *constants,
                      const PbFoamState *foam, CompareSample *out)
{
    PbHeatBay *bay;
    const PbHouse *h = &c->setup.house;
    PB_TRY(pb_aged_heat_solve(s, constants, &c->setup.allocator, &bay, NULL));
    const PbHeatBayResult *r = pb_heat_bay_result(bay);
    out->cavity = cavity_of(r, h, constants);
    out->leak_left = compare_leak_left(r, constants, foam, h->bay.width_m);
    out->has_loop = has_loop(bay);
    pb_heat_bay_destroy(bay);
    return PB_OK;
}

/* Setup of foam as `state` has it, laid into `foam`, a copy of the bay that the caller owns. */
static PbHeatBaySetup foam_bay(const PbCompare *c, const PbConstants *constants,
                               const PbFoamState *state, int is_coarse, PbBayField *foam)
{
    PbHeatBaySetup s = weather(c, foam, COMPARE_STRIPS);
    if (is_coarse) {
        make_coarse(&s, COMPARE_FOAM_DRAW_STRIPS);
    }
    compare_foam_field(c, state, foam->density_kg_m3);
    foam_setup(c, constants, state, &s);
    return s;
}

/* Setup of the shipped values at a key time. */
static PbHeatBaySetup key_setup(const PbCompare *c, PbCompareFill fill, int t, int is_coarse,
                                PbBayField *foam)
{
    const CompareFill *f = &c->fill[fill];
    PbHeatBaySetup s;
    if (fill == PB_COMPARE_FOAM) {
        const CompareFrame *frame = &f->grid[COMPARE_FINE].frames[pb_compare_key_frame(c, t)];
        return foam_bay(c, &c->setup.constants, &frame->foam, is_coarse, foam);
    }
    if (fill == PB_COMPARE_EMPTY) {
        s = weather(c, &c->now, COMPARE_STRIPS);
    } else {
        const CompareAged *aged = &f->grid[is_coarse ? COMPARE_COARSE : COMPARE_FINE];
        s = aged_setup(c, &aged->key[t], is_coarse ? COMPARE_DRAW_STRIPS : COMPARE_STRIPS);
    }
    if (is_coarse) {
        make_coarse(&s, COMPARE_DRAW_STRIPS);
    }
    return s;
}

/* Foam of the shipped values at a key time; NULL for the other fills. */
static const PbFoamState *key_foam(const PbCompare *c, PbCompareFill fill, int t)
{
    const CompareAged *aged = &c->fill[fill].grid[COMPARE_FINE];
    return fill == PB_COMPARE_FOAM ? &aged->frames[pb_compare_key_frame(c, t)].foam : NULL;
}

PbStatus compare_heat(PbCompare *c, PbCompareFill fill, int t, PbError *err)
{
    PbBayField foam;
    PbHeatBay *bay;
    PB_TRY(pb_aged_columns(&c->bay, 0, c->bay.nx, &foam));
    PbHeatBaySetup s = key_setup(c, fill, t, 0, &foam);
    s.map_nx = PB_COMPARE_MAP_NX;
    s.map_ny = PB_COMPARE_MAP_NY;
    PbStatus status = pb_aged_heat_solve(&s, &c->setup.constants, &c->setup.allocator, &bay, err);
    if (status == PB_OK) {
        keep_heat(c, bay, key_foam(c, fill, t), &c->fill[fill].heat[t]);
        pb_heat_bay_destroy(bay);
    }
    pb_bay_field_destroy(&foam);
    return status;
}

/* The shipped values as the draws are solved. */
PbStatus compare_coarse(PbCompare *c, PbCompareFill fill, int t, PbError *err)
{
    CompareSample *out = &c->fill[fill].coarse[t];
    PbBayField foam;
    PB_TRY(pb_aged_columns(&c->bay, 0, c->bay.nx, &foam));
    PbHeatBaySetup s = key_setup(c, fill, t, 1, &foam);
    PbStatus status = drawn(c, &s, &c->setup.constants, key_foam(c, fill, t), out);
    if (compare_is_packed(fill)) {
        const CompareAged *aged = &c->fill[fill].grid[COMPARE_COARSE];
        out->top_gap_m = aged->frames[pb_compare_key_frame(c, t)].report.top_gap_m;
    }
    pb_bay_field_destroy(&foam);
    return status == PB_OK ? PB_OK
                           : pb_fail(err, status, "no resistance: %s", pb_status_name(status));
}

static PbStatus draw_empty(const PbCompare *c, const PbConstants *constants, CompareSample *out)
{
    PbHeatBaySetup s = weather(c, &c->now, COMPARE_DRAW_STRIPS);
    CompareSample one = {.top_gap_m = c->setup.house.bay.height_m};
    make_coarse(&s, COMPARE_DRAW_STRIPS);
    PB_TRY(drawn(c, &s, constants, NULL, &one));
    for (int t = 0; t < c->setup.year_count; t++) {
        out[t] = one;
    }
    return PB_OK;
}

static PbStatus draw_foam(const PbCompare *c, const PbConstants *constants, int draw, int t,
                          CompareSample *out)
{
    PbFoamCase foam = compare_foam_case(c);
    PbFoamState state;
    PbBayField field;
    foam.constants = *constants;
    foam.seed += (uint64_t)draw; /* where it cracks and which face it leaves is chance too */
    PB_TRY(pb_aged_columns(&c->bay, 0, c->bay.nx, &field));
    pb_foam_at(&foam, c->setup.years[t] * PB_DAYS_PER_YEAR, &state);
    PbHeatBaySetup s = foam_bay(c, constants, &state, 1, &field);
    *out = (CompareSample){.top_gap_m = state.plate_gap_m[1], .shrink_frac = state.shrink_frac};
    PbStatus status = drawn(c, &s, constants, &state, out);
    pb_bay_field_destroy(&field);
    return status;
}

static PbStatus draw_cellulose(const PbCompare *c, PbCompareFill fill, int draw, int t,
                               const PbConstants *constants, CompareSample *out)
{
    PbAgedBay aged;
    PB_TRY(compare_settled_bay(c, fill, draw, t, &aged, &out->top_gap_m));
    PbHeatBaySetup s = aged_setup(c, &aged, COMPARE_DRAW_STRIPS);
    make_coarse(&s, COMPARE_DRAW_STRIPS);
    PbStatus status = drawn(c, &s, constants, NULL, out);
    pb_aged_destroy(&aged);
    return status;
}

PbStatus compare_draw(PbCompare *c, PbCompareFill fill, int index, PbError *err)
{
    int draw = index / c->setup.year_count, t = index % c->setup.year_count;
    PbConstants k = pb_spread_constants(&c->setup.constants, c->setup.house.seed, draw, 0);
    CompareSample *out = &c->fill[fill].draws[index];
    PbStatus status = fill == PB_COMPARE_EMPTY  ? draw_empty(c, &k, out)
                      : fill == PB_COMPARE_FOAM ? draw_foam(c, &k, draw, t, out)
                                                : draw_cellulose(c, fill, draw, t, &k, out);
    if (status != PB_OK) {
        return pb_fail(err, status, "draw %d failed: %s", draw, pb_status_name(status));
    }
    return PB_OK;
}
