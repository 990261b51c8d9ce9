/* The trainer's word on one part or on the whole run: points, and a reason or a comment. What was
 * computed is never changed by it, and an earlier word is kept when a later one is given. */
#include "debrief/debrief.h"

#include "io/score_words.h"

#include <math.h>

static const char *part_name(const App *app, int part)
{
    return part >= PB_SCORE_PARTS ? _("Whole run")
                                  : io_part_name((PbScorePartKind)part, app->taste.lang);
}

/* By the rubric in use, as the rows of the rubric show it. */
static double most(const Debrief *d)
{
    return d->part < PB_SCORE_PARTS ? d->runs[0].watched.score.parts[d->part].max : 100.0;
}

/* As it is shown beside the part. */
static double computed(const Debrief *d)
{
    const PbScore *s = &d->runs[0].watched.score;
    int shown[PB_SCORE_PARTS];
    io_parts_shown(s, shown);
    return d->part < PB_SCORE_PARTS ? shown[d->part] : io_mark_shown(s->total);
}

/* Which part: one button that goes round; the rubric's rows choose as well. */
static void part_button(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const Debrief *d = app->debrief;
    ui_button(ui, ID_D_PART, r, part_name(app, d->part), 0, 0);
    app_mark(app, "part", r);
}

static void points_row(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Debrief *d = app->debrief;
    char text[100];
    double top = fmax(most(d), 1.0), in_use = debrief_in_use(&d->runs[0], d->part);
    double v = (d->box.points < 0.0 ? computed(d) : d->box.points * in_use) / top;
    float word_w = ui_width(ui, 16, UI_BOLD, "100 / 100") + ui_px(ui, 16);
    GfxRect track = {r.x + ui_px(ui, 10), r.y, r.w - word_w - ui_px(ui, 20), r.h};
    ui_slider(ui, ID_D_POINTS, track, v, 1.0 / top, computed(d) / top);
    if (!ui_answered(ui, ID_D_POINTS, NULL) && ui->in.pressed && ui_is_dragged(ui, ID_D_POINTS)) {
        ui_answer(ui, ID_D_POINTS, v); /* a press on what is computed gives as much */
    }
    app_mark(app, "points", track);
    SDL_snprintf(text, sizeof text, "%s / %s",
                 d->box.points < 0.0 ? "–" : app_fmt(app, 0, d->box.points * in_use, ""),
                 app_fmt_points(app, top));
    ui_label(ui, r.x + r.w, r.y + r.h * 0.5f + ui_px(ui, 6), 16, UI_BOLD, t->accent, UI_RIGHT,
             text);
}

/* What was said before, newest first. */
static void history(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Debrief *d = app->debrief;
    float y = r.y;
    char text[400];
    for (int i = d->marks.count - 1; i >= 0; i--) {
        const StoreMark *m = &d->marks.list[i];
        const char *name = m->part;
        double in_use = 1.0;
        for (int p = 0; p <= PB_SCORE_PARTS; p++) {
            int is_this = SDL_strcmp(m->part, debrief_part_key(p)) == 0;
            name = is_this ? part_name(app, p) : name;
            in_use = is_this ? debrief_in_use(&d->runs[0], p) : in_use;
        }
        const char *by = m->trainer[0] != '\0' ? ": " : "";
        if (m->points >= 0.0) {
            SDL_snprintf(text, sizeof text, "%s%s%s %s  %.240s", m->trainer, by, name,
                         app_fmt(app, 0, m->points * in_use, ""), m->reason);
        } else {
            SDL_snprintf(text, sizeof text, "%s%s%s  %.240s", m->trainer, by, name, m->reason);
        }
        y += ui_paragraph(ui, r.x, y + ui_px(ui, 12), r.w, 12, UI_REGULAR,
                          m->is_current ? t->ink : t->ink2, text);
    }
    page_needs(app, y - (r.y + r.h));
}

