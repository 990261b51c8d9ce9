/* The face of a run: memory, refusals, commands, the same bits on every vector path. */
#include "suite.h"

#include "core/replay.h"
#include "core/session.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

typedef struct Counter {
    int calls, fail_at;
    int alive;
} Counter;

static void *counted_alloc(void *user, size_t bytes)
{
    Counter *c = user;
    if (++c->calls == c->fail_at) {
        return NULL;
    }
    c->alive++;
    return aligned_alloc(64, (bytes + 63u) & ~(size_t)63u);
}

static void counted_free(void *user, void *memory)
{
    Counter *c = user;
    c->alive -= memory != NULL;
    free(memory);
}

static PbSessionConfig counted(Counter *c)
{
    PbSessionConfig config = pb_session_default();
    config.allocator.alloc = counted_alloc;
    config.allocator.free = counted_free;
    config.allocator.user = c;
    return config;
}

static const PbCommand WORK[2] = {{PB_COMMAND_MACHINE, 1.0}, {PB_COMMAND_TUBE_TARGET, 0.8}};

START_TEST(a_step_allocates_nothing)
{
    Counter c = {0, 0, 0};
    PbSessionConfig config = counted(&c);
    PbSession *s;
    ck_assert_int_eq(pb_session_create(&config, &s, NULL), PB_OK);
    int after_create = c.calls;
    ck_assert_int_eq(pb_session_step(s, WORK, 2), PB_OK);
    for (int i = 0; i < 200; i++) {
        ck_assert_int_eq(pb_session_step(s, NULL, 0), PB_OK);
    }
    PbResult r;
    pb_session_result(s, &r);
    ck_assert_int_eq(c.calls, after_create);
    ck_assert_int_lt((int)(pb_session_memory(s) >> 20), 32);
    pb_session_destroy(s);
    ck_assert_int_eq(c.alive, 0);
}
END_TEST

START_TEST(every_failing_allocation_is_said_and_leaks_nothing)
{
    for (int n = 1; n < 10; n++) {
        Counter c = {0, n, 0};
        PbSessionConfig config = counted(&c);
        PbSession *s = NULL;
        PbError err;
        PbStatus status = pb_session_create(&config, &s, &err);
        if (status == PB_OK) {
            double before, after;
            PbStatus leak = pb_session_leak_test(s, 75.0, &before, &after);
            ck_assert(leak == PB_OK || leak == PB_ERR_MEMORY);
            pb_session_destroy(s);
        } else {
            ck_assert_int_eq(status, PB_ERR_MEMORY);
            ck_assert_ptr_null(s);
        }
        ck_assert_int_eq(c.alive, 0);
    }
}
END_TEST

static uint64_t hash_on_path(int path)
{
    PbSessionConfig config = pb_session_default();
    config.vector_path = path;
    PbSession *s;
    if (pb_session_create(&config, &s, NULL) != PB_OK) {
        return 0; /* this machine lacks it */
    }
    ck_assert_int_eq(pb_session_step(s, WORK, 2), PB_OK);
    for (int i = 0; i < 1500; i++) {
        ck_assert_int_eq(pb_session_step(s, NULL, 0), PB_OK);
    }
    uint64_t h = pb_session_hash(s);
    pb_session_destroy(s);
    return h;
}

START_TEST(every_vector_path_gives_the_same_bits)
{
    uint64_t base = hash_on_path(1);
    for (int path = 2; path <= 3; path++) {
        uint64_t h = hash_on_path(path);
        ck_assert(h == 0 || h == base);
    }
    ck_assert(hash_on_path(0) == base);
}
END_TEST

