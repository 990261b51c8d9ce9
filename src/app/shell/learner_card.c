/* Who is learning: the card that chooses, adds, and deletes after a question that says what goes.
 */
#include "shell/shell.h"

#include "io/trouble_words.h"

#include <math.h>
#include <stdio.h>

static void ask(App *app, int index)
{
    LearnerGone *g = &app->cards.gone;
    char why[300] = "";
    if (!records_contents(&app->records, index, &g->contents, why, sizeof why)) {
        snprintf(app->cards.says, sizeof app->cards.says, "%s", why);
        return;
    }
    g->id = app->records.learners[index].id;
    snprintf(g->name, sizeof g->name, "%s", app->records.learners[index].name);
    app_card_open(app, CARD_DELETE);
}

static float delete_width(Ui *ui)
{
    return ui_width(ui, 14, UI_BOLD, _("Delete")) + ui_px(ui, 22);
}

static void learner_chosen(App *app)
{
    app_card_open(app, CARD_NONE);
    records_grades(&app->records, &app->exercises);
}

static void learner_row(const App *app, GfxRect r, int index, int is_now, int is_next)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Records *rec = &app->records;
    char mark[24], words[120] = "";
    float width = delete_width(ui);
    GfxRect gone = {r.x + r.w - width, r.y + ui_px(ui, 3), width, r.h - ui_px(ui, 6)};
    r.w -= index >= 0 ? width + ui_px(ui, 8) : 0.0f;
    int state = ui_area(ui, ID_OVER_ROWS + index + 1, r, 1);
    float base = r.y + r.h * 0.5f + ui_px(ui, 5), right = 0.0f;
    snprintf(mark, sizeof mark, "person_%d", index + 1);
    app_mark(app, mark, r);
    if (is_now) {
        ui_rect(ui, r.x, r.y, r.w, r.h, t->accent_wash);
        ui_rect(ui, r.x, r.y, 5.0f, r.h, t->accent);
    }
    if (state & UI_AREA_HOT) {
        ui_frame(ui, r, 2.0f, t->ink);
    }
    if (index >= 0) {
        int n = rec->learners[index].run_count;
        int used = snprintf(words, sizeof words, "%s", is_next ? _("next") : "");
        used += snprintf(words + used, sizeof words - (size_t)used, "%s", is_next ? ", " : "");
        snprintf(words + used, sizeof words - (size_t)used, app_plural("%d run", "%d runs", n), n);
        right =
            ui_label(ui, r.x + r.w - ui_px(ui, 10), base, 13, UI_REGULAR, t->ink2, UI_RIGHT, words);
    }
    GfxRect name = {r.x + ui_px(ui, 14), r.y, r.w - right - ui_px(ui, 34), r.h};
    ui_words(ui, name, 14, is_now ? UI_BOLD : UI_REGULAR, t->ink, UI_LEFT,
             index >= 0 ? rec->learners[index].name : _("nobody: nothing is saved"));
    if (state & UI_AREA_FOCUS) {
        ui_focus_ring(ui, r, 2.0f);
    }
    snprintf(mark, sizeof mark, "delete_%d", index + 1);
    if (index >= 0) {
        app_mark(app, mark, gone);
        ui_button(ui, ID_OVER_DELETE + index + 1, gone, _("Delete"), 0, 0);
    }
}

static void learner_rows(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    int all = app->records.learner_count + 1, next = class_next(app);
    float high = ui_px(ui, 36);
    int at = ui->focus - (ui->focus >= ID_OVER_DELETE ? ID_OVER_DELETE : ID_OVER_ROWS);
    CardList shown = app_card_list(app, r, high, all, at);
    for (int i = 0; i < all; i++) {
        if (i >= shown.first && i < shown.first + shown.count) {
            GfxRect row = {r.x, r.y + high * (float)(i - shown.first), r.w, high};
            int is_now = i == 0 ? app->records.learner_id == 0
                                : app->records.learners[i - 1].id == app->records.learner_id;
            learner_row(app, row, i - 1, is_now, i > 0 && i - 1 == next);
        } else if (i == shown.first - 1 || i == shown.first + shown.count || i == at) {
            ui_focusable(ui, ID_OVER_ROWS + i); /* Tab goes on to it and brings it into view */
        }
    }
}

void learner_card_draw(const App *app)
{
    Ui *ui = app->ui;
    int shown = app->records.learner_count + 1;
    float high = ui_px(ui, 36), under = ui_px(ui, 36 + 12 + 36 + 30 + 20 + 36 + 14);
    float head = ui_px(ui, 68 + 24), room = ui->height - 2.0f * CARD_MARGIN - head - under;
    int most = (int)fmaxf(fminf(room / high, 8.0f), 3.0f); /* the list scrolls for itself */
    shown = shown > most ? most : shown;
    GfxRect at = app_card_plate(app, ui_px(ui, 480), head + high * (float)shown + under,
                                _("Who is learning"));
    GfxRect list = {at.x, at.y, at.w, at.h - under};
    learner_rows(app, list);
    at.y = at.y + at.h - under + ui_px(ui, 14);
    at.h = under - ui_px(ui, 14);
    float below = high + ui_px(ui, 12);
    at.h -= below;
    app_card_field(app, at, _("A new name"), _("Add"), STORE_NAME_BYTES + 1);
    char words[80];
    snprintf(words, sizeof words, "%s  C", _("Class"));
    GfxRect class_at = {at.x, at.y + at.h + below - high, at.w, high};
    app_mark(app, "class", class_at);
    ui_button(ui, ID_OVER_A, class_at, words, 0, app->records.store == NULL);
}

