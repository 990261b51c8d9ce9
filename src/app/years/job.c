/* The years of one bay on a worker thread: all pictures of the fill first (they are cheap), then
 * the heat of the key times in order, then draw after draw for the band. What is done is published
 * by counters; cancelling takes effect between pieces, so nobody ever waits for the thread. */
#include "years/job.h"

#include "io/parallel.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

const double years_key_times[YEARS_KEYS] = {0,  0.05, 0.1, 0.25, 0.5, 0.75, 1,  1.5,  2,  2.5,
                                            3,  4,    5,   6,    7,   8,    10, 12.5, 15, 17.5,
                                            20, 22.5, 25,  30,   35,  40,   45, 50};
const int years_band_keys[YEARS_BANDS] = {0, 3, 6, 8, 12, 16, 18, 20, 23, 25, 27};

static const int strips = 12;

static int cancelled(YearsJob *job)
{
    return SDL_AtomicGet(&job->is_cancelled);
}

static float *floats(const double *from, size_t n)
{
    float *to = malloc(n * sizeof *to);
    for (size_t i = 0; to != NULL && i < n; i++) {
        to[i] = (float)from[i];
    }
    return to;
}

/* The twelfth of the width with the most empty room at its top in the last year. */
static void choose_section(YearsJob *job, const PbBayField *last)
{
    int parts = last->nx < strips ? last->nx : strips, best = -1;
    for (int p = 0; p < parts; p++) {
        int first = p * last->nx / parts, end = (p + 1) * last->nx / parts, empty = 0;
        for (int i = first; i < end; i++) {
            for (int j = last->ny - 1;
                 j >= 0 && last->density_kg_m3[j * last->nx + i] < job->in.constants.void_kg_m3;
                 j--) {
                empty++;
            }
        }
        /* From the middle outwards when several are equal. */
        int score = empty * 1000 / (end - first) - abs(2 * p + 1 - parts);
        if (p == 0 || score > best) {
            best = score;
            job->section_first = first;
            job->section_count = end - first;
        }
    }
}

/* All pictures of the fill; aged bays of the key times are kept for the heat. */
static PbStatus settle(YearsJob *job, PbAgedBay *keys)
{
    PbSettleConfig config = pb_settle_default();
    PbSettle *s;
    config.constants = job->in.constants;
    config.climate = job->in.climate;
    size_t cells = (size_t)job->in.field.nx * (size_t)job->in.field.ny;
    PB_TRY(pb_settle_create(&job->in.field, &config, &s, &job->err));
    PbStatus status = PB_OK;
    for (int k = 0; k < YEARS_KEYS && status == PB_OK && !cancelled(job); k++) {
        YearsFrame *frame = &job->frames[k];
        status = pb_settle_advance(s, years_key_times[k]);
        if (status == PB_OK) {
            status = pb_settle_aged(s, 0, &keys[k]);
        }
        if (status != PB_OK) {
            break;
        }
        pb_settle_report(s, &frame->report);
        frame->density = floats(keys[k].field.density_kg_m3, cells);
        if (frame->density == NULL) {
            status = PB_ERR_MEMORY;
            break;
        }
        if (k == YEARS_KEYS - 1) { /* before the last picture is told of */
            choose_section(job, &keys[k].field);
        }
        SDL_AtomicSet(&job->frames_ready, k + 1);
    }
    pb_settle_destroy(s);
    return status;
}

static PbStatus keep_section(YearsSection *out, const PbHeatStrip *strip)
{
    int nx = strip->nx, ny = strip->ny;
    size_t corners = (size_t)(nx + 1) * (size_t)(ny + 1), cells = (size_t)nx * (size_t)ny;
    out->nx = nx;
    out->ny = ny;
    out->has_loop = strip->has_loop;
    out->psi_max_m2_s = strip->psi_max_m2_s;
    out->z_m = floats(strip->z_m, (size_t)nx + 1);
    out->y_m = floats(strip->y_m, (size_t)ny + 1);
    out->psi_m2_s = floats(strip->psi_m2_s, corners);
    out->is_open = malloc(cells);
    if (!out->z_m || !out->y_m || !out->psi_m2_s || !out->is_open) {
        return PB_ERR_MEMORY;
    }
    for (size_t i = 0; i < cells; i++) {
        out->is_open[i] = isinf(strip->permeability_m2[i]) ? 1 : 0;
    }
    return PB_OK;
}

