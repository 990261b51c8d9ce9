/* People, runs, grades, marks and named texts: what goes in comes out, what is wrong is refused. */
#include "core/score.h"
#include "store_case.h"

#include <sqlite3.h>

static Store *store;
static PbError err;

static void start(void)
{
    case_start();
    store = case_open();
}

static void stop(void)
{
    store_close(store);
    case_stop();
}

START_TEST(makes_a_file_that_only_its_owner_can_read)
{
    struct stat st;
    ck_assert_int_eq(stat(case_path, &st), 0);
    ck_assert_int_eq(st.st_mode & 0777, 0600);
    ck_assert_str_eq(store_path(store), case_path);
}
END_TEST

START_TEST(keeps_the_default_under_the_data_folder)
{
    char path[500];
    struct stat st;
    store_close(store);
    store = NULL; /* one at a time */
    setenv("XDG_DATA_HOME", case_folder, 1);
    ck_assert_int_eq(store_default_path(path, sizeof path, &err), PB_OK);
    ck_assert_msg(strncmp(path, case_folder, strlen(case_folder)) == 0, "%s", path);
    ck_assert_str_eq(path + strlen(case_folder), "/pullback/pullback.db");
    Store *other;
    ck_assert_int_eq(store_open(NULL, &other, &err), PB_OK);
    store_close(other);
    ck_assert_int_eq(stat(path, &st), 0);
    unlink(path);
    *strrchr(path, '/') = '\0';
    ck_assert_int_eq(stat(path, &st), 0);
    ck_assert_int_eq(st.st_mode & 0777, 0700);
    rmdir(path);
    setenv("XDG_DATA_HOME", "not/absolute", 1);
    setenv("HOME", "/home/somebody", 1);
    ck_assert_int_eq(store_default_path(path, sizeof path, &err), PB_OK);
    ck_assert_str_eq(path, "/home/somebody/.local/share/pullback/pullback.db");
    unsetenv("XDG_DATA_HOME");
    unsetenv("HOME");
    ck_assert_int_eq(store_default_path(path, sizeof path, &err), PB_ERR_IO);
}
END_TEST

START_TEST(gives_back_a_run_as_it_was_put_in)
{
    unsigned char bytes[20000];
    StoreRun run;
    void *got;
    size_t size, expected = case_bytes(5, bytes, sizeof bytes);
    PbRunSummary m = case_summary(5);
    int64_t id = case_run(store, case_learner(store, "Learner1"), 5);
    store_close(store);
    store = case_open();
    ck_assert_int_eq(store_run_get(store, id, &run, &err), PB_OK);
    ck_assert_mem_eq(&run.summary, &m, sizeof m);
    ck_assert_str_eq(run.learner, "Learner1");
    ck_assert_str_eq(run.added, WHEN);
    ck_assert_int_eq(store_run_bytes(store, id, &got, &size, &err), PB_OK);
    ck_assert_uint_eq(size, expected);
    ck_assert_mem_eq(got, bytes, size);
    free(got);
    ck_assert_int_eq(store_check(store, &err), PB_OK);
}
END_TEST

/* A window is left open for days: what it holds does not grow with what it has kept. */
START_TEST(holds_no_more_memory_after_two_hundred_runs)
{
    int64_t learner = case_learner(store, "Learner1");
    sqlite3_int64 early = 0;
    for (int i = 0; i < 200; i++) {
        (void)case_run(store, learner, i);
        early = i == 30 ? sqlite3_memory_used() : early;
    }
    ck_assert_int_lt(sqlite3_memory_used(), early + 100000);
}
END_TEST

/* Every title that an exercise file may have: a run that was worked must be kept. */
START_TEST(keeps_a_run_whose_title_begins_with_a_space)
{
    StoreRun run;
    int64_t id;
    PbRunSummary m = case_summary(5);
    strcpy(m.exercise_title, " A bay ");
    ck_assert_msg(store_run_add(store, case_learner(store, "Learner1"), "run", 3, &m, WHEN, &id,
                                &err) == PB_OK,
                  "%s", err.message);
    ck_assert_int_eq(store_run_get(store, id, &run, &err), PB_OK);
    ck_assert_str_eq(run.summary.exercise_title, " A bay ");
}
END_TEST

