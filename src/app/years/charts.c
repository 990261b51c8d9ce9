/* Curves over the years on the square-root scale of the rail: top gap, effective R, heat flow. The
 * line is the run with the shipped constants; the band holds the middle eight tenths of the draws.
 */
#include "years/years.h"

#include "core/house.h"
#include "core/units.h"
#include "io/wall_words.h"

#include <math.h>

typedef enum Kind { GAP, RESISTANCE, HEAT } Kind;

typedef struct Chart {
    Kind kind;
    const char *name, *unit;
    const PbBand *band;
    double factor; /* to the unit shown */
} Chart;

static double value_of(const Years *y, Kind kind, int key)
{
    const YearsJob *job = y->shown;
    return kind == GAP          ? job->frames[key].report.top_gap_m
           : kind == RESISTANCE ? job->keys[key].r_m2k_w
                                : job->keys[key].heat_w * years_stretch(y);
}

/* From a value of the band to one in the weather of now. */
static double band_stretch(const Years *y, const Chart *c)
{
    return c->kind == HEAT ? years_stretch(y) : 1.0;
}

/* 1, 2, 2.5 or 5 times a power of ten that cuts the range into two or three. */
static double nice(double range)
{
    double power = 1.0;
    while (power * 10.0 <= range) {
        power *= 10.0;
    }
    while (power > range) {
        power *= 0.1;
    }
    double m = range / power;
    return power * (m > 7.5 ? 5.0 : m > 4.0 ? 2.5 : m > 2.0 ? 1.0 : 0.5);
}

static int ready_keys(const Years *y, Kind kind)
{
    YearsJob *job = y->shown;
    return SDL_AtomicGet(kind == GAP ? &job->frames_ready : &job->keys_ready);
}

static void ends(const Years *y, const Chart *c, int keys, double *low, double *high, double *step)
{
    double a = 1e30, b = -1e30, f = c->factor * band_stretch(y, c);
    for (int k = 0; k < keys; k++) {
        double v = value_of(y, c->kind, k) * c->factor;
        a = fmin(a, v);
        b = fmax(b, v);
    }
    for (int t = 0; y->band.draws > 0 && t < YEARS_BANDS; t++) {
        a = fmin(a, c->band[t].p10 * f);
        b = fmax(b, c->band[t].p90 * f);
    }
    if (c->kind == GAP) {
        a = 0.0;
        b = fmax(b, 0.02 * c->factor);
    }
    double spread = fmax(b - a, 0.25 * fabs(b));
    *step = nice(spread);
    *low = c->kind == GAP ? 0.0 : floor((a - 0.1 * spread) / *step) * *step;
    *low = fmax(*low, 0.0);
    *high = ceil((b + 0.02 * spread) / *step) * *step;
}

static void band_draw(const App *app, const Years *y, const Chart *c, GfxRect r, double low,
                      double high)
{
    Ui *ui = app->ui;
    double f = c->factor * band_stretch(y, c) / (high - low);
    double base = low / (high - low);
    UiPoint top[YEARS_BANDS], under[YEARS_BANDS];
    for (int t = 0; t < YEARS_BANDS; t++) {
        double root = rail_share(years_key_times[years_band_keys[t]]);
        float x = r.x + (float)root * r.w;
        top[t] = (UiPoint){x, r.y + r.h - (float)(c->band[t].p90 * f - base) * r.h};
        under[t] = (UiPoint){x, r.y + r.h - (float)(c->band[t].p10 * f - base) * r.h};
    }
    GfxColor wash = ui_fade(ui->theme->rule, 0.55);
    for (int t = 0; t + 1 < YEARS_BANDS; t++) {
        /* plain triangles: soft edges would show as seams between the pieces */
        UiPoint q[4] = {top[t], top[t + 1], under[t + 1], under[t]};
        ui_polygon(ui, q, 4, wash);
    }
    ui_polyline(ui, top, YEARS_BANDS, 1.0f, ui->theme->edge);
    ui_polyline(ui, under, YEARS_BANDS, 1.0f, ui->theme->edge);
}

