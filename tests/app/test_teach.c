/*
 * Samples of what `pullback-lab teach` shows in full (docs/TRAINERS.md, Do marks and advice
 * teach?): simulated hands on whole runs. Few of them, since each takes most of a second, and in a
 * person's tests still fewer.
 */
#include "lab/teach.h"
#include "suite.h"

#include <math.h>
#include <string.h>

#define ASSETS PB_TEST_SOURCE_DIR "/assets"

static TeachBay bay_of(const char *id)
{
    TeachBay bay;
    PbError err = {0};
    ck_assert_msg(teach_bay(ASSETS, id, &bay, &err) == PB_OK, "%s", err.message);
    return bay;
}

/* Marks put these walls as they were put before they had any. */
START_TEST(marks_agree_with_a_ranking_made_without_them)
{
    static const char *const sample[] = {"14 in, 1 s",     "gate 3/4, 16 in",   "30 in, 3 s",
                                         "five feet, 2 s", "starts 2 ft under", "clock 7 s",
                                         "blower 50 %"};
    enum { COUNT = sizeof sample / sizeof sample[0] };
    TeachBay bay = bay_of("plain-2x4");
    int ranks[COUNT];
    double marks[COUNT];
    static TeachJob jobs[COUNT];
    for (int i = 0; i < COUNT; i++) {
        int at = 0;
        while (strcmp(teach_technique(0, at).name, sample[i]) != 0) {
            ck_assert_int_lt(++at, TEACH_TECHNIQUES);
        }
        jobs[i] = (TeachJob){.bay = &bay, .habits = teach_technique(0, at).habits, .seed = 1};
        ranks[i] = teach_rankings()[0].rank[0][at];
    }
    ck_assert_int_eq(teach_run_all(jobs, COUNT, 2), PB_OK);
    for (int i = 0; i < COUNT; i++) {
        marks[i] = floor(jobs[i].run.score.total);
    }
    double tau = teach_tau_b(ranks, marks, COUNT);
    ck_assert_msg(tau >= teach_rankings()[0].wanted_tau, "tau-b %.2f", tau);
}
END_TEST

START_TEST(tau_is_that_of_kendall)
{
    const int ranks[] = {1, 2, 3, 4}, tied[] = {1, 1, 3, 4};
    const double same[] = {9.0, 8.0, 7.0, 6.0}, one_off[] = {9.0, 7.0, 8.0, 6.0};
    ck_assert_double_eq_tol(teach_tau_b(ranks, same, 4), 1.0, 1e-12);
    ck_assert_double_eq_tol(teach_tau_b(ranks, one_off, 4), 4.0 / 6.0, 1e-12);
    ck_assert_double_eq_tol(teach_tau_b(tied, same, 4), 5.0 / 5.4772255750516612, 1e-12);
    for (int b = 0; b < TEACH_ORDER_BAYS; b++) { /* every technique has its rank */
        for (int i = 0; i < TEACH_TECHNIQUES; i++) {
            int rank = teach_rankings()[b].rank[0][i];
            ck_assert(rank >= 1 && rank <= TEACH_TECHNIQUES);
        }
    }
}
END_TEST

/* Advice that takes back what the run before it said. */
static int is_contrary(PbAdvice first, PbAdvice second)
{
    return (first == PB_ADVICE_LESS_BLOWER && second == PB_ADVICE_MORE_AIR) ||
           (first == PB_ADVICE_MORE_AIR && second == PB_ADVICE_LESS_BLOWER) ||
           (first == PB_ADVICE_MOVE_SOONER && second == PB_ADVICE_END_LONGER) ||
           (first == PB_ADVICE_END_LONGER && second == PB_ADVICE_MOVE_SOONER);
}

/* Told after a run, done, and told again: nothing is taken back, and the first is what the bay
 * needs. */
static const struct {
    const char *id;
    double step_m, blower;
    int eases;
    PbAdvice first;
} twice[] = {
    {"tight-bay", 0.30, 1.0, 0, PB_ADVICE_LESS_BLOWER},
    {"damp-material", 0.30, 1.0, 1, PB_ADVICE_LESS_FEED},
    {"plain-2x4", 0.16, 0.6, 0, PB_ADVICE_MORE_AIR},
};

START_TEST(advice_that_was_followed_is_not_taken_back)
{
    static TeachRun run;
    TeachBay bay = bay_of(twice[_i].id);
    TeachHabits h = teach_textbook();
    PbAdvice told[2];
    h.step_m = twice[_i].step_m;
    h.blower = twice[_i].blower;
    h.eases = twice[_i].eases;
    h.reads_bay = 0;
    bay.exercise.time_limit_s = 300.0; /* weak air takes as long as it is given */
    for (int k = 0; k < 2; k++) {
        ck_assert_int_eq(teach_run(&bay.exercise, &bay.climate, &h, 7, 0, &run), PB_OK);
        told[k] = run.debrief.next;
        teach_follow(&h, told[k]);
    }
    ck_assert_msg(told[0] == twice[_i].first, "%s: told %d", twice[_i].id, (int)told[0]);
    ck_assert_msg(!is_contrary(told[0], told[1]), "%s: told %d, then %d", twice[_i].id,
                  (int)told[0], (int)told[1]);
}
END_TEST

