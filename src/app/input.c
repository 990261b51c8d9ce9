/* What hands do in the bay room: mouse, keys and controller all do everything. Held keys are
 * remembered from events (synthetic events do not change what SDL_GetKeyboardState says). */
#include "app.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

static const double tube_speed_m_s = 0.25; /* a held key or a stick at full tilt */
static const double setting_rate_s = 0.25; /* share of a slider a second */
static const double wheel_step_m = 0.025;
static const double set_step_m = 0.3048;

void app_machine(App *app, int on)
{
    if (on && !app->cautions_seen) {
        app->cautions_open = 1;
        app->on_after_cautions = 1;
        app->ui.focus = ID_CARD_OK;
        return;
    }
    run_command(&app->run, PB_COMMAND_MACHINE, on ? 1.0 : 0.0);
}

void app_tube_to(App *app, double tube_in_m)
{
    double max = run_tube_max(&app->run);
    double want = tube_in_m < 0.0 ? 0.0 : tube_in_m > max ? max : tube_in_m;
    app->tube_want_m = want;
    run_command(&app->run, PB_COMMAND_TUBE_TARGET, want);
}

static void nudge_tube(App *app, double by_m)
{
    double from = app->tube_want_m >= 0.0 ? app->tube_want_m : app->run.view->signals.tube_in_m;
    app_tube_to(app, from + by_m);
}

void app_finish(App *app)
{
    run_command(&app->run, PB_COMMAND_FINISH, 0.0);
}

static void turn(App *app)
{
    run_command(&app->run, PB_COMMAND_TURN, app->run.view->signals.direction > 0 ? -1.0 : 1.0);
    app->tube_want_m = -1.0;
}

static void wax_mark(App *app)
{
    if (app->ui.focus == ID_FEED) {
        app->wax_feed = app->run.view->signals.feed_set_kg_s;
    } else {
        app->wax_pressure_pa = app->needle_pa;
    }
}

/* Keys that hold: 1 when it is one of them. */
static int hold(App *app, SDL_Keycode key, int down)
{
    AppHeld *h = &app->held;
    switch (key) {
    case SDLK_w:
        h->tube_out = down;
        return 1;
    case SDLK_s:
        h->tube_in = down;
        return 1;
    case SDLK_a:
        h->blower_less = down;
        return 1;
    case SDLK_d:
        h->blower_more = down;
        return 1;
    case SDLK_q:
        h->feed_less = down;
        return 1;
    case SDLK_e:
        h->feed_more = down;
        return 1;
    default:
        return 0;
    }
}

/* 1 when the key is one that hands use. */
static int work_key(App *app, SDL_Keycode key)
{
    switch (key) {
    case SDLK_t:
        turn(app);
        return 1;
    case SDLK_ESCAPE:
        app_go(app, SCREEN_DOOR);
        return 1;
    case SDLK_SPACE:
        /* The machine, unless Tab has put the ring on something that Space presses. */
        if (!app->ui.is_ring_shown || app->ui.focus == 0 || app->ui.focus == ID_TUBE ||
            app->ui.focus == ID_BLOWER || app->ui.focus == ID_FEED) {
            app_machine(app, !app->run.view->signals.machine_on);
            return 1;
        }
        return 0;
    case SDLK_b:
        app_machine(app, 0);
        return 1;
    case SDLK_k:
        run_command(&app->run, PB_COMMAND_CLEAR_PLUG, 0.0);
        return 1;
    case SDLK_m:
        wax_mark(app);
        return 1;
    case SDLK_p:
        app->is_paused = !app->is_paused;
        return 1;
    case SDLK_f:
        app_finish(app);
        return 1;
    case SDLK_c:
        app->middle_tab = app->middle_tab == MIDDLE_CLOSE ? MIDDLE_TRAVEL : MIDDLE_CLOSE;
        return 1;
    default:
        return 0;
    }
}

static int key_down(App *app, const SDL_KeyboardEvent *k)
{
    SDL_Keycode key = k->keysym.sym;
    if (k->repeat || (k->keysym.mod & KMOD_CTRL) != 0) {
        return 0;
    }
    if (key == SDLK_w && (k->keysym.mod & KMOD_SHIFT)) {
        nudge_tube(app, -set_step_m);
        return 1;
    }
    return hold(app, key, 1) || work_key(app, key);
}

static int over_tube(const App *app, float x, float y)
{
    return ui_inside(app->bay, x, y) || ui_inside(app->look, x, y);
}

/* Taking hold of the tube; widgets see the button as well. */
static void grab(App *app, const SDL_MouseButtonEvent *b)
{
    float x = (float)app_pixels(app, b->x), y = (float)app_pixels(app, b->y);
    if (b->button == SDL_BUTTON_LEFT && over_tube(app, x, y)) {
        app->is_dragging = ui_inside(app->look, x, y) ? 2 : 1;
        app->drag_y = y;
        app->drag_from_m = app->run.view->signals.tube_in_m;
    }
}

static int wheel(App *app, const SDL_MouseWheelEvent *w)
{
    if (!over_tube(app, app->ui.in.mouse_x, app->ui.in.mouse_y)) {
        return 0;
    }
    /* Forward moves the mouth up on the screen, whichever way the tube points. */
    nudge_tube(app, app_notches(w) * wheel_step_m * app->run.view->signals.direction);
    return 1;
}

