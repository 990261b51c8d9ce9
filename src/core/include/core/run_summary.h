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

typedef struct PbRunSummary {
    char exercise_id[48];
    char exercise_title[96];
    char when[24]; /**< end of the run, UTC, "2026-03-04T09:30:00Z"; given by whoever has a clock */
    char rubric[64]; /**< name of the rubric that gave the points */
    uint64_t seed;
    int physics_version;
    double duration_s;
    PbPartPoints parts[PB_SUMMARY_PARTS];
    int part_count;
    double total; /**< of 100 */
    int is_pass;
    double step_mean_m, step_spread_m;   /**< standard deviation; negative = not known */
    double dwell_mean_s, dwell_spread_s; /**< after the stall; negative = not known */
} PbRunSummary;

#endif
