/* Beside the wall: who is learning, the exercises with their last grades, and the start. */
#include "door/door.h"

#include "io/trouble_words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const ExerciseRow *chosen(const App *app)
{
    int last = app->exercises.count - 1, row = app->door->row;
    return last >= 0 ? &app->exercises.rows[row > last ? last : row] : NULL;
}

/* The run under way is one of the chosen exercise. */
static int is_under_way(const App *app, const ExerciseRow *row)
{
    const Records *r = &app->records;
    int is_theirs = r->run_learner_id == 0 || r->run_learner_id == r->learner_id;
    return row != NULL && app_has_run(app) && app->run.view->tick > 0 && is_theirs &&
           strcmp(app->run.config.exercise.id, row->exercise.id) == 0;
}

static void door_begin(App *app, const ExerciseRow *row)
{
    if (app->door->is_graded) {
        app_ask(app, ASK_GRADED, &row->exercise, 0);
    } else {
        app_ask(app, ASK_PRACTICE, &row->exercise, 0);
    }
}

void door_start(App *app)
{
    const ExerciseRow *row = chosen(app);
    if (row == NULL || !row->is_open) {
        return;
    }
    if (is_under_way(app, row)) {
        app_go(app, SCREEN_BAY);
    } else if (row->left_id != 0) {
        app_ask(app, ASK_GO_ON, NULL, row->left_id);
    } else {
        door_begin(app, row);
    }
}

static float learner_part(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Records *rec = &app->records;
    const char *name = rec->learner_id ? rec->learner : _("nobody yet");
    const char *change = rec->learner_count ? _("Change") : _("Add");
    float w = ui_width(ui, 14, UI_BOLD, change) + ui_px(ui, 36), room = r.w - w - ui_px(ui, 10);
    GfxRect b = {r.x + r.w - w, r.y + ui_px(ui, 28), w, ui_px(ui, 34)};
    double size = ui_fit(ui, room, 24, UI_BOLD, name);
    ui_label(ui, r.x, r.y + ui_px(ui, 28), 14, UI_REGULAR, t->ink2, UI_LEFT, _("Learner"));
    ui_label_cut(ui, r.x, r.y + ui_px(ui, 57), room, size, UI_BOLD, t->ink, name);
    app_mark(app, "learner", b);
    ui_button(ui, ID_DOOR_CHANGE, b, change, 0, rec->store == NULL);
    float y = r.y + ui_px(ui, 76);
    ui_rect(ui, r.x, y, r.w, 2.0f, t->ink);
    const char *why = rec->store == NULL     ? _("Grades cannot be saved on this computer now:")
                      : rec->learner_id == 0 ? _("Without a name nothing is saved.")
                                             : "";
    if (why[0] != '\0') {
        y += ui_px(ui, 20);
        y += ui_paragraph(ui, r.x, y, r.w, 13, rec->store == NULL ? UI_BOLD : UI_REGULAR,
                          rec->store == NULL ? t->warn : t->ink2, why);
        if (rec->store == NULL) {
            char trouble[sizeof rec->trouble];
            io_trouble_words(rec->trouble, app->taste.lang, trouble, sizeof trouble);
            y += ui_paragraph(ui, r.x, y, r.w, 12, UI_REGULAR, t->ink, trouble);
        }
        y -= ui_px(ui, 10);
    }
    return y;
}

/* Large type: titles take up to three lines. */
static int is_large(const App *app)
{
    return app->laid->text_scale >= 1.5 - 1e-9;
}

static void grade_bar(Ui *ui, GfxRect r, double grade, double pass)
{
    const UiTheme *t = ui->theme;
    ui_rect(ui, r.x, r.y, r.w, r.h, t->well);
    ui_rect(ui, r.x, r.y, r.w * (float)(grade / 100.0), r.h, t->ink2);
    ui_frame(ui, r, 1.0f, t->edge);
    ui_rect(ui, floorf(r.x + r.w * (float)(pass / 100.0)), r.y - 3.0f, 2.0f, r.h + 6.0f, t->ink);
}

