/*
 * Hands: the files, and the rule itself on a bay made of arithmetic: the mouth goes where it is
 * told and delivery dies down a fixed time after it came to a stop.
 */
#include "io/hands_file.h"

#include "core/session.h"
#include "suite.h"

#include <dirent.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

START_TEST(ships_the_default_as_a_file)
{
    PbHands h, d = pb_hands_default();
    PbError err = {0};
    ck_assert_msg(io_hands_load(PB_TEST_SOURCE_DIR "/assets/hands/steady-foot.json", &h, &err) ==
                      PB_OK,
                  "%d:%d %s", err.line, err.column, err.message);
    ck_assert_mem_eq(&h, &d, sizeof h);
}
END_TEST

START_TEST(reads_every_shipped_hands)
{
    const char *folder = PB_TEST_SOURCE_DIR "/assets/hands";
    DIR *dir = opendir(folder);
    struct dirent *entry;
    int count = 0;
    ck_assert_ptr_nonnull(dir);
    while ((entry = readdir(dir)) != NULL) {
        char path[600];
        PbHands h;
        PbError err = {0};
        if (strstr(entry->d_name, ".json") == NULL) {
            continue;
        }
        snprintf(path, sizeof path, "%s/%s", folder, entry->d_name);
        ck_assert_msg(io_hands_load(path, &h, &err) == PB_OK, "%s:%d:%d: %s", path, err.line,
                      err.column, err.message);
        count++;
    }
    closedir(dir);
    ck_assert_int_ge(count, 8);
}
END_TEST

static PbStatus parse(const char *text, PbHands *h, PbError *err)
{
    memset(err, 0, sizeof *err);
    return io_hands_parse("hands.json", text, strlen(text), h, err);
}

#define HEAD "{\"format\": \"pullback hands 1\", \"name\": \"n\", "
#define PASS "\"passes\": [{\"direction\": \"up\", \"first_m\": 2, \"last_m\": 1}]"

START_TEST(makes_one_command_of_each_key_in_a_fixed_order)
{
    PbHands h;
    PbError err;
    ck_assert_int_eq(parse(HEAD
                           "\"frames\": [{\"time_s\": 0, \"machine\": \"on\", \"turn\": \"down\"},"
                           "{\"time_s\": 2.5, \"finish\": true, \"tube_rate_m_s\": -0.25,"
                           " \"feed_kg_s\": 0.02, \"blower\": 0.5, \"mark\": 3}]}",
                           &h, &err),
                     PB_OK);
    static const PbKeyFrame expected[] = {
        {0.0, {PB_COMMAND_TURN, -1}},         {0.0, {PB_COMMAND_MACHINE, 1}},
        {2.5, {PB_COMMAND_BLOWER, 0.5}},      {2.5, {PB_COMMAND_FEED, 0.02}},
        {2.5, {PB_COMMAND_TUBE_RATE, -0.25}}, {2.5, {PB_COMMAND_MARK, 3}},
        {2.5, {PB_COMMAND_FINISH, 1}},
    };
    ck_assert_int_eq(h.is_rule, 0);
    ck_assert_int_eq(h.frame_count, 7);
    for (int i = 0; i < 7; i++) {
        ck_assert_double_eq(h.frames[i].time_s, expected[i].time_s);
        ck_assert_int_eq(h.frames[i].command.kind, expected[i].command.kind);
        ck_assert_double_eq(h.frames[i].command.value, expected[i].command.value);
    }
}
END_TEST

