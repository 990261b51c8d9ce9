/* A simulated hand at the hole: habits, a reaction time, scatter, ears that are now and then wrong.
 * It hears the rattle and the creak, reads the foot marks, feels where the tube stops, and knows
 * what was measured before the job. Sizes of scatter are assumptions. */
#include "lab/teach.h"

#include "core/constants.h"
#include "core/marks.h"
#include "core/tick.h"

#include <math.h>

enum { START, TEST, PUSH, PACK, STEP, BACK, CLEARING, OUT, DONE };

#define PUSH_M_S      0.3  /* a hand pushing a tube into an empty bay, common practice */
#define STUCK_AFTER_S 0.6  /* no progress for so long: the tube has met something */
#define HEARD_S       1.5  /* nobody believes a stall sooner after a stop began */
#define STALL_FRAC    0.5  /* of the best heard at this stop, or of the gate */
#define KEPT_IN_M     0.05 /* the mouth stays this far inside */
#define EASE_S        2.0  /* between two turns of the blower's knob */
#define EASE_BY       0.03
#define EASE_TO       0.68
#define TIGHT_RING    0.1     /* a ring that leaves less open is stuffed */
#define OUT_M         (-0.04) /* the tube is out of the hole, in the hand */
#define BLED_SPEED    0.1  /* of the wheel: a tube that comes out sooner lets the bay blow back */
#define FULL_KG_M3    45.0 /* so much gone in at one place without a stall: it runs away */

TeachHabits teach_textbook(void)
{
    return (TeachHabits){.step_m = 0.30,
                         .wait_s = 2.0,
                         .feed_share = 1.0,
                         .blower = 1.0,
                         .eases = 1,
                         .ends = TEACH_FAR | TEACH_NEAR,
                         .far_m = 0.20,
                         .near_m = 0.15,
                         .reads_bay = 1};
}

/* Which acts besides packing these hands think of in this run. */
static int drawn_acts(const TeachHabits *b, PbRng *rng)
{
    int acts = b->reads_bay ? TEACH_GENTLE : 0;
    for (int act = 1; act < TEACH_ACTS_END && b->acts_share > 0.0; act <<= 1) {
        acts |= pb_rng_uniform(rng) < b->acts_share ? act : 0;
    }
    return acts;
}

/* What is seen, felt or asked before the job begins. */
static void look(TeachHand *h, const PbExercise *e)
{
    int looks = (h->acts & TEACH_LOOKS) != 0;
    if ((h->acts & TEACH_GENTLE) && e->finish == PB_FINISH_PANELLING) { /* seen from the room */
        h->blower *= 0.62;
        h->feed_kg_s *= 0.15;
    }
    if ((h->acts & TEACH_GENTLE) && e->damp_frac > 0.0) { /* felt in the bag */
        h->feed_kg_s *= 0.5;
    }
    h->feed_kg_s = fmin(h->feed_kg_s, h->feed_max_kg_s);
    h->reason = looks ? e->leave_reason : PB_LEAVE_NONE;
    h->leaves_at_once = looks && e->must_not_fill[0] != '\0' && e->leave_kg == 0.0;
    h->hole_count = h->acts & TEACH_HOLES ? e->hole_count : 1;
    for (int i = 0; i < h->hole_count; i++) {
        h->holes_y_m[i] = e->holes[i].y_m;
    }
}

static int way_of(const TeachHand *h)
{
    return h->hole_y_m < 0.5 * h->height_m ? 1 : -1;
}

TeachHand teach_hand_make(const TeachHabits *habits, const PbExercise *e, uint64_t seed)
{
    TeachHand h = {.habits = *habits,
                   .rng = pb_rng_make(seed, 71),
                   .height_m = e->height_m,
                   .hole_y_m = e->holes[0].y_m,
                   .room_m3 = e->width_m * e->height_m * e->depth_m,
                   .feed_kg_s = e->feed_kg_s * habits->feed_share,
                   .feed_max_kg_s = e->machine.feed_max_kg_s,
                   .blower = habits->blower,
                   .go_s = -1.0};
    h.acts = drawn_acts(habits, &h.rng);
    look(&h, e);
    h.direction = way_of(&h);
    if (!(habits->ends & TEACH_FAR)) { /* begins with the short way, which is all of it */
        h.direction = -h.direction;
        h.pass = 1;
    }
    return h;
}

static void say(TeachHand *h, PbCommandKind kind, double value)
{
    h->out[h->count++] = (PbCommand){kind, value};
}

static void towards(TeachHand *h, double tube_m, int stage)
{
    h->target_m = tube_m > KEPT_IN_M ? tube_m : KEPT_IN_M;
    h->stuck_s = 0.0;
    h->tube_was_m = -1.0;
    h->stage = stage;
}