static void row_words(const App *app, GfxRect r, const ExerciseRow *row, int number)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    char text[32];
    float up = is_large(app) ? 0.0f : ui_px(ui, 5), left = r.x + ui_px(ui, 42);
    float base = r.y + ui_px(ui, 25) - up, end = r.x + r.w - ui_px(ui, 10);
    float right = ui_px(ui, 10);
    GfxColor ink = row->is_open ? t->ink : t->ink2;
    SDL_snprintf(text, sizeof text, "%d", number);
    ui_label(ui, r.x + ui_px(ui, 28), base, 14, UI_BOLD, ink, UI_RIGHT, text);
    if (row->last >= 0.0) {
        GfxRect bar = {end - ui_px(ui, 84), r.y + ui_px(ui, 40) - up, ui_px(ui, 84), ui_px(ui, 8)};
        ui_label(ui, end, r.y + ui_px(ui, 29) - up, 20, UI_BOLD, t->ink, UI_RIGHT,
                 app_fmt_mark(app, row->last));
        grade_bar(ui, bar, row->last, row->exercise.pass_score);
        right += ui_px(ui, 92);
    } else {
        char where[40];
        SDL_snprintf(where, sizeof where, _("left at %s"), app_fmt_clock(app, row->left_s));
        right += ui_label(ui, end, base, 13, UI_REGULAR, t->ink2, UI_RIGHT,
                          !row->is_open       ? _("not open yet")
                          : row->left_id != 0 ? where
                                              : _("not run")) +
                 ui_px(ui, 8);
    }
    float room = r.x + r.w - left - right;
    char untold[40];
    SDL_snprintf(untold, sizeof untold, _("Exercise %d"), number);
    const char *title = app->door->is_graded ? untold : _(row->exercise.title);
    if (ui_width(ui, 14, UI_BOLD, title) > room) {
        GfxColor none = {0, 0, 0, 0};
        double lines = is_large(app) ? 4.6 : 3.2; /* of 1.4 times the size: three, or two */
        for (double size = 14.0; size >= 12.0; size -= 1.0) {
            if (ui_paragraph(ui, 0, 0, room, size, UI_BOLD, none, title) <
                ui_px(ui, size * lines)) {
                ui_paragraph(ui, left, base, room, size, UI_BOLD, ink, title);
                return;
            }
        }
        ui_label_cut(ui, left, base, room, 14, UI_BOLD, ink, title);
        return;
    }
    ui_label_cut(ui, left, base, room, 14, UI_BOLD, ink, title);
}

static void list_row(const App *app, GfxRect r, GfxRect clip, int index)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    GfxRect hit = r;
    char mark[24];
    hit.y = fmaxf(r.y, clip.y);
    hit.h = fminf(r.y + r.h, clip.y + clip.h) - hit.y;
    if (hit.h <= 0.0f) {
        return;
    }
    int state = ui_area(ui, ID_DOOR_ROWS + index, hit, 0), is_now = app->door->row == index;
    snprintf(mark, sizeof mark, "row_%d", index + 1);
    app_mark(app, mark, hit);
    if (is_now) {
        ui_rect(ui, r.x, r.y, r.w, r.h, t->accent_wash);
        ui_rect(ui, r.x, r.y, 5.0f, r.h, t->accent);
    } else {
        ui_rect(ui, r.x, r.y + r.h - 1.0f, r.w, 1.0f, t->rule);
    }
    row_words(app, r, &app->exercises.rows[index], index + 1);
    if (state & UI_AREA_HOT) {
        ui_frame(ui, r, 2.0f, t->ink);
    }
}

/* Up and down walk the rows while the list has the focus; at its ends they leave it as Tab does. */
static void list_keys(const App *app, float row_high, float list_px)
{
    Ui *ui = app->ui;
    int by = ui->in.down - ui->in.up, page = (int)(list_px / row_high);
    int last = app->exercises.count - 1, want = app->door->row + by;
    want += ((ui->in.page_down > 0) - (ui->in.page_up > 0)) * page;
    want = ui->in.home ? 0 : ui->in.end ? last : want;
    if (by != 0 && want >= 0 && want <= last) {
        ui->in.next -= ui->in.down;
        ui->in.previous -= ui->in.up;
    }
    want = want < 0 ? 0 : want > last ? last : want;
    if (want != app->door->row) {
        ui->is_ring_shown = 1;
        ui_answer(ui, ID_DOOR_LIST, want);
    }
    if (ui->in.enter) {
        ui_answer(ui, ID_DOOR_START, 1.0);
    }
}

/* Top of the list: the wheel moves it, and a row that was come to by keys is brought into view. */
static float scrolled(const App *app, GfxRect r, float row_high)
{
    Ui *ui = app->ui;
    const Door *d = app->door;
    float px = d->scroll_px, top = row_high * (float)d->row;
    if (ui_over(ui, r) && !app_is_covered(app)) {
        px -= ui_wheel(ui) * row_high;
    }
    if (d->follow) {
        px = fmaxf(fminf(px, top), top + row_high - r.h);
    }
    px = fmaxf(fminf(px, row_high * (float)app->exercises.count - r.h), 0.0f);
    if (px != d->scroll_px || d->follow) {
        ui_answer(ui, ID_DOOR_SCROLL, (double)px);
    }
    return px;
}

