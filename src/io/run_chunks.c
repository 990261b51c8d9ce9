/* From a record to the bytes of a run file, chunk by chunk. The way back is run_file.c; every byte
 * is described in docs/formats/run-file.md. */
#include "run_chunks.h"

#include "io/doc.h"
#include "io/exercise_file.h"

#include "core/hash.h"
#include "core/utf8.h"

#include <jansson.h>
#include <stdlib.h>
#include <string.h>

void bytes_add(Bytes *b, const void *data, size_t count)
{
    if (b->failed || count == 0) {
        return;
    }
    if (b->used + count > b->room) {
        size_t room = b->room < 1024 ? 1024 : b->room;
        while (room < b->used + count) {
            room += room / 2;
        }
        unsigned char *grown = realloc(b->data, room);
        if (grown == NULL) {
            b->failed = 1;
            return;
        }
        b->data = grown;
        b->room = room;
    }
    memcpy(b->data + b->used, data, count);
    b->used += count;
}

static void add_little(Bytes *b, uint64_t v, int count)
{
    unsigned char raw[8];
    for (int i = 0; i < count; i++) {
        raw[i] = (unsigned char)(v >> (8 * i));
    }
    bytes_add(b, raw, (size_t)count);
}

void bytes_u8(Bytes *b, unsigned v)
{
    add_little(b, v, 1);
}

void bytes_u16(Bytes *b, unsigned v)
{
    add_little(b, v, 2);
}

void bytes_u32(Bytes *b, uint32_t v)
{
    add_little(b, v, 4);
}

void bytes_u64(Bytes *b, uint64_t v)
{
    add_little(b, v, 8);
}

void bytes_f64(Bytes *b, double v)
{
    uint64_t bits;
    memcpy(&bits, &v, sizeof bits);
    add_little(b, bits, 8);
}

void bytes_var(Bytes *b, uint32_t v)
{
    while (v >= 0x80u) {
        bytes_u8(b, (v & 0x7fu) | 0x80u);
        v >>= 7;
    }
    bytes_u8(b, v);
}

void bytes_text(Bytes *b, const char *text)
{
    size_t length = strlen(text);
    bytes_u16(b, (unsigned)length);
    bytes_add(b, text, length);
}

size_t chunk_begin(Bytes *b, const char type[4])
{
    size_t at = b->used;
    bytes_add(b, type, 4);
    bytes_u32(b, 0);
    return at;
}

void chunk_end(Bytes *b, size_t at)
{
    if (b->failed) {
        return;
    }
    size_t length = b->used - at - 8;
    for (int i = 0; i < 4; i++) {
        b->data[at + 4 + (size_t)i] = (unsigned char)(length >> (8 * i));
    }
    bytes_u64(b, pb_hash_bytes(PB_HASH_START, b->data + at, length + 8));
}

#define REAL(field)                                                                                \
    {                                                                                              \
        offsetof(PbResult, field), 0                                                               \
    }
#define WHOLE(field)                                                                               \
    {                                                                                              \
        offsetof(PbResult, field), 1                                                               \
    }

/* Append only: the place in this list is the place in the file. */
static const ResultRow result_rows[] = {
    REAL(mass_in_bay_kg),
    REAL(mass_fed_kg),
    REAL(mass_lost_kg),
    REAL(mass_balance_rel),
    REAL(fillable_volume_m3),
    REAL(mean_kg_m3),
    REAL(p5_patch_kg_m3),
    REAL(min_patch_kg_m3),
    REAL(share_at_target),
    REAL(share_below_48_kg_m3),
    REAL(share_below_56_kg_m3),
    REAL(void_area_m2),
    REAL(peak_panel_pa),
    REAL(peak_panel_over_strength),
    REAL(duration_s),
    REAL(bags),
    REAL(ledger.fed_kg),
    REAL(ledger.in_bay_kg),
    REAL(ledger.in_hose_kg),
    REAL(ledger.airborne_kg),
    REAL(ledger.lost_hole_kg),
    REAL(ledger.lost_openings_kg),
    REAL(ledger.lost_leaks_kg),
    REAL(ledger.lost_outside_kg),
    REAL(ledger.cleared_kg),
    REAL(ledger.fallen_kg),
    WHOLE(blow_out),
    WHOLE(plugs),
    WHOLE(stall_count),
    WHOLE(lift_count),
};

const ResultRow *run_result_rows(int *count)
{
    *count = (int)(sizeof result_rows / sizeof result_rows[0]);
    return result_rows;
}

int run_text_is_clean(const char *text, size_t length, size_t max)
{
    if (length > max) {
        return 0;
    }
    const unsigned char *p = (const unsigned char *)text;
    for (size_t i = 0; i < length;) {
        size_t n = pb_utf8_length(p + i, length - i);
        if (n == 0 || p[i] < 0x20 || p[i] == 0x7f) {
            return 0;
        }
        i += n;
    }
    return 1;
}

