/*
 * Scores in words. Sentences are templates with named figures in braces, so that a translator may
 * put them in any order: {v} the cause's figure, {t} when, {a} and {b} the band, {d} density there,
 * {y} height. Figures get their unit here and nowhere else. JSON of a score: score_json.c.
 */
#include "io/score_words.h"

#include "word_template.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

typedef struct Words {
    const char *key;
    const char *text[2]; /* by IoLanguage */
} Words;

static const Words parts[PB_SCORE_PARTS] = {
    {"on_target", {"On target", "En objetivo"}},
    {"weakest", {"Weakest place", "Punto más débil"}},
    {"years", {"Years", "Años"}},
    {"no_harm", {"Safety", "Seguridad"}},
    {"material", {"Material", "Material"}},
    {"hands", {"Technique", "Técnica"}},
};

/* How a cause's figure is shown. */
typedef enum Figure {
    NO_FIGURE,
    LENGTH,
    DENSITY,
    PERCENT,
    CHANGE,
    SECONDS,
    MASS,
    PRESSURE,
    FEED,
    AREA,
    NUMBER
} Figure;

typedef struct FaultWords {
    Words words;
    Figure figure;
} FaultWords;

static const FaultWords faults[PB_FAULT_LIMIT] = {
    [PB_FAULT_NONE] = {{"none", {"nothing lost", "nada perdido"}}, NO_FIGURE},
    [PB_FAULT_SOFT_PATCHES] = {{"soft_patches",
                                {"the stop at {t} was done right, yet {a} to {b} is at {d}",
                                 "la parada de {t} se hizo bien, pero de {a} a {b} quedó en {d}"}},
                               DENSITY},
    [PB_FAULT_WEAK_PLACE] = {{"weak_place",
                              {"softest stretch: {a} to {b} at {v}, left at {t}",
                               "tramo más flojo: de {a} a {b} en {v}, dejado en {t}"}},
                             DENSITY},
    [PB_FAULT_PANEL_LOAD] =
        {{"panel_load",
          {"the wall was loaded to {v} of the strength expected of it at {t}, {y} up",
           "la pared se cargó al {v} de la resistencia que se le supone en {t}, "
           "a {y} de alto"}},
         PERCENT},
    [PB_FAULT_BLOW_OUT] =
        {{"blow_out",
          {"the wall blew out at {t}, {y} up, at {v} of the strength expected of it",
           "la pared reventó en {t}, a {y} de alto, al {v} de la resistencia que "
           "se le supone"}},
         PERCENT},
    [PB_FAULT_TOO_LITTLE] =
        {{"too_little",
          {"{v} less material than the bay should take; softest {y} up, left at {t}",
           "{v} menos material del que debe llevar la cavidad; lo más flojo a {y} de alto, dejado "
           "en {t}"}},
         CHANGE},
    [PB_FAULT_TOO_MUCH] =
        {{"too_much",
          {"{v} more material than the bay should take; densest {y} up, left at {t}",
           "{v} más material del que debe llevar la cavidad; lo más denso a {y} de alto, dejado en "
           "{t}"}},
         CHANGE},
    [PB_FAULT_LONG_STEP] = {{"long_step",
                             {"pulled {v} in one go at {t}; {a} to {b} is at {d}",
                              "jaló {v} de una vez en {t}; de {a} a {b} quedó en {d}"}},
                            LENGTH},
    [PB_FAULT_LEFT_EARLY] =
        {{"left_early",
          {"left {y} at {t} after {v}, before the stall; {a} to {b} is at {d}",
           "dejó {y} en {t} después de {v}, antes del stall; de {a} a {b} quedó en {d}"}},
         SECONDS},
    [PB_FAULT_STAYED_LONG] = {{"stayed_long",
                               {"stayed {v} after the stall at {y}, until {t}",
                                "se quedó {v} después del stall a {y}, hasta {t}"}},
                              SECONDS},
    [PB_FAULT_PLUG] =
        {{"plug",
          {"the hose clogged at {t} with the tube end at {y}; {a} to {b} is at {d}",
           "la manguera se tapó en {t} con la punta a {y}; de {a} a {b} quedó en {d}"}},
         NO_FIGURE},
    [PB_FAULT_FED_OUTSIDE] = {{"fed_outside",
                               {"{v} blown with the tube end outside the bay, from {t}",
                                "{v} soplados con la punta fuera de la cavidad, desde {t}"}},
                              MASS},
    [PB_FAULT_NOTHING_DONE] = {{"nothing_done",
                                {"nothing was packed; {a} to {b} is at {d}",
                                 "no se empacó nada; de {a} a {b} quedó en {d}"}},
                               NO_FIGURE},
    [PB_FAULT_MISSED] =
        {{"missed",
          {"no stop reached {a} to {b}: the nearest was {v} away, left at {t}; it is at {d}",
           "ninguna parada llegó de {a} a {b}: la más cercana quedó a {v}, dejada en {t}; quedó en "
           "{d}"}},
         LENGTH},
    [PB_FAULT_WEAK_AIR] = {{"weak_air",
                            {"the blower gave no more than {v} when {y} was packed (left at {t}); "
                             "{a} to {b} is at {d}",
                             "el soplador no daba más de {v} al empacar a {y} (dejado en {t}); de "
                             "{a} a {b} quedó en {d}"}},
                           PRESSURE},
    [PB_FAULT_RICH_FEED] = {{"rich_feed",
                             {"the feed gate was at {v} when {y} was packed (left at {t}): too "
                              "rich; {a} to {b} is at {d}",
                              "la compuerta estaba en {v} al empacar a {y} (dejado en {t}): "
                              "demasiado material; de {a} a {b} quedó en {d}"}},
                            FEED},
    [PB_FAULT_TOP_GAP] =
        {{"top_gap",
          {"settling is predicted to open {v} at the top; the nearest stop was left at {t}",
           "se prevé que el asentamiento abra {v} arriba; la parada más cercana se dejó en {t}"}},
         LENGTH},
    [PB_FAULT_LATE_VOID] = {{"late_void",
                             {"voids of {v} are predicted inside the bay, worst {y} up; the "
                              "nearest stop was left at {t}",
                              "se prevén vacíos de {v} dentro de la cavidad, lo peor a {y} de "
                              "alto; la parada más cercana se dejó en {t}"}},
                            AREA},
    [PB_FAULT_LOST_FILL] = {{"lost_fill",
                             {"{v} was blown and did not stay in the bay, by {t}",
                              "{v} se soplaron y no quedaron en la cavidad, hasta {t}"}},
                            MASS},
    [PB_FAULT_CAPPED] = {{"capped",
                          {"the whole grade is held to {v} because the wall blew out at {t}",
                           "toda la calificación se limita a {v} porque la pared reventó en {t}"}},
                         NUMBER},
    [PB_FAULT_CHECKS] = {{"checks_skipped",
                          {"checks before work skipped: {v}, at {t}",
                           "revisiones antes del trabajo sin hacer: {v}, en {t}"}},
                         NUMBER},
    [PB_FAULT_POWER_ON] = {{"power_on",
                            {"tried to clear a clog with the power on at {t}",
                             "quiso quitar un tapón con la máquina encendida en {t}"}},
                           NO_FIGURE},
    [PB_FAULT_HELD] = {{"held",
                        {"the wall is only worth {v}, and these points go with it",
                         "la pared solo vale {v}, y estos puntos van con ella"}},
                       PERCENT},
    [PB_FAULT_WEAK_MACHINE] =
        {{"weak_machine",
          {"at full blower this machine gives only {v}; {a} to {b} is at {d}",
           "con el soplador a fondo esta máquina solo da {v}; de {a} a {b} quedó en {d}"}},
         PRESSURE},
    [PB_FAULT_BEHIND_WOOD] =
        {{"behind_wood",
          {"wood {v} up keeps the tube from {a} to {b}; it is at {d}",
           "la madera a {v} de alto no deja pasar el tubo de {a} a {b}; quedó en {d}"}},
         LENGTH},
    [PB_FAULT_OVER_DENSE] =
        {{"over_dense",
          {"{v} was packed in beyond any use; densest {y} up, left at {t}",
           "{v} se empacaron sin provecho; lo más denso a {y} de alto, dejado en {t}"}},
         MASS},
    [PB_FAULT_SOFT_SLICE] = {{"soft_slice",
                              {"{a} to {b}, left at {t}, is at {v}; {l} is the least anywhere",
                               "de {a} a {b}, dejado en {t}, quedó en {v}; lo mínimo en cualquier "
                               "parte es {l}"}},
                             DENSITY},
    [PB_FAULT_LOW_MEAN] = {{"low_mean",
                            {"the mean is {v}, and {l} is wanted",
                             "el promedio es {v}, y se piden {l}"}},
                           DENSITY},
    [PB_FAULT_VOID] = {{"void",
                        {"{v} of the wall is as good as empty, most of it from {a} to {b}, left at "
                         "{t}",
                         "{v} de la pared está casi sin relleno, lo más de {a} a {b}, dejado en "
                         "{t}"}},
                       AREA},
    [PB_FAULT_LOW_MARK] = {{"low_mark",
                            {"{v} of 100 points, and {l} are wanted",
                             "{v} de 100 puntos, y se piden {l}"}},
                           NUMBER},
};

