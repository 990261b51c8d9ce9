/* A comparison in words: every state has its sentence in both languages, figures keep their unit
 * and their comma, and the same state never reads two ways. */
#include "io/compare_words.h"

#include "languages.h"
#include "suite.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static PbCompareFigures figures(void)
{
    PbCompareFigures f;
    memset(&f, 0, sizeof f);
    f.years = 30.0;
    f.has_fill = f.has_heat = 1;
    f.top_gap_m = (PbHeatRange){0.33, 0.4, 0.54};
    f.shrink_frac = (PbHeatRange){0.041, 0.05, 0.058};
    f.stud_gap_m = 0.0072;
    f.face_gap_m = 0.0044;
    f.mean_kg_m3 = 56.2;
    f.inner_void_area_m2 = 0.0312;
    f.heat_ratio = (PbHeatRange){1.5, 1.7, 1.9};
    f.r_m2k_w = (PbHeatRange){1.2, 1.4, 1.6};
    f.draws = f.pairs = 40;
    f.against_log = (PbHeatRange){log(0.83), log(0.9), log(0.95)};
    return f;
}

START_TEST(every_state_has_a_whole_sentence_in_both_languages)
{
    char text[2][400], other[400];
    int lengths_differ = 0;
    for (int s = PB_SAYS_NOTHING_YET + 1; s < PB_SAYS_LIMIT; s++) {
        for (int b = PB_BESIDE_NONE; b <= PB_BESIDE_LESS; b++) {
            PbCompareSaying say = {(PbCompareSays)s, (PbCompareBeside)b, PB_COMPARE_DENSE,
                                   figures()};
            for (int k = 0; k < 2; k++) {
                IoReaderTaste taste = {k, 0, 0};
                io_compare_sentence(&say, taste, text[k], sizeof text[k]);
                size_t n = strlen(text[k]);
                ck_assert_uint_gt(n, 15);
                ck_assert_uint_lt(n, 330);
                ck_assert_msg(text[k][n - 1] == '.' && strpbrk(text[k], "{}") == NULL, "%s",
                              text[k]);
                say.beside = PB_BESIDE_NONE;
                io_compare_sentence(&say, taste, other, sizeof other);
                lengths_differ += strlen(other) != n;
                say.beside = (PbCompareBeside)b;
            }
            ck_assert_str_ne(text[0], text[1]);
        }
    }
    ck_assert_int_gt(lengths_differ, 0);
}
END_TEST

#define NB "\xC2\xA0"

