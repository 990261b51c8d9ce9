/* Commands by value: the limits of each, a refusal that changes nothing, and what a command that is
 * taken comes to at the tube, the hose and the hand. */
#include "suite.h"

#include "core/pb_math.h"
#include "core/session.h"
#include "session/session_private.h"

#include <math.h>
#include <stdint.h>

static PbSession *session_of(const PbExercise *e)
{
    PbSessionConfig config = pb_session_default();
    PbSession *s;
    if (e != NULL) {
        config.exercise = *e;
    }
    ck_assert_int_eq(pb_session_create(&config, &s, NULL), PB_OK);
    return s;
}

static int told(const PbSession *s, PbEventKind kind)
{
    int count, found = 0;
    const PbEvent *e = pb_session_events(s, &count);
    for (int i = 0; i < count; i++) {
        found += e[i].kind == kind;
    }
    return found;
}

static void steps(PbSession *s, double seconds)
{
    for (int i = 0; i < (int)(seconds / PB_TICK_S + 0.5); i++) {
        ck_assert_int_eq(pb_session_step(s, NULL, 0), PB_OK);
    }
}

static void give(PbSession *s, PbCommandKind kind, double value)
{
    const PbCommand c = {kind, value};
    ck_assert_int_eq(pb_session_step(s, &c, 1), PB_OK);
}

static const struct {
    PbCommandKind kind;
    double low, high;
} ranges[] = {{PB_COMMAND_TUBE_TARGET, -1.0, 20.0},
              {PB_COMMAND_TUBE_RATE, -5.0, 5.0},
              {PB_COMMAND_BLOWER, 0.0, 1.0},
              {PB_COMMAND_FEED, 0.0, 0.06}, /* the gate of this machine, below */
              {PB_COMMAND_MARK, -1e9, 1e9}};

static PbExercise with_gate(void)
{
    PbExercise e = pb_exercise_default();
    e.machine.feed_max_kg_s = 0.06;
    e.feed_kg_s = 0.02;
    return e;
}

/* Refused alone, and behind a command that would have been taken. */
static void refuses(PbSession *s, PbCommandKind kind, double value)
{
    const PbCommand c[2] = {{PB_COMMAND_BLOWER, 0.3}, {kind, value}};
    uint64_t before = pb_session_hash(s);
    int tick = pb_session_view(s)->tick;
    ck_assert_msg(pb_session_step(s, &c[1], 1) == PB_ERR_RANGE, "kind %d: %g", (int)kind, value);
    ck_assert_int_eq(pb_session_step(s, c, 2), PB_ERR_RANGE);
    ck_assert(pb_session_hash(s) == before);
    ck_assert_int_eq(pb_session_view(s)->tick, tick);
    ck_assert_double_eq(pb_session_view(s)->signals.blower_setting, 1.0);
}

START_TEST(each_range_is_taken_to_its_ends_and_no_further)
{
    PbExercise e = with_gate();
    PbCommandKind kind = ranges[_i].kind;
    double low = ranges[_i].low, high = ranges[_i].high;
    PbSession *s = session_of(&e);
    refuses(s, kind, nextafter(low, -1e300));
    refuses(s, kind, nextafter(high, 1e300));
    refuses(s, kind, 10.0 * high);
    refuses(s, kind, (double)NAN);
    refuses(s, kind, (double)INFINITY);
    refuses(s, kind, -(double)INFINITY);
    give(s, kind, high);
    give(s, kind, low);
    pb_session_destroy(s);
}
END_TEST

START_TEST(switches_know_two_places_and_orders_any_number)
{
    const double bad[] = {0.5, -2.0, 2.0, (double)NAN, (double)INFINITY};
    PbSession *s = session_of(NULL);
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        refuses(s, PB_COMMAND_TURN, bad[i]);
        refuses(s, PB_COMMAND_MACHINE, bad[i]);
    }
    refuses(s, PB_COMMAND_TURN, 0.0);
    refuses(s, PB_COMMAND_MACHINE, -1.0);
    refuses(s, PB_COMMAND_CLEAR_PLUG, (double)NAN);
    refuses(s, PB_COMMAND_FINISH, (double)INFINITY);
    refuses(s, (PbCommandKind)0, 0.0);
    refuses(s, (PbCommandKind)(PB_COMMAND_LAST + 1), 1.0);
    give(s, PB_COMMAND_TURN, -1.0);
    give(s, PB_COMMAND_MACHINE, 1.0);
    give(s, PB_COMMAND_MACHINE, 0.0);
    give(s, PB_COMMAND_CLEAR_PLUG, -7.0);
    give(s, PB_COMMAND_FINISH, 1e9);
    pb_session_destroy(s);
}
END_TEST

