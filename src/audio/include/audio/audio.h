/**
 * @file audio.h
 * @brief The sound of the machine and the bay, made from what a crew could sense; nothing recorded.
 *
 * audio_fill is a pure function of (state, target, frames so far): no clock, no device, no globals,
 * no allocation. The same targets at the same frames give the same samples however the frames are
 * cut into calls. Every cue has a visible twin, see audio_caption.
 *
 * Model; the cause of each sound is in docs/physics/sound.md. The blower is a tone whose pitch is
 * its wheel speed (a wheel that is throttled does less work and runs faster), with a second
 * partial, the beat of its blades and broad noise that grow with load. Near shut-off it labours:
 * stall cells add a tone under the shaft's and roar, and all of it surges. Material is a rain of
 * short grains whose count goes with the rattle; air in the hose and at leaks is filtered noise; a
 * loaded panel creaks and pops; a plug is one thump; a machine switched off runs down with its
 * wheel and lets its pressure go. Pitches and levels are this program's own choice for small
 * loudspeakers.
 */
#ifndef AUDIO_AUDIO_H
#define AUDIO_AUDIO_H

#include <stdint.h>

#define AUDIO_RATE_HZ 48000

/** Pitch of the blower at wheel speed 1. */
#define AUDIO_BLOWER_HZ 220.0

/** Where the grains of the rattle lie: above the blade tone, so that nothing else is heard there.
 */
#define AUDIO_RATTLE_LOW_HZ  2000.0f
#define AUDIO_RATTLE_HIGH_HZ 4200.0f

/** No sample is further from the one before than this, at volume 1, all cues at once. */
#define AUDIO_MAX_STEP 0.25
/** No sample is further from zero than this. */
#define AUDIO_MAX_LEVEL 0.95

/** Noise of the place that a crew listens through; for drills. */
typedef enum AudioMaskingKind {
    AUDIO_MASKING_NONE,
    AUDIO_MASKING_COMPRESSOR,
    AUDIO_MASKING_SAW,
    AUDIO_MASKING_RADIO,
    AUDIO_MASKINGS
} AudioMaskingKind;

/** What a noise remembers. Plain value; set up with audio_masking_start. */
typedef struct AudioMasking {
    uint64_t noise;
    float phase, low, air, level, loud, pitch_hz;
    int left, is_on;
} AudioMasking;

/** @brief Silence, ready. @param[in] seed of its draws */
void audio_masking_start(AudioMasking *masking, uint64_t seed);
/**
 * @brief Its next sample at volume 1. Deterministic, allocates nothing.
 * @param[in] level 0 none, 1 next door, 2 in the room, 3 beside one; ends count beyond
 */
float audio_masking(AudioMasking *masking, AudioMaskingKind kind, int level);

/** What the sound follows. Values out of range count as the nearest end, NaN as 0. */
typedef struct AudioParams {
    float speed;    /**< of the blower wheel against full speed, 0..1.3 */
    float pressure; /**< at the machine against its pressure with the outlet shut, 0..1.2 */
    float flow;     /**< through the hose against the open flow, 0..1 */
    float feed;     /**< gate against fully open, 0..1; used by the captions */
    float rattle;   /**< 0 none .. 1 dense */
    float pulse;    /**< 0 hose still .. 1 lively */
    float hiss;     /**< 0..1, air getting out through leaks */
    float creak;    /**< 0..1, panel noise */
    float volume;   /**< 0..1; 0 is mute */
    int machine_on;
    int plugged;
    int has_broken;             /**< the face has given way: a bang when it first says so */
    int masking, masking_level; /**< AudioMaskingKind, 0..3 */
} AudioParams;

#define AUDIO_GRAINS 40

/** One short sound: a sine under a window that starts and ends at nothing. */
typedef struct AudioGrain {
    float phase, phase_step; /**< turns, turns a sample */
    float level;
    int age, attack, length; /**< samples; free when length is 0 */
} AudioGrain;

/** Everything the sound remembers. Plain value: copy freely; set up with audio_init. */
typedef struct AudioSynth {
    AudioParams now; /**< smoothed */
    float phase;     /**< of the blower, turns */
    float blade_phase, cell_phase, pulse_phase, throb_phase;
    float low1, low2, hiss_low, bleed_low, roar1, roar2;
    double rattle_wait, creak_wait,
        pop_wait; /**< samples until the next of each; negative = none */
    uint64_t noise;
    int was_plugged, was_broken;
    AudioMasking masking;
    AudioGrain grains[AUDIO_GRAINS];
    float sine[1026]; /**< one turn, for interpolation */
} AudioSynth;

/** @brief Silence, ready to be filled. @param[in] seed of the noise. */
void audio_init(AudioSynth *synth, uint64_t seed);

/**
 * @brief The next samples.
 * @param[in,out] synth  set up by audio_init
 * @param[in]     target where the sound is heading, borrowed for the call
 * @param[out]    out    caller's array of `frames` samples, mono, AUDIO_RATE_HZ
 * Deterministic, allocates nothing. Writes exact zeros once everything has run down.
 */
void audio_fill(AudioSynth *synth, const AudioParams *target, float *out, int frames);

/** @brief Pitch that the blower settles at for these values, Hz. */
double audio_blower_hz(const AudioParams *p);

/** What the machine is heard to do. The words belong to whoever shows them. */
typedef enum AudioWord {
    AUDIO_WORD_QUIET,    /**< off and run down */
    AUDIO_WORD_FREE,     /**< runs, no material: gate shut */
    AUDIO_WORD_RATTLE,   /**< material is moving */
    AUDIO_WORD_SLOWING,  /**< material thins out, pitch climbs */
    AUDIO_WORD_STALL,    /**< gate open and hardly a grain */
    AUDIO_WORD_PLUG,     /**< hose full of stuck material */
    AUDIO_WORD_RUN_DOWN, /**< switched off, wheel and pressure dying away */
    AUDIO_WORDS
} AudioWord;

/** What the wall is heard to do. */
typedef enum AudioWallWord {
    AUDIO_WALL_QUIET,
    AUDIO_WALL_HISS,  /**< air at leaks */
    AUDIO_WALL_CREAK, /**< the panel works */
    AUDIO_WALL_POP,   /**< near its strength */
    AUDIO_WALL_WORDS
} AudioWallWord;

/** The visible twin of the sound. Levels 0..1. */
typedef struct AudioCaption {
    AudioWord machine;
    AudioWallWord wall;
    float pitch; /**< of the blower, 0..1 over its whole range */
    float blower, rattle, hiss, creak;
    float meter; /**< all together */
} AudioCaption;

/**
 * @brief What is to be heard now, for captions and a sound meter. Volume plays no part: a muted
 * program still shows it. Deterministic, allocates nothing.
 */
AudioCaption audio_caption(const AudioParams *p);

#endif
