/**
 * @file saving_words.h
 * @brief What a fill saves, in words and figures, in English and Spanish.
 */
#ifndef IO_SAVING_WORDS_H
#define IO_SAVING_WORDS_H

#include "core/compare.h"
#include "io/score_words.h"

typedef enum IoSavingFigure {
    IO_SAVING_FUEL,          /**< "110 to 190 therms" */
    IO_SAVING_COOLING,       /**< electricity of cooling, kWh */
    IO_SAVING_MONEY,         /**< with the currency */
    IO_SAVING_PAYBACK,       /**< "9 to 17 years"; "-" without a price */
    IO_SAVING_WALLS,         /**< what the walls take as they are, in fuel */
    IO_SAVING_WALL_SHARE,    /**< of the house's heat, % */
    IO_SAVING_BY_CONDUCTION, /**< of the fuel saved; both only where the house's air is known */
    IO_SAVING_BY_AIR
} IoSavingFigure;

/** @brief Unit of the bill, many: "therms"; "kWh" without a bill. Static storage. */
const char *io_fuel_unit(const PbHouse *house, int language);
/** @brief One of it, as in a price: "therm". Static storage. */
const char *io_fuel_each(const PbHouse *house, int language);
/** @brief Fuel with its unit, for a choice: "gas, therms". @param[in] fuel row of pb_fuel */
const char *io_fuel_name(int fuel, int language);
/**
 * @brief A figure as it may be shown: a range once enough draws are kept, "≈ " and the figure of
 * the shipped values before, "held back" where the walls would burn more than the bill.
 */
void io_saving_shown(IoSavingFigure figure, const PbCompareSaving *saving, const PbHouse *house,
                     IoReaderTaste taste, char *out, size_t size);
/**
 * @brief One or two plain sentences: what is saved and in how many of the trials, or why nothing
 * is told. "" while nothing is computed. For the empty bay: what the walls take.
 */
void io_saving_sentence(PbCompareFill fill, const PbCompareSaving *saving, const PbHouse *house,
                        IoReaderTaste taste, char *out, size_t size);
/** @brief Nonzero when savings are not to be told for this house. */
int io_saving_is_held(const PbCompareSaving *saving);

#endif
