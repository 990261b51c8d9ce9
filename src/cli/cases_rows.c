/* The file of rows. Each row is one write of one line, so a kill tears the last line at most; that
 * line is cut off when the file is opened again, and its case runs again. */
#include "cases.h"

#include "io/doc.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

static PbStatus trouble(const CasesRows *rows, const char *what, PbError *err)
{
    return pb_fail(err, PB_ERR_IO, "cannot %s \"%s\": %s", what, rows->path, strerror(errno));
}

static void mark(CasesRows *rows, long number)
{
    rows->done[(number - 1) / 8] |= (unsigned char)(1u << ((number - 1) % 8));
    rows->done_count++;
}

int cases_rows_has(const CasesRows *rows, long number)
{
    return rows->done[(number - 1) / 8] >> ((number - 1) % 8) & 1;
}

static PbStatus put_line(CasesRows *rows, const char *line, size_t size, PbError *err)
{
    off_t before = lseek(rows->fd, 0, SEEK_END);
    ssize_t n = write(rows->fd, line, size);
    if (n != (ssize_t)size) {
        int why = n < 0 ? errno : ENOSPC;
        if (n > 0 && ftruncate(rows->fd, before) != 0) {
            why = errno; /* the torn line goes when the file is opened again */
        }
        errno = why;
        return trouble(rows, "write", err);
    }
    return PB_OK;
}

PbStatus cases_rows_put(CasesRows *rows, const json_t *row, PbError *err)
{
    char *text = row != NULL ? json_dumps(row, JSON_COMPACT | JSON_REAL_PRECISION(15)) : NULL;
    size_t size = text != NULL ? strlen(text) : 0;
    PbStatus status = PB_OK;
    if (text == NULL || io_json_short()) { /* no row is better than one with a piece missing */
        status = pb_fail(err, PB_ERR_MEMORY, "out of memory");
    } else {
        text[size] = '\n'; /* in place of the closing zero: written by its length */
        status = put_line(rows, text, size + 1, err);
    }
    free(text);
    return status;
}

static json_t *head_of(const CasesTable *t, int shard, int shards)
{
    char hash[20];
    snprintf(hash, sizeof hash, "%016llx", (unsigned long long)t->hash);
    return json_pack("{s:s, s:s, s:s, s:I, s:i, s:i}", "format", CASES_ROWS_FORMAT, "verb",
                     t->verb->name, "table", hash, "cases", (json_int_t)t->cases, "shard", shard,
                     "shards", shards);
}

/* 1 when these bytes are how the line of `json` begins. */
static int is_start_of(const json_t *json, const char *bytes, size_t count)
{
    char *whole = json_dumps(json, JSON_COMPACT);
    int is_so = whole != NULL && strncmp(whole, bytes, count) == 0;
    free(whole);
    return is_so;
}

/* What stands in the file already. *end: behind the last whole line. */
static PbStatus read_kept(CasesRows *rows, const json_t *head, off_t *end, PbError *err)
{
    FILE *f = fdopen(dup(rows->fd), "r");
    char *line = NULL;
    size_t size = 0;
    ssize_t n;
    int number = 0;
    PbStatus status = PB_OK;
    *end = 0;
    if (f == NULL) {
        return trouble(rows, "read", err);
    }
    rewind(f);
    while (status == PB_OK && (n = getline(&line, &size, f)) > 0 && line[n - 1] == '\n') {
        json_t *row = json_loadb(line, (size_t)n, 0, NULL);
        json_int_t at = json_integer_value(json_object_get(row, "case"));
        number++;
        if (number == 1 && !json_equal(row, head)) {
            status = cases_refuse(err, rows->path, number, 1,
                                  "these rows are of another table, verb or shard: name a new "
                                  "file");
        } else if (number > 1 && (at < 1 || at > rows->cases || cases_rows_has(rows, (long)at))) {
            status = cases_refuse(err, rows->path, number, 1,
                                  "expected the row of a case that is not there yet");
        } else if (number > 1) {
            mark(rows, (long)at);
            rows->failed_count += json_integer_value(json_object_get(row, "exit")) > 1;
        }
        json_decref(row);
        *end += n;
    }
    /* Only what a kill left of our own first line is cut off: another file without a line end, of
     * whatever kind, is somebody's. */
    if (status == PB_OK && number == 0 && n > 0 && !is_start_of(head, line, (size_t)n)) {
        status = cases_refuse(err, rows->path, 1, 1, "no file of rows, name a new one");
    }
    free(line);
    fclose(f);
    return status;
}

static PbStatus start(CasesRows *rows, const json_t *head, PbError *err)
{
    struct stat st;
    if (fstat(rows->fd, &st) != 0 || !S_ISREG(st.st_mode)) {
        return pb_fail(err, PB_ERR_IO,
                       "\"%s\" is no plain file, and rows must be read again after a kill",
                       rows->path);
    }
    off_t end = 0, size_read = lseek(rows->fd, 0, SEEK_END);
    struct flock lock = {.l_type = F_WRLCK, .l_whence = SEEK_SET};
    PB_TRY(read_kept(rows, head, &end, err));
    /* taken after reading: closing any descriptor of the file gives such a lock back */
    if (fcntl(rows->fd, F_SETLK, &lock) != 0 || lseek(rows->fd, 0, SEEK_END) != size_read) {
        return pb_fail(err, PB_ERR_IO, "\"%s\" is being written by another process", rows->path);
    }
    if (ftruncate(rows->fd, end) != 0 || lseek(rows->fd, 0, SEEK_END) < 0) {
        return trouble(rows, "write", err);
    }
    if (end > 0) {
        return PB_OK;
    }
    return cases_rows_put(rows, head, err);
}

PbStatus cases_rows_open(const char *path, const CasesTable *t, int shard, int shards,
                         CasesRows *rows, PbError *err)
{
    memset(rows, 0, sizeof *rows);
    rows->cases = t->cases;
    rows->fd = -1;
    snprintf(rows->path, sizeof rows->path, "%s", path);
    rows->done = calloc((size_t)t->cases / 8 + 1, 1);
    json_t *head = head_of(t, shard, shards);
    if (rows->done == NULL || head == NULL) {
        json_decref(head);
        free(rows->done);
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    rows->fd = open(path, O_RDWR | O_CREAT | O_APPEND | O_CLOEXEC, 0666);
    PbStatus status = rows->fd < 0 ? trouble(rows, "open", err) : start(rows, head, err);
    json_decref(head);
    if (status != PB_OK) {
        cases_rows_close(rows);
    }
    return status;
}

PbStatus cases_rows_sync(CasesRows *rows, PbError *err)
{
    if (fsync(rows->fd) != 0 && errno != EINVAL && errno != EROFS) {
        return trouble(rows, "write", err);
    }
    return PB_OK;
}

void cases_rows_close(CasesRows *rows)
{
    if (rows->fd >= 0) {
        close(rows->fd);
    }
    free(rows->done);
    memset(rows, 0, sizeof *rows);
    rows->fd = -1;
}
