/* The wall of the Door: five bays between studs, each with its key, its name and what is done
 * there. */
#include "door/door.h"

#include <math.h>
#include <stdio.h>

static const AppScreen rooms[DOOR_ROOMS] = {SCREEN_BAY,     SCREEN_YEARS, SCREEN_SIDE,
                                            SCREEN_DEBRIEF, SCREEN_DRILL, SCREEN_WALL};
static const char *const names[DOOR_ROOMS] = {N_("Pack the bay"), N_("Years later"),
                                              N_("Side by side"), N_("Debrief"),
                                              N_("Drill"),        N_("The wall")};
static const char *const about[DOOR_ROOMS] = {
    N_("Push the tube in, pack, pull back, let the pressure bleed."),
    N_("Let the wall stand for 50 years: gap, air loops, cold stripes."),
    N_("Empty, loose, foam and dense pack in the same weather."),
    N_("Replay a run, read the grade, give your own points."),
    N_("Hear the stall in twenty seconds: press when the hands must act."),
    N_("Find the bays of a closed wall: tap, probe, drill, then open it."),
};

void door_room(App *app, int room)
{
    if (room < 0 || room >= DOOR_ROOMS) {
        return;
    }
    if (rooms[room] == SCREEN_BAY) {
        door_start(app);
        return;
    }
    if (app->task.is_graded && app_has_run(app) && app->run.view->tick > 0) {
        app_notice(
            app, _("A graded run is under way"),
            _("Other screens would show the inside of the wall. Finish it, or start another."), 0,
            8);
        return;
    }
    int row = app->door->row;
    if (app->run.watched.session == NULL && row < app->exercises.count) {
        app->run.config.exercise = app->exercises.rows[row].exercise; /* the bay that ages */
        app_take_climate(app);
    }
    app_go(app, rooms[room]);
}

/* A sign over the room, not a result: fill that is dense round a mouth two thirds of the way up,
 * soft in the corners and loose on top. */
static double painted_kg_m3(double u, double v)
{
    double surface = 0.80 + 0.035 * sin(u * 9.0) + 0.02 * sin(u * 23.0 + 1.0);
    if (v > surface) {
        return 0.0;
    }
    double side = fabs(u - 0.5) * 2.0, lobe = 0.5 + 0.5 * sin(v * 15.0 + 0.6);
    double rho = 64.0 - 17.0 * side * side * (0.7 + 0.6 * lobe) + 6.0 * (1.0 - side) * lobe;
    double depth = (surface - v) / 0.20;
    return depth < 1.0 ? 27.0 + (rho - 27.0) * depth : rho;
}

GfxFieldData door_field(App *app)
{
    static const uint8_t plain[4] = {0, 0, 0, 0};
    Door *d = app->door;
    for (int j = 0; !d->is_painted && j < DOOR_NY; j++) {
        for (int i = 0; i < DOOR_NX; i++) {
            d->density[j * DOOR_NX + i] =
                (float)painted_kg_m3((i + 0.5) / DOOR_NX, (j + 0.5) / DOOR_NY);
        }
    }
    d->is_painted = 1;
    return (GfxFieldData){.nx = DOOR_NX,
                          .ny = DOOR_NY,
                          .density = d->density,
                          .mark_nx = 2,
                          .mark_ny = 2,
                          .marks = plain};
}

