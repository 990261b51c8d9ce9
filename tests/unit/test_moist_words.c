/* Moisture in words: each verdict reads so in both languages and unit systems, and each warning is
 * there. */
#include "io/moist_words.h"

#include "languages.h"
#include "suite.h"

#include <stdio.h>
#include <string.h>

#define NB "\xC2\xA0"

static void reads(const PbHouseMoist *m, const char *us, const char *si)
{
    char text[500];
    io_moist_sentence(PB_COMPARE_DENSE, m, (IoReaderTaste){.language = WORDS_ENGLISH, .is_us = 1},
                      text, sizeof text);
    ck_assert_str_eq(text, us);
    io_moist_sentence(PB_COMPARE_DENSE, m, (IoReaderTaste){.language = SPANISH}, text, sizeof text);
    ck_assert_str_eq(text, si);
}

START_TEST(each_verdict_reads_so)
{
    PbHouseMoist m = {.verdict = PB_MOIST_DRY, .draws = 40};
    reads(&m, "By the yearly screening nothing condenses in the wall.",
          "Según la revisión del año nada se condensa en la pared.");
    m.verdict = PB_MOIST_DRIES;
    m.most_g_m2 = (PbHeatRange){0, 40, 120};
    m.most_month = 1;
    reads(&m,
          "By the yearly screening up to 39" NB
          "oz per 100 ft² of water gathers at the back of the "
          "cavity by February and dries out each year.",
          "Según la revisión del año se juntan hasta 120" NB "g/m² de agua al fondo de la cavidad "
          "para febrero y se secan cada año.");
    m.draws = 0; /* of one run there is no upper end */
    reads(&m,
          "By the yearly screening up to 13" NB
          "oz per 100 ft² of water gathers at the back of the "
          "cavity by February and dries out each year.",
          "Según la revisión del año se juntan hasta 40" NB "g/m² de agua al fondo de la cavidad "
          "para febrero y se secan cada año.");
    m.draws = 40;
    m.verdict = PB_MOIST_MAY_STAY;
    m.stays = 9;
    m.place = PB_MOIST_AT_FRONT;
    m.most_month = 7;
    reads(&m,
          "By the yearly screening up to 39" NB "oz per 100 ft² of water gathers behind the room's "
          "face by August; in 9 of 40 trials the wall stays wet: do not fill before a licensed "
          "person has looked.",
          "Según la revisión del año se juntan hasta 120" NB "g/m² de agua detrás de la cara "
          "interior para agosto; en 9 de 40 corridas la pared queda mojada: no llenar antes de que "
          "la vea una persona con licencia.");
    m.verdict = PB_MOIST_STAYS;
    m.most_g_m2 = (PbHeatRange){0, 0.2, 0.4};
    reads(&m,
          "By the yearly screening up to 1" NB "oz per 100 ft² of water gathers behind the room's "
          "face by August and the wall stays wet: do not fill before a licensed person has looked.",
          "Según la revisión del año se juntan hasta 1" NB "g/m² de agua detrás de la cara "
          "interior para agosto y la pared queda mojada: no llenar antes de que la vea una persona "
          "con licencia.");
}
END_TEST

START_TEST(what_was_not_screened_says_so_once)
{
    PbHouseMoist m = {.verdict = PB_MOIST_UNKNOWN};
    char text[500];
    reads(&m, "", "");
    io_moist_sentence(PB_COMPARE_EMPTY, &m, (IoReaderTaste){.language = WORDS_ENGLISH}, text,
                      sizeof text);
    ck_assert_str_eq(text, "Moisture was not screened: the layers of this wall are not known.");
    io_moist_sentence(PB_COMPARE_EMPTY, &m, (IoReaderTaste){.language = SPANISH}, text,
                      sizeof text);
    ck_assert_str_eq(text, "La humedad no se revisó: no se conocen las capas de esta pared.");
}
END_TEST

/* Those that forbid a fill say so, and only those. */
START_TEST(no_fill_is_said_where_it_is_meant)
{
    for (int w = 0; w < PB_WARNINGS; w++) {
        const char *english = io_damp_warning((PbDampWarning)w, WORDS_ENGLISH);
        const char *spanish = io_damp_warning((PbDampWarning)w, SPANISH);
        int is_last = w <= PB_WARN_LAST_NO_FILL;
        ck_assert_msg((strstr(english, "no fill") != NULL) == is_last, "%s", english);
        ck_assert_msg((strstr(spanish, "no llenar") != NULL) == is_last, "%s", spanish);
        ck_assert_str_ne(english, spanish);
        ck_assert(io_damp_key((PbDampWarning)w)[0] != '\0');
    }
    ck_assert_str_eq(io_moist_verdict(PB_MOIST_DRIES, WORDS_ENGLISH), "dries out each year");
    ck_assert_str_eq(io_moist_key(PB_MOIST_STAYS), "stays");
    ck_assert_str_eq(io_coat_name(PB_COAT_LATEX, SPANISH), "pintura látex");
    ck_assert_str_eq(io_seen_name(PB_SEEN_YES, SPANISH), "sí");
    ck_assert_ptr_nonnull(strstr(io_moist_note(WORDS_ENGLISH), "not clear it"));
}
END_TEST

int main(void)
{
    Suite *s = suite_create("moist_words");
    TCase *tc = tcase_create("normal");
    tcase_add_test(tc, each_verdict_reads_so);
    tcase_add_test(tc, what_was_not_screened_says_so_once);
    tcase_add_test(tc, no_fill_is_said_where_it_is_meant);
    suite_add_tcase(s, tc);
    return run_suite(s);
}
