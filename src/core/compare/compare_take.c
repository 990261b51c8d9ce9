/*
 * What one comparison takes over from another: each stage whose inputs are the same. Packing hangs
 * on bay, crew and seed; years on those and the climate; heat on those, the layers and the air on
 * both sides; framing and money come after all of it.
 */
#include "compare/compare_private.h"

#include <assert.h>
#include <string.h>

/* Bytes between members may differ where the members do not: then work is done anew, and no figure
 * is wrong. */
static int is_same(const void *a, const void *b, size_t size)
{
    return memcmp(a, b, size) == 0;
}

static int is_same_field(const PbBayField *a, const PbBayField *b)
{
    size_t bytes = (size_t)a->nx * (size_t)a->ny * sizeof(double);
    return a->nx == b->nx && a->ny == b->ny && a->fill_rh_frac == b->fill_rh_frac &&
           is_same(a->density_kg_m3, b->density_kg_m3, bytes) &&
           is_same(a->density_past_kg_m3, b->density_past_kg_m3, bytes) &&
           is_same(a->lateral_pa, b->lateral_pa, bytes) &&
           is_same(a->free_frac, b->free_frac, bytes) && is_same(a->batt_frac, b->batt_frac, bytes);
}

/* Of each fill: is it filled in the same way, and does it age in the same way? */
typedef struct Same {
    int filled[PB_COMPARE_FILLS], aged[PB_COMPARE_FILLS];
    int air; /* layers and both temperatures */
} Same;

static int is_filled_alike(const PbCompare *a, const PbCompare *b, PbCompareFill fill)
{
    const PbHouse *h = &a->setup.house, *g = &b->setup.house;
    switch (fill) {
    case PB_COMPARE_EMPTY:
        return h->cavity.now == g->cavity.now && h->cavity.share == g->cavity.share;
    case PB_COMPARE_LOOSE:
        return h->loose == g->loose;
    case PB_COMPARE_FOAM:
        return h->foam == g->foam;
    case PB_COMPARE_DENSE:
        return h->dense == g->dense &&
               (h->dense != PB_DENSE_OWN ||
                is_same_field(&a->fill[fill].packed, &b->fill[fill].packed));
    default:
        return 1;
    }
}

static Same same_of(const PbCompare *a, const PbCompare *b)
{
    Same s;
    const PbCompareSetup *p = &a->setup, *q = &b->setup;
    const PbHouse *h = &p->house, *g = &q->house;
    memset(&s, 0, sizeof s);
    int is_same_bay = is_same(&p->constants, &q->constants, sizeof p->constants) &&
                      is_same(&h->bay, &g->bay, sizeof h->bay) && h->seed == g->seed;
    int is_same_years = p->year_count == q->year_count && p->frames_between == q->frames_between &&
                        is_same(p->years, q->years, (size_t)p->year_count * sizeof p->years[0]);
    int is_same_climate = is_same(&h->climate, &g->climate, sizeof h->climate);
    for (int f = 0; f < PB_COMPARE_FILLS; f++) {
        int ages = f != PB_COMPARE_EMPTY;
        s.filled[f] = is_same_bay && is_filled_alike(a, b, (PbCompareFill)f);
        s.aged[f] = s.filled[f] && is_same_years && (is_same_climate || !ages);
    }
    s.air = is_same(&h->wall, &g->wall, sizeof h->wall) && h->room_c == g->room_c &&
            h->outdoor_c == g->outdoor_c;
    return s;
}

static int holds(const Same *s, const PbComparePiece *p)
{
    switch (p->kind) {
    case PB_PIECE_PACK:
        return s->filled[p->fill];
    case PB_PIECE_AGE:
    case PB_PIECE_SETTLE:
        return s->aged[p->fill];
    default:
        return s->aged[p->fill] && s->air;
    }
}

