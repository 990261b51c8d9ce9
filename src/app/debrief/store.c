/* What is kept: the list of runs with its filters, the trainer's marks, the course of a learner. */
#include "debrief/debrief.h"

#include "io/clock.h"
#include "io/run_file.h"
#include "io/score_words.h"
#include "io/trouble_words.h"
#include "os/file.h"
#include "store/shelf.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void debrief_say(App *app, const char *text, int is_trouble)
{
    Debrief *d = app->debrief;
    io_trouble_words(text, app->taste.lang, d->said.text, sizeof d->said.text);
    d->said.is_trouble = is_trouble;
    d->said.until_s = app->program.now_s + (is_trouble ? 12.0 : 5.0);
}

/* Exercises that have runs, from the unfiltered list. */
static void gather_exercises(Debrief *d, const StoreRun *list, int count)
{
    d->kept.exercise_count = 0;
    for (int i = 0; i < count && d->kept.exercise_count < 32; i++) {
        int k = 0;
        while (k < d->kept.exercise_count &&
               strcmp(d->kept.exercises[k], list[i].summary.exercise_id) != 0) {
            k++;
        }
        if (k == d->kept.exercise_count) {
            snprintf(d->kept.exercises[k], sizeof d->kept.exercises[k], "%s",
                     list[i].summary.exercise_id);
            snprintf(d->kept.titles[k], sizeof d->kept.titles[k], "%s",
                     list[i].summary.exercise_title);
            d->kept.exercise_count++;
        }
    }
}

static void read_list(App *app, const StoreFilter *f)
{
    Debrief *d = app->debrief;
    PbError err = {0};
    free(d->kept.runs);
    d->kept.runs = NULL;
    d->kept.count = 0;
    if (store_run_list(d->store, f, &d->kept.runs, &d->kept.count, &err) != PB_OK) {
        debrief_say(app, err.message, 1);
    }
}

void debrief_refresh(App *app)
{
    Debrief *d = app->debrief;
    PbError err = {0};
    if (d->store == NULL) {
        return;
    }
    const StoreFilter none = {0};
    read_list(app, &none);
    gather_exercises(d, d->kept.runs, d->kept.count);
    free(d->kept.learners);
    d->kept.learners = NULL;
    d->kept.learner_count = 0;
    if (store_learner_list(d->store, &d->kept.learners, &d->kept.learner_count, &err) != PB_OK) {
        debrief_say(app, err.message, 1);
    }
    d->filter.learner = d->filter.learner >= d->kept.learner_count ? -1 : d->filter.learner;
    d->filter.exercise = d->filter.exercise >= d->kept.exercise_count ? -1 : d->filter.exercise;
    StoreFilter f = {0};
    f.learner_id = d->filter.learner >= 0 ? d->kept.learners[d->filter.learner].id : 0;
    f.exercise_id = d->filter.exercise >= 0 ? d->kept.exercises[d->filter.exercise] : NULL;
    if (f.learner_id != 0 || f.exercise_id != NULL) {
        read_list(app, &f);
    }
    d->kept.first_row = 0;
    d->kept.row = -1;
    for (int i = 0; i < d->kept.count; i++) {
        d->kept.row = d->kept.runs[i].id == d->runs[0].id && d->runs[0].is_open ? i : d->kept.row;
    }
}

static int load(App *app, DebriefRun *r, const StoreRun *row)
{
    Debrief *d = app->debrief;
    void *bytes = NULL;
    size_t size = 0;
    PbError err = {0};
    char why[300];
    if (store_run_bytes(d->store, row->id, &bytes, &size, &err) != PB_OK) {
        debrief_say(app, err.message, 1);
        return 0;
    }
    int ok = debrief_run_open(app, r, bytes, size, row->summary.exercise_title, why, sizeof why);
    free(bytes);
    if (!ok) {
        debrief_say(app, why, 1);
        return 0;
    }
    r->id = row->id;
    snprintf(r->learner, sizeof r->learner, "%s", row->learner);
    snprintf(r->when, sizeof r->when, "%s", row->summary.when);
    return 1;
}

static void read_marks(App *app)
{
    Debrief *d = app->debrief;
    PbError err = {0};
    free(d->marks.list);
    d->marks.list = NULL;
    d->marks.count = 0;
    if (store_mark_list(d->store, d->runs[0].id, &d->marks.list, &d->marks.count, &err) != PB_OK) {
        debrief_say(app, err.message, 1);
    }
}

/* The reference run of an exercise: this person's own, which coach puts there, before ours. */
static int reference_path(App *app, const char *exercise_id, char *path, size_t size)
{
    char name[80];
    PbError err = {0};
    snprintf(name, sizeof name, "reference/%s.pbrun", exercise_id);
    return (store_default_file(name, path, size, &err) == PB_OK && os_is_readable(path)) ||
           app_find(&app->options, name, path, size);
}