START_TEST(refuses_bad_commands_and_changes_nothing)
{
    PbSessionConfig config = pb_session_default();
    PbSession *s;
    ck_assert_int_eq(pb_session_create(&config, &s, NULL), PB_OK);
    uint64_t before = pb_session_hash(s);
    const PbCommand bad[] = {{PB_COMMAND_BLOWER, 1.5},       {PB_COMMAND_BLOWER, (double)NAN},
                             {PB_COMMAND_FEED, -0.1},        {PB_COMMAND_TURN, 0.0},
                             {PB_COMMAND_MACHINE, 0.5},      {(PbCommandKind)99, 0.0},
                             {PB_COMMAND_TUBE_RATE, 100.0},  {PB_COMMAND_FINISH, (double)NAN},
                             {PB_COMMAND_TUBE_TARGET, -9.0}, {PB_COMMAND_MARK, (double)INFINITY}};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        ck_assert_int_eq(pb_session_step(s, &bad[i], 1), PB_ERR_RANGE);
        ck_assert(pb_session_hash(s) == before);
    }
    pb_session_destroy(s);
}
END_TEST

START_TEST(refuses_bad_configurations)
{
    PbSession *s = NULL;
    PbError err;
    PbSessionConfig config = pb_session_default();
    config.cells_across = 5;
    ck_assert_int_eq(pb_session_create(&config, &s, &err), PB_ERR_RANGE);
    config = pb_session_default();
    config.exercise.width_m = -1.0;
    ck_assert_int_eq(pb_session_create(&config, &s, &err), PB_ERR_RANGE);
    config = pb_session_default();
    config.vector_path = 7;
    ck_assert_int_eq(pb_session_create(&config, &s, &err), PB_ERR_RANGE);
    config = pb_session_default();
    config.constants.rest_kg_m3 = 60.0; /* above the density that stiffness is given at */
    ck_assert_int_eq(pb_session_create(&config, &s, &err), PB_ERR_RANGE);
    ck_assert_ptr_nonnull(strstr(err.message, "rest_kg_m3"));
    ck_assert_ptr_null(s);
    double a, b;
    config = pb_session_default();
    ck_assert_int_eq(pb_session_create(&config, &s, &err), PB_OK);
    ck_assert_int_eq(pb_session_leak_test(s, -1.0, &a, &b), PB_ERR_RANGE);
    pb_session_destroy(s);
    pb_session_destroy(NULL);
}
END_TEST

static int count_events(const PbSession *s, PbEventKind kind)
{
    int count, found = 0;
    const PbEvent *e = pb_session_events(s, &count);
    for (int i = 0; i < count; i++) {
        found += e[i].kind == kind;
    }
    return found;
}

static int step_for(PbSession *s, const PbCommand *c, int n, double seconds, PbEventKind kind)
{
    int found = 0;
    for (int i = 0; i < (int)(seconds / PB_TICK_S) && !pb_session_is_over(s); i++) {
        ck_assert_int_eq(pb_session_step(s, i == 0 ? c : NULL, i == 0 ? n : 0), PB_OK);
        found += count_events(s, kind);
    }
    return found;
}

START_TEST(the_tube_turns_only_at_the_hole)
{
    PbSessionConfig config = pb_session_default();
    PbSession *s;
    ck_assert_int_eq(pb_session_create(&config, &s, NULL), PB_OK);
    PbCommand in = {PB_COMMAND_TUBE_TARGET, 0.6}, turn = {PB_COMMAND_TURN, -1.0},
              out = {PB_COMMAND_TUBE_TARGET, 0.0};
    (void)step_for(s, &in, 1, 3.0, PB_EVENT_TURNED);
    ck_assert_int_eq(step_for(s, &turn, 1, 0.1, PB_EVENT_TURN_REFUSED), 1);
    ck_assert_int_eq(pb_session_view(s)->signals.direction, 1);
    (void)step_for(s, &out, 1, 3.0, PB_EVENT_TURNED);
    ck_assert_int_eq(step_for(s, &turn, 1, 0.1, PB_EVENT_TURNED), 1);
    ck_assert_int_eq(pb_session_view(s)->signals.direction, -1);
    pb_session_destroy(s);
}
END_TEST

START_TEST(the_tube_stops_at_wood)
{
    PbSessionConfig config = pb_session_default();
    PbObstacle o = {PB_OBSTACLE_BLOCK, 0.0, 1.2, config.exercise.width_m, 1.24, 0.0, 1.0};
    config.exercise.obstacles[0] = o;
    config.exercise.obstacle_count = 1;
    PbSession *s;
    ck_assert_int_eq(pb_session_create(&config, &s, NULL), PB_OK);
    PbCommand in = {PB_COMMAND_TUBE_TARGET, 1.7};
    ck_assert_int_ge(step_for(s, &in, 1, 6.0, PB_EVENT_TUBE_BLOCKED), 1);
    ck_assert_double_lt(pb_session_view(s)->mouth_y_m, 1.2);
    ck_assert_double_gt(pb_session_view(s)->mouth_y_m, 1.1);
    pb_session_destroy(s);
}
END_TEST

