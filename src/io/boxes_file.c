/* Tables of weighed boxes: io/boxes_file.h. The first line names the columns, in any order and in
 * the units of the scale at hand. */
#include "io/boxes_file.h"

#include "core/units.h"
#include "io/doc.h"

#include <assert.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { MAX_COLUMNS = 16, MAX_BYTES = 256 * 1024, MAX_CELL = 64 };

/* What a crew's gauge, tape and scale read, and the SI column that it becomes. */
static const struct {
    const char *name, *si;
    double factor;
} us_columns[] = {
    {"width_in", "width_m", PB_M_PER_IN},
    {"height_in", "height_m", PB_M_PER_IN},
    {"depth_in", "depth_m", PB_M_PER_IN},
    {"mass_lb", "mass_kg", PB_KG_PER_LB},
    {"static_in_wc", "static_pa", PB_PA_PER_IN_WC},
    {"feed_lb_min", "feed_kg_s", PB_KG_PER_LB / 60.0},
    {"step_ft", "step_m", PB_M_PER_FT},
    {"gauge_in_wc", "gauge_pa", PB_PA_PER_IN_WC},
};

typedef struct Column {
    const PbNumberRow *row;
    double factor; /* into SI */
} Column;

typedef struct Table {
    const char *p, *line_start;
    int line;
    Column column[MAX_COLUMNS];
    int columns;
    IoBoxes boxes;
    PbError *err;
} Table;

static PbStatus complain_at(PbError *err, const char *file, int line, int column)
{
    if (err != NULL) {
        snprintf(err->file, sizeof err->file, "%s", file);
        err->line = line;
        err->column = column;
    }
    return PB_ERR_RANGE;
}

static int column_of(const Table *t, const char *at)
{
    return (int)(at - t->line_start) + 1;
}

PbStatus io_boxes_complain(const IoBoxes *boxes, int index, PbError *err, const char *format, ...)
{
    char text[sizeof err->message];
    va_list args;
    va_start(args, format);
    (void)vsnprintf(text, sizeof text, format, args);
    va_end(args);
    (void)complain_at(err, boxes->file, boxes->line[index], boxes->mass_column[index]);
    return pb_fail(err, PB_ERR_RANGE, "%s", text);
}

/* The cell under the finger, blanks around it left out; the finger then stands behind its comma or
 * at the line's end. */
static const char *take_cell(Table *t, char cell[MAX_CELL], int *is_last)
{
    t->p += strspn(t->p, " \t");
    const char *at = t->p;
    size_t n = strcspn(at, ",\r\n"), used = n;
    while (used > 0 && (at[used - 1] == ' ' || at[used - 1] == '\t')) {
        used--;
    }
    used = used < MAX_CELL ? used : MAX_CELL - 1;
    memcpy(cell, at, used);
    cell[used] = '\0';
    t->p = at + n;
    *is_last = *t->p != ',';
    t->p += !*is_last;
    return at;
}

static int next_line(Table *t)
{
    t->p += strcspn(t->p, "\n");
    if (*t->p == '\0') {
        return 0;
    }
    t->line_start = ++t->p;
    t->line++;
    return 1;
}

/* Empty lines and remarks. Nonzero when a line is there. */
static int skip_to_line(Table *t)
{
    while (*t->p == '#' || *t->p == '\r' || *t->p == '\n') {
        if (!next_line(t)) {
            return 0;
        }
    }
    return *t->p != '\0';
}

static const PbNumberRow *row_of(const char *name, double *factor)
{
    size_t count;
    const PbNumberRow *rows = pb_fit_box_rows(&count);
    *factor = 1.0;
    for (size_t i = 0; i < sizeof us_columns / sizeof us_columns[0]; i++) {
        if (strcmp(us_columns[i].name, name) == 0) {
            name = us_columns[i].si;
            *factor = us_columns[i].factor;
        }
    }
    for (size_t i = 0; i < count; i++) {
        if (strcmp(rows[i].key, name) == 0) {
            return &rows[i];
        }
    }
    return NULL;
}

static PbStatus read_head(Table *t)
{
    char cell[MAX_CELL];
    size_t count;
    int is_last = 0;
    const PbNumberRow *rows = pb_fit_box_rows(&count);
    while (!is_last) {
        const char *at = take_cell(t, cell, &is_last);
        Column c = {NULL, 1.0};
        c.row = row_of(cell, &c.factor);
        for (int i = 0; i < t->columns && c.row != NULL; i++) {
            if (t->column[i].row == c.row) {
                (void)complain_at(t->err, t->boxes.file, t->line, column_of(t, at));
                return pb_fail(t->err, PB_ERR_FORMAT, "\"%s\" is given twice", c.row->key);
            }
        }
        if (c.row == NULL || t->columns == MAX_COLUMNS) {
            (void)complain_at(t->err, t->boxes.file, t->line, column_of(t, at));
            return pb_fail(t->err, PB_ERR_FORMAT,
                           "found \"%s\", expected the name of a column: width_m, height_m, "
                           "depth_m, mass_kg, static_pa, feed_kg_s, step_m, wait_s, gauge_pa or "
                           "leak75_m3_s_m2 (or _in, _ft, _lb, _in_wc, _lb_min)",
                           cell);
        }
        t->column[t->columns++] = c;
    }
    for (size_t i = 0; i < count; i++) {
        int is_there = !rows[i].is_required;
        for (int k = 0; k < t->columns; k++) {
            is_there |= t->column[k].row == &rows[i];
        }
        if (!is_there) {
            (void)complain_at(t->err, t->boxes.file, t->line, 1);
            return pb_fail(t->err, PB_ERR_FORMAT, "the column \"%s\" is missing", rows[i].key);
        }
    }
    return PB_OK;
}

