/* Debrief over a store of its own with runs of two learners: each state of it can be read whole in
 * every view; a layout changes nothing, and what it answers is done after it. */
#include "rooms.h"

#include "debrief/debrief.h"
#include "shell/shell.h"

#include "io/doc.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static App *app;
static Debrief *d; /* while the room is shown */
static char folder[300];

static void keep(Records *r, const char *name, int learner)
{
    char path[500], *bytes = NULL, why[300] = "";
    RecordsFile file = {.name = name, .ended = "2026-01-02T03:04:05Z"};
    PbError err = {0};
    snprintf(path, sizeof path, "%s/%s", PB_TEST_SOURCE_DIR, name);
    ck_assert_msg(io_read_file(path, 1 << 20, &bytes, &file.size, &err) == PB_OK, "%s",
                  err.message);
    while (r->learner_count <= learner) {
        char who[40];
        snprintf(who, sizeof who, "Learner %d", r->learner_count + 1);
        ck_assert_msg(records_add(r, who, why, sizeof why), "%s", why);
    }
    file.bytes = bytes;
    file.learner_id = r->learners[learner].id;
    ck_assert_msg(records_take(r, &file, &err) == PB_OK, "%s", err.message);
    free(bytes);
}

/* The store, once; each test has a copy of it. */
static void fill(void)
{
    static Records records;
    static Run none;
    char db[340];
    snprintf(folder, sizeof folder, "%s/debrief-XXXXXX", PB_TEST_BINARY_DIR);
    ck_assert_ptr_nonnull(mkdtemp(folder));
    snprintf(db, sizeof db, "%s/all.db", folder);
    records_open(&records, db, "");
    ck_assert_msg(records.store != NULL, "%s", records.trouble);
    keep(&records, "assets/reference/plain-2x4-high.pbrun", 1);
    keep(&records, "assets/reference/plain-2x4.pbrun", 0);
    keep(&records, "tests/app/recorded.pbrun", 0);
    records_close(&records, &none);
}

static void empty(void)
{
    char command[400];
    snprintf(command, sizeof command, "rm -rf '%s'", folder);
    ck_assert_int_eq(system(command), 0);
}

/* Frames until the run and what stands beside it have been read. */
static void read_runs(void)
{
    int is_read = 0;
    for (int i = 0; i < 5000 && !is_read; i++) {
        scr_debrief.update(app, 0.0);
        is_read = d->runs[0].is_scanned && (!d->runs[1].is_open || d->runs[1].is_scanned);
    }
    ck_assert(is_read);
}

static void begin(void)
{
    char db[340], command[800];
    snprintf(db, sizeof db, "%s/t.db", folder);
    snprintf(command, sizeof command, "cp '%s/all.db' '%s'", folder, db);
    ck_assert_int_eq(system(command), 0);
    app = rooms_open();
    records_open(&app->records, db, "");
    ck_assert_msg(app->records.store != NULL, "%s", app->records.trouble);
    rooms_go(app, SCREEN_DEBRIEF);
    d = app->debrief;
    read_runs();
}

static void end(void)
{
    screens_close(app);
    records_close(&app->records, &app->run);
    rooms_close(app);
}

START_TEST(the_grade_can_be_read)
{
    static const char *const names[] = {"rubric", "in short", "points lost", "stops", "trainer"};
    for (int turn = 0; turn < 2; turn++) { /* at the largest text: wall, then grade */
        d->view.turn = turn;
        for (d->view.panel = PANEL_RUBRIC; d->view.panel <= PANEL_TRAINER; d->view.panel++) {
            rooms_all_legible(app, names[d->view.panel]);
        }
    }
}
END_TEST

/* By another rubric than the kept grade's there is nothing to compare. */
START_TEST(the_last_time_is_told_in_short)
{
    IoTry last = {62, 9, 15.0, 52.0, 185.0, PB_PHYSICS_VERSION};
    d->last_time = (IoLastTime){3, last, last, 1, 3, last};
    d->view.panel = PANEL_SHORT;
    ck_assert(rooms_says(app, "Last time"));
    rooms_all_legible(app, "in short with a run before");
    snprintf(d->runs[0].watched.rubric.name, sizeof d->runs[0].watched.rubric.name, "other");
    ck_assert(!rooms_says(app, "Last time"));
}
END_TEST

/* Asked for, worked beside the room, stopped by the same button; another run or rubric forgets it.
 */
