#version 330 core
in vec4 tint;
out vec4 result;
void main()
{
    result = tint;
}
