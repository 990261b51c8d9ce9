/*
 * The stall by ear. Runs are played through the sound, room noise as loud as a dense rattle is
 * added, and a listener who knows what a stall sounds like (the rattle band drops, the blower's
 * pitch climbs) and nothing of the run marks where he hears one. PB_HEARING_RUNS runs in
 * PB_HEARING_ROOMS rooms in all: 2 in 20 unless set.
 */
#include "audio/audio.h"
#include "core/hands.h"
#include "core/rng.h"
#include "core/session.h"
#include "io/exercise_file.h"
#include "io/hands_file.h"

#include "rattle_band.h"
#include "suite.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

enum { PER_S = 25, TICK = AUDIO_RATE_HZ / PER_S, MAX_TICKS = PER_S * 150, STALLS = 3 };
enum { THIN = 24, THINNED = TICK / THIN, PITCHES = 48 };

#define ROOM_RMS 0.02  /* up to 24 kHz */
#define FIRST_HZ 210.0 /* of the pitches the listener tells apart, 2 Hz each */

typedef struct Run {
    int ticks, stalls;
    double fed_s, stall_s[STALLS], pull_s[STALLS];
    AudioParams heard[MAX_TICKS];
} Run;

static Run run;
static double rattle_db[MAX_TICKS], pitch_hz[MAX_TICKS];

/* As the window program hands the signals to the sound (gauge_audio). */
static AudioParams heard(const PbSignals *s, const PbMachine *m)
{
    AudioParams p = {.speed = (float)s->blower_speed,
                     .pressure = (float)(s->blower_pa / m->static_pa),
                     .flow = (float)(s->flow_m3_s / m->open_flow_m3_s),
                     .feed = (float)(s->feed_set_kg_s / m->feed_max_kg_s),
                     .rattle = (float)s->rattle,
                     .pulse = (float)s->hose_pulse,
                     .hiss = (float)s->leak_hiss,
                     .creak = (float)s->creak,
                     .volume = 1.0f,
                     .machine_on = s->machine_on,
                     .plugged = s->plugged};
    return p;
}

static void note_stalls(const PbView *v)
{
    run.stalls = 0;
    for (int i = 0; i < v->lift_count && run.stalls < STALLS; i++) {
        if (v->lifts[i].stall_s >= 0.0) {
            run.stall_s[run.stalls] = v->lifts[i].stall_s;
            run.pull_s[run.stalls++] = v->lifts[i].to_s;
        }
    }
}

/* One-foot hands up to three seconds after the third pull. gate_s: when the gate is shut for four
 * seconds in the middle of filling, negative = never; stop_s: end there. */
static void play(uint64_t seed, double gate_s, double stop_s)
{
    static PbSessionConfig c;
    static PbHands hands;
    PbError err = {0};
    PbSession *session;
    PbHandsState state;
    PbCommand commands[18];
    memset(&run, 0, sizeof run);
    memset(&state, 0, sizeof state);
    c = pb_session_default();
    c.seed = seed;
    ck_assert_msg(io_exercise_load(PB_TEST_SOURCE_DIR "/assets/exercises/plain-2x4.json",
                                   &c.exercise, &err) == PB_OK,
                  "%s", err.message);
    ck_assert_msg(
        io_hands_load(PB_TEST_SOURCE_DIR "/assets/hands/steady-foot.json", &hands, &err) == PB_OK,
        "%s", err.message);
    ck_assert_msg(pb_session_create(&c, &session, &err) == PB_OK, "%s", err.message);
    double feed_kg_s = 0.0, end_s = stop_s;
    while (run.ticks < MAX_TICKS && !pb_session_is_over(session)) {
        const PbView *v = pb_session_view(session);
        int count = pb_hands_next(&hands, &state, v, commands);
        feed_kg_s = fmax(feed_kg_s, v->signals.feed_set_kg_s);
        double since = v->time_s - gate_s;
        if (gate_s >= 0.0 && since >= 0.0 && since < 4.0 + 2.0 / PER_S) {
            commands[count++] = (PbCommand){PB_COMMAND_FEED, since < 4.0 ? 0.0 : feed_kg_s};
        }
        ck_assert_int_eq(pb_session_step(session, commands, count), PB_OK);
        v = pb_session_view(session);
        run.heard[run.ticks++] = heard(&v->signals, &c.exercise.machine);
        run.fed_s = run.fed_s > 0.0 || v->signals.rattle < 0.8 ? run.fed_s : v->time_s;
        note_stalls(v);
        if (run.stalls == STALLS && end_s <= 0.0 && v->time_s > run.stall_s[STALLS - 1] + 1.9) {
            end_s = v->time_s + 3.0;
        }
        if (end_s > 0.0 && v->time_s >= end_s) {
            break;
        }
    }
    pb_session_destroy(session);
}

