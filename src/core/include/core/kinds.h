/**
 * @file kinds.h
 * @brief Kinds of obstacle and of finish: a list here, and a row with all properties in
 * bay/kinds.c.
 *
 * Nobody asks which kind it is; everybody asks the row for the property. Words stand in exercise
 * files; the order does not, so a new kind may stand anywhere before the count.
 */
#ifndef CORE_KINDS_H
#define CORE_KINDS_H

#include "core/constants.h"

/** Something in the bay that takes room. */
typedef enum PbObstacleKind {
    PB_OBSTACLE_BLOCK, /**< fire block or nailer: rectangle x0..x1, y0..y1 */
    PB_OBSTACLE_BOX,   /**< electrical box: rectangle */
    PB_OBSTACLE_CABLE, /**< runs from (x0,y0) to (x1,y1), `size_m` thick */
    PB_OBSTACLE_PIPE,  /**< as cable */
    PB_OBSTACLE_BRACE, /**< diagonal brace, as cable, `size_m` wide */
    PB_OBSTACLE_BATT, /**< an old batt left in place: rectangle that air passes and fill does not */
    PB_OBSTACLE_KINDS
} PbObstacleKind;

/** Where in the depth of the bay a thing stands that does not take all of it. Common practice:
 * boxes are set flush with the finish, braces are let into the studs from outside, the rest runs in
 * the middle. */
typedef enum PbStand { PB_STAND_FRONT, PB_STAND_MIDDLE, PB_STAND_BACK } PbStand;

/** What it is to a rod or a tube. */
typedef enum PbTouch {
    PB_TOUCH_WOOD,
    PB_TOUCH_METAL,
    PB_TOUCH_SOFT, /**< a rod goes through */
    PB_TOUCH_WIRE  /**< a rod pushes it aside, a saw cuts it */
} PbTouch;

/** Everything that the program asks of a kind of obstacle but its look, which is in the table of
 * src/app. What is not a batt is wood to heat, years and paper. */
typedef struct PbObstacleTraits {
    const char *word;      /**< in exercise files */
    int is_rectangle;      /**< else a line of size_m from end to end */
    int is_snapped;        /**< across the whole depth it is moved to cell edges: nothing passes */
    int always_stops_tube; /**< also where it leaves part of the depth free */
    int is_batt;           /**< air passes it as a batt and it insulates as one */
    int has_cover;         /**< seen from the room */
    PbStand stand;
    PbTouch touch;
} PbObstacleTraits;

/** @brief The row of a kind. @param[in] kind 0 .. PB_OBSTACLE_KINDS - 1 */
const PbObstacleTraits *pb_obstacle_traits(PbObstacleKind kind);

typedef enum PbFinish {
    PB_FINISH_GYPSUM_12_7, /**< 1/2 in gypsum board */
    PB_FINISH_GYPSUM_15_9, /**< 5/8 in gypsum board */
    PB_FINISH_GYPSUM_9_5,  /**< 3/8 in gypsum board */
    PB_FINISH_PLASTER,     /**< plaster on wood lath */
    PB_FINISH_PANELLING,   /**< thin sheet panelling, brads or glue */
    PB_FINISHES
} PbFinish;

/** What fill rubs on while it settles. */
typedef enum PbFace { PB_FACE_GYPSUM, PB_FACE_FILM, PB_FACE_LATH } PbFace;

/** What lets water vapour out on one side of the bay. */
typedef enum PbFoamSkin {
    PB_SKIN_PAINTED_BOARD,
    PB_SKIN_WOOD_BOARD,
    PB_SKIN_TIGHT,
    PB_SKIN_PLASTER,
    PB_SKIN_TIGHT_SHEATHING
} PbFoamSkin;

/** Everything that the program asks of a kind of finish. */
typedef struct PbFinishTraits {
    const char *word;    /**< in exercise files */
    size_t strength_pa;  /**< offset in PbConstants: mean load that a 0.4 m patch stands */
    size_t stiffness_ei; /**< offset in PbConstants: EI of a strip, N m */
    int is_fastened;     /**< its strength goes with fasteners and with the width of the bay */
    int is_weak;         /**< weaker than the 1/2 in board that dense packing asks for */
    double width_max_m;  /**< usual widest bay behind it; 0 = nothing said */
    PbFace face;         /**< to settling fill */
    PbFoamSkin skin;     /**< to drying foam */
    double thickness_m;  /**< nominal; plaster with its lath 7/8 in, sheet panelling 1/4 in */
    int is_dull;         /**< does not ring when tapped, whatever is behind it */
} PbFinishTraits;

/** @brief The row of a kind. @param[in] kind 0 .. PB_FINISHES - 1 */
const PbFinishTraits *pb_finish_traits(PbFinish kind);

#endif
