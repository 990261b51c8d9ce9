/* Air in store: how fast a tight packed bay bleeds does not hang on how often its air is solved
 * for. */
#include "suite.h"

#include "core/session.h"
#include "lab/verify_pack.h"

#include <math.h>

/* Share of 1 kPa that is left after 16 ticks in a bay of 45 kg/m3 with the machine off. */
static double left_over(int is_solved_each_tick)
{
    PbSessionConfig config = pb_session_default();
    PbSession *session;
    config.exercise.leak75_m3_s_m2 = 2e-4;
    config.exercise.holes[0].open_frac = 0.0;
    ck_assert_int_eq(pb_session_create(&config, &session, NULL), PB_OK);
    PbSim *s = verify_sim(session);
    const PbCommand in = {PB_COMMAND_TUBE_TARGET, 0.5};
    for (int n = 0; n < 100; n++) { /* the next solves */
        s->solved_mouth_y_m = is_solved_each_tick ? -2.0 : s->solved_mouth_y_m;
        ck_assert_int_eq(pb_session_step(session, &in, n == 0), PB_OK);
    }
    for (int j = 0; j < s->ny; j++) {
        for (int i = 0; i < s->nx; i++) {
            int at = pb_at(s, i, j);
            s->solid.a[at] = 45.0 * s->phi[at];
            s->solid.b[at] = 45.0 * s->solid.a[at];
            s->ledger.fed_kg += s->solid.a[at] * s->dx * s->dy * s->ex.depth_m;
            s->gas_pa[at] = 1000.0;
        }
    }
    for (int n = 0; n < 16; n++) {
        s->solved_mouth_y_m = is_solved_each_tick ? -2.0 : s->solved_mouth_y_m;
        ck_assert_int_eq(pb_session_step(session, NULL, 0), PB_OK);
    }
    double left = s->gas_pa[pb_at(s, s->nx / 2, s->ny / 2)] / 1000.0;
    pb_session_destroy(session);
    return left;
}

START_TEST(a_bay_bleeds_as_fast_however_often_its_air_is_solved_for)
{
    double each = left_over(1), fourth = left_over(0);
    ck_assert_double_gt(each, 0.1);
    ck_assert_double_lt(each, 0.8);
    /* a step four times as long is that much less exact */
    ck_assert_double_eq_tol(fourth, each, 0.05);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("airflow");
    TCase *tc = tcase_create("store");
    tcase_add_test(tc, a_bay_bleeds_as_fast_however_often_its_air_is_solved_for);
    suite_add_tcase(suite, tc);
    return run_suite(suite);
}
