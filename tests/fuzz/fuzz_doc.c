/* The JSON reader against any bytes: a tree with places, or one clear line. */
#include "io/doc.h"

#include <stdint.h>
#include <stdlib.h>
#include <string.h>

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void walk(IoReader *r, const IoValue *value, int lines)
{
    if (value->line < 1 || value->line > lines || value->column < 1) {
        abort();
    }
    double x;
    IoReader one = *r;
    io_value_number(&one, value, -1.0, 1.0, "m", &x);
    for (size_t i = 0; i < value->count; i++) {
        walk(r, &value->child[i], lines);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char *text = malloc(size + 1);
    if (text == NULL) {
        return 0;
    }
    memcpy(text, data, size);
    text[size] = '\0';
    int lines = 1;
    for (size_t i = 0; i < size; i++) {
        lines += text[i] == '\n';
    }
    IoDoc doc;
    PbError err;
    memset(&err, 0, sizeof err);
    PbStatus status = io_doc_parse("fuzz", text, size, &doc, &err);
    char line[1024];
    if (status == PB_OK) {
        IoReader r = io_reader(&doc, &err);
        walk(&r, doc.root, lines);
        io_end(&r, doc.root);
        io_doc_free(&doc);
    } else {
        io_error_line(&err, line, sizeof line);
        if (err.message[0] == '\0' || err.line < 1 || err.line > lines + 1 ||
            strchr(line, '\n') != NULL) {
            abort();
        }
    }
    free(text);
    return 0;
}
