/* How loose and dense fills come about: hands for any bay, and a run from the first tick to the
 * last. */
#include "compare/compare_private.h"
#include "core/pb_math.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

/* First and last stops keep this far from the plates, as a mouth that points at one does. */
static const double from_top_m = 0.20, from_bottom_m = 0.15, least_way_m = 0.05;

static void set_passes(PbHands *h, const PbExercise *bay)
{
    double hole = bay->holes[0].y_m, top = bay->height_m - from_top_m;
    PbPass up = {+1, top, hole, 0.0}, down = {-1, from_bottom_m, hole, 0.0};
    int has_up = top >= hole + least_way_m, has_down = hole >= from_bottom_m + least_way_m;
    int up_first = top - hole >= hole - from_bottom_m; /* the long way first, then the short one */
    h->pass_count = 0;
    if (has_up && up_first) {
        h->passes[h->pass_count++] = up;
    }
    if (has_down) {
        h->passes[h->pass_count++] = down;
    }
    if (has_up && !up_first) {
        h->passes[h->pass_count++] = up;
    }
    if (h->pass_count == 0) { /* a bay so short that the hole is all of it */
        h->passes[h->pass_count++] = (PbPass){+1, hole, hole, 0.0};
    }
}

PbHands pb_compare_well_done_hands(const PbExercise *bay)
{
    assert(bay != NULL);
    PbHands h = pb_hands_default();
    set_passes(&h, bay);
    return h;
}

/* Of the time that a stop needs: a choice of ours, no source. */
static const double hasty_share = 0.55, hasty_step_m = 0.6, longest_wait_s = 600.0;

PbHands pb_compare_hasty_hands(const PbExercise *bay)
{
    assert(bay != NULL);
    PbHands h = pb_hands_default();
    snprintf(h.name, sizeof h.name, "two-foot steps by the clock");
    h.pull = PB_PULL_CLOCK;
    h.step_m = hasty_step_m;
    double feed = bay->feed_kg_s > 0.0 ? bay->feed_kg_s : 0.5 * bay->machine.feed_max_kg_s;
    double needs_s = hasty_step_m * bay->width_m * bay->depth_m * bay->target_kg_m3 / feed;
    h.wait_s = hasty_share * needs_s < longest_wait_s ? hasty_share * needs_s : longest_wait_s;
    set_passes(&h, bay);
    return h;
}

PbHands pb_compare_loose_hands(const PbExercise *bay)
{
    assert(bay != NULL);
    PbHands h = pb_hands_default();
    snprintf(h.name, sizeof h.name, "blown at the hole, no tube in the bay");
    h.pull = PB_PULL_NONE;
    h.wait_s = 1.0;
    h.pass_count = bay->hole_count;
    for (int i = 0; i < h.pass_count; i++) {
        h.passes[i] = (PbPass){+1, 0.0, 0.0, i + 1.0};
    }
    return h;
}

/* Hole n at this height, or down from it in hand's breadths until it is clear of what stands in the
 * bay; 0 = nowhere above `least_m`. */
static int set_hole(PbExercise *e, int n, double y_m, double least_m)
{
    char field[96];
    for (e->holes[n].y_m = y_m; e->holes[n].y_m > least_m; e->holes[n].y_m -= 0.1) {
        if (pb_exercise_check(e, field, sizeof field, NULL) == PB_OK) {
            return 1;
        }
    }
    return 0;
}

/* From the hole to the first stop at the farther plate. */
static double reach_m(const PbExercise *e)
{
    double hole = e->holes[0].y_m;
    return pb_max(e->height_m - from_top_m - hole, hole - from_bottom_m);
}

/* What of a tube stays outside and goes into its bend: our choice. */
static const double tube_spare_m = 0.35;

PbExercise pb_compare_dense_bay(const PbExercise *bay)
{
    assert(bay != NULL);
    PbExercise e = *bay;
    double reach = bay->machine.tube_length_m - tube_spare_m;
    if (reach_m(&e) > reach && bay->hole_count == 1 &&
        !set_hole(&e, 0, 0.5 * bay->height_m, bay->holes[0].y_m)) {
        e.holes[0] = bay->holes[0];
    }
    e.machine.tube_length_m = pb_max(e.machine.tube_length_m, reach_m(&e) + tube_spare_m);
    return e;
}

