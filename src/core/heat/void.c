/* Air that turns over without being solved: wide voids, and tall slots whose loop is not steady.
 *
 * In a void of some centimetres the single steady loop is a poor picture (it breaks up above a
 * Rayleigh number of about 6000 to 8000 in tall slots). The heat across it is radiation plus a film
 * by ISO 6946:2017, Annex D (airspaces), or by the mean of ISO 15099; docs/physics/heat.md.
 */
#include "core/heat_air.h"
#include "heat/grid.h"

#include "core/pb_math.h"

#include <math.h>

/* Permeability that lets a loop through gaps close across a void without resistance that counts. */
static const double void_permeability_m2 = 1.6e-6;
/* ISO 6946 takes its figures for level heat flow up to 30 degrees from level. */
static const double level_up = 0.5;
/* Film of level heat flow that the ratios below belong to; the constant scales them all. */
static const double iso_level_w_m2k = 1.25;
/* Where ISO 15099 gives the mean of a tall slot. */
static const double slot_least_aspect = 5.0, slot_most_aspect = 110.0, slot_most_ra = 1e6;

double pb_heat_airspace_convection(double air_k_w_mk, double thick_m, double dt_k, double up,
                                   double level_w_m2k)
{
    double turning;
    dt_k = fabs(dt_k);
    if (up > level_up) {
        turning = dt_k > 5.0 ? 1.14 * pb_pow(dt_k, 1.0 / 3.0) : 1.95;
    } else if (up < -level_up) {
        turning = (dt_k > 5.0 ? 0.09 * pb_pow(dt_k, 0.187) : 0.12) * pb_pow(thick_m, -0.44);
    } else {
        turning = dt_k > 5.0 ? 0.73 * pb_pow(dt_k, 1.0 / 3.0) : iso_level_w_m2k;
    }
    return pb_max(turning * level_w_m2k / iso_level_w_m2k, air_k_w_mk / thick_m);
}

double pb_heat_slot_nusselt(double ra, double aspect)
{
    double turning = ra > 5e4   ? 0.0673838 * pb_pow(ra, 1.0 / 3.0)
                     : ra > 1e4 ? 0.028154 * pb_pow(ra, 0.4134)
                                : 1.0 + 1.7596678e-10 * pb_pow(ra, 2.2984755);
    return pb_max(turning, 0.242 * pb_pow(ra / aspect, 0.272));
}

static int is_open(const double *permeability, int c)
{
    return isinf(permeability[c]);
}

static double temperature_step_k(const PbHeatSetup *p)
{
    const PbHeatSide *left = &p->side[PB_HEAT_LEFT], *right = &p->side[PB_HEAT_RIGHT];
    if (left->kind == PB_HEAT_ADIABATIC || right->kind == PB_HEAT_ADIABATIC) {
        return 0.0; /* heat enters elsewhere: taken as small */
    }
    return left->temperature_c - right->temperature_c;
}

/* Resistance of row j outside cells [from, to), sides included, m2 K/W. */
static double rest_of_row(const PbHeatSetup *p, const double *k, int j, int from, int to)
{
    double sum = 0.0;
    for (int side = PB_HEAT_LEFT; side <= PB_HEAT_RIGHT; side++) {
        sum += p->side[side].kind == PB_HEAT_FILM ? p->side[side].film_m2k_w : 0.0;
    }
    for (int i = 0; i < p->nx; i++) {
        if (i < from || i >= to) {
            sum += (p->x_m[i + 1] - p->x_m[i]) / k[j * p->nx + i];
        }
    }
    return sum;
}

/* Which way heat flows through the faces: 1 straight up, -1 straight down. */
static double heat_up(const PbHeatSetup *p)
{
    return temperature_step_k(p) < 0.0 ? -p->up_x : p->up_x;
}

/* A void: wide, or between solids and moving by the standard. In a narrower gap beside fill a loop
 * may pass on, so its flow is solved. */
static int is_void(const PbHeatSetup *p, const PbHeatVoids *v, const double *k,
                   const double *permeability, int j, int from, int to)
{
    double wide = p->x_m[to] - p->x_m[from];
    if (wide >= PB_HEAT_VOID_WIDTH_M - 1e-9) {
        return 1;
    }
    if (from == 0 || to == p->nx || permeability[j * p->nx + from - 1] > 0.0 ||
        permeability[j * p->nx + to] > 0.0) {
        return 0;
    }
    double still = v->air_k_w_mk / wide, whole = fabs(temperature_step_k(p));
    double dt = whole / (1.0 + rest_of_row(p, k, j, from, to) * (still + v->radiation_w_m2k));
    return pb_heat_airspace_convection(v->air_k_w_mk, wide, dt, heat_up(p), v->convection_w_m2k) >
           still;
}

/* Mark cells of open runs common to rows j0..j1 that are voids. */
static void mark_rows(const PbHeatSetup *p, const PbHeatVoids *v, int j0, int j1, const double *k,
                      const double *permeability, unsigned char *mark)
{
    int nx = p->nx;
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
        if (end > i && is_void(p, v, k, permeability, j0, i, end)) {
            for (int j = j0; j <= j1; j++) {
                for (int q = i; q < end; q++) {
                    mark[j * nx + q] = 1;
                }
            }
        }
        i = end + 1;
    }
}

