/*
 * A job, act by act: what is refused, what is put down, when it was. Acts that find and open go to
 * the crew (core/crew); fills are begun here and worked in job_fill.c; what it comes to is marked
 * in job_marks.c.
 */
#include "job_private.h"

#include "core/hash.h"
#include "core/pb_math.h"

#include <assert.h>
#include <math.h>
#include <string.h>

static const PbJobActTraits traits[] = {
#define ROW(name, number, word, minutes) [PB_JOB_##name] = {word, minutes},
    PB_JOB_ACT_LIST(ROW)
#undef ROW
};
_Static_assert(sizeof traits / sizeof traits[0] == PB_JOB_ACT_KINDS, "a row for each act");

const PbJobActTraits *pb_job_act_traits(PbJobActKind kind)
{
    return &traits[kind];
}

PbStatus pb_job_create(const PbJobConfig *config, PbJob **out, PbError *err)
{
    assert(config != NULL && out != NULL && config->hand_count <= PB_JOB_HANDS);
    const PbAllocator *a = &config->allocator;
    PbJob *job = a->alloc(a->user, sizeof *job);
    if (job == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    memset(job, 0, sizeof *job);
    job->config = *config;
    PbStatus status = pb_bays_create(&job->config.framing, a, &job->bays);
    if (status != PB_OK) {
        a->free(a->user, job);
        return pb_fail(err, status, "out of memory");
    }
    pb_crew_begin(&job->config.framing, config->seed, &job->crew);
    *out = job;
    return PB_OK;
}

void pb_job_destroy(PbJob *job)
{
    if (job != NULL) {
        PbAllocator a = job->config.allocator;
        for (int i = 0; i < job->fill_count; i++) {
            a.free(a.user, job->fills[i]);
        }
        pb_bays_destroy(job->bays);
        a.free(a.user, job);
    }
}

const PbFraming *pb_job_framing(const PbJob *job)
{
    return &job->config.framing;
}

const PbBays *pb_job_bays(const PbJob *job)
{
    return job->bays;
}

const PbCrew *pb_job_crew(const PbJob *job)
{
    return &job->crew;
}

const PbJobConfig *pb_job_config(const PbJob *job)
{
    return &job->config;
}

const PbJobDone *pb_job_done(const PbJob *job, int *count)
{
    *count = job->done_count;
    return job->done;
}

int pb_job_fill_count(const PbJob *job)
{
    return job->fill_count;
}

const PbJobFill *pb_job_fill(const PbJob *job, int i)
{
    assert(i >= 0 && i < job->fill_count);
    return job->fills[i];
}

static PbJobFill *fill_of(const PbJob *job, int bay)
{
    for (int i = 0; i < job->fill_count; i++) {
        if (job->fills[i]->bay == bay) {
            return job->fills[i];
        }
    }
    return NULL;
}

const PbJobFill *pb_job_fill_of(const PbJob *job, int bay)
{
    return fill_of(job, bay);
}

const PbLeave *pb_job_known_leaves(const PbJob *job, int *count)
{
    *count = job->is_checked ? job->config.framing.leave_count : 0;
    return job->is_checked ? job->config.framing.leave : NULL;
}

PbLeaveReason pb_job_left(const PbJob *job, int bay, int *act)
{
    for (int i = job->done_count - 1; i >= 0; i--) {
        const PbJobDone *d = &job->done[i];
        if (d->act.kind == PB_JOB_WALL && d->act.wall.kind == PB_CREW_LEAVE && d->bay == bay) {
            if (act != NULL) {
                *act = i;
            }
            return d->act.wall.reason;
        }
    }
    return PB_LEAVE_NONE;
}

int pb_job_opening_is_of(const PbJob *job, int opening, int bay)
{
    const PbOpening *o = &job->config.framing.openings[opening];
    return pb_bays_at(job->bays, 0.5 * (o->x0_m + o->x1_m), 0.5 * (o->y0_m + o->y1_m)) == bay;
}

int pb_job_is_to_leave(const PbJob *job, int bay)
{
    int count, openings = 0, sealed = 0;
    const PbFramedBay *b = &pb_bays_list(job->bays, &count)[bay];
    if (b->why == NULL) {
        return 0;
    }
    for (int o = 0; o < job->config.framing.opening_count; o++) {
        if (pb_job_opening_is_of(job, o, bay)) {
            openings++;
            sealed += job->is_sealed[o];
        }
    }
    return !(pb_leave_traits(b->reason)->ends_by_sealing && openings > 0 && sealed == openings);
}

int pb_job_hole_at(const PbJob *job, double x_m, double y_m)
{
    int best = -1;
    double best_m = PB_JOB_NEAR_M;
    for (int i = 0; i < job->crew.hole_count; i++) {
        const PbCrewHole *h = &job->crew.holes[i];
        double dx = h->x_m - x_m, dy = h->y_m - y_m, m = sqrt(dx * dx + dy * dy);
        if (h->met == PB_FEEL_NOTHING && m <= best_m) {
            best_m = m;
            best = i;
        }
    }
    return best;
}

int pb_job_opening_is_known(const PbJob *job, int opening)
{
    const PbOpening *o = &job->config.framing.openings[opening];
    int is_seen = job->is_checked;
    for (int k = 0; k < job->crew.seen_count; k++) {
        const PbRect *r = &job->crew.seen[k].at;
        is_seen |= o->x0_m < r->x1_m + 0.02 && o->x1_m > r->x0_m - 0.02 &&
                   o->y0_m < r->y1_m + 0.02 && o->y1_m > r->y0_m - 0.02;
    }
    return is_seen;
}

int pb_job_opening_is_sealed(const PbJob *job, int opening)
{
    return job->is_sealed[opening];
}

static int opening_at(const PbJob *job, double x, double y)
{
    const PbFraming *f = &job->config.framing;
    for (int i = 0; i < f->opening_count; i++) {
        const PbOpening *o = &f->openings[i];
        if (x >= o->x0_m - 0.02 && x <= o->x1_m + 0.02 && y >= o->y0_m - 0.02 &&
            y <= o->y1_m + 0.02 && pb_job_opening_is_known(job, i)) {
            return i;
        }
    }
    return -1;
}

static PbStatus seal(PbJob *job, PbJobDone *d, PbError *err)
{
    double x = d->act.wall.x_m, y = d->act.wall.y_m;
    int o = opening_at(job, x, y);
    if (o < 0) {
        return pb_fail(err, PB_ERR_STATE, "nobody has found an opening at %.3f, %.3f m", x, y);
    }
    if (job->is_sealed[o]) {
        return pb_fail(err, PB_ERR_STATE, "the opening at %.3f, %.3f m is sealed already", x, y);
    }
    d->bay = pb_bays_at(job->bays, x, y);
    if (d->bay >= 0 && fill_of(job, d->bay) != NULL) {
        return pb_fail(err, PB_ERR_STATE, "the bay behind the opening is being filled already");
    }
    job->is_sealed[o] = 1;
    return PB_OK;
}

static int has_own_fill(const PbJob *job)
{
    for (int i = 0; i < job->fill_count; i++) {
        if (job->fills[i]->hands != PB_JOB_AS_DONE && !job->fills[i]->is_small) {
            return 1;
        }
    }
    return 0;
}

static PbStatus go_on(PbJobFill *fill, int hole, int hands, PbError *err)
{
    if (fill->is_run) {
        return pb_fail(err, PB_ERR_STATE, "this bay is filled already");
    }
    if (fill->hands != hands) {
        return pb_fail(err, PB_ERR_STATE, "this bay was begun by other hands");
    }
    for (int i = 0; i < fill->hole_count; i++) {
        if (fill->holes[i] == hole) {
            return pb_fail(err, PB_ERR_STATE, "this bay is filled from this hole already");
        }
    }
    if (fill->hole_count == PB_MAX_HOLES) {
        return pb_fail(err, PB_ERR_STATE, "a bay is filled from at most %d holes", PB_MAX_HOLES);
    }
    fill->holes[fill->hole_count++] = hole;
    return PB_OK;
}

static PbStatus begin_fill(PbJob *job, PbJobDone *d, int hole, PbError *err)
{
    const PbAllocator *a = &job->config.allocator;
    if (job->fill_count == PB_JOB_FILLS) {
        return pb_fail(err, PB_ERR_STATE, "a job has at most %d fills", PB_JOB_FILLS);
    }
    PbJobFill *fill = a->alloc(a->user, sizeof *fill);
    if (fill == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    memset(fill, 0, sizeof *fill);
    fill->bay = d->bay;
    fill->act = job->done_count;
    fill->hands = d->act.hands;
    fill->holes[fill->hole_count++] = hole;
    PbStatus status = pb_job_exercise(job, fill, err);
    if (status != PB_OK) {
        a->free(a->user, fill);
        return status;
    }
    d->fill = job->fill_count;
    job->fills[job->fill_count++] = fill;
    return PB_OK;
}

static PbStatus fill_bay(PbJob *job, PbJobDone *d, PbError *err)
{
    double x = d->act.wall.x_m, y = d->act.wall.y_m;
    int hole = pb_job_hole_at(job, x, y), hands = d->act.hands;
    if (hole < 0) {
        return pb_fail(err, PB_ERR_STATE, "there is no clear hole at %.3f, %.3f m", x, y);
    }
    if (hands >= job->config.hand_count) {
        return pb_fail(err, PB_ERR_RANGE, "there are no hands %d", hands);
    }
    if (hands < 0 && !has_own_fill(job)) {
        return pb_fail(err, PB_ERR_STATE,
                       "no bay was packed by hand yet that the crew could go by");
    }
    const PbCrewHole *h = &job->crew.holes[hole];
    d->bay = pb_bays_at(job->bays, h->x_m, h->y_m);
    if (d->bay < 0) {
        return pb_fail(err, PB_ERR_STATE, "the hole at %.3f, %.3f m opens no bay", x, y);
    }
    PbJobFill *fill = fill_of(job, d->bay);
    if (fill == NULL) {
        return begin_fill(job, d, hole, err);
    }
    PB_TRY(go_on(fill, hole, hands, err));
    for (int i = 0; i < job->fill_count; i++) {
        d->fill = job->fills[i] == fill ? i : d->fill;
    }
    PbStatus status = pb_job_exercise(job, fill, err);
    fill->hole_count -= status != PB_OK;
    return status;
}

static PbStatus wall_act(PbJob *job, PbJobDone *d, PbError *err)
{
    const PbCrewAct *w = &d->act.wall;
    double from_s = job->crew.time_s;
    PB_TRY(pb_crew_do(&job->crew, &job->config.framing, w, err));
    d->crew_act = job->crew.done_count - 1;
    d->minutes = (job->crew.time_s - from_s) / 60.0;
    if (w->kind == PB_CREW_DRILL || w->kind == PB_CREW_LEAVE || w->kind == PB_CREW_PROBE) {
        d->bay = pb_bays_at(job->bays, w->x_m, w->y_m);
    }
    return PB_OK;
}

/* Holes in the face that no earlier act of this kind has seen to. */
static int holes_left(const PbJob *job, PbJobActKind kind)
{
    int since = 0;
    for (int i = 0; i < job->done_count; i++) {
        const PbJobDone *d = &job->done[i];
        since = d->act.kind == kind ? 0 : since;
        since += d->act.kind == PB_JOB_WALL && d->act.wall.kind == PB_CREW_DRILL;
    }
    return since;
}

static PbStatus act_once(PbJob *job, PbJobDone *d, PbError *err)
{
    PbJobActKind kind = d->act.kind;
    switch (kind) {
    case PB_JOB_WALL:
        return wall_act(job, d, err);
    case PB_JOB_FILL:
        return fill_bay(job, d, err);
    case PB_JOB_SEAL:
        return seal(job, d, err);
    case PB_JOB_CHECK:
        job->is_checked = 1;
        break;
    case PB_JOB_PLUG:
    case PB_JOB_PATCH:
        d->minutes *= holes_left(job, kind);
        break;
    case PB_JOB_FINGER:
    case PB_JOB_CORE:
        d->bay = pb_bays_at(job->bays, d->act.wall.x_m, d->act.wall.y_m);
        break;
    default:
        break;
    }
    return PB_OK;
}

PbStatus pb_job_act(PbJob *job, const PbJobAct *act, PbError *err)
{
    assert(job != NULL && act != NULL);
    if ((int)act->kind < 0 || act->kind >= PB_JOB_ACT_KINDS) {
        return pb_fail(err, PB_ERR_RANGE, "there is no such act");
    }
    if (job->done_count == PB_JOB_ACTS) {
        return pb_fail(err, PB_ERR_STATE, "a job has at most %d acts", PB_JOB_ACTS);
    }
    if (job->crew.is_stopped && act->kind != PB_JOB_WALL && act->kind != PB_JOB_WRITE) {
        return pb_fail(err, PB_ERR_STATE,
                       "the job is stopped: a wire was hit, a licensed electrician comes first");
    }
    PbJobDone d = {.act = *act, .crew_act = -1, .bay = -1, .fill = -1};
    d.minutes = traits[act->kind].minutes;
    PB_TRY(act_once(job, &d, err));
    job->done[job->done_count++] = d;
    return PB_OK;
}

double pb_job_minute(const PbJob *job, int index)
{
    double at = 0.0;
    for (int i = 0; i < job->done_count; i++) {
        const PbJobDone *d = &job->done[i];
        at = pb_max(at, d->act.at_min);
        if (i == index) {
            return at;
        }
        at += d->minutes;
        if (d->fill >= 0 && job->fills[d->fill]->act == i && job->fills[d->fill]->is_run) {
            at += job->fills[d->fill]->result.duration_s / 60.0;
        }
    }
    return at;
}

double pb_job_density(const PbJob *job, double x_m, double y_m)
{
    int count, bay = pb_bays_at(job->bays, x_m, y_m);
    const PbFramedBay *list = pb_bays_list(job->bays, &count);
    const PbJobFill *fill = bay >= 0 ? fill_of(job, bay) : NULL;
    if (bay < 0) {
        return -1.0;
    }
    if (fill == NULL) {
        return 0.0;
    }
    double x = x_m - list[bay].around.x0_m, y = y_m - list[bay].around.y0_m;
    for (int i = 0; i < fill->patch_count; i++) {
        const PbPatch *p = &fill->patches[i];
        if (x >= p->x0_m && x <= p->x1_m && y >= p->y0_m && y <= p->y1_m) {
            return p->density_kg_m3;
        }
    }
    return -1.0;
}

uint64_t pb_job_hash(const PbJob *job)
{
    uint64_t h = pb_hash_u64(PB_HASH_START, job->config.seed);
    for (int i = 0; i < job->fill_count; i++) {
        h = pb_hash_u64(h, (uint64_t)job->fills[i]->bay);
        h = pb_hash_u64(h, job->fills[i]->result.state_hash);
    }
    for (int i = 0; i < job->crew.done_count; i++) {
        const PbCrewAnswer *a = &job->crew.done[i].answer;
        h = pb_hash_u64(h, (uint64_t)a->feel);
        h = pb_hash_doubles(h, &a->reach_m, 1);
    }
    return h;
}
