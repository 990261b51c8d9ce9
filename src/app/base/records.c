/* Learners and grades in the store. Next: records_run.c, the run under way. */
#include "base/records.h"
#include "io/clock.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

void records_refresh(Records *r)
{
    PbError err;
    free(r->learners);
    r->learners = NULL;
    r->learner_count = 0;
    if (r->store != NULL &&
        store_learner_list(r->store, &r->learners, &r->learner_count, &err) != PB_OK) {
        snprintf(r->trouble, sizeof r->trouble, "%s", err.message);
    }
}

void records_open(Records *r, const char *path, const char *learner)
{
    PbError err = {0};
    char folder[700];
    Records fresh = {.climate = r->climate, .climate_user = r->climate_user};
    *r = fresh;
    if (store_open(path[0] ? path : NULL, &r->store, &err) != PB_OK) {
        r->store = NULL;
        snprintf(r->trouble, sizeof r->trouble, "%s", err.message);
        fprintf(stderr, "pullback: grades are not kept: %s%s%s\n", err.file,
                err.file[0] ? ": " : "", err.message);
        return;
    }
    if (records_run_folder(r, folder, sizeof folder)) {
        records_gather(r, folder);
    }
    records_refresh(r);
    for (int i = 0; learner[0] && i < r->learner_count; i++) {
        if (strcmp(r->learners[i].name, learner) == 0) {
            records_choose(r, i);
        }
    }
}

void records_close(Records *r, Run *run)
{
    char why[600];
    if (!records_run_end(r, run, why, sizeof why)) {
        fprintf(stderr, "pullback: %s\n", why);
    }
    records_hold_end(r);
    free(r->learners);
    free(r->last);
    r->last = NULL;
    store_close(r->store);
    r->learners = NULL;
    r->store = NULL;
}

void records_choose(Records *r, int index)
{
    int is_one = index >= 0 && index < r->learner_count;
    r->learner_id = is_one ? r->learners[index].id : 0;
    snprintf(r->learner, sizeof r->learner, "%s", is_one ? r->learners[index].name : "");
}

static void trim(const char *name, char *out, size_t size)
{
    size_t n;
    snprintf(out, size, "%s", name + strspn(name, " "));
    for (n = strlen(out); n > 0 && out[n - 1] == ' '; n--) {
        out[n - 1] = '\0';
    }
}

int records_add(Records *r, const char *name, char *why, size_t size)
{
    PbError err = {0};
    StoreLearner known;
    char when[24], clean[600];
    int64_t id = 0;
    trim(name, clean, sizeof clean);
    if (r->store == NULL) {
        snprintf(why, size, "%s", r->trouble);
        return 0;
    }
    io_now_utc(when);
    PbStatus status = store_learner_find(r->store, clean, &known, &err);
    if (status == PB_OK) { /* somebody who is there already is simply chosen */
        id = known.id;
    } else if (store_learner_add(r->store, clean, when, &id, &err) != PB_OK) {
        snprintf(why, size, "%s", err.message);
        return 0;
    }
    records_refresh(r);
    for (int i = 0; i < r->learner_count; i++) {
        if (r->learners[i].id == id) {
            records_choose(r, i);
        }
    }
    return r->learner_id == id;
}

int records_contents(Records *r, int index, StoreContents *out, char *why, size_t size)
{
    PbError err = {0};
    if (store_learner_contents(r->store, r->learners[index].id, out, &err) != PB_OK) {
        snprintf(why, size, "%s", err.message);
        return 0;
    }
    return 1;
}

PbStatus records_delete(Records *r, int64_t id, char *why, size_t size)
{
    PbError err = {0};
    PbStatus status = store_learner_delete(r->store, id, &err);
    if (status != PB_OK) {
        snprintf(why, size, "%s", err.message);
        return status;
    }
    records_let_go(r, id);
    if (r->learner_id == id) {
        records_choose(r, -1);
        r->kept[0] = '\0';
    }
    records_refresh(r);
    return PB_OK;
}

/* Is this run one of the exercise, by what the exercise is? Runs of an earlier program say its id
 * alone. */
static int is_of(const PbRunSummary *m, const ExerciseRow *row)
{
    return m->exercise_hash != 0 ? m->exercise_hash == row->hash
                                 : strcmp(m->exercise_id, row->exercise.id) == 0;
}

/* Newest first: what was left before the last finished run is history. */
static void note(ExerciseRow *row, const StoreRun *run)
{
    const PbRunSummary *m = &run->summary;
    if (pb_summary_counts(m)) {
        row->last = row->runs == 0 ? m->total : row->last;
        row->is_passed |= m->is_pass;
        row->runs++;
    } else if (m->state == PB_RUN_LEFT && m->origin == PB_ORIGIN_HERE && row->left_id == 0 &&
               row->runs == 0 && m->physics_version == PB_PHYSICS_VERSION) {
        row->left_id = run->id;
        row->left_s = m->duration_s;
    }
}

void records_grades(const Records *r, Exercises *list)
{
    StoreFilter filter = {.learner_id = r->learner_id};
    StoreRun *runs = NULL;
    PbError err;
    int count = 0;
    for (int i = 0; i < list->count; i++) {
        list->rows[i].runs = 0;
        list->rows[i].last = -1.0;
        list->rows[i].is_passed = 0;
        list->rows[i].left_id = 0;
    }
    if (r->store != NULL && r->learner_id != 0 &&
        store_run_list(r->store, &filter, &runs, &count, &err) != PB_OK) {
        count = 0;
    }
    for (int k = 0; k < count; k++) {
        for (int i = 0; i < list->count; i++) {
            if (is_of(&runs[k].summary, &list->rows[i])) {
                note(&list->rows[i], &runs[k]);
            }
        }
    }
    free(runs);
    exercises_unlock(list, r->learner_id != 0);
}
