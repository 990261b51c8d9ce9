/* From a run that was watched to its end, and marked, to the data of its report. Nothing is played
 * or marked here. */
#include "report/report.h"

#include "core/marks.h"
#include "io/run_summary.h"

#include <assert.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static void take_events(ReportRun *r, const PbEvent *events, int count)
{
    for (int i = 0; i < count && r->event_count < REPORT_EVENTS; i++) {
        const char *word = io_event_words(events[i].kind, r->taste.language);
        int is_stall = events[i].kind == PB_EVENT_STALL;
        int is_worth = events[i].kind == PB_EVENT_PLUG || events[i].kind == PB_EVENT_BLOW_OUT ||
                       events[i].kind == PB_EVENT_FEED_OUTSIDE ||
                       events[i].kind == PB_EVENT_BOW_HALF ||
                       events[i].kind == PB_EVENT_BLOW_BACK || events[i].kind == PB_EVENT_RUNAWAY;
        if (!is_stall && (!is_worth || word[0] == '\0')) {
            continue;
        }
        ReportEvent *e = &r->events[r->event_count++];
        e->time_s = events[i].tick * PB_TICK_S;
        e->y_m = events[i].y_m;
        e->is_stall = is_stall;
        snprintf(e->word, sizeof e->word, "%s", word);
    }
}

static PbStatus copy_travel(const PbWatched *w, ReportRun *r, PbError *err)
{
    size_t samples = (size_t)w->sample_count * sizeof *w->samples;
    size_t lifts = (size_t)w->lift_count * sizeof *w->lifts;
    r->samples = malloc(samples);
    r->lifts = malloc(lifts + 1); /* there may be none */
    if (r->samples == NULL || r->lifts == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    memcpy(r->samples, w->samples, samples);
    memcpy(r->lifts, w->lifts, lifts);
    r->sample_count = w->sample_count;
    r->lift_count = w->lift_count;
    r->marked_by = w->rubric;
    return PB_OK;
}

static PbStatus copy_map(const PbSession *session, ReportRun *r, PbError *err)
{
    enum { MOST = PB_SCORE_MAX_PATCHES };
    const PbView *v = pb_session_view(session);
    size_t cells = (size_t)v->nx * (size_t)v->ny;
    r->nx = v->nx;
    r->ny = v->ny;
    r->density_kg_m3 = malloc(cells * sizeof *r->density_kg_m3);
    r->free_frac = malloc(cells * sizeof *r->free_frac);
    r->batt_frac = malloc(cells * sizeof *r->batt_frac);
    r->patches = malloc(MOST * sizeof *r->patches);
    PbBayField field = {0};
    if (r->density_kg_m3 == NULL || r->free_frac == NULL || r->batt_frac == NULL ||
        r->patches == NULL || pb_session_field(session, &field) != PB_OK) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    memcpy(r->batt_frac, field.batt_frac, cells * sizeof *r->batt_frac);
    pb_bay_field_destroy(&field);
    memcpy(r->density_kg_m3, v->density_kg_m3, cells * sizeof *r->density_kg_m3);
    memcpy(r->free_frac, v->free_frac, cells * sizeof *r->free_frac);
    r->patch_count = pb_session_patches(session, r->patches, MOST);
    return PB_OK;
}

static void copy_score(const PbScore *s, const PbRubric *rubric, const PbExercise *exercise,
                       ReportRun *r)
{
    r->part_count = PB_SCORE_PARTS;
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        ReportPart *p = &r->parts[i];
        snprintf(p->name, sizeof p->name, "%s", io_part_name(s->parts[i].kind, r->taste.language));
        p->points = s->parts[i].points;
        p->max = s->parts[i].max;
        p->trainer = -1.0;
    }
    r->total = s->total;
    r->pass_score = s->pass_score;
    r->is_pass = s->is_pass;
    r->verdict = s->verdict;
    r->trainer_total = -1.0;
    r->years = s->has_years ? rubric->years : 0.0;
    r->top_gap_m = s->top_gap_m;
    r->void_m2 = s->inner_void_m2;
    snprintf(r->rubric, sizeof r->rubric, "%s", rubric->name);
    io_sum_words(s, r->taste, r->sum, sizeof r->sum);
    io_debrief_sentences(s, exercise, r->taste, r->in_short);
    /* the dearest three, dearest first; the earlier one of equals */
    char used[PB_SCORE_MAX_LOSSES] = {0};
    int lost[PB_SCORE_MAX_LOSSES];
    io_losses_shown(s, lost);
    for (r->moment_count = 0; r->moment_count < REPORT_MOMENTS; r->moment_count++) {
        int best = -1;
        for (int i = 0; i < s->loss_count; i++) {
            if (!used[i] && lost[i] > 0 && s->losses[i].cause != PB_FAULT_HELD &&
                (best < 0 || s->losses[i].points > s->losses[best].points)) {
                best = i;
            }
        }
        if (best < 0) {
            return;
        }
        used[best] = 1;
        ReportMoment *m = &r->moments[r->moment_count];
        m->points = lost[best];
        m->time_s = s->losses[best].time_s;
        m->y_m = s->losses[best].y_m;
        io_loss_sentence(&s->losses[best], r->taste, m->sentence, sizeof m->sentence);
    }
}

