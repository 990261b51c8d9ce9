/* What the person prefers: read at the start, and kept whenever it changes on the screen. An option
 * on the command line counts for this time only and is not written down. */
#include "app.h"

#include "io/doc.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static IoSettings now_on_screen(const App *app)
{
    IoSettings s = app->shown;
    s.lang = app->lang;
    s.is_us = app->is_us;
    s.is_contrast = app->is_contrast;
    s.is_still = app->is_still;
    s.text_scale = app->text_scale;
    s.is_guide_seen = app->is_guide_seen;
    s.is_muted = app->is_muted;
    s.is_uncaptioned = app->is_uncaptioned;
    s.volume = app->volume;
    memset(s.device, 0, sizeof s.device);
    snprintf(s.device, sizeof s.device, "%s", app->device);
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
    app->kept = io_settings_default();
    PbStatus status = io_settings_path(app->settings_path, sizeof app->settings_path, &err);
    if (status != PB_OK) {
        app->settings_path[0] = '\0';
        fprintf(stderr, "pullback: settings are not kept: %s\n", err.message);
    } else {
        status = io_settings_load(app->settings_path, &app->kept, &err);
        if (status != PB_OK && status != PB_ERR_NO_RESULT) {
            tell_trouble(app, status, &err);
        }
    }
    app->is_us = o->has_units                            ? o->is_us
                 : app->kept.is_us != IO_UNITS_OF_SYSTEM ? app->kept.is_us
                                                         : io_taste_here(IO_ENGLISH).is_us;
    app->text_scale = o->has_scale ? o->text_scale : app->kept.text_scale;
    app->is_contrast = o->is_contrast || app->kept.is_contrast;
    app->is_still = app->kept.is_still;
    app->is_guide_seen = app->kept.is_guide_seen;
    app->is_muted = app->kept.is_muted;
    app->is_uncaptioned = app->kept.is_uncaptioned;
    app->volume = app->kept.volume;
    snprintf(app->device, sizeof app->device, "%s", app->kept.device);
}

void settings_watch(App *app)
{
    IoSettings now = now_on_screen(app);
    PbError err = {0};
    int changed = 0;
    if (!app->is_watched) { /* what options and the system say is where it starts from */
        app->shown = now;
        app->is_watched = 1;
        return;
    }
#define TAKE(field)                                                                                \
    if (now.field != app->shown.field) {                                                           \
        app->kept.field = now.field;                                                               \
        changed = 1;                                                                               \
    }
    TAKE(lang)
    TAKE(is_us)
    TAKE(is_contrast)
    TAKE(is_still)
    TAKE(is_guide_seen)
    TAKE(is_muted)
    TAKE(is_uncaptioned)
    if (fabs(now.volume - app->shown.volume) > 1e-9) {
        app->kept.volume = now.volume;
        changed = 1;
    }
    if (strcmp(now.device, app->shown.device) != 0) {
        memcpy(app->kept.device, now.device, sizeof now.device);
        changed = 1;
    }
    if (fabs(now.text_scale - app->shown.text_scale) > 1e-9) {
        app->kept.text_scale = now.text_scale;
        changed = 1;
    }
    if (strcmp(now.learner, app->shown.learner) != 0) {
        memcpy(app->kept.learner, now.learner, sizeof now.learner);
        changed = 1;
    }
#undef TAKE
    app->shown = now;
    if (!changed) {
        return;
    }
    app->ui.theme = ui_theme(app->is_contrast);
    if (app->settings_path[0] != '\0' &&
        io_settings_save(app->settings_path, &app->kept, &err) != PB_OK) {
        fprintf(stderr, "pullback: settings are not kept: %s\n", err.message);
        app_notice(app, _("Your settings cannot be saved"), err.message, 0, 10);
        app->settings_path[0] = '\0'; /* told once */
    }
}

double app_shown_s(const App *app)
{
    return app->is_still ? floor(app->now_s * 4.0) / 4.0 : app->now_s;
}
