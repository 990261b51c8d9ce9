/*
 * Somebody who was deleted leaves nothing behind: not in the file or its log while another program
 * reads, not in reports and recordings beside it.
 */
#include "store_case.h"
#include "store_private.h"

#include <signal.h>
#include <sqlite3.h>

static const char secret[] = "words-that-must-go-with-the-person";
static PbError err;

/* How often the words stand in all files of the store's folder. */
static int traces(void)
{
    DIR *dir = opendir(case_folder);
    struct dirent *entry;
    int found = 0;
    ck_assert_ptr_nonnull(dir);
    while ((entry = readdir(dir)) != NULL) {
        char path[700];
        struct stat st;
        size_t size;
        snprintf(path, sizeof path, "%s/%s", case_folder, entry->d_name);
        if (stat(path, &st) != 0 || !S_ISREG(st.st_mode)) {
            continue;
        }
        unsigned char *bytes = case_read(path, &size);
        for (size_t i = 0; i + sizeof secret <= size + 1; i++) {
            found += memcmp(bytes + i, secret, sizeof secret - 1) == 0;
        }
        free(bytes);
    }
    closedir(dir);
    return found;
}

/* Learner1, with the words in name, run file and mark; returns her run. */
static int64_t fill(Store *store, int64_t *learner)
{
    StoreMark mark = {.part = "hands", .points = 1.0, .marked = WHEN};
    PbRunSummary m = case_summary(1);
    int64_t run;
    case_run(store, case_learner(store, "Learner2"), 3);
    *learner = case_learner(store, secret);
    ck_assert_int_eq(store_run_add(store, *learner, secret, sizeof secret, &m, WHEN, &run, &err),
                     PB_OK);
    memcpy(mark.reason, secret, sizeof secret);
    ck_assert_int_eq(store_mark_add(store, run, &mark, &err), PB_OK);
    return run;
}

/* Another program. The first word makes it read a state and keep it, the second let go; it stays
 * open until the pipe is closed, and ends without a farewell. It must begin before this process
 * opens the store: what SQLite knows of locks must not be inherited. */
static pid_t start_reader(int *tell)
{
    int said[2], told[2];
    char byte = 0;
    ck_assert_int_eq(pipe(said), 0);
    ck_assert_int_eq(pipe(told), 0);
    pid_t child = fork();
    if (child == 0) {
        sqlite3 *db;
        close(told[1]);
        if (read(told[0], &byte, 1) != 1 || sqlite3_open(case_path, &db) != SQLITE_OK ||
            sqlite3_exec(db, "BEGIN; SELECT count(*) FROM learners", NULL, NULL, NULL) !=
                SQLITE_OK ||
            write(said[1], &byte, 1) != 1 || read(told[0], &byte, 1) != 1 ||
            sqlite3_exec(db, "COMMIT", NULL, NULL, NULL) != SQLITE_OK ||
            write(said[1], &byte, 1) != 1) {
            _exit(1);
        }
        _exit(read(told[0], &byte, 1) == 0 ? 0 : 1);
    }
    close(told[0]);
    tell[0] = told[1];
    tell[1] = said[0];
    return child;
}

static void next(const int *tell)
{
    char byte = 0;
    ck_assert_int_eq(write(tell[0], &byte, 1), 1);
    ck_assert_int_eq(read(tell[1], &byte, 1), 1);
}

