/*
 * Scripted hands: key frames played by the clock, and the rule of a crew at the hole: push the tube
 * to the first stop, machine on, wait for the stall, step back, turn the mouth, finish. The rule
 * listens to the rattle of material, feels where the tube stops, and knows nothing else of the bay.
 * The stages below are listed in the order in which a pass goes through them.
 */
#include "core/hands.h"

#include "core/session.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum {
    STAGE_START,  /* nothing done yet */
    STAGE_HOLE,   /* run down, tube out and to another hole */
    STAGE_TURN,   /* tube back at the hole, mouth turned for this pass */
    STAGE_INSERT, /* pushing to the first stop, machine off */
    STAGE_PACK,   /* at a stop, listening */
    STAGE_AIR,    /* feed shut, air alone */
    STAGE_STEP,   /* pulling back to the next stop */
    STAGE_END     /* finish has been asked */
};

#define KEPT_IN_M     0.05 /* the mouth stays this far inside: nobody blows at the rag */
#define TURN_ROOM_M   0.08 /* the mouth turns within 0.10 m of the hole; a little less to be sure */
#define PUSH_M_S      0.3  /* a hand pushing a tube into an empty bay, common practice */
#define STUCK_AFTER_S 0.6  /* no progress for so long: the tube has met something */
#define HEARD_S       1.5  /* a stall is not believed sooner after a stop began */
#define PLUG_HEARD_S  5.0  /* silence of a plugged hose that ends the run */
#define NEAR_M        0.002
#define OUT_M         (-0.04) /* the tube is out of the hole, in the hand */
#define BLED_SPEED    0.1 /* of the wheel: a tube that comes out sooner lets the bay blow back */

typedef struct Out {
    PbCommand *commands;
    int count;
} Out;

static void give(Out *out, PbCommandKind kind, double value)
{
    out->commands[out->count++] = (PbCommand){kind, value};
}

PbHands pb_hands_default(void)
{
    PbHands h;
    memset(&h, 0, sizeof h);
    snprintf(h.name, sizeof h.name, "one-foot steps after each stall");
    h.is_rule = 1;
    h.pull = PB_PULL_STALL;
    h.step_m = 0.30;
    h.wait_s = 1.0;
    h.stall_frac = 0.5;
    h.speed_m_s = 0.3;
    h.blower = 1.0;
    h.passes[0] = (PbPass){+1, 2.15, 0.45, 0.0};
    h.passes[1] = (PbPass){-1, 0.15, 0.45, 0.0};
    h.pass_count = 2;
    return h;
}

static PbStatus refuse(char *field, size_t size, PbError *err, const char *path,
                       const char *message)
{
    snprintf(field, size, "%s", path);
    return pb_fail(err, PB_ERR_RANGE, "%s", message);
}

static int is_one_of(double v, int last)
{
    return v >= 1.0 && v <= (double)last && v == floor(v);
}

/* Limits of what a command in a hands file may carry: inside what any session takes, but for a feed
 * above the gate of the exercise, which whoever brings the two together has to look at. */
static const char *command_trouble(const PbCommand *c)
{
    double v = c->value;
    int is_switch = v == 0.0 || v == 1.0;
    switch (c->kind) {
    case PB_COMMAND_TUBE_TARGET:
        return v >= 0.0 && v <= 7.0 ? NULL : "\"tube_in_m\": expected 0 to 7 m";
    case PB_COMMAND_TUBE_RATE:
        return v >= -1.0 && v <= 1.0 ? NULL : "\"tube_rate_m_s\": expected -1 to 1 m/s";
    case PB_COMMAND_TURN:
        return v == 1.0 || v == -1.0 ? NULL : "\"turn\": expected up or down";
    case PB_COMMAND_BLOWER:
        return v >= 0.0 && v <= 1.0 ? NULL : "\"blower\": expected 0 to 1";
    case PB_COMMAND_FEED:
        return v >= 0.0 && v <= 0.2 ? NULL : "\"feed_kg_s\": expected 0 to 0.2 kg/s";
    case PB_COMMAND_MACHINE:
        return is_switch ? NULL : "\"machine\": expected on or off";
    case PB_COMMAND_CLEAR_PLUG:
    case PB_COMMAND_FINISH:
        return NULL;
    case PB_COMMAND_MARK:
        return v >= 0.0 && v <= 1e6 ? NULL : "\"mark\": expected 0 to 1000000";
    case PB_COMMAND_RING:
        return v >= 0.0 && v <= 1.0 ? NULL : "\"ring\": expected 0 to 1";
    case PB_COMMAND_SEAL:
        return is_one_of(v, PB_MAX_OPENINGS) ? NULL : "\"seal\": expected 1 to 12";
    case PB_COMMAND_STATIC_TEST:
        return NULL;
    case PB_COMMAND_LEAVE:
        return is_one_of(v, PB_LEAVE_REASONS - 1) ? NULL : "\"leave\": there is no such reason";
    case PB_COMMAND_HOLE:
        return is_one_of(v, PB_MAX_HOLES) ? NULL : "\"hole\": expected 1 to 8";
    case PB_COMMAND_PLUG:
        return is_one_of(v, PB_MAX_HOLES) ? NULL : "\"plug\": expected 1 to 8";
    }
    return "there is no such command";
}

