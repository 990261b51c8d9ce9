/*
 * Runs: the file, its summary and the grade it came with go in together or not at all. The file
 * stands in a table of its own, so that lists of thousands of runs do not page through it.
 * Next: grades.c, marks.c.
 */
#include "store_private.h"

#include "core/hash.h"
#include "runs_private.h"
#include "store/runs.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

/* The total is held with its grade: grades.c. */
static int has_odd_figure(const PbRunSummary *m)
{
    return !isfinite(m->duration_s) || m->duration_s < 0.0 || !isfinite(m->step_mean_m) ||
           !isfinite(m->step_spread_m) || !isfinite(m->dwell_mean_s) ||
           !isfinite(m->dwell_spread_s);
}

static PbStatus check_summary(const Store *s, const PbRunSummary *m, PbError *err)
{
    /* a title is the file's own: it may begin or end with a space, unlike a name */
    if (!store_is_text(m->exercise_id, sizeof m->exercise_id - 1) || m->exercise_title[0] == '\0' ||
        !store_is_prose(m->exercise_title, sizeof m->exercise_title - 1)) {
        return store_fail(s, err, PB_ERR_RANGE, "the run names no exercise, or not in UTF-8");
    }
    if (!store_is_time(m->when)) {
        return store_fail(s, err, PB_ERR_RANGE,
                          "the time of the run has not the form 2026-03-04T09:30:00Z");
    }
    if (has_odd_figure(m)) {
        return store_fail(s, err, PB_ERR_RANGE, "a figure of the run is not finite");
    }
    if (m->has_claim && !(m->claimed_total >= 0.0 && m->claimed_total <= 100.0)) {
        return store_fail(s, err, PB_ERR_RANGE, "the grade that the file claims is out of range");
    }
    return PB_OK;
}

static StoreGrade grade_of(const PbRunSummary *m, const char *when)
{
    StoreGrade g;
    memset(&g, 0, sizeof g);
    snprintf(g.rubric, sizeof g.rubric, "%s", m->rubric);
    snprintf(g.graded, sizeof g.graded, "%s", when);
    g.total = m->total;
    g.is_pass = m->is_pass != 0;
    g.part_count = m->part_count;
    memcpy(g.parts, m->parts, sizeof g.parts);
    return g;
}

/* Refuses a run whose very bytes are there already, whoever has it. */
static PbStatus check_new(Store *s, int64_t learner_id, const void *bytes, size_t size,
                          uint64_t sum, PbError *err)
{
    static const char doing[] = "cannot read";
    sqlite3_stmt *q;
    char name[STORE_NAME_BYTES + 1];
    PB_TRY(
        store_prepare(s, &q, err, doing,
                      "SELECT r.id, r.learner_id, l.name FROM runs r"
                      " JOIN run_files f ON f.run_id = r.id JOIN learners l ON l.id = r.learner_id"
                      " WHERE r.checksum = ? AND r.file_bytes = ? AND f.content = ?",
                      "iib", (int64_t)sum, (int64_t)size, bytes, size));
    PbStatus status = store_row(s, q, err, doing);
    if (status == PB_OK) {
        long long id = sqlite3_column_int64(q, 0);
        int is_own = sqlite3_column_int64(q, 1) == learner_id;
        store_text(q, 2, name, sizeof name);
        status = is_own ? store_fail(s, err, PB_ERR_RANGE,
                                     "this learner has this very run already: run %lld", id)
                        : store_fail(s, err, PB_ERR_RANGE,
                                     "this very run is there already: run %lld of %s", id, name);
    }
    sqlite3_finalize(q);
    return status == PB_ERR_NO_RESULT ? PB_OK : status;
}

static const char keeping[] = "cannot keep the run";

/* The row that a run left off in becomes that of the whole run: marks given meanwhile stay. */
static PbStatus clear_row(Store *s, int64_t id, PbError *err)
{
    PB_TRY(store_run_sql(s, err, keeping, "DELETE FROM run_files WHERE run_id = ?", "i", id));
    return store_run_sql(s, err, keeping, "DELETE FROM grades WHERE run_id = ?", "i", id);
}

