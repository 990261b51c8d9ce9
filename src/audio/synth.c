/*
 * The fill function: sample by sample, smoothed values in, one mono sample out. Phases run on
 * through every change and grains start and end at nothing, so nothing clicks. Not here: the device
 * (audio_device.c), the words (caption.c).
 */
#include "audio/audio.h"

#include <math.h>
#include <string.h>

#define TURN 6.283185307179586

/* Followers: 60 ms for what a wheel or a hose does, 15 ms for grains, which must fall silent at
 * once when the flow stalls. Shares of the way in one sample: 1 / (time x rate). */
static const float SLOW = 1.0f / (0.060f * AUDIO_RATE_HZ);
static const float QUICK = 1.0f / (0.015f * AUDIO_RATE_HZ);
static const float NEAR = 1e-5f; /* arrived: so that silence is exact and nothing goes denormal */

static const float RATTLE_PER_S = 600.0f, CREAK_PER_S = 9.0f, POP_PER_S = 2.5f;
static const float POP_FROM = 0.55f; /* creak at which pops begin */
/* A blower labours above this share of its shut-off pressure and below this share of its open flow;
 * both are full one span further. Our choice: a free line is at half of either. */
static const float LABOUR_PRESSURE = 0.6f, LABOUR_FLOW = 0.4f, LABOUR_SPAN = 0.3f;
/* Stall cells go round at about half of the shaft's speed; line and wheel surge some times a
 * second.
 */
static const float CELL_OF_SHAFT = 0.55f, SURGE_HZ = 5.0f;

static float limit(float v, float lo, float hi)
{
    return v >= lo ? (v <= hi ? v : hi) : lo; /* NaN gives lo */
}

static AudioParams sane(const AudioParams *p)
{
    AudioParams q = *p;
    q.speed = limit(p->speed, 0.0f, 1.3f);
    q.pressure = limit(p->pressure, 0.0f, 1.2f);
    q.flow = limit(p->flow, 0.0f, 1.0f);
    q.feed = limit(p->feed, 0.0f, 1.0f);
    q.rattle = limit(p->rattle, 0.0f, 1.0f);
    q.pulse = limit(p->pulse, 0.0f, 1.0f);
    q.hiss = limit(p->hiss, 0.0f, 1.0f);
    q.creak = limit(p->creak, 0.0f, 1.0f);
    q.volume = limit(p->volume, 0.0f, 1.0f);
    return q;
}

double audio_blower_hz(const AudioParams *p)
{
    return AUDIO_BLOWER_HZ * (double)limit(p->speed, 0.0f, 1.3f);
}

void audio_init(AudioSynth *synth, uint64_t seed)
{
    memset(synth, 0, sizeof *synth);
    synth->noise = seed * 0x9E3779B97F4A7C15u + 0xD1B54A32D192ED03u;
    synth->noise = synth->noise != 0 ? synth->noise : 1u;
    audio_masking_start(&synth->masking, seed);
    synth->rattle_wait = synth->creak_wait = synth->pop_wait = -1.0;
    for (int i = 0; i < 1026; i++) {
        synth->sine[i] = (float)sin(TURN * i / 1024.0);
    }
}

/* xorshift64* (Vigna, ACM TOMS 42, 2016): good enough for noise and quick. */
static uint32_t draw(AudioSynth *s)
{
    s->noise ^= s->noise >> 12;
    s->noise ^= s->noise << 25;
    s->noise ^= s->noise >> 27;
    return (uint32_t)((s->noise * 0x2545F4914F6CDD1Du) >> 32);
}

static float uniform(AudioSynth *s) /* (0, 1) */
{
    return ((float)(draw(s) >> 9) + 0.5f) * (1.0f / 8388608.0f);
}

static float wave(const AudioSynth *s, float turns)
{
    float x = turns * 1024.0f;
    int i = (int)x;
    float f = x - (float)i;
    return s->sine[i] + f * (s->sine[i + 1] - s->sine[i]);
}

static float advance(float phase, float step)
{
    phase += step;
    return phase >= 1.0f ? phase - 1.0f : phase;
}

static float follow(float now, float target, float share)
{
    float d = target - now;
    return fabsf(d) < NEAR ? target : now + share * d;
}

