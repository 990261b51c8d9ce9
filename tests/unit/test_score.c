/* The rubric on results made by hand: every part full, every part failing. Gates, and the order of
 * walls: test_score_gates.c. */
#include "score_case.h"

START_TEST(a_run_by_the_book_gets_everything)
{
    PbScoreInput in = good_run();
    PbScore s = mark(&in);
    ck_assert_double_eq_tol(s.total, 100.0, 1e-9);
    ck_assert_int_eq((int)s.verdict, PB_VERDICT_PASS);
    ck_assert(s.is_pass);
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        ck_assert_int_eq((int)s.parts[i].kind, i);
        ck_assert_int_eq((int)s.parts[i].fault, PB_FAULT_NONE);
    }
}
END_TEST

/* A patch counts its share of the target: 28 of 56 is a half. A quarter of on target goes by the
 * mean, which is 52 here: gone by 4 of the 5.6 that take all of it. */
START_TEST(patches_count_by_how_far_they_are_from_target)
{
    PbScoreInput in = good_run();
    for (int i = 5; i < 10; i++) { /* 0.5 to 1.0 m: a quarter of the area */
        patches[i].density_kg_m3 = 28.0;
    }
    PbScore s = mark(&in);
    double share = 1.0 - 0.25 * 0.5, mean = 1.0 - (56.0 - 52.0) / 5.6;
    ck_assert_double_eq_tol(s.wall_share, share, 1e-12);
    ck_assert_double_eq_tol(s.parts[PB_SCORE_ON_TARGET].points, 30.0 * share + 10.0 * mean, 1e-9);
    ck_assert_double_eq_tol(s.parts[PB_SCORE_WEAKEST].points, 15.0 * 0.125, 1e-9);
    ck_assert_double_eq_tol(s.parts[PB_SCORE_NO_HARM].points, 15.0 * share, 1e-9);
    ck_assert_double_eq_tol(s.parts[PB_SCORE_MATERIAL].points, 5.0 * share, 1e-9);
    ck_assert_int_eq((int)s.parts[PB_SCORE_MATERIAL].fault, PB_FAULT_HELD); /* it has no place */
    ck_assert(s.parts[PB_SCORE_MATERIAL].y_m < 0.0 && s.parts[PB_SCORE_MATERIAL].time_s < 0.0);
    const PbScorePart *p = &s.parts[PB_SCORE_ON_TARGET];
    ck_assert_int_eq((int)p->fault, PB_FAULT_SOFT_PATCHES);
    ck_assert_int_eq(p->count, 5);
    ck_assert(p->y_m > 0.5 && p->y_m < 0.8); /* most are of the stop at 0.64 m */
    ck_assert_double_eq_tol(p->time_s, lifts[4].to_s, 1e-9);
    /* at 55.9 all but everything is there: nothing hangs on the last tenth */
    in = good_run();
    for (int i = 0; i < PATCHES; i++) {
        patches[i].density_kg_m3 = 55.9;
    }
    ck_assert_double_gt(mark(&in).total, 99.0);
}
END_TEST

START_TEST(blocked_patches_are_not_soft)
{
    PbScoreInput in = good_run();
    patches[3] = (PbPatch){0.0, 0.3, 0.1, 0.4, 0.0, 0.0};
    PbScore s = mark(&in);
    ck_assert_int_eq((int)s.parts[PB_SCORE_ON_TARGET].fault, PB_FAULT_NONE);
    ck_assert_double_eq_tol(s.total, 100.0, 1e-9);
}
END_TEST

