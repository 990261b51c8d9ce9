/* The right column: pressure fan, flow tape, sound comb, hose shake. Each stands for something a
 * crew hears or feels; flow is a trainer's gauge and goes when the wall is closed. */
#include "bay/bay.h"

#include <math.h>
#include <string.h>

/* Thirty seconds of flow in bars of half a second. */
static void flow(const App *app, const Gauge *g, GfxRect r)
{
    (void)g;
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
}

static void fan(const App *app, const Gauge *g, GfxRect r)
{
    gauge_fan(g, r, ui_focusable(app->ui, ID_FAN));
}

static void sound(const App *app, const Gauge *g, GfxRect r)
{
    gauge_sound(g, r, ui_focusable(app->ui, ID_COMB));
}

static void shake(const App *app, const Gauge *g, GfxRect r)
{
    gauge_shake(g, r, ui_focusable(app->ui, ID_SHAKE));
}

/* From top to bottom. Heights are weights: they need not add up to anything. */
typedef struct GaugeRow {
    const char *mark; /* its place on the screen, for scripts and the guide */
    void (*draw)(const App *app, const Gauge *g, GfxRect r);
    int even, large, closed; /* height: small text, large text, closed wall (0 = not there) */
    const char *tab;         /* where three share one place; NULL = it keeps its own on top */
} GaugeRow;

static const GaugeRow rows[] = {
    {"fan", fan, 348, 400, 44, NULL},
    {"flow", flow, 268, 250, 0, N_("Air flow")}, /* a trainer's gauge: a crew has none */
    {"comb", sound, 212, 190, 31, N_("Sound")},
    {"shake", shake, 172, 160, 25, N_("Hose")},
};
enum { ROWS = sizeof rows / sizeof rows[0] };

static void draw_row(const App *app, const Gauge *g, const GaugeRow *row, GfxRect r)
{
    row->draw(app, g, r);
    app_mark(app, row->mark, r);
}

static void draw_column(const App *app, const Gauge *g, GfxRect r)
{
    int weight[ROWS], sum = 0, count = 0, last = 0;
    for (int i = 0; i < ROWS; i++) {
        weight[i] = app->task.sight == SIGHT_CLOSED ? rows[i].closed
                    : app->laid->text_scale < 1.3   ? rows[i].even
                                                    : rows[i].large;
        sum += weight[i];
        count += weight[i] > 0;
        last = weight[i] > 0 ? i : last;
    }
    float gap = ui_px(app->ui, 12), high = r.h - (float)(count - 1) * gap, y = r.y;
    for (int i = 0; i < ROWS; i++) {
        if (weight[i] > 0) {
            float h = i == last ? r.y + r.h - y : floorf(high * (float)weight[i] / (float)sum);
            draw_row(app, g, &rows[i], (GfxRect){r.x, y, r.w, h});
            y += h + gap;
        }
    }
}

/* Little room: those with a tab share one place under the rest. */
static void draw_tabs(const App *app, const Gauge *g, GfxRect r)
{
    Ui *ui = app->ui;
    const GaugeRow *tabbed[ROWS];
    const char *names[ROWS];
    int count = 0;
    float gap = ui_px(ui, 12);
    GfxRect tab = {r.x, r.y, r.w, ui_px(ui, 34)};
    for (int i = 0; i < ROWS; i++) {
        if (rows[i].tab != NULL) {
            names[count] = _(rows[i].tab);
            tabbed[count++] = &rows[i];
        }
    }
    ui_segments(ui, ID_GAUGES, tab, names, count, app->bay->gauge_tab);
    app_mark(app, "gauges", tab);
    float y = r.y + ui_px(ui, 44), high = r.y + r.h - y - gap;
    draw_row(app, g, &rows[0], (GfxRect){r.x, y, r.w, high * 0.58f});
    draw_row(app, g, tabbed[app->bay->gauge_tab],
             (GfxRect){r.x, y + high * 0.58f + gap, r.w, high * 0.42f});
}

void gauges_draw(const App *app, GfxRect r)
{
    Gauge g = sight_gauge(app);
    int is_closed = app->task.sight == SIGHT_CLOSED;
    if (!is_closed && (app->laid->text_scale >= 1.7 || r.h < ui_px(app->ui, 380))) {
        draw_tabs(app, &g, r);
    } else {
        draw_column(app, &g, r);
    }
}
