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

double pb_compare_wall_r(const PbHeatBayResult *bay, const PbHouse *house, const PbConstants *c)
{
    /* The conductance of the cavity layer stands in the bay's own lower limit, beside its stud. */
    PbWallSkin skin = pb_wall_skin(&house->wall, c);
    double outer = pb_wall_skin_r(&skin), stud = stud_r(house->bay.depth_m, c);
    double share = c->stud_width_m / (c->stud_width_m + house->bay.width_m);
    double layers = 1.0 / (bay->r_lower_m2k_w - outer);
    double cavity = (layers - share / stud) / (1.0 - share);
    PbWallPaths paths = {outer, stud, framing(house, c), bay->u_cavity_w_m2k, cavity};
    return pb_wall_r(&paths);
}

/* Dense packed full. */
PbWallPaths compare_perfect_paths(const PbHouse *h, const PbConstants *c)
{
    PbWallSkin skin = pb_wall_skin(&h->wall, c);
    double fill = h->bay.depth_m / pb_material_conductivity(c, c->perfect_fill_kg_m3);
    return pb_wall_paths(&skin, stud_r(h->bay.depth_m, c), framing(h, c), fill);
}

double compare_perfect_r(const PbCompareSetup *s, const PbConstants *c)
{
    PbWallPaths paths = compare_perfect_paths(&s->house, c);
    return pb_wall_r(&paths);
}

