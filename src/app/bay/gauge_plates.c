/* Pressure fan, sound comb and hose shake. No zone is coloured: a gauge does not say when to pull.
 */
#include "bay/gauge.h"

#include "core/units.h"

#include <SDL.h>
#include <math.h>
#include <string.h>

const char *gauge_figure(const Gauge *g, char *out, size_t size, int decimals, double value,
                         const char *unit)
{
    io_figure(value, decimals, unit, g->reader, out, size);
    return out;
}

const char *gauge_length(const Gauge *g, char *out, size_t size, double m)
{
    io_unit_figure(IO_UNIT_LENGTH, m, g->reader, out, size);
    return out;
}

/* Title left and value right where one line is too short for both: the value goes in two lines when
 * it is of more than one word, else the title does. */
static void title_and_value(Ui *ui, GfxRect r, double size, const char *title, const char *value)
{
    GfxColor ink = ui->theme->ink;
    float in = ui_px(ui, 14), whole = r.w - 3 * in, high = ui_px(ui, 34);
    float right = strchr(value, ' ') != NULL ? whole - ui_width(ui, size, UI_BOLD, title)
                                             : ui_width(ui, UI_LEAST_PX, UI_BOLD, value);
    ui_words(ui, (GfxRect){r.x + in, r.y, whole - right + 1.0f, high}, size, UI_BOLD, ink, UI_LEFT,
             title);
    ui_words(ui, (GfxRect){r.x + r.w - in - right, r.y, right, high}, UI_LEAST_PX, UI_BOLD, ink,
             UI_RIGHT, value);
}

GfxRect gauge_plate(Ui *ui, GfxRect r, const char *title, const char *value, double value_size)
{
    float in = ui_px(ui, 14);
    ui_round(ui, r, ui_px(ui, 10), ui->theme->glass);
    ui_round_line(ui, r, ui_px(ui, 10), 1.0f, ui->theme->edge);
    float least = ui_width(ui, 9, UI_BOLD, value);
    double size = ui_fit(ui, r.w - 3 * in - least, 14, UI_BOLD, title);
    float room = r.w - 3 * in - ui_width(ui, size, UI_BOLD, title);
    if (ui_width(ui, UI_LEAST_PX, UI_BOLD, value) > room) {
        title_and_value(ui, r, size, title, value);
    } else {
        value_size = ui_fit(ui, room, value_size, UI_BOLD, value);
        ui_label(ui, r.x + in, r.y + ui_px(ui, 22), size, UI_BOLD, ui->theme->ink, UI_LEFT, title);
        ui_label(ui, r.x + r.w - in, r.y + ui_px(ui, 14 + value_size * 0.5), value_size, UI_BOLD,
                 ui->theme->ink, UI_RIGHT, value);
    }
    return (GfxRect){r.x + in, r.y + ui_px(ui, 34), r.w - 2 * in, r.h - ui_px(ui, 44)};
}

static const double fan_half = 1.25; /* radians: the arc is 143 degrees wide */

static double fan_angle(double share)
{
    share = share < 0.0 ? 0.0 : share > 1.04 ? 1.04 : share;
    return -1.5707963268 - fan_half + 2.0 * fan_half * share;
}

static void fan_ticks(const Gauge *g, float cx, float cy, float radius, double full, double major)
{
    Ui *ui = g->ui;
    const UiTheme *t = ui->theme;
    char text[24];
    double unit = g->reader.is_us ? PB_PA_PER_IN_WC : 1000.0;
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
                     UI_CENTRE, gauge_figure(g, text, sizeof text, 0, v / unit, ""));
        }
    }
}

