/**
 * @file heat_section.h
 * @brief Steady heat and air flow in a rectangle of cells: conduction, loops, radiation.
 *
 * Model: Darcy-Brinkman-Boussinesq flow as a stream function on cell corners, energy on cell
 * centres, grey radiation between the two faces of every air run of a row. The same face serves a
 * stud bay, a closed air cavity, a porous cavity and a metal-and-insulation detail.
 * Valid: steady laminar flow, at most a few ten kelvin, no air through the outline. Source of the
 * equations, of each rule of the discretisation and of the checks: docs/physics/heat.md.
 *
 * Arrays are [ny][nx] row-major, x from the left (hot, room) side to the right (cold, outdoor)
 * side, y up, origin at the bottom left. Temperatures in degrees Celsius.
 */
#ifndef CORE_HEAT_SECTION_H
#define CORE_HEAT_SECTION_H

#include "core/alloc.h"
#include "core/status.h"

#define PB_HEAT_MAX_LINES 2048
/** No property of the air, nor what drives it in scaled equations, reaches this. */
#define PB_HEAT_MOST_DRIVE 1e15
/** Cases and bays whose matrices would need more are refused. Our choice. */
#define PB_HEAT_MAX_BYTES ((size_t)1 << 30)

typedef enum PbHeatSideKind {
    PB_HEAT_ADIABATIC,
    PB_HEAT_FIXED, /**< surface held at temperature_c */
    PB_HEAT_FILM   /**< surface resistance film_m2k_w to temperature_c */
} PbHeatSideKind;

typedef struct PbHeatSide {
    PbHeatSideKind kind;
    double temperature_c;
    double film_m2k_w; /**< > 0 for PB_HEAT_FILM */
} PbHeatSide;

enum { PB_HEAT_LEFT, PB_HEAT_RIGHT, PB_HEAT_BOTTOM, PB_HEAT_TOP, PB_HEAT_SIDES };

typedef enum PbHeatFlow {
    PB_HEAT_FLOW_NONE,   /**< conduction and radiation only */
    PB_HEAT_FLOW_DARCY,  /**< no viscous term: air cells are not allowed */
    PB_HEAT_FLOW_VISCOUS /**< Brinkman in fill, Stokes or (with inertia) Navier-Stokes in air */
} PbHeatFlow;

/** What the solver turns to next, told to PbHeatSetup.mark so that a bench can time the parts. */
typedef enum PbHeatPhase {
    PB_HEAT_PHASE_OTHER,
    PB_HEAT_PHASE_ASSEMBLE,
    PB_HEAT_PHASE_FACTOR,
    PB_HEAT_PHASE_SOLVE,
    PB_HEAT_PHASES
} PbHeatPhase;

/** Permeability of a cell: 0 = no air passes, HUGE_VAL = open air, between = fill. */
typedef struct PbHeatSetup {
    int nx, ny;
    const double *x_m;                 /**< nx + 1 grid lines, rising, borrowed for the call */
    const double *y_m;                 /**< ny + 1 grid lines */
    const double *k_w_mk;              /**< [ny][nx] conductivity, > 0 */
    const double *permeability_m2;     /**< [ny][nx] */
    const unsigned char *no_radiation; /**< [ny][nx], 1 = radiation is already in k; NULL = none */
    PbHeatSide side[PB_HEAT_SIDES];
    double heat_capacity_j_m3k; /**< of the air, per volume */
    double viscosity_m2_s;      /**< kinematic */
    double expansion_1_k;
    double gravity_m_s2;
    double up_x, up_y;      /**< direction against gravity, unit vector; wall: 0, 1 */
    double radiation_w_m2k; /**< h_r across air runs; 0 = none */
    PbHeatFlow flow;
    int has_inertia;    /**< in open air; needs PB_HEAT_FLOW_VISCOUS */
    double tolerance;   /**< of the stream function, relative to its largest value */
    int max_iterations; /**< outer steps before PB_ERR_NO_RESULT */
    void (*mark)(void *user, PbHeatPhase phase); /**< NULL = nobody is timing */
    void *mark_user;
    int kernels; /**< -1 = widest of this machine; 0, 1, 2 for tests */
} PbHeatSetup;

