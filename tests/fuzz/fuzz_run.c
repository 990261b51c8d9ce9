/*
 * The run reader against any bytes. Checksums would keep nearly all damage out, so every input is
 * read twice: as it is, and with the lengths that fit and all checksums made right. What is taken
 * must keep the record's rules, come back the same after being written, and, for its first ticks,
 * run or be refused by the session.
 */
#include "core/hash.h"
#include "core/replay.h"
#include "io/run_file.h"
#include "reader.h"

#include <math.h>

static void check_rules(const PbRunFile *run)
{
    int last = 0;
    for (int i = 0; i < run->command_count; i++) {
        const PbTickCommand *c = &run->commands[i];
        if (c->tick < last || c->tick >= run->last_tick || !isfinite(c->command.value)) {
            abort();
        }
        last = c->tick;
    }
    for (int i = 1; i < run->hash_count; i++) {
        if (run->hashes[i].tick <= run->hashes[i - 1].tick) {
            abort();
        }
    }
    if (run->last_tick < 0 || run->last_tick > PB_RECORD_MAX_TICKS ||
        (run->cut_bytes > 0 && run->cut_reason[0] == '\0')) {
        abort();
    }
}

static void write_and_read(const PbRunFile *run)
{
    unsigned char *bytes, *again;
    size_t size, again_size;
    PbRunFile back;
    PbError err;
    if (io_run_encode(run, &bytes, &size, &err) != PB_OK ||
        io_run_decode("back", bytes, size, &back, &err) != PB_OK || back.cut_bytes != 0 ||
        io_run_encode(&back, &again, &again_size, &err) != PB_OK || size != again_size ||
        memcmp(bytes, again, size) != 0) {
        abort();
    }
    io_run_free(&back);
    free(bytes);
    free(again);
}

/* Every 16th accepted run is started: a session costs more than reading. */
static void step_a_little(const PbRunFile *run)
{
    static unsigned turn;
    PbReplay *replay;
    PbError err;
    if (turn++ % 16 == 0 && run->exercise.height_m < 3.0 &&
        pb_replay_create(run, pb_allocator_default(), &replay, &err) == PB_OK) {
        PbStatus status = pb_replay_seek(replay, 3);
        if (status == PB_OK && pb_replay_tick(replay) > 3) {
            abort();
        }
        pb_replay_destroy(replay);
    }
}

static void read_run(const uint8_t *data, size_t size)
{
    PbRunFile run;
    PbError err;
    memset(&err, 0, sizeof err);
    memset(&run, 0, sizeof run);
    if (io_run_decode("fuzz", data, size, &run, &err) != PB_OK) {
        fuzz_check_line(&err);
        if (run.commands != NULL) {
            abort();
        }
        return;
    }
    check_rules(&run);
    write_and_read(&run);
    step_a_little(&run);
    io_run_free(&run);
}

/* Make every checksum right, as far as the chunks can be followed. */
static void reseal(uint8_t *data, size_t size)
{
    size_t at = 8;
    while (size >= 16 && at <= size - 16) {
        size_t length = data[at + 4] | (size_t)data[at + 5] << 8 | (size_t)data[at + 6] << 16 |
                        (size_t)data[at + 7] << 24;
        if (length > size - at - 16) {
            return;
        }
        uint64_t sum = pb_hash_bytes(PB_HASH_START, data + at, length + 8);
        for (int i = 0; i < 8; i++) {
            data[at + 8 + length + (size_t)i] = (uint8_t)(sum >> (8 * i));
        }
        at += length + 16;
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    uint8_t *copy = malloc(size > 0 ? size : 1);
    if (copy == NULL) {
        return 0;
    }
    memcpy(copy, data, size);
    read_run(copy, size);
    reseal(copy, size);
    read_run(copy, size);
    free(copy);
    return 0;
}
