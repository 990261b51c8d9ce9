/*
 * Run files read: bytes to a record. Whatever stands in the bytes, the answer is a record that
 * keeps its own rules, or one line that says why there is none. Writing chunks: run_chunks.c; while
 * a run goes on: run_recorder.c.
 */
#include "run_chunks.h"

#include "io/constants_file.h"
#include "io/exercise_file.h"

#include "core/hash.h"

#include <assert.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* A part of the bytes. After reading past its end all calls give 0 and failed stays set. */
typedef struct Cursor {
    const unsigned char *at;
    size_t left;
    int failed;
} Cursor;

static const unsigned char *take(Cursor *c, size_t count)
{
    if (c->failed || count > c->left) {
        c->failed = 1;
        return NULL;
    }
    const unsigned char *p = c->at;
    c->at += count;
    c->left -= count;
    return p;
}

static uint64_t little(Cursor *c, int count)
{
    const unsigned char *p = take(c, (size_t)count);
    uint64_t v = 0;
    for (int i = 0; p != NULL && i < count; i++) {
        v |= (uint64_t)p[i] << (8 * i);
    }
    return v;
}

static double real(Cursor *c)
{
    uint64_t bits = little(c, 8);
    double v;
    memcpy(&v, &bits, sizeof v);
    return v;
}

/* At most 28 bits: no count or tick of a run is larger. */
static uint32_t variable(Cursor *c)
{
    uint32_t v = 0;
    for (int shift = 0; shift < 28; shift += 7) {
        unsigned byte = (unsigned)little(c, 1);
        v |= (uint32_t)(byte & 0x7fu) << shift;
        if (byte < 0x80u) {
            return v;
        }
    }
    c->failed = 1;
    return 0;
}

static void text(Cursor *c, char *out, size_t size)
{
    size_t length = (size_t)little(c, 2);
    const unsigned char *p = take(c, length);
    out[0] = '\0';
    if (p == NULL || !run_text_is_clean((const char *)p, length, size - 1)) {
        c->failed = 1;
        return;
    }
    memcpy(out, p, length);
    out[length] = '\0';
}

static PbStatus read_constants(Cursor *c, PbRunFile *run, PbError *err)
{
    unsigned count = (unsigned)little(c, 2);
    for (unsigned i = 0; i < count && !c->failed; i++) {
        char name[64];
        double low, high;
        text(c, name, sizeof name);
        double value = real(c);
        const PbConstantInfo *info = c->failed ? NULL : pb_constant_find(name);
        if (info == NULL) {
            return pb_fail(err, PB_ERR_FORMAT, "the head names a constant that there is not");
        }
        io_constants_range(info, &low, &high);
        if (!(value >= low && value <= high)) {
            return pb_fail(err, PB_ERR_RANGE, "constant \"%s\": expected %g to %g", name, low,
                           high);
        }
        *pb_constant_at(&run->constants, info) = value;
    }
    return PB_OK;
}

static PbStatus read_exercise(Cursor *c, const char *name, PbRunFile *run, PbError *err)
{
    size_t length = (size_t)little(c, 4);
    const unsigned char *p = length <= RUN_TEXT_MAX ? take(c, length) : NULL;
    if (p == NULL) {
        return pb_fail(err, PB_ERR_FORMAT, "the head is cut short or damaged");
    }
    char where[256];
    snprintf(where, sizeof where, "%.200s, its exercise", name);
    return io_exercise_parse(where, (const char *)p, length, &run->exercise, err);
}

static PbStatus read_head(Cursor *c, const char *name, PbRunFile *run, PbError *err)
{
    unsigned version = (unsigned)little(c, 2);
    if (!c->failed && version != PB_RECORD_PLAIN && version != PB_RECORD_SEALED) {
        return pb_fail(err, PB_ERR_FORMAT, "run format %u; this program reads formats %d and %d",
                       version, PB_RECORD_PLAIN, PB_RECORD_SEALED);
    }
    run->form = (PbRecordForm)version;
    uint32_t physics = (uint32_t)little(c, 4);
    run->physics_version = physics > 1000000u ? 0 : (int)physics;
    run->constants_hash = little(c, 8);
    run->seed = little(c, 8);
    run->cells_across = (int)little(c, 2);
    run->started_unix_s = (int64_t)little(c, 8);
    text(c, run->who, sizeof run->who);
    if (c->failed || run->physics_version == 0) {
        return pb_fail(err, PB_ERR_FORMAT, "the head is cut short or damaged");
    }
    if (run->cells_across < 8 || run->cells_across > 48) {
        return pb_fail(err, PB_ERR_RANGE, "cells across: expected 8 to 48");
    }
    PB_TRY(read_constants(c, run, err));
    PB_TRY(read_exercise(c, name, run, err));
    return c->left == 0 ? PB_OK : pb_fail(err, PB_ERR_FORMAT, "the head is longer than it says");
}

