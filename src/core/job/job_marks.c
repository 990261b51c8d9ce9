/*
 * Marks of a job: what became of each bay, the gates, then the points. Each part takes away losses
 * from its maximum, so that points and losses always add up. Next: core/job_marks.h for the rules.
 */
#include "core/job_marks.h"

#include "core/pb_math.h"

#include <assert.h>
#include <math.h>
#include <string.h>

static const double weights[PB_JOB_PARTS] = {25.0, 30.0, 10.0, 10.0, 5.0, 5.0, 10.0, 5.0};
static const double FREE = 0.15, ZERO = 0.30; /* of bags */
static const double LUMBER_POINTS = 2.0, NEEDLESS_POINTS = 1.0;
static const double TIME_FREE = 1.25, TIME_ZERO = 2.5; /* of the usual minutes */
static const double BAY_MIN = 9.3;   /* find, drill, fill, plug, patch: sum of the acts' minutes */
static const double BLOWN_KG = 0.02; /* what drifts in while the hose is tried */

typedef struct Marking {
    const PbJob *job;
    const PbFramedBay *list;
    PbJobMarks *m;
    double end_min, done_share;
} Marking;

#define WORDS(...)                                                                                 \
    static const char *const words[] = {__VA_ARGS__};                                              \
    return words[at]

const char *pb_job_part_word(PbJobPartKind at)
{
    WORDS("found", "target", "left", "holes", "bags", "clean", "proved", "minutes");
}

const char *pb_job_gate_word(PbJobGateKind at)
{
    WORDS("leave", "wire", "face", "safety", "missed");
}

const char *pb_job_fault_word(PbJobFault at)
{
    WORDS("none", "filled", "wire", "face", "no-check", "no-test", "missed", "empty", "soft",
          "not-left", "wrong-reason", "left-fillable", "on-lumber", "needless", "no-estimate",
          "estimate-off", "bags-off", "no-protect", "not-plugged", "not-patched", "not-cleaned",
          "no-camera", "no-core", "no-finger", "not-written", "slow", "held");
}

const char *pb_job_bay_word(PbJobBayKind at)
{
    WORDS("filled", "small", "left", "unsaid", "wrongly", "passed", "missed", "narrow");
}

static PbJobLoss *lose(Marking *k, int part, PbJobFault fault, double points, double value)
{
    static const PbJobLoss none;
    PbJobMarks *m = k->m;
    const PbFraming *f = pb_job_framing(k->job);
    if (m->loss_count == PB_JOB_LOSSES) { /* the last one stands for the rest */
        m->losses[PB_JOB_LOSSES - 1].points += points;
        return &m->losses[PB_JOB_LOSSES - 1];
    }
    PbJobLoss *l = &m->losses[m->loss_count++];
    *l = none;
    l->part = part;
    l->fault = fault;
    l->points = points;
    l->value = value;
    l->bay = -1;
    l->x_m = 0.5 * f->length_m;
    l->y_m = 0.5 * f->height_m;
    l->minute = k->end_min;
    return l;
}

static void at_bay(const Marking *k, PbJobLoss *l, int bay)
{
    const PbRect *r = &k->list[bay].around;
    l->bay = bay;
    l->x_m = 0.5 * (r->x0_m + r->x1_m);
    l->y_m = 0.5 * (r->y0_m + r->y1_m);
}

static void shut(Marking *k, PbJobGateKind gate, PbJobFault fault, double value, int bay, int act)
{
    PbJobLoss *l = lose(k, -1 - (int)gate, fault, 0.0, value);
    k->m->is_shut[gate] = 1;
    if (bay >= 0) {
        at_bay(k, l, bay);
    }
    if (act >= 0) {
        l->minute = pb_job_minute(k->job, act);
    }
}

/* What of a filled bay holds fill, m2. */
static double held_m2(const PbFramedBay *b, const PbJobFill *fill)
{
    if (fill->is_small) {
        return b->area_m2;
    }
    return fill->result.mass_in_bay_kg < BLOWN_KG
               ? 0.0
               : pb_max(0.0, b->area_m2 - fill->result.void_area_m2);
}