static const char *figure(const App *app, const Chart *c, double v)
{
    return c->kind == GAP          ? years_fmt_gap(app, v, 0)
           : c->kind == RESISTANCE ? years_fmt_r(app, v)
                                   : years_fmt_w(app, v);
}

static void head_draw(const App *app, const Years *y, const Chart *c, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    double now = c->kind == GAP ? y->gap_m : c->kind == RESISTANCE ? y->r_m2k_w : y->heat_w;
    PbBand band;
    char text[64] = "";
    float base = r.y + ui_px(ui, 14), right = r.x + r.w;
    float name = ui_label(ui, r.x, base, 16, UI_BOLD, t->ink, UI_LEFT, c->name);
    if (c->kind != GAP && !y->has_heat) {
        return;
    }
    if (years_band_at(y, c->band, y->rail.years, &band)) {
        double f = band_stretch(y, c);
        years_fmt_range(figure(app, c, band.p10 * f), figure(app, c, band.p90 * f), "", text,
                        sizeof text);
    }
    float w = ui_label(ui, right, base, 18, UI_BOLD, t->ink, UI_RIGHT, figure(app, c, now));
    float range = text[0] ? ui_width(ui, 13, UI_REGULAR, text) + ui_px(ui, 10) : 0.0f;
    float unit = ui_width(ui, 12, UI_REGULAR, c->unit) + ui_px(ui, 8);
    int fits = name + unit + range + w + ui_px(ui, 14) < r.w;
    if (fits || name + range + w + ui_px(ui, 10) < r.w) {
        ui_label(ui, right - w - ui_px(ui, 10), base, 13, UI_REGULAR, t->ink2, UI_RIGHT, text);
    }
    if (fits) {
        ui_label(ui, r.x + name + ui_px(ui, 8), base, 12, UI_REGULAR, t->ink2, UI_LEFT, c->unit);
    }
}

static void axes(const App *app, GfxRect r, double low, double high, double step)
{
    static const double ticks[] = {1, 5, 10, 20, 30, 40, 50};
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    int decimals = step < 0.099 ? 2 : step < 0.99 || step == 2.5 ? 1 : 0;
    int every = (high - low) / step * (double)ui_px(ui, 16) > (double)r.h ? 2 : 1, k = 0;
    for (double v = low; v <= high + 1e-9 * high; v += step, k++) {
        float y = floorf(r.y + r.h - (float)((v - low) / (high - low)) * r.h);
        ui_rect(ui, r.x, y, r.w, 1.0f, v > low ? t->rule : t->ink);
        if (k % every == 0) {
            ui_label(ui, r.x - ui_px(ui, 7), y + ui_px(ui, 4), 12, UI_REGULAR, t->ink2, UI_RIGHT,
                     app_fmt(app, decimals, v, ""));
        }
    }
    for (size_t i = 0; i < sizeof ticks / sizeof ticks[0]; i++) {
        float x = floorf(r.x + (float)rail_share(ticks[i]) * r.w);
        ui_rect(ui, x, r.y + r.h, 1.0f, 5.0f, t->ink);
        ui_label(ui, x, r.y + r.h + ui_px(ui, 17), 12, UI_REGULAR, t->ink2, UI_CENTRE,
                 app_fmt(app, 0, ticks[i], ""));
    }
}

