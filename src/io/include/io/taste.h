/**
 * @file taste.h
 * @brief For whom words and figures are: language, units and decimal mark, and the one place that
 * writes a figure with its unit. Locale of the person: see io_taste_here.
 */
#ifndef IO_TASTE_H
#define IO_TASTE_H

#include "words/words.h"

#include <stddef.h>

/** Whom the words are for. All zero: English, SI, decimal point. */
typedef struct IoReaderTaste {
    int language; /**< row of words_languages */
    int is_us;    /**< feet, pounds, lb/ft³, inches of water */
    int is_comma; /**< "2,5"; follows the country, see io_taste_comma */
} IoReaderTaste;

/** What a figure is of, with its unit in SI and in US units. */
typedef enum IoUnit {
    IO_UNIT_LENGTH,     /**< m; ft */
    IO_UNIT_SMALL,      /**< m, shown as mm; in. */
    IO_UNIT_DENSITY,    /**< kg/m³; lb/ft³ */
    IO_UNIT_MASS,       /**< kg; lb */
    IO_UNIT_FEED,       /**< kg/s, shown as kg/min; lb/min */
    IO_UNIT_PRESSURE,   /**< Pa in hose and blower, shown as kPa; in. w.c. */
    IO_UNIT_LOAD,       /**< Pa on a wall face, shown as kPa; psf */
    IO_UNIT_FLOW,       /**< m³/s, shown as L/s; cfm */
    IO_UNIT_AREA,       /**< m²; ft² */
    IO_UNIT_SMALL_AREA, /**< m², shown as cm²; in.² */
    IO_UNIT_LIMIT
} IoUnit;

/**
 * @brief The reader that the environment asks for: US units where the territory is the US, Liberia
 * or Myanmar, SI elsewhere and where no territory is named (C, POSIX, "en"); and the decimal mark
 * of the territory. LC_ALL, else LC_MEASUREMENT (units) or LC_NUMERIC (mark), else LANG.
 */
IoReaderTaste io_taste_here(int language);
/**
 * @brief Nonzero when this language, in the country of this locale name ("es_ES.UTF-8"), writes a
 * decimal comma. Spanish without a country, and in countries not of its row, has the point: crews
 * in the US, Mexico and most of Central America write it so. NULL: no country.
 */
int io_taste_comma(int language, const char *locale);
/** @brief Take the language of "en", "es", "es_AR" ..., and the mark of the country if it names
 * one. @return 0 when there is no such language. */
int io_taste_language(IoReaderTaste *reader, const char *name);

/** @brief The unit as the reader writes it; static storage. */
const char *io_unit_name(IoUnit unit, IoReaderTaste reader);
/** @brief The number that is shown for a value in SI base units. */
double io_unit_value(IoUnit unit, double si, IoReaderTaste reader);
/** @brief The figure with its usual decimals and its unit: "2.7 lb/ft³". */
void io_unit_figure(IoUnit unit, double si, IoReaderTaste reader, char *out, size_t size);

/** @brief Put the reader's decimal mark into a number that printf wrote: programs keep the C locale
 * for numbers. Changes the first '.' of `number`, so nothing may stand before it. */
void io_decimal_mark(char *number, IoReaderTaste reader);
/** @brief Nonzero when this unit stands close to its number: per cent in English. */
int io_is_close(const char *unit, IoReaderTaste reader);
/**
 * @brief A number with its unit; what rounds to nothing has no sign. Per cent stands close in
 * English, "80%", and apart in Spanish, "80 %", as the catalogue has "{n}%".
 * @param[in] unit "" = none
 */
void io_figure(double value, int decimals, const char *unit, IoReaderTaste reader, char *out,
               size_t size);
/**
 * @brief Write the named lengths and pressures of a sentence in the reader's units: {step} "a foot"
 * or "30 cm", {wide} between studs, {weak} and {thin} pressures, {square} of a grade, {line} of the
 * taped wall. Other braces stay. Cut at size; `out` must not be `text`.
 */
void io_named_figures(const char *text, IoReaderTaste reader, char *out, size_t size);
/** @brief Put a full stop behind a sentence, unless a unit like "in." ends it. */
void io_full_stop(char *sentence, size_t size);

#endif
