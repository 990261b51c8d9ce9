/* The wall opened: its members, what stands in its bays, what was missed ringed; after a job the
 * fill of each bay by its density. */
#include "wall/wall.h"

#include <math.h>

static void hatch(Ui *ui, GfxRect r, GfxColor c)
{
    float step = 9.0f;
    for (float s = step; s < r.w + r.h; s += step) {
        ui_line(ui, r.x + fminf(s, r.w), r.y + fmaxf(s - r.w, 0.0f), r.x + fmaxf(s - r.h, 0.0f),
                r.y + fminf(s, r.h), 1.0f, c);
    }
}

/* Fill by its density, patch by patch; of a piece too small for the model nothing is known. */
static void fill_draw(Ui *ui, const WallPlace *at, const Wall *w, int bay)
{
    const UiTheme *t = ui->theme;
    int count;
    const PbRect *r = &pb_bays_list(w->truth, &count)[bay].around;
    const PbJobFill *fill = pb_job_fill_of(w->job, bay);
    double target = pb_job_framing(w->job)->like.target_kg_m3;
    if (fill->is_small) {
        GfxRect all = wall_rect(at, r);
        ui_rect(ui, all.x, all.y, all.w, all.h, t->accent_wash);
    }
    for (int n = 0; n < fill->patch_count; n++) {
        const PbPatch *p = &fill->patches[n];
        GfxRect b = wall_rect(at, &(PbRect){r->x0_m + p->x0_m, r->y0_m + p->y0_m, r->x0_m + p->x1_m,
                                            r->y0_m + p->y1_m});
        if (p->density_kg_m3 > 1.0) {
            ui_rect(ui, b.x, b.y, b.w, b.h, ui_density_color(p->density_kg_m3, target));
        }
    }
}

static void bays_draw(Ui *ui, const WallPlace *at, const Wall *w)
{
    const UiTheme *t = ui->theme;
    int count;
    const PbFramedBay *bays = pb_bays_list(w->truth, &count);
    for (int n = 0; n < count; n++) {
        GfxRect r = wall_rect(at, &bays[n].around);
        int is_missed = wall_is_missed(w, n);
        ui_rect(ui, r.x, r.y, r.w, r.h, is_missed ? t->danger_wash : t->board);
        if (pb_job_fill_of(w->job, n) != NULL) {
            fill_draw(ui, at, w, n);
        }
        if (is_missed) {
            hatch(ui, r, t->danger);
        }
        if (w->found[n].left != PB_LEAVE_NONE) {
            wall_crossed_draw(ui, r);
        }
    }
}

static void inside_draw(Ui *ui, const WallPlace *at, const PbFraming *f)
{
    const UiTheme *t = ui->theme;
    for (int n = 0; n < f->inside_count; n++) {
        const PbObstacle *o = &f->inside[n];
        const PbObstacleTraits *traits = pb_obstacle_traits(o->kind);
        float wide = fmaxf((float)(o->size_m * at->px_m), 2.0f);
        GfxRect r = wall_rect(at, &(PbRect){o->x0_m, o->y0_m, o->x1_m, o->y1_m});
        if (traits->is_batt) {
            ui_rect(ui, r.x, r.y, r.w, r.h, ui_fade(t->accent, 0.15));
        } else if (traits->is_rectangle) {
            ui_rect(ui, r.x, r.y, r.w, r.h, t->sheet);
            ui_frame(ui, r, 2.0f, t->ink);
        } else {
            GfxColor c = traits->touch == PB_TOUCH_WOOD   ? t->wood
                         : traits->touch == PB_TOUCH_WIRE ? t->danger
                                                          : t->ink2;
            ui_line(ui, wall_px(at, o->x0_m), wall_py(at, o->y0_m), wall_px(at, o->x1_m),
                    wall_py(at, o->y1_m), wide, c);
        }
    }
}

static void members_draw(Ui *ui, const WallPlace *at, const PbFraming *f)
{
    const UiTheme *t = ui->theme;
    for (int n = 0; n < f->member_count; n++) {
        GfxRect r = wall_rect(at, &f->members[n].at);
        ui_rect(ui, r.x, r.y, r.w, r.h, t->wood);
        ui_frame(ui, r, 1.0f, t->wood_ink);
    }
}

/* Rings round what was missed, with a light line on both sides, and the numbers of the bays. */
static void rings_draw(Ui *ui, const WallPlace *at, const Wall *w)
{
    const UiTheme *t = ui->theme;
    int count;
    const PbFramedBay *bays = pb_bays_list(w->truth, &count);
    for (int n = 0; n < count; n++) {
        GfxRect r = wall_rect(at, &bays[n].around);
        int is_missed = wall_is_missed(w, n);
        GfxRect ring = {r.x - 4, r.y - 4, r.w + 8, r.h + 8};
        if (is_missed) {
            ui_round_line(ui, (GfxRect){ring.x - 2, ring.y - 2, ring.w + 4, ring.h + 4}, 10.0f,
                          7.0f, t->sheet);
            ui_round_line(ui, ring, 8.0f, 3.0f, t->danger);
        }
        wall_flag_draw(ui, r, n + 1, is_missed ? t->danger : t->well,
                       is_missed ? t->white : t->ink);
    }
}

void wall_opened_draw(const App *app, const WallPlace *at)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Wall *w = app->wall;
    const PbFraming *f = pb_job_framing(w->job);
    ui_layer(ui, &at->r);
    ui_rect(ui, at->r.x, at->r.y, at->r.w, at->r.h, t->well);
    bays_draw(ui, at, w);
    inside_draw(ui, at, f);
    members_draw(ui, at, f);
    wall_cutouts_draw(ui, at, f->cutouts, f->cutout_count);
    rings_draw(ui, at, w);
    for (int n = 0; n < w->crew->hole_count; n++) {
        const PbCrewHole *h = &w->crew->holes[n];
        float radius = fmaxf((float)(0.5 * h->bore_m * at->px_m), 4.0f);
        int is_open = h->met == PB_FEEL_NOTHING;
        ui_arc(ui, wall_px(at, h->x_m), wall_py(at, h->y_m), radius, 0.0, 6.2832,
               is_open ? 2.0f : 3.0f, is_open ? t->ink : t->danger);
    }
    ui_layer(ui, NULL);
    ui_frame(ui, at->r, 2.0f, t->ink);
}
