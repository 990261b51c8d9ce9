/* Three sentences after a run, as a trainer would say them: see io/debrief_words.h. */
#include "io/debrief_words.h"

#include "io/act_words.h"

#include "core/course.h"

#include <assert.h>
#include <stdio.h>
#include <string.h>

static const char *const heads[IO_DEBRIEF_SENTENCES] = {N_("Best"), N_("Worst"), N_("Next")};

static const char *const advice[PB_ADVICE_LIMIT] = {
    [PB_ADVICE_KEEP] = N_("Nothing worth changing: go on to the next exercise"),
    [PB_ADVICE_SHORTER_STEPS] = N_("Pull back {step} at a time, no more"),
    [PB_ADVICE_WAIT] = N_("Wait for the stall, and two seconds more, before you move the tube"),
    [PB_ADVICE_MOVE_SOONER] = N_("Move on two seconds after the stall"),
    [PB_ADVICE_LESS_BLOWER] = N_("Turn the blower down when the wall creaks, and pull back sooner"),
    [PB_ADVICE_LESS_FEED] = N_("Close the feed gate a little: less material for the same air"),
    [PB_ADVICE_GATE_FIRST] = N_("Shut the feed gate before the tube comes out"),
    [PB_ADVICE_MORE_MATERIAL] = N_("Make more stops, and wait for the stall at each one"),
    [PB_ADVICE_COUNT_BAGS] =
        N_("Count the bags: more went in than the bay holds, so find out where it went"),
    [PB_ADVICE_BEGIN] = N_("Push the tube to the far end, then start machine and feed"),
    [PB_ADVICE_LEAVE_IT] = N_("This bay is not to be filled: leave it and say why"),
    [PB_ADVICE_REACH_ENDS] = N_("Reach both ends of the bay: pack from the far end back to the "
                                "hole, then turn the tube and do the short end"),
    [PB_ADVICE_MORE_AIR] = N_("Turn the blower up, and test its pressure before the first bay"),
    [PB_ADVICE_WEAK_FACE] =
        N_("This face bears no more air: make stops closer together, stay until "
           "each one stalls, and "
           "where that is not enough, say so before the job"),
    [PB_ADVICE_MEND_MACHINE] =
        N_("This machine is too weak to pack: have it put right, or take another, before the first "
           "bay"),
    [PB_ADVICE_OWN_HOLE] =
        N_("Wood keeps the tube out of there: that part needs a hole of its own"),
    [PB_ADVICE_END_LONGER] =
        N_("Bring the tube end closer to that end of the bay, and stay a second longer there"),
    [PB_ADVICE_SAFETY] = N_("Do every check before you switch on"),
    [PB_ADVICE_LONGER_TUBE] =
        N_("This tube does not get there: take a longer one, or give that part a hole of its own"),
    [PB_ADVICE_POWER_OFF] = N_("Cut the power before you clear a clog, and close the feed gate a "
                               "little so that the hose does not fill again"),
    [PB_ADVICE_SEAL] = N_("Find what is open in the bay and seal it before you blow"),
};

static const char *const no_loss = N_("Nothing worth a word");

const char *io_debrief_head(int which, int language)
{
    return which >= 0 && which < IO_DEBRIEF_SENTENCES ? words_in(language, heads[which]) : "";
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
        snprintf(head, sizeof head, "%s: ", words_in(taste.language, "Biggest loss"));
        io_loss_sentence(loss, taste, why, sizeof why);
        append(out, size, head, why);
    }
    if (s->gates[PB_GATE_FACE].is_shut && s->verdict == PB_VERDICT_REDO) {
        append(out, size, "",
               words_in(taste.language,
                        "This sheet was weaker than most: such a face should have borne the load"));
    }
    if (out[0] == '\0') {
        append(out, size, "", words_in(taste.language, no_loss));
    }
    if (out[0] >= 'a' && out[0] <= 'z') { /* sentences of losses and gates begin small */
        out[0] = (char)(out[0] - 'a' + 'A');
    }
}

