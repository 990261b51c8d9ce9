/* The bay at a glance: one sentence, the whole bay as a slim staff, a metre of it large, the dial,
 * flow and rattle, and what hands do most. Everything else is one key away (full.c). Large type
 * gives up the staff first, then the comb; what still has no room makes the page longer. */
#include "bay/bay.h"

#include <math.h>
#include <stdio.h>

static const double view_m = 1.10;  /* of the bay that the large view shows */
static const double ahead_m = 0.35; /* of it beyond the mouth, where fill arrives */
static const double glide_s = 0.12; /* of the view, when a pull has ended */

typedef struct Places {
    GfxRect line, staff, view, column;
} Places;

static double lerp(double a, double b, double t)
{
    return a + (b - a) * t;
}

/* Between the sizes that were drawn: 1024, 1280 and 1920 wide. */
static double between(double wide, double at_1024, double at_1280, double at_1920)
{
    return wide < 1280.0 ? lerp(at_1024, at_1280, fmax((wide - 1024.0) / 256.0, -0.5))
                         : lerp(at_1280, at_1920, fmin((wide - 1280.0) / 640.0, 1.0));
}

static int has_staff(const App *app)
{
    return app->task.sight != SIGHT_CLOSED && app->laid->text_scale < 1.31;
}

static Places places(const App *app, float line_high)
{
    Ui *ui = app->ui;
    double d = app->win.display_scale, T = app->laid->text_scale;
    double wide = app->win.width / d;
    float W = ui->width, H = ui->height, gap = ui_px(ui, 10);
    Places p = {.line = {16.0f, app_band_height(app) + gap, W - 32.0f, line_high}};
    float top = p.line.y + line_high + gap, high = H - top - 16.0f;
    float column = (float)(between(wide, 288, 356, 440) * (1.0 + 0.48 * (T - 1.0)) * d);
    /* A window that is pulled to next to nothing has hands in it all the same. */
    column = fmaxf(fminf(column, 0.5f * (W - 48.0f)), ui_px(ui, 160));
    p.column = (GfxRect){W - 16.0f - column, top, column, high};
    float left = 16.0f;
    if (has_staff(app)) {
        float staff = (float)(between(wide, 186, 196, 246) * d) + 8.0f;
        staff = fmaxf(staff, glance_staff_width(app) + 0.07f * high);
        p.staff = (GfxRect){left, top, staff - 8.0f, high};
        left += staff;
    }
    /* On a page that is longer than the window the wall stays whole in sight. */
    float in_sight = fmaxf(app->laid->page->high - top - 16.0f, ui_px(ui, 160));
    p.view = (GfxRect){left, top, fmaxf(p.column.x - 16.0f - left, 1.0f),
                       app->task.sight == SIGHT_CLOSED ? high : fminf(high, in_sight)};
    p.staff.h = p.view.h;
    return p;
}

/* ---- the sentence ---- */

typedef struct Line {
    char title[200], text[200];
    GfxColor ground, edge, bar, head, words;
} Line;

static void notice_line(Line *l, const AppNotice *n, const UiTheme *t)
{
    snprintf(l->title, sizeof l->title, "%s", n->title);
    snprintf(l->text, sizeof l->text, "%s", n->text);
    l->ground = n->is_danger ? t->danger : t->warn_wash;
    l->edge = l->bar = n->is_danger ? t->danger : t->warn;
    l->head = n->is_danger ? t->white : t->warn;
    l->words = n->is_danger ? t->white : t->ink;
}

/* What has happened is told first, then what can hurt, then what was just refused or done, then
 * what to do. What lasts is told by the voice where it may speak. */
static Line line_now(const App *app)
{
    const UiTheme *t = app->ui->theme;
    const AppNotice *n = &app->say.notice;
    PbSaid said = app->bay->said;
    int is_on = app->program.now_s < n->until_s && !app->guiding.guide.is_on;
    int speaks = coach_speaks(app) && said.say != PB_SAY_NOTHING,
        is_harm = said.say <= PB_SAY_BLEEDING;
    int is_told = is_on && !(speaks && (app->say.is_hint || app->say.stands));
    Line l = {"", "", t->sheet, t->edge, t->edge, t->ink, t->ink};
    if (app->bay->quick.is_on && !is_harm) {
        snprintf(l.title, sizeof l.title, "%s", _("6 times as fast"));
        snprintf(l.text, sizeof l.text, "%s", _("Until the needle moves, or your hands do."));
        l.bar = t->accent;
        return l;
    }
    if (is_told && (n->is_danger || !speaks || !is_harm)) {
        notice_line(&l, n, t);
    } else if (speaks && coach_words(app, said, l.title, l.text, sizeof l.title)) {
        l.bar = is_harm ? t->warn : t->accent;
        l.ground = is_harm ? t->warn_wash : l.ground;
        l.edge = is_harm ? t->warn : l.edge;
        l.head = is_harm ? t->warn : l.head;
    }
    return l;
}

static const char *quicker_words(const App *app)
{
    char *out = app_figure_room(app);
    SDL_snprintf(out, 64, "%s %s", app->bay->quick.is_on ? _("As it is") : _("Quicker"),
                 hands_cap(app, KEY_QUICKER));
    return out;
}

