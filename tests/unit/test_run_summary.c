/* What the summary of a run says of its hands: means and spreads by value. */
#include "io/run_summary.h"
#include "suite.h"

#include <string.h>

/* Stops of 1, 2, 3 kg; the third is passing through, the last has no stall. */
static const PbLift lifts[] = {
    {.from_s = 10.0, .to_s = 31.0, .step_m = 0.0, .stall_s = 28.0, .mass_kg = 1.0},
    {.from_s = 31.0, .to_s = 50.0, .step_m = 0.30, .stall_s = 46.0, .mass_kg = 2.0},
    {.from_s = 50.0, .to_s = 52.0, .step_m = 0.90, .stall_s = 51.0, .mass_kg = 0.001},
    {.from_s = 52.0, .to_s = 80.0, .step_m = 0.40, .stall_s = 70.0, .mass_kg = 3.0},
    {.from_s = 80.0, .to_s = 99.0, .step_m = 0.20, .stall_s = -1.0, .mass_kg = 1.0},
};
enum { LIFTS = sizeof lifts / sizeof lifts[0] };

START_TEST(steps_and_waits_are_those_of_the_stops)
{
    static PbScoreWatch watch;
    PbRubric rubric = pb_rubric_default();
    PbRunSummary m;
    memset(&watch, 0, sizeof watch);
    watch.lifts[0].left_s = 30.0; /* seen to leave a second before the next stop began */
    watch.lifts[1].left_s = 49.0;
    io_summary_hands(lifts, LIFTS, &watch, &rubric, &m);
    /* 0.30, 0.40, 0.20: the first stop has no step before it */
    ck_assert_double_eq_tol(m.step_mean_m, 0.30, 1e-12);
    ck_assert_double_eq_tol(m.step_spread_m, 0.10, 1e-12);
    /* 2, 3, and 10 of the one that nobody saw leave: until the stop was over */
    ck_assert_double_eq_tol(m.dwell_mean_s, 5.0, 1e-12);
    ck_assert_double_eq_tol(m.dwell_spread_s, 4.358898943540674, 1e-12); /* sqrt(19) */
    io_summary_hands(lifts, 2, &watch, &rubric, &m);
    ck_assert_double_eq_tol(m.step_mean_m, 0.30, 1e-12);
    ck_assert_double_eq(m.step_spread_m, -1.0); /* of one step nobody knows it */
    ck_assert_double_eq_tol(m.dwell_mean_s, 2.5, 1e-12);
    io_summary_hands(lifts, 0, &watch, &rubric, &m);
    ck_assert_double_eq(m.step_mean_m, -1.0);
    ck_assert_double_eq(m.dwell_mean_s, -1.0);
}
END_TEST

/* A clock that was set back, or another machine's that is ahead: lists are in the order of time,
 * and nothing stands before what is done next. */
START_TEST(a_run_ends_when_its_file_says_but_never_after_now)
{
    PbRunFile run = {.exercise = pb_exercise_default(),
                     .last_tick = 3000,
                     .started_unix_s = 1772616600, /* 2026-03-04 09:30 UTC */
                     .ended_unix_s = 1772616600 + 120};
    static const char *const now[] = {"2026-03-04T09:31:59Z", "2026-03-04T09:32:00Z",
                                      "2026-03-05T00:00:00Z"};
    static const char *const when[] = {"2026-03-04T09:31:59Z", "2026-03-04T09:32:00Z",
                                       "2026-03-04T09:32:00Z"};
    PbRunSummary m;
    for (int i = 0; i < 3; i++) {
        io_run_summary(&run, NULL, now[i], &m);
        ck_assert_str_eq(m.when, when[i]);
    }
    run.started_unix_s = run.ended_unix_s = 0; /* no clock: kept is all that is known */
    io_run_summary(&run, NULL, now[0], &m);
    ck_assert_str_eq(m.when, now[0]);
}
END_TEST

/* Half a hundredth is the rounding of two decimals; what is more is another grade. */
START_TEST(a_claim_parts_from_the_grade_by_more_than_half_a_hundredth)
{
    static const struct {
        double claimed;
        int claimed_pass, is_parted;
    } claims[] = {{60.0, 1, 0},   {60.004, 1, 0}, {59.996, 1, 0}, {60.006, 1, 1},
                  {59.994, 1, 1}, {60.3, 1, 1},   {59.7, 1, 1},   {60.0, 0, 1}};
    for (size_t i = 0; i < sizeof claims / sizeof claims[0]; i++) {
        PbRunSummary m = {.state = PB_RUN_FINISHED,
                          .has_claim = 1,
                          .claimed_total = claims[i].claimed,
                          .claimed_pass = claims[i].claimed_pass,
                          .total = 60.0,
                          .is_pass = 1};
        ck_assert_msg(pb_summary_is_parted(&m) == claims[i].is_parted, "%g", claims[i].claimed);
        m.state = PB_RUN_LEFT; /* no grade to part from */
        ck_assert(!pb_summary_is_parted(&m));
        m.state = PB_RUN_FINISHED;
        m.has_claim = 0;
        ck_assert(!pb_summary_is_parted(&m));
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("run_summary");
    TCase *normal = tcase_create("normal");
    tcase_add_test(normal, steps_and_waits_are_those_of_the_stops);
    tcase_add_test(normal, a_run_ends_when_its_file_says_but_never_after_now);
    tcase_add_test(normal, a_claim_parts_from_the_grade_by_more_than_half_a_hundredth);
    suite_add_tcase(suite, normal);
    return run_suite(suite);
}
