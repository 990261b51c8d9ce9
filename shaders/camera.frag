#version 330 core
// Surface temperature as a degree 5 polynomial in display-encoded channels: cold is dark petrol,
// warm is cream, lightness rises all the way. Density is never drawn with it.
uniform sampler2D warmth;
uniform vec2 span; // low and high end of the scale, deg C
in vec2 place;
out vec4 result;

void main()
{
    float t = clamp((texture(warmth, place).r - span.x) / (span.y - span.x), 0.0, 1.0);
    vec3 c = vec3(-4.181, -0.469, 0.115);
    c = c * t + vec3(11.259, 1.421, 0.981);
    c = c * t + vec3(-12.910, -1.145, -0.666);
    c = c * t + vec3(7.417, 0.239, -0.900);
    c = c * t + vec3(-0.646, 0.755, 1.078);
    result = vec4(c * t + vec3(0.033, 0.132, 0.225), 1.0);
}