static PbJobBayKind kind_of(const Marking *k, int n, const PbJobFill *fill, PbLeaveReason left)
{
    const PbFramedBay *b = &k->list[n];
    if (pb_job_is_to_leave(k->job, n)) {
        if (fill != NULL && fill->result.mass_fed_kg > BLOWN_KG) {
            return PB_JOB_BAY_WRONGLY;
        }
        int is_right = b->reason == PB_LEAVE_NONE ? left != PB_LEAVE_NONE : left == b->reason;
        return is_right ? PB_JOB_BAY_LEFT : PB_JOB_BAY_UNSAID;
    }
    if (fill != NULL) {
        return fill->is_small ? PB_JOB_BAY_SMALL : PB_JOB_BAY_FILLED;
    }
    return b->is_narrow            ? PB_JOB_BAY_NARROW
           : left != PB_LEAVE_NONE ? PB_JOB_BAY_PASSED
                                   : PB_JOB_BAY_MISSED;
}

static void look_at_bay(Marking *k, int n)
{
    const PbFramedBay *b = &k->list[n];
    const PbJobFill *fill = pb_job_fill_of(k->job, n);
    PbJobBay *bay = &k->m->bays[n];
    bay->left = pb_job_left(k->job, n, NULL);
    bay->kind = kind_of(k, n, fill, bay->left);
    bay->area_m2 = b->area_m2;
    bay->mean_kg_m3 = -1.0;
    if (fill != NULL) {
        bay->kg = fill->result.mass_in_bay_kg;
        bay->holes = fill->hole_count;
        bay->filled_m2 = held_m2(b, fill);
        if (!fill->is_small) {
            bay->mean_kg_m3 = fill->result.mean_kg_m3;
            bay->share = fill->score.wall_share;
        }
    }
    if (!pb_job_is_to_leave(k->job, n) && bay->kind != PB_JOB_BAY_NARROW) {
        k->m->fillable_m2 += bay->area_m2;
        k->m->filled_m2 += bay->filled_m2;
        k->m->wanted_bags += b->fill_m3 * pb_job_framing(k->job)->like.target_kg_m3 /
                             pb_job_framing(k->job)->like.bag_kg;
    }
}

static int first_act(const PbJob *job, PbJobActKind kind)
{
    int count;
    const PbJobDone *d = pb_job_done(job, &count);
    for (int i = 0; i < count; i++) {
        if (d[i].act.kind == kind) {
            return i;
        }
    }
    return -1;
}

static int first_drill(const PbJob *job)
{
    int count;
    const PbJobDone *d = pb_job_done(job, &count);
    for (int i = 0; i < count; i++) {
        if (d[i].act.kind == PB_JOB_WALL && d[i].act.wall.kind == PB_CREW_DRILL) {
            return i;
        }
    }
    return -1;
}

static int is_before(int act, int other)
{
    return other < 0 || (act >= 0 && act < other);
}

static void gate_of_bay(Marking *k, int n)
{
    const PbJobBay *b = &k->m->bays[n];
    const PbJobFill *fill = pb_job_fill_of(k->job, n);
    if (b->kind == PB_JOB_BAY_WRONGLY) {
        shut(k, PB_JOB_GATE_LEAVE, PB_JOB_FAULT_FILLED, fill->result.mass_fed_kg, n, fill->act);
    }
    if (fill != NULL && fill->result.blow_out) {
        shut(k, PB_JOB_GATE_FACE, PB_JOB_FAULT_FACE, fill->result.peak_panel_over_strength, n,
             fill->act);
    }
    int is_counted = b->kind == PB_JOB_BAY_FILLED || b->kind == PB_JOB_BAY_PASSED ||
                     b->kind == PB_JOB_BAY_MISSED;
    double empty = b->area_m2 - b->filled_m2;
    if (is_counted && empty > PB_JOB_MISSED_M2) {
        k->m->missed_m2 += empty;
        shut(k, PB_JOB_GATE_MISSED, fill != NULL ? PB_JOB_FAULT_EMPTY : PB_JOB_FAULT_MISSED, empty,
             n, fill != NULL ? fill->act : -1);
    }
}

