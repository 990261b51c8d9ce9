/* Sittings of drills. What may stand in a row is said by the table itself (migrate.c). */
#include "store/drills.h"
#include "store_private.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

static PbStatus check(const Store *s, const StoreDrill *d, PbError *err)
{
    int is_counted = d->trials >= 1 && d->trials <= PB_DRILL_TRIALS && d->events >= 0 &&
                     d->events <= d->trials && d->caught >= 0 && d->caught <= d->events &&
                     d->good >= 0 && d->good <= d->caught && d->false_presses >= 0 &&
                     d->false_presses <= d->trials && d->best_streak >= 0 &&
                     d->best_streak <= d->trials;
    int is_set = d->sight >= 0 && d->sight <= 2 && d->masking >= 0 && d->masking <= 3 &&
                 d->level >= 0 && d->level <= 3;
    int is_timed = d->listened_s >= 0.0 && d->listened_s < 1e6 &&
                   (isnan(d->median_s) || fabs(d->median_s) <= 60.0) && store_is_time(d->done);
    return is_counted && is_set && is_timed
               ? PB_OK
               : store_fail(s, err, PB_ERR_RANGE, "the figures of a sitting are out of range");
}

static PbStatus insert(Store *s, const StoreDrill *d, PbError *err)
{
    static const char doing[] = "cannot keep the drill";
    PB_TRY(store_expect(s, "learner", d->learner_id, err));
    PB_TRY(store_run_sql(
        s, err, doing,
        "INSERT INTO drills (learner_id, done, seed, sight, masking, level, trials, events, caught,"
        " good, false_presses, best_streak, listened_s, verdict)"
        " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
        "itiiiiiiiiiidi", d->learner_id, d->done, (int64_t)d->seed, (int64_t)d->sight,
        (int64_t)d->masking, (int64_t)d->level, (int64_t)d->trials, (int64_t)d->events,
        (int64_t)d->caught, (int64_t)d->good, (int64_t)d->false_presses, (int64_t)d->best_streak,
        d->listened_s, (int64_t)d->verdict));
    return isnan(d->median_s)
               ? PB_OK
               : store_run_sql(s, err, doing, "UPDATE drills SET median_s = ? WHERE id = ?", "di",
                               d->median_s, (int64_t)sqlite3_last_insert_rowid(s->db));
}

PbStatus store_drill_add(Store *s, const StoreDrill *d, int64_t *id, PbError *err)
{
    assert(s != NULL && d != NULL && id != NULL);
    static const char doing[] = "cannot keep the drill";
    PB_TRY(check(s, d, err));
    PB_TRY(store_begin(s, err, doing));
    PbStatus status = insert(s, d, err);
    int64_t made = sqlite3_last_insert_rowid(s->db);
    PB_TRY(store_end(s, status, err, doing));
    *id = made;
    return PB_OK;
}

static PbStatus take(Store *s, sqlite3_stmt *q, StoreRows *rows, PbError *err)
{
    StoreDrill *d = store_rows_next(rows);
    (void)s;
    (void)err;
    if (d == NULL) {
        return PB_ERR_MEMORY;
    }
    d->id = sqlite3_column_int64(q, 0);
    d->learner_id = sqlite3_column_int64(q, 1);
    store_text(q, 2, d->done, sizeof d->done);
    d->seed = (uint64_t)sqlite3_column_int64(q, 3);
    int *const whole[] = {&d->sight,  &d->masking, &d->level,         &d->trials,     &d->events,
                          &d->caught, &d->good,    &d->false_presses, &d->best_streak};
    for (int i = 0; i < (int)(sizeof whole / sizeof whole[0]); i++) {
        *whole[i] = sqlite3_column_int(q, 4 + i);
    }
    d->listened_s = sqlite3_column_double(q, 13);
    d->median_s =
        sqlite3_column_type(q, 14) == SQLITE_NULL ? (double)NAN : sqlite3_column_double(q, 14);
    d->verdict = (PbDrillVerdict)sqlite3_column_int(q, 15);
    return PB_OK;
}

PbStatus store_drill_list(Store *s, int64_t learner_id, StoreDrill **list, int *count, PbError *err)
{
    assert(s != NULL && list != NULL && count != NULL);
    static const char doing[] = "cannot list drills";
    sqlite3_stmt *stmt;
    StoreRows rows = {.size = sizeof(StoreDrill)};
    PB_TRY(store_prepare(s, &stmt, err, doing,
                         "SELECT id, learner_id, done, seed, sight, masking, level, trials, events,"
                         " caught, good, false_presses, best_streak, listened_s, median_s, verdict"
                         " FROM drills WHERE learner_id = ? ORDER BY id",
                         "i", learner_id));
    PB_TRY(store_read_rows(s, stmt, &rows, take, err, doing));
    *list = rows.list;
    *count = rows.count;
    return PB_OK;
}

PbDrillTally store_drill_evidence(const StoreDrill *list, int count, int sight, int masking,
                                  int level)
{
    PbDrillTally sum = {0};
    for (int i = count - 1; i >= 0; i--) {
        const StoreDrill *d = &list[i];
        if (d->sight != sight || d->masking != masking || d->level != level) {
            continue;
        }
        if (d->verdict != PB_DRILL_UNDECIDED) {
            break;
        }
        PbDrillTally one = {.trials = d->trials,
                            .events = d->events,
                            .caught = d->caught,
                            .good = d->good,
                            .false_presses = d->false_presses,
                            .listened_s = d->listened_s};
        pb_drill_add(&sum, &one);
    }
    return sum;
}
