/* Under the travel, on the same time scale: strips of pressure, flow and feed, the events, the line
 * of "now" through all of them, and what moves it. */
#include "debrief/debrief.h"

#include "picture/strip.h"

#include "io/score_words.h"

#include <math.h>

const double debrief_speeds[DEBRIEF_SPEEDS] = {0.25, 0.5, 1.0, 2.0, 4.0, 8.0, 16.0};

/* One scale for both runs. */
static double top_of(const Debrief *d, PicSignal signal)
{
    double top = 1e-9;
    for (int i = 0; i < DEBRIEF_RUNS; i++) {
        const DebriefRun *r = &d->runs[i];
        top = r->is_open ? fmax(top, pic_signal_top(&r->watched, signal)) : top;
    }
    return top * 1.06;
}

static const char *reading(const App *app, PicSignal signal, const PbSample *s)
{
    double v = pic_signal(s, signal);
    return signal == PIC_PRESSURE ? app_fmt_pressure(app, v)
           : signal == PIC_FLOW   ? app_fmt_flow(app, v)
                                  : app_fmt_feed(app, v);
}

static void strip(const App *app, GfxRect area, PicSignal signal)
{
    const Debrief *d = app->debrief;
    const PbWatched *run = &d->runs[0].watched, *mate = &d->runs[1].watched;
    GfxShapes shapes = {0};
    PicGround ground = app_ground(app);
    PicStrip s = {area,   debrief_span(d), top_of(d, signal),
                  signal, mate->samples,   mate->sample_count};
    pic_strip_ground(&shapes, &ground, &s);
    if (d->runs[1].is_open) {
        pic_strip_curve(&shapes, &ground, &s, 1);
    }
    s.samples = run->samples;
    s.sample_count = run->sample_count;
    pic_strip_curve(&shapes, &ground, &s, 0);
    app_paint(app, &shapes);
}

static int is_bad(PbEventKind k)
{
    return k == PB_EVENT_PLUG || k == PB_EVENT_BLOW_OUT || k == PB_EVENT_FEED_OUTSIDE ||
           k == PB_EVENT_BLOW_BACK || k == PB_EVENT_RUNAWAY || k == PB_EVENT_BOW_HALF ||
           k == PB_EVENT_CREAK;
}

/* A tick for a stall or a pick-up, a triangle for what costs; the last one before now in words. */
static void events(const App *app, GfxRect r, float names_x)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Debrief *d = app->debrief;
    const PbScoreWatch *w = &d->runs[0].watched.watch;
    float mid = r.y + r.h * 0.5f, s = ui_px(ui, 6);
    const char *last = "";
    double when = -1.0;
    ui_rect(ui, r.x, floorf(mid), r.w, 1.0f, t->rule);
    for (int i = 0; i < w->event_count; i++) {
        const PbEvent *e = &w->events[i];
        float x = debrief_x(app, e->tick * PB_TICK_S);
        const char *words = io_event_words(e->kind, app->taste.lang);
        if (words[0] == '\0') {
            continue;
        }
        if (is_bad(e->kind)) {
            ui_polygon(ui,
                       (UiPoint[3]){{x, mid - s}, {x + s, mid + s * 0.7f}, {x - s, mid + s * 0.7f}},
                       3, t->danger);
        } else {
            ui_rect(ui, floorf(x) - 1.0f, mid - s * 0.8f, 2.0f, s * 1.6f, t->ink2);
        }
        if (e->tick * PB_TICK_S <= d->at_s + 0.05) {
            last = words;
            when = e->tick * PB_TICK_S;
        }
    }
    ui_label(ui, names_x, mid + ui_px(ui, 5), 13, UI_BOLD, t->ink, UI_LEFT, _("Events"));
    if (when >= 0.0) {
        char text[160];
        SDL_snprintf(text, sizeof text, "%s  %s", app_fmt_clock(app, when), last);
        GfxRect at = {r.x, r.y + r.h - ui_px(ui, 7), r.w, ui_px(ui, 26)};
        ui_words(ui, at, 12, UI_REGULAR, t->ink2, UI_LEFT, text);
    }
    app_mark(app, "events", r);
}

void debrief_strips_draw(const App *app, GfxRect r, float names_x)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Debrief *d = app->debrief;
    const char *names[PIC_SIGNALS] = {_("Pressure"), _("Air flow"), _("Feed")};
    const PbSample *now = pb_watched_sample(&d->runs[0].watched, d->at_s);
    float event_h = ui_px(ui, 34), gap = ui_px(ui, 5);
    int fit = (int)((r.h - event_h) / ui_px(ui, 33)), shown = fit < 1             ? 1
                                                              : fit > PIC_SIGNALS ? PIC_SIGNALS
                                                                                  : fit;
    float high = floorf((r.h - event_h) / (float)shown - gap);
    for (int k = 0; k < shown; k++) {
        GfxRect s = {r.x, r.y + (float)k * (high + gap), r.w, high};
        strip(app, s, (PicSignal)k);
        float mid = s.y + s.h * 0.5f;
        ui_label(ui, names_x, mid - ui_px(ui, 3), 13, UI_BOLD, t->ink, UI_LEFT, names[k]);
        ui_label(ui, names_x, mid + ui_px(ui, 13), 13, UI_REGULAR, t->ink2, UI_LEFT,
                 reading(app, (PicSignal)k, now));
    }
    events(app, (GfxRect){r.x, r.y + r.h - event_h, r.w, ui_px(ui, 18)}, names_x);
    app_mark(app, "strips", r);
}

