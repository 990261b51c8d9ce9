/* Three sentences after a run, as a trainer would say them: see io/debrief_words.h. */
#include "io/debrief_words.h"

#include "core/course.h"

#include <stdio.h>
#include <string.h>

typedef struct Both {
    const char *text[2]; /* by IoLanguage */
} Both;

static const Both heads[IO_DEBRIEF_SENTENCES] = {
    {{"Best", "Lo mejor"}}, {{"Worst", "Lo peor"}}, {{"Next", "Lo siguiente"}}};

/* What it means that a part kept its points. */
static const Both good[PB_SCORE_PARTS] = {
    {{"the wall is at its target density", "la pared está en su densidad objetivo"}},
    {{"even the weakest place is firm", "hasta el punto más débil está firme"}},
    {{"little settling is predicted, under what is assumed",
      "se prevé poco asentamiento, con lo que se supone"}},
    {{"the face was never in danger", "la cara no corrió peligro"}},
    {{"the bags that went in are the bags it takes", "entraron los sacos que hacen falta"}},
    {{"steps and waits were those of a steady hand", "pasos y esperas fueron de mano firme"}}};

static const Both advice[PB_ADVICE_LIMIT] = {
    [PB_ADVICE_KEEP] = {{"Keep it so and take the next exercise",
                         "Siga así y pase al ejercicio siguiente"}},
    [PB_ADVICE_SHORTER_STEPS] = {{"Pull back one foot at a time, not more",
                                  "Retire un pie cada vez, no más"}},
    [PB_ADVICE_WAIT] = {{"Wait until the flow falls, and two seconds more, before the tube moves",
                         "Espere a que caiga el caudal, y dos segundos más, antes de mover el "
                         "tubo"}},
    [PB_ADVICE_MOVE_SOONER] = {{"Go on as soon as the flow has fallen for two seconds",
                                "Siga en cuanto el caudal lleve dos segundos caído"}},
    [PB_ADVICE_LESS_BLOWER] = {{"Turn the blower down when the face creaks, and pull back sooner",
                                "Baje el soplador cuando la cara cruja y retire antes"}},
    [PB_ADVICE_LESS_FEED] = {{"Close the gate a little: less material for the same air",
                              "Cierre un poco la compuerta: menos material con el mismo aire"}},
    [PB_ADVICE_GATE_FIRST] = {{"Shut the gate before the tube comes out",
                               "Cierre la compuerta antes de sacar el tubo"}},
    [PB_ADVICE_MORE_MATERIAL] = {{"Make more stops, each of them until the flow falls",
                                  "Haga más paradas, cada una hasta que caiga el caudal"}},
    [PB_ADVICE_COUNT_BAGS] = {{"Count the bags: more went in than the bay holds, so find out where "
                               "it went",
                               "Cuente los sacos: entró más de lo que cabe; averigüe adónde fue"}},
    [PB_ADVICE_BEGIN] = {{"Run the tube to the far end, then start machine and feed",
                          "Lleve el tubo al extremo lejano y encienda máquina y compuerta"}},
    [PB_ADVICE_LEAVE_IT] = {{"This bay is not to be filled: leave it and say why",
                             "Este hueco no se rellena: déjelo y diga por qué"}},
    [PB_ADVICE_REACH_ENDS] = {{"Take the tube to both ends of the bay: up and back, then turn it "
                               "and do the short end",
                               "Lleve el tubo a los dos extremos del hueco: arriba y de vuelta, "
                               "luego gírelo y haga el extremo corto"}},
    [PB_ADVICE_MORE_AIR] = {{"Turn the blower up, and prove its pressure before the first bay",
                             "Suba el soplador y compruebe su presión antes del primer hueco"}},
    [PB_ADVICE_SAFETY] = {{"Make every check before you switch on, and cut the power before a plug "
                           "is cleared",
                           "Haga todas las comprobaciones antes de encender y corte la corriente "
                           "antes de quitar un tapón"}}};

