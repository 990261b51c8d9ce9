/* A whole bay: cut into strips, solve each different one, put the wall together.
 *
 * Reads from top to bottom: check, cut, solve, sum up by ISO 6946, range, leakage, picture. Strips
 * are in bay_strip.c, the picture in bay_map.c, air leakage in bay_leak.c.
 */
#include "heat/bay.h"

#include "core/material.h"
#include "core/pb_math.h"
#include "heat/grid.h"

#include <math.h>
#include <string.h>

PbHeatBaySetup pb_heat_bay_default(const PbBayField *field)
{
    PbHeatBaySetup s;
    memset(&s, 0, sizeof s);
    s.field = field;
    s.room_c = 20.0;
    s.outdoor_c = 0.0;
    s.strips = 12;
    s.nx = 32;
    s.ny = 128;
    s.map_nx = 48;
    s.map_ny = 160;
    return s;
}

static PbStatus check_gap(const PbHeatGap *g, const PbBayField *f, int n, PbError *err)
{
    double slack = 1e-9;
    if (!(g->x0_m >= -slack && g->x1_m <= f->width_m + slack && g->y0_m >= -slack &&
          g->y1_m <= f->height_m + slack && g->z0_m >= -slack && g->z1_m <= f->depth_m + slack)) {
        return pb_fail(err, PB_ERR_RANGE, "gap %d reaches outside the bay", n + 1);
    }
    if (!(g->x1_m > g->x0_m && g->y1_m > g->y0_m && g->z1_m > g->z0_m)) {
        return pb_fail(err, PB_ERR_RANGE, "gap %d has no size", n + 1);
    }
    return PB_OK;
}

static PbStatus check(const PbHeatBaySetup *s, PbError *err)
{
    if (s->field == NULL || s->field->density_kg_m3 == NULL) {
        return pb_fail(err, PB_ERR_RANGE, "no density field");
    }
    if (s->strips < 1 || s->strips > 32 || s->nx < 16 || s->ny < 16 || s->nx > 512 ||
        s->ny > PB_HEAT_MAX_LINES || s->gap_count < 0 || s->gap_count > PB_HEAT_MAX_GAPS) {
        return pb_fail(err, PB_ERR_RANGE,
                       "expected 1 to 32 strips, a grid of 16 x 16 to 512 x 2048, at most 64 gaps");
    }
    if (s->map_nx < 0 || s->map_ny < 0 || s->map_nx > 512 || s->map_ny > 2048 ||
        (s->map_nx > 0) != (s->map_ny > 0) || (s->map_nx > 0 && (s->map_nx < 8 || s->map_ny < 8))) {
        return pb_fail(err, PB_ERR_RANGE, "expected a picture of 8 x 8 to 512 x 2048, or none");
    }
    if (!(fabs(s->room_c) <= 100.0) || !(fabs(s->outdoor_c) <= 100.0) ||
        !(fabs(s->room_c - s->outdoor_c) >= 0.1)) {
        return pb_fail(err, PB_ERR_RANGE,
                       "expected temperatures within 100 C of 0 and at least 0.1 K apart");
    }
    PB_TRY(pb_wall_check(&s->wall, NULL, err));
    if (s->fill.is_foam && !(s->fill.k_w_mk >= 1e-4 && s->fill.k_w_mk <= 500.0 &&
                             s->fill.permeability_m2 > 0.0 && s->fill.permeability_m2 < 1e-3)) {
        return pb_fail(err, PB_ERR_RANGE,
                       "conductivity or permeability of the foam is out of range");
    }
    PbHeatSetup section = pb_heat_setup_default();
    section.nx = s->nx;
    section.ny = s->ny;
    section.radiation_w_m2k = 1.0; /* rows are then the short way of the matrix, however long */
    if (pb_heat_section_bytes(&section) > PB_HEAT_MAX_BYTES) {
        return pb_fail(err, PB_ERR_RANGE,
                       "a grid of %d x %d needs more than 1 GiB, expected a coarser one", s->nx,
                       s->ny);
    }
    if (pb_bay_map_bytes(s->map_nx, s->map_ny) > PB_HEAT_MAX_BYTES) {
        return pb_fail(err, PB_ERR_RANGE,
                       "a picture of %d x %d needs more than 1 GiB, expected a coarser one",
                       s->map_nx, s->map_ny);
    }
    for (size_t i = 0; i < (size_t)s->field->nx * (size_t)s->field->ny; i++) {
        double d = s->field->density_kg_m3[i], f = s->field->free_frac[i];
        double batt = s->field->batt_frac[i];
        /* Fill that settled beside a narrowing is counted on the narrow cell's small free share, up
         * to 25 times its density; little of that cell is fill, so little heat goes by it. */
        if (!(d >= 0.0 && d <= 5000.0) || !(f >= 0.0 && f <= 1.0 + 1e-9) ||
            !(batt >= 0.0 && batt <= 1.0 - f + 1e-9)) {
            return pb_fail(err, PB_ERR_RANGE,
                           "cell %zu of the density field is out of range: %g kg/m3, free share "
                           "%g, batt share %g",
                           i, d, f, batt);
        }
    }
    for (int n = 0; n < s->gap_count; n++) {
        PB_TRY(check_gap(&s->gaps[n], s->field, n, err));
    }
    return PB_OK;
}

