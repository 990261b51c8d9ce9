/* What becomes of each fill: pictures at every frame, gaps, and the bays that heat is solved for.
 */
#include "compare/compare_private.h"

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

static PbStatus make_pictures(PbCompare *c, CompareFill *fill, size_t cells, PbError *err)
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

static PbStatus age_cellulose(PbCompare *c, CompareFill *fill, PbError *err)
{
    PbSettleConfig config = compare_settle_config(c);
    PbSettle *s;
    size_t cells = (size_t)fill->packed.nx * (size_t)fill->packed.ny;
    PB_TRY(make_pictures(c, fill, cells, err));
    PB_TRY(pb_settle_create(&fill->packed, &config, &s, err));
    PbStatus status = PB_OK;
    for (int f = 0; f < c->frame_count && status == PB_OK; f++) {
        CompareFrame *frame = &fill->frames[f];
        PbAgedBay aged;
        status = pb_settle_advance(s, pb_compare_frame_years(c, f));
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
            PbAgedBay *key = &fill->aged[f / (c->setup.frames_between + 1)];
            pb_aged_destroy(key);
            *key = aged;
        } else {
            pb_aged_destroy(&aged);
        }
    }
    pb_settle_destroy(s);
    return status;
}

static PbStatus age_foam(PbCompare *c, CompareFill *fill, PbError *err)
{
    PbFoamCase foam = compare_foam_case(c);
    size_t cells = (size_t)c->bay.nx * (size_t)c->bay.ny;
    PbBayField field;
    PB_TRY(pb_foam_check(&foam, err));
    PB_TRY(make_pictures(c, fill, cells, err));
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

PbStatus compare_age(PbCompare *c, PbCompareFill fill, PbError *err)
{
    CompareFill *f = &c->fill[fill];
    if (fill == PB_COMPARE_FOAM) {
        return age_foam(c, f, err);
    }
    if (fill == PB_COMPARE_EMPTY) {
        size_t cells = (size_t)c->now.nx * (size_t)c->now.ny;
        PB_TRY(make_pictures(c, f, cells, err));
        for (int n = 0; n < c->frame_count; n++) {
            keep_picture(&f->frames[n], c->now.density_kg_m3, cells);
        }
        return PB_OK;
    }
    return age_cellulose(c, f, err);
}
