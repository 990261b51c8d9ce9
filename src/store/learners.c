/* People: adding, finding, renaming, and deleting with all that is theirs. */
#include "store_private.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

static PbStatus check_name(const Store *s, const char *name, PbError *err)
{
    const char *fault = store_name_fault(name);
    return fault == NULL ? PB_OK : store_fail(s, err, PB_ERR_RANGE, "%s", fault);
}

/* Refuses a name that somebody else has. id 0: nobody yet. */
static PbStatus check_free(Store *s, const char *name, int64_t id, PbError *err)
{
    static const char doing[] = "cannot read";
    sqlite3_stmt *stmt;
    char other[sizeof(((StoreLearner *)0)->name)]; /* names that differ in case alone are one */
    PB_TRY(store_prepare(s, &stmt, err, doing,
                         "SELECT name FROM learners WHERE name = ? AND id <> ?", "ti", name, id));
    PbStatus status = store_row(s, stmt, err, doing);
    if (status == PB_OK) {
        store_text(stmt, 0, other, sizeof other);
    }
    sqlite3_finalize(stmt);
    if (status == PB_OK) {
        return store_fail(s, err, PB_ERR_RANGE, "there is a learner \"%s\" already", other);
    }
    return status == PB_ERR_NO_RESULT ? PB_OK : status;
}

static PbStatus add(Store *s, const char *name, const char *when, PbError *err)
{
    PB_TRY(check_free(s, name, 0, err));
    return store_run_sql(s, err, "cannot add a learner",
                         "INSERT INTO learners (name, added) VALUES (?, ?)", "tt", name, when);
}

PbStatus store_learner_add(Store *s, const char *name, const char *when, int64_t *id, PbError *err)
{
    assert(s != NULL && name != NULL && when != NULL && id != NULL);
    static const char doing[] = "cannot add a learner";
    PB_TRY(check_name(s, name, err));
    if (!store_is_time(when)) {
        return store_fail(s, err, PB_ERR_RANGE, "a time has the form 2026-03-04T09:30:00Z");
    }
    PB_TRY(store_begin(s, err, doing));
    PbStatus status = add(s, name, when, err);
    int64_t made = sqlite3_last_insert_rowid(s->db);
    PB_TRY(store_end(s, status, err, doing));
    *id = made;
    return PB_OK;
}

#define LEARNER_COLUMNS                                                                            \
    "SELECT l.id, l.name, l.added, (SELECT count(*) FROM runs WHERE learner_id = l.id),"           \
    " (SELECT max(ended) FROM runs WHERE learner_id = l.id),"                                      \
    " (SELECT max(at) FROM (SELECT max(ended) AS at FROM runs WHERE learner_id = l.id"             \
    "  UNION ALL SELECT max(done) FROM drills WHERE learner_id = l.id"                             \
    "  UNION ALL SELECT max(begun) FROM jobs WHERE learner_id = l.id)) FROM learners l "

static void read_learner(sqlite3_stmt *stmt, StoreLearner *l)
{
    memset(l, 0, sizeof *l);
    l->id = sqlite3_column_int64(stmt, 0);
    store_text(stmt, 1, l->name, sizeof l->name);
    store_text(stmt, 2, l->added, sizeof l->added);
    l->run_count = sqlite3_column_int(stmt, 3);
    store_text(stmt, 4, l->last_run, sizeof l->last_run);
    store_text(stmt, 5, l->last_work, sizeof l->last_work);
}

static PbStatus take_learner(Store *s, sqlite3_stmt *q, StoreRows *rows, PbError *err)
{
    StoreLearner *l = store_rows_next(rows);
    (void)s;
    (void)err;
    if (l == NULL) {
        return PB_ERR_MEMORY;
    }
    read_learner(q, l);
    return PB_OK;
}