static void follow_all(AudioParams *n, const AudioParams *t)
{
    n->speed = follow(n->speed, t->speed, SLOW);
    n->pressure = follow(n->pressure, t->pressure, SLOW);
    n->flow = follow(n->flow, t->flow, SLOW);
    n->rattle = follow(n->rattle, t->rattle, QUICK);
    n->pulse = follow(n->pulse, t->pulse, SLOW);
    n->hiss = follow(n->hiss, t->hiss, SLOW);
    n->creak = follow(n->creak, t->creak, QUICK);
    n->volume = follow(n->volume, t->volume, QUICK);
    n->machine_on = t->machine_on;
    n->plugged = t->plugged;
    n->has_broken = t->has_broken;
}

static void start_grain(AudioSynth *s, float hz, float level, float attack_s, float length_s)
{
    for (int i = 0; i < AUDIO_GRAINS; i++) {
        AudioGrain *g = &s->grains[i];
        if (g->length == 0) {
            g->phase = 0.0f;
            g->phase_step = hz / AUDIO_RATE_HZ;
            g->level = level;
            g->age = 0;
            g->attack = (int)(attack_s * AUDIO_RATE_HZ);
            g->length = (int)(length_s * AUDIO_RATE_HZ);
            return;
        }
    }
}

static float grain_sample(AudioSynth *s, AudioGrain *g)
{
    float left = (float)(g->length - g->age) / (float)(g->length - g->attack);
    float up = g->age < g->attack ? (float)g->age / (float)g->attack : 1.0f;
    float window = (g->age < g->attack ? up * up * (3.0f - 2.0f * up) : left * left * left);
    float v = g->level * window * wave(s, g->phase);
    g->phase = advance(g->phase, g->phase_step);
    if (++g->age >= g->length) {
        g->length = 0;
    }
    return v;
}

/* Arrivals at a rate: waits are drawn evenly between nothing and twice the mean, which sounds like
 * rain and needs no logarithm. @return nonzero when one arrives now */
static int arrives(AudioSynth *s, double *wait, float per_s)
{
    if (per_s < 0.02f) {
        *wait = -1.0;
        return 0;
    }
    double mean = AUDIO_RATE_HZ / (double)per_s;
    if (*wait < 0.0 || *wait > 2.0 * mean) {
        *wait = 2.0 * mean * (double)uniform(s);
    }
    *wait -= 1.0;
    if (*wait > 0.0) {
        return 0;
    }
    *wait = 2.0 * mean * (double)uniform(s);
    return 1;
}

static float grains(AudioSynth *s)
{
    const AudioParams *p = &s->now;
    float sum = 0.0f;
    if (arrives(s, &s->rattle_wait, RATTLE_PER_S * p->rattle)) {
        float hz = AUDIO_RATTLE_LOW_HZ + (AUDIO_RATTLE_HIGH_HZ - AUDIO_RATTLE_LOW_HZ) * uniform(s);
        float level = (0.035f + 0.05f * uniform(s)) * (0.4f + 0.6f * p->rattle);
        start_grain(s, hz, level, 0.0008f, 0.004f + 0.006f * uniform(s));
    }
    if (arrives(s, &s->creak_wait, CREAK_PER_S * p->creak)) {
        float hz = 170.0f + 260.0f * uniform(s);
        start_grain(s, hz, 0.06f + 0.10f * p->creak, 0.006f, 0.05f + 0.06f * uniform(s));
    }
    float pops = (p->creak - POP_FROM) / (1.0f - POP_FROM);
    if (arrives(s, &s->pop_wait, POP_PER_S * (pops > 0.0f ? pops : 0.0f))) {
        start_grain(s, 480.0f + 300.0f * uniform(s), 0.26f, 0.0012f, 0.030f);
    }
    if (p->plugged && !s->was_plugged) {
        start_grain(s, 75.0f, 0.40f, 0.006f, 0.22f);
    }
    s->was_plugged = p->plugged;
    if (p->has_broken && !s->was_broken) { /* the board, and its fasteners */
        start_grain(s, 62.0f, 0.45f, 0.005f, 0.30f);
        start_grain(s, 540.0f, 0.22f, 0.0012f, 0.045f);
        start_grain(s, 830.0f, 0.18f, 0.0012f, 0.030f);
    }
    s->was_broken = p->has_broken;
    for (int i = 0; i < AUDIO_GRAINS; i++) {
        if (s->grains[i].length > 0) {
            sum += grain_sample(s, &s->grains[i]);
        }
    }
    return sum;
}

