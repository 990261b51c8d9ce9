/* The closed wall: painted face, fastener dots, pencil lines of the probed studs, outlet cover, rag
 * at the hole, tube with foot marks, hose. Drawn from what a crew can sense (PbSignals), what was
 * seen of the house beforehand, and memory; the density of the fill cannot reach this file. */
#include "bay/gauge.h"

#include "core/units.h"

#include <SDL.h>
#include <math.h>
#include <string.h>

typedef struct Face {
    GfxRect r;
    float hole_x, hole_y, floor_y;
    double px_m;
} Face;

static const double stud_m = 0.038; /* a planed two-by-four, across its narrow side */
static const double floor_m = 0.16; /* of floor drawn in front of the wall: our choice */

/* The rattle of the last seconds, a value each fifth of a second. */
static void hear(SightMemory *m, const PbSignals *s)
{
    int now = (int)(s->time_s * 5.0);
    if (now == m->heard) {
        m->rattle[GAUGE_TRACE - 1] = (float)s->rattle;
        return;
    }
    for (; m->heard < now; m->heard++) {
        memmove(m->rattle, m->rattle + 1, (GAUGE_TRACE - 1) * sizeof m->rattle[0]);
        m->rattle[GAUGE_TRACE - 1] = (float)s->rattle;
    }
}

void closed_memory_step(SightMemory *m, const PbSignals *s)
{
    if (!m->is_started || s->time_s < m->seen_s) { /* a new run */
        *m = (SightMemory){.rest_m = s->tube_in_m,
                           .last_m = s->tube_in_m,
                           .here_since_s = s->time_s,
                           .stop_min_pa = s->blower_pa,
                           .stop_max_pa = s->blower_pa,
                           .plug_since_s = -1.0,
                           .is_started = 1};
    }
    m->seen_s = s->time_s;
    hear(m, s);
    if (fabs(s->tube_in_m - m->last_m) > 1e-5) {
        m->moved_s = s->time_s;
        m->is_moving = m->is_moving || fabs(s->tube_in_m - m->rest_m) > 0.02;
    }
    m->last_m = s->tube_in_m;
    if (m->is_moving && s->time_s - m->moved_s > 0.25) { /* the hand rests again */
        m->is_moving = 0;
        m->last_pull_m = m->rest_m - s->tube_in_m;
        m->rest_m = s->tube_in_m;
        m->here_since_s = m->moved_s;
        m->stop_min_pa = m->stop_max_pa = s->blower_pa;
    }
    m->stop_min_pa = fmin(m->stop_min_pa, s->blower_pa);
    m->stop_max_pa = fmax(m->stop_max_pa, s->blower_pa);
    m->plug_since_s = !s->plugged ? -1.0 : m->plug_since_s < 0.0 ? s->time_s : m->plug_since_s;
}

static void painted_face(const Gauge *g, const Face *f)
{
    Ui *ui = g->ui;
    const UiTheme *t = ui->theme;
    const SightPlan *p = &g->plan;
    double pitch = p->width_m + stud_m, dots = p->fastener_m > 0.1 ? p->fastener_m : 0.3048;
    float left = f->hole_x - (float)((p->hole_x_m + 0.5 * stud_m) * f->px_m); /* of the bay */
    int first = -(int)((double)(left - f->r.x) / (pitch * f->px_m)) - 1;
    ui_rect(ui, f->r.x, f->r.y, f->r.w, f->r.h, t->glass);
    for (int k = first; k < 40; k++) {
        float x = floorf(left + (float)(k * pitch * f->px_m));
        if (x < f->r.x + 6.0f || x > f->r.x + f->r.w - 6.0f) {
            continue;
        }
        if (((k - first) & 3) == 3) { /* joint of two sheets */
            ui_rect(ui, x, f->r.y, 1.0f, f->floor_y - f->r.y, ui_fade(t->edge, 0.4));
        }
        for (int d = 0; d * dots * f->px_m < (double)(f->floor_y - f->r.y); d++) {
            float y = f->floor_y - (float)((0.05 + d * dots) * f->px_m);
            if (y > f->r.y + 4.0f) {
                ui_circle(ui, x, y, 2.0f, ui_fade(t->edge, 0.8));
            }
        }
        if (k == 0 || k == 1) { /* probed and pencilled */
            ui_dashes(ui, x, f->r.y + 4.0f, x, f->floor_y - 4.0f, 1.5f, 5.0f, t->ink2);
        }
        if (k == 0 || (k == 1 && ui->scale < 1.45f)) { /* large type: the hose has that place */
            ui_label(ui, x + (k ? 1.0f : -1.0f) * ui_px(ui, 5),
                     fmaxf(f->r.y + f->r.h * 0.62f, f->r.y + ui_px(ui, 214)), 13, UI_REGULAR,
                     t->ink2, k ? UI_LEFT : UI_RIGHT, _("stud"));
        }
    }
    ui_rect(ui, f->r.x, f->floor_y - (float)(0.06 * f->px_m), f->r.w, 1.0f, t->edge); /* skirting */
    ui_rect(ui, f->r.x, f->floor_y, f->r.w, f->r.y + f->r.h - f->floor_y, t->well);
    ui_rect(ui, f->r.x, f->floor_y, f->r.w, 2.0f, t->ink);
}