static PbStatus copy_packed(CompareFill *to, const CompareFill *from, int index)
{
    int is_fine = index == COMPARE_VARIANTS;
    PbBayField *out = is_fine ? &to->packed : &to->variant[index];
    const PbBayField *in = is_fine ? &from->packed : &from->variant[index];
    if (in->density_kg_m3 == NULL || out->density_kg_m3 != NULL) {
        return PB_OK; /* an own run, or a copy that was begun before */
    }
    int grid = is_fine ? COMPARE_FINE : COMPARE_COARSE;
    if (is_fine || index == 0) {
        to->is_blown_out[grid] = from->is_blown_out[grid];
    }
    return pb_aged_columns(in, 0, in->nx, out);
}

static PbStatus copy_aged(PbCompare *to, CompareAged *out, const CompareAged *in, size_t cells)
{
    PB_TRY(compare_make_pictures(to, out, cells, NULL));
    memcpy(out->density, in->density, cells * (size_t)to->frame_count * sizeof(float));
    for (int f = 0; f < to->frame_count; f++) {
        out->frames[f].report = in->frames[f].report;
        out->frames[f].foam = in->frames[f].foam;
    }
    for (int t = 0; t < to->setup.year_count; t++) {
        if (in->key[t].void_frac != NULL && out->key[t].void_frac == NULL) {
            PB_TRY(pb_aged_part(&in->key[t], 0, in->key[t].field.nx, &out->key[t]));
        }
    }
    return PB_OK;
}

static PbStatus copy_settled(PbCompare *to, CompareFill *out, const CompareFill *in, int draw,
                             size_t cells)
{
    const PbAllocator *memory = &to->setup.allocator;
    size_t bytes = (size_t)to->setup.year_count * (2 * cells + 1) * sizeof(float);
    out->settled[draw] =
        out->settled[draw] != NULL ? out->settled[draw] : memory->alloc(memory->user, bytes);
    if (out->settled[draw] == NULL) {
        return PB_ERR_MEMORY;
    }
    memcpy(out->settled[draw], in->settled[draw], bytes);
    return PB_OK;
}

static size_t cells_of(const PbCompare *c, const PbBayField *packed)
{
    const PbBayField *f = packed->density_kg_m3 != NULL ? packed : &c->bay;
    return (size_t)f->nx * (size_t)f->ny;
}

static PbStatus copy_piece(PbCompare *to, const PbCompare *from, const PbComparePiece *p)
{
    CompareFill *out = &to->fill[p->fill];
    const CompareFill *in = &from->fill[p->fill];
    int at = p->index;
    switch (p->kind) {
    case PB_PIECE_PACK:
        return copy_packed(out, in, at);
    case PB_PIECE_AGE:
        return copy_aged(to, &out->grid[at], &in->grid[at],
                         cells_of(from, at == COMPARE_FINE ? &in->packed : &in->variant[0]));
    case PB_PIECE_SETTLE:
        return copy_settled(to, out, in, at,
                            cells_of(from, &in->variant[compare_variant_of(from, p->fill, at)]));
    case PB_PIECE_HEAT: {
        float *map = out->heat[at].map_c;
        memcpy(map, in->heat[at].map_c,
               sizeof *map * (size_t)PB_COMPARE_MAP_NX * PB_COMPARE_MAP_NY);
        out->heat[at] = in->heat[at];
        out->heat[at].map_c = map;
        return PB_OK;
    }
    case PB_PIECE_COARSE:
        out->coarse[at] = in->coarse[at];
        return PB_OK;
    default: /* the empty bay's draw stands for all key times */
        for (int t = 0; t < (p->fill == PB_COMPARE_EMPTY ? to->setup.year_count : 1); t++) {
            out->draws[at + t] = in->draws[at + t];
        }
        return PB_OK;
    }
}

PbStatus pb_compare_take_over(PbCompare *to, const PbCompare *from)
{
    assert(to != NULL && from != NULL);
    Same same = same_of(to, from);
    for (int n = 0; n < to->piece_count; n++) {
        const PbComparePiece *p = &to->piece[n];
        int m = compare_number(from, p->kind, p->fill, p->index);
        if (to->is_done[n] || m < 0 || !from->is_done[m] || !holds(&same, p)) {
            continue;
        }
        PB_TRY(copy_piece(to, from, p));
        to->is_done[n] = 1;
    }
    return PB_OK;
}
