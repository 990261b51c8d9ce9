/* The fill function without a device: pitch, clicks, loudness, silence, sameness, cost. */
#include "audio/audio.h"

#include "suite.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <time.h>

enum { RATE = AUDIO_RATE_HZ, MAX_FRAMES = 12 * RATE };

static float sound[MAX_FRAMES];
static double work[MAX_FRAMES];

static AudioParams running(float speed, float pressure, float flow)
{
    AudioParams p = {.speed = speed,
                     .pressure = pressure,
                     .flow = flow,
                     .feed = 0.5f,
                     .volume = 1.0f,
                     .machine_on = 1};
    return p;
}

/* Everything a crew can hear, at once and at its loudest. */
static AudioParams everything(void)
{
    AudioParams p = running(1.0f, 0.7f, 0.6f);
    p.rattle = p.pulse = p.hiss = p.creak = 1.0f;
    return p;
}

/* Pitch over a stretch: two second-order low-passes at 1.2 times the pitch sought take the upper
 * partials and the grains away, then upward crossings of zero are counted, with the first and the
 * last placed between samples. */
static double pitch_of(const float *x, int n, double sought_hz)
{
    const double w = 2.0 * 3.14159265358979323846 * 1.2 * sought_hz / RATE;
    const double alpha = sin(w) / (2.0 * 0.70710678), c = cos(w);
    const double a0 = 1.0 + alpha, b0 = 0.5 * (1.0 - c) / a0, b1 = (1.0 - c) / a0;
    const double a1 = -2.0 * c / a0, a2 = (1.0 - alpha) / a0;
    for (int i = 0; i < n; i++) {
        work[i] = (double)x[i];
    }
    for (int pass = 0; pass < 3; pass++) {
        double x1 = 0.0, x2 = 0.0, y1 = 0.0, y2 = 0.0;
        for (int i = 0; i < n; i++) {
            double in = work[i];
            double y = b0 * in + b1 * x1 + b0 * x2 - a1 * y1 - a2 * y2;
            x2 = x1;
            x1 = in;
            y2 = y1;
            y1 = y;
            work[i] = y;
        }
    }
    double first = -1.0, last = -1.0;
    int crossings = 0;
    for (int i = RATE / 10; i < n; i++) {
        if (work[i - 1] < 0.0 && work[i] >= 0.0) {
            double at = i - work[i] / (work[i] - work[i - 1]);
            first = first < 0.0 ? at : first;
            last = at;
            crossings++;
        }
    }
    return crossings > 1 ? (crossings - 1) * RATE / (last - first) : 0.0;
}

static float at_most_one(float v)
{
    return v < 1.0f ? v : 1.0f;
}

START_TEST(pitch_follows_the_wheel_within_one_percent_at_every_load)
{
    static const float speeds[] = {0.35f, 0.6f, 0.9f, 1.0f, 1.12f, 1.3f};
    static AudioSynth s;
    audio_init(&s, 7);
    int at = 0;
    for (int k = 0; k < 6; k++) {
        /* steps fall at odd samples: half a second and a prime */
        int n = RATE / 2 + RATE + 997 + 2 * k;
        /* less air gets through as the load grows, and never more than the wheel moves */
        AudioParams p =
            running(speeds[k], 0.2f * (float)k, at_most_one(speeds[k]) * (1.0f - 0.19f * (float)k));
        p.rattle = k % 2 == 0 ? 0.0f : 0.6f;
        p.hiss = 0.1f * (float)k;
        audio_fill(&s, &p, sound + at, n);
        double want = AUDIO_BLOWER_HZ * (double)speeds[k];
        double got = pitch_of(sound + at + RATE / 2, RATE, want);
        printf("speed %.2f: pitch %.2f Hz, expected %.2f\n", (double)speeds[k], got, want);
        ck_assert_double_eq_tol(got, want, 0.01 * want);
        ck_assert_double_eq_tol(audio_blower_hz(&p), want, 1e-4 * want);
        at += n;
    }
}
END_TEST

static int by_size(const void *a, const void *b)
{
    double x = *(const double *)a, y = *(const double *)b;
    return (x > y) - (x < y);
}

/* Largest second difference over the median one: a click stands out of the texture. */
static double click_ratio(const float *x, int n)
{
    for (int i = 2; i < n; i++) {
        work[i - 2] = fabs((double)x[i] - 2.0 * (double)x[i - 1] + (double)x[i - 2]);
    }
    double most = 0.0;
    for (int i = 0; i < n - 2; i++) {
        most = work[i] > most ? work[i] : most;
    }
    qsort(work, (size_t)(n - 2), sizeof work[0], by_size);
    return most / work[(n - 2) / 2];
}

