/* What the system says of pointers, in pixels and notches. */
#include "base/app.h"

double app_pixels(const App *app, int points)
{
    return points * app->win.display_scale;
}

double app_notches(const SDL_MouseWheelEvent *w)
{
    return (double)w->preciseY * (w->direction == SDL_MOUSEWHEEL_FLIPPED ? -1.0 : 1.0);
}
