/* The Door: a stud wall with a room in each bay, and beside it who is learning and the exercises
 * with their last grades. door_wall.c and door_list.c draw the two; here is who gets which room on
 * the window, and the keys. */
#include "door/door.h"

#include <math.h>
#include <stdio.h>

static int enter(App *app)
{
    app_exercises(app);
    records_grades(&app->records, &app->exercises);
    app->door->follow = 1;
    app->ui->focus = app->turn.home = ID_DOOR_LIST;
    return 1;
}

/* Units, language, text size, settings: buttons, and what this program is for. */
static void foot_line(const App *app, float margin)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const char *units[2] = {"SI", "US"};
    const char *words = _("For training. Local codes and licensed trades decide real work.");
    char text[64];
    float high = ui_px(ui, 32), gap = ui_px(ui, 10), x = margin, y = ui->height - high - 12.0f;
    GfxRect r = {x, y, ui_px(ui, 88), high};
    ui_segments(ui, ID_UNITS, r, units, 2, app->taste.is_us);
    app_mark(app, "units", r);
    r = (GfxRect){r.x + r.w + gap, y, ui_px(ui, 88), high};
    ui_button(ui, ID_LANG, r, words_languages[app_next_language(app)].name, 0, 0);
    app_mark(app, "lang", r);
    SDL_snprintf(text, sizeof text, "%s %s", _("Text"),
                 app_fmt(app, 0, app->laid->text_scale * 100.0, "%"));
    r = (GfxRect){r.x + r.w + gap, y, ui_px(ui, 104), high};
    ui_button(ui, ID_SIZE, r, text, 0, 0);
    app_mark(app, "size", r);
    SDL_snprintf(text, sizeof text, "%s  F10", _("Settings"));
    r = (GfxRect){r.x + r.w + gap, y, ui_width(ui, 14, UI_BOLD, text) + ui_px(ui, 24), high};
    ui_button(ui, ID_DOOR_SETTINGS, r, text, 0, 0);
    app_mark(app, "settings", r);
    SDL_snprintf(text, sizeof text, "%s  G", _("Guide"));
    r = (GfxRect){r.x + r.w + gap, y, ui_width(ui, 14, UI_BOLD, text) + ui_px(ui, 24), high};
    ui_button(ui, ID_DOOR_GUIDE, r, text, 0, 0);
    app_mark(app, "guide_open", r);
    float left = r.x + r.w + gap, room = ui->width - margin - left;
    if (ui_width(ui, 13, UI_REGULAR, words) <= room) {
        ui_label(ui, ui->width - margin, y + high * 0.5f + ui_px(ui, 5), 13, UI_REGULAR, t->ink2,
                 UI_RIGHT, words);
    } else {
        GfxColor none = {0, 0, 0, 0};
        float wide = ui->width - 2 * margin;
        float tall = ui_paragraph(ui, 0, 0, wide, 13, UI_REGULAR, none, words);
        ui_paragraph(ui, margin, y - tall + ui_px(ui, 10), wide, 13, UI_REGULAR, t->ink2, words);
    }
}

static void lay(const App *app)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    double d = app->win.display_scale, points = (double)ui->width / d, T = app->laid->text_scale;
    float margin = (float)((points < 1200.0 ? 20.0 : 40.0) * d);
    double list = points < 1100.0 ? 300.0 : points >= 1700.0 ? 420.0 : 360.0;
    float list_w = (float)(list * (1.0 + 0.45 * (T - 1.0)) * d);
    list_w = fminf(list_w, ui->width * 0.48f);
    float top = ui_px(ui, 16), wall_w = ui->width - 3 * margin - list_w;
    wall_w = fminf(wall_w, (float)(1400.0 * d));
    /* Tab goes as one reads: the wall, the list, the foot. */
    float foot = ui_px(ui, 32) + 24.0f;
    float y = top + ui_px(ui, 62);
    ui_label(ui, margin, top + ui_px(ui, 36), 34, UI_BOLD, t->ink, UI_LEFT, "Pullback");
    const char *what = _("Inside a closed wall bay, while it is packed and for the decades after");
    y += ui_paragraph(ui, margin, y, wall_w, 15, UI_REGULAR, t->ink2, what);
    GfxColor none = {0, 0, 0, 0};
    const char *words = _("For training. Local codes and licensed trades decide real work.");
    float buttons = ui_px(ui, 88 + 88 + 104 + 140 + 110 + 50);
    if (ui_width(ui, 13, UI_REGULAR, words) + buttons > ui->width - 2 * margin) {
        foot += ui_paragraph(ui, 0, 0, ui->width - 2 * margin, 13, UI_REGULAR, none, words);
    }
    float bottom = ui->height - foot - 4.0f;
    GfxRect wall = {margin, y, wall_w, bottom - y};
    GfxRect side = {ui->width - margin - list_w, top, list_w, bottom - top};
    door_wall_draw(app, wall);
    door_list_draw(app, side);
    ui_layer(ui, NULL);
    foot_line(app, margin);
    notice_draw(app, (GfxRect){wall.x + ui_px(ui, 24), wall.y, wall.w - ui_px(ui, 48),
                               wall.h - ui_px(ui, 24)});
}

static int input(App *app, const SDL_Event *e)
{
    if (e->type != SDL_KEYDOWN || e->key.repeat || (e->key.keysym.mod & KMOD_CTRL)) {
        return 0;
    }
    SDL_Keycode k = e->key.keysym.sym;
    if (k >= SDLK_1 && k < SDLK_1 + DOOR_ROOMS) {
        door_room(app, (int)(k - SDLK_1));
        return 1;
    }
    if (k == SDLK_g) {
        app_card_open(app, CARD_GUIDE);
        return 1;
    }
    if (k == SDLK_o) {
        app_card_open(app, CARD_FILE);
        return 1;
    }
    if (k == SDLK_l) {
        app_card_open(app, CARD_LEARNER);
        return 1;
    }
    if (k == SDLK_c || k == SDLK_n) { /* a card opens with nothing to type first */
        (k == SDLK_c ? class_card_open : class_turn)(app);
        return 1;
    }
    return 0;
}

static void answer(App *app)
{
    const Ui *ui = app->ui;
    if (ui_answered(ui, ID_DOOR_SETTINGS, NULL)) {
        app_card_open(app, CARD_SETTINGS);
    }
    if (ui_answered(ui, ID_DOOR_GUIDE, NULL)) {
        app_card_open(app, CARD_GUIDE);
    }
    for (int room = 0; room < DOOR_ROOMS; room++) {
        if (ui_answered(ui, ID_DOOR_ROOMS + room, NULL)) {
            door_room(app, room);
        }
    }
    door_list_answer(app);
}

const Screen scr_door = {.enter = enter,
                         .answer = answer,
                         .lay = lay,
                         .input = input,
                         .field = door_field,
                         .title = N_("Door"),
                         .least_px = 560.0f};
