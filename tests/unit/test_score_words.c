/* Sentences on lost points, by value: what a person reads, in both languages and both systems of
 * units; never overrun. */
#include "io/score_words.h"
#include "suite.h"

#include <string.h>

/* Every figure of a sentence differs from the others, so that no two can change places unseen. */
static PbLoss loss_of(PbScoreFault cause, double value)
{
    return (PbLoss){.part = PB_SCORE_ON_TARGET,
                    .cause = cause,
                    .points = 5.0,
                    .value = value,
                    .density_kg_m3 = 43.2,
                    .x_m = 0.2,
                    .y_m = 0.9,
                    .y0_m = 1.2,
                    .y1_m = 1.6,
                    .time_s = 102.0,
                    .lift = 3};
}

static const struct {
    PbScoreFault cause;
    double value;
    const char *text[4]; /* English SI, English US, Spanish SI with a comma, Spanish US */
} sentences[] = {
    {PB_FAULT_NONE, 0, {"nothing lost", "nothing lost", "nada perdido", "nada perdido"}},
    {PB_FAULT_SOFT_PATCHES,
     43.2,
     {"the stop at 1:42 was done right, yet 1.20 m to 1.60 m is at 43 kg/m³",
      "the stop at 1:42 was done right, yet 3.9 ft to 5.2 ft is at 2.7 lb/ft³",
      "la parada de 1:42 se hizo bien, pero de 1,20 m a 1,60 m quedó en 43 kg/m³",
      "la parada de 1:42 se hizo bien, pero de 3.9 pies a 5.2 pies quedó en 2.7 lb/pie³"}},
    {PB_FAULT_WEAK_PLACE,
     46.4,
     {"softest 5%: 46 kg/m³; the softest spot is 0.90 m up, left at 1:42",
      "softest 5%: 2.9 lb/ft³; the softest spot is 3.0 ft up, left at 1:42",
      "5 % más flojo: 46 kg/m³; el punto más flojo está a 0,90 m de alto, dejado en 1:42",
      "5 % más flojo: 2.9 lb/pie³; el punto más flojo está a 3.0 pies de alto, dejado en 1:42"}},
    {PB_FAULT_PANEL_LOAD,
     0.86,
     {"the wall was loaded to 86% of its strength at 1:42, 0.90 m up",
      "the wall was loaded to 86% of its strength at 1:42, 3.0 ft up",
      "la pared se cargó al 86 % de su resistencia en 1:42, a 0,90 m de alto",
      "la pared se cargó al 86 % de su resistencia en 1:42, a 3.0 pies de alto"}},
    {PB_FAULT_BLOW_OUT,
     1.04,
     {"the wall blew out at 1:42, 0.90 m up, at 104% of its strength",
      "the wall blew out at 1:42, 3.0 ft up, at 104% of its strength",
      "la pared reventó en 1:42, a 0,90 m de alto, al 104 % de su resistencia",
      "la pared reventó en 1:42, a 3.0 pies de alto, al 104 % de su resistencia"}},
    {PB_FAULT_TOO_LITTLE,
     0.57,
     {"43% less material than the bay should take; softest 0.90 m up, left at 1:42",
      "43% less material than the bay should take; softest 3.0 ft up, left at 1:42",
      "43 % menos material del que debe llevar la cavidad; lo más flojo a 0,90 m de alto, dejado "
      "en 1:42",
      "43 % menos material del que debe llevar la cavidad; lo más flojo a 3.0 pies de alto, dejado "
      "en 1:42"}},
    {PB_FAULT_TOO_MUCH,
     1.43,
     {"43% more material than the bay should take; densest 0.90 m up, left at 1:42",
      "43% more material than the bay should take; densest 3.0 ft up, left at 1:42",
      "43 % más material del que debe llevar la cavidad; lo más denso a 0,90 m de alto, dejado en "
      "1:42",
      "43 % más material del que debe llevar la cavidad; lo más denso a 3.0 pies de alto, dejado "
      "en 1:42"}},
    {PB_FAULT_LONG_STEP,
     0.62,
     {"pulled 0.62 m in one go at 1:42; 1.20 m to 1.60 m is at 43 kg/m³",
      "pulled 2.0 ft in one go at 1:42; 3.9 ft to 5.2 ft is at 2.7 lb/ft³",
      "jaló 0,62 m de una vez en 1:42; de 1,20 m a 1,60 m quedó en 43 kg/m³",
      "jaló 2.0 pies de una vez en 1:42; de 3.9 pies a 5.2 pies quedó en 2.7 lb/pie³"}},
    {PB_FAULT_LEFT_EARLY,
     7,
     {"left 0.90 m at 1:42 after 7 s, before the stall; 1.20 m to 1.60 m is at 43 kg/m³",
      "left 3.0 ft at 1:42 after 7 s, before the stall; 3.9 ft to 5.2 ft is at 2.7 lb/ft³",
      "dejó 0,90 m en 1:42 después de 7 s, antes del stall; de 1,20 m a 1,60 m quedó en 43 kg/m³",
      "dejó 3.0 pies en 1:42 después de 7 s, antes del stall; de 3.9 pies a 5.2 pies quedó en 2.7 "
      "lb/pie³"}},
    {PB_FAULT_STAYED_LONG,
     14,
     {"stayed 14 s after the stall at 0.90 m, until 1:42",
      "stayed 14 s after the stall at 3.0 ft, until 1:42",
      "se quedó 14 s después del stall a 0,90 m, hasta 1:42",
      "se quedó 14 s después del stall a 3.0 pies, hasta 1:42"}},
    {PB_FAULT_PLUG,
     0,
     {"the hose clogged at 1:42 with the tube end at 0.90 m; 1.20 m to 1.60 m is at 43 kg/m³",
      "the hose clogged at 1:42 with the tube end at 3.0 ft; 3.9 ft to 5.2 ft is at 2.7 lb/ft³",
      "la manguera se tapó en 1:42 con la punta a 0,90 m; de 1,20 m a 1,60 m quedó en 43 kg/m³",
      "la manguera se tapó en 1:42 con la punta a 3.0 pies; de 3.9 pies a 5.2 pies quedó en 2.7 "
      "lb/pie³"}},
    {PB_FAULT_FED_OUTSIDE,
     1.5,
     {"1.50 kg blown with the tube end outside the bay, from 1:42",
      "3.3 lb blown with the tube end outside the bay, from 1:42",
      "1,50 kg soplados con la punta fuera de la cavidad, desde 1:42",
      "3.3 lb soplados con la punta fuera de la cavidad, desde 1:42"}},
    {PB_FAULT_NOTHING_DONE,
     0,
     {"nothing was packed; 1.20 m to 1.60 m is at 43 kg/m³",
      "nothing was packed; 3.9 ft to 5.2 ft is at 2.7 lb/ft³",
      "no se empacó nada; de 1,20 m a 1,60 m quedó en 43 kg/m³",
      "no se empacó nada; de 3.9 pies a 5.2 pies quedó en 2.7 lb/pie³"}},
    {PB_FAULT_MISSED,
     0.45,
     {"no stop reached 1.20 m to 1.60 m: the nearest was 0.45 m away, left at 1:42; it is at 43 "
      "kg/m³",
      "no stop reached 3.9 ft to 5.2 ft: the nearest was 1.5 ft away, left at 1:42; it is at 2.7 "
      "lb/ft³",
      "ninguna parada llegó de 1,20 m a 1,60 m: la más cercana quedó a 0,45 m, dejada en 1:42; "
      "quedó en 43 kg/m³",
      "ninguna parada llegó de 3.9 pies a 5.2 pies: la más cercana quedó a 1.5 pies, dejada en "
      "1:42; quedó en 2.7 lb/pie³"}},
    {PB_FAULT_WEAK_AIR,
     9960,
     {"the blower gave no more than 10.0 kPa when 0.90 m was packed (left at 1:42); 1.20 m to 1.60 "
      "m is at 43 kg/m³",
      "the blower gave no more than 40 in. w.c. when 3.0 ft was packed (left at 1:42); 3.9 ft to "
      "5.2 ft is at 2.7 lb/ft³",
      "el soplador no daba más de 10,0 kPa al empacar a 0,90 m (dejado en 1:42); de 1,20 m a 1,60 "
      "m quedó en 43 kg/m³",
      "el soplador no daba más de 40 pulg. c.a. al empacar a 3.0 pies (dejado en 1:42); de 3.9 "
      "pies a 5.2 pies quedó en 2.7 lb/pie³"}},
    {PB_FAULT_RICH_FEED,
     0.05,
     {"the feed gate was at 3.00 kg/min when 0.90 m was packed (left at 1:42): too rich; 1.20 m to "
      "1.60 m is at 43 kg/m³",
      "the feed gate was at 6.6 lb/min when 3.0 ft was packed (left at 1:42): too rich; 3.9 ft to "
      "5.2 ft is at 2.7 lb/ft³",
      "la compuerta estaba en 3,00 kg/min al empacar a 0,90 m (dejado en 1:42): demasiado "
      "material; de 1,20 m a 1,60 m quedó en 43 kg/m³",
      "la compuerta estaba en 6.6 lb/min al empacar a 3.0 pies (dejado en 1:42): demasiado "
      "material; de 3.9 pies a 5.2 pies quedó en 2.7 lb/pie³"}},
    {PB_FAULT_TOP_GAP,
     0.019,
     {"settling is predicted to open 19 mm at the top; the nearest stop was left at 1:42",
      "settling is predicted to open 0.7 in. at the top; the nearest stop was left at 1:42",
      "se prevé que el asentamiento abra 19 mm arriba; la parada más cercana se dejó en 1:42",
      "se prevé que el asentamiento abra 0.7 pulg. arriba; la parada más cercana se dejó en 1:42"}},
    {PB_FAULT_LATE_VOID,
     0.0125,
     {"voids of 125 cm² are predicted inside the bay, worst 0.90 m up; the nearest stop was left "
      "at 1:42",
      "voids of 19 in.² are predicted inside the bay, worst 3.0 ft up; the nearest stop was left "
      "at 1:42",
      "se prevén vacíos de 125 cm² dentro de la cavidad, lo peor a 0,90 m de alto; la parada más "
      "cercana se dejó en 1:42",
      "se prevén vacíos de 19 pulg.² dentro de la cavidad, lo peor a 3.0 pies de alto; la parada "
      "más cercana se dejó en 1:42"}},
    {PB_FAULT_LOST_FILL,
     2.5,
     {"2.50 kg was blown and did not stay in the bay, by 1:42",
      "5.5 lb was blown and did not stay in the bay, by 1:42",
      "2,50 kg se soplaron y no quedaron en la cavidad, hasta 1:42",
      "5.5 lb se soplaron y no quedaron en la cavidad, hasta 1:42"}},
    {PB_FAULT_CAPPED,
     40,
     {"the whole grade is held to 40 because the wall blew out at 1:42",
      "the whole grade is held to 40 because the wall blew out at 1:42",
      "toda la calificación se limita a 40 porque la pared reventó en 1:42",
      "toda la calificación se limita a 40 porque la pared reventó en 1:42"}},
    {PB_FAULT_CHECKS,
     6,
     {"checks before work skipped: 6, at 1:42", "checks before work skipped: 6, at 1:42",
      "revisiones antes del trabajo sin hacer: 6, en 1:42",
      "revisiones antes del trabajo sin hacer: 6, en 1:42"}},
    {PB_FAULT_POWER_ON,
     0,
     {"tried to clear a clog with the power on at 1:42",
      "tried to clear a clog with the power on at 1:42",
      "quiso quitar un tapón con la máquina encendida en 1:42",
      "quiso quitar un tapón con la máquina encendida en 1:42"}},
};
enum { SENTENCES = sizeof sentences / sizeof sentences[0] };
static const IoReaderTaste readers[4] = {
    {IO_ENGLISH, 0, 0}, {IO_ENGLISH, 1, 0}, {IO_SPANISH, 0, 1}, {IO_SPANISH, 1, 0}};

