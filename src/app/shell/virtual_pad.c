/* For tests: a controller that is not there, plugged in through SDL itself so that its events take
 * the same way as a real one's. It counts the shakes that it is asked for. */
#include "shell/shell.h"

#include <string.h>

static int SDLCALL felt(void *userdata, Uint16 low, Uint16 high)
{
    App *app = userdata;
    app->bay->rumbles += low > 0 || high > 0;
    return 0;
}

void virtual_pad_attach(App *app)
{
    SDL_VirtualJoystickDesc d;
    memset(&d, 0, sizeof d);
    d.version = SDL_VIRTUAL_JOYSTICK_DESC_VERSION;
    d.type = SDL_JOYSTICK_TYPE_GAMECONTROLLER;
    d.naxes = SDL_CONTROLLER_AXIS_MAX;
    d.nbuttons = SDL_CONTROLLER_BUTTON_MAX;
    d.axis_mask = (1u << SDL_CONTROLLER_AXIS_MAX) - 1u;
    d.button_mask = (1u << SDL_CONTROLLER_BUTTON_MAX) - 1u;
    d.name = "virtual controller";
    d.userdata = app;
    d.Rumble = felt;
    app->bay->pad_index = SDL_JoystickAttachVirtualEx(&d) + 1;
}

void virtual_pad_detach(App *app)
{
    if (app->bay->pad_index > 0) {
        SDL_JoystickDetachVirtual(app->bay->pad_index - 1);
        app->bay->pad_index = 0;
    }
}

int virtual_pad_set(App *app, const char *what, double value)
{
    SDL_GameControllerAxis axis = SDL_GameControllerGetAxisFromString(what);
    SDL_GameControllerButton button = SDL_GameControllerGetButtonFromString(what);
    SDL_Joystick *j = app->win.pad != NULL ? SDL_GameControllerGetJoystick(app->win.pad) : NULL;
    if (j == NULL || app->bay->pad_index == 0) {
        return 0;
    }
    if (axis != SDL_CONTROLLER_AXIS_INVALID) {
        return SDL_JoystickSetVirtualAxis(j, axis, (Sint16)(value * 32767.0)) == 0;
    }
    return button != SDL_CONTROLLER_BUTTON_INVALID &&
           SDL_JoystickSetVirtualButton(j, button, value > 0.5) == 0;
}
