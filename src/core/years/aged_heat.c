/* The heat solver over an aged bay: one setup for the draws, the tables and the pictures. Strips run
 * one after the other here; draws already fill the cores. Next to read: core/heat_bay.h. */
#include "core/aged_heat.h"

#include <string.h>

static const PbAgedHeat usual = {20.0, 0.0, 4};

PbAgedHeat pb_aged_heat_default(void)
{
    return usual;
}

PbHeatBaySetup pb_aged_heat_setup(const PbAgedHeat *heat, const PbAgedBay *aged)
{
    PbHeatBaySetup setup = pb_heat_bay_default(&aged->field);
    setup.room_c = heat->room_c;
    setup.outdoor_c = heat->outdoor_c;
    setup.strips = heat->strips;
    setup.map_nx = setup.map_ny = 0;
    return setup;
}

PbStatus pb_aged_r(void *user, const PbAgedBay *bay, double *r_m2k_w)
{
    PbHeatBaySetup setup = pb_aged_heat_setup(user != NULL ? user : &usual, bay);
    PbAllocator memory = pb_allocator_default();
    PbConstants constants = pb_constants_default();
    PbHeatBay *heat;
    PB_TRY(pb_heat_bay_solve(&setup, &constants, &memory, &heat, NULL));
    *r_m2k_w = pb_heat_bay_result(heat)->r_m2k_w;
    pb_heat_bay_destroy(heat);
    return PB_OK;
}

PbStatus pb_aged_columns(const PbBayField *field, int first, int count, PbBayField *part)
{
    if (first < 0 || count < 1 || first + count > field->nx) {
        return PB_ERR_RANGE;
    }
    double width_m = field->width_m * count / field->nx;
    PB_TRY(pb_bay_field_create(count, field->ny, width_m, field->height_m, field->depth_m, part));
    part->tilt_deg = field->tilt_deg;
    part->fill_rh_frac = field->fill_rh_frac;
    const double *from[4] = {field->density_kg_m3, field->density_past_kg_m3, field->lateral_pa,
                             field->free_frac};
    double *to[4] = {part->density_kg_m3, part->density_past_kg_m3, part->lateral_pa,
                     part->free_frac};
    for (int k = 0; k < 4; k++) {
        for (int j = 0; j < field->ny; j++) {
            memcpy(to[k] + (size_t)j * (size_t)count,
                   from[k] + (size_t)j * (size_t)field->nx + first, (size_t)count * sizeof(double));
        }
    }
    return PB_OK;
}
