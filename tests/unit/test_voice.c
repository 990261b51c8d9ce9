/* The one sentence over the bay, on signals made by hand: the order of harm, that it stands still
 * long enough to be read, and that it goes when it has been done; then somebody who knows nothing
 * and does just what it says, 0.8 s late, packs the plain bay, and nobody does by the clock. */
#include "core/marks.h"
#include "core/voice.h"
#include "core/watched.h"
#include "io/exercise_file.h"
#include "suite.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static PbVoice voice;
static PbSignals g;
static PbExercise bay;
static PbRubric rubric;

static void begin(void)
{
    bay = pb_exercise_default();
    rubric = pb_rubric_default();
    voice = pb_voice_start(&bay, &rubric);
    memset(&g, 0, sizeof g);
    g.direction = 1;
    g.blower_setting = 1.0;
    g.feed_set_kg_s = 0.06;
    g.tube_in_m = voice.far_m[1] - 0.1;
}

static PbSay hold(double s)
{
    PbSay what = PB_SAY_NOTHING;
    for (int i = 0; i < (int)(s / 0.04 + 0.5); i++) {
        g.time_s += 0.04;
        what = pb_voice_next(&voice, &g).say;
    }
    return what;
}

static void pull(double by_m)
{
    for (double to = g.tube_in_m - by_m; g.tube_in_m > to + 1e-9;) {
        g.tube_in_m = fmax(g.tube_in_m - 0.012, to);
        (void)hold(0.04);
    }
}

static void rattle_and_stall(void)
{
    g.machine_on = 1;
    g.rattle = 1.0;
    (void)hold(8.0);
    g.rattle = 0.3;
    (void)hold(1.2);
}

START_TEST(one_act_follows_the_other)
{
    begin();
    g.tube_in_m = 0.0;
    ck_assert_int_eq(hold(0.2), PB_SAY_PUSH_IN);
    g.tube_in_m = voice.far_m[1] - 0.2;
    ck_assert_int_eq(hold(0.2), PB_SAY_ON);
    g.machine_on = 1;
    ck_assert_int_eq(hold(0.2), PB_SAY_AIR_FIRST);
    g.rattle = 1.0;
    ck_assert_int_eq(hold(3.2), PB_SAY_WAIT);
    ck_assert_int_eq(hold(8.0), PB_SAY_WAIT);
    g.rattle = 0.3;
    ck_assert_int_eq(hold(0.8), PB_SAY_WAIT);
    ck_assert_int_eq(hold(0.6), PB_SAY_PULL);
    pull(0.30);
    g.rattle = 1.0;
    ck_assert_int_ne(hold(0.6), PB_SAY_PULL); /* it has been done: nobody is told to do it twice */
    ck_assert_int_eq(hold(6.0), PB_SAY_WAIT);
    g.rattle = 0.3;
    (void)hold(1.6);
    ck_assert_int_eq(hold(5.0), PB_SAY_TOO_LATE);
}
END_TEST

START_TEST(at_the_hole_it_turns_and_ends)
{
    begin();
    g.tube_in_m = 0.2;
    rattle_and_stall();
    ck_assert_int_eq(hold(0.2), PB_SAY_OFF);
    g.machine_on = 0;
    g.blower_pa = 8000.0;
    ck_assert_int_eq(hold(0.2), PB_SAY_BLEEDING);
    g.blower_pa = 100.0;
    ck_assert_int_eq(hold(0.2), PB_SAY_BACK);
    g.tube_in_m = 0.02;
    ck_assert_int_eq(hold(0.2), PB_SAY_TURN);
    g.direction = -1;
    ck_assert_int_eq(hold(0.2), PB_SAY_PUSH_IN);
    g.tube_in_m = 0.25;
    g.rattle = 0.0;
    rattle_and_stall();
    ck_assert_int_eq(hold(0.2), PB_SAY_OFF);
    g.machine_on = 0;
    ck_assert_int_eq(hold(0.2), PB_SAY_FINISH);
}
END_TEST

START_TEST(the_most_harmful_comes_first_and_at_once)
{
    begin();
    rattle_and_stall();
    ck_assert_int_eq(hold(0.2), PB_SAY_PULL);
    g.spilling = 1;
    ck_assert_int_eq(hold(1.2), PB_SAY_OUTSIDE);
    g.plugged = 1;
    ck_assert_int_eq(hold(1.2), PB_SAY_CLOG_OFF);
    g.creak = 0.6;
    ck_assert_int_eq(hold(0.08), PB_SAY_CREAKS);
    g.creak = 0.0;
    ck_assert_int_eq(hold(2.0), PB_SAY_CREAKS); /* long enough to be read */
    ck_assert_int_eq(hold(1.2), PB_SAY_CLOG_OFF);
    g.machine_on = 0;
    ck_assert_int_eq(hold(0.2), PB_SAY_CLOG_CLEAR);
    g.clear_left_s = 9.0;
    ck_assert_int_eq(hold(0.2), PB_SAY_CLEARING);
    ck_assert_double_eq(pb_voice_next(&voice, &g).value, 9.0);
}
END_TEST

