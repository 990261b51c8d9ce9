/* From a run, and what the store knows beside it, to its report. */
#include "report_run.h"

#include "store_options.h"

#include "cli/data_files.h"
#include "cli/front.h"
#include "cli/run_session.h"
#include "io/clock.h"

#include <stdio.h>
#include <string.h>

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
    int language = r->taste.language;
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

PbStatus cli_report_pdf(const CliReport *report, PbError *err)
{
    const IoPlay *play = report->play;
    ReportRun *page;
    char now[IO_UTC_SIZE];
    PB_TRY(report_gather(&play->run, &play->watched, report->pdf.taste, &page, err));
    if (report->who != NULL) {
        snprintf(page->learner, sizeof page->learner, "%s", report->who);
    }
    if (report->ended != NULL) {
        snprintf(page->when, sizeof page->when, "%.23s", report->ended);
    }
    if (report->last_time != NULL) {
        snprintf(page->last_time, sizeof page->last_time, "%s", report->last_time);
    }
    put_marks(report->marks, report->mark_count, &play->run.grade, page);
    put_language(page);
    io_now_utc(now);
    /* the run's own time where it has one: then the same run gives the same file */
    PbStatus status = report_run_pdf(page, report->pdf.out, report->pdf.paper, cli_font_folder(),
                                     page->when[0] != '\0' ? page->when : now, err);
    report_free(page);
    return status;
}
