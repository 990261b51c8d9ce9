/* Damaged files, full disks, read-only folders, and two processes at once: a clear sentence, and
 * what is on the disk is left as it is. */
#include "core/hash.h"
#include "store_case.h"
#include "store_private.h"

#include <signal.h>
#include <sys/resource.h>

static PbError err;

static void put_file(const char *bytes, size_t size)
{
    FILE *f = fopen(case_path, "wb");
    ck_assert_ptr_nonnull(f);
    ck_assert_uint_eq(fwrite(bytes, 1, size, f), size);
    fclose(f);
}

START_TEST(leaves_what_is_no_database_as_it_is)
{
    static const char *const texts[] = {"dear diary", "SQLite format 3", "SQLite format 2\0xxxxxxx",
                                        "{\"format\": \"pullback exercise 1\"}\n"};
    Store *store;
    size_t size = strlen(texts[_i]), after;
    put_file(texts[_i], size);
    ck_assert_int_eq(store_open(case_path, &store, &err), PB_ERR_FORMAT);
    ck_assert_str_eq(err.message, "is no database; it was left as it is");
    unsigned char *bytes = case_read(case_path, &after);
    ck_assert_uint_eq(after, size);
    ck_assert_mem_eq(bytes, texts[_i], size);
    free(bytes);
}
END_TEST

/* Everything a reader does, on a file that may be broken anywhere. */
static PbStatus read_all(void)
{
    Store *store;
    PB_TRY(store_open(case_path, &store, &err));
    StoreRun *list = NULL;
    StoreFilter filter = {.with_parts = 1};
    int count = 0;
    PbStatus status = store_run_list(store, &filter, &list, &count, &err);
    for (int i = 0; status == PB_OK && i < count; i++) {
        void *bytes = NULL;
        size_t size;
        status = store_run_bytes(store, list[i].id, &bytes, &size, &err);
        free(bytes);
    }
    free(list);
    if (status == PB_OK) {
        status = store_check(store, &err);
    }
    store_close(store);
    return status;
}

START_TEST(says_that_a_damaged_file_is_damaged_and_leaves_it)
{
    enum { ROUNDS = 300 };
    Store *store = case_open();
    int64_t ana = case_learner(store, "Learner1");
    for (int i = 0; i < 12; i++) {
        case_run(store, ana, i);
    }
    store_close(store);
    size_t size, after;
    unsigned char *good = case_read(case_path, &size), *bad = malloc(size);
    unsigned random = 7u;
    int found = 0;
    ck_assert_ptr_nonnull(bad);
    for (int r = 0; r < ROUNDS; r++) {
        memcpy(bad, good, size);
        random = random * 1664525u + 1013904223u;
        size_t at = (random >> 4) % size, run = 1 + (random >> 3) % 400, cut = size;
        for (size_t k = at; k < at + run && k < size; k++) {
            bad[k] = (unsigned char)(bad[k] ^ (0x5a + k));
        }
        if (r % 10 == 9) {
            cut = at;
        }
        put_file((const char *)bad, cut);
        PbStatus status = read_all();
        if (cut != 0) { /* an empty file is a new store */
            ck_assert_msg(status == PB_OK || err.message[0] != '\0', "no sentence");
            found += status != PB_OK;
            unsigned char *now = case_read(case_path, &after);
            ck_assert_msg(status == PB_OK || (after == cut && memcmp(now, bad, cut) == 0),
                          "round %d: a damaged file was changed (%s)", r, err.message);
            free(now);
        }
    }
    /* half-empty pages of small tables are a third of so small a file; their bytes may be anything
     */
    ck_assert_int_ge(found, ROUNDS / 2);
    free(good);
    free(bad);
}
END_TEST

START_TEST(notices_a_changed_run_file)
{
    Store *store = case_open();
    int64_t id = case_run(store, case_learner(store, "Learner1"), 1);
    void *bytes;
    size_t size;
    ck_assert_int_eq(store_run_sql(store, &err, "x",
                                   "UPDATE run_files SET content = zeroblob(length(content))", ""),
                     PB_OK);
    ck_assert_int_eq(store_run_bytes(store, id, &bytes, &size, &err), PB_ERR_FORMAT);
    ck_assert_ptr_nonnull(strstr(err.message, "not the one that was put in"));
    ck_assert_int_eq(store_check(store, &err), PB_ERR_FORMAT);
    store_close(store);
}
END_TEST

