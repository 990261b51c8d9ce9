/* The result of a job as JSON: docs/formats/job.md. */
#include "io/job_file.h"

#include "json_maker.h"

#include "core/crew_belief.h"
#include "core/job_heat.h"
#include "io/job_words.h"
#include "io/score_words.h"

#include <inttypes.h>
#include <stdio.h>

static json_t *hash_json(uint64_t hash)
{
    char text[24];
    snprintf(text, sizeof text, "0x%016" PRIx64, hash);
    return json_string(text);
}

/* Unknown is null. */
static json_t *known(double value)
{
    return value < 0.0 ? json_null() : json_real(value);
}

static json_t *fill_json(const PbJobFill *f)
{
    if (f->is_small) {
        return json_pack("{sb sf}", "is_small", 1, "assumed_kg", f->result.mass_in_bay_kg);
    }
    return json_pack("{sb sf sf sf sf sf sf si si sf sf so}", "is_small", 0, "fed_kg",
                     f->result.mass_fed_kg, "softest_kg_m3", f->result.min_patch_kg_m3,
                     "share_at_target", f->result.share_at_target, "void_m2",
                     f->result.void_area_m2, "peak_panel_over_strength",
                     f->result.peak_panel_over_strength, "duration_s", f->result.duration_s,
                     "stops", f->lift_count, "plugs", f->result.plugs, "leak75_empty_m3_s_m2",
                     f->leak_before_m3_s_m2, "leak75_packed_m3_s_m2", f->leak_after_m3_s_m2,
                     "state_hash", hash_json(f->result.state_hash));
}

static json_t *bay_json(const PbJob *job, const PbJobMarks *m, int n)
{
    int count;
    const PbFramedBay *b = &pb_bays_list(pb_job_bays(job), &count)[n];
    const PbJobBay *bay = &m->bays[n];
    const PbJobFill *fill = pb_job_fill_of(job, n);
    const char *why = bay->left != PB_LEAVE_NONE ? pb_leave_traits(bay->left)->word : NULL;
    return json_pack("{si ss sf sf sf sf sf sf so sf sf ss? si so}", "bay", n + 1, "state",
                     pb_job_bay_word(bay->kind), "x0_m", b->around.x0_m, "y0_m", b->around.y0_m,
                     "x1_m", b->around.x1_m, "y1_m", b->around.y1_m, "area_m2", bay->area_m2,
                     "filled_m2", bay->filled_m2, "mean_kg_m3", known(bay->mean_kg_m3),
                     "wall_share", bay->share, "kg", bay->kg, "left", why, "holes", bay->holes,
                     "fill", fill != NULL ? fill_json(fill) : json_null());
}

static json_t *loss_json(const PbJobLoss *l)
{
    char text[400];
    const IoReaderTaste plain = {0};
    io_job_loss_sentence(l, plain, text, sizeof text);
    const char *part = l->part >= 0 ? pb_job_part_word((PbJobPartKind)l->part)
                                    : pb_job_gate_word((PbJobGateKind)(-1 - l->part));
    json_t *json = json_pack("{ss ss ss sf sf sf sf sf ss}", l->part >= 0 ? "part" : "gate", part,
                             "fault", pb_job_fault_word(l->fault), "cause", io_fault_key(l->cause),
                             "points", l->points, "value", l->value, "x_m", l->x_m, "y_m", l->y_m,
                             "minute", l->minute, "sentence", text);
    if (l->bay >= 0) {
        (void)json_object_set_new(json, "bay", json_integer(l->bay + 1));
    }
    return json;
}

