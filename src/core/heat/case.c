/* A case of rectangles: judged, gridded, painted onto cells, solved. */
#include "core/heat_case.h"

#include "core/pb_math.h"
#include "heat/grid.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

/* Cells wished across a span at its ends, and their growth: open air needs even, fine cells; in
 * solids and fill the temperature is near linear. */
static const double air_cells = 10.0, air_growth = 0.1;
static const double fill_cells = 5.0, fill_growth = 0.8;
/* A lone medium: end cells are smaller than even ones by this share. */
static const double lone_crowding = 0.8;

PbHeatCase pb_heat_case_default(void)
{
    PbHeatCase c;
    memset(&c, 0, sizeof c);
    c.width_m = c.height_m = 1.0;
    c.background = (PbHeatMaterial){PB_HEAT_SOLID, 1.0, 0.0};
    c.nx = c.ny = 32;
    c.physics = pb_heat_setup_default();
    return c;
}

void pb_heat_case_dimensionless(PbHeatCase *c, PbHeatKind kind, double ra, double pr, double da,
                                double aspect)
{
    c->width_m = 1.0;
    c->height_m = aspect;
    c->background.k_w_mk = 1.0;
    c->background.kind = kind == PB_HEAT_KIND_AIR ? PB_HEAT_AIR : PB_HEAT_POROUS;
    c->background.permeability_m2 = kind == PB_HEAT_KIND_BRINKMAN ? da : 1.0;
    c->physics.heat_capacity_j_m3k = 1.0;
    c->physics.viscosity_m2_s = kind == PB_HEAT_KIND_AIR ? pr : 1.0;
    c->physics.expansion_1_k = 1.0;
    c->physics.gravity_m_s2 =
        kind == PB_HEAT_KIND_AIR ? ra * pr : ra / c->background.permeability_m2;
    c->physics.flow = kind == PB_HEAT_KIND_DARCY ? PB_HEAT_FLOW_DARCY : PB_HEAT_FLOW_VISCOUS;
    c->physics.has_inertia = kind == PB_HEAT_KIND_AIR;
    c->physics.side[PB_HEAT_LEFT] = (PbHeatSide){PB_HEAT_FIXED, 1.0, 0.0};
    c->physics.side[PB_HEAT_RIGHT] = (PbHeatSide){PB_HEAT_FIXED, 0.0, 0.0};
}

static PbStatus refuse(char *field, size_t size, const char *path, int index, PbError *err,
                       const char *message)
{
    if (field != NULL && size > 0) {
        if (index >= 0) {
            snprintf(field, size, "regions/%d/%s", index, path);
        } else {
            snprintf(field, size, "%s", path);
        }
    }
    return pb_fail(err, PB_ERR_RANGE, "%s", message);
}

/* What is wrong with a material, and under which key of it; NULL when nothing is. */
static const char *material_fault(const PbHeatMaterial *m, const char **key)
{
    *key = "k_w_mk";
    if (!(m->k_w_mk >= 1e-4 && m->k_w_mk <= 500.0)) {
        return "expected a conductivity from 1e-4 to 500 W/(m K)";
    }
    *key = "permeability_m2";
    if (m->kind == PB_HEAT_POROUS && !(m->permeability_m2 > 0.0 && m->permeability_m2 < 1e6)) {
        return "expected a permeability above 0 and below 1e6 m2";
    }
    return NULL;
}

static int overlap(const PbHeatRegion *a, const PbHeatRegion *b)
{
    double slack = 1e-9;
    return a->x0_m < b->x1_m - slack && b->x0_m < a->x1_m - slack && a->y0_m < b->y1_m - slack &&
           b->y0_m < a->y1_m - slack;
}

