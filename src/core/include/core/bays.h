/**
 * @file bays.h
 * @brief The bays of a framed wall: the parts that its members and cut-outs leave.
 *
 * The wall is cut along every edge of every member and cut-out; cells that touch along an edge are
 * one bay. So the piece over a window or behind a block is a bay whether or not anybody thought of
 * it. Bays are numbered from the left, and from the floor where they begin at the same place.
 */
#ifndef CORE_BAYS_H
#define CORE_BAYS_H

#include "core/alloc.h"
#include "core/framing.h"

typedef struct PbFramedBay {
    PbRect around;    /**< smallest rectangle around it */
    double area_m2;   /**< of the bay itself */
    double fill_m3;   /**< to be filled: its volume less what stands inside */
    int is_rectangle; /**< it fills `around` */
    int is_narrow;    /**< narrower or lower than the hole: a drill meets lumber */
    int is_parted;    /**< a brace of the full depth runs from edge to edge: fill does not pass */
    const char
        *above; /**< word of what bounds the middle of its top: a member or cut-out, "edge" */
    const char *below; /**< the same at the foot */
    const char *why;   /**< why it is to be left alone; NULL = it may be filled. In the framing. */
    PbLeaveReason reason; /**< of `why`, as in PbLeave */
} PbFramedBay;

typedef struct PbWallAreas {
    double wall_m2, members_m2, cutouts_m2, bays_m2;
    double fill_m3;   /**< of all bays that may be filled */
    double fill_kg;   /**< at the target density */
    double fill_bags; /**< of the material's bag */
} PbWallAreas;

typedef struct PbBays PbBays;

/**
 * @brief Find the bays of a wall that pb_framing_check accepts.
 * @param[in]  f    borrowed for the life of the bays
 * @param[out] out  caller calls pb_bays_destroy
 * @return PB_OK; PB_ERR_MEMORY. Deterministic.
 */
PB_NODISCARD PbStatus pb_bays_create(const PbFraming *f, const PbAllocator *allocator,
                                     PbBays **out);
/** @brief NULL is allowed. */
void pb_bays_destroy(PbBays *bays);
/** @brief The bays, borrowed. */
const PbFramedBay *pb_bays_list(const PbBays *bays, int *count);
PbWallAreas pb_bays_areas(const PbBays *bays);
/** @brief The bay that holds a point, or -1: lumber, a cut-out, or no wall. */
int pb_bays_at(const PbBays *bays, double x_m, double y_m);
/**
 * @brief One bay as an exercise of its own, with the hole at a place that is clear: in the middle
 * of its width and as high as that of `like`, else in the middle, else at a third.
 * @param[in]  index 0 .. count - 1
 * @return PB_OK; PB_ERR_RANGE with the reason: a piece that the packing model was not made for
 */
PB_NODISCARD PbStatus pb_bays_exercise(const PbBays *bays, int index, PbExercise *e, PbError *err);

#endif
