/* Keeping runs when the disk will not: a database that cannot grow, and one that cannot be made.
 * The window's own records, without the window. */
#include "base/records.h"

#include "suite.h"

#include "core/marks.h"
#include "io/exercise_file.h"
#include "io/places.h"
#include "io/run_judge.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

static char folder[300], db[340];
static Records records;
static Run run;

static void start(void)
{
    snprintf(folder, sizeof folder, "%s/records-XXXXXX", PB_TEST_BINARY_DIR);
    ck_assert_ptr_nonnull(mkdtemp(folder));
    snprintf(db, sizeof db, "%s/t.db", folder);
    memset(&run, 0, sizeof run);
    signal(SIGXFSZ, SIG_IGN);
}

static void stop(void)
{
    char command[400];
    snprintf(command, sizeof command, "rm -rf '%s'", folder);
    ck_assert_int_eq(system(command), 0);
}

/* Ten seconds of blowing; given up, as by going back to the Door. */
static void work(void)
{
    PbSessionConfig config = pb_session_default();
    char why[600] = "";
    PbError err;
    ck_assert_int_eq(io_exercise_load(PB_TEST_SOURCE_DIR "/assets/exercises/plain-2x4.json",
                                      &config.exercise, &err),
                     PB_OK);
    ck_assert_int_eq(run_start(&run, &config, &err), PB_OK);
    (void)records_run_begin(&records, &run, why, sizeof why);
    run_command(&run, PB_COMMAND_MACHINE, 1.0);
    run_command(&run, PB_COMMAND_BLOWER, 1.0);
    run_command(&run, PB_COMMAND_FEED, 0.03);
    run_command(&run, PB_COMMAND_TUBE_TARGET, 1.0);
    for (int i = 0; i < 250; i++) {
        run_tick(&run);
    }
}

/* Until the recorder's thread has brought to the disk what there is; Check's limit ends it. The
 * file is not opened: closing it would end the recorder's lock. */
static void wait_for_disk(const char *path)
{
    struct timespec pause = {0, 5000000};
    struct stat now;
    size_t size;
    (void)io_recorder_bytes(run.recorder, &size);
    while (stat(path, &now) != 0 || (size_t)now.st_size < size) {
        nanosleep(&pause, NULL);
    }
}

static struct rlimit limit_files(rlim_t bytes)
{
    struct rlimit before, small;
    ck_assert_int_eq(getrlimit(RLIMIT_FSIZE, &before), 0);
    small = before;
    small.rlim_cur = bytes;
    ck_assert_int_eq(setrlimit(RLIMIT_FSIZE, &small), 0);
    return before;
}

static int kept_runs(void)
{
    StoreFilter all = {0};
    StoreRun *list = NULL;
    PbError err;
    int count = 0;
    ck_assert_int_eq(store_run_list(records.store, &all, &list, &count, &err), PB_OK);
    free(list);
    return count;
}

/* A file-size limit stands for a full disk. */
START_TEST(a_full_disk_holds_the_run_until_there_is_room)
{
    char why[600] = "";
    records_open(&records, db, "");
    ck_assert(records_add(&records, "Learner 1", why, sizeof why));
    work();
    struct rlimit before = limit_files(2000);
    ck_assert(!records_run_end(&records, &run, why, sizeof why));
    ck_assert_uint_gt(strlen(why), 10);
    ck_assert_int_eq(records.held_count, 1);
    ck_assert_int_eq(records_retry(&records, why, sizeof why), 1); /* still no room */
    ck_assert_int_eq(setrlimit(RLIMIT_FSIZE, &before), 0);
    ck_assert_int_eq(records_retry(&records, why, sizeof why), 0);
    ck_assert_int_eq(kept_runs(), 1);
    records_close(&records, &run);
    run_free(&run);
    /* the part that the full disk took does not come back as a second run */
    records_open(&records, db, "");
    ck_assert_int_eq(kept_runs(), 1);
    records_close(&records, &run);
}
END_TEST

