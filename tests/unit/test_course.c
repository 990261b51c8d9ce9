/* The ladder, the sentences after a run, and bays to be left alone, on cases made by hand. */
#include "core/course.h"

#include "suite.h"

#include <stdio.h>
#include <string.h>

/* two levels of three, one of one, and one outside the course */
static void ladder(PbCourseItem *items)
{
    static const PbCourseItem plain[8] = {{1, 1, 0}, {1, 2, 0}, {1, 3, 0}, {2, 2, 0},
                                          {2, 1, 0}, {3, 1, 0}, {4, 1, 0}, {0, 0, 0}};
    memcpy(items, plain, sizeof plain);
}

START_TEST(a_newcomer_sees_the_first_level)
{
    PbCourseItem items[8];
    unsigned char open[8];
    ladder(items);
    ck_assert_int_eq(pb_course_unlock(items, 8, open), 4);
    ck_assert(open[0] && open[1] && open[2] && open[7]);
    ck_assert(!open[3] && !open[4] && !open[5] && !open[6]);
    ck_assert_int_eq(pb_course_next(items, 8), 0);
}
END_TEST

START_TEST(two_passes_open_the_next_level_and_one_does_not)
{
    PbCourseItem items[8];
    unsigned char open[8];
    ladder(items);
    items[0].is_passed = 1;
    ck_assert_int_eq(pb_course_unlock(items, 8, open), 4);
    ck_assert_int_eq(pb_course_next(items, 8), 1);
    items[2].is_passed = 1;
    ck_assert_int_eq(pb_course_unlock(items, 8, open), 6);
    ck_assert(open[3] && open[4] && !open[5]);
    items[1].is_passed = 1;
    ck_assert_int_eq(pb_course_next(items, 8), 4); /* by order, not by place in the list */
}
END_TEST

START_TEST(a_level_of_one_needs_that_one_and_levels_open_in_turn)
{
    PbCourseItem items[8];
    unsigned char open[8];
    ladder(items);
    items[3].is_passed = items[4].is_passed = items[5].is_passed = 1;
    /* the middle passed in other ways does not jump the first level */
    ck_assert_int_eq(pb_course_unlock(items, 8, open), 4);
    items[0].is_passed = items[1].is_passed = 1;
    ck_assert_int_eq(pb_course_unlock(items, 8, open), 8);
    items[5].is_passed = 0;
    ck_assert_int_eq(pb_course_unlock(items, 8, open), 7);
    ck_assert(!open[6]);
}
END_TEST

/* A lesson whose act has no command cannot be shown to be learnt: it opens nothing and keeps
 * nothing shut. */
START_TEST(what_waits_for_an_act_counts_for_no_level)
{
    PbExercise e = pb_exercise_default();
    e.level = 2.0;
    e.order = 3.0;
    ck_assert_int_eq(pb_course_item(&e, 1).level, 2);
    strcpy(e.waits_for, "a second hole");
    ck_assert_int_eq(pb_course_item(&e, 1).level, 0);
    ck_assert_int_eq(pb_course_item(&e, 1).is_passed, 1);
}
END_TEST

START_TEST(nothing_in_nothing_out_and_all_done)
{
    PbCourseItem items[8];
    unsigned char open[8];
    ck_assert_int_eq(pb_course_unlock(NULL, 0, open), 0);
    ck_assert_int_eq(pb_course_next(NULL, 0), -1);
    ladder(items);
    for (int i = 0; i < 8; i++) {
        items[i].is_passed = 1;
    }
    ck_assert_int_eq(pb_course_next(items, 8), -1);
    PbExercise e = pb_exercise_default();
    PbCourseItem it = pb_course_item(&e, 1);
    ck_assert(it.level == 1 && it.order == 1 && it.is_passed);
}
END_TEST

/* every part full and all gates open; then one is spoiled */
static PbScore full_score(void)
{
    PbScore s;
    memset(&s, 0, sizeof s);
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        s.parts[i].kind = (PbScorePartKind)i;
        s.parts[i].max = s.parts[i].points = 10.0 + (double)i;
        s.parts[i].y_m = s.parts[i].time_s = -1.0;
    }
    s.parts[PB_SCORE_ON_TARGET].max = s.parts[PB_SCORE_ON_TARGET].points = 40.0;
    s.height_m = 2.35;
    s.is_more_air_safe = 1;
    s.is_pass = 1;
    return s;
}

static void lose(PbScore *s, PbScorePartKind part, PbScoreFault cause, double points)
{
    s->parts[part].points -= points;
    s->losses[s->loss_count++] = (PbLoss){
        .part = part, .cause = cause, .points = points, .y0_m = 1.0, .y1_m = 1.2, .lift = -1};
}

