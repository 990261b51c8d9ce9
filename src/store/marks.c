/* What trainers say. Marks are only ever added: an earlier opinion stays on record. */
#include "store_private.h"

#include "runs_private.h"
#include "store/runs.h"

#include <assert.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char doing[] = "cannot keep the mark";

/* Largest number of points the part may get: that of the grade the run came with. */
static PbStatus most_points(Store *s, int64_t run_id, const char *part, double *most, PbError *err)
{
    sqlite3_stmt *q;
    if (strcmp(part, STORE_WHOLE_RUN) == 0) {
        *most = 100.0;
        return PB_OK;
    }
    PB_TRY(store_prepare(s, &q, err, doing,
                         "SELECT p.most FROM runs r JOIN grades g ON g.run_id = r.id"
                         " AND g.rubric = r.rubric JOIN grade_parts p ON p.grade_id = g.id"
                         " WHERE r.id = ? AND p.key = ?",
                         "it", run_id, part));
    PbStatus status = store_row(s, q, err, doing);
    if (status == PB_OK) {
        *most = sqlite3_column_double(q, 0);
    } else if (status == PB_ERR_NO_RESULT) {
        status = store_fail(s, err, PB_ERR_RANGE, "run %lld was not graded in a part \"%s\"",
                            (long long)run_id, part);
    }
    sqlite3_finalize(q);
    return status;
}

static PbStatus add(Store *s, int64_t run_id, const StoreMark *m, PbError *err)
{
    double most = 0.0;
    PB_TRY(store_expect(s, "run", run_id, err));
    PB_TRY(most_points(s, run_id, m->part, &most, err));
    if (!(m->points <= most)) {
        return store_fail(s, err, PB_ERR_RANGE, "%g points are out of range, \"%s\" has 0 to %g",
                          m->points, m->part, most);
    }
    if (m->points < 0.0) {
        return store_run_sql(s, err, doing,
                             "INSERT INTO marks (run_id, part, reason, trainer, marked)"
                             " VALUES (?, ?, ?, ?, ?)",
                             "itttt", run_id, m->part, m->reason, m->trainer, m->marked);
    }
    return store_run_sql(s, err, doing,
                         "INSERT INTO marks (run_id, part, points, reason, trainer, marked)"
                         " VALUES (?, ?, ?, ?, ?, ?)",
                         "itdttt", run_id, m->part, m->points, m->reason, m->trainer, m->marked);
}

PbStatus store_mark_add(Store *s, int64_t run_id, const StoreMark *mark, PbError *err)
{
    assert(s != NULL && mark != NULL);
    if (!store_is_text(mark->part, sizeof mark->part - 1) ||
        !store_is_prose(mark->reason, STORE_TEXT_BYTES) || !store_is_time(mark->marked)) {
        return store_fail(s, err, PB_ERR_RANGE,
                          "a mark has a part, a reason of at most %d bytes of UTF-8 and a time",
                          STORE_TEXT_BYTES);
    }
    const char *fault = mark->trainer[0] != '\0' ? store_name_fault(mark->trainer) : NULL;
    if (fault != NULL) {
        return store_fail(s, err, PB_ERR_RANGE, "the trainer: %s", fault);
    }
    if (mark->points < 0.0 && mark->reason[0] == '\0') {
        return store_fail(s, err, PB_ERR_RANGE, "a mark without points needs a reason");
    }
    PB_TRY(store_begin(s, err, doing));
    return store_end(s, add(s, run_id, mark, err), err, doing);
}

static PbStatus take_mark(Store *s, sqlite3_stmt *q, StoreRows *rows, PbError *err)
{
    StoreMark *m = store_rows_next(rows);
    if (m == NULL) {
        return PB_ERR_MEMORY;
    }
    store_text(q, 0, m->part, sizeof m->part);
    m->points = sqlite3_column_double(q, 1);
    store_text(q, 2, m->reason, sizeof m->reason);
    store_text(q, 3, m->trainer, sizeof m->trainer);
    store_text(q, 4, m->marked, sizeof m->marked);
    m->is_current = sqlite3_column_int(q, 5);
    /* -1 stands for no points */
    return m->points == -1.0 || store_is_points(m->points, 100.0)
               ? PB_OK
               : store_odd_figure(s, sqlite3_column_int64(q, 6), err);
}

PbStatus store_mark_list(Store *s, int64_t run_id, StoreMark **list, int *count, PbError *err)
{
    assert(s != NULL && list != NULL && count != NULL);
    static const char reading[] = "cannot read marks";
    sqlite3_stmt *q;
    StoreRows rows = {.size = sizeof(StoreMark)};
    PB_TRY(store_expect(s, "run", run_id, err));
    PB_TRY(
        store_prepare(s, &q, err, reading,
                      "SELECT part, coalesce(points, -1.0), reason, trainer, marked,"
                      " id = max(id) OVER (PARTITION BY part), run_id FROM marks WHERE run_id = ?"
                      " ORDER BY id",
                      "i", run_id));
    PB_TRY(store_read_rows(s, q, &rows, take_mark, err, reading));
    *list = rows.list;
    *count = rows.count;
    return PB_OK;
}
