/* The bay: wood, back boards, the fill by the field shader, blocks, tube, hose, tufts and dust.
 * All in true proportion; the same pieces draw the bay and the close look. */
#include "base/app.h"

#include "core/units.h"

#include <math.h>

static void wood(Ui *ui, GfxRect r, uint32_t seed)
{
    const UiTheme *t = ui->theme;
    int is_tall = r.h > r.w;
    float across = is_tall ? r.w : r.h, along = is_tall ? r.h : r.w;
    GfxColor grain = ui_fade(t->wood_line, 0.55);
    ui_rect(ui, r.x, r.y, r.w, r.h, t->wood);
    int lines = across > 14.0f ? 4 : across > 7.0f ? 2 : 1;
    for (int k = 0; k < lines; k++) {
        UiPoint p[9];
        float base = across * ((float)k + 0.6f + 0.4f * ui_scatter(seed + (uint32_t)k)) /
                     ((float)lines + 0.6f);
        for (int i = 0; i < 9; i++) {
            float s = along * (float)i / 8.0f;
            float o = base + 1.2f * (ui_scatter(seed * 31u + (uint32_t)(k * 9 + i)) - 0.5f);
            p[i] = is_tall ? (UiPoint){r.x + o, r.y + s} : (UiPoint){r.x + s, r.y + o};
        }
        ui_polyline(ui, p, 9, 1.0f, grain);
    }
    ui_frame(ui, r, 1.0f, t->wood_ink);
}

void wall_frame_draw(const App *app, GfxRect inner, float stud)
{
    Ui *ui = app->ui;
    float plate = stud * 1.05f;
    wood(ui, (GfxRect){inner.x - stud, inner.y, stud, inner.h}, 11);
    wood(ui, (GfxRect){inner.x + inner.w, inner.y, stud, inner.h}, 12);
    wood(ui, (GfxRect){inner.x - stud, inner.y + inner.h, inner.w + 2 * stud, plate}, 13);
    wood(ui, (GfxRect){inner.x - stud, inner.y - plate, inner.w + 2 * stud, plate + 1.0f}, 14);
    wood(ui, (GfxRect){inner.x - stud, inner.y - 2 * plate, inner.w + 2 * stud, plate + 1.0f}, 15);
}

/* Back boards of the part of a bay from y0 to y1, in metres. */
void wall_boards_draw(const App *app, const PbExercise *e, GfxRect r, double y0, double y1,
                      double px_m)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    double pitch = e->board_pitch_m > 0.02 ? e->board_pitch_m : 0.14;
    float gap = e->leak75_m3_s_m2 > 0.012 ? 3.0f : 2.0f;
    ui_rect(ui, r.x, r.y, r.w, r.h, t->board);
    for (int k = (int)ceil(y0 / pitch); k * pitch < y1; k++) {
        float line = floorf(r.y + r.h - (float)((k * pitch - y0) * px_m));
        ui_rect(ui, r.x, line, r.w, 1.0f, t->board_line);
        ui_rect(ui, r.x, line + gap, r.w, 1.0f, ui_fade(t->edge, 0.5));
    }
}

/* Boards and the fill over them, for the part of the bay from (x0,y0) to (x1,y1) in metres. */
void wall_field_draw(const App *app, const PbExercise *e, GfxRect r, double x0, double y0,
                     double x1, double y1, double px_m)
{
    Ui *ui = app->ui;
    wall_boards_draw(app, e, r, y0, y1, px_m);
    ui_layer(ui, &r);
    ui_field(ui, (GfxField){.rect = r,
                            .u0 = (float)(x0 / e->width_m),
                            .v0 = (float)(y0 / e->height_m),
                            .u1 = (float)(x1 / e->width_m),
                            .v1 = (float)(y1 / e->height_m),
                            .target_kg_m3 = (float)e->target_kg_m3,
                            .hatch_pitch_px = 7.0f,
                            .line_px = 0.35f});
}

