/* Grades are what a replay gives: forged, foreign, torn and older run files through import, lists
 * and check, as a trainer meets them. */
#include "cli_case.h"
#include "core/marks.h"
#include "io/exercise_file.h"
#include "io/run_judge.h"
#include "io/run_recorder.h"
#include "io/run_summary.h"

#include <jansson.h>
#include <sqlite3.h>
#include <time.h>

static PbRunFile read_run(const char *folder, const char *name)
{
    char path[400];
    PbRunFile run;
    PbError err;
    snprintf(path, sizeof path, "%s/%s", folder, name);
    ck_assert_int_eq(io_run_read(path, &run, &err), PB_OK);
    return run;
}

/* With all checksums right, as somebody who knows the format would write it. */
static void write_run(const PbRunFile *run, const char *name)
{
    char path[400];
    PbError err = {0};
    snprintf(path, sizeof path, "%s/%s", case_folder, name);
    unlink(path);
    PbStatus status = io_run_write(path, run, &err);
    ck_assert_msg(status == PB_OK, "%s", err.message);
}

enum { FINISH_TICK = 525, NO_LIMIT = 1 << 20 };

/* The same hands without their mark, recorded anew: what a person's run looks like. It is finished
 * after twenty-one seconds, or broken off at `ticks`; the file's own grade is `claim`. */
static void record_person(const PbRunFile *run, const PbExercise *exercise, int ticks, double claim)
{
    PbSessionConfig config = pb_session_default();
    PbSession *session;
    IoRecorder *r;
    PbError err;
    PbRubric rubric = pb_rubric_default();
    static PbScore score;
    char path[400];
    int next = 0;
    config.exercise = *exercise;
    config.seed = run->seed;
    snprintf(path, sizeof path, "%s/person.pbrun", case_folder);
    unlink(path);
    ck_assert_int_eq(pb_session_create(&config, &session, &err), PB_OK);
    ck_assert_int_eq(io_recorder_open(path, &config, "Learner1", (int64_t)time(NULL), &r, &err),
                     PB_OK);
    while (!pb_session_is_over(session) && pb_session_view(session)->tick < ticks) {
        PbCommand commands[32];
        int count = 0, tick = pb_session_view(session)->tick;
        if (tick == FINISH_TICK) {
            commands[count++] = (PbCommand){PB_COMMAND_FINISH, 1.0};
        }
        for (; next < run->command_count && run->commands[next].tick == tick; next++) {
            PbCommand c = run->commands[next].command;
            if (c.kind != PB_COMMAND_MARK || c.value != PB_MARK_SCRIPTED) {
                commands[count++] = c;
            }
        }
        ck_assert_int_eq(pb_session_step(session, commands, count), PB_OK);
        io_recorder_step(r, session, commands, count);
    }
    memset(&score, 0, sizeof score);
    score.total = claim;
    score.is_pass = claim >= 70.0;
    io_recorder_ended(r, (int64_t)time(NULL));
    if (pb_session_is_over(session)) {
        ck_assert_int_eq(io_recorder_finish(r, session, &score, &rubric, &err), PB_OK);
    }
    io_recorder_close(r);
    pb_session_destroy(session);
}

static void record_both(void)
{
    record_once();
    PbRunFile run = read_run(kept, "a.pbrun");
    record_person(&run, &run.exercise, NO_LIMIT, 100.0);
    io_run_free(&run);
}

static void start(void)
{
    case_start();
    fetch("a.pbrun");
    fetch("person.pbrun");
    must("learners add Learner1 --db t.db");
}

START_TEST(a_forged_grade_counts_for_nothing_and_is_named)
{
    must("runs import person.pbrun --learner Learner1 --db t.db");
    says(out, "; the file says 100, passed; a replay gives ");
    says(out, ", not passed\n");
    must("runs list --db t.db");
    says_not(out, "100 passed");
    says(out, "(imported, the file says 100, passed)");
    must("runs list --csv --db t.db");
    says(out, ",finished,person,imported,no,0,100,yes,");
    must("runs list --json --db t.db");
    json_t *list = json_loads(out, 0, NULL), *row = json_array_get(list, 0);
    ck_assert(json_is_false(json_object_get(row, "pass")));
    ck_assert_double_lt(json_real_value(json_object_get(row, "total")), 70.0);
    ck_assert_double_eq(json_real_value(json_object_get(row, "claimed_total")), 100.0);
    json_decref(list);
    must("runs xapi --home https://school.example --db t.db");
    says(out, "verbs/failed");
    says(out, "\"https://school.example/pullback/origin\":\"imported\"");
    must("runs check --db t.db");
    says(out, "every grade is the one that a replay gives");
}
END_TEST

