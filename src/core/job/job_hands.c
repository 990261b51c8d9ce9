/*
 * Hands for one bay after another. Passes follow from the holes: from each hole up to the end above
 * it and down to the end below, as far as the tube goes, so that nobody has to know what stands in
 * the way. Scatter is drawn anew at each stop. Next: core/session/hands.c, which works the rule.
 */
#include "core/job_hands.h"

#include "core/pb_math.h"

#include <assert.h>
#include <math.h>
#include <stddef.h>
#include <stdio.h>
#include <string.h>

/* An end nearer to the hole than this is packed from the stop at the hole. */
static const double END_NEAR_M = 0.35;
/* Limits of what a drawn stop may be: of the rule's own rows. */
static const double STEP_LEAST_M = 0.05, WAIT_MOST_S = 60.0;
/* So long without so much at the mouth: common practice. */
static const double FULL_S = 3.0, FULL_KG_S = 0.005;
enum { STREAM_STOPS = 1 };

static const PbNumberRow rows[] = {
    {"", "end_m", "m", 0.02, 1.0, 0, 0, offsetof(PbJobHands, end_m)},
    {"", "step_sd_m", "m", 0.0, 1.0, 0, 0, offsetof(PbJobHands, step_sd_m)},
    {"", "wait_sd_s", "s", 0.0, 60.0, 0, 0, offsetof(PbJobHands, wait_sd_s)},
    {"", "early_frac", "-", 0.0, 1.0, 0, 0, offsetof(PbJobHands, early_frac)},
    {"", "early_s", "s", 0.0, 600.0, 0, 0, offsetof(PbJobHands, early_s)},
};

const PbNumberRow *pb_job_hands_rows(size_t *count)
{
    *count = sizeof rows / sizeof rows[0];
    return rows;
}

PbJobHands pb_job_hands_default(void)
{
    PbJobHands h = {.rule = pb_hands_default(), .does_up = 1, .does_down = 1, .end_m = 0.3};
    h.rule.pass_count = 0;
    h.rule.air_only_s = 1.0;
    return h;
}

static double mean(double sum, int count)
{
    return count > 0 ? sum / count : 0.0;
}

static double spread(double sum, double square, int count)
{
    double m = mean(sum, count);
    return count > 1 ? sqrt(pb_max(0.0, square / count - m * m)) : 0.0;
}

PbJobHands pb_habits_hands(const PbHabits *h, const PbJobHands *like)
{
    assert(h->stops > 0);
    int waits = h->waits, left = h->waits + h->early;
    PbJobHands out = *like;
    PbHands *r = &out.rule;
    snprintf(r->name, sizeof r->name, "as the bays before");
    r->frame_count = 0;
    r->pull = PB_PULL_STALL;
    r->step_m = h->steps > 0 ? pb_max(STEP_LEAST_M, mean(h->step_sum_m, h->steps)) : 6.0;
    r->wait_s = mean(h->wait_sum_s, waits);
    r->feed_kg_s = mean(h->feed_sum_kg_s, h->stops);
    r->blower = pb_min(1.0, mean(h->blower_sum, h->stops));
    r->air_only_s = mean(h->ease_sum_s, h->stops);
    out.step_sd_m = spread(h->step_sum_m, h->step_square_m2, h->steps);
    out.wait_sd_s = spread(h->wait_sum_s, h->wait_square_s2, waits);
    out.early_frac = left > 0 ? (double)h->early / left : 0.0;
    out.early_s = mean(h->early_sum_s, h->early);
    out.does_up = h->up > 0;
    out.does_down = h->down > 0;
    out.end_m = h->ends > 0 ? pb_max(0.02, pb_min(1.0, mean(h->end_sum_m, h->ends))) : like->end_m;
    return out;
}

static void add_pass(PbHands *h, int direction, double first_m, double last_m, int hole)
{
    if (h->pass_count < PB_MAX_PASSES) {
        h->passes[h->pass_count++] = (PbPass){direction, first_m, last_m, hole};
    }
}

