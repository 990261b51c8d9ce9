/* pb_math against libm: our own functions must be accurate as well as repeatable. Limits are those
 * that the header promises. */
#include "core/pb_math.h"
#include "suite.h"

#include <math.h>
#include <stdlib.h>

static double rel(double a, double b)
{
    return fabs(a - b) / (fabs(b) > 1e-300 ? fabs(b) : 1e-300);
}

START_TEST(agrees_with_libm)
{
    for (int i = -7000; i <= 7000; i++) {
        double x = i * 0.1;
        ck_assert_msg(rel(pb_exp(x), exp(x)) < 4e-15, "exp(%g)", x);
        double z = (i + 7001) * 0.731;
        ck_assert_msg(rel(pb_log(z), log(z)) < 4e-15, "log(%g)", z);
        double near_one = 1.0 + i * 1e-5;
        ck_assert_msg(i == 0 || rel(pb_log(near_one), log(near_one)) < 4e-15, "log(%.17g)",
                      near_one);
        ck_assert_msg(fabs(pb_sin(x) - sin(x)) < 1e-14, "sin(%g)", x);
        ck_assert_msg(fabs(pb_cos(x) - cos(x)) < 1e-14, "cos(%g)", x);
        ck_assert_msg(rel(pb_pow(z, 1.7), pow(z, 1.7)) < 4e-15 * (1.0 + fabs(1.7 * log(z))),
                      "pow(%g)", z);
        double far = i * 142.857; /* to a million */
        ck_assert_msg(fabs(pb_sin(far) - sin(far)) < 1e-14, "sin(%.17g)", far);
        ck_assert_msg(fabs(pb_cos(far) - cos(far)) < 1e-14, "cos(%.17g)", far);
    }
}
END_TEST

START_TEST(keeps_the_edges)
{
    ck_assert(pb_exp(-1000) == 0.0);
    ck_assert(isinf(pb_exp(1000)));
    ck_assert(isinf(pb_log(0.0)));
    ck_assert(isnan(pb_log(-1.0)));
    ck_assert(pb_pow(0.0, 2.0) == 0.0);
    ck_assert(pb_pow(7.0, 0.0) == 1.0);
    ck_assert(pb_log(1.0) == 0.0);
    ck_assert(isnan(pb_exp((double)NAN)));
}
END_TEST

int main(void)
{
    Suite *s = suite_create("pb_math");
    TCase *tc = tcase_create("normal");
    tcase_set_timeout(tc, 30);
    tcase_add_test(tc, agrees_with_libm);
    suite_add_tcase(s, tc);
    tc = tcase_create("limits");
    tcase_add_test(tc, keeps_the_edges);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
