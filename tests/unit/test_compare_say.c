/* What two fills say of each other: one rule on paired draws, so their sentences are mirror images
 * whatever the draws are, and none is said before there are draws enough. */
#include "core/compare.h"
#include "core/rng.h"
#include "io/compare_words.h"

#include "suite.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static PbCompareFigures ready(void)
{
    PbCompareFigures f;
    memset(&f, 0, sizeof f);
    f.years = 30.0;
    f.has_fill = f.has_heat = 1;
    f.draws = f.pairs = 40;
    f.mean_kg_m3 = 56.2;
    f.stud_gap_m = 0.0072;
    f.shrink_frac = (PbHeatRange){0.041, 0.05, 0.058};
    f.heat_ratio = (PbHeatRange){1.5, 1.7, 1.9};
    f.r_m2k_w = (PbHeatRange){1.2, 1.4, 1.6};
    return f;
}

static PbCompareBeside mirrored(PbCompareBeside b)
{
    return b == PB_BESIDE_MORE ? PB_BESIDE_LESS : b == PB_BESIDE_LESS ? PB_BESIDE_MORE : b;
}

/* The ends of `range` as its sentence must show them. */
static void expect_range(const char *sentence, double low, double high)
{
    char a[24], b[24], all[64];
    snprintf(a, sizeof a, "%.*f", high >= 9.95 ? 0 : 2, low);
    snprintf(b, sizeof b, "%.*f", high >= 9.95 ? 0 : 2, high);
    if (strcmp(a, b) == 0) {
        snprintf(all, sizeof all, "%s\xC2\xA0times", a);
    } else {
        snprintf(all, sizeof all, "%s to %s\xC2\xA0times", a, b);
    }
    ck_assert_msg(strstr(sentence, all) != NULL, "\"%s\" is not in \"%s\"", all, sentence);
}

/* Random pairs of every sort: alike, apart, across the tenth that counts, and across each other. */
START_TEST(two_fills_never_contradict_each_other)
{
    PbRng rng = pb_rng_make(16, 6);
    int seen[PB_BESIDE_LESS + 1] = {0};
    for (int k = 0; k < 20000; k++) {
        double own[40], other[40];
        double apart = 0.4 * (pb_rng_uniform(&rng) - 0.5), wide = 0.2 * pb_rng_uniform(&rng);
        for (int d = 0; d < 40; d++) {
            other[d] = 0.5 + 3.0 * pb_rng_uniform(&rng);
            own[d] = other[d] * (1.0 + apart + wide * (pb_rng_uniform(&rng) - 0.5));
        }
        double mid = 1.0 + 1.5 * apart;
        PbCompareFigures f = ready(), g = ready();
        f.against_log = pb_compare_against(own, other, 40, 2.0 * mid, 2.0);
        g.against_log = pb_compare_against(other, own, 40, 2.0, 2.0 * mid);
        ck_assert(f.against_log.low == -g.against_log.high);
        ck_assert(f.against_log.mid == -g.against_log.mid);
        ck_assert(f.against_log.high == -g.against_log.low);
        ck_assert(f.against_log.low <= f.against_log.mid &&
                  f.against_log.mid <= f.against_log.high);
        PbCompareSaying a = pb_compare_say_of(PB_COMPARE_FOAM, &f);
        PbCompareSaying b = pb_compare_say_of(PB_COMPARE_DENSE, &g);
        ck_assert_int_eq(a.beside, mirrored(b.beside));
        seen[a.beside]++;
        /* The figures beside the word are those that it was chosen by. */
        char text[2][400];
        io_compare_sentence(&a, (IoReaderTaste){.language = WORDS_ENGLISH}, text[0],
                            sizeof text[0]);
        io_compare_sentence(&b, (IoReaderTaste){.language = WORDS_ENGLISH}, text[1],
                            sizeof text[1]);
        expect_range(text[0], exp(f.against_log.low), exp(f.against_log.high));
        expect_range(text[1], 1.0 / exp(f.against_log.high), 1.0 / exp(f.against_log.low));
        ck_assert(!strstr(text[0], " more heat ") == !strstr(text[1], " less heat "));
        ck_assert(!strstr(text[0], " less heat ") == !strstr(text[1], " more heat "));
        ck_assert(!strstr(text[0], "about the same") == !strstr(text[1], "about the same"));
        ck_assert(!strstr(text[0], "either could") == !strstr(text[1], "either could"));
    }
    for (int b = PB_BESIDE_SAME; b <= PB_BESIDE_LESS; b++) {
        ck_assert_int_gt(seen[b], 200);
    }
}
END_TEST

