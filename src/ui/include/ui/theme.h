/**
 * @file theme.h
 * @brief Colours by what they are for. Two sets: warm paper, and high contrast.
 */
#ifndef UI_THEME_H
#define UI_THEME_H

#include "gfxtypes/draw.h"

typedef struct UiTheme {
    GfxColor paper, sheet, glass, well, rule, edge, ink, ink2;
    GfxColor accent, accent_wash, accent_deep, white;
    GfxColor warn, warn_wash, danger, danger_wash;
    GfxColor wood, wood_line, wood_ink, board, board_line, tube;
} UiTheme;

/** @brief The light set, or the high contrast set. Static storage. */
const UiTheme *ui_theme(int high_contrast);
/** @brief The same colour with this opacity, 0..1. */
GfxColor ui_fade(GfxColor c, double opacity);
/** @brief 0 to 1, the same for the same number: grain and specks that stay where they are. */
float ui_scatter(uint32_t k);
/**
 * @brief Colour of fill of this density, as the field shader draws it.
 * Degree 5 polynomial from straw (20 kg/m3) to petrol (80 kg/m3); lighter by a step below `target`.
 */
GfxColor ui_density_color(double rho_kg_m3, double target_kg_m3);
/** @brief Colour of a surface temperature, as the camera shader draws it; t from 0 cold to 1 warm.
 */
GfxColor ui_camera_color(double t);

#endif
