/* The record of a job on one page. What has no end (bays, lost points) is cut at the foot of its
 * block, and how many are left out is said. */
#include "report/job.h"

#include "job_camera.h"
#include "page.h"

#include "core/material.h"
#include "core/units.h"
#include "io/act_words.h"
#include "io/compare_words.h"
#include "io/job_heat_words.h"
#include "io/job_words.h"

#include <assert.h>
#include <inttypes.h>
#include <math.h>
#include <stdio.h>

#define MARGIN 44.0
#define SIZE   8.5
#define ROW    12.5

static const ReportJob *rep(const Page *p)
{
    return p->subject;
}

static double right_of(const Page *p)
{
    return p->width - p->margin;
}

static void head(Page *p)
{
    const ReportJob *r = rep(p);
    char text[240];
    double y = p->y, right = right_of(p);
    page_colour(p, INK);
    page_text(p, p->margin, y + 16.0, word(p, "Record of the job"), 17.0, 1, LEFT);
    page_text(p, right, y + 16.0, r->date, 10.0, 0, RIGHT);
    page_line(p, p->margin, y + 23.0, right, y + 23.0, 1.25);
    page_colour(p, INK2);
    page_text_in(p, p->margin, y + 37.0, 0.7 * (right - p->margin), r->wall, 10.0, 1);
    snprintf(text, sizeof text, "%s%s%s %" PRIu64, r->crew, r->crew[0] != '\0' ? ", " : "",
             word(p, "seed"), pb_job_config(r->job)->seed);
    page_text(p, right, y + 37.0, text, SIZE, 0, RIGHT);
    p->y = y + 48.0;
}

/* R of the fill alone, by its mean density and the depth; studs and boards come on top. */
static double fill_r(const ReportJob *r)
{
    double kg = 0.0, m3 = 0.0;
    for (int i = 0; i < pb_job_fill_count(r->job); i++) {
        const PbJobFill *f = pb_job_fill(r->job, i);
        if (!f->is_small) {
            kg += f->result.mass_in_bay_kg;
            m3 += f->result.fillable_volume_m3;
        }
    }
    if (m3 <= 0.0 || kg <= 0.0) {
        return -1.0;
    }
    const PbJobConfig *c = pb_job_config(r->job);
    return c->framing.like.depth_m / pb_material_conductivity(&c->constants, kg / m3);
}

typedef struct Fact {
    const char *name;
    char value[64];
} Fact;

static void r_words(const Page *p, double r_si, char *out, size_t size)
{
    if (r_si < 0.0) {
        snprintf(out, size, "-");
    } else if (p->taste.is_us) {
        snprintf(out, size, "R-%.0f", r_si / PB_M2K_W_PER_R);
    } else {
        char value[32];
        show(p, value, sizeof value, r_si, 1);
        snprintf(out, size, "%s %s", value, word(p, NC_("unit", "m²K/W")));
    }
}

static void leak_words(const Page *p, char *out, size_t size)
{
    char before[32], after[32];
    double before_m3_s, after_m3_s;
    pb_job_leak(rep(p)->job, &before_m3_s, &after_m3_s);
    if (before_m3_s <= 0.0) {
        snprintf(out, size, "-");
        return;
    }
    io_unit_figure(IO_UNIT_FLOW, before_m3_s, p->taste, before, sizeof before);
    io_unit_figure(IO_UNIT_FLOW, after_m3_s, p->taste, after, sizeof after);
    snprintf(out, size, word(p, NC_("before and after", "%s, then %s")), before, after);
}

