#version 330 core
#include "gfxtypes/ramps.h"
// Density: more material, more ink. A lightness step, an ink contour and a hatch tell under-target
// fill apart without relying on hue. The hatch is fixed to the screen.
uniform sampler2D density;
uniform sampler2D marks;
uniform float target;
uniform float pitch;
uniform float line_px;
uniform sampler2D clumps;
uniform vec2 size_m; // of the bay; 0 = fill without a grain
in vec2 place;
out vec4 result;

const vec3 ink = vec3(0.137, 0.122, 0.102);
const vec3 danger = vec3(0.639, 0.125, 0.106);

vec3 ramp(float rho)
{
    float t = clamp((rho - RAMP_LOW_KG_M3) / RAMP_SPAN_KG_M3, 0.0, 1.0);
    vec3 c = vec3(DENSITY_RAMP_5);
    c = c * t + vec3(DENSITY_RAMP_4);
    c = c * t + vec3(DENSITY_RAMP_3);
    c = c * t + vec3(DENSITY_RAMP_2);
    c = c * t + vec3(DENSITY_RAMP_1);
    return c * t + vec3(DENSITY_RAMP_0);
}

void main()
{
    float rho = texture(density, place).r;
    vec3 c = ramp(rho);
    c = rho < target ? c + RAMP_STEP * (1.0 - c) : c * (1.0 - RAMP_STEP);
    if (size_m.x > 0.0) {
        // Loose fill lies in clumps of a centimetre, packed fill is fine and tight.
        vec2 at = place * size_m;
        float tight = clamp((rho - 26.0) / 38.0, 0.0, 1.0);
        float grain = mix(texture(clumps, at * 4.6).r, texture(clumps, at * 11.7).r, tight);
        c *= 1.0 + (grain - 0.5) * mix(0.30, 0.24, tight);
    }
    float cover = clamp((rho - 8.0) * 0.1, 0.0, 1.0);
    // A flat field has no contour: one that lies at the target all over would be all line.
    float slope = fwidth(rho);
    float away = abs(rho - target) / max(slope, 0.001);
    float contour = clamp(line_px + 0.5 - away, 0.0, 1.0) * clamp(slope / 0.01 - 0.1, 0.0, 1.0);
    c = mix(c, ink, contour);
    float mark = texture(marks, place).r * 255.0;
    if (mark > 0.5) {
        float up = mod(gl_FragCoord.x - gl_FragCoord.y, pitch);
        if (mark > 1.5) {
            float down = mod(gl_FragCoord.x + gl_FragCoord.y, pitch);
            cover = up < 1.0 || down < 1.0 ? 0.85 : 0.0;
            c = danger;
        } else if (up < 1.0) {
            c = mix(c, ink, 0.8);
            cover = max(cover, 0.8);
        }
    }
    result = vec4(c, cover);
}
