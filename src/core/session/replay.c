/*
 * Recorded runs run again. The recording is the truth: the session here gets the same commands at
 * the same ticks, and every hash that was kept is compared with the state that comes of them.
 * What a record is: core/run_record.h. Its bytes: io/run_file.c.
 */
#include "core/replay.h"

#include "core/hash.h"

#include <string.h>

enum { MAX_KEYS = 64, FIRST_INTERVAL = 250 }; /* 10 s */

typedef struct KeyState {
    int tick;
    int command, hash; /* cursors */
    uint64_t chain;
    void *block;
} KeyState;

struct PbReplay {
    const PbRunFile *run;
    PbAllocator allocator;
    PbSession *session;
    int tick;
    int command, hash; /* the next ones of the recording */
    uint64_t chain;    /* over the commands before them */
    int seen_tick;     /* the furthest that was ever reached: hashes before it are compared */
    PbReplayCheck check;
    KeyState keys[MAX_KEYS];
    int key_count, interval;
};

/* Layers, fuels, the house around the bay, its leaks and the vapor in its walls: no run hangs on
 * them. */
static int is_of_the_house(const char *group)
{
    static const char *const groups[] = {"layer", "fuel", "house", "leakage", "vapor"};
    for (size_t i = 0; i < sizeof groups / sizeof groups[0]; i++) {
        if (strcmp(group, groups[i]) == 0) {
            return 1;
        }
    }
    return 0;
}

uint64_t pb_constants_hash(const PbConstants *constants)
{
    size_t count;
    const PbConstantInfo *table = pb_constants_table(&count);
    uint64_t h = PB_HASH_START;
    for (size_t i = 0; i < count; i++) {
        if (is_of_the_house(table[i].group)) {
            continue;
        }
        h = pb_hash_bytes(h, table[i].name, strlen(table[i].name) + 1);
        double value = pb_constant_value(constants, &table[i]);
        h = pb_hash_doubles(h, &value, 1);
    }
    return h;
}

uint64_t pb_record_chain(uint64_t chain, int tick, const PbCommand *command)
{
    chain = pb_hash_u64(chain, (uint64_t)tick);
    chain = pb_hash_u64(chain, (uint64_t)command->kind);
    return pb_hash_doubles(chain, &command->value, 1);
}

uint64_t pb_record_seal(uint64_t chain, uint64_t state_hash)
{
    return pb_hash_u64(pb_hash_u64(PB_HASH_START, state_hash), chain);
}

int pb_record_is_same_physics(const PbRunFile *run)
{
    return run->physics_version == PB_PHYSICS_VERSION &&
           run->constants_hash == pb_constants_hash(&run->constants);
}

