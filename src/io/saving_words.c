/* Savings in words. Rounding is that of io/compare_words.h. */
#include "io/saving_words.h"

#include "io/compare_words.h"

#include "core/units.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define NO_BREAK "\xC2\xA0"

/* In the order of pb_fuel. */
static const char *const fuel_names[][2] = {
    {"gas, therms", "gas, therms"},
    {"gas, 100 ft³", "gas, 100 pies³"},
    {"gas, m³", "gas, m³"},
    {"oil, gallons", "aceite de calefacción, galones"},
    {"oil, liters", "aceite de calefacción, litros"},
    {"propane, gallons", "propano, galones"},
    {"propane, liters", "propano, litros"},
    {"electricity, kWh", "electricidad, kWh"},
    {"firewood, cords", "leña, cuerdas"},
};
static const char *const fuel_units[][2] = {
    {"therms", "therms"}, {"ccf", "ccf"},       {"m³", "m³"},
    {"gal", "galones"},   {"liters", "litros"}, {"gal", "galones"},
    {"liters", "litros"}, {"kWh", "kWh"},       {"cords", "cuerdas"},
};

const char *io_fuel_name(int fuel, IoLanguage language)
{
    return fuel_names[fuel][language];
}

const char *io_fuel_unit(const PbHouse *house, IoLanguage language)
{
    return house->bill.fuel > 0 ? fuel_units[house->bill.fuel - 1][language] : "kWh";
}

int io_saving_is_held(const PbCompareSaving *s)
{
    int has_draws = s->draws >= PB_COMPARE_ENOUGH_DRAWS;
    return s->is_ready && (s->is_over_bill || (has_draws && s->kept < PB_COMPARE_ENOUGH_DRAWS));
}

/* Whole years; a tenth of a year is not known of a payback. */
static void years(PbHeatRange r, int draws, IoReaderTaste taste, char *out, size_t size)
{
    int es = taste.language == IO_SPANISH, has_range = draws >= PB_COMPARE_ENOUGH_DRAWS;
    const char *unit = es ? "años" : "years", *about = has_range ? "" : "≈" NO_BREAK;
    double low = floor((has_range ? r.low : r.mid) + 0.5), high = has_range ? r.high : r.mid;
    if (!(r.mid > 0.0)) {
        snprintf(out, size, "-");
    } else if (!(low < 200.0)) {
        snprintf(out, size, "%s", es ? "nunca" : "never");
    } else if (!(high < 200.0)) {
        snprintf(out, size, es ? "%.0f" NO_BREAK "años o más" : "%.0f" NO_BREAK "years or more",
                 low);
    } else if (floor(high + 0.5) > low) {
        snprintf(out, size, "%.0f %s %.0f" NO_BREAK "%s", low, es ? "a" : "to", floor(high + 0.5),
                 unit);
    } else {
        snprintf(out, size, "%s%.0f" NO_BREAK "%s", about, low, unit);
    }
}

