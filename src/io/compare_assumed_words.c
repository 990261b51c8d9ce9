/* Inputs of a comparison in words: labels, values in the reader's units, sources. */
#include "compare_assumed_private.h"
#include "word_template.h"

#include "core/units.h"
#include "io/saving_words.h"
#include "io/wall_words.h"

#include <assert.h>
#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

typedef struct Label {
    const char *key;
    const char *text;
} Label;

static const Label labels[] = {
    {"wall_area_m2", NC_("input", "Wall area")},
    {"wall", N_("Layers of the wall")},
    {"framing_share", NC_("input", "Framing factor")},
    {"degree_days_k_d", N_("Heating degree days")},
    {"fuel", NC_("input", "Fuel")},
    {"price_per_kwh", N_("Price of a kWh")},
    {"cavity/old-loose", N_("Old loose fill stands to")},
    {"cavity/partly", N_("Packed already")},
    {"bill/price", N_("Price on the bill")},
    {"bill/last_year", N_("Last year's bill")},
    {"bill/not_heating", N_("Of it not for heating")},
    {"cooling/room_c", N_("Room in summer")},
    {"cooling/price_per_kwh", N_("Electricity for cooling")},
    {"cooling/efficiency", N_("Cooling: COP")},
    {"damp/inside", N_("Paint in the room")},
    {"damp/outside", N_("Paint outside")},
    {"air/blower_door_m3_h", N_("Blower door at 50 Pa")},
    {"air/floor_area_m2", N_("Floor area of the house")},
    {"job/price", N_("Price of the job")},
    {"job/rebate", N_("Rebate")},
    {"job/life_years", N_("Counted to last")},
    {"efficiency", N_("Efficiency of the heating")},
    {"room_c", N_("Room air")},
    {"outdoor_c", N_("Outdoor air")},
    {"bay", N_("Bay of the wall")},
    {"bay/width_m", N_("Bay width")},
    {"bay/height_m", N_("Bay height")},
    {"bay/depth_m", N_("Bay depth")},
    {"climate", N_("Climate")},
    {"climate/bay_rh", N_("Humidity in the wall")},
    {"climate/indoor_c", N_("Indoor air over the year")},
    {"climate/indoor_rh", N_("Indoor humidity over the year")},
    {"climate/outdoor_c", N_("Outdoor air over the year")},
    {"climate/outdoor_rh", N_("Outdoor humidity over the year")},
    {"climate/foam_ageing", N_("Foam ages so many times faster")},
    {"batt_k_w_mk", N_("Old batt: heat conduction")},
    {"foam", N_("Foam")},
    {"foam/inner", N_("Room side of the foam")},
    {"foam/outer", N_("Outside of the foam")},
    {"dense", N_("Dense pack")},
    {"loose", N_("Loose blow")},
    {"seed", N_("Seed of the packing")},
};

