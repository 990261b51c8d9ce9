/* Marks of a job: gates shut by what a trade person would call a failed job, points by what was
 * done, and every lost point with its place. */
#include "job_case.h"

#include <math.h>

static PbError err;
static PbJobMarks m;
static double used; /* bags */

/* All that comes before the first hole. */
static PbJob *begun(void)
{
    PbJob *job = case_job();
    case_must(job, PB_JOB_LOOK);
    case_must(job, PB_JOB_CHECK);
    case_must(job, PB_JOB_PROTECT);
    case_must(job, PB_JOB_ESTIMATE);
    case_must(job, PB_JOB_TEST);
    return job;
}

static void ended(PbJob *job)
{
    case_must(job, PB_JOB_PLUG);
    case_must(job, PB_JOB_PATCH);
    case_must(job, PB_JOB_CLEAN);
    case_must(job, PB_JOB_FINGER);
    case_must(job, PB_JOB_CORE);
    case_must(job, PB_JOB_CAMERA_AFTER);
    case_must(job, PB_JOB_WRITE);
    case_run(job);
    pb_job_mark(job, &m);
    used = 0.0;
    for (int i = 0; i < pb_job_fill_count(job); i++) {
        const PbLedger *l = &pb_job_fill(job, i)->result.ledger;
        used += (l->fed_kg - l->in_hose_kg) / case_config.framing.like.bag_kg;
    }
    pb_job_destroy(job);
}

static const PbJobLoss *loss_of(PbJobFault fault)
{
    for (int i = 0; i < m.loss_count; i++) {
        if (m.losses[i].fault == fault) {
            return &m.losses[i];
        }
    }
    ck_abort_msg("no loss for %s", pb_job_fault_word(fault));
    return NULL;
}

static int shut_count(void)
{
    int count = 0;
    for (int g = 0; g < PB_JOB_GATES; g++) {
        count += m.is_shut[g];
    }
    return count;
}

static void points_and_losses_add_up(void)
{
    for (int p = 0; p < PB_JOB_PARTS; p++) {
        double lost = 0.0;
        for (int i = 0; i < m.loss_count; i++) {
            lost += m.losses[i].part == p ? m.losses[i].points : 0.0;
        }
        ck_assert_double_eq_tol(m.points[p] + lost, m.max[p], 1e-9);
        ck_assert_double_ge(m.points[p], -1e-9);
    }
}

START_TEST(a_wall_done_well_passes)
{
    case_wall();
    PbJob *job = begun();
    for (int b = 0; b < 3; b++) {
        case_fill(job, b);
    }
    ended(job);
    ck_assert_int_eq(shut_count(), 0);
    ck_assert_int_eq(m.is_pass, 1);
    ck_assert_double_gt(m.total, 90.0);
    ck_assert_double_eq_tol(m.filled_m2, m.fillable_m2, 1e-9);
    ck_assert_double_eq_tol(m.fillable_m2, (0.349 + 0.368 + 0.391) * 0.724, 1e-9);
    ck_assert_double_eq_tol(m.wanted_bags, m.fillable_m2 * 0.089 * 56.0 / 11.34, 0.01);
    ck_assert_double_eq_tol(m.used_bags, used, 1e-9);
    ck_assert_double_gt(m.used_bags, m.wanted_bags);
    points_and_losses_add_up();
}
END_TEST

START_TEST(a_missed_bay_fails_the_job_and_is_named)
{
    case_wall();
    PbJob *job = begun();
    case_fill(job, 0);
    case_fill(job, 2);
    ended(job);
    ck_assert_int_eq(m.is_shut[PB_JOB_GATE_MISSED], 1);
    ck_assert_int_eq(shut_count(), 1);
    ck_assert_int_eq(m.is_pass, 0);
    const PbJobLoss *l = loss_of(PB_JOB_FAULT_MISSED);
    ck_assert_int_eq(l->bay, 1);
    ck_assert_double_eq_tol(l->x_m, CASE_MID_X_M[1], 1e-9);
    ck_assert_double_eq_tol(l->value, 0.368 * 0.724, 1e-9);
    ck_assert_int_eq(m.bays[1].kind, PB_JOB_BAY_MISSED);
    ck_assert_double_lt(m.points[PB_JOB_PART_FOUND], 18.0);
    points_and_losses_add_up();
}
END_TEST

