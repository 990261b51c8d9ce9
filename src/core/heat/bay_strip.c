/* One strip of a bay: from the density field and the list of gaps to a solved heat section.
 *
 * The section is room board, cavity, sheathing in depth. Gaps that take at least half of the
 * strip's width are open air; narrower ones (slots at the studs) become a permeable mix with the
 * permeability of a slot, b^2/12, and the conductivity by area.
 */
#include "heat/bay.h"

#include "core/heat_air.h"
#include "core/material.h"
#include "core/pb_math.h"
#include "core/units.h"
#include "heat/grid.h"
#include "heat/section.h"

#include <math.h>
#include <string.h>

static const double closest_break_m = 2e-4;

PbBayWindow pb_bay_window(const PbHeatBay *bay, double x0, double x1, double y0, double y1)
{
    const PbBayField *f = bay->setup.field;
    double dx = f->width_m / f->nx, dy = f->height_m / f->ny;
    int i0 = (int)floor(x0 / dx), i1 = (int)ceil(x1 / dx);
    int j0 = (int)floor(y0 / dy), j1 = (int)ceil(y1 / dy);
    double sum = 0.0, area = 0.0, open = 0.0, batt = 0.0;
    i0 = i0 < 0 ? 0 : i0;
    j0 = j0 < 0 ? 0 : j0;
    for (int j = j0; j < j1 && j < f->ny; j++) {
        double hy = pb_min(y1, (j + 1) * dy) - pb_max(y0, j * dy);
        for (int i = i0; i < i1 && i < f->nx; i++) {
            double a = hy * (pb_min(x1, (i + 1) * dx) - pb_max(x0, i * dx));
            if (a > 0.0) {
                double free = f->free_frac[j * f->nx + i];
                sum += a * free * f->density_kg_m3[j * f->nx + i];
                open += a * free;
                batt += a * f->batt_frac[j * f->nx + i];
                area += a;
            }
        }
    }
    PbBayWindow w = {open > 0.0 ? sum / open : 0.0, area > 0.0 ? open / area : 1.0,
                     area > 0.0 ? batt / area : 0.0};
    w.density_kg_m3 = w.density_kg_m3 < bay->constants.void_kg_m3 ? 0.0 : w.density_kg_m3;
    return w;
}

/* The part of a strip's width that gap g covers, 0..1. */
static double cover(const PbHeatGap *g, double x0, double x1)
{
    double w = pb_min(g->x1_m, x1) - pb_max(g->x0_m, x0);
    return w > 0.0 ? w / (x1 - x0) : 0.0;
}

static int is_gap_of(const PbHeatGap *g, double x0, double x1)
{
    return cover(g, x0, x1) > 1e-9 && g->y1_m > g->y0_m && g->z1_m > g->z0_m;
}

static int spans_of(const double *at, int count, const PbGridSpan *like_gap,
                    const PbGridSpan *like_fill, const unsigned char *is_gap, PbGridSpan *span)
{
    for (int q = 0; q + 1 < count; q++) {
        const PbGridSpan *like = is_gap[q] ? like_gap : like_fill;
        double length = at[q + 1] - at[q];
        span[q] = (PbGridSpan){length, pb_min(like->size_m, length / (double)like->fewest),
                               like->growth, 2};
    }
    return count - 1;
}

