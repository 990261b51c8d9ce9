/* The rubric on results made by hand: every part full, every part failing, and the caps. */
#include "core/marks.h"
#include "core/score.h"

#include <check.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { PATCHES = 20, LIFTS = 6 };

static PbExercise exercise;
static PbResult result;
static PbPatch patches[PATCHES];
static PbLift lifts[LIFTS];
static PbScoreWatch watch;
static PbRubric rubric;

/* A bay packed by the book: all at 60, one-foot steps, each left two seconds after the stall. */
static PbScoreInput good_run(void)
{
    exercise = pb_exercise_default();
    exercise.target_kg_m3 = 56.0;
    exercise.pass_score = 70.0;
    result = (PbResult){.fillable_volume_m3 = 0.1,
                        .mass_fed_kg = 5.6,
                        .mean_kg_m3 = 60.0,
                        .p5_patch_kg_m3 = 58.0,
                        .share_at_target = 1.0,
                        .peak_panel_over_strength = 0.5};
    for (int i = 0; i < PATCHES; i++) {
        patches[i] = (PbPatch){0.0, 0.1 * i, 0.1, 0.1 * (i + 1), 0.01, 60.0};
    }
    for (int i = 0; i < LIFTS; i++) {
        lifts[i] = (PbLift){.from_s = 20.0 * i,
                            .to_s = 20.0 * i + 18.0,
                            .mouth_y_m = 2.0 - 0.34 * i, /* to 0.3 m: both ends in reach */
                            .step_m = i ? 0.3 : 0.0,
                            .stall_s = 20.0 * i + 16.0,
                            .mass_kg = 0.5,
                            .density_kg_m3 = 60.0,
                            .direction = 1};
    }
    watch = (PbScoreWatch){.peak_y_m = 1.5, .peak_time_s = 44.0};
    rubric = pb_rubric_default();
    return (PbScoreInput){.exercise = &exercise,
                          .result = &result,
                          .patches = patches,
                          .patch_count = PATCHES,
                          .lifts = lifts,
                          .lift_count = LIFTS,
                          .watch = &watch,
                          .rubric = &rubric};
}

static PbScore mark(const PbScoreInput *in)
{
    PbScore s;
    double lost[PB_SCORE_PARTS] = {0.0};
    ck_assert_int_eq(pb_score(in, &s), PB_OK);
    for (int i = 0; i < s.loss_count; i++) {
        const PbLoss *l = &s.losses[i];
        ck_assert(l->points > 0.0 && l->time_s >= 0.0 && l->y_m >= 0.0 && l->y0_m <= l->y1_m);
        lost[l->part] += l->cause == PB_FAULT_CAPPED ? 0.0 : l->points;
    }
    for (int i = 0; i < PB_SCORE_PARTS; i++) { /* every point is accounted for */
        ck_assert_double_eq_tol(s.parts[i].points + lost[i], s.parts[i].max, 1e-9);
    }
    return s;
}

START_TEST(a_run_by_the_book_gets_everything)
{
    PbScoreInput in = good_run();
    PbScore s = mark(&in);
    ck_assert_double_eq_tol(s.total, 100.0, 1e-9);
    ck_assert(s.is_pass);
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        ck_assert_int_eq((int)s.parts[i].kind, i);
        ck_assert_int_eq((int)s.parts[i].fault, PB_FAULT_NONE);
    }
}
END_TEST

