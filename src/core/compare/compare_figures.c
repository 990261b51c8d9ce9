/* What is read from a comparison: figures with their ranges, pictures, states. */
#include "compare/compare_private.h"

#include "core/pb_math.h"

#include <assert.h>
#include <math.h>
#include <string.h>

static const double void_square_m2 = 0.01;

typedef enum Metric { TOP_GAP, SHRINKAGE, WALL_R, HEAT_RATIO } Metric;

/* A metric of a draw; R is brought from the coarse grid of the draws to that of the key times. */
static double value_of(const PbCompare *c, PbCompareFill fill, int t, int draw, Metric metric)
{
    const CompareFill *f = &c->fill[fill];
    const CompareSample *s = &f->draws[draw * c->setup.year_count + t];
    const CompareHeat *heat = &f->heat[fill == PB_COMPARE_EMPTY ? 0 : t];
    switch (metric) {
    case TOP_GAP:
        return s->top_gap_m;
    case SHRINKAGE:
        return s->shrink_frac;
    case WALL_R:
        return s->r_m2k_w * heat->r_m2k_w / heat->coarse_r_m2k_w;
    default:
        return c->perfect_r[draw] / (s->r_m2k_w * heat->r_m2k_w / heat->coarse_r_m2k_w);
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
    const CompareFrame *frame = &f->frames[pb_compare_key_frame(c, t)];
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
        out->stud_gap_m = pb_max(frame->foam.stud_gap_m[0], frame->foam.stud_gap_m[1]);
        out->face_gap_m = frame->foam.face_gap_m;
    } else {
        out->is_blown_out = f->is_blown_out;
        out->mean_kg_m3 = mean_density(frame->density, &f->packed);
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
    const CompareHeat *heat = &f->heat[fill == PB_COMPARE_EMPTY ? 0 : t];
    out->has_loop = heat->has_loop;
    out->r_m2k_w = range_of(c, fill, t, out->draws, WALL_R, heat->r_m2k_w);
    out->heat_ratio = range_of(c, fill, t, out->draws, HEAT_RATIO,
                               compare_perfect_r(&c->setup, &c->setup.constants) / heat->r_m2k_w);
    out->surface_min_c = heat->surface_min_c;
    out->surface_max_c = heat->surface_max_c;
    out->cold_m2 = heat->cold_m2;
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

double compare_drawn_r(const PbCompare *c, PbCompareFill fill, int t, int draw)
{
    return value_of(c, fill, t, draw, WALL_R);
}

double compare_key_r(const PbCompare *c, PbCompareFill fill, int t)
{
    return c->fill[fill].heat[fill == PB_COMPARE_EMPTY ? 0 : t].r_m2k_w;
}

/* Draw by draw against the other fill, as far as both have got. */
static void pair_figures(const PbCompare *c, PbCompareFill fill, int t, PbCompareFigures *out)
{
    double own[PB_COMPARE_MAX_DRAWS], other[PB_COMPARE_MAX_DRAWS];
    PbCompareFill beside = pb_compare_other(fill);
    int beside_t = beside == PB_COMPARE_EMPTY ? 0 : t, done = compare_draws_done(c, beside);
    if (!compare_done(c, PB_PIECE_AGE, beside, 0) ||
        !compare_done(c, PB_PIECE_HEAT, beside, beside_t)) {
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
    out.has_fill = compare_done(c, PB_PIECE_AGE, fill, 0);
    out.has_heat =
        out.has_fill && compare_done(c, PB_PIECE_HEAT, fill, fill == PB_COMPARE_EMPTY ? 0 : t);
    out.draws = compare_draws_done(c, fill);
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
    a.pairs = a.pairs < b.pairs ? a.pairs : b.pairs;
    a.top_gap_m = compare_range_between(a.top_gap_m, b.top_gap_m, share);
    a.shrink_frac = compare_range_between(a.shrink_frac, b.shrink_frac, share);
    a.r_m2k_w = compare_range_between(a.r_m2k_w, b.r_m2k_w, share);
    a.heat_ratio = compare_range_between(a.heat_ratio, b.heat_ratio, share);
    a.heat_kwh = compare_range_between(a.heat_kwh, b.heat_kwh, share);
    a.cost = compare_range_between(a.cost, b.cost, share);
    a.against_log = compare_range_between(a.against_log, b.against_log, share);
    double *const own[] = {&a.stud_gap_m,    &a.face_gap_m,    &a.mean_kg_m3,
                           &a.least_kg_m3,   &a.void_area_m2,  &a.inner_void_area_m2,
                           &a.surface_min_c, &a.surface_max_c, &a.cold_m2};
    const double other[] = {b.stud_gap_m,    b.face_gap_m,    b.mean_kg_m3,
                            b.least_kg_m3,   b.void_area_m2,  b.inner_void_area_m2,
                            b.surface_min_c, b.surface_max_c, b.cold_m2};
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
    double mid = compare_perfect_r(&c->setup, &c->setup.constants);
    memcpy(value, c->perfect_r, (size_t)c->setup.draws * sizeof *value);
    return band_about(mid, value, c->setup.draws);
}

PbComparePicture pb_compare_density(const PbCompare *c, PbCompareFill fill, int frame)
{
    const CompareFill *f = &c->fill[fill];
    PbComparePicture p = {c->bay.nx, c->bay.ny, NULL};
    if (compare_done(c, PB_PIECE_AGE, fill, 0)) {
        int is_packed = f->packed.density_kg_m3 != NULL;
        p.nx = is_packed ? f->packed.nx : c->bay.nx;
        p.ny = is_packed ? f->packed.ny : c->bay.ny;
        p.values = f->frames[frame].density;
    }
    return p;
}

const PbSettleReport *pb_compare_settled(const PbCompare *c, PbCompareFill fill, int frame)
{
    int settles = fill == PB_COMPARE_LOOSE || fill == PB_COMPARE_DENSE;
    return settles && compare_done(c, PB_PIECE_AGE, fill, 0) ? &c->fill[fill].frames[frame].report
                                                             : NULL;
}

const PbFoamState *pb_compare_foam(const PbCompare *c, int frame)
{
    return compare_done(c, PB_PIECE_AGE, PB_COMPARE_FOAM, 0)
               ? &c->fill[PB_COMPARE_FOAM].frames[frame].foam
               : NULL;
}

PbComparePicture pb_compare_map(const PbCompare *c, PbCompareFill fill, int t, double *x0_m,
                                double *x1_m)
{
    assert(c != NULL);
    assert((unsigned)fill < PB_COMPARE_FILLS);
    assert(t >= 0 && t < c->setup.year_count);
    int at = fill == PB_COMPARE_EMPTY ? 0 : t;
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
