/* Flow and rattle in one instrument: bars for the air, specks over them for what is heard of the
 * fill, a standing comb for the pitch. A closed wall has no bars: a crew has no flow meter. Drawn
 * from what it is given and nothing of the run, as gauge_plates.c. */
#include "bay/gauge.h"

#include <SDL.h>
#include <math.h>

/* Values of the trace that have room as bars. */
static int shown(float wide)
{
    int n = (int)(wide / 2.5f);
    return n > GAUGE_TRACE ? GAUGE_TRACE : n < 10 ? 10 : n;
}

/* Grains heard in a fifth of a second, thrown over the bar; they go with it as it wanders. */
static void specks(Ui *ui, int number, float rattle, GfxRect over)
{
    const UiTheme *t = ui->theme;
    for (int k = 0; k < (int)(rattle * 1.6f + ui_scatter((uint32_t)number * 11u)); k++) {
        uint32_t seed = (uint32_t)number * 31u + (uint32_t)k * 7u;
        float a = 6.283f * ui_scatter(seed), l = ui_px(ui, 5);
        float x = over.x + (ui_scatter(seed + 1u) - 0.3f) * 3.0f * over.w;
        float y = over.y + over.h * ui_scatter(seed + 2u);
        ui_speck(ui, x, y, l * cosf(a), l * sinf(a), 1.8f, k & 1 ? t->ink2 : t->wood_ink);
    }
}

static void bars(const Gauge *g, const GaugeTrace *trace, GfxRect in)
{
    Ui *ui = g->ui;
    const UiTheme *t = ui->theme;
    int n = shown(in.w), first = GAUGE_TRACE - n;
    double top = fmax(trace->best_flow_m3_s, 1e-4);
    for (int i = first; i < GAUGE_TRACE; i++) {
        top = fmax(top, (double)trace->flow_m3_s[i]);
    }
    float w = in.w / (float)n, base = in.y + in.h, above = fminf(ui_px(ui, 34), in.h * 0.3f);
    float tall = in.h - above, y = base - 0.4f * in.h;
    UiPoint line[GAUGE_TRACE];
    for (int i = first; i < GAUGE_TRACE; i++) {
        float x = floorf(in.x + w * (float)(i - first)),
              next = floorf(in.x + w * (float)(i - first + 1));
        if (trace->flow != NULL) {
            y = base - (float)((double)trace->flow_m3_s[i] / top) * tall;
            int is_now = i == GAUGE_TRACE - 1;
            ui_rect(ui, is_now ? x - 1.0f : x, y, next - x - (is_now ? 0.0f : 1.0f), base - y,
                    is_now ? t->ink : t->rule);
        }
        line[i - first] = (UiPoint){x + (next - x) * 0.5f, y};
        specks(ui, trace->newest - (GAUGE_TRACE - 1 - i), trace->rattle[i],
               (GfxRect){x, y - above, next - x, above - 4.0f});
    }
    if (trace->flow != NULL) {
        ui_polyline(ui, line, n, 2.0f, t->ink);
    }
    ui_rect(ui, in.x, base, in.w, 1.0f, t->ink);
    if (trace->flow != NULL && trace->best_flow_m3_s > 1e-4) {
        float at = floorf(base - (float)(0.8 * trace->best_flow_m3_s / top) * tall);
        ui_dashes(ui, in.x, at, in.x + in.w, at, 2.0f, 6.0f, t->accent);
    }
}

/* What stands under the bars: how long ago, what the dashes are, now; as much as has room. */
static void foot(const Gauge *g, const GaugeTrace *trace, GfxRect in, float y)
{
    Ui *ui = g->ui;
    const UiTheme *t = ui->theme;
    char ago[48], figure[24];
    gauge_figure(g, figure, sizeof figure, 0, shown(in.w) * 0.2, "s");
    SDL_snprintf(ago, sizeof ago, _("%s ago"), figure);
    const char *dashes = /* xgettext:no-c-format */ _("80% of best"), *now = _("now");
    float gap = ui_px(ui, 10), from = in.x, to = in.x + in.w;
    float dashes_w = trace->flow != NULL ? ui_width(ui, 12, UI_REGULAR, dashes) : 0.0f;
    float now_w = ui_width(ui, 12, UI_REGULAR, now), ago_w = ui_width(ui, 12, UI_REGULAR, ago);
    if (dashes_w + now_w + gap <= to - from) {
        ui_label(ui, to, y, 12, UI_REGULAR, t->ink2, UI_RIGHT, now);
        to -= now_w + gap;
    }
    if (dashes_w + ago_w + gap <= to - from) {
        ui_label(ui, from, y, 12, UI_REGULAR, t->ink2, UI_LEFT, ago);
        from += ago_w + gap;
    }
    if (trace->flow != NULL && dashes_w <= to - from) {
        ui_label(ui, (from + to) * 0.5f, y, 12, UI_REGULAR, t->accent, UI_CENTRE, dashes);
    }
}

