/* What becomes of each fill: pictures at every frame, gaps, and the bays that heat is solved for.
 */
#include "compare/compare_private.h"

#include "core/pb_math.h"
#include "core/units.h"

#include <assert.h>
#include <math.h>
#include <string.h>

int pb_compare_frame_count(const PbCompare *c)
{
    assert(c != NULL);
    return c->frame_count;
}

int pb_compare_key_frame(const PbCompare *c, int t)
{
    assert(c != NULL);
    assert(t >= 0 && t < c->setup.year_count);
    return t * (c->setup.frames_between + 1);
}

double pb_compare_frame_years(const PbCompare *c, int frame)
{
    assert(c != NULL && frame >= 0 && frame < c->frame_count);
    int sub = c->setup.frames_between + 1, t = frame / sub, s = frame % sub;
    if (s == 0) {
        return c->setup.years[t];
    }
    double a = sqrt(c->setup.years[t]), b = sqrt(c->setup.years[t + 1]);
    double root = a + (b - a) * s / sub;
    return root * root;
}

PbFoamCase compare_foam_case(const PbCompare *c)
{
    const PbHouse *h = &c->setup.house;
    PbFoamCase f = pb_foam_default();
    f.constants = c->setup.constants;
    f.climate = h->climate;
    f.foam_class = h->foam;
    f.inner = pb_finish_traits(h->bay.finish)->skin;
    f.outer = PB_SKIN_WOOD_BOARD;
    f.width_m = h->bay.width_m;
    f.height_m = h->bay.height_m;
    f.depth_m = h->bay.depth_m;
    f.seed = h->seed;
    return f;
}

PbSettleConfig compare_settle_config(const PbCompare *c)
{
    PbSettleConfig s = pb_settle_default();
    s.constants = c->setup.constants;
    s.climate = c->setup.house.climate;
    s.face = pb_finish_traits(c->setup.house.bay.finish)->face;
    s.allocator = c->setup.allocator;
    return s;
}

void compare_foam_field(const PbCompare *c, const PbFoamState *state, double *density)
{
    const PbConstants *k = &c->setup.constants;
    double kg_m3 = k->foam_dry_kg_m3 + (k->foam_wet_kg_m3 - k->foam_dry_kg_m3) * state->water_frac;
    for (int i = 0; i < c->bay.nx * c->bay.ny; i++) {
        density[i] = c->bay.free_frac[i] > 0.0 ? kg_m3 : 0.0;
    }
}

PbStatus compare_make_pictures(PbCompare *c, CompareAged *fill, size_t cells, PbError *err)
{
    const PbAllocator *memory = &c->setup.allocator;
    if (fill->density == NULL) { /* there already when a piece that failed is tried again */
        size_t bytes = cells * (size_t)c->frame_count * sizeof(float);
        fill->density = memory->alloc(memory->user, bytes);
        if (fill->density == NULL) {
            return pb_fail(err, PB_ERR_MEMORY, "no room for the pictures of a fill");
        }
        memset(fill->density, 0, bytes);
    }
    for (int f = 0; f < c->frame_count; f++) {
        fill->frames[f].density = fill->density + (size_t)f * cells;
    }
    return PB_OK;
}

static void keep_picture(CompareFrame *frame, const double *from, size_t cells)
{
    for (size_t i = 0; i < cells; i++) {
        frame->density[i] = (float)from[i];
    }
}

static PbStatus age_cellulose(PbCompare *c, const PbBayField *packed, CompareAged *fill,
                              PbError *err)
{
    PbSettleConfig config = compare_settle_config(c);
    PbSettle *s;
    size_t cells = (size_t)packed->nx * (size_t)packed->ny;
    PB_TRY(compare_make_pictures(c, fill, cells, err));
    PB_TRY(pb_settle_create(packed, &config, &s, err));
    PbStatus status = PB_OK;
    for (int f = 0; f < c->frame_count && status == PB_OK; f++) {
        CompareFrame *frame = &fill->frames[f];
        PbAgedBay aged;
        status = c->is_stopping ? PB_ERR_STATE : pb_settle_advance(s, pb_compare_frame_years(c, f));
        if (status == PB_OK) {
            status = pb_settle_aged(s, 0, &aged);
        }
        if (status != PB_OK) {
            (void)pb_fail(err, status, "ageing to %g years failed", pb_compare_frame_years(c, f));
            break;
        }
        pb_settle_report(s, &frame->report);
        keep_picture(frame, aged.field.density_kg_m3, cells);
        if (f % (c->setup.frames_between + 1) == 0) {
            PbAgedBay *key = &fill->key[f / (c->setup.frames_between + 1)];
            pb_aged_destroy(key);
            *key = aged;
        } else {
            pb_aged_destroy(&aged);
        }
    }
    pb_settle_destroy(s);
    return status;
}

static PbStatus age_foam(PbCompare *c, CompareAged *fill, PbError *err)
{
    PbFoamCase foam = compare_foam_case(c);
    size_t cells = (size_t)c->bay.nx * (size_t)c->bay.ny;
    PbBayField field;
    PB_TRY(pb_foam_check(&foam, err));
    PB_TRY(compare_make_pictures(c, fill, cells, err));
    PB_TRY(pb_aged_columns(&c->bay, 0, c->bay.nx, &field));
    for (int f = 0; f < c->frame_count; f++) {
        CompareFrame *frame = &fill->frames[f];
        pb_foam_at(&foam, pb_compare_frame_years(c, f) * PB_DAYS_PER_YEAR, &frame->foam);
        compare_foam_field(c, &frame->foam, field.density_kg_m3);
        keep_picture(frame, field.density_kg_m3, cells);
    }
    pb_bay_field_destroy(&field);
    return PB_OK;
}

