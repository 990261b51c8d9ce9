/**
 * @file signal.h
 * @brief What reaches a program from outside. A handler may do no more than C allows: set a flag,
 * remove files.
 */
#ifndef OS_SIGNAL_H
#define OS_SIGNAL_H

#include <signal.h> /* C's own sig_atomic_t, for the flags of handlers */

/** @brief Called with the number of the signal. */
typedef void OsHandler(int number);

/** @brief Before the program is ended from outside (by a person, the system, a terminal that goes).
 * Called once, and only for endings that nobody has taken yet; os_end_as ends as it would have. */
void os_on_ending(OsHandler *handler);
/** @brief End as this signal does. */
void os_end_as(int number);
/** @brief When the terminal or the session of the person goes, if nobody has taken that yet. */
void os_on_hangup(OsHandler *handler);
/** @brief When somebody asks a running program to say how it is. */
void os_on_question(OsHandler *handler);
/** @brief A person breaks off a long job: until os_interrupt_end this is called instead. */
void os_interrupt_begin(OsHandler *handler);
/** @brief As before. @param was_asked nonzero: asked once is enough, and what is still to be said
 * is said whatever comes */
void os_interrupt_end(int was_asked);

#endif
