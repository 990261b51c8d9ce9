/**
 * @file wall.h
 * @brief The wall around the bay as layers, and R of a framed wall by both limits of ISO 6946.
 *
 * A layer is a row with R from assets/constants.json (group "layer": value, range, source), so a
 * draw moves it like any other constant, and with a thickness for the section that is drawn and
 * solved. Films are those of ISO 6946 (room_film_m2k_w, outdoor_film_m2k_w). R of a layer is one
 * number whatever the temperature; fixings, wet layers and wind behind the siding are left out.
 * Pure; allocates nothing.
 */
#ifndef CORE_WALL_H
#define CORE_WALL_H

#include "core/constants.h"
#include "core/status.h"

/** From the room outwards; the cavity lies behind the inside face. */
typedef enum PbWallPlace {
    PB_WALL_INSIDE,    /**< drywall, plaster, paneling: never none */
    PB_WALL_SHEATHING, /**< boards, panels, or none */
    PB_WALL_PAPER,     /**< felt, or none */
    PB_WALL_CLADDING,  /**< or none, where the sheathing is the outside */
    PB_WALL_OVER,      /**< new siding over the old, or none */
    PB_WALL_PLACES
} PbWallPlace;

/** One choice at a place. */
typedef struct PbWallLayer {
    const char *id;       /**< as in files: "wood-lap"; "none" */
    const char *constant; /**< row of the constants that has its R; NULL = none */
    const char *vapor;    /**< row that has its permeance; NULL = none */
    double thickness_m;   /**< nominal; 0 = none */
} PbWallLayer;

/** All zero is the simple wall, which every house and bay of an older file has: one board of
 * gypsum_thickness_m and one panel of sheathing_thickness_m, no felt, no siding. */
typedef struct PbWall {
    int is_layered;            /**< 0 = the simple wall; layer[] is then not looked at */
    int layer[PB_WALL_PLACES]; /**< row of pb_wall_layer at each place */
} PbWall;

int pb_wall_layer_count(PbWallPlace place);
/** @brief Row n of a place. @param[in] n 0 .. count - 1 */
const PbWallLayer *pb_wall_layer(PbWallPlace place, int n);
/** @brief Row of a place by its id; negative = there is none such. */
int pb_wall_layer_find(PbWallPlace place, const char *id);
/** @brief Word of a place in files: "inside", "sheathing", "paper", "cladding", "over". */
const char *pb_wall_place_word(PbWallPlace place);
/** @brief R of the chosen layer at a place, m2 K/W. */
double pb_wall_layer_r(const PbWall *wall, PbWallPlace place, const PbConstants *constants);
/** @brief Nonzero when R or permeance of this wall hangs on the constant of that name. */
int pb_wall_uses(const PbWall *wall, const char *constant);

/** @brief 1/2 in drywall, 1/2 in plywood, felt, lapped wood siding. */
PbWall pb_wall_usual(void);
/**
 * @brief Judge a wall: rows that there are, something outside of the studs, siding under siding.
 * @param[out] place the one complained of; may be NULL
 * @return PB_OK or PB_ERR_RANGE; err says what was expected
 */
PB_NODISCARD PbStatus pb_wall_check(const PbWall *wall, PbWallPlace *place, PbError *err);

/** A wall as heat sees it: the two layers that touch the cavity have a thickness, what lies beyond
 * the outer one is a resistance without any heat along the wall. */
typedef struct PbWallSkin {
    double room_film_m2k_w;
    double inside_m, inside_k_w_mk;
    double outside_m, outside_k_w_mk; /**< sheathing, else the innermost siding */
    double beyond_m2k_w;              /**< layers beyond it and the outdoor film */
} PbWallSkin;

PbWallSkin pb_wall_skin(const PbWall *wall, const PbConstants *constants);
/** @brief Films and layers without the cavity, m2 K/W. */
double pb_wall_skin_r(const PbWallSkin *skin);

typedef struct PbWallLimits {
    double upper_m2k_w; /**< paths side by side from air to air */
    double lower_m2k_w; /**< faces of every layer at one temperature */
} PbWallLimits;

/** A wall of wood and cavity side by side between the same layers. */
typedef struct PbWallPaths {
    double skin_m2k_w;     /**< pb_wall_skin_r */
    double stud_m2k_w;     /**< wood over the depth of the cavity */
    double framing_share;  /**< of the area, 0 .. 1 */
    double cavity_u_w_m2k; /**< air to air beside the wood: mean over paths of their own */
    double layer_w_m2k;    /**< conductance of the cavity layer alone */
} PbWallPaths;

/**
 * @brief ISO 6946:2017, 6.7.2: upper limit of total resistance, and the lower one with the mean of
 * wood and cavity as one layer.
 */
PbWallLimits pb_wall_limits(const PbWallPaths *paths);
/** @brief Mean of both limits, m2 K/W. */
double pb_wall_r(const PbWallPaths *paths);
/** @brief The same for a cavity that is alike over its whole area. @param[in] cavity_m2k_w > 0 */
PbWallPaths pb_wall_paths(const PbWallSkin *skin, double stud_m2k_w, double framing_share,
                          double cavity_m2k_w);

#endif
