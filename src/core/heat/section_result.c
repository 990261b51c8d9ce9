/* Figures of a solved section: heat through the sides, largest speeds, surface temperatures.
 * Everything is read off the solved fields; nothing here changes them.
 */
#include "heat/section.h"

#include "core/pb_math.h"

#include <math.h>
#include <string.h>

/* Air that goes round slower than this share of the diffusivity carries no heat worth naming. */
static const double moving_share = 1e-6;

static double side_heat(const PbHeatSection *s, int side, int n)
{
    int nx = s->nx, ny = s->ny;
    double wanted = s->setup.side[side].temperature_c - s->reference_c;
    if (s->setup.side[side].kind == PB_HEAT_ADIABATIC) {
        return 0.0;
    }
    switch (side) {
    case PB_HEAT_LEFT:
        return s->gx[n * (nx + 1)] * (wanted - s->t[pb_heat_unknown(s, 0, n)]);
    case PB_HEAT_RIGHT:
        return s->gx[n * (nx + 1) + nx] * (wanted - s->t[pb_heat_unknown(s, nx - 1, n)]);
    case PB_HEAT_BOTTOM:
        return s->gy[n] * (wanted - s->t[pb_heat_unknown(s, n, 0)]);
    default:
        return s->gy[ny * nx + n] * (wanted - s->t[pb_heat_unknown(s, n, ny - 1)]);
    }
}

/* Surface temperature of an end of row j (or column, for `upright` 0). */
static double surface(const PbHeatSection *s, int side, int n)
{
    const PbHeatSide *b = &s->setup.side[side];
    int nx = s->nx, ny = s->ny;
    int i = side == PB_HEAT_LEFT ? 0 : side == PB_HEAT_RIGHT ? nx - 1 : n;
    int j = side == PB_HEAT_BOTTOM ? 0 : side == PB_HEAT_TOP ? ny - 1 : n;
    double cell = s->t[pb_heat_unknown(s, i, j)] + s->reference_c;
    if (b->kind == PB_HEAT_ADIABATIC) {
        return cell;
    }
    if (b->kind == PB_HEAT_FIXED) {
        return b->temperature_c;
    }
    int upright = side == PB_HEAT_LEFT || side == PB_HEAT_RIGHT;
    double length = upright ? s->dy[n] : s->dx[n];
    return b->temperature_c - side_heat(s, side, n) / length * b->film_m2k_w;
}

double pb_heat_left(const PbHeatSection *s)
{
    double total = 0.0;
    for (int j = 0; j < s->ny; j++) {
        total += side_heat(s, PB_HEAT_LEFT, j);
    }
    return total;
}

static void collect_sides(PbHeatSection *s)
{
    PbHeatResult *r = &s->result;
    double sum = 0.0, big = 0.0;
    for (int side = 0; side < PB_HEAT_SIDES; side++) {
        int upright = side == PB_HEAT_LEFT || side == PB_HEAT_RIGHT;
        double total = 0.0;
        for (int n = 0; n < (upright ? s->ny : s->nx); n++) {
            total += side_heat(s, side, n);
        }
        r->heat_w_m[side] = total;
        sum += total;
        big = pb_max(big, fabs(total));
    }
    /* Judged by the sum: pb_max drops a NaN, a sum keeps it and must not pass as balanced. */
    r->balance = sum == 0.0 ? 0.0 : fabs(sum) / big;
    for (int j = 0; j < s->ny; j++) {
        s->left_c[j] = surface(s, PB_HEAT_LEFT, j);
        s->right_c[j] = surface(s, PB_HEAT_RIGHT, j);
        s->left_w[j] = side_heat(s, PB_HEAT_LEFT, j) / s->dy[j];
        s->right_w[j] = side_heat(s, PB_HEAT_RIGHT, j) / s->dy[j];
    }
}

/* Index of the cell that holds v, and the share of the way through it. */
static int locate(const double *line, int count, double v, double *share)
{
    int i = 0;
    while (i < count - 1 && v > line[i + 1]) {
        i++;
    }
    *share = (v - line[i]) / (line[i + 1] - line[i]);
    return i;
}

/* Speeds on faces: u on upright faces, v on level ones; mid lines by interpolation between the two
 * columns (rows) of faces that the line lies between. */
