/* The joint of years and heat: same answer as the solver asked directly, and columns cut right. */
#include "suite.h"

#include "core/aged_heat.h"

#include <math.h>
#include <stdlib.h>

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
    ck_assert_int_eq(pb_aged_r(NULL, NULL, &bay, &full), PB_OK);
    ck_assert_double_eq(full, pb_heat_bay_result(heat)->r_m2k_w);
    pb_heat_bay_destroy(heat);
    for (int i = 0; i < 8 * 6; i++) { /* six of 48 rows empty at the top */
        bay.field.density_kg_m3[42 * 8 + i] = 0.0;
    }
    ck_assert_int_eq(pb_aged_r(NULL, NULL, &bay, &gap), PB_OK);
    ck_assert_double_lt(gap, 0.95 * full);
    PbAgedHeat cold = pb_aged_heat_default();
    cold.outdoor_c = -20.0; /* more drive, more air going round in the gap: R falls */
    double r = 0.0;
    ck_assert_int_eq(pb_aged_r(&cold, NULL, &bay, &r), PB_OK);
    ck_assert_double_lt(r, gap);
    pb_bay_field_destroy(&bay.field);
}
END_TEST

/* Conductivity of a fill is known to some 6 % (the rows of k in assets/constants.json), and so is
 * its R, however well it stands: one figure in every draw would be a promise. */
START_TEST(draws_of_a_full_bay_differ_in_r_as_conductivity_is_known)
{
    enum { DRAWS = 40 };
    PbAgedBay bay = a_bay(56.0);
    PbConstants base = pb_constants_default();
    double r[DRAWS], shipped = 0.0;
    ck_assert_int_eq(pb_aged_r(NULL, &base, &bay, &shipped), PB_OK);
    for (int d = 0; d < DRAWS; d++) {
        PbConstants drawn = pb_spread_constants(&base, 1, d, 0);
        ck_assert_int_eq(pb_aged_r(NULL, &drawn, &bay, &r[d]), PB_OK);
    }
    PbBand band = pb_spread_band(r, DRAWS);
    ck_assert_double_gt(band.p90 / band.p10, 1.02);
    ck_assert_double_lt(band.p90 / band.p10, 1.15);
    ck_assert(band.p10 < shipped && shipped < band.p90);
    base.k_base_w_mk = 0.05; /* set by hand: R follows */
    ck_assert_int_eq(pb_aged_r(NULL, &base, &bay, &r[0]), PB_OK);
    ck_assert_double_lt(r[0], 0.9 * shipped);
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

/* Fill of 50 kg/m3 that ends `gap` below the top plate, in rows of 50 mm. */
static PbAgedBay settled(double gap_m)
{
    PbAgedBay bay = a_bay(50.0);
    bay.void_frac = calloc(8 * 48, sizeof(double));
    for (int j = 0; j < 48; j++) {
        double empty = (gap_m - (47 - j) * 0.05) / 0.05;
        empty = empty < 0.0 ? 0.0 : empty > 1.0 ? 1.0 : empty;
        for (int i = 0; i < 8; i++) {
            bay.void_frac[j * 8 + i] = empty;
            bay.field.density_kg_m3[j * 8 + i] = 50.0 * (1.0 - empty);
        }
    }
    return bay;
}

START_TEST(the_top_gap_counts_by_the_share_of_its_row)
{
    static const double gap_m[] = {0.002, 0.010, 0.030, 0.050, 0.080};
    double before = HUGE_VAL;
    for (int n = 0; n < 5; n++) {
        PbAgedBay bay = settled(gap_m[n]);
        PbAgedHeat heat = pb_aged_heat_default();
        PbHeatBaySetup s = pb_aged_heat_setup(&heat, &bay);
        double r = 0.0;
        /* a gap that fibres close has no box; else one a strip, with the height of the gap */
        ck_assert_int_eq(s.gap_count, n == 0 ? 0 : heat.strips);
        for (int g = 0; g < s.gap_count; g++) {
            ck_assert_double_eq_tol(s.gaps[g].y1_m - s.gaps[g].y0_m, gap_m[n], 1e-12);
        }
        ck_assert_int_eq(pb_aged_r(&heat, NULL, &bay, &r), PB_OK);
        ck_assert_double_lt(r, before);
        before = r;
        pb_aged_destroy(&bay);
    }
}
END_TEST

START_TEST(a_part_carries_its_voids_and_needs_them)
{
    PbAgedBay bay = settled(0.030), part = {0};
    bay.years = 12.0;
    for (int j = 0; j < 48; j++) {
        bay.void_frac[j * 8 + 6] = 0.01 * j;
    }
    ck_assert_int_eq(pb_aged_part(&bay, 5, 3, &part), PB_OK);
    ck_assert_double_eq(part.years, 12.0);
    ck_assert_double_eq(part.void_frac[20 * 3 + 1], 0.2);
    ck_assert_double_eq(part.field.density_kg_m3[47 * 3], 50.0 * 0.4);
    pb_aged_destroy(&part);
    ck_assert_int_eq(pb_aged_part(&bay, 6, 3, &part), PB_ERR_RANGE);
    free(bay.void_frac);
    bay.void_frac = NULL;
    ck_assert_int_eq(pb_aged_part(&bay, 5, 3, &part), PB_ERR_RANGE);
    pb_aged_destroy(&bay);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("aged_heat");
    TCase *tc = tcase_create("joint");
    tcase_add_test(tc, r_is_that_of_the_solver_and_falls_with_a_gap);
    tcase_add_test(tc, draws_of_a_full_bay_differ_in_r_as_conductivity_is_known);
    tcase_add_test(tc, columns_keep_their_cells_and_refuse_what_is_not_there);
    tcase_add_test(tc, the_top_gap_counts_by_the_share_of_its_row);
    tcase_add_test(tc, a_part_carries_its_voids_and_needs_them);
    suite_add_tcase(suite, tc);
    return run_suite(suite);
}
