/* A room that needs more height than the window has, as with large type in a small window, is laid
 * out at the height it needs and scrolled as a page is: nothing is dropped, nothing lies on
 * another. The room never knows. Wheel, Page Up and Down, the bar at the right; Tab brings what it
 * comes to into view. */
#include "app.h"

#include <math.h>

void page_needs(App *app, float more_px)
{
    app->page_want = fmaxf(app->page_want, app->page_more + more_px);
}

float page_begin(App *app, float least_px)
{
    Ui *ui = &app->ui;
    float high = (float)app->height,
          need = fmaxf(high, ceilf(least_px * ui->scale + app->page_more));
    app->page_px = fmaxf(fminf(app->page_px, need - high), 0.0f);
    ui->in.mouse_y += app->page_px;
    ui->height = need;
    app->height = (int)need;
    return high;
}

static float bar(App *app, float high, float need)
{
    Ui *ui = &app->ui;
    const UiTheme *t = ui->theme;
    float wide = 10.0f, top = high * app->page_px / need, tall = high * high / need;
    GfxRect track = {ui->width - wide - 2.0f, 0.0f, wide, high};
    int state = ui_area(ui, ID_PAGE, track, 0);
    if (ui_is_dragged(ui, ID_PAGE)) { /* the middle of the thumb goes where the pointer is */
        app->page_px = (ui->in.mouse_y - tall * 0.5f) / high * need;
    }
    ui_rect(ui, track.x, track.y, track.w, track.h, t->well);
    ui_round(ui, (GfxRect){track.x + 1.0f, top, wide - 2.0f, tall}, 4.0f,
             state & (UI_AREA_HOT | UI_AREA_HELD) ? t->ink : t->edge);
    app_mark(app, "page", track);
    return app->page_px;
}

/* What Tab has come to is brought into view. */
static void follow_focus(App *app, float high)
{
    const Ui *ui = &app->ui;
    float margin = 24.0f;
    if (!ui->is_ring_shown || ui->focus == app->page_focus || ui->ring.h <= 0.0f) {
        return;
    }
    app->page_focus = ui->focus;
    app->page_px = fmaxf(app->page_px, ui->ring.y + ui->ring.h + margin - high);
    app->page_px = fminf(app->page_px, fmaxf(ui->ring.y - margin, 0.0f));
}

void page_end(App *app, float high)
{
    Ui *ui = &app->ui;
    float need = ui->height, by = app->page_px;
    if (need > high) {
        ui_shift_up(ui, by);
    }
    ui->in.mouse_y -= by;
    ui->height = high;
    app->height = (int)high;
    if (need <= high) {
        return;
    }
    for (int i = 0; i < app->mark_count; i++) {
        app->marks[i].rect.y -= by;
    }
    ui_layer(ui, NULL);
    follow_focus(app, high);
    if (app_is_covered(app)) {
        bar(app, high, need);
        return;
    }
    if (!ui->is_wheel_used) {
        app->page_px -= ui->in.wheel * 60.0f * ui->scale;
    }
    app->page_px += 0.8f * high * (float)(ui->in.page_down - ui->in.page_up);
    app->page_px = fmaxf(fminf(bar(app, high, need), need - high), 0.0f);
}
