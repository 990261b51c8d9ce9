/**
 * @file compare_words.h
 * @brief A comparison in words: names, one sentence a fill, figures with their units, inputs; in
 * English and Spanish, in SI or US units. Tables of this file's own, so that programs without a
 * catalogue have them too. All rounding of shown figures is done here, so that screen, page and
 * command line show the same digits.
 */
#ifndef IO_COMPARE_WORDS_H
#define IO_COMPARE_WORDS_H

#include "core/compare.h"
#include "io/score_words.h"

/** @brief "Empty bay", "Loose blow", "Water-based foam", "Dense pack". Static storage. */
const char *io_fill_name(PbCompareFill fill, int language);
/** @brief The same for a house: "As it is now" where old fill or a batt is in the bay. */
const char *io_fill_title(const PbHouse *house, PbCompareFill fill, int language);
/** @brief Fixed keys for JSON and CSV: "empty"; "foam_loop"; "unclear". */
const char *io_fill_key(PbCompareFill fill);
const char *io_says_key(PbCompareSays says);
const char *io_beside_key(PbCompareBeside beside);

/** How a figure is shown. */
typedef enum IoCompareFigure {
    IO_FIGURE_R,       /**< m2 K/W, or "R 8.6" in h ft2 F/Btu */
    IO_FIGURE_R_LAYER, /**< with a figure more: a layer may have R 0.06 */
    IO_FIGURE_RATIO,   /**< "1.05 to 1.20 times" */
    IO_FIGURE_KWH,     /**< kWh in both unit systems, two figures of the upper end */
    IO_FIGURE_MONEY,   /**< with the currency, likewise */
    IO_FIGURE_LENGTH,  /**< mm or cm; in */
    IO_FIGURE_SHARE,   /**< % */
    IO_FIGURE_DENSITY, /**< kg/m3; lb/ft3 */
    IO_FIGURE_AREA,    /**< cm2 or m2; in2 or ft2 */
    IO_FIGURE_CELSIUS  /**< deg C; deg F */
} IoCompareFigure;

/**
 * @brief "1.5 to 1.8 m²K/W"; one figure where both ends read the same; lengths below a millimetre
 * (0.05 in) as "under 1 mm", since zero would be a promise.
 * @param[in] currency for money, else not read; may be NULL
 */
void io_compare_range(IoCompareFigure figure, PbHeatRange range, const char *currency,
                      IoReaderTaste taste, char *out, size_t size);
/** @brief One figure, as a range without width. */
void io_compare_figure(IoCompareFigure figure, double value, const char *currency,
                       IoReaderTaste taste, char *out, size_t size);
/**
 * @brief A range once there are draws enough for one, else "≈ " and the figure of the shipped
 * values.
 * @param[in] draws that the range is of
 */
void io_compare_shown(IoCompareFigure figure, PbHeatRange range, int draws, const char *currency,
                      IoReaderTaste taste, char *out, size_t size);
/** @brief One plain sentence on a fill, ending with a full stop; "" while nothing is computed. */
void io_compare_sentence(const PbCompareSaying *saying, IoReaderTaste taste, char *out,
                         size_t size);

/** Whom inputs are told to. */
typedef struct IoAssumedReader {
    IoReaderTaste taste;
    const char *currency; /**< of the house; for the price */
    const PbHouse *house; /**< for its layers and the unit of its bill; borrowed; NULL = as keys */
} IoAssumedReader;

/**
 * @brief An input in words: a name, the value in the reader's units, and where it comes from;
 * constants say how well they are known (their sources: docs/CONSTANTS.md).
 * @param[out] label, value, source each cut at `size`; value with range and unit
 */
void io_assumed_words(const PbAssumed *row, const IoAssumedReader *reader, char *label, char *value,
                      char *source, size_t size);
/** @brief Title of a shipped climate in the language; any other as it is. */
const char *io_climate_title(const char *title, int language);
/** @brief Customer and town of the shipped sample house in the language; all else as it is. */
const char *io_house_word(const char *text, int language);
/** @brief "Nov 30, 2026" for US readers, else "30 Nov 2026", "30 nov 2026". */
void io_date_words(int year, int month, int day, IoReaderTaste taste, char *out, size_t size);

/** Sentences that go with every comparison, in order. */
enum { IO_COMPARE_NOTES = 7, IO_COMPARE_CAUTIONS = 5 };
/** @brief What the figures are and are not. @param[in] n 0 .. IO_COMPARE_NOTES - 1 */
const char *io_compare_note(int n, int language);
/** @brief Cautions before any wall is filled. @param[in] n 0 .. IO_COMPARE_CAUTIONS - 1 */
const char *io_compare_caution(int n, int language);

#endif
