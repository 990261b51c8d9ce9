/* Names of events, from the one list. */
#include "core/event.h"

const char *pb_event_name(PbEventKind kind)
{
    switch (kind) {
#define PB_EVENT_CASE(name, number, text)                                                          \
    case PB_EVENT_##name:                                                                          \
        return #name;
        PB_EVENT_LIST(PB_EVENT_CASE)
#undef PB_EVENT_CASE
    }
    return "UNKNOWN";
}
