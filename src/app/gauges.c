/* The right column: pressure fan, flow tape, sound comb, hose shake. Each stands for something a
 * crew hears or feels. No zone is coloured: a gauge does not say when to pull. */
#include "app.h"

#include "core/units.h"

#include <math.h>
#include <string.h>

static GfxRect plate(App *app, GfxRect r, const char *title, const char *value, double value_size)
{
    Ui *ui = &app->ui;
    float in = ui_px(ui, 14), w = 0.0f;
    ui_round(ui, r, ui_px(ui, 10), ui->theme->glass);
    ui_round_line(ui, r, ui_px(ui, 10), 1.0f, ui->theme->edge);
    ui_label(ui, r.x + in, r.y + ui_px(ui, 22), 14, UI_BOLD, ui->theme->ink, UI_LEFT, title);
    if (value[0] != '\0') {
        w = ui_label(ui, r.x + r.w - in, r.y + ui_px(ui, 14 + value_size * 0.5), value_size,
                     UI_BOLD, ui->theme->ink, UI_RIGHT, value);
    }
    (void)w;
    return (GfxRect){r.x + in, r.y + ui_px(ui, 34), r.w - 2 * in, r.h - ui_px(ui, 44)};
}

static const double fan_half = 1.25; /* radians: the arc is 143 degrees wide */

static double fan_angle(double share)
{
    share = share < 0.0 ? 0.0 : share > 1.04 ? 1.04 : share;
    return -1.5707963268 - fan_half + 2.0 * fan_half * share;
}

static void fan_ticks(App *app, float cx, float cy, float radius, double full, double major)
{
    Ui *ui = &app->ui;
    const UiTheme *t = ui->theme;
    double unit = app->is_us ? PB_PA_PER_IN_WC : 1000.0;
    for (int k = 0; k * major / 5.0 <= full + 1e-9; k++) {
        double v = k * major / 5.0;
        double a = fan_angle(v / full);
        int is_major = k % 5 == 0;
        float len = ui_px(ui, is_major ? 11 : 6), c = (float)cos(a), s = (float)sin(a);
        ui_line(ui, cx + radius * c, cy + radius * s, cx + (radius - len) * c,
                cy + (radius - len) * s, is_major ? 2.0f : 1.0f, t->ink);
        if (is_major) {
            float out = radius + ui_px(ui, 15);
            ui_label(ui, cx + out * c, cy + out * s + ui_px(ui, 4), 12, UI_REGULAR, t->ink,
                     UI_CENTRE, app_fmt(app, 0, v / unit, ""));
        }
    }
}

static void fan_needle(App *app, float cx, float cy, float radius, double share)
{
    Ui *ui = &app->ui;
    const UiTheme *t = ui->theme;
    double a = fan_angle(share);
    float c = (float)cos(a), s = (float)sin(a), half = ui_px(ui, 4);
    float tip = radius - ui_px(ui, 3), shoulder = tip - ui_px(ui, 16);
    UiPoint p[5] = {{cx - half * s, cy + half * c},
                    {cx + shoulder * c - half * s, cy + shoulder * s + half * c},
                    {cx + tip * c, cy + tip * s},
                    {cx + shoulder * c + half * s, cy + shoulder * s - half * c},
                    {cx + half * s, cy - half * c}};
    ui_polygon(ui, p, 5, t->ink);
    ui_circle(ui, cx, cy, ui_px(ui, 9), t->ink);
    ui_circle(ui, cx, cy, ui_px(ui, 3), t->glass);
}