START_TEST(lists_newest_first_by_learner_and_exercise)
{
    int64_t first = case_learner(store, "Learner1"), second = case_learner(store, "Learner2");
    for (int i = 0; i < 40; i++) {
        case_run(store, i % 4 == 0 ? second : first, i);
    }
    StoreRun *list;
    int count;
    StoreFilter filter = {0};
    ck_assert_int_eq(store_run_list(store, &filter, &list, &count, &err), PB_OK);
    ck_assert_int_eq(count, 40);
    for (int i = 1; i < count; i++) {
        ck_assert(strcmp(list[i - 1].summary.when, list[i].summary.when) >= 0);
    }
    ck_assert_int_eq(list[0].summary.part_count, 0);
    free(list);
    filter = (StoreFilter){.learner_id = second, .with_parts = 1};
    ck_assert_int_eq(store_run_list(store, &filter, &list, &count, &err), PB_OK);
    ck_assert_int_eq(count, 10);
    ck_assert_int_eq(list[3].summary.part_count, 2);
    ck_assert_str_eq(list[3].summary.parts[1].key, "hands");
    ck_assert_double_eq(list[3].summary.parts[1].points, 6.25);
    free(list);
    filter = (StoreFilter){.learner_id = first, .exercise_id = "bay-1", .limit = 5, .offset = 3};
    ck_assert_int_eq(store_run_list(store, &filter, &list, &count, &err), PB_OK);
    ck_assert_int_eq(count, 5);
    for (int i = 0; i < count; i++) {
        ck_assert_str_eq(list[i].summary.exercise_id, "bay-1");
        ck_assert_int_eq(list[i].learner_id, first);
    }
    free(list);
    /* of the same second the later one is the newer, on all pages */
    for (int i = 0; i < 5; i++) {
        case_run_at(store, first, 100 + i, "2026-03-29T10:00:00Z");
    }
    for (int i = 0; i < 5; i++) {
        filter = (StoreFilter){.limit = 1, .offset = i};
        ck_assert_int_eq(store_run_list(store, &filter, &list, &count, &err), PB_OK);
        ck_assert_int_eq(count, 1);
        ck_assert_int_eq(list[0].id, 45 - i);
        free(list);
    }
    filter = (StoreFilter){.exercise_id = "none"};
    ck_assert_int_eq(store_run_list(store, &filter, &list, &count, &err), PB_OK);
    ck_assert_int_eq(count, 0);
    ck_assert_ptr_null(list);
}
END_TEST

START_TEST(refuses_a_run_that_is_there_or_breaks_the_rules)
{
    unsigned char bytes[2000] = {1};
    int64_t first = case_learner(store, "Learner1"), second = case_learner(store, "Learner2"),
            id = -7;
    PbRunSummary good = case_summary(1), bad;
    ck_assert_int_eq(store_run_add(store, first, bytes, 100, &good, WHEN, &id, &err), PB_OK);
    int64_t last = id;
    ck_assert_int_eq(store_run_add(store, second, bytes, 100, &good, WHEN, &id, &err),
                     PB_ERR_RANGE);
    ck_assert_str_eq(err.message, "this very run is there already: run 1 of Learner1");
    ck_assert_int_eq(store_run_add(store, first, bytes, 100, &good, WHEN, &id, &err), PB_ERR_RANGE);
    ck_assert_ptr_nonnull(strstr(err.message, "this very run already: run 1"));
    ck_assert_int_eq(store_run_add(store, first, bytes, 0, &good, WHEN, &id, &err), PB_ERR_RANGE);
    ck_assert_int_eq(store_run_add(store, 99, bytes, 10, &good, WHEN, &id, &err), PB_ERR_NO_RESULT);
    ck_assert_int_eq(store_run_add(store, first, bytes, 10, &good, "today", &id, &err),
                     PB_ERR_RANGE);
#define REFUSED(change)                                                                            \
    bad = good;                                                                                    \
    change;                                                                                        \
    ck_assert_int_eq(store_run_add(store, first, bytes, 50, &bad, WHEN, &id, &err), PB_ERR_RANGE)
    REFUSED(bad.total = 100.5);
    REFUSED(bad.total = strtod("nan", NULL));
    REFUSED(bad.parts[1].points = 10.5);
    REFUSED(bad.parts[1].points = -0.5);
    REFUSED(strcpy(bad.parts[1].key, "on_target"));
    REFUSED(strcpy(bad.parts[1].key, "run"));
    REFUSED(strcpy(bad.parts[1].key, "Two words"));
    REFUSED(bad.part_count = PB_SUMMARY_PARTS + 1);
    REFUSED(bad.exercise_id[0] = '\0');
    REFUSED(bad.exercise_title[0] = '\0');
    REFUSED(strcpy(bad.exercise_title, "\xff"));
    REFUSED(strcpy(bad.when, "2026-13-04T09:30:00Z"));
    REFUSED(bad.duration_s = -1.0);
    ck_assert_int_eq(id, last);
    StoreRun *list;
    int count;
    StoreFilter all = {0};
    ck_assert_int_eq(store_run_list(store, &all, &list, &count, &err), PB_OK);
    ck_assert_int_eq(count, 1);
    free(list);
}
END_TEST

