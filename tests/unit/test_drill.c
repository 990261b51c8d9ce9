/* Drills: what a trial is, what a press is worth, when there is evidence. Ears: test_audio_drill.
 */
#include "core/drill.h"

#include "suite.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static PbSessionConfig base;
static PbDrillTrial one, two;

static void begin(void)
{
    base = pb_session_default();
}

static void make(uint64_t seed, int number, PbDrillTrial *t)
{
    PbError err = {0};
    ck_assert_msg(pb_drill_make(seed, number, &base, NULL, NULL, t, &err) == PB_OK, "%s",
                  err.message);
}

/* What the session of a trial says by itself: when each kind of event first came in it. */
static void first_events(const PbDrillTrial *t, double first_s[PB_EVENT_LOCKED_OUT + 1])
{
    PbSession *s;
    PbError err = {0};
    PbCommand commands[18];
    ck_assert(pb_session_create(&t->config, &s, &err) == PB_OK);
    for (int i = 0; i <= PB_EVENT_LOCKED_OUT; i++) {
        first_s[i] = -1.0;
    }
    int end = t->start_tick + (int)(t->length_s / PB_TICK_S);
    while (pb_session_view(s)->tick < end) {
        int count = pb_drill_commands(t, pb_session_view(s)->tick, commands), n = 0;
        ck_assert_int_eq(pb_session_step(s, commands, count), PB_OK);
        const PbEvent *e = pb_session_events(s, &n);
        int tick = pb_session_view(s)->tick;
        for (int i = 0; i < n && tick > t->start_tick; i++) {
            double *at = &first_s[e[i].kind];
            *at = *at < 0.0 ? (tick - t->start_tick) * PB_TICK_S : *at;
        }
    }
    pb_session_destroy(s);
}

/* Every trial of a sitting holds what it says, at the moment that it says. */
START_TEST(a_trial_holds_what_it_says)
{
    double at[PB_EVENT_LOCKED_OUT + 1];
    int kinds[PB_DRILL_KINDS] = {0};
    for (int i = 0; i < PB_DRILL_TRIALS; i++) {
        make((uint64_t)_i, i, &one);
        first_events(&one, at);
        kinds[one.kind]++;
        ck_assert_double_le(one.length_s, 26.0);
        ck_assert_double_lt(at[PB_EVENT_PLUG], 0.0);
        ck_assert_double_lt(at[PB_EVENT_BLOW_OUT], 0.0);
        if (one.event_s >= 0.0) {
            ck_assert_double_ge(one.onset_s, 2.95);
            ck_assert_double_ge(one.event_s, one.onset_s);
            ck_assert_double_ge(one.length_s, one.event_s + PB_DRILL_LATE_S);
        }
        if (one.kind == PB_DRILL_STALL) {
            ck_assert_double_eq_tol(at[PB_EVENT_STALL], one.onset_s, 1e-9);
            ck_assert_double_ge(one.event_s, one.onset_s + 0.2);
            ck_assert_double_le(one.event_s, one.onset_s + 2.0);
            ck_assert_double_lt(at[PB_EVENT_CREAK], 0.0);
        } else if (one.kind == PB_DRILL_CLOG) { /* the machine sags, then the line chokes */
            ck_assert_double_le(one.event_s, one.onset_s + 1.0);
            ck_assert_double_ge(at[PB_EVENT_STALL], one.event_s);
        } else if (one.kind == PB_DRILL_CREAK) {
            ck_assert_double_eq_tol(at[PB_EVENT_CREAK], one.onset_s, 1e-9);
        } else {
            ck_assert_double_lt(one.event_s, 0.0);
            ck_assert_double_lt(at[PB_EVENT_CREAK], 0.0);
            if (one.kind == PB_DRILL_NOTHING) {
                ck_assert_double_lt(at[PB_EVENT_STALL], 0.0);
            }
        }
    }
    ck_assert_int_ge(kinds[PB_DRILL_STALL], 8);
    ck_assert_int_ge(kinds[PB_DRILL_STARVED] + kinds[PB_DRILL_NOTHING], 1);
    ck_assert_int_le(kinds[PB_DRILL_STARVED] + kinds[PB_DRILL_NOTHING], 3);
    ck_assert_int_ge(kinds[PB_DRILL_CLOG] + kinds[PB_DRILL_CREAK], 1);
}
END_TEST