static void gates(Marking *k)
{
    const PbJob *job = k->job;
    const PbCrew *crew = pb_job_crew(job);
    int count, drill = first_drill(job), fill = first_act(job, PB_JOB_FILL);
    const PbJobDone *d = pb_job_done(job, &count);
    for (int i = 0; i < count; i++) {
        if (d[i].crew_act >= 0 && crew->done[d[i].crew_act].answer.feel == PB_FEEL_WIRE &&
            d[i].act.wall.kind == PB_CREW_DRILL) {
            shut(k, PB_JOB_GATE_WIRE, PB_JOB_FAULT_WIRE, 0.0, d[i].bay, i);
            k->m->losses[k->m->loss_count - 1].x_m = d[i].act.wall.x_m;
            k->m->losses[k->m->loss_count - 1].y_m = d[i].act.wall.y_m;
        }
    }
    if (drill >= 0 && !is_before(first_act(job, PB_JOB_CHECK), drill)) {
        shut(k, PB_JOB_GATE_SAFETY, PB_JOB_FAULT_NO_CHECK, 0.0, d[drill].bay, drill);
    }
    if (fill >= 0 && !is_before(first_act(job, PB_JOB_TEST), fill)) {
        shut(k, PB_JOB_GATE_SAFETY, PB_JOB_FAULT_NO_TEST, 0.0, d[fill].bay, fill);
    }
    for (int n = 0; n < k->m->bay_count; n++) {
        gate_of_bay(k, n);
    }
}

static int is_fillable(const PbJobBay *b)
{
    return b->kind == PB_JOB_BAY_FILLED || b->kind == PB_JOB_BAY_SMALL ||
           b->kind == PB_JOB_BAY_PASSED || b->kind == PB_JOB_BAY_MISSED;
}

static void mark_found(Marking *k)
{
    PbJobMarks *m = k->m;
    m->max[PB_JOB_PART_FOUND] = m->fillable_m2 > 0.0 ? weights[PB_JOB_PART_FOUND] : 0.0;
    for (int n = 0; n < m->bay_count; n++) {
        const PbJobBay *b = &m->bays[n];
        double empty = b->area_m2 - b->filled_m2;
        if (!is_fillable(b) || empty < 1e-9) {
            continue;
        }
        const PbJobFill *fill = pb_job_fill_of(k->job, n);
        PbJobFault fault = fill != NULL                   ? PB_JOB_FAULT_EMPTY
                           : b->kind == PB_JOB_BAY_PASSED ? PB_JOB_FAULT_LEFT_FILLABLE
                                                          : PB_JOB_FAULT_MISSED;
        PbJobLoss *l = lose(k, PB_JOB_PART_FOUND, fault,
                            weights[PB_JOB_PART_FOUND] * empty / m->fillable_m2, empty);
        at_bay(k, l, n);
        if (fill != NULL) {
            l->minute = pb_job_minute(k->job, fill->act);
        }
    }
}

static void mark_target(Marking *k)
{
    PbJobMarks *m = k->m;
    double area = 0.0, weight = weights[PB_JOB_PART_TARGET];
    for (int n = 0; n < m->bay_count; n++) {
        area += is_fillable(&m->bays[n]) && m->bays[n].kind != PB_JOB_BAY_SMALL ? m->bays[n].area_m2
                                                                                : 0.0;
    }
    m->max[PB_JOB_PART_TARGET] = area > 0.0 ? weight : 0.0;
    for (int n = 0; n < m->bay_count; n++) {
        const PbJobBay *b = &m->bays[n];
        if (!is_fillable(b) || b->kind == PB_JOB_BAY_SMALL || b->share > 1.0 - 1e-9) {
            continue;
        }
        const PbJobFill *fill = pb_job_fill_of(k->job, n);
        PbJobLoss *l =
            lose(k, PB_JOB_PART_TARGET, fill == NULL ? PB_JOB_FAULT_MISSED : PB_JOB_FAULT_SOFT,
                 weight * b->area_m2 * (1.0 - b->share) / area,
                 fill == NULL ? b->area_m2 : b->mean_kg_m3);
        at_bay(k, l, n);
        if (fill != NULL) {
            const PbScorePart *p = &fill->score.parts[PB_SCORE_ON_TARGET];
            l->cause = p->fault;
            l->y_m = p->y_m >= 0.0 ? k->list[n].around.y0_m + p->y_m : l->y_m;
            l->minute = pb_job_minute(k->job, fill->act) + pb_max(0.0, p->time_s) / 60.0;
        }
    }
}

