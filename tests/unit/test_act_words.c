/* Why a bay is left and why an act is refused: words of people by value in both languages, words of
 * files, and what each reason asks for. */
#include "suite.h"

#include "io/act_words.h"
#include "words/words.h"

static const struct {
    PbLeaveReason reason;
    const char *file, *en, *es;
} reasons[] = {
    {PB_LEAVE_FLUE, "flue", "chimney or flue: it needs its clearance",
     "chimenea o tubo de humo: necesita su separación"},
    {PB_LEAVE_OPEN_WIRING, "open-wiring", "live knob-and-tube wiring",
     "cables viejos al aire con corriente"},
    {PB_LEAVE_LEAK, "leak", "a leak, a stain or damp", "una fuga, una mancha o humedad"},
    {PB_LEAVE_APPLIANCE, "appliance",
     "a vent, fan or dryer ends in it, or a burner draws its air there",
     "ahí termina un extractor o una secadora, o un quemador toma su aire"},
    {PB_LEAVE_RECESSED_LAMP, "recessed-lamp", "a can light or other hot device without a shield",
     "una luz empotrada u otro aparato caliente sin protección"},
    {PB_LEAVE_OLD_FILL, "old-fill", "vermiculite or unknown old fill",
     "vermiculita o relleno viejo desconocido"},
    {PB_LEAVE_WEAK_FACE, "weak-face", "the finish is too weak or loose",
     "el acabado es muy débil o está suelto"},
    {PB_LEAVE_OPEN_BAY, "open-bay", "open to another space: a rigid block comes first",
     "abierta a otro espacio: primero un bloqueo rígido"},
    {PB_LEAVE_WEAK_MACHINE, "weak-machine", "the machine is too weak to dense-pack",
     "la máquina es muy débil para el relleno denso"},
    {PB_LEAVE_FILLED, "filled", "filled already", "ya está rellena"},
};

static const struct {
    PbRefusal refusal;
    const char *en, *es;
} refusals[] = {
    {PB_REFUSED_TUBE_IN, "Pull the tube out of the hole first",
     "Jale el tubo fuera del hoyo primero"},
    {PB_REFUSED_IN_USE, "The tube is at this hole: it cannot be plugged",
     "El tubo está en este hoyo: no se puede tapar"},
    {PB_REFUSED_NOT_FOUND, "No opening has been found here yet",
     "Todavía no se encontró ninguna abertura"},
    {PB_REFUSED_SEALED, "This opening is sealed already", "Esta abertura ya está sellada"},
    {PB_REFUSED_MACHINE_ON, "Switch the machine off before the hose end is covered",
     "Apague la máquina antes de tapar la manguera"},
    {PB_REFUSED_CLOGGED, "Clear the clog before the static test",
     "Quite el tapón antes de la prueba estática"},
    {PB_REFUSED_TESTING, "The static test is under way", "La prueba estática está en marcha"},
};

START_TEST(each_reason_has_these_words)
{
    int es = words_language_of("es");
    ck_assert_int_eq(sizeof reasons / sizeof reasons[0], PB_LEAVE_REASONS - 1);
    ck_assert_int_eq((int)reasons[_i].reason, _i + 1);
    ck_assert_str_eq(pb_leave_traits(reasons[_i].reason)->word, reasons[_i].file);
    ck_assert_str_eq(io_leave_words(reasons[_i].reason, WORDS_ENGLISH), reasons[_i].en);
    ck_assert_str_eq(io_leave_words(reasons[_i].reason, es), reasons[_i].es);
}
END_TEST

START_TEST(each_refusal_has_these_words)
{
    int es = words_language_of("es");
    ck_assert_int_eq(sizeof refusals / sizeof refusals[0], PB_REFUSALS - 1);
    ck_assert_int_eq((int)refusals[_i].refusal, _i + 1);
    ck_assert_str_eq(io_refusal_words(refusals[_i].refusal, WORDS_ENGLISH), refusals[_i].en);
    ck_assert_str_eq(io_refusal_words(refusals[_i].refusal, es), refusals[_i].es);
}
END_TEST

START_TEST(what_is_no_reason_and_no_refusal_has_no_words)
{
    ck_assert_str_eq(io_leave_words(PB_LEAVE_NONE, WORDS_ENGLISH), "");
    ck_assert_str_eq(io_leave_words((PbLeaveReason)PB_LEAVE_REASONS, WORDS_ENGLISH), "");
    ck_assert_str_eq(io_leave_words((PbLeaveReason)-1, WORDS_ENGLISH), "");
    ck_assert_str_eq(io_refusal_words(PB_REFUSED_NONE, WORDS_ENGLISH), "");
    ck_assert_str_eq(io_refusal_words((PbRefusal)PB_REFUSALS, WORDS_ENGLISH), "");
}
END_TEST

START_TEST(a_weak_machine_needs_a_test_and_an_open_bay_is_mended_by_seals)
{
    for (int i = 1; i < PB_LEAVE_REASONS; i++) {
        const PbLeaveTraits *t = pb_leave_traits((PbLeaveReason)i);
        ck_assert_int_eq(t->needs_test, i == PB_LEAVE_WEAK_MACHINE);
        ck_assert_int_eq(t->ends_by_sealing, i == PB_LEAVE_OPEN_BAY);
    }
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("act_words");
    TCase *normal = tcase_create("normal");
    tcase_add_loop_test(normal, each_reason_has_these_words, 0, PB_LEAVE_REASONS - 1);
    tcase_add_loop_test(normal, each_refusal_has_these_words, 0, PB_REFUSALS - 1);
    tcase_add_test(normal, what_is_no_reason_and_no_refusal_has_no_words);
    tcase_add_test(normal, a_weak_machine_needs_a_test_and_an_open_bay_is_mended_by_seals);
    suite_add_tcase(suite, normal);
    return run_suite(suite);
}