START_TEST(a_left_run_has_no_grade_and_gives_its_place_to_the_whole_one)
{
    int64_t first = case_learner(store, "Learner1"), second = case_learner(store, "Learner2"), id,
            whole;
    PbRunSummary left = case_summary(1), done = case_summary(2), older = case_summary(3);
    StoreGrade *grades, grade = {.rubric = "other", .graded = WHEN, .total = 50.0};
    StoreMark mark = {.part = STORE_WHOLE_RUN, .points = -1.0, .reason = "Go on", .marked = WHEN};
    StoreRun run;
    int count;
    left.state = PB_RUN_LEFT;
    left.part_count = 0;
    strcpy(left.rubric, "none"); /* its total and that it passed say nothing */
    done.origin = PB_ORIGIN_HERE;
    done.breaks = 1;
    done.exercise_hash = 0xfedcba9876543210U;
    done.has_claim = 1;
    done.claimed_total = 99.5;
    ck_assert_int_eq(store_run_add(store, first, "first half", 10, &left, WHEN, &id, &err), PB_OK);
    ck_assert_int_eq(store_run_get(store, id, &run, &err), PB_OK);
    ck_assert(run.summary.total == 0.0 && !run.summary.is_pass);
    ck_assert_int_eq(store_grade_list(store, id, &grades, &count, &err), PB_OK);
    ck_assert_int_eq(count, 0);
    ck_assert_int_eq(store_grade_put(store, id, &grade, &err), PB_ERR_RANGE);
    ck_assert_int_eq(store_mark_add(store, id, &mark, &err), PB_OK);
    older.state = PB_RUN_UNVERIFIED; /* nor has one of an older version a grade */
    older.part_count = 0;
    ck_assert_int_eq(store_run_add(store, first, "older", 5, &older, WHEN, &whole, &err), PB_OK);
    ck_assert_int_eq(store_grade_list(store, whole, &grades, &count, &err), PB_OK);
    ck_assert_int_eq(count, 0);
    ck_assert_int_eq(store_grade_put(store, whole, &grade, &err), PB_ERR_RANGE);
    ck_assert_ptr_nonnull(strstr(err.message, "it has no grade"));
    /* another's left run is not taken over */
    ck_assert_int_eq(store_run_put(store, second, id, "b", 1, &done, WHEN, &whole, &err), PB_OK);
    ck_assert_int_ne(whole, id);
    ck_assert_int_eq(
        store_run_put(store, first, id, "the whole run", 13, &done, WHEN, &whole, &err), PB_OK);
    ck_assert_int_eq(whole, id);
    ck_assert_int_eq(store_run_get(store, id, &run, &err), PB_OK);
    ck_assert_int_eq(run.summary.state, PB_RUN_FINISHED);
    ck_assert_int_eq(run.summary.breaks, 1);
    ck_assert_uint_eq(run.summary.exercise_hash, done.exercise_hash);
    ck_assert_double_eq(run.summary.claimed_total, 99.5);
    ck_assert_double_eq(run.summary.total, 75.5);
    ck_assert_int_eq(run.summary.part_count, 2);
    ck_assert_int_eq(run.mark_count, 1);
    ck_assert_int_eq(run.file_bytes, 13);
    ck_assert_int_eq(store_check(store, &err), PB_OK);
    /* and a whole one gives its place to nobody */
    ck_assert_int_eq(store_run_put(store, first, id, "again", 5, &done, WHEN, &whole, &err), PB_OK);
    ck_assert_int_ne(whole, id);
}
END_TEST

