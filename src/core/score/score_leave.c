/* Bays that are to be left alone: marked by what was blown in, not by the rubric. */
#include "core/score.h"

#include <assert.h>
#include <string.h>

static const double LEAVE_KG = 0.02; /* what drifts in while the hose is tried */
enum { LEAVE_STOPS = 3 };
static const double LEAVE_CAP = 40.0;

/* Rigid blocks in every opening: what stood against filling it is gone. */
static int is_mended(const PbScoreInput *in)
{
    const PbExercise *e = in->exercise;
    int sealed = 0;
    for (int o = 0; o < e->opening_count; o++) {
        sealed += in->result->acts.is_sealed[o] != 0;
    }
    return pb_leave_traits(e->leave_reason)->ends_by_sealing && e->opening_count > 0 &&
           sealed == e->opening_count;
}

static int is_right(const PbLeaveVerdict *v)
{
    return v->wanted == PB_LEAVE_NONE ||
           (v->reason == v->wanted && (v->is_tested || !pb_leave_traits(v->wanted)->needs_test));
}

PbLeaveVerdict pb_leave_judge(const PbScoreInput *in)
{
    assert(in != NULL);
    const PbExercise *exercise = in->exercise;
    const PbResult *result = in->result;
    PbLeaveVerdict v = {.applies = 0};
    if (exercise->must_not_fill[0] == '\0' || is_mended(in)) {
        return v;
    }
    for (int i = 0; i < in->lift_count; i++) {
        v.stops += pb_is_stop(&in->lifts[i], in->rubric);
    }
    v.applies = 1;
    v.reason = result->acts.left;
    v.wanted = exercise->leave_reason;
    v.is_tested = result->acts.tested_pa > 0.0;
    v.blown_kg = result->mass_fed_kg;
    v.allowed_kg = exercise->leave_kg > 0.0 ? exercise->leave_kg : LEAVE_KG;
    v.is_empty = v.blown_kg <= v.allowed_kg && v.stops <= LEAVE_STOPS && !result->blow_out;
    v.is_right = is_right(&v);
    v.was_left = v.is_empty && v.is_right;
    if (v.is_empty) {
        v.total = v.is_right ? 100.0 : 0.0;
        return v;
    }
    double over = (v.blown_kg - v.allowed_kg) / (2.0 * v.allowed_kg);
    double left = over < 1.0 ? 1.0 - over : 0.0;
    v.total = LEAVE_CAP * (left < 1.0 ? left : 1.0);
    return v;
}

void pb_leave_apply(const PbLeaveVerdict *verdict, PbScore *score)
{
    assert(verdict != NULL && score != NULL);
    score->leave = *verdict;
    if (verdict->applies) {
        score->total = verdict->total;
        score->is_pass = verdict->was_left;
        score->verdict = verdict->was_left   ? PB_VERDICT_PASS
                         : verdict->is_empty ? PB_VERDICT_REDO
                                             : PB_VERDICT_FAIL;
        memset(score->gates, 0, sizeof score->gates);
    }
}
