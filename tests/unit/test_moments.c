/* What is told of a run, and when: fill out of the hole, a plug and the clearing of it, a stall. */
#include "suite.h"

#include "core/session.h"

#include <math.h>

typedef struct Told {
    int of[32];
} Told;

static PbSession *session_with(double static_pa)
{
    PbSessionConfig config = pb_session_default();
    PbSession *s;
    if (static_pa > 0.0) {
        config.exercise.machine.static_pa = static_pa;
    }
    ck_assert_int_eq(pb_session_create(&config, &s, NULL), PB_OK);
    return s;
}

static double balance_kg(const PbSession *s)
{
    const PbLedger *l = &pb_session_view(s)->ledger;
    return l->fed_kg - l->in_bay_kg - l->in_hose_kg - l->airborne_kg - l->lost_hole_kg -
           l->lost_openings_kg - l->lost_leaks_kg - l->lost_outside_kg - l->cleared_kg -
           l->fallen_kg;
}

/* Steps until the seconds are over or `until` is told (0: nothing is waited for). */
static Told go(PbSession *s, double seconds, PbEventKind until)
{
    Told t = {{0}};
    for (int i = 0; i < (int)(seconds / PB_TICK_S + 0.5) && !pb_session_is_over(s); i++) {
        int count;
        ck_assert_int_eq(pb_session_step(s, NULL, 0), PB_OK);
        const PbEvent *e = pb_session_events(s, &count);
        for (int n = 0; n < count; n++) {
            t.of[e[n].kind]++;
        }
        if ((int)until != 0 && t.of[until] > 0) {
            break;
        }
    }
    return t;
}

static Told give(PbSession *s, PbCommandKind kind, double value)
{
    const PbCommand c = {kind, value};
    int count;
    Told t = {{0}};
    ck_assert_int_eq(pb_session_step(s, &c, 1), PB_OK);
    const PbEvent *e = pb_session_events(s, &count);
    for (int n = 0; n < count; n++) {
        t.of[e[n].kind]++;
    }
    return t;
}

static const PbSignals *signals(const PbSession *s)
{
    return &pb_session_view(s)->signals;
}

START_TEST(fill_in_front_of_the_hole_is_told_while_it_comes)
{
    PbSession *s = session_with(0.0); /* the tube hangs before the hole */
    (void)give(s, PB_COMMAND_MACHINE, 1.0);
    Told t = go(s, 60.0, (PbEventKind)0);
    ck_assert_int_eq(t.of[PB_EVENT_FEED_OUTSIDE], 1); /* once, however long */
    ck_assert_int_eq(signals(s)->spilling, 1);
    double feed = signals(s)->feed_set_kg_s;
    ck_assert_double_eq_tol(signals(s)->spill_kg_s, feed, 0.02 * feed);
    ck_assert_double_gt(pb_session_view(s)->ledger.lost_outside_kg, 0.8 * 60.0 * feed);
    (void)give(s, PB_COMMAND_MACHINE, 0.0);
    t = go(s, 10.0, (PbEventKind)0);
    ck_assert_int_eq(t.of[PB_EVENT_FEED_OUTSIDE], 0);
    ck_assert_int_eq(signals(s)->spilling, 0);
    (void)give(s, PB_COMMAND_MACHINE, 1.0);
    t = go(s, 10.0, (PbEventKind)0);
    ck_assert_int_eq(t.of[PB_EVENT_FEED_OUTSIDE], 1); /* and again the second time */
    pb_session_destroy(s);
}
END_TEST

START_TEST(packing_and_closing_the_hole_blows_nothing_outside)
{
    PbSession *s = session_with(0.0);
    (void)give(s, PB_COMMAND_TUBE_TARGET, 1.0);
    (void)give(s, PB_COMMAND_MACHINE, 1.0);
    Told work = go(s, 40.0, (PbEventKind)0);
    ck_assert_int_eq(signals(s)->spilling, 0);
    (void)give(s, PB_COMMAND_FINISH, 0.0);
    Told end = go(s, 120.0, (PbEventKind)0);
    ck_assert(pb_session_is_over(s));
    ck_assert_int_eq(end.of[PB_EVENT_FINISHED], 1);
    ck_assert_int_eq(work.of[PB_EVENT_FEED_OUTSIDE] + end.of[PB_EVENT_FEED_OUTSIDE], 0);
    pb_session_destroy(s);
}
END_TEST

/* Too weak to carry the feed: the hose fills until it is full. */
static PbSession *plugged(void)
{
    PbSession *s = session_with(6000.0);
    (void)give(s, PB_COMMAND_TUBE_TARGET, 0.8);
    (void)give(s, PB_COMMAND_FEED, 0.06);
    (void)give(s, PB_COMMAND_MACHINE, 1.0);
    ck_assert_int_eq(go(s, 60.0, PB_EVENT_PLUG).of[PB_EVENT_PLUG], 1);
    ck_assert_int_eq(signals(s)->plugged, 1);
    return s;
}