static PbStatus make_row(Store *s, int64_t learner_id, const PbRunSummary *m, const char *when,
                         int64_t *id, PbError *err)
{
    PB_TRY(store_run_sql(
        s, err, keeping,
        "INSERT INTO runs (learner_id, exercise_id, exercise_title, ended, added, rubric, seed,"
        " physics_version, duration_s, total, is_pass, step_mean_m, step_spread_m, dwell_mean_s,"
        " dwell_spread_s, file_bytes, checksum)"
        " VALUES (?,?,?,?,?,'',?,?,0,0,0,0,0,0,0,0,0)",
        "ittttii", learner_id, m->exercise_id, m->exercise_title, m->when, when, (int64_t)m->seed,
        (int64_t)m->physics_version));
    *id = sqlite3_last_insert_rowid(s->db);
    return PB_OK;
}

static PbStatus fill_row(Store *s, int64_t id, const PbRunSummary *m, const char *when, size_t size,
                         uint64_t sum, PbError *err)
{
    int has_total = m->state == PB_RUN_FINISHED;
    PB_TRY(store_run_sql(
        s, err, keeping,
        "UPDATE runs SET ended = ?, added = ?, rubric = ?, duration_s = ?, total = ?, is_pass = ?,"
        " step_mean_m = ?, step_spread_m = ?, dwell_mean_s = ?, dwell_spread_s = ?,"
        " file_bytes = ?, checksum = ?, state = ?, origin = ?, is_scripted = ?, breaks = ?,"
        " exercise_hash = ?, claimed_total = NULL, claimed_pass = NULL WHERE id = ?",
        "tttddiddddiiiiiiii", m->when, when, m->rubric, m->duration_s, has_total ? m->total : 0.0,
        (int64_t)(has_total && m->is_pass), m->step_mean_m, m->step_spread_m, m->dwell_mean_s,
        m->dwell_spread_s, (int64_t)size, (int64_t)sum, (int64_t)m->state, (int64_t)m->origin,
        (int64_t)(m->is_scripted != 0), (int64_t)m->breaks, (int64_t)m->exercise_hash, id));
    if (!m->has_claim) {
        return PB_OK;
    }
    return store_run_sql(s, err, keeping,
                         "UPDATE runs SET claimed_total = ?, claimed_pass = ? WHERE id = ?", "dii",
                         m->claimed_total, (int64_t)(m->claimed_pass != 0), id);
}

/* Is `id` a run that this learner left? Who deleted it meanwhile gets the run as a new one. */
static PbStatus find_left(Store *s, int64_t learner_id, int64_t *id, PbError *err)
{
    int64_t found;
    PbStatus status =
        store_number(s, &found, err, keeping,
                     "SELECT id FROM runs WHERE id = ? AND learner_id = ? AND state = ?", "iii",
                     *id, learner_id, (int64_t)PB_RUN_LEFT);
    *id = status == PB_OK ? found : 0;
    return status == PB_ERR_NO_RESULT ? PB_OK : status;
}

static PbStatus add(Store *s, int64_t learner_id, const void *bytes, size_t size,
                    const PbRunSummary *m, const char *when, int64_t *id, PbError *err)
{
    uint64_t sum = pb_hash_bytes(PB_HASH_START, bytes, size);
    PB_TRY(store_expect(s, "learner", learner_id, err));
    PB_TRY(check_new(s, learner_id, bytes, size, sum, err));
    if (*id != 0) {
        PB_TRY(find_left(s, learner_id, id, err));
    }
    PB_TRY(*id != 0 ? clear_row(s, *id, err) : make_row(s, learner_id, m, when, id, err));
    PB_TRY(fill_row(s, *id, m, when, size, sum, err));
    PB_TRY(store_run_sql(s, err, keeping, "INSERT INTO run_files (run_id, content) VALUES (?, ?)",
                         "ib", *id, bytes, size));
    StoreGrade grade = grade_of(m, when);
    return m->state == PB_RUN_FINISHED ? store_grade_insert(s, *id, &grade, err) : PB_OK;
}

