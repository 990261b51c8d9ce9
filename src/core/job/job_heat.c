/* Heat of a whole wall and the camera's picture of it.
 *
 * Reads from top to bottom: what each square of the wall is made of, R of the wall by ISO 6946, the
 * inside face as a fin over the squares.
 */
#include "job_private.h"

#include "core/job_heat.h"
#include "core/material.h"
#include "core/pb_math.h"

#include <math.h>
#include <string.h>

/* A square of the wall. Shares of its area; the cavity is the rest. */
typedef struct Cell {
    float wood, out, batt; /* batt: share of the depth of the cavity */
    float filled;          /* share of the cavity */
    double cavity_u;       /* air to air through the cavity, mean over its area */
    double layer_w;        /* conductance of the cavity layer alone, likewise */
    double behind_u;       /* from the middle of the inside face to outdoors */
} Cell;

typedef struct Wall {
    const PbJob *job;
    const PbFraming *framing;
    const PbConstants *constants;
    PbWallSkin skin;
    double skin_r, wood_r, empty_r;
    double dx, dy;
    int nx, ny;
    Cell *cell;
} Wall;

const char *pb_job_heat_word(PbJobHeatCase which)
{
    static const char *const words[PB_JOB_HEAT_CASES] = {"before", "now", "well"};
    return words[which];
}

/* Share of square i, j that lies in r. */
static double share_in(const Wall *w, int i, int j, const PbRect *r)
{
    return pb_overlap(i * w->dx, (i + 1) * w->dx, r->x0_m, r->x1_m) *
           pb_overlap(j * w->dy, (j + 1) * w->dy, r->y0_m, r->y1_m) / (w->dx * w->dy);
}

static double cavity_of(const Cell *c)
{
    return pb_max(0.0, 1.0 - (double)c->wood - (double)c->out);
}

/* The bay that the cavity of a square belongs to: a square is smaller than a stud. */
static int bay_of(const Wall *w, int i, int j)
{
    static const double at[9][2] = {{0.5, 0.5},   {0.02, 0.5},  {0.98, 0.5},
                                    {0.5, 0.02},  {0.5, 0.98},  {0.02, 0.02},
                                    {0.98, 0.02}, {0.02, 0.98}, {0.98, 0.98}};
    for (int n = 0; n < 9; n++) {
        int bay = pb_bays_at(w->job->bays, (i + at[n][0]) * w->dx, (j + at[n][1]) * w->dy);
        if (bay >= 0) {
            return bay;
        }
    }
    return -1;
}

/* R of the cavity with fill of this density, 0 = empty, in front of its old batt. */
static double cavity_r(const Wall *w, const Cell *c, double kg_m3)
{
    double depth = w->framing->like.depth_m, batt = (double)c->batt;
    double open = batt > 0.95 ? 0.0
                  : kg_m3 < w->constants->void_kg_m3
                      ? w->empty_r
                      : (1.0 - batt) * depth / pb_material_conductivity(w->constants, kg_m3);
    return open + batt * depth / PB_BATT_K_W_MK;
}

static void add_path(const Wall *w, Cell *c, double share, double kg_m3)
{
    double r = cavity_r(w, c, kg_m3);
    c->cavity_u += share / (w->skin_r + r);
    c->layer_w += share / r;
    c->filled += kg_m3 < w->constants->void_kg_m3 ? 0.0f : (float)share;
}

/* The patches of a fill behind a square, each by its area; none there = empty. */
static void add_patches(const Wall *w, Cell *c, int i, int j, const PbJobFill *fill)
{
    int count;
    const PbRect *a = &pb_bays_list(w->job->bays, &count)[fill->bay].around;
    double all = 0.0;
    for (int turn = 0; turn < 2; turn++) {
        for (int n = 0; n < fill->patch_count; n++) {
            const PbPatch *p = &fill->patches[n];
            PbRect at = {a->x0_m + p->x0_m, a->y0_m + p->y0_m, a->x0_m + p->x1_m,
                         a->y0_m + p->y1_m};
            double share = share_in(w, i, j, &at);
            if (turn == 0) {
                all += share;
            } else if (share > 0.0) {
                add_path(w, c, share / all, p->density_kg_m3);
            }
        }
        if (all <= 0.0) {
            add_path(w, c, 1.0, 0.0);
            return;
        }
    }
}

static int is_well_filled(const Wall *w, int bay)
{
    int count;
    return bay >= 0 && !pb_bays_list(w->job->bays, &count)[bay].is_narrow &&
           !pb_job_is_to_leave(w->job, bay);
}

