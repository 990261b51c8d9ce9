/**
 * @file air_words.h
 * @brief Air through the walls in words, in English and Spanish, in SI or US units.
 */
#ifndef IO_AIR_WORDS_H
#define IO_AIR_WORDS_H

#include "core/compare.h"
#include "io/score_words.h"

typedef enum IoAirFigure {
    IO_AIR_FLOW,    /**< through the bays in winter: "8 to 31 L/s", "17 to 66 cfm" */
    IO_AIR_FLOW_50, /**< the same in a blower-door test: "900 to 2100 m³/h", "530 to 1200 cfm50" */
    IO_AIR_HOUSE_50, /**< of the whole house, before */
    IO_AIR_SHARE,    /**< of the house's leaks, % */
    IO_AIR_CUT,      /**< of the house's leaks, what the fill takes off, % */
    IO_AIR_HEAT      /**< carried out in a year, kWh */
} IoAirFigure;

/** @brief "built before 1940" for a choice. Static storage. */
const char *io_built_name(PbBuilt built, int language);
/** @brief A figure with its unit; a range once there are draws enough; "-" while not known. */
void io_air_shown(IoAirFigure figure, const PbCompareAir *air, IoReaderTaste taste, char *out,
                  size_t size);
/**
 * @brief One to three plain sentences. The empty bay: what leaks through the walls as they are, and
 * where the house's leakage comes from; a fill: what it leaves and takes off. "" while nothing is
 * computed.
 */
void io_air_sentence(PbCompareFill fill, const PbCompareAir *air, IoReaderTaste taste, char *out,
                     size_t size);
/** @brief What a packed wall does not seal. Static storage. */
const char *io_air_note(int language);

#endif
