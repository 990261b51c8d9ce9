/* What moves in the large view: tufts in the air with the way they came, the fibres that stand up
 * from the pile, dust at the gaps, the ring that closes at the mouth as the flow dies. All of it
 * from the state of the simulation; with still pictures asked for, a few of it, renewed now and
 * then. */
#include "bay/bay.h"

#include <math.h>

enum { MOST_TUFTS = 500 };
static const double smear_s = 0.035;    /* a tuft is drawn along what it flew in this time */
static const double front_kg_m3 = 14.0; /* where the eye sees the pile begin */
static const double closed_share = 0.8; /* of the best flow here: the ring is closed */
static const GfxColor straw[2] = {{0x8A, 0x74, 0x56, 0xFF}, {0xA9, 0x8B, 0x58, 0xFF}};

static GfxColor fibre(const UiTheme *t, uint32_t k)
{
    return k % 4u == 0u ? t->ink2 : k % 4u == 1u ? t->wood_ink : straw[k & 1u];
}

/* One tuft: the way it came, and two or three fibres across each other at its head. */
static void tuft(const App *app, const GlanceView *v, const PbTuft *p, double back_s, uint32_t k)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    float m = (float)v->px_m;
    float x = v->inner.x + (p->x_m - (float)back_s * p->u_m_s) * m;
    float y = v->inner.y + v->inner.h - (p->y_m - (float)back_s * p->v_m_s) * m;
    if (y < v->r.y - 20.0f || y > v->r.y + v->r.h + 20.0f) {
        return;
    }
    float speed = hypotf(p->u_m_s, p->v_m_s), a = 6.283f * ui_scatter(k * 5u);
    float long_px = fminf(fmaxf(speed * (float)smear_s * m, 3.0f), 18.0f);
    float ux = speed > 0.05f ? p->u_m_s / speed : cosf(a);
    float uy = speed > 0.05f ? -p->v_m_s / speed : sinf(a);
    GfxColor c = fibre(t, k);
    ui_speck(ui, x, y, -long_px * ux, -long_px * uy, 1.3f + 2.0f * ui_scatter(k * 5u + 1u),
             ui_fade(c, 0.55));
    for (uint32_t i = 0; i < 1u + (k & 1u); i++) {
        float turn = a + 1.9f * (float)i, l = 2.5f + 2.5f * ui_scatter(k * 5u + 2u + i);
        ui_speck(ui, x - 0.5f * l * cosf(turn), y - 0.5f * l * sinf(turn), l * cosf(turn),
                 l * sinf(turn), 2.0f, c);
    }
}

void glance_storm_draw(const App *app, const GlanceView *v)
{
    const PbView *view = app->run.view;
    const Bay *b = app->bay;
    if (app->taste.is_still) {
        for (int i = 0; i < b->still_count; i++) {
            tuft(app, v, &b->still[i], 0.0, (uint32_t)i);
        }
        return;
    }
    int step = (view->tuft_count + MOST_TUFTS - 1) / MOST_TUFTS;
    double back = (1.0 - app->run.alpha) * PB_TICK_S;
    for (int i = 0; step > 0 && i < view->tuft_count; i += step) {
        tuft(app, v, &view->tufts[i], back, (uint32_t)(i / step));
    }
}

/* The tufts of a picture that stands still for a quarter of a second. */
void glance_storm_frame(App *app)
{
    Bay *b = app->bay;
    const PbView *view = app->run.view;
    if (view->time_s >= b->still_s && view->time_s < b->still_s + 0.25) {
        return;
    }
    b->still_s = view->time_s;
    b->still_count = 0;
    int step = view->tuft_count / BAY_STILL_TUFTS + 1;
    for (int i = 0; i < view->tuft_count && b->still_count < BAY_STILL_TUFTS; i += step) {
        b->still[b->still_count++] = view->tufts[i];
    }
}

/* Density between the middles of two cells of a row. */
static double density_at(const PbView *v, int j, double x_cells)
{
    int i = (int)x_cells;
    i = i < 0 ? 0 : i > v->nx - 2 ? v->nx - 2 : i;
    double s = fmin(fmax(x_cells - i, 0.0), 1.0);
    const double *row = v->density_kg_m3 + j * v->nx;
    return row[i] * (1.0 - s) + row[i + 1] * s;
}

