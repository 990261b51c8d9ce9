/*
 * Density fields in CSV: writer, strict reader, frames. Every complaint names line and column.
 * The JSON form is in field_json.c.
 */
#include "io/field_file.h"

#include "io/doc.h"
#include "io/output_file.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char titles[] = "x_m,y_m,density_kg_m3,past_kg_m3,lateral_pa,free_frac";
static const char batt_title[] = ",batt_frac"; /* files before it have none: no batt in the bay */
enum { COLUMNS = 7 };

/* Shortest form that reads back as the same double. */
static const char *exact(double v, char buffer[32])
{
    for (int digits = 15; digits <= 17; digits++) {
        snprintf(buffer, 32, "%.*g", digits, v);
        if (strtod(buffer, NULL) == v) {
            break;
        }
    }
    return buffer;
}

void io_field_csv_print(FILE *f, const PbBayField *field)
{
    assert(f != NULL && field != NULL);
    char s[6][32];
    fprintf(f, IO_FIELD_BEGINS " nx=%d ny=%d width_m=%s height_m=%s depth_m=%s tilt_deg=%s rh=%s\n",
            field->nx, field->ny, exact(field->width_m, s[0]), exact(field->height_m, s[1]),
            exact(field->depth_m, s[2]), exact(field->tilt_deg, s[3]),
            exact(field->fill_rh_frac, s[4]));
    fprintf(f, "%s%s\n", titles, batt_title);
    for (int j = 0; j < field->ny; j++) {
        for (int i = 0; i < field->nx; i++) {
            size_t c = (size_t)j * (size_t)field->nx + (size_t)i;
            fprintf(f, "%.6f,%.6f,%s,%s,%s,%s,%s\n", (i + 0.5) * field->width_m / field->nx,
                    (j + 0.5) * field->height_m / field->ny, exact(field->density_kg_m3[c], s[0]),
                    exact(field->density_past_kg_m3[c], s[1]), exact(field->lateral_pa[c], s[2]),
                    exact(field->free_frac[c], s[3]), exact(field->batt_frac[c], s[4]));
        }
    }
}

PbStatus io_field_csv_write(const char *path, const PbBayField *b, PbError *err)
{
    assert(path != NULL && b != NULL);
    IoOutput out;
    PB_TRY(io_output_open(path, IO_FIELD_BEGINS, &out, err));
    io_field_csv_print(out.file, b);
    return io_output_commit(&out, err);
}

/* Text under the reader's finger. */
typedef struct Cursor {
    const char *p, *line_start;
    int line;
    PbError *err;
} Cursor;

/* At the finger, in words of the caller's own. */
static PbStatus complain_of(const Cursor *c, PbStatus status, const char *words)
{
    if (c->err != NULL) {
        c->err->line = c->line;
        c->err->column = (int)(c->p - c->line_start) + 1;
    }
    return pb_fail(c->err, status, "%s", words);
}

static PbStatus complain(const Cursor *c, PbStatus status, const char *expected)
{
    char words[256];
    int n = (int)strcspn(c->p, ",\r\n");
    if (*c->p == '\0') {
        snprintf(words, sizeof words, "the file ends here, expected %s", expected);
    } else {
        snprintf(words, sizeof words, "found \"%.*s\", expected %s", n > 40 ? 40 : n, c->p,
                 expected);
    }
    return complain_of(c, status, words);
}

static PbStatus take_text(Cursor *c, const char *text)
{
    size_t n = strlen(text);
    if (strncmp(c->p, text, n) != 0) {
        char expected[160];
        snprintf(expected, sizeof expected, "\"%s\"", text);
        return complain(c, PB_ERR_FORMAT, expected);
    }
    c->p += n;
    return PB_OK;
}

static PbStatus take_line_end(Cursor *c)
{
    if (*c->p == '\r') {
        c->p++;
    }
    if (*c->p == '\n') {
        c->p++;
        c->line++;
        c->line_start = c->p;
        return PB_OK;
    }
    return *c->p == '\0' ? PB_OK : complain(c, PB_ERR_FORMAT, "the end of the line");
}

