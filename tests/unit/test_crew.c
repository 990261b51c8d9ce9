/* What the acts of a crew answer, what they cost, and that nothing comes back which they did not
 * touch. */
#include "suite.h"

#include "core/crew_belief.h"
#include "core/rng.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const double W = 0.038;
static PbFraming f, other;
static PbCrew crew, twin;

static void add(PbMemberKind kind, double x0, double y0, double x1, double y1)
{
    f.members[f.member_count++] = (PbMember){kind, {x0, y0, x1, y1}};
}

static void inside(PbObstacleKind kind, double x0, double y0, double x1, double y1, double size,
                   double share)
{
    f.inside[f.inside_count++] = (PbObstacle){kind, x0, y0, x1, y1, size, share};
}

/* 3 x 2.4 m behind 1/2 in board: studs at 0.4, 0.8, 1.2, ..., a block, a pipe, a cable, a box, a
 * brace let in, an old batt, a window and a chimney. */
static void start(void)
{
    memset(&f, 0, sizeof f);
    snprintf(f.id, sizeof f.id, "wall");
    snprintf(f.title, sizeof f.title, "A wall");
    f.length_m = 3.0;
    f.height_m = 2.4;
    f.like = pb_exercise_default();
    add(PB_MEMBER_PLATE, 0.0, 0.0, 3.0, W);
    add(PB_MEMBER_PLATE, 0.0, 2.4 - W, 3.0, 2.4);
    for (int n = 1; n < 7; n++) {
        add(PB_MEMBER_STUD, 0.4 * n, W, 0.4 * n + W, n == 5 ? 1.0 : 2.4 - W);
    }
    add(PB_MEMBER_BLOCK, 0.4 + W, 1.6, 0.8, 1.6 + W);
    inside(PB_OBSTACLE_BOX, 0.8 + W, 0.3, 0.9, 0.4, 0.0, 0.7);
    inside(PB_OBSTACLE_CABLE, 1.0, 0.4, 1.0, 2.3, 0.008, 0.1);
    inside(PB_OBSTACLE_PIPE, 1.4, 0.1, 1.4, 2.3, 0.05, 0.5);
    inside(PB_OBSTACLE_BRACE, 0.0, 2.0, 0.4, 2.3, 0.1, 0.3);
    inside(PB_OBSTACLE_BATT, 0.4 + W, 0.1, 0.8, 1.5, 0.0, 0.5);
    f.cutouts[f.cutout_count++] = (PbCutout){PB_CUTOUT_WINDOW, {1.7, 1.2, 2.3, 2.0}};
    f.cutouts[f.cutout_count++] = (PbCutout){PB_CUTOUT_CHIMNEY, {2.6, W, 3.0, 2.4 - W}};
    f.openings[f.opening_count++] = (PbOpening){1.8, 0.1, 2.0, 0.2, 0.02, 0.09, "wall register"};
    f.openings[f.opening_count++] = (PbOpening){0.1, 0.0, 0.3, 0.0, 0.02, 0.09, "open below"};
    char field[96];
    PbError err = {0};
    /* the middle stud ends under the window */
    f.members[6].at.x0_m = 1.7 - W;
    f.members[6].at.x1_m = 1.7;
    f.members[6].at.y1_m = 2.4 - W;
    ck_assert_msg(pb_framing_check(&f, field, sizeof field, &err) == PB_OK, "%s: %s", field,
                  err.message);
    pb_crew_begin(&f, 7, &crew);
}

static const PbCrewAnswer *act(PbCrewAct a)
{
    PbError err = {0};
    ck_assert_msg(pb_crew_do(&crew, &f, &a, &err) == PB_OK, "%s", err.message);
    return &crew.done[crew.done_count - 1].answer;
}

static const PbCrewAnswer *probe(double x, double y, double right, double up)
{
    return act(
        (PbCrewAct){.kind = PB_CREW_PROBE, .x_m = x, .y_m = y, .right_deg = right, .up_deg = up});
}

START_TEST(what_is_in_sight_and_nothing_else)
{
    start();
    ck_assert_int_eq(crew.cutout_count, 2);
    ck_assert_int_eq(crew.seen_count, 2); /* the box and the register, not the open foot */
    ck_assert_int_eq(crew.seen[0].kind, PB_SEEN_BOX);
    ck_assert_double_eq(crew.seen[1].at.x0_m, 1.8);
    ck_assert_int_eq(crew.done_count + crew.hole_count + crew.shade_count, 0);
}
END_TEST