START_TEST(panel_load_costs_from_three_quarters_of_expected_strength)
{
    PbScoreInput in = good_run();
    const double load[4] = {0.75, 0.80, 0.87, 0.9}, points[4] = {15.0, 10.0, 3.0, 0.0};
    result.peak_panel_over_strength = 1.2; /* what this sheet had is luck */
    for (int i = 0; i < 4; i++) {
        watch.peak_load = load[i];
        PbScore s = mark(&in);
        ck_assert_double_eq_tol(s.parts[PB_SCORE_NO_HARM].points, points[i], 1e-9);
        ck_assert_int_eq((int)s.verdict, load[i] < 0.9 ? PB_VERDICT_PASS : PB_VERDICT_FAIL);
    }
    PbScore s = mark(&in);
    ck_assert_double_eq_tol(s.parts[PB_SCORE_NO_HARM].y_m, 1.5, 1e-12);
    ck_assert_double_eq_tol(s.parts[PB_SCORE_NO_HARM].time_s, 44.0, 1e-12);
    ck_assert_int_eq((int)s.gates[PB_GATE_LOAD].fault, PB_FAULT_PANEL_LOAD);
    ck_assert_double_eq_tol(s.gates[PB_GATE_LOAD].time_s, 44.0, 1e-12);
}
END_TEST

START_TEST(material_counts_what_was_wasted)
{
    PbScoreInput in = good_run();
    result.mass_lost_kg = 0.05 * 5.6; /* cracks take so much */
    ck_assert_double_eq_tol(mark(&in).parts[PB_SCORE_MATERIAL].points, 5.0, 1e-9);
    result.mass_lost_kg = 0.175 * 5.6;
    PbScore s = mark(&in);
    ck_assert_double_eq_tol(s.parts[PB_SCORE_MATERIAL].points, 2.5, 1e-9);
    ck_assert_int_eq((int)s.parts[PB_SCORE_MATERIAL].fault, PB_FAULT_LOST_FILL);
    result.mass_lost_kg = 0.0;
    for (int i = 0; i < PATCHES; i++) { /* 0.175 of 5.6 kg above 80 kg/m3 in 0.1 m3 */
        patches[i].density_kg_m3 = 80.0 + 0.175 * 56.0;
    }
    s = mark(&in);
    ck_assert_double_eq_tol(s.parts[PB_SCORE_MATERIAL].points, 2.5, 1e-9);
    ck_assert_int_eq((int)s.parts[PB_SCORE_MATERIAL].fault, PB_FAULT_OVER_DENSE);
    ck_assert_double_eq_tol(s.parts[PB_SCORE_MATERIAL].value, 0.175 * 5.6, 1e-9);
}
END_TEST

/* Half a metre at 48 beside the stop in question: as soft as a wall may be. */
static void soften(double y_m)
{
    for (int i = 0; i < PATCHES; i++) {
        if (fabs(0.5 * (patches[i].y0_m + patches[i].y1_m) - y_m) < 0.36) {
            patches[i].density_kg_m3 = 48.0;
        }
    }
}

