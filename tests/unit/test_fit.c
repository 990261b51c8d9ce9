/* A fit against a stand-in whose answers are known in closed form: no run of a bay is made here.
 * Made boxes through the model itself: pullback-lab fit-check. */
#include "core/fit.h"
#include "core/rng.h"
#include "suite.h"

#include <math.h>
#include <string.h>

enum { BOXES = 4, SETS = 12 };

/* A density that goes with three constants by powers, other powers in each box. */
static double stand_in(const PbFitPoint *p, int box)
{
    static const double power[BOXES][3] = {
        {-0.25, -0.30, 0.20}, {-0.05, -0.35, 0.05}, {-0.30, -0.10, 0.10}, {-0.10, -0.20, 0.40}};
    PbConstants c = pb_fit_constants(p);
    return 60.0 * pow(c.sigma45_pa_s_m2 / 8000.0, power[box][0]) *
           pow(c.compaction_ref_pa / 1700.0, power[box][1]) *
           pow(c.entry_shape / 0.3, -power[box][2]);
}

static void quadratics(PbFitQuadratic q[BOXES])
{
    for (int b = 0; b < BOXES; b++) {
        double v[PB_FIT_POINTS];
        for (int p = 0; p < PB_FIT_POINTS; p++) {
            PbFitPoint point = pb_fit_point(p);
            v[p] = stand_in(&point, b);
        }
        ck_assert_int_eq(pb_fit_quadratic(v, &q[b]), PB_OK);
    }
}

/* Boxes that weigh what the stand-in gives at a point, and differ in their pressure. */
static void weigh(PbFitBox box[BOXES], const PbFitPoint *truth, double scatter, uint64_t seed)
{
    PbRng rng = pb_rng_make(seed, 5u);
    for (int b = 0; b < BOXES; b++) {
        box[b] = pb_fit_box_default();
        box[b].static_pa = 10000.0 + 2000.0 * b;
        box[b].mass_kg = box[b].width_m * box[b].height_m * box[b].depth_m * stand_in(truth, b) *
                         (1.0 + scatter * pb_rng_normal(&rng));
    }
}

START_TEST(a_power_law_is_met_to_a_thousandth_between_the_points)
{
    PbFitQuadratic q[BOXES];
    quadratics(q);
    ck_assert_double_lt(q[0].residual, 1e-3);
    for (int i = 0; i < 20; i++) {
        PbFitPoint p = pb_fit_drawn(3, i);
        ck_assert_double_eq_tol(pb_fit_at(&q[0], &p) / stand_in(&p, 0), 1.0, 2e-3);
    }
}
END_TEST

START_TEST(the_ends_of_a_point_are_the_ends_of_the_table)
{
    PbFitPoint low, mid = {{0}}, high;
    for (int k = 0; k < PB_CARRIERS; k++) {
        low.z[k] = -1.0;
        high.z[k] = 1.0;
    }
    PbConstants a = pb_fit_constants(&low), b = pb_fit_constants(&mid), c = pb_fit_constants(&high);
    PbConstants shipped = pb_constants_default();
    for (int k = 0; k < PB_CARRIERS; k++) {
        const PbConstantInfo *info = pb_carrier_info(k);
        ck_assert_double_eq(pb_constant_value(&a, info), info->low);
        ck_assert_double_eq(pb_constant_value(&c, info), info->high);
    }
    ck_assert_mem_eq(&b, &shipped, sizeof b); /* nothing but the carriers moves */
}
END_TEST

START_TEST(known_constants_lie_in_their_own_interval)
{
    PbFitQuadratic q[BOXES];
    int in = 0, asked = 0;
    quadratics(q);
    for (int n = 0; n < SETS; n++) {
        PbFitBox box[BOXES];
        PbFit fit;
        int worst;
        PbFitPoint truth = pb_fit_drawn(100, n);
        weigh(box, &truth, 0.03, 200u + (uint64_t)n);
        PbFitSetup setup = {box, q, q, BOXES, 0.03, 1};
        ck_assert_int_ne(pb_fit_sample(&setup, &fit, &worst), PB_ERR_MEMORY);
        PbConstants known = pb_fit_constants(&truth);
        for (int k = 0; k < PB_CARRIERS; k++) {
            double v = pb_constant_value(&known, pb_carrier_info(k));
            in += v >= fit.constant[k].low && v <= fit.constant[k].high;
            asked++;
        }
        /* five of the eight move nothing here: of them the boxes say nothing */
        ck_assert_double_eq_tol(fit.kept[4], 1.0, 0.12);
        ck_assert_double_gt(fit.acceptance, 0.05);
    }
    /* 9 of 10; 96 answers of which some go together: 3.5 standard deviations below */
    ck_assert_int_ge(in, (int)(0.9 * asked - 3.5 * sqrt(asked * 0.09)));
}
END_TEST

