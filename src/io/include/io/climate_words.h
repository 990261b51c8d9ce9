/**
 * @file climate_words.h
 * @brief The climates that are shipped: one list for the rooms, the reports and the commands.
 *
 * A name is that of a file in assets/climates, and what a house or an exercise calls its climate.
 */
#ifndef IO_CLIMATE_WORDS_H
#define IO_CLIMATE_WORDS_H

enum { IO_CLIMATES = 6 };

/** The names in the order of the list, as the help of a command says them. */
#define IO_CLIMATE_NAMES "normal, hot-humid, damp, cold, steady-50, steady-80"

typedef struct IoClimateRow {
    const char *name;
    const char *word; /**< in the catalogue: io_climate_word */
    int is_of_years;  /**< Years later offers it: humidities that are far enough apart */
} IoClimateRow;

/** @brief Row 0 .. IO_CLIMATES - 1. */
const IoClimateRow *io_climate_row(int row);
/** @brief Row of a name; negative = none of the shipped ones. */
int io_climate_row_of(const char *name);
/** @brief Short name in the language; a climate that is not shipped has the name of its file. */
const char *io_climate_word(const char *name, int language);

#endif
