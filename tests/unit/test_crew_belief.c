/* What a crew makes of its answers: where lumber is believed, which parts it can speak of, and how
 * they compare with the bays once the wall is open. */
#include "suite.h"

#include "core/crew_belief.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const double W = 0.038;
static PbFraming f, believed;
static PbCrew crew;
static PbBays *truth, *parts;
static PbCrewPart known[512];
static PbCrewFound found[512];

static void add(PbMemberKind kind, double x0, double y0, double x1, double y1)
{
    f.members[f.member_count++] = (PbMember){kind, {x0, y0, x1, y1}};
}

/* 1.6 x 2.4 m: studs at 0.4 and at 0.85, which is off its place; a block in the second bay; a
 * window at the right. */
static void start(void)
{
    memset(&f, 0, sizeof f);
    snprintf(f.id, sizeof f.id, "wall");
    snprintf(f.title, sizeof f.title, "A wall");
    f.length_m = 1.6;
    f.height_m = 2.4;
    f.like = pb_exercise_default();
    add(PB_MEMBER_PLATE, 0.0, 0.0, 1.6, W);
    add(PB_MEMBER_PLATE, 0.0, 2.4 - 2.0 * W, 1.6, 2.4);
    add(PB_MEMBER_STUD, 0.0, W, W, 2.4 - 2.0 * W);
    add(PB_MEMBER_STUD, 0.4, W, 0.4 + W, 2.4 - 2.0 * W);
    add(PB_MEMBER_STUD, 0.85, W, 0.85 + W, 2.4 - 2.0 * W);
    add(PB_MEMBER_STUD, 1.6 - W, W, 1.6, 2.4 - 2.0 * W);
    add(PB_MEMBER_BLOCK, 0.4 + W, 1.5, 0.85, 1.5 + W);
    add(PB_MEMBER_SILL, 0.85 + W, 0.9 - W, 1.6 - W, 0.9);
    add(PB_MEMBER_HEADER, 0.85 + W, 1.9, 1.6 - W, 2.04);
    f.cutouts[f.cutout_count++] = (PbCutout){PB_CUTOUT_WINDOW, {0.85 + W, 0.9, 1.6 - W, 1.9}};
    pb_crew_begin(&f, 1, &crew);
}

static void act(PbCrewAct a)
{
    PbError err = {0};
    ck_assert_msg(pb_crew_do(&crew, &f, &a, &err) == PB_OK, "%s", err.message);
}

static void probe(double x, double y, double right)
{
    act((PbCrewAct){.kind = PB_CREW_PROBE, .x_m = x, .y_m = y, .right_deg = right});
}

static void compare(void)
{
    char field[96];
    PbError err = {0};
    PbAllocator allocator = pb_allocator_default();
    pb_crew_framing(&crew, &f.like, &believed);
    ck_assert_msg(pb_framing_check(&believed, field, sizeof field, &err) == PB_OK, "%s: %s", field,
                  err.message);
    ck_assert_int_eq(pb_bays_create(&f, &allocator, &truth), PB_OK);
    ck_assert_int_eq(pb_bays_create(&believed, &allocator, &parts), PB_OK);
    pb_crew_parts(&crew, parts, known);
    pb_crew_compare(&crew, truth, parts, found);
}

static void stop(void)
{
    pb_bays_destroy(truth);
    pb_bays_destroy(parts);
}

static const PbBelieved *lumber_at(double x, double y)
{
    static PbBelieved list[PB_MAX_MEMBERS];
    int count = pb_crew_lumber(&crew, list);
    for (int n = 0; n < count; n++) {
        const PbRect *r = &list[n].member.at;
        if (x >= r->x0_m && x <= r->x1_m && y >= r->y0_m && y <= r->y1_m) {
            return &list[n];
        }
    }
    return NULL;
}

/* Nothing done: plates, corners and what frames the window; no part that anybody could name. */
START_TEST(in_sight_are_plates_corners_and_the_window)
{
    int count;
    start();
    ck_assert_int_eq(lumber_at(0.8, 0.01)->member.kind, PB_MEMBER_PLATE);
    ck_assert_int_eq(lumber_at(0.87, 1.4)->member.kind, PB_MEMBER_JACK);
    ck_assert_int_eq(lumber_at(1.2, 1.95)->member.kind, PB_MEMBER_HEADER);
    ck_assert_ptr_null(lumber_at(0.42, 1.0));
    compare();
    (void)pb_bays_list(parts, &count);
    for (int n = 0; n < count; n++) {
        ck_assert_int_eq(known[n].is_felt, 0);
    }
    (void)pb_bays_list(truth, &count);
    for (int n = 0; n < count; n++) {
        ck_assert_int_eq(found[n].is_found, 0);
    }
    stop();
}
END_TEST