static void rows(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    float row_high = ui_px(ui, is_large(app) ? 70 : 48);
    page_needs(app, 3.0f * row_high - r.h);
    if (app->exercises.count > 0 && ui_focusable(ui, ID_DOOR_LIST)) {
        list_keys(app, row_high, r.h);
    }
    float px = scrolled(app, r, row_high), whole = row_high * (float)app->exercises.count;
    float bar = whole > r.h ? ui_px(ui, 10) : 0.0f;
    app_mark(app, "list", r);
    ui_layer(ui, &r);
    for (int i = 0; i < app->exercises.count; i++) {
        GfxRect row = {r.x, floorf(r.y + row_high * (float)i - px), r.w - bar, row_high};
        list_row(app, row, r, i);
    }
    if (bar > 0.0f) {
        float high = r.h * r.h / whole, y = r.y + px / whole * r.h;
        ui_rect(ui, r.x + r.w - 5.0f, r.y, 5.0f, r.h, t->well);
        ui_rect(ui, r.x + r.w - 5.0f, floorf(y), 5.0f, high, t->edge);
    }
    ui_layer(ui, NULL);
    if (ui->focus == ID_DOOR_LIST) {
        ui_focus_ring(ui, r, 2.0f);
    }
}

/* Start, start again, open a file; stacked when their words are wide. Returns the height used. */
static float buttons(const App *app, GfxRect r, int is_drawn)
{
    Ui *ui = app->ui;
    const ExerciseRow *row = chosen(app);
    char words[96];
    int is_here = is_under_way(app, row), is_going = is_here || (row != NULL && row->left_id != 0);
    float high = ui_px(ui, 40), gap = ui_px(ui, 10), half = (r.w - gap) * 0.5f;
    if (is_going) {
        SDL_snprintf(words, sizeof words, _("Go on at %s"),
                     app_fmt_clock(app, is_here ? app->run.view->time_s : row->left_s));
    } else {
        SDL_snprintf(words, sizeof words, _("Start exercise %d"), app->door->row + 1);
    }
    const char *file = _("Open a wall file"), *again = _("Start again");
    float most = fmaxf(ui_width(ui, 14, UI_BOLD, words), ui_width(ui, 14, UI_BOLD, file));
    int is_stacked = is_going || most + ui_px(ui, 16) > half;
    float used = is_stacked ? 2 * high + gap : high;
    if (!is_drawn) {
        return used;
    }
    GfxRect start = {r.x, r.y + r.h - used, is_stacked ? r.w : half, high};
    GfxRect open = {is_stacked ? r.x : r.x + half + gap, r.y + r.h - high, is_stacked ? r.w : half,
                    high};
    GfxRect over = {r.x, open.y, half, high};
    if (is_going) {
        open.x = r.x + half + gap;
        open.w = half;
    }
    if (is_going) {
        app_mark(app, "restart", over);
    }
    app_mark(app, "start", start);
    app_mark(app, "open", open);
    ui_button(ui, ID_DOOR_START, start, words, 1, row == NULL || !row->is_open);
    if (is_going) {
        ui_button(ui, ID_DOOR_RESTART, over, again, 0, 0);
    }
    ui_button(ui, ID_DOOR_FILE, open, file, 0, 0);
    return used;
}

/* Practice with hints and any sight, or a run that counts; and a seed that somebody else shall have
 * too. One over the other when their words are wide. Returns the height used. */
static float purpose(const App *app, GfxRect r, int is_drawn)
{
    Ui *ui = app->ui;
    const char *ways[2] = {_("Practice"), _("Graded")};
    char seed[48];
    SDL_snprintf(seed, sizeof seed, "%s %llu", _("Seed"), app->options.seed);
    float high = ui_px(ui, 32), gap = ui_px(ui, 10), pad = ui_px(ui, 24);
    float wide = ui_width(ui, 14, UI_BOLD, app->options.seed != 0 ? seed : _("Seed")) + pad;
    float most = fmaxf(ui_width(ui, 14, UI_BOLD, ways[0]), ui_width(ui, 14, UI_BOLD, ways[1]));
    int is_stacked = 2.0f * (most + pad) + gap + wide > r.w;
    float used = is_stacked ? 2.0f * high + gap : high;
    if (is_drawn) {
        GfxRect at = {r.x, r.y + r.h - used, is_stacked ? r.w : r.w - gap - wide, high};
        GfxRect by = {is_stacked ? r.x : r.x + r.w - wide, r.y + r.h - high,
                      is_stacked ? r.w : wide, high};
        ui_segments(ui, ID_DOOR_GRADED, at, ways, 2, app->door->is_graded);
        app_mark(app, "graded", at);
        ui_button(ui, ID_DOOR_SEED, by, app->options.seed != 0 ? seed : _("Seed"), 0, 0);
        app_mark(app, "seed", by);
    }
    return used + gap;
}

