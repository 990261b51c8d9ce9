/**
 * @file render.h
 * @brief Draws a GfxDrawList and the density field with OpenGL 3.3 core.
 *
 * The caller owns the context and makes it current; every call needs it current. Colours are
 * written as they are to a plain framebuffer (no conversion), antialiasing is in the shapes'
 * fringes and in the shaders, so no multisampling is wanted. No clock, no window, no files.
 */
#ifndef RENDER_RENDER_H
#define RENDER_RENDER_H

#include "gfxtypes/draw.h"

#include <stddef.h>
#include <stdint.h>

typedef struct Render Render;

/**
 * @brief Compile the shaders and make the buffers.
 * @param[out] why  caller's array: one sentence when NULL comes back
 * @return NULL when the context is older than 3.3 or a shader is refused; else caller destroys it
 */
Render *render_create(char *why, size_t why_size);
/** @brief Give everything back. NULL allowed. */
void render_destroy(Render *r);

/** @brief Name of the driver's renderer, for reports. Borrowed until the context dies. */
const char *render_name(const Render *r);

/**
 * @brief One frame into the current framebuffer.
 * @param[in]     width, height pixels of the drawable
 * @param[in]     list  borrowed for the call
 * @param[in,out] atlas uploaded where dirty, then marked clean
 * @param[in]     field borrowed for the call; NULL keeps the textures of the frame before
 * All uploads come before the first draw: a software rasteriser stalls otherwise.
 */
void render_frame(Render *r, int width, int height, GfxColor paper, const GfxDrawList *list,
                  GfxAtlas *atlas, const GfxFieldData *field);
/** What was asked of the driver so far. */
typedef struct RenderCounts {
    uint64_t frames, draws, bytes; /**< bytes: loaded into buffers and textures */
} RenderCounts;
/** @brief For benchmarks: what a card would have to be fed. */
RenderCounts render_counts(const Render *r);
/** @brief OpenGL errors so far: looked for once a frame. 0 for NULL. */
int render_errors(const Render *r);
/** @brief Wait until everything drawn so far is in the framebuffer; for measuring. */
void render_finish(Render *r);
/**
 * @brief Read the frame back, before the swap.
 * @param[out] rgb caller's array of width * height * 3, top row first
 */
void render_read(Render *r, int width, int height, uint8_t *rgb);

#endif
