/* What happens to a wall: it is chosen or drawn, the crew does one act after the other, it is
 * opened. After each act what the crew believes is worked out anew. */
#include "wall/wall.h"

#include "core/alloc.h"
#include "io/eras_file.h"
#include "io/exercise_file.h"
#include "io/framing_file.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#define COLD_K 15.0
#define MILD_K 5.0

static const char *const shipped[WALL_SHIPPED] = {"two-bays",      "window-wall", "kitchen",
                                                  "balloon-frame", "stair-wall",  "old-wiring"};

const char *wall_word(int choice)
{
    static const char *const eras[PB_ERAS] = {"era-1900", "era-1925", "era-1955", "era-1978"};
    return choice < WALL_SHIPPED ? shipped[choice] : eras[choice - WALL_SHIPPED];
}

int wall_of_word(const char *word)
{
    for (int n = 0; n < WALL_CHOICES; n++) {
        if (strcmp(word, wall_word(n)) == 0) {
            return n;
        }
    }
    return -1;
}

void wall_close(Wall *w)
{
    wall_crew_drop(w);
    pb_bays_destroy(w->parts);
    pb_job_destroy(w->job);
    w->job = NULL;
    w->crew = NULL;
    w->truth = NULL;
    w->parts = NULL;
}

/* Parts get their numbers in the order of pb_bays_list, so that they stand from left to right. */
static int believe(Wall *w)
{
    PbAllocator allocator = pb_allocator_default();
    int count, number = 0;
    pb_bays_destroy(w->parts);
    w->parts = NULL;
    w->lumber_count = pb_crew_lumber(w->crew, w->lumber);
    pb_crew_framing(w->crew, &pb_job_framing(w->job)->like, &w->belief);
    if (pb_bays_create(&w->belief, &allocator, &w->parts) != PB_OK) {
        return 0;
    }
    (void)pb_bays_list(w->parts, &count);
    if (count > WALL_PARTS) {
        return 0;
    }
    pb_crew_parts(w->crew, w->parts, w->known);
    for (int n = 0; n < count; n++) {
        w->number[n] = w->known[n].is_felt ? ++number : 0;
    }
    wall_count_bags(w);
    return 1;
}

static PbStatus get_wall(App *app, int choice, uint64_t seed, PbFraming *framing, PbError *err)
{
    char name[64], path[700], folder[700];
    PbEra eras[PB_ERAS];
    snprintf(name, sizeof name, "walls/%s.json", choice < WALL_SHIPPED ? shipped[choice] : "eras");
    if (!app_find(&app->options, name, path, sizeof path)) {
        return pb_fail(err, PB_ERR_IO, "%s", name);
    }
    if (choice >= WALL_SHIPPED) {
        PB_TRY(io_eras_load(path, eras, err));
        pb_generate_wall(&eras[choice - WALL_SHIPPED], pb_era_years[choice - WALL_SHIPPED], seed,
                         framing);
        return PB_OK;
    }
    snprintf(folder, sizeof folder, "%s", path);
    *strstr(folder, "/walls/") = '\0';
    const char *const folders[] = {folder};
    return io_framing_load(path, folders, 1, framing, err);
}

/* Bags that went into each believed part: what the crew counted at the machine. */
void wall_count_bags(Wall *w)
{
    int count;
    (void)pb_bays_list(w->parts, &count);
    w->packed_count = 0;
    for (int n = 0; n < count; n++) {
        w->bags[n] = -1.0;
    }
    for (int i = 0; i < pb_job_fill_count(w->job); i++) {
        const PbJobFill *fill = pb_job_fill(w->job, i);
        const PbCrewHole *h = &w->crew->holes[fill->holes[0]];
        int part = pb_bays_at(w->parts, h->x_m, h->y_m);
        w->packed_count += fill->is_run;
        if (fill->is_run && part >= 0) {
            w->bags[part] =
                fmax(w->bags[part], 0.0) +
                (fill->result.mass_fed_kg - fill->result.ledger.in_hose_kg) / fill->exercise.bag_kg;
        }
    }
}

static PbStatus begin_job(Wall *w, const PbFraming *framing, PbError *err)
{
    int count;
    PbJobConfig *config = calloc(1, sizeof *config);
    if (config == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "there is not enough memory");
    }
    config->framing = *framing;
    config->constants = pb_constants_default();
    config->seed = w->seed;
    config->cells_across = PB_GRID_DEFAULT;
    config->allocator = pb_allocator_default();
    config->hands[0] = pb_job_hands_default();
    config->hand_count = 1;
    PbStatus status = io_exercise_constants(&framing->like, &config->constants, err);
    if (status == PB_OK) {
        status = pb_job_create(config, &w->job, err);
    }
    free(config);
    PB_TRY(status);
    w->crew = pb_job_crew(w->job);
    w->truth = pb_job_bays(w->job);
    (void)pb_bays_list(w->truth, &count);
    return count <= WALL_PARTS && count <= PB_JOB_BAYS && believe(w)
               ? PB_OK
               : pb_fail(err, PB_ERR_MEMORY, "there is not enough memory");
}

