/* Runs of simulated hands: one, and many at once. */
#include "lab/teach.h"

#include "core/marks.h"
#include "core/watched.h"
#include "io/climate_file.h"
#include "io/exercise_file.h"
#include "io/parallel.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>

static void softest(const PbScore *s, TeachRun *run)
{
    run->softest_kg_m3 = s->gates[PB_GATE_SLICE].value;
    run->softest_for = PB_FAULT_NONE;
    run->softest_y_m = -1.0;
    for (int i = 0; i < s->loss_count; i++) {
        if (s->losses[i].part == PB_SCORE_WEAKEST) {
            run->softest_for = s->losses[i].cause;
            run->softest_y_m = 0.5 * (s->losses[i].y0_m + s->losses[i].y1_m);
            return;
        }
    }
}

/* A patch belongs to the foot that its middle is in. */
static void by_the_foot(const PbSession *session, TeachRun *run)
{
    static const double NONE = 1e-12;
    PbPatch patches[PB_SCORE_MAX_PATCHES];
    double mass[TEACH_FEET] = {0}, room[TEACH_FEET] = {0};
    double height_m = pb_session_view(session)->exercise->height_m;
    int count = pb_session_patches(session, patches, PB_SCORE_MAX_PATCHES);
    for (int i = 0; i < count; i++) {
        const PbPatch *p = &patches[i];
        int foot = (int)(TEACH_FEET * 0.5 * (p->y0_m + p->y1_m) / height_m);
        foot = foot < TEACH_FEET ? foot : TEACH_FEET - 1;
        mass[foot] += p->free_area_m2 * p->density_kg_m3;
        room[foot] += p->free_area_m2;
    }
    run->least_kg_m3 = 1e9;
    run->most_kg_m3 = 0.0;
    for (int i = 0; i < count; i++) {
        if (patches[i].free_area_m2 > NONE) {
            run->least_kg_m3 = fmin(run->least_kg_m3, patches[i].density_kg_m3);
            run->most_kg_m3 = fmax(run->most_kg_m3, patches[i].density_kg_m3);
        }
    }
    for (int f = 0; f < TEACH_FEET; f++) {
        run->foot_kg_m3[f] = room[f] > NONE ? mass[f] / room[f] : 0.0;
    }
}

static PbStatus step_to_end(PbWatched *w, TeachHand *hand)
{
    while (!w->is_ended) {
        PbCommand commands[16];
        int count = teach_hand_next(hand, &pb_session_view(w->session)->signals, commands);
        PB_TRY(pb_watched_step(w, commands, count));
    }
    return pb_watched_mark(w);
}

PbStatus teach_run(const PbExercise *exercise, const PbClimate *climate, const TeachHabits *habits,
                   uint64_t seed, int cells, TeachRun *run)
{
    PbWatched *w = calloc(1, sizeof *w);
    if (w == NULL) {
        return PB_ERR_MEMORY;
    }
    PbSessionConfig config = pb_session_default();
    config.exercise = *exercise;
    config.seed = seed;
    config.cells_across = cells > 0 ? cells : config.cells_across;
    TeachHand hand = teach_hand_make(habits, exercise, seed);
    PbStatus status = pb_watched_start(w, &config, NULL);
    if (status == PB_OK) {
        w->climate = *climate;
        w->has_climate = 1;
        status = step_to_end(w, &hand);
    }
    if (status == PB_OK) {
        run->score = w->score;
        run->result = w->result;
        run->debrief = pb_debrief(&w->score);
        run->load = w->watch.peak_load;
        softest(&w->score, run);
        run->cleared_live = 0;
        for (int i = 0; i < w->watch.event_count; i++) {
            const PbEvent *e = &w->watch.events[i];
            run->cleared_live += e->kind == PB_EVENT_SAFETY && pb_mark_is_power_on(e->value);
        }
        by_the_foot(w->session, run);
    }
    pb_watched_end(w);
    free(w);
    return status;
}

PbStatus teach_bay(const char *assets, const char *id, TeachBay *bay, PbError *err)
{
    char path[512];
    snprintf(path, sizeof path, "%s/exercises/%s.json", assets, id);
    PB_TRY(io_exercise_load(path, &bay->exercise, err));
    return io_climate_find(bay->exercise.climate, &assets, 1, &bay->climate, err);
}

static void run_job(void *jobs, int index)
{
    TeachJob *j = (TeachJob *)jobs + index;
    j->status =
        teach_run(&j->bay->exercise, &j->bay->climate, &j->habits, j->seed, j->cells, &j->run);
}

PbStatus teach_run_all(TeachJob *jobs, int count, int threads)
{
    IoParallel crew = io_parallel_default();
    crew.threads = threads > 0 ? threads : crew.threads;
    io_parallel_for(&crew, count, run_job, jobs);
    for (int i = 0; i < count; i++) {
        if (jobs[i].status != PB_OK) {
            return jobs[i].status;
        }
    }
    return PB_OK;
}
