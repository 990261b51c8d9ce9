/* The joint of years and heat: same answer as the solver asked directly, and columns cut right. */
#include "suite.h"

#include "core/aged_heat.h"

static PbAgedBay a_bay(double kg_m3)
{
    PbAgedBay bay = {0};
    ck_assert_int_eq(pb_bay_field_create(8, 48, 0.368, 2.4, 0.089, &bay.field), PB_OK);
    pb_bay_field_fill(&bay.field, kg_m3);
    return bay;
}

START_TEST(r_is_that_of_the_solver_and_falls_with_a_gap)
{
    PbAgedBay bay = a_bay(50.0);
    PbHeatBaySetup setup = pb_heat_bay_default(&bay.field);
    PbAllocator memory = pb_allocator_default();
    PbConstants constants = pb_constants_default();
    PbHeatBay *heat;
    double full = 0.0, gap = 0.0;
    setup.strips = 4;
    setup.map_nx = setup.map_ny = 0;
    ck_assert_int_eq(pb_heat_bay_solve(&setup, &constants, &memory, &heat, NULL), PB_OK);
    ck_assert_int_eq(pb_aged_r(NULL, &bay, &full), PB_OK);
    ck_assert_double_eq(full, pb_heat_bay_result(heat)->r_m2k_w);
    pb_heat_bay_destroy(heat);
    for (int i = 0; i < 8 * 6; i++) { /* six of 48 rows empty at the top */
        bay.field.density_kg_m3[42 * 8 + i] = 0.0;
    }
    ck_assert_int_eq(pb_aged_r(NULL, &bay, &gap), PB_OK);
    ck_assert_double_lt(gap, 0.95 * full);
    PbAgedHeat cold = pb_aged_heat_default();
    cold.outdoor_c = -20.0; /* more drive, more air going round in the gap: R falls */
    double r = 0.0;
    ck_assert_int_eq(pb_aged_r(&cold, &bay, &r), PB_OK);
    ck_assert_double_lt(r, gap);
    pb_bay_field_destroy(&bay.field);
}
END_TEST

START_TEST(columns_keep_their_cells_and_refuse_what_is_not_there)
{
    PbAgedBay bay = a_bay(50.0);
    PbBayField part = {0};
    for (int j = 0; j < 48; j++) {
        for (int i = 0; i < 8; i++) {
            bay.field.density_kg_m3[j * 8 + i] = 10.0 * i + 0.1 * j;
        }
    }
    ck_assert_int_eq(pb_aged_columns(&bay.field, 3, 2, &part), PB_OK);
    ck_assert_int_eq(part.nx, 2);
    ck_assert_int_eq(part.ny, 48);
    ck_assert_double_eq_tol(part.width_m, 0.092, 1e-12); /* rounding of one product */
    ck_assert_double_eq(part.density_kg_m3[0], 30.0);
    ck_assert_double_eq(part.density_kg_m3[47 * 2 + 1], 10.0 * 4 + 0.1 * 47);
    ck_assert_double_eq(part.free_frac[5], 1.0);
    pb_bay_field_destroy(&part);
    ck_assert_int_eq(pb_aged_columns(&bay.field, 7, 2, &part), PB_ERR_RANGE);
    ck_assert_int_eq(pb_aged_columns(&bay.field, -1, 2, &part), PB_ERR_RANGE);
    ck_assert_int_eq(pb_aged_columns(&bay.field, 0, 0, &part), PB_ERR_RANGE);
    pb_bay_field_destroy(&bay.field);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("aged_heat");
    TCase *tc = tcase_create("joint");
    tcase_add_test(tc, r_is_that_of_the_solver_and_falls_with_a_gap);
    tcase_add_test(tc, columns_keep_their_cells_and_refuse_what_is_not_there);
    suite_add_tcase(suite, tc);
    return run_suite(suite);
}