static const struct {
    const char *text, *says;
    int line, column;
} refusals[] = {
    {"{}", "\"format\" is missing", 1, 1},
    {"{\"format\": \"pullback exercise 1\"}", "expected \"format\"", 1, 12},
    {HEAD "\"pull\": \"stall\"}", "\"passes\" is missing", 1, 1},
    {HEAD "\"pull\": \"sometimes\", " PASS "}", "expected one of \"stall\", \"clock\"", 1, 53},
    {HEAD "\"pull\": \"stall\",\n\"step_m\": 0, " PASS "}", "\"step_m\": 0 is out of range", 2, 11},
    {HEAD "\"pull\": \"stall\",\n\"blower\": 80, " PASS "}", "expected 0 to 1", 2, 11},
    {HEAD "\"pull\": \"stall\",\n\"wait_s\": \"long\", " PASS "}", "expected a number", 2, 11},
    {HEAD "\"pull\": \"stall\",\n\"stall_frac\": 1, " PASS "}", "out of range", 2, 15},
    {HEAD "\"pull\": \"stall\",\n\"weight_s\": 1, " PASS "}", "unknown key \"weight_s\"", 2, 1},
    {HEAD "\"pull\": \"stall\", \"passes\": []}", "1 to 16 items", 1, 72},
    {HEAD "\"pull\": \"stall\", \"passes\":\n[{\"direction\": \"down\", \"first_m\": 2,"
          " \"last_m\": 1}]}",
     "at or above it with the mouth down", 2, 48},
    {HEAD "\"pull\": \"stall\", \"passes\":\n[{\"direction\": \"left\", \"first_m\": 2,"
          " \"last_m\": 1}]}",
     "expected one of \"up\", \"down\"", 2, 16},
    {HEAD "\"step_m\": 0.3}", "\"frames\" is missing", 1, 1},
    {HEAD "\"step_m\": 0.3, \"frames\": [{\"time_s\": 1, \"blower\": 1}]}",
     "unknown key \"step_m\"", 1, 45},
    {HEAD "\"frames\": []}", "1 to 512 items", 1, 55},
    {HEAD "\"frames\": [7]}", "expected a key frame", 1, 56},
    {HEAD "\"frames\":\n[{\"blower\": 1}]}", "\"time_s\" is missing", 2, 2},
    {HEAD "\"frames\":\n[{\"time_s\": 1}]}", "gives no command", 2, 2},
    {HEAD "\"frames\":\n[{\"time_s\": 1, \"blow\": 1}]}", "unknown key \"blow\"", 2, 16},
    {HEAD "\"frames\":\n[{\"time_s\": -1, \"blower\": 1}]}", "out of range", 2, 13},
    {HEAD "\"frames\":\n[{\"time_s\": 5, \"blower\": 1}, {\"time_s\": 4, \"blower\": 0}]}",
     "in order of time", 2, 41},
    {HEAD "\"frames\":\n[{\"time_s\": 5, \"machine\": true}]}", "expected one of \"on\", \"off\"",
     2, 27},
    {HEAD "\"frames\":\n[{\"time_s\": 5, \"hole\": 9}]}", "expected 1 to 8", 2, 24},
    {HEAD "\"frames\":\n[{\"time_s\": 5, \"plug\": 1.5}]}", "a whole number from 1 to 8", 2, 24},
    {HEAD "\"frames\":\n[{\"time_s\": 5, \"seal\": 0}]}", "expected 1 to 12", 2, 24},
    {HEAD "\"frames\":\n[{\"time_s\": 5, \"ring\": 1.1}]}", "expected 0 to 1", 2, 24},
    {HEAD "\"frames\":\n[{\"time_s\": 5, \"leave\": \"tired\"}]}", "expected one of \"flue\"", 2,
     25},
    {HEAD "\"frames\":\n[{\"time_s\": 5, \"finish\": 1}]}", "expected true or false", 2, 26},
    {HEAD "\"frames\":\n[{\"time_s\": 5, \"turn\": 1}]}", "expected one of \"up\"", 2, 24},
    {HEAD "\"frames\":\n[{\"time_s\": 5, \"tube_in_m\": 70}]}", "expected 0 to 7 m", 2, 29},
};

START_TEST(refuses_by_every_rule)
{
    PbHands h;
    PbError err;
    memset(&h, 0x55, sizeof h);
    ck_assert_int_ne(parse(refusals[_i].text, &h, &err), PB_OK);
    ck_assert_msg(strstr(err.message, refusals[_i].says) != NULL, "said: %s", err.message);
    ck_assert_msg(err.line == refusals[_i].line && err.column == refusals[_i].column,
                  "at %d:%d: %s", err.line, err.column, err.message);
    ck_assert_int_eq(((unsigned char *)&h)[0], 0x55);
}
END_TEST

START_TEST(refuses_more_commands_than_fit)
{
    static char text[60000] = HEAD "\"frames\": [";
    PbHands h;
    PbError err;
    for (int i = 0; i < 300; i++) {
        snprintf(text + strlen(text), 100, "%s{\"time_s\": %d, \"blower\": 1, \"feed_kg_s\": 0}",
                 i ? ",\n" : "", i);
    }
    strcat(text, "]}");
    ck_assert_int_eq(parse(text, &h, &err), PB_ERR_RANGE);
    ck_assert_ptr_nonnull(strstr(err.message, "more than 512 commands"));
    ck_assert_int_eq(err.line, 257);
}
END_TEST

/* A bay made of arithmetic. */
typedef struct Bay {
    PbExercise exercise;
    PbView view;
    double arrived_s;     /* since when the mouth has been still */
    double stall_after_s; /* delivery falls so long after */
    double stops_m[64];   /* where it was still while the machine ran */
    int stop_count, turns, refused_turns, finished;
    double blocked_tube_m; /* the tube goes no further in than this */
} Bay;