START_TEST(soft_patches_cost_their_share_and_name_the_softest_place)
{
    PbScoreInput in = good_run();
    result.share_at_target = 0.75;
    result.p5_patch_kg_m3 = 42.0;
    for (int i = 5; i < 10; i++) {
        patches[i].density_kg_m3 = 50.0;
    }
    patches[7].density_kg_m3 = 40.0;
    PbScore s = mark(&in);
    const PbScorePart *p = &s.parts[PB_SCORE_ON_TARGET];
    ck_assert_double_eq_tol(p->points, 30.0, 1e-9);
    ck_assert_int_eq((int)p->fault, PB_FAULT_SOFT_PATCHES);
    ck_assert_int_eq(p->count, 5);
    ck_assert(p->y_m > 0.5 && p->y_m < 0.8); /* most are of the stop at 0.64 m */
    ck_assert_double_eq_tol(p->time_s, lifts[4].to_s, 1e-9);
    const PbScorePart *w = &s.parts[PB_SCORE_WEAKEST];
    ck_assert_double_eq_tol(w->y_m, 0.75, 1e-9);
    ck_assert_double_eq_tol(w->time_s, lifts[4].to_s, 1e-9);
    ck_assert_double_eq_tol(s.parts[PB_SCORE_WEAKEST].points, 15.0 * 42.0 / 56.0, 1e-9);
}
END_TEST

START_TEST(blocked_patches_are_not_soft)
{
    PbScoreInput in = good_run();
    patches[3] = (PbPatch){0.0, 0.3, 0.1, 0.4, 0.0, 0.0};
    PbScore s = mark(&in);
    ck_assert_int_eq((int)s.parts[PB_SCORE_ON_TARGET].fault, PB_FAULT_NONE);
}
END_TEST

START_TEST(panel_load_costs_from_three_quarters_of_strength)
{
    PbScoreInput in = good_run();
    const double load[4] = {0.75, 0.80, 0.87, 0.9}, points[4] = {15.0, 10.0, 3.0, 0.0};
    for (int i = 0; i < 4; i++) {
        result.peak_panel_over_strength = load[i];
        PbScore s = mark(&in);
        ck_assert_double_eq_tol(s.parts[PB_SCORE_NO_HARM].points, points[i], 1e-9);
    }
    PbScore s = mark(&in);
    ck_assert_double_eq_tol(s.parts[PB_SCORE_NO_HARM].y_m, 1.5, 1e-12);
    ck_assert_double_eq_tol(s.parts[PB_SCORE_NO_HARM].time_s, 44.0, 1e-12);
}
END_TEST

START_TEST(a_blow_out_caps_the_score_and_never_passes)
{
    PbScoreInput in = good_run();
    exercise.pass_score = 10.0;
    result.blow_out = 1;
    PbScore s = mark(&in);
    ck_assert_double_eq_tol(s.total, rubric.blown_cap, 1e-9);
    ck_assert(!s.is_pass);
    ck_assert_int_eq((int)s.parts[PB_SCORE_NO_HARM].fault, PB_FAULT_BLOW_OUT);
}
END_TEST

START_TEST(material_counts_both_ways)
{
    PbScoreInput in = good_run();
    const double fed[4] = {5.6 * 0.9, 5.6 * 1.24, 5.6 * 0.7, 5.6 * 1.35};
    const double points[4] = {2.5, 2.5, 0.0, 0.0};
    result.mass_fed_kg = 5.6 * 1.18; /* what a well packed bay holds costs nothing */
    ck_assert_double_eq_tol(mark(&in).parts[PB_SCORE_MATERIAL].points, 5.0, 1e-9);
    for (int i = 0; i < 4; i++) {
        result.mass_fed_kg = fed[i];
        PbScore s = mark(&in);
        ck_assert_double_eq_tol(s.parts[PB_SCORE_MATERIAL].points, points[i], 1e-9);
        ck_assert_int_eq((int)s.parts[PB_SCORE_MATERIAL].fault,
                         fed[i] < 5.6 ? PB_FAULT_TOO_LITTLE : PB_FAULT_TOO_MUCH);
    }
}
END_TEST

