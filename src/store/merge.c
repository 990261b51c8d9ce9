/*
 * Another computer's store, taken in. SQLite copies it into a file of our own beside our store, and
 * that copy is judged and brought up to date as any store is: so the other file stays as it was,
 * and one of an older layout can be read. The copy goes when the merge ends; one that a killed
 * program left is written over by the next.
 */
#include "store/merge.h"
#include "store/drills.h"
#include "store_private.h"

#include "os/file.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

struct StoreMerge {
    Store *mine, other; /* other: the copy */
    StoreRun *runs;
    StoreMerged done;
    int is_over;
};

static void remove_copy(const char *path)
{
    static const char *const ends[] = {"", "-wal", "-shm", "-journal"};
    char name[sizeof((Store *)0)->path + 12];
    for (int i = 0; i < 4; i++) {
        snprintf(name, sizeof name, "%s%s", path, ends[i]);
        (void)os_remove(name);
    }
}

static PbStatus trouble(const char *path, PbError *err, const char *why)
{
    PbStatus status = pb_fail(err, PB_ERR_FORMAT, "cannot be read as a store: %s", why);
    snprintf(err->file, sizeof err->file, "%.255s", path);
    return status;
}

/* All pages as they stand, with what is still in its log. */
static PbStatus copy(const char *path, const char *to, PbError *err)
{
    sqlite3 *from = NULL, *into = NULL;
    char from_path[4096], to_path[4096];
    PbStatus status = PB_OK;
    if (!os_path_for_others(path, from_path, sizeof from_path) ||
        !os_path_for_others(to, to_path, sizeof to_path)) {
        return trouble(path, err, "its path is too long");
    }
    int code = sqlite3_open_v2(from_path, &from, SQLITE_OPEN_READONLY, NULL);
    if (code == SQLITE_OK) {
        sqlite3_busy_timeout(from, STORE_WAIT_MS);
        code = sqlite3_open_v2(to_path, &into, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE, NULL);
    }
    sqlite3_backup *all =
        code == SQLITE_OK ? sqlite3_backup_init(into, "main", from, "main") : NULL;
    if (all != NULL) {
        (void)sqlite3_backup_step(all, -1);
        code = sqlite3_backup_finish(all);
    } else {
        code = code == SQLITE_OK ? sqlite3_errcode(into) : code;
    }
    if (code != SQLITE_OK) {
        status = trouble(path, err, sqlite3_errstr(code));
    }
    sqlite3_close(into);
    sqlite3_close(from);
    return status;
}

static PbStatus open_copy(StoreMerge *m, const char *path, PbError *err)
{
    OsLook mine = os_look(m->mine->path), theirs = os_look(path);
    if (theirs.kind != OS_FILE) {
        return trouble(path, err, "there is no such file");
    }
    if (os_is_one(&mine, &theirs)) {
        PbStatus status = pb_fail(err, PB_ERR_RANGE, "is the store that is in use");
        snprintf(err->file, sizeof err->file, "%.255s", path);
        return status;
    }
    PB_TRY(store_beside(m->mine, "merge.db", m->other.path, sizeof m->other.path, err));
    remove_copy(m->other.path);
    PbStatus status = copy(path, m->other.path, err);
    if (status == PB_OK) {
        status = store_connect(&m->other, err);
        if (status != PB_OK) { /* it speaks of the copy, which nobody knows */
            snprintf(err->file, sizeof err->file, "%.255s", path);
        }
    }
    return status;
}

void store_merge_end(StoreMerge *m)
{
    if (m != NULL) {
        sqlite3_close(m->other.db);
        if (m->other.path[0] != '\0') {
            remove_copy(m->other.path);
        }
        free(m->runs);
        free(m);
    }
}