/* An open-blowing machine with a short wide nozzle. Its numbers: common practice, no source; the
 * same as assets/exercises/loose-2x4.json (a test compares). */
static void set_open_blow(PbExercise *e)
{
    e->machine.static_pa = 5000.0;
    e->machine.open_flow_m3_s = 0.04;
    e->machine.curve_exponent = 1.0;
    e->machine.hose_length_m = 30.0;
    e->machine.hose_bore_m = 0.05;
    e->machine.tube_length_m = 0.6;
    e->machine.tube_bore_m = 0.05;
    e->machine.tube_outer_m = 0.056;
    e->machine.feed_max_kg_s = 0.09;
    e->feed_kg_s = 0.03;
}

/* Fill only falls: what is above the highest hole stays empty. The usual way is two holes, one at
 * half the height and one a foot under the top plate; the careless one is a single hole two feet
 * under it and 1.4 times the feed (our choice, no source). */
static const double upper_m = 0.3, careless_m = 0.6, careless_gate = 1.4, two_from_m = 1.5;

PbExercise pb_compare_loose_bay(const PbExercise *bay, PbLooseCase how)
{
    assert(bay != NULL);
    PbExercise e = *bay;
    double under = how == PB_LOOSE_CARELESS ? careless_m : upper_m;
    set_open_blow(&e);
    e.feed_kg_s *= how == PB_LOOSE_CARELESS ? careless_gate : 1.0;
    e.holes[0].bore_m = e.holes[0].bore_m > 0.0635 ? e.holes[0].bore_m : 0.0635;
    e.hole_count = 1;
    if (!set_hole(&e, 0, bay->height_m - under, 0.1)) {
        e.holes[0].y_m = bay->holes[0].y_m;
        return e;
    }
    if (how == PB_LOOSE_FAIR && bay->height_m >= two_from_m) {
        PbExercise two = e;
        two.hole_count = 2;
        two.holes[1] = e.holes[0];
        two.holes[0].y_m = 0.5 * bay->height_m;
        if (set_hole(&two, 0, 0.5 * bay->height_m, 0.25 * bay->height_m)) {
            return two;
        }
    }
    return e;
}

/* A run ends at the exercise's time limit; bleeding and clearing come on top. */
static const double grace_s = 600.0;

static PbStatus step_all(PbSession *session, const PbExercise *bay, const PbHands *hands,
                         const _Atomic int *is_stopping, PbError *err)
{
    PbHandsState state;
    PbCommand commands[16];
    memset(&state, 0, sizeof state);
    long most = (long)((bay->time_limit_s + grace_s) / PB_TICK_S);
    while (!pb_session_is_over(session)) {
        int count = pb_hands_next(hands, &state, pb_session_view(session), commands);
        PbStatus status = pb_session_step(session, commands, count);
        if (status != PB_OK) {
            return pb_fail(err, status, "the packing run stopped: %s", pb_status_name(status));
        }
        if (--most < 0) {
            return pb_fail(err, PB_ERR_NO_RESULT, "the packing run did not end in its time");
        }
        if (is_stopping != NULL && *is_stopping) {
            return pb_fail(err, PB_ERR_STATE, "stopped");
        }
    }
    return PB_OK;
}

/* One packing run: what is packed, and what is asked of it. */
typedef struct Packing {
    PbSessionConfig config;
    PbHands hands;
    const _Atomic int *is_stopping; /* may be NULL */
    int is_blown_out;               /* answer */
} Packing;

static PbStatus pack(Packing *p, PbBayField *field, PbError *err)
{
    PbSession *session;
    PB_TRY(pb_session_create(&p->config, &session, err));
    PbStatus status = step_all(session, &p->config.exercise, &p->hands, p->is_stopping, err);
    if (status == PB_OK) {
        p->is_blown_out = pb_session_view(session)->phase == PB_PHASE_BLOWN_OUT;
        status = pb_session_field(session, field);
    }
    pb_session_destroy(session);
    return status;
}