START_TEST(how_sure_the_mark_is_can_be_asked_and_stopped)
{
    d->view.panel = PANEL_SHORT;
    rooms_all_legible(app, "in short, to be asked");
    rooms_press(app, "sure", 0.5, 0.5);
    ck_assert_ptr_nonnull(d->sure.job);
    ck_assert(!rooms_says(app, "How sure is this mark?")); /* but how far it is, and to stop */
    rooms_press(app, "sure", 0.5, 0.5);
    for (int i = 0; i < 3000 && d->sure.job != NULL; i++) {
        SDL_Delay(10);
        scr_debrief.update(app, 0.0);
    }
    ck_assert_ptr_null(d->sure.job);
    ck_assert(!d->sure.is_known);
    ck_assert(rooms_says(app, "How sure is this mark?"));
    rooms_key(app, SDLK_u);
    ck_assert_ptr_nonnull(d->sure.job);
    debrief_sure_end(d);
    d->sure.is_known = 1;
    d->sure.range =
        (PbMarkRange){40, 31, {52.0, 58.0, 66.0}, {47.2, 52.0, 62.4}, {61.9, 84.0, 98.7}};
    ck_assert(rooms_says(app, "Passes in 31 of 40 draws: open."));
    ck_assert(rooms_says(app, "How sure"));
    rooms_all_legible(app, "in short, with how sure it is");
    debrief_rubric_choose(app, 1);
    ck_assert(!d->sure.is_known);
}
END_TEST

/* The store speaks English; what is shown of it does not. */
START_TEST(trouble_of_the_store_is_told_in_the_windows_language)
{
    static const char full[] = "cannot keep the mark: the disk is full; nothing was changed";
    rooms_view(app, 1280, 800, 1.0, 1);
    debrief_say(app, full, 1);
    ck_assert_str_eq(d->said.text,
                     "no se puede guardar la nota: el disco está lleno; no se cambió nada");
    app_notice(app, "", full, 1, 8);
    ck_assert_str_eq(app->say.notice.text, d->said.text);
    rooms_view(app, 1280, 800, 1.0, 0);
    debrief_say(app, full, 1);
    ck_assert_str_eq(d->said.text, full);
}
END_TEST

START_TEST(the_lists_can_be_read)
{
    d->view.is_list_open = 1;
    rooms_all_legible(app, "runs");
    d->filter.open = FILTER_EXERCISE;
    rooms_all_legible(app, "exercises to choose from");
    d->filter.open = FILTER_NONE;
    d->view.is_list_open = 0;
    d->view.is_course = 1;
    rooms_all_legible(app, "progress");
}
END_TEST

START_TEST(two_runs_can_be_read)
{
    debrief_next_mate(app);
    read_runs();
    debrief_choose_loss(app, 0);
    rooms_all_legible(app, "the reference run beside it");
}
END_TEST

START_TEST(runs_that_no_disk_takes_can_be_read)
{
    app->records.held_count = 2;
    rooms_all_legible(app, "two runs held");
    app->records.held_count = 0;
}
END_TEST

/* One layout, without what the shell does with its answers. */
static void lay_out_only(void)
{
    Ui *ui = app->ui;
    app->laid->mark_count = 0;
    ui_begin(ui, (float)app->win.width, (float)app->win.height, ui->scale);
    page_begin(app, &app->pages.room, scr_debrief.least_px * ui->scale);
    scr_debrief.lay(app);
    page_end(app);
    ui_end(ui);
}

/* A press and its release where the mark is, laid out; what is answered is still to be done. */
static void touch(const char *mark, float across, float down)
{
    const AppMark *m = app_mark_find(app, mark);
    ck_assert_msg(m != NULL, "there is no %s", mark);
    GfxRect r = m->rect;
    UiEvent e = {.kind = UI_PRESS, .x = r.x + r.w * across, .y = r.y + r.h * down, .clicks = 1};
    ui_take(app->ui, &e);
    e.kind = UI_RELEASE;
    ui_take(app->ui, &e);
    lay_out_only();
}