static void outlet_cover(const Gauge *g, const Face *f)
{
    Ui *ui = g->ui;
    const UiTheme *t = ui->theme;
    float w = (float)(0.07 * f->px_m), h = (float)(0.115 * f->px_m);
    float x = f->hole_x + (float)((g->plan.cover_x_m - g->plan.hole_x_m) * f->px_m) - w * 0.5f;
    float y = f->floor_y - (float)(g->plan.cover_y_m * f->px_m) - h * 0.5f;
    if (!g->plan.has_cover || x < f->r.x || x + w > f->r.x + f->r.w) {
        return;
    }
    ui_round(ui, (GfxRect){x, y, w, h}, 3.0f, t->sheet);
    ui_round_line(ui, (GfxRect){x, y, w, h}, 3.0f, 1.5f, t->ink2);
    for (int k = 0; k < 2; k++) {
        ui_rect(ui, x + w * 0.36f, y + h * (0.22f + 0.4f * (float)k), 2.0f, h * 0.14f, t->ink);
        ui_rect(ui, x + w * 0.58f, y + h * (0.22f + 0.4f * (float)k), 2.0f, h * 0.14f, t->ink);
    }
}

static void rag_and_hole(const Gauge *g, const Face *f)
{
    Ui *ui = g->ui;
    const UiTheme *t = ui->theme;
    float bore = fmaxf((float)(g->plan.hole_bore_m * f->px_m) * 0.5f, 7.0f);
    UiPoint rag[9];
    for (int k = 0; k < 9; k++) {
        double a = 0.698 * k + 0.2, far = (double)bore * (k & 1 ? 2.1 : 1.7);
        rag[k] = (UiPoint){f->hole_x + (float)(far * cos(a)), f->hole_y + (float)(far * sin(a))};
    }
    ui_polygon(ui, rag, 9, t->well);
    for (int k = 0; k < 9; k++) {
        ui_line(ui, rag[k].x, rag[k].y, rag[(k + 1) % 9].x, rag[(k + 1) % 9].y, 1.5f, t->edge);
    }
    ui_line(ui, rag[1].x, rag[1].y, f->hole_x, f->hole_y, 1.0f, t->edge);
    ui_line(ui, rag[5].x, rag[5].y, f->hole_x, f->hole_y, 1.0f, t->edge);
    ui_circle(ui, f->hole_x, f->hole_y, bore, t->ink);
    uint32_t beat = (uint32_t)(g->signals->time_s * 8.0) * 131u;
    for (int k = 0; k < (int)(g->signals->dust_at_hole * 60.0); k++) {
        float a = ui_scatter(beat + (uint32_t)k * 3u) * 6.283f;
        float far = ui_scatter(beat + (uint32_t)k * 3u + 1u);
        ui_rect(ui, f->hole_x + cosf(a) * bore * (1.2f + 3.0f * far),
                f->hole_y + sinf(a) * bore * (1.2f + 2.4f * far), 2.0f, 2.0f,
                ui_fade(t->ink2, 0.85 * (1.0 - (double)far)));
    }
}

enum { WAY = 8 };