/* x, y, slant: what stops the rod, at which depth, and how many layers. */
static const struct {
    double x, y, right, up;
    PbFeel feel;
    double reach_m;
    int layers;
    PbFeel second;
} RODS[] = {
    {0.2, 1.0, 0, 0, PB_FEEL_BACK, 0.10, 2, PB_FEEL_HOLLOW},   /* 13 and 89 mm */
    {0.42, 1.0, 0, 0, PB_FEEL_WOOD, 0.013, 1, PB_FEEL_FINISH}, /* a stud behind the board */
    {0.2, 2.15, 0, 0, PB_FEEL_WOOD, 0.08, 2, PB_FEEL_HOLLOW},  /* a brace let in at the back */
    {0.6, 1.0, 0, 0, PB_FEEL_BACK, 0.10, 4, PB_FEEL_HOLLOW},   /* air, batt, air */
    {1.4, 1.0, 0, 0, PB_FEEL_METAL, 0.03, 2, PB_FEEL_HOLLOW},  /* the pipe in the middle */
    {2.8, 1.0, 0, 0, PB_FEEL_MASONRY, 0.013, 1, PB_FEEL_FINISH},
    {1.0, 1.0, 0, 0, PB_FEEL_BACK, 0.10, 4, PB_FEEL_HOLLOW}, /* a cable gives */
    /* 75 degrees to the right from 0.2: the stud at 0.400 is 0.207 m along the rod */
    {0.2, 1.0, 75, 0, PB_FEEL_WOOD, 0.21, 2, PB_FEEL_HOLLOW},
    {0.2, 1.0, -75, 0, PB_FEEL_NOTHING, 0.30, 2, PB_FEEL_HOLLOW}, /* no stud at the corner */
    {0.6, 1.57, 0, 75, PB_FEEL_WOOD, 0.049, 1, PB_FEEL_FINISH},   /* the block, upwards */
};

START_TEST(a_rod_says_what_stops_it)
{
    start();
    const PbCrewAnswer *a = probe(RODS[_i].x, RODS[_i].y, RODS[_i].right, RODS[_i].up);
    ck_assert_str_eq(pb_feel_word(a->feel), pb_feel_word(RODS[_i].feel));
    ck_assert_double_eq_tol(a->reach_m, RODS[_i].reach_m, 1e-9);
    ck_assert_int_eq(a->layer_count, RODS[_i].layers);
    ck_assert_int_eq(a->layers[0].feel, PB_FEEL_FINISH);
    if (a->layer_count > 1) {
        ck_assert_int_eq(a->layers[1].feel, RODS[_i].second);
        ck_assert_double_eq_tol(a->layers[a->layer_count - 1].to_m, a->reach_m, 1e-9);
    }
}
END_TEST

/* Within 40 mm of an edge a tap may say either; beyond it says what is there. */
START_TEST(a_tap_is_blurred_over_40_mm)
{
    int dull = 0;
    start();
    for (int n = 0; n < 200; n++) {
        ck_assert_int_eq(act((PbCrewAct){PB_CREW_TAP, .x_m = 0.2, .y_m = 1.0})->feel,
                         PB_FEEL_HOLLOW);
        dull += act((PbCrewAct){PB_CREW_TAP, .x_m = 0.4, .y_m = 1.0})->feel == PB_FEEL_DULL;
    }
    ck_assert_int_gt(dull, 60); /* at the face itself 38 of 80 mm: 95, SD 7 */
    ck_assert_int_lt(dull, 130);
    ck_assert_double_eq_tol(crew.time_s, 400 * 3.0, 1e-6);
    f.like.finish = PB_FINISH_PLASTER;
    pb_crew_begin(&f, 7, &crew);
    ck_assert_int_eq(act((PbCrewAct){PB_CREW_TAP, .x_m = 0.2, .y_m = 1.0})->feel, PB_FEEL_DULL);
}
END_TEST

START_TEST(holes_tube_tape_and_camera)
{
    start();
    const PbCrewAct hole = {PB_CREW_DRILL, .x_m = 0.6, .y_m = 0.9};
    ck_assert_int_eq(act(hole)->feel, PB_FEEL_NOTHING);
    ck_assert_double_eq(crew.holes[0].bore_m, f.like.holes[0].bore_m);
    const PbCrewAnswer *a = act((PbCrewAct){PB_CREW_TUBE, .hole = 0, .is_up = 1});
    ck_assert_int_eq(a->feel, PB_FEEL_WOOD); /* the block; the thin batt lets it by */
    ck_assert_double_eq_tol(a->reach_m, 0.7, 0.0101);
    a = act((PbCrewAct){PB_CREW_TUBE, .hole = 0, .is_up = 0});
    ck_assert_double_eq_tol(a->reach_m, 0.86, 1e-9); /* down to the plate */
    a = act((PbCrewAct){PB_CREW_MEASURE, .x_m = 0.4, .y_m = 1.0, .x1_m = 0.8, .y1_m = 1.3});
    ck_assert_double_eq_tol(a->reach_m, 0.5, 1e-12);
    ck_assert_int_eq(act((PbCrewAct){PB_CREW_DRILL, .x_m = 0.4, .y_m = 1.0})->feel, PB_FEEL_WOOD);
    ck_assert_int_eq(act((PbCrewAct){PB_CREW_DRILL, .x_m = 0.92, .y_m = 0.35})->feel,
                     PB_FEEL_METAL); /* a box */
    ck_assert_int_eq(act((PbCrewAct){PB_CREW_SENSE, .x_m = 1.04, .y_m = 1.0})->feel, PB_FEEL_WIRE);
    ck_assert_int_eq(act((PbCrewAct){PB_CREW_SENSE, .x_m = 1.1, .y_m = 1.0})->feel,
                     PB_FEEL_NOTHING);
    (void)act((PbCrewAct){PB_CREW_CAMERA, .delta_k = 12.0});
    ck_assert_int_eq(crew.shade_count, f.member_count + 1); /* the batt; no pipe, no cable */
    ck_assert_double_eq_tol(crew.shades[2].at.x1_m - crew.shades[2].at.x0_m, 0.05, 1e-9);
}
END_TEST

