/* Safety moments: the check list before work and the power at a plug. What is skipped is told and
 * stands in the run's record; a hose is opened with the machine off or not at all. */
#include "bay/bay.h"

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
    int skipped = SAFETY_POINTS - count_bits(app->task.safety_ticked);
    run_command(&app->run, PB_COMMAND_MARK,
                (double)(PB_MARK_CHECKLIST + (int)app->task.safety_ticked));
    app->task.safety_skipped += skipped;
    if (skipped > 0) {
        char line[120];
        SDL_snprintf(line, sizeof line,
                     app_plural("%d check skipped", "%d checks skipped", skipped), skipped);
        app_notice(app, line, _("It costs points of \"Safety\". On a real job, stop and check."), 0,
                   5);
    }
}

/* Hands in a machine under power are hands lost: ask for the switch first; insisting is recorded
 * and clears nothing. */
void safety_clear_plug(App *app)
{
    const PbSignals *s = &app->run.view->signals;
    if (!s->plugged || s->clear_left_s > 0.0) {
        return;
    }
    if (s->machine_on) {
        int is_insisting = app->program.now_s - app->bay->clear_asked_s < 8.0;
        app->bay->clear_asked_s = is_insisting ? -100.0 : app->program.now_s;
        app_notice(app, _("Switch the machine off first"),
                   is_insisting
                       ? _("Reaching into a hose under power is recorded and costs points.")
                       : _("Off at the machine and unplugged, then clear."),
                   0, 8);
        if (is_insisting) {
            app->task.safety_skipped++;
            run_command(&app->run, PB_COMMAND_MARK, PB_MARK_PLUG_POWER_ON);
        }
        return;
    }
    run_command(&app->run, PB_COMMAND_MARK, PB_MARK_PLUG_POWER_OFF);
    run_command(&app->run, PB_COMMAND_CLEAR_PLUG, 0.0);
}
