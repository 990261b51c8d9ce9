/* What an output may replace: the rule of output_file.h. Read-only: it looks at names and at first
 * bytes, and nothing is made. */
#include "output_rule.h"

#include "os/file.h"

#include <assert.h>
#include <stdatomic.h>
#include <stdio.h>
#include <string.h>
#include <strings.h>

enum { PATH_BYTES = 1024, PROTECTED = 4 };

static const char *const log_endings[] = {"-wal", "-shm", "-journal"};
enum { LOG_ENDINGS = sizeof log_endings / sizeof log_endings[0] };

static char protected_path[PROTECTED][PATH_BYTES];
static atomic_int protected_count;

void io_output_protect(const char *path)
{
    int n = atomic_load(&protected_count);
    for (int i = 0; i < n; i++) {
        if (strcmp(protected_path[i], path) == 0) {
            return;
        }
    }
    if (n < PROTECTED && strlen(path) < PATH_BYTES) {
        strcpy(protected_path[n], path);
        atomic_store(&protected_count, n + 1);
    }
}

/* A file on the disk, or a name in a folder for one that is not there. */
typedef struct Identity {
    OsLook file, folder;
    const char *name; /* inside the path */
} Identity;

static Identity identify(const char *path)
{
    Identity id = {0};
    char folder[PATH_BYTES] = ".";
    const char *slash = strrchr(path, '/');
    size_t length = slash != NULL ? (size_t)(slash - path) + 1 : 0;
    id.name = slash != NULL ? slash + 1 : path;
    id.file = os_look(path);
    if (length > 0 && length < sizeof folder) {
        memcpy(folder, path, length);
        folder[length] = '\0';
    }
    if (length < sizeof folder) {
        id.folder = os_look(folder);
    }
    return id;
}

/* Of a device or a pipe nothing is lost when it is named twice. */
static int is_same(const char *a, const char *b)
{
    Identity one = identify(a), other = identify(b);
    if (one.file.kind != OS_NOTHING || other.file.kind != OS_NOTHING) {
        return one.file.kind == OS_FILE && other.file.kind != OS_NOTHING &&
               os_is_one(&one.file, &other.file);
    }
    if (one.folder.kind == OS_NOTHING || other.folder.kind == OS_NOTHING) {
        return strcmp(a, b) == 0;
    }
    return os_is_one(&one.folder, &other.folder) && strcasecmp(one.name, other.name) == 0;
}

static int is_protected(const char *path)
{
    int n = atomic_load(&protected_count);
    for (int i = 0; i < n; i++) {
        if (is_same(path, protected_path[i])) {
            return 1;
        }
        for (int k = 0; k < LOG_ENDINGS; k++) {
            char log[PATH_BYTES + 16];
            snprintf(log, sizeof log, "%.1023s%s", protected_path[i], log_endings[k]);
            if (is_same(path, log)) {
                return 1;
            }
        }
    }
    return 0;
}

/* "x.db-wal" beside "x.db": a database would take it for its log. */
static int is_log_name(const char *path)
{
    size_t length = strlen(path);
    for (int k = 0; k < LOG_ENDINGS; k++) {
        size_t tail = strlen(log_endings[k]);
        char stem[PATH_BYTES];
        if (length > tail && length < sizeof stem &&
            strcmp(path + length - tail, log_endings[k]) == 0) {
            memcpy(stem, path, length - tail);
            stem[length - tail] = '\0';
            if (os_look(stem).kind == OS_FILE) {
                return 1;
            }
        }
    }
    return 0;
}

/* Only once it is known not to be a protected file: this opens it. */
static int is_of_kind(const char *path, const char *begins)
{
    char first[64];
    OsLook look = os_look(path);
    if (look.kind != OS_FILE || look.bytes == 0) {
        return 1;
    }
    if (begins == NULL || begins[0] == '\0') {
        return begins != NULL;
    }
    /* not by a stream: its buffer may find no memory, which says nothing about the file */
    int n = os_read_first(path, first, sizeof first);
    size_t length = strlen(begins);
    return n >= 0 && length <= (size_t)n && memcmp(first, begins, length) == 0;
}

static PbStatus refuse(const char *path, PbError *err, const char *why)
{
    if (err != NULL) {
        memset(err, 0, sizeof *err);
        snprintf(err->file, sizeof err->file, "%.255s", path);
    }
    return pb_fail(err, PB_ERR_RANGE, "%s", why);
}

PbStatus output_rule(const char *path, const char *begins, PbError *err)
{
    if (strcmp(path, "-") == 0) {
        return refuse(path, err, "expected the name of a file; ./- is one of that name");
    }
    if (is_protected(path) || is_log_name(path)) {
        return refuse(path, err, "the database of runs is never replaced, nor is its log");
    }
    if (!is_of_kind(path, begins)) {
        return refuse(path, err,
                      begins == NULL
                          ? "there is a file of that name, and it is never written over"
                          : "there is a file of another kind, and an output never replaces it");
    }
    return PB_OK;
}

static PbStatus named_twice(const char *path, PbError *err)
{
    if (err != NULL) {
        memset(err, 0, sizeof *err);
    }
    return pb_fail(err, PB_ERR_RANGE, "\"%.200s\" is named twice, an output would replace it",
                   path);
}

PbStatus io_outputs_check(const IoPlace *outputs, int output_count, const char *const *inputs,
                          int input_count, PbError *err)
{
    assert(output_count == 0 || outputs != NULL);
    assert(input_count == 0 || inputs != NULL);
    for (int i = 0; i < output_count; i++) {
        const char *path = outputs[i].path;
        if (path == NULL) {
            continue;
        }
        int is_stream = outputs[i].takes_stdout && strcmp(path, "-") == 0;
        for (int k = 0; k < input_count && !is_stream; k++) {
            if (inputs[k] != NULL && is_same(path, inputs[k])) {
                return named_twice(path, err);
            }
        }
        for (int k = 0; k < i; k++) {
            if (outputs[k].path != NULL && is_same(path, outputs[k].path)) {
                return named_twice(path, err);
            }
        }
        if (!is_stream) {
            PB_TRY(output_rule(path, outputs[i].begins, err));
        }
    }
    return PB_OK;
}
