/* What counts as a stop is the rubric's to say, and everything that is told of a run goes by the
 * same rubric: points, losses, summary, grade and report. */
#include "core/course.h"
#include "core/watched.h"
#include "io/run_file.h"
#include "io/run_summary.h"
#include "report/report.h"
#include "suite.h"

#include <string.h>

#define RECORDED PB_TEST_SOURCE_DIR "/tests/app/recorded.pbrun"

static PbRunFile run;
static PbWatched watched;
static const PbView *view;

static void play(void)
{
    PbError err;
    ck_assert_int_eq(io_run_read(RECORDED, &run, &err), PB_OK);
    ck_assert_int_eq(pb_watched_replay(&watched, &run, pb_allocator_default(), &err), PB_OK);
    ck_assert_int_eq(pb_watched_seek(&watched, run.last_tick), PB_OK);
    view = pb_session_view(watched.session);
}

static void give_back(void)
{
    pb_watched_end(&watched);
    io_run_free(&run);
}

static int stops_by(const PbRubric *rubric)
{
    int n = 0;
    for (int i = 0; i < view->lift_count; i++) {
        n += pb_is_stop(&view->lifts[i], rubric);
    }
    return n;
}

START_TEST(a_stop_is_what_the_rubric_calls_one_to_the_gram)
{
    PbRubric rubric = pb_rubric_default();
    PbLift lift = {.mass_kg = 0.02};
    ck_assert_int_eq(pb_is_stop(&lift, &rubric), 1); /* as much as it says is enough */
    lift.mass_kg = 0.0199;
    ck_assert_int_eq(pb_is_stop(&lift, &rubric), 0);
    rubric.stop_min_kg = 0.01;
    ck_assert_int_eq(pb_is_stop(&lift, &rubric), 1);
}
END_TEST

/* No stop of this run took in 0.6 kg: by such a rubric nothing was packed, whoever tells it. */
START_TEST(score_summary_and_report_agree_on_what_a_stop_is)
{
    static const double stop_min_kg[2] = {0.02, 0.6};
    for (int k = 0; k < 2; k++) {
        PbRubric rubric = pb_rubric_default();
        const PbScore *score = &watched.score;
        PbRunSummary summary;
        ReportRun *report;
        PbError err;
        int told = 0, reported = 0;
        rubric.stop_min_kg = stop_min_kg[k];
        watched.rubric = rubric;
        ck_assert_int_eq(pb_watched_mark(&watched), PB_OK);
        for (int i = 0; i < score->loss_count; i++) {
            told |= score->losses[i].cause == PB_FAULT_NOTHING_DONE;
        }
        io_run_summary(&run, &watched, "2026-03-04T09:30:00Z", &summary);
        ck_assert_int_eq(report_gather(&run, &watched, (IoReaderTaste){0}, &report, &err), PB_OK);
        for (int i = 0; i < report->moment_count; i++) {
            reported |= strstr(report->moments[i].sentence, "othing was packed") != NULL;
        }
        report_free(report);
        int has_stops = stops_by(&rubric) > 0;
        ck_assert_int_eq(has_stops, k == 0);
        ck_assert_int_eq(told, !has_stops);
        ck_assert_int_eq(reported, !has_stops);
        ck_assert_int_eq(summary.step_mean_m > 0.0, has_stops);
    }
}
END_TEST

START_TEST(a_bay_left_alone_goes_by_the_stops_of_the_rubric)
{
    PbRubric rubric = pb_rubric_default();
    PbExercise exercise = run.exercise;
    PbResult result = {.mass_fed_kg = 1.0};
    PbScoreInput in = {.exercise = &exercise,
                       .result = &result,
                       .lifts = view->lifts,
                       .lift_count = view->lift_count,
                       .rubric = &rubric};
    snprintf(exercise.must_not_fill, sizeof exercise.must_not_fill, "A chimney.");
    ck_assert_int_eq(pb_leave_judge(&in).stops, stops_by(&rubric));
    ck_assert_int_gt(pb_leave_judge(&in).stops, 0);
    rubric.stop_min_kg = 0.6;
    ck_assert_int_eq(pb_leave_judge(&in).stops, 0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("stop_min");
    TCase *normal = tcase_create("normal");
    tcase_set_timeout(normal, 120.0);
    tcase_add_unchecked_fixture(normal, play, give_back); /* none of them changes the run */
    tcase_add_test(normal, a_stop_is_what_the_rubric_calls_one_to_the_gram);
    tcase_add_test(normal, score_summary_and_report_agree_on_what_a_stop_is);
    tcase_add_test(normal, a_bay_left_alone_goes_by_the_stops_of_the_rubric);
    suite_add_tcase(suite, normal);
    return run_suite(suite);
}
