/* Words of the page that is handed over: see io/handout_words.h. */
#include "io/handout_words.h"

#include "word_template.h"

#include "core/material.h"
#include "core/units.h"
#include "io/saving_words.h"
#include "io/wall_words.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#define NO_BREAK "\xC2\xA0"

const char io_rule_460_18[] = "The higher the R-value, the greater the insulating power. Ask your "
                              "seller for the fact sheet on R-values.";

/* {w} {h} {d} of the bay, {a} wall, {f} framing, {g} degree days, {b} their base, {e} efficiency,
 * {p} price, {n} numbers drawn, {x} {y} densities, {s} shrinkage, {m} trials that a range takes. */
static const char *const sentences[IO_HANDOUT_SENTENCES] = {
    N_("A model of one wall bay, {w} wide, {h} high and {d} deep, stands for all {a} of wall. "
       "Nothing was measured at this house."),
    N_("The wall is assumed to be built like this: %s. {f} of its area is counted as framing."),
    N_("Savings are counted against the wall as it is now: %s."),
    N_("The winter is taken as {g} heating degree days (base {b}). The heating is assumed to be "
       "{e} "
       "efficient."),
    N_("Fuel is counted at {p}. If the price changes, so does the money."),
    N_("A range holds 8 of 10 trials, in which {n} numbers that nobody knows well were changed. "
       "The "
       "next page lists them."),
    N_("Loose blow and dense pack are simulated packings at {x} and {y}. Another crew, or another "
       "day, packs differently."),
    N_("The foam is taken to have shrunk {s} by then: published figures for this kind of foam, not "
       "for one product. At the filling it is counted as wet."),
    N_("Air that leaks through the wall counts only where the leakage of the house is given. "
       "Moisture is screened apart, and is in no figure of heat or money."),
    N_("Measured savings are often lower than computed ones, and nothing here is a promise. Where "
       "the seller's fact sheet differs, the fact sheet governs."),
};

static const char too_few[] =
    N_("No ranges yet: they take {m} trials, and fewer were made. The next page lists the {n} "
       "numbers that nobody knows well.");

typedef struct Subject {
    const PbCompare *compare;
    int t;
} Subject;

static int drawn_numbers(const PbCompare *c)
{
    PbAssumed rows[PB_COMPARE_MAX_ROWS];
    int count = pb_compare_assumed(c, rows, PB_COMPARE_MAX_ROWS), drawn = 0;
    for (int i = 0; i < count; i++) {
        drawn += rows[i].is_drawn;
    }
    return drawn;
}

/* A figure and its unit that no line parts. */
static void close_figure(double value, int decimals, const char *unit, IoReaderTaste taste,
                         char *out, size_t size)
{
    char number[24];
    io_figure(value, decimals, "", taste, number, sizeof number);
    (void)snprintf(out, size, "%s" NO_BREAK "%s", number, unit);
}

static void area_words(double m2, int decimals, IoReaderTaste taste, char *out, size_t size)
{
    close_figure(io_unit_value(IO_UNIT_AREA, m2, taste), decimals,
                 io_unit_name(IO_UNIT_AREA, taste), taste, out, size);
}

/* Typed ranges: one number where both ends read the same. */
static void decimals_range(const PbHeatRange *r, int decimals, IoReaderTaste taste, char *out,
                           size_t size)
{
    char low[24], high[24], both[60];
    io_figure(r->low, decimals, "", taste, low, sizeof low);
    io_figure(r->high, decimals, "", taste, high, sizeof high);
    snprintf(both, sizeof both, words_in(taste.language, "%s to %s"), low, high);
    snprintf(out, size, "%s", strcmp(low, high) == 0 ? low : both);
}

static void price_words(const PbHouse *h, IoReaderTaste taste, char *out, size_t size)
{
    const PbHeatRange *p = h->bill.fuel > 0 ? &h->bill.price : &h->price_per_kwh;
    int is_fine = fabs(remainder(p->low, 0.01)) > 1e-6 || fabs(remainder(p->high, 0.01)) > 1e-6;
    char range[60];
    decimals_range(p, p->high >= 100.0 ? 0 : is_fine ? 4 : 2, taste, range, sizeof range);
    snprintf(out, size, "%s" NO_BREAK "%s/%s", range, h->currency, io_fuel_each(h, taste.language));
}

