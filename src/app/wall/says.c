/* Sentences of the job: why an act was refused, what an act told, what is being packed. */
#include "wall/wall.h"

#include "core/units.h"
#include "io/act_words.h"

#include <math.h>
#include <string.h>

/* Standard Work Specifications 4.1101.5: 80 in w.c., as a gauge is read, to the inch. */
static const double LEAST_STATIC_PA = 79.5 * PB_PA_PER_IN_WC;

int wall_refused(const App *app, const char **text)
{
    static const char *const words[] = {
        [REFUSED_COVER] = N_("A cover, glass or a door: nothing is done here."),
        [REFUSED_WARM] =
            N_("Too little difference between room and outdoors: a camera shows nothing."),
        [REFUSED_STOPPED] = N_("The job is stopped: a wire was met."),
        [REFUSED_FULL] = N_("The record is full."),
        [REFUSED_OPENING] = N_("Nobody has found an opening here, or it is sealed already."),
        [REFUSED_PACKED] = N_("This bay is filled already."),
        [REFUSED_TUBE] = N_("The tube does not go in here: another hole is needed."),
        [REFUSED_EMPTY] = N_("Nothing is filled here."),
        [REFUSED_NO_OWN] = N_("Fill one bay by hand first: the crew goes on as you did."),
        [REFUSED_NONE] = N_("No open hole is left for the crew."),
        [REFUSED_WORK] = N_("A bay is being filled: finish that first."),
    };
    const Wall *w = app->wall;
    if (w->refusal == REFUSED_NOT) {
        return 0;
    }
    *text = w->refusal != REFUSED_HOLE ? _(words[w->refusal])
            : w->tool == TOOL_DRILL    ? _("There is a hole already.")
                                       : _("There is no open hole here.");
    return 1;
}

static int number_of(const Wall *w, const PbJobFill *fill)
{
    const PbCrewHole *h = &w->crew->holes[fill->holes[0]];
    int part = pb_bays_at(w->parts, h->x_m, h->y_m);
    return part >= 0 ? w->number[part] : 0;
}

/* What a crew knows of a bay that it has just filled: bags, and what broke. */
static void say_filled(const App *app, char *out, size_t size)
{
    const Wall *w = app->wall;
    const PbJobFill *fill = pb_job_fill(w->job, w->told_fill);
    int number = number_of(w, fill);
    double kg = fill->result.mass_fed_kg - fill->result.ledger.in_hose_kg;
    if (fill->is_small) {
        SDL_snprintf(out, size, _("Bay %d is filled by the hose end: too small for more."), number);
    } else if (fill->result.blow_out) {
        SDL_snprintf(out, size, _("The face of bay %d gave way. The machine is off."), number);
    } else {
        SDL_snprintf(out, size,
                     _("Bay %d took %s bags in %s. What it holds inside, only a core or the opened "
                       "wall tells."),
                     number, wall_fmt_bags(app, kg / fill->exercise.bag_kg),
                     app_fmt_clock(app, fill->result.duration_s));
    }
}

int wall_say_packing(const App *app, char *out, size_t size)
{
    const Wall *w = app->wall;
    int slots = 0;
    for (int n = 0; n < WALL_SLOTS; n++) {
        slots += w->slot[n].fill >= 0;
    }
    if (w->is_crew_on) {
        SDL_snprintf(out, size, _("The crew goes on as you did. Filled so far: %d."),
                     w->packed_count);
    } else if (w->is_catching_up) {
        SDL_snprintf(out, size,
                     _("The job goes on: what the crew had packed is packed again. "
                       "Filled so far: %d."),
                     w->packed_count);
    } else if (w->pending >= 0) {
        SDL_snprintf(out, size, _("Bay %d is half filled: go back to it first."),
                     number_of(w, pb_job_fill(w->job, w->pending)));
    } else if (slots > 0) {
        SDL_snprintf(out, size, "%s",
                     _("The crew has stopped. It goes on from here when you let it."));
    } else if (w->is_crew_done) {
        SDL_snprintf(out, size, _("The crew is done. Filled: %d."), w->packed_count);
    } else if (w->told_fill >= 0) {
        say_filled(app, out, size);
    } else {
        return 0;
    }
    return 1;
}