void learner_card_answer(App *app)
{
    double value;
    if (ui_answered(app->ui, ID_OVER_TOP, &value)) {
        app->cards.top = (int)value;
    }
    if (ui_answered(app->ui, ID_OVER_A, NULL)) {
        class_card_open(app);
        return;
    }
    for (int i = -1; i < app->records.learner_count; i++) {
        if (ui_answered(app->ui, ID_OVER_ROWS + i + 1, NULL)) {
            records_choose(&app->records, i);
            learner_chosen(app);
            return;
        }
        if (ui_answered(app->ui, ID_OVER_DELETE + i + 1, NULL)) {
            ask(app, i);
            return;
        }
    }
    if (app_card_field_done(app) &&
        records_add(&app->records, app->cards.field, app->cards.says, sizeof app->cards.says)) {
        learner_chosen(app);
    }
}

/* What goes, in words: "%d runs with their recordings, grades, trainer's points and PDF reports".
 */
static void question(const App *app, char *out, size_t size)
{
    const LearnerGone *g = &app->cards.gone;
    char runs[160], grades[80], marks[80];
    const StoreContents *c = &g->contents;
    snprintf(runs, sizeof runs,
             app_plural("%d run with its recording and PDF report",
                        "%d runs with their recordings and PDF reports", c->runs),
             c->runs);
    snprintf(grades, sizeof grades, app_plural("%d grade", "%d grades", c->grades), c->grades);
    snprintf(marks, sizeof marks,
             app_plural("%d mark or comment of a trainer", "%d marks and comments of trainers",
                        c->marks),
             c->marks);
    snprintf(out, size, _("Delete %s? With the name go %s, %s and %s. This cannot be undone."),
             g->name, runs, grades, marks);
}

void learner_delete_draw(const App *app)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    GfxColor none = {0, 0, 0, 0};
    char text[700], says[sizeof app->cards.says];
    question(app, text, sizeof text);
    io_trouble_words(app->cards.says, app->taste.lang, says, sizeof says);
    float in = ui_px(ui, 24), wide = fminf(ui_px(ui, 520), ui->width - 2.0f * CARD_MARGIN);
    float words = ui_paragraph(ui, 0, 0, wide - 2 * in, 14, UI_REGULAR, none, text);
    words += ui_paragraph(ui, 0, 0, wide - 2 * in, 13, UI_BOLD, none, says);
    GfxRect at =
        app_card_plate(app, wide, words + ui_px(ui, 68 + 24 + 36 + 34), _("Delete a learner"));
    float y = at.y + ui_px(ui, 12), high = ui_px(ui, 36), gap = ui_px(ui, 10);
    y += ui_paragraph(ui, at.x, y, at.w, 14, UI_REGULAR, t->ink, text);
    ui_paragraph(ui, at.x, y, at.w, 13, UI_BOLD, t->danger, says);
    float w = (at.w - gap) * 0.5f;
    GfxRect no = {at.x, at.y + at.h - high, w, high}, yes = {no.x + w + gap, no.y, w, high};
    app_mark(app, "card_close", no);
    app_mark(app, "card_ok", yes);
    ui_button(ui, ID_OVER_CLOSE, no, _("Back"), 0, 0);
    ui_button(ui, ID_OVER_OK, yes, _("Delete for good"), 1, 0);
}

void learner_delete_answer(App *app)
{
    int back = ui_answered(app->ui, ID_OVER_CLOSE, NULL);
    int is_meant = ui_answered(app->ui, ID_OVER_OK, NULL);
    if (is_meant && app_has_run(app) && app->records.run_learner_id == app->cards.gone.id) {
        snprintf(app->cards.says, sizeof app->cards.says, "%s",
                 _("A run of this learner is under way here. Finish it first."));
    } else if (is_meant) {
        PbStatus status = records_delete(&app->records, app->cards.gone.id, app->cards.says,
                                         sizeof app->cards.says);
        if (status == PB_ERR_STATE) {
            snprintf(app->cards.says, sizeof app->cards.says, "%s",
                     _("A run of this learner is under way in another program. Finish it first."));
        }
        back = status == PB_OK;
        if (back && store_remains(app->records.store)) {
            app_notice(
                app, _("Deleted, but another program reads the same store"),
                _("What is left of it in the files goes when that program has ended and this "
                  "one is opened again."),
                0, 15);
        }
    }
    if (back) {
        records_grades(&app->records, &app->exercises);
        app_card_open(app, CARD_LEARNER);
    }
}