static PbStatus check_frames(const PbHands *h, char *field, size_t size, PbError *err)
{
    if (h->frame_count < 0 || h->frame_count > PB_MAX_KEY_FRAMES) {
        return refuse(field, size, err, "frames", "too many commands in the key frames");
    }
    for (int i = 0; i < h->frame_count; i++) {
        const PbKeyFrame *f = &h->frames[i];
        const char *trouble = command_trouble(&f->command);
        if (!(f->time_s >= 0.0 && f->time_s <= 3600.0)) {
            trouble = "\"time_s\": expected 0 to 3600 s";
        } else if (i > 0 && f->time_s < h->frames[i - 1].time_s) {
            trouble = "\"time_s\": key frames must be in order of time";
        }
        if (trouble != NULL) {
            return refuse(field, size, err, "frames", trouble);
        }
    }
    return PB_OK;
}

static PbStatus check_pass(const PbPass *p, int index, char *field, size_t size, PbError *err)
{
    size_t count;
    const PbNumberRow *rows = pb_pass_rows(&count);
    char path[32], full[64];
    snprintf(path, sizeof path, "passes/%d", index);
    PB_TRY(pb_rows_check(rows, count, p, path, field, size, err));
    if (p->hole != floor(p->hole)) {
        snprintf(full, sizeof full, "%s/hole", path);
        return refuse(field, size, err, full, "\"hole\": expected a whole number");
    }
    if (p->direction != 1 && p->direction != -1) {
        snprintf(full, sizeof full, "%s/direction", path);
        return refuse(field, size, err, full, "\"direction\": expected up or down");
    }
    if ((p->first_m - p->last_m) * p->direction < 0.0) {
        snprintf(full, sizeof full, "%s/last_m", path);
        return refuse(field, size, err, full,
                      "\"last_m\": the tube is pulled back, so expected last_m at or below first_m "
                      "with the mouth up, at or above it with the mouth down");
    }
    return PB_OK;
}

PbStatus pb_hands_check(const PbHands *hands, char *field, size_t size, PbError *err)
{
    size_t count;
    const PbNumberRow *rows = pb_hands_rows(&count);
    size_t name = strnlen(hands->name, sizeof hands->name);
    if (name == 0 || name == sizeof hands->name) {
        return refuse(field, size, err, "name", "\"name\": expected some text");
    }
    PB_TRY(check_frames(hands, field, size, err));
    if (!hands->is_rule) {
        return hands->frame_count > 0
                   ? PB_OK
                   : refuse(field, size, err, "frames", "neither a rule nor key frames are given");
    }
    if ((int)hands->pull < 0 || (int)hands->pull >= PB_PULL_WORDS) {
        return refuse(field, size, err, "pull", "\"pull\": there is no such rule");
    }
    PB_TRY(pb_rows_check(rows, count, hands, "", field, size, err));
    if (hands->pass_count < 1 || hands->pass_count > PB_MAX_PASSES) {
        return refuse(field, size, err, "passes", "\"passes\": expected 1 to 16");
    }
    for (int i = 0; i < hands->pass_count; i++) {
        PB_TRY(check_pass(&hands->passes[i], i, field, size, err));
    }
    return PB_OK;
}

static double feed_of(const PbHands *h, const PbView *view)
{
    return h->feed_kg_s > 0.0 ? h->feed_kg_s : view->exercise->feed_kg_s;
}