START_TEST(every_cause_has_this_sentence)
{
    char text[320], small[8];
    PbLoss l = loss_of(sentences[_i].cause, sentences[_i].value);
    ck_assert_int_eq(SENTENCES, PB_FAULT_LIMIT);
    ck_assert_int_eq((int)sentences[_i].cause, _i);
    for (int k = 0; k < 4; k++) {
        io_loss_sentence(&l, readers[k], text, sizeof text);
        ck_assert_str_eq(text, sentences[_i].text[k]);
        io_loss_sentence(&l, readers[k], small, sizeof small);
        ck_assert_int_eq(strncmp(small, text, 7), 0);
        ck_assert_uint_eq(strlen(small), 7);
    }
    ck_assert_uint_gt(strlen(io_fault_key(sentences[_i].cause)), 3);
}
END_TEST

/* A line of the result: English US, Spanish SI with a comma. */
static const struct {
    const char *en, *es;
} lines[PB_FAULT_LIMIT] = {
    [PB_FAULT_NONE] = {"nothing lost", "nada perdido"},
    [PB_FAULT_SOFT_PATCHES] = {"patches under 3.5 lb/ft³: 7", "parches bajo 56 kg/m³: 7"},
    [PB_FAULT_WEAK_PLACE] = {"softest 5%: 2.9 lb/ft³", "5 % más flojo: 46 kg/m³"},
    [PB_FAULT_PANEL_LOAD] = {"wall at 86% of its strength", "pared al 86 % de su resistencia"},
    [PB_FAULT_BLOW_OUT] = {"the wall blew out", "la pared reventó"},
    [PB_FAULT_TOO_LITTLE] = {"43% less than the bay should take",
                             "43 % menos de lo que debe llevar la cavidad"},
    [PB_FAULT_TOO_MUCH] = {"43% more than the bay should take",
                           "43 % más de lo que debe llevar la cavidad"},
    [PB_FAULT_LONG_STEP] = {"one pull of 2.0 ft", "un jalón de 0,62 m"},
    [PB_FAULT_LEFT_EARLY] = {"moved on before the stall", "se movió antes del stall"},
    [PB_FAULT_STAYED_LONG] = {"stayed 14 s after the stall", "siguió 14 s después del stall"},
    [PB_FAULT_PLUG] = {"the hose clogged", "se tapó la manguera"},
    [PB_FAULT_FED_OUTSIDE] = {"3.3 lb blown outside the bay",
                              "1,50 kg soplados fuera de la cavidad"},
    [PB_FAULT_NOTHING_DONE] = {"nothing was packed", "no se empacó nada"},
    [PB_FAULT_MISSED] = {"no stop within 1.5 ft", "ninguna parada a menos de 0,45 m"},
    [PB_FAULT_WEAK_AIR] = {"blower at 40 in. w.c.", "soplador en 10,0 kPa"},
    [PB_FAULT_RICH_FEED] = {"feed of 6.6 lb/min", "material a 3,00 kg/min"},
    [PB_FAULT_TOP_GAP] = {"a gap of 0.7 in. at the top is predicted",
                          "se prevé un espacio vacío de 19 mm arriba"},
    [PB_FAULT_LATE_VOID] = {"a void inside the bay is predicted",
                            "se prevé un vacío dentro de la cavidad"},
    [PB_FAULT_LOST_FILL] = {"5.5 lb did not stay in the bay",
                            "2,50 kg no se quedaron en la cavidad"},
    [PB_FAULT_CAPPED] = {"held to 40 after a blow-out", "limitada a 40 por el reventón"},
    [PB_FAULT_CHECKS] = {"checks skipped: 6", "revisiones sin hacer: 6"},
    [PB_FAULT_POWER_ON] = {"tried to clear a clog with the power on",
                           "quiso quitar un tapón con la máquina encendida"},
};