/* Narrow sides of gaps times bay->gap_scale, kept against the face, stud or plate they lie at. */
static void scale_side(double *lo, double *hi, double whole, double scale)
{
    double width = *hi - *lo;
    if (width >= PB_HEAT_VOID_WIDTH_M) {
        return;
    }
    double wanted = width * scale;
    if (*lo <= 1e-9) {
        *hi = wanted;
    } else if (*hi >= whole - 1e-9) {
        *lo = *hi - wanted;
    } else {
        double mid = 0.5 * (*lo + *hi);
        *lo = mid - 0.5 * wanted;
        *hi = mid + 0.5 * wanted;
    }
}

static void scale_gaps(PbHeatBay *bay)
{
    const PbBayField *f = bay->setup.field;
    memcpy(bay->gaps, bay->setup.gaps, sizeof bay->gaps);
    for (int g = 0; g < bay->setup.gap_count && bay->gap_scale != 1.0; g++) {
        scale_side(&bay->gaps[g].x0_m, &bay->gaps[g].x1_m, f->width_m, bay->gap_scale);
        scale_side(&bay->gaps[g].y0_m, &bay->gaps[g].y1_m, f->height_m, bay->gap_scale);
        scale_side(&bay->gaps[g].z0_m, &bay->gaps[g].z1_m, f->depth_m, bay->gap_scale);
    }
}

/* Cuts across the width: edge strips where a slot lies at a stud, the rest even. */
static void cut_strips(PbHeatBay *bay)
{
    const PbBayField *f = bay->setup.field;
    double edge = pb_min(bay->constants.slot_strip_m, 0.25 * f->width_m);
    double from = 0.0, to = f->width_m;
    int count = 0;
    for (int g = 0; g < bay->setup.gap_count; g++) {
        const PbHeatGap *gap = &bay->gaps[g];
        if (gap->x1_m - gap->x0_m < edge) {
            from = gap->x0_m < edge ? edge : from;
            to = gap->x1_m > f->width_m - edge ? f->width_m - edge : to;
        }
    }
    if (from > 0.0) {
        bay->strip[count].view.x0_m = 0.0;
        bay->strip[count++].view.x1_m = from;
    }
    for (int n = 0; n < bay->setup.strips; n++) {
        bay->strip[count].view.x0_m = from + (to - from) * n / bay->setup.strips;
        bay->strip[count++].view.x1_m = from + (to - from) * (n + 1) / bay->setup.strips;
    }
    if (to < f->width_m) {
        bay->strip[count].view.x0_m = to;
        bay->strip[count++].view.x1_m = f->width_m;
    }
    bay->strip_count = count;
}

