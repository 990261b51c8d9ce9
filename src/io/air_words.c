/* Air through the walls in words. Rounding is that of io/compare_words.h. */
#include "io/air_words.h"

#include "io/compare_words.h"

#include "core/units.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

#define NO_BREAK "\xC2\xA0"

static const double s_per_h = 3600.0, l_per_m3 = 1000.0;

const char *io_built_name(PbBuilt built, int language)
{
    static const char *const names[PB_BUILT_KINDS] = {N_("not known"), N_("before 1940"),
                                                      N_("1940 to 1969"), N_("1970 to 1989"),
                                                      N_("1990 or later")};
    return words_in(language, names[built]);
}

/* A figure of which less than `least` means nothing: "up to 3 cfm", "under 1 cfm"; whole numbers.
 */
static void at_least(PbHeatRange r, int draws, double least, const char *unit, IoReaderTaste taste,
                     char *out, size_t size)
{
    char low[24], high[24], both[64];
    int has_range = draws >= PB_COMPARE_ENOUGH_DRAWS;
    double most = has_range ? r.high : r.mid, first = has_range ? r.low : r.mid;
    if (first >= 10.0) {
        io_compare_shown(IO_FIGURE_MONEY, r, draws, unit, taste, out, size);
        return;
    }
    snprintf(low, sizeof low, "%.0f", most < least ? least : first);
    io_compare_figure(IO_FIGURE_MONEY, most, "", taste, high, sizeof high);
    if (most < 10.0) {
        snprintf(high, sizeof high, "%.0f", most);
    }
    if (most < least) {
        snprintf(both, sizeof both, words_in(taste.language, "under %s"), low);
    } else if (has_range && first < least) {
        snprintf(both, sizeof both, words_in(taste.language, "up to %s"), high);
    } else if (has_range && strcmp(low, high) != 0) {
        snprintf(both, sizeof both, words_in(taste.language, "%s to %s"), low, high);
    } else {
        snprintf(both, sizeof both, "%s%s", has_range ? "" : "≈" NO_BREAK, high);
    }
    snprintf(out, size, "%s" NO_BREAK "%s", both, unit);
}

static void flow(PbHeatRange r, int draws, int is_test, IoReaderTaste taste, char *out, size_t size)
{
    const char *unit =
        words_in(taste.language, taste.is_us ? is_test ? NC_("unit", "cfm50") : NC_("unit", "cfm")
                                 : is_test ? NC_("unit", "m³/h")
                                             : NC_("unit", "L/s"));
    double f = taste.is_us ? 1.0 / PB_M3_S_PER_CFM : is_test ? s_per_h : l_per_m3;
    r = (PbHeatRange){r.low * f, r.mid * f, r.high * f};
    at_least(r, draws, is_test ? 10.0 : 1.0, unit, taste, out, size);
}

void io_air_shown(IoAirFigure figure, const PbCompareAir *a, IoReaderTaste taste, char *out,
                  size_t size)
{
    assert(a != NULL);
    assert(out != NULL && size > 0);
    if (!a->is_known || !a->is_ready) {
        snprintf(out, size, "-");
        return;
    }
    switch (figure) {
    case IO_AIR_FLOW:
        flow(a->walls_m3_s, a->draws, 0, taste, out, size);
        break;
    case IO_AIR_FLOW_50:
        flow(a->walls_50_m3_s, a->draws, 1, taste, out, size);
        break;
    case IO_AIR_HOUSE_50:
        flow(a->house_50_m3_s, a->draws, 1, taste, out, size);
        break;
    case IO_AIR_SHARE:
        io_compare_shown(IO_FIGURE_SHARE, a->share, a->draws, NULL, taste, out, size);
        break;
    case IO_AIR_CUT:
        io_compare_shown(IO_FIGURE_SHARE, a->cut, a->draws, NULL, taste, out, size);
        break;
    case IO_AIR_HEAT:
        at_least(a->heat_kwh, a->draws, 10.0, words_in(taste.language, NC_("unit", "kWh")), taste,
                 out, size);
        break;
    }
}

const char *io_air_note(int language)
{
    return words_in(
        language, "A packed wall chokes the leaks that go through its bays. Sills, plates, floors, "
                  "attic, windows and doors leak as before; a blower door before and after shows "
                  "what was gained.");
}

static void as_it_is(const PbCompareAir *a, IoReaderTaste taste, char *out, size_t size)
{
    char walls[64], share[64], heat[64], house[64];
    io_air_shown(IO_AIR_FLOW, a, taste, walls, sizeof walls);
    io_air_shown(IO_AIR_SHARE, a, taste, share, sizeof share);
    io_air_shown(IO_AIR_HEAT, a, taste, heat, sizeof heat);
    io_air_shown(IO_AIR_HOUSE_50, a, taste, house, sizeof house);
    int n = snprintf(out, size,
                     words_in(taste.language,
                              "In winter %s of air leaks through the bays of the walls, %s of the "
                              "house's leaks, and carries %s of heat a year out of the rooms."),
                     walls, share, heat);
    size_t used = n > 0 && (size_t)n < size ? (size_t)n : size - 1;
    if (a->is_measured) {
        snprintf(out + used, size - used,
                 words_in(taste.language, " The house leaks %s by its blower door."), house);
    } else {
        snprintf(out + used, size - used,
                 words_in(taste.language,
                          " The house is taken to leak %s in a blower-door test, by "
                          "its age and size; nobody measured it."),
                 house);
    }
}

void io_air_sentence(PbCompareFill fill, const PbCompareAir *a, IoReaderTaste taste, char *out,
                     size_t size)
{
    assert(a != NULL);
    assert(out != NULL && size > 0);
    char walls[64], cut[64], heat[64];
    out[0] = '\0';
    if (!a->is_known) {
        if (fill == PB_COMPARE_EMPTY) {
            snprintf(out, size, "%s",
                     words_in(taste.language,
                              "What leaks through the house is not known: give its floor area or "
                              "the figure of a blower door. No air is counted in what is saved."));
        }
        return;
    }
    if (!a->is_ready) {
        return;
    }
    if (fill == PB_COMPARE_EMPTY) {
        as_it_is(a, taste, out, size);
        return;
    }
    io_air_shown(IO_AIR_FLOW, a, taste, walls, sizeof walls);
    io_air_shown(IO_AIR_CUT, a, taste, cut, sizeof cut);
    io_air_shown(IO_AIR_HEAT, a, taste, heat, sizeof heat);
    snprintf(out, size,
             words_in(taste.language,
                      "Lets %s of air through the bays in winter, carrying %s of heat a year; the "
                      "house leaks %s less."),
             walls, heat, cut);
}
