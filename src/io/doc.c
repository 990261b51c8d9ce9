/*
 * JSON with places. jansson parses and judges; the scanner below walks the same text, which is
 * then known to be valid, beside the parsed tree and notes line and column of every value.
 * Next: exercise_file.c for how a struct is read.
 */
#include "io/doc.h"

#include "core/utf8.h"
#include "os/file.h"

#include <assert.h>
#include <errno.h>
#include <math.h>
#include <pthread.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void set_file(PbError *err, const char *file)
{
    if (err != NULL) {
        snprintf(err->file, sizeof err->file, "%s", file);
        err->line = 0;
        err->column = 0;
    }
}

PbStatus io_read_file(const char *path, size_t max_bytes, char **text, size_t *size, PbError *err)
{
    assert(path != NULL && text != NULL && size != NULL);
    int is_stdin = strcmp(path, "-") == 0;
    set_file(err, is_stdin ? "standard input" : path);
    FILE *f = is_stdin ? stdin : os_open_stream(path, OS_TO_READ);
    if (f == NULL) {
        return errno == EISDIR ? pb_fail(err, PB_ERR_IO, "is a folder, expected a file")
                               : pb_fail(err, PB_ERR_IO, "cannot open: %s", strerror(errno));
    }
    PbStatus status = PB_OK;
    char *buffer = NULL;
    size_t used = 0;
    if (os_look_stream(f).kind == OS_FOLDER) {
        status = pb_fail(err, PB_ERR_IO, "is a folder, expected a file");
        goto done;
    }
    size_t room = 16384;
    buffer = malloc(room + 1);
    while (buffer != NULL) {
        size_t got = fread(buffer + used, 1, room - used, f);
        used += got;
        if (used > max_bytes) {
            status = pb_fail(err, PB_ERR_FORMAT, "is larger than %zu KiB, the most that is read",
                             max_bytes / 1024u);
            goto done;
        }
        if (used < room) {
            if (ferror(f)) {
                status = pb_fail(err, PB_ERR_IO, "cannot read: %s", strerror(errno));
                goto done;
            }
            break;
        }
        room *= 2;
        char *larger = realloc(buffer, room + 1);
        if (larger == NULL) {
            free(buffer);
        }
        buffer = larger;
    }
    if (buffer == NULL) {
        status = pb_fail(err, PB_ERR_MEMORY, "out of memory");
        goto done;
    }
    buffer[used] = '\0';
done:
    if (!is_stdin) {
        fclose(f);
    }
    if (status != PB_OK) {
        free(buffer);
        return status;
    }
    *text = buffer;
    *size = used;
    return PB_OK;
}

/* Scanner over text that jansson has accepted. */
typedef struct Scan {
    const char *p;
    const char *end;
    int line, column;
    IoValue *next; /* free slots */
} Scan;

static void advance(Scan *s)
{
    unsigned char c = (unsigned char)*s->p++;
    if (c == '\n') {
        s->line++;
        s->column = 1;
    } else if ((c & 0xC0u) != 0x80u) {
        s->column++; /* continuation bytes of UTF-8 are not columns */
    }
}

static void skip_space(Scan *s)
{
    while (s->p < s->end && strchr(" \t\r\n", *s->p) != NULL && *s->p != '\0') {
        advance(s);
    }
}

static void skip_string(Scan *s)
{
    advance(s);
    while (s->p < s->end && *s->p != '"') {
        if (*s->p == '\\' && s->p + 1 < s->end) {
            advance(s);
        }
        advance(s);
    }
    if (s->p < s->end) {
        advance(s);
    }
}

static void skip_scalar(Scan *s)
{
    if (*s->p == '"') {
        skip_string(s);
        return;
    }
    while (s->p < s->end && strchr(",]} \t\r\n", *s->p) == NULL) {
        advance(s);
    }
}

static size_t count_values(const json_t *json)
{
    size_t n = 1;
    const char *key;
    json_t *v;
    size_t i;
    if (json_is_object(json)) {
        json_object_foreach((json_t *)(size_t)json, key, v)
        {
            n += count_values(v);
        }
    } else if (json_is_array(json)) {
        json_array_foreach(json, i, v)
        {
            n += count_values(v);
        }
    }
    return n;
}

static void place(Scan *s, IoValue *value);

