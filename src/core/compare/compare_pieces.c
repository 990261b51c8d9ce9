/*
 * The comparison as a list of pieces: what there is to do, what needs what, and in which order it
 * is done. The work itself is in compare_pack.c, compare_fill.c and compare_heat.c.
 */
#include "compare/compare_private.h"

#include <assert.h>

static int is_packed(PbCompareFill fill)
{
    return fill == PB_COMPARE_LOOSE || fill == PB_COMPARE_DENSE;
}

int compare_is_packed(PbCompareFill fill)
{
    return is_packed(fill);
}

int compare_is_own(const PbCompare *c, PbCompareFill fill)
{
    return fill == PB_COMPARE_DENSE && c->setup.house.dense == PB_DENSE_OWN;
}

int compare_variant_of(const PbCompare *c, PbCompareFill fill, int draw)
{
    return compare_is_own(c, fill) ? 0 : draw % COMPARE_VARIANTS;
}

int compare_draw_index(const PbCompare *c, int draw, int t)
{
    return draw * c->setup.year_count + t;
}

/* Indices that a kind may have. */
static int count_of(const PbCompare *c, PbComparePieceKind kind)
{
    switch (kind) {
    case PB_PIECE_PACK:
        return COMPARE_VARIANTS + 1; /* the last one is the fine grid's */
    case PB_PIECE_AGE:
        return COMPARE_GRIDS;
    case PB_PIECE_HEAT:
    case PB_PIECE_COARSE:
        return c->setup.year_count;
    case PB_PIECE_SETTLE:
        return c->setup.draws;
    default:
        return c->setup.draws * c->setup.year_count;
    }
}

static int slot_of(const PbCompare *c, PbComparePieceKind kind, PbCompareFill fill, int index)
{
    int slot = 0;
    for (int k = 0; k < (int)kind; k++) {
        slot += PB_COMPARE_FILLS * count_of(c, (PbComparePieceKind)k);
    }
    return slot + (int)fill * count_of(c, kind) + index;
}

int compare_number_count(const PbCompare *c)
{
    return slot_of(c, PB_PIECE_KINDS, PB_COMPARE_EMPTY, 0);
}

static void add_piece(PbCompare *c, PbComparePieceKind kind, PbCompareFill fill, int index)
{
    /* Relative times on one core, as measured: a fine packing run 450 ms, a coarse one 220, the
     * years of a fill 40, heat of a key time 25, a draw 17 to settle and 5 a key time. */
    static const double cost[PB_PIECE_KINDS] = {44.0, 8.0, 5.0, 1.0, 3.4, 1.0};
    double one = fill == PB_COMPARE_EMPTY ? 0.2 : 1.0;
    if (kind == PB_PIECE_PACK && index == COMPARE_VARIANTS) {
        one = 2.0;
    }
    if (c->piece != NULL && c->number != NULL) {
        c->piece[c->piece_count] = (PbComparePiece){kind, fill, index, one * cost[kind]};
        c->number[slot_of(c, kind, fill, index)] = c->piece_count;
    }
    c->piece_count++;
}

static void add_draw(PbCompare *c, int draw)
{
    for (int f = 0; f < PB_COMPARE_FILLS; f++) {
        PbCompareFill fill = (PbCompareFill)f;
        int times = fill == PB_COMPARE_EMPTY ? 1 : c->setup.year_count;
        if (is_packed(fill) && draw > 0 && draw < COMPARE_VARIANTS) {
            add_piece(c, PB_PIECE_PACK, fill, draw);
        }
        if (is_packed(fill)) {
            add_piece(c, PB_PIECE_SETTLE, fill, draw);
        }
        for (int t = 0; t < times; t++) { /* the empty bay does not age */
            add_piece(c, PB_PIECE_DRAW, fill, compare_draw_index(c, draw, t));
        }
    }
}

