/* What changed since the last time, word for word: the change of the mark with its sign, the
 * figures in their order, the best, and nothing that cannot be compared. */
#include "core/session.h"
#include "io/last_time.h"
#include "languages.h"
#include "suite.h"

#include <stdio.h>
#include <string.h>

static const IoReaderTaste us = {WORDS_ENGLISH, 1, 0}, si = {WORDS_ENGLISH, 0, 0},
                           es = {SPANISH, 1, 0};
static char said[IO_LAST_TIME_BYTES];
static PbExercise bay;

static IoTry try_of(int mark, int weakest, double mean_kg_m3, double duration_s)
{
    return (IoTry){mark, weakest, 15.0, mean_kg_m3, duration_s, PB_PHYSICS_VERSION};
}

/* Once before, marked alike. */
static IoLastTime once(void)
{
    IoTry last = try_of(62, 9, 52.0, 185.0);
    return (IoLastTime){1, try_of(78, 13, 57.0, 161.0), last, 1, 1, last};
}

static const char *words(const IoLastTime *t, IoReaderTaste taste)
{
    io_last_time_words(t, &bay, taste, said, sizeof said);
    return said;
}

START_TEST(nothing_is_said_without_an_earlier_run)
{
    IoLastTime t = {0};
    t.now = try_of(78, 13, 57.0, 161.0);
    ck_assert_str_eq(words(&t, us), "");
}
END_TEST

START_TEST(the_change_is_told_in_both_languages_and_units)
{
    IoLastTime t = once();
    ck_assert_str_eq(words(&t, us),
                     "16 points more than last time, when it was 62. Mean density 3.6 lb/ft³, was "
                     "3.2 lb/ft³. Weakest place 13 of 15 points, was 9. Time 2:41, was 3:05.");
    ck_assert_str_eq(words(&t, si),
                     "16 points more than last time, when it was 62. Mean density 57 kg/m³, was "
                     "52 kg/m³. Weakest place 13 of 15 points, was 9. Time 2:41, was 3:05.");
    ck_assert_str_eq(words(&t, es),
                     "16 puntos más que la última vez, que fueron 62. Densidad media 3.6 lb/pie³, "
                     "antes 3.2 lb/pie³. Punto más débil 13 de 15 puntos, antes 9. Tiempo 2:41, "
                     "antes 3:05.");
    ck_assert_str_eq(io_last_time_head(WORDS_ENGLISH), "Last time");
    ck_assert_str_eq(io_last_time_head(SPANISH), "La última vez");
}
END_TEST

static const struct {
    int now, then;
    const char *text[2];
} changes[] = {
    {50,
     62,
     {"12 points fewer than last time, when it was 62. Time",
      "12 puntos menos que la última vez, que fueron 62. Tiempo"}},
    {63,
     62,
     {"One point more than last time, when it was 62. Time",
      "Un punto más que la última vez, que fueron 62. Tiempo"}},
    {61,
     62,
     {"One point fewer than last time, when it was 62. Time",
      "Un punto menos que la última vez, que fueron 62. Tiempo"}},
    {62,
     62,
     {"As many points as last time, 62. Time", "Los mismos puntos que la última vez, 62. Tiempo"}},
};

/* A mean that is not known, and a rubric without the part, are left out. */
START_TEST(the_mark_has_its_sign)
{
    IoLastTime t = once();
    t.now.mark = changes[_i].now;
    t.last.mark = changes[_i].then;
    t.last.mean_kg_m3 = -1.0;
    t.now.weakest = -1;
    for (int k = 0; k < 2; k++) {
        const char *text = words(&t, k == 0 ? us : es);
        ck_assert_msg(strncmp(text, changes[_i].text[k], strlen(changes[_i].text[k])) == 0, "%s",
                      text);
    }
}
END_TEST

static const struct {
    int best;
    const char *text[2];
} bests[] = {
    {90, {" Your best is 90.", " Su mejor calificación es 90."}},
    {78, {" As good as your best.", " Igual que su mejor calificación."}},
    {70,
     {" Your best so far; before it was 70.", " Su mejor calificación hasta ahora; antes era 70."}},
};

START_TEST(the_best_is_told_when_there_were_more)
{
    IoLastTime t = once();
    t.count = t.like_count = 3;
    t.best.mark = bests[_i].best;
    for (int k = 0; k < 2; k++) {
        const char *text = words(&t, k == 0 ? us : es), *end = bests[_i].text[k];
        ck_assert_msg(strlen(text) > strlen(end) &&
                          strcmp(text + strlen(text) - strlen(end), end) == 0,
                      "%s", text);
    }
}
END_TEST

/* Its mark is told and not held against this one; a best by today's rules still is. */
START_TEST(other_rules_are_not_compared)
{
    IoLastTime t = once();
    t.is_like = t.like_count = 0;
    ck_assert_str_eq(words(&t, us), "Your last try got 62 under other grading rules, so it is not "
                                    "compared.");
    ck_assert_str_eq(words(&t, es), "Su última práctica sacó 62 con otras reglas de calificación, "
                                    "así que no se compara.");
    t.like_count = 1;
    t.best.mark = 81;
    ck_assert_str_eq(words(&t, us), "Your last try got 62 under other grading rules, so it is not "
                                    "compared. Your best is 81.");
    t.last.physics_version--;
    t.like_count = 0;
    ck_assert_str_eq(words(&t, us),
                     "Your last try got 62 in an earlier version of the model, so it "
                     "is not compared.");
    ck_assert_str_eq(words(&t, es), "Su última práctica sacó 62 con una versión anterior del "
                                    "modelo, así que no se compara.");
}
END_TEST

START_TEST(of_a_bay_to_be_left_the_mark_alone_is_told)
{
    IoLastTime t = once();
    snprintf(bay.must_not_fill, sizeof bay.must_not_fill, "the chimney");
    ck_assert_str_eq(words(&t, us), "16 points more than last time, when it was 62.");
}
END_TEST

START_TEST(figures_of_a_run_are_those_of_lists)
{
    PbRunSummary m = {.total = 61.99, .part_count = 2, .duration_s = 185.0, .physics_version = 3};
    m.parts[0] = (PbPartPoints){"on_target", 30.5, 40.0};
    m.parts[1] = (PbPartPoints){"weakest", 8.49, 15.0};
    IoTry t = io_try_of(&m, "no run file", 11);
    ck_assert_int_eq(t.mark, 61);
    ck_assert_int_eq(t.weakest, 8);
    ck_assert_double_eq(t.weakest_most, 15.0);
    ck_assert_double_eq(t.duration_s, 185.0);
    ck_assert_int_eq(t.physics_version, 3);
    ck_assert_double_lt(t.mean_kg_m3, 0.0);
    m.part_count = 1;
    ck_assert_int_lt(io_try_of(&m, NULL, 0).weakest, 0);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("last_time");
    TCase *tests = tcase_create("last_time");
    bay = pb_exercise_default();
    tcase_add_test(tests, nothing_is_said_without_an_earlier_run);
    tcase_add_test(tests, the_change_is_told_in_both_languages_and_units);
    tcase_add_loop_test(tests, the_mark_has_its_sign, 0, sizeof changes / sizeof changes[0]);
    tcase_add_loop_test(tests, the_best_is_told_when_there_were_more, 0,
                        sizeof bests / sizeof bests[0]);
    tcase_add_test(tests, other_rules_are_not_compared);
    tcase_add_test(tests, of_a_bay_to_be_left_the_mark_alone_is_told);
    tcase_add_test(tests, figures_of_a_run_are_those_of_lists);
    suite_add_tcase(suite, tests);
    return run_suite(suite);
}
