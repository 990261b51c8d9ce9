/* What is chosen on the house page out of short lists, and what it sets. */
#include "side/form.h"

#include "io/air_words.h"
#include "io/moist_words.h"

#include <string.h>

/* Degree-days are our own choice for places that do not exist; no source. */
const SideTown side_towns[SIDE_TOWN_COUNT] = {
    {"Palm Hollow", "hot-humid", {800.0, 900.0, 1000.0}},
    {"Tidewick", "damp", {1900.0, 2100.0, 2300.0}},
    {"Alder Bend", "normal", {2700.0, 3000.0, 3300.0}},
    {"Plainsend", "normal", {3500.0, 3900.0, 4300.0}},
    {"Frost Hollow", "cold", {4700.0, 5200.0, 5700.0}},
};

int side_pick_count(SidePick pick)
{
    switch (pick) {
    case SIDE_STORIES:
        return PB_STORIES_MOST;
    case SIDE_BUILT:
        return PB_BUILT_KINDS;
    case SIDE_INSIDE_COAT:
    case SIDE_OUTSIDE_COAT:
        return PB_COATS;
    default:
        return PB_SEENS;
    }
}

static PbSeen *seen_of(PbHouseDamp *d, SidePick pick)
{
    return pick == SIDE_LEAKS   ? &d->leaks
           : pick == SIDE_WATER ? &d->water
           : pick == SIDE_BATH  ? &d->bath
                                : &d->no_overhang;
}

int side_pick_chosen(const PbHouse *h, SidePick pick)
{
    PbHouseDamp d = h->damp;
    switch (pick) {
    case SIDE_STORIES:
        return h->air.stories - 1;
    case SIDE_BUILT:
        return (int)h->air.built;
    case SIDE_INSIDE_COAT:
        return (int)d.inside;
    case SIDE_OUTSIDE_COAT:
        return (int)d.outside;
    default:
        return (int)*seen_of(&d, pick);
    }
}

const char *side_pick_words(const PbHouse *h, SidePick pick, int language)
{
    static const char *const stories[PB_STORIES_MOST] = {"1", "2", "3"};
    int chosen = side_pick_chosen(h, pick);
    switch (pick) {
    case SIDE_STORIES:
        return stories[chosen];
    case SIDE_BUILT:
        return io_built_name((PbBuilt)chosen, language);
    case SIDE_INSIDE_COAT:
    case SIDE_OUTSIDE_COAT:
        return io_coat_name((PbCoat)chosen, language);
    default:
        return io_seen_name((PbSeen)chosen, language);
    }
}

void side_form_pick(SideForm *f, SidePick pick, int chosen)
{
    PbHouse *h = &f->house;
    switch (pick) {
    case SIDE_STORIES:
        h->air.stories = chosen + 1;
        break;
    case SIDE_BUILT:
        h->air.built = (PbBuilt)chosen;
        break;
    case SIDE_INSIDE_COAT:
        h->damp.inside = (PbCoat)chosen;
        break;
    case SIDE_OUTSIDE_COAT:
        h->damp.outside = (PbCoat)chosen;
        break;
    default:
        *seen_of(&h->damp, pick) = (PbSeen)chosen;
        break;
    }
}

int side_bay_row(const App *app)
{
    for (int i = 0; i < app->exercises.count; i++) {
        if (strcmp(app->exercises.rows[i].exercise.id, app->side->form.house.bay.id) == 0) {
            return i;
        }
    }
    return -1;
}

const PbExercise *side_bay_near(const App *app, int chosen)
{
    const Exercises *list = &app->exercises;
    int was = side_bay_row(app);
    if (list->count == 0) {
        return NULL;
    }
    int step = chosen == (was - 1 + list->count) % list->count ? -1 : 1;
    for (int i = 0; i < list->count; i++) {
        int at = (chosen + i * step + list->count * list->count) % list->count;
        if (list->rows[at].exercise.must_not_fill[0] == '\0') {
            return &list->rows[at].exercise;
        }
    }
    return NULL;
}
