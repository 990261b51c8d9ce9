/* Wide voids: their own flow is not solved but stands in the conductivity.
 *
 * In a void of some centimetres the single steady loop is a poor picture (it breaks up above a
 * Rayleigh number of about 6000 to 8000 in tall slots). The heat across it is radiation plus a film
 * h_a, fitted to converged flow solutions; docs/physics/heat.md gives the fit and its error.
 */
#include "heat/grid.h"

#include <math.h>

/* Permeability that lets a loop through gaps close across a void without resistance that counts. */
static const double void_permeability_m2 = 2e-6;

static int is_open(const double *permeability, int c)
{
    return isinf(permeability[c]);
}

/* Mark cells of open runs at least PB_HEAT_VOID_WIDTH_M wide that are common to rows j0..j1. */
static void mark_rows(int nx, const double *x, int j0, int j1, const double *permeability,
                      unsigned char *mark)
{
    for (int i = 0; i < nx;) {
        int end = i;
        for (; end < nx; end++) {
            int open = 1;
            for (int j = j0; j <= j1 && open; j++) {
                open = is_open(permeability, j * nx + end);
            }
            if (!open) {
                break;
            }
        }
        if (x[end] - x[i] >= PB_HEAT_VOID_WIDTH_M) {
            for (int j = j0; j <= j1; j++) {
                for (int q = i; q < end; q++) {
                    mark[j * nx + q] = 1;
                }
            }
        }
        i = end + 1;
    }
}

void pb_heat_wide_voids(int nx, int ny, const double *x_m, const double *y_m,
                        double radiation_w_m2k, double convection_w_m2k, double *k,
                        double *permeability, unsigned char *no_radiation)
{
    for (int c = 0; c < nx * ny; c++) {
        no_radiation[c] = 0;
    }
    for (int j0 = 0; j0 < ny; j0++) {
        int j1 = j0;
        while (j1 < ny - 1 && y_m[j1 + 1] - y_m[j0] < PB_HEAT_VOID_WIDTH_M) {
            j1++;
        }
        if (y_m[j1 + 1] - y_m[j0] >= PB_HEAT_VOID_WIDTH_M) {
            mark_rows(nx, x_m, j0, j1, permeability, no_radiation);
        }
    }
    for (int j = 0; j < ny; j++) {
        for (int i = 0; i < nx; i++) {
            int start = i;
            while (i < nx && no_radiation[j * nx + i]) {
                i++;
            }
            for (int q = start; q < i; q++) {
                k[j * nx + q] = (radiation_w_m2k + convection_w_m2k) * (x_m[i] - x_m[start]);
                permeability[j * nx + q] = void_permeability_m2;
            }
        }
    }
}
