/* The state in figures: for `expect` in scripts, and as JSON for tests that drive the real window.
 */
#include "debrief/debrief.h"
#include "door/door.h"
#include "drill/drill.h"
#include "shell/health.h"
#include "shell/shell.h"
#include "side/side.h"
#include "wall/wall.h"
#include "years/years.h"

#include "audio/audio_device.h"
#include "io/output_file.h"
#include "io/saving_words.h"
#include "os/process.h"

#include <stdio.h>
#include <string.h>

typedef struct Row {
    const char *key;
    double value;
} Row;

enum { MAX_ROWS = 220 };

/* The room of years; nothing while another is shown. */
static int years_rows(const App *app, Row *out)
{
    Years *y = app->years;
    if (y == NULL) {
        return 0;
    }
    const Row all[] = {
        {"years", y->rail.years},
        {"years_playing", y->rail.is_playing},
        {"years_gap_m", y->gap_m},
        {"years_r_m2k_w", y->has_heat ? y->r_m2k_w : -1.0},
        {"years_bay_r_m2k_w", y->has_heat ? y->bay_r_m2k_w : -1.0},
        {"years_heat_w", y->has_heat ? y->heat_w : -1.0},
        {"years_low_c", y->low_c},
        {"years_high_c", y->high_c},
        {"years_spot_c", y->laid->spot_c == y->laid->spot_c ? y->laid->spot_c : -99.0},
        {"years_keys", SDL_AtomicGet(&y->shown->keys_ready)},
        {"years_draws", SDL_AtomicGet(&y->shown->draws_ready)},
        {"years_is_new", y->shown == y->job && y->restart_at_s <= 0.0},
        {"years_stopped", y->is_stopped},
        {"years_loop", y->has_heat && y->shown->keys[y->heat_key].section.has_loop},
        {"years_first_picture_s", y->first_picture_s},
        {"years_outdoor_c", y->outdoor_c},
        {"years_room_c", y->room_c},
    };
    int n = (int)(sizeof all / sizeof all[0]);
    memcpy(out, all, sizeof all);
    return n;
}

/* The room Side by side; figures of each bay at the rail's year. */
static int side_rows(const App *app, Row *out)
{
    static const char *const keys[PB_COMPARE_FILLS][6] = {
        {"side_ratio_1", "side_low_1", "side_high_1", "side_r_1", "side_cost_1", "side_gap_1"},
        {"side_ratio_2", "side_low_2", "side_high_2", "side_r_2", "side_cost_2", "side_gap_2"},
        {"side_ratio_3", "side_low_3", "side_high_3", "side_r_3", "side_cost_3", "side_gap_3"},
        {"side_ratio_4", "side_low_4", "side_high_4", "side_r_4", "side_cost_4", "side_gap_4"}};
    const Side *s = app->side;
    if (s == NULL) {
        return 0;
    }
    const Row all[] = {
        {"years", s->rail.years},
        {"years_playing", s->rail.is_playing},
        {"side_page", (double)s->page},
        {"side_is_new", s->shown == s->job && !s->is_due},
        {"side_is_over", side_job_is_over(s->job) && s->shown == s->job && !s->is_due},
        {"side_draws", s->draws},
        {"side_share", side_job_progress(s->job)},
        {"side_stopped", s->is_stopped},
        {"side_foam", (double)s->house.foam},
        {"side_loose", (double)s->house.loose},
        {"side_dense", (double)s->house.dense},
        {"side_has_own", s->has_own},
        {"side_price", s->house.price_per_kwh.mid},
        {"side_area_m2", s->house.wall_area_m2},
        {"side_door_m3_h", s->house.air.door_m3_h},
        {"side_degree_days", s->house.degree_days_k_d.mid},
        {"side_form_siding", s->form.house.wall.layer[PB_WALL_CLADDING]},
        {"side_form_fuel", s->form.house.bill.fuel},
        {"side_form_price", s->form.house.bill.price.mid},
        {"side_layers", s->house.wall.is_layered},
        {"side_saved_units", s->saving[PB_COMPARE_DENSE].units.mid},
        {"side_held", io_saving_is_held(&s->saving[PB_COMPARE_DENSE])},
        {"side_refused", s->form.bad},
        {"side_saved", s->name_count},
        {"side_handouts", s->handout_count},
        {"side_proof_refused", s->proof.bad},
        {"side_proof_bags", s->house.proof.bags},
        {"side_proof_cores", s->house.proof.core_count},
        {"side_proof_working", s->proof.job != NULL && !SDL_AtomicGet(&s->proof.job->is_over)},
        {"side_list_px", (double)s->list_scroll_px},
        {"side_shrink", s->now[PB_COMPARE_FOAM].shrink_frac.mid},
        {"side_first_picture_s", s->first_picture_s},
        {"side_all_s", s->all_s},
    };
    int n = (int)(sizeof all / sizeof all[0]);
    memcpy(out, all, sizeof all);
    for (int f = 0; f < PB_COMPARE_FILLS; f++) {
        const PbCompareFigures *g = &s->now[f];
        double ready = g->has_heat ? 1.0 : -1.0;
        const double v[6] = {ready * g->heat_ratio.mid,
                             g->heat_ratio.low,
                             g->heat_ratio.high,
                             g->r_m2k_w.mid,
                             g->cost.mid,
                             g->top_gap_m.mid};
        for (int k = 0; k < 6; k++) {
            out[n++] = (Row){keys[f][k], g->has_heat || k == 0 || k == 5 ? v[k] : -1.0};
        }
    }
    return n;
}