static void copy_run(const PbRunFile *run, const PbWatched *w, ReportRun *r)
{
    const PbExercise *e = &run->exercise;
    const PbResult *result = &w->result;
    PbReplayCheck check = pb_replay_check(w->replay);
    r->is_resimulated = check.is_resimulated;
    r->parted_s = check.parted_tick > 0 ? check.parted_tick * PB_TICK_S : 0.0;
    snprintf(r->learner, sizeof r->learner, "%s", run->who);
    snprintf(r->exercise_id, sizeof r->exercise_id, "%s", e->id);
    snprintf(r->exercise_title, sizeof r->exercise_title, "%s", e->title);
    snprintf(r->climate, sizeof r->climate, "%s", e->climate);
    r->seed = run->seed;
    r->physics_version = run->physics_version;
    r->cells_across = run->cells_across;
    r->is_ended = run->is_ended;
    r->is_graded = pb_run_graded_sight(run) >= 0;
    r->is_blown_out = result->blow_out;
    r->duration_s = run->last_tick * PB_TICK_S;
    r->usual_s = pb_usual_s(e);
    r->width_m = e->width_m;
    r->height_m = e->height_m;
    r->hole_x_m = e->holes[0].x_m;
    r->hole_y_m = e->holes[0].y_m;
    r->target_kg_m3 = e->target_kg_m3;
    r->mean_kg_m3 = result->mean_kg_m3;
    r->p5_kg_m3 = result->p5_patch_kg_m3;
    r->min_kg_m3 = result->min_patch_kg_m3;
    r->share_at_target = result->share_at_target;
    r->mass_kg = result->mass_in_bay_kg;
    r->bags = result->bags;
    r->panel_over_strength = w->watch.peak_load;
    r->caution_count = e->caution_count;
    for (int i = 0; i < e->caution_count; i++) {
        snprintf(r->cautions[i], sizeof r->cautions[i], "%s", e->cautions[i]);
    }
    (void)io_run_ended(run, r->when);
}

static PbStatus fill(const PbRunFile *run, const PbWatched *w, ReportRun *r, PbError *err)
{
    copy_run(run, w, r);
    copy_score(&w->score, &w->rubric, &run->exercise, r);
    take_events(r, w->watch.events, w->watch.event_count);
    PB_TRY(copy_travel(w, r, err));
    return copy_map(w->session, r, err);
}

PbStatus report_gather(const PbRunFile *run, const PbWatched *w, IoReaderTaste taste,
                       ReportRun **report, PbError *err)
{
    assert(run != NULL && w != NULL && report != NULL);
    if (!w->is_ended || !w->has_score || pb_replay_tick(w->replay) != w->seen_tick) {
        return pb_fail(err, PB_ERR_STATE, "the run is not marked, or does not stand at its end");
    }
    ReportRun *r = calloc(1, sizeof *r);
    if (r == NULL) {
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    r->taste = taste;
    PbStatus status = fill(run, w, r, err);
    if (status != PB_OK) {
        report_free(r);
        return status;
    }
    *report = r;
    return PB_OK;
}

void report_free(ReportRun *report)
{
    if (report != NULL) {
        free(report->density_kg_m3);
        free(report->free_frac);
        free(report->batt_frac);
        free(report->patches);
        free(report->samples);
        free(report->lifts);
        free(report);
    }
}