/* The loudest of the pitches in the last five ticks, thinned to 2 kHz. */
static double loudest_hz(const double *x, int n)
{
    double best = 0.0, at = 0.0;
    for (int k = 0; k < PITCHES; k++) {
        double hz = FIRST_HZ + 2.0 * k,
               w = 2.0 * 3.14159265358979323846 * hz * THIN / AUDIO_RATE_HZ;
        double turn = 2.0 * cos(w), s1 = 0.0, s2 = 0.0; /* Goertzel */
        for (int i = 0; i < n; i++) {
            double s0 = x[i] + turn * s1 - s2;
            s2 = s1;
            s1 = s0;
        }
        double power = s1 * s1 + s2 * s2 - turn * s1 * s2;
        if (power > best) {
            best = power;
            at = hz;
        }
    }
    return at;
}

/* What a listener has of each tick: level of the rattle band, pitch of the machine. */
static void listen(uint64_t room, int from)
{
    enum { WINDOW = 5 };
    static AudioSynth synth;
    static float sound[TICK];
    static double thin[WINDOW * THINNED];
    RattleBand band = {0};
    PbRng rng = pb_rng_make(room, 77);
    audio_init(&synth, room + 1);
    memset(thin, 0, sizeof thin);
    for (int t = from; t < run.ticks; t++) {
        double sum = 0.0;
        audio_fill(&synth, &run.heard[t], sound, TICK);
        memmove(thin, thin + THINNED, (WINDOW - 1) * THINNED * sizeof *thin);
        for (int i = 0; i < TICK; i++) {
            double x = (double)sound[i] + ROOM_RMS * sqrt(3.0) * (2.0 * pb_rng_uniform(&rng) - 1.0);
            double y = rattle_band(&band, x);
            sum += y * y;
            int at = (WINDOW - 1) * THINNED + i / THIN;
            thin[at] = i % THIN == 0 ? x / THIN : thin[at] + x / THIN;
        }
        rattle_db[t] = power_db(sum / TICK);
        pitch_hz[t] = loudest_hz(thin, WINDOW * THINNED);
    }
}

static double mean(const double *v, int from, int to)
{
    double sum = 0.0;
    for (int i = from; i < to; i++) {
        sum += v[i];
    }
    return sum / (to - from);
}

/* A stall: against the second that began two and a half seconds ago the rattle band has lost 6 dB
 * over the last third of a second, and the pitch has climbed by 10 Hz. @return the first tick from
 * `from` on at which one is heard, -1 for none before `to` */
static int hears_stall(int from, int to)
{
    int t = from < 3 * PER_S ? 3 * PER_S : from;
    for (; t < to; t++) {
        int ago = t - 5 * PER_S / 2;
        double lost = mean(rattle_db, ago, ago + PER_S) - mean(rattle_db, t - 8, t);
        double climb = mean(pitch_hz, t - 4, t) - mean(pitch_hz, ago, ago + PER_S);
        if (lost >= 6.0 && climb >= 10.0) {
            return t;
        }
    }
    return -1;
}

static int count_of(const char *name, int usual)
{
    const char *set = getenv(name);
    int n = set != NULL ? atoi(set) : usual;
    return n >= 1 && n <= 1000 ? n : usual;
}