static void picture_bay(Ui *ui, GfxRect r)
{
    const UiTheme *t = ui->theme;
    float wide = fmaxf(ui_px(ui, 13), 9.0f), x = floorf(r.x + (r.w - wide) * 0.5f);
    float mouth = r.y + r.h * 0.55f, hole = r.y + ui_px(ui, 8);
    ui_layer(ui, NULL); /* over the sheet: in a layer fields come before shapes */
    ui_field(ui, (GfxField){.rect = r,
                            .u1 = 1.0f,
                            .v1 = 1.0f,
                            .target_kg_m3 = 56.0f,
                            .hatch_pitch_px = ui_px(ui, 7),
                            .line_px = 0.75f});
    ui_rect(ui, x, hole, wide, mouth - hole, t->tube);
    ui_frame(ui, (GfxRect){x, hole, wide, mouth - hole}, 2.0f, t->ink);
    for (int k = 1; k < 5; k++) {
        ui_rect(ui, x, hole + (mouth - hole) * (float)k / 4.4f, wide, 3.0f, t->ink);
    }
    for (int k = 0; k < 24; k++) {
        float y = hole + (mouth - hole - 4.0f) * (float)k / 24.0f + 3.0f;
        ui_rect(ui, x + wide * (k % 2 ? 0.35f : 0.6f), y, 2.0f, 2.0f, t->ink2);
    }
    UiPoint ring[16];
    for (int i = 0; i < 16; i++) {
        double a = i * 0.3926990817;
        ring[i] = (UiPoint){x + wide * 0.5f + ui_px(ui, 15) * (float)cos(a),
                            hole + ui_px(ui, 8) * (float)sin(a)};
    }
    ui_polygon(ui, ring, 16, t->ink);
    ui_circle(ui, x + wide * 0.5f, mouth, 7.0f, t->sheet);
    ui_circle(ui, x + wide * 0.5f, mouth, 5.0f, t->accent);
}

static void hatch(Ui *ui, GfxRect r)
{
    float step = ui_px(ui, 8);
    GfxColor c = ui_fade(ui->theme->ink, 0.8);
    for (float s = step; s < r.w + r.h; s += step) {
        float x0 = r.x + fminf(s, r.w), y0 = r.y + fmaxf(s - r.w, 0.0f);
        float x1 = r.x + fmaxf(s - r.h, 0.0f), y1 = r.y + fminf(s, r.h);
        ui_line(ui, x0, y0, x1, y1, 1.0f, c);
    }
}

static void picture_years(Ui *ui, GfxRect r)
{
    const UiTheme *t = ui->theme;
    float gap = r.h * 0.16f, x = r.x + r.w * 0.18f, s = ui_px(ui, 5);
    GfxRect fill = {r.x, r.y + gap, r.w, r.h - gap};
    ui_rect(ui, fill.x, fill.y, fill.w, fill.h, ui_density_color(45.0, 56.0));
    hatch(ui, fill);
    ui_rect(ui, fill.x, fill.y, fill.w, 2.0f, t->ink);
    ui_line(ui, x, r.y + s, x, fill.y - s, 2.0f, t->accent);
    ui_polygon(ui, (UiPoint[3]){{x - s, r.y + 2 * s}, {x, r.y}, {x + s, r.y + 2 * s}}, 3,
               t->accent);
    ui_polygon(ui, (UiPoint[3]){{x - s, fill.y - 2 * s}, {x + s, fill.y - 2 * s}, {x, fill.y}}, 3,
               t->accent);
    ui_label_cut(ui, x + ui_px(ui, 12), r.y + gap * 0.5f + ui_px(ui, 5),
                 r.x + r.w - x - ui_px(ui, 16), 13, UI_BOLD, t->ink, _("top gap"));
}

static void picture_side(Ui *ui, GfxRect r)
{
    const UiTheme *t = ui->theme;
    static const double rho[4] = {0.0, 40.0, 0.0, 60.0}, fill[4] = {0.0, 0.82, 0.94, 1.0};
    float in = ui_px(ui, 12), gap = ui_px(ui, 6), w = (r.w - 2 * in - 3 * gap) / 4.0f;
    for (int k = 0; k < 4; k++) {
        GfxRect c = {r.x + in + (w + gap) * (float)k, r.y, w, r.h - in};
        float h = c.h * (float)fill[k];
        GfxColor foam = {0xE4, 0xE2, 0xDC, 255};
        GfxRect part = {c.x, c.y + c.h - h, c.w, h};
        ui_rect(ui, c.x, c.y, c.w, c.h, t->board);
        ui_rect(ui, part.x, part.y, part.w, part.h,
                rho[k] > 0.0 ? ui_density_color(rho[k], 56.0)
                : k == 2     ? foam
                             : t->board);
        if (k == 1) {
            hatch(ui, part);
        }
        ui_frame(ui, c, 1.0f, t->ink);
    }
}