static void set_rules(int64_t run, int rules)
{
    sqlite3 *db;
    char sql[100];
    store_close(store);
    ck_assert_int_eq(sqlite3_open(case_path, &db), SQLITE_OK);
    snprintf(sql, sizeof sql, "UPDATE grades SET rules = %d WHERE run_id = %lld", rules,
             (long long)run);
    ck_assert_int_eq(sqlite3_exec(db, sql, NULL, NULL, NULL), SQLITE_OK);
    sqlite3_close(db);
    store = case_open();
}

/* One more run of a bay on this day of March. */
static int64_t try_on(int64_t learner, int day, double total, uint64_t bay, int is_scripted)
{
    PbRunSummary m = case_summary(day);
    char bytes[40];
    int64_t id;
    snprintf(m.exercise_id, sizeof m.exercise_id, "bay");
    snprintf(m.when, sizeof m.when, "2026-03-%02dT10:00:00Z", day);
    snprintf(bytes, sizeof bytes, "%d %d", (int)learner, day);
    m.exercise_hash = bay;
    m.is_scripted = is_scripted;
    m.total = total;
    ck_assert_msg(store_run_add(store, learner, bytes, strlen(bytes), &m, WHEN, &id, &err) == PB_OK,
                  "%s", err.message);
    return id;
}

START_TEST(finds_what_a_person_did_before_in_the_same_bay)
{
    int64_t one = case_learner(store, "Learner1"), two = case_learner(store, "Learner2");
    StoreEarlier e;
    int64_t first = try_on(one, 1, 50.0, 7, 0);
    ck_assert_int_eq(store_run_earlier(store, first, &e, &err), PB_OK);
    ck_assert_int_eq(e.count, 0);
    ck_assert_int_eq(e.now.id, first);
    int64_t best = try_on(one, 2, 90.0, 7, 0);
    (void)try_on(two, 3, 99.0, 7, 0); /* another's, another bay of that id, scripted hands */
    (void)try_on(one, 4, 98.0, 8, 0);
    (void)try_on(one, 5, 97.0, 7, 1);
    int64_t last = try_on(one, 6, 60.0, 7, 0), now = try_on(one, 7, 70.0, 7, 0);
    (void)try_on(one, 8, 95.0, 7, 0); /* after it */
    ck_assert_int_eq(store_run_earlier(store, now, &e, &err), PB_OK);
    ck_assert_int_eq(e.count, 3);
    ck_assert_int_eq(e.last.id, last);
    ck_assert_double_eq(e.last.summary.parts[0].points, 31.5);
    ck_assert(e.is_last_like);
    ck_assert_int_eq(e.like_count, 3);
    ck_assert_int_eq(e.best.id, best);
    ck_assert_int_eq(e.best.rules, PB_SCORE_RULES);
    set_rules(best, 1); /* what was marked by other rules is no best to beat */
    ck_assert_int_eq(store_run_earlier(store, now, &e, &err), PB_OK);
    ck_assert_int_eq(e.count, 3);
    ck_assert_int_eq(e.like_count, 2);
    ck_assert_int_eq(e.best.id, last);
    set_rules(last, 1); /* and a last one is found, though not to be compared */
    ck_assert_int_eq(store_run_earlier(store, now, &e, &err), PB_OK);
    ck_assert_int_eq(e.last.id, last);
    ck_assert(!e.is_last_like);
    ck_assert_int_eq(e.like_count, 1);
    set_rules(now, 1);
    ck_assert_int_eq(store_run_earlier(store, now, &e, &err), PB_OK);
    ck_assert_int_eq(e.count, 3);
    ck_assert_int_eq(e.like_count, 0);
    ck_assert_int_eq(store_run_earlier(store, 99, &e, &err), PB_ERR_NO_RESULT);
}
END_TEST

