/**
 * @file handout.h
 * @brief The page for a homeowner: the four fills at year 0 and at a chosen year with what each
 * lets through as ranges, label and fact sheet of each kind of fill, what the figures rest on,
 * cautions; behind it the inputs and constants with their sources.
 *
 * Every figure comes from the comparison or from the company's own file, every word from
 * io/handout_words.h and io/compare_words.h. For US readers the statement of 16 CFR 460.18(a)
 * stands on it word for word; what else a law may ask for is an empty field until the company fills
 * it. The same data give the same bytes.
 */
#ifndef REPORT_HANDOUT_H
#define REPORT_HANDOUT_H

#include "core/compare.h"
#include "io/company_file.h"
#include "report/report.h"

typedef struct ReportHandout {
    const PbCompare *compare; /**< heat of year 0 and of time t finished for all fills */
    int t;                    /**< key time shown beside year 0, at least 1 */
    IoCompany company;        /**< all zero: empty lines are printed */
    char date[24];            /**< printed as given; may be "" */
    IoReaderTaste taste;
} ReportHandout;

/**
 * @brief Write the PDF: whole at its place, or not at all. One page to hand over, one or
 * two of inputs and constants behind it.
 * @param[in] fonts, created as report_run_pdf
 * @return PB_OK; PB_ERR_STATE when figures are missing; PB_ERR_RANGE for t; PB_ERR_IO;
 *         PB_ERR_MEMORY
 */
PB_NODISCARD PbStatus report_handout_pdf(const ReportHandout *handout, const char *path,
                                         ReportPaper paper, const char *fonts, const char *created,
                                         PbError *err);

#endif
