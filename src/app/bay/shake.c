/* What the hose does to the hands, on a controller: it pulses while material flows, stands stiff
 * and still when the flow stalls, jolts once when it plugs. */
#include "bay/bay.h"

#include <math.h>

static const double jolt_long_s = 0.35;

/* Strength of the slow and the fast motor, 0..1. */
static void levels(const Gauge *g, double plugged_for_s, double *low, double *high)
{
    const PbSignals *s = g->signals;
    *low = *high = 0.0;
    if (plugged_for_s >= 0.0 && plugged_for_s < jolt_long_s) {
        *low = *high = 1.0;
    } else if (s->machine_on && !s->plugged) {
        double beat = 0.5 + 0.5 * sin(s->time_s * 6.2831853 * 2.2); /* pulses of the hose */
        double flow = g->plan.open_flow_m3_s > 0.0 ? s->flow_m3_s / g->plan.open_flow_m3_s : 0.0;
        double alive = fmin(1.0, flow * 2.5); /* stiff and still at a stall */
        *low = 0.7 * s->hose_pulse * beat * alive;
        *high = 0.35 * s->rattle * alive;
    }
}

void shake_frame(App *app)
{
    Gauge g = sight_gauge(app);
    double for_s = app->bay->memory.plug_since_s >= 0.0
                       ? app->run.view->signals.time_s - app->bay->memory.plug_since_s
                       : -1.0;
    levels(&g, for_s, &app->bay->shake_low, &app->bay->shake_high);
    if (app->task.is_paused || app_is_covered(app) || app->turn.screen != SCREEN_BAY) {
        app->bay->shake_low = app->bay->shake_high = 0.0;
    }
    if (app->win.pad != NULL && app->program.now_s - app->bay->last_rumble_s > 0.04) {
        app->bay->last_rumble_s = app->program.now_s;
        SDL_GameControllerRumble(app->win.pad, (uint16_t)(app->bay->shake_low * 65535.0),
                                 (uint16_t)(app->bay->shake_high * 65535.0), 120);
    }
}
