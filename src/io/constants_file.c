/* Overrides of constants for one run: trials of another material, blower or wall. */
#include "io/constants_file.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

void io_constants_range(const PbConstantInfo *info, double *low, double *high)
{
    assert(info != NULL && low != NULL && high != NULL);
    *low = info->low > 0.0 ? info->low / IO_CONSTANTS_MARGIN : info->low * IO_CONSTANTS_MARGIN;
    *high = info->high > 0.0 ? info->high * IO_CONSTANTS_MARGIN : info->high / IO_CONSTANTS_MARGIN;
}

/* Text and numbers that describe a constant: allowed, judged by kind, not used. */
static void read_description(IoReader *r, IoValue *v)
{
    static const char *const texts[] = {"group", "unit", "confidence", "source"};
    char text[1024];
    double number;
    for (size_t i = 0; i < sizeof texts / sizeof texts[0]; i++) {
        io_text(r, v, texts[i], 0, text, sizeof text);
    }
    io_number(r, v, "low", 0, -1e300, 1e300, "", &number);
    io_number(r, v, "high", 0, -1e300, 1e300, "", &number);
}

static void read_constant(IoReader *r, IoValue *v, PbConstants *c, unsigned char *seen)
{
    char name[64] = "";
    double low, high;
    size_t count;
    if (!json_is_object(v->json)) {
        io_complain(r, v, PB_ERR_FORMAT, "expected a constant { \"name\": ..., \"value\": ... }");
        return;
    }
    io_text(r, v, "name", 1, name, sizeof name);
    if (r->status != PB_OK) {
        return;
    }
    const PbConstantInfo *info = pb_constant_find(name);
    if (info == NULL) {
        io_complain(r, io_child(r, v, "name"), PB_ERR_FORMAT, "there is no constant \"%s\"", name);
        return;
    }
    size_t index = (size_t)(info - pb_constants_table(&count));
    if (seen[index]) {
        io_complain(r, io_child(r, v, "name"), PB_ERR_FORMAT, "\"%s\" is given twice", name);
        return;
    }
    seen[index] = 1;
    io_constants_range(info, &low, &high);
    io_number(r, v, "value", 1, low, high, info->unit, pb_constant_at(c, info));
    read_description(r, v);
    io_end(r, v);
}

static PbStatus read_doc(IoDoc *doc, PbConstants *constants, PbError *err)
{
    IoReader r = io_reader(doc, err);
    PbConstants c = *constants;
    size_t count;
    char about[1024];
    (void)pb_constants_table(&count);
    unsigned char *seen = calloc(count, 1);
    if (seen == NULL) {
        io_doc_free(doc);
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    io_text(&r, doc->root, "about", 0, about, sizeof about);
    IoValue *list = io_array(&r, doc->root, "constants", 1, 1, count);
    for (size_t i = 0; list != NULL && i < list->count; i++) {
        read_constant(&r, &list->child[i], &c, seen);
    }
    io_end(&r, doc->root);
    if (r.status == PB_OK) {
        *constants = c;
    }
    free(seen);
    io_doc_free(doc);
    return r.status;
}

PbStatus io_constants_parse(const char *name, const char *text, size_t size, PbConstants *constants,
                            PbError *err)
{
    assert(name != NULL && text != NULL && constants != NULL);
    IoDoc doc;
    PB_TRY(io_doc_parse(name, text, size, &doc, err));
    return read_doc(&doc, constants, err);
}

PbStatus io_constants_load(const char *path, PbConstants *constants, PbError *err)
{
    assert(path != NULL && constants != NULL);
    IoDoc doc;
    PB_TRY(io_doc_load(path, &doc, err));
    return read_doc(&doc, constants, err);
}
