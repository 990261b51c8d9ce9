/*
 * A comparison made, judged and given back. What there is to do and in which order is in
 * compare_pieces.c; what is taken over from another comparison in compare_take.c; what is read from
 * it in compare_figures.c.
 */
#include "compare/compare_private.h"

#include <assert.h>
#include <math.h>
#include <string.h>

static const double usual_years[] = {0, 0.25, 1, 2, 5, 10, 15, 20, 30, 40, 50};
enum { USUAL_YEARS = sizeof usual_years / sizeof usual_years[0] };

PbCompareSetup pb_compare_default(void)
{
    PbCompareSetup s;
    memset(&s, 0, sizeof s);
    s.house = pb_house_default();
    s.constants = pb_constants_default();
    memcpy(s.years, usual_years, sizeof usual_years);
    s.year_count = USUAL_YEARS;
    s.frames_between = 2;
    s.draws = 40;
    s.allocator = pb_allocator_default();
    return s;
}

static PbStatus check(const PbCompareSetup *s, PbError *err)
{
    char field[96];
    PB_TRY(pb_house_check(&s->house, field, sizeof field, err));
    if (s->year_count < 1 || s->year_count > PB_COMPARE_MAX_TIMES || s->frames_between < 0 ||
        s->frames_between > 8 || s->draws < 0 || s->draws > PB_COMPARE_MAX_DRAWS ||
        (s->year_count - 1) * (s->frames_between + 1) + 1 > PB_COMPARE_MAX_FRAMES) {
        return pb_fail(err, PB_ERR_RANGE,
                       "expected 1 to %d times, 0 to 8 pictures between, at most %d pictures in "
                       "all, 0 to %d draws",
                       PB_COMPARE_MAX_TIMES, PB_COMPARE_MAX_FRAMES, PB_COMPARE_MAX_DRAWS);
    }
    for (int i = 0; i < s->year_count; i++) {
        double least = i > 0 ? s->years[i - 1] : 0.0;
        if (!(s->years[i] <= PB_SETTLE_MAX_YEARS) ||
            !(i == 0 ? s->years[i] == 0.0 : s->years[i] > least)) {
            return pb_fail(err, PB_ERR_RANGE,
                           "year %g: expected rising years from 0 to %g, the first of them 0",
                           s->years[i], PB_SETTLE_MAX_YEARS);
        }
    }
    if (s->house.dense == PB_DENSE_OWN) {
        if (s->own == NULL) {
            return pb_fail(err, PB_ERR_RANGE, "an own dense pack, but no bay is handed in");
        }
        const PbExercise *b = &s->house.bay;
        if (!(fabs(s->own->width_m - b->width_m) < 1e-6 &&
              fabs(s->own->height_m - b->height_m) < 1e-6 &&
              fabs(s->own->depth_m - b->depth_m) < 1e-6)) {
            return pb_fail(
                err, PB_ERR_RANGE,
                "the own run packed a bay of %g x %g x %g m, expected that of the house, "
                "%g x %g x %g m",
                s->own->width_m, s->own->height_m, s->own->depth_m, b->width_m, b->height_m,
                b->depth_m);
        }
        PB_TRY(pb_settle_check(s->own, err));
    }
    return PB_OK;
}

static void lay_out(PbCompare *c, PbArena *a)
{
    size_t times = (size_t)c->setup.year_count, draws = (size_t)c->setup.draws;
    size_t pieces = (size_t)c->piece_count;
    size_t pixels = (size_t)PB_COMPARE_MAP_NX * PB_COMPARE_MAP_NY;
    c->piece = pb_arena_take(a, pieces * sizeof *c->piece);
    c->number = pb_arena_take(a, (size_t)compare_number_count(c) * sizeof *c->number);
    c->is_done = pb_arena_take(a, pieces * sizeof *c->is_done);
    c->is_taken = pb_arena_take(a, pieces * sizeof *c->is_taken);
    c->perfect_r = pb_arena_take(a, (draws + 1) * sizeof(double));
    c->walls = pb_arena_take(a, (draws + 1) * sizeof *c->walls);
    c->homes = pb_arena_take(a, (draws + 1) * sizeof *c->homes);
    for (int f = 0; f < PB_COMPARE_FILLS; f++) {
        CompareFill *fill = &c->fill[f];
        for (int g = 0; g < COMPARE_GRIDS; g++) {
            CompareAged *aged = &fill->grid[g];
            aged->frames = pb_arena_take(a, (size_t)c->frame_count * sizeof *aged->frames);
            aged->key = pb_arena_take(a, times * sizeof *aged->key);
        }
        fill->heat = pb_arena_take(a, times * sizeof *fill->heat);
        fill->coarse = pb_arena_take(a, times * sizeof *fill->coarse);
        fill->settled = pb_arena_take(a, (draws + 1) * sizeof *fill->settled);
        fill->draws = pb_arena_take(a, (draws * times + 1) * sizeof *fill->draws);
        for (size_t t = 0; t < times; t++) {
            float *map = pb_arena_take(a, pixels * sizeof *map);
            if (fill->heat != NULL) {
                fill->heat[t].map_c = map;
            }
        }
    }
}

