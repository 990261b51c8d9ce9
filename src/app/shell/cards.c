/* Cards that any room may open: settings, a file to open. Who is
 * learning: learner_card.c. The room under a card
 * sleeps; Escape closes it. */
#include "shell/shell.h"

#include <math.h>
#include <stdio.h>

enum { CARD_ROWS = 8 }; /* of the settings */

/* One row of the settings: its name drawn, the place of its control given back. */
static GfxRect row(App *app, GfxRect *at, const char *mark, const char *name)
{
    Ui *ui = app->ui;
    float step = ui_px(ui, 48), high = ui_px(ui, 34), left = ui_px(ui, 136);
    GfxRect r = {at->x + left, at->y, at->w - left, high};
    ui_label(ui, at->x, at->y + high * 0.5f + ui_px(ui, 5), 14, UI_REGULAR, ui->theme->ink, UI_LEFT,
             name);
    app_mark(app, mark, r);
    at->y += step;
    return r;
}

/* Name and segments; returns the chosen one. */
static int choice(App *app, GfxRect *at, int id, const char *mark, const char *name,
                  const char *const *words, int count, int now)
{
    GfxRect r = row(app, at, mark, name);
    return ui_segments(app->ui, id, r, words, count, now);
}

/* What is heard: how loud, where, and in words. */
static void sound_rows(App *app, GfxRect *at)
{
    static const double levels[5] = {0.0, 0.1, 0.4, 0.7, 1.0};
    const char *loud[5] = {_("Silent")};
    const char *captions[2] = {_("Shown"), _("Hidden")};
    Ui *ui = app->ui;
    int now = 0;
    for (int i = 1; i < 5; i++) {
        loud[i] = app_fmt(app, 0, levels[i] * 100.0, "%");
    }
    for (int i = 1; i < 5 && !app->sound.is_muted; i++) {
        now =
            fabs(app->sound.volume - levels[i]) < fabs(app->sound.volume - levels[now]) || now == 0
                ? i
                : now;
    }
    int chosen = choice(app, at, ID_OVER_G, "set_sound", _("Sound"), loud, 5, now);
    if (chosen != now) {
        app->sound.is_muted = chosen == 0;
        app->sound.volume = chosen > 0 ? levels[chosen] : app->sound.volume;
    }
    GfxRect r = row(app, at, "set_device", _("Loudspeaker"));
    if (ui_button(ui, ID_OVER_H, r, "", 0, 0)) {
        sound_next_device(app);
    }
    GfxColor ink =
        ui->active == ID_OVER_H && ui->hot == ID_OVER_H ? ui->theme->sheet : ui->theme->ink;
    ui_label_cut(ui, r.x + ui_px(ui, 12), r.y + r.h * 0.5f + ui_px(ui, 5), r.w - ui_px(ui, 24), 14,
                 UI_BOLD, ink, sound_device_label(app));
    app->taste.is_uncaptioned = choice(app, at, ID_OVER_I, "set_captions", _("Captions"), captions,
                                       2, app->taste.is_uncaptioned);
}

