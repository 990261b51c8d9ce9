/*
 * The comparison as a list of pieces: what there is to do, what needs what, and running it. The
 * work itself is in compare_pack.c, compare_fill.c and compare_heat.c; what is read from it in
 * compare_figures.c.
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

static void add_piece(PbCompare *c, PbComparePieceKind kind, PbCompareFill fill, int index)
{
    /* Relative times on one core, as measured: a packing run 500 ms, key heat 20, a draw 80. */
    static const double cost[] = {25.0, 1.0, 1.0, 4.0};
    double one = fill == PB_COMPARE_EMPTY ? 0.1 : 1.0;
    if (c->piece != NULL) {
        c->piece[c->piece_count] = (PbComparePiece){kind, fill, index, one * cost[kind]};
    }
    c->piece_count++;
}

/* The list in the order of the header; counts only, while there is no room for it yet. */
static void list_pieces(PbCompare *c)
{
    static const PbCompareFill order[] = {PB_COMPARE_EMPTY, PB_COMPARE_FOAM, PB_COMPARE_LOOSE,
                                          PB_COMPARE_DENSE};
    c->piece_count = 0;
    for (int f = 0; f < PB_COMPARE_FILLS; f++) {
        if (order[f] == PB_COMPARE_LOOSE || order[f] == PB_COMPARE_DENSE) {
            add_piece(c, PB_PIECE_PACK, order[f], 0);
        }
        add_piece(c, PB_PIECE_AGE, order[f], 0);
        add_piece(c, PB_PIECE_HEAT, order[f], 0);
    }
    for (int t = 1; t < c->setup.year_count; t++) {
        for (int f = 1; f < PB_COMPARE_FILLS; f++) { /* the empty bay does not age */
            add_piece(c, PB_PIECE_HEAT, order[f], t);
        }
    }
    for (int d = 0; d < c->setup.draws; d++) {
        for (int f = 0; f < PB_COMPARE_FILLS; f++) {
            add_piece(c, PB_PIECE_DRAW, order[f], d);
        }
    }
}

