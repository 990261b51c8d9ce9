/* The large view of the bay at a glance: studs, boards and fill, tube and hose, the face on both
 * sides with its bow, and the stops written beside it as children are measured on a door post. Of a
 * taped wall the face instead of the fill. */
#include "bay/bay.h"

#include <math.h>

static const double bow_times = 20.0;

/* The place of a height of the bay on the screen. */
static float at_height(const GlanceView *v, double y_m)
{
    return v->inner.y + v->inner.h - (float)(y_m * v->px_m);
}

static float stud_width(const GlanceView *v)
{
    return floorf((float)(0.038 * v->px_m));
}

/* Where the flat face stands on one side (-1 left). */
static float flat_x(const GlanceView *v, int side)
{
    float beyond = stud_width(v) + 9.0f;
    return side < 0 ? v->inner.x - beyond : v->inner.x + v->inner.w + beyond;
}

static void fill(const App *app, const GlanceView *v)
{
    const PbExercise *e = &app->run.config.exercise;
    double y0 = fmax(v->low_m, 0.0), y1 = fmin(v->low_m + (double)v->r.h / v->px_m, e->height_m);
    float top = fmaxf(at_height(v, y1), v->r.y), low = fminf(at_height(v, y0), v->r.y + v->r.h);
    GfxRect seen = {v->inner.x, top, v->inner.w, low - top};
    y0 = (double)(v->inner.y + v->inner.h - low) / v->px_m; /* of whole pixels */
    y1 = (double)(v->inner.y + v->inner.h - top) / v->px_m;
    wall_boards_draw(app, e, seen, y0, y1, v->px_m);
    ui_layer(app->ui, &seen);
    ui_field(app->ui, (GfxField){.rect = seen,
                                 .u1 = 1.0f,
                                 .v0 = (float)(y0 / e->height_m),
                                 .v1 = (float)(y1 / e->height_m),
                                 .target_kg_m3 = (float)e->target_kg_m3,
                                 .hatch_pitch_px = 7.0f,
                                 .line_px = 0.35f,
                                 .width_m = (float)e->width_m,
                                 .height_m = (float)e->height_m});
    wall_blocks_draw(app, e, seen, 0.0, y0, v->px_m);
    glance_pile_draw(app, v);
    glance_gap_dust_draw(app, v);
    glance_storm_draw(app, v);
}

/* Largest bow across the bay at this height. */
static double bow_at(const PbView *view, double y_m)
{
    int j = (int)(y_m / view->dy_m);
    double most = 0.0;
    j = j < 0 ? 0 : j >= view->ny ? view->ny - 1 : j;
    for (int i = 0; i < view->nx; i++) {
        most = fmax(most, view->bow_m[j * view->nx + i]);
    }
    return most;
}

/* One line of the face's edge, open where a piece of it is off. */
static void edge(const App *app, const GlanceView *v, int side, const UiPoint *p, int count,
                 float width)
{
    int from = 0;
    for (int i = 0; i <= count; i++) {
        int is_off =
            i == count ||
            (side > 0 && broke_covers(app, (double)(v->inner.y + v->inner.h - p[i].y) / v->px_m));
        if (is_off && i - from > 1) {
            ui_polyline(app->ui, p + from, i - from, width, app->ui->theme->ink);
        }
        from = is_off ? i + 1 : from;
    }
}

/* The cut edge of the face on one side (-1 left), bulging 20 times true from where it is flat. */
static void face(const App *app, const GlanceView *v, int side)
{
    enum { POINTS = 40 };
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    float flat = flat_x(v, side);
    UiPoint in[POINTS], out[POINTS];
    GfxColor wash = face_color(app, t->accent_wash, t->warn_wash, t->danger_wash);
    double most_m = (double)(v->r.h + 8.0f) / v->px_m;
    for (int i = 0; i < POINTS; i++) {
        double y_m = v->low_m + most_m * i / (POINTS - 1);
        float bow = (float)side * (float)(bow_times * bow_at(app->run.view, y_m) * v->px_m);
        float y = at_height(v, y_m);
        in[i] = (UiPoint){flat + bow, y};
        out[i] = (UiPoint){flat + bow + (float)side * 6.0f, y};
        int is_off = side > 0 && broke_covers(app, y_m);
        if (i > 0 && !is_off && fabsf(in[i].x - flat) + fabsf(in[i - 1].x - flat) > 1.0f) {
            ui_polygon(ui, (UiPoint[4]){{flat, y}, in[i], in[i - 1], {flat, in[i - 1].y}}, 4, wash);
        }
    }
    ui_dashes(ui, flat, v->r.y, flat, v->r.y + v->r.h, 1.0f, 4.0f, t->ink2);
    edge(app, v, side, in, POINTS, 2.0f);
    edge(app, v, side, out, POINTS, 1.0f);
    double step_m = 0.3048; /* of the fasteners, as on the closed wall */
    for (int k = (int)ceil(v->low_m / step_m); k * step_m < v->low_m + most_m; k++) {
        float y = at_height(v, k * step_m + 0.05);
        if (side > 0 && broke_covers(app, k * step_m + 0.05)) {
            continue;
        }
        float x = flat + (float)side * (float)(bow_times *
                                               bow_at(app->run.view, k * step_m + 0.05) * v->px_m);
        float wood = flat - (float)side * (9.0f + 0.45f * stud_width(v));
        ui_line(ui, wood, y, x, y, 1.0f, t->ink);
        ui_circle(ui, wood, y, 3.5f, t->ink);
        ui_circle(ui, x, y, 3.5f, t->ink);
    }
}