void compare_list_pieces(PbCompare *c)
{
    static const PbCompareFill order[] = {PB_COMPARE_EMPTY, PB_COMPARE_FOAM, PB_COMPARE_LOOSE,
                                          PB_COMPARE_DENSE};
    c->piece_count = 0;
    for (int i = 0; c->number != NULL && i < compare_number_count(c); i++) {
        c->number[i] = -1;
    }
    for (int f = 0; f < PB_COMPARE_FILLS; f++) {
        if (is_packed(order[f])) {
            add_piece(c, PB_PIECE_PACK, order[f], 0);
            add_piece(c, PB_PIECE_AGE, order[f], COMPARE_COARSE);
            add_piece(c, PB_PIECE_PACK, order[f], COMPARE_VARIANTS);
        }
        add_piece(c, PB_PIECE_AGE, order[f], COMPARE_FINE);
        add_piece(c, PB_PIECE_HEAT, order[f], 0);
    }
    for (int t = 0; t < c->setup.year_count; t++) {
        for (int f = t > 0 ? 1 : 0; f < PB_COMPARE_FILLS; f++) {
            if (t > 0) {
                add_piece(c, PB_PIECE_HEAT, order[f], t);
            }
            add_piece(c, PB_PIECE_COARSE, order[f], t);
        }
    }
    for (int d = 0; d < c->setup.draws; d++) {
        add_draw(c, d);
    }
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

int compare_number(const PbCompare *c, PbComparePieceKind kind, PbCompareFill fill, int index)
{
    return index < count_of(c, kind) ? c->number[slot_of(c, kind, fill, index)] : -1;
}

int compare_done(const PbCompare *c, PbComparePieceKind kind, PbCompareFill fill, int index)
{
    int n = compare_number(c, kind, fill, index);
    return n < 0 || c->is_done[n];
}

int compare_draws_done(const PbCompare *c, PbCompareFill fill, int t)
{
    int done = 0, at = fill == PB_COMPARE_EMPTY ? 0 : t;
    while (done < c->setup.draws &&
           compare_done(c, PB_PIECE_DRAW, fill, compare_draw_index(c, done, at))) {
        done++;
    }
    return done;
}

static int has_inputs(const PbCompare *c, const PbComparePiece *p)
{
    int draw = p->index;
    switch (p->kind) {
    case PB_PIECE_PACK:
        return 1;
    case PB_PIECE_AGE:
        return compare_done(c, PB_PIECE_PACK, p->fill,
                            p->index == COMPARE_FINE ? COMPARE_VARIANTS : 0);
    case PB_PIECE_HEAT:
        return compare_done(c, PB_PIECE_AGE, p->fill, COMPARE_FINE);
    case PB_PIECE_COARSE:
        return compare_done(c, PB_PIECE_AGE, p->fill,
                            is_packed(p->fill) ? COMPARE_COARSE : COMPARE_FINE);
    case PB_PIECE_SETTLE:
        return compare_done(c, PB_PIECE_PACK, p->fill, compare_variant_of(c, p->fill, draw));
    default:
        return compare_done(c, PB_PIECE_SETTLE, p->fill, draw / c->setup.year_count);
    }
}

int pb_compare_can_run(const PbCompare *c, int n)
{
    assert(c != NULL && n >= 0 && n < c->piece_count);
    return n >= 0 && n < c->piece_count && !pb_compare_is_done(c, n) && has_inputs(c, &c->piece[n]);
}

static PbStatus work(PbCompare *c, const PbComparePiece *p, PbError *err)
{
    switch (p->kind) {
    case PB_PIECE_PACK:
        return compare_pack(c, p->fill, p->index, err);
    case PB_PIECE_AGE:
        return compare_age(c, p->fill, p->index, err);
    case PB_PIECE_HEAT:
        return compare_heat(c, p->fill, p->index, err);
    case PB_PIECE_COARSE:
        return compare_coarse(c, p->fill, p->index, err);
    case PB_PIECE_SETTLE:
        return compare_settle(c, p->fill, p->index, err);
    default:
        return compare_draw(c, p->fill, p->index, err);
    }
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
    if (!has_inputs(c, &c->piece[n])) {
        return pb_fail(err, PB_ERR_STATE, "piece %d needs one that is not finished", n);
    }
    PbStatus status = work(c, &c->piece[n], err);
    if (status == PB_OK) {
        c->is_done[n] = 1;
    }
    return status;
}

void pb_compare_look(PbCompare *c, double years)
{
    assert(c != NULL);
    double share;
    int t = compare_key_time(c, years, &share);
    c->look = 2 * t + (share > 0.0);
}

void pb_compare_stop(PbCompare *c)
{
    assert(c != NULL);
    c->is_stopping = 1;
}

/* Does the year that is looked at hang on this piece? */
static int is_looked_at(const PbCompare *c, const PbComparePiece *p)
{
    int look = c->look, t = p->kind == PB_PIECE_DRAW ? p->index % c->setup.year_count : p->index;
    return p->fill == PB_COMPARE_EMPTY || t == look / 2 || t == look / 2 + look % 2;
}

/* What a person wants to see first: figures of the year looked at, coarse, then fine, then their
 * ranges; then the same of the other years. Draws go by their number. */
static int rank(const PbCompare *c, const PbComparePiece *p)
{
    enum { STAGE = 1000 };
    int packs = is_packed(p->fill), is_now = is_looked_at(c, p);
    switch (p->kind) {
    case PB_PIECE_AGE: /* without a packing run: as soon as the runs of the others are in hand */
        return (!packs ? 1 : p->index == COMPARE_COARSE ? 2 : 6) * STAGE;
    case PB_PIECE_HEAT:
        return (!is_now ? 9 : packs ? 7 : 4) * STAGE;
    case PB_PIECE_COARSE:
        return (!is_now ? 9 : 3) * STAGE;
    case PB_PIECE_PACK:
        return p->index == 0 ? 0 : p->index == COMPARE_VARIANTS ? 5 * STAGE : 8 * STAGE + p->index;
    case PB_PIECE_SETTLE:
        return 8 * STAGE + p->index;
    default:
        return (is_now ? 8 : 10) * STAGE + p->index / c->setup.year_count;
    }
}

/* Threads that take the most wanted piece, one after the other. */
typedef struct Run {
    PbCompare *compare;
    PbStatus *status; /* of each piece */
    int (*is_stopped)(void *user);
    void (*done)(void *user, int n);
    void *user;
    _Atomic int finished, has_stopped;
} Run;

/* The most wanted piece that nobody has, taken; negative = none can run now. */
static int take(PbCompare *c)
{
    for (;;) {
        int best = -1, best_rank = 0;
        for (int n = 0; n < c->piece_count; n++) {
            if (c->is_taken[n] || c->is_done[n] || !has_inputs(c, &c->piece[n])) {
                continue;
            }
            int r = rank(c, &c->piece[n]);
            if (best < 0 || r < best_rank) {
                best = n;
                best_rank = r;
            }
        }
        if (best < 0 || c->is_taken[best]++ == 0) { /* in one step: see the type */
            return best;
        }
    }
}

static void run_next(void *context, int index)
{
    Run *r = context;
    PbCompare *c = r->compare;
    (void)index;
    if (r->has_stopped || c->is_stopping || (r->is_stopped != NULL && r->is_stopped(r->user))) {
        r->has_stopped = 1;
        return;
    }
    int n = take(c);
    if (n < 0) {
        return; /* what is left waits for what others have in hand */
    }
    r->status[n] = pb_compare_run(c, n, NULL);
    if (r->status[n] == PB_OK) {
        r->finished++;
        if (r->done != NULL) {
            r->done(r->user, n);
        }
    }
}

static int open_pieces(PbCompare *c)
{
    int open = 0;
    for (int n = 0; n < c->piece_count; n++) {
        open += !c->is_taken[n] && !c->is_done[n];
    }
    return open;
}

/* The lowest piece that failed, or where it stopped. */
static PbStatus complaint(const Run *r, PbError *err)
{
    static const char *const kinds[PB_PIECE_KINDS] = {"packing", "ageing",       "heat",
                                                      "heat",    "settled draw", "draw"};
    static const char *const fills[] = {"empty bay", "loose blow", "foam", "dense pack"};
    const PbCompare *c = r->compare;
    int at = -1;
    for (int n = 0; n < c->piece_count; n++) {
        int has_failed = r->status[n] != PB_OK && r->status[n] != PB_ERR_STATE;
        if (has_failed || (at < 0 && !c->is_done[n])) {
            at = n;
        }
        if (has_failed) {
            break;
        }
    }
    if (at < 0) {
        return PB_OK;
    }
    PbComparePiece p = c->piece[at];
    PbStatus status = r->status[at] != PB_OK ? r->status[at] : PB_ERR_STATE;
    return pb_fail(err, status, "%s, %s %d: %s", fills[p.fill], kinds[p.kind], p.index,
                   status == PB_ERR_STATE ? "stopped" : pb_status_name(status));
}

PbStatus pb_compare_run_all(PbCompare *c, PbHeatParallel parallel, void *parallel_user,
                            int (*is_stopped)(void *user), void (*done)(void *user, int n),
                            void *user, PbError *err)
{
    assert(c != NULL);
    const PbAllocator *memory = &c->setup.allocator;
    size_t count = (size_t)c->piece_count;
    Run r = {c, memory->alloc(memory->user, count * sizeof(PbStatus)), is_stopped, done, user, 0,
             0};
    if (r.status == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "no room for the list of work");
    }
    for (size_t n = 0; n < count; n++) {
        r.status[n] = PB_OK;
        c->is_taken[n] = 0;
    }
    int before, open = open_pieces(c);
    do {
        before = r.finished;
        if (parallel != NULL) {
            parallel(parallel_user, open, run_next, &r);
        } else {
            for (int i = 0; i < open; i++) {
                run_next(&r, i);
            }
        }
        open = open_pieces(c);
    } while (open > 0 && r.finished > before && !r.has_stopped);
    PbStatus status = complaint(&r, err);
    memory->free(memory->user, r.status);
    return status;
}
