/* A run on the table: its record, the replay, and what the first pass over it saw. */
#include "debrief/debrief.h"

#include "io/run_file.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

int debrief_run_open(App *app, DebriefRun *r, const void *bytes, size_t size, const char *name,
                     char *why, size_t why_size)
{
    PbError err = {0};
    debrief_run_close(r);
    if (io_run_decode(name, bytes, size, &r->file, &err) != PB_OK ||
        pb_watched_replay(&r->watched, &r->file, pb_allocator_default(), &err) != PB_OK) {
        snprintf(why, why_size, "%s: %s", name, err.message);
        io_run_free(&r->file);
        return 0;
    }
    r->is_open = 1;
    r->is_part = r->file.exercise.must_not_fill[0] != '\0';
    r->end_s = fmax(r->file.last_tick * PB_TICK_S, 1.0);
    r->watched.rubric = app->debrief->rubrics.list[app->debrief->rubrics.chosen];
    r->watched.has_climate =
        app_climate(&app->options, r->file.exercise.climate, &r->watched.climate);
    return 1;
}

void debrief_run_close(DebriefRun *r)
{
    pb_watched_end(&r->watched);
    io_run_free(&r->file);
    memset(r, 0, sizeof *r);
}

static void finish_scan(DebriefRun *r)
{
    r->is_scanned = 1;
    r->end_s = fmax(r->watched.seen_tick * PB_TICK_S, 1.0);
    r->patch_count = pb_session_patches(r->watched.session, r->patches, PB_SCORE_MAX_PATCHES);
    debrief_run_mark(r);
}

/* A run without a grade of its own goes by the default rubric. */
static void take_own(DebriefRun *r)
{
    PbRubric standard = pb_rubric_default();
    PbRunFile graded = r->file;
    const PbWatched *w = &r->watched;
    PbScore *score = malloc(sizeof *score);
    if (r->file.grade.is_given || score == NULL) {
        r->own = r->file.grade;
    } else if (pb_rubric_hash(&w->rubric) == pb_rubric_hash(&standard)) {
        io_run_set_grade(&graded, &w->score, &standard);
        r->own = graded.grade;
    } else if (pb_score_session(w->session, &w->watch, w->has_climate ? &w->climate : NULL,
                                &standard, score) == PB_OK) {
        io_run_set_grade(&graded, score, &standard);
        r->own = graded.grade;
    }
    free(score);
}

void debrief_run_mark(DebriefRun *r)
{
    r->watched.has_score = 0;
    if (pb_watched_seek(&r->watched, r->watched.seen_tick) != PB_OK) {
        return;
    }
    r->is_left = !pb_session_is_over(r->watched.session);
    if (!r->is_left && !r->is_guided && pb_watched_mark(&r->watched) == PB_OK && !r->own.is_given) {
        take_own(r);
    }
}

int debrief_run_scan(App *app, DebriefRun *r, int ticks)
{
    if (!r->is_open || r->is_scanned) {
        return 0;
    }
    for (int i = 0; i < ticks && !r->watched.is_ended; i++) {
        PbStatus status = pb_watched_step(&r->watched, NULL, 0);
        if (status == PB_ERR_MEMORY) { /* nothing was lost: tried again at the next frame */
            debrief_say(app, _("Not enough memory"), 1);
            return 0;
        }
        if (status != PB_OK) { /* what it holds cannot be played on: it ends here */
            pb_watched_stop(&r->watched);
        }
    }
    if (r->watched.is_ended) {
        finish_scan(r);
    }
    return r->is_scanned;
}

void debrief_run_seek(DebriefRun *r, double at_s)
{
    int tick = (int)floor(at_s / PB_TICK_S + 0.5);
    if (!r->is_scanned || tick == pb_replay_tick(r->watched.replay)) {
        return;
    }
    if (pb_watched_seek(&r->watched, tick) == PB_OK) {
        r->patch_count = pb_session_patches(r->watched.session, r->patches, PB_SCORE_MAX_PATCHES);
    }
}
