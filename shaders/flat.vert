#version 330 core
layout(location = 0) in vec2 position;
layout(location = 1) in vec4 color;
uniform mat4 page;
out vec4 tint;
void main()
{
    tint = color;
    gl_Position = page * vec4(position, 0.0, 1.0);
}