static void add_cavity(const Wall *w, Cell *c, int i, int j, PbJobHeatCase which)
{
    int bay = bay_of(w, i, j);
    double target = w->framing->like.target_kg_m3;
    const PbJobFill *fill = bay >= 0 ? pb_job_fill_of(w->job, bay) : NULL;
    if (which == PB_JOB_HEAT_WELL) {
        add_path(w, c, 1.0, is_well_filled(w, bay) ? target : 0.0);
    } else if (which == PB_JOB_HEAT_BEFORE || fill == NULL || !fill->is_run) {
        add_path(w, c, 1.0, 0.0);
    } else if (fill->is_small) {
        add_path(w, c, 1.0, target);
    } else {
        add_patches(w, c, i, j, fill);
    }
}

static void add_solids(const Wall *w, Cell *c, int i, int j)
{
    const PbFraming *f = w->framing;
    for (int n = 0; n < f->member_count; n++) {
        c->wood += (float)share_in(w, i, j, &f->members[n].at);
    }
    for (int n = 0; n < f->cutout_count; n++) {
        c->out += (float)share_in(w, i, j, &f->cutouts[n].at);
    }
    c->wood = (float)pb_min((double)c->wood, 1.0 - pb_min((double)c->out, 1.0));
    for (int n = 0; n < f->inside_count; n++) {
        const PbObstacle *o = &f->inside[n];
        PbRect at = {o->x0_m, o->y0_m, o->x1_m, o->y1_m};
        if (pb_obstacle_traits(o->kind)->is_batt && share_in(w, i, j, &at) > 0.5) {
            c->batt = (float)o->depth_frac;
        }
    }
}

static void make_cells(const Wall *w, PbJobHeatCase which)
{
    for (int j = 0; j < w->ny; j++) {
        for (int i = 0; i < w->nx; i++) {
            Cell *c = &w->cell[j * w->nx + i];
            memset(c, 0, sizeof *c);
            add_solids(w, c, i, j);
            if (cavity_of(c) > 1e-6) {
                add_cavity(w, c, i, j, which);
            }
        }
    }
}

/* Areas, and R by both limits of ISO 6946. */
static void sum_up(const Wall *w, PbJobHeat *heat)
{
    double wood = 0.0, cavity = 0.0, filled = 0.0, area = w->dx * w->dy;
    PbWallPaths paths = {.skin_m2k_w = w->skin_r, .stud_m2k_w = w->wood_r};
    for (int n = 0; n < w->nx * w->ny; n++) {
        const Cell *c = &w->cell[n];
        double share = cavity_of(c);
        wood += (double)c->wood;
        cavity += share;
        filled += share * (double)c->filled;
        paths.cavity_u_w_m2k += share * c->cavity_u;
        paths.layer_w_m2k += share * c->layer_w;
    }
    heat->wall_m2 = (wood + cavity) * area;
    heat->filled_m2 = filled * area;
    heat->framing_share = wood / pb_max(wood + cavity, 1e-9);
    paths.framing_share = heat->framing_share;
    paths.cavity_u_w_m2k /= pb_max(cavity, 1e-9);
    paths.layer_w_m2k /= pb_max(cavity, 1e-9);
    heat->r_m2k_w = pb_wall_r(&paths);
    heat->u_w_m2k = 1.0 / heat->r_m2k_w;
}

static double behind(const Wall *w, const Cell *c)
{
    double before = w->skin.room_film_m2k_w + 0.5 * w->skin.inside_m / w->skin.inside_k_w_mk;
    double wood = 1.0 / (w->skin_r - before + w->wood_r), cavity = cavity_of(c), sum = cavity;
    double u = cavity > 0.0 ? 1.0 / (1.0 / c->cavity_u - before) : 0.0;
    sum += (double)c->wood;
    return ((double)c->wood * wood + cavity * u) / sum;
}

/* k t lap T + (T_room - T) / R_in - g (T - T_out) = 0, no heat across the edges of the wall: each
 * square in turn until none moves. The face carries heat some 20 to 40 mm, so a few rounds do. */
static void solve_face(const Wall *w, double room_c, double outdoor_c, double *t)
{
    enum { ROUNDS = 2000 };
    const double still_k = 1e-6;
    double sheet = w->skin.inside_m * w->skin.inside_k_w_mk, moved = 1.0;
    double inside =
        1.0 / (w->skin.room_film_m2k_w + 0.5 * w->skin.inside_m / w->skin.inside_k_w_mk);
    double side[4] = {sheet / (w->dx * w->dx), 0.0, sheet / (w->dy * w->dy), 0.0};
    side[1] = side[0];
    side[3] = side[2];
    for (int n = 0; n < w->nx * w->ny; n++) {
        w->cell[n].behind_u = behind(w, &w->cell[n]);
    }
    for (int round = 0; round < ROUNDS && moved > still_k; round++) {
        moved = 0.0;
        for (int n = 0; n < w->nx * w->ny; n++) {
            const int i = n % w->nx, j = n / w->nx;
            const int next[4] = {i > 0 ? n - 1 : -1, i + 1 < w->nx ? n + 1 : -1,
                                 j > 0 ? n - w->nx : -1, j + 1 < w->ny ? n + w->nx : -1};
            if (w->cell[n].out > 0.5f) {
                continue;
            }
            double g = w->cell[n].behind_u, all = inside + g;
            double sum = inside * room_c + g * outdoor_c;
            for (int q = 0; q < 4; q++) {
                if (next[q] >= 0 && w->cell[next[q]].out <= 0.5f) {
                    all += side[q];
                    sum += side[q] * t[next[q]];
                }
            }
            moved = pb_max(moved, fabs(sum / all - t[n]));
            t[n] = sum / all;
        }
    }
}