START_TEST(feeding_with_the_mouth_outside_is_lost_and_said)
{
    PbSessionConfig config = pb_session_default();
    PbSession *s;
    ck_assert_int_eq(pb_session_create(&config, &s, NULL), PB_OK);
    PbCommand on = {PB_COMMAND_MACHINE, 1.0};
    ck_assert_int_eq(step_for(s, &on, 1, 10.0, PB_EVENT_FEED_OUTSIDE), 1);
    ck_assert_double_gt(pb_session_view(s)->ledger.lost_outside_kg, 0.05);
    ck_assert_double_eq(pb_session_view(s)->ledger.in_bay_kg, 0.0);
    pb_session_destroy(s);
}
END_TEST

START_TEST(a_tube_pulled_out_under_pressure_blows_back)
{
    PbSessionConfig config = pb_session_default();
    PbSession *s;
    ck_assert_int_eq(pb_session_create(&config, &s, NULL), PB_OK);
    /* pack the foot of the wall hard round the hole, then pull the tube out with the machine on */
    PbCommand down[3] = {
        {PB_COMMAND_TURN, -1.0}, {PB_COMMAND_TUBE_TARGET, 0.05}, {PB_COMMAND_MACHINE, 1.0}};
    (void)step_for(s, down, 3, 26.0, PB_EVENT_STALL);
    PbCommand out = {PB_COMMAND_TUBE_TARGET, -0.05};
    int said = step_for(s, &out, 1, 3.0, PB_EVENT_BLOW_BACK);
    ck_assert_int_eq(said, 1);
    ck_assert_double_gt(pb_session_view(s)->ledger.lost_hole_kg, 0.01);
    pb_session_destroy(s);
}
END_TEST

START_TEST(pressure_bleeds_after_switch_off)
{
    PbSessionConfig config = pb_session_default();
    PbSession *s;
    ck_assert_int_eq(pb_session_create(&config, &s, NULL), PB_OK);
    PbCommand work[2] = {{PB_COMMAND_TUBE_TARGET, 0.3}, {PB_COMMAND_MACHINE, 1.0}};
    (void)step_for(s, work, 2, 30.0, PB_EVENT_STALL);
    double before = pb_session_view(s)->mouth_pa;
    PbCommand off = {PB_COMMAND_MACHINE, 0.0};
    (void)step_for(s, &off, 1, 1.0, PB_EVENT_STALL);
    double soon = pb_session_view(s)->mouth_pa;
    (void)step_for(s, NULL, 0, 10.0, PB_EVENT_STALL);
    double late = pb_session_view(s)->mouth_pa;
    ck_assert_double_gt(before, 300.0);
    ck_assert_double_lt(soon, before);
    ck_assert_double_gt(soon, 0.05 * before); /* it bleeds, it does not vanish */
    ck_assert_double_lt(late, 0.05 * before);
    pb_session_destroy(s);
}
END_TEST

START_TEST(a_plug_is_cleared_at_a_cost)
{
    PbSessionConfig config = pb_session_default();
    config.exercise.machine.static_pa = 6000.0; /* too weak to carry this feed */
    PbSession *s;
    ck_assert_int_eq(pb_session_create(&config, &s, NULL), PB_OK);
    PbCommand work[3] = {
        {PB_COMMAND_TUBE_TARGET, 0.8}, {PB_COMMAND_FEED, 0.06}, {PB_COMMAND_MACHINE, 1.0}};
    ck_assert_int_ge(step_for(s, work, 3, 60.0, PB_EVENT_PLUG), 1);
    double t = pb_session_view(s)->time_s;
    PbCommand clear[2] = {{PB_COMMAND_MACHINE, 0.0}, {PB_COMMAND_CLEAR_PLUG, 1.0}};
    ck_assert_int_eq(step_for(s, clear, 2, 60.0, PB_EVENT_PLUG_CLEARED), 1);
    ck_assert_double_gt(pb_session_view(s)->time_s - t, 30.0);
    ck_assert_double_gt(pb_session_view(s)->ledger.cleared_kg, 0.5);
    ck_assert_int_eq(pb_session_view(s)->signals.plugged, 0);
    pb_session_destroy(s);
}
END_TEST

