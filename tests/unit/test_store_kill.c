/*
 * kill -9 at random moments while runs are being kept. A child adds runs as fast as it can and
 * writes the number of each one to a pipe after the store has answered PB_OK; the parent kills it,
 * opens the store and checks every byte. What was answered must be there; nothing may be damaged.
 * Then the same with two programs at once: such a child, which also opens and closes the file now
 * and then as a reader of some other part of it would, and the command line, which adds learners
 * and reads. One of them is killed, the other goes on. The number of kills comes from PB_TEST_KILLS
 * (default 40; 1000 in the acceptance run).
 */
#include "store_case.h"

#include <signal.h>
#include <time.h>

static unsigned random_state = 20260304u;

static unsigned next_random(void)
{
    random_state = random_state * 1664525u + 1013904223u;
    return random_state >> 4;
}

static void touch_file(void)
{
    FILE *f = fopen(case_path, "rb");
    if (f != NULL) {
        (void)fgetc(f);
        fclose(f);
    }
}

/* Endless: the parent ends it. Marks and deletions in between, so that those are hit as well. */
static void work(int out, int from, size_t most)
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
        size_t size = case_bytes(i, bytes, most);
        PbRunSummary m = case_summary(i);
        StoreMark mark = {.part = "hands", .points = 1.0, .marked = WHEN};
        if (store_run_add(store, learner, bytes, size, &m, WHEN, &id, &err) != PB_OK ||
            write(out, &id, sizeof id) != sizeof id ||
            store_mark_add(store, id, &mark, &err) != PB_OK) {
            _exit(5);
        }
        if (i % 5 == 4 &&
            (store_run_add(store, learner, bytes, size - 1, &m, WHEN, &id, &err) != PB_OK ||
             store_run_delete(store, id, &err) != PB_OK)) {
            _exit(6);
        }
        if (i % 3 == 2) {
            touch_file();
        }
    }
}

static void check_all(const int64_t *kept, int count, int with_files)
{
    PbError err = {0};
    Store *store = case_open();
    PbStatus status = with_files ? store_check(store, &err) : PB_OK;
    ck_assert_msg(status == PB_OK, "%s", err.message);
    StoreRun run;
    for (int i = 0; i < count; i++) {
        ck_assert_msg(store_run_get(store, kept[i], &run, &err) == PB_OK,
                      "run %lld was answered and is lost", (long long)kept[i]);
        ck_assert_int_eq(run.summary.part_count, 2);
    }
    store_close(store);
}

static int wanted_kills(void)
{
    const char *wanted = getenv("PB_TEST_KILLS");
    return wanted != NULL ? atoi(wanted) : 40;
}

/* 0 to 250 ms: some die while the file is being made, most in the middle of a change. */
static void wait_a_while(void)
{
    struct timespec pause = {0, (long)(next_random() % 250000000u)};
    nanosleep(&pause, NULL);
}

START_TEST(loses_nothing_that_was_answered)
{
    enum { MOST = 20000 };
    static int64_t kept[MOST];
    int kills = wanted_kills(), count = 0, early = 0;
    /* on a slow machine none may have been answered yet: then some more */
    for (int k = 0; k < kills || (count == 0 && k < 10 * kills); k++) {
        int ends[2];
        ck_assert_int_eq(pipe(ends), 0);
        pid_t child = fork();
        ck_assert_int_ge(child, 0);
        if (child == 0) {
            close(ends[0]);
            work(ends[1], k * 1000, (size_t)60000);
        }
        close(ends[1]);
        wait_a_while();
        kill(child, SIGKILL);
        int status, before = count;
        ck_assert_int_eq(waitpid(child, &status, 0), child);
        ck_assert_msg(WIFSIGNALED(status), "the writer ended by itself: %d", WEXITSTATUS(status));
        while (count < MOST && read(ends[0], &kept[count], sizeof kept[0]) == sizeof kept[0]) {
            count++;
        }
        close(ends[0]);
        early += count == before;
        check_all(kept, count, count < 1000 || k % 20 == 19 || k >= kills - 1);
    }
    printf("%d kills, %d of them before the first run; %d runs answered, all there\n", kills, early,
           count);
    ck_assert_int_gt(count, 0);
}
END_TEST