const char *io_part_name(PbScorePartKind part, IoLanguage language)
{
    return (int)part < PB_SCORE_PARTS ? parts[part].text[language] : "";
}

const char *io_part_key(PbScorePartKind part)
{
    return (int)part < PB_SCORE_PARTS ? parts[part].key : "";
}

const char *io_fault_key(PbScoreFault fault)
{
    return (int)fault < PB_FAULT_LIMIT ? faults[fault].words.key : "";
}

const char *io_event_words(PbEventKind kind, IoLanguage language)
{
    static const struct {
        PbEventKind kind;
        const char *text[2];
    } words[] = {
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
        {PB_EVENT_SAFETY, {"safety step skipped", "paso de seguridad omitido"}},
    };
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        if (words[i].kind == kind) {
            return words[i].text[language];
        }
    }
    return "";
}

void io_clock_words(double time_s, char *out, size_t size)
{
    int s = (int)floor(time_s + 0.5);
    snprintf(out, size, "%d:%02d", s / 60, s % 60);
}

static void figure_words(Figure figure, double v, IoReaderTaste taste, char *out, size_t size)
{
    IoUnit unit = IO_UNIT_LENGTH;
    out[0] = '\0';
    switch (figure) {
    case NO_FIGURE:
        return;
    case LENGTH:
        if (v < 0.1) {
            io_figure(io_unit_value(IO_UNIT_SMALL, v, taste), taste.is_us ? 1 : 0,
                      io_unit_name(IO_UNIT_SMALL, taste), taste, out, size);
            return;
        }
        break;
    case DENSITY:
        unit = IO_UNIT_DENSITY;
        break;
    case PERCENT:
        io_figure(100.0 * v, 0, "%", taste, out, size);
        return;
    case CHANGE:
        io_figure(100.0 * fabs(v - 1.0), 0, "%", taste, out, size);
        return;
    case SECONDS:
        io_figure(v, 0, "s", taste, out, size);
        return;
    case MASS:
        unit = IO_UNIT_MASS;
        break;
    case PRESSURE:
        unit = IO_UNIT_PRESSURE;
        break;
    case FEED:
        unit = IO_UNIT_FEED;
        break;
    case AREA:
        unit = v < 0.1 ? IO_UNIT_SMALL_AREA : IO_UNIT_AREA;
        break;
    case NUMBER:
        io_figure(v, fmod(v, 1.0) > 0.0 ? 2 : 0, "", taste, out, size);
        return;
    }
    io_unit_figure(unit, v, taste, out, size);
}