START_TEST(no_database_at_all_and_the_run_goes_where_one_says)
{
    char why[1000] = "", path[400];
    struct stat s;
    records_open(&records, "/proc/no/such.db", "");
    ck_assert_ptr_null(records.store);
    work();
    ck_assert(!records_run_end(&records, &run, why, sizeof why));
    ck_assert_int_eq(records.held_count, 1);
    ck_assert_int_eq(records_save_elsewhere(&records, "/proc/no", why, sizeof why), 0);
    ck_assert_ptr_nonnull(strstr(why, "/proc/no/pullback-run-1.pbrun: "));
    ck_assert_int_eq(records.held_count, 1);
    ck_assert_int_eq(records_save_elsewhere(&records, folder, why, sizeof why), 1);
    snprintf(path, sizeof path, "%s/pullback-run-1.pbrun", folder);
    ck_assert_str_eq(why, path);
    ck_assert_int_eq(records.held_count, 0);
    PbRunFile file;
    PbError err;
    ck_assert_int_eq(io_run_read(path, &file, &err), PB_OK);
    ck_assert_int_eq(file.last_tick, 250);
    ck_assert_uint_eq(file.cut_bytes, 0);
    io_run_free(&file);
    ck_assert_int_eq(stat(path, &s), 0);
    ck_assert_int_eq(s.st_mode & 0777, 0600);
    records_close(&records, &run);
    run_free(&run);
}
END_TEST

/* Left in memory at the end of the program: home takes it. */
START_TEST(the_end_of_the_program_puts_a_held_run_into_the_home_folder)
{
    char path[400];
    records_open(&records, "/proc/no/such.db", "");
    work();
    setenv("HOME", folder, 1);
    records_close(&records, &run); /* ends the run under way as well */
    snprintf(path, sizeof path, "%s/pullback-run-1.pbrun", folder);
    ck_assert_int_eq(access(path, R_OK), 0);
    run_free(&run);
}
END_TEST

/* Worked, some steps of a foot, finished and kept. */
static void work_to_the_end(int steps)
{
    char why[600] = "";
    work();
    for (int i = 0; i < steps; i++) {
        run_command(&run, PB_COMMAND_TUBE_TARGET, 0.7 - 0.3 * i);
        for (int k = 0; k < 250; k++) {
            run_tick(&run);
        }
    }
    run_command(&run, PB_COMMAND_FINISH, 1.0);
    for (int i = 0; i < 2000 && !run.watched.has_score; i++) {
        run_tick(&run);
    }
    ck_assert(run.watched.has_score);
    ck_assert_msg(records_run_end(&records, &run, why, sizeof why), "%s", why);
}

/* A run that the window keeps says how long its steps were, and its parts have the words that
 * marks use. */
START_TEST(a_kept_run_knows_its_steps_and_takes_a_mark_on_a_part)
{
    char why[600] = "";
    PbError err;
    StoreRun kept;
    records_open(&records, db, "");
    ck_assert(records_add(&records, "Learner 1", why, sizeof why));
    work_to_the_end(3);
    ck_assert_int_eq(store_run_get(records.store, 1, &kept, &err), PB_OK);
    ck_assert_double_gt(kept.summary.step_mean_m, 0.05);
    ck_assert_str_eq(kept.summary.parts[0].key, "on_target");
    StoreMark mark = {.part = "on_target", .points = 3.0, .marked = "2026-03-04T09:30:00Z"};
    ck_assert_int_eq(store_mark_add(records.store, 1, &mark, &err), PB_OK);
    records_close(&records, &run);
    run_free(&run);
}
END_TEST

/* The result knows what its learner did before in this exercise, with the mean out of the run file;
 * nobody's first run, and none that is not kept, has anything before it. */
