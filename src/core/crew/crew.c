/*
 * The crew in front of a closed wall: judges an act, has the wall felt (feel.c) and writes down the
 * answer. Nothing of the wall goes into the record but by an act. Next: crew_belief.c.
 */
#include "core/crew.h"

#include "feel.h"

#include "core/pb_math.h"
#include "core/rng.h"

#include <assert.h>
#include <math.h>
#include <string.h>

#define MINUTES 60.0

/* No minutes of any single act are published that we know of; these are an estimate whose sum fits
 * a house in one to two days by two or three people. A hole in plaster and lath takes twice as
 * long. Words, time, time on plaster, hole, allowed when stopped. */
static const PbCrewActTraits acts[] = {
    {"tap", 0.05 * MINUTES, 0.05 * MINUTES, 0, 1},
    {"measure", 0.4 * MINUTES, 0.4 * MINUTES, 0, 1},
    {"probe", 0.7 * MINUTES, 0.7 * MINUTES, 1, 0},
    {"drill", 1.0 * MINUTES, 2.0 * MINUTES, 1, 0},
    {"tube", 0.4 * MINUTES, 0.4 * MINUTES, 0, 0},
    {"camera", 4.0 * MINUTES, 4.0 * MINUTES, 0, 1},
    {"pencil", 0.0, 0.0, 0, 1},
    {"rub-out", 0.0, 0.0, 0, 1},
    {"leave", 0.4 * MINUTES, 0.4 * MINUTES, 0, 1},
    {"sense", 0.1 * MINUTES, 0.1 * MINUTES, 0, 1},
};
_Static_assert(sizeof acts / sizeof acts[0] == PB_CREW_ACT_KINDS, "a row for each act");

static const char *const feels[] = {"nothing", "finish", "hollow",  "dull", "soft",
                                    "wood",    "metal",  "masonry", "back", "wire"};
_Static_assert(sizeof feels / sizeof feels[0] == PB_FEELS, "a word for each feel");

const PbCrewActTraits *pb_crew_act_traits(PbCrewActKind kind)
{
    return &acts[kind];
}

const char *pb_feel_word(PbFeel feel)
{
    return feels[feel];
}

static void see(PbCrew *crew, PbCrewSeenKind kind, const PbRect *at)
{
    if (crew->seen_count < PB_CREW_SEEN) {
        PbCrewSeen *seen = &crew->seen[crew->seen_count++];
        seen->kind = kind; /* one by one: crews are compared by their bytes */
        seen->at = *at;
    }
}

void pb_crew_begin(const PbFraming *f, uint64_t seed, PbCrew *crew)
{
    memset(crew, 0, sizeof *crew);
    crew->seed = seed;
    crew->length_m = f->length_m;
    crew->height_m = f->height_m;
    crew->finish = f->like.finish;
    crew->bore_m = f->like.holes[0].bore_m;
    crew->cutout_count = f->cutout_count;
    memcpy(crew->cutouts, f->cutouts, sizeof crew->cutouts);
    for (int n = 0; n < f->inside_count; n++) {
        const PbObstacle *o = &f->inside[n];
        if (pb_obstacle_traits(o->kind)->has_cover) {
            see(crew, PB_SEEN_BOX, &(PbRect){o->x0_m, o->y0_m, o->x1_m, o->y1_m});
        }
    }
    for (int n = 0; n < f->opening_count; n++) {
        const PbOpening *o = &f->openings[n];
        if (strstr(o->place, "register") != NULL) { /* the one way out that has a cover itself */
            see(crew, PB_SEEN_REGISTER, &(PbRect){o->x0_m, o->y0_m, o->x1_m, o->y1_m});
        }
    }
}

static int is_on_wall(const PbCrew *crew, double x, double y)
{
    return x >= 0.0 && x <= crew->length_m && y >= 0.0 && y <= crew->height_m;
}