/* Of a bay: half an inch counts, beyond eight feet a whole one. */
static void length_words(double m, IoReaderTaste taste, char *out, size_t size)
{
    if (taste.is_us) {
        close_figure(m / PB_M_PER_IN, m < 2.5 ? 1 : 0, io_unit_name(IO_UNIT_SMALL, taste), taste,
                     out, size);
    } else {
        io_compare_figure(IO_FIGURE_LENGTH, m, NULL, taste, out, size);
    }
}

static void density_words(const PbCompare *c, PbCompareFill fill, IoReaderTaste taste, char *out,
                          size_t size)
{
    PbCompareFigures f;
    pb_compare_figures(c, fill, 0, &f);
    io_compare_figure(IO_FIGURE_DENSITY, f.mean_kg_m3, NULL, taste, out, size);
}

static void figure(char which, const void *subject, IoReaderTaste taste, char *out, size_t size)
{
    const Subject *s = subject;
    const PbHouse *h = &pb_compare_setup(s->compare)->house;
    PbHeatRange days = h->degree_days_k_d;
    PbCompareFigures f;
    out[0] = '\0';
    switch (which) {
    case 'w':
        length_words(h->bay.width_m, taste, out, size);
        break;
    case 'h':
        length_words(h->bay.height_m, taste, out, size);
        break;
    case 'd':
        length_words(h->bay.depth_m, taste, out, size);
        break;
    case 'a':
        area_words(h->wall_area_m2, 0, taste, out, size);
        break;
    case 'f':
        io_compare_figure(IO_FIGURE_SHARE, h->framing_share, NULL, taste, out, size);
        break;
    case 'g':
        days.low *= taste.is_us ? 1.8 : 1.0;
        days.high *= taste.is_us ? 1.8 : 1.0;
        decimals_range(&days, 0, taste, out, size);
        break;
    case 'b':
        close_figure(taste.is_us ? 65.0 : 18.3, taste.is_us ? 0 : 1,
                     taste.is_us ? words_in(taste.language, NC_("unit", "°F"))
                                 : words_in(taste.language, NC_("unit", "°C")),
                     taste, out, size);
        break;
    case 'e':
        io_compare_range(IO_FIGURE_SHARE, h->efficiency, NULL, taste, out, size);
        break;
    case 'p':
        price_words(h, taste, out, size);
        break;
    case 'n':
        snprintf(out, size, "%d", drawn_numbers(s->compare));
        break;
    case 'm':
        snprintf(out, size, "%d", PB_COMPARE_ENOUGH_DRAWS);
        break;
    case 'x':
        density_words(s->compare, PB_COMPARE_LOOSE, taste, out, size);
        break;
    case 'y':
        density_words(s->compare, PB_COMPARE_DENSE, taste, out, size);
        break;
    case 's':
        pb_compare_figures(s->compare, PB_COMPARE_FOAM, s->t, &f);
        io_compare_range(IO_FIGURE_SHARE, f.shrink_frac, NULL, taste, out, size);
        break;
    default:
        break;
    }
}

/* What is in the cavities before the work. */
static void cavity_words(const PbHouse *h, IoReaderTaste taste, char *out, size_t size)
{
    char share[24];
    int has_batt = 0;
    for (int i = 0; i < h->bay.obstacle_count; i++) {
        has_batt |= pb_obstacle_traits(h->bay.obstacles[i].kind)->is_batt;
    }
    io_compare_figure(IO_FIGURE_SHARE, h->cavity.share, NULL, taste, share, sizeof share);
    switch (h->cavity.now) {
    case PB_CAVITY_LOOSE:
        snprintf(out, size,
                 words_in(taste.language, "old loose fill that stands to %s of the height"), share);
        break;
    case PB_CAVITY_PARTLY:
        snprintf(out, size, words_in(taste.language, "%s of it packed already, the rest empty"),
                 share);
        break;
    default:
        snprintf(out, size, "%s",
                 has_batt ? words_in(taste.language, "an old batt in its cavities")
                          : words_in(taste.language, "nothing in its cavities"));
        break;
    }
}

