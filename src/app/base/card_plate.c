/* The ground that every card stands on. */
#include "base/app.h"

#include <math.h>

void app_card_open(App *app, AppCard card)
{
    app->cards.open = card;
    app->cards.top = 0;
    app->cards.field[0] = app->cards.says[0] = '\0';
    app->cards.is_news = 0;
    app->turn.focus_next =
        card == CARD_LEARNER || card == CARD_FILE || card == CARD_SEED || card == CARD_MERGE
            ? ID_OVER_FIELD
        : card == CARD_SETTINGS ? ID_OVER_A
        : card == CARD_GUIDE    ? ID_OVER_OK
        : card == CARD_DELETE   ? ID_OVER_CLOSE
        : card == CARD_ACTS     ? ID_OVER_A
        : card == CARD_CLASS    ? ID_OVER_C
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

CardList app_card_list(const App *app, GfxRect r, float row_high, int all, int at)
{
    Ui *ui = app->ui;
    int most = (int)(r.h / row_high) < all ? (int)(r.h / row_high) : all;
    most = most < 1 ? 1 : most;
    int top = app->cards.top + ui_wheel_rows(ui);
    top = top > all - most ? all - most : top;
    top = top < 0 ? 0 : top;
    if (at >= 0 && at < all && ui->is_ring_shown) {
        top = at < top ? at : at >= top + most ? at - most + 1 : top;
    }
    if (top != app->cards.top) {
        ui_answer(ui, ID_OVER_TOP, top);
    }
    if (all > most) {
        float x = r.x + r.w + ui_px(ui, 5), share = r.h / (float)all;
        ui_rect(ui, x, r.y, ui_px(ui, 4), r.h, ui->theme->well);
        ui_rect(ui, x, r.y + share * (float)top, ui_px(ui, 4), share * (float)most,
                ui->theme->edge);
    }
    return (CardList){top, most < all - top ? most : all - top};
}
