/* What a fill saves against the wall as it is: the same house, the same draw, two walls. */
#include "compare/compare_private.h"

#include "core/pb_math.h"

#include <assert.h>
#include <math.h>
#include <string.h>

/* A typed range as draw `index` has it. */
static double drawn(const PbHeatRange *r, const char *name, uint64_t seed, int index)
{
    return index < 0 ? r->mid : pb_spread_number(r->low, r->mid, r->high, name, seed, index);
}

/* index < 0: shipped values. */
static CompareHome home_of(const PbHouse *h, const PbConstants *k, int index)
{
    uint64_t seed = h->seed;
    const PbBill *b = &h->bill;
    double days = pb_max(drawn(&h->degree_days_k_d, "degree_days", seed, index), 1.0);
    CompareHome m = {.wall_share = k->house_wall_share,
                     .air_share = k->house_air_share,
                     .realized = k->house_realized_share,
                     .area_m2 = h->wall_area_m2 * k->wall_area_scale,
                     .kwh = 1.0};
    m.home.outdoor = pb_season_of_degree_days(&h->climate.outdoor_c, k->degree_day_base_c, days);
    m.home.room_c = h->room_c;
    m.home.gains_w = k->house_gains_w;
    m.home.sun_k = k->house_sun_k;
    m.cool_price = drawn(&h->cooling.price_kwh, "cooling_price", seed, index);
    m.cool_efficiency = drawn(&h->cooling.efficiency, "cooling_efficiency", seed, index);
    m.efficiency = drawn(&h->efficiency, "efficiency", seed, index);
    m.price = drawn(&h->price_per_kwh, "price", seed, index);
    if (b->fuel > 0) {
        m.price = drawn(&b->price, "price", seed, index);
        m.kwh = pb_fuel_kwh(b->fuel - 1, k);
    }
    if (b->fuel > 0 && b->last_year > 0.0) {
        double heating = 1.0 - drawn(&b->not_heating, "not_heating", seed, index);
        m.bill_w_k = pb_home_loss_w_k(&m.home, b->last_year * heating * m.kwh * m.efficiency);
    }
    compare_home_air(h, k, &m);
    return m;
}

void compare_make_homes(PbCompare *c)
{
    const PbHouse *h = &c->setup.house;
    c->mid = home_of(h, &c->setup.constants, -1);
    for (int d = 0; d < c->setup.draws; d++) {
        PbConstants k = pb_spread_constants(&c->setup.constants, h->seed, d, 0);
        c->homes[d] = home_of(h, &k, d);
    }
}

/* One draw, or the shipped values. */
typedef struct Saved {
    double wall_units, wall_share, heat_kwh, units, cool_kwh, money, payback_years, solid, air;
    int is_air_over; /* over the bill only with the air */
} Saved;
enum { OF_WALLS = 2, RANGES = 9 }; /* ranges of a saving; those of the walls alone stand first */

/* R of the wall as it is, with the fill, and of the part that is packed already; what is left of an
 * empty bay's leaks now and then. */
typedef struct Walls {
    double now, then, packed, left_now, left_then;
} Walls;

double compare_walls_w_k(const CompareHome *m, const PbHouse *h, double r_m2k_w,
                         double packed_m2k_w)
{
    double done = h->cavity.now == PB_CAVITY_PARTLY ? h->cavity.share : 0.0;
    return m->area_m2 * ((1.0 - done) / r_m2k_w + done / packed_m2k_w);
}

double compare_loss_w_k(const CompareHome *m, double walls_w_k)
{
    if (m->bill_w_k > 0.0) {
        return m->bill_w_k;
    }
    double solid = m->air_w_k > 0.0 ? 1.0 - m->air_share : 1.0;
    return walls_w_k / m->wall_share * solid + m->air_w_k;
}

/* Electricity of cooling that a lower loss saves. */
static double cooled(const CompareHome *m, const PbHouse *h, double loss, double less)
{
    double before = pb_home_cooling_kwh(&m->home, h->cooling.set_c, loss);
    double after = pb_home_cooling_kwh(&m->home, h->cooling.set_c, loss - less);
    return m->realized * (before - after) / m->cool_efficiency;
}

