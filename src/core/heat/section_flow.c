/* Flow of a section: which corners are free, the stream-function matrix, buoyancy and inertia.
 *
 * The matrix is the second derivative of the dissipation
 *     sum over corners  W zeta^2  +  sum over edges  (1/K) |grad psi|^2,
 * so it is symmetric and positive definite by construction. zeta, the laplacian of psi at a corner,
 * is the jump of the gradient over the width in which it is smeared: the two half cells in one
 * medium; at the edge of open air against fill the half cell on the air side and sqrt(K) on the
 * other, because in fill the velocity settles within sqrt(K); at a wall the half cell alone (the
 * rule of Thom). Without this the gap flow comes out a third too strong on affordable grids.
 */
#include "heat/section.h"

#include "core/pb_math.h"

#include <math.h>
#include <string.h>

/* Fills within this ratio of permeability count as one medium. */
static const double one_medium_ratio = 10.0;
/* A solid that floats in air keeps psi constant inside by being almost, not quite, tight. */
static const double floating_solid_m2 = 1e-13;

static double permeability_at(const PbHeatSection *s, int i, int j)
{
    if (i < 0 || j < 0 || i >= s->nx || j >= s->ny) {
        return 0.0;
    }
    return s->permeability[pb_heat_cell(s, i, j)];
}

/* Solids that hang together with the outline hold psi at 0 and drop out; the others become very
 * tight fill. `mark` is work, [ny][nx]; sweeps repeat until nothing changes. */
static void tell_floating_solids(PbHeatSection *s, unsigned char *mark)
{
    int nx = s->nx, ny = s->ny, changed = 1, way = 0;
    memset(mark, 0, (size_t)(nx * ny));
    while (changed) {
        changed = 0;
        for (int n = 0; n < nx * ny; n++) {
            int c = way ? nx * ny - 1 - n : n;
            int i = c % nx, j = c / nx;
            if (mark[c] || s->permeability[c] > 0.0) {
                continue;
            }
            int found = i == 0 || j == 0 || i == nx - 1 || j == ny - 1;
            for (int q = 0; q < 9 && !found; q++) {
                found = mark[c + (q / 3 - 1) * nx + q % 3 - 1];
            }
            mark[c] = (unsigned char)found;
            changed |= found;
        }
        way = !way;
    }
    for (int c = 0; c < nx * ny; c++) {
        if (!(s->permeability[c] > 0.0) && !mark[c]) {
            s->permeability[c] = floating_solid_m2;
        }
    }
}

static void find_free(PbHeatSection *s)
{
    s->i0 = s->nx;
    s->j0 = s->ny;
    s->i1 = s->j1 = -1;
    memset(s->is_free, 0, (size_t)(s->nx + 1) * (size_t)(s->ny + 1));
    for (int j = 1; j < s->ny; j++) {
        for (int i = 1; i < s->nx; i++) {
            if (permeability_at(s, i - 1, j - 1) > 0.0 && permeability_at(s, i, j - 1) > 0.0 &&
                permeability_at(s, i - 1, j) > 0.0 && permeability_at(s, i, j) > 0.0) {
                s->is_free[pb_heat_corner(s, i, j)] = 1;
                s->i0 = i < s->i0 ? i : s->i0;
                s->i1 = i > s->i1 ? i : s->i1;
                s->j0 = j < s->j0 ? j : s->j0;
                s->j1 = j > s->j1 ? j : s->j1;
            }
        }
    }
}

/* Width of the run of open air that holds cell (i, j), along x or y. */
static double run_width(const PbHeatSection *s, int i, int j, int along_x)
{
    double width = 0.0;
    for (int way = -1; way <= 1; way += 2) {
        int a = i, b = j;
        while (isinf(permeability_at(s, a, b))) {
            width += along_x ? s->dx[a] : s->dy[b];
            a += along_x ? way : 0;
            b += along_x ? 0 : way;
        }
    }
    return width - (along_x ? s->dx[i] : s->dy[j]);
}

