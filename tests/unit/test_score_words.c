/* Sentences on lost points, by value: what a person reads, in both languages and both systems of
 * units; never overrun. */
#include "io/score_words.h"
#include "languages.h"
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
     {"softest stretch: 1.20 m to 1.60 m at 46 kg/m³, left at 1:42",
      "softest stretch: 3.9 ft to 5.2 ft at 2.9 lb/ft³, left at 1:42",
      "tramo más flojo: de 1,20 m a 1,60 m en 46 kg/m³, dejado en 1:42",
      "tramo más flojo: de 3.9 pies a 5.2 pies en 2.9 lb/pie³, dejado en 1:42"}},
    {PB_FAULT_PANEL_LOAD,
     0.86,
     {"the wall was loaded to 86% of the strength expected of it at 1:42, 0.90 m up",
      "the wall was loaded to 86% of the strength expected of it at 1:42, 3.0 ft up",
      "la pared se cargó al 86 % de la resistencia que se le supone en 1:42, a 0,90 m de alto",
      "la pared se cargó al 86 % de la resistencia que se le supone en 1:42, a 3.0 pies de alto"}},
    {PB_FAULT_BLOW_OUT,
     1.04,
     {"the wall blew out at 1:42, 0.90 m up, at 104% of the strength expected of it",
      "the wall blew out at 1:42, 3.0 ft up, at 104% of the strength expected of it",
      "la pared reventó en 1:42, a 0,90 m de alto, al 104 % de la resistencia que se le supone",
      "la pared reventó en 1:42, a 3.0 pies de alto, al 104 % de la resistencia que se le "
      "supone"}},
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
    {PB_FAULT_HELD,
     0.62,
     {"the wall is only worth 62%, and these points go with it",
      "the wall is only worth 62%, and these points go with it",
      "la pared solo vale 62 %, y estos puntos van con ella",
      "la pared solo vale 62 %, y estos puntos van con ella"}},
    {PB_FAULT_WEAK_MACHINE,
     9960,
     {"at full blower this machine gives only 10.0 kPa; 1.20 m to 1.60 m is at 43 kg/m³",
      "at full blower this machine gives only 40 in. w.c.; 3.9 ft to 5.2 ft is at 2.7 lb/ft³",
      "con el soplador a fondo esta máquina solo da 10,0 kPa; de 1,20 m a 1,60 m quedó en 43 kg/m³",
      "con el soplador a fondo esta máquina solo da 40 pulg. c.a.; de 3.9 pies a 5.2 pies quedó en "
      "2.7 lb/pie³"}},
    {PB_FAULT_BEHIND_WOOD,
     1.1,
     {"wood 1.10 m up keeps the tube from 1.20 m to 1.60 m; it is at 43 kg/m³",
      "wood 3.6 ft up keeps the tube from 3.9 ft to 5.2 ft; it is at 2.7 lb/ft³",
      "la madera a 1,10 m de alto no deja pasar el tubo de 1,20 m a 1,60 m; quedó en 43 kg/m³",
      "la madera a 3.6 pies de alto no deja pasar el tubo de 3.9 pies a 5.2 pies; quedó en 2.7 "
      "lb/pie³"}},
    {PB_FAULT_OVER_DENSE,
     1.5,
     {"1.50 kg was packed in beyond any use; densest 0.90 m up, left at 1:42",
      "3.3 lb was packed in beyond any use; densest 3.0 ft up, left at 1:42",
      "1,50 kg se empacaron sin provecho; lo más denso a 0,90 m de alto, dejado en 1:42",
      "3.3 lb se empacaron sin provecho; lo más denso a 3.0 pies de alto, dejado en 1:42"}},
    {PB_FAULT_SOFT_SLICE, 41, {NULL}}, /* gates: their own test */
    {PB_FAULT_LOW_MEAN, 52, {NULL}},
    {PB_FAULT_VOID, 0.25, {NULL}},
    {PB_FAULT_LOW_MARK, 44, {NULL}},
    {PB_FAULT_SHORT_TUBE,
     0.6,
     {"a tube of 0.60 m does not reach 1.20 m to 1.60 m; it is at 43 kg/m³",
      "a tube of 2.0 ft does not reach 3.9 ft to 5.2 ft; it is at 2.7 lb/ft³",
      "un tubo de 0,60 m no llega a la zona de 1,20 m a 1,60 m; quedó en 43 kg/m³",
      "un tubo de 2.0 pies no llega a la zona de 3.9 pies a 5.2 pies; quedó en 2.7 lb/pie³"}},
    {PB_FAULT_OPENINGS, 0.16, {NULL}},
    {PB_FAULT_SLOW,
     1.7,
     {"the bay took 170% of a crew's usual time, until 1:42",
      "the bay took 170% of a crew's usual time, until 1:42",
      "la cavidad llevó 170 % del tiempo usual de una cuadrilla, hasta 1:42",
      "la cavidad llevó 170 % del tiempo usual de una cuadrilla, hasta 1:42"}},
};
enum { SENTENCES = sizeof sentences / sizeof sentences[0] };
static const IoReaderTaste readers[4] = {
    {WORDS_ENGLISH, 0, 0}, {WORDS_ENGLISH, 1, 0}, {SPANISH, 0, 1}, {SPANISH, 1, 0}};

