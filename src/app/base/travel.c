/* Travel of the mouth: height against time, on the height scale of the bay when it stands beside
 * it. "Now" is at the right edge; a finished lift carries its density. */
#include "base/app.h"

#include "core/units.h"

#include <math.h>

typedef struct Chart {
    GfxRect r;
    double px_m, bottom; /* pixel of height zero */
    double from_s, span_s;
    float now_x;
} Chart;

static float x_of(const Chart *c, double t)
{
    return c->r.x + (float)((t - c->from_s) / c->span_s) * (c->now_x - c->r.x);
}

static float y_of(const Chart *c, double y_m)
{
    return (float)(c->bottom - y_m * c->px_m);
}

static void grid(App *app, const Chart *c, int with_figures)
{
    Ui *ui = app->ui;
    double unit = app->taste.is_us ? 2.0 * PB_M_PER_FT : 0.5;
    for (int k = 1; k * unit < app->run.config.exercise.height_m; k++) {
        double y = k * unit;
        float py = floorf(y_of(c, y));
        ui_rect(ui, c->r.x, py, c->r.w, 1.0f, ui->theme->rule);
        if (with_figures) {
            ui_label(ui, c->r.x - ui_px(ui, 6), py + ui_px(ui, 4), 12, UI_REGULAR, ui->theme->ink2,
                     UI_RIGHT, app_fmt_length(app, y));
        }
    }
    float base = floorf(y_of(c, 0.0));
    ui_rect(ui, c->r.x, base, c->r.w, 1.0f, ui->theme->ink);
    double step = c->span_s > 300.0 ? 120.0 : c->span_s > 120.0 ? 60.0 : 20.0;
    float last = c->now_x - ui_width(ui, 12, UI_REGULAR, _("now")) * 0.5f;
    ui_label(ui, c->now_x, base + ui_px(ui, 16), 12, UI_REGULAR, ui->theme->ink2, UI_CENTRE,
             _("now"));
    for (int k = 1; k * step < c->span_s; k++) {
        double back = k * step;
        float x = floorf(x_of(c, c->from_s + c->span_s - back));
        ui_rect(ui, x, base, 1.0f, 5.0f, ui->theme->ink);
        const char *text = app_fmt(app, 0, -back, "s");
        float half = ui_width(ui, 12, UI_REGULAR, text) * 0.5f;
        if (x + half + ui_px(ui, 8) < last && x - half >= c->r.x - ui_px(ui, 6)) {
            ui_label(ui, x, base + ui_px(ui, 16), 12, UI_REGULAR, ui->theme->ink2, UI_CENTRE, text);
            last = x - half;
        }
    }
}

static void trace(App *app, const Chart *c)
{
    const Run *run = &app->run;
    UiPoint p[400];
    int n = 0, first = 0;
    while (first < run->watched.sample_count &&
           (double)run->watched.samples[first].time_s < c->from_s) {
        first++;
    }
    int stride = (run->watched.sample_count - first) / 380 + 1;
    for (int i = first; i < run->watched.sample_count && n < 398; i += stride) {
        const PbSample *s = &run->watched.samples[i];
        UiPoint q = {x_of(c, (double)s->time_s), y_of(c, (double)s->mouth_y_m)};
        /* Level stretches keep their two ends only. */
        if (n >= 2 && fabsf(p[n - 1].y - q.y) < 0.3f && fabsf(p[n - 2].y - q.y) < 0.3f) {
            n--;
        }
        p[n++] = q;
    }
    p[n++] = (UiPoint){c->now_x, y_of(c, run_mouth_y(run))};
    ui_polyline(app->ui, p, n, 3.0f, app->ui->theme->ink);
}

