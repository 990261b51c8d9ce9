#version 330 core
layout(location = 0) in vec2 position;
layout(location = 1) in vec4 color;
layout(location = 2) in vec2 texel;
uniform mat4 page;
uniform vec2 atlas_size;
out vec4 tint;
out vec2 place;
void main()
{
    tint = color;
    place = texel / atlas_size;
    gl_Position = page * vec4(position, 0.0, 1.0);
}
