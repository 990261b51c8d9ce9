/*
 * Marks of a job in words. Places are on the wall: from its left end, and up from the floor. What
 * {v} is of stands beside each sentence.
 */
#include "io/job_words.h"

#include "word_template.h"

#include "io/act_words.h"
#include "io/score_words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

typedef enum Of { NOTHING, AREA, DENSITY, MASS, PERCENT, COUNT, REASON, MINUTES } Of;

typedef struct Sentence {
    Of of;
    const char *text;
} Sentence;

static const Sentence sentences[PB_JOB_FAULTS] = {
    [PB_JOB_FAULT_NONE] = {NOTHING, ""},
    [PB_JOB_FAULT_FILLED] = {MASS, N_("Bay {b} had to be left: {v} were blown into it at {t}")},
    [PB_JOB_FAULT_WIRE] = {NOTHING,
                           N_("A wire was drilled {x} from the left and {y} up, at {t}: the job "
                              "stops there")},
    [PB_JOB_FAULT_FACE] = {PERCENT, N_("The face of bay {b} broke at {t}: it bore {v} of its "
                                       "strength")},
    [PB_JOB_FAULT_NO_CHECK] = {NOTHING, N_("The house was not checked before the first hole, at "
                                           "{t}: wiring, flues, burners, damp")},
    [PB_JOB_FAULT_NO_TEST] = {NOTHING,
                              N_("The machine was not tested before the first fill, at {t}")},
    [PB_JOB_FAULT_MISSED] = {AREA, N_("Bay {b} was never filled: {v}, {x} from the left and {y} "
                                      "up")},
    [PB_JOB_FAULT_EMPTY] = {AREA, N_("{v} of bay {b} stayed empty when it was filled at {t}")},
    [PB_JOB_FAULT_SOFT] = {DENSITY, N_("Bay {b} is soft {y} up, worked at {t}: {v} in the mean")},
    [PB_JOB_FAULT_NOT_LEFT] = {AREA, N_("Bay {b} had to be left, and nobody wrote down why: {v}")},
    [PB_JOB_FAULT_WRONG_REASON] = {REASON, N_("Bay {b} was left at {t} for a reason that does not "
                                              "hold: {v}")},
    [PB_JOB_FAULT_LEFT_FILLABLE] = {AREA, N_("Bay {b} was left although it could be filled: {v}")},
    [PB_JOB_FAULT_ON_LUMBER] = {NOTHING, N_("The hole {x} from the left and {y} up, at {t}, opens "
                                            "no bay: a patch for nothing")},
    [PB_JOB_FAULT_NEEDLESS] = {NOTHING, N_("The hole {x} from the left and {y} up, at {t}, served "
                                           "no fill")},
    [PB_JOB_FAULT_NO_ESTIMATE] = {NOTHING, N_("No bags were estimated before the first fill")},
    [PB_JOB_FAULT_ESTIMATE_OFF] = {PERCENT,
                                   N_("The estimate at {t} was {v} of what the wall takes")},
    [PB_JOB_FAULT_BAGS_OFF] = {PERCENT, N_("Bags used were {v} of the crew's own estimate")},
    [PB_JOB_FAULT_NO_PROTECT] = {NOTHING, N_("The room was not protected before the first hole")},
    [PB_JOB_FAULT_NOT_PLUGGED] = {COUNT, N_("Holes left without a plug: {v}")},
    [PB_JOB_FAULT_NOT_PATCHED] = {COUNT, N_("Holes left without a patch: {v}")},
    [PB_JOB_FAULT_NOT_CLEANED] = {NOTHING, N_("The room was not cleaned")},
    [PB_JOB_FAULT_NO_CAMERA] = {NOTHING, N_("No camera picture was taken after: nothing else here "
                                            "shows a missed bay")},
    [PB_JOB_FAULT_NO_CORE] = {NOTHING, N_("No core was weighed")},
    [PB_JOB_FAULT_NO_FINGER] = {NOTHING, N_("Nobody felt the fill behind a hole")},
    [PB_JOB_FAULT_NOT_WRITTEN] = {NOTHING, N_("Area, thickness, bags and what was left were not "
                                              "written down")},
    [PB_JOB_FAULT_SLOW] = {MINUTES, N_("The job took {v}, far more than a crew's usual")},
    [PB_JOB_FAULT_HELD] = {PERCENT, N_("Counts as far as the wall was done: {v}")},
};

