/* Run files into the store, and the store held against them: both play every run again, because a
 * grade is what a replay gives and never what somebody wrote down. */
#include "runs_options.h"
#include "shipped.h"
#include "store_options.h"

#include "cli/run_session.h"
#include "io/clock.h"
#include "io/doc.h"
#include "io/run_judge.h"
#include "io/run_summary.h"
#include "io/score_words.h"

#include <inttypes.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* A second or more a run: who waits longer than two is told how far it is. */
typedef struct Progress {
    const char *doing;
    int count;
    double from_s;
} Progress;

static void tell(Progress *p, int done)
{
    double now_s = io_clock_s();
    if (p->from_s > 0.0 && now_s - p->from_s < 2.0) {
        return;
    }
    if (p->from_s > 0.0) {
        fprintf(stderr, "%s: %d of %d\n", p->doing, done, p->count);
    }
    p->from_s = now_s;
}

/* A run on its way into the store. */
typedef struct Import {
    PbRunSummary summary;
    char *bytes;
    size_t size;
    int64_t id;
} Import;

static PbStatus judge_all(char **paths, int count, Import *runs, PbError *err)
{
    char now[IO_UTC_SIZE];
    io_now_utc(now);
    IoJudge how = {.climate = cli_find_climate, .origin = PB_ORIGIN_IMPORTED, .now = now};
    Progress progress = {.doing = "played again", .count = count};
    for (int i = 0; i < count; i++) {
        Import *r = &runs[i];
        tell(&progress, i);
        PB_TRY(io_read_file(paths[i], STORE_FILE_BYTES, &r->bytes, &r->size, err));
        PB_TRY(io_run_judge(&how, paths[i], (const unsigned char *)r->bytes, r->size, &r->summary,
                            NULL, err));
    }
    return PB_OK;
}

static PbStatus put_all(Store *store, const StoreLearner *learner, char **paths, int count,
                        Import *runs, PbError *err)
{
    char now[IO_UTC_SIZE];
    io_now_utc(now);
    for (int i = 0; i < count; i++) {
        Import *r = &runs[i];
        PbStatus status =
            store_run_add(store, learner->id, r->bytes, r->size, &r->summary, now, &r->id, err);
        if (status == PB_ERR_RANGE || status == PB_ERR_FORMAT) { /* this file will not do */
            snprintf(err->file, sizeof err->file, "%.255s", paths[i]);
        }
        PB_TRY(status);
    }
    return PB_OK;
}

/* All of them or none. They are played before the store is held, which takes a second each. */
static PbStatus import_all(Store *store, const StoreLearner *learner, char **paths, int count,
                           Import *runs, PbError *err)
{
    PbError undone;
    PB_TRY(judge_all(paths, count, runs, err));
    PB_TRY(store_batch_begin(store, err));
    PbStatus status = put_all(store, learner, paths, count, runs, err);
    if (status != PB_OK) {
        (void)!store_batch_end(store, 0, &undone); /* the first trouble is the one to tell of */
        return status;
    }
    return store_batch_end(store, 1, err);
}

void runs_result_words(const PbRunSummary *m, char *out, size_t size)
{
    char clock[16];
    io_clock_words(m->duration_s, clock, sizeof clock);
    if (m->state == PB_RUN_LEFT) {
        snprintf(out, size, "left at %s", clock);
    } else if (m->state == PB_RUN_UNVERIFIED) {
        snprintf(out, size, "not verified");
    } else {
        snprintf(out, size, "%d of 100, %s", io_mark_shown(m->total),
                 m->is_pass ? "passed" : "not passed");
    }
}

