/**
 * @file runs.h
 * @brief Runs in the store: the run file itself, its summary, grades by rubric, the trainer's
 * marks.
 *
 * Computed points and the trainer's stand side by side; neither replaces the other, and a mark that
 * is given again does not remove the earlier one. Errors and times: store/store.h.
 */
#ifndef STORE_RUNS_H
#define STORE_RUNS_H

#include "core/run_summary.h"
#include "store/store.h"

#define STORE_FILE_BYTES (64u * 1024u * 1024u) /**< largest run file taken */
#define STORE_WHOLE_RUN  "run" /**< part of a mark that speaks of the run as a whole */

typedef struct StoreRun {
    int64_t id, learner_id;
    char learner[STORE_NAME_BYTES + 1];
    char added[24];
    int64_t file_bytes;
    uint64_t checksum; /**< FNV-1a 64 of the file: guards against damage, not against people */
    int mark_count;
    int rules;            /**< PB_SCORE_RULES that gave the grade it came with; 0 = it has none */
    PbRunSummary summary; /**< part_count is 0 in lists made without with_parts */
} StoreRun;

/** Which runs. Zero = all. Strings are borrowed for the call. */
typedef struct StoreFilter {
    int64_t learner_id;
    const char *exercise_id;
    int with_parts;
    int limit, offset; /**< limit 0 = no limit */
} StoreFilter;

/**
 * @brief Keep a run.
 * @param[in] bytes   the run file, borrowed for the call, 1 to STORE_FILE_BYTES
 * @param[in] summary every number finite, part keys distinct, times in form
 * @param[in] when    when it is being kept
 * @return as in store.h; PB_ERR_RANGE when this very file is there already, this learner's or
 *         another's
 */
PB_NODISCARD PbStatus store_run_add(Store *store, int64_t learner_id, const void *bytes,
                                    size_t size, const PbRunSummary *summary, const char *when,
                                    int64_t *id, PbError *err);
/**
 * @brief Keep a run that goes on from one that was left: it takes that one's place, number and
 * marks. As store_run_add when `left` is 0, or is no left run of this learner any more.
 */
PB_NODISCARD PbStatus store_run_put(Store *store, int64_t learner_id, int64_t left,
                                    const void *bytes, size_t size, const PbRunSummary *summary,
                                    const char *when, int64_t *id, PbError *err);
/** @brief Newest first. @param[out] list caller frees with free; NULL when count is 0 */
PB_NODISCARD PbStatus store_run_list(Store *store, const StoreFilter *filter, StoreRun **list,
                                     int *count, PbError *err);
/** @brief One run with its parts. */
PB_NODISCARD PbStatus store_run_get(Store *store, int64_t id, StoreRun *run, PbError *err);

/** What the same person did before a run in the same exercise: finished runs by their own hands,
 * the exercise known by its content. A run is like this one when both were packed by the same
 * physics and marked by today's rules and the same rubric: then their figures can be compared. */
typedef struct StoreEarlier {
    StoreRun now;  /**< the run itself */
    int count;     /**< earlier runs */
    StoreRun last; /**< the newest of them; meaningful when count > 0 */
    int is_last_like;
    int like_count; /**< earlier runs that are like this one */
    StoreRun best;  /**< the best of those, the newer of equals; meaningful when there is one */
} StoreEarlier;
/** @brief Look for them; runs with their parts. @param[out] out some kB; untouched unless PB_OK */
PB_NODISCARD PbStatus store_run_earlier(Store *store, int64_t id, StoreEarlier *out, PbError *err);

/**
 * @brief The run file, checked against its checksum.
 * @param[out] bytes caller frees with free
 * @return PB_ERR_FORMAT when the bytes are not those that were put in
 */
PB_NODISCARD PbStatus store_run_bytes(Store *store, int64_t id, void **bytes, size_t *size,
                                      PbError *err);
/** @brief Delete the run with its file, grades, marks and report, as store_learner_delete does. */
PB_NODISCARD PbStatus store_run_delete(Store *store, int64_t id, PbError *err);

/** Computed points of a run under one rubric. */
typedef struct StoreGrade {
    char rubric[64];
    char graded[24];
    double total;
    int is_pass;
    int rules; /**< PB_SCORE_RULES that gave it; read, and written as today's */
    PbPartPoints parts[PB_SUMMARY_PARTS];
    int part_count;
} StoreGrade;

/** @brief Keep a grade; one under the same rubric is replaced (the same run gets the same score).
 */
PB_NODISCARD PbStatus store_grade_put(Store *store, int64_t run_id, const StoreGrade *grade,
                                      PbError *err);
/** @brief All grades of a run, the one it came with first. @param[out] list caller frees with free
 */
PB_NODISCARD PbStatus store_grade_list(Store *store, int64_t run_id, StoreGrade **list, int *count,
                                       PbError *err);

/** What the trainer says of one part, or of the whole run. */
typedef struct StoreMark {
    char part[24];
    double points; /**< negative = a comment without points */
    char reason[STORE_TEXT_BYTES + 1];
    char trainer[STORE_NAME_BYTES + 1]; /**< may be "" */
    char marked[24];
    int is_current; /**< no later mark of this part */
} StoreMark;

/**
 * @brief Add a mark. Points are held against the part's maximum in the grade the run came with;
 * STORE_WHOLE_RUN takes 0 to 100 or a comment alone.
 */
PB_NODISCARD PbStatus store_mark_add(Store *store, int64_t run_id, const StoreMark *mark,
                                     PbError *err);
/** @brief Oldest first. @param[out] list caller frees with free */
PB_NODISCARD PbStatus store_mark_list(Store *store, int64_t run_id, StoreMark **list, int *count,
                                      PbError *err);

#endif