static void fan_needle(const Gauge *g, float cx, float cy, float radius, double share)
{
    Ui *ui = g->ui;
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

static const char *pressure(const Gauge *g, char *out, size_t size, double pa)
{
    io_unit_figure(IO_UNIT_PRESSURE, pa, g->reader, out, size);
    return out;
}

void gauge_fan(const Gauge *g, GfxRect r, int has_focus)
{
    Ui *ui = g->ui;
    const UiTheme *t = ui->theme;
    double static_pa = g->plan.static_pa;
    double major = g->reader.is_us ? 20.0 * PB_PA_PER_IN_WC : 5000.0;
    double full = major * ceil(static_pa / major - 1e-6);
    char text[96], figure[32];
    GfxRect in = gauge_plate(g->ui, r, _("Pressure at blower"), "", 0);
    float foot = ui_px(ui, 37); /* the reading stands clear of the hub */
    float radius =
        fminf((in.w * 0.5f - ui_px(ui, 24)) / (float)sin(fan_half), in.h - foot - ui_px(ui, 20));
    radius = fmaxf(radius, 20.0f);
    float cx = in.x + in.w * 0.5f, cy = in.y + ui_px(ui, 24) + radius;
    ui_arc(ui, cx, cy, radius, fan_angle(0.0), fan_angle(1.0), 2.0f, t->ink);
    fan_ticks(g, cx, cy, radius, full, major);
    if (g->stop_max_pa - g->stop_min_pa > 50.0) { /* where the needle walked at this stop */
        ui_arc(ui, cx, cy, radius - ui_px(ui, 17), fan_angle(g->stop_min_pa / full),
               fan_angle(g->stop_max_pa / full), ui_px(ui, 7), ui_fade(t->accent, 0.4));
    }
    if (g->wax_pressure_pa >= 0.0) {
        double a = fan_angle(g->wax_pressure_pa / full);
        float c = (float)cos(a), s = (float)sin(a), far = radius + ui_px(ui, 14), k = ui_px(ui, 6);
        ui_polygon(ui,
                   (UiPoint[3]){{cx + (radius + 2) * c, cy + (radius + 2) * s},
                                {cx + far * c - k * s, cy + far * s + k * c},
                                {cx + far * c + k * s, cy + far * s - k * c}},
                   3, t->accent);
    }
    fan_needle(g, cx, cy, radius, g->needle_pa / full);
    float base = r.y + r.h - ui_px(ui, 14);
    SDL_snprintf(text, sizeof text, _("%s static (hose capped)"),
                 pressure(g, figure, sizeof figure, static_pa));
    float w = ui_label(ui, in.x + in.w, base, 22, UI_BOLD, t->ink, UI_RIGHT,
                       pressure(g, figure, sizeof figure, g->needle_pa));
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
    if (has_focus) {
        ui_focus_ring(ui, r, ui_px(ui, 10));
    }
}

double gauge_tooth(const Gauge *g, int k, double *pitch, double *loud)
{
    const PbSignals *s = g->signals;
    double static_pa = g->plan.static_pa;
    double strain = static_pa > 0.0 ? s->blower_pa / static_pa : 0.0;
    *pitch = gauge_pitch(s, static_pa);
    *loud = fmin(s->blower_speed, 1.0) * (0.55 + 0.45 * strain);
    double d = k - *pitch, over = k - fmin(*pitch * 1.45, 27.0);
    double h = 0.06 + 0.9 * *loud * exp(-d * d / 2.2) + 0.35 * *loud * exp(-over * over / 2.5);
    h += 0.16 * s->rattle * (k > 15) * (0.6 + 0.4 * sin(g->now_s * 9.0 + k * 2.4));
    h += 0.25 * s->leak_hiss * (k > 22) + 0.2 * s->creak * (k < 4);
    return fmin(h, 1.0);
}

void gauge_sound(const Gauge *g, GfxRect r, int has_focus)
{
    enum { TEETH = GAUGE_TEETH };
    Ui *ui = g->ui;
    const UiTheme *t = ui->theme;
    char words[96];
    double pitch, loud;
    (void)gauge_tooth(g, 0, &pitch, &loud);
    GfxRect in = gauge_plate(g->ui, r, _("Sound"),
                             g->is_captioned ? gauge_caption(g, words, sizeof words) : "", 14);
    float foot = ui_px(ui, 18), base = in.y + in.h - foot, tall = base - in.y - ui_px(ui, 2);
    int at = (int)(pitch + 0.5);
    at = at < 0 ? 0 : at >= TEETH ? TEETH - 1 : at;
    for (int k = 0; k < TEETH; k++) {
        float x = floorf(in.x + (in.w - 6.0f) * (float)k / (TEETH - 1));
        float high = (float)gauge_tooth(g, k, &pitch, &loud) * tall;
        float wide = k == at && loud > 0.05 ? 5.0f : 3.0f;
        ui_rect(ui, x, base - high, wide, high, k == at && loud > 0.05 ? t->ink : t->edge);
    }
    ui_rect(ui, in.x, base, in.w, 2.0f, t->ink);
    ui_label(ui, in.x, base + ui_px(ui, 17), 12, UI_REGULAR, t->ink2, UI_LEFT, _("low"));
    ui_label(ui, in.x + in.w, base + ui_px(ui, 17), 12, UI_REGULAR, t->ink2, UI_RIGHT, _("high"));
    if (g->wax_pitch >= 0.0) {
        float x = in.x + (in.w - 6.0f) * (float)(g->wax_pitch / (TEETH - 1)), k = ui_px(ui, 6);
        ui_polygon(ui,
                   (UiPoint[3]){{x, base + 3.0f},
                                {x + k, base + 3.0f + k * 1.5f},
                                {x - k, base + 3.0f + k * 1.5f}},
                   3, t->accent);
    }
    if (has_focus) {
        ui_focus_ring(ui, r, ui_px(ui, 10));
    }
}

void gauge_shake(const Gauge *g, GfxRect r, int has_focus)
{
    Ui *ui = g->ui;
    const UiTheme *t = ui->theme;
    const PbSignals *s = g->signals;
    const char *word = s->plugged             ? _("dead")
                       : s->hose_pulse > 0.6  ? _("slugging")
                       : s->hose_pulse > 0.15 ? _("lively")
                                              : _("calm");
    GfxRect in = gauge_plate(g->ui, r, _("Hose shake"), word, 14);
    float mid = in.y + in.h * 0.5f, amp = fminf((float)s->hose_pulse * 16.0f, in.h * 0.4f);
    double phase = g->now_s * 6.2831853 * 1.6; /* at most 3 Hz on screen */
    for (int ghost = 3; ghost >= 0; ghost--) {
        UiPoint p[33];
        for (int i = 0; i <= 32; i++) {
            double u = i / 32.0, a = u * 11.0 + phase - ghost * 0.55;
            p[i] = (UiPoint){in.x + in.w * (float)u,
                             mid + amp * (float)(sin(a) * (0.6 + 0.4 * sin(u * 4.0 + ghost)))};
        }
        ui_polyline(ui, p, 33, ghost ? 2.0f : 5.0f, ghost ? t->edge : t->ink);
    }
    if (g->wax_pulse >= 0.0) { /* how far it swung when the mark was made: two short strokes */
        float wax = fminf((float)g->wax_pulse * 16.0f, in.h * 0.4f), x = in.x + in.w + 3.0f;
        float k = ui_px(ui, 5);
        for (int side = -1; side <= 1; side += 2) {
            float y = mid + (float)side * fmaxf(wax, 2.0f);
            ui_polygon(ui, (UiPoint[3]){{x, y}, {x + 2 * k, y - k}, {x + 2 * k, y + k}}, 3,
                       t->accent);
        }
    }
    if (has_focus) {
        ui_focus_ring(ui, r, ui_px(ui, 10));
    }
}

/* A wheel that moves less air turns a little faster: the pitch climbs with the back pressure. */
double gauge_pitch(const PbSignals *s, double static_pa)
{
    double strain = static_pa > 0.0 ? s->blower_pa / static_pa : 0.0;
    return 6.0 + 14.0 * s->blower_speed * (0.6 + 0.4 * strain);
}

static const char *machine_word(const PbSignals *s, double strain)
{
    if (s->plugged) {
        return _("choked");
    }
    if (s->blower_speed < 0.05) {
        return _("silent");
    }
    if (!s->machine_on) {
        return _("running down");
    }
    return strain > 0.75 ? _("laboring") : strain > 0.5 ? _("pitch rising") : _("steady");
}

static const char *rattle_word(const PbSignals *s, const AudioCaption *c)
{
    return s->plugged                         ? _("clog")
           : c->machine == AUDIO_WORD_STALL   ? _("no rattle")
           : c->machine == AUDIO_WORD_SLOWING ? _("rattle thins")
           : c->machine == AUDIO_WORD_RATTLE  ? _("rattle")
                                              : "";
}

const char *gauge_rattle_word(const Gauge *g)
{
    AudioParams p = gauge_audio(g->signals, &g->plan, 1.0);
    AudioCaption c = audio_caption(&p);
    const char *word = rattle_word(g->signals, &c);
    double strain = g->plan.static_pa > 0.0 ? g->signals->blower_pa / g->plan.static_pa : 0.0;
    return word[0] != '\0' ? word : machine_word(g->signals, strain);
}

const char *gauge_caption(const Gauge *g, char *out, size_t size)
{
    const PbSignals *s = g->signals;
    AudioParams p = gauge_audio(s, &g->plan, 1.0);
    AudioCaption c = audio_caption(&p);
    double strain = g->plan.static_pa > 0.0 ? s->blower_pa / g->plan.static_pa : 0.0;
    const char *fill = rattle_word(s, &c); /* each cue of the ear has a word of its own */
    const char *wall = c.wall == AUDIO_WALL_POP     ? _("creak, pops")
                       : c.wall == AUDIO_WALL_CREAK ? _("creak")
                       : c.wall == AUDIO_WALL_HISS  ? _("hiss")
                                                    : "";
    SDL_snprintf(out, size, "%s%s%s%s%s", machine_word(s, strain), fill[0] ? " · " : "", fill,
                 wall[0] ? " · " : "", wall);
    return out;
}

AudioParams gauge_audio(const PbSignals *s, const SightPlan *plan, double volume)
{
    PbMachine plate = {.static_pa = plan->static_pa,
                       .open_flow_m3_s = plan->open_flow_m3_s,
                       .feed_max_kg_s = plan->feed_max_kg_s};
    return app_heard(s, &plate, volume);
}
