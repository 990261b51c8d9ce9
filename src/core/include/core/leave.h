/**
 * @file leave.h
 * @brief Why a bay is left: reasons that a crew gives, and writes down. Append-only: numbers stand
 * in recorded runs, words in files.
 *
 * Sources: SWS are the Standard Work Specifications (US DOE, NREL). The usual caution holds for all
 * of them: local codes and licensed trades decide.
 */
#ifndef CORE_LEAVE_H
#define CORE_LEAVE_H

/* X(name, number, word in files, where it comes from) */
#define PB_LEAVE_LIST(X)                                                                           \
    X(FLUE, 1, "flue", "clearance to chimneys and flues: SWS 4.0202.1")                            \
    X(OPEN_WIRING, 2, "open-wiring", "live knob-and-tube: SWS 4.0202.1, NEC 394.12")               \
    X(LEAK, 3, "leak", "active leaks: SWS 4.0202.1; moisture: Maryland field guide 5.3")           \
    X(APPLIANCE, 4, "appliance", "ends of fans, dryers and stacks: SWS 4.0202.1")                  \
    X(RECESSED_LAMP, 5, "recessed-lamp", "hot devices without a shield: SWS 4.0202.1")             \
    X(OLD_FILL, 6, "old-fill", "vermiculite, suspected asbestos: EPA/ATSDR guidance 2003-2009")    \
    X(WEAK_FACE, 7, "weak-face", "a finish that does not bear it: common practice")                \
    X(OPEN_BAY, 8, "open-bay", "open to another space, rigid block first: SWS 4.0202.1")           \
    X(WEAK_MACHINE, 9, "weak-machine", "under 80 in w.c. static: SWS 4.1101.5")                    \
    X(FILLED, 10, "filled", "filled already, nothing to do: common practice")

typedef enum PbLeaveReason {
    PB_LEAVE_NONE,
#define PB_LEAVE_ENUM(name, number, word, source) PB_LEAVE_##name = number,
    PB_LEAVE_LIST(PB_LEAVE_ENUM)
#undef PB_LEAVE_ENUM
        PB_LEAVE_REASONS
} PbLeaveReason;

/** Everything that the program asks of a reason but its sentence. */
typedef struct PbLeaveTraits {
    const char *word;    /**< in files */
    int needs_test;      /**< counts only after a static test: it shows nowhere else */
    int ends_by_sealing; /**< with every opening sealed the bay may be filled after all */
} PbLeaveTraits;

/** @brief The row of a reason. @param[in] reason 1 .. PB_LEAVE_REASONS - 1 */
const PbLeaveTraits *pb_leave_traits(PbLeaveReason reason);

#endif
