/* The heat solver over an aged bay: one setup for the draws, the tables and the pictures. Strips
 * run one after the other here; draws already fill the cores. Next to read: core/heat_bay.h. */
#include "core/aged_heat.h"

#include <string.h>

static const PbAgedHeat usual = {.room_c = 20.0, .outdoor_c = 0.0, .strips = 4};

PbAgedHeat pb_aged_heat_default(void)
{
    return usual;
}

/* Below this the gap is closed by the fibres that stand up into it: our choice, no source. */
static const double least_gap_m = 0.003;

/* Mean height of the open room at the top of columns [a, b), m. The row in which the fill ends
 * counts by its share: a row's density alone would show a gap only once most of the row is empty.
 * Beside an old batt there is no such room: a box of air goes through the whole depth, so what is
 * open there is left to the density of its rows. */
static double open_top_m(const PbAgedBay *aged, int a, int b)
{
    const PbBayField *f = &aged->field;
    double sum = 0.0, dy = f->height_m / f->ny;
    for (int i = a; i < b; i++) {
        for (int j = f->ny - 1; j >= 0 && !(f->batt_frac[j * f->nx + i] > 0.0); j--) {
            double empty = aged->void_frac[j * f->nx + i];
            sum += empty * dy;
            if (empty < 0.999 || f->free_frac[j * f->nx + i] <= 0.0) {
                break;
            }
        }
    }
    return sum / (b - a);
}

/* One box of air a strip; strips of equal content stay equal, so the solver still shares them. */
static void top_gaps(const PbAgedBay *aged, PbHeatBaySetup *setup)
{
    const PbBayField *f = &aged->field;
    int parts = setup->strips < f->nx ? setup->strips : f->nx;
    for (int p = 0; p < parts && setup->gap_count < PB_HEAT_MAX_GAPS; p++) {
        int a = p * f->nx / parts, b = (p + 1) * f->nx / parts;
        double gap = open_top_m(aged, a, b);
        if (gap >= least_gap_m) {
            PbHeatGap *g = &setup->gaps[setup->gap_count++];
            *g = (PbHeatGap){f->width_m * a / f->nx,
                             f->width_m * b / f->nx,
                             f->height_m - gap,
                             f->height_m,
                             0.0,
                             f->depth_m};
        }
    }
}

PbHeatBaySetup pb_aged_heat_setup(const PbAgedHeat *heat, const PbAgedBay *aged)
{
    PbHeatBaySetup setup = pb_heat_bay_default(&aged->field);
    setup.room_c = heat->room_c;
    setup.outdoor_c = heat->outdoor_c;
    setup.strips = heat->strips;
    setup.wall = heat->wall;
    setup.map_nx = setup.map_ny = 0;
    if (aged->void_frac != NULL) {
        top_gaps(aged, &setup);
    }
    return setup;
}

/* A wide loop between the lines of one grid may find no steady answer there; on a grid a little
 * finer or coarser it does, and the two differ by less than a draw. Tried in this order, so that
 * the same bay always takes the same grid. One that is then too coarse for the cracks is passed
 * over. */
PbStatus pb_aged_heat_solve(const PbHeatBaySetup *setup, const PbConstants *constants,
                            const PbAllocator *memory, PbHeatBay **bay, PbError *err)
{
    static const double rows[] = {1.0, 1.25, 0.8, 1.6, 2.0};
    static const int columns[] = {0, 8, 4, 12, 16};
    PbStatus status = PB_ERR_NO_RESULT;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        PbHeatBaySetup s = *setup;
        s.ny = (int)(setup->ny * rows[i]);
        s.nx = setup->nx + columns[i];
        status = pb_heat_bay_solve(&s, constants, memory, bay, err);
        int is_too_coarse = status == PB_ERR_RANGE && rows[i] < 1.0;
        if (status != PB_ERR_NO_RESULT && !is_too_coarse) {
            break;
        }
    }
    return status;
}

PbStatus pb_aged_r(void *user, const PbConstants *constants, const PbAgedBay *bay, double *r_m2k_w)
{
    PbHeatBaySetup setup = pb_aged_heat_setup(user != NULL ? user : &usual, bay);
    PbAllocator memory = pb_allocator_default();
    PbConstants shipped = pb_constants_default();
    PbHeatBay *heat;
    PB_TRY(
        pb_aged_heat_solve(&setup, constants != NULL ? constants : &shipped, &memory, &heat, NULL));
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
    const double *from[5] = {field->density_kg_m3, field->density_past_kg_m3, field->lateral_pa,
                             field->free_frac, field->batt_frac};
    double *to[5] = {part->density_kg_m3, part->density_past_kg_m3, part->lateral_pa,
                     part->free_frac, part->batt_frac};
    for (int k = 0; k < 5; k++) {
        for (int j = 0; j < field->ny; j++) {
            memcpy(to[k] + (size_t)j * (size_t)count,
                   from[k] + (size_t)j * (size_t)field->nx + first, (size_t)count * sizeof(double));
        }
    }
    return PB_OK;
}

PbStatus pb_aged_part(const PbAgedBay *aged, int first, int count, PbAgedBay *part)
{
    if (aged->void_frac == NULL) {
        return PB_ERR_RANGE;
    }
    PbAgedBay out = {.years = aged->years};
    PB_TRY(pb_aged_columns(&aged->field, first, count, &out.field));
    PbAllocator memory = pb_allocator_default();
    size_t bytes = (size_t)count * (size_t)aged->field.ny * sizeof(double);
    out.void_frac = memory.alloc(memory.user, bytes);
    if (out.void_frac == NULL) {
        pb_aged_destroy(&out);
        return PB_ERR_MEMORY;
    }
    for (int j = 0; j < aged->field.ny; j++) {
        memcpy(out.void_frac + (size_t)j * (size_t)count,
               aged->void_frac + (size_t)j * (size_t)aged->field.nx + first,
               (size_t)count * sizeof(double));
    }
    *part = out;
    return PB_OK;
}