static PbStatus check_region(const PbHeatCase *c, int n, char *field, size_t size, PbError *err)
{
    const PbHeatRegion *r = &c->regions[n];
    double slack = 1e-9 * (c->width_m + c->height_m);
    if (!(r->x0_m >= -slack && r->x1_m <= c->width_m + slack)) {
        return refuse(field, size, "x_m", n, err, "region reaches outside the rectangle in x");
    }
    if (!(r->y0_m >= -slack && r->y1_m <= c->height_m + slack)) {
        return refuse(field, size, "y_m", n, err, "region reaches outside the rectangle in y");
    }
    if (!(r->x1_m - r->x0_m > slack)) {
        return refuse(field, size, "x_m", n, err, "expected x from a lower to a higher value");
    }
    if (!(r->y1_m - r->y0_m > slack)) {
        return refuse(field, size, "y_m", n, err, "expected y from a lower to a higher value");
    }
    const char *key, *fault = material_fault(&r->material, &key);
    if (fault != NULL) {
        return refuse(field, size, key, n, err, fault);
    }
    if (c->physics.flow == PB_HEAT_FLOW_DARCY && r->material.kind == PB_HEAT_AIR) {
        return refuse(field, size, "kind", n, err, "open air needs \"flow\": \"viscous\"");
    }
    for (int q = 0; q < n; q++) {
        if (overlap(r, &c->regions[q])) {
            char text[96];
            snprintf(text, sizeof text, "region %d overlaps region %d", n + 1, q + 1);
            return refuse(field, size, "x_m", n, err, text);
        }
    }
    return PB_OK;
}

PbStatus pb_heat_case_check(const PbHeatCase *c, char *field, size_t size, PbError *err)
{
    if (!(c->width_m > 0.0 && c->width_m <= 1000.0)) {
        return refuse(field, size, "width_m", -1, err, "expected a width above 0 to 1000 m");
    }
    if (!(c->height_m > 0.0 && c->height_m <= 1000.0)) {
        return refuse(field, size, "height_m", -1, err, "expected a height above 0 to 1000 m");
    }
    if (c->nx < 2 || c->ny < 2 || c->nx > PB_HEAT_MAX_LINES || c->ny > PB_HEAT_MAX_LINES ||
        c->nx * c->ny > PB_HEAT_MAX_CELLS) {
        return refuse(field, size, "grid", -1, err,
                      "expected 2 to 2048 cells each way and at most 400000 in all");
    }
    PbHeatSetup size_only = c->physics;
    size_only.nx = c->nx;
    size_only.ny = c->ny;
    if (pb_heat_section_bytes(&size_only) > PB_HEAT_MAX_BYTES) {
        return refuse(
            field, size, "grid", -1, err,
            "grid needs more than 1 GiB; its shorter side should be below about 300 cells");
    }
    const char *key, *fault = material_fault(&c->background, &key);
    if (fault != NULL) {
        return refuse(field, size, "background", -1, err, fault);
    }
    if (c->physics.flow == PB_HEAT_FLOW_DARCY && c->background.kind == PB_HEAT_AIR) {
        return refuse(field, size, "background", -1, err, "open air needs \"flow\": \"viscous\"");
    }
    for (int n = 0; n < c->region_count; n++) {
        PB_TRY(check_region(c, n, field, size, err));
    }
    for (int n = 0; n < c->probe_count; n++) {
        const PbHeatProbe *p = &c->probes[n];
        double slack = 1e-9;
        if (!(p->x_m >= -slack && p->x_m <= c->width_m + slack && p->y_m >= -slack &&
              p->y_m <= c->height_m + slack)) {
            return refuse(field, size, "probes", -1, err, "probe lies outside the rectangle");
        }
    }
    return PB_OK;
}

/* Material of the point, by the region that holds it. */
static const PbHeatMaterial *material_at(const PbHeatCase *c, double x, double y)
{
    for (int n = 0; n < c->region_count; n++) {
        const PbHeatRegion *r = &c->regions[n];
        if (x > r->x0_m && x < r->x1_m && y > r->y0_m && y < r->y1_m) {
            return &c->regions[n].material;
        }
    }
    return &c->background;
}

