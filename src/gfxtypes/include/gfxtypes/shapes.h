/**
 * @file shapes.h
 * @brief A picture as a list of shapes: made by src/picture from const data, painted by the screen
 * (ui) and by the printed page (report), so that both show the same.
 *
 * Units of the ground it was laid out for, pixels or points; origin top left, y down. Colours are
 * named by what they are for: each painter has its own set. Structs only: no functions live here.
 */
#ifndef GFXTYPES_SHAPES_H
#define GFXTYPES_SHAPES_H

#include "gfxtypes/draw.h"

typedef struct GfxPoint {
    float x, y;
} GfxPoint;

typedef enum GfxInk {
    GFX_INK,
    GFX_INK2, /**< softer: second lines, scales */
    GFX_RULE,
    GFX_EDGE,
    GFX_WELL,
    GFX_GLASS, /**< ground of strips and gauges */
    GFX_ACCENT,
    GFX_DANGER,
    GFX_DANGER_WASH,
    GFX_INKS
} GfxInk;

typedef enum GfxShapeKind {
    GFX_BOX,        /**< filled */
    GFX_ROUND,      /**< filled, corners of `radius` */
    GFX_ROUND_LINE, /**< its outline, inside the box, `width` wide */
    GFX_PATH,       /**< open line through the points */
    GFX_DASHES,     /**< the same in dashes and gaps of `radius` */
    GFX_TEXT        /**< base line at box.x, box.y */
} GfxShapeKind;

typedef enum GfxAlign { GFX_LEFT, GFX_CENTRE, GFX_RIGHT } GfxAlign;

typedef struct GfxShape {
    GfxShapeKind kind;
    GfxInk ink;
    float opacity; /**< 0..1 */
    GfxRect box;
    float radius, width;
    int first, count; /**< of the points */
    float size;       /**< of text, px at 100 % */
    int is_bold;
    GfxAlign align;
    char text[64]; /**< UTF-8 */
} GfxShape;

typedef struct GfxShapes {
    GfxShape *shapes; /**< painted in this order */
    int count, room;
    GfxPoint *points;
    int point_count, point_room;
    int is_short; /**< memory ran out: some are missing */
} GfxShapes;

#endif
