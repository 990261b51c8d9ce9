/* What a bay must show to pass, whatever its points: core/score.h. Each shut gate says where and
 * when, from the loss that explains it. */
#include "core/marks.h"

#include "score_private.h"

#include <math.h>

static const double SETTLES_KG_M3 = 48.0; /* a target under it is no dense pack: core/score.h */
static const double LAST_BIT = 1e-9;      /* that a sum of whole points may have lost */

static void shut(PbGate *gate, PbScoreFault fault, double y0_m, double y1_m, double time_s)
{
    gate->is_shut = 1;
    gate->fault = fault;
    gate->y0_m = y0_m;
    gate->y1_m = y1_m;
    gate->time_s = time_s;
}

static void gate_face(const PbScoreInput *in, PbScore *s)
{
    const PbScoreWatch *w = in->watch;
    PbGate *face = &s->gates[PB_GATE_FACE], *load = &s->gates[PB_GATE_LOAD];
    face->value = in->result->blow_out ? w->peak_load : 0.0;
    load->value = w->peak_load;
    load->limit = in->rubric->panel_zero;
    if (in->result->blow_out) {
        shut(face, PB_FAULT_BLOW_OUT, w->peak_y_m, w->peak_y_m, w->peak_time_s);
    }
    if (w->peak_load >= load->limit) {
        shut(load, PB_FAULT_PANEL_LOAD, w->peak_y_m, w->peak_y_m, w->peak_time_s);
    }
}

static void gate_checks(const PbScoreInput *in, PbScore *s)
{
    PbGate *gate = &s->gates[PB_GATE_CHECKS];
    for (int i = 0; i < in->watch->event_count; i++) {
        const PbEvent *e = &in->watch->events[i];
        if (e->kind != PB_EVENT_SAFETY) {
            continue;
        }
        int skipped = pb_mark_checks_skipped(e->value);
        if (!gate->is_shut) {
            shut(gate, skipped > 0 ? PB_FAULT_CHECKS : PB_FAULT_POWER_ON, e->y_m, e->y_m,
                 e->tick * PB_TICK_S);
        }
        gate->value = fmax(gate->value, skipped > 0 ? skipped : 1.0);
    }
}

/* When the nearest stop to this height was left. */
static double when_at(const PbScoreInput *in, double y0_m, double y1_m)
{
    return pb_lift_left_s(in, pb_nearest_lift(in, 0.5 * (y0_m + y1_m)));
}

static void gate_fill(const PbScoreInput *in, PbScore *s)
{
    const PbExercise *e = in->exercise;
    PbSlice softest = pb_softest_slice(in);
    PbGate *mean = &s->gates[PB_GATE_MEAN], *slice = &s->gates[PB_GATE_SLICE];
    PbGate *empty = &s->gates[PB_GATE_VOID];
    mean->value = in->result->mean_kg_m3;
    mean->limit = e->target_kg_m3;
    slice->value = fmax(softest.density_kg_m3, 0.0);
    slice->limit = in->rubric->slice_min_kg_m3;
    if (e->target_kg_m3 < SETTLES_KG_M3) { /* a weak face: the exercise settles for less */
        slice->limit = fmin(slice->limit, e->target_kg_m3);
    }
    empty->value = in->result->void_area_m2;
    empty->limit = in->rubric->void_max_m2;
    if (mean->value < mean->limit) {
        shut(mean, PB_FAULT_LOW_MEAN, 0.0, e->height_m, in->result->duration_s);
    }
    if (slice->value < slice->limit) {
        shut(slice, PB_FAULT_SOFT_SLICE, softest.y0_m, softest.y1_m,
             when_at(in, softest.y0_m, softest.y1_m));
    }
    if (empty->value > empty->limit) {
        shut(empty, PB_FAULT_VOID, softest.y0_m, softest.y1_m,
             when_at(in, softest.y0_m, softest.y1_m));
    }
}

/* Fill in a box, or in the room behind it, is a fault of its own however good the bay is. */
static void gate_lost(const PbScoreInput *in, PbScore *s)
{
    PbGate *lost = &s->gates[PB_GATE_LOST];
    lost->value = in->result->ledger.lost_openings_kg;
    lost->limit = in->exercise->lost_max_kg;
    if (lost->limit > 0.0 && lost->value > lost->limit) {
        shut(lost, PB_FAULT_OPENINGS, 0.0, in->exercise->height_m, in->result->duration_s);
    }
}

void pb_gate(const PbScoreInput *in, PbScore *s)
{
    gate_face(in, s);
    gate_checks(in, s);
    gate_fill(in, s);
    gate_lost(in, s);
    PbGate *mark = &s->gates[PB_GATE_MARK];
    mark->value = floor(s->total + LAST_BIT); /* points are whole, as they are shown */
    mark->limit = s->pass_score;
    if (mark->value < s->pass_score) {
        shut(mark, PB_FAULT_LOW_MARK, 0.0, in->exercise->height_m, in->result->duration_s);
    }
    const PbGate *g = s->gates;
    int is_harm = g[PB_GATE_LOAD].is_shut || g[PB_GATE_CHECKS].is_shut ||
                  (g[PB_GATE_FACE].is_shut && !in->watch->is_weak_sheet);
    s->verdict = is_harm ? PB_VERDICT_FAIL : PB_VERDICT_PASS;
    for (int i = 0; i < PB_GATES && !is_harm; i++) {
        s->verdict = g[i].is_shut ? PB_VERDICT_REDO : s->verdict;
    }
    s->is_pass = s->verdict == PB_VERDICT_PASS;
}
