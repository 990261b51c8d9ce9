/* Numbers of marks: what they say, and that no other number says anything. */
#include "core/marks.h"
#include "core/run_record.h"

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

START_TEST(a_recorded_run_tells_whether_it_was_graded)
{
    PbTickCommand commands[] = {{.tick = 0, .command = {PB_COMMAND_MACHINE, 1.0}},
                                {.tick = 3, .command = {PB_COMMAND_MARK, PB_MARK_CHECKLIST + 63}},
                                {.tick = 9, .command = {PB_COMMAND_MARK, PB_MARK_GRADED + 1}}};
    PbRunFile run = {.commands = commands, .command_count = 2};
    ck_assert_int_eq(pb_run_graded_sight(&run), -1);
    run.command_count = 3;
    ck_assert_int_eq(pb_run_graded_sight(&run), 1);
    commands[2].command.kind = PB_COMMAND_BLOWER; /* a number alone is no mark */
    ck_assert_int_eq(pb_run_graded_sight(&run), -1);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("marks");
    TCase *t = tcase_create("normal");
    tcase_add_test(t, the_check_list_counts_what_was_left_out);
    tcase_add_test(t, power_and_grade);
    tcase_add_test(t, a_recorded_run_tells_whether_it_was_graded);
    suite_add_tcase(s, t);
    return run_suite(s);
}
