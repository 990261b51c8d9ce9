#version 330 core
layout(location = 0) in vec2 position;
layout(location = 1) in vec2 bay;
uniform mat4 page;
out vec2 place;
void main()
{
    place = bay;
    gl_Position = page * vec4(position, 0.0, 1.0);
}
