/**
 * @file merge.h
 * @brief Taking in what another computer's store holds: its people, their runs with the trainer's
 * marks, and their sittings of drills.
 *
 * The other file is read once, at the beginning, and never written. People are the same when their
 * names are. What is here already stays as it is and comes in once, however often the same file is
 * taken in. A run counts for what a replay gives, so each is judged anew by whoever calls; one that
 * was left, and jobs, stay on the computer where they can be gone on with. Errors as in store.h.
 */
#ifndef STORE_MERGE_H
#define STORE_MERGE_H

#include "store/runs.h"

/** Judges one run file. `ended`: when the other store says that it ended. @return as io_run_judge;
 * PB_ERR_FORMAT and PB_ERR_RANGE refuse this run alone */
typedef PbStatus StoreJudge(void *user, const char *name, const void *bytes, size_t size,
                            const char *ended, PbRunSummary *summary, PbError *err);

typedef struct StoreMerge StoreMerge;

/** What came of it so far. */
typedef struct StoreMerged {
    int count;   /**< runs that the other store holds */
    int done;    /**< of these, looked at */
    int taken;   /**< new here */
    int had;     /**< here already */
    int left;    /**< broken off there: not taken */
    int refused; /**< do not replay, or are no run files */
    int drills;  /**< sittings that are new here */
    int people;  /**< new here */
} StoreMerged;

/**
 * @brief Read the other store. PB_ERR_RANGE when it is this very store.
 * @param[out] merge caller ends it with store_merge_end
 */
PB_NODISCARD PbStatus store_merge_begin(Store *store, const char *path, StoreMerge **merge,
                                        PbError *err);
/**
 * @brief One run further; with the last one come the drills.
 * @param[in] when now
 * @return PB_OK; PB_ERR_NO_RESULT: all is done
 */
PB_NODISCARD PbStatus store_merge_step(StoreMerge *merge, StoreJudge *judge, void *user,
                                       const char *when, PbError *err);
/** @brief How far it is. Borrowed until store_merge_end. */
const StoreMerged *store_merge_done(const StoreMerge *merge);
/** @brief Stop, done or not: what was taken in stays. NULL is allowed. */
void store_merge_end(StoreMerge *merge);

#endif
