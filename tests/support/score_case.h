/* A run made by hand, and its mark with every point accounted for. */
#ifndef SCORE_CASE_H
#define SCORE_CASE_H

#include "core/marks.h"
#include "core/score.h"
#include "suite.h"

#include <math.h>
#include <string.h>

enum { PATCHES = 20, LIFTS = 6 };

static PbExercise exercise;
static PbResult result;
static PbPatch patches[PATCHES];
static PbLift lifts[LIFTS];
static PbScoreWatch watch;
static PbRubric rubric;

/* A bay packed by the book: all at 60, one-foot steps, each left two seconds after the stall. */
static PbScoreInput good_run(void)
{
    exercise = pb_exercise_default();
    exercise.target_kg_m3 = 56.0;
    exercise.pass_score = 70.0;
    result = (PbResult){.fillable_volume_m3 = 0.1, .mass_fed_kg = 5.6, .mean_kg_m3 = 60.0};
    for (int i = 0; i < PATCHES; i++) {
        patches[i] = (PbPatch){0.0, 0.1 * i, 0.1, 0.1 * (i + 1), 0.01, 60.0};
    }
    for (int i = 0; i < LIFTS; i++) {
        lifts[i] = (PbLift){.from_s = 20.0 * i,
                            .to_s = 20.0 * i + 18.0,
                            .mouth_y_m = 2.0 - 0.34 * i, /* to 0.3 m: both ends in reach */
                            .step_m = i ? 0.3 : 0.0,
                            .stall_s = 20.0 * i + 16.0,
                            .mass_kg = 0.5,
                            .density_kg_m3 = 60.0,
                            .direction = 1};
    }
    watch = (PbScoreWatch){.peak_load = 0.5, .peak_y_m = 1.5, .peak_time_s = 44.0};
    for (int i = 0; i < LIFTS; i++) {
        watch.lifts[i].static_pa = exercise.machine.static_pa;
    }
    rubric = pb_rubric_default();
    return (PbScoreInput){.exercise = &exercise,
                          .result = &result,
                          .patches = patches,
                          .patch_count = PATCHES,
                          .lifts = lifts,
                          .lift_count = LIFTS,
                          .watch = &watch,
                          .rubric = &rubric};
}

static PbScore mark(const PbScoreInput *in)
{
    PbScore s;
    double lost[PB_SCORE_PARTS] = {0.0};
    ck_assert_int_eq(pb_score(in, &s), PB_OK);
    for (int i = 0; i < s.loss_count; i++) {
        const PbLoss *l = &s.losses[i];
        ck_assert(l->points > 0.0 && l->time_s >= 0.0 && l->y_m >= 0.0 && l->y0_m <= l->y1_m);
        lost[l->part] += l->points;
    }
    for (int i = 0; i < PB_SCORE_PARTS; i++) { /* every point is accounted for */
        ck_assert_double_eq_tol(s.parts[i].points + lost[i], s.parts[i].max, 1e-9);
    }
    return s;
}

#endif