/* The section with the flow of wide voids solved; where that has no steady answer, the flow that
 * the numbers were taken with. */
static PbStatus section(YearsJob *job, YearsKey *key, const PbAgedBay *aged,
                        const PbAgedHeat *weather)
{
    PbAllocator memory = pb_allocator_default();
    PbAgedBay part = {0};
    PbHeatBay *heat = NULL;
    PB_TRY(pb_aged_part(aged, job->section_first, job->section_count, &part));
    PbHeatBaySetup setup = pb_aged_heat_setup(weather, &part);
    setup.strips = 1;
    setup.solve_void_flow = 1;
    PbStatus status = pb_heat_bay_solve(&setup, &job->in.constants, &memory, &heat, &job->err);
    key->section.is_own_flow = status == PB_OK;
    if (status == PB_ERR_NO_RESULT) {
        setup.solve_void_flow = 0;
        status = pb_heat_bay_solve(&setup, &job->in.constants, &memory, &heat, &job->err);
    }
    if (status == PB_OK) {
        status = keep_section(&key->section, pb_heat_bay_strip(heat, 0));
        pb_heat_bay_destroy(heat);
    }
    pb_aged_destroy(&part);
    return status;
}

/* The wall whose bay this is, as Side by side has it: R is of the whole wall with framing. */
static PbHouse house_of(const YearsJob *job)
{
    PbHouse h = pb_house_default();
    h.wall = job->in.wall;
    h.bay.width_m = job->in.field.width_m;
    h.bay.height_m = job->in.field.height_m;
    h.bay.depth_m = job->in.field.depth_m;
    return h;
}

static PbStatus heat_of(YearsJob *job, int k, const PbAgedBay *aged)
{
    PbAllocator memory = pb_allocator_default();
    PbAgedHeat weather = {.room_c = job->in.room_c,
                          .outdoor_c = job->in.outdoor_c,
                          .strips = strips,
                          .wall = job->in.wall};
    PbHeatBaySetup setup = pb_aged_heat_setup(&weather, aged);
    IoParallel crew = io_parallel_default();
    YearsKey *key = &job->keys[k];
    PbHeatBay *heat;
    crew.threads = crew.threads > 1 ? crew.threads - 1 : 1; /* one core stays with the window */
    setup.map_nx = YEARS_MAP_NX;
    setup.map_ny = YEARS_MAP_NY;
    setup.parallel = io_parallel_for;
    setup.parallel_user = &crew;
    PB_TRY(pb_aged_heat_solve(&setup, &job->in.constants, &memory, &heat, &job->err));
    const PbHeatBayResult *r = pb_heat_bay_result(heat);
    PbHouse house = house_of(job);
    key->bay_r_m2k_w = r->r_m2k_w;
    key->r_m2k_w = pb_compare_wall_r(r, &house, &job->in.constants);
    key->heat_w = years_heat_w(job, key->r_m2k_w);
    key->low_c = r->surface_min_c;
    key->high_c = r->surface_max_c;
    key->map_c = floats(r->map_c, (size_t)YEARS_MAP_NX * YEARS_MAP_NY);
    pb_heat_bay_destroy(heat);
    return key->map_c != NULL ? section(job, key, aged, &weather) : PB_ERR_MEMORY;
}

static PbStatus heat(YearsJob *job, const PbAgedBay *aged)
{
    for (int k = 0; k < YEARS_KEYS && !cancelled(job); k++) {
        PB_TRY(heat_of(job, k, &aged[k]));
        SDL_AtomicSet(&job->keys_ready, k + 1);
    }
    return PB_OK;
}

