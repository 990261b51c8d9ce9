/**
 * @file job_file.h
 * @brief Files of acts, and of whole jobs: docs/formats/job.md.
 *
 * A job file is written as the job goes: a first line with wall, acts and seed, a line for each
 * fill as it is done, a last line with the marks. One that was cut off holds what was done so far.
 */
#ifndef IO_JOB_FILE_H
#define IO_JOB_FILE_H

#include "core/job_marks.h"
#include "core/job_rule.h"
#include "io/doc.h"

#include <stdio.h>

#define IO_ACTS_FORMAT "pullback job acts 1"
#define IO_JOB_FORMAT  "pullback job 1"
/** What a job file begins with. */
#define IO_BEGINS_JOB "{\"format\":\"pullback job 1\""

/** What a crew does: a rule, then acts one by one; either may be missing. */
typedef struct IoJobActs {
    char name[64];
    PbJobHands hands[PB_JOB_HANDS];
    int hand_count;
    int has_rule;
    PbJobRule rule;
    PbJobAct *acts;
    int *line, *column; /**< where each act stands */
    int act_count;
    char file[256];
} IoJobActs;

/** One job as it stands in files. Everything is given back by io_job_free. */
typedef struct IoJob {
    PbFraming framing;
    IoJobActs acts;
    uint64_t seed;
    int cells_across, physics_version;
    int threads;                   /**< to work on; 0 = as many as there are cores */
    json_t *wall_json, *acts_json; /**< as read; the wall with its bay written out */
    /* of a job file */
    int is_file, is_ended, is_pass;
    double total;
    uint64_t hash;
    uint64_t fill_hash[PB_JOB_FILLS];
    int fill_bay[PB_JOB_FILLS];
    int fill_count;
} IoJob;

/**
 * @brief Read a wall and acts. @param[in] acts NULL: a careful crew
 * @param[out] job zero before; io_job_free in any case
 * @return PB_OK; PB_ERR_IO; PB_ERR_FORMAT, PB_ERR_RANGE with file, line and column; PB_ERR_MEMORY
 */
PB_NODISCARD PbStatus io_job_of(const char *wall, const char *acts, const char *const *folders,
                                int count, IoJob *job, PbError *err);
/** @brief Read a job file; as io_job_of. A last line that is not whole is left away. */
PB_NODISCARD PbStatus io_job_load(const char *path, const char *const *folders, int count,
                                  IoJob *job, PbError *err);
/** @brief Does this file begin as a job file does? */
int io_is_job(const char *path);
/** @brief Read the acts alone. @param[out] acts zero before; io_acts_free in any case */
PB_NODISCARD PbStatus io_acts_load(const char *path, IoJobActs *acts, PbError *err);
/** @brief As io_acts_load, from text. @param[in] name shown as the file in complaints. */
PB_NODISCARD PbStatus io_acts_parse(const char *name, const char *text, size_t size,
                                    IoJobActs *acts, PbError *err);
/**
 * @brief One act as it stands in a file of acts, whose hands are the one without a name there.
 * @param[out] out of IO_ACT_BYTES
 */
void io_act_text(const PbJobAct *act, char *out, size_t size);
#define IO_ACT_BYTES 320
/** @brief Read acts that stand inside another file. Complains through the reader. */
void io_acts_read(IoReader *r, IoValue *root, IoJobActs *a);
void io_acts_free(IoJobActs *acts);
void io_job_free(IoJob *job);

/**
 * @brief Do the whole job; results do not depend on the threads.
 * @param[in]  out where to write the job file as it goes; NULL = nowhere
 * @param[out] job caller calls pb_job_destroy
 * @return PB_OK; PB_ERR_STATE, PB_ERR_RANGE at the place of an act that cannot be done; PB_ERR_IO;
 * PB_ERR_MEMORY
 */
PB_NODISCARD PbStatus io_job_work(const IoJob *in, FILE *out, PbJob **job, PbError *err);
/** @brief Write the last line. */
PB_NODISCARD PbStatus io_job_end(FILE *out, const PbJob *job, const PbJobMarks *marks,
                                 PbError *err);

/** @brief The whole result. @return caller's; NULL when memory ran out */
json_t *io_job_to_json(const IoJob *in, const PbJob *job, const PbJobMarks *marks);

#endif
