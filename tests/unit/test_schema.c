/*
 * Stores that somebody else had a hand in: what is not ours is refused with one line and left as it
 * is, before any of it can run; what was merely written in another form of the same words is ours.
 * Figures that nobody put in, and names that nobody sees.
 */
#include "store_case.h"
#include "store_private.h"

static PbError err;

static void by_other_means(const char *sql)
{
    sqlite3 *db;
    char *says = NULL;
    ck_assert_int_eq(sqlite3_open(case_path, &db), SQLITE_OK);
    int code = sqlite3_exec(db, sql, NULL, NULL, &says);
    ck_assert_msg(code == SQLITE_OK, "%s", says);
    sqlite3_close(db);
}

static void fill(void)
{
    Store *store = case_open();
    case_run(store, case_learner(store, "Learner1"), 1);
    store_close(store);
}

static const struct {
    const char *sql, *says;
} hostile[] = {
    {"CREATE TRIGGER sweep AFTER INSERT ON learners BEGIN DELETE FROM runs; END",
     "holds something that is not this program's: the trigger \"sweep\"; it was left as it is"},
    {"PRAGMA foreign_keys = OFF; ALTER TABLE learners RENAME TO people;"
     "CREATE VIEW learners AS WITH RECURSIVE n (id, name, added) AS (SELECT 1, 'a', 'b' UNION ALL"
     " SELECT id + 1, name, added FROM n) SELECT * FROM n",
     "holds something that is not this program's: the table \"people\"; it was left as it is"},
    {"CREATE VIEW more AS SELECT 1",
     "holds something that is not this program's: the view \"more\"; it was left as it is"},
    {"CREATE TABLE notes (text)",
     "holds something that is not this program's: the table \"notes\"; it was left as it is"},
    {"CREATE INDEX by_total ON runs (total)",
     "holds something that is not this program's: the index \"by_total\"; it was left as it is"},
    {"ALTER TABLE settings ADD COLUMN more TEXT",
     "holds something that is not this program's: the table \"settings\"; it was left as it is"},
    {"DROP TABLE marks", "lacks a part of its layout: the table \"marks\"; it was left as it is"},
    {"DROP INDEX runs_by_time",
     "lacks a part of its layout: the index \"runs_by_time\"; it was left as it is"},
};
enum { HOSTILE = sizeof hostile / sizeof hostile[0] };

START_TEST(refuses_what_is_not_ours_and_leaves_it)
{
    Store *store;
    size_t before, after;
    fill();
    by_other_means(hostile[_i].sql);
    unsigned char *old = case_read(case_path, &before);
    ck_assert_int_eq(store_open(case_path, &store, &err), PB_ERR_FORMAT);
    ck_assert_str_eq(err.message, hostile[_i].says);
    unsigned char *now = case_read(case_path, &after);
    ck_assert_uint_eq(before, after);
    ck_assert_mem_eq(old, now, before);
    free(old);
    free(now);
}
END_TEST

START_TEST(takes_its_own_words_in_another_form)
{
    fill();
    by_other_means("PRAGMA writable_schema = ON; UPDATE sqlite_schema SET sql = replace(sql, ' ', "
                   "char(10) || '  ')"
                   " WHERE name = 'settings'");
    Store *store = case_open();
    ck_assert_int_eq(store_setting_put(store, "units", "us", &err), PB_OK);
    store_close(store);
}
END_TEST

/* A trigger that comes while the store is open does not run either. */
START_TEST(runs_no_trigger_and_reads_no_view)
{
    int64_t count = 0;
    Store *store = case_open();
    case_run(store, case_learner(store, "Learner1"), 1);
    ck_assert_int_eq(sqlite3_exec(store->db,
                                  "CREATE TRIGGER sweep AFTER INSERT ON learners BEGIN"
                                  " DELETE FROM runs; END; CREATE VIEW more AS SELECT 1 AS one",
                                  NULL, NULL, NULL),
                     SQLITE_OK);
    case_learner(store, "Learner2");
    ck_assert_int_eq(store_number(store, &count, &err, "", "SELECT count(*) FROM runs", ""), PB_OK);
    ck_assert_int_eq(count, 1);
    ck_assert_int_ne(store_number(store, &count, &err, "", "SELECT one FROM more", ""), PB_OK);
    store_close(store);
}
END_TEST

static const struct {
    const char *sql;
    int in_list, in_grades, in_marks; /* where it is met besides in the check */
} odd[] = {
    {"UPDATE runs SET total = 9e999", 1, 0, 0},
    {"UPDATE runs SET total = -0.5", 1, 0, 0},
    {"UPDATE runs SET duration_s = 9e999", 1, 0, 0},
    {"UPDATE runs SET dwell_spread_s = -9e999", 1, 0, 0},
    {"UPDATE grades SET total = 9e999", 0, 1, 0},
    {"UPDATE grade_parts SET points = 9e999 WHERE place = 1", 1, 1, 0},
    {"UPDATE grade_parts SET most = 9e999 WHERE place = 0", 1, 1, 0},
    {"UPDATE marks SET points = 9e999", 0, 0, 1},
};
enum { ODD = sizeof odd / sizeof odd[0] };

