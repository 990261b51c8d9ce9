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
    {{"even the softest spot is firm", "hasta el punto más flojo está firme"}},
    {{"little settling is predicted, under what is assumed",
      "se prevé poco asentamiento, con lo que se supone"}},
    {{"the wall was never in danger", "la pared nunca corrió peligro"}},
    {{"the bags that went in are the bags it takes", "entraron los sacos que hacen falta"}},
    {{"even pulls, good timing", "jalones parejos, buen ritmo"}}};

static const Both advice[PB_ADVICE_LIMIT] = {
    [PB_ADVICE_KEEP] = {{"Good work. Go on to the next exercise",
                         "Buen trabajo. Pase al siguiente ejercicio"}},
    [PB_ADVICE_SHORTER_STEPS] = {{"Pull back {step} at a time, no more",
                                  "Jale {step} a la vez, no más"}},
    [PB_ADVICE_WAIT] = {{"Wait for the stall, and two seconds more, before you move the tube",
                         "Espere el stall, y dos segundos más, antes de mover el tubo"}},
    [PB_ADVICE_MOVE_SOONER] = {{"Move on two seconds after the stall",
                                "Siga dos segundos después del stall"}},
    [PB_ADVICE_LESS_BLOWER] = {{"Turn the blower down when the wall creaks, and pull back sooner",
                                "Baje el soplador cuando la pared cruja y jale antes"}},
    [PB_ADVICE_LESS_FEED] = {{"Close the feed gate a little: less material for the same air",
                              "Cierre un poco la compuerta: menos material con el mismo aire"}},
    [PB_ADVICE_GATE_FIRST] = {{"Shut the feed gate before the tube comes out",
                               "Cierre la compuerta antes de sacar el tubo"}},
    [PB_ADVICE_MORE_MATERIAL] = {{"Make more stops, and wait for the stall at each one",
                                  "Haga más paradas y espere el stall en cada una"}},
    [PB_ADVICE_COUNT_BAGS] =
        {{"Count the bags: more went in than the bay holds, so find out where it went",
          "Cuente los sacos: entró más de lo que cabe; averigüe adónde se fue"}},
    [PB_ADVICE_BEGIN] = {{"Push the tube to the far end, then start machine and feed",
                          "Lleve el tubo hasta el otro extremo y encienda máquina y material"}},
    [PB_ADVICE_LEAVE_IT] = {{"This bay is not to be filled: leave it and say why",
                             "Esta cavidad no se rellena: déjela y diga por qué"}},
    [PB_ADVICE_REACH_ENDS] = {{"Reach both ends of the bay: pack from the far end back to the "
                               "hole, then turn the tube and do the short end",
                               "Llegue a los dos extremos de la cavidad: empaque desde el más "
                               "lejano hasta el hoyo, luego gire el tubo y haga el extremo corto"}},
    [PB_ADVICE_MORE_AIR] = {{"Turn the blower up, and test its pressure before the first bay",
                             "Suba el soplador y pruebe su presión antes de la primera cavidad"}},
    [PB_ADVICE_WEAK_FACE] = {{"This face bears no more air: make stops closer together, stay until "
                              "each one stalls, and "
                              "where that is not enough, say so before the job",
                              "Esta cara no aguanta más aire: haga paradas más juntas, espere el "
                              "stall en cada una y, si "
                              "no alcanza, dígalo antes del trabajo"}},
    [PB_ADVICE_MEND_MACHINE] =
        {{"This machine is too weak to pack: have it put right, or take another, before the first "
          "bay",
          "Esta máquina es muy débil para empacar: que la arreglen, o use otra, antes de la "
          "primera "
          "cavidad"}},
    [PB_ADVICE_OWN_HOLE] = {{"Wood keeps the tube out of there: that part needs a hole of its own",
                             "La madera no deja pasar el tubo: esa parte necesita su propio hoyo"}},
    [PB_ADVICE_END_LONGER] =
        {{"Bring the tube end closer to that end of the bay, and stay a second longer there",
          "Acerque la punta del tubo a ese extremo de la cavidad y quédese ahí un segundo más"}},
    [PB_ADVICE_SAFETY] =
        {{"Do every check before you switch on, and cut the power before you clear a clog",
          "Haga todas las revisiones antes de encender y corte la corriente antes de quitar un "
          "tapón"}},
};

/* A bay that must not be filled: left alone, or not. */
static const Both left_alone[2] = {
    {{"Nothing: all that counts here is to leave the bay alone",
      "Nada: aquí solo cuenta dejar la cavidad como está"}},
    {{"This bay was left alone, as it must be", "Esta cavidad se dejó como está, como debe ser"}}};