static double largest_step(const float *x, int n)
{
    double most = 0.0;
    for (int i = 1; i < n; i++) {
        double d = fabs((double)x[i] - (double)x[i - 1]);
        most = d > most ? d : most;
    }
    return most;
}

/* A tone alone, stepped at odd samples. 10 is three times what the smooth tone shows; a tone whose
 * phase jumps with its pitch shows 88. */
START_TEST(a_step_of_load_does_not_click)
{
    static const float speeds[] = {1.0f, 0.7f, 1.25f, 0.9f};
    static AudioSynth s;
    audio_init(&s, 3);
    AudioParams p = running(1.0f, 0.5f, 0.5f);
    audio_fill(&s, &p, sound, RATE);
    int at = 0;
    for (int k = 0; k < 4; k++) {
        p = running(speeds[k], 0.3f + 0.2f * (float)k, 0.8f - 0.2f * (float)k);
        audio_fill(&s, &p, sound + at, 14401 + 2 * k);
        at += 14401 + 2 * k;
    }
    double ratio = click_ratio(sound, at);
    /* the same with the phase thrown back at every step: the measure can fail */
    for (int k = 1, to = 14401; k < 4; k++, to += 14401 + 2 * k) {
        for (int i = to; i < to + 40; i++) {
            sound[i] = -sound[i];
        }
    }
    double broken = click_ratio(sound, at);
    printf("second difference, largest over median: %.1f; with phase jumps %.1f\n", ratio, broken);
    ck_assert_double_lt(ratio, 10.0);
    ck_assert_double_gt(broken, 10.0);
}
END_TEST

START_TEST(no_sample_steps_further_than_stated)
{
    static AudioSynth s;
    double worst = 0.0, peak = 0.0;
    audio_init(&s, 11);
    AudioParams on = everything(), off = {.volume = 1.0f};
    AudioParams plug = on;
    plug.plugged = plug.has_broken = 1;
    float last = 0.0f;
    const AudioParams *order[] = {&on, &off, &on, &plug, &off, &plug, &on, &off};
    for (int k = 0; k < 40; k++) {
        int n = 9601 + 2 * k;
        audio_fill(&s, order[k % 8], sound + 1, n);
        sound[0] = last;
        last = sound[n];
        double step = largest_step(sound, n + 1);
        worst = step > worst ? step : worst;
        for (int i = 1; i <= n; i++) {
            double a = fabs((double)sound[i]);
            peak = a > peak ? a : peak;
        }
    }
    printf("largest step %.4f (limit %.2f), peak %.3f (limit %.2f)\n", worst, AUDIO_MAX_STEP, peak,
           AUDIO_MAX_LEVEL);
    ck_assert_double_lt(worst, AUDIO_MAX_STEP);
    ck_assert_double_lt(peak, AUDIO_MAX_LEVEL);
}
END_TEST

/* Mute and volume fade; they do not cut. Half of everything's own largest step allows for the
 * texture that goes on below the fade. */
START_TEST(mute_fades)
{
    static AudioSynth s;
    audio_init(&s, 5);
    AudioParams p = running(1.0f, 0.5f, 0.5f), q = p;
    q.volume = 0.0f;
    audio_fill(&s, &p, sound, RATE);
    double before = largest_step(sound + RATE / 2, RATE / 2);
    audio_fill(&s, &q, sound, RATE);
    ck_assert_double_le(largest_step(sound, RATE), 1.5 * before);
    ck_assert(sound[RATE - 1] == 0.0f);
}
END_TEST

static double rms(const float *x, int n)
{
    double sum = 0.0;
    for (int i = 0; i < n; i++) {
        sum += (double)x[i] * (double)x[i];
    }
    return sqrt(sum / n);
}

START_TEST(loudness_stays_in_bounds_and_every_cue_is_heard)
{
    static AudioSynth s;
    AudioParams base = running(1.0f, 0.7f, 0.5f), loud = everything();
    audio_init(&s, 1);
    audio_fill(&s, &loud, sound, 2 * RATE);
    double most = rms(sound + RATE, RATE);
    printf("all cues: rms %.3f\n", most);
    ck_assert_double_lt(most, 0.30);
    audio_init(&s, 1);
    audio_fill(&s, &base, sound, 2 * RATE);
    double plain = rms(sound + RATE, RATE);
    ck_assert_double_gt(plain, 0.05);
    /* each cue alone over silence */
    for (int cue = 0; cue < 3; cue++) {
        AudioParams p = {.volume = 1.0f};
        float *value[] = {&p.rattle, &p.hiss, &p.creak};
        *value[cue] = 1.0f;
        audio_init(&s, 1);
        audio_fill(&s, &p, sound, 2 * RATE);
        double level = rms(sound + RATE, RATE);
        printf("cue %d alone: rms %.4f\n", cue, level);
        ck_assert_double_gt(level, 0.004);
        ck_assert_double_lt(level, 0.20);
    }
}
END_TEST