static int pad_button(App *app, int button)
{
    switch (button) {
    case SDL_CONTROLLER_BUTTON_A:
        app_machine(app, !app->run.view->signals.machine_on);
        return 1;
    case SDL_CONTROLLER_BUTTON_B:
        app_machine(app, 0);
        return 1;
    case SDL_CONTROLLER_BUTTON_Y:
        turn(app);
        return 1;
    case SDL_CONTROLLER_BUTTON_X:
        wax_mark(app);
        return 1;
    case SDL_CONTROLLER_BUTTON_START:
        app_finish(app);
        return 1;
    case SDL_CONTROLLER_BUTTON_BACK:
        app->is_paused = !app->is_paused;
        return 1;
    default:
        return 0;
    }
}

static int pad_hold(App *app, int button, int down)
{
    if (button == SDL_CONTROLLER_BUTTON_LEFTSHOULDER) {
        app->held.blower_less = down;
        return 1;
    }
    if (button == SDL_CONTROLLER_BUTTON_RIGHTSHOULDER) {
        app->held.blower_more = down;
        return 1;
    }
    return down && pad_button(app, button);
}

static void pad_axis(App *app, const SDL_ControllerAxisEvent *a)
{
    double v = a->value / 32767.0;
    double live = fabs(v) < 0.15 ? 0.0 : v;
    if (a->axis == SDL_CONTROLLER_AXIS_LEFTY) {
        app->held.stick_rate = live; /* stick down pushes in, up pulls out, as W and S */
    } else if (a->axis == SDL_CONTROLLER_AXIS_TRIGGERLEFT) {
        app->held.feed_trigger = -live;
    } else if (a->axis == SDL_CONTROLLER_AXIS_TRIGGERRIGHT) {
        app->held.feed_trigger = live;
    }
}

void bay_let_go(App *app)
{
    memset(&app->held, 0, sizeof app->held);
    run_command(&app->run, PB_COMMAND_TUBE_RATE, 0.0);
    app->is_dragging = 0;
}

int bay_input(App *app, const SDL_Event *e)
{
    switch (e->type) {
    case SDL_KEYDOWN:
        return key_down(app, &e->key);
    case SDL_KEYUP:
        hold(app, e->key.keysym.sym, 0);
        return 0;
    case SDL_MOUSEBUTTONDOWN:
        grab(app, &e->button);
        return 0;
    case SDL_MOUSEBUTTONUP:
        app->is_dragging = 0;
        return 0;
    case SDL_MOUSEWHEEL:
        return wheel(app, &e->wheel);
    case SDL_CONTROLLERBUTTONDOWN:
        return pad_hold(app, e->cbutton.button, 1);
    case SDL_CONTROLLERBUTTONUP:
        return pad_hold(app, e->cbutton.button, 0);
    case SDL_CONTROLLERAXISMOTION:
        pad_axis(app, &e->caxis);
        return 0;
    case SDL_WINDOWEVENT:
        if (e->window.event == SDL_WINDOWEVENT_FOCUS_LOST) {
            bay_let_go(app);
        }
        return 0;
    default:
        return 0;
    }
}

static void held_tube(App *app)
{
    AppHeld *h = &app->held;
    double rate = (h->tube_in - h->tube_out) * tube_speed_m_s + h->stick_rate * tube_speed_m_s;
    if (rate != 0.0) {
        run_command(&app->run, PB_COMMAND_TUBE_RATE, rate);
        h->rate_sent = 1;
        app->tube_want_m = -1.0;
    } else if (h->rate_sent) {
        run_command(&app->run, PB_COMMAND_TUBE_RATE, 0.0);
        h->rate_sent = 0;
    }
}

static double clamp(double v, double high)
{
    return v < 0.0 ? 0.0 : v > high ? high : v;
}

void bay_held(App *app, double dt_s)
{
    AppHeld *h = &app->held;
    const PbSignals *s = &app->run.view->signals;
    double feed_max = app->run.config.exercise.machine.feed_max_kg_s;
    if (app_is_covered(app)) {
        return;
    }
    held_tube(app);
    double blower = (h->blower_more - h->blower_less) * setting_rate_s * dt_s;
    if (blower != 0.0) {
        app->blower_want = clamp(app->blower_want + blower, 1.0);
        run_command(&app->run, PB_COMMAND_BLOWER, app->blower_want);
    } else {
        app->blower_want = s->blower_setting;
    }
    double feed = (h->feed_more - h->feed_less + h->feed_trigger) * setting_rate_s * dt_s;
    if (feed != 0.0) {
        app->feed_want_kg_s = clamp(app->feed_want_kg_s + feed * feed_max, feed_max);
        run_command(&app->run, PB_COMMAND_FEED, app->feed_want_kg_s);
    } else {
        app->feed_want_kg_s = s->feed_set_kg_s;
    }
    if (app->is_dragging) {
        double px_m = app->is_dragging == 2 ? app->look_px_m : app->bay_px_m;
        if (px_m > 0.0) {
            double up = (double)(app->drag_y - app->ui.in.mouse_y) / px_m;
            app_tube_to(app, app->drag_from_m + up * s->direction);
        }
    }
}