/* Lines in depth: board, cavity with its gaps, sheathing. */
static int depth_lines(const PbHeatBay *bay, double x0, double x1, int n, double *line)
{
    double board = bay->skin.inside_m, depth = bay->setup.field->depth_m;
    double at[2 * PB_HEAT_MAX_GAPS + 4];
    unsigned char is_gap[2 * PB_HEAT_MAX_GAPS + 4] = {0};
    PbGridSpan span[2 * PB_HEAT_MAX_GAPS + 4];
    int count = 0;
    at[count++] = 0.0;
    at[count++] = board;
    at[count++] = board + depth;
    at[count++] = board + depth + bay->skin.outside_m;
    for (int g = 0; g < bay->setup.gap_count; g++) {
        if (is_gap_of(&bay->gaps[g], x0, x1)) {
            at[count++] = board + bay->gaps[g].z0_m;
            at[count++] = board + bay->gaps[g].z1_m;
        }
    }
    count = pb_grid_sort(at, count, closest_break_m);
    for (int q = 0; q + 1 < count; q++) {
        double mid = 0.5 * (at[q] + at[q + 1]) - board;
        for (int g = 0; g < bay->setup.gap_count; g++) {
            const PbHeatGap *gap = &bay->gaps[g];
            is_gap[q] |= is_gap_of(gap, x0, x1) && mid > gap->z0_m && mid < gap->z1_m &&
                         gap->z1_m - gap->z0_m < PB_HEAT_VOID_WIDTH_M;
        }
    }
    PbGridSpan gap_like = {0.0, 0.001, 0.1, 10}, fill_like = {0.0, 0.02, 0.8, 5};
    int spans = spans_of(at, count, &gap_like, &fill_like, is_gap, span);
    return pb_grid_lines(span, spans, 0.0, n, line);
}

static int has_line(const double *at, int count, double y)
{
    for (int i = 0; i < count; i++) {
        if (fabs(at[i] - y) <= closest_break_m) {
            return 1;
        }
    }
    return 0;
}

/* Add lines at both ends of a gap. Without lines of its own a gap would be painted as whole cells
 * or not at all, so @return 0 when `most` lines are not enough. */
static int add_gap_lines(double *at, int *count, int most, const PbHeatGap *gap)
{
    if (*count + 2 >= most) { /* many gaps share the lines at both plates */
        *count = pb_grid_sort(at, *count, closest_break_m);
        if (has_line(at, *count, gap->y0_m) && has_line(at, *count, gap->y1_m)) {
            return 1;
        }
    }
    if (*count + 2 > most) {
        return 0;
    }
    at[(*count)++] = gap->y0_m;
    at[(*count)++] = gap->y1_m;
    return 1;
}

/* Lines in height: ends of gaps, and rows of the field where fill begins or ends. */
static int height_lines(const PbHeatBay *bay, double x0, double x1, int n, double *line)
{
    const PbBayField *f = bay->setup.field;
    double at[PB_GRID_MAX_BREAKS];
    unsigned char is_gap[PB_GRID_MAX_BREAKS] = {0};
    PbGridSpan span[PB_GRID_MAX_BREAKS];
    int count = 0, most = PB_GRID_MAX_BREAKS - 1;
    most = most > n / 4 ? n / 4 : most;
    at[count++] = 0.0;
    at[count++] = f->height_m;
    for (int g = 0; g < bay->setup.gap_count; g++) {
        if (is_gap_of(&bay->gaps[g], x0, x1) && !add_gap_lines(at, &count, most, &bay->gaps[g])) {
            return 0;
        }
    }
    double dy = f->height_m / f->ny;
    int was = -1;
    for (int j = 0; j < f->ny && count < most; j++) {
        int empty = !(pb_bay_window(bay, x0, x1, j * dy, (j + 1) * dy).density_kg_m3 > 0.0);
        if (was >= 0 && empty != was) {
            at[count++] = j * dy;
        }
        was = empty;
    }
    count = pb_grid_sort(at, count, closest_break_m);
    at[count - 1] = f->height_m;
    for (int q = 0; q + 1 < count; q++) {
        is_gap[q] = at[q + 1] - at[q] < PB_HEAT_VOID_WIDTH_M;
    }
    PbGridSpan gap_like = {0.0, 0.002, 0.1, 8},
               fill_like = {0.0, count > 2 ? 0.004 : 0.02, 0.25, 8};
    int spans = spans_of(at, count, &gap_like, &fill_like, is_gap, span);
    return pb_grid_lines(span, spans, 0.0, n, line);
}

