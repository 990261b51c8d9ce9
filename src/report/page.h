/* Inside the report: a page under way, text on it, numbers in the reader's units. */
#ifndef REPORT_PAGE_H
#define REPORT_PAGE_H

#include "picture/ground.h"
#include "report/report.h"

#include <cairo.h>

/* Ink colours of the screens, on white paper. */
#define INK         0x231F1A
#define INK2        0x574E41
#define RULE        0xCDBFA6
#define EDGE        0x8A7C66
#define WELL        0xE9E0CE
#define ACCENT      0x6A2A7B
#define WARN        0x875200
#define WASH        0xF6E3BF
#define DANGER      0xA3201B
#define DANGER_WASH 0xF5D9D2
#define WOOD        0xE4C998
#define WOODINK     0x6E5228
#define BOARD       0xEFE6D2
#define WOOL        0xF3DDD0
#define WHITE       0xFFFFFF

typedef struct Page {
    const ReportRun *r;  /* of a run's report, else NULL */
    const void *subject; /* of another kind of page */
    IoReaderTaste taste;
    cairo_t *cr;
    cairo_font_face_t *faces[2]; /* regular, bold */
    double width, height, margin;
    double y; /* next free line, from the top */
    int number;
    int is_short; /* memory ran out, and something is missing */
} Page;

typedef enum Align { LEFT = GFX_LEFT, CENTRE = GFX_CENTRE, RIGHT = GFX_RIGHT } Align;

/* paint.c: what pictures are laid out for here, and a picture; its list is given back. */
PicGround page_ground(Page *p);
void page_paint(Page *p, GfxShapes *shapes);

void page_colour(const Page *p, unsigned rgb);
void page_line(const Page *p, double x0, double y0, double x1, double y1, double width);
void page_box(const Page *p, double x, double y, double w, double h, unsigned rgb);
double page_text_width(const Page *p, const char *text, double size, int bold);
/* One line of text; y is the base line. */
void page_text(const Page *p, double x, double y, const char *text, double size, int bold,
               Align align);
/* Cut with an ellipsis where it is wider than `most`. */
void page_text_in(const Page *p, double x, double y, double most, const char *text, double size,
                  int bold);
/* A paragraph broken at spaces, `most` wide, from p->y down; moves p->y and turns pages. */
void page_paragraph(Page *p, double x, double most, const char *text, double size, int bold);
/* As page_paragraph, without drawing or turning: how high it is. */
double page_paragraph_height(const Page *p, double most, const char *text, double size, int bold);
/* Make sure that this much room is left; turns the page otherwise. */
void page_need(Page *p, double height);
void page_heading(Page *p, const char *text);
/* Foot line of the page, then a new one. */
void page_turn(Page *p);
void page_foot(const Page *p);
/* Number in a ring, as on map, time line and list. */
void page_ring(const Page *p, double x, double y, int number);

/* Move ring `i` along one axis (0 x, 1 y), to the nearest place within low..high where it covers
 * none of the rings before it; it stays where there is no such place. */
void page_part_rings(double placed[][2], int i, int axis, double low, double high);

/* Studs and plates around a bay of w by h, its lowest left corner at (x, bottom). */
void page_wood(const Page *p, double x, double bottom, double w, double h, double stud,
               double plate, double line);

/* Lines x + y = k * pitch inside a box, or x - y where `down`; added to the path. */
void page_hatch(const Page *p, double x0, double y0, double x1, double y1, double pitch, int down);

/* Colour of cell (i, j), 0xRRGGBB; row 0 is the lowest. */
typedef unsigned (*PageCell)(const void *user, int i, int j);
/* Cells as one sharp pixel each, in a box: as rectangles they would show seams in many viewers.
 * Draws nothing when memory is short (the page then says so by its status). */
void page_cells(const Page *p, double x, double top, double width, double height, int nx, int ny,
                PageCell cell, const void *user);
/* Colour of a density over a ground, 0xRRGGBB: thin fill lets the ground through. */
unsigned page_fill_colour(double kg_m3, double target_kg_m3, unsigned ground);
/* Of a cell with its density and the shares of the depth that fill and an old batt have: wood where
 * neither has any, else fill, lighter where it stands behind a batt. */
unsigned page_cell_colour(double kg_m3, double target_kg_m3, double free_frac, double batt_frac);
/* Lines across the cells of an old batt, so that it is told from fill without colour too. */
void page_batt_lines(const Page *p, double x, double top, double width, double height, int nx,
                     int ny, const double *batt_frac);

/* pdf.c: open fonts and file, let `draw` fill the pages, put the file in its place. */
typedef struct PdfJob {
    const char *path, *fonts, *title, *created;
    ReportPaper paper;
    double margin;
    void (*draw)(Page *page);
} PdfJob;
PB_NODISCARD PbStatus pdf_write(const PdfJob *job, const ReportRun *run, const void *subject,
                                IoReaderTaste taste, PbError *err);

/* A text in the reader's language. */
const char *word(const Page *p, const char *text) __attribute__((format_arg(2)));
/* A number with fixed decimals and the reader's decimal mark. */
void show(const Page *p, char *out, size_t size, double value, int decimals);
/* Quantities with their unit. */
void show_length(const Page *p, char *out, size_t size, double m);
void show_density(const Page *p, char *out, size_t size, double kg_m3);
void show_mass(const Page *p, char *out, size_t size, double kg);

/* Blocks of the first page. map: returns the right edge that it used. */
double draw_map(Page *p, double x, double top, double height);
/* Rings of the moments at their height, beside the bay. */
void draw_marks(const Page *p, double x, double top, double height);
void draw_legend(Page *p, double x, double y, double width);
void draw_time_line(Page *p, double x, double width, double map_top, double map_height,
                    double bottom);

#endif
