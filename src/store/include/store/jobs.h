/**
 * @file jobs.h
 * @brief Jobs at a whole wall (core/job.h), a row an act, so that a job that is cut off goes on
 * from its last act. A job is its wall, its seed, its acts, and of a bay that a person packed the
 * run, which is kept among the runs: its exercise and seed say of which bay it is.
 *
 * Conventions and errors as in store.h. They go with their learner.
 */
#ifndef STORE_JOBS_H
#define STORE_JOBS_H

#include "store/store.h"

/** Longest act as text, with its end. */
#define STORE_JOB_ACT_BYTES 400

typedef struct StoreJob {
    int64_t id, learner_id;
    char begun[24];
    char wall[65]; /**< name of the wall, as its file or its era */
    uint64_t seed;
    int acts; /**< so far */
} StoreJob;

typedef struct StoreJobAct {
    char content[STORE_JOB_ACT_BYTES]; /**< JSON, as in files of acts */
} StoreJobAct;

/** @brief A new job without acts. @param[in] when time of day, as all times of the store */
PB_NODISCARD PbStatus store_job_begin(Store *store, int64_t learner_id, const char *wall,
                                      uint64_t seed, const char *when, int64_t *id, PbError *err);
/** @brief Keep act number `place`, from 0. It is on the disk when this returns. */
PB_NODISCARD PbStatus store_job_act(Store *store, int64_t job_id, int place, const char *content,
                                    PbError *err);
/** @brief The job is over: nobody goes on with it. */
PB_NODISCARD PbStatus store_job_end(Store *store, int64_t job_id, PbError *err);
/** @brief The newest job of a person that is not over and has acts. @return PB_OK;
 * PB_ERR_NO_RESULT: there is none */
PB_NODISCARD PbStatus store_job_left(Store *store, int64_t learner_id, StoreJob *job, PbError *err);
/** @brief Acts of a job in their order. @param[out] list caller frees with free; NULL when empty */
PB_NODISCARD PbStatus store_job_acts(Store *store, int64_t job_id, StoreJobAct **list, int *count,
                                     PbError *err);

#endif
