/* The ladder, and the three sentences after a run. The hints are in coach.c. */
#include "core/course.h"

static const double END_M = 0.25;       /* under a plate */
static const double WORTH_POINTS = 3.0; /* of a bay that passed: less is not worth a sentence */

PbCourseItem pb_course_item(const PbExercise *exercise, int is_passed)
{
    int waits = exercise->waits_for[0] != '\0';
    return (PbCourseItem){waits ? 0 : (int)exercise->level, (int)exercise->order, is_passed};
}

static int is_level_done(const PbCourseItem *items, int count, int level)
{
    int all = 0, passed = 0;
    for (int i = 0; i < count; i++) {
        if (items[i].level == level) {
            all++;
            passed += items[i].is_passed;
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
        if (items[i].level > 0 && !items[i].is_passed &&
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

static PbAdvice advice_for(PbScoreFault fault, int is_more_air_safe)
{
    switch (fault) {
    case PB_FAULT_SOFT_PATCHES:
    case PB_FAULT_WEAK_PLACE:
    case PB_FAULT_TOO_LITTLE:
    case PB_FAULT_TOP_GAP:
    case PB_FAULT_LATE_VOID:
    case PB_FAULT_LOW_MEAN:
    case PB_FAULT_SOFT_SLICE:
    case PB_FAULT_VOID:
    case PB_FAULT_LOW_MARK:
        return PB_ADVICE_MORE_MATERIAL;
    case PB_FAULT_PANEL_LOAD:
    case PB_FAULT_BLOW_OUT:
        return PB_ADVICE_LESS_BLOWER;
    case PB_FAULT_TOO_MUCH:
    case PB_FAULT_LOST_FILL:
        return PB_ADVICE_COUNT_BAGS;
    case PB_FAULT_OPENINGS:
        return PB_ADVICE_SEAL;
    case PB_FAULT_LONG_STEP:
        return PB_ADVICE_SHORTER_STEPS;
    case PB_FAULT_LEFT_EARLY:
        return PB_ADVICE_WAIT;
    case PB_FAULT_STAYED_LONG:
    case PB_FAULT_SLOW:
    case PB_FAULT_OVER_DENSE:
        return PB_ADVICE_MOVE_SOONER;
    case PB_FAULT_MISSED:
        return PB_ADVICE_REACH_ENDS;
    case PB_FAULT_WEAK_AIR:
        return is_more_air_safe ? PB_ADVICE_MORE_AIR : PB_ADVICE_WEAK_FACE;
    case PB_FAULT_WEAK_MACHINE:
        return PB_ADVICE_MEND_MACHINE;
    case PB_FAULT_BEHIND_WOOD:
        return PB_ADVICE_OWN_HOLE;
    case PB_FAULT_PLUG:
    case PB_FAULT_RICH_FEED:
        return PB_ADVICE_LESS_FEED;
    case PB_FAULT_FED_OUTSIDE:
        return PB_ADVICE_GATE_FIRST;
    case PB_FAULT_NOTHING_DONE:
        return PB_ADVICE_BEGIN;
    case PB_FAULT_SHORT_TUBE:
        return PB_ADVICE_LONGER_TUBE;
    case PB_FAULT_CHECKS:
        return PB_ADVICE_SAFETY;
    case PB_FAULT_POWER_ON:
        return PB_ADVICE_POWER_OFF;
    default:
        return PB_ADVICE_KEEP;
    }
}

/* The dearest loss of a part that says something of the part itself: that technique counts only as
 * far as the wall is good is told by the wall. */
static const PbLoss *own_loss(const PbScore *s, int part)
{
    const PbLoss *best = NULL;
    for (int i = 0; i < s->loss_count; i++) {
        const PbLoss *l = &s->losses[i];
        if ((int)l->part == part && l->cause != PB_FAULT_HELD &&
            (best == NULL || l->points > best->points)) {
            best = l;
        }
    }
    return best;
}

static double own_points(const PbScore *s, int part)
{
    double sum = 0.0;
    for (int i = 0; i < s->loss_count; i++) {
        const PbLoss *l = &s->losses[i];
        sum += (int)l->part == part && l->cause != PB_FAULT_HELD ? l->points : 0.0;
    }
    return sum;
}

/* The part that a shut gate is about, harm first; -1 = all are open. */
static int gate_part(const PbScore *s)
{
    static const int part_of[PB_GATES] = {
        [PB_GATE_FACE] = PB_SCORE_NO_HARM,   [PB_GATE_LOAD] = PB_SCORE_NO_HARM,
        [PB_GATE_CHECKS] = PB_SCORE_NO_HARM, [PB_GATE_MEAN] = PB_SCORE_ON_TARGET,
        [PB_GATE_SLICE] = PB_SCORE_WEAKEST,  [PB_GATE_VOID] = PB_SCORE_WEAKEST,
        [PB_GATE_LOST] = PB_SCORE_MATERIAL,  [PB_GATE_MARK] = PB_SCORE_ON_TARGET};
    for (int i = 0; i < PB_GATES; i++) {
        if (s->gates[i].is_shut) {
            return part_of[i];
        }
    }
    return -1;
}

static int dearest_part(const PbScore *s)
{
    double most = WORTH_POINTS;
    int worst = -1;
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        double lost = own_points(s, i);
        if (lost > most) {
            most = lost;
            worst = i;
        }
    }
    return worst;
}

/* Soft places that the record explains by nothing: a short stop under a plate, or the hands' own
 * losses, or just more stops. */
static PbAdvice for_soft(const PbScore *s, const PbLoss *loss)
{
    const PbLoss *hands = own_loss(s, PB_SCORE_HANDS);
    if (hands != NULL && hands->points > 0.5) {
        return advice_for(hands->cause, s->is_more_air_safe);
    }
    if (loss != NULL && (loss->y0_m < END_M || loss->y1_m > s->height_m - END_M)) {
        return PB_ADVICE_END_LONGER;
    }
    return PB_ADVICE_MORE_MATERIAL;
}

static PbAdvice choose(const PbScore *s, int worst)
{
    const PbLoss *loss = worst >= 0 ? own_loss(s, worst) : NULL;
    if (s->gates[PB_GATE_LOST].is_shut && s->verdict == PB_VERDICT_REDO) {
        return advice_for(PB_FAULT_OPENINGS, s->is_more_air_safe); /* it may have cost no point */
    }
    if (worst < 0 || loss == NULL) {
        return PB_ADVICE_KEEP;
    }
    for (int i = 0; i <= PB_GATE_CHECKS; i++) { /* harm says its own cause */
        if (s->gates[i].is_shut) {
            return advice_for(s->gates[i].fault, s->is_more_air_safe);
        }
    }
    PbAdvice next = advice_for(loss->cause, s->is_more_air_safe);
    return next == PB_ADVICE_MORE_MATERIAL ? for_soft(s, loss) : next;
}

PbDebrief pb_debrief(const PbScore *s)
{
    PbDebrief d = {0, -1, PB_ADVICE_KEEP};
    double best_share = -1.0, best_max = 0.0;
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        const PbScorePart *p = &s->parts[i];
        double share = p->max > 0.0 ? p->points / p->max : -1.0;
        if (share > best_share || (share == best_share && p->max > best_max)) {
            best_share = share;
            best_max = p->max;
            d.best = i;
        }
    }
    d.worst = gate_part(s);
    if (d.worst < 0) {
        d.worst = dearest_part(s);
    } else if (own_loss(s, d.worst) == NULL) { /* a rubric may give that part no points */
        d.worst = dearest_part(s);
    }
    d.next = choose(s, d.worst);
    return d;
}
