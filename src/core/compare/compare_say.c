/* What figures say: a state and how a fill stands beside another, chosen by the figures alone. */
#include "compare/compare_private.h"

#include <math.h>

static const double gap_seen_m = 0.010; /* a finger's breadth */
static const double foam_gap_seen_m = 0.001;
static const double same_share = 0.10;

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
    if (!f->has_fill || !f->has_heat) {
        return PB_SAYS_NOTHING_YET;
    }
    if (fill == PB_COMPARE_EMPTY) {
        return f->has_loop ? PB_SAYS_EMPTY_LOOP : PB_SAYS_EMPTY_STILL;
    }
    if (fill == PB_COMPARE_LOOSE) {
        int rank = gap_rank(f);
        return rank < 2 && f->has_voids ? PB_SAYS_LOOSE_HOLLOW : loose[rank];
    }
    if (fill == PB_COMPARE_FOAM) {
        double widest = fmax(f->stud_gap_m, fmax(f->face_gap_m, f->top_gap_m.mid));
        return f->has_loop                ? PB_SAYS_FOAM_LOOP
               : widest > foam_gap_seen_m ? PB_SAYS_FOAM_GAPS
                                          : PB_SAYS_FOAM_TIGHT;
    }
    if (f->is_blown_out) {
        return PB_SAYS_DENSE_BLOWN_OUT;
    }
    return f->has_voids ? PB_SAYS_DENSE_VOIDS : dense[gap_rank(f)];
}

static PbCompareBeside beside_of(const PbCompareFigures *own, const PbCompareFigures *other)
{
    if (!own->has_heat || !other->has_heat) {
        return PB_BESIDE_NONE;
    }
    int overlap =
        own->r_m2k_w.low <= other->r_m2k_w.high && other->r_m2k_w.low <= own->r_m2k_w.high;
    double part = fabs(own->r_m2k_w.mid / other->r_m2k_w.mid - 1.0);
    if (overlap) {
        return part <= same_share ? PB_BESIDE_SAME : PB_BESIDE_OVERLAP;
    }
    return own->r_m2k_w.mid < other->r_m2k_w.mid ? PB_BESIDE_MORE : PB_BESIDE_LESS;
}

PbCompareSaying pb_compare_say_of(PbCompareFill fill, const PbCompareFigures *own,
                                  const PbCompareFigures *other)
{
    PbCompareSaying s = {says_of(fill, own), PB_BESIDE_NONE, pb_compare_other(fill), *own};
    if (fill != PB_COMPARE_EMPTY && s.says != PB_SAYS_NOTHING_YET) {
        s.beside = beside_of(own, other);
    }
    return s;
}

PbCompareSaying pb_compare_say(const PbCompare *c, PbCompareFill fill, int t)
{
    PbCompareFigures own, other;
    pb_compare_figures(c, fill, t, &own);
    pb_compare_figures(c, pb_compare_other(fill), t, &other);
    return pb_compare_say_of(fill, &own, &other);
}
