/* The three sentences after a run: whole in both languages, and true to what was lost. */
#include "core/course.h"
#include "io/debrief_words.h"
#include "languages.h"
#include "suite.h"

#include <stdio.h>
#include <string.h>

static PbScore full(void)
{
    const double most[PB_SCORE_PARTS] = {40.0, 15.0, 15.0, 15.0, 5.0, 10.0};
    PbScore s;
    memset(&s, 0, sizeof s);
    s.height_m = 2.4;
    s.is_more_air_safe = 1;
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
    io_debrief_sentences(&s, NULL, (IoReaderTaste){WORDS_ENGLISH, 0, 0}, said);
    ck_assert_str_eq(said[0], "On target: the wall is at its target density.");
    ck_assert_str_eq(said[1], "Nothing worth a word.");
    ck_assert_str_eq(said[2], "Nothing worth changing: go on to the next exercise.");
    io_debrief_sentences(&s, NULL, (IoReaderTaste){SPANISH, 0, 0}, said);
    ck_assert_str_eq(said[0], "En objetivo: la pared está en su densidad objetivo.");
    ck_assert_str_eq(said[1], "Nada que valga la pena decir.");
    ck_assert_str_eq(said[2], "Nada que valga la pena cambiar: pase al siguiente ejercicio.");
    ck_assert_str_eq(io_debrief_head(0, WORDS_ENGLISH), "Best");
    ck_assert_str_eq(io_debrief_head(1, WORDS_ENGLISH), "Worst");
    ck_assert_str_eq(io_debrief_head(2, WORDS_ENGLISH), "Next");
    ck_assert_str_eq(io_debrief_head(0, SPANISH), "Lo mejor");
    ck_assert_str_eq(io_debrief_head(1, SPANISH), "Lo peor");
    ck_assert_str_eq(io_debrief_head(2, SPANISH), "Lo siguiente");
}
END_TEST

/* The part that kept all its points while the others lost a third. */
static const char *const praise[PB_SCORE_PARTS][2] = {
    {"On target: the wall is at its target density.",
     "En objetivo: la pared está en su densidad objetivo."},
    {"Weakest place: even the softest spot is firm.",
     "Punto más débil: hasta el punto más flojo está firme."},
    {"Years: little settling is predicted, under what is assumed.",
     "Años: se prevé poco asentamiento, con lo que se supone."},
    {"Safety: the wall was never in danger.", "Seguridad: la pared nunca corrió peligro."},
    {"Material: the bags that went in are the bags it takes.",
     "Material: entraron los sacos que hacen falta."},
    {"Technique: even pulls, good timing.", "Técnica: jalones parejos, buen ritmo."}};

START_TEST(the_best_part_is_praised_in_these_words)
{
    char said[IO_DEBRIEF_SENTENCES][IO_DEBRIEF_BYTES];
    PbScore s = full();
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        if (i != _i) {
            lose(&s, (PbScorePartKind)i, PB_FAULT_LEFT_EARLY, s.parts[i].max / 3.0);
        }
    }
    for (int language = 0; language < 2; language++) {
        io_debrief_sentences(&s, NULL, (IoReaderTaste){language, 0, 0}, said);
        ck_assert_str_eq(said[0], praise[_i][language]);
    }
}
END_TEST

START_TEST(the_worst_part_is_named_with_its_biggest_loss_and_what_to_do)
{
    char said[IO_DEBRIEF_SENTENCES][IO_DEBRIEF_BYTES];
    PbScore s = full();
    lose(&s, PB_SCORE_ON_TARGET, PB_FAULT_LEFT_EARLY, 3.0);
    lose(&s, PB_SCORE_ON_TARGET, PB_FAULT_LONG_STEP, 10.3);
    lose(&s, PB_SCORE_HANDS, PB_FAULT_LONG_STEP, 5.0);
    io_debrief_sentences(&s, NULL, (IoReaderTaste){WORDS_ENGLISH, 0, 0}, said);
    ck_assert_str_eq(said[1], "Biggest loss: pulled 0.60 m in one go at 1:54; 1.00 m to 1.40 m "
                              "is at 50 kg/m³.");
    ck_assert_str_eq(said[2], "Pull back 30 cm at a time, no more.");
    io_debrief_sentences(&s, NULL, (IoReaderTaste){SPANISH, 1, 0}, said);
    ck_assert_str_eq(said[1], "Lo que más costó: jaló 2.0 pies de una vez en 1:54; de 3.3 pies a "
                              "4.6 pies quedó en 3.1 lb/pie³.");
    ck_assert_str_eq(said[2], "Jale un pie a la vez, no más.");
}
END_TEST

