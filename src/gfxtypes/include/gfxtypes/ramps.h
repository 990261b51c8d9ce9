/**
 * @file ramps.h
 * @brief The two colour ramps, once for all who paint them: C reads them here, and the shaders are
 * given this file's text where they ask for it (src/cmake/EmbedText.cmake). No line is continued,
 * since GLSL 3.30 knows none.
 *
 * Degree 5 in display-encoded channels, red, green, blue; the number is the power of t.
 */
#ifndef GFXTYPES_RAMPS_H
#define GFXTYPES_RAMPS_H

/* Density: straw at 20 kg/m3 (t = 0) to petrol at 80 (t = 1). Lightness falls all the way, so that
 * every kind of colour sight and a grey printer keep the order; fitted for this program. A step at
 * the target is part of it: lighter by RAMP_STEP of what is missing to white under it, darker by
 * the same share above. */
#define RAMP_LOW_KG_M3  20.0
#define RAMP_SPAN_KG_M3 60.0
#define RAMP_STEP       0.10
#define DENSITY_RAMP_5  1.449, 0.573, 1.922
#define DENSITY_RAMP_4  -2.758, -1.297, -5.258
#define DENSITY_RAMP_3  2.899, 0.777, 3.525
#define DENSITY_RAMP_2  -2.371, 0.099, 0.811
#define DENSITY_RAMP_1  -0.090, -0.844, -1.437
#define DENSITY_RAMP_0  0.945, 0.870, 0.697

/* Surface temperature: cold is dark petrol, warm is cream; lightness rises all the way. */
#define CAMERA_RAMP_5 -4.181, -0.469, 0.115
#define CAMERA_RAMP_4 11.259, 1.421, 0.981
#define CAMERA_RAMP_3 -12.910, -1.145, -0.666
#define CAMERA_RAMP_2 7.417, 0.239, -0.900
#define CAMERA_RAMP_1 -0.646, 0.755, 1.078
#define CAMERA_RAMP_0 0.033, 0.132, 0.225

#ifdef __STDC_VERSION__

static inline double gfx_unit(double v)
{
    return v < 0.0 ? 0.0 : v > 1.0 ? 1.0 : v;
}

/** Highest power first; channel 0 red, 1 green, 2 blue. t and the result in 0..1. */
static inline double gfx_ramp(const double k[6][3], int channel, double t)
{
    double v = k[0][channel];
    for (int i = 1; i < 6; i++) {
        v = v * t + k[i][channel];
    }
    return v;
}

/** Colour of fill of this density, 0..1. */
static inline void gfx_density_rgb(double kg_m3, double target_kg_m3, double rgb[3])
{
    static const double k[6][3] = {{DENSITY_RAMP_5}, {DENSITY_RAMP_4}, {DENSITY_RAMP_3},
                                   {DENSITY_RAMP_2}, {DENSITY_RAMP_1}, {DENSITY_RAMP_0}};
    for (int i = 0; i < 3; i++) {
        double v = gfx_ramp(k, i, gfx_unit((kg_m3 - RAMP_LOW_KG_M3) / RAMP_SPAN_KG_M3));
        rgb[i] = gfx_unit(kg_m3 < target_kg_m3 ? v + RAMP_STEP * (1.0 - v) : (1.0 - RAMP_STEP) * v);
    }
}

/** Colour of a surface temperature, 0..1; t from 0 cold to 1 warm. */
static inline void gfx_camera_rgb(double t, double rgb[3])
{
    static const double k[6][3] = {{CAMERA_RAMP_5}, {CAMERA_RAMP_4}, {CAMERA_RAMP_3},
                                   {CAMERA_RAMP_2}, {CAMERA_RAMP_1}, {CAMERA_RAMP_0}};
    for (int i = 0; i < 3; i++) {
        rgb[i] = gfx_unit(gfx_ramp(k, i, gfx_unit(t)));
    }
}

#endif

#endif