static void picture_debrief(Ui *ui, GfxRect r)
{
    const UiTheme *t = ui->theme;
    static const float step[10][2] = {
        {0.10f, 0.98f}, {0.30f, 0.98f}, {0.32f, 0.78f}, {0.48f, 0.78f}, {0.50f, 0.56f},
        {0.66f, 0.56f}, {0.68f, 0.32f}, {0.80f, 0.32f}, {0.82f, 0.06f}, {0.92f, 0.06f}};
    UiPoint p[10];
    r.h -= ui_px(ui, 14);
    for (int i = 0; i < 10; i++) {
        p[i] = (UiPoint){r.x + step[i][0] * r.w, r.y + step[i][1] * r.h};
    }
    ui_polyline(ui, p, 10, 3.0f, t->ink);
    for (int i = 4; i < 8; i += 3) {
        float x = (p[i].x + p[i + 1].x) * 0.5f, y = p[i].y;
        ui_circle(ui, i == 4 ? x : p[7].x, y, 9.0f, t->accent);
        ui_circle(ui, i == 4 ? x : p[7].x, y, 6.0f, t->sheet);
    }
}

/* Rattle that stops, and a press beside it. */
static void picture_drill(Ui *ui, GfxRect r)
{
    const UiTheme *t = ui->theme;
    float mid = r.y + r.h * 0.45f, step = r.w / 26.0f, stall = r.x + step * 15.0f;
    for (int k = 1; k < 25; k++) {
        float high = k < 15 ? r.h * (0.08f + 0.17f * ui_scatter((uint32_t)k * 7u)) : r.h * 0.012f;
        ui_rect(ui, r.x + step * (float)k, mid - high, step * 0.5f, 2.0f * high, t->ink);
    }
    float x = stall + step * 2.5f;
    ui_line(ui, x, mid - r.h * 0.3f, x, mid + r.h * 0.3f, 3.0f, t->accent);
    ui_circle(ui, x, mid - r.h * 0.3f, 8.0f, t->accent);
}

/* Uprights off their grid, one of them dashed, and marks of a rod. */
static void picture_wall(Ui *ui, GfxRect r)
{
    const UiTheme *t = ui->theme;
    static const float at[4] = {0.12f, 0.42f, 0.66f, 0.9f};
    for (int k = 0; k < 4; k++) {
        float x = floorf(r.x + r.w * at[k]), s = ui_px(ui, 7);
        GfxColor c = k == 2 ? t->accent : t->ink2;
        ui_dashes(ui, x, r.y, x, r.y + r.h, 1.5f, 6.0f, c);
        ui_dashes(ui, x + s, r.y, x + s, r.y + r.h, 1.5f, 6.0f, c);
        ui_circle(ui, x + s * 0.5f, r.y + r.h * 0.35f, 4.0f, t->ink);
    }
    for (int k = 0; k < 3; k++) {
        float x = r.x + r.w * (at[k] + at[k + 1]) * 0.5f;
        ui_circle(ui, x, r.y + r.h * 0.55f, k == 2 ? 3.0f : 8.0f, t->ink);
    }
}

static void room_draw(const App *app, int room, GfxRect r, int with_picture)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    char key[16], mark[24];
    void (*const pictures[DOOR_ROOMS])(Ui *, GfxRect) = {
        picture_bay, picture_years, picture_side, picture_debrief, picture_drill, picture_wall};
    int state = ui_area(ui, ID_DOOR_ROOMS + room, r, 1);
    float in = ui_px(ui, r.w > ui_px(ui, 180) ? 16 : 10), w = r.w - 2 * in;
    ui_rect(ui, r.x, r.y, r.w, r.h, state & UI_AREA_HELD ? t->accent_wash : t->sheet);
    snprintf(key, sizeof key, "%d", room + 1);
    snprintf(mark, sizeof mark, "room_%d", room + 1);
    app_mark(app, mark, r);
    /* In a low bay the key stands before the name, and what is done there goes when it is too much.
     */
    int is_low = r.h < ui_px(ui, 150);
    float cap = ui_key(ui, r.x + in, r.y + ui_px(ui, 14), key) + ui_px(ui, 8);
    float y = r.y + ui_px(ui, is_low ? 28 : 62), left = r.x + in + (is_low ? cap : 0.0f);
    float name_w = w - (is_low ? cap : 0.0f);
    double size = 22.0;
    const char *name = _(names[room]);
    GfxColor none = {0, 0, 0, 0};
    while (size > (is_low ? 11.0 : 16.0) && ui_width(ui, size, UI_BOLD, name) > name_w) {
        size -= 1.0;
    }
    y += ui_paragraph(ui, left, y, name_w, size, UI_BOLD, t->ink, name) + ui_px(ui, is_low ? 0 : 6);
    for (double small = 15.0; small >= 12.0; small -= 1.0) {
        float tall = ui_paragraph(ui, 0, 0, w, small, UI_REGULAR, none, _(about[room]));
        if (y + tall - ui_px(ui, 14) < r.y + r.h) {
            y += ui_paragraph(ui, r.x + in, y, w, small, UI_REGULAR, t->ink2, _(about[room]));
            break;
        }
    }
    float high = fminf(r.h * 0.52f, r.y + r.h - y);
    if (with_picture && high > ui_px(ui, 84)) {
        pictures[room](ui, (GfxRect){r.x, floorf(r.y + r.h - high), r.w, high});
    }
    if (state & UI_AREA_HOT) {
        ui_frame(ui, r, 2.0f, t->ink);
    }
    if ((state & UI_AREA_FOCUS) && ui->is_ring_shown) {
        ui_frame(ui, (GfxRect){r.x - 1, r.y - 1, r.w + 2, r.h + 2}, 4.0f, t->accent);
    }
}

