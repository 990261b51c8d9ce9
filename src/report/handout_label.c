/* What only a label, a fact sheet, a rule or the company can say: values where they were given,
 * empty lines that say what belongs there where they were not. Nothing here is made up. */
#include "handout.h"

#include "io/handout_words.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define STEP 1.35 /* a row, in sizes of its letters */

static const ReportHandout *handout(const Page *p)
{
    return p->subject;
}

static void blank(const Page *p, double x, double y, double wide)
{
    page_colour(p, EDGE);
    page_line(p, x, y + 1.5, x + wide, y + 1.5, 0.5);
    page_colour(p, INK);
}

static void label_row(const Page *p, IoLabelRow row, double y, double size)
{
    static const PbCompareFill fills[3] = {PB_COMPARE_LOOSE, PB_COMPARE_FOAM, PB_COMPARE_DENSE};
    const ReportHandout *h = handout(p);
    double wide = p->width - 2.0 * p->margin, name = 0.28 * wide, each = 0.24 * wide;
    char text[160];
    page_colour(p, INK2);
    handout_line(p, p->margin, y, name - 6.0, io_label_name(row, p->taste.language), size, 0);
    for (int i = 0; i < 3; i++) {
        double x = p->margin + name + i * each;
        io_label_value(h->compare, &h->company, fills[i], row, p->taste, text, sizeof text);
        page_colour(p, INK);
        if (text[0] != '\0') {
            handout_line(p, x, y, each - 6.0, text, size, 0);
        } else {
            blank(p, x, y, each - 12.0);
        }
    }
}

double handout_labels(Page *p, double size, int is_drawn)
{
    double step = STEP * size, height = 12.0 + (IO_LABEL_ROWS + 0.6) * step;
    if (!is_drawn) {
        return height;
    }
    double wide = p->width - 2.0 * p->margin, y = p->y + 9.0;
    page_colour(p, INK);
    const char *head = word(p, "The fill alone, by its label");
    double at = fmax(0.28 * wide, page_text_width(p, head, 9.0, 1) + 8.0);
    page_text(p, p->margin, y, head, 9.0, 1, LEFT);
    page_colour(p, INK2);
    handout_line(p, p->margin + at, y, wide - at,
                 word(p, "R of the whole wall, above, has boards, wood and films of air in it. "
                         "Empty lines: from the label."),
                 size, 0);
    for (int row = 0; row < IO_LABEL_ROWS; row++) {
        y += step;
        label_row(p, (IoLabelRow)row, y + 1.0, size);
    }
    p->y += height;
    return height;
}

/* A named field: its text, or lines to be written on. */
static double field(Page *p, const char *name, const char *text, int lines, double size,
                    int is_drawn)
{
    double wide = p->width - 2.0 * p->margin, height;
    if (text[0] != '\0') {
        char both[760];
        snprintf(both, sizeof both, "%s: %s", name, text);
        height = page_paragraph_height(p, wide, both, size, 0);
        if (is_drawn) {
            page_colour(p, INK);
            page_paragraph(p, p->margin, wide, both, size, 0);
        }
        return height;
    }
    height = lines * 1.9 * size;
    if (is_drawn) {
        double at = page_text_width(p, name, size, 0) + 5.0;
        page_colour(p, INK2);
        page_text(p, p->margin, p->y + 1.35 * size, name, size, 0, LEFT);
        at = at < wide - 20.0 ? at : wide - 20.0;
        blank(p, p->margin + at, p->y + 1.35 * size, wide - at);
        for (int i = 1; i < lines; i++) {
            blank(p, p->margin, p->y + (1.35 + 1.9 * i) * size, wide);
        }
        p->y += height;
    }
    return height;
}

/* The statement that the rule has in so many words, in its own language. */
static double rule(Page *p, double size, int is_drawn)
{
    double wide = p->width - 2.0 * p->margin, large = size + 1.5;
    double height = page_paragraph_height(p, wide, io_rule_460_18, large, 1);
    if (is_drawn) {
        page_colour(p, INK);
        page_paragraph(p, p->margin, wide, io_rule_460_18, large, 1);
    }
    return height;
}

double handout_notices(Page *p, double size, int is_drawn)
{
    const IoCompany *c = &handout(p)->company;
    int is_letter = p->width > 600.0;
    double height = 3.0;
    p->y += is_drawn ? height : 0.0;
    if (p->taste.is_us || is_letter) {
        height += rule(p, size, is_drawn);
        if (c->savings_notice[0] != '\0') {
            height += field(p, word(p, "On savings"), c->savings_notice, 1, size, is_drawn);
        } else {
            height += field(p,
                            word(p, "Text of 16 CFR 460.19 (savings claims) to be put here by the "
                                    "company:"),
                            "", 1, size, is_drawn);
        }
    }
    char who[300];
    snprintf(who, sizeof who, "%s%s%s", c->license, c->license[0] && c->contact[0] ? ", " : "",
             c->contact);
    height += field(p, word(p, "License and address"), who, 1, size, is_drawn);
    height += field(p, word(p, "Notices of the company"), c->notice, 1, size, is_drawn);
    p->y += is_drawn ? 3.0 : 0.0;
    return height + 3.0;
}