static json_t *act_json(const PbJob *job, const PbJobDone *d, int i)
{
    const PbCrew *crew = pb_job_crew(job);
    const char *word = d->act.kind == PB_JOB_WALL ? pb_crew_act_traits(d->act.wall.kind)->word
                                                  : pb_job_act_traits(d->act.kind)->word;
    json_t *json = json_pack("{sf ss sf}", "minute", pb_job_minute(job, i), "act", word, "minutes",
                             d->minutes);
    if (d->bay >= 0) {
        (void)json_object_set_new(json, "bay", json_integer(d->bay + 1));
    }
    if (d->crew_act >= 0) {
        const PbCrewAnswer *a = &crew->done[d->crew_act].answer;
        (void)json_object_set_new(json, "felt", json_string(pb_feel_word(a->feel)));
        (void)json_object_set_new(json, "reach_m", json_real(a->reach_m));
    } else if (d->act.kind == PB_JOB_CORE || d->act.kind == PB_JOB_FINGER) {
        double kg_m3 = pb_job_density(job, d->act.wall.x_m, d->act.wall.y_m);
        (void)json_object_set_new(json, "kg_m3", known(kg_m3));
    }
    return json;
}

static json_t *marks_json(const PbJobMarks *m)
{
    json_t *gates = json_object(), *parts = json_object(), *losses = json_array();
    for (int g = 0; g < PB_JOB_GATES; g++) {
        (void)json_object_set_new(gates, pb_job_gate_word((PbJobGateKind)g),
                                  json_string(m->is_shut[g] ? "shut" : "open"));
    }
    for (int p = 0; p < PB_JOB_PARTS; p++) {
        (void)json_object_set_new(parts, pb_job_part_word((PbJobPartKind)p),
                                  json_pack("{sf sf}", "points", m->points[p], "max", m->max[p]));
    }
    for (int i = 0; i < m->loss_count; i++) {
        (void)json_array_append_new(losses, loss_json(&m->losses[i]));
    }
    return json_pack("{sf sb so so so}", "total", m->total, "is_pass", m->is_pass, "gates", gates,
                     "parts", parts, "losses", losses);
}

/* Of the whole wall; NULL where there is no memory for it. */
static json_t *heat_json(const PbJob *job)
{
    PbError err;
    PbJobHeat heat[PB_JOB_HEAT_CASES];
    if (pb_job_heat_all(job, PB_JOB_HEAT_ROOM_C, PB_JOB_HEAT_COLD_C, heat, &err) != PB_OK) {
        return NULL;
    }
    json_t *all =
        json_pack("{sf sf sf sf}", "room_c", PB_JOB_HEAT_ROOM_C, "outdoor_c", PB_JOB_HEAT_COLD_C,
                  "wall_m2", heat[0].wall_m2, "framing_share", heat[0].framing_share);
    for (int c = 0; c < PB_JOB_HEAT_CASES; c++) {
        PbJobHeat *h = &heat[c];
        json_t *one =
            json_pack("{sf sf sf sf sf}", "r_m2k_w", h->r_m2k_w, "heat_w", h->heat_w, "filled_m2",
                      h->filled_m2, "coldest_c", h->coldest_c, "warmest_c", h->warmest_c);
        (void)json_object_set_new(all, pb_job_heat_word((PbJobHeatCase)c), one);
    }
    pb_job_heat_free_all(job, heat);
    return all;
}

json_t *io_job_to_json(const IoJob *in, const PbJob *job, const PbJobMarks *m)
{
    int count;
    const PbJobDone *done = pb_job_done(job, &count);
    json_t *bays = json_array(), *acts = json_array();
    for (int n = 0; n < m->bay_count; n++) {
        (void)json_array_append_new(bays, bay_json(job, m, n));
    }
    for (int i = 0; i < count; i++) {
        (void)json_array_append_new(acts, act_json(job, &done[i], i));
    }
    return json_pack("{ss ss ss sI si sf sf sf sf sf sf sf sf so so so so so}", "format",
                     "pullback job result 1", "wall", in->framing.id, "crew", in->acts.name, "seed",
                     (json_int_t)in->seed, "physics", PB_PHYSICS_VERSION, "fillable_m2",
                     m->fillable_m2, "filled_m2", m->filled_m2, "missed_m2", m->missed_m2,
                     "estimate_bags", m->estimate_bags, "wanted_bags", m->wanted_bags, "used_bags",
                     m->used_bags, "minutes", m->minutes, "usual_minutes", m->usual_minutes,
                     "marks", marks_json(m), "bays", bays, "heat", heat_json(job), "acts", acts,
                     "hash", hash_json(pb_job_hash(job)));
}
