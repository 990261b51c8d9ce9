/* Private to core/job. */
#ifndef JOB_PRIVATE_H
#define JOB_PRIVATE_H

#include "core/job.h"

struct PbJob {
    PbJobConfig config;
    PbBays *bays;
    PbCrew crew;
    PbJobDone done[PB_JOB_ACTS];
    int done_count;
    PbJobFill *fills[PB_JOB_FILLS];
    int fill_count;
    int is_sealed[PB_MAX_WALL_OPENINGS];
    int is_checked; /* the house was walked through */
};

/* Number of the clear hole near a place, or -1. */
int pb_job_hole_at(const PbJob *job, double x_m, double y_m);
/* Does an opening of the wall lead out of this bay? */
int pb_job_opening_is_of(const PbJob *job, int opening, int bay);
/* The exercise of a fill, with its holes where they were drilled and without what was sealed. */
PB_NODISCARD PbStatus pb_job_exercise(const PbJob *job, PbJobFill *fill, PbError *err);
/* Run one fill with its hands to the end. */
PB_NODISCARD PbStatus pb_job_work(const PbJob *job, PbJobFill *fill, const PbJobHands *hands,
                                  PbError *err);
uint64_t pb_job_fill_seed(const PbJob *job, int bay);

#endif