PbStatus store_run_put(Store *s, int64_t learner_id, int64_t left, const void *bytes, size_t size,
                       const PbRunSummary *summary, const char *when, int64_t *id, PbError *err)
{
    assert(s != NULL && bytes != NULL && summary != NULL && when != NULL && id != NULL);
    int64_t made = left;
    if (size == 0 || size > STORE_FILE_BYTES) {
        return store_fail(s, err, PB_ERR_RANGE, "a run file has 1 byte to %u MiB",
                          STORE_FILE_BYTES >> 20);
    }
    PB_TRY(check_summary(s, summary, err));
    StoreGrade grade = grade_of(summary, when);
    if (summary->state == PB_RUN_FINISHED) {
        PB_TRY(store_grade_check(s, &grade, err));
    }
    PB_TRY(store_begin(s, err, keeping));
    PbStatus status = add(s, learner_id, bytes, size, summary, when, &made, err);
    PB_TRY(store_end(s, status, err, keeping));
    *id = made;
    return PB_OK;
}

PbStatus store_run_add(Store *s, int64_t learner_id, const void *bytes, size_t size,
                       const PbRunSummary *summary, const char *when, int64_t *id, PbError *err)
{
    assert(s != NULL && bytes != NULL && summary != NULL && when != NULL && id != NULL);
    return store_run_put(s, learner_id, 0, bytes, size, summary, when, id, err);
}

#define RUN_COLUMNS                                                                                \
    "SELECT r.id, r.learner_id, l.name, r.added, r.file_bytes, r.checksum,"                        \
    " (SELECT count(*) FROM marks WHERE run_id = r.id), r.exercise_id, r.exercise_title, r.ended," \
    " r.rubric, r.seed, r.physics_version, r.duration_s, r.total, r.is_pass, r.step_mean_m,"       \
    " r.step_spread_m, r.dwell_mean_s, r.dwell_spread_s, r.state, r.origin, r.is_scripted,"        \
    " r.breaks, r.exercise_hash, r.claimed_total, r.claimed_pass,"                                 \
    " (SELECT rules FROM grades WHERE run_id = r.id AND rubric = r.rubric)"                        \
    " FROM runs r JOIN learners l ON l.id = r.learner_id "

static void read_run(sqlite3_stmt *q, StoreRun *r)
{
    PbRunSummary *m = &r->summary;
    memset(r, 0, sizeof *r);
    r->id = sqlite3_column_int64(q, 0);
    r->learner_id = sqlite3_column_int64(q, 1);
    store_text(q, 2, r->learner, sizeof r->learner);
    store_text(q, 3, r->added, sizeof r->added);
    r->file_bytes = sqlite3_column_int64(q, 4);
    r->checksum = (uint64_t)sqlite3_column_int64(q, 5);
    r->mark_count = sqlite3_column_int(q, 6);
    store_text(q, 7, m->exercise_id, sizeof m->exercise_id);
    store_text(q, 8, m->exercise_title, sizeof m->exercise_title);
    store_text(q, 9, m->when, sizeof m->when);
    store_text(q, 10, m->rubric, sizeof m->rubric);
    m->seed = (uint64_t)sqlite3_column_int64(q, 11);
    m->physics_version = sqlite3_column_int(q, 12);
    m->duration_s = sqlite3_column_double(q, 13);
    m->total = sqlite3_column_double(q, 14);
    m->is_pass = sqlite3_column_int(q, 15);
    m->step_mean_m = sqlite3_column_double(q, 16);
    m->step_spread_m = sqlite3_column_double(q, 17);
    m->dwell_mean_s = sqlite3_column_double(q, 18);
    m->dwell_spread_s = sqlite3_column_double(q, 19);
    m->state = (PbRunState)sqlite3_column_int(q, 20);
    m->origin = (PbRunOrigin)sqlite3_column_int(q, 21);
    m->is_scripted = sqlite3_column_int(q, 22);
    m->breaks = sqlite3_column_int(q, 23);
    m->exercise_hash = (uint64_t)sqlite3_column_int64(q, 24);
    m->has_claim = sqlite3_column_type(q, 25) != SQLITE_NULL;
    m->claimed_total = sqlite3_column_double(q, 25);
    m->claimed_pass = sqlite3_column_int(q, 26);
    r->rules = sqlite3_column_int(q, 27);
}