START_TEST(rattle_thickens_with_material_and_stops_with_it)
{
    static AudioSynth s;
    double was = 0.0;
    for (int k = 1; k <= 4; k++) {
        AudioParams p = {.volume = 1.0f, .rattle = 0.25f * (float)k};
        audio_init(&s, 9);
        audio_fill(&s, &p, sound, 4 * RATE);
        double now = rms(sound + RATE, 3 * RATE);
        ck_assert_double_gt(now, was);
        was = now;
    }
    AudioParams stalled = {.volume = 1.0f};
    audio_fill(&s, &stalled, sound, RATE);
    /* 11.5 followers of 15 ms and the longest grain: silent within a fifth of a second */
    for (int i = RATE / 5; i < RATE; i++) {
        ck_assert(sound[i] == 0.0f);
    }
}
END_TEST

START_TEST(off_is_silence_to_the_last_bit)
{
    static AudioSynth s;
    AudioParams p = everything(), off = {.volume = 1.0f};
    audio_init(&s, 2);
    audio_fill(&s, &off, sound, RATE);
    for (int i = 0; i < RATE; i++) {
        ck_assert(sound[i] == 0.0f);
    }
    audio_fill(&s, &p, sound, 2 * RATE);
    audio_fill(&s, &off, sound, 2 * RATE);
    ck_assert_double_gt(rms(sound, RATE / 20), 0.0);
    for (int i = RATE; i < 2 * RATE; i++) {
        ck_assert(sound[i] == 0.0f);
    }
}
END_TEST

START_TEST(the_same_values_give_the_same_samples_however_they_are_cut)
{
    static AudioSynth a, b;
    static float other[RATE];
    AudioParams p = everything();
    audio_init(&a, 42);
    audio_init(&b, 42);
    audio_fill(&a, &p, sound, RATE);
    for (int at = 0, n = 1; at < RATE; at += n, n = n % 613 + 1) {
        n = n > RATE - at ? RATE - at : n;
        audio_fill(&b, &p, other + at, n);
    }
    ck_assert_int_eq(memcmp(sound, other, sizeof other), 0);
    audio_init(&b, 43);
    audio_fill(&b, &p, other, RATE);
    ck_assert_int_ne(memcmp(sound, other, sizeof other), 0);
}
END_TEST

START_TEST(nonsense_values_stay_sound)
{
    static AudioSynth s;
    audio_init(&s, 1);
    AudioParams p = {NAN, INFINITY, -INFINITY, NAN, 1e30f, -1.0f, NAN, 5.0f, 9.0f, 1, 1, 1, 9, 9};
    audio_fill(&s, &p, sound, RATE);
    for (int i = 0; i < RATE; i++) {
        ck_assert(isfinite(sound[i]) && fabs((double)sound[i]) <= AUDIO_MAX_LEVEL);
    }
}
END_TEST

/* Root mean square of the second after the first, of a noise alone. */
static double noise_rms(AudioMaskingKind kind, int level)
{
    static AudioMasking m;
    double sum = 0.0;
    audio_masking_start(&m, 5);
    for (int i = 0; i < 9 * RATE; i++) {
        double v = (double)audio_masking(&m, kind, level);
        ck_assert(fabs(v) <= 0.5);
        sum += i >= RATE ? v * v : 0.0;
    }
    return sqrt(sum / (8 * RATE));
}

START_TEST(noise_of_the_place_grows_with_its_level_and_leaves_the_machine_as_it_is)
{
    static AudioSynth a, b;
    static float with[RATE];
    AudioParams p = everything(), q = p;
    for (AudioMaskingKind k = AUDIO_MASKING_COMPRESSOR; k < AUDIO_MASKINGS; k++) {
        double one = noise_rms(k, 1), two = noise_rms(k, 2), three = noise_rms(k, 3);
        printf("noise %d: RMS %.4f, %.4f, %.4f\n", (int)k, one, two, three);
        ck_assert(noise_rms(k, 0) == 0.0);
        ck_assert(one > 0.004 && two > 1.8 * one && three > 1.6 * two && three < 0.12);
    }
    audio_init(&a, 3);
    audio_init(&b, 3);
    q.masking_level = 3; /* of no kind */
    audio_fill(&a, &p, sound, RATE);
    audio_fill(&b, &q, with, RATE);
    ck_assert_mem_eq(sound, with, sizeof with);
    q.masking = AUDIO_MASKING_SAW;
    audio_fill(&b, &q, with, RATE);
    audio_fill(&a, &p, sound, RATE);
    ck_assert(memcmp(sound, with, sizeof with) != 0);
    ck_assert(a.noise == b.noise); /* the machine's draws are its own */
}
END_TEST