typedef struct Jobs {
    PbHeatBay *bay;
    int strip[PB_HEAT_MAX_STRIPS];
    int count;
} Jobs;

static void run_job(void *context, int index)
{
    Jobs *jobs = context;
    pb_bay_solve_strip(jobs->bay, jobs->strip[index]);
}

static PbStatus solve_strips(PbHeatBay *bay, PbError *err)
{
    Jobs jobs = {.bay = bay};
    scale_gaps(bay);
    cut_strips(bay);
    for (int i = 0; i < bay->strip_count; i++) {
        PbBayStrip *s = &bay->strip[i];
        s->view.same_as = i;
        for (int q = 0; q < i; q++) {
            if (bay->strip[q].view.same_as == q && pb_bay_strips_match(bay, q, i)) {
                s->view.same_as = q;
                break;
            }
        }
        if (s->view.same_as == i) {
            jobs.strip[jobs.count++] = i;
        }
    }
    if (bay->setup.parallel != NULL) {
        bay->setup.parallel(bay->setup.parallel_user, jobs.count, run_job, &jobs);
    } else {
        for (int i = 0; i < jobs.count; i++) {
            run_job(&jobs, i);
        }
    }
    for (int i = 0; i < bay->strip_count; i++) {
        PbBayStrip *s = &bay->strip[i];
        if (s->view.same_as != i) {
            PbHeatStrip own = s->view;
            *s = bay->strip[own.same_as];
            s->block = NULL; /* the arrays belong to the first of them */
            s->view.x0_m = own.x0_m;
            s->view.x1_m = own.x1_m;
            s->view.same_as = own.same_as;
        }
        if (s->status == PB_ERR_RANGE) {
            return pb_fail(err, s->status,
                           "strip %d of the bay: a grid of %d x %d is too coarse for its gaps, "
                           "expected some 8 rows for each",
                           i + 1, bay->setup.nx, bay->setup.ny);
        }
        if (s->status != PB_OK) {
            return pb_fail(err, s->status, "strip %d of the bay: no steady state was reached",
                           i + 1);
        }
    }
    bay->result.solved_strips = jobs.count;
    return PB_OK;
}

static double mean_u(const PbHeatBay *bay)
{
    double sum = 0.0;
    for (int i = 0; i < bay->strip_count; i++) {
        const PbHeatStrip *v = &bay->strip[i].view;
        sum += v->u_w_m2k * (v->x1_m - v->x0_m);
    }
    return sum / bay->setup.field->width_m;
}

/* ISO 6946: upper limit by parallel paths, lower limit by a mean cavity layer. Strips are narrow
 * parallel paths of the cavity in both. */
static void wall_limits(const PbHeatBay *bay, const double *u, const double *width, int count,
                        double *upper, double *lower)
{
    const PbConstants *c = &bay->constants;
    double outer = pb_wall_skin_r(&bay->skin), whole = c->stud_width_m;
    double stud_layer = bay->setup.field->depth_m / c->wood_k_w_mk;
    double paths = c->stud_width_m / (outer + stud_layer);
    double layer = c->stud_width_m / stud_layer;
    for (int i = 0; i < count; i++) {
        paths += width[i] * u[i];
        layer += width[i] / pb_max(1.0 / u[i] - outer, 1e-9);
        whole += width[i];
    }
    *upper = whole / paths;
    *lower = outer + whole / layer;
}

static double wall_u(const PbHeatBay *bay, const double *u, const double *width, int count)
{
    double upper, lower;
    wall_limits(bay, u, width, count, &upper, &lower);
    return 2.0 / (upper + lower);
}

