/*
 * Settling from the outside: take over a bay, go on in time, give it back. The step at the end of
 * this file tells the story; the law is in settle_law.c, friction in settle_sweep.c, measuring and
 * handing on in settle_report.c.
 */
#include "years/settle_private.h"

#include "years/settle_fast.h"

#include "core/hash.h"
#include "core/pb_math.h"
#include "core/units.h"

#include <math.h>
#include <string.h>

#define HOUR_YEARS       (3600.0 / PB_S_PER_YEAR)
#define LATERAL_FLOOR_PA 1e-9 /* its logarithm is finite and it grips nothing */

PbSettleConfig pb_settle_default(void)
{
    PbSettleConfig c = {.constants = pb_constants_default(),
                        .climate = pb_climate_default(),
                        .vibration = PB_VIBRATION_QUIET,
                        .face = PB_FACE_GYPSUM,
                        .damp = PB_DAMP_SHALLOW,
                        .vector_path = 0,
                        .max_step_years = 1.0 / 12.0,
                        .allocator = pb_allocator_default()};
    return c;
}

static PbStatus check_cell(const PbBayField *bay, int ix, int iy, PbError *err)
{
    size_t c = (size_t)iy * (size_t)bay->nx + (size_t)ix;
    double rho = bay->density_kg_m3[c], past = bay->density_past_kg_m3[c];
    if (!(rho >= 0.0 && rho <= PB_SETTLE_MAX_KG_M3)) {
        return pb_fail(err, PB_ERR_RANGE,
                       "cell %d across, %d up: density %g is out of range, expected 0 to %g kg/m3",
                       ix, iy, rho, PB_SETTLE_MAX_KG_M3);
    }
    if (!(past >= 0.0 && past <= 2.0 * PB_SETTLE_MAX_KG_M3)) {
        return pb_fail(
            err, PB_ERR_RANGE,
            "cell %d across, %d up: past density %g is out of range, expected 0 to %g kg/m3", ix,
            iy, past, 2.0 * PB_SETTLE_MAX_KG_M3);
    }
    if (!(bay->lateral_pa[c] >= 0.0 && bay->lateral_pa[c] <= 1e5)) {
        return pb_fail(
            err, PB_ERR_RANGE,
            "cell %d across, %d up: lateral stress %g is out of range, expected 0 to 100000 Pa", ix,
            iy, bay->lateral_pa[c]);
    }
    if (!(bay->free_frac[c] >= 0.0 && bay->free_frac[c] <= 1.0)) {
        return pb_fail(err, PB_ERR_RANGE,
                       "cell %d across, %d up: free share %g is out of range, expected 0 to 1", ix,
                       iy, bay->free_frac[c]);
    }
    if (!(bay->batt_frac[c] >= 0.0 && bay->batt_frac[c] <= 1.0 - bay->free_frac[c] + 1e-9)) {
        return pb_fail(
            err, PB_ERR_RANGE,
            "cell %d across, %d up: batt share %g is out of range, expected 0 to what the "
            "free share of %g leaves",
            ix, iy, bay->batt_frac[c], bay->free_frac[c]);
    }
    if (bay->free_frac[c] == 0.0 && rho > 0.0) {
        return pb_fail(err, PB_ERR_RANGE,
                       "cell %d across, %d up: holds %g kg/m3 but has no free room", ix, iy, rho);
    }
    return PB_OK;
}