START_TEST(a_run_that_does_not_replay_is_refused_and_nothing_kept)
{
    PbRunFile run = read_run(case_folder, "person.pbrun");
    run.seed++;
    write_run(&run, "seed.pbrun");
    ck_assert_int_eq(cli("runs import person.pbrun seed.pbrun --learner Learner1 --db t.db"), 3);
    says(errors, "seed.pbrun: the run parts from its recording at tick 60 (2.40 s)");
    ck_assert_str_eq(out, "");
    must("runs list --db t.db");
    says(out, "0 runs");
    /* nor with its hashes taken out */
    run.hash_count = 0;
    write_run(&run, "bare.pbrun");
    ck_assert_int_eq(cli("runs import bare.pbrun --learner Learner1 --db t.db"), 3);
    says(errors, "parts from its recording at tick 60");
    /* nor with another end: that of a blow-out, or a state that it never came to */
    io_run_free(&run);
    for (int i = 0; i < 2; i++) {
        run = read_run(case_folder, "person.pbrun");
        ck_assert_int_eq(run.phase, PB_PHASE_DONE);
        run.phase = i == 0 ? PB_PHASE_BLOWN_OUT : run.phase;
        run.end_hash += (uint64_t)i;
        write_run(&run, "end.pbrun");
        ck_assert_int_eq(cli("runs import end.pbrun --learner Learner1 --db t.db"), 3);
        says(errors, "end.pbrun: the run parts from its recording at tick ");
        io_run_free(&run);
    }
    /* nor without the last hash, which stands at the very tick the run was left at */
    PbRunFile whole = read_run(case_folder, "a.pbrun");
    record_person(&whole, &whole.exercise, 8 * PB_RECORD_HASH_TICKS, 0.0);
    run = read_run(case_folder, "person.pbrun");
    ck_assert_int_eq(run.last_tick, 8 * PB_RECORD_HASH_TICKS);
    ck_assert_int_eq(run.hash_count, 8);
    run.hash_count--;
    write_run(&run, "short.pbrun");
    ck_assert_int_eq(cli("runs import short.pbrun --learner Learner1 --db t.db"), 3);
    says(errors, "short.pbrun: the run parts from its recording at tick 480 (19.20 s)");
    io_run_free(&run);
    io_run_free(&whole);
}
END_TEST

/* No state hangs on a mark; the hashes cover it all the same. */
START_TEST(the_mark_of_scripted_hands_cannot_be_taken_out)
{
    must("runs import a.pbrun --learner Learner1 --db t.db");
    says(out, "; worked by scripted hands\n");
    must("runs list --db t.db");
    says(out, "(imported, scripted)");
    must("runs list --csv --db t.db");
    says(out, ",finished,scripted,imported,no,");
    PbRunFile run = read_run(case_folder, "a.pbrun");
    int n = 0;
    for (int i = 0; i < run.command_count; i++) {
        PbTickCommand c = run.commands[i];
        if (c.command.kind != PB_COMMAND_MARK || c.command.value != PB_MARK_SCRIPTED) {
            run.commands[n++] = c;
        }
    }
    ck_assert_int_eq(n, run.command_count - 1);
    run.command_count = n;
    write_run(&run, "stripped.pbrun");
    ck_assert_int_eq(cli("runs import stripped.pbrun --learner Learner1 --db t.db"), 3);
    says(errors, "parts from its recording at tick 60");
    run.command_count++;
    io_run_free(&run);
}
END_TEST

START_TEST(an_own_exercise_is_none_of_the_shipped_whatever_its_id)
{
    PbRunFile run = read_run(case_folder, "a.pbrun");
    PbExercise easy = run.exercise, renamed = run.exercise;
    easy.pass_score = 0.0;
    strcpy(renamed.title, "Another title");
    ck_assert_uint_eq(io_exercise_hash(&renamed), io_exercise_hash(&run.exercise));
    ck_assert_uint_ne(io_exercise_hash(&easy), io_exercise_hash(&run.exercise));
    record_person(&run, &easy, NO_LIMIT, 100.0);
    must("runs import person.pbrun --learner Learner1 --db t.db");
    says(out, "own exercise plain-2x4");
    must("runs list --db t.db");
    says(out, "own exercise plain-2x4");
    must("runs list --csv --db t.db");
    says(out, ",imported,yes,0,");
    must("runs xapi --home https://school.example --db t.db");
    says(out, "/exercises/plain-2x4/own-");
    io_run_free(&run);
}
END_TEST

