/* Run files as files: read whole, written new, marks and grades added at the end; and the record
 * itself changed in memory. */
#include "run_chunks.h"

#include "io/doc.h"

#include "os/file.h"

#include <assert.h>
#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static PbStatus trouble(const char *path, PbError *err, const char *what)
{
    int code = errno;
    if (err != NULL) {
        memset(err, 0, sizeof *err);
        snprintf(err->file, sizeof err->file, "%.255s", path);
    }
    return pb_fail(err, PB_ERR_IO, "%s: %s", what,
                   code == EEXIST ? "there is a file of that name, and a run is never written over"
                                  : strerror(code));
}

PbStatus io_run_read(const char *path, PbRunFile *run, PbError *err)
{
    assert(path != NULL && run != NULL);
    char *bytes;
    size_t size;
    PB_TRY(io_read_file(path, IO_RUN_MAX_BYTES, &bytes, &size, err));
    PbStatus status = io_run_decode(path, (const unsigned char *)bytes, size, run, err);
    free(bytes);
    return status;
}

PbStatus run_write_new(const char *path, const unsigned char *data, size_t size, PbError *err)
{
    int fd = os_open_new(path, OS_READ_BY_ALL);
    if (fd < 0) {
        return trouble(path, err, "cannot write");
    }
    int is_well = os_write_all(fd, data, size) && os_sync(fd);
    PbStatus status = is_well ? PB_OK : trouble(path, err, "cannot write");
    if (!os_close(fd) && status == PB_OK) {
        status = trouble(path, err, "cannot write");
    }
    if (status != PB_OK) {
        (void)os_remove(path);
    }
    return status;
}

/* The record's rules that the reader relies on. */
static const char *broken_rule(const PbRunFile *run)
{
    int last = 0;
    if (run->form != PB_RECORD_PLAIN && run->form != PB_RECORD_SEALED) {
        return "its form";
    }
    if (run->last_tick < 0 || run->last_tick > PB_RECORD_MAX_TICKS) {
        return "its length";
    }
    for (int i = 0; i < run->command_count; i++) {
        if (run->commands[i].tick < last || run->commands[i].tick >= run->last_tick) {
            return "the order of its commands";
        }
        last = run->commands[i].tick;
    }
    last = 0;
    for (int i = 0; i < run->hash_count; i++) {
        if (run->hashes[i].tick <= last || run->hashes[i].tick > run->last_tick) {
            return "the order of its hashes";
        }
        last = run->hashes[i].tick;
    }
    return NULL;
}

static void put_spans(Bytes *b, const PbRunFile *run)
{
    int command = 0, hash = 0;
    for (int from = 0; from < run->last_tick;) {
        int to = from + 25 < run->last_tick ? from + 25 : run->last_tick;
        TickSpan span = {from, to, run->commands + command, 0, run->hashes + hash, 0};
        while (command < run->command_count && run->commands[command].tick < to) {
            command++;
            span.command_count++;
        }
        while (hash < run->hash_count && run->hashes[hash].tick <= to) {
            hash++;
            span.hash_count++;
        }
        run_put_ticks(b, &span);
        from = to;
    }
}

static void put_notes(Bytes *b, const PbRunFile *run, int first_mark)
{
    for (int i = first_mark; i < run->mark_count; i++) {
        run_put_mark(b, &run->marks[i]);
    }
    if (run->is_ended && run->grade.is_given) {
        run_put_grade(b, &run->grade);
    }
}

