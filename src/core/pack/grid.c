/*
 * From an exercise to arrays: free shares of cells and faces, leaks by place, openings.
 * Not here: anything that changes with time except the free share under tube and bow.
 */
#include "sim.h"

#include "core/material.h"
#include "core/pb_math.h"

#include <math.h>
#include <string.h>

/* A cell with less room than this carries no fill: thinner than a tuft. */
static const double MIN_FREE = 0.04;

void pb_grid_layout(PbSim *s, PbArena *arena)
{
    size_t pad = (size_t)s->cells * sizeof(double);
    size_t bare = (size_t)(s->nx * s->ny) * sizeof(double);
    double **padded[] = {&s->phi0,         &s->batt,        &s->phi,          &s->iphi,
                         &s->tube,         &s->bow_m,       &s->load_pa,      &s->gas_pa,
                         &s->sigma,        &s->mobility,    &s->leak,         &s->leak_kg_s,
                         &s->leak_now,     &s->rate_a,      &s->mouth_w,      &s->fibre_hold,
                         &s->side_kf,      &s->air_x,       &s->air_y,        &s->solid.a,
                         &s->solid.b,      &s->solid.p,     &s->solid.open_x, &s->solid.open_y,
                         &s->solid.area_x, &s->solid.area_y};
    for (size_t i = 0; i < sizeof padded / sizeof padded[0]; i++) {
        *padded[i] = pb_arena_take(arena, pad);
    }
    PbSolidStep *t = &s->step;
    t->a = s->solid.a;
    t->b = s->solid.b;
    float **single[] = {&t->rho,    &t->rm,     &t->p,      &t->tot,    &t->gx,   &t->gy,
                        &t->fa_x,   &t->fb_x,   &t->fa_y,   &t->fb_y,   &t->iphi, &t->gas,
                        &t->open_x, &t->open_y, &t->area_x, &t->area_y, &t->t0_x, &t->t0_y,
                        &t->kf_x,   &t->kf_y,   &t->mob_x,  &t->mob_y,  &t->fall};
    for (size_t i = 0; i < sizeof single / sizeof single[0]; i++) {
        *single[i] = pb_arena_take(arena, (size_t)s->cells * sizeof(float));
    }
    double **plain[] = {&s->out_density, &s->out_past, &s->out_gas, &s->out_phi,
                        &s->out_bow,     &s->out_load, &s->out_leak};
    for (size_t i = 0; i < sizeof plain / sizeof plain[0]; i++) {
        *plain[i] = pb_arena_take(arena, bare);
    }
    s->row_load = pb_arena_take(arena, (size_t)s->ny * sizeof(double));
    s->fed_cells = pb_arena_take(arena, (size_t)s->cells * sizeof(int));
    s->opening_at = pb_arena_take(arena, (size_t)s->cells * sizeof(int));
    s->row_live = pb_arena_take(arena, (size_t)s->ny + 2);
    s->row_next = pb_arena_take(arena, (size_t)s->ny + 2);
    pb_band_of_grid(&s->band, s->nx, s->ny, arena);
    size_t rows = (size_t)(s->band.n + s->band.half + 12);
    s->unit_pa = pb_arena_take(arena, (rows + 8) * sizeof(double));
    s->memory_pa = pb_arena_take(arena, (rows + 8) * sizeof(double));
    double **tuft[] = {&s->tufts.x, &s->tufts.y, &s->tufts.u, &s->tufts.v, &s->tufts.kg};
    for (size_t i = 0; i < sizeof tuft / sizeof tuft[0]; i++) {
        *tuft[i] = pb_arena_take(arena, PB_MAX_TUFTS * sizeof(double));
    }
    s->tufts.room = PB_MAX_TUFTS;
    s->tufts.shown = pb_arena_take(arena, PB_MAX_TUFTS * sizeof(PbTuft));
}

/* Share of a cell inside a strip of width `size` along the line p0..p1, by 4 x 4 samples. */
static double strip_share(const PbObstacle *o, double x0, double y0, double dx, double dy)
{
    double lx = o->x1_m - o->x0_m, ly = o->y1_m - o->y0_m;
    double len2 = lx * lx + ly * ly;
    int inside = 0;
    for (int b = 0; b < 4; b++) {
        for (int a = 0; a < 4; a++) {
            double px = x0 + dx * ((double)a + 0.5) / 4.0 - o->x0_m;
            double py = y0 + dy * ((double)b + 0.5) / 4.0 - o->y0_m;
            double t = len2 > 0.0 ? pb_limit((px * lx + py * ly) / len2, 0.0, 1.0) : 0.0;
            double ex = px - t * lx, ey = py - t * ly;
            inside += ex * ex + ey * ey <= 0.25 * o->size_m * o->size_m;
        }
    }
    return (double)inside / 16.0;
}