/* Share of the strip's width that gaps cover at (y, z), and the sum of share x width^2 of slots. */
static double gap_share(const PbHeatBay *bay, double x0, double x1, double y, double z,
                        double *slot_m2)
{
    double share = 0.0;
    *slot_m2 = 0.0;
    for (int g = 0; g < bay->setup.gap_count; g++) {
        const PbHeatGap *gap = &bay->gaps[g];
        double part = cover(gap, x0, x1);
        if (part > 0.0 && y > gap->y0_m && y < gap->y1_m && z > gap->z0_m && z < gap->z1_m) {
            double width = gap->x1_m - gap->x0_m;
            share += part;
            *slot_m2 += part * width * width;
        }
    }
    return share;
}

/* Conductivity and permeability of the fill, or of the air where there is none. */
static void free_part(const PbHeatBay *bay, PbBayWindow w, double *k, double *permeability)
{
    const PbConstants *c = &bay->constants;
    if (!(w.density_kg_m3 > 0.0)) {
        *k = c->heat_air_k_w_mk;
        *permeability = HUGE_VAL;
        if (w.batt_frac > 0.0) {
            /* A layer of air beside a batt: its loop and radiation stand in the conductivity, as in
             * a wide void (void.c); an open cell would count the batt as air. */
            double thick = w.free_frac * bay->setup.field->depth_m;
            *k = (pb_heat_airspace_convection(c->heat_air_k_w_mk, thick, 0.0, 0.0,
                                              c->void_convection_w_m2k) +
                  c->gap_radiation_w_m2k) *
                 thick;
            *permeability = 0.0;
        }
    } else if (bay->setup.fill.is_foam) {
        *k = bay->setup.fill.k_w_mk;
        *permeability = bay->setup.fill.permeability_m2;
    } else {
        *k = pb_material_conductivity(c, w.density_kg_m3);
        *permeability = pb_material_permeability(c, w.density_kg_m3);
    }
}

/* Conductivity and permeability of a window of the field: what lies one behind the other across the
 * depth is in series for heat and side by side for air that moves along the bay. */
static void fill_at(const PbHeatBay *bay, double x0, double x1, double y0, double y1, double *k,
                    double *permeability)
{
    const PbConstants *c = &bay->constants;
    PbBayWindow w = pb_bay_window(bay, x0, x1, y0, y1);
    double wood = 1.0 - w.free_frac - w.batt_frac;
    if (wood > 0.5) { /* an obstacle through most of the depth */
        *k = c->wood_k_w_mk;
        *permeability = 0.0;
        return;
    }
    free_part(bay, w, k, permeability);
    if (w.batt_frac > 0.0 || (w.free_frac < 1.0 && w.density_kg_m3 > 0.0)) {
        double fill = w.free_frac > 0.0 ? w.free_frac / *k : 0.0;
        *k = 1.0 / (fill + w.batt_frac / PB_BATT_K_W_MK + wood / c->wood_k_w_mk);
        *permeability =
            *permeability * w.free_frac + w.batt_frac * pb_material_batt_permeability(c);
    }
}

/* Cell of a row y[0] to y[1] whose fill has this conductivity and permeability. */
static void cell_at(const PbHeatBay *bay, double x0, double x1, const double *y, double z,
                    double *k, double *permeability)
{
    const PbConstants *c = &bay->constants;
    double slot;
    if (z < 0.0 || z > bay->setup.field->depth_m) {
        *k = z < 0.0 ? bay->skin.inside_k_w_mk : bay->skin.outside_k_w_mk;
        *permeability = 0.0;
        return;
    }
    double share = gap_share(bay, x0, x1, 0.5 * (y[0] + y[1]), z, &slot);
    if (share >= 0.5) {
        *k = c->heat_air_k_w_mk;
        *permeability = HUGE_VAL;
    } else if (share > 0.0 && !isinf(*permeability)) {
        *k = share * c->heat_air_k_w_mk + (1.0 - share) * *k;
        *permeability = slot / 12.0 + (1.0 - share) * *permeability;
    }
}

