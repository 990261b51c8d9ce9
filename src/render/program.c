/* Compiling and linking shader programs, with the driver's own words when it refuses one.
 * What the programs do stands in shaders/; how they are used in render.c. */
#include "program.h"

#include <stdio.h>

static GLuint compile(GLenum kind, const char *name, const char *text, char *why, size_t why_size)
{
    GLuint shader = glCreateShader(kind);
    GLint ok = 0;
    glShaderSource(shader, 1, &text, NULL);
    glCompileShader(shader);
    glGetShaderiv(shader, GL_COMPILE_STATUS, &ok);
    if (!ok) {
        char log[400] = "";
        glGetShaderInfoLog(shader, sizeof log, NULL, log);
        snprintf(why, why_size, "the graphics driver refused shader %s: %s", name, log);
        glDeleteShader(shader);
        return 0;
    }
    return shader;
}

GLuint render_program(const char *name, const char *vertex, const char *fragment, char *why,
                      size_t why_size)
{
    GLuint vs = compile(GL_VERTEX_SHADER, name, vertex, why, why_size);
    GLuint fs = vs ? compile(GL_FRAGMENT_SHADER, name, fragment, why, why_size) : 0;
    if (!vs || !fs) {
        glDeleteShader(vs);
        return 0;
    }
    GLuint program = glCreateProgram();
    GLint ok = 0;
    glAttachShader(program, vs);
    glAttachShader(program, fs);
    glLinkProgram(program);
    glDeleteShader(vs);
    glDeleteShader(fs);
    glGetProgramiv(program, GL_LINK_STATUS, &ok);
    if (!ok) {
        char log[400] = "";
        glGetProgramInfoLog(program, sizeof log, NULL, log);
        snprintf(why, why_size, "the graphics driver refused program %s: %s", name, log);
        glDeleteProgram(program);
        return 0;
    }
    return program;
}
