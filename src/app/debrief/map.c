/* The density map at the moment of the time line, for one run or two side by side. Both bays go
 * into one texture, left and right, with a doubled column at each inner edge so that none bleeds
 * over. */
#include "debrief/debrief.h"

#include "io/score_words.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

enum { FINE = 4 }; /* marks a cell */

static const PbView *view_of(const DebriefRun *r)
{
    return pb_session_view(r->watched.session);
}

static int grow(Debrief *d, int cells, int marks)
{
    if (cells > d->picture.field_room) {
        float *f = realloc(d->picture.field, (size_t)cells * sizeof *f);
        if (f == NULL) {
            return 0;
        }
        d->picture.field = f;
        d->picture.field_room = cells;
    }
    if (marks > d->picture.hatch_room) {
        uint8_t *h = realloc(d->picture.hatch, (size_t)marks);
        if (h == NULL) {
            return 0;
        }
        d->picture.hatch = h;
        d->picture.hatch_room = marks;
    }
    return 1;
}

static void put_density(Debrief *d, const PbView *v, int wide, int x0)
{
    for (int y = 0; y < d->picture.ny; y++) {
        int sy = y * v->ny / d->picture.ny;
        for (int x = -1; x <= d->picture.nx; x++) {
            int sx = x * v->nx / d->picture.nx;
            sx = x < 0 ? 0 : sx >= v->nx ? v->nx - 1 : sx;
            if (x0 + x >= 0 && x0 + x < wide) {
                d->picture.field[y * wide + x0 + x] = (float)v->density_kg_m3[sy * v->nx + sx];
            }
        }
    }
}

static void put_marks(Debrief *d, const DebriefRun *r, const PbView *v, int wide, int x0)
{
    const PbExercise *e = &r->file.exercise;
    int nx = d->picture.nx * FINE, ny = d->picture.ny * FINE;
    for (int k = 0; k < r->patch_count; k++) {
        const PbPatch *p = &r->patches[k];
        if (p->free_area_m2 <= 0.0 || p->density_kg_m3 >= e->target_kg_m3 ||
            !run_is_judged(v, &r->watched.rubric, r->is_part, 0.5 * (p->y0_m + p->y1_m))) {
            continue;
        }
        uint8_t mark = p->density_kg_m3 < r->file.constants.void_kg_m3 ? 2 : 1;
        int ax = (int)(p->x0_m / e->width_m * nx + 0.5),
            bx = (int)(p->x1_m / e->width_m * nx + 0.5);
        int ay = (int)(p->y0_m / e->height_m * ny + 0.5);
        int by = (int)(p->y1_m / e->height_m * ny + 0.5);
        for (int y = ay; y < by && y < ny; y++) {
            for (int x = ax; x < bx && x < nx; x++) {
                d->picture.hatch[y * wide * FINE + x0 * FINE + x] = mark;
            }
        }
    }
}

GfxFieldData debrief_field(App *app)
{
    Debrief *d = app->debrief;
    if (!d->runs[0].is_open) {
        return run_field(&app->run);
    }
    const PbView *v = view_of(&d->runs[0]);
    int both = d->runs[1].is_open, wide = both ? 2 * v->nx + 2 : v->nx;
    d->picture.nx = v->nx;
    d->picture.ny = v->ny;
    if (!grow(d, wide * d->picture.ny, wide * d->picture.ny * FINE * FINE)) {
        return run_field(&app->run);
    }
    memset(d->picture.hatch, 0, (size_t)(wide * d->picture.ny * FINE * FINE));
    put_density(d, v, wide, 0);
    put_marks(d, &d->runs[0], v, wide, 0);
    if (both) {
        const PbView *other = view_of(&d->runs[1]);
        put_density(d, other, wide, d->picture.nx + 2);
        put_marks(d, &d->runs[1], other, wide, d->picture.nx + 2);
    }
    return (GfxFieldData){.nx = wide,
                          .ny = d->picture.ny,
                          .density = d->picture.field,
                          .mark_nx = wide * FINE,
                          .mark_ny = d->picture.ny * FINE,
                          .marks = d->picture.hatch};
}