static void place_children(Scan *s, IoValue *value)
{
    int is_object = json_is_object(value->json);
    advance(s); /* { or [ */
    const char *key;
    json_t *json;
    size_t i = 0;
    if (is_object) {
        /* jansson keeps the order of the file, so the walk and the text stay in step */
        json_object_foreach(value->json, key, json)
        {
            value->child[i].key = key;
            value->child[i++].json = json;
        }
    } else {
        json_array_foreach(value->json, i, json)
        {
            value->child[i].json = json;
        }
    }
    for (i = 0; i < value->count; i++) {
        IoValue *c = &value->child[i];
        skip_space(s);
        if (is_object) {
            c->key_line = s->line;
            c->key_column = s->column;
            skip_string(s);
            skip_space(s);
            advance(s); /* : */
            skip_space(s);
        }
        place(s, c);
        skip_space(s);
        if (s->p < s->end && *s->p == ',') {
            advance(s);
        }
    }
    skip_space(s);
    if (s->p < s->end) {
        advance(s);
    }
}

static void place(Scan *s, IoValue *value)
{
    skip_space(s);
    value->line = s->line;
    value->column = s->column;
    value->count = json_is_object(value->json)  ? json_object_size(value->json)
                   : json_is_array(value->json) ? json_array_size(value->json)
                                                : 0;
    value->child = s->next;
    s->next += value->count;
    if (json_is_object(value->json) || json_is_array(value->json)) {
        place_children(s, value);
    } else {
        skip_scalar(s);
    }
}

/* jansson calls any shortage of memory below its parser a mistake in the text, and its writers lose
 * what did not fit; so its memory is taken through here and a shortage is remembered. */
static _Thread_local int is_short;

static void *json_take(size_t bytes)
{
    void *memory = malloc(bytes);
    is_short |= memory == NULL;
    return memory;
}

static void watch_memory(void)
{
    json_set_alloc_funcs(json_take, free);
}

int io_json_short(void)
{
    static pthread_once_t once = PTHREAD_ONCE_INIT;
    pthread_once(&once, watch_memory);
    int was = is_short;
    is_short = 0;
    return was;
}

/* What jansson would say in its own terms, or not at all: editors of some systems put a mark in
 * front that nobody sees, and a NUL behind a number would part the walk from the tree. */
static PbStatus refuse_bytes(const char *text, size_t size, PbError *err)
{
    static const char mark[] = "\xef\xbb\xbf";
    if (size >= sizeof mark - 1 && memcmp(text, mark, sizeof mark - 1) == 0) {
        if (err != NULL) {
            err->line = 1;
            err->column = 1;
        }
        return pb_fail(err, PB_ERR_FORMAT,
                       "not valid JSON: the file begins with a byte order mark, expected UTF-8 "
                       "without one");
    }
    const char *nul = memchr(text, '\0', size);
    if (nul == NULL) {
        return PB_OK;
    }
    Scan at = {text, nul, 1, 1, NULL};
    while (at.p < nul) {
        advance(&at);
    }
    if (err != NULL) {
        err->line = at.line;
        err->column = at.column;
    }
    return pb_fail(err, PB_ERR_FORMAT, "not valid JSON: there is a NUL byte here");
}