void door_list_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    float y = learner_part(app, r), foot = buttons(app, r, 0) + ui_px(ui, 14);
    float start = foot - ui_px(ui, 4);
    foot += purpose(app, r, 0);
    const ExerciseRow *row = chosen(app);
    const char *why = ""; /* what the chosen one teaches, or why it is shut */
    char waits[260];
    if (row != NULL && row->is_open && app->door->is_graded) {
        why = _("What this bay is, and what it teaches, comes with the result.");
    } else if (row != NULL && row->is_open && row->exercise.waits_for[0] != '\0') {
        SDL_snprintf(waits, sizeof waits,
                     _("Waits for: %s. Until this program has that it counts for no level."),
                     _(row->exercise.waits_for));
        why = waits;
    } else if (row != NULL && row->is_open && row->exercise.teaches[0] != '\0') {
        why = app_said(app, _(row->exercise.teaches));
    } else if (row != NULL && !row->is_open) {
        why = _("This one opens when two exercises of each level before it are passed.");
    }
    GfxColor none = {0, 0, 0, 0};
    if (why[0] != '\0') {
        float high = ui_paragraph(ui, 0, 0, r.w, 13, UI_REGULAR, none, why);
        ui_paragraph(ui, r.x, r.y + r.h - foot - high + ui_px(ui, 10), r.w, 13, UI_REGULAR, t->ink2,
                     why);
        foot += high + ui_px(ui, 14);
    }
    ui_label(ui, r.x, y + ui_px(ui, 26), 16, UI_BOLD, t->ink, UI_LEFT, _("Exercises"));
    ui_label(ui, r.x + r.w, y + ui_px(ui, 26), 13, UI_REGULAR, t->ink2, UI_RIGHT, _("last grade"));
    y += ui_px(ui, 30);
    y += ui_px(ui, 8);
    if (app->exercises.count > 0) {
        rows(app, (GfxRect){r.x, y, r.w, r.y + r.h - foot - y});
    } else {
        ui_paragraph(ui, r.x, y + ui_px(ui, 16), r.w, 14, UI_REGULAR, t->warn,
                     _("No exercises were found. Open a wall file, or start with --data."));
    }
    purpose(app, (GfxRect){r.x, r.y, r.w, r.h - start}, 1);
    buttons(app, r, 1);
}

void door_list_answer(App *app)
{
    Ui *ui = app->ui;
    Door *d = app->door;
    double value;
    if (ui_answered(ui, ID_DOOR_SCROLL, &value)) {
        d->scroll_px = (float)value;
        d->follow = 0;
    }
    if (ui_answered(ui, ID_DOOR_LIST, &value)) {
        d->row = (int)value;
        d->follow = 1;
    }
    for (int i = 0; i < app->exercises.count; i++) {
        if (ui_answered(ui, ID_DOOR_ROWS + i, NULL)) {
            int again = d->row == i && app->program.now_s - d->clicked_s < 0.4;
            d->row = i;
            d->clicked_s = app->program.now_s;
            ui->focus = ID_DOOR_LIST;
            if (again) {
                door_start(app);
            }
        }
    }
    if (ui_answered(ui, ID_DOOR_GRADED, &value)) {
        d->is_graded = value > 0.5;
    }
    if (ui_answered(ui, ID_DOOR_START, NULL)) {
        door_start(app);
    }
    if (ui_answered(ui, ID_DOOR_RESTART, NULL) && chosen(app) != NULL) {
        door_begin(app, chosen(app));
    }
    if (ui_answered(ui, ID_DOOR_CHANGE, NULL)) {
        app_card_open(app, CARD_LEARNER);
    }
    if (ui_answered(ui, ID_DOOR_FILE, NULL)) {
        app_card_open(app, CARD_FILE);
    }
    if (ui_answered(ui, ID_DOOR_SEED, NULL)) {
        app_card_open(app, CARD_SEED);
    }
}
