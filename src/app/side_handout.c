/* The handout: whose name stands on it, which year it shows, and the file it becomes. */
#include "side.h"

#include <math.h>
#include <string.h>

void side_handout_draw(App *app, GfxRect r)
{
    (void)app;
    (void)r;
}