START_TEST(hands_lose_a_stop_at_a_time)
{
    PbScoreInput in = good_run();
    lifts[1].step_m = 0.6;
    lifts[3].stall_s = -1.0;
    lifts[5].to_s = lifts[5].stall_s + 11.0;
    PbScore s = mark(&in);
    const PbScorePart *p = &s.parts[PB_SCORE_HANDS];
    ck_assert_double_eq_tol(p->points, 5.0, 1e-9);
    ck_assert_int_eq((int)p->fault, PB_FAULT_LONG_STEP);
    ck_assert_double_eq_tol(p->value, 0.6, 1e-12);
    lifts[2].mass_kg = 0.01; /* passing through is no stop: three good of five are left */
    s = mark(&in);
    ck_assert_double_eq_tol(s.parts[PB_SCORE_HANDS].points, 10.0 * 2.0 / 5.0, 1e-9);
}
END_TEST

START_TEST(plugs_and_feeding_outside_cost_extra)
{
    PbScoreInput in = good_run();
    result.plugs = 1;
    result.ledger.lost_outside_kg = 0.2;
    watch.events[0] = (PbEvent){PB_EVENT_PLUG, 500, 0.18, 1.4, 1.2};
    watch.events[1] = (PbEvent){PB_EVENT_FEED_OUTSIDE, 900, 0.18, 0.45, 0.2};
    watch.event_count = 2;
    PbScore s = mark(&in);
    ck_assert_double_eq_tol(s.parts[PB_SCORE_HANDS].points, 5.0, 1e-9);
    ck_assert_int_eq((int)s.parts[PB_SCORE_HANDS].fault, PB_FAULT_PLUG);
    for (int i = 1; i < 10; i++) {
        watch.events[i] = watch.events[0];
    }
    watch.event_count = 10;
    s = mark(&in);
    ck_assert_double_eq(s.parts[PB_SCORE_HANDS].points, 0.0);
}
END_TEST

/* An end that the tube could not reach is no stop that was missed: wood across the whole depth,
 * drawn either way, and what leaves the tube no room on its way. */
START_TEST(what_stops_the_tube_excuses_the_end_behind_it)
{
    PbScoreInput in = good_run();
    for (int i = 0; i < LIFTS; i++) {
        lifts[i].mouth_y_m = 1.2 - 0.18 * i; /* 1.2 m to 0.3 m of a bay of 2.35 m */
    }
    ck_assert_int_eq((int)mark(&in).parts[PB_SCORE_HANDS].fault, PB_FAULT_MISSED);
    /* an end that was never worked is a stop that was never made: six good ones of seven */
    ck_assert_double_eq_tol(mark(&in).parts[PB_SCORE_HANDS].points, 10.0 * 6.0 / 7.0, 1e-9);
    const PbObstacle stops[] = {{PB_OBSTACLE_BLOCK, 0.0, 1.4, 0.368, 1.44, 0.0, 1.0},
                                {PB_OBSTACLE_BRACE, 0.0, 2.6, 0.368, 1.4, 0.04, 1.0},
                                {PB_OBSTACLE_BRACE, 0.368, 1.4, 0.0, 2.6, 0.04, 1.0},
                                {PB_OBSTACLE_BOX, 0.15, 1.4, 0.25, 1.5, 0.0, 0.8}};
    const PbObstacle passes[] = {{PB_OBSTACLE_BOX, 0.0, 1.4, 0.1, 1.5, 0.0, 0.8},
                                 {PB_OBSTACLE_BOX, 0.15, 1.4, 0.25, 1.5, 0.0, 0.5}};
    exercise.obstacle_count = 1;
    for (size_t i = 0; i < sizeof stops / sizeof stops[0]; i++) {
        exercise.obstacles[0] = stops[i];
        ck_assert_msg(mark(&in).parts[PB_SCORE_HANDS].fault == PB_FAULT_NONE, "case %zu", i);
    }
    for (size_t i = 0; i < sizeof passes / sizeof passes[0]; i++) {
        exercise.obstacles[0] = passes[i];
        ck_assert_msg(mark(&in).parts[PB_SCORE_HANDS].fault == PB_FAULT_MISSED, "case %zu", i);
    }
    exercise.hole_y_m = 1.5; /* a brace drawn from above the hole down past it */
    exercise.obstacles[0] = (PbObstacle){PB_OBSTACLE_BRACE, 0.0, 2.0, 0.1, 1.0, 0.04, 1.0};
    ck_assert_int_eq((int)mark(&in).parts[PB_SCORE_HANDS].fault, PB_FAULT_NONE);
}
END_TEST