START_TEST(a_kept_run_knows_the_one_before_it)
{
    char why[600] = "";
    records_open(&records, db, "");
    ck_assert(records_add(&records, "Learner 1", why, sizeof why));
    work_to_the_end(3);
    ck_assert_int_eq(records.last_time.count, 0);
    double mean = run.watched.result.mean_kg_m3, time_s = run.view->time_s;
    work_to_the_end(1);
    const IoLastTime *t = &records.last_time;
    ck_assert_int_eq(t->count, 1);
    ck_assert(t->is_like);
    ck_assert_double_eq(t->last.mean_kg_m3, mean);
    ck_assert_double_eq_tol(t->last.duration_s, time_s, 1e-9);
    ck_assert_double_eq(t->now.mean_kg_m3, run.watched.result.mean_kg_m3);
    ck_assert_double_ne(t->now.mean_kg_m3, mean);
    ck_assert_int_eq(t->like_count, 1);
    work(); /* the next one has begun */
    ck_assert_int_eq(records.last_time.count, 0);
    (void)records_run_end(&records, &run, why, sizeof why);
    ck_assert(records_add(&records, "Learner 2", why, sizeof why));
    work_to_the_end(1);
    ck_assert_int_eq(records.last_time.count, 0);
    records_close(&records, &run);
    run_free(&run);
}
END_TEST

/* A program of another machine that shares the home: its number means nothing here, its lock does.
 */
START_TEST(a_run_that_another_machine_is_writing_is_left_to_it)
{
    enum { NO_PROCESS = 2147483000 };
    int told[2];
    char byte = 0;
    ck_assert_int_eq(pipe(told), 0);
    pid_t other = fork();
    ck_assert_int_ge(other, 0);
    if (other == 0) {
        char why[600] = "", path[800];
        records_open(&records, db, "");
        int is_there = records_add(&records, "Learner 1", why, sizeof why);
        work();
        snprintf(path, sizeof path, "%.*s-%d.run",
                 (int)(strrchr(records.run_path, '-') - records.run_path), records.run_path,
                 NO_PROCESS);
        is_there = is_there && rename(records.run_path, path) == 0;
        wait_for_disk(path);
        (void)!write(told[1], is_there ? "y" : "n", 1);
        for (;;) {
            pause();
        }
    }
    ck_assert_int_eq(read(told[0], &byte, 1), 1);
    ck_assert_int_eq(byte, 'y');
    records_open(&records, db, "");
    int while_written = kept_runs();
    records_close(&records, &run);
    kill(other, SIGKILL);
    ck_assert_int_eq(waitpid(other, NULL, 0), other);
    ck_assert_int_eq(while_written, 0);
    records_open(&records, db, "");
    ck_assert_int_eq(kept_runs(), 1);
    records_close(&records, &run);
    close(told[0]);
    close(told[1]);
}
END_TEST

/* Somebody looked in and pressed nothing, and the program was killed: nothing is kept of that. */
START_TEST(a_run_without_a_command_leaves_nothing_behind)
{
    char command[500];
    pid_t other = fork();
    ck_assert_int_ge(other, 0);
    if (other == 0) {
        char why[600] = "";
        PbSessionConfig config = pb_session_default();
        PbError err;
        records_open(&records, db, "");
        if (!records_add(&records, "Learner 1", why, sizeof why) ||
            run_start(&run, &config, &err) != PB_OK ||
            !records_run_begin(&records, &run, why, sizeof why)) {
            _exit(1);
        }
        run_command(&run, PB_COMMAND_MARK, PB_MARK_GRADED); /* the program's own */
        for (int i = 0; i < 100; i++) {
            run_tick(&run);
        }
        wait_for_disk(records.run_path);
        _exit(0);
    }
    int code;
    ck_assert_int_eq(waitpid(other, &code, 0), other);
    ck_assert_int_eq(code, 0);
    snprintf(command, sizeof command, "ls '%s'/t.db-runs/*.run >/dev/null", folder);
    ck_assert_int_eq(system(command), 0);
    records_open(&records, db, "");
    ck_assert_int_eq(kept_runs(), 0);
    snprintf(command, sizeof command, "[ -z \"$(ls '%s'/t.db-runs)\" ]", folder);
    ck_assert_int_eq(system(command), 0);
    records_close(&records, &run);
}
END_TEST