static PbStatus check_state(const PbCrew *crew, const PbCrewAct *a, PbError *err)
{
    if (crew->is_stopped && !acts[a->kind].is_allowed_stopped) {
        return pb_fail(err, PB_ERR_STATE, "the job is stopped: a wire was met");
    }
    if (crew->done_count == PB_CREW_ACTS) {
        return pb_fail(err, PB_ERR_STATE, "the record is full: %d acts", PB_CREW_ACTS);
    }
    if (a->kind == PB_CREW_DRILL && crew->hole_count == PB_CREW_HOLES) {
        return pb_fail(err, PB_ERR_STATE, "the wall has %d holes already", PB_CREW_HOLES);
    }
    if (a->kind == PB_CREW_PENCIL && crew->pencilled_count == PB_MAX_MEMBERS) {
        return pb_fail(err, PB_ERR_STATE, "%d members are drawn already", PB_MAX_MEMBERS);
    }
    if (a->kind == PB_CREW_TUBE && (a->hole < 0 || a->hole >= crew->hole_count ||
                                    crew->holes[a->hole].met != PB_FEEL_NOTHING)) {
        return pb_fail(err, PB_ERR_STATE, "there is no open hole %d", a->hole + 1);
    }
    if (a->kind == PB_CREW_CAMERA && !(a->delta_k >= PB_CREW_CAMERA_K)) {
        return pb_fail(err, PB_ERR_STATE, "a camera shows nothing below a difference of %g K",
                       PB_CREW_CAMERA_K);
    }
    return PB_OK;
}

static PbStatus check_hole(const PbCrew *crew, const PbCrewAct *a, PbError *err)
{
    double bore = a->bore_m == 0.0 ? crew->bore_m : a->bore_m;
    if (!(bore >= 0.02 && bore <= 0.15)) {
        return pb_fail(err, PB_ERR_RANGE, "\"bore_m\": %g is out of range, expected 0.02 to 0.15 m",
                       bore);
    }
    for (int n = 0; n < crew->hole_count; n++) {
        const PbCrewHole *h = &crew->holes[n];
        double dx = h->x_m - a->x_m, dy = h->y_m - a->y_m;
        if (sqrt(dx * dx + dy * dy) < 0.5 * (h->bore_m + bore)) {
            return pb_fail(err, PB_ERR_STATE, "hole %d is there already", n + 1);
        }
    }
    return PB_OK;
}

static PbStatus check_pencil(const PbCrew *crew, const PbCrewAct *a, PbError *err)
{
    if ((int)a->member < 0 || a->member >= PB_MEMBER_KINDS) {
        return pb_fail(err, PB_ERR_RANGE, "there is no such member");
    }
    if (!(a->x1_m - a->x_m >= 1e-3 && a->y1_m - a->y_m >= 1e-3) ||
        !is_on_wall(crew, a->x1_m, a->y1_m)) {
        return pb_fail(err, PB_ERR_RANGE,
                       "expected a member at least 1 mm wide and high, on the wall");
    }
    return PB_OK;
}

static PbStatus check(const PbCrew *crew, const PbCrewAct *a, PbError *err)
{
    if ((int)a->kind < 0 || a->kind >= PB_CREW_ACT_KINDS) {
        return pb_fail(err, PB_ERR_RANGE, "there is no such act");
    }
    PB_TRY(check_state(crew, a, err));
    if (a->kind == PB_CREW_TUBE || a->kind == PB_CREW_CAMERA) {
        return PB_OK;
    }
    if (!is_on_wall(crew, a->x_m, a->y_m)) {
        return pb_fail(err, PB_ERR_RANGE, "%g, %g is not on the wall of %g x %g m", a->x_m, a->y_m,
                       crew->length_m, crew->height_m);
    }
    int touches = a->kind == PB_CREW_TAP || acts[a->kind].leaves_hole;
    const char *cover = touches ? pb_feel_cover(crew, a->x_m, a->y_m) : NULL;
    if (cover != NULL) {
        return pb_fail(err, PB_ERR_RANGE, "%.3f, %.3f m: there is %s", a->x_m, a->y_m, cover);
    }
    if (a->kind == PB_CREW_PROBE && !(fabs(a->right_deg) <= PB_CREW_SLANT_MAX_DEG &&
                                      fabs(a->up_deg) <= PB_CREW_SLANT_MAX_DEG)) {
        return pb_fail(err, PB_ERR_RANGE, "a rod slants %g degrees at most", PB_CREW_SLANT_MAX_DEG);
    }
    if (a->kind == PB_CREW_MEASURE && !is_on_wall(crew, a->x1_m, a->y1_m)) {
        return pb_fail(err, PB_ERR_RANGE, "%g, %g is not on the wall", a->x1_m, a->y1_m);
    }
    if (a->kind == PB_CREW_LEAVE && ((int)a->reason < 1 || a->reason >= PB_LEAVE_REASONS)) {
        return pb_fail(err, PB_ERR_RANGE, "expected a reason for leaving a part");
    }
    return a->kind == PB_CREW_DRILL    ? check_hole(crew, a, err)
           : a->kind == PB_CREW_PENCIL ? check_pencil(crew, a, err)
                                       : PB_OK;
}

