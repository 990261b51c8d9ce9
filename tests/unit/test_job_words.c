/* Marks of a job in words: every cause has a sentence in each language, with its figures. */
#include "suite.h"

#include "io/job_words.h"

#include <string.h>

START_TEST(every_cause_has_its_sentence)
{
    for (int f = 1; f < PB_JOB_FAULTS; f++) {
        PbJobLoss l = {
            .fault = (PbJobFault)f, .value = 1.0, .bay = 4, .x_m = 1.0, .y_m = 2.0, .minute = 83.0};
        char english[400];
        for (int language = 0; language < words_language_count; language++) {
            char text[400];
            IoReaderTaste taste = {.language = language, .is_us = language == 0};
            io_job_loss_sentence(&l, taste, text, sizeof text);
            ck_assert_msg(strlen(text) > 10, "%s", pb_job_fault_word((PbJobFault)f));
            ck_assert_msg(strchr(text, '{') == NULL, "%s", text);
            if (language == 0) {
                memcpy(english, text, sizeof text);
            } else {
                ck_assert_str_ne(text, english);
            }
        }
    }
}
END_TEST

START_TEST(places_and_figures_are_the_readers)
{
    char text[400];
    PbJobLoss l = {
        .fault = PB_JOB_FAULT_MISSED, .value = 0.0929, .bay = 7, .x_m = 3.048, .y_m = 2.1336};
    io_job_loss_sentence(&l, (IoReaderTaste){.is_us = 1}, text, sizeof text);
    ck_assert_str_eq(text, "Bay 8 was never filled: 1.0 ft\xc2\xb2, 10.0 ft from the left and 7.0 "
                           "ft up");
    io_job_loss_sentence(&l, (IoReaderTaste){0}, text, sizeof text);
    ck_assert_str_eq(text, "Bay 8 was never filled: 0.09 m\xc2\xb2, 3.05 m from the left and 2.13 "
                           "m up");
}
END_TEST

START_TEST(names_are_there)
{
    for (int language = 0; language < words_language_count; language++) {
        for (int p = 0; p < PB_JOB_PARTS; p++) {
            ck_assert_int_gt((int)strlen(io_job_part_name((PbJobPartKind)p, language)), 3);
        }
        for (int g = 0; g < PB_JOB_GATES; g++) {
            ck_assert_int_gt((int)strlen(io_job_gate_name((PbJobGateKind)g, language)), 5);
        }
        for (int b = 0; b < PB_JOB_BAY_KINDS; b++) {
            ck_assert_int_gt((int)strlen(io_job_bay_name((PbJobBayKind)b, language)), 3);
        }
        ck_assert_int_gt((int)strlen(io_job_wire_caution(language)), 60);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("job_words");
    TCase *t = tcase_create("words");
    tcase_add_test(t, every_cause_has_its_sentence);
    tcase_add_test(t, places_and_figures_are_the_readers);
    tcase_add_test(t, names_are_there);
    suite_add_tcase(suite, t);
    return run_suite(suite);
}