/* Words of values and of sources that are not names of files or publications. */
static const Label words[] = {
    {"coat-unknown", N_("not known")},
    {"coat-none", N_("bare or stained")},
    {"coat-latex", N_("latex paint")},
    {"coat-oil", N_("many coats of old oil paint")},
    {"coat-tight", N_("vapor-tight: foil, plastic, vinyl")},
    {"simple", N_("simple wall")},
    {"good", N_("best case")},
    {"typical", N_("typical")},
    {"poor", N_("worst case")},
    {"fair", N_("as usual")},
    {"careless", N_("careless")},
    {"well-done", N_("well done")},
    {"hasty", N_("hasty")},
    {"own", N_("an own run")},
    {"Long cold winters, dry rooms", N_("Long cold winters, dry rooms")},
    {"Damp: fill at 50 to 80 % over the year",
     /* xgettext:no-c-format */ N_("Damp: fill at 50 to 80% over the year")},
    {"Hot and humid all year", N_("Hot and humid all year")},
    {"Normal humidity, temperate", N_("Normal humidity, temperate")},
    {"Laboratory: 50 % all year", N_("Laboratory: 50% all year")},
    {"Laboratory: 80 % all year", N_("Laboratory: 80% all year")},
    {"electricity, heat pump", N_("electricity, heat pump")},
    {"painted-board", N_("painted board")},
    {"wood-board", N_("wood boards")},
    {"plaster", N_("plaster on lath")},
    {"no tube, two holes, filled to the top; common practice",
     N_("no tube, two holes, filled to the top; common practice")},
    {"no tube, one low hole, the gate wide open; our choice, no source",
     N_("no tube, one low hole, the gate wide open; our choice, no source")},
    {"entered for this house", N_("entered for this house")},
    {"a sample, no real house", N_("a sample, no real house")},
    {"handbook", N_("handbook value")},
    {"exercise file", N_("exercise file")},
    {"climate file: made, not measured", N_("climate file: made, not measured")},
    {"ranges of published shrinkage, not products",
     N_("ranges of published shrinkage, not products")},
    {"from the finish of the bay", N_("from the finish of the bay")},
    {"assumption", N_("assumption")},
    {"a recorded run", N_("a recorded run")},
    {"two-foot steps by the clock; our choice, no source",
     N_("two-foot steps by the clock; our choice, no source")},
    {"one-foot steps after each stall; common practice",
     N_("one-foot steps after each stall; common practice")},
    {"common practice", N_("common practice")},
    {"six packing runs by six crews; our choice", N_("six packing runs by six crews; our choice")},
};

static const char *find(const Label *table, size_t count, const char *key, int language)
{
    for (size_t i = 0; i < count; i++) {
        if (strcmp(table[i].key, key) == 0) {
            return words_in(language, table[i].text);
        }
    }
    return key;
}

static const char *word(const char *key, int language)
{
    return find(words, sizeof words / sizeof words[0], key, language);
}

/* How well a constant is known, by the first word of its confidence. */
static const Label confidences[] = {
    {"high", N_("well known")},
    {"medium", N_("known roughly")},
    {"low", N_("poorly known, our estimate")},
    {"definition", N_("a definition")},
    {"product", N_("depends on the product")},
};

static const char *confidence(const char *text, int language)
{
    for (size_t i = 0; i < sizeof confidences / sizeof confidences[0]; i++) {
        const char *key = confidences[i].key;
        size_t n = strlen(key), same = 0;
        while (same < n && tolower((unsigned char)text[same]) == key[same]) {
            same++;
        }
        if (same == n) {
            return words_in(language, confidences[i].text);
        }
    }
    return text;
}

/* How a value is shown: times scale, plus offset, so many figures or decimals, and its unit. */
typedef struct Shown {
    double scale, offset;
    int figures, decimals; /* decimals < 0: by figures */
    const char *unit;
} Shown;

static Shown shown_constant(const PbAssumed *row, int is_us)
{
    if (strcmp(row->unit, "deg C") == 0) {
        return is_us ? (Shown){1.8, 32.0, 4, -1, NC_("unit", "°F")}
                     : (Shown){1.0, 0.0, 4, -1, NC_("unit", "°C")};
    }
    const AssumedUnit *unit = assumed_constant_unit(row->unit);
    if (unit == NULL) {
        return (Shown){1.0, 0.0, 4, -1, strcmp(row->unit, "-") == 0 ? "" : row->unit};
    }
    double scale = is_us ? unit->us_factor : unit->si_factor;
    return (Shown){scale, 0.0, is_us && scale != 1.0 ? 3 : 4, -1, is_us ? unit->us : unit->si};
}