static void collect_speeds(PbHeatSection *s)
{
    PbHeatResult *r = &s->result;
    int nx = s->nx, ny = s->ny, up = nx + 1;
    double fx, fy;
    int im = locate(s->x, nx, 0.5 * (s->x[0] + s->x[nx]), &fx);
    int jm = locate(s->y, ny, 0.5 * (s->y[0] + s->y[ny]), &fy);
    r->psi_max_m2_s = r->u_max_m_s = r->v_max_m_s = r->u_mid_max_m_s = r->v_mid_max_m_s = 0.0;
    for (int j = 0; j < ny; j++) {
        const double *p = s->psi_out + j * up;
        for (int i = 0; i <= nx; i++) {
            r->psi_max_m2_s = pb_max(r->psi_max_m2_s, fabs(p[i]));
            r->u_max_m_s = pb_max(r->u_max_m_s, fabs(p[i + up] - p[i]) / s->dy[j]);
        }
        double u = (1.0 - fx) * (p[im + up] - p[im]) + fx * (p[im + 1 + up] - p[im + 1]);
        r->u_mid_max_m_s = pb_max(r->u_mid_max_m_s, fabs(u) / s->dy[j]);
    }
    for (int i = 0; i < nx; i++) {
        for (int j = 0; j <= ny; j++) {
            const double *p = s->psi_out + j * up + i;
            r->v_max_m_s = pb_max(r->v_max_m_s, fabs(p[1] - p[0]) / s->dx[i]);
        }
        const double *p = s->psi_out + jm * up + i;
        double v = (1.0 - fy) * (p[1] - p[0]) + fy * (p[1 + up] - p[up]);
        r->v_mid_max_m_s = pb_max(r->v_mid_max_m_s, fabs(v) / s->dx[i]);
    }
    const double *p = s->psi_out + jm * up + im;
    r->psi_mid_m2_s = fabs((1.0 - fy) * ((1.0 - fx) * p[0] + fx * p[1]) +
                           fy * ((1.0 - fx) * p[up] + fx * p[up + 1]));
}

void pb_heat_collect(PbHeatSection *s)
{
    PbHeatResult *r = &s->result;
    double k = HUGE_VAL;
    for (int j = 0; j < s->ny; j++) {
        for (int i = 0; i < s->nx; i++) {
            int c = pb_heat_cell(s, i, j);
            s->temperature_out[c] = s->t[pb_heat_unknown(s, i, j)] + s->reference_c;
            k = pb_min(k, s->k[c]);
        }
    }
    memcpy(s->psi_out, s->corner, (size_t)(s->nx + 1) * (size_t)(s->ny + 1) * sizeof(double));
    collect_sides(s);
    collect_speeds(s);
    r->loop_count = r->psi_max_m2_s > moving_share * k / s->setup.heat_capacity_j_m3k;
    r->nx = s->nx;
    r->ny = s->ny;
    r->x_m = s->x;
    r->y_m = s->y;
    r->temperature_c = s->temperature_out;
    r->psi_m2_s = s->psi_out;
    r->left_c = s->left_c;
    r->right_c = s->right_c;
    r->left_w_m2 = s->left_w;
    r->right_w_m2 = s->right_w;
}

/* Temperature on the extended lattice of cell centres and surfaces: i = -1 .. nx, j = -1 .. ny. */
static double lattice(const PbHeatSection *s, int i, int j)
{
    int ic = i < 0 ? 0 : i >= s->nx ? s->nx - 1 : i;
    int jc = j < 0 ? 0 : j >= s->ny ? s->ny - 1 : j;
    int side_x = i < 0 ? PB_HEAT_LEFT : PB_HEAT_RIGHT;
    int side_y = j < 0 ? PB_HEAT_BOTTOM : PB_HEAT_TOP;
    if (i != ic && s->setup.side[side_x].kind != PB_HEAT_ADIABATIC) {
        return surface(s, side_x, jc);
    }
    if (j != jc) { /* a corner beside an adiabatic side takes the other side's surface */
        return surface(s, side_y, ic);
    }
    return s->t[pb_heat_unknown(s, ic, jc)] + s->reference_c;
}

static double centre(const double *line, int count, int i)
{
    if (i < 0) {
        return line[0];
    }
    return i >= count ? line[count] : 0.5 * (line[i] + line[i + 1]);
}

double pb_heat_section_probe(const PbHeatSection *s, double x_m, double y_m)
{
    double fx, fy;
    int i = locate(s->x, s->nx, x_m, &fx), j = locate(s->y, s->ny, y_m, &fy);
    i -= x_m < centre(s->x, s->nx, i);
    j -= y_m < centre(s->y, s->ny, j);
    double x0 = centre(s->x, s->nx, i), x1 = centre(s->x, s->nx, i + 1);
    double y0 = centre(s->y, s->ny, j), y1 = centre(s->y, s->ny, j + 1);
    fx = pb_limit((x_m - x0) / (x1 - x0), 0.0, 1.0);
    fy = pb_limit((y_m - y0) / (y1 - y0), 0.0, 1.0);
    /* Weights times conductivity: on the edge between two materials this is the temperature that
     * both conduct to, and on a metal corner it is the metal's. */
    double sum = 0.0, weights = 0.0;
    for (int q = 0; q < 4; q++) {
        int a = i + (q & 1), b = j + (q >> 1);
        int ac = a < 0        ? 0
                 : a >= s->nx ? s->nx - 1
                              : a,
            bc = b < 0        ? 0
                 : b >= s->ny ? s->ny - 1
                              : b;
        double w =
            ((q & 1) ? fx : 1.0 - fx) * ((q >> 1) ? fy : 1.0 - fy) * s->k[pb_heat_cell(s, ac, bc)];
        sum += w * lattice(s, a, b);
        weights += w;
    }
    return sum / weights;
}