START_TEST(a_bay_to_leave_is_left_for_the_right_reason_or_costs)
{
    static const struct {
        PbLeaveReason given;
        int is_filled, kind, gates;
        double left;
    } CASES[] = {
        {PB_LEAVE_FLUE, 0, PB_JOB_BAY_LEFT, 0, 10.0},
        {PB_LEAVE_LEAK, 0, PB_JOB_BAY_UNSAID, 0, 0.0},
        {PB_LEAVE_NONE, 0, PB_JOB_BAY_UNSAID, 0, 0.0},
        {PB_LEAVE_NONE, 1, PB_JOB_BAY_WRONGLY, 1, 0.0},
    };
    for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
        int known;
        case_wall();
        case_config.framing.leave[0] = (PbLeave){1.0, 0.4, "a flue", PB_LEAVE_FLUE};
        case_config.framing.leave_count = 1;
        PbJob *job = begun();
        ck_assert_int_eq(pb_job_known_leaves(job, &known)->reason, PB_LEAVE_FLUE);
        case_fill(job, 0);
        case_fill(job, 1);
        if (CASES[i].is_filled) {
            case_fill(job, 2);
        } else if (CASES[i].given != PB_LEAVE_NONE) {
            ck_assert_int_eq(case_wall_do(job, PB_CREW_LEAVE, 1.0, 0.4, CASES[i].given, &err),
                             PB_OK);
        }
        ended(job);
        ck_assert_int_eq(m.bays[2].kind, CASES[i].kind);
        ck_assert_int_eq(m.is_shut[PB_JOB_GATE_LEAVE], CASES[i].gates);
        ck_assert_int_eq(shut_count(), CASES[i].gates);
        ck_assert_double_eq_tol(m.points[PB_JOB_PART_LEFT], CASES[i].left, 1e-9);
        points_and_losses_add_up();
    }
}
END_TEST

START_TEST(safety_left_out_and_holes_for_nothing_are_named)
{
    case_wall();
    PbJob *job = case_job();
    for (int b = 0; b < 3; b++) {
        case_fill(job, b);
    }
    ck_assert_int_eq(case_wall_do(job, PB_CREW_DRILL, 0.406, 0.4, PB_LEAVE_NONE, &err), PB_OK);
    ck_assert_int_eq(case_wall_do(job, PB_CREW_DRILL, 0.609, 0.6, PB_LEAVE_NONE, &err), PB_OK);
    ended(job);
    ck_assert_int_eq(m.is_shut[PB_JOB_GATE_SAFETY], 1);
    ck_assert_int_eq(shut_count(), 1);
    ck_assert_double_eq_tol(loss_of(PB_JOB_FAULT_ON_LUMBER)->points, 2.0, 1e-9);
    ck_assert_double_eq_tol(loss_of(PB_JOB_FAULT_ON_LUMBER)->x_m, 0.406, 1e-9);
    ck_assert_double_eq_tol(loss_of(PB_JOB_FAULT_NEEDLESS)->points, 1.0, 1e-9);
    ck_assert_double_eq_tol(m.points[PB_JOB_PART_HOLES], 7.0, 1e-9);
    ck_assert_double_eq_tol(m.points[PB_JOB_PART_BAGS], 0.0, 1e-9);
    ck_assert_double_eq_tol(m.points[PB_JOB_PART_CLEAN], 3.0, 1e-9);
    points_and_losses_add_up();
}
END_TEST

START_TEST(a_drilled_wire_stops_the_job)
{
    case_wall();
    PbFraming *f = &case_config.framing;
    f->inside[f->inside_count++] =
        (PbObstacle){PB_OBSTACLE_CABLE, 0.609, 0.04, 0.609, 0.76, 0.01, 0.3};
    PbJob *job = begun();
    case_fill(job, 0);
    ck_assert_int_eq(case_wall_do(job, PB_CREW_DRILL, 0.609, 0.4, PB_LEAVE_NONE, &err), PB_OK);
    ck_assert_int_eq(case_do(job, PB_JOB_FILL, CASE_MID_X_M[0], 0.4, &err), PB_ERR_STATE);
    ck_assert_int_eq(case_do(job, PB_JOB_CAMERA_AFTER, 0.0, 0.0, &err), PB_ERR_STATE);
    case_must(job, PB_JOB_WRITE);
    case_run(job);
    pb_job_mark(job, &m);
    pb_job_destroy(job);
    ck_assert_int_eq(m.is_shut[PB_JOB_GATE_WIRE], 1);
    ck_assert_double_eq_tol(loss_of(PB_JOB_FAULT_WIRE)->x_m, 0.609, 1e-9);
    ck_assert_int_eq(m.is_pass, 0);
    points_and_losses_add_up();
}
END_TEST

START_TEST(doing_nothing_earns_nothing)
{
    case_wall();
    PbJob *job = case_job();
    pb_job_mark(job, &m);
    ck_assert_double_eq_tol(m.total, 0.0, 1e-9);
    pb_job_destroy(job);
    job = begun();
    ended(job);
    ck_assert_double_eq_tol(m.total, 0.0, 1e-9);
    ck_assert_int_eq(m.is_pass, 0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("job_marks");
    TCase *t = tcase_create("marks");
    tcase_set_timeout(t, 120);
    tcase_add_test(t, a_wall_done_well_passes);
    tcase_add_test(t, a_missed_bay_fails_the_job_and_is_named);
    tcase_add_test(t, a_bay_to_leave_is_left_for_the_right_reason_or_costs);
    tcase_add_test(t, safety_left_out_and_holes_for_nothing_are_named);
    tcase_add_test(t, a_drilled_wire_stops_the_job);
    tcase_add_test(t, doing_nothing_earns_nothing);
    suite_add_tcase(suite, t);
    return run_suite(suite);
}