static void mark_left(Marking *k)
{
    PbJobMarks *m = k->m;
    int to_leave = 0, right = 0;
    for (int n = 0; n < m->bay_count; n++) {
        to_leave += pb_job_is_to_leave(k->job, n);
        right += m->bays[n].kind == PB_JOB_BAY_LEFT;
    }
    k->done_share = m->fillable_m2 > 0.0 ? m->filled_m2 / m->fillable_m2
                    : to_leave > 0       ? (double)right / to_leave
                                         : 0.0;
    m->max[PB_JOB_PART_LEFT] = to_leave > 0 ? weights[PB_JOB_PART_LEFT] : 0.0;
    for (int n = 0; n < m->bay_count; n++) {
        const PbJobBay *b = &m->bays[n];
        int act = -1;
        if (b->kind != PB_JOB_BAY_UNSAID && b->kind != PB_JOB_BAY_WRONGLY) {
            continue;
        }
        PbJobFault fault = b->kind == PB_JOB_BAY_WRONGLY ? PB_JOB_FAULT_FILLED
                           : b->left != PB_LEAVE_NONE    ? PB_JOB_FAULT_WRONG_REASON
                                                         : PB_JOB_FAULT_NOT_LEFT;
        double value = fault == PB_JOB_FAULT_FILLED         ? b->kg
                       : fault == PB_JOB_FAULT_WRONG_REASON ? (double)b->left
                                                            : b->area_m2;
        PbJobLoss *l = lose(k, PB_JOB_PART_LEFT, fault,
                            weights[PB_JOB_PART_LEFT] / pb_max(1.0, to_leave), value);
        at_bay(k, l, n);
        if (pb_job_left(k->job, n, &act) != PB_LEAVE_NONE) {
            l->minute = pb_job_minute(k->job, act);
        }
    }
}

/* Does a fill use this hole of the crew? */
static int serves(const PbJob *job, int hole)
{
    for (int i = 0; i < pb_job_fill_count(job); i++) {
        const PbJobFill *fill = pb_job_fill(job, i);
        for (int h = 0; h < fill->hole_count; h++) {
            if (fill->holes[h] == hole) {
                return 1;
            }
        }
    }
    return 0;
}

static void mark_holes(Marking *k)
{
    const PbCrew *crew = pb_job_crew(k->job);
    int count;
    const PbJobDone *d = pb_job_done(k->job, &count);
    for (int h = 0; h < crew->hole_count; h++) {
        const PbCrewHole *hole = &crew->holes[h];
        int is_clear = hole->met == PB_FEEL_NOTHING;
        if (is_clear && serves(k->job, h)) {
            continue;
        }
        PbJobLoss *l =
            lose(k, PB_JOB_PART_HOLES, is_clear ? PB_JOB_FAULT_NEEDLESS : PB_JOB_FAULT_ON_LUMBER,
                 is_clear ? NEEDLESS_POINTS : LUMBER_POINTS, (double)hole->met);
        l->bay = pb_bays_at(pb_job_bays(k->job), hole->x_m, hole->y_m);
        l->x_m = hole->x_m;
        l->y_m = hole->y_m;
        for (int i = 0; i < count; i++) {
            l->minute = d[i].crew_act == hole->act ? pb_job_minute(k->job, i) : l->minute;
        }
    }
}

static double off_share(double ratio)
{
    double off = fabs(ratio - 1.0);
    return pb_max(0.0, pb_min(1.0, (off - FREE) / (ZERO - FREE)));
}

