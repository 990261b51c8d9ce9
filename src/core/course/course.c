/* The ladder, the three sentences after a run, and bays that are to be left alone. The hints are in
 * coach.c. */
#include "core/course.h"

static const double LEAVE_KG = 0.02; /* what drifts in while the hose is tried */
enum { LEAVE_STOPS = 3 };
static const double LEAVE_CAP = 40.0;
static const double WORTH_POINTS = 0.5; /* less than this lost is not worth a sentence */

PbCourseItem pb_course_item(const PbExercise *exercise, double best_score)
{
    PbCourseItem item = {(int)exercise->level, (int)exercise->order, exercise->pass_score,
                         best_score};
    return item;
}

static int is_passed(const PbCourseItem *item)
{
    return item->best_score >= 0.0 && item->best_score >= item->pass_score;
}

static int is_level_done(const PbCourseItem *items, int count, int level)
{
    int all = 0, passed = 0;
    for (int i = 0; i < count; i++) {
        if (items[i].level == level) {
            all++;
            passed += is_passed(&items[i]);
        }
    }
    return passed >= (all < PB_COURSE_NEEDED ? all : PB_COURSE_NEEDED);
}

int pb_course_unlock(const PbCourseItem *items, int count, unsigned char *is_open)
{
    int open = 0;
    for (int i = 0; i < count; i++) {
        is_open[i] = 1;
        for (int k = 0; k < count && is_open[i]; k++) {
            int lower = items[k].level;
            if (lower > 0 && lower < items[i].level && !is_level_done(items, count, lower)) {
                is_open[i] = 0;
            }
        }
        open += is_open[i];
    }
    return open;
}

static int is_before(const PbCourseItem *a, const PbCourseItem *b)
{
    return a->level != b->level ? a->level < b->level : a->order < b->order;
}

/* The lowest rung not passed is the next one; when all of an open level are passed the rule of
 * unlocking has opened the level above. */
int pb_course_next(const PbCourseItem *items, int count)
{
    int next = -1;
    for (int i = 0; i < count; i++) {
        if (items[i].level > 0 && !is_passed(&items[i]) &&
            (next < 0 || is_before(&items[i], &items[next]))) {
            next = i;
        }
    }
    return next;
}

int pb_course_sight(const PbExercise *exercise)
{
    return (int)exercise->level == 1 ? 1 : 2;
}

static PbAdvice advice_for(PbScoreFault fault)
{
    switch (fault) {
    case PB_FAULT_SOFT_PATCHES:
    case PB_FAULT_WEAK_PLACE:
    case PB_FAULT_TOO_LITTLE:
    case PB_FAULT_TOP_GAP:
    case PB_FAULT_LATE_VOID:
        return PB_ADVICE_MORE_MATERIAL;
    case PB_FAULT_PANEL_LOAD:
    case PB_FAULT_BLOW_OUT:
        return PB_ADVICE_LESS_BLOWER;
    case PB_FAULT_TOO_MUCH:
    case PB_FAULT_LOST_FILL:
        return PB_ADVICE_COUNT_BAGS;
    case PB_FAULT_LONG_STEP:
        return PB_ADVICE_SHORTER_STEPS;
    case PB_FAULT_LEFT_EARLY:
        return PB_ADVICE_WAIT;
    case PB_FAULT_STAYED_LONG:
        return PB_ADVICE_MOVE_SOONER;
    case PB_FAULT_MISSED:
        return PB_ADVICE_REACH_ENDS;
    case PB_FAULT_WEAK_AIR:
        return PB_ADVICE_MORE_AIR;
    case PB_FAULT_PLUG:
    case PB_FAULT_RICH_FEED:
        return PB_ADVICE_LESS_FEED;
    case PB_FAULT_FED_OUTSIDE:
        return PB_ADVICE_GATE_FIRST;
    case PB_FAULT_NOTHING_DONE:
        return PB_ADVICE_BEGIN;
    case PB_FAULT_CHECKS:
    case PB_FAULT_POWER_ON:
        return PB_ADVICE_SAFETY;
    default:
        return PB_ADVICE_KEEP;
    }
}

/* Soft places have a cause in the hands when the hands lost points too: that is what to try. */
static PbAdvice choose(const PbScore *score, int worst)
{
    if (worst < 0) {
        return PB_ADVICE_KEEP;
    }
    PbAdvice next = advice_for(score->parts[worst].fault);
    if (next != PB_ADVICE_MORE_MATERIAL) {
        return next;
    }
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        const PbScorePart *p = &score->parts[i];
        if (p->kind == PB_SCORE_HANDS && p->max - p->points > WORTH_POINTS) {
            return advice_for(p->fault);
        }
    }
    return next;
}

PbDebrief pb_debrief(const PbScore *score)
{
    PbDebrief d = {0, -1, PB_ADVICE_KEEP};
    double best_share = -1.0, best_max = 0.0, most_lost = WORTH_POINTS;
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        const PbScorePart *p = &score->parts[i];
        if (p->max <= 0.0) {
            continue;
        }
        double share = p->points / p->max, lost = p->max - p->points;
        if (share > best_share || (share == best_share && p->max > best_max)) {
            best_share = share;
            best_max = p->max;
            d.best = i;
        }
        if (lost > most_lost) {
            most_lost = lost;
            d.worst = i;
        }
    }
    for (int i = 0; i < PB_SCORE_PARTS; i++) { /* a broken face stands before all else */
        if (score->parts[i].kind == PB_SCORE_NO_HARM &&
            score->parts[i].fault == PB_FAULT_BLOW_OUT) {
            d.worst = i;
        }
    }
    d.next = choose(score, d.worst);
    return d;
}

PbLeaveVerdict pb_leave_judge(const PbScoreInput *in)
{
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
    if (verdict->applies) {
        score->total = verdict->total;
        score->is_pass = verdict->was_left;
    }
}