static PbSessionConfig config_of(const PbRunFile *file)
{
    PbSessionConfig config = pb_session_default();
    config.exercise = file->exercise;
    config.constants = file->constants;
    config.seed = file->seed;
    config.cells_across = file->cells_across;
    return config;
}

START_TEST(a_run_that_was_left_goes_on_and_is_one_run_that_replays)
{
    static Exercises list;
    char why[600] = "";
    PbError err = {0};
    StoreRun kept;
    PbRunFile file;
    PbRunSummary played;
    void *bytes;
    size_t size;
    int row = 0;
    records_open(&records, db, "");
    ck_assert(records_add(&records, "Learner 1", why, sizeof why));
    work();
    ck_assert_msg(records_run_end(&records, &run, why, sizeof why), "%s", why);
    run_free(&run);
    ck_assert_int_eq(store_run_get(records.store, 1, &kept, &err), PB_OK);
    ck_assert_int_eq(kept.summary.state, PB_RUN_LEFT);
    ck_assert_double_eq(kept.summary.duration_s, 10.0);
    ck_assert_int_le(strcmp(kept.summary.when, kept.added), 0);
    exercises_load(&list, PB_TEST_SOURCE_DIR "/assets/exercises");
    records_grades(&records, &list);
    while (row + 1 < list.count && strcmp(list.rows[row].exercise.id, "plain-2x4") != 0) {
        row++;
    }
    ck_assert_int_eq(list.rows[row].left_id, 1);
    ck_assert_double_eq(list.rows[row].left_s, 10.0);
    ck_assert_double_lt(list.rows[row].last, 0.0);
    ck_assert_int_eq(store_run_bytes(records.store, 1, &bytes, &size, &err), PB_OK);
    ck_assert_int_eq(io_run_decode("left", bytes, size, &file, &err), PB_OK);
    free(bytes);
    PbSessionConfig config = config_of(&file);
    ck_assert_int_eq(run_start(&run, &config, &err), PB_OK);
    ck_assert_msg(records_run_go_on(&records, &run, 1, &file, why, sizeof why), "%s", why);
    ck_assert_int_eq(run.view->tick, 250);
    /* taken up and put down again: what the store has stays */
    ck_assert(records_run_end(&records, &run, why, sizeof why));
    run_free(&run);
    ck_assert_int_eq(run_start(&run, &config, &err), PB_OK);
    ck_assert(records_run_go_on(&records, &run, 1, &file, why, sizeof why));
    io_run_free(&file);
    for (int i = 0; i < 50; i++) {
        run_tick(&run);
    }
    run_command(&run, PB_COMMAND_FINISH, 1.0);
    for (int i = 0; i < 2000 && !run.watched.has_score; i++) {
        run_tick(&run);
    }
    ck_assert_msg(records_run_end(&records, &run, why, sizeof why), "%s", why);
    ck_assert_int_eq(kept_runs(), 1);
    ck_assert_int_eq(store_run_get(records.store, 1, &kept, &err), PB_OK);
    ck_assert_int_eq(kept.summary.state, PB_RUN_FINISHED);
    ck_assert_int_eq(kept.summary.breaks, 1);
    ck_assert_int_eq(store_run_bytes(records.store, 1, &bytes, &size, &err), PB_OK);
    IoJudge how = {.origin = PB_ORIGIN_HERE, .now = kept.added};
    PbStatus status = io_run_judge(&how, "run 1", bytes, size, &played, NULL, &err);
    ck_assert_msg(status == PB_OK, "%s", err.message);
    ck_assert(played.total == kept.summary.total && played.is_pass == kept.summary.is_pass);
    ck_assert_int_eq(played.breaks, 1);
    free(bytes);
    records_grades(&records, &list);
    ck_assert_int_eq(list.rows[row].left_id, 0);
    ck_assert_double_ge(list.rows[row].last, 0.0);
    exercises_free(&list);
    records_close(&records, &run);
    run_free(&run);
}
END_TEST

