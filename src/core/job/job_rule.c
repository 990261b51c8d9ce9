/*
 * A job by rule. The search is that of core/crew_find.h, worked on a crew of its own first: the
 * same seed and acts give the same answers, so the job's crew then does it again, without the holes
 * in parts that are to be left.
 */
#include "core/job_rule.h"

#include "core/crew_belief.h"

#include <string.h>

const char *const pb_find_words[PB_FIND_METHODS] = {"careful", "tape"};

/* An opening so wide is no gap of a box: fill runs out of it. */
static const double WIDE_M = 0.03;

typedef struct Work {
    PbJob *job;
    const PbJobRule *rule;
    PbCrew crew; /* that searched */
    PbFraming belief;
    PbBays *parts;             /* of the belief */
    int number[PB_CREW_HOLES]; /* of a hole in the job; -1 = was not made */
} Work;

static PbStatus simple(PbJob *job, PbJobActKind kind, PbError *err)
{
    PbJobAct act = {.kind = kind};
    return pb_job_act(job, &act, err);
}

/* What does not go there and then is left undone, as a crew would. */
static PbStatus attempt(PbJob *job, const PbJobAct *act, PbError *err)
{
    PbStatus status = pb_job_act(job, act, err);
    return status == PB_ERR_STATE ? PB_OK : status;
}

static PbStatus begin(PbJob *job, const PbJobRule *rule, PbError *err)
{
    if (rule->checks) {
        PB_TRY(simple(job, PB_JOB_LOOK, err));
        PB_TRY(simple(job, PB_JOB_CHECK, err));
    }
    return PB_OK;
}

static PbStatus leave_known(PbJob *job, PbError *err)
{
    int count;
    const PbLeave *list = pb_job_known_leaves(job, &count);
    for (int i = 0; i < count; i++) {
        PbJobAct act = {.kind = PB_JOB_WALL};
        act.wall.kind = PB_CREW_LEAVE;
        act.wall.x_m = list[i].x_m;
        act.wall.y_m = list[i].y_m;
        act.wall.reason = list[i].reason != PB_LEAVE_NONE ? list[i].reason : PB_LEAVE_OPEN_BAY;
        if (!pb_leave_traits(act.wall.reason)->ends_by_sealing) {
            PB_TRY(attempt(job, &act, err));
        }
    }
    return PB_OK;
}

static PbStatus seal_known(PbJob *job, PbError *err)
{
    const PbFraming *f = pb_job_framing(job);
    for (int i = 0; i < f->opening_count; i++) {
        const PbOpening *o = &f->openings[i];
        PbJobAct act = {.kind = PB_JOB_SEAL};
        act.wall.x_m = 0.5 * (o->x0_m + o->x1_m);
        act.wall.y_m = 0.5 * (o->y0_m + o->y1_m);
        if (o->width_m >= WIDE_M) { /* refused where nobody has seen it */
            PB_TRY(attempt(job, &act, err));
        }
    }
    return PB_OK;
}

/* Is the place in a part, as the crew believes it, that is known to be left? */
static int is_left(const Work *w, double x, double y)
{
    int count, part = pb_bays_at(w->parts, x, y);
    const PbLeave *list = pb_job_known_leaves(w->job, &count);
    for (int i = 0; w->rule->leaves && i < count; i++) {
        if (part >= 0 && pb_bays_at(w->parts, list[i].x_m, list[i].y_m) == part &&
            !pb_leave_traits(list[i].reason)->ends_by_sealing) {
            return 1;
        }
    }
    return 0;
}

static PbStatus search(Work *w, PbError *err)
{
    const PbFraming *f = pb_job_framing(w->job);
    const PbJobConfig *config = pb_job_config(w->job);
    pb_crew_begin(f, config->seed, &w->crew);
    pb_crew_find(&w->crew, f, w->rule->find);
    pb_crew_framing(&w->crew, &f->like, &w->belief);
    PbStatus status = pb_bays_create(&w->belief, &config->allocator, &w->parts);
    return status == PB_OK ? PB_OK : pb_fail(err, status, "out of memory");
}

static PbStatus do_again(Work *w, PbError *err)
{
    int made = 0, kept = 0;
    for (int i = 0; i < w->crew.done_count; i++) {
        PbJobAct act = {.kind = PB_JOB_WALL, .wall = w->crew.done[i].act};
        if (act.wall.kind == PB_CREW_DRILL) {
            int is_skipped = is_left(w, act.wall.x_m, act.wall.y_m);
            w->number[made++] = is_skipped ? -1 : kept++;
            if (is_skipped) {
                continue;
            }
        }
        if (act.wall.kind == PB_CREW_TUBE) {
            int hole = act.wall.hole;
            if (hole < 0 || hole >= made || w->number[hole] < 0) {
                continue;
            }
            act.wall.hole = w->number[hole];
        }
        PB_TRY(attempt(w->job, &act, err));
    }
    return PB_OK;
}