static void mark_bags(Marking *k)
{
    PbJobMarks *m = k->m;
    double half = 0.5 * weights[PB_JOB_PART_BAGS], kg = 0.0;
    int act = first_act(k->job, PB_JOB_ESTIMATE), count, fills = pb_job_fill_count(k->job);
    const PbJobDone *d = pb_job_done(k->job, &count);
    for (int i = 0; i < fills; i++) {
        const PbResult *r = &pb_job_fill(k->job, i)->result;
        kg += r->mass_fed_kg - r->ledger.in_hose_kg; /* goes into the next bay, or back */
    }
    m->used_bags = kg / pb_job_framing(k->job)->like.bag_kg;
    m->estimate_bags = act >= 0 ? d[act].act.bags : -1.0;
    m->max[PB_JOB_PART_BAGS] = m->fillable_m2 > 0.0 ? weights[PB_JOB_PART_BAGS] : 0.0;
    if (m->fillable_m2 <= 0.0) {
        return;
    }
    if (act < 0 || !is_before(act, first_act(k->job, PB_JOB_FILL))) {
        (void)lose(k, PB_JOB_PART_BAGS, PB_JOB_FAULT_NO_ESTIMATE, 2.0 * half, 0.0);
        return;
    }
    double estimate = m->estimate_bags / m->wanted_bags;
    double used = m->estimate_bags > 0.0 ? m->used_bags / m->estimate_bags : 0.0;
    if (off_share(estimate) > 0.0) {
        lose(k, PB_JOB_PART_BAGS, PB_JOB_FAULT_ESTIMATE_OFF, half * off_share(estimate), estimate)
            ->minute = pb_job_minute(k->job, act);
    }
    if (off_share(used) > 0.0) {
        (void)lose(k, PB_JOB_PART_BAGS, PB_JOB_FAULT_BAGS_OFF, half * off_share(used), used);
    }
}

/* Loses points unless the act was done: for plug and patch after the last hole. */
static void need(Marking *k, PbJobPartKind part, PbJobActKind kind, PbJobFault fault, double points)
{
    int count, last = -1, holes = 0;
    const PbJobDone *d = pb_job_done(k->job, &count);
    for (int i = 0; i < count; i++) {
        int is_drill = d[i].act.kind == PB_JOB_WALL && d[i].act.wall.kind == PB_CREW_DRILL;
        last = d[i].act.kind == kind ? i : last;
        holes = d[i].act.kind == kind ? 0 : holes + is_drill;
    }
    if (kind == PB_JOB_PROTECT ? !is_before(first_act(k->job, kind), first_drill(k->job))
        : kind == PB_JOB_PLUG || kind == PB_JOB_PATCH ? holes > 0
                                                      : last < 0) {
        (void)lose(k, (int)part, fault, points, (double)holes);
    }
}

static void mark_rest(Marking *k)
{
    PbJobMarks *m = k->m;
    int has_fill = pb_job_fill_count(k->job) > 0 || m->fillable_m2 > 0.0;
    if (has_fill) {
        m->max[PB_JOB_PART_CLEAN] = weights[PB_JOB_PART_CLEAN];
        need(k, PB_JOB_PART_CLEAN, PB_JOB_PROTECT, PB_JOB_FAULT_NO_PROTECT, 2.0);
        need(k, PB_JOB_PART_CLEAN, PB_JOB_PLUG, PB_JOB_FAULT_NOT_PLUGGED, 1.0);
        need(k, PB_JOB_PART_CLEAN, PB_JOB_PATCH, PB_JOB_FAULT_NOT_PATCHED, 1.0);
        need(k, PB_JOB_PART_CLEAN, PB_JOB_CLEAN, PB_JOB_FAULT_NOT_CLEANED, 1.0);
        need(k, PB_JOB_PART_PROVED, PB_JOB_CAMERA_AFTER, PB_JOB_FAULT_NO_CAMERA, 4.0);
        need(k, PB_JOB_PART_PROVED, PB_JOB_CORE, PB_JOB_FAULT_NO_CORE, 2.0);
        need(k, PB_JOB_PART_PROVED, PB_JOB_FINGER, PB_JOB_FAULT_NO_FINGER, 1.0);
    }
    m->max[PB_JOB_PART_PROVED] = has_fill ? weights[PB_JOB_PART_PROVED] : 3.0;
    need(k, PB_JOB_PART_PROVED, PB_JOB_WRITE, PB_JOB_FAULT_NOT_WRITTEN, 3.0);
}