/* The way of tube and hose from the hole: aside, down, then along the floor out of sight. */
static void way_of(const Face *f, UiPoint p[WAY])
{
    float m = (float)f->px_m, x = f->hole_x, y = f->hole_y, low = f->floor_y + 0.05f * m;
    float reach = fminf(0.85f * m, f->r.x + f->r.w - x - 0.35f * m);
    p[0] = (UiPoint){x, y};
    p[1] = (UiPoint){x + 0.14f * m, y - 0.06f * m};
    p[2] = (UiPoint){x + reach - 0.16f * m, y - 0.07f * m};
    p[3] = (UiPoint){x + reach - 0.03f * m, y - 0.01f * m};
    p[4] = (UiPoint){x + reach, y + 0.13f * m};
    p[5] = (UiPoint){x + reach, fmaxf(low - 0.10f * m, p[4].y + 2.0f)};
    p[6] = (UiPoint){x + reach + 0.08f * m, fmaxf(low, p[5].y + 2.0f)};
    p[7] = (UiPoint){f->r.x + f->r.w + 2.5f * m, p[6].y};
}

/* Points of the way from `from` to `to` pixels along it. */
static int piece(const UiPoint way[WAY], float from, float to, UiPoint *out, int room)
{
    float at = 0.0f;
    int n = 0;
    for (int i = 0; i + 1 < WAY; i++) {
        float dx = way[i + 1].x - way[i].x, dy = way[i + 1].y - way[i].y;
        float length = fmaxf(hypotf(dx, dy), 1e-3f);
        float a = fmaxf(from, at), b = fminf(to, at + length);
        if (a < b && n + 2 <= room) {
            if (n == 0) {
                out[n++] =
                    (UiPoint){way[i].x + dx * (a - at) / length, way[i].y + dy * (a - at) / length};
            }
            out[n++] =
                (UiPoint){way[i].x + dx * (b - at) / length, way[i].y + dy * (b - at) / length};
        }
        at += length;
    }
    return n;
}

static void foot_marks(const Gauge *g, const UiPoint way[WAY], float out_px, double px_m,
                       float wide)
{
    Ui *ui = g->ui;
    const UiTheme *t = ui->theme;
    int foot = (int)floor(g->tube_in_m / PB_M_PER_FT + 1e-6) + 1;
    for (; foot < 200; foot++) {
        float s = (float)((foot * PB_M_PER_FT - g->tube_in_m) * px_m);
        UiPoint p[4];
        if (s > out_px || piece(way, s, s + 1.0f, p, 4) < 2) {
            break;
        }
        float ux = p[1].x - p[0].x, uy = p[1].y - p[0].y, u = fmaxf(hypotf(ux, uy), 1e-3f);
        float nx = -uy / u * wide * 0.5f, ny = ux / u * wide * 0.5f;
        char number[8];
        ui_line(ui, p[0].x - nx, p[0].y - ny, p[0].x + nx, p[0].y + ny, foot % 5 == 0 ? 5.0f : 3.0f,
                t->ink);
        SDL_snprintf(number, sizeof number, "%d", foot);
        int is_upright = fabsf(uy) > fabsf(ux);
        ui_label(ui, p[0].x + (is_upright ? wide * 0.5f + ui_px(ui, 9) : 0.0f),
                 p[0].y + (is_upright ? ui_px(ui, 5) : -wide * 0.5f - ui_px(ui, 7)), 13, UI_BOLD,
                 t->ink, is_upright ? UI_LEFT : UI_CENTRE, number);
    }
}