START_TEST(every_line_of_the_result_reads_so)
{
    char text[160];
    PbScorePart p = {.fault = sentences[_i].cause, .value = sentences[_i].value, .count = 7};
    io_fault_words(&p, 56.0, readers[1], text, sizeof text);
    ck_assert_str_eq(text, lines[_i].en);
    io_fault_words(&p, 56.0, readers[2], text, sizeof text);
    ck_assert_str_eq(text, lines[_i].es);
}
END_TEST

START_TEST(large_lengths_and_areas_have_the_large_unit)
{
    char text[320];
    PbLoss gap = loss_of(PB_FAULT_TOP_GAP, 0.25), hollow = loss_of(PB_FAULT_LATE_VOID, 0.25);
    io_loss_sentence(&gap, readers[1], text, sizeof text);
    ck_assert_ptr_nonnull(strstr(text, "open 0.8 ft at the top"));
    io_loss_sentence(&hollow, readers[1], text, sizeof text);
    ck_assert_ptr_nonnull(strstr(text, "voids of 2.7 ft²"));
    io_loss_sentence(&hollow, readers[0], text, sizeof text);
    ck_assert_ptr_nonnull(strstr(text, "voids of 0.25 m²"));
}
END_TEST

START_TEST(without_patches_the_sentence_ends_before_them)
{
    char text[320];
    PbLoss l = loss_of(PB_FAULT_LONG_STEP, 0.62);
    l.density_kg_m3 = -1.0;
    io_loss_sentence(&l, readers[0], text, sizeof text);
    ck_assert_str_eq(text, "pulled 0.62 m in one go at 1:42");
}
END_TEST

