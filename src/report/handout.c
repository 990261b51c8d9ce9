/*
 * The page that is handed over, from top to bottom: head, four fills in two rows, labels, air and
 * moisture, words of the rule and of the company, what the figures rest on, cautions. The small
 * print is set as large as the page allows, and nothing is ever cut. Labels and notices:
 * handout_label.c; inputs and constants behind it: handout_sources.c.
 */
#include "handout.h"

#include "io/compare_words.h"
#include "io/handout_words.h"
#include "io/saving_words.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#define MARGIN     36.0
#define HEAD       52.0
#define CELL_GAP   14.0
#define FOOT_ROOM  16.0 /* a paragraph turns the page 15 above the margin */
#define LINE       1.4  /* as page_paragraph */
#define LARGEST_PT 8.0
#define LEAST_PT   6.2

static const ReportHandout *handout(const Page *p)
{
    return p->subject;
}

void handout_line(const Page *p, double x, double y, double most, const char *text, double size,
                  int bold)
{
    double wide = page_text_width(p, text, size, bold);
    size = wide > most ? size * most / wide : size;
    page_text(p, x, y, text, size, bold, LEFT);
}

static void draw_head(Page *p)
{
    const ReportHandout *h = handout(p);
    const PbHouse *house = &pb_compare_setup(h->compare)->house;
    double right = p->width - p->margin, wide = right - p->margin, y = p->margin;
    char text[240];
    page_colour(p, INK);
    handout_line(p, p->margin, y + 15.0, 0.62 * wide, word(p, "One wall, four ways to fill it"),
                 17.0, 1);
    double room = 0.36 * wide, at = page_text_width(p, h->company.name, 10.0, 1);
    at = at > room ? room : at;
    handout_line(p, right - at, y + 15.0, room, h->company.name, 10.0, 1);
    page_line(p, p->margin, y + 22.0, right, y + 22.0, 1.25);
    snprintf(text, sizeof text, "%s%s%s", io_house_word(house->customer, p->taste.language),
             house->town[0] != '\0' ? ", " : "", io_house_word(house->town, p->taste.language));
    page_colour(p, INK2);
    handout_line(p, p->margin, y + 35.0, 0.78 * wide, text, 9.5, 1);
    double date = page_text_width(p, h->date, 9.0, 0);
    page_text(p, right - date, y + 35.0, h->date, 9.0, 0, LEFT);
    page_colour(p, INK);
    p->y = y + HEAD;
}

static void years_word(const Page *p, double years, char *out, size_t size)
{
    char number[24];
    show(p, number, sizeof number, years, years == floor(years) ? 0 : 2);
    if (years == 0.0) {
        snprintf(out, size, "%s", word(p, NC_("year 0", "filled")));
    } else if (years == 1.0) {
        snprintf(out, size, "%s", word(p, "1 year"));
    } else {
        snprintf(out, size, "%s %s", number, word(p, "years"));
    }
}

/* "R: 1.7 to 1.9 filled, 1.5 to 1.8 after 30 years" as two cells beside the name. */
static void figure_row(Page *p, double x, double wide, double *y, const char *name,
                       const char *first, const char *then)
{
    double name_wide = 0.26 * wide, half = 0.37 * wide;
    page_colour(p, INK2);
    handout_line(p, x, *y, name_wide - 4.0, name, 7.5, 0);
    page_colour(p, INK);
    handout_line(p, x + name_wide, *y, half - 4.0, first, 7.5, 0);
    handout_line(p, x + name_wide + half, *y, half, then, 7.5, 1);
    *y += 10.5;
}

static void range_row(Page *p, double x, double wide, double *y, const char *name,
                      IoCompareFigure figure, PbHeatRange a, PbHeatRange b, int draws)
{
    char first[80], then[80];
    io_handout_range(figure, a, draws, p->taste, first, sizeof first);
    io_handout_range(figure, b, draws, p->taste, then, sizeof then);
    figure_row(p, x, wide, y, name, first, then);
}

