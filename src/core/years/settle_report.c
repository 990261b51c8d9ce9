/*
 * Measuring the slices and handing them on: gaps, voids, the emptiest patch, and the remap onto a
 * grid that heat and drawings read. Every length is split exactly, so mass is kept to rounding.
 */
#include "years/settle_private.h"

#include "core/pb_math.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#define PATCH_M 0.1

int settle_patch_count(double length_m)
{
    int n = (int)floor(length_m / PATCH_M + 0.5);
    return n < 1 ? 1 : n;
}

double pb_field_mass_kg(const PbBayField *f)
{
    double cell = f->width_m / f->nx * (f->height_m / f->ny) * f->depth_m;
    double sum = 0.0;
    for (size_t i = 0; i < (size_t)f->nx * (size_t)f->ny; i++) {
        sum += f->density_kg_m3[i] * f->free_frac[i];
    }
    return sum * cell;
}

/*
 * Gap that settling onto the lower face of a slope leaves at its upper face: the creep of equation
 * (3) under the weight across the depth, at the present density along the bay. Grip of the studs
 * and the push of packed fill against both faces are left out, so the gap is an upper estimate.
 */
static double face_gap(const PbSettle *s, size_t c)
{
    enum { LAYERS = 4 };
    double depth = s->depth_m * s->share[c];
    double dry = s->dry_kg_m2[c] / s->thick_m[c];
    double weight = dry * (1.0 + s->moisture) * s->law.across_m_s2 * depth;
    SettleStep now = settle_step_numbers(&s->law, 0.5, s->across_years);
    double left = 0.0;
    if (!(weight > 0.0)) {
        return 0.0;
    }
    double ln_rate = now.ln_rate + now.exponent * (s->ln_dry[c] - s->ln_ref[c]);
    for (int i = 0; i < LAYERS; i++) {
        double load = weight * (i + 0.5) / LAYERS;
        double grown = 1.0 + pb_exp(now.power * (pb_log(load) - ln_rate)) * now.creep_time;
        left += pb_exp(-pb_log(grown) * now.inv_creep) / LAYERS;
    }
    return depth * (1.0 - left);
}

/* Gaps and closure of one column, added to the report. */
static void measure_column(const PbSettle *s, size_t i, PbSettleReport *r)
{
    size_t nx = (size_t)s->nx;
    double below = 0.0, free_m = 0.0, fill_m = 0.0, void_m = 0.0, top_gap = 0.0;
    for (int j = 0; j < s->rows; j++) {
        size_t c = (size_t)j * nx + i;
        if (s->kind[c] == SETTLE_BLOCKED) {
            void_m += pb_max(0.0, j * s->dy_m - below);
            below = (j + 1) * s->dy_m;
            continue;
        }
        free_m += s->dy_m;
        if (s->kind[c] == SETTLE_FILL) {
            void_m += s->bottom_m[c] - below;
            fill_m += s->thick_m[c];
            below = s->bottom_m[c] + s->thick_m[c];
        }
    }
    if (s->kind[(size_t)(s->rows - 1) * nx + i] != SETTLE_BLOCKED) {
        top_gap = pb_max(0.0, s->height_m - below);
        void_m += top_gap;
    }
    r->top_gap_m += top_gap / s->nx;
    r->top_gap_max_m = pb_max(r->top_gap_max_m, top_gap);
    r->void_area_m2 += void_m * s->dx_m;
    r->inner_void_area_m2 += (void_m - top_gap) * s->dx_m;
    r->height_error = pb_max(r->height_error, fabs(fill_m + void_m - free_m) / s->height_m);
}

/* Share out [from, to] of a column over rows of equal height: add(row, length). */
static void spread_rows(double from, double to, double row_m, int rows, double per_m, double *out,
                        size_t stride)
{
    int first = (int)floor(from / row_m), last = (int)floor(to / row_m);
    first = first < 0 ? 0 : (first > rows - 1 ? rows - 1 : first);
    last = last < first ? first : (last > rows - 1 ? rows - 1 : last);
    double at = from;
    for (int j = first; j < last; j++) {
        double edge = (j + 1) * row_m;
        if (edge > at) {
            out[(size_t)j * stride] += (edge - at) * per_m;
            at = edge;
        }
    }
    out[(size_t)last * stride] += (to - at) * per_m;
}