START_TEST(a_fault_stands_for_three_seconds)
{
    begin();
    g.machine_on = 1;
    g.rattle = 1.0;
    (void)hold(5.0);
    pull(0.30);
    ck_assert_int_eq(hold(0.8), PB_SAY_TOO_EARLY);
    ck_assert_int_eq(hold(2.0), PB_SAY_TOO_EARLY);
    ck_assert_int_eq(hold(1.2), PB_SAY_WAIT);
    g.rattle = 0.3;
    (void)hold(2.0);
    pull(0.60);
    g.rattle = 1.0;
    ck_assert_int_eq(hold(0.8), PB_SAY_LONG_PULL);
}
END_TEST

/* A stall that comes soon after the words to wait for it, and a pull of two feet right after. */
START_TEST(to_wait_holds_nothing_back)
{
    begin();
    g.machine_on = 1;
    g.rattle = 1.0;
    (void)hold(3.0);
    pull(0.30);
    (void)hold(3.6); /* too early, then to wait */
    ck_assert_int_eq(hold(0.2), PB_SAY_WAIT);
    g.rattle = 0.3;
    ck_assert_int_eq(hold(1.2), PB_SAY_PULL);
    pull(0.60);
    g.rattle = 1.0;
    ck_assert_int_eq(hold(0.8), PB_SAY_LONG_PULL);
}
END_TEST

START_TEST(weak_air_is_said_unless_the_face_asked_for_it)
{
    begin();
    g.machine_on = 1;
    g.rattle = 1.0;
    g.blower_setting = 0.5 * rubric.air_share;
    ck_assert_int_eq(hold(4.0), PB_SAY_WEAK_AIR);
    g.creak = 0.5;
    (void)hold(0.2);
    g.creak = 0.0;
    ck_assert_int_eq(hold(6.0), PB_SAY_WAIT);
}
END_TEST

/* ---- somebody who reads and does just that ---- */

enum { LATE_TICKS = 20 }; /* 0.8 s */

typedef struct Beginner {
    PbSay heard[LATE_TICKS];
    PbSay last;     /* that was acted on */
    double short_s; /* shortest that a sentence stood that asks for nothing, s */
    PbSay now;
    double since_s;
} Beginner;

static int follow(Beginner *b, const PbSignals *s, PbCommand *c)
{
    PbSay what = b->heard[0];
    int n = 0, is_new = what != b->last;
    double rate = what == PB_SAY_PUSH_IN ? 0.25 : what == PB_SAY_BACK ? -0.25 : 0.0;
    int was_moving = b->last == PB_SAY_PUSH_IN || b->last == PB_SAY_BACK;
    b->last = what;
    if (rate != 0.0 || was_moving) {
        c[n++] = (PbCommand){PB_COMMAND_TUBE_RATE, rate};
    }
    if (!is_new) {
        return n;
    }
    if (what == PB_SAY_PULL || what == PB_SAY_TOO_LATE) {
        c[n++] = (PbCommand){PB_COMMAND_TUBE_TARGET, fmax(s->tube_in_m - 0.3048, 0.0)};
    } else if (what == PB_SAY_ON || what == PB_SAY_OFF || what == PB_SAY_CLOG_OFF) {
        c[n++] = (PbCommand){PB_COMMAND_MACHINE, what == PB_SAY_ON ? 1.0 : 0.0};
    } else if (what == PB_SAY_TURN) {
        c[n++] = (PbCommand){PB_COMMAND_TURN, -s->direction};
    } else if (what == PB_SAY_CLOG_CLEAR) {
        c[n++] = (PbCommand){PB_COMMAND_CLEAR_PLUG, 1.0};
    } else if (what == PB_SAY_CREAKS) {
        c[n++] = (PbCommand){PB_COMMAND_BLOWER, fmax(s->blower_setting - 0.1, 0.0)};
    } else if (what == PB_SAY_FINISH) {
        c[n++] = (PbCommand){PB_COMMAND_FINISH, 1.0};
    }
    return n;
}

static void listen(Beginner *b, PbSay what, double time_s)
{
    memmove(b->heard, b->heard + 1, (LATE_TICKS - 1) * sizeof b->heard[0]);
    b->heard[LATE_TICKS - 1] = what;
    if (what != b->now) {
        if (b->now == PB_SAY_WAIT || b->now == PB_SAY_TOO_EARLY || b->now == PB_SAY_LONG_PULL) {
            b->short_s = fmin(b->short_s, time_s - b->since_s);
        }
        b->now = what;
        b->since_s = time_s;
    }
}

