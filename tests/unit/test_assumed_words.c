/* What a comparison was given, in words: labels, figures and units of inputs and constants, in both
 * languages and in the units of each reader. */
#include "io/compare_words.h"

#include "languages.h"
#include "suite.h"

#include <stdio.h>
#include <string.h>

#define NB "\xC2\xA0"

#define INPUT(from, key, text, value, low, high, unit, source, confidence)                         \
    {                                                                                              \
        from, key, text, value, low, high, unit, source, confidence, 0                             \
    }
static const struct {
    PbAssumed row;
    IoReaderTaste taste;
    const char *label, *value, *source;
} inputs[] = {
    {INPUT(PB_ASSUMED_HOUSE, "wall_area_m2", NULL, 118, 118, 118, "m2", "entered for this house",
           ""),
     {WORDS_ENGLISH, 1, 0},
     "Wall area",
     "1270" NB "ft²",
     "entered for this house"},
    {INPUT(PB_ASSUMED_HOUSE, "wall_area_m2", NULL, 118, 118, 118, "m2", "entered for this house",
           ""),
     {SPANISH, 1, 0},
     "Superficie de pared",
     "1270" NB "pies²",
     "dato de esta casa"},
    {INPUT(PB_ASSUMED_HOUSE, "bay/width_m", NULL, 0.368, 0.368, 0.368, "m", "exercise file", ""),
     {WORDS_ENGLISH, 1, 0},
     "Bay width",
     "14.5" NB "in.",
     "exercise file"},
    {INPUT(PB_ASSUMED_HOUSE, "bay/depth_m", NULL, 0.089, 0.089, 0.089, "m", "exercise file", ""),
     {SPANISH, 1, 0},
     "Fondo de la cavidad",
     "3.5" NB "pulg.",
     "archivo de ejercicio"},
    {INPUT(PB_ASSUMED_HOUSE, "degree_days_k_d", NULL, 3700, 3300, 4100, "K d",
           "a sample, no real house", ""),
     {WORDS_ENGLISH, 1, 0},
     "Heating degree days",
     "6660 (5940 to 7380)" NB "°F d",
     "a sample, no real house"},
    {INPUT(PB_ASSUMED_HOUSE, "price_per_kwh", NULL, 0.09, 0.07, 0.12, "money/kWh",
           "a sample, no real house", ""),
     {SPANISH, 0, 1},
     "Precio del kWh",
     "0,09 (0,07 a 0,12)" NB "USD/kWh",
     "muestra, no es una casa real"},
    {INPUT(PB_ASSUMED_HOUSE, "efficiency", NULL, 0.85, 0.78, 0.94, "-", "entered for this house",
           ""),
     {WORDS_ENGLISH, 0, 0},
     "Efficiency of the heating",
     "85 (78 to 94)%",
     "entered for this house"},
    {INPUT(PB_ASSUMED_HOUSE, "outdoor_c", NULL, -5, -5, -5, "deg C", "entered for this house", ""),
     {SPANISH, 1, 0},
     "Aire exterior",
     "23" NB "°F",
     "dato de esta casa"},
    {INPUT(PB_ASSUMED_HOUSE, "bay", "A plain wall bay", 0, 0, 0, "", "exercise file", ""),
     {SPANISH, 0, 0},
     "Cavidad de la pared",
     "Una cavidad de pared sencilla",
     "archivo de ejercicio"},
    {INPUT(PB_ASSUMED_CLIMATE, "climate", "Long cold winters, dry rooms", 0, 0, 0, "",
           "climate file: made, not measured", ""),
     {SPANISH, 0, 0},
     "Clima",
     "Inviernos largos y fríos, interior seco",
     "archivo de clima: hecho, no medido"},
    {INPUT(PB_ASSUMED_CLIMATE, "climate/bay_rh", NULL, 0.45, 0.3, 0.6, "-",
           "climate file: made, not measured", ""),
     {SPANISH, 0, 0},
     "Humedad en la pared",
     "45 (30 a 60)" NB "%",
     "archivo de clima: hecho, no medido"},
    {INPUT(PB_ASSUMED_CASE, "foam", "typical", 0, 0, 0, "",
           "ranges of published shrinkage, not products", ""),
     {SPANISH, 0, 0},
     "Espuma",
     "típico",
     "márgenes de encogimiento publicado, no productos"},
    {INPUT(PB_ASSUMED_CONSTANT, "k_base_w_mk", NULL, 0.034, 0.032, 0.036, "W/(m K)",
           "fit to handbook values", "medium"),
     {SPANISH, 1, 0},
     "Celulosa: conducción de calor, base",
     "0.236 (0.222 a 0.25)" NB "Btu pulg./(h pie² °F)",
     "conocido a medias"},
    {INPUT(PB_ASSUMED_CONSTANT, "permeance_painted_board", NULL, 4e-10, 2e-10, 8e-10,
           "kg/(m2 s Pa)", "common values", "low"),
     {WORDS_ENGLISH, 1, 0},
     "Painted drywall: lets water vapor through",
     "6.99 (3.5 to 14)" NB "perm",
     "poorly known, our estimate"},
    {INPUT(PB_ASSUMED_CONSTANT, "permeance_painted_board", NULL, 4e-10, 2e-10, 8e-10,
           "kg/(m2 s Pa)", "common values", "low"),
     {WORDS_ENGLISH, 0, 0},
     "Painted drywall: lets water vapor through",
     "400 (200 to 800)" NB "ng/(m² s Pa)",
     "poorly known, our estimate"},
    {INPUT(PB_ASSUMED_CONSTANT, "sigma45_pa_s_m2", NULL, 5000, 3000, 10000, "Pa s/m2", "x",
           "LOW: one reading"),
     {WORDS_ENGLISH, 0, 0},
     "Cellulose: resistance to air",
     "5 (3 to 10)" NB "kPa s/m²",
     "poorly known, our estimate"},
};
enum { INPUTS = sizeof inputs / sizeof inputs[0] };