static int lay_out(PbHeatBay *bay, PbBayStrip *s)
{
    size_t nx = (size_t)bay->setup.nx, ny = (size_t)bay->setup.ny;
    size_t count = (nx + 1) + (ny + 1) + 2 * nx * ny + (nx + 1) * (ny + 1) + 3 * ny;
    s->block = bay->allocator.alloc(bay->allocator.user, count * sizeof(double));
    if (s->block == NULL) {
        return 0;
    }
    memset(s->block, 0, count * sizeof(double));
    double *p = s->block;
    s->z = p;
    s->y = (p += nx + 1);
    s->temperature = (p += ny + 1);
    s->permeability = (p += nx * ny);
    s->psi = (p += nx * ny);
    s->back_w_m2 = (p += (nx + 1) * (ny + 1));
    s->board_c = (p += ny);
    s->empty = p + ny;
    s->view.nx = bay->setup.nx;
    s->view.ny = bay->setup.ny;
    s->view.z_m = s->z;
    s->view.y_m = s->y;
    s->view.temperature_c = s->temperature;
    s->view.psi_m2_s = s->psi;
    s->view.permeability_m2 = s->permeability;
    return 1;
}

static PbHeatSetup section_setup(const PbHeatBay *bay, const PbBayStrip *s, const double *k,
                                 const unsigned char *no_radiation)
{
    const PbConstants *c = &bay->constants;
    PbHeatSetup p = pb_heat_setup_default();
    double tilt = bay->setup.field->tilt_deg * PB_PI / 180.0;
    p.nx = bay->setup.nx;
    p.ny = bay->setup.ny;
    p.x_m = s->z;
    p.y_m = s->y;
    p.k_w_mk = k;
    p.permeability_m2 = s->permeability;
    p.no_radiation = no_radiation;
    p.side[PB_HEAT_LEFT] = (PbHeatSide){PB_HEAT_FILM, bay->setup.room_c, bay->skin.room_film_m2k_w};
    p.side[PB_HEAT_RIGHT] =
        (PbHeatSide){PB_HEAT_FILM, bay->setup.outdoor_c, bay->skin.beyond_m2k_w};
    p.heat_capacity_j_m3k = c->heat_air_density_kg_m3 * c->heat_air_capacity_j_kgk;
    p.viscosity_m2_s = c->heat_air_viscosity_m2_s;
    p.expansion_1_k = 1.0 / (273.15 + 0.5 * (bay->setup.room_c + bay->setup.outdoor_c));
    p.up_x = bay->setup.field->tilt_deg == 90.0 ? 0.0 : pb_cos(tilt);
    p.up_y = bay->setup.field->tilt_deg == 90.0 ? 1.0 : pb_sin(tilt);
    p.radiation_w_m2k = c->gap_radiation_w_m2k;
    p.flow = bay->setup.flow_off ? PB_HEAT_FLOW_NONE : PB_HEAT_FLOW_VISCOUS;
    return p;
}

/* No open air, no void and a modified Rayleigh number below the limit: no loop is possible, none is
 * solved.
 */
static int cannot_loop(const PbHeatBay *bay, const PbHeatSetup *p)
{
    double worst = 0.0, dt = fabs(bay->setup.room_c - bay->setup.outdoor_c);
    for (int c = 0; c < p->nx * p->ny; c++) {
        if (isinf(p->permeability_m2[c]) || p->no_radiation[c]) {
            return 0;
        }
        worst = pb_max(worst, p->permeability_m2[c] / p->k_w_mk[c]);
    }
    double ra = p->gravity_m_s2 * p->expansion_1_k * dt * bay->setup.field->depth_m * worst *
                p->heat_capacity_j_m3k / p->viscosity_m2_s;
    return ra < bay->constants.loose_fill_ra_limit;
}

/* Heat from the room board into the cavity, row by row: what enters less what moves up or down
 * inside the board. */
static void board_figures(PbBayStrip *s, const PbHeatSection *section, double board_m)
{
    const PbHeatResult *r = pb_heat_section_result(section);
    for (int j = 0; j < r->ny; j++) {
        double dy = r->y_m[j + 1] - r->y_m[j], net = r->left_w_m2[j] * dy, mean = 0.0;
        for (int i = 0; i < r->nx && r->x_m[i + 1] <= board_m + 1e-9; i++) {
            const double *t = r->temperature_c + j * r->nx + i;
            if (j > 0) {
                net += section->gy[j * r->nx + i] * (t[-r->nx] - t[0]);
            }
            if (j + 1 < r->ny) {
                net += section->gy[(j + 1) * r->nx + i] * (t[r->nx] - t[0]);
            }
            mean += t[0] * (r->x_m[i + 1] - r->x_m[i]);
        }
        s->back_w_m2[j] = net / dy;
        s->board_c[j] = mean / board_m;
    }
}

