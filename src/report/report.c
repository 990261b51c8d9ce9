/*
 * The pages in order. First page: head, map with time line, points, dearest moments. Then the
 * trainer's words, figures, what they assume, cautions. Next: map.c, time_line.c, page.c.
 */
#include "report/report.h"

#include "page.h"

#include "core/units.h"
#include "io/climate_words.h"
#include "io/score_words.h"

#include <assert.h>
#include <inttypes.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

/* What the figures are not, if so: those of the run as it was worked. */
static void draw_doubt(Page *p, double x, double right)
{
    const ReportRun *r = p->r;
    char text[160], clock[16];
    if (r->parted_s > 0.0) {
        io_clock_words(r->parted_s, clock, sizeof clock);
        snprintf(text, sizeof text, "%s %s", word(p, "The replay parts from the recording at"),
                 clock);
    } else if (r->is_resimulated) {
        snprintf(text, sizeof text, "%s", word(p, "Re-simulated: recorded with other physics"));
    } else {
        return;
    }
    page_colour(p, DANGER);
    page_text_in(p, x, p->margin + 14.0, right - x, text, 8.5, 1);
}

static void draw_head(Page *p)
{
    const ReportRun *r = p->r;
    double right = p->width - p->margin, wide = right - p->margin;
    char text[320], clock[16];
    page_colour(p, INK);
    page_text(p, p->margin, p->margin + 14.0, word(p, "Report of a run"), 18.0, 1, LEFT);
    page_text(p, right, p->margin + 14.0, "Pullback", 11.0, 0, RIGHT);
    draw_doubt(p, p->margin + 0.5 * wide, right - 60.0);
    page_colour(p, INK);
    page_line(p, p->margin, p->margin + 22.0, right, p->margin + 22.0, 1.5);
    page_text_in(p, p->margin, p->margin + 38.0, 0.5 * wide - 8.0,
                 r->learner[0] != '\0' ? r->learner : word(p, "nobody named"), 12.0, 1);
    page_text_in(p, p->margin + 0.5 * wide, p->margin + 38.0, 0.5 * wide, r->exercise_title, 12.0,
                 1);
    page_colour(p, INK2);
    io_clock_words(r->duration_s, clock, sizeof clock);
    if (r->when[0] != '\0') {
        snprintf(text, sizeof text, "%.10s  %.5s UTC, %s %s", r->when, r->when + 11,
                 word(p, "length"), clock);
    } else {
        snprintf(text, sizeof text, "%s %s", word(p, "length"), clock);
    }
    page_text_in(p, p->margin, p->margin + 51.0, 0.5 * wide - 8.0, text, 8.5, 0);
    snprintf(text, sizeof text, "%s; %s %" PRIu64 ", %s %d", r->exercise_id, word(p, "seed"),
             r->seed, word(p, "physics"), r->physics_version);
    if (r->is_graded) {
        size_t used = strlen(text);
        snprintf(text + used, sizeof text - used, "; %s", word(p, "graded run"));
    }
    page_text_in(p, p->margin + 0.5 * wide, p->margin + 51.0, 0.5 * wide, text, 8.5, 0);
}

/* Columns of the table of points, from the right. */
static void draw_row(Page *p, double x, double right, double y, const ReportPart *part, int shown,
                     int bold)
{
    char text[48], number[24];
    page_colour(p, INK);
    page_text_in(p, x, y, right - x - 92.0, part->name, 9.0, bold);
    snprintf(number, sizeof number, "%d", shown);
    page_text(p, right - 66.0, y, number, 9.0, bold, RIGHT);
    page_colour(p, INK2);
    snprintf(text, sizeof text, "/ %.4g", part->max);
    page_text(p, right - 63.0, y, text, 9.0, 0, LEFT);
    page_colour(p, INK);
    if (part->trainer >= 0.0) {
        show(p, number, sizeof number, part->trainer, 0);
        if (part->trainer_max > 0.0 && part->trainer_max != part->max) {
            snprintf(text, sizeof text, "%s/%.4g", number, part->trainer_max);
            page_text(p, right, y, text, 8.0, bold, RIGHT);
        } else {
            page_text(p, right, y, number, 9.0, bold, RIGHT);
        }
    } else {
        page_text(p, right, y, "\xe2\x80\x93", 9.0, 0, RIGHT);
    }
    double wide = right - x;
    page_box(p, x, y + 4.0, wide, 3.0, WELL);
    if (part->max > 0.0) {
        page_box(p, x, y + 4.0, wide * part->points / part->max, 3.0, INK2);
    }
}

