/* Language, units and decimal mark of the person; figures with their units: see io/taste.h. */
#include "io/taste.h"

#include "core/units.h"
#include "os/place.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

typedef struct UnitRow {
    const char *si, *us;
    double si_scale, us_scale;
    int si_decimals, us_decimals;
} UnitRow;

static const UnitRow units[IO_UNIT_LIMIT] = {
    [IO_UNIT_LENGTH] = {NC_("unit", "m"), NC_("unit", "ft"), 1.0, 1.0 / PB_M_PER_FT, 2, 1},
    [IO_UNIT_SMALL] = {NC_("unit", "mm"), NC_("unit", "in."), 1e3, 1.0 / PB_M_PER_IN, 1, 2},
    [IO_UNIT_DENSITY] = {NC_("unit", "kg/m³"), NC_("unit", "lb/ft³"), 1.0,
                         1.0 / PB_KG_M3_PER_LB_FT3, 0, 1},
    [IO_UNIT_MASS] = {NC_("unit", "kg"), NC_("unit", "lb"), 1.0, 1.0 / PB_KG_PER_LB, 2, 1},
    [IO_UNIT_FEED] = {NC_("unit", "kg/min"), NC_("unit", "lb/min"), 60.0, 60.0 / PB_KG_PER_LB, 2,
                      1},
    [IO_UNIT_PRESSURE] = {NC_("unit", "kPa"), NC_("unit", "in. w.c."), 1e-3, 1.0 / PB_PA_PER_IN_WC,
                          1, 0},
    [IO_UNIT_LOAD] = {NC_("unit", "kPa"), NC_("unit", "psf"), 1e-3, 144.0 / PB_PA_PER_PSI, 1, 0},
    [IO_UNIT_FLOW] = {NC_("unit", "L/s"), NC_("unit", "cfm"), 1e3, 1.0 / PB_M3_S_PER_CFM, 1, 0},
    [IO_UNIT_AREA] = {NC_("unit", "m²"), NC_("unit", "ft²"), 1.0, 1.0 / (PB_M_PER_FT * PB_M_PER_FT),
                      2, 1},
    [IO_UNIT_SMALL_AREA] = {NC_("unit", "cm²"), NC_("unit", "in.²"), 1e4,
                            1.0 / (PB_M_PER_IN * PB_M_PER_IN), 0, 0},
};

/* "es_MX.UTF-8", "es-MX": the two letters of the country; nonzero when `list`, "ES AR", has them.
 */
static int is_country_of(const char *locale, const char *list)
{
    const char *country = locale != NULL ? strpbrk(locale, "_-") : NULL;
    if (country == NULL || country[1] == '\0' || country[2] == '\0' ||
        strchr(".@", country[3]) == NULL) {
        return 0;
    }
    for (const char *at = list; *at != '\0'; at += at[2] == ' ' ? 3 : 2) {
        if (strncmp(country + 1, at, 2) == 0) {
            return 1;
        }
    }
    return 0;
}

int io_taste_comma(int language, const char *locale)
{
    const char *list = words_languages[language].comma;
    return strcmp(list, "*") == 0 || is_country_of(locale, list);
}

IoReaderTaste io_taste_here(int language)
{
    return (IoReaderTaste){language, is_country_of(os_habit(OS_MEASUREMENT), "US LR MM"),
                           io_taste_comma(language, os_habit(OS_NUMBERS))};
}

int io_taste_language(IoReaderTaste *reader, const char *name)
{
    assert(reader != NULL && name != NULL);
    int language = words_language_of(name);
    if (language >= 0) {
        reader->language = language;
        reader->is_comma =
            io_taste_comma(language, strpbrk(name, "_-") != NULL ? name : os_habit(OS_NUMBERS));
    }
    return language >= 0;
}

const char *io_unit_name(IoUnit unit, IoReaderTaste reader)
{
    return words_in(reader.language, reader.is_us ? units[unit].us : units[unit].si);
}

double io_unit_value(IoUnit unit, double si, IoReaderTaste reader)
{
    return si * (reader.is_us ? units[unit].us_scale : units[unit].si_scale);
}

void io_unit_figure(IoUnit unit, double si, IoReaderTaste reader, char *out, size_t size)
{
    assert(out != NULL && size > 0);
    io_figure(io_unit_value(unit, si, reader),
              reader.is_us ? units[unit].us_decimals : units[unit].si_decimals,
              io_unit_name(unit, reader), reader, out, size);
}

void io_decimal_mark(char *number, IoReaderTaste reader)
{
    assert(number != NULL);
    char *point = strchr(number, '.');
    if (reader.is_comma && point != NULL) {
        *point = ',';
    }
}

int io_is_close(const char *unit, IoReaderTaste reader)
{
    return unit[0] == '%' && strcmp(words_in(reader.language, N_("{n}%")), "{n}%") == 0;
}

void io_figure(double value, int decimals, const char *unit, IoReaderTaste reader, char *out,
               size_t size)
{
    assert(out != NULL && size > 0);
    assert(decimals >= 0);
    double least = 0.5 * pow(10.0, -decimals);
    int n = snprintf(out, size, "%.*f", decimals, fabs(value) < least ? 0.0 : value);
    io_decimal_mark(out, reader);
    if (n > 0 && (size_t)n < size && unit[0] != '\0') {
        snprintf(out + n, size - (size_t)n, "%s%s", io_is_close(unit, reader) ? "" : " ", unit);
    }
}

/* SI figures are those a crew would use, not the US ones to the last digit. */
static const struct {
    const char *name, *text[2]; /* SI, US */
} named[] = {
    {"{step}", {NC_("unit", "30 cm"), NC_("unit", "a foot")}},
    {"{wide}", {NC_("unit", "60 cm"), NC_("unit", "24 inches")}},
    {"{weak}", {NC_("unit", "10 kPa"), NC_("unit", "40 in. w.c.")}},
    {"{thin}", {NC_("unit", "less than 1 kPa"), NC_("unit", "a few inches w.c.")}},
    {"{square}", {NC_("unit", "10 cm"), NC_("unit", "4 in.")}},
    {"{line}", {NC_("unit", "1 mm"), NC_("unit", "0.04 in.")}},
};

void io_named_figures(const char *text, IoReaderTaste reader, char *out, size_t size)
{
    assert(text != NULL);
    assert(out != NULL && size > 0);
    size_t used = 0;
    while (*text != '\0' && used + 1 < size) {
        size_t i = 0, count = sizeof named / sizeof named[0];
        while (i < count && strncmp(text, named[i].name, strlen(named[i].name)) != 0) {
            i++;
        }
        if (i == count) {
            out[used++] = *text++;
            continue;
        }
        int n = snprintf(out + used, size - used, "%s",
                         words_in(reader.language, named[i].text[reader.is_us != 0]));
        used += n > 0 ? (size_t)n : 0;
        used = used < size ? used : size - 1;
        text += strlen(named[i].name);
    }
    out[used] = '\0';
}

void io_full_stop(char *sentence, size_t size)
{
    assert(sentence != NULL && size > 0);
    size_t n = strlen(sentence);
    if (n > 0 && n + 1 < size && sentence[n - 1] != '.') {
        memcpy(sentence + n, ".", 2);
    }
}
