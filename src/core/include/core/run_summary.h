/**
 * @file run_summary.h
 * @brief What a list of runs says of one run, without replaying it.
 *
 * Plain values between those who read run files and those who keep or print results. A summary is
 * taken from the run file once, when the run is kept; the file stays the evidence.
 */
#ifndef CORE_RUN_SUMMARY_H
#define CORE_RUN_SUMMARY_H

#include <stdint.h>

#define PB_SUMMARY_PARTS 8

/** Points in one part of the rubric. */
typedef struct PbPartPoints {
    char key[24]; /**< word of the part in files: lower case, digits, - and _: "on_target" */
    double points, max;
} PbPartPoints;

/** How far a kept run can be spoken of. Numbers stand in files. */
typedef enum PbRunState {
    PB_RUN_FINISHED,  /**< it came to its end and has a grade */
    PB_RUN_LEFT,      /**< broken off at duration_s: no grade, and it can be gone on with */
    PB_RUN_UNVERIFIED /**< of an older version: cannot be replayed, so no grade of it counts */
} PbRunState;

/** Where a kept run came from. Numbers stand in files. */
typedef enum PbRunOrigin {
    PB_ORIGIN_EARLIER, /**< kept before stores noted it */
    PB_ORIGIN_HERE,    /**< worked in this program's own window */
    PB_ORIGIN_IMPORTED /**< a run file that somebody gave */
} PbRunOrigin;

typedef struct PbRunSummary {
    PbRunState state;
    PbRunOrigin origin;
    int is_scripted;        /**< hands of a file worked it, not a person's */
    int breaks;             /**< how often it was left and taken up again */
    uint64_t exercise_hash; /**< of what the bay is (io/exercise_file.h); 0 = not noted */
    int has_claim;          /**< the run file came with a grade of its own, kept beside: */
    double claimed_total;
    int claimed_pass;
    char exercise_id[48];
    char exercise_title[96];
    char when[24]; /**< end of the run, UTC, "2026-03-04T09:30:00Z"; given by whoever has a clock */
    char rubric[64]; /**< name of the rubric that gave the points */
    uint64_t seed;
    int physics_version;
    double duration_s;
    PbPartPoints parts[PB_SUMMARY_PARTS];
    int part_count;
    double total; /**< of 100; meaningful in PB_RUN_FINISHED */
    int is_pass;
    double step_mean_m, step_spread_m;   /**< standard deviation; negative = not known */
    double dwell_mean_s, dwell_spread_s; /**< after the stall; negative = not known */
} PbRunSummary;

/** @brief Is it a person's finished run, checked or kept by this program? Whether its exercise is
 * one of the course is for whoever knows the course. */
static inline int pb_summary_counts(const PbRunSummary *m)
{
    return m->state == PB_RUN_FINISHED && !m->is_scripted;
}
/** @brief Does the grade that the file came with say something else than the one that counts? */
static inline int pb_summary_is_parted(const PbRunSummary *m)
{
    double off = m->claimed_total - m->total;
    return m->has_claim && m->state == PB_RUN_FINISHED &&
           (off > 0.005 || off < -0.005 || m->claimed_pass != m->is_pass);
}

#endif
