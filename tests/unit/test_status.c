/* Result codes, the one-line error, event names and the three shapes of a check row. */
#include "core/event.h"
#include "core/status.h"
#include "lab/verify.h"

#include "suite.h"

#include <string.h>

START_TEST(fills_an_error_and_hands_its_status_on)
{
    PbError err = {PB_OK, 3, 4, "f", ""};
    ck_assert_int_eq(pb_fail(&err, PB_ERR_RANGE, "%d of %s", 7, "nine"), PB_ERR_RANGE);
    ck_assert_int_eq(err.status, PB_ERR_RANGE);
    ck_assert_str_eq(err.message, "7 of nine");
    ck_assert_int_eq(err.line, 3);
    ck_assert_int_eq(pb_fail(NULL, PB_ERR_IO, "no error asked for"), PB_ERR_IO);
}
END_TEST

START_TEST(cuts_a_message_that_is_too_long)
{
    char text[1000];
    memset(text, 'a', sizeof text - 1);
    text[sizeof text - 1] = '\0';
    PbError err = {0};
    ck_assert_int_eq(pb_fail(&err, PB_ERR_FORMAT, "%s", text), PB_ERR_FORMAT);
    ck_assert_uint_eq(strlen(err.message), sizeof err.message - 1);
}
END_TEST

START_TEST(names_every_status_and_event_differently)
{
    const PbStatus all[] = {PB_OK,         PB_ERR_RANGE, PB_ERR_FORMAT,    PB_ERR_IO,
                            PB_ERR_MEMORY, PB_ERR_STATE, PB_ERR_NO_RESULT, PB_ERR_DIVERGED};
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++) {
        ck_assert_str_ne(pb_status_name(all[i]), "unknown status");
        for (size_t j = 0; j < i; j++) {
            ck_assert_str_ne(pb_status_name(all[i]), pb_status_name(all[j]));
        }
    }
    ck_assert_str_eq(pb_status_name((PbStatus)99), "unknown status");
    ck_assert_str_eq(pb_event_name(PB_EVENT_STALL), "STALL");
    ck_assert_str_eq(pb_event_name((PbEventKind)0), "UNKNOWN");
}
END_TEST

static void keep_row(void *user, const VerifyRow *row)
{
    *(VerifyRow *)user = *row;
}

START_TEST(check_rows_carry_their_limits)
{
    VerifyRow row;
    VerifySink sink = {keep_row, &row};
    VerifySource source = VERIFY_SOURCE(EXACT, "s");
    verify_rel(&sink, "a", "b", "Pa", source, -200.0, -201.0, 0.01);
    ck_assert_double_eq(row.accept_low, -202.0);
    ck_assert_double_eq(row.accept_high, -198.0);
    verify_abs(&sink, "a", "b", "Pa", source, 5.0, 5.1, 0.5);
    ck_assert_double_eq(row.accept_low, 4.5);
    ck_assert_double_eq(row.accept_high, 5.5);
    ck_assert_double_eq(row.ours, 5.1);
    verify_within(&sink, "a", "b", "Pa", source, 1.0, 4.0, 3.0);
    ck_assert_double_eq(row.reference_low, 1.0);
    ck_assert_double_eq(row.reference_high, 4.0);
    ck_assert_double_eq(row.accept_low, 1.0);
    ck_assert_double_eq(row.accept_high, 4.0);
    ck_assert_int_eq(row.source.kind, VERIFY_EXACT);
    ck_assert_str_eq(row.source.text, "s");
}
END_TEST

/* A row that is known to speak against us may neither pass in silence nor be no number. */
START_TEST(check_rows_are_judged)
{
    VerifyRow row = {"a", "b", "Pa", VERIFY_SOURCE(HELD_OUT, "s"), 1.0, 2.0, 1.5, 1.0, 2.0, NULL};
    ck_assert_int_eq(verify_judge(&row), VERIFY_OK);
    row.against = "why";
    ck_assert_int_eq(verify_judge(&row), VERIFY_FAIL);
    row.ours = 2.1;
    ck_assert_int_eq(verify_judge(&row), VERIFY_AGAINST);
    row.ours = (double)NAN;
    ck_assert_int_eq(verify_judge(&row), VERIFY_FAIL);
    row.against = NULL;
    ck_assert_int_eq(verify_judge(&row), VERIFY_FAIL);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("status");
    TCase *tc = tcase_create("normal");
    tcase_add_test(tc, fills_an_error_and_hands_its_status_on);
    tcase_add_test(tc, names_every_status_and_event_differently);
    tcase_add_test(tc, check_rows_carry_their_limits);
    tcase_add_test(tc, check_rows_are_judged);
    suite_add_tcase(s, tc);
    tc = tcase_create("limits");
    tcase_add_test(tc, cuts_a_message_that_is_too_long);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
