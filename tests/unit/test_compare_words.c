/* A comparison in words: every state has its sentence in both languages, figures keep their unit
 * and their comma, and the same state never reads two ways. */
#include "io/compare_words.h"

#include "suite.h"

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
                IoReaderTaste taste = {(IoLanguage)k, 0, 0};
                io_compare_sentence(&say, taste, text[k], sizeof text[k]);
                size_t n = strlen(text[k]);
                ck_assert_uint_gt(n, 30);
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

/* Words that promise have no place here. */
START_TEST(no_sentence_promises)
{
    static const char *const banned[] = {"will not",     "never settle",  "guarantee",
                                         "always stays", "no se asentar", "garant"};
    char text[400];
    for (int s = 1; s < PB_SAYS_LIMIT; s++) {
        for (int k = 0; k < 2; k++) {
            PbCompareSaying say = {(PbCompareSays)s, PB_BESIDE_SAME, PB_COMPARE_FOAM, figures()};
            io_compare_sentence(&say, (IoReaderTaste){(IoLanguage)k, 0, 0}, text, sizeof text);
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
    io_compare_sentence(&say, (IoReaderTaste){IO_ENGLISH, 0, 0}, text, sizeof text);
    ck_assert_str_eq(text, "");
}
END_TEST

static const struct {
    IoCompareFigure figure;
    PbHeatRange range;
    IoReaderTaste taste;
    const char *text;
} shown[] = {
    {IO_FIGURE_R, {1.234, 1.4, 1.567}, {IO_ENGLISH, 0, 0}, "1.23 to 1.57 m²K/W"},
    {IO_FIGURE_R, {1.234, 1.4, 1.567}, {IO_SPANISH, 0, 0}, "1.23 a 1.57 m²K/W"},
    {IO_FIGURE_R, {1.761101837, 2.0, 3.522203674}, {IO_ENGLISH, 1, 0}, "R 10.0 to 20.0"},
    {IO_FIGURE_R, {1.234, 1.234, 1.2341}, {IO_ENGLISH, 0, 0}, "1.23 m²K/W"},
    {IO_FIGURE_RATIO, {1.004, 1.0, 1.996}, {IO_ENGLISH, 0, 0}, "1.00 to 2.00 times"},
    {IO_FIGURE_KWH, {4326, 5000, 6170}, {IO_ENGLISH, 0, 0}, "4300 to 6200 kWh"},
    {IO_FIGURE_KWH, {16107, 5000, 99600}, {IO_ENGLISH, 0, 0}, "20000 to 100000 kWh"},
    {IO_FIGURE_MONEY, {322.4, 400, 949.2}, {IO_ENGLISH, 0, 0}, "320 to 950 EUR"},
    {IO_FIGURE_MONEY, {0.614, 0.7, 0.987}, {IO_SPANISH, 0, 0}, "0.61 a 0.99 EUR"},
    {IO_FIGURE_LENGTH, {0.0, 0.0, 0.0072}, {IO_ENGLISH, 0, 0}, "0.0 to 7.2 mm"},
    {IO_FIGURE_LENGTH, {0.33, 0.4, 0.54}, {IO_ENGLISH, 0, 0}, "33 to 54 cm"},
    {IO_FIGURE_LENGTH, {0.33, 0.4, 0.54}, {IO_ENGLISH, 1, 0}, "13 to 21 in."},
    {IO_FIGURE_LENGTH, {0.0, 0.0, 0.0072}, {IO_SPANISH, 1, 0}, "0.0 a 0.3 pulg."},
    {IO_FIGURE_LENGTH, {0.0, 0.0, 0.0}, {IO_ENGLISH, 0, 0}, "under 1 mm"},
    {IO_FIGURE_LENGTH, {0.0, 0.0, 0.00099}, {IO_SPANISH, 0, 0}, "<1 mm"},
    {IO_FIGURE_LENGTH, {0.0, 0.0, 0.0011}, {IO_ENGLISH, 0, 0}, "0.0 to 1.1 mm"},
    {IO_FIGURE_LENGTH, {0.0, 0.0, 0.0012}, {IO_ENGLISH, 1, 0}, "under 0.05 in."},
    {IO_FIGURE_LENGTH, {0.0, 0.0, 0.0012}, {IO_SPANISH, 1, 0}, "<0.05 pulg."},
    {IO_FIGURE_SHARE, {0.041, 0.05, 0.058}, {IO_ENGLISH, 0, 0}, "4.1 to 5.8%"},
    {IO_FIGURE_DENSITY, {56.2, 56.2, 56.2}, {IO_ENGLISH, 1, 0}, "3.5 lb/ft³"},
    {IO_FIGURE_AREA, {0.0312, 0.0312, 0.0312}, {IO_ENGLISH, 0, 0}, "312 cm²"},
    {IO_FIGURE_CELSIUS, {-40, -40, -40}, {IO_ENGLISH, 1, 0}, "-40.0 °F"},
};
enum { SHOWN = sizeof shown / sizeof shown[0] };

START_TEST(figures_have_their_digits_comma_and_unit)
{
    char text[80];
    io_compare_range(shown[_i].figure, shown[_i].range, "EUR", shown[_i].taste, text, sizeof text);
    ck_assert_str_eq(text, shown[_i].text);
}
END_TEST

START_TEST(inputs_read_well)
{
    PbAssumed area = {
        PB_ASSUMED_HOUSE, "wall_area_m2", NULL, 118, 118, 118, "m2", "typed for this house", 0};
    PbAssumed rh = {PB_ASSUMED_CLIMATE,
                    "climate/bay_rh",
                    NULL,
                    0.45,
                    0.3,
                    0.6,
                    "-",
                    "climate file: made, not measured",
                    0};
    PbAssumed k = {PB_ASSUMED_CONSTANT,
                   "k_base_w_mk",
                   NULL,
                   0.034,
                   0.032,
                   0.036,
                   "W/(m K)",
                   "fit to handbook values",
                   1};
    PbAssumed foam = {PB_ASSUMED_CASE,
                      "foam",
                      "typical",
                      0,
                      0,
                      0,
                      "",
                      "good, typical and poor are ranges of published shrinkage, not products",
                      0};
    char label[200], value[200], source[200];
    io_assumed_words(&area, (IoReaderTaste){IO_ENGLISH, 1, 0}, label, value, source, sizeof label);
    ck_assert_str_eq(label, "Wall area");
    ck_assert_str_eq(value, "1270 ft²");
    io_assumed_words(&rh, (IoReaderTaste){IO_SPANISH, 0, 0}, label, value, source, sizeof label);
    ck_assert_str_eq(label, "Humedad en la pared");
    ck_assert_str_eq(value, "45 (30 a 60) %");
    ck_assert_str_eq(source, "archivo de clima: hecho, no medido");
    io_assumed_words(&k, (IoReaderTaste){IO_SPANISH, 1, 0}, label, value, source, sizeof label);
    ck_assert_str_eq(label, "k_base_w_mk");
    ck_assert_str_eq(value, "0.034 (0.032 a 0.036) W/(m K)");
    io_assumed_words(&foam, (IoReaderTaste){IO_ENGLISH, 0, 0}, label, value, source, sizeof label);
    ck_assert_str_eq(value, "usual");
}
END_TEST

START_TEST(a_small_buffer_is_not_overrun)
{
    PbCompareSaying say = {PB_SAYS_DENSE_VOIDS, PB_BESIDE_MORE, PB_COMPARE_FOAM, figures()};
    char text[24];
    memset(text, 'x', sizeof text);
    io_compare_sentence(&say, (IoReaderTaste){IO_SPANISH, 0, 0}, text, 16);
    ck_assert_uint_le(strlen(text), 15);
    ck_assert_int_eq(text[16], 'x');
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("compare_words");
    TCase *all = tcase_create("all");
    tcase_add_test(all, every_state_has_a_whole_sentence_in_both_languages);
    tcase_add_test(all, no_sentence_promises);
    tcase_add_test(all, nothing_is_said_before_anything_is_computed);
    tcase_add_loop_test(all, figures_have_their_digits_comma_and_unit, 0, SHOWN);
    tcase_add_test(all, inputs_read_well);
    tcase_add_test(all, a_small_buffer_is_not_overrun);
    suite_add_tcase(suite, all);
    return run_suite(suite);
}