static void tube_and_hose(const Gauge *g, const Face *f)
{
    Ui *ui = g->ui;
    const UiTheme *t = ui->theme;
    const PbSignals *s = g->signals;
    UiPoint way[WAY], p[16];
    float wide = fmaxf((float)(g->plan.tube_outer_m * f->px_m), 9.0f), thick = wide * 1.3f;
    float out = (float)(fmax(g->plan.tube_length_m - g->tube_in_m, 0.05) * f->px_m);
    way_of(f, way);
    /* Ghosts of the hose: spread by the shake, at most 3 Hz and 8 px; still envelopes when asked.
     */
    float amp = s->machine_on ? fminf(8.0f, 9.0f * (float)s->hose_pulse) : 0.0f;
    float swing = g->is_still ? 1.0f : sinf((float)(g->now_s * 6.2831853 * 1.6));
    for (int ghost = -2; ghost <= 2; ghost++) {
        float off = amp * (ghost ? (float)ghost * 0.5f * (0.75f + 0.25f * swing) : 0.3f * swing);
        int n = piece(way, out, 1e6f, p, 16);
        for (int i = 1; i + 1 < n; i++) {
            p[i].x += off;
            p[i].y += off * 0.6f;
        }
        if (ghost != 0 && n > 1 && amp > 0.4f) {
            ui_polyline(ui, p, n, 2.0f, t->edge);
        }
    }
    int n = piece(way, out, 1e6f, p, 16);
    if (n > 1) {
        ui_polyline(ui, p, n, thick, t->ink);
    }
    n = piece(way, 0.0f, out, p, 16);
    if (n > 1) {
        ui_polyline(ui, p, n, wide, t->ink);
        ui_polyline(ui, p, n, wide - 3.0f, t->tube);
    }
    float gap = 5.0f + 14.0f * (float)(1.0 - s->rattle);
    float speed = s->plugged || !s->machine_on ? 0.0f : (float)(1.2 * f->px_m);
    float phase = gap - fmodf((float)fmod(s->time_s, 1000.0) * speed, gap);
    for (int k = 0; s->rattle > 0.01 && phase + gap * (float)k < out && k < 300; k++) {
        UiPoint q[4];
        if (piece(way, phase + gap * (float)k, phase + gap * (float)k + 1.0f, q, 4) > 1) {
            float o = (ui_scatter((uint32_t)k * 5u + 3u) - 0.5f) * (wide - 7.0f);
            ui_rect(ui, q[0].x + o, q[0].y + o * 0.5f, 1.6f, 1.6f, t->ink2);
        }
    }
    foot_marks(g, way, out, f->px_m, wide);
    if (piece(way, out - 6.0f, out + 8.0f, p, 16) > 1) { /* coupling */
        ui_polyline(ui, p, 2, thick * 1.35f, t->ink2);
    }
}

static void last_move(const Gauge *g, const SightMemory *m, char *line, size_t size)
{
    char pull[24];
    if (fabs(m->last_pull_m) > 0.01) {
        gauge_length(g, pull, sizeof pull, fabs(m->last_pull_m));
        SDL_snprintf(line, size, m->last_pull_m > 0.0 ? _("Last pull: %s") : _("Last push: %s"),
                     pull);
    } else {
        SDL_snprintf(line, size, "%s", _("Not moved yet"));
    }
}

float closed_card_width(const Gauge *g, const SightMemory *m)
{
    Ui *ui = g->ui;
    char line[80];
    last_move(g, m, line, sizeof line);
    float words =
        fmaxf(ui_width(ui, 14, UI_REGULAR, line), ui_width(ui, 14, UI_BOLD, _("Mark at the hole")));
    return fmaxf(ui_px(ui, 182), words + 2.0f * ui_px(ui, 12));
}

float closed_card_draw(const Gauge *g, const SightMemory *m, float x, float y)
{
    Ui *ui = g->ui;
    const UiTheme *t = ui->theme;
    char feet[16], length[24], line[80];
    int is_us = g->reader.is_us; /* the tube has a mark each foot, or each 10 cm */
    double whole = floor(g->tube_in_m / (is_us ? PB_M_PER_FT : 0.1) + 0.02);
    gauge_figure(g, feet, sizeof feet, is_us ? 0 : 1, is_us ? whole : 0.1 * whole, "");
    gauge_length(g, length, sizeof length, g->tube_in_m);
    float in = ui_px(ui, 12);
    last_move(g, m, line, sizeof line);
    GfxRect r = {x, y, closed_card_width(g, m), ui_px(ui, 112)};
    ui_round(ui, r, ui_px(ui, 6), t->sheet);
    ui_round_line(ui, r, ui_px(ui, 6), 1.0f, t->edge);
    ui_label(ui, x + in, y + ui_px(ui, 22), 14, UI_BOLD, t->ink, UI_LEFT, _("Mark at the hole"));
    float w = ui_label(ui, x + in, y + ui_px(ui, 54), 28, UI_BOLD, t->ink, UI_LEFT, feet);
    w += ui_px(ui, 8);
    w += ui_label(ui, x + in + w, y + ui_px(ui, 54), 14, UI_REGULAR, t->ink, UI_LEFT,
                  !is_us         ? "m"
                  : whole == 1.0 ? _("foot")
                                 : _("feet")) +
         ui_px(ui, 12);
    ui_label(ui, x + in + w, y + ui_px(ui, 54), 14, UI_REGULAR, t->ink2, UI_LEFT, length);
    ui_label(ui, x + in, y + ui_px(ui, 78), 14, UI_REGULAR, t->ink2, UI_LEFT, line);
    char seconds[24];
    gauge_figure(g, seconds, sizeof seconds, 0, g->signals->time_s - m->here_since_s, "s");
    SDL_snprintf(line, sizeof line, _("Here for: %s"), seconds);
    ui_label(ui, x + in, y + ui_px(ui, 98), 14, UI_REGULAR, t->ink2, UI_LEFT, line);
    return r.h;
}

