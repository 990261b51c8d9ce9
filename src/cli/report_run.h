/* The PDF report as verbs make it. */
#ifndef CLI_REPORT_RUN_H
#define CLI_REPORT_RUN_H

#include "report/report.h"

#include "store/runs.h"

typedef struct CliPdf {
    const char *out;
    ReportPaper paper;
    IoReaderTaste taste;
} CliPdf;

/* --pdf OUT, --paper a4|letter: nonzero when argv[*i] was one of them; *bad = a usage complaint
 * has been printed. */
int cli_pdf_option(const char *verb, int argc, char **argv, int *i, CliPdf *pdf, int *bad);

/*
 * Replay a run and write its report. who: name to print, NULL = the one in the run. ended: its
 * time, NULL = as the run says. marks: the trainer's, may be NULL.
 */
PB_NODISCARD PbStatus cli_report_pdf(const PbRunFile *run, const PbRubric *rubric, const char *who,
                                     const char *ended, const StoreMark *marks, int mark_count,
                                     const CliPdf *pdf, PbError *err);

#endif
