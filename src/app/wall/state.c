/* What happens to a wall: it is chosen or drawn, the crew does one act after the other, it is
 * opened. After each act what the crew believes is worked out anew. */
#include "wall/wall.h"

#include "core/alloc.h"
#include "io/eras_file.h"
#include "io/framing_file.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define COLD_K 15.0
#define MILD_K 5.0

static const char *const shipped[WALL_SHIPPED] = {"two-bays",      "window-wall", "kitchen",
                                                  "balloon-frame", "stair-wall",  "old-wiring"};

void wall_close(Wall *w)
{
    pb_bays_destroy(w->truth);
    pb_bays_destroy(w->parts);
    w->truth = w->parts = NULL;
}

/* Parts get their numbers in the order of pb_bays_list, so that they stand from left to right. */
static int believe(Wall *w)
{
    PbAllocator allocator = pb_allocator_default();
    int count, number = 0;
    pb_bays_destroy(w->parts);
    w->parts = NULL;
    w->lumber_count = pb_crew_lumber(&w->crew, w->lumber);
    pb_crew_framing(&w->crew, &w->framing.like, &w->belief);
    if (pb_bays_create(&w->belief, &allocator, &w->parts) != PB_OK) {
        return 0;
    }
    (void)pb_bays_list(w->parts, &count);
    if (count > WALL_PARTS) {
        return 0;
    }
    pb_crew_parts(&w->crew, w->parts, w->known);
    for (int n = 0; n < count; n++) {
        w->number[n] = w->known[n].is_felt ? ++number : 0;
    }
    return 1;
}

static PbStatus get_wall(App *app, Wall *w, int choice, PbError *err)
{
    char name[64], path[700], folder[700];
    PbEra eras[PB_ERAS];
    snprintf(name, sizeof name, "walls/%s.json", choice < WALL_SHIPPED ? shipped[choice] : "eras");
    if (!app_find(&app->options, name, path, sizeof path)) {
        return pb_fail(err, PB_ERR_IO, "%s", name);
    }
    if (choice >= WALL_SHIPPED) {
        PB_TRY(io_eras_load(path, eras, err));
        pb_generate_wall(&eras[choice - WALL_SHIPPED], pb_era_years[choice - WALL_SHIPPED], w->seed,
                         &w->framing);
        return PB_OK;
    }
    snprintf(folder, sizeof folder, "%s", path);
    *strstr(folder, "/walls/") = '\0';
    const char *const folders[] = {folder};
    return io_framing_load(path, folders, 1, &w->framing, err);
}

int wall_begin(App *app, int choice, uint64_t seed)
{
    Wall *w = app->wall;
    PbError err = {0};
    PbAllocator allocator = pb_allocator_default();
    int count = 0;
    wall_close(w);
    w->choice = choice;
    w->seed = seed;
    PbStatus status = get_wall(app, w, choice, &err);
    if (status == PB_OK) {
        status = pb_bays_create(&w->framing, &allocator, &w->truth);
    }
    if (status == PB_OK) {
        (void)pb_bays_list(w->truth, &count);
        pb_crew_begin(&w->framing, seed, &w->crew);
    }
    if (status != PB_OK || count > WALL_PARTS || !believe(w)) {
        wall_close(w);
        w->phase = WALL_CHOOSE;
        app_notice(app, _("The wall could not be read"), err.message, 0, 10);
        return 0;
    }
    w->phase = WALL_CLOSED;
    w->delta_k = seed % 3 == 0 ? MILD_K : COLD_K;
    w->x_m = fmin(0.3, 0.5 * w->crew.length_m);
    w->y_m = fmin(1.2, 0.5 * w->crew.height_m);
    w->is_measuring = 0;
    w->refusal = REFUSED_NOT;
    app->turn.home = app->turn.focus_next = ID_WALL_FACE;
    return 1;
}

/* Open hole within a hand of the cursor; -1 = none. */
static int hole_near(const Wall *w)
{
    int best = -1;
    double nearest = 0.15;
    for (int n = 0; n < w->crew.hole_count; n++) {
        const PbCrewHole *h = &w->crew.holes[n];
        double dx = h->x_m - w->x_m, dy = h->y_m - w->y_m, away = sqrt(dx * dx + dy * dy);
        if (h->met == PB_FEEL_NOTHING && away < nearest) {
            nearest = away;
            best = n;
        }
    }
    return best;
}

static WallRefusal refusal_of(const Wall *w, const PbCrewAct *a, PbStatus status)
{
    if (w->crew.is_stopped && !pb_crew_act_traits(a->kind)->is_allowed_stopped) {
        return REFUSED_STOPPED;
    }
    if (status == PB_ERR_STATE) {
        return a->kind == PB_CREW_CAMERA                             ? REFUSED_WARM
               : a->kind == PB_CREW_DRILL || a->kind == PB_CREW_TUBE ? REFUSED_HOLE
                                                                     : REFUSED_FULL;
    }
    return REFUSED_COVER;
}

