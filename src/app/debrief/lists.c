/* Losses and lifts: choosing a row moves map and time line to its place and moment. */
#include "debrief/debrief.h"

#include "core/units.h"
#include "io/debrief_words.h"
#include "io/score_words.h"

#include <math.h>

static void more_below(const App *app, GfxRect r, int first, int shown, int count)
{
    Ui *ui = app->ui;
    if (count <= shown) {
        return;
    }
    float high = r.h * (float)shown / (float)count;
    ui_rect(ui, r.x + r.w + ui_px(ui, 3), r.y, ui_px(ui, 4), r.h, ui->theme->well);
    ui_rect(ui, r.x + r.w + ui_px(ui, 3), r.y + r.h * (float)first / (float)count, ui_px(ui, 4),
            high, ui->theme->edge);
}

/* The best thing, the worst thing, what changed since the last time, the next thing to try. */
void debrief_short_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Debrief *d = app->debrief;
    char said[IO_SHORT_LINES][IO_DEBRIEF_BYTES];
    const char *heads[IO_SHORT_LINES];
    const GfxColor none = {0, 0, 0, 0};
    float high = 0.0f, gap = ui_px(ui, 30);
    int count = io_short_lines(&d->runs[0].watched.score, &d->runs[0].file.exercise,
                               debrief_last_time(d), app_reader(app), heads, said);
    for (int i = 0; i < count; i++) {
        high += gap + ui_paragraph(ui, 0, 0, r.w, 14, UI_REGULAR, none, said[i]);
    }
    high += debrief_sure_draw(app, (GfxRect){0.0f, 0.0f, r.w, 0.0f}, 0);
    page_needs(app, high - r.h);
    float y = r.y;
    ui_layer(ui, &(GfxRect){r.x - ui_px(ui, 6), r.y, r.w + ui_px(ui, 12), r.h});
    for (int i = 0; i < count; i++) {
        ui_label(ui, r.x, y + ui_px(ui, 12), 12, UI_BOLD, i == 1 ? t->danger : t->accent, UI_LEFT,
                 heads[i]);
        y += ui_px(ui, 28);
        y += ui_paragraph(ui, r.x, y, r.w, 14, UI_REGULAR, t->ink, said[i]) + gap - ui_px(ui, 28);
    }
    (void)debrief_sure_draw(app, (GfxRect){r.x, y, r.w, 0.0f}, 1);
    ui_layer(ui, NULL);
    app_mark(app, "short", r);
}

void debrief_losses_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Debrief *d = app->debrief;
    const PbScore *s = &d->runs[0].watched.score;
    char text[300];
    int lost[PB_SCORE_MAX_LOSSES];
    io_losses_shown(s, lost);
    float row = ui_px(ui, 39), words = r.w - ui_px(ui, 80);
    const GfxColor none = {0, 0, 0, 0};
    for (int i = 0; i < s->loss_count; i++) { /* all as high as the highest */
        io_loss_sentence(&s->losses[i], app_reader(app), text, sizeof text);
        row = fmaxf(row, ui_paragraph(ui, 0, 0, words, 12, UI_REGULAR, none, text) + ui_px(ui, 5));
    }
    int shown = (int)(r.h / row), chosen = d->loss >= 0 ? debrief_loss_rank(s, d->loss) - 1 : -1;
    shown = shown < 1 ? 1 : shown > s->loss_count ? s->loss_count : shown;
    if (s->loss_count == 0) {
        ui_label(ui, r.x, r.y + ui_px(ui, 18), 14, UI_REGULAR, t->ink2, UI_LEFT, _("nothing lost"));
        return;
    }
    GfxRect rows = {r.x, r.y, r.w - ui_px(ui, 8), row * (float)shown};
    int first = debrief_list(ui, ID_D_LOSSES, rows,
                             (DebriefRows){s->loss_count, shown, chosen, d->first_loss, row});
    ui_layer(ui, &(GfxRect){r.x - ui_px(ui, 6), r.y, r.w + ui_px(ui, 12), r.h});
    for (int k = 0; k < shown; k++) {
        int rank = first + k + 1, i = debrief_loss_at_rank(s, rank);
        if (i < 0) {
            break;
        }
        float y = r.y + row * (float)k;
        if (rank - 1 == chosen) {
            ui_rect(ui, r.x, y, rows.w, row - 1.0f, t->accent_wash);
        }
        debrief_ring(ui, r.x + ui_px(ui, 12), y + row * 0.5f, rank, i == d->loss);
        ui_label(ui, r.x + ui_px(ui, 62), y + ui_px(ui, 23), 14, UI_BOLD, t->ink, UI_RIGHT,
                 lost[i] > 0 ? app_fmt(app, 0, -lost[i], "") : "<1");
        io_loss_sentence(&s->losses[i], app_reader(app), text, sizeof text);
        ui_paragraph(ui, r.x + ui_px(ui, 72), y + ui_px(ui, 15), words, 12, UI_REGULAR, t->ink,
                     text);
        ui_rect(ui, r.x, y + row - 1.0f, rows.w, 1.0f, t->rule);
    }
    ui_layer(ui, NULL);
    more_below(app, rows, first, shown, s->loss_count);
    app_mark(app, "losses", (GfxRect){r.x, r.y, rows.w, rows.h});
    app_mark(app, "loss1", (GfxRect){r.x, r.y, rows.w, row});
}