int wall_stand(App *app, const PbFraming *framing)
{
    Wall *w = app->wall;
    PbError err = {0};
    wall_close(w);
    if (begin_job(w, framing, &err) != PB_OK || w->crew == NULL) {
        wall_close(w);
        w->phase = WALL_CHOOSE;
        app_notice(app, _("The wall could not be read"), err.message, 0, 10);
        return 0;
    }
    w->phase = WALL_CLOSED;
    w->delta_k = w->seed % 3 == 0 ? MILD_K : COLD_K;
    w->x_m = fmin(0.3, 0.5 * w->crew->length_m);
    w->y_m = fmin(1.2, 0.5 * w->crew->height_m);
    w->is_measuring = w->is_job = w->is_marks = w->is_crew_on = w->is_crew_done = 0;
    w->refusal = REFUSED_NOT;
    w->pending = w->told_fill = -1;
    w->pending_run = w->kept_id = 0;
    w->kept_acts = w->is_catching_up = 0;
    memset(w->is_past, 0, sizeof w->is_past);
    app->turn.home = app->turn.focus_next = ID_WALL_FACE;
    return 1;
}

int wall_begin(App *app, int choice, uint64_t seed)
{
    Wall *w = app->wall;
    PbError err = {0};
    PbFraming *framing = malloc(sizeof *framing);
    PbStatus status = framing != NULL ? get_wall(app, choice, seed, framing, &err)
                                      : pb_fail(&err, PB_ERR_MEMORY, "there is not enough memory");
    int is_there = 0;
    w->choice = choice;
    w->seed = seed;
    if (framing != NULL && status == PB_OK) {
        is_there = wall_stand(app, framing);
    } else {
        wall_close(w);
        w->phase = WALL_CHOOSE;
        app_notice(app, _("The wall could not be read"), err.message, 0, 10);
    }
    free(framing);
    return is_there;
}

static WallRefusal refusal_of(const Wall *w, const PbJobAct *a, PbStatus status)
{
    if (w->crew->is_stopped &&
        (a->kind != PB_JOB_WALL || !pb_crew_act_traits(a->wall.kind)->is_allowed_stopped)) {
        return REFUSED_STOPPED;
    }
    if (status != PB_ERR_STATE) {
        return REFUSED_COVER;
    }
    switch (a->kind) {
    case PB_JOB_WALL:
        return a->wall.kind == PB_CREW_CAMERA                                  ? REFUSED_WARM
               : a->wall.kind == PB_CREW_DRILL || a->wall.kind == PB_CREW_TUBE ? REFUSED_HOLE
                                                                               : REFUSED_FULL;
    case PB_JOB_SEAL:
        return REFUSED_OPENING;
    case PB_JOB_FILL:
        return REFUSED_TUBE;
    default:
        return REFUSED_FULL;
    }
}

int wall_act(App *app, const PbJobAct *a)
{
    Wall *w = app->wall;
    PbError err;
    PbStatus status = pb_job_act(w->job, a, &err);
    w->refusal = status == PB_OK ? REFUSED_NOT : refusal_of(w, a, status);
    w->told_fill = status == PB_OK ? -1 : w->told_fill;
    w->is_crew_done = 0;
    if (status == PB_OK) {
        wall_keep_acts(app);
    }
    return status == PB_OK && (a->kind != PB_JOB_WALL || wall_believe(app));
}

int wall_believe(App *app)
{
    if (!believe(app->wall)) {
        wall_close(app->wall);
        app->wall->phase = WALL_CHOOSE;
        app_notice(app, _("Not enough memory"), "", 0, 5);
        return 0;
    }
    return 1;
}

int wall_hole_near(const Wall *w)
{
    int best = -1;
    double nearest = PB_JOB_NEAR_M;
    for (int n = 0; n < w->crew->hole_count; n++) {
        const PbCrewHole *h = &w->crew->holes[n];
        double dx = h->x_m - w->x_m, dy = h->y_m - w->y_m, away = sqrt(dx * dx + dy * dy);
        if (h->met == PB_FEEL_NOTHING && away < nearest) {
            nearest = away;
            best = n;
        }
    }
    return best;
}

int wall_is_missed(const Wall *w, int bay)
{
    int count;
    const PbFramedBay *b = &pb_bays_list(w->truth, &count)[bay];
    PbJobBayKind kind = w->marks.bays[bay].kind;
    return w->is_job ? kind == PB_JOB_BAY_MISSED || kind == PB_JOB_BAY_PASSED
                     : !w->found[bay].is_found && !b->is_narrow;
}

/* Has the crew done more than to look for bays? */
static int is_job(const Wall *w)
{
    int count;
    const PbJobDone *d = pb_job_done(w->job, &count);
    for (int i = 0; i < count; i++) {
        if (d[i].act.kind == PB_JOB_CHECK || d[i].act.kind == PB_JOB_FILL) {
            return 1;
        }
    }
    return 0;
}

void wall_open(App *app)
{
    Wall *w = app->wall;
    int count;
    const PbFramedBay *bays = pb_bays_list(w->truth, &count);
    if (wall_is_packing(w)) {
        w->refusal = REFUSED_WORK;
        return;
    }
    pb_crew_compare(w->crew, w->truth, w->parts, w->found);
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
    w->is_job = is_job(w);
    if (w->is_job) {
        pb_job_mark(w->job, &w->marks);
    }
    wall_keep_end(app);
    w->phase = WALL_OPENED;
}
