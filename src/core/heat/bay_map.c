/* The room-side picture: one sheet of board over strips and studs, solved as a fin.
 *
 *     k t lap T_g + (T_room - T_g)/R_i - q_b(T_g) = 0
 * T_g is the middle of the board, R_i the room film and half the board. q_b is what the section of
 * the strip gave at its own board temperature, moved in proportion as neighbours warm or cool the
 * board; behind a stud it is (T_g - T_out)/R_stud. Edges: the middle of a stud, so no heat crosses.
 */
#include "heat/band.h"
#include "heat/bay.h"

#include "core/pb_math.h"

#include <math.h>
#include <string.h>

/* Mean of a section's row values over y0..y1. */
static double row_mean(const PbBayStrip *s, const double *value, double y0, double y1)
{
    double sum = 0.0;
    for (int j = 0; j < s->view.ny; j++) {
        double h = pb_min(y1, s->y[j + 1]) - pb_max(y0, s->y[j]);
        sum += h > 0.0 ? h * value[j] : 0.0;
    }
    return sum / (y1 - y0);
}

/* What stands behind one cell of the picture: q = flux + slope (T - at). */
typedef struct Behind {
    double flux, slope, at, empty;
} Behind;

static Behind behind_stud(const PbHeatBay *bay)
{
    const PbConstants *c = &bay->constants;
    const PbWallSkin *w = &bay->skin;
    double r = 0.5 * w->inside_m / w->inside_k_w_mk + bay->setup.field->depth_m / c->wood_k_w_mk +
               w->outside_m / w->outside_k_w_mk + w->beyond_m2k_w;
    Behind b = {0.0, 1.0 / r, bay->setup.outdoor_c, 0.0};
    return b;
}

static Behind behind_strip(const PbHeatBay *bay, const PbBayStrip *s, double y0, double y1)
{
    Behind b;
    b.flux = row_mean(s, s->back_w_m2, y0, y1);
    b.at = row_mean(s, s->board_c, y0, y1);
    b.empty = row_mean(s, s->empty, y0, y1);
    double dt = b.at - bay->setup.outdoor_c;
    /* A warm top of a loop gives heat back: no slope then, the flux stands. */
    b.slope = fabs(dt) > 1e-9 ? pb_max(b.flux / dt, 0.0) : 0.0;
    return b;
}

static void add_share(Behind *sum, double share, Behind b)
{
    sum->flux += share * (b.flux - b.slope * b.at);
    sum->slope += share * b.slope;
    sum->empty += share * b.empty;
}

/* Everything behind x0..x1 by width, from the strips' values of one row; q = flux + slope T. */
static Behind behind(const PbHeatBay *bay, const Behind *row, double x0, double x1)
{
    Behind sum = {0.0, 0.0, 0.0, 0.0};
    double width = bay->setup.field->width_m;
    for (int i = 0; i < bay->strip_count; i++) {
        const PbHeatStrip *v = &bay->strip[i].view;
        double w = pb_min(x1, v->x1_m) - pb_max(x0, v->x0_m);
        if (w > 0.0) {
            add_share(&sum, w / (x1 - x0), row[i]);
        }
    }
    double covered = pb_max(0.0, pb_min(x1, width) - pb_max(x0, 0.0)) / (x1 - x0);
    if (covered < 1.0) {
        add_share(&sum, 1.0 - covered, behind_stud(bay));
    }
    return sum;
}

static size_t lay_out(PbArena *a, PbBand *band, double **rhs, int nx, int ny)
{
    int across = nx <= ny;
    pb_band_layout(band, nx * ny, across ? nx : ny, 1, a);
    *rhs = pb_arena_take(a, (size_t)(nx * ny) * sizeof(double));
    return a->used;
}

size_t pb_bay_map_bytes(int map_nx, int map_ny)
{
    PbArena a = {NULL, 0, 0};
    PbBand band;
    double *rhs;
    return lay_out(&a, &band, &rhs, map_nx, map_ny);
}

typedef struct Fin {
    int nx, ny, step_i, step_j;
    double x0, dx, dy, sheet; /* sheet = k t */
    PbBand band;
    double *rhs;
} Fin;