START_TEST(inputs_read_well)
{
    const IoAssumedReader reader = {inputs[_i].taste, "USD", NULL};
    char label[200], value[200], source[200];
    io_assumed_words(&inputs[_i].row, &reader, label, value, source, sizeof label);
    ck_assert_str_eq(label, inputs[_i].label);
    ck_assert_str_eq(value, inputs[_i].value);
    ck_assert_str_eq(source, inputs[_i].source);
}
END_TEST

/* Units of constants by value, SI and US: NIST SP 811:2008, appendix B, to three figures. */
static const struct {
    const char *unit;
    double value;
    const char *text[2];
} units[] = {
    {"Pa s/m2", 5000, {"5" NB "kPa s/m²", "9.7" NB "psf s/ft²"}},
    {"kg/kg", 0.13, {"13%", "13%"}},
    {"W/(m K)", 0.04, {"0.04" NB "W/(m K)", "0.277" NB "Btu in./(h ft² °F)"}},
    {"W m2/(kg K)",
     1e-4,
     {"0.1" NB "mW/(m K) per kg/m³", "0.0111" NB "Btu in./(h ft² °F) per lb/ft³"}},
    {"W kg/(m4 K)", 0.1, {"100" NB "mW/(m K) × kg/m³", "0.0433" NB "Btu in./(h ft² °F) × lb/ft³"}},
    {"kg/m3", 60, {"60" NB "kg/m³", "3.75" NB "lb/ft³"}},
    {"Pa s", 1.8e-5, {"18" NB "µPa s", "0.018" NB "cP"}},
    {"Pa", 350, {"350" NB "Pa", "7.31" NB "psf"}},
    {"years per kg/kg", 20, {"0.2" NB "years per 1%", "0.2" NB "years per 1%"}},
    {"kg/(m2 s Pa)", 1e-10, {"100" NB "ng/(m² s Pa)", "1.75" NB "perm"}},
    {"J/(kg K)", 1600, {"1600" NB "J/(kg K)", "0.382" NB "Btu/(lb °F)"}},
    {"m2/s", 2e-5, {"20" NB "mm²/s", "0.031" NB "in.²/s"}},
    {"m2 K/W", 0.1, {"0.1" NB "m²K/W", "0.568" NB "h ft² °F/Btu"}},
    {"W/(m2 K)", 8, {"8" NB "W/(m²K)", "1.41" NB "Btu/(h ft² °F)"}},
    {"m", 0.0127, {"12.7" NB "mm", "0.5" NB "in."}},
    {"m2", 1e-9, {"1000" NB "µm²", "1010" NB "darcy"}},
};
enum { UNITS = sizeof units / sizeof units[0] };