static const struct {
    const char *key, *text[2];
} parts[PB_SCORE_PARTS] = {{"on_target", {"On target", "En objetivo"}},
                           {"weakest", {"Weakest place", "Punto más débil"}},
                           {"years", {"Years", "Años"}},
                           {"no_harm", {"Safety", "Seguridad"}},
                           {"material", {"Material", "Material"}},
                           {"hands", {"Technique", "Técnica"}}};

static const struct {
    PbEventKind kind;
    const char *text[2];
} events[] = {
    {PB_EVENT_STALL, {"stall", "stall"}},
    {PB_EVENT_PLUG, {"hose clogged", "manguera tapada"}},
    {PB_EVENT_PLUG_CLEARED, {"clog cleared", "tapón quitado"}},
    {PB_EVENT_BOW_HALF, {"wall at half its strength", "pared a la mitad de su resistencia"}},
    {PB_EVENT_CREAK, {"wall creaks", "la pared cruje"}},
    {PB_EVENT_BLOW_OUT, {"wall blew out", "la pared reventó"}},
    {PB_EVENT_FEED_OUTSIDE, {"blown outside the bay", "soplado fuera de la cavidad"}},
    {PB_EVENT_BLOW_BACK, {"blow-back at the hole", "retroceso por el hoyo"}},
    {PB_EVENT_RUNAWAY,
     {"cellulose leaves through an opening", "la celulosa sale por una abertura"}},
    {PB_EVENT_SAFETY, {"safety step skipped", "paso de seguridad omitido"}}};