PbStatus store_merge_begin(Store *store, const char *path, StoreMerge **merge, PbError *err)
{
    assert(store != NULL && path != NULL && merge != NULL);
    StoreMerge *m = calloc(1, sizeof *m);
    if (m == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    m->mine = store;
    m->other.fd = -1;
    PbStatus status = open_copy(m, path, err);
    if (status == PB_OK) {
        StoreFilter all = {.limit = 0};
        status = store_run_list(&m->other, &all, &m->runs, &m->done.count, err);
    }
    if (status != PB_OK) {
        store_merge_end(m);
        return status;
    }
    *merge = m;
    return PB_OK;
}

const StoreMerged *store_merge_done(const StoreMerge *merge)
{
    return &merge->done;
}

/* The person of this name; added when there is none. */
static PbStatus person(StoreMerge *m, const char *name, const char *when, int64_t *id, PbError *err)
{
    StoreLearner l;
    PbStatus status = store_learner_find(m->mine, name, &l, err);
    if (status == PB_OK) {
        *id = l.id;
        return PB_OK;
    }
    if (status != PB_ERR_NO_RESULT) {
        return status;
    }
    PB_TRY(store_learner_add(m->mine, name, when, id, err));
    m->done.people++;
    return PB_OK;
}

static PbStatus take_marks(StoreMerge *m, int64_t from, int64_t to, PbError *err)
{
    StoreMark *marks = NULL;
    int count = 0;
    PB_TRY(store_mark_list(&m->other, from, &marks, &count, err));
    PbStatus status = PB_OK;
    for (int i = 0; i < count && status == PB_OK; i++) {
        status = store_mark_add(m->mine, to, &marks[i], err);
    }
    free(marks);
    return status;
}

static int is_here(StoreMerge *m, const StoreRun *run)
{
    PbError err = {0};
    int64_t id;
    return store_number(m->mine, &id, &err, "cannot read",
                        "SELECT id FROM runs WHERE checksum = ? AND file_bytes = ?", "ii",
                        (int64_t)run->checksum, run->file_bytes) == PB_OK;
}

/* Run and marks come in together. */
static PbStatus put(StoreMerge *m, const StoreRun *run, const void *bytes, size_t size,
                    const PbRunSummary *summary, const char *when, PbError *err)
{
    int64_t learner, id;
    PB_TRY(person(m, run->learner, when, &learner, err));
    PB_TRY(store_run_add(m->mine, learner, bytes, size, summary, when, &id, err));
    return run->mark_count > 0 ? take_marks(m, run->id, id, err) : PB_OK;
}

static PbStatus take_run(StoreMerge *m, const StoreRun *run, StoreJudge *judge, void *user,
                         const char *when, PbError *err)
{
    PbRunSummary summary;
    void *bytes = NULL;
    size_t size = 0;
    char name[64];
    snprintf(name, sizeof name, "run %lld", (long long)run->id);
    PbStatus status = store_run_bytes(&m->other, run->id, &bytes, &size, err);
    if (status == PB_OK) {
        status = judge(user, name, bytes, size, run->summary.when, &summary, err);
    }
    if (status == PB_OK) {
        PbError undone;
        status = store_batch_begin(m->mine, err);
        if (status == PB_OK) {
            status = put(m, run, bytes, size, &summary, when, err);
            PbStatus end =
                store_batch_end(m->mine, status == PB_OK, status == PB_OK ? err : &undone);
            status = status == PB_OK ? end : status;
        }
    }
    free(bytes);
    m->done.taken += status == PB_OK;
    if (status == PB_ERR_FORMAT || status == PB_ERR_RANGE) {
        m->done.refused++;
        return PB_OK;
    }
    return status;
}

static int is_sitting_here(StoreMerge *m, int64_t learner, const StoreDrill *d)
{
    PbError err = {0};
    int64_t id;
    return store_number(m->mine, &id, &err, "cannot read",
                        "SELECT id FROM drills WHERE learner_id = ? AND done = ? AND seed = ?",
                        "iti", learner, d->done, (int64_t)d->seed) == PB_OK;
}

static PbStatus take_drills(StoreMerge *m, const StoreLearner *who, const char *when, PbError *err)
{
    StoreDrill *list = NULL;
    int64_t learner = 0, id;
    int count = 0;
    PB_TRY(store_drill_list(&m->other, who->id, &list, &count, err));
    PbStatus status = count > 0 ? person(m, who->name, when, &learner, err) : PB_OK;
    for (int i = 0; i < count && status == PB_OK; i++) {
        if (!is_sitting_here(m, learner, &list[i])) {
            list[i].learner_id = learner;
            status = store_drill_add(m->mine, &list[i], &id, err);
            m->done.drills += status == PB_OK;
        }
    }
    free(list);
    return status;
}

static PbStatus take_all_drills(StoreMerge *m, const char *when, PbError *err)
{
    StoreLearner *people = NULL;
    int count = 0;
    PB_TRY(store_learner_list(&m->other, &people, &count, err));
    PbStatus status = PB_OK;
    for (int i = 0; i < count && status == PB_OK; i++) {
        status = take_drills(m, &people[i], when, err);
    }
    free(people);
    return status;
}

PbStatus store_merge_step(StoreMerge *m, StoreJudge *judge, void *user, const char *when,
                          PbError *err)
{
    assert(m != NULL && judge != NULL && when != NULL);
    if (m->done.done == m->done.count) {
        if (!m->is_over) {
            PB_TRY(take_all_drills(m, when, err));
            m->is_over = 1;
        }
        return PB_ERR_NO_RESULT;
    }
    const StoreRun *run = &m->runs[m->done.count - 1 - m->done.done]; /* oldest first */
    PbStatus status = PB_OK;
    if (run->summary.state == PB_RUN_LEFT) {
        m->done.left++;
    } else if (is_here(m, run)) {
        m->done.had++;
    } else {
        status = take_run(m, run, judge, user, when, err);
    }
    m->done.done += status == PB_OK;
    return status;
}
