/* The class: whose turn it is, and who has worked which exercise how often, first, last and best.
 * The table is read when the card opens and is kept until it opens again. */
#include "shell/shell.h"

#include "core/score.h"
#include "io/class_table.h"
#include "io/output_file.h"
#include "io/score_words.h"
#include "io/trouble_words.h"
#include "store/records.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MOST_PEOPLE = 1000, FIGURES = 5 };

struct ClassTable {
    StoreRecords records;
    IoClassRow *rows;
    int count;
};

void class_card_end(App *app)
{
    ClassTable *t = app->cards.table;
    if (t != NULL) {
        free(t->rows);
        store_records_free(&t->records);
        free(t);
        app->cards.table = NULL;
    }
}

static int is_own(const void *user, uint64_t hash)
{
    return exercises_is_own(user, hash);
}

static PbStatus read_table(App *app, PbError *err)
{
    StoreFilter all = {.limit = 0};
    class_card_end(app);
    if (app->records.store == NULL) {
        return pb_fail(err, PB_ERR_IO, "%s", app->records.trouble);
    }
    ClassTable *t = calloc(1, sizeof *t);
    app->cards.table = t;
    if (t == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    PB_TRY(store_records_read(app->records.store, &all, is_own, &app->exercises, &t->records, err));
    size_t room = (size_t)t->records.count + 1;
    PbRecord *ordered = calloc(room, sizeof *ordered); /* statements keep the store's order */
    t->rows = calloc(room, sizeof *t->rows);
    if (ordered == NULL || t->rows == NULL) {
        free(ordered);
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    memcpy(ordered, t->records.records, (room - 1) * sizeof *ordered);
    t->count = io_class_rows(ordered, t->records.count, t->rows);
    free(ordered);
    return PB_OK;
}

void class_card_open(App *app)
{
    PbError err = {0};
    app_exercises(app);
    PbStatus status = read_table(app, &err);
    app_card_open(app, CARD_CLASS);
    if (status != PB_OK) {
        class_card_end(app);
        snprintf(app->cards.says, sizeof app->cards.says, "%s", err.message);
    }
}

int class_next(const App *app)
{
    const Records *r = &app->records;
    const char *last[MOST_PEOPLE];
    int now = -1, count = r->learner_count < MOST_PEOPLE ? r->learner_count : MOST_PEOPLE;
    for (int i = 0; i < count; i++) {
        last[i] = r->learners[i].last_work;
        now = r->learners[i].id == r->learner_id ? i : now;
    }
    return io_class_next(last, count, now);
}

void class_turn(App *app)
{
    char text[STORE_NAME_BYTES + 80];
    records_refresh(&app->records);
    int next = class_next(app);
    if (next < 0) {
        app_card_open(app, CARD_LEARNER); /* nobody yet: somebody may be added */
        return;
    }
    records_choose(&app->records, next);
    records_grades(&app->records, &app->exercises);
    app_card_open(app, CARD_NONE);
    snprintf(text, sizeof text, _("It is the turn of %s."), app->records.learner);
    app_notice(app, _("Whose turn"), text, 0, 4);
}

/* "on target, 12 points"; "" where nothing was lost. */
static void dearest_words(const App *app, const IoClassRow *row, char *out, size_t size)
{
    int lost = (int)floor(row->dearest_lost + 0.5);
    out[0] = '\0';
    for (int i = 0; i < PB_SCORE_PARTS && lost > 0; i++) {
        if (strcmp(pb_score_part((PbScorePartKind)i)->key, row->dearest) == 0) {
            snprintf(out, size, "%s −%d", io_part_name((PbScorePartKind)i, app->taste.lang), lost);
        }
    }
}

static const char *exercise_words(const IoClassRow *row)
{
    return row->is_own_exercise ? row->exercise_id : _(row->exercise_title);
}

/* Columns: person, exercise, five figures, where most was lost. */
typedef struct Columns {
    float exercise, figure[FIGURES], lost, end;
    int is_wide; /* all in one line; else figures and loss stand under the names */
} Columns;

static const char *figure_title(int i)
{
    return i == 0   ? _("Tries")
           : i == 1 ? _("Passed")
           : i == 2 ? _("First")
           : i == 3 ? _("Last")
                    : _("Best");
}

static Columns columns(Ui *ui, GfxRect r)
{
    Columns c = {.end = r.x + r.w};
    float gap = ui_px(ui, 12), figures = 0.0f;
    for (int i = 0; i < FIGURES; i++) {
        figures += ui_width(ui, 13, UI_BOLD, figure_title(i)) + gap;
    }
    float names = ui_px(ui, 130 + 220), lost = ui_px(ui, 170);
    c.is_wide = r.w >= names + figures + lost;
    c.exercise = r.x + (c.is_wide ? ui_px(ui, 130) : r.w * 0.38f);
    float x = c.end - lost;
    c.lost = x + gap;
    for (int i = FIGURES - 1; i >= 0; i--) {
        c.figure[i] = x;
        x -= ui_width(ui, 13, UI_BOLD, figure_title(i)) + gap;
    }
    return c;
}

static void header(Ui *ui, GfxRect r, const Columns *c)
{
    const UiTheme *t = ui->theme;
    float base = r.y + ui_px(ui, 14), gap = ui_px(ui, 10);
    ui_label_cut(ui, r.x, base, c->exercise - r.x - gap, 13, UI_BOLD, t->ink2, _("Learner"));
    float end = c->is_wide ? c->figure[0] - ui_width(ui, 13, UI_BOLD, figure_title(0)) : c->end;
    ui_label_cut(ui, c->exercise, base, end - c->exercise, 13, UI_BOLD, t->ink2, _("Exercise"));
    for (int i = 0; i < FIGURES && c->is_wide; i++) {
        ui_label(ui, c->figure[i], base, 13, UI_BOLD, t->ink2, UI_RIGHT, figure_title(i));
    }
    if (c->is_wide) {
        ui_label_cut(ui, c->lost, base, c->end - c->lost, 13, UI_BOLD, t->ink2, _("Most lost on"));
    }
    ui_rect(ui, r.x, r.y + ui_px(ui, 20), r.w, 1.0f, t->edge);
}

static void table_row(const App *app, GfxRect r, const Columns *c, const IoClassRow *row)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    float base = r.y + ui_px(ui, 18), gap = ui_px(ui, 10);
    int values[FIGURES] = {row->runs, row->passed, io_mark_shown(row->first),
                           io_mark_shown(row->last), io_mark_shown(row->best)};
    char lost[120], text[24], line[320];
    size_t used = 0;
    dearest_words(app, row, lost, sizeof lost);
    ui_label_cut(ui, r.x, base, c->exercise - r.x - gap, 14, UI_BOLD, t->ink, row->learner);
    float end =
        c->is_wide ? c->figure[0] - ui_width(ui, 13, UI_BOLD, figure_title(0)) - gap : c->end;
    ui_label_cut(ui, c->exercise, base, end - c->exercise, 14, UI_REGULAR, t->ink,
                 exercise_words(row));
    for (int i = 0; i < FIGURES; i++) {
        snprintf(text, sizeof text, "%d", values[i]);
        if (c->is_wide) {
            ui_label(ui, c->figure[i], base, 14, i == FIGURES - 1 ? UI_BOLD : UI_REGULAR, t->ink,
                     UI_RIGHT, text);
        } else {
            used += (size_t)snprintf(line + used, sizeof line - used, "%s%s %s", i > 0 ? ", " : "",
                                     figure_title(i), text);
        }
    }
    if (c->is_wide) {
        ui_label_cut(ui, c->lost, base, c->end - c->lost, 14, UI_REGULAR, t->ink, lost);
        return;
    }
    ui_label_cut(ui, r.x, base + ui_px(ui, 20), r.w, 13, UI_REGULAR, t->ink2, line);
    if (lost[0] != '\0') {
        snprintf(line, sizeof line, "%s: %s", _("Most lost on"), lost);
        ui_label_cut(ui, r.x, base + ui_px(ui, 38), r.w, 13, UI_REGULAR, t->ink2, line);
    }
}

static void table(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const ClassTable *t = app->cards.table;
    Columns c = columns(ui, r);
    float head = ui_px(ui, 26), high = ui_px(ui, c.is_wide ? 28 : 66);
    int all = t != NULL ? t->count : 0;
    if (all == 0) {
        ui_paragraph(ui, r.x, r.y + ui_px(ui, 18), r.w, 14, UI_REGULAR, ui->theme->ink2,
                     _("No run that counts has been kept yet."));
        return;
    }
    header(ui, r, &c);
    GfxRect list = {r.x, r.y + head, r.w, r.h - head};
    CardList shown = app_card_list(app, list, high, all, ui->focus - ID_OVER_ROWS);
    for (int i = shown.first; i < shown.first + shown.count; i++) {
        GfxRect row = {r.x, list.y + high * (float)(i - shown.first), r.w, high};
        if (ui_area(ui, ID_OVER_ROWS + i, row, 1) & UI_AREA_FOCUS) {
            ui_focus_ring(ui, row, 2.0f);
        }
        table_row(app, row, &c, &t->rows[i]);
    }
}

/* In as many columns as their words allow. Returns the height used. */
static float buttons(const App *app, GfxRect at, int is_drawn)
{
    Ui *ui = app->ui;
    enum { BUTTONS = 5 };
    const char *words[BUTTONS] = {_("Save the table (CSV)"), _("Save statements (xAPI)"),
                                  _("From another computer"), _("People"), _("Close")};
    static const int id[BUTTONS] = {ID_OVER_A, ID_OVER_OK, ID_OVER_D, ID_OVER_B, ID_OVER_CLOSE};
    static const char *const mark[BUTTONS] = {"class_csv", "card_ok", "class_merge", "class_people",
                                              "card_close"};
    float high = ui_px(ui, 36), gap = ui_px(ui, 10), most = 0.0f;
    for (int i = 0; i < BUTTONS; i++) {
        most = fmaxf(most, ui_width(ui, 14, UI_BOLD, words[i]) + ui_px(ui, 24));
    }
    int across = (int)((at.w + gap) / (most + gap));
    across = across < 1 ? 1 : across > BUTTONS ? BUTTONS : across;
    int rows = (BUTTONS + across - 1) / across;
    int is_empty = app->cards.table == NULL || app->cards.table->count == 0;
    float w = (at.w - gap * (float)(across - 1)) / (float)across;
    for (int i = 0; i < BUTTONS && is_drawn; i++) {
        int column = i % across, row = i / across;
        GfxRect r = {at.x + (w + gap) * (float)column, at.y + (high + gap) * (float)row, w, high};
        app_mark(app, mark[i], r);
        ui_button(ui, id[i], r, words[i], i == BUTTONS - 1, i < 2 && is_empty);
    }
    return (high + gap) * (float)rows - gap;
}

/* Whose turn it is, with the button that gives it. Returns the height used. */
static float turn(const App *app, GfxRect at, int is_drawn)
{
    Ui *ui = app->ui;
    int next = class_next(app);
    char text[STORE_NAME_BYTES + 40], key[40];
    float high = ui_px(ui, 36);
    if (next < 0) {
        return 0.0f;
    }
    snprintf(text, sizeof text, _("Next: %s"), app->records.learners[next].name);
    snprintf(key, sizeof key, "%s  N", _("Next person"));
    float w = ui_width(ui, 14, UI_BOLD, key) + ui_px(ui, 28);
    if (is_drawn) {
        GfxRect b = {at.x + at.w - w, at.y, w, high};
        app_mark(app, "class_next", b);
        ui_button(ui, ID_OVER_C, b, key, 0, 0);
        ui_words(ui, (GfxRect){at.x, at.y, at.w - w - ui_px(ui, 12), high}, 16, UI_BOLD,
                 ui->theme->ink, UI_LEFT, text);
    }
    return high + ui_px(ui, 16);
}

/* The address that the statements name, and what was said of saving. */
static float home_field(const App *app, GfxRect at, int is_drawn)
{
    Ui *ui = app->ui;
    GfxColor none = {0, 0, 0, 0};
    char text[sizeof app->cards.field], says[sizeof app->cards.says];
    float high = ui_px(ui, 36);
    io_trouble_words(app->cards.says, app->taste.lang, says, sizeof says);
    float said = says[0] ? ui_paragraph(ui, 0, 0, at.w, 13, UI_BOLD, none, says) + ui_px(ui, 8) : 0;
    if (is_drawn) {
        GfxRect field = {at.x, at.y, at.w, high};
        app_mark(app, "card_field", field);
        snprintf(text, sizeof text, "%s", app->cards.field);
        ui_text_field(ui, ID_OVER_FIELD, field, text, 201,
                      _("for statements: address of your company or school, https://..."));
        ui_paragraph(ui, at.x, at.y + high + ui_px(ui, 20), at.w, 13, UI_BOLD, ui->theme->ink,
                     says);
    }
    return high + said + ui_px(ui, 14);
}

void class_card_draw(const App *app)
{
    Ui *ui = app->ui;
    float wide = fminf(ui_px(ui, 960), ui->width - 2.0f * CARD_MARGIN);
    GfxRect in = {0, 0, wide - 2.0f * ui_px(ui, 24), 0};
    int rows = app->cards.table != NULL ? app->cards.table->count : 0;
    Columns c = columns(ui, in);
    float list = ui_px(ui, 26) + ui_px(ui, c.is_wide ? 28 : 66) * (float)(rows < 3 ? 3 : rows);
    float other = turn(app, in, 0) + buttons(app, in, 0) + home_field(app, in, 0) + ui_px(ui, 14);
    float head = ui_px(ui, 68 + 24), room = ui->height - 2.0f * CARD_MARGIN - head - other;
    list = fminf(list, fmaxf(room, ui_px(ui, 26 + 2 * 66)));
    GfxRect at = app_card_plate(app, wide, head + list + other, _("Class"));
    at.y += turn(app, at, 1);
    table(app, (GfxRect){at.x, at.y, at.w, list});
    at.y += list + ui_px(ui, 14);
    at.y += home_field(app, at, 1);
    (void)buttons(app, at, 1);
}

static void say_saved(App *app, const char *path, PbStatus status, const PbError *err)
{
    if (status == PB_OK) {
        snprintf(app->cards.says, sizeof app->cards.says, _("Saved: %s"), path);
    } else {
        snprintf(app->cards.says, sizeof app->cards.says, "%s", err->message);
    }
}

static PbStatus write_statements(App *app, FILE *file, PbError *err)
{
    const StoreRecords *r = &app->cards.table->records;
    json_t *json = io_records_xapi(r->records, r->count, app->cards.field);
    int is_short =
        json == NULL || json_dumpf(json, file, JSON_INDENT(1) | JSON_REAL_PRECISION(12)) != 0;
    json_decref(json);
    return is_short ? pb_fail(err, PB_ERR_IO, "out of memory") : PB_OK;
}

/* Beside the database: a place that this person can write to and knows. */
static void save(App *app, int is_xapi)
{
    const ClassTable *t = app->cards.table;
    char path[800] = "";
    IoOutput out;
    PbError err = {0};
    if (is_xapi && !io_is_home(app->cards.field)) {
        snprintf(app->cards.says, sizeof app->cards.says, "%s",
                 _("Expected an address such as https://school.example"));
        return;
    }
    PbStatus status =
        store_beside(app->records.store, is_xapi ? "class-statements.json" : "class-table.csv",
                     path, sizeof path, &err);
    status = status == PB_OK ? io_output_open(path, is_xapi ? "[" : "learner,exercise,", &out, &err)
                             : status;
    if (status == PB_OK) {
        if (is_xapi) {
            status = write_statements(app, out.file, &err);
        } else {
            io_class_csv(out.file, t->rows, t->count);
        }
        if (status == PB_OK) {
            status = io_output_commit(&out, &err);
        } else {
            io_output_abandon(&out);
        }
    }
    say_saved(app, path, status, &err);
}

void class_card_answer(App *app)
{
    const Ui *ui = app->ui;
    double value;
    if (ui_answered(ui, ID_OVER_TOP, &value)) {
        app->cards.top = (int)value;
    }
    if (ui_answered(ui, ID_OVER_FIELD, NULL)) {
        snprintf(app->cards.field, sizeof app->cards.field, "%.200s", ui->answer_text);
    }
    if (ui_answered(ui, ID_OVER_A, NULL)) {
        save(app, 0);
    } else if (ui_answered(ui, ID_OVER_OK, NULL)) {
        save(app, 1);
    } else if (ui_answered(ui, ID_OVER_B, NULL)) {
        app_card_open(app, CARD_LEARNER);
    } else if (ui_answered(ui, ID_OVER_C, NULL)) {
        class_turn(app);
    } else if (ui_answered(ui, ID_OVER_D, NULL)) {
        app_card_open(app, CARD_MERGE);
    } else if (ui_answered(ui, ID_OVER_CLOSE, NULL)) {
        app_card_open(app, CARD_NONE);
    }
}
