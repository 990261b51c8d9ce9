/* The steps of the guide on signals made by hand: it goes on by what was done, and says of a
 * clogged hose, a machine that is locked out and a tube outside what is so, never what would be. */
#include "base/guide.h"

#include "suite.h"

static Guide g;
static PbSignals s;

static void begin_at(GuideStep step)
{
    g = guide_begin(2.0);
    g.step = step;
    s = (PbSignals){.tube_in_m = 1.9, .machine_on = 1, .rattle = 1.0, .direction = -1};
}

static void hold(double seconds)
{
    for (int i = 0; i < (int)(seconds / 0.04 + 0.5); i++) {
        s.time_s += 0.04;
        guide_next(&g, &s, 1, 0);
    }
}

START_TEST(a_stall_is_rattle_that_was_there_and_thins)
{
    begin_at(GUIDE_STALL);
    s.rattle = 0.0;
    hold(3.0);
    ck_assert_int_eq(guide_hears_fill(&g, &s), 0); /* no "the rattle is back" yet */
    ck_assert_int_eq(g.step, GUIDE_STALL);
    s.rattle = 1.0;
    hold(3.0);
    ck_assert_int_eq(guide_hears_fill(&g, &s), 1);
    s.rattle = 0.45;
    hold(0.5);
    ck_assert_int_eq(g.step, GUIDE_STALL);
    hold(1.0);
    ck_assert_int_eq(g.step, GUIDE_PULL);
}
END_TEST

/* A stuck line lets a puff through now and then, up to twice a second. */
START_TEST(a_puff_of_a_stuck_line_is_no_rattle)
{
    begin_at(GUIDE_STALL);
    s.rattle = 1.0;
    hold(3.0);
    s.rattle = 0.0;
    hold(0.5);
    s.rattle = 1.0;
    hold(0.12);
    ck_assert_int_eq(g.step, GUIDE_STALL);
    s.rattle = 0.0;
    hold(0.3);
    ck_assert_int_eq(g.step, GUIDE_PULL);
    begin_at(GUIDE_STALL);
    s.rattle = 1.0;
    hold(3.0);
    s.rattle = 0.0;
    hold(0.5);
    s.rattle = 1.0;
    hold(0.4); /* but this is fill that flows again */
    s.rattle = 0.0;
    hold(0.6);
    ck_assert_int_eq(g.step, GUIDE_STALL);
}
END_TEST

START_TEST(a_clog_is_switched_off_cleared_waited_for_and_switched_on)
{
    const GuideStep at[] = {GUIDE_STALL, GUIDE_PULL, GUIDE_STALL_2, GUIDE_PULL_2, GUIDE_STALL_3};
    const GuideStep then[] = {GUIDE_STALL, GUIDE_STALL, GUIDE_STALL_2, GUIDE_STALL_2,
                              GUIDE_STALL_3};
    begin_at(at[_i]);
    hold(1.0);
    ck_assert_int_eq(guide_need(&g, &s), GUIDE_NEED_NOTHING);
    s.plugged = 1;
    s.rattle = 0.0;
    hold(1.0);
    ck_assert_int_eq(g.step, then[_i]); /* no "stalled, pull back" and no "it is back" */
    ck_assert_int_eq(guide_need(&g, &s), GUIDE_NEED_OFF);
    s.machine_on = 0;
    hold(1.0);
    ck_assert_int_eq(guide_need(&g, &s), GUIDE_NEED_CLEAR); /* and not: switch on */
    s.clear_left_s = 45.0;
    hold(1.0);
    ck_assert_int_eq(guide_need(&g, &s), GUIDE_NEED_WAIT);
    s.clear_left_s = 0.0;
    s.plugged = 0;
    hold(1.0);
    ck_assert_int_eq(guide_need(&g, &s), GUIDE_NEED_ON);
    s.machine_on = 1;
    hold(1.0);
    ck_assert_int_eq(guide_need(&g, &s), GUIDE_NEED_NOTHING);
    ck_assert_int_eq(g.step, then[_i]);
}
END_TEST

START_TEST(fill_in_front_of_the_hole_comes_before_the_step)
{
    begin_at(GUIDE_STALL_2);
    s.tube_in_m = -0.05;
    s.spilling = 1;
    hold(1.0);
    ck_assert_int_eq(guide_need(&g, &s), GUIDE_NEED_INSIDE);
    s.machine_on = 0; /* then the machine is what is missing */
    ck_assert_int_eq(guide_need(&g, &s), GUIDE_NEED_ON);
}
END_TEST

START_TEST(nothing_is_asked_of_a_machine_that_may_be_off)
{
    const GuideStep free[] = {GUIDE_CHECKS, GUIDE_TUBE, GUIDE_OFF, GUIDE_FINISH, GUIDE_DONE};
    for (int i = 0; i < 5; i++) {
        begin_at(free[i]);
        s.machine_on = 0;
        s.rattle = 0.0;
        ck_assert_int_eq(guide_need(&g, &s), GUIDE_NEED_NOTHING);
    }
    begin_at(GUIDE_FINISH);
    s.plugged = 1;
    ck_assert_int_eq(guide_need(&g, &s), GUIDE_NEED_NOTHING);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("guide");
    TCase *normal = tcase_create("normal");
    tcase_add_test(normal, a_stall_is_rattle_that_was_there_and_thins);
    tcase_add_test(normal, a_puff_of_a_stuck_line_is_no_rattle);
    tcase_add_loop_test(normal, a_clog_is_switched_off_cleared_waited_for_and_switched_on, 0, 5);
    tcase_add_test(normal, fill_in_front_of_the_hole_comes_before_the_step);
    tcase_add_test(normal, nothing_is_asked_of_a_machine_that_may_be_off);
    suite_add_tcase(suite, normal);
    return run_suite(suite);
}
