/* What the room of the wall says: one sentence, of what the last act told or of what comes next. */
#include "wall/wall.h"

#include "io/job_words.h"

#include <math.h>
#include <string.h>

static const char *const names[WALL_CHOICES] = {
    N_("Two bays beside an outlet"), N_("A wall with one window"), N_("A kitchen wall"),
    N_("A wall of two stories"),     N_("A wall along a stair"),   N_("A bedroom wall"),
    N_("Drawn: about 1900"),         N_("Drawn: about 1925"),      N_("Drawn: about 1955"),
    N_("Drawn: about 1978"),
};
static const char *const leaves[WALL_LEAVES] = {N_("Find"), N_("Open up"), N_("Fill"), N_("Close"),
                                                N_("Prove")};

const char *wall_name(int choice)
{
    return _(names[choice]);
}

const char *wall_leaf_name(WallLeaf leaf)
{
    return _(leaves[leaf]);
}

/* As a crew counts them: to a tenth. */
const char *wall_fmt_bags(const App *app, double bags)
{
    return app_fmt(app, 1, bags, "");
}

/* A length as a rod or a tape is read: whole millimeters; tenths of an inch. */
const char *wall_fmt(const App *app, double m)
{
    return app_fmt(app, app->taste.is_us ? 1 : 0, io_unit_value(IO_UNIT_SMALL, m, app_reader(app)),
                   app_unit(app, IO_UNIT_SMALL));
}

static void say_rod(const App *app, const PbCrewAnswer *a, char *out, size_t size)
{
    const char *at = wall_fmt(app, a->reach_m);
    int is_soft = 0;
    for (int n = 1; n < a->layer_count; n++) {
        is_soft |= a->layers[n].feel == PB_FEEL_SOFT;
    }
    if (a->layer_count <= 1) {
        SDL_snprintf(out, size, "%s",
                     a->feel == PB_FEEL_WOOD      ? _("Wood right behind the face.")
                     : a->feel == PB_FEEL_MASONRY ? _("Masonry right behind the face.")
                                                  : _("Metal right behind the face."));
        return;
    }
    int n = 0;
    switch (a->feel) {
    case PB_FEEL_WOOD:
        n = SDL_snprintf(out, size, _("Wood at %s, behind a hollow."), at);
        break;
    case PB_FEEL_METAL:
        n = SDL_snprintf(out, size, _("Metal at %s, behind a hollow: pipe or box."), at);
        break;
    case PB_FEEL_MASONRY:
        n = SDL_snprintf(out, size, _("Masonry at %s, behind a hollow."), at);
        break;
    case PB_FEEL_BACK:
        n = SDL_snprintf(out, size, _("The back at %s, hollow up to there."), at);
        break;
    default:
        n = SDL_snprintf(out, size, _("Hollow for %s, as far as the rod goes."), at);
        break;
    }
    if (is_soft && n > 0 && (size_t)n < size) {
        SDL_snprintf(out + n, size - (size_t)n, " %s",
                     _("Something soft on the way: old batt, or a cable."));
    }
}

static const char *stop_word(PbFeel feel)
{
    return feel == PB_FEEL_WOOD    ? _("wood")
           : feel == PB_FEEL_METAL ? _("metal")
           : feel == PB_FEEL_SOFT  ? _("something soft")
                                   : _("nothing");
}

static void say_tube(const App *app, const PbCrew *crew, char *out, size_t size)
{
    const PbCrewDone *up = &crew->done[crew->done_count - 1];
    const PbCrewDone *down = crew->done_count > 1 ? up - 1 : up;
    SDL_snprintf(out, size, _("Down %s to %s, up %s to %s."), wall_fmt(app, down->answer.reach_m),
                 stop_word(down->answer.feel), wall_fmt(app, up->answer.reach_m),
                 stop_word(up->answer.feel));
}

