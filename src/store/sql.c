/* How the rest of the store runs SQL, and what SQLite's answers mean to a person. */
#include "store_private.h"

#include <assert.h>
#include <errno.h>
#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

PbStatus store_fail(const Store *s, PbError *err, PbStatus status, const char *format, ...)
{
    char text[400];
    va_list args;
    va_start(args, format);
    vsnprintf(text, sizeof text, format, args);
    va_end(args);
    if (err != NULL) {
        snprintf(err->file, sizeof err->file, "%.255s", s->path);
        err->line = 0;
        err->column = 0;
    }
    return pb_fail(err, status, "%s", text);
}

/* The system's own word where there is one, SQLite's otherwise. */
static const char *system_word(const Store *s)
{
    int number = sqlite3_system_errno(s->db);
    return number != 0 ? strerror(number) : sqlite3_errmsg(s->db);
}

PbStatus store_trouble(const Store *s, PbError *err, const char *doing)
{
    switch (sqlite3_errcode(s->db) & 0xff) {
    case SQLITE_FULL:
        return store_fail(s, err, PB_ERR_IO, "%s: the disk is full; nothing was changed", doing);
    case SQLITE_READONLY:
    case SQLITE_PERM:
    case SQLITE_AUTH:
        return store_fail(s, err, PB_ERR_IO,
                          "%s: the file or its folder is read-only; nothing was changed", doing);
    case SQLITE_CANTOPEN:
        return store_fail(s, err, PB_ERR_IO, "%s: cannot open it or the files beside it: %s", doing,
                          system_word(s));
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
        return store_fail(
            s, err, PB_ERR_IO,
            "%s: another program has held it for %d s; nothing was changed, try again", doing,
            STORE_WAIT_MS / 1000);
    case SQLITE_IOERR:
        return store_fail(s, err, PB_ERR_IO, "%s: %s; nothing was changed", doing, system_word(s));
    case SQLITE_CORRUPT:
        return store_fail(s, err, PB_ERR_FORMAT,
                          "%s: the database is damaged; it was left as it is. Copy it to a safe "
                          "place before anything else",
                          doing);
    case SQLITE_NOTADB:
        return store_fail(s, err, PB_ERR_FORMAT, "is no database; it was left as it is");
    case SQLITE_NOMEM:
        return store_fail(s, err, PB_ERR_MEMORY, "%s: out of memory", doing);
    case SQLITE_TOOBIG:
    case SQLITE_CONSTRAINT:
        return store_fail(s, err, PB_ERR_RANGE, "%s: %s", doing, sqlite3_errmsg(s->db));
    default:
        return store_fail(s, err, PB_ERR_IO, "%s: %s", doing, sqlite3_errmsg(s->db));
    }
}

static int bind_all(sqlite3_stmt *stmt, const char *bind, va_list args)
{
    int code = SQLITE_OK;
    for (int i = 0; bind[i] != '\0' && code == SQLITE_OK; i++) {
        switch (bind[i]) {
        case 'i':
            code = sqlite3_bind_int64(stmt, i + 1, va_arg(args, int64_t));
            break;
        case 'd':
            code = sqlite3_bind_double(stmt, i + 1, va_arg(args, double));
            break;
        case 't':
            code = sqlite3_bind_text(stmt, i + 1, va_arg(args, const char *), -1, SQLITE_STATIC);
            break;
        default: {
            const void *bytes = va_arg(args, const void *);
            size_t size = va_arg(args, size_t);
            code = sqlite3_bind_blob64(stmt, i + 1, bytes, size, SQLITE_STATIC);
        }
        }
    }
    return code;
}

static PbStatus prepare(Store *s, sqlite3_stmt **stmt, PbError *err, const char *doing,
                        const char *sql, const char *bind, va_list args)
{
    sqlite3_stmt *made = NULL;
    if (sqlite3_prepare_v2(s->db, sql, -1, &made, NULL) != SQLITE_OK ||
        bind_all(made, bind, args) != SQLITE_OK) {
        PbStatus status = store_trouble(s, err, doing);
        sqlite3_finalize(made);
        return status;
    }
    *stmt = made;
    return PB_OK;
}

PbStatus store_prepare(Store *s, sqlite3_stmt **stmt, PbError *err, const char *doing,
                       const char *sql, const char *bind, ...)
{
    va_list args;
    va_start(args, bind);
    PbStatus status = prepare(s, stmt, err, doing, sql, bind, args);
    va_end(args);
    return status;
}

PbStatus store_row(Store *s, sqlite3_stmt *stmt, PbError *err, const char *doing)
{
    int code = sqlite3_step(stmt);
    if (code == SQLITE_ROW) {
        return PB_OK;
    }
    return code == SQLITE_DONE ? PB_ERR_NO_RESULT : store_trouble(s, err, doing);
}

PbStatus store_run_sql(Store *s, PbError *err, const char *doing, const char *sql, const char *bind,
                       ...)
{
    sqlite3_stmt *stmt;
    va_list args;
    va_start(args, bind);
    PbStatus status = prepare(s, &stmt, err, doing, sql, bind, args);
    va_end(args);
    PB_TRY(status);
    while ((status = store_row(s, stmt, err, doing)) == PB_OK) {
        /* a PRAGMA may answer with rows nobody wants */
    }
    sqlite3_finalize(stmt);
    return status == PB_ERR_NO_RESULT ? PB_OK : status;
}