/* A whole foot more or less is not meant by 1270 ft², nor a hundredth of an inch by 14.5 in. */
static Shown shown_input(const PbAssumed *row, const IoAssumedReader *reader)
{
    int us = reader->taste.is_us;
    const char *unit = row->unit;
    int is_percent = strcmp(unit, "-") == 0 && strstr(row->key, "rh") != NULL;
    if (strcmp(row->key, "framing_share") == 0 || strcmp(row->key, "efficiency") == 0 ||
        strcmp(row->key, "bill/not_heating") == 0 || strncmp(row->key, "cavity/", 7) == 0 ||
        is_percent) {
        return (Shown){100.0, 0.0, 4, -1, "%"};
    }
    if (strcmp(unit, "m2") == 0) {
        return (Shown){io_unit_value(IO_UNIT_AREA, 1.0, reader->taste), 0.0, 4, us ? 0 : -1,
                       io_unit_name(IO_UNIT_AREA, reader->taste)};
    }
    if (strcmp(unit, "m3/h") == 0) {
        return us ? (Shown){1.0 / (PB_M3_S_PER_CFM * 3600.0), 0.0, 4, 0, NC_("unit", "cfm")}
                  : (Shown){1.0, 0.0, 4, 0, NC_("unit", "m³/h")};
    }
    if (strcmp(unit, "m") == 0) {
        return us ? (Shown){1.0 / PB_M_PER_IN, 0.0, 4, 1, NC_("unit", "in.")}
                  : (Shown){1.0, 0.0, 4, -1, NC_("unit", "m")};
    }
    if (strcmp(unit, "K d") == 0) {
        return us ? (Shown){1.8, 0.0, 4, 0, NC_("unit", "°F d")}
                  : (Shown){1.0, 0.0, 4, -1, NC_("unit", "K d")};
    }
    if (strcmp(unit, "deg C") == 0) {
        return us ? (Shown){1.8, 32.0, 4, -1, NC_("unit", "°F")}
                  : (Shown){1.0, 0.0, 4, -1, NC_("unit", "°C")};
    }
    if (strcmp(unit, "W/(m K)") == 0) {
        return shown_constant(row, us);
    }
    return (Shown){1.0, 0.0, 4, -1, strcmp(unit, "-") == 0 ? "" : unit};
}

/* Without an exponent, and without noughts that say nothing. */
static void number(const Shown *s, double value, IoReaderTaste taste, char *out, size_t size)
{
    double v = value * s->scale + s->offset;
    int decimals = s->decimals;
    if (decimals < 0) {
        double step = fabs(v) > 0.0 ? pow(10.0, floor(log10(fabs(v))) + 1.0 - s->figures) : 1.0;
        v = step * floor(v / step + 0.5);
        decimals = step < 1.0 ? (int)(-log10(step) + 0.5) : 0;
    }
    int n = snprintf(out, size, "%.*f", decimals, v);
    if (decimals > 0 && n > 0 && (size_t)n < size) {
        while (out[n - 1] == '0') {
            out[--n] = '\0';
        }
        if (out[n - 1] == '.') {
            out[n - 1] = '\0';
        }
    }
    io_decimal_mark(out, taste);
}

static void value_words(const PbAssumed *row, const IoAssumedReader *reader, char *value,
                        size_t size)
{
    IoReaderTaste taste = reader->taste;
    Shown s = row->from == PB_ASSUMED_CONSTANT ? shown_constant(row, taste.is_us)
                                               : shown_input(row, reader);
    char mid[32], low[32], high[32], range[80], unit[64], money[40];
    number(&s, row->value, taste, mid, sizeof mid);
    number(&s, row->low, taste, low, sizeof low);
    number(&s, row->high, taste, high, sizeof high);
    snprintf(unit, sizeof unit, "%s", words_in(taste.language, s.unit));
    const char *bill = reader->house != NULL ? io_fuel_unit(reader->house, taste.language) : "";
    if (strcmp(row->unit, "unit") == 0) {
        snprintf(unit, sizeof unit, "%s", bill);
    } else if (strcmp(row->unit, "money") == 0) {
        snprintf(unit, sizeof unit, "%s", reader->currency);
    } else if (strcmp(row->unit, "money/unit") == 0) {
        const char *each = reader->house != NULL ? io_fuel_each(reader->house, taste.language) : "";
        snprintf(money, sizeof money, "%s/%s", reader->currency, each);
        snprintf(unit, sizeof unit, "%s", money);
    } else if (strcmp(row->unit, "money/kWh") == 0) {
        snprintf(money, sizeof money, "%s/kWh", reader->currency);
        snprintf(unit, sizeof unit, "%s", money);
    }
    if (strcmp(row->key, "job/price") == 0 && reader->house != NULL) {
        double area =
            reader->house->wall_area_m2 * (taste.is_us ? 1.0 / (PB_M_PER_FT * PB_M_PER_FT) : 1.0);
        Shown each = {1.0 / area, 0.0, 3, -1, ""};
        number(&each, row->value, taste, low, sizeof low);
        snprintf(value, size, "%s\xC2\xA0%s (%s\xC2\xA0%s/%s)", mid, unit, low, unit,
                 words_in(taste.language, taste.is_us ? NC_("per", "ft²") : NC_("unit", "m²")));
        return;
    }
    int is_close = unit[0] == '\0' || io_is_close(unit, taste);
    const char *gap = is_close ? "" : "\xC2\xA0";
    if (row->low < row->high) {
        snprintf(range, sizeof range, words_in(taste.language, "%s to %s"), low, high);
        snprintf(value, size, "%s (%s)%s%s", mid, range, gap, unit);
    } else {
        snprintf(value, size, "%s%s%s", mid, gap, unit);
    }
}

