/* Settling from the outside: refusals leave everything alone, memory runs out cleanly. */
#include "bays.h"

#include <math.h>
#include <string.h>

static void refused(const PbBayField *bay, const PbSettleConfig *config, const char *expected)
{
    PbSettle *s = NULL;
    PbError err = {0};
    ck_assert_int_eq(pb_settle_create(bay, config, &s, &err), PB_ERR_RANGE);
    ck_assert_ptr_null(s);
    ck_assert_msg(strstr(err.message, expected) != NULL, "\"%s\" lacks \"%s\"", err.message,
                  expected);
}

START_TEST(refuses_absurd_bays_and_says_where)
{
    PbSettleConfig c = pb_settle_default();
    static const double bad[] = {-1.0, 200.5, 1e300, (double)NAN, (double)INFINITY};
    for (int i = 0; i < 5; i++) {
        PbBayField bay = bay_uniform(3, 8, 50.0);
        bay.density_kg_m3[7] = bad[i];
        refused(&bay, &c, "cell 1 across, 2 up: density");
        bay.density_kg_m3[7] = 50.0;
        bay.density_past_kg_m3[7] = bad[i] > 200.0 && bad[i] < 400.0 ? 401.0 : bad[i];
        refused(&bay, &c, "past density");
        bay.density_past_kg_m3[7] = 50.0;
        bay.lateral_pa[0] = bad[i] > 200.0 && bad[i] < 400.0 ? 1e6 : bad[i];
        refused(&bay, &c, "lateral stress");
        bay.lateral_pa[0] = 0.0;
        bay.free_frac[0] = bad[i];
        refused(&bay, &c, "free share");
        bay.free_frac[0] = 0.0;
        refused(&bay, &c, "no free room");
        bay.free_frac[0] = 1.0;
        bay.fill_rh_frac = bad[i];
        refused(&bay, &c, "humidity");
        bay.fill_rh_frac = 0.5;
        bay.tilt_deg = bad[i];
        refused(&bay, &c, "tilt");
        bay.tilt_deg = 90.0;
        bay.depth_m = bad[i];
        refused(&bay, &c, "expected width");
        pb_bay_field_destroy(&bay);
    }
}
END_TEST

START_TEST(refuses_absurd_configs)
{
    PbBayField bay = bay_uniform(1, 8, 50.0);
    PbSettleConfig c = pb_settle_default();
    c.climate.bay_rh.mean = 1.2;
    refused(&bay, &c, "bay_rh");
    c = pb_settle_default();
    c.max_step_years = 1e-5; /* the first steps are an hour long */
    refused(&bay, &c, "longest step");
    c = pb_settle_default();
    c.vector_path = 9;
    refused(&bay, &c, "vector path");
    pb_bay_field_destroy(&bay);
}
END_TEST

START_TEST(refuses_to_go_back_or_past_two_hundred_years)
{
    PbBayField bay = bay_uniform(1, 8, 50.0);
    PbSettleConfig c = pb_settle_default();
    PbSettle *s = settle_of(&bay, &c);
    ck_assert_int_eq(pb_settle_advance(s, 1.0), PB_OK);
    uint64_t before = pb_settle_hash(s);
    ck_assert_int_eq(pb_settle_advance(s, 0.5), PB_ERR_RANGE);
    ck_assert_int_eq(pb_settle_advance(s, 200.1), PB_ERR_RANGE);
    ck_assert_int_eq(pb_settle_advance(s, (double)NAN), PB_ERR_RANGE);
    ck_assert_uint_eq(pb_settle_hash(s), before);
    ck_assert_int_eq(pb_settle_advance(s, 200.0), PB_OK);
    pb_settle_destroy(s);
    pb_settle_destroy(NULL);
    pb_bay_field_destroy(&bay);
}
END_TEST

START_TEST(an_empty_bay_and_a_solid_bay_are_quiet)
{
    PbSettleConfig c = pb_settle_default();
    PbBayField bay = bay_uniform(4, 24, 0.0);
    PbSettleReport r = settle_after(&bay, &c, 30.0);
    ck_assert_double_eq_tol(r.top_gap_m, 2.4, 1e-12);
    for (int i = 0; i < 4 * 24; i++) {
        bay.free_frac[i] = 0.0;
    }
    r = settle_after(&bay, &c, 30.0);
    ck_assert_double_eq(r.top_gap_m, 0.0);
    ck_assert_double_eq(r.void_area_m2, 0.0);
    pb_bay_field_destroy(&bay);
}
END_TEST

