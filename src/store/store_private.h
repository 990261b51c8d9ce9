/* Inside the store only: the handle, how SQL is run, how SQLite's answers become a PbError. */
#ifndef STORE_PRIVATE_H
#define STORE_PRIVATE_H

#include "store/store.h"

#include <sqlite3.h>

struct Store {
    sqlite3 *db;
    int is_batch;
    int fd, is_holder, is_locked; /* hold.c */
    int is_wipe_due, remains;     /* wipe.c */
    int wipe_wait_ms;             /* for readers of what was deleted */
    char path[512];
};

/* "PBst", in the header of the file: tells a store from other SQLite files. */
enum { STORE_APPLICATION_ID = 0x50427374 };

/* store.c: open the file at s->path, judge it, bring it up to date. */
PB_NODISCARD PbStatus store_connect(Store *s, PbError *err);

/* hold.c: one store a process, and locks that nothing else in the process can drop. In this order.
 */
PB_NODISCARD PbStatus store_hold_take(Store *s, PbError *err);
/* The file is there afterwards, and is empty or begins as SQLite files do. SQLite itself would take
 * a short text file for an empty database. */
PB_NODISCARD PbStatus store_hold_look(Store *s, PbError *err);
/* Names and grades are nobody else's: a copy or an unpacked archive may be open to everyone. What a
 * group may do stays, since somebody gave it that on purpose. */
void store_hold_close_to_others(const Store *s);
void store_hold_lock(Store *s);   /* once SQLite has the file open and in WAL mode */
void store_hold_unlock(Store *s); /* before SQLite closes it */
void store_hold_give(Store *s);   /* after that */

/* Fail with the store's path in the error. */
PbStatus store_fail(const Store *s, PbError *err, PbStatus status, const char *format, ...)
    PB_PRINTF(4, 5);
/* What SQLite's last answer means to a person. doing: "cannot keep the run". */
PbStatus store_trouble(const Store *s, PbError *err, const char *doing);

/* One statement. `bind` letters: i int64_t, d double, t const char *, b const void * and size_t. */
PB_NODISCARD PbStatus store_prepare(Store *s, sqlite3_stmt **stmt, PbError *err, const char *doing,
                                    const char *sql, const char *bind, ...);
/* The same, run to its end; no rows wanted. */
PB_NODISCARD PbStatus store_run_sql(Store *s, PbError *err, const char *doing, const char *sql,
                                    const char *bind, ...);
/* Next row: PB_OK with one, PB_ERR_NO_RESULT at the end. The caller finalizes. */
PB_NODISCARD PbStatus store_row(Store *s, sqlite3_stmt *stmt, PbError *err, const char *doing);
/* First column of the first row as a number. PB_ERR_NO_RESULT when there is no row. */
PB_NODISCARD PbStatus store_number(Store *s, int64_t *out, PbError *err, const char *doing,
                                   const char *sql, const char *bind, ...);

/* Every change stands between these two; end commits when status is PB_OK and undoes otherwise. */
PB_NODISCARD PbStatus store_begin(Store *s, PbError *err, const char *doing);
PB_NODISCARD PbStatus store_end(Store *s, PbStatus status, PbError *err, const char *doing);

/* Copy a text column; cut at size-1, never inside a letter. */
void store_text(sqlite3_stmt *stmt, int column, char *out, size_t size);
/* A list that is being read, one row of a query after the other. */
typedef struct StoreRows {
    void *list;
    int count;
    size_t size; /* of an item */
    void *with;  /* the reader's own */
} StoreRows;
/* Grow the list by one; the new item is zeroed. NULL when memory ran out. */
void *store_rows_next(StoreRows *rows);
/* Read all rows of a query. `take` puts one row into the list and returns PB_OK, PB_ERR_MEMORY
 * (the sentence is made here) or its own failure. The query is finalized and the list given back on
 * failure; on PB_OK it is the caller's. */
PB_NODISCARD PbStatus store_read_rows(Store *s, sqlite3_stmt *query, StoreRows *rows,
                                      PbStatus (*take)(Store *, sqlite3_stmt *, StoreRows *,
                                                       PbError *),
                                      PbError *err, const char *doing);

/* Nonzero when the text has 1..most bytes of UTF-8 without control characters. */
int store_is_text(const char *text, size_t most);
/* What is wrong with the name of a person, rubric or house, as a sentence; NULL = nothing. */
const char *store_name_fault(const char *name);
/* As store_is_text; line ends and tabs allowed, and the text may be empty. */
int store_is_prose(const char *text, size_t most);
/* Nonzero for "2026-03-04T09:30:00Z". */
int store_is_time(const char *text);

/* Bring the file up to `target` (store_version() in use; lower ones in tests). */
PB_NODISCARD PbStatus store_migrate(Store *s, int target, PbError *err);
/* SQL of step n, 1..store_version(). */
const char *store_migration_sql(int n);

/* wipe.c: files beside the database, before the transaction that deletes ends: they can be made
 * again, and none may stay because the program was killed in between. */
PB_NODISCARD PbStatus store_take_reports(Store *s, const char *ids_sql, int64_t id, PbError *err);
/* Refused while one of them is being recorded. */
PB_NODISCARD PbStatus store_take_recordings(const Store *s, int64_t learner, PbError *err);
/* In the transaction that deletes: the mark that makes the next opening wipe, if need be. */
PB_NODISCARD PbStatus store_wipe_mark(Store *s, PbError *err);
/* After it: overwrite the bytes, unless another program reads an older state for wait_ms. */
void store_wipe(Store *s, int wait_ms);
void store_wipe_on_opening(Store *s);

/* schema.c: PB_ERR_FORMAT unless the file holds what the first `version` steps make, and no more.
 */
PB_NODISCARD PbStatus store_schema_check(Store *s, int version, PbError *err);

/* PB_ERR_NO_RESULT with a sentence when the row is not there. what: "learner", "run". */
PB_NODISCARD PbStatus store_expect(Store *s, const char *what, int64_t id, PbError *err);

#endif
