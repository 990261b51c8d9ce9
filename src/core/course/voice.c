/*
 * The one sentence over the bay. The faults come from the coach; what to do next follows from where
 * the tube is, what has been heard at this stop, and which end is packed. Not here: the words, and
 * when it may speak (never in a graded run; the caller decides).
 */
#include "core/voice.h"

#include "coach.h"

#include <math.h>

static const double STEADY_S = 3.0;
static const double SURE_S = 1.0; /* into a stall before it is called one */
static const double FOOT_M = 0.3048;
static const double INSIDE_M = 0.05; /* the tube stays so far inside while it blows */
static const double FAR_M = 0.25;    /* from the end: close enough; a hand takes a while to stop */
static const double SHORT_END_M = 0.3; /* an end this close to the hole fills from the other side */
static const double TURNS_M = 0.08;    /* as far in as the tube can be turned */
static const double STUCK_S = 1.2;     /* no way on for so long: it has met something */
static const double PRESSURE_LEFT = 0.03; /* of the machine's static pressure: bled enough */
static const double HEARD = 0.2;          /* rattle that counts as fill */

static int way(const PbSignals *g)
{
    return g->direction > 0;
}

PbVoice pb_voice_start(const PbExercise *e, const PbRubric *rubric)
{
    PbVoice v = {.coach = pb_coach_start(e),
                 .weak_share = rubric->air_share,
                 .static_pa = e->machine.static_pa,
                 .stall_s = -1.0,
                 .said = {PB_SAY_NOTHING, 0.0}};
    v.far_m[0] = e->holes[0].y_m;
    v.far_m[1] = e->height_m - e->holes[0].y_m;
    for (int k = 0; k < 2; k++) {
        v.is_packed[k] = v.far_m[k] < SHORT_END_M;
    }
    return v;
}

/* Is the tube at the far end, or as far in as it goes? Forgotten when it comes out again. */
static void follow_push(PbVoice *v, const PbSignals *g, double dt_s)
{
    double moved = g->tube_in_m - v->tube_was_m;
    v->tube_was_m = g->tube_in_m;
    v->has_pushed |= moved > 0.0;
    v->stuck_s = fabs(moved) < 1e-6 ? v->stuck_s + dt_s : 0.0;
    if (g->tube_in_m < TURNS_M) {
        v->has_pushed = v->is_in = 0;
    } else if (g->tube_in_m >= v->far_m[way(g)] - FAR_M ||
               (v->has_pushed && v->stuck_s > STUCK_S && g->tube_in_m > 0.5 * v->far_m[way(g)])) {
        v->is_in = 1;
    }
}

/* What has been heard at this stop; a stall counts though a slug comes after it. */
static void follow_stop(PbVoice *v, const PbSignals *g)
{
    v->has_creaked |= g->creak > 0.0;
    v->has_rattled = g->machine_on && (v->has_rattled || g->rattle > HEARD);
    if (v->coach.is_moving || !g->machine_on) {
        v->has_stalled = 0;
        v->stall_s = -1.0;
        return;
    }
    if (v->coach.has_stalled && v->stall_s < 0.0) {
        v->stall_s = g->time_s;
    }
    v->has_stalled = v->stall_s >= 0.0 && g->time_s - v->stall_s >= SURE_S;
}

static PbSaid say(PbSay what, double value)
{
    return (PbSaid){what, value};
}

/* Machine off: which end comes next, and what is to be done for it. */
static PbSaid between(const PbVoice *v, const PbSignals *g)
{
    int here = way(g);
    if (v->is_packed[0] && v->is_packed[1]) {
        return say(PB_SAY_FINISH, 0.0);
    }
    if (v->is_packed[here]) {
        return say(g->tube_in_m > TURNS_M ? PB_SAY_BACK : PB_SAY_TURN, 0.0);
    }
    return say(v->is_in ? PB_SAY_ON : PB_SAY_PUSH_IN, 0.0);
}