static void tube(const App *app, GfxRect inner, double px_m, const DebriefRun *r)
{
    Ui *ui = app->ui;
    const PbView *v = view_of(r);
    const PbExercise *e = &r->file.exercise;
    float x = inner.x + (float)(v->mouth_x_m * px_m), bottom = inner.y + inner.h;
    const PbHole *at = &e->holes[v->signals.acts.hole];
    float hole = bottom - (float)(at->y_m * px_m);
    float mouth = bottom - (float)(v->mouth_y_m * px_m);
    float wide = fmaxf((float)(e->machine.tube_outer_m * px_m), 7.0f);
    holes_draw(ui, e->holes, e->hole_count, &v->signals.acts, (UiPoint){inner.x, bottom}, px_m);
    ui_circle(ui, inner.x + (float)(at->x_m * px_m), hole, wide * 0.8f, ui->theme->ink);
    if (v->signals.tube_in_m > 0.005) {
        float top = fminf(hole, mouth), tall = fabsf(mouth - hole);
        ui_rect(ui, x - wide * 0.5f, top, wide, tall, ui->theme->ink);
        ui_rect(ui, x - wide * 0.5f + 1.5f, top, wide - 3.0f, tall, ui->theme->tube);
    }
    ui_circle(ui, x, mouth, 7.0f, ui->theme->sheet);
    ui_circle(ui, x, mouth, 5.0f, ui->theme->accent);
}

static void band(const App *app, GfxRect inner, double px_m, const PbLoss *l)
{
    float y0 = inner.y + inner.h - (float)(l->y0_m * px_m);
    float y1 = inner.y + inner.h - (float)(l->y1_m * px_m);
    if (y0 - y1 < 4.0f) {
        y0 += 2.0f;
        y1 -= 2.0f;
    }
    GfxRect r = {inner.x + 2.0f, y1, inner.w - 4.0f, y0 - y1};
    ui_frame(app->ui, (GfxRect){r.x - 2, r.y - 2, r.w + 4, r.h + 4}, 2.0f, app->ui->theme->sheet);
    ui_frame(app->ui, r, 3.0f, app->ui->theme->accent);
}

void debrief_map_draw(const App *app, GfxRect inner, double px_m, int which)
{
    Ui *ui = app->ui;
    const Debrief *d = app->debrief;
    const DebriefRun *r = &d->runs[which];
    const PbExercise *e = &r->file.exercise;
    int both = d->runs[1].is_open, nx = view_of(&d->runs[0])->nx;
    float u0 = which ? (float)(nx + 2) / (float)(2 * nx + 2) : 0.0f;
    float u1 = which || !both ? 1.0f : (float)nx / (float)(2 * nx + 2);
    float stud = floorf((float)fmax(0.038 * px_m * 0.85, 6.0));
    wall_field_draw(app, e, inner, 0.0, 0.0, e->width_m, e->height_m, px_m);
    GfxField *f = &ui->list.fields[ui->list.field_count - 1]; /* the one just put in */
    f->u0 = u0;
    f->u1 = u1;
    wall_blocks_draw(app, e, inner, 0.0, 0.0, px_m);
    ui_layer(ui, NULL);
    wall_frame_draw(app, inner, stud);
    tube(app, inner, px_m, r);
    if (which == 0 && r->watched.has_score && d->loss >= 0) {
        band(app, inner, px_m, &r->watched.score.losses[d->loss]);
    }
    int lost[PB_SCORE_MAX_LOSSES];
    if (r->watched.has_score) {
        io_losses_shown(&r->watched.score, lost);
    }
    for (int rank = 1; which == 0 && r->watched.has_score && rank <= r->watched.score.loss_count;
         rank++) {
        int i = debrief_loss_at_rank(&r->watched.score, rank);
        if (i < 0 || r->watched.score.losses[i].cause == PB_FAULT_HELD) {
            break;
        }
        const PbLoss *l = &r->watched.score.losses[i];
        if ((rank > 5 || lost[i] == 0) && i != d->loss) {
            continue;
        }
        int aside = debrief_ring_shift(r, rank, 0.0, px_m / (double)ui->scale);
        debrief_ring(ui, inner.x + inner.w + stud + ui_px(ui, 10) - (float)aside * ui_px(ui, 20),
                     inner.y + inner.h - (float)(l->y_m * px_m), rank, i == d->loss);
    }
    app_mark(app, which ? "map2" : "map", inner);
}