static void find_worst_patch(const PbSettle *s, PbSettleReport *r)
{
    int across = settle_patch_count(s->width_m), up = settle_patch_count(s->height_m);
    size_t nx = (size_t)s->nx;
    double patch_h = s->height_m / up, patch_w = s->width_m / across;
    memset(s->patch_kg, 0, (size_t)up * nx * sizeof(double));
    memset(s->patch_m2, 0, (size_t)up * nx * sizeof(double));
    double row_m = s->height_m / s->bay_ny;
    for (size_t i = 0; i < nx; i++) {
        for (int j = 0; j < s->bay_ny; j++) {
            spread_rows(j * row_m, (j + 1) * row_m, patch_h, up,
                        s->free_share[(size_t)j * nx + i] * s->dx_m, s->patch_m2 + i, nx);
        }
        for (int j = 0; j < s->rows; j++) {
            size_t c = (size_t)j * nx + i;
            if (s->kind[c] == SETTLE_FILL) {
                double per_m = s->dry_kg_m2[c] / s->thick_m[c] * s->share[c] * s->dx_m;
                spread_rows(s->bottom_m[c], s->bottom_m[c] + s->thick_m[c], patch_h, up, per_m,
                            s->patch_kg + i, nx);
            }
        }
    }
    r->worst_patch_kg_m3 = HUGE_VAL;
    for (int py = 0; py < up; py++) {
        for (int px = 0; px < across; px++) {
            double kg = 0.0, m2 = 0.0;
            for (size_t i = 0; i < nx; i++) {
                double left = pb_max((double)i * s->dx_m, px * patch_w);
                double right = pb_min((double)(i + 1) * s->dx_m, (px + 1) * patch_w);
                double part = (right - left) / s->dx_m;
                if (part > 0.0) {
                    kg += part * s->patch_kg[(size_t)py * nx + i];
                    m2 += part * s->patch_m2[(size_t)py * nx + i];
                }
            }
            double density = m2 > 0.25 * patch_w * patch_h ? kg / m2 : HUGE_VAL;
            if (density < r->worst_patch_kg_m3) {
                r->worst_patch_kg_m3 = density;
                r->worst_x_m = (px + 0.5) * patch_w;
                r->worst_y_m = (py + 0.5) * patch_h;
            }
        }
    }
    /* A bay of blocks alone has no patch to judge. */
    r->worst_patch_kg_m3 =
        isfinite(r->worst_patch_kg_m3) ? r->worst_patch_kg_m3 * (1.0 + s->moisture_fill) : 0.0;
}

void pb_settle_report(const PbSettle *s, PbSettleReport *report)
{
    PbSettleReport r = {
        .years = s->years, .rh_frac = s->rh_frac, .steps = s->steps, .grip_ratio = HUGE_VAL};
    for (size_t i = 0; i < (size_t)s->nx; i++) {
        measure_column(s, i, &r);
    }
    double mass = 0.0, free_m2 = 0.0, fill_m = 0.0;
    for (size_t c = 0; c < (size_t)s->nx * (size_t)s->rows; c++) {
        if (s->kind[c] != SETTLE_FILL) {
            continue;
        }
        mass += s->dry_kg_m2[c] * s->share[c];
        fill_m += s->thick_m[c];
        r.face_gap_m += s->thick_m[c] * face_gap(s, c);
        double moist = s->dry_kg_m2[c] / s->thick_m[c] * (1.0 + s->moisture);
        double hold =
            s->law.friction * (s->lateral_pa[c] * s->perimeter_1_m[c] + s->law.across_m_s2 * moist);
        double pull = moist * s->law.along_m_s2;
        if (pull > 1e-9) {
            r.grip_ratio = pb_min(r.grip_ratio, hold / pull);
        }
    }
    for (size_t c = 0; c < (size_t)s->nx * (size_t)s->bay_ny; c++) {
        free_m2 += s->free_share[c];
    }
    mass *= (1.0 + s->moisture_fill) * s->dx_m * s->depth_m;
    double volume = free_m2 * s->dx_m * (s->height_m / s->bay_ny) * s->depth_m;
    r.mass_error = s->mass_start_kg > 0.0 ? fabs(mass - s->mass_start_kg) / s->mass_start_kg : 0.0;
    r.face_gap_m = fill_m > 0.0 ? r.face_gap_m / fill_m : 0.0;
    r.mean_kg_m3 = volume > 0.0 ? mass / volume : 0.0;
    find_worst_patch(s, &r);
    *report = r;
}