START_TEST(says_when_the_disk_is_full_and_keeps_what_was_there)
{
    static unsigned char bytes[200000];
    Store *store = case_open();
    int64_t ana = case_learner(store, "Learner1"), kept = case_run(store, ana, 1), id = -1, pages;
    char sql[80];
    PbRunSummary m = case_summary(2);
    ck_assert_int_eq(store_number(store, &pages, &err, "x", "PRAGMA page_count", ""), PB_OK);
    snprintf(sql, sizeof sql, "PRAGMA max_page_count = %lld", (long long)pages + 4);
    ck_assert_int_eq(store_run_sql(store, &err, "x", sql, ""), PB_OK);
    ck_assert_int_eq(store_run_add(store, ana, bytes, sizeof bytes, &m, WHEN, &id, &err),
                     PB_ERR_IO);
    ck_assert_str_eq(err.message, "cannot keep the run: the disk is full; nothing was changed");
    ck_assert_int_eq(id, -1);
    ck_assert_int_eq(store_run_sql(store, &err, "x", "PRAGMA max_page_count = 100000", ""), PB_OK);
    ck_assert_int_eq(store_check(store, &err), PB_OK);
    ck_assert_int_eq(store_run_add(store, ana, bytes, sizeof bytes, &m, WHEN, &id, &err), PB_OK);
    ck_assert_int_gt(id, kept);
    store_close(store);
}
END_TEST

/* SQLite may undo a whole transaction by itself; what is asked for after that must not stand alone,
 * for the end of the batch says that all of it was undone. */
START_TEST(keeps_nothing_of_a_batch_that_was_undone)
{
    Store *store = case_open();
    StoreLearner l;
    int64_t id;
    ck_assert_int_eq(store_batch_begin(store, &err), PB_OK);
    case_learner(store, "Learner1");
    ck_assert_int_eq(sqlite3_exec(store->db, "ROLLBACK", NULL, NULL, NULL), SQLITE_OK);
    ck_assert_int_eq(store_learner_add(store, "Learner2", WHEN, &id, &err), PB_ERR_IO);
    ck_assert_str_eq(err.message, "cannot add a learner: the batch it belongs to was undone");
    ck_assert_int_eq(store_batch_end(store, 1, &err), PB_ERR_IO);
    ck_assert_int_eq(store_learner_find(store, "Learner1", &l, &err), PB_ERR_NO_RESULT);
    ck_assert_int_eq(store_learner_find(store, "Learner2", &l, &err), PB_ERR_NO_RESULT);
    case_learner(store, "Learner2"); /* and it can be worked with */
    store_close(store);
}
END_TEST

/* The file system itself says no: files may not grow past a limit. */
START_TEST(says_why_the_file_cannot_grow)
{
    static unsigned char bytes[400000];
    Store *store = case_open();
    int64_t ana = case_learner(store, "Learner1"), id;
    PbRunSummary m = case_summary(2);
    struct rlimit limit = {300000, 300000};
    case_run(store, ana, 1);
    signal(SIGXFSZ, SIG_IGN);
    ck_assert_int_eq(setrlimit(RLIMIT_FSIZE, &limit), 0);
    ck_assert_int_eq(store_run_add(store, ana, bytes, sizeof bytes, &m, WHEN, &id, &err),
                     PB_ERR_IO);
    ck_assert_msg(strstr(err.message, "cannot keep the run: ") != NULL &&
                      strstr(err.message, "nothing was changed") != NULL,
                  "%s", err.message);
    ck_assert_int_eq(store_check(store, &err), PB_OK);
    store_close(store);
}
END_TEST

/* As an ordinary user: root writes everywhere. */
static void be_nobody(void)
{
    if (getuid() == 0) {
        ck_assert_int_eq(chown(case_folder, 65534, 65534), 0);
        chown(case_path, 65534, 65534);
        ck_assert_int_eq(setgid(65534), 0);
        ck_assert_int_eq(setuid(65534), 0);
    }
}

START_TEST(says_that_a_folder_or_a_file_is_read_only)
{
    Store *store;
    store_close(case_open());
    pid_t child = fork();
    if (child == 0) {
        int bad = 0;
        be_nobody();
        chmod(case_path, 0400);
        bad |= store_open(case_path, &store, &err) != PB_ERR_IO ||
               strstr(err.message, "cannot open for writing: Permission denied") == NULL;
        chmod(case_path, 0600);
        chmod(case_folder, 0500);
        bad |= store_open(case_path, &store, &err) != PB_ERR_IO;
        fprintf(stderr, "%s: %s\n", err.file, err.message);
        snprintf(case_path, sizeof case_path, "%s/new.db", case_folder);
        bad |= store_open(case_path, &store, &err) != PB_ERR_IO;
        chmod(case_folder, 0700);
        _exit(bad);
    }
    int status;
    ck_assert_int_eq(waitpid(child, &status, 0), child);
    ck_assert(WIFEXITED(status));
    ck_assert_int_eq(WEXITSTATUS(status), 0);
    ck_assert_int_eq(store_open("/no/such/folder/x.db", &store, &err), PB_ERR_IO);
    ck_assert_int_eq(store_open(case_folder, &store, &err), PB_ERR_IO);
    ck_assert_int_eq(store_open("", &store, &err), PB_ERR_IO);
}
END_TEST

