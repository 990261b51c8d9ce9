/* The seeded generator: exact against its definition, streams apart, right moments. */
#include "core/rng.h"

#include "suite.h"

#include <math.h>

/* xoshiro256** from the state {1, 2, 3, 4}. The first four outputs follow by hand from the
 * definition (Blackman and Vigna 2021): out = rotl(s1 * 5, 7) * 9. */
START_TEST(follows_the_definition_exactly)
{
    PbRng rng = {{1, 2, 3, 4}};
    ck_assert_uint_eq(pb_rng_next(&rng), 11520u);
    ck_assert_uint_eq(pb_rng_next(&rng), 0u);
    ck_assert_uint_eq(pb_rng_next(&rng), 1509978240u);
    ck_assert_uint_eq(pb_rng_next(&rng), 1215971899390074240u);
}
END_TEST

START_TEST(same_seed_same_numbers_other_stream_other_numbers)
{
    PbRng a = pb_rng_make(7, 1), b = pb_rng_make(7, 1), c = pb_rng_make(7, 2);
    int equal = 0;
    for (int i = 0; i < 1000; i++) {
        uint64_t x = pb_rng_next(&a);
        ck_assert_uint_eq(x, pb_rng_next(&b));
        equal += x == pb_rng_next(&c);
    }
    ck_assert_int_eq(equal, 0);
}
END_TEST

/* Limits are five standard errors of the mean and of the variance for the number of draws. */
START_TEST(has_the_moments_of_its_laws)
{
    enum { N = 200000 };
    PbRng rng = pb_rng_make(3, 0);
    double sum = 0, square = 0;
    for (int i = 0; i < N; i++) {
        double u = pb_rng_uniform(&rng);
        ck_assert(u >= 0.0 && u < 1.0);
        sum += u - 0.5;
        square += (u - 0.5) * (u - 0.5);
    }
    ck_assert_double_le(fabs(sum / N), 5 * sqrt(1.0 / 12 / N));
    ck_assert_double_le(fabs(square / N - 1.0 / 12), 5 * sqrt(1.0 / 180 / N));
    sum = square = 0;
    for (int i = 0; i < N; i++) {
        double z = pb_rng_normal(&rng);
        sum += z;
        square += z * z;
    }
    ck_assert_double_le(fabs(sum / N), 5 * sqrt(1.0 / N));
    ck_assert_double_le(fabs(square / N - 1.0), 5 * sqrt(2.0 / N));
}
END_TEST

int main(void)
{
    Suite *s = suite_create("rng");
    TCase *tc = tcase_create("normal");
    tcase_add_test(tc, follows_the_definition_exactly);
    tcase_add_test(tc, same_seed_same_numbers_other_stream_other_numbers);
    tcase_add_test(tc, has_the_moments_of_its_laws);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
