/* How much of the wall is seen: open (all), taped (outline and bow of the face), closed (what a
 * crew has). Here the run is turned into the little that a closed wall may know. */
#include "bay/bay.h"

#include "core/units.h"

#include <math.h>
#include <string.h>

static SightPlan plan_of(const PbExercise *e, const PbHole *hole)
{
    SightPlan p = {.width_m = e->width_m,
                   .height_m = e->height_m,
                   .hole_x_m = hole->x_m,
                   .hole_y_m = hole->y_m,
                   .static_pa = e->machine.static_pa,
                   .open_flow_m3_s = e->machine.open_flow_m3_s,
                   .feed_max_kg_s = e->machine.feed_max_kg_s,
                   .tube_length_m = e->machine.tube_length_m,
                   .tube_outer_m = e->machine.tube_outer_m,
                   .hole_bore_m = hole->bore_m,
                   .fastener_m = 0.3048,
                   .hole_count = e->hole_count,
                   .has_cover = 1,
                   .cover_x_m = -0.7 * e->width_m,
                   .cover_y_m = 0.4};
    memcpy(p.holes, e->holes, sizeof p.holes);
    for (int i = 0; i < e->obstacle_count; i++) {
        const PbObstacle *o = &e->obstacles[i];
        if (pb_obstacle_traits(o->kind)->has_cover) {
            p.cover_x_m = 0.5 * (o->x0_m + o->x1_m);
            p.cover_y_m = 0.5 * (o->y0_m + o->y1_m);
        }
    }
    return p;
}

Gauge sight_gauge(const App *app)
{
    static const PbSignals none; /* before the first run */
    const SightMemory *m = &app->bay->memory;
    return (Gauge){.ui = app->ui,
                   .signals = app->run.view != NULL ? &app->run.view->signals : &none,
                   .plan = plan_of(&app->run.config.exercise, run_hole(&app->run)),
                   .needle_pa = app->bay->needle_pa,
                   .now_s = app_shown_s(app),
                   .tube_in_m = run_tube_in(&app->run),
                   .stop_min_pa = m->stop_min_pa,
                   .stop_max_pa = m->stop_max_pa,
                   .wax_pressure_pa = app->bay->wax_pressure_pa,
                   .wax_pitch = app->bay->wax_pitch,
                   .wax_pulse = app->bay->wax_pulse,
                   .reader = app_reader(app),
                   .is_still = app->taste.is_still,
                   .is_captioned = !app->taste.is_uncaptioned};
}

/* What the person chooses in practice, and finds again after a grade or the guide. */
static void choose(App *app, int sight)
{
    if (sight != app->task.sight) {
        app->task.sight = app->task.practice_sight = sight;
    }
}

void sight_next(App *app)
{
    if (!app->task.is_graded && !app->task.is_fill) {
        choose(app, (app->task.sight + 1) % SIGHT_LEVELS);
    }
}

void sight_wax(App *app)
{
    const PbSignals *s = &app->run.view->signals;
    switch (app->ui->focus) {
    case ID_FEED:
        app->bay->wax_feed = s->feed_set_kg_s;
        break;
    case ID_COMB:
        app->bay->wax_pitch =
            fmin(gauge_pitch(s, app->run.config.exercise.machine.static_pa), 27.0);
        break;
    case ID_SHAKE:
        app->bay->wax_pulse = s->hose_pulse;
        break;
    default:
        app->bay->wax_pressure_pa = app->bay->needle_pa;
        break;
    }
}

static void names(const char *out[SIGHT_LEVELS], int is_short)
{
    out[SIGHT_OPEN] = is_short ? _("Open") : _("Open wall");
    out[SIGHT_TAPED] = is_short ? _("Taped") : _("Taped wall");
    out[SIGHT_CLOSED] = is_short ? _("Closed") : _("Closed wall");
}

static float switch_width(const App *app, int is_short)
{
    const char *label[SIGHT_LEVELS];
    float widest = 0.0f;
    names(label, is_short);
    for (int i = 0; i < SIGHT_LEVELS; i++) {
        widest = fmaxf(widest, ui_width(app->ui, 14, UI_BOLD, label[i]));
    }
    return SIGHT_LEVELS * (widest + ui_px(app->ui, 16));
}

