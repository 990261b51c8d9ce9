/* Air end to end through a bay: crack at the bottom plate, fill and gaps, crack at the top plate.
 *
 * Fill: Darcy, rows in series, cells of a row in parallel; a gap counts as a slot with b^2/12, a
 * wide void as nearly nothing. Cracks: sharp-edged, loss with the square of the flow. This is a
 * separate figure: it says how much air a pressure would drive, never what it does to R.
 */
#include "heat/bay.h"

#include "core/material.h"
#include "core/pb_math.h"

#include <math.h>

static const double void_channel_m = 0.05; /* wider openings are taken as this wide; insensitive */

/* Conductance of row y0..y1 times its length over viscosity: sum of K x area, m4. */
static double row_openness(const PbHeatBay *bay, double y0, double y1)
{
    const PbBayField *f = bay->setup.field;
    double dx = f->width_m / f->nx, sum = 0.0, mid = 0.5 * (y0 + y1);
    for (int i = 0; i < f->nx; i++) {
        double k = void_channel_m * void_channel_m / 12.0;
        PbBayWindow w = pb_bay_window(bay, i * dx, (i + 1) * dx, y0, y1);
        if (w.density_kg_m3 > 0.0) {
            k = bay->setup.fill.is_foam
                    ? bay->setup.fill.permeability_m2
                    : pb_material_permeability(&bay->constants, w.density_kg_m3);
        }
        sum += k * dx * f->depth_m * pb_max(w.free_frac, 1e-6);
        sum += pb_material_batt_permeability(&bay->constants) * dx * f->depth_m * w.batt_frac;
    }
    for (int g = 0; g < bay->setup.gap_count; g++) {
        const PbHeatGap *gap = &bay->gaps[g];
        if (mid > gap->y0_m && mid < gap->y1_m) {
            double wide = gap->x1_m - gap->x0_m, deep = gap->z1_m - gap->z0_m;
            double b = pb_min(pb_min(wide, deep), void_channel_m);
            sum += b * b / 12.0 * wide * deep;
        }
    }
    return sum;
}

/* Square term of both plate cracks, Pa s2/m6. */
static double plates_square(const PbHeatBay *bay)
{
    const PbConstants *c = &bay->constants;
    double area = c->orifice_coefficient * c->end_crack_m * bay->setup.field->width_m;
    return c->air_density_kg_m3 / (area * area); /* two cracks in series */
}

double pb_bay_leak(const PbHeatBay *bay, double pressure_pa, int is_perfect)
{
    const PbBayField *f = bay->setup.field;
    const PbConstants *c = &bay->constants;
    double dy = f->height_m / f->ny, resistance = 0.0;
    if (is_perfect) {
        double k = bay->setup.fill.is_foam ? bay->setup.fill.permeability_m2
                                           : pb_material_permeability(c, c->perfect_fill_kg_m3);
        resistance = c->air_viscosity_pa_s * f->height_m / (k * f->width_m * f->depth_m);
    } else {
        for (int j = 0; j < f->ny; j++) {
            resistance += c->air_viscosity_pa_s * dy / row_openness(bay, j * dy, (j + 1) * dy);
        }
    }
    double square = plates_square(bay);
    /* pressure = resistance Q + square Q^2 */
    double root = sqrt(resistance * resistance + 4.0 * square * pressure_pa);
    return 2.0 * pressure_pa / (resistance + root);
}

/*
 * Of the air through two cracks in series what is left when both are choked over a depth d:
 * p = 2 R q + 2 S q2 with R = mu d / (K a), S = rho / (2 (cd a)2), over q = sqrt(p / (2 S)). The
 * area a of the cracks cancels.
 */
double pb_crack_left(const PbConstants *c, double permeability_m2, double pressure_pa)
{
    double drag = c->air_viscosity_pa_s / permeability_m2 * c->crack_fill_depth_m;
    double y = drag * c->orifice_coefficient / sqrt(pressure_pa * c->air_density_kg_m3);
    return sqrt(1.0 + y * y) - y;
}

/* Share of the height y0..y1 that a top gap over the whole depth keeps open at x. */
static double gap_share(const PbHeatBay *bay, double x, double y0, double y1)
{
    double open = 0.0;
    for (int g = 0; g < bay->setup.gap_count; g++) {
        const PbHeatGap *gap = &bay->gaps[g];
        if (x > gap->x0_m && x < gap->x1_m) {
            open += pb_max(pb_min(gap->y1_m, y1) - pb_max(gap->y0_m, y0), 0.0);
        }
    }
    return pb_min(open / (y1 - y0), 1.0);
}

static double across(const PbHeatBay *bay, double pressure_pa)
{
    const PbBayField *f = bay->setup.field;
    const PbConstants *c = &bay->constants;
    const PbHeatFill *fill = &bay->setup.fill;
    double dx = f->width_m / f->nx, dy = f->height_m / f->ny, left = 0.0, all = 0.0;
    double batt = pb_crack_left(c, pb_material_batt_permeability(c), pressure_pa);
    for (int j = 0; j < f->ny; j++) {
        for (int i = 0; i < f->nx; i++) {
            PbBayWindow w = pb_bay_window(bay, i * dx, (i + 1) * dx, j * dy, (j + 1) * dy);
            double one = 1.0;
            if (w.density_kg_m3 > 0.0) {
                double k = fill->is_foam ? fill->permeability_m2
                                         : pb_material_permeability(c, w.density_kg_m3);
                /* shrunk foam opens what its gaps meet: who asks knows that, not the cell */
                double open =
                    fill->is_foam ? 0.0 : gap_share(bay, (i + 0.5) * dx, j * dy, (j + 1) * dy);
                one = open + (1.0 - open) * pb_crack_left(c, k, pressure_pa);
            }
            left += w.free_frac * one + w.batt_frac * batt;
            all += w.free_frac + w.batt_frac;
        }
    }
    return all > 0.0 ? left / all : 1.0;
}

void pb_bay_leak_left(const PbHeatBay *bay, double pressure_pa, PbHeatBayResult *result)
{
    result->leak_left_along =
        pb_bay_leak(bay, pressure_pa, 0) / sqrt(pressure_pa / plates_square(bay));
    result->leak_left_across = across(bay, pressure_pa);
}
