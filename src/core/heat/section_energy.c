/* Energy of a section: conductances, radiation links, the convective matrix and its solves.
 *
 * Finite volumes. Two half cells in series make a face (harmonic mean). The air through a face is
 * the difference of psi at its ends, so it is exactly divergence free. A face carries heat at the
 * plain mean of its two cells: the convective part is then skew, so it makes no heat and the matrix
 * stays safe to factor without pivoting. Next to read: section_flow.c.
 */
#include "heat/section.h"

#include <math.h>
#include <string.h>

static double side_conductance(const PbHeatSide *side, double length, double half, double k)
{
    switch (side->kind) {
    case PB_HEAT_FIXED:
        return length * k / half;
    case PB_HEAT_FILM:
        return length / (side->film_m2k_w + half / k);
    default:
        return 0.0;
    }
}

static void set_faces(PbHeatSection *s)
{
    int nx = s->nx, ny = s->ny;
    const double *k = s->k;
    for (int j = 0; j < ny; j++) {
        double *g = s->gx + (size_t)j * (size_t)(nx + 1);
        for (int i = 1; i < nx; i++) {
            int c = pb_heat_cell(s, i, j);
            g[i] = 2.0 * s->dy[j] / (s->dx[i - 1] / k[c - 1] + s->dx[i] / k[c]);
        }
        g[0] = side_conductance(&s->setup.side[PB_HEAT_LEFT], s->dy[j], 0.5 * s->dx[0],
                                k[pb_heat_cell(s, 0, j)]);
        g[nx] = side_conductance(&s->setup.side[PB_HEAT_RIGHT], s->dy[j], 0.5 * s->dx[nx - 1],
                                 k[pb_heat_cell(s, nx - 1, j)]);
    }
    for (int i = 0; i < nx; i++) {
        for (int j = 1; j < ny; j++) {
            int c = pb_heat_cell(s, i, j);
            s->gy[j * nx + i] = 2.0 * s->dx[i] / (s->dy[j - 1] / k[c - nx] + s->dy[j] / k[c]);
        }
        s->gy[i] = side_conductance(&s->setup.side[PB_HEAT_BOTTOM], s->dx[i], 0.5 * s->dy[0],
                                    k[pb_heat_cell(s, i, 0)]);
        s->gy[ny * nx + i] = side_conductance(&s->setup.side[PB_HEAT_TOP], s->dx[i],
                                              0.5 * s->dy[ny - 1], k[pb_heat_cell(s, i, ny - 1)]);
    }
}

static void add_link(PbHeatSection *s, int row, int col, double value)
{
    if (row == col) {
        s->diagonal[row] += value;
        return;
    }
    s->links[s->link_count++] = (PbHeatLink){row, col, value};
}

/* Radiation between the faces of the air run a..b of row j. The two face temperatures are removed
 * by hand: each face balances conduction into its wall, conduction into the air and radiation, so
 * the film of a coarse wall cell does not dull the exchange. */
static void link_run(PbHeatSection *s, int j, int a, int b)
{
    double dy = s->dy[j];
    int cell[4] = {a - 1, a, b, b + 1};
    double g[4], weight1[4] = {0}, weight2[4] = {0};
    for (int m = 0; m < 4; m++) {
        g[m] = 2.0 * dy * s->k[pb_heat_cell(s, cell[m], j)] / s->dx[cell[m]];
    }
    double gr = s->setup.radiation_w_m2k * dy;
    double m11 = g[0] + g[1] + gr, m22 = g[2] + g[3] + gr;
    double det = m11 * m22 - gr * gr;
    weight1[0] = m22 * g[0] / det; /* face 1 = sum of weight1 x cell temperatures */
    weight1[1] = m22 * g[1] / det;
    weight1[2] = gr * g[2] / det;
    weight1[3] = gr * g[3] / det;
    weight2[0] = gr * g[0] / det;
    weight2[1] = gr * g[1] / det;
    weight2[2] = m11 * g[2] / det;
    weight2[3] = m11 * g[3] / det;
    for (int m = 0; m < 4; m++) {
        int row = pb_heat_unknown(s, cell[m], j);
        add_link(s, row, row, g[m]);
        for (int q = 0; q < 4; q++) {
            add_link(s, row, pb_heat_unknown(s, cell[q], j),
                     -g[m] * (m < 2 ? weight1[q] : weight2[q]));
        }
    }
    s->gx[j * (s->nx + 1) + a] = 0.0;
    s->gx[j * (s->nx + 1) + b + 1] = 0.0;
}

