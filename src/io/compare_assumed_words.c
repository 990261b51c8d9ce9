/* Inputs of a comparison in words: labels, values in the reader's units, sources. */
#include "io/compare_words.h"

#include "core/units.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

typedef struct Label {
    const char *key;
    const char *text[2]; /* by IoLanguage */
} Label;

static const Label labels[] = {
    {"wall_area_m2", {"Wall area", "Superficie de pared"}},
    {"framing_share", {"Wood in the wall", "Madera en la pared"}},
    {"degree_days_k_d", {"Heating degree days", "Grados día de calefacción"}},
    {"fuel", {"Fuel", "Energía"}},
    {"price_per_kwh", {"Price of a kWh", "Precio del kWh"}},
    {"efficiency", {"Efficiency of the heating", "Rendimiento de la calefacción"}},
    {"room_c", {"Room air", "Aire interior"}},
    {"outdoor_c", {"Outdoor air", "Aire exterior"}},
    {"bay", {"Bay of the wall", "Hueco de la pared"}},
    {"bay/width_m", {"Bay width", "Ancho de la cavidad"}},
    {"bay/height_m", {"Bay height", "Alto de la cavidad"}},
    {"bay/depth_m", {"Bay depth", "Fondo de la cavidad"}},
    {"climate", {"Climate", "Clima"}},
    {"climate/bay_rh", {"Humidity in the wall", "Humedad en la pared"}},
    {"climate/indoor_c", {"Indoor air over the year", "Aire interior en el año"}},
    {"climate/indoor_rh", {"Indoor humidity over the year", "Humedad interior en el año"}},
    {"climate/outdoor_c", {"Outdoor air over the year", "Aire exterior en el año"}},
    {"climate/outdoor_rh", {"Outdoor humidity over the year", "Humedad exterior en el año"}},
    {"climate/foam_ageing", {"Foam ages so many times faster", "La espuma envejece tantas veces"}},
    {"foam", {"Foam", "Espuma"}},
    {"foam/inner", {"Room side of the foam", "Lado interior de la espuma"}},
    {"foam/outer", {"Outside of the foam", "Lado exterior de la espuma"}},
    {"dense", {"Dense pack", "Relleno denso"}},
    {"loose", {"Loose blow", "Soplado suelto"}},
    {"seed", {"Seed of the packing", "Semilla del relleno"}},
};

/* Words of values and of sources that are not names of files or publications. */
static const Label words[] = {
    {"good", {"good", "buena"}},
    {"typical", {"usual", "usual"}},
    {"poor", {"poor", "mala"}},
    {"well-done", {"well done", "bien hecho"}},
    {"hasty", {"hasty", "con prisa"}},
    {"own", {"an own run", "una pasada propia"}},
    {"painted-board", {"painted board", "tablero pintado"}},
    {"wood-board", {"wood boards", "tablas de madera"}},
    {"plaster", {"plaster on lath", "yeso sobre listones"}},
    {"no tube, hole near the top, open-blowing machine",
     {"no tube, hole near the top, open-blowing machine",
      "sin tubo, agujero arriba, máquina de soplado libre"}},
    {"typed for this house", {"typed for this house", "dato de esta casa"}},
    {"exercise file", {"exercise file", "archivo de ejercicio"}},
    {"climate file: made, not measured",
     {"climate file: made, not measured", "archivo de clima: hecho, no medido"}},
    {"good, typical and poor are ranges of published shrinkage, not products",
     {"ranges of published shrinkage, not products", "márgenes de merma publicada, no productos"}},
    {"from the finish of the bay", {"from the finish of the bay", "por el acabado de la pared"}},
    {"assumption", {"assumption", "supuesto"}},
    {"a recorded run", {"a recorded run", "una pasada grabada"}},
    {"two-foot steps by the clock; our choice, no source",
     {"two-foot steps by the clock; our choice, no source",
      "pasos de dos pies por reloj; elección nuestra, sin fuente"}},
    {"one-foot steps after each stall; common practice",
     {"one-foot steps after each stall; common practice",
      "pasos de un pie tras cada parada; práctica común"}},
    {"common practice", {"common practice", "práctica común"}},
    {"one packing run, not drawn", {"one packing run, not drawn", "una sola pasada, no se sortea"}},
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

/* A number as short as it can be: up to four figures. */
static void number(double v, IoReaderTaste taste, char *out, size_t size)
{
    snprintf(out, size, "%.4g", v);
    io_decimal_mark(out, taste);
}

/* Units that readers in the US want otherwise; constants keep theirs, as their sources do. */
static const char *convert(const PbAssumed *row, IoReaderTaste taste, double value[3])
{
    const char *unit = row->unit;
    double scale = 1.0, offset = 0.0;
    int is_percent = strcmp(row->unit, "-") == 0 && strstr(row->key, "rh") != NULL;
    if (row->from == PB_ASSUMED_CONSTANT) {
        return unit;
    }
    if (strcmp(row->key, "framing_share") == 0 || is_percent ||
        (strcmp(row->key, "efficiency") == 0)) {
        scale = 100.0;
        unit = "%";
    } else if (strcmp(unit, "-") == 0) {
        unit = "";
    } else if (strcmp(unit, "m2") == 0) {
        scale = taste.is_us ? 1.0 / (PB_M_PER_FT * PB_M_PER_FT) : 1.0;
        unit = taste.is_us ? taste.language == IO_SPANISH ? "pies²" : "ft²" : "m²";
    } else if (strcmp(unit, "m") == 0 && taste.is_us) {
        scale = 1.0 / PB_M_PER_IN;
        unit = taste.language == IO_SPANISH ? "pulg." : "in";
    } else if (strcmp(unit, "K d") == 0 && taste.is_us) {
        scale = 1.8;
        unit = "°F d";
    } else if (strcmp(unit, "deg C") == 0) {
        scale = taste.is_us ? 1.8 : 1.0;
        offset = taste.is_us ? 32.0 : 0.0;
        unit = taste.is_us ? "°F" : "°C";
    } else if (strcmp(unit, "money/kWh") == 0) {
        unit = "/kWh";
    }
    for (int i = 0; i < 3; i++) {
        value[i] = value[i] * scale + offset;
    }
    return unit;
}

void io_assumed_words(const PbAssumed *row, IoReaderTaste taste, char *label, char *value,
                      char *source, size_t size)
{
    IoLanguage language = taste.language;
    snprintf(label, size, "%s",
             row->from == PB_ASSUMED_CONSTANT
                 ? row->key
                 : find(labels, sizeof labels / sizeof labels[0], row->key, language));
    snprintf(source, size, "%s", word(row->source, language));
    if (row->text != NULL) {
        snprintf(value, size, "%s", word(row->text, language));
        return;
    }
    double v[3] = {row->low, row->value, row->high};
    char text[3][32];
    const char *unit = convert(row, taste, v);
    for (int i = 0; i < 3; i++) {
        number(v[i], taste, text[i], sizeof text[i]);
    }
    const char *gap = unit[0] != '\0' ? " " : "";
    if (row->low < row->high) {
        snprintf(value, size, "%s (%s %s %s)%s%s", text[1], text[0],
                 language == IO_SPANISH ? "a" : "to", text[2], gap, unit);
    } else {
        snprintf(value, size, "%s%s%s", text[1], gap, unit);
    }
}