static int real_lifts(const DebriefRun *r, int *index)
{
    int n = 0;
    for (int i = 0; i < r->watched.lift_count; i++) {
        if (pb_is_stop(&r->watched.lifts[i], &r->watched.rubric)) {
            index[n++] = i;
        }
    }
    return n;
}

/* Seconds with the mouth still there after the flow fell; negative = it never fell. */
static double dwell_of(const DebriefRun *r, int i)
{
    const PbLift *l = &r->watched.lifts[i];
    double left = i < PB_SCORE_MAX_LIFTS ? r->watched.watch.lifts[i].left_s : 0.0;
    left = left > 0.0 ? left : l->to_s;
    return l->stall_s < 0.0 ? -1.0 : fmax(left - l->stall_s, 0.0);
}

static void lift_row(const App *app, GfxRect r, const float *at, int index, int number, int chosen)
{
    Ui *ui = app->ui;
    const PbLift *l = &app->debrief->runs[0].watched.lifts[index];
    double dwell = dwell_of(&app->debrief->runs[0], index);
    char span[40];
    const UiTheme *t = ui->theme;
    double unit = app->taste.is_us ? PB_M_PER_FT : 1.0;
    int soft = l->density_kg_m3 < app->debrief->runs[0].file.exercise.target_kg_m3;
    UiWeight wt = soft ? UI_BOLD : UI_REGULAR;
    float y = r.y + r.h * 0.72f;
    if (soft || chosen) {
        ui_rect(ui, r.x, r.y, r.w, r.h, chosen ? t->accent_wash : t->danger_wash);
    }
    if (soft) {
        float x = at[0] + ui_px(ui, 12), s = ui_px(ui, 5);
        ui_polygon(ui, (UiPoint[3]){{x, y - 2 * s}, {x + s, y}, {x - s, y}}, 3, t->danger);
    }
    ui_label(ui, at[0], y, 13, wt, t->ink, UI_RIGHT, app_fmt(app, 0, number, ""));
    SDL_snprintf(span, sizeof span, "%s–%s", app_fmt_clock(app, l->from_s),
                 app_fmt_clock(app, l->to_s));
    ui_label(ui, at[1], y, 12, UI_REGULAR, t->ink, UI_RIGHT, span);
    ui_label(ui, at[2], y, 13, wt, t->ink, UI_RIGHT, app_fmt(app, 2, l->mouth_y_m / unit, ""));
    ui_label(ui, at[3], y, 13, wt, t->ink, UI_RIGHT,
             l->step_m > 0.0 ? app_fmt(app, 2, l->step_m / unit, "") : "–");
    ui_label(ui, at[4], y, 13, wt, t->ink, UI_RIGHT,
             dwell >= 0.0 ? app_fmt(app, 1, dwell, "") : "–");
    ui_label(ui, at[5], y, 13, wt, t->ink, UI_RIGHT,
             app_fmt(app, 2, io_unit_value(IO_UNIT_MASS, l->mass_kg, app_reader(app)), ""));
    ui_label(ui, at[6], y, 13, wt, soft ? t->danger : t->ink, UI_RIGHT,
             app_fmt_density(app, l->density_kg_m3, 0));
}