static void gather_mates(App *app, const StoreRun *row)
{
    Debrief *d = app->debrief;
    PbError err = {0};
    StoreFilter f = {.exercise_id = row->summary.exercise_id};
    char path[700];
    free(d->mates.list);
    d->mates.list = NULL;
    d->mates.count = 0;
    d->mates.chosen = -1;
    if (store_run_list(d->store, &f, &d->mates.list, &d->mates.count, &err) != PB_OK) {
        debrief_say(app, err.message, 1);
    }
    d->mates.has_reference = reference_path(app, row->summary.exercise_id, path, sizeof path);
    StoreFilter c = {row->learner_id, row->summary.exercise_id, 1, 0, 0};
    free(d->course.list);
    d->course.list = NULL;
    d->course.count = 0;
    if (store_run_list(d->store, &c, &d->course.list, &d->course.count, &err) != PB_OK) {
        debrief_say(app, err.message, 1);
    }
    int n = 0; /* finished runs of this very exercise, by this person's own hands */
    for (int i = 0; i < d->course.count; i++) {
        const PbRunSummary *m = &d->course.list[i].summary;
        if (pb_summary_counts(m) && m->exercise_hash == row->summary.exercise_hash) {
            d->course.list[n++] = d->course.list[i];
        }
    }
    d->course.count = n;
    for (int i = 0; i < d->course.count / 2; i++) { /* oldest first */
        StoreRun swap = d->course.list[i];
        d->course.list[i] = d->course.list[d->course.count - 1 - i];
        d->course.list[d->course.count - 1 - i] = swap;
    }
}

void debrief_pick(App *app, int row)
{
    Debrief *d = app->debrief;
    if (row < 0 || row >= d->kept.count) {
        return;
    }
    d->kept.row = row;
    d->loss = d->lift = -1;
    d->first_loss = d->first_lift = 0;
    d->at_s = 0.0;
    d->is_playing = 0;
    debrief_sure_end(d);
    debrief_run_close(&d->runs[1]);
    if (!load(app, &d->runs[0], &d->kept.runs[row])) {
        return;
    }
    gather_mates(app, &d->kept.runs[row]);
    d->last_time = records_last_time(d->store, d->runs[0].id);
    read_marks(app);
    debrief_take_mark(app);
}

/* It was not kept, so it has no number and takes no marks: it is shown as it is in memory. */
static void show_unkept(App *app)
{
    Debrief *d = app->debrief;
    const Records *rec = &app->records;
    DebriefRun *r = &d->runs[0];
    char why[300];
    d->kept.row = -1;
    d->last_time = (IoLastTime){0};
    debrief_sure_end(d);
    if (!debrief_run_open(app, r, rec->last, rec->last_size, _("This run"), why, sizeof why)) {
        debrief_say(app, why, 1);
        return;
    }
    r->is_guided = guide_is_done(app);
    r->is_part = r->is_part || r->is_guided;
    snprintf(r->learner, sizeof r->learner, "%s", _("not saved"));
    debrief_say(app, _("This run was not saved; you can look at it until the next one begins."), 0);
}

void debrief_pick_last(App *app)
{
    Debrief *d = app->debrief;
    const Records *rec = &app->records;
    if (rec->last != NULL) {
        show_unkept(app);
        return;
    }
    if (app->run.watched.has_score && rec->kept_id == 0) { /* nor is it in memory */
        debrief_say(app, _("The run you just did was not saved and cannot be shown."), 1);
        return;
    }
    int row = 0;
    for (int i = 0; i < d->kept.count; i++) {
        row = d->kept.runs[i].id == rec->kept_id ? i : row;
    }
    debrief_pick(app, row);
}

static int load_reference(App *app, DebriefRun *r)
{
    char path[700], why[300];
    if (!reference_path(app, app->debrief->runs[0].file.exercise.id, path, sizeof path)) {
        return 0;
    }
    FILE *f = os_open_stream(path, OS_TO_READ);
    unsigned char *bytes = malloc(IO_RUN_MAX_BYTES);
    size_t n = f != NULL && bytes != NULL ? fread(bytes, 1, IO_RUN_MAX_BYTES, f) : 0;
    int ok = debrief_run_open(app, r, bytes, n, path, why, sizeof why);
    if (f != NULL) {
        fclose(f);
    }
    free(bytes);
    if (!ok) {
        debrief_say(app, why, 1);
        return 0;
    }
    r->is_reference = 1;
    snprintf(r->learner, sizeof r->learner, "%s", _("Reference run"));
    return 1;
}