/* The same in Spanish, where words of a unit are others. */
static const struct {
    const char *unit;
    double value;
    int is_us;
    const char *text;
} spanish_units[] = {
    {"years", 12, 0, "12" NB "años"},
    {"days", 40, 0, "40" NB "días"},
    {"years per kg/kg", 20, 0, "0.2" NB "años por 1 %"},
    {"kg/m3", 60, 1, "3.75" NB "lb/pie³"},
    {"m", 0.0127, 1, "0.5" NB "pulg."},
    {"Pa s/m2", 5000, 1, "9.7" NB "psf s/pie²"},
};

START_TEST(units_have_spanish_words)
{
    const IoAssumedReader reader = {{SPANISH, spanish_units[_i].is_us, 0}, "USD", NULL};
    double v = spanish_units[_i].value;
    PbAssumed row = INPUT(PB_ASSUMED_CONSTANT, "some_constant", NULL, v, v, v,
                          spanish_units[_i].unit, "x", "low");
    char label[200], value[200], source[200];
    io_assumed_words(&row, &reader, label, value, source, sizeof label);
    ck_assert_str_eq(value, spanish_units[_i].text);
}
END_TEST

START_TEST(constants_read_in_the_units_of_a_page)
{
    for (int us = 0; us < 2; us++) {
        const IoAssumedReader reader = {{WORDS_ENGLISH, us, 0}, "USD", NULL};
        double v = units[_i].value;
        PbAssumed row =
            INPUT(PB_ASSUMED_CONSTANT, "some_constant", NULL, v, v, v, units[_i].unit, "x", "low");
        char label[200], value[200], source[200];
        io_assumed_words(&row, &reader, label, value, source, sizeof label);
        ck_assert_str_eq(value, units[_i].text[us]);
    }
}
END_TEST

/* Key, English, Spanish of what a person can judge. */
static const char *const labels[][3] = {
    {"wall_area_m2", "Wall area", "Superficie de pared"},
    {"framing_share", "Framing factor", "Parte de madera en la pared"},
    {"degree_days_k_d", "Heating degree days", "Grados día de calefacción"},
    {"fuel", "Fuel", "Energía"},
    {"price_per_kwh", "Price of a kWh", "Precio del kWh"},
    {"efficiency", "Efficiency of the heating", "Eficiencia de la calefacción"},
    {"room_c", "Room air", "Aire interior"},
    {"outdoor_c", "Outdoor air", "Aire exterior"},
    {"bay", "Bay of the wall", "Cavidad de la pared"},
    {"bay/width_m", "Bay width", "Ancho de la cavidad"},
    {"bay/height_m", "Bay height", "Alto de la cavidad"},
    {"bay/depth_m", "Bay depth", "Fondo de la cavidad"},
    {"climate", "Climate", "Clima"},
    {"climate/bay_rh", "Humidity in the wall", "Humedad en la pared"},
    {"climate/indoor_c", "Indoor air over the year", "Aire interior en el año"},
    {"climate/indoor_rh", "Indoor humidity over the year", "Humedad interior en el año"},
    {"climate/outdoor_c", "Outdoor air over the year", "Aire exterior en el año"},
    {"climate/outdoor_rh", "Outdoor humidity over the year", "Humedad exterior en el año"},
    {"climate/foam_ageing", "Foam ages so many times faster",
     "La espuma envejece tantas veces más rápido"},
    {"batt_k_w_mk", "Old batt: heat conduction", "Colcha vieja: conducción de calor"},
    {"foam", "Foam", "Espuma"},
    {"foam/inner", "Room side of the foam", "Lado interior de la espuma"},
    {"foam/outer", "Outside of the foam", "Lado exterior de la espuma"},
    {"dense", "Dense pack", "Empacado denso"},
    {"loose", "Loose blow", "Soplado suelto"},
    {"seed", "Seed of the packing", "Semilla del empacado"},
};

START_TEST(a_job_is_told_by_the_square_foot_too)
{
    PbHouse house = pb_house_default();
    house.wall_area_m2 = 149.0; /* 1604 square feet */
    PbAssumed row = INPUT(PB_ASSUMED_HOUSE, "job/price", NULL, 5600, 5600, 5600, "money",
                          "entered for this house", "");
    char label[200], value[200], source[200];
    IoAssumedReader reader = {{WORDS_ENGLISH, 1, 0}, "USD", &house};
    io_assumed_words(&row, &reader, label, value, source, sizeof label);
    ck_assert_str_eq(value, "5600" NB "USD (3.49" NB "USD/ft²)");
    reader.taste = (IoReaderTaste){SPANISH, 0, 0};
    io_assumed_words(&row, &reader, label, value, source, sizeof label);
    ck_assert_str_eq(value, "5600" NB "USD (37.6" NB "USD/m²)");
}
END_TEST

