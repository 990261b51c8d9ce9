/**
 * @file drill.h
 * @brief Trials of some twenty seconds that are cut out of a run: when must the hands act?
 *
 * A trial is a run of the simulation by scripted hands, and the tick at which somebody begins to
 * listen. After a wait that tells nothing (3 s and an exponential one of mean 9 s, at most 17 s
 * more) something happens that calls for the hands, or seems to, or nothing does. One press is the
 * answer. Kinds, waits, bay, machine and feed follow from (seed, number of the trial) and nothing
 * else; the ticks are those of an ordinary session.
 *
 * How presses are judged: pb_drill_press, pb_drill_verdict. Waits and limits are this program's own
 * choice, the sequential test is Wald's (Sequential tests of statistical hypotheses, Ann. Math.
 * Stat. 16, 1945) for the rate of a Poisson process.
 */
#ifndef CORE_DRILL_H
#define CORE_DRILL_H

#include "core/session.h"

#include <stdint.h>

/** Trials of one sitting. */
#define PB_DRILL_TRIALS 14
/** A press is good from PB_DRILL_QUICK_S after the event on: nobody who hears it is faster. */
#define PB_DRILL_QUICK_S 0.15
#define PB_DRILL_GOOD_S  1.0 /**< up to here it is good */
#define PB_DRILL_LATE_S  2.5 /**< up to here late but sound; then it is missed */
/** False presses a second of listening: of a hand that can tell it, of one that cannot. */
#define PB_DRILL_FALSE_ABLE   0.008
#define PB_DRILL_FALSE_UNABLE 0.03
#define PB_DRILL_RISK         0.05 /**< of either wrong verdict by false presses */
/** So many of the first so many events must be answered within PB_DRILL_LATE_S. */
#define PB_DRILL_EVENTS 12
#define PB_DRILL_CAUGHT 11

#define PB_DRILL_MAX_COMMANDS 1024

/** What happens. X(name, word of files) */
#define PB_DRILL_KIND_LIST(X)                                                                      \
    X(STALL, "stall")     /**< the bay is full at the mouth: pull back */                          \
    X(CLOG, "clog")       /**< the blower sags and the line chokes: shut down */                   \
    X(CREAK, "creak")     /**< the face works: pull back or turn the blower down */                \
    X(STARVED, "starved") /**< the hopper runs empty: no act of the hands, no press */             \
    X(NOTHING, "nothing") /**< no press */
typedef enum PbDrillKind {
#define PB_DRILL_ENUM(name, word) PB_DRILL_##name,
    PB_DRILL_KIND_LIST(PB_DRILL_ENUM)
#undef PB_DRILL_ENUM
        PB_DRILL_KINDS
} PbDrillKind;

/** One command of the hands, given with the step that leads to this tick plus one. */
typedef struct PbDrillCommand {
    int tick;
    PbCommand command;
} PbDrillCommand;

/** A trial, ready. Plain value; times are counted from `start_tick`. */
typedef struct PbDrillTrial {
    PbSessionConfig config;
    PbDrillKind kind;
    PbDrillCommand commands[PB_DRILL_MAX_COMMANDS];
    int command_count;
    int start_tick; /**< of the session: listening begins */
    double onset_s; /**< the first of it can be heard; negative = nothing calls for a press. Of a
                         stall: delivery has halved, as the marks count it */
    double event_s; /**< from when presses are counted; negative as onset_s. Of a stall: the line
                         came to rest for good, before the air died; of a clog: the wheel has sagged
                         by a tenth */
    double length_s;
} PbDrillTrial;

/** What a press was. */
typedef enum PbDrillOutcome {
    PB_DRILL_GOOD,
    PB_DRILL_SOON, /**< after the first of it, before anybody can be sure */
    PB_DRILL_LATE, /**< late but sound */
    PB_DRILL_MISSED,
    PB_DRILL_FALSE, /**< before anything, or where nothing called for it */
    PB_DRILL_LEFT   /**< rightly no press */
} PbDrillOutcome;

typedef struct PbDrillAnswer {
    PbDrillOutcome outcome;
    double error_s; /**< of the press after the event, negative before it; NaN = no press, or none
                         was called for */
    double listened_s; /**< before the press, or before anything could be heard */
} PbDrillAnswer;

/** Evidence so far. Zero it to begin; sums of sittings add up. */
typedef struct PbDrillTally {
    int trials, events, caught, good, false_presses;
    int late, soon, left;
    int streak, best_streak; /**< of trials that were good, or rightly left */
    double listened_s;
    double errors_s[PB_DRILL_TRIALS]; /**< of the caught ones of this sitting */
    int error_count;
} PbDrillTally;

typedef enum PbDrillVerdict {
    PB_DRILL_UNDECIDED, /**< no evidence yet for either */
    PB_DRILL_CAN_TELL,
    PB_DRILL_NOT_YET
} PbDrillVerdict;

/**
 * @brief Make a trial by packing the bay up to its event, without a clock.
 * @param[in]  seed   of the sitting
 * @param[in]  number of the trial in it, from 0 on
 * @param[in]  base   constants, grid, allocator; its exercise is not used. Borrowed for the call
 * @param[in]  told   called now and then with the share that is done, 0..1, never falling; returns
 *                    nonzero to give up; may be NULL
 * @param[out] trial  written on PB_OK
 * @return PB_OK; PB_ERR_MEMORY; PB_ERR_STATE when `told` gave up; PB_ERR_NO_RESULT when no draw
 * came to its event, which a shipped build never does (a test looks). Deterministic. Takes some 0.3
 * s.
 */
PB_NODISCARD PbStatus pb_drill_make(uint64_t seed, int number, const PbSessionConfig *base,
                                    int (*told)(void *user, double share), void *user,
                                    PbDrillTrial *trial, PbError *err);
/** @brief Commands of this tick of the session. @return how many, at most 18, into `commands`. */
int pb_drill_commands(const PbDrillTrial *trial, int tick, PbCommand *commands);
/**
 * @brief Judge a trial. @param[in] press_s of the first press since the start; negative = none.
 * A press after the end of the trial is none.
 */
PbDrillAnswer pb_drill_press(const PbDrillTrial *trial, double press_s);
/** @brief Count it. */
void pb_drill_count(PbDrillTally *tally, const PbDrillTrial *trial, const PbDrillAnswer *answer);
/** @brief Add the evidence of an earlier sitting; streak and errors stay those of `tally`. */
void pb_drill_add(PbDrillTally *tally, const PbDrillTally *earlier);
/**
 * @brief Wald's test of the false presses (PB_DRILL_FALSE_*), and PB_DRILL_CAUGHT of the first
 * PB_DRILL_EVENTS events. Both must say yes for PB_DRILL_CAN_TELL; one no is PB_DRILL_NOT_YET.
 */
PbDrillVerdict pb_drill_verdict(const PbDrillTally *tally);
/** @brief Middle of the errors, s; NaN when nothing was caught. */
double pb_drill_median_s(const PbDrillTally *tally);
/** @brief Word of files and options. Static storage. */
const char *pb_drill_kind_word(PbDrillKind kind);

#endif
