/**
 * @file heat_case.h
 * @brief A heat section described by rectangles: the general face of `pullback-cli heat`.
 *
 * A background material fills the rectangle; regions replace it and must not overlap. The case
 * chooses its own grid lines: every edge of a region is a line, thin regions get their cells and
 * lines crowd towards edges. Equations and limits: core/heat_section.h, docs/physics/heat.md.
 */
#ifndef CORE_HEAT_CASE_H
#define CORE_HEAT_CASE_H

#include "core/heat_section.h"

#define PB_HEAT_MAX_REGIONS 128
#define PB_HEAT_MAX_PROBES  128
#define PB_HEAT_MAX_CELLS   400000

typedef enum PbHeatMaterialKind {
    PB_HEAT_SOLID,  /**< no air passes */
    PB_HEAT_POROUS, /**< air passes by permeability */
    PB_HEAT_AIR     /**< open air */
} PbHeatMaterialKind;

typedef struct PbHeatMaterial {
    PbHeatMaterialKind kind;
    double k_w_mk;          /**< [1e-4, 500] */
    double permeability_m2; /**< of PB_HEAT_POROUS, (0, 1e6); the file takes [1e-16, 1] */
} PbHeatMaterial;

typedef struct PbHeatRegion {
    double x0_m, y0_m, x1_m, y1_m;
    PbHeatMaterial material;
} PbHeatRegion;

typedef struct PbHeatProbe {
    double x_m, y_m;
    double t_c; /**< filled in by the solve */
    char name[32];
} PbHeatProbe;

typedef struct PbHeatCase {
    double width_m, height_m;
    PbHeatMaterial background;
    PbHeatRegion regions[PB_HEAT_MAX_REGIONS];
    int region_count;
    PbHeatProbe probes[PB_HEAT_MAX_PROBES];
    int probe_count;
    int nx, ny;                   /**< grid, 2..2048 each, at most PB_HEAT_MAX_CELLS cells */
    double void_convection_w_m2k; /**< h_a of wide voids at level heat flow across at most 5 K, in
                                     step with which ISO 6946 goes; 0 = solve the flow in voids */
    int is_mean; /**< filled in by the solve: tall slots had no steady flow, their heat is the mean
                    of the moving air (core/heat_air.h) and no flow is told */
    PbHeatSetup
        physics; /**< sides, air, flow, tolerance; arrays and sizes are filled in by the solve */
} PbHeatCase;

typedef enum PbHeatKind { PB_HEAT_KIND_AIR, PB_HEAT_KIND_DARCY, PB_HEAT_KIND_BRINKMAN } PbHeatKind;

/** @brief An empty wall section: 1 x 1 m solid of 1 W/(m K), 32 x 32, no sides set. */
PbHeatCase pb_heat_case_default(void);

/**
 * @brief The classical heated cavity in its own scales: width 1, left 1, right 0, ends adiabatic.
 * Speeds come out in diffusivity / width. `ra` is the Rayleigh number of open air (with inertia) or
 * the Darcy-Rayleigh number g beta dT K L / (nu alpha); `da` = K / L^2 for Brinkman.
 */
void pb_heat_case_dimensionless(PbHeatCase *c, PbHeatKind kind, double ra, double pr, double da,
                                double aspect);

/**
 * @brief Judge a case. @param[out] field caller's array: path of the offending value as in the
 * file.
 * @return PB_OK or PB_ERR_RANGE. Allocates nothing.
 */
PB_NODISCARD PbStatus pb_heat_case_check(const PbHeatCase *c, char *field, size_t size,
                                         PbError *err);

/**
 * @brief Check, grid and solve; fills the probes.
 * @param[out] section caller frees with pb_heat_section_destroy
 * @return PB_OK; PB_ERR_RANGE; PB_ERR_MEMORY; PB_ERR_NO_RESULT when no steady state was reached,
 *         PB_ERR_DIVERGED when a matrix could not be factored
 */
PB_NODISCARD PbStatus pb_heat_case_solve(PbHeatCase *c, const PbAllocator *allocator,
                                         PbHeatSection **section, PbError *err);

/** Nusselt numbers on the left side: heat over that of plain conduction through the background. */
typedef struct PbHeatNusselt {
    double mean, highest, lowest; /**< NAN unless left and right are fixed */
} PbHeatNusselt;
PbHeatNusselt pb_heat_case_nusselt(const PbHeatCase *c, const PbHeatResult *r);

#endif