static double strip_wall_u(const PbHeatBay *bay)
{
    double u[PB_HEAT_MAX_STRIPS], width[PB_HEAT_MAX_STRIPS];
    for (int i = 0; i < bay->strip_count; i++) {
        u[i] = bay->strip[i].view.u_w_m2k;
        width[i] = bay->strip[i].view.x1_m - bay->strip[i].view.x0_m;
    }
    return wall_u(bay, u, width, bay->strip_count);
}

static double perfect_u(const PbHeatBay *bay)
{
    const PbConstants *c = &bay->constants;
    double k = bay->setup.fill.is_foam ? bay->setup.fill.k_w_mk
                                       : pb_material_conductivity(c, c->perfect_fill_kg_m3);
    return 1.0 / (pb_wall_skin_r(&bay->skin) + bay->setup.field->depth_m / k);
}

static void sum_up(PbHeatBay *bay)
{
    PbHeatBayResult *r = &bay->result;
    const PbConstants *c = &bay->constants;
    double u[PB_HEAT_MAX_STRIPS], width[PB_HEAT_MAX_STRIPS];
    double whole = bay->setup.field->width_m;
    r->strip_count = bay->strip_count;
    r->surface_min_c = HUGE_VAL;
    r->surface_max_c = -HUGE_VAL;
    for (int i = 0; i < bay->strip_count; i++) {
        const PbBayStrip *s = &bay->strip[i];
        u[i] = s->view.u_w_m2k;
        width[i] = s->view.x1_m - s->view.x0_m;
        r->balance = pb_max(r->balance, s->view.balance);
        r->iterations_max =
            s->view.iterations > r->iterations_max ? s->view.iterations : r->iterations_max;
        r->surface_min_c = pb_min(r->surface_min_c, s->surface_min_c);
        r->surface_max_c = pb_max(r->surface_max_c, s->surface_max_c);
    }
    r->u_cavity_w_m2k = mean_u(bay);
    r->u_stud_w_m2k =
        1.0 / (pb_wall_skin_r(&bay->skin) + bay->setup.field->depth_m / c->wood_k_w_mk);
    wall_limits(bay, u, width, bay->strip_count, &r->r_upper_m2k_w, &r->r_lower_m2k_w);
    r->r_m2k_w = 0.5 * (r->r_upper_m2k_w + r->r_lower_m2k_w);
    r->u_w_m2k = 1.0 / r->r_m2k_w;
    r->u_perfect_cavity_w_m2k = perfect_u(bay);
    r->r_perfect_m2k_w = 1.0 / wall_u(bay, &r->u_perfect_cavity_w_m2k, &whole, 1);
    double ratio = r->u_cavity_w_m2k / r->u_perfect_cavity_w_m2k;
    double wall = r->u_w_m2k * r->r_perfect_m2k_w;
    r->heat_ratio = (PbHeatRange){ratio, ratio, ratio};
    r->wall_ratio = (PbHeatRange){wall, wall, wall};
}

/* Worst case of gap widths and void films either way; conductivity of the fill moves both walls
 * alike and hardly moves the ratio. */
