/* Left column: the filters, the list of runs or what a filter may be, what may stand beside the
 * run, and the course small.
 */
#include "debrief/debrief.h"

#include "io/run_summary.h"
#include "io/score_words.h"

#include <math.h>

enum { ABOUT = 5 };

void debrief_breaks_words(int breaks, char *out, size_t size)
{
    SDL_snprintf(
        out, size,
        app_plural("left and gone on with %d time", "left and gone on with %d times", breaks),
        breaks);
}

/* The second line of a row: what is to be known of the run, most important first, then when. */
static void about(const App *app, const PbRunSummary *m, const char *when, char *out, size_t size)
{
    char left[40] = "", breaks[60] = "";
    if (m->state == PB_RUN_LEFT) {
        SDL_snprintf(left, sizeof left, _("left at %s"), app_fmt_clock(app, m->duration_s));
    }
    if (m->breaks > 0) {
        debrief_breaks_words(m->breaks, breaks, sizeof breaks);
    }
    const char *words[ABOUT] = {
        m->state == PB_RUN_UNVERIFIED ? _("not verified") : left, breaks,
        m->is_scripted ? _("scripted") : "",
        exercises_is_own(&app->exercises, m->exercise_hash) ? _("own exercise") : "",
        m->origin == PB_ORIGIN_IMPORTED ? _("imported") : ""};
    out[0] = '\0';
    for (int i = 0; i < ABOUT; i++) {
        SDL_strlcat(out, words[i], size);
        SDL_strlcat(out, words[i][0] != '\0' ? ", " : "", size);
    }
    SDL_strlcat(out, when, size);
}

/* Name and what is known of the run, both wrapped; returns how high the row is. Not drawn, it is
 * measured. */
static float row_words(const App *app, GfxRect r, const StoreRun *s, int is_drawn)
{
    Ui *ui = app->ui;
    const GfxColor none = {0, 0, 0, 0};
    char text[200], when[24];
    float in = ui_px(ui, 11), w = r.w - in - ui_px(ui, 40), y = r.y + ui_px(ui, 17);
    y += ui_paragraph(ui, r.x + in, y, w, 14, UI_BOLD, is_drawn ? ui->theme->ink : none,
                      s->learner) -
         ui_px(ui, 2);
    (void)io_local_time(s->summary.when, when);
    about(app, &s->summary, when, text, sizeof text);
    y += ui_paragraph(ui, r.x + in, y, w, 12, UI_REGULAR, is_drawn ? ui->theme->ink2 : none, text);
    if (s->mark_count > 0) {
        y += ui_paragraph(ui, r.x + in, y, w, 12, UI_REGULAR, is_drawn ? ui->theme->accent : none,
                          _("trainer's points"));
    }
    return y - r.y - ui_px(ui, 7);
}

static void row(const App *app, GfxRect r, const StoreRun *s, int chosen)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    if (chosen) {
        ui_rect(ui, r.x, r.y, r.w, r.h - 2.0f, t->accent_wash);
        ui_rect(ui, r.x, r.y, ui_px(ui, 5), r.h - 2.0f, t->accent);
    }
    (void)row_words(app, r, s, 1);
    if (s->summary.state == PB_RUN_FINISHED) {
        ui_label(ui, r.x + r.w - ui_px(ui, 6), r.y + ui_px(ui, 24), 17, UI_BOLD, t->ink, UI_RIGHT,
                 app_fmt_mark(app, s->summary.total));
    }
}

static void list(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const Debrief *d = app->debrief;
    float high = ui_px(ui, 45);
    int shown = (int)(r.h / high), last = d->kept.first_row + shown;
    for (int i = d->kept.first_row; i <= last && i < d->kept.count;
         i++) { /* all as high as the highest */
        high = fmaxf(high, row_words(app, r, &d->kept.runs[i], 0));
    }
    shown = (int)(r.h / high);
    shown = shown < 1 ? 1 : shown > d->kept.count ? d->kept.count : shown;
    GfxRect rows = {r.x, r.y, r.w, high * (float)shown};
    int first =
        debrief_list(ui, ID_D_RUNS, rows,
                     (DebriefRows){d->kept.count, shown, d->kept.row, d->kept.first_row, high});
    for (int k = 0; k < shown && first + k < d->kept.count; k++) {
        int i = first + k;
        GfxRect one = {r.x, r.y + high * (float)k, r.w, high};
        row(app, one, &d->kept.runs[i], i == d->kept.row);
        if (k == 0) {
            app_mark(app, "run1", one);
        } else if (k == 1) {
            app_mark(app, "run2", one);
        }
    }
    app_mark(app, "runs", rows);
}

