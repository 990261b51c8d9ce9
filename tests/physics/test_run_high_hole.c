/*
 * Whole runs from a high hole: tube to the bottom, worked back up. Orderings as in the low-hole
 * file, and the cases that break things: tight and sealed bays, a strong blower, blocks.
 */
#include "run_cases.h"

/* The plain run, worked out once for all that compare with it. */
static PbResult plain;

static void run_plain(void)
{
    RunCase c = run_case_high();
    plain = run_it(&c);
}

START_TEST(steps_order_as_in_the_trade)
{
    RunCase c = run_case_high();
    PbResult one = plain;
    c.hands.step_m = 0.6;
    PbResult two = run_it(&c);
    c.hands.step_m = 0.9;
    PbResult three = run_it(&c);
    ck_assert_double_gt(one.mean_kg_m3, two.mean_kg_m3);
    ck_assert_double_gt(two.mean_kg_m3, three.mean_kg_m3);
    ck_assert_double_lt(one.share_below_48_kg_m3, 0.10);
    ck_assert_double_gt(three.share_below_48_kg_m3, 0.25);
}
END_TEST

/* Fill resists with the cube of its density, so a quarter more pressure makes the densest bay 4 %
 * denser; by the law of a flow that falls below what carries the feed it was 10 %, to 4.1 lb/ft3.
 */
START_TEST(a_stronger_blower_packs_denser)
{
    RunCase c = run_case_high();
    double mean[4] = {0.0, 0.0, plain.mean_kg_m3, 0.0}; /* 80 in w.c. is the plain one */
    const double inches[4] = {48.0, 60.0, 80.0, 100.0};
    for (int i = 0; i < 4; i++) {
        if (i != 2) {
            c.exercise.machine.static_pa = inches[i] * PB_PA_PER_IN_WC;
            mean[i] = run_it(&c).mean_kg_m3;
        }
        ck_assert(i == 0 || mean[i] > mean[i - 1]);
    }
    ck_assert_double_ge(mean[3], LB_FT3(3.75));
}
END_TEST

/* The mouth refuses by the momentum of air and material together: less material flies a little
 * faster, so density hardly hangs on the feed. The trade says that lean feed packs denser, and by
 * the former law it did; here it is up to 5 % looser, which docs/physics/packing.md counts as
 * unreal. */
START_TEST(feed_hardly_changes_density)
{
    RunCase c = run_case_high();
    const double feed[3] = {0.05, 0.03, 0.018};
    double first = 0.0;
    for (int i = 0; i < 3; i++) {
        c.hands.feed_kg_s = feed[i];
        PbResult r = run_it(&c);
        first = i == 0 ? r.mean_kg_m3 : first;
        ck_assert_double_lt(fabs(r.mean_kg_m3 - first), 0.08 * first);
    }
}
END_TEST

START_TEST(loose_blow_without_a_tube_stays_loose)
{
    /* 50 mm nozzle at the hole, gentle blower: under 2.0 lb/ft3 (trade figures for loose walls
     * 24 to 40 kg/m3, from memory) */
    RunCase c = run_case_high();
    c.exercise.machine.static_pa = 5000.0;
    c.exercise.machine.tube_bore_m = 0.050;
    c.exercise.machine.tube_outer_m = 0.056;
    c.exercise.feed_kg_s = 0.030;
    c.hands.pull = PB_PULL_NONE;
    c.hands.passes[0].first_m = 2.07;
    c.hands.passes[0].last_m = 2.07;
    c.hands.wait_s = 0.5;
    PbResult r = run_it(&c);
    ck_assert_double_lt(r.mean_kg_m3, LB_FT3(2.0));
    ck_assert_double_gt(r.mean_kg_m3, LB_FT3(1.0));
}
END_TEST

START_TEST(a_sealed_bay_overloads_the_face)
{
    RunCase c = run_case_high();
    c.exercise.leak75_m3_s_m2 = 0.5e-3;
    c.exercise.holes[0].open_frac = 0.05;
    PbResult r = run_it(&c);
    ck_assert_double_gt(r.peak_panel_over_strength, 1.0);
    ck_assert_int_eq(r.blow_out, 1);
    ck_assert_double_gt(r.peak_panel_pa, 3000.0);
    ck_assert_double_lt(r.mass_balance_rel, 1e-12);
}
END_TEST

START_TEST(a_leaky_back_loads_the_face_less)
{
    RunCase c = run_case_high();
    PbResult tight = plain;
    c.exercise.leak75_m3_s_m2 = 20e-3;
    PbResult leaky = run_it(&c);
    ck_assert_double_lt(leaky.peak_panel_pa, tight.peak_panel_pa);
    ck_assert_double_gt(leaky.mean_kg_m3, tight.mean_kg_m3);
}
END_TEST

START_TEST(waiting_twenty_seconds_plugs)
{
    RunCase c = run_case_high();
    c.hands.wait_s = 20.0;
    PbResult r = run_it(&c);
    ck_assert_int_ge(r.plugs, 1);
}
END_TEST

static void check_grid(int cells)
{
    RunCase c = run_case_high();
    PbSessionConfig config = pb_session_default();
    config.exercise = c.exercise;
    config.cells_across = cells;
    PbSession *session;
    ck_assert_int_eq(pb_session_create(&config, &session, NULL), PB_OK);
    PbHandsState state;
    memset(&state, 0, sizeof state);
    while (!pb_session_is_over(session)) {
        PbCommand cmd[16];
        int n = pb_hands_next(&c.hands, &state, pb_session_view(session), cmd);
        ck_assert_int_eq(pb_session_step(session, cmd, n), PB_OK);
    }
    PbResult r;
    pb_session_result(session, &r);
    /* 57.6 to 58.6 kg/m3, falling as cells shrink: a face breaks by whole cells */
    ck_assert_double_lt(fabs(r.mean_kg_m3 - plain.mean_kg_m3), LB_FT3(0.05));
    ck_assert_double_lt(fabs(r.peak_panel_pa - plain.peak_panel_pa), 0.02 * plain.peak_panel_pa);
    ck_assert_double_lt(fabs(r.peak_panel_over_strength - plain.peak_panel_over_strength),
                        0.03 * plain.peak_panel_over_strength);
    pb_session_destroy(session);
}

START_TEST(finer_grids_say_the_same)
{
    check_grid(12); /* 16 in the plain run */
    if (all_of_it()) {
        check_grid(24);
    }
}
END_TEST

int main(void)
{
    Suite *s = suite_create("run_high_hole");
    TCase *tc = tcase_create("orderings");
    tcase_add_unchecked_fixture(tc, run_plain, NULL);
    tcase_set_timeout(tc, 290);
    tcase_add_test(tc, steps_order_as_in_the_trade);
    tcase_add_test(tc, a_stronger_blower_packs_denser);
    tcase_add_test(tc, feed_hardly_changes_density);
    tcase_add_test(tc, loose_blow_without_a_tube_stays_loose);
    tcase_add_test(tc, a_sealed_bay_overloads_the_face);
    tcase_add_test(tc, a_leaky_back_loads_the_face_less);
    tcase_add_test(tc, waiting_twenty_seconds_plugs);
    tcase_add_test(tc, finer_grids_say_the_same);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
