/* Results and signals as text. All SI; numbers that do not exist are null. */
#include "io/result_file.h"

#include <inttypes.h>
#include <math.h>

const char *io_phase_word(PbPhase phase)
{
    switch (phase) {
    case PB_PHASE_WORKING:
        return "working";
    case PB_PHASE_BLEEDING:
        return "bleeding";
    case PB_PHASE_DONE:
        return "done";
    case PB_PHASE_BLOWN_OUT:
        return "blown-out";
    }
    return "unknown";
}

/* An object being filled; failed stays set once memory has run out. */
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

static void whole(Maker *m, const char *key, long long value)
{
    put(m, key, json_integer(value));
}

static json_t *run_json(const IoRunResult *run, int *failed)
{
    Maker m = {json_object(), 0};
    put(&m, "exercise", json_string(run->exercise->id));
    put(&m, "hands", json_string(run->hands_name));
    /* a string, because readers of JSON often keep only 53 bits of a number */
    char seed[24];
    snprintf(seed, sizeof seed, "%" PRIu64, run->seed);
    put(&m, "seed", json_string(seed));
    whole(&m, "cells_across", run->cells_across);
    whole(&m, "physics_version", PB_PHYSICS_VERSION);
    put(&m, "phase", json_string(io_phase_word(run->result.phase)));
    *failed |= m.failed;
    return m.object;
}

static json_t *ledger_json(const PbLedger *l, int *failed)
{
    Maker m = {json_object(), 0};
    number(&m, "fed_kg", l->fed_kg);
    number(&m, "in_bay_kg", l->in_bay_kg);
    number(&m, "in_hose_kg", l->in_hose_kg);
    number(&m, "airborne_kg", l->airborne_kg);
    number(&m, "lost_hole_kg", l->lost_hole_kg);
    number(&m, "lost_openings_kg", l->lost_openings_kg);
    number(&m, "lost_leaks_kg", l->lost_leaks_kg);
    number(&m, "lost_outside_kg", l->lost_outside_kg);
    number(&m, "cleared_kg", l->cleared_kg);
    number(&m, "fallen_kg", l->fallen_kg);
    *failed |= m.failed;
    return m.object;
}

static json_t *stalls_json(const IoRunResult *run, int *failed)
{
    json_t *list = json_array();
    for (int i = 0; i < run->stall_count; i++) {
        Maker m = {json_object(), 0};
        number(&m, "time_s", run->stalls[i].time_s);
        number(&m, "mouth_y_m", run->stalls[i].mouth_y_m);
        number(&m, "flow_m3_s", run->stalls[i].flow_m3_s);
        *failed |= m.failed | (json_array_append_new(list, m.object) != 0);
    }
    return list;
}

static json_t *lifts_json(const IoRunResult *run, int *failed)
{
    json_t *list = json_array();
    for (int i = 0; i < run->lift_count; i++) {
        const PbLift *l = &run->lifts[i];
        Maker m = {json_object(), 0};
        number(&m, "from_s", l->from_s);
        number(&m, "to_s", l->to_s);
        put(&m, "direction", json_string(l->direction > 0 ? "up" : "down"));
        number(&m, "mouth_y_m", l->mouth_y_m);
        number(&m, "step_m", l->step_m);
        number(&m, "stall_s", l->stall_s >= 0.0 ? l->stall_s : (double)NAN);
        number(&m, "mass_kg", l->mass_kg);
        number(&m, "density_kg_m3", l->density_kg_m3);
        *failed |= m.failed | (json_array_append_new(list, m.object) != 0);
    }
    return list;
}

static json_t *leak_json(const IoRunResult *run, int *failed)
{
    if (run->leak75_empty_m3_s_m2 < 0.0) {
        return json_null();
    }
    Maker m = {json_object(), 0};
    number(&m, "pressure_pa", 75.0);
    number(&m, "empty_m3_s_m2", run->leak75_empty_m3_s_m2);
    number(&m, "packed_m3_s_m2", run->leak75_packed_m3_s_m2);
    *failed |= m.failed;
    return m.object;
}