static void chart(const App *app, const Years *y, const Chart *c, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    UiPoint line[YEARS_KEYS];
    double low, high, step;
    int keys = ready_keys(y, c->kind);
    GfxRect plot = {r.x + ui_px(ui, 38), r.y + ui_px(ui, 26), r.w - ui_px(ui, 48),
                    r.h - ui_px(ui, 54)};
    head_draw(app, y, c, r);
    if (keys == 0) {
        return;
    }
    ends(y, c, keys, &low, &high, &step);
    if (y->band.draws > 0) {
        band_draw(app, y, c, plot, low, high);
    }
    axes(app, plot, low, high, step);
    for (int k = 0; k < keys; k++) {
        double v = value_of(y, c->kind, k) * c->factor;
        line[k] = (UiPoint){plot.x + (float)rail_share(years_key_times[k]) * plot.w,
                            plot.y + plot.h - (float)((v - low) / (high - low)) * plot.h};
    }
    if (keys > 1) {
        ui_polyline(ui, line, keys, 2.0f, t->ink);
    }
    float x = plot.x + (float)rail_share(y->rail.years) * plot.w;
    ui_dashes(ui, x, plot.y, x, plot.y + plot.h, 2.0f, 3.0f, t->accent);
    double now = c->kind == GAP ? y->gap_m : c->kind == RESISTANCE ? y->r_m2k_w : y->heat_w;
    if (c->kind == GAP || y->has_heat) {
        float cy = plot.y + plot.h - (float)((now * c->factor - low) / (high - low)) * plot.h;
        ui_circle(ui, x, cy, 7.0f, t->sheet);
        ui_circle(ui, x, cy, 5.0f, t->accent);
    }
}

/* Which wall R is of: the same as in Side by side, but that no house has told its framing. */
static void wall_line(const App *app, GfxRect r, float base)
{
    Ui *ui = app->ui;
    char wall[200], text[260];
    io_wall_words(&app->run.config.exercise.wall, app_reader(app).language, wall, sizeof wall);
    SDL_snprintf(text, sizeof text, _("%s; %s framing"), wall,
                 app_fmt(app, 0, 100.0 * pb_house_default().framing_share, "%"));
    ui_label(ui, r.x, base, ui_fit(ui, r.w, 12, UI_REGULAR, text), UI_REGULAR, ui->theme->ink2,
             UI_LEFT, text);
}

void years_charts_draw(const App *app, const Years *y, GfxRect r)
{
    Ui *ui = app->ui;
    int us = app->taste.is_us;
    float line = ui_px(ui, 18), note = 2.0f * line, gap = ui_px(ui, 6),
          h = (r.h - note - 2.0f * gap) / 3.0f;
    const Chart charts[3] = {
        {GAP, _("Top gap"), app_unit(app, IO_UNIT_SMALL), y->band.gap,
         us ? 1.0 / PB_M_PER_IN : 1000.0},
        {RESISTANCE, _("R of the wall"), us ? _("h·ft²·°F/Btu") : "m²K/W", y->band.r,
         us ? 1.0 / PB_M2K_W_PER_R : 1.0},
        {HEAT, _("Heat flow"), us ? "Btu/h" : "W", y->band.heat, us ? 1.0 / PB_W_PER_BTU_H : 1.0}};
    for (int i = 0; i < 3; i++) {
        chart(app, y, &charts[i], (GfxRect){r.x, r.y + (float)i * (h + gap), r.w, h});
    }
    char text[160];
    int is_of_before = years_is_of_before(y);
    if (is_of_before) {
        SDL_snprintf(text, sizeof text, "%s", _("still for the humidity before"));
    } else if (y->band.draws > 0) {
        SDL_snprintf(text, sizeof text,
                     _("shaded: 8 of 10 results, %d trials over what we do not know exactly"),
                     y->band.draws);
    } else {
        SDL_snprintf(text, sizeof text, "%s", _("line: usual values; the band comes next"));
    }
    double size = ui_fit(ui, r.w, 12, UI_REGULAR, text);
    float base = r.y + r.h - ui_px(ui, 3);
    ui_label(ui, r.x, base - line, size, UI_REGULAR,
             is_of_before ? ui->theme->ink : ui->theme->ink2, UI_LEFT, text);
    wall_line(app, r, base);
}