static void assemble(PbHeatBay *bay, Fin *f)
{
    const PbWallSkin *w = &bay->skin;
    double inside = w->room_film_m2k_w + 0.5 * w->inside_m / w->inside_k_w_mk;
    double gx = f->sheet * f->dy / f->dx, gy = f->sheet * f->dx / f->dy, area = f->dx * f->dy;
    pb_band_clear(&f->band);
    for (int j = 0; j < f->ny; j++) {
        Behind row[PB_HEAT_MAX_STRIPS];
        for (int i = 0; i < bay->strip_count; i++) {
            int first = bay->strip[i].view.same_as;
            row[i] = first < i ? row[first]
                               : behind_strip(bay, &bay->strip[i], j * f->dy, (j + 1) * f->dy);
        }
        for (int i = 0; i < f->nx; i++) {
            Behind b = behind(bay, row, f->x0 + i * f->dx, f->x0 + (i + 1) * f->dx);
            int u = i * f->step_i + j * f->step_j;
            *pb_band_at(&f->band, u, u) += area * (1.0 / inside + b.slope);
            f->rhs[u] = area * (bay->setup.room_c / inside - b.flux);
            bay->map_void[j * f->nx + i] = b.empty;
            if (i + 1 < f->nx) {
                *pb_band_at(&f->band, u, u) += gx;
                *pb_band_at(&f->band, u + f->step_i, u + f->step_i) += gx;
                *pb_band_at(&f->band, u, u + f->step_i) = -gx;
            }
            if (j + 1 < f->ny) {
                *pb_band_at(&f->band, u, u) += gy;
                *pb_band_at(&f->band, u + f->step_j, u + f->step_j) += gy;
                *pb_band_at(&f->band, u, u + f->step_j) = -gy;
            }
        }
    }
}

static PbStatus solve_fin(PbHeatBay *bay, Fin *f)
{
    const PbWallSkin *w = &bay->skin;
    const PbBandKernels *kernels = pb_band_kernels();
    double inside = w->room_film_m2k_w + 0.5 * w->inside_m / w->inside_k_w_mk;
    assemble(bay, f);
    if (!kernels->factor(&f->band)) {
        return PB_ERR_DIVERGED;
    }
    kernels->solve(&f->band, f->rhs, f->rhs);
    PbHeatBayResult *r = &bay->result;
    r->surface_min_c = HUGE_VAL;
    r->surface_max_c = -HUGE_VAL;
    for (int j = 0; j < f->ny; j++) {
        for (int i = 0; i < f->nx; i++) {
            double board = f->rhs[i * f->step_i + j * f->step_j];
            double q = (bay->setup.room_c - board) / inside;
            double t = bay->setup.room_c - w->room_film_m2k_w * q;
            bay->map[j * f->nx + i] = t;
            r->surface_min_c = pb_min(r->surface_min_c, t);
            r->surface_max_c = pb_max(r->surface_max_c, t);
        }
    }
    return PB_OK;
}

PbStatus pb_bay_map(PbHeatBay *bay)
{
    const PbConstants *c = &bay->constants;
    Fin f = {.nx = bay->setup.map_nx, .ny = bay->setup.map_ny};
    size_t cells = (size_t)f.nx * (size_t)f.ny;
    f.step_i = f.nx <= f.ny ? 1 : f.ny;
    f.step_j = f.nx <= f.ny ? f.nx : 1;
    f.x0 = -0.5 * c->stud_width_m;
    f.dx = (bay->setup.field->width_m + c->stud_width_m) / f.nx;
    f.dy = bay->setup.field->height_m / f.ny;
    f.sheet = bay->skin.inside_k_w_mk * bay->skin.inside_m;
    size_t bytes = pb_bay_map_bytes(f.nx, f.ny);
    bay->map = bay->allocator.alloc(bay->allocator.user, 2 * cells * sizeof(double));
    void *block = bay->allocator.alloc(bay->allocator.user, bytes);
    PbStatus status = PB_ERR_MEMORY;
    if (bay->map != NULL && block != NULL) {
        bay->map_void = bay->map + cells;
        PbArena a = {block, 0, bytes};
        (void)lay_out(&a, &f.band, &f.rhs, f.nx, f.ny);
        status = solve_fin(bay, &f);
        bay->result.map_nx = f.nx;
        bay->result.map_ny = f.ny;
        bay->result.map_x0_m = f.x0;
        bay->result.map_x1_m = f.x0 + f.dx * f.nx;
        bay->result.map_c = bay->map;
        bay->result.map_void = bay->map_void;
    }
    if (block != NULL) {
        bay->allocator.free(bay->allocator.user, block);
    }
    return status;
}
