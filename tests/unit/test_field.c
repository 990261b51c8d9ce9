/* The bay that packing hands to years and heat. */
#include "core/field.h"

#include "suite.h"

#include <math.h>
#include <string.h>

START_TEST(starts_empty_and_open)
{
    PbBayField f;
    ck_assert_int_eq(pb_bay_field_create(3, 5, 0.37, 2.4, 0.09, &f), PB_OK);
    for (int i = 0; i < 15; i++) {
        ck_assert_double_eq(f.density_kg_m3[i], 0.0);
        ck_assert_double_eq(f.density_past_kg_m3[i], 0.0);
        ck_assert_double_eq(f.lateral_pa[i], 0.0);
        ck_assert_double_eq(f.free_frac[i], 1.0);
    }
    pb_bay_field_fill(&f, 56.0);
    for (int i = 0; i < 15; i++) {
        ck_assert_double_eq(f.density_kg_m3[i], 56.0);
        ck_assert_double_eq(f.density_past_kg_m3[i], 56.0);
    }
    pb_bay_field_destroy(&f);
    ck_assert_ptr_null(f.density_kg_m3);
    pb_bay_field_destroy(&f);
}
END_TEST

START_TEST(refuses_impossible_bays_and_leaves_the_output_alone)
{
    PbBayField f;
    memset(&f, 7, sizeof f);
    PbBayField before = f;
    ck_assert_int_eq(pb_bay_field_create(0, 5, 0.37, 2.4, 0.09, &f), PB_ERR_RANGE);
    ck_assert_int_eq(pb_bay_field_create(3, -1, 0.37, 2.4, 0.09, &f), PB_ERR_RANGE);
    ck_assert_int_eq(pb_bay_field_create(4097, 1, 0.37, 2.4, 0.09, &f), PB_ERR_RANGE);
    ck_assert_int_eq(pb_bay_field_create(3, 5, 0.0, 2.4, 0.09, &f), PB_ERR_RANGE);
    ck_assert_int_eq(pb_bay_field_create(3, 5, 0.37, NAN, 0.09, &f), PB_ERR_RANGE);
    ck_assert_int_eq(pb_bay_field_create(3, 5, 0.37, 2.4, INFINITY, &f), PB_ERR_RANGE);
    ck_assert_mem_eq(&f, &before, sizeof f);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("field");
    TCase *tc = tcase_create("normal");
    tcase_add_test(tc, starts_empty_and_open);
    suite_add_tcase(s, tc);
    tc = tcase_create("refusals");
    tcase_add_test(tc, refuses_impossible_bays_and_leaves_the_output_alone);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
