/**
 * @file proof.h
 * @brief One page for the day of the work: what was measured at the house, what it shows and how
 * surely, the prediction before and after; or the same sheet empty, to be filled in by hand.
 *
 * Every figure comes from the house, core/proof_reading.h and every word from io/proof_words.h. The
 * same data give the same bytes.
 */
#ifndef REPORT_PROOF_H
#define REPORT_PROOF_H

#include "core/proof_reading.h"
#include "report/report.h"

typedef struct ReportProof {
    const PbHouse *house;          /**< its proof may be empty: an empty sheet */
    const PbProofReading *reading; /**< of that house */
    const PbProofUpdate *update;   /**< NULL = not worked out */
    char company[97];              /**< may be "" */
    char date[24];                 /**< printed as given; "" = a line to write on */
    IoReaderTaste taste;
} ReportProof;

/** @brief Write the PDF: whole at its place, or not at all. Exactly one page.
 * @return PB_OK; PB_ERR_IO; PB_ERR_MEMORY */
PB_NODISCARD PbStatus report_proof_pdf(const ReportProof *proof, const char *path,
                                       ReportPaper paper, const char *fonts, const char *created,
                                       PbError *err);

#endif
