/**
 * @file command.h
 * @brief Everything that a person can do during a run.
 *
 * Commands are recorded by tick, so the list is append-only: never renumber, never reuse.
 */
#ifndef CORE_COMMAND_H
#define CORE_COMMAND_H

/* X(name, number, what value means) */
#define PB_COMMAND_LIST(X)                                                                         \
    X(TUBE_TARGET, 1, "move the mouth to this length of tube inside the hole, m")                  \
    X(TUBE_RATE, 2, "push (+) or pull (-) the tube at this speed, m/s; 0 stops")                   \
    X(TURN, 3, "turn the mouth: +1 up (towards larger y), -1 down; the tube must be pulled back")  \
    X(BLOWER, 4, "blower setting, share of its static pressure, 0..1")                             \
    X(FEED, 5, "feed gate: material offered, kg/s")                                                \
    X(MACHINE, 6, "1 on, 0 off: blower and feed together; stays off while a plug is cleared")      \
    X(CLEAR_PLUG, 7, "machine off: open the hose, clear the plug; costs time and its material")    \
    X(FINISH, 8, "end the run: machine off, let the pressure bleed, tube out, plug the hole")      \
    X(MARK, 9, "a mark in the record, number chosen by the caller")                                \
    X(RING, 10, "rag round the tube: share of the ring that it leaves open, 0..1")                 \
    X(SEAL, 11, "seal an opening that was found, by its number, from 1 on")                        \
    X(STATIC_TEST, 12, "hose end covered, gate shut, air full: read the static pressure")          \
    X(LEAVE, 13, "leave the bay and say why: number of the reason, core/leave.h; ends the run")    \
    X(HOLE, 14, "take the tube to another hole, by its number, from 1 on; the tube must be out")   \
    X(PLUG, 15, "plug a hole that the tube is not in, by its number")

typedef enum PbCommandKind {
#define PB_COMMAND_ENUM(name, number, text) PB_COMMAND_##name = number,
    PB_COMMAND_LIST(PB_COMMAND_ENUM)
#undef PB_COMMAND_ENUM
        PB_COMMAND_LAST = PB_COMMAND_PLUG
} PbCommandKind;

typedef struct PbCommand {
    PbCommandKind kind;
    double value;
} PbCommand;

#endif
