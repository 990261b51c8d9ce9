/* What hands do in the bay room: mouse, keys and controller all do everything. Held keys are
 * remembered from events (synthetic events do not change what SDL_GetKeyboardState says). */
#include "bay/bay.h"

#include "core/units.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static const double tube_speed_m_s = 0.25; /* a held key or a stick at full tilt */
static const double setting_rate_s = 0.25; /* share of a slider a second */
static const double wheel_step_m = 0.025;
const double bay_step_m = PB_M_PER_FT;

void app_machine(App *app, int on)
{
    if (on && !app->task.cautions_seen) {
        app->cards.cautions_open = 1;
        app->cards.on_after_cautions = 1;
        app->ui->focus = ID_CARD_OK;
        return;
    }
    run_command(&app->run, PB_COMMAND_MACHINE, on ? 1.0 : 0.0);
}

void app_tube_to(App *app, double tube_in_m)
{
    double max = run_tube_max(&app->run);
    double want = tube_in_m < 0.0 ? 0.0 : tube_in_m > max ? max : tube_in_m;
    app->bay->tube_want_m = want;
    run_command(&app->run, PB_COMMAND_TUBE_TARGET, want);
}

static void nudge_tube(App *app, double by_m)
{
    double from =
        app->bay->tube_want_m >= 0.0 ? app->bay->tube_want_m : app->run.view->signals.tube_in_m;
    app_tube_to(app, from + by_m);
}

void app_finish(App *app)
{
    run_command(&app->run, PB_COMMAND_FINISH, 0.0);
}

void bay_turn(App *app, int direction)
{
    run_command(&app->run, PB_COMMAND_TURN, (double)direction);
    app->bay->tube_want_m = -1.0;
}

void bay_turn_over(App *app)
{
    app->bay->is_full = !app->bay->is_full;
}

void bay_pull(App *app)
{
    nudge_tube(app, -bay_step_m);
}

static double clamp(double v, double high)
{
    return v < 0.0 ? 0.0 : v > high ? high : v;
}

/* Not from where a target would have it: as a held key, from where it is. Taps between two ticks
 * add up. */
static void tap_tube(App *app, double by_m)
{
    AppHeld *h = &app->bay->held;
    const PbView *v = app->run.view;
    h->tap_in_m = (h->tap_ticks == v->tick + 1 ? h->tap_in_m : v->signals.tube_in_m) + by_m;
    h->tap_in_m = fmin(h->tap_in_m, run_tube_max(&app->run));
    h->tap_ticks = v->tick + 1;
    h->rate_sent = 0;
    app->bay->tube_want_m = -1.0;
    run_command(&app->run, PB_COMMAND_TUBE_TARGET, h->tap_in_m);
}

static void tap_setting(App *app, PbCommandKind kind, double *want, double by, double high)
{
    double least = clamp(app->bay->held.down_want + by, high);
    *want = by > 0.0 ? fmax(*want, least) : fmin(*want, least);
    run_command(&app->run, kind, *want);
}

/* A key that was let go before any tick saw it held has done one tick's worth all the same. */
static void tap(App *app, int action)
{
    double tube_m = tube_speed_m_s * PB_TICK_S, part = setting_rate_s * PB_TICK_S;
    double feed_max = app->run.config.exercise.machine.feed_max_kg_s;
    int is_less = action == KEY_BLOWER_LESS || action == KEY_FEED_LESS;
    if (action == KEY_TUBE_OUT || action == KEY_TUBE_IN) {
        tap_tube(app, action == KEY_TUBE_IN ? tube_m : -tube_m);
    } else if (action == KEY_BLOWER_LESS || action == KEY_BLOWER_MORE) {
        tap_setting(app, PB_COMMAND_BLOWER, &app->bay->blower_want, is_less ? -part : part, 1.0);
    } else {
        tap_setting(app, PB_COMMAND_FEED, &app->bay->feed_want_kg_s,
                    (is_less ? -part : part) * feed_max, feed_max);
    }
}

static void press(App *app, int action)
{
    int is_blower = action == KEY_BLOWER_LESS || action == KEY_BLOWER_MORE;
    app->bay->held.down_tick[action] = app->run.view->tick;
    app->bay->held.down_want = is_blower ? app->bay->blower_want : app->bay->feed_want_kg_s;
}