START_TEST(causes_are_found_in_what_the_hands_did)
{
    PbScoreInput in = good_run();
    result.share_at_target = 0.95;
    patches[7].density_kg_m3 = 40.0; /* 0.75 m */
    lifts[4].mass_kg = 0.0;          /* nothing was packed at 0.8 m: from 1.1 to 0.5 in one go */
    lifts[4].stall_s = -1.0;
    PbScore s = mark(&in);
    ck_assert_int_eq((int)s.losses[0].cause, PB_FAULT_LONG_STEP);
    ck_assert_double_eq_tol(s.losses[0].value, 0.68, 1e-9);
    ck_assert_double_eq_tol(s.losses[0].density_kg_m3, 40.0, 1e-9);
    in = good_run();
    result.share_at_target = 0.95;
    patches[0].density_kg_m3 = 10.0; /* 0.05 m, half of a metre under the last stop */
    lifts[5].mouth_y_m = 0.6;
    s = mark(&in);
    ck_assert_int_eq((int)s.losses[0].cause, PB_FAULT_MISSED);
    patches[0].density_kg_m3 = 60.0;
    patches[7].density_kg_m3 = 50.0;
    watch.lifts[4].static_pa = 9900.0;
    watch.lifts[5].static_pa = 9900.0;
    s = mark(&in);
    ck_assert_int_eq((int)s.losses[0].cause, PB_FAULT_WEAK_AIR);
    watch.lifts[4].static_pa = watch.lifts[5].static_pa = 19900.0;
    watch.lifts[4].feed_kg_s = watch.lifts[5].feed_kg_s = 0.06;
    s = mark(&in);
    ck_assert_int_eq((int)s.losses[0].cause, PB_FAULT_RICH_FEED);
    /* a plug is told with its own moment and load, and the one at this stop, not an earlier one */
    watch.lifts[4].plugs = 1;
    watch.events[0] = (PbEvent){PB_EVENT_PLUG, 250, 0.18, 1.9, 0.6};   /* 10 s, at the first stop */
    watch.events[1] = (PbEvent){PB_EVENT_PLUG, 2125, 0.18, 0.64, 0.7}; /* 85 s, at the fifth */
    watch.event_count = 2;
    s = mark(&in);
    ck_assert_int_eq((int)s.losses[0].cause, PB_FAULT_PLUG);
    ck_assert_double_eq_tol(s.losses[0].time_s, 85.0, 1e-9);
    ck_assert_double_eq_tol(s.losses[0].value, 0.7, 1e-9);
    in = good_run();
    result.share_at_target = 0.95;
    patches[0].density_kg_m3 = 10.0; /* beyond the last stop, long after a plug was cleared */
    lifts[5].mouth_y_m = 0.6;
    watch.events[0] = (PbEvent){PB_EVENT_PLUG, 250, 0.18, 1.9, 0.6};
    watch.event_count = 1;
    ck_assert_int_eq((int)mark(&in).losses[0].cause, PB_FAULT_MISSED);
    watch.events[1] = (PbEvent){PB_EVENT_PLUG, 2750, 0.18, 0.6, 0.7}; /* this one ended the run */
    watch.event_count = 2;
    s = mark(&in);
    ck_assert_int_eq((int)s.losses[0].cause, PB_FAULT_PLUG);
    ck_assert_double_eq_tol(s.losses[0].time_s, 110.0, 1e-9);
}
END_TEST

