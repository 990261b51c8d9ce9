/* Draws stay in their rows' ranges, keep the calibration, and bands are order statistics. */
#include "bays.h"

#include "core/spread.h"

#include <math.h>
#include <string.h>

START_TEST(draws_stay_in_range_and_fall_on_both_sides)
{
    PbConstants base = pb_constants_default();
    size_t count;
    const PbConstantInfo *table = pb_constants_table(&count);
    int moved = 0;
    for (size_t i = 0; i < count; i++) {
        int below = 0, above = 0;
        for (int k = 0; k < 200; k++) {
            PbConstants d = pb_spread_constants(&base, 1, k, 0);
            double v = *pb_constant_at(&d, &table[i]);
            below += v < table[i].value;
            above += v > table[i].value;
            /* the creep stress follows friction and power, on top of its own range */
            if (strcmp(table[i].name, "settle_rate_pa") != 0) {
                ck_assert_msg(v >= table[i].low && v <= table[i].high, "%s", table[i].name);
            }
        }
        if (!pb_spread_moves(&table[i])) {
            ck_assert_int_eq(below + above, 0);
            continue;
        }
        moved++;
        if (table[i].low < table[i].value && table[i].value < table[i].high) {
            ck_assert_int_gt(below, 60); /* of 200 fair tosses: five deviations */
            ck_assert_int_gt(above, 60);
        }
    }
    ck_assert_int_gt(moved, 15);
}
END_TEST

START_TEST(what_was_chosen_or_set_is_not_drawn)
{
    PbConstants base = pb_constants_default();
    ck_assert(pb_spread_constants(&base, 1, 5, 1).settle_damp == base.settle_damp);
    base.wall_friction = 0.55;
    for (int k = 0; k < 20; k++) {
        ck_assert(pb_spread_constants(&base, 1, k, 0).wall_friction == 0.55);
    }
}
END_TEST

START_TEST(draws_do_not_deny_the_published_threshold)
{
    PbSettleConfig c = pb_settle_default();
    const PbConstants base = c.constants;
    double found[40];
    PbBayField bay;
    ck_assert_int_eq(pb_bay_field_create(1, 100, 1.0, 2.5, 0.1, &bay), PB_OK);
    c.climate = pb_climate_steady(0.5);
    for (int k = 0; k < 40; k++) {
        c.constants = pb_spread_constants(&base, 2, k, 0);
        ck_assert_int_eq(pb_settle_threshold(&bay, &c, 30.0, &found[k], NULL), PB_OK);
    }
    PbBand b = pb_spread_band(found, 40);
    /* 48 published. Without the coupling of friction and creep stress the band is 3.3 wide. */
    ck_assert_double_lt(b.p90 - b.p10, 2.6);
    ck_assert_double_gt(b.p10, 46.0);
    ck_assert_double_lt(b.p90, 50.0);
    ck_assert_double_eq_tol(b.median, 48.0, 0.6);
    pb_bay_field_destroy(&bay);
}
END_TEST

START_TEST(bands_are_order_statistics)
{
    double v[11];
    for (int i = 0; i < 11; i++) {
        v[i] = (double)((i * 7) % 11);
    }
    PbBand b = pb_spread_band(v, 11);
    ck_assert_double_eq(b.p10, 1.0);
    ck_assert_double_eq(b.median, 5.0);
    ck_assert_double_eq(b.p90, 9.0);
    double one = 3.5;
    b = pb_spread_band(&one, 1);
    ck_assert(b.p10 == 3.5 && b.p90 == 3.5);
}
END_TEST

static PbStatus r_of_void(void *user, const PbConstants *constants, const PbAgedBay *bay,
                          double *r_m2k_w)
{
    ck_assert_double_gt(constants->k_base_w_mk, 0.0);
    double empty = 0.0;
    int n = bay->field.nx * bay->field.ny;
    for (int i = 0; i < n; i++) {
        empty += bay->void_frac[i] / n;
    }
    *r_m2k_w = *(double *)user * (1.0 - empty);
    return bay->years > 29.0 && *(double *)user < 0.0 ? PB_ERR_DIVERGED : PB_OK;
}

START_TEST(the_door_to_heat_gets_the_aged_bay)
{
    static const double years[] = {1.0, 30.0};
    PbSettleConfig c = pb_settle_default();
    PbAgeSample s[2] = {{0, 0, 0, -9}, {0, 0, 0, -9}};
    double full = 2.5;
    PbEffectiveR heat = {r_of_void, &full};
    PbBayField bay = bay_uniform(4, 96, 42.0);
    ck_assert_int_eq(pb_spread_age(&bay, &c, years, 2, &heat, s, NULL), PB_OK);
    for (int t = 0; t < 2; t++) {
        double share = s[t].void_area_m2 / (0.368 * 2.4);
        ck_assert_double_eq_tol(s[t].effective_r_m2k_w, 2.5 * (1.0 - share), 1e-6);
    }
    ck_assert_int_eq(pb_spread_age(&bay, &c, years, 2, NULL, s, NULL), PB_OK);
    ck_assert(isnan(s[0].effective_r_m2k_w));
    full = -1.0;
    s[0].top_gap_m = -9.0;
    ck_assert_int_eq(pb_spread_age(&bay, &c, years, 2, &heat, s, NULL), PB_ERR_DIVERGED);
    ck_assert_double_eq(s[0].top_gap_m, -9.0); /* untouched */
    ck_assert_int_eq(pb_spread_age(&bay, &c, years, 0, &heat, s, NULL), PB_ERR_RANGE);
    pb_bay_field_destroy(&bay);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("spread");
    TCase *tc = tcase_create("normal");
    tcase_set_timeout(tc, 60);
    tcase_add_test(tc, draws_stay_in_range_and_fall_on_both_sides);
    tcase_add_test(tc, what_was_chosen_or_set_is_not_drawn);
    tcase_add_test(tc, draws_do_not_deny_the_published_threshold);
    tcase_add_test(tc, bands_are_order_statistics);
    tcase_add_test(tc, the_door_to_heat_gets_the_aged_bay);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
