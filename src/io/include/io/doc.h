/**
 * @file doc.h
 * @brief JSON files read so that every complaint names file, line and column.
 *
 * jansson judges the syntax; a small scanner then notes where each value stands, so that a number
 * out of range is reported at its own place. Read a struct by asking for each key once, then call
 * io_end: it reports keys that nobody asked for. After the first complaint all calls do nothing.
 */
#ifndef IO_DOC_H
#define IO_DOC_H

#include "core/status.h"

#include <jansson.h>

/**
 * @brief A number as people type it: decimal, no blank in front, no hexadecimal, no "inf" or "nan".
 * @return the place behind it, or NULL when `text` does not begin with one
 */
const char *io_plain_number(const char *text, double *value);

#define IO_MAX_BYTES (1024u * 1024u) /**< largest JSON file that io_doc_load reads */

typedef struct IoValue IoValue;
struct IoValue {
    const char *key; /* NULL in arrays and at the root */
    json_t *json;    /* borrowed from the document */
    IoValue *child;  /* first of `count` */
    size_t count;
    int line, column;         /* of the value */
    int key_line, key_column; /* of the key */
    int asked;
};

typedef struct IoDoc {
    json_t *root_json;
    IoValue *values;
    IoValue *root;
    char file[256];
} IoDoc;

/** Sticky reader: `err` gets the first complaint. */
typedef struct IoReader {
    const IoDoc *doc;
    PbError *err;
    PbStatus status;
} IoReader;

/**
 * @brief Read a whole file into memory.
 * @param[out] text caller frees with free; NUL-terminated
 * @return PB_OK; PB_ERR_IO; PB_ERR_FORMAT when larger than max_bytes; PB_ERR_MEMORY
 */
PB_NODISCARD PbStatus io_read_file(const char *path, size_t max_bytes, char **text, size_t *size,
                                   PbError *err);
/** @brief Read and parse a JSON file; "-" is standard input. As io_doc_parse, and PB_ERR_IO. */
PB_NODISCARD PbStatus io_doc_load(const char *path, IoDoc *doc, PbError *err);
/**
 * @brief Parse JSON text.
 * @param[in]  name shown as the file in complaints
 * @param[in]  text borrowed for the call, `size` bytes; needs no NUL behind
 * @param[out] doc  caller calls io_doc_free after PB_OK
 * @return PB_OK; PB_ERR_FORMAT (no JSON, a key twice, no object at the top); PB_ERR_MEMORY
 */
PB_NODISCARD PbStatus io_doc_parse(const char *name, const char *text, size_t size, IoDoc *doc,
                                   PbError *err);
/** @brief Give the document back and zero it. */
void io_doc_free(IoDoc *doc);
/**
 * @brief Has memory run out in JSON work of this thread since the last call? Asked before building
 * a document and after, it tells whether something in it is missing.
 */
int io_json_short(void);

/** @brief A reader of the document, which it borrows; `err` may be NULL. */
IoReader io_reader(const IoDoc *doc, PbError *err);
/** @brief Complain at a value (or its key when it is missing a child). Sticky: the first one wins.
 */
void io_complain(IoReader *r, const IoValue *at, PbStatus status, const char *format, ...)
    PB_PRINTF(4, 5);
/** @brief Value by path as core checks give it ("obstacles/2/x1_m"); the deepest one that exists.
 */
const IoValue *io_find(const IoDoc *doc, const char *path);

/** @brief As io_find, below a value of the document. */
const IoValue *io_find_below(const IoValue *value, const char *path);

/** @brief Child by key, NULL when absent. Marks it asked. */
IoValue *io_child(IoReader *r, IoValue *object, const char *key);
/** @brief Child that must be there and be an object; NULL after a complaint. */
IoValue *io_object(IoReader *r, IoValue *object, const char *key, int required);
/** @brief Child array with min..max items; NULL when absent (not required) or after a complaint. */
IoValue *io_array(IoReader *r, IoValue *object, const char *key, int required, size_t min,
                  size_t max);
/** @brief Number in [lo, hi]; `unit` is for the message. *out keeps its value when absent. */
void io_number(IoReader *r, IoValue *object, const char *key, int required, double lo, double hi,
               const char *unit, double *out);
/** @brief Whole number in [lo, hi]. */
void io_integer(IoReader *r, IoValue *object, const char *key, int required, long long lo,
                long long hi, long long *out);
/** @brief true or false. */
void io_bool(IoReader *r, IoValue *object, const char *key, int required, int *out);
/** @brief Text of at most size-1 bytes, copied. */
void io_text(IoReader *r, IoValue *object, const char *key, int required, char *out, size_t size);
/** @brief One of the given words; *out is its index. */
void io_choice(IoReader *r, IoValue *object, const char *key, int required,
               const char *const *words, int count, int *out);
/** @brief The value itself as a number in [lo, hi] (for items of arrays). */
void io_value_number(IoReader *r, const IoValue *value, double lo, double hi, const char *unit,
                     double *out);
/** @brief Complain about keys of the object that nobody asked for. */
void io_end(IoReader *r, const IoValue *object);

/** @brief Print "file:line:column: message" to `out` of `size` chars. */
void io_error_line(const PbError *err, char *out, size_t size);

#endif
