/**
 * @file ground.h
 * @brief What a picture is laid out for: a screen or a page, with its sizes, letters and figures;
 * and the list that it fills.
 */
#ifndef PICTURE_GROUND_H
#define PICTURE_GROUND_H

#include "gfxtypes/shapes.h"

#include <stddef.h>

/** Figures that a picture shows. Their words and units are the ground's. */
typedef enum PicFigure {
    PIC_DENSITY, /**< kg/m3, without its unit */
    PIC_STOP     /**< number of a stop, with its word */
} PicFigure;

/** Borrowed for the call, as is `user`. */
typedef struct PicGround {
    float unit;    /**< one px at 100 %, in units of the ground */
    float line;    /**< a line of width 1 */
    int is_pixels; /**< sizes are whole, and rules lie on whole ones */
    const void *user;
    float (*width)(const void *user, const char *text, float size, int is_bold);
    void (*figure)(const void *user, PicFigure what, double value, char *out, size_t size);
} PicGround;

/** @brief Free the arrays and zero the list. */
void pic_free(GfxShapes *list);

#endif
