/*
 * Opening and closing, and reading all of the file to see whether it is whole. A file is judged
 * before anything is written to it. Next: hold.c (other programs), migrate.c (layouts), runs.c.
 */
#include "store_private.h"

#include "core/hash.h"
#include "runs_private.h"

#include "os/file.h"
#include "os/place.h"

#include <assert.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

PbStatus store_default_file(const char *name, char *out, size_t size, PbError *err)
{
    assert(name != NULL);
    assert(out != NULL && size > 0);
    char data[1024];
    if (!os_place(OS_DATA, data, sizeof data)) {
        return pb_fail(err, PB_ERR_IO, "neither XDG_DATA_HOME nor HOME says where to keep data");
    }
    int n = snprintf(out, size, "%s/pullback/%s", data, name);
    if (n < 0 || (size_t)n >= size) {
        return pb_fail(err, PB_ERR_IO, "the path of the data folder is too long");
    }
    return PB_OK;
}

PbStatus store_default_path(char *out, size_t size, PbError *err)
{
    assert(out != NULL && size > 0);
    return store_default_file(STORE_USUAL_NAME, out, size, err);
}

/* Make the folders above the file, each 0700 when it is missing. */
static PbStatus make_folders(const Store *s, PbError *err)
{
    char folder[sizeof s->path];
    memcpy(folder, s->path, sizeof folder);
    for (char *p = folder + 1; *p != '\0'; p++) {
        if (*p == '/') {
            *p = '\0';
            if (!os_make_folder(folder)) {
                return store_fail(s, err, PB_ERR_IO, "cannot make the folder %.200s: %s", folder,
                                  strerror(errno));
            }
            *p = '/';
        }
    }
    return PB_OK;
}

/* SQLite closes the last connection by folding the log into the file; not before we know it is
 * ours.
 */
static void guard(Store *s, int on)
{
    sqlite3_db_config(s->db, SQLITE_DBCONFIG_NO_CKPT_ON_CLOSE, on, (int *)NULL);
}

enum { WAL_PAUSE_MS = 20 };

/* The change to WAL asks for the whole file and does not wait by itself when another program opens
 * the same new store in the same moment: ask again for as long as any other call would wait. */
static PbStatus to_wal(Store *s, PbError *err, const char *doing)
{
    for (int waited_ms = 0; waited_ms < STORE_WAIT_MS; waited_ms += WAL_PAUSE_MS) {
        int code = sqlite3_exec(s->db, "PRAGMA journal_mode = WAL", NULL, NULL, NULL);
        if ((code & 0xFF) != SQLITE_BUSY) {
            break;
        }
        sqlite3_sleep(WAL_PAUSE_MS);
    }
    return store_run_sql(s, err, doing, "PRAGMA journal_mode = WAL", "");
}

PbStatus store_connect(Store *s, PbError *err)
{
    static const char doing[] = "cannot open";
    int flags = SQLITE_OPEN_READWRITE | SQLITE_OPEN_NOMUTEX | SQLITE_OPEN_EXRESCODE;
    char path[4096];
    if (!os_path_for_others(s->path, path, sizeof path)) {
        return store_fail(s, err, PB_ERR_IO, "the path of the database is too long");
    }
    if (sqlite3_open_v2(path, &s->db, flags, NULL) != SQLITE_OK) {
        return s->db != NULL ? store_trouble(s, err, doing)
                             : store_fail(s, err, PB_ERR_MEMORY, "out of memory");
    }
    guard(s, 1);
    sqlite3_busy_timeout(s->db, STORE_WAIT_MS);
    /* a damaged or hostile file must not make SQLite run its functions */
    sqlite3_db_config(s->db, SQLITE_DBCONFIG_DEFENSIVE, 1, (int *)NULL);
    sqlite3_db_config(s->db, SQLITE_DBCONFIG_TRUSTED_SCHEMA, 0, (int *)NULL);
    /* a store has neither, and one that got some is refused below */
    sqlite3_db_config(s->db, SQLITE_DBCONFIG_ENABLE_TRIGGER, 0, (int *)NULL);
    sqlite3_db_config(s->db, SQLITE_DBCONFIG_ENABLE_VIEW, 0, (int *)NULL);
    PB_TRY(store_run_sql(s, err, doing, "PRAGMA cell_size_check = ON", ""));
    PB_TRY(store_migrate(s, 0, err)); /* is it ours? */
    PB_TRY(to_wal(s, err, doing));
    /* FULL: what was answered with PB_OK survives a power cut, not only a killed process */
    PB_TRY(store_run_sql(s, err, doing, "PRAGMA synchronous = FULL", ""));
    /* 256 KiB of pages: lists are read through once, and the usual 2 MiB would fill up with runs
     * for as long as a window stays open */
    PB_TRY(store_run_sql(s, err, doing, "PRAGMA cache_size = -256", ""));
    PB_TRY(store_run_sql(s, err, doing, "PRAGMA foreign_keys = ON", ""));
    PB_TRY(store_run_sql(s, err, doing, "PRAGMA secure_delete = ON", ""));
    PB_TRY(store_migrate(s, store_version(), err));
    guard(s, 0);
    store_hold_close_to_others(s);
    store_hold_lock(s);
    store_wipe_on_opening(s);
    return PB_OK;
}

