/*
 * A closed wall can be worked by signals alone: a crew that hears, reads the gauge and the foot
 * marks, and sees nothing else, does well where the rule of the trade works and badly where the
 * machine cannot; a crew that pulls by the clock does not. With PB_TEST_ALL in the environment
 * every exercise is packed by both crews, and the table of docs/TRAINERS.md printed.
 */
#include "core/course.h"
#include "core/watched.h"
#include "crew.h"
#include "io/exercise_file.h"
#include "suite.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct Outcome {
    PbScore score;
    PbResult result;
    PbHintKind hints[8]; /* that the coach gave, in order of first appearance */
    int hint_count;
} Outcome;

static PbExercise load(const char *id)
{
    PbExercise e;
    PbError err = {0};
    char path[512];
    snprintf(path, sizeof path, "%s/assets/exercises/%s.json", PB_TEST_SOURCE_DIR, id);
    ck_assert_msg(io_exercise_load(path, &e, &err) == PB_OK, "%s: %s", path, err.message);
    return e;
}

static void note(Outcome *o, PbHintKind kind)
{
    for (int i = 0; i < o->hint_count; i++) {
        if (o->hints[i] == kind) {
            return;
        }
    }
    if (kind != PB_HINT_NONE && o->hint_count < 8) {
        o->hints[o->hint_count++] = kind;
    }
}

static int was_hinted(const Outcome *o, PbHintKind kind)
{
    for (int i = 0; i < o->hint_count; i++) {
        if (o->hints[i] == kind) {
            return 1;
        }
    }
    return 0;
}

static Outcome run(const PbExercise *e, CrewPlan plan)
{
    static PbWatched w;
    Outcome o;
    memset(&o, 0, sizeof o);
    PbSessionConfig config = pb_session_default();
    config.exercise = *e;
    config.seed = 5;
    PbError err = {0};
    ck_assert_msg(pb_watched_start(&w, &config, &err) == PB_OK, "%s", err.message);
    Crew crew = crew_make(plan);
    PbCoach coach = pb_coach_start(e);
    const PbView *v = pb_session_view(w.session);
    while (!w.is_ended) {
        PbCommand commands[16];
        int n = crew_next(&crew, &v->signals, commands);
        ck_assert_int_eq(pb_watched_step(&w, commands, n), PB_OK);
        note(&o, pb_coach_next(&coach, &v->signals).kind);
    }
    ck_assert_int_eq(pb_watched_mark(&w), PB_OK);
    o.result = w.result;
    o.score = w.score;
    pb_watched_end(&w);
    return o;
}

static CrewPlan hasty(const PbExercise *e)
{
    CrewPlan p = crew_plan(e);
    p.by_the_clock = 1;
    p.wait_s = 5.0;
    p.is_careful = 0;
    p.leaves = 0;
    p.blower = 1.0;
    p.feed_kg_s = e->feed_kg_s;
    return p;
}

/* Exercises with both crews, packed once for all tests: those that a test below names, or all. */
enum { MAX_EXERCISES = 64 };
static const char *const named[] = {"balloon-bay", "chimney-bay", "plain-2x4", "worn-blower"};
static struct {
    PbExercise exercise;
    Outcome good, bad;
} table[MAX_EXERCISES];
static int table_rows;

static void pack_row(const char *id)
{
    PbExercise e = load(id);
    ck_assert_int_lt(table_rows, MAX_EXERCISES);
    table[table_rows].exercise = e;
    table[table_rows].good = run(&e, crew_plan(&e));
    if (all_of_it() || strcmp(id, "plain-2x4") == 0 || strcmp(id, "chimney-bay") == 0) {
        table[table_rows].bad = run(&e, hasty(&e));
    }
    table_rows++;
}

static void pack_table(void)
{
    char dir[512];
    struct dirent **names;
    for (size_t i = 0; i < sizeof named / sizeof named[0] && !all_of_it(); i++) {
        pack_row(named[i]);
    }
    if (!all_of_it()) {
        return;
    }
    snprintf(dir, sizeof dir, "%s/assets/exercises", PB_TEST_SOURCE_DIR);
    int n = scandir(dir, &names, NULL, alphasort);
    ck_assert_int_gt(n, 0);
    for (int i = 0; i < n; i++) {
        char *dot = strstr(names[i]->d_name, ".json");
        if (dot != NULL) {
            *dot = '\0';
            pack_row(names[i]->d_name);
        }
        free(names[i]);
    }
    free(names);
}

static int row_of(const char *id)
{
    for (int i = 0; i < table_rows; i++) {
        if (strcmp(table[i].exercise.id, id) == 0) {
            return i;
        }
    }
    ck_abort_msg("no exercise %s", id);
    return -1;
}

START_TEST(two_seconds_after_the_stall_scores_high_on_the_plain_bay)
{
    Outcome o = table[row_of("plain-2x4")].good;
    printf("plain bay, by signals: %.1f\n", o.score.total);
    ck_assert_double_ge(o.score.total, 85.0);
    ck_assert(o.score.is_pass);
    /* nothing to teach this crew */
    ck_assert(!was_hinted(&o, PB_HINT_PULL_BACK));
    ck_assert(!was_hinted(&o, PB_HINT_LEFT_EARLY));
    ck_assert(!was_hinted(&o, PB_HINT_RUNS_AWAY));
}
END_TEST