/* A height on the wall always in the same unit, so that bands read well. */
static void height_words(double m, IoReaderTaste taste, char *out, size_t size)
{
    io_unit_figure(IO_UNIT_LENGTH, m, taste, out, size);
}

static void fill_in(char which, const void *lost, IoReaderTaste taste, char *out, size_t size)
{
    const PbLoss *loss = lost;
    out[0] = '\0';
    switch (which) {
    case 'v':
        figure_words(faults[loss->cause].figure, loss->value, taste, out, size);
        break;
    case 't':
        io_clock_words(loss->time_s, out, size);
        break;
    case 'a':
        height_words(loss->y0_m, taste, out, size);
        break;
    case 'b':
        height_words(loss->y1_m, taste, out, size);
        break;
    case 'y':
        height_words(loss->y_m, taste, out, size);
        break;
    case 'd':
        figure_words(DENSITY, loss->density_kg_m3, taste, out, size);
        break;
    default:
        break;
    }
}

void io_loss_sentence(const PbLoss *loss, IoReaderTaste taste, char *out, size_t size)
{
    const char *t =
        (int)loss->cause < PB_FAULT_LIMIT ? faults[loss->cause].words.text[taste.language] : "";
    /* without patches there is nothing to say of a band: the sentence ends before it */
    const char *end = strchr(t, ';');
    int is_short = loss->density_kg_m3 < 0.0 && end != NULL && strstr(end, "{d}") != NULL;
    (void)io_template_append(t, is_short ? end : NULL, fill_in, loss, taste, out, 0, size);
}

