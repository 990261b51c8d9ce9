/* What happens in a sitting: trials are made ahead, run by the clock, answered by one press, judged
 * by the core and kept with the learner. */
#include "drill/drill.h"

#include "io/clock.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static const double TOLD_S = 2.6;

static void make_ahead(App *app)
{
    Drill *d = app->drill;
    int number = d->number + (d->now != NULL);
    if (d->next == NULL && number < PB_DRILL_TRIALS && !d->is_short) {
        PbSessionConfig base = pb_session_default();
        base.constants = app->run.config.constants;
        d->next = drill_job_start(&base, d->seed, number);
        d->is_short = d->next == NULL;
    }
}

void drill_begin(App *app)
{
    Drill *d = app->drill;
    drill_job_end(d->now);
    drill_job_end(d->next);
    d->now = d->next = NULL;
    d->seed = app_seed(app);
    d->number = d->is_kept = d->is_short = 0;
    d->tally = (PbDrillTally){0};
    d->before = store_drill_evidence(d->kept, d->kept_count, d->sight, d->noise,
                                     d->noise != 0 ? d->level : 0);
    d->phase = DRILL_MAKING;
    make_ahead(app);
}

PbDrillVerdict drill_verdict(const Drill *d)
{
    PbDrillTally all = d->tally;
    pb_drill_add(&all, &d->before);
    return pb_drill_verdict(&all);
}

static void read_kept(App *app)
{
    Drill *d = app->drill;
    PbError err = {0};
    free(d->kept);
    d->kept = NULL;
    d->kept_count = 0;
    if (app->records.store != NULL && app->records.learner_id != 0 &&
        store_drill_list(app->records.store, app->records.learner_id, &d->kept, &d->kept_count,
                         &err) != PB_OK) {
        app_notice(app, _("The drills could not be read"), err.message, 0, 10);
    }
}

static void keep(App *app)
{
    Drill *d = app->drill;
    const PbDrillTally *y = &d->tally;
    PbError err = {0};
    int64_t id;
    if (app->records.store == NULL || app->records.learner_id == 0 || y->trials == 0) {
        return;
    }
    StoreDrill row = {.learner_id = app->records.learner_id,
                      .seed = d->seed,
                      .sight = d->sight,
                      .masking = d->noise,
                      .level = d->noise != 0 ? d->level : 0,
                      .trials = y->trials,
                      .events = y->events,
                      .caught = y->caught,
                      .good = y->good,
                      .false_presses = y->false_presses,
                      .best_streak = y->best_streak,
                      .listened_s = y->listened_s,
                      .median_s = pb_drill_median_s(y),
                      .verdict = drill_verdict(d)};
    io_now_utc(row.done);
    if (store_drill_add(app->records.store, &row, &id, &err) != PB_OK) {
        app_notice(app, _("This drill could not be saved"), err.message, 0, 10);
        return;
    }
    d->is_kept = 1;
    read_kept(app);
}

static void end(App *app)
{
    Drill *d = app->drill;
    drill_job_end(d->now);
    drill_job_end(d->next);
    d->now = d->next = NULL;
    keep(app);
    d->phase = DRILL_OVER;
}

void drill_stop(App *app)
{
    Drill *d = app->drill;
    if (d->phase == DRILL_OVER || (d->phase == DRILL_MAKING && d->tally.trials == 0)) {
        drill_job_end(d->next);
        d->next = NULL;
        d->phase = DRILL_CHOOSE;
    } else if (d->phase != DRILL_CHOOSE) {
        end(app);
    }
}

static void judge(App *app, double press_s)
{
    Drill *d = app->drill;
    const PbDrillTrial *t = &d->now->trial;
    PbDrillAnswer *a = &d->answers[d->number];
    *a = pb_drill_press(t, press_s);
    pb_drill_count(&d->tally, t, a);
    d->phase = DRILL_TOLD;
    d->told_until_s = app->program.now_s + TOLD_S;
}

void drill_press(App *app)
{
    if (app->drill->phase == DRILL_LISTEN) {
        judge(app, app->drill->listened_s);
    }
}

void drill_go_on(App *app)
{
    Drill *d = app->drill;
    if (d->phase != DRILL_TOLD) {
        return;
    }
    if (d->number + 1 >= PB_DRILL_TRIALS || d->is_short) {
        end(app);
        return;
    }
    d->number++;
    drill_job_end(d->now);
    d->now = NULL;
    d->phase = DRILL_MAKING;
}

/* The made trial becomes the one that runs, and the one after it is begun. */
static void take_made(App *app)
{
    Drill *d = app->drill;
    if (d->next == NULL || !drill_job_is_over(d->next)) {
        make_ahead(app);
        return;
    }
    if (d->next->status != PB_OK) {
        app_notice(app, _("The next trial could not be made"), d->next->err.message, 0, 10);
        d->is_short = 1;
        end(app);
        return;
    }
    d->now = d->next;
    d->next = NULL;
    d->listened_s = 0.0;
    d->needle_pa = d->now->run.view->signals.blower_pa;
    d->rattle = d->now->run.view->signals.rattle;
    d->phase = DRILL_LISTEN;
    make_ahead(app);
}

/* Ticks of the trial as the clock has them; a slow machine runs slow. */
static void listen(App *app, double dt_s)
{
    Drill *d = app->drill;
    Run *run = &d->now->run;
    run->accumulator_s += fmin(dt_s, RUN_MAX_STEPS * PB_TICK_S);
    while (run->accumulator_s >= PB_TICK_S) {
        run->queued = pb_drill_commands(&d->now->trial, run->view->tick, run->queue);
        run_tick(run);
        run->accumulator_s -= PB_TICK_S;
    }
    run->event_count = 0;
    run->alpha = run->accumulator_s / PB_TICK_S;
    d->listened_s = (run->view->tick - d->now->trial.start_tick) * PB_TICK_S + run->accumulator_s;
    double lag = dt_s / (0.060 + dt_s);
    d->needle_pa += (run->view->signals.blower_pa - d->needle_pa) * lag;
    d->rattle += (run->view->signals.rattle - d->rattle) * lag;
    if (d->listened_s >= d->now->trial.length_s) {
        judge(app, -1.0);
    }
}

static void sound(App *app)
{
    const Drill *d = app->drill;
    app->sound.is_own = d->phase == DRILL_LISTEN;
    if (app->sound.is_own) {
        const PbSignals *s = &d->now->run.view->signals;
        app->sound.own = app_heard(s, &d->now->trial.config.exercise.machine,
                                   app->sound.is_muted ? 0.0 : app->sound.volume);
        app->sound.own.masking = d->noise;
        app->sound.own.masking_level = d->level;
    }
}

void drill_update(App *app, double dt_s)
{
    Drill *d = app->drill;
    if (d->kept == NULL && d->phase == DRILL_CHOOSE && d->kept_count < 0) {
        read_kept(app);
    }
    if (d->phase == DRILL_MAKING) {
        take_made(app);
    } else if (d->phase == DRILL_LISTEN) {
        if (app_is_covered(app)) {
            return; /* time stands under a card */
        }
        listen(app, dt_s);
    } else if (d->phase == DRILL_TOLD && app->program.now_s >= d->told_until_s) {
        drill_go_on(app);
    }
    sound(app);
}