/* How far the edge of cell (i, j) smears a jump of velocity: in air the half cell, less h/3 of its
 * share of the gap, which makes the flow through a slot exact on any number of even cells; in fill
 * sqrt(K) when that is thinner than half the cell; in a wall nothing. */
static double reach(const PbHeatSection *s, int i, int j, int along_x)
{
    double permeability = permeability_at(s, i, j);
    if (!(permeability > 0.0)) {
        return 0.0;
    }
    double width = along_x ? s->dx[i] : s->dy[j];
    if (isinf(permeability)) {
        return width * (0.5 - width / (3.0 * run_width(s, i, j, along_x)));
    }
    return pb_min(0.5 * width, sqrt(permeability));
}

static int is_one_medium(double a, double b)
{
    if (a == b) {
        return 1;
    }
    return !isinf(a) && !isinf(b) && a > 0.0 && b > 0.0 && a < one_medium_ratio * b &&
           b < one_medium_ratio * a;
}

static double cell_width(const double *width, int count, int i)
{
    return i >= 0 && i < count ? width[i] : 0.0;
}

/* Width in which the velocity jumps at corner (i, j), across the upright (along_x) or level line.
 */
static double smear(const PbHeatSection *s, int i, int j, int along_x)
{
    double bl = permeability_at(s, i - 1, j - 1), br = permeability_at(s, i, j - 1);
    double tl = permeability_at(s, i - 1, j), tr = permeability_at(s, i, j);
    if (along_x) {
        if (is_one_medium(bl, br) && is_one_medium(tl, tr)) {
            return 0.5 * (cell_width(s->dx, s->nx, i - 1) + cell_width(s->dx, s->nx, i));
        }
        return pb_max(reach(s, i - 1, j - 1, 1), reach(s, i - 1, j, 1)) +
               pb_max(reach(s, i, j - 1, 1), reach(s, i, j, 1));
    }
    if (is_one_medium(bl, tl) && is_one_medium(br, tr)) {
        return 0.5 * (cell_width(s->dy, s->ny, j - 1) + cell_width(s->dy, s->ny, j));
    }
    return pb_max(reach(s, i - 1, j - 1, 0), reach(s, i, j - 1, 0)) +
           pb_max(reach(s, i - 1, j, 0), reach(s, i, j, 0));
}

static void set_smear(PbHeatSection *s)
{
    for (int j = 0; j <= s->ny; j++) {
        for (int i = 0; i <= s->nx; i++) {
            int n = pb_heat_corner(s, i, j);
            int passes = permeability_at(s, i - 1, j - 1) > 0.0 ||
                         permeability_at(s, i, j - 1) > 0.0 || permeability_at(s, i - 1, j) > 0.0 ||
                         permeability_at(s, i, j) > 0.0;
            s->wx[n] = passes ? smear(s, i, j, 1) : 0.0;
            s->wy[n] = passes ? smear(s, i, j, 0) : 0.0;
        }
    }
}

void pb_heat_flow_prepare(PbHeatSection *s)
{
    tell_floating_solids(s, s->is_free); /* is_free is larger and still unused */
    find_free(s);
    set_smear(s);
    s->stream_ready = 0;
}

/* Weights of zeta at corner (i, j) on centre, west, east, south, north. @return 0 when none. */
static int zeta_weights(const PbHeatSection *s, int i, int j, double w[5])
{
    int n = pb_heat_corner(s, i, j);
    if (!(s->wx[n] > 0.0) || !(s->wy[n] > 0.0)) {
        return 0;
    }
    w[1] = i > 0 ? 1.0 / (s->dx[i - 1] * s->wx[n]) : 0.0;
    w[2] = i < s->nx ? 1.0 / (s->dx[i] * s->wx[n]) : 0.0;
    w[3] = j > 0 ? 1.0 / (s->dy[j - 1] * s->wy[n]) : 0.0;
    w[4] = j < s->ny ? 1.0 / (s->dy[j] * s->wy[n]) : 0.0;
    w[0] = -((w[1] + w[2]) + (w[3] + w[4]));
    return 1;
}