/* An old batt: rows of loops, the sign for wool, over fill that still shows behind it. */
static void batt(Ui *ui, GfxRect r)
{
    enum { POINTS = 49 };
    const UiTheme *t = ui->theme;
    float pitch = fmaxf(ui_px(ui, 22), 12.0f);
    ui_layer(ui, &r);
    ui_rect(ui, r.x, r.y, r.w, r.h, ui_fade(t->sheet, 0.45));
    for (float y = r.y + 0.5f * pitch; y < r.y + r.h; y += pitch) {
        UiPoint p[POINTS];
        for (int k = 0; k < POINTS; k++) {
            float s = (float)k / (POINTS - 1);
            p[k] = (UiPoint){r.x + r.w * s, y + 0.3f * pitch * sinf(6.283f * 4.0f * s)};
        }
        ui_polyline(ui, p, POINTS, 1.5f, t->ink2);
    }
    ui_layer(ui, NULL);
    ui_frame(ui, r, 1.5f, t->ink2);
}

/* An obstacle on the screen: a line from end to end, or the two corners of a rectangle. */
typedef struct Shape {
    float ax, ay, bx, by, thick;
    GfxRect r; /* of a rectangle */
    double depth_frac;
    uint32_t seed;
} Shape;

static void line(Ui *ui, const Shape *s, GfxColor edge, GfxColor inside)
{
    ui_line(ui, s->ax, s->ay, s->bx, s->by, s->thick + 2.0f, edge);
    ui_line(ui, s->ax, s->ay, s->bx, s->by, s->thick, inside);
}

static void cable_look(Ui *ui, const Shape *s)
{
    line(ui, s, ui->theme->ink, ui->theme->sheet);
}

static void pipe_look(Ui *ui, const Shape *s)
{
    line(ui, s, ui->theme->ink, ui->theme->rule);
}

static void brace_look(Ui *ui, const Shape *s)
{
    line(ui, s, ui->theme->wood_ink, ui->theme->wood);
}

static void block_look(Ui *ui, const Shape *s)
{
    GfxRect r = s->r;
    wood(ui, r, s->seed);
    if (s->depth_frac < 0.999) { /* part of the depth only */
        ui_dashes(ui, r.x, r.y + r.h * 0.5f, r.x + r.w, r.y + r.h * 0.5f, 1.0f, 4.0f,
                  ui->theme->wood_ink);
    }
}

static void box_look(Ui *ui, const Shape *s)
{
    ui_rect(ui, s->r.x, s->r.y, s->r.w, s->r.h, ui->theme->well);
    ui_frame(ui, s->r, 2.0f, ui->theme->ink2);
}

static void batt_look(Ui *ui, const Shape *s)
{
    batt(ui, s->r);
}

/* By PbObstacleKind; what else a kind is stands in core/kinds.h. */
static void (*const looks[])(Ui *ui, const Shape *s) = {block_look, box_look,   cable_look,
                                                        pipe_look,  brace_look, batt_look};
_Static_assert(sizeof looks / sizeof looks[0] == PB_OBSTACLE_KINDS, "every kind has a look");

void wall_blocks_draw(const App *app, const PbExercise *e, GfxRect r, double x0, double y0,
                      double px_m)
{
    Ui *ui = app->ui;
    float bottom = r.y + r.h;
    for (int i = 0; i < e->obstacle_count; i++) {
        const PbObstacle *o = &e->obstacles[i];
        Shape s = {.ax = r.x + (float)((o->x0_m - x0) * px_m),
                   .ay = bottom - (float)((o->y0_m - y0) * px_m),
                   .bx = r.x + (float)((o->x1_m - x0) * px_m),
                   .by = bottom - (float)((o->y1_m - y0) * px_m),
                   .thick = fmaxf((float)(o->size_m * px_m), 3.0f),
                   .depth_frac = o->depth_frac,
                   .seed = 40u + (uint32_t)i};
        s.r = (GfxRect){s.ax, s.by, s.bx - s.ax, s.ay - s.by};
        looks[o->kind](ui, &s);
    }
}