START_TEST(the_gate_feeds_what_it_is_set_to)
{
    PbExercise e = with_gate();
    PbSession *s = session_of(&e);
    give(s, PB_COMMAND_FEED, 0.06);
    ck_assert_double_eq(pb_session_view(s)->signals.feed_set_kg_s, 0.06);
    give(s, PB_COMMAND_MACHINE, 1.0);
    steps(s, 2.0 - PB_TICK_S);
    ck_assert_double_eq_tol(pb_session_view(s)->ledger.fed_kg, 2.0 * 0.06, 1e-12);
    pb_session_destroy(s);
}
END_TEST

/* To 20 mm before the plate, and no further than 0.30 m of the tube stay outside. */
START_TEST(the_tube_goes_in_to_the_plate_or_to_its_length)
{
    PbExercise e = pb_exercise_default();
    PbSession *s = session_of(&e);
    give(s, PB_COMMAND_TUBE_TARGET, 20.0);
    steps(s, 10.0);
    ck_assert_double_eq_tol(pb_session_view(s)->signals.tube_in_m,
                            e.height_m - e.holes[0].y_m - 0.02, 1e-9);
    give(s, PB_COMMAND_TUBE_TARGET, -1.0);
    steps(s, 10.0);
    ck_assert_double_eq_tol(pb_session_view(s)->signals.tube_in_m, -0.05, 1e-9);
    give(s, PB_COMMAND_TURN, -1.0);
    give(s, PB_COMMAND_TUBE_TARGET, 20.0);
    steps(s, 10.0);
    ck_assert_double_eq_tol(pb_session_view(s)->signals.tube_in_m, e.holes[0].y_m - 0.02, 1e-9);
    pb_session_destroy(s);
    e.machine.tube_length_m = 1.25;
    s = session_of(&e);
    give(s, PB_COMMAND_TUBE_TARGET, 20.0);
    steps(s, 10.0);
    ck_assert_double_eq_tol(pb_session_view(s)->signals.tube_in_m, 0.95, 1e-9);
    pb_session_destroy(s);
}
END_TEST

START_TEST(the_mouth_turns_within_a_tenth_of_a_metre_of_the_hole)
{
    PbSession *s = session_of(NULL);
    give(s, PB_COMMAND_TUBE_TARGET, 0.101);
    steps(s, 2.0);
    give(s, PB_COMMAND_TURN, -1.0);
    ck_assert_int_eq(told(s, PB_EVENT_TURN_REFUSED), 1);
    ck_assert_int_eq(pb_session_view(s)->signals.direction, 1);
    give(s, PB_COMMAND_TUBE_TARGET, 0.099);
    steps(s, 2.0);
    give(s, PB_COMMAND_TURN, -1.0);
    ck_assert_int_eq(told(s, PB_EVENT_TURNED), 1);
    ck_assert_int_eq(pb_session_view(s)->signals.direction, -1);
    pb_session_destroy(s);
}
END_TEST

START_TEST(a_run_ends_three_seconds_after_all_is_quiet)
{
    PbSession *s = session_of(NULL);
    give(s, PB_COMMAND_FINISH, 0.0); /* the machine was never on: quiet from here */
    while (!pb_session_is_over(s)) {
        steps(s, PB_TICK_S);
    }
    ck_assert_double_eq_tol(pb_session_view(s)->time_s, 3.0, 1.5 * PB_TICK_S);
    pb_session_destroy(s);
}
END_TEST

/* One thing at a time is spoilt; the step that looks at the sums says so within a second. */
START_TEST(a_ledger_that_does_not_close_stops_the_run)
{
    const double off_kg[] = {1e-12, 1e-6, -1e-6, (double)NAN};
    for (size_t i = 0; i < sizeof off_kg / sizeof off_kg[0]; i++) {
        PbSession *s = session_of(NULL);
        PbSim *sim = (PbSim *)(uintptr_t)pb_session_sim(s);
        give(s, PB_COMMAND_TUBE_TARGET, 1.0);
        give(s, PB_COMMAND_MACHINE, 1.0);
        steps(s, 5.0);
        if (i < 3) {
            sim->ledger.fed_kg += off_kg[i];
        } else {
            sim->gas_pa[pb_at(sim, 3, 3)] = off_kg[i];
        }
        PbStatus status = PB_OK;
        for (int n = 0; n < 25 && status == PB_OK; n++) {
            status = pb_session_step(s, NULL, 0);
        }
        ck_assert_int_eq(status, i == 0 ? PB_OK : PB_ERR_DIVERGED);
        pb_session_destroy(s);
    }
}
END_TEST

