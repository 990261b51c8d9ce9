/* The sheet of the day, filled in or empty: head, what is measured, a sketch, what it shows, the
 * prediction before and after. */
#include "report/proof.h"

#include "page.h"

#include "io/compare_words.h"
#include "io/proof_words.h"

#include <assert.h>
#include <stdio.h>

#define MARGIN 44.0
#define SIZE   9.0
#define ROW    19.0 /* room to write by hand */

static const ReportProof *proof(const Page *p)
{
    return p->subject;
}

/* One line, set smaller where it would be wider than its room. */
static void fitted(const Page *p, double x, double y, double most, const char *text)
{
    double wide = page_text_width(p, text, SIZE, 0);
    page_text(p, x, y, text, wide > most ? SIZE * most / wide : SIZE, 0, LEFT);
}

static void blank(const Page *p, double x, double y, double wide)
{
    page_colour(p, EDGE);
    page_line(p, x, y + 2.0, x + wide, y + 2.0, 0.5);
    page_colour(p, INK);
}

static void head(Page *p)
{
    const ReportProof *r = proof(p);
    double right = p->width - p->margin, y = p->y;
    char who[240];
    page_colour(p, INK);
    page_text(p, p->margin, y + 16.0, word(p, "Proof on the day"), 17.0, 1, LEFT);
    page_text(p, right, y + 16.0, r->company, 10.0, 1, RIGHT);
    page_line(p, p->margin, y + 23.0, right, y + 23.0, 1.25);
    snprintf(who, sizeof who, "%s%s%s", io_house_word(r->house->customer, p->taste.language),
             r->house->town[0] != '\0' ? ", " : "",
             io_house_word(r->house->town, p->taste.language));
    page_colour(p, INK2);
    page_text_in(p, p->margin, y + 37.0, 0.6 * (right - p->margin), who, 10.0, 1);
    page_text(p, right - 200.0, y + 37.0, word(p, "Date"), SIZE, 0, LEFT);
    if (r->date[0] != '\0') {
        page_text(p, right, y + 37.0, r->date, SIZE, 0, RIGHT);
    } else {
        blank(p, right - 165.0, y + 37.0, 165.0);
    }
    p->y = y + 50.0;
}

static void row(const Page *p, IoProofRow which, double x, double wide, double y)
{
    char text[40];
    double unit = 38.0, field = 48.0;
    io_proof_row_text(&proof(p)->house->proof, which, p->taste, text, sizeof text);
    page_colour(p, INK2);
    fitted(p, x, y, wide - field - unit - 6.0, io_proof_row_name(which, p->taste.language));
    blank(p, x + wide - field - unit, y, field);
    page_text(p, x + wide - unit - 4.0, y, text, SIZE + 1.0, 1, RIGHT);
    page_colour(p, INK2);
    page_text(p, x + wide - unit + 3.0, y, io_proof_row_unit(which, p->taste), SIZE, 0, LEFT);
}

static void rows(Page *p)
{
    double gap = 24.0, wide = 0.5 * (p->width - 2.0 * p->margin - gap);
    int half = IO_PROOF_ROWS / 2;
    for (int i = 0; i < IO_PROOF_ROWS; i++) {
        double x = p->margin + (i >= half ? wide + gap : 0.0);
        row(p, (IoProofRow)i, x, wide, p->y + (i % half + 1) * ROW - 4.0);
    }
    p->y += half * ROW + 10.0;
}

/* Where cores were cut and stripes were seen. */
static void sketch(Page *p)
{
    int is_empty = !pb_proof_has_any(&proof(p)->house->proof);
    double high = is_empty ? 330.0 : 96.0, wide = p->width - 2.0 * p->margin;
    page_colour(p, EDGE);
    cairo_set_line_width(p->cr, 0.75);
    cairo_rectangle(p->cr, p->margin, p->y, wide, high);
    cairo_stroke(p->cr);
    page_colour(p, INK2);
    page_text(p, p->margin + 6.0, p->y + 12.0,
              word(p, "Sketch of the walls: where cores were cut, where stripes were seen"), 8.0, 0,
              LEFT);
    p->y += high;
}

static void findings(Page *p)
{
    const ReportProof *r = proof(p);
    char text[600], both[700];
    page_heading(p, pb_proof_has_any(&r->house->proof) ? word(p, "What it shows")
                                                       : word(p, "How it is measured"));
    for (int i = 0; i < IO_PROOF_SENTENCES; i++) {
        if (i == IO_PROOF_TOGETHER && r->reading->density == PB_PROOF_NOTHING) {
            continue;
        }
        io_proof_sentence(r->house, r->reading, (IoProofSentence)i, p->taste, text, sizeof text);
        snprintf(both, sizeof both, "%s: %s", io_proof_name((IoProofSentence)i, p->taste.language),
                 text);
        p->y += 3.0;
        page_colour(p, INK);
        page_paragraph(p, p->margin, p->width - 2.0 * p->margin, both, SIZE, 0);
    }
}

static void prediction(Page *p)
{
    const ReportProof *r = proof(p);
    char text[400], both[500], years[32];
    if (r->update == NULL) {
        return;
    }
    page_heading(p, word(p, "The dense pack of this house"));
    for (int t = 0; t < 2; t++) {
        snprintf(years, sizeof years, "%g %s", r->update->predicted[t].years, word(p, "years"));
        for (int measured = 0; measured < 2; measured++) {
            io_proof_time_words(r->update, r->house, measured, t, p->taste, text, sizeof text);
            snprintf(both, sizeof both, "%s, %s: %s",
                     measured ? word(p, "As measured") : word(p, "As predicted"),
                     t == 0 ? word(p, NC_("year 0", "filled")) : years, text);
            p->y += 2.0;
            page_colour(p, INK);
            page_paragraph(p, p->margin, p->width - 2.0 * p->margin, both, SIZE, measured);
        }
    }
}

static void foot(Page *p)
{
    double y = p->height - p->margin - 18.0, wide = p->width - 2.0 * p->margin;
    page_colour(p, INK2);
    page_text(p, p->margin, y, word(p, "Measured by"), SIZE, 0, LEFT);
    blank(p, p->margin + 80.0, y, wide - 80.0);
    page_colour(p, INK2);
    page_text(
        p, p->margin, p->height - p->margin + 4.0,
        word(p, "Intervals hold 19 times in 20. Nothing here is a promise that a wall stays so."),
        7.5, 0, LEFT);
    page_text(p, p->width - p->margin, p->height - p->margin + 4.0, "Pullback", 7.5, 0, RIGHT);
}

static void draw(Page *p)
{
    p->y = p->margin;
    head(p);
    rows(p);
    sketch(p);
    findings(p);
    prediction(p);
    foot(p);
}

PbStatus report_proof_pdf(const ReportProof *r, const char *path, ReportPaper paper,
                          const char *fonts, const char *created, PbError *err)
{
    assert(r != NULL && r->house != NULL && r->reading != NULL);
    assert(path != NULL && fonts != NULL && created != NULL);
    char title[240];
    snprintf(title, sizeof title, "%s, %s", r->house->customer, r->company);
    PdfJob job = {path, fonts, title, created, paper, MARGIN, draw};
    return pdf_write(&job, NULL, r, r->taste, err);
}