/* A shut gate comes first, with place and time; what it says already is not said again; a sheet
 * that broke under what it should have borne is not laid to the hands. */
START_TEST(a_shut_gate_is_named_before_the_biggest_loss)
{
    char said[IO_DEBRIEF_SENTENCES][IO_DEBRIEF_BYTES];
    PbScore s = full();
    lose(&s, PB_SCORE_WEAKEST, PB_FAULT_MISSED, 7.0);
    s.verdict = PB_VERDICT_REDO;
    s.gates[PB_GATE_SLICE] = (PbGate){1, PB_FAULT_SOFT_SLICE, 41.0, 48.0, 0.0, 0.3, 114.0};
    io_debrief_sentences(&s, NULL, (IoReaderTaste){WORDS_ENGLISH, 0, 0}, said);
    ck_assert_str_eq(said[1],
                     "0.00 m to 0.30 m, left at 1:54, is at 41 kg/m³; 48 kg/m³ is the least "
                     "anywhere. Biggest loss: no stop reached 1.00 m to 1.40 m: the nearest "
                     "was 0.60 m away, left at 1:54; it is at 50 kg/m³.");
    ck_assert_int_eq((int)pb_debrief(&s).next, PB_ADVICE_REACH_ENDS);
    lose(&s, PB_SCORE_NO_HARM, PB_FAULT_BLOW_OUT, 15.0);
    s.gates[PB_GATE_FACE] = (PbGate){1, PB_FAULT_BLOW_OUT, 0.8, 0.0, 0.6, 0.6, 70.0};
    io_debrief_sentences(&s, NULL, (IoReaderTaste){WORDS_ENGLISH, 0, 0}, said);
    ck_assert_str_eq(said[1],
                     "The wall blew out at 1:10, 0.60 m up, at 80% of the strength expected "
                     "of it. This sheet was weaker than most: such a face should have borne "
                     "the load.");
    io_debrief_sentences(&s, NULL, (IoReaderTaste){SPANISH, 0, 0}, said);
    ck_assert_ptr_nonnull(strstr(said[1], "Esta placa era más débil que la mayoría"));
    s.verdict = PB_VERDICT_FAIL;
    io_debrief_sentences(&s, NULL, (IoReaderTaste){WORDS_ENGLISH, 0, 0}, said);
    ck_assert_ptr_null(strstr(said[1], "weaker than most"));
}
END_TEST

