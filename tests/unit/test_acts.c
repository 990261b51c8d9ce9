/* Acts besides packing, at the session: each does what it says, is refused when it cannot be done,
 * and one that was refused leaves the bay as it was. */
#include "suite.h"

#include "core/session.h"

#include <math.h>
#include <string.h>

/* Two parts of a bay with a block between them, a hole in each; a box with a gap low down, and a
 * gap that nobody sees. */
static PbSession *two_holes(void)
{
    PbSessionConfig config = pb_session_default();
    PbExercise *e = &config.exercise;
    PbSession *s;
    PbError err = {0};
    e->holes[1] = pb_hole_default();
    e->holes[1].x_m = 0.184;
    e->holes[1].y_m = 1.65;
    e->hole_count = 2;
    e->obstacles[0] = (PbObstacle){PB_OBSTACLE_BLOCK, 0.0, 1.2, 0.368, 1.238, 0.0, 1.0};
    e->obstacles[1] = (PbObstacle){PB_OBSTACLE_BOX, 0.0, 0.8, 0.06, 0.9, 0.0, 0.75};
    e->obstacle_count = 2;
    e->openings[0] = (PbOpening){0.0, 0.8, 0.06, 0.9, 3e-4, 0.008, "outlet box"};
    e->openings[1] = (PbOpening){0.3, 2.2, 0.35, 2.25, 3e-4, 0.008, "gap"};
    e->opening_count = 2;
    ck_assert_msg(pb_session_create(&config, &s, &err) == PB_OK, "%s", err.message);
    return s;
}

static const PbActs *acts(const PbSession *s)
{
    return &pb_session_view(s)->signals.acts;
}

static void give(PbSession *s, PbCommandKind kind, double value)
{
    const PbCommand c = {kind, value};
    ck_assert_int_eq(pb_session_step(s, &c, 1), PB_OK);
}

static void wait_for(PbSession *s, double seconds)
{
    for (int i = 0; i < (int)(seconds / PB_TICK_S + 0.5); i++) {
        ck_assert_int_eq(pb_session_step(s, NULL, 0), PB_OK);
    }
}

/* Value of an event of the last step; 0 = there was none. */
static double told(const PbSession *s, PbEventKind kind)
{
    int count;
    const PbEvent *e = pb_session_events(s, &count);
    for (int i = 0; i < count; i++) {
        if (e[i].kind == kind) {
            return e[i].value;
        }
    }
    return 0.0;
}

static void is_refused(PbSession *s, PbCommandKind kind, double value, PbRefusal why)
{
    PbActs before = *acts(s);
    give(s, kind, value);
    ck_assert_double_eq(told(s, PB_EVENT_ACT_REFUSED), why);
    ck_assert_int_eq(acts(s)->hole, before.hole);
    ck_assert_double_eq(acts(s)->minutes, before.minutes);
    ck_assert_mem_eq(acts(s)->is_sealed, before.is_sealed, sizeof before.is_sealed);
    ck_assert_mem_eq(acts(s)->is_hole_open, before.is_hole_open, sizeof before.is_hole_open);
}

START_TEST(what_is_not_in_the_bay_is_out_of_range)
{
    static const PbCommand bad[] = {
        {PB_COMMAND_HOLE, 0.0},   {PB_COMMAND_HOLE, 3.0},  {PB_COMMAND_HOLE, 1.5},
        {PB_COMMAND_HOLE, 9.0},   {PB_COMMAND_PLUG, 3.0},  {PB_COMMAND_PLUG, -1.0},
        {PB_COMMAND_SEAL, 0.0},   {PB_COMMAND_SEAL, 3.0},  {PB_COMMAND_RING, -0.01},
        {PB_COMMAND_RING, 1.01},  {PB_COMMAND_LEAVE, 0.0}, {PB_COMMAND_LEAVE, PB_LEAVE_REASONS},
        {PB_COMMAND_LEAVE, 1.25},
    };
    PbSession *s = two_holes();
    uint64_t before = pb_session_hash(s);
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        PbCommand nan = {bad[i].kind, (double)NAN};
        ck_assert_msg(pb_session_step(s, &bad[i], 1) == PB_ERR_RANGE, "%zu", i);
        ck_assert_int_eq(pb_session_step(s, &nan, 1), PB_ERR_RANGE);
    }
    ck_assert(pb_session_hash(s) == before);
    pb_session_destroy(s);
}
END_TEST