START_TEST(inputs_have_these_labels)
{
    char label[200], value[200], source[200];
    for (int language = 0; language < 2; language++) {
        const IoAssumedReader reader = {{language, 0, 0}, "USD", NULL};
        PbAssumed row = INPUT(PB_ASSUMED_HOUSE, labels[_i][0], NULL, 1, 1, 1, "-", "handbook", "");
        io_assumed_words(&row, &reader, label, value, source, sizeof label);
        ck_assert_str_eq(label, labels[_i][1 + language]);
    }
}
END_TEST

/* Every input of a comparison, with foam of each case and a batt in the bay: no name of the code,
 * no exponent, no unit of the other system, and no word of English in Spanish. */
START_TEST(every_input_has_a_name_and_a_value_for_each_reader)
{
    static const char *const si[] = {"kg", "Pa", "W/", " m", "J/", "K"}, *const us[] = {
                                                                             "ft",  "in.", "lb",
                                                                             "Btu", "psf", "°F",
                                                                             "perm"};
    PbCompareSetup setup = pb_compare_default();
    setup.draws = 0;
    setup.house.bay.obstacles[0] =
        (PbObstacle){PB_OBSTACLE_BATT, 0.0, 1.3, setup.house.bay.width_m, 2.0, 0.0, 0.5};
    setup.house.bay.obstacle_count = 1;
    for (int foam = 0; foam < 3; foam++) {
        if (foam == 2) { /* layers, a bill and a job have inputs of their own */
            setup.house.wall = pb_wall_usual();
            setup.house.bill = (PbBill){1, {1, 1.4, 2}, 900.0, {0.1, 0.2, 0.3}};
            setup.house.job = (PbJob){4000.0, 500.0, 20.0};
            setup.house.cavity = (PbCavity){PB_CAVITY_LOOSE, 0.7};
        }
        PbCompare *c;
        PbAssumed rows[PB_COMPARE_MAX_ROWS];
        PbError err = {0};
        setup.house.foam = (PbFoamClass)foam;
        ck_assert_msg(pb_compare_create(&setup, &c, &err) == PB_OK, "%s", err.message);
        int count = pb_compare_assumed(c, rows, PB_COMPARE_MAX_ROWS);
        ck_assert_int_gt(count, 70);
        for (int i = 0; i < count; i++) {
            char label[2][200], value[200], source[2][200];
            for (int k = 0; k < 4; k++) {
                const IoAssumedReader reader = {{k / 2, k % 2, 0}, "EUR", &setup.house};
                io_assumed_words(&rows[i], &reader, label[k / 2], value, source[k / 2],
                                 sizeof value);
                ck_assert_msg(strchr(label[k / 2], '_') == NULL, "%s", label[k / 2]);
                ck_assert_msg(strstr(value, "e-") == NULL && strstr(value, "e+") == NULL, "%s: %s",
                              rows[i].key, value);
                size_t n = k % 2 ? sizeof si / sizeof si[0] : sizeof us / sizeof us[0];
                for (size_t w = 0; w < n && rows[i].text == NULL; w++) {
                    const char *other = k % 2 ? si[w] : us[w];
                    int is_energy = strstr(value, "kWh") != NULL || strstr(value, "J") != NULL;
                    ck_assert_msg(is_energy || strstr(value, other) == NULL, "%s: %s", rows[i].key,
                                  value);
                }
            }
            ck_assert_msg(strcmp(label[0], label[1]) != 0 || strcmp(rows[i].key, "fuel") == 0, "%s",
                          label[0]);
            ck_assert_msg(strcmp(source[0], source[1]) != 0, "%s: %s", rows[i].key, source[0]);
        }
        pb_compare_destroy(c);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("assumed_words");
    TCase *all = tcase_create("all");
    tcase_add_loop_test(all, inputs_read_well, 0, INPUTS);
    tcase_add_loop_test(all, constants_read_in_the_units_of_a_page, 0, UNITS);
    tcase_add_loop_test(all, units_have_spanish_words, 0, 6);
    tcase_add_test(all, a_job_is_told_by_the_square_foot_too);
    tcase_add_loop_test(all, inputs_have_these_labels, 0, sizeof labels / sizeof labels[0]);
    tcase_add_test(all, every_input_has_a_name_and_a_value_for_each_reader);
    suite_add_tcase(suite, all);
    return run_suite(suite);
}
