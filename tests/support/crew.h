/* A crew at the hole. It is given PbSignals and what it measured before the job (height of the bay
 * and of the hole, room inside, size of the gate); it never sees the view, the fill or the panel.
 */
#ifndef SUPPORT_CREW_H
#define SUPPORT_CREW_H

#include "core/command.h"
#include "core/exercise.h"
#include "core/score.h"
#include "core/session.h"
#include "core/view.h"

#include <math.h>

typedef struct CrewPlan {
    double height_m, hole_y_m, room_m3, feed_kg_s, feed_max_kg_s, blower;
    double step_m, wait_s;
    int by_the_clock; /* pulls every wait_s; otherwise wait_s after the stall */
    int is_careful;   /* seals what it sees, opens a tight rag and turns down when the panel creaks,
                         feeds less after a plug, stops a runaway */
    int leaves;       /* sees at once that this bay is left alone */
    PbLeaveReason reason; /* that it gives when it leaves, or when fill runs away */
} CrewPlan;

enum { CREW_START, CREW_TEST, CREW_PUSH, CREW_PACK, CREW_STEP, CREW_CLEARING, CREW_DONE };

typedef struct Crew {
    CrewPlan plan;
    int stage, pass, direction;
    double target_m, tube_was_m, stuck_s;
    double stop_s, best, stall_s, blower, feed_kg_s, eased_s;
    PbCommand *out;
    int count;
} Crew;

static inline CrewPlan crew_plan(const PbExercise *e)
{
    CrewPlan p = {.height_m = e->height_m,
                  .hole_y_m = e->holes[0].y_m,
                  .room_m3 = e->width_m * e->height_m * e->depth_m,
                  .feed_kg_s = e->feed_kg_s,
                  .feed_max_kg_s = e->machine.feed_max_kg_s,
                  .blower = 1.0,
                  .step_m = 0.30,
                  .wait_s = 2.0,
                  .is_careful = 1,
                  .reason = e->leave_reason,
                  .leaves = e->must_not_fill[0] != '\0' && e->leave_kg == 0.0};
    if (e->finish == PB_FINISH_PANELLING) { /* seen from the room: thin sheet, so gently */
        p.blower = 0.7;
        p.feed_kg_s = 0.01;
    }
    if (e->damp_frac > 0.0) { /* felt in the bag */
        p.feed_kg_s *= 0.5;
    }
    return p;
}

static inline Crew crew_make(CrewPlan plan)
{
    Crew c = {.plan = plan, .blower = plan.blower, .feed_kg_s = plan.feed_kg_s, .stall_s = -1.0};
    c.direction = plan.hole_y_m < 0.5 * plan.height_m ? 1 : -1;
    return c;
}

static inline void crew_say(Crew *c, PbCommandKind kind, double value)
{
    c->out[c->count++] = (PbCommand){kind, value};
}

/* Towards the target; nonzero when there or stuck. */
static inline int crew_move(Crew *c, const PbSignals *g)
{
    double left = c->target_m - g->tube_in_m, most = 0.3 * PB_TICK_S;
    if (fabs(left) < 0.002) {
        return 1;
    }
    c->stuck_s = fabs(g->tube_in_m - c->tube_was_m) < 0.1 * most ? c->stuck_s + PB_TICK_S : 0.0;
    c->tube_was_m = g->tube_in_m;
    if (c->stuck_s > 0.6) {
        crew_say(c, PB_COMMAND_TUBE_RATE, 0.0);
        return 1;
    }
    double by = left > most ? most : left < -most ? -most : left;
    crew_say(c, PB_COMMAND_TUBE_TARGET, g->tube_in_m + by);
    return 0;
}

static inline void crew_arrive(Crew *c, const PbSignals *g)
{
    c->stage = CREW_PACK;
    c->stop_s = g->time_s;
    c->best = 0.0;
    c->stall_s = -1.0;
}

static inline void crew_finish(Crew *c)
{
    crew_say(c, PB_COMMAND_FEED, 0.0);
    crew_say(c, PB_COMMAND_FINISH, 0.0);
    c->stage = CREW_DONE;
}

/* Leave for a reason, or end as usual where there is none. */
static inline void crew_leave(Crew *c)
{
    if (c->plan.reason == PB_LEAVE_NONE) {
        crew_finish(c);
        return;
    }
    crew_say(c, PB_COMMAND_LEAVE, c->plan.reason);
    c->stage = CREW_DONE;
}

static inline void crew_push(Crew *c)
{
    double way =
        c->direction > 0 ? c->plan.height_m - c->plan.hole_y_m - 0.20 : c->plan.hole_y_m - 0.15;
    c->target_m = way > 0.05 ? way : 0.05;
    c->stuck_s = 0.0;
    c->tube_was_m = -1.0;
    c->stage = CREW_PUSH;
}

