/*
 * The fills of a job: a bay as an exercise with its holes where they were drilled, worked by hands
 * to its end, and what is kept of it. Bays packed by hand come first, since the others go by them.
 */
#include "job_private.h"

#include "core/pb_math.h"

#include <assert.h>
#include <math.h>
#include <string.h>

enum { STREAM_BAY = 4000 }; /* + number of the bay */
/* A run ends at the exercise's time limit; bleeding and clearing come on top. */
static const double GRACE_S = 600.0;
static const double PART_MIN =
    1.3; /* to fill a piece that the model was not made for: assumption */
/* A mouth 50 mm away from its stop has been on its way so long. */
static const double LEFT_M = 0.05, ON_ITS_WAY_S = 0.25;

uint64_t pb_job_fill_seed(const PbJob *job, int bay)
{
    PbRng rng = pb_rng_make(job->config.seed, STREAM_BAY + (uint64_t)bay);
    return pb_rng_next(&rng) >> 12; /* as far as a double counts */
}

static void place_holes(const PbJob *job, PbJobFill *fill, const PbRect *around, PbExercise *e)
{
    PbHole like = e->holes[0];
    e->hole_count = 0;
    for (int i = 0; i < fill->hole_count; i++) {
        const PbCrewHole *h = &job->crew.holes[fill->holes[i]];
        like.x_m = h->x_m - around->x0_m;
        like.y_m = h->y_m - around->y0_m;
        like.bore_m = h->bore_m;
        e->holes[e->hole_count++] = like;
    }
}

static void leave_out_sealed(const PbJob *job, PbJobFill *fill, PbExercise *e)
{
    int kept = 0, n = 0;
    for (int o = 0; o < job->config.framing.opening_count; o++) {
        if (pb_job_opening_is_of(job, o, fill->bay)) {
            if (!job->is_sealed[o]) {
                e->openings[kept++] = e->openings[n];
            }
            n++;
        }
    }
    e->opening_count = kept;
}

PbStatus pb_job_exercise(const PbJob *job, PbJobFill *fill, PbError *err)
{
    int count;
    char field[96];
    const PbFramedBay *b = &pb_bays_list(job->bays, &count)[fill->bay];
    PbExercise *e = &fill->exercise;
    PbError small;
    if (pb_bays_exercise(job->bays, fill->bay, e, &small) != PB_OK) {
        fill->is_small = 1;
        return PB_OK;
    }
    place_holes(job, fill, &b->around, e);
    leave_out_sealed(job, fill, e);
    if (!pb_job_is_to_leave(job, fill->bay)) {
        e->must_not_fill[0] = '\0';
        e->leave_reason = PB_LEAVE_NONE;
    }
    if (pb_exercise_check(e, field, sizeof field, &small) != PB_OK) {
        return pb_fail(err, PB_ERR_STATE, "the tube does not go in there: %.200s", small.message);
    }
    return PB_OK;
}

/* A piece too small for the model: taken as filled at the target. */
static void fill_small(const PbJob *job, PbJobFill *fill)
{
    int count;
    const PbFramedBay *b = &pb_bays_list(job->bays, &count)[fill->bay];
    PbResult *r = &fill->result;
    memset(r, 0, sizeof *r);
    r->fillable_volume_m3 = b->fill_m3;
    r->mass_in_bay_kg = r->mass_fed_kg = b->fill_m3 * job->config.framing.like.target_kg_m3;
    r->duration_s = PART_MIN * 60.0;
    r->phase = PB_PHASE_DONE;
    fill->leak_before_m3_s_m2 = fill->leak_after_m3_s_m2 = -1.0;
    fill->is_run = 1;
}

PbStatus pb_job_fill_config(const PbJob *job, int i, PbSessionConfig *config, PbError *err)
{
    if (i < 0 || i >= job->fill_count || job->fills[i]->is_small) {
        return pb_fail(err, PB_ERR_RANGE, "there is no such fill to be worked by hand");
    }
    *config = (PbSessionConfig){.exercise = job->fills[i]->exercise,
                                .constants = job->config.constants,
                                .seed = pb_job_fill_seed(job, job->fills[i]->bay),
                                .cells_across = job->config.cells_across,
                                .allocator = job->config.allocator};
    return PB_OK;
}