/* Fibres over one place of the front; `out` +1 when what is free lies above it. */
static void hairs(const App *app, float x, float y, float out, uint32_t seed)
{
    for (uint32_t k = 0; k < 2u; k++) {
        uint32_t s = seed * 17u + k * 3u;
        float lean = 2.2f * (ui_scatter(s) - 0.5f), l = 3.0f + 6.0f * ui_scatter(s + 1u);
        float off = 7.0f * (ui_scatter(s + 2u) - 0.6f);
        ui_speck(app->ui, x, y + out * off, l * sinf(lean), -out * l * cosf(lean), 1.6f,
                 k & 1u ? app->ui->theme->wood_ink : straw[1]);
    }
}

/* The soft front of the pile: from row to row of cells, where fill begins. */
void glance_pile_draw(const App *app, const GlanceView *v)
{
    const PbView *view = app->run.view;
    if (view->nx < 2 || view->ny < 2) {
        return;
    }
    int j0 = (int)(v->low_m / view->dy_m),
        j1 = j0 + (int)((double)v->r.h / v->px_m / view->dy_m) + 2;
    j0 = j0 < 0 ? 0 : j0;
    j1 = j1 > view->ny - 1 ? view->ny - 1 : j1;
    for (float px = 1.0f; px < v->inner.w; px += 3.0f) {
        double x_cells = (double)px / v->px_m / view->dx_m - 0.5;
        double low = density_at(view, j0, x_cells);
        for (int j = j0; j < j1; j++) {
            double high = density_at(view, j + 1, x_cells);
            if ((low < front_kg_m3) != (high < front_kg_m3)) {
                double s = (front_kg_m3 - low) / (high - low);
                double y_m = (j + 0.5 + s) * view->dy_m;
                hairs(app, v->inner.x + px, v->inner.y + v->inner.h - (float)(y_m * v->px_m),
                      high < front_kg_m3 ? 1.0f : -1.0f, (uint32_t)px);
            }
            low = high;
        }
    }
}

/* Dust where air carries it out through the gaps of the boards, above the fill. */
void glance_gap_dust_draw(const App *app, const GlanceView *v)
{
    Ui *ui = app->ui;
    const PbView *view = app->run.view;
    uint32_t beat = app->taste.is_still ? 0u : (uint32_t)(view->tick / 3) * 977u;
    int left = 160;
    for (int j = 0; j < view->ny && left > 0; j++) {
        float y = v->inner.y + v->inner.h - (float)((j + 0.5) * view->dy_m * v->px_m);
        for (int i = 0; i < view->nx && y > v->r.y && y < v->r.y + v->r.h && left > 0; i++) {
            double leak = view->leak_kg_s[j * view->nx + i];
            int n = leak > 1e-5 ? 3 : leak > 1e-6 ? 2 : leak > 1e-7 ? 1 : 0;
            for (int k = 0; k < n; k++, left--) {
                uint32_t seed = (uint32_t)(j * view->nx + i) * 7u + (uint32_t)k + beat;
                float far = ui_scatter(seed + 1u);
                float x =
                    v->inner.x + (float)((i + (double)ui_scatter(seed)) * view->dx_m * v->px_m);
                ui_rect(ui, x + 18.0f * (ui_scatter(seed + 2u) - 0.5f) * far,
                        y + 18.0f * (ui_scatter(seed + 3u) - 0.5f) * far, 2.0f, 2.0f,
                        ui_fade(ui->theme->ink2, 0.7 * (1.0 - (double)far)));
            }
        }
    }
}

/* Round the mouth, as the flow falls from the best at this stop: a stall closes it. Practice with
 * the wall open only: nobody has such a ring on the job. */
void glance_ring_draw(const App *app, float x, float y)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const PbView *v = app->run.view;
    double best = v->best_flow_m3_s;
    if (app->task.is_graded || app->task.sight != SIGHT_OPEN || !v->signals.machine_on ||
        v->signals.tube_in_m < 0.01 || best < 1e-4) {
        return;
    }
    double share = (1.0 - v->signals.flow_m3_s / best) / (1.0 - closed_share);
    share = fmin(fmax(share, 0.0), 1.0);
    float radius = ui_px(ui, 25), wide = ui_px(ui, 6);
    ui_arc(ui, x, y, radius, 0.0, 6.2831853, wide + 4.0f, t->sheet);
    ui_arc(ui, x, y, radius, 0.0, 6.2831853, wide, t->rule);
    if (share > 0.01) {
        ui_arc(ui, x, y, radius, -1.5707963, -1.5707963 + share * 6.2831853, wide, t->accent);
    }
}