START_TEST(says_that_an_infinite_figure_is_damage)
{
    static const char says[] = "a figure of run 1 is infinite or out of its range: the database is "
                               "damaged; it was left as it is";
    StoreFilter all = {.with_parts = 1};
    StoreMark mark = {.part = "hands", .points = 5.0, .marked = WHEN};
    void *list = NULL;
    int count = 0;
    Store *store = case_open();
    int64_t id = case_run(store, case_learner(store, "Learner1"), 1);
    ck_assert_int_eq(store_mark_add(store, id, &mark, &err), PB_OK);
    ck_assert_int_eq(store_check(store, &err), PB_OK);
    store_close(store);
    by_other_means(odd[_i].sql);
    store = case_open();
    ck_assert_int_eq(store_run_list(store, &all, (StoreRun **)&list, &count, &err),
                     odd[_i].in_list ? PB_ERR_FORMAT : PB_OK);
    ck_assert_str_eq(err.message, odd[_i].in_list ? says : "");
    free(list);
    list = NULL;
    ck_assert_int_eq(store_grade_list(store, id, (StoreGrade **)&list, &count, &err),
                     odd[_i].in_grades ? PB_ERR_FORMAT : PB_OK);
    free(list);
    list = NULL;
    ck_assert_int_eq(store_mark_list(store, id, (StoreMark **)&list, &count, &err),
                     odd[_i].in_marks ? PB_ERR_FORMAT : PB_OK);
    free(list);
    ck_assert_int_eq(store_check(store, &err), PB_ERR_FORMAT);
    ck_assert_str_eq(err.message, says);
    store_close(store);
}
END_TEST

static const struct {
    const char *name, *says; /* NULL: taken */
} names[] = {
    {"Aprendiz n\u00famero 1", NULL},
    {"Learner's \u674e", NULL},
    {"", "a name has 1 to 80 bytes"},
    {"a\tb", "a name is UTF-8 without control characters"},
    {"a\xff", "a name is UTF-8 without control characters"},
    {" ", "a name has no space at its ends"},
    {"Learner1 ", "a name has no space at its ends"},
    {"\u00a0Learner", "a name has no space at its ends"},
    {"\u3000", "a name has no space at its ends"},
    {"Learner1\u2009", "a name has no space at its ends"},
    {"\u200b", "a name has no invisible and no direction-changing characters"},
    {"\ufeff", "a name has no invisible and no direction-changing characters"},
    {"\u202erenraeL", "a name has no invisible and no direction-changing characters"},
    {"Lear\u200fner", "a name has no invisible and no direction-changing characters"},
    {"Lear\u2060ner", "a name has no invisible and no direction-changing characters"},
    {"Lear\u2069ner", "a name has no invisible and no direction-changing characters"},
    {"An\u00ada", "a name has no invisible and no direction-changing characters"},
    {"Learner1\U000e0041", "a name has no invisible and no direction-changing characters"},
};
enum { NAMES = sizeof names / sizeof names[0] };

START_TEST(takes_a_name_that_everybody_sees)
{
    int64_t id;
    char text[160];
    const char *says = names[_i].says;
    PbStatus expected = says == NULL ? PB_OK : PB_ERR_RANGE;
    StoreMark mark = {.part = "hands", .points = 5.0, .marked = WHEN};
    Store *store = case_open();
    int64_t ana = case_learner(store, "Learner1"), run = case_run(store, ana, 1);
    ck_assert_int_eq(store_learner_add(store, names[_i].name, WHEN, &id, &err), expected);
    ck_assert_str_eq(err.message, says != NULL ? says : "");
    ck_assert_int_eq(store_item_put(store, STORE_RUBRICS, names[_i].name, "{}", WHEN, &err),
                     expected);
    ck_assert_int_eq(store_item_put(store, STORE_HOUSES, names[_i].name, "{}", WHEN, &err),
                     expected);
    ck_assert_str_eq(err.message, says != NULL ? says : "");
    snprintf(mark.trainer, sizeof mark.trainer, "%s", names[_i].name);
    if (names[_i].name[0] != '\0') { /* a mark may be given without a name */
        snprintf(text, sizeof text, "the trainer: %s", says != NULL ? says : "");
        ck_assert_int_eq(store_mark_add(store, run, &mark, &err), expected);
        ck_assert_str_eq(err.message, says != NULL ? text : "");
    }
    if (says == NULL) {
        ck_assert_int_eq(store_learner_delete(store, id, &err), PB_OK);
    }
    ck_assert_int_eq(store_learner_rename(store, ana, names[_i].name, &err), expected);
    store_close(store);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("schema");
    TCase *tc = tcase_create("normal");
    tcase_add_checked_fixture(tc, case_start, case_stop);
    tcase_add_loop_test(tc, refuses_what_is_not_ours_and_leaves_it, 0, HOSTILE);
    tcase_add_test(tc, takes_its_own_words_in_another_form);
    tcase_add_test(tc, runs_no_trigger_and_reads_no_view);
    tcase_add_loop_test(tc, says_that_an_infinite_figure_is_damage, 0, ODD);
    tcase_add_loop_test(tc, takes_a_name_that_everybody_sees, 0, NAMES);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