/* Unknown of a corner, -1 when it is held. */
static int unknown_of(const PbHeatSection *s, int i, int j)
{
    if (i < 0 || j < 0 || i > s->nx || j > s->ny || !s->is_free[pb_heat_corner(s, i, j)]) {
        return -1;
    }
    return pb_heat_node(s, i, j);
}

static void add_viscous(PbHeatSection *s)
{
    static const int step_i[5] = {0, -1, 1, 0, 0}, step_j[5] = {0, 0, 0, -1, 1};
    for (int j = s->j0 - 1; j <= s->j1 + 1; j++) {
        for (int i = s->i0 - 1; i <= s->i1 + 1; i++) {
            double w[5];
            int u[5];
            if (!zeta_weights(s, i, j, w)) {
                continue;
            }
            int n = pb_heat_corner(s, i, j);
            double area = s->wx[n] * s->wy[n];
            for (int a = 0; a < 5; a++) {
                u[a] = unknown_of(s, i + step_i[a], j + step_j[a]);
            }
            for (int a = 0; a < 5; a++) {
                if (u[a] < 0) {
                    continue;
                }
                double wa = w[a] * area;
                double *row = pb_band_at(&s->stream, u[a], 0);
                for (int b = 0; b < 5; b++) {
                    if (u[b] >= u[a]) {
                        row[u[b]] += wa * w[b];
                    }
                }
            }
        }
    }
}

static void add_edge(PbHeatSection *s, int a, int b, double weight)
{
    if (a >= 0) {
        *pb_band_at(&s->stream, a, a) += weight;
    }
    if (b >= 0) {
        *pb_band_at(&s->stream, b, b) += weight;
    }
    if (a >= 0 && b >= 0) {
        *pb_band_at(&s->stream, a < b ? a : b, a < b ? b : a) -= weight;
    }
}

static double resistance(double permeability)
{
    return permeability > 0.0 && !isinf(permeability) ? 1.0 / permeability : 0.0;
}

/* (1/K) of an edge: the mean of the two cells beside it, weighted by their half widths. */
static void add_darcy(PbHeatSection *s)
{
    for (int j = s->j0 - 1; j <= s->j1; j++) {
        for (int i = s->i0 - 1; i <= s->i1; i++) {
            int here = unknown_of(s, i, j);
            double r = resistance(permeability_at(s, i, j));
            double below = resistance(permeability_at(s, i, j - 1));
            double left = resistance(permeability_at(s, i - 1, j));
            double across = 0.5 * s->dy[j] * r + (j > 0 ? 0.5 * s->dy[j - 1] * below : 0.0);
            double along = 0.5 * s->dx[i] * r + (i > 0 ? 0.5 * s->dx[i - 1] * left : 0.0);
            add_edge(s, here, unknown_of(s, i + 1, j), across / s->dx[i]);
            add_edge(s, here, unknown_of(s, i, j + 1), along / s->dy[j]);
        }
    }
}

void pb_heat_flow_solve(PbHeatSection *s, const double *rhs, double *psi)
{
    pb_heat_mark(s, PB_HEAT_PHASE_SOLVE);
    s->kernels->solve(&s->stream, rhs, psi);
    pb_heat_mark(s, PB_HEAT_PHASE_OTHER);
}

int pb_heat_flow_factor(PbHeatSection *s)
{
    pb_heat_mark(s, PB_HEAT_PHASE_ASSEMBLE);
    pb_band_clear(&s->stream);
    if (s->setup.flow == PB_HEAT_FLOW_VISCOUS) {
        add_viscous(s);
    }
    add_darcy(s);
    for (int j = s->j0; j <= s->j1; j++) {
        for (int i = s->i0; i <= s->i1; i++) {
            if (!s->is_free[pb_heat_corner(s, i, j)]) {
                int u = pb_heat_node(s, i, j);
                *pb_band_at(&s->stream, u, u) = 1.0;
            }
        }
    }
    pb_heat_mark(s, PB_HEAT_PHASE_FACTOR);
    s->stream_ready = s->kernels->factor(&s->stream);
    pb_heat_mark(s, PB_HEAT_PHASE_OTHER);
    return s->stream_ready;
}

