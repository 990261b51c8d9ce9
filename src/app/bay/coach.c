/* The one sentence over the bay while practising, in the trade's words; none in a graded run. It is
 * told what a crew senses and nothing else, so a closed wall gives nothing away. The guide says the
 * same in the same words. What to say is decided in core/voice.h. */
#include "bay/bay.h"

#include "core/units.h"

#include <math.h>
#include <stdio.h>

/* First what is so or what to do, then more about it. The more harmful half. */
static const char *harm_words(App const *app, PbSaid s, char *title, size_t size)
{
    switch (s.say) {
    case PB_SAY_CREAKS:
        snprintf(title, size, "%s", _("The wall creaks"));
        return _("Pull back or turn the blower down.");
    case PB_SAY_CLOG_OFF:
        snprintf(title, size, "%s", _("Clogged: switch off"));
        return _("Clear it: shut down, open the hose, dump what is in it.");
    case PB_SAY_CLOG_CLEAR:
        snprintf(title, size, "%s", _("Clogged: clear the hose"));
        return _("Clear it: shut down, open the hose, dump what is in it.");
    case PB_SAY_CLEARING:
        snprintf(title, size, _("Clearing the clog: %s left"), app_fmt(app, 0, ceil(s.value), "s"));
        return clog_words(app);
    case PB_SAY_OUTSIDE:
        snprintf(title, size, "%s", _("Blowing outside the bay"));
        return _("Push the tube in or switch off.");
    case PB_SAY_RUNS_AWAY:
        snprintf(title, size, _("%s here and no stall"), app_fmt(app, 0, s.value, "s"));
        return _("Stop and look where it goes.");
    case PB_SAY_BLEEDING:
        snprintf(title, size, "%s", _("Pressure bleeding"));
        return _("Leave the tube where it is until the needle is down.");
    default:
        return NULL;
    }
}

static const char *fault_words(App const *app, PbSaid s, char *title, size_t size)
{
    switch (s.say) {
    case PB_SAY_LONG_PULL:
        snprintf(title, size, _("You pulled %s"), app_fmt_length(app, s.value));
        return app_said(app, _("Pull {step} at a time, or it stays soft in between."));
    case PB_SAY_TOO_EARLY:
        snprintf(title, size, "%s", _("Moved on before the stall"));
        return _("Wait until the rattle dies, then two seconds more.");
    case PB_SAY_TOO_LATE:
        snprintf(title, size, _("Stalled for %s"), app_fmt(app, 0, s.value, "s"));
        return app_said(app, _("Pull back about {step}."));
    case PB_SAY_WEAK_AIR:
        snprintf(title, size, "%s", _("The air is weak"));
        return _("Turn the blower up, or the fill stays soft.");
    default:
        return NULL;
    }
}

static const char *act_words(App const *app, PbSaid s, char *title, size_t size)
{
    static const struct {
        const char *title, *text;
    } acts[PB_SAYS] = {
        [PB_SAY_PULL] = {N_("Stalled: pull back {step}"), ""},
        [PB_SAY_OFF] = {N_("Switch off"), N_("This end is packed up to the hole.")},
        [PB_SAY_FINISH] = {N_("Close the hole"), N_("Both ends are packed.")},
        [PB_SAY_BACK] = {N_("Pull the tube back to the hole"),
                         N_("Then turn it to the end that is empty.")},
        [PB_SAY_TURN] = {N_("Turn the tube"), N_("The other end is still empty.")},
        [PB_SAY_PUSH_IN] = {N_("Push the tube in"), N_("To the far end, with the machine off.")},
        [PB_SAY_ON] = {N_("Switch the machine on"), ""},
        [PB_SAY_AIR_FIRST] = {N_("Wait for the stall"),
                              N_("Air first: cellulose is on its way down the hose. Listen for the "
                                 "rattle.")},
        [PB_SAY_WAIT] = {N_("Wait for the stall"),
                         N_("It rattles: cellulose is flowing. Stay until the rattle thins.")}};
    if (acts[s.say].title == NULL) {
        return NULL;
    }
    snprintf(title, size, "%s", app_said(app, _(acts[s.say].title)));
    return acts[s.say].text[0] != '\0' ? _(acts[s.say].text) : "";
}

int coach_words(const App *app, PbSaid s, char *title, char *text, size_t size)
{
    const char *more = harm_words(app, s, title, size);
    more = more != NULL ? more : fault_words(app, s, title, size);
    more = more != NULL ? more : s.say < PB_SAY_NOTHING ? act_words(app, s, title, size) : NULL;
    if (more == NULL) {
        return 0;
    }
    snprintf(text, size, "%s", more);
    return 1;
}

int coach_speaks(const App *app)
{
    return !app->task.is_graded && !app->run.is_crew && !app->guiding.guide.is_on &&
           app->run.view->phase == PB_PHASE_WORKING;
}

/* Beside the sliders there is no line: a fault is a notice there. */
static void notice_of(App *app, PbSaid s)
{
    char title[200], text[200];
    int is_free = app->program.now_s >= app->say.notice.until_s || app->say.is_hint;
    int is_fault = s.say == PB_SAY_RUNS_AWAY || s.say == PB_SAY_LONG_PULL ||
                   s.say == PB_SAY_TOO_EARLY || s.say == PB_SAY_TOO_LATE;
    if (is_free && is_fault && coach_words(app, s, title, text, sizeof title)) {
        app_notice(app, title, text, 0, 1.0);
        app->say.is_hint = 1;
    }
}

void coach_frame(App *app)
{
    const PbSignals *s = &app->run.view->signals;
    Bay *b = app->bay;
    if (!b->coach_started || s->time_s < b->coach_s) {
        b->voice = pb_voice_start(&app->run.config.exercise, &app->run.watched.rubric);
        b->said = (PbSaid){PB_SAY_NOTHING, 0.0};
        b->coach_started = 1;
        b->coach_s = -1.0;
    }
    if (s->time_s <= b->coach_s) {
        return;
    }
    b->coach_s = s->time_s;
    b->said = pb_voice_next(&b->voice, s);
    if (b->is_full && coach_speaks(app)) {
        notice_of(app, b->said);
    }
}
