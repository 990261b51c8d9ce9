/* Computed points of a run, one set a rubric. */
#include "runs_private.h"
#include "store_private.h"

#include "core/score.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

static const char doing[] = "cannot keep the grade";

static int is_key(const char *key)
{
    size_t n = strspn(key, "abcdefghijklmnopqrstuvwxyz0123456789-_");
    return n > 0 && key[n] == '\0' && strcmp(key, STORE_WHOLE_RUN) != 0;
}

int store_is_points(double points, double most)
{
    return most >= 0.0 && most <= 100.0 && points >= 0.0 && points <= most;
}

PbStatus store_odd_figure(const Store *s, int64_t run_id, PbError *err)
{
    return store_fail(
        s, err, PB_ERR_FORMAT,
        "a figure of run %lld is infinite or out of its range: the database is damaged;"
        " it was left as it is",
        (long long)run_id);
}

PbStatus store_grade_check(const Store *s, const StoreGrade *g, PbError *err)
{
    if (store_name_fault(g->rubric) != NULL || !store_is_time(g->graded)) {
        return store_fail(s, err, PB_ERR_RANGE,
                          "a grade has the name of its rubric and a time of the form "
                          "2026-03-04T09:30:00Z");
    }
    if (!store_is_points(g->total, 100.0)) {
        return store_fail(s, err, PB_ERR_RANGE, "the total %g is out of range, expected 0 to 100",
                          g->total);
    }
    if (g->part_count < 0 || g->part_count > PB_SUMMARY_PARTS) {
        return store_fail(s, err, PB_ERR_RANGE, "a grade has at most %d parts", PB_SUMMARY_PARTS);
    }
    for (int i = 0; i < g->part_count; i++) {
        const PbPartPoints *p = &g->parts[i];
        if (!is_key(p->key)) {
            return store_fail(s, err, PB_ERR_RANGE,
                              "part %d: its word has lower case letters, digits, - and _", i);
        }
        if (!store_is_points(p->points, p->max)) {
            return store_fail(s, err, PB_ERR_RANGE, "part %s: %g points of %g are out of range",
                              p->key, p->points, p->max);
        }
        for (int k = 0; k < i; k++) {
            if (strcmp(p->key, g->parts[k].key) == 0) {
                return store_fail(s, err, PB_ERR_RANGE, "part %s is there twice", p->key);
            }
        }
    }
    return PB_OK;
}

PbStatus store_grade_insert(Store *s, int64_t run_id, const StoreGrade *g, PbError *err)
{
    PB_TRY(store_run_sql(s, err, doing, "DELETE FROM grades WHERE run_id = ? AND rubric = ?", "it",
                         run_id, g->rubric));
    PB_TRY(store_run_sql(s, err, doing,
                         "INSERT INTO grades (run_id, rubric, graded, total, is_pass, rules) "
                         "VALUES (?, ?, ?, ?, ?, ?)",
                         "ittdii", run_id, g->rubric, g->graded, g->total,
                         (int64_t)(g->is_pass != 0), (int64_t)PB_SCORE_RULES));
    int64_t id = sqlite3_last_insert_rowid(s->db);
    for (int i = 0; i < g->part_count; i++) {
        PB_TRY(store_run_sql(s, err, doing, "INSERT INTO grade_parts VALUES (?, ?, ?, ?, ?)",
                             "iitdd", id, (int64_t)i, g->parts[i].key, g->parts[i].points,
                             g->parts[i].max));
    }
    return PB_OK;
}

static PbStatus put(Store *s, int64_t run_id, const StoreGrade *g, PbError *err)
{
    int64_t is_own;
    int64_t state;
    PB_TRY(store_expect(s, "run", run_id, err));
    PB_TRY(store_number(s, &state, err, doing, "SELECT state FROM runs WHERE id = ?", "i", run_id));
    if (state != PB_RUN_FINISHED) {
        return store_fail(s, err, PB_ERR_RANGE,
                          "run %lld was left before its end, or is of an older version: it has no "
                          "grade",
                          (long long)run_id);
    }
    PB_TRY(store_number(s, &is_own, err, doing, "SELECT rubric = ? FROM runs WHERE id = ?", "ti",
                        g->rubric, run_id));
    if (is_own) {
        return store_fail(s, err, PB_ERR_RANGE,
                          "the grade that run %lld came with stands; use another rubric name",
                          (long long)run_id);
    }
    return store_grade_insert(s, run_id, g, err);
}

PbStatus store_grade_put(Store *s, int64_t run_id, const StoreGrade *grade, PbError *err)
{
    assert(s != NULL && grade != NULL);
    PB_TRY(store_grade_check(s, grade, err));
    PB_TRY(store_begin(s, err, doing));
    return store_end(s, put(s, run_id, grade, err), err, doing);
}

/* A row a part; a grade's first row makes the grade. */
static PbStatus take_grade(Store *s, sqlite3_stmt *q, StoreRows *rows, PbError *err)
{
    int64_t id = sqlite3_column_int64(q, 0), *last = rows->with;
    StoreGrade *g = rows->count > 0 ? (StoreGrade *)rows->list + rows->count - 1 : NULL;
    if (g == NULL || id != *last) {
        g = store_rows_next(rows);
        if (g == NULL) {
            return PB_ERR_MEMORY;
        }
        *last = id;
        store_text(q, 1, g->rubric, sizeof g->rubric);
        store_text(q, 2, g->graded, sizeof g->graded);
        g->total = sqlite3_column_double(q, 3);
        g->is_pass = sqlite3_column_int(q, 4);
        g->rules = sqlite3_column_int(q, 9);
    }
    if (sqlite3_column_type(q, 5) != SQLITE_NULL && g->part_count < PB_SUMMARY_PARTS) {
        PbPartPoints *p = &g->parts[g->part_count++];
        store_text(q, 5, p->key, sizeof p->key);
        p->points = sqlite3_column_double(q, 6);
        p->max = sqlite3_column_double(q, 7);
        if (!store_is_points(p->points, p->max)) {
            return store_odd_figure(s, sqlite3_column_int64(q, 8), err);
        }
    }
    return store_is_points(g->total, 100.0) ? PB_OK
                                            : store_odd_figure(s, sqlite3_column_int64(q, 8), err);
}

PbStatus store_grade_list(Store *s, int64_t run_id, StoreGrade **list, int *count, PbError *err)
{
    assert(s != NULL && list != NULL && count != NULL);
    static const char reading[] = "cannot read grades";
    sqlite3_stmt *q;
    int64_t last = 0;
    StoreRows rows = {.size = sizeof(StoreGrade), .with = &last};
    PB_TRY(store_expect(s, "run", run_id, err));
    PB_TRY(store_prepare(
        s, &q, err, reading,
        "SELECT g.id, g.rubric, g.graded, g.total, g.is_pass, p.key, p.points,"
        " p.most, g.run_id, g.rules FROM grades g LEFT JOIN grade_parts p ON p.grade_id = g.id"
        " WHERE g.run_id = ? ORDER BY g.id, p.place",
        "i", run_id));
    PB_TRY(store_read_rows(s, q, &rows, take_grade, err, reading));
    *list = rows.list;
    *count = rows.count;
    return PB_OK;
}
