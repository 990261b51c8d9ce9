/* The right column: pressure fan, flow tape, sound comb, hose shake. Each stands for something a
 * crew hears or feels; flow is a trainer's gauge and goes when the wall is closed. */
#include "bay/bay.h"

#include <math.h>
#include <string.h>

/* Thirty seconds of flow in bars of half a second. */
static void flow(App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Run *run = &app->run;
    const PbView *v = run->view;
    GfxRect in =
        gauge_plate(app->ui, r, _("Air flow"), app_fmt_flow(app, v->signals.flow_m3_s), 18);
    const char *words = /* xgettext:no-c-format */ _("80% of peak flow at this stop");
    int wraps = ui_width(ui, UI_LEAST_PX, UI_REGULAR, words) > in.w - ui_px(ui, 24);
    float foot = ui_px(ui, wraps ? 34 : 18), base = in.y + in.h - foot,
          tall = base - in.y - ui_px(ui, 4);
    double top = 1e-4;
    float bars[RUN_FLOW_BARS] = {0};
    for (int b = 0; b < RUN_FLOW_BARS; b++) {
        double at = v->time_s - 0.5 * (RUN_FLOW_BARS - 1 - b);
        int k = (int)(at * 5.0 + 0.5);
        if (at >= 0.0 && k >= 0 && k < run->watched.sample_count) {
            bars[b] = run->watched.samples[k].flow_m3_s;
        }
    }
    bars[RUN_FLOW_BARS - 1] = (float)v->signals.flow_m3_s;
    for (int b = 0; b < RUN_FLOW_BARS; b++) {
        top = fmax(top, (double)bars[b]);
    }
    top = fmax(top, v->best_flow_m3_s) * 1.08;
    UiPoint line[RUN_FLOW_BARS];
    float w = in.w / RUN_FLOW_BARS;
    for (int b = 0; b < RUN_FLOW_BARS; b++) {
        float x = floorf(in.x + w * (float)b), next = floorf(in.x + w * (float)(b + 1));
        float h = (float)((double)bars[b] / top) * tall;
        ui_rect(ui, x, base - h, next - x - 1.0f, h, b == RUN_FLOW_BARS - 1 ? t->ink : t->rule);
        line[b] = (UiPoint){x + (next - x) * 0.5f, base - h};
    }
    ui_polyline(ui, line, RUN_FLOW_BARS, 2.0f, t->ink);
    ui_rect(ui, in.x, base, in.w, 1.0f, t->ink);
    float from = in.x, to = in.x + in.w, now_w = ui_width(ui, 12, UI_REGULAR, _("now"));
    float need = ui_width(ui, 12, UI_REGULAR, words) + ui_px(ui, 30);
    float ago = ui_width(ui, 12, UI_REGULAR, _("30 s ago"));
    if (need + now_w + ui_px(ui, 8) <= to - from) { /* the scale gives way to what the dashes are */
        ui_label(ui, to, base + ui_px(ui, 16), 12, UI_REGULAR, t->ink2, UI_RIGHT, _("now"));
        to -= now_w + ui_px(ui, 8);
    }
    if (need + ago < to - from) {
        ui_label(ui, in.x, base + ui_px(ui, 16), 12, UI_REGULAR, t->ink2, UI_LEFT, _("30 s ago"));
        from += ago + ui_px(ui, 6);
    }
    if (v->best_flow_m3_s > 1e-4) {
        float y = floorf(base - (float)(0.8 * v->best_flow_m3_s / top) * tall);
        ui_dashes(ui, in.x, y, in.x + in.w, y, 2.0f, 6.0f, t->accent);
        float x = from + fmaxf((to - from - need) * 0.5f, 0.0f);
        ui_dashes(ui, x, base + ui_px(ui, 11), x + ui_px(ui, 18), base + ui_px(ui, 11), 2.0f, 6.0f,
                  t->accent);
        GfxRect at = {x + ui_px(ui, 24), base + ui_px(ui, 2), to - x - ui_px(ui, 24),
                      foot + ui_px(ui, 1)};
        ui_words(ui, at, 12, UI_REGULAR, t->accent, UI_LEFT, words);
    }
    app_mark(app, "flow", r);
}

/* The three that a closed wall keeps, larger. */
static void three(App *app, const Gauge *g, GfxRect r)
{
    Ui *ui = app->ui;
    const float share[3] = {0.44f, 0.31f, 0.25f};
    void (*const draw[3])(const Gauge *, GfxRect, int) = {gauge_fan, gauge_sound, gauge_shake};
    const int id[3] = {ID_FAN, ID_COMB, ID_SHAKE};
    const char *const name[3] = {"fan", "comb", "shake"};
    float gap = ui_px(ui, 12), high = r.h - 2 * gap, y = r.y;
    for (int i = 0; i < 3; i++) {
        float h = i == 2 ? r.y + r.h - y : floorf(high * share[i]);
        GfxRect part = {r.x, y, r.w, h};
        draw[i](g, part, ui_focusable(ui, id[i]));
        app_mark(app, name[i], part);
        y += h + gap;
    }
}

void gauges_draw(App *app, GfxRect r)
{
    Ui *ui = app->ui;
    float gap = ui_px(ui, 12);
    Gauge gauge = sight_gauge(app);
    const Gauge *g = &gauge;
    if (app->task.sight == SIGHT_CLOSED) {
        three(app, g, r);
        return;
    }
    if (app->laid->text_scale >= 1.7 ||
        r.h < ui_px(ui, 380)) { /* three share one place under the fan */
        const char *tabs[3] = {_("Air flow"), _("Sound"), _("Hose")};
        GfxRect tab = {r.x, r.y, r.w, ui_px(ui, 34)};
        app->bay->gauge_tab = ui_segments(ui, ID_GAUGES, tab, tabs, 3, app->bay->gauge_tab);
        app_mark(app, "gauges", tab);
        float y = r.y + ui_px(ui, 44), high = r.y + r.h - y - gap;
        GfxRect top = {r.x, y, r.w, high * 0.58f};
        GfxRect low = {r.x, y + high * 0.58f + gap, r.w, high * 0.42f};
        gauge_fan(g, top, ui_focusable(ui, ID_FAN));
        app_mark(app, "fan", top);
        if (app->bay->gauge_tab == 0) {
            flow(app, low);
        } else if (app->bay->gauge_tab == 1) {
            gauge_sound(g, low, ui_focusable(ui, ID_COMB));
            app_mark(app, "comb", low);
        } else {
            gauge_shake(g, low, ui_focusable(ui, ID_SHAKE));
            app_mark(app, "shake", low);
        }
        return;
    }
    float high = r.h - 3 * gap;
    const float even[4] = {0.348f, 0.268f, 0.212f, 0.172f}, large[4] = {0.40f, 0.25f, 0.19f, 0.16f};
    const float *share = app->laid->text_scale < 1.3 ? even : large;
    float y = r.y;
    for (int i = 0; i < 4; i++) {
        float h = i == 3 ? r.y + r.h - y : floorf(high * share[i]);
        GfxRect part = {r.x, y, r.w, h};
        if (i == 0) {
            gauge_fan(g, part, ui_focusable(ui, ID_FAN));
            app_mark(app, "fan", part);
        } else if (i == 1) {
            flow(app, part);
        } else if (i == 2) {
            gauge_sound(g, part, ui_focusable(ui, ID_COMB));
            app_mark(app, "comb", part);
        } else {
            gauge_shake(g, part, ui_focusable(ui, ID_SHAKE));
            app_mark(app, "shake", part);
        }
        y += h + gap;
    }
}
