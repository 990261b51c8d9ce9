/* The page that is handed over, in words: figures that mean something, ten sentences with the
 * figures of the house, labels by the company's chart or empty, short sources. */
#include "io/handout_words.h"

#include "core/units.h"

#include "suite.h"

#include <string.h>

#define NB "\xC2\xA0"

static const IoReaderTaste us = {0, 1, 0}, si = {0, 0, 0}, es = {1, 0, 0};
static PbCompare *compare;

/* Only what costs no packing: a comparison of which nothing has run yet. */
static void make(void)
{
    PbCompareSetup s = pb_compare_default();
    s.house.wall_area_m2 = 100.0;
    s.house.framing_share = 0.2;
    s.house.cavity = (PbCavity){PB_CAVITY_PARTLY, 0.3};
    s.house.degree_days_k_d = (PbHeatRange){3000.0, 3200.0, 3500.0};
    s.house.efficiency = (PbHeatRange){0.78, 0.85, 0.94};
    s.house.price_per_kwh = (PbHeatRange){0.07, 0.09, 0.12};
    s.house.bay.depth_m = 0.0889;
    ck_assert_int_eq(pb_compare_create(&s, &compare, NULL), PB_OK);
}

static void drop(void)
{
    pb_compare_destroy(compare);
}

static void range(IoCompareFigure figure, double low, double high, int draws, IoReaderTaste taste,
                  const char *expected)
{
    char text[100];
    io_handout_range(figure, (PbHeatRange){low, 0.5 * (low + high), high}, draws, taste, text,
                     sizeof text);
    ck_assert_str_eq(text, expected);
}

START_TEST(shows_no_figure_that_means_nothing)
{
    const double r = PB_M2K_W_PER_R;
    range(IO_FIGURE_R, 12.5 * r, 13.9 * r, 40, us, "R" NB "12 to 14"); /* outwards */
    range(IO_FIGURE_R, 4.35 * r, 4.82 * r, 40, us, "R" NB "4.3 to 4.9");
    range(IO_FIGURE_R, 12.0 * r, 13.0 * r, 40, us, "R" NB "12 to 13"); /* ends on a step stay */
    range(IO_FIGURE_R, 2.21, 2.44, 40, si, "2.2 to 2.5" NB "m²K/W");
    range(IO_FIGURE_R, 0.541, 0.598, 40, si, "0.54 to 0.60" NB "m²K/W");
    range(IO_FIGURE_RATIO, 1.21, 1.44, 40, si, "1.2 to 1.5" NB "times");
    range(IO_FIGURE_RATIO, 1.001, 1.009, 40, us, "1.00 to 1.01" NB "times");
    range(IO_FIGURE_RATIO, 1.21, 1.44, 40, es, "1.2 a 1.5" NB "veces");
    range(IO_FIGURE_RATIO, 1.2, 1.4, 19, si, "≈" NB "1.30" NB "times"); /* one too few */
}
END_TEST

static void has(int n, IoReaderTaste taste, const char *expected)
{
    char text[700];
    io_handout_sentence(compare, 1, n, taste, text, sizeof text);
    ck_assert_msg(strstr(text, expected) != NULL, "\"%s\" is not in \"%s\"", expected, text);
    ck_assert_ptr_null(strstr(text, "{"));
    ck_assert_ptr_null(strstr(text, "%s"));
}

START_TEST(says_what_the_figures_rest_on)
{
    has(0, us, "14.5" NB "in. wide, 92.5" NB "in. high and 3.5" NB "in. deep");
    has(0, us, "all 1076" NB "ft² of wall");
    has(0, si, "37" NB "cm wide, 235" NB "cm high and 89" NB "mm deep");
    has(1, us, "20% of its area is counted as framing");
    has(2, us, "as it is now: 30% of it packed already, the rest empty.");
    has(2, es, "30" NB "% ya empacada, el resto vacía.");
    has(3, us, "5400 to 6300 heating degree days (base 65" NB "°F)");
    has(3, si, "3000 to 3500 heating degree days (base 18.3" NB "°C)");
    has(3, us, "assumed to be 78 to 94% efficient.");
    has(3, es, "la calefacción rinde 78 a 94" NB "%.");
    has(4, us, "0.07 to 0.12" NB "USD/kWh");
    has(5, us, "they take 20 trials"); /* none has run */
    has(7, us, "At the filling it is counted as wet.");
    has(8, us, "in no figure of heat or money");
    has(9, us, "nothing here is a promise");
}
END_TEST

