/* Glyph cache over SDL2_ttf. Glyphs are trimmed to their ink box (a software rasteriser pays by the
 * pixel) and packed on shelves of one byte-a-texel atlas. Drawing text is draw.c's job. */
#include "ui/text.h"

#include <SDL.h>
#include <SDL_ttf.h>

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { ATLAS_W = 1024, ATLAS_H = 1024, GLYPH_ROOM = 4096, FONT_ROOM = 48 };

typedef struct Face {
    TTF_Font *font;
    int size_px, weight;
} Face;

struct UiText {
    char path[2][512];
    Face faces[FONT_ROOM];
    int face_count;
    UiGlyph glyphs[GLYPH_ROOM]; /* open addressing */
    int glyph_count;
    GfxAtlas atlas;
    int shelf_x, shelf_y, shelf_h;
    int resets;
};

static TTF_Font *face(UiText *t, int size_px, UiWeight weight)
{
    for (int i = 0; i < t->face_count; i++) {
        if (t->faces[i].size_px == size_px && t->faces[i].weight == (int)weight) {
            return t->faces[i].font;
        }
    }
    if (t->face_count == FONT_ROOM) { /* sizes change with the text scale: forget the old ones */
        for (int i = 0; i < t->face_count; i++) {
            TTF_CloseFont(t->faces[i].font);
        }
        t->face_count = 0;
    }
    TTF_Font *font = TTF_OpenFont(t->path[weight], size_px);
    if (font != NULL) {
        TTF_SetFontHinting(font, TTF_HINTING_LIGHT);
        t->faces[t->face_count++] = (Face){font, size_px, (int)weight};
    }
    return font;
}

UiText *ui_text_create(const char *regular, const char *bold, char *why, size_t why_size)
{
    UiText *t = calloc(1, sizeof *t);
    if (t != NULL) {
        t->atlas = (GfxAtlas){ATLAS_W, ATLAS_H, calloc(ATLAS_W, ATLAS_H), 0, ATLAS_H};
    }
    if (t == NULL || t->atlas.pixels == NULL || TTF_Init() != 0) {
        snprintf(why, why_size, "text cannot be drawn: %s", TTF_GetError());
        if (t != NULL) {
            free(t->atlas.pixels);
        }
        free(t);
        return NULL;
    }
    snprintf(t->path[0], sizeof t->path[0], "%s", regular);
    snprintf(t->path[1], sizeof t->path[1], "%s", bold);
    if (face(t, 14, UI_REGULAR) == NULL || face(t, 14, UI_BOLD) == NULL) {
        snprintf(why, why_size, "a font file cannot be read: %s", TTF_GetError());
        ui_text_destroy(t);
        return NULL;
    }
    return t;
}

void ui_text_destroy(UiText *t)
{
    if (t == NULL) {
        return;
    }
    for (int i = 0; i < t->face_count; i++) {
        TTF_CloseFont(t->faces[i].font);
    }
    TTF_Quit();
    free(t->atlas.pixels);
    free(t);
}

GfxAtlas *ui_text_atlas(UiText *t)
{
    return &t->atlas;
}

int ui_text_resets(const UiText *t)
{
    return t->resets;
}

/* Start again with an empty atlas: glyphs of this frame come back as they are asked for. */
static void reset(UiText *t)
{
    memset(t->glyphs, 0, sizeof t->glyphs);
    memset(t->atlas.pixels, 0, (size_t)ATLAS_W * ATLAS_H);
    t->glyph_count = t->shelf_x = t->shelf_y = t->shelf_h = 0;
    t->atlas.dirty_y0 = 0;
    t->atlas.dirty_y1 = ATLAS_H;
    t->resets++;
}

static int place(UiText *t, UiGlyph *g)
{
    if (t->shelf_x + g->w + 1 > ATLAS_W) {
        t->shelf_y += t->shelf_h + 1;
        t->shelf_x = t->shelf_h = 0;
    }
    if (t->shelf_y + g->h + 1 > ATLAS_H) {
        return 0;
    }
    g->u = t->shelf_x;
    g->v = t->shelf_y;
    t->shelf_x += g->w + 1;
    t->shelf_h = g->h > t->shelf_h ? g->h : t->shelf_h;
    return 1;
}

