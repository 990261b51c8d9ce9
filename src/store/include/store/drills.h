/**
 * @file drills.h
 * @brief Sittings of drills (core/drill.h): a row each, with what a verdict is made of.
 *
 * Conventions and errors as in store.h. They go with their learner.
 */
#ifndef STORE_DRILLS_H
#define STORE_DRILLS_H

#include "store/store.h"

#include "core/drill.h"

typedef struct StoreDrill {
    int64_t id, learner_id;
    char done[24];      /**< when the sitting ended */
    uint64_t seed;      /**< of its trials */
    int sight;          /**< 0 open, 1 taped, 2 closed */
    int masking, level; /**< noise: 0 none, 1 compressor, 2 saw, 3 radio; 0 to 3 */
    int trials, events, caught, good, false_presses, best_streak;
    double listened_s;
    double median_s;        /**< NaN = nothing was caught */
    PbDrillVerdict verdict; /**< as it stood then, with the sittings before */
} StoreDrill;

/** @brief Keep a sitting; `id` of the struct is not used. */
PB_NODISCARD PbStatus store_drill_add(Store *store, const StoreDrill *drill, int64_t *id,
                                      PbError *err);
/** @brief Of a person, oldest first. @param[out] list caller frees with free; NULL when empty */
PB_NODISCARD PbStatus store_drill_list(Store *store, int64_t learner_id, StoreDrill **list,
                                       int *count, PbError *err);
/** @brief Evidence of the newest sittings in this view and noise that have had no verdict yet. */
PbDrillTally store_drill_evidence(const StoreDrill *list, int count, int sight, int masking,
                                  int level);

#endif
