/* Savings and layers in words: each state reads so in both languages, and what is held back is told
 * nowhere. */
#include "io/saving_words.h"
#include "io/wall_words.h"

#include "languages.h"
#include "suite.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define NB "\xC2\xA0"

static PbHouse house(void)
{
    PbHouse h = pb_house_default();
    h.bill = (PbBill){pb_fuel_find("gas-therm") + 1, {1, 1.4, 2}, 900.0, {0.1, 0.2, 0.3}};
    return h;
}

static PbCompareSaving saving(void)
{
    PbCompareSaving s;
    memset(&s, 0, sizeof s);
    s.is_ready = 1;
    s.draws = s.kept = 40;
    s.better = 38;
    s.wall_units = (PbHeatRange){310, 350, 420};
    s.wall_share = (PbHeatRange){0.31, 0.36, 0.42};
    s.bill_units = 720;
    s.units = (PbHeatRange){112, 150, 194};
    s.money = (PbHeatRange){150, 210, 290};
    s.payback_years = (PbHeatRange){12.2, 17.0, 24.0};
    return s;
}

static void reads(PbCompareFill fill, const PbCompareSaving *s, const PbHouse *h,
                  const char *english, const char *spanish)
{
    char text[500];
    io_saving_sentence(fill, s, h, (IoReaderTaste){.language = WORDS_ENGLISH}, text, sizeof text);
    ck_assert_str_eq(text, english);
    io_saving_sentence(fill, s, h, (IoReaderTaste){.language = SPANISH}, text, sizeof text);
    ck_assert_str_eq(text, spanish);
}

START_TEST(each_state_reads_so)
{
    PbHouse h = house();
    PbCompareSaving s = saving();
    reads(PB_COMPARE_DENSE, &s, &h,
          "Saves 110 to 190" NB "therms a year, 150 to 290" NB
          "USD, against the wall as it is; it saves something in 38 of 40 trials.",
          "Ahorra 110 a 190" NB "therms al año, 150 a 290" NB
          "USD, frente a la pared como está; ahorra algo en 38 de 40 corridas.");
    s.heat_kwh = (PbHeatRange){1840.0, 2500.0, 3100.0};
    reads(PB_COMPARE_DENSE, &s, &h,
          "Saves 110 to 190" NB "therms a year, 150 to 290" NB
          "USD, against the wall as it is; it saves something in 38 of 40 trials, in 9 of 10 at "
          "least 74% of the figure by usual values.",
          "Ahorra 110 a 190" NB "therms al año, 150 a 290" NB
          "USD, frente a la pared como está; ahorra algo en 38 de 40 corridas, en 9 de 10 al menos "
          "74" NB "% de la cifra con valores usuales.");
    s.heat_kwh.low = -1.0; /* of less than nothing no share is told */
    reads(PB_COMPARE_EMPTY, &s, &h,
          "The walls as they are take 310 to 420" NB
          "therms a year, 31 to 42% of the house's heat.",
          "Las paredes como están se llevan 310 a 420" NB "therms al año, 31 a 42" NB
          "% del calor de la casa.");
    h.cooling.price_kwh = (PbHeatRange){0.1, 0.15, 0.2};
    s.cool_kwh = (PbHeatRange){-20, 120, 310};
    reads(PB_COMPARE_DENSE, &s, &h,
          "Saves 110 to 190" NB "therms a year and -20 to 310" NB "kWh of cooling, 150 to 290" NB
          "USD, against the wall as it is; it saves something in 38 of 40 trials.",
          "Ahorra 110 a 190" NB "therms al año y -20 a 310" NB "kWh de enfriamiento, 150 a 290" NB
          "USD, frente a la pared como está; ahorra algo en 38 de 40 corridas.");
    h = house();
    h.job = (PbJob){4000.0, 500.0, 20.0};
    s.draws = s.kept = 3;
    reads(PB_COMPARE_DENSE, &s, &h,
          "Saves ≈" NB "150" NB "therms a year, ≈" NB "210" NB
          "USD, against the wall as it is; no range yet: 3 of 20 trials. Paid back in ≈" NB "17" NB
          "years, without interest or a change of price.",
          "Ahorra ≈" NB "150" NB "therms al año, ≈" NB "210" NB
          "USD, frente a la pared como está; sin margen todavía: 3 de 20 corridas. Se paga en ≈" NB
          "17" NB "años, sin intereses ni cambio de precio.");
    s.is_ready = 0;
    reads(PB_COMPARE_DENSE, &s, &h, "", "");
}
END_TEST