/* Parts of the grade that the run came with. */
static PbStatus read_parts(Store *s, sqlite3_stmt *parts, StoreRun *run, PbError *err)
{
    PbRunSummary *m = &run->summary;
    PbStatus status;
    sqlite3_reset(parts);
    sqlite3_bind_int64(parts, 1, run->id);
    sqlite3_bind_text(parts, 2, m->rubric, -1, SQLITE_STATIC);
    while ((status = store_row(s, parts, err, "cannot read grades")) == PB_OK) {
        if (m->part_count < PB_SUMMARY_PARTS) {
            PbPartPoints *p = &m->parts[m->part_count++];
            store_text(parts, 0, p->key, sizeof p->key);
            p->points = sqlite3_column_double(parts, 1);
            p->max = sqlite3_column_double(parts, 2);
            if (!store_is_points(p->points, p->max)) {
                return store_odd_figure(s, run->id, err);
            }
        }
    }
    return status == PB_ERR_NO_RESULT ? PB_OK : status;
}

/* with: the query of parts, or NULL. */
static PbStatus take_run(Store *s, sqlite3_stmt *q, StoreRows *rows, PbError *err)
{
    StoreRun *r = store_rows_next(rows);
    if (r == NULL) {
        return PB_ERR_MEMORY;
    }
    read_run(q, r);
    if (has_odd_figure(&r->summary) || !store_is_points(r->summary.total, 100.0)) {
        return store_odd_figure(s, r->id, err);
    }
    return rows->with != NULL ? read_parts(s, rows->with, r, err) : PB_OK;
}

/* One snapshot for rows and parts: another process may write meanwhile. */
static PbStatus list_query(Store *s, const char *sql, const char *bind, int64_t learner,
                           const char *exercise, int64_t limit, int64_t offset, int with_parts,
                           StoreRun **list, int *count, PbError *err)
{
    static const char parts_sql[] =
        "SELECT p.key, p.points, p.most FROM grades g JOIN grade_parts p ON p.grade_id = g.id"
        " WHERE g.run_id = ?1 AND g.rubric = ?2 ORDER BY p.place";
    sqlite3_stmt *q, *parts = NULL;
    PB_TRY(
        store_prepare(s, &q, err, "cannot list runs", sql, bind, learner, exercise, limit, offset));
    if (with_parts) {
        PbStatus status = store_prepare(s, &parts, err, "cannot read grades", parts_sql, "");
        if (status != PB_OK) {
            sqlite3_finalize(q);
            return status;
        }
    }
    StoreRows rows = {.size = sizeof(StoreRun), .with = parts};
    PbStatus status = store_read_rows(s, q, &rows, take_run, err, "cannot list runs");
    sqlite3_finalize(parts);
    PB_TRY(status);
    *list = rows.list;
    *count = rows.count;
    return PB_OK;
}