START_TEST(every_cause_has_this_sentence)
{
    char text[320], small[8];
    PbLoss l = loss_of(sentences[_i].cause, sentences[_i].value);
    ck_assert_int_eq(SENTENCES, PB_FAULT_LIMIT);
    ck_assert_int_eq((int)sentences[_i].cause, _i);
    for (int k = 0; k < 4 && sentences[_i].text[k] != NULL; k++) {
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
    [PB_FAULT_WEAK_PLACE] = {"softest stretch at 2.9 lb/ft³", "tramo más flojo en 46 kg/m³"},
    [PB_FAULT_PANEL_LOAD] = {"wall at 86% of its expected strength",
                             "pared al 86 % de la resistencia supuesta"},
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
    [PB_FAULT_HELD] = {"goes with the wall: 62%", "va con la pared: 62 %"},
    [PB_FAULT_WEAK_MACHINE] = {"the machine gives only 40 in. w.c.", "la máquina solo da 10,0 kPa"},
    [PB_FAULT_BEHIND_WOOD] = {"behind wood 3.6 ft up", "detrás de la madera a 1,10 m de alto"},
    [PB_FAULT_OVER_DENSE] = {"3.3 lb packed in beyond any use", "1,50 kg empacados sin provecho"},
    [PB_FAULT_SOFT_SLICE] = {"softest stretch at 2.6 lb/ft³", "tramo más flojo en 41 kg/m³"},
    [PB_FAULT_LOW_MEAN] = {"mean of 3.2 lb/ft³", "promedio de 52 kg/m³"},
    [PB_FAULT_VOID] = {"2.7 ft² as good as empty", "0,25 m² casi sin relleno"},
    [PB_FAULT_LOW_MARK] = {"44 of 100 points", "44 de 100 puntos"},
    [PB_FAULT_SHORT_TUBE] = {"out of reach of a tube of 2.0 ft",
                             "fuera del alcance de un tubo de 0,60 m"},
    [PB_FAULT_SLOW] = {"170% of a crew's usual time", "170 % del tiempo usual de una cuadrilla"},
    [PB_FAULT_OPENINGS] = {"0.4 lb out through an opening", "0,16 kg salieron por una abertura"},
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
            ck_assert_str_eq(io_part_name((PbScorePartKind)i, language), parts[i].text[language]);
            ck_assert_str_eq(io_part_key((PbScorePartKind)i), parts[i].key);
        }
        for (size_t i = 0; i < sizeof events / sizeof events[0]; i++) {
            ck_assert_str_eq(io_event_words(events[i].kind, language), events[i].text[language]);
        }
    }
}
END_TEST

