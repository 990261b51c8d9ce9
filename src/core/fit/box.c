/* A weighed box as an exercise with hands, and one run of it: core/fit.h. */
#include "core/fit.h"

#include "bay/rows.h"
#include "core/session.h"

#include <assert.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

static const PbNumberRow fit_box_rows[] = {
    {"", "width_m", "m", 0.15, 0.75, REQUIRED, AT(PbFitBox, width_m)},
    {"", "height_m", "m", 0.5, 6, REQUIRED, AT(PbFitBox, height_m)},
    {"", "depth_m", "m", 0.05, 0.4, REQUIRED, AT(PbFitBox, depth_m)},
    {"", "mass_kg", "kg", 0, 200, REQUIRED, AT(PbFitBox, mass_kg)},
    {"", "static_pa", "Pa", 1000, 40000, REQUIRED, AT(PbFitBox, static_pa)},
    {"", "feed_kg_s", "kg/s", 0.003, 0.2, REQUIRED, AT(PbFitBox, feed_kg_s)},
    {"", "step_m", "m", 0.05, 2, REQUIRED, AT(PbFitBox, step_m)},
    {"", "wait_s", "s", 0, 60, OPTIONAL, AT(PbFitBox, wait_s)},
    {"", "gauge_pa", "Pa", 500, 40000, OR_ZERO, AT(PbFitBox, gauge_pa)},
    {"", "leak75_m3_s_m2", "m3/s per m2", 0.0001, 0.2, OPTIONAL, AT(PbFitBox, leak75_m3_s_m2)},
};

ROWS_OF(fit_box_rows)

PbFitBox pb_fit_box_default(void)
{
    PbExercise e = pb_exercise_default();
    PbHands h = pb_hands_default();
    return (PbFitBox){.width_m = e.width_m,
                      .height_m = e.height_m,
                      .depth_m = e.depth_m,
                      .static_pa = e.machine.static_pa,
                      .feed_kg_s = e.feed_kg_s,
                      .step_m = h.step_m,
                      .wait_s = h.wait_s,
                      .leak75_m3_s_m2 = e.leak75_m3_s_m2};
}

double pb_fit_weighed(const PbFitBox *b)
{
    return b->mass_kg / (b->width_m * b->height_m * b->depth_m);
}

/* Packed alike: what was weighed and read of them apart. */
static int is_alike(const PbFitBox *a, const PbFitBox *b)
{
    return a->width_m == b->width_m && a->height_m == b->height_m && a->depth_m == b->depth_m &&
           a->static_pa == b->static_pa && a->feed_kg_s == b->feed_kg_s && a->step_m == b->step_m &&
           a->wait_s == b->wait_s && a->leak75_m3_s_m2 == b->leak75_m3_s_m2;
}

int pb_fit_different(const PbFitBox *boxes, int count)
{
    int different = 0;
    for (int i = 0; i < count; i++) {
        int is_new = 1;
        for (int k = 0; k < i && is_new; k++) {
            is_new = !is_alike(&boxes[i], &boxes[k]);
        }
        different += is_new;
    }
    return different;
}

void pb_fit_box_job(const PbFitBox *b, const PbMachine *machine, PbExercise *e, PbHands *h)
{
    assert(b != NULL && machine != NULL && e != NULL && h != NULL);
    *e = pb_exercise_default();
    *h = pb_hands_default();
    e->width_m = b->width_m;
    e->height_m = b->height_m;
    e->depth_m = b->depth_m;
    e->leak75_m3_s_m2 = b->leak75_m3_s_m2;
    e->finish = PB_FINISH_PLASTER; /* of the finishes the stiffest, and it shall not give way */
    e->strength_pa = 50000.0;
    e->machine = *machine;
    e->machine.static_pa = b->static_pa;
    e->machine.feed_max_kg_s = fmax(machine->feed_max_kg_s, b->feed_kg_s);
    e->machine.tube_length_m = fmin(fmax(machine->tube_length_m, b->height_m + 0.3), 7.0);
    e->feed_kg_s = b->feed_kg_s;
    e->holes[0].x_m = 0.5 * b->width_m;
    e->holes[0].y_m = fmin(0.45, 0.3 * b->height_m);
    h->step_m = b->step_m;
    h->wait_s = b->wait_s;
    h->passes[0] = (PbPass){+1, b->height_m - 0.2, e->holes[0].y_m, 0.0};
    h->passes[1] = (PbPass){-1, fmin(0.15, 0.5 * e->holes[0].y_m), e->holes[0].y_m, 0.0};
}

/* Until the hands have finished; sums up the gauge at each stall. */
static PbStatus pack(PbSession *session, const PbHands *hands, double limit_s, PbFitAnswer *answer)
{
    PbHandsState state;
    PbCommand commands[16];
    const PbView *view = pb_session_view(session);
    int stalls = 0;
    double sum = 0.0;
    memset(&state, 0, sizeof state);
    while (!pb_session_is_over(session) && view->time_s < limit_s) {
        int count = pb_hands_next(hands, &state, view, commands), events;
        PB_TRY(pb_session_step(session, commands, count));
        view = pb_session_view(session);
        const PbEvent *e = pb_session_events(session, &events);
        for (int i = 0; i < events; i++) {
            if (e[i].kind == PB_EVENT_STALL) {
                stalls++;
                sum += view->signals.blower_pa;
            }
        }
    }
    PbResult result;
    pb_session_result(session, &result);
    answer->kg_m3 = result.mean_kg_m3;
    answer->gauge_pa = stalls > 0 ? sum / stalls : 0.0;
    return PB_OK;
}

PbStatus pb_fit_run_box(const PbFitBox *box, const PbMachine *machine, const PbConstants *constants,
                        PbFitAnswer *answer, PbError *err)
{
    static const double GRACE_S = 600.0; /* bleeding and clearing come on top */
    PbSessionConfig config = pb_session_default();
    PbSession *session;
    PbHands hands;
    pb_fit_box_job(box, machine, &config.exercise, &hands);
    config.constants = *constants;
    PB_TRY(pb_session_create(&config, &session, err));
    PbStatus status = pack(session, &hands, config.exercise.time_limit_s + GRACE_S, answer);
    pb_session_destroy(session);
    return status == PB_OK ? PB_OK : pb_fail(err, status, "a box cannot be packed");
}

const PbFitNext *pb_fit_next(int *count)
{
    static PbFitNext const next[] = {
        {{0.368, 2.35, 0.089, 0, 19900, 0.065, 0.3, 1, 0, 0.01}, "a 2x4 bay, one-foot steps"},
        {{0.368, 1.2, 0.14, 0, 19900, 0.065, 0.3, 1, 0, 0.01}, "a box 5 1/2 in deep, 4 ft high"},
        {{0.368, 2.35, 0.089, 0, 19900, 0.065, 0.9, 1, 0, 0.01}, "a 2x4 bay, three-foot steps"},
        {{0.368, 1.2, 0.089, 0, 10000, 0.03, 0.3, 1, 0, 0.01},
         "a box 3 1/2 in deep, 4 ft high, at 40 in w.c."},
        {{0.57, 1.2, 0.089, 0, 19900, 0.03, 0.3, 10, 0, 0.01},
         "a box 22 1/2 in wide, 4 ft high, held 10 s after the stall"},
    };
    *count = sizeof next / sizeof next[0];
    return next;
}