static void fan(App *app, GfxRect r)
{
    Ui *ui = &app->ui;
    const UiTheme *t = ui->theme;
    const Run *run = &app->run;
    double static_pa = run->config.exercise.machine.static_pa;
    double major = app->is_us ? 20.0 * PB_PA_PER_IN_WC : 5000.0;
    double full = major * ceil(static_pa / major - 1e-6);
    char text[96];
    GfxRect in = plate(app, r, _("Pressure at blower"), "", 0);
    float foot = ui_px(ui, 37); /* the reading stands clear of the hub */
    float radius =
        fminf((in.w * 0.5f - ui_px(ui, 24)) / (float)sin(fan_half), in.h - foot - ui_px(ui, 20));
    float cx = in.x + in.w * 0.5f, cy = in.y + ui_px(ui, 24) + radius;
    radius = fmaxf(radius, 20.0f);
    ui_arc(ui, cx, cy, radius, fan_angle(0.0), fan_angle(1.0), 2.0f, t->ink);
    fan_ticks(app, cx, cy, radius, full, major);
    if (run->stop_max_pa - run->stop_min_pa > 50.0) { /* where the needle walked at this stop */
        ui_arc(ui, cx, cy, radius - ui_px(ui, 17), fan_angle(run->stop_min_pa / full),
               fan_angle(run->stop_max_pa / full), ui_px(ui, 7), ui_fade(t->accent, 0.4));
    }
    if (app->wax_pressure_pa >= 0.0) {
        double a = fan_angle(app->wax_pressure_pa / full);
        float c = (float)cos(a), s = (float)sin(a), far = radius + ui_px(ui, 14), k = ui_px(ui, 6);
        ui_polygon(ui,
                   (UiPoint[3]){{cx + (radius + 2) * c, cy + (radius + 2) * s},
                                {cx + far * c - k * s, cy + far * s + k * c},
                                {cx + far * c + k * s, cy + far * s - k * c}},
                   3, t->accent);
    }
    fan_needle(app, cx, cy, radius, app->needle_pa / full);
    float base = r.y + r.h - ui_px(ui, 14);
    SDL_snprintf(text, sizeof text, _("%s with the hose shut"), app_fmt_pressure(app, static_pa));
    float w = ui_label(ui, in.x + in.w, base, 22, UI_BOLD, t->ink, UI_RIGHT,
                       app_fmt_pressure(app, app->needle_pa));
    /* One line under the hub, or two beside it; left out when neither has room. */
    GfxColor none = {0, 0, 0, 0};
    float one = ui_width(ui, 12, UI_REGULAR, text), beside = cx - in.x - ui_px(ui, 16);
    int under = one < in.w - w - ui_px(ui, 12) && base - ui_px(ui, 13) > cy + ui_px(ui, 10);
    float high = ui_paragraph(ui, 0, 0, beside, 12, UI_REGULAR, none, text);
    if (under) {
        ui_label(ui, in.x, base, 12, UI_REGULAR, t->ink2, UI_LEFT, text);
    } else if (high < ui_px(ui, 36) && base - high > cy - (radius - ui_px(ui, 11)) * 0.31f) {
        ui_paragraph(ui, in.x, base - high + ui_px(ui, 17), beside, 12, UI_REGULAR, t->ink2, text);
    }
    if (ui_focusable(ui, ID_FAN)) {
        ui_focus_ring(ui, r, ui_px(ui, 10));
    }
    app_mark(app, "fan", r);
}