static const char *said_of_hole(PbFeel met)
{
    switch (met) {
    case PB_FEEL_NOTHING:
        return _("The hole is open. The tube tells how far the bay goes.");
    case PB_FEEL_WIRE:
        return _("A wire. The job stops: power off, and a licensed electrician comes first.");
    case PB_FEEL_WOOD:
        return _("The hole is on wood: a patch for nothing.");
    case PB_FEEL_MASONRY:
        return _("The hole is on masonry: a patch for nothing.");
    default:
        return _("The saw met metal: a box or a pipe.");
    }
}

static void say_act(const App *app, const PbCrew *crew, char *out, size_t size)
{
    int count;
    const PbJobDone *last = pb_job_done(app->wall->job, &count) + count - 1;
    if (last->act.kind != PB_JOB_WALL) { /* perhaps nothing has been done to the wall yet */
        wall_say_job(app, last, out, size);
        return;
    }
    const PbCrewDone *d = &crew->done[crew->done_count - 1];
    const char *text = "";
    switch (d->act.kind) {
    case PB_CREW_TAP:
        text = d->answer.feel == PB_FEEL_HOLLOW ? _("It rings hollow.")
               : pb_finish_traits(crew->finish)->is_dull
                   ? _("Dull, as plaster is everywhere: probe.")
                   : _("It sounds dull: wood, or the edge of it, is near.");
        break;
    case PB_CREW_PROBE:
        say_rod(app, &d->answer, out, size);
        return;
    case PB_CREW_TUBE:
        say_tube(app, crew, out, size);
        return;
    case PB_CREW_MEASURE:
        SDL_snprintf(out, size, _("It is %s by the tape, end to end."),
                     wall_fmt(app, d->answer.reach_m));
        return;
    case PB_CREW_DRILL:
        text = said_of_hole(d->answer.feel);
        break;
    case PB_CREW_CAMERA:
        text = _("Lumber shows faintly, old batts show; wires do not.");
        break;
    case PB_CREW_SENSE:
        text = d->answer.feel == PB_FEEL_WIRE
                   ? _("A live wire is near: no hole here.")
                   : _("No live wire is near. A dead one would not show.");
        break;
    case PB_CREW_LEAVE:
        text = _("Left, with its reason.");
        break;
    case PB_CREW_PENCIL:
        text = _("Drawn: a guess until the rod has met it.");
        break;
    default:
        text = _("Rubbed out.");
        break;
    }
    SDL_snprintf(out, size, "%s", text);
}

static void say_opened(const App *app, const Wall *w, char *out, size_t size)
{
    int missed = w->all_count - w->found_count;
    if (missed == 0) {
        SDL_snprintf(out, size, _("All %d bays were found."), w->all_count);
    } else {
        SDL_snprintf(out, size, _("Found: %d of %d bays, %s of %s. What is ringed was missed."),
                     w->found_count, w->all_count, app_fmt_unit(app, IO_UNIT_AREA, w->found_m2),
                     app_fmt_unit(app, IO_UNIT_AREA, w->all_m2));
    }
}

void wall_says(const App *app, char *out, size_t size)
{
    const Wall *w = app->wall;
    const char *text = NULL;
    int count;
    (void)pb_job_done(w->job, &count);
    if (w->phase == WALL_OPENED && w->is_job) {
        io_job_verdict(&w->marks, app->taste.lang, out, size);
        return;
    }
    if (w->phase == WALL_OPENED) {
        say_opened(app, w, out, size);
        return;
    }
    if (wall_refused(app, &text)) {
        SDL_snprintf(out, size, "%s", text);
    } else if (w->is_measuring) {
        SDL_snprintf(out, size, "%s", _("The tape hangs here: now the other end."));
    } else if (wall_say_packing(app, out, size)) {
        return;
    } else if (count == 0) {
        SDL_snprintf(out, size, "%s",
                     _("Nothing is known of this wall but what is in sight. Find every bay, then "
                       "fill or open it."));
    } else {
        say_act(app, w->crew, out, size);
    }
}
