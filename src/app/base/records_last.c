/* A kept run and what the same person did before in its exercise, out of the store. */
#include "base/records.h"

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

IoLastTime records_last_time(Store *store, int64_t id)
{
    StoreEarlier before;
    PbError err;
    if (id == 0 || store_run_earlier(store, id, &before, &err) != PB_OK || before.count == 0) {
        return (IoLastTime){0};
    }
    return (IoLastTime){.count = before.count,
                        .now = figures(store, &before.now),
                        .last = figures(store, &before.last),
                        .is_like = before.is_last_like,
                        .like_count = before.like_count,
                        .best = figures(store, &before.best)};
}
