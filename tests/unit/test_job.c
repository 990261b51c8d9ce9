/* A job: what is refused, that a bay of a job is the bay alone to the bit, that threads change
 * nothing, and that the crew goes on as it did. */
#include "job_case.h"

#include "core/pb_math.h"

#include <math.h>

static PbError err;

START_TEST(what_cannot_be_done_is_refused_and_changes_nothing)
{
    int count;
    case_wall();
    PbJob *job = case_job();
    ck_assert_int_eq(case_do(job, PB_JOB_FILL, CASE_MID_X_M[0], 0.4, &err), PB_ERR_STATE);
    ck_assert_str_eq(err.message, "there is no clear hole at 0.212, 0.400 m");
    case_drill(job, 0);
    PbJobAct as_done = {.kind = PB_JOB_FILL, .hands = PB_JOB_AS_DONE};
    as_done.wall.x_m = CASE_MID_X_M[0];
    as_done.wall.y_m = 0.4;
    ck_assert_int_eq(pb_job_act(job, &as_done, &err), PB_ERR_STATE);
    ck_assert_str_eq(err.message, "no bay was packed by hand yet that the crew could go by");
    as_done.hands = 1;
    ck_assert_int_eq(pb_job_act(job, &as_done, &err), PB_ERR_RANGE);
    ck_assert_int_eq(case_do(job, PB_JOB_SEAL, 0.2, 0.4, &err), PB_ERR_STATE);
    ck_assert_str_eq(err.message, "nobody has found an opening at 0.200, 0.400 m");
    (void)pb_job_done(job, &count);
    ck_assert_int_eq(count, 1);
    ck_assert_int_eq(pb_job_fill_count(job), 0);
    ck_assert_int_eq(case_do(job, PB_JOB_FILL, CASE_MID_X_M[0], 0.4, &err), PB_OK);
    ck_assert_int_eq(case_do(job, PB_JOB_FILL, CASE_MID_X_M[0], 0.4, &err), PB_ERR_STATE);
    ck_assert_str_eq(err.message, "this bay is filled from this hole already");
    pb_job_destroy(job);
}
END_TEST

/* The same hands in the same bay with the same seed, without a job around them. */
static uint64_t alone(const PbJobFill *fill, const PbSessionConfig *config)
{
    PbSession *session;
    PbCommand commands[16];
    PbJobHands hands = pb_job_hands_default();
    PbJobWorker w = pb_job_worker(&hands, &fill->used, config->seed);
    ck_assert_int_eq(pb_session_create(config, &session, &err), PB_OK);
    while (!pb_session_is_over(session)) {
        int count = pb_job_worker_next(&w, pb_session_view(session), commands);
        ck_assert_int_eq(pb_session_step(session, commands, count), PB_OK);
    }
    PbResult r;
    pb_session_result(session, &r);
    pb_session_destroy(session);
    return r.state_hash;
}

static void backwards(void *user, int count, void (*body)(void *context, int index), void *context)
{
    (void)user;
    for (int i = count - 1; i >= 0; i--) {
        body(context, i);
    }
}

START_TEST(a_bay_of_a_job_is_the_bay_alone_and_order_changes_nothing)
{
    PbSessionConfig config;
    case_wall();
    PbJob *job = case_job(), *other = case_job();
    for (int b = 0; b < 3; b++) {
        case_fill(job, b);
        case_fill(other, b);
    }
    case_run(job);
    ck_assert_int_eq(pb_job_run(other, backwards, NULL, &err), PB_OK);
    ck_assert(pb_job_hash(job) == pb_job_hash(other));
    const PbJobFill *fill = pb_job_fill(job, 1);
    ck_assert_int_eq(pb_job_fill_config(job, 1, &config, &err), PB_OK);
    ck_assert(alone(fill, &config) == fill->result.state_hash);
    ck_assert(fill->result.state_hash != pb_job_fill(job, 0)->result.state_hash);
    ck_assert_double_gt(fill->result.mean_kg_m3, 56.0);
    ck_assert_double_gt(pb_job_density(job, CASE_MID_X_M[1], 0.2), 48.0);
    ck_assert_double_lt(pb_job_density(job, 0.40, 0.2), 0.0); /* a stud */
    pb_job_destroy(job);
    pb_job_destroy(other);
}
END_TEST