/* R of the wall under the constants of a draw. */
static PbStatus drawn_r(void *user, const PbConstants *constants, const PbAgedBay *bay,
                        double *r_m2k_w)
{
    const YearsJob *job = user;
    PbAgedHeat weather = pb_aged_heat_default();
    weather.room_c = job->in.room_c;
    weather.outdoor_c = job->in.outdoor_c;
    weather.wall = job->in.wall;
    PbHeatBaySetup setup = pb_aged_heat_setup(&weather, bay);
    PbAllocator memory = pb_allocator_default();
    PbHouse house = house_of(job);
    PbHeatBay *heat;
    PB_TRY(pb_aged_heat_solve(&setup, constants, &memory, &heat, NULL));
    *r_m2k_w = pb_compare_wall_r(pb_heat_bay_result(heat), &house, constants);
    pb_heat_bay_destroy(heat);
    return PB_OK;
}

static PbStatus draws(YearsJob *job)
{
    PbEffectiveR effective = {drawn_r, job};
    PbSettleConfig config = pb_settle_default();
    double years[YEARS_BANDS];
    PbAgeSample samples[YEARS_BANDS];
    config.climate = job->in.climate;
    for (int t = 0; t < YEARS_BANDS; t++) {
        years[t] = years_key_times[years_band_keys[t]];
    }
    for (int d = 0; d < YEARS_DRAWS && !cancelled(job); d++) {
        config.constants = pb_spread_constants(&job->in.constants, job->in.seed, d, 0);
        PB_TRY(pb_spread_age(&job->in.field, &config, years, YEARS_BANDS, &effective, samples,
                             &job->err));
        for (int t = 0; t < YEARS_BANDS; t++) {
            job->draws[d][t] = (YearsSample){samples[t].top_gap_m, samples[t].effective_r_m2k_w};
        }
        SDL_AtomicSet(&job->draws_ready, d + 1);
    }
    return PB_OK;
}

static int work(void *user)
{
    YearsJob *job = user;
    PbAgedBay keys[YEARS_KEYS];
    memset(keys, 0, sizeof keys);
    SDL_SetThreadPriority(SDL_THREAD_PRIORITY_LOW);
    PbStatus status = settle(job, keys);
    if (status == PB_OK) {
        status = heat(job, keys);
    }
    for (int k = 0; k < YEARS_KEYS; k++) {
        pb_aged_destroy(&keys[k]);
    }
    if (status == PB_OK) {
        status = draws(job);
    }
    SDL_AtomicSet(&job->status, (int)status);
    SDL_AtomicSet(&job->is_over, 1);
    return 0;
}

YearsJob *years_job_start(const YearsInput *in)
{
    YearsJob *job = calloc(1, sizeof *job);
    if (job == NULL) {
        return NULL;
    }
    job->in = *in;
    memset(&job->in.field, 0, sizeof job->in.field);
    if (pb_aged_columns(&in->field, 0, in->field.nx, &job->in.field) == PB_OK) {
        job->thread = SDL_CreateThread(work, "years", job);
    }
    if (job->thread == NULL) {
        pb_bay_field_destroy(&job->in.field);
        free(job);
        return NULL;
    }
    return job;
}

void years_job_cancel(YearsJob *job)
{
    SDL_AtomicSet(&job->is_cancelled, 1);
}

int years_job_is_over(YearsJob *job)
{
    return SDL_AtomicGet(&job->is_over);
}

double years_job_progress(YearsJob *job)
{
    /* A key takes about a third of a draw. */
    double all = YEARS_KEYS / 3.0 + YEARS_DRAWS;
    return (SDL_AtomicGet(&job->keys_ready) / 3.0 + SDL_AtomicGet(&job->draws_ready)) / all;
}

void years_job_free(YearsJob *job)
{
    if (job == NULL) {
        return;
    }
    years_job_cancel(job);
    SDL_WaitThread(job->thread, NULL);
    for (int f = 0; f < YEARS_KEYS; f++) {
        free(job->frames[f].density);
    }
    for (int k = 0; k < YEARS_KEYS; k++) {
        YearsSection *s = &job->keys[k].section;
        free(job->keys[k].map_c);
        free(s->z_m);
        free(s->y_m);
        free(s->psi_m2_s);
        free(s->is_open);
    }
    pb_bay_field_destroy(&job->in.field);
    free(job);
}

double years_heat_w(const YearsJob *job, double r_m2k_w)
{
    double wide_m = job->in.field.width_m + job->in.constants.stud_width_m;
    double area = wide_m * job->in.field.height_m;
    return area * (job->in.room_c - job->in.outdoor_c) / r_m2k_w;
}
