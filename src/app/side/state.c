/* What Side by side shows at the rail's year, out of what the worker has finished: the pictures of
 * the two cellulose fills beside each other in one texture, linear between the worker's times, and
 * the figures of all four. */
#include "base/aged_marks.h"
#include "side/side.h"

#include "io/clock.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const PbCompareFill packed[2] = {PB_COMPARE_LOOSE, PB_COMPARE_DENSE};

/* Room for both pictures; the taller one gives the height. */
static int lay_out(Side *s)
{
    int nx = 0, ny = 0;
    for (int i = 0; i < 2; i++) {
        PbComparePicture p = pb_compare_density(s->shown->compare, packed[i], 0);
        int is_there = side_job_has_frames(s->shown, packed[i]) && p.values != NULL;
        s->at[packed[i]] = nx;
        s->wide[packed[i]] = is_there ? p.nx : 0;
        s->tall[packed[i]] = is_there ? p.ny : 0;
        nx += is_there ? p.nx : 0;
        ny = is_there && p.ny > ny ? p.ny : ny;
    }
    if (nx <= 0 || ny <= 0) {
        return 0;
    }
    if (nx != s->nx || ny != s->ny) {
        free(s->density);
        free(s->marks);
        s->density = calloc((size_t)nx * (size_t)ny, sizeof *s->density);
        s->marks = calloc((size_t)nx * (size_t)ny, 1);
        s->nx = s->density && s->marks ? nx : 0;
        s->ny = s->density && s->marks ? ny : 0;
    }
    return s->nx > 0;
}

/* Frame at or before the year, and how far it is to the next. */
static int frame_at(const SideJob *job, double years, double *share)
{
    int f = 0;
    while (f + 2 < job->frame_count && job->frame_years[f + 1] <= years) {
        f++;
    }
    double a = job->frame_years[f], b = job->frame_years[f + 1];
    double w = (years - a) / (b - a);
    *share = w < 0.0 ? 0.0 : w > 1.0 ? 1.0 : w;
    return f;
}

static void blend_fill(const App *app, Side *s, PbCompareFill fill)
{
    double w = 0.0;
    const PbCompare *c = s->shown->compare;
    int f = frame_at(s->shown, s->rail.years, &w);
    PbComparePicture a = pb_compare_density(c, fill, f), b = pb_compare_density(c, fill, f + 1);
    const PbSettleReport *ra = pb_compare_settled(c, fill, f);
    const PbSettleReport *rb = pb_compare_settled(c, fill, f + 1);
    /* A finer picture may have come since the layout; the next one has it. */
    int is_as_laid = a.nx == s->wide[fill] && a.ny == s->tall[fill] && b.nx == a.nx && b.ny == a.ny;
    if (s->wide[fill] == 0 || !is_as_laid || !a.values || !b.values || !ra || !rb) {
        return;
    }
    float *to = s->density + s->at[fill];
    for (int j = 0; j < a.ny; j++) {
        for (int i = 0; i < a.nx; i++) {
            float x = a.values[j * a.nx + i], y = b.values[j * a.nx + i];
            to[j * s->nx + i] = x + (y - x) * (float)w;
        }
    }
    const PbBayField *bay = pb_compare_bay(c);
    if (bay->nx != a.nx || bay->ny != a.ny) { /* a first picture, from a coarse grid */
        for (int j = 0; j < a.ny; j++) {
            memset(s->marks + s->at[fill] + j * s->nx, 0, (size_t)a.nx);
        }
        return;
    }
    const AgedPicture p = {.bay = bay,
                           .density = to,
                           .marks = s->marks + s->at[fill],
                           .stride = s->nx,
                           .top_gap_m = ra->top_gap_m + (rb->top_gap_m - ra->top_gap_m) * w,
                           .target_kg_m3 = app->side->shown_house.bay.target_kg_m3,
                           .void_kg_m3 = app->run.config.constants.void_kg_m3};
    aged_marks(&p);
}

static void screen_moisture(const App *app, Side *s)
{
    const PbConstants *k = &app->run.config.constants;
    int draws = pb_compare_setup(s->shown->compare)->draws;
    for (int f = 0; f < PB_COMPARE_FILLS; f++) {
        pb_house_moist(&s->shown_house, k, (PbCompareFill)f, draws, &s->moist[f]);
    }
    pb_house_damp(&s->shown_house, k, &s->moist[PB_COMPARE_EMPTY], &s->moist[PB_COMPARE_DENSE],
                  s->warns);
}

void side_blend(App *app, Side *s)
{
    int pieces = SDL_AtomicGet(&s->shown->pieces);
    if (s->blended_of == s->shown && s->blended_pieces == pieces &&
        fabs(s->blended_years - s->rail.years) < 1e-12) {
        return; /* nothing has changed */
    }
    if (s->blended_of != s->shown) {
        screen_moisture(app, s);
    }
    s->blended_of = s->shown;
    s->blended_pieces = pieces;
    s->blended_years = s->rail.years;
    if (lay_out(s)) {
        blend_fill(app, s, PB_COMPARE_LOOSE);
        blend_fill(app, s, PB_COMPARE_DENSE);
    }
    for (int f = 0; f < PB_COMPARE_FILLS; f++) {
        pb_compare_figures_at(s->shown->compare, (PbCompareFill)f, s->rail.years, &s->now[f]);
    }
    for (int f = 0; f < PB_COMPARE_FILLS; f++) {
        pb_compare_saving_at(s->shown->compare, (PbCompareFill)f, s->rail.years, &s->saving[f]);
        pb_compare_air_at(s->shown->compare, (PbCompareFill)f, s->rail.years, &s->air[f]);
    }
    s->draws = side_job_draws(s->shown, s->rail.years);
    s->picture = ++app->program.pictures;
    if (s->first_picture_s < 0.0 && s->now[PB_COMPARE_FOAM].has_fill) {
        s->first_picture_s = io_clock_s() - s->opened_s;
    }
}

GfxFieldData side_field(App *app)
{
    const Side *s = app->side;
    return (GfxFieldData){.number = s->picture,
                          .nx = s->nx,
                          .ny = s->ny,
                          .density = s->density,
                          .mark_nx = s->nx,
                          .mark_ny = s->ny,
                          .marks = s->marks};
}