/* A share of the bay's depth on a grid of other rows. */
static void remap_share(const PbSettle *s, const double *share, int ny, double *out)
{
    size_t nx = (size_t)s->nx, n = nx * (size_t)ny;
    double row_m = s->height_m / s->bay_ny, out_m = s->height_m / ny;
    if (ny == s->bay_ny) {
        memcpy(out, share, n * sizeof(double));
        return;
    }
    memset(out, 0, n * sizeof(double));
    for (size_t i = 0; i < nx; i++) {
        for (int j = 0; j < s->bay_ny; j++) {
            spread_rows(j * row_m, (j + 1) * row_m, out_m, ny, share[(size_t)j * nx + i] / out_m,
                        out + i, nx);
        }
    }
}

/* Mass, filled length, past density and lateral stress of the slices, overlap-weighted. */
static void remap_fill(const PbSettle *s, PbBayField *f, double *filled, double *gap_m)
{
    size_t nx = (size_t)s->nx;
    double out_m = s->height_m / f->ny, wet = 1.0 + s->moisture_fill;
    for (size_t c = 0; c < nx * (size_t)s->rows; c++) {
        if (s->kind[c] != SETTLE_FILL || !(s->dry_kg_m2[c] > 0.0) || !(s->thick_m[c] > 1e-12)) {
            continue; /* an empty place between obstacles: a slice too thin to have a length */
        }
        size_t i = c % nx;
        double y0 = s->bottom_m[c], y1 = y0 + s->thick_m[c];
        /* A slice that ends on a row edge to rounding must not spill into the row beyond. */
        double low = floor(y0 / out_m + 0.5) * out_m, high = floor(y1 / out_m + 0.5) * out_m;
        y0 = fabs(y0 - low) < 1e-9 ? low + 1e-12 : y0;
        y1 = fabs(y1 - high) < 1e-9 ? high - 1e-12 : y1;
        double share = s->share[c] / out_m, dry = s->dry_kg_m2[c] / (y1 - y0);
        spread_rows(y0, y1, out_m, f->ny, dry * wet * share, f->density_kg_m3 + i, nx);
        spread_rows(y0, y1, out_m, f->ny, share, filled + i, nx);
        spread_rows(y0, y1, out_m, f->ny, share * s->lateral_pa[c], f->lateral_pa + i, nx);
        spread_rows(y0, y1, out_m, f->ny, share * face_gap(s, c), gap_m + i, nx);
    }
}

PbStatus pb_settle_aged(const PbSettle *s, int ny, PbAgedBay *aged)
{
    PbAgedBay a = {.years = s->years};
    ny = ny == 0 ? s->bay_ny : ny;
    PB_TRY(pb_bay_field_create(s->nx, ny, s->width_m, s->height_m, s->depth_m, &a.field));
    size_t n = (size_t)s->nx * (size_t)ny;
    double *filled = calloc(n, sizeof(double));
    double *gap_m = calloc(n, sizeof(double));
    if (filled == NULL || gap_m == NULL) {
        free(filled);
        free(gap_m);
        pb_bay_field_destroy(&a.field);
        return PB_ERR_MEMORY;
    }
    PbBayField *f = &a.field;
    f->tilt_deg = s->tilt_deg;
    f->fill_rh_frac = s->fill_rh_frac;
    remap_share(s, s->free_share, f->ny, f->free_frac);
    remap_share(s, s->batt_share, f->ny, f->batt_frac);
    remap_fill(s, f, filled, gap_m);
    for (size_t c = 0; c < n; c++) {
        double free_share = f->free_frac[c];
        if (filled[c] > 0.0) {
            f->lateral_pa[c] /= filled[c];
            gap_m[c] /= filled[c];
            f->density_past_kg_m3[c] = f->density_kg_m3[c] / filled[c];
        }
        f->density_kg_m3[c] = free_share > 0.0 ? f->density_kg_m3[c] / free_share : 0.0;
        double empty = free_share > 0.0 ? 1.0 - filled[c] / free_share : 0.0;
        filled[c] = pb_limit(empty, 0.0, 1.0); /* rounding, and slices below a narrowing */
        filled[c] = filled[c] < 1e-9 ? 0.0 : filled[c];
    }
    a.void_frac = filled;
    a.face_gap_m = gap_m;
    *aged = a;
    return PB_OK;
}

void pb_aged_destroy(PbAgedBay *aged)
{
    pb_bay_field_destroy(&aged->field);
    free(aged->void_frac);
    free(aged->face_gap_m);
    aged->void_frac = NULL;
    aged->face_gap_m = NULL;
    aged->years = 0.0;
}
