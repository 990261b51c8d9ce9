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

/** What the crew can say of one believed bay. */
typedef struct PbCrewPart {
    int is_felt;     /**< rod, saw or tube went into it; else nobody knows whether it is there */
    int is_low_felt; /**< its foot was met, or is a plate beside a hole that was tubed down */
    int is_high_felt;
    int has_soft, has_metal,
        has_wood;   /**< met behind a hollow: batt or cable, pipe or box, brace */
    double depth_m; /**< of the bay, to PB_CREW_ROD_STEP_M; 0 = not known */
    int holes;      /**< open ones in it */
    PbLeaveReason left;
} PbCrewPart;

/**
 * @brief What is known of each bay of pb_crew_framing.
 * @param[out] list caller's array, one for each bay of `believed`
 */
void pb_crew_parts(const PbCrew *crew, const PbBays *believed, PbCrewPart *list);

/** A bay as it is, and what became of it. */
typedef struct PbCrewFound {
    int part; /**< the felt part that is this bay; -1 = none */
    int hole; /**< first hole that opens it; -1 = none */
    PbLeaveReason left;
    int is_found; /**< any of the three */
} PbCrewFound;

/**
 * @brief Hold what was found against what is there. For an opened wall only. A part is a bay when
 * at least half of each lies in the other: a part that runs on past a block nobody felt is the
 * larger piece, and the other one was missed.
 * @param[in]  truth    bays of the wall itself
 * @param[in]  believed bays of pb_crew_framing
 * @param[out] list     caller's array, one for each bay of `truth`
 */
void pb_crew_compare(const PbCrew *crew, const PbBays *truth, const PbBays *believed,
                     PbCrewFound *list);

#endif