static void draw_points(Page *p, double x, double right, double top)
{
    const ReportRun *r = p->r;
    char text[96], number[24];
    double y = top;
    page_colour(p, r->is_pass ? INK : DANGER);
    snprintf(number, sizeof number, "%d", io_mark_shown(r->total));
    page_text(p, x, y + 22.0, number, 26.0, 1, LEFT);
    double after = x + page_text_width(p, number, 26.0, 1) + 8.0;
    page_text(p, after, y + 12.0, io_verdict_word(r->verdict, p->taste.language), 10.0, 1, LEFT);
    page_colour(p, INK2);
    show(p, number, sizeof number, r->pass_score, fmod(r->pass_score, 1.0) > 0.0 ? 1 : 0);
    snprintf(text, sizeof text, word(p, "of 100; pass at %s"), number);
    page_text(p, after, y + 23.0, text, 8.0, 0, LEFT);
    page_text(p, x, y + 34.0, r->sum, 8.0, 0, LEFT);
    y += 42.0;
    page_text(p, right - 46.0, y, word(p, "computed"), 7.5, 0, RIGHT);
    page_text(p, right, y, word(p, "trainer"), 7.5, 0, RIGHT);
    y += 14.0;
    double points[PB_SUMMARY_PARTS];
    int shown[PB_SUMMARY_PARTS];
    for (int i = 0; i < r->part_count; i++) {
        points[i] = r->parts[i].points;
    }
    io_points_shown(points, r->part_count, shown);
    for (int i = 0; i < r->part_count; i++) {
        draw_row(p, x, right, y, &r->parts[i], shown[i], 0);
        y += 21.0;
    }
    ReportPart whole = {.points = r->total, .max = 100.0, .trainer = r->trainer_total};
    snprintf(whole.name, sizeof whole.name, "%s", word(p, "Whole"));
    draw_row(p, x, right, y + 2.0, &whole, io_mark_shown(r->total), 1);
    page_colour(p, INK2);
    snprintf(text, sizeof text, "%s: %s", word(p, "rubric"), r->rubric);
    page_text_in(p, x, y + 20.0, right - x, text, 7.5, 0);
    p->y = y + 22.0;
}

static void figure_row(Page *p, double x, double right, const char *name, const char *value)
{
    p->y += 12.5;
    page_colour(p, INK2);
    page_text_in(p, x, p->y, right - x - page_text_width(p, value, 8.5, 0) - 6.0, name, 8.5, 0);
    page_colour(p, INK);
    page_text(p, right, p->y, value, 8.5, 0, RIGHT);
}

static void draw_figures(Page *p, double x, double right)
{
    const ReportRun *r = p->r;
    char text[96];
    page_colour(p, INK);
    p->y += 14.0;
    page_text(p, x, p->y, word(p, "Figures"), 9.0, 1, LEFT);
    show_density(p, text, sizeof text, r->mean_kg_m3);
    figure_row(p, x, right, word(p, "mean density"), text);
    show_density(p, text, sizeof text, r->p5_kg_m3);
    figure_row(p, x, right, word(p, "softest 5%"), text);
    io_figure(100.0 * r->share_at_target, 1, "%", p->taste, text, sizeof text);
    figure_row(p, x, right, word(p, "area at target"), text);
    show_mass(p, text, sizeof text, r->mass_kg);
    figure_row(p, x, right, word(p, "packed"), text);
    show(p, text, sizeof text, r->bags, 2);
    figure_row(p, x, right, word(p, "bags used"), text);
    io_figure(100.0 * r->panel_over_strength, 0, "%", p->taste, text, sizeof text);
    figure_row(p, x, right, word(p, "wall load, of expected strength"), text);
    char name[64];
    io_clock_words(r->usual_s, text, sizeof text);
    snprintf(name, sizeof name, word(p, "time (usual: %s)"), text);
    io_clock_words(r->duration_s, text, sizeof text);
    figure_row(p, x, right, name, text);
    page_colour(p, DANGER);
    if (r->is_blown_out) {
        p->y += 13.0;
        page_text(p, x, p->y, word(p, "The wall blew out."), 9.0, 1, LEFT);
    }
    if (!r->is_ended) {
        p->y += 13.0;
        page_text(p, x, p->y, word(p, "The run was cut off before its end."), 9.0, 1, LEFT);
    }
}

static void short_line(Page *p, double x, double right, const char *head, const char *said,
                       int is_worst)
{
    p->y += 13.0;
    page_colour(p, is_worst ? DANGER : INK2);
    page_text(p, x, p->y, head, 8.0, 1, LEFT);
    page_colour(p, INK);
    p->y += 2.0;
    page_paragraph(p, x, right - x, said, 8.5, 0);
}