/* Against the wall as it is now, at year 0 and at the year shown. */
static void saving_row(Page *p, PbCompareFill fill, double x, double wide, double *y,
                       const char *name, IoSavingFigure figure)
{
    const ReportHandout *h = handout(p);
    const PbHouse *house = &pb_compare_setup(h->compare)->house;
    PbCompareSaving a, b;
    char first[80], then[80];
    pb_compare_saving(h->compare, fill, 0, &a);
    pb_compare_saving(h->compare, fill, h->t, &b);
    io_saving_shown(figure, &a, house, p->taste, first, sizeof first);
    io_saving_shown(figure, &b, house, p->taste, then, sizeof then);
    figure_row(p, x, wide, y, name, first, then);
}

static void draw_figures(Page *p, PbCompareFill fill, double x, double wide, double y)
{
    const ReportHandout *h = handout(p);
    PbCompareFigures a, b;
    char then[40], now[40];
    pb_compare_figures(h->compare, fill, 0, &a);
    pb_compare_figures(h->compare, fill, h->t, &b);
    years_word(p, a.years, now, sizeof now);
    years_word(p, b.years, then, sizeof then);
    figure_row(p, x, wide, &y, "", now, then);
    range_row(p, x, wide, &y, word(p, "R, whole wall"), IO_FIGURE_R, a.r_m2k_w, b.r_m2k_w, b.draws);
    range_row(p, x, wide, &y, word(p, "Heat, full = 1"), IO_FIGURE_RATIO, a.heat_ratio,
              b.heat_ratio, b.draws);
    if (fill == PB_COMPARE_EMPTY) {
        saving_row(p, fill, x, wide, &y, word(p, "Walls, a year"), IO_SAVING_WALLS);
        saving_row(p, fill, x, wide, &y, word(p, "Of all heat"), IO_SAVING_WALL_SHARE);
        return;
    }
    saving_row(p, fill, x, wide, &y, word(p, "Saved a year"), IO_SAVING_FUEL);
    saving_row(p, fill, x, wide, &y, word(p, "Money saved"), IO_SAVING_MONEY);
    if (pb_compare_setup(h->compare)->house.job.price > 0.0) {
        saving_row(p, fill, x, wide, &y, word(p, "Paid back in"), IO_SAVING_PAYBACK);
    }
}

static const double figures_height = 6.0 * 10.5;

static void sentence_of(const Page *p, PbCompareFill fill, char *out, size_t size)
{
    const ReportHandout *h = handout(p);
    PbCompareSaying say = pb_compare_say(h->compare, fill, h->t);
    io_compare_sentence(&say, p->taste, out, size);
    PbCompareSaving saving;
    pb_compare_saving(h->compare, fill, h->t, &saving);
    if (fill == PB_COMPARE_EMPTY && io_saving_is_held(&saving)) {
        io_saving_sentence(fill, &saving, &pb_compare_setup(h->compare)->house, p->taste, out,
                           size);
    }
}

#define WIDEST 0.17 /* of a cell, that a bay takes: wider ones are drawn smaller */

/* Width of a bay in a cell of this height. */
static double bay_width(const Page *p, double wide, double height)
{
    return fmin(handout_bay_width(handout(p)->compare, height - 14.0), WIDEST * wide);
}

/* Height of a cell: name, sentence, figures; at least tall enough for a picture. */
static double cell_height(Page *p, PbCompareFill fill, double wide)
{
    char sentence[400];
    double h = 0.0, bay = WIDEST * wide;
    sentence_of(p, fill, sentence, sizeof sentence);
    for (int i = 0; i < 2; i++) { /* a bay that is less wide leaves more for the words */
        double text = wide - 2.0 * bay - 18.0;
        h = 14.0 + page_paragraph_height(p, text, sentence, 8.0, 0) + 10.0 + figures_height;
        h = fmax(h, 112.0);
        bay = bay_width(p, wide, h);
    }
    return h;
}