/* Every state and every verdict by value: words, figures, units, decimal mark. */
static const struct {
    PbCompareSays says;
    const char *text[2]; /* English in US units, Spanish in SI */
} states[] = {
    {PB_SAYS_EMPTY, {"Nothing in the wall.", "Nada en la pared."}},
    {PB_SAYS_LOOSE, {"Blown in loosely at 3.5" NB "lb/ft³.", "Soplado suelto a 56" NB "kg/m³."}},
    {PB_SAYS_FOAM,
     {"Foam that shrinks as it dries and ages.", "Espuma que encoge al secarse y con los años."}},
    {PB_SAYS_DENSE,
     {"Packed to 3.5" NB "lb/ft³ on average.", "Empacado a 56" NB "kg/m³ en promedio."}},
    {PB_SAYS_EMPTY_LOOP,
     {"Nothing in the wall: air turns over inside it, and it lets through 1.50 to 1.90" NB
      "times the heat of a wall packed full.",
      "Nada en la pared: el aire da vueltas dentro y deja pasar 1.50 a 1.90" NB
      "veces el calor de una pared bien llena."}},
    {PB_SAYS_EMPTY_STILL,
     {"Nothing in the wall: it lets through 1.50 to 1.90" NB
      "times the heat of a wall packed full.",
      "Nada en la pared: deja pasar 1.50 a 1.90" NB "veces el calor de una pared bien llena."}},
    {PB_SAYS_LOOSE_FULL,
     {"Blown in loosely at 3.5" NB "lb/ft³: full to the top so far, and light enough that it may "
      "sink.",
      "Soplado suelto a 56" NB "kg/m³: lleno hasta arriba por ahora, y tan ligero que puede "
      "asentarse."}},
    {PB_SAYS_LOOSE_MAY,
     {"Blown in loosely: by now it may have sunk and left up to 21" NB "in. open at the top.",
      "Soplado suelto: a estas alturas puede haberse asentado y dejado hasta 54" NB
      "cm abierto arriba."}},
    {PB_SAYS_LOOSE_GAP,
     {"Blown in loosely: under what is assumed it has sunk by now and left 13 to 21" NB
      "in. open at the top.",
      "Soplado suelto: con lo que se supone ya se ha asentado y deja 33 a 54" NB
      "cm abierto arriba."}},
    {PB_SAYS_LOOSE_HOLLOW,
     {"Blown in loosely at 3.5" NB "lb/ft³, hollow in places: 48" NB
      "in.² is empty inside, and it is light enough that it may sink.",
      "Soplado suelto a 56" NB "kg/m³, con partes vacías: 312" NB
      "cm² sin nada dentro, y tan ligero que puede asentarse."}},
    {PB_SAYS_LOOSE_VOIDS,
     {"Blown in loosely, with empty places: 48" NB "in.² is empty inside and 13 to 21" NB
      "in. open at the top, and heat gets through there.",
      "Soplado suelto, con partes vacías: 312" NB "cm² vacíos dentro y 33 a 54" NB
      "cm abierto arriba, y por ahí pasa el calor."}},
    {PB_SAYS_FOAM_WET,
     {"Foam, still wet: it fills the wall as it was injected, and its water carries heat until it "
      "has dried.",
      "Espuma, todavía húmeda: llena la pared como se inyectó, y su agua lleva calor hasta que se "
      "seca."}},
    {PB_SAYS_FOAM_TIGHT,
     {"Foam, dry by now, with no gap that counts so far: it fills the wall as it was injected.",
      "Espuma, ya seca, sin rendija que cuente por ahora: llena la pared como se "
      "inyectó."}},
    {PB_SAYS_FOAM_GAPS,
     {"If the foam has shrunk 4.1 to 5.8% by now, gaps are up to 0.3" NB
      "in. wide, too narrow for air to carry much heat.",
      "Si la espuma ha encogido 4.1 a 5.8" NB "% hasta ahora, las rendijas son de hasta 7.2" NB
      "mm, muy angostas para que el aire lleve mucho calor."}},
    {PB_SAYS_FOAM_LOOP,
     {"If the foam has shrunk 4.1 to 5.8% by now, gaps are up to 0.3" NB
      "in. wide, and air carries heat through them.",
      "Si la espuma ha encogido 4.1 a 5.8" NB "% hasta ahora, las rendijas son de hasta 7.2" NB
      "mm, y el aire lleva calor por ellas."}},
    {PB_SAYS_DENSE_FULL,
     {"Packed to 3.5" NB
      "lb/ft³ on average: the model opens no gap at the top so far, which only a look can prove.",
      "Empacado a 56" NB "kg/m³ en promedio: el modelo no abre ningún espacio vacío arriba por "
      "ahora, lo que solo se prueba mirando."}},
    {PB_SAYS_DENSE_MAY,
     {"Packed to 3.5" NB "lb/ft³ on average: by now up to 21" NB "in. may be open at the top.",
      "Empacado a 56" NB "kg/m³ en promedio: a estas alturas puede haber hasta 54" NB
      "cm abierto arriba."}},
    {PB_SAYS_DENSE_GAP,
     {"Packed to 3.5" NB "lb/ft³ on average, too soft in places: under what is assumed 13 to 21" NB
      "in. is open at the top by now.",
      "Empacado a 56" NB "kg/m³ en promedio, flojo en partes: con lo que se supone ya hay "
      "33 a 54" NB "cm abierto arriba."}},
    {PB_SAYS_DENSE_BLOWN_OUT,
     {"The wall blew out while it was packed: a fill like this does not stand.",
      "La pared reventó al empacar: un relleno así no queda en pie."}},
    {PB_SAYS_NOW, {"The wall with what is in it now.", "La pared con lo que tiene ahora."}},
    {PB_SAYS_NOW_HEAT,
     {"With what is in it now the wall lets through 1.50 to 1.90" NB
      "times the heat of one packed full.",
      "Con lo que tiene ahora la pared deja pasar 1.50 a 1.90" NB
      "veces el calor de una bien llena."}},
    {PB_SAYS_DENSE_VOIDS,
     {"Packed with soft and empty places: 48" NB "in.² is empty inside and 13 to 21" NB
      "in. open at the top, and heat gets through there.",
      "Empacado con partes flojas y vacías: 312" NB "cm² vacíos dentro y 33 a 54" NB
      "cm abierto arriba, y por ahí pasa el calor."}},
};
enum { STATES = sizeof states / sizeof states[0] };

