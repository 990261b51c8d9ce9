/* A run watched tick by tick: how each stop stalls, and how it is picked up again. */
#ifndef SUPPORT_STALL_CASE_H
#define SUPPORT_STALL_CASE_H

#include "run_cases.h"

#include "core/session.h"
#include "session/session_private.h"

#define STALL_TICKS 8000

typedef struct StallSeries {
    int ticks;
    double time_s[STALL_TICKS], kg_s[STALL_TICKS], gauge_pa[STALL_TICKS], flow[STALL_TICKS];
    double mouth_m[STALL_TICKS];
} StallSeries;

typedef struct StallFigures {
    double fall_s; /* from nine tenths to four tenths of the free delivery */
    double gauge;  /* highest until the mouth moves, over what it was a second before the fall */
    double flow;   /* lowest until then, likewise */
    double pick_s; /* from the first movement to nine tenths again; 99 never */
    double stop_s; /* from the beginning of the stop to the stall */
    int at;        /* tick of the stall */
} StallFigures;

/* One tick of the rule. @return nonzero while the run goes on */
static inline int stall_tick(PbSession *s, const PbHands *hands, PbHandsState *state,
                             StallSeries *series)
{
    PbCommand commands[16];
    const PbView *v = pb_session_view(s);
    int count = pb_hands_next(hands, state, v, commands);
    ck_assert_int_eq(pb_session_step(s, commands, count), PB_OK);
    int n = series->ticks;
    if (pb_session_is_over(s) || n == STALL_TICKS) {
        return 0;
    }
    series->time_s[n] = v->time_s;
    series->kg_s[n] = v->delivery_kg_s;
    series->gauge_pa[n] = v->signals.blower_pa;
    series->flow[n] = v->signals.flow_m3_s;
    series->mouth_m[n] = v->mouth_y_m;
    series->ticks++;
    return 1;
}

static inline int stall_tick_at(double time_s)
{
    return (int)(time_s / PB_TICK_S + 0.5) - 1;
}

static inline StallFigures stall_figures(const StallSeries *r, const PbLift *lift, double feed_kg_s)
{
    StallFigures f = {
        99.0, 0.0, 9.0, 99.0, lift->stall_s - lift->from_s, stall_tick_at(lift->stall_s)};
    int from = stall_tick_at(lift->from_s), low = f.at, high = f.at, n = f.at;
    double free_kg_s = 0.0;
    for (int i = from; i < f.at; i++) {
        free_kg_s = fmax(free_kg_s, fmin(r->kg_s[i], feed_kg_s));
    }
    while (high > from && r->kg_s[high] < 0.9 * free_kg_s) {
        high--;
    }
    while (low + 1 < r->ticks && r->kg_s[low] > 0.4 * free_kg_s) {
        low++;
    }
    f.fall_s = (low - high) * PB_TICK_S;
    int before = high > 25 ? high - 25 : 0;
    for (; n + 1 < r->ticks && fabs(r->mouth_m[n] - r->mouth_m[f.at]) < 1e-3; n++) {
        f.gauge = fmax(f.gauge, r->gauge_pa[n] / r->gauge_pa[before]);
        f.flow = fmin(f.flow, r->flow[n] / r->flow[before]);
    }
    for (int i = n; i < r->ticks; i++) {
        if (r->kg_s[i] >= 0.9 * free_kg_s) {
            f.pick_s = (i - n) * PB_TICK_S;
            break;
        }
    }
    return f;
}

/* Nine to four tenths in about 1 to 3 s (0.75 at the short last stops), gauge up by 60 %, the hose
 * still, picked up within a second. */
static inline void stall_is_an_event(const StallFigures *f, uint64_t seed, int stop)
{
    ck_assert_msg(f->fall_s >= 0.75 && f->fall_s <= 3.0, "seed %d, stop %d: fell in %g s",
                  (int)seed, stop, f->fall_s);
    ck_assert_msg(f->gauge >= 1.6, "seed %d, stop %d: gauge times %g", (int)seed, stop, f->gauge);
    ck_assert_msg(f->flow <= 0.35, "seed %d, stop %d: flow times %g", (int)seed, stop, f->flow);
    ck_assert_msg(f->pick_s <= 1.0, "seed %d, stop %d: picked up after %g s", (int)seed, stop,
                  f->pick_s);
}

#endif