void debrief_trainer_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Debrief *d = app->debrief;
    char text[100];
    float high = ui_px(ui, 32), gap = ui_px(ui, 6), y = r.y;
    SDL_snprintf(text, sizeof text, _("computed %s"), app_fmt(app, 0, computed(d), ""));
    float wide = fminf(r.w * 0.5f, ui_px(ui, 190));
    part_button(app, (GfxRect){r.x, y, wide, high});
    ui_label(ui, r.x + wide + ui_px(ui, 12), y + ui_px(ui, 21), 13, UI_REGULAR, t->ink2, UI_LEFT,
             text);
    y += high + gap;
    points_row(app, (GfxRect){r.x, y, r.w, high});
    y += high + gap;
    int is_empty = d->box.points < 0.0 && d->box.typed[0] == '\0';
    const char *note = d->box.points >= 0.0 ? "" /* said before anything is saved */
                       : is_empty           ? _("Give points, a reason or a comment first.")
                                            : _("No points are set: Save keeps the comment alone.");
    GfxColor none = {0, 0, 0, 0};
    float words = ui_paragraph(ui, 0, 0, r.w, 12, UI_REGULAR, none, note);
    float rest = r.y + r.h - y - 2.0f * high - gap - words;
    float box_h = fminf(fmaxf(rest * 0.55f, ui_px(ui, 44)), ui_px(ui, 120));
    GfxRect box = {r.x, y, r.w, box_h};
    char typed[sizeof d->box.typed], trainer[sizeof d->trainer];
    SDL_strlcpy(typed, d->box.typed, sizeof typed);
    SDL_strlcpy(trainer, d->trainer, sizeof trainer);
    ui_text_box(ui, ID_D_TEXT, box, typed, (int)sizeof typed, _("Reason or comment"));
    if (ui->has_left_out) {
        ui_answer(ui, ID_D_LEFT_OUT, 1.0);
    }
    app_mark(app, "comment", box);
    y += box_h + gap;
    float save_w = fminf(ui_px(ui, 110), r.w * 0.4f);
    GfxRect save = {r.x + r.w - save_w, y, save_w, high};
    GfxRect name = {r.x, y, r.w - save_w - gap, high};
    ui_text_field(ui, ID_D_NAME, name, trainer, (int)sizeof trainer, _("Trainer's name"));
    app_mark(app, "trainer_name", name);
    ui_button(ui, ID_D_SAVE, save, _("Save"), 1, d->runs[0].id == 0 || is_empty);
    app_mark(app, "save", save);
    y += high + gap;
    y += ui_paragraph(ui, r.x, y + ui_px(ui, 12), r.w, 12, UI_REGULAR, t->ink2, note);
    history(app, (GfxRect){r.x, y, r.w, r.y + r.h - y});
}

void debrief_trainer_answer(App *app)
{
    const Ui *ui = app->ui;
    Debrief *d = app->debrief;
    double place;
    if (ui_answered(ui, ID_D_POINTS, &place)) {
        double top = fmax(most(d), 1.0);
        d->box.points = fmin(floor(place * top + 0.5), top) / debrief_in_use(&d->runs[0], d->part);
        debrief_draft_keep(app);
    }
    if (ui_answered(ui, ID_D_TEXT, NULL)) {
        SDL_strlcpy(d->box.typed, ui->answer_text, sizeof d->box.typed);
        debrief_draft_keep(app);
    }
    if (ui_answered(ui, ID_D_LEFT_OUT, NULL)) {
        debrief_say(app, _("Not all of it fits; the rest was left out."), 1);
    }
    if (ui_answered(ui, ID_D_NAME, NULL)) {
        SDL_strlcpy(d->trainer, ui->answer_text, sizeof d->trainer);
    }
    if (ui_answered(ui, ID_D_PART, NULL)) {
        d->part = (d->part + 1) % (PB_SCORE_PARTS + 1);
        debrief_take_mark(app);
    }
    if (ui_answered(ui, ID_D_SAVE, NULL)) {
        debrief_save_mark(app);
    }
}