START_TEST(each_state_reads_so)
{
    PbCompareSaying say = {states[_i].says, PB_BESIDE_NONE, PB_COMPARE_DENSE, figures()};
    char text[400];
    ck_assert_int_eq(STATES, PB_SAYS_LIMIT - 1);
    if (say.says >= PB_SAYS_FOAM_TIGHT && say.says <= PB_SAYS_FOAM_LOOP) {
        say.figures.top_gap_m = (PbHeatRange){0.005, 0.005, 0.005}; /* narrower than at the studs */
    }
    io_compare_sentence(&say, (IoReaderTaste){.language = WORDS_ENGLISH, .is_us = 1}, text,
                        sizeof text);
    ck_assert_str_eq(text, states[_i].text[0]);
    io_compare_sentence(&say, (IoReaderTaste){.language = SPANISH}, text, sizeof text);
    ck_assert_str_eq(text, states[_i].text[1]);
}
END_TEST

static const struct {
    PbCompareBeside beside;
    PbCompareFill other;
    const char *text[2];
} verdicts[] = {
    {PB_BESIDE_WAITS,
     PB_COMPARE_DENSE,
     {"; not compared yet: 40 of 20 trials.", "; todavía sin comparar: 40 de 20 corridas."}},
    {PB_BESIDE_SAME,
     PB_COMPARE_DENSE,
     {"; about the same as the dense pack, 0.83 to 0.95" NB "times its heat.",
      "; más o menos como el empacado denso, 0.83 a 0.95" NB "veces su calor."}},
    {PB_BESIDE_UNCLEAR,
     PB_COMPARE_DENSE,
     {"; 0.83 to 0.95" NB "times the heat of the dense pack, so either could come out better.",
      "; 0.83 a 0.95" NB "veces el calor del empacado denso: cualquiera puede salir mejor."}},
    {PB_BESIDE_UNCLEAR,
     PB_COMPARE_FOAM,
     {"; 0.83 to 0.95" NB "times the heat of the foam, so either could come out better.",
      "; 0.83 a 0.95" NB "veces el calor de la espuma: cualquiera puede salir mejor."}},
    {PB_BESIDE_MORE,
     PB_COMPARE_DENSE,
     {"; it lets more heat through than the dense pack, 0.83 to 0.95" NB "times as much.",
      "; deja pasar más calor que el empacado denso: 0.83 a 0.95" NB "veces."}},
    {PB_BESIDE_LESS,
     PB_COMPARE_FOAM,
     {"; it lets less heat through than the foam, 0.83 to 0.95" NB "times as much.",
      "; deja pasar menos calor que la espuma: 0.83 a 0.95" NB "veces."}},
};
enum { VERDICTS = sizeof verdicts / sizeof verdicts[0] };

START_TEST(each_verdict_reads_so)
{
    PbCompareSaying say = {PB_SAYS_EMPTY, verdicts[_i].beside, verdicts[_i].other, figures()};
    char text[400];
    io_compare_sentence(&say, (IoReaderTaste){.language = WORDS_ENGLISH}, text, sizeof text);
    ck_assert_str_eq(text + strlen("Nothing in the wall"), verdicts[_i].text[0]);
    io_compare_sentence(&say, (IoReaderTaste){.language = SPANISH}, text, sizeof text);
    ck_assert_str_eq(text + strlen("Nada en la pared"), verdicts[_i].text[1]);
}
END_TEST