json_t *io_result_to_json(const IoRunResult *run)
{
    const PbResult *r = &run->result;
    Maker m = {json_object(), 0};
    char hash[24];
    put(&m, "format", json_string(IO_RESULT_FORMAT));
    put(&m, "run", run_json(run, &m.failed));
    number(&m, "mass_in_bay_kg", r->mass_in_bay_kg);
    number(&m, "mass_fed_kg", r->mass_fed_kg);
    number(&m, "mass_lost_kg", r->mass_lost_kg);
    number(&m, "mass_balance_rel", r->mass_balance_rel);
    number(&m, "fillable_volume_m3", r->fillable_volume_m3);
    number(&m, "mean_kg_m3", r->mean_kg_m3);
    number(&m, "p5_patch_kg_m3", r->p5_patch_kg_m3);
    number(&m, "min_patch_kg_m3", r->min_patch_kg_m3);
    number(&m, "share_at_target", r->share_at_target);
    number(&m, "share_below_48_kg_m3", r->share_below_48_kg_m3);
    number(&m, "share_below_56_kg_m3", r->share_below_56_kg_m3);
    number(&m, "void_area_m2", r->void_area_m2);
    number(&m, "peak_panel_pa", r->peak_panel_pa);
    number(&m, "peak_panel_over_strength", r->peak_panel_over_strength);
    put(&m, "blow_out", json_boolean(r->blow_out));
    whole(&m, "plugs", r->plugs);
    put(&m, "stalls", stalls_json(run, &m.failed));
    put(&m, "lifts", lifts_json(run, &m.failed));
    number(&m, "duration_s", r->duration_s);
    number(&m, "bags", r->bags);
    put(&m, "ledger", ledger_json(&r->ledger, &m.failed));
    put(&m, "leak_test", leak_json(run, &m.failed));
    number(&m, "realtime_factor", run->realtime_factor);
    snprintf(hash, sizeof hash, "0x%016" PRIx64, r->state_hash);
    put(&m, "state_hash", json_string(hash));
    if (m.failed) {
        json_decref(m.object);
        return NULL;
    }
    return m.object;
}

void io_signals_header(FILE *out)
{
    fprintf(out,
            "%s\n"
            "time_s,machine_on,blower_setting,blower_speed,feed_set_kg_s,blower_pa,flow_m3_s,"
            "delivery_kg_s,hose_load_kg,hose_pulse,rattle,plugged,direction,tube_in_m,mouth_x_m,"
            "mouth_y_m,mouth_pa,push_back_n,panel_peak_pa,panel_worst_over_strength,bow_max_m,"
            "creak,leak_hiss,dust_at_hole,bags_used,in_bay_kg\n",
            IO_SIGNALS_FORMAT);
}

void io_signals_row(FILE *out, const PbView *v)
{
    const PbSignals *s = &v->signals;
    fprintf(out, "%.2f,%d,%.4g,%.4g,%.6g,%.6g,%.6g,%.6g,%.6g,%.4g,%.4g,%d,%d,%.5g,", v->time_s,
            s->machine_on != 0, s->blower_setting, s->blower_speed, s->feed_set_kg_s, s->blower_pa,
            s->flow_m3_s, v->delivery_kg_s, s->hose_load_kg, s->hose_pulse, s->rattle,
            s->plugged != 0, s->direction, s->tube_in_m);
    fprintf(out, "%.5g,%.5g,%.6g,%.4g,%.6g,%.4g,%.4g,%.4g,%.4g,%.4g,%.5g,%.8g\n", v->mouth_x_m,
            v->mouth_y_m, v->mouth_pa, s->push_back_n, v->panel_peak_pa,
            v->panel_worst_over_strength, v->bow_max_m, s->creak, s->leak_hiss, s->dust_at_hole,
            s->bags_used, v->ledger.in_bay_kg);
}
