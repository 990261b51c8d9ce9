/* What the person prefers: read at the start, and kept whenever it changes on the screen. An option
 * on the command line counts for this time only and is not written down. */
#include "shell/shell.h"

#include "io/doc.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static IoSettings now_on_screen(const App *app)
{
    IoSettings s = app->settings.shown;
    s.lang = app->taste.lang;
    s.is_us = app->taste.is_us;
    s.is_contrast = app->taste.is_contrast;
    s.is_still = app->taste.is_still;
    s.text_scale = app->taste.text_scale;
    s.is_guide_seen = app->guiding.is_seen;
    s.is_muted = app->sound.is_muted;
    s.is_uncaptioned = app->taste.is_uncaptioned;
    s.volume = app->sound.volume;
    memset(s.device, 0, sizeof s.device);
    snprintf(s.device, sizeof s.device, "%s", app->sound.device);
    memset(s.learner, 0, sizeof s.learner);
    snprintf(s.learner, sizeof s.learner, "%s", app->records.learner);
    return s;
}

static void tell_trouble(App *app, PbStatus status, const PbError *err)
{
    char line[1024], text[200];
    io_error_line(err, line, sizeof line);
    fprintf(stderr, "pullback: the settings were not understood and are as new: %s\n", line);
    snprintf(text, sizeof text,
             status == PB_ERR_IO || status == PB_ERR_MEMORY
                 ? _("They are as new for this time. %.120s")
                 : _("They are as new. The old file stands beside them as %.60s."),
             status == PB_ERR_IO || status == PB_ERR_MEMORY ? err->message : "settings.json.bad");
    app_notice(app, _("Your settings could not be read"), text, 0, 15);
}

void settings_open(App *app)
{
    const AppOptions *o = &app->options;
    PbError err = {0};
    app->settings.kept = io_settings_default();
    PbStatus status = io_settings_path(app->settings.path, sizeof app->settings.path, &err);
    if (status != PB_OK) {
        app->settings.path[0] = '\0';
        fprintf(stderr, "pullback: settings are not kept: %s\n", err.message);
    } else {
        status = io_settings_load(app->settings.path, &app->settings.kept, &err);
        if (status != PB_OK && status != PB_ERR_NO_RESULT) {
            tell_trouble(app, status, &err);
        }
    }
    app->taste.is_us = o->has_units ? o->is_us
                       : app->settings.kept.is_us != IO_UNITS_OF_SYSTEM
                           ? app->settings.kept.is_us
                           : io_taste_here(WORDS_ENGLISH).is_us;
    app->taste.text_scale = o->has_scale ? o->text_scale : app->settings.kept.text_scale;
    app->taste.is_contrast = o->is_contrast || app->settings.kept.is_contrast;
    app->taste.is_still = app->settings.kept.is_still;
    app->guiding.is_seen = app->settings.kept.is_guide_seen;
    app->sound.is_muted = app->settings.kept.is_muted;
    app->taste.is_uncaptioned = app->settings.kept.is_uncaptioned;
    app->sound.volume = app->settings.kept.volume;
    snprintf(app->sound.device, sizeof app->sound.device, "%s", app->settings.kept.device);
}

void settings_watch(App *app)
{
    IoSettings now = now_on_screen(app);
    PbError err = {0};
    int changed = 0;
    if (!app->settings.is_watched) { /* what options and the system say is where it starts from */
        app->settings.shown = now;
        app->settings.is_watched = 1;
        return;
    }
#define TAKE(field)                                                                                \
    if (now.field != app->settings.shown.field) {                                                  \
        app->settings.kept.field = now.field;                                                      \
        changed = 1;                                                                               \
    }
    TAKE(lang)
    TAKE(is_us)
    TAKE(is_contrast)
    TAKE(is_still)
    TAKE(is_guide_seen)
    TAKE(is_muted)
    TAKE(is_uncaptioned)
    if (fabs(now.volume - app->settings.shown.volume) > 1e-9) {
        app->settings.kept.volume = now.volume;
        changed = 1;
    }
    if (strcmp(now.device, app->settings.shown.device) != 0) {
        memcpy(app->settings.kept.device, now.device, sizeof now.device);
        changed = 1;
    }
    if (fabs(now.text_scale - app->settings.shown.text_scale) > 1e-9) {
        app->settings.kept.text_scale = now.text_scale;
        changed = 1;
    }
    if (strcmp(now.learner, app->settings.shown.learner) != 0) {
        memcpy(app->settings.kept.learner, now.learner, sizeof now.learner);
        changed = 1;
    }
#undef TAKE
    app->settings.shown = now;
    if (!changed) {
        return;
    }
    app->ui->theme = ui_theme(app->taste.is_contrast);
    if (app->settings.path[0] != '\0' &&
        io_settings_save(app->settings.path, &app->settings.kept, &err) != PB_OK) {
        fprintf(stderr, "pullback: settings are not kept: %s\n", err.message);
        app_notice(app, _("Your settings cannot be saved"), err.message, 0, 10);
        app->settings.path[0] = '\0'; /* told once */
    }
}