START_TEST(the_same_run_is_not_kept_for_a_second_learner)
{
    must("learners add Learner2 --db t.db");
    must("runs import person.pbrun --learner Learner1 --db t.db");
    ck_assert_int_eq(cli("runs import person.pbrun --learner Learner2 --db t.db"), 3);
    says(errors, "person.pbrun: this very run is there already: run 1 of Learner1");
    must("runs list --db t.db");
    says(out, "1 run\n");
}
END_TEST

START_TEST(a_run_of_an_older_version_is_kept_without_a_grade)
{
    PbRunFile run = read_run(case_folder, "person.pbrun");
    run.physics_version--;
    write_run(&run, "physics.pbrun");
    run.physics_version++;
    run.form = PB_RECORD_PLAIN; /* its hashes leave marks out: they prove too little */
    write_run(&run, "plain.pbrun");
    must("runs import physics.pbrun plain.pbrun --learner Learner1 --db t.db");
    says(out,
         "run 1: Learner1, plain-2x4, not verified; imported, of an older version; the file says "
         "100\n");
    says(out, "run 2: Learner1, plain-2x4, not verified");
    must("runs list --csv --db t.db");
    says(out, ",none,,,,");
    says(out, ",not verified,person,imported,no,0,100,yes");
    says_not(out, ",100.00,yes");
    must("runs xapi --home https://school.example --db t.db");
    says_not(out, "\"success\"");
    says_not(out, "\"score\"");
    ck_assert_int_eq(cli("runs regrade 1 --rubric default --db t.db"), 3);
    says(errors, "is of an older version: it has no grade");
    must("runs check --db t.db");
    says(out, "2 runs of an older version cannot be played again by this one");
    io_run_free(&run);
}
END_TEST

START_TEST(a_broken_off_run_is_left_and_graded_nowhere)
{
    PbRunFile run = read_run(case_folder, "a.pbrun");
    record_person(&run, &run.exercise, 500, 0.0); /* 20 s */
    must("runs import person.pbrun --learner Learner1 --db t.db");
    says(out, "run 1: Learner1, plain-2x4, left at 0:20\n");
    must("runs list --db t.db");
    says(out, "  left at 0:20 ");
    must("runs list --csv --db t.db");
    says(out, ",none,,,,"); /* no total, no pass, no trainer's */
    says(out, ",left,person,imported,no,0,,\r\n");
    must("runs list --json --db t.db");
    json_t *list = json_loads(out, 0, NULL), *row = json_array_get(list, 0);
    ck_assert(json_is_null(json_object_get(row, "total")));
    ck_assert(json_is_null(json_object_get(row, "pass")));
    json_decref(list);
    must("runs xapi --home https://school.example --db t.db");
    says(out, "verbs/suspended");
    says(out, "\"completion\":false");
    says_not(out, "\"score\"");
    must("runs show 1 --db t.db");
    says(out, "result     left at 0:20 (imported)");
    says_not(out, "grade ");
    must("runs check --db t.db");
    io_run_free(&run);
}
END_TEST

/* Headless, three minutes of a run take a second. */
START_TEST(no_run_ended_after_it_was_kept)
{
    StoreRun run;
    PbError err;
    must("runs import a.pbrun person.pbrun --learner Learner1 --db t.db");
    Store *store = case_open();
    for (int id = 1; id <= 2; id++) {
        ck_assert_int_eq(store_run_get(store, id, &run, &err), PB_OK);
        ck_assert_msg(strcmp(run.summary.when, run.added) <= 0, "ended %s, kept %s",
                      run.summary.when, run.added);
        ck_assert_double_gt(run.summary.duration_s, 20.0);
    }
    store_close(store);
    /* and with a pause in it, a run ended when it ended: the file says so */
    PbRunFile file = read_run(case_folder, "person.pbrun");
    char ended[24];
    file.started_unix_s = 1772616600; /* 2026-03-04 09:30 */
    file.ended_unix_s = file.started_unix_s + 3600;
    ck_assert(io_run_ended(&file, ended));
    ck_assert_str_eq(ended, "2026-03-04T10:30:00Z");
    io_run_free(&file);
}
END_TEST

static const struct {
    const char *sql, *says;
} altered[] = {
    {"UPDATE runs SET total = 100", "run 1 of Learner1: the store says 100, not passed; a replay "
                                    "gives "},
    {"UPDATE runs SET is_pass = 1", ", passed; a replay gives "},
    {"UPDATE grade_parts SET points = most WHERE key = 'on_target'", "part on_target: the store "
                                                                     "says 40.00 of 40; a replay"},
    {"UPDATE runs SET exercise_id = 'deep-2x6'", "its exercise is not the one in the file"},
    {"UPDATE runs SET state = 1", "its state is not the one that the file gives"},
    {"UPDATE runs SET claimed_total = 20", "what is noted of it is not what the file says"},
};

