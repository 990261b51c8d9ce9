/* The grade column: what was computed and what the trainer says, side by side, part by part. */
#include "debrief/debrief.h"

#include "io/score_words.h"

#include <math.h>
#include <string.h>

static const PbScorePart *mate_part(const Debrief *d, int part)
{
    return d->runs[1].is_open && d->runs[1].watched.has_score
               ? &d->runs[1].watched.score.parts[part]
               : NULL;
}

static float heading(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Debrief *d = app->debrief;
    const PbScore *s = &d->runs[0].watched.score;
    int given = 0;
    char text[120];
    double trainer = debrief_trainer_total(d, &given);
    float y = r.y + ui_px(ui, 28);
    float w = ui_label(ui, r.x, y, 32, UI_BOLD, t->ink, UI_LEFT, app_fmt_mark(app, s->total));
    char sum[80];
    io_sum_words(s, app_reader(app), sum, sizeof sum);
    SDL_snprintf(text, sizeof text, "%s%s%s", _("of 100, computed"), sum[0] != '\0' ? "; " : "",
                 sum);
    ui_label(ui, r.x + w + ui_px(ui, 8), y - ui_px(ui, 13), 13, UI_REGULAR, t->ink2, UI_LEFT, text);
    SDL_snprintf(text, sizeof text, _("%s, passing score %s"),
                 io_verdict_word(s->verdict, app_reader(app).language),
                 app_fmt_points(app, s->pass_score));
    ui_label(ui, r.x + w + ui_px(ui, 8), y + ui_px(ui, 3), 12, s->is_pass ? UI_REGULAR : UI_BOLD,
             s->is_pass ? t->ink2 : t->danger, UI_LEFT, text);
    float right = r.x + r.w;
    right -= ui_label(ui, right, y, 24, UI_BOLD, given ? t->accent : t->ink2, UI_RIGHT,
                      given ? app_fmt(app, 0, trainer, "") : "–");
    ui_label(ui, right - ui_px(ui, 8), y - ui_px(ui, 1), 13, UI_REGULAR, t->ink2, UI_RIGHT,
             _("trainer"));
    if (d->runs[1].is_open && d->runs[1].watched.has_score) {
        SDL_snprintf(text, sizeof text, _("beside: %d"),
                     io_mark_shown(d->runs[1].watched.score.total));
        ui_label(ui, right - ui_px(ui, 8), y - ui_px(ui, 15), 12, UI_REGULAR, t->accent, UI_RIGHT,
                 text);
    }
    y += ui_px(ui, 10);
    ui_rect(ui, r.x, y, r.w, 2.0f, t->ink);
    return y + ui_px(ui, 2);
}

static int dearest(const PbScore *s, const int *shown, int part)
{
    int best = -1;
    for (int i = 0; i < s->loss_count; i++) {
        if ((int)s->losses[i].part == part && shown[i] > 0 &&
            (best < 0 || debrief_loss_rank(s, i) < debrief_loss_rank(s, best))) {
            best = i;
        }
    }
    return best;
}

/* What is said of a part under its name: the trainer's word, else its dearest loss. Returns the
 * loss that has a ring, -1 = none. */
static int second_words(const App *app, int part, char *text, size_t size, GfxColor *ink)
{
    const UiTheme *t = app->ui->theme;
    const Debrief *d = app->debrief;
    const PbScore *s = &d->runs[0].watched.score;
    const StoreMark *mark = debrief_current_mark(d, debrief_part_key(part), 0);
    char words[240];
    int shown[PB_SCORE_MAX_LOSSES];
    io_losses_shown(s, shown);
    int loss = dearest(s, shown, part);
    *ink = t->ink2;
    if (mark != NULL && mark->reason[0] != '\0') {
        *ink = t->accent;
        SDL_snprintf(text, size, "%s: %.200s", _("Trainer"), mark->reason);
        return -1;
    }
    if (loss < 0) {
        SDL_strlcpy(text, result_little_lost(&s->parts[part]), size);
        return -1;
    }
    io_loss_sentence(&s->losses[loss], app_reader(app), words, sizeof words);
    SDL_snprintf(text, size, "–%s  %s", app_fmt(app, 0, shown[loss], ""), words);
    int is_placed = s->losses[loss].cause != PB_FAULT_HELD;
    return is_placed && debrief_loss_rank(s, loss) <= 5 ? loss : -1;
}

