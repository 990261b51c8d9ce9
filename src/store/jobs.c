/* Jobs at a whole wall, act by act. What may stand in a row is said by the tables (migrate.c). */
#include "store/jobs.h"
#include "store_private.h"

#include <assert.h>
#include <string.h>

static const char doing[] = "cannot keep the job";

PbStatus store_job_begin(Store *s, int64_t learner_id, const char *wall, uint64_t seed,
                         const char *when, int64_t *id, PbError *err)
{
    assert(s != NULL && wall != NULL && id != NULL);
    if (!store_is_time(when)) {
        return store_fail(s, err, PB_ERR_RANGE, "\"%.40s\" is no time of day", when);
    }
    PB_TRY(store_begin(s, err, doing));
    PbStatus status = store_expect(s, "learner", learner_id, err);
    if (status == PB_OK) {
        status = store_run_sql(s, err, doing,
                               "INSERT INTO jobs (learner_id, begun, wall, seed, is_over)"
                               " VALUES (?, ?, ?, ?, 0)",
                               "itti", learner_id, when, wall, (int64_t)seed);
    }
    int64_t made = sqlite3_last_insert_rowid(s->db);
    PB_TRY(store_end(s, status, err, doing));
    *id = made;
    return PB_OK;
}

PbStatus store_job_act(Store *s, int64_t job_id, int place, const char *content, PbError *err)
{
    assert(s != NULL && content != NULL && strlen(content) < STORE_JOB_ACT_BYTES);
    PB_TRY(store_begin(s, err, doing));
    PbStatus status = store_run_sql(
        s, err, doing, "INSERT INTO job_acts (job_id, place, content) VALUES (?, ?, ?)", "iit",
        job_id, (int64_t)place, content);
    return store_end(s, status, err, doing);
}

PbStatus store_job_end(Store *s, int64_t job_id, PbError *err)
{
    PB_TRY(store_begin(s, err, doing));
    PbStatus status =
        store_run_sql(s, err, doing, "UPDATE jobs SET is_over = 1 WHERE id = ?", "i", job_id);
    return store_end(s, status, err, doing);
}

PbStatus store_job_left(Store *s, int64_t learner_id, StoreJob *job, PbError *err)
{
    assert(s != NULL && job != NULL);
    static const char reading[] = "cannot read the jobs";
    sqlite3_stmt *q;
    PB_TRY(store_prepare(s, &q, err, reading,
                         "SELECT id, begun, wall, seed,"
                         " (SELECT count(*) FROM job_acts WHERE job_id = jobs.id) AS acts"
                         " FROM jobs WHERE learner_id = ? AND is_over = 0 AND acts > 0"
                         " ORDER BY id DESC LIMIT 1",
                         "i", learner_id));
    PbStatus status = store_row(s, q, err, reading);
    if (status == PB_OK) {
        memset(job, 0, sizeof *job);
        job->id = sqlite3_column_int64(q, 0);
        job->learner_id = learner_id;
        store_text(q, 1, job->begun, sizeof job->begun);
        store_text(q, 2, job->wall, sizeof job->wall);
        job->seed = (uint64_t)sqlite3_column_int64(q, 3);
        job->acts = sqlite3_column_int(q, 4);
    }
    sqlite3_finalize(q);
    return status;
}

static PbStatus take(Store *s, sqlite3_stmt *q, StoreRows *rows, PbError *err)
{
    StoreJobAct *a = store_rows_next(rows);
    (void)s;
    (void)err;
    if (a == NULL) {
        return PB_ERR_MEMORY;
    }
    store_text(q, 0, a->content, sizeof a->content);
    return PB_OK;
}

PbStatus store_job_acts(Store *s, int64_t job_id, StoreJobAct **list, int *count, PbError *err)
{
    assert(s != NULL && list != NULL && count != NULL);
    sqlite3_stmt *q;
    StoreRows rows = {.size = sizeof(StoreJobAct)};
    PB_TRY(store_prepare(s, &q, err, "cannot read the job",
                         "SELECT content FROM job_acts WHERE job_id = ? ORDER BY place", "i",
                         job_id));
    PB_TRY(store_read_rows(s, q, &rows, take, err, "cannot read the job"));
    *list = rows.list;
    *count = rows.count;
    return PB_OK;
}