/* 0 = the walls alone would burn more than the bill. */
static int saved_of(const CompareHome *m, const PbHouse *h, const Walls *r, Saved *out)
{
    double now = compare_walls_w_k(m, h, r->now, r->packed);
    double then = compare_walls_w_k(m, h, r->then, r->packed);
    double loss = compare_loss_w_k(m, now), told = now;
    int is_over = now + m->air_w_k >= loss;
    out->is_air_over = is_over && now < loss;
    told += out->is_air_over ? m->air_w_k : 0.0;
    double heat = pb_home_heat_kwh(&m->home, is_over ? told : loss);
    double solid_kwh = 0.0, air_kwh = 0.0, kwh = m->efficiency * m->kwh; /* of a unit */
    /* What the walls take is what the house would need less if they lost nothing, so that no fill
     * saves more than they take: sun and inner heat would then do for more of the rest. */
    double of_walls = is_over ? heat : heat - pb_home_heat_kwh(&m->home, loss - now);
    out->wall_share = is_over || heat <= 0.0 ? told / loss : of_walls / heat;
    out->wall_units = of_walls / kwh;
    if (!is_over) { /* what air takes off comes after what the fill takes off: nothing twice */
        double less = now - then;
        double air =
            m->air_w_k *
            (m->bay_share - compare_air_share(m, h, r->left_then / r->left_now, r->left_now));
        double solid = pb_home_heat_kwh(&m->home, loss - less);
        solid_kwh = m->realized * (heat - solid);
        air_kwh = m->realized * (solid - pb_home_heat_kwh(&m->home, loss - less - air));
    }
    out->heat_kwh = solid_kwh + air_kwh;
    out->units = out->heat_kwh / kwh;
    out->solid = solid_kwh / kwh;
    out->air = air_kwh / kwh;
    out->cool_kwh =
        is_over || h->cooling.price_kwh.mid <= 0.0 ? 0.0 : cooled(m, h, loss, now - then);
    out->money = out->units * m->price + out->cool_kwh * m->cool_price;
    double cost = h->job.price - h->job.rebate;
    out->payback_years = h->job.price <= 0.0 ? 0.0
                         : out->money > 0.0  ? cost / out->money
                                             : HUGE_VAL;
    return !is_over;
}

static double field_of(const Saved *s, int field)
{
    const double all[RANGES] = {s->wall_units, s->wall_share,    s->heat_kwh, s->units, s->cool_kwh,
                                s->money,      s->payback_years, s->solid,    s->air};
    return all[field];
}

static PbHeatRange range_of(const Saved *mid, const Saved *draws, int count, int field)
{
    double value[PB_COMPARE_MAX_DRAWS], at = field_of(mid, field);
    PbHeatRange r = {at, at, at};
    for (int d = 0; d < count; d++) {
        /* years that never come would make the points between two of them no number */
        value[d] = pb_min(field_of(&draws[d], field), 1e9);
    }
    if (count > 0) {
        PbBand b = pb_spread_band(value, (size_t)count);
        r.low = pb_min(at, b.p10);
        r.high = pb_max(at, b.p90);
    }
    r.high = r.high >= 1e9 ? HUGE_VAL : r.high;
    return r;
}

static void set_ranges(PbCompareSaving *out, const Saved *mid, const Saved *draws, int count)
{
    PbHeatRange *const ranges[RANGES] = {&out->wall_units,    &out->wall_share,  &out->heat_kwh,
                                         &out->units,         &out->cool_kwh,    &out->money,
                                         &out->payback_years, &out->solid_units, &out->air_units};
    out->is_air_over = mid->is_air_over;
    for (int i = 0; i < (out->is_over_bill ? OF_WALLS : RANGES); i++) {
        *ranges[i] = range_of(mid, draws, count, i);
    }
}

static double bill_units(const PbHouse *h)
{
    int has_bill = h->bill.fuel > 0 && h->bill.last_year > 0.0;
    return has_bill ? h->bill.last_year * (1.0 - h->bill.not_heating.mid) : 0.0;
}