static const char *const parts[PB_JOB_PARTS] = {
    N_("Found and filled"),    N_("On target"), N_("Left with reason"),   N_("Holes"), N_("Bags"),
    N_("Protected and clean"), N_("Proved"),    N_("Minutes of the job"),
};

static const char *const gates[PB_JOB_GATES] = {
    N_("No bay filled that had to be left"),
    N_("No wire drilled"),
    N_("The face is whole"),
    N_("Safety checks done"),
    N_("No part missed"),
};

static const char *const bays[PB_JOB_BAY_KINDS] = {
    N_("filled"),
    N_("filled, too small for a figure of density"),
    N_("left for the right reason"),
    N_("to be left, but without the right reason"),
    N_("filled, but had to be left"),
    N_("left, but could be filled"),
    N_("missed"),
    N_("narrower than the hole"),
};

const char *io_job_part_name(PbJobPartKind part, int language)
{
    return words_in(language, parts[part]);
}

const char *io_job_gate_name(PbJobGateKind gate, int language)
{
    return words_in(language, gates[gate]);
}

const char *io_job_bay_name(PbJobBayKind kind, int language)
{
    return words_in(language, bays[kind]);
}

void io_job_verdict(const PbJobMarks *m, int language, char *out, size_t size)
{
    size_t used = 0;
    for (int g = 0; g < PB_JOB_GATES && used + 1 < size; g++) {
        if (m->is_shut[g]) {
            snprintf(out + used, size - used, "%s%s",
                     used == 0 ? words_in(language, N_("Not passed. Not kept: ")) : "; ",
                     io_job_gate_name((PbJobGateKind)g, language));
            used = strlen(out);
        }
    }
    if (used == 0) {
        snprintf(out, size,
                 m->is_pass ? words_in(language, N_("Passed: %d of 100"))
                            : words_in(language, N_("Not passed: %d of 100")),
                 io_mark_shown(m->total));
    }
}

const char *io_job_wire_caution(int language)
{
    return words_in(language,
                    N_("Stop. Keep hands and tools off the hole. Switch the circuit off at "
                       "the panel, keep people away, and call a licensed electrician "
                       "before anybody goes on."));
}

static void value_words(const PbJobLoss *l, IoReaderTaste taste, char *out, size_t size)
{
    switch (sentences[l->fault].of) {
    case AREA:
        io_unit_figure(IO_UNIT_AREA, l->value, taste, out, size);
        break;
    case DENSITY:
        io_unit_figure(IO_UNIT_DENSITY, l->value, taste, out, size);
        break;
    case MASS:
        io_unit_figure(IO_UNIT_MASS, l->value, taste, out, size);
        break;
    case PERCENT:
        io_figure(100.0 * l->value, 0, "%", taste, out, size);
        break;
    case MINUTES:
        io_figure(l->value, 0, "min", taste, out, size);
        break;
    case REASON:
        snprintf(out, size, "%s", io_leave_words((PbLeaveReason)l->value, taste.language));
        break;
    case COUNT:
        snprintf(out, size, "%.0f", l->value);
        break;
    case NOTHING:
        out[0] = '\0';
        break;
    }
}

static void figure(char which, const void *user, IoReaderTaste taste, char *out, size_t size)
{
    const PbJobLoss *l = user;
    switch (which) {
    case 'b':
        snprintf(out, size, "%d", l->bay + 1);
        break;
    case 'x':
        io_unit_figure(IO_UNIT_LENGTH, l->x_m, taste, out, size);
        break;
    case 'y':
        io_unit_figure(IO_UNIT_LENGTH, l->y_m, taste, out, size);
        break;
    case 't':
        snprintf(out, size, "%d:%02d", (int)l->minute / 60, (int)l->minute % 60);
        break;
    default:
        value_words(l, taste, out, size);
        break;
    }
}

void io_job_loss_sentence(const PbJobLoss *loss, IoReaderTaste taste, char *out, size_t size)
{
    const char *text = sentences[loss->fault].text;
    out[0] = '\0';
    if (text[0] != '\0') {
        (void)io_template_append(words_in(taste.language, text), NULL, figure, loss, taste, out, 0,
                                 size);
    }
}