/* The camera's temperatures as they are drawn, bottom row first. */
static void years_map(const App *app, FILE *f)
{
    const Years *y = app->years;
    fprintf(f, ",\n  \"surface_c\": [\n");
    for (int j = 0; j < YEARS_MAP_NY; j++) {
        fprintf(f, "    [");
        for (int i = 0; i < YEARS_MAP_NX; i++) {
            fprintf(f, "%.4f%s", (double)y->heat_c[j * YEARS_MAP_NX + i],
                    i + 1 < YEARS_MAP_NX ? ", " : "");
        }
        fprintf(f, "]%s\n", j + 1 < YEARS_MAP_NY ? "," : "");
    }
    fprintf(f, "  ]");
}

static const ExerciseRow *row_of(const App *app)
{
    static const ExerciseRow none = {.last = -1.0};
    int i = app->door->row;
    return i >= 0 && i < app->exercises.count ? &app->exercises.rows[i] : &none;
}

/* What takes a while: the run judged as it stands, the state hashed with it; frames sorted; the
 * memory in use. A script that waits for another figure asks at every frame. */
static int dear_rows(const App *app, Row *out)
{
    const Run *run = &app->run;
    PbResult live = {0};
    if (run->watched.session != NULL && !run->watched.has_score) {
        pb_session_result(run->watched.session, &live);
    }
    const PbResult *r = run->watched.has_score ? &run->watched.result : &live;
    const Row all[] = {
        {"fed_kg", r->mass_fed_kg},
        {"in_bay_kg", r->mass_in_bay_kg},
        {"mean_kg_m3", r->mean_kg_m3},
        {"p5_patch_kg_m3", r->p5_patch_kg_m3},
        {"share_at_target", r->share_at_target},
        {"share_below_48_kg_m3", r->share_below_48_kg_m3},
        {"peak_panel_over_strength", r->peak_panel_over_strength},
        {"plugs", r->plugs},
        {"blow_out", r->blow_out},
        {"frame_median_ms", health_frame_ms(0.5)},
        {"frame_p99_ms", health_frame_ms(0.99)},
        {"frames", health_frames()},
        {"memory_kib", os_memory_kib()},
    };
    memcpy(out, all, sizeof all);
    return (int)(sizeof all / sizeof all[0]);
}

