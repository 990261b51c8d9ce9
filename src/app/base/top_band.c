/* The band over every room but the Door: the way back, the room, then switches and readings. */
#include "base/app.h"

#include <math.h>

/* A label that ends at `right`; not drawn, it is measured. Returns its width. */
static float ends_at(Ui *ui, float right, float base, double size, UiWeight weight, GfxColor c,
                     const char *text, int is_drawn)
{
    return is_drawn ? ui_label(ui, right, base, size, weight, c, UI_RIGHT, text)
                    : ui_width(ui, size, weight, text);
}

/* Clock and bags, for the rooms that show the run; returns the left end. */
static float run_readings(const App *app, float right, float base, int is_drawn)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Run *run = &app->run;
    char words[64];
    int is_run = app->turn.screen == SCREEN_BAY || app->turn.screen == SCREEN_RESULT;
    if (!is_run || run->view == NULL) {
        return right;
    }
    right -= ends_at(ui, right, base, 22, UI_BOLD, t->ink, app_fmt_clock(app, run->view->time_s),
                     is_drawn) +
             ui_px(ui, 20);
    SDL_snprintf(words, sizeof words, "%s %s", _("Bags"),
                 app_fmt(app, 2, run->view->signals.bags_used, ""));
    right -= ends_at(ui, right, base, 14, UI_REGULAR, t->ink, words, is_drawn) + ui_px(ui, 20);
    const char *state = app->task.is_paused                              ? _("Paused")
                        : app->program.slow_until_s > app->program.now_s ? _("slow")
                                                                         : "";
    if (state[0] != '\0') { /* slower than real time: ticks were dropped, the run is the same */
        right -= ends_at(ui, right, base, 14, UI_BOLD, t->accent, state, is_drawn) + ui_px(ui, 14);
    }
    return right;
}

float app_switches_width(const App *app)
{
    return ui_px(app->ui, 88 + 84 + 98 + 2 * 8);
}

float app_band_row_high(const App *app)
{
    return floorf((float)(44.0 * app->laid->text_scale * app->win.display_scale + 8.0));
}

float app_band_height(const App *app)
{
    return floorf((float)(44.0 * app->laid->text_scale * app->win.display_scale *
                              fmax(app->pages.band_rows, 1.0) +
                          8.0));
}

BandPlan app_band_plan(const App *app, float title, float second, float switches)
{
    float room = app->ui->width - 32.0f;
    BandPlan p = {0, 0};
    if (title + second + switches > room) {
        p.switches = 1;
        p.second = title + second > room;
        p.switches += p.second && second + switches > room;
    }
    app->laid->band_need = p.switches + 1;
    return p;
}

float app_band_y(const App *app, int row)
{
    float high = ui_px(app->ui, 30),
          step = (float)(44.0 * app->laid->text_scale * app->win.display_scale);
    return floorf((app_band_row_high(app) - high) * 0.5f + step * (float)row);
}

float app_switches_draw(const App *app, float right, float y, float high, float least)
{
    Ui *ui = app->ui;
    const char *units[2] = {"SI", "US"};
    char words[64];
    float gap = ui_px(ui, 8);
    GfxRect r = {right - ui_px(ui, 88), y, ui_px(ui, 88), high};
    if (r.x < least) {
        return right + gap;
    }
    ui_segments(ui, ID_UNITS, r, units, 2, app->taste.is_us);
    app_mark(app, "units", r);
    right = r.x;
    r = (GfxRect){right - gap - ui_px(ui, 84), y, ui_px(ui, 84), high};
    if (r.x < least) {
        return right;
    }
    ui_button(ui, ID_LANG, r, words_languages[app_next_language(app)].name, 0, 0);
    app_mark(app, "lang", r);
    right = r.x;
    r = (GfxRect){right - gap - ui_px(ui, 98), y, ui_px(ui, 98), high};
    if (r.x < least) {
        return right;
    }
    SDL_snprintf(words, sizeof words, "%s %s", _("Text"),
                 app_fmt(app, 0, app->laid->text_scale * 100.0, "%"));
    ui_button(ui, ID_SIZE, r, words, 0, 0);
    app_mark(app, "size", r);
    return r.x;
}

