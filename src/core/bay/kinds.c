/* The rows of core/kinds.h. Written without names of members, so that a row that
 * leaves one out does not compile. */
#include "core/kinds.h"

#include <stddef.h>

static const PbObstacleTraits obstacles[] = {
    /* word, rectangle, snapped, stops the tube, batt, cover, stand, touch */
    {"block", 1, 1, 1, 0, 0, PB_STAND_BACK, PB_TOUCH_WOOD},
    {"box", 1, 0, 1, 0, 1, PB_STAND_FRONT, PB_TOUCH_METAL},
    {"cable", 0, 0, 0, 0, 0, PB_STAND_MIDDLE, PB_TOUCH_WIRE},
    {"pipe", 0, 0, 0, 0, 0, PB_STAND_MIDDLE, PB_TOUCH_METAL},
    {"brace", 0, 0, 0, 0, 0, PB_STAND_BACK, PB_TOUCH_WOOD},
    {"batt", 1, 0, 0, 1, 0, PB_STAND_MIDDLE, PB_TOUCH_SOFT},
};
_Static_assert(sizeof obstacles / sizeof obstacles[0] == PB_OBSTACLE_KINDS, "a row for each kind");

const PbObstacleTraits *pb_obstacle_traits(PbObstacleKind kind)
{
    return &obstacles[kind];
}

/* offsets of strength and stiffness */
#define OF(name) offsetof(PbConstants, name##_pa), offsetof(PbConstants, name##_ei_n_m)

static const PbFinishTraits finishes[] = {
    /* word, strength and stiffness, fastened, weak, widest bay, face, skin, thickness, dull */
    {"gypsum-12.7", OF(gypsum_12_7), 1, 0, 0.5, PB_FACE_GYPSUM, PB_SKIN_PAINTED_BOARD, 0.0127, 0},
    {"gypsum-15.9", OF(gypsum_15_9), 1, 0, 0.0, PB_FACE_GYPSUM, PB_SKIN_PAINTED_BOARD, 0.0159, 0},
    {"gypsum-9.5", OF(gypsum_9_5), 1, 1, 0.0, PB_FACE_GYPSUM, PB_SKIN_PAINTED_BOARD, 0.0095, 0},
    {"plaster", OF(plaster), 0, 0, 0.0, PB_FACE_LATH, PB_SKIN_PLASTER, 0.0222, 1},
    {"panelling", OF(panelling), 0, 1, 0.0, PB_FACE_GYPSUM, PB_SKIN_WOOD_BOARD, 0.0064, 0},
};
_Static_assert(sizeof finishes / sizeof finishes[0] == PB_FINISHES, "a row for each kind");

const PbFinishTraits *pb_finish_traits(PbFinish kind)
{
    return &finishes[kind];
}
