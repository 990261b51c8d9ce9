/* The ground that every card stands on. */
#include "base/app.h"

#include <math.h>

void app_card_open(App *app, AppCard card)
{
    app->cards.open = card;
    app->cards.top = 0;
    app->cards.field[0] = app->cards.says[0] = '\0';
    app->turn.focus_next = card == CARD_LEARNER || card == CARD_FILE || card == CARD_SEED
                               ? ID_OVER_FIELD
                           : card == CARD_SETTINGS ? ID_OVER_A
                           : card == CARD_GUIDE    ? ID_OVER_OK
                           : card == CARD_DELETE   ? ID_OVER_CLOSE
                           : card == CARD_ACTS     ? ID_OVER_A
                                                   : app->turn.home;
}

GfxRect app_card_ground(const App *app, float w, float h, float radius, GfxColor c, float line,
                        GfxColor edge)
{
    Ui *ui = app->ui;
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

GfxRect app_card_plate(const App *app, float w, float h, const char *title)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    float in = ui_px(ui, 24);
    GfxRect r = app_card_ground(app, w, h, ui_px(ui, 10), t->sheet, 2.0f, t->ink);
    ui_label(ui, r.x + in, r.y + ui_px(ui, 38), 20, UI_BOLD, t->ink, UI_LEFT, title);
    ui_rect(ui, r.x + in, r.y + ui_px(ui, 52), r.w - 2 * in, 2.0f, t->ink);
    return (GfxRect){r.x + in, r.y + ui_px(ui, 68), r.w - 2 * in, r.h - ui_px(ui, 68) - in};
}