static inline void crew_next_stop(Crew *c, const PbSignals *g)
{
    if (g->tube_in_m > 0.07) {
        c->target_m = g->tube_in_m - c->plan.step_m;
        c->target_m = c->target_m < 0.05 ? 0.05 : c->target_m;
        c->stuck_s = 0.0;
        c->tube_was_m = -1.0;
        c->stage = CREW_STEP;
        return;
    }
    double other = c->direction > 0 ? c->plan.hole_y_m : c->plan.height_m - c->plan.hole_y_m;
    if (c->pass == 0 && other > 0.20) {
        c->pass = 1;
        c->direction = -c->direction;
        crew_say(c, PB_COMMAND_MACHINE, 0.0);
        crew_say(c, PB_COMMAND_TURN, c->direction);
        crew_push(c);
        return;
    }
    crew_finish(c);
}

static inline int crew_heard_enough(Crew *c, const PbSignals *g)
{
    double here = g->time_s - c->stop_s;
    if (c->plan.by_the_clock) {
        return here >= c->plan.wait_s;
    }
    double asked = 2.0 * c->feed_kg_s / c->plan.feed_max_kg_s;
    c->best = g->rattle > c->best ? g->rattle : c->best;
    double full = c->best < asked ? c->best : asked;
    if (c->stall_s < 0.0 && here > 1.5 && full > 0.0 && g->rattle < 0.8 * full) {
        c->stall_s = g->time_s;
    }
    return c->stall_s >= 0.0 && g->time_s - c->stall_s >= c->plan.wait_s;
}

/* What a careful crew does about noises. @return nonzero when the job ends here */
static inline int crew_care(Crew *c, const PbSignals *g)
{
    if (g->creak > 0.1 && g->acts.ring_open_frac < 0.1) {
        crew_say(c, PB_COMMAND_RING, 1.0);
    }
    if (g->creak > 0.5 && g->time_s - c->eased_s > 2.0 && c->blower > 0.68) {
        c->blower -= 0.03;
        c->eased_s = g->time_s;
        crew_say(c, PB_COMMAND_BLOWER, c->blower);
    }
    /* as much as fills the bay has gone in at one place, and no stall: it is somewhere else */
    double gone = (g->time_s - c->stop_s) * c->feed_kg_s;
    return c->stall_s < 0.0 && gone > 45.0 * c->plan.room_m3;
}

static inline int crew_next(Crew *c, const PbSignals *g, PbCommand *out)
{
    c->out = out;
    c->count = 0;
    if (c->stage != CREW_CLEARING && c->stage != CREW_DONE && g->plugged) {
        crew_say(c, PB_COMMAND_MACHINE, 0.0);
        crew_say(c, PB_COMMAND_CLEAR_PLUG, 1.0);
        c->feed_kg_s *= c->plan.is_careful ? 0.7 : 1.0;
        c->stage = CREW_CLEARING;
        return c->count;
    }
    switch (c->stage) {
    case CREW_START:
        if (c->plan.leaves) {
            crew_say(c, PB_COMMAND_STATIC_TEST, 1.0);
            c->stage = CREW_TEST;
            break;
        }
        for (int o = 0; o < PB_MAX_OPENINGS && c->plan.is_careful; o++) {
            if (g->acts.is_found[o] && !g->acts.is_sealed[o]) {
                crew_say(c, PB_COMMAND_SEAL, o + 1);
            }
        }
        crew_say(c, PB_COMMAND_BLOWER, c->blower);
        crew_say(c, PB_COMMAND_FEED, c->feed_kg_s);
        crew_say(c, PB_COMMAND_TURN, c->direction);
        crew_push(c);
        break;
    case CREW_TEST:
        if (g->acts.tested_pa > 0.0) {
            crew_leave(c);
        }
        break;
    case CREW_PUSH:
        if (crew_move(c, g)) {
            crew_say(c, PB_COMMAND_MACHINE, 1.0);
            crew_arrive(c, g);
        }
        break;
    case CREW_PACK:
        if (c->plan.is_careful && crew_care(c, g)) {
            crew_leave(c);
        } else if (crew_heard_enough(c, g)) {
            crew_next_stop(c, g);
        }
        break;
    case CREW_STEP:
        if (crew_move(c, g)) {
            crew_arrive(c, g);
        }
        break;
    case CREW_CLEARING:
        if (!g->plugged) {
            crew_say(c, PB_COMMAND_FEED, c->feed_kg_s);
            crew_say(c, PB_COMMAND_MACHINE, 1.0);
            crew_arrive(c, g);
        }
        break;
    default:
        break;
    }
    return c->count;
}

#endif
