/* What a foam lost and what the heat solver is given: the same openings, as boxes inside the bay.
 */
#include "core/compare.h"

#include "suite.h"

#include <math.h>

static const double year_days = 365.25;

static PbFoamCase foam_of(int which)
{
    PbFoamCase f = pb_foam_default();
    f.foam_class = (PbFoamClass)(which % 3);
    f.seed = (uint64_t)which;
    if (which % 2 == 1) { /* many cracks: more than the solver takes */
        f.constants.foam_crack_spacing = 0.4;
        f.constants.foam_crack_onset = 0.1;
    }
    return f;
}

START_TEST(every_box_lies_in_the_bay_and_each_axis_opens_by_what_was_lost)
{
    PbFoamCase f = foam_of(_i);
    PbFoamState s;
    PbHeatGap gaps[PB_HEAT_MAX_GAPS];
    pb_foam_at(&f, 30.0 * year_days, &s);
    int n = pb_foam_heat_gaps(&s, f.width_m, f.height_m, f.depth_m, gaps);
    double high = 0.0, wide = 0.0, deep = 0.0;
    ck_assert_int_ge(n, 5);
    ck_assert_int_le(n, 5 + 16 + 6);
    for (int i = 0; i < n; i++) {
        const PbHeatGap *g = &gaps[i];
        ck_assert(g->x0_m >= 0.0 && g->x1_m <= f.width_m + 1e-12 && g->x1_m > g->x0_m);
        ck_assert(g->y0_m >= 0.0 && g->y1_m <= f.height_m + 1e-12 && g->y1_m > g->y0_m);
        ck_assert(g->z0_m >= 0.0 && g->z1_m <= f.depth_m + 1e-12 && g->z1_m > g->z0_m);
        int spans_x = g->x1_m - g->x0_m > 0.99 * f.width_m;
        int spans_y = g->y1_m - g->y0_m > 0.99 * f.height_m;
        if (spans_x && spans_y) {
            deep += g->z1_m - g->z0_m;
        } else if (spans_x) {
            high += g->y1_m - g->y0_m;
        } else {
            wide += g->x1_m - g->x0_m;
        }
    }
    /* All openings here are far above the least of 0.2 mm, so nothing is left out. */
    ck_assert_double_eq_tol(high, s.shrink_frac * f.height_m, 1e-9);
    ck_assert_double_eq_tol(wide, s.shrink_frac * f.width_m, 1e-9);
    ck_assert_double_eq_tol(deep, s.shrink_frac * f.depth_m, 1e-12);
}
END_TEST

START_TEST(foam_that_lost_nothing_has_no_gap)
{
    PbFoamState s = {0};
    PbHeatGap gaps[PB_HEAT_MAX_GAPS];
    ck_assert_int_eq(pb_foam_heat_gaps(&s, 0.368, 2.35, 0.089, gaps), 0);
}
END_TEST

/* The solver takes what the mapping gives, for every class, with few cracks and with many. */
START_TEST(the_solver_takes_it)
{
    PbFoamCase f = foam_of(_i);
    PbFoamState s;
    PbBayField field;
    PbAllocator memory = pb_allocator_default();
    PbConstants c = pb_constants_default();
    PbHeatBay *bay;
    PbError err = {0};
    pb_foam_at(&f, 30.0 * year_days, &s);
    ck_assert_int_eq(pb_bay_field_create(8, 60, f.width_m, f.height_m, f.depth_m, &field), PB_OK);
    pb_bay_field_fill(&field, 11.0);
    field.tilt_deg = 90.0;
    PbHeatBaySetup setup = pb_heat_bay_default(&field);
    setup.gap_count = pb_foam_heat_gaps(&s, f.width_m, f.height_m, f.depth_m, setup.gaps);
    setup.fill = (PbHeatFill){1, c.foam_k_w_mk, c.foam_permeability_m2};
    setup.strips = 2;
    setup.map_nx = setup.map_ny = 0;
    setup.ny = 8 * (setup.gap_count + 2);
    setup.ny = setup.ny > 128 ? setup.ny : 128;
    ck_assert_msg(pb_heat_bay_solve(&setup, &c, &memory, &bay, &err) == PB_OK, "%s", err.message);
    ck_assert_double_gt(pb_heat_bay_result(bay)->heat_ratio.mid, 1.0);
    pb_heat_bay_destroy(bay);
    pb_bay_field_destroy(&field);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("foam_gaps");
    TCase *all = tcase_create("all");
    tcase_add_loop_test(all, every_box_lies_in_the_bay_and_each_axis_opens_by_what_was_lost, 0, 12);
    tcase_add_test(all, foam_that_lost_nothing_has_no_gap);
    tcase_add_loop_test(all, the_solver_takes_it, 0, 6);
    suite_add_tcase(suite, all);
    return run_suite(suite);
}