START_TEST(the_tube_goes_to_another_hole_only_when_it_is_out)
{
    PbSession *s = two_holes();
    give(s, PB_COMMAND_TUBE_TARGET, 0.3);
    wait_for(s, 2.0);
    is_refused(s, PB_COMMAND_HOLE, 2.0, PB_REFUSED_TUBE_IN);
    is_refused(s, PB_COMMAND_STATIC_TEST, 1.0, PB_REFUSED_TUBE_IN);
    give(s, PB_COMMAND_TUBE_RATE, -1.0);
    wait_for(s, 2.0);
    give(s, PB_COMMAND_HOLE, 2.0);
    ck_assert_double_eq(told(s, PB_EVENT_AT_HOLE), 2.0);
    ck_assert_int_eq(acts(s)->hole, 1);
    ck_assert_int_eq(acts(s)->is_hole_open[0], 1);
    is_refused(s, PB_COMMAND_PLUG, 2.0, PB_REFUSED_IN_USE);
    give(s, PB_COMMAND_PLUG, 1.0);
    ck_assert_int_eq(acts(s)->is_hole_open[0], 0);
    ck_assert_double_eq(told(s, PB_EVENT_HOLE_PLUGGED), 1.0);
    give(s, PB_COMMAND_TUBE_TARGET, 0.3);
    wait_for(s, 2.0);
    ck_assert_double_eq_tol(pb_session_view(s)->mouth_y_m, 1.95, 1e-3);
    pb_session_destroy(s);
}
END_TEST

START_TEST(only_what_was_found_is_sealed_and_once)
{
    PbSession *s = two_holes();
    wait_for(s, PB_TICK_S);
    ck_assert_int_eq(acts(s)->is_found[0], 1); /* behind a cover */
    ck_assert_int_eq(acts(s)->is_found[1], 0);
    is_refused(s, PB_COMMAND_SEAL, 2.0, PB_REFUSED_NOT_FOUND);
    give(s, PB_COMMAND_SEAL, 1.0);
    ck_assert_double_eq(told(s, PB_EVENT_SEALED), 1.0);
    ck_assert_int_eq(acts(s)->is_sealed[0], 1);
    ck_assert_double_eq(acts(s)->minutes, 5.0);
    is_refused(s, PB_COMMAND_SEAL, 1.0, PB_REFUSED_SEALED);
    pb_session_destroy(s);
}
END_TEST

START_TEST(a_static_test_reads_the_plate_of_the_machine)
{
    PbSession *s = two_holes();
    give(s, PB_COMMAND_BLOWER, 0.5); /* the knob does not matter: the test is at full air */
    give(s, PB_COMMAND_STATIC_TEST, 1.0);
    is_refused(s, PB_COMMAND_STATIC_TEST, 1.0, PB_REFUSED_TESTING);
    is_refused(s, PB_COMMAND_MACHINE, 1.0, PB_REFUSED_TESTING);
    wait_for(s, 14.0);
    ck_assert_double_gt(acts(s)->test_left_s, 0.0);
    wait_for(s, 1.0);
    ck_assert_double_eq(acts(s)->test_left_s, 0.0);
    ck_assert_double_eq_tol(acts(s)->tested_pa, 19900.0, 20.0);
    ck_assert_int_eq(pb_session_view(s)->signals.machine_on, 0);
    ck_assert_double_eq(acts(s)->minutes, 15.0);
    ck_assert_double_eq(pb_session_view(s)->ledger.fed_kg, 0.0);
    give(s, PB_COMMAND_MACHINE, 1.0);
    is_refused(s, PB_COMMAND_STATIC_TEST, 1.0, PB_REFUSED_MACHINE_ON);
    pb_session_destroy(s);
}
END_TEST