static int act(App *app, PbCrewAct a)
{
    Wall *w = app->wall;
    PbError err;
    PbStatus status = pb_crew_do(&w->crew, &w->framing, &a, &err);
    w->refusal = status == PB_OK ? REFUSED_NOT : refusal_of(w, &a, status);
    if (status == PB_OK && !believe(w)) {
        wall_close(w);
        w->phase = WALL_CHOOSE;
        app_notice(app, _("Not enough memory"), "", 0, 5);
        return 0;
    }
    return status == PB_OK;
}

static void probe(App *app)
{
    static const double right[WALL_SLANTS] = {0, -1, 1, 0, 0}, up[WALL_SLANTS] = {0, 0, 0, 1, -1};
    Wall *w = app->wall;
    (void)act(app, (PbCrewAct){.kind = PB_CREW_PROBE,
                               .x_m = w->x_m,
                               .y_m = w->y_m,
                               .right_deg = right[w->slant] * PB_CREW_SLANT_MAX_DEG,
                               .up_deg = up[w->slant] * PB_CREW_SLANT_MAX_DEG});
}

/* The first time it is hung up, the second time it is read. */
static void tape(App *app)
{
    Wall *w = app->wall;
    w->refusal = REFUSED_NOT;
    if (!w->is_measuring) {
        w->is_measuring = 1;
        w->tape_x_m = w->x_m;
        w->tape_y_m = w->y_m;
        return;
    }
    w->is_measuring = 0;
    (void)act(app, (PbCrewAct){.kind = PB_CREW_MEASURE,
                               .x_m = w->tape_x_m,
                               .y_m = w->tape_y_m,
                               .x1_m = w->x_m,
                               .y1_m = w->y_m});
}

static void tube(App *app)
{
    int hole = hole_near(app->wall);
    if (act(app, (PbCrewAct){.kind = PB_CREW_TUBE, .hole = hole, .is_up = 0})) {
        (void)act(app, (PbCrewAct){.kind = PB_CREW_TUBE, .hole = hole, .is_up = 1});
    }
}

/* A stud of nominal lumber around the cursor, from plate to plate; where one is drawn, it goes. */
static void pencil(App *app)
{
    static const double stud_m = 0.038;
    Wall *w = app->wall;
    for (int n = 0; n < w->crew.pencilled_count; n++) {
        const PbRect *r = &w->crew.pencilled[n].at;
        if (w->x_m > r->x0_m - 0.02 && w->x_m < r->x1_m + 0.02) {
            (void)act(app, (PbCrewAct){.kind = PB_CREW_RUB_OUT, .x_m = w->x_m, .y_m = w->y_m});
            return;
        }
    }
    double x0 = fmin(fmax(w->x_m - 0.5 * stud_m, 0.0), w->crew.length_m - stud_m);
    (void)act(app, (PbCrewAct){.kind = PB_CREW_PENCIL,
                               .x_m = x0,
                               .x1_m = x0 + stud_m,
                               .y1_m = w->crew.height_m,
                               .member = PB_MEMBER_STUD});
}

void wall_use(App *app)
{
    static const PbCrewActKind kinds[WALL_TOOLS] = {
        [TOOL_TAP] = PB_CREW_TAP,     [TOOL_SENSE] = PB_CREW_SENSE, [TOOL_CAMERA] = PB_CREW_CAMERA,
        [TOOL_DRILL] = PB_CREW_DRILL, [TOOL_LEAVE] = PB_CREW_LEAVE,
    };
    static void (*const own[WALL_TOOLS])(App *) = {
        [TOOL_PROBE] = probe, [TOOL_TAPE] = tape, [TOOL_TUBE] = tube, [TOOL_PENCIL] = pencil};
    Wall *w = app->wall;
    if (w->phase != WALL_CLOSED) {
        return;
    }
    if (own[w->tool] != NULL) {
        own[w->tool](app);
    } else {
        (void)act(app, (PbCrewAct){.kind = kinds[w->tool],
                                   .x_m = w->x_m,
                                   .y_m = w->y_m,
                                   .delta_k = w->delta_k,
                                   .reason = w->reason});
    }
}

void wall_open(App *app)
{
    Wall *w = app->wall;
    int count;
    const PbFramedBay *bays = pb_bays_list(w->truth, &count);
    pb_crew_compare(&w->crew, w->truth, w->parts, w->found);
    w->found_m2 = w->all_m2 = 0.0;
    w->found_count = w->all_count = 0;
    for (int n = 0; n < count; n++) {
        if (!bays[n].is_narrow) { /* no hole of this job would go in */
            w->all_m2 += bays[n].area_m2;
            w->found_m2 += w->found[n].is_found ? bays[n].area_m2 : 0.0;
            w->found_count += w->found[n].is_found;
            w->all_count++;
        }
    }
    w->phase = WALL_OPENED;
}