/** What a solved section tells. Pointers live as long as the section. */
typedef struct PbHeatResult {
    double heat_w_m[PB_HEAT_SIDES]; /**< into the rectangle through each side, per metre of width */
    double balance;                 /**< |sum of the four| over the largest */
    double still_w_m;     /**< through the left side if no air moved; NAN after a second solve */
    int iterations;       /**< outer steps; 0 = conduction only */
    int inner_iterations; /**< steps of the linear solver */
    int factorisations;   /**< of the energy matrix */
    int ramp_levels;      /**< strengths of buoyancy gone through */
    int loop_count;       /**< 1 when air moves at all in the result, else 0 */
    double psi_max_m2_s;  /**< largest |psi|: air that goes round, per metre of width */
    double u_max_m_s, v_max_m_s; /**< anywhere */
    double u_mid_max_m_s;        /**< on the vertical mid line */
    double v_mid_max_m_s;        /**< on the horizontal mid line */
    double psi_mid_m2_s;         /**< |psi| at the middle */
    int nx, ny;
    const double *x_m, *y_m;        /**< nx + 1 and ny + 1 grid lines */
    const double *temperature_c;    /**< [ny][nx] at cell centres */
    const double *psi_m2_s;         /**< [ny + 1][nx + 1] on corners; u = dpsi/dy, v = -dpsi/dx */
    const double *left_c, *right_c; /**< [ny] surface temperature of the two upright sides */
    const double *left_w_m2;        /**< [ny] heat into the left side */
    const double *right_w_m2;       /**< [ny] heat into the right side */
} PbHeatResult;

typedef struct PbHeatSection PbHeatSection;

/** @brief A wall section in air at 10 C with gravity down, nothing filled in yet. */
PbHeatSetup pb_heat_setup_default(void);

/**
 * @brief Bytes a section of this size takes, so that a caller can refuse before allocating.
 * 0 when the setup is out of range.
 */
size_t pb_heat_section_bytes(const PbHeatSetup *setup);

/**
 * @brief Check and copy a setup and make room.
 * @param[in]  setup     arrays borrowed for the call
 * @param[in]  allocator copied
 * @param[out] section   caller frees with pb_heat_section_destroy; untouched unless PB_OK
 * @param[out] err       one line, may be NULL
 * @return PB_OK; PB_ERR_RANGE when a value is out of range; PB_ERR_MEMORY
 */
PB_NODISCARD PbStatus pb_heat_section_create(const PbHeatSetup *setup, const PbAllocator *allocator,
                                             PbHeatSection **section, PbError *err);
void pb_heat_section_destroy(PbHeatSection *section);

/**
 * @brief Solve; may be called again after pb_heat_section_set_sides, starting from the last answer.
 * @return PB_OK; PB_ERR_NO_RESULT when the steps did not converge (the last state is kept, the
 *         result is not valid); PB_ERR_DIVERGED when a matrix cannot be factored
 * Deterministic: the same bits for every kernel and compiler. Allocates nothing.
 */
PB_NODISCARD PbStatus pb_heat_section_solve(PbHeatSection *section);
/**
 * @brief Change the temperatures and films of the sides; kinds must stay.
 * @param[in] side borrowed for the call
 * @return PB_OK; PB_ERR_RANGE, nothing changed
 */
PB_NODISCARD PbStatus pb_heat_section_set_sides(PbHeatSection *section,
                                                const PbHeatSide side[PB_HEAT_SIDES]);
/** @brief The answer; valid after PB_OK of the last solve. Borrowed until the section is destroyed.
 */
const PbHeatResult *pb_heat_section_result(const PbHeatSection *section);
/** @brief Temperature at a point, C, by the four cells round it (surfaces count as points too).
 * Outside the rectangle: that of the nearest point inside. */
double pb_heat_section_probe(const PbHeatSection *section, double x_m, double y_m);

#endif