/* What a shut gate says: its own figure beside what was wanted, where and when. */
static const struct {
    PbScoreFault fault;
    double value, limit;
    const char *text[2]; /* English SI, Spanish US */
} gates[PB_GATES] = {
    [PB_GATE_FACE] = {PB_FAULT_BLOW_OUT,
                      1.04,
                      0.0,
                      {"the wall blew out at 1:42, 1.40 m up, at 104% of the strength expected of "
                       "it",
                       "la pared reventó en 1:42, a 4.6 pies de alto, al 104 % de la resistencia "
                       "que se le supone"}},
    [PB_GATE_LOAD] =
        {PB_FAULT_PANEL_LOAD,
         0.93,
         0.9,
         {"the wall was loaded to 93% of the strength expected of it at 1:42, 1.40 m up",
          "la pared se cargó al 93 % de la resistencia que se le supone en 1:42, a 4.6 "
          "pies de alto"}},
    [PB_GATE_CHECKS] = {PB_FAULT_CHECKS,
                        2.0,
                        0.0,
                        {"checks before work skipped: 2, at 1:42",
                         "revisiones antes del trabajo sin hacer: 2, en 1:42"}},
    [PB_GATE_MEAN] = {PB_FAULT_LOW_MEAN,
                      52.0,
                      56.0,
                      {"the mean is 52 kg/m³, and 56 kg/m³ is wanted",
                       "el promedio es 3.2 lb/pie³, y se piden 3.5 lb/pie³"}},
    [PB_GATE_SLICE] =
        {PB_FAULT_SOFT_SLICE,
         41.0,
         48.0,
         {"1.20 m to 1.60 m, left at 1:42, is at 41 kg/m³; 48 kg/m³ is the least "
          "anywhere",
          "de 3.9 pies a 5.2 pies, dejado en 1:42, quedó en 2.6 lb/pie³; lo mínimo en "
          "cualquier parte es 3.0 lb/pie³"}},
    [PB_GATE_VOID] =
        {PB_FAULT_VOID,
         0.25,
         0.01,
         {"0.25 m² of the wall is as good as empty, most of it from 1.20 m to 1.60 m, "
          "left at 1:42",
          "2.7 pies² de la pared está casi sin relleno, lo más de 3.9 pies a 5.2 pies, "
          "dejado en 1:42"}},
    [PB_GATE_LOST] = {PB_FAULT_OPENINGS,
                      0.16,
                      0.05,
                      {"0.16 kg went out through an opening of the bay, and 0.05 kg is the most",
                       "0.4 lb salieron por una abertura de la cavidad, y lo máximo es 0.1 lb"}},
    [PB_GATE_MARK] = {PB_FAULT_LOW_MARK,
                      69.0,
                      69.95,
                      {"69 of 100 points, and 69.95 are wanted",
                       "69 de 100 puntos, y se piden 69.95"}},
};

START_TEST(a_shut_gate_says_what_where_and_when)
{
    char text[320];
    PbGate g = {1, gates[_i].fault, gates[_i].value, gates[_i].limit, 1.2, 1.6, 102.0};
    for (int k = 0; k < 2; k++) {
        io_gate_sentence(&g, readers[3 * k], text, sizeof text);
        ck_assert_str_eq(text, gates[_i].text[k]);
    }
}
END_TEST

START_TEST(a_gate_missed_by_little_does_not_read_as_reached)
{
    char text[320];
    PbGate g = {1, PB_FAULT_LOW_MEAN, 55.97, 56.0, 0.0, 2.4, 102.0};
    io_gate_sentence(&g, readers[0], text, sizeof text);
    ck_assert_str_eq(text, "the mean is 55.9 kg/m³, and 56 kg/m³ is wanted");
    io_gate_sentence(&g, readers[1], text, sizeof text);
    ck_assert_str_eq(text, "the mean is 3.49 lb/ft³, and 3.5 lb/ft³ is wanted");
}
END_TEST

START_TEST(the_verdict_has_a_word)
{
    static const char *const words[3][2] = {
        {"passed", "aprobado"}, {"redo", "se repite"}, {"failed", "reprobado"}};
    for (int v = 0; v < 3; v++) {
        ck_assert_str_eq(io_verdict_word((PbVerdict)v, WORDS_ENGLISH), words[v][0]);
        ck_assert_str_eq(io_verdict_word((PbVerdict)v, SPANISH), words[v][1]);
    }
}
END_TEST

static const struct {
    double total;
    int shown;
} marks[] = {{69.96, 69},  {69.999999, 69}, {70.0, 70}, {69.9999999999, 70},
             {100.0, 100}, {99.99, 99},     {0.0, 0},   {0.97, 0}};

/* So that 69.96 never reads as a 70 that did not pass; a last bit lost in summing is none. */
START_TEST(a_mark_is_rounded_down)
{
    ck_assert_int_eq(io_mark_shown(marks[_i].total), marks[_i].shown);
}
END_TEST