/* Chunks behind the head give NULL, or why the file is cut in front of them; but a file is never
 * cut, and so perhaps thrown away, because this machine is out of memory. */
static const char no_memory[] = "out of memory";

static const char *read_ticks(Cursor *c, PbRunFile *run)
{
    uint32_t from = (uint32_t)little(c, 4), ticks = (uint32_t)little(c, 4);
    if (run->is_ended || c->failed || from != (uint32_t)run->last_tick ||
        ticks > (uint32_t)(PB_RECORD_MAX_TICKS - run->last_tick)) {
        return "ticks that do not follow on";
    }
    uint32_t to = from + ticks, tick = from, commands = variable(c);
    if (c->failed || commands > c->left / 10) { /* each takes ten bytes at least */
        return "a list of commands longer than its chunk";
    }
    PbTickCommand *grown =
        realloc(run->commands, ((size_t)run->command_count + commands + 1) * sizeof *grown);
    if (grown == NULL) {
        return no_memory;
    }
    run->commands = grown;
    int count = run->command_count;
    for (uint32_t i = 0; i < commands; i++) {
        tick += variable(c);
        unsigned kind = (unsigned)little(c, 1);
        double value = real(c);
        if (c->failed || tick >= to || kind < PB_COMMAND_TUBE_TARGET || kind > PB_COMMAND_LAST ||
            !isfinite(value)) {
            return "a command that there is not";
        }
        run->commands[count++] = (PbTickCommand){(int)tick, {(PbCommandKind)kind, value}};
    }
    uint32_t hashes = variable(c);
    if (c->failed || hashes > c->left / 9) {
        return "a list of hashes longer than its chunk";
    }
    PbTickHash *more = realloc(run->hashes, ((size_t)run->hash_count + hashes + 1) * sizeof *more);
    if (more == NULL) {
        return no_memory;
    }
    run->hashes = more;
    int hash_count = run->hash_count;
    tick = from;
    for (uint32_t i = 0; i < hashes; i++) {
        uint32_t step = variable(c);
        tick += step;
        if (c->failed || step == 0 || tick > to) {
            return "a hash out of its place";
        }
        run->hashes[hash_count++] = (PbTickHash){(int)tick, little(c, 8)};
    }
    if (c->failed || c->left != 0) {
        return "ticks longer than they say";
    }
    run->command_count = count;
    run->hash_count = hash_count;
    run->last_tick = (int)to;
    return NULL;
}

static const char *read_mark(Cursor *c, PbRunFile *run)
{
    PbRunMark mark = {0};
    PbError ignored;
    uint32_t tick = (uint32_t)little(c, 4);
    text(c, mark.text, sizeof mark.text);
    if (c->failed || c->left != 0 || mark.text[0] == '\0' || tick > (uint32_t)run->last_tick) {
        return "a mark that cannot be read";
    }
    PbStatus status = io_run_add_mark(run, (int)tick, mark.text, &ignored);
    return status == PB_OK ? NULL : status == PB_ERR_MEMORY ? no_memory : "too many marks";
}

static const char *read_end(Cursor *c, PbRunFile *run)
{
    static const char bad[] = "an end that cannot be read";
    int count;
    const ResultRow *rows = run_result_rows(&count);
    PbResult result;
    memset(&result, 0, sizeof result);
    uint32_t tick = (uint32_t)little(c, 4);
    unsigned phase = (unsigned)little(c, 1);
    uint64_t hash = little(c, 8);
    if (run->is_ended || c->failed || tick != (uint32_t)run->last_tick || phase < PB_PHASE_DONE ||
        phase > PB_PHASE_BLOWN_OUT || little(c, 2) != (uint64_t)count) {
        return bad;
    }
    for (int i = 0; i < count; i++) {
        char *field = (char *)&result + rows[i].offset;
        double v = real(c);
        if (!isfinite(v) || (rows[i].is_int && (v < 0.0 || v > 1e6))) {
            return bad;
        }
        if (rows[i].is_int) {
            int whole = (int)v;
            memcpy(field, &whole, sizeof whole);
        } else {
            memcpy(field, &v, sizeof v);
        }
    }
    run->ended_unix_s = run->form == PB_RECORD_SEALED ? (int64_t)little(c, 8) : 0;
    if (c->failed || c->left != 0) {
        return bad;
    }
    result.phase = run->phase = (PbPhase)phase;
    result.state_hash = run->end_hash = hash;
    run->result = result;
    run->is_ended = 1;
    return NULL;
}

