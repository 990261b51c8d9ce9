/* learners and runs as people and scripts use them, against a store of the test's own. */
/* A low and shallow bay: a whole run in a third of the time of a shipped one. */
#define BAY   PB_TEST_SOURCE_DIR "/tests/app/data/low-bay.json"
#define HANDS PB_TEST_SOURCE_DIR "/tests/app/data/low-three-foot.json"

#include "cli_case.h"
#include "io/doc.h"
#include "io/record_file.h"

#include <sqlite3.h>

START_TEST(keeps_a_recorded_run_and_gives_it_back)
{
    size_t a, b;
    fetch("a.pbrun");
    must("learners add 'Learner 1' --db t.db");
    must("runs import a.pbrun --learner 'learner 1' --db t.db");
    says(out, "run 1: Learner 1, own exercise low-bay");
    must("runs export 1 b.pbrun --db t.db");
    char path[2][400];
    snprintf(path[0], sizeof path[0], "%s/a.pbrun", case_folder);
    snprintf(path[1], sizeof path[1], "%s/b.pbrun", case_folder);
    unsigned char *one = case_read(path[0], &a), *two = case_read(path[1], &b);
    ck_assert_uint_eq(a, b);
    ck_assert_mem_eq(one, two, a);
    free(one);
    free(two);
    must("runs comment 1 --part hands --points 2.5 --reason 'Too long, steps' --by 'Trainer 1' "
         "--db t.db");
    must("runs show 1 --db t.db");
    says(out, "steps ");
    says(out, "Too long, steps -- Trainer 1");
    must("runs list --csv --db t.db");
    says(out, "run,learner,exercise,title,ended,duration_s,seed,");
    says(out, ",hands,hands_max,hands_trainer\r\n");
    says(out, ",10,2.5\r\n");
    must("runs list --json --db t.db");
    json_t *json = json_loads(out, 0, NULL);
    ck_assert_uint_eq(json_array_size(json), 1);
    json_t *row = json_array_get(json, 0);
    ck_assert_str_eq(json_string_value(json_object_get(row, "learner")), "Learner 1");
    double step = json_real_value(json_object_get(row, "step_mean_m"));
    ck_assert_msg(step > 0.4 && step < 1.0, "three-foot hands in a low bay step %g m", step);
    json_decref(json);
    must("runs check --db t.db");
    must("runs pdf 1 r.pdf --paper letter --db t.db");
    ck_assert_int_eq(cli("runs import a.pbrun --learner 'Learner 1' --db t.db"), 3);
    says(errors, "this very run already: run 1");
}
END_TEST

START_TEST(states_runs_for_a_record_store)
{
    static char first[sizeof out];
    must("learners add Learner1 --db t.db");
    must("runs import '" PB_TEST_SOURCE_DIR
         "/tests/app/recorded.pbrun' --learner Learner1 --db t.db");
    says(out, "run 1: Learner1, old-wires"); /* a shipped one */
    must("runs xapi --home https://school.example --learner Learner1 --db t.db");
    strcpy(first, out);
    must("runs xapi --home https://school.example --db t.db");
    ck_assert_str_eq(first, out);
    json_t *json = json_loads(out, 0, NULL), *s = json_array_get(json, 0);
    const char *id, *home, *name, *verb, *activity, *when, *duration;
    json_t *result;
    ck_assert_int_eq(json_unpack(s, "{s:s, s:{s:{s:s, s:s}}, s:{s:s}, s:{s:s}, s:s, s:o}", "id",
                                 &id, "actor", "account", "homePage", &home, "name", &name, "verb",
                                 "id", &verb, "object", "id", &activity, "timestamp", &when,
                                 "result", &result),
                     0);
    ck_assert_uint_eq(strlen(id), 36);
    ck_assert_int_eq(id[14], '5');
    ck_assert_str_eq(home, "https://school.example");
    ck_assert_str_eq(name, "learner-1");
    ck_assert_str_eq(activity, "https://school.example/pullback/exercises/old-wires");
    /* hands of a file: nobody has passed or failed anything */
    says(verb, "completed");
    ck_assert_ptr_null(json_object_get(result, "score"));
    ck_assert_ptr_null(json_object_get(result, "success"));
    duration = json_string_value(json_object_get(result, "duration"));
    ck_assert(strncmp(duration, "PT", 2) == 0);
    ck_assert_uint_eq(strlen(when), 20);
    json_decref(json);
    ck_assert_int_eq(cli("runs xapi --home school --db t.db"), 2);
    ck_assert_int_eq(cli("runs xapi --db t.db"), 2);
}
END_TEST

