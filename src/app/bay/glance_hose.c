/* Tube and hose outside the hole in the large view: they swing while fill rattles through them and
 * stand straight at the stall. What is pulled out of the hole lengthens the clear tube. */
#include "bay/bay.h"

#include "core/units.h"

#include <math.h>

enum { WAY = 25 };

/* The way from the hole: aside, round a bend, down the lane. A hole above the view is left to the
 * imagination: the hose comes in from there. */
static float way_of(const GlanceView *v, UiPoint hole, float lane, float swing, UiPoint p[WAY])
{
    float low = v->r.y + v->r.h + 40.0f, length = 0.0f;
    float bend = fminf(0.12f * (float)v->px_m, fmaxf(0.4f * (lane - hole.x), 8.0f));
    for (int i = 0; i < WAY; i++) {
        float s = (float)i / (WAY - 1);
        if (i < 8) { /* aside, a little up as a stiff tube lies over the rim of the hole */
            float u = (float)i / 8.0f;
            p[i] = (UiPoint){hole.x + (lane - bend - hole.x) * u,
                             hole.y - 10.0f * sinf(3.14f * u) - 4.0f * u};
        } else if (i < 15) {
            float a = 1.5707963f * (float)(i - 8) / 6.0f;
            p[i] = (UiPoint){lane - bend + bend * sinf(a), hole.y - 4.0f + bend * (1.0f - cosf(a))};
        } else {
            float u = (float)(i - 14) / (WAY - 15), top = hole.y - 4.0f + bend;
            p[i] = (UiPoint){lane, top + (fmaxf(low, top + 20.0f) - top) * u};
        }
        float free = sinf(3.1415927f * s); /* held at the hole and on the floor */
        p[i].x += swing * free * sinf(9.0f * s);
        p[i].y += i < 15 ? 0.6f * swing * free * cosf(7.0f * s) : 0.0f;
        length += i > 0 ? hypotf(p[i].x - p[i - 1].x, p[i].y - p[i - 1].y) : 0.0f;
    }
    return length;
}

/* Points from `from` to `to` pixels along the way. */
static int piece(const UiPoint way[WAY], float from, float to, UiPoint out[WAY + 2])
{
    float at = 0.0f;
    int n = 0;
    for (int i = 0; i + 1 < WAY; i++) {
        float dx = way[i + 1].x - way[i].x, dy = way[i + 1].y - way[i].y;
        float l = fmaxf(hypotf(dx, dy), 1e-3f), a = fmaxf(from, at), b = fminf(to, at + l);
        if (a < b) {
            if (n == 0) {
                out[n++] = (UiPoint){way[i].x + dx * (a - at) / l, way[i].y + dy * (a - at) / l};
            }
            out[n++] = (UiPoint){way[i].x + dx * (b - at) / l, way[i].y + dy * (b - at) / l};
        }
        at += l;
    }
    return n;
}

/* Material seen through the tube: streaks that run, or stand packed when nothing moves. */
static void riders(const App *app, const UiPoint way[WAY], float to, float wide, double px_m)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const PbSignals *s = &app->run.view->signals;
    if (s->hose_load_kg < 1e-4 || (s->rattle < 0.01 && !s->plugged)) {
        return;
    }
    int runs = s->machine_on && !s->plugged && !app->taste.is_still;
    float gap = 9.0f + 16.0f * (float)(1.0 - fmin(s->rattle, 1.0));
    float phase = runs ? gap - fmodf((float)fmod(app_shown_s(app) * 1.2 * px_m, 1e4), gap) : 0.0f;
    float l = runs ? 9.0f : 4.0f;
    for (int k = 0; phase + gap * (float)k < to - l && k < 160; k++) {
        UiPoint p[WAY + 2];
        float at = phase + gap * (float)k;
        if (piece(way, at, at + l, p) > 1) {
            float dx = (p[1].x - p[0].x), dy = (p[1].y - p[0].y), n = fmaxf(hypotf(dx, dy), 1e-3f);
            float o = (ui_scatter((uint32_t)k * 7u + 3u) - 0.5f) * (wide - 10.0f);
            ui_speck(ui, p[0].x - dy / n * o, p[0].y + dx / n * o, dx, dy, 2.2f,
                     k & 1 ? t->ink2 : t->wood_ink);
        }
    }
}

static void marks(const App *app, const UiPoint way[WAY], float to, float wide, double px_m)
{
    Ui *ui = app->ui;
    double in = run_tube_in(&app->run);
    int foot = (int)floor(in / PB_M_PER_FT + 1e-6) + 1;
    for (; foot < 60; foot++) {
        float s = (float)((foot * PB_M_PER_FT - in) * px_m);
        UiPoint p[WAY + 2];
        if (s > to || piece(way, s, s + 2.0f, p) < 2) {
            return;
        }
        float dx = p[1].x - p[0].x, dy = p[1].y - p[0].y, n = fmaxf(hypotf(dx, dy), 1e-3f);
        float ox = -dy / n * wide * 0.5f, oy = dx / n * wide * 0.5f;
        ui_line(ui, p[0].x - ox, p[0].y - oy, p[0].x + ox, p[0].y + oy, foot % 5 ? 3.0f : 5.0f,
                ui->theme->ink);
    }
}