PbStatus io_run_encode(const PbRunFile *run, unsigned char **bytes, size_t *size, PbError *err)
{
    assert(run != NULL && bytes != NULL && size != NULL);
    Bytes b = {0};
    const char *broken = broken_rule(run);
    if (broken != NULL) {
        return pb_fail(err, PB_ERR_RANGE, "the record is not whole: %s", broken);
    }
    PbStatus status = run_put_head(&b, run, err);
    if (status == PB_OK) {
        put_spans(&b, run);
        if (run->is_ended) {
            run_put_end(&b, run);
        }
        put_notes(&b, run, 0);
    }
    if (status == PB_OK && b.failed) {
        status = pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    if (status != PB_OK) {
        free(b.data);
        return status;
    }
    *bytes = b.data;
    *size = b.used;
    return PB_OK;
}

PbStatus io_run_write(const char *path, const PbRunFile *run, PbError *err)
{
    assert(path != NULL && run != NULL);
    unsigned char *bytes;
    size_t size;
    PB_TRY(io_run_encode(run, &bytes, &size, err));
    PbStatus status = run_write_new(path, bytes, size, err);
    free(bytes);
    return status;
}

PbStatus io_run_add_mark(PbRunFile *run, int tick, const char *text, PbError *err)
{
    assert(run != NULL && text != NULL);
    size_t length = strlen(text);
    if (tick < 0 || tick > run->last_tick) {
        return pb_fail(err, PB_ERR_RANGE, "a mark must lie in the run");
    }
    if (length == 0 || !run_text_is_clean(text, length, sizeof run->marks[0].text - 1)) {
        return pb_fail(err, PB_ERR_RANGE, "a mark: expected 1 to 255 bytes of plain text");
    }
    if (run->mark_count >= RUN_MAX_MARKS) {
        return pb_fail(err, PB_ERR_RANGE, "a run holds at most %d marks", RUN_MAX_MARKS);
    }
    PbRunMark *grown = realloc(run->marks, ((size_t)run->mark_count + 1) * sizeof *grown);
    if (grown == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    run->marks = grown;
    int at = run->mark_count++;
    for (; at > 0 && grown[at - 1].tick > tick; at--) {
        grown[at] = grown[at - 1];
    }
    memset(&grown[at], 0, sizeof grown[at]);
    grown[at].tick = tick;
    memcpy(grown[at].text, text, length + 1);
    return PB_OK;
}

void io_run_set_grade(PbRunFile *run, const PbScore *score, const PbRubric *rubric)
{
    assert(run != NULL && score != NULL && rubric != NULL);
    PbRunGrade *g = &run->grade;
    memset(g, 0, sizeof *g);
    g->is_given = 1;
    snprintf(g->rubric, sizeof g->rubric, "%s", rubric->name);
    g->rubric_hash = pb_rubric_hash(rubric);
    g->total = score->total;
    g->is_pass = score->is_pass;
    g->part_count = PB_SCORE_PARTS;
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        g->parts[i].kind = (int)score->parts[i].kind;
        g->parts[i].points = score->parts[i].points;
        g->parts[i].max = score->parts[i].max;
    }
}

PbStatus io_run_append(const char *path, const PbRunFile *run, int first_mark, PbError *err)
{
    assert(path != NULL && run != NULL);
    assert(first_mark >= 0 && first_mark <= run->mark_count);
    PbRunFile now;
    PB_TRY(io_run_read(path, &now, err));
    size_t cut = now.cut_bytes;
    io_run_free(&now);
    if (cut > 0) {
        return pb_fail(err, PB_ERR_STATE, "the file has a torn end; save the run anew");
    }
    Bytes b = {0};
    put_notes(&b, run, first_mark);
    if (b.failed) {
        free(b.data);
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    int fd = os_open_at_end(path);
    int64_t before = fd >= 0 ? os_end_of(fd) : -1;
    int is_well = before >= 0 && os_write_all(fd, b.data, b.used) && os_sync(fd);
    PbStatus status = is_well ? PB_OK : trouble(path, err, "cannot write");
    if (!is_well && before >= 0 && !os_cut(fd, (uint64_t)before)) {
        status = trouble(path, err, "cannot take back half a write"); /* readers cut it off */
    }
    if (fd >= 0) {
        os_close(fd);
    }
    free(b.data);
    return status;
}
