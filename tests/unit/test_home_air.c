/* Air through a house by the enhanced model, by hand, and what fill leaves of a crack. */
#include "core/heat_bay.h"
#include "core/home_air.h"
#include "core/material.h"

#include "suite.h"

#include <math.h>

/*
 * By hand: flow at 1 Pa is Q50 / 50^0.65, 50^0.65 = 12.716. Stack: flow x Cs x dT^0.65. Wind: flow
 * x Cw x (s G U)^1.3. Both: root of the sum of squares.
 */
static const struct {
    const char *name;
    PbHomeAir air;
    double warmer_k, m3_s;
} houses[] = {
    /* 0.15257 x 0.078 x 7.009 */
    {"two stories, still air", {1.94, 0.65, 2, 0.0, 0.5}, 20.0, 0.08341},
    /* 0.03932 x 0.156 x (0.5 x 0.48 x 4)^1.3 = 0.9483 */
    {"one story, wind alone", {0.5, 0.65, 1, 4.0, 0.5}, 0.0, 0.005817},
    /* stack 0.078642 x 0.098 x 9.123 = 0.07031, wind 0.078642 x 0.170 x 3.028 = 0.04048 */
    {"three stories, both", {1.0, 0.65, 3, 5.0, 0.7}, 30.0, 0.08113},
};
enum { HOUSES = sizeof houses / sizeof houses[0] };

START_TEST(three_houses_by_hand)
{
    double got = pb_home_air_m3_s(&houses[_i].air, houses[_i].warmer_k);
    ck_assert_msg(fabs(got / houses[_i].m3_s - 1.0) < 0.002, "%s: %g", houses[_i].name, got);
    ck_assert_double_eq_tol(pb_home_air_m3_s(&houses[_i].air, -houses[_i].warmer_k), got, 1e-15);
}
END_TEST

/* The rule that everybody knows: Q = Q50 / N, N 10 to 30 by place, 20 in the middle, for two
 * stories; one story leaks a fifth less (Sherman's factor of height), so up to 37. */
START_TEST(a_winter_lies_within_the_rule_of_thumb)
{
    static const PbSeason places[] = {{10, 12}, {3, 18}, {10, 9}};
    PbConstants k = pb_constants_default();
    for (int p = 0; p < 3; p++) {
        for (int stories = 1; stories <= PB_STORIES_MOST; stories++) {
            PbHomeAir a = {1.0, k.leak_power, stories, k.wind_m_s, k.wind_shelter};
            double n = 1.0 / pb_home_air_winter_m3_s(&a, &places[p], 20.0);
            ck_assert_msg(n > 10.0 && n < (stories == 1 ? 37.0 : 30.0), "%d %d: %g", p, stories, n);
        }
    }
    PbHomeAir a = {1.0, 0.65, 1, 4.0, 0.6};
    PbSeason hot = {32.0, 4.0};
    ck_assert(pb_home_air_winter_m3_s(&a, &hot, 20.0) == 0.0); /* no winter, no air of one */
}
END_TEST

/* The closed form is the root of p = 2 R q + 2 S q2, whatever the area of the cracks. */
START_TEST(a_choked_crack_is_worked_by_hand)
{
    PbConstants k = pb_constants_default();
    double p = 50.0, perm = pb_material_permeability(&k, 56.0);
    double left = pb_crack_left(&k, perm, p);
    for (double a = 1e-5; a < 1e-2; a *= 10.0) {
        double r = k.air_viscosity_pa_s * k.crack_fill_depth_m / (perm * a);
        double s = k.air_density_kg_m3 / (2.0 * pow(k.orifice_coefficient * a, 2.0));
        double q = left * sqrt(p / (2.0 * s));
        ck_assert_double_eq_tol((2.0 * r * q + 2.0 * s * q * q) / p, 1.0, 1e-9);
    }
}
END_TEST

/* Walls of houses measured before and after dense packing: 2 to 20 and 0.2 to 1 L/s m2, a drop of
 * 75 to 97 % (Building Science Corporation, insight BSI-043); a loose blow chokes far less. */
START_TEST(a_packed_crack_is_as_measured)
{
    PbConstants k = pb_constants_default();
    double dense = pb_crack_left(&k, pb_material_permeability(&k, 56.0), 75.0);
    double loose = pb_crack_left(&k, pb_material_permeability(&k, 27.0), 75.0);
    ck_assert_double_gt(dense, 0.03);
    ck_assert_double_lt(dense, 0.25);
    ck_assert_double_gt(loose, 3.0 * dense);
    ck_assert_double_lt(loose, 0.7);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("home_air");
    TCase *tc = tcase_create("normal");
    tcase_add_loop_test(tc, three_houses_by_hand, 0, HOUSES);
    tcase_add_test(tc, a_winter_lies_within_the_rule_of_thumb);
    tcase_add_test(tc, a_choked_crack_is_worked_by_hand);
    tcase_add_test(tc, a_packed_crack_is_as_measured);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
