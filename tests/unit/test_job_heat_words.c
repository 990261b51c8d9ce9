/* Heat of a whole wall in words, in both languages and units. */
#include "suite.h"

#include "io/job_heat_words.h"

#include <string.h>

static const IoReaderTaste us = {0, 1, 0};

START_TEST(a_reader_gets_the_figures_in_own_units)
{
    char text[500];
    PbJobHeat heat[PB_JOB_HEAT_CASES] = {{.r_m2k_w = 0.5, .heat_w = 200.0, .room_c = 20.0},
                                         {.r_m2k_w = 1.0, .heat_w = 100.0, .room_c = 20.0},
                                         {.r_m2k_w = 2.0, .heat_w = 50.0, .room_c = 20.0}};
    io_job_heat_sentence(heat, us, text, sizeof text);
    ck_assert_str_eq(text,
                     "R of the whole wall with its wood: R 2.8 before, R 5.7 as it is packed, "
                     "R 11.4 done well. Heat through it with 68 °F in the room and 32 °F "
                     "outdoors: 682 Btu/h, 341 Btu/h and 171 Btu/h.");
    io_job_heat_sentence(heat, (IoReaderTaste){1, 0, 0}, text, sizeof text);
    ck_assert_ptr_nonnull(strstr(text, "20 °C en el cuarto y 0 °C afuera: 200 W, 100 W y 50 W."));
    ck_assert_ptr_null(strstr(text, "before"));
    io_temperature_figure(15.0, 1, us, text, sizeof text);
    ck_assert_str_eq(text, "59.0 °F");
    ck_assert_str_eq(io_job_heat_name(PB_JOB_HEAT_NOW, 0), "As it is packed");
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("job_heat_words");
    TCase *t = tcase_create("words");
    tcase_add_test(t, a_reader_gets_the_figures_in_own_units);
    suite_add_tcase(suite, t);
    return run_suite(suite);
}