/* Who adds the points of the parts gets the mark; the point that is due goes where most was cut. */
START_TEST(points_of_the_parts_add_up_to_the_mark)
{
    const double points[PB_SCORE_PARTS] = {31.58, 11.7, 14.96, 13.2, 5.0, 7.45};
    const int due[PB_SCORE_PARTS] = {31, 12, 15, 13, 5, 7};
    int shown[PB_SCORE_PARTS], sum = 0;
    io_points_shown(points, PB_SCORE_PARTS, shown);
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        ck_assert_int_eq(shown[i], due[i]);
        sum += shown[i];
    }
    ck_assert_int_eq(sum, io_mark_shown(31.58 + 11.7 + 14.96 + 13.2 + 5.0 + 7.45));
}
END_TEST

static uint32_t dice_state;
static double dice(double hi)
{
    dice_state = dice_state * 1664525u + 1013904223u;
    return hi * (dice_state >> 8) / 16777216.0;
}

/* What is shown of a part and of its losses is its maximum; the parts add up to the mark. */
START_TEST(points_lost_add_up_with_points_kept)
{
    static const double max[PB_SCORE_PARTS] = {40, 15, 15, 15, 5, 10};
    dice_state = (uint32_t)_i;
    for (int n = 0; n < 200; n++) {
        PbScore s = {.total = 0.0};
        int shown[PB_SCORE_PARTS], lost[PB_SCORE_MAX_LOSSES], sum = 0;
        for (int p = 0; p < PB_SCORE_PARTS; p++) {
            s.parts[p] = (PbScorePart){.points = max[p], .max = max[p]};
            for (int k = 0; k < 4; k++) {
                PbLoss l = {.part = (PbScorePartKind)p, .points = dice(max[p] / 4.0)};
                s.parts[p].points -= l.points;
                s.losses[s.loss_count++] = l;
            }
            s.total += s.parts[p].points;
        }
        io_parts_shown(&s, shown);
        io_losses_shown(&s, lost);
        for (int p = 0; p < PB_SCORE_PARTS; p++) {
            int gone = 0;
            for (int i = 0; i < s.loss_count; i++) {
                gone += (int)s.losses[i].part == p ? lost[i] : 0;
                ck_assert_double_lt(fabs(lost[i] - s.losses[i].points), 1.0);
            }
            ck_assert_int_eq(shown[p] + gone, (int)max[p]);
            sum += shown[p];
        }
        ck_assert_int_eq(sum, io_mark_shown(s.total));
    }
}
END_TEST

/* Where weights are not 100 what the parts add up to is said, in both languages. */
START_TEST(a_sum_that_is_not_the_mark_is_said)
{
    PbScore s = {.total = 90.0};
    char text[80];
    s.parts[PB_SCORE_ON_TARGET] = (PbScorePart){.points = 32.7, .max = 35.0};
    s.parts[PB_SCORE_HANDS] = (PbScorePart){.points = 3.5, .max = 5.0};
    io_sum_words(&s, readers[1], text, sizeof text);
    ck_assert_str_eq(text, "36 of 40 points");
    io_sum_words(&s, readers[2], text, sizeof text);
    ck_assert_str_eq(text, "36 de 40 puntos");
    s.parts[PB_SCORE_HANDS].max = 65.0;
    io_sum_words(&s, readers[1], text, sizeof text);
    ck_assert_str_eq(text, "");
}
END_TEST

int main(void)
{
    Suite *suite = suite_create("score_words");
    TCase *normal = tcase_create("normal");
    tcase_add_loop_test(normal, points_lost_add_up_with_points_kept, 0, 5);
    tcase_add_test(normal, a_sum_that_is_not_the_mark_is_said);
    tcase_add_loop_test(normal, every_cause_has_this_sentence, 0, PB_FAULT_LIMIT);
    tcase_add_loop_test(normal, every_line_of_the_result_reads_so, 0, PB_FAULT_LIMIT);
    tcase_add_test(normal, large_lengths_and_areas_have_the_large_unit);
    tcase_add_test(normal, without_patches_the_sentence_ends_before_them);
    tcase_add_test(normal, parts_and_events_have_these_names);
    tcase_add_loop_test(normal, a_mark_is_rounded_down, 0, sizeof marks / sizeof marks[0]);
    tcase_add_test(normal, points_of_the_parts_add_up_to_the_mark);
    tcase_add_loop_test(normal, a_shut_gate_says_what_where_and_when, 0, PB_GATES);
    tcase_add_test(normal, a_gate_missed_by_little_does_not_read_as_reached);
    tcase_add_test(normal, the_verdict_has_a_word);
    suite_add_tcase(suite, normal);
    return run_suite(suite);
}
