/* A class at a glance, for a spreadsheet: who has worked which exercise how often, first, last and
 * best, and where most points were lost; and every sitting of the drills. */
#include "learners_table.h"

#include "shipped.h"

#include "io/record_file.h"
#include "io/score_words.h"
#include "store/drills.h"
#include "store/runs.h"

#include <inttypes.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* A file of somebody's own that bears the name of a shipped exercise is another exercise. */
static int is_own(const StoreRun *run)
{
    return cli_is_own_exercise(run->summary.exercise_hash);
}

/* By person, then exercise, then as they were worked. */
static int by_cell(const void *left, const void *right)
{
    const StoreRun *a = left, *b = right;
    int order = strcmp(a->learner, b->learner);
    order = order != 0 ? order : a->learner_id < b->learner_id ? -1 : a->learner_id > b->learner_id;
    order = order != 0 ? order : strcmp(a->summary.exercise_id, b->summary.exercise_id);
    order = order != 0 ? order : is_own(a) - is_own(b);
    order = order != 0 ? order : strcmp(a->summary.when, b->summary.when);
    return order != 0 ? order : a->id < b->id ? -1 : a->id > b->id;
}

static int is_same_cell(const StoreRun *a, const StoreRun *b)
{
    return a->learner_id == b->learner_id && is_own(a) == is_own(b) &&
           strcmp(a->summary.exercise_id, b->summary.exercise_id) == 0;
}

/* The part on which these runs lost most in the mean, by its word; "" where nothing was lost. */
static const char *dearest(const StoreRun *runs, int count, double *lost)
{
    const char *key = "";
    *lost = 0.0;
    for (int i = 0; i < count; i++) {
        for (int k = 0; k < runs[i].summary.part_count; k++) {
            const PbPartPoints *p = &runs[i].summary.parts[k];
            double sum = 0.0;
            for (int n = 0; n < count; n++) {
                for (int m = 0; m < runs[n].summary.part_count; m++) {
                    const PbPartPoints *q = &runs[n].summary.parts[m];
                    sum += strcmp(q->key, p->key) == 0 ? q->max - q->points : 0.0;
                }
            }
            if (sum > *lost * count) {
                *lost = sum / count;
                key = p->key;
            }
        }
    }
    return key;
}

static void print_cell(const StoreRun *runs, int count)
{
    double best = -1.0, lost;
    int passed = 0;
    const PbRunSummary *first = &runs[0].summary, *last = &runs[count - 1].summary;
    for (int i = 0; i < count; i++) {
        best = fmax(best, runs[i].summary.total);
        passed += runs[i].summary.is_pass;
    }
    const char *part = dearest(runs, count, &lost);
    io_csv_text(stdout, runs[0].learner);
    putchar(',');
    io_csv_text(stdout, first->exercise_id);
    printf(",%s,%d,%d,%d,%d,%d,%s,%s,%.1f\r\n", is_own(runs) ? "yes" : "no", count,
           io_mark_shown(first->total), io_mark_shown(last->total), io_mark_shown(best), passed,
           last->when, part, lost);
}

PbStatus learners_table(Store *store, PbError *err)
{
    StoreFilter filter = {.with_parts = 1};
    StoreRun *runs = NULL;
    int count = 0, kept = 0;
    PB_TRY(cli_shipped_read(err));
    PB_TRY(store_run_list(store, &filter, &runs, &count, err));
    for (int i = 0; i < count;
         i++) { /* what has no grade, and what no person worked, is left out */
        const PbRunSummary *m = &runs[i].summary;
        if (m->state == PB_RUN_FINISHED && !m->is_scripted) {
            runs[kept++] = runs[i];
        }
    }
    if (kept > 0) {
        qsort(runs, (size_t)kept, sizeof *runs, by_cell);
    }
    printf("learner,exercise,own_exercise,runs,first,last,best,passed,last_ended,dearest_part,"
           "dearest_part_lost\r\n");
    for (int from = 0, i = 1; from < kept; i++) {
        if (i == kept || !is_same_cell(&runs[from], &runs[i])) {
            print_cell(&runs[from], i - from);
            from = i;
        }
    }
    free(runs);
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
