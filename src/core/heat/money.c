/* Heat and money of a heating season: steady U times degree days, with the range of every input. */
#include "core/heat_bay.h"

#include <math.h>

static const double hours_per_day = 24.0, watts_per_kw = 1000.0;

static PbHeatRange range_of(const char *name, double mid)
{
    const PbConstantInfo *info = pb_constant_find(name);
    PbHeatRange r = {info != NULL ? info->low : mid, mid, info != NULL ? info->high : mid};
    r.low = mid < r.low ? mid : r.low;
    r.high = mid > r.high ? mid : r.high;
    return r;
}

PbHeatSeason pb_heat_season_default(const PbConstants *constants, double area_m2,
                                    PbHeatRange u_w_m2k)
{
    PbHeatSeason s = {.area_m2 = area_m2, .u_w_m2k = u_w_m2k};
    s.degree_days_k_d = range_of("degree_days_k_d", constants->degree_days_k_d);
    s.price_per_kwh = range_of("fuel_price_per_kwh", constants->fuel_price_per_kwh);
    s.efficiency = range_of("heating_efficiency", constants->heating_efficiency);
    return s;
}

static int is_range(const PbHeatRange *r, double lowest, double highest)
{
    return r->low >= lowest && r->low <= r->mid && r->mid <= r->high && r->high <= highest;
}

PbStatus pb_heat_season_cost(const PbHeatSeason *s, PbHeatMoney *money)
{
    if (!(s->area_m2 > 0.0 && s->area_m2 < 1e7) || !is_range(&s->u_w_m2k, 0.0, 1e3) ||
        !is_range(&s->degree_days_k_d, 0.0, 2e4) || !is_range(&s->price_per_kwh, 0.0, 1e6) ||
        !is_range(&s->efficiency, 0.01, 5.0)) {
        return PB_ERR_RANGE;
    }
    double scale = s->area_m2 * hours_per_day / watts_per_kw;
    PbHeatRange heat = {scale * s->u_w_m2k.low * s->degree_days_k_d.low,
                        scale * s->u_w_m2k.mid * s->degree_days_k_d.mid,
                        scale * s->u_w_m2k.high * s->degree_days_k_d.high};
    money->heat_kwh = heat;
    money->cost.low = heat.low * s->price_per_kwh.low / s->efficiency.high;
    money->cost.mid = heat.mid * s->price_per_kwh.mid / s->efficiency.mid;
    money->cost.high = heat.high * s->price_per_kwh.high / s->efficiency.low;
    return PB_OK;
}
