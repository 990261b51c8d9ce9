/* The long first stop of an end, where air carries fill past the tube and nothing is to be done:
 * six times as fast until the needle moves. Asked for by key or button, ended by the needle, by a
 * hand that does anything, and never in a graded run. The simulation's ticks are the same ones,
 * only more of them to a second, so a run that was hurried is recorded and marked as any other. */
#include "bay/bay.h"

#include <math.h>

static const double times = 6.0;
static const double watch_times = 4.0;    /* the crew of a job, under one's eyes */
static const double moved_share = 0.03;   /* of the dial: an eye sees the needle move by so much */
static const double steady_rattle = 0.3;  /* the line is full when the rattle is over this ... */
static const double steady_s = 1.0;       /* ... and has changed by no more ... */
static const double steady_within = 0.03; /* ... than this in so long */
static const double rest_m = 0.02;

/* The mouth stands where it was pushed to; by what hands know, since stops and what came of them
 * are nothing to be seen on a closed wall. */
static int is_first_stop(const BayQuick *q, const PbSignals *s)
{
    return s->tube_in_m > 0.0 && s->tube_in_m >= q->deepest_m - rest_m;
}

int quick_may(const App *app)
{
    const PbView *v = app->run.view;
    const PbSignals *s = &v->signals;
    return !app->task.is_graded && !app->run.is_crew && v->phase == PB_PHASE_WORKING &&
           s->machine_on && !s->plugged && !s->spilling && is_first_stop(&app->bay->quick, s) &&
           !app->bay->quick.has_moved;
}

double quick_times(const App *app)
{
    return app->run.is_crew ? watch_times : app->bay->quick.is_on ? times : 1.0;
}

void quick_turn(App *app)
{
    app->bay->quick.is_on = !app->bay->quick.is_on && quick_may(app);
}

/* From where the needle is watched: once the line is full, air and fill come evenly. */
static void watch(BayQuick *q, const PbSignals *s, double static_pa)
{
    int is_steady = s->rattle > steady_rattle && fabs(s->rattle - q->rattle) <= steady_within;
    if (q->from_pa < 0.0 && !is_steady) {
        q->rattle = s->rattle;
        q->since_s = s->time_s;
    } else if (q->from_pa < 0.0 && s->time_s - q->since_s >= steady_s) {
        q->from_pa = s->blower_pa;
    }
    q->has_moved |= q->from_pa >= 0.0 && s->blower_pa > q->from_pa + moved_share * static_pa;
}

void quick_frame(App *app)
{
    BayQuick *q = &app->bay->quick;
    const PbSignals *s = &app->run.view->signals;
    int is_other_end = s->time_s < q->last_s || s->direction != q->direction;
    if (is_other_end || fabs(s->tube_in_m - q->tube_in_m) > rest_m || !s->machine_on) {
        *q = (BayQuick){.direction = s->direction,
                        .deepest_m = is_other_end ? s->tube_in_m : fmax(q->deepest_m, s->tube_in_m),
                        .tube_in_m = s->tube_in_m,
                        .from_pa = -1.0,
                        .since_s = s->time_s};
    }
    q->last_s = s->time_s;
    if (is_first_stop(q, s)) {
        watch(q, s, app->run.config.exercise.machine.static_pa);
    }
    q->is_on = q->is_on && quick_may(app);
}
