/* Degree days to a balance point, heat of a house, fuels. Sources: the header. */
#include "core/home_heat.h"

#include "core/pb_math.h"
#include "core/units.h"

#include <math.h>
#include <string.h>

enum { MONTHS = 12, HALVINGS = 60 };

/* Scale of the logistic law of a month's daily means, K: deviation of the monthly mean, carried to
 * days by the root of their number, over 2 x 1.698. */
static double day_scale_k(double month_c, double swing_k, double days)
{
    double month_k = 1.45 - 0.0290 * month_c + 0.0664 * swing_k / sqrt(2.0);
    return pb_max(month_k, 0.3) * sqrt(days) / (2.0 * 1.698);
}

/* Mean of what days are below the base, of a logistic law about the mean: s ln(1 + e^(d/s)). */
static double mean_below(double below_k, double scale_k)
{
    double x = below_k / scale_k;
    return x > 30.0 ? below_k : scale_k * pb_log(1.0 + pb_exp(x));
}

double pb_degree_days_k_d(const PbSeason *outdoor, double base_c)
{
    double days = PB_DAYS_PER_YEAR / MONTHS, sum = 0.0;
    for (int m = 0; m < MONTHS; m++) {
        double month = outdoor->mean - outdoor->swing * pb_cos(2.0 * PB_PI * (m + 0.5) / MONTHS);
        sum += days * mean_below(base_c - month, day_scale_k(month, outdoor->swing, days));
    }
    return sum;
}

PbSeason pb_season_of_degree_days(const PbSeason *outdoor, double base_c, double k_d)
{
    /* Degree days fall with the mean; a year 80 K below the base has 29000. */
    double low = base_c - 80.0, high = base_c + 40.0;
    PbSeason s = *outdoor;
    for (int i = 0; i < HALVINGS; i++) {
        s.mean = 0.5 * (low + high);
        if (pb_degree_days_k_d(&s, base_c) > k_d) {
            low = s.mean;
        } else {
            high = s.mean;
        }
    }
    return s;
}

double pb_home_balance_c(const PbHome *h, double loss_w_k)
{
    return h->room_c - h->sun_k - h->gains_w / loss_w_k;
}

double pb_home_heat_kwh(const PbHome *h, double loss_w_k)
{
    double days = pb_degree_days_k_d(&h->outdoor, pb_home_balance_c(h, loss_w_k));
    return 24.0 / 1000.0 * loss_w_k * days;
}

double pb_home_cooling_kwh(const PbHome *h, double set_c, double loss_w_k)
{
    double base = set_c - h->sun_k - h->gains_w / loss_w_k;
    /* Days above the base less days below it: the mean of the year, since the sine adds nothing. */
    double days =
        pb_degree_days_k_d(&h->outdoor, base) + PB_DAYS_PER_YEAR * (h->outdoor.mean - base);
    return 24.0 / 1000.0 * loss_w_k * pb_max(days, 0.0);
}

double pb_home_loss_w_k(const PbHome *h, double heat_kwh)
{
    double low = 1.0, high = 1e6; /* heat rises with the loss */
    for (int i = 0; i < HALVINGS; i++) {
        double mid = sqrt(low * high);
        if (pb_home_heat_kwh(h, mid) < heat_kwh) {
            low = mid;
        } else {
            high = mid;
        }
    }
    return sqrt(low * high);
}

static const PbFuel fuels[] = {
    {"gas-therm", "fuel_therm_kwh"},         {"gas-ccf", "fuel_ccf_kwh"},
    {"gas-m3", "fuel_gas_m3_kwh"},           {"oil-gallon", "fuel_oil_gallon_kwh"},
    {"oil-liter", "fuel_oil_l_kwh"},         {"propane-gallon", "fuel_propane_gallon_kwh"},
    {"propane-liter", "fuel_propane_l_kwh"}, {"electricity-kwh", "fuel_electricity_kwh"},
    {"wood-cord", "fuel_cord_kwh"},
};

int pb_fuel_count(void)
{
    return (int)(sizeof fuels / sizeof fuels[0]);
}

const PbFuel *pb_fuel(int n)
{
    return &fuels[n];
}

int pb_fuel_find(const char *id)
{
    for (int n = 0; n < pb_fuel_count(); n++) {
        if (strcmp(fuels[n].id, id) == 0) {
            return n;
        }
    }
    return -1;
}

double pb_fuel_kwh(int n, const PbConstants *constants)
{
    return pb_constant_value(constants, pb_constant_find(fuels[n].constant));
}