static int facts_of(const Page *p, Fact *f)
{
    const ReportJob *r = rep(p);
    const PbJobMarks *m = r->marks;
    const PbExercise *like = &pb_job_framing(r->job)->like;
    char one[32], other[32];
    int n = 0;
    io_unit_figure(IO_UNIT_AREA, m->filled_m2, p->taste, one, sizeof one);
    io_unit_figure(IO_UNIT_AREA, m->fillable_m2, p->taste, other, sizeof other);
    f[n].name = word(p, "Area filled");
    snprintf(f[n++].value, sizeof f->value, word(p, NC_("area", "%s of %s")), one, other);
    f[n].name = word(p, "Thickness");
    io_unit_figure(IO_UNIT_SMALL, like->depth_m, p->taste, f[n++].value, sizeof f->value);
    f[n].name = word(p, "Bags used");
    show(p, f[n++].value, sizeof f->value, m->used_bags, 1);
    f[n].name = word(p, "Bags estimated");
    if (m->estimate_bags >= 0.0) {
        show(p, f[n++].value, sizeof f->value, m->estimate_bags, 1);
    } else {
        snprintf(f[n++].value, sizeof f->value, "-");
    }
    f[n].name = word(p, "Bags by area and target");
    show(p, f[n++].value, sizeof f->value, m->wanted_bags, 1);
    f[n].name = word(p, "R of the fill, as packed");
    r_words(p, fill_r(r), f[n++].value, sizeof f->value);
    f[n].name = word(p, "Leak through the fill, 75 Pa");
    leak_words(p, f[n++].value, sizeof f->value);
    if (r->heat != NULL) {
        f[n].name = word(p, "R of the whole wall");
        io_compare_figure(IO_FIGURE_R, r->heat[PB_JOB_HEAT_BEFORE].r_m2k_w, NULL, p->taste, one,
                          sizeof one);
        io_compare_figure(IO_FIGURE_R, r->heat[PB_JOB_HEAT_NOW].r_m2k_w, NULL, p->taste, other,
                          sizeof other);
        snprintf(f[n++].value, sizeof f->value, word(p, NC_("before and after", "%s, then %s")),
                 one, other);
    }
    f[n].name = word(p, "Target density");
    io_unit_figure(IO_UNIT_DENSITY, like->target_kg_m3, p->taste, f[n++].value, sizeof f->value);
    f[n].name = word(p, "Minutes of the job");
    show(p, f[n++].value, sizeof f->value, m->minutes, 0);
    return n;
}

static void facts(Page *p)
{
    Fact f[10];
    int n = facts_of(p, f), half = (n + 1) / 2;
    double gap = 24.0, wide = 0.5 * (right_of(p) - p->margin - gap);
    for (int i = 0; i < n; i++) {
        double x = p->margin + (i >= half ? wide + gap : 0.0), y = p->y + (i % half + 1) * ROW;
        page_colour(p, INK2);
        page_text_in(p, x, y, wide - 110.0, f[i].name, SIZE, 0);
        page_colour(p, INK);
        page_text(p, x + wide, y, f[i].value, SIZE, 1, RIGHT);
    }
    p->y += half * ROW + 8.0;
}

/* --- the wall --- */

typedef struct Sketch {
    double x, foot, pt_m;
} Sketch;

static void box(const Page *p, const Sketch *s, const PbRect *r, unsigned rgb)
{
    page_box(p, s->x + r->x0_m * s->pt_m, s->foot - r->y1_m * s->pt_m,
             (r->x1_m - r->x0_m) * s->pt_m, (r->y1_m - r->y0_m) * s->pt_m, rgb);
}

static void sketch_fill(const Page *p, const Sketch *s, const PbRect *r, const PbJobFill *fill)
{
    double target = pb_job_framing(rep(p)->job)->like.target_kg_m3;
    if (fill->is_small) {
        box(p, s, r, WASH);
    }
    for (int i = 0; i < fill->patch_count; i++) {
        const PbPatch *q = &fill->patches[i];
        PbRect at = {r->x0_m + q->x0_m, r->y0_m + q->y0_m, r->x0_m + q->x1_m, r->y0_m + q->y1_m};
        if (q->density_kg_m3 > 1.0) {
            box(p, s, &at, page_fill_colour(q->density_kg_m3, target, BOARD));
        }
    }
}

static void sketch_bay(const Page *p, const Sketch *s, int n)
{
    const ReportJob *r = rep(p);
    int count;
    char number[16];
    const PbRect *a = &pb_bays_list(pb_job_bays(r->job), &count)[n].around;
    const PbJobFill *fill = pb_job_fill_of(r->job, n);
    PbJobBayKind kind = r->marks->bays[n].kind;
    int is_bad = kind == PB_JOB_BAY_MISSED || kind == PB_JOB_BAY_PASSED;
    double x0 = s->x + a->x0_m * s->pt_m, x1 = s->x + a->x1_m * s->pt_m;
    double y0 = s->foot - a->y1_m * s->pt_m, y1 = s->foot - a->y0_m * s->pt_m;
    box(p, s, a, is_bad ? DANGER_WASH : BOARD);
    if (fill != NULL) {
        sketch_fill(p, s, a, fill);
    }
    if (is_bad) {
        page_colour(p, DANGER);
        page_hatch(p, x0, y0, x1, y1, 4.0, 0);
        cairo_set_line_width(p->cr, 0.4);
        cairo_stroke(p->cr);
    }
    if (r->marks->bays[n].left != PB_LEAVE_NONE) {
        page_colour(p, INK2);
        page_line(p, x0, y0, x1, y1, 0.6);
        page_line(p, x0, y1, x1, y0, 0.6);
    }
    snprintf(number, sizeof number, "%d", n + 1);
    double wide = page_text_width(p, number, 7.0, 1) + 4.0;
    if (wide <= x1 - x0 && y1 - y0 >= 10.0) {
        page_box(p, 0.5 * (x0 + x1 - wide), y0 + 1.5, wide, 9.0, WHITE);
        page_colour(p, is_bad ? DANGER : INK);
        page_text(p, 0.5 * (x0 + x1), y0 + 8.6, number, 7.0, 1, CENTRE);
    }
}