void pb_compare_saving_of(const PbHouse *house, const PbConstants *constants, double now_m2k_w,
                          double then_m2k_w, PbCompareSaving *saving)
{
    CompareHome home = home_of(house, constants, -1);
    PbWallPaths packed = compare_perfect_paths(house, constants);
    Walls r = {now_m2k_w, then_m2k_w, pb_wall_r(&packed), compare_left_now(house, constants),
               home.packed_left};
    Saved mid;
    PbCompareSaving out;
    memset(&out, 0, sizeof out);
    out.is_ready = 1;
    out.is_over_bill = !saved_of(&home, house, &r, &mid);
    out.bill_units = bill_units(house);
    set_ranges(&out, &mid, NULL, 0);
    *saving = out;
}

static int common_draws(const PbCompare *c, PbCompareFill fill, int t)
{
    int now = compare_draws_done(c, PB_COMPARE_EMPTY, t), then = compare_draws_done(c, fill, t);
    return now < then ? now : then;
}

void pb_compare_saving(const PbCompare *c, PbCompareFill fill, int t, PbCompareSaving *saving)
{
    assert(c != NULL && saving != NULL);
    assert((unsigned)fill < PB_COMPARE_FILLS);
    assert(t >= 0 && t < c->setup.year_count);
    PbCompareSaving out;
    const PbHouse *h = &c->setup.house;
    Saved mid, draws[PB_COMPARE_MAX_DRAWS];
    memset(&out, 0, sizeof out);
    *saving = out;
    if (!compare_has_r(c, PB_COMPARE_EMPTY, t) || !compare_has_r(c, fill, t)) {
        return;
    }
    out.is_ready = 1;
    Walls key = {compare_key_r(c, PB_COMPARE_EMPTY, t), compare_key_r(c, fill, t), c->mid_perfect_r,
                 compare_left(c, PB_COMPARE_EMPTY, t, -1), compare_left(c, fill, t, -1)};
    out.is_over_bill = !saved_of(&c->mid, h, &key, &mid);
    out.draws = common_draws(c, fill, t);
    for (int d = 0; d < out.draws; d++) {
        Walls r = {compare_drawn_r(c, PB_COMPARE_EMPTY, 0, d), compare_drawn_r(c, fill, t, d),
                   c->perfect_r[d], compare_left(c, PB_COMPARE_EMPTY, 0, d),
                   compare_left(c, fill, t, d)};
        if (saved_of(&c->homes[d], h, &r, &draws[out.kept])) {
            out.better += draws[out.kept].money > 0.0;
            out.kept++;
        }
    }
    set_ranges(&out, &mid, draws, out.is_over_bill ? 0 : out.kept);
    out.bill_units = bill_units(h);
    *saving = out;
}

void pb_compare_saving_at(const PbCompare *c, PbCompareFill fill, double years,
                          PbCompareSaving *saving)
{
    assert(c != NULL && saving != NULL);
    assert((unsigned)fill < PB_COMPARE_FILLS);
    double share;
    int t = compare_key_time(c, years, &share);
    PbCompareSaving a, b;
    pb_compare_saving(c, fill, t, &a);
    if (share > 0.0) {
        pb_compare_saving(c, fill, t + 1, &b);
        a.is_ready &= b.is_ready;
        a.draws = a.draws < b.draws ? a.draws : b.draws;
        a.kept = a.kept < b.kept ? a.kept : b.kept;
        a.better = a.better < b.better ? a.better : b.better;
        a.heat_kwh = compare_range_between(a.heat_kwh, b.heat_kwh, share);
        a.units = compare_range_between(a.units, b.units, share);
        a.solid_units = compare_range_between(a.solid_units, b.solid_units, share);
        a.air_units = compare_range_between(a.air_units, b.air_units, share);
        a.cool_kwh = compare_range_between(a.cool_kwh, b.cool_kwh, share);
        a.money = compare_range_between(a.money, b.money, share);
        a.payback_years = compare_range_between(a.payback_years, b.payback_years, share);
    }
    *saving = a;
}