/* At the right edge, in two lines where one is too narrow; nothing that could not be read whole.
 * Returns its height. */
static float one_of_words(Ui *ui, GfxRect at, double size, UiWeight weight, GfxColor c,
                          const char *text)
{
    int is_one = ui_width(ui, UI_LEAST_PX, weight, text) <= at.w;
    at.h = ui_px(ui, is_one ? size + 6.0 : 2.5 * UI_LEAST_PX);
    const char *end = ui_line_end(ui, at.w, UI_LEAST_PX, weight, text);
    if (!is_one && ui_width(ui, UI_LEAST_PX, weight, *end ? end + 1 : end) > at.w) {
        return 0.0f;
    }
    float w = fminf(ui_width(ui, size, weight, text), at.w);
    ui_rect(ui, at.x + at.w - w - 3.0f, at.y, w + 6.0f, at.h, ui->theme->glass);
    ui_words(ui, at, size, weight, c, UI_RIGHT, text);
    return at.h;
}

/* How far the face bows and how much of its strength that is, at the top right. */
static void face_words(const App *app, const GlanceView *v)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const PbView *view = app->run.view;
    char text[120];
    GfxColor c = face_color(app, t->ink, t->warn, t->danger);
    float from = v->inner.x + v->inner.w + stud_width(v) + 24.0f;
    GfxRect at = {from, v->r.y + ui_px(ui, 4), v->r.x + v->r.w - ui_px(ui, 10) - from, 0.0f};
    SDL_snprintf(text, sizeof text, _("Face bows %s"), app_fmt_small(app, view->bow_max_m));
    at.y += one_of_words(ui, at, 14, UI_BOLD, c, text);
    at.y += one_of_words(ui, at, 12, UI_REGULAR, t->ink2, _("drawn 20 times"));
    SDL_snprintf(text, sizeof text, "%s %s", _("Wall load"),
                 app_fmt(app, 0, 100.0 * face_share(app), "%"));
    (void)one_of_words(ui, at, 12, UI_REGULAR, c, text);
}

/* What is written on the wall at the height of a stop. Returns 0 where it has no room. */
static int stop_words(const App *app, const GlanceView *v, int i, float lowest, float highest)
{
    Ui *ui = app->ui;
    const UiTheme *t = ui->theme;
    const PbView *view = app->run.view;
    const PbLift *l = &view->lifts[i];
    int is_now = i == view->lift_count - 1;
    float y = floorf(at_height(v, l->mouth_y_m)), left = v->r.x + ui_px(ui, 14);
    float right = v->inner.x - stud_width(v) - 18.0f;
    if (y < highest || y > lowest || right - left < ui_px(ui, 60)) {
        return 0;
    }
    char name[40], under[80];
    SDL_snprintf(name, sizeof name, _("Stop %d"), i + 1);
    const char *here = app_fmt(app, 0, (is_now ? view->time_s : l->to_s) - l->from_s, "s");
    if (is_now) {
        SDL_snprintf(under, sizeof under, _("%s here"), here);
    } else if (app->task.sight == SIGHT_OPEN && l->density_kg_m3 > 0.0) {
        SDL_snprintf(under, sizeof under, "%s   %s", here,
                     app_fmt_density(app, l->density_kg_m3, 1));
    } else {
        SDL_snprintf(under, sizeof under, "%s", here);
    }
    if (ui_width(ui, 13, UI_REGULAR, under) > right - left) { /* the time alone */
        SDL_snprintf(under, sizeof under, "%s", here);
    }
    ui_label(ui, left, y - ui_px(ui, 6), is_now ? 18 : 15, UI_BOLD, is_now ? t->accent : t->ink2,
             UI_LEFT, name);
    ui_label(ui, left, y + ui_px(ui, 18), 13, UI_REGULAR, t->ink2, UI_LEFT, under);
    ui_line(ui, left, y, right, y, is_now ? 2.0f : 1.5f, is_now ? t->accent : t->ink2);
    return 1;
}

