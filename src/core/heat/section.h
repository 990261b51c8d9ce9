/* Inside of a heat section, shared by section*.c. Units are SI; names follow docs/physics/heat.md.
 */
#ifndef HEAT_SECTION_H
#define HEAT_SECTION_H

#include "core/heat_section.h"
#include "heat/band.h"

enum { GMRES_MAX = 50, TURNS_MAX = 4 };

/* One off-diagonal coupling of the radiation links, or a diagonal part of one. */
typedef struct PbHeatLink {
    int row, col;
    double value;
} PbHeatLink;

struct PbHeatSection {
    PbHeatSetup setup; /* its arrays point into the block below */
    PbAllocator allocator;
    void *block;
    size_t block_bytes;
    const PbBandKernels *kernels;

    int nx, ny;
    double *x, *y, *dx, *dy;
    double *k;
    double *permeability; /* floating solids have a very small one here */
    unsigned char *no_radiation;

    /* Energy: cell (i, j) is unknown i * cell_i + j * cell_j. */
    int cell_i, cell_j;
    double reference_c; /* temperatures are solved relative to this */
    double *gx;         /* [ny][nx + 1] conductance of upright faces, sides included, W/(m K) */
    double *gy;         /* [ny + 1][nx] */
    double *diagonal;   /* conduction diagonal by unknown */
    double *source;     /* right-hand side by unknown */
    PbHeatLink *links;
    int link_count, link_next; /* the next to write into the matrix */
    const double *moving;      /* psi on corners that the matrix is written for, NULL when still */
    PbBand energy;
    double *t; /* solution by unknown, relative */
    double *t_delta, *energy_rhs;

    /* Stream function: free corners lie in i0..i1 x j0..j1; corner (i, j) is unknown
     * (i - i0) * node_i + (j - j0) * node_j. Others inside the box are held at 0. */
    int i0, i1, j0, j1, node_i, node_j, node_count;
    unsigned char *is_free; /* [ny + 1][nx + 1] */
    PbBand stream;
    int stream_ready;
    double *wx, *wy; /* [ny + 1][nx + 1]: widths in which a velocity jump is smeared, docs */
    double *psi;     /* by unknown */
    double *psi_trial, *residual, *rhs, *direction;
    double *psi_base, *t_base; /* where the energy matrix was factored */
    double *t_turn;            /* change of T that goes with direction, to first order */
    double turn_length;        /* psi to evaluate is psi + this x direction; 0 = not known */
    double *t_now;             /* T at psi */
    double nearby_rate;        /* what factors made at psi_base leave of an error, at psi */
    double *t_basis;           /* [TURNS_MAX][cells], of each vector of the Krylov basis */
    int is_base;               /* psi of the last evaluate is psi_base */
    double *corner;            /* [ny + 1][nx + 1] work: psi on corners */
    double *vorticity, *vorticity2, *corner2;
    double *krylov; /* [GMRES_MAX + 2][node_count]; the last one keeps a state */

    double buoyancy; /* g beta / nu times the ramp */
    double ramp;
    int has_flow;
    int solved;

    PbHeatResult result;
    double *temperature_out, *psi_out, *left_c, *right_c, *left_w, *right_w;
};

/* section_energy.c */
void pb_heat_energy_prepare(PbHeatSection *s);
/* Of air that moves as corner_psi tells; NULL when it is still. @return 0 when it cannot be used.
 */
int pb_heat_energy_factor(PbHeatSection *s, const double *corner_psi);
void pb_heat_energy_solve(PbHeatSection *s, const double *rhs, double *t);
/* out = - (change of the convection term when psi changes by corner_delta) at temperatures t. */
void pb_heat_energy_turn(const PbHeatSection *s, const double *corner_delta, const double *t,
                         double *out);
/* section_flow.c */
void pb_heat_flow_prepare(PbHeatSection *s);
int pb_heat_flow_factor(PbHeatSection *s);
void pb_heat_flow_solve(PbHeatSection *s, const double *rhs, double *psi);
void pb_heat_flow_to_corners(const PbHeatSection *s, const double *psi, double *corner);
/* rhs = buoyancy of temperatures t (relative), by unknown. */
void pb_heat_flow_buoyancy(const PbHeatSection *s, const double *t, double *rhs);
/* Vorticity-like laplacian of psi on corners. */
void pb_heat_flow_laplacian(const PbHeatSection *s, const double *corner, double *zeta);
/* rhs += factor * integral of u . grad zeta with u of corner psi, over open air. */
void pb_heat_flow_inertia(const PbHeatSection *s, const double *corner, const double *zeta,
                          double factor, double *rhs);
/* section_newton.c */
PbStatus pb_heat_newton(PbHeatSection *s);
/* section_result.c */
void pb_heat_collect(PbHeatSection *s);
/* Heat through the left side at the temperatures in s->t. */
double pb_heat_left(const PbHeatSection *s);

static inline void pb_heat_mark(const PbHeatSection *s, PbHeatPhase phase)
{
    if (s->setup.mark != NULL) {
        s->setup.mark(s->setup.mark_user, phase);
    }
}
static inline int pb_heat_cell(const PbHeatSection *s, int i, int j)
{
    return j * s->nx + i;
}
static inline int pb_heat_corner(const PbHeatSection *s, int i, int j)
{
    return j * (s->nx + 1) + i;
}
static inline int pb_heat_unknown(const PbHeatSection *s, int i, int j)
{
    return i * s->cell_i + j * s->cell_j;
}
static inline int pb_heat_node(const PbHeatSection *s, int i, int j)
{
    return (i - s->i0) * s->node_i + (j - s->j0) * s->node_j;
}

#endif
