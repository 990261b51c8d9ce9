/* From a run, and what the store knows beside it, to its report. */
#include "report_run.h"

#include "data_files.h"
#include "options.h"
#include "run_session.h"
#include "store_options.h"
#include "verbs.h"

#include <stdio.h>
#include <string.h>

int cli_pdf_option(const char *verb, int argc, char **argv, int *i, CliPdf *pdf, int *bad)
{
    const char *w;
    if ((w = cli_word_after(argc, argv, i, "--pdf")) != NULL) {
        if (strcmp(w, "-") == 0) {
            *bad = cli_usage(verb, "--pdf \"-\": expected the name of a file");
        }
        pdf->out = w;
        return 1;
    }
    if ((w = cli_word_after(argc, argv, i, "--paper")) == NULL) {
        return 0;
    }
    if (strcmp(w, "a4") != 0 && strcmp(w, "letter") != 0) {
        *bad = cli_usage(verb, "--paper \"%s\": expected a4 or letter", w);
    }
    pdf->paper = w[0] == 'l' ? REPORT_LETTER : REPORT_A4;
    return 1;
}

/* What a trainer's points are out of: the part in the grade that the run came with. */
static double own_max(const PbRunGrade *own, int part)
{
    for (int i = 0; i < own->part_count; i++) {
        if ((int)own->parts[i].kind == part) {
            return own->parts[i].max;
        }
    }
    return 0.0;
}

/* Marks by the key of their part, in the order of the report's parts. */
static void put_marks(const StoreMark *marks, int count, const PbRunGrade *own, ReportRun *r)
{
    for (int i = 0; i < count; i++) {
        const StoreMark *m = &marks[i];
        if (!m->is_current) {
            continue;
        }
        if (strcmp(m->part, STORE_WHOLE_RUN) == 0) {
            r->trainer_total = m->points;
            snprintf(r->comment, sizeof r->comment, "%s", m->reason);
        }
        for (int k = 0; k < r->part_count; k++) {
            if (strcmp(m->part, io_part_key((PbScorePartKind)k)) == 0) {
                r->parts[k].trainer = m->points;
                r->parts[k].trainer_max = own_max(own, k);
                snprintf(r->parts[k].reason, sizeof r->parts[k].reason, "%s", m->reason);
            }
        }
        if (m->trainer[0] != '\0') {
            snprintf(r->trainer, sizeof r->trainer, "%s", m->trainer);
        }
    }
}

/* What came out of the exercise's file, in the reader's language. */
static void put_language(ReportRun *r)
{
    IoLanguage language = r->taste.language;
    char text[sizeof r->cautions[0]];
    snprintf(text, sizeof text, "%.95s", words_in(language, r->exercise_title));
    snprintf(r->exercise_title, sizeof r->exercise_title, "%.95s", text);
    snprintf(text, sizeof text, "%.63s", words_in(language, r->rubric));
    snprintf(r->rubric, sizeof r->rubric, "%.63s", text);
    for (int i = 0; i < r->caution_count; i++) {
        snprintf(text, sizeof text, "%s", words_in(language, r->cautions[i]));
        memcpy(r->cautions[i], text, sizeof text);
    }
}

PbStatus cli_report_pdf(const PbRunFile *run, const PbRubric *rubric, const char *who,
                        const char *ended, const StoreMark *marks, int mark_count,
                        const CliPdf *pdf, PbError *err)
{
    const char *fonts = cli_font_folder();
    PbClimate climate;
    ReportRun *report;
    char now[24];
    PB_TRY(cli_climate_of(&run->exercise, &climate, err));
    PB_TRY(report_gather(run, &climate, rubric, pdf->taste, &report, err));
    if (who != NULL) {
        snprintf(report->learner, sizeof report->learner, "%s", who);
    }
    if (ended != NULL) {
        snprintf(report->when, sizeof report->when, "%.23s", ended);
    }
    put_marks(marks, mark_count, &run->grade, report);
    put_language(report);
    cli_now(now);
    /* the run's own time where it has one: then the same run gives the same file */
    PbStatus status = report_run_pdf(report, pdf->out, pdf->paper, fonts,
                                     report->when[0] != '\0' ? report->when : now, err);
    report_free(report);
    return status;
}
