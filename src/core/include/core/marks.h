/**
 * @file marks.h
 * @brief Numbers of PB_COMMAND_MARK that mean something: safety moments, and how a run is judged.
 *
 * A mark is a command like any other: it stands in the record of a run, and a replay gives it to
 * the session again. Those that say that a safety step was left out become PB_EVENT_SAFETY, which
 * is how the score sees them. Numbers are never reused: they stand in kept runs.
 */
#ifndef CORE_MARKS_H
#define CORE_MARKS_H

/** Points of the check list before work. */
#define PB_CHECK_POINTS 6

enum {
    PB_MARK_CHECKLIST = 1000,      /**< + one bit for each point ticked; 1000 to 1063 */
    PB_MARK_PLUG_POWER_OFF = 1100, /**< plug cleared with the machine off */
    PB_MARK_PLUG_POWER_ON = 1101,  /**< went to clear a plug under power: a safety step left out */
    PB_MARK_GRADED = 1200,   /**< this run counts, with this sight: + 0 open, 1 taped, 2 closed */
    PB_MARK_SCRIPTED = 1300, /**< hands of a file work this run, not a person's */
    PB_MARK_GONE_ON = 1301   /**< the run had been left here and was taken up again */
};

/** @brief How many points of the check list this mark says were left out; 0 for other marks. */
int pb_mark_checks_skipped(double mark);
/** @brief Does this mark say that somebody went to clear a plug under power? */
int pb_mark_is_power_on(double mark);
/** @brief Sight that this mark says a graded run has: 0 open, 1 taped, 2 closed; -1 = none. */
int pb_mark_graded_sight(double mark);

#endif
