/*
 * Drying and shrinkage of water-based foam in closed form. Where the lost length shows is in
 * foam_cracks.c. Numbers come from the constants, group "foam".
 */
#include "core/foam.h"

#include "years/foam_private.h"

#include "core/pb_math.h"
#include "core/units.h"

#include <math.h>

#define AGE_SPAN_DAYS                                                                              \
    (30.0 * PB_DAYS_PER_YEAR) /* the age part of a class is its shrinkage at 30 years */

PbFoamCase pb_foam_default(void)
{
    PbFoamCase f = {.constants = pb_constants_default(),
                    .climate = pb_climate_default(),
                    .foam_class = PB_FOAM_TYPICAL,
                    .inner = PB_SKIN_PAINTED_BOARD,
                    .outer = PB_SKIN_WOOD_BOARD,
                    .width_m = 0.368,
                    .height_m = 2.4,
                    .depth_m = 0.089,
                    .seed = 7};
    return f;
}

PbStatus pb_foam_check(const PbFoamCase *f, PbError *err)
{
    PB_TRY(pb_climate_check(&f->climate, err));
    if ((int)f->foam_class < 0 || f->foam_class > PB_FOAM_POOR || (int)f->inner < 0 ||
        f->inner > PB_SKIN_TIGHT_SHEATHING || (int)f->outer < 0 ||
        f->outer > PB_SKIN_TIGHT_SHEATHING) {
        return pb_fail(err, PB_ERR_RANGE, "no such foam class or face");
    }
    if (!(f->width_m >= 0.02 && f->width_m <= 3.0) ||
        !(f->height_m >= 0.1 && f->height_m <= 12.0) ||
        !(f->depth_m >= 0.02 && f->depth_m <= 1.0)) {
        return pb_fail(
            err, PB_ERR_RANGE,
            "bay %g x %g x %g m, expected width 0.02 to 3, height 0.1 to 12, depth 0.02 to 1 m",
            f->width_m, f->height_m, f->depth_m);
    }
    const PbConstants *c = &f->constants;
    if (!(c->foam_wet_kg_m3 > c->foam_dry_kg_m3)) {
        return pb_fail(err, PB_ERR_RANGE, "foam_wet_kg_m3 %g, expected above foam_dry_kg_m3, %g",
                       c->foam_wet_kg_m3, c->foam_dry_kg_m3);
    }
    if (!(c->foam_constant_rate_share > 0.0 && c->foam_constant_rate_share <= 1.0)) {
        return pb_fail(err, PB_ERR_RANGE,
                       "foam_constant_rate_share %g is out of range, expected above 0 to 1",
                       c->foam_constant_rate_share);
    }
    return PB_OK;
}

/* Saturation pressure over water, Pa: Magnus form of Alduchov and Eskridge, J. Applied
 * Meteorology 35 (1996) 601, equation 21; 0.4 % from -40 to 50 deg C. */
static double saturation_pa(double celsius)
{
    return 610.94 * pb_exp(17.625 * celsius / (celsius + 243.04));
}

static double permeance(const PbConstants *c, PbFoamSkin skin)
{
    switch (skin) {
    case PB_SKIN_PAINTED_BOARD:
        return c->permeance_painted_board;
    case PB_SKIN_WOOD_BOARD:
        return c->permeance_wood_board;
    case PB_SKIN_TIGHT:
        return c->permeance_tight;
    case PB_SKIN_PLASTER:
        return c->permeance_plaster;
    default:
        return c->permeance_tight_sheathing;
    }
}

double pb_foam_flux_kg_m2_s(const PbFoamCase *f)
{
    const PbClimate *k = &f->climate;
    /* Wet foam at each face is at the temperature of the air there, its pores saturated. */
    double in = saturation_pa(k->indoor_c.mean) * (1.0 - k->indoor_rh.mean);
    double out = saturation_pa(k->outdoor_c.mean) * (1.0 - k->outdoor_rh.mean);
    return permeance(&f->constants, f->inner) * in + permeance(&f->constants, f->outer) * out;
}

static double water_start(const PbFoamCase *f)
{
    return (f->constants.foam_wet_kg_m3 - f->constants.foam_dry_kg_m3) * f->depth_m;
}

double pb_foam_water_kg_m2(const PbFoamCase *f, double days)
{
    double w0 = water_start(f), wc = f->constants.foam_constant_rate_share * w0;
    double flux = pb_foam_flux_kg_m2_s(f), t = days * PB_S_PER_DAY;
    double wet = w0 - flux * t;
    if (wet >= wc) {
        return wet;
    }
    double t1 = (w0 - wc) / flux;
    return wc * pb_exp(-(t - t1) * flux / wc);
}

double pb_foam_days_to_dry(const PbFoamCase *f, double dry_frac)
{
    double w0 = water_start(f), wc = f->constants.foam_constant_rate_share * w0;
    double flux = pb_foam_flux_kg_m2_s(f), left = (1.0 - dry_frac) * w0;
    double seconds =
        left >= wc ? (w0 - left) / flux : (w0 - wc) / flux + wc / flux * pb_log(wc / left);
    return seconds / PB_S_PER_DAY;
}

double pb_foam_shrinkage(const PbFoamCase *f, double days)
{
    const PbConstants *c = &f->constants;
    const double parts[3][3] = {{c->foam_good_set, c->foam_good_dry, c->foam_good_age},
                                {c->foam_typical_set, c->foam_typical_dry, c->foam_typical_age},
                                {c->foam_poor_set, c->foam_poor_dry, c->foam_poor_age}};
    const double *p = parts[f->foam_class];
    double lost = pb_limit(1.0 - pb_foam_water_kg_m2(f, days) / water_start(f), 0.0, 1.0);
    double aged = pb_log(1.0 + f->climate.foam_ageing * days / c->foam_age_days) /
                  pb_log(1.0 + AGE_SPAN_DAYS / c->foam_age_days);
    double percent =
        p[0] * (1.0 - pb_exp(-days / c->foam_set_days)) + p[1] * lost * sqrt(lost) + p[2] * aged;
    return 0.01 * percent;
}

void pb_foam_at(const PbFoamCase *f, double days, PbFoamState *state)
{
    PbFoamState s = {.days = days,
                     .water_frac = pb_foam_water_kg_m2(f, days) / water_start(f),
                     .shrink_frac = pb_foam_shrinkage(f, days)};
    s.across_count = foam_open_axis(f, FOAM_AXIS_HEIGHT, s.shrink_frac, s.across, s.plate_gap_m);
    s.along_count = foam_open_axis(f, FOAM_AXIS_WIDTH, s.shrink_frac, s.along, s.stud_gap_m);
    /* Through the depth it stays on one face; which one is chance. */
    s.face_gap_m = s.shrink_frac * f->depth_m;
    s.face_gap_is_inner = foam_lets_go_inside(f);
    double covered = (1.0 - s.shrink_frac) * (1.0 - s.shrink_frac);
    s.open_area_frac = 1.0 - covered;
    *state = s;
}
