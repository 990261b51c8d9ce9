/* The picture of one moment out of the pictures that the worker has finished: linear between its
 * times. Where the weather was moved and the new answer is not there yet, temperatures of the old
 * one are stretched to the new span, which is exact for still walls. */
#include "base/aged_marks.h"
#include "years/years.h"

#include "core/units.h"
#include "io/clock.h"

#include <math.h>
#include <string.h>

/* Index of the last time at or before `years`, and how far it is to the next. */
static int find(const double *times, int count, double years, double *share)
{
    int k = 0;
    while (k + 2 < count && times[k + 1] <= years) {
        k++;
    }
    double w = (years - times[k]) / (times[k + 1] - times[k]);
    *share = w < 0.0 ? 0.0 : w > 1.0 ? 1.0 : w;
    return k;
}

static double mix(double a, double b, double w)
{
    return a + (b - a) * w;
}

double years_stretch(const Years *y)
{
    const YearsInput *in = &y->shown->in;
    return (y->room_c - y->outdoor_c) / (in->room_c - in->outdoor_c);
}

static void blend_fill(Years *y, const YearsJob *job, int ready)
{
    size_t cells = (size_t)y->field.nx * (size_t)y->field.ny;
    double w = 0.0;
    int k = find(years_key_times, YEARS_KEYS, y->rail.years, &w);
    if (k + 1 >= ready) { /* not there yet: the last that is */
        k = ready - 1;
        w = 0.0;
    }
    const YearsFrame *a = &job->frames[k], *b = w > 0.0 ? a + 1 : a;
    for (size_t i = 0; i < cells; i++) {
        y->density[i] = a->density[i] + (b->density[i] - a->density[i]) * (float)w;
    }
    y->gap_m = mix(a->report.top_gap_m, b->report.top_gap_m, w);
    y->mean_kg_m3 = a->report.mean_kg_m3;
}

static int blend_heat(Years *y, const YearsJob *job, int ready)
{
    double w = 0.0;
    int k = find(years_key_times, YEARS_KEYS, y->rail.years, &w);
    int next = w > 0.0 ? k + 1 : k;
    if (next >= ready) {
        return 0;
    }
    const YearsKey *a = &job->keys[k], *b = &job->keys[next];
    double stretch = years_stretch(y);
    for (int i = 0; i < YEARS_MAP_NX * YEARS_MAP_NY; i++) {
        double c = mix((double)a->map_c[i], (double)b->map_c[i], w);
        y->heat_c[i] = (float)(y->outdoor_c + (c - job->in.outdoor_c) * stretch);
    }
    y->r_m2k_w = mix(a->r_m2k_w, b->r_m2k_w, w);
    y->bay_r_m2k_w = mix(a->bay_r_m2k_w, b->bay_r_m2k_w, w);
    y->heat_w = years_heat_w(job, y->r_m2k_w) * stretch;
    y->heat_key = w > 0.5 ? next : k;
    return 1;
}

/* One scale for all the years, so that a colour keeps its meaning while they play: whole degrees
 * round the coldest and warmest of the finished pictures. */
static void set_scale(Years *y, const YearsJob *job, int ready)
{
    double low = 1e9, high = -1e9, stretch = years_stretch(y);
    for (int k = 0; k < ready; k++) {
        low = fmin(low, job->keys[k].low_c);
        high = fmax(high, job->keys[k].high_c);
    }
    low = y->outdoor_c + (low - job->in.outdoor_c) * stretch;
    high = y->outdoor_c + (high - job->in.outdoor_c) * stretch;
    y->low_c = floor(low - 0.05);
    y->high_c = ceil(high + 0.05);
    y->high_c = fmax(y->high_c, y->low_c + 2.0);
}

static void mark(const App *app, Years *y)
{
    const AgedPicture p = {.bay = &y->field,
                           .density = y->density,
                           .marks = y->marks,
                           .stride = y->field.nx,
                           .top_gap_m = y->gap_m,
                           .target_kg_m3 = app->run.config.exercise.target_kg_m3,
                           .void_kg_m3 = app->run.config.constants.void_kg_m3};
    aged_marks(&p);
}

/* The band of the draws that are done. */
static void bands(Years *y, const YearsJob *job, int n)
{
    if (n < YEARS_FIRST_DRAWS) {
        y->band.draws = 0;
        return;
    }
    if (y->band.draws == n && y->band_of == job) {
        return;
    }
    for (int t = 0; t < YEARS_BANDS; t++) {
        double gap[YEARS_DRAWS], r[YEARS_DRAWS];
        for (int d = 0; d < n; d++) {
            gap[d] = job->draws[d][t].top_gap_m;
            r[d] = job->draws[d][t].r_m2k_w;
        }
        y->band.gap[t] = pb_spread_band(gap, (size_t)n);
        y->band.r[t] = pb_spread_band(r, (size_t)n);
        y->band.heat[t] =
            (PbBand){years_heat_w(job, y->band.r[t].p90), years_heat_w(job, y->band.r[t].median),
                     years_heat_w(job, y->band.r[t].p10)};
    }
    y->band.draws = n;
    y->band_of = job;
}

