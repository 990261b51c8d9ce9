/* Every row of the heat part of `verify` must pass, and there must be rows. */
#include "lab/verify.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>

static int rows;

static void judge(void *user, const VerifyRow *row)
{
    (void)user;
    rows++;
    ck_assert_msg(row->ours >= row->accept_low && row->ours <= row->accept_high,
                  "%s: %g, expected %g to %g", row->id, row->ours, row->accept_low,
                  row->accept_high);
    ck_assert(row->source[0] != '\0');
}

START_TEST(every_row_passes)
{
    VerifySink sink = {judge, NULL};
    verify_heat(&sink);
    ck_assert_int_gt(rows, 150);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("heat_verify");
    TCase *tc = tcase_create("normal");
    tcase_set_timeout(tc, 200);
    tcase_add_test(tc, every_row_passes);
    suite_add_tcase(s, tc);
    SRunner *r = srunner_create(s);
    srunner_run_all(r, CK_NORMAL);
    int failed = srunner_ntests_failed(r);
    srunner_free(r);
    return failed ? EXIT_FAILURE : EXIT_SUCCESS;
}
