/* A score as JSON, for `grade --json`, reports and scripts; docs/formats/rubric.md. */
#include "io/score_words.h"

#include <inttypes.h>
#include <math.h>

typedef struct Maker {
    json_t *object;
    int failed;
} Maker;

static void put(Maker *m, const char *key, json_t *value)
{
    m->failed |= json_object_set_new(m->object, key, value) != 0;
}

static void number(Maker *m, const char *key, double value)
{
    put(m, key, isfinite(value) ? json_real(value) : json_null());
}

static void item(json_t *list, Maker *m, int *failed)
{
    *failed |= m->failed | (json_array_append_new(list, m->object) != 0);
}

static json_t *parts_json(const PbScore *score, IoReaderTaste taste, int *failed)
{
    json_t *list = json_array();
    for (int i = 0; i < PB_SCORE_PARTS; i++) {
        Maker m = {json_object(), 0};
        put(&m, "part", json_string(io_part_key(score->parts[i].kind)));
        put(&m, "name", json_string(io_part_name(score->parts[i].kind, taste.language)));
        number(&m, "points", score->parts[i].points);
        number(&m, "max", score->parts[i].max);
        item(list, &m, failed);
    }
    return list;
}

static json_t *losses_json(const PbScore *score, IoReaderTaste taste, int *failed)
{
    json_t *list = json_array();
    for (int i = 0; i < score->loss_count; i++) {
        const PbLoss *l = &score->losses[i];
        char text[320];
        Maker m = {json_object(), 0};
        io_loss_sentence(l, taste, text, sizeof text);
        put(&m, "part", json_string(io_part_key(l->part)));
        put(&m, "cause", json_string(io_fault_key(l->cause)));
        number(&m, "points", l->points);
        number(&m, "time_s", l->time_s);
        number(&m, "x_m", l->x_m);
        number(&m, "y_m", l->y_m);
        number(&m, "y0_m", l->y0_m);
        number(&m, "y1_m", l->y1_m);
        number(&m, "value", l->value);
        number(&m, "density_kg_m3", l->density_kg_m3 >= 0.0 ? l->density_kg_m3 : (double)NAN);
        put(&m, "lift", l->lift >= 0 ? json_integer(l->lift + 1) : json_null());
        put(&m, "text", json_string(text));
        item(list, &m, failed);
    }
    return list;
}

static json_t *lifts_json(const PbLift *lifts, int count, int *failed)
{
    json_t *list = json_array();
    for (int i = 0; i < count; i++) {
        const PbLift *l = &lifts[i];
        Maker m = {json_object(), 0};
        number(&m, "from_s", l->from_s);
        number(&m, "to_s", l->to_s);
        number(&m, "mouth_y_m", l->mouth_y_m);
        number(&m, "step_m", l->step_m);
        number(&m, "stall_s", l->stall_s >= 0.0 ? l->stall_s : (double)NAN);
        number(&m, "dwell_after_stall_s", l->stall_s >= 0.0 ? l->to_s - l->stall_s : (double)NAN);
        number(&m, "mass_kg", l->mass_kg);
        number(&m, "density_kg_m3", l->density_kg_m3);
        put(&m, "direction", json_string(l->direction > 0 ? "up" : "down"));
        item(list, &m, failed);
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
        Maker m = {json_object(), 0};
        put(&m, "event", json_string(pb_event_name(e->kind)));
        number(&m, "time_s", e->tick * PB_TICK_S);
        number(&m, "x_m", e->x_m);
        number(&m, "y_m", e->y_m);
        number(&m, "value", e->value);
        put(&m, "text", json_string(words));
        item(list, &m, failed);
    }
    return list;
}

json_t *io_score_to_json(const PbScore *score, const PbRubric *rubric, const PbLift *lifts,
                         int lift_count, const PbScoreWatch *watch, IoReaderTaste taste)
{
    Maker m = {json_object(), 0};
    char hash[24];
    snprintf(hash, sizeof hash, "0x%016" PRIx64, pb_rubric_hash(rubric));
    put(&m, "format", json_string("pullback grade 1"));
    put(&m, "rubric", json_string(rubric->name));
    put(&m, "rubric_hash", json_string(hash));
    number(&m, "total", score->total);
    number(&m, "pass_score", score->pass_score);
    put(&m, "passed", json_boolean(score->is_pass));
    number(&m, "years", rubric->years);
    number(&m, "top_gap_m", score->has_years ? score->top_gap_m : (double)NAN);
    number(&m, "inner_void_m2", score->has_years ? score->inner_void_m2 : (double)NAN);
    put(&m, "parts", parts_json(score, taste, &m.failed));
    put(&m, "losses", losses_json(score, taste, &m.failed));
    put(&m, "lifts", lifts_json(lifts, lift_count, &m.failed));
    put(&m, "events", events_json(watch, taste, &m.failed));
    if (m.failed) {
        json_decref(m.object);
        return NULL;
    }
    return m.object;
}