void io_assumed_words(const PbAssumed *row, const IoAssumedReader *reader, char *label, char *value,
                      char *source, size_t size)
{
    assert(row != NULL && reader != NULL);
    assert(label != NULL && value != NULL && source != NULL && size > 0);
    int language = reader->taste.language;
    int is_constant = row->from == PB_ASSUMED_CONSTANT;
    snprintf(label, size, "%s",
             is_constant ? assumed_constant_name(row->key, language)
                         : find(labels, sizeof labels / sizeof labels[0], row->key, language));
    snprintf(source, size, "%s",
             is_constant ? confidence(row->confidence, language) : word(row->source, language));
    if (strcmp(row->key, "wall") == 0 && reader->house != NULL) {
        io_wall_words(&reader->house->wall, language, value, size);
        return;
    }
    if (strcmp(row->key, "fuel") == 0 && reader->house != NULL && reader->house->bill.fuel > 0) {
        snprintf(value, size, "%s", io_fuel_name(reader->house->bill.fuel - 1, language));
        return;
    }
    if (row->text != NULL) {
        int is_shipped = strcmp(row->key, "bay") == 0;
        snprintf(value, size, "%s",
                 is_shipped ? words_in(language, row->text) : word(row->text, language));
        return;
    }
    value_words(row, reader, value, size);
}

const char *io_climate_title(const char *title, int language)
{
    assert(title != NULL);
    return word(title, language);
}

const char *io_house_word(const char *text, int language)
{
    assert(text != NULL);
    static const Label demo[] = {{PB_HOUSE_DEMO, N_("Demo house")},
                                 {"Sample town", N_("Sample town")}};
    return find(demo, sizeof demo / sizeof demo[0], text, language);
}

typedef struct Date {
    int year, day;
    const char *month;
} Date;

static void date_part(char which, const void *of, IoReaderTaste taste, char *out, size_t size)
{
    const Date *date = of;
    (void)taste;
    if (which == 'm') {
        snprintf(out, size, "%s", date->month);
    } else {
        snprintf(out, size, "%d", which == 'd' ? date->day : date->year);
    }
}

void io_date_words(int year, int month, int day, IoReaderTaste taste, char *out, size_t size)
{
    assert(out != NULL && size > 0);
    static const char *const months[12] = {
        NC_("month", "Jan"), NC_("month", "Feb"), NC_("month", "Mar"), NC_("month", "Apr"),
        NC_("month", "May"), NC_("month", "Jun"), NC_("month", "Jul"), NC_("month", "Aug"),
        NC_("month", "Sep"), NC_("month", "Oct"), NC_("month", "Nov"), NC_("month", "Dec")};
    const Date date = {year, day, words_in(taste.language, months[(month + 11) % 12])};
    const char *order = taste.is_us ? NC_("US date", "{m} {d}, {y}") : N_("{d} {m} {y}");
    (void)io_template_append(words_in(taste.language, order), NULL, date_part, &date, taste, out, 0,
                             size);
}