/* 55.9 where 56 is wanted would read as a 56 that is not enough: one decimal more then, cut off. */
static void just_under(const PbGate *g, IoReaderTaste taste, char *out, size_t size)
{
    char wanted[48];
    int decimals = taste.is_us ? 2 : 1;
    double scale = pow(10.0, decimals), shown = io_unit_value(IO_UNIT_DENSITY, g->value, taste);
    figure_words(DENSITY, g->limit, taste, wanted, sizeof wanted);
    if (g->value < g->limit && strcmp(out, wanted) == 0) {
        io_figure(floor(shown * scale) / scale, decimals, io_unit_name(IO_UNIT_DENSITY, taste),
                  taste, out, size);
    }
}

static void fill_gate(char which, const void *shut, IoReaderTaste taste, char *out, size_t size)
{
    const PbGate *g = shut;
    Figure figure = faults[g->fault].figure;
    PbLoss loss = {.cause = g->fault,
                   .value = g->value,
                   .y_m = 0.5 * (g->y0_m + g->y1_m),
                   .y0_m = g->y0_m,
                   .y1_m = g->y1_m,
                   .time_s = g->time_s};
    if (which == 'l') {
        figure_words(figure, g->limit, taste, out, size);
    } else {
        fill_in(which, &loss, taste, out, size);
    }
    if (which == 'v' && figure == DENSITY) {
        just_under(g, taste, out, size);
    }
}

void io_gate_sentence(const PbGate *gate, IoReaderTaste taste, char *out, size_t size)
{
    const char *t = faults[gate->fault].words.text[taste.language];
    (void)io_template_append(t, NULL, fill_gate, gate, taste, out, 0, size);
}

const char *io_verdict_word(PbVerdict verdict, IoLanguage language)
{
    static const char *const words[3][2] = {
        [PB_VERDICT_PASS] = {"passed", "aprobado"},
        [PB_VERDICT_REDO] = {"redo", "se repite"},
        [PB_VERDICT_FAIL] = {"failed", "reprobado"},
    };
    return words[verdict][language];
}

int io_mark_shown(double total)
{
    return (int)floor(total + 1e-9); /* a sum of whole points may have lost a last bit */
}

void io_points_shown(const double *points, int count, int *shown)
{
    double sum = 0.0, left[PB_SUMMARY_PARTS];
    int given = 0;
    for (int i = 0; i < count; i++) {
        shown[i] = (int)floor(points[i] + 1e-9);
        left[i] = points[i] - shown[i];
        sum += points[i];
        given += shown[i];
    }
    for (int due = (int)floor(sum + 1e-9) - given; due > 0; due--) {
        int most = 0;
        for (int i = 1; i < count; i++) {
            most = left[i] > left[most] ? i : most;
        }
        shown[most]++;
        left[most] = -1.0;
    }
}

void io_parts_shown(const PbScore *score, int *shown)
{
    double points[PB_SCORE_PARTS];
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        points[i] = score->parts[i].points;
    }
    io_points_shown(points, PB_SCORE_PARTS, shown);
}