/* From the middle of the face to its surface. */
static void to_surface(const Wall *w, double room_c, PbJobHeat *heat)
{
    double half = 0.5 * w->skin.inside_m / w->skin.inside_k_w_mk, film = w->skin.room_film_m2k_w;
    heat->coldest_c = HUGE_VAL;
    heat->warmest_c = -HUGE_VAL;
    for (int n = 0; n < w->nx * w->ny; n++) {
        if (w->cell[n].out > 0.5f) {
            continue;
        }
        heat->map_c[n] = room_c - (room_c - heat->map_c[n]) * film / (film + half);
        heat->coldest_c = pb_min(heat->coldest_c, heat->map_c[n]);
        heat->warmest_c = pb_max(heat->warmest_c, heat->map_c[n]);
    }
}

static Wall wall_of(const PbJob *job)
{
    const PbFraming *f = &job->config.framing;
    const PbConstants *c = &job->config.constants;
    Wall w = {.job = job, .framing = f, .constants = c};
    w.skin = pb_wall_skin(&f->like.wall, c);
    w.skin_r = pb_wall_skin_r(&w.skin);
    w.wood_r = f->like.depth_m / c->wood_k_w_mk;
    w.empty_r = 1.0 / (c->gap_radiation_w_m2k + c->void_convection_w_m2k);
    w.nx = (int)ceil(f->length_m / PB_JOB_HEAT_CELL_M);
    w.ny = (int)ceil(f->height_m / PB_JOB_HEAT_CELL_M);
    w.dx = f->length_m / w.nx;
    w.dy = f->height_m / w.ny;
    return w;
}

PbStatus pb_job_heat(const PbJob *job, PbJobHeatCase which, double room_c, double outdoor_c,
                     PbJobHeat *heat, PbError *err)
{
    const PbAllocator *a = &job->config.allocator;
    Wall w = wall_of(job);
    size_t cells = (size_t)w.nx * (size_t)w.ny;
    if (!(fabs(room_c) <= 100.0) || !(fabs(outdoor_c) <= 100.0) ||
        !(fabs(room_c - outdoor_c) >= 1.0)) {
        return pb_fail(err, PB_ERR_RANGE,
                       "expected temperatures within 100 C of 0 and at least 1 K apart");
    }
    memset(heat, 0, sizeof *heat);
    heat->room_c = room_c;
    heat->outdoor_c = outdoor_c;
    w.cell = a->alloc(a->user, cells * sizeof *w.cell);
    heat->map_c = w.cell != NULL ? a->alloc(a->user, cells * sizeof *heat->map_c) : NULL;
    if (heat->map_c != NULL) {
        make_cells(&w, which);
        sum_up(&w, heat);
        heat->heat_w = heat->u_w_m2k * heat->wall_m2 * fabs(room_c - outdoor_c);
        heat->nx = w.nx;
        heat->ny = w.ny;
        for (size_t n = 0; n < cells; n++) {
            heat->map_c[n] = room_c;
        }
        solve_face(&w, room_c, outdoor_c, heat->map_c);
        to_surface(&w, room_c, heat);
    }
    if (w.cell != NULL) {
        a->free(a->user, w.cell);
    }
    return heat->map_c != NULL ? PB_OK : pb_fail(err, PB_ERR_MEMORY, "out of memory");
}

PbStatus pb_job_heat_all(const PbJob *job, double room_c, double outdoor_c, PbJobHeat *heat,
                         PbError *err)
{
    for (int c = 0; c < PB_JOB_HEAT_CASES; c++) {
        PbStatus status = pb_job_heat(job, (PbJobHeatCase)c, room_c, outdoor_c, &heat[c], err);
        if (status != PB_OK) {
            memset(&heat[c], 0, (size_t)(PB_JOB_HEAT_CASES - c) * sizeof *heat);
            pb_job_heat_free_all(job, heat);
            return status;
        }
    }
    return PB_OK;
}

void pb_job_heat_free(const PbJob *job, PbJobHeat *heat)
{
    if (heat->map_c != NULL) {
        job->config.allocator.free(job->config.allocator.user, heat->map_c);
    }
    memset(heat, 0, sizeof *heat);
}

void pb_job_heat_free_all(const PbJob *job, PbJobHeat *heat)
{
    for (int c = 0; c < PB_JOB_HEAT_CASES; c++) {
        pb_job_heat_free(job, &heat[c]);
    }
}
