/* Whom figures are for: units and decimal mark from the locale, one way to write each unit. */
#include "io/taste.h"
#include "languages.h"
#include "suite.h"

#include <stdio.h>
#include <string.h>

static const struct {
    const char *all, *measurement, *numeric, *lang;
    int is_us, is_comma; /* comma: of Spanish */
} places[] = {
    {NULL, NULL, NULL, NULL, 0, 0},
    {"C", NULL, NULL, "en_US.UTF-8", 0, 0},
    {NULL, NULL, NULL, "C.UTF-8", 0, 0},
    {NULL, NULL, NULL, "POSIX", 0, 0},
    {NULL, NULL, NULL, "en_US.UTF-8", 1, 0},
    {NULL, NULL, NULL, "en_US", 1, 0},
    {NULL, NULL, NULL, "es_US.UTF-8", 1, 0},
    {NULL, NULL, NULL, "en-US", 1, 0},
    {NULL, NULL, NULL, "en_US@euro", 1, 0},
    {"", NULL, NULL, "en_US.UTF-8", 1, 0},
    {NULL, "de_DE.UTF-8", NULL, "en_US.UTF-8", 0, 0},
    {NULL, "en_US.UTF-8", NULL, "es_ES.UTF-8", 1, 1},
    {"en_US.UTF-8", "de_DE.UTF-8", "es_ES.UTF-8", "es_ES.UTF-8", 1, 0},
    {NULL, NULL, NULL, "en_LR.UTF-8", 1, 0},
    {NULL, NULL, NULL, "my_MM.UTF-8", 1, 0},
    {NULL, NULL, NULL, "en_CA.UTF-8", 0, 0},
    {NULL, NULL, NULL, "es", 0, 0},
    {NULL, NULL, NULL, "es_MX.UTF-8", 0, 0},
    {NULL, NULL, NULL, "es_GT.UTF-8", 0, 0},
    {NULL, NULL, NULL, "es_HN.UTF-8", 0, 0},
    {NULL, NULL, NULL, "es_SV.UTF-8", 0, 0},
    {NULL, NULL, NULL, "es_NI.UTF-8", 0, 0},
    {NULL, NULL, NULL, "es_PA.UTF-8", 0, 0},
    {NULL, NULL, NULL, "es_PR.UTF-8", 0, 0},
    {NULL, NULL, NULL, "es_DO.UTF-8", 0, 0},
    {NULL, NULL, NULL, "es_PE.UTF-8", 0, 0},
    {NULL, NULL, NULL, "es_419", 0, 0},
    {NULL, NULL, NULL, "es_ES.UTF-8", 0, 1},
    {NULL, NULL, NULL, "es_AR", 0, 1},
    {NULL, NULL, NULL, "es_CL@x", 0, 1},
    {NULL, NULL, NULL, "es_CO.UTF-8", 0, 1},
    {NULL, NULL, NULL, "es_CR.UTF-8", 0, 1},
    {NULL, NULL, "es_MX.UTF-8", "es_ES.UTF-8", 0, 0},
};
enum { PLACES = sizeof places / sizeof places[0] };

static void put(const char *name, const char *value)
{
    if (value != NULL) {
        setenv(name, value, 1);
    } else {
        unsetenv(name);
    }
}

START_TEST(units_and_mark_come_from_the_country)
{
    put("LC_ALL", places[_i].all);
    put("LC_MEASUREMENT", places[_i].measurement);
    put("LC_NUMERIC", places[_i].numeric);
    put("LANG", places[_i].lang);
    IoReaderTaste spanish = io_taste_here(SPANISH), english = io_taste_here(WORDS_ENGLISH);
    ck_assert_int_eq(spanish.language, SPANISH);
    ck_assert_int_eq(english.language, WORDS_ENGLISH);
    ck_assert_int_eq(spanish.is_us, places[_i].is_us);
    ck_assert_int_eq(english.is_us, places[_i].is_us);
    ck_assert_int_eq(spanish.is_comma, places[_i].is_comma);
    ck_assert_int_eq(english.is_comma, 0);
}
END_TEST