/* Feed shut before the pull, mean over the stops, as the samples have it. */
static double ease_of(const PbWatched *w)
{
    double sum = 0.0;
    int stops = 0;
    for (int i = 0; i + 1 < w->lift_count; i++) {
        const PbLift *l = &w->lifts[i];
        double left = w->watch.lifts[i].left_s;
        if (!pb_is_stop(l, &w->rubric) || left <= l->from_s ||
            w->lifts[i + 1].direction != l->direction) {
            continue;
        }
        double fed = l->from_s;
        left -= ON_ITS_WAY_S; /* the feed may be open again by then */
        for (int k = 0; k < w->sample_count; k++) {
            double at = (double)w->samples[k].time_s;
            if (at >= l->from_s && at <= left && w->samples[k].feed_kg_s > 0.0f) {
                fed = at;
            }
        }
        double shut = left - fed;
        sum += shut > 3.0 * PB_SAMPLE_TICKS * PB_TICK_S ? shut : 0.0; /* less is the sampling */
        stops++;
    }
    return stops > 0 ? sum / stops : 0.0;
}

static PbStatus keep(PbJobFill *fill, PbWatched *w, PbError *err)
{
    PbStatus status = pb_watched_mark(w);
    if (status != PB_OK) {
        return pb_fail(err, status, "a bay cannot be marked: %s", pb_status_name(status));
    }
    fill->result = w->result;
    fill->score = w->score;
    fill->lift_count = w->lift_count;
    memcpy(fill->lifts, w->lifts, (size_t)w->lift_count * sizeof *w->lifts);
    memcpy(fill->watch, w->watch.lifts, (size_t)w->lift_count * sizeof *fill->watch);
    fill->ease_s = ease_of(w);
    fill->patch_count = pb_session_patches(w->session, fill->patches, PB_SCORE_MAX_PATCHES);
    status = pb_session_leak_test(w->session, 75.0, &fill->leak_before_m3_s_m2,
                                  &fill->leak_after_m3_s_m2);
    fill->is_run = status == PB_OK;
    return status == PB_OK ? PB_OK : pb_fail(err, status, "out of memory");
}

PbStatus pb_job_fill_done(PbJob *job, int i, PbWatched *watched, PbError *err)
{
    assert(i >= 0 && i < job->fill_count);
    if (job->fills[i]->is_small) {
        fill_small(job, job->fills[i]);
        return PB_OK;
    }
    assert(watched != NULL && watched->is_ended);
    return keep(job->fills[i], watched, err);
}

static PbStatus step_all(PbWatched *w, PbJobWorker *worker, double limit_s, PbError *err)
{
    PbCommand commands[16];
    long most = (long)((limit_s + GRACE_S) / PB_TICK_S);
    while (!w->is_ended) {
        const PbView *view = pb_session_view(w->session);
        int count = pb_job_worker_next(worker, view, commands);
        PbStatus status = pb_watched_step(w, commands, count);
        if (status != PB_OK) {
            return pb_fail(err, status, "a bay's run stopped at %.2f s: %s", view->time_s,
                           pb_status_name(status));
        }
        if (--most < 0) {
            return pb_fail(err, PB_ERR_STATE, "a bay's run did not end in its time");
        }
    }
    return PB_OK;
}

static PbJobWorker worker_of(const PbJob *job, const PbJobFill *fill, const PbJobHands *hands)
{
    double y[PB_MAX_HOLES];
    const PbExercise *e = &fill->exercise;
    for (int i = 0; i < e->hole_count; i++) {
        y[i] = e->holes[i].y_m;
    }
    PbHands rule = pb_job_hands_for(hands, e->height_m, y, e->hole_count);
    return pb_job_worker(hands, &rule, pb_job_fill_seed(job, fill->bay));
}

