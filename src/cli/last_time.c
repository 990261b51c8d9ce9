/* A kept run and what the same person did before in its exercise, out of the store. */
#include "last_time.h"

#include <stdlib.h>

/* The mean stands in the run file alone; in one that was imported it is somebody's word, and in a
 * damaged one it is not known. */
static IoTry figures(Store *store, const StoreRun *run)
{
    void *bytes = NULL;
    size_t size = 0;
    PbError err;
    if (run->summary.origin != PB_ORIGIN_HERE ||
        store_run_bytes(store, run->id, &bytes, &size, &err) != PB_OK) {
        bytes = NULL;
    }
    IoTry t = io_try_of(&run->summary, bytes, size);
    free(bytes);
    return t;
}

PbStatus cli_last_time(Store *store, int64_t id, const PbExercise *exercise, IoReaderTaste taste,
                       char out[IO_LAST_TIME_BYTES], PbError *err)
{
    StoreEarlier before;
    PB_TRY(store_run_earlier(store, id, &before, err));
    IoLastTime t = {.count = before.count,
                    .now = figures(store, &before.now),
                    .last = figures(store, &before.last),
                    .is_like = before.is_last_like,
                    .like_count = before.like_count,
                    .best = figures(store, &before.best)};
    io_last_time_words(&t, exercise, taste, out, IO_LAST_TIME_BYTES);
    return PB_OK;
}