static void switches(const App *app, float right, float y, float high, float sight_w)
{
    Ui *ui = app->ui;
    const char *label[SIGHT_LEVELS];
    float sound = ui_px(ui, 104);
    names(label, sight_w < switch_width(app, 0));
    GfxRect r = {right - sight_w, y, sight_w, high};
    if (app->task.is_graded || app->task.is_fill) { /* stands still, and says so */
        char words[96];
        SDL_snprintf(words, sizeof words, app->task.is_graded ? _("Graded: %s") : _("Job: %s"),
                     label[app->task.sight]);
        ui_round(ui, r, ui_px(ui, 6), ui->theme->ink);
        ui_label(ui, r.x + r.w * 0.5f, r.y + r.h * 0.5f + ui_px(ui, 5), 14, UI_BOLD,
                 ui->theme->sheet, UI_CENTRE, words);
    } else {
        ui_segments(ui, ID_SIGHT, r, label, SIGHT_LEVELS, app->task.sight);
    }
    app_mark(app, "sight", r);
    if (r.x - sound < app->laid->middle.x - 40.0f && y >= app->laid->middle.y) {
        return;
    }
    GfxRect s = {r.x - ui_px(ui, 8) - sound, y, sound, high};
    ui_button(ui, ID_SOUND, s, sound_label(app), 0, 0);
    app_mark(app, "sound", s);
}

/* In the top band when there is room between the title and the buttons, else a row of its own over
 * the middle. Returns how high that row is. */
float sight_switch_draw(const App *app, float title_right, GfxRect middle)
{
    Ui *ui = app->ui;
    const AppMark *size = app_mark_find(app, "size");
    float right = (size != NULL ? size->rect.x : ui->width) - ui_px(ui, 8);
    float sound = ui_px(ui, 112), high = ui_px(ui, 30);
    for (int is_short = 0; is_short < 2; is_short++) {
        float w = switch_width(app, is_short);
        if (right - title_right > w + sound + ui_px(ui, 8)) {
            switches(app, right, (app_band_height(app) - high) * 0.5f, high, w);
            return 0.0f;
        }
    }
    float w = fminf(switch_width(app, 1), middle.w - sound);
    if (w < 0.8f * switch_width(app, 1)) { /* no room for both: the settings have the sound too */
        w = middle.w;
    }
    switches(app, middle.x + middle.w, middle.y, high, w);
    return high + ui_px(ui, 10);
}

void sight_answer(App *app)
{
    double sight;
    if (ui_answered(app->ui, ID_SIGHT, &sight)) {
        choose(app, (int)sight);
    }
    if (ui_answered(app->ui, ID_SOUND, NULL)) {
        sound_louder(app);
    }
}

void sight_closed_draw(const App *app, GfxRect r)
{
    Gauge g = sight_gauge(app);
    GfxRect hole;
    ui_layer(app->ui, &r);
    closed_wall_draw(&g, broke_is_on(app) ? NULL : &app->bay->memory, r, &app->laid->bay_px_m,
                     &hole);
    double m = app->laid->bay_px_m;
    const SightPlan *p = &g.plan;
    GfxRect bay = {.w = (float)(p->width_m * m), .h = (float)(p->height_m * m)};
    bay.x = hole.x + 0.5f * hole.w - (float)(p->hole_x_m * m);
    bay.y = hole.y + 0.5f * hole.h + (float)(p->hole_y_m * m) - bay.h;
    broke_face_draw(app, bay, bay.y + bay.h + (float)(0.04 * m), m);
    ui_layer(app->ui, NULL);
    app->laid->bay = r;
    app_mark(app, "hole", hole);
    app_mark(app, "wall", r);
}

/* A wall that is not open must not speak of what only an open one shows. */
int sight_may_tell(const App *app, PbEventKind kind)
{
    return app->task.sight == SIGHT_OPEN || kind != PB_EVENT_RUNAWAY;
}