/* A face that gives way is heard once, when it does: louder than anything else of a running down
 * machine, and over within half a second. */
START_TEST(a_blow_out_is_heard_once)
{
    static AudioSynth s;
    AudioParams p = {.volume = 1.0f};
    audio_init(&s, 5);
    p.has_broken = 1;
    double rms[3] = {0.0, 0.0, 0.0};
    for (int k = 0; k < 3; k++) { /* thirds of a second */
        audio_fill(&s, &p, sound, RATE / 3);
        for (int i = 0; i < RATE / 3; i++) {
            rms[k] += (double)sound[i] * (double)sound[i] * 3.0 / RATE;
        }
        rms[k] = sqrt(rms[k]);
    }
    ck_assert_double_gt(rms[0], 0.05);
    ck_assert_double_lt(rms[1], 0.01);
    ck_assert(rms[2] == 0.0);
}
END_TEST

START_TEST(captions_name_what_is_heard)
{
    AudioParams p = {0};
    ck_assert_int_eq(audio_caption(&p).machine, AUDIO_WORD_QUIET);
    ck_assert(audio_caption(&p).meter == 0.0f);
    p = running(1.0f, 0.3f, 0.7f);
    p.feed = 0.0f;
    ck_assert_int_eq(audio_caption(&p).machine, AUDIO_WORD_FREE);
    p.feed = 0.5f;
    p.rattle = 0.95f;
    ck_assert_int_eq(audio_caption(&p).machine, AUDIO_WORD_RATTLE);
    p.rattle = 0.5f;
    ck_assert_int_eq(audio_caption(&p).machine, AUDIO_WORD_SLOWING);
    p.rattle = 0.05f;
    p.pressure = 0.9f;
    ck_assert_int_eq(audio_caption(&p).machine, AUDIO_WORD_STALL);
    p.plugged = 1;
    ck_assert_int_eq(audio_caption(&p).machine, AUDIO_WORD_PLUG);
    p = (AudioParams){.speed = 0.3f};
    ck_assert_int_eq(audio_caption(&p).machine, AUDIO_WORD_RUN_DOWN);
    p.hiss = 0.5f;
    ck_assert_int_eq(audio_caption(&p).wall, AUDIO_WALL_HISS);
    p.creak = 0.2f;
    ck_assert_int_eq(audio_caption(&p).wall, AUDIO_WALL_CREAK);
    p.creak = 0.9f;
    ck_assert_int_eq(audio_caption(&p).wall, AUDIO_WALL_POP);
    p.volume = 0.0f; /* muted: still shown */
    ck_assert(audio_caption(&p).meter > 0.0f);
}
END_TEST

/* A tenth of the time a sample lasts (20.8 us) would already be far too much. */
START_TEST(a_sample_costs_little)
{
    static AudioSynth s;
    AudioParams p = everything();
    double best = 1e9;
    audio_init(&s, 1);
    for (int k = 0; k < 5; k++) {
        clock_t start = clock();
        audio_fill(&s, &p, sound, 2 * RATE);
        double ns = 1e9 * (double)(clock() - start) / CLOCKS_PER_SEC / (2 * RATE);
        best = ns < best ? ns : best;
    }
    printf("audio_fill, all cues: %.1f ns per sample\n", best);
    ck_assert_double_lt(best, 2083.0);
}
END_TEST

int main(void)
{
    Suite *s = suite_create("audio_synth");
    TCase *normal = tcase_create("normal"), *limits = tcase_create("limits");
    tcase_set_timeout(normal, 60);
    tcase_add_test(normal, pitch_follows_the_wheel_within_one_percent_at_every_load);
    tcase_add_test(normal, a_step_of_load_does_not_click);
    tcase_add_test(normal, mute_fades);
    tcase_add_test(normal, rattle_thickens_with_material_and_stops_with_it);
    tcase_add_test(normal, the_same_values_give_the_same_samples_however_they_are_cut);
    tcase_add_test(normal, a_blow_out_is_heard_once);
    tcase_add_test(normal, captions_name_what_is_heard);
    tcase_add_test(normal, noise_of_the_place_grows_with_its_level_and_leaves_the_machine_as_it_is);
    tcase_add_test(normal, a_sample_costs_little);
    tcase_set_timeout(limits, 60);
    tcase_add_test(limits, no_sample_steps_further_than_stated);
    tcase_add_test(limits, loudness_stays_in_bounds_and_every_cue_is_heard);
    tcase_add_test(limits, off_is_silence_to_the_last_bit);
    tcase_add_test(limits, nonsense_values_stay_sound);
    suite_add_tcase(s, normal);
    suite_add_tcase(s, limits);
    return run_suite(s);
}
