/* Jobs at a wall: acts in their order, the newest that is not over, and gone with their learner. */
#include "store/jobs.h"
#include "store_case.h"

static PbError err;

static int64_t begun(Store *store, int64_t who, const char *wall)
{
    int64_t id = 0;
    ck_assert_msg(store_job_begin(store, who, wall, 0xfedcba9876543210U, "2026-03-04T10:00:00Z",
                                  &id, &err) == PB_OK,
                  "%s", err.message);
    return id;
}

START_TEST(the_newest_job_with_acts_is_gone_on_with)
{
    Store *store = case_open();
    int64_t ana = case_learner(store, "Learner1"), ben = case_learner(store, "Learner2");
    StoreJob job;
    StoreJobAct *list = NULL;
    int count = 0;
    int64_t id = begun(store, ana, "kitchen");
    ck_assert_int_eq(store_job_left(store, ana, &job, &err), PB_ERR_NO_RESULT); /* no act yet */
    ck_assert_int_eq(store_job_act(store, id, 0, "{\"act\":\"look\"}", &err), PB_OK);
    ck_assert_int_eq(store_job_act(store, id, 1, "{\"act\":\"check\"}", &err), PB_OK);
    ck_assert_int_ne(store_job_act(store, id, 1, "{\"act\":\"look\"}", &err), PB_OK); /* taken */
    ck_assert_int_eq(store_job_left(store, ana, &job, &err), PB_OK);
    ck_assert_str_eq(job.wall, "kitchen");
    ck_assert(job.seed == 0xfedcba9876543210U);
    ck_assert_int_eq(job.acts, 2);
    ck_assert_int_eq(store_job_left(store, ben, &job, &err), PB_ERR_NO_RESULT);
    ck_assert_int_eq(store_job_acts(store, id, &list, &count, &err), PB_OK);
    ck_assert_int_eq(count, 2);
    ck_assert_str_eq(list[1].content, "{\"act\":\"check\"}");
    free(list);
    ck_assert_int_eq(store_job_end(store, id, &err), PB_OK);
    ck_assert_int_eq(store_job_left(store, ana, &job, &err), PB_ERR_NO_RESULT);
    store_close(store);
}
END_TEST

START_TEST(jobs_go_with_their_learner)
{
    Store *store = case_open();
    int64_t ana = case_learner(store, "Learner1");
    StoreJobAct *list = NULL;
    int count = -1;
    int64_t id = begun(store, ana, "era-1925");
    ck_assert_int_eq(store_job_act(store, id, 0, "{\"act\":\"look\"}", &err), PB_OK);
    ck_assert_int_eq(store_learner_delete(store, ana, &err), PB_OK);
    ck_assert_int_eq(store_job_acts(store, id, &list, &count, &err), PB_OK);
    ck_assert_int_eq(count, 0);
    ck_assert_int_ne(store_job_begin(store, ana, "kitchen", 1, "2026-03-04T10:00:00Z", &id, &err),
                     PB_OK);
    store_close(store);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("store_jobs");
    TCase *t = tcase_create("all");
    tcase_add_checked_fixture(t, case_start, case_stop);
    tcase_add_test(t, the_newest_job_with_acts_is_gone_on_with);
    tcase_add_test(t, jobs_go_with_their_learner);
    suite_add_tcase(s, t);
    return run_suite(s);
}