void io_saving_shown(IoSavingFigure figure, const PbCompareSaving *s, const PbHouse *h,
                     IoReaderTaste taste, char *out, size_t size)
{
    const char *unit = io_fuel_unit(h, taste.language);
    int is_of_walls = figure == IO_SAVING_WALLS; /* of a share beyond the whole nothing is told */
    int kept = io_saving_is_held(s) ? 0 : s->kept;
    out[0] = '\0';
    if (!s->is_ready) {
        return;
    }
    if (io_saving_is_held(s) && !is_of_walls) {
        snprintf(out, size, "%s", taste.language == IO_SPANISH ? "retenido" : "held back");
        return;
    }
    switch (figure) {
    case IO_SAVING_FUEL:
        io_compare_shown(IO_FIGURE_MONEY, s->units, kept, unit, taste, out, size);
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
    int es = taste.language == IO_SPANISH;
    io_saving_shown(IO_SAVING_WALLS, s, h, taste, walls, sizeof walls);
    io_compare_figure(IO_FIGURE_MONEY, s->bill_units, io_fuel_unit(h, taste.language), taste, bill,
                      sizeof bill);
    if (s->is_over_bill) {
        snprintf(out, size,
                 es ? "Solo las paredes gastarían más que el recibo: %s, y el recibo tiene %s para "
                      "calentar. Revise superficie, capas, grados día y recibo; el ahorro se "
                      "retiene."
                    : "The walls alone would burn more than the bill: %s, and the bill has %s for "
                      "heating. Check area, layers, degree days and the bill; savings are held "
                      "back.",
                 walls, bill);
        return;
    }
    snprintf(out, size,
             es ? "En %d de %d corridas solo las paredes gastarían más que el recibo. Revise "
                  "superficie, capas, grados día y recibo; el ahorro se retiene."
                : "In %d of %d trials the walls alone would burn more than the bill. Check area, "
                  "layers, degree days and the bill; savings are held back.",
             s->draws - s->kept, s->draws);
}

static size_t append(char *out, size_t used, size_t size, const char *text)
{
    int n = used < size ? snprintf(out + used, size - used, "%s", text) : 0;
    return used + (n > 0 ? (size_t)n : 0);
}

static void saved_sentence(const PbCompareSaving *s, const PbHouse *h, IoReaderTaste taste,
                           char *out, size_t size)
{
    char fuel[64], money[64], text[200], back[64];
    int es = taste.language == IO_SPANISH;
    io_saving_shown(IO_SAVING_FUEL, s, h, taste, fuel, sizeof fuel);
    io_saving_shown(IO_SAVING_MONEY, s, h, taste, money, sizeof money);
    snprintf(text, sizeof text,
             es ? "Ahorra %s al año, %s, frente a la pared como está"
                : "Saves %s a year, %s, against the wall as it is",
             fuel, money);
    size_t used = append(out, 0, size, text);
    if (h->cooling.price_kwh.mid > 0.0) {
        io_saving_shown(IO_SAVING_COOLING, s, h, taste, back, sizeof back);
        snprintf(text, sizeof text, es ? ", de ello %s de enfriamiento" : ", with %s of cooling",
                 back);
        used = append(out, used, size, text);
    }
    if (s->draws < PB_COMPARE_ENOUGH_DRAWS) {
        snprintf(text, sizeof text,
                 es ? "; sin margen todavía: %d de %d corridas."
                    : "; no range yet: %d of %d trials.",
                 s->draws, PB_COMPARE_ENOUGH_DRAWS);
    } else {
        snprintf(text, sizeof text,
                 es ? "; ahorra algo en %d de %d corridas."
                    : "; it saves something in %d of %d trials.",
                 s->better, s->kept);
    }
    used = append(out, used, size, text);
    if (h->job.price > 0.0) {
        int is_late = s->payback_years.low > h->job.life_years;
        io_saving_shown(IO_SAVING_PAYBACK, s, h, taste, back, sizeof back);
        if (is_late) {
            snprintf(text, sizeof text,
                     es ? " No se paga en los %.0f años que se cuenta que dure."
                        : " Not paid back within the %.0f years that it is counted to last.",
                     h->job.life_years);
        } else {
            snprintf(text, sizeof text,
                     es ? " Se paga en %s, sin intereses ni cambio de precio."
                        : " Paid back in %s, without interest or a change of price.",
                     back);
        }
        (void)append(out, used, size, text);
    }
}

void io_saving_sentence(PbCompareFill fill, const PbCompareSaving *s, const PbHouse *h,
                        IoReaderTaste taste, char *out, size_t size)
{
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
                 taste.language == IO_SPANISH
                     ? "Las paredes como están se llevan %s al año, %s del calor de la casa."
                     : "The walls as they are take %s a year, %s of the house's heat.",
                 walls, share);
    } else {
        saved_sentence(s, h, taste, out, size);
    }
}