PbStatus pb_compare_pack(const PbExercise *bay, const PbHands *hands, uint64_t seed,
                         const PbConstants *constants, const PbAllocator *allocator,
                         PbBayField *field, PbError *err)
{
    assert(bay != NULL && hands != NULL);
    Packing p = {.config = pb_session_default(), .hands = *hands};
    p.config.exercise = *bay;
    p.config.constants = *constants;
    p.config.seed = seed;
    p.config.allocator = *allocator;
    return pack(&p, field, err);
}

/* How crews differ who all mean to do the same: step and wait, what they take for a stall, how long
 * a hasty one stays, how far the gate is open for a loose blow. Our choice, no source; the first
 * are the hands as shipped. */
typedef struct Crew {
    double step, wait, stall, stay, gate; /* times what the shipped hands have */
} Crew;

static const Crew crews[COMPARE_VARIANTS] = {{1.0, 1.0, 1.0, 1.0, 1.0},  {0.8, 1.0, 1.0, 0.8, 0.7},
                                             {1.3, 0.5, 1.4, 1.2, 1.35}, {1.6, 0.0, 1.8, 0.9, 0.85},
                                             {2.0, 0.0, 1.8, 1.3, 2.0},  {1.0, 2.0, 0.6, 1.1, 1.0}};

/* Each pass but the last ends on a whole step: a stop within a hand of the one before packs
 * nothing, the hose clogs, and these hands would leave the long way that is still open. */
static void end_on_steps(PbHands *h)
{
    for (int i = 0; i + 1 < h->pass_count; i++) {
        PbPass *p = &h->passes[i];
        double way = p->direction * (p->first_m - p->last_m);
        p->last_m = p->first_m - p->direction * h->step_m * floor(way / h->step_m);
    }
}

/* Hands and gate of a crew in a fill. */
static void set_crew(const PbHouse *h, PbCompareFill fill, const Crew *crew, Packing *p)
{
    PbExercise *bay = &p->config.exercise;
    if (fill == PB_COMPARE_LOOSE) {
        *bay = pb_compare_loose_bay(&h->bay, h->loose);
        p->hands = pb_compare_loose_hands(bay);
        bay->feed_kg_s *= crew->gate;
        return;
    }
    *bay = pb_compare_dense_bay(&h->bay);
    if (h->dense == PB_DENSE_HASTY) {
        p->hands = pb_compare_hasty_hands(bay);
        p->hands.wait_s *= crew->stay;
    } else {
        p->hands = pb_compare_well_done_hands(bay);
        p->hands.step_m *= crew->step;
        p->hands.wait_s *= crew->wait;
        p->hands.stall_frac *= crew->stall;
    }
    if (bay->holes[0].y_m != h->bay.holes[0].y_m) {
        end_on_steps(&p->hands);
    }
}

/* Taller than one story with its plates. */
static const double one_story_m = 3.2;

void compare_set_grid(PbSessionConfig *config, int is_fine)
{
    int is_tall = config->exercise.height_m > one_story_m;
    if (is_tall && !is_fine) {
        config->constants.tuft_kg *= COMPARE_TALL_TUFTS;
    }
    config->cells_across = is_tall    ? (is_fine ? COMPARE_TALL_FINE_ACROSS : COMPARE_TALL_ACROSS)
                           : !is_fine ? COMPARE_PACK_ACROSS
                                      : config->cells_across;
}

PbStatus compare_pack(PbCompare *c, PbCompareFill fill, int index, PbError *err)
{
    const PbHouse *h = &c->setup.house;
    CompareFill *f = &c->fill[fill];
    if (compare_is_own(c, fill)) {
        return PB_OK; /* handed in */
    }
    int is_fine = index == COMPARE_VARIANTS, variant = is_fine ? 0 : index;
    Packing p = {.config = pb_session_default(), .is_stopping = &c->is_stopping};
    set_crew(h, fill, &crews[variant], &p);
    p.config.constants = c->setup.constants;
    p.config.seed = h->seed + (uint64_t)variant;
    p.config.allocator = c->setup.allocator;
    compare_set_grid(&p.config, is_fine);
    PB_TRY(pack(&p, is_fine ? &f->packed : &f->variant[variant], err));
    if (variant == 0) {
        f->is_blown_out[is_fine ? COMPARE_FINE : COMPARE_COARSE] = p.is_blown_out;
    }
    return PB_OK;
}
