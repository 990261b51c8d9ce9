/* Gates before points, and the order of walls: over random walls and runs no worse wall gets the
 * better mark, and a small change is a small change of it. */
#include "score_case.h"

/* What a complaint would be about shuts its gate, whatever the points. */
START_TEST(each_gate_shuts_by_itself_and_says_where)
{
    PbScoreInput in = good_run();
    for (int i = 5; i < 8; i++) { /* 0.5 to 0.8 m at 47.9, 0.1 under the least */
        patches[i].density_kg_m3 = 47.9;
    }
    PbScore s = mark(&in);
    ck_assert_double_gt(s.total, 85.0);
    ck_assert_int_eq((int)s.verdict, PB_VERDICT_REDO);
    const PbGate *g = &s.gates[PB_GATE_SLICE];
    ck_assert(g->is_shut && !s.gates[PB_GATE_MEAN].is_shut && !s.gates[PB_GATE_VOID].is_shut);
    ck_assert_double_eq_tol(g->value, 47.9, 1e-9);
    ck_assert_double_eq_tol(g->y0_m, 0.5, 1e-9);
    ck_assert_double_eq_tol(g->y1_m, 0.8, 1e-9);
    ck_assert_double_eq_tol(g->time_s, lifts[4].to_s, 1e-9);
    for (int i = 5; i < 8; i++) {
        patches[i].density_kg_m3 = 48.1;
    }
    ck_assert_int_eq((int)mark(&in).verdict, PB_VERDICT_PASS);
    result.mean_kg_m3 = 55.9;
    s = mark(&in);
    ck_assert(s.gates[PB_GATE_MEAN].is_shut && s.verdict == PB_VERDICT_REDO);
    result.mean_kg_m3 = 60.0;
    result.void_area_m2 = 0.011;
    s = mark(&in);
    ck_assert(s.gates[PB_GATE_VOID].is_shut && s.verdict == PB_VERDICT_REDO);
    result.void_area_m2 = 0.0;
    watch.events[watch.event_count++] =
        (PbEvent){PB_EVENT_SAFETY, 50, 0.2, 0.45, PB_MARK_CHECKLIST + 62};
    s = mark(&in);
    ck_assert(s.gates[PB_GATE_CHECKS].is_shut && s.verdict == PB_VERDICT_FAIL);
    ck_assert_double_gt(s.total, 85.0);
    ck_assert_int_eq((int)s.gates[PB_GATE_CHECKS].fault, PB_FAULT_CHECKS);
    watch.event_count = 0;
    rubric.pass_score = 99.0;
    result.mass_lost_kg = 2.0;
    s = mark(&in);
    ck_assert(s.gates[PB_GATE_MARK].is_shut && s.verdict == PB_VERDICT_REDO);
    rubric.pass_score = ceil(s.total); /* points are whole: what is nearly there is not there */
    ck_assert_double_gt(s.total, rubric.pass_score - 0.5);
    s = mark(&in);
    ck_assert(s.gates[PB_GATE_MARK].is_shut);
    ck_assert_double_eq(s.gates[PB_GATE_MARK].value, rubric.pass_score - 1.0);
}
END_TEST

/* Where a weak face makes an exercise settle for less than dense pack, no foot has to hold more
 * than the bay; a target between is no such bay. */
START_TEST(no_foot_of_a_weak_face_has_to_hold_more_than_the_bay)
{
    static const struct {
        double target, foot, limit;
        int is_shut;
    } rows[] = {{40.0, 41.0, 40.0, 0}, {40.0, 39.9, 40.0, 1}, {52.0, 47.9, 48.0, 1}};
    PbScoreInput in = good_run();
    exercise.target_kg_m3 = rows[_i].target;
    for (int i = 5; i < 8; i++) {
        patches[i].density_kg_m3 = rows[_i].foot;
    }
    PbScore s = mark(&in);
    ck_assert_int_eq(s.gates[PB_GATE_SLICE].is_shut, rows[_i].is_shut);
    ck_assert_double_eq(s.gates[PB_GATE_SLICE].limit, rows[_i].limit);
    ck_assert_int_eq((int)s.verdict,
                     rows[_i].is_shut ? (int)PB_VERDICT_REDO : (int)PB_VERDICT_PASS);
}
END_TEST

