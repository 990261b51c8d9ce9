#version 330 core
uniform sampler2D atlas;
in vec4 tint;
in vec2 place;
out vec4 result;
void main()
{
    result = vec4(tint.rgb, tint.a * texture(atlas, place).r);
}