static const char *case_word(const Page *p, PbCompareFill fill)
{
    const PbHouse *h = &pb_compare_setup(handout(p)->compare)->house;
    static const char *const foam[3] = {N_("best case"), N_("typical"), N_("worst case")};
    static const char *const loose[PB_LOOSE_CASES] = {N_("as usual"), N_("careless")};
    static const char *const dense[PB_DENSE_CASES] = {N_("well done"), N_("hasty"), N_("own run")};
    return fill == PB_COMPARE_LOOSE   ? word(p, loose[h->loose])
           : fill == PB_COMPARE_FOAM  ? word(p, foam[h->foam])
           : fill == PB_COMPARE_DENSE ? word(p, dense[h->dense])
                                      : "";
}

static void draw_cell(Page *p, PbCompareFill fill, double x, double wide, double height)
{
    const ReportHandout *h = handout(p);
    double top = p->y, bay_height = height - 14.0;
    double bay = handout_bay_width(h->compare, bay_height);
    double widest = WIDEST * wide;
    if (bay > widest) {
        bay_height *= widest / bay;
        bay = handout_bay_width(h->compare, bay_height);
    }
    double text_x = x + 2.0 * bay + 18.0, text_wide = x + wide - text_x;
    char sentence[400], label[40], name[96];
    PbCompareFigures f;
    for (int k = 0; k < 2; k++) {
        int t = k == 0 ? 0 : h->t;
        double at = x + k * (bay + 8.0);
        handout_bay(p, h->compare, fill, t, at, top, bay_height);
        pb_compare_figures(h->compare, fill, t, &f);
        years_word(p, f.years, label, sizeof label);
        page_colour(p, INK2);
        page_text(p, at + 0.5 * bay, top + bay_height + 8.5, label, 6.5, 0, CENTRE);
    }
    page_colour(p, INK);
    const char *which = case_word(p, fill);
    snprintf(name, sizeof name, "%s%s%s",
             io_fill_title(&pb_compare_setup(h->compare)->house, fill, p->taste.language),
             which[0] != '\0' ? ": " : "", which);
    handout_line(p, text_x, top + 9.0, text_wide, name, 10.5, 1);
    sentence_of(p, fill, sentence, sizeof sentence);
    p->y = top + 13.0;
    page_paragraph(p, text_x, text_wide, sentence, 8.0, 0);
    draw_figures(p, fill, text_x, text_wide, p->y + 10.0);
    p->y = top;
}

static void draw_fills(Page *p)
{
    double wide = 0.5 * (p->width - 2.0 * p->margin - CELL_GAP);
    for (int row = 0; row < 2; row++) {
        PbCompareFill left = (PbCompareFill)(2 * row), right = (PbCompareFill)(2 * row + 1);
        double height = fmax(cell_height(p, left, wide), cell_height(p, right, wide));
        draw_cell(p, left, p->margin, wide, height);
        draw_cell(p, right, p->margin + wide + CELL_GAP, wide, height);
        p->y += height + 7.0;
        page_colour(p, RULE);
        page_line(p, p->margin, p->y, p->width - p->margin, p->y, 0.5);
        p->y += 7.0;
    }
}

static double heading(Page *p, const char *text, int is_drawn)
{
    if (is_drawn) {
        page_colour(p, INK);
        page_text(p, p->margin, p->y + 9.0, text, 9.0, 1, LEFT);
        p->y += 12.0;
    }
    return 12.0;
}

/* A sentence behind a number, or behind a square where it is 0. */
static double point(Page *p, int number, const char *text, double size, int is_drawn)
{
    double in = 12.0, wide = p->width - 2.0 * p->margin - in;
    char label[8];
    if (is_drawn) {
        page_colour(p, INK);
        if (number > 0) {
            snprintf(label, sizeof label, "%d.", number);
            page_text(p, p->margin + in - 3.0, p->y + 1.05 * size, label, size, 0, RIGHT);
        } else {
            page_box(p, p->margin + 4.0, p->y + 0.62 * size, 2.5, 2.5, INK2);
            page_colour(p, INK);
        }
        page_paragraph(p, p->margin + in, wide, text, size, 0);
    }
    return page_paragraph_height(p, wide, text, size, 0);
}

