/* What is read from a comparison: figures with their ranges, pictures, states. */
#include "compare/compare_private.h"

#include "core/pb_math.h"

#include <assert.h>
#include <math.h>
#include <string.h>

static const double void_square_m2 = 0.01;

typedef enum Metric { TOP_GAP, SHRINKAGE, WALL_R, HEAT_RATIO } Metric;

int compare_best_grid(const PbCompare *c, PbCompareFill fill)
{
    if (compare_done(c, PB_PIECE_AGE, fill, COMPARE_FINE)) {
        return COMPARE_FINE;
    }
    int has_coarse = compare_is_packed(fill) && compare_done(c, PB_PIECE_AGE, fill, COMPARE_COARSE);
    return has_coarse ? COMPARE_COARSE : -1;
}

/* The empty bay does not age. */
static int time_of(PbCompareFill fill, int t)
{
    return fill == PB_COMPARE_EMPTY ? 0 : t;
}

static double fine_r(const PbCompare *c, PbCompareFill fill, int t)
{
    return compare_wall_r(&c->mid_wall, c->fill[fill].heat[time_of(fill, t)].cavity);
}

static double coarse_r(const PbCompare *c, PbCompareFill fill, int t)
{
    return compare_wall_r(&c->mid_wall, c->fill[fill].coarse[time_of(fill, t)].cavity);
}

int compare_has_fine(const PbCompare *c, PbCompareFill fill, int t)
{
    return compare_done(c, PB_PIECE_HEAT, fill, time_of(fill, t));
}

static int has_coarse(const PbCompare *c, PbCompareFill fill, int t)
{
    return compare_done(c, PB_PIECE_COARSE, fill, time_of(fill, t));
}

int compare_has_r(const PbCompare *c, PbCompareFill fill, int t)
{
    return compare_has_fine(c, fill, t) || has_coarse(c, fill, t);
}

double compare_key_r(const PbCompare *c, PbCompareFill fill, int t)
{
    return compare_has_fine(c, fill, t) ? fine_r(c, fill, t) : coarse_r(c, fill, t);
}

/* R of the shipped values on the fine grid over that on the grid of the draws. */
static double to_fine(const PbCompare *c, PbCompareFill fill, int t)
{
    int has_both = compare_has_fine(c, fill, t) && has_coarse(c, fill, t);
    return has_both ? fine_r(c, fill, t) / coarse_r(c, fill, t) : 1.0;
}

double compare_drawn_r(const PbCompare *c, PbCompareFill fill, int t, int draw)
{
    const CompareSample *s = &c->fill[fill].draws[compare_draw_index(c, draw, t)];
    return compare_wall_r(&c->walls[draw], s->cavity) * to_fine(c, fill, t);
}

/* The top gap of a draw, moved by what both grids differ in for the shipped values. */
static double drawn_gap(const PbCompare *c, PbCompareFill fill, int t, int draw)
{
    const CompareFill *f = &c->fill[fill];
    double gap = f->draws[compare_draw_index(c, draw, t)].top_gap_m;
    if (compare_is_packed(fill) && compare_best_grid(c, fill) == COMPARE_FINE &&
        has_coarse(c, fill, t)) {
        const CompareFrame *fine = &f->grid[COMPARE_FINE].frames[pb_compare_key_frame(c, t)];
        gap = pb_max(gap + fine->report.top_gap_m - f->coarse[t].top_gap_m, 0.0);
    }
    return gap;
}

/* A metric of a draw. */
static double value_of(const PbCompare *c, PbCompareFill fill, int t, int draw, Metric metric)
{
    switch (metric) {
    case TOP_GAP:
        return drawn_gap(c, fill, t, draw);
    case SHRINKAGE:
        return c->fill[fill].draws[compare_draw_index(c, draw, t)].shrink_frac;
    case WALL_R:
        return compare_drawn_r(c, fill, t, draw);
    default:
        return c->perfect_r[draw] / compare_drawn_r(c, fill, t, draw);
    }
}

/* 10 to 90 % of the draws, widened to hold `mid`, the run with shipped values; `mid` alone without
 * draws. Sorts `values`. */
static PbHeatRange band_about(double mid, double *values, int count)
{
    if (count < 1) {
        return (PbHeatRange){mid, mid, mid};
    }
    PbBand band = pb_spread_band(values, (size_t)count);
    return (PbHeatRange){pb_min(mid, band.p10), mid, pb_max(mid, band.p90)};
}

