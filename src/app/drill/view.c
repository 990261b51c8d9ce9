/* What may be seen of a trial: the wall open, taped or not at all, and the two instruments that say
 * what ears say. Nothing here knows what is to come. */
#include "drill/drill.h"

#include <math.h>

/* The wall is drawn by what draws a run: the program with the trial's run in its place. */
static const App *with_run(const App *app)
{
    Drill *d = app->drill;
    *d->shown = *app;
    d->shown->run = d->now->run;
    return d->shown;
}

static void veiled(const App *app, GfxRect r, const char *words)
{
    Ui *ui = app->ui;
    GfxColor none = {0, 0, 0, 0};
    float in = ui_px(ui, 14), w = r.w - 2 * in;
    float high = ui_paragraph(ui, 0, 0, w, 15, UI_REGULAR, none, words);
    ui_round(ui, r, ui_px(ui, 6), ui->theme->well);
    ui_round_line(ui, r, ui_px(ui, 6), 1.0f, ui->theme->rule);
    ui_paragraph(ui, r.x + in, r.y + (r.h - high) * 0.5f + ui_px(ui, 14), w, 15, UI_REGULAR,
                 ui->theme->ink2, words);
}

void drill_wall_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const Drill *d = app->drill;
    int runs = d->now != NULL && (d->phase == DRILL_LISTEN || d->phase == DRILL_TOLD);
    app_mark(app, "wall", r);
    if (!runs) {
        veiled(
            app, r,
            d->phase == DRILL_MAKING
                ? _("The bay is being packed up to the moment.")
                : _("Each trial is a piece of a real run of the simulation: another bay, machine, "
                    "hose and feed each time."));
        return;
    }
    if (d->sight == SIGHT_CLOSED) {
        veiled(app, r, _("Closed wall: by ear alone."));
        return;
    }
    const App *shown = with_run(app);
    const PbExercise *e = &shown->run.config.exercise;
    float lane = ui_px(ui, 54), scale = ui_px(ui, 40);
    double px_m = (double)(r.h - 8.0f) / (e->height_m + 3.2 * 0.038);
    px_m = fmin(px_m, (double)(r.w - lane - scale) / (e->width_m + 0.076));
    float stud = floorf((float)fmax(0.038 * px_m * 0.85, 7.0));
    float w = floorf((float)(e->width_m * px_m)), h = floorf((float)(e->height_m * px_m));
    float left = r.x + fmaxf((r.w - scale - lane - w - 2 * stud) * 0.5f, 0.0f);
    GfxRect inner = {floorf(left + scale + stud), floorf(r.y + 2.1f * stud), w, h};
    if (d->sight == SIGHT_OPEN) {
        wall_draw(shown, inner, px_m);
        wall_tufts_draw(shown, (double)inner.x, (double)(inner.y + inner.h), px_m);
        ui_layer(ui, NULL);
        wall_frame_draw(shown, inner, stud);
        wall_hose_draw(shown, inner, px_m, inner.x + w + stud + ui_px(ui, 24));
        wall_tube_draw(shown, inner, px_m, 0);
    } else {
        ui_rect(ui, inner.x, inner.y, inner.w, inner.h, ui->theme->sheet);
        wall_frame_draw(shown, inner, stud);
        wall_hose_draw(shown, inner, px_m, inner.x + w + stud + ui_px(ui, 24));
    }
    wall_scale_draw(shown, e, inner, px_m, inner.x - stud - 3.0f);
}

static void dial(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Drill *d = app->drill;
    double most = d->now->trial.config.exercise.machine.static_pa, from = 3.6652, to = -0.5236;
    float radius = fminf(r.w * 0.5f, r.h * 0.62f) - 4.0f, x = r.x + r.w * 0.5f,
          y = r.y + radius + 6.0f;
    for (int k = 0; k <= 10; k++) {
        double a = from + (to - from) * k / 10.0;
        float in = radius * (k % 5 ? 0.90f : 0.82f);
        ui_line(ui, x + in * (float)cos(a), y - in * (float)sin(a), x + radius * (float)cos(a),
                y - radius * (float)sin(a), 2.0f, t->ink2);
    }
    double share = fmin(fmax(d->needle_pa / most, 0.0), 1.0), a = from + (to - from) * share;
    ui_line(ui, x, y, x + 0.92f * radius * (float)cos(a), y - 0.92f * radius * (float)sin(a), 4.0f,
            t->accent);
    ui_circle(ui, x, y, 6.0f, t->ink);
    ui_label(ui, x, y + radius * 0.5f + ui_px(ui, 14), 14, UI_BOLD, t->ink, UI_CENTRE,
             _("Pressure"));
}

static void rattle(const App *app, GfxRect r)
{
    enum { BARS = 12 };
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    float label = ui_px(ui, 24), high = (r.h - label) / BARS;
    for (int k = 0; k < BARS; k++) {
        int is_on = app->drill->rattle * BARS > k + 0.5;
        ui_rect(ui, r.x, r.y + high * (float)(BARS - 1 - k), r.w, high - 3.0f,
                is_on ? t->accent : t->well);
    }
    ui_label(ui, r.x + r.w * 0.5f, r.y + r.h - 4.0f, 14, UI_BOLD, t->ink, UI_CENTRE, _("Rattle"));
}

void drill_instruments_draw(const App *app, GfxRect r)
{
    const Drill *d = app->drill;
    if (d->now == NULL || d->phase != DRILL_LISTEN || d->sight == SIGHT_CLOSED) {
        return;
    }
    float gap = ui_px(app->ui, 24), bars = fminf(ui_px(app->ui, 64), r.w * 0.3f);
    dial(app, (GfxRect){r.x, r.y, r.w - bars - gap, r.h});
    rattle(app, (GfxRect){r.x + r.w - bars, r.y, bars, r.h});
}