static int radiates(const PbHeatSection *s, int i, int j)
{
    int c = pb_heat_cell(s, i, j);
    return isinf(s->permeability[c]) && (s->no_radiation == NULL || !s->no_radiation[c]);
}

static void set_links(PbHeatSection *s)
{
    s->link_count = 0;
    if (!(s->setup.radiation_w_m2k > 0.0)) {
        return;
    }
    for (int j = 0; j < s->ny; j++) {
        for (int i = 1; i < s->nx - 1; i++) {
            if (!radiates(s, i, j)) {
                continue;
            }
            int end = i;
            while (end < s->nx && radiates(s, end, j)) {
                end++;
            }
            int left_is_wall = !isinf(s->permeability[pb_heat_cell(s, i - 1, j)]);
            if (left_is_wall && end < s->nx && !isinf(s->permeability[pb_heat_cell(s, end, j)])) {
                link_run(s, j, i, end - 1);
            }
            i = end;
        }
    }
}

static double side_temperature(const PbHeatSection *s, int side)
{
    return s->setup.side[side].temperature_c - s->reference_c;
}

void pb_heat_energy_prepare(PbHeatSection *s)
{
    int nx = s->nx, ny = s->ny;
    memset(s->diagonal, 0, (size_t)(nx * ny) * sizeof(double));
    memset(s->source, 0, (size_t)(nx * ny) * sizeof(double));
    set_faces(s);
    set_links(s);
    for (int j = 0; j < ny; j++) {
        for (int i = 0; i < nx; i++) {
            const double *gx = s->gx + j * (nx + 1) + i;
            const double *gy = s->gy + j * nx + i;
            int u = pb_heat_unknown(s, i, j);
            s->diagonal[u] += gx[0] + gx[1] + gy[0] + gy[nx];
            s->source[u] += i == 0 ? gx[0] * side_temperature(s, PB_HEAT_LEFT) : 0.0;
            s->source[u] += i == nx - 1 ? gx[1] * side_temperature(s, PB_HEAT_RIGHT) : 0.0;
            s->source[u] += j == 0 ? gy[0] * side_temperature(s, PB_HEAT_BOTTOM) : 0.0;
            s->source[u] += j == ny - 1 ? gy[nx] * side_temperature(s, PB_HEAT_TOP) : 0.0;
        }
    }
}

/* The matrix is written line by line while its factors are made: a line of cells is a run of rows
 * when rows run across, else all lines are written at once. */
static void clear_line(PbHeatSection *s, int j)
{
    if (s->cell_i == 1 && j < s->ny) {
        pb_band_clear_rows(&s->energy, j * s->nx, s->nx);
    } else if (s->cell_i != 1 && j == 0) {
        pb_band_clear_rows(&s->energy, 0, s->nx * s->ny);
    }
}

/* Conduction alone: symmetric, so half of the matrix and half of the work. */
static void write_still(PbHeatSection *s, int j)
{
    int nx = s->nx, si = s->cell_i, sj = s->cell_j;
    clear_line(s, j);
    for (int i = 0; i < nx; i++) {
        int u = pb_heat_unknown(s, i, j);
        double *row = pb_band_at(&s->energy, u, u);
        row[0] = s->diagonal[u];
        if (i + 1 < nx) {
            row[si] = -s->gx[j * (nx + 1) + i + 1];
        }
        if (j + 1 < s->ny) {
            row[sj] = -s->gy[(j + 1) * nx + i];
        }
    }
}

