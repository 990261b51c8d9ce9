/* Helpers of the heat checks; verify_cavity.c and verify_wall.c. */
#ifndef HEAT_VERIFY_H
#define HEAT_VERIFY_H

#include "core/heat_case.h"
#include "core/verify.h"

/* What a check needs of a solved case; NAN when it was not solved, so that the row fails. */
typedef struct PbHeatFigures {
    double heat_w_m[PB_HEAT_SIDES];
    double nu, nu_max, nu_min, u_mid, v_mid, psi_mid, psi_max, balance;
    double left_min_c;
    int iterations;
} PbHeatFigures;

PbHeatFigures pb_heat_figures(PbHeatCase *c, int nx, int ny);
void pb_heat_add_region(PbHeatCase *c, double x0, double x1, double y0, double y1,
                        PbHeatMaterialKind kind, double k);
/* Case and its probes live on the heap of the caller: they are large. */
void pb_verify_heat_cavities(const PbVerifySink *sink, PbHeatCase *c);
void pb_verify_heat_walls(const PbVerifySink *sink, PbHeatCase *c);

#endif