/* The same without where and when, for a line of the result. {n} how many, {d} the target. */
static const char *const short_words[PB_FAULT_LIMIT][2] = {
    [PB_FAULT_NONE] = {"nothing lost", "nada perdido"},
    [PB_FAULT_SOFT_PATCHES] = {"patches under {d}: {n}", "parches bajo {d}: {n}"},
    [PB_FAULT_WEAK_PLACE] = {"softest stretch at {v}", "tramo más flojo en {v}"},
    [PB_FAULT_PANEL_LOAD] = {"wall at {v} of its expected strength",
                             "pared al {v} de la resistencia supuesta"},
    [PB_FAULT_BLOW_OUT] = {"the wall blew out", "la pared reventó"},
    [PB_FAULT_TOO_LITTLE] = {"{v} less than the bay should take",
                             "{v} menos de lo que debe llevar la cavidad"},
    [PB_FAULT_TOO_MUCH] = {"{v} more than the bay should take",
                           "{v} más de lo que debe llevar la cavidad"},
    [PB_FAULT_LONG_STEP] = {"one pull of {v}", "un jalón de {v}"},
    [PB_FAULT_LEFT_EARLY] = {"moved on before the stall", "se movió antes del stall"},
    [PB_FAULT_STAYED_LONG] = {"stayed {v} after the stall", "siguió {v} después del stall"},
    [PB_FAULT_PLUG] = {"the hose clogged", "se tapó la manguera"},
    [PB_FAULT_FED_OUTSIDE] = {"{v} blown outside the bay", "{v} soplados fuera de la cavidad"},
    [PB_FAULT_NOTHING_DONE] = {"nothing was packed", "no se empacó nada"},
    [PB_FAULT_MISSED] = {"no stop within {v}", "ninguna parada a menos de {v}"},
    [PB_FAULT_WEAK_AIR] = {"blower at {v}", "soplador en {v}"},
    [PB_FAULT_RICH_FEED] = {"feed of {v}", "material a {v}"},
    [PB_FAULT_TOP_GAP] = {"a gap of {v} at the top is predicted",
                          "se prevé un espacio vacío de {v} arriba"},
    [PB_FAULT_LATE_VOID] = {"a void inside the bay is predicted",
                            "se prevé un vacío dentro de la cavidad"},
    [PB_FAULT_LOST_FILL] = {"{v} did not stay in the bay", "{v} no se quedaron en la cavidad"},
    [PB_FAULT_CAPPED] = {"held to {v} after a blow-out", "limitada a {v} por el reventón"},
    [PB_FAULT_CHECKS] = {"checks skipped: {v}", "revisiones sin hacer: {v}"},
    [PB_FAULT_POWER_ON] = {"tried to clear a clog with the power on",
                           "quiso quitar un tapón con la máquina encendida"},
    [PB_FAULT_HELD] = {"goes with the wall: {v}", "va con la pared: {v}"},
    [PB_FAULT_WEAK_MACHINE] = {"the machine gives only {v}", "la máquina solo da {v}"},
    [PB_FAULT_BEHIND_WOOD] = {"behind wood {v} up", "detrás de la madera a {v} de alto"},
    [PB_FAULT_OVER_DENSE] = {"{v} packed in beyond any use", "{v} empacados sin provecho"},
    [PB_FAULT_SOFT_SLICE] = {"softest stretch at {v}", "tramo más flojo en {v}"},
    [PB_FAULT_LOW_MEAN] = {"mean of {v}", "promedio de {v}"},
    [PB_FAULT_VOID] = {"{v} as good as empty", "{v} casi sin relleno"},
    [PB_FAULT_LOW_MARK] = {"{v} of 100 points", "{v} de 100 puntos"},
};

typedef struct PartFigures {
    const PbScorePart *part;
    double target_kg_m3;
} PartFigures;

static void fill_short(char which, const void *figures, IoReaderTaste taste, char *out, size_t size)
{
    const PartFigures *f = figures;
    out[0] = '\0';
    if (which == 'v') {
        figure_words(faults[f->part->fault].figure, f->part->value, taste, out, size);
    } else if (which == 'd') {
        figure_words(DENSITY, f->target_kg_m3, taste, out, size);
    } else if (which == 'n') {
        snprintf(out, size, "%d", f->part->count);
    }
}

void io_fault_words(const PbScorePart *part, double target_kg_m3, IoReaderTaste taste, char *out,
                    size_t size)
{
    PartFigures figures = {part, target_kg_m3};
    const char *t =
        (int)part->fault < PB_FAULT_LIMIT ? short_words[part->fault][taste.language] : "";
    (void)io_template_append(t, NULL, fill_short, &figures, taste, out, 0, size);
}
