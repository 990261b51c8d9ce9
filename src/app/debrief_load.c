/* A run on the table: its record, the replay, and what the first pass over it saw. */
#include "debrief.h"

#include "io/run_file.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

enum { SAMPLE_TICKS = 5 };

static void sample(DebriefRun *r)
{
    const PbView *v = pb_session_view(pb_replay_session(r->replay));
    if (r->sample_count == r->sample_room) {
        int more = r->sample_room * 2 + 512;
        DebriefSample *grown = realloc(r->samples, (size_t)more * sizeof *grown);
        if (grown == NULL) {
            return;
        }
        r->samples = grown;
        r->sample_room = more;
    }
    double feed = v->signals.machine_on ? v->signals.feed_set_kg_s : 0.0;
    r->samples[r->sample_count++] =
        (DebriefSample){(float)v->time_s, (float)v->mouth_y_m, (float)v->signals.blower_pa,
                        (float)v->signals.flow_m3_s, (float)feed};
    r->top_pa = fmax(r->top_pa, v->signals.blower_pa);
    r->top_flow_m3_s = fmax(r->top_flow_m3_s, v->signals.flow_m3_s);
    r->top_feed_kg_s = fmax(r->top_feed_kg_s, feed);
}

int debrief_run_open(App *app, DebriefRun *r, const void *bytes, size_t size, const char *name,
                     char *why, size_t why_size)
{
    PbError err = {0};
    debrief_run_close(r);
    if (io_run_decode(name, bytes, size, &r->file, &err) != PB_OK ||
        pb_replay_create(&r->file, pb_session_default().allocator, &r->replay, &err) != PB_OK) {
        snprintf(why, why_size, "%s: %s", name, err.message);
        io_run_free(&r->file);
        return 0;
    }
    r->is_open = 1;
    r->rubric = &app->debrief->rubrics[app->debrief->rubric];
    r->is_part = r->file.exercise.must_not_fill[0] != '\0';
    r->end_s = fmax(r->file.last_tick * PB_TICK_S, 1.0);
    r->has_climate = app_climate(&app->options, r->file.exercise.climate, &r->climate);
    sample(r);
    return 1;
}

void debrief_run_close(DebriefRun *r)
{
    pb_replay_destroy(r->replay);
    io_run_free(&r->file);
    free(r->samples);
    memset(r, 0, sizeof *r);
}

static void finish_scan(DebriefRun *r)
{
    const PbSession *s = pb_replay_session(r->replay);
    const PbView *v = pb_session_view(s);
    r->is_scanned = 1;
    r->end_tick = pb_replay_tick(r->replay);
    r->end_s = fmax(v->time_s, 1.0);
    r->lift_count = v->lift_count < PB_SCORE_MAX_LIFTS ? v->lift_count : PB_SCORE_MAX_LIFTS;
    memcpy(r->lifts, v->lifts, (size_t)r->lift_count * sizeof *r->lifts);
    pb_session_result(s, &r->result);
    r->patch_count = pb_session_patches(s, r->patches, PB_SCORE_MAX_PATCHES);
    debrief_run_mark(r);
}

/* A run without a grade of its own goes by the default rubric. */
static void take_own(DebriefRun *r)
{
    PbRubric standard = pb_rubric_default();
    PbRunFile graded = r->file;
    PbScore *score = malloc(sizeof *score);
    if (r->file.grade.is_given || score == NULL ||
        pb_score_session(pb_replay_session(r->replay), &r->watch,
                         r->has_climate ? &r->climate : NULL, &standard, score) != PB_OK) {
        r->own = r->file.grade;
    } else {
        io_run_set_grade(&graded, score, &standard);
        r->own = graded.grade;
    }
    free(score);
}

void debrief_run_mark(DebriefRun *r)
{
    r->has_score = 0;
    if (pb_replay_seek(r->replay, r->end_tick) != PB_OK) {
        return;
    }
    r->is_left = !pb_session_is_over(pb_replay_session(r->replay));
    if (r->is_left || r->is_guided) {
        return;
    }
    r->has_score =
        pb_score_session(pb_replay_session(r->replay), &r->watch,
                         r->has_climate ? &r->climate : NULL, r->rubric, &r->score) == PB_OK;
    if (!r->own.is_given) {
        take_own(r);
    }
}

int debrief_run_scan(DebriefRun *r, int ticks)
{
    if (!r->is_open || r->is_scanned) {
        return 0;
    }
    for (int i = 0; i < ticks; i++) {
        if (pb_replay_step(r->replay) != PB_OK) {
            finish_scan(r);
            return 1;
        }
        pb_score_watch(&r->watch, pb_replay_session(r->replay));
        if (pb_replay_tick(r->replay) % SAMPLE_TICKS == 0) {
            sample(r);
        }
    }
    return 0;
}

void debrief_run_seek(DebriefRun *r, double at_s)
{
    int tick = (int)floor(at_s / PB_TICK_S + 0.5);
    if (!r->is_scanned || tick == pb_replay_tick(r->replay)) {
        return;
    }
    if (pb_replay_seek(r->replay, tick < 0 ? 0 : tick) == PB_OK) {
        r->patch_count =
            pb_session_patches(pb_replay_session(r->replay), r->patches, PB_SCORE_MAX_PATCHES);
    }
}

const DebriefSample *debrief_run_sample(const DebriefRun *r, double at_s)
{
    int i = (int)(at_s / (SAMPLE_TICKS * PB_TICK_S) + 0.5);
    if (r->sample_count == 0) {
        return NULL;
    }
    i = i < 0 ? 0 : i >= r->sample_count ? r->sample_count - 1 : i;
    return &r->samples[i];
}