START_TEST(a_plugged_hose_takes_no_more_material)
{
    PbSession *s = plugged();
    double fed = pb_session_view(s)->ledger.fed_kg, bags = signals(s)->bags_used;
    Told t = go(s, 120.0, (PbEventKind)0);
    ck_assert_int_eq(t.of[PB_EVENT_PLUG] + t.of[PB_EVENT_STALL], 0);
    ck_assert_int_eq(signals(s)->machine_on, 1);
    ck_assert_double_eq(pb_session_view(s)->ledger.fed_kg, fed);
    ck_assert_double_eq(signals(s)->bags_used, bags);
    ck_assert_double_eq(pb_session_view(s)->delivery_kg_s, 0.0);
    ck_assert_double_lt(fabs(balance_kg(s)), 1e-12);
    pb_session_destroy(s);
}
END_TEST

START_TEST(a_plug_is_cleared_with_the_machine_off_and_it_stays_off)
{
    PbSession *s = plugged();
    ck_assert_int_eq(give(s, PB_COMMAND_CLEAR_PLUG, 0.0).of[PB_EVENT_CLEAR_REFUSED], 1);
    ck_assert_double_eq(signals(s)->clear_left_s, 0.0);
    ck_assert_int_eq(signals(s)->machine_on, 1);
    (void)give(s, PB_COMMAND_MACHINE, 0.0);
    ck_assert_int_eq(give(s, PB_COMMAND_CLEAR_PLUG, 0.0).of[PB_EVENT_CLEAR_REFUSED], 0);
    double whole = signals(s)->clear_left_s;
    ck_assert_double_eq_tol(whole, pb_constants_default().clear_plug_s, 2.0 * PB_TICK_S);
    ck_assert_int_eq(go(s, 10.0, (PbEventKind)0).of[PB_EVENT_PLUG_CLEARED], 0);
    ck_assert_double_eq_tol(signals(s)->clear_left_s, whole - 10.0, 1e-9);
    /* asked again it does not begin anew; switched on it does not start, now or later */
    (void)give(s, PB_COMMAND_CLEAR_PLUG, 0.0);
    ck_assert_double_lt(signals(s)->clear_left_s, whole - 10.0);
    ck_assert_int_eq(give(s, PB_COMMAND_MACHINE, 1.0).of[PB_EVENT_LOCKED_OUT], 1);
    ck_assert_int_eq(signals(s)->machine_on, 0);
    ck_assert_int_eq(go(s, 60.0, PB_EVENT_PLUG_CLEARED).of[PB_EVENT_PLUG_CLEARED], 1);
    ck_assert_double_gt(pb_session_view(s)->ledger.cleared_kg, 0.5);
    (void)go(s, 20.0, (PbEventKind)0);
    ck_assert_int_eq(signals(s)->plugged, 0);
    ck_assert_int_eq(signals(s)->machine_on, 0);
    ck_assert_double_lt(signals(s)->blower_speed, 0.01);
    ck_assert_double_lt(fabs(balance_kg(s)), 1e-12);
    ck_assert_int_eq(give(s, PB_COMMAND_CLEAR_PLUG, 0.0).of[PB_EVENT_CLEAR_REFUSED], 1);
    (void)give(s, PB_COMMAND_MACHINE, 1.0);
    ck_assert_int_eq(signals(s)->machine_on, 1);
    (void)go(s, 3.0, (PbEventKind)0);
    ck_assert_double_gt(pb_session_view(s)->delivery_kg_s, 0.0);
    pb_session_destroy(s);
}
END_TEST

/* Switched off for a second at a stop, or the gate shut for a while: fill that is not back yet is
 * no stall; the one that comes afterwards is. */
START_TEST(a_machine_that_comes_back_is_no_stall)
{
    static const PbCommand pause[2][2] = {{{PB_COMMAND_MACHINE, 0.0}, {PB_COMMAND_MACHINE, 1.0}},
                                          {{PB_COMMAND_FEED, 0.0}, {PB_COMMAND_FEED, 0.03}}};
    PbSession *s = session_with(0.0);
    (void)give(s, PB_COMMAND_FEED, 0.03);
    (void)give(s, PB_COMMAND_TUBE_TARGET, 0.6);
    (void)give(s, PB_COMMAND_MACHINE, 1.0);
    ck_assert_int_eq(go(s, 12.0, (PbEventKind)0).of[PB_EVENT_STALL], 0);
    const PbCommand *c = pause[_i];
    (void)give(s, c[0].kind, c[0].value);
    ck_assert_int_eq(go(s, _i == 0 ? 1.0 : 6.0, (PbEventKind)0).of[PB_EVENT_STALL], 0);
    Told t = give(s, c[1].kind, c[1].value);
    ck_assert_int_eq(t.of[PB_EVENT_STALL] + go(s, 6.0, (PbEventKind)0).of[PB_EVENT_STALL], 0);
    ck_assert_double_gt(pb_session_view(s)->delivery_kg_s, 0.8 * 0.03);
    ck_assert_int_eq(go(s, 120.0, PB_EVENT_STALL).of[PB_EVENT_STALL], 1);
    pb_session_destroy(s);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("moments");
    TCase *normal = tcase_create("normal");
    tcase_set_timeout(normal, 120.0);
    tcase_add_test(normal, fill_in_front_of_the_hole_is_told_while_it_comes);
    tcase_add_test(normal, packing_and_closing_the_hole_blows_nothing_outside);
    tcase_add_test(normal, a_plugged_hose_takes_no_more_material);
    tcase_add_test(normal, a_plug_is_cleared_with_the_machine_off_and_it_stays_off);
    tcase_add_loop_test(normal, a_machine_that_comes_back_is_no_stall, 0, 2);
    suite_add_tcase(suite, normal);
    return run_suite(suite);
}
