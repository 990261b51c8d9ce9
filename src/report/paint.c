/* A picture of shapes on a page: one of its two painters, the other is ui/paint.c. */
#include "page.h"

#include <math.h>
#include <stdio.h>

/* A px of the screen at 100 % is this many points: letters of 14 px are printed at 8. */
static const double UNIT = 8.0 / 14.0;
static const double LINE = 0.4;
static const double RIGHT_ANGLE = 1.5707963267948966;

static const unsigned inks[GFX_INKS] = {
    [GFX_INK] = INK,       [GFX_INK2] = INK2,     [GFX_RULE] = RULE,
    [GFX_EDGE] = EDGE,     [GFX_WELL] = WELL,     [GFX_GLASS] = WHITE,
    [GFX_ACCENT] = ACCENT, [GFX_DANGER] = DANGER, [GFX_DANGER_WASH] = DANGER_WASH};

static void colour(const Page *p, const GfxShape *s)
{
    unsigned rgb = inks[s->ink];
    cairo_set_source_rgba(p->cr, (rgb >> 16 & 255) / 255.0, (rgb >> 8 & 255) / 255.0,
                          (rgb & 255) / 255.0, (double)s->opacity);
}

static void round_path(const Page *p, const GfxShape *s)
{
    double in = s->kind == GFX_ROUND_LINE ? 0.5 * (double)s->width : 0.0;
    double x = (double)s->box.x + in, y = (double)s->box.y + in;
    double w = (double)s->box.w - 2.0 * in, h = (double)s->box.h - 2.0 * in;
    double r = fmin((double)s->radius, 0.5 * fmin(w, h));
    cairo_new_path(p->cr);
    cairo_arc(p->cr, x + w - r, y + r, r, -RIGHT_ANGLE, 0.0);
    cairo_arc(p->cr, x + w - r, y + h - r, r, 0.0, RIGHT_ANGLE);
    cairo_arc(p->cr, x + r, y + h - r, r, RIGHT_ANGLE, 2.0 * RIGHT_ANGLE);
    cairo_arc(p->cr, x + r, y + r, r, 2.0 * RIGHT_ANGLE, 3.0 * RIGHT_ANGLE);
    cairo_close_path(p->cr);
}

static void points_path(const Page *p, const GfxShape *s, const GfxPoint *at)
{
    cairo_new_path(p->cr);
    for (int i = 0; i < s->count; i++) {
        cairo_line_to(p->cr, (double)at[i].x, (double)at[i].y);
    }
}

static void stroke(const Page *p, const GfxShape *s)
{
    double dash = (double)s->radius;
    cairo_set_line_width(p->cr, (double)s->width);
    if (s->kind == GFX_DASHES) {
        cairo_set_dash(p->cr, &dash, 1, 0.0);
    }
    cairo_stroke(p->cr);
    cairo_set_dash(p->cr, NULL, 0, 0.0);
}

static void paint(const Page *p, const GfxShape *s, const GfxPoint *at)
{
    colour(p, s);
    switch (s->kind) {
    case GFX_BOX:
        cairo_rectangle(p->cr, (double)s->box.x, (double)s->box.y, (double)s->box.w,
                        (double)s->box.h);
        cairo_fill(p->cr);
        return;
    case GFX_ROUND:
        round_path(p, s);
        cairo_fill(p->cr);
        return;
    case GFX_ROUND_LINE:
        round_path(p, s);
        stroke(p, s);
        return;
    case GFX_PATH:
    case GFX_DASHES:
        points_path(p, s, at);
        stroke(p, s);
        return;
    case GFX_TEXT:
        page_text(p, (double)s->box.x, (double)s->box.y, s->text, (double)s->size * UNIT,
                  s->is_bold, (Align)s->align);
        return;
    }
}

static float width(const void *user, const char *text, float size, int is_bold)
{
    return (float)page_text_width(user, text, (double)size * UNIT, is_bold);
}

static void figure(const void *user, PicFigure what, double value, char *out, size_t size)
{
    const Page *p = user;
    if (what == PIC_STOP) {
        snprintf(out, size, word(p, "stop %d"), (int)value);
        return;
    }
    show(p, out, size, io_unit_value(IO_UNIT_DENSITY, value, p->taste), p->taste.is_us);
}

PicGround page_ground(Page *p)
{
    return (PicGround){(float)UNIT, (float)LINE, 0, p, width, figure};
}

void page_paint(Page *p, GfxShapes *shapes)
{
    for (int i = 0; i < shapes->count; i++) {
        const GfxShape *one =
            &shapes->shapes[i]; /* a rectangle has no points, and no list of them */
        paint(p, one, one->count > 0 ? shapes->points + one->first : NULL);
    }
    p->is_short |= shapes->is_short;
    pic_free(shapes);
}