static void enter(PbHandsState *s, const PbView *view, int stage)
{
    s->stage = stage;
    s->stage_start_s = view->time_s;
    s->stuck_s = 0.0;
    s->tube_was_m = view->signals.tube_in_m;
}

static void arrive(PbHandsState *s, const PbView *view)
{
    enter(s, view, STAGE_PACK);
    s->stop_start_s = view->time_s;
    s->best_kg_s = 0.0;
    s->stall_s = -1.0;
}

/* Move the mouth towards a length of tube at a given speed, by a set-point one tick ahead of the
 * tube, so that a tube that is stopped by something is not pushed harder and harder.
 * @return nonzero when it is there, or can go no further */
static int approach(PbHandsState *s, const PbView *view, double target_tube_m, double speed_m_s,
                    Out *out)
{
    double now = view->signals.tube_in_m;
    double left = target_tube_m - now;
    if (fabs(left) < NEAR_M) {
        return 1;
    }
    double most = speed_m_s * PB_TICK_S;
    if (fabs(now - s->tube_was_m) < 0.1 * most) {
        s->stuck_s += PB_TICK_S;
        if (s->stuck_s > STUCK_AFTER_S) {
            give(out, PB_COMMAND_TUBE_RATE, 0.0);
            return 1;
        }
    } else {
        s->stuck_s = 0.0;
    }
    s->tube_was_m = now;
    give(out, PB_COMMAND_TUBE_TARGET, now + (left > most ? most : left < -most ? -most : left));
    return 0;
}

/* Tube length that puts the mouth at stop_y_m: by what is still missing, so that bends and
 * offsets of the mouth need not be known. */
static double tube_for_stop(const PbHands *h, const PbHandsState *s, const PbView *view)
{
    int direction = h->passes[s->pass].direction;
    double t = view->signals.tube_in_m + (s->stop_y_m - view->mouth_y_m) * direction;
    double longest = view->exercise->machine.tube_length_m;
    return t < KEPT_IN_M ? KEPT_IN_M : t > longest ? longest : t;
}

static void end_run(PbHandsState *s, const PbView *view, Out *out)
{
    give(out, PB_COMMAND_FEED, 0.0);
    give(out, PB_COMMAND_FINISH, 1.0);
    enter(s, view, STAGE_END);
}

/* The last stop of this pass is done: turn round for the next pass, or finish. */
static void next_pass(const PbHands *h, PbHandsState *s, const PbView *view, Out *out)
{
    if (s->pass + 1 >= h->pass_count) {
        end_run(s, view, out);
        return;
    }
    s->pass++;
    give(out, PB_COMMAND_MACHINE, 0.0);
    enter(s, view, STAGE_HOLE);
}

static void next_stop(const PbHands *h, PbHandsState *s, const PbView *view, Out *out)
{
    const PbPass *p = &h->passes[s->pass];
    double left = (s->stop_y_m - p->last_m) * p->direction;
    if (h->pull == PB_PULL_NONE || left < NEAR_M) {
        next_pass(h, s, view, out);
        return;
    }
    double step = h->pull == PB_PULL_CONTINUOUS || left < h->step_m ? left : h->step_m;
    s->stop_y_m -= p->direction * step;
    if (h->air_only_s > 0.0) {
        give(out, PB_COMMAND_FEED, feed_of(h, view));
    }
    enter(s, view, STAGE_STEP);
}

/* What a crew calls the stall: the rattle has died down. */
static void listen(const PbHands *h, PbHandsState *s, const PbView *view)
{
    double w = view->delivery_kg_s;
    double feed = feed_of(h, view);
    s->best_kg_s = w > s->best_kg_s ? w : s->best_kg_s;
    double full = s->best_kg_s < feed ? s->best_kg_s : feed;
    if (s->stall_s < 0.0 && view->time_s - s->stop_start_s > HEARD_S && full > 0.0 &&
        w < h->stall_frac * full) {
        s->stall_s = view->time_s;
    }
}

static int is_time_to_go(const PbHands *h, const PbHandsState *s, const PbView *view)
{
    double here = view->time_s - s->stop_start_s;
    if (h->max_stop_s > 0.0 && here >= h->max_stop_s) {
        return 1;
    }
    switch (h->pull) {
    case PB_PULL_CLOCK:
        return here >= h->wait_s;
    case PB_PULL_CONTINUOUS:
        return 1;
    case PB_PULL_STALL:
    case PB_PULL_NONE:
        break;
    }
    return s->stall_s >= 0.0 && view->time_s - s->stall_s >= h->wait_s;
}

