/* Learners and grades in the store, and the run under way in a file of its own until the store has
 * it: a crash or a power cut loses a second. */
#include "records.h"

#include "io/run_recorder.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <time.h>
#include <unistd.h>

void records_now(char out[24])
{
    time_t now = time(NULL);
    struct tm t;
    gmtime_r(&now, &t);
    strftime(out, 24, "%Y-%m-%dT%H:%M:%SZ", &t);
}

/* The folder of run files beside the database, made when missing. */
static int run_folder(const Records *r, char *out, size_t size)
{
    const char *path = store_path(r->store), *slash = strrchr(path, '/');
    int n = slash != NULL ? snprintf(out, size, "%.*s/runs", (int)(slash - path), path)
                          : snprintf(out, size, "runs");
    return n < (int)size && (mkdir(out, 0700) == 0 || errno == EEXIST);
}

static void refresh(Records *r)
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
    memset(r, 0, sizeof *r);
    if (store_open(path[0] ? path : NULL, &r->store, &err) != PB_OK) {
        r->store = NULL;
        snprintf(r->trouble, sizeof r->trouble, "%s", err.message);
        fprintf(stderr, "pullback: grades are not kept: %s%s%s\n", err.file,
                err.file[0] ? ": " : "", err.message);
        return;
    }
    if (run_folder(r, folder, sizeof folder)) {
        records_gather(r, folder);
    }
    refresh(r);
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
    records_now(when);
    PbStatus status = store_learner_find(r->store, clean, &known, &err);
    if (status == PB_OK) { /* somebody who is there already is simply chosen */
        id = known.id;
    } else if (store_learner_add(r->store, clean, when, &id, &err) != PB_OK) {
        snprintf(why, size, "%s", err.message);
        return 0;
    }
    refresh(r);
    for (int i = 0; i < r->learner_count; i++) {
        if (r->learners[i].id == id) {
            records_choose(r, i);
        }
    }
    return r->learner_id == id;
}

void records_grades(const Records *r, Exercises *list)
{
    StoreFilter filter = {.learner_id = r->learner_id};
    StoreRun *runs = NULL;
    PbError err;
    int count = 0;
    for (int i = 0; i < list->count; i++) {
        list->rows[i].runs = 0;
        list->rows[i].last = list->rows[i].best = -1.0;
    }
    if (r->store != NULL && r->learner_id != 0 &&
        store_run_list(r->store, &filter, &runs, &count, &err) != PB_OK) {
        count = 0;
    }
    for (int k = 0; k < count; k++) { /* newest first */
        const PbRunSummary *s = &runs[k].summary;
        for (int i = 0; strcmp(s->rubric, "none") != 0 && i < list->count; i++) {
            ExerciseRow *row = &list->rows[i];
            if (strcmp(row->exercise.id, s->exercise_id) == 0) {
                row->last = row->runs == 0 ? s->total : row->last;
                row->best = s->total > row->best ? s->total : row->best;
                row->runs++;
            }
        }
    }
    free(runs);
    exercises_unlock(list, r->learner_id != 0);
}

int records_run_begin(Records *r, Run *run, char *why, size_t size)
{
    PbError err = {0};
    char folder[700], stamp[32];
    time_t now = time(NULL);
    struct tm t;
    r->kept[0] = '\0';
    r->run_path[0] = '\0';
    r->run_learner_id = r->store != NULL ? r->learner_id : 0;
    if (r->store == NULL) { /* no place to keep it: in memory, to be saved elsewhere */
        PbStatus status =
            io_recorder_open(NULL, &run->config, "", (int64_t)now, &run->recorder, &err);
        run->recorder = status == PB_OK ? run->recorder : NULL;
        snprintf(why, size, "%s", r->trouble);
        return 0;
    }
    if (r->run_learner_id == 0) {
        return 1;
    }
    gmtime_r(&now, &t);
    strftime(stamp, sizeof stamp, "%Y%m%dT%H%M%SZ", &t);
    int has_folder = run_folder(r, folder, sizeof folder);
    for (int k = 0; has_folder && k < 100; k++) {
        snprintf(r->run_path, sizeof r->run_path, "%s/%lld-%s-%d-%ld.run", folder,
                 (long long)r->run_learner_id, stamp, k, (long)getpid());
        if (access(r->run_path, F_OK) != 0) {
            break;
        }
    }
    if (r->run_path[0] != '\0' && io_recorder_open(r->run_path, &run->config, r->learner,
                                                   (int64_t)now, &run->recorder, &err) == PB_OK) {
        return 1;
    }
    r->run_path[0] = '\0';
    snprintf(why, size, "%s", err.message[0] ? err.message : strerror(errno));
    if (io_recorder_open(NULL, &run->config, r->learner, (int64_t)now, &run->recorder, &err) !=
        PB_OK) {
        run->recorder = NULL;
        r->run_learner_id = 0;
    }
    return 0;
}

/* Somebody looked in and left: nothing was blown, nothing is kept. */
static int is_worth_keeping(const Run *run)
{
    PbResult result;
    if (run->has_result) {
        return 1;
    }
    pb_session_result(run->session, &result);
    return result.mass_fed_kg > 0.0;
}

int records_run_end(Records *r, Run *run, char *why, size_t size)
{
    PbError err = {0};
    size_t bytes = 0;
    if (run->recorder == NULL) {
        return 1;
    }
    int is_kept = 1, is_wanted = is_worth_keeping(run);
    if (run->has_result) {
        /* A refusing disk is no matter yet: the bytes are here and go into the store. */
        if (io_recorder_finish(run->recorder, run->session, &run->score, &run->rubric, &err) !=
            PB_OK) {
            memset(&err, 0, sizeof err);
        }
    }
    if (is_wanted) {
        const unsigned char *file = io_recorder_bytes(run->recorder, &bytes);
        if (r->store == NULL) {
            is_kept = 0;
            (void)pb_fail(&err, PB_ERR_IO, "%s", r->trouble);
        } else {
            is_kept = records_take(r, r->run_learner_id, "run", file, bytes, run, &err) == PB_OK;
        }
        r->runs_kept += is_kept;
        if (!is_kept && records_hold(r, file, bytes)) {
            snprintf(why, size, "%s", err.message);
        } else if (!is_kept) {
            snprintf(why, size, "%.199s%s%.390s", err.message, r->run_path[0] ? "; " : "",
                     r->run_path);
        }
    }
    io_recorder_close(run->recorder);
    run->recorder = NULL;
    if (is_kept && r->run_path[0] != '\0') {
        unlink(r->run_path); /* the store holds it now, and deleting a person must take all */
    }
    r->run_path[0] = '\0';
    snprintf(r->kept, sizeof r->kept, "%s", is_kept && is_wanted ? r->learner : "");
    return is_kept;
}