/* Nonzero when the tube is there, or can go no further. */
static int move(TeachHand *h, const PbSignals *g)
{
    double left = h->target_m - g->tube_in_m, most = PUSH_M_S * PB_TICK_S;
    if (fabs(left) < 0.002) {
        return 1;
    }
    h->stuck_s = fabs(g->tube_in_m - h->tube_was_m) < 0.1 * most ? h->stuck_s + PB_TICK_S : 0.0;
    h->tube_was_m = g->tube_in_m;
    if (h->stuck_s > STUCK_AFTER_S) {
        say(h, PB_COMMAND_TUBE_RATE, 0.0);
        return 1;
    }
    say(h, PB_COMMAND_TUBE_TARGET, g->tube_in_m + fmax(-most, fmin(most, left)));
    return 0;
}

static void push_in(TeachHand *h)
{
    double way = h->direction > 0 ? h->height_m - h->hole_y_m : h->hole_y_m;
    towards(h, way - (h->pass == 0 ? h->habits.far_m : h->habits.near_m), PUSH);
}

static void arrive(TeachHand *h, const PbSignals *g)
{
    h->stage = PACK;
    h->stop_s = g->time_s;
    h->best = 0.0;
    h->go_s = -1.0;
}

static void turn_round(TeachHand *h)
{
    h->pass = 1;
    h->step_count = 0;
    h->direction = -h->direction;
    say(h, PB_COMMAND_TURN, h->direction);
    push_in(h);
}

static void next_stop(TeachHand *h, const PbSignals *g)
{
    double short_way_m = h->hole_y_m < 0.5 * h->height_m ? h->hole_y_m : h->height_m - h->hole_y_m;
    h->step_count++;
    if (g->tube_in_m > fmax(KEPT_IN_M, h->habits.left_in_m) + 0.02) {
        double by = h->habits.step_m + h->habits.grow_m * (h->step_count - 1) +
                    h->habits.step_sd_m * pb_rng_normal(&h->rng);
        towards(h, fmax(g->tube_in_m - fmax(by, 0.03), h->habits.left_in_m), STEP);
    } else if (h->pass == 0 && (h->habits.ends & TEACH_NEAR) && short_way_m > 0.2) {
        say(h, PB_COMMAND_MACHINE, 0.0);
        if (g->tube_in_m > KEPT_IN_M + 0.02) { /* a tube is turned only with its end at the hole */
            towards(h, KEPT_IN_M, BACK);
        } else {
            turn_round(h);
        }
    } else if (h->hole + 1 < h->hole_count) {
        say(h, PB_COMMAND_MACHINE, 0.0);
        h->stage = OUT;
    } else {
        say(h, PB_COMMAND_FEED, 0.0);
        say(h, PB_COMMAND_FINISH, 1.0);
        h->stage = DONE;
    }
}

/* The tube comes out once the wheel has run down, and goes to the next hole. */
static void change_hole(TeachHand *h, const PbSignals *g)
{
    if (g->blower_speed > BLED_SPEED) {
        return;
    }
    if (g->tube_in_m > OUT_M + 0.002) {
        say(h, PB_COMMAND_TUBE_TARGET, fmax(OUT_M, g->tube_in_m - PUSH_M_S * PB_TICK_S));
        return;
    }
    h->hole++;
    h->hole_y_m = h->holes_y_m[h->hole];
    h->pass = 0;
    h->step_count = 0;
    h->direction = way_of(h);
    say(h, PB_COMMAND_HOLE, h->hole + 1);
    say(h, PB_COMMAND_PLUG, h->hole);
    say(h, PB_COMMAND_TURN, h->direction);
    push_in(h);
}

static void leave(TeachHand *h)
{
    say(h, PB_COMMAND_LEAVE, h->reason);
    h->stage = DONE;
}

/* As much as fills the bay has gone in at one place, and no stall: it is somewhere else. */
static int runs_away(const TeachHand *h, const PbSignals *g)
{
    return h->reason != PB_LEAVE_NONE && h->go_s < 0.0 &&
           (g->time_s - h->stop_s) * h->feed_kg_s > FULL_KG_M3 * h->room_m3;
}

/* When to go on, from the moment at which the ears say so. */
static double when_to_go(TeachHand *h, double now_s)
{
    double wait = h->habits.wait_s + h->habits.wait_sd_s * pb_rng_normal(&h->rng);
    double late = pb_rng_uniform(&h->rng) < h->habits.late_share ? h->habits.late_s : 0.0;
    double at_end = h->step_count == 0 ? h->habits.end_wait_s : 0.0;
    return now_s + h->habits.react_s + fmax(wait, 0.0) + late + at_end;
}

