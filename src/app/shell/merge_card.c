/* What another computer has kept comes into this store: people, runs that are played and marked
 * again here, drills. One run a frame, with how far it is; it can be stopped, and begun again. */
#include "shell/shell.h"

#include "io/clock.h"
#include "io/doc.h"
#include "io/run_judge.h"
#include "io/trouble_words.h"
#include "store/merge.h"

#include <stdio.h>
#include <string.h>

static PbStatus judge(void *user, const char *name, const void *bytes, size_t size,
                      const char *ended, PbRunSummary *summary, PbError *err)
{
    const Records *r = user;
    IoJudge how = {
        .climate = r->climate, .user = r->climate_user, .origin = PB_ORIGIN_IMPORTED, .now = ended};
    return io_run_judge(&how, name, bytes, size, summary, NULL, err);
}

void merge_card_end(App *app)
{
    store_merge_end(app->cards.merge);
    app->cards.merge = NULL;
}

static void say_error(App *app, const PbError *err)
{
    char line[700];
    app->cards.is_news = 0;
    io_error_line(err, line, sizeof line);
    snprintf(app->cards.says, sizeof app->cards.says, "%.399s", line);
}

void merge_card_begin(App *app, const char *path)
{
    PbError err = {0};
    merge_card_end(app);
    app_card_open(app, CARD_MERGE);
    snprintf(app->cards.field, sizeof app->cards.field, "%.599s", path);
    if (app->records.store == NULL) {
        snprintf(app->cards.says, sizeof app->cards.says, "%.399s", app->records.trouble);
    } else if (store_merge_begin(app->records.store, path, &app->cards.merge, &err) != PB_OK) {
        app->cards.merge = NULL;
        say_error(app, &err);
    }
}

/* "12 of 80 runs. New here: 9 runs, 2 people, 4 drills. Here already: 3. Left there: 0. ..." */
static void say_done(App *app, const StoreMerged *d)
{
    char more[200] = "";
    if (d->left > 0) {
        snprintf(more, sizeof more, _(" Broken off there, and not taken: %d."), d->left);
    }
    if (d->refused > 0) {
        size_t used = strlen(more);
        snprintf(more + used, sizeof more - used, _(" Refused, as they do not replay: %d."),
                 d->refused);
    }
    app->cards.is_news = 1;
    snprintf(app->cards.says, sizeof app->cards.says,
             _("%d of %d runs looked at. New here: runs %d, people %d, drills %d. Here already: "
               "%d.%s"),
             d->done, d->count, d->taken, d->people, d->drills, d->had, more);
}

void merge_card_work(App *app)
{
    char now[IO_UTC_SIZE];
    PbError err = {0};
    StoreMerge *m = app->cards.merge;
    if (m == NULL) {
        return;
    }
    io_now_utc(now);
    PbStatus status = store_merge_step(m, judge, &app->records, now, &err);
    say_done(app, store_merge_done(m));
    if (status == PB_OK && app->cards.open == CARD_MERGE) {
        return;
    }
    merge_card_end(app); /* done, in trouble, or the card was closed */
    records_refresh(&app->records);
    records_grades(&app->records, &app->exercises);
    if (status != PB_OK && status != PB_ERR_NO_RESULT) {
        say_error(app, &err);
    }
}

void merge_card_draw(const App *app)
{
    Ui *ui = app->ui;
    const GfxColor none = {0, 0, 0, 0};
    const char *words =
        _("Path of the other computer's file pullback.db, or drop it on the window. It is only "
          "read. People of one name are one person. Every run is played and marked again here; "
          "runs that were broken off, and jobs at a wall, stay where they are.");
    char says[sizeof app->cards.says];
    io_trouble_words(app->cards.says, app->taste.lang, says, sizeof says);
    float wide = ui_px(ui, 640), in = wide - 2.0f * ui_px(ui, 24);
    float tall = ui_paragraph(ui, 0, 0, in, 14, UI_REGULAR, none, words) + ui_px(ui, 18);
    float said = ui_paragraph(ui, 0, 0, in, 13, UI_BOLD, none, says);
    GfxRect at = app_card_plate(app, wide, ui_px(ui, 68 + 24 + 36 + 40 + 36) + tall + said,
                                _("From another computer"));
    ui_paragraph(ui, at.x, at.y + ui_px(ui, 12), at.w, 14, UI_REGULAR, ui->theme->ink, words);
    at.y += tall;
    at.h -= tall;
    app_card_field(app, at, _("path/of/pullback.db"), _("Take in"), (int)sizeof app->cards.field);
}

void merge_card_answer(App *app)
{
    char path[sizeof app->cards.field];
    if (app_card_field_done(app) && app->cards.merge == NULL) {
        snprintf(path, sizeof path, "%s", app->cards.field);
        merge_card_begin(app, path);
    }
}