static void settings_card(App *app)
{
    static const double scales[5] = {1.0, 1.25, 1.5, 1.75, 2.0};
    Ui *ui = app->ui;
    GfxRect at = app_card_plate(app, ui_px(ui, 560), ui_px(ui, 68 + CARD_ROWS * 48 + 36 + 24),
                                _("Settings"));
    float bottom = at.y + at.h;
    const char *languages[WORDS_MOST], *units[2] = {"SI", "US"};
    const char *sizes[5];
    for (int i = 0; i < 5; i++) {
        sizes[i] = app_fmt(app, 0, 100.0 + 25.0 * i, "%");
    }
    const char *colours[2] = {_("Paper"), _("High contrast")}, *motion[2] = {_("All"), _("Less")};
    int count = app_language_names(languages);
    int lang =
        choice(app, &at, ID_OVER_A, "set_lang", _("Language"), languages, count, app->taste.lang);
    if (lang != app->taste.lang) {
        app_language(app, lang);
    }
    app->taste.is_us =
        choice(app, &at, ID_OVER_B, "set_units", _("Units"), units, 2, app->taste.is_us);
    int size = -1;
    for (int i = 0; i < 5; i++) {
        size = fabs(app->taste.text_scale - scales[i]) < 0.01 ? i : size;
    }
    int chosen = choice(app, &at, ID_OVER_C, "set_size", _("Text size"), sizes, 5, size);
    if (chosen != size && chosen >= 0) {
        app->taste.text_scale = scales[chosen];
    }
    app->taste.is_contrast = choice(app, &at, ID_OVER_D, "set_contrast", _("Colors"), colours, 2,
                                    app->taste.is_contrast);
    app->taste.is_still =
        choice(app, &at, ID_OVER_E, "set_motion", _("Motion"), motion, 2, app->taste.is_still);
    sound_rows(app, &at);
    float high = ui_px(ui, 36), w = ui_px(ui, 140);
    GfxRect close = {at.x + at.w - w, bottom - high, w, high};
    app_mark(app, "card_close", close);
    char keys[64];
    snprintf(keys, sizeof keys, "%s  F9", _("Controls"));
    GfxRect more = {at.x, close.y, ui_width(ui, 14, UI_BOLD, keys) + ui_px(ui, 28), high};
    app_mark(app, "controls", more);
    if (ui_button(ui, ID_OVER_F, more, keys, 0, 0)) {
        app_card_open(app, CARD_NONE);
        controls_open(app);
    }
    if (ui_button(ui, ID_OVER_CLOSE, close, _("Close"), 1, 0)) {
        app_card_open(app, CARD_NONE);
    }
}

int app_card_field(App *app, GfxRect at, const char *hint, const char *ok, int size)
{
    Ui *ui = app->ui;
    float high = ui_px(ui, 36), gap = ui_px(ui, 10), w = (at.w - gap) * 0.5f;
    GfxRect field = {at.x, at.y, at.w, high};
    GfxRect no = {at.x, at.y + at.h - high, w, high};
    GfxRect yes = {no.x + w + gap, no.y, w, high};
    app_mark(app, "card_field", field);
    app_mark(app, "card_close", no);
    app_mark(app, "card_ok", yes);
    int done = ui_text_field(ui, ID_OVER_FIELD, field, app->cards.field, size, hint);
    if (app->cards.says[0] != '\0') {
        ui_paragraph(ui, at.x, at.y + high + ui_px(ui, 22), at.w, 13, UI_BOLD, ui->theme->danger,
                     app->cards.says);
    }
    if (ui_button(ui, ID_OVER_CLOSE, no, _("Back"), 0, 0)) {
        app_card_open(app, CARD_NONE);
        return 0;
    }
    return ui_button(ui, ID_OVER_OK, yes, ok, 1, app->cards.field[0] == '\0') ||
           (done && app->cards.field[0] != '\0');
}

static void file_card(App *app)
{
    Ui *ui = app->ui;
    GfxRect at = app_card_plate(app, ui_px(ui, 640), ui_px(ui, 68 + 24 + 36 + 90 + 36 + 30),
                                _("Open a wall file"));
    ui_paragraph(ui, at.x, at.y + ui_px(ui, 12), at.w, 13, UI_REGULAR, ui->theme->ink2,
                 _("Path of an exercise file, or drop one on the window."));
    float used = ui_px(ui, 40);
    at.y += used;
    at.h -= used;
    if (app_card_field(app, at, _("path/of/a/wall.json"), _("Open file"),
                       (int)sizeof app->cards.field)) {
        app_open_file(app, app->cards.field);
    }
}

void cards_draw(App *app)
{
    if (app->cards.cautions_open) {
        app_card_draw(app);
    } else if (app->cards.keys_open) {
        controls_draw(app);
    } else if (app->cards.open == CARD_SETTINGS) {
        settings_card(app);
    } else if (app->cards.open == CARD_LEARNER) {
        learner_card_draw(app);
    } else if (app->cards.open == CARD_DELETE) {
        learner_delete_draw(app);
    } else if (app->cards.open == CARD_FILE) {
        file_card(app);
    } else if (app->cards.open == CARD_GUIDE) {
        guide_card_draw(app);
    }
}