static PbStatus take_value(Table *t, const Column *c, const char *cell, int column, PbFitBox *box)
{
    double v = 0.0, low = c->row->low / c->factor, high = c->row->high / c->factor;
    const char *end = io_plain_number(cell, &v);
    if (cell[0] == '\0' && !c->row->is_required) {
        return PB_OK;
    }
    (void)complain_at(t->err, t->boxes.file, t->line, column);
    if (end == NULL || *end != '\0') {
        return pb_fail(t->err, PB_ERR_FORMAT, "found \"%s\", expected a number from %.4g to %.4g",
                       cell, low, high);
    }
    if (!pb_row_allows(c->row, v * c->factor)) {
        return pb_fail(t->err, PB_ERR_RANGE,
                       "\"%s\": %g is out of range, expected %.4g to %.4g%s%s", c->row->key, v, low,
                       high, c->factor == 1.0 ? " " : "", c->factor == 1.0 ? c->row->unit : "");
    }
    *(double *)(void *)((char *)box + c->row->offset) = v * c->factor;
    return PB_OK;
}

static PbStatus read_box(Table *t)
{
    static const double AIR_KG_M3 = 1.2;
    char cell[MAX_CELL];
    int is_last = 0, n = 0;
    IoBoxes *b = &t->boxes;
    if (b->count == PB_FIT_BOXES) {
        (void)complain_at(t->err, b->file, t->line, 1);
        return pb_fail(t->err, PB_ERR_RANGE, "expected at most %d boxes", PB_FIT_BOXES);
    }
    PbFitBox *box = &b->box[b->count];
    *box = pb_fit_box_default();
    b->line[b->count] = t->line;
    while (!is_last) {
        const char *at = take_cell(t, cell, &is_last);
        if (n == t->columns || (is_last && n + 1 < t->columns)) {
            (void)complain_at(t->err, b->file, t->line, column_of(t, at));
            return pb_fail(t->err, PB_ERR_FORMAT, "expected %d values, as the first line names",
                           t->columns);
        }
        if (strcmp(t->column[n].row->key, "mass_kg") == 0) {
            b->mass_column[b->count] = column_of(t, at);
        }
        PB_TRY(take_value(t, &t->column[n++], cell, column_of(t, at), box));
    }
    if (pb_fit_weighed(box) < AIR_KG_M3) {
        return io_boxes_complain(b, b->count, t->err,
                                 "this box is lighter than air: %.2f kg/m3, expected the fill "
                                 "alone, the empty box taken off",
                                 pb_fit_weighed(box));
    }
    b->count++;
    return PB_OK;
}

/* Nobody told eight constants apart by one box, nor by the same box again. */
static PbStatus judge_all(const Table *t)
{
    const IoBoxes *b = &t->boxes;
    int different = pb_fit_different(b->box, b->count);
    if (different >= PB_FIT_LEAST) {
        return PB_OK;
    }
    (void)complain_at(t->err, b->file, b->count > 0 ? b->line[b->count - 1] : t->line, 1);
    return pb_fail(
        t->err, PB_ERR_RANGE,
        "%d %s cannot tell %d constants apart, expected at least %d that differ in size, "
        "pressure, feed, step or wait",
        different, different == 1 ? "box" : "boxes", PB_CARRIERS, PB_FIT_LEAST);
}

PbStatus io_boxes_parse(const char *name, const char *text, size_t size, IoBoxes *boxes,
                        PbError *err)
{
    assert(name != NULL && text != NULL && boxes != NULL);
    Table t = {.p = text, .line_start = text, .line = 1, .err = err};
    snprintf(t.boxes.file, sizeof t.boxes.file, "%s", name);
    if (strlen(text) != size) {
        (void)complain_at(err, name, 1, 1);
        return pb_fail(err, PB_ERR_FORMAT, "a zero byte in the text");
    }
    if (!skip_to_line(&t)) {
        (void)complain_at(err, name, t.line, 1);
        return pb_fail(err, PB_ERR_FORMAT, "expected a line with the names of columns");
    }
    PB_TRY(read_head(&t));
    while (next_line(&t) && skip_to_line(&t)) {
        PB_TRY(read_box(&t));
    }
    PB_TRY(judge_all(&t));
    *boxes = t.boxes;
    return PB_OK;
}

PbStatus io_boxes_load(const char *path, IoBoxes *boxes, PbError *err)
{
    assert(path != NULL && boxes != NULL);
    char *text;
    size_t size;
    PB_TRY(io_read_file(path, MAX_BYTES, &text, &size, err));
    PbStatus status =
        io_boxes_parse(strcmp(path, "-") == 0 ? "standard input" : path, text, size, boxes, err);
    free(text);
    return status;
}