START_TEST(a_finished_run_takes_no_more_steps)
{
    PbSessionConfig config = pb_session_default();
    PbSession *s;
    ck_assert_int_eq(pb_session_create(&config, &s, NULL), PB_OK);
    PbCommand finish = {PB_COMMAND_FINISH, 0.0};
    (void)step_for(s, &finish, 1, 60.0, PB_EVENT_FINISHED);
    ck_assert_int_eq(pb_session_is_over(s), 1);
    ck_assert_int_eq(pb_session_step(s, NULL, 0), PB_ERR_STATE);
    PbBayField f;
    ck_assert_int_eq(pb_session_field(s, &f), PB_OK);
    ck_assert_int_eq(f.nx, 16);
    pb_bay_field_destroy(&f);
    pb_session_destroy(s);
}
END_TEST

START_TEST(a_replay_goes_back_to_where_it_was_and_not_below_the_start)
{
    PbTickCommand commands[2] = {{0, WORK[0]}, {0, WORK[1]}};
    PbSessionConfig config = pb_session_default();
    PbRunFile run = {.physics_version = PB_PHYSICS_VERSION,
                     .exercise = config.exercise,
                     .constants = config.constants,
                     .constants_hash = pb_constants_hash(&config.constants),
                     .seed = config.seed,
                     .cells_across = config.cells_across,
                     .commands = commands,
                     .command_count = 2,
                     .last_tick = 300};
    PbReplay *r;
    ck_assert_int_eq(pb_replay_create(&run, config.allocator, &r, NULL), PB_OK);
    uint64_t start = pb_session_hash(pb_replay_session(r));
    ck_assert_int_eq(pb_replay_seek(r, -5), PB_OK);
    ck_assert_int_eq(pb_replay_tick(r), 0);
    ck_assert_int_eq(pb_replay_seek(r, 260), PB_OK);
    uint64_t there = pb_session_hash(pb_replay_session(r));
    ck_assert_int_eq(pb_replay_seek(r, 1000), PB_OK);
    ck_assert_int_eq(pb_replay_tick(r), 300);
    ck_assert_int_eq(pb_replay_seek(r, -5), PB_OK);
    ck_assert_int_eq(pb_replay_tick(r), 0);
    ck_assert(pb_session_hash(pb_replay_session(r)) == start);
    ck_assert_int_eq(pb_replay_seek(r, 260), PB_OK);
    ck_assert(pb_session_hash(pb_replay_session(r)) == there);
    pb_replay_destroy(r);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("session");
    TCase *tc = tcase_create("normal");
    tcase_set_timeout(tc, 120);
    tcase_add_test(tc, a_step_allocates_nothing);
    tcase_add_test(tc, every_vector_path_gives_the_same_bits);
    tcase_add_test(tc, the_tube_turns_only_at_the_hole);
    tcase_add_test(tc, the_tube_stops_at_wood);
    tcase_add_test(tc, feeding_with_the_mouth_outside_is_lost_and_said);
    tcase_add_test(tc, a_tube_pulled_out_under_pressure_blows_back);
    tcase_add_test(tc, pressure_bleeds_after_switch_off);
    tcase_add_test(tc, a_plug_is_cleared_at_a_cost);
    tcase_add_test(tc, a_finished_run_takes_no_more_steps);
    tcase_add_test(tc, a_replay_goes_back_to_where_it_was_and_not_below_the_start);
    suite_add_tcase(s, tc);
    tc = tcase_create("refusals");
    tcase_add_test(tc, every_failing_allocation_is_said_and_leaks_nothing);
    tcase_add_test(tc, refuses_bad_commands_and_changes_nothing);
    tcase_add_test(tc, refuses_bad_configurations);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
