/* Figures of a comparison with their units: every rounding that a person sees is here. */
#include "io/compare_words.h"

#include "core/units.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#define NO_BREAK "\xC2\xA0"

/* How a figure is written: value times scale, so many decimals, and its unit. */
typedef struct Style {
    double scale, offset;
    int decimals;
    const char *unit;
    const char *before; /* "R " of the US */
    double step;        /* shown in whole steps of this; 0 = as it is */
} Style;

/* Heat and money deserve two figures of their upper end: the inputs are no better known. */
static Style two_figures(double largest, const char *unit)
{
    double step = 0.01;
    int decimals = 2;
    while (largest >= 99.5 * step) {
        step *= 10.0;
        decimals = decimals > 0 ? decimals - 1 : 0;
    }
    return (Style){1.0, 0.0, decimals, unit, NULL, step};
}

static Style unit_style(IoUnit unit, IoReaderTaste taste, int decimals)
{
    return (Style){.scale = io_unit_value(unit, 1.0, taste),
                   .decimals = decimals,
                   .unit = io_unit_name(unit, taste)};
}

static Style length_style(double largest_m, IoReaderTaste taste)
{
    if (taste.is_us) {
        return unit_style(IO_UNIT_SMALL, taste, largest_m / PB_M_PER_IN < 10.0 ? 1 : 0);
    }
    if (largest_m < 0.1) {
        return unit_style(IO_UNIT_SMALL, taste, largest_m < 0.00995 ? 1 : 0);
    }
    return (Style){100.0, 0.0, 0, words_in(taste.language, NC_("unit", "cm")), NULL, 0.0};
}

static Style style_of(IoCompareFigure figure, double largest, const char *currency,
                      IoReaderTaste taste)
{
    int us = taste.is_us;
    switch (figure) {
    case IO_FIGURE_R:
        return us ? (Style){1.0 / PB_M2K_W_PER_R, 0.0, 1, "", "R ", 0.0}
                  : (Style){1.0, 0.0, 2, words_in(taste.language, NC_("unit", "m²K/W")), NULL, 0.0};
    case IO_FIGURE_R_LAYER:
        return us ? (Style){1.0 / PB_M2K_W_PER_R, 0.0, 2, "", "R ", 0.0}
                  : (Style){1.0, 0.0, 3, words_in(taste.language, NC_("unit", "m²K/W")), NULL, 0.0};
    case IO_FIGURE_RATIO:
        return (Style){1.0,  0.0, largest >= 9.95 ? 0 : 2, words_in(taste.language, "times"),
                       NULL, 0.0};
    case IO_FIGURE_KWH:
        return two_figures(largest, words_in(taste.language, NC_("unit", "kWh")));
    case IO_FIGURE_MONEY:
        return two_figures(largest, currency != NULL ? currency : "");
    case IO_FIGURE_LENGTH:
        return length_style(largest, taste);
    case IO_FIGURE_SHARE:
        return (Style){100.0, 0.0, largest < 0.0995 ? 1 : 0, "%", NULL, 0.0};
    case IO_FIGURE_DENSITY:
        return unit_style(IO_UNIT_DENSITY, taste, us ? 1 : 0);
    case IO_FIGURE_AREA:
        return largest < 0.1 ? unit_style(IO_UNIT_SMALL_AREA, taste, 0)
                             : unit_style(IO_UNIT_AREA, taste, us ? 1 : 2);
    case IO_FIGURE_CELSIUS:
        return us ? (Style){1.8, 32.0, 1, words_in(taste.language, NC_("unit", "°F")), NULL, 0.0}
                  : (Style){1.0, 0.0, 1, words_in(taste.language, NC_("unit", "°C")), NULL, 0.0};
    }
    return (Style){1.0, 0.0, 2, "", NULL, 0.0};
}

static void number(const Style *s, double value, IoReaderTaste taste, char *out, size_t size)
{
    double shown = value * s->scale + s->offset;
    shown = s->step > 0.0 ? s->step * floor(shown / s->step + 0.5) : shown;
    io_figure(shown, s->decimals, "", taste, out, size);
}

void io_compare_range(IoCompareFigure figure, PbHeatRange range, const char *currency,
                      IoReaderTaste taste, char *out, size_t size)
{
    assert(out != NULL && size > 0);
    char low[40], high[32], both[80];
    Style s = style_of(figure, fmax(fabs(range.low), fabs(range.high)), currency, taste);
    number(&s, range.low, taste, low, sizeof low);
    number(&s, range.high, taste, high, sizeof high);
    int is_close = s.unit[0] == '\0' || io_is_close(s.unit, taste);
    /* no line breaks between a number and its unit */
    const char *gap = is_close ? "" : NO_BREAK, *before = s.before != NULL ? s.before : "";
    double least_m = taste.is_us ? 0.05 * PB_M_PER_IN : 0.001;
    if (figure == IO_FIGURE_LENGTH && fmax(fabs(range.low), fabs(range.high)) < least_m) {
        /* "0.0 mm" would say that nothing opens, which no model of a wall knows: wood that swells
         * and fibres that stand up, both left out, move more than this */
        io_figure(taste.is_us ? 0.05 : 1.0, taste.is_us ? 2 : 0, "", taste, high, sizeof high);
        snprintf(low, sizeof low, words_in(taste.language, "under %s"), high);
        snprintf(out, size, "%s%s%s", low, gap, s.unit);
        return;
    }
    if (strcmp(low, high) == 0) {
        snprintf(out, size, "%s%s%s%s", before, low, gap, s.unit);
    } else {
        snprintf(both, sizeof both, words_in(taste.language, "%s to %s"), low, high);
        snprintf(out, size, "%s%s%s%s", before, both, gap, s.unit);
    }
}

void io_compare_figure(IoCompareFigure figure, double value, const char *currency,
                       IoReaderTaste taste, char *out, size_t size)
{
    assert(out != NULL && size > 0);
    io_compare_range(figure, (PbHeatRange){value, value, value}, currency, taste, out, size);
}

void io_compare_shown(IoCompareFigure figure, PbHeatRange range, int draws, const char *currency,
                      IoReaderTaste taste, char *out, size_t size)
{
    assert(out != NULL && size > 0);
    char words[96];
    if (draws >= PB_COMPARE_ENOUGH_DRAWS) {
        io_compare_range(figure, range, currency, taste, out, size);
        return;
    }
    io_compare_figure(figure, range.mid, currency, taste, words, sizeof words);
    snprintf(out, size, "≈" NO_BREAK "%s", words);
}