float closed_caption_draw(const Gauge *g, GfxRect r)
{
    static const GfxColor none = {0, 0, 0, 0};
    Ui *ui = g->ui;
    const UiTheme *t = ui->theme;
    char heard[96], line[160];
    if (!g->is_captioned) {
        return 0.0f;
    }
    SDL_snprintf(line, sizeof line, _("You hear: %s"), gauge_caption(g, heard, sizeof heard));
    float in = ui_px(ui, 12), w = ui_width(ui, 14, UI_BOLD, line) + 2.0f * in;
    w = fminf(w, r.w);
    float tall = ui_paragraph(ui, 0, 0, w - 2.0f * in + 1.0f, 14, UI_BOLD, none, line);
    GfxRect box = {r.x, r.y, w, tall + ui_px(ui, 10)};
    ui_round(ui, box, ui_px(ui, 6), t->sheet);
    ui_round_line(ui, box, ui_px(ui, 6), 1.0f, t->edge);
    ui_paragraph(ui, box.x + in, box.y + ui_px(ui, 20), w - 2.0f * in + 1.0f, 14, UI_BOLD, t->ink,
                 line);
    return box.h;
}

/* What is written over the wall. */
static void cards(const Gauge *g, const SightMemory *m, GfxRect r)
{
    Ui *ui = g->ui;
    float in = ui_px(ui, 14);
    float card = closed_card_draw(g, m, r.x + in, r.y + in);
    int is_beside = r.w > ui_px(ui, 560);
    closed_caption_draw(
        g, is_beside ? (GfxRect){r.x + ui_px(ui, 240), r.y + in, r.w - ui_px(ui, 250), 0.0f}
                     : (GfxRect){r.x + in, r.y + in + card + ui_px(ui, 8), r.w - 2 * in, 0.0f});
}

void closed_wall_draw(const Gauge *g, const SightMemory *m, GfxRect r, double *px_per_m,
                      GfxRect *hole)
{
    Ui *ui = g->ui;
    Face f = {r, 0.0f, 0.0f, 0.0f, 0.0};
    f.px_m = (double)r.h / (g->plan.height_m + floor_m + 0.1);
    f.floor_y = floorf(r.y + r.h - (float)(floor_m * f.px_m));
    f.hole_x = floorf(r.x + r.w * 0.42f);
    f.hole_y = floorf(f.floor_y - (float)((g->plan.hole_y_m + 0.04) * f.px_m));
    painted_face(g, &f);
    outlet_cover(g, &f);
    UiPoint corner = {f.hole_x - (float)(g->plan.hole_x_m * f.px_m),
                      f.floor_y - (float)(0.04 * f.px_m)};
    holes_draw(ui, g->plan.holes, g->plan.hole_count, &g->signals->acts, corner, f.px_m);
    rag_and_hole(g, &f);
    tube_and_hose(g, &f);
    spill_draw(ui, g->signals, f.hole_x, f.hole_y, f.px_m, g->now_s);
    if (m != NULL) {
        cards(g, m, r);
    }
    ui_frame(ui, r, 2.0f, ui->theme->ink);
    *px_per_m = f.px_m;
    *hole = (GfxRect){f.hole_x - 10.0f, f.hole_y - 10.0f, 20.0f, 20.0f};
}