/* Band of the first `count` draws. */
static PbHeatRange range_of(const PbCompare *c, PbCompareFill fill, int t, int count, Metric metric,
                            double mid)
{
    double value[PB_COMPARE_MAX_DRAWS];
    for (int d = 0; d < count; d++) {
        value[d] = value_of(c, fill, t, d, metric);
    }
    return band_about(mid, value, count);
}

static double mean_density(const float *density, const PbBayField *bay)
{
    double sum = 0.0, open = 0.0;
    for (int i = 0; i < bay->nx * bay->ny; i++) {
        sum += (double)density[i] * bay->free_frac[i];
        open += bay->free_frac[i];
    }
    return open > 0.0 ? sum / open : 0.0;
}

static void fill_figures(const PbCompare *c, PbCompareFill fill, int t, PbCompareFigures *out)
{
    const CompareFill *f = &c->fill[fill];
    const PbHouse *h = &c->setup.house;
    int grid = compare_best_grid(c, fill);
    const CompareFrame *frame = &f->grid[grid].frames[pb_compare_key_frame(c, t)];
    double gap = frame->report.top_gap_m, shrink = 0.0;
    if (fill == PB_COMPARE_EMPTY) {
        double open = h->cavity.now == PB_CAVITY_LOOSE ? 1.0 - h->cavity.share : 1.0;
        gap = open * h->bay.height_m;
        out->void_area_m2 = gap * h->bay.width_m;
        out->has_content = open < 1.0;
        for (int i = 0; i < h->bay.obstacle_count; i++) {
            out->has_content |= pb_obstacle_traits(h->bay.obstacles[i].kind)->is_batt;
        }
    } else if (fill == PB_COMPARE_FOAM) {
        gap = frame->foam.plate_gap_m[1];
        shrink = frame->foam.shrink_frac;
        out->water_frac = frame->foam.water_frac;
        out->stud_gap_m = pb_max(frame->foam.stud_gap_m[0], frame->foam.stud_gap_m[1]);
        out->face_gap_m = frame->foam.face_gap_m;
    } else {
        out->is_blown_out = f->is_blown_out[grid];
        out->mean_kg_m3 =
            mean_density(frame->density, grid == COMPARE_FINE ? &f->packed : &f->variant[0]);
        out->least_kg_m3 = frame->report.worst_patch_kg_m3;
        out->void_area_m2 = frame->report.void_area_m2;
        out->inner_void_area_m2 = frame->report.inner_void_area_m2;
        out->has_voids = out->inner_void_area_m2 > void_square_m2;
    }
    out->top_gap_m = range_of(c, fill, t, out->draws, TOP_GAP, gap);
    out->shrink_frac = range_of(c, fill, t, out->draws, SHRINKAGE, shrink);
}

static void heat_figures(const PbCompare *c, PbCompareFill fill, int t, PbCompareFigures *out)
{
    const CompareFill *f = &c->fill[fill];
    const PbHouse *h = &c->setup.house;
    const CompareHeat *heat = &f->heat[time_of(fill, t)];
    double r = compare_key_r(c, fill, t);
    out->has_camera = compare_has_fine(c, fill, t);
    out->has_loop = out->has_camera ? heat->has_loop : f->coarse[time_of(fill, t)].has_loop;
    out->r_m2k_w = range_of(c, fill, t, out->draws, WALL_R, r);
    out->heat_ratio = range_of(c, fill, t, out->draws, HEAT_RATIO, c->mid_perfect_r / r);
    if (out->has_camera) {
        out->surface_min_c = heat->surface_min_c;
        out->surface_max_c = heat->surface_max_c;
        out->cold_m2 = heat->cold_m2;
    }
    PbHeatSeason season = {
        .area_m2 = h->wall_area_m2,
        .u_w_m2k = {1.0 / out->r_m2k_w.high, 1.0 / out->r_m2k_w.mid, 1.0 / out->r_m2k_w.low},
        .degree_days_k_d = h->degree_days_k_d,
        .price_per_kwh = h->price_per_kwh,
        .efficiency = h->efficiency};
    PbHeatMoney money = {{0, 0, 0}, {0, 0, 0}};
    if (pb_heat_season_cost(&season, &money) == PB_OK) { /* the house was checked for its ranges */
        out->heat_kwh = money.heat_kwh;
        out->cost = money.cost;
    }
}

