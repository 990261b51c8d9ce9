/* Air through the walls and moisture in them, of each fill at the year shown, and what to look at
 * before the wall is filled. What is not known says so in a line of its own. */
#include "handout.h"

#include "io/air_words.h"
#include "io/compare_words.h"
#include "io/moist_words.h"

#include <stdio.h>

#define STEP 1.35 /* a row, in sizes of its letters */

static const PbCompareFill fills[3] = {PB_COMPARE_LOOSE, PB_COMPARE_FOAM, PB_COMPARE_DENSE};

void handout_air_tell(const Page *p, HandoutAir *told)
{
    const ReportHandout *h = p->subject;
    const PbCompareSetup *setup = pb_compare_setup(h->compare);
    for (int f = 0; f < PB_COMPARE_FILLS; f++) {
        pb_compare_air(h->compare, (PbCompareFill)f, h->t, &told->air[f]);
        pb_house_moist(&setup->house, &setup->constants, (PbCompareFill)f, setup->draws,
                       &told->moist[f]);
    }
    pb_house_damp(&setup->house, &setup->constants, &told->moist[PB_COMPARE_EMPTY],
                  &told->moist[PB_COMPARE_DENSE], told->warns);
}

static double row(Page *p, const char *name, const char *const values[3], double size, int is_drawn)
{
    double wide = p->width - 2.0 * p->margin, first = 0.28 * wide, each = 0.24 * wide;
    if (is_drawn) {
        page_colour(p, INK2);
        handout_line(p, p->margin, p->y + size, first - 6.0, name, size, 0);
        page_colour(p, INK);
        for (int i = 0; i < 3; i++) {
            handout_line(p, p->margin + first + i * each, p->y + size, each - 6.0, values[i], size,
                         0);
        }
        p->y += STEP * size;
    }
    return STEP * size;
}

static double paragraph(Page *p, const char *text, double size, int is_bold, int is_drawn)
{
    double wide = p->width - 2.0 * p->margin;
    if (is_drawn) {
        page_colour(p, INK);
        page_paragraph(p, p->margin, wide, text, size, is_bold);
    }
    return page_paragraph_height(p, wide, text, size, is_bold);
}

static double air_rows(Page *p, const HandoutAir *told, double size, int is_drawn)
{
    static const IoAirFigure figures[2] = {IO_AIR_FLOW, IO_AIR_CUT};
    const char *const names[2] = {word(p, "Air through the bays, winter"),
                                  word(p, "The house leaks less by")};
    double height = 0.0;
    for (int k = 0; k < 2 && told->air[PB_COMPARE_EMPTY].is_known; k++) {
        char text[3][64];
        for (int i = 0; i < 3; i++) {
            io_air_shown(figures[k], &told->air[fills[i]], p->taste, text[i], sizeof text[i]);
        }
        const char *const values[3] = {text[0], text[1], text[2]};
        height += row(p, names[k], values, size, is_drawn);
    }
    return height;
}

static double moist_row(Page *p, const HandoutAir *told, double size, int is_drawn)
{
    const char *values[3];
    if (told->moist[PB_COMPARE_EMPTY].verdict == PB_MOIST_UNKNOWN) {
        return 0.0;
    }
    for (int i = 0; i < 3; i++) {
        values[i] = io_moist_verdict(told->moist[fills[i]].verdict, p->taste.language);
    }
    return row(p, word(p, "Moisture, yearly screening"), values, size, is_drawn);
}

static double sentences(Page *p, const HandoutAir *told, double size, int is_drawn)
{
    char text[500];
    io_air_sentence(PB_COMPARE_EMPTY, &told->air[PB_COMPARE_EMPTY], p->taste, text, sizeof text);
    double height = paragraph(p, text, size, 0, is_drawn);
    if (told->moist[PB_COMPARE_EMPTY].verdict == PB_MOIST_UNKNOWN) {
        io_moist_sentence(PB_COMPARE_EMPTY, &told->moist[PB_COMPARE_EMPTY], p->taste, text,
                          sizeof text);
        height += paragraph(p, text, size, 0, is_drawn);
    } else {
        height += paragraph(p, io_moist_note(p->taste.language), size, 0, is_drawn);
    }
    for (int w = 0; w < PB_WARNINGS; w++) {
        if (told->warns[w]) {
            int is_no = w <= PB_WARN_LAST_NO_FILL;
            height += paragraph(p, io_damp_warning((PbDampWarning)w, p->taste.language), size,
                                is_no, is_drawn);
        }
    }
    return height;
}

double handout_air(Page *p, const HandoutAir *told, double size, int is_drawn)
{
    if (is_drawn) {
        double wide = p->width - 2.0 * p->margin;
        page_colour(p, INK);
        page_text(p, p->margin, p->y + 9.0, word(p, "Air and moisture"), 9.0, 1, LEFT);
        page_colour(p, INK2);
        for (int i = 0; i < 3; i++) {
            handout_line(p, p->margin + (0.28 + 0.24 * i) * wide, p->y + 9.0, 0.24 * wide - 6.0,
                         io_fill_name(fills[i], p->taste.language), size, 0);
        }
        p->y += 12.0;
    }
    double height = 12.0 + air_rows(p, told, size, is_drawn) + moist_row(p, told, size, is_drawn);
    height += sentences(p, told, size, is_drawn);
    p->y += is_drawn ? 3.0 : 0.0;
    return height + 3.0;
}