/* Faces to the right and above write into both cells, so the next line has to be clear. */
static void write_moving(PbHeatSection *s, int j)
{
    int nx = s->nx, si = s->cell_i, sj = s->cell_j;
    double half = 0.5 * s->setup.heat_capacity_j_m3k;
    const double *low = s->moving + (size_t)j * (size_t)(nx + 1), *high = low + nx + 1;
    PbBand *m = &s->energy;
    if (j == 0) {
        clear_line(s, 0);
    }
    clear_line(s, j + 1);
    for (int i = 0; i < nx; i++) {
        int u = pb_heat_unknown(s, i, j);
        double *row = pb_band_at(m, u, u);
        row[0] = s->diagonal[u];
        if (i + 1 < nx) {
            double g = s->gx[j * (nx + 1) + i + 1];
            double f = half * (high[i + 1] - low[i + 1]);
            row[si] = f - g;
            *pb_band_at(m, u + si, u) = -f - g;
        }
        if (j + 1 < s->ny) {
            double g = s->gy[(j + 1) * nx + i];
            double f = half * (high[i] - high[i + 1]);
            row[sj] = f - g;
            *pb_band_at(m, u + sj, u) = -f - g;
        }
    }
}

static void write_links(PbHeatSection *s, int rows)
{
    PbBand *m = &s->energy;
    for (; s->link_next < s->link_count && s->links[s->link_next].row < rows; s->link_next++) {
        const PbHeatLink *l = &s->links[s->link_next];
        if (l->col > l->row || !m->is_symmetric) {
            *pb_band_at(m, l->row, l->col) += l->value;
        }
    }
}

static int write_lines(void *user, int first)
{
    PbHeatSection *s = user;
    int runs_across = s->cell_i == 1;
    int from = runs_across ? first / s->nx : 0, to = runs_across ? from + 1 : s->ny;
    for (int j = from; j < to; j++) {
        if (s->moving == NULL) {
            write_still(s, j);
        } else {
            write_moving(s, j);
        }
    }
    write_links(s, runs_across ? to * s->nx : s->nx * s->ny);
    return (to - from) * s->nx;
}

int pb_heat_energy_factor(PbHeatSection *s, const double *psi)
{
    PbBand *m = &s->energy;
    pb_heat_mark(s, PB_HEAT_PHASE_FACTOR);
    s->moving = psi;
    s->link_next = 0;
    pb_band_shape(m, psi == NULL);
    m->fill = write_lines;
    m->fill_user = s;
    pb_band_clear_ends(m);
    s->result.factorisations++;
    int done = s->kernels->factor(m);
    pb_heat_mark(s, PB_HEAT_PHASE_OTHER);
    return done;
}

void pb_heat_energy_solve(PbHeatSection *s, const double *rhs, double *t)
{
    pb_heat_mark(s, PB_HEAT_PHASE_SOLVE);
    s->kernels->solve(&s->energy, rhs, t);
    pb_heat_mark(s, PB_HEAT_PHASE_OTHER);
}

void pb_heat_energy_turn(const PbHeatSection *s, const double *corner_delta, const double *t,
                         double *out)
{
    int nx = s->nx, ny = s->ny, si = s->cell_i, sj = s->cell_j;
    double half = 0.5 * s->setup.heat_capacity_j_m3k;
    memset(out, 0, (size_t)(nx * ny) * sizeof(double));
    for (int j = 0; j < ny; j++) {
        const double *low = corner_delta + (size_t)j * (size_t)(nx + 1);
        const double *high = low + nx + 1;
        for (int i = 0; i < nx; i++) {
            int u = pb_heat_unknown(s, i, j);
            if (i + 1 < nx) {
                double q = half * (high[i + 1] - low[i + 1]) * (t[u] + t[u + si]);
                out[u] -= q;
                out[u + si] += q;
            }
            if (j + 1 < ny) {
                double q = half * (high[i] - high[i + 1]) * (t[u] + t[u + sj]);
                out[u] -= q;
                out[u + sj] += q;
            }
        }
    }
}