START_TEST(a_language_may_name_its_country)
{
    IoReaderTaste t = {WORDS_ENGLISH, 1, 0};
    put("LC_ALL", "es_ES.UTF-8");
    ck_assert_int_eq(io_taste_language(&t, "es"), 1);
    ck_assert_int_eq(t.language, SPANISH);
    ck_assert_int_eq(t.is_comma, 1); /* the country of the environment */
    ck_assert_int_eq(t.is_us, 1);    /* as it was */
    ck_assert_int_eq(io_taste_language(&t, "es_MX"), 1);
    ck_assert_int_eq(t.is_comma, 0);
    ck_assert_int_eq(io_taste_language(&t, "en"), 1);
    ck_assert_int_eq(t.language, WORDS_ENGLISH);
    ck_assert_int_eq(io_taste_language(&t, "de"), 0);
}
END_TEST

static const struct {
    IoUnit unit;
    double si;
    const char *text[4]; /* English SI and US, Spanish SI and US with a comma */
} figures[] = {
    {IO_UNIT_LENGTH, 0.62, {"0.62 m", "2.0 ft", "0,62 m", "2,0 pies"}},
    {IO_UNIT_SMALL, 0.0123, {"12.3 mm", "0.48 in.", "12,3 mm", "0,48 pulg."}},
    {IO_UNIT_DENSITY, 43.2, {"43 kg/m³", "2.7 lb/ft³", "43 kg/m³", "2,7 lb/pie³"}},
    {IO_UNIT_MASS, 1.5, {"1.50 kg", "3.3 lb", "1,50 kg", "3,3 lb"}},
    {IO_UNIT_FEED, 0.05, {"3.00 kg/min", "6.6 lb/min", "3,00 kg/min", "6,6 lb/min"}},
    {IO_UNIT_PRESSURE, 20000.0, {"20.0 kPa", "80 in. w.c.", "20,0 kPa", "80 pulg. c.a."}},
    {IO_UNIT_LOAD, 3350.0, {"3.4 kPa", "70 psf", "3,4 kPa", "70 lb/pie²"}},
    {IO_UNIT_FLOW, 0.024, {"24.0 L/s", "51 cfm", "24,0 L/s", "51 cfm"}},
    {IO_UNIT_AREA, 0.25, {"0.25 m²", "2.7 ft²", "0,25 m²", "2,7 pies²"}},
    {IO_UNIT_SMALL_AREA, 0.0125, {"125 cm²", "19 in.²", "125 cm²", "19 pulg.²"}},
};

START_TEST(each_unit_is_written_in_one_way)
{
    ck_assert_uint_eq(sizeof figures / sizeof figures[0], IO_UNIT_LIMIT);
    for (int i = 0; i < IO_UNIT_LIMIT; i++) {
        for (int k = 0; k < 4; k++) {
            IoReaderTaste t = {k < 2 ? WORDS_ENGLISH : SPANISH, k % 2, k >= 2};
            char text[48];
            io_unit_figure(figures[i].unit, figures[i].si, t, text, sizeof text);
            ck_assert_str_eq(text, figures[i].text[k]);
        }
    }
}
END_TEST

START_TEST(per_cent_and_stops_stand_as_each_language_has_them)
{
    char text[48];
    io_figure(80.0, 0, "%", (IoReaderTaste){WORDS_ENGLISH, 1, 0}, text, sizeof text);
    ck_assert_str_eq(text, "80%");
    io_figure(79.6, 1, "%", (IoReaderTaste){SPANISH, 1, 0}, text, sizeof text);
    ck_assert_str_eq(text, "79.6 %");
    io_figure(-0.004, 1, "", (IoReaderTaste){WORDS_ENGLISH, 0, 0}, text, sizeof text);
    ck_assert_str_eq(text, "0.0");
    snprintf(text, sizeof text, "gaps of up to 0.3 in.");
    io_full_stop(text, sizeof text);
    ck_assert_str_eq(text, "gaps of up to 0.3 in.");
    snprintf(text, sizeof text, "packed");
    io_full_stop(text, sizeof text);
    ck_assert_str_eq(text, "packed.");
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("taste");
    TCase *all = tcase_create("all");
    tcase_add_loop_test(all, units_and_mark_come_from_the_country, 0, PLACES);
    tcase_add_test(all, a_language_may_name_its_country);
    tcase_add_test(all, each_unit_is_written_in_one_way);
    tcase_add_test(all, per_cent_and_stops_stand_as_each_language_has_them);
    suite_add_tcase(suite, all);
    return run_suite(suite);
}
