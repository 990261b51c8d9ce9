/* Figures into the braces of a template; see word_template.h. */
#include "word_template.h"

#include <stdio.h>

size_t io_template_append(const char *from, const char *end, IoFigure figure, const void *user,
                          IoReaderTaste taste, char *out, size_t used, size_t size)
{
    for (const char *t = from; *t != '\0' && t != end && used + 1 < size; t++) {
        if (t[0] == '{' && t[1] != '\0' && t[2] == '}') {
            char words[96];
            figure(t[1], user, taste, words, sizeof words);
            int n = snprintf(out + used, size - used, "%s", words);
            used += n > 0 ? (size_t)n : 0;
            t += 2;
        } else {
            out[used++] = *t;
        }
    }
    used = used < size ? used : size - 1;
    out[used] = '\0';
    return used;
}
