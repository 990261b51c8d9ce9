/* A score as JSON, for `grade --json`, reports and scripts; docs/formats/rubric.md. */
#include "io/act_words.h"
#include "io/score_words.h"

#include "json_maker.h"

#include <assert.h>
#include <inttypes.h>
#include <math.h>

static json_t *parts_json(const PbScore *score, IoReaderTaste taste, int *failed)
{
    json_t *list = json_array();
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        JsonMaker m = json_maker();
        json_put(&m, "part", json_string(io_part_key(score->parts[i].kind)));
        json_put(&m, "name", json_string(io_part_name(score->parts[i].kind, taste.language)));
        json_put_number(&m, "points", score->parts[i].points);
        json_put_number(&m, "max", score->parts[i].max);
        json_put_item(list, &m, failed);
    }
    return list;
}

static json_t *losses_json(const PbScore *score, IoReaderTaste taste, int *failed)
{
    json_t *list = json_array();
    for (int i = 0; i < score->loss_count; i++) {
        const PbLoss *l = &score->losses[i];
        char text[320];
        JsonMaker m = json_maker();
        io_loss_sentence(l, taste, text, sizeof text);
        json_put(&m, "part", json_string(io_part_key(l->part)));
        json_put(&m, "cause", json_string(io_fault_key(l->cause)));
        json_put_number(&m, "points", l->points);
        json_put_number(&m, "time_s", l->time_s);
        json_put_number(&m, "x_m", l->x_m);
        json_put_number(&m, "y_m", l->y_m);
        json_put_number(&m, "y0_m", l->y0_m);
        json_put_number(&m, "y1_m", l->y1_m);
        json_put_number(&m, "value", l->value);
        json_put_number(&m, "density_kg_m3",
                        l->density_kg_m3 >= 0.0 ? l->density_kg_m3 : (double)NAN);
        json_put(&m, "lift", l->lift >= 0 ? json_integer(l->lift + 1) : json_null());
        json_put(&m, "text", json_string(text));
        json_put_item(list, &m, failed);
    }
    return list;
}

static json_t *lifts_json(const PbLift *lifts, int count, int *failed)
{
    json_t *list = json_array();
    for (int i = 0; i < count; i++) {
        const PbLift *l = &lifts[i];
        JsonMaker m = json_lift(l);
        json_put_number(&m, "dwell_after_stall_s",
                        l->stall_s >= 0.0 ? l->to_s - l->stall_s : (double)NAN);
        json_put_item(list, &m, failed);
    }
    return list;
}

static json_t *events_json(const PbScoreWatch *watch, IoReaderTaste taste, int *failed)
{
    json_t *list = json_array();
    for (int i = 0; i < watch->event_count; i++) {
        const PbEvent *e = &watch->events[i];
        const char *words = io_event_words(e->kind, taste.language);
        if (words[0] == '\0') {
            continue;
        }
        JsonMaker m = json_maker();
        json_put(&m, "event", json_string(pb_event_name(e->kind)));
        json_put_number(&m, "time_s", e->tick * PB_TICK_S);
        json_put_number(&m, "x_m", e->x_m);
        json_put_number(&m, "y_m", e->y_m);
        json_put_number(&m, "value", e->value);
        json_put(&m, "text", json_string(words));
        json_put_item(list, &m, failed);
    }
    return list;
}

static json_t *gates_json(const PbScore *score, IoReaderTaste taste, int *failed)
{
    json_t *list = json_array();
    for (int i = 0; i < PB_GATES; i++) {
        const PbGate *g = &score->gates[i];
        if (!g->is_shut) {
            continue;
        }
        char text[320];
        JsonMaker m = json_maker();
        io_gate_sentence(g, taste, text, sizeof text);
        json_put(&m, "cause", json_string(io_fault_key(g->fault)));
        json_put_number(&m, "value", g->value);
        json_put_number(&m, "limit", g->limit);
        json_put_number(&m, "y0_m", g->y0_m);
        json_put_number(&m, "y1_m", g->y1_m);
        json_put_number(&m, "time_s", g->time_s);
        json_put(&m, "text", json_string(text));
        json_put_item(list, &m, failed);
    }
    return list;
}

/* A reason by its word in files, or null. */
static json_t *reason_json(PbLeaveReason reason)
{
    return reason != PB_LEAVE_NONE ? json_string(pb_leave_traits(reason)->word) : json_null();
}

static json_t *leave_json(const PbLeaveVerdict *v, IoReaderTaste taste, int *failed)
{
    JsonMaker m = json_maker();
    json_put(&m, "left", json_boolean(v->was_left));
    json_put(&m, "reason", reason_json(v->reason));
    json_put(&m, "wanted", reason_json(v->wanted));
    json_put(&m, "tested", json_boolean(v->is_tested));
    json_put_number(&m, "blown_kg", v->blown_kg);
    json_put_number(&m, "allowed_kg", v->allowed_kg);
    json_put(&m, "text", json_string(io_leave_words(v->wanted, taste.language)));
    *failed |= m.failed;
    return m.object;
}

json_t *io_score_to_json(const PbScore *score, const PbRubric *rubric, const PbLift *lifts,
                         int lift_count, const PbScoreWatch *watch, IoReaderTaste taste)
{
    assert(score != NULL && rubric != NULL && watch != NULL);
    assert(lift_count == 0 || lifts != NULL);
    JsonMaker m = json_maker();
    char hash[24];
    snprintf(hash, sizeof hash, "0x%016" PRIx64, pb_rubric_hash(rubric));
    json_put(&m, "format", json_string("pullback grade 2"));
    json_put(&m, "rules", json_integer(PB_SCORE_RULES));
    json_put(&m, "rubric", json_string(rubric->name));
    json_put(&m, "rubric_hash", json_string(hash));
    json_put_number(&m, "total", score->total);
    json_put_number(&m, "pass_score", score->pass_score);
    json_put(&m, "passed", json_boolean(score->is_pass));
    json_put(&m, "verdict", json_string(io_verdict_word(score->verdict, WORDS_ENGLISH)));
    json_put(&m, "shut_gates", gates_json(score, taste, &m.failed));
    if (score->leave.applies) {
        json_put(&m, "leave", leave_json(&score->leave, taste, &m.failed));
    }
    json_put_number(&m, "wall_share", score->wall_share);
    json_put_number(&m, "years", rubric->years);
    json_put_number(&m, "top_gap_m", score->has_years ? score->top_gap_m : (double)NAN);
    json_put_number(&m, "inner_void_m2", score->has_years ? score->inner_void_m2 : (double)NAN);
    json_put(&m, "parts", parts_json(score, taste, &m.failed));
    json_put(&m, "losses", losses_json(score, taste, &m.failed));
    json_put(&m, "lifts", lifts_json(lifts, lift_count, &m.failed));
    json_put(&m, "events", events_json(watch, taste, &m.failed));
    return json_made(&m);
}