/* What stands beside the run: one button that goes round. */
static void beside(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const Debrief *d = app->debrief;
    char text[200];
    if (d->mates.chosen < 0) {
        SDL_snprintf(text, sizeof text, "%s", _("nothing"));
    } else if (d->mates.chosen >= d->mates.count) {
        SDL_snprintf(text, sizeof text, "%s", _("Reference run"));
    } else {
        const StoreRun *m = &d->mates.list[d->mates.chosen];
        char when[24];
        int has_when = io_local_time(m->summary.when, when); /* month, day, hour are enough */
        SDL_snprintf(text, sizeof text, "%s %s", m->learner, has_when ? when + 5 : "");
        if (m->summary.state == PB_RUN_FINISHED) {
            SDL_strlcat(text, "  ", sizeof text);
            SDL_strlcat(text, app_fmt_mark(app, m->summary.total), sizeof text);
        }
    }
    ui_label(ui, r.x, r.y + ui_px(ui, 14), 16, UI_BOLD, ui->theme->ink, UI_LEFT, _("Beside it"));
    GfxRect b = {r.x, r.y + ui_px(ui, 24), r.w, ui_px(ui, 30)};
    app_mark(app, "beside", b);
    debrief_wide_button(app, ID_D_MATE, b, r.w - ui_px(ui, 14), text, !d->runs[0].is_open);
}

static void small_course(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Debrief *d = app->debrief;
    UiPoint p[64];
    int n = d->course.count > 64 ? 64 : d->course.count, first = d->course.count - n;
    double pass = d->runs[0].watched.has_score ? d->runs[0].watched.score.pass_score
                                               : d->runs[0].file.exercise.pass_score;
    char text[80];
    ui_label(ui, r.x, r.y + ui_px(ui, 14), 16, UI_BOLD, t->ink, UI_LEFT, _("Progress"));
    float top = r.y + ui_px(ui, 24), high = r.h - ui_px(ui, 44);
    ui_rect(ui, r.x, top, r.w, 1.0f, t->ink2);
    float line = top + high * (float)(1.0 - pass / 100.0);
    ui_dashes(ui, r.x, line, r.x + r.w, line, 1.0f, 4.0f, t->edge);
    for (int i = 0; i < n; i++) {
        float f = n > 1 ? (float)i / (float)(n - 1) : 0.5f;
        p[i] =
            (UiPoint){r.x + ui_px(ui, 6) + f * (r.w - ui_px(ui, 12)),
                      top + high * (float)(1.0 - d->course.list[first + i].summary.total / 100.0)};
    }
    ui_polyline(ui, p, n, 2.0f, t->ink);
    for (int i = 0; i < n; i++) {
        int is_this = d->course.list[first + i].id == d->runs[0].id;
        ui_circle(ui, p[i].x, p[i].y, 5.0f, is_this ? t->accent : t->ink);
        if (!is_this) {
            ui_circle(ui, p[i].x, p[i].y, 3.0f, t->paper);
        }
    }
    ui_rect(ui, r.x, top + high, r.w, 1.0f, t->ink2);
    SDL_snprintf(text, sizeof text, _("pass %s"), app_fmt_points(app, pass));
    ui_label(ui, r.x, top + high + ui_px(ui, 15), 12, UI_REGULAR, t->ink2, UI_LEFT, text);
    SDL_snprintf(text, sizeof text, app_plural("%d run", "%d runs", d->course.count),
                 d->course.count);
    ui_label(ui, r.x + r.w, top + high + ui_px(ui, 15), 12, UI_REGULAR, t->ink2, UI_RIGHT, text);
}

void debrief_side_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    float head = ui_px(ui, 22), two = ui_px(ui, 76), gap = ui_px(ui, 12);
    float side = ui_px(ui, 62), course = ui_px(ui, 150);
    float room = r.h - head - two - 2 * gap - side - course;
    if (room < ui_px(ui, 140)) {
        room += course;
        course = 0.0f;
    }
    ui_label(ui, r.x, r.y + ui_px(ui, 14), 16, UI_BOLD, ui->theme->ink, UI_LEFT, _("Runs"));
    debrief_filters_draw(app, (GfxRect){r.x, r.y + head, r.w, two});
    float y = r.y + head + two;
    GfxRect rows = {r.x, y, r.w, room};
    if (app->debrief->filter.open != FILTER_NONE) {
        debrief_choices_draw(app, rows);
    } else if (app->debrief->kept.count > 0) {
        list(app, rows);
    } else {
        char none[200];
        debrief_none_words(app, none, sizeof none);
        ui_paragraph(ui, r.x, y + ui_px(ui, 20), r.w, 14, UI_REGULAR, ui->theme->ink2, none);
    }
    y += room + gap;
    beside(app, (GfxRect){r.x, y, r.w, side});
    y += side + gap;
    if (course > 0.0f && app->debrief->course.count > 0) {
        small_course(app, (GfxRect){r.x, y, r.w, course});
    }
}

void debrief_side_answer(App *app)
{
    const Ui *ui = app->ui;
    Debrief *d = app->debrief;
    double row;
    debrief_filters_answer(app);
    if (ui_answered(ui, ID_D_RUNS_TOP, &row)) {
        d->kept.first_row = (int)row;
    }
    if (ui_answered(ui, ID_D_RUNS, &row) && (int)row != d->kept.row) {
        debrief_pick(app, (int)row);
    }
    if (ui_answered(ui, ID_D_MATE, NULL)) {
        debrief_next_mate(app);
    }
}