static void obey(Bay *b, const PbCommand *c, double *tube_m)
{
    PbSignals *s = &b->view.signals;
    switch (c->kind) {
    case PB_COMMAND_TUBE_TARGET:
        *tube_m = c->value > b->blocked_tube_m ? b->blocked_tube_m : c->value;
        break;
    case PB_COMMAND_TURN:
        if (s->tube_in_m > 0.10) {
            b->refused_turns++;
        } else {
            s->direction = c->value > 0 ? 1 : -1;
            b->turns++;
        }
        break;
    case PB_COMMAND_MACHINE:
        s->machine_on = c->value != 0.0;
        b->arrived_s = b->view.time_s;
        break;
    case PB_COMMAND_FEED:
        s->feed_set_kg_s = c->value;
        break;
    case PB_COMMAND_FINISH:
        b->finished = 1;
        break;
    default:
        break;
    }
}

static void tick(Bay *b, const PbCommand *commands, int count)
{
    PbSignals *s = &b->view.signals;
    double tube = s->tube_in_m;
    for (int i = 0; i < count; i++) {
        obey(b, &commands[i], &tube);
    }
    b->view.time_s += PB_TICK_S;
    ck_assert_msg(fabs(tube - s->tube_in_m) <= 0.3 * PB_TICK_S + 1e-12, "the tube jumps");
    if (tube != s->tube_in_m) {
        b->arrived_s = b->view.time_s;
    }
    s->tube_in_m = tube;
    b->view.mouth_y_m = b->exercise.holes[0].y_m + s->direction * tube;
    double still_s = b->view.time_s - b->arrived_s;
    b->view.delivery_kg_s =
        s->machine_on && s->feed_set_kg_s > 0 ? (still_s < b->stall_after_s ? 0.06 : 0.02) : 0.0;
    if (s->machine_on && still_s > 1.0 &&
        (b->stop_count == 0 || fabs(b->stops_m[b->stop_count - 1] - b->view.mouth_y_m) > 0.01)) {
        b->stops_m[b->stop_count++] = b->view.mouth_y_m;
    }
}

static void play(const PbHands *h, Bay *b, double most_s)
{
    PbHandsState state;
    PbCommand commands[16];
    memset(&state, 0, sizeof state);
    b->exercise = pb_exercise_default();
    b->view.exercise = &b->exercise;
    b->view.signals.direction = 1;
    b->view.mouth_y_m = b->exercise.holes[0].y_m;
    if (b->blocked_tube_m == 0.0) {
        b->blocked_tube_m = 9.0;
    }
    while (b->view.time_s < most_s && !b->finished) {
        int count = pb_hands_next(h, &state, &b->view, commands);
        ck_assert_int_le(count, 16);
        tick(b, commands, count);
    }
}

static void check_stops(const Bay *b, const double *expected, int count)
{
    ck_assert_int_eq(b->stop_count, count);
    for (int i = 0; i < count; i++) {
        ck_assert_double_eq_tol(b->stops_m[i], expected[i], 0.003);
    }
}

START_TEST(works_up_and_down_in_steps_of_a_foot)
{
    static const double stops[] = {2.15, 1.85, 1.55, 1.25, 0.95, 0.65, 0.50, 0.15, 0.40};
    PbHands h = pb_hands_default();
    Bay b = {.stall_after_s = 12.0};
    play(&h, &b, 600);
    check_stops(&b, stops, 9);
    ck_assert_int_eq(b.finished, 1);
    ck_assert_int_eq(b.turns, 1);
    ck_assert_int_eq(b.refused_turns, 0);
    /* nine stops of 12 s and 1 s after, and the ways between them at 0.3 m/s */
    ck_assert_double_eq_tol(b.view.time_s, 9 * 13.0 + (1.7 + 1.7 + 0.3 + 0.3) / 0.3, 3.0);
}
END_TEST

START_TEST(leaves_by_the_clock)
{
    PbHands h = pb_hands_default();
    Bay b = {.stall_after_s = 60.0};
    h.pull = PB_PULL_CLOCK;
    h.wait_s = 8.0;
    play(&h, &b, 600);
    ck_assert_int_eq(b.stop_count, 9);
    ck_assert_double_eq_tol(b.view.time_s, 9 * 8.0 + 4.0 / 0.3, 3.0);
}
END_TEST