PbStatus pb_settle_check(const PbBayField *bay, PbError *err)
{
    if (bay->nx < 1 || bay->ny < 1 || bay->nx > 1024 || bay->ny > 8192) {
        return pb_fail(err, PB_ERR_RANGE,
                       "%d x %d cells, expected 1 to 1024 across and 1 to 8192 up", bay->nx,
                       bay->ny);
    }
    if (!(bay->width_m >= 0.02 && bay->width_m <= 3.0) ||
        !(bay->height_m >= 0.1 && bay->height_m <= 12.0) ||
        !(bay->depth_m >= 0.02 && bay->depth_m <= 1.0)) {
        return pb_fail(
            err, PB_ERR_RANGE,
            "bay %g x %g x %g m, expected width 0.02 to 3, height 0.1 to 12, depth 0.02 to 1 m",
            bay->width_m, bay->height_m, bay->depth_m);
    }
    if (!(bay->tilt_deg >= 0.0 && bay->tilt_deg <= 90.0)) {
        return pb_fail(err, PB_ERR_RANGE,
                       "tilt %g is out of range, expected 0 (level) to 90 (wall) degrees",
                       bay->tilt_deg);
    }
    if (!(bay->fill_rh_frac >= 0.0 && bay->fill_rh_frac <= 1.0)) {
        return pb_fail(err, PB_ERR_RANGE, "humidity at filling %g is out of range, expected 0 to 1",
                       bay->fill_rh_frac);
    }
    for (int iy = 0; iy < bay->ny; iy++) {
        for (int ix = 0; ix < bay->nx; ix++) {
            PB_TRY(check_cell(bay, ix, iy, err));
        }
    }
    return PB_OK;
}

/* Sizes when the arena has no memory, places when it has. */
static void lay_out(PbSettle *s, PbArena *arena)
{
    size_t n = (size_t)s->nx * (size_t)s->rows, row = (size_t)s->nx + 1;
    size_t patches = (size_t)settle_patch_count(s->height_m) * (size_t)s->nx;
    double **fields[] = {&s->dry_kg_m2,     &s->ln_ref,     &s->ln_dry,    &s->ln_lateral,
                         &s->thick_m,       &s->lateral_pa, &s->stress_pa, &s->bottom_m,
                         &s->perimeter_1_m, &s->share};
    for (size_t i = 0; i < sizeof fields / sizeof fields[0]; i++) {
        *fields[i] = pb_arena_take(arena, n * sizeof(double));
    }
    double **scratch[] = {&s->above_pa, &s->raw_pa, &s->share_above, &s->links_pa,
                          &s->sum_x,    &s->sum_q,  &s->press_pa,    &s->top_m};
    for (size_t i = 0; i < sizeof scratch / sizeof scratch[0]; i++) {
        *scratch[i] = pb_arena_take(arena, row * sizeof(double));
    }
    s->patch_kg = pb_arena_take(arena, patches * sizeof(double));
    s->patch_m2 = pb_arena_take(arena, patches * sizeof(double));
    s->free_share = pb_arena_take(arena, (size_t)s->nx * (size_t)s->bay_ny * sizeof(double));
    s->batt_share = pb_arena_take(arena, (size_t)s->nx * (size_t)s->bay_ny * sizeof(double));
    s->kind = pb_arena_take(arena, n);
    s->stuck = pb_arena_take(arena, n);
    s->thin = pb_arena_take(arena, n);
    s->row_is_plain = pb_arena_take(arena, (size_t)s->rows);
    s->hangs = pb_arena_take(arena, (size_t)s->nx);
    if (s->nx <= SETTLE_BENDS_MAX) {
        s->bends = pb_arena_take(arena, 6 * row * (size_t)s->rows);
    }
}

