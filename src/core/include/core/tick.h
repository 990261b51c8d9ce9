/**
 * @file tick.h
 * @brief One tick of a run: how long it is, on which grids, and where its time goes.
 */
#ifndef CORE_TICK_H
#define CORE_TICK_H

#include <stdint.h>

#define PB_TICK_S 0.04

/** Cells across a bay that programs offer. */
typedef enum PbGrid { PB_GRID_LEAST = 6, PB_GRID_DEFAULT = 16, PB_GRID_FINE = 24 } PbGrid;

/** Seconds spent in each stage since creation, filled when a clock is given to pb_session_profile.
 */
typedef struct PbProfile {
    double gas_s, solid_s, tufts_s, other_s;
    uint64_t gas_solves, solid_substeps, cell_substeps, ticks;
} PbProfile;

#endif
