/*
 * Drills by ear. Trials are played through the sound and a small loudspeaker, with a compressor at
 * level 3 beside it, and a listener who knows what he listens for and nothing of the trial presses.
 * He can tell it, and so can one who only sees the instruments. Who presses at random, after a
 * fixed time, always at once or never cannot, as the drill says. PB_DRILL_SITTINGS sittings by ear,
 * 1 unless set; a sample has none.
 */
#include "audio/audio.h"
#include "core/drill.h"
#include "core/rng.h"

#include "ear.h"
#include "suite.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

static PbSessionConfig base;
static PbDrillTrial trials[PB_DRILL_TRIALS];
static AudioParams heard[EAR_TICKS];
static Ear ear;

static void begin(void)
{
    base = pb_session_default();
}

static void sitting(uint64_t seed)
{
    PbError err = {0};
    for (int i = 0; i < PB_DRILL_TRIALS; i++) {
        ck_assert_msg(pb_drill_make(seed, i, &base, NULL, NULL, &trials[i], &err) == PB_OK, "%s",
                      err.message);
    }
}

/* As the window program hands the signals to the sound (gauge_audio). */
static AudioParams sound_of(const PbSignals *s, const PbMachine *m)
{
    return (AudioParams){.speed = (float)s->blower_speed,
                         .pressure = (float)(s->blower_pa / m->static_pa),
                         .flow = (float)(s->flow_m3_s / m->open_flow_m3_s),
                         .feed = (float)(s->feed_set_kg_s / m->feed_max_kg_s),
                         .rattle = (float)s->rattle,
                         .pulse = (float)s->hose_pulse,
                         .hiss = (float)s->leak_hiss,
                         .creak = (float)s->creak,
                         .volume = 1.0f,
                         .machine_on = s->machine_on,
                         .plugged = s->plugged,
                         .masking = AUDIO_MASKING_COMPRESSOR,
                         .masking_level = 3};
}

/* The trial as somebody hears it. @return ticks */
static int play(const PbDrillTrial *t)
{
    PbSession *s;
    PbError err = {0};
    PbCommand commands[18];
    int ticks = (int)(t->length_s / PB_TICK_S), n = 0;
    ck_assert_msg(pb_session_create(&t->config, &s, &err) == PB_OK, "%s", err.message);
    while (n < ticks) {
        int at = pb_session_view(s)->tick, count = pb_drill_commands(t, at, commands);
        ck_assert_int_eq(pb_session_step(s, commands, count), PB_OK);
        if (at >= t->start_tick) {
            heard[n++] = sound_of(&pb_session_view(s)->signals, &t->config.exercise.machine);
        }
    }
    pb_session_destroy(s);
    return n;
}

/* A loudspeaker of a laptop: nothing to speak of under 180 Hz. */
static double laptop(double *low, double x)
{
    *low += (1.0 - exp(-2.0 * 3.14159265358979323846 * 180.0 / AUDIO_RATE_HZ)) * (x - *low);
    return x - *low;
}

/* Rattle 5 dB down, and the machine labours (its pitch climbs) or sags (it falls): an empty hopper
 * does neither. Two knocks 9 dB over what was there before within a second and a half: the face. */
static int hears(int t, int *knocks, int *last_knock)
{
    int ago = t - 5 * EAR_PER_S / 2;
    double lost = ear_mean(ear.rattle_db, ago, ago + EAR_PER_S) - ear_mean(ear.rattle_db, t - 8, t);
    double climb = ear_mean(ear.pitch_hz, t - 4, t) - ear_mean(ear.pitch_hz, ago, ago + EAR_PER_S);
    double knock = ear.knock[t - 1] - ear_mean(ear.knock, ago, ago + 2 * EAR_PER_S);
    if (knock >= 9.0 && t - *last_knock > 4) {
        *knocks = t - *last_knock < 3 * EAR_PER_S / 2 ? *knocks + 1 : 1;
        *last_knock = t;
    }
    return (lost >= 5.0 && (climb >= 8.0 || climb <= -25.0)) || *knocks >= 2;
}