START_TEST(a_figure_without_draws_is_marked_as_one)
{
    PbHeatRange r = {1.01, 1.05, 1.4};
    char text[80];
    IoReaderTaste taste = {.language = WORDS_ENGLISH};
    io_compare_shown(IO_FIGURE_RATIO, r, PB_COMPARE_ENOUGH_DRAWS - 1, NULL, taste, text,
                     sizeof text);
    ck_assert_str_eq(text, "≈" NB "1.05" NB "times");
    io_compare_shown(IO_FIGURE_RATIO, r, PB_COMPARE_ENOUGH_DRAWS, NULL, taste, text, sizeof text);
    ck_assert_str_eq(text, "1.01 to 1.40" NB "times");
}
END_TEST

/* Words that promise have no place here. */
START_TEST(no_sentence_promises)
{
    static const char *const banned[] = {"will not",     "never settle",  "guarantee",
                                         "always stays", "no se asentar", "garant"};
    char text[400];
    for (int s = 1; s < PB_SAYS_LIMIT; s++) {
        for (int k = 0; k < 2; k++) {
            PbCompareSaying say = {(PbCompareSays)s, PB_BESIDE_SAME, PB_COMPARE_FOAM, figures()};
            io_compare_sentence(&say, (IoReaderTaste){k, 0, 0}, text, sizeof text);
            for (size_t i = 0; i < sizeof banned / sizeof banned[0]; i++) {
                ck_assert_msg(strstr(text, banned[i]) == NULL, "%s", text);
            }
        }
    }
}
END_TEST

START_TEST(nothing_is_said_before_anything_is_computed)
{
    PbCompareSaying say = {PB_SAYS_NOTHING_YET, PB_BESIDE_NONE, PB_COMPARE_DENSE, figures()};
    char text[40] = "x";
    io_compare_sentence(&say, (IoReaderTaste){WORDS_ENGLISH, 0, 0}, text, sizeof text);
    ck_assert_str_eq(text, "");
}
END_TEST

static const struct {
    IoCompareFigure figure;
    PbHeatRange range;
    IoReaderTaste taste;
    const char *text;
} shown[] = {
    {IO_FIGURE_R, {1.234, 1.4, 1.567}, {WORDS_ENGLISH, 0, 0}, "1.23 to 1.57" NB "m²K/W"},
    {IO_FIGURE_R, {1.234, 1.4, 1.567}, {SPANISH, 0, 0}, "1.23 a 1.57" NB "m²K/W"},
    {IO_FIGURE_R, {1.761101837, 2.0, 3.522203674}, {WORDS_ENGLISH, 1, 0}, "R 10.0 to 20.0"},
    {IO_FIGURE_R, {1.234, 1.234, 1.2341}, {WORDS_ENGLISH, 0, 0}, "1.23" NB "m²K/W"},
    {IO_FIGURE_RATIO, {1.004, 1.0, 1.996}, {WORDS_ENGLISH, 0, 0}, "1.00 to 2.00" NB "times"},
    {IO_FIGURE_KWH, {4326, 5000, 6170}, {WORDS_ENGLISH, 0, 0}, "4300 to 6200" NB "kWh"},
    {IO_FIGURE_KWH, {16107, 5000, 99600}, {WORDS_ENGLISH, 0, 0}, "20000 to 100000" NB "kWh"},
    {IO_FIGURE_MONEY, {322.4, 400, 949.2}, {WORDS_ENGLISH, 0, 0}, "320 to 950" NB "EUR"},
    {IO_FIGURE_MONEY, {0.614, 0.7, 0.987}, {SPANISH, 0, 0}, "0.61 a 0.99" NB "EUR"},
    {IO_FIGURE_LENGTH, {0.0, 0.0, 0.0072}, {WORDS_ENGLISH, 0, 0}, "0.0 to 7.2" NB "mm"},
    {IO_FIGURE_LENGTH, {0.33, 0.4, 0.54}, {WORDS_ENGLISH, 0, 0}, "33 to 54" NB "cm"},
    {IO_FIGURE_LENGTH, {0.33, 0.4, 0.54}, {WORDS_ENGLISH, 1, 0}, "13 to 21" NB "in."},
    {IO_FIGURE_LENGTH, {0.0, 0.0, 0.0072}, {SPANISH, 1, 0}, "0.0 a 0.3" NB "pulg."},
    {IO_FIGURE_LENGTH, {0.0, 0.0, 0.0}, {WORDS_ENGLISH, 0, 0}, "under 1" NB "mm"},
    {IO_FIGURE_LENGTH, {0.0, 0.0, 0.00099}, {SPANISH, 0, 0}, "<1" NB "mm"},
    {IO_FIGURE_LENGTH, {0.0, 0.0, 0.0011}, {WORDS_ENGLISH, 0, 0}, "0.0 to 1.1" NB "mm"},
    {IO_FIGURE_LENGTH, {0.0, 0.0, 0.0012}, {WORDS_ENGLISH, 1, 0}, "under 0.05" NB "in."},
    {IO_FIGURE_LENGTH, {0.0, 0.0, 0.0012}, {SPANISH, 1, 0}, "<0.05" NB "pulg."},
    {IO_FIGURE_SHARE, {0.041, 0.05, 0.058}, {WORDS_ENGLISH, 0, 0}, "4.1 to 5.8%"},
    {IO_FIGURE_DENSITY, {56.2, 56.2, 56.2}, {WORDS_ENGLISH, 1, 0}, "3.5" NB "lb/ft³"},
    {IO_FIGURE_AREA, {0.0312, 0.0312, 0.0312}, {WORDS_ENGLISH, 0, 0}, "312" NB "cm²"},
    {IO_FIGURE_CELSIUS, {-40, -40, -40}, {WORDS_ENGLISH, 1, 0}, "-40.0" NB "°F"},
};
enum { SHOWN = sizeof shown / sizeof shown[0] };

