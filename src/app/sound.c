/* The loudspeaker of the window program: what a crew senses, handed to the sound once a frame. No
 * device is silence and one notice; the words under the gauges say the same as the ear. */
#include "app.h"

#include "audio/audio_device.h"

#include <stdio.h>
#include <string.h>

void sound_open(App *app)
{
    app->audio = audio_device_open(app->device[0] ? app->device : NULL, app->options.seed);
}

void sound_close(App *app)
{
    audio_device_close(app->audio);
    app->audio = NULL;
}

static void tell(App *app, AudioNotice n)
{
    if (n == AUDIO_NOTICE_NO_DEVICE) {
        fprintf(stderr, "pullback: no loudspeaker here: silent, the captions still work\n");
        app_notice(app, _("No sound device"), _("Silent. What you would hear stands in words."), 0,
                   5);
    } else if (n == AUDIO_NOTICE_LOST) {
        app_notice(app, _("The sound device went away"),
                   _("Silent until it comes back. What you would hear stands in words."), 0, 5);
    } else if (n == AUDIO_NOTICE_BACK) {
        app_notice(app, _("Sound is back"), "", 0, 3);
    }
}

void sound_frame(App *app)
{
    if (app->audio == NULL) {
        return;
    }
    Gauge g = sight_gauge(app);
    int is_still = app->is_paused || app_is_covered(app) || app->screen != SCREEN_BAY;
    AudioParams p = gauge_audio(g.signals, g.plan, app->is_muted ? 0.0 : app->volume);
    if (is_still) { /* time stands: so does the noise */
        p.volume = 0.0f;
    }
    audio_device_set(app->audio, &p);
    /* Asking again and again where there is no device only makes its library complain: the next try
     * waits for news of one. */
    if (app->sound_waits && !app->sound_news) {
        return;
    }
    app->sound_news = 0;
    AudioNotice n = audio_device_poll(app->audio, app->now_s);
    if (n != AUDIO_NOTICE_NONE) {
        app->sound_waits = n == AUDIO_NOTICE_NO_DEVICE;
        tell(app, n);
    }
}

/* Through the loudspeakers of this computer, and back to the system's own choice. */
void sound_next_device(App *app)
{
    int count = app->audio != NULL ? audio_device_count() : 0, next = 0;
    for (int i = 0; i < count && app->device[0] != '\0'; i++) {
        const char *name = audio_device_name(i);
        next = name != NULL && strcmp(name, app->device) == 0 ? i + 1 : next;
    }
    const char *name = next < count ? audio_device_name(next) : NULL;
    SDL_strlcpy(app->device, name != NULL ? name : "", sizeof app->device);
    if (app->audio != NULL) {
        audio_device_choose(app->audio, app->device);
        app->sound_waits = 0;
    }
}

const char *sound_device_label(App *app)
{
    return app->device[0] != '\0' ? app->device : _("The system's choice");
}

void sound_mute(App *app)
{
    app->is_muted = !app->is_muted;
}

/* The button walks through the levels; muted, it first speaks again. */
void sound_louder(App *app)
{
    if (app->is_muted) {
        app->is_muted = 0;
    } else {
        app->volume = app->volume > 0.95 ? 0.1 : app->volume + 0.3;
    }
}

const char *sound_label(App *app)
{
    static char words[48];
    if (app->is_muted) {
        SDL_snprintf(words, sizeof words, "%s", _("Sound off"));
    } else {
        SDL_snprintf(words, sizeof words, "%s %s", _("Sound"),
                     app_fmt(app, 0, app->volume * 100.0, "%"));
    }
    return words;
}