/* A dune over half the section lets air over and through: both ways take the same pressure and
 * together all of the air. A slug is Darcy's, by its length. What flies or lies thin costs nothing.
 */
START_TEST(material_at_rest_in_the_hose_costs_pressure)
{
    PbSession *s = session_of(NULL);
    PbSim *sim = (PbSim *)(uintptr_t)pb_session_sim(s);
    const double flow = 0.02, bore = sim->ex.machine.hose_bore_m, area = 0.25 * PB_PI * bore * bore;
    const double rho = sim->k.slug_kg_m3, length = bore * sim->k.dune_bores;
    double through = pb_airflow_sigma(sim, rho) * length / area;
    double empty = pb_hose_loss_pa(sim, flow);
    sim->hose.load_kg = 0.9 * sim->k.plug_kg;
    ck_assert_double_eq(pb_hose_loss_pa(sim, flow), empty);
    sim->hose.slug_kg = 0.5 * rho * area * length;
    double dune = pb_hose_loss_pa(sim, flow) - empty;
    double over_speed = sqrt(dune / (0.5 * sim->k.air_density_kg_m3 * (4.0 - 1.0)));
    ck_assert_double_eq_tol(over_speed * area + dune / (2.0 * through), flow, 1e-9);
    sim->hose.slug_kg = 2.0 * rho * area * length;
    double slug = pb_hose_loss_pa(sim, flow) - empty;
    ck_assert_double_eq_tol(slug, 2.0 * through * flow, 1e-6 * slug);
    sim->hose.slug_kg = 1e-15;
    ck_assert_double_eq_tol(pb_hose_loss_pa(sim, flow), empty, 1e-6);
    pb_session_destroy(s);
}
END_TEST

/* Air alone into an empty bay: what comes in hisses out through the cracks and the hole, and the
 * hand that pushes feels the air in the mouth. */
START_TEST(hiss_and_push_follow_the_air)
{
    PbExercise e = pb_exercise_default();
    PbSession *s = session_of(&e);
    give(s, PB_COMMAND_FEED, 0.0);
    give(s, PB_COMMAND_TUBE_TARGET, 1.0);
    steps(s, 5.0);
    ck_assert_double_eq(pb_session_view(s)->signals.leak_hiss, 0.0);
    give(s, PB_COMMAND_MACHINE, 1.0);
    steps(s, 8.0);
    const PbView *v = pb_session_view(s);
    double through_hole = pb_session_sim(s)->hole_flow_m3_s;
    double hiss_m3_s = v->signals.leak_hiss * e.machine.open_flow_m3_s;
    ck_assert_double_gt(hiss_m3_s, 0.005);
    ck_assert_double_eq_tol(hiss_m3_s + through_hole, v->signals.flow_m3_s,
                            0.02 * v->signals.flow_m3_s);
    double mouth_pa = v->mouth_pa, bore = e.machine.tube_bore_m;
    give(s, PB_COMMAND_TUBE_RATE, 0.01);
    ck_assert_double_gt(mouth_pa, 20.0);
    ck_assert_double_eq_tol(v->signals.push_back_n, mouth_pa * 0.25 * PB_PI * bore * bore,
                            1e-6 * mouth_pa);
    give(s, PB_COMMAND_TUBE_RATE, -0.01);
    ck_assert_double_lt(v->signals.push_back_n, 1e-9); /* nothing lies round it yet */
    pb_session_destroy(s);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("commands");
    TCase *normal = tcase_create("normal");
    tcase_set_timeout(normal, 120.0);
    tcase_add_loop_test(normal, each_range_is_taken_to_its_ends_and_no_further, 0,
                        (int)(sizeof ranges / sizeof ranges[0]));
    tcase_add_test(normal, switches_know_two_places_and_orders_any_number);
    tcase_add_test(normal, the_gate_feeds_what_it_is_set_to);
    tcase_add_test(normal, the_tube_goes_in_to_the_plate_or_to_its_length);
    tcase_add_test(normal, the_mouth_turns_within_a_tenth_of_a_metre_of_the_hole);
    tcase_add_test(normal, a_run_ends_three_seconds_after_all_is_quiet);
    tcase_add_test(normal, a_ledger_that_does_not_close_stops_the_run);
    tcase_add_test(normal, material_at_rest_in_the_hose_costs_pressure);
    tcase_add_test(normal, hiss_and_push_follow_the_air);
    suite_add_tcase(suite, normal);
    return run_suite(suite);
}