START_TEST(drags_without_a_stop)
{
    PbHands h = pb_hands_default();
    Bay b = {.stall_after_s = 60.0};
    h.pull = PB_PULL_CONTINUOUS;
    h.speed_m_s = 0.03;
    play(&h, &b, 600);
    ck_assert_int_eq(b.stop_count, 0);
    ck_assert_int_eq(b.finished, 1);
    ck_assert_double_eq_tol(b.view.time_s, 1.7 / 0.3 + 1.65 / 0.03 + 0.3 / 0.3 + 0.25 / 0.03, 1.0);
}
END_TEST

START_TEST(stays_and_finishes)
{
    PbHands h = pb_hands_default();
    Bay b = {.stall_after_s = 40.0};
    h.pull = PB_PULL_NONE;
    h.pass_count = 1;
    h.passes[0] = (PbPass){1, 0.0, 0.0, 0.0};
    h.wait_s = 5.0;
    play(&h, &b, 600);
    ck_assert_int_eq(b.finished, 1);
    ck_assert_double_eq_tol(b.view.time_s, 45.0, 1.0);
    ck_assert_double_lt(b.view.signals.tube_in_m, 0.1);
}
END_TEST

START_TEST(shuts_the_feed_for_air_alone)
{
    PbHands h = pb_hands_default();
    Bay with = {.stall_after_s = 12.0}, without = {.stall_after_s = 12.0};
    play(&h, &without, 600);
    h.air_only_s = 10.0;
    play(&h, &with, 600);
    ck_assert_int_eq(with.stop_count, 9);
    ck_assert_double_eq_tol(with.view.time_s, without.view.time_s + 90.0, 2.0);
}
END_TEST

START_TEST(works_from_where_the_tube_meets_something)
{
    static const double stops[] = {1.15, 0.85, 0.55, 0.50, 0.15, 0.40};
    PbHands h = pb_hands_default();
    Bay b = {.stall_after_s = 12.0, .blocked_tube_m = 0.7};
    play(&h, &b, 600);
    check_stops(&b, stops, 6);
    ck_assert_int_eq(b.finished, 1);
}
END_TEST

START_TEST(gives_a_stop_up_and_ends_on_a_plug)
{
    PbHands h = pb_hands_default();
    Bay b = {.stall_after_s = 1e9}, plugged = {.stall_after_s = 1e9};
    h.max_stop_s = 20.0;
    play(&h, &b, 900);
    ck_assert_int_eq(b.stop_count, 9);
    plugged.view.signals.plugged = 1;
    play(&h, &plugged, 900);
    ck_assert_int_eq(plugged.finished, 1);
    ck_assert_double_lt(plugged.view.time_s, 20.0);
}
END_TEST

START_TEST(plays_key_frames_at_their_time)
{
    static PbHands h;
    PbHandsState state = {0};
    PbCommand commands[16];
    PbView view;
    memset(&view, 0, sizeof view);
    for (int i = 0; i < 14; i++) {
        h.frames[i] = (PbKeyFrame){1.0, {PB_COMMAND_MARK, i}};
    }
    h.frame_count = 14;
    ck_assert_int_eq(pb_hands_next(&h, &state, &view, commands), 0);
    view.time_s = 1.0;
    ck_assert_int_eq(pb_hands_next(&h, &state, &view, commands), 10);
    ck_assert_int_eq(pb_hands_next(&h, &state, &view, commands), 4);
    ck_assert_double_eq(commands[3].value, 13);
    ck_assert_int_eq(pb_hands_next(&h, &state, &view, commands), 0);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("hands_file");
    TCase *tc = tcase_create("normal");
    tcase_add_test(tc, ships_the_default_as_a_file);
    tcase_add_test(tc, reads_every_shipped_hands);
    tcase_add_test(tc, makes_one_command_of_each_key_in_a_fixed_order);
    suite_add_tcase(s, tc);
    tc = tcase_create("rule");
    tcase_add_test(tc, works_up_and_down_in_steps_of_a_foot);
    tcase_add_test(tc, leaves_by_the_clock);
    tcase_add_test(tc, drags_without_a_stop);
    tcase_add_test(tc, stays_and_finishes);
    tcase_add_test(tc, shuts_the_feed_for_air_alone);
    tcase_add_test(tc, works_from_where_the_tube_meets_something);
    tcase_add_test(tc, gives_a_stop_up_and_ends_on_a_plug);
    tcase_add_test(tc, plays_key_frames_at_their_time);
    suite_add_tcase(s, tc);
    tc = tcase_create("refusals");
    tcase_add_loop_test(tc, refuses_by_every_rule, 0, (int)(sizeof refusals / sizeof refusals[0]));
    tcase_add_test(tc, refuses_more_commands_than_fit);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
