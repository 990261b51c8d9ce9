/* Checks of the heat solver on classical cavities: open air, porous, tall, slots, order. */
#include "core/pb_math.h"
#include "lab/verify.h"
#include "lab/verify_heat.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const VerifySource davis = {
    VERIFY_CALCULATED, "de Vahl Davis, Int. J. Numer. Meth. Fluids 3 (1983) 249, Table IV "
                       "(from memory)"};
static const VerifySource later = {VERIFY_CALCULATED,
                                   "later accurate solutions: 1.1178, 2.2448, 4.5216, 8.825 (from "
                                   "memory; a separate code extrapolates to the same four digits)"};
static const VerifySource porous = {
    VERIFY_OWN_CODE, "separate solution extrapolated from 80x80 and 120x120; literature "
                     "spread 8 % (Walker and Homsy 1978, Manole and Lage 1992 and "
                     "others, from memory)"};
static const VerifySource brinkman = {
    VERIFY_OWN_CODE, "separate 80x80 solution; agrees with the table of Lauriat and "
                     "Prasad (J. Heat Transfer 109 (1987) 688, from memory) to 0.7 %"};
static const VerifySource tall = {VERIFY_OWN_CODE, "separate 32x256 solution, steady single cell"};

VerifyHeatFigures verify_heat_figures(PbHeatCase *c, int nx, int ny)
{
    VerifyHeatFigures f = {{(double)NAN, (double)NAN, (double)NAN, (double)NAN},
                           (double)NAN,
                           (double)NAN,
                           (double)NAN,
                           (double)NAN,
                           (double)NAN,
                           (double)NAN,
                           (double)NAN,
                           (double)NAN,
                           (double)NAN,
                           0};
    PbAllocator allocator = pb_allocator_default();
    PbHeatSection *s;
    c->nx = nx;
    c->ny = ny;
    if (pb_heat_case_solve(c, &allocator, &s, NULL) != PB_OK) {
        return f;
    }
    const PbHeatResult *r = pb_heat_section_result(s);
    PbHeatNusselt nu = pb_heat_case_nusselt(c, r);
    memcpy(f.heat_w_m, r->heat_w_m, sizeof f.heat_w_m);
    f.nu = nu.mean;
    f.nu_max = nu.highest;
    f.nu_min = nu.lowest;
    f.u_mid = r->u_mid_max_m_s;
    f.v_mid = r->v_mid_max_m_s;
    f.psi_mid = r->psi_mid_m2_s;
    f.psi_max = r->psi_max_m2_s;
    f.balance = r->balance;
    f.iterations = r->iterations;
    f.left_min_c = HUGE_VAL;
    for (int j = 0; j < r->ny; j++) {
        f.left_min_c = pb_min(f.left_min_c, r->left_c[j]);
    }
    pb_heat_section_destroy(s);
    return f;
}

static VerifyHeatFigures cavity(PbHeatCase *c, PbHeatKind kind, double ra, double da, double aspect,
                                int nx, int ny)
{
    *c = pb_heat_case_default();
    pb_heat_case_dimensionless(c, kind, ra, 0.71, da, aspect);
    return verify_heat_figures(c, nx, ny);
}