static int rows(const App *app, Row *out)
{
    const Debrief *d = app->debrief;
    const Drill *drill = app->drill;
    const Wall *wall = app->wall;
    const PbCrew *wall_crew = wall != NULL ? wall->crew : NULL;
    const Run *run = &app->run;
    static const PbView none; /* at the Door, before the first run */
    const PbView *v = run->view != NULL ? run->view : &none;
    AudioDeviceStats audio = {0};
    if (app->sound.audio != NULL) {
        audio = audio_device_stats(app->sound.audio);
    }
    const Row all[] = {
        {"time_s", v->time_s},
        {"tick", v->tick},
        {"phase", (double)v->phase},
        {"screen", (double)app->turn.screen},
        {"is_paused", app->task.is_paused},
        {"cautions_open", app->cards.cautions_open},
        {"is_us", app->taste.is_us},
        {"card", (double)app->cards.open},
        {"is_contrast", app->taste.is_contrast},
        {"is_still", app->taste.is_still},
        {"has_run", app_has_run(app)},
        {"is_run_worked", run->is_worked},
        {"taken_up_tick", run->taken_up_tick},
        {"row", app->door->row},
        {"rows", app->exercises.count},
        {"row_last", row_of(app)->last},
        {"row_runs", row_of(app)->runs},
        {"row_left_s", row_of(app)->left_id ? row_of(app)->left_s : -1.0},
        {"row_is_open", row_of(app)->is_open},
        {"learners", app->records.learner_count},
        {"learner", (double)app->records.learner_id},
        {"merging", app->cards.merge != NULL},
        {"runs_kept", app->records.runs_kept},
        {"has_store", app->records.store != NULL},
        {"has_notice", app->program.now_s < app->say.notice.until_s},
        {"focus", app->ui->focus},
        {"lang", app->taste.lang},
        {"text_scale", app->taste.text_scale},
        {"machine_on", v->signals.machine_on},
        {"plugged", v->signals.plugged},
        {"clear_left_s", v->signals.clear_left_s},
        {"spilling", v->signals.spilling},
        {"standing", app->say.standing},
        {"direction", v->signals.direction},
        {"tube_in_m", v->signals.tube_in_m},
        {"tube_max_m", run_tube_max(run)},
        {"mouth_x_m", v->mouth_x_m},
        {"mouth_y_m", v->mouth_y_m},
        {"blower_setting", v->signals.blower_setting},
        {"blower_pa", v->signals.blower_pa},
        {"feed_set_kg_s", v->signals.feed_set_kg_s},
        {"flow_m3_s", v->signals.flow_m3_s},
        {"best_flow_m3_s", v->best_flow_m3_s},
        {"lift_count", v->lift_count},
        {"last_stall_s", v->lift_count ? v->lifts[v->lift_count - 1].stall_s : -1.0},
        {"has_score", run->watched.has_score},
        {"score", run->watched.has_score ? run->watched.score.total : -1.0},
        {"is_pass", run->watched.has_score && run->watched.score.is_pass},
        {"verdict", run->watched.has_score ? (double)run->watched.score.verdict : -1.0},
        {"seed", (double)run->config.seed},
        {"target_kg_m3", run->config.exercise.target_kg_m3},
        {"bay_px_per_m", app->laid->bay_px_m},
        {"dropped_s", run->dropped_s},
        {"width_px", app->win.width},
        {"height_px", app->win.height},
        {"debrief_runs", d != NULL ? d->kept.count : -1},
        {"debrief_is_read", d != NULL && d->runs[0].is_scanned},
        {"debrief_at_s", d != NULL ? d->at_s : -1.0},
        {"debrief_replay_s", d != NULL && d->runs[0].is_open
                                 ? pb_replay_tick(d->runs[0].watched.replay) * PB_TICK_S
                                 : -1.0},
        {"debrief_end_s", d != NULL ? d->runs[0].end_s : -1.0},
        {"debrief_score",
         d != NULL && d->runs[0].watched.has_score ? d->runs[0].watched.score.total : -1.0},
        {"debrief_losses",
         d != NULL && d->runs[0].watched.has_score ? d->runs[0].watched.score.loss_count : -1},
        {"debrief_loss", d != NULL ? d->loss : -1},
        {"debrief_loss_s",
         d != NULL && d->loss >= 0 ? d->runs[0].watched.score.losses[d->loss].time_s : -1.0},
        {"debrief_lift", d != NULL ? d->lift : -1},
        {"debrief_pdfs", d != NULL ? d->pdf.count : -1},
        {"debrief_rubric", d != NULL ? d->rubrics.chosen : -1},
        {"debrief_grades", d != NULL ? d->grades.count : -1},
        {"debrief_reference", d != NULL && d->runs[1].is_open && d->runs[1].is_reference},
        {"runs_held", app->records.held_count},
        {"debrief_marks", d != NULL ? d->marks.count : -1},
        {"debrief_points", d != NULL ? d->box.points : -1.0},
        {"debrief_part", d != NULL ? d->part : -1},
        {"debrief_playing", d != NULL && d->is_playing},
        {"debrief_beside", d != NULL && d->runs[1].is_scanned},
        {"debrief_parted", d != NULL && d->runs[0].is_open
                               ? pb_replay_check(d->runs[0].watched.replay).parted_tick
                               : -1},
        {"guide", app->guiding.guide.is_on},
        {"guide_step", app->guiding.guide.is_on ? (double)app->guiding.guide.step : -1.0},
        {"guide_seen", app->guiding.is_seen},
        {"guide_s", app->guiding.guide.done_s},
        {"is_graded", app->task.is_graded},
        {"no_harm",
         run->watched.has_score ? run->watched.score.parts[PB_SCORE_NO_HARM].points : -1.0},
        {"is_captioned", !app->taste.is_uncaptioned},
        {"audio_playing", audio.is_playing},
        {"audio_buffer_frames", audio.buffer_frames},
        {"audio_buffers", (double)audio.buffers},
        {"audio_late", (double)audio.late},
        {"audio_worst_ns_sample", audio.fill_ns_per_sample},
        {"rattle", v->signals.rattle},
        {"sight", app->task.sight},
        {"keys_open", app->cards.keys_open},
        {"layout", app->keymap.layout},
        {"is_muted", app->sound.is_muted},
        {"volume", app->sound.volume},
        {"is_sound", app->sound.audio != NULL},
        {"safety_ticked", app->task.safety_ticked},
        {"safety_skipped", app->task.safety_skipped},
        {"wax_pressure_pa", app->bay->wax_pressure_pa},
        {"wax_pitch", app->bay->wax_pitch},
        {"has_pad", app->win.pad != NULL},
        {"shake_low", app->bay->shake_low},
        {"shake_high", app->bay->shake_high},
        {"rumbles", app->bay->rumbles},
        {"last_pull_m", app->bay->memory.last_pull_m},
        {"drill_phase", drill != NULL ? (double)drill->phase : -1.0},
        {"drill_trials", drill != NULL ? drill->tally.trials : -1},
        {"drill_kept", drill != NULL ? drill->kept_count : -1},
        {"wall_phase", wall != NULL ? (double)wall->phase : -1.0},
        {"wall_acts", wall_crew != NULL ? wall_crew->done_count : -1},
        {"wall_holes", wall_crew != NULL ? wall_crew->hole_count : -1},
        {"wall_found", wall != NULL ? wall->found_count : -1},
        {"wall_packed", wall != NULL ? wall->packed_count : -1},
        {"wall_pass", wall != NULL && wall->is_job ? wall->marks.is_pass : -1},
        {"gl_errors", render_errors(app->win.render)},
        {"nx", v->nx},
        {"ny", v->ny},
    };
    int n = (int)(sizeof all / sizeof all[0]);
    memcpy(out, all, sizeof all);
    n += years_rows(app, out + n);
    return n + side_rows(app, out + n);
}