/* Copy the ink box of a 32-bit surface into the atlas. */
static int store(UiText *t, SDL_Surface *s, int ascent, int min_x, UiGlyph *g)
{
    int x0 = s->w, y0 = s->h, x1 = 0, y1 = 0;
    for (int y = 0; y < s->h; y++) {
        const uint32_t *row = (const uint32_t *)(void *)((uint8_t *)s->pixels + y * s->pitch);
        for (int x = 0; x < s->w; x++) {
            if (row[x] >> 24) {
                x0 = x < x0 ? x : x0;
                y0 = y < y0 ? y : y0;
                x1 = x >= x1 ? x + 1 : x1;
                y1 = y >= y1 ? y + 1 : y1;
            }
        }
    }
    g->w = x1 > x0 ? x1 - x0 : 0;
    g->h = y1 > y0 ? y1 - y0 : 0;
    /* SDL2_ttf starts the surface at the pen, or at the ink where that lies left of the pen. */
    g->left = x0 + (min_x < 0 ? min_x : 0);
    g->top = ascent - y0;
    if (g->w == 0 || g->h == 0) {
        g->w = g->h = 0;
        return 1;
    }
    if (!place(t, g)) {
        return 0;
    }
    for (int y = 0; y < g->h; y++) {
        const uint32_t *row =
            (const uint32_t *)(void *)((uint8_t *)s->pixels + (y + y0) * s->pitch);
        for (int x = 0; x < g->w; x++) {
            t->atlas.pixels[(g->v + y) * ATLAS_W + g->u + x] = (uint8_t)(row[x + x0] >> 24);
        }
    }
    t->atlas.dirty_y0 = g->v < t->atlas.dirty_y0 ? g->v : t->atlas.dirty_y0;
    t->atlas.dirty_y1 = g->v + g->h > t->atlas.dirty_y1 ? g->v + g->h : t->atlas.dirty_y1;
    return 1;
}

static int rasterise(UiText *t, TTF_Font *font, UiGlyph *g)
{
    int min_x = 0, max_x = 0, min_y = 0, max_y = 0, advance = 0, zero = 0;
    uint32_t code = TTF_GlyphIsProvided32(font, g->code) ? g->code : '?';
    TTF_GlyphMetrics32(font, code, &min_x, &max_x, &min_y, &max_y, &advance);
    if (code >= '0' && code <= '9') {
        TTF_GlyphMetrics32(font, '0', NULL, NULL, NULL, NULL, &zero);
        advance = zero;
    }
    g->advance = advance;
    SDL_Surface *s = TTF_RenderGlyph32_Blended(font, code, (SDL_Color){255, 255, 255, 255});
    if (s == NULL) {
        return 1; /* nothing to see, as for a space */
    }
    int done = store(t, s, TTF_FontAscent(font), min_x, g);
    SDL_FreeSurface(s);
    return done;
}

const UiGlyph *ui_text_glyph(UiText *t, int size_px, UiWeight weight, uint32_t code)
{
    uint32_t h = (code * 2654435761u) ^ ((uint32_t)size_px * 40503u) ^ ((uint32_t)weight << 11);
    for (uint32_t k = 0; k < GLYPH_ROOM; k++) {
        UiGlyph *g = &t->glyphs[(h + k) % GLYPH_ROOM];
        if (g->is_used) {
            if (g->code == code && g->size_px == size_px && g->weight == (int)weight) {
                return g;
            }
            continue;
        }
        TTF_Font *font = face(t, size_px, weight);
        UiGlyph made = {.code = code, .size_px = size_px, .weight = (int)weight, .is_used = 1};
        if (font == NULL) {
            return NULL;
        }
        if (t->glyph_count > GLYPH_ROOM * 3 / 4 || !rasterise(t, font, &made)) {
            reset(t);
            return NULL;
        }
        t->glyph_count++;
        *g = made;
        return g;
    }
    return NULL;
}

uint32_t ui_text_next(const char **text)
{
    const unsigned char *s = (const unsigned char *)*text;
    if (*s == 0) {
        return 0;
    }
    int more = *s < 0x80             ? 0
               : (*s & 0xE0) == 0xC0 ? 1
               : (*s & 0xF0) == 0xE0 ? 2
               : (*s & 0xF8) == 0xF0 ? 3
                                     : -1;
    uint32_t code = more <= 0 ? *s : *s & (0x3Fu >> more);
    int k = 1;
    for (; k <= more && (s[k] & 0xC0) == 0x80; k++) {
        code = (code << 6) | (s[k] & 0x3Fu);
    }
    *text += k;
    return more < 0 || k <= more ? 0xFFFD : code;
}

float ui_text_width(UiText *t, int size_px, UiWeight weight, const char *text, int bytes)
{
    const char *start = text;
    float w = 0.0f;
    uint32_t code;
    while ((bytes < 0 || text - start < bytes) && (code = ui_text_next(&text)) != 0) {
        const UiGlyph *g = ui_text_glyph(t, size_px, weight, code);
        w += g != NULL ? (float)g->advance : 0.0f;
    }
    return w;
}
