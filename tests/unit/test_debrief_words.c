/* The three sentences after a run: whole in both languages, and true to what was lost. */
#include "core/course.h"
#include "io/debrief_words.h"
#include "suite.h"

#include <stdio.h>
#include <string.h>

static PbScore full(void)
{
    const double most[PB_SCORE_PARTS] = {40.0, 15.0, 15.0, 15.0, 5.0, 10.0};
    PbScore s;
    memset(&s, 0, sizeof s);
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        s.parts[i] = (PbScorePart){.kind = (PbScorePartKind)i, .points = most[i], .max = most[i]};
    }
    return s;
}

static void lose(PbScore *s, PbScorePartKind part, PbScoreFault cause, double points)
{
    s->parts[part].points -= points;
    s->parts[part].fault = cause;
    s->losses[s->loss_count++] = (PbLoss){.part = part,
                                          .cause = cause,
                                          .points = points,
                                          .value = 0.6,
                                          .density_kg_m3 = 50.0,
                                          .y0_m = 1.0,
                                          .y1_m = 1.4,
                                          .y_m = 1.2,
                                          .time_s = 114.0};
}

START_TEST(a_run_without_losses_is_praised_and_sent_on)
{
    char said[IO_DEBRIEF_SENTENCES][IO_DEBRIEF_BYTES];
    PbScore s = full();
    io_debrief_sentences(&s, NULL, (IoReaderTaste){IO_ENGLISH, 0, 0}, said);
    ck_assert_str_eq(said[0], "On target: the wall is at its target density.");
    ck_assert_str_eq(said[1], "Nothing cost more than half a point.");
    ck_assert_str_eq(said[2], "Keep it so and take the next exercise.");
}
END_TEST

START_TEST(the_worst_part_is_named_with_its_dearest_place_and_what_to_do)
{
    char said[IO_DEBRIEF_SENTENCES][IO_DEBRIEF_BYTES];
    PbScore s = full();
    lose(&s, PB_SCORE_ON_TARGET, PB_FAULT_LEFT_EARLY, 3.0);
    lose(&s, PB_SCORE_ON_TARGET, PB_FAULT_LONG_STEP, 10.3);
    lose(&s, PB_SCORE_HANDS, PB_FAULT_LONG_STEP, 5.0);
    io_debrief_sentences(&s, NULL, (IoReaderTaste){IO_ENGLISH, 0, 0}, said);
    ck_assert_str_eq(said[1], "On target lost 13.3; dearest: pulled 0.60 m in one go at 1:54; "
                              "1.00 m to 1.40 m is at 50 kg/m³.");
    ck_assert_str_eq(said[2], "Pull back one foot at a time, not more.");
    io_debrief_sentences(&s, NULL, (IoReaderTaste){IO_SPANISH, 0, 0}, said);
    ck_assert_ptr_nonnull(strstr(said[1], "perdió 13.3; lo más caro: retirado 0.60 m"));
}
END_TEST

/* Each cause leads to something to do; none leads to "keep it so". */
START_TEST(every_cause_has_advice_in_both_languages)
{
    char said[IO_DEBRIEF_SENTENCES][IO_DEBRIEF_BYTES];
    for (int cause = PB_FAULT_SOFT_PATCHES; cause < PB_FAULT_CAPPED; cause++) {
        PbScore s = full();
        lose(&s, PB_SCORE_ON_TARGET, (PbScoreFault)cause, 40.0);
        ck_assert_int_ne((int)pb_debrief(&s).next, PB_ADVICE_KEEP);
        for (int language = 0; language < 2; language++) {
            io_debrief_sentences(&s, NULL, (IoReaderTaste){(IoLanguage)language, language, 0},
                                 said);
            for (int i = 0; i < IO_DEBRIEF_SENTENCES; i++) {
                size_t n = strlen(said[i]);
                ck_assert_uint_gt(n, 10);
                ck_assert_uint_lt(n, IO_DEBRIEF_BYTES - 1);
                ck_assert_int_eq(said[i][n - 1], '.');
                ck_assert_uint_gt(strlen(io_debrief_head(i, (IoLanguage)language)), 3);
            }
        }
    }
}
END_TEST

START_TEST(a_run_without_anything_good_says_so)
{
    char said[IO_DEBRIEF_SENTENCES][IO_DEBRIEF_BYTES];
    PbScore s = full();
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        lose(&s, (PbScorePartKind)i, PB_FAULT_LEFT_EARLY, s.parts[i].max);
    }
    io_debrief_sentences(&s, NULL, (IoReaderTaste){IO_ENGLISH, 0, 0}, said);
    ck_assert_str_eq(said[0], "Everything is still to be won.");
}
END_TEST

START_TEST(a_bay_to_leave_is_judged_by_that_alone)
{
    char said[IO_DEBRIEF_SENTENCES][IO_DEBRIEF_BYTES];
    PbScore s = full();
    PbExercise e = pb_exercise_default();
    snprintf(e.must_not_fill, sizeof e.must_not_fill, "the chimney");
    lose(&s, PB_SCORE_ON_TARGET, PB_FAULT_NOTHING_DONE, 40.0);
    s.is_pass = 1;
    io_debrief_sentences(&s, &e, (IoReaderTaste){IO_ENGLISH, 0, 0}, said);
    ck_assert_str_eq(said[0], "This bay was left alone, as it must be.");
    ck_assert_str_eq(said[1], "Nothing cost more than half a point.");
    s.is_pass = 0;
    io_debrief_sentences(&s, &e, (IoReaderTaste){IO_SPANISH, 0, 0}, said);
    ck_assert_str_eq(said[1], "Se sopló material en un hueco que no se rellena.");
    ck_assert_str_eq(said[2], "Este hueco no se rellena: déjelo y diga por qué.");
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("debrief_words");
    TCase *normal = tcase_create("normal");
    tcase_add_test(normal, a_run_without_losses_is_praised_and_sent_on);
    tcase_add_test(normal, the_worst_part_is_named_with_its_dearest_place_and_what_to_do);
    tcase_add_test(normal, every_cause_has_advice_in_both_languages);
    tcase_add_test(normal, a_run_without_anything_good_says_so);
    tcase_add_test(normal, a_bay_to_leave_is_judged_by_that_alone);
    suite_add_tcase(suite, normal);
    return run_suite(suite);
}