/* Does the cell [from, from + size) lie in lo..hi moved to cell edges, one cell thick at least? */
static int is_in_snapped(double lo, double hi, double from, double size)
{
    int first = (int)(lo / size + 0.5), end = (int)(hi / size + 0.5);
    int cell = (int)(from / size + 0.5);
    if (end <= first) {
        first = (int)(0.5 * (lo + hi) / size);
        end = first + 1;
    }
    return cell >= first && cell < end;
}

static double obstacle_share(const PbObstacle *o, double x0, double y0, double dx, double dy)
{
    const PbObstacleTraits *traits = pb_obstacle_traits(o->kind);
    if (traits->is_snapped && o->depth_frac >= 1.0) {
        /* wood across the whole depth stops fill and air: a cell half covered must not let them by
         */
        return is_in_snapped(o->x0_m, o->x1_m, x0, dx) && is_in_snapped(o->y0_m, o->y1_m, y0, dy);
    }
    if (!traits->is_rectangle) {
        return strip_share(o, x0, y0, dx, dy);
    }
    return pb_overlap(x0, x0 + dx, o->x0_m, o->x1_m) * pb_overlap(y0, y0 + dy, o->y0_m, o->y1_m) /
           (dx * dy);
}

static void init_free(PbSim *s)
{
    s->fillable_m3 = 0.0;
    for (int j = 0; j < s->ny; j++) {
        for (int i = 0; i < s->nx; i++) {
            double free_share = 1.0;
            for (int o = 0; o < s->ex.obstacle_count; o++) {
                const PbObstacle *ob = &s->ex.obstacles[o];
                double share =
                    ob->depth_frac * obstacle_share(ob, s->dx * i, s->dy * j, s->dx, s->dy);
                free_share -= share;
                if (pb_obstacle_traits(ob->kind)->is_batt && share > 0.0) {
                    s->batt[pb_at(s, i, j)] += share;
                    s->has_batt = 1;
                }
            }
            if (free_share < MIN_FREE) {
                free_share = 0.0;
            }
            s->phi0[pb_at(s, i, j)] = free_share;
            s->fillable_m3 += free_share * s->dx * s->dy * s->ex.depth_m;
        }
    }
}

/* Air reaches a crack behind a batt as it does behind an open bay. */
static double airy_share(const PbSim *s, int at)
{
    return pb_min(s->phi0[at] + s->batt[at], 1.0);
}

/* Leaks: a share along the plates, the rest in the gaps between boards or spread evenly. Blocked
 * cells leak nothing; the total over the face is leak75 times its area whatever the pattern. Where
 * no gap between boards comes by (a short bay) the plates have it all, and where both plates are
 * blocked the gaps. */
static void init_leaks(PbSim *s)
{
    const double c_area = s->ex.leak75_m3_s_m2 / pb_pow(75.0, s->ex.leak_exponent);
    double total = c_area * s->ex.width_m * s->ex.height_m;
    double end_weight = 0.0, board_weight = 0.0;
    for (int pass = 0; pass < 2; pass++) {
        for (int j = 0; j < s->ny; j++) {
            double y0 = s->dy * j, y1 = y0 + s->dy;
            double gap = 1.0;
            if (s->ex.board_pitch_m > 0.0) {
                gap = floor(y1 / s->ex.board_pitch_m) - floor(y0 / s->ex.board_pitch_m);
            }
            double end = (j == 0 || j == s->ny - 1) ? 1.0 : 0.0;
            for (int i = 0; i < s->nx; i++) {
                int at = pb_at(s, i, j);
                double free_share = airy_share(s, at);
                if (pass == 0) {
                    end_weight += end * free_share;
                    board_weight += gap * free_share;
                } else {
                    double share = end_weight <= 0.0     ? 0.0
                                   : board_weight <= 0.0 ? 1.0
                                                         : s->ex.end_leak_share;
                    double c = board_weight > 0.0 ? (1.0 - share) * gap / board_weight : 0.0;
                    c += end_weight > 0.0 ? share * end / end_weight : 0.0;
                    s->leak[at] = c * free_share * total / (s->dx * s->dy);
                }
            }
        }
    }
}

/* Cells whose middle lies within half a cell of the opening and that no opening before it has: a
 * cell leads out by one opening. @return how many */
static int mark_opening(PbSim *s, int o, double slack_m)
{
    const PbOpening *op = &s->ex.openings[o];
    double half_x = 0.5 * s->dx + slack_m, half_y = 0.5 * s->dy + slack_m;
    int count = 0;
    for (int j = 0; j < s->ny; j++) {
        for (int i = 0; i < s->nx; i++) {
            double x = s->dx * ((double)i + 0.5), y = s->dy * ((double)j + 0.5);
            int is_in = x > op->x0_m - half_x && x < op->x1_m + half_x && y > op->y0_m - half_y &&
                        y < op->y1_m + half_y;
            int at = pb_at(s, i, j);
            if (is_in && s->phi0[at] > 0.0 && s->opening_at[at] == 0) {
                s->opening_at[at] = o + 1;
                count++;
            }
        }
    }
    return count;
}