PbStatus store_learner_list(Store *s, StoreLearner **list, int *count, PbError *err)
{
    assert(s != NULL && list != NULL && count != NULL);
    static const char doing[] = "cannot list learners";
    sqlite3_stmt *stmt;
    StoreRows rows = {.size = sizeof(StoreLearner)};
    PB_TRY(store_prepare(s, &stmt, err, doing, LEARNER_COLUMNS "ORDER BY l.name", ""));
    PB_TRY(store_read_rows(s, stmt, &rows, take_learner, err, doing));
    *list = rows.list;
    *count = rows.count;
    return PB_OK;
}

PbStatus store_learner_find(Store *s, const char *name, StoreLearner *learner, PbError *err)
{
    assert(s != NULL && name != NULL && learner != NULL);
    static const char doing[] = "cannot read learners";
    sqlite3_stmt *stmt;
    PB_TRY(store_prepare(s, &stmt, err, doing, LEARNER_COLUMNS "WHERE l.name = ?", "t", name));
    PbStatus status = store_row(s, stmt, err, doing);
    if (status == PB_OK) {
        read_learner(stmt, learner);
    }
    sqlite3_finalize(stmt);
    if (status == PB_ERR_NO_RESULT) {
        return store_fail(s, err, status, "there is no learner \"%.200s\"", name);
    }
    return status;
}

static PbStatus rename_learner(Store *s, int64_t id, const char *name, PbError *err)
{
    PB_TRY(store_expect(s, "learner", id, err));
    PB_TRY(check_free(s, name, id, err));
    return store_run_sql(s, err, "cannot rename the learner",
                         "UPDATE learners SET name = ? WHERE id = ?", "ti", name, id);
}

PbStatus store_learner_rename(Store *s, int64_t id, const char *name, PbError *err)
{
    assert(s != NULL && name != NULL);
    static const char doing[] = "cannot rename the learner";
    PB_TRY(check_name(s, name, err));
    PB_TRY(store_begin(s, err, doing));
    return store_end(s, rename_learner(s, id, name, err), err, doing);
}

PbStatus store_learner_contents(Store *s, int64_t id, StoreContents *contents, PbError *err)
{
    assert(s != NULL && contents != NULL);
    static const char doing[] = "cannot read the learner";
    sqlite3_stmt *stmt;
    PB_TRY(store_expect(s, "learner", id, err));
    PB_TRY(store_prepare(s, &stmt, err, doing,
                         "SELECT count(*), coalesce(sum(file_bytes), 0),"
                         " coalesce(sum((SELECT count(*) FROM grades WHERE run_id = r.id)), 0),"
                         " coalesce(sum((SELECT count(*) FROM marks WHERE run_id = r.id)), 0)"
                         " FROM runs r WHERE learner_id = ?",
                         "i", id));
    PbStatus status = store_row(s, stmt, err, doing);
    if (status == PB_OK) {
        contents->runs = sqlite3_column_int(stmt, 0);
        contents->file_bytes = sqlite3_column_int64(stmt, 1);
        contents->grades = sqlite3_column_int(stmt, 2);
        contents->marks = sqlite3_column_int(stmt, 3);
    }
    sqlite3_finalize(stmt);
    return status;
}

static PbStatus delete_learner(Store *s, int64_t id, PbError *err)
{
    PB_TRY(store_expect(s, "learner", id, err));
    PB_TRY(store_take_recordings(s, id, err));
    PB_TRY(store_take_reports(s, "SELECT id FROM runs WHERE learner_id = ?", id, err));
    PB_TRY(store_run_sql(s, err, "cannot delete the learner", "DELETE FROM learners WHERE id = ?",
                         "i", id));
    return store_wipe_mark(s, err);
}

PbStatus store_learner_delete(Store *s, int64_t id, PbError *err)
{
    assert(s != NULL);
    static const char doing[] = "cannot delete the learner";
    PB_TRY(store_begin(s, err, doing));
    PB_TRY(store_end(s, delete_learner(s, id, err), err, doing));
    store_wipe(s, s->wipe_wait_ms);
    return PB_OK;
}