/* Wrapped; returns the height of the lines. Not drawn, it is measured. */
static float second_line(const App *app, GfxRect r, float y, int part, int is_drawn)
{
    static const GfxColor none = {0, 0, 0, 0};
    Ui *ui = app->ui;
    const Debrief *d = app->debrief;
    GfxColor ink;
    char text[300];
    int loss = second_words(app, part, text, sizeof text, &ink);
    float x = r.x + (loss >= 0 ? ui_px(ui, 26) : 0.0f), w = r.x + r.w - x;
    if (is_drawn && loss >= 0) {
        debrief_ring(ui, r.x + ui_px(ui, 10), y - ui_px(ui, 4),
                     debrief_loss_rank(&d->runs[0].watched.score, loss), loss == d->loss);
    }
    return ui_paragraph(ui, x, y, w, 12, UI_REGULAR, is_drawn ? ink : none, text);
}

static void part_row(const App *app, GfxRect r, int part)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Debrief *d = app->debrief;
    const PbScorePart *p = &d->runs[0].watched.score.parts[part], *mate = mate_part(d, part);
    const StoreMark *mark = debrief_current_mark(d, debrief_part_key(part), 1);
    char text[64];
    int shown[PB_SCORE_PARTS];
    float base = r.y + ui_px(ui, 17);
    io_parts_shown(&d->runs[0].watched.score, shown);
    if (d->part == part) {
        ui_rect(ui, r.x - ui_px(ui, 6), r.y, r.w + ui_px(ui, 12), r.h - 1.0f, t->accent_wash);
        ui_rect(ui, r.x - ui_px(ui, 6), r.y, ui_px(ui, 4), r.h - 1.0f, t->accent);
    }
    ui_label(ui, r.x, base, 14, UI_BOLD, t->ink, UI_LEFT,
             io_part_name((PbScorePartKind)part, app_reader(app).language));
    float right = r.x + r.w;
    if (mark != NULL) {
        right -= ui_label(ui, right, base, 14, UI_BOLD, t->accent, UI_RIGHT,
                          app_fmt(app, 0, mark->points * debrief_in_use(&d->runs[0], part), "")) +
                 ui_px(ui, 10);
    } else {
        right -= ui_width(ui, 14, UI_BOLD, "00") + ui_px(ui, 10);
    }
    SDL_snprintf(text, sizeof text, "%s / %s", app_fmt(app, 0, shown[part], ""),
                 app_fmt_points(app, p->max));
    ui_label(ui, right, base, 14, UI_BOLD, t->ink, UI_RIGHT, text);
    float bar_w = r.w * 0.26f;
    GfxRect bar = {right - ui_width(ui, 14, UI_BOLD, "00 / 00") - ui_px(ui, 14) - bar_w,
                   base - ui_px(ui, 10), bar_w, ui_px(ui, 10)};
    double most = p->max > 0.0 ? p->max : 1.0;
    ui_rect(ui, bar.x, bar.y, bar.w, bar.h, t->well);
    ui_rect(ui, bar.x, bar.y, bar.w * (float)(p->points / most), bar.h, t->ink2);
    ui_frame(ui, bar, 1.0f, t->edge);
    if (mate != NULL) {
        ui_rect(ui, bar.x + bar.w * (float)(mate->points / most) - 1.5f, bar.y - 3.0f, 3.0f,
                bar.h + 6.0f, t->accent);
    }
    (void)second_line(app, r, base + ui_px(ui, 20), part, 1);
    ui_rect(ui, r.x, r.y + r.h - 1.0f, r.w, 1.0f, t->rule);
}

float debrief_rubric_draw(const App *app, GfxRect r, int is_tight)
{
    Ui *ui = app->ui;
    const Debrief *d = app->debrief;
    float y = heading(app, r), high = ui_px(ui, is_tight ? 44 : 47);
    debrief_rubric_row(app, (GfxRect){r.x, y + ui_px(ui, 6), r.w, ui_px(ui, 28)});
    y += ui_px(ui, 38);
    float highs[PB_SCORE_PARTS], sum = 0.0f;
    int hit = -1;
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        highs[i] = high + second_line(app, r, 0.0f, i, 0) - ui_px(ui, 17);
        hit = ui_over(ui, (GfxRect){r.x, y + sum, r.w, highs[i]}) ? i : hit;
        sum += highs[i];
    }
    GfxRect rows = {r.x, y, r.w, sum};
    (void)debrief_list(ui, ID_D_RUBRIC, rows,
                       (DebriefRows){PB_SCORE_PARTS, PB_SCORE_PARTS, d->part, 0, 0.0f});
    if (hit >= 0 && ui->in.pressed && ID_D_RUBRIC >= ui->modal) {
        ui->focus = ID_D_RUBRIC;
        ui->is_ring_shown = 0;
        ui_answer(ui, ID_D_RUBRIC, hit);
    }
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        part_row(app, (GfxRect){r.x, y, r.w, highs[i]}, i);
        y += highs[i];
    }
    app_mark(app, "rubric", rows);
    return rows.y + rows.h;
}