/* A bay that must not be filled: left for its reason, or not. */
static void leave_sentences(const PbLeaveVerdict *v, int language,
                            char out[IO_DEBRIEF_SENTENCES][IO_DEBRIEF_BYTES])
{
    const char *best =
        v->was_left && v->reason != PB_LEAVE_NONE ? N_("This bay was left alone, for its reason")
        : v->is_empty ? N_("Nothing was blown into a bay that must not be filled")
                      : N_("Nothing: all that counts here is to leave the bay alone");
    const char *worst = v->was_left    ? no_loss
                        : !v->is_empty ? N_("Material was blown into a bay that must not be filled")
                        : v->reason == PB_LEAVE_NONE
                            ? N_("No reason was given: who does nothing has not noticed anything")
                        : v->reason == v->wanted
                            ? N_("The reason is right, but nothing showed it: a static test does")
                            : N_("The reason that was given is not the one of this bay");
    const char *next = v->was_left ? advice[PB_ADVICE_KEEP] : advice[PB_ADVICE_LEAVE_IT];
    snprintf(out[0], IO_DEBRIEF_BYTES, "%s", words_in(language, best));
    snprintf(out[1], IO_DEBRIEF_BYTES, "%s", words_in(language, worst));
    snprintf(out[2], IO_DEBRIEF_BYTES, "%s", words_in(language, next));
    if (!v->was_left && v->wanted != PB_LEAVE_NONE) {
        snprintf(out[2], IO_DEBRIEF_BYTES, "%s: %s", words_in(language, next),
                 io_leave_words(v->wanted, language));
    }
}

void io_debrief_sentences(const PbScore *score, const PbExercise *exercise, IoReaderTaste taste,
                          char out[IO_DEBRIEF_SENTENCES][IO_DEBRIEF_BYTES])
{
    assert(score != NULL && out != NULL);
    int language = taste.language;
    if (exercise != NULL && score->leave.applies) {
        leave_sentences(&score->leave, language, out);
    } else {
        PbDebrief d = pb_debrief(score);
        const PbScorePart *best = &score->parts[d.best];
        if (best->max > 0.0 && best->points >= 0.5 * best->max) {
            snprintf(out[0], IO_DEBRIEF_BYTES, "%s: %s",
                     io_part_name((PbScorePartKind)d.best, language),
                     io_part_praise((PbScorePartKind)d.best, language));
        } else {
            snprintf(out[0], IO_DEBRIEF_BYTES, "%s", words_in(language, "No points yet"));
        }
        worst_sentence(score, d.worst, taste, out[1], IO_DEBRIEF_BYTES);
        io_named_figures(words_in(language, advice[d.next]), taste, out[2], IO_DEBRIEF_BYTES);
    }
    for (int i = 0; i < IO_DEBRIEF_SENTENCES; i++) {
        io_full_stop(out[i], IO_DEBRIEF_BYTES);
    }
}

int io_short_lines(const PbScore *score, const PbExercise *exercise, const IoLastTime *last_time,
                   IoReaderTaste taste, const char *head[IO_SHORT_LINES],
                   char out[IO_SHORT_LINES][IO_DEBRIEF_BYTES])
{
    assert(exercise != NULL && head != NULL);
    char said[IO_DEBRIEF_SENTENCES][IO_DEBRIEF_BYTES];
    int count = 0, last = IO_DEBRIEF_SENTENCES - 1;
    io_debrief_sentences(score, exercise, taste, said);
    for (int i = 0; i <= last; i++) {
        if (i == last && last_time != NULL && last_time->count > 0) {
            head[count] = io_last_time_head(taste.language);
            io_last_time_words(last_time, exercise, taste, out[count++], IO_DEBRIEF_BYTES);
        }
        head[count] = io_debrief_head(i, taste.language);
        memcpy(out[count++], said[i], IO_DEBRIEF_BYTES);
    }
    return count;
}
