/*
 * The bay as it was left: density by colour, hatch on every patch under target, cross hatch on
 * voids. Drawn at true proportion; what has a height stands beside it on the same scale.
 */
#include "page.h"

#include "gfxtypes/ramps.h"

#include "core/units.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

/* A patch with less than this is empty: the constant void_kg_m3 as shipped. */
#define VOID_KG_M3 6.0
#define STUD       5.0
#define PLATE      7.0

/* From the bay's metres to the page. */
typedef struct Frame {
    double x, bottom, scale;
} Frame;

static double px(const Frame *f, double x_m)
{
    return f->x + x_m * f->scale;
}

static double py(const Frame *f, double y_m)
{
    return f->bottom - y_m * f->scale;
}

void page_cells(const Page *p, double x, double top, double width, double height, int nx, int ny,
                PageCell cell, const void *user)
{
    cairo_surface_t *image = cairo_image_surface_create(CAIRO_FORMAT_RGB24, nx, ny);
    if (cairo_surface_status(image) != CAIRO_STATUS_SUCCESS) {
        cairo_surface_destroy(image);
        return;
    }
    unsigned char *bytes = cairo_image_surface_get_data(image);
    int stride = cairo_image_surface_get_stride(image);
    for (int j = 0; j < ny; j++) {
        unsigned *row = (unsigned *)(void *)(bytes + (ny - 1 - j) * stride);
        for (int i = 0; i < nx; i++) {
            row[i] = cell(user, i, j);
        }
    }
    cairo_surface_mark_dirty(image);
    cairo_save(p->cr);
    cairo_translate(p->cr, x, top);
    cairo_scale(p->cr, width / nx, height / ny);
    cairo_set_source_surface(p->cr, image, 0.0, 0.0);
    cairo_pattern_set_filter(cairo_get_source(p->cr), CAIRO_FILTER_NEAREST);
    cairo_paint(p->cr);
    cairo_restore(p->cr);
    cairo_surface_destroy(image);
}

unsigned page_fill_colour(double kg_m3, double target_kg_m3, unsigned ground)
{
    double cover = fmin(fmax((kg_m3 - 8.0) / 10.0, 0.0), 1.0), rgb[3];
    unsigned value = 0;
    gfx_density_rgb(kg_m3, target_kg_m3, rgb);
    for (int k = 0; k < 3; k++) {
        double under = (double)(ground >> (16 - 8 * k) & 255u) / 255.0;
        value = value << 8 | (unsigned)((under + cover * (rgb[k] - under)) * 255.0 + 0.5);
    }
    return value;
}

unsigned page_cell_colour(double kg_m3, double target_kg_m3, double free_frac, double batt_frac)
{
    if (free_frac + batt_frac < 0.05) {
        return WOOD;
    }
    unsigned fill = free_frac < 0.05 ? WOOL : page_fill_colour(kg_m3, target_kg_m3, BOARD);
    unsigned value = 0;
    for (int shift = 16; shift >= 0; shift -= 8) {
        double a = fill >> shift & 255u, b = (unsigned)WOOL >> shift & 255u;
        value = value << 8 | (unsigned)(a + 0.6 * batt_frac * (b - a) + 0.5);
    }
    return value;
}

void page_batt_lines(const Page *p, double x, double top, double width, double height, int nx,
                     int ny, const double *batt_frac)
{
    static const double pitch = 5.0;
    cairo_new_path(p->cr);
    for (double y = 0.5 * pitch; y < height; y += pitch) {
        int j = (int)((height - y) / height * ny);
        for (int i = 0; i < nx; i++) {
            if (batt_frac[j * nx + i] > 0.05) {
                cairo_move_to(p->cr, x + width * i / nx, top + y);
                cairo_line_to(p->cr, x + width * (i + 1) / nx, top + y);
            }
        }
    }
    page_colour(p, INK2);
    cairo_set_line_width(p->cr, 0.5);
    cairo_stroke(p->cr);
}

static unsigned run_cell(const void *run, int i, int j)
{
    const ReportRun *r = run;
    int c = j * r->nx + i;
    return page_cell_colour(r->density_kg_m3[c], r->target_kg_m3, r->free_frac[c], r->batt_frac[c]);
}

static void paint_field(const Page *p, const Frame *f)
{
    const ReportRun *r = p->r;
    page_cells(p, px(f, 0.0), py(f, r->height_m), r->width_m * f->scale, r->height_m * f->scale,
               r->nx, r->ny, run_cell, r);
    page_batt_lines(p, px(f, 0.0), py(f, r->height_m), r->width_m * f->scale,
                    r->height_m * f->scale, r->nx, r->ny, r->batt_frac);
}

/* Lines x + y = k * pitch (rising to the right; page y runs down), or x - y where `down`. */
void page_hatch(const Page *p, double x0, double y0, double x1, double y1, double pitch, int down)
{
    double s = down ? -1.0 : 1.0;
    double a = down ? x0 - y1 : x0 + y0, b = down ? x1 - y0 : x1 + y1;
    for (double k = ceil(a / pitch) * pitch; k < b; k += pitch) {
        /* along the line, page y = s * (k - x) */
        double from = x0, to = x1;
        double xa = k - s * y0, xb = k - s * y1; /* where it crosses top and bottom */
        double lo = xa < xb ? xa : xb, hi = xa < xb ? xb : xa;
        from = lo > from ? lo : from;
        to = hi < to ? hi : to;
        if (to > from) {
            cairo_move_to(p->cr, from, s * (k - from));
            cairo_line_to(p->cr, to, s * (k - to));
        }
    }
}