static PbStatus take_number(Cursor *c, double low, double high, const char *what, double *out)
{
    char expected[160];
    char *end;
    snprintf(expected, sizeof expected, "%.*s, a number from %g to %g", (int)strcspn(what, "="),
             what, low, high);
    /* strtod would also take blanks, hexadecimal, inf and nan. */
    if (strspn(c->p, "+-0123456789.") == 0 ||
        strspn(c->p, "+-0123456789.eE") < strcspn(c->p, " ,\r\n")) {
        return complain(c, PB_ERR_FORMAT, expected);
    }
    double v = strtod(c->p, &end);
    if (end == c->p || strchr(" ,\r\n", *end) == NULL) {
        return complain(c, PB_ERR_FORMAT, expected);
    }
    if (!(v >= low && v <= high)) {
        return complain(c, PB_ERR_RANGE, expected);
    }
    c->p = end;
    *out = v;
    return PB_OK;
}

static PbStatus read_head(Cursor *c, PbBayField *b, int *columns)
{
    struct {
        const char *key;
        double low, high, value;
    } keys[] = {{" nx=", 1, 1024, 0},       {" ny=", 1, 8192, 0},      {" width_m=", 0.02, 3, 0},
                {" height_m=", 0.1, 12, 0}, {" depth_m=", 0.02, 1, 0}, {" tilt_deg=", 0, 90, 0},
                {" rh=", 0, 1, 0}};
    PB_TRY(take_text(c, "# pullback density v1"));
    Cursor at_cells = *c;
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        PB_TRY(take_text(c, keys[i].key));
        Cursor at = *c;
        PB_TRY(take_number(c, keys[i].low, keys[i].high, keys[i].key + 1, &keys[i].value));
        if (i < 2 && keys[i].value != floor(keys[i].value)) {
            return complain(&at, PB_ERR_FORMAT, "a whole number");
        }
    }
    PB_TRY(take_line_end(c));
    PB_TRY(take_text(c, titles));
    *columns = COLUMNS - 1;
    if (strncmp(c->p, batt_title, strlen(batt_title)) == 0) {
        c->p += strlen(batt_title);
        *columns = COLUMNS;
    }
    PB_TRY(take_line_end(c));
    if (keys[0].value * keys[1].value > IO_FIELD_MAX_CELLS) {
        char words[96];
        snprintf(words, sizeof words, "%g cells, expected at most %d",
                 keys[0].value * keys[1].value, IO_FIELD_MAX_CELLS);
        return complain_of(&at_cells, PB_ERR_RANGE, words);
    }
    if (pb_bay_field_create((int)keys[0].value, (int)keys[1].value, keys[2].value, keys[3].value,
                            keys[4].value, b) != PB_OK) {
        return pb_fail(c->err, PB_ERR_MEMORY, "out of memory");
    }
    b->tilt_deg = keys[5].value;
    b->fill_rh_frac = keys[6].value;
    return PB_OK;
}

static PbStatus read_row(Cursor *c, const PbBayField *b, int columns, int i, int j)
{
    static const char *const names[COLUMNS] = {
        "x_m", "y_m", "density_kg_m3", "past_kg_m3", "lateral_pa", "free_frac", "batt_frac"};
    double v[COLUMNS] = {0};
    size_t cell = (size_t)j * (size_t)b->nx + (size_t)i;
    double x = (i + 0.5) * b->width_m / b->nx, y = (j + 0.5) * b->height_m / b->ny;
    /* Places are redundant, so they tell a field that does not match its bay. */
    const double low[COLUMNS] = {x - 2e-3, y - 2e-3, 0, 0, 0, 0, 0};
    double high[COLUMNS] = {x + 2e-3, y + 2e-3, PB_SETTLE_MAX_KG_M3, 2.0 * PB_SETTLE_MAX_KG_M3, 1e5,
                            1,        1};
    Cursor at_density = *c;
    for (int k = 0; k < columns; k++) {
        if (k == 6) {
            high[k] = 1.0 - v[5]; /* what the fill leaves */
        }
        if (k > 0) {
            PB_TRY(take_text(c, ","));
        }
        if (k == 2) {
            at_density = *c;
        }
        PB_TRY(take_number(c, low[k], high[k], names[k], &v[k]));
    }
    if (v[5] == 0.0 && v[2] > 0.0) {
        return complain(&at_density, PB_ERR_RANGE, "0, because free_frac is 0 here");
    }
    b->density_kg_m3[cell] = v[2];
    b->density_past_kg_m3[cell] = v[3];
    b->lateral_pa[cell] = v[4];
    b->free_frac[cell] = v[5];
    b->batt_frac[cell] = v[6];
    return take_line_end(c);
}

