/**
 * @file heat_bay.h
 * @brief Heat of a whole bay: strips across the width, the studs, the room-side picture, air
 * leakage, and what a season costs.
 *
 * Model: the bay is cut into strips across its width; each is a heat section (heat_section.h) in
 * depth and height, strips do not exchange heat or air. Wall U by the mean of both limits of
 * ISO 6946. The room-side surface is one board solved as a fin over strips and studs. Equations,
 * sources, limits: docs/physics/heat.md. Model results, not measurements; air leakage is a separate
 * figure and never part of R.
 *
 * x across the bay, y along it (as PbBayField), z depth from the inner face of the room board.
 */
#ifndef CORE_HEAT_BAY_H
#define CORE_HEAT_BAY_H

#include "core/constants.h"
#include "core/field.h"
#include "core/heat_section.h"
#include "core/wall.h"

#define PB_HEAT_MAX_GAPS   64
#define PB_HEAT_MAX_STRIPS 48

/** A box of air in the bay: settled top, inner void, gap at a face, stud or plate, crack. */
typedef struct PbHeatGap {
    double x0_m, x1_m, y0_m, y1_m, z0_m, z1_m;
} PbHeatGap;

typedef struct PbHeatFill {
    int is_foam;   /**< 0 = cellulose by the density of the field; 1 = the two below */
    double k_w_mk; /**< where the field's density is above the void limit */
    double permeability_m2;
} PbHeatFill;

/** Runs body(context, i) for i = 0 .. count - 1, in any order and on any threads, then returns. */
typedef void (*PbHeatParallel)(void *user, int count, void (*body)(void *context, int index),
                               void *context);

typedef struct PbHeatBaySetup {
    const PbBayField *field; /**< borrowed for the call */
    PbHeatGap gaps[PB_HEAT_MAX_GAPS];
    int gap_count;
    PbHeatFill fill;
    PbWall wall; /**< all zero = the simple wall */
    double room_c, outdoor_c;
    int strips;          /**< 1..32 across the width, before edge strips for slots at the studs */
    int nx, ny;          /**< cells of a section, 16 x 16 to 512 x 2048 and PB_HEAT_MAX_BYTES;
                            32 x 128 for a slider, 32 x 256 for a score; some 8 rows a gap */
    int flow_off;        /**< 1 = conduction and radiation only: a first picture */
    int solve_void_flow; /**< 1 = solve the loops of wide voids too (slow, for checks) */
    int with_range;      /**< 1 = also solve with narrower and wider gaps for the range */
    int map_nx, map_ny;  /**< room-side picture, 8 x 8 to 512 x 2048; 0 = none */
    PbHeatParallel parallel; /**< NULL = one after the other; results do not depend on it */
    void *parallel_user;
} PbHeatBaySetup;

/** One strip, for drawing. Arrays as in PbHeatResult; live as long as the bay. */
typedef struct PbHeatStrip {
    double x0_m, x1_m;
    double u_w_m2k;        /**< through strip, boards and films */
    int is_upright_answer; /**< 1 = the slope had no steady loop, solved as if upright */
    int has_loop;          /**< air moves enough to matter: draw it; 0 = draw none */
    double psi_max_m2_s;
    double balance;
    int iterations;
    int same_as; /**< index of an earlier strip with the same content, or itself */
    int nx, ny;
    const double *z_m;             /**< nx + 1 lines, 0 = room surface of the board */
    const double *y_m;             /**< ny + 1 lines */
    const double *temperature_c;   /**< [ny][nx] */
    const double *psi_m2_s;        /**< [ny + 1][nx + 1] on corners; lines of equal psi are paths */
    const double *permeability_m2; /**< [ny][nx], HUGE_VAL = open air */
} PbHeatStrip;

typedef struct PbHeatRange {
    double low, mid, high;
} PbHeatRange;

typedef struct PbHeatBayResult {
    double u_cavity_w_m2k; /**< mean over the strips, no stud */
    double u_stud_w_m2k;
    double r_upper_m2k_w, r_lower_m2k_w; /**< ISO 6946 limits, with the stud */
    double r_m2k_w, u_w_m2k;             /**< mean of the limits, and its inverse */
    double u_perfect_cavity_w_m2k;       /**< same bay, dense fill everywhere or intact foam */
    double r_perfect_m2k_w;              /**< same with the stud */
    PbHeatRange heat_ratio; /**< u_cavity over u_perfect_cavity; low = high = mid without range */
    PbHeatRange wall_ratio; /**< the same with the studs */
    double surface_min_c, surface_max_c; /**< of the room-side picture, or of the strips without */
    double leak_50_l_s,
        leak_75_l_s;            /**< air end to end through fill and gaps, plate cracks included */
    double leak_perfect_75_l_s; /**< same with perfect fill */
    /** Of the leaks of the same bay with nothing in it, what is left at 50 Pa: plate to plate, and
     * face to face. */
    double leak_left_along, leak_left_across;
    double balance; /**< worst of the strips */
    int strip_count, solved_strips, iterations_max;
    int map_nx, map_ny;
    double map_x0_m, map_x1_m; /**< the picture runs from the middle of one stud to the next */
    const double *map_c;       /**< [map_ny][map_nx] steady room-side surface temperature */
    const double *map_void; /**< [map_ny][map_nx] share of the depth behind that is empty, 0..1 */
    size_t peak_bytes;      /**< most memory in use at once, if strips run one after the other */
} PbHeatBayResult;