PbStatus store_open(const char *path, Store **store, PbError *err)
{
    assert(store != NULL);
    Store *s = calloc(1, sizeof *s);
    if (s == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    s->fd = -1;
    s->wipe_wait_ms = STORE_WAIT_MS;
    PbStatus status = PB_OK;
    if (path == NULL) {
        status = store_default_path(s->path, sizeof s->path, err);
        if (status == PB_OK) {
            status = make_folders(s, err);
        }
    } else if (strlen(path) >= sizeof s->path || path[0] == '\0') {
        status = pb_fail(err, PB_ERR_IO, "the path of the database is empty or too long");
    } else {
        memcpy(s->path, path, strlen(path) + 1);
    }
    if (status == PB_OK) {
        status = store_hold_take(s, err);
    }
    if (status == PB_OK) {
        status = store_hold_look(s, err);
    }
    if (status == PB_OK) {
        status = store_connect(s, err);
    }
    if (status != PB_OK) {
        store_close(s);
        return status;
    }
    *store = s;
    return PB_OK;
}

void store_close(Store *s)
{
    if (s != NULL) {
        store_hold_unlock(s); /* the last program alone may fold the log into the file */
        sqlite3_close(s->db);
        store_hold_give(s);
        free(s);
    }
}

const char *store_path(const Store *s)
{
    assert(s != NULL);
    return s->path;
}

static PbStatus check_structure(Store *s, PbError *err)
{
    static const char doing[] = "cannot check";
    sqlite3_stmt *stmt;
    char text[200];
    PB_TRY(store_prepare(s, &stmt, err, doing, "PRAGMA integrity_check(1)", ""));
    PbStatus status = store_row(s, stmt, err, doing);
    if (status == PB_OK) {
        store_text(stmt, 0, text, sizeof text);
        if (strcmp(text, "ok") != 0) {
            status = store_fail(s, err, PB_ERR_FORMAT, "the database is damaged: %s", text);
        }
    }
    sqlite3_finalize(stmt);
    PB_TRY(status);
    PB_TRY(store_prepare(s, &stmt, err, doing, "PRAGMA foreign_key_check", ""));
    status = store_row(s, stmt, err, doing);
    if (status == PB_OK) {
        store_text(stmt, 0, text, sizeof text);
        status = store_fail(s, err, PB_ERR_FORMAT,
                            "the database is damaged: a row of %s belongs to nothing", text);
    }
    sqlite3_finalize(stmt);
    return status == PB_ERR_NO_RESULT ? PB_OK : status;
}

/* What no list would take (store_is_points), and no grade was put in with. */
static PbStatus check_figures(Store *s, PbError *err)
{
    static const char sql[] =
        "SELECT id FROM runs WHERE NOT (total BETWEEN 0 AND 100 AND duration_s >= 0"
        " AND duration_s < 9e999 AND abs(step_mean_m) < 9e999 AND abs(step_spread_m) < 9e999"
        " AND abs(dwell_mean_s) < 9e999 AND abs(dwell_spread_s) < 9e999)"
        " UNION ALL SELECT run_id FROM grades WHERE NOT total BETWEEN 0 AND 100"
        " UNION ALL SELECT g.run_id FROM grade_parts p JOIN grades g ON g.id = p.grade_id"
        " WHERE NOT (p.most BETWEEN 0 AND 100 AND p.points BETWEEN 0 AND p.most)"
        " UNION ALL SELECT run_id FROM marks WHERE NOT points BETWEEN 0 AND 100";
    int64_t run_id = 0;
    PbStatus status = store_number(s, &run_id, err, "cannot check", sql, "");
    if (status == PB_OK) {
        return store_odd_figure(s, run_id, err);
    }
    return status == PB_ERR_NO_RESULT ? PB_OK : status;
}

PbStatus store_check(Store *s, PbError *err)
{
    assert(s != NULL);
    static const char doing[] = "cannot check";
    sqlite3_stmt *stmt;
    PbStatus status;
    PB_TRY(check_structure(s, err));
    PB_TRY(check_figures(s, err));
    PB_TRY(store_prepare(s, &stmt, err, doing,
                         "SELECT r.id, r.checksum, r.file_bytes, f.content FROM runs r"
                         " LEFT JOIN run_files f ON f.run_id = r.id",
                         ""));
    while ((status = store_row(s, stmt, err, doing)) == PB_OK) {
        const void *bytes = sqlite3_column_blob(stmt, 3);
        size_t size = (size_t)sqlite3_column_bytes(stmt, 3);
        uint64_t sum = bytes != NULL ? pb_hash_bytes(PB_HASH_START, bytes, size) : 0;
        if (bytes == NULL || (int64_t)size != sqlite3_column_int64(stmt, 2) ||
            (int64_t)sum != sqlite3_column_int64(stmt, 1)) {
            status = store_fail(s, err, PB_ERR_FORMAT,
                                "the file of run %lld is not the one that was put in",
                                (long long)sqlite3_column_int64(stmt, 0));
            break;
        }
    }
    sqlite3_finalize(stmt);
    return status == PB_ERR_NO_RESULT ? PB_OK : status;
}
