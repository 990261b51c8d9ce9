/* The shipped climates by name and in words. */
#include "io/climate_words.h"

#include "words/words.h"

#include <assert.h>
#include <string.h>

static const IoClimateRow rows[IO_CLIMATES] = {
    {"normal", NC_("climate", "normal"), 1},
    {"hot-humid", N_("hot and humid"), 1},
    {"damp", N_("damp"), 1},
    {"cold", N_("cold winters"), 0},
    {"steady-50", N_("50% all year"), 0},
    {"steady-80", N_("80% all year"), 1},
};

const IoClimateRow *io_climate_row(int row)
{
    assert(row >= 0 && row < IO_CLIMATES);
    return &rows[row];
}

int io_climate_row_of(const char *name)
{
    assert(name != NULL);
    int row = IO_CLIMATES - 1;
    while (row >= 0 && strcmp(rows[row].name, name) != 0) {
        row--;
    }
    return row;
}

const char *io_climate_word(const char *name, int language)
{
    int row = io_climate_row_of(name);
    return row < 0 ? name : words_in(language, rows[row].word);
}
