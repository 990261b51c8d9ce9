/* Bays that are packed. By hand, or watched: the bay room has the session, and when it is over the
 * job books it. By the crew: a thread a bay, which has its session and nothing else; the job itself
 * is changed here alone, between two frames. Stopped, a session stays where it is and goes on from
 * there. */
#include "wall/wall.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int wall_fill_number(const Wall *w, const PbJobFill *fill)
{
    for (int i = 0; i < pb_job_fill_count(w->job); i++) {
        if (pb_job_fill(w->job, i) == fill) {
            return i;
        }
    }
    return -1;
}

int wall_is_packing(const Wall *w)
{
    for (int i = 0; i < pb_job_fill_count(w->job); i++) {
        if (!pb_job_fill(w->job, i)->is_run) {
            return 1;
        }
    }
    return 0;
}

static int bay_of(const Wall *w, int hole)
{
    return pb_bays_at(w->truth, w->crew->holes[hole].x_m, w->crew->holes[hole].y_m);
}

/* The bay behind a hole is begun, with all clear holes that lead into it, this one first. Returns
 * the number of the fill, or -1 and the refusal says why. */
static int begin(App *app, int hole, int hands)
{
    Wall *w = app->wall;
    int bay = bay_of(w, hole);
    for (int k = -1; k < w->crew->hole_count; k++) {
        int n = k < 0 ? hole : k;
        const PbCrewHole *h = &w->crew->holes[n];
        if ((k >= 0 && n == hole) || h->met != PB_FEEL_NOTHING || bay_of(w, n) != bay) {
            continue;
        }
        PbJobAct a = {.kind = PB_JOB_FILL, .hands = hands};
        a.wall.x_m = h->x_m;
        a.wall.y_m = h->y_m;
        if (!wall_act(app, &a) && k < 0) {
            return -1;
        }
    }
    w->refusal = REFUSED_NOT; /* of a further hole that the tube does not go in */
    return wall_fill_number(w, pb_job_fill_of(w->job, bay));
}

static void booked(App *app, int fill, PbWatched *watched)
{
    Wall *w = app->wall;
    PbError err = {0};
    if (pb_job_fill_done(w->job, fill, watched, &err) != PB_OK) {
        app_notice(app, _("The bay could not be booked"), err.message, 0, 10);
        return;
    }
    w->told_fill = fill;
    w->refusal = REFUSED_NOT;
    wall_count_bags(w);
}

/* The session that waits is the one at hand in the bay room. */
static int is_at_hand(const App *app)
{
    const Wall *w = app->wall;
    PbSessionConfig config;
    PbError err;
    return w->pending >= 0 && app->task.is_fill && app->run.watched.session != NULL &&
           pb_job_fill_config(w->job, w->pending, &config, &err) == PB_OK &&
           app->run.config.seed == config.seed &&
           strcmp(app->run.config.exercise.id, config.exercise.id) == 0;
}

/* The bay room, at the fill that waits: where it was left, or at its start. */
static void to_bay(App *app)
{
    Wall *w = app->wall;
    PbSessionConfig config;
    PbJobWorker worker;
    PbError err = {0};
    if (is_at_hand(app) && app_has_run(app)) {
        app_go(app, SCREEN_BAY);
        return;
    }
    if (w->pending_run != 0) { /* left when the program ended */
        app_ask_fill_on(app, w->pending_run);
        return;
    }
    PbStatus status = pb_job_fill_config(w->job, w->pending, &config, &err);
    if (status == PB_OK && w->is_watching) {
        status = pb_job_fill_worker(w->job, w->pending, &worker, &err);
    }
    if (status != PB_OK) {
        app_notice(app, _("This bay cannot be packed"), err.message, 0, 10);
        return;
    }
    /* by the crew's own number: the wall's would tell what was not found */
    const PbCrewHole *h = &w->crew->holes[pb_job_fill(w->job, w->pending)->holes[0]];
    int part = pb_bays_at(w->parts, h->x_m, h->y_m);
    snprintf(config.exercise.title, sizeof config.exercise.title, _("%s, bay %d"),
             wall_name(w->choice), part >= 0 ? w->number[part] : 0);
    app_ask_fill(app, &config, w->is_watching ? &worker : NULL);
}

static void pack(App *app, int fill, int is_watching)
{
    Wall *w = app->wall;
    if (pb_job_fill(w->job, fill)->is_small) {
        booked(app, fill, NULL);
        return;
    }
    w->pending = fill;
    w->is_watching = is_watching;
    to_bay(app);
}