/* Without the sentence: pushes in, switches on, and pulls by the clock, by eye about so far. */
static int guess(const PbSignals *s, double each_s, double by_m, PbCommand *c)
{
    static const double in_s = 8.0;
    int tick = (int)(s->time_s / PB_TICK_S + 0.5), each = (int)(each_s / PB_TICK_S + 0.5);
    if (s->time_s < in_s) {
        c[0] = (PbCommand){PB_COMMAND_TUBE_RATE, 0.25};
        return 1;
    }
    if (tick == (int)(in_s / PB_TICK_S + 0.5)) {
        c[0] = (PbCommand){PB_COMMAND_TUBE_RATE, 0.0};
        c[1] = (PbCommand){PB_COMMAND_MACHINE, 1.0};
        return 2;
    }
    if (tick % each != 0) {
        return 0;
    }
    if (s->tube_in_m < 0.1) {
        c[0] = (PbCommand){PB_COMMAND_FINISH, 1.0};
        return 1;
    }
    c[0] = (PbCommand){PB_COMMAND_TUBE_TARGET, fmax(s->tube_in_m - by_m, 0.0)};
    return 1;
}

static PbWatched w;

static void start(uint64_t seed)
{
    PbSessionConfig config = pb_session_default();
    PbError err = {0};
    char path[512];
    snprintf(path, sizeof path, "%s/assets/exercises/plain-2x4.json", PB_TEST_SOURCE_DIR);
    ck_assert(io_exercise_load(path, &config.exercise, &err) == PB_OK);
    config.seed = seed;
    ck_assert_msg(pb_watched_start(&w, &config, &err) == PB_OK, "%s", err.message);
    bay = config.exercise;
    PbCommand checks = {PB_COMMAND_MARK, PB_MARK_CHECKLIST + 63}; /* all ticked */
    ck_assert_int_eq(pb_watched_step(&w, &checks, 1), PB_OK);
}

static PbScore marks(void)
{
    ck_assert_int_eq(pb_watched_mark(&w), PB_OK);
    PbScore s = w.score;
    pb_watched_end(&w);
    return s;
}

START_TEST(who_does_just_what_it_says_packs_the_bay)
{
    for (uint64_t seed = 1; seed <= 2; seed++) {
        start(seed);
        rubric = w.rubric;
        voice = pb_voice_start(&bay, &rubric);
        Beginner b = {.last = PB_SAY_NOTHING, .now = PB_SAY_NOTHING, .short_s = 1e9};
        for (int i = 0; i < LATE_TICKS; i++) {
            b.heard[i] = PB_SAY_NOTHING;
        }
        const PbView *v = pb_session_view(w.session);
        while (!w.is_ended) {
            PbCommand c[4];
            int n = follow(&b, &v->signals, c);
            ck_assert_int_eq(pb_watched_step(&w, c, n), PB_OK);
            listen(&b, pb_voice_next(&voice, &v->signals).say, v->time_s);
        }
        double took_s = v->time_s;
        PbScore s = marks();
        printf("seed %d: %.1f points, shortest %.1f s, %.0f s\n", (int)seed, s.total, b.short_s,
               took_s);
        ck_assert_int_eq(s.verdict, PB_VERDICT_PASS);
        ck_assert_double_gt(b.short_s, 2.95);
    }
}
END_TEST

START_TEST(nobody_does_without_it)
{
    static const double each_s[5] = {5.0, 8.0, 12.0, 16.0, 20.0},
                        by_m[5] = {0.3, 0.6, 0.3, 0.45, 0.6};
    for (int i = 0; i < 5; i++) {
        start((uint64_t)(i + 1));
        const PbView *v = pb_session_view(w.session);
        while (!w.is_ended) {
            PbCommand c[4];
            int n = guess(&v->signals, each_s[i], by_m[i], c);
            ck_assert_int_eq(pb_watched_step(&w, c, n), PB_OK);
        }
        PbScore s = marks();
        printf("each %.0f s by %.2f m: %.1f points\n", each_s[i], by_m[i], s.total);
        ck_assert_int_ne(s.verdict, PB_VERDICT_PASS);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("voice");
    TCase *tests = tcase_create("voice");
    tcase_set_timeout(tests, 60.0);
    tcase_add_test(tests, one_act_follows_the_other);
    tcase_add_test(tests, at_the_hole_it_turns_and_ends);
    tcase_add_test(tests, the_most_harmful_comes_first_and_at_once);
    tcase_add_test(tests, a_fault_stands_for_three_seconds);
    tcase_add_test(tests, to_wait_holds_nothing_back);
    tcase_add_test(tests, weak_air_is_said_unless_the_face_asked_for_it);
    tcase_add_test(tests, who_does_just_what_it_says_packs_the_bay);
    tcase_add_test(tests, nobody_does_without_it);
    suite_add_tcase(suite, tests);
    return run_suite(suite);
}
