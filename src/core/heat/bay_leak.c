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
    double area = c->orifice_coefficient * c->end_crack_m * f->width_m;
    double square = c->air_density_kg_m3 / (area * area); /* two cracks in series */
    /* pressure = resistance Q + square Q^2 */
    double root = sqrt(resistance * resistance + 4.0 * square * pressure_pa);
    return 2.0 * pressure_pa / (resistance + root);
}
