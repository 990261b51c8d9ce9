/* Height of the mouth against time, on the height scale of the map, and the numbered rings that tie
 * a lost point to its place and its moment. */
#include "debrief/debrief.h"

#include "io/score_words.h"

#include "core/units.h"

#include <math.h>

double debrief_span(const Debrief *d)
{
    double span = d->runs[0].end_s;
    return fmax(d->runs[1].is_open ? fmax(span, d->runs[1].end_s) : span, 10.0);
}

float debrief_x(const App *app, double t)
{
    const Debrief *d = app->debrief;
    return d->chart.x + (float)(t / debrief_span(d)) * d->chart.w;
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

typedef struct Chart {
    GfxRect r, inner;
    double px_m;
} Chart;

static float y_of(const Chart *c, double y_m)
{
    return c->inner.y + c->inner.h - (float)(y_m * c->px_m);
}

static void trace(App *app, const Chart *c, const DebriefRun *r, int is_ghost)
{
    Ui *ui = app->ui;
    UiPoint p[500];
    int n = 0, stride = r->watched.sample_count / 480 + 1;
    for (int i = 0; i < r->watched.sample_count && n < 499; i += stride) {
        const PbSample *s = &r->watched.samples[i];
        UiPoint q = {debrief_x(app, (double)s->time_s), y_of(c, (double)s->mouth_y_m)};
        if (n >= 2 && fabsf(p[n - 1].y - q.y) < 0.3f && fabsf(p[n - 2].y - q.y) < 0.3f) {
            n--; /* level stretches keep their two ends only */
        }
        p[n++] = q;
    }
    if (!is_ghost) {
        ui_polyline(ui, p, n, 3.0f, ui->theme->ink);
        return;
    }
    for (int i = 0; i + 1 < n; i++) {
        ui_dashes(ui, p[i].x, p[i].y, p[i + 1].x, p[i + 1].y, 2.0f, 5.0f, ui->theme->accent);
    }
}

static void block(App *app, const Chart *c, const DebriefRun *r, int i)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const PbLift *l = &r->watched.lifts[i];
    double high = r->file.exercise.height_m;
    int soft = l->density_kg_m3 < r->file.exercise.target_kg_m3;
    double reach = l->step_m > 0.05 && l->step_m < 0.6 ? 0.5 * l->step_m : 0.15;
    float x0 = debrief_x(app, l->from_s), x1 = debrief_x(app, l->to_s);
    float y1 = y_of(c, fmin(l->mouth_y_m + reach, high));
    float y0 = y_of(c, fmax(l->mouth_y_m - reach, 0.0));
    GfxRect b = {x0, y1, fmaxf(x1 - x0, 3.0f), y0 - y1};
    ui_round(ui, b, 2.0f, soft ? t->danger_wash : t->well);
    for (float s = 6.0f; soft && s < b.w + b.h; s += 7.0f) { /* hatch: soft without colour too */
        float ax = fminf(s, b.w), ay = fmaxf(s - b.w, 0.0f), bx = fmaxf(s - b.h, 0.0f);
        float by = fminf(s, b.h);
        ui_line(ui, b.x + ax, b.y + ay, b.x + bx, b.y + by, 1.0f, ui_fade(t->danger, 0.35));
    }
    int chosen = app->debrief->lift == i;
    ui_round_line(ui, b, 2.0f, chosen ? 3.0f : 1.0f,
                  chosen ? t->accent
                  : soft ? t->danger
                         : t->edge);
    const char *figure = app_fmt_density(app, l->density_kg_m3, 0);
    if (b.w > ui_width(ui, 14, UI_BOLD, figure) + 6.0f && b.h > ui_px(ui, 34)) {
        float base = y_of(c, l->mouth_y_m) - ui_px(ui, 6);
        base += base - ui_px(ui, 12) < b.y ? ui_px(ui, 24) : 0.0f;
        ui_label(ui, b.x + b.w * 0.5f, base, 14, UI_BOLD, soft ? t->danger : t->ink, UI_CENTRE,
                 figure);
    }
}

/* Rings of one spot stand in a row. */
static float shift(App *app, const Chart *c, const DebriefRun *r, int rank)
{
    double s = (double)app->ui->scale,
           px_s = (double)app->debrief->chart.w / debrief_span(app->debrief);
    return (float)debrief_ring_shift(r, rank, px_s / s, c->px_m / s) * ui_px(app->ui, 20);
}

static void rings(App *app, const Chart *c, const DebriefRun *r)
{
    const Debrief *d = app->debrief;
    Ui *ui = app->ui;
    for (int rank = 5; r->watched.has_score && rank >= 1; rank--) {
        int i = debrief_loss_at_rank(&r->watched.score, rank);
        if (i >= 0 && r->watched.score.losses[i].cause == PB_FAULT_HELD) {
            continue;
        }
        if (i >= 0 && i != d->loss && r->watched.score.losses[i].points >= IO_LEAST_LOSS) {
            const PbLoss *l = &r->watched.score.losses[i];
            float x = debrief_x(app, l->time_s) + shift(app, c, r, rank);
            debrief_ring(ui, x, y_of(c, l->y_m), rank, 0);
        }
    }
    if (r->watched.has_score && d->loss >= 0) {
        const PbLoss *l = &r->watched.score.losses[d->loss];
        int rank = debrief_loss_rank(&r->watched.score, d->loss);
        float x = debrief_x(app, l->time_s) + shift(app, c, r, rank), y = y_of(c, l->y_m);
        ui_dashes(ui, c->inner.x + c->inner.w + ui_px(ui, 20), y, x, y, 1.0f, 3.0f,
                  ui->theme->accent);
        debrief_ring(ui, x, y, rank, 1);
    }
}

void debrief_travel_draw(App *app, GfxRect r, GfxRect inner, double px_m)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    Debrief *d = app->debrief;
    const DebriefRun *a = &d->runs[0];
    Chart c = {r, inner, px_m};
    double unit = app->taste.is_us ? 2.0 * PB_M_PER_FT : 0.5;
    for (int k = 0; k * unit < a->file.exercise.height_m; k++) {
        ui_rect(ui, r.x, floorf(y_of(&c, k * unit)), r.w, 1.0f, t->rule);
    }
    for (int i = 0; i < a->watched.lift_count; i++) {
        if (pb_is_stop(&a->watched.lifts[i], &a->watched.rubric)) {
            block(app, &c, a, i);
        }
    }
    if (d->runs[1].is_open) {
        trace(app, &c, &d->runs[1], 1);
    }
    trace(app, &c, a, 0);
    rings(app, &c, a);
    app_mark(app, "travel", r);
}