static void air_cavities(const VerifySink *sink, PbHeatCase *c)
{
    static const double ra[4] = {1e3, 1e4, 1e5, 1e6};
    static const double nu[4] = {1.1178, 2.2448, 4.5216, 8.825};
    static const double nu_max[4] = {1.505, 3.528, 7.717, 17.925};
    static const double nu_min[4] = {0.692, 0.586, 0.729, 0.989};
    static const double u[4] = {3.649, 16.178, 34.73, 64.63};
    static const double v[4] = {3.697, 19.617, 68.59, 219.36};
    static const double psi[4] = {1.174, 5.071, 9.111, 16.32};
    for (int n = 0; n < 4; n++) {
        VerifyHeatFigures f = cavity(c, PB_HEAT_KIND_AIR, ra[n], 0.0, 1.0, 80, 80);
        char id[64], what[96];
        snprintf(what, sizeof what, "square air cavity, Pr 0.71, Ra %g, 80x80", ra[n]);
        snprintf(id, sizeof id, "heat.air.ra1e%d.nu", n + 3);
        verify_rel(sink, id, what, "-", later, nu[n], f.nu, 0.005);
        snprintf(id, sizeof id, "heat.air.ra1e%d.nu_max", n + 3); /* paper gives 1 % at Ra 1e6 */
        verify_rel(sink, id, what, "-", davis, nu_max[n], f.nu_max, n < 3 ? 0.01 : 0.025);
        snprintf(id, sizeof id, "heat.air.ra1e%d.nu_min", n + 3);
        verify_rel(sink, id, what, "-", davis, nu_min[n], f.nu_min, 0.015);
        snprintf(id, sizeof id, "heat.air.ra1e%d.u_mid", n + 3);
        verify_rel(sink, id, what, "alpha/L", davis, u[n], f.u_mid, 0.01);
        snprintf(id, sizeof id, "heat.air.ra1e%d.v_mid", n + 3);
        verify_rel(sink, id, what, "alpha/L", davis, v[n], f.v_mid, 0.01);
        snprintf(id, sizeof id, "heat.air.ra1e%d.psi_mid", n + 3);
        verify_rel(sink, id, what, "alpha", davis, psi[n], f.psi_mid, 0.01);
        snprintf(id, sizeof id, "heat.air.ra1e%d.balance", n + 3);
        verify_abs(sink, id, "heat in less heat out over heat", "-",
                   VERIFY_SOURCE(EXACT, "energy is conserved"), 0.0, f.balance, 1e-6);
    }
    VerifyHeatFigures f = cavity(c, PB_HEAT_KIND_AIR, 1e5, 0.0, 1.0, 24, 24);
    verify_rel(sink, "heat.air.ra1e5.coarse", "square air cavity, Ra 1e5, only 24x24", "-", later,
               4.5216, f.nu, 0.005);
}

static void porous_cavities(const VerifySink *sink, PbHeatCase *c)
{
    static const double ra[5] = {10, 50, 100, 500, 1000};
    static const double nu[5] = {1.0790, 1.9842, 3.1115, 8.9865, 13.641};
    static const double da[6] = {1e-1, 1e-2, 1e-3, 1e-4, 1e-5, 1e-6};
    static const double viscous[6][3] = {{0.0, 1.0897, 2.1926}, {1.0195, 1.7085, 4.2651},
                                         {0.0, 2.4238, 7.2116}, {1.0702, 2.854, 10.271},
                                         {0.0, 3.0303, 12.366}, {1.0784, 3.0924, 13.332}};
    char id[64], what[96];
    for (int n = 0; n < 5; n++) {
        VerifyHeatFigures f = cavity(c, PB_HEAT_KIND_DARCY, ra[n], 0.0, 1.0, 80, 80);
        snprintf(id, sizeof id, "heat.darcy.ra%g.nu", ra[n]);
        snprintf(what, sizeof what, "porous square cavity, Darcy, Ra* %g, 80x80", ra[n]);
        verify_rel(sink, id, what, "-", porous, nu[n], f.nu, 0.005);
    }
    for (int d = 0; d < 6; d++) {
        for (int n = 0; n < 3; n++) {
            if (!(viscous[d][n] > 0.0)) {
                continue;
            }
            VerifyHeatFigures f = cavity(c, PB_HEAT_KIND_BRINKMAN, ra[2 * n], da[d], 1.0, 80, 80);
            snprintf(id, sizeof id, "heat.brinkman.da%g.ra%g.nu", da[d], ra[2 * n]);
            snprintf(what, sizeof what, "porous square cavity, Da %g, Ra* %g, 80x80", da[d],
                     ra[2 * n]);
            verify_rel(sink, id, what, "-", brinkman, viscous[d][n], f.nu, 0.01);
        }
    }
}

