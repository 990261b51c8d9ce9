/* A heat section from setup to answer: checks, memory, the order of the work.
 *
 * Reads from top to bottom: check, lay out, copy, solve. The physics is in section_energy.c,
 * section_flow.c and section_newton.c; figures for people come from section_result.c.
 */
#include "heat/section.h"

#include "core/pb_math.h"
#include "core/units.h"

#include <math.h>
#include <string.h>

static const double conductivity_lowest = 1e-4, conductivity_highest = 500.0;

PbHeatSetup pb_heat_setup_default(void)
{
    PbHeatSetup setup = {.heat_capacity_j_m3k = 1.247 * 1006.0, /* air at 10 C, handbook values */
                         .viscosity_m2_s = 1.42e-5,
                         .expansion_1_k = 1.0 / 283.15,
                         .gravity_m_s2 = PB_GRAVITY_M_S2,
                         .up_x = 0.0,
                         .up_y = 1.0,
                         .flow = PB_HEAT_FLOW_VISCOUS,
                         .tolerance = 1e-5,
                         .max_iterations = 30,
                         .kernels = -1};
    return setup;
}

static PbStatus check_lines(const double *line, int count, const char *axis, PbError *err)
{
    for (int i = 0; i < count; i++) {
        if (!(line[i + 1] > line[i]) || !isfinite(line[i + 1] - line[i])) {
            return pb_fail(err, PB_ERR_RANGE, "grid lines in %s must rise, line %d does not", axis,
                           i + 1);
        }
    }
    return PB_OK;
}

static PbStatus check_cells(const PbHeatSetup *p, PbError *err)
{
    for (int c = 0; c < p->nx * p->ny; c++) {
        double k = p->k_w_mk[c], m = p->permeability_m2[c];
        if (!(k >= conductivity_lowest && k <= conductivity_highest)) {
            return pb_fail(err, PB_ERR_RANGE,
                           "conductivity %g W/(m K) of cell %d, expected 1e-4 to 500", k, c);
        }
        if (!(m >= 0.0)) {
            return pb_fail(err, PB_ERR_RANGE, "permeability of cell %d is negative", c);
        }
        if (isinf(m) && p->flow == PB_HEAT_FLOW_DARCY) {
            return pb_fail(err, PB_ERR_RANGE, "open air needs the viscous flow model");
        }
    }
    return PB_OK;
}

static PbStatus check_sides(const PbHeatSide *side, PbError *err)
{
    int held = 0;
    for (int q = 0; q < PB_HEAT_SIDES; q++) {
        int kind_ok = side[q].kind == PB_HEAT_ADIABATIC || side[q].kind == PB_HEAT_FIXED ||
                      side[q].kind == PB_HEAT_FILM;
        if (!kind_ok) {
            return pb_fail(err, PB_ERR_RANGE, "side %d has no known kind", q);
        }
        if (side[q].kind == PB_HEAT_ADIABATIC) {
            continue;
        }
        held++;
        if (!isfinite(side[q].temperature_c) || fabs(side[q].temperature_c) > 1e6) {
            return pb_fail(err, PB_ERR_RANGE, "temperature of side %d is out of range", q);
        }
        if (side[q].kind == PB_HEAT_FILM &&
            !(side[q].film_m2k_w > 0.0 && side[q].film_m2k_w < 1e6)) {
            return pb_fail(err, PB_ERR_RANGE, "film of side %d must be above 0 m2 K/W", q);
        }
    }
    return held > 0 ? PB_OK : pb_fail(err, PB_ERR_RANGE, "all four sides are adiabatic");
}

static int is_positive(double v)
{
    return v > 0.0 && v < PB_HEAT_MOST_DRIVE;
}

static PbStatus check_size(const PbHeatSetup *p, PbError *err)
{
    if (p->nx < 2 || p->ny < 2 || p->nx > PB_HEAT_MAX_LINES || p->ny > PB_HEAT_MAX_LINES) {
        return pb_fail(err, PB_ERR_RANGE, "grid %d x %d, expected 2 to %d each way", p->nx, p->ny,
                       PB_HEAT_MAX_LINES);
    }
    return PB_OK;
}

static PbStatus check_setup(const PbHeatSetup *p, PbError *err)
{
    PB_TRY(check_size(p, err));
    PB_TRY(check_lines(p->x_m, p->nx, "x", err));
    PB_TRY(check_lines(p->y_m, p->ny, "y", err));
    PB_TRY(check_cells(p, err));
    PB_TRY(check_sides(p->side, err));
    if (!is_positive(p->heat_capacity_j_m3k) || !is_positive(p->viscosity_m2_s) ||
        !(p->expansion_1_k >= 0.0 && p->expansion_1_k < PB_HEAT_MOST_DRIVE) ||
        !(p->gravity_m_s2 >= 0.0 && p->gravity_m_s2 < PB_HEAT_MOST_DRIVE) ||
        !(p->radiation_w_m2k >= 0.0 && p->radiation_w_m2k < 1e3) ||
        !(fabs(p->up_x * p->up_x + p->up_y * p->up_y - 1.0) < 1e-6)) {
        return pb_fail(err, PB_ERR_RANGE, "a property of the air is out of range");
    }
    if (!(p->tolerance >= 1e-12 && p->tolerance <= 0.1) || p->max_iterations < 1 ||
        p->max_iterations > 1000) {
        return pb_fail(err, PB_ERR_RANGE, "tolerance 1e-12 to 0.1 and 1 to 1000 steps expected");
    }
    if (p->has_inertia && p->flow != PB_HEAT_FLOW_VISCOUS) {
        return pb_fail(err, PB_ERR_RANGE, "inertia needs the viscous flow model");
    }
    return PB_OK;
}

