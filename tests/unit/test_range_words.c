/* How sure a mark is, word for word, and the figures for programs. */
#include "io/range_words.h"
#include "languages.h"
#include "suite.h"

#include <string.h>

static const PbMarkRange range = {.draws = 40,
                                  .passes = 31,
                                  .mean_kg_m3 = {52.0, 58.0, 66.0},
                                  .weakest_kg_m3 = {47.2, 52.0, 62.4},
                                  .total = {61.9, 84.0, 98.7}};
static char said[IO_RANGE_LINES][IO_RANGE_BYTES];

START_TEST(ranges_are_told_in_both_languages_and_units)
{
    io_range_sentences(&range, (IoReaderTaste){WORDS_ENGLISH, 0, 0}, said);
    ck_assert_str_eq(said[0], "Mean density 52 to 66 kg/m³.");
    ck_assert_str_eq(said[1], "Weakest place 47 to 62 kg/m³.");
    ck_assert_str_eq(said[2], "Score 61 to 98 of 100.");
    ck_assert_str_eq(said[3], "Passes in 31 of 40 draws: open.");
    ck_assert_str_eq(said[4],
                     "Each draw works the run again with 8 numbers of material and machine "
                     "that are not well known; the hands wait for its stalls as they did "
                     "for their own; 8 of 10 draws lie in these ranges.");
    io_range_sentences(&range, (IoReaderTaste){SPANISH, 1, 0}, said);
    ck_assert_str_eq(said[0], "Densidad media 3.2 a 4.1 lb/pie³.");
    ck_assert_str_eq(said[1], "Punto más débil 2.9 a 3.9 lb/pie³.");
    ck_assert_str_eq(said[2], "Calificación 61 a 98 de 100.");
    ck_assert_str_eq(said[3], "Aprueba en 31 de 40 sorteos: no se sabe.");
    ck_assert_str_eq(said[4], "Cada sorteo repite la práctica con 8 números de material y máquina "
                              "que no se conocen bien; las manos esperan sus stalls como esperaron "
                              "los suyos; 8 de 10 sorteos caen en estos márgenes.");
    ck_assert_str_eq(io_range_head(WORDS_ENGLISH), "How sure");
    ck_assert_str_eq(io_range_head(SPANISH), "Qué tan seguro");
}
END_TEST

START_TEST(all_and_none_are_not_open)
{
    PbMarkRange r = range;
    r.passes = 40;
    io_range_sentences(&r, (IoReaderTaste){WORDS_ENGLISH, 0, 0}, said);
    ck_assert_str_eq(said[3], "Passes in all 40 draws.");
    io_range_sentences(&r, (IoReaderTaste){SPANISH, 0, 0}, said);
    ck_assert_str_eq(said[3], "Aprueba en los 40 sorteos.");
    r.passes = 0;
    io_range_sentences(&r, (IoReaderTaste){WORDS_ENGLISH, 0, 0}, said);
    ck_assert_str_eq(said[3], "Passes in none of 40 draws.");
    io_range_sentences(&r, (IoReaderTaste){SPANISH, 0, 0}, said);
    ck_assert_str_eq(said[3], "No aprueba en ninguno de 40 sorteos.");
}
END_TEST

START_TEST(programs_get_the_same)
{
    json_t *json = io_range_to_json(&range, 1, (IoReaderTaste){WORDS_ENGLISH, 0, 0});
    ck_assert_ptr_nonnull(json);
    ck_assert_int_eq(json_integer_value(json_object_get(json, "draws")), 40);
    ck_assert_int_eq(json_integer_value(json_object_get(json, "passes")), 31);
    ck_assert(json_is_true(json_object_get(json, "is_open")));
    ck_assert_double_eq(
        json_real_value(json_object_get(json_object_get(json, "mean_kg_m3"), "p10")), 52.0);
    ck_assert_double_eq(json_real_value(json_object_get(json_object_get(json, "total"), "p90")),
                        98.7);
    ck_assert_uint_eq(json_array_size(json_object_get(json, "constants")), PB_RANGE_CONSTANTS);
    ck_assert_str_eq(json_string_value(json_object_get(json, "text")),
                     "Passes in 31 of 40 draws: open.");
    json_decref(json);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("range_words");
    TCase *tests = tcase_create("range_words");
    tcase_add_test(tests, ranges_are_told_in_both_languages_and_units);
    tcase_add_test(tests, all_and_none_are_not_open);
    tcase_add_test(tests, programs_get_the_same);
    suite_add_tcase(suite, tests);
    return run_suite(suite);
}