void debrief_lifts_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Debrief *d = app->debrief;
    int index[PB_SCORE_MAX_LIFTS], n = real_lifts(&d->runs[0], index), chosen = -1;
    const char *heads[7] = {_("stop"),
                            _("from, to"),
                            app->taste.is_us ? _("at ft") : _("at m"),
                            app->taste.is_us ? _("pull ft") : _("pull m"),
                            _("wait s"),
                            app_unit(app, IO_UNIT_MASS),
                            app_unit(app, IO_UNIT_DENSITY)};
    const double share[7] = {0.05, 0.28, 0.42, 0.56, 0.72, 0.85, 1.0};
    float at[7], row = ui_px(ui, 20), head = ui_px(ui, 20), w = r.w - ui_px(ui, 8);
    for (int k = 0; k < 7; k++) {
        at[k] = r.x + w * (float)share[k];
        if (k == 0) {
            ui_label(ui, r.x, r.y + ui_px(ui, 13), 12, UI_REGULAR, t->ink2, UI_LEFT, heads[k]);
            continue;
        }
        float left = at[k - 1] + ui_px(ui, 4);
        ui_words(ui, (GfxRect){left, r.y - ui_px(ui, 7), at[k] - left, ui_px(ui, 26)}, 12,
                 UI_REGULAR, t->ink2, UI_RIGHT, heads[k]);
    }
    ui_rect(ui, r.x, r.y + head - 1.0f, w, 1.0f, t->ink2);
    for (int k = 0; k < n; k++) {
        chosen = index[k] == d->lift ? k : chosen;
    }
    int shown = (int)((r.h - head) / row);
    shown = shown < 1 ? 1 : shown > n ? n : shown;
    GfxRect rows = {r.x, r.y + head, w, row * (float)shown};
    int first =
        debrief_list(ui, ID_D_LIFTS, rows, (DebriefRows){n, shown, chosen, d->first_lift, row});
    for (int k = 0; k < shown && first + k < n; k++) {
        int i = first + k;
        lift_row(app, (GfxRect){r.x, rows.y + row * (float)k, w, row}, at, index[i], i + 1,
                 i == chosen);
    }
    more_below(app, rows, first, shown, n);
    app_mark(app, "lifts", rows);
}

void debrief_lists_answer(App *app)
{
    const Ui *ui = app->ui;
    Debrief *d = app->debrief;
    double row;
    if (ui_answered(ui, ID_D_SURE, NULL)) {
        debrief_sure_ask(app);
    }
    if (ui_answered(ui, ID_D_LOSSES_TOP, &row)) {
        d->first_loss = (int)row;
    }
    if (ui_answered(ui, ID_D_LOSSES, &row)) {
        debrief_choose_loss(app, debrief_loss_at_rank(&d->runs[0].watched.score, (int)row + 1));
    }
    if (ui_answered(ui, ID_D_LIFTS_TOP, &row)) {
        d->first_lift = (int)row;
    }
    int index[PB_SCORE_MAX_LIFTS], n = real_lifts(&d->runs[0], index);
    if (ui_answered(ui, ID_D_LIFTS, &row) && row >= 0.0 && row < n) {
        debrief_choose_lift(app, index[(int)row]);
    }
}
