/* Mouth height, pressure and flow over one axis of time; events and numbered moments on it. */
#include "page.h"

#include "picture/strip.h"
#include "picture/travel.h"

#include <math.h>
#include <stdio.h>

#define TWO_PI 6.283185307179586

/* A chart: x by time, y from low (bottom) to high (top). */
typedef struct Chart {
    double x, y, w, h;
    double end_s, high;
} Chart;

static double cx(const Chart *c, double time_s)
{
    return c->x + c->w * time_s / c->end_s;
}

static double cy(const Chart *c, double value)
{
    double v = value / c->high;
    return c->y + c->h * (1.0 - (v < 0.0 ? 0.0 : v > 1.0 ? 1.0 : v));
}

/* 1, 2 or 5 times a power of ten, so that at most `most` of them fit. */
static double round_step(double span, int most)
{
    double step = pow(10.0, floor(log10(span / most)));
    static const double times[] = {1.0, 2.0, 5.0, 10.0};
    for (int i = 0; i < 4; i++) {
        if (span / (step * times[i]) <= most) {
            return step * times[i];
        }
    }
    return step * 10.0;
}

static double minute_step(double end_s)
{
    static const double steps[] = {10.0, 15.0, 30.0, 60.0, 120.0, 300.0, 600.0};
    for (int i = 0; i < 7; i++) {
        if (end_s / steps[i] <= 8.0) {
            return steps[i];
        }
    }
    return 1200.0;
}

static void minutes(const Page *p, const Chart *c)
{
    page_colour(p, RULE);
    for (double t = minute_step(c->end_s); t < c->end_s; t += minute_step(c->end_s)) {
        page_line(p, cx(c, t), c->y, cx(c, t), c->y + c->h, 0.4);
    }
}

static GfxRect area_of(const Chart *c)
{
    return (GfxRect){(float)c->x, (float)c->y, (float)c->w, (float)c->h};
}

/* A strip of one signal with its own scale at the left; factor: from SI to the reader's unit. */
static void strip(Page *p, Chart *c, const char *name, const char *unit, PicSignal signal,
                  double factor)
{
    const ReportRun *r = p->r;
    GfxShapes shapes = {0};
    PicGround ground = page_ground(p);
    double most = 0.0;
    char text[80];
    for (int i = 0; i < r->sample_count; i++) {
        most = fmax(most, pic_signal(&r->samples[i], signal) * factor);
    }
    double step = round_step(most > 0.0 ? most : 1.0, 4);
    c->high = step * ceil((most > 0.0 ? most : 1.0) / step);
    PicStrip s = {area_of(c), c->end_s, c->high / factor, signal, r->samples, r->sample_count};
    pic_strip_ground(&shapes, &ground, &s);
    pic_strip_curve(&shapes, &ground, &s, 0);
    page_paint(p, &shapes);
    minutes(p, c);
    page_colour(p, INK2);
    for (double v = 0.0; v <= c->high * 1.0001; v += step * (c->high / step > 2.5 ? 2.0 : 1.0)) {
        show(p, text, sizeof text, v, step < 1.0 ? 1 : 0);
        page_text(p, c->x - 3.0, cy(c, v) + 2.5, text, 7.0, 0, RIGHT);
    }
    snprintf(text, sizeof text, "%s, %s", name, unit);
    page_text(p, c->x, c->y - 4.0, text, 8.0, 1, LEFT);
}

/* On the height scale of the map beside it. */
static void travel(Page *p, const Chart *c)
{
    const ReportRun *r = p->r;
    GfxShapes shapes = {0};
    PicGround ground = page_ground(p);
    PicTravel t = {.area = area_of(c),
                   .bottom = c->y + c->h,
                   .px_m = c->h / c->high,
                   .span_s = c->end_s,
                   .height_m = r->height_m,
                   .target_kg_m3 = r->target_kg_m3,
                   .samples = r->samples,
                   .sample_count = r->sample_count,
                   .lifts = r->lifts,
                   .lift_count = r->lift_count,
                   .rubric = &r->marked_by,
                   .chosen = -1};
    pic_travel_rules(&shapes, &ground, &t, r->taste.is_us);
    pic_travel_stops(&shapes, &ground, &t, PIC_FIGURES_INSIDE);
    pic_travel_trace(&shapes, &ground, &t, NULL);
    page_paint(p, &shapes);
}

