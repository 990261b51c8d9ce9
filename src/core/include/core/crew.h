/**
 * @file crew.h
 * @brief What a crew knows of a closed wall, and the acts that find it out.
 *
 * A PbCrew holds what is in sight in the room and the record of acts with their answers; nothing
 * else of the wall is in it. The framing itself is asked by pb_crew_do alone, so that whoever is
 * handed a const PbCrew can show, mark or say nothing that the crew has not felt. What the crew
 * believes to stand in the wall (core/crew_belief.h) is worked out from the record.
 *
 * Same framing, seed and acts: the same answers, to the bit. All SI, x along the wall, y up, depth
 * from the room's face of the finish. Plain value type without pointers; about 200 kB, so not for
 * the stack.
 */
#ifndef CORE_CREW_H
#define CORE_CREW_H

#include "core/framing.h"

#include <stdint.h>

#define PB_CREW_ACTS   1024
#define PB_CREW_HOLES  96
#define PB_CREW_SHADES (PB_MAX_MEMBERS + PB_MAX_INSIDE)
#define PB_CREW_SEEN   24
#define PB_CREW_LAYERS 6

/* Common practice, no published figure known to us, unless a source is named. */
#define PB_CREW_ROD_M         0.3   /**< length of the probe behind the face */
#define PB_CREW_ROD_BORE_M    0.005 /**< it leaves a hole of this size */
#define PB_CREW_ROD_STEP_M    0.01  /**< a depth is read to this */
#define PB_CREW_SLANT_MAX_DEG 75.0
#define PB_CREW_TAP_BLUR_M    0.04 /**< an edge is heard within this on either side of it */
#define PB_CREW_SHADE_STEP_M  0.05 /**< a camera's picture of a wall is read to this */
#define PB_CREW_DRILL_REACH_M 0.05 /**< hole saw and its pilot go this far behind the finish */
#define PB_CREW_SENSE_M       0.05 /**< a contactless tester answers within this of a cable */
/** Least temperature difference for a camera: energy surveys ask for 10 K over three hours (as told
 * by a thermographers' magazine that cites standards). */
#define PB_CREW_CAMERA_K 10.0

/** Append-only: numbers stand in recorded jobs, words in files. */
typedef enum PbCrewActKind {
    PB_CREW_TAP,     /**< at x, y: hollow or dull */
    PB_CREW_MEASURE, /**< tape from x, y to x1, y1: exact */
    PB_CREW_PROBE,   /**< rod at x, y, slanted right_deg and up_deg: layers, and what stopped it */
    PB_CREW_DRILL,   /**< fill hole at x, y, bore_m across */
    PB_CREW_TUBE,    /**< machine off, through hole number `hole`, up or down: how far */
    PB_CREW_CAMERA,  /**< the whole wall, with delta_k between room and outdoors */
    PB_CREW_PENCIL,  /**< member drawn x, y to x1, y1: believed from now on; costs nothing */
    PB_CREW_RUB_OUT, /**< the pencilled member nearest to x, y within 50 mm; costs nothing */
    PB_CREW_LEAVE,   /**< the part at x, y is left, with a reason */
    PB_CREW_SENSE,   /**< contactless tester at x, y: a live cable within PB_CREW_SENSE_M or none.
                          Asked for before work near old wiring: SWS 4.1001.2 */
    PB_CREW_ACT_KINDS
} PbCrewActKind;

/** What hand, rod, saw or tube meets. Append-only, as above. */
typedef enum PbFeel {
    PB_FEEL_NOTHING, /**< the rod or tube ends before anything stops it; a clear hole */
    PB_FEEL_FINISH,
    PB_FEEL_HOLLOW,
    PB_FEEL_DULL, /**< a tap that does not ring */
    PB_FEEL_SOFT, /**< gives: old batt, or thin: a cable */
    PB_FEEL_WOOD,
    PB_FEEL_METAL,
    PB_FEEL_MASONRY,
    PB_FEEL_BACK, /**< boards or sheathing at the back of the bay */
    PB_FEEL_WIRE, /**< a cable: every one is taken to be live */
    PB_FEELS
} PbFeel;

typedef struct PbCrewAct {
    PbCrewActKind kind;
    double x_m, y_m;
    double x1_m, y1_m;
    double right_deg, up_deg; /**< of a rod; 0, 0 = straight in */
    double bore_m;            /**< of a fill hole; 0 = that of the wall's exercise */
    double delta_k;           /**< of a camera: room warmer than outdoors */
    int hole, is_up;          /**< of a tube */
    PbMemberKind member;      /**< of a pencil */
    PbLeaveReason reason;     /**< of leaving */
} PbCrewAct;