/* Who tests it leaves it; who packs all the same has a wall under its target, and the machine is
 * named as the reason. */
START_TEST(the_same_hands_fail_with_a_worn_blower)
{
    ck_assert(table[row_of("worn-blower")].good.score.is_pass);
    PbExercise e = load("worn-blower");
    e.must_not_fill[0] = '\0';
    e.leave_reason = PB_LEAVE_NONE;
    Outcome o = run(&e, crew_plan(&e));
    printf("worn blower, by signals: %.1f\n", o.score.total);
    ck_assert_int_eq((int)o.score.verdict, PB_VERDICT_REDO);
    ck_assert(o.score.gates[PB_GATE_MEAN].is_shut);
    ck_assert_int_eq((int)pb_debrief(&o.score).next, PB_ADVICE_MEND_MACHINE);
}
END_TEST

START_TEST(pulling_by_the_clock_fails)
{
    Outcome o = table[row_of("plain-2x4")].bad;
    printf("plain bay, by the clock: %.1f\n", o.score.total);
    ck_assert_double_lt(o.score.total, 70.0);
    ck_assert(was_hinted(&o, PB_HINT_LEFT_EARLY));
}
END_TEST

START_TEST(waiting_too_long_is_told_to_pull_back)
{
    PbExercise e = load("plain-2x4");
    CrewPlan p = crew_plan(&e);
    p.wait_s = 9.0;
    e.time_limit_s = 120.0; /* a few stops are enough */
    Outcome o = run(&e, p);
    ck_assert(was_hinted(&o, PB_HINT_PULL_BACK));
}
END_TEST

START_TEST(a_chimney_bay_is_left_or_lost)
{
    int row = row_of("chimney-bay");
    Outcome left = table[row].good, filled = table[row].bad;
    ck_assert_double_eq_tol(left.score.total, 100.0, 1e-9);
    ck_assert(left.score.is_pass);
    ck_assert_double_lt(filled.score.total, 5.0);
    ck_assert(!filled.score.is_pass);
}
END_TEST

START_TEST(a_bay_with_no_bottom_is_noticed_by_ear)
{
    int row = row_of("balloon-bay");
    PbExercise e = table[row].exercise;
    Outcome o = table[row].good, blind;
    CrewPlan p = crew_plan(&e);
    p.is_careful = 0;
    e.time_limit_s = 300.0; /* three times what it may take, and more */
    blind = run(&e, p);
    printf("bay with no bottom: stopped after %.1f kg, never stopped %.1f kg\n",
           o.result.mass_fed_kg, blind.result.mass_fed_kg);
    ck_assert_msg(o.score.is_pass, "%g kg", o.result.mass_fed_kg);
    ck_assert(!blind.score.is_pass);
    ck_assert_double_lt(blind.score.total, 5.0);
    ck_assert(was_hinted(&blind, PB_HINT_RUNS_AWAY));
}
END_TEST

START_TEST(every_exercise_with_both_crews)
{
    printf("| level | exercise | pass | by signals | by the clock |\n|---|---|---|---|---|\n");
    for (int i = 0; i < table_rows; i++) {
        const PbExercise *e = &table[i].exercise;
        const Outcome *good = &table[i].good, *bad = &table[i].bad;
        printf("| %.0f | %s | %.0f | %.0f%s | %.0f%s |\n", e->level, e->id, e->pass_score,
               good->score.total, good->result.blow_out ? " blown out" : "", bad->score.total,
               bad->result.blow_out ? " blown out" : "");
        /* each says what it is about, and what to be careful of */
        ck_assert_msg(e->teaches[0] != '\0' && e->caution_count > 0 && e->target_kg_m3 > 0.0 &&
                          e->pass_score > 0.0,
                      "%s", e->id);
        /* haste is never rewarded with a pass */
        ck_assert_msg(!bad->score.is_pass, "%s: %.1f by the clock", e->id, bad->score.total);
    }
    ck_assert_int_ge(table_rows, 17);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("crew_signals");
    TCase *normal = tcase_create("normal");
    tcase_add_unchecked_fixture(normal, pack_table, NULL);
    tcase_set_timeout(normal, 290); /* it holds for the fixture too */
    tcase_add_test(normal, two_seconds_after_the_stall_scores_high_on_the_plain_bay);
    tcase_add_test(normal, the_same_hands_fail_with_a_worn_blower);
    tcase_add_test(normal, pulling_by_the_clock_fails);
    tcase_add_test(normal, waiting_too_long_is_told_to_pull_back);
    tcase_add_test(normal, a_chimney_bay_is_left_or_lost);
    tcase_add_test(normal, a_bay_with_no_bottom_is_noticed_by_ear);
    if (all_of_it()) {
        tcase_add_test(normal, every_exercise_with_both_crews);
    }
    suite_add_tcase(s, normal);
    return run_suite(s);
}
