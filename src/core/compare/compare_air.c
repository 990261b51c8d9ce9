/* Air through the walls: the house's leakage, the share of it that goes through bays, and what a
 * fill leaves of that. Method and what can be objected: docs/physics/air.md. */
#include "compare/compare_private.h"

#include "core/material.h"
#include "core/pb_math.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* Foam that has let go by less keeps its cracks shut: as what counts as a gap elsewhere. */
static const double foam_gap_m = 0.001;
static const double test_pa = 50.0, s_per_h = 3600.0, kwh_per_wd = 0.024;

/* Face to face, where a dense pack stands everywhere. */
static double dense_left(const PbConstants *k)
{
    return pb_crack_left(k, pb_material_permeability(k, k->perfect_fill_kg_m3), test_pa);
}

double compare_leak_left(const PbHeatBayResult *bay, const PbConstants *k, const PbFoamState *foam,
                         double width_m)
{
    double across = bay->leak_left_across;
    if (foam != NULL) { /* fresh, no tighter than a dense pack: nobody has measured it */
        across = pb_max(across, dense_left(k));
        across =
            foam->shrink_frac * width_m > foam_gap_m ? pb_max(across, k->leak_foam_open) : across;
    }
    double along = pb_min(bay->leak_left_along, 1.0);
    return k->leak_along_share * along + (1.0 - k->leak_along_share) * across;
}

void compare_home_air(const PbHouse *h, const PbConstants *k, CompareHome *m)
{
    const PbHouseAir *a = &h->air;
    const double by_age[PB_BUILT_KINDS] = {k->ach50_unknown, k->ach50_before_1940, k->ach50_1940,
                                           k->ach50_1970, k->ach50_1990};
    if (!pb_house_has_air(h)) {
        return;
    }
    double m3_h = a->door_m3_h > 0.0 ? a->door_m3_h * k->blower_door_scale
                                     : a->floor_area_m2 * k->house_ceiling_m * by_age[a->built];
    m->air_50_m3_s = m3_h / s_per_h;
    PbHomeAir air = {m->air_50_m3_s, k->leak_power, a->stories, k->wind_m_s, k->wind_shelter};
    m->air_m3_s = pb_home_air_winter_m3_s(&air, &m->home.outdoor, m->home.room_c);
    m->air_w_k = k->air_heat_j_m3k * m->air_m3_s;
    m->bay_share = k->leak_wall_share * k->leak_bay_share;
    m->packed_left = (1.0 - k->leak_along_share) * dense_left(k);
}

double compare_air_share(const CompareHome *m, const PbHouse *h, double ratio, double left_now)
{
    double done = h->cavity.now == PB_CAVITY_PARTLY ? h->cavity.share : 0.0;
    double open = (1.0 - done) * left_now, packed = done * m->packed_left;
    return m->bay_share * (open * ratio + packed) / (open + packed);
}

double compare_left_now(const PbHouse *h, const PbConstants *k)
{
    double share = h->cavity.now == PB_CAVITY_LOOSE ? h->cavity.share : 0.0;
    double old = pb_crack_left(k, pb_material_permeability(k, k->old_fill_kg_m3), test_pa);
    return share > 0.0 ? (1.0 - k->leak_along_share) * (1.0 - share * (1.0 - old)) : 1.0;
}

double compare_left(const PbCompare *c, PbCompareFill fill, int t, int draw)
{
    const CompareFill *f = &c->fill[fill];
    int at = fill == PB_COMPARE_EMPTY ? 0 : t;
    if (draw >= 0) {
        return f->draws[compare_draw_index(c, draw, t)].leak_left;
    }
    return compare_has_fine(c, fill, t) ? f->heat[at].leak_left : f->coarse[at].leak_left;
}

/* One draw, or the shipped values: in the order of the ranges of PbCompareAir. */
enum { HOUSE_50, HOUSE, SHARE, CUT, WALLS_50, WALLS, HEAT, FIGURES };
typedef struct Air {
    double figure[FIGURES];
} Air;

/* R of the wall as it is and packed full; what is left of an empty bay's leaks. */
typedef struct Bay {
    double now_r, packed_r, left_now, left_then;
} Bay;

