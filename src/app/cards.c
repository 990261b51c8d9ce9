/* Cards that any room may open: settings, a file to open. Who is
 * learning: learner_card.c. The room under a card
 * sleeps; Escape closes it. */
#include "app.h"

#include <math.h>
#include <stdio.h>

void app_card_open(App *app, AppCard card)
{
    app->card = card;
    app->card_top = 0;
    app->field[0] = app->card_says[0] = '\0';
    app->focus_next = card == CARD_LEARNER || card == CARD_FILE ? ID_OVER_FIELD
                      : card == CARD_SETTINGS                   ? ID_OVER_A
                      : card == CARD_GUIDE                      ? ID_OVER_OK
                      : card == CARD_DELETE                     ? ID_OVER_CLOSE
                      : app->screen == SCREEN_DOOR              ? ID_DOOR_LIST
                                                                : 0;
}

int app_is_covered(const App *app)
{
    return app->cautions_open || app->keys_open || app->card != CARD_NONE;
}

GfxRect app_card_ground(App *app, float w, float h, float radius, GfxColor c, float line,
                        GfxColor edge)
{
    Ui *ui = &app->ui;
    w = fminf(w, ui->width - 2.0f * CARD_MARGIN);
    page_needs(app, h + 2.0f * CARD_MARGIN - ui->height);
    GfxRect r = {floorf((ui->width - w) * 0.5f),
                 fmaxf(floorf((ui->height - h) * 0.5f), CARD_MARGIN), w, h};
    ui_layer(ui, NULL);
    ui_rect(ui, 0, 0, ui->width, ui->height, ui_fade(ui->theme->paper, 0.78));
    ui_round(ui, r, radius, c);
    ui_round_line(ui, r, radius, line, edge);
    app_mark(app, "card", r);
    return r;
}

GfxRect app_card_plate(App *app, float w, float h, const char *title)
{
    Ui *ui = &app->ui;
    const UiTheme *t = ui->theme;
    float in = ui_px(ui, 24);
    GfxRect r = app_card_ground(app, w, h, ui_px(ui, 10), t->sheet, 2.0f, t->ink);
    ui_label(ui, r.x + in, r.y + ui_px(ui, 38), 20, UI_BOLD, t->ink, UI_LEFT, title);
    ui_rect(ui, r.x + in, r.y + ui_px(ui, 52), r.w - 2 * in, 2.0f, t->ink);
    return (GfxRect){r.x + in, r.y + ui_px(ui, 68), r.w - 2 * in, r.h - ui_px(ui, 68) - in};
}

enum { CARD_ROWS = 8 }; /* of the settings */

/* One row of the settings: its name drawn, the place of its control given back. */
static GfxRect row(App *app, GfxRect *at, const char *mark, const char *name)
{
    Ui *ui = &app->ui;
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
    return ui_segments(&app->ui, id, r, words, count, now);
}

/* What is heard: how loud, where, and in words. */
static void sound_rows(App *app, GfxRect *at)
{
    static const double levels[5] = {0.0, 0.1, 0.4, 0.7, 1.0};
    const char *loud[5] = {_("Silent")};
    const char *captions[2] = {_("Shown"), _("Hidden")};
    Ui *ui = &app->ui;
    int now = 0;
    for (int i = 1; i < 5; i++) {
        loud[i] = app_fmt(app, 0, levels[i] * 100.0, "%");
    }
    for (int i = 1; i < 5 && !app->is_muted; i++) {
        now = fabs(app->volume - levels[i]) < fabs(app->volume - levels[now]) || now == 0 ? i : now;
    }
    int chosen = choice(app, at, ID_OVER_G, "set_sound", _("Sound"), loud, 5, now);
    if (chosen != now) {
        app->is_muted = chosen == 0;
        app->volume = chosen > 0 ? levels[chosen] : app->volume;
    }
    GfxRect r = row(app, at, "set_device", _("Loudspeaker"));
    if (ui_button(ui, ID_OVER_H, r, "", 0, 0)) {
        sound_next_device(app);
    }
    GfxColor ink =
        ui->active == ID_OVER_H && ui->hot == ID_OVER_H ? ui->theme->sheet : ui->theme->ink;
    ui_label_cut(ui, r.x + ui_px(ui, 12), r.y + r.h * 0.5f + ui_px(ui, 5), r.w - ui_px(ui, 24), 14,
                 UI_BOLD, ink, sound_device_label(app));
    app->is_uncaptioned =
        choice(app, at, ID_OVER_I, "set_captions", _("Captions"), captions, 2, app->is_uncaptioned);
}