static double *doubles(PbArena *a, size_t count)
{
    return pb_arena_take(a, count * sizeof(double));
}

static void lay_out_fields(PbHeatSection *s, PbArena *a)
{
    size_t nx = (size_t)s->nx, ny = (size_t)s->ny, cells = nx * ny;
    size_t corners = (nx + 1) * (ny + 1);
    s->x = doubles(a, nx + 1);
    s->y = doubles(a, ny + 1);
    s->dx = doubles(a, nx);
    s->dy = doubles(a, ny);
    s->k = doubles(a, cells);
    s->permeability = doubles(a, cells);
    s->no_radiation = s->setup.no_radiation ? pb_arena_take(a, cells) : NULL;
    s->gx = doubles(a, ny * (nx + 1));
    s->gy = doubles(a, (ny + 1) * nx);
    s->diagonal = doubles(a, cells);
    s->source = doubles(a, cells);
    s->t = doubles(a, cells);
    s->t_delta = doubles(a, cells);
    s->energy_rhs = doubles(a, cells);
    size_t runs = s->setup.radiation_w_m2k > 0.0 ? ny * ((nx + 1) / 2) : 0;
    s->links = pb_arena_take_unset(a, runs * 16 * sizeof(PbHeatLink));
    s->is_free = pb_arena_take(a, corners);
    s->wx = doubles(a, corners);
    s->wy = doubles(a, corners);
    s->corner = doubles(a, corners);
    s->corner2 = doubles(a, corners);
    s->vorticity = doubles(a, corners);
    s->vorticity2 = doubles(a, corners);
    s->temperature_out = doubles(a, cells);
    s->psi_out = doubles(a, corners);
    s->left_c = doubles(a, ny);
    s->right_c = doubles(a, ny);
    s->left_w = doubles(a, ny);
    s->right_w = doubles(a, ny);
}

static void lay_out_energy(PbHeatSection *s, PbArena *a)
{
    /* Radiation ties cells of a row however far apart, so rows must then be the short way. */
    int x_first = s->nx <= s->ny || s->setup.radiation_w_m2k > 0.0;
    s->cell_i = x_first ? 1 : s->ny;
    s->cell_j = x_first ? s->nx : 1;
    pb_band_layout(&s->energy, s->nx * s->ny, x_first ? s->nx : s->ny, 0, a);
}

/* Needs i0..j1. Viscous terms reach two corners each way, Darcy terms one. */
static void lay_out_flow(PbHeatSection *s, PbArena *a)
{
    int wide = s->i1 - s->i0 + 1, high = s->j1 - s->j0 + 1;
    s->has_flow = s->setup.flow != PB_HEAT_FLOW_NONE && wide > 0 && high > 0 &&
                  s->setup.expansion_1_k > 0.0 && s->setup.gravity_m_s2 > 0.0;
    if (!s->has_flow) {
        return;
    }
    int x_first = wide <= high;
    s->node_i = x_first ? 1 : high;
    s->node_j = x_first ? wide : 1;
    s->node_count = wide * high;
    int reach = s->setup.flow == PB_HEAT_FLOW_VISCOUS ? 2 : 1;
    int band = reach * (x_first ? wide : high);
    band = band < s->node_count ? band : s->node_count;
    pb_band_layout(&s->stream, s->node_count, band, 1, a);
    size_t n = (size_t)s->node_count;
    s->psi = doubles(a, n);
    s->psi_trial = doubles(a, n);
    s->residual = doubles(a, n);
    s->rhs = doubles(a, n);
    s->direction = doubles(a, n);
    s->psi_base = doubles(a, n);
    size_t cells = (size_t)s->nx * (size_t)s->ny;
    s->t_base = doubles(a, cells);
    s->t_turn = doubles(a, cells);
    s->t_now = doubles(a, cells);
    s->t_basis = pb_arena_take_unset(a, cells * TURNS_MAX * sizeof(double));
    s->krylov = pb_arena_take_unset(a, n * (GMRES_MAX + 2) * sizeof(double));
}

static size_t measure(PbHeatSection *s)
{
    PbArena a = {NULL, 0, 0};
    (void)pb_arena_take(&a, sizeof *s);
    lay_out_fields(s, &a);
    lay_out_energy(s, &a);
    lay_out_flow(s, &a);
    return a.used;
}

size_t pb_heat_section_bytes(const PbHeatSetup *setup)
{
    if (check_size(setup, NULL) != PB_OK) {
        return 0;
    }
    PbHeatSection s = {.setup = *setup, .nx = setup->nx, .ny = setup->ny};
    s.i0 = s.j0 = 1; /* as if every corner were free */
    s.i1 = s.nx - 1;
    s.j1 = s.ny - 1;
    return measure(&s);
}

