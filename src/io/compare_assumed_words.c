/* Inputs of a comparison in words: labels, values in the reader's units, sources. */
#include "compare_assumed_private.h"

#include "core/units.h"
#include "io/saving_words.h"
#include "io/wall_words.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

typedef struct Label {
    const char *key;
    const char *text[2]; /* by IoLanguage */
} Label;

static const Label labels[] = {
    {"wall_area_m2", {"Wall area", "Superficie de pared"}},
    {"wall", {"Layers of the wall", "Capas de la pared"}},
    {"framing_share", {"Framing factor", "Parte de madera en la pared"}},
    {"degree_days_k_d", {"Heating degree days", "Grados día de calefacción"}},
    {"fuel", {"Fuel", "Energía"}},
    {"price_per_kwh", {"Price of a kWh", "Precio del kWh"}},
    {"cavity/old-loose", {"Old loose fill stands to", "El relleno viejo llega a"}},
    {"cavity/partly", {"Packed already", "Ya empacado"}},
    {"bill/price", {"Price on the bill", "Precio en el recibo"}},
    {"bill/last_year", {"Last year's bill", "Recibo del año pasado"}},
    {"bill/not_heating", {"Of it not for heating", "De eso, no para calentar"}},
    {"cooling/room_c", {"Room in summer", "Cuarto en verano"}},
    {"cooling/price_per_kwh", {"Electricity for cooling", "Electricidad para enfriar"}},
    {"cooling/efficiency", {"Cooling: COP", "Enfriamiento: COP"}},
    {"job/price", {"Price of the job", "Precio del trabajo"}},
    {"job/rebate", {"Rebate", "Reembolso"}},
    {"job/life_years", {"Counted to last", "Se cuenta que dure"}},
    {"efficiency", {"Efficiency of the heating", "Eficiencia de la calefacción"}},
    {"room_c", {"Room air", "Aire interior"}},
    {"outdoor_c", {"Outdoor air", "Aire exterior"}},
    {"bay", {"Bay of the wall", "Cavidad de la pared"}},
    {"bay/width_m", {"Bay width", "Ancho de la cavidad"}},
    {"bay/height_m", {"Bay height", "Alto de la cavidad"}},
    {"bay/depth_m", {"Bay depth", "Fondo de la cavidad"}},
    {"climate", {"Climate", "Clima"}},
    {"climate/bay_rh", {"Humidity in the wall", "Humedad en la pared"}},
    {"climate/indoor_c", {"Indoor air over the year", "Aire interior en el año"}},
    {"climate/indoor_rh", {"Indoor humidity over the year", "Humedad interior en el año"}},
    {"climate/outdoor_c", {"Outdoor air over the year", "Aire exterior en el año"}},
    {"climate/outdoor_rh", {"Outdoor humidity over the year", "Humedad exterior en el año"}},
    {"climate/foam_ageing",
     {"Foam ages so many times faster", "La espuma envejece tantas veces más rápido"}},
    {"batt_k_w_mk", {"Old batt: heat conduction", "Colcha vieja: conducción de calor"}},
    {"foam", {"Foam", "Espuma"}},
    {"foam/inner", {"Room side of the foam", "Lado interior de la espuma"}},
    {"foam/outer", {"Outside of the foam", "Lado exterior de la espuma"}},
    {"dense", {"Dense pack", "Empacado denso"}},
    {"loose", {"Loose blow", "Soplado suelto"}},
    {"seed", {"Seed of the packing", "Semilla del empacado"}},
};