/* What to do about each cause, the two of safety too; US units in Spanish, SI in English. */
static const struct {
    PbScoreFault cause;
    const char *text[2];
} advice[] = {
    {PB_FAULT_SOFT_PATCHES,
     {"Make more stops, and wait for the stall at each one.",
      "Haga más paradas y espere el stall en cada una."}},
    {PB_FAULT_WEAK_PLACE,
     {"Make more stops, and wait for the stall at each one.",
      "Haga más paradas y espere el stall en cada una."}},
    {PB_FAULT_PANEL_LOAD,
     {"Turn the blower down when the wall creaks, and pull back sooner.",
      "Baje el soplador cuando la pared cruja y jale antes."}},
    {PB_FAULT_BLOW_OUT,
     {"Turn the blower down when the wall creaks, and pull back sooner.",
      "Baje el soplador cuando la pared cruja y jale antes."}},
    {PB_FAULT_TOO_LITTLE,
     {"Make more stops, and wait for the stall at each one.",
      "Haga más paradas y espere el stall en cada una."}},
    {PB_FAULT_TOO_MUCH,
     {"Count the bags: more went in than the bay holds, so find out where it went.",
      "Cuente los sacos: entró más de lo que cabe; averigüe adónde se fue."}},
    {PB_FAULT_LONG_STEP, {"Pull back 30 cm at a time, no more.", "Jale un pie a la vez, no más."}},
    {PB_FAULT_LEFT_EARLY,
     {"Wait for the stall, and two seconds more, before you move the tube.",
      "Espere el stall, y dos segundos más, antes de mover el tubo."}},
    {PB_FAULT_STAYED_LONG,
     {"Move on two seconds after the stall.", "Siga dos segundos después del stall."}},
    {PB_FAULT_PLUG,
     {"Close the feed gate a little: less material for the same air.",
      "Cierre un poco la compuerta: menos material con el mismo aire."}},
    {PB_FAULT_FED_OUTSIDE,
     {"Shut the feed gate before the tube comes out.",
      "Cierre la compuerta antes de sacar el tubo."}},
    {PB_FAULT_NOTHING_DONE,
     {"Push the tube to the far end, then start machine and feed.",
      "Lleve el tubo hasta el otro extremo y encienda máquina y material."}},
    {PB_FAULT_MISSED,
     {"Reach both ends of the bay: pack from the far end back to the hole, then turn the tube and "
      "do the short end.",
      "Llegue a los dos extremos de la cavidad: empaque desde el más lejano hasta el hoyo, luego "
      "gire el tubo y haga el extremo corto."}},
    {PB_FAULT_WEAK_AIR,
     {"Turn the blower up, and test its pressure before the first bay.",
      "Suba el soplador y pruebe su presión antes de la primera cavidad."}},
    {PB_FAULT_RICH_FEED,
     {"Close the feed gate a little: less material for the same air.",
      "Cierre un poco la compuerta: menos material con el mismo aire."}},
    {PB_FAULT_TOP_GAP,
     {"Make more stops, and wait for the stall at each one.",
      "Haga más paradas y espere el stall en cada una."}},
    {PB_FAULT_LATE_VOID,
     {"Make more stops, and wait for the stall at each one.",
      "Haga más paradas y espere el stall en cada una."}},
    {PB_FAULT_LOST_FILL,
     {"Count the bags: more went in than the bay holds, so find out where it went.",
      "Cuente los sacos: entró más de lo que cabe; averigüe adónde se fue."}},
    {PB_FAULT_CHECKS,
     {"Do every check before you switch on.", "Haga todas las revisiones antes de encender."}},
    {PB_FAULT_WEAK_MACHINE,
     {"This machine is too weak to pack: have it put right, or take another, before the first bay.",
      "Esta máquina es muy débil para empacar: que la arreglen, o use otra, antes de la primera "
      "cavidad."}},
    {PB_FAULT_BEHIND_WOOD,
     {"Wood keeps the tube out of there: that part needs a hole of its own.",
      "La madera no deja pasar el tubo: esa parte necesita su propio hoyo."}},
    {PB_FAULT_OVER_DENSE,
     {"Move on two seconds after the stall.", "Siga dos segundos después del stall."}},
    {PB_FAULT_POWER_ON,
     {"Cut the power before you clear a clog, and close the feed gate a little so that the hose "
      "does not fill again.",
      "Corte la corriente antes de quitar un tapón y cierre un poco la compuerta, para que la "
      "manguera no se llene otra vez."}},
    {PB_FAULT_SHORT_TUBE,
     {"This tube does not get there: take a longer one, or give that part a hole of its own.",
      "Este tubo no llega ahí: use uno más largo, o haga otro hoyo para esa parte."}},
};
enum { ADVICE = sizeof advice / sizeof advice[0] };