void io_handout_sentence(const PbCompare *c, int t, int n, IoReaderTaste taste, char *out,
                         size_t size)
{
    assert(c != NULL && out != NULL && size > 0);
    assert(n >= 0 && n < IO_HANDOUT_SENTENCES);
    const Subject subject = {c, t};
    const PbHouse *h = &pb_compare_setup(c)->house;
    PbCompareFigures f;
    pb_compare_figures(c, PB_COMPARE_DENSE, t, &f);
    int is_short = n == 5 && f.draws < PB_COMPARE_ENOUGH_DRAWS;
    const char *text = words_in(taste.language, is_short ? too_few : sentences[n]);
    char with[700], part[300];
    if (n == 1 || n == 2) {
        if (n == 1) {
            io_wall_words(&h->wall, taste.language, part, sizeof part);
        } else {
            cavity_words(h, taste, part, sizeof part);
        }
        const char *at = strstr(text, "%s"); /* a percent sign may stand in the rest */
        assert(at != NULL);
        snprintf(with, sizeof with, "%.*s%s%s", (int)(at - text), text, part, at + 2);
        text = with;
    }
    (void)io_template_append(text, NULL, figure, &subject, taste, out, 0, size);
}

void io_handout_range(IoCompareFigure figure_kind, PbHeatRange r, int draws, IoReaderTaste taste,
                      char *out, size_t size)
{
    assert(out != NULL && size > 0);
    int is_r = figure_kind == IO_FIGURE_R, us = taste.is_us;
    double scale = is_r && us ? 1.0 / PB_M2K_W_PER_R : 1.0;
    double fine = is_r && us ? 0.1 : 0.01, coarse = 10.0 * fine;
    if ((!is_r && figure_kind != IO_FIGURE_RATIO) || draws < PB_COMPARE_ENOUGH_DRAWS) {
        io_compare_shown(figure_kind, r, draws, NULL, taste, out, size);
        return;
    }
    double step = scale * (r.high - r.low) > coarse * (1.0 - 1e-9) ? coarse : fine;
    int decimals = step > 0.5 ? 0 : step > 0.05 ? 1 : 2;
    char low[24], high[24], both[60], unit[24];
    /* a hair inwards, so that an end that stands on a step stays there */
    io_figure(step * floor(scale * r.low / step + 1e-6), decimals, "", taste, low, sizeof low);
    io_figure(step * ceil(scale * r.high / step - 1e-6), decimals, "", taste, high, sizeof high);
    snprintf(unit, sizeof unit, "%s",
             !is_r ? words_in(taste.language, "times")
             : us  ? ""
                   : words_in(taste.language, NC_("unit", "m²K/W")));
    snprintf(both, sizeof both, words_in(taste.language, "%s to %s"), low, high);
    snprintf(out, size, "%s%s%s%s", is_r && us ? "R" NO_BREAK : "",
             strcmp(low, high) == 0 ? low : both, unit[0] != '\0' ? NO_BREAK : "", unit);
}

static const char *const label_names[IO_LABEL_ROWS] = {
    [IO_LABEL_TYPE] = N_("Type"),
    [IO_LABEL_THICKNESS] = N_("Thickness"),
    [IO_LABEL_R] = N_("R of that thickness, by the label"),
    [IO_LABEL_COVERAGE] = N_("Coverage of a bag at it"),
    [IO_LABEL_BAGS] = N_("Bags by the chart on the bag"),
    [IO_LABEL_SHEET] = N_("Number of the fact sheet"),
    [IO_LABEL_MODEL] = N_("R of that thickness in this model"),
};

static const char *const types[PB_COMPARE_FILLS] = {"", N_("loose-fill cellulose, blown"),
                                                    N_("water-based foam, injected"),
                                                    N_("loose-fill cellulose, dense packed")};

const char *io_label_name(IoLabelRow row, int language)
{
    return (int)row < IO_LABEL_ROWS ? words_in(language, label_names[row]) : "";
}

double io_cavity_m2(const PbHouse *h)
{
    assert(h != NULL);
    double packed = h->cavity.now == PB_CAVITY_PARTLY ? h->cavity.share : 0.0;
    return h->wall_area_m2 * (1.0 - h->framing_share) * (1.0 - packed);
}

/* R of the fill alone at the density that the model packs it to, as its constants have it. */
static void model_r(const PbCompare *c, PbCompareFill fill, IoReaderTaste taste, char *out,
                    size_t size)
{
    const PbCompareSetup *s = pb_compare_setup(c);
    PbCompareFigures f;
    pb_compare_figures(c, fill, 0, &f);
    double k = fill == PB_COMPARE_FOAM ? s->constants.foam_k_w_mk
                                       : pb_material_conductivity(&s->constants, f.mean_kg_m3);
    double r = s->house.bay.depth_m / k;
    if (taste.is_us) {
        snprintf(out, size, "R" NO_BREAK "%.0f", r / PB_M2K_W_PER_R);
    } else {
        close_figure(r, 1, words_in(taste.language, NC_("unit", "m²K/W")), taste, out, size);
    }
}

