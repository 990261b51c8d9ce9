/* What figures say: a state and how a fill stands beside another, chosen by the figures alone. */
#include "compare/compare_private.h"

#include "core/pb_math.h"

#include <assert.h>
#include <math.h>

static const double gap_seen_m = 0.010; /* a finger's breadth */
static const double foam_gap_seen_m = 0.001;
static const double wet_seen = 0.05;                /* of the water injected */
static const double same_log = 0.09531017980432493; /* ln 1.1 */

PbCompareFill pb_compare_other(PbCompareFill fill)
{
    return fill == PB_COMPARE_EMPTY   ? PB_COMPARE_EMPTY
           : fill == PB_COMPARE_DENSE ? PB_COMPARE_FOAM
                                      : PB_COMPARE_DENSE;
}

/* 0 no gap in any draw, 1 in some, 2 in all. */
static int gap_rank(const PbCompareFigures *f)
{
    return f->top_gap_m.low > gap_seen_m ? 2 : f->top_gap_m.high > gap_seen_m ? 1 : 0;
}

static PbCompareSays says_of(PbCompareFill fill, const PbCompareFigures *f)
{
    static const PbCompareSays loose[] = {PB_SAYS_LOOSE_FULL, PB_SAYS_LOOSE_MAY, PB_SAYS_LOOSE_GAP};
    static const PbCompareSays dense[] = {PB_SAYS_DENSE_FULL, PB_SAYS_DENSE_MAY, PB_SAYS_DENSE_GAP};
    static const PbCompareSays alone[] = {PB_SAYS_EMPTY, PB_SAYS_LOOSE, PB_SAYS_FOAM,
                                          PB_SAYS_DENSE};
    if (!f->has_fill || !f->has_heat) {
        return PB_SAYS_NOTHING_YET;
    }
    if (fill == PB_COMPARE_DENSE && f->is_blown_out) {
        return PB_SAYS_DENSE_BLOWN_OUT;
    }
    if (f->draws < PB_COMPARE_ENOUGH_DRAWS) {
        return f->has_content ? PB_SAYS_NOW : alone[fill];
    }
    if (fill == PB_COMPARE_EMPTY) {
        return f->has_content ? PB_SAYS_NOW_HEAT
               : f->has_loop  ? PB_SAYS_EMPTY_LOOP
                              : PB_SAYS_EMPTY_STILL;
    }
    if (fill == PB_COMPARE_LOOSE) {
        int rank = gap_rank(f);
        return !f->has_voids ? loose[rank] : rank < 2 ? PB_SAYS_LOOSE_HOLLOW : PB_SAYS_LOOSE_VOIDS;
    }
    if (fill == PB_COMPARE_FOAM) {
        double widest = fmax(f->stud_gap_m, fmax(f->face_gap_m, f->top_gap_m.mid));
        return f->water_frac > wet_seen   ? PB_SAYS_FOAM_WET
               : f->has_loop              ? PB_SAYS_FOAM_LOOP
               : widest > foam_gap_seen_m ? PB_SAYS_FOAM_GAPS
                                          : PB_SAYS_FOAM_TIGHT;
    }
    return f->has_voids ? PB_SAYS_DENSE_VOIDS : dense[gap_rank(f)];
}

/* 10 % point of `count` values counted from the low end; sorts them. */
static double low_end(double *values, int count, double mid)
{
    return count < 1 ? mid : pb_min(mid, pb_spread_band(values, (size_t)count).p10);
}

PbHeatRange pb_compare_against(const double *own_r, const double *other_r, int count,
                               double own_mid, double other_mid)
{
    double up[PB_COMPARE_MAX_DRAWS], down[PB_COMPARE_MAX_DRAWS];
    double mid = pb_log(other_mid) - pb_log(own_mid);
    for (int d = 0; d < count; d++) {
        up[d] = pb_log(other_r[d]) - pb_log(own_r[d]);
        down[d] = -up[d];
    }
    /* Both ends by the same rule, the upper one on the values turned over: nothing rounds one way
     * for one fill and the other way for its partner. */
    return (PbHeatRange){low_end(up, count, mid), mid, -low_end(down, count, -mid)};
}

static PbCompareBeside beside_of(PbCompareFill fill, const PbCompareFigures *f)
{
    const PbHeatRange *log = &f->against_log;
    if (!f->has_heat) {
        return PB_BESIDE_NONE;
    }
    if (f->pairs < PB_COMPARE_ENOUGH_DRAWS) {
        return PB_BESIDE_WAITS;
    }
    if (fill == PB_COMPARE_EMPTY) {
        return PB_BESIDE_NONE;
    }
    if (log->low >= -same_log && log->high <= same_log) {
        return PB_BESIDE_SAME;
    }
    return log->low > 0.0 ? PB_BESIDE_MORE : log->high < 0.0 ? PB_BESIDE_LESS : PB_BESIDE_UNCLEAR;
}

PbCompareSaying pb_compare_say_of(PbCompareFill fill, const PbCompareFigures *figures)
{
    assert(figures != NULL);
    assert((unsigned)fill < PB_COMPARE_FILLS);
    PbCompareSaying s = {says_of(fill, figures), PB_BESIDE_NONE, pb_compare_other(fill), *figures};
    if (s.says != PB_SAYS_NOTHING_YET) {
        s.beside = beside_of(fill, figures);
    }
    return s;
}

PbCompareSaying pb_compare_say(const PbCompare *c, PbCompareFill fill, int t)
{
    assert(c != NULL);
    assert((unsigned)fill < PB_COMPARE_FILLS);
    assert(t >= 0 && t < c->setup.year_count);
    PbCompareFigures figures;
    pb_compare_figures(c, fill, t, &figures);
    return pb_compare_say_of(fill, &figures);
}