static void lifts(App *app, const Chart *c)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const PbView *v = app->run.view;
    char text[48];
    float last_x = -1e9f, last_y = 0.0f;
    for (int i = 0; i + 1 < v->lift_count; i++) {
        const PbLift *l = &v->lifts[i];
        if (l->to_s < c->from_s || !pb_is_stop(l, &app->run.watched.rubric)) {
            continue;
        }
        /* Figures stand clear of the stairs: above when the mouth works its way down. */
        SDL_snprintf(text, sizeof text, _("stop %d"), i + 1);
        float wide = ui_width(ui, 12, UI_REGULAR, text);
        float x0 = x_of(c, fmax(l->from_s, c->from_s)), x1 = x_of(c, l->to_s);
        float x = x0 + wide * 0.5f + ui_px(ui, 5), y = y_of(c, l->mouth_y_m);
        int is_above = l->direction > 0 || y > (float)c->bottom - ui_px(ui, 44);
        if (is_above && y < c->r.y + ui_px(ui, 56)) { /* the title is there */
            is_above = 0;
            if (x1 - x0 < wide + ui_px(ui, 8)) {
                continue;
            }
            x = 0.5f * (x0 + x1);
        }
        y += is_above ? -ui_px(ui, 24) : ui_px(ui, 19);
        if (fabsf(x - last_x) < wide && fabsf(y - last_y) < ui_px(ui, 34)) {
            continue; /* no room for figures: the bay and the list after the run have them */
        }
        int soft = l->density_kg_m3 < app->run.config.exercise.target_kg_m3;
        ui_label(ui, x, y, 14, UI_BOLD, soft ? t->danger : t->ink, UI_CENTRE,
                 app_fmt_density(app, l->density_kg_m3, 0));
        ui_label(ui, x, y + ui_px(ui, 15), 12, UI_REGULAR, t->ink2, UI_CENTRE, text);
        last_x = x;
        last_y = y;
    }
}

/* One finished lift as a block as high as its step. */
static void block(App *app, const Chart *c, const PbLift *l)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    int soft = l->density_kg_m3 < app->run.config.exercise.target_kg_m3;
    double reach = l->step_m > 0.05 && l->step_m < 0.6 ? 0.5 * l->step_m : 0.15;
    float x0 = x_of(c, l->from_s), x1 = x_of(c, l->to_s);
    float y1 = y_of(c, fmin(l->mouth_y_m + reach, app->run.config.exercise.height_m));
    float y0 = y_of(c, fmax(l->mouth_y_m - reach, 0.0));
    GfxRect r = {x0, y1, fmaxf(x1 - x0, 3.0f), y0 - y1};
    ui_round(ui, r, 2.0f, soft ? t->danger_wash : t->well);
    ui_round_line(ui, r, 2.0f, 1.0f, soft ? t->danger : t->edge);
    const char *figure = app_fmt_density(app, l->density_kg_m3, 0);
    float mid = fmaxf(r.x + r.w * 0.5f, c->r.x + ui_px(ui, 12));
    int fits = r.w > ui_width(ui, 14, UI_BOLD, figure) + 6.0f;
    float base = y_of(c, l->mouth_y_m) - ui_px(ui, 6);
    if (base - ui_px(ui, 12) < y_of(c, app->run.config.exercise.height_m)) {
        base += ui_px(ui, 24); /* the plate is there */
    }
    ui_label(ui, fits ? mid : fminf(r.x + r.w + ui_px(ui, 12), c->now_x - ui_px(ui, 10)), base, 14,
             UI_BOLD, soft ? t->danger : t->ink, UI_CENTRE, figure);
}

