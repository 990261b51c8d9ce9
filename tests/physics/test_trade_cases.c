/* Cases told by crews and owners: what burst and what did not, what a rental machine reached, and
 * that careful hands pass where usual ones break the wall. The machine and the way out for the air
 * decide, so they are set here as in the telling. */
#include "run_cases.h"

#include "io/exercise_file.h"

/* Most load on the face, Pa, of a wall that is tight but for the ring round the tube, packed with a
 * machine of 48 in w.c.; the face is stiff and strong, so that the bay is packed to its end. */
static double sealed_bay_pa(double depth_m)
{
    RunCase c = run_case_low();
    c.exercise.depth_m = depth_m;
    c.exercise.leak75_m3_s_m2 = 5e-4;
    c.exercise.holes[0].open_frac = 0.6;
    c.exercise.machine.static_pa = 48.0 * PB_PA_PER_IN_WC;
    c.exercise.strength_pa = 20000.0;
    c.hands.feed_kg_s = 0.03;
    return run_it(&c).peak_panel_pa;
}

/* An owner's report of a tight wall: board burst over parts 0.10 m deep, over 0.15 and 0.25 m it
 * held. A deep bay gives the air a wider way back to the hole. */
START_TEST(sealed_shallow_bays_burst_where_deep_ones_hold)
{
    double board_pa = pb_constants_default().gypsum_12_7_pa;
    double shallow = sealed_bay_pa(0.10), middle = sealed_bay_pa(0.15), deep = sealed_bay_pa(0.25);
    ck_assert_msg(shallow > board_pa && middle < board_pa && deep < middle, "%g, %g, %g Pa",
                  shallow, middle, deep);
}
END_TEST

/* A rental machine of 40 in w.c., hose of 2.5 in and tube of 1-1/2 in, in a bay 0.241 m deep: about
 * 2.5 lb/ft3 in 20 minutes or more for 4.1 m (an installer's report); half the height here. */
START_TEST(a_rental_machine_reaches_what_is_told)
{
    RunCase c = run_case_low();
    c.exercise.height_m = 2.05;
    c.exercise.depth_m = 0.241;
    c.exercise.machine.static_pa = 40.0 * PB_PA_PER_IN_WC;
    c.exercise.machine.hose_bore_m = 0.0635;
    c.exercise.machine.tube_bore_m = 0.038;
    c.exercise.machine.tube_outer_m = 0.045;
    c.exercise.feed_kg_s = 0.012;
    c.exercise.time_limit_s = 3600.0;
    c.hands.passes[0].first_m = 1.85;
    PbResult r = run_it(&c);
    double told = LB_FT3(2.5);
    ck_assert_msg(fabs(r.mean_kg_m3 - told) < 0.15 * told, "%g kg/m3", r.mean_kg_m3);
    ck_assert_int_eq(r.plugs, 0);
}
END_TEST

typedef struct Careful {
    const char *file;
    double blower, feed_kg_s, reaches_kg_m3;
} Careful;

static const Careful CAREFUL[] = {{"tight-bay.json", 0.85, 0.03, 52.0},
                                  {"thin-panelling.json", 0.65, 0.02, 40.0}};

/* The one-foot rule as it is breaks these faces; with less blower and feed and an open
 * ring it packs the bay. */
START_TEST(careful_hands_pack_what_usual_ones_break)
{
    const Careful *care = &CAREFUL[_i];
    char path[512];
    PbError err;
    RunCase c = run_case_low();
    (void)snprintf(path, sizeof path, "%s/assets/exercises/%s", PB_TEST_SOURCE_DIR, care->file);
    ck_assert_msg(io_exercise_load(path, &c.exercise, &err) == PB_OK, "%s", err.message);
    ck_assert(run_it(&c).blow_out);
    c.exercise.holes[0].open_frac = 0.3; /* the rag opened */
    c.hands.blower = care->blower;
    c.hands.feed_kg_s = care->feed_kg_s;
    PbResult r = run_it(&c);
    ck_assert(!r.blow_out);
    ck_assert_int_eq(r.plugs, 0);
    ck_assert_double_gt(r.mean_kg_m3, care->reaches_kg_m3);
    ck_assert_double_lt(r.peak_panel_over_strength, 0.85);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("trade cases");
    TCase *t = tcase_create("normal");
    tcase_set_timeout(t, 120);
    tcase_add_test(t, sealed_shallow_bays_burst_where_deep_ones_hold);
    tcase_add_test(t, a_rental_machine_reaches_what_is_told);
    tcase_add_loop_test(t, careful_hands_pack_what_usual_ones_break, 0, 2);
    suite_add_tcase(suite, t);
    return run_suite(suite);
}