/* Open air becomes a conductor of (h_r + h_a) L, L the width of its run. The step across it, on
 * which h_a depends, is taken as if the row stood alone; it settles in a few rounds. */
static void conduct_run(const PbHeatSetup *p, const PbHeatVoids *v, int j, int from, int to,
                        double *k)
{
    enum { ROUNDS = 12 };
    double wide = p->x_m[to] - p->x_m[from], whole = fabs(temperature_step_k(p));
    double rest = rest_of_row(p, k, j, from, to), air_k = k[j * p->nx + from], dt = 5.0, h = 0.0;
    for (int n = 0; n < ROUNDS; n++) {
        if (v->slot_height_m > 0.0) {
            double ra = p->gravity_m_s2 * p->expansion_1_k * dt * wide * wide * wide *
                        p->heat_capacity_j_m3k / (p->viscosity_m2_s * air_k);
            h = pb_heat_slot_nusselt(ra, v->slot_height_m / wide) * air_k / wide;
        } else {
            h = pb_heat_airspace_convection(air_k, wide, dt, heat_up(p), v->convection_w_m2k);
        }
        h += v->radiation_w_m2k;
        dt = whole / (1.0 + rest * h);
    }
    for (int q = from; q < to; q++) {
        k[j * p->nx + q] = h * wide;
    }
}

/* Runs of marked cells of a row. */
static void conduct_row(const PbHeatSetup *p, const PbHeatVoids *v, int j,
                        const unsigned char *mark, double passes, double *k, double *permeability)
{
    for (int i = 0; i < p->nx; i++) {
        int start = i;
        while (i < p->nx && mark[j * p->nx + i]) {
            i++;
        }
        if (i > start) {
            conduct_run(p, v, j, start, i, k);
        }
        for (int q = start; q < i; q++) {
            permeability[j * p->nx + q] = passes;
        }
    }
}

/* Permeability of voids: a loop through fill or gaps closes across them. Where there is neither,
 * what turns over is in the film already: a tenth shows which way, and carries next to nothing. */
static double passes_m2(const PbHeatSetup *p, const double *permeability, const unsigned char *mark)
{
    for (int c = 0; c < p->nx * p->ny; c++) {
        if (permeability[c] > 0.0 && !mark[c]) {
            return void_permeability_m2;
        }
    }
    return 0.1 * void_permeability_m2;
}

void pb_heat_wide_voids(const PbHeatSetup *p, const PbHeatVoids *v, double *k, double *permeability,
                        unsigned char *no_radiation)
{
    const double *y = p->y_m;
    for (int c = 0; c < p->nx * p->ny; c++) {
        no_radiation[c] = 0;
    }
    for (int n = 0; n < p->ny; n++) {
        int j0 = n, j1 = n;
        while (j1 < p->ny - 1 && y[j1 + 1] - y[j0] < PB_HEAT_VOID_WIDTH_M) {
            j1++;
        }
        while (j0 > 0 && y[j1 + 1] - y[j0] < PB_HEAT_VOID_WIDTH_M) {
            j0--; /* the last rows under the plate */
        }
        if (y[j1 + 1] - y[j0] >= PB_HEAT_VOID_WIDTH_M) {
            mark_rows(p, v, j0, j1, k, permeability, no_radiation);
        }
    }
    double passes = passes_m2(p, permeability, no_radiation);
    for (int j = 0; j < p->ny; j++) {
        conduct_row(p, v, j, no_radiation, passes, k, permeability);
    }
}

/* Least height over width of the open runs, and the largest Rayleigh number they could have. */
static int are_tall_slots(const PbHeatSetup *p, const double *k, const double *permeability,
                          double *height_m)
{
    *height_m = 0.0;
    for (int j = 0; j < p->ny; j++) {
        int is_air = 0;
        for (int i = 0; i < p->nx;) {
            int start = i;
            while (i < p->nx && is_open(permeability, j * p->nx + i)) {
                i++;
            }
            if (i == start) {
                i++;
                continue;
            }
            int c = j * p->nx + start;
            double wide = p->x_m[i] - p->x_m[start];
            double ra = p->gravity_m_s2 * p->expansion_1_k * fabs(temperature_step_k(p)) * wide *
                        wide * wide * p->heat_capacity_j_m3k / (p->viscosity_m2_s * k[c]);
            double tall = (p->y_m[p->ny] - p->y_m[0]) / wide;
            if (ra > slot_most_ra || tall < slot_least_aspect || tall > slot_most_aspect) {
                return 0;
            }
            is_air = 1;
        }
        if (!is_air) {
            return 0;
        }
    }
    *height_m = p->y_m[p->ny] - p->y_m[0];
    return 1;
}

int pb_heat_mean_slots(const PbHeatSetup *p, double *k, double *permeability,
                       unsigned char *no_radiation)
{
    PbHeatVoids v = {.radiation_w_m2k = p->radiation_w_m2k};
    if (p->up_y < 0.9999 || temperature_step_k(p) == 0.0 ||
        !are_tall_slots(p, k, permeability, &v.slot_height_m)) {
        return 0;
    }
    for (int c = 0; c < p->nx * p->ny; c++) {
        no_radiation[c] = (unsigned char)is_open(permeability, c);
    }
    for (int j = 0; j < p->ny; j++) {
        conduct_row(p, &v, j, no_radiation, 0.0, k, permeability);
    }
    return 1;
}