START_TEST(a_test_that_is_broken_off_reads_nothing)
{
    PbSession *s = two_holes();
    give(s, PB_COMMAND_STATIC_TEST, 1.0);
    wait_for(s, 5.0);
    give(s, PB_COMMAND_MACHINE, 0.0);
    wait_for(s, 15.0);
    ck_assert_double_eq(acts(s)->tested_pa, 0.0);
    give(s, PB_COMMAND_STATIC_TEST, 1.0);
    give(s, PB_COMMAND_TUBE_TARGET, 0.2);
    wait_for(s, 16.0);
    ck_assert_double_eq(acts(s)->tested_pa, 0.0);
    ck_assert_int_eq(pb_session_view(s)->signals.machine_on, 0);
    pb_session_destroy(s);
}
END_TEST

START_TEST(leaving_ends_the_run_with_its_reason)
{
    PbSession *s = two_holes();
    PbResult r;
    give(s, PB_COMMAND_LEAVE, PB_LEAVE_LEAK);
    ck_assert_double_eq(told(s, PB_EVENT_LEFT), PB_LEAVE_LEAK);
    for (int i = 0; i < 500 && !pb_session_is_over(s); i++) {
        ck_assert_int_eq(pb_session_step(s, NULL, 0), PB_OK);
    }
    ck_assert(pb_session_is_over(s));
    pb_session_result(s, &r);
    ck_assert_int_eq((int)r.acts.left, PB_LEAVE_LEAK);
    pb_session_destroy(s);
}
END_TEST

/* A low hole with its rag tight holds more pressure in the bay than one with a gap. */
static double pressure_with_ring(double open)
{
    PbSession *s = two_holes();
    give(s, PB_COMMAND_RING, open);
    ck_assert_double_eq(acts(s)->ring_open_frac, open);
    give(s, PB_COMMAND_FEED, 0.0);
    give(s, PB_COMMAND_TUBE_TARGET, 0.3);
    wait_for(s, 2.0);
    give(s, PB_COMMAND_MACHINE, 1.0);
    wait_for(s, 4.0);
    double pa = pb_session_view(s)->mouth_pa;
    pb_session_destroy(s);
    return pa;
}

START_TEST(a_gap_round_the_tube_lets_the_air_out)
{
    double shut = pressure_with_ring(0.0), half = pressure_with_ring(0.5);
    double open = pressure_with_ring(1.0);
    ck_assert_double_gt(shut, 1.5 * half);
    ck_assert_double_gt(half, 1.5 * open);
}
END_TEST

/* A hole without plug in the same part lets the air out as well; a plug keeps it. */
static double pressure_at_hole_2(int is_plugged)
{
    PbSessionConfig config = pb_session_default();
    PbSession *s;
    config.exercise.holes[1] = (PbHole){0.184, 1.65, 0.0635, 0.0};
    config.exercise.hole_count = 2;
    ck_assert_int_eq(pb_session_create(&config, &s, NULL), PB_OK);
    give(s, PB_COMMAND_FEED, 0.0);
    give(s, PB_COMMAND_HOLE, 2.0);
    if (is_plugged) {
        give(s, PB_COMMAND_PLUG, 1.0);
    }
    give(s, PB_COMMAND_TUBE_TARGET, 0.3);
    wait_for(s, 2.0);
    give(s, PB_COMMAND_MACHINE, 1.0);
    wait_for(s, 4.0);
    double pa = pb_session_view(s)->mouth_pa;
    pb_session_destroy(s);
    return pa;
}

START_TEST(a_hole_without_a_plug_is_open)
{
    ck_assert_double_gt(pressure_at_hole_2(1), 2.0 * pressure_at_hole_2(0));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("acts");
    TCase *normal = tcase_create("normal");
    tcase_set_timeout(normal, 60.0);
    tcase_add_test(normal, what_is_not_in_the_bay_is_out_of_range);
    tcase_add_test(normal, the_tube_goes_to_another_hole_only_when_it_is_out);
    tcase_add_test(normal, only_what_was_found_is_sealed_and_once);
    tcase_add_test(normal, a_static_test_reads_the_plate_of_the_machine);
    tcase_add_test(normal, a_test_that_is_broken_off_reads_nothing);
    tcase_add_test(normal, leaving_ends_the_run_with_its_reason);
    tcase_add_test(normal, a_gap_round_the_tube_lets_the_air_out);
    tcase_add_test(normal, a_hole_without_a_plug_is_open);
    suite_add_tcase(suite, normal);
    return run_suite(suite);
}
