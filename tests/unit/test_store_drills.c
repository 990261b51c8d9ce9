/* Sittings of drills: kept, listed, refused, and gone with their learner. */
#include "store/drills.h"
#include "store_case.h"
#include "store_private.h"

#include <math.h>

static StoreDrill sitting(int64_t learner)
{
    return (StoreDrill){.learner_id = learner,
                        .done = "2026-03-04T10:00:00Z",
                        .seed = 0xfedcba9876543210U,
                        .sight = 2,
                        .masking = 1,
                        .level = 3,
                        .trials = 14,
                        .events = 12,
                        .caught = 12,
                        .good = 11,
                        .best_streak = 9,
                        .listened_s = 120.5,
                        .median_s = 0.4,
                        .verdict = PB_DRILL_UNDECIDED};
}

static void put(Store *store, const StoreDrill *d)
{
    PbError err = {0};
    int64_t id;
    ck_assert_msg(store_drill_add(store, d, &id, &err) == PB_OK, "%s", err.message);
}

static int listed(Store *store, int64_t learner, StoreDrill **list)
{
    PbError err = {0};
    int count = -1;
    ck_assert_int_eq(store_drill_list(store, learner, list, &count, &err), PB_OK);
    return count;
}

START_TEST(what_was_kept_is_listed)
{
    Store *store = case_open();
    int64_t ana = case_learner(store, "Learner1"), ben = case_learner(store, "Learner2");
    StoreDrill d = sitting(ana), *list;
    put(store, &d);
    d.median_s = (double)NAN;
    d.caught = d.good = 0;
    d.verdict = PB_DRILL_NOT_YET;
    put(store, &d);
    ck_assert_int_eq(listed(store, ben, &list), 0);
    ck_assert_int_eq(listed(store, ana, &list), 2);
    ck_assert(list[0].seed == 0xfedcba9876543210U);
    ck_assert_int_eq(list[0].good, 11);
    ck_assert_int_eq(list[0].masking, 1);
    ck_assert_int_eq(list[0].level, 3);
    ck_assert_double_eq(list[0].median_s, 0.4);
    ck_assert_double_eq(list[0].listened_s, 120.5);
    ck_assert_str_eq(list[0].done, "2026-03-04T10:00:00Z");
    ck_assert(isnan(list[1].median_s));
    ck_assert_int_eq(list[1].verdict, PB_DRILL_NOT_YET);
    free(list);
    PbError err = {0};
    ck_assert_int_eq(store_check(store, &err), PB_OK);
    ck_assert_int_eq(store_learner_delete(store, ana, &err), PB_OK);
    int64_t left = -1;
    ck_assert_int_eq(store_number(store, &left, &err, "", "SELECT count(*) FROM drills", ""),
                     PB_OK);
    ck_assert_int_eq(left, 0);
    store_close(store);
}
END_TEST

START_TEST(figures_that_no_sitting_has_are_refused)
{
    Store *store = case_open();
    int64_t ana = case_learner(store, "Learner1"), id;
    PbError err = {0};
    StoreDrill bad[6];
    for (int i = 0; i < 6; i++) {
        bad[i] = sitting(ana);
    }
    bad[0].caught = 13;
    bad[1].level = 4;
    bad[2].listened_s = (double)NAN;
    bad[3].trials = 15;
    bad[4].good = 13;
    snprintf(bad[5].done, sizeof bad[5].done, "today");
    for (int i = 0; i < 6; i++) {
        ck_assert_int_eq(store_drill_add(store, &bad[i], &id, &err), PB_ERR_RANGE);
    }
    StoreDrill nobody = sitting(ana + 7);
    ck_assert_int_eq(store_drill_add(store, &nobody, &id, &err), PB_ERR_NO_RESULT);
    store_close(store);
}
END_TEST

/* Sittings without a verdict add up, those of another view or noise apart, and a verdict begins
 * anew. */
START_TEST(evidence_adds_up_until_a_verdict)
{
    StoreDrill d[5];
    for (int i = 0; i < 5; i++) {
        d[i] = sitting(1);
        d[i].listened_s = 10.0 * (i + 1);
    }
    d[1].verdict = PB_DRILL_CAN_TELL;
    d[3].level = 2;
    PbDrillTally y = store_drill_evidence(d, 5, 2, 1, 3);
    ck_assert_int_eq(y.events, 24);
    ck_assert_double_eq(y.listened_s, 80.0);
    ck_assert_double_eq(store_drill_evidence(d, 5, 2, 1, 2).listened_s, 40.0);
    ck_assert_int_eq(store_drill_evidence(d, 5, 0, 1, 3).trials, 0);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("store_drills");
    TCase *t = tcase_create("all");
    tcase_add_checked_fixture(t, case_start, case_stop);
    tcase_add_test(t, what_was_kept_is_listed);
    tcase_add_test(t, figures_that_no_sitting_has_are_refused);
    tcase_add_test(t, evidence_adds_up_until_a_verdict);
    suite_add_tcase(s, t);
    return run_suite(s);
}