START_TEST(keeps_the_trainers_marks_beside_the_computed_points)
{
    int64_t id = case_run(store, case_learner(store, "Learner1"), 1);
    StoreMark mark = {.part = "hands", .points = 8.0, .marked = WHEN};
    StoreMark *list;
    int count;
    strcpy(mark.reason, "Calm.\nKept the rhythm.");
    strcpy(mark.trainer, "Trainer 1");
    ck_assert_int_eq(store_mark_add(store, id, &mark, &err), PB_OK);
    mark.points = 9.5;
    ck_assert_int_eq(store_mark_add(store, id, &mark, &err), PB_OK);
    mark.points = 10.0; /* all that the part has */
    ck_assert_int_eq(store_mark_add(store, id, &mark, &err), PB_OK);
    strcpy(mark.part, STORE_WHOLE_RUN);
    mark.points = -1.0;
    ck_assert_int_eq(store_mark_add(store, id, &mark, &err), PB_OK);
    strcpy(mark.part, "hands");
    mark.points = 10.5;
    ck_assert_int_eq(store_mark_add(store, id, &mark, &err), PB_ERR_RANGE);
    mark.points = strtod("nan", NULL);
    ck_assert_int_eq(store_mark_add(store, id, &mark, &err), PB_ERR_RANGE);
    mark.points = 1.0;
    strcpy(mark.part, "years");
    ck_assert_int_eq(store_mark_add(store, id, &mark, &err), PB_ERR_RANGE);
    ck_assert_ptr_nonnull(strstr(err.message, "not graded in a part \"years\""));
    strcpy(mark.part, STORE_WHOLE_RUN);
    mark.points = -1.0;
    mark.reason[0] = '\0';
    ck_assert_int_eq(store_mark_add(store, id, &mark, &err), PB_ERR_RANGE);
    ck_assert_int_eq(store_mark_add(store, id + 1, &mark, &err), PB_ERR_RANGE);
    ck_assert_int_eq(store_mark_list(store, id, &list, &count, &err), PB_OK);
    ck_assert_int_eq(count, 4);
    ck_assert_double_eq(list[0].points, 8.0);
    ck_assert_int_eq(list[0].is_current, 0);
    ck_assert_double_eq(list[1].points, 9.5);
    ck_assert_int_eq(list[1].is_current, 0);
    ck_assert_double_eq(list[2].points, 10.0);
    ck_assert_int_eq(list[2].is_current, 1);
    ck_assert(list[3].points < 0.0);
    ck_assert_int_eq(list[3].is_current, 1);
    ck_assert_str_eq(list[3].reason, "Calm.\nKept the rhythm.");
    free(list);
    StoreRun run;
    ck_assert_int_eq(store_run_get(store, id, &run, &err), PB_OK);
    ck_assert_double_eq(run.summary.parts[1].points, 6.25);
    ck_assert_int_eq(run.mark_count, 4);
}
END_TEST