START_TEST(a_listener_finds_the_first_three_stalls)
{
    int runs = count_of("PB_HEARING_RUNS", 2), each = count_of("PB_HEARING_ROOMS", 20) / runs;
    uint64_t seed = 0;
    int blown = 0, found = 0, heard_all = 0, false_alarms = 0;
    double latest = 0.0;
    for (int r = 0; r < runs; r++) {
        play(++seed, -1.0, 0.0);
        if (run.stalls < STALLS) { /* this seed's board gave way: nothing to hear till then */
            int end = run.ticks - PER_S, from = (int)((run.fed_s + 3.0) * PER_S);
            listen(seed, (int)(run.fed_s * PER_S));
            false_alarms += run.stalls == 0 && hears_stall(from, end) >= 0;
            ck_assert_int_le(++blown, 1 + runs / 4);
            r--;
            continue;
        }
        for (int n = 0; n < each; n++) {
            int all = 1;
            int from = (int)(fmax(run.fed_s, run.stall_s[0] - 12.0) * PER_S);
            listen((uint64_t)(r * each + n), from);
            from += 3 * PER_S; /* the ear has settled */
            for (int s = 0; s < STALLS; s++) {
                int stall = (int)(run.stall_s[s] * PER_S);
                /* before the stall nobody may cry */
                false_alarms += hears_stall(from, stall - PER_S) >= 0;
                int at = hears_stall(stall - PER_S, stall + 3 * PER_S / 2 + 1);
                all &= at >= 0;
                found += at >= 0;
                latest = at >= 0 ? fmax(latest, (at - stall) / (double)PER_S) : latest;
                from = (int)((run.pull_s[s] + 2.0) * PER_S);
            }
            heard_all += all;
        }
    }
    int rooms = runs * each;
    printf(
        "%d runs in %d rooms: all three stalls heard in %d, %d of %d stalls, latest %.2f s after, "
        "%d false alarms\n",
        runs, rooms, heard_all, found, STALLS * rooms, latest, false_alarms);
    ck_assert_int_ge(heard_all * 100, 95 * rooms);
    ck_assert_int_eq(false_alarms, 0);
}
END_TEST

/* The rattle stops as well when the gate is shut; the machine does not labour then. */
START_TEST(a_shut_gate_is_no_stall)
{
    int alarms = 0;
    for (int r = 0; r < 2; r++) {
        play((uint64_t)r + 1, 20.0, 34.0);
        for (int n = 0; n < 10; n++) {
            listen((uint64_t)(r * 10 + n), (int)(run.fed_s * PER_S));
            alarms += hears_stall((int)((run.fed_s + 3.0) * PER_S), run.ticks) >= 0;
        }
        double before = mean(rattle_db, 18 * PER_S, 20 * PER_S);
        double shut = mean(rattle_db, 23 * PER_S, 24 * PER_S);
        ck_assert_double_gt(before - shut, 6.0); /* so there was something to be fooled by */
    }
    ck_assert_int_eq(alarms, 0);
}
END_TEST

/* Levels without a room, from a second before a stall to two seconds after. */
START_TEST(the_rattle_band_drops_by_six_decibels_and_the_blower_labours)
{
    static AudioSynth s;
    static float sound[TICK];
    play(1, -1.0, 0.0);
    audio_init(&s, 3);
    RattleBand band = {0};
    for (int t = 0; t < run.ticks; t++) {
        double sum = 0.0;
        audio_fill(&s, &run.heard[t], sound, TICK);
        for (int i = 0; i < TICK; i++) {
            double y = rattle_band(&band, (double)sound[i]);
            sum += y * y;
        }
        rattle_db[t] = power_db(sum / TICK);
    }
    for (int k = 0; k < STALLS; k++) {
        int stall = (int)(run.stall_s[k] * PER_S), pull = (int)(run.pull_s[k] * PER_S);
        int end = stall + 2 * PER_S < pull ? stall + 2 * PER_S : pull;
        double before = mean(rattle_db, stall - 3 * PER_S, stall - 2 * PER_S), least = 99.0;
        double pitch = 0.0;
        for (int t = stall; t + 6 <= end; t++) {
            double now = mean(rattle_db, t, t + 6);
            least = now < least ? now : least;
            pitch = fmax(pitch, audio_blower_hz(&run.heard[t]));
        }
        double was = audio_blower_hz(&run.heard[stall - 2 * PER_S]);
        printf("stall %d: rattle band %.1f -> %.1f dB, pitch %.0f -> %.0f Hz\n", k + 1, before,
               least, was, pitch);
        ck_assert_double_gt(before - least, 6.0);
        ck_assert_double_gt(pitch / was, 1.06); /* a semitone */
    }
}
END_TEST

int main(void)
{
    Suite *s = suite_create("audio_hearing");
    TCase *t = tcase_create("all");
    tcase_set_timeout(t, 300);
    tcase_add_test(t, the_rattle_band_drops_by_six_decibels_and_the_blower_labours);
    tcase_add_test(t, a_shut_gate_is_no_stall);
    tcase_add_test(t, a_listener_finds_the_first_three_stalls);
    suite_add_tcase(s, t);
    return run_suite(s);
}
