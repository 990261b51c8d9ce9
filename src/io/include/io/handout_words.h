/**
 * @file handout_words.h
 * @brief What the page that is handed over says beside the figures: ten plain sentences on what
 * they rest on, rounding for people who buy, words of the rule, short sources.
 */
#ifndef IO_HANDOUT_WORDS_H
#define IO_HANDOUT_WORDS_H

#include "core/compare.h"
#include "io/company_file.h"
#include "io/compare_words.h"

enum { IO_HANDOUT_SENTENCES = 10 };

/**
 * @brief What the figures rest on, with the figures of this house in the reader's units.
 * @param[in]  t   key time shown beside the filling
 * @param[in]  n   0 .. IO_HANDOUT_SENTENCES - 1
 * @param[out] out cut at `size`; 600 bytes hold each
 */
void io_handout_sentence(const PbCompare *compare, int t, int n, IoReaderTaste taste, char *out,
                         size_t size);
/**
 * @brief A range to the figures that mean something: R in whole numbers where its ends differ by 1
 * or more (SI: tenths, by 0.1), heat in tenths where they differ by that; ends are rounded
 * outwards, so that the range holds what it held. Before there are draws enough: "≈ " and one
 * figure.
 * @param[in] figure IO_FIGURE_R or IO_FIGURE_RATIO; all others as io_compare_shown
 */
void io_handout_range(IoCompareFigure figure, PbHeatRange range, int draws, IoReaderTaste taste,
                      char *out, size_t size);

/** Rows of the block that stands for label and fact sheet of each kind of fill. */
typedef enum IoLabelRow {
    IO_LABEL_TYPE,      /**< type and form */
    IO_LABEL_THICKNESS, /**< depth of the cavity */
    IO_LABEL_R,         /**< of that thickness alone, by the label */
    IO_LABEL_COVERAGE,  /**< cavity that a bag fills */
    IO_LABEL_BAGS,      /**< by the chart, for the cavities of this house */
    IO_LABEL_SHEET,     /**< number of the fact sheet */
    IO_LABEL_MODEL,     /**< R of that thickness alone as this program computes it */
    IO_LABEL_ROWS
} IoLabelRow;

/** @brief Name of a row. Static storage. */
const char *io_label_name(IoLabelRow row, int language);
/**
 * @brief Value of a row for a fill; "" where only the label knows it and the company gave none: an
 * empty line is to be printed there.
 */
void io_label_value(const PbCompare *compare, const IoCompany *company, PbCompareFill fill,
                    IoLabelRow row, IoReaderTaste taste, char *out, size_t size);
/** @brief Cavity of this house that is to be filled, m2: without wood and without what is packed
 * already. */
double io_cavity_m2(const PbHouse *house);

/**
 * @brief The statement that 16 CFR 460.18(a) wants word for word beside any R, in English as the
 * rule has it (read in the electronic code, state of 2026). Of the other statements of that rule
 * none is built in: 460.19 could not be read.
 */
extern const char io_rule_460_18[];

/**
 * @brief Where a constant comes from, in a few words: a publication, else "assumption",
 * "calibrated", "from memory".
 */
const char *io_short_source(const char *source, int language);

#endif