static const char *read_grade(Cursor *c, PbRunFile *run)
{
    static const char bad[] = "a grade that cannot be read";
    PbRunGrade g;
    memset(&g, 0, sizeof g);
    text(c, g.rubric, sizeof g.rubric);
    g.rubric_hash = little(c, 8);
    g.total = real(c);
    g.is_pass = (int)little(c, 1);
    g.part_count = (int)little(c, 1);
    if (!run->is_ended || c->failed || !(g.total >= 0.0 && g.total <= 100.0) || g.is_pass > 1 ||
        g.part_count > PB_SCORE_PARTS) {
        return bad;
    }
    for (int i = 0; i < g.part_count; i++) {
        unsigned kind = (unsigned)little(c, 1);
        g.parts[i].kind = (int)kind;
        g.parts[i].points = real(c);
        g.parts[i].max = real(c);
        if (c->failed || kind >= PB_SCORE_PARTS || !isfinite(g.parts[i].points) ||
            !isfinite(g.parts[i].max)) {
            return bad;
        }
    }
    if (c->failed || c->left != 0) {
        return bad;
    }
    g.is_given = 1;
    run->grade = g;
    return NULL;
}

static const char *read_chunk(const unsigned char *type, Cursor *c, PbRunFile *run)
{
    if (memcmp(type, "TICK", 4) == 0) {
        return read_ticks(c, run);
    }
    if (memcmp(type, "MARK", 4) == 0) {
        return read_mark(c, run);
    }
    if (memcmp(type, "DONE", 4) == 0) {
        return read_end(c, run);
    }
    if (memcmp(type, "GRAD", 4) == 0) {
        return read_grade(c, run);
    }
    /* a later program may add kinds; lower case says that a reader can do without */
    return type[0] >= 'a' && type[0] <= 'z' ? NULL : "a chunk that this program does not know";
}

/* The next whole chunk. NULL and its payload in `body`, or why there is none. */
static const char *next_chunk(Cursor *file, const unsigned char **type, Cursor *body)
{
    Cursor c = *file;
    const unsigned char *head = take(&c, 4);
    size_t length = (size_t)little(&c, 4);
    const unsigned char *payload = take(&c, length);
    uint64_t sum = little(&c, 8);
    if (c.failed) {
        return "a chunk that is cut short";
    }
    if (sum != pb_hash_bytes(PB_HASH_START, head, length + 8)) {
        return "a chunk whose checksum does not fit";
    }
    *type = head;
    *body = (Cursor){payload, length, 0};
    *file = c;
    return NULL;
}

static PbStatus decode(const char *name, Cursor file, PbRunFile *run, PbError *err)
{
    const unsigned char *type;
    Cursor body;
    const unsigned char *magic = take(&file, RUN_MAGIC_BYTES);
    if (magic == NULL || memcmp(magic, RUN_MAGIC, RUN_MAGIC_BYTES) != 0) {
        return pb_fail(err, PB_ERR_FORMAT, "this is not a run file");
    }
    const char *why = next_chunk(&file, &type, &body);
    if (why != NULL || memcmp(type, "HEAD", 4) != 0) {
        return pb_fail(err, PB_ERR_FORMAT, "the run has no head: %s",
                       why != NULL ? why : "another chunk stands in its place");
    }
    PB_TRY(read_head(&body, name, run, err));
    while (file.left > 0) {
        Cursor before = file;
        why = next_chunk(&file, &type, &body);
        if (why == NULL) {
            why = read_chunk(type, &body, run);
        }
        if (why == no_memory) {
            return pb_fail(err, PB_ERR_MEMORY, "%s", no_memory);
        }
        if (why != NULL) {
            run->cut_bytes = before.left;
            snprintf(run->cut_reason, sizeof run->cut_reason, "%s", why);
            break;
        }
    }
    return PB_OK;
}

PbStatus io_run_decode(const char *name, const unsigned char *bytes, size_t size, PbRunFile *run,
                       PbError *err)
{
    assert(name != NULL && run != NULL);
    assert(bytes != NULL || size == 0);
    PbRunFile r;
    memset(&r, 0, sizeof r);
    r.constants = pb_constants_default();
    if (err != NULL) {
        memset(err, 0, sizeof *err);
        snprintf(err->file, sizeof err->file, "%.255s", name);
    }
    if (size > IO_RUN_MAX_BYTES) {
        return pb_fail(err, PB_ERR_FORMAT, "larger than %u MiB", IO_RUN_MAX_BYTES >> 20);
    }
    PbStatus status = decode(name, (Cursor){bytes, size, 0}, &r, err);
    if (status != PB_OK) {
        io_run_free(&r);
        return status;
    }
    *run = r;
    return PB_OK;
}

void io_run_free(PbRunFile *run)
{
    assert(run != NULL);
    free(run->commands);
    free(run->hashes);
    free(run->marks);
    memset(run, 0, sizeof *run);
}
