/* Cards that any room may open: settings, a file to open. Who is learning: learner_card.c. The room
 * under a card sleeps; Escape closes it. */
#include "shell/shell.h"

#include "io/trouble_words.h"

#include <math.h>
#include <stdio.h>

enum { CARD_ROWS = 8 }; /* of the settings */

/* One row of the settings: its name drawn, the place of its control given back. */
static GfxRect row(const App *app, GfxRect *at, const char *mark, const char *name)
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

/* Name and segments. */
static void choice(const App *app, GfxRect *at, int id, const char *mark, const char *name,
                   const char *const *words, int count, int now)
{
    GfxRect r = row(app, at, mark, name);
    ui_segments(app->ui, id, r, words, count, now);
}

static const double levels[5] = {0.0, 0.1, 0.4, 0.7, 1.0};
static const double scales[5] = {1.0, 1.25, 1.5, 1.75, 2.0};

/* What is heard: how loud, where, and in words. */
static void sound_rows(const App *app, GfxRect *at)
{
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
    choice(app, at, ID_OVER_G, "set_sound", _("Sound"), loud, 5, now);
    GfxRect r = row(app, at, "set_device", _("Loudspeaker"));
    ui_button(ui, ID_OVER_H, r, "", 0, 0);
    GfxColor ink =
        ui->active == ID_OVER_H && ui->hot == ID_OVER_H ? ui->theme->sheet : ui->theme->ink;
    ui_label_cut(ui, r.x + ui_px(ui, 12), r.y + r.h * 0.5f + ui_px(ui, 5), r.w - ui_px(ui, 24), 14,
                 UI_BOLD, ink, sound_device_label(app));
    choice(app, at, ID_OVER_I, "set_captions", _("Captions"), captions, 2,
           app->taste.is_uncaptioned);
}

static void settings_card(const App *app)
{
    Ui *ui = app->ui;
    GfxRect at = app_card_plate(app, ui_px(ui, 560), ui_px(ui, 68 + CARD_ROWS * 48 + 36 + 24),
                                _("Settings"));
    float bottom = at.y + at.h;
    const char *languages[WORDS_MOST], *units[2] = {"SI", "US"};
    const char *sizes[5];
    int size = -1, count = app_language_names(languages);
    for (int i = 0; i < 5; i++) {
        sizes[i] = app_fmt(app, 0, scales[i] * 100.0, "%");
        size = fabs(app->taste.text_scale - scales[i]) < 0.01 ? i : size;
    }
    const char *colors[2] = {_("Paper"), _("High contrast")}, *motion[2] = {_("All"), _("Less")};
    choice(app, &at, ID_OVER_A, "set_lang", _("Language"), languages, count, app->taste.lang);
    choice(app, &at, ID_OVER_B, "set_units", _("Units"), units, 2, app->taste.is_us);
    choice(app, &at, ID_OVER_C, "set_size", _("Text size"), sizes, 5, size);
    choice(app, &at, ID_OVER_D, "set_contrast", _("Colors"), colors, 2, app->taste.is_contrast);
    choice(app, &at, ID_OVER_E, "set_motion", _("Motion"), motion, 2, app->taste.is_still);
    sound_rows(app, &at);
    float high = ui_px(ui, 36), w = ui_px(ui, 140);
    GfxRect close = {at.x + at.w - w, bottom - high, w, high};
    app_mark(app, "card_close", close);
    char keys[64];
    snprintf(keys, sizeof keys, "%s  F9", _("Controls"));
    GfxRect more = {at.x, close.y, ui_width(ui, 14, UI_BOLD, keys) + ui_px(ui, 28), high};
    app_mark(app, "controls", more);
    ui_button(ui, ID_OVER_F, more, keys, 0, 0);
    ui_button(ui, ID_OVER_CLOSE, close, _("Close"), 1, 0);
}

static void settings_answer(App *app)
{
    const Ui *ui = app->ui;
    double value;
    if (ui_answered(ui, ID_OVER_A, &value)) {
        app_language(app, (int)value);
    }
    if (ui_answered(ui, ID_OVER_B, &value)) {
        app->taste.is_us = (int)value;
    }
    if (ui_answered(ui, ID_OVER_C, &value) && value >= 0.0) {
        app->taste.text_scale = scales[(int)value];
    }
    if (ui_answered(ui, ID_OVER_D, &value)) {
        app->taste.is_contrast = (int)value;
    }
    if (ui_answered(ui, ID_OVER_E, &value)) {
        app->taste.is_still = (int)value;
    }
    if (ui_answered(ui, ID_OVER_G, &value)) {
        app->sound.is_muted = (int)value == 0;
        app->sound.volume = value > 0.0 ? levels[(int)value] : app->sound.volume;
    }
    if (ui_answered(ui, ID_OVER_H, NULL)) {
        sound_next_device(app);
    }
    if (ui_answered(ui, ID_OVER_I, &value)) {
        app->taste.is_uncaptioned = (int)value;
    }
    if (ui_answered(ui, ID_OVER_F, NULL)) {
        app_card_open(app, CARD_NONE);
        controls_open(app);
    } else if (ui_answered(ui, ID_OVER_CLOSE, NULL)) {
        app_card_open(app, CARD_NONE);
    }
}

