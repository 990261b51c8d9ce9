/* A class at a glance, for a spreadsheet: who has worked which exercise how often, first, last and
 * best, and where most points were lost; and every sitting of the drills. */
#include "learners_table.h"

#include "shipped.h"

#include "io/class_table.h"
#include "store/drills.h"
#include "store/records.h"

#include <inttypes.h>
#include <math.h>
#include <stdlib.h>

PbStatus learners_table(Store *store, PbError *err)
{
    StoreFilter all = {.limit = 0};
    StoreRecords r;
    PB_TRY(cli_shipped_read(err));
    PB_TRY(store_records_read(store, &all, cli_is_own, NULL, &r, err));
    IoClassRow *rows = calloc((size_t)r.count + 1, sizeof *rows);
    if (rows == NULL) {
        store_records_free(&r);
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    io_class_csv(stdout, rows, io_class_rows(r.records, r.count, rows));
    free(rows);
    store_records_free(&r);
    return PB_OK;
}

static void print_drill(const char *learner, const StoreDrill *d)
{
    static const char *const walls[] = {"open", "taped", "closed"},
                             *const noises[] = {"none", "compressor", "saw", "radio"},
                             *const verdicts[] = {"undecided", "can tell it", "not yet"};
    io_csv_text(stdout, learner);
    printf(",%s,%" PRIu64 ",%s,%s,%d,%d,%d,%d,%d,%d,%d,%.1f,", d->done, d->seed, walls[d->sight],
           noises[d->masking], d->level, d->trials, d->events, d->caught, d->good, d->false_presses,
           d->best_streak, d->listened_s);
    if (isfinite(d->median_s)) {
        printf("%.2f", d->median_s);
    }
    printf(",%s\r\n", verdicts[d->verdict]);
}

PbStatus learners_drills(Store *store, PbError *err)
{
    StoreLearner *people = NULL;
    int count = 0;
    PB_TRY(store_learner_list(store, &people, &count, err));
    PbStatus status = PB_OK;
    printf("learner,ended,seed,wall,noise,level,trials,events,caught,good,false_presses,"
           "best_streak,listened_s,median_s,verdict\r\n");
    for (int i = 0; i < count && status == PB_OK; i++) {
        StoreDrill *drills = NULL;
        int n = 0;
        status = store_drill_list(store, people[i].id, &drills, &n, err);
        for (int k = 0; k < n; k++) {
            print_drill(people[i].name, &drills[k]);
        }
        free(drills);
    }
    free(people);
    return status;
}