START_TEST(leaves_nothing_when_another_program_was_reading)
{
    int64_t learner;
    int tell[2], status;
    pid_t reader = start_reader(tell);
    Store *store = case_open();
    fill(store, &learner);
    store_close(store); /* her words are in the file itself, not in the log alone */
    store = case_open();
    store->wipe_wait_ms = 100; /* this reader does not let go meanwhile */
    next(tell);
    ck_assert_int_eq(store_learner_delete(store, learner, &err), PB_OK);
    ck_assert_int_ne(store_remains(store), 0);
    ck_assert_int_gt(traces(), 0); /* or this would prove nothing */
    if (_i == 0) {                 /* it lets go, and is still there when the store is opened */
        store_close(store);
        next(tell);
    } else if (_i == 1) { /* the store is opened while it still reads, and once more */
        store_close(store);
        store = case_open();
        ck_assert_int_ne(store_remains(store), 0);
        store_close(store);
        kill(reader, SIGKILL);
    } else { /* it is killed, and this one goes on */
        kill(reader, SIGKILL);
        ck_assert_int_eq(waitpid(reader, &status, 0), reader);
        store_close(store);
    }
    store = case_open();
    ck_assert_int_eq(store_remains(store), 0);
    ck_assert_int_eq(traces(), 0);
    store_close(store);
    close(tell[0]);
    if (_i != 2) {
        ck_assert_int_eq(waitpid(reader, &status, 0), reader);
    }
    ck_assert_int_eq(traces(), 0);
    store = case_open(); /* the mark is gone with it */
    char value[8];
    ck_assert_int_eq(store_setting_get(store, "wipe", value, sizeof value, &err), PB_ERR_NO_RESULT);
    ck_assert_int_eq(store_check(store, &err), PB_OK);
    store_close(store);
}
END_TEST

START_TEST(leaves_nothing_at_once_when_nobody_reads)
{
    int64_t learner;
    Store *store = case_open();
    int64_t run = fill(store, &learner);
    if (_i == 0) {
        ck_assert_int_eq(store_learner_delete(store, learner, &err), PB_OK);
    } else if (_i == 1) {
        ck_assert_int_eq(store_batch_begin(store, &err), PB_OK);
        ck_assert_int_eq(store_learner_delete(store, learner, &err), PB_OK);
        ck_assert_int_eq(store_remains(store), 0); /* nobody reads: the batch's end will do it */
        ck_assert_int_eq(store_batch_end(store, 1, &err), PB_OK);
    } else {
        ck_assert_int_eq(store_run_delete(store, run, &err), PB_OK);
        ck_assert_int_eq(store_learner_rename(store, learner, "Learner1", &err), PB_OK);
        ck_assert_int_eq(
            store_item_put(store, STORE_HOUSES, secret, "{\"customer\": 1}", WHEN, &err), PB_OK);
        ck_assert_int_eq(store_item_delete(store, STORE_HOUSES, secret, &err), PB_OK);
    }
    ck_assert_int_eq(store_remains(store), 0);
    ck_assert_int_eq(traces(), 0); /* while the store is open */
    store_close(store);
}
END_TEST

static void put_file(const char *name, int is_wanted)
{
    char path[700];
    snprintf(path, sizeof path, "%s/%s", case_folder, name);
    if (is_wanted) {
        FILE *f = fopen(path, "wb");
        ck_assert_ptr_nonnull(f);
        fclose(f);
    } else {
        unlink(path);
    }
}

static int is_there(const char *name)
{
    char path[700];
    snprintf(path, sizeof path, "%s/%s", case_folder, name);
    return access(path, F_OK) == 0;
}