START_TEST(years_lose_by_gap_and_by_void)
{
    PbScoreInput in = good_run();
    PbSettleReport years = {.top_gap_m = 0.025, .top_gap_max_m = 0.03};
    in.years = &years;
    PbScore s = mark(&in);
    ck_assert_double_eq_tol(s.parts[PB_SCORE_YEARS].points, 15.0 - 3.75, 1e-9);
    ck_assert_int_eq((int)s.parts[PB_SCORE_YEARS].fault, PB_FAULT_TOP_GAP);
    ck_assert_double_eq(s.parts[PB_SCORE_YEARS].value, 0.025); /* the mean is told, and marked */
    ck_assert_double_eq_tol(s.losses[0].y0_m, in.exercise->height_m - 0.03, 1e-12);
    ck_assert_double_eq(s.losses[0].y1_m, in.exercise->height_m);
    years.inner_void_area_m2 = 1.0; /* of 0.86 m2: its half is gone */
    years.worst_x_m = 0.1;
    years.worst_y_m = 1.0;
    s = mark(&in);
    ck_assert_double_eq_tol(s.parts[PB_SCORE_YEARS].points, 3.75, 1e-9);
    ck_assert_int_eq((int)s.parts[PB_SCORE_YEARS].fault, PB_FAULT_LATE_VOID);
    ck_assert_double_eq(s.parts[PB_SCORE_YEARS].value, 1.0);
    ck_assert_double_eq(s.losses[0].x_m, 0.1);
    ck_assert_double_eq_tol(s.losses[0].y_m, 1.0, 1e-12);
    ck_assert_double_eq_tol(s.total, 100.0 - 11.25, 1e-9);
}
END_TEST

START_TEST(a_rubric_changes_weights_limits_and_the_pass_mark)
{
    PbScoreInput in = good_run();
    lifts[1].step_m = 0.5;
    ck_assert_double_lt(mark(&in).total, 100.0);
    uint64_t before = pb_rubric_hash(&rubric);
    rubric.step_max_m = 0.6;
    ck_assert_uint_ne(before, pb_rubric_hash(&rubric));
    ck_assert_double_eq_tol(mark(&in).total, 100.0, 1e-9);
    result.share_at_target = 0.0;
    rubric.weight[PB_SCORE_ON_TARGET] = 45.0; /* of 90 */
    patches[3].density_kg_m3 = 50.0;
    rubric.pass_score = 50.0;
    PbScore s = mark(&in);
    ck_assert_double_eq_tol(s.total, 50.0, 1e-9);
    ck_assert(s.is_pass);
    char field[96];
    PbError err;
    rubric.weight[0] = -1.0;
    ck_assert_int_eq(pb_rubric_check(&rubric, field, sizeof field, &err), PB_ERR_RANGE);
    rubric = pb_rubric_default();
    ck_assert_int_eq(pb_rubric_check(&rubric, field, sizeof field, &err), PB_OK);
    rubric.plug_points = -5.0; /* would give points for a plug */
    ck_assert_int_eq(pb_rubric_check(&rubric, field, sizeof field, &err), PB_ERR_RANGE);
    ck_assert_str_eq(field, "limits/plug_points");
    rubric = pb_rubric_default();
    rubric.check_points = (double)NAN;
    ck_assert_int_eq(pb_rubric_check(&rubric, field, sizeof field, &err), PB_ERR_RANGE);
    rubric = pb_rubric_default();
    rubric.reach_m = 0.0;
    ck_assert_int_eq(pb_rubric_check(&rubric, field, sizeof field, &err), PB_ERR_RANGE);
    ck_assert_str_eq(field, "limits/reach_m");
}
END_TEST

