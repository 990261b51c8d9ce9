/*
 * Is the layout of the file ours, whole and nothing else? A trigger would run with our changes, a
 * view could stand in for a table and never end. What is expected comes from the very steps that
 * make a store (migrate.c), run in memory up to the layout that the file says it has.
 */
#include "store_private.h"

#include <string.h>

static int is_space(char c)
{
    return c == ' ' || c == '\t' || c == '\n' || c == '\r';
}

/* The same words, whatever white space stands between them. Either may be NULL: no text. */
static int is_same_sql(const char *a, const char *b)
{
    while (a != NULL && b != NULL) {
        int gap = is_space(*a) || *a == '\0';
        if (gap != (is_space(*b) || *b == '\0')) {
            return 0;
        }
        while (is_space(*a)) {
            a++;
        }
        while (is_space(*b)) {
            b++;
        }
        if (*a != *b || *a == '\0') {
            return *a == *b;
        }
        a++;
        b++;
    }
    return a == b;
}

/* A store of this layout in memory. */
static PbStatus make_model(Store *model, int version, PbError *err)
{
    static const char doing[] = "cannot tell what it should hold";
    if (sqlite3_open_v2(":memory:", &model->db,
                        SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE | SQLITE_OPEN_NOMUTEX,
                        NULL) != SQLITE_OK) {
        return store_fail(model, err, PB_ERR_MEMORY, "out of memory");
    }
    for (int n = 1; n <= version; n++) {
        if (sqlite3_exec(model->db, store_migration_sql(n), NULL, NULL, NULL) != SQLITE_OK) {
            return store_trouble(model, err, doing);
        }
    }
    return PB_OK;
}

static const char *column(sqlite3_stmt *q, int i)
{
    const char *text = (const char *)sqlite3_column_text(q, i);
    return text != NULL ? text : "";
}

/* All of `has` is in `wants`, word for word. `says`: what is wrong with a thing that is not. */
static PbStatus compare(Store *has, Store *wants, const char *says, PbError *err)
{
    static const char doing[] = "cannot read";
    sqlite3_stmt *all, *one = NULL;
    PB_TRY(store_prepare(has, &all, err, doing,
                         "SELECT type, name, tbl_name, sql FROM sqlite_schema", ""));
    PbStatus status = store_prepare(
        wants, &one, err, doing,
        "SELECT sql FROM sqlite_schema WHERE type = ? AND name = ? AND tbl_name = ?", "");
    while (status == PB_OK && (status = store_row(has, all, err, doing)) == PB_OK) {
        for (int i = 0; i < 3; i++) {
            sqlite3_bind_text(one, i + 1, column(all, i), -1, SQLITE_STATIC);
        }
        status = store_row(wants, one, err, doing);
        if (status == PB_ERR_NO_RESULT ||
            (status == PB_OK && !is_same_sql((const char *)sqlite3_column_text(all, 3),
                                             (const char *)sqlite3_column_text(one, 0)))) {
            status =
                store_fail(has, err, PB_ERR_FORMAT, "%s: the %s \"%.100s\"; it was left as it is",
                           says, column(all, 0), column(all, 1));
        }
        sqlite3_reset(one);
    }
    sqlite3_finalize(all);
    sqlite3_finalize(one);
    return status == PB_ERR_NO_RESULT ? PB_OK : status;
}

PbStatus store_schema_check(Store *s, int version, PbError *err)
{
    Store model = {.fd = -1};
    memcpy(model.path, s->path, sizeof model.path); /* for the error */
    PbStatus status = make_model(&model, version, err);
    if (status == PB_OK) {
        status = compare(s, &model, "holds something that is not this program's", err);
    }
    if (status == PB_OK) {
        status = compare(&model, s, "lacks a part of its layout", err);
    }
    sqlite3_close(model.db);
    return status;
}