/* The constants that are not as shipped, by name. */
static void put_constants(Bytes *b, const PbConstants *constants)
{
    size_t count;
    const PbConstantInfo *table = pb_constants_table(&count);
    unsigned others = 0;
    for (int pass = 0; pass < 2; pass++) {
        for (size_t i = 0; i < count; i++) {
            double v = pb_constant_value(constants, &table[i]);
            if (v == table[i].value) {
                continue;
            }
            if (pass == 0) {
                others++;
            } else {
                bytes_text(b, table[i].name);
                bytes_f64(b, v);
            }
        }
        if (pass == 0) {
            bytes_u16(b, others);
        }
    }
}

PbStatus run_put_head(Bytes *b, const PbRunFile *run, PbError *err)
{
    (void)io_json_short();
    json_t *json = io_exercise_to_json(&run->exercise);
    char *text = json != NULL ? json_dumps(json, JSON_COMPACT | JSON_REAL_PRECISION(17)) : NULL;
    json_decref(json);
    if (text == NULL || io_json_short() || b->failed) {
        free(text);
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    bytes_add(b, RUN_MAGIC, RUN_MAGIC_BYTES);
    size_t at = chunk_begin(b, "HEAD");
    bytes_u16(b, (unsigned)run->form);
    bytes_u32(b, (uint32_t)run->physics_version);
    bytes_u64(b, run->constants_hash);
    bytes_u64(b, run->seed);
    bytes_u16(b, (unsigned)run->cells_across);
    bytes_u64(b, (uint64_t)run->started_unix_s);
    bytes_text(b, run->who);
    put_constants(b, &run->constants);
    bytes_u32(b, (uint32_t)strlen(text));
    bytes_add(b, text, strlen(text));
    chunk_end(b, at);
    free(text);
    return b->failed ? pb_fail(err, PB_ERR_MEMORY, "out of memory") : PB_OK;
}

void run_put_ticks(Bytes *b, const TickSpan *s)
{
    size_t at = chunk_begin(b, "TICK");
    int last = s->from;
    bytes_u32(b, (uint32_t)s->from);
    bytes_u32(b, (uint32_t)(s->to - s->from));
    bytes_var(b, (uint32_t)s->command_count);
    for (int i = 0; i < s->command_count; i++) {
        bytes_var(b, (uint32_t)(s->commands[i].tick - last));
        bytes_u8(b, (unsigned)s->commands[i].command.kind);
        bytes_f64(b, s->commands[i].command.value);
        last = s->commands[i].tick;
    }
    last = s->from;
    bytes_var(b, (uint32_t)s->hash_count);
    for (int i = 0; i < s->hash_count; i++) {
        bytes_var(b, (uint32_t)(s->hashes[i].tick - last));
        bytes_u64(b, s->hashes[i].hash);
        last = s->hashes[i].tick;
    }
    chunk_end(b, at);
}

void run_put_mark(Bytes *b, const PbRunMark *mark)
{
    size_t at = chunk_begin(b, "MARK");
    bytes_u32(b, (uint32_t)mark->tick);
    bytes_text(b, mark->text);
    chunk_end(b, at);
}

void run_put_end(Bytes *b, const PbRunFile *run)
{
    int count;
    const ResultRow *rows = run_result_rows(&count);
    size_t at = chunk_begin(b, "DONE");
    bytes_u32(b, (uint32_t)run->last_tick);
    bytes_u8(b, (unsigned)run->phase);
    bytes_u64(b, run->end_hash);
    bytes_u16(b, (unsigned)count);
    for (int i = 0; i < count; i++) {
        const char *field = (const char *)&run->result + rows[i].offset;
        double v;
        if (rows[i].is_int) {
            int whole;
            memcpy(&whole, field, sizeof whole);
            v = whole;
        } else {
            memcpy(&v, field, sizeof v);
        }
        bytes_f64(b, v);
    }
    if (run->form == PB_RECORD_SEALED) {
        bytes_u64(b, (uint64_t)run->ended_unix_s);
    }
    chunk_end(b, at);
}

void run_put_grade(Bytes *b, const PbRunGrade *grade)
{
    size_t at = chunk_begin(b, "GRAD");
    bytes_text(b, grade->rubric);
    bytes_u64(b, grade->rubric_hash);
    bytes_f64(b, grade->total);
    bytes_u8(b, grade->is_pass != 0);
    bytes_u8(b, (unsigned)grade->part_count);
    for (int i = 0; i < grade->part_count; i++) {
        bytes_u8(b, (unsigned)grade->parts[i].kind);
        bytes_f64(b, grade->parts[i].points);
        bytes_f64(b, grade->parts[i].max);
    }
    chunk_end(b, at);
}