START_TEST(hands_lose_by_what_they_left_soft)
{
    PbScoreInput in = good_run();
    lifts[1].step_m = 0.6;
    lifts[3].stall_s = -1.0;
    ck_assert_double_eq_tol(mark(&in).total, 100.0, 1e-9); /* the wall is firm: it was no harm */
    soften(lifts[3].mouth_y_m);
    PbScore s = mark(&in);
    const PbScorePart *p = &s.parts[PB_SCORE_HANDS];
    ck_assert_double_eq_tol(p->points, 10.0 * s.wall_share * 5.0 / 6.0, 1e-9);
    ck_assert_int_eq((int)p->fault, PB_FAULT_LEFT_EARLY);
    in = good_run();
    lifts[1].step_m = 0.43; /* halfway to a bad step, and soft along all of it */
    soften(1.8);
    s = mark(&in);
    ck_assert_double_eq_tol(s.parts[PB_SCORE_HANDS].points, 10.0 * s.wall_share * 5.5 / 6.0, 1e-9);
    ck_assert_int_eq((int)s.parts[PB_SCORE_HANDS].fault, PB_FAULT_LONG_STEP);
    ck_assert_double_eq_tol(s.parts[PB_SCORE_HANDS].value, 0.43, 1e-12);
    in = good_run();
    lifts[5].to_s = lifts[5].stall_s + 7.5; /* halfway from 5 s to 10 s */
    s = mark(&in);
    ck_assert_double_eq_tol(s.parts[PB_SCORE_HANDS].points, 10.0 * 5.5 / 6.0, 1e-9);
    ck_assert_int_eq((int)s.parts[PB_SCORE_HANDS].fault, PB_FAULT_STAYED_LONG);
    lifts[2].mass_kg = 0.01; /* passing through is no stop: five are left */
    s = mark(&in);
    ck_assert_double_eq_tol(s.parts[PB_SCORE_HANDS].points, 10.0 * 4.5 / 5.0, 1e-9);
    lifts[2].mass_kg = 0.06; /* halfway from 20 g, where a stop begins, to 100 g: half a stop */
    s = mark(&in);
    ck_assert_double_eq_tol(s.parts[PB_SCORE_HANDS].points, 10.0 * 5.0 / 5.5, 1e-9);
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
    /* of what is left each time: nine of them, and once outside */
    ck_assert_double_eq_tol(s.parts[PB_SCORE_HANDS].points, 10.0 * pow(0.7, 9.0) - 0.12, 0.3);
    double nine = mark(&in).total;
    watch.events[watch.event_count++] = watch.events[0];
    ck_assert_double_lt(mark(&in).total, nine);
    watch.events[0] = watch.events[1] = (PbEvent){PB_EVENT_FEED_OUTSIDE, 900, 0.18, 0.45, 0.2};
    watch.event_count = 2;
    result.plugs = 0;
    result.ledger.lost_outside_kg = 0.049; /* 50 g fall off any tube that is drawn out */
    ck_assert_double_eq_tol(mark(&in).parts[PB_SCORE_HANDS].points, 10.0, 1e-9);
    result.ledger.lost_outside_kg = 0.051; /* told twice, it costs once */
    ck_assert_double_eq_tol(mark(&in).parts[PB_SCORE_HANDS].points, 8.0, 1e-9);
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
    exercise.holes[0].y_m = 1.5; /* a brace drawn from above the hole down past it */
    exercise.obstacles[0] = (PbObstacle){PB_OBSTACLE_BRACE, 0.0, 2.0, 0.1, 1.0, 0.04, 1.0};
    ck_assert_int_eq((int)mark(&in).parts[PB_SCORE_HANDS].fault, PB_FAULT_NONE);
}
END_TEST

static PbScoreFault cause_of(const PbScoreInput *in)
{
    PbScore s = mark(in);
    ck_assert_int_gt(s.loss_count, 0);
    return s.losses[0].cause;
}

