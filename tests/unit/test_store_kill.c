/*
 * kill -9 at random moments while runs are being kept. A child adds runs as fast as it can and
 * writes the number of each one to a pipe after the store has answered PB_OK; the parent kills it,
 * opens the store and checks every byte. What was answered must be there; nothing may be damaged.
 * The number of kills comes from PB_TEST_KILLS (default 40; 200 in the acceptance run).
 */
#include "store_case.h"

#include <signal.h>
#include <time.h>

/* Endless: the parent ends it. Marks and deletions in between, so that those are hit as well. */
static void work(int out, int from)
{
    static unsigned char bytes[60000];
    Store *store;
    PbError err = {0};
    int64_t learner, id;
    char name[40];
    if (store_open(case_path, &store, &err) != PB_OK) {
        _exit(3);
    }
    snprintf(name, sizeof name, "Learner %d", from);
    if (store_learner_add(store, name, WHEN, &learner, &err) != PB_OK) {
        _exit(4);
    }
    for (int i = from;; i++) {
        size_t size = case_bytes(i, bytes, sizeof bytes);
        PbRunSummary m = case_summary(i);
        StoreMark mark = {.part = "hands", .points = 1.0, .marked = WHEN};
        if (store_run_add(store, learner, bytes, size, &m, WHEN, &id, &err) != PB_OK ||
            write(out, &id, sizeof id) != sizeof id ||
            store_mark_add(store, id, &mark, &err) != PB_OK) {
            _exit(5);
        }
        if (i % 5 == 4 &&
            (store_run_add(store, learner, "gone", (size_t)4, &m, WHEN, &id, &err) != PB_OK ||
             store_run_delete(store, id, &err) != PB_OK)) {
            _exit(6);
        }
    }
}

static void check_all(const int64_t *kept, int count)
{
    PbError err = {0};
    Store *store = case_open();
    PbStatus status = store_check(store, &err);
    ck_assert_msg(status == PB_OK, "%s", err.message);
    StoreRun run;
    for (int i = 0; i < count; i++) {
        ck_assert_msg(store_run_get(store, kept[i], &run, &err) == PB_OK,
                      "run %lld was answered and is lost", (long long)kept[i]);
        ck_assert_int_eq(run.summary.part_count, 2);
    }
    store_close(store);
}

START_TEST(loses_nothing_that_was_answered)
{
    enum { MOST = 20000 };
    static int64_t kept[MOST];
    const char *wanted = getenv("PB_TEST_KILLS");
    int kills = wanted != NULL ? atoi(wanted) : 40, count = 0, early = 0;
    unsigned random = 20260304u;
    for (int k = 0; k < kills; k++) {
        int ends[2];
        ck_assert_int_eq(pipe(ends), 0);
        pid_t child = fork();
        ck_assert_int_ge(child, 0);
        if (child == 0) {
            close(ends[0]);
            work(ends[1], k * 1000);
        }
        close(ends[1]);
        random = random * 1664525u + 1013904223u;
        /* 0 to 250 ms: some die while the file is being made, most in the middle of a change */
        struct timespec pause = {0, (long)(random >> 4) % 250000000};
        nanosleep(&pause, NULL);
        kill(child, SIGKILL);
        int status, before = count;
        ck_assert_int_eq(waitpid(child, &status, 0), child);
        ck_assert_msg(WIFSIGNALED(status), "the writer ended by itself: %d", WEXITSTATUS(status));
        while (count < MOST && read(ends[0], &kept[count], sizeof kept[0]) == sizeof kept[0]) {
            count++;
        }
        close(ends[0]);
        early += count == before;
        check_all(kept, count);
    }
    printf("%d kills, %d of them before the first run; %d runs answered, all there\n", kills, early,
           count);
    ck_assert_int_gt(count, kills);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("store_kill");
    TCase *tc = tcase_create("normal");
    tcase_set_timeout(tc, 280);
    tcase_add_checked_fixture(tc, case_start, case_stop);
    tcase_add_test(tc, loses_nothing_that_was_answered);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