/* One slice from one cell of the bay: what it weighs, how thick it lies, what holds it. */
static void take_cell(PbSettle *s, const PbBayField *bay, size_t from, size_t c, int j,
                      int field_gives_stress)
{
    const PbConstants *k = &s->config.constants;
    double share = bay->free_frac[from], rho = bay->density_kg_m3[from];
    s->bottom_m[c] = j * s->dy_m;
    s->share[c] = 1.0;
    s->kind[c] = share > 0.0 ? SETTLE_EMPTY : SETTLE_BLOCKED;
    if (!(share > 0.0) || !(rho > 0.0)) {
        return;
    }
    double dry = rho / (1.0 + s->moisture_fill);
    double mass = dry * s->dy_m;
    double loosest = k->settle_loosest_kg_m3 / (1.0 + s->moisture_fill);
    dry = dry < loosest ? loosest : dry;
    double past = bay->density_past_kg_m3[from] / (1.0 + s->moisture_fill);
    int i = (int)(c % (size_t)s->nx);
    s->kind[c] = SETTLE_FILL;
    s->share[c] = share;
    s->perimeter_1_m[c] = 2.0 / (share * s->depth_m) + (i == 0 ? 1.0 / s->dx_m : 0.0) +
                          (i == s->nx - 1 ? 1.0 / s->dx_m : 0.0);
    s->dry_kg_m2[c] = mass;
    s->ln_ref[c] = settle_ln_reference(k, dry, past > dry ? past : dry);
    s->ln_dry[c] = fast_log(dry);
    s->thick_m[c] = mass * fast_exp(-s->ln_dry[c]);
    double start = bay->lateral_pa[from];
    if (!field_gives_stress) {
        SettleStep still = settle_step_numbers(&s->law, s->rh_frac, 0.0);
        double rate = pb_exp(still.ln_rate + still.exponent * (s->ln_dry[c] - s->ln_ref[c]));
        start = pb_min(k->settle_lateral_max_pa, k->settle_lateral_start * s->law.ratio * rate);
    }
    s->ln_lateral[c] = fast_log(start > LATERAL_FLOOR_PA ? start : LATERAL_FLOOR_PA);
    s->lateral_pa[c] = fast_exp(s->ln_lateral[c]);
}

static void take_over(PbSettle *s, const PbBayField *bay)
{
    size_t cells = (size_t)bay->nx * (size_t)bay->ny;
    int field_gives_stress = 0;
    for (size_t i = 0; i < cells; i++) {
        field_gives_stress |= bay->lateral_pa[i] > 0.0;
        s->free_share[i] = bay->free_frac[i];
        s->batt_share[i] = bay->batt_frac[i];
    }
    for (int j = 0; j < s->rows; j++) {
        size_t row = (size_t)j * (size_t)s->nx;
        size_t from = (size_t)(j / s->refine) * (size_t)s->nx;
        s->row_is_plain[j] = 1;
        for (size_t i = 0; i < (size_t)s->nx; i++) {
            take_cell(s, bay, from + i, row + i, j, field_gives_stress);
            s->top_m[i] = s->kind[row + i] == SETTLE_FILL ? (j + 1) * s->dy_m : s->top_m[i];
            if (s->kind[row + i] != SETTLE_FILL || s->share[row + i] < 1.0) {
                s->row_is_plain[j] = 0;
            }
        }
    }
    s->mass_start_kg = pb_field_mass_kg(bay);
}

static PbStatus check_config(const PbSettleConfig *config, PbError *err)
{
    PB_TRY(pb_climate_check(&config->climate, err));
    if (!(config->max_step_years >= HOUR_YEARS && config->max_step_years <= 1.0)) {
        return pb_fail(err, PB_ERR_RANGE,
                       "longest step %g years is out of range, expected 1 hour to 1 year",
                       config->max_step_years);
    }
    if (settle_kernels(config->vector_path) == NULL) {
        return pb_fail(err, PB_ERR_RANGE, "this machine has no vector path %d",
                       config->vector_path);
    }
    return PB_OK;
}