static double told_last;
static int told_count;
static int told(void *user, double share)
{
    ck_assert(share >= told_last && share <= 1.0);
    told_last = share;
    told_count++;
    return user != NULL;
}

START_TEST(the_same_seed_gives_the_same_trial_and_another_another)
{
    PbError err = {0};
    make(7, 3, &one);
    ck_assert_int_eq(pb_drill_make(7, 3, &base, told, NULL, &two, &err), PB_OK);
    ck_assert_int_gt(told_count, 3);
    ck_assert_int_eq(one.start_tick, two.start_tick);
    ck_assert_int_eq(one.command_count, two.command_count);
    ck_assert(one.config.seed == two.config.seed);
    ck_assert_double_eq(one.event_s, two.event_s);
    ck_assert_double_eq(one.config.exercise.feed_kg_s, two.config.exercise.feed_kg_s);
    make(8, 3, &two);
    ck_assert(one.config.seed != two.config.seed);
    told_last = 0.0;
    ck_assert_int_eq(pb_drill_make(7, 3, &base, told, &two, &two, &err), PB_ERR_STATE);
    ck_assert(two.config.seed != one.config.seed); /* as it was */
}
END_TEST

START_TEST(a_press_is_good_from_0_15_to_1_0_s_after_the_event)
{
    static const struct {
        double press_s;
        PbDrillOutcome is;
        double listened_s;
    } rows[] = {
        {9.0, PB_DRILL_FALSE, 9.0},   {9.79, PB_DRILL_FALSE, 9.79}, {9.9, PB_DRILL_SOON, 9.8},
        {10.14, PB_DRILL_SOON, 9.8},  {10.15, PB_DRILL_GOOD, 9.8},  {11.0, PB_DRILL_GOOD, 9.8},
        {11.01, PB_DRILL_LATE, 9.8},  {12.5, PB_DRILL_LATE, 9.8},   {12.51, PB_DRILL_MISSED, 9.8},
        {-1.0, PB_DRILL_MISSED, 9.8}, {13.5, PB_DRILL_MISSED, 9.8}};
    PbDrillTrial t = {.onset_s = 9.8, .event_s = 10.0, .length_s = 13.0};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        PbDrillAnswer a = pb_drill_press(&t, rows[i].press_s);
        ck_assert_msg(a.outcome == rows[i].is, "%g: %d", rows[i].press_s, (int)a.outcome);
        ck_assert_double_eq_tol(a.listened_s, rows[i].listened_s, 1e-9);
    }
    ck_assert_double_eq_tol(pb_drill_press(&t, 10.4).error_s, 0.4, 1e-9);
    ck_assert_double_eq_tol(pb_drill_press(&t, 9.5).error_s, -0.5, 1e-9);
    PbDrillTrial calm = {.onset_s = -1.0, .event_s = -1.0, .length_s = 15.0};
    ck_assert_int_eq(pb_drill_press(&calm, -1.0).outcome, PB_DRILL_LEFT);
    ck_assert_double_eq(pb_drill_press(&calm, -1.0).listened_s, 15.0);
    ck_assert_int_eq(pb_drill_press(&calm, 3.0).outcome, PB_DRILL_FALSE);
}
END_TEST

/* Wald: log(0.95 / 0.05) = 2.944; a false press weighs log(0.03 / 0.008) = 1.322, a second of
 * listening 0.022. So 133.8 s without one, 193.9 s with one; three in the first 46 s are too many.
 */