/* Draw by draw against the other fill, as far as both have got. */
static void pair_figures(const PbCompare *c, PbCompareFill fill, int t, PbCompareFigures *out)
{
    double own[PB_COMPARE_MAX_DRAWS], other[PB_COMPARE_MAX_DRAWS];
    PbCompareFill beside = pb_compare_other(fill);
    int done = compare_draws_done(c, beside, t);
    if (!compare_has_r(c, beside, t)) {
        return;
    }
    out->pairs = out->draws < done ? out->draws : done;
    for (int d = 0; d < out->pairs; d++) {
        own[d] = value_of(c, fill, t, d, WALL_R);
        other[d] = value_of(c, beside, t, d, WALL_R);
    }
    out->against_log = pb_compare_against(own, other, out->pairs, compare_key_r(c, fill, t),
                                          compare_key_r(c, beside, t));
}

void pb_compare_figures(const PbCompare *c, PbCompareFill fill, int t, PbCompareFigures *figures)
{
    assert(c != NULL && figures != NULL);
    assert((unsigned)fill < PB_COMPARE_FILLS);
    assert(t >= 0 && t < c->setup.year_count);
    PbCompareFigures out;
    memset(&out, 0, sizeof out);
    out.years = c->setup.years[t];
    out.has_fill = compare_best_grid(c, fill) >= 0;
    out.has_heat = out.has_fill && compare_has_r(c, fill, t);
    out.draws = compare_draws_done(c, fill, t);
    if (out.has_fill) {
        fill_figures(c, fill, t, &out);
    }
    if (out.has_heat) {
        heat_figures(c, fill, t, &out);
        pair_figures(c, fill, t, &out);
    }
    *figures = out;
}

int compare_key_time(const PbCompare *c, double years, double *share)
{
    const double *key = c->setup.years;
    int last = c->setup.year_count - 1, t = 0;
    while (t < last && key[t + 1] <= years) {
        t++;
    }
    *share = t < last && years > key[t]
                 ? (sqrt(years) - sqrt(key[t])) / (sqrt(key[t + 1]) - sqrt(key[t]))
                 : 0.0;
    return t;
}

double compare_between(double a, double b, double share)
{
    return isinf(a) || isinf(b) ? HUGE_VAL : a + (b - a) * share;
}

PbHeatRange compare_range_between(PbHeatRange a, PbHeatRange b, double share)
{
    return (PbHeatRange){compare_between(a.low, b.low, share), compare_between(a.mid, b.mid, share),
                         compare_between(a.high, b.high, share)};
}

void pb_compare_figures_at(const PbCompare *c, PbCompareFill fill, double years,
                           PbCompareFigures *figures)
{
    assert(c != NULL && figures != NULL);
    assert((unsigned)fill < PB_COMPARE_FILLS);
    double share;
    int t = compare_key_time(c, years, &share);
    PbCompareFigures a, b;
    pb_compare_figures(c, fill, t, &a);
    if (!(share > 0.0)) {
        *figures = a;
        return;
    }
    pb_compare_figures(c, fill, t + 1, &b);
    a.years = years;
    a.has_heat &= b.has_heat;
    a.has_camera &= b.has_camera;
    a.draws = a.draws < b.draws ? a.draws : b.draws;
    a.pairs = a.pairs < b.pairs ? a.pairs : b.pairs;
    a.top_gap_m = compare_range_between(a.top_gap_m, b.top_gap_m, share);
    a.shrink_frac = compare_range_between(a.shrink_frac, b.shrink_frac, share);
    a.r_m2k_w = compare_range_between(a.r_m2k_w, b.r_m2k_w, share);
    a.heat_ratio = compare_range_between(a.heat_ratio, b.heat_ratio, share);
    a.heat_kwh = compare_range_between(a.heat_kwh, b.heat_kwh, share);
    a.cost = compare_range_between(a.cost, b.cost, share);
    a.against_log = compare_range_between(a.against_log, b.against_log, share);
    double *const own[] = {
        &a.water_frac,   &a.stud_gap_m,         &a.face_gap_m,    &a.mean_kg_m3,    &a.least_kg_m3,
        &a.void_area_m2, &a.inner_void_area_m2, &a.surface_min_c, &a.surface_max_c, &a.cold_m2};
    const double other[] = {b.water_frac,    b.stud_gap_m,   b.face_gap_m,         b.mean_kg_m3,
                            b.least_kg_m3,   b.void_area_m2, b.inner_void_area_m2, b.surface_min_c,
                            b.surface_max_c, b.cold_m2};
    for (size_t i = 0; i < sizeof other / sizeof other[0]; i++) {
        *own[i] = compare_between(*own[i], other[i], share);
    }
    *figures = a;
}