static int find(const Row *list, int n, const char *key, double *value)
{
    for (int i = 0; i < n; i++) {
        if (strcmp(list[i].key, key) == 0) {
            *value = list[i].value;
            return 1;
        }
    }
    return 0;
}

int dump_value(const App *app, const char *key, double *value)
{
    Row list[MAX_ROWS];
    int n = rows(app, list);
    if (find(list, n, key, value)) {
        return 1;
    }
    n = dear_rows(app, list);
    return find(list, n, key, value);
}

int dump_write(const App *app, const char *path)
{
    IoOutput out;
    PbError err;
    Row list[MAX_ROWS];
    int n = rows(app, list);
    n += dear_rows(app, list + n);
    if (io_output_open(path, "{\n  \"time_s\"", &out, &err) != PB_OK) {
        return 0;
    }
    FILE *f = out.file;
    out.is_quick = 1;
    fprintf(f, "{\n");
    for (int i = 0; i < n; i++) {
        fprintf(f, "  \"%s\": %.9g,\n", list[i].key, list[i].value);
    }
    fprintf(f, "  \"places\": {\n");
    for (int i = 0; i < app->laid->mark_count; i++) {
        const AppMark *m = &app->laid->marks[i];
        fprintf(f, "    \"%s\": [%.1f, %.1f, %.1f, %.1f]%s\n", m->name, (double)m->rect.x,
                (double)m->rect.y, (double)m->rect.w, (double)m->rect.h,
                i + 1 < app->laid->mark_count ? "," : "");
    }
    static const PbView none;
    const PbView *v = app->run.view != NULL ? app->run.view : &none;
    fprintf(f, "  },\n  \"density\": [\n");
    for (int y = 0; y < v->ny; y++) {
        fprintf(f, "    [");
        for (int x = 0; x < v->nx; x++) {
            fprintf(f, "%.2f%s", v->density_kg_m3[y * v->nx + x], x + 1 < v->nx ? ", " : "");
        }
        fprintf(f, "]%s\n", y + 1 < v->ny ? "," : "");
    }
    fprintf(f, "  ]");
    if (app->years != NULL) {
        years_map(app, f);
    }
    fprintf(f, "\n}\n");
    return io_output_commit(&out, &err) == PB_OK;
}