/* Words of values and of sources that are not names of files or publications. */
static const Label words[] = {
    {"simple", {"simple wall", "pared simple"}},
    {"good", {"best case", "mejor caso"}},
    {"typical", {"typical", "típico"}},
    {"poor", {"worst case", "peor caso"}},
    {"well-done", {"well done", "bien hecho"}},
    {"hasty", {"hasty", "con prisa"}},
    {"own", {"an own run", "una corrida propia"}},
    {"Long cold winters, dry rooms",
     {"Long cold winters, dry rooms", "Inviernos largos y fríos, interior seco"}},
    {"Damp: fill at 50 to 80 % over the year",
     {"Damp: fill at 50 to 80% over the year", "Húmedo: relleno a 50-80 % en el año"}},
    {"Hot and humid all year", {"Hot and humid all year", "Cálido y húmedo el año entero"}},
    {"Normal humidity, temperate", {"Normal humidity, temperate", "Humedad normal, templado"}},
    {"Laboratory: 50 % all year", {"Laboratory: 50% all year", "Laboratorio: 50 % el año entero"}},
    {"Laboratory: 80 % all year", {"Laboratory: 80% all year", "Laboratorio: 80 % el año entero"}},
    {"electricity, heat pump", {"electricity, heat pump", "electricidad, bomba de calor"}},
    {"painted-board", {"painted board", "tablero pintado"}},
    {"wood-board", {"wood boards", "tablas de madera"}},
    {"plaster", {"plaster on lath", "yeso sobre listones"}},
    {"no tube, hole near the top, open-blowing machine",
     {"no tube, hole near the top", "sin tubo, hoyo arriba"}},
    {"entered for this house", {"entered for this house", "dato de esta casa"}},
    {"a sample, no real house", {"a sample, no real house", "muestra, no es una casa real"}},
    {"handbook", {"handbook value", "valor de manual"}},
    {"exercise file", {"exercise file", "archivo de ejercicio"}},
    {"climate file: made, not measured",
     {"climate file: made, not measured", "archivo de clima: hecho, no medido"}},
    {"ranges of published shrinkage, not products",
     {"ranges of published shrinkage, not products",
      "márgenes de encogimiento publicado, no productos"}},
    {"from the finish of the bay", {"from the finish of the bay", "por el acabado de la cavidad"}},
    {"assumption", {"assumption", "supuesto"}},
    {"a recorded run", {"a recorded run", "una corrida grabada"}},
    {"two-foot steps by the clock; our choice, no source",
     {"two-foot steps by the clock; our choice, no source",
      "pasos de dos pies por reloj; elección nuestra, sin fuente"}},
    {"one-foot steps after each stall; common practice",
     {"one-foot steps after each stall; common practice",
      "pasos de un pie después de cada stall; práctica común"}},
    {"common practice", {"common practice", "práctica común"}},
    {"one packing run, not drawn",
     {"one packing run, the same in all trials", "una sola corrida, no cambia en los márgenes"}},
};

static const char *find(const Label *table, size_t count, const char *key, IoLanguage language)
{
    for (size_t i = 0; i < count; i++) {
        if (strcmp(table[i].key, key) == 0) {
            return table[i].text[language];
        }
    }
    return key;
}

static const char *word(const char *key, IoLanguage language)
{
    return find(words, sizeof words / sizeof words[0], key, language);
}

/* How well a constant is known, by the first word of its confidence. */
static const Label confidences[] = {
    {"high", {"well known", "bien conocido"}},
    {"medium", {"known roughly", "conocido a medias"}},
    {"low", {"poorly known, our estimate", "poco conocido, estimación nuestra"}},
    {"definition", {"a definition", "una definición"}},
    {"product", {"depends on the product", "depende del producto"}},
};