/* Actions that last as long as the key or button is held: 1 when it is one of them. */
static int hold(App *app, int action, int down)
{
    AppHeld *h = &app->bay->held;
    int *const held[] = {[KEY_TUBE_OUT] = &h->tube_out,       [KEY_TUBE_IN] = &h->tube_in,
                         [KEY_BLOWER_LESS] = &h->blower_less, [KEY_BLOWER_MORE] = &h->blower_more,
                         [KEY_FEED_LESS] = &h->feed_less,     [KEY_FEED_MORE] = &h->feed_more};
    if (action < 0 || action >= (int)(sizeof held / sizeof held[0]) || held[action] == NULL) {
        return 0;
    }
    int was_down = *held[action];
    *held[action] = down;
    if (app->run.view != NULL && down && !was_down) {
        press(app, action);
    } else if (app->run.view != NULL && !down && was_down && !app_is_covered(app) &&
               h->down_tick[action] == app->run.view->tick) {
        tap(app, action);
    }
    return 1;
}

/* 1 when the action is one that hands do at once. */
static int work(App *app, int action)
{
    switch (action) {
    case KEY_STEP_OUT:
        bay_pull(app);
        return 1;
    case KEY_TURN:
        bay_turn(app, app->run.view->signals.direction > 0 ? -1 : 1);
        return 1;
    case KEY_MACHINE:
        app_machine(app, !app->run.view->signals.machine_on);
        return 1;
    case KEY_SHUT_OFF:
        app_machine(app, 0);
        return 1;
    case KEY_CLEAR:
        safety_clear_plug(app);
        return 1;
    case KEY_FINISH:
        app_finish(app);
        return 1;
    case KEY_WAX:
        sight_wax(app);
        return 1;
    case KEY_PAUSE:
        app->task.is_paused = !app->task.is_paused;
        return 1;
    case KEY_CLOSE_LOOK:
        app->bay->middle_tab = app->bay->middle_tab == MIDDLE_CLOSE ? MIDDLE_TRAVEL : MIDDLE_CLOSE;
        return 1;
    case KEY_SIGHT:
        sight_next(app);
        return 1;
    case KEY_MUTE:
        sound_mute(app);
        return 1;
    case KEY_ALL_THE_REST:
        bay_turn_over(app);
        return 1;
    case KEY_QUICKER:
        quick_turn(app);
        return 1;
    default:
        return acts_key(app, action);
    }
}

/* Space and Enter belong to a widget when Tab has put the ring on one that they press. */
static int is_for_widget(const App *app, SDL_Keycode key)
{
    int focus = app->ui->focus;
    return (key == SDLK_SPACE || key == SDLK_RETURN) && app->ui->is_ring_shown && focus != 0 &&
           focus != ID_TUBE && focus != ID_BLOWER && focus != ID_FEED;
}

static int key_down(App *app, const SDL_KeyboardEvent *k)
{
    int action = keymap_action(&app->keymap, k->keysym.sym);
    if (k->repeat || (k->keysym.mod & KMOD_CTRL) != 0 || is_for_widget(app, k->keysym.sym)) {
        return 0;
    }
    if (k->keysym.sym == SDLK_ESCAPE) {
        app_go(app, SCREEN_DOOR);
        return 1;
    }
    if (action == KEY_TUBE_OUT && (k->keysym.mod & KMOD_SHIFT)) {
        action = KEY_STEP_OUT;
    }
    return hold(app, action, 1) || work(app, action);
}

static int over_tube(const App *app, float x, float y)
{
    return ui_inside(app->laid->bay, x, y) || ui_inside(app->laid->look, x, y);
}

/* Taking hold of the tube; widgets see the button as well. */
static void grab(App *app, const SDL_MouseButtonEvent *b)
{
    float x = (float)app_pixels(app, b->x), y = (float)app_pixels(app, b->y);
    if (b->button == SDL_BUTTON_LEFT && over_tube(app, x, y)) {
        app->bay->drag = ui_inside(app->laid->look, x, y) ? DRAG_LOOK : DRAG_BAY;
        app->bay->drag_y = y;
        app->bay->drag_from_m = app->run.view->signals.tube_in_m;
    }
}

/* The tube goes where the hand that holds it is. */
static void drag_to(App *app, float y)
{
    double px_m = app->bay->drag == DRAG_LOOK ? app->laid->look_px_m : app->laid->bay_px_m;
    if (app->bay->drag != DRAG_NONE && px_m > 0.0) {
        double up = (double)(app->bay->drag_y - y) / px_m;
        app_tube_to(app, app->bay->drag_from_m + up * app->run.view->signals.direction);
    }
}