static void copy_in(PbHeatSection *s, const PbHeatSetup *p)
{
    size_t nx = (size_t)p->nx, ny = (size_t)p->ny, cells = nx * ny;
    memcpy(s->x, p->x_m, (nx + 1) * sizeof(double));
    memcpy(s->y, p->y_m, (ny + 1) * sizeof(double));
    for (int i = 0; i < p->nx; i++) {
        s->dx[i] = s->x[i + 1] - s->x[i];
    }
    for (int j = 0; j < p->ny; j++) {
        s->dy[j] = s->y[j + 1] - s->y[j];
    }
    memcpy(s->k, p->k_w_mk, cells * sizeof(double));
    memcpy(s->permeability, p->permeability_m2, cells * sizeof(double));
    if (p->no_radiation != NULL) {
        memcpy(s->no_radiation, p->no_radiation, cells);
    }
    s->setup.x_m = s->x;
    s->setup.y_m = s->y;
    s->setup.k_w_mk = s->k;
    s->setup.permeability_m2 = s->permeability;
    s->setup.no_radiation = s->no_radiation;
}

static double middle_temperature(const PbHeatSide *side)
{
    double low = HUGE_VAL, high = -HUGE_VAL;
    for (int q = 0; q < PB_HEAT_SIDES; q++) {
        if (side[q].kind != PB_HEAT_ADIABATIC) {
            low = pb_min(low, side[q].temperature_c);
            high = pb_max(high, side[q].temperature_c);
        }
    }
    return 0.5 * (low + high);
}

PbStatus pb_heat_section_create(const PbHeatSetup *setup, const PbAllocator *allocator,
                                PbHeatSection **section, PbError *err)
{
    PB_TRY(check_setup(setup, err));
    /* The free corners decide the size of the flow part: find them in a first, larger block. */
    PbHeatSection shape = {.setup = *setup, .nx = setup->nx, .ny = setup->ny};
    size_t bytes = pb_heat_section_bytes(setup);
    void *block = allocator->alloc(allocator->user, bytes);
    if (block == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "no room for a section of %d x %d", setup->nx,
                       setup->ny);
    }
    PbArena a = {block, 0, bytes};
    PbHeatSection *s = pb_arena_take(&a, sizeof *s);
    *s = shape;
    s->allocator = *allocator;
    s->block = block;
    s->block_bytes = bytes;
    s->kernels = setup->kernels < 0 ? pb_band_kernels() : pb_band_kernels_level(setup->kernels);
    if (s->kernels == NULL) {
        allocator->free(allocator->user, block);
        return pb_fail(err, PB_ERR_RANGE, "this machine has no kernels of level %d",
                       setup->kernels);
    }
    lay_out_fields(s, &a);
    copy_in(s, setup);
    s->reference_c = middle_temperature(s->setup.side);
    pb_heat_flow_prepare(s);
    lay_out_energy(s, &a);
    lay_out_flow(s, &a);
    pb_heat_energy_prepare(s);
    *section = s;
    return PB_OK;
}

void pb_heat_section_destroy(PbHeatSection *section)
{
    if (section != NULL) {
        PbAllocator allocator = section->allocator;
        allocator.free(allocator.user, section->block);
    }
}

PbStatus pb_heat_section_set_sides(PbHeatSection *s, const PbHeatSide side[PB_HEAT_SIDES])
{
    PB_TRY(check_sides(side, NULL));
    for (int q = 0; q < PB_HEAT_SIDES; q++) {
        if (side[q].kind != s->setup.side[q].kind) {
            return PB_ERR_RANGE;
        }
    }
    memcpy(s->setup.side, side, sizeof s->setup.side);
    s->reference_c = middle_temperature(side);
    pb_heat_energy_prepare(s);
    return PB_OK;
}

PbStatus pb_heat_section_solve(PbHeatSection *s)
{
    s->result.iterations = s->result.inner_iterations = 0;
    s->result.factorisations = s->result.ramp_levels = 0;
    s->result.still_w_m = (double)NAN;
    if (s->has_flow) {
        PbStatus status = pb_heat_newton(s);
        if (status != PB_OK) {
            s->solved = 0;
            return status;
        }
        pb_heat_flow_to_corners(s, s->psi, s->corner);
    } else {
        memset(s->corner, 0, (size_t)(s->nx + 1) * (size_t)(s->ny + 1) * sizeof(double));
        if (!pb_heat_energy_factor(s, NULL)) {
            s->solved = 0;
            return PB_ERR_DIVERGED;
        }
        pb_heat_energy_solve(s, s->source, s->t);
    }
    s->solved = 1;
    pb_heat_collect(s);
    if (!s->has_flow) {
        s->result.still_w_m = s->result.heat_w_m[PB_HEAT_LEFT];
    }
    return isfinite(s->result.balance) ? PB_OK : PB_ERR_DIVERGED;
}

const PbHeatResult *pb_heat_section_result(const PbHeatSection *section)
{
    return &section->result;
}
