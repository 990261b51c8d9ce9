/* The legend of densities. */
#include "base/app.h"

#include "core/units.h"

#include <math.h>
#include <stdio.h>

/* Lengthwise ramp; upright when it is higher than wide. */
void legend_draw(const App *app, double target, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    int upright = r.h > r.w;
    float along = upright ? r.h : r.w, thick = upright ? r.w : r.h;
    for (int k = 0; k < 60; k++) {
        float a = floorf(along * (float)k / 60.0f), b = floorf(along * (float)(k + 1) / 60.0f);
        GfxColor c = ui_density_color(20.5 + k, target);
        if (upright) {
            ui_rect(ui, r.x, r.y + along - b, thick, b - a, c);
        } else {
            ui_rect(ui, r.x + a, r.y, b - a, thick, c);
        }
    }
    float end = along * (float)((target - 20.0) / 60.0);
    for (int k = 0; 2.0f + 7.0f * (float)k < end; k++) { /* hatch: under target */
        float s = 2.0f + 7.0f * (float)k, e = fminf(s + thick, end), up = e - s;
        if (upright) {
            ui_line(ui, r.x, r.y + along - s, r.x + up, r.y + along - e, 1.0f,
                    ui_fade(t->ink, 0.8));
        } else {
            ui_line(ui, r.x + s, r.y + thick, r.x + e, r.y + thick - up, 1.0f,
                    ui_fade(t->ink, 0.8));
        }
    }
    ui_frame(ui, r, 1.0f, t->ink);
    if (upright) {
        float y = r.y + along - end;
        ui_rect(ui, r.x - 4, y - 1, thick + 8, 2.0f, t->ink);
        ui_label(ui, r.x + thick + ui_px(ui, 8), y + ui_px(ui, 5), 14, UI_BOLD, t->ink, UI_LEFT,
                 app_fmt_density(app, target, 0));
    } else {
        ui_rect(ui, r.x + end - 1, r.y - 5, 2.0f, thick + 10, t->ink);
        ui_label(ui, r.x + end, r.y + thick + ui_px(ui, 19), 13, UI_BOLD, t->ink, UI_CENTRE,
                 app_fmt_density(app, target, 0));
        ui_label(ui, r.x + end, r.y - ui_px(ui, 8), 12, UI_REGULAR, t->ink, UI_CENTRE, _("target"));
    }
    double unit = app->taste.is_us ? PB_KG_M3_PER_LB_FT3 : 1.0,
           pitch = app->taste.is_us ? 1.0 : 10.0;
    float lone = ui_px(ui, 26);
    for (double f = pitch * ceil(20.0 / unit / pitch); f * unit <= 80.2; f += pitch) {
        float s = along * (float)((f * unit - 20.0) / 60.0);
        if (fabsf(s - end) < lone) {
            continue;
        }
        if (upright) {
            ui_label(ui, r.x + thick + ui_px(ui, 8), r.y + along - s + ui_px(ui, 4), 12, UI_REGULAR,
                     t->ink2, UI_LEFT, app_fmt(app, 0, f, ""));
        } else {
            float x = fmaxf(r.x + ui_px(ui, 8), fminf(r.x + s, r.x + along - ui_px(ui, 8)));
            ui_label(ui, x, r.y + thick + ui_px(ui, 18), 12, UI_REGULAR, t->ink2, UI_CENTRE,
                     app_fmt(app, 0, f, ""));
        }
    }
}
