/* What the store says of itself, in Spanish: a disk that is full, another program that holds it,
 * and every other form with what is put into it. */
#include "io/trouble_words.h"
#include "languages.h"
#include "suite.h"

#include <stdio.h>
#include <string.h>

static const struct {
    const char *english, *spanish;
} held[] = {
    {"cannot keep the run: the disk is full; nothing was changed",
     "no se puede guardar la práctica: el disco está lleno; no se cambió nada"},
    {"cannot keep the mark: another program has held it for 5 s; nothing was changed, try again",
     "no se puede guardar la nota: otro programa lo tiene ocupado desde hace 5 s; no se cambió "
     "nada, "
     "intente de nuevo"},
    {"cannot add a learner: the file or its folder is read-only; nothing was changed",
     "no se puede agregar al aprendiz: el archivo o su carpeta es de solo lectura; no se cambió "
     "nada"},
    {"cannot open for writing: Permission denied", "no se puede abrir para escribir: sin permiso"},
    {"cannot make the folder /a: b/c: No space left on device",
     "no se puede crear la carpeta /a: b/c: No space left on device"},
    {"cannot keep the run: No space left on device; nothing was changed",
     "no se puede guardar la práctica: no queda espacio en el disco; no se cambió nada"},
    {"was written by a newer version of this program (layout 9, this one knows 6); it was left as "
     "it is",
     "la escribió una versión más nueva de este programa (formato 9, esta conoce hasta 6); se dejó "
     "como está"},
    {"holds something that is not this program's: the trigger \"t\"; it was left as it is",
     "contiene algo que no es de este programa: trigger \"t\"; se dejó como está"},
    {"there is a learner \"Learner 1\" already", "ya hay un aprendiz \"Learner 1\""},
    {"this very run is there already: run 12 of Learner 2",
     "esta misma práctica ya está guardada: práctica 12 de Learner 2"},
    {"cannot delete the learner: a run of this learner is being recorded; end it first",
     "no se puede borrar al aprendiz: se está grabando una práctica de este aprendiz; termínela "
     "primero"},
    {"the trainer: a name has no space at its ends",
     "el instructor: un nombre no lleva espacios al principio ni al final"},
};

START_TEST(a_sentence_of_the_store_is_in_the_language_of_the_window)
{
    char out[500];
    io_trouble_words(held[_i].english, SPANISH, out, sizeof out);
    ck_assert_str_eq(out, held[_i].spanish);
    io_trouble_words(held[_i].english, WORDS_ENGLISH, out, sizeof out);
    ck_assert_str_eq(out, held[_i].english);
}
END_TEST

START_TEST(what_is_not_the_stores_stays_and_long_ones_are_cut)
{
    char out[500], small[10];
    io_trouble_words("El disco está lleno.", SPANISH, out, sizeof out);
    ck_assert_str_eq(out, "El disco está lleno.");
    io_trouble_words("", SPANISH, out, sizeof out);
    ck_assert_str_eq(out, "");
    io_trouble_words("out of memory", SPANISH, small, sizeof small);
    ck_assert_str_eq(small, "no hay me");
}
END_TEST

START_TEST(every_plain_form_has_its_twin)
{
    char out[500];
    int i = 0;
    for (const char *form; (form = io_trouble_form(i)) != NULL; i++) {
        if (strchr(form, '%') == NULL) {
            io_trouble_words(form, SPANISH, out, sizeof out);
            ck_assert_str_ne(out, form);
        }
    }
    ck_assert_int_gt(i, 60);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("trouble_words");
    TCase *tests = tcase_create("trouble_words");
    tcase_add_loop_test(tests, a_sentence_of_the_store_is_in_the_language_of_the_window, 0,
                        sizeof held / sizeof held[0]);
    tcase_add_test(tests, what_is_not_the_stores_stays_and_long_ones_are_cut);
    tcase_add_test(tests, every_plain_form_has_its_twin);
    suite_add_tcase(suite, tests);
    return run_suite(suite);
}
