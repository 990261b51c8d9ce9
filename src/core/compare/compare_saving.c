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
    double wall_units, wall_share, heat_kwh, units, cool_kwh, money, payback_years;
} Saved;

/* R of the wall as it is, with the fill, and of the part that is packed already. */
typedef struct Walls {
    double now, then, packed;
} Walls;

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
    double done = h->cavity.now == PB_CAVITY_PARTLY ? h->cavity.share : 0.0;
    double open_m2 = m->area_m2 * (1.0 - done), rest = m->area_m2 * done / r->packed;
    double now = open_m2 / r->now + rest, then = open_m2 / r->then + rest;
    double loss = m->bill_w_k > 0.0 ? m->bill_w_k : now / m->wall_share;
    int is_over = now >= loss;
    double heat = pb_home_heat_kwh(&m->home, is_over ? now : loss);
    out->wall_share = now / loss;
    out->wall_units = (is_over ? heat : heat * now / loss) / (m->efficiency * m->kwh);
    out->heat_kwh =
        is_over ? 0.0 : m->realized * (heat - pb_home_heat_kwh(&m->home, loss - (now - then)));
    out->units = out->heat_kwh / (m->efficiency * m->kwh);
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
    const double all[] = {s->wall_units, s->wall_share, s->heat_kwh,     s->units,
                          s->cool_kwh,   s->money,      s->payback_years};
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
    Walls r = {now_m2k_w, then_m2k_w, pb_wall_r(&packed)};
    Saved mid;
    PbCompareSaving out;
    memset(&out, 0, sizeof out);
    out.is_ready = 1;
    out.is_over_bill = !saved_of(&home, house, &r, &mid);
    out.bill_units = bill_units(house);
    PbHeatRange *const ranges[] = {&out.wall_units, &out.wall_share, &out.heat_kwh,     &out.units,
                                   &out.cool_kwh,   &out.money,      &out.payback_years};
    for (int i = 0; i < (out.is_over_bill ? 2 : 7); i++) {
        *ranges[i] = range_of(&mid, NULL, 0, i);
    }
    *saving = out;
}

static double key_r(const PbCompare *c, PbCompareFill fill, int t)
{
    return c->fill[fill].heat[fill == PB_COMPARE_EMPTY ? 0 : t].r_m2k_w;
}

static int common_draws(const PbCompare *c, PbCompareFill fill)
{
    int now = compare_draws_done(c, PB_COMPARE_EMPTY), then = compare_draws_done(c, fill);
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
    int at = fill == PB_COMPARE_EMPTY ? 0 : t;
    if (!compare_done(c, PB_PIECE_HEAT, PB_COMPARE_EMPTY, 0) ||
        !compare_done(c, PB_PIECE_AGE, fill, 0) || !compare_done(c, PB_PIECE_HEAT, fill, at)) {
        return;
    }
    out.is_ready = 1;
    Walls key = {key_r(c, PB_COMPARE_EMPTY, 0), key_r(c, fill, at),
                 compare_perfect_r(&c->setup, &c->setup.constants)};
    out.is_over_bill = !saved_of(&c->mid, h, &key, &mid);
    out.draws = common_draws(c, fill);
    for (int d = 0; d < out.draws; d++) {
        Walls r = {compare_drawn_r(c, PB_COMPARE_EMPTY, 0, d), compare_drawn_r(c, fill, t, d),
                   c->perfect_r[d]};
        if (saved_of(&c->homes[d], h, &r, &draws[out.kept])) {
            out.better += draws[out.kept].money > 0.0;
            out.kept++;
        }
    }
    PbHeatRange *const ranges[] = {&out.wall_units, &out.wall_share, &out.heat_kwh,     &out.units,
                                   &out.cool_kwh,   &out.money,      &out.payback_years};
    for (int i = 0; i < (out.is_over_bill ? 2 : 7); i++) {
        *ranges[i] = range_of(&mid, draws, out.is_over_bill ? 0 : out.kept, i);
    }
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
        a.kept = a.kept < b.kept ? a.kept : b.kept;
        a.better = a.better < b.better ? a.better : b.better;
        a.heat_kwh = compare_range_between(a.heat_kwh, b.heat_kwh, share);
        a.units = compare_range_between(a.units, b.units, share);
        a.cool_kwh = compare_range_between(a.cool_kwh, b.cool_kwh, share);
        a.money = compare_range_between(a.money, b.money, share);
        a.payback_years = compare_range_between(a.payback_years, b.payback_years, share);
    }
    *saving = a;
}