/* 1 when there is open air somewhere across the strip lo..hi of axis 0 (x) or 1 (y). */
static int has_air(const PbHeatCase *c, int axis, double lo, double hi)
{
    double mid = 0.5 * (lo + hi);
    if (c->background.kind == PB_HEAT_AIR) {
        return 1;
    }
    for (int n = 0; n < c->region_count; n++) {
        const PbHeatRegion *r = &c->regions[n];
        double a = axis ? r->y0_m : r->x0_m, b = axis ? r->y1_m : r->x1_m;
        if (r->material.kind == PB_HEAT_AIR && mid > a && mid < b) {
            return 1;
        }
    }
    return 0;
}

static int make_lines(const PbHeatCase *c, int axis, int n, double *line)
{
    double at[2 * PB_HEAT_MAX_REGIONS + 2];
    PbGridSpan span[2 * PB_HEAT_MAX_REGIONS + 2];
    double whole = axis ? c->height_m : c->width_m;
    int count = 0;
    at[count++] = 0.0;
    at[count++] = whole;
    for (int q = 0; q < c->region_count; q++) {
        const PbHeatRegion *r = &c->regions[q];
        at[count++] = pb_limit(axis ? r->y0_m : r->x0_m, 0.0, whole);
        at[count++] = pb_limit(axis ? r->y1_m : r->x1_m, 0.0, whole);
    }
    count = pb_grid_sort(at, count, 1e-7 * whole);
    at[count - 1] = whole;
    if (count == 2) {
        for (int i = 0; i <= n; i++) {
            double q = (double)i / n;
            line[i] = whole * (q - lone_crowding / (2.0 * PB_PI) * pb_sin(2.0 * PB_PI * q));
        }
        line[0] = 0.0;
        line[n] = whole;
        return 1;
    }
    for (int q = 0; q + 1 < count; q++) {
        int air = has_air(c, axis, at[q], at[q + 1]);
        double length = at[q + 1] - at[q];
        double growth = air && length < 0.05 * whole + 0.02 ? air_growth : fill_growth;
        span[q] = (PbGridSpan){length, length / (air ? air_cells : fill_cells),
                               axis ? 0.25 * growth + 0.1 : growth, 2};
    }
    return pb_grid_lines(span, count - 1, 0.0, n, line);
}

/* Arrays of a case on its grid, in one block. */
typedef struct Painted {
    double *x, *y, *k, *permeability;
    unsigned char *no_radiation;
} Painted;

static size_t lay_out(const PbHeatCase *c, PbArena *a, Painted *p)
{
    size_t cells = (size_t)c->nx * (size_t)c->ny;
    p->x = pb_arena_take(a, (size_t)(c->nx + 1) * sizeof(double));
    p->y = pb_arena_take(a, (size_t)(c->ny + 1) * sizeof(double));
    p->k = pb_arena_take(a, cells * sizeof(double));
    p->permeability = pb_arena_take(a, cells * sizeof(double));
    p->no_radiation = pb_arena_take(a, cells);
    return a->used;
}

static void paint(const PbHeatCase *c, Painted *p)
{
    for (int j = 0; j < c->ny; j++) {
        for (int i = 0; i < c->nx; i++) {
            const PbHeatMaterial *m =
                material_at(c, 0.5 * (p->x[i] + p->x[i + 1]), 0.5 * (p->y[j] + p->y[j + 1]));
            int n = j * c->nx + i;
            p->k[n] = m->k_w_mk;
            p->permeability[n] = m->kind == PB_HEAT_AIR     ? HUGE_VAL
                                 : m->kind == PB_HEAT_SOLID ? 0.0
                                                            : m->permeability_m2;
        }
    }
}

/* Open air that the case does not want solved. air_k: of the first open cell. */
static void fill_voids(const PbHeatCase *c, const PbHeatSetup *setup, Painted *p)
{
    PbHeatVoids v = {.radiation_w_m2k = setup->radiation_w_m2k,
                     .convection_w_m2k = c->void_convection_w_m2k};
    for (int n = c->nx * c->ny - 1; n >= 0; n--) {
        v.air_k_w_mk = isinf(p->permeability[n]) ? p->k[n] : v.air_k_w_mk;
    }
    if (c->void_convection_w_m2k > 0.0) {
        pb_heat_wide_voids(setup, &v, p->k, p->permeability, p->no_radiation);
    }
}

