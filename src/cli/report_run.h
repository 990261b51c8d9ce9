/* The PDF report as verbs make it. */
#ifndef CLI_REPORT_RUN_H
#define CLI_REPORT_RUN_H

#include "io/run_judge.h"
#include "report/report.h"
#include "store/runs.h"

typedef struct CliPdf {
    const char *out;
    ReportPaper paper;
    IoReaderTaste taste;
} CliPdf;

/* What a report is made of. All borrowed. */
typedef struct CliReport {
    const IoPlay *play;     /* played to its end and marked */
    const char *who;        /* name to print; NULL = the one in the run */
    const char *ended;      /* its time; NULL = as the run says */
    const StoreMark *marks; /* the trainer's */
    int mark_count;
    const char *last_time; /* what changed since the last time; NULL = nothing to say */
    CliPdf pdf;
} CliReport;

PB_NODISCARD PbStatus cli_report_pdf(const CliReport *report, PbError *err);

#endif
