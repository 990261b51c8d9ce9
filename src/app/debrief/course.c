/* A learner's course over the runs of one exercise: the whole score, each part, and what the hands
 * did: length of a step and dwell after the stall, mean with their spread. Oldest run at the left.
 */
#include "debrief/debrief.h"

#include "core/units.h"
#include "io/score_words.h"

#include <math.h>
#include <string.h>

/* The charts in the order of the page; those between are the parts of the score. */
enum { WHOLE = -1, STEP = PB_SCORE_PARTS, DWELL, CHARTS = PB_SCORE_PARTS + 3 };
enum { MAX_POINTS = 120 };

typedef struct Series {
    double value[MAX_POINTS], spread[MAX_POINTS]; /* value negative = not known */
    int64_t id[MAX_POINTS];
    int count;
    double top;  /* of the scale, unless a value is above it; 0 = from the values */
    double mark; /* a dashed line, negative = none */
    int has_spread;
} Series;

static double scale_top(const Series *s)
{
    double top = 1e-6;
    for (int i = 0; i < s->count; i++) {
        top = fmax(top, s->value[i] + (s->has_spread ? fmax(s->spread[i], 0.0) : 0.0));
    }
    return s->top > 0.0 ? fmax(s->top, top) : top * 1.15;
}

static void dots(const App *app, GfxRect r, const Series *s, double top)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    UiPoint p[MAX_POINTS] = {{0}};
    int n = 0, index[MAX_POINTS] = {0};
    for (int i = 0; i < s->count; i++) {
        if (s->value[i] < 0.0) {
            continue;
        }
        float f = s->count > 1 ? (float)i / (float)(s->count - 1) : 0.5f;
        index[n] = i;
        p[n++] = (UiPoint){r.x + ui_px(ui, 10) + f * (r.w - ui_px(ui, 20)),
                           r.y + r.h * (float)(1.0 - s->value[i] / top)};
    }
    for (int k = 0; s->has_spread && k < n; k++) { /* one standard deviation either way */
        float half = r.h * (float)(fmax(s->spread[index[k]], 0.0) / top);
        float low = fminf(p[k].y + half, r.y + r.h), high = fmaxf(p[k].y - half, r.y);
        ui_rect(ui, p[k].x - 1.0f, high, 2.0f, low - high, t->edge);
        ui_rect(ui, p[k].x - 4.0f, high, 8.0f, 1.0f, t->edge);
        ui_rect(ui, p[k].x - 4.0f, low, 8.0f, 1.0f, t->edge);
    }
    ui_polyline(ui, p, n, 2.0f, t->ink);
    for (int k = 0; k < n; k++) {
        int is_this = s->id[index[k]] == app->debrief->runs[0].id;
        ui_circle(ui, p[k].x, p[k].y, 6.0f, t->paper);
        ui_circle(ui, p[k].x, p[k].y, 5.0f, is_this ? t->accent : t->ink);
        if (!is_this) {
            ui_circle(ui, p[k].x, p[k].y, 3.0f, t->paper);
        }
    }
}

static void chart(const App *app, GfxRect r, const char *title, const char *last, const Series *s)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    float head = ui_px(ui, 24);
    GfxRect in = {r.x, r.y + head, r.w, r.h - head};
    double top = scale_top(s);
    float room = r.w - ui_width(ui, 14, UI_BOLD, last) - ui_px(ui, 8);
    double size = ui_fit(ui, room, 14, UI_BOLD, title);
    if (size < 11.0) { /* both give a little */
        size = ui_fit(ui, r.w - ui_width(ui, 11, UI_BOLD, last) - ui_px(ui, 8), 14, UI_BOLD, title);
        room = r.w - ui_width(ui, 11, UI_BOLD, last) - ui_px(ui, 8);
    }
    ui_label_cut(ui, r.x, r.y + ui_px(ui, 15), room, size, UI_BOLD, t->ink, title);
    ui_label(ui, r.x + r.w, r.y + ui_px(ui, 15),
             ui_width(ui, 14, UI_BOLD, last) + room > r.w ? 11 : 14, UI_BOLD, t->ink, UI_RIGHT,
             last);
    ui_round(ui, in, ui_px(ui, 4), t->glass);
    ui_round_line(ui, in, ui_px(ui, 4), 1.0f, t->edge);
    GfxRect plot = {in.x, in.y + ui_px(ui, 8), in.w, in.h - ui_px(ui, 16)};
    if (s->mark >= 0.0 && s->mark < top) {
        float y = plot.y + plot.h * (float)(1.0 - s->mark / top);
        ui_dashes(ui, plot.x, y, plot.x + plot.w, y, 1.0f, 5.0f, t->edge);
    }
    dots(app, plot, s, top);
}