/* One solve on the painted grid. @return as pb_heat_section_solve; *section is NULL unless PB_OK */
static PbStatus solve_painted(const PbHeatSetup *setup, const PbAllocator *allocator,
                              PbHeatSection **section, PbError *err)
{
    *section = NULL;
    PB_TRY(pb_heat_section_create(setup, allocator, section, err));
    PbStatus status = pb_heat_section_solve(*section);
    if (status != PB_OK) {
        pb_heat_section_destroy(*section);
        *section = NULL;
        return pb_fail(err, status, "no steady state was reached on this grid");
    }
    return PB_OK;
}

PbStatus pb_heat_case_solve(PbHeatCase *c, const PbAllocator *allocator, PbHeatSection **section,
                            PbError *err)
{
    char field[64];
    PB_TRY(pb_heat_case_check(c, field, sizeof field, err));
    Painted p;
    PbArena a = {NULL, 0, 0};
    size_t bytes = lay_out(c, &a, &p);
    void *block = allocator->alloc(allocator->user, bytes);
    if (block == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "no room for a grid of %d x %d", c->nx, c->ny);
    }
    a = (PbArena){block, 0, bytes};
    (void)lay_out(c, &a, &p);
    PbHeatSection *s = NULL;
    PbStatus status = PB_OK;
    c->is_mean = 0;
    if (!make_lines(c, 0, c->nx, p.x) || !make_lines(c, 1, c->ny, p.y)) {
        status = pb_fail(err, PB_ERR_RANGE,
                         "grid %d x %d is too coarse: every region needs two cells each way", c->nx,
                         c->ny);
    } else {
        PbHeatSetup setup = c->physics;
        setup.nx = c->nx;
        setup.ny = c->ny;
        setup.x_m = p.x;
        setup.y_m = p.y;
        setup.k_w_mk = p.k;
        setup.permeability_m2 = p.permeability;
        setup.no_radiation = c->void_convection_w_m2k > 0.0 ? p.no_radiation : NULL;
        paint(c, &p);
        fill_voids(c, &setup, &p);
        status = solve_painted(&setup, allocator, &s, err);
        if (status == PB_ERR_NO_RESULT &&
            pb_heat_mean_slots(&setup, p.k, p.permeability, p.no_radiation)) {
            setup.no_radiation = p.no_radiation;
            c->is_mean = 1;
            status = solve_painted(&setup, allocator, &s, err);
        }
    }
    allocator->free(allocator->user, block);
    PB_TRY(status);
    for (int n = 0; n < c->probe_count; n++) {
        c->probes[n].t_c = pb_heat_section_probe(s, c->probes[n].x_m, c->probes[n].y_m);
    }
    *section = s;
    return PB_OK;
}

PbHeatNusselt pb_heat_case_nusselt(const PbHeatCase *c, const PbHeatResult *r)
{
    const PbHeatSide *left = &c->physics.side[PB_HEAT_LEFT];
    const PbHeatSide *right = &c->physics.side[PB_HEAT_RIGHT];
    PbHeatNusselt n = {(double)NAN, (double)NAN, (double)NAN};
    double conducted =
        c->background.k_w_mk * (left->temperature_c - right->temperature_c) / c->width_m;
    if (left->kind != PB_HEAT_FIXED || right->kind != PB_HEAT_FIXED || conducted == 0.0) {
        return n;
    }
    n.mean = r->heat_w_m[PB_HEAT_LEFT] / (conducted * c->height_m);
    n.highest = -HUGE_VAL;
    n.lowest = HUGE_VAL;
    for (int j = 0; j < r->ny; j++) {
        double local = r->left_w_m2[j] / conducted;
        n.highest = pb_max(n.highest, local);
        n.lowest = pb_min(n.lowest, local);
    }
    return n;
}