START_TEST(a_wire_stops_the_job)
{
    PbError err = {0};
    start();
    ck_assert_int_eq(act((PbCrewAct){PB_CREW_DRILL, .x_m = 1.02, .y_m = 1.0})->feel, PB_FEEL_WIRE);
    ck_assert_int_eq(crew.is_stopped, 1);
    PbCrewAct next = {PB_CREW_PROBE, .x_m = 0.2, .y_m = 1.0};
    ck_assert_int_eq(pb_crew_do(&crew, &f, &next, &err), PB_ERR_STATE);
    ck_assert_str_eq(err.message, "the job is stopped: a wire was met");
    (void)act((PbCrewAct){PB_CREW_LEAVE, .x_m = 1.0, .y_m = 1.0, .reason = PB_LEAVE_OPEN_WIRING});
}
END_TEST

static const struct {
    PbCrewAct act;
    const char *message;
} REFUSALS[] = {
    {{PB_CREW_TAP, .x_m = 3.1}, "3.1, 0 is not on the wall of 3 x 2.4 m"},
    {{PB_CREW_PROBE, .x_m = NAN}, "nan, 0 is not on the wall of 3 x 2.4 m"},
    {{PB_CREW_DRILL, .x_m = 2.0, .y_m = 1.5}, "2.000, 1.500 m: there is window"},
    {{PB_CREW_PROBE, .x_m = 0.85, .y_m = 0.35}, "0.850, 0.350 m: there is the cover of a box"},
    {{PB_CREW_PROBE, .x_m = 0.2, .right_deg = 80}, "a rod slants 75 degrees at most"},
    {{PB_CREW_DRILL, .x_m = 0.2, .bore_m = 1.0},
     "\"bore_m\": 1 is out of range, expected 0.02 to 0.15 m"},
    {{PB_CREW_TUBE, .hole = 3}, "there is no open hole 4"},
    {{PB_CREW_CAMERA, .delta_k = 9.0}, "a camera shows nothing below a difference of 10 K"},
    {{PB_CREW_LEAVE, .x_m = 0.2}, "expected a reason for leaving a part"},
    {{PB_CREW_PENCIL, .x_m = 1.0, .x1_m = 0.9, .y1_m = 1.0},
     "expected a member at least 1 mm wide and high, on the wall"},
    {{.kind = (PbCrewActKind)99}, "there is no such act"},
};

START_TEST(what_cannot_be_done_is_refused_and_changes_nothing)
{
    PbError err = {0};
    start();
    twin = crew;
    ck_assert_int_ne(pb_crew_do(&crew, &f, &REFUSALS[_i].act, &err), PB_OK);
    ck_assert_str_eq(err.message, REFUSALS[_i].message);
    ck_assert_mem_eq(&crew, &twin, sizeof crew);
}
END_TEST

/* What an act can reach. */
static PbRect reach_of(const PbCrew *c, const PbCrewAct *a)
{
    double x = a->x_m, y = a->y_m, away = 0.05;
    if (a->kind == PB_CREW_PROBE) {
        double dx = a->right_deg > 0 ? PB_CREW_ROD_M : 0.0, dy = a->up_deg > 0 ? PB_CREW_ROD_M : 0;
        double ex = a->right_deg < 0 ? PB_CREW_ROD_M : 0.0, ey = a->up_deg < 0 ? PB_CREW_ROD_M : 0;
        return (PbRect){x - ex, y - ey, x + dx, y + dy};
    }
    if (a->kind == PB_CREW_TUBE) {
        x = c->holes[a->hole].x_m;
        return (PbRect){x - away, 0.0, x + away, c->height_m};
    }
    return (PbRect){x - away, y - away, x + away, y + away};
}