static const char *confidence(const char *text, IoLanguage language)
{
    for (size_t i = 0; i < sizeof confidences / sizeof confidences[0]; i++) {
        const char *key = confidences[i].key;
        size_t n = strlen(key), same = 0;
        while (same < n && tolower((unsigned char)text[same]) == key[same]) {
            same++;
        }
        if (same == n) {
            return confidences[i].text[language];
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
        return is_us ? (Shown){1.8, 32.0, 4, -1, "°F"} : (Shown){1.0, 0.0, 4, -1, "°C"};
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
    if (strcmp(unit, "m") == 0) {
        return us ? (Shown){1.0 / PB_M_PER_IN, 0.0, 4, 1, "in."} : (Shown){1.0, 0.0, 4, -1, "m"};
    }
    if (strcmp(unit, "K d") == 0) {
        return us ? (Shown){1.8, 0.0, 4, 0, "°F d"} : (Shown){1.0, 0.0, 4, -1, "K d"};
    }
    if (strcmp(unit, "deg C") == 0) {
        return us ? (Shown){1.8, 32.0, 4, -1, "°F"} : (Shown){1.0, 0.0, 4, -1, "°C"};
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

/* Units as Spanish writes them; longer words first. */
static void unit_words(const char *unit, IoLanguage language, char *out, size_t size)
{
    static const char *const words_of[][2] = {
        {"years", "años"}, {"days", "días"}, {" per ", " por "}, {"in.", "pulg."},
        {"ft²", "pie²"},   {"ft³", "pie³"},  {"1%", "1 %"}};
    size_t used = 0;
    for (const char *at = unit; *at != '\0' && used + 1 < size;) {
        size_t k = 0, count = sizeof words_of / sizeof words_of[0];
        while (k < count && strncmp(at, words_of[k][0], strlen(words_of[k][0])) != 0) {
            k++;
        }
        if (language == IO_SPANISH && k < count) {
            int n = snprintf(out + used, size - used, "%s", words_of[k][1]);
            used += n > 0 ? (size_t)n : 0;
            at += strlen(words_of[k][0]);
        } else {
            out[used++] = *at++;
        }
    }
    out[used < size ? used : size - 1] = '\0';
}

static void value_words(const PbAssumed *row, const IoAssumedReader *reader, char *value,
                        size_t size)
{
    IoReaderTaste taste = reader->taste;
    Shown s = row->from == PB_ASSUMED_CONSTANT ? shown_constant(row, taste.is_us)
                                               : shown_input(row, reader);
    char mid[32], low[32], high[32], unit[64], money[40];
    number(&s, row->value, taste, mid, sizeof mid);
    number(&s, row->low, taste, low, sizeof low);
    number(&s, row->high, taste, high, sizeof high);
    unit_words(s.unit, taste.language, unit, sizeof unit);
    const char *bill = reader->house != NULL ? io_fuel_unit(reader->house, taste.language) : "";
    if (strcmp(row->unit, "unit") == 0) {
        snprintf(unit, sizeof unit, "%s", bill);
    } else if (strcmp(row->unit, "money") == 0) {
        snprintf(unit, sizeof unit, "%s", reader->currency);
    } else if (strcmp(row->unit, "money/unit") == 0) {
        snprintf(money, sizeof money, "%s/%s", reader->currency, bill);
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
                 !taste.is_us                   ? "m²"
                 : taste.language == IO_SPANISH ? "pie²"
                                                : "ft²");
        return;
    }
    int is_close = unit[0] == '\0' || (unit[0] == '%' && taste.language == IO_ENGLISH);
    const char *gap = is_close ? "" : "\xC2\xA0";
    if (row->low < row->high) {
        snprintf(value, size, "%s (%s %s %s)%s%s", mid, low,
                 taste.language == IO_SPANISH ? "a" : "to", high, gap, unit);
    } else {
        snprintf(value, size, "%s%s%s", mid, gap, unit);
    }
}

/* Names that come out of shipped files; what somebody typed stays as it is. */
static const char *shipped(const IoAssumedReader *reader, const char *text)
{
    return reader->translate != NULL && reader->taste.language == IO_SPANISH
               ? reader->translate(text)
               : text;
}

void io_assumed_words(const PbAssumed *row, const IoAssumedReader *reader, char *label, char *value,
                      char *source, size_t size)
{
    IoLanguage language = reader->taste.language;
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
                 is_shipped ? shipped(reader, row->text) : word(row->text, language));
        return;
    }
    value_words(row, reader, value, size);
}

const char *io_climate_title(const char *title, IoLanguage language)
{
    return word(title, language);
}

const char *io_house_word(const char *text, IoLanguage language)
{
    static const Label demo[] = {{PB_HOUSE_DEMO, {PB_HOUSE_DEMO, "Casa de muestra"}},
                                 {"Sample town", {"Sample town", "Pueblo de muestra"}}};
    return find(demo, sizeof demo / sizeof demo[0], text, language);
}

void io_date_words(int year, int month, int day, IoReaderTaste taste, char *out, size_t size)
{
    static const char *const months[2][12] = {
        {"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"},
        {"ene", "feb", "mar", "abr", "may", "jun", "jul", "ago", "sep", "oct", "nov", "dic"}};
    const char *name = months[taste.language][(month + 11) % 12];
    if (taste.language == IO_ENGLISH && taste.is_us) {
        snprintf(out, size, "%s %d, %d", name, day, year);
    } else {
        snprintf(out, size, "%d %s %d", day, name, year);
    }
}
