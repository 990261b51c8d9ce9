/* The list of shapes: grows as it is filled. What memory has no room for is left out, and is_short
 * says so: a screen is drawn again anyway, a page is refused. */
#include "list.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static int has_room(void **array, int *room, int wanted, size_t size)
{
    if (wanted <= *room) {
        return 1;
    }
    int more = wanted + wanted / 2 + 64;
    void *grown = realloc(*array, (size_t)more * size);
    if (grown == NULL) {
        return 0;
    }
    *array = grown;
    *room = more;
    return 1;
}

static GfxShape *add(GfxShapes *list, GfxShapeKind kind, GfxInk ink)
{
    void *shapes = list->shapes;
    int is_there = has_room(&shapes, &list->room, list->count + 1, sizeof *list->shapes);
    list->shapes = shapes;
    if (!is_there) {
        list->is_short = 1;
        return NULL;
    }
    GfxShape *s = &list->shapes[list->count++];
    *s = (GfxShape){.kind = kind, .ink = ink, .opacity = 1.0f};
    return s;
}

/* A shape of points; NULL when either has no room. */
static GfxShape *add_points(GfxShapes *list, GfxShapeKind kind, const GfxPoint *points, int count,
                            GfxInk ink)
{
    void *all = list->points;
    int is_there = has_room(&all, &list->point_room, list->point_count + count, sizeof *points);
    list->points = all;
    GfxShape *s = is_there ? add(list, kind, ink) : NULL;
    if (s == NULL) {
        list->is_short = 1;
        return NULL;
    }
    if (count > 0) {
        memcpy(list->points + list->point_count, points, (size_t)count * sizeof *points);
    }
    s->first = list->point_count;
    s->count = count;
    list->point_count += count;
    return s;
}

void pic_free(GfxShapes *list)
{
    free(list->shapes);
    free(list->points);
    memset(list, 0, sizeof *list);
}

float pic_px(const PicGround *ground, double px)
{
    float size = (float)px * ground->unit;
    return ground->is_pixels ? floorf(size + 0.5f) : size;
}

float pic_snap(const PicGround *ground, float at)
{
    return ground->is_pixels ? floorf(at) : at;
}

void pic_box(GfxShapes *list, GfxRect box, GfxInk ink)
{
    GfxShape *s = add(list, GFX_BOX, ink);
    if (s != NULL) {
        s->box = box;
    }
}

void pic_round(GfxShapes *list, GfxRect box, float radius, GfxInk ink)
{
    GfxShape *s = add(list, GFX_ROUND, ink);
    if (s != NULL) {
        s->box = box;
        s->radius = radius;
    }
}

void pic_round_line(GfxShapes *list, GfxRect box, float radius, float width, GfxInk ink)
{
    GfxShape *s = add(list, GFX_ROUND_LINE, ink);
    if (s != NULL) {
        s->box = box;
        s->radius = radius;
        s->width = width;
    }
}

void pic_path(GfxShapes *list, const GfxPoint *points, int count, float width, GfxInk ink)
{
    GfxShape *s = add_points(list, GFX_PATH, points, count, ink);
    if (s != NULL) {
        s->width = width;
    }
}

void pic_dashes(GfxShapes *list, const GfxPoint *points, int count, float width, float dash,
                GfxInk ink)
{
    GfxShape *s = add_points(list, GFX_DASHES, points, count, ink);
    if (s != NULL) {
        s->width = width;
        s->radius = dash;
    }
}

void pic_hatch(GfxShapes *list, const PicGround *ground, GfxRect box, GfxInk ink)
{
    float first = 6.0f * ground->line, pitch = 7.0f * ground->line;
    for (float s = first; s < box.w + box.h; s += pitch) {
        GfxPoint ends[2] = {{box.x + fminf(s, box.w), box.y + fmaxf(s - box.w, 0.0f)},
                            {box.x + fmaxf(s - box.h, 0.0f), box.y + fminf(s, box.h)}};
        GfxShape *line = add_points(list, GFX_PATH, ends, 2, ink);
        if (line != NULL) {
            line->width = ground->line;
            line->opacity = 0.35f;
        }
    }
}

void pic_text(GfxShapes *list, GfxPoint at, float size, int is_bold, GfxAlign align, GfxInk ink,
              const char *text)
{
    GfxShape *s = text[0] != '\0' ? add(list, GFX_TEXT, ink) : NULL;
    if (s != NULL) {
        s->box.x = at.x;
        s->box.y = at.y;
        s->size = size;
        s->is_bold = is_bold;
        s->align = align;
        snprintf(s->text, sizeof s->text, "%s", text);
    }
}
