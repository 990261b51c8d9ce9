/*
 * Bays that are not plain: blocks and shadows, openings, slopes and ceilings, tall and deep bays,
 * weak faces, and hands that do the wrong thing. Each must come out as a trade person expects.
 */
#include "run_cases.h"

static PbObstacle block(double x0, double x1, double y0, double y1)
{
    PbObstacle o = {PB_OBSTACLE_BLOCK, x0, y0, x1, y1, 0.0, 1.0};
    return o;
}

static PbResult run_with(const RunCase *c, const PbConstants *k, PbView *view_out)
{
    PbSessionConfig config = pb_session_default();
    config.exercise = c->exercise;
    config.constants = *k;
    PbSession *s;
    PbError err;
    ck_assert_msg(pb_session_create(&config, &s, &err) == PB_OK, "%s", err.message);
    PbHandsState state;
    memset(&state, 0, sizeof state);
    while (!pb_session_is_over(s)) {
        PbCommand cmd[16];
        int n = pb_hands_next(&c->hands, &state, pb_session_view(s), cmd);
        ck_assert_int_eq(pb_session_step(s, cmd, n), PB_OK);
    }
    PbResult r;
    pb_session_result(s, &r);
    if (view_out != NULL) {
        *view_out = *pb_session_view(s);
    }
    pb_session_destroy(s);
    ck_assert_double_lt(r.mass_balance_rel, 1e-12);
    return r;
}

START_TEST(a_void_can_stand_in_the_shadow_of_a_block)
{
    RunCase c = run_case_high();
    c.exercise.hole_x_m = 0.30;
    c.exercise.obstacles[0] = block(0.0, 0.25, 1.2, 1.24);
    c.exercise.obstacle_count = 1;
    PbConstants k = pb_constants_default();
    PbResult with = run_with(&c, &k, NULL);
    k.fibre_cohesion_pa = 0.0;
    PbResult without = run_with(&c, &k, NULL);
    /* without fibre strength the shadow is only a soft pocket */
    ck_assert_double_gt(without.min_patch_kg_m3, 35.0);
    ck_assert_double_lt(with.min_patch_kg_m3, 15.0);
}
END_TEST

START_TEST(a_full_block_leaves_the_far_side_empty)
{
    RunCase c = run_case_low();
    c.exercise.obstacles[0] = block(0.0, c.exercise.width_m, 1.2, 1.24);
    c.exercise.obstacle_count = 1;
    PbConstants k = pb_constants_default();
    PbResult r = run_with(&c, &k, NULL);
    /* everything above 1.24 m of 2.35 m, 0.368 m wide */
    ck_assert_double_gt(r.void_area_m2, 0.9 * (2.35 - 1.24) * 0.368);
    ck_assert_double_lt(r.share_at_target, 0.55);
}
END_TEST

START_TEST(material_runs_away_through_an_open_bottom)
{
    RunCase c = run_case_low();
    PbOpening o = {0.0, 0.0, 0.368, 0.02, 0.03, 0.08, "cellar"};
    c.exercise.openings[0] = o;
    c.exercise.opening_count = 1;
    c.exercise.time_limit_s = 60.0;
    PbConstants k = pb_constants_default();
    PbResult r = run_with(&c, &k, NULL);
    ck_assert_double_gt(r.ledger.lost_openings_kg, 0.8 * r.mass_fed_kg - 0.3);
    ck_assert_double_lt(r.mass_in_bay_kg, 0.5);
}
END_TEST

START_TEST(a_slope_and_a_level_ceiling_pack_too)
{
    RunCase c = run_case_low();
    PbConstants k = pb_constants_default();
    c.exercise.tilt_deg = 35.0;
    PbResult slope = run_with(&c, &k, NULL);
    c.exercise.tilt_deg = 0.0;
    PbResult level = run_with(&c, &k, NULL);
    ck_assert_double_gt(slope.mean_kg_m3, 56.0);
    ck_assert_double_gt(level.mean_kg_m3, 56.0);
    ck_assert_double_lt(level.share_below_48_kg_m3, 0.05);
}
END_TEST

START_TEST(a_deeper_bay_packs_with_less_loss_to_the_faces)
{
    RunCase c = run_case_low();
    PbConstants k = pb_constants_default();
    PbResult shallow = run_with(&c, &k, NULL);
    c.exercise.depth_m = 0.140;
    PbResult deep = run_with(&c, &k, NULL);
    ck_assert_double_gt(deep.p5_patch_kg_m3, shallow.p5_patch_kg_m3);
    ck_assert_double_gt(deep.mass_in_bay_kg, 1.5 * shallow.mass_in_bay_kg);
}
END_TEST

START_TEST(thin_panelling_lets_go)
{
    RunCase c = run_case_low();
    c.exercise.finish = PB_FINISH_PANELLING;
    PbConstants k = pb_constants_default();
    PbResult r = run_with(&c, &k, NULL);
    ck_assert_int_eq(r.blow_out, 1);
    ck_assert_double_gt(r.ledger.fallen_kg, 0.05);
}
END_TEST

START_TEST(the_face_bows_and_gives_room)
{
    RunCase c = run_case_low();
    PbConstants k = pb_constants_default();
    PbResult stiff = run_with(&c, &k, NULL);
    k.gypsum_12_7_ei_n_m = 60.0;
    PbResult soft = run_with(&c, &k, NULL);
    ck_assert_double_gt(soft.mass_in_bay_kg, stiff.mass_in_bay_kg);
}
END_TEST

START_TEST(damp_material_stalls_sooner_and_packs_less)
{
    RunCase c = run_case_low();
    PbConstants k = pb_constants_default();
    PbResult dry = run_with(&c, &k, NULL);
    c.exercise.damp_frac = 0.06;
    PbResult damp = run_with(&c, &k, NULL);
    ck_assert_double_lt(damp.mean_kg_m3, dry.mean_kg_m3);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("session_bays");
    TCase *tc = tcase_create("bays");
    tcase_set_timeout(tc, 290);
    tcase_add_test(tc, a_void_can_stand_in_the_shadow_of_a_block);
    tcase_add_test(tc, a_full_block_leaves_the_far_side_empty);
    tcase_add_test(tc, material_runs_away_through_an_open_bottom);
    tcase_add_test(tc, a_slope_and_a_level_ceiling_pack_too);
    tcase_add_test(tc, a_deeper_bay_packs_with_less_loss_to_the_faces);
    tcase_add_test(tc, thin_panelling_lets_go);
    tcase_add_test(tc, the_face_bows_and_gives_room);
    tcase_add_test(tc, damp_material_stalls_sooner_and_packs_less);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
