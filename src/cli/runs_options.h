/* What the verb runs was asked, and its printing half. */
#ifndef CLI_RUNS_OPTIONS_H
#define CLI_RUNS_OPTIONS_H

#include "io/record_file.h"
#include "report_run.h"
#include "store/runs.h"

#include <stdio.h>

typedef struct RunsOptions {
    const char *db, *learner, *exercise, *part, *reason, *by, *home, *rubric;
    char **word; /* plain words: the act and what it is about */
    int count;
    int64_t id;
    double points; /* negative = none */
    int is_json, is_csv, is_yes, is_quick;
    CliPdf pdf;
} RunsOptions;

PbStatus runs_import(Store *store, const RunsOptions *o, int *code, PbError *err);
PbStatus runs_check(Store *store, const RunsOptions *o, int *code, PbError *err);
/* "22.5 of 100, not passed", "left at 2:12" or "not verified". */
void runs_result_words(const PbRunSummary *m, char *out, size_t size);
/* What stands beside a run in lists: "imported, scripted"; "" = nothing. */
void runs_note_words(const PbRunSummary *m, char *out, size_t size);
PbStatus runs_list(Store *store, const RunsOptions *o, int *code, PbError *err);
PbStatus runs_show(Store *store, const RunsOptions *o, int *code, PbError *err);
PbStatus runs_pdf(Store *store, const RunsOptions *o, int *code, PbError *err);
PbStatus runs_regrade(Store *store, const RunsOptions *o, int *code, PbError *err);
/* The rubric that was asked for: a file (its text is kept), else one kept by that name; the default
 * when none was. */
PB_NODISCARD PbStatus runs_rubric(Store *store, const RunsOptions *o, PbRubric *rubric,
                                  PbError *err);
PbStatus runs_xapi(Store *store, const RunsOptions *o, int *code, PbError *err);

#endif