START_TEST(check_plays_every_run_again_and_finds_what_was_altered)
{
    sqlite3 *db;
    must("runs import person.pbrun --learner Learner1 --db t.db");
    ck_assert_int_eq(sqlite3_open(case_path, &db), SQLITE_OK);
    ck_assert_int_eq(sqlite3_exec(db, altered[_i].sql, NULL, NULL, NULL), SQLITE_OK);
    sqlite3_close(db);
    ck_assert_int_eq(cli("runs check --db t.db"), 3);
    says(out, altered[_i].says);
    says(errors, "1 of 1 runs are not what their files give");
    must("runs check --quick --db t.db");
    says(out, "grades were not looked at");
}
END_TEST

/* Grades of earlier rules stand in the store, and today's rules give others: that is no damage, and
 * it is said. What else is noted of such a run is looked at as ever. */
START_TEST(check_holds_no_grade_of_other_rules_against_todays)
{
    static const char *const said[2] = {"1 run was graded by other rules than today's (5): its "
                                        "grade was not held against a replay\n",
                                        "its exercise is not the one in the file"};
    sqlite3 *db;
    must("runs import person.pbrun --learner Learner1 --db t.db");
    ck_assert_int_eq(sqlite3_open(case_path, &db), SQLITE_OK);
    ck_assert_int_eq(sqlite3_exec(db,
                                  "UPDATE grades SET rules = 1, total = 88;"
                                  "UPDATE runs SET total = 88, is_pass = 1;"
                                  "UPDATE grade_parts SET points = most",
                                  NULL, NULL, NULL),
                     SQLITE_OK);
    must("runs check --db t.db");
    says(out, said[0]);
    says(out, "every other grade is the one that a replay gives");
    ck_assert_int_eq(sqlite3_exec(db, "UPDATE runs SET exercise_id = 'deep-2x6'", NULL, NULL, NULL),
                     SQLITE_OK);
    sqlite3_close(db);
    ck_assert_int_eq(cli("runs check --db t.db"), 3);
    says(out, said[1]);
}
END_TEST

/* The same hands with other chances: an import's mean is somebody's word and not told. */
START_TEST(show_tells_what_changed_since_the_last_time)
{
    PbRunFile run = read_run(case_folder, "a.pbrun");
    sqlite3 *db;
    must("runs import person.pbrun --learner Learner1 --db t.db");
    run.seed++;
    record_person(&run, &run.exercise, NO_LIMIT, 100.0);
    must("runs import person.pbrun --learner Learner1 --db t.db");
    must("runs show 1 --db t.db");
    says_not(out, "last time");
    must("runs show 2 --db t.db");
    says(out, "last time  As many points as last time, ");
    says(out, ". Weakest place 0 of 15 points, was 0. Time ");
    says_not(out, "Mean");
    ck_assert_int_eq(sqlite3_open(case_path, &db), SQLITE_OK);
    ck_assert_int_eq(
        sqlite3_exec(db, "UPDATE grades SET rules = 1 WHERE run_id = 1", NULL, NULL, NULL),
        SQLITE_OK);
    sqlite3_close(db);
    must("runs show 2 --db t.db");
    says(out, " under other grading rules, so it is not compared.\n");
    io_run_free(&run);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("run_judge");
    TCase *tc = tcase_create("normal");
    tcase_set_timeout(tc, 120);
    tcase_add_unchecked_fixture(tc, record_both, forget);
    tcase_add_checked_fixture(tc, start, case_stop);
    tcase_add_test(tc, a_forged_grade_counts_for_nothing_and_is_named);
    tcase_add_test(tc, a_run_that_does_not_replay_is_refused_and_nothing_kept);
    tcase_add_test(tc, the_mark_of_scripted_hands_cannot_be_taken_out);
    tcase_add_test(tc, an_own_exercise_is_none_of_the_shipped_whatever_its_id);
    tcase_add_test(tc, the_same_run_is_not_kept_for_a_second_learner);
    tcase_add_test(tc, a_run_of_an_older_version_is_kept_without_a_grade);
    tcase_add_test(tc, a_broken_off_run_is_left_and_graded_nowhere);
    tcase_add_test(tc, no_run_ended_after_it_was_kept);
    tcase_add_test(tc, check_holds_no_grade_of_other_rules_against_todays);
    tcase_add_test(tc, show_tells_what_changed_since_the_last_time);
    tcase_add_loop_test(tc, check_plays_every_run_again_and_finds_what_was_altered, 0,
                        sizeof altered / sizeof altered[0]);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