void wall_fill_by_hand(App *app)
{
    Wall *w = app->wall;
    int hole = wall_hole_near(w);
    if (w->pending >= 0) { /* one hose: what was begun comes first */
        to_bay(app);
        return;
    }
    if (hole < 0) {
        w->refusal = REFUSED_HOLE;
        return;
    }
    const PbJobFill *before = pb_job_fill_of(w->job, bay_of(w, hole));
    if (before != NULL) {
        w->refusal = before->is_run ? REFUSED_PACKED : REFUSED_WORK;
        return;
    }
    int fill = begin(app, hole, 0);
    if (fill >= 0) {
        pack(app, fill, 0);
    }
}

void wall_come_back(App *app)
{
    Wall *w = app->wall;
    if (!is_at_hand(app) || !app->run.watched.is_ended) {
        return;
    }
    int fill = w->pending;
    w->pending = -1;
    w->pending_run = 0;
    booked(app, fill, &app->run.watched);
    run_free(&app->run); /* no room shows the inside of it before the wall is opened */
    memset(&app->run.watched, 0, sizeof app->run.watched);
    app->run.is_crew = app->task.is_fill = 0;
    app->task.sight = app->task.practice_sight;
}

/* --- the crew --- */

static int work(void *user)
{
    WallSlot *s = user;
    PbCommand commands[16];
    PbStatus status = PB_OK;
    /* all cores: a thread of low priority gives way to the window */
    SDL_SetThreadPriority(SDL_THREAD_PRIORITY_LOW);
    while (!s->watched->is_ended && status == PB_OK && !SDL_AtomicGet(&s->stop)) {
        const PbView *view = pb_session_view(s->watched->session);
        int count = pb_job_worker_next(&s->worker, view, commands);
        status = pb_watched_step(s->watched, commands, count);
        SDL_AtomicSet(&s->mouth_mm, (int)(view->mouth_y_m * 1000.0));
    }
    if (s->watched->is_ended && status == PB_OK) {
        status = pb_watched_mark(s->watched);
    }
    SDL_AtomicSet(&s->status, (int)status);
    SDL_AtomicSet(&s->is_over, 1);
    return 0;
}

static void wait_for(WallSlot *s)
{
    if (s->thread != NULL) {
        SDL_WaitThread(s->thread, NULL);
        s->thread = NULL;
    }
}

static void go(WallSlot *s)
{
    SDL_AtomicSet(&s->stop, 0);
    SDL_AtomicSet(&s->is_over, 0);
    s->thread = SDL_CreateThread(work, "crew", s);
}

static void empty(WallSlot *s)
{
    wait_for(s);
    if (s->watched != NULL) {
        pb_watched_end(s->watched);
        free(s->watched);
        s->watched = NULL;
    }
    s->fill = -1;
}

void wall_crew_rest(Wall *w)
{
    for (int i = 0; i < WALL_SLOTS; i++) {
        SDL_AtomicSet(&w->slot[i].stop, 1);
    }
    for (int i = 0; i < WALL_SLOTS; i++) {
        wait_for(&w->slot[i]);
    }
}

void wall_crew_drop(Wall *w)
{
    wall_crew_rest(w);
    for (int i = 0; i < WALL_SLOTS; i++) {
        empty(&w->slot[i]);
    }
    w->is_crew_on = 0;
}

/* The next clear hole into a bay that is neither packed nor left; -1 = none. */
static int next_hole(const Wall *w)
{
    for (int n = 0; n < w->crew->hole_count; n++) {
        const PbCrewHole *h = &w->crew->holes[n];
        int part = pb_bays_at(w->parts, h->x_m, h->y_m), bay = bay_of(w, n);
        int is_left = part >= 0 && w->known[part].left != PB_LEAVE_NONE;
        if (h->met == PB_FEEL_NOTHING && bay >= 0 && !is_left && !w->is_past[n] &&
            pb_job_fill_of(w->job, bay) == NULL) {
            return n;
        }
    }
    return -1;
}

static int is_in_hand(const Wall *w, int fill)
{
    return w->pending == fill || w->slot[0].fill == fill || w->slot[1].fill == fill;
}

/* The next bay of the crew, begun: one that was begun before the program ended, or the one behind
 * the next hole; -1 = there is none. */
static int next_fill(App *app)
{
    Wall *w = app->wall;
    for (int i = 0; i < pb_job_fill_count(w->job); i++) {
        const PbJobFill *fill = pb_job_fill(w->job, i);
        if (fill->hands == PB_JOB_AS_DONE && !fill->is_run && !is_in_hand(w, i)) {
            return i;
        }
    }
    if (w->is_catching_up) {
        return -1;
    }
    for (int hole = next_hole(w); hole >= 0; hole = next_hole(w)) {
        int fill = begin(app, hole, PB_JOB_AS_DONE);
        if (fill >= 0) {
            return fill;
        }
        w->is_past[hole] = 1;
    }
    return -1;
}