START_TEST(keeps_grades_by_other_rubrics)
{
    int64_t id = case_run(store, case_learner(store, "Learner1"), 1);
    StoreGrade g = {.rubric = "strict", .graded = WHEN, .total = 50.0, .part_count = 1};
    StoreGrade *list;
    int count;
    g.parts[0] = (PbPartPoints){"hands", 1.0, 20.0};
    ck_assert_int_eq(store_grade_put(store, id, &g, &err), PB_OK);
    g.total = 51.0;
    ck_assert_int_eq(store_grade_put(store, id, &g, &err), PB_OK);
    strcpy(g.rubric, "default");
    ck_assert_int_eq(store_grade_put(store, id, &g, &err), PB_ERR_RANGE);
    ck_assert_int_eq(store_grade_list(store, id, &list, &count, &err), PB_OK);
    ck_assert_int_eq(count, 2);
    ck_assert_str_eq(list[0].rubric, "default");
    ck_assert_double_eq(list[0].total, 75.5);
    ck_assert_int_eq(list[0].part_count, 2);
    ck_assert_str_eq(list[0].parts[0].key, "on_target"); /* as they were given */
    ck_assert_str_eq(list[0].parts[1].key, "hands");
    ck_assert_double_eq(list[0].parts[1].points, 6.25);
    ck_assert(list[0].is_pass && !list[1].is_pass);
    ck_assert_double_eq(list[1].total, 51.0);
    ck_assert_double_eq(list[1].parts[0].max, 20.0);
    free(list);
}
END_TEST

START_TEST(tells_people_apart_by_name)
{
    static const char *const bad[] = {"",         " Learner1",    "Learner1 ", "A\nna",
                                      "\xc3\x28", "\xed\xa0\x80", "\xc2\x85"};
    int64_t id = case_learner(store, "Learner1"), other;
    char name[200];
    StoreLearner l;
    ck_assert_int_eq(store_learner_add(store, "learner1", WHEN, &other, &err), PB_ERR_RANGE);
    ck_assert_ptr_nonnull(strstr(err.message, "learner \"Learner1\" already")); /* as spelled */
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        ck_assert_int_eq(store_learner_add(store, bad[i], WHEN, &other, &err), PB_ERR_RANGE);
    }
    memset(name, 'x', sizeof name);
    name[81] = '\0';
    ck_assert_int_eq(store_learner_add(store, name, WHEN, &other, &err), PB_ERR_RANGE);
    name[80] = '\0';
    ck_assert_int_eq(store_learner_add(store, name, WHEN, &other, &err), PB_OK);
    int64_t nunez = case_learner(store, "Nu\xc3\xb1"
                                        "ez");
    ck_assert_int_eq(store_learner_rename(store, nunez, "LEARNER1", &err), PB_ERR_RANGE);
    ck_assert_int_eq(store_learner_rename(store, id, "LEARNER1", &err), PB_OK);
    ck_assert_int_eq(store_learner_rename(store, 99, "Zoe", &err), PB_ERR_NO_RESULT);
    ck_assert_int_eq(store_learner_find(store, "learner1", &l, &err), PB_OK);
    ck_assert_str_eq(l.name, "LEARNER1");
    ck_assert_int_eq(store_learner_find(store, "Zoe", &l, &err), PB_ERR_NO_RESULT);
}
END_TEST

/* Also the bytes: a deleted person's file must not be left in the free pages or in the log. */
START_TEST(takes_times_that_a_clock_can_show)
{
    static const char *const good[] = {"2026-03-04T00:00:00Z", "2024-02-29T23:59:59Z",
                                       "2016-12-31T23:59:60Z"}; /* a leap second */
    static const char *const bad[] = {"2026-03-04T24:00:00Z",
                                      "2026-03-04T09:60:00Z",
                                      "2026-03-04T09:30:61Z",
                                      "2026-00-04T09:30:00Z",
                                      "2026-13-04T09:30:00Z",
                                      "2026-03-00T09:30:00Z",
                                      "2026-04-31T09:30:00Z",
                                      "2026-02-30T09:30:00Z",
                                      "2026-03-04 09:30:00Z",
                                      "2026-03-04T09:30:00",
                                      "2026-03-04T09:30:00ZZ",
                                      "2026-03-04T09:3a:00Z",
                                      ""};
    int64_t id;
    char name[20];
    for (size_t i = 0; i < sizeof good / sizeof good[0]; i++) {
        snprintf(name, sizeof name, "Learner %zu", i);
        ck_assert_msg(store_learner_add(store, name, good[i], &id, &err) == PB_OK, "%s", good[i]);
    }
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        ck_assert_msg(store_learner_add(store, "Learner", bad[i], &id, &err) == PB_ERR_RANGE, "%s",
                      bad[i]);
    }
}
END_TEST