static void draw_moments(const Page *p, const Chart *c)
{
    const ReportRun *r = p->r;
    double placed[REPORT_MOMENTS][2];
    for (int i = 0; i < r->moment_count; i++) {
        double x = cx(c, r->moments[i].time_s), y = cy(c, r->moments[i].y_m);
        x = x < c->x + 7.0 ? c->x + 7.0 : x > c->x + c->w - 7.0 ? c->x + c->w - 7.0 : x;
        y = y < c->y + 7.0 ? c->y + 7.0 : y > c->y + c->h - 7.0 ? c->y + c->h - 7.0 : y;
        placed[i][0] = x;
        placed[i][1] = y;
        page_part_rings(placed, i, 0, c->x + 7.0, c->x + c->w - 7.0);
        page_ring(p, placed[i][0], placed[i][1], i + 1);
    }
}

static void draw_stalls(const Page *p, const Chart *c)
{
    const ReportRun *r = p->r;
    for (int i = 0; i < r->event_count; i++) {
        if (r->events[i].is_stall) {
            cairo_new_path(p->cr);
            cairo_arc(p->cr, cx(c, r->events[i].time_s), cy(c, r->events[i].y_m), 1.9, 0.0, TWO_PI);
            page_colour(p, WHITE);
            cairo_fill_preserve(p->cr);
            page_colour(p, INK);
            cairo_set_line_width(p->cr, 0.8);
            cairo_stroke(p->cr);
        }
    }
}

/* Triangles at their time, words where there is room in one of three rows; one that finds none
 * shows as a triangle alone. */
static void draw_events(const Page *p, const Chart *c, double top)
{
    enum { ROWS = 3 };
    const ReportRun *r = p->r;
    double busy[ROWS] = {c->x, c->x, c->x};
    for (int i = 0; i < r->event_count; i++) {
        const ReportEvent *e = &r->events[i];
        if (e->is_stall) {
            continue;
        }
        char text[80], clock[16];
        double x = cx(c, e->time_s);
        io_clock_words(e->time_s, clock, sizeof clock);
        snprintf(text, sizeof text, "%s %s", clock, e->word);
        double w = page_text_width(p, text, 7.0, 0) + 14.0;
        double from = x + w > c->x + c->w ? c->x + c->w - w : x - 4.0;
        page_colour(p, WARN);
        cairo_new_path(p->cr);
        cairo_move_to(p->cr, x - 3.0, top);
        cairo_line_to(p->cr, x + 3.0, top);
        cairo_line_to(p->cr, x, top + 5.0);
        cairo_close_path(p->cr);
        cairo_fill(p->cr);
        for (int row = 0; row < ROWS; row++) {
            if (from >= busy[row]) {
                page_colour(p, INK);
                page_text(p, from + 4.0, top + 14.0 + 9.5 * row, text, 7.0, 0, LEFT);
                busy[row] = from + w;
                break;
            }
        }
    }
}

static int has_words(const ReportRun *r)
{
    for (int i = 0; i < r->event_count; i++) {
        if (!r->events[i].is_stall) {
            return 1;
        }
    }
    return 0;
}

void draw_time_line(Page *p, double x, double width, double map_top, double map_height,
                    double bottom)
{
    const ReportRun *r = p->r;
    double end_s = r->duration_s > 1.0 ? r->duration_s : 1.0;
    Chart mouth = {x, map_top, width, map_height, end_s, r->height_m};
    char text[80];
    minutes(p, &mouth);
    page_colour(p, INK2);
    cairo_set_line_width(p->cr, 0.6);
    cairo_rectangle(p->cr, mouth.x, mouth.y, mouth.w, mouth.h);
    cairo_stroke(p->cr);
    page_colour(p, INK);
    page_text(p, x, map_top - 9.0, word(p, "Tube position; rings: stalls"), 8.0, 1, LEFT);
    travel(p, &mouth);
    draw_stalls(p, &mouth);
    draw_moments(p, &mouth);
    double y = map_top + map_height + 9.0;
    if (has_words(r)) {
        draw_events(p, &mouth, y);
    }
    y += 50.0;
    double each = (bottom - y - 38.0) / 2.0;
    Chart pressure = {x, y, width, each, end_s, 1.0};
    strip(p, &pressure, word(p, "Pressure at the blower"), io_unit_name(IO_UNIT_PRESSURE, p->taste),
          PIC_PRESSURE, io_unit_value(IO_UNIT_PRESSURE, 1.0, p->taste));
    Chart flow = {x, y + each + 20.0, width, each, end_s, 1.0};
    strip(p, &flow, word(p, "Air flow"), io_unit_name(IO_UNIT_FLOW, p->taste), PIC_FLOW,
          io_unit_value(IO_UNIT_FLOW, 1.0, p->taste));
    page_colour(p, INK2);
    for (double t = 0.0; t <= end_s; t += minute_step(end_s)) {
        io_clock_words(t, text, sizeof text);
        page_text(p, cx(&flow, t), bottom - 8.0, text, 7.0, 0, CENTRE);
    }
}