PbStatus compare_age(PbCompare *c, PbCompareFill fill, int grid, PbError *err)
{
    CompareFill *f = &c->fill[fill];
    CompareAged *aged = &f->grid[grid];
    if (fill == PB_COMPARE_FOAM) {
        return age_foam(c, aged, err);
    }
    if (fill == PB_COMPARE_EMPTY) {
        size_t cells = (size_t)c->now.nx * (size_t)c->now.ny;
        PB_TRY(compare_make_pictures(c, aged, cells, err));
        for (int n = 0; n < c->frame_count; n++) {
            keep_picture(&aged->frames[n], c->now.density_kg_m3, cells);
        }
        return PB_OK;
    }
    return age_cellulose(c, grid == COMPARE_FINE ? &f->packed : &f->variant[0], aged, err);
}

/* What a draw of years changes besides the constants: humidity in the wall (our choice), and the
 * product, which may settle less than the measured one (settle_material, from memory). */
static void draw_settling(const PbCompare *c, int draw, PbSettleConfig *config)
{
    uint64_t seed = c->setup.house.seed;
    PbSeason *rh = &config->climate.bay_rh; /* stays between 0 and 1 all year */
    double dry = pb_min(COMPARE_DAMP_RH, rh->mean - fabs(rh->swing));
    double damp = pb_min(COMPARE_DAMP_RH, 1.0 - rh->mean - fabs(rh->swing));
    rh->mean += pb_spread_number(-dry, 0.0, damp, "bay_rh", seed, draw);
    config->constants.settle_material *=
        pb_spread_number(COMPARE_LEAST_MATERIAL, 1.0, 1.0, "settle_material", seed, draw);
}

/* One draw: density and empty share of every cell at each key time, then the gaps. */
PbStatus compare_settle(PbCompare *c, PbCompareFill fill, int draw, PbError *err)
{
    CompareFill *f = &c->fill[fill];
    const PbAllocator *memory = &c->setup.allocator;
    const PbBayField *packed = &f->variant[compare_variant_of(c, fill, draw)];
    size_t cells = (size_t)packed->nx * (size_t)packed->ny, times = (size_t)c->setup.year_count;
    PbSettleConfig config = compare_settle_config(c);
    PbSettle *settle;
    if (f->settled[draw] == NULL) { /* there already when a piece that failed is tried again */
        f->settled[draw] = memory->alloc(memory->user, times * (2 * cells + 1) * sizeof(float));
        if (f->settled[draw] == NULL) {
            return pb_fail(err, PB_ERR_MEMORY, "no room for a draw");
        }
    }
    float *to = f->settled[draw], *gap = to + times * 2 * cells;
    config.constants = pb_spread_constants(&c->setup.constants, c->setup.house.seed, draw, 0);
    draw_settling(c, draw, &config);
    PB_TRY(pb_settle_create(packed, &config, &settle, err));
    PbStatus status = PB_OK;
    for (size_t t = 0; t < times && status == PB_OK; t++, to += 2 * cells) {
        PbSettleReport report;
        PbAgedBay aged;
        status = c->is_stopping ? PB_ERR_STATE : pb_settle_advance(settle, c->setup.years[t]);
        if (status == PB_OK) {
            status = pb_settle_aged(settle, 0, &aged);
        }
        if (status == PB_OK) {
            pb_settle_report(settle, &report);
            gap[t] = (float)report.top_gap_m;
            for (size_t i = 0; i < cells; i++) {
                to[i] = (float)aged.field.density_kg_m3[i];
                to[cells + i] = (float)aged.void_frac[i];
            }
            pb_aged_destroy(&aged);
        }
    }
    pb_settle_destroy(settle);
    return status == PB_OK
               ? PB_OK
               : pb_fail(err, status, "draw %d failed: %s", draw, pb_status_name(status));
}

PbStatus compare_settled_bay(const PbCompare *c, PbCompareFill fill, int draw, int t,
                             PbAgedBay *aged, double *top_gap_m)
{
    const CompareFill *f = &c->fill[fill];
    const PbBayField *packed = &f->variant[compare_variant_of(c, fill, draw)];
    size_t cells = (size_t)packed->nx * (size_t)packed->ny, times = (size_t)c->setup.year_count;
    const float *from = f->settled[draw] + (size_t)t * 2 * cells;
    const PbAllocator memory = pb_allocator_default(); /* what pb_aged_destroy gives back to */
    PbAgedBay out = {.years = c->setup.years[t]};
    PB_TRY(pb_aged_columns(packed, 0, packed->nx, &out.field));
    out.void_frac = memory.alloc(memory.user, cells * sizeof(double));
    if (out.void_frac == NULL) {
        pb_aged_destroy(&out);
        return PB_ERR_MEMORY;
    }
    for (size_t i = 0; i < cells; i++) {
        out.field.density_kg_m3[i] = (double)from[i];
        out.void_frac[i] = (double)from[cells + i];
    }
    *top_gap_m = (double)f->settled[draw][times * 2 * cells + (size_t)t];
    *aged = out;
    return PB_OK;
}