/* Whoever came first: people look a name up in the list. */
START_TEST(lists_people_by_name_whatever_their_case)
{
    static const char *const sorted[] = {"Learner 1", "learner 2", "Learner 3", "Learner 4"};
    static const int added[] = {2, 3, 0, 1};
    StoreLearner *list;
    int count;
    for (int i = 0; i < 4; i++) {
        case_learner(store, sorted[added[i]]);
    }
    ck_assert_int_eq(store_learner_list(store, &list, &count, &err), PB_OK);
    ck_assert_int_eq(count, 4);
    for (int i = 0; i < 4; i++) {
        ck_assert_str_eq(list[i].name, sorted[i]);
    }
    free(list);
}
END_TEST

START_TEST(deletes_a_person_with_everything)
{
    static const char secret[] = "words-that-must-go-with-the-person";
    int64_t first = case_learner(store, "Learner1"), second = case_learner(store, "Learner2"), id;
    int64_t kept = case_run(store, second, 3);
    PbRunSummary m = case_summary(1);
    StoreMark mark = {.part = "hands", .points = 1.0, .marked = WHEN};
    ck_assert_int_eq(store_run_add(store, first, secret, sizeof secret, &m, WHEN, &id, &err),
                     PB_OK);
    strcpy(mark.reason, secret);
    ck_assert_int_eq(store_mark_add(store, id, &mark, &err), PB_OK);
    ck_assert_int_eq(store_mark_add(store, id, &mark, &err), PB_OK);
    StoreContents c;
    ck_assert_int_eq(store_learner_contents(store, first, &c, &err), PB_OK);
    ck_assert_int_eq(c.runs, 1);
    ck_assert_int_eq(c.grades, 1);
    ck_assert_int_eq(c.marks, 2);
    ck_assert_int_eq(c.file_bytes, sizeof secret);
    ck_assert_int_eq(store_learner_delete(store, first, &err), PB_OK);
    ck_assert_int_eq(store_learner_delete(store, first, &err), PB_ERR_NO_RESULT);
    StoreRun run;
    ck_assert_int_eq(store_run_get(store, id, &run, &err), PB_ERR_NO_RESULT);
    ck_assert_int_eq(store_run_get(store, kept, &run, &err), PB_OK);
    ck_assert_int_eq(store_check(store, &err), PB_OK);
    store_close(store);
    size_t size;
    unsigned char *bytes = case_read(case_path, &size);
    for (size_t i = 0; i + sizeof secret <= size; i++) {
        ck_assert_msg(memcmp(bytes + i, secret, sizeof secret - 1) != 0, "still there at %zu", i);
    }
    free(bytes);
    store = case_open();
    ck_assert_int_gt(case_learner(store, "Learner3"), second); /* numbers are not given twice */
    ck_assert_int_eq(store_run_delete(store, kept, &err), PB_OK);
    ck_assert_int_eq(store_run_delete(store, kept, &err), PB_ERR_NO_RESULT);
}
END_TEST

START_TEST(undoes_or_keeps_a_batch)
{
    int64_t first = case_learner(store, "Learner1"), id;
    ck_assert_int_eq(store_batch_begin(store, &err), PB_OK);
    ck_assert_int_eq(store_batch_begin(store, &err), PB_ERR_STATE);
    case_run(store, first, 1);
    ck_assert_int_eq(store_learner_add(store, "learner1", WHEN, &id, &err), PB_ERR_RANGE);
    case_run(store, first, 2);
    ck_assert_int_eq(store_batch_end(store, 1, &err), PB_OK);
    ck_assert_int_eq(store_batch_begin(store, &err), PB_OK);
    case_run(store, first, 3);
    ck_assert_int_eq(store_batch_end(store, 0, &err), PB_OK);
    ck_assert_int_eq(store_batch_end(store, 0, &err), PB_ERR_STATE);
    StoreLearner l;
    ck_assert_int_eq(store_learner_find(store, "Learner1", &l, &err), PB_OK);
    ck_assert_int_eq(l.run_count, 2);
}
END_TEST