/* Best, worst, last time, next: what a hurried reader takes home. Under the figures. */
static void draw_in_short(Page *p, double x, double right)
{
    int language = p->r->taste.language;
    page_colour(p, INK);
    p->y += 24.0;
    page_text(p, x, p->y, word(p, "In short"), 9.0, 1, LEFT);
    for (int i = 0; i < IO_DEBRIEF_SENTENCES; i++) {
        if (i == IO_DEBRIEF_SENTENCES - 1 && p->r->last_time[0] != '\0') {
            short_line(p, x, right, io_last_time_head(language), p->r->last_time, 0);
        }
        short_line(p, x, right, io_debrief_head(i, language), p->r->in_short[i], i == 1);
    }
}

static void draw_moment_list(Page *p)
{
    const ReportRun *r = p->r;
    double wide = p->width - 2.0 * p->margin;
    char text[96], points[24], clock[16], height[40];
    page_heading(p, word(p, "Where most points went"));
    if (r->moment_count == 0) {
        page_colour(p, INK);
        page_paragraph(p, p->margin, wide, word(p, "No points were lost."), 9.0, 0);
    }
    for (int i = 0; i < r->moment_count; i++) {
        const ReportMoment *m = &r->moments[i];
        p->y += 4.0;
        page_need(p, page_paragraph_height(p, wide - 150.0, m->sentence, 9.0, 0));
        double top = p->y;
        page_ring(p, p->margin + 7.0, top + 8.0, i + 1);
        page_colour(p, INK);
        show(p, points, sizeof points, m->points, 0);
        snprintf(text, sizeof text, "\xe2\x80\x93%s", points);
        page_text(p, p->margin + 46.0, top + 9.4, text, 9.0, 1, RIGHT);
        page_colour(p, INK2);
        io_clock_words(m->time_s, clock, sizeof clock);
        show_length(p, height, sizeof height, m->y_m);
        snprintf(text, sizeof text, "%s, %s", clock, height);
        page_text(p, p->margin + 54.0, top + 9.4, text, 9.0, 0, LEFT);
        page_colour(p, INK);
        page_paragraph(p, p->margin + 150.0, wide - 150.0, m->sentence, 9.0, 0);
    }
}

static void draw_trainer(Page *p)
{
    const ReportRun *r = p->r;
    double wide = p->width - 2.0 * p->margin;
    int said = 0;
    char text[160], number[24];
    page_heading(p, word(p, "What the trainer says"));
    page_colour(p, INK);
    if (r->comment[0] != '\0') {
        page_paragraph(p, p->margin, wide, r->comment, 9.5, 0);
        said = 1;
    }
    for (int i = 0; i < r->part_count; i++) {
        const ReportPart *part = &r->parts[i];
        if (part->reason[0] == '\0' && part->trainer < 0.0) {
            continue;
        }
        if (part->trainer >= 0.0) {
            show(p, number, sizeof number, part->trainer, 0);
            snprintf(text, sizeof text, word(p, "%s: %s of %.4g"), part->name, number,
                     part->trainer_max > 0.0 ? part->trainer_max : part->max);
        } else {
            snprintf(text, sizeof text, "%s", part->name);
        }
        p->y += 3.0;
        page_need(p, 28.0);
        page_paragraph(p, p->margin, wide, text, 9.0, 1);
        page_paragraph(p, p->margin + 12.0, wide - 12.0, part->reason, 9.0, 0);
        said = 1;
    }
    if (!said) {
        page_paragraph(p, p->margin, wide, word(p, "Nothing was written."), 9.0, 0);
    }
    if (r->trainer[0] != '\0') {
        p->y += 3.0;
        page_colour(p, INK2);
        page_paragraph(p, p->margin, wide, r->trainer, 9.0, 0);
    }
}

static void bullet(Page *p, const char *text)
{
    double wide = p->width - 2.0 * p->margin;
    p->y += 2.0;
    page_need(p, page_paragraph_height(p, wide - 12.0, text, 8.5, 0));
    page_box(p, p->margin + 2.0, p->y + 5.0, 3.0, 3.0, INK2);
    page_colour(p, INK);
    page_paragraph(p, p->margin + 12.0, wide - 12.0, text, 8.5, 0);
}

static void show_gap(const Page *p, char *out, size_t size, double m)
{
    io_figure(io_unit_value(IO_UNIT_SMALL, m, p->taste), p->taste.is_us ? 2 : 0,
              io_unit_name(IO_UNIT_SMALL, p->taste), p->taste, out, size);
}

static const char *const assumed_first = N_(
    "Densities, loads and flows come from a model of air, cellulose and wall. Each of its numbers "
    "has a range and a source; a real wall is proven by weighing and sampling.");
