/* Safety moments: the check list before work and the power at a plug. Skipping one never stops a
 * person; it is told and stands in the run's record. */
#include "app.h"

static int count_bits(unsigned bits)
{
    int n = 0;
    for (; bits != 0; bits &= bits - 1) {
        n++;
    }
    return n;
}

/* The card was left with the machine to be switched on. */
void safety_checked(App *app)
{
    int skipped = SAFETY_POINTS - count_bits(app->safety_ticked);
    run_command(&app->run, PB_COMMAND_MARK, (double)(PB_MARK_CHECKLIST + (int)app->safety_ticked));
    app->safety_skipped += skipped;
    if (skipped > 0) {
        char line[120];
        SDL_snprintf(line, sizeof line,
                     ngettext("%d check skipped", "%d checks skipped", (unsigned long)skipped),
                     skipped);
        app_notice(app, line, _("It costs points of \"no harm\". On a real job, stop and check."),
                   0, 5);
    }
}

/* Hands in a machine under power are hands lost: ask for the switch first; insisting is recorded.
 */
void safety_clear_plug(App *app)
{
    const PbSignals *s = &app->run.view->signals;
    if (!s->plugged) {
        return;
    }
    if (s->machine_on && !(app->now_s - app->clear_asked_s < 8.0)) {
        app->clear_asked_s = app->now_s;
        app_notice(app, _("Switch the machine off first"),
                   _("Off at the machine and unplugged, then clear. Asking again skips this and is "
                     "recorded."),
                   0, 8);
        return;
    }
    app->clear_asked_s = -100.0;
    app->safety_skipped += s->machine_on;
    run_command(&app->run, PB_COMMAND_MARK,
                s->machine_on ? PB_MARK_PLUG_POWER_ON : PB_MARK_PLUG_POWER_OFF);
    run_command(&app->run, PB_COMMAND_CLEAR_PLUG, 0.0);
}
