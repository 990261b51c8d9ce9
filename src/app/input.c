/* Events into intentions: mouse, keys and controller all do everything. Held keys are remembered
 * from events (synthetic events do not change what SDL_GetKeyboardState says). */
#include "app.h"

#include <math.h>
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

void app_again(App *app)
{
    PbError err = {0};
    PbSessionConfig config = app->run.config;
    if (run_start(&app->run, &config, &err) == PB_OK) {
        app_take_climate(app);
        app->screen = SCREEN_BAY;
        app->notice.until_s = 0.0;
        app->tube_want_m = -1.0;
        app->wax_pressure_pa = app->wax_feed = -1.0;
        app->is_paused = 0;
        app->held.rate_sent = 0;
    }
}

static void turn(App *app)
{
    run_command(&app->run, PB_COMMAND_TURN, app->run.view->signals.direction > 0 ? -1.0 : 1.0);
    app->tube_want_m = -1.0;
}

static void text_size(App *app, double by)
{
    double s = floor((app->text_scale + by) * 20.0 + 0.5) / 20.0;
    app->text_scale = s < 1.0 ? 1.0 : s > 2.0 ? 2.0 : s;
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

static void shot(App *app)
{
    app->want_shot = 1;
    SDL_snprintf(app->shot_name, sizeof app->shot_name, "pullback-%06.0f.png", app->now_s * 100.0);
}

/* Widget keys; the arrows repeat, the rest of the keyboard does not. */
static void widget_key(App *app, const SDL_KeyboardEvent *k)
{
    UiInput *in = &app->ui.in;
    in->left += k->keysym.sym == SDLK_LEFT;
    in->right += k->keysym.sym == SDLK_RIGHT;
    in->up += k->keysym.sym == SDLK_UP;
    in->down += k->keysym.sym == SDLK_DOWN;
    if (k->keysym.sym == SDLK_TAB && !k->repeat) {
        in->next += !(k->keysym.mod & KMOD_SHIFT);
        in->previous += (k->keysym.mod & KMOD_SHIFT) != 0;
    }
    if (!k->repeat) {
        in->enter += k->keysym.sym == SDLK_RETURN || k->keysym.sym == SDLK_KP_ENTER;
        in->space += k->keysym.sym == SDLK_SPACE;
        in->escape += k->keysym.sym == SDLK_ESCAPE;
    }
    /* Up and down walk through the controls as Tab does. */
    in->previous += k->keysym.sym == SDLK_UP;
    in->next += k->keysym.sym == SDLK_DOWN;
}

static void work_key(App *app, SDL_Keycode key)
{
    switch (key) {
    case SDLK_t:
        turn(app);
        break;
    case SDLK_SPACE:
        /* The machine, unless Tab has put the ring on something that Space presses. */
        if (!app->ui.is_ring_shown || app->ui.focus == 0 || app->ui.focus == ID_TUBE ||
            app->ui.focus == ID_BLOWER || app->ui.focus == ID_FEED) {
            app_machine(app, !app->run.view->signals.machine_on);
            app->ui.in.space = 0;
        }
        break;
    case SDLK_b:
        app_machine(app, 0);
        break;
    case SDLK_k:
        run_command(&app->run, PB_COMMAND_CLEAR_PLUG, 0.0);
        break;
    case SDLK_m:
        wax_mark(app);
        break;
    case SDLK_p:
        app->is_paused = !app->is_paused;
        break;
    case SDLK_f:
        app_finish(app);
        break;
    case SDLK_c:
        app->middle_tab = app->middle_tab == MIDDLE_CLOSE ? MIDDLE_TRAVEL : MIDDLE_CLOSE;
        break;
    default:
        break;
    }
}

static void key_down(App *app, const SDL_KeyboardEvent *k)
{
    SDL_Keycode key = k->keysym.sym;
    int ctrl = (k->keysym.mod & KMOD_CTRL) != 0;
    widget_key(app, k);
    if (k->repeat) {
        return;
    }
    if (key == SDLK_F11) {
        shot(app);
    } else if (key == SDLK_F12 && app->options.dump[0]) {
        dump_write(app, app->options.dump);
    } else if (key == SDLK_F1) {
        app->cautions_open = !app->cautions_open;
        app->on_after_cautions = 0;
        app->ui.focus = app->cautions_open ? ID_CARD_OK : 0;
    } else if (ctrl && (key == SDLK_PLUS || key == SDLK_EQUALS || key == SDLK_KP_PLUS)) {
        text_size(app, 0.1);
    } else if (ctrl && (key == SDLK_MINUS || key == SDLK_KP_MINUS)) {
        text_size(app, -0.1);
    } else if (key == SDLK_ESCAPE) {
        app->cautions_open = app->on_after_cautions = 0;
        app->ui.focus = 0;
    } else if (app->cautions_open || app->screen != SCREEN_BAY || ctrl) {
        return;
    } else if (key == SDLK_w && (k->keysym.mod & KMOD_SHIFT)) {
        nudge_tube(app, -set_step_m);
    } else if (!hold(app, key, 1)) {
        work_key(app, key);
    }
}

static double pixels(const App *app, int points)
{
    return points * app->display_scale;
}

static int over_tube(const App *app, float x, float y)
{
    return ui_inside(app->bay, x, y) || ui_inside(app->look, x, y);
}

static void mouse(App *app, const SDL_Event *e)
{
    UiInput *in = &app->ui.in;
    if (e->type == SDL_MOUSEMOTION) {
        in->mouse_x = (float)pixels(app, e->motion.x);
        in->mouse_y = (float)pixels(app, e->motion.y);
        return;
    }
    in->mouse_x = (float)pixels(app, e->button.x);
    in->mouse_y = (float)pixels(app, e->button.y);
    if (e->button.button != SDL_BUTTON_LEFT) {
        return;
    }
    int down = e->type == SDL_MOUSEBUTTONDOWN;
    in->is_down = down;
    in->pressed += down;
    in->released += !down;
    if (down && !app->cautions_open && over_tube(app, in->mouse_x, in->mouse_y)) {
        app->is_dragging = ui_inside(app->look, in->mouse_x, in->mouse_y) ? 2 : 1;
        app->drag_y = in->mouse_y;
        app->drag_from_m = app->run.view->signals.tube_in_m;
    } else if (!down) {
        app->is_dragging = 0;
    }
}

static void wheel(App *app, const SDL_MouseWheelEvent *w)
{
    float notches = w->preciseY * (w->direction == SDL_MOUSEWHEEL_FLIPPED ? -1.0f : 1.0f);
    if (!app->cautions_open && over_tube(app, app->ui.in.mouse_x, app->ui.in.mouse_y)) {
        /* Forward moves the mouth up on the screen, whichever way the tube points. */
        nudge_tube(app, (double)notches * wheel_step_m * app->run.view->signals.direction);
    } else {
        app->ui.in.wheel += notches;
    }
}

static void pad_button(App *app, int button)
{
    UiInput *in = &app->ui.in;
    int is_bay = app->screen == SCREEN_BAY && !app->cautions_open;
    switch (button) {
    case SDL_CONTROLLER_BUTTON_A:
        if (is_bay) {
            app_machine(app, !app->run.view->signals.machine_on);
        } else {
            in->enter++;
        }
        break;
    case SDL_CONTROLLER_BUTTON_B:
        app_machine(app, 0);
        break;
    case SDL_CONTROLLER_BUTTON_Y:
        turn(app);
        break;
    case SDL_CONTROLLER_BUTTON_X:
        wax_mark(app);
        break;
    case SDL_CONTROLLER_BUTTON_START:
        app_finish(app);
        break;
    case SDL_CONTROLLER_BUTTON_BACK:
        app->is_paused = !app->is_paused;
        break;
    case SDL_CONTROLLER_BUTTON_DPAD_UP:
        in->previous++;
        break;
    case SDL_CONTROLLER_BUTTON_DPAD_DOWN:
        in->next++;
        break;
    case SDL_CONTROLLER_BUTTON_DPAD_LEFT:
        in->left++;
        break;
    case SDL_CONTROLLER_BUTTON_DPAD_RIGHT:
        in->right++;
        break;
    default:
        break;
    }
}

static void pad_hold(App *app, int button, int down)
{
    if (button == SDL_CONTROLLER_BUTTON_LEFTSHOULDER) {
        app->held.blower_less = down;
    } else if (button == SDL_CONTROLLER_BUTTON_RIGHTSHOULDER) {
        app->held.blower_more = down;
    } else if (down) {
        pad_button(app, button);
    }
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

static void window_event(App *app, const SDL_WindowEvent *w)
{
    if (w->event == SDL_WINDOWEVENT_SIZE_CHANGED) {
        app_window_measure(app);
    } else if (w->event == SDL_WINDOWEVENT_FOCUS_LOST) {
        memset(&app->held, 0, sizeof app->held);
        run_command(&app->run, PB_COMMAND_TUBE_RATE, 0.0);
        app->is_dragging = 0;
    }
}

void app_input_event(App *app, const SDL_Event *e)
{
    switch (e->type) {
    case SDL_QUIT:
        app->is_running = 0;
        break;
    case SDL_WINDOWEVENT:
        window_event(app, &e->window);
        break;
    case SDL_KEYDOWN:
        key_down(app, &e->key);
        break;
    case SDL_KEYUP:
        hold(app, e->key.keysym.sym, 0);
        break;
    case SDL_MOUSEMOTION:
    case SDL_MOUSEBUTTONDOWN:
    case SDL_MOUSEBUTTONUP:
        mouse(app, e);
        break;
    case SDL_MOUSEWHEEL:
        wheel(app, &e->wheel);
        break;
    case SDL_CONTROLLERBUTTONDOWN:
        pad_hold(app, e->cbutton.button, 1);
        break;
    case SDL_CONTROLLERBUTTONUP:
        pad_hold(app, e->cbutton.button, 0);
        break;
    case SDL_CONTROLLERAXISMOTION:
        pad_axis(app, &e->caxis);
        break;
    case SDL_CONTROLLERDEVICEADDED:
        if (app->pad == NULL) {
            app->pad = SDL_GameControllerOpen(e->cdevice.which);
        }
        break;
    case SDL_CONTROLLERDEVICEREMOVED:
        if (app->pad != NULL) {
            SDL_GameControllerClose(app->pad);
            app->pad = NULL;
            memset(&app->held, 0, sizeof app->held);
        }
        break;
    default:
        break;
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

void app_input_held(App *app, double dt_s)
{
    AppHeld *h = &app->held;
    const PbSignals *s = &app->run.view->signals;
    double feed_max = app->run.config.exercise.machine.feed_max_kg_s;
    if (app->screen != SCREEN_BAY || app->cautions_open) {
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