START_TEST(asks_once_before_it_deletes_a_person)
{
    fetch("a.pbrun");
    must("learners add Learner1");
    must("runs import a.pbrun --learner Learner1");
    ck_assert_int_eq(cli_answer("no", "learners delete Learner1"), 1);
    says(out, "Delete Learner1 with 1 runs");
    says(out, "nothing was deleted");
    ck_assert_int_eq(cli("learners delete Learner1"), 1);
    must("learners rename Learner1 'Learner 1'");
    ck_assert_int_eq(cli_answer("yes", "learners delete 'Learner 1'"), 0);
    ck_assert_int_eq(cli("runs show 1"), 1);
    says(errors, "there is no run 1");
    must("learners add Learner2");
    must("learners delete Learner2 --yes");
    must("learners list");
    ck_assert_ptr_null(strstr(out, "Learner2"));
    char path[500];
    snprintf(path, sizeof path, "%s/pullback/pullback.db", case_folder);
    ck_assert_int_eq(unlink(path), 0);
    *strrchr(path, '/') = '\0';
    rmdir(path);
}
END_TEST

static const struct {
    const char *arguments;
    int code;
    const char *says;
} wrong[] = {
    {"learners", 2, "expected list | add NAME"},
    {"learners sing", 2, "expected list | add NAME"},
    {"learners add", 2, "expected list | add NAME"},
    {"learners add '' --db t.db", 3, "a name has 1 to 80 bytes"},
    {"learners delete Nobody --db t.db", 1, "there is no learner \"Nobody\""},
    {"learners list --db", 2, "its value is missing"},
    {"learners list --db /no/such/x.db", 4, "/no/such/x.db: cannot open for writing"},
    {"learners list --db .", 4, "cannot open for writing: Is a directory"},
    {"runs", 2, "expected list"},
    {"runs export 1", 2, "expected list"},
    {"runs export x y --db t.db", 2, "expected the number of a run"},
    {"runs export 7 y --db t.db", 1, "there is no run 7"},
    {"runs import a.pbrun --db t.db", 2, "--learner NAME is missing"},
    {"runs comment 1 --part hands --db t.db", 2, "are missing"},
    {"runs comment 1 --part hands --points 0x10 --db t.db", 2, "expected 0 to 100"},
    {"runs comment 1 --part hands --points nan --db t.db", 2, "expected 0 to 100"},
    {"runs comment 1 --part hands --points -1 --db t.db", 2, "expected 0 to 100"},
    {"runs list --json --csv --db t.db", 2, "expected list"},
    {"runs show 1 --json --db t.db", 2, "show takes no --json"},
    {"runs delete 1 --learner Learner1 --yes --db t.db", 2, "delete takes no --learner"},
    {"runs pdf 1 x.pdf --paper a5 --db t.db", 2, "expected a4 or letter"},
    {"runs list --db junk.db", 3, "junk.db: is no database; it was left as it is"},
};

START_TEST(refuses_with_one_line)
{
    char path[400];
    snprintf(path, sizeof path, "%s/junk.db", case_folder);
    FILE *f = fopen(path, "wb");
    fputs("not a database, but long enough to look like one", f);
    fclose(f);
    int code = cli(wrong[_i].arguments);
    ck_assert_msg(code == wrong[_i].code, "%s: exit %d, %s", wrong[_i].arguments, code, errors);
    says(errors, wrong[_i].says);
    char *end = strchr(errors, '\n');
    ck_assert_msg(end != NULL && end[1] == '\0', "not one line: %s", errors);
}
END_TEST

START_TEST(refuses_a_file_that_is_no_run)
{
    must("learners add Learner1 --db t.db");
    must("learners list --db t.db");
    ck_assert_int_eq(cli("runs import '" BAY "' --learner Learner1 --db t.db"), 3);
    ck_assert_int_eq(cli("runs import none.pbrun --learner Learner1 --db t.db"), 4);
    must("runs list --db t.db");
    says(out, "0 runs");
    /* one of many: none is kept, so that the same command can be given again when it is mended */
    fetch("a.pbrun");
    ck_assert_int_eq(cli("runs import a.pbrun '" BAY "' --learner Learner1 --db t.db"), 3);
    ck_assert_str_eq(out, "");
    ck_assert_int_eq(cli("runs import a.pbrun a.pbrun --learner Learner1 --db t.db"), 3);
    says(errors, "a.pbrun: this learner has this very run already");
    ck_assert_str_eq(out, "");
    must("runs list --db t.db");
    says(out, "0 runs");
}
END_TEST