PbStatus pb_job_work(const PbJob *job, PbJobFill *fill, const PbJobHands *hands, PbError *err)
{
    PbWatched *w;
    const PbAllocator *a = &job->config.allocator;
    const PbExercise *e = &fill->exercise;
    if (fill->is_small) {
        fill_small(job, fill);
        return PB_OK;
    }
    PbJobWorker worker = worker_of(job, fill, hands);
    fill->used = worker.now;
    PbSessionConfig config = {.exercise = *e,
                              .constants = job->config.constants,
                              .seed = pb_job_fill_seed(job, fill->bay),
                              .cells_across = job->config.cells_across,
                              .allocator = *a};
    w = a->alloc(a->user, sizeof *w);
    if (w == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    memset(w, 0, sizeof *w);
    PbStatus status = pb_watched_start(w, &config, err);
    if (status == PB_OK) {
        status = step_all(w, &worker, e->time_limit_s, err);
        if (status == PB_OK) {
            status = keep(fill, w, err);
        }
        pb_watched_end(w);
    }
    a->free(a->user, w);
    return status;
}

/* Distance from the stop before in the same pass; 0 where there is none. */
static double step_to(const PbJobFill *fill, int before, int i)
{
    const PbLift *a = &fill->lifts[before < 0 ? i : before], *b = &fill->lifts[i];
    return before >= 0 && a->direction == b->direction && a->hole == b->hole
               ? fabs(b->mouth_y_m - a->mouth_y_m)
               : 0.0;
}

static void add_stop(PbHabits *h, const PbJobFill *fill, int i)
{
    const PbLift *l = &fill->lifts[i];
    const PbLiftWatch *seen = &fill->watch[i];
    double left = seen->left_s > l->from_s ? seen->left_s : l->to_s;
    left -= LEFT_M / pb_max(0.05, fill->used.speed_m_s > 0.0 ? fill->used.speed_m_s : 0.3);
    h->stops++;
    *(l->direction > 0 ? &h->up : &h->down) += 1;
    h->feed_sum_kg_s += seen->feed_kg_s;
    h->blower_sum += seen->static_pa / fill->exercise.machine.static_pa;
    h->ease_sum_s += fill->ease_s;
    if (i + 1 >= fill->lift_count || step_to(fill, i, i + 1) <= 0.0) {
        return; /* turned or finished there: that is no waiting */
    }
    if (l->stall_s < 0.0 || l->stall_s > left) {
        h->early++;
        h->early_sum_s += pb_max(0.0, left - l->from_s);
    } else {
        double wait = pb_max(0.0, left - l->stall_s - fill->ease_s);
        h->waits++;
        h->wait_sum_s += wait;
        h->wait_square_s2 += wait * wait;
    }
}

static void add_step(PbHabits *h, double step_m)
{
    h->steps++;
    h->step_sum_m += step_m;
    h->step_square_m2 += step_m * step_m;
}

/* The last step of a pass is what was left of it, so it tells nothing unless there is no other. */
void pb_habits_add(PbHabits *h, const PbJobFill *fill)
{
    PbRubric rubric = pb_rubric_default();
    int before = -1;
    double step = 0.0, last = 0.0; /* not yet taken in; longest that ended a pass */
    for (int i = 0; i < fill->lift_count; i++) {
        const PbLift *l = &fill->lifts[i];
        if (!pb_is_stop(l, &rubric)) {
            continue;
        }
        add_stop(h, fill, i);
        double now = step_to(fill, before, i);
        if (now > 0.0 && step > 0.0) {
            add_step(h, step);
        } else if (now <= 0.0) {
            last = pb_max(last, step);
            h->ends++;
            h->end_sum_m +=
                l->direction > 0 ? fill->exercise.height_m - l->mouth_y_m : l->mouth_y_m;
        }
        step = now;
        before = i;
    }
    last = pb_max(last, step);
    if (h->steps == 0 && last > 0.0) {
        add_step(h, last);
    }
}

/* Bays packed by hand, or those that go by them. */
typedef struct Wave {
    PbJob *job;
    int is_as_done;
    PbJobHands as_done;
    PbStatus status[PB_JOB_FILLS];
    PbError err[PB_JOB_FILLS];
} Wave;

static void body(void *context, int index)
{
    Wave *w = context;
    PbJobFill *fill = w->job->fills[index];
    if (fill->is_run || (fill->hands == PB_JOB_AS_DONE) != w->is_as_done) {
        return;
    }
    const PbJobHands *hands = w->is_as_done ? &w->as_done : &w->job->config.hands[fill->hands];
    w->status[index] = pb_job_work(w->job, fill, hands, &w->err[index]);
}

static PbStatus run_wave(Wave *w, PbJobParallel parallel, void *user, PbError *err)
{
    int count = w->job->fill_count;
    if (parallel != NULL) {
        parallel(user, count, body, w);
    } else {
        for (int i = 0; i < count; i++) {
            body(w, i);
        }
    }
    for (int i = 0; i < count; i++) {
        if (w->status[i] != PB_OK) {
            if (err != NULL) {
                *err = w->err[i];
            }
            return w->status[i];
        }
    }
    return PB_OK;
}

/* Hands of the bays before the first one that goes by them. */
static PbJobHands habits_of(const PbJob *job)
{
    PbHabits habits = {0};
    const PbJobHands *like = job->config.hand_count > 0 ? &job->config.hands[0] : NULL;
    PbJobHands standard = pb_job_hands_default();
    for (int i = 0; i < job->fill_count && job->fills[i]->hands != PB_JOB_AS_DONE; i++) {
        if (job->fills[i]->is_run && !job->fills[i]->is_small) {
            pb_habits_add(&habits, job->fills[i]);
            like = &job->config.hands[job->fills[i]->hands];
        }
    }
    return habits.stops > 0 ? pb_habits_hands(&habits, like != NULL ? like : &standard) : standard;
}

PbStatus pb_job_fill_worker(const PbJob *job, int i, PbJobWorker *worker, PbError *err)
{
    if (i < 0 || i >= job->fill_count || job->fills[i]->is_small) {
        return pb_fail(err, PB_ERR_RANGE, "there is no such fill to be worked");
    }
    const PbJobFill *fill = job->fills[i];
    PbJobHands hands =
        fill->hands == PB_JOB_AS_DONE ? habits_of(job) : job->config.hands[fill->hands];
    *worker = worker_of(job, fill, &hands);
    return PB_OK;
}

PbStatus pb_job_run(PbJob *job, PbJobParallel parallel, void *user, PbError *err)
{
    const PbAllocator *a = &job->config.allocator;
    PbStatus status = PB_OK;
    Wave *w = a->alloc(a->user, sizeof *w);
    if (w == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    for (int as_done = 0; as_done <= 1 && status == PB_OK; as_done++) {
        memset(w, 0, sizeof *w);
        w->job = job;
        w->is_as_done = as_done;
        if (as_done) {
            w->as_done = habits_of(job);
        }
        status = run_wave(w, parallel, user, err);
    }
    a->free(a->user, w);
    return status;
}

void pb_job_leak(const PbJob *job, double *before_m3_s, double *after_m3_s)
{
    int count;
    const PbFramedBay *bays = pb_bays_list(pb_job_bays(job), &count);
    *before_m3_s = *after_m3_s = 0.0;
    for (int i = 0; i < pb_job_fill_count(job); i++) {
        const PbJobFill *f = pb_job_fill(job, i);
        if (f->is_run && f->leak_before_m3_s_m2 >= 0.0) {
            *before_m3_s += f->leak_before_m3_s_m2 * bays[f->bay].area_m2;
            *after_m3_s += f->leak_after_m3_s_m2 * bays[f->bay].area_m2;
        }
    }
}