static void pack(const PbHands *h, PbHandsState *s, const PbView *view, Out *out)
{
    listen(h, s, view);
    if (!is_time_to_go(h, s, view)) {
        return;
    }
    if (h->air_only_s > 0.0) {
        give(out, PB_COMMAND_FEED, 0.0);
        enter(s, view, STAGE_AIR);
        return;
    }
    next_stop(h, s, view, out);
}

static void turn(const PbHands *h, PbHandsState *s, const PbView *view, Out *out)
{
    const PbPass *p = &h->passes[s->pass];
    if (view->signals.direction != p->direction) {
        if (view->signals.tube_in_m > TURN_ROOM_M) {
            (void)approach(s, view, 0.5 * TURN_ROOM_M, PUSH_M_S, out);
            return;
        }
        give(out, PB_COMMAND_TURN, p->direction);
    }
    s->stop_y_m = p->first_m;
    enter(s, view, STAGE_INSERT);
}

/* To the hole of this pass, with a plug for the one that is left; a pass that names none stays. */
static void go_to_hole(const PbHands *h, PbHandsState *s, const PbView *view, Out *out)
{
    const PbPass *p = &h->passes[s->pass];
    int was = view->signals.acts.hole, want = p->hole > 0.0 ? (int)p->hole - 1 : was;
    if (want != was) {
        int is_out = view->signals.tube_in_m < 0.5 * OUT_M;
        if (view->signals.blower_speed > BLED_SPEED ||
            (!is_out && !approach(s, view, OUT_M, PUSH_M_S, out))) {
            return;
        }
        give(out, PB_COMMAND_HOLE, want + 1);
        give(out, PB_COMMAND_PLUG, was + 1);
    }
    enter(s, view, STAGE_TURN);
    turn(h, s, view, out);
}

static void run_rule(const PbHands *h, PbHandsState *s, const PbView *view, Out *out)
{
    switch (s->stage) {
    case STAGE_START:
        give(out, PB_COMMAND_MACHINE, 0.0);
        give(out, PB_COMMAND_BLOWER, h->blower);
        give(out, PB_COMMAND_FEED, feed_of(h, view));
        enter(s, view, STAGE_HOLE);
        go_to_hole(h, s, view, out);
        break;
    case STAGE_HOLE:
        go_to_hole(h, s, view, out);
        break;
    case STAGE_TURN:
        turn(h, s, view, out);
        break;
    case STAGE_INSERT:
        if (approach(s, view, tube_for_stop(h, s, view), PUSH_M_S, out)) {
            s->stop_y_m = view->mouth_y_m; /* as far as it goes */
            give(out, PB_COMMAND_MACHINE, 1.0);
            give(out, PB_COMMAND_FEED, feed_of(h, view));
            arrive(s, view);
        }
        break;
    case STAGE_PACK:
        pack(h, s, view, out);
        break;
    case STAGE_AIR:
        if (view->time_s - s->stage_start_s >= h->air_only_s) {
            next_stop(h, s, view, out);
        }
        break;
    case STAGE_STEP:
        if (approach(s, view, tube_for_stop(h, s, view), h->speed_m_s, out)) {
            arrive(s, view);
        }
        break;
    default:
        break;
    }
}

/* A plugged hose is silent and stiff: hands that do not clear it have to stop. */
static int is_beaten(PbHandsState *s, const PbView *view)
{
    if (!view->signals.plugged) {
        return 0;
    }
    if (s->stage != STAGE_PACK && s->stage != STAGE_AIR) {
        return 1;
    }
    s->stuck_s += PB_TICK_S;
    return s->stuck_s > PLUG_HEARD_S;
}

int pb_hands_next(const PbHands *hands, PbHandsState *state, const PbView *view,
                  PbCommand *commands)
{
    Out out = {commands, 0};
    while (state->next_frame < hands->frame_count && out.count < 10 &&
           hands->frames[state->next_frame].time_s <= view->time_s + 1e-9) {
        out.commands[out.count++] = hands->frames[state->next_frame++].command;
    }
    if (!hands->is_rule || state->stage == STAGE_END) {
        return out.count;
    }
    if (is_beaten(state, view)) {
        end_run(state, view, &out);
        return out.count;
    }
    run_rule(hands, state, view, &out);
    return out.count;
}
