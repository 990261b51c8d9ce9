/* Travel of the mouth: height against time, on the height scale of the bay when it stands beside
 * it. "Now" is at the right edge; a finished lift carries its density. */
#include "base/app.h"

#include "picture/travel.h"

#include "core/units.h"

#include <math.h>

/* The run under way or just done, over this span of time. */
static PicTravel travel_of(const Run *run, GfxRect area, GfxRect inner, double px_m)
{
    const PbExercise *e = &run->config.exercise;
    return (PicTravel){.area = area,
                       .bottom = (double)(inner.y + inner.h),
                       .px_m = px_m,
                       .height_m = e->height_m,
                       .target_kg_m3 = e->target_kg_m3,
                       .samples = run->watched.samples,
                       .sample_count = run->watched.sample_count,
                       .lifts = run->view->lifts,
                       .lift_count = run->view->lift_count,
                       .rubric = &run->watched.rubric,
                       .chosen = -1};
}

/* Heights at the left, where the bay is not beside it, and how long ago under it. */
static void scales(const App *app, const PicTravel *c, int with_heights)
{
    Ui *ui = app->ui;
    double unit = pic_travel_rule_m(app->taste.is_us);
    for (int k = 1; with_heights && k * unit < c->height_m; k++) {
        float py = floorf(pic_travel_y(c, k * unit));
        ui_label(ui, c->area.x - ui_px(ui, 6), py + ui_px(ui, 4), 12, UI_REGULAR, ui->theme->ink2,
                 UI_RIGHT, app_fmt_length(app, k * unit));
    }
    float base = floorf((float)c->bottom), now_x = c->area.x + c->area.w;
    ui_rect(ui, c->area.x, base, c->area.w, 1.0f, ui->theme->ink);
    double step = c->span_s > 300.0 ? 120.0 : c->span_s > 120.0 ? 60.0 : 20.0;
    float last = now_x - ui_width(ui, 12, UI_REGULAR, _("now")) * 0.5f;
    ui_label(ui, now_x, base + ui_px(ui, 16), 12, UI_REGULAR, ui->theme->ink2, UI_CENTRE, _("now"));
    for (int k = 1; k * step < c->span_s; k++) {
        double back = k * step;
        float x = floorf(pic_travel_x(c, c->from_s + c->span_s - back));
        ui_rect(ui, x, base, 1.0f, 5.0f, ui->theme->ink);
        const char *text = app_fmt(app, 0, -back, "s");
        float half = ui_width(ui, 12, UI_REGULAR, text) * 0.5f;
        if (x + half + ui_px(ui, 8) < last && x - half >= c->area.x - ui_px(ui, 6)) {
            ui_label(ui, x, base + ui_px(ui, 16), 12, UI_REGULAR, ui->theme->ink2, UI_CENTRE, text);
            last = x - half;
        }
    }
}

void travel_whole_draw(const App *app, GfxRect r, GfxRect inner, double px_m)
{
    Ui *ui = app->ui;
    GfxShapes shapes = {0};
    PicGround ground = app_ground(app);
    PicTravel c = travel_of(&app->run, (GfxRect){r.x, r.y, r.w - ui_px(ui, 6), r.h}, inner, px_m);
    double span = c.span_s = fmax(app->run.watched.result.duration_s, 10.0);
    ui_label(ui, r.x, r.y + ui_px(ui, 9), 16, UI_BOLD, ui->theme->ink, UI_LEFT, _("Tube position"));
    pic_travel_rules(&shapes, &ground, &c, app->taste.is_us);
    pic_travel_stops(&shapes, &ground, &c, PIC_FIGURES_BESIDE);
    pic_travel_trace(&shapes, &ground, &c, NULL);
    app_paint(app, &shapes);
    float base = floorf((float)c.bottom);
    ui_rect(ui, c.area.x, base, c.area.w, 1.0f, ui->theme->ink);
    double step = span > 480.0 ? 120.0 : span > 200.0 ? 60.0 : span > 80.0 ? 30.0 : 10.0;
    for (int k = 0; k * step <= span; k++) {
        double at = k * step;
        float x = floorf(pic_travel_x(&c, at));
        ui_rect(ui, x, base, 1.0f, 5.0f, ui->theme->ink);
        ui_label(ui, x, base + ui_px(ui, 18), 12, UI_REGULAR, ui->theme->ink2,
                 at > 0.0 ? UI_CENTRE : UI_LEFT, app_fmt_clock(app, at));
    }
    app_mark(app, "travel", r);
}

/* Before anything has moved there is no travel: the bay's lesson and the first grip stand here. */
static void opening_words(const App *app, GfxRect r)
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

void travel_draw(const App *app, GfxRect r, GfxRect inner, double px_m, int is_beside)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    double now = app->run.view->time_s;
    double span = is_beside ? 80.0 : 120.0;
    float figures = is_beside ? 0.0f : ui_px(ui, 48);
    float right = is_beside ? 10.0f : ui_width(ui, 12, UI_REGULAR, _("now")) * 0.5f + 2.0f;
    PicTravel c = travel_of(&app->run, (GfxRect){r.x + figures, r.y, r.w - right - figures, r.h},
                            inner, px_m);
    c.from_s = now - span;
    c.span_s = span;
    c.lift_count -= app->run.view->phase == PB_PHASE_WORKING; /* one is under way */
    const char *title = is_beside ? _("Tube position") : "";
    if (app->run.view->ledger.fed_kg <= 0.0 && now < 30.0) {
        ui_label(ui, r.x, r.y + ui_px(ui, 15), 16, UI_BOLD, t->ink, UI_LEFT, title);
        opening_words(app, r);
        app_mark(app, "travel", r);
        return;
    }
    GfxShapes shapes = {0};
    PicGround ground = app_ground(app);
    GfxPoint at = {c.area.x + c.area.w, pic_travel_y(&c, run_mouth_y(&app->run))};
    pic_travel_rules(&shapes, &ground, &c, app->taste.is_us);
    pic_travel_stops(&shapes, &ground, &c, PIC_FIGURES_NUMBERED);
    pic_travel_trace(&shapes, &ground, &c, &at);
    app_paint(app, &shapes);
    scales(app, &c, !is_beside);
    if (is_beside) { /* the oldest of the trace gives way to the title */
        ui_rect(ui, r.x, r.y, ui_width(ui, 16, UI_BOLD, title) + ui_px(ui, 6), ui_px(ui, 24),
                t->paper);
        ui_dashes(ui, at.x, at.y, inner.x - ui_px(ui, 16), at.y, 2.0f, 2.0f, t->accent);
    }
    ui_label(ui, r.x, r.y + ui_px(ui, 15), 16, UI_BOLD, t->ink, UI_LEFT, title);
    ui_circle(ui, at.x, at.y, 7.0f, t->sheet);
    ui_circle(ui, at.x, at.y, 5.0f, t->accent);
    app_mark(app, "travel", r);
}