void debrief_pick_mate(App *app, int mate)
{
    Debrief *d = app->debrief;
    debrief_run_close(&d->runs[1]);
    d->mates.chosen = mate;
    if (mate >= 0 && mate < d->mates.count) {
        d->mates.chosen = load(app, &d->runs[1], &d->mates.list[mate]) ? mate : -1;
    } else if (mate >= d->mates.count) {
        d->mates.chosen = load_reference(app, &d->runs[1]) ? mate : -1;
    }
}

void debrief_next_mate(App *app)
{
    Debrief *d = app->debrief;
    if (!d->runs[0].is_open) {
        return;
    }
    if (d->mates.chosen < 0 && d->mates.has_reference) {
        debrief_pick_mate(app, d->mates.count);
        return;
    }
    int next = d->mates.chosen < 0 || d->mates.chosen >= d->mates.count ? 0 : d->mates.chosen + 1;
    while (next < d->mates.count && d->mates.list[next].id == d->runs[0].id) {
        next++;
    }
    debrief_pick_mate(app, next < d->mates.count ? next : -1);
}

const IoLastTime *debrief_last_time(const Debrief *d)
{
    static const IoLastTime nothing;
    const DebriefRun *r = &d->runs[0];
    return strcmp(r->watched.rubric.name, r->own.rubric) == 0 ? &d->last_time : &nothing;
}

const char *debrief_part_key(int part)
{
    return part >= PB_SCORE_PARTS ? STORE_WHOLE_RUN : io_part_key((PbScorePartKind)part);
}

const StoreMark *debrief_current_mark(const Debrief *d, const char *part, int with_points)
{
    for (int i = d->marks.count - 1; i >= 0; i--) {
        const StoreMark *m = &d->marks.list[i];
        if (strcmp(m->part, part) == 0 && (!with_points || m->points >= 0.0)) {
            return m;
        }
    }
    return NULL;
}

double debrief_trainer_total(const Debrief *d, int *given)
{
    const StoreMark *whole = debrief_current_mark(d, STORE_WHOLE_RUN, 1);
    double got = 0.0, most = 0.0;
    int shown[PB_SCORE_PARTS]; /* who adds up what stands there gets the total */
    io_parts_shown(&d->runs[0].watched.score, shown);
    *given = whole != NULL;
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        const StoreMark *m = debrief_current_mark(d, debrief_part_key(i), 1);
        const PbScorePart *p = &d->runs[0].watched.score.parts[i];
        got += m != NULL ? floor(m->points * debrief_in_use(&d->runs[0], i) + 0.5) : shown[i];
        most += p->max;
        *given += m != NULL;
    }
    return whole != NULL ? whole->points : most > 0.0 ? 100.0 * got / most : 0.0;
}

/* What was said last of the chosen part comes into the box, to be said anew; what was typed for it
 * and not saved comes before that. */
void debrief_take_mark(App *app)
{
    Debrief *d = app->debrief;
    debrief_draft_keep(app);
    const StoreMark *m = debrief_current_mark(d, debrief_part_key(d->part), 0);
    const AppDraft *a = debrief_draft_of(app, d->runs[0].id, d->part);
    d->box.run = d->runs[0].id;
    d->box.part = d->part;
    d->box.kept_points = m != NULL ? m->points : -1.0;
    SDL_strlcpy(d->box.kept_text, m != NULL ? m->reason : "", sizeof d->box.kept_text);
    d->box.points = a != NULL ? a->points : d->box.kept_points;
    SDL_strlcpy(d->box.typed, a != NULL ? a->text : d->box.kept_text, sizeof d->box.typed);
}

void debrief_save_mark(App *app)
{
    Debrief *d = app->debrief;
    StoreMark m = {0};
    PbError err = {0};
    if (d->runs[0].id == 0 || (d->box.points < 0.0 && d->box.typed[0] == '\0')) {
        debrief_say(app, _("Give points, a reason or a comment first."), 1);
        return;
    }
    snprintf(m.part, sizeof m.part, "%s", debrief_part_key(d->part));
    m.points = d->box.points;
    snprintf(m.reason, sizeof m.reason, "%s", d->box.typed);
    snprintf(m.trainer, sizeof m.trainer, "%s", d->trainer);
    io_now_utc(m.marked);
    if (store_mark_add(d->store, d->runs[0].id, &m, &err) != PB_OK) {
        debrief_say(app, err.message, 1);
        return;
    }
    d->box.kept_points = d->box.points;
    SDL_strlcpy(d->box.kept_text, d->box.typed, sizeof d->box.kept_text);
    debrief_draft_keep(app);
    if (store_setting_put(d->store, "trainer", d->trainer, &err) != PB_OK) {
        debrief_say(app, err.message, 1); /* the mark is kept; the name is asked for again */
        return;
    }
    read_marks(app);
    debrief_say(app,
                m.points < 0.0 ? _("The comment is saved, without points.")
                               : _("Saved; the computed points stay beside yours."),
                0);
}