/* @return s, negative = none */
static double listener_presses(const PbDrillTrial *trial, uint64_t room)
{
    static AudioSynth synth;
    static float sound[EAR_TICK];
    static double x[EAR_TICK];
    double low = 0.0;
    int ticks = play(trial), knocks = 0, last_knock = -1000;
    audio_init(&synth, room);
    memset(&ear, 0, sizeof ear);
    for (int t = 0; t < ticks; t++) {
        audio_fill(&synth, &heard[t], sound, EAR_TICK);
        for (int i = 0; i < EAR_TICK; i++) {
            x[i] = laptop(&low, (double)sound[i]);
        }
        ear_listen(&ear, t, x, 150.0, 80);
        if (t + 1 >= 3 * EAR_PER_S && hears(t + 1, &knocks, &last_knock)) {
            return (t + 1) * PB_TICK_S;
        }
    }
    return -1.0;
}

static int count_of(const char *name, int usual)
{
    const char *set = getenv(name);
    int n = set != NULL ? atoi(set) : usual;
    return n >= 1 && n <= 1000 ? n : usual;
}

START_TEST(a_listener_beside_a_compressor_can_tell_it)
{
    int sittings = count_of("PB_DRILL_SITTINGS", 1), able = 0, unable = 0, stalls = 0, quick = 0;
    for (int k = 0; k < sittings; k++) {
        PbDrillTally y = {0};
        PbDrillVerdict v = PB_DRILL_UNDECIDED;
        for (uint64_t more = 0; more < 3 && v == PB_DRILL_UNDECIDED; more++) {
            sitting(100u + (uint64_t)k + 1000u * more);
            for (int i = 0; i < PB_DRILL_TRIALS; i++) {
                double at = listener_presses(&trials[i], (uint64_t)(k * 100 + i));
                PbDrillAnswer a = pb_drill_press(&trials[i], at);
                pb_drill_count(&y, &trials[i], &a);
                stalls += trials[i].kind == PB_DRILL_STALL;
                quick += trials[i].kind == PB_DRILL_STALL && a.error_s <= 1.5 &&
                         a.outcome != PB_DRILL_FALSE;
                if (getenv("PB_DRILL_SAYS") != NULL) {
                    printf("  %-8s event %6.2f press %6.2f error %5.2f outcome %d\n",
                           pb_drill_kind_word(trials[i].kind), trials[i].event_s, at, a.error_s,
                           (int)a.outcome);
                }
            }
            v = pb_drill_verdict(&y);
        }
        able += v == PB_DRILL_CAN_TELL;
        unable += v == PB_DRILL_NOT_YET;
        printf(
            "listener %d: %d trials, %d of %d caught, %d good, median %.2f s, %d false in %.0f s\n",
            k, y.trials, y.caught, y.events, y.good, pb_drill_median_s(&y), y.false_presses,
            y.listened_s);
    }
    printf("%d sittings: %d can tell it, %d not yet; %d of %d stalls within 1.5 s\n", sittings,
           able, unable, quick, stalls);
    ck_assert_int_ge(100 * able, 90 * sittings);
    ck_assert_int_ge(100 * quick, 95 * stalls);
}
END_TEST

/* ---- one who sees the two instruments and hears nothing ---- */

/* As the room draws them: both lag by 60 ms (drill/state.c), and a bar of twelve and the needle to
 * a fiftieth of its scale are what an eye tells apart. Half a second of little rattle while the
 * needle climbs: a stall; or the needle falls by a fifth while there still is rattle: a clog. */
static double watcher_presses(const PbDrillTrial *trial)
{
    double rattle = 0.0, needle = 0.0, high = 0.0, lag = PB_TICK_S / (0.060 + PB_TICK_S);
    int ticks = play(trial), low = 0;
    for (int t = 0; t < ticks; t++) {
        double r = (double)heard[t].rattle, p = (double)heard[t].pressure;
        rattle = t == 0 ? r : rattle + (r - rattle) * lag;
        needle = t == 0 ? p : needle + (p - needle) * lag;
        double seen = floor(rattle * 12.0 + 0.5) / 12.0, dial = floor(needle * 50.0 + 0.5) / 50.0;
        high = t < EAR_PER_S ? fmax(high, dial) : high; /* the flow that it saw at first */
        low = seen <= 2.0 / 12.0 ? low + 1 : 0;
        int is_stall = low >= 8 && dial > high + 0.04, is_sag = dial < 0.8 * high && seen > 0.0;
        if (t >= EAR_PER_S && (is_stall || is_sag)) {
            return (t + 1) * PB_TICK_S;
        }
    }
    return -1.0;
}