/* ---- two programs ---- */

enum { MOST_ANSWERS = 100000 };

/* A program at work, and what it was answered. */
typedef struct Program {
    pid_t process;
    int answers;
    int starts;
    int64_t *kept; /* ids */
    int count;
} Program;

/* Runs the command line; nonzero when it says that all went well. `id`: the first number it says.
 */
static int cli(char *const argv[], int64_t *id)
{
    int ends[2], status = -1;
    char said[400] = "";
    if (pipe(ends) != 0) {
        return 0;
    }
    pid_t child = fork();
    if (child == 0) {
        dup2(ends[1], STDOUT_FILENO);
        close(ends[0]);
        execv(PB_TEST_CLI, argv);
        _exit(127);
    }
    close(ends[1]);
    ssize_t n = read(ends[0], said, sizeof said - 1);
    while (read(ends[0], &status, 1) > 0) {
    }
    close(ends[0]);
    waitpid(child, &status, 0);
    *id = n > 8 ? strtoll(said + 8, NULL, 10) : 0; /* "learner 12: Name" */
    return WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

/* Endless as well: adds learners, and reads in between as a second person would. */
static void command(int out, int from)
{
    char name[40], path[sizeof case_path];
    int64_t id, unused;
    memcpy(path, case_path, sizeof path);
    char *add[] = {(char *)"pullback-cli",
                   (char *)"learners",
                   (char *)"add",
                   name,
                   (char *)"--db",
                   path,
                   NULL};
    char *list[] = {
        (char *)"pullback-cli", (char *)"learners", (char *)"list", (char *)"--db", path, NULL};
    for (int i = from;; i++) {
        snprintf(name, sizeof name, "Hand %d", i);
        if (!cli(add, &id) || write(out, &id, sizeof id) != sizeof id || !cli(list, &unused)) {
            _exit(7);
        }
    }
}

static void begin(Program *p, int is_command)
{
    int ends[2];
    ck_assert_int_eq(pipe(ends), 0);
    p->process = fork();
    ck_assert_int_ge(p->process, 0);
    if (p->process == 0) {
        setpgid(0, 0); /* the command line that it runs is killed with it */
        close(ends[0]);
        if (is_command) {
            command(ends[1], p->starts * 1000);
        }
        work(ends[1], p->starts * 1000, (size_t)4000);
    }
    setpgid(p->process, p->process);
    close(ends[1]);
    fcntl(ends[0], F_SETFL, O_NONBLOCK);
    p->answers = ends[0];
    p->starts++;
}

static void hear(Program *p)
{
    while (p->count < MOST_ANSWERS &&
           read(p->answers, &p->kept[p->count], sizeof p->kept[0]) == sizeof p->kept[0]) {
        p->count++;
    }
}

static void end(Program *p)
{
    int status;
    ck_assert_int_eq(waitpid(p->process, &status, WNOHANG), 0); /* it has not given up */
    kill(-p->process, SIGKILL);
    ck_assert_int_eq(waitpid(p->process, &status, 0), p->process);
    hear(p);
    close(p->answers);
}

static int by_number(const void *a, const void *b)
{
    int64_t x = *(const int64_t *)a, y = *(const int64_t *)b;
    return x < y ? -1 : x > y;
}

static int by_checksum(const void *a, const void *b)
{
    uint64_t x = ((const StoreRun *)a)->checksum, y = ((const StoreRun *)b)->checksum;
    return x < y ? -1 : x > y;
}

/* Everything that was answered is in `list`, whose items begin with their id; ids are never given
 * twice. Sorts what was answered. */
static void check_answers(Program *p, const void *list, int count, size_t size, const char *what)
{
    int64_t *ids = malloc(sizeof *ids * (size_t)(count + 1));
    ck_assert_ptr_nonnull(ids);
    for (int i = 0; i < count; i++) {
        memcpy(&ids[i], (const char *)list + (size_t)i * size, sizeof ids[0]);
    }
    qsort(ids, (size_t)count, sizeof ids[0], by_number);
    qsort(p->kept, (size_t)p->count, sizeof ids[0], by_number);
    for (int i = 0; i < p->count; i++) {
        ck_assert_msg(i == 0 || p->kept[i] != p->kept[i - 1], "%s %lld was given twice", what,
                      (long long)p->kept[i]);
        ck_assert_msg(bsearch(&p->kept[i], ids, (size_t)count, sizeof ids[0], by_number) != NULL,
                      "%s %lld was answered and is lost", what, (long long)p->kept[i]);
    }
    free(ids);
}

static void check_both(Program *runs, Program *people, int with_files)
{
    PbError err = {0};
    StoreFilter all = {0};
    StoreRun *list;
    StoreLearner *learners;
    int count, present;
    hear(runs);
    hear(people);
    Store *store = case_open();
    ck_assert_int_eq(store_run_list(store, &all, &list, &count, &err), PB_OK);
    ck_assert_int_eq(store_learner_list(store, &learners, &present, &err), PB_OK);
    if (with_files) {
        PbStatus status = store_check(store, &err);
        ck_assert_msg(status == PB_OK, "%s", err.message);
    }
    store_close(store);
    check_answers(runs, list, count, sizeof *list, "run");
    check_answers(people, learners, present, sizeof *learners, "learner");
    if (count > 0) {
        qsort(list, (size_t)count, sizeof *list, by_checksum);
    }
    for (int i = 1, gone = 0; i < count; i++) { /* "gone" is the same file for everybody */
        gone = list[i].file_bytes == 4;
        ck_assert_msg(gone || list[i].checksum != list[i - 1].checksum,
                      "run %lld is run %lld again", (long long)list[i].id,
                      (long long)list[i - 1].id);
    }
    free(list);
    free(learners);
}

START_TEST(loses_nothing_between_two_programs)
{
    static int64_t kept[2][MOST_ANSWERS];
    Program programs[2] = {{.kept = kept[0]}, {.kept = kept[1]}};
    int kills = wanted_kills();
    store_close(case_open());
    begin(&programs[0], 0);
    begin(&programs[1], 1);
    for (int k = 0; k < kills; k++) {
        int which = (int)(next_random() % 2u);
        wait_a_while();
        end(&programs[which]);
        check_both(&programs[0], &programs[1], k % 10 == 9); /* while the other one writes */
        begin(&programs[which], which);
    }
    /* on a slow machine the last ones may not have been answered yet */
    for (int i = 0; i < 600 && (programs[0].count == 0 || programs[1].count == 0); i++) {
        wait_a_while();
        hear(&programs[0]);
        hear(&programs[1]);
    }
    end(&programs[0]);
    end(&programs[1]);
    check_both(&programs[0], &programs[1], 1);
    printf("%d kills over two programs; %d runs and %d learners answered, all there, none twice\n",
           kills + 2, programs[0].count, programs[1].count);
    ck_assert_int_gt(programs[0].count, 0);
    ck_assert_int_gt(programs[1].count, 0);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("store_kill");
    TCase *one = tcase_create("one"), *two = tcase_create("two"); /* CK_RUN_CASE picks */
    tcase_set_timeout(one, 140.0 + wanted_kills());
    tcase_set_timeout(two, 140.0 + wanted_kills());
    tcase_add_checked_fixture(one, case_start, case_stop);
    tcase_add_checked_fixture(two, case_start, case_stop);
    tcase_add_test(one, loses_nothing_that_was_answered);
    tcase_add_test(two, loses_nothing_between_two_programs);
    suite_add_tcase(s, one);
    suite_add_tcase(s, two);
    return run_suite(s);
}
