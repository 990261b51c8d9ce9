/**
 * @file draw.h
 * @brief The draw list: what one frame looks like, without saying how it is drawn.
 *
 * ui and app fill it, render draws it. Pixels of the drawable, origin top left, y down. A list is
 * a row of layers; inside a layer the fields come first, then the shapes, then the text, so a
 * frame costs a handful of draw calls whatever it shows. Structs only: no functions live here.
 */
#ifndef GFXTYPES_DRAW_H
#define GFXTYPES_DRAW_H

#include <stdint.h>

#define GFX_MAX_LAYERS 16
#define GFX_MAX_FIELDS 8

typedef struct GfxRect {
    float x, y, w, h;
} GfxRect;

/** Bytes r, g, b, a in memory order; alpha is not premultiplied. */
typedef struct GfxColor {
    uint8_t r, g, b, a;
} GfxColor;

typedef struct GfxVertex {
    float x, y;
    GfxColor color;
} GfxVertex;

/** Corner of a glyph: u and v in texels of the atlas. */
typedef struct GfxTextVertex {
    float x, y;
    uint16_t u, v;
    GfxColor color;
} GfxTextVertex;

/** A window onto the density field. u runs across the bay, v along it (v = 0 is its bottom). */
typedef struct GfxField {
    GfxRect rect;
    float u0, v0, u1, v1; /**< of the left, bottom, right and top edge, 0..1 of the bay */
    float target_kg_m3;
    float hatch_pitch_px;
    float line_px;           /**< half width of the contour at the target */
    float width_m, height_m; /**< of the whole bay: the fill has a grain on this scale; 0 = plain */
    int is_camera; /**< 1: the temperatures instead, from low_c to high_c of the camera ramp */
    float low_c, high_c;
} GfxField;

/** Consecutive ranges of the arrays below. */
typedef struct GfxLayer {
    GfxRect clip; /**< used when has_clip */
    int has_clip;
    uint32_t first_index, index_count; /**< shapes: triangles */
    uint32_t first_quad, quad_count;   /**< text: four vertices each */
    int first_field, field_count;
} GfxLayer;

typedef struct GfxDrawList {
    GfxVertex *vertices;
    uint32_t *indices;
    GfxTextVertex
        *text; /**< four corners a glyph: top left, top right, bottom right, bottom left */
    uint32_t vertex_count, vertex_room;
    uint32_t index_count, index_room;
    uint32_t quad_count, quad_room;
    GfxField fields[GFX_MAX_FIELDS];
    int field_count;
    GfxLayer layers[GFX_MAX_LAYERS];
    int layer_count;
} GfxDrawList;

/** One byte of coverage a texel. Rows dirty_y0 <= y < dirty_y1 changed since the last upload. */
typedef struct GfxAtlas {
    int width, height;
    uint8_t *pixels;
    int dirty_y0, dirty_y1;
} GfxAtlas;

/** What the field shader needs of the bay, as floats; arrays are borrowed for the call. */
typedef struct GfxFieldData {
    uint64_t number; /**< of this picture: the one that was drawn last is not loaded again; 0 = has
                        none, may have changed */
    int nx, ny;
    const float *density; /**< [ny][nx], kg/m3, row 0 at the bottom */
    int mark_nx, mark_ny;
    const uint8_t *marks; /**< [mark_ny][mark_nx]: 0 plain, 1 hatch (under target), 2 void */
    int heat_nx, heat_ny;
    const float *heat_c; /**< [heat_ny][heat_nx] for the camera, row 0 at the bottom; NULL = none */
} GfxFieldData;

#endif