static int is_enough(TeachHand *h, const PbSignals *g)
{
    const TeachHabits *b = &h->habits;
    double here = g->time_s - h->stop_s;
    double asked = PB_RATTLE_FULL * h->feed_kg_s / h->feed_max_kg_s;
    h->best = fmax(h->best, g->rattle);
    if (b->clock_s > 0.0) {
        return here >= b->clock_s;
    }
    double patience = b->first_s > 0.0 && h->step_count == 0 ? b->first_s : b->patience_s;
    if (patience > 0.0 && here >= patience) {
        return 1;
    }
    if (h->go_s < 0.0 && here > HEARD_S) {
        double full = fmin(h->best, asked);
        int is_stall = full > 0.0 && g->rattle < STALL_FRAC * full;
        if (is_stall || pb_rng_uniform(&h->rng) < b->misheard_per_s * PB_TICK_S) {
            h->go_s = when_to_go(h, g->time_s);
        }
    }
    return h->go_s >= 0.0 && g->time_s >= h->go_s;
}

static void ease(TeachHand *h, const PbSignals *g)
{
    if ((h->acts & TEACH_RING) && g->creak > 0.1 && g->acts.ring_open_frac < TIGHT_RING) {
        say(h, PB_COMMAND_RING, 1.0);
    }
    if (h->habits.eases && g->creak > 0.5 && g->time_s - h->eased_s > EASE_S &&
        h->blower > EASE_TO) {
        h->blower -= EASE_BY;
        h->eased_s = g->time_s;
        say(h, PB_COMMAND_BLOWER, h->blower);
    }
}

/* After a clog: where the stall had been heard the place is full, and the next one is due. */
static void go_on(TeachHand *h, const PbSignals *g)
{
    int is_full = h->go_s >= 0.0 || h->habits.clock_s > 0.0;
    say(h, PB_COMMAND_MACHINE, 1.0);
    arrive(h, g);
    if (is_full) {
        next_stop(h, g);
    }
}

static void begin(TeachHand *h, const PbSignals *g)
{
    for (int o = 0; o < PB_MAX_OPENINGS && (h->acts & TEACH_SEALS); o++) {
        if (g->acts.is_found[o] && !g->acts.is_sealed[o]) {
            say(h, PB_COMMAND_SEAL, o + 1);
        }
    }
    if (h->habits.checks_skipped > 0) {
        int made = PB_CHECK_POINTS - h->habits.checks_skipped;
        say(h, PB_COMMAND_MARK, PB_MARK_CHECKLIST + (1 << made) - 1);
    }
    say(h, PB_COMMAND_BLOWER, h->blower);
    say(h, PB_COMMAND_FEED, h->feed_kg_s);
    say(h, PB_COMMAND_TURN, h->direction);
    if (h->habits.outside_s > 0.0) {
        say(h, PB_COMMAND_MACHINE, 1.0);
    }
    push_in(h);
}

int teach_hand_next(TeachHand *h, const PbSignals *g, PbCommand *out)
{
    h->out = out;
    h->count = 0;
    if (h->stage != CLEARING && h->stage != DONE && g->plugged) {
        if (h->habits.is_live) {
            say(h, PB_COMMAND_MARK, PB_MARK_PLUG_POWER_ON);
        }
        say(h, PB_COMMAND_MACHINE, 0.0);
        say(h, PB_COMMAND_CLEAR_PLUG, 1.0);
        h->stage = CLEARING;
        return h->count;
    }
    switch (h->stage) {
    case START:
        if (h->leaves_at_once) {
            say(h, PB_COMMAND_STATIC_TEST, 1.0);
            h->stage = TEST;
        } else {
            begin(h, g);
        }
        break;
    case TEST:
        if (g->acts.tested_pa > 0.0) {
            leave(h);
        }
        break;
    case PUSH:
        if (g->time_s >= h->habits.outside_s && move(h, g)) {
            say(h, PB_COMMAND_MACHINE, 1.0);
            arrive(h, g);
        }
        break;
    case PACK:
        ease(h, g);
        if (is_enough(h, g)) {
            next_stop(h, g);
        } else if (runs_away(h, g)) {
            leave(h);
        }
        break;
    case STEP:
        if (move(h, g)) {
            arrive(h, g);
        }
        break;
    case BACK:
        if (move(h, g)) {
            turn_round(h);
        }
        break;
    case CLEARING:
        if (!g->plugged) {
            go_on(h, g);
        }
        break;
    case OUT:
        change_hole(h, g);
        break;
    default:
        break;
    }
    return h->count;
}
