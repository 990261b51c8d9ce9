/*
 * Files of every earlier layout come up to date with all that is in them. The dumps in
 * tests/unit/data/store_vN.sql were written when layout N was the newest and are never edited.
 */
#include "core/hash.h"
#include "store_case.h"
#include "store_private.h"

#include "core/score.h"
#include "io/doc.h"

/* FNV-1a 64 of each step: a step that has been shipped may not change by a single character. */
static const uint64_t shipped[] = {0xa1b98db7c94e0fdbU, 0x8f4a67cbb15c4253U, 0x0bfca16da6b452f0U,
                                   0x9530b10759a999ecU, 0x93461361e9ed062dU, 0x4b3d91e8a71dbb90U,
                                   0x34cc0a95acab957bU, 0x2409506b57be832eU};

START_TEST(has_every_step_as_it_was_shipped)
{
    ck_assert_int_eq(store_version(), (int)(sizeof shipped / sizeof shipped[0]));
    for (int n = 1; n <= store_version(); n++) {
        const char *sql = store_migration_sql(n);
        uint64_t sum = pb_hash_bytes(PB_HASH_START, sql, strlen(sql));
        ck_assert_msg(sum == shipped[n - 1], "step %d now has 0x%016llx: add a step instead", n,
                      (unsigned long long)sum);
    }
    ck_assert_ptr_null(store_migration_sql(0));
    ck_assert_ptr_null(store_migration_sql(store_version() + 1));
}
END_TEST

static void run_sql(const char *sql)
{
    sqlite3 *db;
    char *says = NULL;
    ck_assert_int_eq(sqlite3_open(case_path, &db), SQLITE_OK);
    int code = sqlite3_exec(db, sql, NULL, NULL, &says);
    ck_assert_msg(code == SQLITE_OK, "%s", says);
    sqlite3_close(db);
}

static void load_dump(int version)
{
    char path[400], *sql;
    size_t size;
    PbError err;
    snprintf(path, sizeof path, "%s/tests/unit/data/store_v%d.sql", PB_TEST_SOURCE_DIR, version);
    ck_assert_int_eq(io_read_file(path, 1 << 20, &sql, &size, &err), PB_OK);
    run_sql(sql);
    free(sql);
}

/* The same two runs are in every dump; marks from 2 on, texts from 3 on. */
START_TEST(brings_every_earlier_layout_up_to_date)
{
    load_dump(_i);
    PbError err = {0};
    Store *store = case_open();
    StoreRun run;
    StoreMark *marks;
    StoreLearner l;
    int64_t version;
    int count;
    char *text;
    ck_assert_int_eq(store_number(store, &version, &err, "", "PRAGMA user_version", ""), PB_OK);
    ck_assert_int_eq(version, store_version());
    ck_assert_int_eq(store_check(store, &err), PB_OK);
    ck_assert_int_eq(store_learner_find(store, "Learner1", &l, &err), PB_OK);
    ck_assert_int_eq(l.run_count, 2);
    ck_assert_int_eq(store_run_get(store, 1, &run, &err), PB_OK);
    PbRunSummary m = case_summary(1);
    ck_assert_mem_eq(&run.summary, &m, sizeof m);
    ck_assert_int_eq(store_mark_list(store, 1, &marks, &count, &err), PB_OK);
    ck_assert_int_eq(count, _i >= 2);
    if (count > 0) {
        ck_assert_str_eq(marks[0].reason, "Steady.");
    }
    free(marks);
    PbStatus status = store_item_get(store, STORE_HOUSES, "Hill Street", &text, &err);
    ck_assert_int_eq(status, _i >= 3 ? PB_OK : PB_ERR_NO_RESULT);
    if (status == PB_OK) {
        ck_assert_str_eq(text, "{\"rooms\": 4}");
        free(text);
    }
    StoreGrade *grades; /* a grade says by which rules it was made: those of before had no gates */
    ck_assert_int_eq(store_grade_list(store, 1, &grades, &count, &err), PB_OK);
    ck_assert_int_eq(grades[0].rules, 1);
    free(grades);
    int64_t added = case_run(store, l.id, 9); /* and it can be worked with */
    ck_assert_int_eq(store_grade_list(store, added, &grades, &count, &err), PB_OK);
    ck_assert_int_eq(grades[0].rules, PB_SCORE_RULES);
    free(grades);
    store_close(store);
    store_close(case_open());
}
END_TEST