/* The house that showed it: R 9.4 % apart one way and 10.4 % the other, ranges that overlap. */
START_TEST(a_tenth_one_way_is_a_tenth_the_other_way)
{
    double foam[40], dense[40];
    for (int d = 0; d < 40; d++) {
        foam[d] = 1.66 + 0.002 * d;
        dense[d] = 1.104 * foam[d];
    }
    PbCompareFigures f = ready(), g = ready();
    f.against_log = pb_compare_against(foam, dense, 40, 1.66, 1.104 * 1.66);
    g.against_log = pb_compare_against(dense, foam, 40, 1.104 * 1.66, 1.66);
    ck_assert_int_eq(pb_compare_say_of(PB_COMPARE_FOAM, &f).beside, PB_BESIDE_MORE);
    ck_assert_int_eq(pb_compare_say_of(PB_COMPARE_DENSE, &g).beside, PB_BESIDE_LESS);
}
END_TEST

START_TEST(nothing_is_compared_before_there_are_draws_enough)
{
    static const PbCompareSays alone[PB_COMPARE_FILLS] = {PB_SAYS_EMPTY, PB_SAYS_LOOSE,
                                                          PB_SAYS_FOAM, PB_SAYS_DENSE};
    static const char *const words[PB_COMPARE_FILLS][2] = {
        {"Nothing in the wall; not compared yet: ", "Nada en la pared; todavía sin comparar: "},
        {"Blown in loosely at 56\xC2\xA0kg/m³; not compared yet: ",
         "Soplado suelto a 56\xC2\xA0kg/m³; todavía sin comparar: "},
        {"Foam that shrinks as it dries and ages; not compared yet: ",
         "Espuma que encoge al secarse y con los años; todavía sin comparar: "},
        {"Packed to 56\xC2\xA0kg/m³ on average; not compared yet: ",
         "Empacado a 56\xC2\xA0kg/m³ en promedio; todavía sin comparar: "}};
    char text[400], expected[400];
    for (int fill = 0; fill < PB_COMPARE_FILLS; fill++) {
        for (int draws = 0; draws <= 40; draws++) {
            PbCompareFigures f = ready();
            f.draws = f.pairs = draws;
            f.against_log = (PbHeatRange){0.3, 0.3, 0.3}; /* as wide as no draw makes it */
            PbCompareSaying s = pb_compare_say_of((PbCompareFill)fill, &f);
            if (draws >= 20) {
                ck_assert_int_ne(s.says, alone[fill]);
                ck_assert_int_eq(s.beside,
                                 fill == PB_COMPARE_EMPTY ? PB_BESIDE_NONE : PB_BESIDE_MORE);
                continue;
            }
            ck_assert_int_eq(s.says, alone[fill]);
            ck_assert_int_eq(s.beside, PB_BESIDE_WAITS);
            for (int k = 0; k < 2; k++) {
                io_compare_sentence(&s, (IoReaderTaste){.language = k}, text, sizeof text);
                snprintf(expected, sizeof expected, "%s%d %s", words[fill][k], draws,
                         k == 0 ? "of 20 trials." : "de 20 corridas.");
                ck_assert_str_eq(text, expected);
            }
        }
    }
}
END_TEST

/* The other fill may lag behind; a face that gave way is a fact without any draw. */
START_TEST(the_slower_of_two_fills_counts)
{
    PbCompareFigures f = ready();
    f.pairs = PB_COMPARE_ENOUGH_DRAWS - 1;
    ck_assert_int_eq(pb_compare_say_of(PB_COMPARE_LOOSE, &f).beside, PB_BESIDE_WAITS);
    f.draws = f.pairs = 0;
    f.is_blown_out = 1;
    ck_assert_int_eq(pb_compare_say_of(PB_COMPARE_DENSE, &f).says, PB_SAYS_DENSE_BLOWN_OUT);
}
END_TEST

/* A loose blow that fell past its own hollows is not called full. */
START_TEST(a_hollow_loose_blow_is_said_to_be)
{
    PbCompareFigures f = {
        .has_fill = 1, .has_heat = 1, .has_voids = 1, .draws = PB_COMPARE_ENOUGH_DRAWS};
    ck_assert_int_eq(pb_compare_say_of(PB_COMPARE_LOOSE, &f).says, PB_SAYS_LOOSE_HOLLOW);
    f.has_voids = 0;
    ck_assert_int_eq(pb_compare_say_of(PB_COMPARE_LOOSE, &f).says, PB_SAYS_LOOSE_FULL);
    f.has_voids = 1;
    f.top_gap_m = (PbHeatRange){0.02, 0.03, 0.04};
    ck_assert_int_eq(pb_compare_say_of(PB_COMPARE_LOOSE, &f).says, PB_SAYS_LOOSE_VOIDS);
    f.has_voids = 0;
    ck_assert_int_eq(pb_compare_say_of(PB_COMPARE_LOOSE, &f).says, PB_SAYS_LOOSE_GAP);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("compare_say");
    TCase *all = tcase_create("all");
    tcase_add_test(all, a_hollow_loose_blow_is_said_to_be);
    tcase_add_test(all, two_fills_never_contradict_each_other);
    tcase_add_test(all, a_tenth_one_way_is_a_tenth_the_other_way);
    tcase_add_test(all, nothing_is_compared_before_there_are_draws_enough);
    tcase_add_test(all, the_slower_of_two_fills_counts);
    suite_add_tcase(suite, all);
    return run_suite(suite);
}
