/* The camera's pictures on the record of a job. */
#ifndef JOB_CAMERA_H
#define JOB_CAMERA_H

#include "page.h"

#include "core/job_heat.h"

/* Before and after side by side from `x` to the margin, from p->y down, on one scale; at most
 * `high`. Leaves p->y where it is. */
void page_job_camera(const Page *p, double x, double high, const PbFraming *framing,
                     const PbJobHeat *heat);

#endif
