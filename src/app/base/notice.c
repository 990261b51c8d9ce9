/* What is told over the room, for a while. */
#include "base/app.h"

#include "io/trouble_words.h"

#include <stdio.h>

void app_notice(App *app, const char *title, const char *text, int is_danger, double seconds)
{
    snprintf(app->say.notice.title, sizeof app->say.notice.title, "%s", title);
    io_trouble_words(text, app->taste.lang, app->say.notice.text, sizeof app->say.notice.text);
    app->say.notice.is_danger = is_danger;
    app->say.is_hint = app->say.stands = 0;
    app->say.notice.until_s = app->program.now_s + seconds;
}

void notice_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    GfxColor none = {0, 0, 0, 0};
    if (app->program.now_s >= app->say.notice.until_s) {
        return;
    }
    float in = ui_px(ui, 16), w = r.w - 2 * in;
    float head = ui_paragraph(ui, 0, 0, w, 14, UI_BOLD, none, app->say.notice.title);
    float text = ui_paragraph(ui, 0, 0, w, 13, UI_REGULAR, none, app->say.notice.text);
    GfxRect p = {r.x, r.y + r.h - head - text - ui_px(ui, 22), r.w, head + text + ui_px(ui, 22)};
    ui_layer(ui, NULL);
    ui_round(ui, p, ui_px(ui, 6), t->warn_wash);
    ui_round_line(ui, p, ui_px(ui, 6), 1.0f, t->warn);
    ui_rect(ui, p.x, p.y, 6.0f, p.h, t->warn);
    app_mark(app, "notice", p);
    ui_paragraph(ui, p.x + in, p.y + ui_px(ui, 22), w, 14, UI_BOLD, t->warn, app->say.notice.title);
    ui_paragraph(ui, p.x + in, p.y + ui_px(ui, 22) + head, w, 13, UI_REGULAR, t->ink,
                 app->say.notice.text);
}