static void stops(const App *app, const GlanceView *v)
{
    Ui *ui = app->ui;
    const PbView *view = app->run.view;
    float highest = v->r.y + ui_px(ui, 26), lowest = v->r.y + v->r.h - ui_px(ui, 26);
    float taken[RUN_MAX_LIFTS];
    int n = 0;
    for (int i = view->lift_count - 1; i >= 0 && n < RUN_MAX_LIFTS; i--) {
        float y = at_height(v, view->lifts[i].mouth_y_m);
        int has_room = glance_is_stop(app, i);
        for (int k = 0; k < n; k++) {
            has_room = has_room && fabsf(taken[k] - y) > ui_px(ui, 46);
        }
        if (has_room && stop_words(app, v, i, lowest, highest)) {
            taken[n++] = y;
        }
    }
    /* Where the mouth would be after one step. */
    const PbSignals *s = &view->signals;
    double next_m = run_mouth_y(&app->run) - s->direction * bay_step_m;
    float y = floorf(at_height(v, next_m)), right = v->inner.x - stud_width(v) - 18.0f;
    int has_room = s->tube_in_m > bay_step_m && y > highest && y < lowest;
    for (int k = 0; k < n; k++) {
        has_room = has_room && fabsf(taken[k] - y) > ui_px(ui, 34);
    }
    if (has_room) {
        float dash = ui_px(ui, 42);
        const char *step = app_said(app, "{step}");
        ui_dashes(ui, right - dash, y, right, y, 2.0f, 5.0f, ui->theme->accent);
        if (ui_width(ui, 13, UI_REGULAR, step) + dash < right - v->r.x - ui_px(ui, 20)) {
            ui_label(ui, right - dash - ui_px(ui, 6), y + ui_px(ui, 5), 13, UI_REGULAR,
                     ui->theme->accent, UI_RIGHT, step);
        }
    }
}

/* The hose hangs down at the right, in the middle of what is free there. */
static float lane_of(const GlanceView *v)
{
    float from = v->inner.x + v->inner.w + stud_width(v);
    return floorf(from + 0.33f * (v->r.x + v->r.w - from));
}

static void open_wall(const App *app, const GlanceView *v)
{
    Ui *ui = app->ui;
    fill(app, v);
    ui_layer(ui, &v->r);
    wall_frame_draw(app, v->inner, stud_width(v));
    face(app, v, -1);
    face(app, v, 1);
    stops(app, v);
    broke_draw(app, v, flat_x(v, 1), stud_width(v));
    wall_tube_draw(app, v->inner, v->px_m, 0);
    glance_hose_draw(app, v, lane_of(v));
    float x = v->inner.x + (float)(app->run.view->mouth_x_m * v->px_m);
    glance_ring_draw(app, x, at_height(v, run_mouth_y(&app->run)));
    broke_ring_draw(app, x, at_height(v, run_mouth_y(&app->run)));
}

static void taped_wall(const App *app, const GlanceView *v)
{
    ui_layer(app->ui, &v->r);
    taped_wall_draw(app, v->inner, v->px_m);
    wall_frame_draw(app, v->inner, stud_width(v));
    face(app, v, -1);
    face(app, v, 1);
    stops(app, v);
    broke_draw(app, v, flat_x(v, 1), stud_width(v));
    glance_hose_draw(app, v, lane_of(v));
}

void glance_view_draw(const App *app, const GlanceView *v)
{
    Ui *ui = app->ui;
    ui_rect(ui, v->r.x, v->r.y, v->r.w, v->r.h, ui->theme->glass);
    if (app->task.sight == SIGHT_OPEN) {
        open_wall(app, v);
    } else {
        taped_wall(app, v);
    }
    ui_layer(ui, NULL);
    if (!broke_is_on(app)) {
        face_words(app, v);
    }
    ui_frame(ui, v->r, 2.0f, ui->theme->ink);
    app->laid->look = v->r;
    app->laid->look_px_m = v->px_m;
    app_mark(app, "look", v->r);
    float mouth = at_height(v, run_mouth_y(&app->run));
    float x = v->inner.x + (float)(app->run.view->mouth_x_m * v->px_m);
    app_mark(app, "mouth", (GfxRect){x - 5.0f, mouth - 5.0f, 10.0f, 10.0f});
    if (!app_mark_find(app, "bay")) {
        app->laid->bay = v->r;
        app->laid->bay_px_m = v->px_m;
        app_mark(app, "bay", v->r);
    }
}