static void mark_minutes(Marking *k)
{
    PbJobMarks *m = k->m;
    int bays = 0;
    for (int n = 0; n < m->bay_count; n++) {
        bays += is_fillable(&m->bays[n]);
    }
    m->minutes = k->end_min;
    for (int a = PB_JOB_LOOK; a < PB_JOB_ACT_KINDS; a++) {
        int is_once = a != PB_JOB_SEAL && a != PB_JOB_FILL && a != PB_JOB_PLUG &&
                      a != PB_JOB_PATCH && a != PB_JOB_LEAK_TEST;
        m->usual_minutes += is_once ? pb_job_act_traits((PbJobActKind)a)->minutes : 0.0;
    }
    m->usual_minutes += BAY_MIN * bays;
    m->max[PB_JOB_PART_MINUTES] = weights[PB_JOB_PART_MINUTES];
    double over = m->minutes / m->usual_minutes;
    double lost = pb_max(0.0, pb_min(1.0, (over - TIME_FREE) / (TIME_ZERO - TIME_FREE)));
    if (lost > 0.0) {
        (void)lose(k, PB_JOB_PART_MINUTES, PB_JOB_FAULT_SLOW, lost * weights[PB_JOB_PART_MINUTES],
                   m->minutes);
    }
}

static int is_held(int part)
{
    return part >= PB_JOB_PART_HOLES;
}

/* No part loses more than it has; the later ones count as far as the wall was done. */
static void sum_up(Marking *k)
{
    PbJobMarks *m = k->m;
    double sum = 0.0, most = 0.0;
    m->max[PB_JOB_PART_HOLES] = weights[PB_JOB_PART_HOLES];
    for (int p = 0; p < PB_JOB_PARTS; p++) {
        double lost = 0.0;
        for (int i = 0; i < m->loss_count; i++) {
            PbJobLoss *l = &m->losses[i];
            if (l->part == p) {
                l->points = pb_min(l->points, m->max[p] - lost);
                lost += l->points;
            }
        }
        double held = is_held(p) ? (m->max[p] - lost) * (1.0 - k->done_share) : 0.0;
        if (held > 1e-9) {
            (void)lose(k, p, PB_JOB_FAULT_HELD, held, k->done_share);
        }
        m->points[p] = m->max[p] - lost - held;
        sum += m->points[p];
        most += m->max[p];
    }
    m->total = most > 0.0 ? 100.0 * sum / most : 0.0;
}

/* Gates, then parts, dearest first; ties keep their order. */
static void sort_losses(PbJobMarks *m)
{
    for (int i = 1; i < m->loss_count; i++) {
        PbJobLoss l = m->losses[i];
        int at = i;
        while (at > 0 && (l.part < 0 ? m->losses[at - 1].part >= 0
                                     : m->losses[at - 1].part > l.part ||
                                           (m->losses[at - 1].part == l.part &&
                                            m->losses[at - 1].points < l.points))) {
            m->losses[at] = m->losses[at - 1];
            at--;
        }
        m->losses[at] = l;
    }
}

void pb_job_mark(const PbJob *job, PbJobMarks *marks)
{
    int count, acts;
    memset(marks, 0, sizeof *marks);
    Marking k = {.job = job, .m = marks};
    k.list = pb_bays_list(pb_job_bays(job), &count);
    (void)pb_job_done(job, &acts);
    k.end_min = pb_job_minute(job, acts);
    marks->bay_count = count < PB_JOB_BAYS ? count : PB_JOB_BAYS;
    for (int n = 0; n < marks->bay_count; n++) {
        look_at_bay(&k, n);
    }
    gates(&k);
    mark_found(&k);
    mark_target(&k);
    mark_left(&k);
    mark_holes(&k);
    mark_bags(&k);
    mark_rest(&k);
    mark_minutes(&k);
    sum_up(&k);
    sort_losses(marks);
    marks->is_pass = marks->total >= PB_JOB_PASS;
    for (int g = 0; g < PB_JOB_GATES; g++) {
        marks->is_pass &= !marks->is_shut[g];
    }
}