START_TEST(an_export_takes_the_place_of_no_other_file)
{
    char path[400];
    fetch("a.pbrun");
    must("learners add Learner1 --db t.db");
    must("runs import a.pbrun --learner Learner1 --db t.db");
    must("runs export 1 a.pbrun --db t.db"); /* the same bytes: nothing is lost */
    snprintf(path, sizeof path, "%s/c.pbrun", case_folder);
    FILE *f = fopen(path, "wb");
    ck_assert_ptr_nonnull(f);
    fputs("another run", f);
    fclose(f);
    ck_assert_int_eq(cli("runs export 1 c.pbrun --db t.db"), 3);
    says(errors, "c.pbrun: there is a file of that name");
    slurp("c.pbrun", out, sizeof out);
    ck_assert_str_eq(out, "another run");
}
END_TEST

START_TEST(quotes_what_a_spreadsheet_would_take_for_more)
{
    PbRunSummary m = case_summary(1);
    PbRecordMark mark = {"run", 70.0, ""};
    PbRecord r = {
        .run_id = 1, .learner = "=1+\"2\", x", .summary = &m, .marks = &mark, .mark_count = 1};
    PbError err;
    char path[400];
    snprintf(path, sizeof path, "%s/out", case_folder);
    FILE *f = fopen(path, "wb");
    ck_assert_int_eq(io_records_csv(f, &r, 1, &err), PB_OK);
    fclose(f);
    slurp("out", out, sizeof out);
    says(out, "\r\n1,\" =1+\"\"2\"\", x\",bay-1,Bay 1,2026-03-02T10:00:00Z,182.25,");
    says(out, ",yes,70,0.3125,0.0625,1.5,,finished,person,earlier,no,0,,,31.5,40,,6.25,10,\r\n");
    char text[40];
    io_duration(182.25, text, sizeof text);
    ck_assert_str_eq(text, "PT3M2.25S");
    io_duration(3600.0, text, sizeof text);
    ck_assert_str_eq(text, "PT1H0.00S");
    io_duration(59.996, text, sizeof text);
    ck_assert_str_eq(text, "PT1M0.00S");
    ck_assert(io_is_home("https://a.example") && !io_is_home("https:///x") &&
              !io_is_home("https://a b") && !io_is_home("https://a.example/"));
}
END_TEST

/* IEEE 9274.1.1: score.scaled is of 1, raw between min and max. */
START_TEST(states_the_score_of_a_person_and_of_nobody_else)
{
    static const struct {
        PbRunState state;
        int is_scripted, is_pass;
        const char *verb;
    } cases[] = {{PB_RUN_FINISHED, 0, 1, "/passed"},
                 {PB_RUN_FINISHED, 0, 0, "/failed"},
                 {PB_RUN_FINISHED, 1, 1, "/completed"},
                 {PB_RUN_UNVERIFIED, 0, 0, "/completed"},
                 {PB_RUN_LEFT, 0, 0, "/suspended"}};
    for (int i = 0; i < 5; i++) {
        PbRunSummary m = case_summary(1);
        PbRecord r = {.run_id = 1, .learner_id = 2, .learner = "Learner 1", .summary = &m};
        m.state = cases[i].state;
        m.is_scripted = cases[i].is_scripted;
        m.is_pass = cases[i].is_pass;
        m.total = 72.5;
        json_t *all = io_records_xapi(&r, 1, "https://school.example"), *result, *score;
        const char *verb;
        int completion;
        ck_assert_int_eq(json_unpack(json_array_get(all, 0), "{s:{s:s}, s:o}", "verb", "id", &verb,
                                     "result", &result),
                         0);
        ck_assert_msg(strstr(verb, cases[i].verb) != NULL, "%s, not %s", verb, cases[i].verb);
        ck_assert_int_eq(json_unpack(result, "{s:b}", "completion", &completion), 0);
        ck_assert_int_eq(completion, m.state != PB_RUN_LEFT);
        score = json_object_get(result, "score");
        ck_assert_int_eq(score != NULL, i < 2);
        if (score != NULL) {
            double scaled, raw, low, high;
            int success;
            ck_assert_int_eq(json_unpack(score, "{s:f, s:f, s:f, s:f}", "scaled", &scaled, "raw",
                                         &raw, "min", &low, "max", &high),
                             0);
            ck_assert_double_eq(scaled, 0.725);
            ck_assert_double_eq(raw, 72.5);
            ck_assert(low == 0.0 && high == 100.0);
            ck_assert_int_eq(json_unpack(result, "{s:b}", "success", &success), 0);
            ck_assert_int_eq(success, cases[i].is_pass);
        }
        json_decref(all);
    }
}
END_TEST

