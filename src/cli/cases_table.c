/* Tables of cases: CSV with a line of heads, or one JSON object a line. */
#include "cases.h"

#include "core/hash.h"
#include "core/utf8.h"

#include <errno.h>
#include <stdarg.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>

enum { MAX_LINE = 1 << 20 };
/* Spreadsheets put it in front of a CSV that they save as UTF-8. */
#define BYTE_ORDER_MARK "\xef\xbb\xbf"

PbStatus cases_refuse(PbError *err, const char *path, int line, size_t column, const char *what,
                      ...)
{
    char text[sizeof err->message];
    va_list words;
    va_start(words, what);
    vsnprintf(text, sizeof text, what, words);
    va_end(words);
    PbStatus status = pb_fail(err, PB_ERR_FORMAT, "%s", text);
    snprintf(err->file, sizeof err->file, "%s", path);
    err->line = line;
    err->column = (int)column;
    return status;
}

static int is_column(const CasesVerb *verb, const char *name)
{
    if (strcmp(name, verb->input) == 0 || strcmp(name, "label") == 0) {
        return 1;
    }
    for (int i = 0; verb->columns[i] != NULL; i++) {
        if (strcmp(name, verb->columns[i]) == 0) {
            return 1;
        }
    }
    return 0;
}

/* The next line with something on it, without its end; 0 at the end of the file. */
static PbStatus next_line(CasesTable *t, size_t *size, int *has, PbError *err)
{
    for (;;) {
        errno = 0;
        ssize_t n = getline(&t->text, &t->text_size, t->file);
        if (n < 0) {
            *has = 0;
            if (ferror(t->file)) {
                return pb_fail(err, PB_ERR_IO, "cannot read \"%s\": %s", t->path, strerror(errno));
            }
            return PB_OK;
        }
        t->line++;
        if (n > MAX_LINE) {
            return cases_refuse(err, t->path, t->line, 1, "a line of over a mebibyte");
        }
        if (memchr(t->text, '\0', (size_t)n) != NULL) {
            return cases_refuse(err, t->path, t->line, 1, "a zero byte, expected text");
        }
        t->hash = pb_hash_bytes(t->hash, t->text, (size_t)n);
        if (t->line == 1 && strncmp(t->text, BYTE_ORDER_MARK, strlen(BYTE_ORDER_MARK)) == 0) {
            n -= (ssize_t)strlen(BYTE_ORDER_MARK);
            memmove(t->text, t->text + strlen(BYTE_ORDER_MARK), (size_t)n + 1);
        }
        while (n > 0 && (t->text[n - 1] == '\n' || t->text[n - 1] == '\r')) {
            t->text[--n] = '\0';
        }
        if (n > 0) {
            *size = (size_t)n;
            *has = 1;
            return PB_OK;
        }
    }
}

/* One cell from `*at` on, quotes undone; *at goes behind it and its comma. */
static PbStatus take_cell(CasesTable *t, char **at, int *is_last, char **cell, PbError *err)
{
    char *from = *at, *to = from, *p = from;
    int is_quoted = *p == '"';
    p += is_quoted;
    while (*p != '\0' && (is_quoted || *p != ',')) {
        if (*p == '"') {
            if (!is_quoted) {
                return cases_refuse(
                    err, t->path, t->line, (size_t)(p - t->text) + 1,
                    "a quote inside a plain cell, expected the whole cell in quotes");
            }
            if (p[1] != '"') {
                is_quoted = 2;
                p++;
                break;
            }
            p++;
        }
        *to++ = *p++;
    }
    if (is_quoted == 1 || (*p != ',' && *p != '\0')) {
        return cases_refuse(err, t->path, t->line, (size_t)(p - t->text) + 1,
                            is_quoted == 1 ? "the quote is not closed on its line"
                                           : "text behind a closing quote, expected a comma");
    }
    *is_last = *p == '\0';
    *at = p + !*is_last;
    *to = '\0';
    *cell = from;
    return PB_OK;
}