void pb_heat_flow_to_corners(const PbHeatSection *s, const double *psi, double *corner)
{
    memset(corner, 0, (size_t)(s->nx + 1) * (size_t)(s->ny + 1) * sizeof(double));
    for (int j = s->j0; j <= s->j1; j++) {
        for (int i = s->i0; i <= s->i1; i++) {
            corner[pb_heat_corner(s, i, j)] = psi[pb_heat_node(s, i, j)];
        }
    }
}

void pb_heat_flow_buoyancy(const PbHeatSection *s, const double *t, double *rhs)
{
    int si = s->cell_i, sj = s->cell_j;
    double along = s->buoyancy * s->setup.up_y, across = s->buoyancy * s->setup.up_x;
    for (int j = s->j0; j <= s->j1; j++) {
        for (int i = s->i0; i <= s->i1; i++) {
            double value = 0.0;
            if (s->is_free[pb_heat_corner(s, i, j)]) {
                const double *at = t + pb_heat_unknown(s, i, j);
                double upper = at[0] - at[-si], lower = at[-sj] - at[-sj - si];
                double right = at[0] - at[-sj], left = at[-si] - at[-sj - si];
                value = along * (0.5 * (s->dy[j] * upper + s->dy[j - 1] * lower)) -
                        across * (0.5 * (s->dx[i] * right + s->dx[i - 1] * left));
            }
            rhs[pb_heat_node(s, i, j)] = value;
        }
    }
}

void pb_heat_flow_laplacian(const PbHeatSection *s, const double *corner, double *zeta)
{
    int up = s->nx + 1;
    for (int j = 0; j <= s->ny; j++) {
        for (int i = 0; i <= s->nx; i++) {
            double w[5];
            int n = pb_heat_corner(s, i, j);
            zeta[n] = 0.0;
            if (zeta_weights(s, i, j, w)) {
                zeta[n] = w[0] * corner[n] + (i > 0 ? w[1] * corner[n - 1] : 0.0) +
                          (i < s->nx ? w[2] * corner[n + 1] : 0.0) +
                          (j > 0 ? w[3] * corner[n - up] : 0.0) +
                          (j < s->ny ? w[4] * corner[n + up] : 0.0);
            }
        }
    }
}

/* Integral of dp/dx dz/dy - dp/dy dz/dx over the dual cell of a corner; no metric enters.
 * Arakawa, J. Comput. Phys. 1 (1966) 119: keeps energy and the square of the vorticity. */
static double arakawa(const double *p, const double *z, int up)
{
    double pp = (p[1] - p[-1]) * (z[up] - z[-up]) - (p[up] - p[-up]) * (z[1] - z[-1]);
    double px = p[1] * (z[up + 1] - z[1 - up]) - p[-1] * (z[up - 1] - z[-up - 1]) -
                p[up] * (z[up + 1] - z[up - 1]) + p[-up] * (z[1 - up] - z[-up - 1]);
    double xp = p[up + 1] * (z[up] - z[1]) - p[-up - 1] * (z[-1] - z[-up]) -
                p[up - 1] * (z[up] - z[-1]) + p[1 - up] * (z[1] - z[-up]);
    return ((pp + px) + xp) / 12.0;
}

void pb_heat_flow_inertia(const PbHeatSection *s, const double *corner, const double *zeta,
                          double factor, double *rhs)
{
    for (int j = s->j0; j <= s->j1; j++) {
        for (int i = s->i0; i <= s->i1; i++) {
            if (isinf(permeability_at(s, i, j)) && isinf(permeability_at(s, i - 1, j)) &&
                isinf(permeability_at(s, i, j - 1)) && isinf(permeability_at(s, i - 1, j - 1))) {
                int n = pb_heat_corner(s, i, j);
                rhs[pb_heat_node(s, i, j)] -= factor * arakawa(corner + n, zeta + n, s->nx + 1);
            }
        }
    }
}
