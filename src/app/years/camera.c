/* The room side as a camera sees it: plain surface temperature on one printed scale, readings at
 * fixed places outside the picture, and the reading under the pointer. */
#include "years/years.h"

#include "core/units.h"

#include <math.h>

static void reading(const App *app, GfxRect r, double u, double v, double c, float label_y,
                    const char *name)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    float x = r.x + (float)u * r.w, y = r.y + r.h - (float)v * r.h, end = r.x + r.w + ui_px(ui, 8);
    ui_line(ui, x, y, r.x + r.w, y, 4.0f, t->sheet);
    ui_line(ui, x, y, r.x + r.w, y, 2.0f, t->ink);
    ui_line(ui, r.x + r.w, y, end, label_y - ui_px(ui, 5), 2.0f, t->ink);
    ui_circle(ui, x, y, 6.0f, t->ink);
    ui_circle(ui, x, y, 4.5f, t->sheet);
    ui_label(ui, end + 4.0f, label_y, 14, UI_BOLD, t->ink, UI_LEFT, years_fmt_c(app, c, 1));
    ui_label(ui, end + 4.0f, label_y + ui_px(ui, 16), 12, UI_REGULAR, t->ink2, UI_LEFT, name);
}

static void scale_draw(const App *app, const Years *y, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    float high = ui_px(ui, 12), top = r.y + r.h + ui_px(ui, 8), last = -1e9f;
    int steps = (int)r.w / 3;
    for (int i = 0; i < steps; i++) {
        float a = floorf(r.x + r.w * (float)i / (float)steps);
        float b = floorf(r.x + r.w * (float)(i + 1) / (float)steps);
        ui_rect(ui, a, top, b - a, high, ui_camera_color((i + 0.5) / steps));
    }
    ui_frame(ui, (GfxRect){r.x, top, r.w, high}, 1.0f, t->ink);
    double low = app->taste.is_us ? pb_f_from_c(y->low_c) : y->low_c;
    double end = app->taste.is_us ? pb_f_from_c(y->high_c) : y->high_c;
    double step = end - low > 24.0 ? 10.0 : end - low > 12.0 ? 5.0 : end - low > 5.0 ? 2.0 : 1.0;
    for (double c = ceil(low / step - 1e-9) * step; c <= end + 1e-9; c += step) {
        float x = r.x + (float)((c - low) / (end - low)) * r.w;
        ui_rect(ui, floorf(x), top + high, 1.0f, 4.0f, t->ink);
        const char *text = app_fmt(app, 0, c, "");
        float half = 0.5f * ui_width(ui, 12, UI_REGULAR, text);
        if (x - half > last + ui_px(ui, 6)) {
            ui_label(ui, x, top + high + ui_px(ui, 16), 12, UI_REGULAR, t->ink2, UI_CENTRE, text);
            last = x + half;
        }
    }
    ui_label(ui, r.x + r.w + ui_px(ui, 14), top + high + ui_px(ui, 16), 12, UI_REGULAR, t->ink2,
             UI_LEFT, app->taste.is_us ? "°F" : "°C");
}

static void pointer(const App *app, const Years *y, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    y->laid->spot_c = (double)NAN;
    if (!ui_over(ui, r)) {
        return;
    }
    double u = ((double)ui->in.mouse_x - (double)r.x) / (double)r.w;
    double v = 1.0 - ((double)ui->in.mouse_y - (double)r.y) / (double)r.h;
    y->laid->spot_c = years_spot(y, u, v);
    const char *text = years_fmt_c(app, y->laid->spot_c, 1);
    float w = ui_width(ui, 14, UI_BOLD, text) + ui_px(ui, 12), h = ui_px(ui, 24);
    float x = ui->in.mouse_x + 12.0f, top = ui->in.mouse_y - h - 8.0f;
    x = x + w > ui->width - 4.0f ? ui->in.mouse_x - w - 12.0f : x;
    top = top < r.y ? ui->in.mouse_y + 14.0f : top;
    GfxRect tag = {x, top, w, h};
    ui_layer(ui, NULL);
    ui_line(ui, ui->in.mouse_x - 7, ui->in.mouse_y, ui->in.mouse_x + 7, ui->in.mouse_y, 2.0f,
            t->ink);
    ui_line(ui, ui->in.mouse_x, ui->in.mouse_y - 7, ui->in.mouse_x, ui->in.mouse_y + 7, 2.0f,
            t->ink);
    ui_round(ui, tag, ui_px(ui, 4), t->sheet);
    ui_round_line(ui, tag, ui_px(ui, 4), 2.0f, t->ink);
    ui_label(ui, x + w * 0.5f, top + h * 0.5f + ui_px(ui, 5), 14, UI_BOLD, t->ink, UI_CENTRE, text);
}

static void readings(const App *app, const Years *y, GfxRect r)
{
    double fill = 1.0 - y->gap_m / y->field.height_m, gap = 0.5 * (1.0 + fill);
    float step = ui_px(app->ui, 36), last = r.y - step;
    float fill_y = r.y + r.h * 0.5f, stud_y = r.y + r.h * 0.70f;
    if (y->gap_m > 0.02) {
        float at = r.y + r.h - (float)gap * r.h + ui_px(app->ui, 5);
        last = fmaxf(at, r.y + ui_px(app->ui, 12));
        reading(app, r, 0.5, gap, years_spot(y, 0.5, gap), last, _("gap"));
    }
    fill_y = fmaxf(fill_y, last + step);
    stud_y = fmaxf(stud_y, fill_y + step);
    double in_fill = fmin(0.5, 0.5 * fill), stud = fmin(0.30, 0.3 * fill);
    reading(app, r, 0.5, in_fill, years_spot(y, 0.5, in_fill), fill_y, _("fill"));
    /* The middle of the right stud is the edge of the picture. */
    double edge = 1.0 - 0.5 / YEARS_MAP_NX;
    reading(app, r, edge, stud, years_spot(y, edge, stud), stud_y, _("stud"));
}

void years_camera_draw(const App *app, const Years *y, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    if (!y->has_heat) {
        ui_rect(ui, r.x, r.y, r.w, r.h, t->well);
        ui_frame(ui, r, 2.0f, t->ink);
        ui_paragraph(ui, r.x + ui_px(ui, 10), r.y + r.h * 0.45f, r.w - ui_px(ui, 20), 13,
                     UI_REGULAR, t->ink2, y->is_stopped ? _("not figured") : _("figuring"));
        return;
    }
    ui_layer(ui, &r);
    ui_field(ui, (GfxField){.rect = r,
                            .u0 = 0.0f,
                            .v0 = 0.0f,
                            .u1 = 1.0f,
                            .v1 = 1.0f,
                            .is_camera = 1,
                            .low_c = (float)y->low_c,
                            .high_c = (float)y->high_c});
    ui_layer(ui, NULL);
    ui_frame(ui, (GfxRect){r.x - 2, r.y - 2, r.w + 4, r.h + 4}, 2.0f, t->ink);
    app_mark(app, "camera", r);
    scale_draw(app, y, r);
    readings(app, y, r);
    pointer(app, y, r);
}
