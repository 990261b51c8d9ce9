/* Texts by name: rubrics, houses, settings. */
#include "store/shelf.h"

#include "store_private.h"

#include <assert.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char *const tables[] = {"rubrics", "houses"};
static const char *const things[] = {"rubric", "house"};

PbStatus store_item_put(Store *s, StoreShelf shelf, const char *name, const char *text,
                        const char *when, PbError *err)
{
    assert(s != NULL && name != NULL && text != NULL && when != NULL);
    static const char doing[] = "cannot keep it";
    char sql[200];
    const char *fault = store_name_fault(name);
    if (fault != NULL) {
        return store_fail(s, err, PB_ERR_RANGE, "%s", fault);
    }
    if (!store_is_time(when) || !store_is_prose(text, STORE_SHELF_BYTES)) {
        return store_fail(s, err, PB_ERR_RANGE,
                          "a %s has a time, and a text of at most %u KiB of UTF-8", things[shelf],
                          STORE_SHELF_BYTES >> 10);
    }
    snprintf(sql, sizeof sql,
             "INSERT INTO %s (name, changed, content) VALUES (?, ?, ?) ON CONFLICT (name) DO"
             " UPDATE SET changed = excluded.changed, content = excluded.content",
             tables[shelf]);
    PB_TRY(store_begin(s, err, doing));
    return store_end(s, store_run_sql(s, err, doing, sql, "ttt", name, when, text), err, doing);
}

PbStatus store_item_get(Store *s, StoreShelf shelf, const char *name, char **text, PbError *err)
{
    assert(s != NULL && name != NULL && text != NULL);
    static const char doing[] = "cannot read it";
    sqlite3_stmt *q;
    char sql[100];
    snprintf(sql, sizeof sql, "SELECT content FROM %s WHERE name = ?", tables[shelf]);
    PB_TRY(store_prepare(s, &q, err, doing, sql, "t", name));
    PbStatus status = store_row(s, q, err, doing);
    if (status == PB_OK) {
        const char *content = (const char *)sqlite3_column_text(q, 0);
        char *copy = content != NULL ? malloc(strlen(content) + 1) : NULL;
        if (copy != NULL) {
            memcpy(copy, content, strlen(content) + 1);
            *text = copy;
        } else {
            status = store_fail(s, err, PB_ERR_MEMORY, "out of memory");
        }
    } else if (status == PB_ERR_NO_RESULT) {
        status = store_fail(s, err, status, "there is no %s \"%.200s\"", things[shelf], name);
    }
    sqlite3_finalize(q);
    return status;
}

static PbStatus take_item(Store *s, sqlite3_stmt *q, StoreRows *rows, PbError *err)
{
    StoreItem *item = store_rows_next(rows);
    (void)s;
    (void)err;
    if (item == NULL) {
        return PB_ERR_MEMORY;
    }
    item->id = sqlite3_column_int64(q, 0);
    store_text(q, 1, item->name, sizeof item->name);
    store_text(q, 2, item->changed, sizeof item->changed);
    item->bytes = sqlite3_column_int64(q, 3);
    return PB_OK;
}

PbStatus store_item_list(Store *s, StoreShelf shelf, StoreItem **list, int *count, PbError *err)
{
    assert(s != NULL && list != NULL && count != NULL);
    static const char doing[] = "cannot list";
    sqlite3_stmt *q;
    StoreRows rows = {.size = sizeof(StoreItem)};
    char sql[140];
    snprintf(sql, sizeof sql,
             "SELECT id, name, changed, length(CAST(content AS BLOB)) FROM %s ORDER BY name",
             tables[shelf]);
    PB_TRY(store_prepare(s, &q, err, doing, sql, ""));
    PB_TRY(store_read_rows(s, q, &rows, take_item, err, doing));
    *list = rows.list;
    *count = rows.count;
    return PB_OK;
}

static PbStatus take_away(Store *s, StoreShelf shelf, const char *name, PbError *err)
{
    static const char doing[] = "cannot delete it";
    char sql[100];
    int64_t used = 0;
    if (shelf == STORE_RUBRICS) {
        PB_TRY(store_number(s, &used, err, doing, "SELECT count(*) FROM grades WHERE rubric = ?",
                            "t", name));
    }
    if (used > 0) {
        return store_fail(s, err, PB_ERR_RANGE, "%lld grades were given by this rubric; it stays",
                          (long long)used);
    }
    snprintf(sql, sizeof sql, "DELETE FROM %s WHERE name = ?", tables[shelf]);
    PB_TRY(store_run_sql(s, err, doing, sql, "t", name));
    if (sqlite3_changes(s->db) == 0) {
        return store_fail(s, err, PB_ERR_NO_RESULT, "there is no %s \"%.200s\"", things[shelf],
                          name);
    }
    return store_wipe_mark(s, err);
}

PbStatus store_item_delete(Store *s, StoreShelf shelf, const char *name, PbError *err)
{
    assert(s != NULL && name != NULL);
    static const char doing[] = "cannot delete it";
    enum { SHORT_MS = 200 }; /* a window waits for it */
    PB_TRY(store_begin(s, err, doing));
    PB_TRY(store_end(s, take_away(s, shelf, name, err), err, doing));
    store_wipe(s, SHORT_MS);
    return PB_OK;
}

PbStatus store_setting_put(Store *s, const char *key, const char *value, PbError *err)
{
    assert(s != NULL && key != NULL && value != NULL);
    static const char doing[] = "cannot remember the setting";
    if (!store_is_text(key, STORE_NAME_BYTES) || !store_is_prose(value, STORE_TEXT_BYTES)) {
        return store_fail(s, err, PB_ERR_RANGE, "a setting has a name and a text of UTF-8");
    }
    PB_TRY(store_begin(s, err, doing));
    return store_end(s,
                     store_run_sql(s, err, doing,
                                   "INSERT INTO settings VALUES (?, ?) ON CONFLICT (key) DO UPDATE"
                                   " SET value = excluded.value",
                                   "tt", key, value),
                     err, doing);
}

PbStatus store_setting_get(Store *s, const char *key, char *value, size_t size, PbError *err)
{
    assert(s != NULL && key != NULL);
    assert(value != NULL && size > 0);
    static const char doing[] = "cannot read the setting";
    sqlite3_stmt *q;
    PB_TRY(store_prepare(s, &q, err, doing, "SELECT value FROM settings WHERE key = ?", "t", key));
    PbStatus status = store_row(s, q, err, doing);
    if (status == PB_OK) {
        store_text(q, 0, value, size);
    } else if (status == PB_ERR_NO_RESULT) {
        status = store_fail(s, err, status, "\"%.200s\" was never set", key);
    }
    sqlite3_finalize(q);
    return status;
}