static Air air_of(const CompareHome *m, const PbHouse *h, const Bay *b)
{
    double share = compare_air_share(m, h, b->left_then / b->left_now, b->left_now);
    double walls = compare_walls_w_k(m, h, b->now_r, b->packed_r);
    /* A house loses at least what its walls and its air do. */
    double loss = pb_max(compare_loss_w_k(m, walls), walls + m->air_w_k);
    double days = pb_degree_days_k_d(&m->home.outdoor, pb_home_balance_c(&m->home, loss));
    Air a = {{m->air_50_m3_s, m->air_m3_s, share, m->bay_share - share, share * m->air_50_m3_s,
              share * m->air_m3_s, kwh_per_wd * share * m->air_w_k * days}};
    return a;
}

static PbHeatRange range_of(const Air *mid, const Air *draws, int count, int figure)
{
    double value[PB_COMPARE_MAX_DRAWS], at = mid->figure[figure];
    PbHeatRange r = {at, at, at};
    for (int d = 0; d < count; d++) {
        value[d] = draws[d].figure[figure];
    }
    if (count > 0) {
        PbBand b = pb_spread_band(value, (size_t)count);
        r.low = pb_min(at, b.p10);
        r.high = pb_max(at, b.p90);
    }
    return r;
}

void pb_compare_air(const PbCompare *c, PbCompareFill fill, int t, PbCompareAir *air)
{
    assert(c != NULL && air != NULL);
    assert((unsigned)fill < PB_COMPARE_FILLS);
    assert(t >= 0 && t < c->setup.year_count);
    const PbHouse *h = &c->setup.house;
    Air draws[PB_COMPARE_MAX_DRAWS];
    int at = fill == PB_COMPARE_EMPTY ? 0 : t;
    memset(air, 0, sizeof *air);
    air->is_known = pb_house_has_air(h);
    air->is_measured = h->air.door_m3_h > 0.0;
    if (!air->is_known || !compare_has_r(c, PB_COMPARE_EMPTY, t) || !compare_has_r(c, fill, t)) {
        return;
    }
    air->is_ready = 1;
    Bay b = {compare_key_r(c, PB_COMPARE_EMPTY, 0), c->mid_perfect_r,
             compare_left(c, PB_COMPARE_EMPTY, 0, -1), compare_left(c, fill, at, -1)};
    Air mid = air_of(&c->mid, h, &b);
    int now = compare_draws_done(c, PB_COMPARE_EMPTY, t), then = compare_draws_done(c, fill, t);
    air->draws = now < then ? now : then;
    for (int d = 0; d < air->draws; d++) {
        Bay one = {compare_drawn_r(c, PB_COMPARE_EMPTY, 0, d), c->perfect_r[d],
                   compare_left(c, PB_COMPARE_EMPTY, 0, d), compare_left(c, fill, t, d)};
        draws[d] = air_of(&c->homes[d], h, &one);
    }
    PbHeatRange *const ranges[FIGURES] = {
        &air->house_50_m3_s, &air->house_m3_s, &air->share,   &air->cut,
        &air->walls_50_m3_s, &air->walls_m3_s, &air->heat_kwh};
    for (int i = 0; i < FIGURES; i++) {
        *ranges[i] = range_of(&mid, draws, air->draws, i);
    }
}

void pb_compare_air_at(const PbCompare *c, PbCompareFill fill, double years, PbCompareAir *air)
{
    assert(c != NULL && air != NULL);
    double share;
    int t = compare_key_time(c, years, &share);
    PbCompareAir a, b;
    pb_compare_air(c, fill, t, &a);
    if (share > 0.0) {
        pb_compare_air(c, fill, t + 1, &b);
        a.is_ready &= b.is_ready;
        a.draws = a.draws < b.draws ? a.draws : b.draws;
        a.share = compare_range_between(a.share, b.share, share);
        a.cut = compare_range_between(a.cut, b.cut, share);
        a.walls_50_m3_s = compare_range_between(a.walls_50_m3_s, b.walls_50_m3_s, share);
        a.walls_m3_s = compare_range_between(a.walls_m3_s, b.walls_m3_s, share);
        a.heat_kwh = compare_range_between(a.heat_kwh, b.heat_kwh, share);
    }
    *air = a;
}
