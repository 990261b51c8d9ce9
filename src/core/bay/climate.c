/* The yearly course of humidity and temperature. Next: settle_law.c for what humidity does. */
#include "core/climate.h"

#include "core/pb_math.h"

#include <math.h>
#include <string.h>

PbClimate pb_climate_default(void)
{
    PbClimate c = {.name = "normal",
                   .title = "Normal humidity, temperate",
                   .bay_rh = {0.45, 0.15},
                   .indoor_c = {21.0, 1.0},
                   .indoor_rh = {0.40, 0.10},
                   .outdoor_c = {10.0, 12.0},
                   .outdoor_rh = {0.70, 0.08},
                   .foam_ageing = 1.0};
    return c;
}

PbClimate pb_climate_steady(double rh_frac)
{
    PbClimate c = pb_climate_default();
    strcpy(c.name, "steady");
    strcpy(c.title, "Steady humidity");
    c.bay_rh.mean = rh_frac;
    c.bay_rh.swing = 0.0;
    return c;
}

static PbStatus check_season(const char *what, const PbSeason *s, double low, double high,
                             PbError *err)
{
    if (!(s->swing >= 0.0) || !(s->mean - s->swing >= low - 1e-12) ||
        !(s->mean + s->swing <= high + 1e-12)) {
        return pb_fail(err, PB_ERR_RANGE, "%s: %g +- %g over the year, expected within %g to %g",
                       what, s->mean, s->swing, low, high);
    }
    return PB_OK;
}

PbStatus pb_climate_check(const PbClimate *c, PbError *err)
{
    PB_TRY(check_season("bay_rh", &c->bay_rh, 0.0, 1.0, err));
    PB_TRY(check_season("indoor_rh", &c->indoor_rh, 0.0, 1.0, err));
    PB_TRY(check_season("outdoor_rh", &c->outdoor_rh, 0.0, 1.0, err));
    PB_TRY(check_season("indoor_c", &c->indoor_c, -20.0, 50.0, err));
    PB_TRY(check_season("outdoor_c", &c->outdoor_c, -60.0, 60.0, err));
    if (!(c->foam_ageing >= 1.0 && c->foam_ageing <= 50.0)) {
        return pb_fail(err, PB_ERR_RANGE, "foam_ageing: %g is out of range, expected 1 to 50",
                       c->foam_ageing);
    }
    return PB_OK;
}

double pb_season_at(const PbSeason *season, double years)
{
    /* The whole years are taken out first: sine is repeatable, and accurate, near nought. */
    return season->mean + season->swing * pb_sin(2.0 * PB_PI * (years - floor(years)));
}
