/**
 * @file handout.h
 * @brief One page for a homeowner: the four fills at year 0 and at a chosen year, what each lets
 * through as ranges, what is assumed, cautions.
 *
 * Every figure comes from the comparison and every word from io/compare_words.h; the page claims
 * nothing of its own. Notices that a law may ask for word by word are not on it: whoever hands it
 * out adds those that govern. The same data give the same bytes.
 */
#ifndef REPORT_HANDOUT_H
#define REPORT_HANDOUT_H

#include "core/compare.h"
#include "report/report.h"

typedef struct ReportHandout {
    const PbCompare *compare; /**< heat of year 0 and of time t finished for all fills */
    int t;                    /**< key time shown beside year 0, at least 1 */
    char company[97];         /**< as typed by the user; may be "" */
    char date[24];            /**< printed as given; may be "" */
    IoReaderTaste taste;
} ReportHandout;

/**
 * @brief Write the PDF: whole at its place, or not at all. Exactly one page.
 * @param[in] fonts, created as report_run_pdf
 * @return PB_OK; PB_ERR_STATE when figures are missing; PB_ERR_RANGE for t; PB_ERR_IO;
 *         PB_ERR_MEMORY
 */
PB_NODISCARD PbStatus report_handout_pdf(const ReportHandout *handout, const char *path,
                                         ReportPaper paper, const char *fonts, const char *created,
                                         PbError *err);

#endif