/* The ear: each tap of a job has a chance of its own, whatever it is asked. */
static void tap(const PbCrew *crew, const PbFraming *f, const PbCrewAct *a, PbCrewAnswer *out)
{
    PbRng rng = pb_rng_make(crew->seed, 1000u + (uint64_t)crew->done_count);
    double x = a->x_m + PB_CREW_TAP_BLUR_M * (2.0 * pb_rng_uniform(&rng) - 1.0);
    double y = a->y_m + PB_CREW_TAP_BLUR_M * (2.0 * pb_rng_uniform(&rng) - 1.0);
    out->feel = pb_feel_tap(f, x, y);
}

static void drill(PbCrew *crew, const PbFraming *f, PbCrewAct *a, PbCrewAnswer *out)
{
    a->bore_m = a->bore_m == 0.0 ? crew->bore_m : a->bore_m;
    out->feel = pb_feel_saw(f, a->x_m, a->y_m, a->bore_m);
    crew->is_stopped |= out->feel == PB_FEEL_WIRE;
    crew->holes[crew->hole_count++] =
        (PbCrewHole){a->x_m, a->y_m, a->bore_m, out->feel, crew->done_count};
}

static void rub_out(PbCrew *crew, const PbCrewAct *a)
{
    int best = -1;
    double nearest = 0.05;
    for (int n = 0; n < crew->pencilled_count; n++) {
        const PbRect *r = &crew->pencilled[n].at;
        double dx = pb_max(pb_max(r->x0_m - a->x_m, a->x_m - r->x1_m), 0.0);
        double dy = pb_max(pb_max(r->y0_m - a->y_m, a->y_m - r->y1_m), 0.0);
        double away = sqrt(dx * dx + dy * dy);
        if (away <= nearest) {
            nearest = away;
            best = n;
        }
    }
    if (best >= 0) {
        int after = --crew->pencilled_count - best;
        memmove(&crew->pencilled[best], &crew->pencilled[best + 1],
                (size_t)after * sizeof *crew->pencilled);
        memset(&crew->pencilled[crew->pencilled_count], 0, sizeof *crew->pencilled);
    }
}

static void carry_out(PbCrew *crew, const PbFraming *f, PbCrewAct *a, PbCrewAnswer *out)
{
    switch (a->kind) {
    case PB_CREW_TAP:
        tap(crew, f, a, out);
        break;
    case PB_CREW_MEASURE:
        out->reach_m =
            sqrt((a->x1_m - a->x_m) * (a->x1_m - a->x_m) + (a->y1_m - a->y_m) * (a->y1_m - a->y_m));
        break;
    case PB_CREW_PROBE:
        pb_feel_rod(f, a, out);
        break;
    case PB_CREW_DRILL:
        drill(crew, f, a, out);
        break;
    case PB_CREW_TUBE:
        out->feel = pb_feel_tube(f, &crew->holes[a->hole], a->is_up, &out->reach_m);
        break;
    case PB_CREW_CAMERA:
        crew->shade_count = pb_feel_shades(f, crew->shades);
        break;
    case PB_CREW_PENCIL:
        crew->pencilled[crew->pencilled_count++] =
            (PbMember){a->member, {a->x_m, a->y_m, a->x1_m, a->y1_m}};
        break;
    case PB_CREW_RUB_OUT:
        rub_out(crew, a);
        break;
    case PB_CREW_SENSE:
        out->feel = pb_feel_wire(f, a->x_m, a->y_m) ? PB_FEEL_WIRE : PB_FEEL_NOTHING;
        break;
    case PB_CREW_LEAVE:
    case PB_CREW_ACT_KINDS:
        break;
    }
}

PbStatus pb_crew_do(PbCrew *crew, const PbFraming *f, const PbCrewAct *act, PbError *err)
{
    assert(crew != NULL && f != NULL && act != NULL);
    PB_TRY(check(crew, act, err));
    const PbCrewActTraits *traits = &acts[act->kind];
    PbCrewDone *done = &crew->done[crew->done_count];
    memset(done, 0, sizeof *done);
    done->act = *act;
    carry_out(crew, f, &done->act, &done->answer);
    done->answer.time_s =
        pb_finish_traits(crew->finish)->is_dull ? traits->time_hard_s : traits->time_s;
    crew->time_s += done->answer.time_s;
    done->at_s = crew->time_s;
    crew->done_count++;
    return PB_OK;
}

int pb_crew_count(const PbCrew *crew, PbCrewActKind kind)
{
    int count = 0;
    for (int n = 0; n < crew->done_count; n++) {
        count += crew->done[n].act.kind == kind;
    }
    return count;
}