/* One kind of beginner of the ten, by what the program says to do next. */
START_TEST(advice_brings_a_clock_puller_to_a_pass)
{
    TeachBay bay = bay_of("plain-2x4");
    TeachKind kind = teach_kind(1);
    TeachCourse course;
    ck_assert_str_eq(kind.name, "by the clock");
    ck_assert_int_eq(teach_learn(&bay, &kind.habits, 11, 0, &course), PB_OK);
    ck_assert_msg(course.passed_at > 1 && course.passed_at <= 3, "passed at %d", course.passed_at);
    ck_assert_int_eq((int)course.advice[0], PB_ADVICE_WAIT);
}
END_TEST

/* The same beginner, whose habits are changed by lot instead, does not get there. */
START_TEST(a_lot_does_not_teach)
{
    TeachBay bay = bay_of("plain-2x4");
    TeachKind kind = teach_kind(6);
    TeachCourse taught, lot;
    ck_assert_str_eq(kind.name, "blower too low");
    bay.exercise.time_limit_s = 300.0;
    ck_assert_int_eq(teach_learn(&bay, &kind.habits, 61, 0, &taught), PB_OK);
    ck_assert_int_eq(teach_learn(&bay, &kind.habits, 61, 1, &lot), PB_OK);
    ck_assert_msg(taught.passed_at > 0, "not passed in %d runs", taught.runs);
    ck_assert_int_eq(lot.passed_at, 0);
}
END_TEST

/* Acts that a lesson asks for: the expert does them, and passes where hands without them do not. */
static const char *const acts[] = {"tight-bay", "part-block", "thin-panelling"};

START_TEST(an_expert_does_what_the_lesson_asks_for)
{
    static TeachRun run;
    TeachBay bay = bay_of(acts[_i]);
    TeachHabits h = teach_skill(TEACH_SKILLS - 1);
    ck_assert_int_eq(teach_run(&bay.exercise, &bay.climate, &h, 11, 0, &run), PB_OK);
    ck_assert_msg(run.score.is_pass, "%s: %.1f", acts[_i], run.score.total);
    h.acts_share = 0.0;
    bay.exercise.time_limit_s = fmin(bay.exercise.time_limit_s, 300.0);
    ck_assert_int_eq(teach_run(&bay.exercise, &bay.climate, &h, 11, 0, &run), PB_OK);
    ck_assert(!run.score.is_pass);
}
END_TEST

/* One tick, 10 mm, another grid, another seed: less than a point. Hands that leave the blower alone
 * do not break exercise 1 with any sheet of so many seeds. */
START_TEST(what_changes_little_changes_the_mark_little)
{
    static TeachJob jobs[6];
    enum { COUNT = sizeof jobs / sizeof jobs[0] };
    TeachBay bay = bay_of("plain-2x4");
    TeachHabits h = teach_textbook();
    double weakest, load = 0.0;
    h.eases = 0;
    h.wait_s = 1.0;
    for (int i = 0; i < COUNT; i++) {
        jobs[i] = (TeachJob){.bay = &bay, .habits = h, .seed = 1};
    }
    jobs[1].habits.wait_s += 0.04;
    jobs[2].habits.step_m += 0.01;
    jobs[3].cells = 12;
    jobs[4].cells = 20;
    jobs[5].seed = 2;
    ck_assert_int_eq(teach_run_all(jobs, COUNT, 2), PB_OK);
    for (int i = 0; i < COUNT; i++) {
        double by = jobs[i].run.score.total - jobs[0].run.score.total;
        ck_assert_msg(fabs(by) < 1.0, "change %d: by %.2f", i, by);
        load = fmax(load, jobs[i].run.load);
    }
    ck_assert_int_eq(teach_weakest_sheet(&bay, 100, &weakest), PB_OK);
    ck_assert_msg(load < weakest, "%.2f of a sheet that has %.2f", load, weakest);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("teach");
    TCase *normal = tcase_create("normal");
    tcase_set_timeout(normal, 60.0);
    tcase_add_test(normal, marks_agree_with_a_ranking_made_without_them);
    tcase_add_test(normal, tau_is_that_of_kendall);
    tcase_add_loop_test(normal, advice_that_was_followed_is_not_taken_back, 0,
                        some_of(1, (int)(sizeof twice / sizeof twice[0])));
    tcase_add_test(normal, advice_brings_a_clock_puller_to_a_pass);
    tcase_add_loop_test(normal, a_lot_does_not_teach, 0, some_of(0, 1));
    tcase_add_loop_test(normal, an_expert_does_what_the_lesson_asks_for, 0,
                        some_of(1, (int)(sizeof acts / sizeof acts[0])));
    tcase_add_loop_test(normal, what_changes_little_changes_the_mark_little, 0, some_of(0, 1));
    suite_add_tcase(suite, normal);
    return run_suite(suite);
}