/* Thirty seconds of flow in bars of half a second. */
static void flow(App *app, GfxRect r)
{
    Ui *ui = &app->ui;
    const UiTheme *t = ui->theme;
    const Run *run = &app->run;
    const PbView *v = run->view;
    GfxRect in = plate(app, r, _("Flow"), app_fmt_flow(app, v->signals.flow_m3_s), 18);
    float foot = ui_px(ui, 18), base = in.y + in.h - foot, tall = base - in.y - ui_px(ui, 4);
    double top = 1e-4;
    float bars[RUN_FLOW_BARS] = {0};
    for (int b = 0; b < RUN_FLOW_BARS; b++) {
        double at = v->time_s - 0.5 * (RUN_FLOW_BARS - 1 - b);
        int k = (int)(at * 5.0 + 0.5);
        if (at >= 0.0 && k >= 0 && k < run->sample_count) {
            bars[b] = run->samples[k].flow_m3_s;
        }
    }
    bars[RUN_FLOW_BARS - 1] = (float)v->signals.flow_m3_s;
    for (int b = 0; b < RUN_FLOW_BARS; b++) {
        top = fmax(top, (double)bars[b]);
    }
    top = fmax(top, v->best_flow_m3_s) * 1.08;
    UiPoint line[2 * RUN_FLOW_BARS];
    float w = in.w / RUN_FLOW_BARS;
    for (int b = 0; b < RUN_FLOW_BARS; b++) {
        float x = floorf(in.x + w * (float)b), next = floorf(in.x + w * (float)(b + 1));
        float h = (float)((double)bars[b] / top) * tall;
        ui_rect(ui, x, base - h, next - x - 1.0f, h, b == RUN_FLOW_BARS - 1 ? t->ink : t->rule);
        line[b] = (UiPoint){x + (next - x) * 0.5f, base - h};
    }
    ui_polyline(ui, line, RUN_FLOW_BARS, 2.0f, t->ink);
    ui_rect(ui, in.x, base, in.w, 1.0f, t->ink);
    ui_label(ui, in.x + in.w, base + ui_px(ui, 16), 12, UI_REGULAR, t->ink2, UI_RIGHT, _("now"));
    float from = in.x, to = in.x + in.w - ui_width(ui, 12, UI_REGULAR, _("now")) - ui_px(ui, 8);
    const char *words = _("80 % of best here");
    float need = ui_width(ui, 12, UI_REGULAR, words) + ui_px(ui, 30);
    float ago = ui_width(ui, 12, UI_REGULAR, _("30 s ago"));
    if (need + ago < to - from) { /* the start of the scale gives way first */
        ui_label(ui, in.x, base + ui_px(ui, 16), 12, UI_REGULAR, t->ink2, UI_LEFT, _("30 s ago"));
        from += ago + ui_px(ui, 6);
    }
    if (v->best_flow_m3_s > 1e-4) {
        float y = floorf(base - (float)(0.8 * v->best_flow_m3_s / top) * tall);
        ui_dashes(ui, in.x, y, in.x + in.w, y, 2.0f, 6.0f, t->accent);
        float x = from + fmaxf((to - from - need) * 0.5f, 0.0f);
        ui_dashes(ui, x, base + ui_px(ui, 11), x + ui_px(ui, 18), base + ui_px(ui, 11), 2.0f, 6.0f,
                  t->accent);
        ui_label(ui, x + ui_px(ui, 24), base + ui_px(ui, 16), 12, UI_REGULAR, t->accent, UI_LEFT,
                 words);
    }
    app_mark(app, "flow", r);
}

/* What an ear would say of the machine. */
static const char *sound_word(const PbSignals *s, double strain)
{
    if (s->plugged) {
        return _("choked");
    }
    if (s->blower_speed < 0.05) {
        return _("silent");
    }
    return strain > 0.75 ? _("labouring") : strain > 0.5 ? _("pitch rising") : _("steady");
}

