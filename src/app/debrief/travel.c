/* Height of the mouth against time, on the height scale of the map, and the numbered rings that tie
 * a lost point to its place and its moment. */
#include "debrief/debrief.h"

#include "io/score_words.h"

#include "picture/travel.h"

#include <math.h>

double debrief_span(const Debrief *d)
{
    double span = d->runs[0].end_s;
    return fmax(d->runs[1].is_open ? fmax(span, d->runs[1].end_s) : span, 10.0);
}

float debrief_x(const App *app, double t)
{
    const Debrief *d = app->debrief;
    return d->laid->chart.x + (float)(t / debrief_span(d)) * d->laid->chart.w;
}

void debrief_go(App *app, double at_s)
{
    Debrief *d = app->debrief;
    double span = debrief_span(d);
    d->at_s = at_s < 0.0 ? 0.0 : at_s > span ? span : at_s;
}

/* What goes with the wall has no place of its own, and comes last. */
static int by_points(const PbScore *s, int a, int b)
{
    const PbLoss *x = &s->losses[a], *y = &s->losses[b];
    if ((x->cause == PB_FAULT_HELD) != (y->cause == PB_FAULT_HELD)) {
        return y->cause == PB_FAULT_HELD;
    }
    return x->points > y->points || (x < y && x->points >= y->points);
}

int debrief_loss_rank(const PbScore *s, int loss)
{
    int rank = 1;
    for (int i = 0; i < s->loss_count; i++) {
        rank += i != loss && by_points(s, i, loss);
    }
    return rank;
}

int debrief_loss_at_rank(const PbScore *s, int rank)
{
    for (int i = 0; i < s->loss_count; i++) {
        if (debrief_loss_rank(s, i) == rank) {
            return i;
        }
    }
    return -1;
}

void debrief_choose_loss(App *app, int loss)
{
    Debrief *d = app->debrief;
    const DebriefRun *r = &d->runs[0];
    if (!r->watched.has_score || loss < 0 || loss >= r->watched.score.loss_count) {
        return;
    }
    d->loss = loss;
    d->lift = r->watched.score.losses[loss].lift;
    d->is_playing = 0;
    if ((int)r->watched.score.losses[loss].part != d->part) {
        d->part = (int)r->watched.score.losses[loss].part;
        debrief_take_mark(app);
    }
    debrief_go(app, r->watched.score.losses[loss].time_s);
}

void debrief_choose_lift(App *app, int lift)
{
    Debrief *d = app->debrief;
    if (lift < 0 || lift >= d->runs[0].watched.lift_count) {
        return;
    }
    d->lift = lift;
    d->loss = -1;
    d->is_playing = 0;
    debrief_go(app, d->runs[0].watched.lifts[lift].to_s);
}

void debrief_ring(Ui *ui, float x, float y, int number, int is_chosen)
{
    const UiTheme *t = ui->theme;
    char text[8];
    float radius = ui_px(ui, 9);
    SDL_snprintf(text, sizeof text, "%d", number);
    ui_circle(ui, x, y, radius + 2.0f, t->sheet);
    ui_circle(ui, x, y, radius, t->accent);
    if (!is_chosen) {
        ui_circle(ui, x, y, radius - 2.0f, t->sheet);
    }
    ui_label(ui, x, y + ui_px(ui, 4), 12, UI_BOLD, is_chosen ? t->white : t->ink, UI_CENTRE, text);
}

/* Rings stand aside in their order, dearest first, by whole steps until they touch none before. */
int debrief_ring_shift(const DebriefRun *r, int rank, double px_s, double px_m)
{
    enum { RINGS = 5 };
    double x[RINGS + 1], y[RINGS + 1];
    int n = 0, aside = 0;
    for (int k = 1; k <= rank; k = k < RINGS || k == rank ? k + 1 : rank) {
        const PbLoss *l = &r->watched.score.losses[debrief_loss_at_rank(&r->watched.score, k)];
        y[n] = l->y_m * px_m;
        aside = -1;
        for (int is_free = 0; !is_free;) {
            aside++;
            x[n] = l->time_s * px_s + 20.0 * aside;
            is_free = 1;
            for (int i = 0; i < n; i++) {
                is_free = is_free && hypot(x[n] - x[i], y[n] - y[i]) >= 18.0;
            }
        }
        n++;
    }
    return aside;
}

/* Rings of one spot stand in a row. */
static float shift(const App *app, const PicTravel *c, const DebriefRun *r, int rank)
{
    double s = (double)app->ui->scale,
           px_s = (double)app->debrief->laid->chart.w / debrief_span(app->debrief);
    return (float)debrief_ring_shift(r, rank, px_s / s, c->px_m / s) * ui_px(app->ui, 20);
}

static void rings(const App *app, const PicTravel *c, float bay_right, const DebriefRun *r)
{
    const Debrief *d = app->debrief;
    Ui *ui = app->ui;
    int lost[PB_SCORE_MAX_LOSSES];
    if (r->watched.has_score) {
        io_losses_shown(&r->watched.score, lost);
    }
    for (int rank = 5; r->watched.has_score && rank >= 1; rank--) {
        int i = debrief_loss_at_rank(&r->watched.score, rank);
        if (i >= 0 && r->watched.score.losses[i].cause == PB_FAULT_HELD) {
            continue;
        }
        if (i >= 0 && i != d->loss && lost[i] > 0) {
            const PbLoss *l = &r->watched.score.losses[i];
            float x = debrief_x(app, l->time_s) + shift(app, c, r, rank);
            debrief_ring(ui, x, pic_travel_y(c, l->y_m), rank, 0);
        }
    }
    if (r->watched.has_score && d->loss >= 0) {
        const PbLoss *l = &r->watched.score.losses[d->loss];
        int rank = debrief_loss_rank(&r->watched.score, d->loss);
        float x = debrief_x(app, l->time_s) + shift(app, c, r, rank), y = pic_travel_y(c, l->y_m);
        ui_dashes(ui, bay_right + ui_px(ui, 20), y, x, y, 1.0f, 3.0f, ui->theme->accent);
        debrief_ring(ui, x, y, rank, 1);
    }
}

static PicTravel travel_of(const Debrief *d, const DebriefRun *r, GfxRect inner, double px_m)
{
    return (PicTravel){.area = d->laid->chart,
                       .bottom = (double)(inner.y + inner.h),
                       .px_m = px_m,
                       .span_s = debrief_span(d),
                       .height_m = r->file.exercise.height_m,
                       .target_kg_m3 = r->file.exercise.target_kg_m3,
                       .samples = r->watched.samples,
                       .sample_count = r->watched.sample_count,
                       .lifts = r->watched.lifts,
                       .lift_count = r->watched.lift_count,
                       .rubric = &r->watched.rubric,
                       .chosen = d->lift};
}

void debrief_travel_draw(const App *app, GfxRect r, GfxRect inner, double px_m)
{
    const Debrief *d = app->debrief;
    GfxShapes shapes = {0};
    PicGround ground = app_ground(app);
    PicTravel a = travel_of(d, &d->runs[0], inner, px_m);
    pic_travel_rules(&shapes, &ground, &a, app->taste.is_us);
    pic_travel_stops(&shapes, &ground, &a, PIC_FIGURES_INSIDE);
    if (d->runs[1].is_open) {
        PicTravel b = travel_of(d, &d->runs[1], inner, px_m);
        pic_travel_ghost(&shapes, &ground, &b);
    }
    pic_travel_trace(&shapes, &ground, &a, NULL);
    app_paint(app, &shapes);
    rings(app, &a, inner.x + inner.w, &d->runs[0]);
    app_mark(app, "travel", r);
}
