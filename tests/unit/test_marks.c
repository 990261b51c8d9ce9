/* Numbers of marks: what they say, and that no other number says anything. */
#include "core/marks.h"

#include "suite.h"

START_TEST(the_check_list_counts_what_was_left_out)
{
    ck_assert_int_eq(pb_mark_checks_skipped(PB_MARK_CHECKLIST), PB_CHECK_POINTS);
    ck_assert_int_eq(pb_mark_checks_skipped(PB_MARK_CHECKLIST + 5), PB_CHECK_POINTS - 2);
    ck_assert_int_eq(pb_mark_checks_skipped(PB_MARK_CHECKLIST + 63), 0);
    ck_assert_int_eq(pb_mark_checks_skipped(PB_MARK_CHECKLIST + 64), 0);
    ck_assert_int_eq(pb_mark_checks_skipped(PB_MARK_CHECKLIST - 1), 0);
    ck_assert_int_eq(pb_mark_checks_skipped(-1e9), 0);
}
END_TEST

START_TEST(power_and_grade)
{
    ck_assert(pb_mark_is_power_on(PB_MARK_PLUG_POWER_ON));
    ck_assert(!pb_mark_is_power_on(PB_MARK_PLUG_POWER_OFF));
    ck_assert_int_eq(pb_mark_graded_sight(PB_MARK_GRADED), 0);
    ck_assert_int_eq(pb_mark_graded_sight(PB_MARK_GRADED + 2), 2);
    ck_assert_int_eq(pb_mark_graded_sight(PB_MARK_GRADED + 3), -1);
    ck_assert_int_eq(pb_mark_graded_sight(PB_MARK_GRADED + 0.5), -1);
    ck_assert_int_eq(pb_mark_graded_sight(PB_MARK_CHECKLIST), -1);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("marks");
    TCase *t = tcase_create("normal");
    tcase_add_test(t, the_check_list_counts_what_was_left_out);
    tcase_add_test(t, power_and_grade);
    suite_add_tcase(s, t);
    return run_suite(s);
}
