/* Results and signals as text. All SI; numbers that do not exist are null. */
#include "io/result_file.h"

#include "json_maker.h"

#include <assert.h>
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

static json_t *run_json(const IoRunResult *run, int *failed)
{
    JsonMaker m = json_maker();
    json_put(&m, "exercise", json_string(run->exercise->id));
    json_put(&m, "hands", json_string(run->hands_name));
    /* a string, because readers of JSON often keep only 53 bits of a number */
    char seed[24];
    snprintf(seed, sizeof seed, "%" PRIu64, run->seed);
    json_put(&m, "seed", json_string(seed));
    json_put_whole(&m, "cells_across", run->cells_across);
    json_put(&m, "constants", run->constants != NULL ? json_string(run->constants) : json_null());
    json_put_whole(&m, "physics_version", PB_PHYSICS_VERSION);
    json_put(&m, "phase", json_string(io_phase_word(run->result.phase)));
    *failed |= m.failed;
    return m.object;
}

static json_t *ledger_json(const PbLedger *l, int *failed)
{
    JsonMaker m = json_maker();
    json_put_number(&m, "fed_kg", l->fed_kg);
    json_put_number(&m, "in_bay_kg", l->in_bay_kg);
    json_put_number(&m, "in_hose_kg", l->in_hose_kg);
    json_put_number(&m, "airborne_kg", l->airborne_kg);
    json_put_number(&m, "lost_hole_kg", l->lost_hole_kg);
    json_put_number(&m, "lost_openings_kg", l->lost_openings_kg);
    json_put_number(&m, "lost_leaks_kg", l->lost_leaks_kg);
    json_put_number(&m, "lost_outside_kg", l->lost_outside_kg);
    json_put_number(&m, "cleared_kg", l->cleared_kg);
    json_put_number(&m, "fallen_kg", l->fallen_kg);
    *failed |= m.failed;
    return m.object;
}

static json_t *stalls_json(const IoRunResult *run, int *failed)
{
    json_t *list = json_array();
    for (int i = 0; i < run->event_count; i++) {
        const PbEvent *event = &run->events[i];
        if (event->kind == PB_EVENT_STALL) {
            JsonMaker m = json_maker();
            json_put_number(&m, "time_s", event->tick * PB_TICK_S);
            json_put_number(&m, "mouth_y_m", event->y_m);
            json_put_number(&m, "flow_m3_s", event->value);
            json_put_item(list, &m, failed);
        }
    }
    return list;
}

static json_t *lifts_json(const IoRunResult *run, int *failed)
{
    json_t *list = json_array();
    for (int i = 0; i < run->lift_count; i++) {
        JsonMaker m = json_lift(&run->lifts[i]);
        json_put_item(list, &m, failed);
    }
    return list;
}

static json_t *acts_json(const IoRunResult *run, int *failed)
{
    const PbActs *a = &run->result.acts;
    json_t *sealed = json_array();
    for (int o = 0; o < run->exercise->opening_count && o < PB_MAX_OPENINGS; o++) {
        if (a->is_sealed[o]) {
            *failed |= json_array_append_new(sealed, json_integer(o + 1));
        }
    }
    JsonMaker m = json_maker();
    json_put_whole(&m, "hole", a->hole + 1);
    json_put_number(&m, "ring", a->ring_open_frac);
    json_put(&m, "sealed", sealed);
    json_put(&m, "static_test_pa", a->tested_pa > 0.0 ? json_real(a->tested_pa) : json_null());
    json_put(&m, "left",
             a->left != PB_LEAVE_NONE ? json_string(pb_leave_traits(a->left)->word) : json_null());
    json_put_number(&m, "minutes", a->minutes);
    *failed |= m.failed;
    return m.object;
}

static json_t *leak_json(const IoRunResult *run, int *failed)
{
    if (run->leak75_empty_m3_s_m2 < 0.0) {
        return json_null();
    }
    JsonMaker m = json_maker();
    json_put_number(&m, "pressure_pa", 75.0);
    json_put_number(&m, "empty_m3_s_m2", run->leak75_empty_m3_s_m2);
    json_put_number(&m, "packed_m3_s_m2", run->leak75_packed_m3_s_m2);
    *failed |= m.failed;
    return m.object;
}

json_t *io_result_to_json(const IoRunResult *run)
{
    assert(run != NULL && run->exercise != NULL && run->hands_name != NULL);
    const PbResult *r = &run->result;
    JsonMaker m = json_maker();
    char hash[24];
    json_put(&m, "format", json_string(IO_RESULT_FORMAT));
    json_put(&m, "run", run_json(run, &m.failed));
    json_put_number(&m, "mass_in_bay_kg", r->mass_in_bay_kg);
    json_put_number(&m, "mass_fed_kg", r->mass_fed_kg);
    json_put_number(&m, "mass_lost_kg", r->mass_lost_kg);
    json_put_number(&m, "mass_balance_rel", r->mass_balance_rel);
    json_put_number(&m, "fillable_volume_m3", r->fillable_volume_m3);
    json_put_number(&m, "mean_kg_m3", r->mean_kg_m3);
    json_put_number(&m, "p5_patch_kg_m3", r->p5_patch_kg_m3);
    json_put_number(&m, "min_patch_kg_m3", r->min_patch_kg_m3);
    json_put_number(&m, "share_at_target", r->share_at_target);
    json_put_number(&m, "share_below_48_kg_m3", r->share_below_48_kg_m3);
    json_put_number(&m, "share_below_56_kg_m3", r->share_below_56_kg_m3);
    json_put_number(&m, "void_area_m2", r->void_area_m2);
    json_put_number(&m, "peak_panel_pa", r->peak_panel_pa);
    json_put_number(&m, "peak_panel_over_strength", r->peak_panel_over_strength);
    json_put(&m, "blow_out", json_boolean(r->blow_out));
    json_put_whole(&m, "plugs", r->plugs);
    json_put(&m, "stalls", stalls_json(run, &m.failed));
    json_put(&m, "lifts", lifts_json(run, &m.failed));
    json_put_number(&m, "duration_s", r->duration_s);
    json_put_number(&m, "bags", r->bags);
    json_put(&m, "acts", acts_json(run, &m.failed));
    json_put(&m, "ledger", ledger_json(&r->ledger, &m.failed));
    json_put(&m, "leak_test", leak_json(run, &m.failed));
    json_put_number(&m, "realtime_factor", run->realtime_factor);
    snprintf(hash, sizeof hash, "0x%016" PRIx64, r->state_hash);
    json_put(&m, "state_hash", json_string(hash));
    return json_made(&m);
}

void io_signals_header(FILE *out)
{
    assert(out != NULL);
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
    assert(out != NULL && v != NULL);
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