void travel_whole_draw(App *app, GfxRect r, GfxRect inner, double px_m)
{
    Ui *ui = app->ui;
    const Run *run = &app->run;
    const PbView *v = run->view;
    double span = fmax(run->watched.result.duration_s, 10.0);
    Chart c = {r, px_m, (double)(inner.y + inner.h), 0.0, span, r.x + r.w - ui_px(ui, 6)};
    c.r.w = c.now_x - r.x;
    float base = floorf((float)c.bottom);
    double unit = app->taste.is_us ? 2.0 * PB_M_PER_FT : 0.5;
    ui_label(ui, r.x, r.y + ui_px(ui, 9), 16, UI_BOLD, ui->theme->ink, UI_LEFT, _("Tube position"));
    for (int k = 1; k * unit < run->config.exercise.height_m; k++) {
        ui_rect(ui, c.r.x, floorf(y_of(&c, k * unit)), c.r.w, 1.0f, ui->theme->rule);
    }
    for (int i = 0; i < v->lift_count; i++) {
        if (pb_is_stop(&v->lifts[i], &run->watched.rubric)) {
            block(app, &c, &v->lifts[i]);
        }
    }
    trace(app, &c);
    ui_rect(ui, c.r.x, base, c.r.w, 1.0f, ui->theme->ink);
    double step = span > 480.0 ? 120.0 : span > 200.0 ? 60.0 : span > 80.0 ? 30.0 : 10.0;
    for (int k = 0; k * step <= span; k++) {
        double at = k * step;
        float x = floorf(x_of(&c, at));
        ui_rect(ui, x, base, 1.0f, 5.0f, ui->theme->ink);
        ui_label(ui, x, base + ui_px(ui, 18), 12, UI_REGULAR, ui->theme->ink2,
                 at > 0.0 ? UI_CENTRE : UI_LEFT, app_fmt_clock(app, at));
    }
    app_mark(app, "travel", r);
}

/* Before anything has moved there is no travel: the bay's lesson and the first grip stand here. */
static void opening_words(App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    float y = r.y + ui_px(ui, 52), w = r.w - ui_px(ui, 14), gap = ui_px(ui, 10);
    const char *lines[3] = {
        app_bay_lesson(app),
        _("Drag the tube, or turn the wheel over the bay. Space switches the machine."),
        _("When the cellulose around the tube end packs tight, the flow drops off. That is the "
          "stall. Pull back.")};
    for (int i = 0; i < 3; i++) {
        y += ui_paragraph(ui, r.x, y, w, 14, UI_REGULAR, i ? t->ink2 : t->ink, lines[i]) + gap;
    }
    page_needs(app, y - ui_px(ui, 14) - (r.y + r.h));
}

void travel_draw(App *app, GfxRect r, GfxRect inner, double px_m, int is_beside)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    double now = app->run.view->time_s;
    double span = is_beside ? 80.0 : 120.0;
    float figures = is_beside ? 0.0f : ui_px(ui, 48);
    float right = is_beside ? 10.0f : ui_width(ui, 12, UI_REGULAR, _("now")) * 0.5f + 2.0f;
    Chart c = {r, px_m, (double)(inner.y + inner.h), now - span, span, r.x + r.w - right};
    c.r.x += figures;
    c.r.w = c.now_x - c.r.x;
    const char *title = is_beside ? _("Tube position") : "";
    ui_label(ui, r.x, r.y + ui_px(ui, 15), 16, UI_BOLD, t->ink, UI_LEFT, title);
    if (app->run.view->ledger.fed_kg <= 0.0 && now < 30.0) {
        opening_words(app, r);
        app_mark(app, "travel", r);
        return;
    }
    grid(app, &c, !is_beside);
    trace(app, &c);
    if (is_beside) { /* the oldest of the trace gives way to the title */
        ui_rect(ui, r.x, r.y, ui_width(ui, 16, UI_BOLD, title) + ui_px(ui, 6), ui_px(ui, 24),
                t->paper);
    }
    lifts(app, &c);
    float y = y_of(&c, run_mouth_y(&app->run));
    if (is_beside) {
        ui_dashes(ui, c.now_x, y, inner.x - ui_px(ui, 16), y, 2.0f, 2.0f, t->accent);
    }
    ui_circle(ui, c.now_x, y, 7.0f, t->sheet);
    ui_circle(ui, c.now_x, y, 5.0f, t->accent);
    app_mark(app, "travel", r);
}