static void scale(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    double span = debrief_span(app->debrief);
    double step = span > 480.0 ? 120.0 : span > 200.0 ? 60.0 : span > 80.0 ? 20.0 : 10.0;
    float last = -1e9f, wide = ui_width(ui, 12, UI_REGULAR, "00:00") + ui_px(ui, 10);
    for (int k = 0; k * step <= span; k++) {
        float x = floorf(debrief_x(app, k * step));
        ui_rect(ui, x, r.y, 1.0f, 5.0f, ui->theme->ink);
        if (x - last > wide && x + wide * 0.4f < ui->width) {
            ui_label(ui, x, r.y + ui_px(ui, 17), 12, UI_REGULAR, ui->theme->ink2, UI_CENTRE,
                     app_fmt_clock(app, k * step));
            last = x;
        }
    }
}

static float clock_width(Ui *ui)
{
    return ui_width(ui, 18, UI_BOLD, "00:00") + ui_px(ui, 10);
}

float debrief_play_width(const App *app)
{
    Ui *ui = app->ui;
    float play = ui_width(ui, 14, UI_BOLD, _("Play")),
          pause = ui_width(ui, 14, UI_BOLD, _("Pause"));
    return fmaxf(fmaxf(play, pause) + ui_px(ui, 12), ui_px(ui, 56)) + clock_width(ui) -
           ui_px(ui, 4);
}

/* Play and the clock left of the time line, scrub under it, speeds at the right of the row below.
 */
void debrief_transport_draw(const App *app, GfxRect r, float chart_x)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Debrief *d = app->debrief;
    float high = ui_px(ui, 32), base = r.y + ui_px(ui, 23);
    float clock_w = clock_width(ui);
    GfxRect play = {r.x, r.y, fmaxf(chart_x - r.x - clock_w - ui_px(ui, 8), ui_px(ui, 56)), high};
    ui_button(ui, ID_D_PLAY, play, d->is_playing ? _("Pause") : _("Play"), 0, 0);
    app_mark(app, "play", play);
    ui_label(ui, chart_x - ui_px(ui, 12), base, 18, UI_BOLD, t->ink, UI_RIGHT,
             app_fmt_clock(app, d->at_s));
    GfxRect scrub = {d->laid->chart.x, r.y, d->laid->chart.w, high};
    double v = d->at_s / debrief_span(d);
    ui_slider(ui, ID_D_SCRUB, scrub, v, 1.0 / debrief_span(d), -1.0);
    app_mark(app, "scrub", scrub);
    scale(app, (GfxRect){d->laid->chart.x, r.y + high - 2.0f, d->laid->chart.w, 0.0f});
    float y = r.y + high + ui_px(ui, 32), bw = ui_px(ui, 34);
    GfxRect slow = {r.x + r.w - bw * 2 - ui_px(ui, 66), y, bw, ui_px(ui, 30)};
    GfxRect fast = {r.x + r.w - bw, y, bw, ui_px(ui, 30)};
    ui_button(ui, ID_D_SLOWER, slow, "–", 0, d->speed == 0);
    ui_button(ui, ID_D_FASTER, fast, "+", 0, d->speed == DEBRIEF_SPEEDS - 1);
    app_mark(app, "slower", slow);
    app_mark(app, "faster", fast);
    double s = debrief_speeds[d->speed];
    char text[32];
    SDL_snprintf(text, sizeof text, "%s x", app_fmt(app, s < 0.4 ? 2 : s < 1.0 ? 1 : 0, s, ""));
    ui_label(ui, (slow.x + slow.w + fast.x) * 0.5f, y + ui_px(ui, 20), 14, UI_BOLD, t->ink,
             UI_CENTRE, text);
}

void debrief_chart_drag(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const Debrief *d = app->debrief;
    if (ui_over(ui, r) && ui->in.pressed && ui->active == 0 && ui->modal == 0) {
        ui->active = ID_D_CHART;
    }
    if (!ui_is_dragged(ui, ID_D_CHART)) {
        return;
    }
    double to = (double)((ui->in.mouse_x - d->laid->chart.x) / d->laid->chart.w);
    to = fmin(fmax(to, 0.0), 1.0);
    if (d->is_playing || to * debrief_span(d) != d->at_s) { /* held still it answers once */
        ui_answer(ui, ID_D_CHART, to);
    }
}

void debrief_play(App *app)
{
    Debrief *d = app->debrief;
    if (!d->is_playing && d->at_s >= debrief_span(d) - 0.05) {
        d->at_s = 0.0;
    }
    d->is_playing = !d->is_playing;
}

void debrief_time_answer(App *app)
{
    const Ui *ui = app->ui;
    Debrief *d = app->debrief;
    double to;
    if (ui_answered(ui, ID_D_PLAY, NULL)) {
        debrief_play(app);
    }
    if (ui_answered(ui, ID_D_SCRUB, &to) || ui_answered(ui, ID_D_CHART, &to)) {
        d->is_playing = 0;
        debrief_go(app, to * debrief_span(d));
    }
    d->speed -= ui_answered(ui, ID_D_SLOWER, NULL) && d->speed > 0;
    d->speed += ui_answered(ui, ID_D_FASTER, NULL) && d->speed < DEBRIEF_SPEEDS - 1;
}
