/**
 * @file event.h
 * @brief Everything worth telling people during a run. Append-only list, recorded in run files.
 */
#ifndef CORE_EVENT_H
#define CORE_EVENT_H

/* X(name, number, meaning; what value is) */
#define PB_EVENT_LIST(X)                                                                           \
    X(STALL, 1, "delivery fell below half of the best at this stop; value: flow m3/s")             \
    X(PICK_UP, 2, "conveying recovered after a pull-back; value: step m")                          \
    X(PLUG, 3, "the hose is full of stuck material; value: kg in the hose")                        \
    X(PLUG_CLEARED, 4, "the hose was opened and cleared; value: kg thrown away")                   \
    X(LIFT_DONE, 5, "the mouth left a stop; value: kg packed there")                               \
    X(CREAK, 6, "panel load above the creak share of its strength; value: load/strength")          \
    X(BOW_HALF, 7, "panel load above half of its strength; value: load/strength")                  \
    X(BLOW_OUT, 8, "finish or fasteners gave way; value: load Pa")                                 \
    X(FEED_OUTSIDE, 9, "fill is being blown out in front of the hole; value: kg/s")                \
    X(BLOW_BACK, 10, "pressure in the bay blew fill back out of the hole; value: kg")              \
    X(RUNAWAY, 11, "fill is leaving through an opening; value: kg so far")                         \
    X(TUBE_BLOCKED, 12, "the tube met something; value: force share 0..1")                         \
    X(TURN_REFUSED, 13, "the tube is too far in to be turned; value: length in m")                 \
    X(TURNED, 14, "the mouth was turned; value: +1 or -1")                                         \
    X(FINISHED, 15, "the run is over; value: seconds")                                             \
    X(SAFETY, 16, "a safety step was left out; value: number of the mark, core/marks.h")           \
    X(CLEAR_REFUSED, 17, "nothing is cleared; value: 1 the machine is on, 0 there is no plug")     \
    X(LOCKED_OUT, 18, "the machine stays off while the hose is open; value: seconds left")         \
    X(ACT_REFUSED, 19, "an act cannot be done now; value: PbRefusal")                              \
    X(SEALED, 20, "an opening was sealed; value: its number")                                      \
    X(TESTED, 21, "the static test is done; value: Pa")                                            \
    X(LEFT, 22, "the bay was left; value: number of the reason, core/leave.h")                     \
    X(AT_HOLE, 23, "the tube was taken to another hole; value: its number")                        \
    X(HOLE_PLUGGED, 24, "a hole was plugged; value: its number")

typedef enum PbEventKind {
#define PB_EVENT_ENUM(name, number, text) PB_EVENT_##name = number,
    PB_EVENT_LIST(PB_EVENT_ENUM)
#undef PB_EVENT_ENUM
} PbEventKind;

/** Why an act was refused: the value of PB_EVENT_ACT_REFUSED. Append-only. */
typedef enum PbRefusal {
    PB_REFUSED_NONE,
    PB_REFUSED_TUBE_IN,    /**< the tube goes to another hole, or is tested, only when it is out */
    PB_REFUSED_IN_USE,     /**< a plug goes into no hole that the tube is in */
    PB_REFUSED_NOT_FOUND,  /**< nobody has found this opening yet */
    PB_REFUSED_SEALED,     /**< it is sealed already */
    PB_REFUSED_MACHINE_ON, /**< no hand covers a hose under power */
    PB_REFUSED_CLOGGED,    /**< a clogged hose shows no static pressure */
    PB_REFUSED_TESTING,    /**< the hose end is covered until the test is over */
    PB_REFUSALS
} PbRefusal;

typedef struct PbEvent {
    PbEventKind kind;
    int tick;
    double x_m, y_m; /**< where in the bay; the mouth when nothing better is known */
    double value;
} PbEvent;

/** @brief Name as in PB_EVENT_LIST, "UNKNOWN" otherwise. Static storage. */
const char *pb_event_name(PbEventKind kind);

#endif
