/* Foam: shrinkage only grows, openings add up, cracks stay where they are. */
#include "bays.h"

#include "core/foam.h"

#include <math.h>

static PbFoamCase wall_of(PbFoamClass foam_class)
{
    PbFoamCase f = pb_foam_default();
    f.foam_class = foam_class;
    f.climate.indoor_c.mean = f.climate.outdoor_c.mean = 18.0;
    f.climate.indoor_rh.mean = 0.45;
    f.climate.outdoor_rh.mean = 0.70;
    return f;
}

/* The figures that the classes were set by, % after 7, 30, 90 days and 1, 5, 10, 30 years; one unit
 * of the last place there, and as much again for a wall that dries a little faster. */
START_TEST(classes_follow_their_tables)
{
    static const double days[] = {7, 30, 90, 365.25, 1826.25, 3652.5, 10957.5};
    static const double percent[3][7] = {{0.36, 1.16, 1.32, 1.47, 1.71, 1.82, 2.0},
                                         {0.66, 2.47, 2.86, 3.34, 4.09, 4.44, 5.0},
                                         {1.08, 3.95, 4.58, 5.35, 6.54, 7.10, 8.0}};
    for (int k = 0; k < 3; k++) {
        PbFoamCase f = wall_of((PbFoamClass)k);
        for (int i = 0; i < 7; i++) {
            ck_assert_double_eq_tol(100.0 * pb_foam_shrinkage(&f, days[i]), percent[k][i], 0.02);
        }
    }
    PbFoamCase hot = wall_of(PB_FOAM_POOR);
    hot.climate.foam_ageing = 12.0;
    ck_assert_double_eq_tol(100.0 * pb_foam_shrinkage(&hot, 10957.5), 10.1, 0.05);
}
END_TEST

START_TEST(drying_times_follow_the_wall)
{
    PbFoamCase f = wall_of(PB_FOAM_TYPICAL);
    ck_assert_double_eq_tol(pb_foam_days_to_dry(&f, 0.9), 26.0, 1.0);
    f.inner = PB_SKIN_TIGHT;
    ck_assert_double_eq_tol(pb_foam_days_to_dry(&f, 0.9), 41.0, 1.0);
    double w0 = pb_foam_water_kg_m2(&f, 0.0);
    ck_assert_double_eq_tol(pb_foam_water_kg_m2(&f, pb_foam_days_to_dry(&f, 0.5)), 0.5 * w0, 1e-12);
    ck_assert_double_eq_tol(pb_foam_water_kg_m2(&f, pb_foam_days_to_dry(&f, 0.9)), 0.1 * w0, 1e-12);
    /* no jump where the constant rate ends, at 70 % dry */
    double t1 = pb_foam_days_to_dry(&f, 0.7);
    ck_assert_double_eq_tol(pb_foam_water_kg_m2(&f, t1 - 1e-9), pb_foam_water_kg_m2(&f, t1 + 1e-9),
                            1e-9);
}
END_TEST

START_TEST(shrinkage_grows_and_cracks_only_add)
{
    for (int k = 0; k < 3; k++) {
        for (uint64_t seed = 0; seed < 8; seed++) {
            PbFoamCase f = wall_of((PbFoamClass)k);
            PbFoamState before = {0}, now;
            f.seed = seed;
            for (double days = 0.25; days < 20000.0; days *= 1.3) {
                pb_foam_at(&f, days, &now);
                ck_assert_double_ge(now.shrink_frac, before.shrink_frac);
                ck_assert_int_ge(now.across_count, before.across_count);
                for (int i = 0; i < before.across_count; i++) {
                    int kept = 0;
                    for (int j = 0; j < now.across_count; j++) {
                        kept |= now.across[j].at_m == before.across[i].at_m;
                    }
                    ck_assert(kept);
                }
                double up = now.plate_gap_m[0] + now.plate_gap_m[1], last = 0.0;
                for (int i = 0; i < now.across_count; i++) {
                    ck_assert_double_gt(now.across[i].at_m, last);
                    last = now.across[i].at_m;
                    up += now.across[i].open_m;
                }
                ck_assert_double_lt(last, f.height_m);
                ck_assert_double_eq_tol(up, now.shrink_frac * f.height_m, 1e-14);
                double side = now.stud_gap_m[0] + now.stud_gap_m[1];
                for (int i = 0; i < now.along_count; i++) {
                    side += now.along[i].open_m;
                }
                ck_assert_double_eq_tol(side, now.shrink_frac * f.width_m, 1e-14);
                before = now;
            }
        }
    }
}
END_TEST

START_TEST(refuses_absurd_cases)
{
    PbFoamCase f = pb_foam_default();
    PbError err = {0};
    ck_assert_int_eq(pb_foam_check(&f, NULL), PB_OK);
    f.depth_m = 0.0;
    ck_assert_int_eq(pb_foam_check(&f, NULL), PB_ERR_RANGE);
    f = pb_foam_default();
    f.height_m = (double)NAN;
    ck_assert_int_eq(pb_foam_check(&f, NULL), PB_ERR_RANGE);
    f = pb_foam_default();
    f.foam_class = (PbFoamClass)7;
    ck_assert_int_eq(pb_foam_check(&f, NULL), PB_ERR_RANGE);
    f = pb_foam_default();
    f.climate.foam_ageing = 0.0;
    ck_assert_int_eq(pb_foam_check(&f, NULL), PB_ERR_RANGE);
    f = pb_foam_default();
    f.constants.foam_wet_kg_m3 = f.constants.foam_dry_kg_m3; /* no water to dry, 0 over 0 */
    ck_assert_int_eq(pb_foam_check(&f, &err), PB_ERR_RANGE);
    ck_assert_str_eq(err.message, "foam_wet_kg_m3 11, expected above foam_dry_kg_m3, 11");
    f = pb_foam_default();
    f.constants.foam_constant_rate_share = 1.2; /* would hold more water than was put in */
    ck_assert_int_eq(pb_foam_check(&f, &err), PB_ERR_RANGE);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("foam");
    TCase *tc = tcase_create("normal");
    tcase_add_test(tc, classes_follow_their_tables);
    tcase_add_test(tc, drying_times_follow_the_wall);
    tcase_add_test(tc, shrinkage_grows_and_cracks_only_add);
    suite_add_tcase(s, tc);
    tc = tcase_create("refusals");
    tcase_add_test(tc, refuses_absurd_cases);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
