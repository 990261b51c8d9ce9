/* A room or a card that needs more height than the window has, as with large type in a small
 * window, is laid out at the height it needs and scrolled as a page is: nothing is dropped, nothing
 * lies on another. The room never knows. Wheel, Page Up and Down, the bar at the right; Tab brings
 * what it comes to into view. */
#include "base/app.h"

#include <math.h>

void page_needs(const App *app, float more_px)
{
    Page *p = app->laid->page;
    p->want = fmaxf(p->want, app->ui->height - p->least + more_px);
}

void page_begin(App *app, Page *p, float least_px)
{
    Ui *ui = app->ui;
    p->want = 0.0f;
    p->least = least_px;
    p->high = (float)app->win.height;
    float need = fmaxf(p->high, ceilf(least_px + p->more));
    p->px = fmaxf(fminf(p->px, need - p->high), 0.0f);
    p->mark = app->laid->mark_count;
    p->from = ui_mark(ui);
    app->laid->page = p;
    ui->in.mouse_y += p->px;
    ui->height = need;
    app->win.height = (int)need;
}

static float bar(App *app, Page *p, float need)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    int is_card = p == &app->pages.card, id = is_card ? ID_CARD_PAGE : ID_PAGE;
    float wide = 10.0f, top = p->high * p->px / need, tall = p->high * p->high / need;
    GfxRect track = {ui->width - wide - 2.0f, 0.0f, wide, p->high};
    int state = ui_area(ui, id, track, 0);
    if (ui_is_dragged(ui, id)) { /* the middle of the thumb goes where the pointer is */
        p->px = (ui->in.mouse_y - tall * 0.5f) / p->high * need;
    }
    ui_rect(ui, track.x, track.y, track.w, track.h, t->well);
    ui_round(ui, (GfxRect){track.x + 1.0f, top, wide - 2.0f, tall}, 4.0f,
             state & (UI_AREA_HOT | UI_AREA_HELD) ? t->ink : t->edge);
    app_mark(app, is_card ? "card_page" : "page", track);
    return p->px;
}

/* What Tab has come to is brought into view. */
static void follow_focus(App *app, Page *p)
{
    const Ui *ui = app->ui;
    float margin = 24.0f;
    if (!ui->is_ring_shown || ui->focus == p->focus || ui->ring.h <= 0.0f) {
        return;
    }
    p->focus = ui->focus;
    p->px = fmaxf(p->px, ui->ring.y + ui->ring.h + margin - p->high);
    p->px = fminf(p->px, fmaxf(ui->ring.y - margin, 0.0f));
}

void page_end(App *app)
{
    Ui *ui = app->ui;
    Page *p = app->laid->page;
    float need = ui->height, by = p->px;
    if (need > p->high) {
        ui_shift_up(ui, &p->from, by);
    }
    ui->in.mouse_y -= by;
    ui->height = p->high;
    app->win.height = (int)p->high;
    if (need <= p->high) {
        return;
    }
    for (int i = p->mark; i < app->laid->mark_count; i++) {
        app->laid->marks[i].rect.y -= by;
    }
    ui_layer(ui, NULL);
    follow_focus(app, p);
    if (app_is_covered(app) && p == &app->pages.room) {
        bar(app, p, need);
        return;
    }
    if (!ui->is_wheel_used) {
        p->px -= ui->in.wheel * 60.0f * ui->scale;
    }
    p->px += 0.8f * p->high * (float)(ui->in.page_down - ui->in.page_up);
    p->px = fmaxf(fminf(bar(app, p, need), need - p->high), 0.0f);
}
