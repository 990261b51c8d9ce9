#version 330 core
// Density ramp as a degree 5 polynomial straight in display-encoded channels: more material, more
// ink; lightness falls all the way from 20 to 80 kg/m3. A lightness step, an ink contour and a hatch
// tell under-target fill apart without relying on hue. The hatch is fixed to the screen.
uniform sampler2D density;
uniform sampler2D marks;
uniform float target;
uniform float pitch;
uniform float line_px;
in vec2 place;
out vec4 result;

const vec3 ink = vec3(0.137, 0.122, 0.102);
const vec3 danger = vec3(0.639, 0.125, 0.106);

vec3 ramp(float rho)
{
    float t = clamp((rho - 20.0) / 60.0, 0.0, 1.0);
    vec3 c = vec3(1.449, 0.573, 1.922);
    c = c * t + vec3(-2.758, -1.297, -5.258);
    c = c * t + vec3(2.899, 0.777, 3.525);
    c = c * t + vec3(-2.371, 0.099, 0.811);
    c = c * t + vec3(-0.090, -0.844, -1.437);
    return c * t + vec3(0.945, 0.870, 0.697);
}

void main()
{
    float rho = texture(density, place).r;
    vec3 c = ramp(rho);
    c = rho < target ? c + 0.10 * (1.0 - c) : c * 0.90;
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
