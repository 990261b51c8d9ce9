/* What every reader of ours owes to any bytes: a struct that passes its own check, or one clear
 * line at a place that exists. Used by the fuzz targets. */
#ifndef FUZZ_READER_H
#define FUZZ_READER_H

#include "io/doc.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

/* The bytes with a NUL behind, as the readers want them; caller frees. */
static inline char *fuzz_text(const uint8_t *data, size_t size)
{
    char *text = malloc(size + 1);
    if (text != NULL) {
        if (size > 0) {
            memcpy(text, data, size);
        }
        text[size] = '\0';
    }
    return text;
}

static inline void fuzz_check_complaint(const PbError *err, const char *text, size_t size)
{
    char line[1024];
    int lines = 1;
    for (size_t i = 0; i < size; i++) {
        lines += text[i] == '\n';
    }
    io_error_line(err, line, sizeof line);
    if (err->message[0] == '\0' || err->line < 1 || err->line > lines + 1 || err->column < 1 ||
        strchr(line, '\n') != NULL) {
        abort();
    }
}

#endif
