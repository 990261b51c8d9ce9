/* The whole bay as a slim measuring staff: heights at its left, the fill as it lies, what the large
 * view shows in a frame, and at its right each stop with the density that it left. */
#include "bay/bay.h"

#include <math.h>

static float scale_width(const App *app)
{
    return ui_px(app->ui, 40);
}

static float marks_width(const App *app)
{
    return ui_px(app->ui, 34);
}

float glance_staff_width(const App *app)
{
    return scale_width(app) + marks_width(app) + 24.0f;
}

/* The fill and tube of an open wall; the face of a taped one. */
static void bay(const App *app, GfxRect inner, double px_m, float stud)
{
    Ui *ui = app->ui;
    if (app->task.sight == SIGHT_OPEN) {
        wall_draw(app, inner, px_m);
        ui_layer(ui, NULL);
        wall_frame_draw(app, inner, stud);
        wall_tube_draw(app, inner, px_m, 0);
        return;
    }
    const PbHole *hole = run_hole(&app->run);
    ui_rect(ui, inner.x, inner.y, inner.w, inner.h, ui->theme->glass);
    wall_frame_draw(app, inner, stud);
    ui_circle(ui, inner.x + (float)(hole->x_m * px_m),
              inner.y + inner.h - (float)(hole->y_m * px_m),
              fmaxf((float)(hole->bore_m * 0.5 * px_m), 5.0f), ui->theme->ink);
}

int glance_is_stop(const App *app, int i)
{
    const PbView *v = app->run.view;
    int is_now = i == v->lift_count - 1;
    return is_now ? v->signals.machine_on : pb_is_stop(&v->lifts[i], &app->run.watched.rubric);
}

/* A tick for each stop that is over, and what it left where that may be seen. */
static void stops(const App *app, GfxRect inner, double px_m, float x)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const PbView *v = app->run.view;
    float taken_from = -1e9f, taken_to = -1e9f; /* taken by the figure before */
    for (int i = v->lift_count - 1; i >= 0; i--) {
        const PbLift *l = &v->lifts[i];
        int is_over = i < v->lift_count - 1;
        float y = floorf(inner.y + inner.h - (float)(l->mouth_y_m * px_m));
        if (!glance_is_stop(app, i) || (y > taken_from && y < taken_to)) {
            continue;
        }
        ui_rect(ui, x, y - 1.0f, ui_px(ui, 7), 2.0f, is_over ? t->ink : t->accent);
        if (is_over && app->task.sight == SIGHT_OPEN && l->density_kg_m3 > 0.0) {
            ui_label(ui, x + ui_px(ui, 10), y + ui_px(ui, 5), 13, UI_BOLD, t->ink, UI_LEFT,
                     app_fmt_density(app, l->density_kg_m3, 0));
        }
        taken_from = y - ui_px(ui, 16);
        taken_to = y + ui_px(ui, 16);
    }
}

/* What the large view shows, and lines from it to that view. */
static void frame(const App *app, GfxRect inner, double px_m, const GlanceView *view, float right)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    double top_m = view->low_m + (double)view->r.h / view->px_m;
    float floor_y = inner.y + inner.h;
    float top = fmaxf(floor_y - (float)(top_m * px_m), inner.y),
          low = fminf(floor_y - (float)(view->low_m * px_m), floor_y);
    GfxRect f = {inner.x, top, inner.w, low - top};
    ui_frame(ui, (GfxRect){f.x - 1, f.y - 1, f.w + 2, f.h + 2}, 3.0f, t->sheet);
    ui_frame(ui, f, 2.0f, t->ink);
    ui_line(ui, right, top, view->r.x, view->r.y, 1.0f, t->edge);
    ui_line(ui, right, low, view->r.x, view->r.y + view->r.h, 1.0f, t->edge);
}

void glance_staff_draw(const App *app, GfxRect r, const GlanceView *view)
{
    const PbExercise *e = &app->run.config.exercise;
    double px_m = (double)(r.h - 8.0f) / (e->height_m + 3.2 * 0.038);
    double most = (double)(r.w - scale_width(app) - marks_width(app)) / (e->width_m + 2 * 0.038);
    px_m = fmin(px_m, most);
    float stud = floorf((float)fmax(0.038 * px_m, 5.0));
    float wide = floorf((float)(e->width_m * px_m)), tall = floorf((float)(e->height_m * px_m));
    GfxRect inner = {r.x + scale_width(app) + stud,
                     floorf(r.y + r.h - 4.0f - stud * 1.05f - (float)tall), (float)wide,
                     (float)tall};
    float right = inner.x + inner.w + stud;
    wall_scale_draw(app, e, inner, px_m, inner.x - stud - 3.0f);
    bay(app, inner, px_m, stud);
    frame(app, inner, px_m, view, right);
    stops(app, inner, px_m, right + 2.0f);
    app->laid->bay = (GfxRect){inner.x - stud, inner.y, inner.w + 2.0f * stud, inner.h};
    app->laid->bay_px_m = px_m;
    app_mark(app, "bay", inner);
}
