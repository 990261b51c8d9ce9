/* Helpers of the heat checks; verify_cavity.c and verify_wall.c. */
#ifndef LAB_VERIFY_HEAT_H
#define LAB_VERIFY_HEAT_H

#include "core/heat_case.h"
#include "lab/verify.h"

/* What a check needs of a solved case; NAN when it was not solved, so that the row fails. */
typedef struct VerifyHeatFigures {
    double heat_w_m[PB_HEAT_SIDES];
    double nu, nu_max, nu_min, u_mid, v_mid, psi_mid, psi_max, balance;
    double left_min_c;
    int iterations;
} VerifyHeatFigures;

VerifyHeatFigures verify_heat_figures(PbHeatCase *c, int nx, int ny);
void verify_heat_region(PbHeatCase *c, double x0, double x1, double y0, double y1,
                        PbHeatMaterialKind kind, double k);
/* Case and its probes live on the heap of the caller: they are large. */
void verify_heat_cavities(const VerifySink *sink, PbHeatCase *c);
void verify_heat_walls(const VerifySink *sink, PbHeatCase *c);

#endif
