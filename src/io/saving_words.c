/* Savings in words. Rounding is that of io/compare_words.h. */
#include "io/saving_words.h"

#include "io/compare_words.h"

#include "core/units.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#define NO_BREAK "\xC2\xA0"

/* In the order of pb_fuel. */
static const char *const fuel_names[] = {
    N_("gas, therms"),     N_("gas, 100 ft³"),     N_("gas, m³"),
    N_("oil, gallons"),    N_("oil, liters"),      N_("propane, gallons"),
    N_("propane, liters"), N_("electricity, kWh"), N_("firewood, cords"),
};
static const char *const fuel_units[] = {
    NC_("unit", "therms"), NC_("unit", "ccf"),    NC_("unit", "m³"),
    NC_("unit", "gal"),    NC_("unit", "liters"), NC_("unit", "gal"),
    NC_("unit", "liters"), NC_("unit", "kWh"),    NC_("unit", "cords"),
};
/* One of them, as a price has it. */
static const char *const fuel_each[] = {
    NC_("one unit", "therm"), NC_("one unit", "ccf"),   NC_("one unit", "m³"),
    NC_("one unit", "gal"),   NC_("one unit", "liter"), NC_("one unit", "gal"),
    NC_("one unit", "liter"), NC_("one unit", "kWh"),   NC_("one unit", "cord"),
};

const char *io_fuel_name(int fuel, int language)
{
    return words_in(language, fuel_names[fuel]);
}

const char *io_fuel_unit(const PbHouse *house, int language)
{
    assert(house != NULL);
    return words_in(language,
                    house->bill.fuel > 0 ? fuel_units[house->bill.fuel - 1] : NC_("unit", "kWh"));
}

const char *io_fuel_each(const PbHouse *house, int language)
{
    assert(house != NULL);
    return words_in(language, house->bill.fuel > 0 ? fuel_each[house->bill.fuel - 1]
                                                   : NC_("one unit", "kWh"));
}

int io_saving_is_held(const PbCompareSaving *s)
{
    assert(s != NULL);
    int has_draws = s->draws >= PB_COMPARE_ENOUGH_DRAWS;
    return s->is_ready && (s->is_over_bill || (has_draws && s->kept < PB_COMPARE_ENOUGH_DRAWS));
}

/* Whole years; a tenth of a year is not known of a payback. */
static void years(PbHeatRange r, int draws, IoReaderTaste taste, char *out, size_t size)
{
    int has_range = draws >= PB_COMPARE_ENOUGH_DRAWS;
    const char *unit = words_in(taste.language, "years"), *about = has_range ? "" : "≈" NO_BREAK;
    char first[24], last[24], both[80];
    double low = floor((has_range ? r.low : r.mid) + 0.5), high = has_range ? r.high : r.mid;
    if (!(r.mid > 0.0)) {
        snprintf(out, size, "-");
    } else if (!(low < 200.0)) {
        snprintf(out, size, "%s", words_in(taste.language, "never"));
    } else if (!(high < 200.0)) {
        snprintf(out, size, "%.0f" NO_BREAK "%s", low, words_in(taste.language, "years or more"));
    } else if (floor(high + 0.5) > low) {
        snprintf(first, sizeof first, "%.0f", low);
        snprintf(last, sizeof last, "%.0f", floor(high + 0.5));
        snprintf(both, sizeof both, words_in(taste.language, "%s to %s"), first, last);
        snprintf(out, size, "%s" NO_BREAK "%s", both, unit);
    } else {
        snprintf(out, size, "%s%.0f" NO_BREAK "%s", about, low, unit);
    }
}

void io_saving_shown(IoSavingFigure figure, const PbCompareSaving *s, const PbHouse *h,
                     IoReaderTaste taste, char *out, size_t size)
{
    assert(s != NULL && h != NULL);
    assert(out != NULL && size > 0);
    const char *unit = io_fuel_unit(h, taste.language);
    int is_of_walls = figure == IO_SAVING_WALLS; /* of a share beyond the whole nothing is told */
    int kept = io_saving_is_held(s) ? 0 : s->kept;
    out[0] = '\0';
    if (!s->is_ready) {
        return;
    }
    if (io_saving_is_held(s) && !is_of_walls) {
        snprintf(out, size, "%s", words_in(taste.language, "held back"));
        return;
    }
    switch (figure) {
    case IO_SAVING_FUEL:
        io_compare_shown(IO_FIGURE_MONEY, s->units, kept, unit, taste, out, size);
        break;
    case IO_SAVING_BY_CONDUCTION:
        io_compare_shown(IO_FIGURE_MONEY, s->solid_units, kept, unit, taste, out, size);
        break;
    case IO_SAVING_BY_AIR:
        io_compare_shown(IO_FIGURE_MONEY, s->air_units, kept, unit, taste, out, size);
        break;
    case IO_SAVING_COOLING:
        io_compare_shown(IO_FIGURE_KWH, s->cool_kwh, kept, NULL, taste, out, size);
        break;
    case IO_SAVING_MONEY:
        io_compare_shown(IO_FIGURE_MONEY, s->money, kept, h->currency, taste, out, size);
        break;
    case IO_SAVING_PAYBACK:
        years(s->payback_years, kept, taste, out, size);
        break;
    case IO_SAVING_WALLS:
        io_compare_shown(IO_FIGURE_MONEY, s->wall_units, kept, unit, taste, out, size);
        break;
    case IO_SAVING_WALL_SHARE:
        io_compare_shown(IO_FIGURE_SHARE, s->wall_share, kept, NULL, taste, out, size);
        break;
    }
}