PbStatus io_doc_parse(const char *name, const char *text, size_t size, IoDoc *doc, PbError *err)
{
    assert(name != NULL && text != NULL && doc != NULL);
    json_error_t je;
    set_file(err, name);
    PB_TRY(refuse_bytes(text, size, err));
    Scan space = {text, text + size, 1, 1, NULL};
    skip_space(&space);
    if (space.p == space.end) {
        if (err != NULL) {
            err->line = 1;
            err->column = 1;
        }
        return pb_fail(err, PB_ERR_FORMAT, "the file is empty, expected a JSON object");
    }
    (void)io_json_short();
    json_t *root = json_loadb(text, size, JSON_REJECT_DUPLICATES | JSON_DECODE_ANY, &je);
    if (io_json_short()) { /* even a tree may have a piece missing then */
        json_decref(root);
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    if (root == NULL) {
        if (err != NULL) {
            err->line = je.line > 0 ? je.line : 1;
            err->column = je.column > 0 ? je.column : 1;
        }
        return pb_fail(err, PB_ERR_FORMAT, "not valid JSON: %s", je.text);
    }
    IoDoc d = {.root_json = root};
    d.values = calloc(count_values(root), sizeof *d.values);
    if (d.values == NULL) {
        json_decref(root);
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    snprintf(d.file, sizeof d.file, "%s", name);
    d.root = &d.values[0];
    d.root->json = root;
    Scan s = {text, text + size, 1, 1, d.values + 1};
    place(&s, d.root);
    *doc = d;
    if (!json_is_object(root)) {
        IoReader r = io_reader(doc, err);
        io_complain(&r, doc->root, PB_ERR_FORMAT, "expected a JSON object { ... } at the top");
        io_doc_free(doc);
        return PB_ERR_FORMAT;
    }
    return PB_OK;
}

const char *io_plain_number(const char *text, double *value)
{
    const char *digits = text + (text[0] == '-' || text[0] == '+');
    char *end;
    if (strchr(".0123456789", digits[0]) == NULL || digits[0] == '\0' ||
        (digits[0] == '0' && (digits[1] == 'x' || digits[1] == 'X'))) {
        return NULL;
    }
    *value = strtod(text, &end);
    return end != text ? end : NULL;
}

PbStatus io_doc_load(const char *path, IoDoc *doc, PbError *err)
{
    char *text;
    size_t size;
    PB_TRY(io_read_file(path, IO_MAX_BYTES, &text, &size, err));
    PbStatus status =
        io_doc_parse(strcmp(path, "-") == 0 ? "standard input" : path, text, size, doc, err);
    free(text);
    return status;
}

void io_doc_free(IoDoc *doc)
{
    json_decref(doc->root_json);
    free(doc->values);
    memset(doc, 0, sizeof *doc);
}

IoReader io_reader(const IoDoc *doc, PbError *err)
{
    IoReader r = {doc, err, PB_OK};
    return r;
}

void io_complain(IoReader *r, const IoValue *at, PbStatus status, const char *format, ...)
{
    if (r->status != PB_OK) {
        return;
    }
    r->status = status;
    if (r->err == NULL) {
        return;
    }
    set_file(r->err, r->doc->file);
    r->err->status = status;
    if (at != NULL) {
        r->err->line = at->line;
        r->err->column = at->column;
    }
    va_list args;
    va_start(args, format);
    (void)vsnprintf(r->err->message, sizeof r->err->message, format, args);
    va_end(args);
}

const IoValue *io_find(const IoDoc *doc, const char *path)
{
    return io_find_below(doc->root, path);
}

const IoValue *io_find_below(const IoValue *v, const char *path)
{
    while (*path != '\0') {
        size_t n = strcspn(path, "/");
        const IoValue *found = NULL;
        for (size_t i = 0; i < v->count && found == NULL; i++) {
            char index[24];
            const char *name = v->child[i].key;
            if (name == NULL) {
                snprintf(index, sizeof index, "%zu", i);
                name = index;
            }
            if (strlen(name) == n && strncmp(name, path, n) == 0) {
                found = &v->child[i];
            }
        }
        if (found == NULL) {
            break;
        }
        v = found;
        path += n + (path[n] == '/');
    }
    return v;
}

IoValue *io_child(IoReader *r, IoValue *object, const char *key)
{
    if (r->status != PB_OK || object == NULL) {
        return NULL;
    }
    for (size_t i = 0; i < object->count; i++) {
        if (object->child[i].key != NULL && strcmp(object->child[i].key, key) == 0) {
            object->child[i].asked = 1;
            return &object->child[i];
        }
    }
    return NULL;
}

/* The child, or NULL; complains at the object when it is required and absent. */
static IoValue *need(IoReader *r, IoValue *object, const char *key, int required)
{
    IoValue *v = io_child(r, object, key);
    if (v == NULL && required && object != NULL) {
        io_complain(r, object, PB_ERR_FORMAT, "\"%s\" is missing here", key);
    }
    return v;
}

IoValue *io_object(IoReader *r, IoValue *object, const char *key, int required)
{
    IoValue *v = need(r, object, key, required);
    if (v != NULL && !json_is_object(v->json)) {
        io_complain(r, v, PB_ERR_FORMAT, "\"%s\": expected an object { ... }", key);
        return NULL;
    }
    return v;
}

IoValue *io_array(IoReader *r, IoValue *object, const char *key, int required, size_t min,
                  size_t max)
{
    IoValue *v = need(r, object, key, required);
    if (v == NULL) {
        return NULL;
    }
    if (!json_is_array(v->json) || v->count < min || v->count > max) {
        io_complain(r, v, PB_ERR_FORMAT, "\"%s\": expected a list [ ... ] of %zu to %zu items", key,
                    min, max);
        return NULL;
    }
    return v;
}

void io_value_number(IoReader *r, const IoValue *value, double lo, double hi, const char *unit,
                     double *out)
{
    if (r->status != PB_OK || value == NULL) {
        return;
    }
    const char *name = value->key != NULL ? value->key : "item";
    double x = json_number_value(value->json);
    if (!json_is_number(value->json) || !isfinite(x)) {
        io_complain(r, value, PB_ERR_FORMAT, "\"%s\": expected a number from %g to %g %s", name, lo,
                    hi, unit);
        return;
    }
    if (x < lo || x > hi) {
        io_complain(r, value, PB_ERR_RANGE, "\"%s\": %g is out of range, expected %g to %g %s",
                    name, x, lo, hi, unit);
        return;
    }
    *out = x;
}

void io_number(IoReader *r, IoValue *object, const char *key, int required, double lo, double hi,
               const char *unit, double *out)
{
    io_value_number(r, need(r, object, key, required), lo, hi, unit, out);
}

void io_integer(IoReader *r, IoValue *object, const char *key, int required, long long lo,
                long long hi, long long *out)
{
    IoValue *v = need(r, object, key, required);
    if (v == NULL) {
        return;
    }
    long long x = json_integer_value(v->json);
    if (!json_is_integer(v->json) || x < lo || x > hi) {
        io_complain(r, v, json_is_integer(v->json) ? PB_ERR_RANGE : PB_ERR_FORMAT,
                    "\"%s\": expected a whole number from %lld to %lld", key, lo, hi);
        return;
    }
    *out = x;
}

void io_bool(IoReader *r, IoValue *object, const char *key, int required, int *out)
{
    IoValue *v = need(r, object, key, required);
    if (v == NULL) {
        return;
    }
    if (!json_is_boolean(v->json)) {
        io_complain(r, v, PB_ERR_FORMAT, "\"%s\": expected true or false", key);
        return;
    }
    *out = json_is_true(v->json);
}

void io_text(IoReader *r, IoValue *object, const char *key, int required, char *out, size_t size)
{
    IoValue *v = need(r, object, key, required);
    if (v == NULL) {
        return;
    }
    if (!json_is_string(v->json) || json_string_length(v->json) >= size ||
        strlen(json_string_value(v->json)) != json_string_length(v->json)) {
        io_complain(r, v, PB_ERR_FORMAT, "\"%s\": expected text of at most %zu bytes", key,
                    size - 1);
        return;
    }
    const unsigned char *p = (const unsigned char *)json_string_value(v->json);
    for (; *p != '\0'; p += pb_utf8_length(p, 4)) { /* jansson lets valid UTF-8 through alone */
        if (pb_utf8_control(p)) {
            io_complain(r, v, PB_ERR_FORMAT, "\"%s\": expected text without control characters",
                        key);
            return;
        }
        if (pb_utf8_hidden(p)) {
            io_complain(r, v, PB_ERR_FORMAT,
                        "\"%s\": expected text without invisible or direction-changing characters",
                        key);
            return;
        }
    }
    memset(out, 0, size); /* equal structs have equal bytes */
    memcpy(out, json_string_value(v->json), json_string_length(v->json));
}

void io_choice(IoReader *r, IoValue *object, const char *key, int required,
               const char *const *words, int count, int *out)
{
    IoValue *v = need(r, object, key, required);
    if (v == NULL) {
        return;
    }
    const char *text = json_string_value(v->json);
    for (int i = 0; text != NULL && i < count; i++) {
        if (strcmp(words[i], text) == 0) {
            *out = i;
            return;
        }
    }
    char list[256] = "";
    for (int i = 0; i < count; i++) {
        size_t n = strlen(list);
        snprintf(list + n, sizeof list - n, "%s\"%s\"", i ? ", " : "", words[i]);
    }
    io_complain(r, v, PB_ERR_FORMAT, "\"%s\": expected one of %s", key, list);
}

void io_end(IoReader *r, const IoValue *object)
{
    if (r->status != PB_OK || object == NULL) {
        return;
    }
    for (size_t i = 0; i < object->count; i++) {
        const IoValue *c = &object->child[i];
        if (c->key != NULL && !c->asked) {
            IoValue at = *c;
            at.line = c->key_line;
            at.column = c->key_column;
            io_complain(r, &at, PB_ERR_FORMAT, "unknown key \"%.60s\"", c->key);
            return;
        }
    }
}

void io_error_line(const PbError *err, char *out, size_t size)
{
    assert(err != NULL && out != NULL && size > 0);
    if (err->line > 0) {
        snprintf(out, size, "%s:%d:%d: %s", err->file, err->line, err->column, err->message);
    } else if (err->file[0] != '\0') {
        snprintf(out, size, "%s: %s", err->file, err->message);
    } else {
        snprintf(out, size, "%s", err->message);
    }
    /* keys and what jansson quotes may hold line breaks and escape codes: one line it stays */
    for (unsigned char *p = (unsigned char *)out; size > 0 && *p != '\0'; p++) {
        memset(p, '?', (size_t)pb_utf8_control(p));
    }
}
