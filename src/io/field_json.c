/*
 * Densities written by hand: a bay, a column or rows of densities from the bottom up, and blocks.
 * For studies and lessons; runs write the CSV form of field_file.c.
 */
#include "io/field_file.h"

#include "io/doc.h"

#include <assert.h>
#include <string.h>

enum { MAX_BLOCKS = 64 };

typedef struct Block {
    double x0_m, y0_m, x1_m, y1_m, depth_frac;
} Block;

/* What a block is of: "wood" where it does not say. */
static const char *const matters[] = {"wood", "batt"};
enum { MATTERS = sizeof matters / sizeof matters[0], BATT = 1 };

/* Sizes from the lists: column_kg_m3 is one cell wide, rows_kg_m3 a list of equal lists. */
static IoValue *read_shape(IoReader *r, IoValue *root, int *nx, int *ny)
{
    IoValue *column = io_array(r, root, "column_kg_m3", 0, 1, 8192);
    IoValue *rows = io_array(r, root, "rows_kg_m3", 0, 1, 8192);
    if (r->status != PB_OK) {
        return NULL;
    }
    if ((column == NULL) == (rows == NULL)) {
        io_complain(r, root, PB_ERR_FORMAT, "expected either \"column_kg_m3\" or \"rows_kg_m3\"");
        return NULL;
    }
    IoValue *list = column != NULL ? column : rows;
    *ny = (int)list->count;
    *nx = column != NULL ? 1 : (int)list->child[0].count;
    for (size_t j = 0; rows != NULL && j < rows->count; j++) {
        const IoValue *row = &rows->child[j];
        if (!json_is_array(row->json) || row->count < 1 || row->count > 1024 ||
            (int)row->count != *nx) {
            io_complain(r, row, PB_ERR_FORMAT,
                        "expected a list of %d densities as in the first row (1 to 1024)", *nx);
            return NULL;
        }
    }
    return list;
}

static void read_densities(IoReader *r, const IoValue *list, int is_column, const PbBayField *b)
{
    for (int j = 0; j < b->ny; j++) {
        for (int i = 0; i < b->nx; i++) {
            const IoValue *at = is_column ? &list->child[j] : &list->child[j].child[i];
            size_t c = (size_t)j * (size_t)b->nx + (size_t)i;
            io_value_number(r, at, 0.0, PB_SETTLE_MAX_KG_M3, "kg/m3", &b->density_kg_m3[c]);
            b->density_past_kg_m3[c] = b->density_kg_m3[c];
        }
    }
}

static void read_blocks(IoReader *r, IoValue *root, const PbBayField *b)
{
    IoValue *list = io_array(r, root, "blocks", 0, 0, MAX_BLOCKS);
    for (size_t k = 0; list != NULL && k < list->count; k++) {
        IoValue *at = &list->child[k];
        Block q = {0, 0, 0, 0, 1};
        if (!json_is_object(at->json)) {
            io_complain(r, at, PB_ERR_FORMAT, "expected a block { ... }");
            return;
        }
        io_number(r, at, "x0_m", 1, 0.0, b->width_m, "m", &q.x0_m);
        io_number(r, at, "x1_m", 1, q.x0_m, b->width_m, "m", &q.x1_m);
        io_number(r, at, "y0_m", 1, 0.0, b->height_m, "m", &q.y0_m);
        io_number(r, at, "y1_m", 1, q.y0_m, b->height_m, "m", &q.y1_m);
        io_number(r, at, "depth_frac", 0, 0.0, 1.0, "of the depth", &q.depth_frac);
        int matter = 0;
        io_choice(r, at, "what", 0, matters, MATTERS, &matter);
        io_end(r, at);
        int hit = 0;
        for (int j = 0; r->status == PB_OK && j < b->ny; j++) {
            for (int i = 0; i < b->nx; i++) {
                double x = (i + 0.5) * b->width_m / b->nx, y = (j + 0.5) * b->height_m / b->ny;
                size_t c = (size_t)j * (size_t)b->nx + (size_t)i;
                if (x < q.x0_m || x > q.x1_m || y < q.y0_m || y > q.y1_m) {
                    continue;
                }
                hit = 1;
                double left = 1.0 - q.depth_frac;
                if (left < b->free_frac[c]) {
                    b->free_frac[c] = left;
                    b->batt_frac[c] = matter == BATT ? q.depth_frac : 0.0;
                }
                if (b->free_frac[c] == 0.0) { /* the block is there, whatever the list says */
                    b->density_kg_m3[c] = 0.0;
                    b->density_past_kg_m3[c] = 0.0;
                }
            }
        }
        if (!hit) {
            io_complain(r, at, PB_ERR_RANGE,
                        "this block holds the middle of no cell (%g x %g m): give more rows or a "
                        "larger block",
                        b->width_m / b->nx, b->height_m / b->ny);
        }
    }
}

PbStatus io_field_json_read(const char *path, PbBayField *field, PbError *err)
{
    assert(path != NULL && field != NULL);
    IoDoc doc;
    PB_TRY(io_doc_load(path, &doc, err));
    IoReader r = io_reader(&doc, err);
    double width = 0, height = 0, depth = 0, tilt = 90.0, rh = 0.5;
    int nx = 0, ny = 0;
    IoValue *bay = io_object(&r, doc.root, "bay", 1);
    io_number(&r, bay, "width_m", 1, 0.02, 3.0, "m", &width);
    io_number(&r, bay, "height_m", 1, 0.1, 12.0, "m", &height);
    io_number(&r, bay, "depth_m", 1, 0.02, 1.0, "m", &depth);
    io_number(&r, bay, "tilt_deg", 0, 0.0, 90.0, "degrees", &tilt);
    io_number(&r, bay, "rh", 0, 0.0, 1.0, "of 1", &rh);
    io_end(&r, bay);
    IoValue *list = read_shape(&r, doc.root, &nx, &ny);
    PbBayField b;
    memset(&b, 0, sizeof b);
    PbStatus status = r.status;
    if (status == PB_OK && nx * ny > IO_FIELD_MAX_CELLS) {
        io_complain(&r, list, PB_ERR_RANGE, "%d cells, expected at most %d", nx * ny,
                    IO_FIELD_MAX_CELLS);
        status = r.status;
    }
    if (status == PB_OK) {
        status = pb_bay_field_create(nx, ny, width, height, depth, &b);
        if (status != PB_OK) {
            status = pb_fail(err, status, "no room for the field");
        }
    }
    if (status == PB_OK) {
        b.tilt_deg = tilt;
        b.fill_rh_frac = rh;
        read_densities(&r, list, strcmp(list->key, "column_kg_m3") == 0, &b);
        read_blocks(&r, doc.root, &b);
        io_end(&r, doc.root);
        status = r.status;
    }
    io_doc_free(&doc);
    if (status != PB_OK) {
        pb_bay_field_destroy(&b);
        return status;
    }
    *field = b;
    return PB_OK;
}