static const Both no_loss = {{"Nothing worth a word", "Nada que valga la pena decir"}};
static const Both weak_sheet = {
    {"This sheet was weaker than most: such a face should have borne the load",
     "Esta placa era más débil que la mayoría: una cara así debía aguantar la carga"}};
static const Both was_filled = {{"Material was blown into a bay that must not be filled",
                                 "Se sopló material en una cavidad que no se rellena"}};
static const Both no_points = {{"No points yet", "Todavía sin puntos"}};
static const Both biggest = {{"Biggest loss", "Lo que más costó"}};

const char *io_debrief_head(int which, IoLanguage language)
{
    return which >= 0 && which < IO_DEBRIEF_SENTENCES ? heads[which].text[language] : "";
}

/* The dearest loss that says something of the part itself. */
static const PbLoss *dearest(const PbScore *s, int part)
{
    const PbLoss *best = NULL;
    for (int i = 0; i < s->loss_count; i++) {
        const PbLoss *l = &s->losses[i];
        if ((int)l->part == part && l->cause != PB_FAULT_HELD &&
            (best == NULL || l->points > best->points)) {
            best = l;
        }
    }
    return best;
}

static const PbGate *first_shut(const PbScore *s)
{
    for (int i = 0; i < PB_GATES; i++) {
        if (s->gates[i].is_shut) {
            return &s->gates[i];
        }
    }
    return NULL;
}

static void append(char *out, size_t size, const char *head, const char *text)
{
    size_t n = strlen(out);
    snprintf(out + n, size - n, "%s%s%s", n > 0 ? ". " : "", head, text);
}

/* The gate that is shut, what did most of it, and a face that was weaker than most. */
static void worst_sentence(const PbScore *s, int part, IoReaderTaste taste, char *out, size_t size)
{
    char why[320];
    const PbGate *gate = first_shut(s);
    const PbLoss *loss = part >= 0 ? dearest(s, part) : NULL;
    out[0] = '\0';
    if (gate != NULL) {
        io_gate_sentence(gate, taste, out, size);
    }
    if (loss != NULL && (gate == NULL || loss->cause != gate->fault)) {
        char head[80];
        snprintf(head, sizeof head, "%s: ", biggest.text[taste.language]);
        io_loss_sentence(loss, taste, why, sizeof why);
        append(out, size, head, why);
    }
    if (s->gates[PB_GATE_FACE].is_shut && s->verdict == PB_VERDICT_REDO) {
        append(out, size, "", weak_sheet.text[taste.language]);
    }
    if (out[0] == '\0') {
        append(out, size, "", no_loss.text[taste.language]);
    }
    if (out[0] >= 'a' && out[0] <= 'z') { /* sentences of losses and gates begin small */
        out[0] = (char)(out[0] - 'a' + 'A');
    }
}

void io_debrief_sentences(const PbScore *score, const PbExercise *exercise, IoReaderTaste taste,
                          char out[IO_DEBRIEF_SENTENCES][IO_DEBRIEF_BYTES])
{
    IoLanguage language = taste.language;
    if (exercise != NULL && exercise->must_not_fill[0] != '\0') {
        const Both *why = score->is_pass ? &no_loss : &was_filled;
        const Both *next = &advice[score->is_pass ? PB_ADVICE_KEEP : PB_ADVICE_LEAVE_IT];
        snprintf(out[0], IO_DEBRIEF_BYTES, "%s", left_alone[score->is_pass].text[language]);
        snprintf(out[1], IO_DEBRIEF_BYTES, "%s", why->text[language]);
        snprintf(out[2], IO_DEBRIEF_BYTES, "%s", next->text[language]);
    } else {
        PbDebrief d = pb_debrief(score);
        const PbScorePart *best = &score->parts[d.best];
        if (best->max > 0.0 && best->points >= 0.5 * best->max) {
            snprintf(out[0], IO_DEBRIEF_BYTES, "%s: %s",
                     io_part_name((PbScorePartKind)d.best, language), good[d.best].text[language]);
        } else {
            snprintf(out[0], IO_DEBRIEF_BYTES, "%s", no_points.text[language]);
        }
        worst_sentence(score, d.worst, taste, out[1], IO_DEBRIEF_BYTES);
        io_named_figures(advice[d.next].text[language], taste, out[2], IO_DEBRIEF_BYTES);
    }
    for (int i = 0; i < IO_DEBRIEF_SENTENCES; i++) {
        io_full_stop(out[i], IO_DEBRIEF_BYTES);
    }
}
