/*
 * Table-driven reading and writing: the tables of core/format_rows.h say which numbers a file has,
 * so that this file knows names and places but no ranges. Next: exercise_file.c.
 */
#include "format_rows.h"

#include <string.h>

static double *at(const PbNumberRow *row, void *values)
{
    return (double *)(void *)((char *)values + row->offset);
}

static void read_row(IoReader *r, IoValue *object, const PbNumberRow *row, double *out)
{
    IoValue *in = object;
    if (row->section[0] != '\0') {
        in = io_object(r, object, row->section, row->is_required);
    }
    if (in == NULL) {
        return; /* absent and not required, or already complained about */
    }
    IoValue *v = io_child(r, in, row->key);
    if (row->is_zero_allowed && v != NULL && json_is_number(v->json) &&
        json_number_value(v->json) == 0.0) {
        *out = 0.0;
        return;
    }
    io_number(r, in, row->key, row->is_required, row->low, row->high, row->unit, out);
}

void io_rows_read(IoReader *r, IoValue *object, const PbNumberRow *rows, size_t count, void *values)
{
    for (size_t i = 0; i < count; i++) {
        read_row(r, object, &rows[i], at(&rows[i], values));
    }
}

/* Zeros are written too: the default of a number that may be 0 need not be 0. */
int io_rows_write(json_t *object, const PbNumberRow *rows, size_t count, const void *values)
{
    int failed = 0;
    for (size_t i = 0; i < count; i++) {
        double v = *(const double *)(const void *)((const char *)values + rows[i].offset);
        json_t *in = object;
        if (rows[i].section[0] != '\0') {
            in = json_object_get(object, rows[i].section);
            if (in == NULL) {
                failed |= json_object_set_new(object, rows[i].section, json_object());
                in = json_object_get(object, rows[i].section);
            }
        }
        failed |= json_object_set_new(in, rows[i].key, json_real(v));
    }
    return failed;
}

void io_end_deep(IoReader *r, const IoValue *value)
{
    io_end(r, value);
    for (size_t i = 0; i < value->count; i++) {
        io_end_deep(r, &value->child[i]);
    }
}

void io_complain_check(IoReader *r, const IoValue *object, const char *path, const PbError *check)
{
    io_complain(r, io_find_below(object, path), check->status, "%s", check->message);
}

void io_format(IoReader *r, IoValue *object, const char *format)
{
    char text[48] = "";
    io_text(r, object, "format", 1, text, sizeof text);
    if (r->status == PB_OK && strcmp(text, format) != 0) {
        io_complain(r, io_child(r, object, "format"), PB_ERR_FORMAT, "expected \"format\": \"%s\"",
                    format);
    }
}