START_TEST(what_two_constants_do_together_is_known_better_than_each)
{
    PbFitQuadratic q[BOXES];
    PbFitBox box[BOXES];
    PbFit fit;
    int worst;
    PbFitPoint truth = {{0}};
    quadratics(q);
    weigh(box, &truth, 0.0, 1);
    PbFitSetup setup = {box, q, q, BOXES, 0.02, 1};
    ck_assert_int_eq(pb_fit_sample(&setup, &fit, &worst), PB_OK);
    /* more resistance and a stiffer fill both lower density: one goes up as the other comes down */
    ck_assert_double_lt(fit.corr[0][2], -0.3);
    ck_assert_double_lt(fit.kept[2], 0.8);
    for (int b = 0; b < BOXES; b++) {
        double w = pb_fit_weighed(&box[b]);
        ck_assert(fit.box[b].low < w && w < fit.box[b].high);
        ck_assert_double_lt(fit.box[b].high - fit.box[b].low, 0.1 * w);
    }
    PbProduct base = pb_product_default(), p = pb_fit_product(&fit, &base);
    ck_assert_int_eq(p.draw_count, PB_PRODUCT_DRAWS);
    int stiff_when_airy = 0; /* the draws keep the correlation */
    for (int d = 0; d < PB_PRODUCT_DRAWS; d++) {
        stiff_when_airy += (fit.draw[d].z[0] > fit.mean.z[0]) != (fit.draw[d].z[2] > fit.mean.z[2]);
    }
    ck_assert_int_gt(stiff_when_airy, PB_PRODUCT_DRAWS / 2);
}
END_TEST

START_TEST(boxes_that_nothing_fits_are_refused)
{
    PbFitQuadratic q[BOXES];
    PbFitBox box[BOXES];
    PbFit fit;
    int first, second, worst = -1;
    PbFitPoint truth = {{0}};
    quadratics(q);
    weigh(box, &truth, 0.0, 1);
    box[2].mass_kg *= 2.2; /* beyond what any constants of the ranges give */
    PbFitSetup setup = {box, q, q, BOXES, 0.03, 1};
    ck_assert_int_eq(pb_fit_contradicts(&setup, &first, &second), 0); /* no two are the same box */
    ck_assert_int_eq(pb_fit_sample(&setup, &fit, &worst), PB_ERR_NO_RESULT);
    ck_assert_int_eq(worst, 2);
    weigh(box, &truth, 0.0, 1);
    box[3] = box[0];
    box[3].mass_kg *= 1.16; /* 3.5 standard deviations of a difference of two at 3 % */
    ck_assert_int_ne(pb_fit_contradicts(&setup, &first, &second), 0);
    ck_assert_int_eq(first, 0);
    ck_assert_int_eq(second, 3);
    box[3].mass_kg = box[0].mass_kg * 1.10;
    ck_assert_int_eq(pb_fit_contradicts(&setup, &first, &second), 0);
    ck_assert_int_eq(pb_fit_different(box, BOXES), 3);
}
END_TEST

/* A box that goes wholly with what is asked leaves its own scatter; one that does not, all of it.
 */
START_TEST(another_box_teaches_by_what_it_shares)
{
    double asked[40], same[40], other[40];
    PbRng rng = pb_rng_make(9, 9);
    for (int i = 0; i < 40; i++) {
        asked[i] = 60.0 * exp(0.1 * pb_rng_normal(&rng));
        same[i] = 0.9 * asked[i];
        other[i] = 50.0 * exp(0.1 * pb_rng_normal(&rng));
    }
    double stays = pb_fit_teaches(asked, same, 40, 0.03);
    ck_assert_double_eq_tol(stays, 0.29, 0.06); /* 0.03 / root(0.1^2 + 0.03^2) */
    ck_assert_double_gt(pb_fit_teaches(asked, other, 40, 0.03), 0.9);
}
END_TEST

/* A bay that is packed as the plain exercise comes out as that exercise does, but for its face. */
START_TEST(a_box_is_packed_as_the_exercise_of_its_size)
{
    PbFitBox box = pb_fit_box_default();
    PbFitAnswer a = {0};
    PbError err = {0};
    PbMachine m = pb_rig_default().machine;
    PbConstants c = pb_constants_default();
    ck_assert_msg(pb_fit_run_box(&box, &m, &c, &a, &err) == PB_OK, "%s", err.message);
    ck_assert_double_eq_tol(a.kg_m3, 61.7, 1.5); /* run plain-2x4 with steady-foot: 61.7 */
    ck_assert_double_gt(a.gauge_pa, 0.4 * box.static_pa);
    ck_assert_double_lt(a.gauge_pa, box.static_pa);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("fit");
    TCase *tc = tcase_create("all");
    tcase_set_timeout(tc, 120.0);
    tcase_add_test(tc, a_power_law_is_met_to_a_thousandth_between_the_points);
    tcase_add_test(tc, the_ends_of_a_point_are_the_ends_of_the_table);
    tcase_add_test(tc, known_constants_lie_in_their_own_interval);
    tcase_add_test(tc, what_two_constants_do_together_is_known_better_than_each);
    tcase_add_test(tc, boxes_that_nothing_fits_are_refused);
    tcase_add_test(tc, another_box_teaches_by_what_it_shares);
    tcase_add_test(tc, a_box_is_packed_as_the_exercise_of_its_size);
    suite_add_tcase(suite, tc);
    return run_suite(suite);
}