/* One by one: the threads at work read the other fields. */
static void copy_money(PbHouse *to, const PbHouse *from)
{
    memcpy(to->customer, from->customer, sizeof to->customer);
    memcpy(to->town, from->town, sizeof to->town);
    memcpy(to->fuel, from->fuel, sizeof to->fuel);
    memcpy(to->currency, from->currency, sizeof to->currency);
    to->bill = from->bill;
    to->cooling = from->cooling;
    to->job = from->job;
    to->air = from->air;
    to->damp = from->damp;
    to->wall_area_m2 = from->wall_area_m2;
    to->degree_days_k_d = from->degree_days_k_d;
    to->price_per_kwh = from->price_per_kwh;
    to->efficiency = from->efficiency;
}

PbStatus pb_compare_set_money(PbCompare *c, const PbHouse *house, PbError *err)
{
    assert(c != NULL && house != NULL);
    PbHouse next = c->setup.house;
    char field[96];
    copy_money(&next, house);
    PB_TRY(pb_house_check(&next, field, sizeof field, err));
    copy_money(&c->setup.house, &next);
    compare_make_homes(c);
    return PB_OK;
}

PbHeatRange pb_compare_perfect_r(const PbCompare *c)
{
    assert(c != NULL);
    double value[PB_COMPARE_MAX_DRAWS];
    memcpy(value, c->perfect_r, (size_t)c->setup.draws * sizeof *value);
    return band_about(c->mid_perfect_r, value, c->setup.draws);
}

PbComparePicture pb_compare_density(const PbCompare *c, PbCompareFill fill, int frame)
{
    const CompareFill *f = &c->fill[fill];
    int grid = compare_best_grid(c, fill);
    PbComparePicture p = {c->bay.nx, c->bay.ny, NULL};
    if (grid >= 0) {
        const PbBayField *packed = grid == COMPARE_FINE ? &f->packed : &f->variant[0];
        int is_packed = packed->density_kg_m3 != NULL;
        p.nx = is_packed ? packed->nx : c->bay.nx;
        p.ny = is_packed ? packed->ny : c->bay.ny;
        p.values = f->grid[grid].frames[frame].density;
    }
    return p;
}

const PbSettleReport *pb_compare_settled(const PbCompare *c, PbCompareFill fill, int frame)
{
    int grid = compare_is_packed(fill) ? compare_best_grid(c, fill) : -1;
    return grid >= 0 ? &c->fill[fill].grid[grid].frames[frame].report : NULL;
}

const PbFoamState *pb_compare_foam(const PbCompare *c, int frame)
{
    return compare_done(c, PB_PIECE_AGE, PB_COMPARE_FOAM, COMPARE_FINE)
               ? &c->fill[PB_COMPARE_FOAM].grid[COMPARE_FINE].frames[frame].foam
               : NULL;
}

PbComparePicture pb_compare_map(const PbCompare *c, PbCompareFill fill, int t, double *x0_m,
                                double *x1_m)
{
    assert(c != NULL);
    assert((unsigned)fill < PB_COMPARE_FILLS);
    assert(t >= 0 && t < c->setup.year_count);
    int at = time_of(fill, t);
    PbComparePicture p = {PB_COMPARE_MAP_NX, PB_COMPARE_MAP_NY, NULL};
    if (compare_done(c, PB_PIECE_HEAT, fill, at)) {
        const CompareHeat *heat = &c->fill[fill].heat[at];
        p.values = heat->map_c;
        if (x0_m != NULL && x1_m != NULL) {
            *x0_m = heat->map_x0_m;
            *x1_m = heat->map_x1_m;
        }
    }
    return p;
}