PbStatus store_number(Store *s, int64_t *out, PbError *err, const char *doing, const char *sql,
                      const char *bind, ...)
{
    sqlite3_stmt *stmt;
    va_list args;
    va_start(args, bind);
    PbStatus status = prepare(s, &stmt, err, doing, sql, bind, args);
    va_end(args);
    PB_TRY(status);
    status = store_row(s, stmt, err, doing);
    if (status == PB_OK) {
        *out = sqlite3_column_int64(stmt, 0);
    }
    sqlite3_finalize(stmt);
    return status;
}

/* IMMEDIATE: the wait for another writer is at the start, where nothing can be half done. Inside a
 * batch a savepoint takes the part of the transaction. */
PbStatus store_begin(Store *s, PbError *err, const char *doing)
{
    if (s->is_batch && sqlite3_get_autocommit(s->db)) {
        /* a savepoint would begin a transaction of its own now, and outlive the batch */
        return store_fail(s, err, PB_ERR_IO, "%s: the batch it belongs to was undone", doing);
    }
    return store_run_sql(s, err, doing, s->is_batch ? "SAVEPOINT change" : "BEGIN IMMEDIATE", "");
}

PbStatus store_end(Store *s, PbStatus status, PbError *err, const char *doing)
{
    if (status == PB_OK) {
        status = store_run_sql(s, err, doing, s->is_batch ? "RELEASE change" : "COMMIT", "");
    }
    if (status != PB_OK && !sqlite3_get_autocommit(s->db)) {
        sqlite3_exec(s->db, s->is_batch ? "ROLLBACK TO change; RELEASE change" : "ROLLBACK", NULL,
                     NULL, NULL);
    }
    return status;
}

PbStatus store_batch_begin(Store *s, PbError *err)
{
    assert(s != NULL);
    if (s->is_batch) {
        return store_fail(s, err, PB_ERR_STATE, "a batch is under way already");
    }
    PB_TRY(store_begin(s, err, "cannot start a batch"));
    s->is_batch = 1;
    return PB_OK;
}

PbStatus store_batch_end(Store *s, int keep, PbError *err)
{
    assert(s != NULL);
    if (!s->is_batch) {
        return store_fail(s, err, PB_ERR_STATE, "no batch is under way");
    }
    s->is_batch = 0;
    if (sqlite3_get_autocommit(s->db)) {
        /* a full disk makes SQLite undo the whole transaction by itself */
        return store_fail(s, err, PB_ERR_IO, "the batch was undone");
    }
    PbStatus status = store_end(s, keep ? PB_OK : PB_ERR_STATE, err, "cannot keep the batch");
    store_wipe(s, s->wipe_wait_ms);
    return keep ? status : PB_OK;
}

PbStatus store_expect(Store *s, const char *what, int64_t id, PbError *err)
{
    char sql[80];
    int64_t found;
    snprintf(sql, sizeof sql, "SELECT 1 FROM %ss WHERE id = ?", what);
    PbStatus status = store_number(s, &found, err, "cannot read", sql, "i", id);
    if (status == PB_ERR_NO_RESULT) {
        return store_fail(s, err, status, "there is no %s %lld", what, (long long)id);
    }
    return status;
}

void store_text(sqlite3_stmt *stmt, int column, char *out, size_t size)
{
    const char *text = (const char *)sqlite3_column_text(stmt, column);
    size_t n = text != NULL ? strlen(text) : 0;
    if (text != NULL && n >= size) {
        n = size - 1;
        while (n > 0 && ((unsigned char)text[n] & 0xc0) == 0x80) {
            n--;
        }
    }
    if (n > 0) {
        memcpy(out, text, n);
    }
    out[n] = '\0';
}

void *store_rows_next(StoreRows *rows)
{
    int n = rows->count;
    /* room doubles at 16, 32, 64, ... */
    if (n == 0 || (n >= 16 && (n & (n - 1)) == 0)) {
        size_t room = n == 0 ? 16 : 2 * (size_t)n;
        void *more = realloc(rows->list, room * rows->size);
        if (more == NULL) {
            return NULL;
        }
        rows->list = more;
    }
    void *item = (char *)rows->list + (size_t)rows->count++ * rows->size;
    memset(item, 0, rows->size);
    return item;
}

PbStatus store_read_rows(Store *s, sqlite3_stmt *query, StoreRows *rows,
                         PbStatus (*take)(Store *, sqlite3_stmt *, StoreRows *, PbError *),
                         PbError *err, const char *doing)
{
    PbStatus status;
    while ((status = store_row(s, query, err, doing)) == PB_OK) {
        status = take(s, query, rows, err);
        if (status != PB_OK) {
            break;
        }
    }
    sqlite3_finalize(query);
    if (status == PB_ERR_NO_RESULT) {
        return PB_OK;
    }
    if (status == PB_ERR_MEMORY) {
        (void)store_fail(s, err, status, "out of memory");
    }
    free(rows->list);
    rows->list = NULL;
    rows->count = 0;
    return status;
}