/* What an earlier program kept as a run of 0 points by nobody was a run that was left. */
START_TEST(a_run_that_nobody_marked_becomes_one_that_was_left)
{
    load_dump(4);
    run_sql("UPDATE runs SET rubric = 'none', total = 0, is_pass = 0 WHERE id = 2;"
            "UPDATE grades SET rubric = 'none', total = 0, is_pass = 0 WHERE run_id = 2;"
            "DELETE FROM grade_parts WHERE grade_id = 2");
    PbError err = {0};
    Store *store = case_open();
    StoreRun run;
    StoreGrade *grades;
    int count;
    ck_assert_int_eq(store_run_get(store, 1, &run, &err), PB_OK);
    ck_assert_int_eq(run.summary.state, PB_RUN_FINISHED);
    ck_assert_int_eq(run.summary.origin, PB_ORIGIN_EARLIER);
    ck_assert_int_eq(store_run_get(store, 2, &run, &err), PB_OK);
    ck_assert_int_eq(run.summary.state, PB_RUN_LEFT);
    ck_assert_int_eq(store_grade_list(store, 2, &grades, &count, &err), PB_OK);
    ck_assert_int_eq(count, 0);
    store_close(store);
}
END_TEST

START_TEST(leaves_a_newer_file_and_a_foreign_one_as_they_are)
{
    static const char *const sql[] = {
        "PRAGMA application_id = 0x50427374; PRAGMA user_version = 99; CREATE TABLE a (b);",
        "CREATE TABLE a (b); INSERT INTO a VALUES (1);",
        "PRAGMA application_id = 0x50427374; PRAGMA user_version = -1; CREATE TABLE a (b);",
        "PRAGMA application_id = 7; PRAGMA user_version = 2; CREATE TABLE learners (b);"};
    static const char *const says[] = {"newer version", "another program", "no known layout",
                                       "another program"};
    Store *store;
    PbError err = {0};
    size_t before, after;
    run_sql(sql[_i]);
    unsigned char *old = case_read(case_path, &before);
    ck_assert_int_eq(store_open(case_path, &store, &err), PB_ERR_FORMAT);
    ck_assert_msg(strstr(err.message, says[_i]) != NULL, "%s", err.message);
    ck_assert_str_eq(err.file, case_path);
    unsigned char *new = case_read(case_path, &after);
    ck_assert_uint_eq(before, after);
    ck_assert_mem_eq(old, new, before);
    free(old);
    free(new);
}
END_TEST

/* Step 4 is refused by SQLite: the whole climb from 1 must be undone. */
static int no_index(void *unused, int action, const char *a, const char *b, const char *c,
                    const char *d)
{
    (void)unused, (void)a, (void)b, (void)c, (void)d;
    return action == SQLITE_CREATE_INDEX ? SQLITE_DENY : SQLITE_OK;
}

START_TEST(goes_back_to_the_old_layout_when_a_step_fails)
{
    load_dump(1);
    Store half = {.fd = -1};
    PbError err = {0};
    int64_t version, tables;
    memcpy(half.path, case_path, sizeof case_path);
    ck_assert_int_eq(sqlite3_open(case_path, &half.db), SQLITE_OK);
    sqlite3_set_authorizer(half.db, no_index, NULL);
    ck_assert_int_ne(store_migrate(&half, store_version(), &err), PB_OK);
    ck_assert_ptr_nonnull(strstr(err.message, "cannot bring the database up to date"));
    sqlite3_set_authorizer(half.db, NULL, NULL);
    ck_assert_int_eq(store_number(&half, &version, &err, "", "PRAGMA user_version", ""), PB_OK);
    ck_assert_int_eq(version, 1);
    ck_assert_int_eq(store_number(&half, &tables, &err, "",
                                  "SELECT count(*) FROM sqlite_schema WHERE name = 'houses'", ""),
                     PB_OK);
    ck_assert_int_eq(tables, 0);
    sqlite3_close(half.db);
    store_close(case_open());
}
END_TEST

int main(void)
{
    Suite *s = suite_create("store_migrate");
    TCase *tc = tcase_create("normal");
    tcase_add_checked_fixture(tc, case_start, case_stop);
    tcase_add_test(tc, has_every_step_as_it_was_shipped);
    tcase_add_loop_test(tc, brings_every_earlier_layout_up_to_date, 1, store_version() + 1);
    tcase_add_test(tc, a_run_that_nobody_marked_becomes_one_that_was_left);
    tcase_add_loop_test(tc, leaves_a_newer_file_and_a_foreign_one_as_they_are, 0, 4);
    tcase_add_test(tc, goes_back_to_the_old_layout_when_a_step_fails);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
