/* The run: fixed steps, commands by tick, two snapshots to blend, five samples a second for the
 * charts, and the marks once it is over. The wall clock is the caller's affair. */
#include "base/run.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

static void copy_density(float *out, const PbView *v)
{
    for (int i = 0; i < v->nx * v->ny; i++) {
        out[i] = (float)v->density_kg_m3[i];
    }
}

int run_is_judged(const PbView *v, const PbRubric *rubric, int is_part, double y_m)
{
    int is_over = v->phase != PB_PHASE_WORKING, done = v->lift_count - !is_over;
    if (is_over && !is_part) {
        return 1;
    }
    if (!is_over && fabs(y_m - v->mouth_y_m) < 0.25) {
        return 0;
    }
    for (int i = 0; i < done; i++) {
        if (pb_is_stop(&v->lifts[i], rubric) && fabs(v->lifts[i].mouth_y_m - y_m) < 0.2) {
            return 1;
        }
    }
    return 0;
}

static uint8_t mark_of(const Run *run, const PbPatch *p)
{
    double rho = p->density_kg_m3;
    if (p->free_area_m2 <= 0.0 || rho >= run->config.exercise.target_kg_m3 ||
        !run_is_judged(run->view, &run->watched.rubric, run->is_part, 0.5 * (p->y0_m + p->y1_m))) {
        return 0;
    }
    return rho < run->config.constants.void_kg_m3 ? 2 : 1;
}

/* Patches into a fine raster, so that the shader finds a patch by its place. */
static void refresh_marks(Run *run)
{
    const PbExercise *e = &run->config.exercise;
    run->patch_count = pb_session_patches(run->watched.session, run->patches, RUN_MAX_PATCHES);
    memset(run->marks, 0, (size_t)run->mark_nx * (size_t)run->mark_ny);
    for (int k = 0; k < run->patch_count; k++) {
        const PbPatch *p = &run->patches[k];
        uint8_t mark = mark_of(run, p);
        int x0 = (int)(p->x0_m / e->width_m * run->mark_nx + 0.5);
        int x1 = (int)(p->x1_m / e->width_m * run->mark_nx + 0.5);
        int y0 = (int)(p->y0_m / e->height_m * run->mark_ny + 0.5);
        int y1 = (int)(p->y1_m / e->height_m * run->mark_ny + 0.5);
        for (int y = y0; mark && y < y1 && y < run->mark_ny; y++) {
            for (int x = x0; x < x1 && x < run->mark_nx; x++) {
                run->marks[y * run->mark_nx + x] = mark;
            }
        }
    }
}

/* Room for the pictures of the bay. */
static int has_room(Run *run)
{
    const PbExercise *e = &run->config.exercise;
    size_t cells = (size_t)run->view->nx * (size_t)run->view->ny;
    run->mark_nx = (int)ceil(e->width_m / 0.0125);
    run->mark_ny = (int)ceil(e->height_m / 0.0125);
    run->before = calloc(cells, sizeof(float));
    run->now = calloc(cells, sizeof(float));
    run->blend = calloc(cells, sizeof(float));
    run->marks = calloc((size_t)run->mark_nx, (size_t)run->mark_ny);
    return run->before != NULL && run->now != NULL && run->blend != NULL && run->marks != NULL;
}

static PbStatus make(Run *run, const PbSessionConfig *config, PbError *err)
{
    run->config = *config;
    PB_TRY(pb_watched_start(&run->watched, config, err));
    run->view = pb_session_view(run->watched.session);
    if (!has_room(run)) {
        return pb_fail(err, PB_ERR_MEMORY, "there is not enough memory for the picture of the bay");
    }
    run->is_part = config->exercise.must_not_fill[0] != '\0';
    run->mouth_before_m = run->mouth_now_m = (float)run->view->mouth_y_m;
    run->blocked_s = -100.0;
    refresh_marks(run);
    return PB_OK;
}

PbStatus run_start(Run *run, const PbSessionConfig *config, PbError *err)
{
    Run *made = calloc(1, sizeof *made);
    if (made == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "there is not enough memory for a run");
    }
    PbStatus status = make(made, config, err);
    if (status == PB_OK) {
        run_free(run);
        *run = *made;
    } else {
        run_free(made); /* the run that was there goes on */
    }
    free(made);
    return status;
}

void run_free(Run *run)
{
    io_recorder_close(run->recorder);
    pb_watched_end(&run->watched);
    free(run->before);
    free(run->now);
    free(run->blend);
    free(run->marks);
    run->recorder = NULL;
    run->view = NULL;
    run->before = run->now = run->blend = NULL;
    run->marks = NULL;
}

void run_command(Run *run, PbCommandKind kind, double value)
{
    if (run->view == NULL || run->view->phase != PB_PHASE_WORKING || run->is_crew) {
        return;
    }
    int is_tube = kind == PB_COMMAND_TUBE_TARGET || kind == PB_COMMAND_TUBE_RATE;
    int kept = 0;
    for (int i = 0; i < run->queued; i++) {
        PbCommandKind k = run->queue[i].kind;
        int same = (k == kind && k != PB_COMMAND_MARK) ||
                   (is_tube && (k == PB_COMMAND_TUBE_TARGET || k == PB_COMMAND_TUBE_RATE));
        if (!same) {
            run->queue[kept++] = run->queue[i];
        }
    }
    run->queued = kept;
    if (run->queued >= (int)(sizeof run->queue / sizeof run->queue[0])) {
        return;
    }
    run->queue[run->queued++] = (PbCommand){kind, value};
}

