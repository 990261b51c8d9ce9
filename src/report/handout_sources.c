/* The pages behind the handout: inputs of this house, then every constant that its figures hang on
 * with range, source and how well it is known. Whole sources: docs/CONSTANTS.md. */
#include "handout.h"

#include "io/handout_words.h"

#include <math.h>
#include <string.h>

#define LARGEST 7.2
#define LEAST   6.0
#define STEP    1.28 /* a row, in sizes of its letters */

typedef struct Rows {
    PbAssumed row[PB_COMPARE_MAX_ROWS];
    int count, inputs, constants;
    double size; /* of letters: as large as one page allows */
} Rows;

static const ReportHandout *handout(const Page *p)
{
    return p->subject;
}

void handout_turn(Page *p)
{
    cairo_show_page(p->cr);
    p->number++;
    p->y = p->margin;
    page_colour(p, INK);
    handout_foot(p);
}

static void need(Page *p, double height)
{
    if (p->y + height > p->height - p->margin - 10.0) {
        handout_turn(p);
    }
}

static void heading(Page *p, const char *text)
{
    need(p, 40.0);
    page_colour(p, INK);
    page_text(p, p->margin, p->y + 11.0, text, 10.0, 1, LEFT);
    page_line(p, p->margin, p->y + 15.0, p->width - p->margin, p->y + 15.0, 0.75);
    p->y += 18.0;
}

static int is_input(const PbAssumed *row)
{
    return row->from != PB_ASSUMED_CONSTANT && strcmp(row->key, "wall") != 0;
}

static void gather(const Page *p, Rows *r)
{
    memset(r, 0, sizeof *r);
    r->count = pb_compare_assumed(handout(p)->compare, r->row, PB_COMPARE_MAX_ROWS);
    for (int i = 0; i < r->count; i++) {
        r->inputs += is_input(&r->row[i]);
        r->constants += r->row[i].from == PB_ASSUMED_CONSTANT;
    }
    int lines = (r->inputs + 1) / 2 + r->constants + 4; /* of them 4: the note, air */
    double room = p->height - 2.0 * p->margin - 10.0 - 40.0;
    r->size = fmax(LEAST, fmin(LARGEST, room / (STEP * lines)));
}

static void inputs(Page *p, const Rows *r, const IoAssumedReader *reader)
{
    double wide = p->width - 2.0 * p->margin, column = 0.5 * (wide - 14.0), step = STEP * r->size;
    char label[256], value[256], source[256];
    int shown = 0, half = (r->inputs + 1) / 2;
    for (int i = 0; i < r->count; i++) {
        if (!is_input(&r->row[i])) {
            continue;
        }
        double x = p->margin + (shown >= half ? column + 14.0 : 0.0);
        double y = p->y + (shown % half + 1) * step - 2.0;
        io_assumed_words(&r->row[i], reader, label, value, source, sizeof label);
        page_colour(p, INK2);
        handout_line(p, x, y, 0.44 * column, label, r->size, 0);
        page_colour(p, INK);
        handout_line(p, x + 0.46 * column, y, 0.54 * column, value, r->size, 0);
        shown++;
    }
    p->y += half * step + 4.0;
}

static void constants(Page *p, const Rows *r, const IoAssumedReader *reader)
{
    double wide = p->width - 2.0 * p->margin, step = STEP * r->size;
    const double at[4] = {0.0, 0.36 * wide, 0.60 * wide, 0.82 * wide};
    char label[256], value[256], known[256];
    for (int i = 0; i < r->count; i++) {
        const PbAssumed *row = &r->row[i];
        if (row->from != PB_ASSUMED_CONSTANT) {
            continue;
        }
        need(p, step);
        double y = p->y + step - 2.0;
        io_assumed_words(row, reader, label, value, known, sizeof label);
        page_colour(p, INK2);
        handout_line(p, p->margin, y, at[1] - 6.0, label, r->size, 0);
        page_colour(p, INK);
        handout_line(p, p->margin + at[1], y, at[2] - at[1] - 6.0, value, r->size, row->is_drawn);
        page_colour(p, INK2);
        handout_line(p, p->margin + at[2], y, at[3] - at[2] - 6.0,
                     io_short_source(row->source, p->taste.language), r->size, 0);
        handout_line(p, p->margin + at[3], y, wide - at[3], known, r->size, 0);
        p->y += step;
    }
}

void handout_sources(Page *p)
{
    const PbHouse *house = &pb_compare_setup(handout(p)->compare)->house;
    const IoAssumedReader reader = {p->taste, house->currency, house};
    Rows r;
    gather(p, &r);
    handout_turn(p);
    heading(p, word(p, "What is assumed for this house"));
    inputs(p, &r, &reader);
    heading(p, word(p, "Constants of the model"));
    page_colour(p, INK2);
    page_paragraph(p, p->margin, p->width - 2.0 * p->margin,
                   word(p, "Value and range, where it comes from, how well it is known. Bold: "
                           "changed in each trial within its range. Sources in full are in the "
                           "program's documents."),
                   r.size, 0);
    constants(p, &r, &reader);
}