/* Was a picture taken after the job? */
static int has_camera(const Page *p)
{
    int count, is_taken = 0;
    const PbJobDone *done = pb_job_done(rep(p)->job, &count);
    for (int i = 0; i < count; i++) {
        is_taken |= done[i].act.kind == PB_JOB_CAMERA_AFTER;
    }
    return is_taken && rep(p)->heat != NULL;
}

static void sketch(Page *p)
{
    const PbFraming *f = pb_job_framing(rep(p)->job);
    double wide = right_of(p) - p->margin, most = has_camera(p) ? 130.0 : 170.0;
    double share = has_camera(p) ? 0.55 : 1.0;
    Sketch s = {p->margin, 0.0, fmin(share * wide / f->length_m, most / f->height_m)};
    s.foot = p->y + f->height_m * s.pt_m;
    PbRect whole = {0.0, 0.0, f->length_m, f->height_m};
    box(p, &s, &whole, WELL);
    for (int n = 0; n < rep(p)->marks->bay_count; n++) {
        sketch_bay(p, &s, n);
    }
    for (int i = 0; i < f->member_count; i++) {
        box(p, &s, &f->members[i].at, WOOD);
    }
    for (int i = 0; i < f->cutout_count; i++) {
        box(p, &s, &f->cutouts[i].at, WHITE);
    }
    page_colour(p, INK);
    cairo_set_line_width(p->cr, 0.75);
    cairo_rectangle(p->cr, s.x, p->y, f->length_m * s.pt_m, f->height_m * s.pt_m);
    cairo_stroke(p->cr);
    if (has_camera(p)) {
        page_job_camera(p, s.x + f->length_m * s.pt_m + 18.0, s.foot - p->y, f, rep(p)->heat);
    }
    p->y = s.foot + 8.0;
}

static void heat(Page *p)
{
    char text[500];
    if (rep(p)->heat != NULL) {
        io_job_heat_sentence(rep(p)->heat, p->taste, text, sizeof text);
        page_colour(p, INK);
        page_paragraph(p, p->margin, right_of(p) - p->margin, text, SIZE - 0.5, 0);
        p->y += 2.0;
    }
}

/* --- bays --- */

static void bay_words(const Page *p, int n, char *out, size_t size)
{
    const ReportJob *r = rep(p);
    const PbJobBay *b = &r->marks->bays[n];
    char area[32], density[40] = "";
    io_unit_figure(IO_UNIT_AREA, b->area_m2, p->taste, area, sizeof area);
    if (b->mean_kg_m3 >= 0.0) {
        density[0] = ',';
        density[1] = ' ';
        io_unit_figure(IO_UNIT_DENSITY, b->mean_kg_m3, p->taste, density + 2, sizeof density - 2);
    }
    snprintf(out, size, "%d  %s, %s%s%s%s", n + 1, area,
             io_job_bay_name(b->kind, p->taste.language), density,
             b->left != PB_LEAVE_NONE ? ": " : "",
             b->left != PB_LEAVE_NONE ? io_leave_words(b->left, p->taste.language) : "");
}

static void more(const Page *p, double x, double y, int left)
{
    char text[64];
    snprintf(text, sizeof text, word(p, "and %d more"), left);
    page_colour(p, INK2);
    page_text(p, x, y, text, SIZE - 1.0, 0, LEFT);
}