static void settings_card(App *app)
{
    static const double scales[5] = {1.0, 1.25, 1.5, 1.75, 2.0};
    Ui *ui = &app->ui;
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
    int lang = choice(app, &at, ID_OVER_A, "set_lang", _("Language"), languages, count, app->lang);
    if (lang != app->lang) {
        app_language(app, lang);
    }
    app->is_us = choice(app, &at, ID_OVER_B, "set_units", _("Units"), units, 2, app->is_us);
    int size = -1;
    for (int i = 0; i < 5; i++) {
        size = fabs(app->text_scale - scales[i]) < 0.01 ? i : size;
    }
    int chosen = choice(app, &at, ID_OVER_C, "set_size", _("Text size"), sizes, 5, size);
    if (chosen != size && chosen >= 0) {
        app->text_scale = scales[chosen];
    }
    app->is_contrast =
        choice(app, &at, ID_OVER_D, "set_contrast", _("Colors"), colours, 2, app->is_contrast);
    app->is_still =
        choice(app, &at, ID_OVER_E, "set_motion", _("Motion"), motion, 2, app->is_still);
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
    Ui *ui = &app->ui;
    float high = ui_px(ui, 36), gap = ui_px(ui, 10), w = (at.w - gap) * 0.5f;
    GfxRect field = {at.x, at.y, at.w, high};
    GfxRect no = {at.x, at.y + at.h - high, w, high};
    GfxRect yes = {no.x + w + gap, no.y, w, high};
    app_mark(app, "card_field", field);
    app_mark(app, "card_close", no);
    app_mark(app, "card_ok", yes);
    int done = ui_text_field(ui, ID_OVER_FIELD, field, app->field, size, hint);
    if (app->card_says[0] != '\0') {
        ui_paragraph(ui, at.x, at.y + high + ui_px(ui, 22), at.w, 13, UI_BOLD, ui->theme->danger,
                     app->card_says);
    }
    if (ui_button(ui, ID_OVER_CLOSE, no, _("Back"), 0, 0)) {
        app_card_open(app, CARD_NONE);
        return 0;
    }
    return ui_button(ui, ID_OVER_OK, yes, ok, 1, app->field[0] == '\0') ||
           (done && app->field[0] != '\0');
}

static void file_card(App *app)
{
    Ui *ui = &app->ui;
    GfxRect at = app_card_plate(app, ui_px(ui, 640), ui_px(ui, 68 + 24 + 36 + 90 + 36 + 30),
                                _("Open a wall file"));
    ui_paragraph(ui, at.x, at.y + ui_px(ui, 12), at.w, 13, UI_REGULAR, ui->theme->ink2,
                 _("Path of an exercise file, or drop one on the window."));
    float used = ui_px(ui, 40);
    at.y += used;
    at.h -= used;
    if (app_card_field(app, at, _("path/of/a/wall.json"), _("Open file"), (int)sizeof app->field)) {
        app_open_file(app, app->field);
    }
}

void cards_draw(App *app)
{
    if (app->cautions_open) {
        app_card_draw(app);
    } else if (app->keys_open) {
        controls_draw(app);
    } else if (app->card == CARD_SETTINGS) {
        settings_card(app);
    } else if (app->card == CARD_LEARNER) {
        learner_card_draw(app);
    } else if (app->card == CARD_DELETE) {
        learner_delete_draw(app);
    } else if (app->card == CARD_FILE) {
        file_card(app);
    } else if (app->card == CARD_GUIDE) {
        guide_card_draw(app);
    }
}

void notice_draw(App *app, GfxRect r)
{
    Ui *ui = &app->ui;
    const UiTheme *t = ui->theme;
    GfxColor none = {0, 0, 0, 0};
    if (app->now_s >= app->notice.until_s) {
        return;
    }
    float in = ui_px(ui, 16), w = r.w - 2 * in;
    float head = ui_paragraph(ui, 0, 0, w, 14, UI_BOLD, none, app->notice.title);
    float text = ui_paragraph(ui, 0, 0, w, 13, UI_REGULAR, none, app->notice.text);
    GfxRect p = {r.x, r.y + r.h - head - text - ui_px(ui, 22), r.w, head + text + ui_px(ui, 22)};
    ui_layer(ui, NULL);
    ui_round(ui, p, ui_px(ui, 6), t->warn_wash);
    ui_round_line(ui, p, ui_px(ui, 6), 1.0f, t->warn);
    ui_rect(ui, p.x, p.y, 6.0f, p.h, t->warn);
    app_mark(app, "notice", p);
    ui_paragraph(ui, p.x + in, p.y + ui_px(ui, 22), w, 14, UI_BOLD, t->warn, app->notice.title);
    ui_paragraph(ui, p.x + in, p.y + ui_px(ui, 22) + head, w, 13, UI_REGULAR, t->ink,
                 app->notice.text);
}
