/* What can be seen only while a run goes on, and the whole of marking a session. */
#include "core/score.h"

#include <assert.h>
#include <math.h>
#include <string.h>

static const double AT_STOP_M = 0.05;

/* Do points hang on it? */
static int costs(PbEventKind kind)
{
    return kind == PB_EVENT_PLUG || kind == PB_EVENT_FEED_OUTSIDE || kind == PB_EVENT_BLOW_OUT ||
           kind == PB_EVENT_SAFETY;
}

/* A full list gives up its last harmless event for one that costs: nobody fills it by knocking on
 * wood and is then marked without his plugs. */
static void keep(PbScoreWatch *w, const PbEvent *event)
{
    if (w->event_count < PB_SCORE_MAX_EVENTS) {
        w->events[w->event_count++] = *event;
        return;
    }
    int last = PB_SCORE_MAX_EVENTS - 1, drop = last;
    while (drop >= 0 && costs(w->events[drop].kind)) {
        drop--;
    }
    if (drop >= 0 && costs(event->kind)) {
        memmove(&w->events[drop], &w->events[drop + 1],
                (size_t)(last - drop) * sizeof w->events[0]);
        w->events[last] = *event;
    }
}

void pb_score_watch(PbScoreWatch *w, const PbSession *session)
{
    assert(w != NULL && session != NULL);
    const PbView *v = pb_session_view(session);
    const PbSignals *s = &v->signals;
    int count = 0;
    const PbEvent *events = pb_session_events(session, &count);
    PbLiftWatch none = {0};
    int lift = v->lift_count - 1;
    PbLiftWatch *at = lift >= 0 && lift < PB_SCORE_MAX_LIFTS ? &w->lifts[lift] : &none;
    for (int i = 0; i < count; i++) {
        keep(w, &events[i]);
        at->plugs += events[i].kind == PB_EVENT_PLUG;
    }
    if (v->phase == PB_PHASE_WORKING && s->machine_on) {
        double pa = v->exercise->machine.static_pa * s->blower_setting * s->blower_setting;
        at->static_pa = pa > at->static_pa ? pa : at->static_pa;
        at->feed_kg_s = s->feed_set_kg_s > at->feed_kg_s ? s->feed_set_kg_s : at->feed_kg_s;
    }
    if (lift >= 0 && fabs(v->mouth_y_m - v->lifts[lift].mouth_y_m) < AT_STOP_M &&
        v->phase == PB_PHASE_WORKING) {
        at->left_s = v->time_s;
    }
    double load = v->panel_expected_pa > 0.0 ? v->panel_heaviest_pa / v->panel_expected_pa : 0.0;
    if (load > w->peak_load) {
        w->peak_load = load;
        w->peak_x_m = v->panel_peak_x_m;
        w->peak_y_m = v->panel_heaviest_y_m;
        w->peak_time_s = v->time_s;
    }
    /* whatever the rest bore: did the patch that broke bear what such a face should? */
    if (v->phase == PB_PHASE_BLOWN_OUT) {
        w->is_weak_sheet =
            v->panel_strength_pa < v->panel_expected_pa && v->panel_peak_pa < v->panel_expected_pa;
    }
}

static PbStatus age(const PbSession *session, const PbClimate *climate, double years,
                    PbSettleReport *report)
{
    PbSettleConfig config = pb_settle_default();
    PbBayField field;
    PbSettle *settle = NULL;
    config.climate = *climate;
    config.face = pb_finish_traits(pb_session_view(session)->exercise->finish)->face;
    PB_TRY(pb_session_field(session, &field));
    PbStatus status = pb_settle_create(&field, &config, &settle, NULL);
    if (status == PB_OK) {
        status = pb_settle_advance(settle, years);
    }
    if (status == PB_OK) {
        pb_settle_report(settle, report);
    }
    pb_settle_destroy(settle);
    pb_bay_field_destroy(&field);
    return status;
}

PbStatus pb_score_session(const PbSession *session, const PbScoreWatch *watch,
                          const PbClimate *climate, const PbRubric *rubric, PbScore *score)
{
    assert(session != NULL && watch != NULL && score != NULL);
    const PbView *v = pb_session_view(session);
    PbRubric standard = pb_rubric_default();
    PbPatch patches[PB_SCORE_MAX_PATCHES];
    PbSettleReport years;
    PbResult result;
    if (rubric == NULL) {
        rubric = &standard;
    }
    pb_session_result(session, &result);
    if (climate != NULL) {
        PB_TRY(age(session, climate, rubric->years, &years));
    }
    PbScoreInput in = {.exercise = v->exercise,
                       .result = &result,
                       .patches = patches,
                       .patch_count = pb_session_patches(session, patches, PB_SCORE_MAX_PATCHES),
                       .lifts = v->lifts,
                       .lift_count = v->lift_count,
                       .watch = watch,
                       .years = climate != NULL ? &years : NULL,
                       .rubric = rubric};
    return pb_score(&in, score);
}