void runs_note_words(const PbRunSummary *m, char *out, size_t size)
{
    char claim[80] = "", breaks[60] = "";
    if (m->state == PB_RUN_UNVERIFIED && m->has_claim) {
        snprintf(claim, sizeof claim, ", of an older version; the file says %d",
                 io_mark_shown(m->claimed_total));
    } else if (m->state == PB_RUN_UNVERIFIED) {
        snprintf(claim, sizeof claim, ", of an older version");
    } else if (pb_summary_is_parted(m)) {
        snprintf(claim, sizeof claim, ", the file says %d, %s", io_mark_shown(m->claimed_total),
                 m->claimed_pass ? "passed" : "not passed");
    }
    if (m->breaks > 0) {
        snprintf(breaks, sizeof breaks, ", left and gone on with %d time%s", m->breaks,
                 m->breaks == 1 ? "" : "s");
    }
    snprintf(out, size, "%s%s%s%s%s", m->origin == PB_ORIGIN_IMPORTED ? ", imported" : "",
             m->is_scripted ? ", scripted" : "",
             cli_is_own_exercise(m->exercise_hash) ? ", own exercise" : "", breaks, claim);
    memmove(out, out + (out[0] == ',' ? 2 : 0), strlen(out) + 1 - (out[0] == ',' ? 2 : 0));
}

static void print_import(const StoreLearner *learner, const Import *r)
{
    const PbRunSummary *m = &r->summary;
    char result[60], note[300];
    runs_result_words(m, result, sizeof result);
    printf("run %" PRId64 ": %s, %s%s, %s", r->id, learner->name,
           cli_is_own_exercise(m->exercise_hash) ? "own exercise " : "", m->exercise_id, result);
    if (pb_summary_is_parted(m)) {
        printf("; the file says %d, %s; a replay gives %d, %s", io_mark_shown(m->claimed_total),
               m->claimed_pass ? "passed" : "not passed", io_mark_shown(m->total),
               m->is_pass ? "passed" : "not passed");
    } else if (m->state == PB_RUN_UNVERIFIED) {
        runs_note_words(m, note, sizeof note);
        printf("; %s", note);
    }
    printf("%s\n", m->is_scripted ? "; worked by scripted hands" : "");
}