static PbStatus estimate(Work *w, PbError *err)
{
    PbJobAct act = {.kind = PB_JOB_ESTIMATE};
    const PbExercise *like = &pb_job_framing(w->job)->like;
    int count;
    const PbFramedBay *list = pb_bays_list(w->parts, &count);
    for (int i = 0; i < count; i++) {
        const PbRect *r = &list[i].around;
        if (!list[i].is_narrow &&
            !is_left(w, 0.5 * (r->x0_m + r->x1_m), 0.5 * (r->y0_m + r->y1_m))) {
            act.bags += list[i].fill_m3 * like->target_kg_m3 / like->bag_kg;
        }
    }
    return pb_job_act(w->job, &act, err);
}

/* Every clear hole, in the order in which they were made. */
static PbStatus fill_all(Work *w, PbError *err)
{
    const PbCrew *crew = pb_job_crew(w->job);
    for (int i = 0; i < crew->hole_count; i++) {
        if (crew->holes[i].met != PB_FEEL_NOTHING) {
            continue;
        }
        PbJobAct act = {.kind = PB_JOB_FILL, .hands = w->rule->hands};
        act.wall.x_m = crew->holes[i].x_m;
        act.wall.y_m = crew->holes[i].y_m;
        if (w->rule->by_hand > 0 && pb_job_fill_count(w->job) >= w->rule->by_hand) {
            act.hands = PB_JOB_AS_DONE;
            int bay = pb_bays_at(pb_job_bays(w->job), act.wall.x_m, act.wall.y_m);
            const PbJobFill *before = bay >= 0 ? pb_job_fill_of(w->job, bay) : NULL;
            act.hands = before != NULL ? before->hands : PB_JOB_AS_DONE;
        }
        PB_TRY(attempt(w->job, &act, err));
    }
    return PB_OK;
}

static PbStatus prove(Work *w, PbError *err)
{
    static const PbJobActKind at_a_bay[] = {PB_JOB_FINGER, PB_JOB_CORE};
    const PbCrew *crew = pb_job_crew(w->job);
    for (int k = 0; k < 2 && crew->hole_count > 0; k++) {
        PbJobAct act = {.kind = at_a_bay[k]};
        act.wall.x_m = crew->holes[0].x_m;
        act.wall.y_m = crew->holes[0].y_m;
        PB_TRY(attempt(w->job, &act, err));
    }
    if (pb_job_fill_count(w->job) > 0) {
        PbJobAct camera = {.kind = PB_JOB_CAMERA_AFTER};
        PB_TRY(attempt(w->job, &camera, err));
    }
    return simple(w->job, PB_JOB_WRITE, err);
}

static PbStatus tidy(Work *w, PbError *err)
{
    static const PbJobActKind kinds[] = {PB_JOB_PLUG, PB_JOB_PATCH, PB_JOB_CLEAN};
    for (int k = 0; k < 3 && pb_job_crew(w->job)->hole_count > 0; k++) {
        PbJobAct act = {.kind = kinds[k]};
        PB_TRY(attempt(w->job, &act, err));
    }
    return PB_OK;
}

static PbStatus work(Work *w, PbError *err)
{
    PbJob *job = w->job;
    const PbJobRule *rule = w->rule;
    PB_TRY(begin(job, rule, err));
    PB_TRY(search(w, err));
    if (rule->leaves) {
        PB_TRY(leave_known(job, err));
    }
    if (rule->tidies && !is_left(w, 0.5 * w->crew.length_m, 0.5 * w->crew.height_m)) {
        PB_TRY(simple(job, PB_JOB_PROTECT, err));
    }
    PB_TRY(do_again(w, err));
    if (rule->seals) {
        PB_TRY(seal_known(job, err));
    }
    if (rule->proves && pb_job_crew(job)->hole_count > 0 && !pb_job_crew(job)->is_stopped) {
        PB_TRY(estimate(w, err));
    }
    if (rule->tests && pb_job_crew(job)->hole_count > 0 && !pb_job_crew(job)->is_stopped) {
        PB_TRY(simple(job, PB_JOB_TEST, err));
    }
    PB_TRY(fill_all(w, err));
    if (rule->tidies) {
        PB_TRY(tidy(w, err));
    }
    return rule->proves ? prove(w, err) : PB_OK;
}

PbStatus pb_job_rule(PbJob *job, const PbJobRule *rule, PbError *err)
{
    const PbAllocator *a = &pb_job_config(job)->allocator;
    Work *w = a->alloc(a->user, sizeof *w);
    if (w == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    memset(w, 0, sizeof *w);
    w->job = job;
    w->rule = rule;
    PbStatus status = work(w, err);
    pb_bays_destroy(w->parts);
    a->free(a->user, w);
    return status;
}
