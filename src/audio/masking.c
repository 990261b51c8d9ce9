/*
 * Noise of the place, for drills: what a crew listens through. Each kind has draws of its own, so
 * that the machine sounds to the sample as it does without. Pitches, rhythms and levels are this
 * program's own choice for small loudspeakers: a compressor is low and steady, a saw comes and goes
 * in the band of the rattle, a radio has the rhythm of speech.
 */
#include "audio/audio.h"

/* Of full level; a dense rattle has an RMS of about 0.02, which is what a room of level 1 to 2 has.
 */
static const float LEVELS[4] = {0.0f, 0.25f, 0.55f, 1.0f};
static const float COMPRESSOR = 0.16f, SAW = 0.10f, RADIO = 0.28f;

static float uniform(AudioMasking *m) /* (-1, 1) */
{
    m->noise ^= m->noise >> 12; /* as in synth.c */
    m->noise ^= m->noise << 25;
    m->noise ^= m->noise >> 27;
    uint32_t bits = (uint32_t)((m->noise * 0x2545F4914F6CDD1Du) >> 32);
    return ((float)(bits >> 8) + 0.5f) * (1.0f / 8388608.0f) - 1.0f;
}

static float turn(float *phase, float hz)
{
    *phase += hz / AUDIO_RATE_HZ;
    *phase -= *phase >= 1.0f ? 1.0f : 0.0f;
    return *phase;
}

/* A parabola for each half turn: a tone with a little edge. */
static float tone(float phase)
{
    float x = 2.0f * phase - 1.0f, a = x < 0.0f ? -x : x;
    return -4.0f * x * (1.0f - a);
}

/* Two strokes of a piston a turn of 24 Hz, and air. */
static float compressor(AudioMasking *m, float white)
{
    float stroke = tone(turn(&m->phase, 24.0f));
    m->air += 0.07f * (white - m->air);
    m->low += 0.07f * (m->air - m->low);
    return 0.35f * stroke + (1.2f + 0.8f * stroke) * m->low + 0.02f * white;
}

/* Cuts of one to three seconds, and as long a rest; the blade's tooth tone and its noise. */
static float saw(AudioMasking *m, float white)
{
    if (--m->left <= 0) {
        m->is_on = !m->is_on;
        m->left = (int)(AUDIO_RATE_HZ * (2.0f + uniform(m)));
    }
    m->level += 0.0004f * ((m->is_on ? 1.0f : 0.0f) - m->level);
    m->low += 0.45f * (white - m->low);
    float blade = tone(turn(&m->phase, 1150.0f));
    return m->level * (0.4f * blade + 0.9f * m->low);
}

/* Syllables, some four a second, of a voice at a little over 120 Hz through a narrow loudspeaker.
 */
static float radio(AudioMasking *m, float white)
{
    if (--m->left <= 0) {
        m->is_on = uniform(m) > -0.5f; /* a pause now and then */
        m->left = (int)(AUDIO_RATE_HZ * (0.22f + 0.12f * uniform(m)));
        m->pitch_hz = 125.0f + 35.0f * uniform(m);
    }
    m->level += 0.001f * ((m->is_on ? 1.0f : 0.0f) - m->level);
    float voice = tone(turn(&m->phase, m->pitch_hz)) * (0.6f + 0.8f * white * white);
    m->low += 0.25f * (voice + 0.25f * white - m->low);
    m->air += 0.03f * (m->low - m->air); /* what a small loudspeaker cannot give */
    return m->level * (m->low - m->air);
}

void audio_masking_start(AudioMasking *m, uint64_t seed)
{
    *m = (AudioMasking){.noise = seed * 0x9E3779B97F4A7C15u + 0x632BE59BD9B4E019u};
    m->noise = m->noise != 0 ? m->noise : 1u;
}

float audio_masking(AudioMasking *m, AudioMaskingKind kind, int level)
{
    int at = level < 0 ? 0 : level > 3 ? 3 : level;
    if (kind <= AUDIO_MASKING_NONE || kind >= AUDIO_MASKINGS || at == 0) {
        m->loud += 0.001f * (0.0f - m->loud);
        return 0.0f;
    }
    float white = uniform(m);
    m->loud += 0.001f * (LEVELS[at] - m->loud); /* opens over 20 ms: no click */
    switch (kind) {
    case AUDIO_MASKING_COMPRESSOR:
        return m->loud * COMPRESSOR * compressor(m, white);
    case AUDIO_MASKING_SAW:
        return m->loud * SAW * saw(m, white);
    default:
        return m->loud * RADIO * radio(m, white);
    }
}
