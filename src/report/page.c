/* Text, lines and numbers on a page. Positions in points, y down from the top of the page. */
#include "page.h"

#include "core/units.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define LINE_STEP 1.4
#define FOOT      30.0

void page_colour(const Page *p, unsigned rgb)
{
    cairo_set_source_rgb(p->cr, (rgb >> 16 & 255) / 255.0, (rgb >> 8 & 255) / 255.0,
                         (rgb & 255) / 255.0);
}

void page_line(const Page *p, double x0, double y0, double x1, double y1, double width)
{
    cairo_set_line_width(p->cr, width);
    cairo_move_to(p->cr, x0, y0);
    cairo_line_to(p->cr, x1, y1);
    cairo_stroke(p->cr);
}

void page_box(const Page *p, double x, double y, double w, double h, unsigned rgb)
{
    page_colour(p, rgb);
    cairo_rectangle(p->cr, x, y, w, h);
    cairo_fill(p->cr);
}

void page_wood(const Page *p, double x, double bottom, double w, double h, double stud,
               double plate, double line)
{
    double top = bottom - h;
    const double boxes[4][4] = {{x - stud, top - plate, stud, h + 2.0 * plate},
                                {x + w, top - plate, stud, h + 2.0 * plate},
                                {x, top - plate, w, plate},
                                {x, bottom, w, plate}};
    for (int i = 0; i < 4; i++) {
        const double *b = boxes[i];
        page_box(p, b[0], b[1], b[2], b[3], WOOD);
        page_colour(p, WOODINK);
        cairo_set_line_width(p->cr, line);
        cairo_rectangle(p->cr, b[0], b[1], b[2], b[3]);
        cairo_stroke(p->cr);
    }
}

static void set_font(const Page *p, double size, int bold)
{
    cairo_set_font_face(p->cr, p->faces[bold != 0]);
    cairo_set_font_size(p->cr, size);
}

double page_text_width(const Page *p, const char *text, double size, int bold)
{
    cairo_text_extents_t e;
    set_font(p, size, bold);
    cairo_text_extents(p->cr, text, &e);
    return e.x_advance;
}

void page_text(const Page *p, double x, double y, const char *text, double size, int bold,
               Align align)
{
    if (text[0] == '\0') {
        return;
    }
    double w = page_text_width(p, text, size, bold);
    cairo_move_to(p->cr, align == LEFT ? x : align == RIGHT ? x - w : x - 0.5 * w, y);
    cairo_show_text(p->cr, text);
}

/* Bytes of the letter that starts at s. */
static size_t letter(const char *s)
{
    size_t n = 1;
    while (((unsigned char)s[n] & 0xc0) == 0x80) {
        n++;
    }
    return n;
}

void page_text_in(const Page *p, double x, double y, double most, const char *text, double size,
                  int bold)
{
    char cut[400];
    if (page_text_width(p, text, size, bold) <= most) {
        page_text(p, x, y, text, size, bold, LEFT);
        return;
    }
    size_t n = 0;
    for (size_t at = 0; text[at] != '\0' && at + 8 < sizeof cut; at += letter(text + at)) {
        memcpy(cut, text, at);
        memcpy(cut + at, "\xe2\x80\xa6", 4);
        if (page_text_width(p, cut, size, bold) > most) {
            break;
        }
        n = at;
    }
    memcpy(cut, text, n);
    memcpy(cut + n, "\xe2\x80\xa6", 4);
    page_text(p, x, y, cut, size, bold, LEFT);
}

/* The longest start of `text` that fits: at a space, or inside a word that is too long itself.
 * `next` is where the following line starts. */
static size_t fit(const Page *p, const char *text, double most, double size, int bold, size_t *next)
{
    char line[600];
    size_t at = 0, space = 0, last = 0;
    while (text[at] != '\0' && text[at] != '\n') {
        size_t n = letter(text + at);
        if (at + n >= sizeof line) {
            break;
        }
        memcpy(line, text, at + n);
        line[at + n] = '\0';
        if (text[at] == ' ') {
            space = at;
        } else if (page_text_width(p, line, size, bold) > most) {
            size_t end = space > 0 ? space : last > 0 ? last : n;
            *next = space > 0 ? space + 1 : end;
            return end;
        }
        at += n;
        last = at;
    }
    *next = text[at] == '\n' ? at + 1 : at;
    return at;
}