static void label(const IoCompany *c, PbCompareFill fill, IoLabelRow row, IoReaderTaste taste,
                  const char *expected)
{
    char text[160];
    io_label_value(compare, c, fill, row, taste, text, sizeof text);
    ck_assert_str_eq(text, expected);
}

/* 100 m2, a fifth of it wood and 30 % packed: 56 m2 of cavity. 24.5 ft2 a bag: 24.6, so 25. */
START_TEST(labels_are_the_companys_or_empty)
{
    IoCompany none, c;
    memset(&none, 0, sizeof none);
    c = none;
    IoProduct *p = &c.product[PB_COMPARE_DENSE];
    strcpy(p->type, "Type on the bag");
    strcpy(p->sheet, "A-1");
    p->chart[0] = (IoChartRow){0.089, 13.0 * PB_M2K_W_PER_R, 24.5 * 0.3048 * 0.3048};
    p->rows = 1;
    ck_assert_double_eq_tol(io_cavity_m2(&pb_compare_setup(compare)->house), 56.0, 1e-9);
    label(&c, PB_COMPARE_DENSE, IO_LABEL_TYPE, us, "Type on the bag");
    label(&c, PB_COMPARE_DENSE, IO_LABEL_R, us, "R 13.0");
    label(&c, PB_COMPARE_DENSE, IO_LABEL_COVERAGE, us, "24.5" NB "ft²");
    label(&c, PB_COMPARE_DENSE, IO_LABEL_BAGS, us, "25 for 603" NB "ft² of cavity");
    label(&c, PB_COMPARE_DENSE, IO_LABEL_BAGS, es, "25 para 56" NB "m² de cavidad");
    label(&c, PB_COMPARE_DENSE, IO_LABEL_SHEET, us, "A-1");
    for (int f = PB_COMPARE_LOOSE; f <= PB_COMPARE_DENSE; f++) { /* nothing is made up */
        label(&none, (PbCompareFill)f, IO_LABEL_R, us, "");
        label(&none, (PbCompareFill)f, IO_LABEL_SHEET, us, "");
        label(&none, (PbCompareFill)f, IO_LABEL_THICKNESS, us, "3.5" NB "in.");
    }
    label(&none, PB_COMPARE_DENSE, IO_LABEL_BAGS, us, "");
    label(&none, PB_COMPARE_FOAM, IO_LABEL_BAGS, us, "not in bags");
    p->chart[0].thickness_m = 0.14; /* a row for another depth is none for this one */
    label(&c, PB_COMPARE_DENSE, IO_LABEL_R, us, "");
    label(&c, PB_COMPARE_DENSE, IO_LABEL_BAGS, us, "");
}
END_TEST

/* As read in the electronic code, 16 CFR 460.18(a). */
START_TEST(the_rule_stands_word_for_word)
{
    ck_assert_str_eq(io_rule_460_18,
                     "The higher the R-value, the greater the insulating power. Ask your seller "
                     "for the fact sheet on R-values.");
}
END_TEST

START_TEST(sources_are_short)
{
    ck_assert_str_eq(io_short_source("ISO 6946 internal surface resistance", 0), "ISO 6946");
    ck_assert_str_eq(io_short_source("start of ageing; assumption", 0), "assumption");
    ck_assert_str_eq(io_short_source("start of ageing; assumption", 1), "supuesto");
    ck_assert_str_eq(io_short_source("time of the 30-year rate", 0), "chosen for this model");
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("handout_words");
    TCase *tc = tcase_create("all");
    tcase_add_unchecked_fixture(tc, make, drop);
    tcase_add_test(tc, shows_no_figure_that_means_nothing);
    tcase_add_test(tc, says_what_the_figures_rest_on);
    tcase_add_test(tc, labels_are_the_companys_or_empty);
    tcase_add_test(tc, the_rule_stands_word_for_word);
    tcase_add_test(tc, sources_are_short);
    suite_add_tcase(suite, tc);
    return run_suite(suite);
}