static void store(PbHeatBay *bay, PbBayStrip *s, const PbHeatSection *section)
{
    const PbHeatResult *r = pb_heat_section_result(section);
    size_t cells = (size_t)r->nx * (size_t)r->ny,
           corners = (size_t)(r->nx + 1) * (size_t)(r->ny + 1);
    double dt = bay->setup.room_c - bay->setup.outdoor_c;
    memcpy(s->temperature, r->temperature_c, cells * sizeof(double));
    memcpy(s->psi, r->psi_m2_s, corners * sizeof(double));
    s->view.u_w_m2k = r->heat_w_m[PB_HEAT_LEFT] / (bay->setup.field->height_m * dt);
    s->view.psi_max_m2_s = r->psi_max_m2_s;
    s->view.balance = r->balance;
    s->view.iterations = r->iterations;
    s->surface_min_c = HUGE_VAL;
    s->surface_max_c = -HUGE_VAL;
    for (int j = 0; j < r->ny; j++) {
        s->surface_min_c = pb_min(s->surface_min_c, r->left_c[j]);
        s->surface_max_c = pb_max(s->surface_max_c, r->left_c[j]);
        double open = 0.0;
        for (int i = 0; i < r->nx; i++) {
            open += isinf(s->permeability[j * r->nx + i]) ? s->z[i + 1] - s->z[i] : 0.0;
        }
        s->empty[j] = open / bay->setup.field->depth_m;
    }
    board_figures(s, section, bay->skin.inside_m);
}

/* A loop is worth drawing when it changes the heat through the strip. Inside a lone gap some air
 * turns over too, but it carries nothing from face to face. Wide voids always turn over. */
static const double loop_share = 0.005;

static int loop_matters(const PbHeatResult *r, const unsigned char *is_void)
{
    for (int c = 0; c < r->nx * r->ny; c++) {
        if (is_void[c]) {
            return 1;
        }
    }
    return fabs(r->heat_w_m[PB_HEAT_LEFT] - r->still_w_m) > loop_share * fabs(r->still_w_m);
}

static PbStatus solve_and_store(PbHeatBay *bay, PbBayStrip *s, const PbHeatSetup *p,
                                const unsigned char *is_void)
{
    PbHeatSection *section = NULL;
    PB_TRY(pb_heat_section_create(p, &bay->allocator, &section, NULL));
    s->bytes = pb_heat_section_bytes(p);
    PbStatus status = pb_heat_section_solve(section);
    if (status == PB_OK) {
        store(bay, s, section);
        s->view.has_loop =
            p->flow != PB_HEAT_FLOW_NONE && loop_matters(pb_heat_section_result(section), is_void);
    }
    pb_heat_section_destroy(section);
    return status;
}

