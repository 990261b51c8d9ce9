/*
 * SDL's side of the sound: open, callback, loss, close. Everything audible is made in synth.c.
 * The callback takes no lock, allocates nothing and calls nothing that waits.
 */
#include "audio/audio_device.h"

#include <SDL.h>
#include <stdatomic.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { VALUES = 9 };

struct AudioDevice {
    SDL_AudioDeviceID id; /* 0 = none */
    char name[128];       /* "" = the default one */
    AudioNotice notice;   /* to be told */
    int was_told;         /* that there is none: say it once */
    int is_system_up;
    double retry_at_s;
    int buffer_frames;

    _Atomic float value[VALUES];
    _Atomic int machine_on, plugged, has_broken, masking, masking_level, is_muted;
    _Atomic uint64_t buffers, late;
    _Atomic double worst_ns;

    /* the thread's own */
    AudioSynth synth;
    uint64_t last_start;
};

static void load(AudioDevice *d, AudioParams *p)
{
    float *to[VALUES] = {&p->speed, &p->pressure, &p->flow,  &p->feed,  &p->rattle,
                         &p->pulse, &p->hiss,     &p->creak, &p->volume};
    for (int i = 0; i < VALUES; i++) {
        *to[i] = atomic_load_explicit(&d->value[i], memory_order_relaxed);
    }
    p->machine_on = atomic_load_explicit(&d->machine_on, memory_order_relaxed);
    p->plugged = atomic_load_explicit(&d->plugged, memory_order_relaxed);
    p->has_broken = atomic_load_explicit(&d->has_broken, memory_order_relaxed);
    p->masking = atomic_load_explicit(&d->masking, memory_order_relaxed);
    p->masking_level = atomic_load_explicit(&d->masking_level, memory_order_relaxed);
    if (atomic_load_explicit(&d->is_muted, memory_order_relaxed)) {
        p->volume = 0.0f;
    }
}

static void SDLCALL fill(void *user, Uint8 *stream, int bytes)
{
    AudioDevice *d = user;
    AudioParams p;
    int frames = bytes / (int)sizeof(float);
    double per_s = (double)SDL_GetPerformanceFrequency();
    uint64_t start = SDL_GetPerformanceCounter();
    load(d, &p);
    audio_fill(&d->synth, &p, (float *)(void *)stream, frames);
    uint64_t end = SDL_GetPerformanceCounter();
    double gap = (double)(start - d->last_start) / per_s;
    if (d->last_start != 0 && gap > 2.0 * frames / AUDIO_RATE_HZ) {
        atomic_fetch_add_explicit(&d->late, 1, memory_order_relaxed);
    }
    d->last_start = start;
    double ns = 1e9 * (double)(end - start) / per_s / (frames > 0 ? frames : 1);
    if (ns > atomic_load_explicit(&d->worst_ns, memory_order_relaxed)) {
        atomic_store_explicit(&d->worst_ns, ns, memory_order_relaxed);
    }
    atomic_fetch_add_explicit(&d->buffers, 1, memory_order_relaxed);
}

/* A device lost with its name is looked for as the default one. */
static int try_open(AudioDevice *d)
{
    SDL_AudioSpec want, got = {0};
    memset(&want, 0, sizeof want);
    want.freq = AUDIO_RATE_HZ;
    want.format = AUDIO_F32SYS;
    want.channels = 1;
    want.samples = AUDIO_BUFFER_FRAMES;
    want.callback = fill;
    want.userdata = d;
    if (!d->is_system_up) {
        d->is_system_up = SDL_InitSubSystem(SDL_INIT_AUDIO) == 0;
        if (!d->is_system_up) {
            return 0;
        }
    }
    d->last_start = 0;
    /* no change of rate, format or channels is allowed: SDL converts behind the callback */
    if (d->name[0] != '\0') {
        d->id = SDL_OpenAudioDevice(d->name, 0, &want, &got, 0);
    }
    if (d->id == 0) {
        d->id = SDL_OpenAudioDevice(NULL, 0, &want, &got, 0);
    }
    if (d->id == 0) {
        return 0;
    }
    d->buffer_frames = got.samples;
    SDL_PauseAudioDevice(d->id, 0);
    return 1;
}

