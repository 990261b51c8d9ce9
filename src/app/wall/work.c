/* What the job has left on the closed face: what the checks of the house showed, what is sealed,
 * cores, and the bays that are being packed. */
#include "wall/wall.h"

#include <math.h>

/* A pencil cross and the reason, where the checks showed one. */
static void leaves_draw(const App *app, const WallPlace *at)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    int count;
    const PbLeave *list = pb_job_known_leaves(app->wall->job, &count);
    for (int n = 0; n < count; n++) {
        float x = wall_px(at, list[n].x_m), y = wall_py(at, list[n].y_m), arm = 7.0f;
        ui_line(ui, x - arm, y - arm, x + arm, y + arm, 2.0f, t->warn);
        ui_line(ui, x - arm, y + arm, x + arm, y - arm, 2.0f, t->warn);
    }
}

static void openings_draw(const App *app, const WallPlace *at)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const PbJob *job = app->wall->job;
    const PbFraming *f = pb_job_framing(job);
    for (int o = 0; o < f->opening_count; o++) {
        const PbOpening *p = &f->openings[o];
        if (!pb_job_opening_is_known(job, o)) {
            continue;
        }
        GfxRect r = wall_rect(at, &(PbRect){p->x0_m, p->y0_m, p->x1_m, p->y1_m});
        r = (GfxRect){r.x - 3.0f, r.y - 3.0f, r.w + 6.0f, r.h + 6.0f};
        if (!pb_job_opening_is_sealed(job, o)) {
            ui_frame(ui, r, 2.0f, t->warn);
            continue;
        }
        ui_frame(ui, r, 2.0f, t->ink);
        for (float x = r.x + 4.0f; x < r.x + r.w; x += 5.0f) { /* the comb of the bead */
            ui_rect(ui, x, r.y, 1.0f, 5.0f, t->ink);
        }
    }
}

static void cores_draw(const App *app, const WallPlace *at)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    int count;
    const PbJobDone *d = pb_job_done(app->wall->job, &count);
    for (int n = 0; n < count; n++) {
        if (d[n].act.kind == PB_JOB_CORE) {
            float x = wall_px(at, d[n].act.wall.x_m), y = wall_py(at, d[n].act.wall.y_m);
            ui_circle(ui, x, y, 6.0f, t->sheet);
            ui_arc(ui, x, y, 6.0f, 0.0, 6.2832, 2.0f, t->accent);
        }
    }
}

/* A rag in the hole, and the tube to where its mouth is. */
static void packing_draw(const App *app, const WallPlace *at, const PbJobFill *fill, double mouth_m)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Wall *w = app->wall;
    int count;
    const PbCrewHole *h = &w->crew->holes[fill->holes[0]];
    const PbRect *r = &pb_bays_list(w->truth, &count)[fill->bay].around;
    float x = wall_px(at, h->x_m), y = wall_py(at, h->y_m), end = wall_py(at, r->y0_m + mouth_m);
    ui_line(ui, x, y, x, end, 4.0f, t->accent);
    ui_circle(ui, x, end, 5.0f, t->accent);
    ui_round(ui, (GfxRect){x - 9.0f, y - 6.0f, 18.0f, 12.0f}, 4.0f, t->accent_wash);
    ui_round_line(ui, (GfxRect){x - 9.0f, y - 6.0f, 18.0f, 12.0f}, 4.0f, 2.0f, t->accent);
}

static void packed_draw(const App *app, const WallPlace *at)
{
    const UiTheme *t = app->ui->theme;
    const Wall *w = app->wall;
    for (int i = 0; i < pb_job_fill_count(w->job); i++) {
        const PbJobFill *fill = pb_job_fill(w->job, i);
        for (int k = 0; fill->is_run && k < fill->hole_count; k++) {
            const PbCrewHole *h = &w->crew->holes[fill->holes[k]];
            float radius = fmaxf((float)(0.5 * h->bore_m * at->px_m), 4.0f);
            ui_circle(app->ui, wall_px(at, h->x_m), wall_py(at, h->y_m), radius, t->accent);
        }
    }
    for (int n = 0; n < WALL_SLOTS; n++) {
        WallSlot *s = &app->wall->slot[n];
        if (s->fill >= 0) {
            packing_draw(app, at, pb_job_fill(w->job, s->fill),
                         SDL_AtomicGet(&s->mouth_mm) / 1000.0);
        }
    }
    if (w->pending >= 0) {
        const PbJobFill *fill = pb_job_fill(w->job, w->pending);
        packing_draw(app, at, fill, fill->exercise.holes[0].y_m);
    }
}

/* Plugs are wood, patches glass-gray, over the holes that they close. */
static void closed_draw(const App *app, const WallPlace *at)
{
    const UiTheme *t = app->ui->theme;
    const Wall *w = app->wall;
    int count, holes = 0, plugged = 0, patched = 0;
    const PbJobDone *d = pb_job_done(w->job, &count);
    for (int n = 0; n < count; n++) {
        holes += d[n].act.kind == PB_JOB_WALL && d[n].act.wall.kind == PB_CREW_DRILL;
        plugged = d[n].act.kind == PB_JOB_PLUG ? holes : plugged;
        patched = d[n].act.kind == PB_JOB_PATCH ? holes : patched;
    }
    for (int n = 0; n < w->crew->hole_count; n++) {
        const PbCrewHole *h = &w->crew->holes[n];
        float radius = fmaxf((float)(0.5 * h->bore_m * at->px_m), 4.0f);
        if (n < plugged || n < patched) {
            ui_circle(app->ui, wall_px(at, h->x_m), wall_py(at, h->y_m), radius,
                      n < patched ? t->glass : t->wood);
            ui_arc(app->ui, wall_px(at, h->x_m), wall_py(at, h->y_m), radius, 0.0, 6.2832, 1.0f,
                   t->wood_ink);
        }
    }
}

void wall_work_draw(const App *app, const WallPlace *at)
{
    openings_draw(app, at);
    leaves_draw(app, at);
    packed_draw(app, at);
    closed_draw(app, at);
    cores_draw(app, at);
}
