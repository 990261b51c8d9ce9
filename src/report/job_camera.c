/* The whole wall as a camera sees it on a cold day, before the job and after. */
#include "job_camera.h"

#include "gfxtypes/ramps.h"
#include "io/job_heat_words.h"

#include <math.h>
#include <stdio.h>

#define SMALL 7.5

typedef struct Picture {
    const PbJobHeat *heat;
    double low_c, high_c;
} Picture;

static unsigned ramp(double t)
{
    double rgb[3];
    unsigned colour = 0;
    gfx_camera_rgb(fmin(fmax(t, 0.0), 1.0), rgb);
    for (int n = 0; n < 3; n++) {
        colour = colour << 8 | (unsigned)lround(255.0 * fmin(fmax(rgb[n], 0.0), 1.0));
    }
    return colour;
}

static unsigned cell(const void *user, int i, int j)
{
    const Picture *q = user;
    return ramp((q->heat->map_c[j * q->heat->nx + i] - q->low_c) / (q->high_c - q->low_c));
}

/* Windows, doors and chimney breast are not to be read: white. */
static void picture(const Page *p, const PbFraming *f, const Picture *q, double x, double pt_m)
{
    double high = f->height_m * pt_m, top = p->y + 10.0;
    page_cells(p, x, top, f->length_m * pt_m, high, q->heat->nx, q->heat->ny, cell, q);
    for (int n = 0; n < f->cutout_count; n++) {
        const PbRect *r = &f->cutouts[n].at;
        page_box(p, x + r->x0_m * pt_m, top + high - r->y1_m * pt_m, (r->x1_m - r->x0_m) * pt_m,
                 (r->y1_m - r->y0_m) * pt_m, WHITE);
    }
    page_colour(p, INK);
    cairo_set_line_width(p->cr, 0.75);
    cairo_rectangle(p->cr, x, top, f->length_m * pt_m, high);
    cairo_stroke(p->cr);
}

static void scale(const Page *p, const Picture *q, double x, double y)
{
    enum { STEPS = 40 };
    char text[32];
    double step = 1.5;
    page_colour(p, INK2);
    io_temperature_figure(q->low_c, 1, p->taste, text, sizeof text);
    page_text(p, x, y + 6.0, text, SMALL, 0, LEFT);
    x += page_text_width(p, text, SMALL, 0) + 4.0;
    for (int n = 0; n < STEPS; n++) {
        page_box(p, x + n * step, y, step, 7.0, ramp((n + 0.5) / STEPS));
    }
    x += STEPS * step + 4.0;
    page_colour(p, INK2);
    io_temperature_figure(q->high_c, 1, p->taste, text, sizeof text);
    page_text(p, x, y + 6.0, text, SMALL, 0, LEFT);
}

void page_job_camera(const Page *p, double x, double high, const PbFraming *f,
                     const PbJobHeat *heat)
{
    static const PbJobHeatCase shown[2] = {PB_JOB_HEAT_BEFORE, PB_JOB_HEAT_NOW};
    double wide = p->width - p->margin - x, gap = 12.0;
    double pt_m = fmin(0.5 * (wide - gap) / f->length_m, (high - 24.0) / f->height_m);
    Picture q = {NULL, fmin(heat[0].coldest_c, heat[1].coldest_c),
                 fmax(heat[0].warmest_c, heat[1].warmest_c)};
    for (int n = 0; n < 2; n++) {
        double left = x + n * 0.5 * (wide + gap);
        q.heat = &heat[shown[n]];
        page_colour(p, INK2);
        page_text(p, left, p->y + 7.0, io_job_heat_name(shown[n], p->taste.language), SMALL, 1,
                  LEFT);
        picture(p, f, &q, left, pt_m);
    }
    scale(p, &q, x, p->y + 10.0 + f->height_m * pt_m + 5.0);
}