START_TEST(a_kept_run_is_marked_under_another_rubric_and_both_grades_stay)
{
    fetch("a.pbrun");
    must("learners add Learner1 --db t.db");
    must("runs import a.pbrun --learner Learner1 --db t.db");
    ck_assert_int_eq(cli("runs regrade 1 --db t.db"), 2);
    ck_assert_int_eq(cli("runs regrade 1 --rubric nobody --db t.db"), 1);
    says(errors, "there is no rubric \"nobody\"");
    ck_assert_int_le(cli("runs regrade 1 --db t.db --rubric '" PB_TEST_SOURCE_DIR
                         "/assets/rubrics/old-walls.json'"),
                     1);
    says(out, "by old walls");
    says(out, "by default stands beside it");
    must("runs show 1 --db t.db");
    says(out, "by rubric default");
    says(out, "by rubric old walls");
    /* by its name from now on; the grade that it came with cannot be replaced */
    ck_assert_int_le(cli("runs regrade 1 --rubric 'old walls' --db t.db"), 1);
    says(out, "by old walls");
    ck_assert_int_ne(cli("runs regrade 1 --rubric default --db t.db"), 0);
    says(errors, "the grade that run 1 came with stands");
    must("runs pdf 1 r.pdf --rubric 'old walls' --db t.db --lang es");
    must("runs check --db t.db");
}
END_TEST

/* 69.96 is no 70.0 that did not pass, 14.97 of 15 no loss, 9.96 of 40 no 10. */
START_TEST(marks_are_rounded_down_wherever_they_stand)
{
    sqlite3 *db;
    fetch("a.pbrun");
    must("learners add Learner1 --db t.db");
    must("runs import a.pbrun --learner Learner1 --db t.db");
    ck_assert_int_eq(sqlite3_open(case_path, &db), SQLITE_OK);
    ck_assert_int_eq(sqlite3_exec(db,
                                  "UPDATE runs SET total = 69.96, is_pass = 0;"
                                  "UPDATE grades SET total = 69.96, is_pass = 0, rules = 1",
                                  NULL, NULL, NULL),
                     SQLITE_OK);
    sqlite3_close(db);
    must("runs show 1 --db t.db");
    says(out, "result     69 of 100, not passed (");
    says(out, "grade      69 of 100, not passed, by rubric default, rules 1: points alone, without "
              "gates\n");
    must("runs list --db t.db");
    says(out, " 69 ");
    must("runs list --csv --db t.db");
    says(out, ",69.96,no,");
}
END_TEST

/* Three runs of one bay, made of one by hand: 41.9, then 72, then 60 points; and a sitting of
 * drills.
 */
START_TEST(a_class_is_a_table)
{
    sqlite3 *db;
    fetch("a.pbrun");
    must("learners add Learner1 --db t.db");
    must("learners add 'Learner 2, late' --db t.db");
    must("runs import a.pbrun --learner 'Learner 2, late' --db t.db");
    must("learners table --db t.db"); /* scripted hands are nobody's practice */
    ck_assert_ptr_null(strstr(out, "Learner"));
    ck_assert_int_eq(sqlite3_open(case_path, &db), SQLITE_OK);
    ck_assert_int_eq(
        sqlite3_exec(db,
                     "UPDATE runs SET is_scripted = 0, total = 41.9, is_pass = 0,"
                     " ended = '2026-03-02T10:00:00Z';"
                     "CREATE TEMP TABLE more AS SELECT * FROM runs;"
                     "UPDATE more SET id = 2, total = 60, ended = '2026-03-04T10:00:00Z';"
                     "INSERT INTO runs SELECT * FROM more;"
                     "UPDATE more SET id = 3, total = 72, is_pass = 1,"
                     " ended = '2026-03-03T10:00:00Z';"
                     "INSERT INTO runs SELECT * FROM more;"
                     "INSERT INTO drills VALUES (1, 1, '2026-03-02T11:00:00Z', 7, 2, 1, 3, 14, 12,"
                     " 11, 10, 1, 6, 150.0, 0.3125, 1)",
                     NULL, NULL, NULL),
        SQLITE_OK);
    sqlite3_close(db);
    must("learners table --db t.db");
    says(out, "learner,exercise,own_exercise,runs,first,last,best,passed,last_ended,dearest_part,"
              "dearest_part_lost\r\n\"Learner 2, late\",low-bay,yes,3,41,60,72,1,"
              "2026-03-04T10:00:00Z,");
    must("learners drills --db t.db");
    says(out, "\r\nLearner1,2026-03-02T11:00:00Z,7,closed,compressor,3,14,12,11,10,1,6,150.0,0.31,"
              "can tell it\r\n");
}
END_TEST