PbHands pb_job_hands_for(const PbJobHands *hands, double height_m, const double *hole_y_m,
                         int count)
{
    PbHands h = hands->rule;
    memset(h.passes, 0, sizeof h.passes);
    h.pass_count = 0;
    h.is_rule = 1;
    for (int i = 0; i < count; i++) {
        double y = hole_y_m[i];
        int is_up = height_m - y > END_NEAR_M && hands->does_up;
        int is_down = y > END_NEAR_M && hands->does_down;
        /* a short leg is not all end */
        double top_m = height_m - pb_min(hands->end_m, 0.5 * (height_m - y));
        double foot_m = pb_min(hands->end_m, 0.5 * y);
        if (is_down) { /* first: what is blown up falls there */
            add_pass(&h, -1, foot_m, y, i + 1);
        }
        if (is_up || !is_down) {
            add_pass(&h, +1, top_m, y, i + 1);
        }
    }
    return h;
}

PbJobWorker pb_job_worker(const PbJobHands *hands, const PbHands *rule, uint64_t seed)
{
    PbJobWorker w = {.hands = *hands, .now = *rule, .stop_start_s = -1.0};
    w.rng = pb_rng_make(seed, STREAM_STOPS);
    return w;
}

/* What these hands do at the stop that they have come to. */
static void draw(PbJobWorker *w)
{
    const PbJobHands *h = &w->hands;
    if (h->step_sd_m > 0.0) {
        w->now.step_m =
            pb_max(STEP_LEAST_M, h->rule.step_m + h->step_sd_m * pb_rng_normal(&w->rng));
    }
    w->now.pull = h->rule.pull;
    w->now.wait_s = h->rule.wait_s;
    if (h->early_frac > 0.0 && pb_rng_uniform(&w->rng) < h->early_frac) {
        w->now.pull = PB_PULL_CLOCK;
        w->now.wait_s = h->early_s;
    } else if (h->wait_sd_s > 0.0) {
        double wait = h->rule.wait_s + h->wait_sd_s * pb_rng_normal(&w->rng);
        w->now.wait_s = pb_max(0.0, pb_min(WAIT_MOST_S, wait));
    }
}

/* A clogged hose: machine off, the clog out, on again. Nonzero while that lasts. */
static int clear(PbJobWorker *w, const PbView *view, PbCommand *commands, int *count)
{
    const PbSignals *g = &view->signals;
    if (!w->is_clearing && !g->plugged) {
        return 0;
    }
    if (!w->is_clearing) {
        w->is_clearing = 1;
        w->was_on = g->machine_on;
        commands[(*count)++] = (PbCommand){PB_COMMAND_MACHINE, 0.0};
    } else if (g->plugged && g->clear_left_s <= 0.0 && !g->machine_on) {
        commands[(*count)++] = (PbCommand){PB_COMMAND_CLEAR_PLUG, 1.0};
    } else if (!g->plugged && g->clear_left_s <= 0.0) {
        w->is_clearing = 0;
        commands[(*count)++] = (PbCommand){PB_COMMAND_MACHINE, (double)w->was_on};
        /* what clogged it was a stop that takes no more: on to the next */
        w->state.stall_s = w->state.stop_start_s = w->stop_start_s = view->time_s - w->now.wait_s;
        w->state.stuck_s = 0.0;
    }
    return 1;
}

/* A stop where nothing arrives at all is full: that is heard as the stall that it is. */
static void hear_nothing(PbJobWorker *w, const PbView *view)
{
    PbHandsState *s = &w->state;
    if (s->stall_s < 0.0 && s->stop_start_s > 0.0 && view->signals.machine_on &&
        view->time_s - s->stop_start_s > FULL_S && s->best_kg_s < FULL_KG_S) {
        s->stall_s = view->time_s;
    }
}

int pb_job_worker_next(PbJobWorker *w, const PbView *view, PbCommand *commands)
{
    int cleared = 0;
    if (view->phase == PB_PHASE_WORKING && clear(w, view, commands, &cleared)) {
        return cleared;
    }
    hear_nothing(w, view);
    int count = pb_hands_next(&w->now, &w->state, view, commands);
    if (w->state.stop_start_s != w->stop_start_s) {
        w->stop_start_s = w->state.stop_start_s;
        draw(w);
    }
    return count;
}