PbStatus pb_settle_create(const PbBayField *bay, const PbSettleConfig *config, PbSettle **settle,
                          PbError *err)
{
    PB_TRY(check_config(config, err));
    PB_TRY(pb_settle_check(bay, err));
    PbSettle plan = {.config = *config,
                     .nx = bay->nx,
                     .bay_ny = bay->ny,
                     .width_m = bay->width_m,
                     .height_m = bay->height_m,
                     .depth_m = bay->depth_m,
                     .tilt_deg = bay->tilt_deg,
                     .fill_rh_frac = bay->fill_rh_frac};
    /* Second order in the row height; half the depth keeps a below 0.2 in the sweep. */
    double most = pb_min(0.05, 0.5 * bay->depth_m);
    plan.refine = (int)ceil(bay->height_m / bay->ny / most - 1e-9);
    plan.refine = plan.refine < 1 ? 1 : plan.refine;
    plan.rows = bay->ny * plan.refine;
    plan.dx_m = bay->width_m / bay->nx;
    plan.dy_m = bay->height_m / plan.rows;
    PbArena arena = {0};
    (void)pb_arena_take(&arena, sizeof plan);
    lay_out(&plan, &arena);
    arena.size = arena.used;
    arena.used = 0;
    arena.base = config->allocator.alloc(config->allocator.user, arena.size);
    if (arena.base == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    PbSettle *s = pb_arena_take(&arena, sizeof plan);
    *s = plan;
    lay_out(s, &arena);
    s->kernels = settle_kernels(config->vector_path);
    s->law = settle_law(config, bay->tilt_deg);
    s->rh_frac = bay->fill_rh_frac;
    s->moisture_fill = pb_settle_moisture(&config->constants, bay->fill_rh_frac);
    s->moisture = s->moisture_fill;
    take_over(s, bay);
    settle_sweep(s);
    settle_drop(s);
    *settle = s;
    return PB_OK;
}

void pb_settle_destroy(PbSettle *s)
{
    if (s != NULL) {
        PbAllocator a = s->config.allocator;
        a.free(a.user, s);
    }
}

void pb_settle_stress(PbSettle *s)
{
    settle_sweep(s);
}

/* The story of one step. */
static void step(PbSettle *s, double dt)
{
    /* 1. The air of the season, and the water that the fill takes from it. */
    double next = s->years + dt;
    double before = s->moisture;
    s->rh_frac = pb_season_at(&s->config.climate.bay_rh, next);
    s->moisture = pb_settle_moisture(&s->config.constants, s->rh_frac);
    /* 2. Vibration and change of moisture make creep time pass faster. */
    double creep_dt = dt * s->law.rate_factor + s->law.moisture_years * fabs(s->moisture - before);
    /* 3. What wall friction and neighbours leave of the load; who hangs. */
    settle_sweep(s);
    /* 4. Creep of density, relaxation of the lateral stress that grips. */
    SettleStep numbers = settle_step_numbers(&s->law, s->rh_frac, creep_dt);
    s->kernels->creep((size_t)s->nx * (size_t)s->rows, &numbers, s->stress_pa, s->dry_kg_m2,
                      s->ln_ref, s->ln_dry, s->ln_lateral, s->thick_m, s->lateral_pa);
    /* 5. Everything not held follows down; packs that hang leave a void below. */
    settle_drop(s);
    /* 6. Slopes and level bays settle onto their lower face as well; damp counts as more time. */
    s->across_years +=
        creep_dt * pb_exp(s->law.power * s->law.exponent * s->law.damp * (s->rh_frac - 0.5));
    s->years = next;
    s->steps++;
}

PbStatus pb_settle_advance(PbSettle *s, double years)
{
    if (!(years >= s->years && years <= PB_SETTLE_MAX_YEARS)) {
        return PB_ERR_RANGE;
    }
    while (s->years < years) {
        double dt = pb_limit(0.25 * s->years, HOUR_YEARS, s->config.max_step_years);
        if (s->years + dt * 1.0000001 >= years) {
            step(s, years - s->years);
            s->years = years;
        } else {
            step(s, dt);
        }
    }
    for (int i = 0; i < s->nx; i++) {
        if (!isfinite(s->sum_q[i])) {
            return PB_ERR_DIVERGED;
        }
    }
    return PB_OK;
}

PbSettleView pb_settle_view(const PbSettle *s)
{
    PbSettleView v = {s->nx,       s->rows,    s->kind,       s->stuck,     s->dry_kg_m2,
                      s->bottom_m, s->thick_m, s->lateral_pa, s->stress_pa, s->share};
    return v;
}

uint64_t pb_settle_hash(const PbSettle *s)
{
    size_t n = (size_t)s->nx * (size_t)s->rows;
    uint64_t h = pb_hash_u64(PB_HASH_START, (uint64_t)s->steps);
    h = pb_hash_doubles(h, &s->years, 1);
    h = pb_hash_bytes(h, s->stuck, n);
    const double *fields[] = {s->ln_dry, s->ln_lateral, s->thick_m, s->bottom_m};
    for (size_t i = 0; i < sizeof fields / sizeof fields[0]; i++) {
        h = pb_hash_doubles(h, fields[i], n);
    }
    return h;
}
