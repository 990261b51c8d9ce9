/* By which rubric the run is marked. The default comes first, then those in assets/rubrics, then
 * those that this person has put into the store. A grade that was asked for is kept beside the one
 * the run came with: neither takes the other's place. */
#include "debrief/debrief.h"

#include "io/clock.h"
#include "io/score_words.h"

#include "io/doc.h"
#include "io/rubric_file.h"
#include "io/run_summary.h"
#include "os/file.h"
#include "store/shelf.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void add(Debrief *d, const PbRubric *rubric)
{
    for (int i = 0; i < d->rubrics.count; i++) {
        if (strcmp(d->rubrics.list[i].name, rubric->name) == 0) {
            return;
        }
    }
    if (d->rubrics.count < DEBRIEF_RUBRICS) {
        d->rubrics.list[d->rubrics.count++] = *rubric;
    }
}

static void left_out(const PbError *err)
{
    char line[1024];
    io_error_line(err, line, sizeof line);
    fprintf(stderr, "pullback: left out of the rubrics: %s\n", line);
}

static void add_shipped(App *app)
{
    char folder[700], path[800], **names = NULL;
    int count = 0;
    if (app_find(&app->options, "rubrics", folder, sizeof folder)) {
        names = os_names(folder, ".json", &count);
    }
    for (int i = 0; i < count && i < DEBRIEF_RUBRICS; i++) {
        PbRubric rubric;
        PbError err = {0};
        snprintf(path, sizeof path, "%s/%.63s", folder, names[i]);
        if (io_rubric_load(path, &rubric, &err) == PB_OK) {
            add(app->debrief, &rubric);
        } else {
            left_out(&err);
        }
    }
    os_names_free(names, count);
}

static void add_kept(App *app)
{
    Debrief *d = app->debrief;
    StoreItem *items = NULL;
    int count = 0;
    PbError err = {0};
    if (d->store == NULL ||
        store_item_list(d->store, STORE_RUBRICS, &items, &count, &err) != PB_OK) {
        return;
    }
    for (int i = 0; i < count; i++) {
        char *text = NULL;
        PbRubric rubric;
        if (store_item_get(d->store, STORE_RUBRICS, items[i].name, &text, &err) == PB_OK &&
            io_rubric_parse(items[i].name, text, strlen(text), &rubric, &err) == PB_OK) {
            add(d, &rubric);
        } else {
            left_out(&err);
        }
        free(text);
    }
    free(items);
}

void debrief_rubrics_read(App *app)
{
    Debrief *d = app->debrief;
    d->rubrics.list[0] = pb_rubric_default();
    d->rubrics.count = 1;
    d->rubrics.chosen = 0;
    add_shipped(app);
    add_kept(app);
}

double debrief_own_points(const DebriefRun *r, int part, double *most)
{
    for (int i = 0; i < r->own.part_count; i++) {
        if ((int)r->own.parts[i].kind == part) {
            *most = r->own.parts[i].max;
            return r->own.parts[i].points;
        }
    }
    *most = r->watched.score.parts[part].max;
    return r->watched.score.parts[part].points;
}

double debrief_in_use(const DebriefRun *r, int part)
{
    double most = 0.0;
    if (part >= PB_SCORE_PARTS || !r->watched.has_score) {
        return 1.0;
    }
    (void)debrief_own_points(r, part, &most);
    return most > 0.0 ? r->watched.score.parts[part].max / most : 1.0;
}

static void read_grades(App *app)
{
    Debrief *d = app->debrief;
    PbError err = {0};
    free(d->grades.list);
    d->grades.list = NULL;
    d->grades.count = 0;
    if (d->runs[0].id > 0 && store_grade_list(d->store, d->runs[0].id, &d->grades.list,
                                              &d->grades.count, &err) != PB_OK) {
        debrief_say(app, err.message, 1);
    }
}

static void fill(const PbScore *s, const PbRubric *rubric, StoreGrade *g)
{
    memset(g, 0, sizeof *g);
    snprintf(g->rubric, sizeof g->rubric, "%s", rubric->name);
    io_now_utc(g->graded);
    g->total = s->total;
    g->is_pass = s->is_pass;
    g->part_count = io_part_points(s, g->parts);
}

void debrief_grade_keep(App *app)
{
    Debrief *d = app->debrief;
    DebriefRun *r = &d->runs[0];
    StoreGrade grade;
    PbError err = {0};
    read_grades(app);
    if (d->store == NULL || r->id == 0 || !r->watched.has_score || d->rubrics.chosen == 0 ||
        strcmp(r->watched.rubric.name, r->own.rubric) == 0) {
        return;
    }
    fill(&r->watched.score, &r->watched.rubric, &grade);
    if (store_grade_put(d->store, r->id, &grade, &err) != PB_OK) {
        debrief_say(app, err.message, 1);
    }
    read_grades(app);
}

void debrief_rubric_choose(App *app, int rubric)
{
    Debrief *d = app->debrief;
    debrief_sure_end(d);
    d->rubrics.chosen = rubric < 0 || rubric >= d->rubrics.count ? 0 : rubric;
    d->loss = -1;
    for (int i = 0; i < DEBRIEF_RUNS; i++) {
        DebriefRun *r = &d->runs[i];
        r->watched.rubric = d->rubrics.list[d->rubrics.chosen];
        if (r->is_open && r->is_scanned) {
            debrief_run_mark(r); /* update() brings the replay back to the time line */
        }
    }
    if (d->runs[0].is_scanned) {
        debrief_grade_keep(app);
    }
}

static void kept_grades(const App *app, char *out, size_t size)
{
    const Debrief *d = app->debrief;
    size_t used = 0;
    out[0] = '\0';
    for (int i = 0; i < d->grades.count && used + 8 < size; i++) {
        int n = snprintf(out + used, size - used, "%s%s %s%s", i > 0 ? ", " : "",
                         _(d->grades.list[i].rubric), app_fmt_mark(app, d->grades.list[i].total),
                         d->grades.list[i].rules < PB_SCORE_RULES ? _(" (old rules)") : "");
        used += n > 0 ? (size_t)n : 0;
    }
}

/* The rubric in use, a button that goes round, and what is kept under each. */
void debrief_rubric_row(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    const Debrief *d = app->debrief;
    char text[120], kept[300];
    snprintf(text, sizeof text, _("Rubric: %s"), _(d->rubrics.list[d->rubrics.chosen].name));
    kept_grades(app, kept, sizeof kept);
    float wide = fminf(r.w * (kept[0] != '\0' ? 0.55f : 1.0f),
                       ui_width(ui, 14, UI_BOLD, text) + ui_px(ui, 24));
    float gap = ui_px(ui, 10);
    GfxRect b = {r.x, r.y, wide, r.h};
    app_mark(app, "graded_by", b);
    debrief_wide_button(app, ID_D_GRADED_BY, b, wide - ui_px(ui, 14), text, d->rubrics.count < 2);
    GfxRect beside = {r.x + wide + gap, r.y, r.w - wide - gap, r.h};
    ui_words(ui, beside, 12, UI_REGULAR, ui->theme->ink2, UI_LEFT, kept);
}

void debrief_rubric_answer(App *app)
{
    if (ui_answered(app->ui, ID_D_GRADED_BY, NULL)) {
        debrief_rubric_choose(app, app->debrief->rubrics.chosen + 1);
    }
}