START_TEST(parts_and_events_have_these_names)
{
    for (int language = 0; language < 2; language++) {
        for (int i = 0; i < PB_SCORE_PARTS; i++) {
            ck_assert_str_eq(io_part_name((PbScorePartKind)i, (IoLanguage)language),
                             parts[i].text[language]);
            ck_assert_str_eq(io_part_key((PbScorePartKind)i), parts[i].key);
        }
        for (size_t i = 0; i < sizeof events / sizeof events[0]; i++) {
            ck_assert_str_eq(io_event_words(events[i].kind, (IoLanguage)language),
                             events[i].text[language]);
        }
    }
}
END_TEST

static const struct {
    double total;
    int decimals;
    double shown;
} marks[] = {
    {69.96, 1, 69.9}, {69.96, 0, 69.0},  {69.999999, 2, 69.99}, {70.0, 1, 70.0},   {70.0, 0, 70.0},
    {70.04, 1, 70.0}, {100.0, 1, 100.0}, {99.99, 0, 99.0},      {0.29, 2, 0.29},   {1.15, 2, 1.15},
    {8.2, 1, 8.2},    {0.0, 1, 0.0},     {0.04, 1, 0.0},        {56.35, 2, 56.35},
};

START_TEST(a_mark_is_rounded_down)
{
    double shown = io_mark_shown(marks[_i].total, marks[_i].decimals);
    ck_assert_msg(shown == marks[_i].shown, "%.17g with %d decimals: %.17g", marks[_i].total,
                  marks[_i].decimals, shown);
}
END_TEST