static void panel(const App *app, GfxRect r, int which)
{
    if (which == PANEL_SHORT) {
        debrief_short_draw(app, r);
    } else if (which == PANEL_LOSSES) {
        debrief_losses_draw(app, r);
    } else if (which == PANEL_LIFTS) {
        debrief_lifts_draw(app, r);
    } else {
        debrief_trainer_draw(app, r);
    }
}

/* A run without a grade: one that was broken off, where and what can be done about it; or the
 * guide's. */
static void ungraded_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const DebriefRun *run = &app->debrief->runs[0];
    char head[60];
    SDL_snprintf(head, sizeof head, _("left at %s"),
                 app_fmt_clock(app, run->file.last_tick * PB_TICK_S));
    const char *text =
        run->is_guided
            ? _("Packed with the guide: half of the bay, and nothing here is graded.")
            : _("This run was left before its end and has no grade. Its learner can go on with "
                "it from the start screen, until a later run of this exercise is finished.");
    float y = r.y + ui_px(ui, 28);
    y += ui_paragraph(ui, r.x, y, r.w, 24, UI_BOLD, ui->theme->ink,
                      run->is_guided ? _("Guide") : head);
    y += ui_paragraph(ui, r.x, y, r.w, 14, UI_REGULAR, ui->theme->ink, text);
    page_needs(app, y - (r.y + r.h));
    app_mark(app, "left", r);
}

void debrief_grade_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const Debrief *d = app->debrief;
    const char *names[5] = {_("Rubric"), _("In short"), _("Points lost"), _("Stops"), _("Trainer")};
    float tab = ui_px(ui, 32), gap = ui_px(ui, 10);
    int is_tabbed = app->laid->text_scale >= 1.45 || r.h < ui_px(ui, 600);
    if (d->runs[0].is_left || d->runs[0].is_guided) {
        ungraded_draw(app, r);
    }
    if (!d->runs[0].watched.has_score) {
        return;
    }
    if (is_tabbed) {
        GfxRect tabs = {r.x, r.y, r.w, tab};
        d->laid->first_panel = PANEL_RUBRIC;
        ui_segments(ui, ID_D_PANEL, tabs, names, 5, d->view.panel);
        app_mark(app, "panel", tabs);
        GfxRect rest = {r.x, r.y + tab + gap, r.w, r.h - tab - gap};
        if (d->view.panel == PANEL_RUBRIC) {
            float below = debrief_rubric_draw(app, rest, 1) + gap;
            page_needs(app, below - (r.y + r.h));
            if (r.y + r.h - below > ui_px(ui, 150)) { /* room for what is said in short as well */
                debrief_short_draw(app, (GfxRect){r.x, below, r.w, r.y + r.h - below});
            }
        } else {
            panel(app, rest, d->view.panel);
        }
        return;
    }
    float y = debrief_rubric_draw(app, r, 0) + gap;
    GfxRect tabs = {r.x, y, r.w, tab};
    int now = d->view.panel == PANEL_RUBRIC ? PANEL_SHORT : d->view.panel;
    d->laid->first_panel = PANEL_SHORT;
    ui_segments(ui, ID_D_PANEL, tabs, names + 1, 4, now - 1);
    app_mark(app, "panel", tabs);
    y += tab + gap;
    page_needs(app, y + ui_px(ui, 150) - (r.y + r.h));
    panel(app, (GfxRect){r.x, y, r.w, r.y + r.h - y}, now);
}

/* A part that is chosen shows its dearest loss on map and time line. */
static void choose_part(App *app, int part)
{
    Debrief *d = app->debrief;
    if (part != d->part) {
        d->part = part;
        debrief_take_mark(app);
    }
    const PbScore *s = &d->runs[0].watched.score;
    int shown[PB_SCORE_MAX_LOSSES];
    io_losses_shown(s, shown);
    debrief_choose_loss(app, dearest(s, shown, part));
}

void debrief_grade_answer(App *app)
{
    const Ui *ui = app->ui;
    Debrief *d = app->debrief;
    double which;
    if (ui_answered(ui, ID_D_PANEL, &which)) {
        d->view.panel = d->laid->first_panel + (int)which;
    }
    if (ui_answered(ui, ID_D_RUBRIC, &which)) {
        choose_part(app, (int)which);
    }
    debrief_rubric_answer(app);
    debrief_lists_answer(app);
    debrief_trainer_answer(app);
}