static void shut(PbScore *s, PbGateKind kind, PbScoreFault fault, PbVerdict verdict)
{
    s->gates[kind] = (PbGate){.is_shut = 1, .fault = fault};
    s->verdict = verdict;
    s->is_pass = 0;
}

START_TEST(names_the_best_and_the_worst_part)
{
    PbScore s = full_score();
    PbDebrief d = pb_debrief(&s);
    ck_assert_int_eq(d.best, PB_SCORE_ON_TARGET);
    ck_assert_int_eq(d.worst, -1);
    ck_assert_int_eq(d.next, PB_ADVICE_KEEP);
    lose(&s, PB_SCORE_NO_HARM, PB_FAULT_PANEL_LOAD, 9.0);
    d = pb_debrief(&s);
    ck_assert_int_eq(d.worst, PB_SCORE_NO_HARM);
    ck_assert_int_eq(d.next, PB_ADVICE_LESS_BLOWER);
    lose(&s, PB_SCORE_ON_TARGET, PB_FAULT_MISSED, 40.0);
    shut(&s, PB_GATE_SLICE, PB_FAULT_SOFT_SLICE, PB_VERDICT_REDO);
    lose(&s, PB_SCORE_WEAKEST, PB_FAULT_MISSED, 5.0);
    ck_assert_int_eq(pb_debrief(&s).next, PB_ADVICE_REACH_ENDS); /* the gate before the points */
    shut(&s, PB_GATE_FACE, PB_FAULT_BLOW_OUT, PB_VERDICT_FAIL);  /* and the face before the fill */
    d = pb_debrief(&s);
    ck_assert_int_eq(d.worst, PB_SCORE_NO_HARM);
    ck_assert_int_eq(d.next, PB_ADVICE_LESS_BLOWER);
}
END_TEST

/* Nothing to improve is said when nothing is worth it; a shut gate always is. */
START_TEST(a_good_run_is_left_in_peace)
{
    PbScore s = full_score();
    lose(&s, PB_SCORE_ON_TARGET, PB_FAULT_SOFT_PATCHES, 2.5);
    lose(&s, PB_SCORE_HANDS, PB_FAULT_LEFT_EARLY, 1.0);
    ck_assert_int_eq(pb_debrief(&s).worst, -1);
    ck_assert_int_eq(pb_debrief(&s).next, PB_ADVICE_KEEP);
    shut(&s, PB_GATE_MEAN, PB_FAULT_LOW_MEAN, PB_VERDICT_REDO);
    ck_assert_int_eq(pb_debrief(&s).next, PB_ADVICE_WAIT);
}
END_TEST

START_TEST(soft_places_are_put_down_to_the_hands_that_left_them)
{
    PbScore s = full_score();
    lose(&s, PB_SCORE_ON_TARGET, PB_FAULT_SOFT_PATCHES, 30.0);
    ck_assert_int_eq(pb_debrief(&s).next, PB_ADVICE_MORE_MATERIAL);
    s.losses[0].y1_m = 2.35; /* soft up to the plate */
    ck_assert_int_eq(pb_debrief(&s).next, PB_ADVICE_END_LONGER);
    lose(&s, PB_SCORE_HANDS, PB_FAULT_LEFT_EARLY, 4.0);
    ck_assert_int_eq(pb_debrief(&s).worst, PB_SCORE_ON_TARGET);
    ck_assert_int_eq(pb_debrief(&s).next, PB_ADVICE_WAIT);
}
END_TEST

/* "Blower up" only where this face, by this run's own load, bears it: never to hands that eased off
 * as taught, and never one run after "blower down". */
START_TEST(more_air_is_advised_only_where_the_face_bears_it)
{
    PbScore s = full_score();
    lose(&s, PB_SCORE_ON_TARGET, PB_FAULT_WEAK_AIR, 30.0);
    ck_assert_int_eq(pb_debrief(&s).next, PB_ADVICE_MORE_AIR);
    s.is_more_air_safe = 0;
    ck_assert_int_eq(pb_debrief(&s).next, PB_ADVICE_WEAK_FACE);
    s.losses[0].cause = PB_FAULT_WEAK_MACHINE; /* at full blower there is nothing to turn up */
    ck_assert_int_eq(pb_debrief(&s).next, PB_ADVICE_MEND_MACHINE);
    s.losses[0].cause = PB_FAULT_BEHIND_WOOD;
    ck_assert_int_eq(pb_debrief(&s).next, PB_ADVICE_OWN_HOLE);
}
END_TEST

START_TEST(every_loss_has_something_to_try)
{
    for (int fault = 1; fault < PB_FAULT_LIMIT; fault++) {
        PbScore s = full_score();
        lose(&s, PB_SCORE_ON_TARGET, (PbScoreFault)fault, 30.0);
        int is_kept = pb_debrief(&s).next == PB_ADVICE_KEEP;
        int has_none = fault == PB_FAULT_CAPPED || fault == PB_FAULT_HELD;
        ck_assert_msg(is_kept == has_none, "cause %d", fault);
    }
}
END_TEST

