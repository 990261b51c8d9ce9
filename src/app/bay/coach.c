/* Hints while practising, one at a time, in the trade's words; none in a graded run. The coach
 * hears the crew's signals only, so a closed wall gives nothing away. What a notice says already (a
 * plug, a creak, blowing outside) is left to it. */
#include "bay/bay.h"

#include "core/units.h"

#include <stdio.h>

static int words(App *app, PbHint h, char *title, size_t size, const char **text)
{
    switch (h.kind) {
    case PB_HINT_PULL_BACK:
        snprintf(title, size, _("Stalled for %s"), app_fmt(app, 0, h.value, "s"));
        *text = app_said(app, _("Pull back about {step}."));
        return 1;
    case PB_HINT_LEFT_EARLY:
        snprintf(title, size, "%s", _("Moved on before the stall"));
        *text = _("Wait until the rattle dies, then two seconds more.");
        return 1;
    case PB_HINT_LONG_STEP:
        snprintf(title, size, _("You pulled %s"), app_fmt_length(app, h.value));
        *text = app_said(app, _("Pull {step} at a time, or it stays soft in between."));
        return 1;
    case PB_HINT_RUNS_AWAY:
        snprintf(title, size, _("%s here and no stall"), app_fmt(app, 0, h.value, "s"));
        *text = _("Stop and look where it goes.");
        return 1;
    default:
        return 0;
    }
}

void coach_frame(App *app)
{
    const PbSignals *s = &app->run.view->signals;
    char title[120];
    const char *text = "";
    if (!app->bay->coach_started || s->time_s < app->bay->coach_s) {
        app->bay->coach = pb_coach_start(&app->run.config.exercise);
        app->bay->coach_started = 1;
        app->bay->coach_s = -1.0;
    }
    if (s->time_s <= app->bay->coach_s || app->task.is_graded || app->guiding.guide.is_on) {
        return;
    }
    app->bay->coach_s = s->time_s;
    PbHint hint = pb_coach_next(&app->bay->coach, s);
    int is_free = app->program.now_s >= app->say.notice.until_s || app->say.is_hint;
    if (is_free && app->run.view->phase == PB_PHASE_WORKING &&
        words(app, hint, title, sizeof title, &text)) {
        app_notice(app, title, text, 0, 1.0);
        app->say.is_hint = 1;
    }
}