static PbStatus solve_section(PbHeatBay *bay, PbBayStrip *s)
{
    size_t cells = (size_t)bay->setup.nx * (size_t)bay->setup.ny;
    double *k = bay->allocator.alloc(bay->allocator.user, cells * (2 * sizeof(double) + 1));
    if (k == NULL) {
        return PB_ERR_MEMORY;
    }
    double *permeability = k + cells;
    unsigned char *no_radiation = (unsigned char *)(permeability + cells);
    double board = bay->skin.inside_m;
    for (int j = 0; j < bay->setup.ny; j++) {
        double row_k, row_permeability;
        fill_at(bay, s->view.x0_m, s->view.x1_m, s->y[j], s->y[j + 1], &row_k, &row_permeability);
        for (int i = 0; i < bay->setup.nx; i++) {
            int c = j * bay->setup.nx + i;
            k[c] = row_k;
            s->permeability[c] = row_permeability;
            cell_at(bay, s->view.x0_m, s->view.x1_m, s->y + j,
                    0.5 * (s->z[i] + s->z[i + 1]) - board, &k[c], &s->permeability[c]);
        }
    }
    memcpy(permeability, s->permeability, cells * sizeof(double));
    memset(no_radiation, 0, cells);
    PbHeatSetup p = section_setup(bay, s, k, no_radiation);
    p.permeability_m2 = permeability;
    if (!bay->setup.solve_void_flow) {
        PbHeatVoids v = {bay->constants.gap_radiation_w_m2k, bay->constants.void_convection_w_m2k,
                         bay->constants.heat_air_k_w_mk, 0.0};
        pb_heat_wide_voids(&p, &v, k, permeability, no_radiation);
    }
    int still = cannot_loop(bay, &p);
    p.flow = still ? PB_HEAT_FLOW_NONE : p.flow;
    PbStatus status = solve_and_store(bay, s, &p, no_radiation);
    if (status == PB_ERR_NO_RESULT && p.up_x > 0.0) {
        /* Air heated from below may have no steady loop: give the upright answer and say so. */
        p.up_x = 0.0;
        p.up_y = 1.0;
        s->view.is_upright_answer = 1;
        status = solve_and_store(bay, s, &p, no_radiation);
    }
    bay->allocator.free(bay->allocator.user, k);
    return status;
}

void pb_bay_solve_strip(PbHeatBay *bay, int index)
{
    PbBayStrip *s = &bay->strip[index];
    if (!lay_out(bay, s)) {
        s->status = PB_ERR_MEMORY;
        return;
    }
    if (!depth_lines(bay, s->view.x0_m, s->view.x1_m, bay->setup.nx, s->z) ||
        !height_lines(bay, s->view.x0_m, s->view.x1_m, bay->setup.ny, s->y)) {
        s->status = PB_ERR_RANGE;
        return;
    }
    s->status = solve_section(bay, s);
}

/* Width of the strip that gaps shaped like g (wherever they stand across it) cover. */
static double cover_alike(const PbHeatBay *bay, const PbHeatGap *g, const PbHeatStrip *strip)
{
    double sum = 0.0;
    for (int h = 0; h < bay->setup.gap_count; h++) {
        const PbHeatGap *n = &bay->gaps[h];
        if (g->y0_m == n->y0_m && g->y1_m == n->y1_m && g->z0_m == n->z0_m && g->z1_m == n->z1_m &&
            fabs((g->x1_m - g->x0_m) - (n->x1_m - n->x0_m)) < 1e-9) {
            sum += cover(n, strip->x0_m, strip->x1_m);
        }
    }
    return sum;
}

int pb_bay_strips_match(const PbHeatBay *bay, int a, int b)
{
    const PbHeatStrip *p = &bay->strip[a].view, *q = &bay->strip[b].view;
    const PbBayField *f = bay->setup.field;
    for (int g = 0; g < bay->setup.gap_count; g++) {
        if (fabs(cover_alike(bay, &bay->gaps[g], p) - cover_alike(bay, &bay->gaps[g], q)) > 1e-9) {
            return 0;
        }
    }
    double dy = f->height_m / f->ny;
    for (int j = 0; j < f->ny; j++) {
        PbBayWindow v = pb_bay_window(bay, p->x0_m, p->x1_m, j * dy, (j + 1) * dy);
        PbBayWindow w = pb_bay_window(bay, q->x0_m, q->x1_m, j * dy, (j + 1) * dy);
        if (fabs(v.density_kg_m3 - w.density_kg_m3) > 1e-9 * (1.0 + v.density_kg_m3) ||
            fabs(v.free_frac - w.free_frac) > 1e-9 || fabs(v.batt_frac - w.batt_frac) > 1e-9) {
            return 0;
        }
    }
    return 1;
}

void pb_bay_free_strips(PbHeatBay *bay)
{
    for (int i = 0; i < bay->strip_count; i++) {
        if (bay->strip[i].block != NULL) {
            bay->allocator.free(bay->allocator.user, bay->strip[i].block);
            bay->strip[i].block = NULL;
        }
    }
}