static void foam_setup(const PbCompare *c, const PbConstants *constants, const PbFoamState *state,
                       PbHeatBaySetup *s)
{
    const PbExercise *b = &c->setup.house.bay;
    s->gap_count = pb_foam_heat_gaps(state, b->width_m, b->height_m, b->depth_m, s->gaps);
    s->fill = (PbHeatFill){1, constants->foam_k_w_mk, constants->foam_permeability_m2};
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

static void keep_heat(const PbCompare *c, const PbHeatBay *bay, const PbFoamState *foam,
                      CompareHeat *out)
{
    const PbHeatBayResult *r = pb_heat_bay_result(bay);
    out->r_m2k_w = pb_compare_wall_r(r, &c->setup.house, &c->setup.constants);
    out->surface_min_c = r->surface_min_c;
    out->surface_max_c = r->surface_max_c;
    out->map_x0_m = r->map_x0_m;
    out->map_x1_m = r->map_x1_m;
    out->cold_m2 = cold_area(c, r);
    out->leak_left = compare_leak_left(r, &c->setup.constants, foam, c->setup.house.bay.width_m);
    out->has_loop = 0;
    for (int i = 0; i < r->strip_count; i++) {
        out->has_loop |= pb_heat_bay_strip(bay, i)->has_loop;
    }
    for (int i = 0; i < r->map_nx * r->map_ny; i++) {
        out->map_c[i] = (float)r->map_c[i];
    }
}

/* R of the wall and what is left of its leaks, for a setup under a draw's constants. */
static PbStatus drawn(const PbCompare *c, const PbHeatBaySetup *s, const PbConstants *constants,
                      const PbFoamState *foam, CompareSample *out)
{
    PbHeatBay *bay;
    const PbHouse *h = &c->setup.house;
    PB_TRY(pb_aged_heat_solve(s, constants, &c->setup.allocator, &bay, NULL));
    const PbHeatBayResult *r = pb_heat_bay_result(bay);
    out->r_m2k_w = pb_compare_wall_r(r, h, constants);
    out->leak_left = compare_leak_left(r, constants, foam, h->bay.width_m);
    pb_heat_bay_destroy(bay);
    return PB_OK;
}

/* Setup of a fill at a key time, coarse or fine. Foam is laid into `foam`, which the caller owns.
 */
static void key_setup(const PbCompare *c, PbCompareFill fill, int t, int is_coarse,
                      PbBayField *foam, PbHeatBaySetup *s)
{
    const CompareFill *f = &c->fill[fill];
    if (fill == PB_COMPARE_LOOSE || fill == PB_COMPARE_DENSE) {
        *s = aged_setup(c, &f->aged[t], is_coarse ? COMPARE_DRAW_STRIPS : COMPARE_STRIPS);
    } else {
        *s = weather(c, fill == PB_COMPARE_FOAM ? foam : &c->now, COMPARE_STRIPS);
    }
    if (is_coarse) {
        make_coarse(s, fill == PB_COMPARE_FOAM ? COMPARE_FOAM_DRAW_STRIPS : COMPARE_DRAW_STRIPS);
    }
    if (fill == PB_COMPARE_FOAM) {
        const PbFoamState *state = &f->frames[pb_compare_key_frame(c, t)].foam;
        compare_foam_field(c, state, foam->density_kg_m3);
        foam_setup(c, &c->setup.constants, state, s);
    }
}

PbStatus compare_heat(PbCompare *c, PbCompareFill fill, int t, PbError *err)
{
    CompareHeat *out = &c->fill[fill].heat[t];
    PbHeatBaySetup s;
    PbBayField foam;
    PbHeatBay *bay;
    PB_TRY(pb_aged_columns(&c->bay, 0, c->bay.nx, &foam));
    key_setup(c, fill, t, 0, &foam, &s);
    s.map_nx = PB_COMPARE_MAP_NX;
    s.map_ny = PB_COMPARE_MAP_NY;
    PbStatus status = pb_aged_heat_solve(&s, &c->setup.constants, &c->setup.allocator, &bay, err);
    if (status == PB_OK) {
        const CompareFrame *frame = &c->fill[fill].frames[pb_compare_key_frame(c, t)];
        CompareSample coarse;
        keep_heat(c, bay, fill == PB_COMPARE_FOAM ? &frame->foam : NULL, out);
        pb_heat_bay_destroy(bay);
        key_setup(c, fill, t, 1, &foam, &s);
        status = drawn(c, &s, &c->setup.constants, NULL, &coarse);
        out->coarse_r_m2k_w = status == PB_OK ? coarse.r_m2k_w : 0.0;
    }
    pb_bay_field_destroy(&foam);
    return status;
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

static PbStatus draw_foam(const PbCompare *c, const PbConstants *constants, int draw,
                          CompareSample *out)
{
    PbFoamCase foam = compare_foam_case(c);
    PbBayField field;
    foam.constants = *constants;
    foam.seed += (uint64_t)draw; /* where it cracks and which face it leaves is chance too */
    PB_TRY(pb_aged_columns(&c->bay, 0, c->bay.nx, &field));
    PbStatus status = PB_OK;
    for (int t = 0; t < c->setup.year_count && status == PB_OK; t++) {
        PbFoamState state;
        PbHeatBaySetup s = weather(c, &field, COMPARE_FOAM_DRAW_STRIPS);
        make_coarse(&s, COMPARE_FOAM_DRAW_STRIPS);
        pb_foam_at(&foam, c->setup.years[t] * PB_DAYS_PER_YEAR, &state);
        compare_foam_field(c, &state, field.density_kg_m3);
        foam_setup(c, constants, &state, &s);
        out[t] =
            (CompareSample){.top_gap_m = state.plate_gap_m[1], .shrink_frac = state.shrink_frac};
        status = drawn(c, &s, constants, &state, &out[t]);
    }
    pb_bay_field_destroy(&field);
    return status;
}

static PbStatus draw_cellulose(const PbCompare *c, const PbConstants *constants,
                               const PbBayField *packed, CompareSample *out)
{
    PbSettleConfig config = compare_settle_config(c);
    PbSettle *settle;
    config.constants = *constants;
    PB_TRY(pb_settle_create(packed, &config, &settle, NULL));
    PbStatus status = PB_OK;
    for (int t = 0; t < c->setup.year_count && status == PB_OK; t++) {
        PbSettleReport report;
        PbAgedBay aged;
        status = pb_settle_advance(settle, c->setup.years[t]);
        if (status == PB_OK) {
            status = pb_settle_aged(settle, 0, &aged);
        }
        if (status == PB_OK) {
            PbHeatBaySetup s = aged_setup(c, &aged, COMPARE_DRAW_STRIPS);
            make_coarse(&s, COMPARE_DRAW_STRIPS);
            pb_settle_report(settle, &report);
            out[t] = (CompareSample){.top_gap_m = report.top_gap_m};
            status = drawn(c, &s, constants, NULL, &out[t]);
            pb_aged_destroy(&aged);
        }
    }
    pb_settle_destroy(settle);
    return status;
}

PbStatus compare_draw(PbCompare *c, PbCompareFill fill, int draw, PbError *err)
{
    PbConstants constants = pb_spread_constants(&c->setup.constants, c->setup.house.seed, draw, 0);
    CompareSample *out = c->fill[fill].draws + (size_t)draw * (size_t)c->setup.year_count;
    PbStatus status = fill == PB_COMPARE_EMPTY ? draw_empty(c, &constants, out)
                      : fill == PB_COMPARE_FOAM
                          ? draw_foam(c, &constants, draw, out)
                          : draw_cellulose(c, &constants, &c->fill[fill].packed, out);
    if (status != PB_OK) {
        return pb_fail(err, status, "draw %d failed: %s", draw, pb_status_name(status));
    }
    return PB_OK;
}
