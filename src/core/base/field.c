/* Ownership of the arrays that packing hands on. */
#include "core/field.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static double *zeros(size_t count)
{
    return calloc(count, sizeof(double));
}

PbStatus pb_bay_field_create(int nx, int ny, double width_m, double height_m, double depth_m,
                             PbBayField *field)
{
    if (nx < 1 || ny < 1 || nx > 4096 || ny > 65536 || !(width_m > 0.0) || !(height_m > 0.0) ||
        !(depth_m > 0.0) || !isfinite(width_m) || !isfinite(height_m) || !isfinite(depth_m)) {
        return PB_ERR_RANGE;
    }
    size_t n = (size_t)nx * (size_t)ny;
    PbBayField f = {.nx = nx,
                    .ny = ny,
                    .width_m = width_m,
                    .height_m = height_m,
                    .depth_m = depth_m,
                    .tilt_deg = 90.0,
                    .fill_rh_frac = 0.5};
    f.density_kg_m3 = zeros(n);
    f.density_past_kg_m3 = zeros(n);
    f.lateral_pa = zeros(n);
    f.free_frac = zeros(n);
    f.batt_frac = zeros(n);
    if (!f.density_kg_m3 || !f.density_past_kg_m3 || !f.lateral_pa || !f.free_frac ||
        !f.batt_frac) {
        pb_bay_field_destroy(&f);
        return PB_ERR_MEMORY;
    }
    for (size_t i = 0; i < n; i++) {
        f.free_frac[i] = 1.0;
    }
    *field = f;
    return PB_OK;
}

void pb_bay_field_destroy(PbBayField *field)
{
    free(field->density_kg_m3);
    free(field->density_past_kg_m3);
    free(field->lateral_pa);
    free(field->free_frac);
    free(field->batt_frac);
    memset(field, 0, sizeof *field);
}

void pb_bay_field_fill(PbBayField *field, double density_kg_m3)
{
    size_t n = (size_t)field->nx * (size_t)field->ny;
    for (size_t i = 0; i < n; i++) {
        field->density_kg_m3[i] = density_kg_m3;
        field->density_past_kg_m3[i] = density_kg_m3;
        field->lateral_pa[i] = 0.0;
    }
}