PbStatus store_run_list(Store *s, const StoreFilter *f, StoreRun **list, int *count, PbError *err)
{
    assert(s != NULL && f != NULL && list != NULL && count != NULL);
    /* Every form binds the same four; a condition that always holds would keep SQLite from its
     * indexes. */
    static const char *const where[] = {
        "WHERE ?1 = 0 AND ?2 = '' ", "WHERE r.learner_id = ?1 AND ?2 = '' ",
        "WHERE ?1 = 0 AND r.exercise_id = ?2 ", "WHERE r.learner_id = ?1 AND r.exercise_id = ?2 "};
    char sql[1200];
    int by_exercise = f->exercise_id != NULL;
    snprintf(sql, sizeof sql, "%s%sORDER BY r.ended DESC, r.id DESC LIMIT ?3 OFFSET ?4",
             RUN_COLUMNS, where[(f->learner_id != 0) + 2 * by_exercise]);
    return list_query(s, sql, "itii", f->learner_id, by_exercise ? f->exercise_id : "",
                      f->limit > 0 ? f->limit : -1, f->offset, f->with_parts, list, count, err);
}

PbStatus store_run_get(Store *s, int64_t id, StoreRun *run, PbError *err)
{
    assert(s != NULL && run != NULL);
    StoreRun *list = NULL;
    int count = 0;
    PB_TRY(list_query(s, RUN_COLUMNS "WHERE r.id = ?1 AND ?2 = '' LIMIT ?3 OFFSET ?4", "itii", id,
                      "", 1, 0, 1, &list, &count, err));
    if (count == 0) {
        return store_fail(s, err, PB_ERR_NO_RESULT, "there is no run %lld", (long long)id);
    }
    *run = list[0];
    free(list);
    return PB_OK;
}

static PbStatus copy_file(Store *s, sqlite3_stmt *q, int64_t id, void **bytes, size_t *size,
                          PbError *err)
{
    const void *blob = sqlite3_column_blob(q, 2);
    size_t n = (size_t)sqlite3_column_bytes(q, 2);
    if (blob == NULL || (int64_t)n != sqlite3_column_int64(q, 0) ||
        (int64_t)pb_hash_bytes(PB_HASH_START, blob, n) != sqlite3_column_int64(q, 1)) {
        return store_fail(s, err, PB_ERR_FORMAT,
                          "the file of run %lld is damaged: it is not the one that was put in",
                          (long long)id);
    }
    void *copy = malloc(n);
    if (copy == NULL) {
        return store_fail(s, err, PB_ERR_MEMORY, "out of memory");
    }
    memcpy(copy, blob, n);
    *bytes = copy;
    *size = n;
    return PB_OK;
}

PbStatus store_run_bytes(Store *s, int64_t id, void **bytes, size_t *size, PbError *err)
{
    assert(s != NULL && bytes != NULL && size != NULL);
    static const char doing[] = "cannot read the run file";
    sqlite3_stmt *q;
    PB_TRY(store_prepare(s, &q, err, doing,
                         "SELECT r.file_bytes, r.checksum, f.content FROM runs r"
                         " LEFT JOIN run_files f ON f.run_id = r.id WHERE r.id = ?",
                         "i", id));
    PbStatus status = store_row(s, q, err, doing);
    if (status == PB_OK) {
        status = copy_file(s, q, id, bytes, size, err);
    } else if (status == PB_ERR_NO_RESULT) {
        status = store_fail(s, err, status, "there is no run %lld", (long long)id);
    }
    sqlite3_finalize(q);
    return status;
}

static PbStatus delete_run(Store *s, int64_t id, PbError *err)
{
    PB_TRY(store_expect(s, "run", id, err));
    PB_TRY(store_take_reports(s, "SELECT id FROM runs WHERE id = ?", id, err));
    PB_TRY(
        store_run_sql(s, err, "cannot delete the run", "DELETE FROM runs WHERE id = ?", "i", id));
    return store_wipe_mark(s, err);
}

PbStatus store_run_delete(Store *s, int64_t id, PbError *err)
{
    assert(s != NULL);
    static const char doing[] = "cannot delete the run";
    PB_TRY(store_begin(s, err, doing));
    PB_TRY(store_end(s, delete_run(s, id, err), err, doing));
    store_wipe(s, s->wipe_wait_ms);
    return PB_OK;
}
