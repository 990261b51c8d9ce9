/* Whose runs of which exercise are listed: two buttons, each of which opens a list to choose from
 * where the runs stand. A choice that the open run is not in opens the newest that is. */
#include "debrief/debrief.h"

static int count_of(const Debrief *d)
{
    return d->filter.open == FILTER_LEARNER ? d->kept.learner_count : d->kept.exercise_count;
}

static int filter_of(const Debrief *d)
{
    return d->filter.open == FILTER_LEARNER ? d->filter.learner : d->filter.exercise;
}

static const char *learner_words(const Debrief *d, int i)
{
    return i >= 0 ? d->kept.learners[i].name : _("All learners");
}

static const char *exercise_words(const Debrief *d, int i)
{
    return i >= 0 ? _(d->kept.titles[i]) : _("All exercises");
}

void debrief_wide_button(const App *app, int id, GfxRect r, float room, const char *words,
                         int is_off)
{
    Ui *ui = app->ui;
    ui_button(ui, id, r, "", 0, is_off);
    int is_held = ui->active == id && ui->hot == id;
    GfxColor ink = is_off ? ui->theme->ink2 : is_held ? ui->theme->sheet : ui->theme->ink;
    GfxRect in = {r.x + (r.w - room) * 0.5f, r.y, room, r.h};
    ui_words(ui, in, 14, UI_BOLD, ink, UI_CENTRE, words);
}

static void button(const App *app, int id, GfxRect r, DebriefFilterKind which, const char *words)
{
    Ui *ui = app->ui;
    const Debrief *d = app->debrief;
    float side = ui_px(ui, 5), x = r.x + r.w - ui_px(ui, 14), y = r.y + r.h * 0.5f;
    debrief_wide_button(app, id, r, r.w - ui_px(ui, 36), words, 0);
    side = d->filter.open == (int)which ? -side : side;
    ui_polygon(
        ui, (UiPoint[3]){{x - side, y - side * 0.5f}, {x + side, y - side * 0.5f}, {x, y + side}},
        3, ui->theme->ink);
}

void debrief_filters_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const Debrief *d = app->debrief;
    float high = ui_px(ui, 30), gap = ui_px(ui, 6);
    GfxRect who = {r.x, r.y, r.w, high}, what = {r.x, r.y + high + gap, r.w, high};
    button(app, ID_D_LEARNER, who, FILTER_LEARNER, learner_words(d, d->filter.learner));
    button(app, ID_D_EXERCISE, what, FILTER_EXERCISE, exercise_words(d, d->filter.exercise));
    app_mark(app, "learner", who);
    app_mark(app, "exercise", what);
}

static void choose(App *app, int choice)
{
    Debrief *d = app->debrief;
    if (choice == filter_of(d)) {
        return;
    }
    *(d->filter.open == FILTER_LEARNER ? &d->filter.learner : &d->filter.exercise) = choice;
    debrief_refresh(app);
    if (d->kept.row < 0 && d->kept.count > 0) {
        debrief_pick(app, 0);
    } else if (d->kept.count == 0) { /* nobody else's run stands for theirs */
        debrief_draft_keep(app);
        debrief_run_close(&d->runs[0]);
        debrief_run_close(&d->runs[1]);
        d->box.run = 0;
        d->course.count = 0;
        d->view.is_course = 0;
    }
}

void debrief_choices_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Debrief *d = app->debrief;
    float high = ui_px(ui, 32);
    int all = count_of(d) + 1, shown = (int)(r.h / high), now = filter_of(d) + 1;
    shown = shown < 1 ? 1 : shown > all ? all : shown;
    GfxRect rows = {r.x, r.y, r.w, high * (float)shown};
    int first = debrief_list(ui, ID_D_CHOICES, rows,
                             (DebriefRows){all, shown, now, d->filter.first_row, high});
    int is_picked = ui_over(ui, rows) && ui->in.pressed && ID_D_CHOICES >= ui->modal;
    if (is_picked || (ui->focus == ID_D_CHOICES && (ui->in.enter || ui->in.space))) {
        ui_answer(ui, ID_D_CHOSEN, 1.0);
    }
    for (int k = 0; k < shown; k++) {
        int i = first + k - 1;
        GfxRect one = {r.x, r.y + high * (float)k, r.w, high - 2.0f};
        char mark[24];
        SDL_snprintf(mark, sizeof mark, "choice%d", i + 1);
        app_mark(app, mark, one);
        if (i + 1 == now) {
            ui_rect(ui, one.x, one.y, one.w, one.h, t->accent_wash);
            ui_rect(ui, one.x, one.y, ui_px(ui, 5), one.h, t->accent);
        }
        const char *words =
            d->filter.open == FILTER_LEARNER ? learner_words(d, i) : exercise_words(d, i);
        GfxRect in = {one.x + ui_px(ui, 11), one.y, one.w - ui_px(ui, 14), one.h};
        ui_words(ui, in, 14, i + 1 == now ? UI_BOLD : UI_REGULAR, t->ink, UI_LEFT, words);
    }
}

/* Its button opens the list of a filter, and closes it again. */
static void open_filter(App *app, DebriefFilterKind which, int id)
{
    Debrief *d = app->debrief;
    d->filter.open = d->filter.open == (int)which ? FILTER_NONE : (int)which;
    d->filter.first_row = 0;
    app->turn.focus_next = d->filter.open != FILTER_NONE ? ID_D_CHOICES : id;
}

void debrief_filters_answer(App *app)
{
    const Ui *ui = app->ui;
    Debrief *d = app->debrief;
    double row;
    if (ui_answered(ui, ID_D_CHOICES_TOP, &row)) {
        d->filter.first_row = (int)row;
    }
    if (ui_answered(ui, ID_D_CHOICES, &row)) {
        choose(app, (int)row - 1);
    }
    if (ui_answered(ui, ID_D_CHOSEN, NULL)) {
        app->turn.focus_next = d->filter.open == FILTER_LEARNER ? ID_D_LEARNER : ID_D_EXERCISE;
        d->filter.open = FILTER_NONE;
    }
    if (ui_answered(ui, ID_D_LEARNER, NULL)) {
        open_filter(app, FILTER_LEARNER, ID_D_LEARNER);
    }
    if (ui_answered(ui, ID_D_EXERCISE, NULL)) {
        open_filter(app, FILTER_EXERCISE, ID_D_EXERCISE);
    }
}

void debrief_none_words(const App *app, char *out, size_t size)
{
    const Debrief *d = app->debrief;
    out[0] = '\0';
    if (d->filter.learner >= 0) {
        SDL_snprintf(out, size, _("No run of %s is kept here."),
                     learner_words(d, d->filter.learner));
    } else if (d->filter.exercise >= 0) {
        SDL_snprintf(out, size, "%s", _("No run of this exercise is kept here."));
    }
}
