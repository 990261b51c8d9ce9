/* What every reader of ours owes to any bytes: a struct that passes its own check, or one clear
 * line at a place that exists. Used by the fuzz targets. */
#ifndef FUZZ_READER_H
#define FUZZ_READER_H

#include "io/doc.h"

#include <fcntl.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>

/* The bytes with a NUL behind, as the readers want them; caller frees. */
static inline char *fuzz_text(const uint8_t *data, size_t size)
{
    char *text = malloc(size + 1);
    if (text != NULL) {
        if (size > 0) {
            memcpy(text, data, size);
        }
        text[size] = '\0';
    }
    return text;
}

/* For readers that take a path: the bytes as a file in memory. The path holds good until the next
 * call, and nothing is left behind when the program is killed. */
static inline const char *fuzz_file(const uint8_t *data, size_t size)
{
    static char path[64];
    static int fd = -1;
    if (fd < 0) {
        char name[64];
        snprintf(name, sizeof name, "/fuzz-%ld", (long)getpid());
        fd = shm_open(name, O_RDWR | O_CREAT | O_EXCL, 0600);
        if (fd < 0) {
            exit(70);
        }
        shm_unlink(name);
        snprintf(path, sizeof path, "/proc/self/fd/%d", fd);
    }
    if (ftruncate(fd, 0) != 0 || (size > 0 && pwrite(fd, data, size, 0) != (ssize_t)size)) {
        exit(70);
    }
    return path;
}

/* One line that says something. */
static inline void fuzz_check_line(const PbError *err)
{
    char line[1024];
    io_error_line(err, line, sizeof line);
    if (err->message[0] == '\0' || strchr(line, '\n') != NULL) {
        abort();
    }
}

static inline void fuzz_check_complaint(const PbError *err, const char *text, size_t size)
{
    int lines = 1;
    for (size_t i = 0; i < size; i++) {
        lines += text[i] == '\n';
    }
    fuzz_check_line(err);
    if (err->line == 0 && size > IO_MAX_BYTES) {
        return; /* too large to be looked into: it has no place */
    }
    if (err->line < 1 || err->line > lines + 1 || err->column < 1) {
        abort();
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* One input: its text with a NUL behind, and its bytes for readers that take a path. */
typedef struct FuzzInput {
    const uint8_t *data;
    size_t size;
    char *text;
} FuzzInput;

/* What most targets are: `take` reads the input and gives PB_OK when it was taken and has passed
 * the core's check (a target aborts when it has not); whatever else it gives needs a complaint at a
 * place of the text. */
static inline int fuzz_reader(const uint8_t *data, size_t size,
                              PbStatus (*take)(const FuzzInput *in, PbError *err))
{
    FuzzInput in = {data, size, fuzz_text(data, size)};
    PbError err;
    memset(&err, 0, sizeof err);
    if (in.text != NULL && take(&in, &err) != PB_OK) {
        fuzz_check_complaint(&err, in.text, size);
    }
    free(in.text);
    return 0;
}

#endif
