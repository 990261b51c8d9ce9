/*
 * The hands of a draw: the recorded commands in their order, on a clock that waits for the stalls
 * of the draw. While the recording stands between the beginning of a stop and its stall, a stall of
 * the draw brings it forward; when it has come to its stall, it waits. Why: core/mark_range.h.
 */
#include "range_hands.h"

#include <math.h>

static const double SAME_PLACE_M = 0.1; /* a denser fill lets a tube go less far */
static const double WAIT_MORE_S = 10.0;
static const double BLEED_S = 60.0; /* after the last command */

static int tick_of(double time_s)
{
    return (int)floor(time_s / PB_TICK_S + 0.5);
}

/* Stops that were left before a stall are left by the clock. */
static void to_next_stall(PbRangeHands *h)
{
    while (h->lift < h->lift_count && h->lifts[h->lift].stall_s < 0.0) {
        h->lift++;
    }
    h->waited = 0;
}

PbRangeHands pb_range_hands(const PbRunFile *run, const PbLift *lifts, int lift_count)
{
    PbRangeHands h = {.run = run, .lifts = lifts, .lift_count = lift_count, .used = -1};
    to_next_stall(&h);
    return h;
}

static int has_stalled(const PbRangeHands *h, const PbView *view)
{
    int now = view->lift_count - 1;
    return now > h->used && view->lifts[now].stall_s >= 0.0 &&
           view->lifts[now].direction == h->lifts[h->lift].direction &&
           fabs(view->lifts[now].mouth_y_m - h->lifts[h->lift].mouth_y_m) < SAME_PLACE_M;
}

/* Where the recording stands at this tick; nonzero when it does not go on. */
static int keep_time(PbRangeHands *h, const PbView *view)
{
    if (h->lift == h->lift_count) {
        return 0;
    }
    const PbLift *l = &h->lifts[h->lift];
    int from = tick_of(l->from_s), stall = tick_of(l->stall_s);
    if (h->at < from) {
        return 0;
    }
    if (has_stalled(h, view)) {
        h->at = h->at > stall ? h->at : stall;
        h->used = view->lift_count - 1;
        h->lift++;
        to_next_stall(h);
        return 0;
    }
    if (h->at < stall) {
        return 0;
    }
    if (h->waited++ < stall - from + tick_of(WAIT_MORE_S)) {
        return 1;
    }
    h->lift++;
    to_next_stall(h);
    return 0;
}

/* Machine off, the plug out, the machine on again. Nonzero while that lasts. */
static int clear(PbRangeHands *h, const PbSignals *g, PbCommand *commands, int *count)
{
    if (!h->is_clearing && !g->plugged) {
        return 0;
    }
    if (!h->is_clearing) {
        h->is_clearing = 1;
        h->was_on = g->machine_on;
        commands[(*count)++] = (PbCommand){PB_COMMAND_MACHINE, 0.0};
    } else if (g->plugged && g->clear_left_s <= 0.0 && !g->machine_on) {
        commands[(*count)++] = (PbCommand){PB_COMMAND_CLEAR_PLUG, 1.0};
    } else if (!g->plugged && g->clear_left_s <= 0.0) {
        h->is_clearing = 0;
        commands[(*count)++] = (PbCommand){PB_COMMAND_MACHINE, (double)h->was_on};
    }
    return 1;
}

int pb_range_hands_next(PbRangeHands *h, const PbView *view, PbCommand commands[PB_RANGE_COMMANDS])
{
    const PbRunFile *run = h->run;
    int count = 0;
    if (h->at > run->last_tick + tick_of(BLEED_S)) {
        return -1;
    }
    if (view->phase == PB_PHASE_WORKING && clear(h, &view->signals, commands, &count)) {
        return count;
    }
    if (keep_time(h, view)) {
        return 0;
    }
    while (h->command < run->command_count && run->commands[h->command].tick <= h->at &&
           count < PB_RANGE_COMMANDS) {
        commands[count++] = run->commands[h->command++].command;
    }
    h->at += h->command == run->command_count || run->commands[h->command].tick > h->at;
    return count;
}