PbStatus runs_import(Store *store, const RunsOptions *o, int *code, PbError *err)
{
    StoreLearner learner;
    int count = o->count - 1;
    (void)code;
    PB_TRY(cli_find_learner(store, o->learner, &learner, err));
    Import *runs = calloc((size_t)count, sizeof *runs);
    if (runs == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    PbStatus status = import_all(store, &learner, o->word + 1, count, runs, err);
    for (int i = 0; i < count; i++) {
        if (status == PB_OK) {
            print_import(&learner, &runs[i]);
        }
        free(runs[i].bytes);
    }
    free(runs);
    return status;
}

static int has_other_rules(const StoreRun *run)
{
    return run->summary.state == PB_RUN_FINISHED && run->rules != PB_SCORE_RULES;
}

static int differs(double a, double b)
{
    return fabs(a - b) > 1e-9;
}

/* As below, of the grade. */
static const char *compare_grades(const PbRunSummary *kept, const PbRunSummary *played, char *out,
                                  size_t size)
{
    if (kept->state == PB_RUN_FINISHED &&
        (differs(kept->total, played->total) || kept->is_pass != played->is_pass)) {
        snprintf(out, size, "the store says %d, %s; a replay gives %d, %s",
                 io_mark_shown(kept->total), kept->is_pass ? "passed" : "not passed",
                 io_mark_shown(played->total), played->is_pass ? "passed" : "not passed");
        return out;
    }
    if (kept->part_count != played->part_count) {
        return "its grade has other parts than a replay gives";
    }
    for (int i = 0; i < kept->part_count; i++) {
        const PbPartPoints *a = &kept->parts[i], *b = &played->parts[i];
        if (strcmp(a->key, b->key) != 0 || differs(a->points, b->points) ||
            differs(a->max, b->max)) {
            snprintf(out, size, "part %s: the store says %.2f of %g; a replay gives %.2f of %g",
                     a->key, a->points, a->max, b->points, b->max);
            return out;
        }
    }
    return NULL;
}

/* What the store says of a run and its file does not bear out: one sentence, or NULL. A grade of
 * other rules stands as it was given: today's would give another. */
static const char *compare(const StoreRun *run, const PbRunSummary *played, char *out, size_t size)
{
    const PbRunSummary *kept = &run->summary;
    if (kept->state != played->state) {
        return "its state is not the one that the file gives";
    }
    const char *why = has_other_rules(run) ? NULL : compare_grades(kept, played, out, size);
    if (why != NULL) {
        return why;
    }
    if (strcmp(kept->exercise_id, played->exercise_id) != 0 ||
        kept->exercise_hash != played->exercise_hash) {
        return "its exercise is not the one in the file";
    }
    if (kept->is_scripted != played->is_scripted || kept->breaks != played->breaks ||
        kept->seed != played->seed || differs(kept->duration_s, played->duration_s) ||
        kept->has_claim != played->has_claim ||
        (kept->has_claim && (differs(kept->claimed_total, played->claimed_total) ||
                             kept->claimed_pass != played->claimed_pass))) {
        return "what is noted of it is not what the file says";
    }
    return NULL;
}

/* Counts of a check. */
typedef struct Checked {
    int wrong, older;
    int other_rules; /* replayed, but graded by rules that are not today's */
} Checked;

/* Kept before the store noted where runs came from: its grade was given by that program. */
static int is_earlier(const StoreRun *run, const PbRunSummary *played)
{
    return run->summary.origin == PB_ORIGIN_EARLIER && played->state == PB_RUN_UNVERIFIED;
}

static PbStatus check_run(Store *store, int64_t id, Checked *n, PbError *err)
{
    StoreRun run;
    PbRunSummary played;
    void *bytes;
    size_t size;
    char name[40], now[24], said[200];
    const char *why = NULL;
    PbError bad = {0};
    io_now_utc(now);
    IoJudge how = {.climate = cli_find_climate, .now = now};
    snprintf(name, sizeof name, "run %" PRId64, id);
    PbStatus status = store_run_get(store, id, &run, err);
    if (status == PB_ERR_NO_RESULT) { /* deleted meanwhile */
        return PB_OK;
    }
    PB_TRY(status);
    PB_TRY(store_run_bytes(store, id, &bytes, &size, err));
    status = io_run_judge(&how, name, bytes, size, &played, NULL, &bad);
    free(bytes);
    if (status == PB_ERR_MEMORY || status == PB_ERR_IO) {
        *err = bad;
        return status;
    }
    if (status != PB_OK) {
        why = bad.message;
    } else if (is_earlier(&run, &played)) {
        n->older++;
    } else {
        n->older += played.state == PB_RUN_UNVERIFIED;
        n->other_rules += has_other_rules(&run);
        why = compare(&run, &played, said, sizeof said);
    }
    if (why != NULL) {
        printf("run %" PRId64 " of %s: %s\n", id, run.learner, why);
    }
    n->wrong += why != NULL;
    return PB_OK;
}

static PbStatus check_list(Store *store, const StoreRun *list, int count, PbError *err)
{
    Checked n = {0};
    Progress progress = {.doing = "played again", .count = count};
    for (int i = 0; i < count; i++) {
        tell(&progress, i);
        PB_TRY(check_run(store, list[i].id, &n, err));
    }
    if (n.older > 0) {
        printf("%d run%s of an older version cannot be played again by this one\n", n.older,
               n.older == 1 ? "" : "s");
    }
    if (n.other_rules > 0) {
        printf("%d run%s graded by other rules than today's (%d): %s not held against a replay\n",
               n.other_rules, n.other_rules == 1 ? " was" : "s were", PB_SCORE_RULES,
               n.other_rules == 1 ? "its grade was" : "their grades were");
    }
    if (n.wrong > 0) {
        return pb_fail(err, PB_ERR_FORMAT, "%d of %d runs are not what their files give", n.wrong,
                       count);
    }
    printf(
        "%s: whole; every run file is the one that was put in, and every %sgrade is the one that "
        "a replay gives\n",
        store_path(store), n.other_rules > 0 ? "other " : "");
    return PB_OK;
}

PbStatus runs_check(Store *store, const RunsOptions *o, int *code, PbError *err)
{
    StoreFilter all = {0};
    StoreRun *list = NULL;
    int count = 0;
    (void)code;
    PB_TRY(store_check(store, err));
    if (o->is_quick) {
        printf("%s: whole; every run file is the one that was put in (grades were not looked at)\n",
               store_path(store));
        return PB_OK;
    }
    PB_TRY(store_run_list(store, &all, &list, &count, err));
    PbStatus status = check_list(store, list, count, err);
    free(list);
    if (status == PB_ERR_FORMAT && err->file[0] == '\0') {
        snprintf(err->file, sizeof err->file, "%.255s", store_path(store));
    }
    return status;
}