START_TEST(what_is_held_back_is_told_nowhere)
{
    PbHouse h = house();
    PbCompareSaving s = saving();
    char text[100];
    s.is_over_bill = 1;
    s.kept = 0;
    s.wall_units = (PbHeatRange){980, 980, 980};
    reads(
        PB_COMPARE_FOAM, &s, &h,
        "The walls alone would burn more than the bill: ≈" NB "980" NB
        "therms, and the bill has 720" NB
        "therms for heating. Check area, layers, degree days and the bill; savings are held back.",
        "Solo las paredes gastarían más que el recibo: ≈" NB "980" NB
        "therms, y el recibo tiene 720" NB
        "therms para calentar. Revise superficie, capas, grados día y recibo; el ahorro se "
        "retiene.");
    for (int f = IO_SAVING_FUEL; f <= IO_SAVING_PAYBACK; f++) {
        io_saving_shown((IoSavingFigure)f, &s, &h, (IoReaderTaste){.language = WORDS_ENGLISH}, text,
                        sizeof text);
        ck_assert_str_eq(text, "held back");
    }
    s = saving();
    s.kept = 19; /* of 40: too few for a range that means anything */
    ck_assert(io_saving_is_held(&s));
    io_saving_sentence(PB_COMPARE_DENSE, &s, &h, (IoReaderTaste){.language = WORDS_ENGLISH}, text,
                       sizeof text);
    ck_assert_ptr_nonnull(strstr(text, "In 21 of 40 trials the walls alone"));
    s.kept = 20;
    ck_assert(!io_saving_is_held(&s));
}
END_TEST

START_TEST(payback_reads_so)
{
    static const struct {
        PbHeatRange years;
        const char *text;
    } rows[] = {
        {{0, 0, 0}, "-"},
        {{12.2, 17.0, 24.0}, "12 to 24" NB "years"},
        {{12.2, 12.3, 12.4}, "12" NB "years"},
        {{30.0, 60.0, HUGE_VAL}, "30" NB "years or more"},
        {{HUGE_VAL, HUGE_VAL, HUGE_VAL}, "never"},
    };
    PbHouse h = house();
    PbCompareSaving s = saving();
    char text[100];
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        s.payback_years = rows[i].years;
        io_saving_shown(IO_SAVING_PAYBACK, &s, &h, (IoReaderTaste){.language = WORDS_ENGLISH}, text,
                        sizeof text);
        ck_assert_str_eq(text, rows[i].text);
    }
    h.job = (PbJob){9000.0, 0.0, 20.0};
    s.payback_years = (PbHeatRange){24.0, 30.0, 50.0};
    char sentence[500];
    io_saving_sentence(PB_COMPARE_DENSE, &s, &h, (IoReaderTaste){.language = WORDS_ENGLISH},
                       sentence, sizeof sentence);
    ck_assert_ptr_nonnull(strstr(sentence, "Not paid back within the 20 years"));
}
END_TEST

START_TEST(every_layer_and_fuel_has_its_name)
{
    char english[300], spanish[300];
    for (int p = 0; p < PB_WALL_PLACES; p++) {
        ck_assert_str_ne(io_wall_place_name((PbWallPlace)p, WORDS_ENGLISH),
                         io_wall_place_name((PbWallPlace)p, SPANISH));
        for (int n = 0; n < pb_wall_layer_count((PbWallPlace)p); n++) {
            const char *id = pb_wall_layer((PbWallPlace)p, n)->id;
            ck_assert_str_ne(io_layer_name((PbWallPlace)p, n, WORDS_ENGLISH),
                             io_layer_name((PbWallPlace)p, n, SPANISH));
            ck_assert_msg(strchr(io_layer_name((PbWallPlace)p, n, SPANISH), '-') == NULL ||
                              strcmp(id, "asbestos-cement") == 0,
                          "%s has no name", id);
        }
    }
    for (int n = 0; n < pb_fuel_count(); n++) {
        PbHouse h = house();
        h.bill.fuel = n + 1;
        ck_assert_uint_gt(strlen(io_fuel_name(n, SPANISH)), 4);
        ck_assert_uint_gt(strlen(io_fuel_unit(&h, SPANISH)), 1);
        ck_assert_uint_gt(strlen(io_fuel_each(&h, SPANISH)), 1);
    }
    PbWall w = pb_wall_usual();
    io_wall_words(&w, WORDS_ENGLISH, english, sizeof english);
    ck_assert_str_eq(english, "1/2 in. drywall, 1/2 in. plywood, felt, lapped wood siding");
    io_wall_words(&w, SPANISH, spanish, sizeof spanish);
    ck_assert_str_eq(spanish,
                     "tablero de yeso de 1/2, triplay de 1/2, fieltro, traslape de madera");
    w.is_layered = 0;
    io_wall_words(&w, WORDS_ENGLISH, english, sizeof english);
    ck_assert_ptr_nonnull(strstr(english, "simple wall"));
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("saving_words");
    TCase *all = tcase_create("all");
    tcase_add_test(all, each_state_reads_so);
    tcase_add_test(all, what_is_held_back_is_told_nowhere);
    tcase_add_test(all, payback_reads_so);
    tcase_add_test(all, every_layer_and_fuel_has_its_name);
    suite_add_tcase(suite, all);
    return run_suite(suite);
}