/* A rod to both sides brings each face to 10 mm; wood met once is a guess. */
START_TEST(two_slanted_rods_make_a_stud)
{
    start();
    probe(0.41, 1.0, 0.0);
    ck_assert_int_eq(lumber_at(0.41, 1.0)->surety, PB_SURE_GUESS);
    probe(0.3, 1.0, 75.0);
    probe(0.55, 1.0, -75.0);
    const PbBelieved *stud = lumber_at(0.42, 2.0);
    ck_assert_int_eq(stud->surety, PB_SURE_PROBED);
    ck_assert_double_eq_tol(stud->member.at.x0_m, 0.4, 0.006);
    ck_assert_double_eq_tol(stud->member.at.x1_m, 0.4 + W, 0.006);
    ck_assert_double_eq_tol(stud->member.at.y1_m, 2.4 - 2.0 * W, 1e-9);
}
END_TEST

/* The block nobody felt joins two bays into one part: the larger is found, the smaller missed. */
START_TEST(a_block_nobody_felt_hides_a_bay)
{
    start();
    probe(0.6, 1.0, -75.0);
    probe(0.6, 1.0, 75.0);
    compare();
    int low = pb_bays_at(truth, 0.6, 1.0), high = pb_bays_at(truth, 0.6, 1.8);
    ck_assert_int_ne(low, high);
    ck_assert_int_eq(found[low].is_found, 1);
    ck_assert_int_eq(found[high].is_found, 0);
    stop();
    act((PbCrewAct){.kind = PB_CREW_DRILL, .x_m = 0.6, .y_m = 1.0});
    act((PbCrewAct){.kind = PB_CREW_TUBE, .hole = 0, .is_up = 1});
    probe(0.6, 1.7, 0.0);
    ck_assert_int_eq(lumber_at(0.6, 1.51)->member.kind, PB_MEMBER_BLOCK);
    ck_assert_double_eq_tol(lumber_at(0.6, 1.51)->member.at.y0_m, 1.5, 0.011);
    compare();
    ck_assert_int_eq(found[low].hole, 0);
    ck_assert_int_eq(found[high].is_found, 1);
    ck_assert_int_eq(known[found[low].part].is_high_felt, 1);
    ck_assert_int_eq(known[found[low].part].is_low_felt, 0);
    ck_assert_double_eq_tol(known[found[high].part].depth_m, f.like.depth_m, 0.006);
    stop();
}
END_TEST

START_TEST(over_and_under_the_window_are_parts_once_felt)
{
    start();
    probe(1.2, 0.4, 0.0);
    act((PbCrewAct){.kind = PB_CREW_DRILL, .x_m = 1.2, .y_m = 2.2});
    act((PbCrewAct){.kind = PB_CREW_LEAVE, .x_m = 1.2, .y_m = 0.4, .reason = PB_LEAVE_LEAK});
    compare();
    int under = pb_bays_at(truth, 1.2, 0.4), over = pb_bays_at(truth, 1.2, 2.2);
    ck_assert_int_eq(found[under].left, PB_LEAVE_LEAK);
    ck_assert_int_eq(known[found[under].part].left, PB_LEAVE_LEAK);
    ck_assert_int_eq(found[under].is_found, 1);
    ck_assert_int_eq(found[over].hole, 0);
    ck_assert_int_eq(known[found[over].part].holes, 1);
    stop();
}
END_TEST

/* What is drawn is believed, until it is rubbed out; wood felt in it makes it sure. */
START_TEST(pencil_and_rub_out)
{
    start();
    act((PbCrewAct){.kind = PB_CREW_PENCIL, .x_m = 0.4, .y_m = W, .x1_m = 0.438, .y1_m = 2.3});
    ck_assert_int_eq(lumber_at(0.42, 1.0)->surety, PB_SURE_GUESS);
    probe(0.41, 1.0, 0.0);
    ck_assert_int_eq(lumber_at(0.42, 2.0)->surety, PB_SURE_PROBED);
    act((PbCrewAct){.kind = PB_CREW_RUB_OUT, .x_m = 0.42, .y_m = 1.0});
    ck_assert_int_eq(lumber_at(0.415, 2.0)->surety, PB_SURE_GUESS);
    ck_assert_int_eq(crew.pencilled_count, 0);
    ck_assert_double_eq(crew.time_s, 0.7 * 60.0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("crew belief");
    TCase *t = tcase_create("normal");
    tcase_add_test(t, in_sight_are_plates_corners_and_the_window);
    tcase_add_test(t, two_slanted_rods_make_a_stud);
    tcase_add_test(t, a_block_nobody_felt_hides_a_bay);
    tcase_add_test(t, over_and_under_the_window_are_parts_once_felt);
    tcase_add_test(t, pencil_and_rub_out);
    suite_add_tcase(suite, t);
    return run_suite(suite);
}