START_TEST(serves_two_processes_at_once)
{
    enum { EACH = 60 };
    pid_t children[2];
    for (int c = 0; c < 2; c++) {
        children[c] = fork();
        if (children[c] == 0) {
            /* both may be the one that makes the file */
            Store *store = case_open();
            int64_t id = case_learner(store, c == 0 ? "Learner1" : "Learner2");
            for (int i = 0; i < EACH; i++) {
                case_run(store, id, c * EACH + i);
            }
            store_close(store);
            _exit(0);
        }
    }
    Store *store;
    int seen = 0;
    StoreRun *list;
    StoreFilter filter = {.with_parts = 1};
    /* and a third one reads meanwhile: it never sees a run without its grade */
    for (int i = 0; i < 20; i++) {
        if (store_open(case_path, &store, &err) == PB_OK) {
            int count;
            ck_assert_int_eq(store_run_list(store, &filter, &list, &count, &err), PB_OK);
            for (int k = 0; k < count; k++) {
                ck_assert_int_eq(list[k].summary.part_count, 2);
            }
            ck_assert_int_ge(count, seen);
            seen = count;
            free(list);
            store_close(store);
        }
    }
    for (int c = 0; c < 2; c++) {
        int status;
        ck_assert_int_eq(waitpid(children[c], &status, 0), children[c]);
        ck_assert(WIFEXITED(status) && WEXITSTATUS(status) == 0);
    }
    store = case_open();
    int count;
    ck_assert_int_eq(store_run_list(store, &filter, &list, &count, &err), PB_OK);
    ck_assert_int_eq(count, 2 * EACH);
    free(list);
    ck_assert_int_eq(store_check(store, &err), PB_OK);
    store_close(store);
}
END_TEST

/* The other program: takes the store for writing, says so, and lets go when it is told to. */
static void hold_it(int said, int wait)
{
    char byte = 0;
    Store *store = case_open();
    if (store_batch_begin(store, &err) != PB_OK || write(said, &byte, 1) != 1 ||
        read(wait, &byte, 1) != 1 || store_batch_end(store, 1, &err) != PB_OK) {
        _exit(1);
    }
    store_close(store);
    _exit(0);
}

START_TEST(says_that_another_program_holds_the_file)
{
    int said[2], wait[2], status;
    char byte = 0;
    int64_t id;
    ck_assert_int_eq(pipe(said), 0);
    ck_assert_int_eq(pipe(wait), 0);
    pid_t child = fork();
    if (child == 0) {
        hold_it(said[1], wait[0]);
    }
    ck_assert_int_eq(read(said[0], &byte, 1), 1);
    Store *store = case_open();
    sqlite3_busy_timeout(store->db, 50); /* the real wait is 5 s */
    ck_assert_int_eq(store_learner_add(store, "Learner2", WHEN, &id, &err), PB_ERR_IO);
    ck_assert_ptr_nonnull(strstr(err.message, "another program has held it"));
    ck_assert_int_eq(write(wait[1], &byte, 1), 1);
    ck_assert_int_eq(waitpid(child, &status, 0), child);
    ck_assert(WIFEXITED(status) && WEXITSTATUS(status) == 0);
    ck_assert_int_eq(store_learner_add(store, "Learner2", WHEN, &id, &err), PB_OK);
    store_close(store);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("store_damage");
    TCase *tc = tcase_create("normal");
    tcase_set_timeout(tc, 120);
    tcase_add_checked_fixture(tc, case_start, case_stop);
    tcase_add_loop_test(tc, leaves_what_is_no_database_as_it_is, 0, 4);
    tcase_add_test(tc, says_that_a_damaged_file_is_damaged_and_leaves_it);
    tcase_add_test(tc, notices_a_changed_run_file);
    tcase_add_test(tc, says_when_the_disk_is_full_and_keeps_what_was_there);
    tcase_add_test(tc, keeps_nothing_of_a_batch_that_was_undone);
    tcase_add_test(tc, says_why_the_file_cannot_grow);
    tcase_add_test(tc, says_that_a_folder_or_a_file_is_read_only);
    tcase_add_test(tc, serves_two_processes_at_once);
    tcase_add_test(tc, says_that_another_program_holds_the_file);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
