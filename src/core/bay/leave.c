/* The rows of core/leave.h. */
#include "core/leave.h"

static const PbLeaveTraits reasons[] = {[PB_LEAVE_NONE] = {"", 0, 0},
#define REASON(name, number, word, source)                                                         \
    [PB_LEAVE_##name] = {word, number == PB_LEAVE_WEAK_MACHINE, number == PB_LEAVE_OPEN_BAY},
                                        PB_LEAVE_LIST(REASON)
#undef REASON
};
_Static_assert(sizeof reasons / sizeof reasons[0] == PB_LEAVE_REASONS, "a row for each reason");

const PbLeaveTraits *pb_leave_traits(PbLeaveReason reason)
{
    return &reasons[reason];
}