AudioDevice *audio_device_open(const char *name, uint64_t seed)
{
    AudioDevice *d = calloc(1, sizeof *d);
    if (d == NULL) {
        return NULL;
    }
    snprintf(d->name, sizeof d->name, "%s", name != NULL ? name : "");
    audio_init(&d->synth, seed);
    if (!try_open(d)) {
        d->notice = AUDIO_NOTICE_NO_DEVICE;
        d->was_told = 1;
    }
    return d;
}

static void drop(AudioDevice *d)
{
    if (d->id != 0) {
        SDL_CloseAudioDevice(d->id);
        d->id = 0;
        d->buffer_frames = 0;
    }
}

void audio_device_choose(AudioDevice *device, const char *name)
{
    snprintf(device->name, sizeof device->name, "%s", name != NULL ? name : "");
    drop(device);
    if (try_open(device)) {
        device->was_told = 0;
    } else {
        device->notice = device->was_told ? AUDIO_NOTICE_NONE : AUDIO_NOTICE_NO_DEVICE;
        device->was_told = 1;
    }
}

void audio_device_close(AudioDevice *device)
{
    if (device == NULL) {
        return;
    }
    if (device->id != 0) {
        audio_device_mute(device, 1);
        SDL_Delay(150); /* the fade, and the buffers that are on their way */
    }
    drop(device);
    if (device->is_system_up) {
        SDL_QuitSubSystem(SDL_INIT_AUDIO);
    }
    free(device);
}

void audio_device_set(AudioDevice *device, const AudioParams *p)
{
    const float from[VALUES] = {p->speed, p->pressure, p->flow,  p->feed,  p->rattle,
                                p->pulse, p->hiss,     p->creak, p->volume};
    for (int i = 0; i < VALUES; i++) {
        atomic_store_explicit(&device->value[i], from[i], memory_order_relaxed);
    }
    atomic_store_explicit(&device->machine_on, p->machine_on, memory_order_relaxed);
    atomic_store_explicit(&device->plugged, p->plugged, memory_order_relaxed);
    atomic_store_explicit(&device->has_broken, p->has_broken, memory_order_relaxed);
    atomic_store_explicit(&device->masking, p->masking, memory_order_relaxed);
    atomic_store_explicit(&device->masking_level, p->masking_level, memory_order_relaxed);
}

void audio_device_mute(AudioDevice *device, int is_muted)
{
    atomic_store_explicit(&device->is_muted, is_muted, memory_order_relaxed);
}

AudioNotice audio_device_poll(AudioDevice *device, double now_s)
{
    if (device->id != 0 && SDL_GetAudioDeviceStatus(device->id) == SDL_AUDIO_STOPPED) {
        drop(device);
        device->notice = device->was_told ? AUDIO_NOTICE_NONE : AUDIO_NOTICE_LOST;
        device->was_told = 1;
        device->retry_at_s = now_s + AUDIO_RETRY_S;
    } else if (device->id == 0 && now_s >= device->retry_at_s) {
        device->retry_at_s = now_s + AUDIO_RETRY_S;
        if (try_open(device)) {
            device->notice = AUDIO_NOTICE_BACK;
            device->was_told = 0;
        }
    }
    AudioNotice told = device->notice;
    device->notice = AUDIO_NOTICE_NONE;
    return told;
}

AudioDeviceStats audio_device_stats(const AudioDevice *device)
{
    AudioDeviceStats s = {device->id != 0, device->buffer_frames,
                          atomic_load_explicit(&device->buffers, memory_order_relaxed),
                          atomic_load_explicit(&device->late, memory_order_relaxed),
                          atomic_load_explicit(&device->worst_ns, memory_order_relaxed)};
    return s;
}

int audio_device_count(void)
{
    int n = SDL_GetNumAudioDevices(0);
    return n > 0 ? n : 0;
}

const char *audio_device_name(int index)
{
    return SDL_GetAudioDeviceName(index, 0);
}