void page_paragraph(Page *p, double x, double most, const char *text, double size, int bold)
{
    char line[600];
    while (*text != '\0') {
        size_t next, n = fit(p, text, most, size, bold, &next);
        page_need(p, size * LINE_STEP);
        memcpy(line, text, n);
        line[n] = '\0';
        for (char *c = line; *c != '\0'; c++) {
            *c = *c == '\t' || *c == '\r' ? ' ' : *c;
        }
        p->y += size * LINE_STEP;
        page_text(p, x, p->y - 0.35 * size, line, size, bold, LEFT);
        text += next > 0 ? next : 1;
    }
}

double page_paragraph_height(const Page *p, double most, const char *text, double size, int bold)
{
    double height = 0.0;
    while (*text != '\0') {
        size_t next;
        fit(p, text, most, size, bold, &next);
        height += size * LINE_STEP;
        text += next > 0 ? next : 1;
    }
    return height;
}

void page_foot(const Page *p)
{
    char text[120];
    double y = p->height - 22.0;
    page_colour(p, RULE);
    page_line(p, p->margin, y - 11.0, p->width - p->margin, y - 11.0, 0.5);
    page_colour(p, INK2);
    page_text(p, p->margin, y,
              word(p, "For training: local codes and licensed trades decide real work."), 7.5, 0,
              LEFT);
    snprintf(text, sizeof text, "%s %d", word(p, "page"), p->number);
    page_text(p, p->width - p->margin, y, text, 7.5, 0, RIGHT);
}

void page_turn(Page *p)
{
    page_foot(p);
    cairo_show_page(p->cr);
    p->number++;
    p->y = p->margin;
    page_colour(p, INK);
}

void page_need(Page *p, double height)
{
    if (p->y + height > p->height - p->margin - 0.5 * FOOT) {
        page_turn(p);
    }
}

void page_heading(Page *p, const char *text)
{
    page_need(p, 46.0); /* a heading keeps a line of what follows with it */
    p->y += 22.0;
    page_colour(p, INK);
    page_text(p, p->margin, p->y, text, 11.0, 1, LEFT);
    p->y += 4.0;
    page_line(p, p->margin, p->y, p->width - p->margin, p->y, 0.75);
    p->y += 3.0;
}

void page_ring(const Page *p, double x, double y, int number)
{
    char text[12];
    snprintf(text, sizeof text, "%d", number);
    cairo_new_path(p->cr);
    cairo_arc(p->cr, x, y, 6.0, 0.0, 6.283185307179586);
    page_colour(p, WHITE);
    cairo_fill_preserve(p->cr);
    page_colour(p, ACCENT);
    cairo_set_line_width(p->cr, 1.25);
    cairo_stroke(p->cr);
    page_text(p, x, y + 2.7, text, 7.5, 1, CENTRE);
}

void page_part_rings(double placed[][2], int i, int axis, double low, double high)
{
    static const double away[] = {0.0, 14.0, -14.0, 28.0, -28.0, 42.0, -42.0};
    double own[2] = {placed[i][0], placed[i][1]};
    for (int a = 0; a < 7; a++) {
        double at[2] = {own[0], own[1]};
        int is_free = 1;
        at[axis] += away[a];
        for (int k = 0; k < i; k++) {
            is_free = is_free &&
                      (fabs(placed[k][0] - at[0]) >= 13.0 || fabs(placed[k][1] - at[1]) >= 13.0);
        }
        if (is_free && (a == 0 || (at[axis] >= low && at[axis] <= high))) {
            placed[i][axis] = at[axis];
            return;
        }
    }
}

const char *word(const Page *p, const char *text)
{
    return words_in(p->taste.language, text);
}

void show(const Page *p, char *out, size_t size, double value, int decimals)
{
    snprintf(out, size, "%.*f", decimals, value);
    io_decimal_mark(out, p->taste);
}

void show_length(const Page *p, char *out, size_t size, double m)
{
    io_unit_figure(IO_UNIT_LENGTH, m, p->taste, out, size);
}

void show_density(const Page *p, char *out, size_t size, double kg_m3)
{
    io_unit_figure(IO_UNIT_DENSITY, kg_m3, p->taste, out, size);
}

void show_mass(const Page *p, char *out, size_t size, double kg)
{
    io_unit_figure(IO_UNIT_MASS, kg, p->taste, out, size);
}