typedef struct PbHeatBay PbHeatBay;

/** @brief Simple wall, 20 C against 0 C, 12 strips of 32 x 128, picture 48 x 160, no gaps. */
PbHeatBaySetup pb_heat_bay_default(const PbBayField *field);

/**
 * @brief Solve a bay.
 * @param[in]  setup     borrowed for the call
 * @param[in]  constants borrowed for the call
 * @param[in]  allocator copied; must be safe to call from the threads of setup->parallel
 * @param[out] bay       caller frees with pb_heat_bay_destroy
 * @return PB_OK; PB_ERR_RANGE, also when the grid is too coarse for the gaps; PB_ERR_MEMORY;
 *         PB_ERR_NO_RESULT when a strip reached no steady state; PB_ERR_DIVERGED
 * Deterministic whatever `parallel` does.
 */
PB_NODISCARD PbStatus pb_heat_bay_solve(const PbHeatBaySetup *setup, const PbConstants *constants,
                                        const PbAllocator *allocator, PbHeatBay **bay,
                                        PbError *err);
/** @brief Give everything back. NULL allowed. */
void pb_heat_bay_destroy(PbHeatBay *bay);
/**
 * @brief Of the air through a crack in either face what is left when fill of this permeability is
 * pressed into both over crack_fill_depth_m.
 */
double pb_crack_left(const PbConstants *constants, double permeability_m2, double pressure_pa);
/** @brief The figures. Borrowed until the bay is destroyed. */
const PbHeatBayResult *pb_heat_bay_result(const PbHeatBay *bay);
/** @brief Strip 0 .. strip_count - 1. Borrowed until the bay is destroyed. */
const PbHeatStrip *pb_heat_bay_strip(const PbHeatBay *bay, int index);

typedef enum PbHeatShrink {
    PB_HEAT_SHRINK_TOP, /**< all vertical shrinkage opens at the top, the block rests near the plate
                         */
    PB_HEAT_SHRINK_ENDS, /**< small gaps at both plates, the rest taken by cracks elsewhere */
    PB_HEAT_SHRINK_TIGHT /**< tight to both plates */
} PbHeatShrink;

/**
 * @brief Gaps of a foam block that shrank by share (linear, e.g. 0.06) in all directions: half of
 * it at either face and stud, the vertical part by `kind`. What really opens varies: show it as one
 * case.
 * @param[in]  share above 0, below 0.5
 * @param[out] gaps  caller's array of at least 6
 * @return how many
 */
int pb_heat_shrink_gaps(const PbBayField *field, double share, PbHeatShrink kind,
                        const PbConstants *constants, PbHeatGap *gaps);

/** How the camera sees the surface. Off values are 0; numbers are always taken without. */
typedef struct PbHeatCamera {
    double held_h;      /**< hours since room and outdoors were set; < 0 = steady */
    double start_c;     /**< temperature of the whole wall before, -200..200 */
    double emissivity;  /**< (0, 1]; 1 = plain surface temperature */
    double reflected_c; /**< temperature of the room surfaces mirrored in the wall, -200..200 */
    double noise_k;     /**< standard deviation per pixel, 0..100 */
    int blur_px;        /**< passes of a 1-2-1 blur, 0..64 */
    unsigned seed;
} PbHeatCamera;

/** @brief Steady, plain, no noise, no blur. */
PbHeatCamera pb_heat_camera_plain(void);
/**
 * @brief Picture of a solved bay.
 * @param[out] out caller's [map_ny][map_nx], C
 * @return PB_OK; PB_ERR_STATE when the bay was solved without a picture; PB_ERR_RANGE
 */
PB_NODISCARD PbStatus pb_heat_camera_picture(const PbHeatBay *bay, const PbHeatCamera *camera,
                                             const PbConstants *constants, double *out);

/** Heat through an area over a heating season. */
typedef struct PbHeatSeason {
    double area_m2;
    PbHeatRange u_w_m2k;
    PbHeatRange degree_days_k_d;
    PbHeatRange price_per_kwh; /**< of fuel, in whatever money the user thinks in */
    PbHeatRange efficiency;    /**< (0, 5] */
} PbHeatSeason;

typedef struct PbHeatMoney {
    PbHeatRange heat_kwh;
    PbHeatRange cost;
} PbHeatMoney;

/** @brief Defaults and ranges of the constants for this area and U. */
PbHeatSeason pb_heat_season_default(const PbConstants *constants, double area_m2,
                                    PbHeatRange u_w_m2k);
/** @brief kWh and cost, each with the range that the ranges of the inputs allow. */
PB_NODISCARD PbStatus pb_heat_season_cost(const PbHeatSeason *season, PbHeatMoney *money);

#endif