/* Nobody is chosen: the run is not kept, and Debrief can show it all the same. */
START_TEST(a_run_of_nobody_stays_in_memory_until_the_next_one)
{
    char why[600] = "";
    PbRunFile file;
    PbError err;
    records_open(&records, db, "");
    work();
    ck_assert(records_run_end(&records, &run, why, sizeof why));
    ck_assert_int_eq(kept_runs(), 0);
    ck_assert_ptr_nonnull(records.last);
    ck_assert_int_eq(io_run_decode("last", records.last, records.last_size, &file, &err), PB_OK);
    ck_assert_int_eq(file.last_tick, 250);
    io_run_free(&file);
    ck_assert_int_eq(records.kept_id, 0);
    run_free(&run);
    ck_assert(records_add(&records, "Learner 1", why, sizeof why));
    work();
    ck_assert_ptr_null(records.last);
    ck_assert(records_run_end(&records, &run, why, sizeof why));
    ck_assert_int_eq(records.kept_id, 1);
    records_close(&records, &run);
    run_free(&run);
}
END_TEST

enum { HERE = PB_ORIGIN_HERE, IN = PB_ORIGIN_IMPORTED, DONE = PB_RUN_FINISHED, LEFT = PB_RUN_LEFT };

/* Oldest first. */
static const struct {
    int state, origin, is_scripted;
    double total;
} history[] = {{LEFT, HERE, 0, 0.0},  {DONE, IN, 0, 81.5},    {DONE, HERE, 0, 66.25},
               {DONE, HERE, 1, 99.0}, {DONE, HERE, 0, 72.75}, {LEFT, IN, 0, 0.0},
               {LEFT, HERE, 0, 0.0},  {LEFT, HERE, 0, 0.0}};

/* Row 4 of it is the last finished run by hand, row 1 the best, row 7 the one to go on with. */
START_TEST(the_list_shows_the_last_grade_goes_by_the_best_and_offers_the_newest_left_run)
{
    static Exercises list;
    char why[600] = "", bytes[8];
    PbError err = {0};
    int64_t id;
    records_open(&records, db, "");
    ck_assert(records_add(&records, "Learner 1", why, sizeof why));
    exercises_load(&list, PB_TEST_SOURCE_DIR "/assets/exercises");
    for (int i = 0; i < (int)(sizeof history / sizeof history[0]); i++) {
        PbRunSummary m = {.seed = 1,
                          .physics_version = PB_PHYSICS_VERSION,
                          .duration_s = 30.0 + i,
                          .total = history[i].total,
                          .is_pass = history[i].total >= 70.0,
                          .state = (PbRunState)history[i].state,
                          .origin = (PbRunOrigin)history[i].origin,
                          .is_scripted = history[i].is_scripted,
                          .exercise_hash = list.rows[0].hash};
        snprintf(m.exercise_id, sizeof m.exercise_id, "%s", list.rows[0].exercise.id);
        snprintf(m.exercise_title, sizeof m.exercise_title, "%s", list.rows[0].exercise.title);
        snprintf(m.when, sizeof m.when, "2026-03-04T09:%02d:00Z", 30 + i);
        snprintf(m.rubric, sizeof m.rubric, "%s", history[i].state == LEFT ? "none" : "default");
        snprintf(bytes, sizeof bytes, "run %d", i);
        PbStatus status = store_run_add(records.store, records.learner_id, bytes, sizeof bytes, &m,
                                        "2026-03-04T11:00:00Z", &id, &err);
        ck_assert_msg(status == PB_OK, "%s", err.message);
    }
    records_grades(&records, &list);
    ck_assert_double_eq(list.rows[0].last, 72.75);
    ck_assert_int_eq(list.rows[0].is_passed, 1);
    ck_assert_int_eq(list.rows[1].is_passed, 0);
    ck_assert_int_eq(list.rows[0].runs, 3);
    ck_assert_int_eq(list.rows[0].left_id, 8);
    ck_assert_double_eq(list.rows[0].left_s, 37.0);
    ck_assert_double_lt(list.rows[1].last, 0.0);
    ck_assert_int_eq(list.rows[1].left_id, 0);
    exercises_free(&list);
    records_close(&records, &run);
}
END_TEST