/* The nearest cell that is still free, at most two cells off: for an opening so close to another
 * that the grid does not tell them apart. One behind wood stays shut. */
static void mark_beside(PbSim *s, int o)
{
    const PbOpening *op = &s->ex.openings[o];
    double x = 0.5 * (op->x0_m + op->x1_m), y = 0.5 * (op->y0_m + op->y1_m);
    double best = 2.0;
    int nearest = -1;
    for (int j = 0; j < s->ny; j++) {
        for (int i = 0; i < s->nx; i++) {
            int at = pb_at(s, i, j);
            double away = pb_max(fabs(s->dx * ((double)i + 0.5) - x) / s->dx,
                                 fabs(s->dy * ((double)j + 0.5) - y) / s->dy);
            if (s->phi0[at] > 0.0 && s->opening_at[at] == 0 && away < best) {
                best = away;
                nearest = at;
            }
        }
    }
    if (nearest >= 0) {
        s->opening_at[nearest] = o + 1;
    }
}

static void init_openings(PbSim *s)
{
    for (int o = 0; o < s->ex.opening_count; o++) {
        /* a line along a plate lies exactly half a cell from the row that it opens */
        if (mark_opening(s, o, 0.0) == 0 && mark_opening(s, o, 1e-9) == 0) {
            mark_beside(s, o);
        }
    }
}

/* Faces between cells, and friction on wood that stands in the plane of the bay. */
static void init_faces(PbSim *s)
{
    double *open_x = s->solid.open_x, *open_y = s->solid.open_y;
    for (int j = 0; j < s->ny; j++) {
        for (int i = 0; i < s->nx; i++) {
            int at = pb_at(s, i, j);
            open_x[at] = s->phi0[at] > 0.0 && s->phi0[at + 1] > 0.0 ? 1.0 : 0.0;
            open_y[at] = s->phi0[at] > 0.0 && s->phi0[at + s->stride] > 0.0 ? 1.0 : 0.0;
            s->step.open_x[at] = (float)open_x[at];
            s->step.open_y[at] = (float)open_y[at];
            /* beside a stud or a block: one more rubbing face per cell side */
            double sides =
                (s->phi0[at - 1] <= 0.0 ? 1.0 : 0.0) + (s->phi0[at + 1] <= 0.0 ? 1.0 : 0.0);
            s->side_kf[at] = sides / (2.0 * s->dx);
        }
    }
}

/* Friction limit per Pa of stress: the faces, and wood beside the cells. */
static void init_friction(PbSim *s)
{
    const double mu = s->k.wall_friction;
    const double face = s->k.lateral_ratio * mu / s->ex.depth_m;
    for (int at = s->stride; at < s->cells - s->stride; at++) {
        s->step.kf_x[at] = (float)face;
        s->step.kf_y[at] =
            (float)(face + 0.25 * mu * (s->side_kf[at] + s->side_kf[at + s->stride]));
    }
}

void pb_grid_refresh_free(PbSim *s)
{
    double *area_x = s->solid.area_x, *area_y = s->solid.area_y;
    const double inv_depth = 1.0 / s->ex.depth_m;
    for (int j = 0; j < s->ny; j++) {
        for (int i = 0; i < s->nx; i++) {
            int at = pb_at(s, i, j);
            if (s->phi0[at] <= 0.0) {
                continue;
            }
            double phi = s->phi0[at] + s->bow_m[at] * inv_depth - s->tube[at];
            phi = pb_max(phi, MIN_FREE);
            s->phi[at] = phi;
            s->iphi[at] = 1.0 / phi;
        }
    }
    for (int at = s->stride; at < s->cells - s->stride; at++) {
        area_x[at] = s->solid.open_x[at] * pb_min(s->phi[at], s->phi[at + 1]);
        area_y[at] = s->solid.open_y[at] * pb_min(s->phi[at], s->phi[at + s->stride]);
    }
}

void pb_grid_init(PbSim *s)
{
    init_free(s);
    init_leaks(s);
    init_openings(s);
    init_faces(s);
    init_friction(s);
    pb_grid_refresh_free(s);
    const PbConstants *k = &s->k;
    for (int i = 0; i < PB_SIGMA_TABLE; i++) {
        s->sigma_table[i] = k->sigma_free_pa_s_m2 + pb_material_resistivity(k, 0.25 * i);
    }
    double ref = k->compaction_ref_kg_m3, rest = k->rest_kg_m3;
    s->cv = k->compaction_ref_pa / (ref * ref * ref - rest * rest * rest);
}