PbStatus pb_replay_create(const PbRunFile *run, PbAllocator allocator, PbReplay **replay,
                          PbError *err)
{
    PbReplay *r = allocator.alloc(allocator.user, sizeof *r);
    if (r == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    memset(r, 0, sizeof *r);
    PbSessionConfig config = pb_session_default();
    config.exercise = run->exercise;
    config.constants = run->constants;
    config.seed = run->seed;
    config.cells_across = run->cells_across;
    config.allocator = allocator;
    PbStatus status = pb_session_create(&config, &r->session, err);
    if (status != PB_OK) {
        allocator.free(allocator.user, r);
        return status;
    }
    r->run = run;
    r->allocator = allocator;
    r->interval = FIRST_INTERVAL;
    r->check.parted_tick = -1;
    r->check.is_resimulated = !pb_record_is_same_physics(run);
    *replay = r;
    return PB_OK;
}

void pb_replay_destroy(PbReplay *replay)
{
    if (replay == NULL) {
        return;
    }
    PbAllocator a = replay->allocator;
    for (int i = 0; i < replay->key_count; i++) {
        a.free(a.user, replay->keys[i].block);
    }
    pb_session_destroy(replay->session);
    a.free(a.user, replay);
}

/* Every other key state goes, and from now on they stand twice as far apart. */
static void thin_out(PbReplay *r)
{
    int kept = 0;
    r->interval *= 2;
    for (int i = 0; i < r->key_count; i++) {
        if (r->keys[i].tick % r->interval == 0) {
            r->keys[kept++] = r->keys[i];
        } else {
            r->allocator.free(r->allocator.user, r->keys[i].block);
        }
    }
    r->key_count = kept;
}

static void keep_state(PbReplay *r)
{
    if (r->tick % r->interval != 0 ||
        (r->key_count > 0 && r->keys[r->key_count - 1].tick >= r->tick)) {
        return;
    }
    if (r->key_count == MAX_KEYS) {
        thin_out(r);
        if (r->tick % r->interval != 0) {
            return;
        }
    }
    void *block = r->allocator.alloc(r->allocator.user, pb_session_memory(r->session));
    if (block == NULL) {
        return; /* seeking back will start from an earlier one */
    }
    pb_session_snapshot(r->session, block);
    r->keys[r->key_count++] = (KeyState){r->tick, r->command, r->hash, r->chain, block};
}

static void compare(PbReplay *r)
{
    const PbRunFile *run = r->run;
    while (r->hash < run->hash_count && run->hashes[r->hash].tick < r->tick) {
        r->hash++;
    }
    if (r->hash >= run->hash_count || run->hashes[r->hash].tick != r->tick) {
        return;
    }
    uint64_t recorded = run->hashes[r->hash++].hash;
    if (r->tick <= r->seen_tick || r->check.is_resimulated) {
        return;
    }
    uint64_t now = pb_session_hash(r->session);
    now = run->form == PB_RECORD_SEALED ? pb_record_seal(r->chain, now) : now;
    r->check.compared++;
    if (now != recorded && r->check.parted_tick < 0) {
        r->check.parted_tick = r->tick;
        r->check.recorded_hash = recorded;
        r->check.replayed_hash = now;
    }
}

PbStatus pb_replay_step(PbReplay *r)
{
    const PbRunFile *run = r->run;
    PbCommand commands[64];
    int count = 0, next = r->command;
    if (pb_replay_is_at_end(r)) {
        return PB_ERR_STATE;
    }
    keep_state(r);
    while (next < run->command_count && run->commands[next].tick < r->tick) {
        next++;
    }
    while (next < run->command_count && run->commands[next].tick == r->tick) {
        if (count == (int)(sizeof commands / sizeof commands[0])) {
            return PB_ERR_RANGE; /* no hands give so many in one tick */
        }
        commands[count++] = run->commands[next++].command;
    }
    PB_TRY(pb_session_step(r->session, commands, count));
    for (int i = 0; i < count; i++) {
        r->chain = pb_record_chain(r->chain, r->tick, &commands[i]);
    }
    r->command = next;
    r->tick++;
    compare(r);
    r->seen_tick = r->tick > r->seen_tick ? r->tick : r->seen_tick;
    return PB_OK;
}

PbStatus pb_replay_seek(PbReplay *r, int tick)
{
    int best = -1;
    tick = tick < 0 ? 0 : tick;
    for (int i = 0; i < r->key_count && r->keys[i].tick <= tick; i++) {
        best = i;
    }
    if (best >= 0 && (tick < r->tick || r->keys[best].tick > r->tick)) {
        pb_session_restore(r->session, r->keys[best].block);
        r->tick = r->keys[best].tick;
        r->command = r->keys[best].command;
        r->hash = r->keys[best].hash;
        r->chain = r->keys[best].chain;
    } else if (tick < r->tick) {
        return PB_ERR_MEMORY; /* not even the start could be kept */
    }
    while (r->tick < tick && !pb_replay_is_at_end(r)) {
        PB_TRY(pb_replay_step(r));
    }
    return PB_OK;
}

const PbSession *pb_replay_session(const PbReplay *replay)
{
    return replay->session;
}

int pb_replay_tick(const PbReplay *replay)
{
    return replay->tick;
}

int pb_replay_is_at_end(const PbReplay *replay)
{
    return replay->tick >= replay->run->last_tick || pb_session_is_over(replay->session);
}

PbReplayCheck pb_replay_check(const PbReplay *replay)
{
    return replay->check;
}

int pb_replay_key_states(const PbReplay *replay, size_t *bytes)
{
    *bytes = (size_t)replay->key_count * pb_session_memory(replay->session);
    return replay->key_count;
}
