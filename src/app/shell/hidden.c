/* For tests: does the frame on the screen depend on anything that a crew could not sense? The view
 * is exchanged for one with equal signals and everything behind the face different, the frame is
 * drawn again with no time gone by, and the two draw lists are compared to the byte. */
#include "shell/shell.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

typedef struct Kept {
    uint32_t vertices, indices, quads;
    int fields, layers;
    GfxVertex *vertex;
    GfxTextVertex *text;
} Kept;

static int keep(const GfxDrawList *l, Kept *k)
{
    *k = (Kept){l->vertex_count,
                l->index_count,
                l->quad_count,
                l->field_count,
                l->layer_count,
                malloc(l->vertex_count * sizeof *l->vertices + 1),
                malloc(4u * (size_t)l->quad_count * sizeof *l->text + 1)};
    if (k->vertex == NULL || k->text == NULL) {
        return 0;
    }
    memcpy(k->vertex, l->vertices, l->vertex_count * sizeof *l->vertices);
    memcpy(k->text, l->text, 4u * (size_t)l->quad_count * sizeof *l->text);
    return 1;
}

static int is_same(const GfxDrawList *l, const Kept *k)
{
    /* A field is drawn from densities that are no part of the list: one of them is enough. */
    return l->field_count == 0 && k->fields == 0 && l->vertex_count == k->vertices &&
           l->index_count == k->indices && l->quad_count == k->quads &&
           l->layer_count == k->layers &&
           memcmp(l->vertices, k->vertex, k->vertices * sizeof *k->vertex) == 0 &&
           memcmp(l->text, k->text, 4u * (size_t)k->quads * sizeof *k->text) == 0;
}

static void disguise(const PbView *from, PbView *v, double *cells, PbLift *lift)
{
    int n = from->nx * from->ny;
    for (int i = 0; i < n; i++) {
        cells[i] = 20.0 + 60.0 * fabs(sin(i * 1.7));
        cells[n + i] = 0.004 * fabs(sin(i * 0.11));
        cells[2 * n + i] = i % 3 ? 0.0 : 2e-6;
    }
    *lift = (PbLift){.from_s = 0.5 * from->time_s,
                     .mouth_y_m = 1.0,
                     .step_m = 0.77,
                     .stall_s = 1.0,
                     .mass_kg = 3.3,
                     .density_kg_m3 = 61.0};
    v->density_kg_m3 = v->density_past_kg_m3 = v->gas_pa = v->load_pa = cells;
    v->bow_m = cells + n;
    v->leak_kg_s = cells + 2 * n;
    v->mouth_x_m += 0.05;
    v->mouth_y_m = 1.9 - v->mouth_y_m;
    v->mouth_pa += 4321.0;
    v->delivery_kg_s += 0.01;
    v->best_flow_m3_s = 0.5 * v->best_flow_m3_s + 0.01;
    v->panel_peak_pa += 900.0;
    v->panel_strength_pa *= 0.7;
    v->bow_max_m += 0.006;
    v->ledger.in_bay_kg += 2.0;
    v->lifts = lift;
    v->lift_count = 1;
    v->tuft_count = 0;
}

/* 1 = something hidden reaches the screen, 0 = nothing does, -1 = memory ran out. */
int hidden_changes_frame(App *app)
{
    const PbView *seen = app->run.view;
    Run shadow = app->run;
    size_t n = (size_t)seen->nx * (size_t)seen->ny;
    double *cells = calloc(3 * n, sizeof *cells);
    PbView other = *seen;
    PbLift lift;
    Kept kept = {0};
    int changed = -1;
    app_draw_and_show(app);
    app_draw_and_show(app); /* widgets have forgotten the last input */
    if (cells != NULL && keep(&app->ui->list, &kept)) {
        disguise(seen, &other, cells, &lift);
        app->run.view = &other;
        app->run.stop_max_pa += 500.0;
        app->run.watched.sample_count /= 2;
        app->run.mouth_before_m += 0.3f;
        app->run.mouth_now_m += 0.3f;
        app_draw_and_show(app);
        changed = !is_same(&app->ui->list, &kept);
        app->run = shadow;
    }
    free(cells);
    free(kept.vertex);
    free(kept.text);
    return changed;
}