/* Times stand in the order of acts, a fill with the run that it took, and not before what was
 * asked for. */
START_TEST(the_clock_goes_on_from_bay_to_bay)
{
    int count;
    case_wall();
    PbJob *job = case_job();
    case_must(job, PB_JOB_CHECK);
    case_fill(job, 0);
    PbJobAct write = {.kind = PB_JOB_WRITE, .at_min = 60.0};
    ck_assert_int_eq(pb_job_act(job, &write, &err), PB_OK);
    case_run(job);
    const PbJobDone *d = pb_job_done(job, &count);
    double run_min = pb_job_fill(job, 0)->result.duration_s / 60.0;
    ck_assert_int_eq(count, 4);
    ck_assert_double_eq_tol(pb_job_minute(job, 1), 8.0, 1e-9);
    ck_assert_double_eq_tol(pb_job_minute(job, 2), 8.0 + d[1].minutes, 1e-9);
    ck_assert_double_eq_tol(pb_job_minute(job, 3), 60.0, 1e-9);
    ck_assert_double_eq_tol(pb_job_minute(job, 4), 68.0, 1e-9);
    ck_assert_double_gt(run_min, 0.2);
    ck_assert_int_eq(d[2].bay, 0);
    pb_job_destroy(job);
}
END_TEST

static PbJobHands habits_after(const PbJobHands *hands, double *mean)
{
    PbHabits habits = {0};
    case_wall();
    case_config.framing.height_m = 2.44; /* stops enough to know a hand by */
    case_config.framing.members[1].at = (PbRect){0.0, 2.402, 1.26, 2.44};
    for (int i = 2; i < 6; i++) {
        case_config.framing.members[i].at.y1_m = 2.402;
    }
    case_config.hands[0] = *hands;
    PbJob *job = case_job();
    case_fill(job, 0);
    case_drill(job, 1);
    PbJobAct next = {.kind = PB_JOB_FILL, .hands = PB_JOB_AS_DONE};
    next.wall.x_m = CASE_MID_X_M[1];
    next.wall.y_m = 0.4;
    ck_assert_int_eq(pb_job_act(job, &next, &err), PB_OK);
    case_run(job);
    ck_assert_str_eq(pb_job_fill(job, 1)->used.name, "as the bays before");
    *mean = pb_job_fill(job, 1)->result.mean_kg_m3;
    pb_habits_add(&habits, pb_job_fill(job, 0));
    PbJobHands found = pb_habits_hands(&habits, hands);
    pb_job_destroy(job);
    return found;
}

START_TEST(the_crew_goes_on_as_it_did)
{
    double good, bad;
    PbJobHands careful = pb_job_hands_default(), hasty = careful;
    PbJobHands h = habits_after(&careful, &good);
    ck_assert_double_eq_tol(h.rule.step_m, 0.30, 0.02);
    ck_assert_double_eq_tol(h.rule.wait_s, 1.0, 0.5);
    ck_assert_double_eq_tol(h.rule.feed_kg_s, case_config.framing.like.feed_kg_s, 1e-9);
    ck_assert_double_eq_tol(h.rule.blower, 1.0, 1e-9);
    ck_assert_double_eq_tol(h.rule.air_only_s, 1.0, 0.3);
    hasty.rule.pull = PB_PULL_CLOCK;
    hasty.rule.step_m = 0.8;
    hasty.rule.wait_s = 4.0;
    hasty.does_down = 0;
    h = habits_after(&hasty, &bad);
    ck_assert_double_eq_tol(h.rule.step_m, 0.8, 0.05);
    ck_assert_double_gt(h.early_frac, 0.5);
    ck_assert_int_eq(h.does_down, 0);
    ck_assert_double_gt(good, 56.0);
    ck_assert_double_lt(bad, 48.0); /* the bad habit is the soft belt of the next bay */
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("job");
    TCase *t = tcase_create("acts");
    tcase_set_timeout(t, 120);
    tcase_add_test(t, what_cannot_be_done_is_refused_and_changes_nothing);
    tcase_add_test(t, a_bay_of_a_job_is_the_bay_alone_and_order_changes_nothing);
    tcase_add_test(t, the_clock_goes_on_from_bay_to_bay);
    tcase_add_test(t, the_crew_goes_on_as_it_did);
    suite_add_tcase(suite, t);
    return run_suite(suite);
}