static void hatch_patches(const Page *p, const Frame *f)
{
    const ReportRun *r = p->r;
    cairo_new_path(p->cr);
    for (int i = 0; i < r->patch_count; i++) {
        const PbPatch *q = &r->patches[i];
        if (q->free_area_m2 > 0.0 && q->density_kg_m3 < r->target_kg_m3 &&
            q->density_kg_m3 >= VOID_KG_M3) {
            page_hatch(p, px(f, q->x0_m), py(f, q->y1_m), px(f, q->x1_m), py(f, q->y0_m), 4.0, 0);
        }
    }
    page_colour(p, INK);
    cairo_set_line_width(p->cr, 0.5);
    cairo_stroke(p->cr);
    for (int i = 0; i < r->patch_count; i++) {
        const PbPatch *q = &r->patches[i];
        if (q->free_area_m2 > 0.0 && q->density_kg_m3 < VOID_KG_M3) {
            double x0 = px(f, q->x0_m), y0 = py(f, q->y1_m), x1 = px(f, q->x1_m),
                   y1 = py(f, q->y0_m);
            page_hatch(p, x0, y0, x1, y1, 4.0, 0);
            page_hatch(p, x0, y0, x1, y1, 4.0, 1);
        }
    }
    page_colour(p, DANGER);
    cairo_stroke(p->cr);
}

static void draw_scale(const Page *p, const Frame *f, double x)
{
    const ReportRun *r = p->r;
    double step = r->taste.is_us ? PB_M_PER_FT : 0.5;
    int every = r->taste.is_us && r->height_m > 3.0 ? 2 : 1;
    char text[32];
    page_colour(p, INK2);
    for (int i = 0; i * step <= r->height_m + 1e-9; i += every) {
        double y = py(f, i * step);
        page_line(p, x - 4.0, y, x, y, 0.5);
        show(p, text, sizeof text, r->taste.is_us ? i : i * step, r->taste.is_us ? 0 : 1);
        page_text(p, x - 6.0, y + 2.6, text, 7.5, 0, RIGHT);
    }
    page_text(p, x - 6.0, py(f, r->height_m) - 9.0, io_unit_name(IO_UNIT_LENGTH, p->taste), 7.5, 0,
              RIGHT);
}

double draw_map(Page *p, double x, double top, double height)
{
    const ReportRun *r = p->r;
    Frame f = {x + 26.0 + STUD, top + height, height / r->height_m};
    paint_field(p, &f);
    hatch_patches(p, &f);
    page_wood(p, f.x, f.bottom, r->width_m * f.scale, r->height_m * f.scale, STUD, PLATE, 0.75);
    draw_scale(p, &f, f.x - STUD - 2.0);
    cairo_new_path(p->cr);
    cairo_arc(p->cr, px(&f, r->hole_x_m), py(&f, r->hole_y_m), 3.0, 0.0, 6.283185307179586);
    page_colour(p, INK);
    cairo_fill_preserve(p->cr);
    page_colour(p, WHITE);
    cairo_set_line_width(p->cr, 1.0);
    cairo_stroke(p->cr);
    return f.x + r->width_m * f.scale + STUD;
}

void draw_legend(Page *p, double x, double y, double width)
{
    enum { STEPS = 60 };
    const ReportRun *r = p->r;
    char text[80], number[40];
    double step = width / STEPS, rgb[3];
    for (int i = 0; i < STEPS; i++) {
        gfx_density_rgb(20.0 + (i + 0.5), r->target_kg_m3, rgb);
        cairo_set_source_rgb(p->cr, rgb[0], rgb[1], rgb[2]);
        cairo_rectangle(p->cr, x + i * step, y, step + 0.2, 8.0);
        cairo_fill(p->cr);
    }
    double at = x + (r->target_kg_m3 - 20.0) / 60.0 * width;
    page_colour(p, INK);
    cairo_set_line_width(p->cr, 0.5);
    if (at > x && at < x + width) {
        cairo_new_path(p->cr);
        page_hatch(p, x, y, at, y + 8.0, 4.0, 0);
        cairo_stroke(p->cr);
        page_line(p, at, y - 2.5, at, y + 10.5, 1.5);
    }
    show(p, number, sizeof number, io_unit_value(IO_UNIT_DENSITY, 20.0, p->taste), r->taste.is_us);
    page_text(p, x, y + 18.0, number, 7.5, 0, LEFT);
    show(p, number, sizeof number, io_unit_value(IO_UNIT_DENSITY, 80.0, p->taste), r->taste.is_us);
    page_text(p, x + width, y + 18.0, number, 7.5, 0, RIGHT);
    show_density(p, number, sizeof number, r->target_kg_m3);
    snprintf(text, sizeof text, "%s %s", word(p, "target"), number);
    page_text(p, x + 0.5 * width, y + 28.0, text, 7.5, 1, CENTRE);
    page_text(p, x, y + 39.0, word(p, "hatched: under target"), 7.0, 0, LEFT);
    page_text(p, x, y + 48.0, word(p, "crossed: empty"), 7.0, 0, LEFT);
    for (int c = 0; c < r->nx * r->ny; c++) {
        if (r->batt_frac[c] > 0.05) {
            page_text(p, x, y + 57.0, word(p, "lined: old batt"), 7.0, 0, LEFT);
            break;
        }
    }
}

void draw_marks(const Page *p, double x, double top, double height)
{
    const ReportRun *r = p->r;
    double placed[REPORT_MOMENTS][2];
    for (int i = 0; i < r->moment_count; i++) {
        placed[i][0] = x;
        placed[i][1] = top + height * (1.0 - r->moments[i].y_m / r->height_m);
        page_part_rings(placed, i, 1, top, top + height);
        page_ring(p, x, placed[i][1], i + 1);
    }
}
