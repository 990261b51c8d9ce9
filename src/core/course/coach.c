/*
 * Hints from what a crew can sense. The coach follows one stop at a time: where the tube came to
 * rest, the best rattle there, when the rattle died. Not here: the words, and when hints are
 * allowed (never in a graded run; the caller decides).
 */
#include "coach.h"

#include <math.h>

static const double STALL_SHARE = 0.5;  /* of the best rattle, as the hands rule */
static const double HEARD_S = 1.5;      /* a stall is not believed sooner after a stop began */
static const double STALL_LONG_S = 4.0; /* then it is time to say so */
static const double STILL_S = 0.5;      /* no movement so long: a new stop */
static const double MOVED_M = 0.02;     /* less is holding still */
static const double EARLY_M = 0.10;     /* a move that counts as going on */
static const double LONG_STEP_M = 0.38; /* as the rubric */
static const double OUTSIDE_S = 1.0, PLUG_S = 1.0;
static const double CREAK = 0.25;
static const double WELL_KG_M3 = 45.0; /* a bay that took so much without a stall leaks it */
static const double HOLD_S = 3.0, PAUSE_S = 4.0;

PbCoach pb_coach_start(const PbExercise *e)
{
    PbCoach c = {0};
    c.full_kg = WELL_KG_M3 * e->width_m * e->height_m * e->depth_m;
    c.feed_max_kg_s = e->machine.feed_max_kg_s;
    c.stop_m = c.moved_from_m = -0.05;
    c.stall_s = -1.0;
    return c;
}

/* Where the tube rests, and the length of the move that brought it there. @return nonzero when a
 * move has just ended; from, to as foot marks */
static int follow_tube(PbCoach *c, const PbSignals *g, double dt_s, double *from)
{
    double now = g->tube_in_m;
    if (fabs(now - c->stop_m) > MOVED_M) {
        if (!c->is_moving) {
            c->is_moving = 1;
            c->moved_from_m = c->stop_m;
        }
        c->stop_m = now;
        c->still_s = 0.0;
        return 0;
    }
    c->still_s += dt_s;
    if (!c->is_moving || c->still_s < STILL_S) {
        return 0;
    }
    c->is_moving = 0;
    *from = c->moved_from_m;
    return 1;
}

static void listen(PbCoach *c, const PbSignals *g)
{
    double asked =
        c->feed_max_kg_s > 0.0 ? PB_RATTLE_FULL * g->feed_set_kg_s / c->feed_max_kg_s : 0.0;
    c->best_rattle = g->rattle > c->best_rattle ? g->rattle : c->best_rattle;
    double full = c->best_rattle < asked ? c->best_rattle : asked;
    int is_low = full > 0.05 && g->rattle < STALL_SHARE * full;
    if (!is_low) {
        c->stall_s = -1.0;
    } else if (c->stall_s < 0.0 && g->time_s - c->stop_s > HEARD_S) {
        c->stall_s = g->time_s;
        c->has_stalled = 1;
    }
}

static PbHint hint(PbHintKind kind, double value)
{
    PbHint h = {kind, value};
    return h;
}

/* The most urgent thing now: harm first, then waste, then technique. */
static PbHint judge(const PbCoach *c, const PbSignals *g, int has_arrived, double from,
                    int had_stalled)
{
    if (g->creak > CREAK) {
        return hint(PB_HINT_PANEL, g->creak);
    }
    if (c->plug_s > PLUG_S) {
        return hint(PB_HINT_PLUG, c->plug_s);
    }
    if (c->outside_s > OUTSIDE_S) {
        return hint(PB_HINT_OUTSIDE, c->outside_s);
    }
    double here = g->time_s - c->stop_s;
    if (g->machine_on && !c->is_moving && c->stall_s < 0.0 && g->feed_set_kg_s > 0.0 &&
        here * g->feed_set_kg_s > c->full_kg) {
        return hint(PB_HINT_RUNS_AWAY, here);
    }
    if (g->machine_on && has_arrived && from - g->tube_in_m > LONG_STEP_M) {
        return hint(PB_HINT_LONG_STEP, from - g->tube_in_m);
    }
    if (g->machine_on && has_arrived && from - g->tube_in_m > EARLY_M && !had_stalled) {
        return hint(PB_HINT_LEFT_EARLY, from - g->tube_in_m);
    }
    if (g->machine_on && !c->is_moving && c->stall_s >= 0.0 &&
        g->time_s - c->stall_s > STALL_LONG_S) {
        return hint(PB_HINT_PULL_BACK, g->time_s - c->stall_s);
    }
    return hint(PB_HINT_NONE, 0.0);
}

static int is_urgent(PbHintKind kind)
{
    return kind == PB_HINT_PANEL || kind == PB_HINT_PLUG;
}

/* What can hurt takes the place of anything else at once; all other hints wait their turn. */
static PbHint show(PbCoach *c, PbHint now, double time_s)
{
    if (is_urgent(now.kind) && !is_urgent(c->shown.kind)) {
        c->shown = now;
        c->shown_s = time_s;
    } else if (c->shown.kind != PB_HINT_NONE) {
        if (now.kind == c->shown.kind) {
            c->shown.value = now.value;
        } else if (time_s - c->shown_s >= HOLD_S) {
            c->shown = hint(PB_HINT_NONE, 0.0);
            c->quiet_until_s = time_s + PAUSE_S;
        }
    } else if (now.kind != PB_HINT_NONE && time_s >= c->quiet_until_s) {
        c->shown = now;
        c->shown_s = time_s;
    }
    return c->shown;
}

PbHint pb_coach_judge(PbCoach *c, const PbSignals *g)
{
    double dt = g->time_s > c->last_s ? g->time_s - c->last_s : 0.0;
    double from = 0.0;
    c->last_s = g->time_s;
    int had_stalled = c->has_stalled; /* as the marks: a stall counts though a slug came after */
    int has_arrived = follow_tube(c, g, dt, &from);
    if (has_arrived || !g->machine_on) {
        c->stop_s = g->time_s;
        c->best_rattle = 0.0;
        c->stall_s = -1.0;
        c->has_stalled = 0;
    } else if (!c->is_moving) {
        listen(c, g);
    }
    c->plug_s = g->plugged ? c->plug_s + dt : 0.0;
    int is_wasted = g->spilling && g->machine_on; /* as the event that the marks go by */
    c->outside_s = is_wasted ? c->outside_s + dt : 0.0;
    return judge(c, g, has_arrived, from, had_stalled);
}

PbHint pb_coach_next(PbCoach *c, const PbSignals *g)
{
    PbHint now = pb_coach_judge(c, g);
    return show(c, now, g->time_s);
}