static void comb(const Gauge *g, GfxRect in)
{
    Ui *ui = g->ui;
    const UiTheme *t = ui->theme;
    double pitch, loud;
    (void)gauge_tooth(g, 0, &pitch, &loud);
    int at = (int)(pitch + 0.5);
    at = at < 0 ? 0 : at >= GAUGE_TEETH ? GAUGE_TEETH - 1 : at;
    float left = in.x + ui_px(ui, 12), wide = in.w - ui_px(ui, 12);
    float step = (in.h - ui_px(ui, 18)) / (float)(GAUGE_TEETH - 1), base = in.y + in.h - 2.0f;
    ui_rect(ui, left, in.y + ui_px(ui, 16), 2.0f, in.h - ui_px(ui, 16), t->ink);
    for (int k = 0; k < GAUGE_TEETH; k++) {
        int is_pitch = k == at && loud > 0.05;
        float long_px = (float)gauge_tooth(g, k, &pitch, &loud) * wide,
              thick = is_pitch ? 5.0f : fminf(3.0f, step - 1.0f);
        ui_rect(ui, left, floorf(base - step * (float)k - thick * 0.5f), long_px, thick,
                is_pitch ? t->ink : t->edge);
    }
    if (g->wax_pitch >= 0.0) {
        float y = base - step * (float)g->wax_pitch, k = ui_px(ui, 5);
        ui_polygon(ui,
                   (UiPoint[3]){{left - 2.0f, y},
                                {left - 2.0f - 1.6f * k, y + k},
                                {left - 2.0f - 1.6f * k, y - k}},
                   3, t->accent);
    }
    ui_label(ui, in.x + in.w, in.y + ui_px(ui, 10), 12, UI_REGULAR, t->ink2, UI_RIGHT, _("high"));
}

/* Title left, the flow beside it where there is room, what is heard at the right. */
static GfxRect head(const Gauge *g, const GaugeTrace *trace, GfxRect r)
{
    Ui *ui = g->ui;
    const UiTheme *t = ui->theme;
    const char *title = trace->flow != NULL ? _("Flow and rattle") : _("Rattle and pitch");
    const char *word = g->is_captioned ? gauge_rattle_word(g) : "";
    GfxRect in = gauge_plate(ui, r, title, word, 14);
    double size = ui_fit(ui, in.w, 14, UI_BOLD, title);
    float left = in.x + ui_width(ui, size, UI_BOLD, title) + ui_px(ui, 10),
          right = in.x + in.w - ui_width(ui, 14, UI_BOLD, word) - ui_px(ui, 10);
    if (trace->flow != NULL && left + ui_width(ui, 13, UI_REGULAR, trace->flow) <= right) {
        ui_label(ui, left, r.y + ui_px(ui, 22), 13, UI_REGULAR, t->ink2, UI_LEFT, trace->flow);
    }
    return in;
}

void gauge_flow_rattle(const Gauge *g, const GaugeTrace *trace, GfxRect r, int has_focus)
{
    Ui *ui = g->ui;
    const UiTheme *t = ui->theme;
    GfxRect in = head(g, trace, r);
    int has_comb = ui->scale < 1.31f || in.w > ui_px(ui, 330); /* large type: the word says it */
    float low = ui_px(ui, 18), comb_w = has_comb ? ui_px(ui, 62) : 0.0f;
    GfxRect plot = {in.x, in.y, in.w - comb_w - (has_comb ? ui_px(ui, 8) : 0.0f), in.h - low};
    bars(g, trace, plot);
    foot(g, trace, plot, r.y + r.h - ui_px(ui, 12));
    if (has_comb) {
        comb(g, (GfxRect){in.x + in.w - comb_w, in.y - ui_px(ui, 2), comb_w,
                          in.h - low + ui_px(ui, 2)});
        ui_label(ui, in.x + in.w - comb_w + ui_px(ui, 12), r.y + r.h - ui_px(ui, 12), 12,
                 UI_REGULAR, t->ink2, UI_LEFT, _("low"));
    }
    if (has_focus) {
        ui_focus_ring(ui, r, ui_px(ui, 10));
    }
}