START_TEST(causes_are_found_in_what_the_hands_did)
{
    PbScoreInput in = good_run();
    patches[7].density_kg_m3 = 40.0; /* 0.75 m */
    lifts[4].mass_kg = 0.0;          /* nothing was packed at 0.64 m: from 0.98 to 0.3 in one go */
    lifts[4].stall_s = -1.0;
    lifts[4].to_s = lifts[4].from_s + 0.5;
    PbScore s = mark(&in);
    ck_assert_int_eq((int)s.losses[0].cause, PB_FAULT_LONG_STEP);
    ck_assert_double_eq_tol(s.losses[0].value, 0.68, 1e-9);
    ck_assert_double_eq_tol(s.losses[0].density_kg_m3, 40.0, 1e-9);
    lifts[4].to_s = lifts[4].from_s + 18.0; /* it rested there: the step was none, little came */
    ck_assert_int_ne((int)cause_of(&in), PB_FAULT_LONG_STEP);
    in = good_run();
    patches[0].density_kg_m3 = 10.0; /* 0.05 m, half of a metre under the last stop */
    lifts[5].mouth_y_m = 0.6;
    ck_assert_int_eq((int)cause_of(&in), PB_FAULT_MISSED);
    exercise.obstacle_count = 1; /* wood keeps the tube from it: no fault of the hands */
    exercise.holes[0].y_m = 1.0;
    exercise.obstacles[0] = (PbObstacle){PB_OBSTACLE_BLOCK, 0.0, 0.3, 0.368, 0.34, 0.0, 1.0};
    s = mark(&in);
    ck_assert_int_eq((int)s.losses[0].cause, PB_FAULT_BEHIND_WOOD);
    ck_assert_double_eq_tol(s.losses[0].value, 0.32, 1e-9);
    in = good_run();
    patches[7].density_kg_m3 = 50.0;
    watch.lifts[4].static_pa = 9900.0; /* half of what this machine has */
    ck_assert_int_eq((int)cause_of(&in), PB_FAULT_WEAK_AIR);
    lifts[4].step_m = 0.6; /* weak air comes before a long step and before leaving early */
    lifts[4].stall_s = -1.0;
    ck_assert_int_eq((int)cause_of(&in), PB_FAULT_WEAK_AIR);
    exercise.machine.static_pa = 9900.0; /* and here it is the machine */
    ck_assert_int_eq((int)cause_of(&in), PB_FAULT_WEAK_MACHINE);
    exercise.machine.static_pa = 19900.0;
    watch.lifts[4].static_pa = 19900.0;
    watch.lifts[4].feed_kg_s = 0.08;
    ck_assert_int_eq((int)cause_of(&in), PB_FAULT_RICH_FEED);
    watch.lifts[4].feed_kg_s = 0.05;
    ck_assert_int_eq((int)cause_of(&in), PB_FAULT_LEFT_EARLY);
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
    patches[0].density_kg_m3 = 10.0; /* beyond the last stop, long after a plug was cleared */
    lifts[5].mouth_y_m = 0.6;
    watch.events[0] = (PbEvent){PB_EVENT_PLUG, 250, 0.18, 1.9, 0.6};
    watch.event_count = 1;
    ck_assert_int_eq((int)cause_of(&in), PB_FAULT_MISSED);
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
    lifts[5].to_s = lifts[5].stall_s + 10.0;
    ck_assert_double_lt(mark(&in).total, 100.0);
    uint64_t before = pb_rubric_hash(&rubric);
    rubric.after_stall_s = 12.0;
    ck_assert_uint_ne(before, pb_rubric_hash(&rubric));
    ck_assert_double_eq_tol(mark(&in).total, 100.0, 1e-9);
    watch.peak_load = 0.9;
    rubric.weight[PB_SCORE_NO_HARM] = 30.0; /* of 100, without years */
    rubric.panel_zero = 0.901;
    PbScore s = mark(&in);
    ck_assert_double_eq_tol(s.total, 70.0 + 30.0 * 0.001 / 0.151, 1e-9);
}
END_TEST

START_TEST(refuses_figures_that_are_not_finite_and_leaves_output_alone)
{
    PbScoreInput in = good_run();
    PbScore s = {.total = -7.0};
    result.mean_kg_m3 = (double)NAN;
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
    /* an empty bay has no points to lose: the gate says it */
    ck_assert(s.gates[PB_GATE_CHECKS].is_shut && s.verdict == PB_VERDICT_FAIL);
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
    ck_assert(s.gates[PB_GATE_CHECKS].is_shut);
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
    tcase_add_test(normal, patches_count_by_how_far_they_are_from_target);
    tcase_add_test(normal, hands_lose_by_what_they_left_soft);
    tcase_add_test(normal, material_counts_what_was_wasted);
    tcase_add_test(normal, what_stops_the_tube_excuses_the_end_behind_it);
    tcase_add_test(normal, causes_are_found_in_what_the_hands_did);
    tcase_add_test(normal, years_lose_by_gap_and_by_void);
    tcase_add_test(normal, a_rubric_changes_weights_limits_and_the_pass_mark);
    tcase_add_test(limits, blocked_patches_are_not_soft);
    tcase_add_test(limits, panel_load_costs_from_three_quarters_of_expected_strength);
    tcase_add_test(limits, plugs_and_feeding_outside_cost_extra);
    tcase_add_test(refusals, refuses_figures_that_are_not_finite_and_leaves_output_alone);
    suite_add_tcase(suite, normal);
    suite_add_tcase(suite, limits);
    suite_add_tcase(suite, refusals);
    return run_suite(suite);
}