void wall_tufts_draw(const App *app, double left_px, double bottom_px, double px_m)
{
    Ui *ui = app->ui;
    const PbView *v = app->run.view;
    if (app->taste.is_still) {
        return; /* reduced motion: what flies is not drawn */
    }
    int step = v->tuft_count > 800 ? v->tuft_count / 800 + 1 : 1;
    double back = (1.0 - app->run.alpha) * PB_TICK_S;
    for (int i = 0; i < v->tuft_count; i += step) {
        const PbTuft *p = &v->tufts[i];
        double x = left_px + ((double)p->x_m - back * (double)p->u_m_s) * px_m;
        double y = bottom_px - ((double)p->y_m - back * (double)p->v_m_s) * px_m;
        float speed = hypotf(p->u_m_s, p->v_m_s);
        float length = 2.0f + 3.0f * fminf(speed / 4.0f, 1.0f);
        float turn = ui_scatter((uint32_t)i) * 0.8f - 0.4f;
        float ux = speed > 0.05f ? p->u_m_s / speed : cosf(turn * 8.0f);
        float uy = speed > 0.05f ? -p->v_m_s / speed : sinf(turn * 8.0f);
        ui_speck(ui, (float)x, (float)y, length * (ux - turn * uy), length * (uy + turn * ux),
                 px_m > 400.0 ? 2.5f : 1.8f, i & 1 ? ui->theme->ink2 : ui->theme->wood_ink);
    }
}

/* Dust where air carries it out: points fading with distance from the edge of the bay. */
static void dust(const App *app, GfxRect inner, double px_m)
{
    Ui *ui = app->ui;
    const PbView *v = app->run.view;
    uint32_t beat = (uint32_t)(app->run.view->tick / 3);
    int left = 140;
    for (int y = 0; y < v->ny; y++) {
        for (int x = 0; x < v->nx && left > 0; x++) {
            double leak = v->leak_kg_s[y * v->nx + x];
            if (leak < 1e-7) {
                continue;
            }
            int n = leak > 1e-5 ? 3 : leak > 1e-6 ? 2 : 1;
            for (int k = 0; k < n; k++, left--) {
                uint32_t seed = (uint32_t)(y * v->nx + x) * 7u + (uint32_t)k + beat * 977u;
                float far = ui_scatter(seed + 1u);
                float px = inner.x + (float)((x + (double)ui_scatter(seed)) * v->dx_m * px_m);
                float py = inner.y + inner.h - (float)((y + 0.5) * v->dy_m * px_m);
                px += (ui_scatter(seed + 2u) - 0.5f) * 14.0f * far;
                py += (ui_scatter(seed + 3u) - 0.5f) * 14.0f * far;
                ui_rect(ui, px, py, 1.5f, 1.5f,
                        ui_fade(ui->theme->ink2, 0.7 * (1.0 - (double)far)));
            }
        }
    }
}

/* Dust round the tube at the hole. */
static void hole_dust(const App *app, float x, float y)
{
    double much = app->run.view->signals.dust_at_hole;
    uint32_t beat = (uint32_t)(app->run.view->tick / 3) * 131u;
    for (int k = 0; k < (int)(much * 40.0); k++) {
        float a = ui_scatter(beat + (uint32_t)k * 3u) * 6.283f;
        float far = ui_scatter(beat + (uint32_t)k * 3u + 1u);
        ui_rect(app->ui, x + cosf(a) * (6.0f + 18.0f * far), y + sinf(a) * (4.0f + 12.0f * far),
                1.5f, 1.5f, ui_fade(app->ui->theme->ink2, 0.85 * (1.0 - (double)far)));
    }
}

static void tube_piece(Ui *ui, const UiPoint *p, int n, float wide)
{
    ui_polyline(ui, p, n, wide, ui->theme->ink);
    ui_polyline(ui, p, n, wide - 3.0f, ui->theme->tube);
}

