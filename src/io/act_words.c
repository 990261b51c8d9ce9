/* Reasons and refusals in words; numbers and words of files: core/leave.h, core/event.h. */
#include "io/act_words.h"

#include "words/words.h"

static const char *const reasons[PB_LEAVE_REASONS] = {
    [PB_LEAVE_NONE] = "",
    [PB_LEAVE_FLUE] = N_("chimney or flue: it needs its clearance"),
    [PB_LEAVE_OPEN_WIRING] = N_("live knob-and-tube wiring"),
    [PB_LEAVE_LEAK] = N_("a leak, a stain or damp"),
    [PB_LEAVE_APPLIANCE] = N_("a vent, fan or dryer ends in it, or a burner draws its air there"),
    [PB_LEAVE_RECESSED_LAMP] = N_("a can light or other hot device without a shield"),
    [PB_LEAVE_OLD_FILL] = N_("vermiculite or unknown old fill"),
    [PB_LEAVE_WEAK_FACE] = N_("the finish is too weak or loose"),
    [PB_LEAVE_OPEN_BAY] = N_("open to another space: a rigid block comes first"),
    [PB_LEAVE_WEAK_MACHINE] = N_("the machine is too weak to dense-pack"),
    [PB_LEAVE_FILLED] = N_("filled already"),
};

static const char *const refusals[PB_REFUSALS] = {
    [PB_REFUSED_NONE] = "",
    [PB_REFUSED_TUBE_IN] = N_("Pull the tube out of the hole first"),
    [PB_REFUSED_IN_USE] = N_("The tube is at this hole: it cannot be plugged"),
    [PB_REFUSED_NOT_FOUND] = N_("No opening has been found here yet"),
    [PB_REFUSED_SEALED] = N_("This opening is sealed already"),
    [PB_REFUSED_MACHINE_ON] = N_("Switch the machine off before the hose end is covered"),
    [PB_REFUSED_CLOGGED] = N_("Clear the clog before the static test"),
    [PB_REFUSED_TESTING] = N_("The static test is under way"),
};

const char *io_leave_words(PbLeaveReason reason, int language)
{
    return (int)reason > 0 && (int)reason < PB_LEAVE_REASONS ? words_in(language, reasons[reason])
                                                             : "";
}

const char *io_refusal_words(PbRefusal refusal, int language)
{
    return (int)refusal > 0 && (int)refusal < PB_REFUSALS ? words_in(language, refusals[refusal])
                                                          : "";
}
