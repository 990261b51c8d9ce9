/* Brackets of the result: a void is called so where it is, and nowhere else. */
#include "base/soft_spots.h"

#include "suite.h"

static PbPatch patches[64];
static int count;

/* A row of two patches, 0.2 m high. */
static void row(double left_kg_m3, double right_kg_m3)
{
    double y = 0.1 * count;
    patches[count++] = (PbPatch){0.0, y, 0.2, y + 0.2, 0.04, left_kg_m3};
    patches[count++] = (PbPatch){0.2, y, 0.4, y + 0.2, 0.04, right_kg_m3};
}

START_TEST(a_bracket_says_void_only_where_the_bay_is_empty)
{
    SoftSpot s[SOFT_SPOTS_MAX];
    count = 0;
    row(65.0, 66.0); /* well packed */
    row(0.0, 0.5);   /* empty */
    row(40.0, 42.0); /* soft */
    row(38.0, 45.0);
    row(2.0, 60.0); /* empty on the left */
    row(4.0, 58.0);
    ck_assert_int_eq(soft_spots(patches, count, 56.0, 10.0, s), 3);
    ck_assert_int_eq(s[0].kind, SOFT_EMPTY);
    ck_assert_double_eq_tol(s[0].y0_m, 0.2, 1e-12);
    ck_assert_double_eq_tol(s[0].y1_m, 0.4, 1e-12);
    ck_assert_double_eq_tol(s[0].kg_m3, 0.0, 1e-12);
    ck_assert_int_eq(s[1].kind, SOFT_LOW);
    ck_assert_double_eq_tol(s[1].y1_m, 0.8, 1e-12);
    ck_assert_double_eq_tol(s[1].kg_m3, 38.0, 1e-12);
    ck_assert_int_eq(s[2].kind, SOFT_PART);
    ck_assert_double_eq_tol(s[2].y1_m, 1.2, 1e-12);
    ck_assert_double_eq_tol(s[2].kg_m3, 31.0, 1e-12);
}
END_TEST

START_TEST(a_full_bay_has_no_bracket)
{
    SoftSpot s[SOFT_SPOTS_MAX];
    count = 0;
    row(56.0, 70.0);
    patches[count++] = (PbPatch){0.0, 0.2, 0.2, 0.4, 0.0, 0.0}; /* wood */
    ck_assert_int_eq(soft_spots(patches, count, 56.0, 10.0, s), 0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("soft_spots");
    TCase *normal = tcase_create("normal");
    tcase_add_test(normal, a_bracket_says_void_only_where_the_bay_is_empty);
    tcase_add_test(normal, a_full_bay_has_no_bracket);
    suite_add_tcase(suite, normal);
    return run_suite(suite);
}