void app_card_field(const App *app, GfxRect at, const char *hint, const char *ok, int size)
{
    Ui *ui = app->ui;
    float high = ui_px(ui, 36), gap = ui_px(ui, 10), w = (at.w - gap) * 0.5f;
    GfxRect field = {at.x, at.y, at.w, high};
    GfxRect no = {at.x, at.y + at.h - high, w, high};
    GfxRect yes = {no.x + w + gap, no.y, w, high};
    char text[sizeof app->cards.field], says[sizeof app->cards.says];
    app_mark(app, "card_field", field);
    app_mark(app, "card_close", no);
    app_mark(app, "card_ok", yes);
    snprintf(text, sizeof text, "%s", app->cards.field);
    ui_text_field(ui, ID_OVER_FIELD, field, text, size, hint);
    if (app->cards.says[0] != '\0') {
        io_trouble_words(app->cards.says, app->taste.lang, says, sizeof says);
        ui_paragraph(ui, at.x, at.y + high + ui_px(ui, 22), at.w, 13, UI_BOLD,
                     app->cards.is_news ? ui->theme->ink : ui->theme->danger, says);
    }
    ui_button(ui, ID_OVER_CLOSE, no, _("Back"), 0, 0);
    ui_button(ui, ID_OVER_OK, yes, ok, 1, text[0] == '\0');
}

int app_card_field_done(App *app)
{
    const Ui *ui = app->ui;
    double entered = 0.0;
    if (ui_answered(ui, ID_OVER_FIELD, &entered)) {
        snprintf(app->cards.field, sizeof app->cards.field, "%.599s", ui->answer_text);
    }
    if (ui_answered(ui, ID_OVER_CLOSE, NULL)) {
        app_card_open(app, CARD_NONE);
        return 0;
    }
    return app->cards.field[0] != '\0' && (ui_answered(ui, ID_OVER_OK, NULL) || entered > 0.5);
}

static void file_card(const App *app)
{
    Ui *ui = app->ui;
    GfxRect at = app_card_plate(app, ui_px(ui, 640), ui_px(ui, 68 + 24 + 36 + 90 + 36 + 30),
                                _("Open a wall file"));
    ui_paragraph(ui, at.x, at.y + ui_px(ui, 12), at.w, 13, UI_REGULAR, ui->theme->ink2,
                 _("Path of an exercise file, or drop one on the window."));
    float used = ui_px(ui, 40);
    at.y += used;
    at.h -= used;
    app_card_field(app, at, _("path/of/a/wall.json"), _("Open file"), (int)sizeof app->cards.field);
}

void cards_draw(const App *app)
{
    if (app->cards.cautions_open) {
        cautions_card_draw(app);
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
    } else if (app->cards.open == CARD_SEED) {
        seed_card_draw(app);
    } else if (app->cards.open == CARD_CLASS) {
        class_card_draw(app);
    } else if (app->cards.open == CARD_MERGE) {
        merge_card_draw(app);
    } else if (app->cards.open == CARD_GUIDE) {
        guide_card_draw(app);
    } else if (app->cards.open == CARD_ACTS) {
        acts_card_draw(app);
    }
}

void cards_answer(App *app)
{
    if (app->cards.cautions_open) {
        cautions_card_answer(app);
    } else if (app->cards.keys_open) {
        controls_answer(app);
    } else if (app->cards.open == CARD_SETTINGS) {
        settings_answer(app);
    } else if (app->cards.open == CARD_LEARNER) {
        learner_card_answer(app);
    } else if (app->cards.open == CARD_DELETE) {
        learner_delete_answer(app);
    } else if (app->cards.open == CARD_FILE && app_card_field_done(app)) {
        app_open_file(app, app->cards.field);
    } else if (app->cards.open == CARD_SEED) {
        seed_card_answer(app);
    } else if (app->cards.open == CARD_CLASS) {
        class_card_answer(app);
    } else if (app->cards.open == CARD_MERGE) {
        merge_card_answer(app);
    } else if (app->cards.open == CARD_GUIDE) {
        guide_card_answer(app);
    } else if (app->cards.open == CARD_ACTS) {
        acts_card_answer(app);
    }
}