/* Old loose fill, settled, to its share of the height. */
static PbStatus make_now(PbCompare *c)
{
    const PbCavity *cavity = &c->setup.house.cavity;
    PB_TRY(pb_aged_columns(&c->bay, 0, c->bay.nx, &c->now));
    for (int j = 0; j < c->now.ny && cavity->now == PB_CAVITY_LOOSE; j++) {
        for (int i = 0; i < c->now.nx && j + 0.5 < cavity->share * c->now.ny; i++) {
            int n = j * c->now.nx + i;
            c->now.density_kg_m3[n] =
                c->now.free_frac[n] > 0.0 ? c->setup.constants.old_fill_kg_m3 : 0.0;
        }
    }
    return PB_OK;
}

/* The bare bay with its obstacles, as the packing sees it. */
static PbStatus make_bay(PbCompare *c, PbError *err)
{
    PbSessionConfig config = pb_session_default();
    PbSession *session;
    config.exercise = c->setup.house.bay;
    config.constants = c->setup.constants;
    config.seed = c->setup.house.seed;
    config.allocator = c->setup.allocator;
    compare_set_grid(&config, 1); /* that of the pictures which stand */
    PB_TRY(pb_session_create(&config, &session, err));
    PbStatus status = pb_session_field(session, &c->bay);
    pb_session_destroy(session);
    status = status == PB_OK ? make_now(c) : status;
    return status == PB_OK ? PB_OK : pb_fail(err, status, "no room for the bay of a comparison");
}

/* The trainee's bay is packed on its own grid, coarse and fine alike. */
static PbStatus take_own(PbCompare *c, PbError *err)
{
    const PbBayField *own = c->setup.own;
    CompareFill *dense = &c->fill[PB_COMPARE_DENSE];
    PbStatus status = PB_OK;
    c->setup.own = NULL; /* borrowed for the call only */
    if (c->setup.house.dense == PB_DENSE_OWN) {
        status = pb_aged_columns(own, 0, own->nx, &dense->packed);
        status = status == PB_OK ? pb_aged_columns(own, 0, own->nx, &dense->variant[0]) : status;
    }
    return status == PB_OK ? PB_OK
                           : pb_fail(err, status, "no room for the own bay of a comparison");
}

static PbStatus make(PbCompare *c, PbError *err)
{
    const PbAllocator *memory = &c->setup.allocator;
    c->frame_count = (c->setup.year_count - 1) * (c->setup.frames_between + 1) + 1;
    PB_TRY(make_bay(c, err));
    compare_list_pieces(c);
    PbArena measure = {0};
    lay_out(c, &measure);
    c->block = memory->alloc(memory->user, measure.used);
    if (c->block == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "no room for a comparison");
    }
    memset(c->block, 0, measure.used);
    PbArena arena = {c->block, 0, measure.used};
    lay_out(c, &arena);
    compare_list_pieces(c);
    compare_make_walls(c);
    compare_make_homes(c);
    return take_own(c, err);
}

PbStatus pb_compare_create(const PbCompareSetup *setup, PbCompare **compare, PbError *err)
{
    assert(setup != NULL && compare != NULL);
    PB_TRY(check(setup, err));
    PbCompare *c = setup->allocator.alloc(setup->allocator.user, sizeof *c);
    if (c == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "no room for a comparison");
    }
    memset(c, 0, sizeof *c);
    c->setup = *setup;
    PbStatus status = make(c, err);
    if (status != PB_OK) {
        pb_compare_destroy(c);
        return status;
    }
    *compare = c;
    return PB_OK;
}

static void destroy_fill(const PbCompare *c, CompareFill *fill)
{
    const PbAllocator *memory = &c->setup.allocator;
    for (int g = 0; g < COMPARE_GRIDS; g++) {
        CompareAged *aged = &fill->grid[g];
        for (int t = 0; c->block != NULL && t < c->setup.year_count; t++) {
            pb_aged_destroy(&aged->key[t]);
        }
        if (aged->density != NULL) {
            memory->free(memory->user, aged->density);
        }
    }
    for (int d = 0; c->block != NULL && d < c->setup.draws; d++) {
        if (fill->settled[d] != NULL) {
            memory->free(memory->user, fill->settled[d]);
        }
    }
    for (int v = 0; v < COMPARE_VARIANTS; v++) {
        pb_bay_field_destroy(&fill->variant[v]);
    }
    pb_bay_field_destroy(&fill->packed);
}

void pb_compare_destroy(PbCompare *c)
{
    if (c == NULL) {
        return;
    }
    PbAllocator memory = c->setup.allocator;
    for (int f = 0; f < PB_COMPARE_FILLS; f++) {
        destroy_fill(c, &c->fill[f]);
    }
    pb_bay_field_destroy(&c->bay);
    pb_bay_field_destroy(&c->now);
    if (c->block != NULL) {
        memory.free(memory.user, c->block);
    }
    memory.free(memory.user, c);
}

const PbCompareSetup *pb_compare_setup(const PbCompare *c)
{
    assert(c != NULL);
    return &c->setup;
}

const PbBayField *pb_compare_bay(const PbCompare *c)
{
    assert(c != NULL);
    return &c->bay;
}