static void plank(Ui *ui, GfxRect r)
{
    const UiTheme *t = ui->theme;
    int is_stud = r.h > r.w;
    ui_rect(ui, r.x, r.y, r.w, r.h, t->wood);
    for (int k = 1; k < 4; k++) {
        float at = (float)k / 4.0f;
        GfxRect g = is_stud ? (GfxRect){floorf(r.x + r.w * at), r.y, 1.0f, r.h}
                            : (GfxRect){r.x, floorf(r.y + r.h * at), r.w, 1.0f};
        ui_rect(ui, g.x, g.y, g.w, g.h, ui_fade(t->wood_line, 0.55));
    }
    ui_frame(ui, r, 1.0f, t->wood_ink);
}

/* One row of bays with its plates and studs. */
static void wall_row(const App *app, GfxRect r, int first, int count, int with_picture)
{
    Ui *ui = app->ui;
    float stud = floorf(fmaxf(ui_px(ui, 17), 10.0f));
    float top = r.y + 2 * stud, high = r.h - 3 * stud;
    float bay = (r.w - stud * (float)(count + 1)) / (float)count;
    for (int k = 0; k < count; k++) {
        float x = r.x + stud + (bay + stud) * (float)k;
        room_draw(app, first + k, (GfxRect){floorf(x), floorf(top), ceilf(bay), ceilf(high)},
                  with_picture);
    }
    for (int k = 0; k <= count; k++) {
        plank(ui, (GfxRect){floorf(r.x + (bay + stud) * (float)k), floorf(top), stud, ceilf(high)});
    }
    plank(ui, (GfxRect){r.x, floorf(r.y), r.w, stud});
    plank(ui, (GfxRect){r.x, floorf(r.y + stud), r.w, stud});
    plank(ui, (GfxRect){r.x, floorf(top + high), r.w, stud});
}

void door_wall_draw(const App *app, GfxRect r)
{
    Ui *ui = app->ui;
    float least = ui_px(ui, 130) * DOOR_ROOMS + ui_px(ui, 17) * (DOOR_ROOMS + 1);
    if (r.w >= least) {
        wall_row(app, r, 0, DOOR_ROOMS,
                 app->laid->text_scale < 1.5 - 1e-9 || r.h > ui_px(app->ui, 480));
        return;
    }
    /* Else in rows, so that the words of a name find room beside each other. */
    int across = r.w >= ui_px(ui, 100) * 3.0f + ui_px(ui, 17) * 4.0f ? 3 : 2;
    int rows = (DOOR_ROOMS + across - 1) / across;
    float high = floorf((r.h - 8.0f * (float)(rows - 1)) / (float)rows);
    for (int row = 0; row < rows; row++) {
        int first = row * across, left = DOOR_ROOMS - first;
        wall_row(app, (GfxRect){r.x, r.y + (high + 8.0f) * (float)row, r.w, high}, first,
                 left < across ? left : across, across == 3 && high > ui_px(ui, 250));
    }
}