static double rests_on(Page *p, double size, int is_drawn)
{
    const ReportHandout *h = handout(p);
    double height = heading(p, word(p, "What the figures rest on"), is_drawn);
    char text[700];
    for (int i = 0; i < IO_HANDOUT_SENTENCES; i++) {
        io_handout_sentence(h->compare, h->t, i, p->taste, text, sizeof text);
        height += point(p, i + 1, text, size, is_drawn);
    }
    p->y += is_drawn ? 3.0 : 0.0;
    return height + 3.0;
}

static double cautions(Page *p, double size, int is_drawn)
{
    double height = heading(p, word(p, "Cautions"), is_drawn);
    for (int i = 0; i < IO_COMPARE_CAUTIONS; i++) {
        height += point(p, 0, io_compare_caution(i, p->taste.language), size, is_drawn);
    }
    return height;
}

/* What belongs under the fills, and what may stand on the next page where there is too much. */
static double front(Page *p, const HandoutAir *told, double size, int is_drawn)
{
    double height = handout_labels(p, size, is_drawn);
    height += handout_air(p, told, size, is_drawn);
    return height + handout_notices(p, size, is_drawn);
}

static double back(Page *p, double size, int is_drawn)
{
    double height = rests_on(p, size, is_drawn);
    return height + cautions(p, size, is_drawn);
}

void handout_foot(const Page *p)
{
    char text[40];
    page_colour(p, INK2);
    snprintf(text, sizeof text, "Pullback, %s %d", word(p, "page"), p->number);
    page_text(p, p->width - p->margin, p->height - p->margin + 4.0, text, 6.5, 0, RIGHT);
    if (p->number == 1) {
        page_text(p, p->margin, p->height - p->margin + 4.0,
                  word(p, "Bays at true proportion; hatched = softer than the target, crossed = "
                          "empty; black = gaps in foam, at least a hair wide."),
                  6.5, 0, LEFT);
    }
}

static void draw_all(Page *p)
{
    HandoutAir told;
    handout_air_tell(p, &told);
    draw_head(p);
    draw_fills(p);
    double room = p->height - p->margin - FOOT_ROOM - p->y, size = LARGEST_PT;
    while (size > LEAST_PT && front(p, &told, size, 0) + back(p, size, 0) > room) {
        size -= 0.1;
    }
    int is_split = size <= LEAST_PT;
    for (size = is_split ? LARGEST_PT : size; is_split && size > LEAST_PT; size -= 0.1) {
        if (front(p, &told, size, 0) <= room) {
            break;
        }
    }
    (void)front(p, &told, size, 1);
    if (is_split) {
        handout_foot(p);
        handout_turn(p);
        size = LARGEST_PT;
    }
    (void)back(p, size, 1);
    if (!is_split) {
        handout_foot(p);
    }
    handout_sources(p);
}

PbStatus report_handout_pdf(const ReportHandout *h, const char *path, ReportPaper paper,
                            const char *fonts, const char *created, PbError *err)
{
    assert(h != NULL && h->compare != NULL);
    assert(path != NULL && fonts != NULL && created != NULL);
    const PbCompareSetup *setup = pb_compare_setup(h->compare);
    char title[240];
    if (h->t < 1 || h->t >= setup->year_count) {
        return pb_fail(err, PB_ERR_RANGE, "a handout shows year 0 and a later one");
    }
    for (int f = 0; f < PB_COMPARE_FILLS; f++) {
        PbCompareFigures a, b;
        pb_compare_figures(h->compare, (PbCompareFill)f, 0, &a);
        pb_compare_figures(h->compare, (PbCompareFill)f, h->t, &b);
        if (!a.has_heat || !b.has_heat) {
            return pb_fail(err, PB_ERR_STATE, "the comparison is not finished yet");
        }
    }
    snprintf(title, sizeof title, "%s, %s", setup->house.customer, h->company.name);
    PdfJob job = {path, fonts, title, created, paper, MARGIN, draw_all};
    return pdf_write(&job, NULL, h, h->taste, err);
}