/* A file that cannot be read now may be the very exercise that a run is of. */
START_TEST(a_list_that_is_not_whole_calls_nothing_somebodys_own)
{
    static Exercises list;
    char command[2000];
    const char *assets =
        PB_TEST_SOURCE_DIR "/assets"; /* machines and materials of the copied bay */
    io_places_set(&assets, 1);
    exercises_load(&list, PB_TEST_SOURCE_DIR "/assets/exercises");
    ck_assert_int_gt(list.count, 10);
    ck_assert_int_eq(list.is_short, 0);
    uint64_t first = list.rows[0].hash, second = list.rows[1].hash;
    ck_assert_int_eq(exercises_is_own(&list, second), 0);
    ck_assert_int_eq(exercises_is_own(&list, second + 1), 1);
    ck_assert_int_eq(exercises_is_own(&list, 0), 0);
    snprintf(command, sizeof command,
             "mkdir '%s/e' && cp '%s' '%s/e' && echo nothing >'%s/e/no.json'", folder,
             list.rows[0].path, folder, folder);
    ck_assert_int_eq(system(command), 0);
    exercises_free(&list);
    snprintf(command, sizeof command, "%s/e", folder);
    exercises_load(&list, command); /* what is no exercise takes nothing from the list */
    ck_assert_int_eq(list.count, 1);
    ck_assert_int_eq(exercises_is_own(&list, first), 0);
    ck_assert_int_eq(exercises_is_own(&list, second), 1);
    exercises_free(&list);
    snprintf(command, sizeof command, "ln -s nowhere '%s/e/gone.json'", folder);
    ck_assert_int_eq(system(command), 0);
    snprintf(command, sizeof command, "%s/e", folder);
    exercises_load(&list, command);
    ck_assert_int_eq(list.count, 1);
    ck_assert_int_eq(list.is_short, 1);
    ck_assert_int_eq(exercises_is_own(&list, second), 0);
    exercises_free(&list);
    snprintf(command, sizeof command, "%s/none", folder);
    exercises_load(&list, command);
    ck_assert_int_eq(list.count, 0);
    ck_assert_int_eq(exercises_is_own(&list, second), 0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("records");
    TCase *normal = tcase_create("normal");
    tcase_add_checked_fixture(normal, start, stop);
    tcase_set_timeout(normal, 60.0);
    tcase_add_test(normal, a_full_disk_holds_the_run_until_there_is_room);
    tcase_add_test(normal, no_database_at_all_and_the_run_goes_where_one_says);
    tcase_add_test(normal, the_end_of_the_program_puts_a_held_run_into_the_home_folder);
    tcase_add_test(normal, a_kept_run_knows_its_steps_and_takes_a_mark_on_a_part);
    tcase_add_test(normal, a_kept_run_knows_the_one_before_it);
    tcase_add_test(normal, a_run_that_another_machine_is_writing_is_left_to_it);
    tcase_add_test(normal, a_run_without_a_command_leaves_nothing_behind);
    tcase_add_test(normal, a_run_that_was_left_goes_on_and_is_one_run_that_replays);
    tcase_add_test(normal, a_run_of_nobody_stays_in_memory_until_the_next_one);
    tcase_add_test(normal,
                   the_list_shows_the_last_grade_goes_by_the_best_and_offers_the_newest_left_run);
    tcase_add_test(normal, a_list_that_is_not_whole_calls_nothing_somebodys_own);
    suite_add_tcase(suite, normal);
    return run_suite(suite);
}
