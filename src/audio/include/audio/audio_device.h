/**
 * @file audio_device.h
 * @brief The loudspeaker: opens a device, passes values to its thread without locks, lives without.
 *
 * The sound runs on SDL's own thread. audio_device_set stores each value by itself, atomically: the
 * thread may for one buffer see a new pressure with an old flow, which its followers smooth away.
 * No device, or a device that goes away, is silence and one notice; it is tried again quietly.
 * Buffer: 512 frames, 10.7 ms; the driver keeps about two, so a change is heard within 40 ms.
 */
#ifndef AUDIO_AUDIO_DEVICE_H
#define AUDIO_AUDIO_DEVICE_H

#include "audio/audio.h"

#define AUDIO_BUFFER_FRAMES 512
#define AUDIO_RETRY_S       2.0

typedef struct AudioDevice AudioDevice;

/** What people should be told, once each time it becomes so. */
typedef enum AudioNotice {
    AUDIO_NOTICE_NONE,
    AUDIO_NOTICE_NO_DEVICE, /**< none could be opened: silent, captions still work */
    AUDIO_NOTICE_LOST,      /**< it went away while playing */
    AUDIO_NOTICE_BACK       /**< playing again */
} AudioNotice;

typedef struct AudioDeviceStats {
    int is_playing;
    int buffer_frames; /**< as the driver gave it; 0 without a device */
    uint64_t buffers;  /**< filled since the start */
    uint64_t late;     /**< buffers asked for more than two buffer times after the one before: the
                            driver may have run dry */
    double fill_ns_per_sample; /**< worst buffer so far */
} AudioDeviceStats;

/**
 * @brief Start the sound system and open a device.
 * @param[in] name device as named by audio_device_name; NULL for the default one. Copied
 * @return NULL only when memory ran out: without any device the handle is there and silent.
 * Caller closes it with audio_device_close. Call it, and all below, from one thread.
 */
AudioDevice *audio_device_open(const char *name, uint64_t seed);
/** @brief Fade out over 150 ms, close. NULL allowed. */
void audio_device_close(AudioDevice *device);
/** @brief Where the sound is heading. Borrowed for the call. `volume` of the values is used. */
void audio_device_set(AudioDevice *device, const AudioParams *params);
/**
 * @brief Play on another device from now on. Closes the one in use; a name that is not there falls
 * back to the default one, as at the start.
 * @param[in] name as audio_device_open; copied
 */
void audio_device_choose(AudioDevice *device, const char *name);
/** @brief Silence without forgetting the volume. */
void audio_device_mute(AudioDevice *device, int is_muted);
/**
 * @brief Call once a frame: notices a lost device, tries again every AUDIO_RETRY_S.
 * @param[in] now_s any clock that goes forward, s
 * @return what to tell people, once
 */
AudioNotice audio_device_poll(AudioDevice *device, double now_s);
AudioDeviceStats audio_device_stats(const AudioDevice *device);

/** @brief How many output devices there are; at least 0. Needs an open handle. */
int audio_device_count(void);
/** @brief Name of one; NULL when there is no such. Borrowed until the next audio_device_count. */
const char *audio_device_name(int index);

#endif