/* Material seen through the clear tube: dots that ride along. */
static void riders(const App *app, float x, float y0, float y1, float wide, double px_m)
{
    const PbView *v = app->run.view;
    float way = fabsf(y1 - y0), gap = 4.0f + 10.0f * (float)(1.0 - v->signals.rattle);
    if (v->signals.hose_load_kg < 1e-4 || v->signals.rattle < 0.01) {
        return;
    }
    float speed = v->signals.plugged || !v->signals.machine_on ? 0.0f : (float)(1.2 * px_m);
    double now = v->time_s + (app->run.alpha - 1.0) * PB_TICK_S;
    float phase = gap - fmodf((float)fmod(now, 1000.0) * speed, gap); /* before the mouth */
    float size = fmaxf(1.3f, wide * 0.09f);
    for (int k = 0; phase + gap * (float)k < way && k < 200; k++) {
        float s = phase + gap * (float)k;
        float o = (ui_scatter((uint32_t)k * 5u + 3u) - 0.5f) * (wide - 6.0f);
        float y = y1 > y0 ? y1 - s : y1 + s;
        ui_rect(app->ui, x + o - size * 0.5f, y - size * 0.5f, size, size, app->ui->theme->ink2);
    }
}

/* Tube inside the bay: from the hole to the mouth, foot marks counted from the mouth. */
void wall_tube_draw(const App *app, GfxRect inner, double px_m, int is_close)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Run *run = &app->run;
    const PbExercise *e = &run->config.exercise;
    double in = run_tube_in(run);
    float x = inner.x + (float)(run->view->mouth_x_m * px_m);
    float hole = inner.y + inner.h - (float)(run_hole(run)->y_m * px_m);
    float mouth = inner.y + inner.h - (float)(run_mouth_y(run) * px_m);
    float wide = fmaxf((float)(e->machine.tube_outer_m * px_m), 7.0f);
    float bore = fmaxf((float)(run_hole(run)->bore_m * px_m), 10.0f);
    if (!is_close) {
        holes_draw(ui, e->holes, e->hole_count, &run->view->signals.acts,
                   (UiPoint){inner.x, inner.y + inner.h}, px_m);
        UiPoint oval[20];
        for (int i = 0; i < 20; i++) {
            double a = 0.314159265 * i;
            oval[i] =
                (UiPoint){x + bore * 0.62f * (float)cos(a), hole + bore * 0.42f * (float)sin(a)};
        }
        ui_polygon(ui, oval, 20, t->ink);
    }
    if (in > 0.005) {
        float top = fminf(hole, mouth), tall = fabsf(mouth - hole);
        ui_rect(ui, x - wide * 0.5f, top, wide, tall, t->ink);
        ui_rect(ui, x - wide * 0.5f + 1.5f, top, wide - 3.0f, tall, t->tube);
        riders(app, x, hole, mouth, wide, px_m);
        for (int foot = 1; foot * PB_M_PER_FT < in; foot++) {
            float s = (float)(foot * PB_M_PER_FT * px_m);
            float y = mouth + (mouth < hole ? s : -s);
            float thick = foot % 5 == 0 ? 5.0f : 3.0f;
            ui_rect(ui, x - wide * 0.5f, y - thick * 0.5f, wide, thick, t->ink);
        }
    }
    ui_circle(ui, x, mouth, 7.0f, t->sheet);
    ui_circle(ui, x, mouth, 5.0f, t->accent);
    if (!is_close) {
        spill_draw(ui, &run->view->signals, x, hole, px_m, app_shown_s(app));
    }
}

/* The black hose takes over from the clear tube and runs off along the floor. */
static void coupling_and_hose(Ui *ui, float x, float y, float floor_y, float wide)
{
    const UiTheme *t = ui->theme;
    UiPoint p[12];
    float low = fmaxf(floor_y - wide * 0.5f, y + wide * 1.2f), reach = 26.0f;
    for (int i = 0; i < 12; i++) { /* a quarter bend as a quadratic curve */
        float s = (float)i / 11.0f, u = 1.0f - s;
        p[i] = (UiPoint){u * u * x + 2.0f * u * s * x + s * s * (x + reach),
                         u * u * (y + 8.0f) + 2.0f * u * s * low + s * s * low};
    }
    ui_polyline(ui, p, 12, wide, t->ink);
    ui_round(ui, (GfxRect){x - wide * 0.66f, y - 3.0f, wide * 1.32f, 14.0f}, 2.0f, t->ink2);
}

/* Outside the hole the tube hangs down beside the stud into the hose: what is pulled out lengthens.
 */
