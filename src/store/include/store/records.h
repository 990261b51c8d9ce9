/**
 * @file records.h
 * @brief Kept runs with the trainer's current marks, in the shape that tables for other programs
 * are made of. Errors as in store.h.
 */
#ifndef STORE_RECORDS_H
#define STORE_RECORDS_H

#include "core/record.h"
#include "store/runs.h"

typedef struct StoreRecords {
    PbRecord *records; /**< newest run first */
    int count;
    StoreRun *runs;       /**< what the records point into */
    StoreMark **given;    /**< a list a run */
    PbRecordMark **marks; /**< a list a run */
} StoreRecords;

/**
 * @brief Read them.
 * @param[in]  filter as for store_run_list; its parts are read in any case
 * @param[in]  is_own tells whether an exercise of this hash is none of the shipped ones
 * @param[out] out    caller gives it back with store_records_free; untouched unless PB_OK
 */
PB_NODISCARD PbStatus store_records_read(Store *store, const StoreFilter *filter,
                                         int (*is_own)(const void *user, uint64_t hash),
                                         const void *user, StoreRecords *out, PbError *err);
/** @brief Give back; zero afterwards. A zeroed one is allowed. */
void store_records_free(StoreRecords *r);

#endif