START_TEST(figures_have_their_digits_comma_and_unit)
{
    char text[80];
    io_compare_range(shown[_i].figure, shown[_i].range, "EUR", shown[_i].taste, text, sizeof text);
    ck_assert_str_eq(text, shown[_i].text);
}
END_TEST

START_TEST(the_sample_house_and_dates_are_in_the_readers_words)
{
    char text[40];
    ck_assert_str_eq(io_house_word(PB_HOUSE_DEMO, WORDS_ENGLISH), "Demo house");
    ck_assert_str_eq(io_house_word(PB_HOUSE_DEMO, SPANISH), "Casa de muestra");
    ck_assert_str_eq(io_house_word("Sample town", SPANISH), "Pueblo de muestra");
    ck_assert_str_eq(io_house_word("House", SPANISH), "House"); /* as typed */
    io_date_words(2026, 11, 30, (IoReaderTaste){WORDS_ENGLISH, 1, 0}, text, sizeof text);
    ck_assert_str_eq(text, "Nov 30, 2026");
    io_date_words(2026, 1, 5, (IoReaderTaste){WORDS_ENGLISH, 0, 0}, text, sizeof text);
    ck_assert_str_eq(text, "5 Jan 2026");
    io_date_words(2026, 8, 5, (IoReaderTaste){SPANISH, 1, 0}, text, sizeof text);
    ck_assert_str_eq(text, "5 ago 2026");
}
END_TEST

START_TEST(a_small_buffer_is_not_overrun)
{
    PbCompareSaying say = {PB_SAYS_DENSE_VOIDS, PB_BESIDE_MORE, PB_COMPARE_FOAM, figures()};
    char text[24];
    memset(text, 'x', sizeof text);
    io_compare_sentence(&say, (IoReaderTaste){SPANISH, 0, 0}, text, 16);
    ck_assert_uint_le(strlen(text), 15);
    ck_assert_int_eq(text[16], 'x');
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("compare_words");
    TCase *all = tcase_create("all");
    tcase_add_test(all, every_state_has_a_whole_sentence_in_both_languages);
    tcase_add_loop_test(all, each_state_reads_so, 0, STATES);
    tcase_add_loop_test(all, each_verdict_reads_so, 0, VERDICTS);
    tcase_add_test(all, a_figure_without_draws_is_marked_as_one);
    tcase_add_test(all, no_sentence_promises);
    tcase_add_test(all, nothing_is_said_before_anything_is_computed);
    tcase_add_loop_test(all, figures_have_their_digits_comma_and_unit, 0, SHOWN);
    tcase_add_test(all, the_sample_house_and_dates_are_in_the_readers_words);
    tcase_add_test(all, a_small_buffer_is_not_overrun);
    suite_add_tcase(suite, all);
    return run_suite(suite);
}