static void lay_out(PbCompare *c, PbArena *a)
{
    size_t times = (size_t)c->setup.year_count, draws = (size_t)c->setup.draws;
    size_t pixels = (size_t)PB_COMPARE_MAP_NX * PB_COMPARE_MAP_NY;
    c->piece = pb_arena_take(a, (size_t)c->piece_count * sizeof *c->piece);
    c->is_done = pb_arena_take(a, (size_t)c->piece_count * sizeof *c->is_done);
    c->perfect_r = pb_arena_take(a, (draws + 1) * sizeof(double));
    c->homes = pb_arena_take(a, (draws + 1) * sizeof *c->homes);
    for (int f = 0; f < PB_COMPARE_FILLS; f++) {
        CompareFill *fill = &c->fill[f];
        fill->frames = pb_arena_take(a, (size_t)c->frame_count * sizeof *fill->frames);
        fill->aged = pb_arena_take(a, times * sizeof *fill->aged);
        fill->heat = pb_arena_take(a, times * sizeof *fill->heat);
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
    PB_TRY(pb_session_create(&config, &session, err));
    PbStatus status = pb_session_field(session, &c->bay);
    pb_session_destroy(session);
    status = status == PB_OK ? make_now(c) : status;
    return status == PB_OK ? PB_OK : pb_fail(err, status, "no room for the bay of a comparison");
}

static PbStatus make(PbCompare *c, PbError *err)
{
    const PbAllocator *memory = &c->setup.allocator;
    c->frame_count = (c->setup.year_count - 1) * (c->setup.frames_between + 1) + 1;
    PB_TRY(make_bay(c, err));
    list_pieces(c);
    PbArena measure = {0};
    lay_out(c, &measure);
    c->block = memory->alloc(memory->user, measure.used);
    if (c->block == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "no room for a comparison");
    }
    memset(c->block, 0, measure.used);
    PbArena arena = {c->block, 0, measure.used};
    lay_out(c, &arena);
    list_pieces(c);
    for (int n = 0; n < c->piece_count; n++) {
        c->is_done[n] = 0;
    }
    for (int d = 0; d < c->setup.draws; d++) {
        PbConstants drawn = pb_spread_constants(&c->setup.constants, c->setup.house.seed, d, 0);
        c->perfect_r[d] = compare_perfect_r(&c->setup, &drawn);
    }
    compare_make_homes(c);
    if (c->setup.house.dense == PB_DENSE_OWN) {
        PbStatus status =
            pb_aged_columns(c->setup.own, 0, c->setup.own->nx, &c->fill[PB_COMPARE_DENSE].packed);
        if (status != PB_OK) {
            return pb_fail(err, status, "no room for the own bay of a comparison");
        }
    }
    c->setup.own = NULL; /* borrowed for the call only */
    return PB_OK;
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

void pb_compare_destroy(PbCompare *c)
{
    if (c == NULL) {
        return;
    }
    PbAllocator memory = c->setup.allocator;
    for (int f = 0; f < PB_COMPARE_FILLS; f++) {
        CompareFill *fill = &c->fill[f];
        for (int t = 0; c->block != NULL && t < c->setup.year_count; t++) {
            pb_aged_destroy(&fill->aged[t]);
        }
        if (fill->density != NULL) {
            memory.free(memory.user, fill->density);
        }
        pb_bay_field_destroy(&fill->packed);
    }
    pb_bay_field_destroy(&c->bay);
    pb_bay_field_destroy(&c->now);
    if (c->block != NULL) {
        memory.free(memory.user, c->block);
    }
    memory.free(memory.user, c);
}

int pb_compare_piece_count(const PbCompare *c)
{
    assert(c != NULL);
    return c->piece_count;
}

PbComparePiece pb_compare_piece(const PbCompare *c, int n)
{
    assert(c != NULL && n >= 0 && n < c->piece_count);
    return c->piece[n];
}

int pb_compare_is_done(const PbCompare *c, int n)
{
    assert(c != NULL && n >= 0 && n < c->piece_count);
    return c->is_done[n];
}

int compare_find(const PbCompare *c, PbComparePieceKind kind, PbCompareFill fill, int index)
{
    for (int n = 0; n < c->piece_count; n++) {
        const PbComparePiece *p = &c->piece[n];
        if (p->kind == kind && p->fill == fill && p->index == index) {
            return n;
        }
    }
    return -1;
}

int compare_done(const PbCompare *c, PbComparePieceKind kind, PbCompareFill fill, int index)
{
    int n = compare_find(c, kind, fill, index);
    return n < 0 || pb_compare_is_done(c, n);
}

/* Draws stand at the end of the list, all fills of a draw together. */
int compare_draws_done(const PbCompare *c, PbCompareFill fill)
{
    int draws = c->setup.draws, first = c->piece_count - draws * PB_COMPARE_FILLS, done = 0;
    while (done < draws) {
        int n = first + done * PB_COMPARE_FILLS;
        while (c->piece[n].fill != fill) {
            n++;
        }
        if (!pb_compare_is_done(c, n)) {
            break;
        }
        done++;
    }
    return done;
}

static int has_inputs(const PbCompare *c, const PbComparePiece *p)
{
    if (p->kind == PB_PIECE_PACK) {
        return 1;
    }
    return compare_done(c, p->kind == PB_PIECE_HEAT ? PB_PIECE_AGE : PB_PIECE_PACK, p->fill, 0);
}

int pb_compare_can_run(const PbCompare *c, int n)
{
    assert(c != NULL && n >= 0 && n < c->piece_count);
    return n >= 0 && n < c->piece_count && !pb_compare_is_done(c, n) && has_inputs(c, &c->piece[n]);
}

PbStatus pb_compare_run(PbCompare *c, int n, PbError *err)
{
    assert(c != NULL && n >= 0 && n < c->piece_count);
    if (n < 0 || n >= c->piece_count) {
        return pb_fail(err, PB_ERR_RANGE, "piece %d, expected 0 to %d", n, c->piece_count - 1);
    }
    if (pb_compare_is_done(c, n)) {
        return PB_OK;
    }
    const PbComparePiece *p = &c->piece[n];
    if (!has_inputs(c, p)) {
        return pb_fail(err, PB_ERR_STATE, "piece %d needs one that is not finished", n);
    }
    PbStatus status = p->kind == PB_PIECE_PACK   ? compare_pack(c, p->fill, err)
                      : p->kind == PB_PIECE_AGE  ? compare_age(c, p->fill, err)
                      : p->kind == PB_PIECE_HEAT ? compare_heat(c, p->fill, p->index, err)
                                                 : compare_draw(c, p->fill, p->index, err);
    if (status == PB_OK) {
        c->is_done[n] = 1;
    }
    return status;
}

/* Pieces of one wave: all of them can run, whatever the others do. */
typedef struct Wave {
    PbCompare *compare;
    int *piece;
    PbStatus *status;
    int count;
    int (*is_stopped)(void *user);
    void (*done)(void *user, int n);
    void *user;
} Wave;

static void run_one(void *context, int index)
{
    Wave *w = context;
    int n = w->piece[index];
    if (w->is_stopped != NULL && w->is_stopped(w->user)) {
        w->status[index] = PB_ERR_STATE;
        return;
    }
    w->status[index] = pb_compare_run(w->compare, n, NULL);
    if (w->done != NULL && w->status[index] == PB_OK) {
        w->done(w->user, n);
    }
}

static PbStatus run_wave(Wave *w, PbHeatParallel parallel, void *parallel_user, PbError *err)
{
    if (parallel != NULL) {
        parallel(parallel_user, w->count, run_one, w);
    } else {
        for (int i = 0; i < w->count; i++) {
            run_one(w, i);
        }
    }
    static const char *const kinds[] = {"packing", "ageing", "heat", "draw"};
    static const char *const fills[] = {"empty bay", "loose blow", "foam", "dense pack"};
    for (int i = 0; i < w->count; i++) {
        if (w->status[i] != PB_OK) {
            PbComparePiece p = w->compare->piece[w->piece[i]];
            return pb_fail(err, w->status[i], "%s, %s %d: %s", fills[p.fill], kinds[p.kind],
                           p.index,
                           w->status[i] == PB_ERR_STATE ? "stopped" : pb_status_name(w->status[i]));
        }
    }
    return PB_OK;
}

/* Waves in the order in which a person wants to see things. */
static int is_in_wave(const PbComparePiece *p, int wave)
{
    int packs = p->fill == PB_COMPARE_LOOSE || p->fill == PB_COMPARE_DENSE;
    switch (wave) {
    case 0:
        return p->kind == PB_PIECE_AGE && !packs;
    case 1:
        return p->kind == PB_PIECE_HEAT && p->index == 0 && !packs;
    case 2:
        return p->kind == PB_PIECE_PACK;
    case 3:
        return p->kind == PB_PIECE_AGE && packs;
    case 4:
        return p->kind == PB_PIECE_HEAT && p->index == 0 && packs;
    case 5:
        return p->kind == PB_PIECE_HEAT && p->index > 0;
    default:
        return p->kind == PB_PIECE_DRAW;
    }
}

PbStatus pb_compare_run_all(PbCompare *c, PbHeatParallel parallel, void *parallel_user,
                            int (*is_stopped)(void *user), void (*done)(void *user, int n),
                            void *user, PbError *err)
{
    assert(c != NULL);
    const PbAllocator *memory = &c->setup.allocator;
    size_t room = (size_t)c->piece_count * (sizeof(int) + sizeof(PbStatus));
    void *block = memory->alloc(memory->user, room);
    if (block == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "no room for the list of work");
    }
    Wave w = {c,    block, (PbStatus *)(void *)((int *)block + c->piece_count), 0, is_stopped,
              done, user};
    PbStatus status = PB_OK;
    for (int wave = 0; wave <= 6 && status == PB_OK; wave++) {
        w.count = 0;
        for (int n = 0; n < c->piece_count; n++) {
            if (is_in_wave(&c->piece[n], wave) && !pb_compare_is_done(c, n)) {
                w.piece[w.count++] = n;
            }
        }
        status = w.count > 0 ? run_wave(&w, parallel, parallel_user, err) : PB_OK;
    }
    memory->free(memory->user, block);
    return status;
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