/* Every place that acts: a layout alone leaves the room as it is, the answer moves it. */
START_TEST(a_layout_changes_nothing)
{
    static const struct {
        const char *mark;
        float across, down;
    } places[] = {{"run2", 0.5f, 0.5f},      {"learner", 0.5f, 0.5f}, {"choice1", 0.5f, 0.5f},
                  {"beside", 0.5f, 0.5f},    {"scrub", 0.4f, 0.5f},   {"travel", 0.7f, 0.5f},
                  {"faster", 0.5f, 0.5f},    {"slower", 0.5f, 0.5f},  {"play", 0.5f, 0.5f},
                  {"graded_by", 0.5f, 0.5f}, {"rubric", 0.5f, 0.9f},  {"panel", 0.4f, 0.5f},
                  {"losses", 0.5f, 0.1f},    {"panel", 0.6f, 0.5f},   {"lifts", 0.5f, 0.1f},
                  {"panel", 0.9f, 0.5f},     {"points", 0.2f, 0.5f},  {"part", 0.5f, 0.5f},
                  {"course", 0.5f, 0.5f}};
    static Debrief before;
    static AppDrafts drafts;
    for (size_t i = 0; i < sizeof places / sizeof places[0]; i++) {
        app_lay_out(app);
        before = *d;
        drafts = app->drafts;
        touch(places[i].mark, places[i].across, places[i].down);
        ck_assert_msg(memcmp(&before, d, sizeof before) == 0, "%s acts in a layout",
                      places[i].mark);
        ck_assert_mem_eq(&drafts, &app->drafts, sizeof drafts);
        scr_debrief.answer(app);
        ck_assert_msg(memcmp(&before, d, sizeof before) != 0, "%s answers nothing", places[i].mark);
        read_runs();
    }
}
END_TEST

START_TEST(another_run_is_opened)
{
    int64_t first = d->runs[0].id;
    rooms_press(app, "run2", 0.5, 0.5);
    ck_assert_int_eq(d->kept.row, 1);
    ck_assert_int_ne(d->runs[0].id, first);
    ck_assert_int_eq(d->runs[0].id, d->kept.runs[1].id);
    read_runs();
    rooms_key(app, SDLK_UP); /* the list has the keys */
    ck_assert_int_eq(d->kept.row, 0);
    ck_assert_int_eq(d->runs[0].id, first);
}
END_TEST

START_TEST(a_choice_lists_the_runs_of_one_learner)
{
    rooms_press(app, "learner", 0.5, 0.5);
    ck_assert_int_eq(d->filter.open, FILTER_LEARNER);
    rooms_press(app, "choice2", 0.5, 0.5);
    ck_assert_int_eq(d->filter.open, FILTER_NONE);
    ck_assert_int_eq(d->filter.learner, 1);
    ck_assert_int_eq(d->kept.count, 1);
    ck_assert_str_eq(d->runs[0].learner, "Learner 2");
}
END_TEST

START_TEST(the_time_line_goes_where_it_is_pressed)
{
    double span = debrief_span(d);
    d->is_playing = 1;
    rooms_press(app, "scrub", 0.5, 0.5);
    ck_assert_double_eq_tol(d->at_s, 0.5 * span, 0.005 * span);
    ck_assert_int_eq(d->is_playing, 0);
    rooms_press(app, "travel", 0.25, 0.5);
    ck_assert_double_eq_tol(d->at_s, 0.25 * span, 0.005 * span);
    d->at_s = span;
    rooms_press(app, "play", 0.5, 0.5);
    ck_assert_double_eq(d->at_s, 0.0); /* from the end it begins anew */
    ck_assert_int_eq(d->is_playing, 1);
}
END_TEST

static void type(const char *words)
{
    UiEvent e = {.kind = UI_TYPE, .text = words};
    ui_take(app->ui, &e);
    app_lay_out(app);
}

START_TEST(what_a_trainer_says_is_drafted_and_saved)
{
    rooms_press(app, "panel", 0.9, 0.5);
    ck_assert_int_eq(d->view.panel, PANEL_TRAINER);
    double most = d->runs[0].watched.score.parts[d->part].max;
    rooms_press(app, "points", 0.5, 0.5);
    ck_assert_double_eq_tol(d->box.points, 0.5 * most, 0.51);
    rooms_press(app, "comment", 0.5, 0.5);
    type("steady hands");
    ck_assert_str_eq(d->box.typed, "steady hands");
    ck_assert_ptr_nonnull(debrief_draft_of(app, d->runs[0].id, d->part));
    ck_assert_int_eq(d->marks.count, 0);
    rooms_press(app, "save", 0.5, 0.5);
    ck_assert_int_eq(d->marks.count, 1);
    ck_assert_str_eq(d->marks.list[0].reason, "steady hands");
    ck_assert_ptr_null(debrief_draft_of(app, d->runs[0].id, d->part));
}
END_TEST