static int wheel(App *app, const SDL_MouseWheelEvent *w)
{
    if (!over_tube(app, app->ui->in.mouse_x, app->ui->in.mouse_y)) {
        return 0;
    }
    /* Forward moves the mouth up on the screen, whichever way the tube points. */
    nudge_tube(app, app_notches(w) * wheel_step_m * app->run.view->signals.direction);
    return 1;
}

static int pad_button(App *app, int button, int down)
{
    int action = keymap_pad_action(&app->keymap, button);
    if (button == SDL_CONTROLLER_BUTTON_A && is_for_widget(app, SDLK_RETURN)) {
        return 0; /* the arrows of the controller have put the ring on something it presses */
    }
    return hold(app, action, down) || (down && work(app, action));
}

static void pad_axis(App *app, const SDL_ControllerAxisEvent *a)
{
    double v = a->value / 32767.0;
    double live = fabs(v) < 0.15 ? 0.0 : v;
    double *const held[KEY_AXES] = {[AXIS_TUBE] = &app->bay->held.stick_rate,
                                    [AXIS_FEED_LESS] = &app->bay->held.trigger_less,
                                    [AXIS_FEED_MORE] = &app->bay->held.trigger_more};
    for (int i = 0; i < KEY_AXES; i++) { /* stick down pushes in, up pulls out, as W and S */
        if (abs(app->keymap.axis[i]) == a->axis + 1) {
            double push = keymap_axis_push(&app->keymap, (KeyAxis)i, a->axis, live);
            *held[i] = i == AXIS_TUBE || push > 0.0 ? push : 0.0;
        }
    }
}

void bay_let_go(App *app)
{
    memset(&app->bay->held, 0, sizeof app->bay->held);
    run_command(&app->run, PB_COMMAND_TUBE_RATE, 0.0);
    app->bay->drag = DRAG_NONE;
}

int bay_input(App *app, const SDL_Event *e)
{
    switch (e->type) {
    case SDL_KEYDOWN:
        return key_down(app, &e->key);
    case SDL_KEYUP:
        hold(app, keymap_action(&app->keymap, e->key.keysym.sym), 0);
        return 0;
    case SDL_MOUSEBUTTONDOWN:
        grab(app, &e->button);
        return 0;
    case SDL_MOUSEMOTION:
        drag_to(app, (float)app_pixels(app, e->motion.y));
        return 0;
    case SDL_MOUSEBUTTONUP:
        app->bay->drag = DRAG_NONE;
        return 0;
    case SDL_MOUSEWHEEL:
        return wheel(app, &e->wheel);
    case SDL_CONTROLLERBUTTONDOWN:
        return pad_button(app, e->cbutton.button, 1);
    case SDL_CONTROLLERBUTTONUP:
        return pad_button(app, e->cbutton.button, 0);
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
    AppHeld *h = &app->bay->held;
    double rate = (h->tube_in - h->tube_out) * tube_speed_m_s + h->stick_rate * tube_speed_m_s;
    if (rate != 0.0) {
        run_command(&app->run, PB_COMMAND_TUBE_RATE, rate);
        h->rate_sent = 1;
        app->bay->tube_want_m = -1.0;
    } else if (h->rate_sent) {
        run_command(&app->run, PB_COMMAND_TUBE_RATE, 0.0);
        h->rate_sent = 0;
    }
}

void bay_held(App *app, double dt_s)
{
    AppHeld *h = &app->bay->held;
    const PbSignals *s = &app->run.view->signals;
    double feed_max = app->run.config.exercise.machine.feed_max_kg_s;
    if (app_is_covered(app)) {
        return;
    }
    held_tube(app);
    double blower = (h->blower_more - h->blower_less) * setting_rate_s * dt_s;
    if (blower != 0.0) {
        app->bay->blower_want = clamp(app->bay->blower_want + blower, 1.0);
        run_command(&app->run, PB_COMMAND_BLOWER, app->bay->blower_want);
    } else {
        app->bay->blower_want = s->blower_setting;
    }
    double feed =
        (h->feed_more - h->feed_less + h->trigger_more - h->trigger_less) * setting_rate_s * dt_s;
    if (feed != 0.0) {
        app->bay->feed_want_kg_s = clamp(app->bay->feed_want_kg_s + feed * feed_max, feed_max);
        run_command(&app->run, PB_COMMAND_FEED, app->bay->feed_want_kg_s);
    } else {
        app->bay->feed_want_kg_s = s->feed_set_kg_s;
    }
    drag_to(app, app->ui->in.mouse_y);
}