/* A bay that must not be filled: left alone, or not. */
static const Both left_alone[2] = {
    {{"Nothing: all that counts here is to leave the bay alone",
      "Nada: aquí solo cuenta dejar el hueco como está"}},
    {{"This bay was left alone, as it must be", "Este hueco se dejó como está, como debe ser"}}};
static const Both no_loss = {
    {"Nothing cost more than half a point", "Nada costó más de medio punto"}};
static const Both was_filled = {{"Material was blown into a bay that must not be filled",
                                 "Se sopló material en un hueco que no se rellena"}};

const char *io_debrief_head(int which, IoLanguage language)
{
    return which >= 0 && which < IO_DEBRIEF_SENTENCES ? heads[which].text[language] : "";
}

static const PbLoss *dearest(const PbScore *s, int part)
{
    const PbLoss *best = NULL;
    for (int i = 0; i < s->loss_count; i++) {
        const PbLoss *l = &s->losses[i];
        if ((int)l->part == part && (best == NULL || l->points > best->points)) {
            best = l;
        }
    }
    return best;
}

static void worst_sentence(const PbScore *s, int part, IoReaderTaste taste, char *out, size_t size)
{
    char why[320] = "", lost[24];
    const PbLoss *loss = part >= 0 ? dearest(s, part) : NULL;
    if (part < 0) {
        snprintf(out, size, "%s.", no_loss.text[taste.language]);
        return;
    }
    io_figure(s->parts[part].max - s->parts[part].points, 1, "", taste, lost, sizeof lost);
    if (loss != NULL) {
        io_loss_sentence(loss, taste, why, sizeof why);
    }
    if (why[0] == '\0') {
        snprintf(out, size, taste.language == IO_SPANISH ? "%s perdió %s." : "%s lost %s.",
                 io_part_name((PbScorePartKind)part, taste.language), lost);
        return;
    }
    snprintf(out, size,
             taste.language == IO_SPANISH ? "%s perdió %s; lo más caro: %s."
                                          : "%s lost %s; dearest: %s.",
             io_part_name((PbScorePartKind)part, taste.language), lost, why);
}

void io_debrief_sentences(const PbScore *score, const PbExercise *exercise, IoReaderTaste taste,
                          char out[IO_DEBRIEF_SENTENCES][IO_DEBRIEF_BYTES])
{
    if (exercise != NULL && exercise->must_not_fill[0] != '\0') {
        const Both *why = score->is_pass ? &no_loss : &was_filled;
        const Both *next = &advice[score->is_pass ? PB_ADVICE_KEEP : PB_ADVICE_LEAVE_IT];
        snprintf(out[0], IO_DEBRIEF_BYTES, "%s.", left_alone[score->is_pass].text[taste.language]);
        snprintf(out[1], IO_DEBRIEF_BYTES, "%s.", why->text[taste.language]);
        snprintf(out[2], IO_DEBRIEF_BYTES, "%s.", next->text[taste.language]);
        return;
    }
    PbDebrief d = pb_debrief(score);
    const PbScorePart *best = &score->parts[d.best];
    int has_best = best->max > 0.0 && best->points >= 0.5 * best->max;
    if (has_best) {
        snprintf(out[0], IO_DEBRIEF_BYTES, "%s: %s.",
                 io_part_name((PbScorePartKind)d.best, taste.language),
                 good[d.best].text[taste.language]);
    } else {
        snprintf(out[0], IO_DEBRIEF_BYTES, "%s.",
                 taste.language == IO_SPANISH ? "Queda lo principal por ganar"
                                              : "Everything is still to be won");
    }
    worst_sentence(score, d.worst, taste, out[1], IO_DEBRIEF_BYTES);
    snprintf(out[2], IO_DEBRIEF_BYTES, "%s.", advice[d.next].text[taste.language]);
}