static PbStatus add_range(PbHeatBay *bay, PbError *err)
{
    const PbConstants shipped = bay->constants;
    for (int side = 0; side < 2; side++) {
        PbHeatBay *other = bay->allocator.alloc(bay->allocator.user, sizeof *other);
        if (other == NULL) {
            return pb_fail(err, PB_ERR_MEMORY, "no room for the range");
        }
        memset(other, 0, sizeof *other);
        other->setup = bay->setup;
        other->constants = shipped;
        other->skin = bay->skin;
        other->allocator = bay->allocator;
        double spread = shipped.gap_spread_frac;
        const PbConstantInfo *film = pb_constant_find("void_convection_w_m2k");
        const PbConstantInfo *glow = pb_constant_find("gap_radiation_w_m2k");
        other->gap_scale = side ? 1.0 + spread : 1.0 - spread;
        if (film != NULL && glow != NULL) {
            other->constants.void_convection_w_m2k = side ? film->high : film->low;
            other->constants.gap_radiation_w_m2k = side ? glow->high : glow->low;
        }
        PbStatus status = solve_strips(other, err);
        if (status == PB_OK) {
            PbHeatBayResult *r = &bay->result;
            double ratio = mean_u(other) / r->u_perfect_cavity_w_m2k;
            double wall = strip_wall_u(other) * r->r_perfect_m2k_w;
            r->heat_ratio.low = pb_min(r->heat_ratio.low, ratio);
            r->heat_ratio.high = pb_max(r->heat_ratio.high, ratio);
            r->wall_ratio.low = pb_min(r->wall_ratio.low, wall);
            r->wall_ratio.high = pb_max(r->wall_ratio.high, wall);
        }
        pb_bay_free_strips(other);
        bay->allocator.free(bay->allocator.user, other);
        PB_TRY(status);
    }
    return PB_OK;
}

static const double litres_per_m3 = 1000.0;

static PbStatus solve(PbHeatBay *bay, PbError *err)
{
    bay->gap_scale = 1.0;
    bay->skin = pb_wall_skin(&bay->setup.wall, &bay->constants);
    PB_TRY(solve_strips(bay, err));
    sum_up(bay);
    if (bay->setup.with_range) {
        PB_TRY(add_range(bay, err));
    }
    bay->result.leak_50_l_s = litres_per_m3 * pb_bay_leak(bay, 50.0, 0);
    bay->result.leak_75_l_s = litres_per_m3 * pb_bay_leak(bay, 75.0, 0);
    bay->result.leak_perfect_75_l_s = litres_per_m3 * pb_bay_leak(bay, 75.0, 1);
    pb_bay_leak_left(bay, 50.0, &bay->result);
    size_t held = 0, most = 0, cells = (size_t)bay->setup.nx * (size_t)bay->setup.ny;
    for (int i = 0; i < bay->strip_count; i++) {
        held += bay->strip[i].block != NULL ? 4 * cells * sizeof(double) : 0;
        most = bay->strip[i].bytes > most ? bay->strip[i].bytes : most;
    }
    bay->result.peak_bytes = sizeof *bay + held + most;
    PbStatus status = bay->setup.map_nx > 0 ? pb_bay_map(bay) : PB_OK;
    return status == PB_OK ? PB_OK : pb_fail(err, status, "no room-side picture of the bay");
}

PbStatus pb_heat_bay_solve(const PbHeatBaySetup *setup, const PbConstants *constants,
                           const PbAllocator *allocator, PbHeatBay **bay, PbError *err)
{
    PB_TRY(check(setup, err));
    PbHeatBay *b = allocator->alloc(allocator->user, sizeof *b);
    if (b == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "no room for a bay");
    }
    memset(b, 0, sizeof *b);
    b->setup = *setup;
    b->constants = *constants;
    b->allocator = *allocator;
    PbStatus status = solve(b, err);
    if (status != PB_OK) {
        pb_heat_bay_destroy(b);
        return status == PB_ERR_MEMORY ? pb_fail(err, status, "no room for the heat of a bay")
                                       : status;
    }
    b->setup.field = NULL; /* borrowed for the call only */
    *bay = b;
    return PB_OK;
}

void pb_heat_bay_destroy(PbHeatBay *bay)
{
    if (bay == NULL) {
        return;
    }
    PbAllocator allocator = bay->allocator;
    pb_bay_free_strips(bay);
    if (bay->map != NULL) {
        allocator.free(allocator.user, bay->map);
    }
    allocator.free(allocator.user, bay);
}

const PbHeatBayResult *pb_heat_bay_result(const PbHeatBay *bay)
{
    return &bay->result;
}

const PbHeatStrip *pb_heat_bay_strip(const PbHeatBay *bay, int index)
{
    return &bay->strip[index].view;
}