static PbStatus read_heads(CasesTable *t, PbError *err)
{
    char *at = t->text, *cell = t->text;
    int is_last = 0, has_input = 0;
    while (!is_last) {
        size_t column = (size_t)(at - t->text) + 1;
        PB_TRY(take_cell(t, &at, &is_last, &cell, err));
        if (t->column_count == CASES_MAX_COLUMNS || !is_column(t->verb, cell)) {
            return cases_refuse(
                err, t->path, t->line, column,
                "no column \"%s\" here, expected options of the verb without dashes "
                "(docs/formats/cases.md)",
                cell);
        }
        for (int i = 0; i < t->column_count; i++) {
            if (strcmp(t->columns[i], cell) == 0) {
                return cases_refuse(err, t->path, t->line, column, "column \"%s\" is there twice",
                                    cell);
            }
        }
        has_input |= strcmp(cell, t->verb->input) == 0;
        t->columns[t->column_count] = strdup(cell);
        if (t->columns[t->column_count++] == NULL) {
            return pb_fail(err, PB_ERR_MEMORY, "out of memory");
        }
    }
    return has_input || t->verb->input_may_lack
               ? PB_OK
               : cases_refuse(err, t->path, t->line, 1, "expected a column \"%s\"", t->verb->input);
}

static PbStatus add(CasesRow *row, const char *name, const char *value, PbError *err)
{
    row->name[row->count] = strdup(name);
    row->value[row->count] = strdup(value);
    row->count++;
    return row->name[row->count - 1] != NULL && row->value[row->count - 1] != NULL
               ? PB_OK
               : pb_fail(err, PB_ERR_MEMORY, "out of memory");
}

/* A label goes into the row, which is UTF-8 as all JSON is. */
static PbStatus check_label(const CasesTable *t, const char *label, size_t column, PbError *err)
{
    size_t left = strlen(label), n = 1;
    if (left > CASES_LABEL_BYTES) {
        return cases_refuse(err, t->path, t->line, column, "a label has at most %d bytes, not %zu",
                            CASES_LABEL_BYTES, left);
    }
    for (const char *p = label; left > 0; p += n, left -= n) {
        n = pb_utf8_length((const unsigned char *)p, left);
        if (n == 0) {
            return cases_refuse(err, t->path, t->line, column + (size_t)(p - label),
                                "no UTF-8, expected a table saved as UTF-8");
        }
    }
    return PB_OK;
}

static PbStatus csv_row(CasesTable *t, CasesRow *row, PbError *err)
{
    char *at = t->text, *cell = t->text;
    int is_last = 0, n = 0;
    while (!is_last) {
        size_t column = (size_t)(at - t->text) + 1;
        PB_TRY(take_cell(t, &at, &is_last, &cell, err));
        if (n == t->column_count) {
            return cases_refuse(err, t->path, t->line, column, "more cells than heads");
        }
        if (strcmp(t->columns[n], "label") == 0) {
            PB_TRY(check_label(t, cell, column, err));
        }
        if (cell[0] != '\0') {
            PB_TRY(add(row, t->columns[n], cell, err));
        }
        n++;
    }
    return n == t->column_count ? PB_OK
                                : cases_refuse(err, t->path, t->line, (size_t)(at - t->text) + 1,
                                               "fewer cells than heads");
}

static PbStatus json_row(CasesTable *t, size_t size, CasesRow *row, PbError *err)
{
    json_error_t why;
    const char *name;
    json_t *value, *object = json_loadb(t->text, size, JSON_REJECT_DUPLICATES, &why);
    PbStatus status = PB_OK;
    if (!json_is_object(object)) {
        status = cases_refuse(err, t->path, t->line,
                              object == NULL && why.column > 0 ? (size_t)why.column : 1, "%s%s",
                              object == NULL ? "no JSON: " : "expected one object a line",
                              object == NULL ? why.text : "");
        json_decref(object);
        return status;
    }
    json_object_foreach(object, name, value)
    {
        char number[48];
        const char *text = json_string_value(value);
        if (json_is_integer(value)) {
            snprintf(number, sizeof number, "%lld", (long long)json_integer_value(value));
            text = number;
        } else if (json_is_real(value)) {
            snprintf(number, sizeof number, "%.17g", json_real_value(value));
            text = number;
        }
        const char *found = strstr(t->text, name);
        size_t column = found != NULL ? (size_t)(found - t->text) : 1;
        if (row->count == CASES_MAX_COLUMNS || !is_column(t->verb, name)) {
            status = cases_refuse(err, t->path, t->line, column,
                                  "no key \"%s\" here, expected options of the verb without dashes "
                                  "(docs/formats/cases.md)",
                                  name);
        } else if (text == NULL) {
            status = cases_refuse(err, t->path, t->line, column,
                                  "key \"%s\": expected text or a number", name);
        } else {
            status = strcmp(name, "label") == 0 ? check_label(t, text, column, err) : PB_OK;
            status = status == PB_OK ? add(row, name, text, err) : status;
        }
        if (status != PB_OK) {
            break;
        }
    }
    json_decref(object);
    return status;
}

