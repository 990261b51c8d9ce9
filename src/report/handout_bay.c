/* The small bays of the handout: one fill at one time, at true proportion. */
#include "handout.h"

#include <math.h>
#include <stdlib.h>

#define STUD     4.0
#define PLATE    5.0
#define VOID     6.0 /* kg/m3: a square with less is empty; the constant void_kg_m3 as shipped */
#define SQUARE_M 0.1 /* hatch goes by the squares that scoring uses */
#define HAIR     0.5 /* gaps are drawn at least this wide, else no printer shows them */
#define FOAM     0xDDDAD2

typedef struct Frame {
    double x, bottom, scale, width_m, height_m;
} Frame;

static double px(const Frame *f, double x_m)
{
    return f->x + x_m * f->scale;
}

static double py(const Frame *f, double y_m)
{
    return f->bottom - y_m * f->scale;
}

typedef struct Cells {
    const PbComparePicture *picture;
    double target_kg_m3;
} Cells;

static unsigned fill_cell(const void *cells, int i, int j)
{
    const Cells *c = cells;
    return page_fill_colour((double)c->picture->values[j * c->picture->nx + i], c->target_kg_m3,
                            BOARD);
}

static void paint(const Page *p, const Frame *f, const PbComparePicture *d, double target)
{
    Cells cells = {d, target};
    page_cells(p, px(f, 0.0), py(f, f->height_m), f->width_m * f->scale, f->height_m * f->scale,
               d->nx, d->ny, fill_cell, &cells);
}

/* Mean density of the cells whose centre lies in a square. */
static double mean_of(const PbComparePicture *d, const Frame *f, double x0, double y0)
{
    double sum = 0.0;
    int count = 0;
    for (int j = 0; j < d->ny; j++) {
        double y = (j + 0.5) * f->height_m / d->ny;
        for (int i = 0; i < d->nx && y >= y0 && y < y0 + SQUARE_M; i++) {
            double x = (i + 0.5) * f->width_m / d->nx;
            if (x >= x0 && x < x0 + SQUARE_M) {
                sum += (double)d->values[j * d->nx + i];
                count++;
            }
        }
    }
    return count > 0 ? sum / count : 1e9;
}

/* One hatch under target, crossed where empty: never colour alone. */
static void hatch(const Page *p, const Frame *f, const PbComparePicture *d, double target)
{
    cairo_new_path(p->cr);
    for (double y = 0.0; y < f->height_m - 1e-9; y += SQUARE_M) {
        for (double x = 0.0; x < f->width_m - 1e-9; x += SQUARE_M) {
            double rho = mean_of(d, f, x, y);
            if (rho >= target) {
                continue;
            }
            double x1 = px(f, fmin(x + SQUARE_M, f->width_m));
            double y1 = py(f, fmin(y + SQUARE_M, f->height_m));
            page_hatch(p, px(f, x), y1, x1, py(f, y), 3.0, 0);
            if (rho < VOID) {
                page_hatch(p, px(f, x), y1, x1, py(f, y), 3.0, 1);
            }
        }
    }
    page_colour(p, INK);
    cairo_set_line_width(p->cr, 0.35);
    cairo_stroke(p->cr);
}

static void boards(const Page *p, const Frame *f)
{
    page_box(p, f->x, py(f, f->height_m), f->width_m * f->scale, f->height_m * f->scale, BOARD);
    page_colour(p, RULE);
    for (double y = 0.14; y < f->height_m; y += 0.14) {
        page_line(p, f->x, py(f, y), px(f, f->width_m), py(f, y), 0.4);
    }
}

/* An opening of the foam, from a to b in points. */
static void slit(const Page *p, double x, double y, double w, double h)
{
    page_box(p, w < HAIR ? x - 0.5 * (HAIR - w) : x, h < HAIR ? y - 0.5 * (HAIR - h) : y,
             fmax(w, HAIR), fmax(h, HAIR), INK);
}

static void foam(const Page *p, const Frame *f, const PbFoamState *s)
{
    double top = py(f, f->height_m), w = f->width_m * f->scale, h = f->height_m * f->scale;
    page_box(p, f->x, top, w, h, FOAM);
    if (!(s->shrink_frac > 1e-4)) {
        return;
    }
    slit(p, f->x, top, s->stud_gap_m[0] * f->scale, h);
    slit(p, px(f, f->width_m - s->stud_gap_m[1]), top, s->stud_gap_m[1] * f->scale, h);
    slit(p, f->x, py(f, s->plate_gap_m[0]), w, s->plate_gap_m[0] * f->scale);
    slit(p, f->x, top, w, s->plate_gap_m[1] * f->scale);
    for (int i = 0; i < s->across_count; i++) {
        double open = s->across[i].open_m;
        slit(p, f->x, py(f, s->across[i].at_m + 0.5 * open), w, open * f->scale);
    }
    for (int i = 0; i < s->along_count; i++) {
        double open = s->along[i].open_m;
        slit(p, px(f, s->along[i].at_m - 0.5 * open), top, open * f->scale, h);
    }
}

static void obstacles(const Page *p, const Frame *f, const PbBayField *bay)
{
    double dx = f->width_m / bay->nx, dy = f->height_m / bay->ny;
    for (int j = 0; j < bay->ny; j++) {
        for (int i = 0; i < bay->nx; i++) {
            if (bay->free_frac[j * bay->nx + i] + bay->batt_frac[j * bay->nx + i] < 0.05) {
                page_box(p, px(f, i * dx), py(f, (j + 1) * dy), dx * f->scale, dy * f->scale, WOOD);
            }
        }
    }
}

double handout_bay_width(const PbCompare *c, double height)
{
    const PbExercise *b = &pb_compare_setup(c)->house.bay;
    return (height - 2.0 * PLATE) / b->height_m * b->width_m + 2.0 * STUD;
}

void handout_bay(const Page *p, const PbCompare *c, PbCompareFill fill, int t, double x, double top,
                 double height)
{
    const PbExercise *b = &pb_compare_setup(c)->house.bay;
    Frame f = {x + STUD, top + height - PLATE, (height - 2.0 * PLATE) / b->height_m, b->width_m,
               b->height_m};
    int frame = pb_compare_key_frame(c, t);
    boards(p, &f);
    if (fill == PB_COMPARE_FOAM) {
        foam(p, &f, pb_compare_foam(c, frame));
    } else if (fill != PB_COMPARE_EMPTY ||
               pb_compare_setup(c)->house.cavity.now == PB_CAVITY_LOOSE) {
        PbComparePicture d = pb_compare_density(c, fill, frame);
        paint(p, &f, &d, b->target_kg_m3);
        hatch(p, &f, &d, b->target_kg_m3);
    }
    const PbBayField *bay = pb_compare_bay(c);
    obstacles(p, &f, bay);
    page_batt_lines(p, px(&f, 0.0), py(&f, f.height_m), f.width_m * f.scale, f.height_m * f.scale,
                    bay->nx, bay->ny, bay->batt_frac);
    page_wood(p, f.x, f.bottom, f.width_m * f.scale, f.height_m * f.scale, STUD, PLATE, 0.5);
}