START_TEST(graded_runs_show_less_as_the_ladder_climbs)
{
    PbExercise e = pb_exercise_default();
    e.level = 1.0;
    ck_assert_int_eq(pb_course_sight(&e), 1);
    e.level = 2.0;
    ck_assert_int_eq(pb_course_sight(&e), 2);
    e.level = 0.0;
    ck_assert_int_eq(pb_course_sight(&e), 2);
}
END_TEST

static PbScoreInput chimney(PbExercise *e, PbResult *r, PbLift *lifts)
{
    *e = pb_exercise_default();
    snprintf(e->must_not_fill, sizeof e->must_not_fill, "A chimney.");
    memset(r, 0, sizeof *r);
    memset(lifts, 0, 8 * sizeof *lifts);
    static PbRubric rubric;
    rubric = pb_rubric_default();
    return (PbScoreInput){
        .exercise = e, .result = r, .lifts = lifts, .lift_count = 8, .rubric = &rubric};
}

START_TEST(a_bay_left_alone_is_right_and_a_filled_one_is_not)
{
    PbExercise e;
    PbResult r;
    PbLift lifts[8];
    PbScoreInput in = chimney(&e, &r, lifts);
    PbLeaveVerdict v = pb_leave_judge(&in);
    PbScore s = full_score();
    ck_assert(v.applies && v.was_left && v.total == 100.0);
    r.mass_fed_kg = 4.0;
    v = pb_leave_judge(&in);
    ck_assert(v.applies && !v.was_left && v.total == 0.0);
    s.total = 95.0;
    s.is_pass = 1;
    pb_leave_apply(&v, &s);
    ck_assert(s.total == 0.0 && !s.is_pass);
    r.mass_fed_kg = 0.04;
    v = pb_leave_judge(&in);
    ck_assert_double_eq_tol(v.total, 20.0, 1e-9); /* half way from 0.02 to 0.06 */
}
END_TEST

START_TEST(working_on_through_the_bay_is_not_noticing)
{
    PbExercise e;
    PbResult r;
    PbLift lifts[8];
    PbScoreInput in = chimney(&e, &r, lifts);
    e.leave_kg = 5.0;
    r.mass_fed_kg = 4.0;
    for (int i = 0; i < 3; i++) {
        lifts[i].mass_kg = 1.0;
    }
    ck_assert(pb_leave_judge(&in).was_left);
    lifts[3].mass_kg = 1.0;
    ck_assert(!pb_leave_judge(&in).was_left);
    ck_assert_double_eq_tol(pb_leave_judge(&in).total, 40.0, 1e-9);
    r.mass_fed_kg = 5.5; /* and more is never worth more: 40 falls to 0 at three times 5 kg */
    ck_assert_double_eq_tol(pb_leave_judge(&in).total, 40.0 * (1.0 - 0.5 / 10.0), 1e-9);
}
END_TEST

START_TEST(an_ordinary_bay_keeps_its_score)
{
    PbExercise e;
    PbResult r;
    PbLift lifts[8];
    PbScoreInput in = chimney(&e, &r, lifts);
    e.must_not_fill[0] = '\0';
    r.mass_fed_kg = 4.0;
    PbLeaveVerdict v = pb_leave_judge(&in);
    PbScore s = full_score();
    s.total = 95.0;
    pb_leave_apply(&v, &s);
    ck_assert(!v.applies && s.total == 95.0);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("course");
    TCase *t = tcase_create("normal");
    tcase_add_test(t, a_newcomer_sees_the_first_level);
    tcase_add_test(t, two_passes_open_the_next_level_and_one_does_not);
    tcase_add_test(t, a_level_of_one_needs_that_one_and_levels_open_in_turn);
    tcase_add_test(t, what_waits_for_an_act_counts_for_no_level);
    tcase_add_test(t, nothing_in_nothing_out_and_all_done);
    tcase_add_test(t, names_the_best_and_the_worst_part);
    tcase_add_test(t, soft_places_are_put_down_to_the_hands_that_left_them);
    tcase_add_test(t, a_good_run_is_left_in_peace);
    tcase_add_test(t, more_air_is_advised_only_where_the_face_bears_it);
    tcase_add_test(t, graded_runs_show_less_as_the_ladder_climbs);
    tcase_add_test(t, every_loss_has_something_to_try);
    tcase_add_test(t, a_bay_left_alone_is_right_and_a_filled_one_is_not);
    tcase_add_test(t, working_on_through_the_bay_is_not_noticing);
    tcase_add_test(t, an_ordinary_bay_keeps_its_score);
    suite_add_tcase(s, t);
    return run_suite(s);
}