void io_label_value(const PbCompare *c, const IoCompany *company, PbCompareFill fill,
                    IoLabelRow row, IoReaderTaste taste, char *out, size_t size)
{
    assert(c != NULL && company != NULL && out != NULL && size > 0);
    const PbHouse *h = &pb_compare_setup(c)->house;
    const IoProduct *p = &company->product[fill];
    const IoChartRow *chart = io_chart_row(p, h->bay.depth_m);
    char area[64];
    out[0] = '\0';
    if (row == IO_LABEL_TYPE) {
        snprintf(out, size, "%s",
                 p->type[0] != '\0' ? p->type : words_in(taste.language, types[fill]));
    } else if (row == IO_LABEL_THICKNESS) {
        io_compare_figure(IO_FIGURE_LENGTH, h->bay.depth_m, NULL, taste, out, size);
    } else if (row == IO_LABEL_SHEET) {
        snprintf(out, size, "%s", p->sheet);
    } else if (row == IO_LABEL_MODEL) {
        model_r(c, fill, taste, out, size);
    } else if (fill == PB_COMPARE_FOAM && row != IO_LABEL_R) {
        snprintf(out, size, "%s", words_in(taste.language, "not in bags"));
    } else if (chart == NULL) {
        return;
    } else if (row == IO_LABEL_R) {
        io_compare_figure(IO_FIGURE_R, chart->r_m2k_w, NULL, taste, out, size);
    } else if (chart->coverage_m2 > 0.0 && row == IO_LABEL_COVERAGE) {
        area_words(chart->coverage_m2, taste.is_us ? 1 : 2, taste, out, size);
    } else if (chart->coverage_m2 > 0.0) {
        area_words(io_cavity_m2(h), 0, taste, area, sizeof area);
        snprintf(out, size, words_in(taste.language, "%d for %s of cavity"),
                 io_chart_bags(chart, io_cavity_m2(h)), area);
    }
}

/* Publications by a word that only they have, then kinds of knowledge. */
static const struct {
    const char *needle, *name;
} publications[] = {
    {"ISO 6946", "ISO 6946"},
    {"ISO 10456", "ISO 10456"},
    {"California Energy Code", "California Energy Code 2008, JA4; ASHRAE Fundamentals"},
    {"ASHRAE Handbook", "ASHRAE Fundamentals 2005, 25-4"},
    {"Standard 140", "ANSI/ASHRAE Standard 140"},
    {"Fowlie", "Fowlie et al., QJE 133, 2018"},
    {"Washington State Energy Code", "WAC 51-11-1005; ASHRAE Fundamentals"},
    {"Energy Information Administration", "U.S. EIA, 2023"},
    {"Danish Building Research Institute", "Danish Building Research Institute"},
    {"same report", "Danish Building Research Institute"},
    {"By og Byg", "By og Byg Dokumentation"},
    {"Bies and Hansen", "Bies, Hansen, Appl. Acoustics 13, 1980"},
    {"Brown, Polym", "Brown, Polym. Degrad. Stab. 27, 1990"},
    {"NBS Technical Note 946", "NBS Technical Note 946"},
};

static const struct {
    const char *needle, *text;
} kinds[] = {
    {"calibrated", N_("fitted to published results")},
    {"fit to", N_("fitted to published results")},
    {"assumption", N_("assumption")},
    {"memory", N_("handbook value, from memory")},
    {"ideal gas", N_("physics")},
    {"as k_base_w_mk", N_("fitted to published results")},
};

const char *io_short_source(const char *source, int language)
{
    assert(source != NULL);
    for (size_t i = 0; i < sizeof publications / sizeof publications[0]; i++) {
        if (strstr(source, publications[i].needle) != NULL) {
            return publications[i].name;
        }
    }
    for (size_t i = 0; i < sizeof kinds / sizeof kinds[0]; i++) {
        if (strstr(source, kinds[i].needle) != NULL) {
            return words_in(language, kinds[i].text);
        }
    }
    return words_in(language, "chosen for this model");
}