static float cautions_width(const App *app)
{
    return ui_width(app->ui, 13, UI_BOLD, _("Cautions F1")) + ui_px(app->ui, 24);
}

/* While the long first stop may be hurried. */
static float quicker_width(const App *app)
{
    return quick_may(app) ? ui_width(app->ui, 13, UI_BOLD, quicker_words(app)) +
                                ui_px(app->ui, 24) + ui_px(app->ui, 6)
                          : 0.0f;
}

/* Title and text on one line where they fit, else under each other; not drawn, it is measured. */
static float line_words(const App *app, const Line *l, GfxRect r, int is_drawn)
{
    Ui *ui = app->ui;
    GfxColor none = {0, 0, 0, 0}, head = is_drawn ? l->head : none,
             words = is_drawn ? l->words : none;
    float gap = ui_px(ui, 12), least = ui_px(ui, 36);
    float title_w = ui_width(ui, 16, UI_BOLD, l->title),
          text_w = ui_width(ui, 14, UI_REGULAR, l->text);
    if (title_w + gap + text_w <= r.w) {
        float base = r.y + least * 0.5f + ui_px(ui, 6);
        if (is_drawn) {
            float x = r.x + ui_label(ui, r.x, base, 16, UI_BOLD, head, UI_LEFT, l->title) + gap;
            ui_label(ui, x, base, 14, UI_REGULAR, words, UI_LEFT, l->text);
        }
        return least;
    }
    float y = r.y + ui_px(ui, 22);
    y += ui_paragraph(ui, r.x, y, r.w, 16, UI_BOLD, head, l->title);
    if (l->text[0] != '\0') {
        y += ui_paragraph(ui, r.x, y, r.w, 14, UI_REGULAR, words, l->text);
    }
    return y - r.y - ui_px(ui, 8);
}

static GfxRect line_inside(const App *app, GfxRect r)
{
    float in = ui_px(app->ui, 16);
    return (GfxRect){r.x + in, r.y, r.w - 2.0f * in - cautions_width(app) - quicker_width(app),
                     r.h};
}

static void line_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    Line l = line_now(app);
    ui_round(ui, r, ui_px(ui, 4), l.ground);
    ui_round_line(ui, r, ui_px(ui, 4), 1.0f, l.edge);
    ui_rect(ui, r.x, r.y, 6.0f, r.h, l.bar);
    line_words(app, &l, line_inside(app, r), 1);
    float w = cautions_width(app), high = ui_px(ui, 28);
    GfxRect b = {r.x + r.w - w - ui_px(ui, 5), r.y + (r.h - high) * 0.5f, w, high};
    ui_button(ui, ID_CAUTIONS, b, _("Cautions F1"), 0, 0);
    app_mark(app, "cautions", b);
    if (quick_may(app)) {
        float wide = quicker_width(app) - ui_px(ui, 6);
        b = (GfxRect){b.x - ui_px(ui, 6) - wide, b.y, wide, high};
        ui_button(ui, ID_QUICKER, b, quicker_words(app), 0, 0);
        app_mark(app, "quicker", b);
    }
    if (l.title[0] != '\0') {
        app_mark(app, "notice", r);
    }
}

/* ---- the instruments ---- */

static GaugeTrace trace_of(const App *app)
{
    const PbWatched *w = &app->run.watched;
    const SightMemory *m = &app->bay->memory;
    GaugeTrace t = {.rattle = m->rattle, .newest = m->heard};
    int has_flow = app->task.sight != SIGHT_CLOSED;
    for (int i = 0; i < GAUGE_TRACE && has_flow; i++) {
        int k = w->sample_count - GAUGE_TRACE + i;
        t.flow_m3_s[i] = k >= 0 ? w->samples[k].flow_m3_s : 0.0f;
    }
    if (has_flow) {
        t.flow = app_fmt_flow(app, app->run.view->signals.flow_m3_s);
        t.best_flow_m3_s = app->run.view->best_flow_m3_s;
        t.flow_m3_s[GAUGE_TRACE - 1] = (float)app->run.view->signals.flow_m3_s;
    }
    return t;
}

static void fan(const App *app, const Gauge *g, GfxRect r)
{
    gauge_fan(g, r, ui_focusable(app->ui, ID_FAN));
    app_mark(app, "fan", r);
}

static void flow(const App *app, const Gauge *g, GfxRect r)
{
    GaugeTrace trace = trace_of(app);
    gauge_flow_rattle(g, &trace, r, ui_focusable(app->ui, ID_COMB));
    app_mark(app, "flow", r);
    app_mark(app, "comb", r);
}