/* Dust where the tube goes through the hole, wider when nothing else moves. */
static void dust(const App *app, UiPoint hole)
{
    const PbSignals *s = &app->run.view->signals;
    uint32_t beat = app->taste.is_still ? 0u : (uint32_t)(app->run.view->tick / 3) * 131u;
    float reach = ui_px(app->ui, s->rattle < 0.1 ? 26 : 16);
    for (int k = 0; k < (int)(s->dust_at_hole * 80.0); k++) {
        float a = ui_scatter(beat + (uint32_t)k * 3u) * 6.283f;
        float far = ui_scatter(beat + (uint32_t)k * 3u + 1u);
        ui_rect(app->ui, hole.x + cosf(a) * (8.0f + reach * far),
                hole.y + sinf(a) * (6.0f + 0.8f * reach * far), 2.0f, 2.0f,
                ui_fade(app->ui->theme->ink2, 0.85 * (1.0 - (double)far)));
    }
}

/* While a clog is cleared the hose is apart at its coupling; where that is out of sight, in the
 * middle of what is seen of it. Its lower end is laid aside. Returns whether it was drawn. */
static int parted(const App *app, const GlanceView *v, const UiPoint way[WAY], float out,
                  float whole, float wide)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    float gap = clog_gap(app), at = fminf(out, 0.62f * whole);
    UiPoint p[WAY + 2];
    if (clog_step(app) == 0) {
        return 0;
    }
    int n = piece(way, 0.0f, at, p);
    UiPoint end = p[n - 1];
    ui_polyline(ui, p, n, wide, t->ink);
    ui_polyline(ui, p, n, wide - 3.0f, t->tube);
    ui_rect(ui, end.x - 0.7f * wide, end.y - 14.0f, 1.4f * wide, 14.0f, t->ink2);
    n = piece(way, at + 4.0f, whole, p);
    for (int i = 0; i < n; i++) {
        p[i].x += gap * 0.09f * (float)v->px_m;
        p[i].y += gap * 0.16f * (float)v->px_m;
    }
    if (n > 1) {
        ui_polyline(ui, p, n, wide * 1.25f, t->ink);
        ui_rect(ui, p[0].x - 0.8f * wide, p[0].y, 1.6f * wide, 12.0f, t->ink2);
    }
    clog_heap_draw(app, end.x, v->r.y + v->r.h - 6.0f, end.y, v->px_m);
    return 1;
}

void glance_hose_draw(const App *app, const GlanceView *v, float lane)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const PbExercise *e = &app->run.config.exercise;
    const PbSignals *s = &app->run.view->signals;
    UiPoint hole = {v->inner.x + (float)(app->run.view->mouth_x_m * v->px_m),
                    v->inner.y + v->inner.h - (float)(run_hole(&app->run)->y_m * v->px_m)};
    if (hole.y > v->r.y + v->r.h + 40.0f) {
        return; /* the mouth points up: hole and hose are under what is seen */
    }
    UiPoint way[WAY], p[WAY + 2];
    float wide = fmaxf((float)(e->machine.tube_outer_m * v->px_m), 9.0f);
    float pulse = s->machine_on && !s->plugged ? (float)s->hose_pulse : 0.0f;
    float beat =
        app->taste.is_still ? 0.4f : sinf((float)fmod(app_shown_s(app) * 10.05, 6.2831853));
    float whole = way_of(v, hole, lane, 12.0f * pulse * beat, way);
    float out = fminf(
        (float)(fmax(e->machine.tube_length_m - run_tube_in(&app->run), 0.05) * v->px_m), whole);
    if (parted(app, v, way, out, whole, wide)) {
        return;
    }
    for (int side = -2; side <= 2 && pulse > 0.05f; side++) {
        UiPoint ghost[WAY];
        (void)way_of(v, hole, lane, 9.0f * pulse * (float)side, ghost);
        if (side != 0) {
            ui_polyline(ui, ghost, WAY, app->taste.is_still ? 4.0f : 1.5f, ui_fade(t->edge, 0.8));
        }
    }
    if (out < whole) { /* the black hose takes over */
        ui_polyline(ui, p, piece(way, out, whole, p), wide * 1.25f, t->ink);
    }
    int n = piece(way, 0.0f, out, p);
    ui_polyline(ui, p, n, wide, t->ink);
    ui_polyline(ui, p, n, wide - 3.0f, t->tube);
    riders(app, way, out, wide, v->px_m);
    marks(app, way, out, wide, v->px_m);
    n = piece(way, fmaxf(out - 12.0f, 0.0f), out + 14.0f, p);
    if (out < whole && n > 1) {
        ui_polyline(ui, p, n, wide * 1.4f, t->ink2); /* coupling */
    }
    dust(app, hole);
}
