/* The visible twin of the sound: one word for the machine, one for the wall, and levels for a
 * meter. Limits are where the ear of the synth hears the change too. */
#include "audio/audio.h"

static float share(float v)
{
    return v > 0.0f ? (v < 1.0f ? v : 1.0f) : 0.0f;
}

static AudioWord machine_word(const AudioParams *p)
{
    if (p->plugged) {
        return AUDIO_WORD_PLUG;
    }
    if (!p->machine_on) {
        return p->speed > 0.02f || p->pressure > 0.02f ? AUDIO_WORD_RUN_DOWN : AUDIO_WORD_QUIET;
    }
    if (!(p->feed > 0.01f)) {
        return p->rattle > 0.05f ? AUDIO_WORD_RATTLE : AUDIO_WORD_FREE;
    }
    /* rattle is 1 at two thirds of the largest feed: compare with the gate */
    float wanted = share(1.5f * p->feed);
    if (p->rattle < 0.25f * wanted) {
        return AUDIO_WORD_STALL;
    }
    return p->rattle < 0.8f * wanted ? AUDIO_WORD_SLOWING : AUDIO_WORD_RATTLE;
}

static AudioWallWord wall_word(const AudioParams *p)
{
    if (p->creak > 0.55f) {
        return AUDIO_WALL_POP;
    }
    if (p->creak > 0.02f) {
        return AUDIO_WALL_CREAK;
    }
    return p->hiss > 0.08f ? AUDIO_WALL_HISS : AUDIO_WALL_QUIET;
}

AudioCaption audio_caption(const AudioParams *p)
{
    AudioCaption c;
    float turning = share(p->speed);
    c.machine = machine_word(p);
    c.wall = wall_word(p);
    c.pitch = share(p->speed / 1.3f);
    c.blower = turning * turning;
    c.rattle = share(p->rattle);
    c.hiss = share(p->hiss);
    c.creak = share(p->creak);
    c.meter = share(0.45f * c.blower + 0.35f * c.rattle + 0.10f * c.hiss + 0.30f * c.creak);
    return c;
}