static PbStatus parse(Cursor *c, PbBayField *b)
{
    int columns = 0;
    PB_TRY(read_head(c, b, &columns));
    for (int j = 0; j < b->ny; j++) {
        for (int i = 0; i < b->nx; i++) {
            if (*c->p == '\0') {
                char expected[120];
                snprintf(expected, sizeof expected, "%d rows for %d x %d cells and found %d",
                         b->nx * b->ny, b->nx, b->ny, j * b->nx + i);
                return complain(c, PB_ERR_FORMAT, expected);
            }
            PB_TRY(read_row(c, b, columns, i, j));
        }
    }
    return *c->p == '\0' ? PB_OK
                         : complain(c, PB_ERR_FORMAT, "the end of the file after nx * ny rows");
}

PbStatus io_field_csv_read(const char *path, PbBayField *field, PbError *err)
{
    assert(path != NULL && field != NULL);
    char *text;
    size_t size;
    PbBayField b;
    memset(&b, 0, sizeof b);
    PB_TRY(io_read_file(path, IO_FIELD_MAX_BYTES, &text, &size, err));
    Cursor c = {text, text, 1, err};
    PbStatus status;
    if (strlen(text) != size) {
        for (const char *p = strchr(text, '\n'); p != NULL; p = strchr(p + 1, '\n')) {
            c.line++;
            c.line_start = p + 1;
        }
        c.p = text + strlen(text);
        status = complain_of(&c, PB_ERR_FORMAT, "a zero byte, expected a density field as text");
    } else if (size == 0) {
        status = complain(&c, PB_ERR_FORMAT, "\"# pullback density v1\"");
    } else {
        status = parse(&c, &b);
    }
    free(text);
    if (status != PB_OK) {
        pb_bay_field_destroy(&b);
        return status;
    }
    *field = b;
    return PB_OK;
}

PbStatus io_frames_csv_write(const char *path, const PbAgedBay *frames, int count, PbError *err)
{
    assert(path != NULL);
    assert(count == 0 || frames != NULL);
    IoOutput out;
    PB_TRY(io_output_open(path, IO_FRAMES_BEGINS, &out, err));
    FILE *f = out.file;
    const PbBayField *b = &frames[0].field;
    fprintf(f,
            IO_FRAMES_BEGINS " frames=%d nx=%d ny=%d width_m=%.9g height_m=%.9g depth_m=%.9g "
                             "tilt_deg=%.9g\n",
            count, b->nx, b->ny, b->width_m, b->height_m, b->depth_m, b->tilt_deg);
    fprintf(f, "years,x_m,y_m,density_kg_m3,void_frac\n");
    for (int k = 0; k < count; k++) {
        b = &frames[k].field;
        for (int j = 0; j < b->ny; j++) {
            for (int i = 0; i < b->nx; i++) {
                size_t c = (size_t)j * (size_t)b->nx + (size_t)i;
                fprintf(f, "%.9g,%.6f,%.6f,%.9g,%.9g\n", frames[k].years,
                        (i + 0.5) * b->width_m / b->nx, (j + 0.5) * b->height_m / b->ny,
                        b->density_kg_m3[c], frames[k].void_frac[c]);
            }
        }
    }
    return io_output_commit(&out, err);
}
