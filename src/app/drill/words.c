/* Sentences of the drill room. */
#include "drill/drill.h"

#include <math.h>

const char *drill_what_it_was(const App *app, PbDrillKind kind)
{
    switch (kind) {
    case PB_DRILL_STALL:
        return app_said(app,
                        _("A stall: the rattle stops and the machine labors. Pull back {step}."));
    case PB_DRILL_CLOG:
        return _("A clog: the blower sagged and the line choked. Shut down before anything else.");
    case PB_DRILL_CREAK:
        return _("The face creaked: pull back or turn the blower down.");
    case PB_DRILL_STARVED:
        return _("The hopper ran empty: the rattle stops, the machine runs free. No need to pull.");
    default:
        return _("Nothing happened: steady flow.");
    }
}

const char *drill_said(const App *app, const PbDrillTrial *trial, const PbDrillAnswer *a)
{
    char *out = app_figure_room(app);
    const char *s = isfinite(a->error_s) ? app_fmt(app, 1, fabs(a->error_s), "s") : "";
    (void)trial;
    switch (a->outcome) {
    case PB_DRILL_GOOD:
        SDL_snprintf(out, 64, _("Good: %s after it"), s);
        break;
    case PB_DRILL_SOON:
        return _("A little soon: be sure first");
    case PB_DRILL_LATE:
        SDL_snprintf(out, 64, _("Late: %s after it"), s);
        break;
    case PB_DRILL_MISSED:
        return _("Missed");
    case PB_DRILL_FALSE:
        if (!isfinite(a->error_s)) {
            return _("Pressed, and nothing called for it");
        }
        SDL_snprintf(out, 64, _("Too early: %s before it"), s);
        break;
    default:
        return _("Right: no press");
    }
    return out;
}

const char *drill_verdict_said(PbDrillVerdict verdict)
{
    return verdict == PB_DRILL_CAN_TELL ? _("You can tell it.")
           : verdict == PB_DRILL_NOT_YET
               ? _("Not yet: too many missed, or pressed before anything happened.")
               : _("No verdict yet: there is too little evidence. The next sitting adds to it.");
}

void drill_line(const App *app, int good, int of, double median_s, char *out, size_t size)
{
    if (isfinite(median_s)) {
        SDL_snprintf(out, size, _("Stall drill: %d of %d, median %s"), good, of,
                     app_fmt(app, 1, median_s, "s"));
    } else {
        SDL_snprintf(out, size, _("Stall drill: %d of %d"), good, of);
    }
}