PbStatus cases_table_next(CasesTable *t, CasesRow *row, int *has, PbError *err)
{
    size_t size = 0;
    memset(row, 0, sizeof *row);
    PB_TRY(next_line(t, &size, has, err));
    if (!*has) {
        return PB_OK;
    }
    PbStatus status = t->is_csv ? csv_row(t, row, err) : json_row(t, size, row, err);
    int has_input = t->verb->input_may_lack;
    for (int i = 0; i < row->count; i++) {
        has_input |= strcmp(row->name[i], t->verb->input) == 0;
        if (status == PB_OK && row->value[i][0] == '-' &&
            strcmp(row->name[i], t->verb->input) == 0) {
            status =
                cases_refuse(err, t->path, t->line, 1, "\"%s\" is no file name", row->value[i]);
        }
    }
    if (status == PB_OK && !has_input) {
        status =
            cases_refuse(err, t->path, t->line, 1, "expected \"%s\" in every case", t->verb->input);
    }
    if (status != PB_OK) {
        cases_row_free(row);
    }
    return status;
}

/* From the start of the file; CSV heads are read again. */
static PbStatus rewind_table(CasesTable *t, PbError *err)
{
    int has = 0;
    size_t size = 0;
    if (fseek(t->file, 0, SEEK_SET) != 0) {
        return pb_fail(err, PB_ERR_IO, "\"%s\" cannot be read twice: a pipe will not do", t->path);
    }
    t->line = 0;
    t->hash = PB_HASH_START;
    return t->is_csv ? next_line(t, &size, &has, err) : PB_OK;
}

/* JSON lines begin with an object; all else is CSV. */
static int begins_as_csv(FILE *file)
{
    char start[sizeof BYTE_ORDER_MARK] = ""; /* the mark and one byte more */
    size_t n = fread(start, 1, sizeof start, file);
    size_t mark = strlen(BYTE_ORDER_MARK);
    size_t first = n >= mark && memcmp(start, BYTE_ORDER_MARK, mark) == 0 ? mark : 0;
    return first >= n || start[first] != '{';
}

static PbStatus judge(CasesTable *t, PbError *err)
{
    int has = 0;
    size_t size = 0;
    t->is_csv = begins_as_csv(t->file);
    if (fseek(t->file, 0, SEEK_SET) != 0) {
        return pb_fail(err, PB_ERR_IO, "\"%s\" cannot be read twice: a pipe will not do", t->path);
    }
    if (t->is_csv) {
        PB_TRY(next_line(t, &size, &has, err));
        if (!has) {
            return cases_refuse(err, t->path, t->line, 1, "an empty table");
        }
        PB_TRY(read_heads(t, err));
    }
    CasesRow row;
    for (;;) {
        PB_TRY(cases_table_next(t, &row, &has, err));
        if (!has) {
            break;
        }
        cases_row_free(&row);
        t->cases++;
    }
    uint64_t hash = t->hash;
    PB_TRY(rewind_table(t, err));
    t->hash = hash;
    return t->cases > 0 ? PB_OK : cases_refuse(err, t->path, t->line, 1, "a table without cases");
}

PbStatus cases_table_open(const char *path, const CasesVerb *verb, CasesTable *t, PbError *err)
{
    memset(t, 0, sizeof *t);
    t->verb = verb;
    t->hash = PB_HASH_START;
    snprintf(t->path, sizeof t->path, "%s", path);
    t->file = fopen(path, "r");
    if (t->file == NULL) {
        return pb_fail(err, PB_ERR_IO, "cannot open \"%s\": %s", path, strerror(errno));
    }
    struct stat st;
    PbStatus status = fstat(fileno(t->file), &st) == 0 && S_ISDIR(st.st_mode)
                          ? pb_fail(err, PB_ERR_IO, "\"%s\" is a folder, expected a file", path)
                          : judge(t, err);
    if (status != PB_OK) {
        cases_table_close(t);
    }
    return status;
}

void cases_table_close(CasesTable *t)
{
    for (int i = 0; i < t->column_count; i++) {
        free(t->columns[i]);
    }
    free(t->text);
    if (t->file != NULL) {
        fclose(t->file);
    }
    memset(t, 0, sizeof *t);
}

void cases_row_free(CasesRow *row)
{
    for (int i = 0; i < row->count; i++) {
        free(row->name[i]);
        free(row->value[i]);
    }
    row->count = 0;
}