static void held_sentence(const PbCompareSaving *s, const PbHouse *h, IoReaderTaste taste,
                          char *out, size_t size)
{
    char walls[64], bill[64];
    io_saving_shown(IO_SAVING_WALLS, s, h, taste, walls, sizeof walls);
    io_compare_figure(IO_FIGURE_MONEY, s->bill_units, io_fuel_unit(h, taste.language), taste, bill,
                      sizeof bill);
    if (s->is_air_over) {
        snprintf(out, size,
                 words_in(taste.language,
                          "The walls and the air that leaks through the house would burn more than "
                          "the bill: %s, and the bill has %s for heating. Check area, layers, "
                          "degree days, air and the bill; savings are held back."),
                 walls, bill);
        return;
    }
    if (s->is_over_bill) {
        snprintf(
            out, size,
            words_in(taste.language,
                     "The walls alone would burn more than the bill: %s, and the bill has %s for "
                     "heating. Check area, layers, degree days and the bill; savings are held "
                     "back."),
            walls, bill);
        return;
    }
    int over = s->draws - s->kept;
    if (pb_house_has_air(h)) {
        snprintf(out, size,
                 words_in(taste.language,
                          "In %d of %d trials the walls and the air that leaks through the house "
                          "would burn more than the bill. Check area, layers, degree days, air and "
                          "the bill; savings are held back."),
                 over, s->draws);
        return;
    }
    snprintf(
        out, size,
        words_in(taste.language,
                 "In %d of %d trials the walls alone would burn more than the bill. Check area, "
                 "layers, degree days and the bill; savings are held back."),
        over, s->draws);
}

static size_t append(char *out, size_t used, size_t size, const char *text)
{
    int n = used < size ? snprintf(out + used, size - used, "%s", text) : 0;
    return used + (n > 0 ? (size_t)n : 0);
}

/* In how many trials it saves at all, and how much of the middle is there in 9 of 10. */
static size_t append_known(const PbCompareSaving *s, IoReaderTaste taste, char *out, size_t used,
                           size_t size)
{
    char share[24], text[200];
    if (s->heat_kwh.low > 0.0) {
        io_compare_figure(IO_FIGURE_SHARE, s->heat_kwh.low / s->heat_kwh.mid, NULL, taste, share,
                          sizeof share);
        snprintf(text, sizeof text,
                 words_in(taste.language,
                          "; it saves something in %d of %d trials, in 9 of 10 at least %s of the "
                          "figure by usual values."),
                 s->better, s->kept, share);
    } else {
        snprintf(text, sizeof text,
                 words_in(taste.language, "; it saves something in %d of %d trials."), s->better,
                 s->kept);
    }
    return append(out, used, size, text);
}

static void saved_sentence(const PbCompareSaving *s, const PbHouse *h, IoReaderTaste taste,
                           char *out, size_t size)
{
    char fuel[64], money[64], text[300], back[64];
    io_saving_shown(IO_SAVING_FUEL, s, h, taste, fuel, sizeof fuel);
    io_saving_shown(IO_SAVING_MONEY, s, h, taste, money, sizeof money);
    if (h->cooling.price_kwh.mid > 0.0) { /* the money is of both */
        io_saving_shown(IO_SAVING_COOLING, s, h, taste, back, sizeof back);
        snprintf(text, sizeof text,
                 words_in(taste.language,
                          "Saves %s a year and %s of cooling, %s, against the wall as it is"),
                 fuel, back, money);
    } else {
        snprintf(text, sizeof text,
                 words_in(taste.language, "Saves %s a year, %s, against the wall as it is"), fuel,
                 money);
    }
    size_t used = append(out, 0, size, text);
    if (pb_house_has_air(h)) {
        io_saving_shown(IO_SAVING_BY_CONDUCTION, s, h, taste, fuel, sizeof fuel);
        io_saving_shown(IO_SAVING_BY_AIR, s, h, taste, back, sizeof back);
        snprintf(text, sizeof text, words_in(taste.language, " (by conduction %s, by air %s)"),
                 fuel, back);
        used = append(out, used, size, text);
    }
    if (s->draws < PB_COMPARE_ENOUGH_DRAWS) {
        snprintf(text, sizeof text, words_in(taste.language, "; no range yet: %d of %d trials."),
                 s->draws, PB_COMPARE_ENOUGH_DRAWS);
        used = append(out, used, size, text);
    } else {
        used = append_known(s, taste, out, used, size);
    }
    if (h->job.price > 0.0) {
        int is_late = s->payback_years.low > h->job.life_years;
        io_saving_shown(IO_SAVING_PAYBACK, s, h, taste, back, sizeof back);
        if (is_late) {
            snprintf(text, sizeof text,
                     words_in(taste.language,
                              " Not paid back within the %.0f years that it is counted to last."),
                     h->job.life_years);
        } else {
            snprintf(text, sizeof text,
                     words_in(taste.language,
                              " Paid back in %s, without interest or a change of price."),
                     back);
        }
        (void)append(out, used, size, text);
    }
}

void io_saving_sentence(PbCompareFill fill, const PbCompareSaving *s, const PbHouse *h,
                        IoReaderTaste taste, char *out, size_t size)
{
    assert(s != NULL && h != NULL);
    assert(out != NULL && size > 0);
    char walls[64], share[64];
    out[0] = '\0';
    if (!s->is_ready) {
        return;
    }
    if (io_saving_is_held(s)) {
        held_sentence(s, h, taste, out, size);
    } else if (fill == PB_COMPARE_EMPTY) {
        io_saving_shown(IO_SAVING_WALLS, s, h, taste, walls, sizeof walls);
        io_saving_shown(IO_SAVING_WALL_SHARE, s, h, taste, share, sizeof share);
        snprintf(out, size,
                 words_in(taste.language,
                          "The walls as they are take %s a year, %s of the house's heat."),
                 walls, share);
    } else {
        saved_sentence(s, h, taste, out, size);
    }
}