/* What another computer holds comes in once; a grade that was written there counts for nothing. */
START_TEST(another_computers_store_comes_in)
{
    sqlite3 *db;
    char other[500];
    fetch("a.pbrun");
    must("learners add 'Learner 1' --db t.db");
    snprintf(other, sizeof other, "%s/o.db", case_folder);
    must("learners add 'learner 1' --db o.db");
    must("learners add 'Learner 2' --db o.db");
    must("runs import a.pbrun --learner 'Learner 2' --db o.db");
    must("runs comment 1 --part run --points 40 --reason 'look again' --by Trainer --db o.db");
    ck_assert_int_eq(sqlite3_open(other, &db), SQLITE_OK);
    ck_assert_int_eq(
        sqlite3_exec(db,
                     "UPDATE runs SET total = 100, is_pass = 1;"
                     "INSERT INTO drills VALUES (1, 1, '2026-03-02T11:00:00Z', 7, 2, 1, 3, 14, 12,"
                     " 11, 10, 1, 6, 150.0, 0.3125, 1)",
                     NULL, NULL, NULL),
        SQLITE_OK);
    sqlite3_close(db);
    must("learners merge o.db --db t.db");
    says(out, "1 runs looked at; new here: runs 1, people 1, drills 1; here already: 0; broken off "
              "there and not taken: 0; refused, as they do not replay: 0\n");
    must("runs list --csv --db t.db");
    says(out, ",Learner 2,low-bay,"); /* and the trainer's 40 beside what the replay gives */
    ck_assert_ptr_null(strstr(out, ",100,yes,"));
    says(out, ",40,");
    must("learners drills --db t.db");
    says(out, "\r\nLearner 1,2026-03-02T11:00:00Z,7,closed,");
    must("learners merge o.db --db t.db");
    says(out, "new here: runs 0, people 0, drills 0; here already: 1;");
    ck_assert_int_eq(cli("learners merge t.db --db t.db"), 3);
    says(errors, "t.db: is the store that is in use");
    ck_assert_int_eq(cli("learners merge a.pbrun --db t.db"), 3);
    says(errors, "a.pbrun: cannot be read as a store");
}
END_TEST

int main(void)
{
    Suite *s = suite_create("cli_store");
    TCase *tc = tcase_create("normal");
    tcase_set_timeout(tc, 120);
    tcase_add_unchecked_fixture(tc, record_once, forget);
    tcase_add_checked_fixture(tc, case_start, case_stop);
    tcase_add_test(tc, keeps_a_recorded_run_and_gives_it_back);
    tcase_add_test(tc, a_class_is_a_table);
    tcase_add_test(tc, another_computers_store_comes_in);
    tcase_add_test(tc, a_kept_run_is_marked_under_another_rubric_and_both_grades_stay);
    tcase_add_test(tc, states_runs_for_a_record_store);
    tcase_add_test(tc, asks_once_before_it_deletes_a_person);
    tcase_add_loop_test(tc, refuses_with_one_line, 0, sizeof wrong / sizeof wrong[0]);
    tcase_add_test(tc, refuses_a_file_that_is_no_run);
    tcase_add_test(tc, an_export_takes_the_place_of_no_other_file);
    tcase_add_test(tc, quotes_what_a_spreadsheet_would_take_for_more);
    tcase_add_test(tc, states_the_score_of_a_person_and_of_nobody_else);
    tcase_add_test(tc, marks_are_rounded_down_wherever_they_stand);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