START_TEST(one_who_sees_the_instruments_alone_tells_a_stall)
{
    int sittings = count_of("PB_DRILL_SITTINGS", 1), stalls = 0, quick = 0, wrong = 0;
    for (int k = 0; k < sittings; k++) {
        sitting(300u + (uint64_t)k);
        for (int i = 0; i < PB_DRILL_TRIALS; i++) {
            double at = watcher_presses(&trials[i]);
            PbDrillAnswer a = pb_drill_press(&trials[i], at);
            int is_stall = trials[i].kind == PB_DRILL_STALL;
            stalls += is_stall;
            quick += is_stall && a.error_s <= 1.5 && a.outcome != PB_DRILL_FALSE;
            wrong += a.outcome == PB_DRILL_FALSE;
            if (getenv("PB_DRILL_SAYS") != NULL) {
                printf("  %-8s event %6.2f press %6.2f error %5.2f outcome %d\n",
                       pb_drill_kind_word(trials[i].kind), trials[i].event_s, at, a.error_s,
                       (int)a.outcome);
            }
        }
    }
    printf("by eye: %d of %d stalls within 1.5 s, %d false\n", quick, stalls, wrong);
    ck_assert_int_ge(100 * quick, 95 * stalls);
    ck_assert_int_le(20 * wrong, PB_DRILL_TRIALS * sittings);
}
END_TEST

/* Hands that press without listening, over many sittings of the same trials' times. */
typedef double (*Presser)(PbRng *r, const PbDrillTrial *t);

static double at_random(PbRng *r, const PbDrillTrial *t)
{
    double at = -log(1.0 - pb_rng_uniform(r)) * 8.0;
    return at <= t->length_s ? at : -1.0;
}

static double after_six_seconds(PbRng *r, const PbDrillTrial *t)
{
    (void)r;
    return t->length_s >= 6.0 ? 6.0 : -1.0;
}

/* The longest wait that catches most of the ends. */
static double after_twelve_seconds(PbRng *r, const PbDrillTrial *t)
{
    (void)r;
    return t->length_s >= 12.0 ? 12.0 : -1.0;
}

static double at_once(PbRng *r, const PbDrillTrial *t)
{
    (void)r;
    (void)t;
    return 0.2;
}

static double never(PbRng *r, const PbDrillTrial *t)
{
    (void)r;
    (void)t;
    return -1.0;
}

START_TEST(pressing_without_listening_is_not_enough)
{
    static const Presser hands[] = {at_random, after_six_seconds, after_twelve_seconds, at_once,
                                    never};
    static const char *const names[] = {"at random", "after 6 s", "after 12 s", "at once", "never"};
    sitting(1);
    for (size_t h = 0; h < sizeof hands / sizeof hands[0]; h++) {
        PbRng r = pb_rng_make(1, h);
        int not_yet = 0;
        for (int round = 0; round < 200; round++) {
            PbDrillTally y = {0};
            for (int i = 0; i < PB_DRILL_TRIALS; i++) {
                PbDrillAnswer a = pb_drill_press(&trials[i], hands[h](&r, &trials[i]));
                pb_drill_count(&y, &trials[i], &a);
            }
            ck_assert_int_ne(pb_drill_verdict(&y), PB_DRILL_CAN_TELL);
            not_yet += pb_drill_verdict(&y) == PB_DRILL_NOT_YET;
        }
        printf("%s: not yet in %d of 200\n", names[h], not_yet);
        ck_assert_int_ge(not_yet, 198);
    }
}
END_TEST

int main(void)
{
    Suite *s = suite_create("audio_drill");
    TCase *t = tcase_create("all");
    tcase_set_timeout(t, 300);
    tcase_add_unchecked_fixture(t, begin, NULL);
    tcase_add_test(t, pressing_without_listening_is_not_enough);
    tcase_add_test(t, one_who_sees_the_instruments_alone_tells_a_stall);
    tcase_add_loop_test(t, a_listener_beside_a_compressor_can_tell_it, 0, some_of(0, 1));
    suite_add_tcase(s, t);
    return run_suite(s);
}