START_TEST(a_run_without_a_stop_gets_nothing_for_hands)
{
    PbScoreInput in = good_run();
    in.lift_count = 0;
    for (int i = 0; i < PATCHES; i++) {
        patches[i].density_kg_m3 = 0.0;
    }
    result = (PbResult){.fillable_volume_m3 = 0.1};
    PbScore s = mark(&in);
    ck_assert_int_eq((int)s.parts[PB_SCORE_HANDS].fault, PB_FAULT_NOTHING_DONE);
    /* Nothing harmed is all there is to earn: 15 of 85. */
    ck_assert_double_eq_tol(s.total, 100.0 * 15.0 / 85.0, 1e-9);
    ck_assert(!s.is_pass);
}
END_TEST

START_TEST(refuses_figures_that_are_not_finite_and_leaves_output_alone)
{
    PbScoreInput in = good_run();
    PbScore s = {.total = -7.0};
    result.p5_patch_kg_m3 = (double)NAN;
    ck_assert_int_eq(pb_score(&in, &s), PB_ERR_RANGE);
    ck_assert_double_eq(s.total, -7.0);
    in = good_run();
    exercise.target_kg_m3 = 0.0;
    ck_assert_int_eq(pb_score(&in, &s), PB_ERR_RANGE);
    ck_assert_double_eq(s.total, -7.0);
}
END_TEST

START_TEST(safety_steps_left_out_are_off_no_harm_with_their_time)
{
    PbScoreInput in = good_run();
    watch.events[watch.event_count++] =
        (PbEvent){PB_EVENT_SAFETY, 50, 0.2, 0.45, PB_MARK_CHECKLIST + 1 + 8};
    watch.events[watch.event_count++] =
        (PbEvent){PB_EVENT_SAFETY, 60, 0.2, 0.45, PB_MARK_CHECKLIST}; /* the list counts once */
    watch.events[watch.event_count++] =
        (PbEvent){PB_EVENT_SAFETY, 1000, 0.2, 0.45, PB_MARK_PLUG_POWER_ON};
    PbScore s = mark(&in);
    ck_assert_double_eq_tol(s.parts[PB_SCORE_NO_HARM].points, 15.0 - 4.0 - 5.0, 1e-12);
    ck_assert_int_eq((int)s.parts[PB_SCORE_NO_HARM].fault, PB_FAULT_POWER_ON); /* the dearest */
    ck_assert_double_eq_tol(s.parts[PB_SCORE_NO_HARM].time_s, 40.0, 1e-12);
    for (int i = 0; i < 9; i++) { /* no part goes below nothing */
        watch.events[watch.event_count++] =
            (PbEvent){PB_EVENT_SAFETY, 1100 + i, 0.2, 0.45, PB_MARK_PLUG_POWER_ON};
    }
    s = mark(&in);
    ck_assert_double_eq_tol(s.parts[PB_SCORE_NO_HARM].points, 0.0, 1e-12);
    rubric.check_points = 0.5;
    rubric.power_points = 0.0;
    s = mark(&in);
    ck_assert_double_eq_tol(s.parts[PB_SCORE_NO_HARM].points, 13.0, 1e-12);
    ck_assert_int_eq((int)s.parts[PB_SCORE_NO_HARM].fault, PB_FAULT_CHECKS);
}
END_TEST