static PbCrewAct random_act(PbRng *rng, const PbCrew *c)
{
    static const PbCrewActKind kinds[] = {PB_CREW_TAP,   PB_CREW_PROBE, PB_CREW_PROBE,
                                          PB_CREW_DRILL, PB_CREW_SENSE, PB_CREW_TUBE};
    PbCrewAct a = {.kind = kinds[(int)(6.0 * pb_rng_uniform(rng))]};
    a.x_m = 3.0 * pb_rng_uniform(rng);
    a.y_m = 2.4 * pb_rng_uniform(rng);
    if (pb_rng_uniform(rng) < 0.5) {
        a.right_deg = 150.0 * pb_rng_uniform(rng) - 75.0;
    }
    a.hole = (int)(c->hole_count * pb_rng_uniform(rng));
    a.is_up = pb_rng_uniform(rng) < 0.5;
    return a;
}

static int is_touched(const PbRect *list, int count, double x0, double y0, double x1, double y1)
{
    int is = 0;
    for (int n = 0; n < count; n++) {
        is |= x0 - 0.1 < list[n].x1_m && x1 + 0.1 > list[n].x0_m && y0 - 0.1 < list[n].y1_m &&
              y1 + 0.1 > list[n].y0_m;
    }
    return is;
}

/* The same room with everything hidden that no act reached gone, and other things in its place. */
static void replace_hidden(const PbRect *list, int count)
{
    other = f;
    other.member_count = other.inside_count = 0;
    for (int n = 0; n < f.member_count; n++) {
        const PbRect *r = &f.members[n].at;
        if (is_touched(list, count, r->x0_m, r->y0_m, r->x1_m, r->y1_m)) {
            other.members[other.member_count++] = f.members[n];
        }
    }
    for (int n = 0; n < f.inside_count; n++) {
        const PbObstacle *o = &f.inside[n];
        double x0 = fmin(o->x0_m, o->x1_m), x1 = fmax(o->x0_m, o->x1_m);
        if (pb_obstacle_traits(o->kind)->has_cover ||
            is_touched(list, count, x0, o->y0_m, x1, o->y1_m)) {
            other.inside[other.inside_count++] = *o;
        }
    }
    for (double x = 0.05; x < 2.5; x += 0.1) { /* lumber and wires where there was air */
        if (!is_touched(list, count, x, 0.9, x + W, 1.1)) {
            other.members[other.member_count++] = (PbMember){PB_MEMBER_BLOCK, {x, 0.9, x + W, 1.1}};
            other.inside[other.inside_count++] =
                (PbObstacle){PB_OBSTACLE_CABLE, x, 1.0, x, 1.1, 0.008, 0.3};
        }
    }
    memset(other.leave, 0, sizeof other.leave);
    other.opening_count = 1; /* the register is in sight, the open foot is not */
    snprintf(other.title, sizeof other.title, "Another wall");
}

START_TEST(nothing_hidden_leaks)
{
    static PbRect reach[64];
    static PbCrewAct acts[64];
    PbRng rng = pb_rng_make(3, 1);
    int replaced = 0;
    for (int round = 0; round < 500; round++) {
        int count = 0;
        start();
        for (int n = 0; n < 12 && !crew.is_stopped; n++) {
            PbCrewAct a = random_act(&rng, &crew);
            if (pb_crew_do(&crew, &f, &a, NULL) == PB_OK) {
                reach[count] = reach_of(&crew, &a);
                acts[count++] = a;
            }
        }
        replace_hidden(reach, count);
        replaced += other.member_count != f.member_count;
        pb_crew_begin(&other, 7, &twin);
        for (int n = 0; n < count; n++) {
            ck_assert_int_eq(pb_crew_do(&twin, &other, &acts[n], NULL), PB_OK);
        }
        ck_assert_mem_eq(&crew, &twin, sizeof crew);
    }
    ck_assert_int_gt(replaced, 400);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("crew");
    TCase *t = tcase_create("normal");
    tcase_set_timeout(t, 60);
    tcase_add_test(t, what_is_in_sight_and_nothing_else);
    tcase_add_loop_test(t, a_rod_says_what_stops_it, 0, sizeof RODS / sizeof RODS[0]);
    tcase_add_test(t, a_tap_is_blurred_over_40_mm);
    tcase_add_test(t, holes_tube_tape_and_camera);
    tcase_add_test(t, a_wire_stops_the_job);
    tcase_add_loop_test(t, what_cannot_be_done_is_refused_and_changes_nothing, 0,
                        sizeof REFUSALS / sizeof REFUSALS[0]);
    tcase_add_test(t, nothing_hidden_leaks);
    suite_add_tcase(suite, t);
    return run_suite(suite);
}