static void say_check(const App *app, char *out, size_t size)
{
    const Wall *w = app->wall;
    int count, n = 0;
    const PbLeave *list = pb_job_known_leaves(w->job, &count);
    if (count == 0) {
        SDL_snprintf(out, size, "%s",
                     _("Attic, basement, wiring, flues and burners: nothing that speaks against "
                       "filling this wall. What is hidden in it is not known yet."));
        return;
    }
    n = SDL_snprintf(out, size, _("The house was checked. Places to leave or to see to: %d. "),
                     count);
    for (int i = 0; i < count && i < 2 && n > 0 && (size_t)n < size; i++) {
        PbLeaveReason reason = list[i].reason != PB_LEAVE_NONE ? list[i].reason : PB_LEAVE_OPEN_BAY;
        n +=
            SDL_snprintf(out + n, size - (size_t)n, "%s%s: %s", i > 0 ? "; " : "",
                         app_fmt_length(app, list[i].x_m), io_leave_words(reason, app->taste.lang));
    }
}

static void say_test(const App *app, char *out, size_t size)
{
    double pa = pb_job_framing(app->wall->job)->like.machine.static_pa;
    SDL_snprintf(out, size,
                 pa >= LEAST_STATIC_PA
                     ? _("Static pressure with the hose end covered: %s. It is enough for dense "
                         "packing.")
                     : _("Static pressure with the hose end covered: %s. Dense packing asks for "
                         "more: this machine is worn."),
                 app_fmt_pressure(app, pa));
}

static void say_density(const App *app, const PbJobDone *d, char *out, size_t size)
{
    const Wall *w = app->wall;
    double kg_m3 = pb_job_density(w->job, d->act.wall.x_m, d->act.wall.y_m);
    double target = pb_job_framing(w->job)->like.target_kg_m3;
    const char *text;
    if (d->act.kind == PB_JOB_CORE && kg_m3 > 1.0) {
        SDL_snprintf(out, size,
                     _("The core weighs %s; the target is %s. One core tells of one "
                       "place."),
                     app_fmt_density(app, kg_m3, 1), app_fmt_density(app, target, 1));
        return;
    }
    text = kg_m3 < 0.0      ? _("No more than that there is fill here can be told.")
           : kg_m3 < 1.0    ? _("Empty: there is no fill here.")
           : kg_m3 < target ? _("The finger sinks in: it is soft here.")
                            : _("Firm: the finger does not sink in.");
    SDL_snprintf(out, size, "%s", text);
}

static void say_leak(const App *app, char *out, size_t size)
{
    double before, after;
    pb_job_leak(app->wall->job, &before, &after);
    if (before <= 0.0) {
        SDL_snprintf(out, size, "%s", _("No bay is filled that a leak test could compare."));
        return;
    }
    SDL_snprintf(out, size,
                 _("Through the filled bays at 75 Pa: %s before, %s after. Bays that nobody filled "
                   "leak as before."),
                 app_fmt_flow(app, before), app_fmt_flow(app, after));
}

void wall_say_job(const App *app, const PbJobDone *d, char *out, size_t size)
{
    const Wall *w = app->wall;
    const char *text = "";
    switch (d->act.kind) {
    case PB_JOB_CHECK:
        say_check(app, out, size);
        return;
    case PB_JOB_TEST:
        say_test(app, out, size);
        return;
    case PB_JOB_ESTIMATE:
        SDL_snprintf(out, size,
                     _("Estimate: %s bags, by area, depth and target of the bays found so far."),
                     wall_fmt_bags(app, d->act.bags));
        return;
    case PB_JOB_FINGER:
    case PB_JOB_CORE:
        say_density(app, d, out, size);
        return;
    case PB_JOB_LEAK_TEST:
        say_leak(app, out, size);
        return;
    case PB_JOB_LOOK:
        SDL_snprintf(out, size,
                     _("In sight: %d openings and %d covers. Nothing else is known yet."),
                     w->crew->cutout_count, w->crew->seen_count);
        return;
    case PB_JOB_PROTECT:
        text = _("Sheets lie, the way through the house is covered.");
        break;
    case PB_JOB_SEAL:
        text = _("Sealed.");
        break;
    case PB_JOB_PLUG:
        text = _("The holes are plugged.");
        break;
    case PB_JOB_PATCH:
        text = _("The holes are patched.");
        break;
    case PB_JOB_CLEAN:
        text = _("The room is clean.");
        break;
    case PB_JOB_CAMERA_AFTER:
        text = _("The camera's picture of the whole wall is taken.");
        break;
    case PB_JOB_WRITE:
        text = _("Written down: area, thickness, bags, and what was left and why.");
        break;
    default:
        break;
    }
    SDL_snprintf(out, size, "%s", text);
}