START_TEST(no_verdict_before_evidence)
{
    static const struct {
        int events, caught, false_presses;
        double listened_s;
        PbDrillVerdict is;
    } rows[] = {{0, 0, 0, 0.0, PB_DRILL_UNDECIDED},     {12, 12, 0, 133.0, PB_DRILL_UNDECIDED},
                {12, 12, 0, 134.5, PB_DRILL_CAN_TELL},  {12, 11, 0, 134.5, PB_DRILL_CAN_TELL},
                {10, 10, 0, 140.0, PB_DRILL_UNDECIDED}, {12, 12, 1, 193.0, PB_DRILL_UNDECIDED},
                {12, 12, 1, 194.5, PB_DRILL_CAN_TELL},  {3, 3, 3, 45.0, PB_DRILL_NOT_YET},
                {3, 3, 3, 48.0, PB_DRILL_UNDECIDED},    {3, 1, 0, 40.0, PB_DRILL_NOT_YET},
                {24, 22, 0, 300.0, PB_DRILL_CAN_TELL},  {24, 21, 0, 300.0, PB_DRILL_NOT_YET}};
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        PbDrillTally y = {.events = rows[i].events,
                          .caught = rows[i].caught,
                          .false_presses = rows[i].false_presses,
                          .listened_s = rows[i].listened_s};
        ck_assert_msg(pb_drill_verdict(&y) == rows[i].is, "row %zu: %d", i,
                      (int)pb_drill_verdict(&y));
    }
}
END_TEST

START_TEST(streak_and_median_are_counted)
{
    PbDrillTrial t = {.onset_s = 9.8, .event_s = 10.0, .length_s = 13.0};
    PbDrillTrial calm = {.onset_s = -1.0, .event_s = -1.0, .length_s = 15.0};
    static const double press_s[] = {10.4, 10.2, -1.0, 9.0, 11.8, 10.9};
    PbDrillTally y = {0}, more = {0};
    ck_assert(isnan(pb_drill_median_s(&y)));
    for (int i = 0; i < 6; i++) {
        const PbDrillTrial *of = i == 2 ? &calm : &t;
        PbDrillAnswer a = pb_drill_press(of, press_s[i]);
        pb_drill_count(&y, of, &a);
    }
    ck_assert_int_eq(y.trials, 6);
    ck_assert_int_eq(y.events, 4);
    ck_assert_int_eq(y.caught, 4);
    ck_assert_int_eq(y.good, 3);
    ck_assert_int_eq(y.late, 1);
    ck_assert_int_eq(y.left, 1);
    ck_assert_int_eq(y.false_presses, 1);
    ck_assert_int_eq(y.best_streak, 3);
    ck_assert_int_eq(y.streak, 1);
    ck_assert_double_eq_tol(pb_drill_median_s(&y), 0.65, 1e-9); /* of 0.2, 0.4, 0.9, 1.8 */
    ck_assert_double_eq_tol(y.listened_s, 4 * 9.8 + 15.0 + 9.0, 1e-9);
    pb_drill_add(&more, &y);
    ck_assert_int_eq(more.caught, 4);
    ck_assert_double_eq(more.listened_s, y.listened_s);
    ck_assert_int_eq(more.streak, 0);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("drill");
    TCase *t = tcase_create("all");
    tcase_set_timeout(t, 120);
    tcase_add_unchecked_fixture(t, begin, NULL);
    tcase_add_loop_test(t, a_trial_holds_what_it_says, 1, 2);
    tcase_add_test(t, the_same_seed_gives_the_same_trial_and_another_another);
    tcase_add_test(t, a_press_is_good_from_0_15_to_1_0_s_after_the_event);
    tcase_add_test(t, no_verdict_before_evidence);
    tcase_add_test(t, streak_and_median_are_counted);
    suite_add_tcase(s, t);
    return run_suite(s);
}