START_TEST(a_broken_face_is_worth_nothing)
{
    PbScoreInput in = good_run();
    exercise.pass_score = 0.0;
    result.blow_out = 1;
    watch.peak_load = 1.1;
    PbScore s = mark(&in);
    ck_assert_double_eq_tol(s.total, 0.0, 1e-9);
    ck_assert_int_eq((int)s.verdict, PB_VERDICT_FAIL);
    ck_assert_int_eq((int)s.parts[PB_SCORE_NO_HARM].fault, PB_FAULT_BLOW_OUT);
    /* one that such a face should have borne is no fault of the hands, and no pass */
    watch.peak_load = 0.72;
    watch.is_weak_sheet = 1;
    s = mark(&in);
    ck_assert_double_eq_tol(s.total, 0.0, 1e-9);
    ck_assert_int_eq((int)s.verdict, PB_VERDICT_REDO);
}
END_TEST

START_TEST(an_empty_bay_gets_nothing)
{
    PbScoreInput in = good_run();
    PbSettleReport years = {.top_gap_m = 2.35, .top_gap_max_m = 2.35};
    in.lift_count = 0;
    in.years = &years;
    for (int i = 0; i < PATCHES; i++) {
        patches[i].density_kg_m3 = 0.0;
    }
    result = (PbResult){.fillable_volume_m3 = 0.1, .void_area_m2 = 0.86};
    PbScore s = mark(&in);
    ck_assert_double_eq_tol(s.total, 0.0, 1e-9);
    ck_assert_int_eq((int)s.verdict, PB_VERDICT_REDO);
    ck_assert_int_eq((int)s.losses[0].cause, PB_FAULT_NOTHING_DONE);
}
END_TEST

START_TEST(a_rubric_that_breaks_the_order_of_walls_is_refused)
{
    char field[96];
    PbError err;
    const struct {
        size_t offset;
        double value;
        const char *field;
    } bad[] = {
        {offsetof(PbRubric, weight), -1.0, "weights"},
        {offsetof(PbRubric, weight[PB_SCORE_HANDS]), 51.0, "weights"}, /* outweighs the wall */
        {offsetof(PbRubric, weight[PB_SCORE_NO_HARM]), 66.0, "weights"},
        {offsetof(PbRubric, plug_points), -5.0, "limits/plug_points"}, /* points for a plug */
        {offsetof(PbRubric, check_points), (double)NAN, "limits/check_points"},
        {offsetof(PbRubric, reach_m), 0.0, "limits/reach_m"},
        {offsetof(PbRubric, over_kg_m3), 57.0, "limits/over_kg_m3"}, /* good fill is wasted */
        {offsetof(PbRubric, slice_min_kg_m3), 81.0, "limits/over_kg_m3"},
        {offsetof(PbRubric, material_half), 0.01, "limits/material_half"},
        {offsetof(PbRubric, after_stall_s), 0.0, "limits/after_stall_s"},
    };
    rubric = pb_rubric_default();
    ck_assert_int_eq(pb_rubric_check(&rubric, field, sizeof field, &err), PB_OK);
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        rubric = pb_rubric_default();
        memcpy((char *)&rubric + bad[i].offset, &bad[i].value, sizeof bad[i].value);
        ck_assert_int_eq(pb_rubric_check(&rubric, field, sizeof field, &err), PB_ERR_RANGE);
        ck_assert_str_eq(field, bad[i].field);
        ck_assert_int_gt((int)strlen(err.message), 12); /* with the reason */
    }
}
END_TEST

/* Random walls and runs, each then made worse in one way: the mark never rises. */
static uint32_t dice_state;
static double dice(double lo, double hi)
{
    dice_state = dice_state * 1664525u + 1013904223u;
    return lo + (hi - lo) * (dice_state >> 8) / 16777216.0;
}

static PbScoreInput any_run(PbSettleReport *years)
{
    PbScoreInput in = good_run();
    double level = dice(0.0, 75.0), sum = 0.0;
    for (int i = 0; i < PATCHES; i++) {
        patches[i].density_kg_m3 = fmax(0.0, level + dice(-25.0, 15.0));
        sum += patches[i].density_kg_m3;
    }
    result.mean_kg_m3 = sum / PATCHES;
    result.mass_lost_kg = dice(0.0, 3.0);
    result.mass_fed_kg = result.mean_kg_m3 * 0.1 + result.mass_lost_kg;
    watch.peak_load = dice(0.3, 1.0);
    *years = (PbSettleReport){.top_gap_m = dice(0.0, 0.06), .inner_void_area_m2 = dice(0.0, 0.03)};
    in.years = years;
    for (int i = 0; i < LIFTS; i++) {
        lifts[i].step_m = dice(0.1, 0.6);
        lifts[i].mass_kg = dice(0.0, 1.0);
        lifts[i].stall_s = dice(0.0, 1.0) < 0.5 ? -1.0 : lifts[i].to_s - dice(0.0, 15.0);
    }
    return in;
}

