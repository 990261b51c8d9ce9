/* The loudspeaker of the window program: what a crew senses, handed to the sound once a frame. No
 * device is silence and one notice; the words under the gauges say the same as the ear. */
#include "bay/bay.h"

#include "audio/audio_device.h"

#include <stdio.h>
#include <string.h>

void sound_open(App *app)
{
    app->sound.audio =
        audio_device_open(app->sound.device[0] ? app->sound.device : NULL, app->options.seed);
}

void sound_close(App *app)
{
    audio_device_close(app->sound.audio);
    app->sound.audio = NULL;
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
    if (app->sound.audio == NULL) {
        return;
    }
    Gauge g = sight_gauge(app);
    int is_own = app->sound.is_own;
    int is_still = (app->task.is_paused && !is_own) || app_is_covered(app) ||
                   (app->turn.screen != SCREEN_BAY && !is_own);
    AudioParams p =
        is_own ? app->sound.own
               : gauge_audio(g.signals, &g.plan, app->sound.is_muted ? 0.0 : app->sound.volume);
    p.has_broken = !is_own && broke_is_on(app);
    if (is_still) { /* time stands: so does the noise */
        p.volume = 0.0f;
    }
    audio_device_set(app->sound.audio, &p);
    /* Asking again and again where there is no device only makes its library complain: the next try
     * waits for news of one. */
    if (app->sound.waits && !app->sound.news) {
        return;
    }
    app->sound.news = 0;
    AudioNotice n = audio_device_poll(app->sound.audio, app->program.now_s);
    if (n != AUDIO_NOTICE_NONE) {
        app->sound.waits = n == AUDIO_NOTICE_NO_DEVICE;
        tell(app, n);
    }
}

/* Through the loudspeakers of this computer, and back to the system's own choice. */
void sound_next_device(App *app)
{
    int count = app->sound.audio != NULL ? audio_device_count() : 0, next = 0;
    for (int i = 0; i < count && app->sound.device[0] != '\0'; i++) {
        const char *name = audio_device_name(i);
        next = name != NULL && strcmp(name, app->sound.device) == 0 ? i + 1 : next;
    }
    const char *name = next < count ? audio_device_name(next) : NULL;
    SDL_strlcpy(app->sound.device, name != NULL ? name : "", sizeof app->sound.device);
    if (app->sound.audio != NULL) {
        audio_device_choose(app->sound.audio, app->sound.device);
        app->sound.waits = 0;
    }
}

const char *sound_device_label(const App *app)
{
    return app->sound.device[0] != '\0' ? app->sound.device : _("The system's choice");
}

void sound_mute(App *app)
{
    app->sound.is_muted = !app->sound.is_muted;
}

/* The button walks through the levels; muted, it first speaks again. */
void sound_louder(App *app)
{
    if (app->sound.is_muted) {
        app->sound.is_muted = 0;
    } else {
        app->sound.volume = app->sound.volume > 0.95 ? 0.1 : app->sound.volume + 0.3;
    }
}

const char *sound_label(const App *app)
{
    if (app->sound.is_muted) {
        return _("Sound off");
    }
    const char *percent = app_fmt(app, 0, app->sound.volume * 100.0, "%");
    AppFigures *f = app->figures;
    char *words = f->text[f->next];
    f->next = (f->next + 1) % (int)(sizeof f->text / sizeof f->text[0]);
    SDL_snprintf(words, sizeof f->text[0], "%s %s", _("Sound"), percent);
    return words;
}
