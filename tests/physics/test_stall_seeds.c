/* The first three stalls of the plain bay over twenty seeds: an event at each of them. */
#include "stall_case.h"

static StallSeries series;

START_TEST(the_first_three_stalls_are_events)
{
    PbSessionConfig config = pb_session_default();
    PbHands hands = pb_hands_default();
    PbHandsState state = {0};
    PbSession *s;
    config.seed = (uint64_t)_i + 1;
    ck_assert_int_eq(pb_session_create(&config, &s, NULL), PB_OK);
    series.ticks = 0;
    while (stall_tick(s, &hands, &state, &series) && pb_session_view(s)->lift_count < 5) {
    }
    const PbView *v = pb_session_view(s);
    ck_assert_int_ne(v->phase, PB_PHASE_BLOWN_OUT); /* no board on sale is too weak for the rule */
    for (int n = 0; n < 3; n++) {
        StallFigures f = stall_figures(&series, &v->lifts[n], config.exercise.feed_kg_s);
        stall_is_an_event(&f, config.seed, n + 1);
    }
    ck_assert_double_le(v->lifts[0].stall_s - v->lifts[0].from_s, 45.0);
    pb_session_destroy(s);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("stall seeds");
    TCase *t = tcase_create("seeds");
    tcase_set_timeout(t, 60);
    tcase_add_loop_test(t, the_first_three_stalls_are_events, 0, 20);
    suite_add_tcase(suite, t);
    return run_suite(suite);
}