static void collect(Run *run)
{
    const PbView *v = run->view;
    int count = 0;
    const PbEvent *events = pb_session_events(run->watched.session, &count);
    for (int i = 0; i < count; i++) {
        if (events[i].kind == PB_EVENT_TUBE_BLOCKED) {
            run->blocked_s = v->time_s;
        } else if (events[i].kind == PB_EVENT_BLOW_OUT) {
            run->blow_out_y_m = events[i].y_m;
        }
        if (run->event_count < (int)(sizeof run->events / sizeof run->events[0])) {
            run->events[run->event_count++] = events[i];
        }
    }
    double pa = v->signals.blower_pa;
    if (v->lift_count != run->stop_seen) {
        run->stop_seen = v->lift_count;
        run->stop_pressure_pa = run->stop_max_pa = run->stop_min_pa = pa;
    }
    run->stop_max_pa = fmax(run->stop_max_pa, pa);
    run->stop_min_pa = fmin(run->stop_min_pa, pa);
}

/* Without memory for it, it is tried again at the next tick. */
static void finish(Run *run)
{
    refresh_marks(run);
    run->status = pb_watched_mark(&run->watched);
}

void run_tick(Run *run)
{
    float *swap = run->before;
    const PbSession *session = run->watched.session;
    if (session == NULL || run->watched.has_score) {
        return;
    }
    if (run->watched.is_ended) {
        finish(run);
        return;
    }
    PbJobWorker before = run->crew;
    if (run->is_crew) {
        run->queued = pb_job_worker_next(&run->crew, run->view, run->queue);
    }
    run->status = pb_watched_step(&run->watched, run->queue, run->queued);
    if (run->status == PB_ERR_MEMORY) {
        run->crew = before;
        return; /* nothing has changed; the commands wait */
    }
    if (run->recorder != NULL && run->status == PB_OK) {
        io_recorder_step(run->recorder, session, run->queue, run->queued);
    }
    for (int i = 0; i < run->queued; i++) {
        run->is_worked |= run->queue[i].kind != PB_COMMAND_MARK;
    }
    run->queued = 0;
    const PbView *v = run->view;
    run->before = run->now;
    run->now = swap;
    copy_density(run->now, v);
    run->mouth_before_m = run->mouth_now_m;
    run->tube_before_m = run->tube_now_m;
    run->mouth_now_m = (float)v->mouth_y_m;
    run->tube_now_m = (float)v->signals.tube_in_m;
    collect(run);
    if (v->tick % PB_SAMPLE_TICKS == 0) {
        refresh_marks(run);
    }
    run->version++;
    if (run->watched.is_ended) {
        finish(run);
    }
}

void run_advance(Run *run, double dt_s, int max_steps)
{
    int steps = 0;
    run->accumulator_s += dt_s;
    while (run->accumulator_s >= PB_TICK_S && steps < max_steps) {
        run_tick(run);
        run->accumulator_s -= PB_TICK_S;
        steps++;
    }
    if (run->accumulator_s >= PB_TICK_S) {
        run->dropped_s += run->accumulator_s;
        run->accumulator_s = 0.0;
    }
    run->alpha = run->accumulator_s / PB_TICK_S;
}

GfxFieldData run_field(Run *run)
{
    const PbView *v = run->view;
    float a = (float)run->alpha;
    if (v == NULL) {
        return (GfxFieldData){0};
    }
    for (int i = 0; i < v->nx * v->ny; i++) {
        run->blend[i] = run->before[i] + (run->now[i] - run->before[i]) * a;
    }
    return (GfxFieldData){.nx = v->nx,
                          .ny = v->ny,
                          .density = run->blend,
                          .mark_nx = run->mark_nx,
                          .mark_ny = run->mark_ny,
                          .marks = run->marks};
}

double run_mouth_y(const Run *run)
{
    return (double)run->mouth_before_m +
           (double)(run->mouth_now_m - run->mouth_before_m) * run->alpha;
}

double run_tube_in(const Run *run)
{
    double in =
        (double)run->tube_before_m + (double)(run->tube_now_m - run->tube_before_m) * run->alpha;
    return in > 0.0 ? in : 0.0; /* a tube that hangs before the hole is not in it */
}

const PbHole *run_hole(const Run *run)
{
    return &run->config.exercise.holes[run->view != NULL ? run->view->signals.acts.hole : 0];
}

double run_tube_max(const Run *run)
{
    const PbExercise *e = &run->config.exercise;
    if (run->view == NULL) {
        return 0.0;
    }
    double hole_m = run_hole(run)->y_m;
    double way = run->view->signals.direction > 0 ? e->height_m - hole_m : hole_m;
    return way < e->machine.tube_length_m ? way : e->machine.tube_length_m;
}