START_TEST(coarse_rows_are_split)
{
    PbSettleConfig c = pb_settle_default();
    PbBayField coarse = bay_uniform(1, 6, 44.0), fine = bay_uniform(1, 96, 44.0);
    double a = settle_after(&coarse, &c, 30.0).top_gap_m,
           b = settle_after(&fine, &c, 30.0).top_gap_m;
    ck_assert_double_eq_tol(a, b, 1e-3);
    pb_bay_field_destroy(&coarse);
    pb_bay_field_destroy(&fine);
}
END_TEST

START_TEST(a_half_filled_cell_lies_at_its_bottom)
{
    PbSettleConfig c = pb_settle_default();
    PbBayField bay = bay_uniform(1, 96, 0.0);
    bay_set(&bay, 0, 10, 9.5); /* half of the loosest lay-down */
    PbSettle *s = settle_of(&bay, &c);
    PbSettleView v = pb_settle_view(s);
    ck_assert_double_eq_tol(v.thick_m[10], 0.0125, 1e-9);
    pb_settle_destroy(s);
    pb_bay_field_destroy(&bay);
}
END_TEST

static void *no_memory(void *user, size_t bytes)
{
    (void)user;
    (void)bytes;
    return NULL;
}

static void no_free(void *user, void *memory)
{
    (void)user;
    (void)memory;
}

START_TEST(says_when_memory_runs_out)
{
    PbBayField bay = bay_uniform(4, 24, 50.0);
    PbSettleConfig c = pb_settle_default();
    PbSettle *s = NULL;
    c.allocator = (PbAllocator){no_memory, no_free, NULL};
    ck_assert_int_eq(pb_settle_create(&bay, &c, &s, NULL), PB_ERR_MEMORY);
    ck_assert_ptr_null(s);
    pb_bay_field_destroy(&bay);
}
END_TEST

START_TEST(a_threshold_that_does_not_exist_is_said)
{
    PbBayField bay = bay_uniform(1, 96, 50.0);
    PbSettleConfig c = pb_settle_default();
    PbError err = {0};
    double kg_m3 = -7.0;
    bay.tilt_deg = 0.0;
    ck_assert_int_eq(pb_settle_threshold(&bay, &c, 30.0, &kg_m3, &err), PB_ERR_NO_RESULT);
    ck_assert_double_eq(kg_m3, -7.0);
    bay.tilt_deg = 90.0;
    ck_assert_int_eq(pb_settle_threshold(&bay, &c, 201.0, &kg_m3, &err), PB_ERR_RANGE);
    ck_assert_int_eq(pb_settle_threshold(&bay, &c, 30.0, &kg_m3, &err), PB_OK);
    ck_assert_double_eq_tol(kg_m3, 48.7, 0.3); /* trial figure for this bay */
    pb_bay_field_destroy(&bay);
}
END_TEST

START_TEST(moisture_and_climate_keep_their_limits)
{
    PbConstants k = pb_constants_default();
    ck_assert_double_eq_tol(pb_settle_moisture(&k, 0.5), 0.1163, 1e-12);
    ck_assert_double_eq_tol(pb_settle_moisture(&k, 0.8), 0.197, 5e-4);
    ck_assert_double_eq(pb_settle_moisture(&k, 1.0), pb_settle_moisture(&k, 0.95));
    PbClimate c = pb_climate_default();
    ck_assert_double_eq_tol(pb_season_at(&c.bay_rh, 7.25), 0.60, 1e-12);
    ck_assert_double_eq_tol(pb_season_at(&c.bay_rh, 7.75), 0.30, 1e-12);
    ck_assert_int_eq(pb_climate_check(&c, NULL), PB_OK);
    c.outdoor_rh.swing = 0.4;
    PbError err = {0};
    ck_assert_int_eq(pb_climate_check(&c, &err), PB_ERR_RANGE);
    ck_assert_str_eq(err.message, "outdoor_rh: 0.7 +- 0.4 over the year, expected within 0 to 1");
}
END_TEST

int main(void)
{
    Suite *s = suite_create("settle");
    TCase *tc = tcase_create("limits");
    tcase_add_test(tc, an_empty_bay_and_a_solid_bay_are_quiet);
    tcase_add_test(tc, coarse_rows_are_split);
    tcase_add_test(tc, a_half_filled_cell_lies_at_its_bottom);
    tcase_add_test(tc, moisture_and_climate_keep_their_limits);
    suite_add_tcase(s, tc);
    tc = tcase_create("refusals");
    tcase_add_test(tc, refuses_absurd_bays_and_says_where);
    tcase_add_test(tc, refuses_absurd_configs);
    tcase_add_test(tc, refuses_to_go_back_or_past_two_hundred_years);
    tcase_add_test(tc, says_when_memory_runs_out);
    tcase_add_test(tc, a_threshold_that_does_not_exist_is_said);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
