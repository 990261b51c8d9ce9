/* What a person did before in the exercise of a run: their last run of it and their best. */
#include "core/score.h"
#include "store/runs.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

static int is_like(const StoreRun *a, const StoreRun *b)
{
    const PbRunSummary *x = &a->summary, *y = &b->summary;
    if (a->rules != PB_SCORE_RULES || b->rules != PB_SCORE_RULES ||
        x->physics_version != y->physics_version || strcmp(x->rubric, y->rubric) != 0 ||
        x->part_count != y->part_count) {
        return 0;
    }
    for (int i = 0; i < x->part_count; i++) { /* a rubric may have been changed under its name */
        if (strcmp(x->parts[i].key, y->parts[i].key) != 0 || x->parts[i].max != y->parts[i].max) {
            return 0;
        }
    }
    return 1;
}

/* In lists, newest first, what comes after a run is older. */
static void look(const StoreRun *list, int count, StoreEarlier *out)
{
    int is_earlier = 0;
    for (int i = 0; i < count; i++) {
        const StoreRun *r = &list[i];
        if (r->id == out->now.id) {
            is_earlier = 1;
            continue;
        }
        if (!is_earlier || !pb_summary_counts(&r->summary) ||
            r->summary.exercise_hash != out->now.summary.exercise_hash) {
            continue;
        }
        int may_compare = is_like(r, &out->now);
        if (out->count++ == 0) {
            out->last = *r;
            out->is_last_like = may_compare;
        }
        if (may_compare && (out->like_count++ == 0 || r->summary.total > out->best.summary.total)) {
            out->best = *r;
        }
    }
}

PbStatus store_run_earlier(Store *s, int64_t id, StoreEarlier *out, PbError *err)
{
    assert(s != NULL && out != NULL);
    StoreEarlier found;
    StoreRun *list = NULL;
    int count = 0;
    memset(&found, 0, sizeof found);
    PB_TRY(store_run_get(s, id, &found.now, err));
    const PbRunSummary *m = &found.now.summary;
    if (pb_summary_counts(m) && m->exercise_hash != 0) {
        StoreFilter own = {
            .learner_id = found.now.learner_id, .exercise_id = m->exercise_id, .with_parts = 1};
        PB_TRY(store_run_list(s, &own, &list, &count, err));
        look(list, count, &found);
        free(list);
    }
    *out = found;
    return PB_OK;
}