static int is_same(const YearsMoment *a, const YearsMoment *b)
{
    return a->job == b->job && a->frames == b->frames && a->keys == b->keys &&
           a->draws == b->draws && a->years == b->years && a->room_c == b->room_c &&
           a->outdoor_c == b->outdoor_c;
}

void years_blend(App *app, Years *y)
{
    YearsJob *job = y->shown;
    YearsMoment now = {.job = job,
                       .frames = SDL_AtomicGet(&job->frames_ready),
                       .keys = SDL_AtomicGet(&job->keys_ready),
                       .draws = SDL_AtomicGet(&job->draws_ready),
                       .years = y->rail.years,
                       .room_c = y->room_c,
                       .outdoor_c = y->outdoor_c};
    if (is_same(&y->moment, &now)) {
        return;
    }
    y->moment = now;
    if (now.frames > 0) {
        blend_fill(y, job, now.frames);
    }
    y->has_heat = now.keys > 0 && blend_heat(y, job, now.keys);
    if (now.keys > 0) {
        set_scale(y, job, now.keys);
    }
    mark(app, y);
    bands(y, job, now.draws);
    y->picture = ++app->program.pictures;
    if (y->first_picture_s < 0.0 && y->has_heat) {
        y->first_picture_s = io_clock_s() - y->opened_s;
    }
}

int years_band_at(const Years *y, const PbBand *band, double years, PbBand *out)
{
    double times[YEARS_BANDS], w;
    if (y->band.draws == 0) {
        return 0;
    }
    for (int t = 0; t < YEARS_BANDS; t++) {
        times[t] = years_key_times[years_band_keys[t]];
    }
    int k = find(times, YEARS_BANDS, years, &w);
    *out =
        (PbBand){mix(band[k].p10, band[k + 1].p10, w), mix(band[k].median, band[k + 1].median, w),
                 mix(band[k].p90, band[k + 1].p90, w)};
    return 1;
}

double years_spot(const Years *y, double u, double v)
{
    double x = u * YEARS_MAP_NX - 0.5, row = v * YEARS_MAP_NY - 0.5;
    x = x < 0.0 ? 0.0 : x > YEARS_MAP_NX - 1.0 ? YEARS_MAP_NX - 1.0 : x;
    row = row < 0.0 ? 0.0 : row > YEARS_MAP_NY - 1.0 ? YEARS_MAP_NY - 1.0 : row;
    int i = (int)x, j = (int)row;
    int i1 = i + 1 < YEARS_MAP_NX ? i + 1 : i, j1 = j + 1 < YEARS_MAP_NY ? j + 1 : j;
    double fx = x - i, fy = row - j;
    const float *m = y->heat_c;
    double low = mix((double)m[j * YEARS_MAP_NX + i], (double)m[j * YEARS_MAP_NX + i1], fx);
    double high = mix((double)m[j1 * YEARS_MAP_NX + i], (double)m[j1 * YEARS_MAP_NX + i1], fx);
    return mix(low, high, fy);
}

const char *years_fmt_c(const App *app, double c, int decimals)
{
    return app->taste.is_us ? app_fmt(app, decimals, pb_f_from_c(c), "°F")
                            : app_fmt(app, decimals, c, "°C");
}

const char *years_fmt_r(const App *app, double r)
{
    return app->taste.is_us ? app_fmt(app, 1, r / PB_M2K_W_PER_R, "") : app_fmt(app, 2, r, "");
}

const char *years_fmt_w(const App *app, double w)
{
    return app->taste.is_us ? app_fmt(app, 0, w / PB_W_PER_BTU_H, "") : app_fmt(app, 1, w, "");
}

const char *years_fmt_gap(const App *app, double m, int with_unit)
{
    double shown = app->taste.is_us ? m / PB_M_PER_IN : m * 1000.0,
           least = app->taste.is_us ? 0.1 : 1.0;
    int is_under = shown < 0.5 * least; /* zero would say that nothing opens */
    const char *figure = app_fmt(app, app->taste.is_us ? 1 : 0, is_under ? least : shown,
                                 !with_unit ? "" : app_unit(app, IO_UNIT_SMALL));
    if (!is_under) {
        return figure;
    }
    char *out = app_figure_room(app);
    SDL_snprintf(out, sizeof app->figures->text[0], "<%s", figure);
    return out;
}

void years_fmt_range(const char *low, const char *high, const char *unit, char *out, size_t size)
{
    if (strcmp(low, high) == 0) {
        SDL_strlcpy(out, low, size);
    } else {
        SDL_snprintf(out, size, _("%s to %s"), low, high);
    }
    SDL_strlcat(out, unit[0] != '\0' ? " " : "", size);
    SDL_strlcat(out, unit, size);
}

int years_is_of_before(const Years *y)
{
    const PbSeason *then = &y->shown->in.climate.bay_rh, *now = &y->climates[y->climate].bay_rh;
    return fabs(then->mean - now->mean) + fabs(then->swing - now->swing) > 1e-9;
}
