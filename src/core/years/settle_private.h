/* What the settling files share: the law with its numbers worked out, and the state. */
#ifndef YEARS_SETTLE_PRIVATE_H
#define YEARS_SETTLE_PRIVATE_H

#include "core/settle.h"

#include <stddef.h>

enum { SETTLE_BLOCKED = 0, SETTLE_EMPTY = 1, SETTLE_FILL = 2 };

/* Constants and the case's factors, once per run. Letters in comments are those of the page. */
typedef struct SettleLaw {
    double ln_rate50;      /* ln S30 */
    double exponent;       /* m: creep stress against the density laid */
    double hardening;      /* m': against the density that creep has reached since */
    double damp;           /* ah */
    double power;          /* N */
    double relaxation;     /* kap */
    double time_years;     /* Th */
    double moisture_years; /* c_ms */
    double friction;       /* mu, with face and vibration */
    double ratio;          /* k */
    double tan_phi;
    double rate_factor;             /* fv */
    double along_m_s2, across_m_s2; /* gravity along the bay and onto its lower face */
} SettleLaw;

/* One time step for the creep loop. */
typedef struct SettleStep {
    double ln_rate, exponent, power, creep_time, inv_creep;
    double relax_time, relax_power, inv_relax, ln_ratio;
} SettleStep;

typedef void (*SettleKernel)(size_t n, const SettleStep *step, const double *stress_pa,
                             const double *dry_kg_m2, const double *ln_ref, double *ln_dry,
                             double *ln_lateral, double *thick_m, double *lateral_pa);

/* Rows wider than this search for their bends anew. */
enum { SETTLE_BENDS_MAX = 64 };

/* Where the taut string of a row of n columns bends: column i lies between points from[i] and
 * to[i]; at an inner point the string is free (0) or bends at its upper (1) or lower (-1) end. */
typedef struct SettleBends {
    unsigned char *from, *to; /* [n] */
    signed char *side;        /* [n + 1] */
} SettleBends;

/* One row of which every cell is fill over the whole depth: load, shear, who hangs. */
typedef void (*SettleRow)(PbSettle *s, int row, SettleBends bends);

/* The same row falls onto what is below it, whose tops stand in sum_q. */
typedef void (*SettleDrop)(PbSettle *s, int row);

/* What is built for several instruction sets; all give the same bits. */
typedef struct SettleKernels {
    SettleKernel creep;
    SettleRow row;
    SettleDrop drop_row;
} SettleKernels;

struct PbSettle {
    PbSettleConfig config;
    SettleLaw law;
    const SettleKernels *kernels;
    int nx, rows, bay_ny, refine;
    double width_m, height_m, depth_m, tilt_deg, fill_rh_frac;
    double dx_m, dy_m; /* dy of the refined rows */
    double years, rh_frac, moisture, moisture_fill;
    double across_years; /* creep time so far, as if at RH 50 %, for settling onto the lower face */
    double mass_start_kg;
    int steps;
    /* [rows][nx] */
    double *dry_kg_m2, *ln_ref, *ln_dry, *ln_lateral, *thick_m, *lateral_pa, *stress_pa;
    double *bottom_m, *perimeter_1_m, *share;
    unsigned char *kind, *stuck, *thin;
    unsigned char *hangs;        /* [nx]: whether any slice of the column is stuck */
    unsigned char *row_is_plain; /* [rows]: all fill at full depth */
    /* scratch of a row, [nx + 1] */
    double *above_pa, *raw_pa, *share_above, *links_pa, *sum_x, *sum_q, *press_pa;
    unsigned char *bends; /* [2 sweeps][rows][3][nx + 1], of the last step; NULL for wide rows */
    double *top_m;        /* [nx] of each column's highest fill, after settle_drop */
    double *patch_kg, *patch_m2;     /* [nx][patch rows] */
    double *free_share, *batt_share; /* [bay_ny][nx], free_frac and batt_frac as taken over */
};

SettleLaw settle_law(const PbSettleConfig *config, double tilt_deg);
SettleStep settle_step_numbers(const SettleLaw *law, double rh_frac, double dt_years);
double settle_ln_reference(const PbConstants *c, double laid_dry_kg_m3, double past_dry_kg_m3);

extern const SettleKernels settle_kernels_base, settle_kernels_avx2, settle_kernels_avx512;
/* Best kernels for this machine, or the ones asked for; NULL when the machine lacks them. */
const SettleKernels *settle_kernels(int vector_path);

/* Friction sweep with shear between columns: fills stress_pa and stuck. */
void settle_sweep(PbSettle *s);
/* Everything falls onto what is below it, but for slices held by the walls. */
void settle_drop(PbSettle *s);

/*
 * Shear between n neighbours. In: raw load q and depth share x of each, limits[i] the most shear
 * between i and i+1. Out: q after the smallest exchange that leaves no difference which shear
 * within its limits could still lessen. Scratch sum_x, sum_q of n + 1. Where the string bends goes
 * to `bends`, unless its arrays are NULL.
 */
void settle_exchange(int n, const double *x, const double *limits, double *q, double *sum_x,
                     double *sum_q, SettleBends bends);

/* Patches of the report: how many along an axis of this length. */
int settle_patch_count(double length_m);

#endif
