/* Private to io: sentences with figures in them, "{x} more than {y}". */
#ifndef IO_WORD_TEMPLATE_H
#define IO_WORD_TEMPLATE_H

#include "io/score_words.h"

#include <stddef.h>

/* The figure of one letter in braces, as words into `out`. */
typedef void (*IoFigure)(char which, const void *user, IoReaderTaste taste, char *out, size_t size);

/* Append the template up to `end` (NULL = to its own end) behind the `used` bytes of `out`; cut at
 * size, always closed by a zero. Returns the bytes used then. */
size_t io_template_append(const char *from, const char *end, IoFigure figure, const void *user,
                          IoReaderTaste taste, char *out, size_t used, size_t size);

#endif
