/* Sentences on lost points: complete in both languages and both systems of units, never overrun. */
#include "io/score_words.h"
#include "suite.h"

#include <string.h>

static const PbLoss step = {.part = PB_SCORE_ON_TARGET,
                            .cause = PB_FAULT_LONG_STEP,
                            .points = 5.0,
                            .value = 0.62,
                            .density_kg_m3 = 43.2,
                            .x_m = 0.2,
                            .y_m = 1.4,
                            .y0_m = 1.2,
                            .y1_m = 1.6,
                            .time_s = 102.0,
                            .lift = 3};

START_TEST(a_long_step_reads_as_a_trainer_would_say_it)
{
    char text[320];
    io_loss_sentence(&step, (IoReaderTaste){IO_ENGLISH, 0, 0}, text, sizeof text);
    ck_assert_str_eq(text, "pulled 0.62 m in one go at 1:42; 1.20 m to 1.60 m is at 43 kg/m³");
    io_loss_sentence(&step, (IoReaderTaste){IO_ENGLISH, 1, 0}, text, sizeof text);
    ck_assert_str_eq(text, "pulled 2.0 ft in one go at 1:42; 3.9 ft to 5.2 ft is at 2.7 lb/ft³");
    io_loss_sentence(&step, (IoReaderTaste){IO_SPANISH, 0, 0}, text, sizeof text);
    ck_assert_str_eq(
        text, "retirado 0.62 m de un tirón a las 1:42; de 1.20 m a 1.60 m quedó en 43 kg/m³");
}
END_TEST

START_TEST(without_patches_the_sentence_ends_before_them)
{
    char text[320];
    PbLoss l = step;
    l.density_kg_m3 = -1.0;
    io_loss_sentence(&l, (IoReaderTaste){IO_ENGLISH, 0, 0}, text, sizeof text);
    ck_assert_str_eq(text, "pulled 0.62 m in one go at 1:42");
}
END_TEST

START_TEST(every_cause_and_part_has_words_and_a_key_in_both_languages)
{
    for (int language = 0; language < 2; language++) {
        for (int cause = 0; cause < PB_FAULT_LIMIT; cause++) {
            char text[320], small[8];
            PbLoss l = step;
            l.cause = (PbScoreFault)cause;
            for (int us = 0; us < 2; us++) {
                io_loss_sentence(&l, (IoReaderTaste){(IoLanguage)language, us, 0}, text,
                                 sizeof text);
                ck_assert_uint_gt(strlen(text), 5);
                ck_assert_uint_lt(strlen(text), sizeof text - 1);
                ck_assert_ptr_null(strchr(text, '{'));
                io_loss_sentence(&l, (IoReaderTaste){(IoLanguage)language, us, 0}, small,
                                 sizeof small);
                ck_assert_uint_le(strlen(small), sizeof small - 1);
            }
            ck_assert_uint_gt(strlen(io_fault_key((PbScoreFault)cause)), 3);
        }
        for (int part = 0; part < PB_SCORE_PARTS; part++) {
            ck_assert_uint_gt(strlen(io_part_name((PbScorePartKind)part, (IoLanguage)language)), 3);
            ck_assert_uint_gt(strlen(io_part_key((PbScorePartKind)part)), 3);
        }
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("score_words");
    TCase *normal = tcase_create("normal");
    tcase_add_test(normal, a_long_step_reads_as_a_trainer_would_say_it);
    tcase_add_test(normal, without_patches_the_sentence_ends_before_them);
    tcase_add_test(normal, every_cause_and_part_has_words_and_a_key_in_both_languages);
    suite_add_tcase(suite, normal);
    return run_suite(suite);
}