/* 0 = it cannot be packed. */
static int start(App *app, WallSlot *s, int fill)
{
    Wall *w = app->wall;
    PbSessionConfig config = {0};
    PbError err = {0};
    s->watched = calloc(1, sizeof *s->watched);
    PbStatus status = s->watched != NULL ? pb_job_fill_config(w->job, fill, &config, &err)
                                         : pb_fail(&err, PB_ERR_MEMORY, "not enough memory");
    if (status == PB_OK) {
        status = pb_job_fill_worker(w->job, fill, &s->worker, &err);
    }
    if (status == PB_OK) {
        status = pb_watched_start(s->watched, &config, &err);
    }
    if (status != PB_OK) {
        empty(s);
        app_notice(app, _("This bay cannot be packed"), err.message, 0, 10);
        return 0;
    }
    s->fill = fill;
    SDL_AtomicSet(&s->mouth_mm, (int)(config.exercise.holes[0].y_m * 1000.0));
    return 1;
}

static int may_go_on(Wall *w)
{
    for (int i = 0; i < pb_job_fill_count(w->job); i++) {
        const PbJobFill *fill = pb_job_fill(w->job, i);
        if (fill->hands != PB_JOB_AS_DONE && fill->is_run && !fill->is_small) {
            return 1;
        }
    }
    return 0;
}

/* Nonzero when the crew may pack bays now; else the refusal says why not. */
static int is_ready(Wall *w)
{
    int is_busy = w->slot[0].fill >= 0 || w->slot[1].fill >= 0 || w->pending >= 0;
    w->refusal = w->crew->is_stopped            ? REFUSED_STOPPED
                 : !may_go_on(w)                ? REFUSED_NO_OWN
                 : !is_busy && next_hole(w) < 0 ? REFUSED_NONE
                                                : REFUSED_NOT;
    return w->refusal == REFUSED_NOT;
}

void wall_crew_turn(App *app)
{
    Wall *w = app->wall;
    w->is_crew_done = 0;
    if (w->is_crew_on || w->is_catching_up) {
        w->is_crew_on = w->is_catching_up = 0;
        wall_crew_rest(w);
    } else if (w->pending >= 0) {
        w->refusal = REFUSED_WORK;
    } else {
        w->is_crew_on = is_ready(w);
    }
}

void wall_crew_watch(App *app)
{
    Wall *w = app->wall;
    if (w->pending >= 0) {
        to_bay(app);
        return;
    }
    if (!is_ready(w)) {
        return;
    }
    int fill = next_fill(app);
    if (fill >= 0) {
        pack(app, fill, 1);
    } else {
        w->refusal = REFUSED_NONE;
    }
}

/* Packed to the end: into the job. What went wrong ends the crew's work. */
static void take(App *app, WallSlot *s)
{
    Wall *w = app->wall;
    PbStatus status = (PbStatus)SDL_AtomicGet(&s->status);
    wait_for(s);
    if (status != PB_OK) {
        app_notice(app, _("This bay cannot be packed"), pb_status_name(status), 0, 10);
        w->is_crew_on = 0;
    } else if (s->watched->is_ended) {
        booked(app, s->fill, s->watched);
        empty(s);
    }
}

void wall_crew_frame(App *app)
{
    Wall *w = app->wall;
    int busy = 0;
    for (int i = 0; w->phase == WALL_CLOSED && i < WALL_SLOTS; i++) {
        WallSlot *s = &w->slot[i];
        if (s->thread != NULL && SDL_AtomicGet(&s->is_over)) {
            take(app, s);
        }
        int is_on = w->is_crew_on || w->is_catching_up;
        int fill = is_on && s->fill < 0 ? next_fill(app) : -1;
        while (fill >= 0 && pb_job_fill(w->job, fill)->is_small) {
            booked(app, fill, NULL);
            fill = next_fill(app);
        }
        if (fill >= 0 && !start(app, s, fill)) {
            w->is_crew_on = w->is_catching_up = is_on = 0;
        }
        if (is_on && s->fill >= 0 && s->thread == NULL) {
            go(s);
        }
        busy += s->fill >= 0;
    }
    if ((w->is_crew_on || w->is_catching_up) && busy == 0) {
        w->is_crew_on = w->is_catching_up = 0;
        w->is_crew_done = 1;
    }
}