void app_top_band(const App *app, const char *title, const char *detail)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    float high = ui_px(ui, 30), y = app_band_y(app, 0), end = (float)app->win.width - 16.0f;
    float base = floorf(app_band_row_high(app) * 0.5f + ui_px(ui, 7)), gap = ui_px(ui, 16);
    const char *door = _("Door");
    float w = ui_width(ui, 14, UI_BOLD, door) + ui_px(ui, 38), s = ui_px(ui, 4);
    float title_w = w + 2.0f * gap + ui_width(ui, 16, UI_BOLD, title);
    float readings = end - run_readings(app, end, base, 0);
    BandPlan p = app_band_plan(app, title_w, readings, app_switches_width(app));
    GfxRect back = {16.0f, y, w, high};
    char words[80];
    SDL_snprintf(words, sizeof words, "   %s", door);
    app_mark(app, "door", back);
    ui_button(ui, ID_BACK, back, words, 0, 0);
    float ax = back.x + ui_px(ui, 15), ay = floorf(y + high * 0.5f);
    GfxColor c = ui->active == ID_BACK && ui->hot == ID_BACK ? t->sheet : t->ink;
    ui_polyline(ui, (UiPoint[3]){{ax + s, ay - s}, {ax, ay}, {ax + s, ay + s}}, 3, 2.0f, c);
    float step = app_band_y(app, 1) - y;
    float left_of = run_readings(app, end, base + step * (float)p.second, 1);
    float right = app_switches_draw(app, p.switches == p.second ? left_of : end,
                                    app_band_y(app, p.switches), high, -1e9f);
    right = p.switches == 0 ? right : p.second == 0 ? left_of : end;
    float left = back.x + back.w + gap, room = right - left - gap;
    if (room > ui_px(ui, 60)) {
        double size = ui_fit(ui, room, 20, UI_BOLD, title);
        left += ui_label_cut(ui, left, base, room, size, UI_BOLD, t->ink, title) + gap;
    }
    room = right - left - gap;
    if (ui_width(ui, 13, UI_REGULAR, detail) <= room) {
        ui_label(ui, left, base, 13, UI_REGULAR, t->ink2, UI_LEFT, detail);
    }
    ui_rect(ui, 0.0f, app_band_height(app) - 2.0f, (float)app->win.width, 2.0f, t->ink);
}

/* The bay room needs room: in a small window its text is no larger than what leaves the wall its
 * place, and the button for it says so. What the person chose stays chosen. */
double app_text_most(const App *app)
{
    double w = app->win.width / app->win.display_scale / 640.0,
           h = app->win.height / app->win.display_scale / 400.0;
    double most = fmax(1.0, floor(fmin(w, h) * 20.0) / 20.0);
    return app->turn.screen == SCREEN_BAY ? most : 2.0;
}

void app_band_answer(App *app)
{
    const Ui *ui = app->ui;
    double value, scale = app->laid->text_scale, most = app_text_most(app);
    if (ui_answered(ui, ID_UNITS, &value)) {
        app->taste.is_us = value > 0.5;
    }
    if (ui_answered(ui, ID_LANG, NULL)) {
        app_language(app, app_next_language(app));
    }
    if (ui_answered(ui, ID_SIZE, NULL)) { /* it goes round */
        scale = scale >= 1.95 ? 1.0 : floor(scale * 4.0 + 1.01) / 4.0;
        app->taste.text_scale = scale > most ? 1.0 : scale;
    }
    if (ui_answered(ui, ID_BACK, NULL)) {
        app_go(app, SCREEN_DOOR);
    }
}