static const struct {
    double points, max, shown;
} part_marks[] = {
    {15.0, 15.0, 15.0},  {14.96, 15.0, 15.0}, /* so little lost is not spoken of */
    {14.95, 15.0, 14.9}, {14.94, 15.0, 14.9}, {0.04, 15.0, 0.0},
    {0.0, 15.0, 0.0},    {0.0, 0.0, 0.0},     {31.58, 40.0, 31.5},
};

START_TEST(points_of_a_part_are_full_or_rounded_down)
{
    double shown = io_part_shown(part_marks[_i].points, part_marks[_i].max);
    ck_assert_msg(shown == part_marks[_i].shown, "%g of %g: %.17g", part_marks[_i].points,
                  part_marks[_i].max, shown);
}
END_TEST

static const struct {
    double total, pass_score;
    int decimals;
    const char *en, *es; /* the Spanish of a country with a comma */
} mark_texts[] = {
    {69.96, 70.0, 1, "69.9", "69,9"}, /* 69.9 of 100, not passed */
    {69.96, 70.0, 0, "69", "69"},        {70.0, 70.0, 1, "70.0", "70,0"},
    {70.0, 70.0, 0, "70", "70"},         {70.04, 70.0, 1, "70.0", "70,0"},
    {69.96, 69.95, 0, "69.96", "69,96"}, /* passed: 69 and 69.9 would be under the pass mark */
    {69.94, 69.95, 1, "69.9", "69,9"},   {69.96, 69.96, 1, "69.96", "69,96"},
    {40.0, 70.0, 1, "40.0", "40,0"},     {100.0, 70.0, 1, "100.0", "100,0"},
};

START_TEST(a_mark_beside_its_pass_mark_tells_on_which_side_it_is)
{
    char text[24];
    io_mark_text(mark_texts[_i].total, mark_texts[_i].pass_score, mark_texts[_i].decimals,
                 readers[0], text, sizeof text);
    ck_assert_str_eq(text, mark_texts[_i].en);
    io_mark_text(mark_texts[_i].total, mark_texts[_i].pass_score, mark_texts[_i].decimals,
                 readers[2], text, sizeof text);
    ck_assert_str_eq(text, mark_texts[_i].es);
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("score_words");
    TCase *normal = tcase_create("normal");
    tcase_add_loop_test(normal, every_cause_has_this_sentence, 0, PB_FAULT_LIMIT);
    tcase_add_loop_test(normal, every_line_of_the_result_reads_so, 0, PB_FAULT_LIMIT);
    tcase_add_test(normal, large_lengths_and_areas_have_the_large_unit);
    tcase_add_test(normal, without_patches_the_sentence_ends_before_them);
    tcase_add_test(normal, parts_and_events_have_these_names);
    tcase_add_loop_test(normal, a_mark_is_rounded_down, 0, sizeof marks / sizeof marks[0]);
    tcase_add_loop_test(normal, points_of_a_part_are_full_or_rounded_down, 0,
                        sizeof part_marks / sizeof part_marks[0]);
    tcase_add_loop_test(normal, a_mark_beside_its_pass_mark_tells_on_which_side_it_is, 0,
                        sizeof mark_texts / sizeof mark_texts[0]);
    suite_add_tcase(suite, normal);
    return run_suite(suite);
}
