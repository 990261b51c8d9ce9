/**
 * @file crew_find.h
 * @brief Crews by rule that look for the bays of a closed wall, for jobs without a person. They
 * know what their acts tell and nothing else.
 */
#ifndef CORE_CREW_FIND_H
#define CORE_CREW_FIND_H

#include "core/crew.h"

typedef enum PbFindMethod {
    PB_FIND_CAREFUL, /**< probes along the wall, over and under each opening, with a sweep to both
                          sides of each bay; a hole in each, a tube up and down, and on behind what
                          stops it */
    PB_FIND_TAPE, /**< one stud, then a hole in the middle of every 16 in from there, by the tape */
    PB_FIND_METHODS
} PbFindMethod;

/**
 * @brief Find and open the bays. Ends early when a wire was met or the record is full.
 * @param[in] f the wall, handed on to pb_crew_do and not looked at
 */
void pb_crew_find(PbCrew *crew, const PbFraming *f, PbFindMethod method);

#endif
