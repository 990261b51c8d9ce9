/*
 * The two inner loops that take nearly all the time of a run: the band factorisation of the gas
 * equation and the explicit step of the solid. Each exists in three instruction-set builds of one
 * body (kernels.inc). Every lane does the same IEEE operations in the same order and contraction
 * is off, so the three give the same bits; pb_kernels_pick chooses by what the machine has.
 */
#ifndef PACK_KERNELS_H
#define PACK_KERNELS_H

#include "core/alloc.h"
#include "flight.h"

#include <stddef.h>

/** Largest half bandwidth: cells across a bay. */
enum { PB_BAND_MAX_HALF = 48 };

/** Symmetric band matrix, upper half by rows: a[k * lead + t] couples unknowns k and k + t. */
typedef struct PbBand {
    int n;        /* unknowns */
    int half;     /* largest |i - j| */
    int lead;     /* row length: over 2 * half + 16, one more than a multiple of 8 (so that a column
                     stands on the same place of a cache line in each row), tail zero */
    double *a;    /* (n + half + 12) rows */
    double *pair; /* work: both right-hand sides side by side, 2 (n + half + 12) */
} PbBand;

/** Sizes for nx x ny cells, numbered along the rows, and arrays from the arena (a NULL base only
 * measures), all zero. */
void pb_band_of_grid(PbBand *band, int nx, int ny, PbArena *arena);

/** The solid between ticks. All arrays padded [ny + 2][nx + 2], flat; the laws are in fill.c. */
typedef struct PbSolidArrays {
    double *a, *b;           /* free share * density, and that times past density */
    double *p;               /* stress, Pa */
    double *open_x, *open_y; /* 1 where a face can pass fill */
    double *area_x, *area_y; /* free share of the face */
} PbSolidArrays;

/**
 * One explicit step, in single precision but for a and b: what leaves one cell enters the next as
 * one number, and the sums are double, so mass is kept as exactly as before.
 */
typedef struct PbSolidStep {
    double *a, *b;                    /* as above */
    float *rho, *rm, *p, *tot;        /* density, past density, stress, stress + gas, Pa */
    float *gx, *gy;                   /* driving force per volume on faces, Pa/m */
    float *fa_x, *fb_x, *fa_y, *fb_y; /* fluxes through faces */
    float *iphi, *gas, *open_x, *open_y, *area_x, *area_y;
    float *t0_x, *t0_y;   /* part of the friction limit that does not follow stress */
    float *kf_x, *kf_y;   /* friction limit per Pa of stress, 1/m */
    float *mob_x, *mob_y; /* mobility, m3 s/kg */
    float *fall;          /* sin(tilt) on faces whose upper cell is an unheld crumb, else 0 */
} PbSolidStep;

typedef struct PbSolidParams {
    int stride; /* nx + 2 */
    double inv_dx, inv_dy;
    double stiffness;          /* Cv of p = Cv (rho^3 - rest^3), Pa m9/kg3 */
    double rest3;              /* rest density cubed */
    double unload, inv_unload; /* strain of unloading and its inverse */
    double weight;             /* gravity along the bay, m/s2 */
    double speed_cap_m_s;
    double fall_speed_m_s;
    double loose_kg_m3; /* a cell below lets crumbs in */
    double dt_s;
} PbSolidParams;

/** What is worked out of the cells once a tick, before the substeps. The laws are in fill.c. */
typedef struct PbPrepare {
    const double *a, *b, *iphi, *p, *table; /* table: resistivity over density */
    double *sigma, *mobility, *hold;        /* of cells */
    float *t0_x, *t0_y, *mob_x, *mob_y;     /* of faces, as in PbSolidStep */
    double table_scale, table_end;          /* rows of the table per kg/m3, where it ends */
    double mobility_share, mobility_cap;
    double stiffness3, unload_slope; /* 3 Cv; 2 / strain of unloading */
    /* pb_material_cohesion as unconfined strength: of laid fill, Pa, and what pressing adds, over
     * past density squared less rest squared */
    double laid_strength_pa, strength_slope;
    double stick, lean; /* friction limit by adhesion, and by leaning on a face per kg/m3 */
    double rest_kg_m3, inv_rest, inv_dx, inv_dy;
    int stride, cells;
} PbPrepare;

/** The gas matrix, in parts. Arrays of cells and faces padded, unknowns bare. */
typedef struct PbGasArrays {
    const double *area_x, *area_y, *sigma, *phi, *phi0, *batt, *gas, *leak, *leak_table, *mouth_w;
    double *right, *up; /* conductance of faces, m3/(s Pa) */
    double *leak_now, *memory, *unit;
    double ratio_x, ratio_y, storage, cell_m2, leak_scale;
    int leak_rows, nx, ny, stride;
} PbGasArrays;

typedef struct PbKernels {
    const char *name;
    /**
     * Factor in place as U' D^-1 U (row k keeps U with 1/D in entry 0) and solve for two right-hand
     * sides in place, each of n + half + 8 entries. Elimination of the sides rides along with the
     * factor: a pass over the band of its own would wait on memory for each unknown.
     */
    void (*band_solve2)(PbBand *band, double *x, double *y);
    /** Stress from a and b for flat indices [from, to). */
    void (*solid_stress)(const PbSolidStep *s, const PbSolidParams *q, int from, int to);
    /** Driving force on faces of flat indices [from, to). */
    void (*solid_force)(const PbSolidStep *s, const PbSolidParams *q, int from, int to);
    /** Fluxes on faces of flat indices [from, to). */
    void (*solid_flux)(const PbSolidStep *s, const PbSolidParams *q, int from, int to);
    /** Update a and b of the ny rows beside marked fluxes; changed: which of them did. @return how
     * many rows were looked at */
    int (*solid_update)(const PbSolidStep *s, const PbSolidParams *q, int ny,
                        const unsigned char *flux, unsigned char *changed);
    /** Is any of the numbers not finite? */
    int (*is_any_lost)(const double *numbers, size_t count);
    void (*narrow)(float *to, const double *from, int n);
    void (*widen)(double *to, const float *from, int n);
    /** Resistivity of the cells that the table holds; @return nonzero when it does not hold all. */
    int (*solid_resistivity)(const PbPrepare *c);
    /** Mobility and strength of cells and faces; @return the stiffest cell, Pa m3 s/kg. */
    double (*solid_prepare)(const PbPrepare *c);
    /** Conductance of faces without batts, and of leaks. */
    void (*gas_faces)(const PbGasArrays *g);
    /** The matrix without openings, and its right-hand sides. */
    void (*gas_assemble)(PbBand *band, const PbGasArrays *g);
    /**
     * A tick of up to PB_FLIGHT tufts; all arrays have PB_FLIGHT entries, those past count are
     * whatever. @param[out] left seconds of the tick that are left to each
     * @return bits of those that come to wood, fill or an opening with the next piece of their way
     */
    unsigned (*tufts_fly)(const PbFlight *f, double *x, double *y, double *u, double *v,
                          double *left, const double *gust0, const double *gust1, int count);
} PbKernels;

extern const PbKernels pb_kernels_base;
#if defined(__x86_64__)
extern const PbKernels pb_kernels_avx2;
extern const PbKernels pb_kernels_avx512;
#endif

/** @brief 0 best here, 1 baseline, 2 AVX2, 3 AVX-512 (NULL when the machine lacks it). */
const PbKernels *pb_kernels_pick(int path);

#endif
