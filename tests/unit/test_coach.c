/* Hints on signals made by hand: each one comes, only one at a time, and none without a cause. */
#include "core/course.h"

#include "suite.h"

#include <string.h>

static PbCoach coach;
static PbSignals g;
static int seen[PB_HINT_KINDS];

static void begin(void)
{
    PbExercise e = pb_exercise_default();
    coach = pb_coach_start(&e);
    memset(&g, 0, sizeof g);
    memset(seen, 0, sizeof seen);
    g.tube_in_m = 1.5;
    g.feed_set_kg_s = 0.06;
    g.machine_on = 1;
    g.rattle = 1.0;
    g.direction = 1;
}

/* Hold the signals for so long. @return the hint at the end */
static PbHint hold(double s)
{
    PbHint h = {PB_HINT_NONE, 0.0};
    for (int i = 0; i < (int)(s / 0.04 + 0.5); i++) {
        g.time_s += 0.04;
        h = pb_coach_next(&coach, &g);
        seen[h.kind] = 1;
    }
    return h;
}

static int any(void)
{
    int n = 0;
    for (int i = 1; i < PB_HINT_KINDS; i++) {
        n += seen[i];
    }
    return n;
}

static void pull(double by_m)
{
    double to = g.tube_in_m - by_m;
    while (g.tube_in_m > to + 1e-9) {
        g.tube_in_m = g.tube_in_m - 0.012 > to ? g.tube_in_m - 0.012 : to;
        (void)hold(0.04);
    }
}

START_TEST(good_work_is_left_in_peace)
{
    begin();
    for (int stop = 0; stop < 4; stop++) {
        g.rattle = 1.0;
        (void)hold(15.0);
        g.rattle = 0.4;
        (void)hold(2.0);
        pull(0.30);
    }
    ck_assert_int_eq(any(), 0);
}
END_TEST

START_TEST(a_long_stall_asks_for_a_pull_back)
{
    begin();
    (void)hold(10.0);
    g.rattle = 0.3;
    ck_assert_int_eq(hold(3.0).kind, PB_HINT_NONE);
    PbHint h = hold(3.0);
    ck_assert_int_eq(h.kind, PB_HINT_PULL_BACK);
    ck_assert_double_eq_tol(h.value, 6.0, 0.2);
    pull(0.30);
    g.rattle = 1.0;
    ck_assert_int_eq(hold(4.0).kind, PB_HINT_NONE);
    ck_assert_int_eq(any(), 1);
}
END_TEST

START_TEST(leaving_before_the_stall_is_said)
{
    begin();
    (void)hold(5.0);
    pull(0.30);
    PbHint h = hold(1.0);
    ck_assert_int_eq(h.kind, PB_HINT_LEFT_EARLY);
    ck_assert_double_eq_tol(h.value, 0.30, 0.02);
}
END_TEST

/* What lay in the line comes as a slug after the stall: who moves on then has waited for it. */
START_TEST(a_slug_after_the_stall_does_not_undo_it)
{
    begin();
    (void)hold(10.0);
    g.rattle = 0.3;
    (void)hold(1.6);
    g.rattle = 1.0;
    (void)hold(0.6);
    pull(0.30);
    (void)hold(5.0);
    ck_assert_int_eq(any(), 0);
    pull(0.30); /* the next stop has to stall itself */
    (void)hold(1.0);
    ck_assert_int_eq(seen[PB_HINT_LEFT_EARLY], 1);
}
END_TEST

START_TEST(a_long_step_is_said)
{
    begin();
    (void)hold(10.0);
    g.rattle = 0.3;
    (void)hold(2.0);
    pull(0.60);
    g.rattle = 1.0;
    PbHint h = hold(1.0);
    ck_assert_int_eq(h.kind, PB_HINT_LONG_STEP);
    ck_assert_double_eq_tol(h.value, 0.60, 0.02);
}
END_TEST

START_TEST(harm_comes_first_and_does_not_wait)
{
    begin();
    (void)hold(5.0);
    pull(0.30);
    (void)hold(3.0); /* a hint was up and has gone: the pause runs */
    g.creak = 0.6;
    ck_assert_int_eq(hold(0.2).kind, PB_HINT_PANEL);
    g.plugged = 1; /* one at a time */
    ck_assert_int_eq(hold(1.5).kind, PB_HINT_PANEL);
    g.creak = 0.0;
    (void)hold(2.0);
    ck_assert_int_eq(hold(1.0).kind, PB_HINT_PLUG);
}
END_TEST

START_TEST(a_mouth_outside_and_a_bay_that_never_stalls)
{
    begin();
    g.tube_in_m = -0.04;
    (void)hold(3.0);
    ck_assert(!seen[PB_HINT_OUTSIDE]); /* air alone is nobody's loss */
    g.spilling = 1;
    (void)hold(3.0);
    ck_assert(seen[PB_HINT_OUTSIDE]);
    begin();
    (void)hold(50.0);
    ck_assert_int_eq(any(), 0);
    (void)hold(20.0); /* 4.2 kg: more than 45 kg/m3 of this bay */
    ck_assert(seen[PB_HINT_RUNS_AWAY]);
}
END_TEST

START_TEST(a_machine_that_is_off_needs_no_hint)
{
    begin();
    g.machine_on = 0;
    g.rattle = 0.0;
    (void)hold(60.0);
    pull(1.0);
    (void)hold(5.0);
    ck_assert_int_eq(any(), 0);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("coach");
    TCase *t = tcase_create("normal");
    tcase_add_test(t, good_work_is_left_in_peace);
    tcase_add_test(t, a_long_stall_asks_for_a_pull_back);
    tcase_add_test(t, leaving_before_the_stall_is_said);
    tcase_add_test(t, a_slug_after_the_stall_does_not_undo_it);
    tcase_add_test(t, a_long_step_is_said);
    tcase_add_test(t, harm_comes_first_and_does_not_wait);
    tcase_add_test(t, a_mouth_outside_and_a_bay_that_never_stalls);
    tcase_add_test(t, a_machine_that_is_off_needs_no_hint);
    suite_add_tcase(s, t);
    return run_suite(s);
}