/* Two columns, at most ROWS high; parts that no hole goes into are not told. */
static void bays(Page *p)
{
    enum { ROWS = 18 };
    const PbJobMarks *m = rep(p)->marks;
    char text[240];
    double gap = 18.0, wide = 0.5 * (right_of(p) - p->margin - gap), top;
    int list[PB_JOB_BAYS], n = 0;
    for (int i = 0; i < m->bay_count; i++) {
        if (m->bays[i].kind != PB_JOB_BAY_NARROW) {
            list[n++] = i;
        }
    }
    page_heading(p, word(p, "Bays: what was filled, and what was left and why"));
    top = p->y;
    int rows = n > 2 * ROWS ? ROWS : (n + 1) / 2, most = 2 * rows;
    for (int i = 0; i < n && i < most; i++) {
        double x = p->margin + (i >= rows ? wide + gap : 0.0), y = top + (i % rows + 1) * ROW;
        PbJobBayKind kind = m->bays[list[i]].kind;
        if (n > most && i == most - 1) {
            more(p, x, y, n - i);
            break;
        }
        bay_words(p, list[i], text, sizeof text);
        page_colour(p, kind == PB_JOB_BAY_MISSED || kind == PB_JOB_BAY_WRONGLY ? DANGER : INK);
        page_text_in(p, x, y, wide, text, SIZE - 0.5, 0);
    }
    p->y = top + rows * ROW + 4.0;
}

/* --- marks --- */

static void verdict(Page *p)
{
    const PbJobMarks *m = rep(p)->marks;
    char text[300];
    io_job_verdict(m, p->taste.language, text, sizeof text);
    page_heading(p, word(p, "Marks"));
    p->y += 3.0;
    page_colour(p, m->is_pass ? INK : DANGER);
    page_paragraph(p, p->margin, right_of(p) - p->margin, text, SIZE + 1.0, 1);
}

static void losses(Page *p, double foot)
{
    const PbJobMarks *m = rep(p)->marks;
    char text[400], line[460], points[24];
    double wide = right_of(p) - p->margin;
    for (int i = 0; i < m->loss_count; i++) {
        const PbJobLoss *l = &m->losses[i];
        if (l->part >= 0 && l->points < 0.05) {
            continue;
        }
        io_job_loss_sentence(l, p->taste, text, sizeof text);
        if (l->part >= 0) {
            show(p, points, sizeof points, l->points, 1);
            snprintf(line, sizeof line, "–%s  %s", points, text);
        } else {
            snprintf(line, sizeof line, "%s", text);
        }
        if (p->y + page_paragraph_height(p, wide, line, SIZE - 0.5, 0) + ROW > foot) {
            more(p, p->margin, p->y + ROW, m->loss_count - i);
            return;
        }
        page_colour(p, l->part < 0 ? DANGER : INK);
        page_paragraph(p, p->margin, wide, line, SIZE - 0.5, 0);
    }
}

/* At the foot, at its own height. Returns where it begins. */
static double cautions(Page *p)
{
    const char *const text = word(
        p, "A simulated wall: nothing here certifies a person or a real wall, or promises that "
           "fill stays as it is. On real work: wiring off and tested dead, lead and asbestos "
           "looked for, flues and burners kept clear; local codes and licensed trades decide. "
           "Bag counts and cores do not show a bay that nobody found: only the map of the bays "
           "and a camera do.");
    double wide = right_of(p) - p->margin, high = page_paragraph_height(p, wide, text, 7.5, 0);
    double keep = p->y, top = p->height - p->margin - high - 26.0;
    p->y = top + 6.0;
    page_colour(p, EDGE);
    page_line(p, p->margin, top, right_of(p), top, 0.5);
    page_colour(p, INK2);
    page_paragraph(p, p->margin, wide, text, 7.5, 0);
    p->y = keep;
    return top;
}

static void draw(Page *p)
{
    p->y = p->margin;
    head(p);
    facts(p);
    sketch(p);
    heat(p);
    bays(p);
    verdict(p);
    losses(p, cautions(p) - 4.0);
    page_colour(p, INK2);
    page_text(p, right_of(p), p->height - p->margin + 10.0, "Pullback", 7.5, 0, RIGHT);
}

PbStatus report_job_pdf(const ReportJob *r, const char *path, ReportPaper paper, const char *fonts,
                        const char *created, PbError *err)
{
    assert(r != NULL && r->job != NULL && r->marks != NULL);
    assert(path != NULL && fonts != NULL && created != NULL);
    PdfJob job = {path, fonts, r->wall, created, paper, MARGIN, draw};
    return pdf_write(&job, NULL, r, r->taste, err);
}
