/* Linked into a second pullback-cli, with the linker handing over these calls (--wrap): says at the
 * end how many replays, ticks of them and marks one command took. */
#include "core/replay.h"
#include "core/score.h"

#include <stdio.h>
#include <stdlib.h>

PbStatus __real_pb_replay_create(const PbRunFile *run, PbAllocator allocator, PbReplay **replay,
                                 PbError *err);
PbStatus __real_pb_score(const PbScoreInput *in, PbScore *score);
PbStatus __wrap_pb_replay_create(const PbRunFile *run, PbAllocator allocator, PbReplay **replay,
                                 PbError *err);
PbStatus __wrap_pb_score(const PbScoreInput *in, PbScore *score);

static int replays, scores;

static void tell(void)
{
    fprintf(stderr, "replays %d, marked %d\n", replays, scores);
}

static void count(int *what)
{
    if (replays + scores == 0) {
        atexit(tell);
    }
    ++*what;
}

PbStatus __wrap_pb_replay_create(const PbRunFile *run, PbAllocator allocator, PbReplay **replay,
                                 PbError *err)
{
    count(&replays);
    return __real_pb_replay_create(run, allocator, replay, err);
}

PbStatus __wrap_pb_score(const PbScoreInput *in, PbScore *score)
{
    count(&scores);
    return __real_pb_score(in, score);
}
