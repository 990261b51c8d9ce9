/*
 * One store a process, and what becomes of it when other programs come and go. The other program is
 * the real one: it opens the store, reads or writes, and closes it, and as the last one to close it
 * would fold the log and remove it.
 */
#include "store_case.h"

static PbError err;

/* Runs pullback-cli with these words and --db. Its lines go to `said`. */
static int cli(const char *words, char *said, size_t size)
{
    char command[1200];
    snprintf(command, sizeof command, "'%s' %s --db '%s' 2>&1", PB_TEST_CLI, words, case_path);
    FILE *f = popen(command, "r");
    ck_assert_ptr_nonnull(f);
    size_t n = fread(said, 1, size - 1, f);
    said[n] = '\0';
    return pclose(f);
}

START_TEST(opens_no_second_store_in_one_process)
{
    Store *store = case_open(), *other = NULL;
    char elsewhere[400], before[sizeof case_path];
    snprintf(elsewhere, sizeof elsewhere, "%s/other.db", case_folder);
    ck_assert_int_eq(store_open(case_path, &other, &err), PB_ERR_STATE);
    ck_assert_str_eq(err.message,
                     "this program has a store open already, and it has one at a time");
    ck_assert_int_eq(store_open(elsewhere, &other, &err), PB_ERR_STATE);
    ck_assert_int_ne(access(elsewhere, F_OK), 0);
    ck_assert_ptr_null(other);
    store_close(store);
    /* an opening that was refused does not count as one */
    memcpy(before, case_path, sizeof before);
    snprintf(case_path, sizeof case_path, "%s/no/such.db", case_folder);
    ck_assert_int_eq(store_open(case_path, &other, &err), PB_ERR_IO);
    memcpy(case_path, before, sizeof before);
    store_close(case_open());
}
END_TEST

/* What some part of this process may do with the file meanwhile. */
static void disturb(int how)
{
    Store *second = NULL;
    if (how == 0) {
        store_close(store_open(case_path, &second, &err) == PB_OK ? second : NULL);
    } else if (how == 1) { /* the store named as a wall file, or as a run to import */
        FILE *f = fopen(case_path, "rb");
        ck_assert_ptr_nonnull(f);
        (void)fgetc(f);
        fclose(f);
    }
}

START_TEST(loses_nothing_to_a_program_that_comes_and_goes)
{
    enum { ROUNDS = 12 };
    char said[4000], log[400], name[40];
    struct stat st;
    snprintf(log, sizeof log, "%s-wal", case_path);
    Store *store = case_open();
    case_run(store, case_learner(store, "Learner 0"), 1);
    for (int i = 1; i <= ROUNDS; i++) {
        disturb(_i);
        snprintf(name, sizeof name, i % 2 ? "learners list" : "learners add 'Other %d'", i);
        ck_assert_msg(cli(name, said, sizeof said) == 0, "%s", said);
        ck_assert_msg(stat(log, &st) == 0, "the log was removed in round %d", i);
        snprintf(name, sizeof name, "Learner %d", i);
        case_learner(store, name);
        ck_assert_int_eq(cli("learners list", said, sizeof said), 0);
        ck_assert_msg(strstr(said, name) != NULL, "%s is not seen: %s", name, said);
    }
    disturb(_i);
    store_close(store);
    ck_assert_msg(stat(log, &st) != 0, "the last one to close left the log");
    StoreLearner *list;
    int count;
    store = case_open();
    ck_assert_int_eq(store_learner_list(store, &list, &count, &err), PB_OK);
    ck_assert_int_eq(count, 1 + ROUNDS + ROUNDS / 2);
    free(list);
    ck_assert_int_eq(store_check(store, &err), PB_OK);
    store_close(store);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("hold");
    TCase *tc = tcase_create("normal");
    tcase_set_timeout(tc, 120);
    tcase_add_checked_fixture(tc, case_start, case_stop);
    tcase_add_test(tc, opens_no_second_store_in_one_process);
    tcase_add_loop_test(tc, loses_nothing_to_a_program_that_comes_and_goes, 0, 3);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
