/* The band over every room but the Door: the way back, the room, then switches and readings. */
#include "app.h"

#include <math.h>

/* Clock and bags, for the rooms that show the run; returns the left end. */
static float run_readings(App *app, float right, float base)
{
    Ui *ui = &app->ui;
    const UiTheme *t = ui->theme;
    const Run *run = &app->run;
    char words[64];
    int is_run = app->screen == SCREEN_BAY || app->screen == SCREEN_RESULT;
    if (!is_run || run->view == NULL) {
        return right;
    }
    right -= ui_label(ui, right, base, 22, UI_BOLD, t->ink, UI_RIGHT,
                      app_fmt_clock(app, run->view->time_s)) +
             ui_px(ui, 20);
    SDL_snprintf(words, sizeof words, "%s %s", _("Bags"),
                 app_fmt(app, 2, run->view->signals.bags_used, ""));
    right -= ui_label(ui, right, base, 14, UI_REGULAR, t->ink, UI_RIGHT, words) + ui_px(ui, 20);
    const char *state = app->is_paused                   ? _("Paused")
                        : app->slow_until_s > app->now_s ? _("slow")
                                                         : "";
    if (state[0] !=
        '\0') { /* slower than real time: ticks were dropped, the run itself is the same */
        right -= ui_label(ui, right, base, 14, UI_BOLD, t->accent, UI_RIGHT, state) + ui_px(ui, 14);
    }
    return right;
}

float app_switches_draw(App *app, float right, float y, float high, float least)
{
    Ui *ui = &app->ui;
    const char *units[2] = {"SI", "US"};
    char words[64];
    float gap = ui_px(ui, 8);
    GfxRect r = {right - ui_px(ui, 88), y, ui_px(ui, 88), high};
    if (r.x < least) {
        return right + gap;
    }
    app->is_us = ui_segments(ui, ID_UNITS, r, units, 2, app->is_us);
    app_mark(app, "units", r);
    right = r.x;
    r = (GfxRect){right - gap - ui_px(ui, 84), y, ui_px(ui, 84), high};
    if (r.x < least) {
        return right;
    }
    if (ui_button(ui, ID_LANG, r, app->lang ? "English" : "Español", 0, 0)) {
        app_language(app, !app->lang);
    }
    app_mark(app, "lang", r);
    right = r.x;
    r = (GfxRect){right - gap - ui_px(ui, 98), y, ui_px(ui, 98), high};
    if (r.x < least) {
        return right;
    }
    SDL_snprintf(words, sizeof words, "%s %s", _("Text"),
                 app_fmt(app, 0, app->text_scale * 100.0, "%"));
    if (ui_button(ui, ID_SIZE, r, words, 0, 0)) {
        app->text_scale = app->text_scale >= 1.95 ? 1.0 : floor(app->text_scale * 4.0 + 1.01) / 4.0;
    }
    app_mark(app, "size", r);
    return r.x;
}

float app_band_height(const App *app)
{
    return floorf((float)(44.0 * app->text_scale * app->display_scale + 8.0));
}

void app_top_band(App *app, const char *title, const char *detail)
{
    Ui *ui = &app->ui;
    const UiTheme *t = ui->theme;
    float band = app_band_height(app), high = ui_px(ui, 30), y = (band - high) * 0.5f;
    float base = floorf(band * 0.5f + ui_px(ui, 7)), right = (float)app->width - 16.0f;
    const char *door = _("Door");
    float w = ui_width(ui, 14, UI_BOLD, door) + ui_px(ui, 38), s = ui_px(ui, 4);
    GfxRect back = {16.0f, y, w, high};
    char words[80];
    SDL_snprintf(words, sizeof words, "   %s", door);
    app_mark(app, "door", back);
    if (ui_button(ui, ID_BACK, back, words, 0, 0)) {
        app_go(app, SCREEN_DOOR);
    }
    float ax = back.x + ui_px(ui, 15), ay = floorf(band * 0.5f);
    GfxColor c = ui->active == ID_BACK && ui->hot == ID_BACK ? t->sheet : t->ink;
    ui_polyline(ui, (UiPoint[3]){{ax + s, ay - s}, {ax, ay}, {ax + s, ay + s}}, 3, 2.0f, c);
    right = app_switches_draw(app, run_readings(app, right, base), y, high, -1e9f);
    float left = back.x + back.w + ui_px(ui, 16), room = right - left - ui_px(ui, 16);
    if (room > ui_px(ui, 60)) {
        left += ui_label_cut(ui, left, base, room, 20, UI_BOLD, t->ink, title) + ui_px(ui, 16);
    }
    room = right - left - ui_px(ui, 16);
    if (ui_width(ui, 13, UI_REGULAR, detail) <= room) {
        ui_label(ui, left, base, 13, UI_REGULAR, t->ink2, UI_LEFT, detail);
    }
    ui_rect(ui, 0.0f, band - 2.0f, (float)app->width, 2.0f, t->ink);
}