START_TEST(takes_reports_and_recordings_along)
{
    /* the second and the fifth are hers; those from the seventh on are of other databases here */
    static const char *const names[] = {"t.db-run-1.pdf",
                                        "t.db-run-2.pdf",
                                        "t.db-run-22.pdf",
                                        "notes.pdf",
                                        "t.db-runs/2-20260304T093000Z-0-1.run",
                                        "t.db-runs/22-20260304T093000Z-0-1.run",
                                        "run-2.pdf",
                                        "at.db-run-2.pdf",
                                        "runs/2-20260304T093000Z-0-1.run"};
    enum { NAMES = sizeof names / sizeof names[0] };
    int64_t learner;
    char folder[400], others[400], path[700], byte;
    int said[2], status;
    snprintf(others, sizeof others, "%s/runs", case_folder);
    snprintf(folder, sizeof folder, "%s/t.db-runs", case_folder);
    snprintf(path, sizeof path, "%s/2-20260304T093000Z-0-1.run", folder);
    ck_assert_int_eq(mkdir(folder, 0700), 0);
    ck_assert_int_eq(mkdir(others, 0700), 0);
    Store *store = case_open();
    ck_assert_int_eq(fill(store, &learner), 2);
    ck_assert_int_eq(learner, 2);
    for (int i = 0; i < NAMES; i++) {
        put_file(names[i], 1);
    }
    /* while somebody records her, she stays, and all of hers */
    ck_assert_int_eq(pipe(said), 0);
    pid_t child = fork();
    if (child == 0) {
        struct flock whole = {.l_type = F_WRLCK, .l_whence = SEEK_SET};
        int fd = open(path, O_WRONLY);
        byte = (char)(fcntl(fd, F_SETLK, &whole) == 0);
        _exit(write(said[1], &byte, 1) == 1 ? pause() : 1);
    }
    ck_assert_int_eq(read(said[0], &byte, 1), 1);
    ck_assert_int_eq(byte, 1);
    ck_assert_int_eq(store_learner_delete(store, learner, &err), PB_ERR_STATE);
    ck_assert_str_eq(err.message,
                     "cannot delete it: a run of this learner is being recorded; end it first");
    ck_assert(is_there(names[1]) && is_there(names[4]));
    StoreContents c;
    ck_assert_int_eq(store_learner_contents(store, learner, &c, &err), PB_OK);
    ck_assert_int_eq(c.runs, 1);
    kill(child, SIGKILL);
    ck_assert_int_eq(waitpid(child, &status, 0), child);
    ck_assert_int_eq(store_learner_delete(store, learner, &err), PB_OK);
    for (int i = 0; i < NAMES; i++) {
        ck_assert_msg(is_there(names[i]) == (i != 1 && i != 4), "%s", names[i]);
    }
    ck_assert_int_eq(store_run_delete(store, 1, &err), PB_OK);
    ck_assert(!is_there(names[0]));
    store_close(store);
    put_file(names[5], 0);
    put_file(names[8], 0);
    ck_assert_int_eq(rmdir(others), 0);
    ck_assert_int_eq(rmdir(folder), 0);
}
END_TEST

/* Beside the usual database, names as they always were; beside others, their own. */
START_TEST(databases_of_one_folder_share_no_file)
{
    static const char *const names[][2] = {{"pullback.db", "run-7.pdf"},
                                           {"t.db", "t.db-run-7.pdf"},
                                           {"t", "t-run-7.pdf"},
                                           {"my-pullback.db", "my-pullback.db-run-7.pdf"}};
    char path[700], report[800], folder[800];
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        snprintf(case_path, sizeof case_path, "%s/%s", case_folder, names[i][0]);
        Store *store = case_open();
        snprintf(path, sizeof path, "%s/%s", case_folder, names[i][1]);
        ck_assert_int_eq(store_report_path(store, 7, report, sizeof report, &err), PB_OK);
        ck_assert_str_eq(report, path);
        ck_assert_int_eq(store_beside(store, "runs", folder, sizeof folder, &err), PB_OK);
        ck_assert_int_eq(strncmp(folder, report, strlen(report) - strlen("run-7.pdf")), 0);
        ck_assert_int_eq(store_report_path(store, 7, report, strlen(path), &err), PB_ERR_IO);
        store_close(store);
    }
}
END_TEST

START_TEST(is_closed_to_others_and_left_to_a_group)
{
    struct stat st;
    store_close(case_open());
    ck_assert_int_eq(chmod(case_path, 0666), 0);
    Store *store = case_open();
    case_learner(store, "Learner1");
    char log[400];
    snprintf(log, sizeof log, "%s-wal", case_path);
    ck_assert_int_eq(stat(case_path, &st), 0);
    ck_assert_int_eq(st.st_mode & 0777, 0660);
    ck_assert_int_eq(stat(log, &st), 0);
    ck_assert_int_eq(st.st_mode & 07, 0);
    store_close(store);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("wipe");
    TCase *tc = tcase_create("normal");
    tcase_set_timeout(tc, 120);
    tcase_add_checked_fixture(tc, case_start, case_stop);
    tcase_add_loop_test(tc, leaves_nothing_when_another_program_was_reading, 0, 3);
    tcase_add_loop_test(tc, leaves_nothing_at_once_when_nobody_reads, 0, 3);
    tcase_add_test(tc, takes_reports_and_recordings_along);
    tcase_add_test(tc, databases_of_one_folder_share_no_file);
    tcase_add_test(tc, is_closed_to_others_and_left_to_a_group);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
