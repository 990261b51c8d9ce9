/* The taped wall: outline of the studs, tape at each half metre, the face flat with its bow as
 * contour lines one millimetre apart. The fill behind it is not drawn. */
#include "bay/bay.h"

#include "core/units.h"

#include <math.h>

static float across(double a, double b, double level)
{
    return (float)((level - a) / (b - a));
}

/* One square of the grid of cell centres: the line between its edges that are crossed. */
static void contour_cell(Ui *ui, const double v[4], GfxRect c, double level, float width)
{
    UiPoint p[4];
    int n = 0; /* v: bottom left, bottom right, top left, top right */
    if ((v[0] < level) != (v[1] < level)) {
        p[n++] = (UiPoint){c.x + c.w * across(v[0], v[1], level), c.y + c.h};
    }
    if ((v[2] < level) != (v[3] < level)) {
        p[n++] = (UiPoint){c.x + c.w * across(v[2], v[3], level), c.y};
    }
    if ((v[0] < level) != (v[2] < level)) {
        p[n++] = (UiPoint){c.x, c.y + c.h * (1.0f - across(v[0], v[2], level))};
    }
    if ((v[1] < level) != (v[3] < level)) {
        p[n++] = (UiPoint){c.x + c.w, c.y + c.h * (1.0f - across(v[1], v[3], level))};
    }
    for (int i = 0; i + 1 < n; i += 2) {
        ui_line(ui, p[i].x, p[i].y, p[i + 1].x, p[i + 1].y, width, ui->theme->ink2);
    }
}

static void contours(const App *app, GfxRect r)
{
    const PbView *v = app->run.view;
    double most = 0.0;
    float w = r.w / (float)v->nx, h = r.h / (float)v->ny;
    for (int i = 0; i < v->nx * v->ny; i++) {
        most = fmax(most, v->bow_m[i]);
    }
    for (int k = 1; k <= 30 && k * 1e-3 < most; k++) {
        for (int y = 0; y + 1 < v->ny; y++) {
            for (int x = 0; x + 1 < v->nx; x++) {
                const double *a = &v->bow_m[y * v->nx + x];
                const double corner[4] = {a[0], a[1], a[v->nx], a[v->nx + 1]};
                GfxRect c = {r.x + w * ((float)x + 0.5f), r.y + r.h - h * ((float)y + 1.5f), w, h};
                contour_cell(app->ui, corner, c, k * 1e-3, k % 5 == 0 ? 2.5f : 1.2f);
            }
        }
    }
}

static void tape(const App *app, GfxRect r, double px_m)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    for (int k = 1; k * 0.5 < app->run.config.exercise.height_m; k++) {
        float y = floorf(r.y + r.h - (float)(k * 0.5 * px_m)), high = ui_px(ui, 6);
        ui_rect(ui, r.x - 4.0f, y - high * 0.5f, r.w + 8.0f, high, ui_fade(t->well, 0.85));
        ui_rect(ui, r.x - 4.0f, y - high * 0.5f, r.w + 8.0f, 1.0f, t->rule);
        ui_rect(ui, r.x - 4.0f, y + high * 0.5f, r.w + 8.0f, 1.0f, t->rule);
    }
}

void taped_wall_draw(const App *app, GfxRect r, double px_m)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const PbExercise *e = &app->run.config.exercise;
    const PbHole *hole = run_hole(&app->run);
    float x = r.x + (float)(hole->x_m * px_m), y = r.y + r.h - (float)(hole->y_m * px_m);
    ui_rect(ui, r.x, r.y, r.w, r.h, t->glass);
    tape(app, r, px_m);
    contours(app, r);
    holes_draw(ui, e->holes, e->hole_count, &app->run.view->signals.acts, (UiPoint){r.x, r.y + r.h},
               px_m);
    ui_circle(ui, x, y, fmaxf((float)(hole->bore_m * 0.5 * px_m), 6.0f), t->ink);
    spill_draw(ui, &app->run.view->signals, x, y, px_m, app_shown_s(app));
}

float taped_side_width(const App *app)
{
    Gauge g = sight_gauge(app);
    return closed_card_width(&g, &app->bay->memory) + ui_px(app->ui, 4);
}

/* Beside the wall: the mark at the hole, what is heard, the bow and the load on the face. */
void taped_side_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    Gauge g = sight_gauge(app);
    char text[120];
    float y = r.y + closed_card_draw(&g, &app->bay->memory, r.x, r.y) + ui_px(ui, 14);
    float heard = closed_caption_draw(&g, (GfxRect){r.x, y, r.w, 0.0f});
    y += fmaxf(heard + ui_px(ui, 22), ui_px(ui, 52));
    float wide = fminf(r.w, ui_px(ui, 360)), face = face_line_high(app, wide);
    face_draw(app, (GfxRect){r.x, y, wide, face}, 1);
    y += face + ui_px(ui, 32);
    SDL_snprintf(text, sizeof text, _("Most bow %s; a line is {line}, each fifth is thick."),
                 app_fmt_small(app, app->run.view->bow_max_m));
    y += ui_paragraph(ui, r.x, y, r.w, 13, UI_REGULAR, ui->theme->ink2, app_said(app, text));
    page_needs(app, y - ui_px(ui, 12) - (r.y + r.h));
}
