#version 330 core
#include "gfxtypes/ramps.h"
// Surface temperature. Density is never drawn with its ramp.
uniform sampler2D warmth;
uniform vec2 span; // low and high end of the scale, deg C
in vec2 place;
out vec4 result;

void main()
{
    float t = clamp((texture(warmth, place).r - span.x) / (span.y - span.x), 0.0, 1.0);
    vec3 c = vec3(CAMERA_RAMP_5);
    c = c * t + vec3(CAMERA_RAMP_4);
    c = c * t + vec3(CAMERA_RAMP_3);
    c = c * t + vec3(CAMERA_RAMP_2);
    c = c * t + vec3(CAMERA_RAMP_1);
    result = vec4(c * t + vec3(CAMERA_RAMP_0), 1.0);
}
