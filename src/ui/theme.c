/* The colour tokens. Contrast ratios were computed when they were chosen: text at least 4.5,
 * controls and marks at least 3 against their grounds, in both sets. */
#include "ui/theme.h"

#include "gfxtypes/ramps.h"

#define HEX(v)                                                                                     \
    {                                                                                              \
        (uint8_t)((v) >> 16), (uint8_t)(((v) >> 8) & 255), (uint8_t)((v)&255), 255                 \
    }

static const UiTheme light = {
    .paper = HEX(0xF4EEE1),
    .sheet = HEX(0xFCF8EF),
    .glass = HEX(0xFFFDF7),
    .well = HEX(0xE9E0CE),
    .rule = HEX(0xCDBFA6),
    .edge = HEX(0x8A7C66),
    .ink = HEX(0x231F1A),
    .ink2 = HEX(0x574E41),
    .accent = HEX(0x6A2A7B),
    .accent_wash = HEX(0xE7D9E6),
    .accent_deep = HEX(0x48185A),
    .white = HEX(0xFFFFFF),
    .warn = HEX(0x875200),
    .warn_wash = HEX(0xF6E3BF),
    .danger = HEX(0xA3201B),
    .danger_wash = HEX(0xF5D9D2),
    .wood = HEX(0xE4C998),
    .wood_line = HEX(0xB08F5C),
    .wood_ink = HEX(0x6E5228),
    .board = HEX(0xEFE6D2),
    .board_line = HEX(0xCDBFA2),
    .tube = HEX(0xF8F5EC),
};

static const UiTheme contrast = {
    .paper = HEX(0xFFFFFF),
    .sheet = HEX(0xFFFFFF),
    .glass = HEX(0xFFFFFF),
    .well = HEX(0xE6E6E6),
    .rule = HEX(0x767676),
    .edge = HEX(0x3A3A3A),
    .ink = HEX(0x000000),
    .ink2 = HEX(0x1F1F1F),
    .accent = HEX(0x52106B),
    .accent_wash = HEX(0xEBDDF2),
    .accent_deep = HEX(0x340744),
    .white = HEX(0xFFFFFF),
    .warn = HEX(0x6B3F00),
    .warn_wash = HEX(0xFFE9B8),
    .danger = HEX(0x8A0F0C),
    .danger_wash = HEX(0xFFDAD6),
    .wood = HEX(0xF0DDB8),
    .wood_line = HEX(0x8A6A35),
    .wood_ink = HEX(0x4A3512),
    .board = HEX(0xFFFFFF),
    .board_line = HEX(0x9A9A9A),
    .tube = HEX(0xFFFFFF),
};

const UiTheme *ui_theme(int high_contrast)
{
    return high_contrast ? &contrast : &light;
}

GfxColor ui_fade(GfxColor c, double opacity)
{
    double a = opacity < 0.0 ? 0.0 : opacity > 1.0 ? 1.0 : opacity;
    c.a = (uint8_t)(a * 255.0 + 0.5);
    return c;
}

float ui_scatter(uint32_t k)
{
    k = (k ^ (k >> 16)) * 0x7feb352du;
    k = (k ^ (k >> 15)) * 0x846ca68bu;
    return (float)((k ^ (k >> 16)) >> 8) / 16777216.0f;
}

static GfxColor bytes_of(const double rgb[3])
{
    return (GfxColor){(uint8_t)(rgb[0] * 255.0 + 0.5), (uint8_t)(rgb[1] * 255.0 + 0.5),
                      (uint8_t)(rgb[2] * 255.0 + 0.5), 255};
}

GfxColor ui_density_color(double rho_kg_m3, double target_kg_m3)
{
    double rgb[3];
    gfx_density_rgb(rho_kg_m3, target_kg_m3, rgb);
    return bytes_of(rgb);
}

GfxColor ui_camera_color(double t)
{
    double rgb[3];
    gfx_camera_rgb(t, rgb);
    return bytes_of(rgb);
}
