/* The state in figures: for `expect` in scripts, and as JSON for tests that drive the real window.
 */
#include "app.h"

#include <stdio.h>
#include <string.h>

typedef struct Row {
    const char *key;
    double value;
} Row;

enum { MAX_ROWS = 96 };

static const ExerciseRow *row_of(const App *app)
{
    static const ExerciseRow none = {.last = -1.0};
    int i = app->door.row;
    return i >= 0 && i < app->exercises.count ? &app->exercises.rows[i] : &none;
}

static int rows(const App *app, Row *out)
{
    const Run *run = &app->run;
    static const PbView none; /* at the Door, before the first run */
    const PbView *v = run->view != NULL ? run->view : &none;
    PbResult live = {0};
    if (run->session != NULL) {
        pb_session_result(run->session, &live);
    }
    const PbResult *r = run->has_result ? &run->result : &live;
    const Row all[] = {
        {"time_s", v->time_s},
        {"tick", v->tick},
        {"phase", (double)v->phase},
        {"screen", (double)app->screen},
        {"is_paused", app->is_paused},
        {"cautions_open", app->cautions_open},
        {"is_us", app->is_us},
        {"card", (double)app->card},
        {"is_contrast", app->is_contrast},
        {"is_still", app->is_still},
        {"has_run", app_has_run(app)},
        {"row", app->door.row},
        {"rows", app->exercises.count},
        {"row_last", row_of(app)->last},
        {"row_runs", row_of(app)->runs},
        {"row_is_open", row_of(app)->is_open},
        {"learners", app->records.learner_count},
        {"learner", (double)app->records.learner_id},
        {"runs_kept", app->records.runs_kept},
        {"has_store", app->records.store != NULL},
        {"has_notice", app->now_s < app->notice.until_s},
        {"focus", app->ui.focus},
        {"lang", app->lang},
        {"text_scale", app->text_scale},
        {"machine_on", v->signals.machine_on},
        {"plugged", v->signals.plugged},
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
        {"fed_kg", r->mass_fed_kg},
        {"in_bay_kg", r->mass_in_bay_kg},
        {"mean_kg_m3", r->mean_kg_m3},
        {"p5_patch_kg_m3", r->p5_patch_kg_m3},
        {"share_at_target", r->share_at_target},
        {"share_below_48_kg_m3", r->share_below_48_kg_m3},
        {"peak_panel_over_strength", r->peak_panel_over_strength},
        {"plugs", r->plugs},
        {"blow_out", r->blow_out},
        {"has_score", run->has_result},
        {"score", run->has_result ? run->score.total : -1.0},
        {"is_pass", run->has_result && run->score.is_pass},
        {"target_kg_m3", run->config.exercise.target_kg_m3},
        {"bay_px_per_m", app->bay_px_m},
        {"dropped_s", run->dropped_s},
        {"width_px", app->width},
        {"height_px", app->height},
        {"nx", v->nx},
        {"ny", v->ny},
    };
    int n = (int)(sizeof all / sizeof all[0]);
    memcpy(out, all, sizeof all);
    return n;
}

int dump_value(const App *app, const char *key, double *value)
{
    Row list[MAX_ROWS];
    int n = rows(app, list);
    for (int i = 0; i < n; i++) {
        if (strcmp(list[i].key, key) == 0) {
            *value = list[i].value;
            return 1;
        }
    }
    return 0;
}

/* Written beside and renamed, so that a reader never sees half a file. */
int dump_write(const App *app, const char *path)
{
    char half[600];
    Row list[MAX_ROWS];
    int n = rows(app, list);
    snprintf(half, sizeof half, "%s.part", path);
    FILE *f = fopen(half, "w");
    if (f == NULL) {
        return 0;
    }
    fprintf(f, "{\n");
    for (int i = 0; i < n; i++) {
        fprintf(f, "  \"%s\": %.9g,\n", list[i].key, list[i].value);
    }
    fprintf(f, "  \"places\": {\n");
    for (int i = 0; i < app->mark_count; i++) {
        const AppMark *m = &app->marks[i];
        fprintf(f, "    \"%s\": [%.1f, %.1f, %.1f, %.1f]%s\n", m->name, (double)m->rect.x,
                (double)m->rect.y, (double)m->rect.w, (double)m->rect.h,
                i + 1 < app->mark_count ? "," : "");
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
    fprintf(f, "  ]\n}\n");
    int ok = !ferror(f);
    ok = fclose(f) == 0 && ok;
    return ok && rename(half, path) == 0;
}