static Series start(const Debrief *d, double top, double mark)
{
    Series s;
    memset(&s, 0, sizeof s);
    s.count = d->course.count > MAX_POINTS ? MAX_POINTS : d->course.count;
    s.top = top;
    s.mark = mark;
    return s;
}

static const PbRunSummary *at(const Debrief *d, const Series *s, int i)
{
    return &d->course.list[d->course.count - s->count + i].summary;
}

static void one(const App *app, GfxRect r, int which)
{
    const Debrief *d = app->debrief;
    const PbScore *score = &d->runs[0].watched.score;
    char last[64] = "–", title[120];
    double top = which == WHOLE ? 100.0 : 0.0;
    if (which >= 0 && which < PB_SCORE_PARTS) { /* the grades that runs came with */
        (void)debrief_own_points(&d->runs[0], which, &top);
    }
    Series s = start(d, top,
                     which == WHOLE  ? score->pass_score
                     : which == STEP ? PB_M_PER_FT
                                     : -1.0);
    s.has_spread = which >= STEP;
    for (int i = 0; i < s.count; i++) {
        const PbRunSummary *m = at(d, &s, i);
        s.id[i] = d->course.list[d->course.count - s.count + i].id;
        s.value[i] = which == WHOLE ? m->total : which == STEP ? m->step_mean_m : m->dwell_mean_s;
        s.spread[i] = which == STEP ? m->step_spread_m : m->dwell_spread_s;
        if (which >= 0 && which < PB_SCORE_PARTS) {
            s.value[i] = -1.0;
            double points[PB_SUMMARY_PARTS];
            int shown[PB_SUMMARY_PARTS];
            for (int k = 0; k < m->part_count; k++) {
                points[k] = m->parts[k].points;
            }
            io_points_shown(points, m->part_count, shown);
            for (int k = 0; k < m->part_count; k++) {
                s.value[i] =
                    strcmp(m->parts[k].key, debrief_part_key(which)) == 0 ? shown[k] : s.value[i];
            }
        }
    }
    double v = s.count > 0 ? s.value[s.count - 1] : -1.0;
    double spread = s.count > 0 ? s.spread[s.count - 1] : 0.0;
    if (v >= 0.0 && which < PB_SCORE_PARTS) {
        SDL_snprintf(last, sizeof last, "%s / %s", app_fmt_mark(app, v), app_fmt_points(app, top));
    } else if (v >= 0.0 && which == STEP) {
        SDL_snprintf(last, sizeof last, "%s ± %s", app_fmt_length(app, v),
                     app_fmt_length(app, fmax(spread, 0.0)));
    } else if (v >= 0.0) {
        SDL_snprintf(last, sizeof last, "%s ± %s", app_fmt(app, 1, v, "s"),
                     app_fmt(app, 1, fmax(spread, 0.0), "s"));
    }
    SDL_snprintf(title, sizeof title, "%s",
                 which == WHOLE           ? _("Whole score")
                 : which < PB_SCORE_PARTS ? io_part_name((PbScorePartKind)which, app->taste.lang)
                 : which == STEP          ? _("Length of a pull")
                                          : _("Wait after the stall"));
    chart(app, r, title, last, &s);
}

void debrief_course_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const Debrief *d = app->debrief;
    char text[200];
    float head = ui_px(ui, 30), gap = ui_px(ui, 18), foot = ui_px(ui, 24);
    foot += r.w < ui_px(ui, 640) ? ui_px(ui, 17) : 0.0f; /* its words wrap */
    SDL_snprintf(text, sizeof text, _("Progress of %s"), d->runs[0].learner);
    ui_words(ui, (GfxRect){r.x, r.y - ui_px(ui, 4), r.w, ui_px(ui, 30)}, 16, UI_BOLD,
             ui->theme->ink, UI_LEFT, text);
    int cols = r.w > ui_px(ui, 820) ? 3 : 2, rows = (CHARTS + cols - 1) / cols;
    float w = (r.w - gap * (float)(cols - 1)) / (float)cols;
    float h = (r.h - head - foot - gap * (float)(rows - 1)) / (float)rows;
    page_needs(app, (float)rows * (ui_px(ui, 84) - h));
    for (int i = 0; i < CHARTS; i++) {
        int column = i % cols, row = i / cols;
        one(app,
            (GfxRect){r.x + (w + gap) * (float)column, r.y + head + (h + gap) * (float)row, w, h},
            WHOLE + i);
    }
    const char *words = app_said(app, _("Oldest run at the left. Bars: spread within a run (one "
                                        "standard deviation). Dashes: passing score, {step}."));
    ui_paragraph(ui, r.x, r.y + r.h - foot + ui_px(ui, 20), r.w, 12, UI_REGULAR, ui->theme->ink2,
                 words);
    app_mark(app, "course_charts", r);
}
