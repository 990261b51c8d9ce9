/* Runs of many people put together: a row for each person and exercise, and whose turn it is. */
#include "io/class_table.h"

#include "io/score_words.h"

#include <assert.h>
#include <stdlib.h>
#include <string.h>

/* By person, then exercise, then as they were worked. */
static int by_cell(const void *left, const void *right)
{
    const PbRecord *a = left, *b = right;
    int order = strcmp(a->learner, b->learner);
    order = order != 0 ? order : (a->learner_id > b->learner_id) - (a->learner_id < b->learner_id);
    order = order != 0 ? order : strcmp(a->summary->exercise_id, b->summary->exercise_id);
    order = order != 0 ? order : a->is_own_exercise - b->is_own_exercise;
    order = order != 0 ? order : strcmp(a->summary->when, b->summary->when);
    return order != 0 ? order : (a->run_id > b->run_id) - (a->run_id < b->run_id);
}

static int is_same_cell(const PbRecord *a, const PbRecord *b)
{
    return a->learner_id == b->learner_id && a->is_own_exercise == b->is_own_exercise &&
           strcmp(a->summary->exercise_id, b->summary->exercise_id) == 0;
}

/* The part on which these runs lost most in the mean. */
static void find_dearest(const PbRecord *runs, int count, IoClassRow *row)
{
    row->dearest = "";
    for (int i = 0; i < count; i++) {
        for (int k = 0; k < runs[i].summary->part_count; k++) {
            const char *key = runs[i].summary->parts[k].key;
            double sum = 0.0;
            for (int n = 0; n < count; n++) {
                for (int m = 0; m < runs[n].summary->part_count; m++) {
                    const PbPartPoints *q = &runs[n].summary->parts[m];
                    sum += strcmp(q->key, key) == 0 ? q->max - q->points : 0.0;
                }
            }
            if (sum > row->dearest_lost * count) {
                row->dearest_lost = sum / count;
                row->dearest = key;
            }
        }
    }
}

static IoClassRow row_of(const PbRecord *runs, int count)
{
    const PbRunSummary *first = runs[0].summary, *last = runs[count - 1].summary;
    IoClassRow row = {.learner_id = runs[0].learner_id,
                      .learner = runs[0].learner,
                      .exercise_id = first->exercise_id,
                      .exercise_title = first->exercise_title,
                      .is_own_exercise = runs[0].is_own_exercise,
                      .runs = count,
                      .first = first->total,
                      .last = last->total,
                      .best = first->total,
                      .last_ended = last->when};
    for (int i = 0; i < count; i++) {
        const PbRunSummary *m = runs[i].summary;
        row.best = m->total > row.best ? m->total : row.best;
        row.passed += m->is_pass != 0;
    }
    find_dearest(runs, count, &row);
    return row;
}

int io_class_rows(PbRecord *records, int count, IoClassRow *rows)
{
    int kept = 0, made = 0;
    assert(count == 0 || (records != NULL && rows != NULL));
    for (int i = 0; i < count; i++) {
        if (pb_summary_counts(records[i].summary)) {
            PbRecord one = records[i];
            records[i] = records[kept];
            records[kept++] = one;
        }
    }
    if (kept > 0) {
        qsort(records, (size_t)kept, sizeof *records, by_cell);
    }
    for (int from = 0, i = 1; from < kept; i++) {
        if (i == kept || !is_same_cell(&records[from], &records[i])) {
            rows[made++] = row_of(&records[from], i - from);
            from = i;
        }
    }
    return made;
}

void io_class_csv(FILE *out, const IoClassRow *rows, int count)
{
    fputs("learner,exercise,own_exercise,runs,first,last,best,passed,last_ended,dearest_part,"
          "dearest_part_lost\r\n",
          out);
    for (int i = 0; i < count; i++) {
        const IoClassRow *r = &rows[i];
        io_csv_text(out, r->learner);
        fputc(',', out);
        io_csv_text(out, r->exercise_id);
        fprintf(out, ",%s,%d,%d,%d,%d,%d,%s,%s,%.1f\r\n", r->is_own_exercise ? "yes" : "no",
                r->runs, io_mark_shown(r->first), io_mark_shown(r->last), io_mark_shown(r->best),
                r->passed, r->last_ended, r->dearest, r->dearest_lost);
    }
}

int io_class_next(const char *const *last, int count, int now)
{
    int next = -1;
    for (int i = 0; i < count; i++) {
        int is_free = i != now || count == 1;
        if (is_free && (next < 0 || strcmp(last[i], last[next]) < 0)) {
            next = i;
        }
    }
    return next;
}