START_TEST(every_cause_has_this_advice)
{
    char said[IO_DEBRIEF_SENTENCES][IO_DEBRIEF_BYTES];
    PbScore s = full();
    lose(&s, PB_SCORE_ON_TARGET, advice[_i].cause, 20.0);
    ck_assert_int_ne((int)pb_debrief(&s).next, PB_ADVICE_KEEP);
    for (int language = 0; language < 2; language++) {
        io_debrief_sentences(&s, NULL, (IoReaderTaste){language, language, 0}, said);
        ck_assert_str_eq(said[2], advice[_i].text[language]);
        for (int i = 0; i < IO_DEBRIEF_SENTENCES; i++) {
            size_t n = strlen(said[i]);
            ck_assert_uint_lt(n, IO_DEBRIEF_BYTES - 1);
            ck_assert_int_eq(said[i][n - 1], '.');
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
    io_debrief_sentences(&s, NULL, (IoReaderTaste){WORDS_ENGLISH, 0, 0}, said);
    ck_assert_str_eq(said[0], "No points yet.");
    io_debrief_sentences(&s, NULL, (IoReaderTaste){SPANISH, 0, 0}, said);
    ck_assert_str_eq(said[0], "Todavía sin puntos.");
}
END_TEST

static const struct {
    int is_empty, was_left;
    PbLeaveReason reason;
    const char *text[2][IO_DEBRIEF_SENTENCES];
} leaves[] = {
    {1,
     1,
     PB_LEAVE_FLUE,
     {{"This bay was left alone, for its reason.", "Nothing worth a word.",
       "Nothing worth changing: go on to the next exercise."},
      {"Esta cavidad se dejó como está, por su motivo.", "Nada que valga la pena decir.",
       "Nada que valga la pena cambiar: pase al siguiente ejercicio."}}},
    {0,
     0,
     PB_LEAVE_NONE,
     {{"Nothing: all that counts here is to leave the bay alone.",
       "Material was blown into a bay that must not be filled.",
       "This bay is not to be filled: leave it and say why: chimney or flue: it needs its "
       "clearance."},
      {"Nada: aquí solo cuenta dejar la cavidad como está.",
       "Se sopló material en una cavidad que no se rellena.",
       "Esta cavidad no se rellena: déjela y diga por qué: chimenea o tubo de humo: necesita su "
       "separación."}}},
    {1,
     0,
     PB_LEAVE_NONE,
     {{"Nothing was blown into a bay that must not be filled.",
       "No reason was given: who does nothing has not noticed anything.",
       "This bay is not to be filled: leave it and say why: chimney or flue: it needs its "
       "clearance."},
      {"No se sopló nada en una cavidad que no se rellena.",
       "No se dio ningún motivo: quien no hace nada no ha notado nada.",
       "Esta cavidad no se rellena: déjela y diga por qué: chimenea o tubo de humo: necesita su "
       "separación."}}},
    {1,
     0,
     PB_LEAVE_LEAK,
     {{"Nothing was blown into a bay that must not be filled.",
       "The reason that was given is not the one of this bay.",
       "This bay is not to be filled: leave it and say why: chimney or flue: it needs its "
       "clearance."},
      {"No se sopló nada en una cavidad que no se rellena.",
       "El motivo que se dio no es el de esta cavidad.",
       "Esta cavidad no se rellena: déjela y diga por qué: chimenea o tubo de humo: necesita su "
       "separación."}}},
};

START_TEST(a_bay_to_leave_is_judged_by_that_alone)
{
    char said[IO_DEBRIEF_SENTENCES][IO_DEBRIEF_BYTES];
    PbScore s = full();
    PbExercise e = pb_exercise_default();
    lose(&s, PB_SCORE_ON_TARGET, PB_FAULT_NOTHING_DONE, 40.0);
    PbLeaveVerdict *v = &s.leave;
    *v = (PbLeaveVerdict){.applies = 1,
                          .is_empty = 1,
                          .is_right = 1,
                          .was_left = 1,
                          .reason = PB_LEAVE_FLUE,
                          .wanted = PB_LEAVE_FLUE};
    for (size_t i = 0; i < sizeof leaves / sizeof leaves[0]; i++) {
        v->is_empty = leaves[i].is_empty;
        v->reason = leaves[i].reason;
        v->was_left = v->is_right = leaves[i].was_left;
        for (int language = 0; language < 2; language++) {
            io_debrief_sentences(&s, &e, (IoReaderTaste){language, 0, 0}, said);
            for (int k = 0; k < IO_DEBRIEF_SENTENCES; k++) {
                ck_assert_str_eq(said[k], leaves[i].text[language][k]);
            }
        }
    }
}
END_TEST

/* Between the worst and the next thing, and nowhere when there was no earlier run. */
START_TEST(what_changed_stands_before_the_next_thing)
{
    char said[IO_SHORT_LINES][IO_DEBRIEF_BYTES];
    const char *head[IO_SHORT_LINES];
    PbScore s = full();
    PbExercise e = pb_exercise_default();
    IoReaderTaste taste = {WORDS_ENGLISH, 1, 0};
    IoLastTime t = {.count = 1, .is_like = 1, .like_count = 1};
    t.now = (IoTry){78, 13, 15.0, 57.0, 161.0, 1};
    t.last = t.best = (IoTry){62, 9, 15.0, 52.0, 185.0, 1};
    ck_assert_int_eq(io_short_lines(&s, &e, NULL, taste, head, said), 3);
    ck_assert_str_eq(head[2], "Next");
    ck_assert_int_eq(io_short_lines(&s, &e, &t, taste, head, said), 4);
    ck_assert_str_eq(head[1], "Worst");
    ck_assert_str_eq(head[2], "Last time");
    ck_assert_ptr_nonnull(strstr(said[2], "16 points more than last time"));
    ck_assert_str_eq(head[3], "Next");
    ck_assert_str_eq(said[3], "Nothing worth changing: go on to the next exercise.");
    t.count = 0;
    ck_assert_int_eq(io_short_lines(&s, &e, &t, taste, head, said), 3);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("debrief_words");
    TCase *normal = tcase_create("normal");
    tcase_add_test(normal, a_run_without_losses_is_praised_and_sent_on);
    tcase_add_loop_test(normal, the_best_part_is_praised_in_these_words, 0, PB_SCORE_PARTS);
    tcase_add_test(normal, the_worst_part_is_named_with_its_biggest_loss_and_what_to_do);
    tcase_add_test(normal, a_shut_gate_is_named_before_the_biggest_loss);
    tcase_add_loop_test(normal, every_cause_has_this_advice, 0, ADVICE);
    tcase_add_test(normal, a_run_without_anything_good_says_so);
    tcase_add_test(normal, a_bay_to_leave_is_judged_by_that_alone);
    tcase_add_test(normal, what_changed_stands_before_the_next_thing);
    suite_add_tcase(suite, normal);
    return run_suite(suite);
}