static void tall_cavities(const VerifySink *sink, PbHeatCase *c)
{
    static const double aspect[7] = {5, 5, 5, 5, 20, 20, 20};
    static const double ra[7] = {1e3, 5e3, 1e4, 2e4, 1e3, 3e3, 5e3};
    static const double nu[7] = {1.0906, 1.6339, 2.013, 2.452, 1.0227, 1.104, 1.1867};
    char id[64], what[96];
    for (int n = 0; n < 7; n++) {
        VerifyHeatFigures f = cavity(c, PB_HEAT_KIND_AIR, ra[n], 0.0, aspect[n], 32, 128);
        snprintf(id, sizeof id, "heat.tall.a%g.ra%g.nu", aspect[n], ra[n]);
        snprintf(what, sizeof what, "tall air cavity, height/width %g, Ra %g", aspect[n], ra[n]);
        verify_rel(sink, id, what, "-", tall, nu[n], f.nu, 0.01);
    }
    VerifyHeatFigures f = cavity(c, PB_HEAT_KIND_AIR, 1000.0, 0.0, 40.0, 40, 160);
    verify_rel(sink, "heat.slot.velocity", "largest speed in a tall slot, Ra 1000, aspect 40",
               "alpha/b", VERIFY_SOURCE(EXACT, "Ra/(72 sqrt 3), conduction regime"),
               1000.0 / (72.0 * sqrt(3.0)), f.v_mid, 0.005);
}

static double sinh_of(double x)
{
    return 0.5 * (pb_exp(x) - pb_exp(-x));
}

/* Buoyant slot of fill between walls: v = Ra* (s - sinh(s/q)/(2 sinh(1/(2q)))), q = sqrt(Da). */
static void porous_slot(const VerifySink *sink, PbHeatCase *c)
{
    double da = 1e-2, ra = 1.0, q = sqrt(da), best = 0.0;
    for (int n = 0; n <= 1000; n++) {
        double s = 0.5 * n / 1000.0;
        double v = ra * (s - sinh_of(s / q) / (2.0 * sinh_of(0.5 / q)));
        best = pb_max(best, v);
    }
    VerifyHeatFigures f = cavity(c, PB_HEAT_KIND_BRINKMAN, ra, da, 20.0, 48, 128);
    verify_rel(sink, "heat.slot.brinkman", "largest speed in a slot of fill, Da 0.01", "alpha/b",
               VERIFY_SOURCE(EXACT, "v = Ra* (s - sinh(s/sqrt Da)/(2 sinh(1/(2 sqrt Da))))"), best,
               f.v_mid, 0.01);
}

/* Order from three grids, each twice as fine as the one before. */
static double order_of(PbHeatCase *c, PbHeatKind kind, double ra, double da)
{
    double nu[3];
    for (int n = 0; n < 3; n++) {
        nu[n] = cavity(c, kind, ra, da, 1.0, 20 << n, 20 << n).nu;
    }
    return pb_log(fabs((nu[0] - nu[1]) / (nu[1] - nu[2]))) / pb_log(2.0);
}

static void orders(const VerifySink *sink, PbHeatCase *c)
{
    verify_within(sink, "heat.order.air", "order of convergence, air Ra 1e4, 20/40/80", "-",
                  VERIFY_SOURCE(TARGET, "second order"), 1.7, 2.4,
                  order_of(c, PB_HEAT_KIND_AIR, 1e4, 0.0));
    verify_within(sink, "heat.order.darcy", "order of convergence, Darcy Ra* 100, 20/40/80", "-",
                  VERIFY_SOURCE(TARGET, "second order"), 1.7, 2.4,
                  order_of(c, PB_HEAT_KIND_DARCY, 100.0, 0.0));
    verify_within(sink, "heat.order.brinkman", "order of convergence, Da 0.01 Ra* 100", "-",
                  VERIFY_SOURCE(TARGET, "second order"), 1.7, 2.4,
                  order_of(c, PB_HEAT_KIND_BRINKMAN, 100.0, 1e-2));
}

void verify_heat_cavities(const VerifySink *sink, PbHeatCase *c)
{
    air_cavities(sink, c);
    porous_cavities(sink, c);
    tall_cavities(sink, c);
    porous_slot(sink, c);
    orders(sink, c);
}

void verify_heat(const VerifySink *sink)
{
    PbAllocator allocator = pb_allocator_default();
    PbHeatCase *c = allocator.alloc(allocator.user, sizeof *c);
    if (c == NULL) {
        verify_abs(sink, "heat.memory", "room for the checks", "-",
                   VERIFY_SOURCE(TARGET, "memory for it"), 1.0, (double)NAN, 0.0);
        return;
    }
    verify_heat_cavities(sink, c);
    verify_heat_walls(sink, c);
    allocator.free(allocator.user, c);
}