/* Any rubric that is taken: each weight and limit anywhere in its range. Returns how many were
 * refused before it. */
static int any_rubric(void)
{
    PbError err;
    char field[96];
    size_t count;
    const PbRubricLimit *limits = pb_rubric_limits(&count);
    for (int refused = 0;; refused++) {
        ck_assert_int_lt(refused, 10000);
        rubric = pb_rubric_default();
        for (int i = 0; i < PB_SCORE_PARTS; i++) {
            rubric.weight[i] = dice(0.0, 1.0) < 0.2 ? 0.0 : dice(0.0, 100.0);
        }
        for (size_t i = 0; i < count; i++) {
            double v =
                dice(0.0, 1.0) < 0.5 ? limits[i].standard : dice(limits[i].low, limits[i].high);
            memcpy((char *)&rubric + limits[i].offset, &v, sizeof v);
        }
        if (pb_rubric_check(&rubric, field, sizeof field, &err) == PB_OK) {
            return refused;
        }
    }
}

/* By the default rubric, and by any that is taken (`_i` from 10 on): one that would reward less
 * fill would have to be refused. */
START_TEST(a_worse_wall_never_gets_the_better_mark)
{
    PbSettleReport years;
    int refused = 0;
    dice_state = (uint32_t)_i + 1u;
    for (int n = 0; n < 500; n++) {
        PbScoreInput in = any_run(&years);
        refused += _i >= 10 ? any_rubric() : 0;
        double before = mark(&in).total;
        int at = (int)dice(0.0, PATCHES - 0.001);
        double gone = patches[at].density_kg_m3 * dice(0.0, 1.0);
        if (patches[at].density_kg_m3 > rubric.over_kg_m3) {
            continue; /* more than a wall can use: less is no worse */
        }
        patches[at].density_kg_m3 -= gone; /* from one place, and it is nowhere else */
        result.mass_lost_kg += 0.1 * gone / PATCHES;
        result.mean_kg_m3 -= gone / PATCHES;
        double after = mark(&in).total;
        ck_assert_msg(after <= before + 1e-9, "less fill: %g, then %g", before, after);
        result.mass_lost_kg += dice(0.0, 1.0);
        double lost = mark(&in).total;
        ck_assert_msg(lost <= after + 1e-9, "more lost: %g, then %g", after, lost);
        watch.peak_load += dice(0.0, 0.2);
        double loaded = mark(&in).total;
        ck_assert_msg(loaded <= lost + 1e-9, "more load: %g, then %g", lost, loaded);
        result.blow_out = 1;
        ck_assert_double_eq(mark(&in).total, 0.0);
    }
    ck_assert(_i < 10 || refused > 100); /* both kinds were met */
}
END_TEST

/* 10 mm, one tick of 0.04 s and a gram move the mark by less than one point. */
START_TEST(a_small_change_is_a_small_change_of_the_mark)
{
    PbSettleReport years;
    dice_state = (uint32_t)_i + 77u;
    for (int n = 0; n < 500; n++) {
        PbScoreInput in = any_run(&years);
        double before = mark(&in).total;
        int at = (int)dice(0.0, LIFTS - 0.001);
        lifts[at].step_m += 0.01;
        lifts[at].mouth_y_m += 0.01;
        lifts[at].to_s += 0.04;
        lifts[at].mass_kg += 0.001;
        for (int i = 0; i < PATCHES; i++) {
            patches[i].density_kg_m3 += dice(-0.2, 0.2);
            patches[i].density_kg_m3 = fmax(patches[i].density_kg_m3, 0.0);
        }
        double after = mark(&in).total;
        ck_assert_msg(fabs(after - before) < 1.0, "%g, then %g", before, after);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("score_gates");
    TCase *normal = tcase_create("normal"), *limits = tcase_create("limits");
    tcase_add_test(normal, each_gate_shuts_by_itself_and_says_where);
    tcase_add_loop_test(normal, no_foot_of_a_weak_face_has_to_hold_more_than_the_bay, 0, 3);
    tcase_add_loop_test(normal, a_worse_wall_never_gets_the_better_mark, 0, 30);
    tcase_add_loop_test(normal, a_small_change_is_a_small_change_of_the_mark, 0, 10);
    tcase_add_test(limits, a_broken_face_is_worth_nothing);
    tcase_add_test(limits, an_empty_bay_gets_nothing);
    tcase_add_test(limits, a_rubric_that_breaks_the_order_of_walls_is_refused);
    suite_add_tcase(suite, normal);
    suite_add_tcase(suite, limits);
    return run_suite(suite);
}
