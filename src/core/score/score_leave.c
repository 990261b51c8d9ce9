/* Bays that are to be left alone: marked by what was blown in, not by the rubric. */
#include "core/score.h"

#include <assert.h>
#include <string.h>

static const double LEAVE_KG = 0.02; /* what drifts in while the hose is tried */
enum { LEAVE_STOPS = 3 };
static const double LEAVE_CAP = 40.0;

PbLeaveVerdict pb_leave_judge(const PbScoreInput *in)
{
    assert(in != NULL);
    const PbExercise *exercise = in->exercise;
    const PbResult *result = in->result;
    PbLeaveVerdict v = {0, 0, 0, 0.0, 0.0, 0.0};
    if (exercise->must_not_fill[0] == '\0') {
        return v;
    }
    for (int i = 0; i < in->lift_count; i++) {
        v.stops += pb_is_stop(&in->lifts[i], in->rubric);
    }
    v.applies = 1;
    v.blown_kg = result->mass_fed_kg;
    v.allowed_kg = exercise->leave_kg > 0.0 ? exercise->leave_kg : LEAVE_KG;
    v.was_left = v.blown_kg <= v.allowed_kg && v.stops <= LEAVE_STOPS && !result->blow_out;
    if (v.was_left) {
        v.total = 100.0;
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
    if (verdict->applies) {
        score->total = verdict->total;
        score->is_pass = verdict->was_left;
        score->verdict = verdict->was_left ? PB_VERDICT_PASS : PB_VERDICT_FAIL;
        memset(score->gates, 0, sizeof score->gates);
    }
}