START_TEST(keeps_texts_by_name)
{
    char *text, value[20];
    StoreItem *list;
    int count;
    for (int shelf = STORE_RUBRICS; shelf <= STORE_HOUSES; shelf++) {
        StoreShelf s = (StoreShelf)shelf;
        ck_assert_int_eq(store_item_put(store, s, "B", "{\"a\": 1}", WHEN, &err), PB_OK);
        ck_assert_int_eq(store_item_put(store, s, "A", "{}", WHEN, &err), PB_OK);
        ck_assert_int_eq(store_item_put(store, s, "b", "{\"a\": 2}", WHEN, &err), PB_OK);
        ck_assert_int_eq(store_item_put(store, s, "", "{}", WHEN, &err), PB_ERR_RANGE);
        ck_assert_int_eq(store_item_list(store, s, &list, &count, &err), PB_OK);
        ck_assert_int_eq(count, 2);
        ck_assert_str_eq(list[0].name, "A");
        ck_assert_int_eq(list[1].bytes, 8);
        free(list);
        ck_assert_int_eq(store_item_get(store, s, "B", &text, &err), PB_OK);
        ck_assert_str_eq(text, "{\"a\": 2}");
        free(text);
        ck_assert_int_eq(store_item_delete(store, s, "B", &err), PB_OK);
        ck_assert_int_eq(store_item_delete(store, s, "B", &err), PB_ERR_NO_RESULT);
        ck_assert_int_eq(store_item_get(store, s, "B", &text, &err), PB_ERR_NO_RESULT);
    }
    case_run(store, case_learner(store, "Learner1"), 1);
    ck_assert_int_eq(store_item_put(store, STORE_RUBRICS, "default", "{}", WHEN, &err), PB_OK);
    ck_assert_int_eq(store_item_delete(store, STORE_RUBRICS, "default", &err), PB_ERR_RANGE);
    ck_assert_int_eq(store_setting_get(store, "units", value, sizeof value, &err),
                     PB_ERR_NO_RESULT);
    ck_assert_int_eq(store_setting_put(store, "units", "si", &err), PB_OK);
    ck_assert_int_eq(store_setting_put(store, "units", "us", &err), PB_OK);
    ck_assert_int_eq(store_setting_get(store, "units", value, sizeof value, &err), PB_OK);
    ck_assert_str_eq(value, "us");
}
END_TEST

int main(void)
{
    Suite *s = suite_create("store_runs");
    TCase *tc = tcase_create("normal");
    tcase_add_checked_fixture(tc, start, stop);
    tcase_add_test(tc, makes_a_file_that_only_its_owner_can_read);
    tcase_add_test(tc, keeps_the_default_under_the_data_folder);
    tcase_add_test(tc, gives_back_a_run_as_it_was_put_in);
    tcase_add_test(tc, holds_no_more_memory_after_two_hundred_runs);
    tcase_add_test(tc, keeps_a_run_whose_title_begins_with_a_space);
    tcase_add_test(tc, lists_newest_first_by_learner_and_exercise);
    tcase_add_test(tc, finds_what_a_person_did_before_in_the_same_bay);
    tcase_add_test(tc, refuses_a_run_that_is_there_or_breaks_the_rules);
    tcase_add_test(tc, a_left_run_has_no_grade_and_gives_its_place_to_the_whole_one);
    tcase_add_test(tc, keeps_the_trainers_marks_beside_the_computed_points);
    tcase_add_test(tc, keeps_grades_by_other_rubrics);
    tcase_add_test(tc, tells_people_apart_by_name);
    tcase_add_test(tc, takes_times_that_a_clock_can_show);
    tcase_add_test(tc, lists_people_by_name_whatever_their_case);
    tcase_add_test(tc, deletes_a_person_with_everything);
    tcase_add_test(tc, undoes_or_keeps_a_batch);
    tcase_add_test(tc, keeps_texts_by_name);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
