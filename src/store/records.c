/* Runs with the trainer's current marks, for those who write tables of them. */
#include "store/records.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

void store_records_free(StoreRecords *r)
{
    for (int i = 0; i < r->count; i++) {
        free(r->marks != NULL ? r->marks[i] : NULL);
        free(r->given != NULL ? r->given[i] : NULL);
    }
    free(r->marks);
    free(r->given);
    free(r->records);
    free(r->runs);
    memset(r, 0, sizeof *r);
}

static PbStatus fill_marks(Store *store, StoreRecords *r, int i, PbError *err)
{
    int n = 0;
    if (r->runs[i].mark_count == 0) {
        return PB_OK;
    }
    PB_TRY(store_mark_list(store, r->runs[i].id, &r->given[i], &n, err));
    r->marks[i] = calloc((size_t)n + 1, sizeof **r->marks);
    if (r->marks[i] == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    PbRecord *record = &r->records[i];
    for (int k = 0; k < n; k++) {
        const StoreMark *m = &r->given[i][k];
        if (m->is_current) {
            r->marks[i][record->mark_count++] = (PbRecordMark){m->part, m->points, m->reason};
        }
    }
    record->marks = r->marks[i];
    return PB_OK;
}

PbStatus store_records_read(Store *store, const StoreFilter *filter,
                            int (*is_own)(const void *user, uint64_t hash), const void *user,
                            StoreRecords *out, PbError *err)
{
    assert(store != NULL && filter != NULL && is_own != NULL && out != NULL);
    StoreFilter whole = *filter;
    StoreRecords r = {.count = 0};
    whole.with_parts = 1;
    PB_TRY(store_run_list(store, &whole, &r.runs, &r.count, err));
    size_t n = (size_t)r.count + 1;
    r.records = calloc(n, sizeof *r.records);
    r.marks = calloc(n, sizeof(PbRecordMark *));
    r.given = calloc(n, sizeof(StoreMark *));
    PbStatus status = PB_OK;
    if (r.records == NULL || r.marks == NULL || r.given == NULL) {
        status = PB_ERR_MEMORY;
        (void)pb_fail(err, status, "out of memory");
    }
    for (int i = 0; i < r.count && status == PB_OK; i++) {
        const StoreRun *run = &r.runs[i];
        r.records[i] = (PbRecord){.run_id = run->id,
                                  .learner_id = run->learner_id,
                                  .learner = run->learner,
                                  .checksum = run->checksum,
                                  .is_own_exercise = is_own(user, run->summary.exercise_hash),
                                  .summary = &run->summary};
        status = fill_marks(store, &r, i, err);
    }
    if (status != PB_OK) {
        store_records_free(&r);
        return status;
    }
    *out = r;
    return PB_OK;
}