void wall_hose_draw(const App *app, GfxRect inner, double px_m, float lane)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const Run *run = &app->run;
    const PbExercise *e = &run->config.exercise;
    const PbSignals *s = &run->view->signals;
    float hx = inner.x + (float)(run->view->mouth_x_m * px_m);
    float hy = inner.y + inner.h - (float)(run_hole(run)->y_m * px_m);
    float wide = fmaxf((float)(e->machine.tube_outer_m * px_m), 7.0f);
    float floor_y = inner.y + inner.h + 6.0f;
    double out = fmax(e->machine.tube_length_m - run_tube_in(run), 0.0);
    float across = lane - hx, drop = (float)(out * px_m) - across;
    float end = fminf(hy + fmaxf(drop, 12.0f), floor_y - 34.0f);
    float sway = (float)(s->machine_on ? 3.0 * s->hose_pulse * sin(app_shown_s(app) * 14.0) : 0.0);
    end = fmaxf(end, hy + 14.0f);
    if (hy > floor_y - 60.0f) { /* a hole near the floor: the hose comes straight along it */
        end = hy + 10.0f;
    }
    float bend = fminf(12.0f, (end - hy) * 0.5f);
    UiPoint tube[7] = {{hx, hy},
                       {hx + 10.0f, hy - 6.0f},
                       {lane - bend * 1.6f, hy - 8.0f},
                       {lane - bend * 0.5f, hy - 5.0f},
                       {lane, hy - 5.0f + bend},
                       {lane + sway * 0.5f, (hy + end) * 0.5f + 4.0f},
                       {lane + sway, end}};
    tube_piece(ui, tube, 7, wide);
    double first = PB_M_PER_FT - fmod(run_tube_in(run), PB_M_PER_FT);
    for (int k = 0; first + k * PB_M_PER_FT < out; k++) {
        float y = hy + (float)((first + k * PB_M_PER_FT) * px_m) - across;
        if (y > hy + bend + 4.0f && y < end) {
            ui_rect(ui, lane - wide * 0.5f, y, wide, 3.0f, t->ink);
        }
    }
    coupling_and_hose(ui, lane + sway, end, floor_y, fmaxf(wide * 1.15f, 14.0f));
    hole_dust(app, hx, hy);
    if (app->task.sight == SIGHT_OPEN) { /* a face that is on hides where fill arrives */
        dust(app, inner, px_m);
    }
    ui_label(ui, lane, hy - ui_px(ui, 18), 14, UI_BOLD, t->ink, UI_CENTRE,
             app_fmt_length(app, run_tube_in(run)));
}

void wall_scale_draw(const App *app, const PbExercise *e, GfxRect inner, double px_m, float x)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    double unit = app->taste.is_us ? PB_M_PER_FT : 1.0, small = app->taste.is_us ? unit / 2 : 0.1;
    int each = app->taste.is_us ? 2 : 5; /* small ticks to a figure */
    float bottom = inner.y + inner.h, last = 1e9f;
    for (int k = 0; k * small <= e->height_m + 1e-6; k++) {
        float y = floorf(bottom - (float)(k * small * px_m));
        int is_main = k % each == 0;
        float tick = ui_px(ui, is_main ? 9 : 5);
        ui_rect(ui, x - tick, y, tick, 1.0f, is_main ? t->ink : t->edge);
        if (is_main && last - y > ui_px(ui, 20) && y > inner.y + ui_px(ui, 22)) {
            ui_label(ui, x - ui_px(ui, 13), y + ui_px(ui, 4), 12, UI_REGULAR, t->ink2, UI_RIGHT,
                     app_fmt(app, app->taste.is_us ? 0 : 1, k * small / unit, ""));
            last = y;
        }
    }
    ui_label(ui, x - ui_px(ui, 13), inner.y - ui_px(ui, 5), 12, UI_REGULAR, t->ink2, UI_RIGHT,
             app_unit(app, IO_UNIT_LENGTH));
}

void wall_draw(const App *app, GfxRect inner, double px_m)
{
    const PbExercise *e = &app->run.config.exercise;
    wall_field_draw(app, e, inner, 0.0, 0.0, e->width_m, e->height_m, px_m);
    wall_blocks_draw(app, e, inner, 0.0, 0.0, px_m);
}