/* How far the throttled blower is into its own stall, 0..1. */
static float labour(const AudioParams *p)
{
    float shut = limit((p->pressure - LABOUR_PRESSURE) / LABOUR_SPAN, 0.0f, 1.0f);
    float still = limit((LABOUR_FLOW - p->flow) / LABOUR_SPAN, 0.0f, 1.0f);
    return shut * still;
}

static float blower(AudioSynth *s, float white)
{
    const AudioParams *p = &s->now;
    if (p->speed <= 0.0f) {
        s->roar1 = s->roar2 = 0.0f;
        return 0.0f;
    }
    float step = (float)(AUDIO_BLOWER_HZ / AUDIO_RATE_HZ) * p->speed;
    float loud = p->speed < 1.0f ? p->speed * p->speed : 1.0f;
    /* work done on the air: most in mid-range, none with the outlet shut or wide open */
    float load = limit(4.0f * p->pressure * p->flow, 0.0f, 1.0f);
    s->phase = advance(s->phase, step);
    s->blade_phase = advance(s->blade_phase, 7.0f * step);
    s->cell_phase = advance(s->cell_phase, CELL_OF_SHAFT * step);
    s->throb_phase = advance(s->throb_phase, SURGE_HZ / AUDIO_RATE_HZ);
    float strain = p->plugged ? 1.0f : labour(p);
    float two = s->phase < 0.5f ? 2.0f * s->phase : 2.0f * s->phase - 1.0f;
    float v = 0.13f * wave(s, s->phase) + 0.05f * wave(s, two) * (0.5f + 0.5f * load) +
              0.015f * wave(s, s->blade_phase) * (1.0f + limit(p->pressure, 0.0f, 1.0f));
    s->roar1 += 0.20f * (white - s->roar1);
    s->roar2 += 0.20f * (s->roar1 - s->roar2);
    v += 0.06f * s->roar2 * (0.4f + 0.6f * load + 1.2f * strain);
    v += 0.05f * strain * wave(s, s->cell_phase);
    v *= 1.0f - 0.2f * strain * (1.0f - wave(s, s->throb_phase));
    return v * loud;
}

/* Air in the hose, at leaks, and out of the machine while its pressure bleeds. */
static float air(AudioSynth *s, float white)
{
    const AudioParams *p = &s->now;
    float sum = 0.0f;
    if (p->flow > 0.0f) {
        s->low1 += 0.12f * (white - s->low1);
        s->low2 += 0.12f * (s->low1 - s->low2);
        s->pulse_phase = advance(s->pulse_phase, 4.5f / AUDIO_RATE_HZ);
        float beat = 1.0f + 0.45f * p->pulse * wave(s, s->pulse_phase);
        sum += 0.16f * p->flow * p->flow * beat * s->low2;
    } else {
        s->low1 = s->low2 = 0.0f;
    }
    if (p->hiss > 0.0f) {
        s->hiss_low += 0.35f * (white - s->hiss_low);
        sum += 0.05f * p->hiss * (white - s->hiss_low) * 0.7f;
    } else {
        s->hiss_low = 0.0f;
    }
    if (!p->machine_on && p->pressure > 0.0f) {
        s->bleed_low += 0.05f * (1.0f - s->bleed_low); /* opens over a few ms */
    } else {
        s->bleed_low = s->bleed_low > NEAR ? s->bleed_low * 0.95f : 0.0f;
    }
    if (s->bleed_low > 0.0f && p->pressure > 0.0f) {
        sum += 0.05f * limit(p->pressure, 0.0f, 1.0f) * s->bleed_low * white;
    }
    return sum;
}

/* Straight up to a third, then bent so that nothing passes AUDIO_MAX_LEVEL. */
static float bend(float v)
{
    const float knee = 0.35f, room = (float)AUDIO_MAX_LEVEL - 0.35f;
    float a = fabsf(v);
    if (a <= knee) {
        return v;
    }
    float over = (a - knee) / room;
    float bent = knee + room * over / (1.0f + over);
    return v < 0.0f ? -bent : bent;
}

void audio_fill(AudioSynth *synth, const AudioParams *target, float *out, int frames)
{
    AudioParams t = sane(target);
    for (int i = 0; i < frames; i++) {
        follow_all(&synth->now, &t);
        float white = 2.0f * uniform(synth) - 1.0f;
        float v = blower(synth, white) + air(synth, white) + grains(synth);
        v += audio_masking(&synth->masking, (AudioMaskingKind)t.masking, t.masking_level);
        out[i] = synth->now.volume * bend(v);
    }
}
