/* Heat of a whole wall, by hand calculation: the low wall of job_case.h, empty, with one bay
 * missed, and done well. */
#include "job_case.h"

#include "core/job_heat.h"
#include "core/material.h"

#include <math.h>

static PbError err;

static PbJobHeat heat_of(const PbJob *job, PbJobHeatCase which)
{
    PbJobHeat heat;
    ck_assert_msg(pb_job_heat(job, which, 20.0, 0.0, &heat, &err) == PB_OK, "%s", err.message);
    return heat;
}

/* The simple wall: films 0.13 and 0.04, 12.7 mm gypsum at 0.16, 12 mm panel at 0.13 W/(m K). Wood
 * is 2 plates of 1.26 x 0.038 and 4 studs of 0.038 x 0.724 m of 1.26 x 0.8 m. */
static const double SKIN = 0.13 + 0.0127 / 0.16 + 0.012 / 0.13 + 0.04;
static const double WALL_M2 = 1.26 * 0.8;
static const double WOOD_M2 = 2 * 1.26 * 0.038 + 4 * 0.038 * 0.724;

/* Both limits of ISO 6946 from the cavities side by side: area and R of each. */
static double by_hand(const double *m2, const double *cavity_r, int count, double depth_m)
{
    double wood_r = depth_m / 0.12, upper = WOOD_M2 / (SKIN + wood_r), lower = WOOD_M2 / wood_r;
    for (int n = 0; n < count; n++) {
        upper += m2[n] / (SKIN + cavity_r[n]);
        lower += m2[n] / cavity_r[n];
    }
    return 0.5 * (WALL_M2 / upper + SKIN + WALL_M2 / lower);
}

START_TEST(an_empty_wall_has_the_r_of_a_hand_calculation)
{
    double m2 = WALL_M2 - WOOD_M2, air = 1.0 / (4.2 + 1.25);
    case_wall();
    PbJob *job = case_job();
    PbJobHeat heat = heat_of(job, PB_JOB_HEAT_BEFORE);
    double r = by_hand(&m2, &air, 1, case_config.framing.like.depth_m);
    ck_assert_double_eq_tol(heat.wall_m2, WALL_M2, 1e-6);
    ck_assert_double_eq_tol(heat.framing_share, WOOD_M2 / WALL_M2, 1e-6);
    ck_assert_double_eq_tol(heat.r_m2k_w, r, 1e-5);
    ck_assert_double_eq_tol(heat.heat_w, WALL_M2 * 20.0 / r, 1e-3);
    ck_assert_double_eq(heat.filled_m2, 0.0);
    pb_job_heat_free(job, &heat);
    pb_job_destroy(job);
}
END_TEST

START_TEST(done_well_is_full_at_the_target_and_a_missed_bay_costs_what_a_hand_says)
{
    static const double wide[3] = {0.349, 0.368, 0.391};
    double m2[3], r[3], depth, k;
    case_wall();
    depth = case_config.framing.like.depth_m;
    k = pb_material_conductivity(&case_config.constants, case_config.framing.like.target_kg_m3);
    PbJob *job = case_job();
    case_fill(job, 0);
    case_fill(job, 2);
    case_run(job);
    PbJobHeat well = heat_of(job, PB_JOB_HEAT_WELL), now = heat_of(job, PB_JOB_HEAT_NOW);
    for (int n = 0; n < 3; n++) {
        m2[n] = wide[n] * 0.724;
        r[n] = depth / k;
    }
    ck_assert_double_eq_tol(well.r_m2k_w, by_hand(m2, r, 3, depth), 1e-5);
    ck_assert_double_eq_tol(well.filled_m2, WALL_M2 - WOOD_M2, 1e-6);
    /* Packed by hands, so by what each bay holds: a tenth more or less than the target in a patch
     * moves R of the fill by a hundredth. */
    r[1] = 1.0 / (4.2 + 1.25);
    ck_assert_double_eq_tol(now.r_m2k_w, by_hand(m2, r, 3, depth), 0.02 * now.r_m2k_w);
    ck_assert_double_eq_tol(now.filled_m2, m2[0] + m2[2], 0.02);
    ck_assert_double_gt(now.heat_w, 1.5 * well.heat_w);
    pb_job_heat_free(job, &well);
    pb_job_heat_free(job, &now);
    pb_job_destroy(job);
}
END_TEST