START_TEST(a_folder_is_typed)
{
    app->records.held_count = 2;
    rooms_press(app, "held_place", 0.5, 0.5);
    SDL_strlcpy(d->place, "/there", sizeof d->place);
    app_lay_out(app);
    app->ui->caret = app->ui->anchor = 6;
    type("2");
    ck_assert_str_eq(d->place, "/there2");
    app->records.held_count = 0;
}
END_TEST

/* Ten rows of 20 px, three of them seen, the fourth is the first. */
static int list_of_ten(int chosen, const UiEvent *e)
{
    static const GfxRect at = {100.0f, 100.0f, 200.0f, 60.0f};
    Ui *ui = app->ui;
    if (e != NULL) {
        ui_take(ui, e);
    }
    ui_begin(ui, 640.0f, 400.0f, 1.0f);
    int first = debrief_list(ui, ID_D_RUNS, at, (DebriefRows){10, 3, chosen, 3, 20.0f});
    ui_end(ui);
    return first;
}

START_TEST(a_list_answers_for_its_rows_and_for_its_top)
{
    const UiEvent press = {.kind = UI_PRESS, .x = 150.0f, .y = 145.0f, .clicks = 1};
    const UiEvent down = {.kind = UI_KEY, .key = UI_KEY_DOWN};
    const UiEvent wheel = {.kind = UI_WHEEL, .wheel = 2.0f};
    const Ui *ui = app->ui;
    double row = -1.0;
    ck_assert_int_eq(list_of_ten(3, &press), 3); /* the third of those seen: row 5 */
    ck_assert(ui_answered(ui, ID_D_RUNS, &row));
    ck_assert_double_eq(row, 5.0);
    ck_assert(!ui_answered(ui, ID_D_RUNS_TOP, NULL));
    ck_assert_int_eq(list_of_ten(5, NULL), 3);
    ck_assert_int_eq(ui->answer_count, 0);
    ck_assert_int_eq(list_of_ten(5, &down), 3); /* the next is out of sight: the top follows */
    ck_assert(ui_answered(ui, ID_D_RUNS, &row));
    ck_assert_double_eq(row, 6.0);
    ck_assert(ui_answered(ui, ID_D_RUNS_TOP, &row));
    ck_assert_double_eq(row, 4.0);
    ck_assert_int_eq(list_of_ten(5, &wheel), 3);
    ck_assert(!ui_answered(ui, ID_D_RUNS, NULL));
    ck_assert(ui_answered(ui, ID_D_RUNS_TOP, &row));
    ck_assert_double_eq(row, 1.0);
    list_of_ten(9, &down); /* after the last there is none */
    ck_assert(!ui_answered(ui, ID_D_RUNS, NULL));
}
END_TEST

START_TEST(a_row_of_the_rubric_shows_its_loss)
{
    rooms_press(app, "rubric", 0.5, 0.95);
    ck_assert_int_eq(d->part, PB_SCORE_PARTS - 1);
    ck_assert(d->loss < 0 || (int)d->runs[0].watched.score.losses[d->loss].part == d->part);
    rooms_press(app, "graded_by", 0.5, 0.5);
    ck_assert_int_eq(d->rubrics.chosen, 1);
    ck_assert_int_eq(d->grades.count, 2);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("debrief");
    TCase *tests = tcase_create("debrief");
    tcase_set_timeout(tests, 60.0);
    tcase_add_unchecked_fixture(tests, fill, empty);
    tcase_add_checked_fixture(tests, begin, end);
    tcase_add_test(tests, the_grade_can_be_read);
    tcase_add_test(tests, the_last_time_is_told_in_short);
    tcase_add_test(tests, how_sure_the_mark_is_can_be_asked_and_stopped);
    tcase_add_test(tests, trouble_of_the_store_is_told_in_the_windows_language);
    tcase_add_test(tests, the_lists_can_be_read);
    tcase_add_test(tests, two_runs_can_be_read);
    tcase_add_test(tests, runs_that_no_disk_takes_can_be_read);
    tcase_add_test(tests, a_layout_changes_nothing);
    tcase_add_test(tests, another_run_is_opened);
    tcase_add_test(tests, a_choice_lists_the_runs_of_one_learner);
    tcase_add_test(tests, the_time_line_goes_where_it_is_pressed);
    tcase_add_test(tests, what_a_trainer_says_is_drafted_and_saved);
    tcase_add_test(tests, a_folder_is_typed);
    tcase_add_test(tests, a_list_answers_for_its_rows_and_for_its_top);
    tcase_add_test(tests, a_row_of_the_rubric_shows_its_loss);
    suite_add_tcase(suite, tests);
    return run_suite(suite);
}