static PbSaid at_work(PbVoice *v, const PbSignals *g)
{
    if (v->has_stalled) {
        if (g->tube_in_m - FOOT_M < INSIDE_M) {
            v->is_packed[way(g)] = 1;
            return say(PB_SAY_OFF, 0.0);
        }
        return say(PB_SAY_PULL, 0.0);
    }
    if (g->blower_setting < v->weak_share && !v->has_creaked) {
        return say(PB_SAY_WEAK_AIR, 0.0);
    }
    return say(v->has_rattled ? PB_SAY_WAIT : PB_SAY_AIR_FIRST, 0.0);
}

/* What the coach calls a fault, and what can hurt. NOTHING when all is well. */
static PbSaid fault(const PbVoice *v, const PbSignals *g, PbHint h)
{
    if (h.kind == PB_HINT_PANEL) {
        return say(PB_SAY_CREAKS, 0.0);
    }
    if (g->clear_left_s > 0.0) {
        return say(PB_SAY_CLEARING, g->clear_left_s);
    }
    if (h.kind == PB_HINT_PLUG) {
        return say(g->machine_on ? PB_SAY_CLOG_OFF : PB_SAY_CLOG_CLEAR, 0.0);
    }
    switch (h.kind) {
    case PB_HINT_OUTSIDE:
        return say(PB_SAY_OUTSIDE, h.value);
    case PB_HINT_RUNS_AWAY:
        return say(PB_SAY_RUNS_AWAY, h.value);
    case PB_HINT_LONG_STEP:
        return say(PB_SAY_LONG_PULL, h.value);
    case PB_HINT_LEFT_EARLY:
        return say(PB_SAY_TOO_EARLY, h.value);
    case PB_HINT_PULL_BACK: /* at the hole there is nothing to pull back */
        return say(g->tube_in_m - FOOT_M < INSIDE_M ? PB_SAY_NOTHING : PB_SAY_TOO_LATE, h.value);
    default:
        break;
    }
    int is_up = g->blower_pa > PRESSURE_LEFT * v->static_pa;
    return say(!g->machine_on && is_up && g->tube_in_m > 0.0 ? PB_SAY_BLEEDING : PB_SAY_NOTHING,
               0.0);
}

/* Told when it happens and over in the same tick: they stand for their time whatever comes. */
static int is_told_once(PbSay what)
{
    return what == PB_SAY_LONG_PULL || what == PB_SAY_TOO_EARLY;
}

/* The sentence asks for an act; when it is no longer so, the act has been done. */
static int is_asked(PbSay what)
{
    return what != PB_SAY_CREAKS && !is_told_once(what) && what != PB_SAY_WEAK_AIR &&
           what != PB_SAY_AIR_FIRST && what != PB_SAY_WAIT;
}

/* Nothing to do yet: whatever else there is to say comes at once. */
static int is_waiting(PbSay what)
{
    return what == PB_SAY_AIR_FIRST || what == PB_SAY_WAIT;
}

static PbSaid hold(PbVoice *v, PbSaid now, double time_s)
{
    int is_worse = now.say < v->said.say && now.say < PB_SAY_BLEEDING;
    int is_done = is_asked(v->said.say) && now.say != v->said.say;
    if (now.say == v->said.say) {
        v->said.value = is_told_once(now.say) ? v->said.value : now.value;
    } else if (is_worse || is_done || is_waiting(v->said.say) || time_s - v->said_s >= STEADY_S) {
        v->said = now;
        v->said_s = time_s;
    }
    return v->said;
}

PbSaid pb_voice_next(PbVoice *v, const PbSignals *g)
{
    double dt = g->time_s > v->coach.last_s ? g->time_s - v->coach.last_s : 0.0;
    PbHint h = pb_coach_judge(&v->coach, g);
    follow_push(v, g, dt);
    follow_stop(v, g);
    PbSaid now = fault(v, g, h);
    if (now.say == PB_SAY_NOTHING) {
        now = g->machine_on ? at_work(v, g) : between(v, g);
    }
    return hold(v, now, g->time_s);
}
