/* Private to render: shader programs. Read program.c. */
#ifndef RENDER_PROGRAM_H
#define RENDER_PROGRAM_H

#include <epoxy/gl.h>

#include <stddef.h>

/* Compile and link; 0 and a sentence in `why` when the driver refuses. */
GLuint render_program(const char *name, const char *vertex, const char *fragment, char *why,
                      size_t why_size);

#endif
