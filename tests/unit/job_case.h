/* A low wall of three bays and a crew's job at it, for the tests of core/job. */
#ifndef JOB_CASE_H
#define JOB_CASE_H

#include "suite.h"

#include "core/job_marks.h"
#include "core/job_rule.h"

#include <stdio.h>
#include <string.h>

static const double CASE_W = 0.038, CASE_HEIGHT_M = 0.8;
static const double CASE_MID_X_M[3] = {0.2125, 0.609, 1.0265};
static PbJobConfig case_config;

static inline void case_add(PbFraming *f, PbMemberKind kind, double x0, double y0, double x1,
                            double y1)
{
    f->members[f->member_count++] = (PbMember){kind, {x0, y0, x1, y1}};
}

/* Three bays of 0.35 to 0.39 x 0.72 m, the defaults of everything else. */
static inline void case_wall(void)
{
    PbFraming *f = &case_config.framing;
    const double studs[] = {0.0, 0.387, 0.793, 1.222};
    memset(&case_config, 0, sizeof case_config);
    snprintf(f->id, sizeof f->id, "low-wall");
    snprintf(f->title, sizeof f->title, "A low wall");
    f->length_m = 1.26;
    f->height_m = CASE_HEIGHT_M;
    f->like = pb_exercise_default();
    case_add(f, PB_MEMBER_PLATE, 0.0, 0.0, 1.26, CASE_W);
    case_add(f, PB_MEMBER_PLATE, 0.0, CASE_HEIGHT_M - CASE_W, 1.26, CASE_HEIGHT_M);
    for (int i = 0; i < 4; i++) {
        case_add(f, PB_MEMBER_STUD, studs[i], CASE_W, studs[i] + CASE_W, CASE_HEIGHT_M - CASE_W);
    }
    case_config.constants = pb_constants_default();
    case_config.seed = 7;
    case_config.cells_across = PB_GRID_DEFAULT;
    case_config.allocator = pb_allocator_default();
    case_config.hands[0] = pb_job_hands_default();
    case_config.hand_count = 1;
}

static inline PbJob *case_job(void)
{
    PbError err = {0};
    PbJob *job = NULL;
    ck_assert_msg(pb_job_create(&case_config, &job, &err) == PB_OK, "%s", err.message);
    return job;
}

static inline PbStatus case_do(PbJob *job, PbJobActKind kind, double x, double y, PbError *err)
{
    PbJobAct act = {.kind = kind};
    act.wall.x_m = x;
    act.wall.y_m = y;
    act.bags = 0.35;
    return pb_job_act(job, &act, err);
}

static inline PbStatus case_wall_do(PbJob *job, PbCrewActKind kind, double x, double y,
                                    PbLeaveReason reason, PbError *err)
{
    PbJobAct act = {.kind = PB_JOB_WALL};
    act.wall.kind = kind;
    act.wall.x_m = x;
    act.wall.y_m = y;
    act.wall.reason = reason;
    return pb_job_act(job, &act, err);
}

static inline void case_must(PbJob *job, PbJobActKind kind)
{
    PbError err = {0};
    ck_assert_msg(case_do(job, kind, 0.0, 0.0, &err) == PB_OK, "%s", err.message);
}

static inline void case_drill(PbJob *job, int bay)
{
    PbError err = {0};
    ck_assert_msg(case_wall_do(job, PB_CREW_DRILL, CASE_MID_X_M[bay], 0.4, PB_LEAVE_NONE, &err) ==
                      PB_OK,
                  "%s", err.message);
}

static inline void case_fill(PbJob *job, int bay)
{
    PbError err = {0};
    case_drill(job, bay);
    ck_assert_msg(case_do(job, PB_JOB_FILL, CASE_MID_X_M[bay], 0.4, &err) == PB_OK, "%s",
                  err.message);
}

static inline void case_run(PbJob *job)
{
    PbError err = {0};
    ck_assert_msg(pb_job_run(job, NULL, NULL, &err) == PB_OK, "%s", err.message);
}

#endif
