/**
 * @file text.h
 * @brief Fonts, measuring and glyphs. SDL2_ttf makes the glyphs; they live in one atlas.
 * Strings are UTF-8. Sizes are pixels of the drawable. Digits all take the same width.
 */
#ifndef UI_TEXT_H
#define UI_TEXT_H

#include "gfxtypes/draw.h"

#include <stddef.h>

typedef enum UiWeight { UI_REGULAR, UI_BOLD } UiWeight;

typedef struct UiText UiText;

/** A glyph in the atlas; its ink box only. */
typedef struct UiGlyph {
    uint32_t code;
    int size_px, weight;
    int u, v, w, h;
    int left, top; /**< of the ink box: from the pen, and from the base line upwards */
    int advance;
    int is_used;
} UiGlyph;

/**
 * @brief Open the two font files.
 * @param[out] why one sentence when NULL comes back
 * @return caller destroys it
 */
UiText *ui_text_create(const char *regular, const char *bold, char *why, size_t why_size);
/** @brief Close the fonts. NULL allowed. */
void ui_text_destroy(UiText *t);
/** @brief The atlas, for the renderer. Borrowed until destroyed. */
GfxAtlas *ui_text_atlas(UiText *t);
/** @brief Width in pixels of `bytes` bytes of a string (all of it when negative). */
float ui_text_width(UiText *t, int size_px, UiWeight weight, const char *text, int bytes);
/** @brief Glyph for a code point; rasterised at first use. NULL when there is no room left. */
const UiGlyph *ui_text_glyph(UiText *t, int size_px, UiWeight weight, uint32_t code);
/** @brief Next code point of a UTF-8 string; advances it. Broken bytes give U+FFFD. 0 at the end.
 */
uint32_t ui_text_next(const char **text);
/** @brief Number of times that the atlas had to be emptied because it was full. */
int ui_text_resets(const UiText *t);

#endif