/** One stretch of a rod's way. */
typedef struct PbCrewLayer {
    PbFeel feel;
    double from_m, to_m; /**< along the rod, to PB_CREW_ROD_STEP_M; the finish to 1 mm */
} PbCrewLayer;

typedef struct PbCrewAnswer {
    PbFeel feel;    /**< what was heard or met; what stopped rod or tube */
    double reach_m; /**< probe: along the rod; tube: from the hole, to PB_CREW_ROD_STEP_M;
                         tape: length, exact */
    PbCrewLayer layers[PB_CREW_LAYERS]; /**< of a probe, from the face on */
    int layer_count;
    double time_s; /**< it took */
} PbCrewAnswer;

typedef struct PbCrewDone {
    PbCrewAct act;
    PbCrewAnswer answer;
    double at_s; /**< working time when it ended */
} PbCrewDone;

typedef struct PbCrewHole {
    double x_m, y_m, bore_m;
    PbFeel met; /**< nothing = it opens a bay; else what stood there, and the hole needs a patch */
    int act;    /**< which act made it */
} PbCrewHole;

/** What a camera showed, to PB_CREW_SHADE_STEP_M. */
typedef struct PbCrewShade {
    PbRect at;
    PbFeel feel; /**< wood faint, soft = an old batt */
} PbCrewShade;

/** What anybody in the room sees. */
typedef enum PbCrewSeenKind { PB_SEEN_BOX, PB_SEEN_REGISTER } PbCrewSeenKind;
typedef struct PbCrewSeen {
    PbCrewSeenKind kind;
    PbRect at;
} PbCrewSeen;

typedef struct PbCrew {
    uint64_t seed;
    /* in sight */
    double length_m, height_m;
    PbFinish finish;
    double bore_m; /**< of the fill holes of this job */
    PbCutout cutouts[PB_MAX_CUTOUTS];
    int cutout_count;
    PbCrewSeen seen[PB_CREW_SEEN];
    int seen_count;
    /* by acts */
    PbCrewDone done[PB_CREW_ACTS];
    int done_count;
    PbCrewHole holes[PB_CREW_HOLES];
    int hole_count;
    PbCrewShade shades[PB_CREW_SHADES];
    int shade_count;
    PbMember pencilled[PB_MAX_MEMBERS];
    int pencilled_count;
    double time_s;
    int is_stopped; /**< a wire was met: the job stops, a licensed electrician comes first */
} PbCrew;

/** Everything that the program asks of an act but its look. */
typedef struct PbCrewActTraits {
    const char *word;       /**< in files */
    double time_s;          /**< usual, behind board */
    double time_hard_s;     /**< usual, on plaster and lath */
    int leaves_hole;        /**< in the face */
    int is_allowed_stopped; /**< may still be done after a wire was met */
} PbCrewActTraits;

/** @brief The row of an act. @param[in] kind 0 .. PB_CREW_ACT_KINDS - 1 */
const PbCrewActTraits *pb_crew_act_traits(PbCrewActKind kind);
/** @brief Word of a feel in files. */
const char *pb_feel_word(PbFeel feel);

/**
 * @brief A crew comes into the room: it sees size, finish, windows, doors, chimney breast, covers.
 * @param[in]  f    borrowed for the call; one that pb_framing_check accepts
 * @param[in]  seed of what chance there is in its acts (the ear of a tap)
 */
void pb_crew_begin(const PbFraming *f, uint64_t seed, PbCrew *crew);

/**
 * @brief Do one act on the wall; its answer is appended to crew->done.
 * @param[in]  f   the wall as it stands, borrowed for the call; always the same one
 * @param[in]  act copied
 * @param[out] err what was expected; may be NULL
 * @return PB_OK; PB_ERR_RANGE: outside the wall, on glass, a slant or bore that cannot be;
 * PB_ERR_STATE: no such hole, the camera without PB_CREW_CAMERA_K, a full record, or the job is
 * stopped. Refused, nothing changed.
 */
PB_NODISCARD PbStatus pb_crew_do(PbCrew *crew, const PbFraming *f, const PbCrewAct *act,
                                 PbError *err);

/** @brief Acts of a kind so far. */
int pb_crew_count(const PbCrew *crew, PbCrewActKind kind);

#endif
