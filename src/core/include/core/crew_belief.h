/**
 * @file crew_belief.h
 * @brief What a crew believes to stand in a wall: worked out from its record, and nothing else.
 *
 * Lumber is believed where the rod met wood right behind the finish, as wide as the hollow places
 * beside it allow and as high as nothing speaks against; where the crew pencilled it; and at floor
 * and ceiling, where every wall has plates. Parts are what believed lumber and the cut-outs in
 * sight leave (core/bays.h), so that a block nobody felt joins two parts into one.
 */
#ifndef CORE_CREW_BELIEF_H
#define CORE_CREW_BELIEF_H

#include "core/bays.h"
#include "core/crew.h"

/** How surely a believed member is known. */
typedef enum PbSurety {
    PB_SURE_GUESS,   /**< pencilled, or met once */
    PB_SURE_PROBED,  /**< met, and hollow beside it on both sides */
    PB_SURE_IN_SIGHT /**< beside a window or door; plates */
} PbSurety;

typedef struct PbBelieved {
    PbMember member;
    PbSurety surety;
} PbBelieved;

/** @brief Believed lumber. @param[out] list caller's array of PB_MAX_MEMBERS @return how many */
int pb_crew_lumber(const PbCrew *crew, PbBelieved *list);

/**
 * @brief The wall as the crew believes it to be, for pb_bays_create.
 * @param[in]  like depth, target, bag and machine that the job is reckoned with
 * @param[out] out  accepted by pb_framing_check
 */
void pb_crew_framing(const PbCrew *crew, const PbExercise *like, PbFraming *out);

/** A bay as it is, and what became of it. */
typedef struct PbCrewFound {
    int part; /**< of the believed bays: the one that holds its middle; -1 = none */
    int hole; /**< first hole that opens it; -1 = none */
    PbLeaveReason left;
    int is_found; /**< it has a hole, or is left, or a believed part is this bay and no other */
} PbCrewFound;

/**
 * @brief Hold what was found against what is there. For an opened wall only.
 * @param[in]  truth bays of the wall itself
 * @param[in]  parts bays of pb_crew_framing
 * @param[out] list  caller's array, one for each bay of truth
 */
void pb_crew_compare(const PbCrew *crew, const PbBays *truth, const PbBays *parts,
                     PbCrewFound *list);

#endif
