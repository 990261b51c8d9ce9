/* Air through the walls in words: each state reads so in both languages and both unit systems. */
#include "io/air_words.h"

#include "languages.h"
#include "suite.h"

#include <stdio.h>
#include <string.h>

#define NB "\xC2\xA0"

static const IoReaderTaste english = {.language = WORDS_ENGLISH, .is_us = 1},
                           spanish = {.language = SPANISH};

static PbCompareAir air(void)
{
    PbCompareAir a;
    memset(&a, 0, sizeof a);
    a.is_known = a.is_ready = 1;
    a.draws = 40;
    a.house_50_m3_s = (PbHeatRange){1.1, 1.9, 2.9};
    a.share = (PbHeatRange){0.091, 0.175, 0.302};
    a.cut = (PbHeatRange){0.058, 0.12, 0.228};
    a.walls_m3_s = (PbHeatRange){0.0071, 0.014, 0.0312};
    a.walls_50_m3_s = (PbHeatRange){0.15, 0.3, 0.62};
    a.heat_kwh = (PbHeatRange){310, 700, 1430};
    return a;
}

static void reads(PbCompareFill fill, const PbCompareAir *a, const char *us, const char *si)
{
    char text[500];
    io_air_sentence(fill, a, english, text, sizeof text);
    ck_assert_str_eq(text, us);
    io_air_sentence(fill, a, spanish, text, sizeof text);
    ck_assert_str_eq(text, si);
}

START_TEST(each_state_reads_so)
{
    PbCompareAir a = air();
    reads(PB_COMPARE_EMPTY, &a,
          "In winter 15 to 66" NB "cfm of air leaks through the bays of the walls, 9 to 30% of the "
          "house's leaks, and carries 300 to 1400" NB "kWh of heat a year out of the rooms. The "
          "house is taken to leak 2300 to 6100" NB "cfm50 in a blower-door test, by its age and "
          "size; nobody measured it.",
          "En invierno se fugan 7 a 31" NB "L/s de aire por las cavidades de las paredes, 9 a 30" NB
          "% de las fugas de la casa, y sacan 300 a 1400" NB "kWh de calor al año de los cuartos. "
          "Se supone que la casa fuga 4000 a 10000" NB
          "m³/h en una prueba de puerta sopladora, por su "
          "edad y tamaño; nadie lo midió.");
    reads(PB_COMPARE_DENSE, &a,
          "Lets 15 to 66" NB "cfm of air through the bays in winter, carrying 300 to 1400" NB
          "kWh of heat a year; the house leaks 6 to 23% less.",
          "Deja pasar 7 a 31" NB "L/s de aire por las cavidades en invierno, con 300 a 1400" NB
          "kWh de calor al año; la casa fuga 6 a 23" NB "% menos.");
}
END_TEST

/* A tenth of a liter a second is not known of a house. */
START_TEST(little_is_told_as_little)
{
    PbCompareAir a = air();
    a.walls_m3_s = (PbHeatRange){0.0001, 0.0006, 0.0034};
    a.heat_kwh = (PbHeatRange){4, 20, 60};
    reads(PB_COMPARE_DENSE, &a,
          "Lets up to 7" NB "cfm of air through the bays in winter, carrying up to 60" NB
          "kWh of heat a year; the house leaks 6 to 23% less.",
          "Deja pasar hasta 3" NB "L/s de aire por las cavidades en invierno, con hasta 60" NB
          "kWh de calor al año; la casa fuga 6 a 23" NB "% menos.");
    a.draws = 5;
    reads(PB_COMPARE_DENSE, &a,
          "Lets ≈" NB "1" NB "cfm of air through the bays in winter, carrying ≈" NB "20" NB
          "kWh of heat a year; the house leaks ≈" NB "12% less.",
          "Deja pasar <1" NB "L/s de aire por las cavidades en invierno, con ≈" NB "20" NB
          "kWh de calor al año; la casa fuga ≈" NB "12" NB "% menos.");
    a = air();
    a.is_measured = 1;
    a.house_50_m3_s = (PbHeatRange){1.8, 1.9, 2.0};
    char text[500];
    io_air_sentence(PB_COMPARE_EMPTY, &a, english, text, sizeof text);
    ck_assert_ptr_nonnull(
        strstr(text, " The house leaks 3800 to 4200" NB "cfm50 by its blower door."));
}
END_TEST

START_TEST(what_is_not_known_is_said_once)
{
    PbCompareAir a = air();
    a.is_ready = 0;
    reads(PB_COMPARE_DENSE, &a, "", "");
    a.is_known = 0;
    reads(PB_COMPARE_DENSE, &a, "", "");
    reads(PB_COMPARE_EMPTY, &a,
          "What leaks through the house is not known: give its floor area or the figure of a "
          "blower door. No air is counted in what is saved.",
          "No se sabe cuánto aire fuga la casa: dé su superficie de piso o la cifra de una "
          "puerta sopladora. El ahorro no cuenta aire.");
    char text[64];
    io_air_shown(IO_AIR_FLOW, &a, english, text, sizeof text);
    ck_assert_str_eq(text, "-");
}
END_TEST

int main(void)
{
    Suite *s = suite_create("air_words");
    TCase *tc = tcase_create("normal");
    tcase_add_test(tc, each_state_reads_so);
    tcase_add_test(tc, little_is_told_as_little);
    tcase_add_test(tc, what_is_not_known_is_said_once);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