static double at(const PbJobHeat *heat, double x_m, double y_m)
{
    int i = (int)(x_m / case_config.framing.length_m * heat->nx);
    int j = (int)(y_m / case_config.framing.height_m * heat->ny);
    return heat->map_c[j * heat->nx + i];
}

START_TEST(the_picture_shows_the_missed_bay_cold_and_wood_between)
{
    case_wall();
    PbJob *job = case_job();
    case_fill(job, 0);
    case_fill(job, 2);
    case_run(job);
    PbJobHeat now = heat_of(job, PB_JOB_HEAT_NOW), before = heat_of(job, PB_JOB_HEAT_BEFORE);
    double fill = at(&now, CASE_MID_X_M[0], 0.4), missed = at(&now, CASE_MID_X_M[1], 0.4);
    double stud = at(&now, 0.793 + 0.5 * CASE_W, 0.4);
    /* In the middle of a bay no heat comes from the sides: room less film times flow. */
    ck_assert_double_eq_tol(missed, 20.0 - 0.13 * 20.0 / (SKIN + 1.0 / 5.45), 0.02);
    ck_assert_double_eq_tol(at(&before, CASE_MID_X_M[0], 0.4), missed, 0.02);
    ck_assert_double_gt(fill, 18.8);
    ck_assert_double_gt(stud, missed + 0.5);
    ck_assert_double_lt(stud, fill - 0.5);
    ck_assert_double_eq_tol(now.coldest_c, missed, 0.05);
    pb_job_heat_free(job, &now);
    pb_job_heat_free(job, &before);
    pb_job_destroy(job);
}
END_TEST

START_TEST(a_window_is_no_wall_and_an_old_batt_insulates)
{
    case_wall();
    PbFraming *f = &case_config.framing;
    f->cutouts[f->cutout_count++] = (PbCutout){PB_CUTOUT_WINDOW, {0.038, 0.3, 0.387, 0.762}};
    PbJob *job = case_job();
    PbJobHeat glass = heat_of(job, PB_JOB_HEAT_BEFORE);
    ck_assert_double_eq_tol(glass.wall_m2, WALL_M2 - 0.349 * 0.462, 1e-6);
    pb_job_heat_free(job, &glass);
    pb_job_destroy(job);
    case_wall();
    job = case_job();
    PbJobHeat bare = heat_of(job, PB_JOB_HEAT_BEFORE);
    pb_job_heat_free(job, &bare);
    pb_job_destroy(job);
    f->inside[f->inside_count++] = (PbObstacle){.kind = PB_OBSTACLE_BATT,
                                                .x0_m = 0.425,
                                                .y0_m = 0.038,
                                                .x1_m = 0.793,
                                                .y1_m = 0.762,
                                                .depth_frac = 0.5};
    job = case_job();
    PbJobHeat batt = heat_of(job, PB_JOB_HEAT_BEFORE);
    double depth = f->like.depth_m, air = 1.0 / 5.45;
    double m2[2] = {0.368 * 0.724, (0.349 + 0.391) * 0.724};
    double r[2] = {air + 0.5 * depth / PB_BATT_K_W_MK, air};
    ck_assert_double_eq_tol(batt.r_m2k_w, by_hand(m2, r, 2, depth), 0.01 * batt.r_m2k_w);
    ck_assert_double_gt(batt.r_m2k_w, bare.r_m2k_w);
    pb_job_heat_free(job, &batt);
    pb_job_destroy(job);
}
END_TEST

START_TEST(temperatures_that_show_nothing_are_refused)
{
    PbJobHeat heat;
    case_wall();
    PbJob *job = case_job();
    ck_assert_int_eq(pb_job_heat(job, PB_JOB_HEAT_NOW, 20.0, 19.5, &heat, &err), PB_ERR_RANGE);
    ck_assert_int_eq(pb_job_heat(job, PB_JOB_HEAT_NOW, NAN, 0.0, &heat, &err), PB_ERR_RANGE);
    pb_job_destroy(job);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("job_heat");
    TCase *t = tcase_create("wall");
    tcase_add_test(t, an_empty_wall_has_the_r_of_a_hand_calculation);
    tcase_add_test(t, done_well_is_full_at_the_target_and_a_missed_bay_costs_what_a_hand_says);
    tcase_add_test(t, the_picture_shows_the_missed_bay_cold_and_wood_between);
    tcase_add_test(t, a_window_is_no_wall_and_an_old_batt_insulates);
    tcase_add_test(t, temperatures_that_show_nothing_are_refused);
    suite_add_tcase(suite, t);
    return run_suite(suite);
}
