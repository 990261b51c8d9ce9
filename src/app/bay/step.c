/* One frame of the bay room: hands that are held, simulated time, and what people are told of it.
 */
#include "bay/bay.h"

#include "core/units.h"
#include "io/act_words.h"

#include <math.h>
#include <stdio.h>

/* Standard Work Specifications 4.1101.5: 80 in w.c. */
static const double LEAST_STATIC_PA = 80.0 * PB_PA_PER_IN_WC;

/* Events of the run that people should be told in words; the rest is for gauges and ears. */
static void tell(App *app, const PbEvent *e)
{
    char line[160], text[120];
    int is_told = !app->task.is_graded; /* what happened is, what to do about it only in practice */
    switch (e->kind) {
    case PB_EVENT_PLUG_CLEARED:
        app_notice(app, _("Hose cleared, machine off"),
                   is_told ? _("Switch on again. Pull back sooner after the stall.") : "", 0, 6);
        break;
    case PB_EVENT_LOCKED_OUT:
        app_notice(app, _("The machine is locked out"),
                   _("The hose is open. Switch on when it is clear."), 0, 3);
        break;
    case PB_EVENT_BLOW_OUT:
        snprintf(line, sizeof line, _("Blow-out at %s"), app_fmt_length(app, e->y_m));
        app_notice(app, line, broke_words(app, text, sizeof text), 1, 1e9);
        break;
    case PB_EVENT_CREAK:
        broke_creak(app);
        app_notice(app, _("The wall creaks"),
                   is_told ? _("Pull back or turn the blower down.") : "", 0, 3);
        break;
    case PB_EVENT_BLOW_BACK:
        app_notice(app, _("Blow-back at the hole"),
                   _("Switch off and let the pressure bleed before the tube comes out."), 0, 5);
        break;
    case PB_EVENT_RUNAWAY:
        app_notice(app, _("Cellulose is leaving the bay"),
                   is_told ? _("Find the opening and block it first.") : "", 0, 4);
        break;
    case PB_EVENT_ACT_REFUSED:
        app_notice(app, io_refusal_words((PbRefusal)e->value, app->taste.lang), "", 0, 4);
        break;
    case PB_EVENT_SEALED:
        snprintf(line, sizeof line, _("Sealed: %s"),
                 _(app->run.config.exercise.openings[(int)e->value - 1].place));
        app_notice(app, line, "", 0, 4);
        break;
    case PB_EVENT_TESTED:
        snprintf(line, sizeof line, _("Static pressure: %s"), app_fmt_pressure(app, e->value));
        snprintf(text, sizeof text, _("Dense packing asks for %s or more."),
                 app_fmt_pressure(app, LEAST_STATIC_PA));
        app_notice(app, line, is_told ? text : "", 0, 8);
        break;
    case PB_EVENT_AT_HOLE:
        snprintf(line, sizeof line, _("Tube at hole %d"), (int)e->value);
        app_notice(app, line, is_told ? _("Plug the hole that stands open.") : "", 0, 4);
        break;
    case PB_EVENT_HOLE_PLUGGED:
        snprintf(line, sizeof line, _("Hole %d is plugged"), (int)e->value);
        app_notice(app, line, "", 0, 4);
        break;
    case PB_EVENT_LEFT:
        app_notice(app, _("The bay is left"),
                   io_leave_words((PbLeaveReason)e->value, app->taste.lang), 0, 6);
        break;
    case PB_EVENT_TURN_REFUSED:
        app_notice(app, _("Too far in to turn"), _("Pull the tube back to the hole, then turn it."),
                   0, 4);
        break;
    default:
        break;
    }
}

static AppStanding standing_now(const App *app)
{
    const PbSignals *s = &app->run.view->signals;
    return app->run.view->phase != PB_PHASE_WORKING ? STANDING_NONE
           : s->clear_left_s > 0.0                  ? STANDING_CLEARING
           : s->plugged                             ? STANDING_PLUG
           : s->spilling && s->machine_on           ? STANDING_OUTSIDE
                                                    : STANDING_NONE;
}

/* What lasts is told as long as it lasts: at once when it begins, and again after a notice of
 * something else. */
static void tell_standing(App *app)
{
    const PbSignals *s = &app->run.view->signals;
    AppStanding now = standing_now(app);
    char line[120];
    int is_new = now != app->say.standing;
    app->say.standing = now;
    int is_free =
        app->program.now_s >= app->say.notice.until_s || app->say.is_hint || app->say.stands;
    if (now == STANDING_NONE || (!is_free && (!is_new || app->say.notice.is_danger))) {
        return;
    }
    switch (now) {
    case STANDING_PLUG:
        app_notice(app, _("The hose is clogged"),
                   _("Clear it: shut down, open the hose, dump what is in it."), 0, 0.5);
        break;
    case STANDING_CLEARING:
        snprintf(line, sizeof line, _("Clearing the clog: %s left"),
                 app_fmt(app, 0, ceil(s->clear_left_s), "s"));
        app_notice(app, line, clog_words(app), 0, 0.5);
        break;
    default:
        app_notice(app, _("Blowing outside the bay"),
                   app->task.is_graded ? "" : _("Push the tube in or switch off."), 0, 0.5);
        break;
    }
    app->say.stands = 1;
}

static void keep(App *app)
{
    char why[600];
    if (!records_run_end(&app->records, &app->run, why, sizeof why)) {
        fprintf(stderr, "pullback: this run could not be kept: %s\n", why);
        app_notice(app,
                   app->records.held_count > 0
                       ? _("This run is in memory only: Debrief can save it elsewhere")
                       : _("This run could not be saved"),
                   why, 0, 30);
    }
}

static void take_events(App *app)
{
    for (int i = 0; i < app->run.event_count; i++) {
        if (sight_may_tell(app, app->run.events[i].kind)) {
            tell(app, &app->run.events[i]);
        }
    }
    app->run.event_count = 0;
    if (app->run.watched.has_score && !app->bay->broke.is_on) {
        keep(app);
        if (app->run.watched.result.blow_out) {
            broke_begin(app); /* it is looked at before the sheet */
        }
    }
    if (app->run.watched.has_score && !broke_is_on(app)) {
        app_go(app, app->task.is_fill ? SCREEN_WALL : SCREEN_RESULT);
    }
    if (app->run.status < 0) {
        fprintf(stderr, "pullback: the simulation broke off: %s\n",
                pb_status_name(app->run.status));
        app->program.exit_code = APP_TROUBLE;
        app->program.is_running = 0;
    }
}

void bay_update(App *app, double dt_s)
{
    bay_held(app, dt_s);
    if (!app->task.is_paused && !app_is_covered(app)) {
        double speed = app->options.speed * quick_times(app);
        run_advance(&app->run, dt_s * speed, (int)(RUN_MAX_STEPS * speed));
    }
    if (app->run.dropped_s > app->program.dropped_seen_s + 0.1) {
        app->program.slow_until_s = app->program.now_s + 2.0;
    }
    app->program.dropped_seen_s = app->run.dropped_s;
    take_events(app);
    tell_standing(app);
    guide_frame(app);
    coach_frame(app);
    quick_frame(app);
    double lag = dt_s / (0.060 + dt_s);
    app->bay->needle_pa += (app->run.view->signals.blower_pa - app->bay->needle_pa) * lag;
    closed_memory_step(&app->bay->memory, &app->run.view->signals);
    glance_frame(app, dt_s);
    shake_frame(app);
}