static void sound(App *app, GfxRect r)
{
    enum { TEETH = 28 };
    Ui *ui = &app->ui;
    const UiTheme *t = ui->theme;
    const PbSignals *s = &app->run.view->signals;
    double static_pa = app->run.config.exercise.machine.static_pa;
    /* A wheel that moves less air turns a little faster: the pitch climbs with the back pressure.
     */
    double strain = static_pa > 0.0 ? s->blower_pa / static_pa : 0.0;
    double pitch = 6.0 + 14.0 * s->blower_speed * (0.6 + 0.4 * strain);
    double loud = fmin(s->blower_speed, 1.0) * (0.55 + 0.45 * strain);
    GfxRect in = plate(app, r, _("Sound"), sound_word(s, strain), 14);
    float foot = ui_px(ui, 18), base = in.y + in.h - foot, tall = base - in.y - ui_px(ui, 2);
    int at = (int)(pitch + 0.5);
    at = at < 0 ? 0 : at >= TEETH ? TEETH - 1 : at;
    for (int k = 0; k < TEETH; k++) {
        double d = k - pitch, over = k - fmin(pitch * 1.45, 27.0);
        double h = 0.06 + 0.9 * loud * exp(-d * d / 2.2) + 0.35 * loud * exp(-over * over / 2.5);
        h += 0.16 * s->rattle * (k > 15) * (0.6 + 0.4 * sin(app_shown_s(app) * 9.0 + k * 2.4));
        h += 0.25 * s->leak_hiss * (k > 22) + 0.2 * s->creak * (k < 4);
        float x = floorf(in.x + (in.w - 6.0f) * (float)k / (TEETH - 1));
        float high = (float)fmin(h, 1.0) * tall, wide = k == at && loud > 0.05 ? 5.0f : 3.0f;
        ui_rect(ui, x, base - high, wide, high, k == at && loud > 0.05 ? t->ink : t->edge);
    }
    ui_rect(ui, in.x, base, in.w, 2.0f, t->ink);
    ui_label(ui, in.x, base + ui_px(ui, 17), 12, UI_REGULAR, t->ink2, UI_LEFT, _("low"));
    ui_label(ui, in.x + in.w, base + ui_px(ui, 17), 12, UI_REGULAR, t->ink2, UI_RIGHT, _("high"));
}

static void shake(App *app, GfxRect r)
{
    Ui *ui = &app->ui;
    const UiTheme *t = ui->theme;
    const PbSignals *s = &app->run.view->signals;
    const char *word = s->plugged             ? _("dead")
                       : s->hose_pulse > 0.6  ? _("slugging")
                       : s->hose_pulse > 0.15 ? _("lively")
                                              : _("calm");
    GfxRect in = plate(app, r, _("Hose shake"), word, 14);
    float mid = in.y + in.h * 0.5f, amp = fminf((float)s->hose_pulse * 16.0f, in.h * 0.4f);
    double phase = app_shown_s(app) * 6.2831853 * 1.6; /* at most 3 Hz on screen */
    for (int ghost = 3; ghost >= 0; ghost--) {
        UiPoint p[33];
        for (int i = 0; i <= 32; i++) {
            double u = i / 32.0, a = u * 11.0 + phase - ghost * 0.55;
            p[i] = (UiPoint){in.x + in.w * (float)u,
                             mid + amp * (float)(sin(a) * (0.6 + 0.4 * sin(u * 4.0 + ghost)))};
        }
        ui_polyline(ui, p, 33, ghost ? 2.0f : 5.0f, ghost ? t->edge : t->ink);
    }
}

void gauges_draw(App *app, GfxRect r)
{
    Ui *ui = &app->ui;
    float gap = ui_px(ui, 12);
    if (app->text_scale >= 1.7) { /* three share one place under the fan */
        const char *tabs[3] = {_("Flow"), _("Sound"), _("Hose")};
        GfxRect tab = {r.x, r.y, r.w, ui_px(ui, 34)};
        app->gauge_tab = ui_segments(ui, ID_GAUGES, tab, tabs, 3, app->gauge_tab);
        float y = r.y + ui_px(ui, 44), high = r.y + r.h - y - gap;
        fan(app, (GfxRect){r.x, y, r.w, high * 0.58f});
        GfxRect low = {r.x, y + high * 0.58f + gap, r.w, high * 0.42f};
        if (app->gauge_tab == 0) {
            flow(app, low);
        } else if (app->gauge_tab == 1) {
            sound(app, low);
        } else {
            shake(app, low);
        }
        return;
    }
    float high = r.h - 3 * gap;
    const float even[4] = {0.348f, 0.268f, 0.212f, 0.172f}, large[4] = {0.40f, 0.25f, 0.19f, 0.16f};
    const float *share = app->text_scale < 1.3 ? even : large;
    void (*const draw[4])(App *, GfxRect) = {fan, flow, sound, shake};
    float y = r.y;
    for (int i = 0; i < 4; i++) {
        float h = floorf(high * share[i]);
        draw[i](app, (GfxRect){r.x, y, r.w, i == 3 ? r.y + r.h - y : h});
        y += h + gap;
    }
}
