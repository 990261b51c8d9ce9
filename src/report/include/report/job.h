/**
 * @file job.h
 * @brief One page for a job at a whole wall: what was filled and with what, the wall with its bays,
 * parts left and why, gates and points, cautions.
 *
 * Every figure comes from the job and its marks, every sentence from io/job_words.h. The same data
 * give the same bytes.
 */
#ifndef REPORT_JOB_H
#define REPORT_JOB_H

#include "core/job_heat.h"
#include "core/job_marks.h"
#include "report/report.h"

typedef struct ReportJob {
    const PbJob *job;        /**< all fills run */
    const PbJobMarks *marks; /**< of that job */
    const PbJobHeat *heat;   /**< all three cases, on one cold day; NULL = leave it out */
    char wall[97];           /**< its name, in the reader's language */
    char crew[97];           /**< who did it; may be "" */
    char date[24];           /**< printed as given */
    IoReaderTaste taste;
} ReportJob;

/** @brief Write the PDF: whole at its place, or not at all. Exactly one page.
 * @return PB_OK; PB_ERR_IO; PB_ERR_MEMORY */
PB_NODISCARD PbStatus report_job_pdf(const ReportJob *r, const char *path, ReportPaper paper,
                                     const char *fonts, const char *created, PbError *err);

#endif
