/* Runs of the store as text, CSV, JSON and learning-record statements. */
#include "last_time.h"
#include "replay_run.h"
#include "runs_options.h"
#include "shipped.h"
#include "store_options.h"

#include "io/doc.h"
#include "io/score_words.h"
#include "store/records.h"

#include <inttypes.h>
#include <stdlib.h>
#include <string.h>

static PbStatus collect(Store *store, const RunsOptions *o, StoreRecords *r, PbError *err)
{
    StoreFilter filter = {.exercise_id = o->exercise};
    StoreLearner learner;
    if (o->learner != NULL) {
        PB_TRY(cli_find_learner(store, o->learner, &learner, err));
        filter.learner_id = learner.id;
    }
    return store_records_read(store, &filter, cli_is_own, NULL, r, err);
}

static PbStatus dump(json_t *json, PbError *err)
{
    if (json == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    json_dumpf(json, stdout, JSON_COMPACT | JSON_REAL_PRECISION(12));
    putchar('\n');
    json_decref(json);
    return io_json_short() ? pb_fail(err, PB_ERR_MEMORY, "out of memory: the output is not whole")
                           : PB_OK;
}

/* "22.5 passed", "left at 2:12"; people look down this column. */
static void short_result(const PbRunSummary *m, char *out, size_t size)
{
    if (m->state == PB_RUN_FINISHED) {
        snprintf(out, size, "%3d %s", io_mark_shown(m->total), m->is_pass ? "passed" : "");
    } else {
        runs_result_words(m, out, size);
    }
}

static void print_table(const StoreRecords *r)
{
    printf("  run  ended                 points        marks  exercise              learner\n");
    for (int i = 0; i < r->count; i++) {
        const StoreRun *run = &r->runs[i];
        const PbRunSummary *m = &run->summary;
        char result[60], exercise[80], note[300];
        short_result(m, result, sizeof result);
        runs_note_words(m, note, sizeof note);
        snprintf(exercise, sizeof exercise, "%s%s",
                 cli_is_own_exercise(m->exercise_hash) ? "own exercise " : "", m->exercise_id);
        printf("%5" PRId64 "  %-20s  %-12s  %5d  %-20s  %s%s%s%s\n", run->id, m->when, result,
               run->mark_count, exercise, run->learner, note[0] ? " (" : "", note,
               note[0] ? ")" : "");
    }
    printf("%d run%s\n", r->count, r->count == 1 ? "" : "s");
}

PbStatus runs_list(Store *store, const RunsOptions *o, int *code, PbError *err)
{
    StoreRecords r;
    (void)code;
    PB_TRY(collect(store, o, &r, err));
    PbStatus status = PB_OK;
    if (o->is_csv) {
        status = io_records_csv(stdout, r.records, r.count, err);
    } else if (o->is_json) {
        status = dump(io_records_json(r.records, r.count), err);
    } else {
        print_table(&r);
    }
    store_records_free(&r);
    return status;
}

PbStatus runs_xapi(Store *store, const RunsOptions *o, int *code, PbError *err)
{
    StoreRecords r;
    (void)code;
    PB_TRY(collect(store, o, &r, err));
    PbStatus status = dump(io_records_xapi(r.records, r.count, o->home), err);
    store_records_free(&r);
    return status;
}

static void print_run(const StoreRun *run)
{
    const PbRunSummary *m = &run->summary;
    printf("run        %" PRId64 " of %s (learner %" PRId64 ")\n", run->id, run->learner,
           run->learner_id);
    printf("exercise   %s: %s\n", m->exercise_id, m->exercise_title);
    printf("when       ended %s, kept %s\n", m->when, run->added);
    printf("length     %.2f s; seed %" PRIu64 ", physics %d\n", m->duration_s, m->seed,
           m->physics_version);
    char result[60], note[300];
    runs_result_words(m, result, sizeof result);
    runs_note_words(m, note, sizeof note);
    printf("result     %s%s%s%s\n", result, note[0] ? " (" : "", note, note[0] ? ")" : "");
    printf("file       %" PRId64 " bytes, checksum %016" PRIx64 "\n", run->file_bytes,
           run->checksum);
    if (m->step_mean_m >= 0.0) {
        printf("steps      %.3f m on the average, spread %.3f m\n", m->step_mean_m,
               m->step_spread_m >= 0.0 ? m->step_spread_m : 0.0);
    }
    if (m->dwell_mean_s >= 0.0) {
        printf("dwell      %.1f s after the stall, spread %.1f s\n", m->dwell_mean_s,
               m->dwell_spread_s >= 0.0 ? m->dwell_spread_s : 0.0);
    }
}

/* What was otherwise by them. */
static const char *const old_rules[PB_SCORE_RULES] = {
    [0] = "",
    [1] = ", rules 1: points alone, without gates",
    [2] = ", rules 2: a soft foot cost fewer points",
    [3] = ", rules 3: a weak face had to bear as much as any",
    [4] = ", rules 4: light fill all over cost more, the third clog and those after it nothing",
};

static void print_grades(const StoreGrade *grades, int count)
{
    for (int i = 0; i < count; i++) {
        const StoreGrade *g = &grades[i];
        printf("grade      %d of 100, %s, by rubric %s%s\n", io_mark_shown(g->total),
               g->is_pass ? "passed" : "not passed", g->rubric,
               g->rules >= 0 && g->rules < PB_SCORE_RULES ? old_rules[g->rules] : "");
        double points[PB_SUMMARY_PARTS];
        int shown[PB_SUMMARY_PARTS];
        for (int k = 0; k < g->part_count; k++) {
            points[k] = g->parts[k].points;
        }
        io_points_shown(points, g->part_count, shown);
        for (int k = 0; k < g->part_count; k++) {
            printf("           %3d / %-4.0f %s\n", shown[k], g->parts[k].max, g->parts[k].key);
        }
    }
}

/* Nothing where the file, which knows the exercise, cannot be read: runs check says so. */
static PbStatus print_last_time(Store *store, int64_t id, PbError *err)
{
    PbRunFile run;
    void *bytes;
    size_t size;
    char text[IO_LAST_TIME_BYTES];
    PbError unread;
    if (store_run_bytes(store, id, &bytes, &size, &unread) != PB_OK) {
        return PB_OK;
    }
    PbStatus status = io_run_decode("run", bytes, size, &run, &unread);
    free(bytes);
    if (status != PB_OK) {
        return PB_OK;
    }
    status = cli_last_time(store, id, &run.exercise, io_taste_here(WORDS_ENGLISH), text, err);
    io_run_free(&run);
    if (status == PB_OK && text[0] != '\0') {
        printf("last time  %s\n", text);
    }
    return status;
}

PbStatus runs_show(Store *store, const RunsOptions *o, int *code, PbError *err)
{
    StoreRun run;
    StoreGrade *grades = NULL;
    StoreMark *marks = NULL;
    int grade_count = 0, mark_count = 0;
    (void)code;
    PB_TRY(store_run_get(store, o->id, &run, err));
    PB_TRY(store_grade_list(store, o->id, &grades, &grade_count, err));
    PbStatus status = store_mark_list(store, o->id, &marks, &mark_count, err);
    if (status == PB_OK) {
        print_run(&run);
        print_grades(grades, grade_count);
        status = print_last_time(store, o->id, err);
    }
    for (int i = 0; status == PB_OK && i < mark_count; i++) {
        const StoreMark *m = &marks[i];
        printf("mark       %s  %-10s ", m->marked, m->part);
        if (m->points >= 0.0) {
            printf("%5.1f  ", m->points);
        }
        printf("%s%s%s%s\n", m->reason, m->trainer[0] != '\0' ? " -- " : "", m->trainer,
               m->is_current ? "" : " (a later one stands)");
    }
    free(marks);
    free(grades);
    return status;
}

PbStatus runs_pdf(Store *store, const RunsOptions *o, int *code, PbError *err)
{
    StoreRun run;
    StoreMark *marks = NULL;
    void *bytes;
    size_t size;
    IoPlay play = {0};
    CliReport report = {.play = &play, .pdf = o->pdf};
    PbRubric rubric;
    char name[40], before[IO_LAST_TIME_BYTES];
    (void)code;
    report.pdf.out = o->word[2];
    snprintf(name, sizeof name, "run %" PRId64, o->id);
    PB_TRY(store_run_get(store, o->id, &run, err));
    if (run.summary.state == PB_RUN_LEFT) {
        return pb_fail(err, PB_ERR_RANGE,
                       "run %" PRId64 " was left before its end: it has no grade to report", o->id);
    }
    PB_TRY(runs_rubric(store, o, &rubric, err));
    PB_TRY(store_run_bytes(store, o->id, &bytes, &size, err));
    PbStatus status = io_play_open(name, bytes, size, &play, err);
    free(bytes);
    PB_TRY(status);
    status = cli_replay_mark(&play, &rubric, err);
    if (status == PB_OK) {
        status = store_mark_list(store, o->id, &marks, &report.mark_count, err);
    }
    if (status == PB_OK && strcmp(rubric.name, run.summary.rubric) == 0) { /* as it was kept */
        status = cli_last_time(store, o->id, &play.run.exercise, report.pdf.taste, before, err);
        report.last_time = before;
    }
    if (status == PB_OK) {
        report.who = run.learner;
        report.ended = run.summary.when;
        report.marks = marks;
        status = cli_report_pdf(&report, err);
    }
    free(marks);
    io_play_close(&play);
    if (status == PB_OK) {
        printf("run %" PRId64 ": report in %s\n", o->id, report.pdf.out);
    }
    return status;
}