static const char *const assumed[] = {
    N_("The wall's strength is that of sound drywall, plaster or paneling, well fastened. Age, "
       "damp, "
       "cracks and poor fastening are unknown to the model."),
    N_("The same run always gets the same computed points. Weights and limits are those of the "
       "rubric named on the first page: practice, not a published standard."),
    N_("Computed points and the trainer's stand side by side. Neither replaces a qualification "
       "that "
       "the law asks for."),
};
static const char *const cautions[] = {
    N_("Dust: eye protection and a respirator under the employer's program. Keep flames and sparks "
       "away from the dust."),
    N_("The machine can take a finger off: lock out its power before reaching into hopper, airlock "
       "or hose."),
    N_("Old wiring, hot lights, flues, water, lead paint, asbestos, vermiculite: reasons not to "
       "fill "
       "until a licensed trade has looked."),
    N_("A wall can burst: keep people away from the other side; stop at the first pop or bow."),
    N_("A tighter house can pull flue gases back inside: appliances that burn fuel are tested "
       "after "
       "the work, and a CO alarm works."),
};

static void bullets(Page *p, const char *const *list, size_t count)
{
    for (size_t i = 0; i < count; i++) {
        bullet(p, word(p, list[i]));
    }
}

static void draw_assumptions(Page *p)
{
    const ReportRun *r = p->r;
    char text[500], said[500], gap[40], target[40], years[24];
    page_heading(p, word(p, "What the numbers assume"));
    bullet(p, word(p, assumed_first));
    show_density(p, target, sizeof target, r->target_kg_m3);
    snprintf(text, sizeof text,
             word(p, "Target %s as weighed. Shares count squares of {square} of the bay."), target);
    io_named_figures(text, p->taste, said, sizeof said);
    bullet(p, said);
    if (r->years > 0.0) {
        show(p, years, sizeof years, r->years, 0);
        show_gap(p, gap, sizeof gap, r->top_gap_m);
        snprintf(text, sizeof text,
                 word(p, "Years: %s years in the climate \"%s\", mean values: a top gap of %s. A "
                         "prediction with a range, not a promise."),
                 years, io_climate_word(r->climate, p->taste.language), gap);
        bullet(p, text);
    }
    bullets(p, assumed, sizeof assumed / sizeof assumed[0]);
}

static void draw_cautions(Page *p)
{
    const ReportRun *r = p->r;
    page_heading(p, word(p, "Cautions"));
    for (int i = 0; i < r->caution_count; i++) {
        bullet(p, r->cautions[i]);
    }
    bullets(p, cautions, sizeof cautions / sizeof cautions[0]);
}

static void draw_all(Page *p)
{
    const ReportRun *r = p->r;
    double top = p->margin + 84.0, room = p->height - top;
    /* the bay as tall as the page allows, and not wider than a good fifth of it */
    double map_height = room * 0.46, widest = (p->width - 2.0 * p->margin) * 0.22;
    if (map_height / r->height_m * r->width_m > widest) {
        map_height = widest / r->width_m * r->height_m;
    }
    double strips = room * 0.76, points_left = p->width - p->margin - 176.0;
    draw_head(p);
    double map_right = draw_map(p, p->margin, top, map_height);
    double chart = map_right + 30.0;
    chart = chart < p->margin + 120.0 ? p->margin + 120.0 : chart;
    draw_marks(p, map_right + 9.0, top, map_height);
    draw_time_line(p, chart, points_left - 20.0 - chart, top, map_height, top + strips);
    draw_legend(p, p->margin + 2.0, top + map_height + 26.0, chart - p->margin - 46.0);
    draw_points(p, points_left, p->width - p->margin, top - 12.0);
    draw_figures(p, points_left, p->width - p->margin);
    draw_in_short(p, points_left, p->width - p->margin);
    p->y = fmax(p->y + 8.0, top + strips - 10.0);
    draw_moment_list(p);
    page_turn(p);
    p->y -= 12.0;
    draw_trainer(p);
    draw_assumptions(p);
    draw_cautions(p);
    page_foot(p);
}

PbStatus report_run_pdf(const ReportRun *report, const char *path, ReportPaper paper,
                        const char *fonts, const char *created, PbError *err)
{
    assert(report != NULL);
    assert(path != NULL && fonts != NULL && created != NULL);
    char title[200];
    snprintf(title, sizeof title, "%s: %s", report->learner, report->exercise_title);
    PdfJob job = {path, fonts, title, created, paper, 40.0, draw_all};
    return pdf_write(&job, report, NULL, report->taste, err);
}