/* From the command of a run to the marks, as a replay gives it. */
START_TEST(a_mark_in_the_record_reaches_the_score)
{
    PbSessionConfig config = pb_session_default();
    PbSession *session;
    PbScoreWatch seen;
    PbScore s;
    PbError err = {0};
    config.exercise = pb_exercise_default();
    memset(&seen, 0, sizeof seen);
    ck_assert_int_eq(pb_session_create(&config, &session, &err), PB_OK);
    PbCommand marks[4] = {{PB_COMMAND_MARK, PB_MARK_CHECKLIST + 62},
                          {PB_COMMAND_MARK, PB_MARK_GRADED + 2},
                          {PB_COMMAND_MARK, PB_MARK_PLUG_POWER_OFF},
                          {PB_COMMAND_MARK, PB_MARK_PLUG_POWER_ON}};
    ck_assert_int_eq(pb_session_step(session, marks, 4), PB_OK);
    pb_score_watch(&seen, session);
    ck_assert_int_eq(seen.event_count, 2);
    ck_assert_int_eq(pb_score_session(session, &seen, NULL, NULL, &s), PB_OK);
    ck_assert_double_eq_tol(s.parts[PB_SCORE_NO_HARM].points, 15.0 - 1.0 - 5.0, 1e-12);
    /* not even a list full of knocks on wood keeps it out */
    memset(&seen, 0, sizeof seen);
    for (int i = 0; i < PB_SCORE_MAX_EVENTS; i++) {
        seen.events[i].kind = i == 7 ? PB_EVENT_PLUG : PB_EVENT_TUBE_BLOCKED;
    }
    seen.event_count = PB_SCORE_MAX_EVENTS;
    ck_assert_int_eq(pb_session_step(session, marks, 4), PB_OK);
    pb_score_watch(&seen, session);
    ck_assert_int_eq(seen.event_count, PB_SCORE_MAX_EVENTS);
    ck_assert_int_eq((int)seen.events[7].kind, PB_EVENT_PLUG);
    ck_assert_int_eq(pb_score_session(session, &seen, NULL, NULL, &s), PB_OK);
    ck_assert_double_eq_tol(s.parts[PB_SCORE_NO_HARM].points, 15.0 - 1.0 - 5.0, 1e-12);
    /* and what costs nothing takes no place in it: the first ones stay */
    static PbScoreWatch full;
    full = seen;
    PbCommand turn = {PB_COMMAND_TURN, -1.0};
    int count = 0;
    ck_assert_int_eq(pb_session_step(session, &turn, 1), PB_OK);
    ck_assert_int_eq((int)pb_session_events(session, &count)->kind, PB_EVENT_TURNED);
    pb_score_watch(&seen, session);
    ck_assert_int_eq(seen.event_count, full.event_count);
    for (int i = 0; i < full.event_count; i++) {
        ck_assert_int_eq((int)seen.events[i].kind, (int)full.events[i].kind);
    }
    pb_session_destroy(session);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("score");
    TCase *normal = tcase_create("normal"), *limits = tcase_create("limits");
    TCase *refusals = tcase_create("refusals");
    tcase_add_test(normal, safety_steps_left_out_are_off_no_harm_with_their_time);
    tcase_add_test(normal, a_mark_in_the_record_reaches_the_score);
    tcase_add_test(normal, a_run_by_the_book_gets_everything);
    tcase_add_test(normal, soft_patches_cost_their_share_and_name_the_softest_place);
    tcase_add_test(normal, hands_lose_a_stop_at_a_time);
    tcase_add_test(normal, material_counts_both_ways);
    tcase_add_test(normal, what_stops_the_tube_excuses_the_end_behind_it);
    tcase_add_test(normal, causes_are_found_in_what_the_hands_did);
    tcase_add_test(normal, years_lose_by_gap_and_by_void);
    tcase_add_test(normal, a_rubric_changes_weights_limits_and_the_pass_mark);
    tcase_add_test(limits, blocked_patches_are_not_soft);
    tcase_add_test(limits, panel_load_costs_from_three_quarters_of_strength);
    tcase_add_test(limits, a_blow_out_caps_the_score_and_never_passes);
    tcase_add_test(limits, plugs_and_feeding_outside_cost_extra);
    tcase_add_test(limits, a_run_without_a_stop_gets_nothing_for_hands);
    tcase_add_test(refusals, refuses_figures_that_are_not_finite_and_leaves_output_alone);
    suite_add_tcase(suite, normal);
    suite_add_tcase(suite, limits);
    suite_add_tcase(suite, refusals);
    SRunner *runner = srunner_create(suite);
    srunner_run_all(runner, CK_NORMAL);
    int failed = srunner_ntests_failed(runner);
    srunner_free(runner);
    return failed == 0 ? EXIT_SUCCESS : EXIT_FAILURE;
}