/* Dial and flow share the height as 55 to 45; where that is too little they take turns. */
static void instruments(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    Gauge g = sight_gauge(app);
    float gap = ui_px(ui, 12), least = ui_px(ui, 132), tab = ui_px(ui, 34);
    if (r.h >= 2.0f * least + gap) {
        float high = floorf((r.h - gap) * 0.55f);
        fan(app, &g, (GfxRect){r.x, r.y, r.w, high});
        flow(app, &g, (GfxRect){r.x, r.y + high + gap, r.w, r.h - high - gap});
        return;
    }
    const char *names[2] = {_("Pressure"), _("Rattle")};
    GfxRect tabs = {r.x, r.y, r.w, tab}, one = {r.x, r.y + tab + gap, r.w, r.h - tab - gap};
    ui_segments(ui, ID_GAUGES, tabs, names, 2, app->bay->gauge_tab > 0);
    app_mark(app, "gauges", tabs);
    page_needs(app, fmaxf(least - one.h, 0.0f));
    one.h = fmaxf(one.h, least);
    if (app->bay->gauge_tab > 0) {
        flow(app, &g, one);
    } else {
        fan(app, &g, one);
    }
}

static void column_draw(const App *app, GfxRect r)
{
    float hands = glance_hands_high(app, r.w), gap = ui_px(app->ui, 12);
    instruments(app, (GfxRect){r.x, r.y, r.w, r.h - hands - gap});
    glance_hands_draw(app, (GfxRect){r.x, r.y + r.h - hands, r.w, hands});
}

/* ---- the large view ---- */

static double low_within(const App *app, double low_m)
{
    double under = 0.06, over = 0.12; /* of wood under and over the bay */
    return fmax(-under, fmin(low_m, app->run.config.exercise.height_m + over - view_m));
}

/* Where the view should stand for a mouth at this height: it shows more of where fill arrives. */
static double low_for(const App *app, double mouth_m)
{
    int is_up = app->run.view->signals.direction > 0;
    return low_within(app, mouth_m - (is_up ? view_m - ahead_m : ahead_m));
}

/* It follows when a pull has ended; a mouth that would leave it takes it along before. */
static double low_wanted(const App *app)
{
    double hole_m = run_hole(&app->run)->y_m;
    if (broke_is_on(app)) {
        return low_within(app, app->run.blow_out_y_m - 0.6 * view_m);
    }
    if (clog_step(app) > 0) { /* eyes and hands are at the hose */
        return low_within(app, hole_m - 0.8 * view_m);
    }
    double out = app->run.view->signals.direction * (app->bay->memory.rest_m), margin = 0.12;
    double low = low_for(app, hole_m + (app->bay->memory.is_started ? out : 0.0));
    double mouth = run_mouth_y(&app->run);
    if (mouth < low + margin || mouth > low + view_m - margin) {
        low = low_for(app, mouth);
    }
    return low;
}

void glance_frame(App *app, double dt_s)
{
    Bay *b = app->bay;
    double want = low_wanted(app);
    int is_jump = !b->is_view_set || app->taste.is_still;
    b->view_low_m +=
        is_jump ? want - b->view_low_m : (want - b->view_low_m) * dt_s / (glide_s + dt_s);
    b->is_view_set = 1;
    glance_storm_frame(app);
}

GlanceView glance_view(const App *app, GfxRect r)
{
    const PbExercise *e = &app->run.config.exercise;
    GlanceView v = {.r = r};
    /* A wide bay in a narrow window shows more than its metre: names of stops need their room. */
    v.px_m = fmin((double)r.h / view_m, 0.37 * (double)r.w / e->width_m);
    v.low_m = app->bay->is_view_set ? app->bay->view_low_m : low_wanted(app);
    float wide = floorf((float)(e->width_m * v.px_m)), tall = floorf((float)(e->height_m * v.px_m));
    float bottom = floorf(r.y + r.h + (float)(v.low_m * v.px_m));
    v.inner = (GfxRect){floorf(r.x + 0.468f * r.w - wide * 0.5f), bottom - tall, wide, tall};
    return v;
}

static void wall(const App *app, const Places *p)
{
    if (app->task.sight == SIGHT_CLOSED) {
        sight_closed_draw(app, p->view);
        return;
    }
    GlanceView view = glance_view(app, p->view);
    if (has_staff(app)) {
        glance_staff_draw(app, p->staff, &view);
    }
    glance_view_draw(app, &view);
}

void glance_draw(const App *app)
{
    Ui *ui = app->ui;
    Line l = line_now(app);
    float gap = ui_px(ui, 10), top = app_band_height(app) + gap;
    app->laid->notice_in_middle = 0;
    app->laid->middle = (GfxRect){16.0f, top, ui->width - 32.0f, ui->height - top - 16.0f};
    float strip = bay_band(app);
    app->laid->middle.y += strip;
    app->laid->middle.h -= strip;
    float high;
    if (app->guiding.guide.is_on) {
        high = guide_strip_draw(app, app->laid->middle) - gap;
    } else {
        high = line_words(app, &l, line_inside(app, app->laid->middle), 0);
    }
    Places p = places(app, strip + fmaxf(high, ui_px(ui, 36)));
    if (!app->guiding.guide.is_on) {
        line_draw(app, (GfxRect){p.line.x, p.line.y + strip, p.line.w, p.line.h - strip});
    }
    app->laid->middle = p.view;
    wall(app, &p);
    column_draw(app, p.column);
    app->laid->notice_in_middle =
        app->guiding.guide.is_on && app->program.now_s < app->say.notice.until_s;
    hands_notice_draw(app);
}
