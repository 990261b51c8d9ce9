/*
 * What is left of something deleted, and when it is gone: bytes in the log while another program
 * still reads an older state, and files that the window wrote beside the database.
 */
#include "store_private.h"

#include "os/file.h"
#include "os/lock.h"
#include "os/process.h"

#include <assert.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const char doing[] = "cannot delete it";

PbStatus store_beside(const Store *s, const char *what, char *out, size_t size, PbError *err)
{
    assert(s != NULL && what != NULL);
    assert(out != NULL && size > 0);
    const char *slash = strrchr(s->path, '/'), *name = slash != NULL ? slash + 1 : s->path;
    int is_usual = strcmp(name, STORE_USUAL_NAME) == 0;
    int folder = (int)(name - s->path);
    int n = snprintf(out, size, "%.*s%s%s%s", folder, s->path, is_usual ? "" : name,
                     is_usual ? "" : "-", what);
    return n > 0 && (size_t)n < size ? PB_OK
                                     : store_fail(s, err, PB_ERR_IO, "the path is too long");
}

PbStatus store_report_path(const Store *s, int64_t run_id, char *out, size_t size, PbError *err)
{
    assert(s != NULL);
    assert(out != NULL && size > 0);
    char name[40];
    snprintf(name, sizeof name, "run-%lld.pdf", (long long)run_id);
    return store_beside(s, name, out, size, err);
}

static PbStatus take_file(const Store *s, const char *path, PbError *err)
{
    if (!os_remove(path)) {
        return store_fail(s, err, PB_ERR_IO, "%s: %.250s: %s; nothing was deleted", doing, path,
                          strerror(errno));
    }
    return PB_OK;
}

/* Reports of the runs that this query gives the ids of. */
PbStatus store_take_reports(Store *s, const char *sql, int64_t id, PbError *err)
{
    sqlite3_stmt *q;
    char path[800];
    PB_TRY(store_prepare(s, &q, err, doing, sql, "i", id));
    PbStatus status;
    while ((status = store_row(s, q, err, doing)) == PB_OK) {
        status = store_report_path(s, sqlite3_column_int64(q, 0), path, sizeof path, err);
        if (status == PB_OK) {
            status = take_file(s, path, err);
        }
        if (status != PB_OK) {
            break;
        }
    }
    sqlite3_finalize(q);
    return status == PB_ERR_NO_RESULT ? PB_OK : status;
}

/* Recordings of this learner that no store has yet: runs/LEARNER-TIME-NUMBER-PROCESS.run. */
static PbStatus take_recordings(const Store *s, int64_t learner, OsFolder *names,
                                const char *folder, int is_for_good, PbError *err)
{
    const char *name;
    char path[1100], first[24], own[32];
    snprintf(first, sizeof first, "%lld-", (long long)learner);
    snprintf(own, sizeof own, "-%ld.run", os_process());
    os_folder_again(names);
    while ((name = os_folder_next(names)) != NULL) {
        if (strncmp(name, first, strlen(first)) != 0 ||
            snprintf(path, sizeof path, "%s/%s", folder, name) >= (int)sizeof path) {
            continue;
        }
        if (is_for_good) {
            PB_TRY(take_file(s, path, err));
        } else if (strstr(name, own) != NULL || os_is_held(path)) {
            return store_fail(s, err, PB_ERR_STATE,
                              "%s: a run of this learner is being recorded; end it first", doing);
        }
    }
    return PB_OK;
}

PbStatus store_take_recordings(const Store *s, int64_t learner, PbError *err)
{
    char folder[800];
    PB_TRY(store_beside(s, "runs", folder, sizeof folder, err));
    OsFolder *names = os_folder_open(folder);
    if (names == NULL) {
        return PB_OK; /* no window has recorded anything here */
    }
    PbStatus status = take_recordings(s, learner, names, folder, 0, err);
    if (status == PB_OK) {
        status = take_recordings(s, learner, names, folder, 1, err);
    }
    os_folder_close(names);
    return status;
}

PbStatus store_wipe_mark(Store *s, PbError *err)
{
    s->is_wipe_due = 1;
    return store_run_sql(s, err, doing,
                         "INSERT INTO settings VALUES ('wipe', '1') ON CONFLICT (key) DO NOTHING",
                         "");
}

void store_wipe(Store *s, int wait_ms)
{
    PbError unused;
    if (s->is_batch || !s->is_wipe_due) {
        return;
    }
    /* the log folded into the file, where what was deleted is zeros, and cut to nothing */
    sqlite3_busy_timeout(s->db, wait_ms);
    s->remains =
        sqlite3_wal_checkpoint_v2(s->db, NULL, SQLITE_CHECKPOINT_TRUNCATE, NULL, NULL) != SQLITE_OK;
    sqlite3_busy_timeout(s->db, STORE_WAIT_MS);
    if (!s->remains) {
        /* a mark that stays costs the next opening a look, no more */
        s->is_wipe_due = store_run_sql(s, &unused, doing, "DELETE FROM settings WHERE key = 'wipe'",
                                       "") != PB_OK;
    }
}

void store_wipe_on_opening(Store *s)
{
    enum { SHORT_MS = 200 }; /* nobody waits for this */
    PbError unused;
    int64_t found;
    s->is_wipe_due = store_number(s, &found, &unused, doing,
                                  "SELECT 1 FROM settings WHERE key = 'wipe'", "") == PB_OK;
    store_wipe(s, SHORT_MS);
}

int store_remains(const Store *s)
{
    assert(s != NULL);
    return s->remains;
}
