/**
 * @file record.h
 * @brief A kept run with what a trainer says of it, as it goes to other programs. Plain values
 * between the store, which keeps them, and those who write tables.
 */
#ifndef CORE_RECORD_H
#define CORE_RECORD_H

#include "core/run_summary.h"

/** The trainer's points in one part, or with part "run" for the whole. */
typedef struct PbRecordMark {
    const char *part;
    double points; /**< negative = a comment without points */
    const char *reason;
} PbRecordMark;

/** One run. All borrowed for the call. */
typedef struct PbRecord {
    int64_t run_id, learner_id;
    const char *learner;
    uint64_t checksum;   /**< of the run file: makes the statement's id */
    int is_own_exercise; /**< not the shipped one, whatever its id says */
    const PbRunSummary *summary;
    const PbRecordMark *marks; /**< current ones only */
    int mark_count;
} PbRecord;

#endif
