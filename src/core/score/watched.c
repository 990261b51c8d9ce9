/* A run under somebody's eyes: see core/watched.h. It stands beside the marks, not in session,
 * because it knows both. The one rule by which samples grow is here: room is made before the tick
 * that needs it, so that a shortage of memory leaves the run where it was. */
#include "core/watched.h"

#include <assert.h>
#include <limits.h>
#include <math.h>
#include <string.h>

static PbStatus make_room(PbWatched *w)
{
    if (w->sample_count < w->sample_room) {
        return PB_OK;
    }
    int room = w->sample_room == 0 ? 256 : w->sample_room * 2;
    PbSample *grown = w->allocator.alloc(w->allocator.user, (size_t)room * sizeof *grown);
    if (grown == NULL) {
        return PB_ERR_MEMORY;
    }
    if (w->samples != NULL) {
        memcpy(grown, w->samples, (size_t)w->sample_count * sizeof *grown);
        w->allocator.free(w->allocator.user, w->samples);
    }
    w->samples = grown;
    w->sample_room = room;
    return PB_OK;
}

static void take_sample(PbWatched *w, const PbView *v)
{
    const PbSignals *s = &v->signals;
    double feed = s->machine_on ? s->feed_set_kg_s : 0.0;
    w->samples[w->sample_count++] =
        (PbSample){(float)v->time_s, (float)v->mouth_y_m, (float)s->blower_pa, (float)s->flow_m3_s,
                   (float)feed};
    w->top_pa = fmax(w->top_pa, s->blower_pa);
    w->top_flow_m3_s = fmax(w->top_flow_m3_s, s->flow_m3_s);
    w->top_feed_kg_s = fmax(w->top_feed_kg_s, feed);
}

static int is_all_seen(const PbWatched *w)
{
    return w->replay != NULL ? pb_replay_is_at_end(w->replay) : pb_session_is_over(w->session);
}

/* The moment of tick 0 is a sample too. */
static PbStatus begin(PbWatched *w, PbError *err)
{
    if (make_room(w) != PB_OK) {
        pb_watched_end(w);
        return pb_fail(err, PB_ERR_MEMORY, "out of memory");
    }
    w->rubric = pb_rubric_default();
    take_sample(w, pb_session_view(w->session));
    if (is_all_seen(w)) {
        pb_watched_stop(w);
    }
    return PB_OK;
}

PbStatus pb_watched_start(PbWatched *w, const PbSessionConfig *config, PbError *err)
{
    PbSession *session;
    PbAllocator allocator = config->allocator;
    PB_TRY(pb_session_create(config, &session, err));
    memset(w, 0, sizeof *w);
    w->allocator = allocator;
    w->session = w->stepped = session;
    return begin(w, err);
}

PbStatus pb_watched_replay(PbWatched *w, const PbRunFile *run, PbAllocator allocator, PbError *err)
{
    PbReplay *replay;
    PB_TRY(pb_replay_create(run, allocator, &replay, err));
    memset(w, 0, sizeof *w);
    w->allocator = allocator;
    w->replay = replay;
    w->session = pb_replay_session(replay);
    return begin(w, err);
}

void pb_watched_end(PbWatched *w)
{
    if (w->session == NULL) {
        return;
    }
    if (w->samples != NULL) {
        w->allocator.free(w->allocator.user, w->samples);
    }
    pb_session_destroy(w->stepped);
    pb_replay_destroy(w->replay);
    memset(w, 0, sizeof *w);
}

void pb_watched_stop(PbWatched *w)
{
    const PbView *v = pb_session_view(w->session);
    w->is_ended = 1;
    w->lift_count = v->lift_count < PB_SCORE_MAX_LIFTS ? v->lift_count : PB_SCORE_MAX_LIFTS;
    memcpy(w->lifts, v->lifts, (size_t)w->lift_count * sizeof *w->lifts);
    pb_session_result(w->session, &w->result);
}

PbStatus pb_watched_step(PbWatched *w, const PbCommand *commands, int count)
{
    assert(w->replay == NULL || count == 0);
    PB_TRY(make_room(w));
    PB_TRY(w->replay != NULL ? pb_replay_step(w->replay)
                             : pb_session_step(w->stepped, commands, count));
    const PbView *v = pb_session_view(w->session);
    if (v->tick <= w->seen_tick) {
        return PB_OK;
    }
    w->seen_tick = v->tick;
    pb_score_watch(&w->watch, w->session);
    if (v->tick % PB_SAMPLE_TICKS == 0) {
        take_sample(w, v);
    }
    if (is_all_seen(w)) {
        pb_watched_stop(w);
    }
    return PB_OK;
}

PbStatus pb_watched_seek(PbWatched *w, int tick)
{
    assert(w->replay != NULL);
    PB_TRY(pb_replay_seek(w->replay, tick < w->seen_tick ? tick : w->seen_tick));
    while (pb_replay_tick(w->replay) < tick && !w->is_ended) {
        PB_TRY(pb_watched_step(w, NULL, 0));
    }
    return PB_OK;
}

PbStatus pb_watched_mark(PbWatched *w)
{
    w->has_score = 0;
    if (w->replay != NULL) {
        PB_TRY(pb_watched_seek(w, INT_MAX));
    }
    PB_TRY(pb_score_session(w->session, &w->watch, w->has_climate ? &w->climate : NULL, &w->rubric,
                            &w->score));
    w->has_score = 1;
    return PB_OK;
}

const PbSample *pb_watched_sample(const PbWatched *w, double time_s)
{
    int i = (int)(time_s / (PB_SAMPLE_TICKS * PB_TICK_S) + 0.5);
    return &w->samples[i < 0 ? 0 : i >= w->sample_count ? w->sample_count - 1 : i];
}
